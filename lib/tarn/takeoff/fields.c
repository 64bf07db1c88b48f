/* SPDX-License-Identifier: MIT */
#include "tarn/takeoff.h"

/* The rows of results. */

#define T struct tarn_soil
static const struct tarn_field soil_rows[] = {
	TARN_OUT_STRING(T, name, "name", "of the soil"),
	TARN_OUT_NUMBER(T, swell, "swell", "-", "loose / bank - 1"),
	TARN_OUT_STRING(T, source, "source", "of the figure"),
	TARN_OUT_CHOICE(T, evidence, "evidence", tarn_evidence_texts,
			"how far to trust it"),
};
TARN_FIELDS(tarn_soil_fields, "soil", soil_rows);
#undef T

static const char *const units[] = { "m3", "m2", "kg", "h", NULL };

static const char *const kinds[] = {
	"other", "dig", "liner", "underlay", "stone", NULL
};

#define T struct tarn_item
static const struct tarn_field item_rows[] = {
	TARN_OUT_TEXT(T, name, "name", "of the item"),
	TARN_OUT_CHOICE(T, kind, "kind", kinds, "which total it belongs to"),
	TARN_OUT_CHOICE(T, unit, "unit", units, "of its amounts"),
	TARN_OUT_STRING(T, basis, "basis", "how it was found"),
	TARN_OUT_NUMBER(T, net, "net", "-", "as measured"),
	TARN_OUT_NUMBER(T, waste, "waste", "-", "share added"),
	TARN_OUT_NUMBER(T, order, "order", "-", "with waste, rounded up"),
	TARN_OUT_NUMBER(T, loads, "loads", "-", "that carry it"),
	TARN_OUT_NUMBER(T, hours, "hours", "h", "man-hours"),
	TARN_OUT_WHOLE(T, choice, "way", "-",
		       "0: buy; 1, 2, 3: ways to figure the same stone"),
	TARN_OUT_STRING(T, unknown, "unknown", "why its amount is not known"),
	TARN_OUT_STRING(T, assumed, "assumed", "what was taken for granted"),
	TARN_OUT_NUMBER(T, stone_m, "stone", "m", "size, of a layer's stone"),
	TARN_OUT_NUMBER(T, area_m2, "area", "m2", "of a layer"),
	TARN_OUT_NUMBER(T, thickness_m, "thickness", "m", "of a layer"),
	TARN_OUT_NUMBER(T, volume_m3, "volume", "m3", "of a layer, in place"),
	TARN_OUT_NUMBER(T, density_kgm3, "density", "kg/m3",
			"of a layer, dry, in place"),
	TARN_OUT_NUMBER(T, length_m, "length", "m",
			"of a sheet, with its overlap"),
	TARN_OUT_NUMBER(T, width_m, "width", "m", "likewise"),
	TARN_OUT_NUMBER(T, pieces, "pieces", "-", "of roll that make it"),
	TARN_OUT_NUMBER(T, piece_length_m, "piece_length", "m", "of each"),
	TARN_OUT_NUMBER(T, piece_width_m, "piece_width", "m", "of each"),
	TARN_OUT_NUMBER(T, seams_m, "seams", "m", "length of all joins"),
};
TARN_FIELDS(tarn_item_fields, "item", item_rows);
#undef T

/* In the order of enum tarn_total_of. */
static const char *const totals[] = {
	"dig", "liner", "underlay", "light", "heavy", "layers", "hours", NULL
};

#define T struct tarn_total
static const struct tarn_field total_rows[] = {
	TARN_OUT_CHOICE(T, of, "name", totals, "of what"),
	TARN_OUT_CHOICE(T, unit, "unit", units, "of the amount"),
	TARN_OUT_NUMBER(T, amount, "amount", "-",
			"of all its parts; none where a part is not known"),
	TARN_OUT_TEXT(T, unknown, "unknown", "the part that is not known, "
		      "and why"),
};
TARN_FIELDS(tarn_total_fields, "total", total_rows);
#undef T

static const char *const ways[] = { "layers", "light", "heavy", NULL };

#define T struct tarn_takeoff
static const struct tarn_field takeoff_rows[] = {
	TARN_OUT_NUMBER(T, dig_m3, "dig", "m3", "in the bank"),
	TARN_OUT_NUMBER(T, loose_m3, "loose", "m3", "of that, dug"),
	TARN_OUT_NUMBER(T, berm_bank_m3, "berm_bank", "m3",
			"of that, for the berm"),
	TARN_OUT_NUMBER(T, spoil_m3, "spoil", "m3", "loose, to cart away"),
	TARN_OUT_NUMBER(T, swell, "swell", "-", "loose / bank - 1"),
	TARN_OUT_NUMBER(T, dig_basin_m3, "dig_basin", "m3", "in the bank"),
	TARN_OUT_NUMBER(T, dig_bed_m3, "dig_bed", "m3", "likewise"),
	TARN_OUT_NUMBER(T, dig_stream_m3, "dig_stream", "m3", "likewise"),
	TARN_OUT_NUMBER(T, floor_m2, "floor", "m2", "of the liner"),
	TARN_OUT_NUMBER(T, shelves_m2, "shelves", "m2", "of the liner"),
	TARN_OUT_NUMBER(T, walls_m2, "walls", "m2", "of the liner"),
	TARN_OUT_NUMBER(T, liner_m2, "liner", "m2", "as it lies"),
	TARN_OUT_NUMBER(T, sheet_length_m, "sheet_length", "m",
			"along the profile"),
	TARN_OUT_NUMBER(T, sheet_width_m, "sheet_width", "m", "likewise"),
	TARN_OUT_NUMBER(T, sheet_m2, "sheet", "m2", "likewise"),
	TARN_OUT_NUMBER(T, rule_length_m, "rule_length", "m", "L + 2 D"),
	TARN_OUT_NUMBER(T, rule_width_m, "rule_width", "m", "W + 2 D"),
	TARN_OUT_NUMBER(T, rule_m2, "rule", "m2", "likewise"),
	TARN_OUT_NUMBER(T, bed_liner_m2, "bed_liner", "m2",
			"the bed's, as it lies"),
	TARN_OUT_NUMBER(T, bed_sheet_length_m, "bed_sheet_length", "m",
			"the bed's, along its walls"),
	TARN_OUT_NUMBER(T, bed_sheet_width_m, "bed_sheet_width", "m",
			"likewise"),
	TARN_OUT_NUMBER(T, bed_sheet_m2, "bed_sheet", "m2", "likewise"),
	TARN_OUT_NUMBER(T, stone_kg, "stone", "kg", "by layers"),
	TARN_OUT_NUMBER(T, gravel_kg, "gravel", "kg", "by layers"),
	TARN_OUT_NUMBER(T, bed_stone_kg, "bed_stone", "kg",
			"all layers of the bed"),
	TARN_OUT_NUMBERS(T, rule_stone_kg, "rule_stone", "kg",
			 "by the light and the heavy rule"),
	TARN_OUT_NUMBERS(T, rule_gravel_kg, "rule_gravel", "kg", "likewise"),
	TARN_OUT_NUMBERS(T, stream_stone_kg, "stream_stone", "kg",
			 "along the stream, likewise"),
	TARN_OUT_NUMBERS(T, stream_gravel_kg, "stream_gravel", "kg",
			 "likewise"),
	TARN_OUT_NUMBER(T, displaced_m3, "displaced", "m3",
			"solid stone and gravel in the pond"),
	TARN_OUT_CHOICE(T, displaced_by, "displaced_by", ways,
			"how that was found"),
	TARN_OUT_NUMBER(T, water_m3, "water", "m3", "at the lip, less stone"),
	TARN_OUT_NUMBER(T, hours, "hours", "h", "man-hours, all of them"),
};
TARN_FIELDS(tarn_takeoff_fields, "takeoff", takeoff_rows);
#undef T

#define T struct tarn_station
static const struct tarn_field station_rows[] = {
	TARN_OUT_NUMBER(T, level_m, "level", "m", "above the floor"),
	TARN_OUT_NUMBER(T, length_m, "length", "m", "of the basin there"),
	TARN_OUT_NUMBER(T, width_m, "width", "m", "of the basin there"),
	TARN_OUT_NUMBER(T, area_m2, "area", "m2", "of the basin there"),
	TARN_OUT_NUMBER(T, perimeter_m, "perimeter", "m",
			"of the basin there"),
};
TARN_FIELDS(tarn_station_fields, "station", station_rows);
#undef T
