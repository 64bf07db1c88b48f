/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_FORECAST_SUMS_H
#define TARN_STUDY_FORECAST_SUMS_H

#include "forecast_draw.h"

/* A week, a month or a year that the weather has, and what worlds take in it,
 * the middle one first. */
struct sums_period {
	int name;		/* week 1 .. 53, month 1 .. 12; of a year and
				   of the run 0 */
	int month;		/* of a week: that of its Thursday */
	int whole;
	size_t days;		/* that are run */
	double *topup_m3;
};

/* Periods of one kind in their order. */
struct sums_kind {
	struct sums_period *period;
	size_t count;
};

/* Top-up of every world by week, month and year, and of the run. */
struct sums {
	size_t worlds, columns;	/* columns: the worlds and the middle one */
	struct sums_kind week, month, year, run;
	const double *b;	/* ln f of each column */
	double *scratch;	/* room for all numbers of a kind */
	double *years, *middle;	/* one a period */
	double *means;		/* one a column */
	struct sums_period *periods;	/* of all kinds */
	double *numbers;		/* behind all pointers above */
};

/* Room and names of all periods, all sums 0; 'b' is borrowed.  Errors:
 * TARN_ENOMEM. */
enum tarn_status tn_sums_make(struct sums *s, const struct tarn_alloc *alloc,
			      const struct tarn_forcing *forcing, size_t worlds,
			      const double *b, struct tarn_error *err);
void tn_sums_free(struct sums *s, const struct tarn_alloc *alloc);

/* Adds what the columns first .. took on days of one week and one month that
 * begin at an index of the forcing. */
void tn_sums_add(struct sums *s, const struct tarn_forcing *forcing,
		 size_t at, size_t first, size_t columns,
		 const double *topup_m3);

/* Range of the whole periods of a kind that have a name (0: all); a week's
 * share of each, or all of it. */
struct tarn_forecast_range tn_sums_range(struct sums *s,
					 const struct sums_kind *kind,
					 int name, int a_week);

/* Spread of whole weeks by their number, or by their month; 0: any. */
struct tarn_spread tn_sums_weeks(struct sums *s, int number, int month);

#endif
