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
