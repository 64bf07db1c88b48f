/* SPDX-License-Identifier: MIT */
/* Treatment, what fish put in, oxygen, gravel and settling. */
#include <math.h>

#include "bed.h"

/* ---- of plain numbers ---------------------------------------------------- */

#define TEMPERATURE { "temperature", "deg C", 0, 40 }
#define LOADING { "loading", "m/d", 1e-6, 1e6 }

static const struct bind_plain plain[] = {
	{ "exposed", { .one = tarn_turnover_exposed }, "-",
	  { { "turnovers", "-", 0, 1e9 } } },
	{ "appetite", { .one = tarn_appetite }, "-", { TEMPERATURE } },
	{ "total_ammonia", { .three = tarn_total_ammonia }, "mg/L",
	  { { "un-ionised ammonia", "mg/L", 0, 1e6 }, { "pH", "-", 4, 12 },
	    TEMPERATURE } },
	{ "oxygen_saturation", { .two = tarn_oxygen_saturation }, "mg/L",
	  { TEMPERATURE, { "elevation", "m", -430, 6000, 1, 0 } } },
	{ "implied_rate", { .two = tarn_implied_rate }, "m/yr",
	  { { "removal", "-", 0, 0.999999 }, LOADING } },
	{ "areal_rate", { .three = tarn_areal_rate }, "m/yr",
	  { { "k_per_day", "1/d", 0, 1000 }, { "depth", "m", 0.01, 10 },
	    { "porosity", "-", 0.05, 1 } } },
	{ "dispersion_tanks", { .one = tarn_dispersion_tanks }, "-",
	  { { "dispersion number", "-", 1e-9, 1e9 } } },
	{ "reed_bod_rate", { .one = tarn_reed_bod_rate }, "1/d",
	  { { "porosity", "-", 0.05, 0.95 } } },
	{ "reed_nitrification_rate", { .one = tarn_reed_nitrification_rate },
	  "1/d", { { "root_share", "-", 0, 1 } } },
	{ "reed_solids_ratio", { .one = tarn_reed_solids_ratio }, "-",
	  { LOADING } },
	{ "reed_phosphorus_ratio", { .one = tarn_reed_phosphorus_ratio }, "-",
	  { LOADING } },
	{ .name = NULL }
};

/* unionised(ph, temp_c) -> fraction, pKa */
static int l_unionised(lua_State *L)
{
	double ph = bind_number(L, 1, "pH", 4, 12);
	double temp = bind_number(L, 2, "temperature [deg C]", 0, 40);

	lua_pushnumber(L, tarn_unionised(ph, temp));
	lua_pushnumber(L, tarn_ammonia_pka(temp));
	return 2;
}

/* ---- treatment ----------------------------------------------------------- */

static const char *const rate_name[] = { "rate", NULL };

static void set_rate(lua_State *L, void *in)
{
	const struct tarn_rate *rate = bed_rate(L, 1);

	if (!rate)
		return;
	bind_read(L, 1, &tarn_treatment_fields, in);
	tarn_treatment_set_rate(in, rate);
}

#define SOLVERS(X)                                                           \
	X(waste, tarn_waste, tarn_waste, tarn_waste_result, NULL)            \
	X(oxygen, tarn_oxygen, tarn_oxygen, tarn_oxygen_result, NULL)        \
	X(outlet, tarn_treatment, tarn_treatment_outlet,                     \
	  tarn_treatment_result, "outlet", rate_name, set_rate)              \
	X(area_for, tarn_treatment, tarn_treatment_area,                     \
	  tarn_treatment_result, "area", rate_name, set_rate)

BIND_SOLVERS(solvers, SOLVERS)

/* profile{..., points =} -> list of mg/L from inlet to outlet */
static int l_profile(lua_State *L)
{
	static const char *const also[] = { "rate", "points", NULL };
	struct tarn_treatment t = tarn_treatment_default();
	struct tarn_error err = { 0 };
	size_t points;
	double *mgl;

	bind_options(L, &tarn_treatment_fields, &t, also, set_rate);
	points = (size_t)bind_field(L, 1, "treatment", "points", "-", 2, 10000,
				    21);
	mgl = lua_newuserdatauv(L, points * sizeof *mgl, 0);
	bind_must(L, tarn_treatment_profile(&t, points, mgl, &err), &err);
	bind_push_numbers(L, mgl, points);
	return 1;
}

/* Appends the concentrations of each day to the list on top. */
static void add_days(lua_State *L, const struct tarn_loop *loop, int days)
{
	double start[TARN_SUBSTANCES], now[TARN_SUBSTANCES];
	struct tarn_error err = { 0 };

	for (int i = 0; i < TARN_SUBSTANCES; i++)
		start[i] = loop->substance[i].start_mgl;
	for (int day = 1; day <= days; day++) {
		bind_must(L, tarn_loop_after(loop, day, start, now, &err),
			  &err);
		lua_createtable(L, 0, TARN_SUBSTANCES);
		for (int i = 0; i < TARN_SUBSTANCES; i++)
			bind_set(L, tarn_substance_name((enum tarn_substance)i),
				 now[i]);
		lua_rawseti(L, -2, day);
	}
}

/* loop{..., ammonia = {...}, days =} -> {steady=, per_day=, days = {...}} */
static int l_loop(lua_State *L)
{
	static const char *const also[] = { "days", NULL };
	struct tarn_loop loop = tarn_loop_default();
	struct tarn_loop_result r;
	struct tarn_error err = { 0 };
	int days;

	bind_fields(L, 1, &tarn_loop_fields, &loop, also);
	days = (int)bind_field(L, 1, "loop", "days", "d", 0, 100000, 0);
	bind_must(L, tarn_loop_steady(&loop, &r, &err), &err);
	bind_push(L, &tarn_loop_result_fields, &r);
	lua_createtable(L, days, 0);
	add_days(L, &loop, days);
	lua_setfield(L, -2, "days");
	return 1;
}

/* ---- gravel -------------------------------------------------------------- */

static const char *const laws[] = {
	"ergun", "carman", "tallmadge", "jones_krier", NULL
};

static void gravel_water(lua_State *L, void *in)
{
	struct tarn_gravel *g = in;

	bed_water(L, "gravel", &g->density_kgm3, &g->viscosity_pas);
}

static struct tarn_gravel read_gravel(lua_State *L, const char *const also[])
{
	struct tarn_gravel g = tarn_gravel_default();

	bind_options(L, &tarn_gravel_fields, &g, also, gravel_water);
	return g;
}

static double velocity_of(lua_State *L)
{
	return bind_field(L, 1, "gravel", "velocity", "m/s", 0, 10, TARN_NAN);
}

static double need_velocity(lua_State *L)
{
	double v = velocity_of(L);

	if (isnan(v))
		bind_error(L, "gravel.velocity is missing: give the plan "
			   "velocity in m/s");
	return v;
}

/* headloss{velocity =, depth =, diameter =, porosity =, temp =} -> m clogged,
 * details */
static int l_headloss(lua_State *L)
{
	static const char *const also[] = { "velocity", "depth", "temp", NULL };
	struct tarn_gravel g = read_gravel(L, also);
	double v = need_velocity(L);
	double depth = bind_field(L, 1, "gravel", "depth", "m", 0, 1000,
				  TARN_NAN);
	struct tarn_headloss h;
	struct tarn_error err = { 0 };

	if (isnan(depth))
		return bind_error(L, "gravel.depth is missing: give it in m");
	bind_must(L, tarn_gravel_headloss(&g, v, depth, &h, &err), &err);
	lua_pushnumber(L, h.clogged_m);
	bind_push(L, &tarn_headloss_fields, &h);
	return 2;
}

/* pressure{law =, velocity =, diameter =, ...} -> Pa/m of clean gravel */
static int l_pressure(lua_State *L)
{
	static const char *const also[] = { "law", "velocity", "temp", NULL };
	struct tarn_gravel g = read_gravel(L, also);
	double v = need_velocity(L);
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
	static const char *const also[] = {
		"velocity", "gradient", "temp", NULL
	};
	struct tarn_gravel g = read_gravel(L, also);
	struct tarn_resistance r = tarn_gravel_resistance(&g);
	double v = velocity_of(L);
	double gradient = bind_field(L, 1, "gravel", "gradient", "-", 1e-9, 10,
				     TARN_NAN);

	lua_createtable(L, 0, 12);
	bind_set(L, "linear", r.linear);
	bind_set(L, "quadratic", r.quadratic);
	bind_set(L, "surface", tarn_gravel_surface(&g));
	bind_set(L, "conductivity", tarn_gravel_conductivity(&g, 180));
	bind_set(L, "conductivity_ergun", tarn_gravel_conductivity(&g, 150));
	bind_set(L, "gradient", tarn_resistance_gradient(r, v));
	bind_set(L, "reynolds", tarn_gravel_reynolds(&g, v));
	bind_set(L, "pore_velocity", tarn_pore_velocity(v, g.porosity));
	bind_set(L, "velocity", tarn_resistance_velocity(r, gradient));
	return 1;
}

/* darcy{conductivity =, flow =, gradient = | depth =, drop =, loading =} ->
 * {section =, length =} */
static int l_darcy(lua_State *L)
{
	static const struct bind_argument asked[] = {
		{ "conductivity", "m/d", 1e-6, 1e8, 1, TARN_NAN },
		{ "flow", "m3/s", 1e-8, 10, 1, TARN_NAN },
		{ "gradient", "-", 1e-9, 10, 1, TARN_NAN },
		{ "depth", "m", 1e-3, 10, 1, TARN_NAN },
		{ "drop", "m", 1e-6, 10, 1, TARN_NAN },
		{ "loading", "m/d", 1e-4, 1e4, 1, TARN_NAN },
	};
	double x[6];

	bind_arguments(L, 1, "darcy", asked, 6, x);
	lua_createtable(L, 0, 2);
	bind_set(L, "section", tarn_darcy_section(x[1], x[0], x[2]));
	bind_set(L, "length", tarn_darcy_length(x[0], x[3], x[4], x[5]));
	return 1;
}

/* sieve{{share =, diameter =}, ...} -> Sauter mean diameter, m */
static int l_sieve(lua_State *L)
{
	static const struct bind_argument asked[] = {
		{ "share", "-", 1e-9, 1e9 }, { "diameter", "m", 1e-6, 0.5 },
	};
	size_t count;
	double *share, x[2];

	luaL_checktype(L, 1, LUA_TTABLE);
	count = (size_t)lua_rawlen(L, 1);
	if (count == 0 || count > 1000)
		bind_error(L, "sieves must be a list of {share =, diameter =}");
	share = lua_newuserdatauv(L, 2 * count * sizeof *share, 0);
	for (size_t i = 0; i < count; i++) {
		lua_geti(L, 1, (lua_Integer)i + 1);
		bind_arguments(L, -1, "sieve", asked, 2, x);
		share[i] = x[0];
		share[count + i] = x[1];
		lua_pop(L, 1);
	}
	lua_pushnumber(L, tarn_sieve_diameter(share, share + count, count));
	return 1;
}

static void particle_water(lua_State *L, void *in)
{
	struct tarn_particle *p = in;

	bed_water(L, "particle", &p->water_kgm3, &p->viscosity_pas);
}

/* settling{diameter =, density =, shape =, temp =, [velocity =]} -> m/s,
 * details */
static int l_settling(lua_State *L)
{
	static const char *const also[] = { "velocity", "temp", NULL };
	struct tarn_particle p = tarn_particle_default();
	double v;

	bind_options(L, &tarn_particle_fields, &p, also, particle_water);
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

void bed_bind_formulas(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "unionised", l_unionised },
		{ "profile", l_profile },
		{ "loop", l_loop },
		{ "headloss", l_headloss },
		{ "pressure", l_pressure },
		{ "friction", l_friction },
		{ "gravel", l_gravel },
		{ "darcy", l_darcy },
		{ "sieve", l_sieve },
		{ "settling", l_settling },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
	bind_add_plain(L, plain);
	bind_add_solvers(L, solvers);
}
