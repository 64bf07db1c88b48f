/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_flow.h"
#include "bind_pond.h"

/* ---- the take-off of a pond -------------------------------------------------- */

static void push_items(lua_State *L, const struct tarn_takeoff *t)
{
	static const char *const units[] = { "m3", "m2", "kg", "h" };

	lua_createtable(L, (int)t->count, 0);
	for (size_t i = 0; i < t->count; i++) {
		const struct tarn_item *item = &t->item[i];

		lua_newtable(L);
		bind_set_text(L, "name", item->name);
		bind_set_text(L, "unit", units[item->unit]);
		bind_set_text(L, "basis", item->basis);
		bind_set(L, "net", item->net);
		bind_set(L, "waste", item->waste);
		bind_set(L, "order", item->order);
		bind_set(L, "loads", item->loads);
		bind_set(L, "hours", item->hours);
		bind_set_int(L, "way", item->choice);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "items");
}

static void push_pair(lua_State *L, const char *name, const double pair[2])
{
	lua_createtable(L, 2, 0);
	for (int i = 0; i < 2; i++) {
		lua_pushnumber(L, pair[i]);
		lua_rawseti(L, -2, i + 1);
	}
	lua_setfield(L, -2, name);
}

static void push_takeoff(lua_State *L, const struct tarn_takeoff *t)
{
	static const char *const ways[] = { "layers", "light", "heavy" };

	lua_newtable(L);
	bind_set(L, "dig", t->dig_m3);
	bind_set(L, "loose", t->loose_m3);
	bind_set(L, "berm_bank", t->berm_bank_m3);
	bind_set(L, "spoil", t->spoil_m3);
	bind_set(L, "swell", t->swell);
	bind_set(L, "floor", t->floor_m2);
	bind_set(L, "shelves", t->shelves_m2);
	bind_set(L, "walls", t->walls_m2);
	bind_set(L, "liner", t->liner_m2);
	bind_set(L, "sheet_length", t->sheet_length_m);
	bind_set(L, "sheet_width", t->sheet_width_m);
	bind_set(L, "sheet", t->sheet_m2);
	bind_set(L, "rule_length", t->rule_length_m);
	bind_set(L, "rule_width", t->rule_width_m);
	bind_set(L, "rule", t->rule_m2);
	bind_set(L, "stone", t->stone_kg);
	bind_set(L, "gravel", t->gravel_kg);
	bind_set(L, "bed_gravel", t->bed_gravel_kg);
	push_pair(L, "rule_stone", t->rule_stone_kg);
	push_pair(L, "rule_gravel", t->rule_gravel_kg);
	push_pair(L, "stream_stone", t->stream_stone_kg);
	push_pair(L, "stream_gravel", t->stream_gravel_kg);
	bind_set(L, "displaced", t->displaced_m3);
	bind_set_text(L, "displaced_by", ways[t->displaced_by]);
	bind_set(L, "water", t->water_m3);
	bind_set(L, "hours", t->hours);
	push_items(L, t);
}

/* pond:takeoff() -> quantities */
int bind_pond_takeoff(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	const struct tarn_shelved *shape;
	struct tarn_takeoff t;
	struct tarn_error err = { 0 };

	lua_getiuservalue(L, 1, 1);
	shape = bind_basin_shape(L, -1);
	if (tarn_takeoff_solve(&box->build, &box->pond, shape, &t, &err) !=
	    TARN_OK)
		bind_fail(L, &err, NULL);
	push_takeoff(L, &t);
	return 1;
}

/* pond:profile() -> stations from the edge down: { level =, length =, ... } */
int bind_pond_profile(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_station at[TARN_STATIONS_MAX];
	struct tarn_error err = { 0 };
	size_t count;

	lua_getiuservalue(L, 1, 1);
	if (tarn_takeoff_profile(&box->build, &box->pond,
				 bind_basin_shape(L, -1), at, &count, &err) !=
	    TARN_OK)
		bind_fail(L, &err, NULL);
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_newtable(L);
		bind_set(L, "level", at[i].level_m);
		bind_set(L, "length", at[i].length_m);
		bind_set(L, "width", at[i].width_m);
		bind_set(L, "area", at[i].area_m2);
		bind_set(L, "perimeter", at[i].perimeter_m);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
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
	return bind_pond_takeoff(L);
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
	double *areas;
	size_t count;

	lua_pushvalue(L, 1);
	lua_newtable(L);
	lua_insert(L, -2);
	lua_setfield(L, -2, "areas");
	areas = flow_numbers(L, lua_gettop(L), "simpson", "areas", &count,
			     lua_gettop(L));
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
	size_t count;
	const struct tarn_soil *soils = tarn_soils(&count);

	luaL_newlib(L, functions);
	lua_createtable(L, 0, (int)count);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 3);
		bind_set(L, "swell", soils[i].swell);
		bind_set_text(L, "source", soils[i].source);
		bind_set_text(L, "evidence",
			      tarn_evidence_text(soils[i].evidence));
		lua_setfield(L, -2, soils[i].name);
	}
	lua_setfield(L, -2, "soils");
	lua_createtable(L, 0, 1);
	lua_pushcfunction(L, l_takeoff);
	lua_setfield(L, -2, "__call");
	lua_setmetatable(L, -2);
	lua_setfield(L, -2, "takeoff");
}
