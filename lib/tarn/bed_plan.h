/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_PLAN_H
#define TARN_BED_PLAN_H

/*
 * bed_plan: from a description to a sized and judged bed: demand, flow, size,
 * every check with its limit, and what governs.
 *
 * Nothing here knows a pond or what runs between it and the bed: both come as
 * plain numbers (struct tarn_bed_question).  Errors name the fields of a
 * description, "treatment.ammonia", not those of struct tarn_sizing.
 */

#include "bed.h"
#include "finding.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what a description says -------------------------------------------- */

/*
 * What a description says for the sizing of its bed, besides what the ledger
 * needs: more fields of its section 'bed', and the sections 'demand', 'fish',
 * 'water' and 'treatment'.  NaN: not given.
 */
struct tarn_bed_wish {
	/* bed */
	double length_m, width_m, cover_m, drop_m, available_head_m;
	double flow_m3s, loading_m_d, surface_share, volume_share;
	double diameter_m, sphericity, clogging;
	int kind;		/* 0 none, else 1 + row of the kinds */
	int direction;		/* enum tarn_bed_direction */
	double lip_width_m;	/* where no fall tells it */
	int lip_place;		/* enum tarn_lip_place */
	double trough_width_m, trough_depth_m;	/* along the lip's side, its
						   floor under the lip */
	/* demand */
	double turnover_per_h, fall_width_m, fall_depth_m;
	/* fish */
	double mass_kg, feed_kg, protein, ration;
	/* water */
	double temp_c, ph, oxygen_mgl, elevation_m;
	/* treatment */
	double ammonia_mgl, inlet_mgl, target_mgl, background_mgl;
	double k_m_yr, k_low_m_d, k_high_m_d, theta, tanks_in_series;
};

/* Rows of the struct, one table a section. */
TARN_API extern const struct tarn_fields tarn_bed_wish_fields;
TARN_API extern const struct tarn_fields tarn_bed_demand_fields;
TARN_API extern const struct tarn_fields tarn_bed_fish_fields;
TARN_API extern const struct tarn_fields tarn_bed_water_fields;
TARN_API extern const struct tarn_fields tarn_bed_treatment_fields;

/* All five, in the order above. */
#define TARN_BED_WISH_SECTIONS 5
TARN_API extern const struct tarn_fields
	*const tarn_bed_wish_sections[TARN_BED_WISH_SECTIONS];

/* No wish: each field as its row says; sphericity, clogging, protein, ration,
 * temperature and elevation as tarn_sizing and tarn_waste take them. */
TARN_API struct tarn_bed_wish tarn_bed_wish_default(void);

/* ---- the question -------------------------------------------------------- */

#define TARN_BED_LAYERS 100

/* Head over the bed's lip at a flow through the bed; filled.  Errors are the
 * callback's own. */
typedef enum tarn_status tarn_bed_head(const void *context, double flow_m3s,
				       double *head_m,
				       struct tarn_error *err);

struct tarn_bed_plan;

struct tarn_bed_question {
	const struct tarn_bed_wish *wish;	/* borrowed */
	const struct tarn_rate *rate;	/* treatment.rate; NULL: none named */
	int fish;			/* 1: section fish is there */
	/* stone: layers from the bottom, or else one stone */
	const struct tarn_layer *layer;	/* borrowed, or NULL */
	size_t layers;			/* at most TARN_BED_LAYERS */
	double depth_m, porosity;	/* bed.depth, under water */
	const struct tarn_yard *yard;	/* NULL: none; its dig NaN: as deep as
					   the bed */
	const struct tarn_bed_plan *before;	/* in the same yard: its room
					   is taken for a hole as deep; NULL:
					   it is found, most of the time that
					   a plan takes */
	double density_kgm3, viscosity_pas;	/* of the water */
	/* the pond, at its lip */
	double surface_m2, volume_m3;
	double bed_m2;			/* described; 0: to be found */
	/* what runs: NaN where not known */
	double pump_m3s;		/* pump.flow, as described */
	double works_m3s;		/* what comes to the bed */
	int from_curve;			/* 1: by the pump's curve */
	double falls_m3s;		/* what demand.fall_width and
					   fall_depth take */
	double lip_head_m;		/* bed.head, as described */
	double lip_m;			/* width of the bed's own fall */
	tarn_bed_head *head_at;		/* of the bed's own fall; or NULL */
	const void *context;		/* of head_at */
};

/* No stone, no yard, no pond, no flow; water at 20 deg C.  'wish' is NULL and
 * must be set. */
TARN_API struct tarn_bed_question tarn_bed_question_default(void);

/* ---- the answer ---------------------------------------------------------- */

enum tarn_bed_demand_of {
	TARN_DEMAND_TURNOVER,	/* as wished */
	TARN_DEMAND_FALLS,	/* as wished */
	TARN_DEMAND_OXYGEN,	/* leaves the bed's oxygen limit at its outlet */
	TARN_DEMAND_AMMONIA,	/* holds treatment.ammonia by a perfect bed */
	TARN_DEMANDS
};

struct tarn_bed_demand {
	int of;			/* enum tarn_bed_demand_of */
	double flow_m3s;
};

enum tarn_bed_flow_from {
	TARN_FLOW_FROM_BED,	/* bed.flow */
	TARN_FLOW_FROM_CURVE,	/* the pump's curve and its pipes */
	TARN_FLOW_FROM_PUMP,	/* pump.flow */
	TARN_FLOW_FROM_DEMAND	/* the greatest demand */
};

enum tarn_bed_head_from { TARN_HEAD_DESCRIBED, TARN_HEAD_SOLVED };

enum tarn_bed_lip_from {
	TARN_LIP_FROM_BED,	/* bed.lip_width */
	TARN_LIP_FROM_FALL,	/* the bed's own fall */
	TARN_LIP_FROM_TROUGH	/* a trough: all of its side */
};

enum tarn_bed_chosen {
	TARN_CHOSEN_DESCRIBED,	/* the bed described */
	TARN_CHOSEN_NEEDED,	/* what all size rules ask for */
	TARN_CHOSEN_FITS	/* the largest that the yard holds */
};

enum tarn_bed_check_id {
	TARN_CHECK_LOADING,	/* surface loading */
	TARN_CHECK_AREA,	/* against the rule that asks for most */
	TARN_CHECK_AMMONIA,	/* in the pond when steady */
	TARN_CHECK_OUTLET,	/* after one pass */
	TARN_CHECK_FLOW,	/* against what a perfect bed needs */
	TARN_CHECK_TURNOVER,	/* the flow taken, against the one wished */
	TARN_CHECK_FALLS,	/* likewise, against what the falls want */
	TARN_CHECK_BREATH,	/* likewise, against what leaves the outlet its
				   oxygen */
	TARN_CHECK_OXYGEN,	/* at the outlet */
	TARN_CHECK_BOD,		/* on the plan */
	TARN_CHECK_SOLIDS,	/* on the plan */
	TARN_CHECK_SECTION,	/* BOD on the inlet's section */
	TARN_CHECK_HEAD,	/* when clogged, with the way to the lip and the
				   head over it */
	TARN_CHECK_LIP,		/* water over the lip, at the farthest place,
				   when clogged */
	TARN_CHECK_ROOM,	/* sides over those that the yard holds, the
				   greater ratio */
	TARN_CHECKS
};

struct tarn_bed_plan {
	/* demand */
	int loaded;		/* 1: fish are described */
	int unfed;		/* 1: too cold to feed by the mass of fish */
	struct tarn_waste_result waste;	/* NaN without fish */
	int demands;
	struct tarn_bed_demand demand[TARN_DEMANDS];	/* what is wanted */
	int greatest;		/* enum tarn_bed_demand_of; -1: none */
	double most_m3s;	/* of the greatest; 0: none */
	double flow_m3s;	/* through the bed, taken */
	int flow_from;		/* enum tarn_bed_flow_from */
	/* head over the lip and to spare */
	double lip_head_m;		/* NaN: not known, taken as none */
	int head_from;		/* enum tarn_bed_head_from; -1: not known */
	double available_head_m;	/* bed.available_head or bed.drop */
	/* the way to the lip */
	double lip_m;		/* its width, as described; NaN: not known, taken
				   as wide as the bed */
	int lip_from;		/* enum tarn_bed_lip_from; -1: not known */
	double level_clear_m;	/* water at the farthest place over the lip,
				   head and all, clean ... */
	double level_clogged_m;	/* ... and clogged */
	int trough_wanted;	/* 1: without a trough water stands on the
				   stone */
	double trough_width_m;	/* of one that keeps it dry when clogged, as
				   deep as wide at the most; NaN: none does */
	double trough_depth_m;	/* floor under the lip, in steps of 5 mm */
	/* stone */
	double depth_m, full_depth_m;	/* wet; with the dry cover */
	int chamber;		/* 1: open water under the stone */
	/* room */
	int yard;		/* 1: described */
	double dig_m;		/* depth of the hole; NaN without a yard */
	struct tarn_fit fit;	/* likewise */
	/* size */
	int chosen;		/* enum tarn_bed_chosen */
	double length_m, width_m;	/* to the far side, along the lip */
	struct tarn_sizing_result sized;	/* of the bed chosen */
	double stone_m3, stone_kg;	/* of a bed of one stone, in place and
					   dry, the cover with it; NaN with
					   layers, see tarn_bed_stone */
	double k_low_m_d, k_high_m_d;	/* loadings at which its removal rate
					   was measured; NaN: not known */
	double half_d, settled_d;	/* until half and 95 % of a change of
					   the pond's ammonia is over */
	double unionised_share;	/* of that ammonia, the toxic part; NaN
				   without water.ph */
	double unionised_mgl;	/* likewise, when steady */
	double nitrate_mgl_d, phosphorus_mgl_d;	/* more in the pond each day,
					   at the most; NaN without fish */
	double loading_lo_m_d, loading_hi_m_d;	/* that its own is judged by */
	const char *loading_of;	/* kind of bed that has these */
	/* checks */
	struct tarn_findings found;
	int governing;		/* enum tarn_bed_check_id of the least margin,
				   among those that forbid if any does, else
				   those in doubt, else all */
	int does;		/* 1: no check forbids it */
	/* for grids and chances: the sizing without area, its stone */
	struct tarn_sizing ask;	/* 'layer' is NULL: see wet */
	double ratio;		/* width over way to the lip, where free */
	size_t wets;
	struct tarn_layer wet[TARN_BED_LAYERS];	/* as far as under water */
};

/* Rows of the results. */
TARN_API extern const struct tarn_fields tarn_bed_demand_result_fields;
TARN_API extern const struct tarn_fields tarn_bed_plan_fields;

/*
 * Sizes and judges the bed of a description: demand, flow, stone, room, size
 * by every rule, every check.  Fast enough for a slider.
 *
 * The flow is bed.flow, else what the works bring, else pump.flow, else the
 * greatest demand.  A bed whose area is described is judged as it is; else it
 * is as large as its rules ask for (or as fits), with the shortest of four ways
 * to the lip that keeps water off the gravel.
 *
 * Errors: TARN_EARG with the field of the description: a value out of range;
 * fish without feed or mass; half a fall; no flow; no stone; a target without
 * load or rate; nothing to size by; no size that any check allows.
 */
TARN_API enum tarn_status tarn_bed_plan(const struct tarn_bed_question *q,
					struct tarn_bed_plan *out,
					struct tarn_error *err);

/* Flags that forbid a bed (TARN_BED_REFUSALS), in the order in which they are
 * told; *count is filled. */
TARN_API const unsigned *tarn_bed_refusals(size_t *count);

/* ---- beside the plan ------------------------------------------------------ */

/* Beds about the one of a plan. */
enum tarn_bed_grid {
	TARN_GRID_SIZES,	/* 4 areas, 2 depths, the flow taken */
	TARN_GRID_FLOWS,	/* this bed at 2 other flows */
	TARN_GRID_MAP,		/* 40 areas, 25 depths, the flow taken */
	TARN_GRID_FULL		/* 20 areas, 5 depths, 10 flows */
};

#define TARN_BED_AREAS 40
#define TARN_BED_DEPTHS 25
#define TARN_BED_FLOWS 10

struct tarn_bed_axes {
	int areas, depths, flows;
	double area_m2[TARN_BED_AREAS];
	double depth_m[TARN_BED_DEPTHS];
	double flow_m3s[TARN_BED_FLOWS];
};

/* Rows of the axes. */
TARN_API extern const struct tarn_fields tarn_bed_axes_fields;

/* Axes of a grid about the bed of a plan; none (all counts 0) for a grid that
 * there is not. */
TARN_API struct tarn_bed_axes tarn_bed_axes(const struct tarn_bed_plan *plan,
					    enum tarn_bed_grid grid);

/*
 * Judges every area x depth x flow: beds keep their way to the lip and grow
 * wider as far as the room lets them, layers are laid in proportion, each flow
 * has its own head over the lip.  'out' is filled with areas * depths * flows
 * entries, flow fastest.  Errors: TARN_EARG: an axis out of range.
 */
TARN_API enum tarn_status tarn_bed_cells(const struct tarn_bed_question *q,
					 const struct tarn_bed_plan *plan,
					 const struct tarn_bed_axes *axes,
					 struct tarn_bed_check out[],
					 struct tarn_error *err);

/* The layers of a plan's bed, with its flow; 'each' is filled with one entry a
 * layer, or NULL.  Errors: TARN_EARG: no layers are described. */
TARN_API enum tarn_status tarn_bed_stone(const struct tarn_bed_question *q,
					 const struct tarn_bed_plan *plan,
					 struct tarn_layer_result each[],
					 struct tarn_layers_result *total,
					 struct tarn_error *err);

/* The bed of a plan under one removal rate of ammonia. */
struct tarn_bed_rated {
	const char *name;	/* of the rate, or system of the trial; NULL:
				   described by k */
	int described;		/* 1: the one described */
	int trial;		/* 1: a trial's implied rate */
	double k_m_yr;		/* at 20 deg C; by volume: at the water's */
	double pond_mgl;	/* when steady */
	double extrapolation;	/* as in struct tarn_bed_check */
	double k_low_m_d, k_high_m_d;	/* where it was measured */
	int evidence;		/* enum tarn_evidence; -1: as described */
};

TARN_API extern const struct tarn_fields tarn_bed_rated_fields;

#define TARN_BED_RATED 16

/*
 * The rate described (if one is), two of sewage beds and every trial with
 * ammonia, in that order; *count is filled, at most TARN_BED_RATED.
 * Errors: those of tarn_sizing.
 */
TARN_API enum tarn_status tarn_bed_rates(const struct tarn_bed_question *q,
					 const struct tarn_bed_plan *plan,
					 struct tarn_bed_rated out[TARN_BED_RATED],
					 size_t *count,
					 struct tarn_error *err);

/* Areas that published loadings give at a plan's flow.  Ranges of a purpose are
 * one row, until a gap of more than five times begins another. */
struct tarn_bed_published {
	int purpose;		/* enum tarn_bed_purpose */
	int part;		/* of the purpose's rows, from 0 */
	double lo_m_d, hi_m_d;
	double lo_m2, hi_m2;	/* area at the highest, at the least */
	double factor;		/* of the plan's loading to the range */
	int evidence;		/* enum tarn_evidence, the weakest */
};

TARN_API extern const struct tarn_fields tarn_bed_published_fields;

#define TARN_BED_PUBLISHED 16

/* Sewage, fish farms, swimming, roughing, in that order; returns how many rows
 * of 'out' are filled.  Any plan. */
TARN_API size_t tarn_bed_published(const struct tarn_bed_plan *plan,
				   struct tarn_bed_published
					   out[TARN_BED_PUBLISHED]);

/* Areas that the shares in use give (tarn_bed_rules): of the pond's surface, or
 * of its volume, stone and all. */
struct tarn_bed_practice {
	int basis;		/* enum tarn_rule_basis */
	double lo, hi;		/* shares */
	double lo_m2, hi_m2;	/* of bed */
};

TARN_API extern const struct tarn_fields tarn_bed_practice_fields;

#define TARN_BED_PRACTICE 8

/* Returns how many rows of 'out' are filled.  Any question and its plan. */
TARN_API size_t tarn_bed_practice(const struct tarn_bed_question *q,
				  const struct tarn_bed_plan *plan,
				  struct tarn_bed_practice
					  out[TARN_BED_PRACTICE]);

/* tarn_chance of the bed of a plan.  Errors: as there. */
TARN_API enum tarn_status tarn_bed_chance(const struct tarn_bed_plan *plan,
					  const struct tarn_chance *chance,
					  const struct tarn_alloc *alloc,
					  struct tarn_chance_result *out,
					  struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
