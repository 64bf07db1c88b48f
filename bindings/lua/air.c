/* SPDX-License-Identifier: MIT */
#include "bind_call.h"
#include "bind_weather.h"

/* tarn.air and tarn.sun: numbers in, a number out. */

#define TEMPERATURE BIND_NUMBER("temperature", "deg C", TARN_AIR_TEMP_MIN, \
				TARN_AIR_TEMP_MAX)
#define VAPOUR BIND_NUMBER("vapour pressure", "kPa", 0.001, 20)
#define ELEVATION BIND_NUMBER("elevation", "m", TARN_ELEVATION_MIN, \
			      TARN_ELEVATION_MAX)
#define LATITUDE BIND_NUMBER("latitude", "degrees", -90, 90)
#define DAY_OF_YEAR BIND_NUMBER("day of the year", "-", 1, 366)

static const struct bind_plain air[] = {
	BIND_PLAIN("pressure", one, tarn_air_pressure, "kPa", ELEVATION),
	BIND_PLAIN("saturation", one, tarn_air_saturation, "kPa", TEMPERATURE),
	BIND_PLAIN("slope", one, tarn_air_slope, "kPa/C", TEMPERATURE),
	BIND_PLAIN("psychrometric", one, tarn_air_psychrometric, "kPa/C",
		   BIND_NUMBER("pressure", "kPa", 40, 110)),
	BIND_PLAIN("latent_heat", one, tarn_air_latent_heat, "MJ/kg",
		   TEMPERATURE),
	BIND_PLAIN("dewpoint", one, tarn_air_dewpoint, "deg C", VAPOUR),
	BIND_PLAIN("wet_bulb", two, tarn_air_wet_bulb, "deg C", TEMPERATURE,
		   VAPOUR),
	BIND_PLAIN("wind_at_2m", two, tarn_air_wind_at_2m, "m/s",
		   BIND_NUMBER("wind", "m/s", 0, TARN_WIND_MAX),
		   BIND_NUMBER("height", "m", TARN_WIND_HEIGHT_MIN,
			       TARN_WIND_HEIGHT_MAX)),
	{ .name = NULL }
};

static const struct bind_plain sun[] = {
	BIND_PLAIN("inverse_distance", one, tarn_sun_inverse_distance, "-",
		   DAY_OF_YEAR),
	BIND_PLAIN("declination", one, tarn_sun_declination, "rad",
		   DAY_OF_YEAR),
	BIND_PLAIN("sunset_angle", two, tarn_sun_sunset_angle, "rad", LATITUDE,
		   DAY_OF_YEAR),
	BIND_PLAIN("top_of_atmosphere", two, tarn_sun_top_of_atmosphere,
		   "MJ m-2 d-1", LATITUDE, DAY_OF_YEAR),
	BIND_PLAIN("daylight", two, tarn_sun_daylight, "h", LATITUDE,
		   DAY_OF_YEAR),
	BIND_PLAIN("seen", two, tarn_sun_seen, "h", LATITUDE, DAY_OF_YEAR),
	BIND_PLAIN("clear_sky", two, tarn_sun_clear_sky, "MJ m-2 d-1",
		   BIND_NUMBER("radiation above the air", "MJ m-2 d-1", 0, 60),
		   ELEVATION),
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
