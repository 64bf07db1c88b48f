/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/base/stats.h"
#include "tarn/leak/fit.h"

#define MANY 6
#define STEP_SD_MM_D 10.0
#define FOUND 0.95

/* Puts the step before row 'at' into the extra column. */
static void put_step(struct gls_row *rows, size_t count, size_t at)
{
	for (size_t j = 0; j < count; j++)
		rows[j].x[GLS_EXTRA] = j >= at ? rows[j].x[GLS_LOSS] : 0;
}

/* How much of the log stands around a possible step. */
static double days_around(const struct tarn_leak *k, size_t at)
{
	return (k->intervals[k->of[at - 1]].days +
		k->intervals[k->of[at]].days) / 2;
}

/* Log evidence of a step before each row, in place of 'evidence'; the best
 * row. */
static size_t try_steps(const struct tarn_leak *k, struct gls_row *rows,
			const struct gls_prior *prior, double *evidence)
{
	struct gls_posterior fit;
	size_t best = 1;

	for (size_t at = 1; at < k->used; at++) {
		put_step(rows, k->used, at);
		tn_gls_fit(rows, k->used, prior, &fit);
		evidence[at] = fit.log_evidence + log(days_around(k, at));
		if (evidence[at] > evidence[best])
			best = at;
	}
	return best;
}

/* Chances of the steps, which sum to one; log of their summed evidence. */
static double normalise(double *evidence, size_t count, double best,
			double days)
{
	double sum = 0;

	for (size_t at = 1; at < count; at++) {
		evidence[at] = exp(evidence[at] - best);
		sum += evidence[at];
	}
	for (size_t at = 1; at < count; at++)
		evidence[at] /= sum;
	return best + log(sum / days);
}

static void fill_step(struct tarn_leak *k, struct gls_row *rows,
		      const struct gls_prior *prior, const double *chance)
{
	static const double before[GLS_COLUMNS] = { 0, 0, 1, 0 };
	static const double after[GLS_COLUMNS] = { 0, 0, 1, 1 };
	struct tarn_change *c = &k->result.change;
	double to_mm = 1e3 / k->result.area_m2, b[GLS_COLUMNS], a[GLS_COLUMNS];
	size_t low = 1 + tn_stats_reached(chance + 1, k->used - 1, 0.05);
	size_t mid = 1 + tn_stats_reached(chance + 1, k->used - 1, 0.50);
	size_t high = 1 + tn_stats_reached(chance + 1, k->used - 1, 0.95);
	struct gls_posterior fit;

	/* the step lies somewhere within the intervals beside a reading */
	c->first_day = k->day[rows[low - 1].start];
	c->day = k->day[rows[mid].start];
	c->last_day = k->day[rows[high].end];
	put_step(rows, k->used, mid);
	tn_gls_fit(rows, k->used, prior, &fit);
	for (int p = 0; p < GLS_COLUMNS; p++) {
		b[p] = before[p] * to_mm;
		a[p] = after[p] * to_mm;
	}
	c->before_mm_d = tn_gls_estimate(&fit, b);
	c->after_mm_d = tn_gls_estimate(&fit, a);
}

void tn_leak_find_change(struct tarn_leak *k, struct gls_row *rows,
			 const struct gls_prior *prior)
{
	struct tarn_change *c = &k->result.change;
	struct gls_prior with = *prior;
	struct gls_posterior fit;
	double sd = STEP_SD_MM_D * k->result.area_m2 / 1e3, days = 0, odds;
	double *evidence = k->work;
	size_t best;

	tarn_fields_default(&tarn_change_fields, c);
	if (k->used < MANY)
		return;
	with.columns = GLS_EXTRA + 1;
	with.mean[GLS_EXTRA] = 0;
	with.precision[GLS_EXTRA] = 1 / (sd * sd);
	/* weights that a step would leave: without it, what follows a step
	 * may look wild */
	best = try_steps(k, rows, &with, evidence);
	put_step(rows, k->used, best);
	tn_gls_robust(rows, k->used, &with, &fit, k->work);
	best = try_steps(k, rows, &with, evidence);
	for (size_t at = 1; at < k->used; at++)
		days += days_around(k, at);
	odds = normalise(evidence, k->used, evidence[best], days);
	tn_gls_fit(rows, k->used, prior, &fit);
	odds = exp(fmin(odds - fit.log_evidence, 300));
	c->chance = odds / (1 + odds);
	c->found = c->chance >= FOUND;
	if (c->found)
		fill_step(k, rows, &with, evidence);
}
