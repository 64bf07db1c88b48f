/* SPDX-License-Identifier: MIT */
/* Gravel, settling, layers and the yard. */
#include <stddef.h>
#include <string.h>

#include "bed.h"

/* ---- gravel ---- */

static const char *const laws[] = {
	"ergun", "carman", "tallmadge", "jones_krier", NULL
};
static const char *const headloss_names[] = {
	"velocity", "depth", "temp", NULL
};
static const char *const gravel_names[] = {
	"velocity", "gradient", "temp", NULL
};

static struct tarn_gravel read_gravel(lua_State *L, const char *const also[])
{
	struct tarn_gravel g = tarn_gravel_default();

	bind_known(L, 1, &tarn_gravel_fields, also);
	bed_water(L, 1, "gravel", &g.density_kgm3, &g.viscosity_pas);
	bind_fields(L, 1, &tarn_gravel_fields, &g, also);
	return g;
}

static double read_velocity(lua_State *L)
{
	double v = bind_field(L, 1, "gravel", "velocity", "m/s", 0, 10,
			      TARN_NAN);

	if (isnan(v))
		bind_error(L, "gravel.velocity is missing: give the plan "
			   "velocity in m/s");
	return v;
}

/* headloss{velocity =, depth =, diameter =, porosity =, temp =} -> m clogged,
 * details */
static int l_headloss(lua_State *L)
{
	struct tarn_gravel g = read_gravel(L, headloss_names);
	double v = read_velocity(L);
	double depth = bind_field(L, 1, "gravel", "depth", "m", 0, 1000,
				  TARN_NAN);
	struct tarn_headloss h;
	struct tarn_error err = { 0 };

	if (isnan(depth))
		return bind_error(L, "gravel.depth is missing: give it in m");
	if (tarn_gravel_headloss(&g, v, depth, &h, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_pushnumber(L, h.clogged_m);
	lua_createtable(L, 0, 9);
	bind_set(L, "clean", h.clean_m);
	bind_set(L, "clogged", h.clogged_m);
	bind_set(L, "gradient", h.gradient);
	bind_set(L, "reynolds", h.reynolds);
	bind_set(L, "quadratic_share", h.quadratic_share);
	bind_set(L, "pore_velocity", h.pore_velocity_ms);
	bind_set_text(L, "regime", tarn_flow_regime_name(h.regime));
	bed_push_flags(L, h.flags);
	return 2;
}

/* pressure{law =, velocity =, diameter =, ...} -> Pa/m of clean gravel */
static int l_pressure(lua_State *L)
{
	static const char *const names[] = { "law", "velocity", "temp", NULL };
	struct tarn_gravel g = read_gravel(L, names);
	double v = read_velocity(L);
	int law;

	lua_getfield(L, 1, "law");
	law = luaL_checkoption(L, -1, "ergun", laws);
	lua_pushnumber(L, tarn_packing_pressure((enum tarn_packing_law)law, &g,
						v));
	return 1;
}

/* friction(reynolds_m [, law]) -> factor f */
static int l_friction(lua_State *L)
{
	double re = bind_number(L, 1, "modified Reynolds number", 1e-9, 1e9);
	int law = luaL_checkoption(L, 2, "ergun", laws);

	lua_pushnumber(L, tarn_packing_friction((enum tarn_packing_law)law,
						re));
	return 1;
}

/* gravel{diameter =, porosity =, [velocity =], [gradient =]} -> table */
static int l_gravel(lua_State *L)
{
	struct tarn_gravel g = read_gravel(L, gravel_names);
	struct tarn_resistance r = tarn_gravel_resistance(&g);
	double v = bind_field(L, 1, "gravel", "velocity", "m/s", 0, 10,
			      TARN_NAN);
	double gradient = bind_field(L, 1, "gravel", "gradient", "-", 1e-9, 10,
				     TARN_NAN);

	lua_createtable(L, 0, 12);
	bind_set(L, "linear", r.linear);
	bind_set(L, "quadratic", r.quadratic);
	bind_set(L, "surface", tarn_gravel_surface(&g));
	bind_set(L, "conductivity", tarn_gravel_conductivity(&g, 180));
	bind_set(L, "conductivity_ergun", tarn_gravel_conductivity(&g, 150));
	if (!isnan(v)) {
		bind_set(L, "gradient", tarn_resistance_gradient(r, v));
		bind_set(L, "reynolds", tarn_gravel_reynolds(&g, v));
		bind_set(L, "pore_velocity",
			 tarn_pore_velocity(v, g.porosity));
	}
	if (!isnan(gradient))
		bind_set(L, "velocity", tarn_resistance_velocity(r, gradient));
	return 1;
}

static const char *const darcy_names[] = {
	"flow", "conductivity", "gradient", "depth", "drop", "loading", NULL
};

/* darcy{conductivity =, flow =, gradient = | depth =, drop =, loading =} ->
 * {section =, length =} */
static int l_darcy(lua_State *L)
{
	double k, flow, gradient, depth, drop, loading;

	bind_known(L, 1, NULL, darcy_names);
	k = bind_field(L, 1, "darcy", "conductivity", "m/d", 1e-6, 1e8,
		       TARN_NAN);
	flow = bind_field(L, 1, "darcy", "flow", "m3/s", 1e-8, 10, TARN_NAN);
	gradient = bind_field(L, 1, "darcy", "gradient", "-", 1e-9, 10,
			      TARN_NAN);
	depth = bind_field(L, 1, "darcy", "depth", "m", 1e-3, 10, TARN_NAN);
	drop = bind_field(L, 1, "darcy", "drop", "m", 1e-6, 10, TARN_NAN);
	loading = bind_field(L, 1, "darcy", "loading", "m/d", 1e-4, 1e4,
			     TARN_NAN);
	lua_createtable(L, 0, 2);
	bind_set(L, "section", tarn_darcy_section(flow, k, gradient));
	bind_set(L, "length", tarn_darcy_length(k, depth, drop, loading));
	return 1;
}

/* Fractions of the list of {share =, diameter =} at 'arg', as one userdata:
 * all shares, then all diameters. */
static double *read_sieves(lua_State *L, int arg, size_t *count)
{
	double *to;

	luaL_checktype(L, arg, LUA_TTABLE);
	*count = (size_t)lua_rawlen(L, arg);
	if (*count == 0 || *count > 1000)
		bind_error(L, "sieves must be a list of {share =, diameter =}");
	to = lua_newuserdatauv(L, 2 * *count * sizeof *to, 0);
	for (size_t i = 0; i < *count; i++) {
		lua_geti(L, arg, (lua_Integer)i + 1);
		luaL_checktype(L, -1, LUA_TTABLE);
		to[i] = bind_field(L, -1, "sieve", "share", "-", 1e-9, 1e9,
				   TARN_NAN);
		to[*count + i] = bind_field(L, -1, "sieve", "diameter", "m",
					    1e-6, 0.5, TARN_NAN);
		lua_pop(L, 1);
	}
	return to;
}

/* sieve{{share =, diameter =}, ...} -> Sauter mean diameter, m */
static int l_sieve(lua_State *L)
{
	size_t count;
	double *sieves = read_sieves(L, 1, &count);
	double d = tarn_sieve_diameter(sieves, sieves + count, count);

	if (isnan(d))
		return bind_error(L, "every sieve needs share and diameter");
	lua_pushnumber(L, d);
	return 1;
}

static const char *const settling_names[] = { "velocity", "temp", NULL };

/* settling{diameter =, density =, shape =, temp =, [velocity =]} -> m/s,
 * details */
static int l_settling(lua_State *L)
{
	struct tarn_particle p = tarn_particle_default();
	double v;

	bind_known(L, 1, &tarn_particle_fields, settling_names);
	bed_water(L, 1, "particle", &p.water_kgm3, &p.viscosity_pas);
	bind_fields(L, 1, &tarn_particle_fields, &p, settling_names);
	v = bind_field(L, 1, "particle", "velocity", "m/s", 1e-9, 10,
		       TARN_NAN);
	if (!(p.density_kgm3 > p.water_kgm3))
		return bind_error(L, "particle.density must be above the "
				  "water's: it does not settle");
	lua_pushnumber(L, tarn_settling(&p));
	lua_createtable(L, 0, 2);
	bind_set(L, "stokes", tarn_settling_stokes(&p));
	bind_set(L, "held", tarn_settling_diameter(&p, v));
	return 2;
}

/* ---- layers ---- */

static void read_layer(lua_State *L, struct tarn_layer *to, size_t i)
{
	static const char *const also[] = { "name", NULL };
	struct tarn_fields named = tarn_layer_fields;
	const char *name = "";

	named.section = lua_pushfstring(L, "layer %d", (int)i + 1);
	lua_insert(L, -2);
	bind_fields(L, -1, &named, to, also);
	if (lua_getfield(L, -1, "name") == LUA_TSTRING)
		name = lua_tostring(L, -1);
	strncpy(to->name, name, sizeof to->name - 1);
	lua_pop(L, 3);
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
	lua_createtable(L, 0, (int)BED_COUNT(layers_out) + 3);
	bed_push(L, layers_out, BED_COUNT(layers_out), &total);
	push_layers(L, &in, each);
	lua_setfield(L, -2, "layers");
	bed_push_flags(L, total.flags);
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

static const char *const plan_names[] = {
	"corners", "length", "width", "setback", "setbacks", "footings", NULL
};
static const char *const hole_names[] = {
	"corners", "setbacks", "footings", "dig", "footing_slope",
	"max_length", "max_width", NULL
};

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

/* One number a side from list 'name', where there is one. */
static void read_sides(lua_State *L, int arg, const char *name, size_t count,
		       struct tarn_yard_corner c[], int footing)
{
	if (lua_getfield(L, arg, name) != LUA_TNIL)
		luaL_checktype(L, -1, LUA_TTABLE);
	for (size_t i = 0; lua_istable(L, -1) && i < count; i++) {
		double *to = footing ? &c[i].footing_m : &c[i].setback_m;

		if (lua_geti(L, -1, (lua_Integer)i + 1) == LUA_TNUMBER)
			*to = bind_number(L, -1, name, 0, 1000);
		lua_pop(L, 1);
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

static void push_fit(lua_State *L, const struct tarn_fit *fit)
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

	bind_fields(L, arg, &tarn_yard_fields, yard, plan_names);
	bind_fields(L, arg, &bed_yard_plan_fields, &plan, hole_names);
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
	push_fit(L, &fit);
	return 1;
}

static const luaL_Reg functions[] = {
	{ "headloss", l_headloss },
	{ "pressure", l_pressure },
	{ "friction", l_friction },
	{ "gravel", l_gravel },
	{ "darcy", l_darcy },
	{ "sieve", l_sieve },
	{ "settling", l_settling },
	{ "layers", l_layers },
	{ "fit", l_fit },
	{ NULL, NULL }
};

void bed_bind_gravel(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
}
