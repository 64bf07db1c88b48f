/* SPDX-License-Identifier: MIT */
/* The plan of a description's bed: pond:bed_plan() and what it can say. */
#include <string.h>

#include "bed.h"
#include "bind_pond.h"

#define PLAN_T "tarn.bed_plan"

/* A plan, with all that its question borrows. */
struct plan_box {
	struct tarn_bed_wish wish;
	struct tarn_yard yard;
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	struct tarn_layer layer[TARN_BED_LAYERS];
	struct tarn_fall fall;
	struct tarn_chance chance;
	struct tarn_bed_question question;
	struct tarn_bed_plan plan;
};

static struct plan_box *check_plan(lua_State *L)
{
	return luaL_checkudata(L, 1, PLAN_T);
}

/* ---- the question ---------------------------------------------------------- */

static enum tarn_status head_at(const void *fall, double flow_m3s,
				double *head_m, struct tarn_error *err)
{
	return tarn_fall_head(fall, flow_m3s, head_m, err);
}

/* Flow that the falls wished take; NaN unless both their sizes are given. */
static double falls_flow(lua_State *L, const struct tarn_bed_wish *w)
{
	struct tarn_weir weir = tarn_weir_default();
	struct tarn_weir_flow out;
	struct tarn_error err = { 0 };

	if (isnan(w->fall_width_m) || isnan(w->fall_depth_m))
		return TARN_NAN;
	weir.kind = TARN_WEIR_BROAD;
	weir.width_m = w->fall_width_m;
	weir.lip_depth_m = w->fall_depth_m;
	bind_must(L, tarn_weir_solve(&weir, &out, &err), &err);
	return out.flow_m3s;
}

/* What the pond and its works say. */
static void ask_pond(lua_State *L, const struct pond_box *pond,
		     struct plan_box *box)
{
	struct tarn_bed_question *q = &box->question;
	const struct tarn_works_flow *running = &pond->running;
	struct tarn_pond_facts facts;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_pond_facts(&pond->pond, &facts, &err), &err);
	q->surface_m2 = facts.lip_area_m2;
	q->volume_m3 = facts.lip_volume_m3;
	q->bed_m2 = pond->pond.bed.area_m2;
	q->depth_m = pond->pond.bed.depth_m;
	q->porosity = pond->pond.bed.porosity;
	q->works_m3s = running->bed_m3s;
	q->from_curve = running->from_curve;
	if (!running->from_curve)
		q->pump_m3s = pond->pond.pump.flow_m3s;
	if (running->bed_given > 0)
		q->head_m = pond->pond.bed.head_m;
	for (int i = 0; i < pond->works.falls; i++)
		if (pond->works.fall[i].bed) {
			box->fall = pond->works.fall[i];
			q->head_at = head_at;
			q->context = &box->fall;
		}
}

static void read_layers(lua_State *L, struct plan_box *box)
{
	if (!bind_push_section(L, "bed"))
		return;
	if (lua_getfield(L, -1, "layers") != LUA_TNIL) {
		size_t count;
		const struct tarn_layer *layers = bed_layers(L, &count);

		memcpy(box->layer, layers, count * sizeof *layers);
		box->question.layer = box->layer;
		box->question.layers = count;
	}
	lua_pop(L, 2);
}

/* What the description at 1 says of the bed. */
static void ask_description(lua_State *L, struct plan_box *box)
{
	struct tarn_bed_question *q = &box->question;
	struct tarn_water water;

	box->wish = bind_read_wish(L);
	q->wish = &box->wish;
	q->falls_m3s = falls_flow(L, &box->wish);
	water = tarn_water(box->wish.temp_c);
	q->density_kgm3 = water.density_kgm3;
	q->viscosity_pas = water.viscosity_pas;
	read_layers(L, box);
	if (bind_push_section(L, "fish")) {
		q->fish = 1;
		lua_pop(L, 1);
	}
	if (bind_push_section(L, "treatment")) {
		q->rate = bed_rate(L, lua_gettop(L));
		lua_pop(L, 1);
	}
	if (bind_push_section(L, "chance")) {
		bind_fields(L, -1, &tarn_chance_fields, &box->chance, NULL);
		lua_pop(L, 1);
	}
	if (bind_push_section(L, "yard")) {
		bed_yard(L, lua_gettop(L), &box->yard, box->corner);
		if (lua_getfield(L, -1, "dig") == LUA_TNIL)
			box->yard.dig_m = TARN_NAN;	/* as deep as the bed */
		q->yard = &box->yard;
		lua_pop(L, 2);
	}
}

/* Whether two plans have one yard, but for the depth of the hole. */
static int same_yard(const struct plan_box *a, const struct plan_box *b)
{
	const struct tarn_yard *x = a->question.yard, *y = b->question.yard;

	return x && y && x->count == y->count &&
	       memcmp(a->corner, b->corner, x->count * sizeof x->corner[0]) ==
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
	struct plan_box *box = lua_newuserdatauv(L, sizeof *box, 0);
	struct tarn_error err = { 0 };

	luaL_setmetatable(L, PLAN_T);
	box->yard = tarn_yard_default();
	box->chance = tarn_chance_default();
	box->question = tarn_bed_question_default();
	ask_pond(L, pond, box);
	lua_getiuservalue(L, 1, 2);
	lua_replace(L, 1);	/* the pond's description */
	ask_description(L, box);
	if (before && same_yard(box, before))
		box->question.before = &before->plan;
	bind_must(L, tarn_bed_plan(&box->question, &box->plan, &err), &err);
	box->question.before = NULL;	/* it may be gone by the next call */
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
	if (p->loaded) {
		bind_push(L, &tarn_waste_result_fields, &p->waste);
		lua_setfield(L, -2, "waste");
	}
	if (p->yard) {
		bed_push_fit(L, &p->fit);
		lua_setfield(L, -2, "fit");
	}
	lua_newtable(L);
	for (int i = 0; i < TARN_BED_WISH_SECTIONS; i++)
		bind_set_rows(L, tarn_bed_wish_sections[i], &box->wish);
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

	bind_must(L, tarn_bed_cells(&box->question, &box->plan, &axes, cells,
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

	bind_must(L, tarn_bed_rates(&box->question, &box->plan, rated, &count,
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
	size_t count = tarn_bed_practice(&box->question, &box->plan, rows);

	bind_push_list(L, &tarn_bed_practice_fields, rows, count,
		       sizeof rows[0]);
	return 1;
}

/* plan:stone() -> totals with .layers, nil without layers */
static int l_stone(lua_State *L)
{
	const struct plan_box *box = check_plan(L);
	const struct tarn_bed_question *q = &box->question;
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

	bind_must(L, tarn_bed_chance(&box->plan, &box->chance, NULL, &r, &err),
		  &err);
	bind_push(L, &tarn_chance_result_fields, &r);
	bind_push(L, &tarn_chance_fields, &box->chance);
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
