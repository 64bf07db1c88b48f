/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define NUMBER(member, name, lo, hi, unit, meaning) \
	FLOW_NUMBER(tarn_transit, member, name, lo, hi, unit, meaning)
#define NEEDED(member, name, lo, hi, unit, meaning) \
	FLOW_NEEDED(tarn_transit, member, name, lo, hi, unit, meaning)

static const struct tarn_field rows[] = {
	NEEDED(surfaces_m3, "surfaces", 0, 1e6, "m3",
	       "over bed and pools, above their lips"),
	NEEDED(streams_m3, "streams", 0, 1e6, "m3", "flowing in streams"),
	NEEDED(pipes_m3, "pipes", 0, 1e6, "m3",
	       "in pipes above the pond's level"),
	FLOW_SWITCH(tarn_transit, check_valve, "check_valve",
		    "keeps pipes full when the pump stops"),
	NEEDED(siphon_area_m2, "siphon_area", 0, 1e6, "m2",
	       "upper water that an outlet lies under"),
	NEEDED(siphon_depth_m, "siphon_depth", 0, 100, "m",
	       "its lip above the outlet's mouth"),
	NUMBER(pond_area_m2, "pond_area", 1e-3, 1e6, "m2",
	       "surface whose level moves"),
};
FLOW_FIELDS(tarn_transit_fields, "transit", rows);

#define RESULT(member, name, unit, meaning) \
	FLOW_RESULT(tarn_transit_flow, member, name, unit, meaning)

static const struct tarn_field result_rows[] = {
	RESULT(running_m3, "running", "m3", "held by the flow itself"),
	RESULT(drain_back_m3, "drain_back", "m3", "from pipes and siphon"),
	RESULT(total_m3, "total", "m3", "returns at a stop"),
	RESULT(rise_m, "rise", "m", "of the pond at a stop"),
};
FLOW_FIELDS(tarn_transit_flow_fields, "transit", result_rows);

struct tarn_transit tarn_transit_default(void)
{
	return (struct tarn_transit){ .pond_area_m2 = TARN_NAN };
}

static double product(double a, double b)
{
	return a >= 0 && b >= 0 ? a * b : TARN_NAN;
}

double tarn_transit_surface_m3(double area_m2, double head_m)
{
	return product(area_m2, head_m);
}

double tarn_transit_stream_m3(double length_m, double flow_area_m2)
{
	return product(length_m, flow_area_m2);
}

double tarn_transit_pipe_m3(double length_m, double diameter_m)
{
	return FLOW_PI / 4 * product(length_m, diameter_m) * diameter_m;
}

enum tarn_status tarn_transit_solve(const struct tarn_transit *transit,
				    struct tarn_transit_flow *out,
				    struct tarn_error *err)
{
	const struct tarn_transit *t = transit;

	if (tarn_fields_check(&tarn_transit_fields, t, err) != TARN_OK)
		return TARN_EARG;
	out->running_m3 = t->surfaces_m3 + t->streams_m3;
	out->drain_back_m3 = t->check_valve ? 0
		: t->pipes_m3 + t->siphon_area_m2 * t->siphon_depth_m;
	out->total_m3 = out->running_m3 + out->drain_back_m3;
	out->rise_m = out->total_m3 / t->pond_area_m2;
	return TARN_OK;
}
