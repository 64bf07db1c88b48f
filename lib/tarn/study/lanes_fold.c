/* SPDX-License-Identifier: MIT */
#include "tarn/study/lanes_hot.h"

/* What comes after the days: sums by period, sorting, the least. */

CLONES
static void hot_fold(struct lanes *b, int month, unsigned ends,
		     double *restrict year_m3, double *restrict week_m3)
{
	double *restrict by_month = b->by_month_m3[month];

	for (size_t l = 0; l < lanes_of(b); l++) {
		b->week_m3[l] += b->filled_m3[l];
		b->month_m3[l] += b->filled_m3[l];
		b->filled_m3[l] = 0;
	}
	if (ends & LANES_WEEK)
		for (size_t l = 0; l < lanes_of(b); l++) {
			b->year_week_m3[l] = step_most(b->week_m3[l],
						       b->year_week_m3[l]);
			b->week_max_m3[l] = step_most(b->week_m3[l],
						      b->week_max_m3[l]);
			b->week_m3[l] = 0;
		}
	if (ends & LANES_MONTH)
		for (size_t l = 0; l < lanes_of(b); l++) {
			by_month[l] += b->month_m3[l];
			b->year_m3[l] += b->month_m3[l];
			b->month_m3[l] = 0;
		}
	if (ends & LANES_YEAR)
		for (size_t l = 0; l < lanes_of(b); l++) {
			if (year_m3)
				year_m3[l] = b->year_m3[l];
			b->year_m3[l] = 0;
		}
	if (ends & LANES_LAST_WEEK)
		for (size_t l = 0; l < lanes_of(b); l++) {
			if (week_m3)
				week_m3[l] = b->year_week_m3[l];
			b->year_week_m3[l] = 0;
		}
}

/*
 * Batcher's odd-even merge exchange: Knuth, The Art of Computer Programming 3
 * (1998), section 5.2.2, algorithm M.  The pairs do not depend on the numbers.
 */
CLONES
static void hot_sort(double *rows, size_t count)
{
	size_t top = 1;

	while (2 * top < count)
		top *= 2;
	for (size_t p = top; p > 0 && count > 1; p /= 2) {
		size_t q = top, r = 0, d = p;

		for (;;) {
			for (size_t i = 0; i + d < count; i++) {
				double *restrict a = rows + i * LANES;
				double *restrict b = rows + (i + d) * LANES;

				if ((i & p) != r)
					continue;
				for (size_t l = 0; l < LANES; l++) {
					double x = a[l], y = b[l];

					a[l] = x < y ? x : y;
					b[l] = x < y ? y : x;
				}
			}
			if (q == p)
				break;
			d = q - p;
			q /= 2;
			r = p;
		}
	}
}

CLONES
static double hot_least(const double *x, size_t count)
{
	double least = x[0];

	for (size_t i = 1; i < count; i++)
		least = step_least(x[i], least);
	return least;
}

void tn_lanes_fold(struct lanes *b, int month, unsigned ends, double *year_m3,
		   double *week_m3)
{
	hot_fold(b, month, ends, year_m3, week_m3);
}

void tn_lanes_sort(double *rows, size_t count)
{
	hot_sort(rows, count);
}

double tn_lanes_least(const double *x, size_t count)
{
	return hot_least(x, count);
}
