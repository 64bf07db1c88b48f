/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_LANES_H
#define TARN_STUDY_LANES_H

#include "tarn/pond/step.h"

/*
 * A block of ponds side by side, one a lane: arrays over lanes, days outside.
 * A block stays in the nearest cache while it goes through the days.
 */
enum { LANES = 128, LANES_STEP = 8 };

/* Segments of one basin, as pond/basin.h goes through them. */
struct lanes_basin {
	size_t count;
	double *start_m3;	/* count + 1 of them; the last is infinite */
	double *square, *slope;	/* area^2 = square + slope (V - start) */
	double *level_m, *area_m2;	/* at the start */
	/* where to begin the search: cell = V x scale */
	double scale;
	int cells, steps;	/* 'steps' segments up at most */
	int *cell;
};

#define LANES_ARRAY(name) double name[LANES];
struct lanes_fixed { STEP_FIXED(LANES_ARRAY) };
struct lanes_season { STEP_SEASON(LANES_ARRAY) };

/* Sums that a stretch of days adds to. */
#define LANES_SUMS(X)                                                          \
	X(filled_m3)	/* top-up of the stretch */                            \
	X(overflow_m3)                                                         \
	X(lowest_m3)                                                           \
	X(under_intake)	/* days */                                             \
	X(restricted)	/* days */                                             \
	X(tank_used_m3)                                                        \
	X(roof_m3)                                                             \
	X(tank_spill_m3)                                                       \
	X(tank_empty)	/* days */

struct lanes {
	size_t count;		/* in use, a multiple of LANES_STEP */
	struct lanes_fixed fixed;
	double pond_m3[LANES], bed_m3[LANES], transit_m3[LANES];
	double tank_now_m3[LANES];
	LANES_SUMS(LANES_ARRAY)
	/* between the passes of a day */
	double runoff_m3[LANES];	/* zero where no apron needs it */
	double running[LANES];
	int segment[LANES];
	/* periods */
	double week_m3[LANES], week_max_m3[LANES], year_week_m3[LANES];
	double month_m3[LANES], year_m3[LANES];
	double by_month_m3[12][LANES];
	struct lanes_season season[12];
};

/*
 * A stretch: days of one week and one month.
 *   knots   segments above the lowest that the block may meet: 0 .. 3, or
 *           LANES_SEARCH for any number
 */
enum { LANES_KNOTS = 3, LANES_SEARCH = 4, LANES_ALL = 5 };

struct lanes_stretch {
	const struct step_sky *sky;
	size_t days;
	int month;
	int knots;		/* 0 .. LANES_KNOTS, LANES_SEARCH, or LANES_ALL
				   where pumps may stop or heads matter */
	size_t lowest;		/* segment */
	int tank;		/* some lane has one */
	int apron;		/* some lane has one by curve number */
};

/* Takes a block through a stretch. */
void lanes_run(struct lanes *b, const struct lanes_basin *basin,
	       const struct lanes_stretch *stretch);

/* What ends with a stretch. */
enum { LANES_WEEK = 1, LANES_MONTH = 2, LANES_YEAR = 4 };

/* Adds a finished stretch to its week, month and year.  Where a year ends,
 * its top-up and its largest week go to year_m3 and week_m3 if given. */
void lanes_fold(struct lanes *b, int month, unsigned ends, double *year_m3,
		double *week_m3);

/* Sorts 'rows' rows of LANES numbers, each lane for itself, ascending. */
void lanes_sort(double *rows, size_t count);

/* Smallest of the first 'count' numbers (a multiple of LANES_STEP). */
double lanes_least(const double *x, size_t count);

#endif
