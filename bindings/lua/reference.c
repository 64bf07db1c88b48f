/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "bind.h"

#define ROW struct tarn_field
static const char *const kinds[] = {
	[TARN_FIELD_NUMBER] = "number",   [TARN_FIELD_MONTHS] = "months",
	[TARN_FIELD_CHOICE] = "choice",   [TARN_FIELD_SWITCH] = "switch",
	[TARN_FIELD_WHOLE] = "whole",	  [TARN_FIELD_COUNT] = "whole",
	[TARN_FIELD_DAY] = "date",	  [TARN_FIELD_TEXT] = "text",
	[TARN_FIELD_STRING] = "text",	  [TARN_FIELD_LINE] = "whole",
	[TARN_FIELD_FLAG] = "switch",	  [TARN_FIELD_FLAGS] = "flags",
	[TARN_FIELD_NUMBERS] = "numbers", [TARN_FIELD_NAMED] = "named",
	[TARN_FIELD_PAIRS] = "pairs",	  [TARN_FIELD_ANY] = "any",
	[TARN_FIELD_SECTION] = "table",	  [TARN_FIELD_LIST] = "tables",
	[TARN_FIELD_NAMES] = "names",	  [TARN_FIELD_DATE] = "date",
	[TARN_FIELD_COUNTS] = "counts"
};

/* A row described as any struct is. */
static const struct tarn_field row_rows[] = {
	TARN_OUT_STRING(ROW, name, "name", "name"),
	TARN_OUT_CHOICE(ROW, kind, "kind", kinds, "kind of value"),
	TARN_OUT_STRING(ROW, unit, "unit", "unit"),
	TARN_OUT_STRING(ROW, meaning, "meaning", "one line"),
	TARN_OUT_NUMBER(ROW, lo, "lo", "-", "least that is accepted"),
	TARN_OUT_NUMBER(ROW, hi, "hi", "-", "most"),
	TARN_OUT_SWITCH(ROW, required, "required", "must be given"),
	TARN_OUT_COUNT(ROW, least, "least", "-", "entries"),
	TARN_OUT_COUNT(ROW, most, "most", "-", "entries, or bytes of a text"),
	TARN_OUT_SWITCH(ROW, alone, "alone", "instead of all else"),
	TARN_OUT_STRING(ROW, was, "was", "name in the version before"),
};
static TARN_FIELDS(row_fields, "row", row_rows);

void bind_push_row(lua_State *L, const struct tarn_field *row)
{
	bind_push(L, &row_fields, row);
}

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

/* Numbers, choices and switches are in a section's list; all else in its
 * .beside. */
static int is_number(const struct tarn_field *row)
{
	return row->kind == TARN_FIELD_NUMBER ||
	       row->kind == TARN_FIELD_MONTHS ||
	       row->kind == TARN_FIELD_SWITCH ||
	       (row->kind == TARN_FIELD_CHOICE && row->choices);
}

/* A row of the tree, with its default, its words, the section of its tables. */
static void push_field(lua_State *L, const struct tarn_field *given)
{
	struct tarn_field row = *given;
	const char *word;

	if (row.kind == TARN_FIELD_TEXT)
		row.most = row.size - 1;
	if (row.kind == TARN_FIELD_DATE)
		row.most = 10;
	if (row.kind == TARN_FIELD_COUNTS) {
		row.word = row.of->rows[0].word;
		row.choices = row.of->rows[0].choices;
		row.hi = row.of->rows[1].hi;
	}
	bind_push_row(L, &row);
	if (row.kind == TARN_FIELD_CHOICE && !row.choices)
		bind_set_text(L, "kind", "word");
	if (row.kind == TARN_FIELD_SECTION || row.kind == TARN_FIELD_LIST)
		bind_set_text(L, "of", row.of->section);
	if (is_number(&row)) {
		push_default(L, &row);
		lua_setfield(L, -2, "default");
	}
	if (!tarn_field_word(&row, 0))
		return;
	lua_newtable(L);
	for (size_t i = 0; (word = tarn_field_word(&row, i)); i++) {
		lua_pushstring(L, word);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "choices");
}

/* ---- a tree of sections ------------------------------------------------------ */

/* Pushes the section of that name in the list at 'all', under which it is there
 * too; a new one at its end if there is none. */
static void push_section(lua_State *L, int all, const char *name)
{
	if (lua_getfield(L, all, name) != LUA_TNIL)
		return;
	lua_pop(L, 1);
	lua_newtable(L);
	bind_set_text(L, "section", name);
	lua_newtable(L);
	lua_setfield(L, -2, "beside");
	lua_pushvalue(L, -1);
	lua_rawseti(L, all, (lua_Integer)lua_rawlen(L, all) + 1);
	lua_pushvalue(L, -1);
	lua_setfield(L, all, name);
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
		push_field(L, row);
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
