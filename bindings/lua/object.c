/* SPDX-License-Identifier: MIT */
#include "bind.h"

/* Types of objects. */

void bind_methods(lua_State *L, const char *type, const luaL_Reg methods[])
{
	if (luaL_newmetatable(L, type)) {
		lua_pushvalue(L, -1);
		lua_setfield(L, -2, "__index");
	}
	luaL_setfuncs(L, methods, 0);
	lua_pop(L, 1);
}
