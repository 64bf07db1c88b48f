/* SPDX-License-Identifier: MIT */
/* The whole sizing, its trade-off and its uncertainty. */
#include <math.h>

#include "bed.h"

struct size {
	struct tarn_sizing s;
	struct bed_beside beside;
};
static const struct tarn_field size_rows[] = {
	TARN_INCLUDED(struct size, s, tarn_sizing_fields),
	TARN_INCLUDED(struct size, beside, bed_rate_fields),
};
static TARN_FIELDS(size_fields, "size", size_rows);

static void set_rate(void *in)
{
	struct size *x = in;

	bed_water(x->s.temp_c, &x->s.density_kgm3, &x->s.viscosity_pas);
	if (x->beside.rate >= 0)
		tarn_sizing_set_rate(&x->s, bed_rate(&x->beside));
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
	struct size x;
	struct tarn_sizing_result r;
	struct tarn_error err = { 0 };

	bind_options(L, &size_fields, &x, NULL, set_rate);
	bind_must(L, tarn_sizing(&x.s, &r, &err), &err);
	bed_push_sizing(L, &r);
	return 1;
}

struct tradeoff {
	struct size size;
	struct tarn_tradeoff axes;
};
static const struct tarn_field tradeoff_rows[] = {
	TARN_INCLUDED(struct tradeoff, size, size_fields),
	TARN_INCLUDED(struct tradeoff, axes, tarn_tradeoff_fields),
};
static TARN_FIELDS(tradeoff_fields, "tradeoff", tradeoff_rows);

/* tradeoff{areas = {...}, depths = {...}, flows = {...}, ...} -> list of
 * cells, flow fastest */
static int l_tradeoff(lua_State *L)
{
	struct tradeoff x;
	struct tarn_bed_check *cells;
	struct tarn_error err = { 0 };
	size_t count;

	bind_options(L, &tradeoff_fields, &x, NULL, set_rate);
	count = x.axes.areas * x.axes.depths * x.axes.flows;
	if (count > 1000000)
		return bind_error(L, "a trade-off has at most 1000000 cells, "
				  "this one has %I", (LUAI_UACINT)count);
	cells = lua_newuserdatauv(L, count * sizeof *cells, 0);
	bind_must(L, tarn_tradeoff(&x.size.s, &x.axes, cells, &err), &err);
	bind_push_list(L, &tarn_bed_check_fields, cells, count, sizeof *cells);
	return 1;
}

struct chance {
	struct tarn_chance chance;
	struct size bed;
};
static const struct tarn_field chance_rows[] = {
	TARN_INCLUDED(struct chance, chance, tarn_chance_fields),
	{ .name = "bed", .kind = TARN_FIELD_SECTION, .unit = "-",
	  .offset = offsetof(struct chance, bed), .of = &size_fields,
	  .required = 1, .meaning = "as for tarn.bed.size, with area" },
};
static TARN_FIELDS(chance_fields, "chance", chance_rows);

static void set_bed_rate(void *in)
{
	set_rate(&((struct chance *)in)->bed);
}

/* chance{samples =, k_cv =, ..., bed = {...}} -> percentiles */
static int l_chance(lua_State *L)
{
	struct chance x;
	struct tarn_chance_result r;
	struct tarn_error err = { 0 };

	bind_options(L, &chance_fields, &x, NULL, set_bed_rate);
	bind_must(L, tarn_chance(&x.bed.s, &x.chance, NULL, &r, &err), &err);
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
