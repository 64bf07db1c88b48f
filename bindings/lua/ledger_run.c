/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_pond.h"
#include "bind_weather.h"

/* What a run takes from its options; 'options' is the stack index of the
 * table. */
struct asked {
	const struct tarn_pond *pond;
	const struct tarn_weather *weather;
	const struct tarn_weather *cut;	/* the days asked for; on the stack */
	int method;		/* of the run; TARN_METHODS: none named */
	int beside;		/* the method that has all days; TARN_METHODS:
				   none */
	double factor;		/* of all evaporation */
	struct tarn_evaporation_options evaporation;
	struct tarn_evaporation_report report;
	struct tarn_forcing forcing;
	struct tarn_run run;
};

static const char *const run_names[] = {
	"first", "last", "start_level", "method", "each_day", "topup",
	"stopped", "level", "beside", "evaporation", NULL
};

static long read_day(lua_State *L, int arg, const char *name, long otherwise)
{
	long day = otherwise;

	if (lua_getfield(L, arg, name) != LUA_TNIL)
		day = bind_day(L, lua_gettop(L), name);
	lua_pop(L, 1);
	return day;
}

/* Evaporation options: the description's, then the run's method. */
static void read_evaporation(lua_State *L, struct asked *asked)
{
	struct tarn_evaporation_options *o = &asked->evaporation;
	const struct tarn_fields method = {
		"", tarn_fields_find(&tarn_evaporation_fields, "method"), 1
	};

	*o = bind_check_pond(L, 1)->made.evaporation;
	asked->method = TARN_METHODS;
	bind_read(L, 3, &method, o);
	if (lua_getfield(L, 3, "method") != LUA_TNIL)
		asked->method = o->method;
	asked->beside = TARN_METHODS;
	if (lua_getfield(L, 3, "beside") != LUA_TNIL)
		asked->beside = (int)tarn_method_find(luaL_checkstring(L, -1));
	if (lua_toboolean(L, -1) && asked->beside == TARN_METHODS)
		bind_error(L, "beside: unknown method '%s'",
			   lua_tostring(L, -1));
	lua_pop(L, 2);
	asked->factor = bind_field(L, 3, "", "evaporation", "-", 0, 10, 1);
}

/* Evaporation of the days; where a method stands beside another one, that one
 * first. */
static void evaporate(lua_State *L, struct asked *asked,
		      const struct tarn_weather *w, double *open, double *grass)
{
	struct tarn_evaporation_options first = asked->evaporation;
	struct tarn_evaporation_base base;
	struct tarn_error err = { 0 };
	size_t days = tarn_weather_days(w);
	double *of_base;

	if (asked->beside == TARN_METHODS) {
		bind_must(L, tarn_evaporation_run(w, &asked->evaporation, open,
						  grass, NULL, &asked->report,
						  &err), &err);
		return;
	}
	of_base = lua_newuserdatauv(L, 2 * days * sizeof *of_base, 0);
	first.method = asked->beside;
	bind_must(L, tarn_evaporation_run(w, &first, of_base, of_base + days,
					  NULL, NULL, &err), &err);
	base = (struct tarn_evaporation_base){ of_base, of_base + days };
	bind_must(L, tarn_evaporation_beside(w, &asked->evaporation, &base,
					     open, grass, &asked->report, &err),
		  &err);
	lua_pop(L, 1);
}

/* The days asked for, of a weather with rain. */
static const struct tarn_weather *cut_weather(lua_State *L,
					      const struct tarn_weather *w)
{
	struct tarn_weather **part;
	size_t days = tarn_weather_days(w);
	long start = tarn_weather_first(w), end = start + (long)days - 1;
	long first = read_day(L, 3, "first", start);
	long last = read_day(L, 3, "last", end);
	struct tarn_error err = { 0 };

	if (!tarn_weather_column(w, TARN_RAIN))
		bind_error(L, "weather has no rain: give it a column (0 on dry "
			   "days)");
	if (first == start && last == end)
		return w;
	part = bind_new_weather(L);
	bind_must(L, tarn_weather_slice(part, w, first, last, &err), &err);
	return *part;
}

/* Works out evaporation over the days asked for. */
static void make_forcing(lua_State *L, struct asked *asked)
{
	const struct tarn_weather *w = cut_weather(L, asked->weather);
	size_t days = tarn_weather_days(w);
	double *open = lua_newuserdatauv(L, 2 * days * sizeof *open, 0);
	double *grass = open + days;

	evaporate(L, asked, w, open, grass);
	for (size_t i = 0; i < days; i++) {
		open[i] *= asked->factor;
		grass[i] *= asked->factor;
	}
	asked->cut = w;
	asked->forcing.first_day = tarn_weather_first(w);
	asked->forcing.days = days;
	asked->forcing.rain_mm = tarn_weather_column(w, TARN_RAIN);
	asked->forcing.open_water_mm = open;
	asked->forcing.grass_mm = grass;
}

/* Reads pond, weather and options from arguments 1 to 3; leaves what the
 * forcing borrows on the stack. */
static void make_asked(lua_State *L, struct asked *asked)
{
	struct pond_box *box = bind_check_pond(L, 1);

	asked->pond = &box->made.pond;
	asked->weather = bind_check_weather(L, 2);
	lua_settop(L, 3);
	if (lua_isnil(L, 3)) {
		lua_newtable(L);
		lua_replace(L, 3);
	}
	bind_known(L, 3, NULL, run_names);
	read_evaporation(L, asked);
	asked->run = tarn_run_default();
	asked->run.start_level_m = bind_field(
		L, 3, "", "start_level", "m",
		tarn_basin_floor(box->made.pond.basin), box->made.pond.lip_m, TARN_NAN);
	asked->run.no_topup = !bind_switch(L, 3, "topup", 1);
	asked->run.start_stopped = bind_switch(L, 3, "stopped", 0);
	make_forcing(L, asked);
}

/* pond:methods(weather) -> list of the methods that can be run, best known
 * first */
static int l_methods(lua_State *L)
{
	struct asked asked;

	asked.pond = &bind_check_pond(L, 1)->made.pond;
	asked.weather = bind_check_weather(L, 2);
	lua_settop(L, 2);
	lua_newtable(L);	/* no options */
	read_evaporation(L, &asked);
	bind_push_methods(L, asked.weather, &asked.evaporation);
	return 1;
}

/* pond:forcing(weather, {first =, last =, method =}) -> forcing */
int bind_pond_forcing(lua_State *L)
{
	struct asked asked;
	struct forcing_box *box;
	struct tarn_forcing *f;
	double *column;
	size_t days;

	make_asked(L, &asked);
	days = asked.forcing.days;
	box = lua_newuserdatauv(L, sizeof *box + 3 * days * sizeof *column, 2);
	luaL_setmetatable(L, FORCING_T);
	f = &box->forcing;
	box->sky = (struct tarn_study_sky){ asked.cut, asked.method };
	column = (double *)(void *)(box + 1);
	*f = asked.forcing;
	memcpy(column, f->rain_mm, days * sizeof *column);
	memcpy(column + days, f->open_water_mm, days * sizeof *column);
	memcpy(column + 2 * days, f->grass_mm, days * sizeof *column);
	f->rain_mm = column;
	f->open_water_mm = column + days;
	f->grass_mm = column + 2 * days;
	bind_push_report(L, &asked.report);
	lua_setiuservalue(L, -2, 1);
	lua_pushvalue(L, asked.cut == asked.weather ? 2 : 4);
	lua_setiuservalue(L, -2, 2);
	return 1;
}

/* pond:run(weather, {first =, last =, start_level =, method =, each_day =,
 * topup =, stopped =}) -> ledger */
static int l_run(lua_State *L)
{
	struct asked asked;
	struct bind_control control;
	struct tarn_ledger **ledger;
	struct tarn_error err = { 0 };
	enum tarn_status status;
	int at;

	make_asked(L, &asked);
	lua_getfield(L, 3, "each_day");
	if (bind_take_control(L, &control)) {
		asked.run.control = bind_ask_control;
		asked.run.control_context = &control;
	}
	ledger = bind_new_ledger(L, asked.pond);
	at = lua_gettop(L);
	bind_push_report(L, &asked.report);
	lua_setiuservalue(L, at, 1);
	luaL_checkstack(L, 8, NULL);
	status = tarn_ledger_run(ledger, NULL, asked.pond, &asked.forcing,
				 &asked.run, &err);
	if (control.failed)
		return bind_control_error(&control);
	if (status != TARN_OK)
		bind_fail(L, &err, NULL);
	lua_settop(L, at);
	return 1;
}

/*
 * pond:endurance(weather, {level =, start_level =, first =, last =, ...}) ->
 * list: for each day the number of days until the level falls under 'level'
 * without top-up, false where the weather ends (or a year passes) before
 */
static int l_endurance(lua_State *L)
{
	struct asked asked;
	struct tarn_error err = { 0 };
	double level_m;
	long *days;

	make_asked(L, &asked);
	level_m = bind_field(L, 3, "", "level", "m", -1000, 10000,
			     asked.pond->intake_m);
	if (isnan(level_m))
		bind_error(L, "level is missing, and the pond has no intake "
			   "level");
	days = lua_newuserdatauv(L, asked.forcing.days * sizeof *days, 0);
	bind_must(L, tarn_pond_endurance(asked.pond, &asked.forcing, &asked.run,
					 level_m, days, &err), &err);
	lua_createtable(L, (int)asked.forcing.days, 0);
	for (size_t i = 0; i < asked.forcing.days; i++) {
		if (days[i] < 0)
			lua_pushboolean(L, 0);
		else
			lua_pushinteger(L, days[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

/*
 * pond:beside(weather, {first =, last =, method = the one in use}) -> list of
 * the other methods that could be run if no day were missing: {method =, title
 * =, lacking = days, days = of all, compared = true unless it lacks too many}
 */
static int l_beside(lua_State *L)
{
	struct asked asked;
	size_t days;
	int n = 0;

	asked.pond = &bind_check_pond(L, 1)->made.pond;
	asked.weather = bind_check_weather(L, 2);
	lua_settop(L, 3);
	luaL_checktype(L, 3, LUA_TTABLE);
	bind_known(L, 3, NULL, run_names);
	read_evaporation(L, &asked);
	asked.cut = cut_weather(L, asked.weather);
	days = tarn_weather_days(asked.cut);
	lua_newtable(L);
	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++) {
		long lacking = tarn_evaporation_lacking(
			asked.cut, &asked.evaporation, (enum tarn_method)m);

		if (lacking < 0 || m == asked.method)
			continue;
		lua_createtable(L, 0, 5);
		lua_pushstring(L, tarn_method_name((enum tarn_method)m));
		lua_setfield(L, -2, "method");
		lua_pushstring(L, tarn_method_title((enum tarn_method)m));
		lua_setfield(L, -2, "title");
		bind_set_int(L, "lacking", (int)lacking);
		bind_set_int(L, "days", (int)days);
		bind_set_flag(L, "compared", (double)lacking <=
				TARN_BESIDE_LACKING * (double)days);
		lua_rawseti(L, -2, ++n);
	}
	return 1;
}

void bind_ledger_run(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "run", l_run },
		{ "methods", l_methods },
		{ "beside", l_beside },
		{ "forcing", bind_pond_forcing },
		{ "endurance", l_endurance },
		{ NULL, NULL }
	};

	bind_methods(L, POND_T, methods);
}
