/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_flow.h"

/* Weirs, channels, overflow, storm, intake, jets, top-up, winter. */

#define SOLVERS(X)                                                            \
	X(pipe, tarn_pipe, tarn_pipe_solve, tarn_pipe_flow, NULL)             \
	X(weir, tarn_weir, tarn_weir_solve, tarn_weir_flow, NULL)             \
	X(channel, tarn_channel, tarn_channel_solve, tarn_channel_flow, NULL) \
	X(orifice, tarn_orifice, tarn_orifice_solve, tarn_orifice_flow, NULL) \
	X(transit, tarn_transit, tarn_transit_solve, tarn_transit_flow, NULL) \
	X(intake, tarn_intake, tarn_intake_solve, tarn_intake_flow, NULL)     \
	X(jet, tarn_jet, tarn_jet_solve, tarn_jet_flow, NULL)                 \
	X(topup, tarn_topup, tarn_topup_solve, tarn_topup_flow, NULL)         \
	X(running_cost, tarn_running_cost, tarn_running_cost_solve,           \
	  tarn_running_cost_flow, NULL)

BIND_SOLVERS(solvers, SOLVERS)

/* ---- overflow, storm -------------------------------------------------- */

/* Peak from 'intensity' and 'catchments' of the table at 1; NaN without. */
static double read_peak(lua_State *L, int keep)
{
	static const struct bind_argument asked[] = {
		{ "area", "m2", 0, 1e9, 1, 0 },
		{ "coefficient", "-", 0, 1, 1, 1 },
	};
	double intensity = bind_field(L, 1, "peak", "intensity", "mm/h", 0,
				      1000, TARN_NAN);
	size_t count = flow_list(L, 1, "peak", "catchments");
	struct tarn_catchment *c = flow_keep(L, keep, count * sizeof *c);

	if (isnan(intensity) && count == 0)
		return TARN_NAN;
	if (isnan(intensity) || count == 0)
		bind_error(L, "peak needs intensity [mm/h] and catchments, a "
			   "list of { area = m2, coefficient = 0 to 1 }");
	lua_getfield(L, 1, "catchments");
	for (size_t i = 0; i < count; i++) {
		double x[2];

		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		bind_arguments(L, -1, "catchment", asked, 2, x);
		c[i] = (struct tarn_catchment){ x[0], x[1] };
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return tarn_peak_m3s(c, count, intensity);
}

/* peak{ intensity=, catchments={ {area=, coefficient=}, ... } } -> m3/s */
static int l_peak(lua_State *L)
{
	static const char *const keys[] = { "intensity", "catchments", NULL };
	double peak;

	bind_known(L, 1, NULL, keys);
	lua_settop(L, 1);
	lua_newtable(L);
	peak = read_peak(L, 2);
	if (isnan(peak))
		bind_error(L, "peak needs intensity [mm/h] and catchments");
	lua_pushnumber(L, peak);
	return 1;
}

static int l_overflow(lua_State *L)
{
	static const char *const also[] = { "intensity", "catchments", NULL };
	struct tarn_overflow in = tarn_overflow_default();
	struct tarn_overflow_flow out;
	struct tarn_error err = { 0 };
	double peak;

	lua_settop(L, 1);
	lua_newtable(L);	/* 2: keeps memory */
	bind_fields(L, 1, &tarn_overflow_fields, &in, also);
	peak = read_peak(L, 2);
	if (isnan(in.flow_m3s) && isnan(in.level_m))
		in.flow_m3s = peak;
	bind_must(L, tarn_overflow_solve(&in, &out, &err), &err);
	bind_push(L, &tarn_overflow_flow_fields, &out);
	bind_set(L, "peak", peak);
	return 1;
}

static int l_route(lua_State *L)
{
	static const char *const also[] = { "overflow", NULL };
	struct tarn_routing in = tarn_routing_default();
	struct tarn_overflow overflow = tarn_overflow_default();
	struct tarn_routing_flow out;
	struct tarn_error err = { 0 };
	double *level, *gone;

	lua_settop(L, 1);
	lua_newtable(L);	/* 2: keeps memory */
	bind_options(L, &tarn_routing_fields, &in, also, NULL);
	if (lua_getfield(L, 1, "overflow") != LUA_TNIL) {
		bind_fields(L, lua_gettop(L), &tarn_overflow_fields, &overflow,
			    NULL);
		in.overflow = &overflow;
	}
	level = flow_keep(L, 2, in.inflow_count * sizeof *level);
	gone = flow_keep(L, 2, in.inflow_count * sizeof *gone);
	bind_must(L, tarn_routing_solve(&in, level, gone, &out, &err), &err);
	bind_push(L, &tarn_routing_flow_fields, &out);
	bind_push_numbers(L, level, in.inflow_count);
	lua_setfield(L, -2, "levels");
	bind_push_numbers(L, gone, in.inflow_count);
	lua_setfield(L, -2, "outflows");
	return 1;
}

/* ---- small things ----------------------------------------------------- */

/* freezing_degree_days{ tmean, ... } -> deg C d; false is a missing day */
static int l_freezing_degree_days(lua_State *L)
{
	size_t count;
	double *t = bind_doubles(L, 1, "days", &count);

	lua_pushnumber(L, tarn_freezing_degree_days(t, count));
	return 1;
}

/* freeze_risk_days({ tmin, ... }, threshold) -> days */
static int l_freeze_risk_days(lua_State *L)
{
	double threshold = bind_number(L, 2, "threshold [deg C]", -60, 20);
	size_t count;
	double *t = bind_doubles(L, 1, "days", &count);

	lua_pushinteger(L, (lua_Integer)tarn_freeze_risk_days(t, count,
							      threshold,
							      NULL));
	return 1;
}

/* ice{ degree_days=, factor=, area= } -> { thickness=, water= } */
static int l_ice(lua_State *L)
{
	static const struct bind_argument asked[] = {
		{ "degree_days", "deg C d", 0, 1e4, 1, TARN_NAN },
		{ "factor", "m (deg C d)^-1/2", 0.001, 0.05, 1, 0.02 },
		{ "area", "m2", 0, 1e9, 1, TARN_NAN },
	};
	double x[3], thickness;

	bind_arguments(L, 1, "ice", asked, 3, x);
	thickness = tarn_ice_thickness_m(x[0], x[1]);
	lua_createtable(L, 0, 2);
	bind_set(L, "thickness", thickness);
	bind_set(L, "water", tarn_ice_water_m3(thickness, x[2]));
	return 1;
}

static const struct bind_plain plain[] = {
	{ "weir_submergence", { .two = tarn_weir_submergence }, "-",
	  { { "ratio of heads", "-", 0, 0.9999999999 },
	    { "exponent", "-", 1, 3 } } },
	{ "rational", { .three = tarn_rational_m3s }, "m3/s",
	  { { "runoff coefficient", "-", 0, 1 },
	    { "intensity", "mm/h", 0, 1000 }, { "area", "m2", 0, 1e9 } } },
	{ "stack", { .two = tarn_stack_m3s }, "m3/s",
	  { { "diameter", "m", 1e-3, 10 }, { "fill", "-", 1e-3, 1 } } },
	{ "submergence", { .two = tarn_submergence_m }, "m",
	  { { "flow", "m3/s", 1e-9, 1000 },
	    { "diameter", "m", 1e-3, 10 } } },
	{ "air_gap", { .one = tarn_air_gap_m }, "m",
	  { { "opening", "m", 1e-4, 1 } } },
	{ .name = NULL }
};

void flow_add_water_ways(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "peak", l_peak },
		{ "overflow", l_overflow },
		{ "route", l_route },
		{ "freezing_degree_days", l_freezing_degree_days },
		{ "freeze_risk_days", l_freeze_risk_days },
		{ "ice", l_ice },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
	bind_add_plain(L, plain);
	bind_add_solvers(L, solvers);
}
