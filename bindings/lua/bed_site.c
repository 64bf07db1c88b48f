/* SPDX-License-Identifier: MIT */
/* Layers and the yard. */
#include <stddef.h>
#include <string.h>

#include "bed.h"
#include "bind_pond.h"

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

static const struct bed_out layer_out[] = {
	{ "bottom", offsetof(struct tarn_layer_result, bottom_m) },
	{ "wet", offsetof(struct tarn_layer_result, wet_m) },
	{ "volume", offsetof(struct tarn_layer_result, volume_m3) },
	{ "stone", offsetof(struct tarn_layer_result, stone_m3) },
	{ "mass", offsetof(struct tarn_layer_result, mass_kg) },
	{ "water", offsetof(struct tarn_layer_result, water_m3) },
	{ "surface", offsetof(struct tarn_layer_result, surface_m2) },
	{ "clean", offsetof(struct tarn_layer_result, clean_m) },
	{ "clogged", offsetof(struct tarn_layer_result, clogged_m) },
	{ "reynolds", offsetof(struct tarn_layer_result, reynolds) },
};

static const struct bed_out layers_out[] = {
	{ "depth", offsetof(struct tarn_layers_result, depth_m) },
	{ "volume", offsetof(struct tarn_layers_result, volume_m3) },
	{ "stone", offsetof(struct tarn_layers_result, stone_m3) },
	{ "mass", offsetof(struct tarn_layers_result, mass_kg) },
	{ "water", offsetof(struct tarn_layers_result, water_m3) },
	{ "surface", offsetof(struct tarn_layers_result, surface_m2) },
	{ "clean", offsetof(struct tarn_layers_result, clean_m) },
	{ "clogged", offsetof(struct tarn_layers_result, clogged_m) },
	{ "standing", offsetof(struct tarn_layers_result, standing_m) },
	{ "residence", offsetof(struct tarn_layers_result, residence_s) },
};

static void push_layers(lua_State *L, const struct tarn_layers *in,
			const struct tarn_layer_result each[])
{
	lua_createtable(L, (int)in->count, 0);
	for (size_t i = 0; i < in->count; i++) {
		lua_createtable(L, 0, (int)BED_COUNT(layer_out) + 4);
		bind_set_text(L, "name", in->layer[i].name);
		bind_set(L, "thickness", in->layer[i].thickness_m);
		bind_set(L, "diameter", in->layer[i].diameter_m);
		bed_push(L, layer_out, BED_COUNT(layer_out), &each[i]);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
}

void bed_push_stone(lua_State *L, const struct tarn_layers *in,
		    const struct tarn_layer_result each[],
		    const struct tarn_layers_result *total)
{
	lua_createtable(L, 0, (int)BED_COUNT(layers_out) + 3);
	bed_push(L, layers_out, BED_COUNT(layers_out), total);
	push_layers(L, in, each);
	lua_setfield(L, -2, "layers");
	bed_push_flags(L, total->flags);
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

	bind_known(L, 1, &tarn_layers_fields, also);
	bed_water(L, 1, "layers", &in.density_kgm3, &in.viscosity_pas);
	bind_fields(L, 1, &tarn_layers_fields, &in, also);
	lua_getfield(L, 1, "layers");
	in.layer = bed_layers(L, &in.count);
	each = lua_newuserdatauv(L, in.count * sizeof *each, 0);
	if (tarn_layers(&in, each, &total, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	bed_push_stone(L, &in, each, &total);
	return 1;
}

/* ---- the yard ---- */

#define PLAN(name, member, lo, hi, meaning)                                  \
	{ name, TARN_FIELD_NUMBER, offsetof(struct bed_yard_plan, member),  \
	  lo, hi, 0, "m", NULL, meaning }

static const struct tarn_field plan_rows[] = {
	PLAN("length", length_m, 0.1, 1e4, "of a rectangular yard; or corners"),
	PLAN("width", width_m, 0.1, 1e4, "of a rectangular yard"),
	PLAN("setback", setback_m, 0, 1000, "to keep from every side"),
};

const struct tarn_fields bed_yard_plan_fields = {
	"yard", plan_rows, sizeof plan_rows / sizeof plan_rows[0]
};

struct bed_yard_plan bed_yard_plan_default(void)
{
	return (struct bed_yard_plan){ TARN_NAN, TARN_NAN, 0 };
}

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

static const struct bed_out fit_out[] = {
	{ "length", offsetof(struct tarn_fit, length_m) },
	{ "width", offsetof(struct tarn_fit, width_m) },
	{ "area", offsetof(struct tarn_fit, area_m2) },
	{ "angle", offsetof(struct tarn_fit, angle_deg) },
	{ "yard_area", offsetof(struct tarn_fit, yard_m2) },
};

void bed_push_fit(lua_State *L, const struct tarn_fit *fit)
{
	lua_createtable(L, 0, 6);
	bed_push(L, fit_out, BED_COUNT(fit_out), fit);
	lua_createtable(L, 4, 0);
	for (int i = 0; i < 4; i++) {
		lua_createtable(L, 0, 2);
		bind_set(L, "x", fit->x_m[i]);
		bind_set(L, "y", fit->y_m[i]);
		lua_seti(L, -2, i + 1);
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
	if (tarn_yard_fit(&yard, &fit, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	bed_push_fit(L, &fit);
	return 1;
}

static const luaL_Reg functions[] = {
	{ "layers", l_layers },
	{ "fit", l_fit },
	{ NULL, NULL }
};

void bed_bind_site(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
}
