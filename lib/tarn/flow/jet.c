/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define NUMBER(member, name, lo, hi, unit, meaning) \
	FLOW_NUMBER(tarn_jet, member, name, lo, hi, unit, meaning)
#define NEEDED(member, name, lo, hi, unit, meaning) \
	FLOW_NEEDED(tarn_jet, member, name, lo, hi, unit, meaning)

static const struct tarn_field rows[] = {
	NEEDED(diameter_m, "diameter", 1e-4, 5, "m", "mouth of the jet"),
	NUMBER(flow_m3s, "flow", 0, 1000, "m3/s", "flow of one jet"),
	NUMBER(velocity_ms, "velocity", 0, 100, "m/s", "flow over area"),
	NUMBER(head_m, "head", 0, 1000, "m", "head behind the mouth"),
	NEEDED(cd, "cd", 0.1, 1, "-", "discharge coefficient of the mouth"),
	NEEDED(decay, "decay", 4, 10, "-",
	       "centre velocity: decay D / x of the mouth's"),
	NEEDED(end_velocity_ms, "end_velocity", 1e-4, 100, "m/s",
	       "where the throw ends"),
	NEEDED(temp_c, "temp", TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX,
	       "deg C", "temperature of the water"),
	NUMBER(distance_m, "distance", 0, 1e4, "m", "from the mouth"),
	NUMBER(path_m, "path", 0, 1e5, "m", "length of way to stir"),
};
FLOW_FIELDS(tarn_jet_fields, "jet", rows);

#define RESULT(member, name, unit, meaning) \
	FLOW_RESULT(tarn_jet_flow, member, name, unit, meaning)

static const struct tarn_field result_rows[] = {
	RESULT(flow_m3s, "flow", "m3/s", "flow of one jet"),
	RESULT(velocity_ms, "velocity", "m/s", "flow over area"),
	RESULT(head_m, "head", "m", "head behind the mouth"),
	RESULT(core_m, "core", "m", "length at full speed"),
	RESULT(throw_m, "throw", "m", "distance to end_velocity"),
	RESULT(centre_velocity_ms, "centre_velocity", "m/s", "at distance"),
	RESULT(half_width_m, "half_width", "m", "at distance"),
	RESULT(carried_m3s, "carried", "m3/s", "at distance"),
	RESULT(power_w, "power", "W", "of one jet"),
	RESULT(jets, "jets", "-", "for the path"),
};
FLOW_FIELDS(tarn_jet_flow_fields, "jet", result_rows);

/* sqrt(ln 2 / 2): decay times half width over distance, for a bell-shaped
 * profile that keeps its momentum.  Decay 6.2 gives 0.095; experiments
 * range from 0.085 to 0.10. */
#define BELL 0.58870501125773734
#define CARRIED 0.32	/* Rajaratnam (1976) */

struct tarn_jet tarn_jet_default(void)
{
	const double none = TARN_NAN;

	return (struct tarn_jet){
		.diameter_m = none, .flow_m3s = none, .velocity_ms = none,
		.head_m = none, .cd = 0.6, .decay = 6.2,
		.end_velocity_ms = 0.1, .temp_c = 15,
		.distance_m = none, .path_m = none,
	};
}

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
	    flow_need(three, 3, 1, "jet", "flow, velocity and head", err) !=
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
