/* SPDX-License-Identifier: MIT */
#ifndef TARN_TAKEOFF_H
#define TARN_TAKEOFF_H

/*
 * takeoff: quantities of a pond to be built, for a bid: digging, liner and
 * underlay, stone and gravel, hours.
 *
 * The basin that a description gives is the liner's shape, the finished hole.
 * Estimates: ground, stone and crews differ; bid your first one high.
 */

#include "tarn/base.h"
#include "tarn/bed.h"
#include "tarn/pond.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- formulas ------------------------------------------------------------ */

/* Volumes between cross-sections or contours; NaN if anything is negative.
 *   prismoid   length/6 (a + 4 middle + b)     exact for prismoids
 *   end_area   length/2 (a + b)                too large for cones
 *   simpson    spacing/3 (first + 4 odd + 2 even + last), count odd, >= 3
 *   frustum    pi/12 height (D^2 + D d + d^2)  of a cone, diameters       */
TARN_API double tarn_prismoid_m3(double a_m2, double middle_m2, double b_m2,
				 double length_m);
TARN_API double tarn_end_area_m3(double a_m2, double b_m2, double length_m);
TARN_API double tarn_simpson_m3(const double *area_m2, size_t count,
				double spacing_m);
TARN_API double tarn_frustum_m3(double top_m, double bottom_m,
				double height_m);

/* Area of a round pond from the length of its shoreline: c^2 / 4 pi. */
TARN_API double tarn_shoreline_area_m2(double shoreline_m);

/* Earth: loose = bank (1 + swell).  swell from densities: bank/loose - 1;
 * shrink from densities: 1 - bank/compacted, both shares.  NaN outside
 * physics. */
TARN_API double tarn_loose_m3(double bank_m3, double swell);
TARN_API double tarn_swell(double bank_kgm3, double loose_kgm3);
TARN_API double tarn_shrink(double bank_kgm3, double compacted_kgm3);

/* Loads of a size that carry an amount in the same unit: a count, whole
 * ones [-]. */
TARN_API double tarn_loads(double amount, double load);

/* Length of liner by common practice (no source): side + 2 depth + overlap in
 * all [m].  NaN if anything is negative. */
TARN_API double tarn_liner_rule_m(double side_m, double depth_m,
				  double overlap_m);

/* ---- how it is built ------------------------------------------------------ */

/* Swell of soils when dug. */
struct tarn_soil {
	const char *name;
	double swell;		/* loose / bank - 1 [-] */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_soil_fields;
TARN_API const struct tarn_soil *tarn_soils(size_t *count);

struct tarn_build {	/* section "build" */
	int soil;		/* index of tarn_soils */
	double swell;		/* overrides the soil's */
	double shrink;		/* compacted fill / what it was in the bank, as
				   a share lost */
	double berm_m3;		/* finished, compacted, from this soil */
	double bed_dug_m;	/* depth of the bed that is dug, 0: built up;
				   NaN: not said, and so no total of digging */
	double stream_dug_m;	/* likewise */
	double truck_m3;	/* loose, of one load */
	double length_m, width_m;	/* at the edge, for basins that were
					   not described by a tape */
	double overlap_m;	/* liner beyond the edge, each side: the wet
				   edge, and what is tucked up behind it */
	double underlay_layers;
	double liner_roll_m;	/* width in which liner is sold; NaN: a sheet of
				   any size */
	double underlay_roll_m;	/* likewise */
	double seam_m;		/* overlap of two pieces that are joined */
	int rule;		/* of stone, 0: light, 1: heavy */
	double floor_gravel_m;	/* thickness on floor and shelves */
	double wall_stone_m;	/* thickness of stone before the walls */
	double voids;		/* between those stones */
	double stone_kgm3;	/* solid */
	double gravel_kgm3;	/* as it lies */
	double waste_liner, waste_stone, waste_gravel;
	double round_kg;	/* stone and gravel are ordered in these */
	double load_kg;		/* of one delivery */
	double dig_m3s, liner_m2s, stone_kgs, gravel_kgs;	/* of one
					   worker: the builder's own figures */
};
TARN_API struct tarn_build tarn_build_default(void);
TARN_API extern const struct tarn_fields tarn_build_fields;

/* ---- the take-off ---------------------------------------------------------- */

enum tarn_item_unit { TARN_ITEM_M3, TARN_ITEM_M2, TARN_ITEM_KG, TARN_ITEM_H };

enum tarn_item_kind {
	TARN_ITEM_OTHER,	/* soil once more, or a part of a line */
	TARN_ITEM_DIG, TARN_ITEM_LINER, TARN_ITEM_UNDERLAY, TARN_ITEM_STONE
};

/* One line of the list.  A number that is not known is NaN, and 'unknown' has
 * the reason. */
struct tarn_item {
	char name[80];
	int kind;		/* enum tarn_item_kind */
	int unit;		/* enum tarn_item_unit */
	double net;
	double waste;		/* share added */
	double order;		/* with waste, rounded up */
	double loads;		/* NaN: not asked for */
	double hours;		/* man-hours, NaN without a productivity */
	int choice;		/* 0: buy; 1, 2, 3: one of the ways to figure
				   the same stone, never to be added up */
	int labour;		/* 1: takes hours of its own */
	const char *basis;	/* how it was found */
	const char *unknown;	/* why 'net' is NaN; NULL */
	const char *assumed;	/* what was taken for granted; NULL */
	/* a layer of the bed; NaN elsewhere, and where it is not known */
	double stone_m;		/* size of its stone; NaN: open */
	double area_m2, thickness_m;
	double volume_m3;	/* in place */
	double density_kgm3;	/* dry, in place */
	/* liner and underlay; NaN elsewhere */
	double length_m, width_m;	/* of the sheet, overlap and all */
	double pieces;		/* NaN: no roll width is given */
	double piece_length_m, piece_width_m;
	double seams_m;		/* length of all joins */
};
TARN_API extern const struct tarn_fields tarn_item_fields;
#define TARN_ITEMS_MAX 128

/* Amounts of the list that make one total. */
enum tarn_total_of {
	TARN_TOTAL_DIG,		/* m3 in the bank: basin, bed, stream */
	TARN_TOTAL_LINER,	/* m2 to order: pond, bed, stream */
	TARN_TOTAL_UNDERLAY,	/* likewise */
	TARN_TOTAL_LIGHT,	/* kg of stone and gravel to order, the bed's
				   with it: the pond's by the light rule */
	TARN_TOTAL_HEAVY,	/* by the heavy one */
	TARN_TOTAL_LAYERS,	/* by layer geometry */
	TARN_TOTAL_HOURS,	/* man-hours, with one way for the stone */
	TARN_TOTALS
};

/* A total is NaN as soon as one of its parts is not known: then 'unknown' names
 * that part and the reason.  NaN with no reason: nothing asked for it. */
struct tarn_total {
	int of;			/* enum tarn_total_of */
	int unit;		/* enum tarn_item_unit */
	double amount;
	char unknown[160];
};
TARN_API extern const struct tarn_fields tarn_total_fields;

/* The bed of a description, besides its area, depth and porosity in the pond's
 * own section. */
struct tarn_takeoff_bed {
	double length_m, width_m;	/* NaN: not known, and so no liner */
	double cover_m;		/* dry stone over a depth under water; layers
				   have it in their own */
	double diameter_m;	/* of one stone; NaN: not known */
	const struct tarn_layer *layer;	/* borrowed, bottom first */
	size_t layers;		/* 0: one stone */
};

struct tarn_takeoff {
	double dig_m3, loose_m3, berm_bank_m3, spoil_m3, swell;
	double dig_basin_m3, dig_bed_m3, dig_stream_m3;	/* parts of dig_m3 */
	double floor_m2, shelves_m2, walls_m2;	/* of the liner's shape */
	double liner_m2;	/* lying: floor, shelves, walls, wet edge */
	double sheet_length_m, sheet_width_m, sheet_m2;	/* along the profile */
	double rule_length_m, rule_width_m, rule_m2;	/* L + 2D, W + 2D */
	double bed_liner_m2;	/* the bed's, lying; NaN: not known, or no bed */
	double bed_sheet_length_m, bed_sheet_width_m, bed_sheet_m2;
	double stone_kg, gravel_kg;	/* by layer geometry */
	double rule_stone_kg[2], rule_gravel_kg[2];	/* light, heavy */
	double stream_stone_kg[2], stream_gravel_kg[2];
	double bed_stone_kg;	/* all of the bed's; NaN: not known */
	double displaced_m3;	/* solid stone and gravel in the pond */
	int displaced_by;	/* 0: layer geometry, 1: light, 2: heavy */
	double water_m3;	/* of the basin at the lip, less that where the
				   layers are described; by rule: not less */
	double hours;		/* the total of man-hours */
	size_t count;
	struct tarn_item item[TARN_ITEMS_MAX];
	struct tarn_total total[TARN_TOTALS];
};
TARN_API extern const struct tarn_fields tarn_takeoff_fields;

/*
 * Take-off of a pond.
 *
 *   shape  the basin as a tape measured it; NULL: build's length and width at
 *          the edge, shrinking with the root of the basin's areas
 *   bed    its sides and layers; NULL: none are known
 *
 * The sheet follows the real profile: down each wall, over each shelf, across
 * the floor.  The rule L + 2D walks down an upright wall and so is never
 * shorter; it is too long by what walls that lean save.  The lying area is
 * less than the sheet, whose corners are folded away.
 *
 * Stone three ways.  By two rules in circulation, no source:
 *
 *   light  boulders L W / 65 (feet, US tons: 150 kg/m2), gravel 0.45 of them;
 *          along a stream 223 kg/m of boulders, 149 kg/m of gravel
 *   heavy  boulders L W / 40 (244 kg/m2), gravel 0.25 of them; along a stream
 *          446 kg/m of boulders
 *
 * Boulders of one with gravel of the other are wrong.  And by layer geometry:
 * thickness x area.
 *
 * The bed has a line for each layer: thickness x area, its mass by its bulk
 * density, or by (1 - voids) x 2650 kg/m3 where none is given ('assumed' says
 * so); an open layer is a volume without mass.  Its liner is a sheet of its
 * own, L + 2 D by W + 2 D with the overlap, D to the top of its stone.
 *
 * Where a roll is narrower than a sheet, pieces lie side by side along or
 * across it, whichever buys less; each join takes the seam's overlap.
 *
 * Errors: TARN_EARG: a field; a seam as wide as a roll; layers that
 * tarn_layers refuses; more stone than the pond holds.
 */
TARN_API enum tarn_status
tarn_takeoff_solve(const struct tarn_build *build,
		   const struct tarn_pond *pond,
		   const struct tarn_shelved *shape,
		   const struct tarn_takeoff_bed *bed,
		   struct tarn_takeoff *out, struct tarn_error *err);

/*
 * The basin's profile, from the edge down; two stations at one level are the
 * outer and the inner side of a shelf.  A basin without sizes is drawn round.
 *
 *   out     filled, up to TARN_STATIONS_MAX
 *
 * Errors: TARN_EARG: a field of the build.
 */
struct tarn_station {
	double level_m, length_m, width_m, area_m2, perimeter_m;
};
TARN_API extern const struct tarn_fields tarn_station_fields;
#define TARN_STATIONS_MAX (2 * TARN_SHELVES_MAX + 130)
TARN_API enum tarn_status
tarn_takeoff_profile(const struct tarn_build *build,
		     const struct tarn_pond *pond,
		     const struct tarn_shelved *shape, struct tarn_station *out,
		     size_t *count, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
