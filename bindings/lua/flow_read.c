/* SPDX-License-Identifier: MIT */
/* Lists of pairs and of pipes. */
#include <math.h>

#include "bind_flow.h"

void *flow_keep(lua_State *L, int keep, size_t bytes)
{
	void *block = lua_newuserdatauv(L, bytes ? bytes : 1, 0);

	lua_rawseti(L, keep, (lua_Integer)lua_rawlen(L, keep) + 1);
	return block;
}

/* Pushes the list in a field; returns its length, or pushes nil. */
static size_t push_list(lua_State *L, int arg, const char *section,
			const char *name)
{
	int type = lua_getfield(L, arg, name);

	if (type == LUA_TNIL)
		return 0;
	if (type != LUA_TTABLE)
		bind_error(L, "%s.%s must be a list, got %s", section, name,
			   luaL_typename(L, -1));
	return lua_rawlen(L, -1);
}

size_t flow_list(lua_State *L, int arg, const char *section,
		 const char *name)
{
	size_t count = push_list(L, arg, section, name);

	lua_pop(L, 1);
	return count;
}

enum { PAIRS_MAX = 1000000 };

/* Item 'at' of the list on top, a number of any size but NaN. */
static double list_number(lua_State *L, const char *name, int at)
{
	double x;

	lua_rawgeti(L, -1, at);
	if (lua_type(L, -1) != LUA_TNUMBER)
		bind_error(L, "%s[%d] must be a number, got %s", name, at,
			   luaL_typename(L, -1));
	x = lua_tonumber(L, -1);
	lua_pop(L, 1);
	return x;
}

struct flow_pairs flow_read_pairs(lua_State *L, int arg, const char *section,
				  const char *name, int keep)
{
	struct flow_pairs p;

	if (section) {
		p.count = push_list(L, arg, section, name);
		name = bind_full_name(L, section, name);
		lua_insert(L, -2);
	} else {
		p.count = bind_list(L, arg, name, 0, PAIRS_MAX);
		lua_pushnil(L);
		lua_pushvalue(L, arg);
	}
	p.first = flow_keep(L, keep, 2 * p.count * sizeof *p.first);
	p.second = p.first + p.count;
	for (size_t i = 0; i < p.count; i++) {
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		if (lua_type(L, -1) != LUA_TTABLE || lua_rawlen(L, -1) != 2)
			bind_error(L, "%s[%d] must be a pair {a, b}", name,
				   (int)i + 1);
		p.first[i] = list_number(L, name, 1);
		p.second[i] = list_number(L, name, 2);
		lua_pop(L, 1);
	}
	lua_pop(L, 2);
	return p;
}

struct tarn_pipe *flow_read_pipes(lua_State *L, int arg, const char *name,
				  size_t *count, double temp_c, int keep)
{
	struct tarn_pipe *pipes;

	*count = push_list(L, arg, "pipe", name);
	pipes = flow_keep(L, keep, *count * sizeof *pipes);
	for (size_t i = 0; i < *count; i++) {
		pipes[i] = tarn_pipe_default();
		if (!isnan(temp_c))
			pipes[i].temp_c = temp_c;
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		bind_fields(L, lua_gettop(L), &tarn_pipe_fields, &pipes[i],
			    NULL);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return pipes;
}
