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

static void set_data(lua_State *L, const struct tarn_error *err)
{
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
		[TARN_MISTAKE_SYNTAX] = "syntax"
	};

	bind_set_text(L, "mistake", mistakes[err->mistake]);
	if (err->field[0])
		bind_set_text(L, "path", err->field);
	if (err->near[0])
		bind_set_text(L, "near", err->near);
	if (err->mistake == TARN_MISTAKE_RANGE)
		bind_set(L, "found", err->found);
	if (err->unit[0]) {
		bind_set_text(L, "unit", err->unit);
		bind_set(L, "lo", err->lo);
		bind_set(L, "hi", err->hi);
	}
}

int bind_fail(lua_State *L, const struct tarn_error *err, const char *path)
{
	const char *text;
	size_t n;

	if (err->code == TARN_ENOMEM) {
		luaL_error(L, "out of memory");
		abort();
	}
	lua_newtable(L);
	set_data(L, err);
	push_where(L, err, path);
	push_sentence(L, err);
	lua_concat(L, 2);
	text = lua_tolstring(L, -1, &n);
	push_one_line(L, text, n);
	lua_setfield(L, -3, "text");
	lua_pop(L, 1);
	if (luaL_newmetatable(L, ERROR_T)) {
		lua_pushcfunction(L, l_error_text);
		lua_setfield(L, -2, "__tostring");
	}
	lua_setmetatable(L, -2);
	raise_mistake(L);
}

void bind_must(lua_State *L, enum tarn_status status,
	       const struct tarn_error *err)
{
	if (status != TARN_OK)
		bind_fail(L, err, NULL);
}

/* "%.6g", which lua_pushfstring does not have. */
static const char *show(char text[32], double x)
{
	snprintf(text, 32, "%.6g", x);
	return text;
}

static int fail_range(lua_State *L, const char *what, double lo, double hi,
		      double got)
{
	char a[32], b[32], c[32];

	return bind_error(L, "%s must be %s to %s, got %s", what, show(a, lo),
			  show(b, hi), show(c, got));
}

double bind_number(lua_State *L, int arg, const char *what, double lo,
		   double hi)
{
	double x;

	if (lua_type(L, arg) == LUA_TSTRING)
		bind_error(L, "%s must be a number, got the text \"%s\": a unit "
			   "is a factor, as in 16 * ft", what,
			   lua_tostring(L, arg));
	if (lua_type(L, arg) != LUA_TNUMBER)
		bind_error(L, "%s must be a number, got %s", what,
			   luaL_typename(L, arg));
	x = lua_tonumber(L, arg);
	if (!(x >= lo && x <= hi))	/* false for NaN too */
		fail_range(L, what, lo, hi, x);
	return x;
}

void bind_want_table(lua_State *L, int arg)
{
	lua_settop(L, arg);
	if (!lua_isnil(L, arg))
		return;
	lua_newtable(L);
	lua_replace(L, arg);
}

const char *bind_string(lua_State *L, int arg, const char *what, size_t *n)
{
	if (lua_type(L, arg) != LUA_TSTRING)
		bind_error(L, "%s must be a string, got %s", what,
			   luaL_typename(L, arg));
	return lua_tolstring(L, arg, n);
}

int bind_listed(const char *const names[], const char *name)
{
	for (size_t i = 0; names && names[i]; i++)
		if (strcmp(names[i], name) == 0)
			return 1;
	return 0;
}

/* Keeps the nearer of two names, and how far it is. */
static void nearer(const char *name, const char *have, const char **best,
		   int *least)
{
	int d = tarn_name_distance(name, have);

	if (d >= *least)
		return;
	*least = d;
	*best = have;
}

const char *bind_nearest(const struct tarn_fields *fields,
			 const char *const also[], const char *name)
{
	const char *best = NULL;
	int least = 4;

	for (size_t i = 0; fields && i < fields->count; i++)
		nearer(name, fields->rows[i].name, &best, &least);
	for (size_t i = 0; also && also[i]; i++)
		nearer(name, also[i], &best, &least);
	return best;
}

void bind_known(lua_State *L, int arg, const struct tarn_fields *fields,
		const char *const also[])
{
	const char *section = fields ? fields->section : "";

	if (lua_type(L, arg) != LUA_TTABLE)
		bind_error(L, "%s must be a table of fields, got %s",
			   section[0] ? section : "argument",
			   luaL_typename(L, arg));
	for (lua_pushnil(L); lua_next(L, arg); lua_pop(L, 1)) {
		/* never lua_tostring a key that is no string: it changes it */
		const char *key = lua_type(L, -2) == LUA_TSTRING
			? lua_tostring(L, -2) : NULL;
		const char *best;

		if (!key)
			bind_error(L, "%s%shas an entry without a name "
				   "(expected name = value)", section,
				   section[0] ? " " : "");
		if (bind_listed(also, key) ||
		    (fields && tarn_fields_find(fields, key)))
			continue;
		best = tarn_name_now(section, key);
		if (best)
			bind_error(L, "'%s%s%s' is called '%s' now", section,
				   section[0] ? "." : "", key, best);
		best = bind_nearest(fields, also, key);
		if (best)
			bind_error(L, "unknown field '%s%s%s': did you mean "
				   "'%s'?", section, section[0] ? "." : "",
				   key, best);
		bind_error(L, "unknown field '%s%s%s'", section,
			   section[0] ? "." : "", key);
	}
}

const char *bind_full_name(lua_State *L, const char *section, const char *name)
{
	return lua_pushfstring(L, "%s%s%s", section, section[0] ? "." : "",
			       name);
}

double bind_field(lua_State *L, int arg, const char *section,
		  const char *name, const char *unit, double lo, double hi,
		  double otherwise)
{
	double x = otherwise;

	arg = lua_absindex(L, arg);
	if (lua_getfield(L, arg, name) != LUA_TNIL) {
		lua_pushfstring(L, unit[0] ? "%s [%s]" : "%s",
				bind_full_name(L, section, name), unit);
		x = bind_number(L, -3, lua_tostring(L, -1), lo, hi);
		lua_pop(L, 2);
	}
	lua_pop(L, 1);
	return x;
}

int bind_switch(lua_State *L, int arg, const char *name, int otherwise)
{
	int type = lua_getfield(L, arg, name);
	int on = type == LUA_TNIL ? otherwise : lua_toboolean(L, -1);

	if (type != LUA_TNIL && type != LUA_TBOOLEAN)
		bind_error(L, "%s must be true or false", name);
	lua_pop(L, 1);
	return on;
}

size_t bind_list(lua_State *L, int arg, const char *what, size_t lo,
		 size_t hi)
{
	size_t count;

	arg = lua_absindex(L, arg);
	if (lua_type(L, arg) != LUA_TTABLE)
		bind_error(L, "%s must be a list, got %s", what,
			   luaL_typename(L, arg));
	count = lua_rawlen(L, arg);
	for (lua_pushnil(L); lua_next(L, arg); lua_pop(L, 1))
		if (!lua_isinteger(L, -2) || lua_tointeger(L, -2) < 1 ||
		    (size_t)lua_tointeger(L, -2) > count)
			bind_error(L, "%s must be a list, each entry in braces "
				   "of its own; '%s' stands between them", what,
				   luaL_tolstring(L, -2, NULL));
	if (count < lo || count > hi)
		bind_error(L, "%s must be a list of %d to %d entries, got %d",
			   what, (int)lo, (int)hi, (int)count);
	return count;
}

long bind_day(lua_State *L, int arg, const char *what)
{
	long day = TARN_NO_DAY;

	if (lua_type(L, arg) == LUA_TSTRING)
		day = tarn_day_parse(lua_tostring(L, arg));
	if (day == TARN_NO_DAY)
		bind_error(L, "%s must be a date \"YYYY-MM-DD\" from 1800 to "
			   "2200, got %s", what, luaL_tolstring(L, arg, NULL));
	return day;
}
