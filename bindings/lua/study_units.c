/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "bind_pond.h"
#include "bind_study.h"

/* ---- what a column is in ------------------------------------------------------- */

/* Of a pair's numbers the second, where the path says so. */
static int which_of(const char *path)
{
	const char *last = strrchr(path, '[');

	return last ? atoi(last + 1) - 1 : 0;
}

/* study.unit("bed.layers[2].thickness") -> "m", or nil */
static int l_unit(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1);
	const struct tarn_field *row = tarn_fields_row(&tarn_design_fields,
						       path);
	char room[32];

	if (row)
		lua_pushstring(L, tarn_field_unit(row, which_of(path), room));
	return row != NULL;
}

/*
 * study.number(table, key, path) -> the number there in the unit of the field at
 * 'path': one that a file gave with a unit is turned into that, or refused
 */
static int l_number(lua_State *L)
{
	const char *path = luaL_checkstring(L, 3);
	const struct tarn_field *row = tarn_fields_row(&tarn_design_fields,
						       path);
	struct tarn_dimension wanted;
	struct tarn_measure m;
	char room[2][48];

	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 3);
	lua_pushvalue(L, 2);
	lua_gettable(L, 1);
	if (lua_type(L, 4) != LUA_TNUMBER || !bind_push_marks(L, 1) ||
	    !bind_marked(L, 5, 2, lua_tonumber(L, 4), &m)) {
		lua_pushvalue(L, 4);
		return 1;
	}
	if (!row || !tarn_field_dimension(row, which_of(path), &wanted))
		return bind_error(L, "%s takes a number without a unit", path);
	if (!tarn_dimension_alike(&m.unit, &wanted))
		return bind_error(L, "%s must be %s, got %s", path,
				  tarn_dimension_word(&wanted, room[0]),
				  tarn_dimension_word(&m.unit, room[1]));
	lua_pushnumber(L, tarn_measure_in(&m, &wanted));
	return 1;
}

void bind_study_units(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "unit", l_unit }, { "number", l_number }, { NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
