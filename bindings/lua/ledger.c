/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>

#include "bind_pond.h"
#include "bind_weather.h"

/* A pond under a weather, and what comes out. */

#define LEDGER_T "tarn.ledger"
struct ledger_box {
	struct tarn_ledger *ledger;	/* owned */
	double full_area_m2;
	struct tarn_evaporation_report report;
};

static struct ledger_box *check_ledger(lua_State *L)
{
	return luaL_checkudata(L, 1, LEDGER_T);
}

const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg)
{
	const struct ledger_box *box = luaL_checkudata(L, arg, LEDGER_T);

	return box->ledger;
}

static struct ledger_box *new_ledger(lua_State *L)
{
	struct ledger_box *box = lua_newuserdatauv(L, sizeof *box, 0);

	*box = (struct ledger_box){ .ledger = NULL };
	luaL_setmetatable(L, LEDGER_T);
	return box;
}

BIND_FREE(ledger, LEDGER_T)

/* ---- tables of days and periods ------------------------------------------ */

/* A name that the period does not have is left out. */
static void push_period(lua_State *L, const struct tarn_period *p)
{
	const struct {
		const char *name;
		int value;
	} names[] = {
		{ "year", p->year }, { "month", p->month },
		{ "week", p->week }, { "week_year", p->week_year },
	};

	bind_push(L, &tarn_period_fields, p);
	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		if (names[i].value == 0) {
			lua_pushnil(L);
			lua_setfield(L, -2, names[i].name);
		}
}

static int push_periods(lua_State *L, enum tarn_period_kind kind)
{
	const struct tarn_ledger *ledger = check_ledger(L)->ledger;
	size_t count, next;
	lua_Integer row = 0;

	tarn_ledger_days(ledger, &count);
	lua_newtable(L);
	for (size_t at = 0; at < count; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, kind, at,
							  &next);

		push_period(L, &p);
		lua_rawseti(L, -2, ++row);
	}
	return 1;
}

static int l_weeks(lua_State *L)
{
	return push_periods(L, TARN_BY_WEEK);
}

static int l_months(lua_State *L)
{
	return push_periods(L, TARN_BY_MONTH);
}

static int l_years(lua_State *L)
{
	return push_periods(L, TARN_BY_YEAR);
}

static int l_days(lua_State *L)
{
	size_t count;
	const struct tarn_ledger_day *days =
		tarn_ledger_days(check_ledger(L)->ledger, &count);

	bind_push_list(L, &tarn_ledger_day_fields, days, count, sizeof *days);
	return 1;
}

static int l_totals(lua_State *L)
{
	const struct tarn_ledger *ledger = check_ledger(L)->ledger;
	size_t next;
	struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_RUN, 0,
						  &next);

	push_period(L, &p);
	bind_set(L, "residual", tarn_ledger_residual(ledger));
	bind_set(L, "need", tarn_ledger_need(ledger));
	return 1;
}

/* ledger:depth(volume) -> mm over the water surface at the lip */
static int l_depth(lua_State *L)
{
	lua_pushnumber(L, luaL_checknumber(L, 2) * 1e3 /
				  check_ledger(L)->full_area_m2);
	return 1;
}

/* ledger:report() -> how the evaporation was found */
static int l_report(lua_State *L)
{
	bind_push_report(L, &check_ledger(L)->report);
	return 1;
}

static int l_tostring(lua_State *L)
{
	size_t next;
	struct tarn_period p = tarn_ledger_period(check_ledger(L)->ledger,
						  TARN_BY_RUN, 0, &next);
	char text[160], first[11], last[11];

	tarn_day_text(p.first_day, first);
	tarn_day_text(p.last_day, last);
	snprintf(text, sizeof text, "ledger: %d days, %s to %s, top-up %.4g "
		 "m3", p.days, first, last, p.flows.topup_m3);
	lua_pushstring(L, text);
	return 1;
}

static int l_length(lua_State *L)
{
	size_t count;

	tarn_ledger_days(check_ledger(L)->ledger, &count);
	lua_pushinteger(L, (lua_Integer)count);
	return 1;
}

/* ---- the weather of a pond ---------------------------------------------- */

static int l_free_forcing(lua_State *L)
{
	tarn_sky_free(luaL_checkudata(L, 1, FORCING_T));
	return 0;
}

struct tarn_sky *bind_new_forcing(lua_State *L, const struct pond_box *pond,
				  int arg,
				  const struct tarn_run_options *options)
{
	const struct tarn_weather *w = bind_check_weather(L, arg);
	struct tarn_sky *sky = lua_newuserdatauv(L, sizeof *sky, 0);

	*sky = (struct tarn_sky){ .alloc = NULL };
	luaL_setmetatable(L, FORCING_T);
	BIND_DO(L, tarn_sky_make, sky, NULL, w, &pond->made, options);
	return sky;
}

struct tarn_sky *bind_read_run(lua_State *L, struct tarn_run_options *o,
			       const char *const also[])
{
	const struct pond_box *pond = bind_check_pond(L, 1);

	bind_check_weather(L, 2);
	bind_want_table(L, 3);
	*o = tarn_run_options_default();
	bind_fields(L, 3, &tarn_run_options_fields, o, also);
	/* within this basin, before any weather is looked at */
	o->start_level_m = bind_field(L, 3, "", "start_level", "m",
				      tarn_basin_floor(pond->made.pond.basin),
				      pond->made.pond.overflow_level_m, TARN_NAN);
	return bind_new_forcing(L, pond, 2, o);
}

/* pond:methods(weather) -> list of the methods that can be run, best known
 * first */
static int l_methods(lua_State *L)
{
	bind_push_methods(L, bind_check_weather(L, 2),
			  &bind_check_pond(L, 1)->made.evaporation);
	return 1;
}

/*
 * pond:beside(weather, options with the method in use) -> list of the other
 * methods that could be run if no day were missing: {method =, title =, lacking
 * = days, days = of all, compared = true unless it lacks too many}
 */
static int l_beside(lua_State *L)
{
	struct tarn_run_options o;
	const struct tarn_sky *sky = bind_read_run(L, &o, NULL);
	const struct pond_box *pond = bind_check_pond(L, 1);
	size_t days = tarn_weather_counted(sky->weather);
	int n = 0;

	lua_newtable(L);
	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++) {
		long lacking = tarn_evaporation_lacking(
			sky->weather, &pond->made.evaporation,
			(enum tarn_method)m);

		if (lacking == -2)
			return bind_no_memory(L);
		if (lacking < 0 || m == (int)sky->report.method)
			continue;
		lua_createtable(L, 0, 5);
		lua_pushstring(L, tarn_method_name((enum tarn_method)m));
		lua_setfield(L, -2, "method");
		lua_pushstring(L, tarn_method_title((enum tarn_method)m));
		lua_setfield(L, -2, "title");
		bind_set_count(L, "lacking", (size_t)lacking);
		bind_set_count(L, "days", days);
		bind_set_flag(L, "compared", (double)lacking <=
				TARN_BESIDE_LACKING * (double)days);
		lua_rawseti(L, -2, ++n);
	}
	return 1;
}

/* pond:forcing(weather, options) -> forcing */
static int l_forcing(lua_State *L)
{
	struct tarn_run_options o;

	bind_read_run(L, &o, NULL);
	return 1;
}

/* pond:run(weather, options with each_day) -> ledger */
static int l_run(lua_State *L)
{
	static const char *const also[] = { "each_day", NULL };
	struct tarn_run_options o;
	const struct tarn_sky *sky = bind_read_run(L, &o, also);
	const struct tarn_pond *pond = &bind_check_pond(L, 1)->made.pond;
	struct tarn_run run = tarn_run_of(&o);
	struct bind_control control;
	struct ledger_box *box;
	struct tarn_error err = { 0 };
	enum tarn_status status;
	int at;

	lua_getfield(L, 3, "each_day");
	bind_take_control(L, &control, &run);
	box = new_ledger(L);
	at = lua_gettop(L);
	box->full_area_m2 = tarn_basin_area(pond->basin, pond->overflow_level_m);
	box->report = sky->report;
	luaL_checkstack(L, 8, NULL);
	status = tarn_ledger_run(&box->ledger, NULL, pond, &sky->forcing, &run,
				 &err);
	if (control.failed)
		return bind_control_error(&control);
	bind_must(L, status, &err);
	lua_settop(L, at);
	return 1;
}

/*
 * pond:endurance(weather, options with level) -> list: for each day the number
 * of days until the level falls under 'level' without top-up; false where the
 * weather ends, a day is left out, or a year passes before; "left_out" for a day
 * that is
 */
static int l_endurance(lua_State *L)
{
	static const char *const also[] = { "level", NULL };
	struct tarn_run_options o;
	const struct tarn_sky *sky = bind_read_run(L, &o, also);
	const struct tarn_pond *pond = &bind_check_pond(L, 1)->made.pond;
	struct tarn_run run = tarn_run_of(&o);
	double level_m = bind_field(L, 3, "", "level", "m", -1000, 10000,
				    pond->intake_m);
	size_t count = sky->forcing.days;
	long *days = lua_newuserdatauv(L, count * sizeof *days, 0);

	if (isnan(level_m))
		bind_error(L, "level is missing, and the pond has no intake "
			   "level");
	BIND_DO(L, tarn_pond_endurance, pond, &sky->forcing, &run, level_m,
		days);
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		if (days[i] == TARN_ENDURANCE_LEFT_OUT)
			lua_pushliteral(L, "left_out");
		else if (days[i] < 0)
			lua_pushboolean(L, 0);
		else
			lua_pushinteger(L, days[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static struct tarn_sky *check_forcing(lua_State *L)
{
	return luaL_checkudata(L, 1, FORCING_T);
}

/* forcing:report() -> how the evaporation was found */
static int l_forcing_report(lua_State *L)
{
	bind_push_report(L, &check_forcing(L)->report);
	return 1;
}

static int l_forcing_length(lua_State *L)
{
	lua_pushinteger(L, (lua_Integer)check_forcing(L)->forcing.days);
	return 1;
}

void bind_ledger(lua_State *L)
{
	static const luaL_Reg ledger[] = {
		{ "days", l_days },     { "weeks", l_weeks },
		{ "months", l_months }, { "years", l_years },
		{ "totals", l_totals }, { "depth", l_depth },
		{ "report", l_report }, { "__tostring", l_tostring },
		{ "__len", l_length },  { "__gc", l_free },
		{ "__close", l_free },  { NULL, NULL }
	};
	static const luaL_Reg forcing[] = {
		{ "report", l_forcing_report },
		{ "__len", l_forcing_length }, { "__gc", l_free_forcing },
		{ NULL, NULL }
	};
	static const luaL_Reg pond[] = {
		{ "run", l_run }, { "methods", l_methods },
		{ "beside", l_beside },
		{ "forcing", l_forcing }, { "endurance", l_endurance },
		{ NULL, NULL }
	};

	bind_methods(L, LEDGER_T, ledger);
	bind_methods(L, FORCING_T, forcing);
	bind_methods(L, POND_T, pond);
}
