/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_leak.h"
#include "bind_pond.h"

/* What a finished fit tells. */

static struct leak_box *check_leak(lua_State *L)
{
	return luaL_checkudata(L, 1, LEAK_T);
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

/* ---- results ------------------------------------------------------------------ */

static void set_change(lua_State *L, const struct tarn_change *c)
{
	lua_createtable(L, 0, 8);
	bind_set(L, "chance", c->chance);
	bind_set_flag(L, "found", c->found);
	bind_set_day(L, "first", c->first_day);
	bind_set_day(L, "date", c->day);
	bind_set_day(L, "last", c->last_day);
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
	bind_set_flag(L, "inside", r->verdict == TARN_INSIDE);
	bind_set_flag(L, "outside", r->verdict == TARN_OUTSIDE);
	bind_set_flag(L, "gains", r->gains);
	bind_set_count(L, "readings", r->readings);
	bind_set_count(L, "used", r->used);
	bind_set_count(L, "set_aside", r->set_aside);
	bind_set_count(L, "outside_weather", r->outside_weather);
	bind_set_count(L, "wild", r->wild);
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
	bind_set_flag(L, "head_tells", r->head_tells);
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
		bind_set_day(L, "from", box->log->readings[v[i].from].day);
		bind_set_day(L, "to", box->log->readings[v[i].to].day);
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
		bind_set_flag(L, "wild", v[i].wild);
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
		bind_set_day(L, "first", w.first_day);
		bind_set_day(L, "last", w.last_day);
		bind_set(L, "days", w.days);
		bind_set(L, "metered", w.metered_m3);
		bind_set(L, "implied", w.implied_m3);
		bind_set(L, "expected", w.expected_m3);
		bind_set(L, "expected_high", w.expected_high_m3);
		bind_set_flag(L, "over", w.over);
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
		bind_set_day(L, "date", box->log->readings[i].day);
		bind_set(L, "day", points[i].day);
		bind_set(L, "logged", points[i].logged_m);
		bind_set(L, "expected", points[i].expected_m);
		bind_set(L, "low", points[i].low_m);
		bind_set(L, "high", points[i].high_m);
		bind_set_flag(L, "begins", points[i].begins);
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
	bind_set_count(L, "fitted", h.fitted);
	bind_set_count(L, "predicted", h.predicted);
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
	lua_getiuservalue(L, 1, LEAK_REPORT);
	return 1;
}

const luaL_Reg bind_leak_results[] = {
	{ "result", l_result },   { "intervals", l_intervals },
	{ "weeks", l_weeks },     { "calibration", l_calibration },
	{ "path", l_path },       { "holdout", l_holdout },
	{ "report", l_report },   { NULL, NULL }
};
