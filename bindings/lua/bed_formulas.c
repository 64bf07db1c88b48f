/* SPDX-License-Identifier: MIT */
/* Treatment, what fish put in, oxygen, gravel and settling. */
#include <math.h>

#include "bed.h"

/* ---- of plain numbers ---------------------------------------------------- */

#define TEMPERATURE BIND_NUMBER("temperature", "deg C", 0, 40)
#define LOADING BIND_NUMBER("loading", "m/d", 1e-6, 1e6)

static const struct bind_plain plain[] = {
	BIND_PLAIN("turnover", two, tarn_turnover_per_h, "1/h",
		   BIND_NUMBER("flow", "m3/s", 0, 1e3),
		   BIND_NUMBER("volume", "m3", 1e-6, 1e9)),
	BIND_PLAIN("exposed", one, tarn_turnover_exposed, "-",
		   BIND_NUMBER("turnovers", "-", 0, 1e9)),
	BIND_PLAIN("appetite", one, tarn_appetite, "-", TEMPERATURE),
	BIND_PLAIN("total_ammonia", three, tarn_total_ammonia, "mg/L",
		   BIND_NUMBER("un-ionised ammonia", "mg/L", 0, 1e6),
		   BIND_NUMBER("pH", "-", 4, 12), TEMPERATURE),
	BIND_PLAIN("oxygen_saturation", two, tarn_oxygen_saturation, "mg/L",
		   TEMPERATURE, BIND_OPTION("elevation", "m", -430, 6000, 0)),
	BIND_PLAIN("implied_rate", two, tarn_implied_rate, "m/yr",
		   BIND_NUMBER("removal", "-", 0, 0.999999), LOADING),
	BIND_PLAIN("areal_rate", three, tarn_areal_rate, "m/yr",
		   BIND_NUMBER("k_per_day", "1/d", 0, 1000),
		   BIND_NUMBER("depth", "m", 0.01, 10),
		   BIND_NUMBER("porosity", "-", 0.05, 1)),
	BIND_PLAIN("dispersion_tanks_in_series", one,
		   tarn_dispersion_tanks_in_series, "-",
		   BIND_NUMBER("dispersion number", "-", 1e-9, 1e9)),
	BIND_PLAIN("reed_bod_rate", one, tarn_reed_bod_rate, "1/d",
		   BIND_NUMBER("porosity", "-", 0.05, 0.95)),
	BIND_PLAIN("reed_nitrification_rate", one, tarn_reed_nitrification_rate,
		   "1/d", BIND_NUMBER("root_share", "-", 0, 1)),
	BIND_PLAIN("reed_solids_ratio", one, tarn_reed_solids_ratio, "-",
		   LOADING),
	BIND_PLAIN("reed_phosphorus_ratio", one, tarn_reed_phosphorus_ratio,
		   "-", LOADING),
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

struct treatment {
	struct tarn_treatment t;
	struct bed_beside beside;
};
static const struct tarn_field treatment_rows[] = {
	TARN_INCLUDED(struct treatment, t, tarn_treatment_fields),
	TARN_INCLUDED(struct treatment, beside, bed_rate_fields),
};
static TARN_FIELDS(treatment_fields, "treatment", treatment_rows);

static void set_rate(void *in)
{
	struct treatment *x = in;

	if (x->beside.rate >= 0)
		tarn_treatment_set_rate(&x->t, bed_rate(&x->beside));
}

#define SOLVERS(X)                                                           \
	X(waste, tarn_waste, tarn_waste, tarn_waste_result, .first = NULL)   \
	X(oxygen, tarn_oxygen, tarn_oxygen, tarn_oxygen_result,              \
	  .first = NULL)                                                     \
	X(outlet, treatment, tarn_treatment_outlet, tarn_treatment_result,   \
	  .first = "outlet", .assume = set_rate)                             \
	X(area_for, treatment, tarn_treatment_area, tarn_treatment_result,   \
	  .first = "area", .assume = set_rate)

BIND_SOLVERS(solvers, SOLVERS)

struct profile {
	struct treatment bed;
	int points;
};
static const struct tarn_field profile_rows[] = {
	TARN_INCLUDED(struct profile, bed, treatment_fields),
	TARN_IN_WHOLE(struct profile, points, "points", "-", 2, 10000, 21,
		      "from inlet to outlet"),
};
static TARN_FIELDS(profile_fields, "treatment", profile_rows);

/* profile{..., points =} -> list of mg/L from inlet to outlet */
static int l_profile(lua_State *L)
{
	struct profile x;
	struct tarn_error err = { 0 };
	double *mgl;

	bind_options(L, &profile_fields, &x, NULL, set_rate);
	mgl = lua_newuserdatauv(L, (size_t)x.points * sizeof *mgl, 0);
	bind_must(L, tarn_treatment_profile(&x.bed.t, (size_t)x.points, mgl,
					    &err), &err);
	bind_push_numbers(L, mgl, (size_t)x.points);
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

struct loop {
	struct tarn_loop loop;
	int days;
};
static const struct tarn_field loop_rows[] = {
	TARN_INCLUDED(struct loop, loop, tarn_loop_fields),
	TARN_IN_WHOLE(struct loop, days, "days", "d", 0, 100000, 0,
		      "that are followed"),
};
static TARN_FIELDS(loop_fields, "loop", loop_rows);

/* loop{..., ammonia = {...}, days =} -> {steady=, per_day=, days = {...}} */
static int l_loop(lua_State *L)
{
	struct loop x;
	struct tarn_loop_result r;
	struct tarn_error err = { 0 };

	bind_options(L, &loop_fields, &x, NULL, NULL);
	bind_must(L, tarn_loop_steady(&x.loop, &r, &err), &err);
	bind_push(L, &tarn_loop_result_fields, &r);
	lua_createtable(L, x.days, 0);
	add_days(L, &x.loop, x.days);
	lua_setfield(L, -2, "days");
	return 1;
}

/* ---- gravel -------------------------------------------------------------- */

static const char *const laws[] = {
	"ergun", "carman", "tallmadge", "jones_krier", NULL
};

struct gravel {
	struct tarn_gravel g;
	struct bed_beside beside;
	double velocity_ms, depth_m, gradient;
	int law;
};
#define GRAVEL                                                               \
	TARN_INCLUDED(struct gravel, g, tarn_gravel_fields),                 \
	TARN_INCLUDED(struct gravel, beside, bed_temp_fields)
#define VELOCITY                                                             \
	TARN_IN_REQUIRED(struct gravel, velocity_ms, "velocity", "m/s", 0,   \
			 10, "plan velocity")
static const struct tarn_field headloss_rows[] = {
	GRAVEL, VELOCITY,
	TARN_IN_REQUIRED(struct gravel, depth_m, "depth", "m", 0, 1000,
			 "of gravel"),
};
static TARN_FIELDS(headloss_fields, "gravel", headloss_rows);
static const struct tarn_field pressure_rows[] = {
	GRAVEL, VELOCITY,
	TARN_IN_CHOICE(struct gravel, law, "law", laws, 0, "of the packing"),
};
static TARN_FIELDS(pressure_fields, "gravel", pressure_rows);
static const struct tarn_field gravel_rows[] = {
	GRAVEL,
	TARN_IN_NUMBER(struct gravel, velocity_ms, "velocity", "m/s", 0, 10,
		       TARN_NAN, "plan velocity"),
	TARN_IN_NUMBER(struct gravel, gradient, "gradient", "-", 1e-9, 10,
		       TARN_NAN, "head lost over a length"),
};
static TARN_FIELDS(gravel_fields, "gravel", gravel_rows);

static void gravel_water(void *in)
{
	struct gravel *x = in;

	bed_water(x->beside.temp_c, &x->g.density_kgm3, &x->g.viscosity_pas);
}

/* headloss{velocity =, depth =, diameter =, porosity =, temp =} -> m clogged,
 * details */
static int l_headloss(lua_State *L)
{
	struct gravel x;
	struct tarn_headloss h;
	struct tarn_error err = { 0 };

	bind_options(L, &headloss_fields, &x, NULL, gravel_water);
	bind_must(L, tarn_gravel_headloss(&x.g, x.velocity_ms, x.depth_m, &h,
					  &err), &err);
	lua_pushnumber(L, h.clogged_m);
	bind_push(L, &tarn_headloss_fields, &h);
	return 2;
}

/* pressure{law =, velocity =, diameter =, ...} -> Pa/m of clean gravel */
static int l_pressure(lua_State *L)
{
	struct gravel x;

	bind_options(L, &pressure_fields, &x, NULL, gravel_water);
	lua_pushnumber(L, tarn_packing_pressure((enum tarn_packing_law)x.law,
						&x.g, x.velocity_ms));
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
	struct tarn_resistance r;
	struct gravel x;
	double v;

	bind_options(L, &gravel_fields, &x, NULL, gravel_water);
	r = tarn_gravel_resistance(&x.g);
	v = x.velocity_ms;
	lua_createtable(L, 0, 12);
	bind_set(L, "linear", r.linear);
	bind_set(L, "quadratic", r.quadratic);
	bind_set(L, "surface", tarn_gravel_surface(&x.g));
	bind_set(L, "conductivity", tarn_gravel_conductivity(&x.g, 180));
	bind_set(L, "conductivity_ergun", tarn_gravel_conductivity(&x.g, 150));
	bind_set(L, "gradient", tarn_resistance_gradient(r, v));
	bind_set(L, "reynolds", tarn_gravel_reynolds(&x.g, v));
	bind_set(L, "pore_velocity", tarn_pore_velocity(v, x.g.porosity));
	bind_set(L, "velocity", tarn_resistance_velocity(r, x.gradient));
	return 1;
}

/* darcy{conductivity =, flow =, gradient = | depth =, drop =, loading =} ->
 * {section =, length =} */
static int l_darcy(lua_State *L)
{
	static const struct bind_argument asked[] = {
		BIND_OPTION("conductivity", "m/d", 1e-6, 1e8, TARN_NAN),
		BIND_OPTION("flow", "m3/s", 1e-8, 10, TARN_NAN),
		BIND_OPTION("gradient", "-", 1e-9, 10, TARN_NAN),
		BIND_OPTION("depth", "m", 1e-3, 10, TARN_NAN),
		BIND_OPTION("drop", "m", 1e-6, 10, TARN_NAN),
		BIND_OPTION("loading", "m/d", 1e-4, 1e4, TARN_NAN),
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
		BIND_NUMBER("share", "-", 1e-9, 1e9),
		BIND_NUMBER("diameter", "m", 1e-6, 0.5),
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

struct particle {
	struct tarn_particle p;
	struct bed_beside beside;
	double velocity_ms;
};
static const struct tarn_field particle_rows[] = {
	TARN_INCLUDED(struct particle, p, tarn_particle_fields),
	TARN_INCLUDED(struct particle, beside, bed_temp_fields),
	TARN_IN_NUMBER(struct particle, velocity_ms, "velocity", "m/s", 1e-9,
		       10, TARN_NAN, "at which the largest held is asked for"),
};
static TARN_FIELDS(particle_fields, "particle", particle_rows);

static void particle_water(void *in)
{
	struct particle *x = in;

	bed_water(x->beside.temp_c, &x->p.water_kgm3, &x->p.viscosity_pas);
}

/* settling{diameter =, density =, shape =, temp =, [velocity =]} -> m/s,
 * details */
static int l_settling(lua_State *L)
{
	struct particle x;

	bind_options(L, &particle_fields, &x, NULL, particle_water);
	if (!(x.p.density_kgm3 > x.p.water_kgm3))
		return bind_error(L, "particle.density must be above the "
				  "water's: it does not settle");
	lua_pushnumber(L, tarn_settling(&x.p));
	lua_createtable(L, 0, 2);
	bind_set(L, "stokes", tarn_settling_stokes(&x.p));
	bind_set(L, "held", tarn_settling_diameter(&x.p, x.velocity_ms));
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
