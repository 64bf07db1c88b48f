/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/leak/fit.h"

#define MM 1e3
#define MANY 6			/* intervals for a head */

static const double one_loss[GLS_COLUMNS] = { 0, 0, 1, 0 };
static const double one_extra[GLS_COLUMNS] = { 0, 0, 0, 1 };
static const double one_evaporation[GLS_COLUMNS] = { 1, 0, 0, 0 };
static const double one_rain[GLS_COLUMNS] = { 0, 1, 0, 0 };

enum tarn_verdict tn_leak_judge(const struct tarn_estimate *loss, double matters_mm_d)
{
	if (loss->low > 0)
		return TARN_OUTSIDE;
	return loss->high < matters_mm_d ? TARN_INSIDE : TARN_CANNOT_TELL;
}

static struct tarn_estimate scaled(struct tarn_estimate e, double factor)
{
	e.mean *= factor;
	e.low *= factor;
	e.high *= factor;
	e.sd *= factor;
	return e;
}

/* By a relative error, of the area, that the estimate itself does not know. */
static void widen(struct tarn_estimate *e, double relative)
{
	double sd = hypot(e->sd, relative * e->mean), more = sd / e->sd;

	e->low = e->mean + more * (e->low - e->mean);
	e->high = e->mean + more * (e->high - e->mean);
	e->sd = sd;
}

/* f with s held at zero. */
static struct tarn_estimate fit_sound(const struct tarn_leak *k,
				      const struct gls_prior *prior)
{
	struct gls_prior p = *prior;
	struct gls_posterior fit;

	p.columns = GLS_RAIN + 1;
	tn_gls_fit(k->rows, k->used, &p, &fit);
	return tn_gls_estimate(&fit, one_evaporation);
}

static void fit_head(struct tarn_leak *k, const struct gls_prior *prior)
{
	static const struct tarn_estimate none = {
		TARN_NAN, TARN_NAN, TARN_NAN, TARN_NAN
	};
	struct tarn_leak_result *r = &k->result;
	struct gls_prior p = *prior;
	struct gls_posterior fit;
	double low = HUGE_VAL, high = -HUGE_VAL;

	for (size_t j = 0; j < k->used; j++) {
		low = fmin(low, k->laid.level_m[k->of[j]]);
		high = fmax(high, k->laid.level_m[k->of[j]]);
	}
	r->per_head_m3_d_m = none;
	if (k->used < MANY || !(high - low > 1e-3))
		return;
	p.columns = GLS_EXTRA + 1;
	p.precision[GLS_EXTRA] = 0;
	tn_gls_fit(k->rows, k->used, &p, &fit);
	r->per_head_m3_d_m = tn_gls_estimate(&fit, one_extra);
	r->head_tells = r->per_head_m3_d_m.low > 0 ||
			r->per_head_m3_d_m.high < 0;
}

/* Sums over the used intervals of what weather alone explains. */
static void sum_expected(struct tarn_leak *k)
{
	struct tarn_leak_result *r = &k->result;
	struct spread spread = { 0 };
	double mid = 0, sd;

	for (size_t j = 0; j < k->used; j++) {
		const struct tarn_interval *v = &k->intervals[k->of[j]];
		int joined = j > 0 && k->of[j - 1] + 1 == k->of[j];

		tn_spread_add(&spread, &k->plain[k->of[j]], joined);
		mid += v->expected_mm;
		r->logged_mm += v->logged_mm;
		r->days += v->days;
		r->area_m2 += v->area_m2 * v->days;
	}
	r->area_m2 /= r->days;
	sd = tn_spread_sd(&spread, k);
	r->expected_mm = (struct tarn_estimate){
		mid, mid - GLS_Z95 * sd, mid + GLS_Z95 * sd, sd
	};
}

/* How far each interval lies from what weather explains. */
static void judge_intervals(struct tarn_leak *k)
{
	for (size_t i = 0; i < k->count; i++) {
		struct tarn_interval *v = &k->intervals[i];

		v->over = (v->logged_mm - v->expected_mm) / v->expected_sd_mm;
		v->high = !v->wild && v->over > GLS_Z95;
	}
}

static void count_intervals(struct tarn_leak *k)
{
	struct tarn_leak_result *r = &k->result;

	r->readings = k->count + 1;
	r->used = k->used;
	for (size_t i = 0; i < k->count; i++)
		r->outside_weather += k->intervals[i].fate == TARN_NO_WEATHER
			? 1 : 0;
	r->set_aside = k->count - k->used - r->outside_weather;
	for (size_t j = 0; j < k->used; j++) {
		const struct gls_row *row = &k->rows[j];
		int joined = j > 0 && row[-1].end == row->start;
		int wild = row->row_wild > 0.5 || row->end_wild > 0.5 ||
			   row->start_wild > 0.5;

		k->intervals[k->of[j]].wild = wild;
		r->wild += (row->row_wild > 0.5 ? 1u : 0u) +
			   (row->end_wild > 0.5 ? 1u : 0u) +
			   (!joined && row->start_wild > 0.5 ? 1u : 0u);
	}
}

void tn_leak_conclude(struct tarn_leak *k, const struct gls_posterior *p,
		      const struct gls_prior *prior)
{
	struct tarn_leak_result *r = &k->result;
	double to_mm;

	sum_expected(k);
	count_intervals(k);
	judge_intervals(k);
	to_mm = MM / r->area_m2;
	r->evaporation_factor = tn_gls_estimate(p, one_evaporation);
	r->rain_factor = tn_gls_estimate(p, one_rain);
	r->unexplained_m3_d = tn_gls_estimate(p, one_loss);
	r->unexplained_mm_d = scaled(r->unexplained_m3_d, to_mm);
	widen(&r->unexplained_m3_d, k->options.area_sd);
	r->chance_of_loss = tn_gls_above_zero(p, one_loss);
	r->noise = p->tau;
	r->resolvable_mm_d = (GLS_Z95 + GLS_Z90) * r->unexplained_mm_d.sd;
	r->sound_factor = fit_sound(k, prior);
	fit_head(k, prior);
	memcpy(k->spare, k->rows, k->used * sizeof *k->rows);
	tn_leak_find_change(k, k->spare, prior);
	r->verdict = tn_leak_judge(&r->unexplained_mm_d, k->options.matters_mm_d);
	r->gains = r->unexplained_mm_d.high < 0;
	if (r->verdict == TARN_INSIDE &&
	    (r->gains || r->noise > TARN_NOISE_MOST ||
	     r->resolvable_mm_d > k->options.matters_mm_d))
		r->verdict = TARN_CANNOT_TELL;
	if (r->change.found && r->change.after_mm_d.low > 0)
		r->verdict = TARN_OUTSIDE;
}
