/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "bind_box.h"

/*
 * A file that is only to be read, given where a script is expected, would run
 * with all rights of whoever typed the command.  It is known by what it
 * returns in the box, where a script, which calls something, returns nothing.
 */
static const struct kind {
	const char *name;	/* of a field that tells */
	const char *what, *before, *behind;	/* the command around it */
} kinds[] = {
	{ "basin", "the description of a pond", "topup ", " WEATHER.csv" },
	{ "overflow_level", "the description of a pond", "topup ",
	  " WEATHER.csv" },
	{ "columns", "the map of a weather file",
	  "topup POND.lua WEATHER.csv --map ", "" },
	{ "scenarios", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "inputs", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "samples", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "sensitivity", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "budget", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "tank", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "generate", "a study", "whatif POND.lua WEATHER.csv ", "" },
	{ "pail_volume", "a list of measurements",
	  "commission POND.lua ", "" },
	{ "fill_volume", "a list of measurements",
	  "commission POND.lua ", "" },
};

static int refuse(lua_State *L, const char *path, const char *what,
		  const char *before, const char *behind)
{
	return bind_error(L, "%s: is %s, not a script: tarn %s%s%s", path, what,
			  before, path, behind);
}

static int ends_in(const char *path, const char *ending)
{
	size_t n = strlen(path), k = strlen(ending);

	return n > k && strcmp(path + n - k, ending) == 0;
}

/* Whether a text, its comments apart, does nothing but return a table. */
static int only_returns(const char *s)
{
	for (;;) {
		s += strspn(s, " \t\r\n");
		if (s[0] != '-' || s[1] != '-')
			break;
		if (strncmp(s, "--[[", 4) == 0) {
			s = strstr(s, "]]");
			if (!s)
				return 0;
			s += 2;
		} else {
			s += strcspn(s, "\n");
		}
	}
	if (strncmp(s, "return", 6) != 0)
		return 0;
	s += 6;
	return s[strspn(s, " \t\r\n")] == '{';
}

static int l_check(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1), *text;
	size_t bytes;

	if (ends_in(path, ".csv"))
		return refuse(L, path, "a table of values", "weather ", "");
	lua_getglobal(L, "tarn");
	lua_getfield(L, -1, "description");
	lua_pushvalue(L, 1);
	lua_pushboolean(L, 1);	/* a script's names are nil in the box */
	if (lua_pcall(L, 2, 1, 0) == LUA_OK) {
		for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
			const struct kind *k = &kinds[i];

			if (lua_getfield(L, -1, k->name) != LUA_TNIL)
				refuse(L, path, k->what, k->before, k->behind);
			lua_pop(L, 1);
		}
		lua_pushnil(L);
		if (!lua_next(L, -2))
			return 0;	/* an empty table says nothing */
		return bind_error(L, "%s: is a table of values, not a script; "
				  "`tarn` alone lists what can be done with one",
				  path);
	}
	text = bind_box_text(L, path, &bytes);
	if (ends_in(path, ".json") || only_returns(text))
		refuse(L, path, "a description (with a mistake in it)", "topup ",
		       " WEATHER.csv");
	return 0;
}

/* A pipe can be read only once. */
int bind_mistaken(lua_State *L, const char *path)
{
	struct stat st;

	if (stat(path, &st) != 0 || !S_ISREG(st.st_mode))
		return 0;
	lua_pushcfunction(L, l_check);
	lua_pushstring(L, path);
	return lua_pcall(L, 1, 0, 0) != LUA_OK;
}
