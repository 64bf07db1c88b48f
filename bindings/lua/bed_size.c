/* SPDX-License-Identifier: MIT */
/* The whole sizing, its trade-off and its uncertainty. */
#include <math.h>

#include "bed.h"

static void set_rate(lua_State *L, void *in)
{
	struct tarn_sizing *s = in;
	const struct tarn_rate *rate;

	bed_water(L, "size", &s->density_kgm3, &s->viscosity_pas);
	rate = bed_rate(L, 1);
	if (!rate)
		return;
	bind_read(L, 1, &tarn_sizing_fields, s);
	tarn_sizing_set_rate(s, rate);
}

/* Pushes what has the memory of its layers. */
static struct tarn_sizing read_sizing(lua_State *L, const char *const also[])
{
	struct tarn_sizing s = tarn_sizing_default();

	bind_options(L, &tarn_sizing_fields, &s, also, set_rate);
	return s;
}

static void push_methods(lua_State *L, const struct tarn_sizing_result *r)
{
	lua_Integer n = 0;

	lua_newtable(L);
	for (int m = 0; m < TARN_SIZE_RULES; m++) {
		if (isnan(r->area_m2[m]))
			continue;
		bind_push(L, &tarn_size_rule_info_fields,
			  tarn_size_rule_info((enum tarn_size_rule)m));
		bind_set(L, "area", r->area_m2[m]);
		bind_set_flag(L, "governs", m == r->governs);
		lua_rawseti(L, -2, ++n);
	}
	lua_setfield(L, -2, "methods");
}

static void push_kinds(lua_State *L, const struct tarn_sizing_result *r)
{
	size_t count;
	const struct tarn_bed_kind *all = tarn_bed_kinds(&count);

	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 3);
		bind_set_text(L, "name", all[i].name);
		bind_set(L, "low", r->kind_lo_m2[i]);
		bind_set(L, "high", r->kind_hi_m2[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "kinds");
}

void bed_push_sizing(lua_State *L, const struct tarn_sizing_result *r)
{
	bind_push(L, &tarn_bed_check_fields, &r->bed);
	bind_set_rows(L, &tarn_sizing_result_fields, r);
	push_methods(L, r);
	push_kinds(L, r);
	if (r->governs >= 0)
		bind_set_text(L, "governs", tarn_size_rule_info(
			(enum tarn_size_rule)r->governs)->name);
}

/* size{flow =, loading =, ...} -> the bed, with methods and what governs */
static int l_size(lua_State *L)
{
	static const char *const also[] = { "rate", NULL };
	struct tarn_sizing s = read_sizing(L, also);
	struct tarn_sizing_result r;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_sizing(&s, &r, &err), &err);
	bed_push_sizing(L, &r);
	return 1;
}

/* tradeoff{areas = {...}, depths = {...}, flows = {...}, ...} -> list of
 * cells, flow fastest */
static int l_tradeoff(lua_State *L)
{
	static const char *const also[] = {
		"rate", "areas", "depths", "flows", NULL
	};
	struct tarn_sizing s = read_sizing(L, also);
	struct tarn_tradeoff axes;
	struct tarn_bed_check *cells;
	struct tarn_error err = { 0 };
	size_t count;

	bind_borrow(L, 1, &tarn_tradeoff_fields, &axes);
	count = axes.areas * axes.depths * axes.flows;
	if (count > 1000000)
		return bind_error(L, "a trade-off has at most 1000000 cells, "
				  "this one has %I", (LUAI_UACINT)count);
	cells = lua_newuserdatauv(L, count * sizeof *cells, 0);
	bind_must(L, tarn_tradeoff(&s, &axes, cells, &err), &err);
	bind_push_list(L, &tarn_bed_check_fields, cells, count, sizeof *cells);
	return 1;
}

/* chance{samples =, k_cv =, ..., bed = {...}} -> percentiles */
static int l_chance(lua_State *L)
{
	static const char *const bed[] = { "bed", NULL };
	static const char *const also[] = { "rate", NULL };
	struct tarn_chance chance = tarn_chance_default();
	struct tarn_chance_result r;
	struct tarn_sizing s;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_chance_fields, &chance, bed);
	if (lua_getfield(L, 1, "bed") != LUA_TTABLE)
		return bind_error(L, "chance.bed must be a table as for "
				  "tarn.bed.size, with area");
	lua_replace(L, 1);
	s = read_sizing(L, also);
	bind_must(L, tarn_chance(&s, &chance, NULL, &r, &err), &err);
	bind_push(L, &tarn_chance_result_fields, &r);
	return 1;
}

void bed_bind_size(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "size", l_size },
		{ "tradeoff", l_tradeoff },
		{ "chance", l_chance },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
