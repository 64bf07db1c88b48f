/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_leak.h"
#include "bind_pond.h"
#include "bind_weather.h"

#define LEAK_T "tarn.leak"

/*
 * A finished fit, and what it was made from: user values hold the pond, the
 * log, the buffer of the forcing and the report on evaporation.
 */
struct leak_box {
	struct tarn_leak *leak;
	const struct tarn_pond *pond;
	struct tarn_forcing forcing;
	const struct log_box *log;
	struct tarn_leak_options options;
};
enum { POND = 1, LOG, FORCING, REPORT };

static struct leak_box *check_leak(lua_State *L)
{
	return luaL_checkudata(L, 1, LEAK_T);
}

static int l_free(lua_State *L)
{
	struct leak_box *box = check_leak(L);

	tarn_leak_free(box->leak);
	box->leak = NULL;
	return 0;
}

/* ---- small sets -------------------------------------------------------------- */

void bind_flag(lua_State *L, const char *name, int on)
{
	lua_pushboolean(L, on);
	lua_setfield(L, -2, name);
}

void bind_date(lua_State *L, const char *name, long day)
{
	char text[11];

	if (day == TARN_NO_DAY)
		return;
	tarn_day_text(day, text);
	bind_set_text(L, name, text);
}

void bind_estimate(lua_State *L, const char *name,
		   const struct tarn_estimate *e)
{
	if (isnan(e->mean))
		return;
	lua_createtable(L, 0, 4);
	bind_set(L, "mean", e->mean);
	bind_set(L, "low", e->low);
	bind_set(L, "high", e->high);
	bind_set(L, "sd", e->sd);
	lua_setfield(L, -2, name);
}

static void set_count(lua_State *L, const char *name, size_t count)
{
	lua_pushinteger(L, (lua_Integer)count);
	lua_setfield(L, -2, name);
}

/* ---- results ------------------------------------------------------------------ */

static void set_change(lua_State *L, const struct tarn_change *c)
{
	lua_createtable(L, 0, 8);
	bind_set(L, "chance", c->chance);
	bind_flag(L, "found", c->found);
	bind_date(L, "first", c->first_day);
	bind_date(L, "date", c->day);
	bind_date(L, "last", c->last_day);
	if (c->found) {
		bind_estimate(L, "before_mm_d", &c->before_mm_d);
		bind_estimate(L, "after_mm_d", &c->after_mm_d);
	}
	lua_setfield(L, -2, "change");
}

/* leak:result() */
static int l_result(lua_State *L)
{
	const struct tarn_leak_result *r = tarn_leak_result(check_leak(L)->leak);

	lua_createtable(L, 0, 24);
	bind_set_text(L, "verdict", tarn_verdict_text(r->verdict));
	bind_flag(L, "inside", r->verdict == TARN_INSIDE);
	bind_flag(L, "outside", r->verdict == TARN_OUTSIDE);
	bind_flag(L, "gains", r->gains);
	set_count(L, "readings", r->readings);
	set_count(L, "used", r->used);
	set_count(L, "set_aside", r->set_aside);
	set_count(L, "outside_weather", r->outside_weather);
	set_count(L, "wild", r->wild);
	bind_set(L, "days", r->days);
	bind_set(L, "area", r->area_m2);
	bind_set(L, "logged_mm", r->logged_mm);
	bind_estimate(L, "expected_mm", &r->expected_mm);
	bind_estimate(L, "evaporation_factor", &r->evaporation_factor);
	bind_estimate(L, "rain_factor", &r->rain_factor);
	bind_estimate(L, "unexplained_m3_d", &r->unexplained_m3_d);
	bind_estimate(L, "unexplained_mm_d", &r->unexplained_mm_d);
	bind_set(L, "chance_of_loss", r->chance_of_loss);
	bind_estimate(L, "sound_factor", &r->sound_factor);
	bind_estimate(L, "per_head_m3_d_m", &r->per_head_m3_d_m);
	bind_flag(L, "head_tells", r->head_tells);
	bind_set(L, "noise", r->noise);
	bind_set(L, "resolvable_mm_d", r->resolvable_mm_d);
	set_change(L, &r->change);
	return 1;
}

static const char *use_name(int use)
{
	static const char *const names[] = {
		"used", "metered", "refilled", "pump switched", "skipped",
		"no weather", "spilled", "unexplained rise"
	};

	return names[use];
}

/* leak:intervals() */
static int l_intervals(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	size_t count;
	const struct tarn_interval *v = tarn_leak_intervals(box->leak, &count);

	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 16);
		bind_date(L, "from", box->log->readings[v[i].from].day);
		bind_date(L, "to", box->log->readings[v[i].to].day);
		bind_set(L, "line", (double)box->log->readings[v[i].to].line);
		bind_set(L, "days", v[i].days);
		bind_set_text(L, "use", use_name(v[i].use));
		bind_set(L, "logged_mm", v[i].logged_mm);
		bind_set(L, "expected_mm", v[i].expected_mm);
		bind_set(L, "expected_sd_mm", v[i].expected_sd_mm);
		bind_set(L, "rain_mm", v[i].rain_mm);
		bind_set(L, "open_water_mm", v[i].open_water_mm);
		bind_set(L, "metered", v[i].metered_m3);
		bind_set(L, "implied_m3_d", v[i].implied_m3_d);
		bind_set(L, "expected_m3_d", v[i].expected_m3_d);
		bind_flag(L, "wild", v[i].wild);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
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
		lua_createtable(L, 0, 8);
		bind_date(L, "first", w.first_day);
		bind_date(L, "last", w.last_day);
		bind_set(L, "days", w.days);
		bind_set(L, "metered", w.metered_m3);
		bind_set(L, "implied", w.implied_m3);
		bind_set(L, "expected", w.expected_m3);
		bind_set(L, "expected_high", w.expected_high_m3);
		bind_flag(L, "over", w.over);
		lua_rawseti(L, -2, ++row);
	}
	return 1;
}

/* ---- calibration and prediction ------------------------------------------------ */

/* leak:calibration() -> fields for a description */
static int l_calibration(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	struct tarn_error err = { 0 };
	struct tarn_pond p;

	if (tarn_leak_calibrated(tarn_leak_result(box->leak), box->pond, &p,
				 &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	lua_createtable(L, 0, 3);
	bind_set(L, "open_water_factor", p.open_water_factor);
	lua_createtable(L, 12, 0);
	for (int m = 0; m < 12; m++) {
		lua_pushnumber(L, p.bed.plant_factor[m]);
		lua_rawseti(L, -2, m + 1);
	}
	lua_setfield(L, -2, "plant_factor");
	bind_set(L, "seepage_volume", p.seepage.volume_m3s);
	return 1;
}

/* leak:path(pond) -> list of points; the fit's own pond by default */
static int l_path(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	const struct tarn_pond *pond = box->pond;
	struct tarn_level_point *points;
	struct tarn_error err = { 0 };

	if (!lua_isnoneornil(L, 2))
		pond = &((struct pond_box *)luaL_checkudata(L, 2, POND_T))->pond;
	points = lua_newuserdatauv(L, (box->log->count + 1) * sizeof *points,
				   0);
	if (tarn_leak_path(NULL, pond, &box->forcing, box->log->readings,
			   box->log->count, &box->options, points, &err) !=
	    TARN_OK)
		bind_fail(L, &err, NULL);
	lua_createtable(L, (int)box->log->count, 0);
	for (size_t i = 0; i < box->log->count; i++) {
		lua_createtable(L, 0, 8);
		bind_date(L, "date", box->log->readings[i].day);
		bind_set(L, "day", points[i].day);
		bind_set(L, "logged", points[i].logged_m);
		bind_set(L, "expected", points[i].expected_m);
		bind_set(L, "low", points[i].low_m);
		bind_set(L, "high", points[i].high_m);
		bind_flag(L, "begins", points[i].begins);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

/* leak:holdout(): fit of the first half, prediction of the second */
static int l_holdout(lua_State *L)
{
	const struct leak_box *box = check_leak(L);
	struct tarn_holdout h;
	struct tarn_error err = { 0 };

	if (tarn_leak_holdout(NULL, box->pond, &box->forcing,
			      box->log->readings, box->log->count,
			      &box->options, &h, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	lua_createtable(L, 0, 8);
	set_count(L, "fitted", h.fitted);
	set_count(L, "predicted", h.predicted);
	bind_set(L, "days", h.days);
	bind_set(L, "rms_mm", h.rms_mm);
	bind_set(L, "mean_mm", h.mean_mm);
	bind_set(L, "plain_rms_mm", h.plain_rms_mm);
	bind_set(L, "plain_mean_mm", h.plain_mean_mm);
	bind_set(L, "last_mm", h.last_mm);
	return 1;
}

/* leak:report(): how the evaporation was found, as ledger:report() */
static int l_report(lua_State *L)
{
	check_leak(L);
	lua_getiuservalue(L, 1, REPORT);
	return 1;
}

/* ---- fitting ------------------------------------------------------------------- */

/* Weather as the ledger takes it, from a run of the pond over the days of the
 * log; leaves the buffer and the report on the stack. */
static void take_forcing(lua_State *L, const struct tarn_ledger *ledger,
			 struct tarn_forcing *f)
{
	size_t n;
	const struct tarn_ledger_day *days = tarn_ledger_days(ledger, &n);
	double *mm = lua_newuserdatauv(L, 3 * n * sizeof *mm, 0);

	for (size_t i = 0; i < n; i++) {
		mm[i] = days[i].rain_mm;
		mm[n + i] = days[i].open_water_mm;
		mm[2 * n + i] = days[i].grass_mm;
	}
	*f = (struct tarn_forcing){ days[0].day, n, mm, mm + n, mm + 2 * n };
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
		bind_date(L, "first", from > first ? from : first);
		bind_date(L, "last", to < last ? to : last);
	}
	lua_getfield(L, 1, "method");
	lua_setfield(L, -2, "method");
}

static void run_pond(lua_State *L, int pond, int weather,
		     const struct tarn_weather *w, const struct log_box *log)
{
	lua_getfield(L, pond, "run");
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
	pond = luaL_testudata(L, 2, POND_T);
	if (!pond)
		bind_error(L, "pond must come from tarn.pond, got %s",
			   luaL_typename(L, 2));
	lua_getfield(L, 1, "weather");		/* 3 */
	weather = bind_check_weather(L, 3);
	lua_getfield(L, 1, "log");		/* 4 */
	log = bind_check_log(L, 4);
	box = lua_newuserdatauv(L, sizeof *box, 4);	/* 5 */
	memset(box, 0, sizeof *box);
	luaL_setmetatable(L, LEAK_T);
	box->pond = &pond->pond;
	box->log = log;
	read_options(L, log, &box->options);
	lua_pushvalue(L, 2);
	lua_setiuservalue(L, 5, POND);
	lua_pushvalue(L, 4);
	lua_setiuservalue(L, 5, LOG);
	run_pond(L, 2, 3, weather, log);	/* 6: the ledger */
	take_forcing(L, bind_check_ledger(L, 6), &box->forcing);
	lua_setiuservalue(L, 5, FORCING);
	lua_getfield(L, 6, "report");
	lua_pushvalue(L, 6);
	lua_call(L, 1, 1);
	lua_setiuservalue(L, 5, REPORT);
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
	struct tarn_leak_options leak = tarn_leak_options_default();
	struct tarn_log_options log = tarn_log_options_default();
	struct tarn_pair pair = tarn_pair_default();

	lua_createtable(L, 4, 0);
	bind_push_reference(L, &tarn_log_fields, &log);
	lua_rawseti(L, -2, 1);
	bind_push_reference(L, &tarn_leak_fields, &leak);
	lua_rawseti(L, -2, 2);
	bind_push_reference(L, &tarn_pair_fields, &pair);
	lua_rawseti(L, -2, 3);
	bind_push_reference(L, &tarn_pair_on_fields, &pair);
	lua_rawseti(L, -2, 4);
	return 1;
}

void bind_leak(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "result", l_result },   { "intervals", l_intervals },
		{ "weeks", l_weeks },     { "calibration", l_calibration },
		{ "path", l_path },       { "holdout", l_holdout },
		{ "report", l_report },   { "__gc", l_free },
		{ "__close", l_free },    { NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "leak", l_leak }, { "leak_fields", l_leak_fields },
		{ NULL, NULL }
	};

	luaL_newmetatable(L, LEAK_T);
	luaL_setfuncs(L, methods, 0);
	lua_pushvalue(L, -1);
	lua_setfield(L, -2, "__index");
	lua_pop(L, 1);
	luaL_setfuncs(L, functions, 0);
	bind_log(L);
	bind_pair(L);
}
