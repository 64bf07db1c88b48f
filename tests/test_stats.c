/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

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
