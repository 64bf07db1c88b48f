/* SPDX-License-Identifier: MIT */
#ifndef __wasi__
#include <math.h>
#include <signal.h>
#include <string.h>
#include <sys/time.h>
#include <unistd.h>
#endif

#include "bind_box.h"

/*
 * One budget of processor time for all that files of others can cause: reading
 * them, what follows from a description, the search for the line of a mistake
 * and the words about it.  Lua's own limits count steps of Lua alone; this one
 * is a timer of the process, and holds in C too.  Only the program has it: a
 * module in somebody's interpreter does not end that.
 */
#ifdef __wasi__
void bind_budget_allow(double seconds)
{
	(void)seconds;
}

static void resume(const char *path)
{
	(void)path;
}

static void pause_timer(void)
{
}
#else
#define MISTAKE 2		/* exit status, as of the runner */

static int allowed;
static int depth;		/* of calls within each other */
static struct itimerval left;
static char message[600] = "tarn: a file";

static void on_end(int signal)
{
	static const char why[] =
		": takes too long to read, check and explain: no "
		"description of a pond does\n";

	(void)signal;
	if (write(STDERR_FILENO, message, strlen(message)) >= 0 &&
	    write(STDERR_FILENO, why, sizeof why - 1) >= 0)
		_exit(MISTAKE);
	_exit(MISTAKE);	/* nobody reads it */
}

void bind_budget_allow(double seconds)
{
	struct sigaction action = { 0 };

	left.it_value.tv_sec = (time_t)seconds;
	left.it_value.tv_usec = (suseconds_t)(1e6 * fmod(seconds, 1));
	action.sa_handler = on_end;
	allowed = sigaction(SIGPROF, &action, NULL) == 0;
}

/* The file that is named when the time is over. */
static void name_file(const char *path)
{
	size_t bytes = strlen(path), used = strlen("tarn: "), length;
	char shown[16];

	for (size_t i = 0; i < bytes && used + 16 < sizeof message;) {
		i += bind_show(path + i, bytes - i, 0, shown, &length);
		memcpy(message + used, shown, length);
		used += length;
	}
	message[used] = '\0';
}

/* 'path' may be NULL: the file that was named last. */
static void resume(const char *path)
{
	if (!allowed)
		return;
	if (path)
		name_file(path);
	if (depth++ == 0)
		setitimer(ITIMER_PROF, &left, NULL);
}

static void pause_timer(void)
{
	static const struct itimerval none;

	if (allowed && --depth == 0)
		setitimer(ITIMER_PROF, &none, &left);
}
#endif

int bind_budgeted(lua_State *L, const char *path)
{
	int status;

	resume(path);
	status = lua_pcall(L, lua_gettop(L) - 1, LUA_MULTRET, 0);
	pause_timer();
	if (status != LUA_OK)
		return lua_error(L);
	return lua_gettop(L);
}

/* budgeted(f, ...) -> what f(...) returns, within the time that all files of
 * others have together */
static int l_budgeted(lua_State *L)
{
	luaL_checkany(L, 1);
	return bind_budgeted(L, NULL);
}

void bind_budget(lua_State *L)
{
	lua_pushcfunction(L, l_budgeted);
	lua_setfield(L, -2, "budgeted");
}
