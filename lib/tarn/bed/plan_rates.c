/* SPDX-License-Identifier: MIT */
/* The bed of a plan under the removal rates that are known of ammonia. */
#include <string.h>

#include "plan.h"
#include "constants.h"

/* Sewage beds: a median of many, and a garden-like one. */
static const char *const compared[] = {
	"hf-ammonia-2009", "beijing-ammonia-2016",
};

/* Judges the bed under rate (or NULL) and what 'w' says besides. */
static enum tarn_status judge(const struct tarn_bed_plan *p,
			      const struct tarn_rate *rate,
			      const struct tarn_bed_wish *w,
			      struct tarn_bed_rated *r,
			      struct tarn_error *err)
{
	struct tarn_sizing s = tn_plan_sizing(p, p->sized.bed.area_m2);
	struct tarn_sizing none = tarn_sizing_default();
	struct tarn_sizing_result out;
	enum tarn_status st;

	s.k_m_yr = none.k_m_yr;
	s.theta = none.theta;
	s.tanks_in_series = none.tanks_in_series;
	s.background_mgl = none.background_mgl;
	s.k_low_m_d = none.k_low_m_d;
	s.k_high_m_d = none.k_high_m_d;
	tn_plan_rate(&s, rate, w);
	st = tarn_sizing(&s, &out, err);
	if (st != TARN_OK)
		return st;
	r->k_m_yr = isnan(w->k_m_yr) ? out.bed.k_m_d * YEAR : w->k_m_yr;
	r->pond_mgl = out.bed.pond_mgl;
	r->extrapolation = out.bed.extrapolation;
	return TARN_OK;
}

/* What a named rate is, as a wish beside the background described. */
static struct tarn_bed_wish named(const struct tarn_bed_wish *w,
				  const struct tarn_rate *rate)
{
	struct tarn_bed_wish out = *w;

	out.k_m_yr = rate->k_m_yr;
	out.theta = rate->theta;
	out.tanks_in_series = rate->tanks_in_series;
	out.k_low_m_d = rate->low_m_d;
	out.k_high_m_d = rate->high_m_d;
	return out;
}

static enum tarn_status add_rates(const struct tarn_bed_wish *wish,
				  const struct tarn_bed_plan *p,
				  struct tarn_bed_rated out[], size_t *n,
				  struct tarn_error *err)
{
	enum tarn_status st = TARN_OK;

	for (size_t i = 0; st == TARN_OK &&
	     i < sizeof compared / sizeof compared[0]; i++) {
		const struct tarn_rate *rate = tarn_rate_find(compared[i]);
		struct tarn_bed_wish w = named(wish, rate);
		struct tarn_bed_rated *r = &out[(*n)++];

		*r = (struct tarn_bed_rated){
			.name = rate->name, .k_low_m_d = rate->low_m_d,
			.k_high_m_d = rate->high_m_d,
			.evidence = (int)rate->evidence,
		};
		st = judge(p, rate, &w, r, err);
	}
	return st;
}

static enum tarn_status add_trials(const struct tarn_bed_wish *wish,
				   const struct tarn_bed_plan *p,
				   struct tarn_bed_rated out[], size_t *n,
				   struct tarn_error *err)
{
	size_t count;
	const struct tarn_trial *t = tarn_trials(&count);
	enum tarn_status st = TARN_OK;

	for (size_t i = 0; st == TARN_OK && i < count; i++) {
		struct tarn_bed_wish w = *wish;
		struct tarn_bed_rated *r = &out[*n];

		if (strcmp(t[i].parameter, "ammonia") != 0 ||
		    *n == TARN_BED_RATED)
			continue;
		++*n;
		w.k_m_yr = tarn_implied_rate(t[i].removal, t[i].loading_m_d);
		w.theta = 1;
		w.tanks_in_series = HUGE_VAL;
		w.k_low_m_d = w.k_high_m_d = t[i].loading_m_d;
		*r = (struct tarn_bed_rated){
			.name = t[i].system, .trial = 1,
			.k_low_m_d = t[i].loading_m_d,
			.k_high_m_d = t[i].loading_m_d,
			.evidence = (int)t[i].evidence,
		};
		st = judge(p, NULL, &w, r, err);
	}
	return st;
}

enum tarn_status tarn_bed_rates(const struct tarn_bed_question *q,
				const struct tarn_bed_plan *plan,
				struct tarn_bed_rated out[TARN_BED_RATED],
				size_t *count, struct tarn_error *err)
{
	struct tarn_error own = { 0 };
	enum tarn_status st = TARN_OK;

	*count = 0;
	if (q->rate || !isnan(q->wish->k_m_yr)) {
		out[0] = (struct tarn_bed_rated){
			.name = q->rate ? q->rate->name : NULL,
			.described = 1,
			.k_low_m_d = plan->k_low_m_d,
			.k_high_m_d = plan->k_high_m_d, .evidence = -1,
		};
		st = judge(plan, q->rate, q->wish, &out[(*count)++], &own);
	}
	if (st == TARN_OK)
		st = add_rates(q->wish, plan, out, count, &own);
	if (st == TARN_OK)
		st = add_trials(q->wish, plan, out, count, &own);
	return st == TARN_OK ? st : tn_plan_fail(&own, err);
}
