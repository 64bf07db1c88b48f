/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind.h"

/* Lists of numbers. */

enum { LIST_MAX = 100000000 };

double *bind_doubles(lua_State *L, int arg, const char *what, size_t *count)
{
	double *x;

	arg = lua_absindex(L, arg);
	*count = bind_list(L, arg, what, 0, LIST_MAX);
	x = lua_newuserdatauv(L, (*count + 1) * sizeof *x, 0);
	for (size_t i = 0; i < *count; i++) {
		int type = lua_rawgeti(L, arg, (lua_Integer)i + 1);

		x[i] = TARN_NAN;
		if (type == LUA_TNUMBER)
			x[i] = lua_tonumber(L, -1);
		else if (type != LUA_TBOOLEAN || lua_toboolean(L, -1))
			bind_error(L, "%s[%d] must be a number (or false for "
				   "none), got %s", what, (int)i + 1,
				   lua_typename(L, type));
		lua_pop(L, 1);
	}
	return x;
}

double *bind_field_doubles(lua_State *L, int arg, const char *name,
			   size_t *count)
{
	double *x;

	*count = 0;
	if (lua_getfield(L, arg, name) == LUA_TNIL)
		return NULL;
	x = bind_doubles(L, -1, name, count);
	lua_remove(L, -2);
	return x;
}

void bind_push_doubles(lua_State *L, const double *x, size_t count)
{
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		if (isnan(x[i]))
			lua_pushboolean(L, 0);
		else
			lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
}
