/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_POND_H
#define TARN_BIND_POND_H

#include "bind.h"

/* ---- fields that are no numbers (beside.c) ------------------------------ */

enum bind_kind {
	BIND_TEXT,	/* at most 'most' bytes */
	BIND_WORD,	/* one of the choices */
	BIND_DATE,
	BIND_TABLE,	/* of the fields of section 'of' */
	BIND_TABLES,	/* least to most of these */
	BIND_PAIRS,	/* likewise, of two numbers */
	BIND_NUMBERS,	/* likewise, 0 to BIND_NUMBER_MOST, or false */
	BIND_NAMES,	/* likewise, choices or their numbers from 1 */
	BIND_COUNTS	/* so many at most, by the names of choices */
};

#define BIND_NUMBER_MOST 1000

enum bind_need {
	BIND_OPTIONAL,
	BIND_REQUIRED,
	BIND_ALONE	/* in place of all else in its section */
};

struct bind_beside {
	const char *section, *name;
	enum bind_kind kind;
	const char *of;
	const char *(*choice)(size_t i);	/* NULL past the last */
	size_t least, most;
	enum bind_need need;
	const char *meaning;
};

/* That field, or NULL. */
const struct bind_beside *bind_beside(const char *section, const char *name);

/* Names of the section's fields of this kind, and of the rows 'more' (or
 * NULL), for bind_fields; returns 'out'. */
#define BIND_NAMES_MAX 48
const char *const *bind_beside_names(const char *section,
				     const struct tarn_fields *more,
				     const char *out[BIND_NAMES_MAX]);

/* Pushes the list or nil that the table at 'arg' holds under the name, and
 * returns its length; raises outside the bounds. */
size_t bind_beside_list(lua_State *L, int arg, const char *section,
			const char *name);

/* The text there, or NULL; raises if it is required or too long. */
const char *bind_beside_text(lua_State *L, int arg, const char *section,
			     const char *name);

/* Pushes the list of the section's fields of this kind. */
void bind_push_beside(lua_State *L, const char *section);

/* Adds a described section { section =, rows..., beside = } to the list of
 * them on top; its rows go to the section of that name if there is one. */
void bind_add_reference(lua_State *L, const struct tarn_fields *fields,
			const void *defaults);

/* ------------------------------------------------------------------------- */

/* Adds tarn.basin to the module table on top. */
void bind_basin(lua_State *L);

/* Adds the rows of basins to the list on top. */
void bind_add_basin(lua_State *L);

/* Basin at 'arg'; raises if it is none. */
const struct tarn_basin *bind_check_basin(lua_State *L, int arg);

/* Pushes a basin made from the field of a description at 'arg'. */
void bind_make_basin(lua_State *L, int arg);

/* Reads a schedule from the table at 'arg' (weekdays, months, open, closed). */
void bind_schedule(lua_State *L, int arg, const char *section,
		   struct tarn_schedule *out);

/* A pond that owns its basin; made by tarn.pond. */
#define POND_T "tarn.pond"
struct pond_box {
	struct tarn_pond pond;
	struct tarn_works works;
	struct tarn_works_flow running;	/* solved; its parts fill the pond */
	struct tarn_build build;
};

/* Reads what the description at 1 says for the sizing of its bed, and the
 * bed's area and water that follow from it; the stack is left at 2. */
void bind_design(lua_State *L, struct tarn_pond *pond);

/* The wishes of the description at 1: sections bed, demand, fish, water and
 * treatment. */
struct tarn_bed_wish bind_read_wish(lua_State *L);

/* Adds the rows of these sections to the list on top. */
void bind_add_design(lua_State *L);

struct pond_box *bind_check_pond(lua_State *L, int arg);

/* Pushes the section's table of the description at 1; false, and nothing
 * pushed, if it has none. */
int bind_push_section(lua_State *L, const char *name);

/* Shape by tape measure of the basin at 'arg', NULL if it has none. */
const struct tarn_shelved *bind_basin_shape(lua_State *L, int arg);

/* Reads pump.curve, pipes, falls, bay, overflow, storm, catchments. */
void bind_read_works(lua_State *L, struct tarn_works *works);

/* Ledger at 'arg', borrowed; raises if it is none. */
const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg);

/* Pushes an empty ledger of a pond; the address of its pointer, to be filled by
 * a call of the library.  User value 1 is for the report on evaporation. */
struct tarn_ledger **bind_new_ledger(lua_State *L,
				     const struct tarn_pond *pond);

/* The weather of a ledger, worked out once: a struct tarn_forcing and its
 * columns in one userdata. */
#define FORCING_T "tarn.forcing"
struct forcing_box {
	struct tarn_forcing forcing;
	struct tarn_study_sky sky;	/* what it was worked out from, which
					   user value 2 keeps */
};
/* pond:forcing(weather, options) */
int bind_pond_forcing(lua_State *L);

/*
 * A rule: a function at a stack index, called before each day with the table
 * at another, which is used again; of the state L, or of a box.  An error in it
 * must not jump over the library: the call returns TARN_ESTOP, and the error is
 * on top of that state's stack, to be raised after.
 */
struct bind_rule {
	lua_State *L;
	struct box *box;	/* NULL: none */
	int function, day;
	int failed;		/* status of the call, LUA_OK: none */
};

/* Takes the rule on top of the stack, nil if there is none, and leaves what it
 * needs there; returns whether there is one. */
int bind_take_rule(lua_State *L, struct bind_rule *rule);

/* Raises if the value on top of the stack is neither nil nor a rule. */
void bind_check_rule(lua_State *L);

enum tarn_status bind_ask_rule(void *context, const struct tarn_day_view *view,
			       struct tarn_day_order *order,
			       struct tarn_error *err);

/* Raises the error of a rule: its author's mistake. */
int bind_rule_error(struct bind_rule *rule);

#endif
