/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "../lib/tarn/base/stats.h"
#include "tarn/base.h"

static int same(double a, double b)
{
	return fabs(a - b) < 1e-15;
}

/* Definition 7, by hand: 1 2 3 4 at 10 % is 1 + 0.3 x 1. */
Test(stats, percentiles)
{
	double x[] = { 4, TARN_NAN, 1, 3, 2 };

	cr_expect(same(tarn_percentile(x, 5, 0.1), 1.3));
	cr_expect(same(tarn_percentile(x, 5, 0.5), 2.5));
	cr_expect(same(tarn_percentile(x, 5, 0), 1));
	cr_expect(same(tarn_percentile(x, 5, 1), 4));
	cr_expect(isnan(tarn_percentile(x, 5, 1.1)));
	cr_expect(isnan(tarn_percentile(x, 5, -0.1)));
	cr_expect(isnan(tarn_percentile(x, 5, TARN_NAN)));
	cr_expect(isnan(tarn_percentile(x, 0, 0.5)));
	cr_expect(same(tarn_percentile(x, 1, 0.9), 1));
}

Test(stats, means)
{
	double x[] = { 4, TARN_NAN, 1, 4 };

	cr_expect(same(tarn_mean(x, 4), 3));
	cr_expect(isnan(tarn_mean(x + 1, 1)));
	cr_expect(isnan(tarn_mean(x, 0)));
}

Test(stats, spread_is_its_percentiles)
{
	double x[] = { 7, 0.5, TARN_NAN, 3, 11, 2, 2 }, y[7];
	struct tarn_spread s;

	memcpy(y, x, sizeof x);
	s = tarn_spread(y, 7);
	cr_expect(s.count == 6);
	cr_expect(same(s.mean, tarn_mean(x, 7)));
	cr_expect(same(s.least, 0.5) && same(s.most, 11));
	cr_expect(same(s.p10, tarn_percentile(x, 7, 0.1)));
	cr_expect(same(s.p50, tarn_percentile(x, 7, 0.5)));
	cr_expect(same(s.p90, tarn_percentile(x, 7, 0.9)));
	/* adding to all moves each figure but the count by as much */
	for (int i = 0; i < 6; i++)
		y[i] += 100;
	cr_expect(fabs(tarn_spread(y, 6).p90 - s.p90 - 100) < 1e-12);
	cr_expect(fabs(tarn_spread(y, 6).mean - s.mean - 100) < 1e-12);
}

Test(stats, spread_of_nothing)
{
	double x[] = { TARN_NAN };
	struct tarn_spread s = tarn_spread(x, 1);

	cr_expect(s.count == 0);
	cr_expect(isnan(s.mean) && isnan(s.least) && isnan(s.most));
	cr_expect(isnan(s.p10) && isnan(s.p50) && isnan(s.p90));
	cr_expect(tarn_fields_find(&tarn_spread_fields, "p90") != NULL);
}

/* ---- beside a sort --------------------------------------------------------- */

static int ascending(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* Definition 7 on sorted numbers, every bit of it. */
static double of_sorted(const double *x, size_t n, double share)
{
	double at = share * (double)(n - 1);
	size_t i = (size_t)at, next = i + 1 < n ? i + 1 : i;

	return x[i] + (at - (double)i) * (x[next] - x[i]);
}

/* Orders that are hard for a selection. */
static double arranged(int order, size_t i, size_t n)
{
	switch (order) {
	case 0:
		return (double)(tarn_random(7, 1, i) >> 11) * 0x1p-53;
	case 1:
		return (double)(tarn_random(7, 2, i) % 3);
	case 2:
		return (double)i / 7;
	case 3:
		return -(double)i / 7;
	case 4:
		return (double)(i < n / 2 ? i : n - i);
	case 5:
		return (double)(i % 17) / 3;
	case 6:
		return i % 5 == 0 ? (double)(tarn_random(7, 3, i) % 1000) : 0;
	default:
		return 4.5;
	}
}

Test(stats, selects_what_a_sort_would_find)
{
	enum { MOST = 3000, ORDERS = 8 };
	static const size_t counts[] = { 1, 2, 3, 10, 11, 24, 25, 26, 100,
					 256, 2999, MOST };
	static double x[MOST], y[MOST], z[MOST];

	for (int order = 0; order < ORDERS; order++)
		for (size_t c = 0; c < sizeof counts / sizeof *counts; c++) {
			size_t n = counts[c];
			struct tarn_spread s;

			for (size_t i = 0; i < n; i++)
				x[i] = y[i] = z[i] = arranged(order, i, n);
			qsort(y, n, sizeof *y, ascending);
			s = tarn_spread(x, n);
			cr_expect(!(s.least > y[0]) && !(s.least < y[0]));
			cr_expect(!(s.most > y[n - 1]) &&
				  !(s.most < y[n - 1]));
			cr_expect(memcmp((double[]){ s.p10, s.p50, s.p90 },
					 (double[]){ of_sorted(y, n, 0.1),
						     of_sorted(y, n, 0.5),
						     of_sorted(y, n, 0.9) },
					 3 * sizeof(double)) == 0,
				  "order %d of %zu", order, n);
			cr_expect(fabs(tarn_percentile(z, n, 0.975) -
				       of_sorted(y, n, 0.975)) <= 0);
			qsort(x, n, sizeof *x, ascending);
			cr_expect(memcmp(x, y, n * sizeof *x) == 0,
				  "no number is lost");
		}
}

/* The first place at which the weights so far make up a share; the last one
 * where they never do. */
Test(stats, where_weights_reach_a_share)
{
	const double weight[] = { 0.25, 0.25, 0.5 };

	cr_expect(tn_stats_reached(weight, 3, 0) == 0);
	cr_expect(tn_stats_reached(weight, 3, 0.25) == 0);
	cr_expect(tn_stats_reached(weight, 3, 0.26) == 1);
	cr_expect(tn_stats_reached(weight, 3, 0.5) == 1);
	cr_expect(tn_stats_reached(weight, 3, 0.51) == 2);
	cr_expect(tn_stats_reached(weight, 3, 1) == 2);
	cr_expect(tn_stats_reached(weight, 3, 1.1) == 2);
}

Test(stats, means_leave_out_what_is_not_known)
{
	const double x[] = { 1, 8, TARN_NAN, 8, 4, TARN_NAN };

	cr_expect(tn_stats_mean(x, 3, 2) == 2.5);
	cr_expect(tn_stats_mean(x + 1, 2, 2) == 8);
	cr_expect(tn_stats_mean(x, 1, 1) == 1);
	cr_expect(isnan(tn_stats_mean(x + 2, 1, 1)));
	cr_expect(isnan(tn_stats_mean(x, 0, 1)));
}

/* Straight between the values: half between 1 and 3, and at the ends. */
Test(stats, percentiles_of_sorted_values)
{
	const double x[] = { 1, -9, 3, -9, 7, -9 };

	cr_expect(tn_stats_percentile(x, 3, 2, 0) == 1);
	cr_expect(tn_stats_percentile(x, 3, 2, 0.25) == 2);
	cr_expect(tn_stats_percentile(x, 3, 2, 0.5) == 3);
	cr_expect(tn_stats_percentile(x, 3, 2, 0.75) == 5);
	cr_expect(tn_stats_percentile(x, 3, 2, 1) == 7);
	cr_expect(tn_stats_percentile(x, 1, 2, 0.3) == 1);
}
