/* SPDX-License-Identifier: MIT */
/*
 * Four Lua states in four threads that run studies, write files and are told to
 * stop.  `make test` runs it as it is, `make tsan` under the thread sanitizer.
 */
#define _POSIX_C_SOURCE 200809L
#include <lauxlib.h>
#include <lualib.h>
#include <pthread.h>
#include <semaphore.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

int luaopen_tarn(lua_State *L);

enum { STATES = 4, ROUNDS = 20 };

static int failures;

#define EXPECT(condition)                                                      \
	do {                                                                   \
		if (!(condition)) {                                            \
			fprintf(stderr, "states.c:%d: %s\n", __LINE__,         \
				#condition);                                   \
			failures++;                                            \
		}                                                              \
	} while (0)

/* 300 ponds; 'progress' and 'threads' are globals.  Of several threads the one
 * that tells may find nothing left to do, and tell nothing. */
#define SAMPLES "weather-samples/"
static const char study[] =
	"threads = 1 "
	"local pond = tarn.pond(tarn.description('" SAMPLES "courtyard-pond.lua'))"
	"local weather = tarn.weather.read('" SAMPLES "seattle_daily_2012_2015"
	".csv', tarn.description('" SAMPLES "seattle-map.lua')) "
	"local areas = {} for i = 1, 300 do areas[i] = i / 100 end "
	"study = tarn.study { pond = pond, weather = weather, columns = {"
	"  { field = 'bed.area', set = areas } } } ";

static lua_State *state(lua_CFunction progress)
{
	lua_State *L = luaL_newstate();

	luaL_openlibs(L);
	luaL_requiref(L, "tarn", luaopen_tarn, 1);
	lua_settop(L, 0);
	lua_pushcfunction(L, progress);
	lua_setglobal(L, "progress");
	if (luaL_dostring(L, study) != LUA_OK) {
		fprintf(stderr, "%s\n", lua_tostring(L, -1));
		exit(1);
	}
	return L;
}

static void run(lua_State *L)
{
	static const char text[] = "rows = study:run { threads = threads, "
				   "progress = progress }";

	if (luaL_dostring(L, text) != LUA_OK) {
		fprintf(stderr, "%s\n", lua_tostring(L, -1));
		exit(1);
	}
}

/* 1: a handler waits for the signal */
static int listened(int number)
{
	struct sigaction now;

	sigaction(number, NULL, &now);
	return now.sa_handler != SIG_DFL;
}

/* ---- the first to begin is the first to end ------------------------------------ */

static sem_t first_runs, second_runs, first_ended;
static int heard_alone;

static int tell_first(lua_State *L)
{
	static int once;

	(void)L;
	if (!once++) {
		sem_post(&first_runs);
		sem_wait(&second_runs);
	}
	return 0;
}

static int tell_second(lua_State *L)
{
	static int once;

	(void)L;
	if (!once++) {
		sem_post(&second_runs);
		sem_wait(&first_ended);
		heard_alone = listened(SIGINT) && listened(SIGTERM);
	}
	return 0;
}

static void *second(void *unused)
{
	lua_State *L = state(tell_second);

	sem_wait(&first_runs);
	run(L);
	lua_close(L);
	return unused;
}

static void overlap(void)
{
	lua_State *L = state(tell_first);
	pthread_t thread;

	sem_init(&first_runs, 0, 0);
	sem_init(&second_runs, 0, 0);
	sem_init(&first_ended, 0, 0);
	pthread_create(&thread, NULL, second, NULL);
	run(L);
	sem_post(&first_ended);
	pthread_join(thread, NULL);
	EXPECT(heard_alone);		/* while one of them runs */
	EXPECT(!listened(SIGINT));	/* and no longer */
	EXPECT(!listened(SIGTERM));
	lua_close(L);
}

/* ---- four at once ---------------------------------------------------------------- */

static char folder[] = "/tmp/tarn-states-XXXXXX";

static int tell_nothing(lua_State *L)
{
	(void)L;
	return 0;
}

static void *work(void *number)
{
	lua_State *L = state(tell_nothing);

	luaL_dostring(L, "threads = 2");
	for (int i = 0; i < ROUNDS; i++) {
		run(L);
		lua_pushfstring(L, "tarn.write_file('%s/%d-%d', tarn.visible("
				"('x'):rep(1000)))", folder, *(int *)number, i);
		if (luaL_dostring(L, lua_tostring(L, -1)) != LUA_OK) {
			fprintf(stderr, "%s\n", lua_tostring(L, -1));
			exit(1);
		}
		lua_settop(L, 0);
	}
	lua_close(L);
	return NULL;
}

/* Each file has the mode that the process's mask gives, however the threads
 * come between each other. */
static void four(void)
{
	pthread_t thread[STATES];
	int number[STATES];
	char path[100];
	struct stat st;

	umask(027);
	if (!mkdtemp(folder))
		exit(1);
	for (int i = 0; i < STATES; i++) {
		number[i] = i;
		pthread_create(&thread[i], NULL, work, &number[i]);
	}
	for (int i = 0; i < STATES; i++)
		pthread_join(thread[i], NULL);
	for (int i = 0; i < STATES * ROUNDS; i++) {
		snprintf(path, sizeof path, "%s/%d-%d", folder, i / ROUNDS,
			 i % ROUNDS);
		EXPECT(stat(path, &st) == 0 && (st.st_mode & 0777) == 0640);
		unlink(path);
	}
	EXPECT(rmdir(folder) == 0);
	EXPECT(!listened(SIGINT));
}

/* ---- and told to stop -------------------------------------------------------------- */

static int stop_all(lua_State *L)
{
	(void)L;
	raise(SIGTERM);
	return 0;
}

static void stopped(void)
{
	lua_State *L = state(stop_all);

	run(L);
	lua_getglobal(L, "rows");
	lua_getfield(L, -1, "stopped");
	EXPECT(lua_toboolean(L, -1));
	lua_settop(L, 0);
	lua_pushcfunction(L, tell_nothing);
	lua_setglobal(L, "progress");
	run(L);				/* it is forgotten by the next run */
	lua_getglobal(L, "rows");
	lua_getfield(L, -1, "stopped");
	EXPECT(!lua_toboolean(L, -1));
	lua_close(L);
}

int main(void)
{
	overlap();
	four();
	stopped();
	return failures != 0;
}
