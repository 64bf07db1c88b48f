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

#define AT(member) offsetof(struct tarn_build, member)
#define NUMBER(name, member, lo, hi, required, unit, meaning) \
	{ name, TARN_FIELD_NUMBER, AT(member), lo, hi, required, unit, NULL, \
	  meaning }
static const struct tarn_field rows[] = {
	{ "soil", TARN_FIELD_CHOICE, AT(soil), 0, 7, 0, "-", soil_names,
	  "what is dug; sets the swell" },
	NUMBER("swell", swell, 0, 2, 0, "-",
	       "loose / bank - 1; instead of the soil's"),
	NUMBER("shrink", shrink, 0, 0.5, 1, "-",
	       "share of the bank that compacting loses"),
	NUMBER("berm", berm_m3, 0, 1e4, 1, "m3",
	       "of this soil, finished and compacted"),
	NUMBER("bed_dug", bed_dug_m, 0, 5, 1, "m",
	       "depth of the bed that is dug, not built up"),
	NUMBER("stream_dug", stream_dug_m, 0, 5, 1, "m",
	       "depth dug for the stream"),
	NUMBER("truck", truck_m3, 0.01, 100, 0, "m3", "loose, of one load"),
	NUMBER("length", length_m, 0.2, 200, 0, "m",
	       "at the edge, for a basin given by a table or contours"),
	NUMBER("width", width_m, 0.2, 200, 0, "m", "likewise"),
	NUMBER("overlap", overlap_m, 0, 5, 1, "m",
	       "liner beyond the edge on each side, wet edge and all"),
	NUMBER("underlay_layers", underlay_layers, 0, 5, 1, "-",
	       "of underlay"),
	{ "rule", TARN_FIELD_CHOICE, AT(rule), 0, 1, 0, "-", rules,
	  "of stone to order by where no layers are given; no source" },
	NUMBER("floor_gravel", floor_gravel_m, 0, 1, 1, "m",
	       "thickness on floor and shelves"),
	NUMBER("wall_stone", wall_stone_m, 0, 2, 1, "m",
	       "thickness of the stone before the walls"),
	NUMBER("voids", voids, 0, 0.7, 1, "-", "between those stones"),
	NUMBER("stone_density", stone_kgm3, 1000, 4000, 1, "kg/m3",
	       "of solid stone"),
	NUMBER("gravel_density", gravel_kgm3, 500, 3000, 1, "kg/m3",
	       "of gravel as it lies"),
	NUMBER("waste_liner", waste_liner, 0, 1, 1, "-",
	       "share added to liner and underlay"),
	NUMBER("waste_stone", waste_stone, 0, 1, 1, "-", "likewise"),
	NUMBER("waste_gravel", waste_gravel, 0, 1, 1, "-", "likewise"),
	NUMBER("round", round_kg, 0, 1e5, 1, "kg",
	       "stone and gravel are ordered in multiples of it"),
	NUMBER("load", load_kg, 1, 1e5, 0, "kg",
	       "of one delivery of stone or gravel"),
	NUMBER("dig_rate", dig_m3s, 1e-7, 1, 0, "m3/s",
	       "one worker's digging, bank: 0.5 * yd3 / hour"),
	NUMBER("liner_rate", liner_m2s, 1e-6, 10, 0, "m2/s",
	       "one worker's laying of liner with underlay"),
	NUMBER("stone_rate", stone_kgs, 1e-4, 1e3, 0, "kg/s",
	       "one worker's setting of stone"),
	NUMBER("gravel_rate", gravel_kgs, 1e-4, 1e3, 0, "kg/s",
	       "one worker's washing and placing of gravel"),
};
const struct tarn_fields tarn_build_fields = {
	"build", rows, sizeof rows / sizeof rows[0]
};

struct tarn_build tarn_build_default(void)
{
	return (struct tarn_build){
		.swell = TARN_NAN,
		/* 5 to 10 % is common practice, no source */
		.shrink = 0.05,
		.truck_m3 = TARN_NAN, .length_m = TARN_NAN,
		.width_m = TARN_NAN,
		/* 1 ft each side is common practice, no source */
		.overlap_m = 0.3048,
		.underlay_layers = 1,
		.voids = 0.35,	/* common practice, no source */
		/* granite 170 lb/ft3 solid, crushed stone 100 lb/ft3: common
		 * practice, no source */
		.stone_kgm3 = 170 * 0.45359237 / 0.028316846592,
		.gravel_kgm3 = 100 * 0.45359237 / 0.028316846592,
		.waste_liner = 0.05, .waste_stone = 0.1,	/* ours */
		.waste_gravel = 0.1,
		.load_kg = TARN_NAN, .dig_m3s = TARN_NAN,
		.liner_m2s = TARN_NAN, .stone_kgs = TARN_NAN,
		.gravel_kgs = TARN_NAN,
	};
}
