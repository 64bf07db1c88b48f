/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind_pond.h"

/* Default of a number as the row's object has it; nil if it is "not given". */
static void push_default(lua_State *L, const struct tarn_field *row,
			 const void *defaults)
{
	const char *at = (const char *)defaults + row->offset;
	double x;
	int i;

	if (row->kind == TARN_FIELD_CHOICE || row->kind == TARN_FIELD_SWITCH) {
		memcpy(&i, at, sizeof i);
		if (row->kind == TARN_FIELD_CHOICE)
			lua_pushstring(L, row->choices[i]);
		else
			lua_pushboolean(L, i);
		return;
	}
	memcpy(&x, at, sizeof x);
	if (isnan(x))
		lua_pushnil(L);
	else
		lua_pushnumber(L, x);
}

static void push_choices(lua_State *L, const struct tarn_field *row)
{
	lua_newtable(L);
	for (int i = 0; row->choices && row->choices[i]; i++) {
		lua_pushstring(L, row->choices[i]);
		lua_rawseti(L, -2, i + 1);
	}
}

const char *bind_kind_name(enum tarn_field_kind kind)
{
	static const char *const names[] = {
		[TARN_FIELD_NUMBER] = "number",
		[TARN_FIELD_MONTHS] = "months",
		[TARN_FIELD_CHOICE] = "choice",
		[TARN_FIELD_SWITCH] = "switch",
		[TARN_FIELD_WHOLE] = "whole",
		[TARN_FIELD_COUNT] = "whole",
		[TARN_FIELD_DAY] = "date",
		[TARN_FIELD_TEXT] = "text",
		[TARN_FIELD_STRING] = "text",
		[TARN_FIELD_LINE] = "whole",
		[TARN_FIELD_FLAG] = "switch",
		[TARN_FIELD_FLAGS] = "flags",
		[TARN_FIELD_NUMBERS] = "numbers",
		[TARN_FIELD_NAMED] = "named",
		[TARN_FIELD_PAIRS] = "pairs",
		[TARN_FIELD_RECORD] = "table",
		[TARN_FIELD_LIST] = "tables"
	};

	return names[kind];
}

static void push_row(lua_State *L, const struct tarn_field *row,
		     const void *defaults)
{
	lua_newtable(L);
	bind_set_text(L, "name", row->name);
	bind_set_text(L, "kind", bind_kind_name(row->kind));
	bind_set_text(L, "unit", row->unit);
	bind_set_text(L, "meaning", row->meaning);
	bind_set(L, "lo", row->lo);
	bind_set(L, "hi", row->hi);
	bind_set_flag(L, "required", row->required);
	push_default(L, row, defaults);
	lua_setfield(L, -2, "default");
	push_choices(L, row);
	lua_setfield(L, -2, "choices");
}

/* Adds the rows to the list on top. */
static void add_rows(lua_State *L, const struct tarn_fields *fields,
		     const void *defaults)
{
	for (size_t i = 0; i < fields->count; i++) {
		push_row(L, &fields->rows[i], defaults);
		lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
	}
}

void bind_push_reference(lua_State *L, const struct tarn_fields *fields,
			 const void *defaults)
{
	lua_newtable(L);
	bind_set_text(L, "section", fields->section);
	add_rows(L, fields, defaults);
}

/* Pushes the section of that name in the list on top; a new one at its end
 * if there is none. */
static void push_section(lua_State *L, const char *name)
{
	lua_Integer count = (lua_Integer)lua_rawlen(L, -1);

	for (lua_Integer i = 1; i <= count; i++) {
		lua_rawgeti(L, -1, i);
		lua_getfield(L, -1, "section");
		if (strcmp(lua_tostring(L, -1), name) == 0) {
			lua_pop(L, 1);
			return;
		}
		lua_pop(L, 2);
	}
	lua_newtable(L);
	bind_set_text(L, "section", name);
	bind_push_beside(L, name);
	lua_setfield(L, -2, "beside");
	lua_pushvalue(L, -1);
	lua_rawseti(L, -3, count + 1);
}

void bind_add_reference(lua_State *L, const struct tarn_fields *fields,
			const void *defaults)
{
	push_section(L, fields->section);
	add_rows(L, fields, defaults);
	lua_pop(L, 1);
}
