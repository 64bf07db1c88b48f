/* SPDX-License-Identifier: MIT */
#include <stdint.h>

#include "bind_weather.h"

/* tarn.air and tarn.sun: numbers in, a number out. */

/* An argument of a formula: what it is called, and its range. */
struct argument {
	const char *what;
	double lo, hi;
};

#define TEMPERATURE { "temperature [deg C]", TARN_AIR_TEMP_MIN, \
		      TARN_AIR_TEMP_MAX }
#define VAPOUR { "vapour pressure [kPa]", 0.001, 20 }
#define ELEVATION { "elevation [m]", TARN_ELEVATION_MIN, TARN_ELEVATION_MAX }
#define LATITUDE { "latitude [degrees]", -90, 90 }
#define DAY_OF_YEAR { "day of the year", 1, 366 }

struct formula {
	const char *name;
	double (*one)(double);
	double (*two)(double, double);
	struct argument arguments[2];
};

static const struct formula air[] = {
	{ "pressure", tarn_air_pressure, NULL, { ELEVATION } },
	{ "saturation", tarn_air_saturation, NULL, { TEMPERATURE } },
	{ "slope", tarn_air_slope, NULL, { TEMPERATURE } },
	{ "psychrometric", tarn_air_psychrometric, NULL,
	  { { "pressure [kPa]", 40, 110 } } },
	{ "latent_heat", tarn_air_latent_heat, NULL, { TEMPERATURE } },
	{ "dewpoint", tarn_air_dewpoint, NULL, { VAPOUR } },
	{ "wet_bulb", NULL, tarn_air_wet_bulb, { TEMPERATURE, VAPOUR } },
	{ "wind_at_2m", NULL, tarn_air_wind_at_2m,
	  { { "wind [m/s]", 0, TARN_WIND_MAX },
	    { "height [m]", TARN_WIND_HEIGHT_MIN, TARN_WIND_HEIGHT_MAX } } },
	{ NULL, NULL, NULL, { { NULL, 0, 0 } } }
};

static const struct formula sun[] = {
	{ "inverse_distance", tarn_sun_inverse_distance, NULL,
	  { DAY_OF_YEAR } },
	{ "declination", tarn_sun_declination, NULL, { DAY_OF_YEAR } },
	{ "sunset_angle", NULL, tarn_sun_sunset_angle,
	  { LATITUDE, DAY_OF_YEAR } },
	{ "top_of_atmosphere", NULL, tarn_sun_top_of_atmosphere,
	  { LATITUDE, DAY_OF_YEAR } },
	{ "daylight", NULL, tarn_sun_daylight, { LATITUDE, DAY_OF_YEAR } },
	{ "clear_sky", NULL, tarn_sun_clear_sky,
	  { { "radiation above the air [MJ m-2 d-1]", 0, 60 }, ELEVATION } },
	{ NULL, NULL, NULL, { { NULL, 0, 0 } } }
};

static double argument(lua_State *L, int arg, const struct argument *a)
{
	return bind_number(L, arg, a->what, a->lo, a->hi);
}

static int l_formula(lua_State *L)
{
	const struct formula *f = lua_touserdata(L, lua_upvalueindex(1));
	double x = argument(L, 1, &f->arguments[0]);

	lua_pushnumber(L, f->one ? f->one(x)
				 : f->two(x, argument(L, 2,
						      &f->arguments[1])));
	return 1;
}

/* Leaves a table of the formulas on the stack. */
static void push_formulas(lua_State *L, const struct formula *f)
{
	lua_newtable(L);
	for (; f->name; f++) {
		lua_pushlightuserdata(L, (void *)(uintptr_t)f);
		lua_pushcclosure(L, l_formula, 1);
		lua_setfield(L, -2, f->name);
	}
}

void bind_air(lua_State *L)
{
	push_formulas(L, air);
	lua_setfield(L, -2, "air");
	push_formulas(L, sun);
	lua_setfield(L, -2, "sun");
}
