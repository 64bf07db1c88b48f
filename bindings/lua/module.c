/* SPDX-License-Identifier: MIT */
#include "bind.h"

static int l_celsius(lua_State *L)
{
	lua_pushnumber(L, tarn_celsius(luaL_checknumber(L, 1)));
	return 1;
}

static int l_fahrenheit(lua_State *L)
{
	lua_pushnumber(L, tarn_fahrenheit(luaL_checknumber(L, 1)));
	return 1;
}

void bind_base(lua_State *L)
{
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);

	lua_createtable(L, 0, (int)count + 2);
	for (size_t i = 0; i < count; i++)
		bind_set(L, units[i].name, units[i].factor);
	lua_pushcfunction(L, l_celsius);
	lua_setfield(L, -2, "celsius");
	lua_pushcfunction(L, l_fahrenheit);
	lua_setfield(L, -2, "fahrenheit");
	lua_setfield(L, -2, "units");
	bind_set_text(L, "version", tarn_version());
}

LUAMOD_API int luaopen_tarn(lua_State *L)
{
	luaL_checkversion(L);
	lua_newtable(L);
	bind_base(L);
	bind_bed(L);
	return 1;
}
