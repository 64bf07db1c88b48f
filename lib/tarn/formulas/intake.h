/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_INTAKE_H
#define TARN_FORMULAS_INTAKE_H

/*
 * intake: intakes and jets under water.  Part of flow.h, whose first lines
 * give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Depth of water that keeps air out of a pump's suction,
 * D (1 + 2.3 V / sqrt(g D)): ANSI/HI 9.8 (1998), section 9.8.7.  Both > 0,
 * else NaN, as where the depth is no finite number.
 */
TARN_API double tarn_submergence_m(double flow_m3s, double diameter_m);

/*
 * An intake opening between the lowest and the highest working level.
 * Depths are of water above the opening's sill, so depth_low <= 0 means that
 * the intake stands dry at the low level: an error.  So is a width beyond
 * 1000 m that is found, and an opening so small that the flow would pass it at
 * more than 1000 m/s.
 */
struct tarn_intake {
	double flow_m3s;
	double width_m;			/* NaN: wanted, from velocity_limit */
	double depth_low_m, depth_high_m;	/* high NaN: as low */
	double open_share;		/* between bars or stones, default 1 */
	double velocity_limit_ms;	/* of the approach; the user's choice */
	double suction_diameter_m;	/* of the pump behind, if any */
};
TARN_API struct tarn_intake tarn_intake_default(void);
TARN_API extern const struct tarn_fields tarn_intake_fields;

struct tarn_intake_flow {
	double width_m;			/* given, or needed for the limit */
	double area_low_m2, area_high_m2;	/* open */
	double velocity_low_ms, velocity_high_ms;	/* at those levels */
	int over_limit;			/* 1: velocity_low above the limit */
	double bay_m3;			/* a minute's flow: common practice (1
					   US gal per gal/min), one source */
	double submergence_m;		/* of the suction, NaN without one */
};
TARN_API extern const struct tarn_fields tarn_intake_flow_fields;
TARN_API enum tarn_status tarn_intake_solve(const struct tarn_intake *intake,
					    struct tarn_intake_flow *out,
					    struct tarn_error *err);

/*
 * Round jets under water.  Beyond the core (decay * D from the mouth)
 *
 *   centre velocity  V0 decay D / x        decay 6.2, Albertson et al. 1950
 *                                          (from memory; 5.9 .. 6.9 in others)
 *   half width       0.589 x / decay       to half the velocity; bell-shaped
 *                                          profile of constant momentum
 *   flow carried     0.32 x/D times the jet's own (Rajaratnam 1976)
 *
 * Give the mouth by diameter and one of flow (of one jet), velocity, head
 * (Q = cd A sqrt(2 g h)).  A jet along a wall or the surface reaches further,
 * one against stones or plants less; corners stay dead, which nothing here
 * simulates.
 */
struct tarn_jet {
	double diameter_m;
	double flow_m3s, velocity_ms, head_m;	/* give one */
	double cd;			/* default 0.6, a drilled hole */
	double decay;			/* default 6.2 */
	double end_velocity_ms;		/* where its throw ends, default 0.1
					   (ours) */
	double temp_c;			/* of the water, default 15 */
	double distance_m;		/* where the jet is looked at */
	double path_m;			/* way to stir, NaN: no count */
};
TARN_API struct tarn_jet tarn_jet_default(void);
TARN_API extern const struct tarn_fields tarn_jet_fields;

struct tarn_jet_flow {
	double flow_m3s, velocity_ms, head_m;
	double core_m;			/* length at full speed */
	double throw_m;			/* to end_velocity; 0 if slower */
	double centre_velocity_ms;	/* at distance */
	double half_width_m;		/* at distance, beyond the core */
	double carried_m3s;		/* at distance, beyond the core */
	double power_w;			/* of one jet */
	double jets;			/* for the path, end to end */
};
TARN_API extern const struct tarn_fields tarn_jet_flow_fields;
TARN_API enum tarn_status tarn_jet_solve(const struct tarn_jet *jet,
					 struct tarn_jet_flow *out,
					 struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
