/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "day.h"

#define ROW(name, member, lo, hi, required, unit, meaning) \
	{ name, TARN_FIELD_NUMBER, \
	  offsetof(struct tarn_evaporation_options, member), lo, hi, \
	  required, unit, NULL, meaning }

static const struct tarn_field rows[] = {
	{ "method", TARN_FIELD_CHOICE,
	  offsetof(struct tarn_evaporation_options, method), 0,
	  TARN_METHODS - 1, 1, "-", tarn_method_names,
	  "how evaporation is found" },
	{ "coastal", TARN_FIELD_SWITCH,
	  offsetof(struct tarn_evaporation_options, coastal), 0, 1, 1, "-",
	  NULL, "sea near by: more sun for a range of temperature" },
	ROW("albedo", albedo, 0, 1, 1, "-",
	    "part of the sun that the water throws back"),
	ROW("shelter", shelter, 0, 2, 1, "-",
	    "wind at the pond / wind in the open, 1 = open"),
	ROW("shade", shade, 0, 1, 1, "-",
	    "sun at the pond / sun in the open, 1 = full sun"),
	ROW("pan_coefficient", pan_coefficient, 0.3, 1.2, 1, "-",
	    "pond / Class A pan"),
	ROW("water_over_grass", water_over_grass, 0.3, 2, 1, "-",
	    "open water / grass reference"),
	ROW("priestley_taylor", priestley_taylor, 0.8, 2, 1, "-",
	    "factor of Priestley and Taylor"),
	ROW("dryness", dryness_c, 0, 10, 1, "C",
	    "dew point below tmin where humidity is not given"),
	ROW("default_wind", default_wind_ms, 0, 20, 1, "m/s",
	    "wind at 2 m where it is not given"),
	ROW("area", area_m2, 0.1, 1e9, 0, "m2", "water surface"),
	ROW("depth", depth_m, 0.01, 100, 0, "m",
	    "mean depth, volume / surface"),
	ROW("start_water", start_water_c, 0, 60, 0, "deg C",
	    "water temperature at the start"),
	ROW("latitude", latitude_deg, -90, 90, 0, "degrees",
	    "latitude, north positive; else the weather's"),
	ROW("elevation", elevation_m, TARN_ELEVATION_MIN, TARN_ELEVATION_MAX,
	    0, "m", "elevation above the sea; else the weather's"),
	ROW("wind_height", wind_height_m, TARN_WIND_HEIGHT_MIN,
	    TARN_WIND_HEIGHT_MAX, 0, "m",
	    "height of the wind gauge; else the weather's"),
};

const struct tarn_fields tarn_evaporation_fields = {
	"evaporation", rows, sizeof rows / sizeof rows[0]
};

struct tarn_evaporation_options tarn_evaporation_options_default(void)
{
	struct tarn_evaporation_options o = {
		.method = TARN_METHOD_AUTO,
		.albedo = TARN_ALBEDO_WATER,
		.shelter = 1,
		.shade = 1,
		.pan_coefficient = TARN_PAN_TO_POND,
		.water_over_grass = TARN_WATER_OVER_GRASS,
		.priestley_taylor = 1.26,
		.default_wind_ms = 2,
		.area_m2 = TARN_NAN,
		.depth_m = TARN_NAN,
		.start_water_c = TARN_NAN,
		.latitude_deg = TARN_NAN,
		.elevation_m = TARN_NAN,
		.wind_height_m = TARN_NAN,
	};

	return o;
}
