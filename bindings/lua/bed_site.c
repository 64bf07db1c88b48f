/* SPDX-License-Identifier: MIT */
/* What tables say of a bed's water and rate, its layers and its yard. */
#include <math.h>
#include <string.h>

#include "bed.h"
#include "bind_pond.h"

/* ---- water, rate ---- */

static const struct tarn_field temp_rows[] = {
	TARN_IN_VALUE(struct bed_beside, temp_c, "temp", "deg C", 0, 40, 20,
		      "of the water"),
};
TARN_FIELDS(bed_temp_fields, "", temp_rows);

static const struct tarn_field rate_rows[] = {
	TARN_IN_WORD(struct bed_beside, rate, "rate", tarn_rate_name,
		     "a published removal rate"),
};
TARN_FIELDS(bed_rate_fields, "", rate_rows);

void bed_water(double temp_c, double *density_kgm3, double *viscosity_pas)
{
	struct tarn_water water = tarn_water(temp_c);

	*density_kgm3 = water.density_kgm3;
	*viscosity_pas = water.viscosity_pas;
}

const struct tarn_rate *bed_rate(const struct bed_beside *beside)
{
	size_t count;

	return &tarn_rates(&count)[beside->rate];
}

/* ---- layers ---- */

void bed_push_stone(lua_State *L, const struct tarn_layers *in,
		    const struct tarn_layer_result each[],
		    const struct tarn_layers_result *total)
{
	bind_push(L, &tarn_layers_result_fields, total);
	lua_createtable(L, (int)in->count, 0);
	for (size_t i = 0; i < in->count; i++) {
		bind_push(L, &tarn_layer_result_fields, &each[i]);
		bind_set_text(L, "name", in->layer[i].name);
		bind_set(L, "thickness", in->layer[i].thickness_m);
		bind_set(L, "diameter", in->layer[i].diameter_m);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "layers");
}

struct stack {
	struct tarn_layers in;
	struct bed_beside beside;
};
static const struct tarn_field stack_rows[] = {
	TARN_INCLUDED(struct stack, in, tarn_layers_fields),
	TARN_INCLUDED(struct stack, beside, bed_temp_fields),
};
static TARN_FIELDS(stack_fields, "layers", stack_rows);

static void layers_water(void *in)
{
	struct stack *x = in;

	bed_water(x->beside.temp_c, &x->in.density_kgm3, &x->in.viscosity_pas);
}

/* layers{area =, flow =, lip =, clogging =, layers = {{...}, ...}} -> totals
 * with .layers */
static int l_layers(lua_State *L)
{
	struct stack x;
	struct tarn_layers_result total;
	struct tarn_layer_result *each;
	struct tarn_error err = { 0 };

	bind_options(L, &stack_fields, &x, NULL, layers_water);
	each = lua_newuserdatauv(L, x.in.count * sizeof *each, 0);
	bind_must(L, tarn_layers(&x.in, each, &total, &err), &err);
	bed_push_stone(L, &x.in, each, &total);
	return 1;
}

/* ---- the yard ---- */

/*
 * fit{length =, width = | corners = {{x =, y =}, ...}, setback =,
 *     [setbacks = {...}], [footings = {...}], dig =} -> largest bed
 */
static int l_fit(lua_State *L)
{
	struct tarn_yard_wish wish;
	struct tarn_yard yard;
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	struct tarn_fit fit;
	struct tarn_error err = { 0 };

	bind_options(L, &tarn_yard_wish_fields, &wish, NULL, NULL);
	bind_must(L, tarn_yard_wished(&wish, &yard, corner, &err), &err);
	bind_must(L, tarn_yard_fit(&yard, &fit, &err), &err);
	bind_push(L, &tarn_fit_fields, &fit);
	return 1;
}

void bed_bind_site(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "layers", l_layers },
		{ "fit", l_fit },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
