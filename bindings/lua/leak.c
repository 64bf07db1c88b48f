/* SPDX-License-Identifier: MIT */
#include "bind_leak.h"
#include "bind_pond.h"
#include "bind_weather.h"

BIND_FREE(leak, LEAK_T)

/* Days of the log within the weather, so that a gap in another year does not
 * matter; all of it where they do not meet. */
static void set_days(struct tarn_run_options *o, const struct tarn_weather *w,
		     const struct log_box *log)
{
	long first = tarn_weather_first(w), last = bind_last_day(w);
	long from = log->count ? log->readings[0].day : last + 1;
	long to = log->count ? log->readings[log->count - 1].day : first - 1;

	if (from > last || to < first)
		return;
	o->first_day = from > first ? from : first;
	o->last_day = to < last ? to : last;
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
	struct tarn_run_options run = tarn_run_options_default();
	struct tarn_error err = { 0 };
	const struct log_box *log;
	struct pond_box *pond;
	struct leak_box *box;

	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 1);
	lua_getfield(L, 1, "pond");		/* 2 */
	pond = bind_check_pond(L, 2);
	lua_getfield(L, 1, "weather");		/* 3 */
	bind_check_weather(L, 3);
	lua_getfield(L, 1, "log");		/* 4 */
	log = bind_check_log(L, 4);
	box = lua_newuserdatauv(L, sizeof *box, 3);	/* 5 */
	*box = (struct leak_box){ .pond = &pond->made.pond, .log = log };
	luaL_setmetatable(L, LEAK_T);
	read_options(L, log, &box->options);
	bind_read(L, 1, &tarn_run_options_fields, &run);
	set_days(&run, bind_check_weather(L, 3), log);
	box->sky = bind_new_forcing(L, pond, 3, &run);
	BIND_DO(L, tarn_forcing_check, &box->sky->forcing);
	lua_setiuservalue(L, 5, LEAK_FORCING);
	lua_pushvalue(L, 4);
	lua_setiuservalue(L, 5, LEAK_LOG);
	lua_pushvalue(L, 2);
	lua_setiuservalue(L, 5, LEAK_POND);
	if (tarn_leak_fit(&box->leak, NULL, box->pond, &box->sky->forcing,
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
