/* SPDX-License-Identifier: MIT */
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "../../bindings/lua/bind_box.h"
#include "state.h"

/*
 * A whole command, from reading to the last message: the first line of the
 * input names it, the rest is the file of somebody else's (commands.lua).  It
 * ends well, or with a mistake of the user's in one line; and soon.
 */
#define SECONDS_MAX 10

static const char program[] = "return dofile 'tests/fuzz/commands.lua'\n";

/* What takes too long ends the program, with the status of a mistake. */
static void try_budget(lua_State *L)
{
	pid_t child = fork();
	int status;

	MUST(child >= 0);
	if (child == 0) {
		bind_budget_allow(0.05);
		MUST(freopen("/dev/null", "w", stderr) != NULL);
		luaL_loadstring(L, "tarn.budgeted(string.find, ('a'):rep(1e5), "
				   "('a-'):rep(50) .. 'b')");
		lua_call(L, 0, 0);
		_exit(0);
	}
	MUST(waitpid(child, &status, 0) == child);
	MUST(WIFEXITED(status) && WEXITSTATUS(status) == 2);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	static int tried;
	lua_State *L = fuzz_state(program);
	const uint8_t *end = size ? memchr(data, '\n', size) : NULL;
	size_t first = end ? (size_t)(end - data) : 0;
	clock_t start = clock();

	if (!tried++)
		try_budget(L);
	if (!end || first + 1 >= size)
		return 0;
	lua_pushvalue(L, -1);
	lua_pushlstring(L, (const char *)data, first);
	lua_pushlstring(L, (const char *)end + 1, size - first - 1);
	lua_pushstring(L, fuzz_file(end + 1, size - first - 1));
	fuzz_call(L, 3);
	MUST(lua_gettop(L) == 1);
	MUST(clock() - start < SECONDS_MAX * CLOCKS_PER_SEC);
	return 0;
}
