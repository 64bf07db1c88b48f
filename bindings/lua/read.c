/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_pond.h"

/* Tables of a script as values of the library, before anybody has looked at
 * them.  Names and texts are Lua's own. */

enum { DEPTH_MAX = 16, NAMES_MAX = 100 };

static struct tarn_value *add(lua_State *L, struct tarn_values *values,
			      struct tarn_value *table, const char *name)
{
	struct tarn_value *v = tarn_values_add(values, table, name);

	if (!v)
		bind_no_memory(L);
	return v;
}

static void take(lua_State *L, struct tarn_values *values,
		 struct tarn_value *v, int depth);

/* The name of the key under the value on top: a text of its own where the key
 * is none, since no list has it. */
static const char *name_of(lua_State *L, struct tarn_values *values)
{
	const char *name;
	char *copy;
	size_t n;

	if (lua_type(L, -2) == LUA_TSTRING)
		return lua_tostring(L, -2);
	name = luaL_tolstring(L, -2, &n);
	copy = tarn_values_room(values, n + 1);
	if (!copy)
		bind_no_memory(L);
	memcpy(copy, name, n);
	lua_pop(L, 1);
	return copy;
}

/* The unit that the number on top carried, its key under it. */
static void take_unit(lua_State *L, struct tarn_values *values,
		      struct tarn_value *v, int marks)
{
	struct tarn_measure m;
	struct tarn_dimension *unit;

	if (!marks || lua_type(L, -1) != LUA_TNUMBER ||
	    !bind_marked(L, marks, lua_gettop(L) - 1, lua_tonumber(L, -1), &m))
		return;
	unit = (struct tarn_dimension *)(void *)
		tarn_values_room(values, sizeof *unit);
	if (!unit)
		bind_no_memory(L);
	*unit = m.unit;
	v->unit = unit;
}

/* The entries of the table on top: the list first, then what has a name. */
static void take_entries(lua_State *L, struct tarn_values *values,
			 struct tarn_value *table, int depth)
{
	lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
	int at = lua_gettop(L), marks;

	if (depth > DEPTH_MAX)
		bind_error(L, "nested too deeply for a description");
	luaL_checkstack(L, 12, NULL);
	marks = bind_push_marks(L, at) ? at + 1 : 0;
	for (lua_Integer i = 1; i <= count; i++) {
		struct tarn_value *v = add(L, values, table, NULL);

		if (marks)
			lua_pushinteger(L, i);
		lua_rawgeti(L, at, i);
		if (marks)
			take_unit(L, values, v, marks);
		take(L, values, v, depth);
		if (marks)
			lua_pop(L, 1);
	}
	for (lua_pushnil(L); lua_next(L, at); ) {
		struct tarn_value *v;

		if (lua_isinteger(L, -2) && lua_tointeger(L, -2) >= 1 &&
		    lua_tointeger(L, -2) <= count) {
			lua_pop(L, 1);
			continue;
		}
		v = add(L, values, table, name_of(L, values));
		take_unit(L, values, v, marks);
		take(L, values, v, depth);
	}
	lua_settop(L, at);
}

/* Fills a value with what is on top, and pops that. */
static void take(lua_State *L, struct tarn_values *values,
		 struct tarn_value *v, int depth)
{
	switch (lua_type(L, -1)) {
	case LUA_TNUMBER:
		v->kind = TARN_VALUE_NUMBER;
		v->number = lua_tonumber(L, -1);
		break;
	case LUA_TBOOLEAN:
		v->kind = TARN_VALUE_SWITCH;
		v->number = lua_toboolean(L, -1);
		break;
	case LUA_TSTRING:
		v->kind = TARN_VALUE_TEXT;
		v->text = lua_tolstring(L, -1, &v->bytes);
		break;
	case LUA_TTABLE:
		v->kind = TARN_VALUE_TABLE;
		take_entries(L, values, v, depth + 1);
		break;
	case LUA_TUSERDATA:
		if (luaL_testudata(L, -1, BASIN_T)) {	/* as described */
			lua_getiuservalue(L, -1, 1);
			take(L, values, v, depth);
			break;
		}	/* fall through */
	default:
		v->kind = TARN_VALUE_OTHER;
		v->text = luaL_typename(L, -1);
	}
	lua_pop(L, 1);
}

struct tarn_value *bind_value(lua_State *L, int arg,
			      struct tarn_values *values)
{
	lua_pushvalue(L, arg);
	return bind_add_value(L, values, NULL, NULL);
}

struct tarn_value *bind_add_value(lua_State *L, struct tarn_values *values,
				  struct tarn_value *table, const char *name)
{
	struct tarn_value *v = add(L, values, table, name);

	take(L, values, v, table ? 1 : 0);
	return v;
}

struct tarn_value *bind_new_table(lua_State *L, struct tarn_values *values,
				  struct tarn_value *table, const char *name)
{
	struct tarn_value *v = add(L, values, table, name);

	v->kind = TARN_VALUE_TABLE;
	return v;
}

/* ---- values that Lua frees -------------------------------------------------- */

#define VALUES_T "tarn.values"

BIND_FREE(values, VALUES_T)

struct tarn_values *bind_new_values(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "__gc", l_free }, { "__close", l_free }, { NULL, NULL }
	};
	struct tarn_values **values = lua_newuserdatauv(L, sizeof *values, 0);

	*values = NULL;
	if (luaL_getmetatable(L, VALUES_T) == LUA_TNIL)
		bind_methods(L, VALUES_T, methods);
	lua_pop(L, 1);
	luaL_setmetatable(L, VALUES_T);
	*values = tarn_values_new(NULL);
	if (!*values)
		bind_no_memory(L);
	return *values;
}

void bind_free_values(lua_State *L)
{
	struct tarn_values **values = luaL_checkudata(L, -1, VALUES_T);

	tarn_values_free(*values);
	*values = NULL;
	lua_pop(L, 1);
}

/* ---- reading by rows --------------------------------------------------------- */

/* Room among the values for lists that an object borrows. */
static void *borrow(void *values, void *block, size_t bytes)
{
	(void)block;	/* is left to the end */
	return bytes > 0 ? tarn_values_room(values, bytes) : NULL;
}

void bind_read_value(lua_State *L, const struct tarn_fields *fields,
		     void *object, struct tarn_values *values,
		     const struct tarn_value *table)
{
	const struct tarn_alloc room = { borrow, values };
	struct tarn_error err = { 0 };

	bind_must(L, tarn_fields_read(fields, object, fields->section, table,
				      &room, &err), &err);
}

/* Adds the field of that name to the table of values, if it is given. */
static void add_given(lua_State *L, int arg, const char *name,
		      struct tarn_values *values, struct tarn_value *table,
		      int marks)
{
	struct tarn_value *v;

	lua_pushstring(L, name);
	if (lua_getfield(L, arg, name) == LUA_TNIL) {
		lua_pop(L, 2);
		return;
	}
	v = add(L, values, table, name);
	take_unit(L, values, v, marks);
	take(L, values, v, 1);
	lua_pop(L, 1);
}

void bind_read(lua_State *L, int arg, const struct tarn_fields *fields,
	       void *object)
{
	struct tarn_values *values;
	struct tarn_value *table;
	int marks;

	arg = lua_absindex(L, arg);
	values = bind_new_values(L);
	table = bind_new_table(L, values, NULL, NULL);
	marks = bind_push_marks(L, arg) ? lua_gettop(L) : 0;
	for (size_t i = 0; i < fields->count; i++) {
		add_given(L, arg, fields->rows[i].name, values, table, marks);
		if (fields->rows[i].was)
			add_given(L, arg, fields->rows[i].was, values, table,
				  marks);
	}
	if (marks)
		lua_pop(L, 1);
	bind_read_value(L, fields, object, values, table);
	bind_free_values(L);
}

void bind_read_one(lua_State *L, int arg, const struct tarn_field *row,
		   void *to)
{
	const struct tarn_fields one = { "", row, 1 };
	struct tarn_values *values;
	struct tarn_value *table;
	struct tarn_error err = { 0 };

	if (lua_isnone(L, arg))
		lua_settop(L, arg);
	arg = lua_absindex(L, arg);
	values = bind_new_values(L);
	table = bind_new_table(L, values, NULL, NULL);
	lua_pushvalue(L, arg);
	bind_add_value(L, values, table, row->name);
	if (tarn_fields_read(&one, to, "", table, NULL, &err) != TARN_OK)
		bind_error(L, "%s %s", err.field, err.text);
	bind_free_values(L);
}

/* What has a name, for the look at names alone. */
static struct tarn_field named(const char *name)
{
	return (struct tarn_field){ .name = name, .kind = TARN_FIELD_ANY };
}

void bind_known(lua_State *L, int arg, const struct tarn_fields *fields,
		const char *const also[])
{
	struct tarn_field row[NAMES_MAX];
	struct tarn_fields names = { fields ? fields->section : "", row, 0 };
	const struct tarn_value *any;
	struct tarn_values *values;
	struct tarn_value *table;

	for (size_t i = 0; fields && i < fields->count; i++) {
		row[names.count] = named(fields->rows[i].name);
		row[names.count++].was = fields->rows[i].was;
	}
	for (size_t i = 0; also && also[i]; i++)
		row[names.count++] = named(also[i]);
	arg = lua_absindex(L, arg);
	values = bind_new_values(L);
	if (lua_type(L, arg) == LUA_TTABLE) {
		table = bind_new_table(L, values, NULL, NULL);
		for (lua_pushnil(L); lua_next(L, arg); lua_pop(L, 1))
			add(L, values, table, lua_type(L, -2) == LUA_TSTRING
				? lua_tostring(L, -2) : NULL);
	} else {
		table = bind_value(L, arg, values);
	}
	bind_read_value(L, &names, &any, values, table);
	bind_free_values(L);
}

void bind_fields(lua_State *L, int arg, const struct tarn_fields *fields,
		 void *object, const char *const also[])
{
	bind_known(L, lua_absindex(L, arg), fields, also);
	bind_read(L, arg, fields, object);
}
