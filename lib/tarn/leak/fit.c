/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/leak/fit.h"

#define ROUNDS 3		/* of linearising */

static const double one_loss[GLS_COLUMNS] = { 0, 0, 1, 0 };
static const double one_evaporation[GLS_COLUMNS] = { 1, 0, 0, 0 };
static const double one_rain[GLS_COLUMNS] = { 0, 1, 0, 0 };

/* ---- memory --------------------------------------------------------- */

static void *take(const struct tarn_alloc *alloc, size_t count, size_t size,
		  int *failed)
{
	void *p = tarn_resize(alloc, NULL, count * size);

	if (!p)
		*failed = 1;
	return p;
}

static struct tarn_leak *make(const struct tarn_alloc *alloc, size_t readings)
{
	struct tarn_leak *k = tarn_resize(alloc, NULL, sizeof *k);
	size_t n = readings - 1;
	int failed = 0;

	if (!k)
		return NULL;
	memset(k, 0, sizeof *k);
	k->alloc = alloc;
	k->count = n;
	k->intervals = take(alloc, n, sizeof *k->intervals, &failed);
	k->plain = take(alloc, n, sizeof *k->plain, &failed);
	k->rows = take(alloc, n, sizeof *k->rows, &failed);
	k->spare = take(alloc, n, sizeof *k->spare, &failed);
	k->of = take(alloc, n, sizeof *k->of, &failed);
	k->day = take(alloc, readings, sizeof *k->day, &failed);
	k->laid.moment = take(alloc, 3 * readings, sizeof(double), &failed);
	k->work = take(alloc, 4 * n, sizeof(double), &failed);
	if (failed) {
		tarn_leak_free(k);
		return NULL;
	}
	k->laid.level_m = k->laid.moment + readings;
	k->laid.var_mm2 = k->laid.level_m + readings;
	return k;
}

void tarn_leak_free(struct tarn_leak *k)
{
	if (!k)
		return;
	tarn_resize(k->alloc, k->intervals, 0);
	tarn_resize(k->alloc, k->plain, 0);
	tarn_resize(k->alloc, k->rows, 0);
	tarn_resize(k->alloc, k->spare, 0);
	tarn_resize(k->alloc, k->of, 0);
	tarn_resize(k->alloc, k->day, 0);
	tarn_resize(k->alloc, k->laid.moment, 0);
	tarn_resize(k->alloc, k->work, 0);
	tarn_resize(k->alloc, k, 0);
}

/* ---- the fit -------------------------------------------------------- */

/* Where to linearise next: the estimate, kept where a ledger can run. */
static struct spell_trial trial_of(const struct gls_posterior *p)
{
	struct spell_trial t = { 1, 1, 0, 0 };

	t.evaporation = tn_gls_estimate(p, one_evaporation).mean;
	t.evaporation = fmin(3, fmax(0.2, t.evaporation));
	t.rain = fmin(3, fmax(0.3, tn_gls_estimate(p, one_rain).mean));
	t.loss_m3_d = fmax(0, tn_gls_estimate(p, one_loss).mean);
	return t;
}

static double mean_head(const struct tarn_leak *k, double floor_m)
{
	double sum = 0;

	for (size_t j = 0; j < k->used; j++)
		sum += k->laid.level_m[k->of[j]] - floor_m;
	return sum / (double)k->used;
}

/* Rows at a trial; the weights stay. */
static enum tarn_status linearise(struct tarn_leak *k, struct speller *sp,
				  const struct spell_trial *trial, int head,
				  struct tarn_error *err)
{
	double head_m = mean_head(k, tarn_basin_floor(sp->pond->basin));

	for (size_t j = 0; j < k->used; j++) {
		struct gls_row old = k->rows[j], *row = &k->rows[j];
		struct spell_sums sums;
		enum tarn_status status = tn_leak_row(k, sp, k->of[j], trial,
						      head, head_m, row, &sums,
						      err);

		if (status != TARN_OK)
			return status;
		row->w_var = k->plain[k->of[j]].w_var;
		row->w_weight = old.w_weight;
		row->start_weight = old.start_weight;
		row->end_weight = old.end_weight;
		row->row_wild = old.row_wild;
		row->start_wild = old.start_wild;
		row->end_wild = old.end_wild;
	}
	return TARN_OK;
}

static enum tarn_status solve(struct tarn_leak *k, struct speller *sp,
			      struct tarn_error *err)
{
	struct gls_prior prior = tn_prior(k);
	struct gls_posterior p;
	enum tarn_status status = TARN_OK;

	tn_gls_robust(k->rows, k->used, &prior, &p, k->work);
	for (int round = 1; round < ROUNDS && status == TARN_OK; round++) {
		struct spell_trial trial = trial_of(&p);

		status = linearise(k, sp, &trial, round == ROUNDS - 1, err);
		if (status == TARN_OK)
			tn_gls_robust(k->rows, k->used, &prior, &p, k->work);
	}
	if (status != TARN_OK)
		return status;
	tn_leak_conclude(k, &p, &prior);
	tn_leak_find_held(k, sp->pond);
	if (k->result.held.possible && k->result.verdict == TARN_INSIDE)
		k->result.verdict = TARN_CANNOT_TELL;
	if (k->result.held.found) {
		k->result.verdict = TARN_CANNOT_TELL;
		k->result.gains = k->result.head_tells = 0;
		k->result.change.found = 0;
	}
	return TARN_OK;
}

static enum tarn_status nothing_left(const struct tarn_leak *k,
				     const struct tarn_forcing *f,
				     struct tarn_error *err)
{
	char first[11], last[11];

	for (size_t i = 0; i < k->count; i++)
		if (k->intervals[i].fate != TARN_NO_WEATHER)
			return tarn_fail(err, TARN_EARG, "log", "has no "
					 "interval to use: each one holds a "
					 "refill of unknown size, a spill over "
					 "the lip, a switch of the pump or a "
					 "note that sets it aside");
	tarn_day_text(f->first_day, first);
	tarn_day_text(f->first_day + (long)f->days - 1, last);
	return tarn_fail(tn_leak_here(err, &k->readings[0]), TARN_EARG, "log",
			 "lies outside the weather's dates, %s to %s", first,
			 last);
}

enum tarn_status tn_leak_whole(const struct tarn_forcing *forcing,
			       struct tarn_error *err)
{
	return forcing->left_out
		? tarn_fail(err, TARN_EARG, "weather", "leaves days out: give "
			    "a stretch without gaps (years = \"stretch\")")
		: TARN_OK;
}

static enum tarn_status check_input(const struct tarn_pond *pond,
				    const struct tarn_forcing *forcing,
				    const struct tarn_reading *readings,
				    size_t count,
				    const struct tarn_leak_options *options,
				    struct tarn_error *err)
{
	enum tarn_status status = tarn_pond_check(pond, err);

	if (status == TARN_OK)
		status = tarn_fields_check(&tarn_leak_fields, options, err);
	if (status != TARN_OK)
		return status;
	if (forcing->days == 0)
		return tarn_fail(err, TARN_EARG, "weather", "holds no day");
	status = tn_leak_whole(forcing, err);
	if (status != TARN_OK)
		return status;
	if (count >= 2)
		return TARN_OK;
	if (count == 1)
		tn_leak_here(err, &readings[0]);
	return tarn_fail(err, TARN_EARG, "log", "holds %s: a loss needs two or "
			 "more, some days apart",
			 count ? "one reading only" : "no reading");
}

static size_t longest(const struct tarn_leak *k)
{
	size_t most = 1;

	for (size_t i = 0; i < k->count; i++) {
		struct spell s = { k->laid.moment[i], k->laid.moment[i + 1],
				   0, 0 };

		most = tn_spell_days(&s) > most ? tn_spell_days(&s) : most;
	}
	return most;
}

static enum tarn_status survey_and_solve(struct tarn_leak *k,
					 const struct tarn_pond *pond,
					 const struct tarn_forcing *forcing,
					 struct tarn_error *err)
{
	struct speller sp;
	enum tarn_status status;

	status = tn_lay_readings(pond, k->readings, k->count + 1, &k->options,
				 &k->laid, err);
	if (status == TARN_OK)
		tn_lay_prior(k, pond);
	if (status == TARN_OK)
		tn_lift_by_rain(k, pond, forcing);
	if (status == TARN_OK)
		status = tn_spell_begin(&sp, k->alloc, pond, forcing,
					longest(k), err);
	if (status != TARN_OK)
		return status;
	status = tn_leak_survey(k, &sp, err);
	if (status == TARN_OK && k->used == 0)
		status = nothing_left(k, forcing, err);
	if (status == TARN_OK)
		status = solve(k, &sp, err);
	tn_spell_end(&sp);
	return status;
}

enum tarn_status tarn_leak_fit(struct tarn_leak **out,
			       const struct tarn_alloc *alloc,
			       const struct tarn_pond *pond,
			       const struct tarn_forcing *forcing,
			       const struct tarn_reading *readings,
			       size_t count,
			       const struct tarn_leak_options *options,
			       struct tarn_error *err)
{
	enum tarn_status status = check_input(pond, forcing, readings, count,
					      options, err);
	struct tarn_leak *k;

	*out = NULL;
	if (status != TARN_OK)
		return status;
	k = make(alloc, count);
	if (!k)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	k->options = tn_settled(options);
	k->readings = readings;
	for (size_t i = 0; i < count; i++)
		k->day[i] = readings[i].day;
	status = survey_and_solve(k, pond, forcing, err);
	if (status != TARN_OK) {
		tarn_leak_free(k);
		return status;
	}
	k->readings = NULL;
	*out = k;
	return TARN_OK;
}

/* ---- what it found -------------------------------------------------- */

const struct tarn_leak_result *tarn_leak_result(const struct tarn_leak *k)
{
	return &k->result;
}

const struct tarn_interval *tarn_leak_intervals(const struct tarn_leak *k,
						size_t *count)
{
	*count = k->count;
	return k->intervals;
}
