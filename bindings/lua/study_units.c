/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "bind_pond.h"
#include "bind_study.h"

/* ---- what a column is in ------------------------------------------------------- */

struct asked {
	char path[96];
	const struct tarn_field *row;
};

static void find_row(void *context, const char *path,
		     const struct tarn_field *row)
{
	struct asked *a = context;

	if (strcmp(a->path, path) == 0)
		a->row = row;
}

/* Any entry of a list stands for its first; a month or number for all. */
static void without_numbers(const char *path, char out[96])
{
	size_t n = 0;

	for (; *path && n < 92; path++) {
		out[n++] = *path;
		if (*path != '[')
			continue;
		path += strspn(path + 1, "0123456789");
		out[n++] = '1';
	}
	out[n] = '\0';
	while (n > 3 && strcmp(out + n - 3, "[1]") == 0)
		out[n -= 3] = '\0';
	while (n > 0 && out[n - 1] >= '0' && out[n - 1] <= '9')
		n--;
	if (n > 0 && out[n - 1] == '.')
		out[n - 1] = '\0';
}

static const struct tarn_field *row_at(const char *path)
{
	struct asked a = { "", NULL };

	without_numbers(path, a.path);
	tarn_fields_walk(&tarn_design_fields, find_row, &a);
	return a.row;
}

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
	const struct tarn_field *row = row_at(path);
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
	const struct tarn_field *row = row_at(path);
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
