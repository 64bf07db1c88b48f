/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bind_pond.h"

#define BASIN_T "tarn.basin"

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
	struct basin_box *box = lua_newuserdatauv(L, sizeof *box, 0);

	box->basin = NULL;
	box->has_shape = 0;
	luaL_setmetatable(L, BASIN_T);
	return box;
}

static int l_free(lua_State *L)
{
	struct basin_box *box = luaL_checkudata(L, 1, BASIN_T);

	tarn_basin_free(box->basin);
	box->basin = NULL;
	return 0;
}

/* Two numbers of a row { a, b } at the top of the stack. */
static void read_pair(lua_State *L, const char *what, int row, double *a,
		      double *b)
{
	double *out[2] = { a, b };

	if (lua_type(L, -1) != LUA_TTABLE || lua_rawlen(L, -1) != 2)
		bind_error(L, "%s: row %d must be a pair of numbers", what,
			   row);
	for (int i = 0; i < 2; i++) {
		lua_rawgeti(L, -1, i + 1);
		if (lua_type(L, -1) != LUA_TNUMBER)
			bind_error(L, "%s: row %d must be a pair of numbers",
				   what, row);
		*out[i] = lua_tonumber(L, -1);
		lua_pop(L, 1);
	}
}

static double *new_doubles(lua_State *L, size_t count)
{
	return lua_newuserdatauv(L, (count + 1) * sizeof(double), 0);
}

static int make_table(lua_State *L, const char *name, const double *level,
		      const double *area, size_t rows)
{
	struct basin_box *box = new_box(L);
	struct tarn_error err = { 0 };

	if (tarn_basin_table(&box->basin, NULL, level, area, rows, &err) !=
	    TARN_OK) {
		snprintf(err.field, sizeof err.field, "%s", name);
		bind_fail(L, &err, NULL);
	}
	return 1;
}

/* The list at 1 as basin.'name' bounds it. */
static size_t whole_list(lua_State *L, const char *name)
{
	const struct bind_beside *row = bind_beside("basin", name);

	lua_pushfstring(L, "basin.%s", name);
	return bind_list(L, 1, lua_tostring(L, -1), row->least, row->most);
}

/* table{ {level, area}, ... } */
static int l_table(lua_State *L)
{
	size_t rows = whole_list(L, "table");
	double *level, *area;

	level = new_doubles(L, rows);
	area = new_doubles(L, rows);
	for (size_t i = 0; i < rows; i++) {
		lua_rawgeti(L, 1, (lua_Integer)i + 1);
		read_pair(L, "basin.table", (int)i + 1, &level[i], &area[i]);
		lua_pop(L, 1);
	}
	return make_table(L, "basin.table", level, area, rows);
}

/* Area of the polygon { {x, y}, ... } in the field 'points' of the row. */
static double contour_area(lua_State *L, int row)
{
	size_t corners;
	double *xy, area;

	corners = bind_beside_list(L, -1, "basin.contours", "points");
	if (corners == 0)
		bind_error(L, "basin.contours: row %d needs points, three or "
			   "more pairs {x, y}", row);
	xy = new_doubles(L, 2 * corners);
	for (size_t i = 0; i < corners; i++) {
		lua_rawgeti(L, -2, (lua_Integer)i + 1);
		read_pair(L, "basin.contours", row, &xy[2 * i],
			  &xy[2 * i + 1]);
		lua_pop(L, 1);
	}
	area = tarn_polygon_area(xy, corners);
	lua_pop(L, 2);
	return area;
}

static const struct tarn_field contour_rows[] = {
	{ "level", TARN_FIELD_NUMBER, 0, -1000, 10000, 1, "m", NULL,
	  "of the outline above the floor; the first one 0" },
};
static const struct tarn_fields contour_fields = {
	"basin.contours", contour_rows, 1
};

/* contours{ {level =, points = { {x, y}, ... }}, ... }, from the floor up */
static int l_contours(lua_State *L)
{
	const char *also[BIND_NAMES_MAX];
	size_t rows = whole_list(L, "contours");
	double *level, *area;

	bind_beside_names("basin.contours", NULL, also);
	level = new_doubles(L, rows);
	area = new_doubles(L, rows);
	for (size_t i = 0; i < rows; i++) {
		lua_rawgeti(L, 1, (lua_Integer)i + 1);
		level[i] = TARN_NAN;
		bind_fields(L, -1, &contour_fields, &level[i], also);
		area[i] = contour_area(L, (int)i + 1);
		lua_pop(L, 1);
	}
	return make_table(L, "basin.contours", level, area, rows);
}

static const struct tarn_field shelf_rows[] = {
	{ "depth", TARN_FIELD_NUMBER, offsetof(struct tarn_shelf, depth_m),
	  1e-3, 15, 1, "m", NULL, "below the top edge" },
	{ "width", TARN_FIELD_NUMBER, offsetof(struct tarn_shelf, width_m),
	  1e-3, 100, 1, "m", NULL, "level width" },
};
static const struct tarn_fields shelf_fields = {
	"basin.shelves", shelf_rows, 2
};

static void read_shelves(lua_State *L, int arg, struct tarn_shelved *s)
{
	s->shelves = (int)bind_beside_list(L, arg, "basin", "shelves");
	for (int i = 0; i < s->shelves; i++) {
		s->shelf[i].depth_m = s->shelf[i].width_m = TARN_NAN;
		lua_rawgeti(L, -1, i + 1);
		bind_fields(L, -1, &shelf_fields, &s->shelf[i], NULL);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
}

void bind_add_basin(lua_State *L)
{
	struct tarn_shelved shape = tarn_shelved_default();
	struct tarn_shelf shelf = { TARN_NAN, TARN_NAN };
	double level_m = TARN_NAN;

	bind_add_reference(L, &tarn_shelved_fields, &shape);
	bind_add_reference(L, &shelf_fields, &shelf);
	bind_add_reference(L, &contour_fields, &level_m);
}

/* shelved{shape =, length =, width =, depth =, shelves = {...}, ...} */
static int l_shelved(lua_State *L)
{
	static const char *const also[] = { "shelves", NULL };
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_error err = { 0 };
	struct basin_box *box;

	bind_fields(L, 1, &tarn_shelved_fields, &s, also);
	read_shelves(L, 1, &s);
	box = new_box(L);
	if (tarn_basin_shelved(&box->basin, NULL, &s, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	box->shape = s;
	box->has_shape = 1;
	return 1;
}

/* The basin of a description: one made already, { table = }, { contours = }
 * or the fields of a shelved one. */
void bind_make_basin(lua_State *L, int arg)
{
	static const char *const whole[] = { "table", "contours", NULL };
	static const lua_CFunction makers[] = { l_table, l_contours };

	arg = lua_absindex(L, arg);
	if (luaL_testudata(L, arg, BASIN_T)) {
		lua_pushvalue(L, arg);
		return;
	}
	if (!lua_istable(L, arg))
		bind_error(L, "basin is missing: give its shape and sizes, "
			   "{ table = ... } or { contours = ... }");
	for (int i = 0; whole[i]; i++) {
		lua_pushcfunction(L, makers[i]);
		if (lua_getfield(L, arg, whole[i]) == LUA_TTABLE) {
			const char *const only[] = { whole[i], NULL };

			bind_known(L, arg, NULL, only);
			lua_call(L, 1, 1);
			return;
		}
		lua_pop(L, 2);
	}
	lua_pushcfunction(L, l_shelved);
	lua_pushvalue(L, arg);
	lua_call(L, 1, 1);
}

static double in_basin(lua_State *L, const struct tarn_basin *b)
{
	return bind_number(L, 2, "level [m]", tarn_basin_floor(b),
			   tarn_basin_top(b));
}

static int l_area(lua_State *L)
{
	const struct tarn_basin *b = bind_check_basin(L, 1);

	lua_pushnumber(L, tarn_basin_area(b, in_basin(L, b)));
	return 1;
}

static int l_volume(lua_State *L)
{
	const struct tarn_basin *b = bind_check_basin(L, 1);

	lua_pushnumber(L, tarn_basin_volume(b, in_basin(L, b)));
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

static int l_top(lua_State *L)
{
	lua_pushnumber(L, tarn_basin_top(bind_check_basin(L, 1)));
	return 1;
}

static int l_lowest(lua_State *L)
{
	lua_pushnumber(L, tarn_basin_floor(bind_check_basin(L, 1)));
	return 1;
}

static int l_scale(lua_State *L)
{
	lua_pushnumber(L, tarn_basin_scale(bind_check_basin(L, 1)));
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
		{ "area", l_area },   { "volume", l_volume },
		{ "level", l_level }, { "top", l_top },
		{ "floor", l_lowest }, { "scale", l_scale },
		{ "__tostring", l_tostring },
		{ "__gc", l_free },   { "__close", l_free },
		{ NULL, NULL }
	};

	luaL_newmetatable(L, BASIN_T);
	luaL_setfuncs(L, methods, 0);
	lua_pushvalue(L, -1);
	lua_setfield(L, -2, "__index");
	lua_pop(L, 1);
	luaL_newlib(L, makers);
	lua_setfield(L, -2, "basin");
}
