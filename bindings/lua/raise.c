/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bind.h"

/* One line, whatever a file had in it: control characters become '?'. */
static void push_one_line(lua_State *L, const char *text, size_t n)
{
	luaL_Buffer b;
	char *to = luaL_buffinitsize(L, &b, n);

	for (size_t i = 0; i < n; i++)
		to[i] = (unsigned char)text[i] < 32 || text[i] == 127
			? '?' : text[i];
	luaL_pushresultsize(&b, n);
}

/* Raises what is on top; the runner looks into the registry to see whose
 * mistake an error was. */
BIND_NO_RETURN static void raise_mistake(lua_State *L)
{
	lua_pushvalue(L, -1);
	lua_setfield(L, LUA_REGISTRYINDEX, "tarn.mistake");
	lua_error(L);
	abort();	/* Lua's header does not say that it never returns */
}

int bind_error(lua_State *L, const char *format, ...)
{
	va_list args;
	const char *text;
	size_t n;

	va_start(args, format);
	lua_pushvfstring(L, format, args);
	va_end(args);
	text = lua_tolstring(L, -1, &n);
	push_one_line(L, text, n);
	raise_mistake(L);
}

/* ---- errors of the library: data, with a sentence for who wants none ----- */

#define ERROR_T "tarn.error"

static int l_error_text(lua_State *L)
{
	lua_getfield(L, 1, "text");
	return 1;
}

/* Pushes the sentence. */
static void push_sentence(lua_State *L, const struct tarn_error *err)
{
	if (err->mistake == TARN_MISTAKE_UNKNOWN && err->near[0])
		lua_pushfstring(L, "unknown field '%s': did you mean '%s'?",
				err->field, err->near);
	else if (err->mistake == TARN_MISTAKE_UNKNOWN)
		lua_pushfstring(L, "unknown field '%s'", err->field);
	else if (err->mistake == TARN_MISTAKE_RENAMED)
		lua_pushfstring(L, "'%s' is called '%s' now", err->field,
				err->near);
	else
		lua_pushfstring(L, "%s%s%s", err->field,
				err->field[0] ? " " : "", err->text);
}

/* Pushes 'path:line:column: ', as far as it is known. */
static void push_where(lua_State *L, const struct tarn_error *err,
		       const char *path)
{
	if (path && err->line > 0 && err->column > 0)
		lua_pushfstring(L, "%s:%I:%I: ", path, (LUAI_UACINT)err->line,
				(LUAI_UACINT)err->column);
	else if (path && err->line > 0)
		lua_pushfstring(L, "%s:%I: ", path, (LUAI_UACINT)err->line);
	else if (path)
		lua_pushfstring(L, "%s: ", path);
	else
		lua_pushliteral(L, "");
}

static const char *const mistakes[] = {
	[TARN_MISTAKE_OTHER] = "other",
	[TARN_MISTAKE_MISSING] = "missing",
	[TARN_MISTAKE_RANGE] = "range",
	[TARN_MISTAKE_TYPE] = "type",
	[TARN_MISTAKE_UNKNOWN] = "unknown",
	[TARN_MISTAKE_RENAMED] = "renamed",
	[TARN_MISTAKE_CHOICE] = "choice",
	[TARN_MISTAKE_LENGTH] = "length",
	[TARN_MISTAKE_CONFLICT] = "conflict",
	[TARN_MISTAKE_UNIT] = "unit",
	[TARN_MISTAKE_SYNTAX] = "syntax",
	NULL
};
static const char *const settles[] = {
	[TARN_SETTLE_NONE] = "nothing",
	[TARN_SETTLE_UNITS] = "units",
	[TARN_SETTLE_UNIT] = "unit",
	[TARN_SETTLE_DATES] = "dates",
	[TARN_SETTLE_DATE_FORMAT] = "date_format",
	[TARN_SETTLE_DECIMAL] = "decimal",
	[TARN_SETTLE_COLUMNS] = "columns",
	[TARN_SETTLE_HEADER] = "header",
	[TARN_SETTLE_MISSING] = "missing",
	[TARN_SETTLE_DUPLICATES] = "duplicates",
	[TARN_SETTLE_ORDER] = "order",
	[TARN_SETTLE_HOURS] = "hours",
	[TARN_SETTLE_OUTLIERS] = "outliers",
	[TARN_SETTLE_STATION] = "station",
	[TARN_SETTLE_RAIN] = "rain",
	[TARN_SETTLE_BRIDGE] = "bridge",
	[TARN_SETTLE_PLACE] = "place",
	NULL
};
#define MISTAKE struct tarn_error
static const struct tarn_field error_rows[] = {
	TARN_OUT_CHOICE(MISTAKE, mistake, "mistake", mistakes, "sort of it"),
	TARN_OUT_TEXT(MISTAKE, field, "path", "field at fault"),
	TARN_OUT_TEXT(MISTAKE, near, "near", "name that was meant"),
	TARN_OUT_NUMBER(MISTAKE, found, "found", "-", "in 'unit'"),
	TARN_OUT_NUMBER(MISTAKE, lo, "lo", "-", "least that is accepted"),
	TARN_OUT_NUMBER(MISTAKE, hi, "hi", "-", "most"),
	TARN_OUT_TEXT(MISTAKE, unit, "unit", "of these three"),
	TARN_OUT_CHOICE(MISTAKE, settle, "settle", settles,
			"answer that settles it"),
};
static TARN_FIELDS(error_fields, "error", error_rows);

/* Takes a text from the top into a field of the table below it. */
static void set_one_line(lua_State *L, const char *name)
{
	size_t n;
	const char *text = lua_tolstring(L, -1, &n);

	push_one_line(L, text, n);
	lua_setfield(L, -3, name);
	lua_pop(L, 1);
}

static void set_answers(lua_State *L, const char *answers)
{
	lua_newtable(L);
	for (int i = 1; *answers; i++) {
		size_t n = strcspn(answers, "\t");

		lua_pushlstring(L, answers, n);
		lua_rawseti(L, -2, i);
		answers += n + (answers[n] == '\t');
	}
	lua_setfield(L, -2, "answers");
}

void bind_push_error(lua_State *L, const struct tarn_error *err,
		     const char *path)
{
	bind_push(L, &error_fields, err);
	set_answers(L, err->answers);
	if (path)
		bind_set_text(L, "file", path);
	if (err->line > 0)
		bind_set_count(L, "line", (size_t)err->line);
	if (err->column > 0)
		bind_set_count(L, "column", (size_t)err->column);
	push_sentence(L, err);
	set_one_line(L, "sentence");
	push_where(L, err, path);
	push_sentence(L, err);
	lua_concat(L, 2);
	set_one_line(L, "text");
	if (luaL_newmetatable(L, ERROR_T)) {
		lua_pushcfunction(L, l_error_text);
		lua_setfield(L, -2, "__tostring");
	}
	lua_setmetatable(L, -2);
}

/* Without the place in the script that luaL_error puts before a message. */
int bind_no_memory(lua_State *L)
{
	lua_pushliteral(L, "out of memory");
	lua_error(L);
	abort();
}

int bind_fail(lua_State *L, const struct tarn_error *err, const char *path)
{
	if (err->code == TARN_ENOMEM)
		bind_no_memory(L);
	bind_push_error(L, err, path);
	raise_mistake(L);
}

void bind_must(lua_State *L, enum tarn_status status,
	       const struct tarn_error *err)
{
	if (status != TARN_OK)
		bind_fail(L, err, NULL);
}
