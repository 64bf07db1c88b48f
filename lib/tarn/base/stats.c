/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "tarn/base.h"
#include "tarn/base/stats.h"

static int ascending(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* NaNs to the end; returns how many are none. */
static size_t numbers_first(double *x, size_t count)
{
	size_t n = 0;

	for (size_t k = 0; k < count; k++)
		if (!isnan(x[k])) {
			double keep = x[k];

			x[k] = x[n];
			x[n++] = keep;
		}
	return n;
}

size_t tn_stats_sort(double *x, size_t count)
{
	size_t n = numbers_first(x, count);

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

/* ---- selection -------------------------------------------------------------- */

static double middle_of(double a, double b, double c)
{
	double low = a < b ? a : b, high = a < b ? b : a;

	return c < low ? low : c > high ? high : c;
}

/* Numbers below the pivot, or up to it, to the front; returns how many.  It
 * has no branch that a processor could guess wrong. */
static size_t to_front(double *x, size_t count, double pivot, int up_to)
{
	size_t n = 0;

	for (size_t i = 0; i < count; i++) {
		double keep = x[i];

		x[i] = x[n];
		x[n] = keep;
		n += (size_t)(up_to ? keep <= pivot : keep < pivot);
	}
	return n;
}

enum { FEW = 24, ROUNDS_MOST = 60 };

/* Puts the number of a rank where a sort would, none larger before it, none
 * smaller behind.  Rounds that shorten little end in a sort. */
static void select_rank(double *x, size_t count, size_t rank)
{
	for (int k = 0; count > FEW && k < ROUNDS_MOST; k++) {
		double pivot = middle_of(x[0], x[count / 2], x[count - 1]);
		size_t n = to_front(x, count, pivot, 0);

		if (rank >= n) {
			x += n;
			count -= n;
			rank -= n;
			n = to_front(x, count, pivot, 1);
			if (rank < n)
				return;	/* all of these are the pivot */
			x += n;
			count -= n;
			rank -= n;
		} else {
			count = n;
		}
	}
	qsort(x, count, sizeof *x, ascending);
}

/* tn_stats_percentile without a sort.  '*from' of the numbers lie where a sort
 * would put them as a group; afterwards as many as the share has below it. */
static double select_share(double *x, size_t count, size_t *from, double share)
{
	size_t i = (size_t)(share * (double)(count - 1));
	double next;

	select_rank(x + *from, count - *from, i - *from);
	*from = i;
	next = i + 1 < count ? x[i + 1] : x[i];
	for (size_t k = i + 2; k < count; k++)
		next = x[k] < next ? x[k] : next;
	return x[i] + (share * (double)(count - 1) - (double)i) *
		      (next - x[i]);
}

double tarn_percentile(double *x, size_t count, double share)
{
	size_t n = numbers_first(x, count), from = 0;

	if (n == 0 || !(share >= 0 && share <= 1))
		return TARN_NAN;
	return select_share(x, n, &from, share);
}

struct tarn_spread tarn_spread(double *x, size_t count)
{
	double mean = tarn_mean(x, count);	/* in the order given */
	size_t n = numbers_first(x, count), from = 0;
	struct tarn_spread s = { n, mean, TARN_NAN, TARN_NAN, TARN_NAN,
				 TARN_NAN, TARN_NAN };

	if (n == 0)
		return s;
	s.least = s.most = x[0];
	for (size_t i = 1; i < n; i++) {
		s.least = x[i] < s.least ? x[i] : s.least;
		s.most = x[i] > s.most ? x[i] : s.most;
	}
	s.p10 = select_share(x, n, &from, 0.1);
	s.p50 = select_share(x, n, &from, 0.5);
	s.p90 = select_share(x, n, &from, 0.9);
	return s;
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
