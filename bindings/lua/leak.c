/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_leak.h"
#include "bind_pond.h"
#include "bind_weather.h"

#define LEAK_T "tarn.leak"
/*
 * A finished fit, and what it was made from: user values hold the pond, the
 * log and the forcing.
 */
struct leak_box {
	struct tarn_leak *leak;
	const struct tarn_pond *pond;
	const struct tarn_sky *sky;
	const struct log_box *log;
	struct tarn_leak_options options;
	struct tarn_run_options run;
};
enum { LEAK_POND = 1, LEAK_LOG, LEAK_FORCING, LEAK_WEATHER };

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
			 const struct pond_box *pond,
			 struct tarn_leak_options *o)
{
	static const char *const also[] = {
		"pond", "weather", "log", "method", NULL
	};

	*o = tarn_leak_options_default();
	o->site = tarn_design_leak_site(pond->given);
	o->counts_down = log->info.counts_down;
	o->step_m = log->info.step_m;
	bind_fields(L, 1, &tarn_leak_fields, o, also);
}

/* What no option says of the prior comes from the description and its run. */
static void set_prior(struct leak_box *box, const struct pond_box *pond)
{
	struct tarn_leak_options *o = &box->options;
	struct tarn_leak_prior p = tarn_design_leak_prior(
		pond->given, (enum tarn_leak_site)o->site, &box->sky->report);

	if (isnan(o->evaporation_mean))
		o->evaporation_mean = p.mean;
	if (isnan(o->evaporation_sd))
		o->evaporation_sd = p.sd;
}

/*
 * leak{pond =, weather =, log =, method =, and fields of tarn_leak_fields}
 * -> leak
 */
static int l_leak(lua_State *L)
{
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
	box = lua_newuserdatauv(L, sizeof *box, 4);	/* 5 */
	*box = (struct leak_box){ .pond = &pond->made.pond, .log = log,
				  .run = tarn_run_options_default() };
	luaL_setmetatable(L, LEAK_T);
	read_options(L, log, pond, &box->options);
	bind_read(L, 1, &tarn_run_options_fields, &box->run);
	set_days(&box->run, bind_check_weather(L, 3), log);
	box->sky = bind_new_forcing(L, pond, 3, &box->run);
	set_prior(box, pond);
	BIND_DO(L, tarn_forcing_check, &box->sky->forcing);
	lua_setiuservalue(L, 5, LEAK_FORCING);
	lua_pushvalue(L, 4);
	lua_setiuservalue(L, 5, LEAK_LOG);
	lua_pushvalue(L, 2);
	lua_setiuservalue(L, 5, LEAK_POND);
	lua_pushvalue(L, 3);
	lua_setiuservalue(L, 5, LEAK_WEATHER);
	if (tarn_leak_fit(&box->leak, NULL, box->pond, &box->sky->forcing,
			  log->readings, log->count, &box->options, &err) !=
	    TARN_OK)
		bind_fail(L, &err, log->path[0] ? log->path : NULL);
	lua_settop(L, 5);
	return 1;
}

/* ---- what a finished fit tells ------------------------------------------- */

static struct leak_box *check_leak(lua_State *L)
{
	return luaL_checkudata(L, 1, LEAK_T);
}

/* leak:result() */
static int l_result(lua_State *L)
{
	const struct tarn_leak_result *r = tarn_leak_result(check_leak(L)->leak);

	bind_push(L, &tarn_leak_result_fields, r);
	bind_set_flag(L, "inside", r->verdict == TARN_INSIDE);
	bind_set_flag(L, "outside", r->verdict == TARN_OUTSIDE);
	return 1;
}

/* leak:intervals() */
static int l_intervals(lua_State *L)
{
	size_t count;
	const struct tarn_interval *v =
		tarn_leak_intervals(check_leak(L)->leak, &count);

	bind_push_list(L, &tarn_interval_fields, v, count, sizeof *v);
	return 1;
}

/* leak:advice() -> what the log says, and what to do next */
static int l_advice(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	size_t count;
	const struct tarn_interval *v = tarn_leak_intervals(box->leak, &count);
	struct tarn_log_advice a = tarn_log_advise(tarn_leak_result(box->leak),
						   v, count, &box->options);

	bind_push(L, &tarn_log_advice_fields, &a);
	return 1;
}

/* leak:options() -> those of the fit */
static int l_options(lua_State *L)
{
	bind_push(L, &tarn_leak_fields, &check_leak(L)->options);
	return 1;
}

/* leak:weeks() */
static int l_weeks(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	size_t count, next;
	lua_Integer row = 0;

	tarn_leak_intervals(box->leak, &count);
	lua_newtable(L);
	for (size_t at = 0; at < count; at = next) {
		struct tarn_meter_week w = tarn_leak_week(box->leak, at, &next);

		if (!(w.days > 0))
			continue;
		bind_push(L, &tarn_meter_week_fields, &w);
		lua_rawseti(L, -2, ++row);
	}
	return 1;
}

/* ---- calibration and prediction ------------------------------------------------ */

/* leak:calibration() -> fields for a description */
static int l_calibration(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	struct tarn_pond p;

	BIND_DO(L, tarn_leak_calibrated, tarn_leak_result(box->leak), box->pond,
		&p);
	lua_createtable(L, 0, 3);
	bind_set(L, "open_water_factor",
		 p.open_water_factor * box->sky->report.centre);
	bind_push_numbers(L, p.bed.plant_factor, 12);
	lua_setfield(L, -2, "plant_factor");
	bind_set(L, "seepage_volume", p.seepage.volume_m3s);
	return 1;
}

/* Another description has evaporation of its own; NULL: the fit's pond. */
static struct tarn_level_point *new_path(lua_State *L,
					 const struct leak_box *box,
					 const struct pond_box *other)
{
	const struct tarn_pond *pond = other ? &other->made.pond : box->pond;
	const struct tarn_sky *sky = box->sky;
	struct tarn_level_point *points = lua_newuserdatauv(
		L, (box->log->count + 1) * sizeof *points, 0);
	struct tarn_leak_options options = box->options;

	if (other) {	/* as it says itself */
		options.evaporation_mean = 1;
		lua_getiuservalue(L, 1, LEAK_WEATHER);
		sky = bind_new_forcing(L, other, lua_gettop(L), &box->run);
	}
	BIND_DO(L, tarn_leak_path, NULL, pond, &sky->forcing,
		box->log->readings, box->log->count, &options, points);
	return points;
}

/* Readings under the pump's intake; none where no intake is described. */
static struct tarn_log_doubts doubts_of(lua_State *L,
					const struct leak_box *box)
{
	struct tarn_log_doubts d = { 0 };

	if (!isnan(box->pond->intake_m)) {
		d = tarn_log_doubt(new_path(L, box, NULL),
				   box->log->count, box->pond->intake_m);
		lua_pop(L, 1);
	}
	return d;
}

/* leak:findings() -> list */
static int l_findings(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	const struct tarn_leak_result *r = tarn_leak_result(box->leak);
	struct tarn_log_doubts doubts = doubts_of(L, box);
	struct tarn_findings list = { 0 };
	size_t count;
	const struct tarn_interval *v = tarn_leak_intervals(box->leak, &count);
	struct tarn_log_advice a = tarn_log_advise(r, v, count, &box->options);

	tarn_log_judge(&a, r, &doubts, &list);
	bind_push_findings(L, &list);
	return 1;
}

/* leak:doubts() -> how many readings lie under the pump's intake, the first of
 * them; nil if there is none */
static int l_doubts(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	struct tarn_log_doubts d = doubts_of(L, box);

	if (d.low == 0)
		return 0;
	bind_push(L, &tarn_log_doubts_fields, &d);
	bind_set_day(L, "first", box->log->readings[d.first].day);
	return 1;
}

/* leak:path(pond) -> list of points; the fit's own pond by default */
static int l_path(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	const struct pond_box *other = NULL;
	struct tarn_level_point *points;

	if (!lua_isnoneornil(L, 2))
		other = bind_check_pond(L, 2);
	points = new_path(L, box, other);
	lua_createtable(L, (int)box->log->count, 0);
	for (size_t i = 0; i < box->log->count; i++) {
		bind_push(L, &tarn_level_point_fields, &points[i]);
		bind_set_day(L, "date", box->log->readings[i].day);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

/* leak:holdout(): fit of the first half, prediction of the second */
static int l_holdout(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	struct tarn_holdout h;

	BIND_DO(L, tarn_leak_holdout, NULL, box->pond, &box->sky->forcing,
		box->log->readings, box->log->count, &box->options, &h);
	bind_push(L, &tarn_holdout_fields, &h);
	return 1;
}

/* leak:report(): how the evaporation was found, as ledger:report() */
static int l_report(lua_State *L)
{
	bind_push_report(L, &check_leak(L)->sky->report);
	return 1;
}

void bind_leak(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "result", l_result }, { "intervals", l_intervals },
		{ "weeks", l_weeks },   { "calibration", l_calibration },
		{ "path", l_path },     { "holdout", l_holdout },
		{ "report", l_report }, { "advice", l_advice },
		{ "findings", l_findings },
		{ "doubts", l_doubts }, { "options", l_options },
		{ "__gc", l_free },     { "__close", l_free },
		{ NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "leak", l_leak },
		{ NULL, NULL }
	};

	bind_methods(L, LEAK_T, methods);
	luaL_setfuncs(L, functions, 0);
}
