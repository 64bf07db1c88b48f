/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_flow.h"
#include "bind_pond.h"

/* Pump, pipes, falls, bay, overflow and storm of a description. */

/* ---- reading -------------------------------------------------------------- */

static void read_curve(lua_State *L, struct tarn_works *works)
{
	struct flow_pairs pairs;

	if (!bind_push_section(L, "pump"))
		return;
	lua_newtable(L);	/* keeps the pairs; the description stays as
				   it is */
	pairs = flow_read_pairs(L, lua_gettop(L) - 1, "pump", "curve",
				lua_gettop(L));
	if (pairs.count > TARN_CURVE_MAX)
		bind_error(L, "pump.curve takes at most %d points",
			   TARN_CURVE_MAX);
	works->curve_points = pairs.count;
	for (size_t i = 0; i < pairs.count; i++) {
		works->curve_flow_m3s[i] = pairs.first[i];
		works->curve_head_m[i] = pairs.second[i];
	}
	lua_pop(L, 2);
}

/* fittings = { ["90 elbow threaded"] = 4, ["ball valve"] = 1 } */
static void read_fittings(lua_State *L, struct tarn_pipe_run *run)
{
	int type = lua_getfield(L, -1, "fittings");

	if (type != LUA_TNIL && type != LUA_TTABLE)
		bind_error(L, "pipes.fittings must be a table, such as "
			   "{ [\"90 elbow threaded\"] = 4 }");
	if (type == LUA_TNIL) {
		lua_pop(L, 1);
		return;
	}
	for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1)) {
		const char *name = lua_type(L, -2) == LUA_TSTRING
			? lua_tostring(L, -2) : "";
		struct tarn_pipe_fitting *f = &run->fitting[run->fittings];

		if (run->fittings == TARN_RUN_FITTINGS_MAX)
			bind_error(L, "pipes.fittings takes at most %d kinds",
				   TARN_RUN_FITTINGS_MAX);
		f->kind = tarn_flow_constant(TARN_FITTINGS, name);
		if (!f->kind)
			bind_error(L, "pipes.fittings: there is none named "
				   "'%s'; docs/pond.md lists them",
				   name);
		f->count = bind_number(L, -1, "pipes.fittings, how many of a "
				       "kind,", 0, BIND_NUMBER_MOST);
		run->fittings++;
	}
	lua_pop(L, 1);
}

/* Entries of a list section; 'each' reads the one on top. */
static int read_list(lua_State *L, const char *name,
		     void (*each)(lua_State *, struct tarn_works *, int),
		     struct tarn_works *works)
{
	int count = (int)bind_beside_list(L, 1, "", name);

	for (int i = 0; i < count; i++) {
		if (lua_rawgeti(L, -1, i + 1) != LUA_TTABLE)
			bind_error(L, "%s: number %d must be a table of fields",
				   name, i + 1);
		each(L, works, i);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return count;
}

/* The entry on top, a table of described fields with a name for reports. */
static void read_entry(lua_State *L, const struct tarn_fields *fields,
		       void *object)
{
	const char *also[BIND_NAMES_MAX];

	bind_fields(L, -1, fields, object,
		    bind_beside_names(fields->section, NULL, also));
	bind_beside_text(L, -1, fields->section, "name");
}

static void read_run(lua_State *L, struct tarn_works *works, int i)
{
	read_entry(L, &tarn_pipe_run_fields, &works->run[i]);
	read_fittings(L, &works->run[i]);
}

static void read_fall(lua_State *L, struct tarn_works *works, int i)
{
	read_entry(L, &tarn_fall_fields, &works->fall[i]);
}

static void read_catchment(lua_State *L, struct tarn_works *works, int i)
{
	read_entry(L, &tarn_catchment_fields, &works->catchment[i]);
}

void bind_read_works(lua_State *L, struct tarn_works *works)
{
	const struct tarn_fields *const plain[] = {
		&tarn_bay_fields, &tarn_pond_overflow_fields,
		&tarn_storm_fields
	};

	read_curve(L, works);
	works->runs = read_list(L, "pipes", read_run, works);
	works->falls = read_list(L, "falls", read_fall, works);
	works->catchments = read_list(L, "catchments", read_catchment, works);
	for (int i = 0; i < 3; i++) {
		if (!bind_push_section(L, plain[i]->section))
			continue;
		bind_fields(L, -1, plain[i], works, NULL);
		lua_pop(L, 1);
	}
}

/* ---- what runs --------------------------------------------------------------- */

static void push_runs(lua_State *L, const struct tarn_works *w,
		      const struct tarn_works_flow *f)
{
	lua_createtable(L, w->runs, 0);
	for (int i = 0; i < w->runs; i++) {
		bind_push(L, &tarn_branch_flow_fields, &f->run[i]);
		bind_set(L, "diameter", tarn_pipe_run_diameter_m(&w->run[i]));
		lua_rawseti(L, -2, i + 1);
	}
	lua_setfield(L, -2, "runs");
}

static void push_falls(lua_State *L, const struct tarn_works *w,
		       const struct tarn_works_flow *f)
{
	lua_createtable(L, w->falls, 0);
	for (int i = 0; i < w->falls; i++) {
		if (isnan(f->fall[i].flow_m3s))
			lua_newtable(L);
		else
			bind_push(L, &tarn_weir_flow_fields, &f->fall[i]);
		lua_rawseti(L, -2, i + 1);
	}
	lua_setfield(L, -2, "falls");
}

/* Where a part of the water in transit comes from. */
static void set_origin(lua_State *L, const char *name, int given)
{
	bind_set_text(L, name, given > 0 ? "given" : given == 0 ? "solved"
							       : "unknown");
}

/* pond:works() -> what runs and what is in transit */
int bind_pond_works(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	const struct tarn_works_flow *f = &box->running;

	bind_push(L, &tarn_works_flow_fields, f);
	bind_set(L, "running_level", tarn_running_level_m(&box->pond));
	bind_set(L, "bed_head", box->pond.bed.head_m);
	set_origin(L, "bed_from", f->bed_given);
	set_origin(L, "stream_from", f->stream_given);
	set_origin(L, "drain_from", f->drain_given);
	push_runs(L, &box->works, f);
	push_falls(L, &box->works, f);
	if (!isnan(f->stream.area_m2)) {
		bind_push(L, &tarn_channel_flow_fields, &f->stream);
		lua_setfield(L, -2, "stream");
	}
	return 1;
}

/* ---- storm and levels ---------------------------------------------------------- */

static int storm_described(const struct tarn_works *w)
{
	const struct tarn_overflow *o = &w->overflow;

	return !isnan(w->storm.intensity_mm_h) &&
	       !(isnan(o->lip_width_m) && isnan(o->standpipe_diameter_m) &&
		 isnan(o->side_diameter_m));
}

/* pond:storm() -> the design storm, nil if none or no overflow is described */
int bind_pond_storm(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_storm_flow s;
	struct tarn_error err = { 0 };

	if (!storm_described(&box->works))
		return 0;
	if (tarn_storm_solve(&box->works, &box->pond, &s, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	bind_push(L, &tarn_storm_flow_fields, &s);
	return 1;
}

/* pond:chart() -> levels from the top down, and what stops and starts do */
int bind_pond_chart(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_storm_flow s = { .peak_level_m = TARN_NAN };
	struct tarn_chart c;
	struct tarn_error err = { 0 };

	if (storm_described(&box->works) &&
	    tarn_storm_solve(&box->works, &box->pond, &s, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	if (tarn_chart_make(&box->pond, &box->works, s.peak_level_m, &c,
			    &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	bind_push_list(L, &tarn_level_fields, c.level, c.count,
		       sizeof c.level[0]);
	bind_set_rows(L, &tarn_chart_fields, &c);
	return 1;
}
