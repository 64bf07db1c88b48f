/* SPDX-License-Identifier: MIT */
#ifndef TARN_POND_H
#define TARN_POND_H

/*
 * pond: the basin's shape, the description of a pond, and its daily ledger.
 *
 * Levels are heights of the pond's water surface above the basin's floor.
 * "Pond" is the open water; the bed, the stream and the pipes hold water
 * above it while the pump runs ("in transit").
 */

#include "tarn/base.h"
#include "tarn/finding.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- basin ------------------------------------------------------------- */

/*
 * The open-water shape: a table of level and area, the area linear between
 * rows, the volume its exact integral.  Read-only once made.
 */
struct tarn_basin;

/*
 * New basin from a table.
 *
 *   level_m   levels, the first one the floor       [m]  strictly rising
 *   area_m2   area of the water surface there       [m2] >= 0, never falling;
 *             only the first may be 0
 *   count     rows                                  2 .. 100000
 *
 * Errors: TARN_EARG (field "basin.table", the row at fault in the text),
 * TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_basin_table(struct tarn_basin **out, const struct tarn_alloc *alloc,
		 const double *level_m, const double *area_m2, size_t count,
		 struct tarn_error *err);

/* One ledge all round the basin. */
struct tarn_shelf {
	double depth_m;		/* below the top edge   > 0 */
	double width_m;		/* level width          > 0 */
};

#define TARN_SHELVES_MAX 16

enum tarn_shape { TARN_RECTANGLE, TARN_ELLIPSE, TARN_IRREGULAR };

/*
 * A basin as a tape measures it: length and width at the top edge, depth,
 * shelves, and walls that lean by a slope.  The outline keeps its shape while
 * it shrinks by the same distance all round.
 *
 * Area at a depth d below the edge, i = side_slope d + widths of the shelves
 * at or above d:
 *     rectangle  (L - 2i)(W - 2i)
 *     ellipse    pi/4 (L - 2i)(W - 2i)
 *     irregular  area_factor (L - 2i)(W - 2i)
 * The area between shelves is a parabola in d; the table takes 128 steps
 * between edges, which puts the volume within 1e-4 of exact.
 */
struct tarn_shelved {
	int shape;		/* enum tarn_shape */
	double length_m, width_m;	/* at the top edge    0.2 .. 200 */
	double depth_m;		/* floor to top edge          0.05 .. 15 */
	double area_factor;	/* IRREGULAR only             0.4 .. 1 */
	double side_slope;	/* run per unit of fall, 0 = upright  0 .. 5 */
	double metered_m3;	/* NaN, or the measured volume of the basin
				   without stone, up to the top edge: all areas
				   are scaled to meet it */
	int shelves;
	struct tarn_shelf shelf[TARN_SHELVES_MAX];	/* from the top down */
};
TARN_API struct tarn_shelved tarn_shelved_default(void);
TARN_API extern const struct tarn_fields tarn_shelved_fields;

/* Errors: TARN_EARG (a field out of range; shelves not in order or below the
 * floor; shelves and slope that meet before the floor), TARN_ENOMEM. */
TARN_API enum tarn_status
tarn_basin_shelved(struct tarn_basin **out, const struct tarn_alloc *alloc,
		   const struct tarn_shelved *shape, struct tarn_error *err);

/*
 * Area of a simple polygon by the shoelace formula; orientation does not
 * matter.  For basins from contour lines: one area a contour, then
 * tarn_basin_table.
 *
 *   xy       x0, y0, x1, y1 ...   [m]
 *   count    corners              >= 3, else NaN
 */
TARN_API double tarn_polygon_area(const double *xy, size_t count);

TARN_API void tarn_basin_free(struct tarn_basin *b);	/* NULL is fine */

TARN_API double tarn_basin_floor(const struct tarn_basin *b);	/* m */
TARN_API double tarn_basin_top(const struct tarn_basin *b);	/* m */

/* Water surface [m2] at a level [m]; NaN outside floor .. top. */
TARN_API double tarn_basin_area(const struct tarn_basin *b, double level_m);

/* Volume [m3] up to a level [m]; NaN outside floor .. top. */
TARN_API double tarn_basin_volume(const struct tarn_basin *b, double level_m);

/* Level [m] of a volume [m3], the exact inverse; NaN if negative or above the
 * volume at the top. */
TARN_API double tarn_basin_level(const struct tarn_basin *b, double volume_m3);

/* Factor > 0 that a metered volume put on the areas; 1 without one, any value
 * else. */
TARN_API double tarn_basin_scale(const struct tarn_basin *b);

/* ---- runoff ------------------------------------------------------------ */

/*
 * Runoff of a storm from a surface by its curve number:
 *     Q = (P - 0.2 S)^2 / (P + 0.8 S),  S = 25.4 (1000 / CN - 10) mm
 * and 0 while P <= 0.2 S.
 *
 *   rain_mm       storm depth                    [mm] >= 0
 *   curve_number  1 .. 100 (98: roof, liner slope, paving)
 *   returns       runoff                         [mm], NaN outside the range
 *
 * Source: USDA TR-55 (1986) eq. 2-1 to 2-4.  A method for single storms: a
 * wet spell taken day by day gives too little.
 */
TARN_API double tarn_runoff(double rain_mm, double curve_number);

/* ---- schedules --------------------------------------------------------- */

#define TARN_SPANS_MAX 24

/* From one date to another, both included: of one year, or of every year. */
struct tarn_span {
	long first_day, last_day;	/* TARN_NO_DAY where yearly */
	int first_mmdd, last_mmdd;	/* month * 100 + day; may pass New Year */
};

/*
 * Days on which something is allowed or happens: those of the weekdays and
 * months named, inside any of the spans 'on' (all, if there are none), and in
 * none of the spans 'off'.
 */
struct tarn_schedule {
	unsigned weekdays;	/* bit 1 Monday .. bit 7 Sunday; 0 = all */
	unsigned months;	/* bit 1 January .. bit 12; 0 = all */
	int on_count, off_count;
	struct tarn_span on[TARN_SPANS_MAX], off[TARN_SPANS_MAX];
};
TARN_API int tarn_schedule_on(const struct tarn_schedule *s, long day);

/* ---- stream and falls -------------------------------------------------- */

/* Transfer coefficient of disturbed water over that of quiet water: an outdoor
 * pool in use by many gave 1.26, a quiet one 0.74 of the same formula.  Smith,
 * Lof and Jones (1998), ASHRAE 4146, abstract. */
#define TARN_DISTURBED 1.7

/* Evaporation goes by the transfer coefficient to this power where water cools
 * itself: twice the coefficient is not twice the heat.  Derived: 0.37 to 0.42 by
 * Tarn's heat balance, 0.18 to 0.30 by Penman 1956; the middle
 * (docs/methods/evaporation.md, "Stream and falls"). */
#define TARN_TRANSFER_POWER 0.3

/*
 * Evaporation of running water over that of the same area of still water.
 *
 *   disturbed  share of its surface that foams or breaks    [-]  0 .. 1
 *   returns    ratio of the rates                           [-]  1 .. 1.17
 *              NaN outside the range
 *
 * Formula:  (1 + (TARN_DISTURBED - 1) disturbed)^TARN_TRANSFER_POWER
 * Source:   derived from the two constants above.
 * Accuracy: not known: nobody seems to have measured a garden's stream.
 * Note:     for water that nothing heats.  Pools whose temperature is held
 *           evaporate up to 1.7 times as much in use, and pay for the heat.
 */
TARN_API double tarn_stream_factor(double disturbed);

/* ---- the pond ---------------------------------------------------------- */

struct tarn_bed_store {	/* section "bed" */
	double area_m2;		/* planted plan area; 0 = no bed */
	double plant_factor[12];	/* x grass reference, by month */
	double volume_m3;	/* water up to its lip; NaN: area x depth x
				   porosity where those are given, else 0 */
	double depth_m, porosity;	/* of the gravel */
	double lip_head_m;	/* water over its lip while the pump runs;
				   NaN: by wing works, else 0 */
};

struct tarn_stream {	/* section "stream": stream and falls */
	double area_m2;		/* wetted area; NaN: length x width */
	double length_m, width_m;
	double depth_m;		/* of the running water */
	double volume_m3;	/* held while running; NaN: area x depth */
	double disturbed;	/* share of its surface that foams or breaks */
	double factor;		/* x open-water rate while running; NaN: by
				   the disturbed share */
	/* for wing works, which finds the depth where it is not given */
	double slope;		/* fall / length, towards the pond */
	double manning;		/* n of its bed */
};

struct tarn_apron {	/* section "apron": paving or slope that drains in */
	double area_m2;
	double coefficient;	/* runoff / rain; NaN: by curve number */
	double curve_number;
};

struct tarn_pump {	/* section "pump" */
	double hours[12];	/* a day, by month   0 .. 24 */
	double drainback_m3;	/* in pipes, coming back when it stops; NaN:
				   by wing works, else 0 */
	double flow_m3s;	/* NaN = not given */
	/* for wing works and for reports */
	double max_head_m, label_flow_m3s;	/* of the label */
	double count;		/* equal pumps side by side */
	int check_valve;	/* 1: its pipes stay full when it stops */
	double watts, amps, volts;	/* at the plug */
};

struct tarn_seepage {	/* section "seepage"; the three add up */
	double rate_mm_d;	/* on the water surface */
	double volume_m3s;	/* fixed */
	double per_head_m3s_m;	/* per metre of level */
};

struct tarn_supply {	/* section "supply" */
	double rate_m3s;	/* NaN = as fast as it is wanted */
	struct tarn_schedule when;
};

struct tarn_rain_tank {	/* section "tank" */
	double capacity_m3;	/* 0 = no tank */
	double roof_m2;
	double coefficient;	/* of the roof */
	double first_flush_mm;	/* of each wet day, lost */
	double start_m3;	/* in it on the first day */
};

#define TARN_WITHDRAWALS_MAX 8

struct tarn_withdrawal {
	double volume_m3;	/* on each day of the schedule */
	struct tarn_schedule when;
};

/*
 * All that the ledger needs.  Made by tarn_pond_default(), then changed; the
 * struct may grow.  The basin is borrowed; its floor is level 0, above which
 * all levels are heights.  Ranges stand in the rows of tarn_pond_sections, by
 * which tarn_pond_check goes; docs/build/pond-fields.md is written from them.
 */
struct tarn_pond {
	const struct tarn_basin *basin;
	double overflow_level_m;		/* water leaves above it */
	double trigger_m;	/* top-up starts below it; NaN = no top-up */
	double target_m;	/* top-up fills to it */
	double intake_m;	/* lowest level that the pump likes; NaN */
	double edges_m2;	/* wet edges that drain in */
	double splash_m3s;	/* lost while the pump runs */
	double open_water_factor;	/* calibration of open-water loss; NaN:
					   none, 1 in the ledger */
	struct tarn_bed_store bed;
	struct tarn_stream stream;
	struct tarn_apron apron;
	struct tarn_pump pump;
	struct tarn_seepage seepage;
	struct tarn_supply supply;
	struct tarn_rain_tank tank;
	int withdrawals;
	struct tarn_withdrawal withdrawal[TARN_WITHDRAWALS_MAX];
};
TARN_API struct tarn_pond tarn_pond_default(void);

/* Rows of each section; offsets are into struct tarn_pond. */
TARN_API extern const struct tarn_fields tarn_pond_fields,
	tarn_pond_bed_fields, tarn_pond_stream_fields, tarn_pond_apron_fields,
	tarn_pond_pump_fields, tarn_pond_seepage_fields,
	tarn_pond_supply_fields, tarn_pond_tank_fields;

/* All sections above, NULL-terminated. */
TARN_API extern const struct tarn_fields *const tarn_pond_sections[];

/*
 * Checks ranges and what must fit together: trigger <= target <= lip <= top
 * of the basin, intake under the lip, water in transit less than the pond
 * holds at the lip.
 * Errors: TARN_EARG, field "section.name".
 */
TARN_API enum tarn_status tarn_pond_check(const struct tarn_pond *pond,
					  struct tarn_error *err);

/* A pond above either is large or deep for a garden: a unit may be missing in
 * its description.  Our own. */
#define TARN_LARGE_M3 100.0
#define TARN_DEEP_M 2.5		/* mean depth at the lip */

/* What follows from a description, for one level chart.  Errors: those of
 * tarn_pond_check. */
struct tarn_pond_facts {
	double full_area_m2, full_volume_m3;
	double collecting_m2;	/* rain that falls here reaches the pond */
	double wetted_m2;	/* open water at the lip, bed, stream */
	double stream_factor;	/* as given, or by its disturbed share */
	double bed_m3;		/* water in the bed up to its lip */
	double transit_m3;	/* in transit while the pump runs */
	double fill_m3;		/* from trigger to target; 0 without both */
	int large;		/* above TARN_LARGE_M3 or TARN_DEEP_M */
	double fall_ratio;	/* level falls this many times the depth that
				   the open water loses: wetted / open water */
};
TARN_API extern const struct tarn_fields tarn_pond_facts_fields;
TARN_API enum tarn_status tarn_pond_facts(const struct tarn_pond *pond,
					  struct tarn_pond_facts *out,
					  struct tarn_error *err);

/*
 * The pump stops with the water at 'level_m': where the level goes, and what
 * leaves over the lip; it starts: where it goes.  NaN where the level is
 * outside the basin or the pond holds less than the start takes.
 * Errors: TARN_EARG (the description).
 */
struct tarn_pump_swing {
	double stopped_m, spill_m3;	/* after a stop */
	double started_m;		/* after a start, bed full */
};
TARN_API extern const struct tarn_fields tarn_pump_swing_fields;
TARN_API enum tarn_status tarn_pond_swing(const struct tarn_pond *pond,
					  double level_m,
					  struct tarn_pump_swing *out,
					  struct tarn_error *err);

/* ---- the ledger -------------------------------------------------------- */

/* Weather as the ledger takes it; arrays borrowed, no NaN, none negative, but
 * on days that are left out, whose numbers nobody looks at. */
struct tarn_forcing {
	long first_day;
	size_t days;
	const double *rain_mm;
	const double *open_water_mm;	/* rate of still open water */
	const double *grass_mm;		/* FAO-56 grass reference */
	const unsigned char *left_out;	/* 1 for each day that is not run, as
					   tarn_weather_left_out; NULL: none */
};

/* Whether it is so.  Errors: TARN_EARG, the column, with the day in the text. */
TARN_API enum tarn_status tarn_forcing_check(const struct tarn_forcing *forcing,
					     struct tarn_error *err);

/* Volumes of a day or of a period, m3. */
struct tarn_flows {
	double rain_m3;		/* on the collecting area */
	double runoff_m3;	/* from the apron */
	double tank_m3;		/* top-up from the rain tank */
	double topup_m3;	/* top-up from the supply */
	double evaporation_m3;	/* open water of the pond */
	double bed_m3;		/* plants and wet gravel of the bed */
	double stream_m3;	/* stream and falls */
	double splash_m3;
	double seepage_m3;
	double withdrawal_m3;
	double overflow_m3;
	double shortfall_m3;	/* losses that found no water */
	double unmet_m3;	/* top-up wanted and not given that day; of a
				   period the largest of its days */
	double roof_m3;		/* roof water into the tank */
	double tank_spill_m3;	/* roof water that the tank could not hold */
};
TARN_API extern const struct tarn_fields tarn_flows_fields;

enum tarn_day_flag {
	TARN_DAY_RUNNING = 1,	/* the pump ran */
	TARN_DAY_STARVED = 2,	/* too little water to start it */
	TARN_DAY_UNDER_INTAKE = 4,	/* ended under the intake */
	TARN_DAY_TOPPED_UP = 8,
	TARN_DAY_REFUSED = 16,	/* top-up wanted, not allowed that day */
	TARN_DAY_SPILLED = 32,
	TARN_DAY_DRY = 64	/* a loss found no water */
};

struct tarn_ledger_day {
	long day;
	double rain_mm, open_water_mm, grass_mm;
	struct tarn_flows flows;
	double level_m;		/* at the end of the day */
	double area_m2;		/* while losing */
	double pond_m3;		/* at the end */
	double held_m3;		/* in the bed and in transit, at the end */
	double tank_m3;		/* in the rain tank, at the end */
	unsigned flags;		/* enum tarn_day_flag */
};
TARN_API extern const struct tarn_fields tarn_ledger_day_fields;

/*
 * A control of the caller's, asked before each day.  It sees the day's weather
 * and the state at its start, and may change the order that the description
 * gives.
 */
struct tarn_day_view {
	long day;
	double rain_mm, open_water_mm, grass_mm;
	double level_m, pond_m3, tank_m3;
	int running;		/* at the end of the day before */
	int supply_open;	/* the schedule allows top-up today */
};
TARN_API extern const struct tarn_fields tarn_day_view_fields;
struct tarn_day_order {
	double pump_hours;	/* 0 .. 24 */
	double topup_m3;	/* NaN: by trigger and target; else this much,
				   up to the lip and to what the supply gives */
	int supply_open;
};
typedef enum tarn_status tarn_day_control(void *context,
					  const struct tarn_day_view *view,
					  struct tarn_day_order *order,
					  struct tarn_error *err);

struct tarn_run {
	double start_level_m;	/* NaN: target, or the lip without one */
	int no_topup;		/* 1: neither tank nor supply */
	int start_stopped;	/* 1: the pump is off and the bed is full on
				   the first morning, nothing in transit */
	tarn_day_control *control;	/* NULL = none */
	void *control_context;
};
TARN_API struct tarn_run tarn_run_default(void);

struct tarn_ledger;

/*
 * Runs the ledger of a pond over a weather: for each day rain and runoff,
 * overflow, losses, top-up, end level, in this order.
 *
 * While the pump runs, bed and stream stay full, so that their losses are
 * drawn from the pond.  A day without pump hours begins with the water in
 * transit coming back.  On a day with some pump hours the pump stops once,
 * after the rain: the lip then has to hold the water in transit as well.
 * With the pump off, the bed loses its own water, and is filled again when
 * the pump starts.
 * Losses are scaled to the water that is there; the rest is the shortfall.
 * Days that the forcing leaves out are not in the ledger; on the day after them
 * it begins again as on the first: start level, bed full, the tank's start.
 *
 * Identity, each day and over each stretch of days, on pond + bed + transit: checked here
 * to 1e-9 of the water turned over.
 *
 *   run   NULL: tarn_run_default()
 *
 * Errors: TARN_EARG (description, forcing; field and day in the text),
 * TARN_ENOMEM, TARN_ESTOP or what the control returns.
 */
TARN_API enum tarn_status
tarn_ledger_run(struct tarn_ledger **out, const struct tarn_alloc *alloc,
		const struct tarn_pond *pond, const struct tarn_forcing *forcing,
		const struct tarn_run *run, struct tarn_error *err);
TARN_API void tarn_ledger_free(struct tarn_ledger *ledger);

/* The days, borrowed.  They follow each other but where days are left out. */
TARN_API const struct tarn_ledger_day *
tarn_ledger_days(const struct tarn_ledger *ledger, size_t *count);

enum tarn_period_kind {
	TARN_BY_DAY, TARN_BY_WEEK, TARN_BY_MONTH, TARN_BY_YEAR, TARN_BY_RUN
};

/* Sums of a day, ISO week, month, year, or of the run. */
struct tarn_period {
	long first_day, last_day;	/* that the ledger covers */
	int year, month;	/* of a day or month; year of a year too */
	int week, week_year;	/* of a day or week: ISO week and its year
				   (tarn_week).  All four are 0 where the period
				   has no such name: a run has none */
	int complete;		/* 1: the whole week, month or year; of a run:
				   no day between its ends is left out */
	struct tarn_flows flows;
	double rain_mm, open_water_mm, grass_mm;
	double drop_mm;		/* fall at the ruler that the losses alone
				   make: losses / water surface, day by day */
	double start_level_m, end_level_m, lowest_level_m;
	long lowest_day;	/* the first that ended lowest; TARN_NO_DAY if
				   none fell under the start */
	double start_store_m3, end_store_m3;	/* pond + bed + transit */
	double again_m3;	/* where days are left out: what the new
				   beginnings have in store beyond the ends
				   before them, so that start + what came +
				   this - what went = end; else 0 */
	double end_tank_m3;
	int days, running, starved, under_intake, topped_up, refused,
		spilled, dry;	/* counts of days */
};
TARN_API extern const struct tarn_fields tarn_period_fields;

/*
 * Period that begins at index 'at' of the ledger's days; *next is the index
 * where the following one begins (the count of days after the last).  A kind
 * that there is not, and an index past the days, give a period without days,
 * its levels and stores NaN, and the count of days.
 *
 *     for (size_t at = 0, next; at < count; at = next)
 *             p = tarn_ledger_period(ledger, TARN_BY_WEEK, at, &next);
 */
TARN_API struct tarn_period tarn_ledger_period(const struct tarn_ledger *ledger,
					       enum tarn_period_kind kind,
					       size_t at, size_t *next);

/* Ids of the findings below, and their codes. */
enum tarn_ledger_check_id {
	TARN_LEDGER_DRY,	/* "dry": days on which a loss found no
				   water */
	TARN_LEDGER_STARVED,	/* "starved": days with too little water to
				   start the pump */
	TARN_LEDGER_UNDER_INTAKE,	/* "under_intake": days that ended under
				   it */
	TARN_LEDGER_REFUSED,	/* "refused": days on which top-up was wanted
				   and not allowed */
	TARN_LEDGER_UNMET,	/* "unmet": m3 wanted and not given, on the
				   worst day */
	TARN_LEDGER_CHECKS
};

/*
 * Adds what a period of a ledger had that none should: the first three
 * forbid, the others are doubts.  A judgement of ours.
 *
 *   pond   of the ledger; without an intake level that check is not made
 *   list   added to
 */
TARN_API void tarn_ledger_judge(const struct tarn_pond *pond,
				const struct tarn_period *period,
				struct tarn_findings *list);

/*
 * Top-up, of tank and supply together, that the same pond takes over the same
 * days where nothing restricts it: from the same start, with the supply open
 * every day and as fast as it is wanted.  The pump's hours stay, and what a
 * control orders of them and of a day's top-up; only the supply's schedule and
 * rate are lifted, and a control's supply_open.  Whatever is refused is in it.
 * The sum is made day by day, by the ledger's own day (step.h).
 *
 *   returns   [m3] >= 0; NaN without a rain tank (it is not worked out), and
 *             where the run forbids top-up.  Definition: no source
 */
TARN_API double tarn_ledger_need(const struct tarn_ledger *ledger);

/* Largest residual of the identity (= 0 in exact arithmetic) that the run met,
 * as a share of the water turned over; >= 0. */
TARN_API double tarn_ledger_residual(const struct tarn_ledger *ledger);

/*
 * How long a pond lasts without top-up: from each day of the forcing in turn,
 * starting at 'run->start_level_m', the number of days until a day ends under
 * 'level_m'; -1 where the weather ends, a day is left out, or a year passes,
 * before.  The run's
 * control is not asked.
 *
 *   run        NULL: tarn_run_default()
 *   days_out   filled, forcing->days of them; TARN_ENDURANCE_LEFT_OUT for a day
 *              that is left out
 *
 * Errors: TARN_EARG (description, forcing; a level_m that is not between the
 * floor and the start).
 */
#define TARN_ENDURANCE_DAYS 366
#define TARN_ENDURANCE_LEFT_OUT (-2)
TARN_API enum tarn_status
tarn_pond_endurance(const struct tarn_pond *pond,
		    const struct tarn_forcing *forcing,
		    const struct tarn_run *run, double level_m, long *days_out,
		    struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
