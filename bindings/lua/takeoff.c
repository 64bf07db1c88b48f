/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_call.h"
#include "bind_pond.h"

/* ---- the take-off of a pond -------------------------------------------------- */

/* pond:takeoff() -> quantities */
static int l_pond_takeoff(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	const struct tarn_shelved *shape;
	struct tarn_takeoff_bed bed = tarn_design_takeoff_bed(box->given);
	struct tarn_takeoff t;
	struct tarn_error err = { 0 };

	lua_getiuservalue(L, 1, 1);
	shape = bind_basin_shape(L, -1);
	bind_must(L, tarn_takeoff_solve(&box->given->build, &box->made.pond,
					shape, &bed, &t, &err), &err);
	bind_push(L, &tarn_takeoff_fields, &t);
	bind_push_list(L, &tarn_item_fields, t.item, t.count, sizeof t.item[0]);
	lua_setfield(L, -2, "items");
	bind_push_list(L, &tarn_total_fields, t.total, TARN_TOTALS,
		       sizeof t.total[0]);
	lua_setfield(L, -2, "totals");
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
	bind_must(L, tarn_takeoff_profile(&box->given->build, &box->made.pond,
					  bind_basin_shape(L, -1), at, &count,
					  &err), &err);
	bind_push_list(L, &tarn_station_fields, at, count, sizeof at[0]);
	return 1;
}

/* ---- formulas ------------------------------------------------------------------ */

#define POSITIVE(name, unit) BIND_NUMBER(name, unit, 0, 1e12)
static const struct bind_plain plain[] = {
	BIND_PLAIN("loose", two, tarn_loose_m3, "m3", POSITIVE("bank", "m3"),
		   BIND_NUMBER("swell", "-", 0, 2)),
	BIND_PLAIN("loads", two, tarn_loads, "-", POSITIVE("amount", ""),
		   BIND_NUMBER("load", "", 1e-9, 1e12)),
	BIND_PLAIN("prismoid", four, tarn_prismoid_m3, "m3",
		   POSITIVE("area", "m2"), POSITIVE("area", "m2"),
		   POSITIVE("area", "m2"), POSITIVE("length", "m")),
	BIND_PLAIN("shoreline_area", one, tarn_shoreline_area_m2, "m2",
		   POSITIVE("shoreline", "m")),
	{ .name = NULL }
};

/* simpson({areas}, spacing) */
static int l_simpson(lua_State *L)
{
	double spacing = bind_number(L, 2, "spacing [m]", 0, 1e12), volume;
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
		{ "simpson", l_simpson },
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
	bind_add_plain(L, plain);
	bind_push_named(L, &tarn_soil_fields, soils, count, sizeof *soils);
	lua_setfield(L, -2, "soils");
	lua_setfield(L, -2, "takeoff");
}
