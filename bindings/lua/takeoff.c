/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_pond.h"

/* ---- the take-off of a pond -------------------------------------------------- */

/* pond:takeoff() -> quantities */
static int l_pond_takeoff(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	const struct tarn_shelved *shape;
	struct tarn_takeoff t;
	struct tarn_error err = { 0 };

	lua_getiuservalue(L, 1, 1);
	shape = bind_basin_shape(L, -1);
	bind_must(L, tarn_takeoff_solve(&box->build, &box->pond, shape, &t,
					&err), &err);
	bind_push(L, &tarn_takeoff_fields, &t);
	bind_push_list(L, &tarn_item_fields, t.item, t.count, sizeof t.item[0]);
	lua_setfield(L, -2, "items");
	return 1;
}

/* pond:profile() -> stations from the edge down: { level =, length =, ... } */
static int l_profile(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_station at[TARN_STATIONS_MAX];
	struct tarn_error err = { 0 };
	size_t count;

	lua_getiuservalue(L, 1, 1);
	bind_must(L, tarn_takeoff_profile(&box->build, &box->pond,
					  bind_basin_shape(L, -1), at, &count,
					  &err), &err);
	bind_push_list(L, &tarn_station_fields, at, count, sizeof at[0]);
	return 1;
}

/* takeoff(pond) or takeoff{pond = pond} */
static int l_takeoff(lua_State *L)
{
	static const char *const known[] = { "pond", NULL };

	lua_remove(L, 1);	/* the table that was called */
	if (lua_istable(L, 1)) {
		bind_known(L, 1, NULL, known);
		lua_getfield(L, 1, "pond");
		lua_replace(L, 1);
	}
	return l_pond_takeoff(L);
}

/* ---- formulas ------------------------------------------------------------------ */

static double positive(lua_State *L, int arg, const char *what)
{
	return bind_number(L, arg, what, 0, 1e12);
}

/* loose(bank, swell) */
static int l_loose(lua_State *L)
{
	lua_pushnumber(L, tarn_loose_m3(positive(L, 1, "bank [m3]"),
					bind_number(L, 2, "swell", 0, 2)));
	return 1;
}

/* loads(amount, load) */
static int l_loads(lua_State *L)
{
	lua_pushnumber(L, tarn_loads(positive(L, 1, "amount"),
				     bind_number(L, 2, "load", 1e-9, 1e12)));
	return 1;
}

/* prismoid(a, middle, b, length) */
static int l_prismoid(lua_State *L)
{
	lua_pushnumber(L, tarn_prismoid_m3(positive(L, 1, "area [m2]"),
					   positive(L, 2, "area [m2]"),
					   positive(L, 3, "area [m2]"),
					   positive(L, 4, "length [m]")));
	return 1;
}

/* shoreline_area(length) */
static int l_shoreline(lua_State *L)
{
	lua_pushnumber(L, tarn_shoreline_area_m2(
				  positive(L, 1, "shoreline [m]")));
	return 1;
}

/* simpson({areas}, spacing) */
static int l_simpson(lua_State *L)
{
	double spacing = positive(L, 2, "spacing [m]"), volume;
	size_t count;
	const double *areas = bind_doubles(L, 1, "areas", &count);

	volume = tarn_simpson_m3(areas, count, spacing);
	if (isnan(volume))
		bind_error(L, "simpson needs an odd number of areas, three or "
			   "more, none negative");
	lua_pushnumber(L, volume);
	return 1;
}

void bind_takeoff(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "loose", l_loose },
		{ "loads", l_loads },
		{ "prismoid", l_prismoid },
		{ "simpson", l_simpson },
		{ "shoreline_area", l_shoreline },
		{ NULL, NULL }
	};
	static const luaL_Reg methods[] = {
		{ "takeoff", l_pond_takeoff }, { "profile", l_profile },
		{ NULL, NULL }
	};
	size_t count;
	const struct tarn_soil *soils = tarn_soils(&count);

	bind_methods(L, POND_T, methods);
	luaL_newlib(L, functions);
	bind_push_named(L, &tarn_soil_fields, soils, count, sizeof *soils);
	lua_setfield(L, -2, "soils");
	lua_createtable(L, 0, 1);
	lua_pushcfunction(L, l_takeoff);
	lua_setfield(L, -2, "__call");
	lua_setmetatable(L, -2);
	lua_setfield(L, -2, "takeoff");
}
