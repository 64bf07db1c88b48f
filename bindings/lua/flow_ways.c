/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_flow.h"

/* Weirs, channels, overflow, storm, intake, jets, top-up, winter. */

#define FLOW(X, id) \
	X(id, tarn_##id, tarn_##id##_solve, tarn_##id##_flow, .first = NULL)
#define SOLVERS(X)                                                           \
	FLOW(X, pipe) FLOW(X, weir) FLOW(X, channel) FLOW(X, orifice)        \
	FLOW(X, transit) FLOW(X, intake) FLOW(X, jet) FLOW(X, topup)         \
	FLOW(X, running_cost)

BIND_SOLVERS(solvers, SOLVERS)

/* ---- overflow, storm -------------------------------------------------- */

static const struct tarn_field catchment_rows[] = {
	TARN_IN_VALUE(struct tarn_catchment, area_m2, "area", "m2", 0, 1e9, 0,
		      "that drains"),
	TARN_IN_VALUE(struct tarn_catchment, coefficient, "coefficient", "-", 0,
		      1, 1, "share of the rain that runs off"),
};
static TARN_FIELDS(catchment_fields, "catchment", catchment_rows);

struct rain {
	double intensity_mm_h;
	const struct tarn_catchment *catchment;
	size_t count;
};
static const struct tarn_field rain_rows[] = {
	TARN_IN_NUMBER(struct rain, intensity_mm_h, "intensity", "mm/h", 0,
		       1000, TARN_NAN, "of the rain"),
	TARN_IN_LIST(struct rain, catchment, count, "catchments",
		     catchment_fields, 0, 1000, "that drain to the pond"),
};
static TARN_FIELDS(rain_fields, "peak", rain_rows);

static double peak_of(lua_State *L, const struct rain *x)
{
	if (isnan(x->intensity_mm_h) || x->count == 0)
		bind_error(L, "peak needs intensity [mm/h] and catchments, a "
			   "list of { area = m2, coefficient = 0 to 1 }");
	return tarn_peak_m3s(x->catchment, x->count, x->intensity_mm_h);
}

/* peak{ intensity=, catchments={ {area=, coefficient=}, ... } } -> m3/s */
static int l_peak(lua_State *L)
{
	struct rain x;

	bind_options(L, &rain_fields, &x, NULL, NULL);
	lua_pushnumber(L, peak_of(L, &x));
	return 1;
}

struct spill {
	struct tarn_overflow overflow;
	struct rain rain;
};
static const struct tarn_field spill_rows[] = {
	TARN_INCLUDED(struct spill, overflow, tarn_overflow_fields),
	TARN_INCLUDED(struct spill, rain, rain_fields),
};
static TARN_FIELDS(spill_fields, "overflow", spill_rows);

static int l_overflow(lua_State *L)
{
	struct spill x;
	struct tarn_overflow_flow out;
	struct tarn_error err = { 0 };
	double peak = TARN_NAN;

	bind_options(L, &spill_fields, &x, NULL, NULL);
	if (!isnan(x.rain.intensity_mm_h) || x.rain.count > 0)
		peak = peak_of(L, &x.rain);
	if (isnan(x.overflow.flow_m3s) && isnan(x.overflow.level_m))
		x.overflow.flow_m3s = peak;
	bind_must(L, tarn_overflow_solve(&x.overflow, &out, &err), &err);
	bind_push(L, &tarn_overflow_flow_fields, &out);
	bind_set(L, "peak", peak);
	return 1;
}

struct route {
	struct tarn_routing routing;
	struct tarn_overflow overflow;
	int has_overflow;
};
static const struct tarn_field route_rows[] = {
	TARN_INCLUDED(struct route, routing, tarn_routing_fields),
	TARN_GIVEN(struct route, overflow, has_overflow, "overflow",
		   tarn_overflow_fields, "openings"),
};
static TARN_FIELDS(route_fields, "routing", route_rows);

static int l_route(lua_State *L)
{
	struct route x = { .has_overflow = 0 };
	struct tarn_routing_flow out;
	struct tarn_error err = { 0 };
	double *level, *gone;
	size_t count;

	bind_options(L, &route_fields, &x, NULL, NULL);
	if (x.has_overflow)
		x.routing.overflow = &x.overflow;
	count = x.routing.inflow_count;
	level = lua_newuserdatauv(L, 2 * (count + 1) * sizeof *level, 0);
	gone = level + count;
	bind_must(L, tarn_routing_solve(&x.routing, level, gone, &out, &err),
		  &err);
	bind_push(L, &tarn_routing_flow_fields, &out);
	bind_push_numbers(L, level, count);
	lua_setfield(L, -2, "levels");
	bind_push_numbers(L, gone, count);
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
		BIND_OPTION("degree_days", "deg C d", 0, 1e4, TARN_NAN),
		BIND_OPTION("factor", "m (deg C d)^-1/2", 0.001, 0.05, 0.02),
		BIND_OPTION("area", "m2", 0, 1e9, TARN_NAN),
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
	BIND_PLAIN("weir_submergence", two, tarn_weir_submergence, "-",
		   BIND_NUMBER("ratio of heads", "-", 0, 0.9999999999),
		   BIND_NUMBER("exponent", "-", 1, 3)),
	BIND_PLAIN("rational", three, tarn_rational_m3s, "m3/s",
		   BIND_NUMBER("runoff coefficient", "-", 0, 1),
		   BIND_NUMBER("intensity", "mm/h", 0, 1000),
		   BIND_NUMBER("area", "m2", 0, 1e9)),
	BIND_PLAIN("stack", two, tarn_stack_m3s, "m3/s",
		   BIND_NUMBER("diameter", "m", 1e-3, 10),
		   BIND_NUMBER("fill", "-", 1e-3, 1)),
	BIND_PLAIN("submergence", two, tarn_submergence_m, "m",
		   BIND_NUMBER("flow", "m3/s", 1e-9, 1000),
		   BIND_NUMBER("diameter", "m", 1e-3, 10)),
	BIND_PLAIN("air_gap", one, tarn_air_gap_m, "m",
		   BIND_NUMBER("opening", "m", 1e-4, 1)),
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
