/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define WIDTH_MAX 1000.0
#define VELOCITY_MAX 1e3	/* m/s; no water is so fast: derived from the
				 * head, 51 km */

#define IN struct tarn_intake
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, flow_m3s, "flow", "m3/s", 0, 1000,
			 "flow of the pump"),
	TARN_IN_NUMBER(IN, width_m, "width", "m", 1e-3, WIDTH_MAX, TARN_NAN,
		       "width of the opening"),
	TARN_IN_REQUIRED(IN, depth_low_m, "depth_low", "m", -100, 100,
			 "water over the sill at the lowest working level"),
	TARN_IN_NUMBER(IN, depth_high_m, "depth_high", "m", 0, 100, TARN_NAN,
		       "water over the sill at the highest working level"),
	TARN_IN_VALUE(IN, open_share, "open_share", "-", 0.01, 1, 1,
		      "share of the opening between bars or stones"),
	TARN_IN_NUMBER(IN, velocity_limit_ms, "velocity_limit", "m/s", 1e-3, 10,
		       TARN_NAN, "highest velocity wanted in it"),
	TARN_IN_NUMBER(IN, suction_diameter_m, "suction_diameter", "m", 1e-3,
		       10, TARN_NAN, "of the pump's suction"),
};
TARN_FIELDS(tarn_intake_fields, "intake", rows);
TARN_DEFAULT(IN, tarn_intake_default, tarn_intake_fields)

#define OUT struct tarn_intake_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, width_m, "width", "m", "width of the opening"),
	TARN_OUT_NUMBER(OUT, area_low_m2, "area_low", "m2",
			"open at the lowest level"),
	TARN_OUT_NUMBER(OUT, area_high_m2, "area_high", "m2",
			"open at the highest level"),
	TARN_OUT_NUMBER(OUT, velocity_low_ms, "velocity_low", "m/s",
			"at the lowest level"),
	TARN_OUT_NUMBER(OUT, velocity_high_ms, "velocity_high", "m/s",
			"at the highest level"),
	TARN_OUT_SWITCH(OUT, over_limit, "over_limit",
			"velocity_low is above the limit"),
	TARN_OUT_NUMBER(OUT, bay_m3, "bay", "m3",
			"a minute's flow, common practice"),
	TARN_OUT_NUMBER(OUT, submergence_m, "submergence", "m",
			"water over the suction that keeps air out"),
};
TARN_FIELDS(tarn_intake_flow_fields, "intake", result_rows);

double tarn_submergence_m(double flow_m3s, double diameter_m)
{
	double velocity = flow_m3s / (FLOW_PI / 4 * diameter_m * diameter_m);

	double depth_m = diameter_m *
		(1 + 2.3 * velocity / sqrt(TARN_GRAVITY * diameter_m));

	if (!(flow_m3s > 0 && diameter_m > 0 && isfinite(depth_m)))
		return TARN_NAN;
	return depth_m;
}

static enum tarn_status check(const struct tarn_intake *in,
			      struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_intake_fields, in, err) != TARN_OK)
		return TARN_EARG;
	if (!(in->depth_low_m > 0))
		return tarn_fail(err, TARN_EARG, "intake.depth_low", "the "
				 "lowest working level is %g m below the "
				 "intake's sill: the pump would run dry",
				 -in->depth_low_m);
	if (in->depth_high_m < in->depth_low_m)
		return tarn_fail(err, TARN_EARG, "intake.depth_high", "must "
				 "not be under depth_low, got %g and %g",
				 in->depth_high_m, in->depth_low_m);
	if (isnan(in->width_m) && isnan(in->velocity_limit_ms))
		return tarn_fail(err, TARN_EARG, "intake", "needs width, or "
				 "velocity_limit to find a width");
	return TARN_OK;
}

/* The opening at the lowest level. */
static enum tarn_status check_opening(const struct tarn_intake *in,
				      double area_m2, double width_m,
				      struct tarn_error *err)
{
	if (!(in->flow_m3s > 0) && isnan(in->width_m))
		return tarn_fail(err, TARN_EARG, "intake.flow", "must be above "
				 "zero to find a width");
	if (!(width_m <= WIDTH_MAX))
		return tarn_fail(err, TARN_EARG, "intake.depth_low", "of %g m "
				 "needs a width of %g m for that flow: more than "
				 "%g m", in->depth_low_m, width_m, WIDTH_MAX);
	if (!(in->flow_m3s <= area_m2 * VELOCITY_MAX))
		return tarn_fail(err, TARN_EARG, "intake.depth_low", "of %g m "
				 "leaves an opening of %g m2, too little for "
				 "%g m3/s", in->depth_low_m, area_m2,
				 in->flow_m3s);
	return TARN_OK;
}

enum tarn_status tarn_intake_solve(const struct tarn_intake *intake,
				   struct tarn_intake_flow *out,
				   struct tarn_error *err)
{
	double low = intake->depth_low_m, high = intake->depth_high_m;
	double width = intake->width_m;

	if (check(intake, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(high))
		high = low;
	if (isnan(width))
		width = intake->flow_m3s / (intake->velocity_limit_ms * low *
					    intake->open_share);
	if (check_opening(intake, width * low * intake->open_share, width,
			  err) != TARN_OK)
		return TARN_EARG;
	out->width_m = width;
	out->area_low_m2 = width * low * intake->open_share;
	out->area_high_m2 = width * high * intake->open_share;
	out->velocity_low_ms = intake->flow_m3s / out->area_low_m2;
	out->velocity_high_ms = intake->flow_m3s / out->area_high_m2;
	/* a width found from the limit meets it, whatever the rounding */
	out->over_limit = !isnan(intake->width_m) &&
		out->velocity_low_ms > intake->velocity_limit_ms;
	out->bay_m3 = 60 * intake->flow_m3s;
	out->submergence_m = tarn_submergence_m(intake->flow_m3s,
						intake->suction_diameter_m);
	return TARN_OK;
}
