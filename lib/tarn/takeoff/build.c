/* SPDX-License-Identifier: MIT */
#include "tarn/takeoff.h"

#define NONE "unattributed"
#define PRACTICE TARN_EVIDENCE_PRACTICE

/* In the order of the field's choices. */
static const struct tarn_soil soils[] = {
	{ "common earth", 0.25, "US Army FM 5-434 (2000), table 1-1",
	  TARN_EVIDENCE_MEMORY },
	{ "clay damp", 0.40, NONE, PRACTICE },
	{ "clay dry", 0.35, NONE, PRACTICE },
	{ "gravel dry", 0.15, NONE, PRACTICE },
	{ "gravel wet", 0.05, NONE, PRACTICE },
	{ "gravel pit run", 0.08, NONE, PRACTICE },
	{ "limestone", 0.60, NONE, PRACTICE },
	{ "granite", 0.70, NONE, PRACTICE },
};
static const char *const soil_names[] = {
	"common earth", "clay damp", "clay dry", "gravel dry", "gravel wet",
	"gravel pit run", "limestone", "granite", NULL
};
static const char *const rules[] = { "light", "heavy", NULL };

const struct tarn_soil *tarn_soils(size_t *count)
{
	*count = sizeof soils / sizeof soils[0];
	return soils;
}

/* Granite 170 lb/ft3 solid, crushed stone 100 lb/ft3: common practice, no
 * source. */
#define STONE_KGM3 (170 * 0.45359237 / 0.028316846592)
#define GRAVEL_KGM3 (100 * 0.45359237 / 0.028316846592)

/* Defaults without a source: shrink, 5 to 10 % is common practice; an overlap
 * of 1 ft on each side; voids of 0.35; a seam of 0.15 m.  Those of waste are ours. */
#define T struct tarn_build
static const struct tarn_field rows[] = {
	TARN_IN_CHOICE(T, soil, "soil", soil_names, 0,
		       "what is dug; sets the swell"),
	TARN_IN_NUMBER(T, swell, "swell", "-", 0, 2, TARN_NAN,
		       "loose / bank - 1; instead of the soil's"),
	TARN_IN_VALUE(T, shrink, "shrink", "-", 0, 0.5, 0.05,
		      "share of the bank that compacting loses"),
	TARN_IN_VALUE(T, berm_m3, "berm", "m3", 0, 1e4, 0,
		      "of this soil, finished and compacted"),
	TARN_IN_NUMBER(T, bed_dug_m, "bed_dug", "m", 0, 5, TARN_NAN,
		       "depth of the bed that is dug; 0 where it is built up"),
	TARN_IN_NUMBER(T, stream_dug_m, "stream_dug", "m", 0, 5, TARN_NAN,
		       "depth dug for the stream; 0 where it is built up"),
	TARN_IN_NUMBER(T, truck_m3, "truck", "m3", 0.01, 100, TARN_NAN,
		       "loose, of one load"),
	TARN_IN_NUMBER(T, length_m, "length", "m", 0.2, 200, TARN_NAN,
		       "at the edge, for a basin given by a table or contours"),
	TARN_IN_NUMBER(T, width_m, "width", "m", 0.2, 200, TARN_NAN,
		       "likewise"),
	TARN_IN_VALUE(T, overlap_m, "overlap", "m", 0, 5, 0.3048,
		      "liner beyond the edge on each side, wet edge and all"),
	TARN_IN_VALUE(T, underlay_layers, "underlay_layers", "-", 0, 5, 1,
		      "of underlay"),
	TARN_IN_NUMBER(T, liner_roll_m, "liner_roll_width", "m", 0.3, 100,
		       TARN_NAN, "in which liner is sold, to count pieces"),
	TARN_IN_NUMBER(T, underlay_roll_m, "underlay_roll_width", "m", 0.3, 100,
		       TARN_NAN, "likewise"),
	TARN_IN_VALUE(T, seam_m, "seam", "m", 0, 1, 0.15,
		      "overlap of two pieces that are joined"),
	TARN_IN_CHOICE(T, rule, "rule", rules, 0,
		       "of stone to order by where no layers are given; no "
		       "source"),
	TARN_IN_VALUE(T, floor_gravel_m, "floor_gravel", "m", 0, 1, 0,
		      "thickness on floor and shelves"),
	TARN_IN_VALUE(T, wall_stone_m, "wall_stone", "m", 0, 2, 0,
		      "thickness of the stone before the walls"),
	TARN_IN_VALUE(T, voids, "voids", "-", 0, 0.7, 0.35,
		      "between those stones"),
	TARN_IN_VALUE(T, stone_kgm3, "stone_density", "kg/m3", 1000, 4000,
		      STONE_KGM3, "of solid stone"),
	TARN_IN_VALUE(T, gravel_kgm3, "gravel_density", "kg/m3", 500, 3000,
		      GRAVEL_KGM3, "of gravel as it lies"),
	TARN_IN_VALUE(T, waste_liner, "waste_liner", "-", 0, 1, 0.05,
		      "share added to liner and underlay"),
	TARN_IN_VALUE(T, waste_stone, "waste_stone", "-", 0, 1, 0.1,
		      "likewise"),
	TARN_IN_VALUE(T, waste_gravel, "waste_gravel", "-", 0, 1, 0.1,
		      "likewise"),
	TARN_IN_VALUE(T, round_kg, "round", "kg", 0, 1e5, 0,
		      "stone and gravel are ordered in multiples of it"),
	TARN_IN_NUMBER(T, load_kg, "load", "kg", 1, 1e5, TARN_NAN,
		       "of one delivery of stone or gravel"),
	TARN_IN_NUMBER(T, dig_m3s, "dig_rate", "m3/s", 1e-7, 1, TARN_NAN,
		       "one worker's digging, bank: 0.5 * yd3 / hour"),
	TARN_IN_NUMBER(T, liner_m2s, "liner_rate", "m2/s", 1e-6, 10, TARN_NAN,
		       "one worker's laying of liner with underlay"),
	TARN_IN_NUMBER(T, stone_kgs, "stone_rate", "kg/s", 1e-4, 1e3, TARN_NAN,
		       "one worker's setting of stone"),
	TARN_IN_NUMBER(T, gravel_kgs, "gravel_rate", "kg/s", 1e-4, 1e3,
		       TARN_NAN, "one worker's washing and placing of gravel"),
};
TARN_FIELDS(tarn_build_fields, "build", rows);
#undef T
TARN_DEFAULT(struct tarn_build, tarn_build_default, tarn_build_fields)
