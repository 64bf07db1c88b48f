/* SPDX-License-Identifier: MIT */
#include "bind.h"

/* Types of objects, and calls of the library that may fail. */

void bind_methods(lua_State *L, const char *type, const luaL_Reg methods[])
{
	if (luaL_newmetatable(L, type)) {
		lua_pushvalue(L, -1);
		lua_setfield(L, -2, "__index");
	}
	luaL_setfuncs(L, methods, 0);
	lua_pop(L, 1);
}

void bind_must(lua_State *L, enum tarn_status status,
	       const struct tarn_error *err)
{
	if (status != TARN_OK)
		bind_fail(L, err, NULL);
}
