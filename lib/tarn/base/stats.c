/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "tarn/base.h"
#include "tarn/base/stats.h"

static int ascending(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

size_t tn_stats_sort(double *x, size_t count)
{
	size_t n = 0;

	for (size_t k = 0; k < count; k++)
		if (!isnan(x[k])) {
			double keep = x[k];

			x[k] = x[n];
			x[n++] = keep;
		}
	qsort(x, n, sizeof *x, ascending);
	return n;
}

double tn_stats_mean(const double *x, size_t count, size_t stride)
{
	double sum = 0;
	size_t n = 0;

	for (size_t i = 0; i < count; i++)
		if (!isnan(x[i * stride])) {
			sum += x[i * stride];
			n++;
		}
	return n > 0 ? sum / (double)n : TARN_NAN;
}

double tn_stats_percentile(const double *x, size_t count, size_t stride,
			   double share)
{
	double at = share * (double)(count - 1);
	size_t i = (size_t)at;
	size_t next = i + 1 < count ? i + 1 : i;

	return x[i * stride] +
	       (at - (double)i) * (x[next * stride] - x[i * stride]);
}

size_t tn_stats_reached(const double *weight, size_t count, double share)
{
	double sum = 0;

	for (size_t i = 0; i < count; i++) {
		sum += weight[i];
		if (sum >= share)
			return i;
	}
	return count - 1;
}

double tarn_mean(const double *x, size_t count)
{
	return tn_stats_mean(x, count, 1);
}

double tarn_percentile(double *x, size_t count, double share)
{
	size_t n = tn_stats_sort(x, count);

	if (n == 0 || !(share >= 0 && share <= 1))
		return TARN_NAN;
	return tn_stats_percentile(x, n, 1, share);
}

struct tarn_spread tarn_spread(double *x, size_t count)
{
	double mean = tarn_mean(x, count);	/* in the order given */
	size_t n = tn_stats_sort(x, count);

	if (n == 0)
		return (struct tarn_spread){ 0, TARN_NAN, TARN_NAN, TARN_NAN,
					     TARN_NAN, TARN_NAN, TARN_NAN };
	return (struct tarn_spread){
		.count = n, .mean = mean, .least = x[0], .most = x[n - 1],
		.p10 = tn_stats_percentile(x, n, 1, 0.1),
		.p50 = tn_stats_percentile(x, n, 1, 0.5),
		.p90 = tn_stats_percentile(x, n, 1, 0.9),
	};
}

#define NUMBER(member, text) \
	TARN_OUT_NUMBER(struct tarn_spread, member, #member, "", text)

static const struct tarn_field rows[] = {
	TARN_OUT_COUNT(struct tarn_spread, count, "count", "-",
		       "numbers that it is of"),
	NUMBER(mean, "sum / count; all figures in the unit of the numbers"),
	NUMBER(least, "smallest"),
	NUMBER(p10, "less in 1 of 10"),
	NUMBER(p50, "median"),
	NUMBER(p90, "more in 1 of 10"),
	NUMBER(most, "largest"),
};

TARN_FIELDS(tarn_spread_fields, "spread", rows);
