/* SPDX-License-Identifier: MIT */
#include "bind.h"

/*
 * Pond descriptions as JSON (RFC 8259), for the page and for other programs:
 * the same fields, numbers in SI.  An object becomes a table, an array a
 * list.
 */

static void push(lua_State *L, const struct tarn_value *v)
{
	lua_Integer n = 0;

	luaL_checkstack(L, 8, NULL);
	switch (v->kind) {
	case TARN_VALUE_NUMBER:
		if (v->number == (double)(lua_Integer)v->number)
			lua_pushinteger(L, (lua_Integer)v->number);
		else
			lua_pushnumber(L, v->number);
		break;
	case TARN_VALUE_SWITCH:
		lua_pushboolean(L, v->number > 0);
		break;
	case TARN_VALUE_TABLE:
		lua_newtable(L);
		for (const struct tarn_value *e = v->first; e; e = e->next) {
			if (e->name)
				lua_pushstring(L, e->name);
			else
				lua_pushinteger(L, ++n);
			push(L, e);
			lua_rawset(L, -3);
		}
		break;
	default:
		lua_pushlstring(L, v->text, v->bytes);
	}
}

void bind_read_json(lua_State *L, const char *path, const char *text,
		    size_t bytes)
{
	struct tarn_values *values = bind_new_values(L);
	const struct tarn_value *v;
	struct tarn_error err = { 0 };

	if (tarn_values_json(values, text, bytes, &v, &err) != TARN_OK)
		bind_fail(L, &err, path);
	push(L, v);
	lua_insert(L, -2);
	bind_free_values(L);
}
