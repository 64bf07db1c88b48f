/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_flow.h"

/* ---- network ---------------------------------------------------------- */

struct network {
	struct tarn_network net;
	double temp_c;			/* of pipes that say none */
};
static const struct tarn_field network_rows[] = {
	TARN_IN_NUMBER(struct network, temp_c, "temp", "deg C",
		       TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX, TARN_NAN,
		       "temperature in pipes that give none"),
	TARN_IN_LIST(struct network, net.pumps, net.pump_count, "pumps",
		     tarn_pump_curve_fields, 0, TARN_PUMPS_MAX, "side by side"),
	TARN_IN_LIST(struct network, net.trunk, net.trunk_count, "trunk",
		     tarn_pipe_fields, 0, 1000, "pipes before the branches"),
	TARN_IN_LIST(struct network, net.branches, net.branch_count, "branches",
		     tarn_branch_fields, 0, 1000, "branches"),
};
static TARN_FIELDS(network_fields, "network", network_rows);

/* Reads the network at 1; pushes room for what flows in its branches. */
static struct tarn_branch_flow *read_network(lua_State *L,
					     struct tarn_network *net)
{
	struct network asked;

	bind_options(L, &network_fields, &asked, flow_adapt_network, NULL);
	*net = asked.net;
	return lua_newuserdatauv(L, (net->branch_count + 1) *
				 sizeof(struct tarn_branch_flow), 0);
}

static void set_branches(lua_State *L, const struct tarn_network *net,
			 const struct tarn_branch_flow *flows,
			 const double *extra_valve_k)
{
	bind_push_list(L, &tarn_branch_flow_fields, flows, net->branch_count,
		       sizeof *flows);
	for (size_t i = 0; i < net->branch_count; i++) {
		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		bind_set(L, "lift", net->branches[i].lift_m);
		if (net->branches[i].name)
			bind_set_text(L, "name", net->branches[i].name);
		if (extra_valve_k)
			bind_set(L, "extra_valve_k", extra_valve_k[i]);
		lua_pop(L, 1);
	}
	lua_setfield(L, -2, "branches");
}

static int l_network(lua_State *L)
{
	struct tarn_network net;
	struct tarn_branch_flow *flows = read_network(L, &net);
	struct tarn_network_flow total;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_network_solve(&net, flows, &total, &err), &err);
	bind_push(L, &tarn_network_flow_fields, &total);
	bind_set_int(L, "dry_branches", total.dry_branches);
	set_branches(L, &net, flows, NULL);
	bind_push_numbers(L, total.pump_m3s, net.pump_count);
	lua_setfield(L, -2, "pump_flows");
	return 1;
}

static int l_balance(lua_State *L)
{
	struct tarn_network net;
	struct tarn_branch_flow *flows = read_network(L, &net);
	double *valves = lua_newuserdatauv(L, (net.branch_count + 1) *
					   sizeof *valves, 0);
	struct tarn_balance out;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_network_balance(&net, valves, flows, &out, &err),
		  &err);
	bind_push(L, &tarn_balance_fields, &out);
	bind_set_count(L, "governs", out.governs + 1);
	set_branches(L, &net, flows, valves);
	return 1;
}

/* ---- pump ------------------------------------------------------------- */

struct pump {
	struct tarn_running_cost cost;
	struct tarn_pump_curve curve;
	struct tarn_branch system;
};
static const struct tarn_field pump_rows[] = {
	TARN_INCLUDED(struct pump, cost, tarn_running_cost_fields),
	TARN_INCLUDED(struct pump, curve, tarn_pump_curve_fields),
	TARN_INCLUDED(struct pump, system, tarn_branch_fields),
};
static TARN_FIELDS(pump_fields, "pump", pump_rows);

/* The other of flow and head, on the curve. */
static void push_on_curve(lua_State *L, struct pump *x)
{
	struct tarn_running_cost *cost = &x->cost;
	int by_flow = !isnan(cost->flow_m3s);

	if (by_flow && !isnan(cost->head_m))
		bind_error(L, "pump.head is given beside flow: give one of "
			   "them");
	if (by_flow)
		cost->head_m = tarn_pump_head_m(&x->curve, cost->flow_m3s);
	else
		cost->flow_m3s = tarn_pump_flow_m3s(&x->curve, cost->head_m);
	if (isnan(cost->head_m) || isnan(cost->flow_m3s))
		bind_error(L, "pump.%s is beyond the curve",
			   by_flow ? "flow" : "head");
	lua_newtable(L);
	bind_set(L, "flow", cost->flow_m3s);
	bind_set(L, "head", cost->head_m);
	bind_set(L, "label_flow", tarn_pump_flow_m3s(&x->curve, 0));
}

/* Flow and head on which pump and system agree. */
static void push_in_system(lua_State *L, struct pump *x)
{
	struct tarn_network net = { .pumps = &x->curve, .pump_count = 1,
				    .branches = &x->system, .branch_count = 1 };
	struct tarn_network_flow total;
	struct tarn_branch_flow branch;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_network_solve(&net, &branch, &total, &err), &err);
	bind_push(L, &tarn_network_flow_fields, &total);
	bind_push(L, &tarn_branch_flow_fields, &branch);
	lua_setfield(L, -2, "system");
	x->cost.flow_m3s = total.flow_m3s;
	x->cost.head_m = total.head_m;
}

/* pump{ a curve, and flow =, head = or a pipe's and a branch's fields, and how
 * its power is known } -> duty, with power and cost */
static int l_pump(lua_State *L)
{
	struct pump x;
	struct tarn_running_cost_flow out;
	struct tarn_error err = { 0 };

	bind_options(L, &pump_fields, &x, flow_adapt_pump, NULL);
	bind_must(L, tarn_pump_curve_check(&x.curve, &err), &err);
	if (isnan(x.cost.flow_m3s) && isnan(x.cost.head_m))
		push_in_system(L, &x);
	else
		push_on_curve(L, &x);
	bind_set(L, "water_power",
		 tarn_pump_water_w(x.cost.flow_m3s, x.cost.head_m,
				   tarn_water(x.cost.temp_c).density_kgm3));
	if (isnan(x.cost.watts) && isnan(x.cost.amps) &&
	    isnan(x.cost.efficiency))
		return 1;
	bind_must(L, tarn_running_cost_solve(&x.cost, &out, &err), &err);
	bind_set_rows(L, &tarn_running_cost_flow_fields, &out);
	return 1;
}

/* pump_fit{ {flow, head}, ... } -> { max_head=, drop= } */
static int l_pump_fit(lua_State *L)
{
	struct tarn_pump_curve points;
	struct tarn_error err = { 0 };
	double head, drop;

	lua_settop(L, 1);
	lua_createtable(L, 0, 1);
	lua_insert(L, 1);
	lua_setfield(L, 1, "curve");
	bind_options(L, &tarn_pump_curve_fields, &points, NULL, NULL);
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
		BIND_OPTION("flow", "m3/s", 0, 1000, TARN_NAN),
		BIND_OPTION("head", "m", 0, 1e4, TARN_NAN),
		BIND_OPTION("power", "W", 0, 1e9, TARN_NAN),
		BIND_OPTION("speed", "-", 1e-3, 10, 1),
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
