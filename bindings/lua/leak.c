/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_leak.h"
#include "bind_pond.h"
#include "bind_weather.h"

static int l_free(lua_State *L)
{
	struct leak_box *box = luaL_checkudata(L, 1, LEAK_T);

	tarn_leak_free(box->leak);
	box->leak = NULL;
	return 0;
}

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

/* Pushes the weather as the ledger takes it, over the days of the log. */
static void push_forcing(lua_State *L, int pond, int weather,
			 const struct tarn_weather *w,
			 const struct log_box *log)
{
	lua_pushcfunction(L, bind_pond_forcing);
	lua_pushvalue(L, pond);
	lua_pushvalue(L, weather);
	push_run_options(L, w, log);
	lua_call(L, 3, 1);
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
	push_forcing(L, 2, 3, weather, log);
	box->forcing = *(struct tarn_forcing *)lua_touserdata(L, 6);
	lua_setiuservalue(L, 5, LEAK_FORCING);
	if (tarn_leak_fit(&box->leak, NULL, box->pond, &box->forcing,
			  log->readings, log->count, &box->options, &err) !=
	    TARN_OK)
		bind_fail(L, &err, log->path[0] ? log->path : NULL);
	lua_settop(L, 5);
	return 1;
}

/* leak_fields() -> sections of options, for the reference */
static int l_leak_fields(lua_State *L)
{
	lua_createtable(L, 4, 0);
	bind_push_reference(L, &tarn_log_fields);
	lua_rawseti(L, -2, 1);
	bind_push_reference(L, &tarn_leak_fields);
	lua_rawseti(L, -2, 2);
	bind_push_reference(L, &tarn_pair_fields);
	lua_rawseti(L, -2, 3);
	bind_push_reference(L, &tarn_pair_on_fields);
	lua_rawseti(L, -2, 4);
	return 1;
}

void bind_leak(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "__gc", l_free }, { "__close", l_free }, { NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "leak", l_leak }, { "leak_fields", l_leak_fields },
		{ NULL, NULL }
	};

	bind_methods(L, LEAK_T, methods);
	luaL_setfuncs(L, functions, 0);
}
