/* SPDX-License-Identifier: MIT */
#ifndef TESTS_FUZZ_STATE_H
#define TESTS_FUZZ_STATE_H

/* A Lua state that targets keep from one input to the next. */

#include <malloc.h>
#include <string.h>

#include <lualib.h>

#include "../../bindings/lua/bind.h"
#include "fuzz.h"

/* The state, with a function that 'program' returns on top of its stack. */
static inline lua_State *fuzz_state(const char *program)
{
	static lua_State *L;

	if (!L) {
		L = luaL_newstate();
		MUST(L != NULL);
		/* Inputs come by the thousand a second: large blocks from the
		 * heap, and no sweep for each of them. */
		mallopt(M_MMAP_THRESHOLD, 64 << 20);
		mallopt(M_TRIM_THRESHOLD, 512 << 20);
		lua_gc(L, LUA_GCINC, 1000, 0, 0);
		luaL_openlibs(L);
		luaL_requiref(L, "tarn", luaopen_tarn, 1);
		lua_pop(L, 1);
		if (luaL_loadstring(L, program) != LUA_OK ||
		    lua_pcall(L, 0, 1, 0) != LUA_OK) {
			fprintf(stderr, "%s\n", lua_tostring(L, -1));
			abort();
		}
	}
	return L;
}

/* Whether the error on top is the user's to mend, said in one line. */
static inline int fuzz_mistake(lua_State *L)
{
	const char *text = luaL_tolstring(L, -1, NULL);
	int mistake, said = text[0] && !strchr(text, '\n');

	lua_getfield(L, LUA_REGISTRYINDEX, "tarn.mistake");
	mistake = lua_rawequal(L, -1, -3);
	if (!mistake || !said)
		fprintf(stderr, "no mistake of the user's: %s\n", text);
	lua_pop(L, 2);
	return mistake && said;
}

/* Calls the function at 'at' with the arguments on top of it. */
static inline void fuzz_call(lua_State *L, int arguments)
{
	if (lua_pcall(L, arguments, 0, 0) != LUA_OK) {
		MUST(fuzz_mistake(L));
		lua_pop(L, 1);
	}
}

/* Calls what 'program' returns with the path of a file that holds the input. */
static inline int fuzz_read(const char *program, const uint8_t *data,
			    size_t size)
{
	lua_State *L = fuzz_state(program);

	if (size == 0)
		return 0;
	lua_pushvalue(L, -1);
	lua_pushstring(L, fuzz_file(data, size));
	fuzz_call(L, 1);
	MUST(lua_gettop(L) == 1);
	return 0;
}

#endif
