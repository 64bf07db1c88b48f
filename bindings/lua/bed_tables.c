/* SPDX-License-Identifier: MIT */
/* Loading, and the cited tables as lists. */
#include <string.h>

#include "bed.h"

static const char *const loading_names[] = { "flow", "area", "loading", NULL };

/* loading{two of flow, area, loading} -> all three and other units */
static int l_loading(lua_State *L)
{
	double flow, area, loading;

	bind_known(L, 1, NULL, loading_names);
	flow = bind_field(L, 1, "loading", "flow", "m3/s", 1e-8, 10, TARN_NAN);
	area = bind_field(L, 1, "loading", "area", "m2", 1e-3, 1e7, TARN_NAN);
	loading = bind_field(L, 1, "loading", "loading", "m/d", 1e-4, 1e4,
			     TARN_NAN);
	if (isnan(flow) + isnan(area) + isnan(loading) != 1)
		return bind_error(L, "loading needs two of flow, area and "
				  "loading");
	if (isnan(flow))
		flow = tarn_bed_flow(loading, area);
	if (isnan(area))
		area = tarn_bed_area(flow, loading);
	lua_createtable(L, 0, 4);
	bind_set(L, "flow", flow);
	bind_set(L, "area", area);
	bind_set(L, "loading", tarn_bed_loading(flow, area));
	bind_set(L, "velocity", flow / area);
	return 1;
}

static int find_use(lua_State *L, int arg)
{
	const char *name = luaL_optstring(L, arg, "any");
	luaL_Buffer b;

	for (int u = 0; u < TARN_USES; u++)
		if (strcmp(tarn_bed_use_name((enum tarn_bed_use)u), name) == 0)
			return u;
	if (strcmp(name, "any") == 0)
		return TARN_USES;
	luaL_buffinit(L, &b);
	for (int u = 0; u < TARN_USES; u++) {
		luaL_addstring(&b, tarn_bed_use_name((enum tarn_bed_use)u));
		luaL_addstring(&b, ", ");
	}
	luaL_addstring(&b, "any");
	luaL_pushresult(&b);
	return bind_error(L, "use must be one of %s, got %s",
			  lua_tostring(L, -1), name);
}

static void push_range(lua_State *L, const struct tarn_loading_range *r)
{
	lua_createtable(L, 0, 7);
	bind_set_text(L, "kind", r->kind);
	bind_set_text(L, "use", tarn_bed_use_name(r->use));
	bind_set(L, "low", r->lo_m_d);
	bind_set(L, "high", r->hi_m_d);
	bind_set_text(L, "removal", r->removal);
	bed_push_source(L, r->source, r->evidence);
}

/* ranges([use]) -> list, slowest first */
static int l_ranges(lua_State *L)
{
	size_t count;
	const struct tarn_loading_range *all = tarn_loading_ranges(&count);
	int use = find_use(L, 1);
	lua_Integer n = 0;

	lua_newtable(L);
	for (size_t i = 0; i < count; i++)
		if (use == TARN_USES || (int)all[i].use == use) {
			push_range(L, &all[i]);
			lua_seti(L, -2, ++n);
		}
	return 1;
}

/* place(loading [, use]) -> {factor=, inside=, low=, high=, nearest=} */
static int l_place(lua_State *L)
{
	double loading = bind_number(L, 1, "loading [m/d]", 1e-6, 1e6);
	struct tarn_loading_place p;
	struct tarn_error err = { 0 };

	if (tarn_loading_place(loading, (enum tarn_bed_use)find_use(L, 2), &p,
			       &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_createtable(L, 0, 5);
	bind_set(L, "factor", p.factor);
	bind_set(L, "low", p.lo_m_d);
	bind_set(L, "high", p.hi_m_d);
	bind_set_count(L, "inside", p.inside);
	push_range(L, p.nearest);
	lua_setfield(L, -2, "nearest");
	return 1;
}

static int l_regimes(lua_State *L)
{
	size_t count;
	const struct tarn_loading_regime *r = tarn_loading_regimes(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 5);
		bind_set_text(L, "name", r[i].name);
		bind_set(L, "low", r[i].lo_m_d);
		bind_set(L, "high", r[i].hi_m_d);
		bind_set_text(L, "meaning", r[i].meaning);
		bed_push_source(L, NULL, r[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_rules(lua_State *L)
{
	static const char *const bases[] = { "surface", "volume", "turnover" };
	size_t count;
	const struct tarn_bed_rule *r = tarn_bed_rules(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 5);
		bind_set_text(L, "basis", bases[r[i].basis]);
		bind_set(L, "low", r[i].lo);
		bind_set(L, "high", r[i].hi);
		bind_set_text(L, "text", r[i].text);
		bed_push_source(L, NULL, TARN_EVIDENCE_PRACTICE);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_rates(lua_State *L)
{
	size_t count;
	const struct tarn_rate *r = tarn_rates(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 14);
		bind_set_text(L, "name", r[i].name);
		bind_set_text(L, "bed", r[i].bed);
		bind_set_text(L, "parameter", r[i].parameter);
		bind_set(L, "k_m_yr", r[i].k_m_yr);
		bind_set(L, "k_per_day", r[i].k_per_day);
		bind_set(L, "sd_m_yr", r[i].sd_m_yr);
		bind_set(L, "tanks", r[i].tanks);
		bind_set(L, "theta", r[i].theta);
		bind_set(L, "background", r[i].background_mgl);
		bind_set(L, "background_slope", r[i].background_slope);
		bind_set(L, "k_low", r[i].low_m_d);
		bind_set(L, "k_high", r[i].high_m_d);
		bed_push_source(L, r[i].source, r[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_trials(lua_State *L)
{
	size_t count;
	const struct tarn_trial *t = tarn_trials(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 7);
		bind_set_text(L, "system", t[i].system);
		bind_set_text(L, "parameter", t[i].parameter);
		bind_set(L, "loading", t[i].loading_m_d);
		bind_set(L, "removal", t[i].removal);
		bind_set(L, "k_m_yr", tarn_implied_rate(t[i].removal,
							t[i].loading_m_d));
		bed_push_source(L, t[i].source, t[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_media(lua_State *L)
{
	size_t count;
	const struct tarn_medium *m = tarn_media(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 9);
		bind_set_text(L, "name", m[i].name);
		bind_set(L, "d10", m[i].d10_m);
		bind_set(L, "porosity_low", m[i].porosity_lo);
		bind_set(L, "porosity_high", m[i].porosity_hi);
		bind_set(L, "conductivity_low", m[i].low_m_d);
		bind_set(L, "conductivity_high", m[i].high_m_d);
		bind_set(L, "conductivity_design", m[i].design_m_d);
		bed_push_source(L, m[i].source, m[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_limits(lua_State *L)
{
	static const char *const bases[] = {
		"section_bod", "area_bod", "area_solids",
	};
	size_t count;
	const struct tarn_limit *m = tarn_limits(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 5);
		bind_set_text(L, "basis", bases[m[i].basis]);
		bind_set(L, "value", m[i].value);
		bind_set_text(L, "meaning", m[i].meaning);
		bed_push_source(L, m[i].source, m[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_waste_rules(lua_State *L)
{
	static const char *const bases[] = { "protein", "feed", "fish" };
	size_t count;
	const struct tarn_waste_rule *r = tarn_waste_rules(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 4);
		bind_set_text(L, "basis", bases[r[i].basis]);
		bind_set(L, "factor", r[i].factor);
		bed_push_source(L, r[i].source, r[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static int l_nitrification(lua_State *L)
{
	size_t count;
	const struct tarn_nitrification *r = tarn_nitrifications(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 5);
		bind_set(L, "oxygen", r[i].oxygen);
		bind_set(L, "alkalinity", r[i].alkalinity);
		bind_set(L, "cells", r[i].cells);
		bed_push_source(L, r[i].source, r[i].evidence);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static const struct bind_plain plain[] = {
	{ "exposed", { .one = tarn_turnover_exposed }, "-",
	  { { "turnovers", "-", 0, 1e9 } } },
	{ .name = NULL }
};

static const luaL_Reg functions[] = {
	{ "loading", l_loading },
	{ "ranges", l_ranges },
	{ "place", l_place },
	{ "regimes", l_regimes },
	{ "rules", l_rules },
	{ "rates", l_rates },
	{ "trials", l_trials },
	{ "media", l_media },
	{ "limits", l_limits },
	{ "waste_rules", l_waste_rules },
	{ "nitrification", l_nitrification },
	{ NULL, NULL }
};

void bed_bind_tables(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
	bind_add_plain(L, plain);
}
