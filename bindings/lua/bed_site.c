/* SPDX-License-Identifier: MIT */
/* What tables say of a bed's water and rate, its layers and its yard. */
#include <math.h>
#include <string.h>

#include "bed.h"
#include "bind_pond.h"

/* ---- water, rate ---- */

void bed_water(lua_State *L, const char *section, double *density,
	       double *viscosity)
{
	double temp = bind_field(L, 1, section, "temp", "deg C", 0, 40, 20);
	struct tarn_water water = tarn_water(temp);

	*density = water.density_kgm3;
	*viscosity = water.viscosity_pas;
}

const struct tarn_rate *bed_rate(lua_State *L, int arg)
{
	size_t count;
	const struct tarn_rate *all = tarn_rates(&count), *rate = NULL;
	const char *name = NULL, *near = all[0].name;

	if (lua_getfield(L, arg, "rate") != LUA_TNIL) {
		name = luaL_tolstring(L, -1, NULL);
		rate = tarn_rate_find(name);
		for (size_t i = 0; i < count; i++)
			if (tarn_name_distance(name, all[i].name) <
			    tarn_name_distance(name, near))
				near = all[i].name;
		if (!rate)
			bind_error(L, "rate '%s' is not in tarn.bed.rates(): "
				   "did you mean '%s'?", name, near);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return rate;
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

static void layers_water(lua_State *L, void *in)
{
	struct tarn_layers *layers = in;

	bed_water(L, "layers", &layers->density_kgm3, &layers->viscosity_pas);
}

/* layers{area =, flow =, lip =, clogging =, layers = {{...}, ...}} -> totals
 * with .layers */
static int l_layers(lua_State *L)
{
	static const char *const also[] = { "temp", NULL };
	struct tarn_layers in = tarn_layers_default();
	struct tarn_layers_result total;
	struct tarn_layer_result *each;
	struct tarn_error err = { 0 };

	bind_options(L, &tarn_layers_fields, &in, also, layers_water);
	each = lua_newuserdatauv(L, in.count * sizeof *each, 0);
	bind_must(L, tarn_layers(&in, each, &total, &err), &err);
	bed_push_stone(L, &in, each, &total);
	return 1;
}

/* ---- the yard ---- */

void bed_push_fit(lua_State *L, const struct tarn_fit *fit)
{
	bind_push(L, &tarn_fit_fields, fit);
	lua_createtable(L, 4, 0);
	for (int i = 0; i < 4; i++) {
		lua_createtable(L, 0, 2);
		bind_set(L, "x", fit->x_m[i]);
		bind_set(L, "y", fit->y_m[i]);
		lua_rawseti(L, -2, i + 1);
	}
	lua_setfield(L, -2, "corners");
}

/*
 * fit{length =, width = | corners = {{x =, y =}, ...}, setback =,
 *     [setbacks = {...}], [footings = {...}], dig =} -> largest bed
 */
static int l_fit(lua_State *L)
{
	struct tarn_yard_wish wish = { .corners = 0 };
	struct tarn_yard yard;
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	struct tarn_fit fit;
	struct tarn_error err = { 0 };

	tarn_fields_default(&tarn_yard_wish_fields, &wish);
	lua_pushvalue(L, 1);
	lua_pushliteral(L, "yard");
	bind_take(L, &tarn_yard_wish_fields, "yard", &wish);
	bind_must(L, tarn_yard_wished(&wish, &yard, corner, &err), &err);
	bind_must(L, tarn_yard_fit(&yard, &fit, &err), &err);
	bed_push_fit(L, &fit);
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
