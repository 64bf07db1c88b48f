/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_CHANNEL_H
#define TARN_FORMULAS_CHANNEL_H

/*
 * channel: streams and channels.  Part of flow.h, whose first lines give the
 * units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

struct tarn_point {
	double x_m;		/* across the channel, never falling */
	double level_m;		/* height of the ground there */
};

/*
 * Uniform flow in an open channel, Manning: Q = A R^(2/3) sqrt(S) / n.
 * Without slope and manning: critical depth of a flow, and at a given depth
 * its velocity and Froude number.
 *
 * The section is one of
 *   width, side_slope  trapezoid, side_slope level run per rise (0 default:
 *                      rectangle; width 0: triangle)
 *   diameter           round pipe, partly full
 *   points             any bed; the outermost points are the banks
 *
 * Give two of flow, depth and width (other sections: one of flow and depth).
 * Depth is the normal depth, above the lowest point.  A round pipe's flow is
 * largest at 0.938 of its diameter; more is refused.  Where an irregular bed
 * has several normal depths the lowest is taken.
 *
 * Errors: TARN_EARG: slope not positive (a stream that would drain away from
 * the pond); water over the banks; two or no sections.
 */
struct tarn_channel {
	double flow_m3s;
	double depth_m;
	double slope;			/* of the bed, fall / length */
	double manning;			/* n */
	double width_m;			/* of the floor */
	double side_slope;
	double diameter_m;
	const struct tarn_point *points;	/* borrowed, or NULL */
	size_t point_count;
};
TARN_API struct tarn_channel tarn_channel_default(void);
TARN_API extern const struct tarn_fields tarn_channel_fields;

enum tarn_state { TARN_SUBCRITICAL, TARN_CRITICAL, TARN_SUPERCRITICAL };

struct tarn_channel_flow {
	double flow_m3s, depth_m, width_m;
	double velocity_ms;
	double area_m2;			/* of the flow */
	double perimeter_m;		/* wetted */
	double top_width_m;		/* of the surface */
	double hydraulic_radius_m;
	double froude;			/* V / sqrt(g area / top width) */
	int state;			/* enum tarn_state, critical within
					   0.1 % of froude = 1; -1: no depth */
	double critical_depth_m;	/* NaN if above the banks */
	double critical_slope;		/* slope at which it would be normal */
	double energy_m;		/* depth + V^2/2g */
	double shear_pa;		/* mean on the bed, 9806.65 R S */
};
TARN_API extern const struct tarn_fields tarn_channel_flow_fields;
TARN_API enum tarn_status tarn_channel_solve(const struct tarn_channel *channel,
					     struct tarn_channel_flow *out,
					     struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
