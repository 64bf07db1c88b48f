/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_call.h"
#include "bind_flow.h"

/* ---- shared ----------------------------------------------------------- */

void flow_check(lua_State *L, enum tarn_status status,
		const struct tarn_error *err)
{
	if (status != TARN_OK)
		bind_fail(L, err, NULL);
}

const char *flow_text(lua_State *L, int arg, const char *what)
{
	if (lua_type(L, arg) != LUA_TSTRING)
		bind_error(L, "%s must be a text, got %s", what,
			   luaL_typename(L, arg));
	return lua_tostring(L, arg);
}

void flow_wrap_list(lua_State *L, const char *name)
{
	if (lua_type(L, 1) != LUA_TTABLE)
		bind_error(L, "%s must be a list, got %s", name,
			   luaL_typename(L, 1));
	lua_newtable(L);
	lua_pushvalue(L, 1);
	lua_setfield(L, -2, name);
	lua_replace(L, 1);
}

void *flow_keep(lua_State *L, int keep, size_t bytes)
{
	void *block = lua_newuserdatauv(L, bytes ? bytes : 1, 0);

	lua_rawseti(L, keep, (lua_Integer)lua_rawlen(L, keep) + 1);
	return block;
}

/* Pushes the list in a field; returns its length, or pushes nil. */
static size_t push_list(lua_State *L, int arg, const char *section,
			const char *name)
{
	int type = lua_getfield(L, arg, name);

	if (type == LUA_TNIL)
		return 0;
	if (type != LUA_TTABLE)
		bind_error(L, "%s.%s must be a list, got %s", section, name,
			   luaL_typename(L, -1));
	return lua_rawlen(L, -1);
}

size_t flow_list(lua_State *L, int arg, const char *section,
		 const char *name)
{
	size_t count = push_list(L, arg, section, name);

	lua_pop(L, 1);
	return count;
}

/* Item 'at' of the list on top, a number of any size but NaN. */
static double list_number(lua_State *L, const char *section, const char *name,
			  size_t at)
{
	double x;

	lua_rawgeti(L, -1, (lua_Integer)at);
	if (lua_type(L, -1) != LUA_TNUMBER)
		bind_error(L, "%s.%s[%d] must be a number, got %s", section,
			   name, (int)at, luaL_typename(L, -1));
	x = lua_tonumber(L, -1);
	lua_pop(L, 1);
	return x;
}

double *flow_numbers(lua_State *L, int arg, const char *section,
		     const char *name, size_t *count, int keep)
{
	double *out;

	*count = push_list(L, arg, section, name);
	out = flow_keep(L, keep, *count * sizeof *out);
	for (size_t i = 0; i < *count; i++)
		out[i] = list_number(L, section, name, i + 1);
	lua_pop(L, 1);
	return out;
}

struct flow_pairs flow_read_pairs(lua_State *L, int arg, const char *section,
				  const char *name, int keep)
{
	struct flow_pairs p;

	p.count = push_list(L, arg, section, name);
	p.first = flow_keep(L, keep, p.count * sizeof *p.first);
	p.second = flow_keep(L, keep, p.count * sizeof *p.second);
	for (size_t i = 0; i < p.count; i++) {
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		if (lua_type(L, -1) != LUA_TTABLE || lua_rawlen(L, -1) != 2)
			bind_error(L, "%s.%s[%d] must be a pair {a, b}",
				   section, name, (int)i + 1);
		p.first[i] = list_number(L, section, name, 1);
		p.second[i] = list_number(L, section, name, 2);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return p;
}

struct tarn_pipe *flow_read_pipes(lua_State *L, int arg, const char *name,
				  size_t *count, double temp_c, int keep)
{
	struct tarn_pipe *pipes;

	*count = push_list(L, arg, "pipe", name);
	pipes = flow_keep(L, keep, *count * sizeof *pipes);
	for (size_t i = 0; i < *count; i++) {
		pipes[i] = tarn_pipe_default();
		if (!isnan(temp_c))
			pipes[i].temp_c = temp_c;
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		bind_fields(L, lua_gettop(L), &tarn_pipe_fields, &pipes[i],
			    NULL);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return pipes;
}

/* ---- water, pipe ------------------------------------------------------ */

static int l_water(lua_State *L)
{
	double t = bind_number(L, 1, "temperature [deg C]",
			       TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX);
	struct tarn_water w = tarn_water(t);

	bind_push(L, &tarn_water_fields, &w);
	return 1;
}

/* friction_factor(reynolds, relative_roughness [, formula]) */
static int l_friction_factor(lua_State *L)
{
	static const struct {
		const char *name;
		double least;
		double (*f)(double, double);
	} formulas[] = {
		{ "all", 1e-9, tarn_friction_factor },
		{ "colebrook", TARN_REYNOLDS_LAMINAR,
		  tarn_friction_colebrook },
		{ "haaland", TARN_REYNOLDS_LAMINAR, tarn_friction_haaland },
		{ "swamee_jain", TARN_REYNOLDS_LAMINAR,
		  tarn_friction_swamee_jain },
		{ "churchill", 1e-9, tarn_friction_churchill },
	};
	const char *name = lua_isnoneornil(L, 3) ? "all"
		: flow_text(L, 3, "formula");

	for (size_t i = 0; i < sizeof formulas / sizeof formulas[0]; i++)
		if (strcmp(name, formulas[i].name) == 0) {
			double re = bind_number(L, 1, "reynolds [-]",
						formulas[i].least, 1e12);
			double rr = bind_number(L, 2, "relative roughness [-]",
						0, TARN_ROUGHNESS_MAX);

			lua_pushnumber(L, formulas[i].f(re, rr));
			return 1;
		}
	return bind_error(L, "formula must be \"all\", \"colebrook\", "
			  "\"haaland\", \"swamee_jain\" or \"churchill\", got "
			  "\"%s\"", name);
}

static int l_pipe(lua_State *L)
{
	struct tarn_pipe pipe = tarn_pipe_default();
	struct tarn_pipe_flow out;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_pipe_fields, &pipe, NULL);
	flow_check(L, tarn_pipe_solve(&pipe, &out, &err), &err);
	bind_push(L, &tarn_pipe_flow_fields, &out);
	return 1;
}

typedef enum tarn_status several(const struct tarn_pipe *, size_t, double,
				 double, struct tarn_pipe_flow *,
				 struct tarn_pipe_total *,
				 struct tarn_error *);

static int pipes_together(lua_State *L, several *solve)
{
	static const char *const keys[] = { "flow", "headloss", "temp",
					    "pipes", NULL };
	struct tarn_pipe_total total;
	struct tarn_error err = { 0 };
	struct tarn_pipe_flow *out;
	struct tarn_pipe *pipes;
	double flow, headloss, temp;
	size_t count;

	bind_known(L, 1, NULL, keys);
	lua_settop(L, 1);
	lua_newtable(L);	/* 2: keeps memory */
	flow = bind_field(L, 1, "pipes", "flow", "m3/s", 0, 1000, TARN_NAN);
	headloss = bind_field(L, 1, "pipes", "headloss", "m", 0, 1e5,
			      TARN_NAN);
	temp = bind_field(L, 1, "pipes", "temp", "deg C", TARN_WATER_TEMP_MIN,
			  TARN_WATER_TEMP_MAX, TARN_NAN);
	pipes = flow_read_pipes(L, 1, "pipes", &count, temp, 2);
	out = flow_keep(L, 2, count * sizeof *out);
	flow_check(L, solve(pipes, count, flow, headloss, out, &total, &err),
		   &err);
	lua_createtable(L, 0, 4);
	bind_set(L, "flow", total.flow_m3s);
	bind_set(L, "headloss", total.headloss_m);
	bind_set(L, "volume", total.volume_m3);
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		bind_push(L, &tarn_pipe_flow_fields, &out[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
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
	const char *schedule = flow_text(L, 1, "schedule");
	const char *nominal = flow_text(L, 2, "nominal size");
	double inside = tarn_pipe_inside_m(schedule, nominal);

	if (isnan(inside))
		return bind_error(L, "no pipe of schedule '%s' and nominal "
				  "size '%s' in the table", schedule, nominal);
	lua_pushnumber(L, inside);
	return 1;
}

static void add_constants(lua_State *L, enum tarn_flow_table which,
			  const char *name)
{
	size_t count;
	const struct tarn_constant *rows = tarn_flow_table(which, &count);

	lua_createtable(L, 0, (int)count);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 4);
		bind_set(L, "value", rows[i].value);
		bind_set(L, "lo", rows[i].lo);
		bind_set(L, "hi", rows[i].hi);
		bind_set_text(L, "source", rows[i].source);
		lua_setfield(L, -2, rows[i].name);
	}
	lua_setfield(L, -2, name);
}

static void add_sizes(lua_State *L)
{
	size_t count;
	const struct tarn_pipe_size *sizes = tarn_pipe_sizes(&count);

	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 4);
		bind_set_text(L, "schedule", sizes[i].schedule);
		bind_set_text(L, "nominal", sizes[i].nominal);
		bind_set(L, "outside", sizes[i].outside_m);
		bind_set(L, "inside", sizes[i].inside_m);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "pipe_sizes");
}

#define DIAMETERS { { "small diameter", "m", 1e-6, 1000 }, \
		    { "large diameter", "m", 1e-6, 1000 } }
#define NOT_SMALLER "the small diameter must not be above the large one"

static const struct bind_plain plain[] = {
	{ "npsh", { .four = tarn_npsh_available_m }, "m",
	  { { "pressure", "kPa", 1, 200, 1, 101.325 },
	    { "temp", "deg C", TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX, 1,
	      15 },
	    { "lift", "m", -1000, 1000, 1, 0 },
	    { "loss", "m", 0, 1000, 1, 0 } }, .named = 1 },
	{ "expansion_k", { .two = tarn_expansion_k }, "-", DIAMETERS,
	  .refusal = NOT_SMALLER },
	{ "contraction_k", { .two = tarn_contraction_k }, "-", DIAMETERS,
	  .refusal = NOT_SMALLER },
	{ "sdr_inside", { .two = tarn_pipe_sdr_inside_m }, "m",
	  { { "outside diameter", "m", 1e-3, 10 }, { "SDR", "-", 3, 100 } } },
	{ .name = NULL }
};

static const luaL_Reg functions[] = {
	{ "water", l_water },
	{ "friction_factor", l_friction_factor },
	{ "pipe", l_pipe },
	{ "series", l_series },
	{ "parallel", l_parallel },
	{ "inside_diameter", l_inside_diameter },
	{ NULL, NULL }
};

void bind_flow(lua_State *L)
{
	luaL_newlib(L, functions);
	bind_add_plain(L, plain);
	add_constants(L, TARN_FITTINGS, "fittings");
	add_constants(L, TARN_ROUGHNESS, "roughness");
	add_constants(L, TARN_HAZEN_WILLIAMS, "hazen_williams");
	add_constants(L, TARN_MANNING, "manning");
	add_constants(L, TARN_RUNOFF, "runoff");
	add_constants(L, TARN_LIPS, "lips");
	add_constants(L, TARN_NEUTRALISERS, "neutralisers");
	add_sizes(L);
	flow_add_pumps(L);
	flow_add_water_ways(L);
	lua_setfield(L, -2, "flow");
}
