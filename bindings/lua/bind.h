/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_H
#define TARN_BIND_H

/*
 * What the wings' bindings share: raising errors, reading described fields,
 * filling result tables.  A binding checks, calls and pushes; it computes
 * nothing.
 *
 * Every mistake of a caller is raised through bind_error, so that the runner
 * can tell it from a fault in a script (exit status 2 from 1).
 */

#include <stdio.h>

#include <lua.h>
#include <lauxlib.h>

#include "tarn.h"

#if defined(__GNUC__)
#define BIND_NO_RETURN __attribute__((noreturn))
#else
#define BIND_NO_RETURN
#endif

/* Raises a message of the user's mistake; as lua_pushfstring.  Never returns
 * (int, so that callers can write return bind_error(...)). */
BIND_NO_RETURN int bind_error(lua_State *L, const char *format, ...);

/* Raises "out of memory", which is nobody's mistake: scripts know it by these
 * very words. */
BIND_NO_RETURN int bind_no_memory(lua_State *L);

/* Raises a library error as a table: mistake ("range", "unknown" ...), path,
 * found, lo, hi, unit, near, settle, answers, file, line, column; the sentence
 * as it is, and as text with file and line before it, which tostring gives;
 * that with 'path:line:column: ' before it where 'path' is given. */
BIND_NO_RETURN int bind_fail(lua_State *L, const struct tarn_error *err,
			     const char *path);

/* Pushes that table. */
void bind_push_error(lua_State *L, const struct tarn_error *err,
		     const char *path);

/* Raises the library's error where a call of it failed. */
void bind_must(lua_State *L, enum tarn_status status,
	       const struct tarn_error *err);

/* Calls a function of the library, whose last parameter is the error; raises
 * that where it fails. */
#define BIND_DO(L, function, ...)                                            \
	do {                                                                 \
		struct tarn_error err_ = { 0 };                              \
		                                                             \
		bind_must(L, function(__VA_ARGS__, &err_), &err_);           \
	} while (0)

/* Adds methods to a type of objects, made here where it is new. */
void bind_methods(lua_State *L, const char *type, const luaL_Reg methods[]);

/* Defines l_free, which frees the library's object that is the first member of
 * a userdata: struct tarn_ledger with tarn_ledger_free for 'ledger'. */
#define BIND_FREE(object, type)                                              \
	static int l_free(lua_State *L)                                      \
	{                                                                    \
		struct tarn_##object **owned = luaL_checkudata(L, 1, type);  \
		                                                             \
		tarn_##object##_free(*owned);                                \
		*owned = NULL;                                               \
		return 0;                                                    \
	}

/* Argument 'arg' as a number in [lo, hi]; 'what' names quantity and unit. */
double bind_number(lua_State *L, int arg, const char *what, double lo,
		   double hi);

/* Makes 'arg' the last argument, an empty table where it is left out. */
void bind_want_table(lua_State *L, int arg);

/* The string at 'arg', its length in *n unless that is NULL; raises if it is
 * none. */
const char *bind_string(lua_State *L, int arg, const char *what, size_t *n);

/*
 * Reads the table at 'arg' into an object by its described fields.  An
 * unknown key raises and suggests the nearest; a value of the wrong type or
 * out of range raises with its name; required ones must be there.  Keys in
 * 'also' (NULL-terminated, or NULL) are left to the caller.
 */
void bind_fields(lua_State *L, int arg, const struct tarn_fields *fields,
		 void *object, const char *const also[]);

/* The same without the look at keys that are no fields. */
void bind_read(lua_State *L, int arg, const struct tarn_fields *fields,
	       void *object);

/* Values that Lua frees, pushed; frees and pops them before that. */
struct tarn_values *bind_new_values(lua_State *L);
void bind_free_values(lua_State *L);

/*
 * Of the number at 'key' in a table of L, copied out of a description: notes
 * the unit that it carried; pushes the table's notes, if it has any, and
 * returns 1; whether the number there, unchanged since, has one.
 */
void bind_mark(lua_State *L, int table, int key, const struct tarn_measure *m);
int bind_push_marks(lua_State *L, int table);
int bind_marked(lua_State *L, int marks, int key, double number,
		struct tarn_measure *out);

/* What is at 'arg', for tarn_fields_read: a table with all that is in it.  Names
 * and texts are Lua's: it must stay where it is. */
struct tarn_value *bind_value(lua_State *L, int arg,
			      struct tarn_values *values);

/* What is on top, popped, as an entry of 'table' with a name, without one of its
 * list; NULL: of no table.  Or an empty table there. */
struct tarn_value *bind_add_value(lua_State *L, struct tarn_values *values,
				  struct tarn_value *table, const char *name);
struct tarn_value *bind_new_table(lua_State *L, struct tarn_values *values,
				  struct tarn_value *table, const char *name);

/* Reads a table into an object with defaults, by its rows; lists that the object
 * borrows live as long as the values. */
void bind_read_value(lua_State *L, const struct tarn_fields *fields,
		     void *object, struct tarn_values *values,
		     const struct tarn_value *table);

/* Reads the value at 'arg' by one row, which has no struct around it. */
void bind_read_one(lua_State *L, int arg, const struct tarn_field *row,
		   void *to);

/* Raises for any key of the table at 'arg' that is in neither list. */
void bind_known(lua_State *L, int arg, const struct tarn_fields *fields,
		const char *const also[]);

/* Field of the table at 'arg' as a number; 'otherwise' where it is nil.
 * Raises "section.name must be lo to hi unit" if it is none or outside. */
double bind_field(lua_State *L, int arg, const char *section,
		  const char *name, const char *unit, double lo, double hi,
		  double otherwise);

/* Field of the table at 'arg' as true or false; 'otherwise' where it is nil. */
int bind_switch(lua_State *L, int arg, const char *name, int otherwise);

/*
 * Length of the list at 'arg', from lo to hi entries.  Raises for anything
 * else: a field that stands where an entry in braces of its own should.
 */
size_t bind_list(lua_State *L, int arg, const char *what, size_t lo,
		 size_t hi);

/*
 * How the character that a text begins with is shown: itself, or "\x1B",
 * "\u{202E}" where a terminal or a page would obey it instead of showing it, or
 * where it is no UTF-8.  Returns the bytes that it takes of the text.
 *   lines   1: ends of lines and tabs are themselves
 */
size_t bind_show(const char *text, size_t bytes, int lines, char out[16],
		 size_t *length);

/* Prints a text so. */
void bind_print(FILE *to, const char *text, size_t bytes, int lines);

/*
 * A list of numbers at 'arg' as a new array of doubles, pushed as a userdata;
 * false stands for NaN.  Raises, naming 'what', for anything else.
 */
double *bind_doubles(lua_State *L, int arg, const char *what, size_t *count);

/* Pushes an array as a list; NaN becomes false. */
void bind_push_doubles(lua_State *L, const double *x, size_t count);

/* Field of the table at 'arg', as bind_doubles; NULL (and nil pushed) if it
 * is not there. */
double *bind_field_doubles(lua_State *L, int arg, const char *name,
			   size_t *count);

/* Set t[name] of the table on top; NaN and TARN_NO_DAY are left nil, a day is a
 * text "YYYY-MM-DD". */
void bind_set(lua_State *L, const char *name, double value);
void bind_set_text(lua_State *L, const char *name, const char *text);
void bind_set_count(lua_State *L, const char *name, size_t count);
void bind_set_int(lua_State *L, const char *name, long value);
void bind_set_flag(lua_State *L, const char *name, int on);
void bind_set_day(lua_State *L, const char *name, long day);

/* Pushes a result as a table by its described rows; what has no value is left
 * nil. */
void bind_push(lua_State *L, const struct tarn_fields *fields,
	       const void *object);

/* Pushes the list of 'count' results, each 'size' bytes; or a table of them by
 * the text of their first row. */
void bind_push_list(lua_State *L, const struct tarn_fields *fields,
		    const void *first, size_t count, size_t size);
void bind_push_named(lua_State *L, const struct tarn_fields *fields,
		     const void *first, size_t count, size_t size);

/* Pushes a list of numbers. */
void bind_push_numbers(lua_State *L, const double x[], size_t count);

/* Sets the rows' fields, or one row's, of the table on top. */
void bind_set_rows(lua_State *L, const struct tarn_fields *fields,
		   const void *object);
void bind_set_row(lua_State *L, const struct tarn_field *row,
		  const void *object);

/* Pushes what a row says of its field: name, kind, unit, meaning ... */
void bind_push_row(lua_State *L, const struct tarn_field *row);

/* Pushes the list of all sections in a tree of rows, each with .beside: the
 * fields that are no numbers. */
void bind_push_tree(lua_State *L, const struct tarn_fields *fields);

/* A day from "YYYY-MM-DD" at 'arg'; raises otherwise. */
long bind_day(lua_State *L, int arg, const char *what);

/* Pushes the table that a JSON description holds; raises with line and
 * column. */
void bind_read_json(lua_State *L, const char *path, const char *text,
		    size_t bytes);

/* Each adds its tables to the module table on top of the stack, or its methods
 * to a type. */
void bind_base(lua_State *L);
void bind_file(lua_State *L);
void bind_visible(lua_State *L);
void bind_sandbox(lua_State *L);
void bind_weather(lua_State *L);
void bind_evaporation(lua_State *L);
void bind_flow(lua_State *L);
void bind_bed(lua_State *L);
void bind_pond(lua_State *L);
void bind_works(lua_State *L);
void bind_finding(lua_State *L);
void bind_bed_plan(lua_State *L);
void bind_ledger(lua_State *L);
void bind_forecast(lua_State *L);
void bind_season(lua_State *L);
void bind_leak(lua_State *L);
void bind_log(lua_State *L);
void bind_pair(lua_State *L);
void bind_takeoff(lua_State *L);
void bind_study(lua_State *L);
void bind_climate(lua_State *L);

TARN_API int luaopen_tarn(lua_State *L);

#endif
