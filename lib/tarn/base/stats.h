/* SPDX-License-Identifier: MIT */
#ifndef TARN_BASE_STATS_H
#define TARN_BASE_STATS_H

#include <stddef.h>

/* Statistics that only the library's own wings need; base.h has the others. */

/* Sorts the numbers, NaNs last; returns how many are no NaN. */
size_t tn_stats_sort(double *x, size_t count);

/* As tarn_mean, of numbers that lie 'stride' apart. */
double tn_stats_mean(const double *x, size_t count, size_t stride);

/* As tarn_percentile, of numbers that ascend already and lie 'stride' apart;
 * count > 0, no NaN, share 0 .. 1. */
double tn_stats_percentile(const double *x, size_t count, size_t stride,
			   double share);

/* First index at which the running sum of the weights is 'share' or more; the
 * last index if rounding keeps the sum below.  count > 0. */
size_t tn_stats_reached(const double *weight, size_t count, double share);

#endif
