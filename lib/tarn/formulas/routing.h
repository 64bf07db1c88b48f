/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_ROUTING_H
#define TARN_FORMULAS_ROUTING_H

/*
 * routing: a storm through the pond.  Part of flow.h, whose first lines give
 * the units and conventions.
 */

#include "tarn/formulas/overflow.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Level-pool routing: in each step, with the trapezoid rule,
 *
 *   storage2 - storage1 = dt (inflow1 + inflow2)/2 - dt (outflow1 + outflow2)/2
 *
 * (storage-indication or modified Puls, e.g. Chow, Maidment & Mays 1988,
 * Applied Hydrology, section 8.2), solved for the level to rounding; so the
 * volumes of a run close to rounding, too.
 *
 * Storage follows from a table of levels and areas, area linear between
 * rows.  Outflow is that of 'overflow' (its flow and level are not used)
 * plus a rating table, linear between rows, none below its first row; either
 * may be missing.  All levels count from one datum.
 *
 * Errors: TARN_EARG: tables that do not rise; a level above the storage
 * table's or the rating's end; a step so long that more leaves than is there
 * (raise substeps).
 */
struct tarn_routing {
	const double *level_m, *area_m2;	/* storage, rising levels */
	size_t level_count;			/* >= 2 */
	const double *inflow_m3s;		/* at 0, step, 2 step ... */
	size_t inflow_count;			/* >= 2 */
	double step_s;
	double substeps;			/* per step, default 20; inflow
						   is linear within a step */
	double start_level_m;
	const struct tarn_overflow *overflow;	/* borrowed, or NULL */
	const double *rating_level_m, *rating_m3s;	/* borrowed */
	size_t rating_count;			/* 0: none */
};
TARN_API struct tarn_routing tarn_routing_default(void);
TARN_API extern const struct tarn_fields tarn_routing_fields;

struct tarn_routing_flow {
	double peak_inflow_m3s, peak_outflow_m3s;
	double peak_level_m, peak_time_s;	/* of the level */
	double end_level_m;
	double inflow_m3, outflow_m3, stored_m3;
	double balance_m3;		/* inflow - outflow - stored */
};
TARN_API extern const struct tarn_fields tarn_routing_flow_fields;

/*   level_m, outflow_m3s  filled, one an inflow; either may be NULL */
TARN_API enum tarn_status
tarn_routing_solve(const struct tarn_routing *routing, double *level_m,
		   double *outflow_m3s, struct tarn_routing_flow *out,
		   struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
