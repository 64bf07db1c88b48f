/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_option.h"

void option_copy(lua_State *L, int at, const char *what, char *to,
		 size_t size)
{
	size_t n;
	const char *s = bind_string(L, at, what, &n);

	if (n >= size || strlen(s) != n)
		bind_error(L, "%s must be shorter than %d characters", what,
			   (int)size);
	memcpy(to, s, n + 1);
}

int option_check_whole(lua_State *L, int at, const char *what, int lo, int hi)
{
	int ok;
	lua_Integer n = lua_tointegerx(L, at, &ok);

	if (lua_type(L, at) != LUA_TNUMBER || !ok || n < lo || n > hi)
		bind_error(L, "%s must be a whole number from %d to %d", what,
			   lo, hi);
	return (int)n;
}

static int choice(lua_State *L, int at, const char *what,
		  const char *const choices[])
{
	const char *s = lua_type(L, at) == LUA_TSTRING ? lua_tostring(L, at)
						       : "";
	luaL_Buffer b;

	for (int i = 0; choices[i]; i++)
		if (strcmp(choices[i], s) == 0)
			return i;
	luaL_buffinit(L, &b);
	for (int i = 0; choices[i]; i++) {
		luaL_addstring(&b, i ? ", \"" : "\"");
		luaL_addstring(&b, choices[i]);
		luaL_addstring(&b, "\"");
	}
	luaL_pushresult(&b);
	return bind_error(L, "%s must be one of %s", what,
			  lua_tostring(L, -1));
}

int option_has(lua_State *L, int table, const char *name)
{
	if (lua_getfield(L, table, name) != LUA_TNIL)
		return 1;
	lua_pop(L, 1);
	return 0;
}

void option_text(lua_State *L, int table, const char *name, char *to,
		 size_t size)
{
	if (!option_has(L, table, name))
		return;
	option_copy(L, -1, name, to, size);
	lua_pop(L, 1);
}

int option_choice(lua_State *L, int table, const char *name,
		  const char *const choices[], int otherwise)
{
	int n = otherwise;

	if (option_has(L, table, name)) {
		n = choice(L, -1, name, choices);
		lua_pop(L, 1);
	}
	return n;
}

int option_whole(lua_State *L, int table, const char *name, int lo, int hi,
		 int otherwise)
{
	int n = otherwise;

	if (option_has(L, table, name)) {
		n = option_check_whole(L, -1, name, lo, hi);
		lua_pop(L, 1);
	}
	return n;
}

void option_words(lua_State *L, int at, const char *what, char *to,
		  size_t size)
{
	size_t used = 0;

	if (lua_type(L, at) == LUA_TSTRING) {
		option_copy(L, at, what, to, size);
		return;
	}
	if (lua_type(L, at) != LUA_TTABLE)
		bind_error(L, "%s must be a string or a list of strings", what);
	to[0] = '\0';
	for (int i = 1; lua_geti(L, at, i) != LUA_TNIL; i++) {
		if (used > 0 && used + 1 < size)
			to[used++] = ' ';
		option_copy(L, -1, what, to + used, size - used);
		used += strlen(to + used);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
}
