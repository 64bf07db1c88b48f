/* SPDX-License-Identifier: MIT */
#include "internal.h"

/* The rows of results. */

#define T struct tarn_conditions
static const struct tarn_field conditions_rows[] = {
	TARN_OUT_NUMBER(T, tmean_c, "tmean", "deg C", "of the air"),
	TARN_OUT_NUMBER(T, saturation_kpa, "saturation", "kPa",
			"mean of those at tmin and tmax"),
	TARN_OUT_NUMBER(T, vapour_kpa, "vapour", "kPa", "of the air"),
	TARN_OUT_NUMBER(T, slope_kpa_c, "slope", "kPa/C",
			"of the saturation curve"),
	TARN_OUT_NUMBER(T, psychrometric_kpa_c, "psychrometric", "kPa/C",
			"psychrometric constant"),
	TARN_OUT_NUMBER(T, wind_2m_ms, "wind_2m", "m/s", "at 2 m"),
	TARN_OUT_NUMBER(T, top_mj, "top", "MJ m-2 d-1",
			"radiation above the air"),
	TARN_OUT_NUMBER(T, clear_mj, "clear", "MJ m-2 d-1",
			"of a cloudless day"),
	TARN_OUT_NUMBER(T, solar_mj, "solar", "MJ m-2 d-1",
			"that reached the ground"),
	TARN_OUT_NUMBER(T, longwave_mj, "longwave", "MJ m-2 d-1",
			"net loss to the sky"),
};
TARN_FIELDS(tarn_conditions_fields, "conditions", conditions_rows);
#undef T

#define T struct tarn_plant
static const struct tarn_field plant_rows[] = {
	TARN_OUT_STRING(T, name, "name", "of the plant"),
	TARN_OUT_NUMBER(T, start, "start", "-", "factor early in the season"),
	TARN_OUT_NUMBER(T, mid, "mid", "-", "factor in full season"),
	TARN_OUT_NUMBER(T, end, "end", "-", "factor late in the season"),
	TARN_OUT_NUMBER(T, height_m, "height", "m", "of the grown stand"),
	TARN_OUT_STRING(T, meaning, "meaning", "in words"),
};
TARN_FIELDS(tarn_plant_fields, "plant", plant_rows);
#undef T

#define T struct tarn_origin_info
static const struct tarn_field origin_rows[] = {
	TARN_OUT_STRING(T, name, "name", "of the origin"),
	TARN_OUT_STRING(T, title, "title", "one line for reports"),
	TARN_OUT_SWITCH(T, estimate, "estimate",
			"it is in place of something not measured"),
};
TARN_FIELDS(tarn_origin_info_fields, "origin", origin_rows);
#undef T

#define T struct tarn_evaporation_report
static const struct tarn_field report_rows[] = {
	TARN_OUT_CHOICE(T, method, "method", tn_method_names,
			"that was used"),
	TARN_OUT_COUNT(T, days, "days", "-", "of the run"),
	TARN_OUT_NUMBER(T, dew_mm, "dew_mm", "mm", "set to zero"),
	TARN_OUT_NUMBER(T, centre, "centre", "-",
			"what the method's open water is multiplied by"),
	TARN_OUT_NUMBER(T, grass_centre, "grass_centre", "-",
			"what its grass reference is multiplied by"),
};
TARN_FIELDS(tarn_evaporation_report_fields, "report", report_rows);
#undef T
