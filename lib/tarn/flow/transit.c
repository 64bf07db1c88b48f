/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_transit
static const struct tarn_field rows[] = {
	TARN_IN_VALUE(IN, surfaces_m3, "surfaces", "m3", 0, 1e6, 0,
		      "over bed and pools, above their lips"),
	TARN_IN_VALUE(IN, streams_m3, "streams", "m3", 0, 1e6, 0,
		      "flowing in streams"),
	TARN_IN_VALUE(IN, pipes_m3, "pipes", "m3", 0, 1e6, 0,
		      "in pipes above the pond's level"),
	TARN_IN_SWITCH(IN, check_valve, "check_valve", 0,
		       "keeps pipes full when the pump stops"),
	TARN_IN_VALUE(IN, siphon_area_m2, "siphon_area", "m2", 0, 1e6, 0,
		      "upper water that an outlet lies under"),
	TARN_IN_VALUE(IN, siphon_depth_m, "siphon_depth", "m", 0, 100, 0,
		      "its lip above the outlet's mouth"),
	TARN_IN_NUMBER(IN, pond_area_m2, "pond_area", "m2", 1e-3, 1e6, TARN_NAN,
		       "surface whose level moves"),
};
TARN_FIELDS(tarn_transit_fields, "transit", rows);
TARN_DEFAULT(IN, tarn_transit_default, tarn_transit_fields)

#define OUT struct tarn_transit_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, running_m3, "running", "m3",
			"held by the flow itself"),
	TARN_OUT_NUMBER(OUT, drain_back_m3, "drain_back", "m3",
			"from pipes and siphon"),
	TARN_OUT_NUMBER(OUT, total_m3, "total", "m3", "returns at a stop"),
	TARN_OUT_NUMBER(OUT, rise_m, "rise", "m", "of the pond at a stop"),
};
TARN_FIELDS(tarn_transit_flow_fields, "transit", result_rows);

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
