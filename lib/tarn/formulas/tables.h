/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_TABLES_H
#define TARN_FORMULAS_TABLES_H

/*
 * tables: constants of fittings, pipes, channels, and sizes of pipe.  Part of
 * flow.h, whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Published constants, each with the span over which sources differ and where
 * it comes from.  They are offered, never used unasked.
 */
enum tarn_flow_table {
	TARN_FITTINGS,		/* loss coefficient K            [-] */
	TARN_ROUGHNESS,		/* sand roughness of pipes       [m] */
	TARN_HAZEN_WILLIAMS,	/* C of pipes                    [-] */
	TARN_MANNING,		/* n of channels                 [s/m^(1/3)] */
	TARN_RUNOFF,		/* coefficient of the rational method [-] */
	TARN_LIPS,		/* weir coefficient C            [m^0.5/s] */
	TARN_NEUTRALISERS,	/* mg per mg of chlorine as Cl2  [-] */
	TARN_FLOW_TABLES	/* how many there are */
};

struct tarn_constant {
	const char *name;	/* "90 elbow threaded" */
	double value;
	double lo, hi;		/* span of the sources */
	const char *source;
};
TARN_API extern const struct tarn_fields tarn_constant_fields;

/* Borrowed from the library; *count is filled.  NULL if there is no such
 * table. */
TARN_API const struct tarn_constant *
tarn_flow_table(enum tarn_flow_table which, size_t *count);

/* Row of that name, or NULL. */
TARN_API const struct tarn_constant *
tarn_flow_constant(enum tarn_flow_table which, const char *name);

/*
 * Inside diameters of pipe by schedule and nominal size.
 *
 *   schedule "40", "80"   nominal walls of ASME B36.10 / B36.19 steel, which
 *                         PVC schedule pipe shares (from memory)
 *   schedule "40 pvc"     average inside of PVC made to ASTM D1785, whose
 *                         walls run thicker (from memory): 3-10 % more loss
 *
 * Measure what you buy: hose and foreign pipe are sold by other rules.
 */
struct tarn_pipe_size {
	const char *schedule;
	const char *nominal;	/* inches, as printed on it: "1.5" */
	double outside_m, inside_m;
};
TARN_API extern const struct tarn_fields tarn_pipe_size_fields;
TARN_API const struct tarn_pipe_size *tarn_pipe_sizes(size_t *count);

/* NaN if there is no such size. */
TARN_API double tarn_pipe_inside_m(const char *schedule, const char *nominal);

/* Inside diameter of pipe sold by outside diameter and standard dimension
 * ratio (SDR = outside / wall > 2, outside > 0, NaN otherwise), nominal wall. */
TARN_API double tarn_pipe_sdr_inside_m(double outside_m, double sdr);

#ifdef __cplusplus
}
#endif
#endif
