/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_call.h"
#include "bind_flow.h"

/* Weirs, channels, overflow, storm, intake, jets, top-up, winter. */

/* A function that reads described fields, solves, and pushes the result. */
#define SOLVER(thing) \
	static int l_##thing(lua_State *L) \
	{ \
		struct tarn_##thing in = tarn_##thing##_default(); \
		struct tarn_##thing##_flow out; \
		struct tarn_error err = { 0 }; \
		\
		bind_fields(L, 1, &tarn_##thing##_fields, &in, NULL); \
		flow_check(L, tarn_##thing##_solve(&in, &out, &err), &err); \
		bind_push(L, &tarn_##thing##_flow_fields, &out); \
		return 1; \
	}

SOLVER(orifice)
SOLVER(transit)
SOLVER(intake)
SOLVER(jet)
SOLVER(topup)

static int l_weir(lua_State *L)
{
	struct tarn_weir weir = tarn_weir_default();
	struct tarn_weir_flow out;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_weir_fields, &weir, NULL);
	flow_check(L, tarn_weir_solve(&weir, &out, &err), &err);
	bind_push(L, &tarn_weir_flow_fields, &out);
	if (out.note)
		bind_set_text(L, "note", out.note);
	return 1;
}

static int l_channel(lua_State *L)
{
	static const char *const also[] = { "points", NULL };
	struct tarn_channel channel = tarn_channel_default();
	struct tarn_channel_flow out;
	struct tarn_error err = { 0 };
	struct flow_pairs pairs;

	lua_settop(L, 1);
	lua_newtable(L);	/* 2: keeps memory */
	bind_fields(L, 1, &tarn_channel_fields, &channel, also);
	pairs = flow_read_pairs(L, 1, "channel", "points", 2);
	if (pairs.count > 0) {
		struct tarn_point *points = flow_keep(L, 2, pairs.count *
						      sizeof *points);

		for (size_t i = 0; i < pairs.count; i++)
			points[i] = (struct tarn_point){ pairs.first[i],
							 pairs.second[i] };
		channel.points = points;
		channel.point_count = pairs.count;
	}
	flow_check(L, tarn_channel_solve(&channel, &out, &err), &err);
	bind_push(L, &tarn_channel_flow_fields, &out);
	return 1;
}

/* ---- overflow, storm -------------------------------------------------- */

/* Peak from 'intensity' and 'catchments' of the table at 1; NaN without. */
static double read_peak(lua_State *L, int keep)
{
	static const char *const keys[] = { "area", "coefficient", NULL };
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
		int at = lua_gettop(L) + 1;

		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		bind_known(L, at, NULL, keys);
		c[i].area_m2 = bind_field(L, at, "catchment", "area", "m2", 0,
					  1e9, 0);
		c[i].coefficient = bind_field(L, at, "catchment",
					      "coefficient", "-", 0, 1, 1);
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
	flow_check(L, tarn_overflow_solve(&in, &out, &err), &err);
	bind_push(L, &tarn_overflow_flow_fields, &out);
	bind_set(L, "peak", peak);
	return 1;
}

static void push_numbers(lua_State *L, const char *name, const double *x,
			 size_t count)
{
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, name);
}

static int l_route(lua_State *L)
{
	static const char *const also[] = { "storage", "inflow", "overflow",
					    "rating", NULL };
	struct tarn_routing in = tarn_routing_default();
	struct tarn_overflow overflow = tarn_overflow_default();
	struct tarn_routing_flow out;
	struct tarn_error err = { 0 };
	struct flow_pairs storage, rating;
	double *level, *gone;
	size_t n;

	lua_settop(L, 1);
	lua_newtable(L);	/* 2: keeps memory */
	bind_fields(L, 1, &tarn_routing_fields, &in, also);
	storage = flow_read_pairs(L, 1, "routing", "storage", 2);
	rating = flow_read_pairs(L, 1, "routing", "rating", 2);
	in.inflow_m3s = flow_numbers(L, 1, "routing", "inflow", &n, 2);
	in.inflow_count = n;
	in.level_m = storage.first;
	in.area_m2 = storage.second;
	in.level_count = storage.count;
	in.rating_level_m = rating.first;
	in.rating_m3s = rating.second;
	in.rating_count = rating.count;
	if (lua_getfield(L, 1, "overflow") != LUA_TNIL) {
		bind_fields(L, lua_gettop(L), &tarn_overflow_fields, &overflow,
			    NULL);
		in.overflow = &overflow;
	}
	level = flow_keep(L, 2, n * sizeof *level);
	gone = flow_keep(L, 2, n * sizeof *gone);
	flow_check(L, tarn_routing_solve(&in, level, gone, &out, &err), &err);
	bind_push(L, &tarn_routing_flow_fields, &out);
	push_numbers(L, "levels", level, n);
	push_numbers(L, "outflows", gone, n);
	return 1;
}

/* ---- small things ----------------------------------------------------- */

/* A list of numbers at 1 as an array; the table at 2 keeps it. */
static double *days_of(lua_State *L, size_t *count)
{
	lua_settop(L, 2);
	flow_wrap_list(L, "days");
	lua_newtable(L);
	lua_replace(L, 2);	/* keeps memory */
	return flow_numbers(L, 1, "winter", "days", count, 2);
}

/* freezing_degree_days{ tmean, ... } -> deg C d */
static int l_freezing_degree_days(lua_State *L)
{
	size_t count;
	double *t = days_of(L, &count);

	lua_pushnumber(L, tarn_freezing_degree_days(t, count));
	return 1;
}

/* freeze_risk_days({ tmin, ... }, threshold) -> days */
static int l_freeze_risk_days(lua_State *L)
{
	double threshold = bind_number(L, 2, "threshold [deg C]", -60, 20);
	size_t count;
	double *t = days_of(L, &count);

	lua_pushinteger(L, (lua_Integer)tarn_freeze_risk_days(t, count,
							      threshold,
							      NULL));
	return 1;
}

/* ice{ degree_days=, factor=, area= } -> { thickness=, water= } */
static int l_ice(lua_State *L)
{
	static const char *const keys[] = { "degree_days", "factor", "area",
					    NULL };
	double days, factor, area, thickness;

	bind_known(L, 1, NULL, keys);
	days = bind_field(L, 1, "ice", "degree_days", "deg C d", 0, 1e4,
			  TARN_NAN);
	factor = bind_field(L, 1, "ice", "factor", "m (deg C d)^-1/2", 0.001,
			    0.05, 0.02);
	area = bind_field(L, 1, "ice", "area", "m2", 0, 1e9, TARN_NAN);
	thickness = tarn_ice_thickness_m(days, factor);
	lua_createtable(L, 0, 2);
	bind_set(L, "thickness", thickness);
	bind_set(L, "water", tarn_ice_water_m3(thickness, area));
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
		{ "weir", l_weir },
		{ "orifice", l_orifice },
		{ "channel", l_channel },
		{ "transit", l_transit },
		{ "peak", l_peak },
		{ "overflow", l_overflow },
		{ "route", l_route },
		{ "intake", l_intake },
		{ "jet", l_jet },
		{ "topup", l_topup },
		{ "freezing_degree_days", l_freezing_degree_days },
		{ "freeze_risk_days", l_freeze_risk_days },
		{ "ice", l_ice },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
	bind_add_plain(L, plain);
}
