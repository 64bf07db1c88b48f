/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_flow.h"

/* ---- reading ---------------------------------------------------------- */

enum { NAMES_MAX = 64 };

/* Raises for a key of the table at 'arg' that is in none of the sections
 * (NULL-terminated) and not in 'more'. */
static void known(lua_State *L, int arg,
		  const struct tarn_fields *const sections[],
		  const char *const more[])
{
	const char *names[NAMES_MAX + 1];
	size_t n = 0;

	for (size_t s = 1; sections[s]; s++)
		for (size_t i = 0; i < sections[s]->count; i++)
			names[n++] = sections[s]->rows[i].name;
	for (size_t i = 0; more[i]; i++)
		names[n++] = more[i];
	names[n] = NULL;
	bind_known(L, arg, sections[0], names);
}

/* The pump at 'arg'; pushes what has the memory of its curve. */
static void read_pump(lua_State *L, int arg, struct tarn_pump_curve *pump)
{
	struct tarn_error err = { 0 };

	*pump = tarn_pump_curve_default();
	bind_borrow(L, arg, &tarn_pump_curve_fields, pump);
	bind_must(L, tarn_pump_curve_check(pump, &err), &err);
}

/* The pump on top, which is moved to the list that keeps its memory. */
static void take_pump(lua_State *L, struct tarn_pump_curve *pump, int keep)
{
	bind_known(L, lua_gettop(L), &tarn_pump_curve_fields, NULL);
	read_pump(L, -1, pump);
	lua_rawseti(L, keep, (lua_Integer)lua_rawlen(L, keep) + 1);
	lua_pop(L, 1);
}

/* The branch at 'arg': its own fields, and one pipe's beside them or a list
 * of pipes. */
static void read_branch(lua_State *L, int arg, struct tarn_branch *branch,
			double temp, int keep)
{
	int single = 0;

	*branch = tarn_branch_default();
	bind_read(L, arg, &tarn_branch_fields, branch);
	single += lua_getfield(L, arg, "diameter") != LUA_TNIL;
	single += lua_getfield(L, arg, "length") != LUA_TNIL;
	lua_pop(L, 2);
	branch->pipes = flow_read_pipes(L, arg, "pipes", &branch->pipe_count,
					temp, keep);
	if (single && branch->pipe_count > 0)
		bind_error(L, "branch.pipes is given beside a single pipe's "
			   "fields: give one of them");
	if (single) {
		struct tarn_pipe *pipe = flow_keep(L, keep, sizeof *pipe);

		*pipe = tarn_pipe_default();
		if (!isnan(temp))
			pipe->temp_c = temp;
		bind_read(L, arg, &tarn_pipe_fields, pipe);
		branch->pipes = pipe;
		branch->pipe_count = 1;
	}
}

static const char *branch_name(lua_State *L, int arg, int keep)
{
	const char *name = NULL;

	if (lua_getfield(L, arg, "name") != LUA_TNIL) {
		if (lua_type(L, -1) != LUA_TSTRING)
			bind_error(L, "branch.name must be a text");
		name = lua_tostring(L, -1);
		lua_pushvalue(L, -1);	/* the list keeps the text alive */
		lua_rawseti(L, keep, (lua_Integer)lua_rawlen(L, keep) + 1);
	}
	lua_pop(L, 1);
	return name;
}

static void read_branches(lua_State *L, struct tarn_network *net, double temp,
			  int keep)
{
	static const struct tarn_fields *const sections[] = {
		&tarn_branch_fields, &tarn_pipe_fields, NULL
	};
	static const char *const more[] = { "name", "pipes", NULL };
	size_t count = flow_list(L, 1, "network", "branches");
	struct tarn_branch *branches = flow_keep(L, keep, count *
						 sizeof *branches);

	lua_getfield(L, 1, "branches");
	for (size_t i = 0; i < count; i++) {
		int at = lua_gettop(L) + 1;

		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		known(L, at, sections, more);
		read_branch(L, at, &branches[i], temp, keep);
		branches[i].name = branch_name(L, at, keep);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	net->branches = branches;
	net->branch_count = count;
}

/* 'pump' (one) or 'pumps' (a list); neither is left to the library. */
static void read_pumps(lua_State *L, struct tarn_network *net, int keep)
{
	size_t count = flow_list(L, 1, "network", "pumps");
	int one = lua_getfield(L, 1, "pump") != LUA_TNIL;
	struct tarn_pump_curve *pumps;

	if (one && count > 0)
		bind_error(L, "network.pumps is given beside pump: give one "
			   "of them");
	pumps = flow_keep(L, keep, (count + 1) * sizeof *pumps);
	if (one)
		take_pump(L, pumps, keep);
	else
		lua_pop(L, 1);
	lua_getfield(L, 1, "pumps");
	for (size_t i = 0; i < count; i++) {
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		take_pump(L, &pumps[i], keep);
	}
	lua_pop(L, 1);
	net->pumps = pumps;
	net->pump_count = one ? 1 : count;
}

/* Reads the network at 1; 2 is the table that keeps memory. */
static struct tarn_network read_network(lua_State *L)
{
	static const char *const keys[] = { "pump", "pumps", "trunk",
					    "branches", "temp", NULL };
	struct tarn_network net = { 0 };
	double temp;

	bind_known(L, 1, NULL, keys);
	lua_settop(L, 1);
	lua_newtable(L);
	temp = bind_field(L, 1, "network", "temp", "deg C",
			  TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX, TARN_NAN);
	read_pumps(L, &net, 2);
	net.trunk = flow_read_pipes(L, 1, "trunk", &net.trunk_count, temp, 2);
	read_branches(L, &net, temp, 2);
	return net;
}

/* ---- network ---------------------------------------------------------- */

static void push_branches(lua_State *L, const struct tarn_network *net,
			  const struct tarn_branch_flow *flows,
			  const double *extra_valve_k)
{
	lua_createtable(L, (int)net->branch_count, 0);
	for (size_t i = 0; i < net->branch_count; i++) {
		bind_push(L, &tarn_branch_flow_fields, &flows[i]);
		bind_set(L, "lift", net->branches[i].lift_m);
		if (net->branches[i].name)
			bind_set_text(L, "name", net->branches[i].name);
		if (extra_valve_k)
			bind_set(L, "extra_valve_k", extra_valve_k[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "branches");
}

static int l_network(lua_State *L)
{
	struct tarn_network net = read_network(L);
	struct tarn_branch_flow *flows = flow_keep(L, 2, net.branch_count *
						   sizeof *flows);
	struct tarn_network_flow total;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_network_solve(&net, flows, &total, &err), &err);
	bind_push(L, &tarn_network_flow_fields, &total);
	bind_set_int(L, "dry_branches", total.dry_branches);
	push_branches(L, &net, flows, NULL);
	bind_push_numbers(L, total.pump_m3s, net.pump_count);
	lua_setfield(L, -2, "pump_flows");
	return 1;
}

static int l_balance(lua_State *L)
{
	struct tarn_network net = read_network(L);
	struct tarn_branch_flow *flows = flow_keep(L, 2, net.branch_count *
						   sizeof *flows);
	double *valves = flow_keep(L, 2, net.branch_count * sizeof *valves);
	struct tarn_balance out;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_network_balance(&net, valves, flows, &out, &err),
		   &err);
	bind_push(L, &tarn_balance_fields, &out);
	bind_set_count(L, "governs", out.governs + 1);
	push_branches(L, &net, flows, valves);
	return 1;
}

/* ---- pump ------------------------------------------------------------- */

/* Flow and head: asked for by one of them, or by the system's fields. */
static void push_duty(lua_State *L, const struct tarn_pump_curve *pump,
		      const struct tarn_branch *system,
		      struct tarn_running_cost *cost)
{
	int by_flow = !isnan(cost->flow_m3s), by_head = !isnan(cost->head_m);
	struct tarn_network net = { .pumps = pump, .pump_count = 1,
				    .branches = system, .branch_count = 1 };
	struct tarn_network_flow total;
	struct tarn_branch_flow branch;
	struct tarn_error err = { 0 };

	if (by_flow && by_head)
		bind_error(L, "pump.head is given beside flow: give one of "
			   "them");
	if (by_flow || by_head) {
		lua_newtable(L);
		if (by_flow)
			cost->head_m = tarn_pump_head_m(pump, cost->flow_m3s);
		else
			cost->flow_m3s = tarn_pump_flow_m3s(pump,
							    cost->head_m);
		if (isnan(cost->head_m) || isnan(cost->flow_m3s))
			bind_error(L, "pump.%s is beyond the curve",
				   by_flow ? "flow" : "head");
		bind_set(L, "flow", cost->flow_m3s);
		bind_set(L, "head", cost->head_m);
		bind_set(L, "label_flow", tarn_pump_flow_m3s(pump, 0));
		return;
	}
	bind_must(L, tarn_network_solve(&net, &branch, &total, &err), &err);
	bind_push(L, &tarn_network_flow_fields, &total);
	bind_push(L, &tarn_branch_flow_fields, &branch);
	lua_setfield(L, -2, "system");
	cost->flow_m3s = total.flow_m3s;
	cost->head_m = total.head_m;
}

/* Adds power, energy and cost where the table at 1 says how to find them. */
static void add_cost(lua_State *L, struct tarn_running_cost *cost)
{
	struct tarn_running_cost_flow out;
	struct tarn_error err = { 0 };

	bind_set(L, "water_power",
		 tarn_pump_water_w(cost->flow_m3s, cost->head_m,
				   tarn_water(cost->temp_c).density_kgm3));
	if (isnan(cost->watts) && isnan(cost->amps) && isnan(cost->efficiency))
		return;
	bind_must(L, tarn_running_cost_solve(cost, &out, &err), &err);
	bind_set_rows(L, &tarn_running_cost_flow_fields, &out);
}

/* pump{ a curve, and flow =, head = or a pipe's and a branch's fields, and how
 * its power is known } -> duty, with power and cost */
static int l_pump(lua_State *L)
{
	static const struct tarn_fields *const sections[] = {
		&tarn_pump_curve_fields, &tarn_branch_fields,
		&tarn_pipe_fields, &tarn_running_cost_fields, NULL
	};
	static const char *const more[] = { "pipes", NULL };
	struct tarn_running_cost cost = tarn_running_cost_default();
	struct tarn_branch system;
	struct tarn_pump_curve pump;

	lua_settop(L, 1);
	lua_newtable(L);	/* 2: keeps memory */
	known(L, 1, sections, more);
	bind_read(L, 1, &tarn_running_cost_fields, &cost);
	read_pump(L, 1, &pump);
	if (isnan(cost.flow_m3s))
		read_branch(L, 1, &system, cost.temp_c, 2);
	push_duty(L, &pump, &system, &cost);
	add_cost(L, &cost);
	return 1;
}

/* pump_fit{ {flow, head}, ... } -> { max_head=, drop= } */
static int l_pump_fit(lua_State *L)
{
	struct tarn_pump_curve points = tarn_pump_curve_default();
	struct tarn_error err = { 0 };
	double head, drop;

	lua_settop(L, 1);
	lua_createtable(L, 0, 1);
	lua_insert(L, 1);
	lua_setfield(L, 1, "curve");
	bind_borrow(L, 1, &tarn_pump_curve_fields, &points);
	bind_must(L, tarn_pump_curve_fit(points.flow_m3s, points.head_m,
					 points.points, &head, &drop, &err),
		  &err);
	lua_createtable(L, 0, 2);
	bind_set(L, "max_head", head);
	bind_set(L, "drop", drop);
	return 1;
}

/* affinity{ flow=, head=, power=, speed= } -> the first three at that speed */
static int l_affinity(lua_State *L)
{
	static const struct bind_argument asked[] = {
		{ "flow", "m3/s", 0, 1000, 1, TARN_NAN },
		{ "head", "m", 0, 1e4, 1, TARN_NAN },
		{ "power", "W", 0, 1e9, 1, TARN_NAN },
		{ "speed", "-", 1e-3, 10, 1, 1 },
	};
	struct tarn_affinity a;
	double x[4];

	bind_arguments(L, 1, "affinity", asked, 4, x);
	a = tarn_affinity(x[0], x[1], x[2], x[3]);
	bind_push(L, &tarn_affinity_fields, &a);
	return 1;
}

void flow_add_pumps(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "pump", l_pump },
		{ "pump_fit", l_pump_fit },
		{ "affinity", l_affinity },
		{ "network", l_network },
		{ "balance", l_balance },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
