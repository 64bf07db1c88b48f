/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bind_pond.h"

struct basin_box {
	struct tarn_basin *basin;
	struct tarn_shelved shape;
	int has_shape;
};

const struct tarn_basin *bind_check_basin(lua_State *L, int arg)
{
	struct basin_box *box = luaL_testudata(L, arg, BASIN_T);

	if (!box)
		bind_error(L, "basin expected (tarn.basin.table, .shelved or "
			   ".contours), got %s", luaL_typename(L, arg));
	return box->basin;
}

const struct tarn_shelved *bind_basin_shape(lua_State *L, int arg)
{
	struct basin_box *box = luaL_checkudata(L, arg, BASIN_T);

	return box->has_shape ? &box->shape : NULL;
}

/* The box has its __gc before the library allocates, so that an error raised
 * from here on cannot leak. */
static struct basin_box *new_box(lua_State *L)
{
	struct basin_box *box = lua_newuserdatauv(L, sizeof *box, 1);

	box->basin = NULL;
	box->has_shape = 0;
	luaL_setmetatable(L, BASIN_T);
	return box;
}

BIND_FREE(basin, BASIN_T)

/* Pushes the basin that the table on top describes; the table is its user
 * value, for descriptions that use the basin. */
static int make(lua_State *L)
{
	struct basin_box *box = new_box(L);
	struct tarn_basin_wish wish = { .rows = 0 };
	struct tarn_error err = { 0 };
	struct tarn_values *values;
	enum tarn_status status;

	lua_insert(L, -2);
	lua_pushvalue(L, -1);
	lua_setiuservalue(L, -3, 1);
	values = bind_new_values(L);
	tarn_fields_default(&tarn_basin_wish_fields, &wish);
	status = tarn_fields_read(&tarn_basin_wish_fields, &wish, "basin",
				  bind_value(L, -2, values), NULL, &err);
	if (status == TARN_OK)
		status = tarn_basin_wished(&wish, NULL, &box->basin, &err);
	box->shape = wish.shape;
	box->has_shape = wish.rows == 0 && wish.contours == 0;
	tarn_fields_release(&tarn_basin_wish_fields, &wish, NULL);
	bind_must(L, status, &err);
	bind_free_values(L);
	lua_pop(L, 1);
	return 1;
}

/* The list at 1 as field 'name' of a description. */
static int make_of(lua_State *L, const char *name)
{
	luaL_checkany(L, 1);
	lua_settop(L, 1);
	lua_createtable(L, 0, 1);
	lua_insert(L, 1);
	lua_setfield(L, 1, name);
	return make(L);
}

/* table{ {level, area}, ... } */
static int l_table(lua_State *L)
{
	return make_of(L, "table");
}

/* contours{ {level =, points = { {x, y}, ... }}, ... }, from the floor up */
static int l_contours(lua_State *L)
{
	return make_of(L, "contours");
}

/* shelved{shape =, length =, width =, depth =, shelves = {...}, ...} */
static int l_shelved(lua_State *L)
{
	lua_settop(L, 1);
	return make(L);
}

void bind_push_basin(lua_State *L, struct tarn_basin **basin,
		     const struct tarn_basin_wish *wish)
{
	struct basin_box *box = new_box(L);

	box->basin = *basin;
	*basin = NULL;
	box->shape = wish->shape;
	box->has_shape = wish->rows == 0 && wish->contours == 0;
}

/* ---- its numbers --------------------------------------------------------- */

static const struct basin_number {
	const char *name;
	double (*of)(const struct tarn_basin *basin);
	double (*at)(const struct tarn_basin *basin, double level_m);
} numbers[] = {
	{ .name = "top", .of = tarn_basin_top },
	{ .name = "floor", .of = tarn_basin_floor },
	{ .name = "scale", .of = tarn_basin_scale },
	{ .name = "area", .at = tarn_basin_area },
	{ .name = "volume", .at = tarn_basin_volume },
};

/* basin:top() and the like; basin:area(level), basin:volume(level) */
static int l_number(lua_State *L)
{
	const struct basin_number *n =
		&numbers[lua_tointeger(L, lua_upvalueindex(1))];
	const struct tarn_basin *b = bind_check_basin(L, 1);

	lua_pushnumber(L, n->of ? n->of(b) : n->at(b, bind_number(
				L, 2, "level [m]", tarn_basin_floor(b),
				tarn_basin_top(b))));
	return 1;
}

static int l_level(lua_State *L)
{
	const struct tarn_basin *b = bind_check_basin(L, 1);
	double full = tarn_basin_volume(b, tarn_basin_top(b));

	lua_pushnumber(L, tarn_basin_level(b, bind_number(
				L, 2, "volume [m3]", 0, full)));
	return 1;
}

static int l_tostring(lua_State *L)
{
	const struct tarn_basin *b = bind_check_basin(L, 1);
	double top = tarn_basin_top(b);
	char text[120];

	snprintf(text, sizeof text, "basin: %.3g m deep, %.3g m2 at the top, "
		 "%.4g m3", top - tarn_basin_floor(b), tarn_basin_area(b, top),
		 tarn_basin_volume(b, top));
	lua_pushstring(L, text);
	return 1;
}

void bind_basin(lua_State *L)
{
	static const luaL_Reg makers[] = {
		{ "table", l_table },
		{ "shelved", l_shelved },
		{ "contours", l_contours },
		{ NULL, NULL }
	};
	static const luaL_Reg methods[] = {
		{ "level", l_level }, { "__tostring", l_tostring },
		{ "__gc", l_free },   { "__close", l_free },
		{ NULL, NULL }
	};

	bind_methods(L, BASIN_T, methods);
	luaL_getmetatable(L, BASIN_T);
	for (int i = 0; i < 5; i++) {
		lua_pushinteger(L, i);
		lua_pushcclosure(L, l_number, 1);
		lua_setfield(L, -2, numbers[i].name);
	}
	lua_pop(L, 1);
	luaL_newlib(L, makers);
	lua_setfield(L, -2, "basin");
}
