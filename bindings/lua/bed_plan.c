/* SPDX-License-Identifier: MIT */
/* The plan of a description's bed: pond:bed_plan() and what it can say. */
#include <string.h>

#include "bed.h"
#include "bind_pond.h"

#define PLAN_T "tarn.bed_plan"

/* A plan, with all that its question borrows; the pond is user value 1. */
struct plan_box {
	const struct tarn_design *given;
	struct tarn_bed_asked asked;
	struct tarn_bed_plan plan;
};

static struct plan_box *check_plan(lua_State *L)
{
	return luaL_checkudata(L, 1, PLAN_T);
}

/* Whether two plans have one yard, but for the depth of the hole. */
static int same_yard(const struct plan_box *a, const struct plan_box *b)
{
	const struct tarn_yard *x = a->asked.question.yard;
	const struct tarn_yard *y = b->asked.question.yard;

	return x && y && x->count == y->count &&
	       memcmp(x->corner, y->corner, x->count * sizeof *x->corner) ==
		       0 &&
	       x->footing_slope == y->footing_slope &&
	       x->max_length_m == y->max_length_m &&
	       x->max_width_m == y->max_width_m;
}

/* pond:bed_plan([earlier plan, whose room serves where the yard is the same])
 * -> plan */
static int l_bed_plan(lua_State *L)
{
	const struct pond_box *pond = bind_check_pond(L, 1);
	const struct plan_box *before = lua_isnoneornil(L, 2) ? NULL
		: luaL_checkudata(L, 2, PLAN_T);
	struct plan_box *box = lua_newuserdatauv(L, sizeof *box, 1);
	struct tarn_bed_question *q = &box->asked.question;
	struct tarn_error err = { 0 };

	luaL_setmetatable(L, PLAN_T);
	lua_pushvalue(L, 1);
	lua_setiuservalue(L, -2, 1);
	box->given = pond->given;
	bind_must(L, tarn_design_ask_bed(pond->given, &pond->made, &box->asked,
					 &err), &err);
	if (before && same_yard(box, before))
		q->before = &before->plan;
	bind_must(L, tarn_bed_plan(q, &box->plan, &err), &err);
	q->before = NULL;	/* it may be gone by the next call */
	return 1;
}

/* ---- the answers ------------------------------------------------------------ */

/* plan:result() -> table: demand, flow, size, checks; .wish has every field that
 * was wished, with its default */
static int l_result(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	const struct tarn_bed_plan *p = &box->plan;

	bind_push(L, &tarn_bed_plan_fields, p);
	bed_push_sizing(L, &p->sized);
	lua_setfield(L, -2, "sized");
	lua_newtable(L);
	for (int i = 0; i < TARN_BED_WISH_SECTIONS; i++)
		bind_set_rows(L, tarn_bed_wish_sections[i], &box->given->wish);
	lua_setfield(L, -2, "wish");
	return 1;
}

/* plan:cells("sizes" | "flows" | "map" | "full") -> axes, with .cells: a list,
 * flow fastest, then depth */
static int l_cells(lua_State *L)
{
	static const char *const grids[] = {
		"sizes", "flows", "map", "full", NULL
	};
	const struct plan_box *box = check_plan(L);
	struct tarn_bed_axes axes = tarn_bed_axes(&box->plan,
		(enum tarn_bed_grid)luaL_checkoption(L, 2, NULL, grids));
	int count = axes.areas * axes.depths * axes.flows;
	struct tarn_bed_check *cells =
		lua_newuserdatauv(L, (size_t)count * sizeof *cells, 0);
	struct tarn_error err = { 0 };

	bind_must(L, tarn_bed_cells(&box->asked.question, &box->plan, &axes, cells,
				    &err),
		  &err);
	bind_push(L, &tarn_bed_axes_fields, &axes);
	bind_push_list(L, &tarn_bed_check_fields, cells, (size_t)count,
		       sizeof *cells);
	lua_setfield(L, -2, "cells");
	return 1;
}

/* plan:rates() -> list: the bed under the rate described and known ones */
static int l_rates(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	struct tarn_bed_rated rated[TARN_BED_RATED];
	size_t count;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_bed_rates(&box->asked.question, &box->plan, rated, &count,
				    &err),
		  &err);
	bind_push_list(L, &tarn_bed_rated_fields, rated, count,
		       sizeof rated[0]);
	return 1;
}

/* plan:published() -> list: areas by the loadings that are known of uses */
static int l_published(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	struct tarn_bed_published rows[TARN_BED_PUBLISHED];
	size_t count = tarn_bed_published(&box->plan, rows);

	bind_push_list(L, &tarn_bed_published_fields, rows, count,
		       sizeof rows[0]);
	return 1;
}

/* plan:practice() -> list: areas by the shares in use */
static int l_practice(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	struct tarn_bed_practice rows[TARN_BED_PRACTICE];
	size_t count = tarn_bed_practice(&box->asked.question, &box->plan, rows);

	bind_push_list(L, &tarn_bed_practice_fields, rows, count,
		       sizeof rows[0]);
	return 1;
}

/* plan:stone() -> totals with .layers, nil without layers */
static int l_stone(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	const struct tarn_bed_question *q = &box->asked.question;
	struct tarn_layer_result each[TARN_BED_LAYERS];
	struct tarn_layers_result total;
	struct tarn_layers in = { .layer = q->layer, .count = q->layers };
	struct tarn_error err = { 0 };

	if (q->layers == 0)
		return 0;
	bind_must(L, tarn_bed_stone(q, &box->plan, each, &total, &err), &err);
	bed_push_stone(L, &in, each, &total);
	return 1;
}

/* plan:chance() -> percentiles, with .inputs: the spreads taken */
static int l_chance(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	struct tarn_chance_result r;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_bed_chance(&box->plan, &box->given->chance, NULL, &r, &err),
		  &err);
	bind_push(L, &tarn_chance_result_fields, &r);
	bind_push(L, &tarn_chance_fields, &box->given->chance);
	lua_setfield(L, -2, "inputs");
	return 1;
}

/* bed.refusals() -> names of the flags that forbid a bed, in the order in which
 * they are told */
static int l_refusals(lua_State *L)
{
	size_t count, all;
	const unsigned *order = tarn_bed_refusals(&count);

	tarn_bed_flags(&all);
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++)
		for (size_t k = 0; k < all; k++)
			if (tarn_bed_flags(&all)[k].bit == order[i]) {
				lua_pushstring(L, tarn_bed_flags(&all)[k].name);
				lua_rawseti(L, -2, (lua_Integer)i + 1);
			}
	return 1;
}

void bind_bed_plan(lua_State *L)
{
	static const luaL_Reg of_pond[] = {
		{ "bed_plan", l_bed_plan },
		{ NULL, NULL }
	};
	static const luaL_Reg methods[] = {
		{ "result", l_result },
		{ "cells", l_cells },
		{ "rates", l_rates },
		{ "published", l_published },
		{ "practice", l_practice },
		{ "stone", l_stone },
		{ "chance", l_chance },
		{ NULL, NULL }
	};

	bind_methods(L, POND_T, of_pond);
	bind_methods(L, PLAN_T, methods);
	lua_getfield(L, -1, "bed");
	lua_pushcfunction(L, l_refusals);
	lua_setfield(L, -2, "refusals");
	lua_pop(L, 1);
}
