/* SPDX-License-Identifier: MIT */
/* What the options of pipes, pumps and networks may say in short. */
#include <string.h>

#include "bind_flow.h"

static struct tarn_value *entry(const struct tarn_value *table,
				const char *name)
{
	for (struct tarn_value *e = table->first; e; e = e->next)
		if (e->name && strcmp(e->name, name) == 0)
			return e;
	return NULL;
}

static void append(struct tarn_value *table, struct tarn_value *e)
{
	e->next = NULL;
	if (table->last)
		table->last->next = e;
	else
		table->first = e;
	table->last = e;
}

/* Gives the options' temperature to each pipe of a list that has none. */
static void warm(lua_State *L, struct tarn_values *values,
		 const struct tarn_value *options,
		 const struct tarn_value *list)
{
	const struct tarn_value *temp = entry(options, "temp");
	struct tarn_value *pipe = list ? list->first : NULL;

	for (; temp && pipe; pipe = pipe->next) {
		if (pipe->kind != TARN_VALUE_TABLE || entry(pipe, "temp"))
			continue;
		lua_pushnumber(L, temp->number);
		bind_add_value(L, values, pipe, "temp")->kind = temp->kind;
	}
}

/* Moves a single pipe's fields from a branch into its list of pipes; 'stay' are
 * fields that the branch has too. */
static void fold(lua_State *L, struct tarn_values *values,
		 struct tarn_value *branch, const struct tarn_fields *stay)
{
	struct tarn_value *e = branch->first, *next, *pipe;

	if (!entry(branch, "diameter") && !entry(branch, "length"))
		return;
	if (entry(branch, "pipes"))
		bind_error(L, "branch.pipes is given beside a single pipe's "
			   "fields: give one of them");
	branch->first = branch->last = NULL;
	pipe = bind_new_table(L, values, bind_new_table(L, values, branch,
							"pipes"), NULL);
	for (; e; e = next) {
		int moves = e->name && tarn_fields_find(&tarn_pipe_fields,
							e->name) &&
			    !(stay && tarn_fields_find(stay, e->name));

		next = e->next;
		append(moves ? pipe : branch, e);
	}
}

/* One pump becomes a list of pumps. */
static void list_pump(lua_State *L, struct tarn_values *values,
		      struct tarn_value *options)
{
	struct tarn_value *pump = entry(options, "pump"), *in_list, *next;

	if (!pump)
		return;
	if (entry(options, "pumps"))
		bind_error(L, "network.pumps is given beside pump: give one of "
			   "them");
	next = pump->next;
	in_list = bind_new_table(L, values, NULL, NULL);
	*in_list = *pump;
	in_list->name = NULL;
	*pump = (struct tarn_value){ .kind = TARN_VALUE_TABLE, .text = "",
				     .name = "pumps", .next = next,
				     .listed = 1 };
	append(pump, in_list);
}

void flow_adapt_pipes(lua_State *L, struct tarn_values *values,
		      struct tarn_value *options)
{
	warm(L, values, options, entry(options, "pipes"));
}

void flow_adapt_pump(lua_State *L, struct tarn_values *values,
		     struct tarn_value *options)
{
	fold(L, values, options, &tarn_running_cost_fields);
	flow_adapt_pipes(L, values, options);
}

void flow_adapt_network(lua_State *L, struct tarn_values *values,
			struct tarn_value *options)
{
	const struct tarn_value *branches = entry(options, "branches");
	struct tarn_value *branch = branches ? branches->first : NULL;

	list_pump(L, values, options);
	warm(L, values, options, entry(options, "trunk"));
	for (; branch; branch = branch->next) {
		fold(L, values, branch, NULL);
		warm(L, values, options, entry(branch, "pipes"));
	}
}
