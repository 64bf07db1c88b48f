/* SPDX-License-Identifier: MIT */
/* Treatment in one pass and in a loop. */
#include <stddef.h>
#include <stdio.h>

#include "bed.h"

static const struct bed_out treatment_out[] = {
	{ "area", offsetof(struct tarn_treatment_result, area_m2) },
	{ "loading", offsetof(struct tarn_treatment_result, loading_m_d) },
	{ "outlet", offsetof(struct tarn_treatment_result, outlet_mgl) },
	{ "outflow", offsetof(struct tarn_treatment_result, outflow_m3s) },
	{ "k_m_d", offsetof(struct tarn_treatment_result, k_m_d) },
	{ "limit", offsetof(struct tarn_treatment_result, limit_mgl) },
	{ "removal", offsetof(struct tarn_treatment_result, removal) },
	{ "removed_g", offsetof(struct tarn_treatment_result, removed_g_d) },
	{ "extrapolation",
	  offsetof(struct tarn_treatment_result, extrapolation) },
};

static const char *const rate_name[] = { "rate", NULL };
static const char *const profile_names[] = { "rate", "points", NULL };

static struct tarn_treatment read_treatment(lua_State *L,
					    const char *const also[])
{
	struct tarn_treatment t = tarn_treatment_default();
	const struct tarn_rate *rate;

	bind_fields(L, 1, &tarn_treatment_fields, &t, also);
	rate = bed_rate(L, 1);
	if (rate) {
		tarn_treatment_use(&t, rate);
		/* again, so that what is said beside the rate wins */
		bind_fields(L, 1, &tarn_treatment_fields, &t, also);
	}
	return t;
}

static void push_treatment(lua_State *L,
			   const struct tarn_treatment_result *r)
{
	lua_createtable(L, 0, 12);
	bed_push(L, treatment_out, BED_COUNT(treatment_out), r);
	bed_push_flags(L, r->flags);
}

/* outlet{...} -> mg/L, details */
static int l_outlet(lua_State *L)
{
	struct tarn_treatment t = read_treatment(L, rate_name);
	struct tarn_treatment_result r;
	struct tarn_error err = { 0 };

	if (tarn_treatment_outlet(&t, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_pushnumber(L, r.outlet_mgl);
	push_treatment(L, &r);
	return 2;
}

/* area_for{...} -> m2, details */
static int l_area_for(lua_State *L)
{
	struct tarn_treatment t = read_treatment(L, rate_name);
	struct tarn_treatment_result r;
	struct tarn_error err = { 0 };

	if (tarn_treatment_area(&t, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_pushnumber(L, r.area_m2);
	push_treatment(L, &r);
	return 2;
}

/* profile{..., points =} -> list of mg/L from inlet to outlet */
static int l_profile(lua_State *L)
{
	struct tarn_treatment t = read_treatment(L, profile_names);
	size_t points = (size_t)bind_field(L, 1, "treatment", "points", "-", 2,
					   10000, 21);
	double *mgl = lua_newuserdatauv(L, points * sizeof *mgl, 0);
	struct tarn_error err = { 0 };

	if (tarn_treatment_profile(&t, points, mgl, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_createtable(L, (int)points, 0);
	for (size_t i = 0; i < points; i++) {
		lua_pushnumber(L, mgl[i]);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static const char *const loop_names[] = {
	"ammonia", "nitrate", "phosphorus", "bod", "solids", "days", NULL
};

static struct tarn_loop read_loop(lua_State *L)
{
	struct tarn_loop loop = tarn_loop_default();

	bind_fields(L, 1, &tarn_loop_fields, &loop, loop_names);
	for (int i = 0; i < TARN_SUBSTANCES; i++) {
		struct tarn_fields named = tarn_loop_substance_fields;
		char section[40];

		snprintf(section, sizeof section, "loop.%s", loop_names[i]);
		named.section = section;
		if (lua_getfield(L, 1, loop_names[i]) != LUA_TNIL)
			bind_fields(L, -1, &named, &loop.substance[i], NULL);
		lua_pop(L, 1);
	}
	return loop;
}

static void push_substances(lua_State *L, const double mgl[TARN_SUBSTANCES])
{
	lua_createtable(L, 0, TARN_SUBSTANCES);
	for (int i = 0; i < TARN_SUBSTANCES; i++)
		bind_set(L, tarn_substance_name((enum tarn_substance)i),
			 mgl[i]);
}

static void push_loop(lua_State *L, const struct tarn_loop_result *r)
{
	lua_newtable(L);
	push_substances(L, r->mgl);
	lua_setfield(L, -2, "steady");
	push_substances(L, r->clearance_m3s);
	lua_setfield(L, -2, "clearance");
	push_substances(L, r->per_day);
	lua_setfield(L, -2, "per_day");
	push_substances(L, r->bed_g_d);
	lua_setfield(L, -2, "bed_g");
	bed_push_flags(L, r->flags);
}

/* loop{..., ammonia = {...}, days =} -> {steady=, per_day=, days = {...}} */
static int l_loop(lua_State *L)
{
	struct tarn_loop loop = read_loop(L);
	int days = (int)bind_field(L, 1, "loop", "days", "d", 0, 100000, 0);
	double start[TARN_SUBSTANCES], now[TARN_SUBSTANCES];
	struct tarn_loop_result r;
	struct tarn_error err = { 0 };

	if (tarn_loop_steady(&loop, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	push_loop(L, &r);
	for (int i = 0; i < TARN_SUBSTANCES; i++)
		start[i] = loop.substance[i].start_mgl;
	lua_createtable(L, days, 0);
	for (int day = 1; day <= days; day++) {
		if (tarn_loop_after(&loop, day, start, now, &err) != TARN_OK)
			return bind_fail(L, &err, NULL);
		push_substances(L, now);
		lua_seti(L, -2, day);
	}
	lua_setfield(L, -2, "days");
	return 1;
}

#define LOADING { "loading", "m/d", 1e-6, 1e6 }

static const struct bind_plain plain[] = {
	{ "implied_rate", { .two = tarn_implied_rate }, "m/yr",
	  { { "removal", "-", 0, 0.999999 }, LOADING } },
	{ "areal_rate", { .three = tarn_areal_rate }, "m/yr",
	  { { "k_per_day", "1/d", 0, 1000 }, { "depth", "m", 0.01, 10 },
	    { "porosity", "-", 0.05, 1 } } },
	{ "dispersion_tanks", { .one = tarn_dispersion_tanks }, "-",
	  { { "dispersion number", "-", 1e-9, 1e9 } } },
	{ "reed_bod_rate", { .one = tarn_reed_bod_rate }, "1/d",
	  { { "porosity", "-", 0.05, 0.95 } } },
	{ "reed_nitrification_rate", { .one = tarn_reed_nitrification_rate },
	  "1/d", { { "root_share", "-", 0, 1 } } },
	{ "reed_solids_ratio", { .one = tarn_reed_solids_ratio }, "-",
	  { LOADING } },
	{ "reed_phosphorus_ratio", { .one = tarn_reed_phosphorus_ratio }, "-",
	  { LOADING } },
	{ .name = NULL }
};

static const luaL_Reg functions[] = {
	{ "outlet", l_outlet },
	{ "area_for", l_area_for },
	{ "profile", l_profile },
	{ "loop", l_loop },
	{ NULL, NULL }
};

void bed_bind_treatment(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
	bind_add_plain(L, plain);
}
