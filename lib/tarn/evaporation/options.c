/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "day.h"

#define ROW(name, member, lo, hi, required, other, unit, meaning) \
	{ name, TARN_FIELD_NUMBER, \
	  offsetof(struct tarn_evaporation_options, member), lo, hi, \
	  required, unit, NULL, meaning, other }

static const struct tarn_field rows[] = {
	{ "method", TARN_FIELD_CHOICE,
	  offsetof(struct tarn_evaporation_options, method), 0,
	  TARN_METHODS - 1, 1, "-", tarn_method_names,
	  "how evaporation is found" },
	{ "coastal", TARN_FIELD_SWITCH,
	  offsetof(struct tarn_evaporation_options, coastal), 0, 1, 1, "-",
	  NULL, "sea near by: more sun for a range of temperature" },
	ROW("albedo", albedo, 0, 1, 1, TARN_ALBEDO_WATER, "-",
	    "part of the sun that the water throws back"),
	ROW("shelter", shelter, 0, 2, 1, 1, "-",
	    "wind at the pond / wind in the open, 1 = open"),
	ROW("shade", shade, 0, 1, 1, 1, "-",
	    "sun at the pond / sun in the open, 1 = full sun"),
	ROW("pan_coefficient", pan_coefficient, 0.3, 1.2, 1,
	    TARN_PAN_TO_POND, "-", "pond / Class A pan"),
	ROW("water_over_grass", water_over_grass, 0.3, 2, 1,
	    TARN_WATER_OVER_GRASS, "-", "open water / grass reference"),
	ROW("priestley_taylor", priestley_taylor, 0.8, 2, 1, 1.26, "-",
	    "factor of Priestley and Taylor"),
	ROW("dryness", dryness_c, 0, 10, 1, 0, "C",
	    "dew point below tmin where humidity is not given"),
	ROW("default_wind", default_wind_ms, 0, 20, 1, 2, "m/s",
	    "wind at 2 m where it is not given"),
	ROW("area", area_m2, 0.1, 1e9, 0, TARN_NAN, "m2", "water surface"),
	ROW("depth", depth_m, 0.01, 100, 0, TARN_NAN, "m",
	    "mean depth, volume / surface"),
	ROW("start_water", start_water_c, 0, 60, 0, TARN_NAN, "deg C",
	    "water temperature at the start"),
	ROW("latitude", latitude_deg, -90, 90, 0, TARN_NAN, "degrees",
	    "latitude, north positive; else the weather's"),
	ROW("elevation", elevation_m, TARN_ELEVATION_MIN, TARN_ELEVATION_MAX,
	    0, TARN_NAN, "m", "elevation above the sea; else the weather's"),
	ROW("wind_height", wind_height_m, TARN_WIND_HEIGHT_MIN,
	    TARN_WIND_HEIGHT_MAX, 0, TARN_NAN, "m",
	    "height of the wind gauge; else the weather's"),
};

const struct tarn_fields tarn_evaporation_fields = {
	"evaporation", rows, sizeof rows / sizeof rows[0]
};

struct tarn_evaporation_options tarn_evaporation_options_default(void)
{
	struct tarn_evaporation_options o;

	tarn_fields_default(&tarn_evaporation_fields, &o);
	return o;
}
