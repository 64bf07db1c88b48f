/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind.h"

/* Default of a row; nil if it is "not given". */
static void push_default(lua_State *L, const struct tarn_field *row)
{
	if (isnan(row->otherwise))
		lua_pushnil(L);
	else if (row->kind == TARN_FIELD_CHOICE)
		lua_pushstring(L, tarn_field_word(row, (size_t)row->otherwise));
	else if (row->kind == TARN_FIELD_SWITCH)
		lua_pushboolean(L, row->otherwise > 0);
	else
		lua_pushnumber(L, row->otherwise);
}

static void push_choices(lua_State *L, const struct tarn_field *row)
{
	const char *word;

	lua_newtable(L);
	for (size_t i = 0; (word = tarn_field_word(row, i)); i++) {
		lua_pushstring(L, word);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
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
		[TARN_FIELD_ANY] = "any",
		[TARN_FIELD_SECTION] = "table",
		[TARN_FIELD_LIST] = "tables",
		[TARN_FIELD_NAMES] = "names",
		[TARN_FIELD_DATE] = "date",
		[TARN_FIELD_COUNTS] = "counts"
	};

	return names[kind];
}

static void push_row(lua_State *L, const struct tarn_field *row)
{
	lua_newtable(L);
	bind_set_text(L, "name", row->name);
	bind_set_text(L, "kind", bind_kind_name(row->kind));
	bind_set_text(L, "unit", row->unit);
	bind_set_text(L, "meaning", row->meaning);
	bind_set(L, "lo", row->lo);
	bind_set(L, "hi", row->hi);
	bind_set_flag(L, "required", row->required);
	push_default(L, row);
	lua_setfield(L, -2, "default");
	push_choices(L, row);
	lua_setfield(L, -2, "choices");
}

void bind_push_reference(lua_State *L, const struct tarn_fields *fields)
{
	lua_newtable(L);
	bind_set_text(L, "section", fields->section);
	for (size_t i = 0; i < fields->count; i++) {
		push_row(L, &fields->rows[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
}

/* ---- a tree of sections ------------------------------------------------------ */

/* Numbers, choices and switches stand in a section's list; all else in its
 * .beside. */
static int is_number(const struct tarn_field *row)
{
	return row->kind == TARN_FIELD_NUMBER ||
	       row->kind == TARN_FIELD_MONTHS ||
	       row->kind == TARN_FIELD_SWITCH ||
	       (row->kind == TARN_FIELD_CHOICE && row->choices);
}

static void push_other(lua_State *L, const struct tarn_field *row)
{
	const char *kind = row->kind == TARN_FIELD_CHOICE
		? "word" : bind_kind_name(row->kind);
	const struct tarn_field *words = row;
	size_t most = row->most;
	double hi = row->hi;

	if (row->kind == TARN_FIELD_TEXT)
		most = row->size - 1;
	if (row->kind == TARN_FIELD_DATE)
		most = 10;
	if (row->kind == TARN_FIELD_COUNTS) {
		words = &row->of->rows[0];
		hi = row->of->rows[1].hi;
	}
	lua_newtable(L);
	bind_set_text(L, "name", row->name);
	bind_set_text(L, "kind", kind);
	bind_set_text(L, "meaning", row->meaning);
	bind_set(L, "least", (double)row->least);
	bind_set(L, "most", (double)most);
	if (row->kind == TARN_FIELD_NUMBERS || row->kind == TARN_FIELD_COUNTS)
		bind_set(L, "hi", hi);
	bind_set_flag(L, "required", row->required);
	bind_set_flag(L, "alone", row->alone);
	if (row->kind == TARN_FIELD_SECTION || row->kind == TARN_FIELD_LIST)
		bind_set_text(L, "of", row->of->section);
	if (tarn_field_word(words, 0)) {
		push_choices(L, words);
		lua_setfield(L, -2, "choices");
	}
}

/* Pushes the section of that name in the list at 'all'; a new one at its end
 * if there is none. */
static void push_section(lua_State *L, int all, const char *name)
{
	lua_Integer count = (lua_Integer)lua_rawlen(L, all);

	for (lua_Integer i = 1; i <= count; i++) {
		lua_rawgeti(L, all, i);
		lua_getfield(L, -1, "section");
		if (strcmp(lua_tostring(L, -1), name) == 0) {
			lua_pop(L, 1);
			return;
		}
		lua_pop(L, 2);
	}
	lua_newtable(L);
	bind_set_text(L, "section", name);
	lua_newtable(L);
	lua_setfield(L, -2, "beside");
	lua_pushvalue(L, -1);
	lua_rawseti(L, all, count + 1);
}

/* Whether the list on top has a row of that name. */
static int has_row(lua_State *L, const char *name)
{
	lua_Integer count = (lua_Integer)lua_rawlen(L, -1);
	int has = 0;

	for (lua_Integer i = 1; i <= count && !has; i++) {
		lua_rawgeti(L, -1, i);
		lua_getfield(L, -1, "name");
		has = strcmp(lua_tostring(L, -1), name) == 0;
		lua_pop(L, 2);
	}
	return has;
}

/* Adds a row to the section on top. */
static void add_row(lua_State *L, const struct tarn_field *row)
{
	lua_pushvalue(L, -1);
	if (!is_number(row))
		lua_getfield(L, -1, "beside");
	if (!has_row(L, row->name)) {
		if (is_number(row))
			push_row(L, row);
		else
			push_other(L, row);
		lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
	}
	lua_settop(L, is_number(row) ? -2 : -3);
}

/* Adds the rows to the section of that name, then the sections in them. */
static void add_tree(lua_State *L, int all, const struct tarn_fields *fields,
		     const char *name)
{
	push_section(L, all, name);
	for (size_t i = 0; i < fields->count; i++)
		if (fields->rows[i].name[0])
			add_row(L, &fields->rows[i]);
		else
			add_tree(L, all, fields->rows[i].of, name);
	lua_pop(L, 1);
	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];

		if (row->name[0] && (row->kind == TARN_FIELD_SECTION ||
				     row->kind == TARN_FIELD_LIST))
			add_tree(L, all, row->of, row->of->section);
	}
}

void bind_push_tree(lua_State *L, const struct tarn_fields *fields)
{
	lua_newtable(L);
	add_tree(L, lua_gettop(L), fields, fields->section);
}
