/* SPDX-License-Identifier: MIT */
/*
 * Results by their described rows: one table an object.  What has no value
 * (NaN, TARN_NO_DAY, a choice below 0, an empty text) is left nil, and so is a
 * section of which nothing has a value.
 */
#include <math.h>
#include <string.h>

#include "bind.h"

/* ---- the table on top of the stack ------------------------------------------ */

void bind_set(lua_State *L, const char *name, double value)
{
	if (isnan(value))
		return;
	lua_pushnumber(L, value);
	lua_setfield(L, -2, name);
}

void bind_set_text(lua_State *L, const char *name, const char *text)
{
	lua_pushstring(L, text);
	lua_setfield(L, -2, name);
}

void bind_set_count(lua_State *L, const char *name, size_t count)
{
	lua_pushinteger(L, (lua_Integer)count);
	lua_setfield(L, -2, name);
}

void bind_set_int(lua_State *L, const char *name, long value)
{
	lua_pushinteger(L, value);
	lua_setfield(L, -2, name);
}

void bind_set_flag(lua_State *L, const char *name, int on)
{
	lua_pushboolean(L, on);
	lua_setfield(L, -2, name);
}

void bind_set_day(lua_State *L, const char *name, long day)
{
	char text[11];

	if (day == TARN_NO_DAY)
		return;
	tarn_day_text(day, text);
	bind_set_text(L, name, text);
}

/* ---- by rows ----------------------------------------------------------------- */

void bind_push_list(lua_State *L, const struct tarn_fields *fields,
		    const void *first, size_t count, size_t size)
{
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		bind_push(L, fields, (const char *)first + i * size);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
}

void bind_push_named(lua_State *L, const struct tarn_fields *fields,
		     const void *first, size_t count, size_t size)
{
	const struct tarn_fields rest = {
		fields->section, fields->rows + 1, fields->count - 1
	};
	const char *name;

	lua_createtable(L, 0, (int)count);
	for (size_t i = 0; i < count; i++) {
		const char *entry = (const char *)first + i * size;

		memcpy(&name, entry + fields->rows[0].offset, sizeof name);
		bind_push(L, &rest, entry);
		lua_setfield(L, -2, name);
	}
}

void bind_push_numbers(lua_State *L, const double x[], size_t count)
{
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
}

void bind_push_doubles(lua_State *L, const double *x, size_t count)
{
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		if (isnan(x[i]))
			lua_pushboolean(L, 0);
		else
			lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
}

static void push_pairs(lua_State *L, const double *x, int count)
{
	lua_createtable(L, count, 0);
	for (int i = 0; i < count; i++) {
		bind_push_numbers(L, x + 2 * i, 2);
		lua_rawseti(L, -2, i + 1);
	}
}

static void set_record(lua_State *L, const struct tarn_field *row,
		       const char *at)
{
	int given = 1;

	if (!row->name[0]) {
		bind_set_rows(L, row->of, at);
		return;
	}
	if (row->count_offset)
		memcpy(&given, at - row->offset + row->count_offset,
		       sizeof given);
	if (!given)
		return;
	bind_push(L, row->of, at);
	lua_pushnil(L);
	if (lua_next(L, -2)) {
		lua_pop(L, 2);
		lua_setfield(L, -2, row->name);
	} else {
		lua_pop(L, 1);
	}
}

/* How many entries a list has; *at becomes its array. */
static size_t list_of(const struct tarn_field *row, const char *object,
		      const void **at)
{
	size_t borrowed;
	int count = 12;

	if (row->owned)
		memcpy(at, object + row->offset, sizeof *at);
	if (row->count_offset == TARN_NO_COUNT)
		return row->most;
	if (row->owned == TARN_BORROWED) {
		memcpy(&borrowed, object + row->count_offset, sizeof borrowed);
		return borrowed;
	}
	if (row->kind != TARN_FIELD_MONTHS)
		memcpy(&count, object + row->count_offset, sizeof count);
	return (size_t)count;
}

/* Sets t[row->name] of the table on top to a list. */
static void set_parts(lua_State *L, const struct tarn_field *row,
		      const char *object)
{
	const void *at = object + row->offset;
	size_t count = list_of(row, object, &at);

	if (row->kind == TARN_FIELD_LIST)
		bind_push_list(L, row->of, at, count, row->size);
	else if (row->kind == TARN_FIELD_PAIRS)
		push_pairs(L, at, (int)count);
	else
		bind_push_numbers(L, at, count);
	lua_setfield(L, -2, row->name);
}

/* Sets t[row->name] to { name = text, ... } of the bits that are set. */
static void set_flags(lua_State *L, const struct tarn_field *row,
		      unsigned bits)
{
	lua_newtable(L);
	for (const struct tarn_flag *f = row->flags; f->name; f++)
		if (bits & f->bit)
			bind_set_text(L, f->name, f->text);
	lua_setfield(L, -2, row->name);
}

/* Sets t[row->name] to { name = number, ... }. */
static void set_named(lua_State *L, const struct tarn_field *row,
		      const char *at)
{
	size_t some = 0;

	lua_newtable(L);
	for (int i = 0; row->choices[i]; i++) {
		double x;

		memcpy(&x, at + (size_t)i * sizeof x, sizeof x);
		bind_set(L, row->choices[i], x);
		some += isnan(x) ? 0 : 1;
	}
	if (some >= row->least)
		lua_setfield(L, -2, row->name);
	else
		lua_pop(L, 1);
}

static void set_whole(lua_State *L, const struct tarn_field *row, int value)
{
	if (row->kind == TARN_FIELD_SWITCH)
		bind_set_flag(L, row->name, value);
	else if (row->kind == TARN_FIELD_WHOLE)
		bind_set_int(L, row->name, value);
	else if (value >= 0)
		bind_set_text(L, row->name,
			      tarn_field_word(row, (size_t)value));
}

void bind_set_row(lua_State *L, const struct tarn_field *row,
		  const void *object)
{
	const char *at = (const char *)object + row->offset;
	const char *text;
	double number;
	size_t count;
	long day;
	unsigned bits;
	int whole;

	switch (row->kind) {
	case TARN_FIELD_NUMBER:
		memcpy(&number, at, sizeof number);
		bind_set(L, row->name, number);
		break;
	case TARN_FIELD_CHOICE:
	case TARN_FIELD_SWITCH:
	case TARN_FIELD_WHOLE:
		memcpy(&whole, at, sizeof whole);
		set_whole(L, row, whole);
		break;
	case TARN_FIELD_COUNT:
		memcpy(&count, at, sizeof count);
		bind_set_count(L, row->name, count);
		break;
	case TARN_FIELD_DAY:
		memcpy(&day, at, sizeof day);
		bind_set_day(L, row->name, day);
		break;
	case TARN_FIELD_TEXT:
		if (*at)
			bind_set_text(L, row->name, at);
		break;
	case TARN_FIELD_STRING:
		memcpy(&text, at, sizeof text);
		if (text)
			bind_set_text(L, row->name, text);
		break;
	case TARN_FIELD_LINE:
		memcpy(&day, at, sizeof day);
		if (day > 0)
			bind_set_int(L, row->name, day);
		break;
	case TARN_FIELD_FLAG:
		memcpy(&bits, at, sizeof bits);
		bind_set_flag(L, row->name, (bits & row->size) != 0);
		break;
	case TARN_FIELD_FLAGS:
		memcpy(&bits, at, sizeof bits);
		set_flags(L, row, bits);
		break;
	case TARN_FIELD_NAMED:
		set_named(L, row, at);
		break;
	case TARN_FIELD_SECTION:
		set_record(L, row, at);
		break;
	default:
		set_parts(L, row, object);
	}
}

void bind_set_rows(lua_State *L, const struct tarn_fields *fields,
		   const void *object)
{
	for (size_t i = 0; i < fields->count; i++)
		bind_set_row(L, &fields->rows[i], object);
}

void bind_push(lua_State *L, const struct tarn_fields *fields,
	       const void *object)
{
	lua_createtable(L, 0, (int)fields->count);
	bind_set_rows(L, fields, object);
}
