/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_weather.h"
#include "tarn/climate.h"

/* tarn.climates, tarn.climate: weather where none is at hand. */

/* climates() -> list of what climate.h says of each */
static int l_climates(lua_State *L)
{
	size_t count;
	const struct tarn_climate *all = tarn_climates(&count);

	bind_push_list(L, &tarn_climate_fields, all, count, sizeof *all);
	return 1;
}

static double whole(lua_State *L, const char *name, double lo, double hi,
		    double usual)
{
	double x = bind_field(L, 2, "climate", name, "-", lo, hi, usual);

	if (x != floor(x))
		bind_error(L, "climate.%s must be a whole number, got %f", name,
			   x);
	return x;
}

/* climate(name, {years =, seed =}) -> weather, drawn from its normals */
static int l_climate(lua_State *L)
{
	static const char *const known[] = { "years", "seed", NULL };
	const char *name = bind_string(L, 1, "name", NULL);
	const struct tarn_climate *c;
	struct tarn_error err = { 0 };
	double years, seed;

	lua_settop(L, 2);
	if (lua_isnil(L, 2)) {
		lua_newtable(L);
		lua_replace(L, 2);
	}
	luaL_checktype(L, 2, LUA_TTABLE);
	bind_known(L, 2, NULL, known);
	years = whole(L, "years", 1, TARN_CLIMATE_YEARS_MOST,
		      TARN_CLIMATE_YEARS);
	seed = whole(L, "seed", 0, 1e15, TARN_CLIMATE_SEED);
	c = tarn_climate_find(name, &err);
	if (!c)
		bind_fail(L, &err, NULL);
	BIND_DO(L, tarn_climate_weather, bind_new_weather(L), NULL, c,
		(int)years, (uint64_t)seed);
	return 1;
}

void bind_climate(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "climate", l_climate },
		{ "climates", l_climates },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
