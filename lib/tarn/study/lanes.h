/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_LANES_H
#define TARN_STUDY_LANES_H

#include "tarn/pond/step.h"

/*
 * A block of ponds side by side, one a lane: arrays over lanes, days outside.
 * A block stays in the nearest cache while it goes through the days.
 */
enum { LANES = 128, LANES_STEP = 8, LANES_ROOM = LANES + LANES_STEP };

/* A segment of a basin: area^2 = square + slope (V - start); level and area
 * are those at its start. */
#define LANES_PIECE(X) X(start_m3) X(square) X(slope) X(level_m) X(area_m2)

struct lanes_piece {
	LANES_PIECE(STEP_MEMBER)
	double end_m3;
};

/* All segments of one basin, and cells to begin a search in. */
struct lanes_basin {
	size_t count;
	struct lanes_piece *piece;	/* the last one's end is DBL_MAX */
	double scale;			/* cell of a volume = V x scale */
	int *cell;			/* its first segment */
	int cells, steps;		/* it has 'steps' more at most */
};

/* The gap keeps lane l of all arrays from meeting in the same cache sets. */
#define LANES_ARRAY(name) double name[LANES_ROOM];
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
	X(tank_empty)	/* days */                                             \
	X(need_m3)	/* of the twin, put here */

/* Each array begins a cache line, as long as they stay first. */
struct lanes {
	struct lanes_fixed fixed;
	double pond_m3[LANES_ROOM], bed_m3[LANES_ROOM], transit_m3[LANES_ROOM];
	double tank_now_m3[LANES_ROOM];
	LANES_SUMS(LANES_ARRAY)
	/* between the passes of a day */
	double runoff_m3[LANES_ROOM];	/* zero where no apron needs it */
	double running[LANES_ROOM], area_m2[LANES_ROOM];
	double head_m3[LANES_ROOM];
	struct { LANES_PIECE(LANES_ARRAY) } at;
	/* periods */
	double week_m3[LANES_ROOM], week_max_m3[LANES_ROOM], year_week_m3[LANES_ROOM];
	double month_m3[LANES_ROOM], year_m3[LANES_ROOM];
	double by_month_m3[12][LANES_ROOM];
	struct lanes_season season[12];
	double floor_m[LANES_ROOM];
	/* what is no number stays behind here */
	const struct lanes_basin *basin[LANES_ROOM];
	size_t count;		/* in use, a multiple of LANES_STEP */
};

/*
 * A stretch: days of one week and one month, and what its days need.
 *   loop    segments above the lowest that the block may meet, 0 .. 3; or
 *           LANES_SEARCH for any number; or LANES_ALL where pumps may stop or
 *           seepage goes by level
 */
enum { LANES_KNOTS = 3, LANES_SEARCH, LANES_ALL };

struct lanes_stretch {
	const struct step_sky *sky;
	size_t days;
	int month, loop;
	size_t lowest;		/* segment */
	int tank;		/* 1: some lane has one */
	int apron;		/* 1: some lane has one by curve number */
	int low;		/* 1: some lane may end under its intake */
	int steady;		/* 1: nothing can spill on a dry day */
	const double (*drawn)[LANES_ROOM];	/* NULL, or a factor on the
				   evaporation of each day and lane */
};

/* Takes a block through a stretch.  'basin' NULL: each lane in its own. */
void tn_lanes_run(struct lanes *b, const struct lanes_basin *basin,
		  const struct lanes_stretch *stretch);

/* What ends with a stretch. */
enum { LANES_WEEK = 1, LANES_MONTH = 2, LANES_YEAR = 4, LANES_LAST_WEEK = 8 };

/* Adds a finished stretch to its week, month and year.  Where a year ends, its
 * top-up goes to year_m3 if given; where its last ISO week ends (LANES_LAST_WEEK,
 * up to three days before or after), its largest week goes to week_m3. */
void tn_lanes_fold(struct lanes *b, int month, unsigned ends, double *year_m3,
		   double *week_m3);

/* Sorts 'rows' rows of LANES numbers, each lane for itself, ascending. */
void tn_lanes_sort(double *rows, size_t count);

/* Smallest of 'count' numbers, 1 or more. */
double tn_lanes_least(const double *x, size_t count);

#endif
