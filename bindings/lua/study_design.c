/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_pond.h"
#include "bind_study.h"

/* The descriptions of a study's ponds, for columns that name their fields. */

#define DEPTH_MAX 16

/* ---- a table as a value ----------------------------------------------------- */

/* Values, freed with the userdata. */
static int free_values(lua_State *L)
{
	struct tarn_values **values = lua_touserdata(L, 1);

	tarn_values_free(*values);
	*values = NULL;
	return 0;
}

static int free_design(lua_State *L)
{
	struct tarn_design **design = lua_touserdata(L, 1);

	tarn_design_free(*design);
	*design = NULL;
	return 0;
}

/* Pushes a userdata with room for a pointer that 'release' frees. */
static void *push_owner(lua_State *L, lua_CFunction release)
{
	void **at = lua_newuserdatauv(L, sizeof *at, 0);

	*at = NULL;
	lua_createtable(L, 0, 1);
	lua_pushcfunction(L, release);
	lua_setfield(L, -2, "__gc");
	lua_setmetatable(L, -2);
	return at;
}

static void fill(lua_State *L, struct tarn_values *values,
		 struct tarn_value *v, int depth);

static struct tarn_value *add(lua_State *L, struct tarn_values *values,
			      struct tarn_value *table, const char *name)
{
	struct tarn_value *v = tarn_values_add(values, table, name);

	if (!v)
		luaL_error(L, "out of memory");
	return v;
}

/* List first, in its order; then what has a name. */
static void fill_table(lua_State *L, struct tarn_values *values,
		       struct tarn_value *v, int depth)
{
	int at = lua_gettop(L);
	lua_Integer count = (lua_Integer)lua_rawlen(L, at);

	if (depth > DEPTH_MAX)
		bind_error(L, "nested too deeply for a description");
	luaL_checkstack(L, 4, NULL);
	for (lua_Integer i = 1; i <= count; i++) {
		lua_rawgeti(L, at, i);
		fill(L, values, add(L, values, v, NULL), depth + 1);
		lua_pop(L, 1);
	}
	for (lua_pushnil(L); lua_next(L, at); lua_pop(L, 1))
		if (lua_type(L, -2) == LUA_TSTRING)
			fill(L, values, add(L, values, v,
					    lua_tostring(L, -2)), depth + 1);
}

/* The value on top of the stack; its texts are the state's. */
static void fill(lua_State *L, struct tarn_values *values,
		 struct tarn_value *v, int depth)
{
	switch (lua_type(L, -1)) {
	case LUA_TNUMBER:
		v->number = lua_tonumber(L, -1);
		break;
	case LUA_TSTRING:
		v->kind = TARN_VALUE_TEXT;
		v->text = lua_tolstring(L, -1, &v->bytes);
		break;
	case LUA_TBOOLEAN:
		v->kind = TARN_VALUE_SWITCH;
		v->number = lua_toboolean(L, -1);
		break;
	case LUA_TTABLE:
		v->kind = TARN_VALUE_TABLE;
		fill_table(L, values, v, depth);
		break;
	default:
		v->kind = TARN_VALUE_OTHER;
		v->text = luaL_typename(L, -1);
	}
}

/* ---- designs ------------------------------------------------------------------ */

/* Pushes the description of the pond on top, a basin that a script made left
 * out; whether it was. */
static int push_description(lua_State *L)
{
	int made;

	lua_getiuservalue(L, -1, 2);
	made = lua_getfield(L, -1, "basin") == LUA_TUSERDATA;
	lua_pop(L, 1);
	if (!made)
		return 0;
	lua_newtable(L);
	for (lua_pushnil(L); lua_next(L, -3); lua_pop(L, 1)) {
		lua_pushvalue(L, -2);
		lua_pushvalue(L, -2);
		lua_rawset(L, -5);
	}
	lua_newtable(L);	/* something, to be replaced */
	lua_newtable(L);
	for (int i = 1; i <= 2; i++) {
		lua_newtable(L);
		for (int k = 1; k <= 2; k++) {
			lua_pushinteger(L, i);
			lua_rawseti(L, -2, k);
		}
		lua_rawseti(L, -2, i);
	}
	lua_setfield(L, -2, "table");
	lua_setfield(L, -2, "basin");
	lua_remove(L, -2);
	return 1;
}

/* A basin that a script made stands in for one that is described. */
static void stand_in(struct tarn_design *d, const struct tarn_basin *basin)
{
	tarn_fields_release(tarn_fields_find(&tarn_design_fields, "basin")->of,
			    &d->basin, NULL);
	d->pond.basin = basin;
}

const struct tarn_design *bind_push_design(lua_State *L)
{
	const struct pond_box *box = bind_check_pond(L, -1);
	int made = push_description(L), at = lua_gettop(L);
	struct tarn_values **values = push_owner(L, free_values);
	struct tarn_design **design = push_owner(L, free_design);
	struct tarn_value *table;
	struct tarn_error err = { 0 };

	*values = tarn_values_new(NULL);
	if (!*values)
		luaL_error(L, "out of memory");
	table = add(L, *values, NULL, NULL);
	lua_pushvalue(L, at);
	fill(L, *values, table, 0);
	lua_pop(L, 1);
	bind_must(L, tarn_design_read(design, NULL, table, &err), &err);
	if (made)
		stand_in(*design, box->pond.basin);
	lua_replace(L, at);	/* the owner of the design stays */
	lua_settop(L, at);
	return *design;
}

/* ---- what a column is in ------------------------------------------------------- */

struct asked {
	char path[96];
	const struct tarn_field *row;
};

static void find_row(void *context, const char *path,
		     const struct tarn_field *row)
{
	struct asked *a = context;

	if (strcmp(a->path, path) == 0)
		a->row = row;
}

/* Any entry of a list stands for its first; a month or number for all. */
static void without_numbers(const char *path, char out[96])
{
	size_t n = 0;

	for (; *path && n < 92; path++) {
		out[n++] = *path;
		if (*path != '[')
			continue;
		path += strspn(path + 1, "0123456789");
		out[n++] = '1';
	}
	out[n] = '\0';
	while (n > 3 && strcmp(out + n - 3, "[1]") == 0)
		out[n -= 3] = '\0';
	while (n > 0 && out[n - 1] >= '0' && out[n - 1] <= '9')
		n--;
	if (n > 0 && out[n - 1] == '.')
		out[n - 1] = '\0';
}

/* study.unit("bed.layers[2].thickness") -> "m", or nil */
int bind_study_unit(lua_State *L)
{
	struct asked a = { "", NULL };

	without_numbers(luaL_checkstring(L, 1), a.path);
	tarn_fields_walk(&tarn_design_fields, find_row, &a);
	if (a.row)
		lua_pushstring(L, a.row->unit);
	return a.row != NULL;
}
