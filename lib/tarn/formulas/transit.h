/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_TRANSIT_H
#define TARN_FORMULAS_TRANSIT_H

/*
 * transit: water that is on its way between bed and pond.  Part of flow.h,
 * whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Water that a running pump holds above the pond: over the surfaces that
 * stand above their lips (bed, upper pools), in streams, in pipes.
 *
 *   surface  = area * head over its lip
 *   stream   = length * area of the flow (channel.h)
 *   pipe     = length * pi/4 diameter^2
 *
 * All arguments >= 0, NaN otherwise.
 */
TARN_API double tarn_transit_surface_m3(double area_m2, double head_m);
TARN_API double tarn_transit_stream_m3(double length_m, double flow_area_m2);
TARN_API double tarn_transit_pipe_m3(double length_m, double diameter_m);

/*
 * What comes back when the pump stops, and what a start takes.
 *
 * With a check valve pipes stay full.  Without one they drain, and an outlet
 * under the upper water siphons that water back down to the outlet's mouth:
 * siphon_area * siphon_depth.
 */
struct tarn_transit {
	double surfaces_m3;		/* sum over bed, pools */
	double streams_m3;
	double pipes_m3;		/* above the pond's level */
	int check_valve;		/* 1: pipes stay full, no siphon */
	double siphon_area_m2;		/* of the upper water */
	double siphon_depth_m;		/* its lip above the outlet's mouth */
	double pond_area_m2;		/* surface whose level moves */
};
TARN_API struct tarn_transit tarn_transit_default(void);
TARN_API extern const struct tarn_fields tarn_transit_fields;

struct tarn_transit_flow {
	double running_m3;		/* on the surfaces and in the streams */
	double drain_back_m3;		/* pipes and siphon */
	double total_m3;		/* returns at a stop */
	double rise_m;			/* of the pond: total / area */
};
TARN_API extern const struct tarn_fields tarn_transit_flow_fields;
TARN_API enum tarn_status tarn_transit_solve(const struct tarn_transit *transit,
					     struct tarn_transit_flow *out,
					     struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
