/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_flow.h"

/* ---- water, pipe ------------------------------------------------------ */

static int l_water(lua_State *L)
{
	double t = bind_number(L, 1, "temperature [deg C]",
			       TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX);
	struct tarn_water w = tarn_water(t);

	bind_push(L, &tarn_water_fields, &w);
	return 1;
}

#define FRICTION(name, least, formula)                                       \
	BIND_PLAIN(name, two, formula, "-",                                  \
		   BIND_NUMBER("reynolds", "-", least, 1e12),                \
		   BIND_NUMBER("relative roughness", "-", 0,                 \
			       TARN_ROUGHNESS_MAX))

/* friction_factor(reynolds, relative_roughness [, formula]) */
static int l_friction_factor(lua_State *L)
{
	static const struct bind_plain formulas[] = {
		FRICTION("all", 1e-9, tarn_friction_factor),
		FRICTION("colebrook", TARN_REYNOLDS_LAMINAR,
			 tarn_friction_colebrook),
		FRICTION("haaland", TARN_REYNOLDS_LAMINAR,
			 tarn_friction_haaland),
		FRICTION("swamee_jain", TARN_REYNOLDS_LAMINAR,
			 tarn_friction_swamee_jain),
		FRICTION("churchill", 1e-9, tarn_friction_churchill),
		{ .name = NULL }
	};
	const char *name = lua_isnoneornil(L, 3) ? "all"
		: bind_string(L, 3, "formula", NULL);

	for (const struct bind_plain *f = formulas; f->name; f++)
		if (strcmp(name, f->name) == 0)
			return bind_call_plain(L, f);
	return bind_error(L, "formula must be \"all\", \"colebrook\", "
			  "\"haaland\", \"swamee_jain\" or \"churchill\", got "
			  "\"%s\"", name);
}

struct pipes {
	double flow_m3s, headloss_m, temp_c;
	const struct tarn_pipe *pipe;
	size_t count;
};
static const struct tarn_field pipes_rows[] = {
	TARN_IN_NUMBER(struct pipes, flow_m3s, "flow", "m3/s", 0, 1000,
		       TARN_NAN, "flow"),
	TARN_IN_NUMBER(struct pipes, headloss_m, "headloss", "m", 0, 1e5,
		       TARN_NAN, "head lost, instead of a flow"),
	TARN_IN_NUMBER(struct pipes, temp_c, "temp", "deg C",
		       TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX, TARN_NAN,
		       "temperature in pipes that give none"),
	TARN_IN_LIST(struct pipes, pipe, count, "pipes", tarn_pipe_fields, 0,
		     1000, "pipes"),
};
static TARN_FIELDS(pipes_fields, "", pipes_rows);

static int pipes_together(lua_State *L,
			  enum tarn_status solve(const struct tarn_pipe *,
						 size_t, double, double,
						 struct tarn_pipe_flow *,
						 struct tarn_pipe_total *,
						 struct tarn_error *))
{
	struct pipes x;
	struct tarn_pipe_total total;
	struct tarn_pipe_flow *out;
	struct tarn_error err = { 0 };

	bind_options(L, &pipes_fields, &x, flow_adapt_pipes, NULL);
	out = lua_newuserdatauv(L, (x.count + 1) * sizeof *out, 0);
	bind_must(L, solve(x.pipe, x.count, x.flow_m3s, x.headloss_m, out,
			   &total, &err), &err);
	bind_push(L, &tarn_pipe_total_fields, &total);
	bind_push_list(L, &tarn_pipe_flow_fields, out, x.count, sizeof *out);
	lua_setfield(L, -2, "pipes");
	return 1;
}

static int l_series(lua_State *L)
{
	return pipes_together(L, tarn_pipe_series);
}

static int l_parallel(lua_State *L)
{
	return pipes_together(L, tarn_pipe_parallel);
}

/* ---- tables ----------------------------------------------------------- */

/* inside_diameter(schedule, nominal) */
static int l_inside_diameter(lua_State *L)
{
	const char *schedule = bind_string(L, 1, "schedule", NULL);
	const char *nominal = bind_string(L, 2, "nominal size", NULL);
	double inside = tarn_pipe_inside_m(schedule, nominal);

	if (isnan(inside))
		return bind_error(L, "no pipe of schedule '%s' and nominal "
				  "size '%s' in the table", schedule, nominal);
	lua_pushnumber(L, inside);
	return 1;
}

/* Sets tables of constants, by their names, and the list of pipe sizes. */
static void add_tables(lua_State *L)
{
	static const struct {
		enum tarn_flow_table which;
		const char *name;
	} tables[] = {
		{ TARN_FITTINGS, "fittings" },
		{ TARN_ROUGHNESS, "roughness" },
		{ TARN_HAZEN_WILLIAMS, "hazen_williams" },
		{ TARN_MANNING, "manning" },
		{ TARN_RUNOFF, "runoff" },
		{ TARN_LIPS, "lips" },
		{ TARN_NEUTRALISERS, "neutralisers" },
	};
	size_t count;
	const struct tarn_pipe_size *sizes = tarn_pipe_sizes(&count);

	bind_push_list(L, &tarn_pipe_size_fields, sizes, count, sizeof *sizes);
	lua_setfield(L, -2, "pipe_sizes");
	for (size_t i = 0; i < sizeof tables / sizeof tables[0]; i++) {
		const struct tarn_constant *rows =
			tarn_flow_table(tables[i].which, &count);

		bind_push_named(L, &tarn_constant_fields, rows, count,
				sizeof *rows);
		lua_setfield(L, -2, tables[i].name);
	}
}

#define DIAMETERS BIND_NUMBER("small diameter", "m", 1e-6, 1000), \
		  BIND_NUMBER("large diameter", "m", 1e-6, 1000)
#define NOT_SMALLER "the small diameter must not be above the large one"

static const struct bind_plain plain[] = {
	{ BIND_PLAIN_("npsh", four, tarn_npsh_available_m, "m",
		      BIND_OPTION("pressure", "kPa", 1, 200, 101.325),
		      BIND_OPTION("temp", "deg C", TARN_WATER_TEMP_MIN,
				  TARN_WATER_TEMP_MAX, 15),
		      BIND_OPTION("lift", "m", -1000, 1000, 0),
		      BIND_OPTION("loss", "m", 0, 1000, 0)), .named = 1 },
	{ BIND_PLAIN_("expansion_k", two, tarn_expansion_k, "-", DIAMETERS),
	  .refusal = NOT_SMALLER },
	{ BIND_PLAIN_("contraction_k", two, tarn_contraction_k, "-", DIAMETERS),
	  .refusal = NOT_SMALLER },
	BIND_PLAIN("sdr_inside", two, tarn_pipe_sdr_inside_m, "m",
		   BIND_NUMBER("outside diameter", "m", 1e-3, 10),
		   BIND_NUMBER("SDR", "-", 3, 100)),
	{ .name = NULL }
};

static const luaL_Reg functions[] = {
	{ "water", l_water },
	{ "friction_factor", l_friction_factor },
	{ "series", l_series },
	{ "parallel", l_parallel },
	{ "inside_diameter", l_inside_diameter },
	{ NULL, NULL }
};

void bind_flow(lua_State *L)
{
	luaL_newlib(L, functions);
	bind_add_plain(L, plain);
	add_tables(L);
	flow_add_pumps(L);
	flow_add_water_ways(L);
	lua_setfield(L, -2, "flow");
}
