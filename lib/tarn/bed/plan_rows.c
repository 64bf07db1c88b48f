/* SPDX-License-Identifier: MIT */
/* Rows of the plan's results. */
#include "plan.h"

static const char *const demands[] = {
	"turnover", "falls", "oxygen", "ammonia", NULL
};
static const char *const flows[] = { "bed", "curve", "pump", "demand", NULL };
static const char *const heads[] = { "described", "solved", NULL };
static const char *const lips[] = { "bed", "fall", "trough", NULL };
static const char *const chosen[] = { "described", "needed", "fits", NULL };
const char *const tn_plan_checks_names[] = {
	"loading", "area", "ammonia", "outlet", "flow", "turnover", "falls",
	"breath", "oxygen", "bod", "solids", "section", "head", "lip", "room",
	NULL
};
_Static_assert(sizeof tn_plan_checks_names / sizeof tn_plan_checks_names[0] ==
		       TARN_CHECKS + 1,
	       "each check has a name");

/* ---- parts ----------------------------------------------------------------- */

#define OF struct tarn_bed_demand
static const struct tarn_field demand_rows[] = {
	TARN_OUT_CHOICE(OF, of, "name", demands, "what it is wanted for"),
	TARN_OUT_NUMBER(OF, flow_m3s, "flow", "m3/s", "wanted"),
};
TARN_FIELDS(tarn_bed_demand_result_fields, "demand", demand_rows);
#undef OF

#define OF struct tarn_bed_rated
static const struct tarn_field rated_rows[] = {
	TARN_OUT_STRING(OF, name, "name", "rate, or system of a trial"),
	TARN_OUT_SWITCH(OF, trial, "trial", "a rate that a trial implies"),
	TARN_OUT_SWITCH(OF, described, "described", "the one described"),
	TARN_OUT_NUMBER(OF, k_m_yr, "k_m_yr", "m/yr", "at 20 deg C"),
	TARN_OUT_NUMBER(OF, pond_mgl, "pond", "mg/L", "ammonia when steady"),
	TARN_OUT_NUMBER(OF, extrapolation, "extrapolation", "-",
			"times outside the loadings it was measured at"),
	TARN_OUT_NUMBER(OF, k_low_m_d, "k_low", "m/d", "least of these"),
	TARN_OUT_NUMBER(OF, k_high_m_d, "k_high", "m/d", "highest of these"),
	TARN_OUT_CHOICE(OF, evidence, "evidence", tarn_evidence_texts,
			"how far to trust it"),
};
TARN_FIELDS(tarn_bed_rated_fields, "rate", rated_rows);
#undef OF

#define OF struct tarn_bed_axes
#define AXIS(member, count, name, unit, text)                                \
	TARN_NUMBERS(OF, member, count, name, unit, 0, HUGE_VAL, 1, text)
static const struct tarn_field axes_rows[] = {
	AXIS(area_m2, areas, "areas", "m2", "of the beds"),
	AXIS(depth_m, depths, "depths", "m", "of the beds, wet"),
	AXIS(flow_m3s, flows, "flows", "m3/s", "through them"),
};
TARN_FIELDS(tarn_bed_axes_fields, "grid", axes_rows);
#undef OF

/* ---- the whole --------------------------------------------------------------- */

#define OF struct tarn_bed_plan
#define NUMBER(member, name, unit, text) \
	TARN_OUT_NUMBER(OF, member, name, unit, text)
static const struct tarn_field plan_rows[] = {
	TARN_OUT_SWITCH(OF, loaded, "loaded", "fish are described"),
	TARN_OUT_SWITCH(OF, unfed, "unfed", "too cold to feed by mass"),
	TARN_GIVEN(OF, waste, loaded, "waste", tarn_waste_result_fields,
		   "what the fish put in"),
	TARN_GIVEN(OF, fit, yard, "fit", tarn_fit_fields,
		   "the largest bed that the yard holds"),
	TARN_LIST(OF, demand, demands, "demands",
		  tarn_bed_demand_result_fields, 0, "flows wanted"),
	TARN_OUT_CHOICE(OF, greatest, "greatest", demands,
			"which demand is greatest"),
	NUMBER(flow_m3s, "flow", "m3/s", "taken, through the bed"),
	TARN_OUT_CHOICE(OF, flow_from, "flow_from", flows,
			"where that is from"),
	NUMBER(lip_head_m, "lip_head", "m", "of water over the lip"),
	TARN_OUT_CHOICE(OF, head_from, "head_from", heads,
			"where that is from"),
	NUMBER(available_head_m, "available_head", "m",
	       "that the pump has left for the bed"),
	NUMBER(lip_m, "lip_width", "m", "of its lip, as described"),
	TARN_OUT_CHOICE(OF, lip_from, "lip_from", lips, "where that is from"),
	NUMBER(level_clear_m, "level_clear", "m",
	       "of the farthest water over the lip, when clean"),
	NUMBER(level_clogged_m, "level_clogged", "m",
	       "likewise, when clogged"),
	TARN_OUT_SWITCH(OF, trough_wanted, "trough_wanted",
			"without a trough water stands on the stone"),
	NUMBER(trough_width_m, "trough_width", "m",
	       "of a trough that keeps the stone dry"),
	NUMBER(trough_depth_m, "trough_depth", "m",
	       "of its floor under the lip"),
	NUMBER(depth_m, "depth", "m", "of stone under water"),
	NUMBER(full_depth_m, "full_depth", "m", "with the dry cover"),
	TARN_OUT_SWITCH(OF, chamber, "chamber", "open water under the stone"),
	TARN_OUT_CHOICE(OF, chosen, "chosen", chosen, "which bed is judged"),
	NUMBER(length_m, "length", "m", "from its lip to the far side"),
	NUMBER(width_m, "width", "m", "along its lip"),
	NUMBER(stone_m3, "stone_volume", "m3",
	       "of a bed of one stone, the dry cover with it"),
	NUMBER(stone_kg, "stone_mass", "kg", "likewise, dry"),
	NUMBER(k_low_m_d, "k_low", "m/d",
	       "least loading at which the rate was measured"),
	NUMBER(k_high_m_d, "k_high", "m/d", "highest of these"),
	NUMBER(half_d, "half_days", "d",
	       "until half a change of the pond's ammonia is over"),
	NUMBER(settled_d, "settled_days", "d", "until 95 % of it is"),
	NUMBER(unionised_share, "unionised_share", "-",
	       "of the ammonia: the toxic part"),
	NUMBER(unionised_mgl, "unionised", "mg/L", "likewise, when steady"),
	NUMBER(nitrate_mgl_d, "nitrate_per_day", "mg/L/d",
	       "nitrogen that nitrification adds, at the most"),
	NUMBER(phosphorus_mgl_d, "phosphorus_per_day", "mg/L/d",
	       "that the feed adds"),
	NUMBER(loading_lo_m_d, "loading_low", "m/d",
	       "least loading of the beds it is judged by"),
	NUMBER(loading_hi_m_d, "loading_high", "m/d", "highest of these"),
	TARN_OUT_STRING(OF, loading_of, "loading_of", "which beds these are"),
	TARN_LIST(OF, found.finding, found.count, "checks",
		  tarn_finding_fields, 0,
		  "every check that could be made"),
	TARN_OUT_CHOICE(OF, governing, "governing", tn_plan_checks_names,
			"the check of least margin among the gravest"),
	TARN_OUT_SWITCH(OF, does, "does", "no check forbids it"),
};
TARN_FIELDS(tarn_bed_plan_fields, "plan", plan_rows);
