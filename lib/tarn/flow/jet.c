/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_jet
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, diameter_m, "diameter", "m", 1e-4, 5,
			 "mouth of the jet"),
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1000, TARN_NAN,
		       "flow of one jet"),
	TARN_IN_NUMBER(IN, velocity_ms, "velocity", "m/s", 0, 100, TARN_NAN,
		       "flow over area"),
	TARN_IN_NUMBER(IN, head_m, "head", "m", 0, 1000, TARN_NAN,
		       "head behind the mouth"),
	TARN_IN_VALUE(IN, cd, "cd", "-", 0.1, 1, 0.6,
		      "discharge coefficient of the mouth"),
	TARN_IN_VALUE(IN, decay, "decay", "-", 4, 10, 6.2,
		      "centre velocity: decay D / x of the mouth's"),
	TARN_IN_VALUE(IN, end_velocity_ms, "end_velocity", "m/s", 1e-4, 100,
		      0.1, "where the throw ends"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", TARN_WATER_TEMP_MIN,
		      TARN_WATER_TEMP_MAX, 15, "temperature of the water"),
	TARN_IN_NUMBER(IN, distance_m, "distance", "m", 0, 1e4, TARN_NAN,
		       "from the mouth"),
	TARN_IN_NUMBER(IN, path_m, "path", "m", 0, 1e5, TARN_NAN,
		       "length of way to stir"),
};
TARN_FIELDS(tarn_jet_fields, "jet", rows);
TARN_DEFAULT(IN, tarn_jet_default, tarn_jet_fields)

#define OUT struct tarn_jet_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow of one jet"),
	TARN_OUT_NUMBER(OUT, velocity_ms, "velocity", "m/s", "flow over area"),
	TARN_OUT_NUMBER(OUT, head_m, "head", "m", "head behind the mouth"),
	TARN_OUT_NUMBER(OUT, core_m, "core", "m", "length at full speed"),
	TARN_OUT_NUMBER(OUT, throw_m, "throw", "m", "distance to end_velocity"),
	TARN_OUT_NUMBER(OUT, centre_velocity_ms, "centre_velocity", "m/s",
			"at distance"),
	TARN_OUT_NUMBER(OUT, half_width_m, "half_width", "m", "at distance"),
	TARN_OUT_NUMBER(OUT, carried_m3s, "carried", "m3/s", "at distance"),
	TARN_OUT_NUMBER(OUT, power_w, "power", "W", "of one jet"),
	TARN_OUT_NUMBER(OUT, jets, "jets", "-", "for the path"),
};
TARN_FIELDS(tarn_jet_flow_fields, "jet", result_rows);

/* sqrt(ln 2 / 2): decay times half width over distance, for a bell-shaped
 * profile that keeps its momentum.  Decay 6.2 gives 0.095; experiments
 * range from 0.085 to 0.10. */
#define BELL 0.58870501125773734
#define CARRIED 0.32	/* Rajaratnam (1976) */

static void look_at(const struct tarn_jet *jet, double velocity, double flow,
		    struct tarn_jet_flow *out)
{
	double x = jet->distance_m, d = jet->diameter_m;

	out->centre_velocity_ms = out->half_width_m = out->carried_m3s =
		TARN_NAN;
	if (x >= 0)
		out->centre_velocity_ms = x <= out->core_m ? velocity
			: velocity * jet->decay * d / x;
	if (x >= out->core_m) {
		out->half_width_m = BELL / jet->decay * x;
		out->carried_m3s = CARRIED * x / d * flow;
	}
}

enum tarn_status tarn_jet_solve(const struct tarn_jet *jet,
				struct tarn_jet_flow *out,
				struct tarn_error *err)
{
	const double three[] = { jet->flow_m3s, jet->velocity_ms,
				 jet->head_m };
	double d = jet->diameter_m, area = FLOW_PI / 4 * d * d;
	double v = jet->velocity_ms, ideal;

	if (tarn_fields_check(&tarn_jet_fields, jet, err) != TARN_OK ||
	    tn_flow_need(three, 3, 1, "jet", "flow, velocity and head", err) !=
		    TARN_OK)
		return TARN_EARG;
	if (!isnan(jet->flow_m3s))
		v = jet->flow_m3s / area;
	if (!isnan(jet->head_m))
		v = jet->cd * sqrt(2 * TARN_GRAVITY * jet->head_m);
	ideal = v / jet->cd;
	out->velocity_ms = v;
	out->flow_m3s = v * area;
	out->head_m = ideal * ideal / (2 * TARN_GRAVITY);
	out->core_m = jet->decay * d;
	out->throw_m = v > jet->end_velocity_ms
		? out->core_m * v / jet->end_velocity_ms : 0;
	look_at(jet, v, out->flow_m3s, out);
	out->power_w = tarn_water(jet->temp_c).density_kgm3 * out->flow_m3s *
		       v * v / 2;
	out->jets = out->throw_m > 0 ? ceil(jet->path_m / out->throw_m)
				     : TARN_NAN;
	return TARN_OK;
}
