/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_leak.h"
#include "bind_pond.h"
#include "bind_weather.h"

BIND_FREE(leak, LEAK_T)

/* first and last of the log within the weather, so that a gap in another
 * year does not matter; all of it where they do not meet. */
static void push_run_options(lua_State *L, const struct tarn_weather *w,
			     const struct log_box *log)
{
	long first = tarn_weather_first(w);
	long last = first + (long)tarn_weather_days(w) - 1;
	long from = log->count ? log->readings[0].day : last + 1;
	long to = log->count ? log->readings[log->count - 1].day : first - 1;

	lua_newtable(L);
	if (from <= last && to >= first) {
		bind_set_day(L, "first", from > first ? from : first);
		bind_set_day(L, "last", to < last ? to : last);
	}
	lua_getfield(L, 1, "method");
	lua_setfield(L, -2, "method");
}

/* Pushes the weather at 3 as the pond at 2 takes it. */
static const struct tarn_forcing *push_forcing(lua_State *L,
					       const struct tarn_weather *w,
					       const struct log_box *log)
{
	const struct tarn_forcing *forcing;
	struct tarn_error err = { 0 };

	lua_pushcfunction(L, bind_pond_forcing);
	lua_pushvalue(L, 2);
	lua_pushvalue(L, 3);
	push_run_options(L, w, log);
	lua_call(L, 3, 1);
	forcing = lua_touserdata(L, -1);
	bind_must(L, tarn_forcing_check(forcing, &err), &err);
	return forcing;
}

static void read_options(lua_State *L, const struct log_box *log,
			 struct tarn_leak_options *o)
{
	static const char *const also[] = {
		"pond", "weather", "log", "method", NULL
	};

	*o = tarn_leak_options_default();
	o->counts_down = log->info.counts_down;
	o->step_m = log->info.step_m;
	bind_fields(L, 1, &tarn_leak_fields, o, also);
}

/*
 * leak{pond =, weather =, log =, method =, and fields of tarn_leak_fields}
 * -> leak
 */
static int l_leak(lua_State *L)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *weather;
	const struct log_box *log;
	struct pond_box *pond;
	struct leak_box *box;

	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 1);
	lua_getfield(L, 1, "pond");		/* 2 */
	pond = bind_check_pond(L, 2);
	lua_getfield(L, 1, "weather");		/* 3 */
	weather = bind_check_weather(L, 3);
	lua_getfield(L, 1, "log");		/* 4 */
	log = bind_check_log(L, 4);
	box = lua_newuserdatauv(L, sizeof *box, 3);	/* 5 */
	memset(box, 0, sizeof *box);
	luaL_setmetatable(L, LEAK_T);
	box->pond = &pond->made.pond;
	box->log = log;
	read_options(L, log, &box->options);
	lua_pushvalue(L, 2);
	lua_setiuservalue(L, 5, LEAK_POND);
	lua_pushvalue(L, 4);
	lua_setiuservalue(L, 5, LEAK_LOG);
	box->forcing = *push_forcing(L, weather, log);
	lua_setiuservalue(L, 5, LEAK_FORCING);
	if (tarn_leak_fit(&box->leak, NULL, box->pond, &box->forcing,
			  log->readings, log->count, &box->options, &err) !=
	    TARN_OK)
		bind_fail(L, &err, log->path[0] ? log->path : NULL);
	lua_settop(L, 5);
	return 1;
}

void bind_leak(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "__gc", l_free }, { "__close", l_free }, { NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "leak", l_leak },
		{ NULL, NULL }
	};

	bind_methods(L, LEAK_T, methods);
	luaL_setfuncs(L, functions, 0);
}
