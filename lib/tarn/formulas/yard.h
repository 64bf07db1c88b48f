/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_YARD_H
#define TARN_FORMULAS_YARD_H

/*
 * yard: the largest rectangle that fits a yard.  Part of bed.h, whose first
 * lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Largest rectangle that fits a yard.  Each side of the yard keeps a setback;
 * a side that is a wall on a footing keeps, besides, the line that falls from
 * the footing's underside at 45 degrees (footing_slope 1): a hole dug deeper
 * than the footing stays (dig - footing) x slope away.  This is a planner's
 * check, not an engineer's: loads, soil, water and local codes decide.
 *
 * The search tries the directions of all sides and more between, and refines:
 * exact to 1e-6 m for rectangles along a side, near-best for other shapes.
 */
#define TARN_YARD_CORNERS 32

struct tarn_yard_corner {
	double x_m, y_m;
	double setback_m;	/* of the side from here to the next corner */
	double footing_m;	/* depth of a wall's footing; NaN: no wall */
};

struct tarn_yard {
	const struct tarn_yard_corner *corner;	/* borrowed, in a round */
	size_t count;		/* 3 .. TARN_YARD_CORNERS */
	double dig_m;		/* depth of the hole below ground; NaN: none */
	double footing_slope;	/* metres out per metre down */
	double max_length_m, max_width_m;	/* HUGE_VAL: no limit */
};

TARN_API extern const struct tarn_fields tarn_yard_fields;
TARN_API extern const struct tarn_fields tarn_yard_corner_fields;
TARN_API struct tarn_yard tarn_yard_default(void);
TARN_API struct tarn_yard_corner tarn_yard_corner_default(void);

struct tarn_fit_corner {
	double x_m, y_m;
};

struct tarn_fit {
	double length_m, width_m;	/* length is the longer side */
	double area_m2;
	double angle_deg;	/* of the length, from the x axis */
	struct tarn_fit_corner corner[4];
	double yard_m2;
};
TARN_API extern const struct tarn_fields tarn_fit_fields;

/* Errors: TARN_EARG: a field; sides that cross; setbacks that leave nothing. */
TARN_API enum tarn_status tarn_yard_fit(const struct tarn_yard *yard,
					struct tarn_fit *out,
					struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
