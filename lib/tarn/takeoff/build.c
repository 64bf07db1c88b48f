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
#define FILLED(name, member, lo, hi, required, other, unit, meaning)       \
	{ name, TARN_FIELD_NUMBER, AT(member), lo, hi, required, unit, NULL, \
	  meaning, other }
#define NUMBER(name, member, lo, hi, required, unit, meaning) \
	FILLED(name, member, lo, hi, required, TARN_NAN, unit, meaning)
#define POUND 0.45359237
#define CUBIC_FOOT 0.028316846592
/* shrink of 5 to 10 %, 1 ft of overlap, voids, granite of 170 lb/ft3 and
 * crushed stone of 100 lb/ft3: common practice, no source; wastes are ours */
static const struct tarn_field rows[] = {
	{ "soil", TARN_FIELD_CHOICE, AT(soil), 0, 7, 0, "-", soil_names,
	  "what is dug; sets the swell" },
	NUMBER("swell", swell, 0, 2, 0, "-",
	       "loose / bank - 1; instead of the soil's"),
	FILLED("shrink", shrink, 0, 0.5, 1, 0.05, "-",
	       "share of the bank that compacting loses"),
	FILLED("berm", berm_m3, 0, 1e4, 1, 0, "m3",
	       "of this soil, finished and compacted"),
	FILLED("bed_dug", bed_dug_m, 0, 5, 1, 0, "m",
	       "depth of the bed that is dug, not built up"),
	FILLED("stream_dug", stream_dug_m, 0, 5, 1, 0, "m",
	       "depth dug for the stream"),
	NUMBER("truck", truck_m3, 0.01, 100, 0, "m3", "loose, of one load"),
	NUMBER("length", length_m, 0.2, 200, 0, "m",
	       "at the edge, for a basin given by a table or contours"),
	NUMBER("width", width_m, 0.2, 200, 0, "m", "likewise"),
	FILLED("overlap", overlap_m, 0, 5, 1, 0.3048, "m",
	       "liner beyond the edge on each side, wet edge and all"),
	FILLED("underlay_layers", underlay_layers, 0, 5, 1, 1, "-",
	       "of underlay"),
	{ "rule", TARN_FIELD_CHOICE, AT(rule), 0, 1, 0, "-", rules,
	  "of stone to order by where no layers are given; no source" },
	FILLED("floor_gravel", floor_gravel_m, 0, 1, 1, 0, "m",
	       "thickness on floor and shelves"),
	FILLED("wall_stone", wall_stone_m, 0, 2, 1, 0, "m",
	       "thickness of the stone before the walls"),
	FILLED("voids", voids, 0, 0.7, 1, 0.35, "-", "between those stones"),
	FILLED("stone_density", stone_kgm3, 1000, 4000, 1, 170 * POUND / CUBIC_FOOT,
	       "kg/m3",
	       "of solid stone"),
	FILLED("gravel_density", gravel_kgm3, 500, 3000, 1, 100 * POUND / CUBIC_FOOT,
	       "kg/m3",
	       "of gravel as it lies"),
	FILLED("waste_liner", waste_liner, 0, 1, 1, 0.05, "-",
	       "share added to liner and underlay"),
	FILLED("waste_stone", waste_stone, 0, 1, 1, 0.1, "-", "likewise"),
	FILLED("waste_gravel", waste_gravel, 0, 1, 1, 0.1, "-", "likewise"),
	FILLED("round", round_kg, 0, 1e5, 1, 0, "kg",
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
	struct tarn_build b = { 0 };

	tarn_fields_default(&tarn_build_fields, &b);
	return b;
}
