/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define AREA_MIN 1e-10
#define AREA_MAX 300.0
#define HEAD_MAX 1e4

#define NUMBER(member, name, lo, hi, unit, meaning) \
	FLOW_NUMBER(tarn_orifice, member, name, lo, hi, unit, meaning)
#define NEEDED(member, name, lo, hi, unit, meaning) \
	FLOW_NEEDED(tarn_orifice, member, name, lo, hi, unit, meaning)

static const struct tarn_field rows[] = {
	NUMBER(flow_m3s, "flow", 0, 1000, "m3/s", "flow of all holes"),
	NUMBER(head_m, "head", 0, HEAD_MAX, "m", "head on the holes"),
	NUMBER(diameter_m, "diameter", 1e-5, 20, "m", "of one hole"),
	NUMBER(area_m2, "area", AREA_MIN, AREA_MAX, "m2", "of one hole"),
	NEEDED(count, "count", 1, 1e6, "-", "number of holes"),
	NEEDED(cd, "cd", 0.1, 1, "-", "discharge coefficient"),
};
FLOW_FIELDS(tarn_orifice_fields, "orifice", rows);

#define RESULT(member, name, unit, meaning) \
	FLOW_RESULT(tarn_orifice_flow, member, name, unit, meaning)

static const struct tarn_field result_rows[] = {
	RESULT(flow_m3s, "flow", "m3/s", "flow of all holes"),
	RESULT(head_m, "head", "m", "head on the holes"),
	RESULT(diameter_m, "diameter", "m", "of one round hole"),
	RESULT(area_m2, "area", "m2", "of one hole"),
	RESULT(velocity_ms, "velocity", "m/s", "flow over area"),
	RESULT(jet_velocity_ms, "jet_velocity", "m/s",
	       "where the jet is narrowest"),
};
FLOW_FIELDS(tarn_orifice_flow_fields, "orifice", result_rows);

struct tarn_orifice tarn_orifice_default(void)
{
	const double none = TARN_NAN;

	return (struct tarn_orifice){
		.flow_m3s = none, .head_m = none, .diameter_m = none,
		.area_m2 = none, .count = 1, .cd = 0.6,
	};
}

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
	if (flow_given(size, 2) == 2)
		return tarn_fail(err, TARN_EARG, "orifice.area", "is given "
				 "beside diameter: give one of them");
	if (flow_need(three, 3, 2, "orifice", "flow, head and size (diameter "
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
