/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "bind_call.h"

/*
 * Functions made from rows.  Each is a closure over its row, which is where
 * signature() finds it.
 */

/* ---- plain numbers ------------------------------------------------------- */

static int arguments(const struct bind_plain *f)
{
	int n = 0;

	while (n < BIND_ARGUMENTS && f->argument[n].name)
		n++;
	return n;
}

static double call(const struct bind_plain *f, const double x[])
{
	switch (arguments(f)) {
	case 1:
		return f->call.one(x[0]);
	case 2:
		return f->call.two(x[0], x[1]);
	case 3:
		return f->call.three(x[0], x[1], x[2]);
	case 4:
		return f->call.four(x[0], x[1], x[2], x[3]);
	case 5:
		return f->call.five(x[0], x[1], x[2], x[3], x[4]);
	default:
		return f->call.six(x[0], x[1], x[2], x[3], x[4], x[5]);
	}
}

static int has_unit(const char *unit)
{
	return unit[0] != '\0' && strcmp(unit, "-") != 0;
}

/* Argument 'arg' by its place. */
static double placed(lua_State *L, int arg, const struct bind_argument *a)
{
	const char *what = a->name;

	if (a->optional && lua_isnoneornil(L, arg))
		return a->otherwise;
	if (has_unit(a->unit))
		what = lua_pushfstring(L, "%s [%s]", a->name, a->unit);
	return bind_number(L, arg, what, a->lo, a->hi);
}

/* An argument by its name, from the table at 'arg'. */
static double named(lua_State *L, int arg, const char *section,
		    const struct bind_argument *a)
{
	const char *unit = has_unit(a->unit) ? a->unit : "";
	double x = bind_field(L, arg, section, a->name, unit, a->lo,
			      a->hi, a->otherwise);

	if (isnan(x) && !a->optional)
		bind_error(L, "%s.%s is missing: give it%s%s", section,
			   a->name, unit[0] ? " in " : "", unit);
	return x;
}

void bind_arguments(lua_State *L, int arg, const char *section,
		    const struct bind_argument asked[], int count, double x[])
{
	const char *names[BIND_ARGUMENTS + 1] = { NULL };

	for (int i = 0; i < count; i++)
		names[i] = asked[i].name;
	arg = lua_absindex(L, arg);
	bind_known(L, arg, NULL, names);
	for (int i = 0; i < count; i++)
		x[i] = named(L, arg, section, &asked[i]);
}

int bind_call_plain(lua_State *L, const struct bind_plain *f)
{
	int count = arguments(f);
	double x[BIND_ARGUMENTS], result;

	lua_settop(L, count);
	if (f->named)
		bind_arguments(L, 1, f->name, f->argument, count, x);
	else
		for (int i = 0; i < count; i++)
			x[i] = placed(L, i + 1, &f->argument[i]);
	result = call(f, x);
	if (isnan(result) && f->refusal)
		bind_error(L, "%s", f->refusal);
	lua_pushnumber(L, result);
	return 1;
}

static int l_plain(lua_State *L)
{
	return bind_call_plain(L, lua_touserdata(L, lua_upvalueindex(1)));
}

/* ---- from options to results --------------------------------------------- */

void bind_options(lua_State *L, const struct tarn_fields *fields, void *in,
		  bind_adapt *adapt, bind_assume *assume)
{
	struct tarn_values *values;
	struct tarn_value *options;

	if (lua_isnone(L, 1))
		lua_settop(L, 1);
	values = bind_new_values(L);
	options = bind_value(L, 1, values);
	tarn_fields_default(fields, in);
	if (adapt)
		adapt(L, values, options);
	bind_read_value(L, fields, in, values, options);
	if (assume) {
		assume(in);
		bind_read_value(L, fields, in, values, options);
	}
}

static int l_solver(lua_State *L)
{
	const struct bind_solver *s = lua_touserdata(L, lua_upvalueindex(1));
	struct tarn_error err = { 0 };
	void *in, *out;

	lua_settop(L, 1);
	in = lua_newuserdatauv(L, s->in_bytes, 0);
	out = lua_newuserdatauv(L, s->out_bytes, 0);
	memset(in, 0, s->in_bytes);
	memset(out, 0, s->out_bytes);
	bind_options(L, s->in, in, NULL, s->assume);
	bind_must(L, s->solve(in, out, &err), &err);
	bind_push(L, s->out, out);
	if (!s->first)
		return 1;
	lua_getfield(L, -1, s->first);
	lua_insert(L, -2);
	return 2;
}

static void add(lua_State *L, const char *name, const void *row,
		lua_CFunction f)
{
	lua_pushlightuserdata(L, (void *)(uintptr_t)row);
	lua_pushcclosure(L, f, 1);
	lua_setfield(L, -2, name);
}

void bind_add_plain(lua_State *L, const struct bind_plain rows[])
{
	for (; rows->name; rows++)
		add(L, rows->name, rows, l_plain);
}

void bind_add_solvers(lua_State *L, const struct bind_solver rows[])
{
	for (; rows->name; rows++)
		add(L, rows->name, rows, l_solver);
}

/* ---- what a function takes ----------------------------------------------- */

static void push_argument(lua_State *L, const struct bind_argument *a)
{
	lua_createtable(L, 0, 6);
	bind_set_text(L, "name", a->name);
	bind_set_text(L, "unit", a->unit);
	bind_set(L, "lo", a->lo);
	bind_set(L, "hi", a->hi);
	bind_set_flag(L, "required", !a->optional);
	bind_set(L, "default", a->otherwise);
}

static void push_plain(lua_State *L, const struct bind_plain *f)
{
	lua_createtable(L, 0, 3);
	lua_newtable(L);
	for (int i = 0; i < arguments(f); i++) {
		push_argument(L, &f->argument[i]);
		lua_rawseti(L, -2, i + 1);
	}
	lua_setfield(L, -2, "arguments");
	bind_set_text(L, "unit", f->unit);
	bind_set_flag(L, "named", f->named);
}

/* Appends names, units and meanings of the rows to the list on top. */
static void add_rows(lua_State *L, const struct tarn_fields *fields)
{
	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];

		if (!row->name[0]) {
			add_rows(L, row->of);
			continue;
		}
		bind_push_row(L, row);
		lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
	}
}

static void push_solver(lua_State *L, const struct bind_solver *s)
{
	lua_createtable(L, 0, 3);
	lua_newtable(L);
	add_rows(L, s->in);
	lua_setfield(L, -2, "takes");
	lua_newtable(L);
	add_rows(L, s->out);
	lua_setfield(L, -2, "gives");
	if (s->first)
		bind_set_text(L, "first", s->first);
}

/* signature(function) -> { arguments =, unit =, named = } of a function of
 * plain numbers, { takes =, gives =, first = } of one of a table, or nil */
int bind_signature(lua_State *L)
{
	lua_CFunction f = lua_tocfunction(L, 1);

	if (f != l_plain && f != l_solver)
		return 0;
	lua_getupvalue(L, 1, 1);
	if (f == l_plain)
		push_plain(L, lua_touserdata(L, -1));
	else
		push_solver(L, lua_touserdata(L, -1));
	return 1;
}
