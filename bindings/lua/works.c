/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_pond.h"

/* What runs between bed and pond, the storm, the chart of levels. */

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
static int l_works(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	const struct tarn_works_flow *f = &box->made.flow;

	bind_push(L, &tarn_works_flow_fields, f);
	bind_set(L, "running_level", tarn_running_level_m(&box->made.pond));
	bind_set(L, "bed_head", box->made.pond.bed.lip_head_m);
	set_origin(L, "bed_from", f->bed_given);
	set_origin(L, "stream_from", f->stream_given);
	set_origin(L, "drain_from", f->drain_given);
	push_runs(L, &box->made.works, f);
	push_falls(L, &box->made.works, f);
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

/* pond:storm_doubt() -> table, or nil: its storm is within the record */
static int l_storm_doubt(lua_State *L)
{
	struct tarn_storm_doubt d;

	if (!tarn_storm_doubtful(&bind_check_pond(L, 1)->made.works.storm, &d))
		return 0;
	bind_push(L, &tarn_storm_doubt_fields, &d);
	return 1;
}

/* pond:storm() -> the design storm, nil if none or no overflow is described */
static int l_storm(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_storm_flow s;
	struct tarn_error err = { 0 };

	if (!storm_described(&box->made.works))
		return 0;
	bind_must(L, tarn_storm_solve(&box->made.works, &box->made.pond, &s, &err), &err);
	bind_push(L, &tarn_storm_flow_fields, &s);
	return 1;
}

/* pond:chart() -> levels from the top down, and what stops and starts do */
static int l_chart(lua_State *L)
{
	struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_storm_flow s = { .peak_level_m = TARN_NAN };
	struct tarn_chart c;
	struct tarn_error err = { 0 };

	if (storm_described(&box->made.works) &&
	    tarn_storm_solve(&box->made.works, &box->made.pond, &s, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	bind_must(L, tarn_chart_make(&box->made.pond, &box->made.works, s.peak_level_m,
				     &c, &err), &err);
	bind_push_list(L, &tarn_level_fields, c.level, c.count,
		       sizeof c.level[0]);
	bind_set_rows(L, &tarn_chart_fields, &c);
	return 1;
}

/* ---- what is measured when a pond is started ------------------------------------ */

/* measured(kind, design | nil, measured) -> word, off, room */
static int l_measured(lua_State *L)
{
	static const char *const kinds[] = {
		[TARN_MEASURED_FLOW] = "flow", [TARN_MEASURED_RISE] = "rise",
		[TARN_MEASURED_DROP] = "drop", [TARN_MEASURED_FILL] = "fill",
		[TARN_MEASURED_POWER] = "power", NULL
	};
	int kind = luaL_checkoption(L, 1, NULL, kinds);
	double design = lua_isnoneornil(L, 2) ? TARN_NAN
		: bind_number(L, 2, "design", 0, 1e12);
	double measured = bind_number(L, 3, "measured", 0, 1e12);
	struct tarn_measured m = tarn_measured((enum tarn_measured_kind)kind,
					       design, measured);

	bind_push(L, &tarn_measured_fields, &m);
	return 1;
}

void bind_works(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "works", l_works }, { "chart", l_chart },
		{ "storm", l_storm }, { "storm_doubt", l_storm_doubt }, { NULL, NULL }
	};

	bind_methods(L, POND_T, methods);
	lua_pushcfunction(L, l_measured);
	lua_setfield(L, -2, "measured");
}
