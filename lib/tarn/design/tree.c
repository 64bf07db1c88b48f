/* SPDX-License-Identifier: MIT */
#include "tarn/design.h"

/* The tree of a description.  Rows of numbers stand beside their structs in
 * the wings; here are sections, lists, words and texts, and what no wing
 * computes with. */

#define SECTION(member, name, rows_of, text) \
	TARN_SECTION(struct tarn_design, member, name, rows_of, text)
#define NOTED(member, given, name, rows_of, text) \
	TARN_GIVEN(struct tarn_design, member, given, name, rows_of, text)
/* Rows whose offsets are into the design itself. */
#define HERE(name_, rows_of, text)                             \
	{ .name = name_, .kind = TARN_FIELD_SECTION, .unit = "-", \
	  .of = &rows_of, .meaning = text }
/* More rows of the section around it. */
#define PART(T, member, rows_of) TARN_SECTION(T, member, "", rows_of, "")

/* ---- schedules ---------------------------------------------------------------- */

static const char *const weekdays[] = {
	"mon", "tue", "wed", "thu", "fri", "sat", "sun", NULL
};
static const char *const months[] = {
	"jan", "feb", "mar", "apr", "may", "jun",
	"jul", "aug", "sep", "oct", "nov", "dec", NULL
};

#define DATE_TEXT "YYYY-MM-DD, or MM-DD for every year; included"
static const struct tarn_field span_rows[] = {
	TARN_IN_DATE(struct tarn_span, first_day, first_mmdd, "from",
		     DATE_TEXT),
	TARN_IN_DATE(struct tarn_span, last_day, last_mmdd, "to", DATE_TEXT),
};
static TARN_FIELDS(span_fields, "span", span_rows);

#define SCHEDULE(subject)                                                   \
	TARN_IN_NAMES(struct tarn_schedule, weekdays, "weekdays", weekdays, \
		      "days of the week on which " subject                  \
		      "; all if not given"),                                \
	TARN_IN_NAMES(struct tarn_schedule, months, "months", months,       \
		      "months in which " subject "; all if not given"),     \
	TARN_LIST(struct tarn_schedule, on, on_count, "open", span_fields, 1, \
		  "spans of days: only then"),                              \
	TARN_LIST(struct tarn_schedule, off, off_count, "closed",           \
		  span_fields, 1, "spans of days: not then")

static const struct tarn_field supply_when_rows[] = {
	SCHEDULE("it may run")
};
static TARN_FIELDS(supply_when_fields, "supply", supply_when_rows);

static const struct tarn_field taken_when_rows[] = {
	SCHEDULE("it is taken")
};
static TARN_FIELDS(taken_when_fields, "withdrawals", taken_when_rows);

static const struct tarn_field withdrawal_rows[] = {
	TARN_IN_REQUIRED(struct tarn_withdrawal, volume_m3, "volume", "m3", 0,
			 1e6, "taken on each day of the schedule"),
	PART(struct tarn_withdrawal, when, taken_when_fields),
};
static TARN_FIELDS(withdrawal_fields, "withdrawals", withdrawal_rows);

/* ---- basin ---------------------------------------------------------------------- */

static const struct tarn_field shelf_rows[] = {
	TARN_IN_REQUIRED(struct tarn_shelf, depth_m, "depth", "m", 1e-3, 15,
			 "below the top edge"),
	TARN_IN_REQUIRED(struct tarn_shelf, width_m, "width", "m", 1e-3, 100,
			 "level width"),
};
static TARN_FIELDS(shelf_fields, "basin.shelves", shelf_rows);

#define OWNED(T, member, count_, kind_, name_, unit_, fewest, text)   \
	.name = name_, .kind = kind_, .offset = offsetof(T, member),  \
	.count_offset = offsetof(T, count_), .lo = -HUGE_VAL,         \
	.hi = HUGE_VAL, .least = fewest, .most = 100000, .owned = 1,  \
	.unit = unit_, .meaning = text

static const struct tarn_field contour_rows[] = {
	TARN_IN_REQUIRED(struct tarn_contour, level_m, "level", "m", -1000,
			 10000,
			 "of the outline above the floor; the first one 0"),
	{ OWNED(struct tarn_contour, point, points, TARN_FIELD_PAIRS, "points",
		"m", 3, "corners [x, y] in m, in a round"), .required = 1 },
};
static TARN_FIELDS(contour_fields, "basin.contours", contour_rows);

static const struct tarn_field basin_rows[] = {
	PART(struct tarn_basin_wish, shape, tarn_shelved_fields),
	TARN_LIST(struct tarn_basin_wish, shape.shelf, shape.shelves,
		  "shelves", shelf_fields, 0, "from the top down"),
	{ OWNED(struct tarn_basin_wish, row, rows, TARN_FIELD_PAIRS, "table",
		"m, m2", 2,
		"instead of a shape: [level m, area m2] from the floor up"),
	  .alone = 1 },
	{ OWNED(struct tarn_basin_wish, contour, contours, TARN_FIELD_LIST,
		"contours", "-", 2,
		"instead of a shape: outlines from the floor up"),
	  .alone = 1, .of = &contour_fields,
	  .size = sizeof(struct tarn_contour) },
};
TARN_FIELDS(tarn_basin_wish_fields, "basin", basin_rows);

/* ---- bed, treatment, yard --------------------------------------------------------- */

static const struct tarn_field bed_rows[] = {
	TARN_LIST(struct tarn_design, layer, layers, "layers", tarn_layer_fields, 1,
		  "of stone, from the bottom"),
};
static TARN_FIELDS(bed_fields, "bed", bed_rows);

static const struct tarn_field treatment_rows[] = {
	TARN_IN_WORD(struct tarn_design, rate, "rate", tarn_rate_name,
		     "a published removal rate; what is said beside it goes "
		     "first"),
};
static TARN_FIELDS(treatment_fields, "treatment", treatment_rows);

#define YARD struct tarn_yard_wish
static const struct tarn_field yard_rows[] = {
	TARN_IN_NUMBER(YARD, length_m, "length", "m", 0.1, 1e4, TARN_NAN,
		       "of a rectangular yard; or corners"),
	TARN_IN_NUMBER(YARD, width_m, "width", "m", 0.1, 1e4, TARN_NAN,
		       "of a rectangular yard"),
	TARN_IN_NUMBER(YARD, setback_m, "setback", "m", 0, 1000, 0,
		       "to keep from every side"),
	PART(YARD, yard, tarn_yard_fields),
	TARN_LIST(YARD, corner, corners, "corners", tarn_yard_corner_fields, 3,
		  "instead of length and width: in a round"),
	TARN_NUMBERS(YARD, setback_by_side_m, setbacks, "setbacks", "m", 0,
		     1000, 0, "m to keep from each side, in their order; "
		     "false: as setback"),
	TARN_NUMBERS(YARD, footing_by_side_m, footings, "footings", "m", 0,
		     1000, 0, "m of depth of the wall's footing on each side; "
		     "false: none"),
};
TARN_FIELDS(tarn_yard_wish_fields, "yard", yard_rows);

/* ---- works ---------------------------------------------------------------------------- */

static const struct tarn_field curve_rows[] = {
	TARN_PAIRS(struct tarn_design, curve, curve_points, "curve", "m3/s, m", 0,
		   "[flow m3/s, head m] as on the box, flow rising"),
};
static TARN_FIELDS(curve_fields, "pump", curve_rows);

static const char *fitting_name(size_t i)
{
	size_t count;
	const struct tarn_constant *all = tarn_flow_table(TARN_FITTINGS,
							  &count);

	return i < count ? all[i].name : NULL;
}

static const struct tarn_field fitting_rows[] = {
	TARN_IN_WORD(struct tarn_pipe_fitting, kind, "kind", fitting_name,
		     "which"),
	TARN_IN_REQUIRED(struct tarn_pipe_fitting, count, "count", "-", 0,
			 1000, "how many"),
};
static TARN_FIELDS(fitting_fields, "fittings", fitting_rows);

static const struct tarn_field run_rows[] = {
	PART(struct tarn_pipe_run, to, tarn_pipe_run_fields),
	TARN_IN_TEXT(struct tarn_pipe_run, name, "name", "what it is called"),
	TARN_IN_COUNTS(struct tarn_pipe_run, fitting, fittings, "fittings",
		       fitting_fields, "how many of each kind"),
};
static TARN_FIELDS(run_fields, "pipes", run_rows);

static const struct tarn_field fall_rows[] = {
	PART(struct tarn_fall, kind, tarn_fall_fields),
	TARN_IN_TEXT(struct tarn_fall, name, "name", "what it is called"),
};
static TARN_FIELDS(fall_fields, "falls", fall_rows);

static const struct tarn_field catchment_rows[] = {
	PART(struct tarn_catchment, area_m2, tarn_catchment_fields),
	TARN_IN_TEXT(struct tarn_catchment, name, "name", "what it is called"),
};
static TARN_FIELDS(catchment_fields, "catchments", catchment_rows);

/* ---- costs ------------------------------------------------------------------------------ */

#define COST(member, name, unit, most, text)                            \
	TARN_IN_NUMBER(struct tarn_costs, member, name, unit, 0, most,  \
		       TARN_NAN, text)
static const struct tarn_field cost_rows[] = {
	COST(water, "water", "money/m3", 1000,
	     "price of water, such as 6.5 / kgal"),
	COST(sewer, "sewer", "money/m3", 1000,
	     "sewer charge on the same meter"),
	COST(power, "power", "money/kWh", 100, "price of electricity"),
	{ .name = "currency", .kind = TARN_FIELD_TEXT,
	  .offset = offsetof(struct tarn_costs, currency), .required = 1,
	  .unit = "-", .size = sizeof ((struct tarn_costs *)0)->currency,
	  .meaning = "USD, EUR ..." },
};
static TARN_FIELDS(cost_fields, "costs", cost_rows);

/* ---- the whole --------------------------------------------------------------------------- */

static const struct tarn_field design_rows[] = {
	PART(struct tarn_design, pond, tarn_pond_fields),
	TARN_IN_TEXT(struct tarn_design, name, "name", "title of reports"),
	TARN_IN_TEXT(struct tarn_design, plants, "plants",
		     "what was planted, and where, for the sheet"),
	TARN_IN_TEXT(struct tarn_design, schema, "$schema",
		     "for editors of JSON; not used"),
	{ .name = "basin", .kind = TARN_FIELD_SECTION,
	  .offset = offsetof(struct tarn_design, basin), .required = 1,
	  .unit = "-", .of = &tarn_basin_wish_fields,
	  .meaning = "shape of the open water" },
	SECTION(pond, "bed", tarn_pond_bed_fields, "the planted gravel"),
	SECTION(wish, "bed", tarn_bed_wish_fields, "the planted gravel"),
	HERE("bed", bed_fields, "the planted gravel"),
	SECTION(pond, "stream", tarn_pond_stream_fields, "stream and falls"),
	SECTION(pond, "apron", tarn_pond_apron_fields,
		"paving that drains in"),
	SECTION(pond, "pump", tarn_pond_pump_fields, "what moves the water"),
	HERE("pump", curve_fields, "what moves the water"),
	SECTION(pond, "seepage", tarn_pond_seepage_fields,
		"what leaks away; its parts add up"),
	SECTION(pond, "supply", tarn_pond_supply_fields, "the top-up's tap"),
	SECTION(pond.supply.when, "supply", supply_when_fields,
		"the top-up's tap"),
	SECTION(pond, "tank", tarn_pond_tank_fields, "a rain tank"),
	TARN_LIST(struct tarn_design, pond.withdrawal, pond.withdrawals,
		  "withdrawals", withdrawal_fields, 1,
		  "water taken out on days of a schedule"),
	SECTION(evaporation, "evaporation", tarn_evaporation_fields,
		"how it is found"),
	SECTION(site, "site", tarn_exposure_fields,
		"the place of the pond, in words"),
	SECTION(costs, "costs", cost_fields, "prices"),
	SECTION(wish, "demand", tarn_bed_demand_fields,
		"what flow is wanted for"),
	NOTED(wish, has_fish, "fish", tarn_bed_fish_fields, "the load"),
	SECTION(wish, "water", tarn_bed_water_fields, "what the bed is given"),
	SECTION(wish, "treatment", tarn_bed_treatment_fields,
		"what is wanted, and at which removal rate"),
	HERE("treatment", treatment_fields,
	       "what is wanted, and at which removal rate"),
	NOTED(yard, has_yard, "yard", tarn_yard_wish_fields,
	      "room for the bed, and its hole"),
	SECTION(chance, "chance", tarn_chance_fields,
		"how uncertain the inputs are"),
	TARN_LIST(struct tarn_design, works.run, works.runs, "pipes",
		  run_fields, 1, "runs of pipe"),
	TARN_LIST(struct tarn_design, works.fall, works.falls, "falls",
		  fall_fields, 1, "from the top down"),
	SECTION(works, "bay", tarn_bay_fields,
		"where the pump takes its water"),
	SECTION(works, "overflow", tarn_pond_overflow_fields,
		"its openings, at the overflow level"),
	SECTION(works, "storm", tarn_storm_fields, "the design storm"),
	TARN_LIST(struct tarn_design, works.catchment, works.catchments,
		  "catchments", catchment_fields, 1, "what else drains in"),
	SECTION(build, "build", tarn_build_fields,
		"how it is built, for quantities"),
};
TARN_FIELDS(tarn_design_fields, "", design_rows);
