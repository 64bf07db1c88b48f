/* SPDX-License-Identifier: MIT */
#ifndef TARN_WORKS_H
#define TARN_WORKS_H

/*
 * works: pump, pipes, falls, intake bay and overflow of one pond, put
 * together from the parts that wing flow knows: what the pump delivers, what
 * is in transit, the chart of levels, and a storm through the pond.
 *
 * Way of the water: pump -> manifold -> runs of pipe.  A run ends in the bed,
 * at the head of the falls, or in the pond (jets, a bypass).  What the bed
 * and the falls get comes down over the falls and along the stream; a fall
 * marked 'bed' is the bed's own lip and carries the bed's share only.
 */

#include "tarn/base.h"
#include "tarn/flow.h"
#include "tarn/pond.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- description -------------------------------------------------------- */

#define TARN_RUNS_MAX 8
#define TARN_FALLS_MAX 8
#define TARN_CATCHMENTS_MAX 8
#define TARN_CURVE_MAX 24
#define TARN_RUN_FITTINGS_MAX 12

enum tarn_run_to {
	TARN_TO_BED, TARN_TO_FALLS, TARN_TO_POND,
	TARN_TO_MANIFOLD	/* the trunk; several lie end to end */
};

struct tarn_pipe_fitting {
	int kind;		/* row of table TARN_FITTINGS */
	double count;
};

/* Row of the fitting of that name, -1 if there is none. */
TARN_API int tarn_fitting_find(const char *name);

struct tarn_pipe_run {	/* one of section "pipes" */
	int to;			/* enum tarn_run_to */
	int size;		/* nominal, index of its choices; 0: diameter */
	int schedule;		/* index of its choices */
	double diameter_m;	/* inside; overrides size */
	double length_m;
	double lift_m;		/* mouth above the overflow lip */
	double roughness_m;	/* default 1.5e-6, plastic (from memory) */
	double minor_k;		/* beside the fittings; the mouth's 1 is
				   added where no "exit" is listed */
	double valve_k;		/* of a valve that is partly shut */
	double orifice_diameter_m, orifices;	/* nozzles at its end */
	double siphon_m;	/* mouth under the bed's or upper pool's water */
	int fittings;
	struct tarn_pipe_fitting fitting[TARN_RUN_FITTINGS_MAX];
	char name[101];		/* for reports */
};
TARN_API struct tarn_pipe_run tarn_pipe_run_default(void);
TARN_API extern const struct tarn_fields tarn_pipe_run_fields;

/* Inside diameter by size and schedule (source: tarn_pipe_inside_m), or as
 * given; NaN without either. */
TARN_API double tarn_pipe_run_diameter_m(const struct tarn_pipe_run *run);

enum tarn_fall_kind { TARN_FALL_STONE, TARN_FALL_BROAD, TARN_FALL_SHARP };

struct tarn_fall {	/* one of section "falls" */
	int kind;		/* enum tarn_fall_kind */
	int bed;		/* 1: the bed's own lip */
	double width_m;		/* of the lip, across the flow */
	double drop_m;		/* free fall below it */
	double coefficient;	/* C; else by kind */
	double pool_m2;		/* water behind it, that rises with its head */
	char name[101];		/* for reports */
};
TARN_API struct tarn_fall tarn_fall_default(void);
TARN_API extern const struct tarn_fields tarn_fall_fields;

/*
 * Head [m] of a flow > 0 over a fall's lip, by the weir of its kind; filled.
 * Errors: TARN_EARG: a field of the fall; a flow beyond the weir's range.
 */
TARN_API enum tarn_status tarn_fall_head(const struct tarn_fall *fall,
					 double flow_m3s, double *head_m,
					 struct tarn_error *err);

struct tarn_bay {	/* section "bay": where the pump takes its water */
	double width_m;		/* of the opening */
	double sill_m;		/* level of its sill */
	double open_share;	/* free between bars or stones */
	double velocity_limit_ms;	/* the builder's choice */
	double suction_m;	/* diameter of the pump's suction */
	double pump_minimum_m;	/* level under which the pump runs dry */
};

struct tarn_storm {	/* section "storm" */
	double intensity_mm_h;	/* design rain, from a local table */
	double duration_s;
	double years;		/* return period, for the sheet */
	int stopped;		/* 1: the mains fail in it, so that what is in
				   transit is back before it begins */
};

struct tarn_works {
	double curve_flow_m3s[TARN_CURVE_MAX];	/* pump.curve */
	double curve_head_m[TARN_CURVE_MAX];
	size_t curve_points;
	int runs;
	struct tarn_pipe_run run[TARN_RUNS_MAX];
	int falls;
	struct tarn_fall fall[TARN_FALLS_MAX];
	struct tarn_bay bay;
	struct tarn_overflow overflow;	/* section "overflow"; its levels are
					   the pond's lip */
	struct tarn_storm storm;
	int catchments;
	struct tarn_catchment catchment[TARN_CATCHMENTS_MAX];
	double temp_c;		/* of the water, for the pipes, default 15 */
};
TARN_API struct tarn_works tarn_works_default(void);

/* Rows of sections "bay", "overflow", "storm" (offsets into struct
 * tarn_works) and of one of "catchments". */
TARN_API extern const struct tarn_fields tarn_bay_fields,
	tarn_pond_overflow_fields, tarn_storm_fields, tarn_catchment_fields;

/*
 * Ranges of all parts, and what must fit together: a stream that falls
 * towards the pond, a sill under the intake level, a pump minimum under it.
 * Errors: TARN_EARG, field "section.name".
 */
TARN_API enum tarn_status tarn_works_check(const struct tarn_works *works,
					   const struct tarn_pond *pond,
					   struct tarn_error *err);

/* ---- what runs, and what is in transit ---------------------------------- */

/*
 * The description's own words win: a flow, head, depth or drain-back that is
 * given stands; what is not given follows from hydraulics where it can.
 */
struct tarn_works_flow {
	int from_curve;		/* 1: flow solved; 0: given (or NaN) */
	double flow_m3s;	/* of the pump, at the running level */
	double solved_m3s;	/* by curve and pipes, also if one was given */
	double low_m3s;		/* likewise, with the pond at its intake level */
	double head_m;		/* of the pump at solved_m3s */
	double share_of_label;	/* solved / label flow */
	double continuity, energy;	/* as left over by the network */
	double bed_m3s, falls_m3s, pond_m3s;	/* by where the runs end */
	struct tarn_branch_flow run[TARN_RUNS_MAX];	/* solved; trunk: flow,
					   velocity and headloss only */
	struct tarn_weir_flow fall[TARN_FALLS_MAX];	/* NaN: no flow known */
	struct tarn_channel_flow stream;	/* NaN: not solved */
	double bed_head_m;	/* water over the bed's lip, NaN: unknown */
	double pipes_m3;	/* in all runs but jets' */
	double siphon_m3;
	/* water in transit by part */
	double bed_m3, pools_m3, stream_m3, drain_m3;
	int bed_given, stream_given, drain_given;	/* 1: as described,
					   0: worked out, -1: unknown, taken 0 */
};
TARN_API extern const struct tarn_fields tarn_works_flow_fields;

/*
 * Level that the pond runs at = target, else trigger, else lip [m]; any value
 * that tarn_pond_check lets pass.
 */
TARN_API double tarn_running_level_m(const struct tarn_pond *pond);

/* Errors: TARN_EARG: the description; a pump that cannot lift; a flow beyond
 * the end of its curve. */
TARN_API enum tarn_status tarn_works_solve(const struct tarn_works *works,
					   const struct tarn_pond *pond,
					   struct tarn_works_flow *out,
					   struct tarn_error *err);

/* Puts what was worked out where the pond's description gives nothing: flow,
 * head over the bed's lip, water in the stream, drain-back (pools behind falls
 * go there too). */
TARN_API void tarn_works_fill(const struct tarn_works_flow *flow,
			      struct tarn_pond *pond);

/* ---- the chart of levels ------------------------------------------------ */

enum tarn_level_name {
	TARN_LEVEL_EDGE,	/* top of the basin */
	TARN_LEVEL_STORM,	/* highest in the design storm */
	TARN_LEVEL_OVERFLOW,	/* the lip: full, pump off */
	TARN_LEVEL_STOP,	/* where a stop at the running level leads */
	TARN_LEVEL_FULL_ON,	/* full, pump on: from here a stop just reaches
				   the lip */
	TARN_LEVEL_TARGET,	/* top-up ends: top of the normal band */
	TARN_LEVEL_TRIGGER,	/* top-up starts: its bottom */
	TARN_LEVEL_START,	/* where a start at the trigger, pump off until
				   then, leads */
	TARN_LEVEL_INTAKE,	/* lowest that covers the intake well */
	TARN_LEVEL_SILL,	/* of the intake bay */
	TARN_LEVEL_PUMP,	/* under it the pump runs dry */
	TARN_LEVEL_FLOOR,
	TARN_LEVELS
};
/* "edge", "full_on" ...; "" for a number that is none of them. */
TARN_API const char *tarn_level_name(enum tarn_level_name name);

struct tarn_level {
	int name;
	double level_m, area_m2;
	double volume_m3;	/* below it */
	double between_m3;	/* down to the next level of the chart */
};
TARN_API extern const struct tarn_fields tarn_level_fields;

struct tarn_chart {
	size_t count;
	struct tarn_level level[TARN_LEVELS];	/* from the top down; only those
						   that the description knows */
	double freeboard_m;	/* edge above the lip */
	double transit_m3;
	double rise_m, spill_m3;	/* a stop at the running level */
	double room_m3;		/* from where that leads up to the lip */
	int spills;		/* 1: it spills */
	double drop_m;		/* a start from a full pond, pump off (lip) */
	double drop_trigger_m;	/* a start with the level at the trigger */
	int start_bares_intake;	/* 1: that start leads under the intake */
};
TARN_API extern const struct tarn_fields tarn_chart_fields;

/* 'storm_m' is the highest level of a storm, or NaN.  A pond without top-up is
 * taken to run at "full, pump on".
 * Errors: those of tarn_pond_check. */
TARN_API enum tarn_status tarn_chart_make(const struct tarn_pond *pond,
					  const struct tarn_works *works,
					  double storm_m, struct tarn_chart *out,
					  struct tarn_error *err);

/* ---- the design storm --------------------------------------------------- */

/*
 * Rain of one intensity for its duration on the pond's collecting area
 * (coefficient 1), the apron (its coefficient, or what its curve number makes
 * of the storm's depth) and the catchments: peak by the rational method,
 * routed through the pond from its level to its edge by steps of a minute or
 * less.
 *
 * Above the edge water is taken to stand on the edge's area, so that the
 * height over it can be told; it is a sign of failure, not a forecast.
 */
struct tarn_storm_flow {
	double rain_m3;		/* of the whole storm, in the pond */
	double peak_m3s;	/* inflow */
	double start_m, spill_at_stop_m3;
	double peak_level_m, head_m;	/* over the lip */
	double peak_out_m3s, out_m3;
	double edge_left_m;	/* edge above the highest level, < 0: over it */
	double balance_m3;	/* of the routing */
	double clear_head_m;	/* steady head at the peak, clean ... */
	double clogged_head_m;	/* ... and with the described clogging; NaN: no
				   head makes the openings pass it */
};
TARN_API extern const struct tarn_fields tarn_storm_flow_fields;
/*
 * A storm of more rain than was ever measured in its time: asked about, not
 * refused, since the ledger does not need it.
 */
struct tarn_storm_doubt {
	double depth_mm;	/* of the whole storm */
	double record_mm;	/* most that fell within record_s, the next
				   longer time of the list */
	double record_s;
	const char *place;	/* of the record, with its year */
};
TARN_API extern const struct tarn_fields tarn_storm_doubt_fields;

/*
 * Whether a storm is beyond the record: returns 1 with *out [mm, s] filled, 0
 * where it is not, or has no intensity.  It has no errors.
 *
 * Source: WMO World Weather and Climate Extremes Archive (wmo.asu.edu), rain of
 * 1 min, 60 min, 12 h, 24 h, 48 h.
 */
TARN_API int tarn_storm_doubtful(const struct tarn_storm *storm,
				 struct tarn_storm_doubt *out);

/* Errors: TARN_EARG: no storm or no overflow described; as above. */
TARN_API enum tarn_status tarn_storm_solve(const struct tarn_works *works,
					   const struct tarn_pond *pond,
					   struct tarn_storm_flow *out,
					   struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
