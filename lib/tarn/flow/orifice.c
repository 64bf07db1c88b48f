/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define AREA_MIN 1e-10
#define AREA_MAX 300.0
#define HEAD_MAX 1e4

#define IN struct tarn_orifice
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1000, TARN_NAN,
		       "flow of all holes"),
	TARN_IN_NUMBER(IN, head_m, "head", "m", 0, HEAD_MAX, TARN_NAN,
		       "head on the holes"),
	TARN_IN_NUMBER(IN, diameter_m, "diameter", "m", 1e-5, 20, TARN_NAN,
		       "of one hole"),
	TARN_IN_NUMBER(IN, area_m2, "area", "m2", AREA_MIN, AREA_MAX, TARN_NAN,
		       "of one hole"),
	TARN_IN_VALUE(IN, count, "count", "-", 1, 1e6, 1, "number of holes"),
	TARN_IN_VALUE(IN, cd, "cd", "-", 0.1, 1, 0.6, "discharge coefficient"),
};
TARN_FIELDS(tarn_orifice_fields, "orifice", rows);
TARN_DEFAULT(IN, tarn_orifice_default, tarn_orifice_fields)

#define OUT struct tarn_orifice_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow of all holes"),
	TARN_OUT_NUMBER(OUT, head_m, "head", "m", "head on the holes"),
	TARN_OUT_NUMBER(OUT, diameter_m, "diameter", "m", "of one round hole"),
	TARN_OUT_NUMBER(OUT, area_m2, "area", "m2", "of one hole"),
	TARN_OUT_NUMBER(OUT, velocity_ms, "velocity", "m/s", "flow over area"),
	TARN_OUT_NUMBER(OUT, jet_velocity_ms, "jet_velocity", "m/s",
			"where the jet is narrowest"),
};
TARN_FIELDS(tarn_orifice_flow_fields, "orifice", result_rows);

/* What was found must be what might have been given. */
static enum tarn_status check_found(double area, double head,
				    struct tarn_error *err)
{
	if (!(area >= AREA_MIN && area <= AREA_MAX))
		return tarn_fail(err, TARN_EARG, "orifice", "flow and head "
				 "need a hole of %g m2, and none is of %g to "
				 "%g m2", area, AREA_MIN, AREA_MAX);
	if (!(head <= HEAD_MAX))
		return tarn_fail(err, TARN_EARG, "orifice", "flow and size "
				 "need a head of %g m: more than %g m", head,
				 HEAD_MAX);
	return TARN_OK;
}

enum tarn_status tarn_orifice_solve(const struct tarn_orifice *orifice,
				    struct tarn_orifice_flow *out,
				    struct tarn_error *err)
{
	const double size[] = { orifice->diameter_m, orifice->area_m2 };
	double area = isnan(size[1]) ? FLOW_PI / 4 * size[0] * size[0]
				     : size[1];
	const double three[] = { orifice->flow_m3s, orifice->head_m, area };
	double flow = three[0], head = three[1], per_area = orifice->count *
							    orifice->cd;

	if (tarn_fields_check(&tarn_orifice_fields, orifice, err) != TARN_OK)
		return TARN_EARG;
	if (tn_flow_given(size, 2) == 2)
		return tarn_fail(err, TARN_EARG, "orifice.area", "is given "
				 "beside diameter: give one of them");
	if (tn_flow_need(three, 3, 2, "orifice",
			 "flow, head and size (diameter "
			 "or area)", err) != TARN_OK)
		return TARN_EARG;
	if (isnan(area) && !(head > 0 && flow > 0))
		return tarn_fail(err, TARN_EARG, "orifice", "flow and head "
				 "must be above zero to find a size");
	if (isnan(area))
		area = flow / (per_area * sqrt(2 * TARN_GRAVITY * head));
	if (isnan(head)) {
		double v = flow / (per_area * area);

		head = v * v / (2 * TARN_GRAVITY);
	}
	if (isnan(flow))
		flow = per_area * area * sqrt(2 * TARN_GRAVITY * head);
	if (check_found(area, head, err) != TARN_OK)
		return TARN_EARG;
	out->flow_m3s = flow;
	out->head_m = head;
	out->area_m2 = area;
	out->diameter_m = sqrt(area * 4 / FLOW_PI);
	out->velocity_ms = flow / (orifice->count * area);
	out->jet_velocity_ms = sqrt(2 * TARN_GRAVITY * head);
	return TARN_OK;
}
