/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bind_call.h"
#include "bind_pond.h"

struct pond_box *bind_check_pond(lua_State *L, int arg)
{
	struct pond_box *box = luaL_testudata(L, arg, POND_T);

	if (!box)
		bind_error(L, "pond must come from tarn.pond, got %s",
			   luaL_typename(L, arg));
	return box;
}

static int l_free(lua_State *L)
{
	struct pond_box *box = luaL_checkudata(L, 1, POND_T);

	tarn_design_free(box->given);
	tarn_resolved_free(&box->made);
	box->given = NULL;
	return 0;
}

/* The basin made becomes user value 1 of the pond on top. */
static void own_basin(lua_State *L, struct pond_box *box)
{
	bind_push_basin(L, &box->made.basin, &box->given->basin);
	lua_setiuservalue(L, -2, 1);
}

/* pond{...} -> pond */
static int l_pond(lua_State *L)
{
	struct pond_box *box;
	struct tarn_error err = { 0 };
	struct tarn_values *values;

	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 1);
	box = lua_newuserdatauv(L, sizeof *box, 2);
	memset(box, 0, sizeof *box);
	luaL_setmetatable(L, POND_T);
	lua_pushvalue(L, 1);
	lua_setiuservalue(L, 2, 2);
	values = bind_new_values(L);
	bind_must(L, tarn_design_read(&box->given, NULL,
				      bind_value(L, 1, values), &err), &err);
	bind_free_values(L);
	if (box->given->bare.units)
		bind_settle_units(L, 1, box->given, "");
	bind_must(L, tarn_design_resolve(box->given, &box->made, &err), &err);
	own_basin(L, box);
	return 1;
}

/* ---- methods ------------------------------------------------------------ */

static int l_basin(lua_State *L)
{
	bind_check_pond(L, 1);
	lua_getiuservalue(L, 1, 1);
	return 1;
}

static int l_description(lua_State *L)
{
	bind_check_pond(L, 1);
	lua_getiuservalue(L, 1, 2);
	return 1;
}

/* pond:bare() -> list: numbers without a unit beside numbers with one, and how
 * many there are, which may be more */
static int l_bare(lua_State *L)
{
	const struct tarn_bare_list *list = &bind_check_pond(L, 1)->given->bare;

	lua_newtable(L);
	for (int i = 0; i < list->count && i < TARN_BARE_MAX; i++) {
		bind_push(L, &tarn_bare_fields, &list->bare[i]);
		lua_rawseti(L, -2, i + 1);
	}
	lua_pushinteger(L, list->count);
	return 2;
}

/* pond:facts() -> table: levels, areas and volumes that follow */
static int l_facts(lua_State *L)
{
	const struct tarn_pond *p = &bind_check_pond(L, 1)->made.pond;
	struct tarn_pond_facts f;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_pond_facts(p, &f, &err), &err);
	lua_newtable(L);
	bind_set_rows(L, &tarn_pond_facts_fields, &f);
	bind_set(L, "overflow_level", p->overflow_level_m);
	bind_set(L, "trigger", p->trigger_m);
	bind_set(L, "target", p->target_m);
	bind_set(L, "intake", p->intake_m);
	bind_set(L, "splash", p->splash_m3s);
	bind_set(L, "bed_area", p->bed.area_m2);
	bind_set(L, "stream_factor", p->stream.factor);
	return 1;
}

/* pond:place() -> the words of section site, every one, 'shelter' and 'shade'
 * as the weather is run with, '..._given' where they are numbers of the
 * description's */
static int l_place(lua_State *L)
{
	const struct tarn_resolved *made = &bind_check_pond(L, 1)->made;

	bind_push(L, &tarn_exposure_fields, &made->place.site);
	bind_set(L, "shelter", made->evaporation.shelter);
	bind_set(L, "shade", made->evaporation.shade);
	bind_set(L, "shelter_given", made->place.shelter);
	bind_set(L, "shade_given", made->place.shade);
	return 1;
}

/* pond:swing(level) -> { stopped =, spill =, started = } */
static int l_swing(lua_State *L)
{
	const struct tarn_pond *p = &bind_check_pond(L, 1)->made.pond;
	double level_m = bind_number(L, 2, "level [m]",
				     tarn_basin_floor(p->basin),
					     p->overflow_level_m);
	struct tarn_pump_swing s;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_pond_swing(p, level_m, &s, &err), &err);
	bind_push(L, &tarn_pump_swing_fields, &s);
	return 1;
}

static int l_tostring(lua_State *L)
{
	const struct tarn_pond *p = &bind_check_pond(L, 1)->made.pond;
	char text[160];

	snprintf(text, sizeof text,
		 "pond: overflow at %.4g m, %.4g m2 and %.4g m3 "
		 "there, bed %.3g m2", p->overflow_level_m,
		 tarn_basin_area(p->basin, p->overflow_level_m),
		 tarn_basin_volume(p->basin, p->overflow_level_m),
			 p->bed.area_m2);
	lua_pushstring(L, text);
	return 1;
}

/* pond:old_names() -> list of {path =, name =}: fields given by a name of the
 * version before, and what they are called now */
static int l_old_names(lua_State *L)
{
	const struct tarn_design *d = bind_check_pond(L, 1)->given;

	lua_createtable(L, d->old_names, 0);
	for (int i = 0; i < d->old_names; i++) {
		bind_push(L, &tarn_old_name_fields, &d->old_name[i]);
		lua_rawseti(L, -2, i + 1);
	}
	return 1;
}

/* path_now("bed.head") -> "bed.lip_head"; nil where it has its name of now */
static int l_path_now(lua_State *L)
{
	char now[96];

	if (!tarn_fields_path_now(&tarn_design_fields, luaL_checkstring(L, 1),
				  now, sizeof now))
		return 0;
	lua_pushstring(L, now);
	return 1;
}

/* pond_fields() -> list of the sections of a description, each a list of the
 * rows of its numbers, and .beside: its other fields */
static int l_pond_fields(lua_State *L)
{
	bind_push_tree(L, &tarn_design_fields);
	return 1;
}

void bind_pond(lua_State *L)
{
	static const struct bind_plain plain[] = {
		BIND_PLAIN("runoff", two, tarn_runoff, "mm",
			   BIND_NUMBER("rain", "mm", 0, 5000),
			   BIND_NUMBER("curve number", "-", 1, 100)),
		{ .name = NULL }
	};
	static const luaL_Reg methods[] = {
		{ "basin", l_basin },
		{ "description", l_description },
		{ "bare", l_bare },
		{ "facts", l_facts },
		{ "place", l_place },
		{ "old_names", l_old_names },
		{ "swing", l_swing },
		{ "__tostring", l_tostring },
		{ "__gc", l_free },
		{ NULL, NULL }
	};

	bind_basin(L);
	bind_methods(L, POND_T, methods);
	lua_pushcfunction(L, l_pond);
	lua_setfield(L, -2, "pond");
	bind_add_plain(L, plain);
	lua_pushcfunction(L, l_pond_fields);
	lua_setfield(L, -2, "pond_fields");
	lua_pushcfunction(L, l_path_now);
	lua_setfield(L, -2, "path_now");
}
