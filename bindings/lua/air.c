/* SPDX-License-Identifier: MIT */
#include "bind_call.h"
#include "bind_weather.h"

/* tarn.air and tarn.sun: numbers in, a number out. */

#define TEMPERATURE { "temperature", "deg C", TARN_AIR_TEMP_MIN, \
		      TARN_AIR_TEMP_MAX }
#define VAPOUR { "vapour pressure", "kPa", 0.001, 20 }
#define ELEVATION { "elevation", "m", TARN_ELEVATION_MIN, TARN_ELEVATION_MAX }
#define LATITUDE { "latitude", "degrees", -90, 90 }
#define DAY_OF_YEAR { "day of the year", "-", 1, 366 }

static const struct bind_plain air[] = {
	{ "pressure", { .one = tarn_air_pressure }, "kPa", { ELEVATION } },
	{ "saturation", { .one = tarn_air_saturation }, "kPa",
	  { TEMPERATURE } },
	{ "slope", { .one = tarn_air_slope }, "kPa/C", { TEMPERATURE } },
	{ "psychrometric", { .one = tarn_air_psychrometric }, "kPa/C",
	  { { "pressure", "kPa", 40, 110 } } },
	{ "latent_heat", { .one = tarn_air_latent_heat }, "MJ/kg",
	  { TEMPERATURE } },
	{ "dewpoint", { .one = tarn_air_dewpoint }, "deg C", { VAPOUR } },
	{ "wet_bulb", { .two = tarn_air_wet_bulb }, "deg C",
	  { TEMPERATURE, VAPOUR } },
	{ "wind_at_2m", { .two = tarn_air_wind_at_2m }, "m/s",
	  { { "wind", "m/s", 0, TARN_WIND_MAX },
	    { "height", "m", TARN_WIND_HEIGHT_MIN, TARN_WIND_HEIGHT_MAX } } },
	{ .name = NULL }
};

static const struct bind_plain sun[] = {
	{ "inverse_distance", { .one = tarn_sun_inverse_distance }, "-",
	  { DAY_OF_YEAR } },
	{ "declination", { .one = tarn_sun_declination }, "rad",
	  { DAY_OF_YEAR } },
	{ "sunset_angle", { .two = tarn_sun_sunset_angle }, "rad",
	  { LATITUDE, DAY_OF_YEAR } },
	{ "top_of_atmosphere", { .two = tarn_sun_top_of_atmosphere },
	  "MJ m-2 d-1", { LATITUDE, DAY_OF_YEAR } },
	{ "daylight", { .two = tarn_sun_daylight }, "h",
	  { LATITUDE, DAY_OF_YEAR } },
	{ "seen", { .two = tarn_sun_seen }, "h", { LATITUDE, DAY_OF_YEAR } },
	{ "clear_sky", { .two = tarn_sun_clear_sky }, "MJ m-2 d-1",
	  { { "radiation above the air", "MJ m-2 d-1", 0, 60 }, ELEVATION } },
	{ .name = NULL }
};

void bind_air(lua_State *L)
{
	lua_newtable(L);
	bind_add_plain(L, air);
	lua_setfield(L, -2, "air");
	lua_newtable(L);
	bind_add_plain(L, sun);
	lua_setfield(L, -2, "sun");
}
