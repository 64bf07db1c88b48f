/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_BOX_H
#define TARN_BIND_BOX_H

#include <time.h>

#include "bind.h"

/*
 * What somebody else wrote runs in a Lua state of its own (sandbox.c): the
 * units, and limits on steps, time and memory.
 */
struct limits {
	size_t bytes;
	long instructions;
	clock_t start;
	const char *what;	/* is run: "description" */
	const char *broken;	/* which limit; NULL: none */
};

/* The state and what its allocator counts live and die together. */
#define BOX_T "tarn.box"
struct box {
	lua_State *state;
	int plain_units;	/* 1: its units are numbers */
	int strict;		/* 1: a name that nothing has is a mistake */
	struct limits limits;
};

/* Pushes a new box; its user value is for the text of what it runs. */
struct box *bind_new_box(lua_State *L, const char *what);

/* Its steps and its time are counted from now on. */
void bind_begin_box(struct box *box);

/* Runs a text in it; its result is on the box's stack.  Raises with the
 * reason, which begins with the path. */
void bind_run_box(lua_State *L, struct box *box, const char *path,
		  const char *text, size_t bytes);

/* ---- the words for a text that is none (wrong_text.c) */

/* Raises where a file is a workbook, an archive, UTF-16, or empty. */
void bind_check_text(lua_State *L, const char *path, const char *text,
		     size_t bytes);

/* Makes a name that nothing has a mistake in a box; a lua_CFunction. */
int bind_strict(lua_State *box);

/* Raises Lua's complaint about a text, in words that say what to do where it is
 * a known one. */
int bind_fail_text(lua_State *L, const char *path, const char *why,
		   const char *text);

/* Pushes "there is no unit 'feet': did you mean 'ft'?", or how a word is
 * written. */
const char *bind_push_no_unit(lua_State *L, const char *name);

/* ---- the slip that a line shows (wrong_line.c); it need not end in '\0' */

int bind_typeset_quote(const char *line, size_t length);

/* Whether a mark of feet or inches stands in it, as in 5'3". */
int bind_feet_mark(const char *line, size_t length);

/* Pushes the cure of what stands before 'near', where Lua stopped, or at the
 * line's begin; NULL where it shows none. */
const char *bind_push_slip(lua_State *L, const char *line, size_t length,
			   const char *why, const char *near);

/* Text of a whole file on top of L; raises with the reason. */
const char *bind_box_text(lua_State *L, const char *path, size_t *bytes);

/* Why a call in it failed: on top of its stack, or the limit. */
const char *bind_box_reason(lua_State *L, struct box *box);

/* Whether a file is not the script that it is taken for, but one to be read:
 * then the message that says so is on top.  A file that cannot be read is no
 * matter here. */
int bind_mistaken(lua_State *L, const char *path);

/* Opens the units in a box as numbers that carry them (measure.c); a
 * lua_CFunction. */
int bind_open_units(lua_State *box);

/* The measure at an index of a box, or NULL. */
const struct tarn_measure *bind_measure(lua_State *box, int at);

/* So many seconds of the processor may files of others take together; then the
 * program ends (budget.c).  Without this they are not limited. */
void bind_budget_allow(double seconds);

/* Calls the function at 1 with all above it within that time; 'path' names the
 * file, or is NULL: the last one.  Returns the count of results. */
int bind_budgeted(lua_State *L, const char *path);

/* Adds tarn.budgeted to the module table on top. */
void bind_budget(lua_State *L);

/* Adds tarn.control to the module table on top. */
void bind_controls(lua_State *L);

#endif
