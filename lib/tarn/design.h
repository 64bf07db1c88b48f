/* SPDX-License-Identifier: MIT */
#ifndef TARN_DESIGN_H
#define TARN_DESIGN_H

/*
 * design: the description of a pond, all of it.  What was given is one
 * struct, described by one tree of rows; what follows from it is another.
 */

#include "tarn/base.h"
#include "tarn/bed.h"
#include "tarn/bed_plan.h"
#include "tarn/evaporation.h"
#include "tarn/exposure.h"
#include "tarn/finding.h"
#include "tarn/leak.h"
#include "tarn/pond.h"
#include "tarn/takeoff.h"
#include "tarn/value.h"
#include "tarn/works.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what was given --------------------------------------------------------- */

struct tarn_contour {	/* one of section "basin.contours" */
	double level_m;		/* of the outline above the floor */
	double (*point)[2];	/* its corners x, y [m], in a round */
	int points;
};

struct tarn_basin_wish {	/* section "basin": one of the three */
	struct tarn_shelved shape;
	double (*row)[2];	/* "table": level [m], area [m2] */
	int rows;
	struct tarn_contour *contour;	/* from the floor up */
	int contours;
};

TARN_API extern const struct tarn_fields tarn_basin_wish_fields;

/*
 * The basin of a description.
 *
 *   *out     new, by the caller to be freed (tarn_basin_free); NULL on failure
 *
 * Errors: TARN_EARG: none of the three is given; those of tarn_basin_table and
 * tarn_basin_shelved.  TARN_ENOMEM.
 */
TARN_API enum tarn_status tarn_basin_wished(const struct tarn_basin_wish *wish,
					    const struct tarn_alloc *alloc,
					    struct tarn_basin **out,
					    struct tarn_error *err);

struct tarn_yard_wish {	/* section "yard" */
	double length_m, width_m;	/* of a rectangle; or corners */
	double setback_m;	/* of all sides that have none of their own */
	struct tarn_yard yard;	/* its dig, slope and limits */
	int corners;
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	int setbacks, footings;	/* by side, in their order; NaN: as above */
	double setback_by_side_m[TARN_YARD_CORNERS];
	double footing_by_side_m[TARN_YARD_CORNERS];
};
TARN_API extern const struct tarn_fields tarn_yard_wish_fields;

/*
 * The yard of a description.
 *
 *   corner   filled; the yard borrows it
 *
 * Errors: TARN_EARG: neither corners nor length and width; more setbacks or
 * footings than sides.
 */
TARN_API enum tarn_status
tarn_yard_wished(const struct tarn_yard_wish *wish, struct tarn_yard *yard,
		 struct tarn_yard_corner corner[TARN_YARD_CORNERS],
		 struct tarn_error *err);

struct tarn_costs {	/* section "costs", in the currency */
	double water, sewer;	/* a m3 */
	double power;		/* a kWh */
	char currency[13];
};

/* A field that was given by a name of the minor version before. */
struct tarn_old_name {
	char path[64];		/* as it was given: "bed.regime" */
	const char *name;	/* that the field has now: "kind" */
};
TARN_API extern const struct tarn_fields tarn_old_name_fields;
#define TARN_OLD_NAMES_MAX 32

/* What a description says, and only that.  Made by tarn_design_new. */
struct tarn_design {
	char name[101], plants[401], schema[401];
	struct tarn_basin_wish basin;
	struct tarn_pond pond;	/* its basin: NULL, or one made by the caller
				   and borrowed, instead of the wish above */
	struct tarn_bed_wish wish;
	int layers;
	struct tarn_layer layer[TARN_LAYERS_MAX];
	int rate;		/* treatment.rate: row of tarn_rates; -1 */
	double curve[TARN_CURVE_MAX][2];	/* pump.curve: m3/s, m */
	int curve_points;
	struct tarn_works works;	/* all but the curve */
	struct tarn_evaporation_options evaporation;
	struct tarn_exposure site;
	struct tarn_costs costs;
	struct tarn_yard_wish yard;
	int has_fish, has_yard;	/* 1: these sections are there */
	struct tarn_chance chance;
	struct tarn_build build;
	struct tarn_bare_list bare;	/* noted by tarn_design_read */
	int old_names;		/* fields given by one; tarn_design_read */
	struct tarn_old_name old_name[TARN_OLD_NAMES_MAX]; /* the first ones */
	const struct tarn_alloc *alloc;
};

/* The tree of rows of struct tarn_design: all that a description may say. */
TARN_API extern const struct tarn_fields tarn_design_fields;

/* New, nothing given: each field as its row says.  NULL where there is no
 * memory. */
TARN_API struct tarn_design *tarn_design_new(const struct tarn_alloc *alloc);
TARN_API void tarn_design_free(struct tarn_design *design);	/* or NULL */

/* New, the same content; NULL where there is no memory. */
TARN_API struct tarn_design *tarn_design_copy(const struct tarn_design *from);

/*
 * Sets one field by its path: "bed.layers[2].porosity", "pump.hours" (all
 * months) or "pump.hours[7]"; an entry behind the last of a list is made.
 * A text sets words, texts, dates and switches ("true", "false").
 *
 * Errors: TARN_EARG: a path that is none (mistake TARN_MISTAKE_UNKNOWN, 'near'
 * may have one), a number out of range, a text that is none of the words.
 */
TARN_API enum tarn_status tarn_design_set(struct tarn_design *design,
					  const char *path, double x,
					  struct tarn_error *err);
TARN_API enum tarn_status tarn_design_set_text(struct tarn_design *design,
					       const char *path,
					       const char *text,
					       struct tarn_error *err);

/*
 * A number by its path; *out is NaN where it is not given.  Months without an
 * index give January's.
 *
 * Errors: TARN_EARG: no such path; no number.
 */
TARN_API enum tarn_status tarn_design_get(const struct tarn_design *design,
					  const char *path, double *out,
					  struct tarn_error *err);

/*
 * A text, word or switch by its path; "" where it is not given.
 *
 *   text   filled, cut to 'size' bytes with its zero
 *
 * Errors: TARN_EARG: no such path; a number or a list.
 */
TARN_API enum tarn_status
tarn_design_get_text(const struct tarn_design *design, const char *path,
		     char *text, size_t size, struct tarn_error *err);

/*
 * Reads a whole description into a new design: the table that a script gave,
 * or the text of a JSON file (an object with the fields of
 * docs/pond-fields.md, numbers in SI).  Numbers that carry a unit are turned
 * into their fields'; those without one beside them are noted in 'bare'.
 *
 *   out      new; NULL on failure
 *
 * A name of the minor version before is read too, and noted in old_name: tell
 * the user.
 *
 * Errors: those of tarn_fields_read_was; of JSON TARN_EFORMAT with line and
 * column; schedules whose spans end before they begin.
 */
TARN_API enum tarn_status tarn_design_read(struct tarn_design **out,
					   const struct tarn_alloc *alloc,
					   const struct tarn_value *table,
					   struct tarn_error *err);
TARN_API enum tarn_status tarn_design_read_json(struct tarn_design **out,
						const struct tarn_alloc *alloc,
						const char *text, size_t bytes,
						struct tarn_error *err);

/* ---- what follows ------------------------------------------------------------- */

/* Something that the description leaves open, and what it was taken to be. */
struct tarn_assumption {
	char path[64];		/* of the field */
	double value;		/* in the field's unit */
	const char *reason;	/* "pump curve and pipes" */
};
#define TARN_ASSUMPTIONS_MAX 16

/* What a description says of its place. */
struct tarn_pond_place {
	struct tarn_exposure site;
	double shelter, shade;	/* of section "evaporation"; NaN: by the words */
	double open_water_factor;	/* of a calibration; NaN: none */
};

/* Made by tarn_design_resolve; nothing in it is written back. */
struct tarn_resolved {
	struct tarn_pond pond;	/* complete: basin, bed, works' parts */
	struct tarn_basin *basin;	/* owned; NULL where the caller made
					   the pond's */
	struct tarn_works works;
	struct tarn_works_flow flow;
	struct tarn_evaporation_options evaporation;	/* with the area and
					   mean depth at the lip, and the wind
					   and sun of the site's words, where
					   none are given */
	struct tarn_pond_place place;	/* as given */
	int layered;		/* 1: the bed has layers */
	struct tarn_layers_result layers;	/* under the bed's lip; of 1 m2
						   where it has no area */
	int assumptions;
	struct tarn_assumption assumption[TARN_ASSUMPTIONS_MAX];
	const struct tarn_alloc *alloc;
};

/*
 * What follows from a description: the basin is made; a bed in layers has
 * depth, water and porosity, one with length and width an area; pump, pipes,
 * falls and stream have their flow, head and water in transit where these are
 * not given.
 *
 *   out      filled, to be emptied by tarn_resolved_free; untouched on failure
 *
 * Errors: TARN_EARG, the full path of the field at fault, also where two
 * fields cannot both be (TARN_MISTAKE_CONFLICT); TARN_ENOMEM.
 */
TARN_API enum tarn_status tarn_design_resolve(const struct tarn_design *given,
					      struct tarn_resolved *out,
					      struct tarn_error *err);
TARN_API void tarn_resolved_free(struct tarn_resolved *resolved);

/* ---- a run ------------------------------------------------------------------- */

struct tarn_run_options {
	long first_day, last_day;	/* TARN_NO_DAY: as the weather has them */
	int method;		/* enum tarn_method; TARN_METHODS: as described */
	int beside;		/* the method that has all days, where 'method'
				   is compared with it: tarn_evaporation_beside;
				   TARN_METHODS: none */
	double evaporation;	/* x open water and grass   0 .. 10, 1 */
	double start_level_m;	/* NaN: as tarn_run_default */
	int topup;		/* 0: neither tank nor supply */
	int stopped;		/* 1: the pump is off on the first morning */
};
TARN_API struct tarn_run_options tarn_run_options_default(void);
TARN_API extern const struct tarn_fields tarn_run_options_fields;

/* What the ledger takes of them. */
TARN_API struct tarn_run tarn_run_of(const struct tarn_run_options *options);

/*
 * The budget of a description's place for a run of its weather: that of
 * tarn_exposure_budget with the run's method.  Where an open_water_factor is
 * given the centre is 0 with TARN_CALIBRATED_SD_LN, since the ledger multiplies
 * by that factor.
 *
 *   made     tarn_design_resolve of it
 *   report   of the run: its method, and whether it knew more than warmth
 *   out      filled
 * Errors: those of tarn_exposure_budget.
 * Source: docs/methods/exposure.md.
 */
TARN_API enum tarn_status
tarn_design_exposure(const struct tarn_resolved *made,
		     const struct tarn_evaporation_report *report,
		     struct tarn_exposure_budget *out, struct tarn_error *err);

/* A weather as a pond takes it: a copy of the days asked for, their rain, their
 * evaporation with the centre of the place's budget in it, so that methods agree
 * in the middle. */
struct tarn_sky {
	struct tarn_forcing forcing;	/* borrows the rest */
	struct tarn_weather *weather;
	int method;			/* as in the options */
	struct tarn_evaporation_report report;	/* with the centres */
	double *evaporated_mm;		/* open water, then grass */
	const struct tarn_alloc *alloc;
};

/*
 * Works out a weather for a pond.
 *
 *   out      filled, to be emptied by tarn_sky_free; empty on failure
 *   made     tarn_design_resolve of the description
 *
 * Errors: TARN_EARG: no rain; days that the weather does not have; a place out
 * of range; those of tarn_evaporation_run.  TARN_ENOMEM.
 */
TARN_API enum tarn_status tarn_sky_make(struct tarn_sky *out,
					const struct tarn_alloc *alloc,
					const struct tarn_weather *weather,
					const struct tarn_resolved *made,
					const struct tarn_run_options *options,
					struct tarn_error *err);
TARN_API void tarn_sky_free(struct tarn_sky *sky);
/* ---- what it says twice -------------------------------------------------------- */

/*
 * Ids of the findings below; codes are "told_drop" and so on.  What cannot be
 * is refused by tarn_design_resolve; here is what is doubtful.
 */
enum tarn_told_id {
	TARN_TOLD_DROP,		/* bed.drop: falls and stream below the lip */
	TARN_TOLD_LIFT,		/* lift of a pipe to the bed: bed.drop */
	TARN_TOLD_VALVE,	/* drain-back: a check valve */
	TARN_TOLD_STREAM_AREA,	/* stream.area: length and width */
	TARN_TOLD_STREAM_VOLUME,	/* stream.volume: area and depth */
	TARN_TOLD_BED_VOLUME,	/* bed.volume: area, stone, porosity */
	TARN_TOLD_BED_HEAD,	/* bed.head: the flow over the bed's lip */
	TARN_TOLD_BED_FLOW,	/* bed.flow: what the pump gives */
	TARN_TOLD_BED_DUG,	/* build.bed_dug: the bed's stone */
	TARN_TOLD_POROSITY,	/* voids: what stone has */
	TARN_TOLD_DENSITY,	/* bulk_density: porosity, solid stone */
	TARN_TOLD_PUMP_FLOW,	/* pump.flow: its curve and the pipes */
	TARN_TOLD_EFFICIENCY,	/* power at the plug: flow against head */
	TARN_TOLD_METERED,	/* basin.metered: the basin's shape */
	TARN_TOLD_DIAMETER,	/* diameter of a pipe: size and schedule */
	TARN_TOLD_SURFACE,	/* evaporation.area: the basin at its lip */
	TARN_TOLD_MEAN_DEPTH,	/* evaporation.depth: likewise */
	TARN_TOLD_ELEVATION,	/* water.elevation: evaporation.elevation */
	TARN_TOLD_SIDE_PIPE,	/* overflow.side_pipe: the edge over the lip */
	TARN_TOLD_TANK,		/* tank.roof: a tank without capacity */
	TARN_TOLD_SUPPLY,	/* supply.rate: no trigger */
	TARN_TOLD_FEED,		/* fish.feed: mass and ration, three times */
	TARN_TOLD_FALL_WIDTH,	/* demand.fall_width: the falls */
	TARN_TOLD_WITHDRAWAL,	/* withdrawals: what the pond holds */
	TARN_TOLD_LARGE,	/* the pond: TARN_LARGE_M3, TARN_DEEP_M */
	TARN_TOLD_LENGTH,	/* build.length: basin.length, of a basin by
				   its shape */
	TARN_TOLD_WIDTH,	/* build.width: likewise */
	TARN_TOLD_SPLASH,	/* splash: a tenth of the pump's flow */
	TARN_TOLD_UNSIZED,	/* a bed that is described and has no area */
	TARN_TOLD_SHELTER,	/* evaporation.shelter: site.wind */
	TARN_TOLD_SHADE,	/* evaporation.shade: site.sun */
	TARN_TOLD_CALIBRATED,	/* open_water_factor: methods' centres */
	TARN_TOLD_CHECKS
};

/* How much of the place a description says, for the leak fit: wind and sun by
 * a word of section "site" or by evaporation.shelter and shade; whether paving
 * or a dry yard lies about the pond; site.measured goes before both.  Any
 * description that was read will do: no errors. */
TARN_API enum tarn_leak_site
tarn_design_leak_site(const struct tarn_design *given);

/*
 * The leak fit's prior of f where its forcing is a run of this description
 * (tarn_sky_make).  That of tarn_leak_prior is over a method as it is, with full
 * wind and sun where these are not described; it is divided by what the run has
 * of wind, sun, method and surroundings already.  A given open_water_factor is
 * the mean: it stays as wide as the site makes it, in proportion.
 *
 *   site     tarn_design_leak_site, or another
 *   report   of the run
 *   returns  mean and standard deviation [-]; NaN for a number that is no
 *            enum tarn_leak_site
 * Source: docs/methods/leak.md.
 */
TARN_API struct tarn_leak_prior
tarn_design_leak_prior(const struct tarn_design *given,
		       enum tarn_leak_site site,
		       const struct tarn_evaporation_report *report);

/*
 * Adds every comparison of what a description says twice that can be made.
 *
 *   made     tarn_design_resolve of it
 *   list     added to
 *
 * Rooms within which two figures agree are our own; see docs/pond.md.
 */
TARN_API void tarn_design_judge(const struct tarn_design *given,
				const struct tarn_resolved *made,
				struct tarn_findings *list);

/* ---- the question about its bed --------------------------------------------- */

struct tarn_bed_asked {
	struct tarn_bed_question question;
	struct tarn_yard yard;
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
};

/*
 * What a description asks of its bed, for tarn_bed_plan.
 *
 *   made     tarn_design_resolve of it
 *   out      filled; its question borrows from all three, which stay in place
 *
 * Errors: TARN_EARG: a yard without sides, falls of no flow.
 */
TARN_API enum tarn_status tarn_design_ask_bed(const struct tarn_design *given,
					      const struct tarn_resolved *made,
					      struct tarn_bed_asked *out,
					      struct tarn_error *err);

/* What a description says of its bed to the take-off: sides and cover as given,
 * NaN where they are not; borrows the layers.  Any design; no errors. */
TARN_API struct tarn_takeoff_bed
tarn_design_takeoff_bed(const struct tarn_design *given);

#ifdef __cplusplus
}
#endif
#endif
