/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study.h"
#include "tarn/study/random.h"

/* ---- one at a time --------------------------------------------------------- */

static double most(double a, double b)
{
	return a > b ? a : b;
}

static double least(double a, double b)
{
	return a < b ? a : b;
}

void tarn_one_at_a_time(const double *y, size_t columns,
			struct tarn_swing *out)
{
	for (size_t d = 0; d < columns; d++) {
		struct tarn_swing *s = &out[d];

		s->base = y[0];
		s->low = y[1 + 2 * d];
		s->high = y[2 + 2 * d];
		s->swing = most(most(s->low, s->high), s->base) -
			   least(least(s->low, s->high), s->base);
	}
	for (size_t d = 0; d < columns; d++) {
		out[d].rank = 1;
		for (size_t k = 0; k < columns; k++)
			out[d].rank += out[k].swing > out[d].swing ||
				       (k < d && !(out[k].swing < out[d].swing));
	}
}

/* ---- Sobol' indices -------------------------------------------------------- */

#define RESAMPLES 1000
#define TAIL 0.025

/* Indices of one column from the rows named, or from all (pick NULL). */
static void estimate(const double *y, size_t count, size_t column,
		     const size_t *pick, double *first, double *total)
{
	const double *a = y, *b = y + count, *ab = y + (2 + column) * count;
	double sum = 0, squares = 0, alone = 0, with = 0, n = (double)count;
	double mean, variance;

	for (size_t i = 0; i < count; i++) {
		size_t r = pick ? pick[i] : i;

		sum += a[r] + b[r];
	}
	mean = sum / (2 * n);
	for (size_t i = 0; i < count; i++) {
		size_t r = pick ? pick[i] : i;
		double da = a[r] - mean, db = b[r] - mean;
		double change = ab[r] - a[r];

		squares += da * da + db * db;
		alone += db * change;
		with += change * change;
	}
	variance = squares / (2 * n);
	*first = alone / n / variance;
	*total = with / (2 * n) / variance;
}

static enum tarn_status check_results(const double *y, size_t count,
				      size_t columns, struct tarn_error *err)
{
	double low = HUGE_VAL, high = -HUGE_VAL;

	if (count < 8)
		return tarn_fail(err, TARN_EARG, "count", "must be 8 or more, "
				 "got %zu", count);
	for (size_t i = 0; i < count * (columns + 2); i++) {
		if (!isfinite(y[i]))
			return tarn_fail(err, TARN_EARG, "result", "of row %zu "
					 "is not a number", i + 1);
		low = least(low, y[i]);
		high = most(high, y[i]);
	}
	if (!(high > low))
		return tarn_fail(err, TARN_EARG, "result", "is %g in all rows: "
				 "nothing to explain", low);
	return TARN_OK;
}

static void interval(double *x, double *low, double *high)
{
	*low = tarn_percentile(x, RESAMPLES, TAIL);
	*high = tarn_percentile(x, RESAMPLES, 1 - TAIL);
}

enum tarn_status tarn_sensitivity(const double *y, size_t count, size_t columns,
				  uint64_t seed, const struct tarn_alloc *alloc,
				  struct tarn_sensitivity *out,
				  struct tarn_error *err)
{
	enum tarn_status status = check_results(y, count, columns, err);
	double *first, *total;
	size_t *pick;

	if (status != TARN_OK)
		return status;
	pick = tarn_resize(alloc, NULL, count * sizeof *pick);
	first = tarn_resize(alloc, NULL, 2 * RESAMPLES * sizeof *first);
	if (!pick || !first) {
		tarn_resize(alloc, pick, 0);
		tarn_resize(alloc, first, 0);
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	}
	total = first + RESAMPLES;
	for (size_t d = 0; d < columns; d++) {
		struct tarn_sensitivity *s = &out[d];

		estimate(y, count, d, NULL, &s->first, &s->total);
		for (size_t k = 0; k < RESAMPLES; k++) {
			for (size_t row = 0; row < count; row++)
				pick[row] = (size_t)(random_share(seed, k, row)
						     * (double)count);
			estimate(y, count, d, pick, &first[k], &total[k]);
		}
		interval(first, &s->first_low, &s->first_high);
		interval(total, &s->total_low, &s->total_high);
	}
	tarn_resize(alloc, pick, 0);
	tarn_resize(alloc, first, 0);
	return TARN_OK;
}
