/* SPDX-License-Identifier: MIT */
/* Gravel and settling. */
#include "bed.h"

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

static const luaL_Reg functions[] = {
	{ "headloss", l_headloss },
	{ "pressure", l_pressure },
	{ "friction", l_friction },
	{ "gravel", l_gravel },
	{ "darcy", l_darcy },
	{ "sieve", l_sieve },
	{ "settling", l_settling },
	{ NULL, NULL }
};

void bed_bind_gravel(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
}
