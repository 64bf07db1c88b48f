/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bind_pond.h"
#include "bind_weather.h"

#define LEDGER_T "tarn.ledger"

struct ledger_box {
	struct tarn_ledger *ledger;
	double lip_area_m2;
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

static int l_free(lua_State *L)
{
	struct ledger_box *box = check_ledger(L);

	tarn_ledger_free(box->ledger);
	box->ledger = NULL;
	return 0;
}

/* ---- tables of days and periods ------------------------------------------ */

static void set_flows(lua_State *L, const struct tarn_flows *f)
{
	bind_set(L, "rain", f->rain_m3);
	bind_set(L, "runoff", f->runoff_m3);
	bind_set(L, "tank", f->tank_m3);
	bind_set(L, "topup", f->topup_m3);
	bind_set(L, "evaporation", f->evaporation_m3);
	bind_set(L, "bed", f->bed_m3);
	bind_set(L, "stream", f->stream_m3);
	bind_set(L, "splash", f->splash_m3);
	bind_set(L, "seepage", f->seepage_m3);
	bind_set(L, "withdrawal", f->withdrawal_m3);
	bind_set(L, "overflow", f->overflow_m3);
	bind_set(L, "shortfall", f->shortfall_m3);
	bind_set(L, "unmet", f->unmet_m3);
	bind_set(L, "roof", f->roof_m3);
	bind_set(L, "tank_spill", f->tank_spill_m3);
}

static void set_date(lua_State *L, const char *name, long day)
{
	char text[11];

	tarn_day_text(day, text);
	bind_set_text(L, name, text);
}

static void set_int(lua_State *L, const char *name, long value)
{
	lua_pushinteger(L, (lua_Integer)value);
	lua_setfield(L, -2, name);
}

static void set_flag(lua_State *L, const char *name, int on)
{
	lua_pushboolean(L, on);
	lua_setfield(L, -2, name);
}

static void push_day(lua_State *L, const struct tarn_ledger_day *d)
{
	lua_createtable(L, 0, 32);
	set_date(L, "date", d->day);
	bind_set(L, "rain_mm", d->rain_mm);
	bind_set(L, "open_water_mm", d->open_water_mm);
	bind_set(L, "grass_mm", d->grass_mm);
	set_flows(L, &d->flows);
	bind_set(L, "level", d->level_m);
	bind_set(L, "area", d->area_m2);
	bind_set(L, "volume", d->pond_m3);
	bind_set(L, "held", d->held_m3);
	bind_set(L, "in_tank", d->tank_m3);
	set_flag(L, "running", (d->flags & TARN_DAY_RUNNING) != 0);
	set_flag(L, "starved", (d->flags & TARN_DAY_STARVED) != 0);
	set_flag(L, "under_intake", (d->flags & TARN_DAY_UNDER_INTAKE) != 0);
	set_flag(L, "topped_up", (d->flags & TARN_DAY_TOPPED_UP) != 0);
	set_flag(L, "refused", (d->flags & TARN_DAY_REFUSED) != 0);
	set_flag(L, "spilled", (d->flags & TARN_DAY_SPILLED) != 0);
	set_flag(L, "dry", (d->flags & TARN_DAY_DRY) != 0);
}

static void push_period(lua_State *L, const struct tarn_period *p)
{
	struct tarn_date first = tarn_date(p->first_day);
	struct tarn_week week = tarn_week(p->first_day);

	lua_createtable(L, 0, 48);
	set_date(L, "first", p->first_day);
	set_date(L, "last", p->last_day);
	set_int(L, "year", first.year);
	set_int(L, "month", first.month);
	set_int(L, "week", week.week);
	set_int(L, "week_year", week.year);
	set_flag(L, "complete", p->complete);
	set_flows(L, &p->flows);
	bind_set(L, "rain_mm", p->rain_mm);
	bind_set(L, "open_water_mm", p->open_water_mm);
	bind_set(L, "grass_mm", p->grass_mm);
	bind_set(L, "drop_mm", p->drop_mm);
	bind_set(L, "start_level", p->start_level_m);
	bind_set(L, "end_level", p->end_level_m);
	bind_set(L, "lowest_level", p->lowest_level_m);
	if (p->lowest_day != TARN_NO_DAY)
		set_date(L, "lowest_date", p->lowest_day);
	bind_set(L, "start_store", p->start_store_m3);
	bind_set(L, "end_store", p->end_store_m3);
	bind_set(L, "in_tank", p->end_tank_m3);
	set_int(L, "days", p->days);
	set_int(L, "running", p->running);
	set_int(L, "starved", p->starved);
	set_int(L, "under_intake", p->under_intake);
	set_int(L, "topped_up", p->topped_up);
	set_int(L, "refused", p->refused);
	set_int(L, "spilled", p->spilled);
	set_int(L, "dry", p->dry);
}

static int push_periods(lua_State *L, enum tarn_period_kind kind)
{
	const struct ledger_box *box = check_ledger(L);
	size_t count, next;
	lua_Integer row = 0;

	tarn_ledger_days(box->ledger, &count);
	lua_newtable(L);
	for (size_t at = 0; at < count; at = next) {
		struct tarn_period p = tarn_ledger_period(box->ledger, kind,
							  at, &next);

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

	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		push_day(L, &days[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_totals(lua_State *L)
{
	const struct ledger_box *box = check_ledger(L);
	size_t next;
	struct tarn_period p = tarn_ledger_period(box->ledger, TARN_BY_RUN, 0,
						  &next);

	push_period(L, &p);
	bind_set(L, "residual", tarn_ledger_residual(box->ledger));
	return 1;
}

/* ledger:depth(volume) -> mm over the water surface at the lip */
static int l_depth(lua_State *L)
{
	lua_pushnumber(L, luaL_checknumber(L, 2) * 1e3 /
				  check_ledger(L)->lip_area_m2);
	return 1;
}

/* ledger:report() -> how the evaporation was found */
static int l_report(lua_State *L)
{
	check_ledger(L);
	lua_getiuservalue(L, 1, 1);
	return 1;
}

static int l_tostring(lua_State *L)
{
	size_t count, next;
	const struct ledger_box *box = check_ledger(L);
	struct tarn_period p = tarn_ledger_period(box->ledger, TARN_BY_RUN, 0,
						  &next);
	char text[160], first[11], last[11];

	tarn_ledger_days(box->ledger, &count);
	tarn_day_text(p.first_day, first);
	tarn_day_text(p.last_day, last);
	snprintf(text, sizeof text, "ledger: %zu days, %s to %s, top-up %.4g "
		 "m3", count, first, last, p.flows.topup_m3);
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

/* forcing:report() -> how the evaporation was found */
static int l_forcing_report(lua_State *L)
{
	luaL_checkudata(L, 1, FORCING_T);
	lua_getiuservalue(L, 1, 1);
	return 1;
}

static int l_forcing_length(lua_State *L)
{
	struct tarn_forcing *f = luaL_checkudata(L, 1, FORCING_T);

	lua_pushinteger(L, (lua_Integer)f->days);
	return 1;
}

void bind_ledger(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "days", l_days },     { "weeks", l_weeks },
		{ "months", l_months }, { "years", l_years },
		{ "totals", l_totals }, { "depth", l_depth },
		{ "report", l_report }, { "__tostring", l_tostring },
		{ "__len", l_length },  { "__gc", l_free },
		{ "__close", l_free },  { NULL, NULL }
	};
	static const luaL_Reg forcing[] = {
		{ "report", l_forcing_report },
		{ "__len", l_forcing_length },
		{ NULL, NULL }
	};

	luaL_newmetatable(L, LEDGER_T);
	luaL_setfuncs(L, methods, 0);
	lua_pushvalue(L, -1);
	lua_setfield(L, -2, "__index");
	luaL_newmetatable(L, FORCING_T);
	luaL_setfuncs(L, forcing, 0);
	lua_pushvalue(L, -1);
	lua_setfield(L, -2, "__index");
	lua_pop(L, 2);
}

/* ---- running ----------------------------------------------------------- */

/* What a run takes from its options; 'options' is the stack index of the
 * table. */
struct plan {
	const struct tarn_pond *pond;
	const struct tarn_weather *weather;
	struct tarn_evaporation_options evaporation;
	struct tarn_evaporation_report report;
	struct tarn_forcing forcing;
	struct tarn_run run;
};

static const char *const run_names[] = {
	"first", "last", "start_level", "method", "each_day", "topup",
	"stopped", "level", NULL
};

static int read_switch(lua_State *L, int arg, const char *name, int otherwise)
{
	int type = lua_getfield(L, arg, name);
	int on = type == LUA_TNIL ? otherwise : lua_toboolean(L, -1);

	if (type != LUA_TNIL && type != LUA_TBOOLEAN)
		bind_error(L, "%s must be true or false", name);
	lua_pop(L, 1);
	return on;
}

static long read_day(lua_State *L, int arg, const char *name, long otherwise)
{
	long day = otherwise;

	if (lua_getfield(L, arg, name) != LUA_TNIL)
		day = bind_day(L, lua_gettop(L), name);
	lua_pop(L, 1);
	return day;
}

/* The method named on top of the stack is none. */
static void fail_method(lua_State *L)
{
	luaL_Buffer b;

	luaL_tolstring(L, -1, NULL);
	luaL_buffinit(L, &b);
	for (int m = 0; m < TARN_METHODS; m++) {
		luaL_addstring(&b, m ? ", " : "");
		luaL_addstring(&b, tarn_method_name((enum tarn_method)m));
	}
	luaL_pushresult(&b);
	bind_error(L, "method: there is none named '%s'; there are %s",
		   lua_tostring(L, -2), lua_tostring(L, -1));
}

/* Evaporation options: the description's, then the run's method. */
static void read_evaporation(lua_State *L, struct plan *plan)
{
	struct tarn_evaporation_options *o = &plan->evaporation;
	struct tarn_pond_facts facts;

	*o = tarn_evaporation_options_default();
	tarn_pond_facts(plan->pond, &facts, NULL);
	o->area_m2 = facts.lip_area_m2;
	o->depth_m = facts.lip_volume_m3 / facts.lip_area_m2;
	lua_getiuservalue(L, 1, 2);
	if (lua_getfield(L, -1, "evaporation") == LUA_TTABLE)
		bind_fields(L, -1, &tarn_evaporation_fields, o, NULL);
	lua_pop(L, 2);
	if (lua_getfield(L, 3, "method") != LUA_TNIL) {
		enum tarn_method m = TARN_METHODS;

		if (lua_type(L, -1) == LUA_TSTRING)
			m = tarn_method_find(lua_tostring(L, -1));
		if (m == TARN_METHODS)
			fail_method(L);
		o->method = (int)m;
	}
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
	if (first < start || last > end || last < first) {
		char a[11], b[11];

		tarn_day_text(start, a);
		tarn_day_text(end, b);
		bind_error(L, "first and last must lie within the weather's "
			   "days, %s to %s", a, b);
	}
	if (first == start && last == end)
		return w;
	part = bind_new_weather(L);
	if (tarn_weather_slice(part, w, first, last, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	return *part;
}

/* Works out evaporation over the days asked for. */
static void make_forcing(lua_State *L, struct plan *plan)
{
	const struct tarn_weather *w = cut_weather(L, plan->weather);
	size_t days = tarn_weather_days(w);
	double *open = lua_newuserdatauv(L, 2 * days * sizeof *open, 0);
	double *grass = open + days;
	struct tarn_error err = { 0 };

	if (tarn_evaporation_run(w, &plan->evaporation, open, grass, NULL,
				 &plan->report, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	plan->forcing.first_day = tarn_weather_first(w);
	plan->forcing.days = days;
	plan->forcing.rain_mm = tarn_weather_column(w, TARN_RAIN);
	plan->forcing.open_water_mm = open;
	plan->forcing.grass_mm = grass;
}

/* Reads pond, weather and options from arguments 1 to 3; leaves what the
 * forcing borrows on the stack. */
static void make_plan(lua_State *L, struct plan *plan)
{
	struct pond_box *box = luaL_checkudata(L, 1, POND_T);

	plan->pond = &box->pond;
	plan->weather = bind_check_weather(L, 2);
	lua_settop(L, 3);
	if (lua_isnil(L, 3)) {
		lua_newtable(L);
		lua_replace(L, 3);
	}
	bind_known(L, 3, NULL, run_names);
	read_evaporation(L, plan);
	plan->run = tarn_run_default();
	plan->run.start_level_m = bind_field(
		L, 3, "", "start_level", "m",
		tarn_basin_floor(box->pond.basin), box->pond.lip_m, TARN_NAN);
	plan->run.no_topup = !read_switch(L, 3, "topup", 1);
	plan->run.start_stopped = read_switch(L, 3, "stopped", 0);
	make_forcing(L, plan);
}

/* pond:methods(weather) -> list of the methods that can be run, best known
 * first */
int bind_pond_methods(lua_State *L)
{
	struct plan plan;
	lua_Integer row = 0;

	plan.pond = &((struct pond_box *)luaL_checkudata(L, 1, POND_T))->pond;
	plan.weather = bind_check_weather(L, 2);
	lua_settop(L, 2);
	lua_newtable(L);	/* no options */
	read_evaporation(L, &plan);
	lua_newtable(L);
	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++)
		if (tarn_evaporation_possible(plan.weather, &plan.evaporation,
					      (enum tarn_method)m)) {
			lua_pushstring(L, tarn_method_name((enum tarn_method)m));
			lua_rawseti(L, -2, ++row);
		}
	return 1;
}

static void fill_day(lua_State *L, const struct tarn_day_view *v,
		     const struct tarn_day_order *o)
{
	struct tarn_date date = tarn_date(v->day);

	set_date(L, "date", v->day);
	set_int(L, "year", date.year);
	set_int(L, "month", date.month);
	set_int(L, "day", date.day);
	set_int(L, "weekday", tarn_week(v->day).weekday);
	bind_set(L, "rain_mm", v->rain_mm);
	bind_set(L, "open_water_mm", v->open_water_mm);
	bind_set(L, "grass_mm", v->grass_mm);
	bind_set(L, "level", v->level_m);
	bind_set(L, "volume", v->pond_m3);
	bind_set(L, "in_tank", v->tank_m3);
	set_flag(L, "running", v->running);
	bind_set(L, "pump_hours", o->pump_hours);
	set_flag(L, "supply_open", v->supply_open);
	lua_pushnil(L);
	lua_setfield(L, -2, "topup");
}

static int protected_rule(lua_State *L)
{
	const struct tarn_day_view *view = lua_touserdata(L, 1);
	struct tarn_day_order *order = lua_touserdata(L, 2);

	/* 3: the function, 4: the day's table */
	lua_settop(L, 4);
	fill_day(L, view, order);
	lua_pushvalue(L, 3);
	lua_pushvalue(L, 4);
	lua_call(L, 1, 0);
	order->pump_hours = bind_field(L, 4, "day", "pump_hours", "h", 0, 24,
				       order->pump_hours);
	order->topup_m3 = bind_field(L, 4, "day", "topup", "m3", 0, 1e6,
				     TARN_NAN);
	lua_getfield(L, 4, "supply_open");
	order->supply_open = lua_toboolean(L, -1);
	return 0;
}

enum tarn_status bind_ask_rule(void *context, const struct tarn_day_view *view,
			       struct tarn_day_order *order,
			       struct tarn_error *err)
{
	struct bind_rule *rule = context;
	lua_State *L = rule->L;
	struct tarn_day_view v = *view;

	lua_pushcfunction(L, protected_rule);
	lua_pushlightuserdata(L, &v);
	lua_pushlightuserdata(L, order);
	lua_pushvalue(L, rule->function);
	lua_pushvalue(L, rule->day);
	if (lua_pcall(L, 4, 0, 0) == LUA_OK)
		return TARN_OK;
	return tarn_fail(err, TARN_ESTOP, "each_day", "failed");
}

static void push_report(lua_State *L, const struct plan *plan)
{
	const struct tarn_evaporation_report *r = &plan->report;

	lua_newtable(L);
	bind_set_text(L, "method", tarn_method_name(r->method));
	bind_set_text(L, "title", tarn_method_title(r->method));
	set_int(L, "days", (long)r->days);
	bind_set(L, "dew_mm", r->dew_mm);
	lua_newtable(L);
	for (int rule = 0, row = 0; rule < TARN_RULES; rule++) {
		const struct tarn_rule_info *info =
			tarn_rule_info((enum tarn_rule)rule);

		if (r->rule_days[rule] == 0)
			continue;
		lua_newtable(L);
		bind_set_text(L, "name", info->name);
		bind_set_text(L, "title", info->title);
		set_int(L, "days", (long)r->rule_days[rule]);
		set_flag(L, "estimate", info->estimate);
		lua_rawseti(L, -2, ++row);
	}
	lua_setfield(L, -2, "rules");
}

/* pond:forcing(weather, {first =, last =, method =}) -> forcing */
int bind_pond_forcing(lua_State *L)
{
	struct plan plan;
	struct tarn_forcing *f;
	double *column;
	size_t days;

	make_plan(L, &plan);
	days = plan.forcing.days;
	f = lua_newuserdatauv(L, sizeof *f + 3 * days * sizeof *column, 1);
	luaL_setmetatable(L, FORCING_T);
	column = (double *)(f + 1);
	*f = plan.forcing;
	memcpy(column, f->rain_mm, days * sizeof *column);
	memcpy(column + days, f->open_water_mm, days * sizeof *column);
	memcpy(column + 2 * days, f->grass_mm, days * sizeof *column);
	f->rain_mm = column;
	f->open_water_mm = column + days;
	f->grass_mm = column + 2 * days;
	push_report(L, &plan);
	lua_setiuservalue(L, -2, 1);
	return 1;
}

/* pond:run(weather, {first =, last =, start_level =, method =, each_day =,
 * topup =, stopped =}) -> ledger */
int bind_pond_run(lua_State *L)
{
	struct plan plan;
	struct bind_rule rule;
	struct ledger_box *box;
	struct tarn_error err = { 0 };
	enum tarn_status status;
	int at;

	make_plan(L, &plan);
	rule.L = L;
	if (lua_getfield(L, 3, "each_day") != LUA_TNIL) {
		if (!lua_isfunction(L, -1))
			bind_error(L, "each_day must be a function of the day");
		plan.run.rule = bind_ask_rule;
		plan.run.rule_context = &rule;
	}
	rule.function = lua_gettop(L);
	lua_newtable(L);
	rule.day = lua_gettop(L);
	box = lua_newuserdatauv(L, sizeof *box, 1);
	at = lua_gettop(L);
	box->ledger = NULL;
	box->lip_area_m2 = tarn_basin_area(plan.pond->basin, plan.pond->lip_m);
	luaL_setmetatable(L, LEDGER_T);
	push_report(L, &plan);
	lua_setiuservalue(L, at, 1);
	luaL_checkstack(L, 8, NULL);
	status = tarn_ledger_run(&box->ledger, NULL, plan.pond, &plan.forcing,
				 &plan.run, &err);
	if (status == TARN_ESTOP)
		return lua_error(L);	/* the rule's own, on top */
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
int bind_pond_endurance(lua_State *L)
{
	struct plan plan;
	struct tarn_error err = { 0 };
	double level_m;
	long *days;

	make_plan(L, &plan);
	level_m = bind_field(L, 3, "", "level", "m", -1000, 10000,
			     plan.pond->intake_m);
	if (isnan(level_m))
		bind_error(L, "level is missing, and the pond has no intake "
			   "level");
	days = lua_newuserdatauv(L, plan.forcing.days * sizeof *days, 0);
	if (tarn_pond_endurance(plan.pond, &plan.forcing, &plan.run, level_m,
				days, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	lua_createtable(L, (int)plan.forcing.days, 0);
	for (size_t i = 0; i < plan.forcing.days; i++) {
		if (days[i] < 0)
			lua_pushboolean(L, 0);
		else
			lua_pushinteger(L, days[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}
