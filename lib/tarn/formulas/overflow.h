/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_OVERFLOW_H
#define TARN_FORMULAS_OVERFLOW_H

/*
 * overflow: runoff, and openings through which a pond overflows.  Part of
 * flow.h, whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Rational method: peak = coefficient * intensity * area.
 *
 *   coefficient     runoff coefficient   [-]     0 .. 1
 *   intensity_mm_h  design rain          [mm/h]  >= 0, of the place and the
 *                   return period; it is the user's, from local tables
 *   area_m2         catchment            [m2]    >= 0; the pond's own surface
 *                   counts with coefficient 1
 *   returns         flow                 [m3/s]
 */
TARN_API double tarn_rational_m3s(double coefficient, double intensity_mm_h,
				  double area_m2);

/* The same for several catchments at one intensity; NaN if one is. */
struct tarn_catchment {
	double area_m2, coefficient;
	char name[101];		/* for reports */
};
TARN_API double tarn_peak_m3s(const struct tarn_catchment *catchments,
			      size_t count, double intensity_mm_h);

/*
 * Capacity of a vertical stack, Wyly & Eaton (1961, from memory):
 * 27.8 fill^(5/3) d^(8/3) US gal/min, d in inches.  fill is the share of the
 * section that is water, 7/24 in several US codes.  0 < fill <= 1.
 */
TARN_API double tarn_stack_m3s(double diameter_m, double fill);

/*
 * Openings through which a pond overflows: a lip, a standpipe and a pipe
 * through its side, any of them.  Levels count from any one datum.
 *
 *   lip        coefficient * width * head^1.5
 *   standpipe  the least of: weir round its rim (weir_coefficient pi D
 *              h^1.5), orifice (cd A sqrt(2 g h)), stack (above), and, with
 *              drain_length and drain_fall given, its full drain under the
 *              head of h + drain_fall
 *   side pipe  the lesser of: critical depth at the inlet, with the entrance
 *              loss of half a velocity head; orifice on its centre
 *
 * clogging is the share of each opening's width or area that debris takes
 * (of a stack or drain nothing: they lie behind the opening).
 *
 * Give flow or level; the other is solved for.
 */
struct tarn_overflow {
	double flow_m3s;
	double level_m;
	double lip_level_m, lip_width_m;	/* width NaN: no lip */
	double lip_coefficient;			/* default 1.705, broad */
	double standpipe_level_m, standpipe_diameter_m;	/* NaN: none */
	double weir_coefficient;		/* default 1.838 */
	double cd;				/* default 0.6 */
	double fill;				/* default 7/24 */
	double drain_length_m, drain_fall_m;	/* rim to outlet */
	double drain_roughness_m;		/* default 1.5e-6 (plastic) */
	double drain_minor_k;			/* default 1.5: both ends */
	double side_level_m, side_diameter_m;	/* invert; NaN: none */
	double clogging;			/* 0 (default) .. 0.95 */
};
TARN_API struct tarn_overflow tarn_overflow_default(void);
TARN_API extern const struct tarn_fields tarn_overflow_fields;

enum tarn_governs {
	TARN_BY_NOTHING,	/* the opening is dry or not there */
	TARN_BY_WEIR, TARN_BY_ORIFICE, TARN_BY_STACK, TARN_BY_DRAIN,
	TARN_BY_INLET		/* critical depth at a side pipe */
};

struct tarn_overflow_flow {
	double flow_m3s;		/* of all openings */
	double level_m;
	double head_m;			/* level above the lowest opening */
	double lip_m3s, standpipe_m3s, side_m3s;
	int governs;			/* the standpipe, enum tarn_governs */
	int side_governs;		/* of the side pipe */
	double weir_m3s, orifice_m3s, stack_m3s, drain_m3s;	/* standpipe's
					   limits at this level; drain NaN if
					   not described */
	double transition_m;		/* head at which its weir becomes an
					   orifice */
};
TARN_API extern const struct tarn_fields tarn_overflow_flow_fields;
TARN_API enum tarn_status
tarn_overflow_solve(const struct tarn_overflow *overflow,
		    struct tarn_overflow_flow *out, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
