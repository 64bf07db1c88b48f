/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include <lualib.h>

#include "bind.h"
#include "lua_try.h"

/*
 * The program as a page keeps it: one Lua state, and one way in.  The command
 * line's own main (runner.c) is in the module too, as tarn_main.
 */
#define WEB_EXPORT(name) __attribute__((export_name(name)))

WEB_IMPORT("post") void web_post(const char *text, size_t bytes);

int page_call(int argc, char **argv);

static lua_State *kept;

static int open_state(lua_State *L)
{
	luaL_openlibs(L);
	luaL_requiref(L, "tarn", luaopen_tarn, 1);
	lua_getglobal(L, "package");
	lua_pushliteral(L, "scripts/?.lua;web/?.lua");
	lua_setfield(L, -2, "path");
	lua_getglobal(L, "require");
	lua_pushliteral(L, "page");
	lua_call(L, 1, 1);
	lua_setfield(L, LUA_REGISTRYINDEX, "page");
	return 0;
}

static int call(lua_State *L)
{
	char **argv = lua_touserdata(L, 2);
	int argc = (int)lua_tointeger(L, 1);

	lua_getfield(L, LUA_REGISTRYINDEX, "page");
	lua_getfield(L, -1, argv[0]);
	luaL_checkstack(L, argc, NULL);
	for (int i = 1; i < argc; i++)
		lua_pushstring(L, argv[i]);
	lua_call(L, argc - 1, 1);
	return 1;
}

static int trace(lua_State *L)
{
	luaL_traceback(L, L, luaL_tolstring(L, 1, NULL), 1);
	return 1;
}

/* Calls the function argv[0] of page.lua with the other texts and posts the
 * text that it returns, if any; 1 and the reason if it fails. */
WEB_EXPORT("page_call") int page_call(int argc, char **argv)
{
	lua_State *L = kept;
	const char *text;
	size_t bytes;
	int status = LUA_OK;

	if (!L) {
		L = kept = luaL_newstate();
		lua_pushcfunction(L, trace);
		lua_pushcfunction(L, open_state);
		status = lua_pcall(L, 0, 0, 1);
	}
	if (status == LUA_OK) {
		lua_settop(L, 1);
		lua_pushcfunction(L, call);
		lua_pushinteger(L, argc);
		lua_pushlightuserdata(L, argv);
		status = lua_pcall(L, 2, 1, 1);
	}
	text = lua_tolstring(L, -1, &bytes);
	if (text)
		web_post(text, bytes);
	lua_settop(L, 1);
	return status != LUA_OK;
}
