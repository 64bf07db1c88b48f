/* SPDX-License-Identifier: MIT */
#include "tarn/weather.h"

#define T struct tarn_site
static const struct tarn_field site_rows[] = {
	TARN_IN_TEXT(T, name, "name", "of the station"),
	TARN_IN_NUMBER(T, latitude_deg, "latitude", "deg", -90, 90, TARN_NAN,
		       "north positive"),
	TARN_IN_NUMBER(T, elevation_m, "elevation", "m", -430, 6000, TARN_NAN,
		       "above the sea"),
	TARN_IN_NUMBER(T, wind_height_m, "wind_height", "m", 0.5, 100,
		       TARN_NAN, "of the wind gauge"),
};
TARN_FIELDS(tarn_site_fields, "", site_rows);
#undef T

static const char *const rain_words[] = { "error", "zero", NULL };

#define T struct tarn_fill
static const struct tarn_field fill_rows[] = {
	TARN_IN_WHOLE(T, interpolate_days, "interpolate", "days", 0, 31, 0,
		      "longest gap that a straight line bridges"),
	TARN_IN_CHOICE(T, rain, "rain", rain_words, TARN_RAIN_ERROR,
		       "of a gap in it; it is never interpolated"),
	TARN_IN_SWITCH(T, leave, "leave", 0,
		       "longer gaps stay as they are, and are no error"),
};
TARN_FIELDS(tarn_fill_fields, "", fill_rows);
#undef T

/* ---- files ------------------------------------------------------------- */

#define T struct tarn_csv_place
static const struct tarn_field place_rows[] = {
	TARN_IN_TEXT(T, name, "name", "the header, exactly"),
	TARN_IN_WHOLE(T, index, "index", "-", 0, TARN_CSV_FIELDS_MAX, 0,
		      "of the column, from 1"),
	TARN_IN_WHOLE(T, occurrence, "occurrence", "-", 0, TARN_CSV_FIELDS_MAX,
		      0, "which of several of that name, from 1"),
};
TARN_FIELDS(tarn_csv_place_fields, "", place_rows);
#undef T

#define T struct tarn_csv_flag
static const struct tarn_field flag_rows[] = {
	TARN_IN_WHOLE(T, part, "part", "-", 0, 16, 0,
		      "of a flag with commas inside, from 1"),
};
TARN_FIELDS(tarn_csv_flag_fields, "flag", flag_rows);
#undef T

static const char *const combine_words[] = {
	"default", "min", "max", "mean", "sum", NULL
};

#define T struct tarn_csv_column
static const struct tarn_field column_rows[] = {
	TARN_IN_TEXT(T, unit, "unit", "of the numbers in the file"),
	TARN_IN_NUMBER(T, scale, "scale", "-", 1e-9, 1e9, TARN_NAN,
		       "number in the file x scale = number in the unit"),
	{ TARN_CHOICE(T, combine, "combine", "-", combine_words,
		      TARN_COMBINE_DEFAULT,
		      "how the rows of a day become one value"),
	  .was = "rule" },
};
TARN_FIELDS(tarn_csv_column_fields, "", column_rows);
#undef T

static const char *const orders[] = { "default", "error", "sort", NULL };
static const char *const duplicates[] = { "error", "first", "last", NULL };
static const char *const outliers[] = { "error", "missing", NULL };
static const char *const dates[] = { "default", "iso", "us", "european",
				     NULL };
static const char *const stamps[] = { "default", "begin", "end", NULL };
static const char *const totals[] = { "missing", "last", "spread", NULL };

#define T struct tarn_csv_map
static const struct tarn_field date_rows[] = {
	TARN_IN_TEXT(T, date_format, "format", "of the dates"),
};
TARN_FIELDS(tarn_csv_date_fields, "date", date_rows);

static const struct tarn_field map_rows[] = {
	TARN_IN_TEXT(T, layout, "layout", "a layout by its name"),
	TARN_IN_TEXT(T, trace, "trace", "rain too little to measure"),
	TARN_IN_TEXT(T, station_id, "station", "the station to pick"),
	TARN_IN_CHOICE(T, dates, "dates", dates, TARN_DATES_DEFAULT,
		       "order of year, month and day in the dates"),
	TARN_IN_CHOICE(T, order, "order", orders, TARN_ORDER_DEFAULT,
		       "of the rows"),
	TARN_IN_CHOICE(T, duplicates, "duplicates", duplicates,
		       TARN_DUPLICATES_ERROR, "which row of a day counts"),
	TARN_IN_CHOICE(T, outliers, "outliers", outliers, TARN_OUTLIERS_ERROR,
		       "what becomes of values out of bounds"),
	TARN_IN_CHOICE(T, totals, "totals", totals, TARN_TOTALS_MISSING,
		       "what becomes of rain over several days"),
	TARN_IN_WHOLE(T, hours, "hours", "-", 0, 1440, 0,
		      "rows a day; 0 where rows are days"),
	TARN_IN_CHOICE(T, stamps, "stamps", stamps, TARN_STAMPS_DEFAULT,
		       "of the interval that a row is of"),
	TARN_IN_WHOLE(T, hour_shift, "hour_shift", "h", -36, 36, 0,
		      "added to the hour"),
	TARN_IN_SWITCH(T, undated, "undated", 0,
		       "rows without a date are passed over"),
};
TARN_FIELDS(tarn_csv_map_fields, "", map_rows);
#undef T

/* ---- results ----------------------------------------------------------- */

#define T struct tarn_column_info
static const struct tarn_field info_rows[] = {
	TARN_OUT_STRING(T, name, "name", "of the column"),
	TARN_OUT_STRING(T, unit, "unit", "of its values"),
	TARN_OUT_STRING(T, meaning, "meaning", "in words"),
	TARN_OUT_NUMBER(T, lo, "lo", "-", "least that is accepted"),
	TARN_OUT_NUMBER(T, hi, "hi", "-", "most that is accepted"),
};
TARN_FIELDS(tarn_column_info_fields, "column", info_rows);
#undef T

#define T struct tarn_column_summary
static const struct tarn_field summary_rows[] = {
	TARN_OUT_COUNT(T, present, "present", "-", "days with a value"),
	TARN_OUT_COUNT(T, missing, "missing", "-", "days without one"),
	TARN_OUT_NUMBER(T, min, "min", "-", "least value"),
	TARN_OUT_NUMBER(T, mean, "mean", "-", "mean value"),
	TARN_OUT_NUMBER(T, max, "max", "-", "largest value"),
};
TARN_FIELDS(tarn_column_summary_fields, "summary", summary_rows);
#undef T
