/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bind.h"

double bind_number(lua_State *L, int arg, const char *what, double lo,
		   double hi)
{
	const struct tarn_field row = { .name = what, .lo = lo, .hi = hi,
					.unit = "" };
	double x = lua_type(L, arg) == LUA_TNUMBER ? lua_tonumber(L, arg)
						   : TARN_NAN;

	if (!(x >= lo && x <= hi))	/* false for NaN too */
		bind_read_one(L, arg, &row, &x);
	return x;
}

void bind_want_table(lua_State *L, int arg)
{
	lua_settop(L, arg);
	if (!lua_isnil(L, arg))
		return;
	lua_newtable(L);
	lua_replace(L, arg);
}

const char *bind_string(lua_State *L, int arg, const char *what, size_t *n)
{
	if (lua_type(L, arg) != LUA_TSTRING)
		bind_error(L, "%s must be a string, got %s", what,
			   luaL_typename(L, arg));
	return lua_tolstring(L, arg, n);
}

double bind_field(lua_State *L, int arg, const char *section,
		  const char *name, const char *unit, double lo, double hi,
		  double otherwise)
{
	double x = otherwise;

	if (lua_getfield(L, arg, name) != LUA_TNIL) {
		lua_pushfstring(L, unit[0] ? "%s%s%s [%s]" : "%s%s%s", section,
				section[0] ? "." : "", name, unit);
		x = bind_number(L, -2, lua_tostring(L, -1), lo, hi);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return x;
}

int bind_switch(lua_State *L, int arg, const char *name, int otherwise)
{
	const struct tarn_field row = { .name = name,
					.kind = TARN_FIELD_SWITCH };
	int on = otherwise;

	if (lua_getfield(L, arg, name) != LUA_TNIL)
		bind_read_one(L, -1, &row, &on);
	lua_pop(L, 1);
	return on;
}

size_t bind_list(lua_State *L, int arg, const char *what, size_t lo,
		 size_t hi)
{
	size_t count;

	arg = lua_absindex(L, arg);
	if (lua_type(L, arg) != LUA_TTABLE)
		bind_error(L, "%s must be a list, got %s", what,
			   luaL_typename(L, arg));
	count = lua_rawlen(L, arg);
	for (lua_pushnil(L); lua_next(L, arg); lua_pop(L, 1))
		if (!lua_isinteger(L, -2) || lua_tointeger(L, -2) < 1 ||
		    (size_t)lua_tointeger(L, -2) > count)
			bind_error(L, "%s must be a list, each entry in braces "
				   "of its own; '%s' stands between them", what,
				   luaL_tolstring(L, -2, NULL));
	if (count < lo || count > hi)
		bind_error(L, "%s must be a list of %d to %d entries, got %d",
			   what, (int)lo, (int)hi, (int)count);
	return count;
}

long bind_day(lua_State *L, int arg, const char *what)
{
	const struct tarn_field row = { .name = what, .kind = TARN_FIELD_DAY };
	long day;

	bind_read_one(L, arg, &row, &day);
	return day;
}

/* ---- lists of numbers ------------------------------------------------------------ */

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
