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

static void read_layer(lua_State *L, struct tarn_layer *to, size_t i)
{
	const char *also[BIND_NAMES_MAX], *name;
	struct tarn_fields named = tarn_layer_fields;

	named.section = lua_pushfstring(L, "layer %d", (int)i + 1);
	lua_insert(L, -2);
	bind_fields(L, -1, &named, to, bind_beside_names("layer", NULL, also));
	name = bind_beside_text(L, -1, "layer", "name");
	strncpy(to->name, name ? name : "", sizeof to->name - 1);
	lua_pop(L, 2);
}

struct tarn_layer *bed_layers(lua_State *L, size_t *count)
{
	struct tarn_layer *layers;

	if (lua_type(L, -1) != LUA_TTABLE || lua_rawlen(L, -1) == 0 ||
	    lua_rawlen(L, -1) > 100)
		bind_error(L, "layers must be a list of up to 100 layers, "
			   "from the bottom");
	*count = (size_t)lua_rawlen(L, -1);
	layers = lua_newuserdatauv(L, *count * sizeof *layers, 0);
	for (size_t i = 0; i < *count; i++) {
		layers[i] = tarn_layer_default();
		lua_geti(L, -2, (lua_Integer)i + 1);
		read_layer(L, &layers[i], i);
	}
	lua_remove(L, -2);
	return layers;
}

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
	static const char *const also[] = { "layers", "temp", NULL };
	struct tarn_layers in = tarn_layers_default();
	struct tarn_layers_result total;
	struct tarn_layer_result *each;
	struct tarn_error err = { 0 };

	bind_options(L, &tarn_layers_fields, &in, also, layers_water);
	lua_getfield(L, 1, "layers");
	in.layer = bed_layers(L, &in.count);
	each = lua_newuserdatauv(L, in.count * sizeof *each, 0);
	bind_must(L, tarn_layers(&in, each, &total, &err), &err);
	bed_push_stone(L, &in, each, &total);
	return 1;
}

/* ---- the yard ---- */

#define PLAN struct bed_yard_plan

static const struct tarn_field plan_rows[] = {
	TARN_IN_NUMBER(PLAN, length_m, "length", "m", 0.1, 1e4, TARN_NAN,
		       "of a rectangular yard; or corners"),
	TARN_IN_NUMBER(PLAN, width_m, "width", "m", 0.1, 1e4, TARN_NAN,
		       "of a rectangular yard"),
	TARN_IN_NUMBER(PLAN, setback_m, "setback", "m", 0, 1000, 0,
		       "to keep from every side"),
};

TARN_FIELDS(bed_yard_plan_fields, "yard", plan_rows);
TARN_DEFAULT(PLAN, bed_yard_plan_default, bed_yard_plan_fields)

/* A rectangle as its four corners: sides bottom, right, top, left. */
static void make_rectangle(lua_State *L, const struct bed_yard_plan *plan,
			   struct tarn_yard_corner c[4])
{
	if (isnan(plan->length_m) || isnan(plan->width_m))
		bind_error(L, "yard needs length and width, or corners");
	c[0].x_m = c[0].y_m = c[1].y_m = c[3].x_m = 0;
	c[1].x_m = c[2].x_m = plan->length_m;
	c[2].y_m = c[3].y_m = plan->width_m;
}

static void read_corners(lua_State *L, struct tarn_yard_corner c[],
			 size_t *count)
{
	*count = lua_type(L, -1) == LUA_TTABLE ? (size_t)lua_rawlen(L, -1) : 0;
	if (*count < 3 || *count > TARN_YARD_CORNERS)
		bind_error(L, "yard.corners must be a list of 3 to %d corners "
			   "{x =, y =}", TARN_YARD_CORNERS);
	for (size_t i = 0; i < *count; i++) {
		struct tarn_fields named = tarn_yard_corner_fields;

		lua_geti(L, -1, (lua_Integer)i + 1);
		named.section = lua_pushfstring(L, "corner %d", (int)i + 1);
		lua_insert(L, -2);
		bind_fields(L, -1, &named, &c[i], NULL);
		lua_pop(L, 2);
	}
}

/* One number a side from list 'name', where there is one; false is none. */
static void read_sides(lua_State *L, int arg, const char *name, size_t count,
		       struct tarn_yard_corner c[], int footing)
{
	size_t given = bind_beside_list(L, arg, "yard", name);

	if (given > count)
		bind_error(L, "yard.%s has %d entries for %d sides", name,
			   (int)given, (int)count);
	for (size_t i = 0; i < given; i++) {
		double *to = footing ? &c[i].footing_m : &c[i].setback_m;

		lua_geti(L, -1, (lua_Integer)i + 1);
		lua_pushfstring(L, "yard.%s[%d] [m]", name, (int)i + 1);
		if (!lua_isboolean(L, -2) || lua_toboolean(L, -2))
			*to = bind_number(L, -2, lua_tostring(L, -1), 0,
					  BIND_NUMBER_MOST);
		lua_pop(L, 2);
	}
	lua_pop(L, 1);
}

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

void bed_yard(lua_State *L, int arg, struct tarn_yard *yard,
	      struct tarn_yard_corner corner[TARN_YARD_CORNERS])
{
	struct bed_yard_plan plan = bed_yard_plan_default();
	const char *names[BIND_NAMES_MAX];

	bind_fields(L, arg, &tarn_yard_fields, yard,
		    bind_beside_names("yard", &bed_yard_plan_fields, names));
	bind_fields(L, arg, &bed_yard_plan_fields, &plan,
		    bind_beside_names("yard", &tarn_yard_fields, names));
	for (size_t i = 0; i < TARN_YARD_CORNERS; i++) {
		corner[i] = tarn_yard_corner_default();
		corner[i].setback_m = plan.setback_m;
	}
	yard->count = 4;
	if (lua_getfield(L, arg, "corners") == LUA_TNIL)
		make_rectangle(L, &plan, corner);
	else
		read_corners(L, corner, &yard->count);
	lua_pop(L, 1);
	read_sides(L, arg, "setbacks", yard->count, corner, 0);
	read_sides(L, arg, "footings", yard->count, corner, 1);
	yard->corner = corner;
}

/*
 * fit{length =, width = | corners = {{x =, y =}, ...}, setback =,
 *     [setbacks = {...}], [footings = {...}], dig =} -> largest bed
 */
static int l_fit(lua_State *L)
{
	struct tarn_yard yard = tarn_yard_default();
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	struct tarn_fit fit;
	struct tarn_error err = { 0 };

	bed_yard(L, 1, &yard, corner);
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
