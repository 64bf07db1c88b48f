/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind.h"

/* Filling the table on top of the stack. */

void bind_set(lua_State *L, const char *name, double value)
{
	if (isnan(value))
		return;
	lua_pushnumber(L, value);
	lua_setfield(L, -2, name);
}

void bind_set_text(lua_State *L, const char *name, const char *text)
{
	lua_pushstring(L, text);
	lua_setfield(L, -2, name);
}

void bind_set_count(lua_State *L, const char *name, size_t count)
{
	lua_pushinteger(L, (lua_Integer)count);
	lua_setfield(L, -2, name);
}

void bind_set_int(lua_State *L, const char *name, long value)
{
	lua_pushinteger(L, value);
	lua_setfield(L, -2, name);
}

void bind_set_flag(lua_State *L, const char *name, int on)
{
	lua_pushboolean(L, on);
	lua_setfield(L, -2, name);
}

void bind_set_day(lua_State *L, const char *name, long day)
{
	char text[11];

	if (day == TARN_NO_DAY)
		return;
	tarn_day_text(day, text);
	bind_set_text(L, name, text);
}
