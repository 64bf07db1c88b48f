/* SPDX-License-Identifier: MIT */
/* Lists of pipes. */
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
