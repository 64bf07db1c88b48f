/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define T struct tarn_evaporation_options
static const struct tarn_field rows[] = {
	TARN_IN_CHOICE(T, method, "method", tn_method_names, TARN_METHOD_AUTO,
		       "how evaporation is found"),
	TARN_IN_SWITCH(T, coastal, "coastal", 0,
		       "sea near by: more sun for a range of temperature"),
	TARN_IN_VALUE(T, albedo, "albedo", "-", 0, 1, TARN_ALBEDO_WATER,
		      "part of the sun that the water throws back"),
	TARN_IN_NUMBER(T, shelter, "shelter", "-", 0, 2, TARN_NAN,
		       "wind at the pond / wind in the open, 1 = open; else "
		       "by site.wind"),
	TARN_IN_NUMBER(T, shade, "shade", "-", 0, 1, TARN_NAN,
		       "sun at the pond / sun in the open, 1 = full sun; else "
		       "by site.sun"),
	TARN_IN_VALUE(T, pan_coefficient, "pan_coefficient", "-", 0.3, 1.2,
		      TARN_PAN_TO_POND, "pond / Class A pan"),
	TARN_IN_VALUE(T, water_over_grass, "water_over_grass", "-", 0.3, 2,
		      TARN_WATER_OVER_GRASS, "open water / grass reference"),
	TARN_IN_VALUE(T, priestley_taylor, "priestley_taylor", "-", 0.8, 2,
		      1.26, "factor of Priestley and Taylor"),
	TARN_IN_VALUE(T, dryness_c, "dryness", "C", 0, 10, 0,
		      "dew point below tmin where humidity is not given"),
	TARN_IN_VALUE(T, default_wind_ms, "default_wind", "m/s", 0, 20, 2,
		      "wind at 2 m where it is not given"),
	TARN_IN_NUMBER(T, area_m2, "area", "m2", 0.1, 1e9, TARN_NAN,
		       "water surface"),
	TARN_IN_NUMBER(T, depth_m, "depth", "m", 0.01, 100, TARN_NAN,
		       "mean depth, volume / surface"),
	TARN_IN_NUMBER(T, start_water_c, "start_water", "deg C", 0, 60,
		       TARN_NAN, "water temperature at the start"),
	TARN_IN_NUMBER(T, latitude_deg, "latitude", "degrees", -90, 90,
		       TARN_NAN,
		       "latitude, north positive; else the weather's"),
	TARN_IN_NUMBER(T, elevation_m, "elevation", "m", TARN_ELEVATION_MIN,
		       TARN_ELEVATION_MAX, TARN_NAN,
		       "elevation above the sea; else the weather's"),
	TARN_IN_NUMBER(T, wind_height_m, "wind_height", "m",
		       TARN_WIND_HEIGHT_MIN, TARN_WIND_HEIGHT_MAX, TARN_NAN,
		       "height of the wind gauge; else the weather's"),
};
TARN_FIELDS(tarn_evaporation_fields, "evaporation", rows);
#undef T
TARN_DEFAULT(struct tarn_evaporation_options, tarn_evaporation_options_default,
	     tarn_evaporation_fields)
