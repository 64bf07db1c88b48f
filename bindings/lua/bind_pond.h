/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_POND_H
#define TARN_BIND_POND_H

#include "bind.h"

/* Adds tarn.basin to the module table on top. */
void bind_basin(lua_State *L);

/* Basin at 'arg'; raises if it is none. */
const struct tarn_basin *bind_check_basin(lua_State *L, int arg);

/* Pushes a basin as described, which is taken from its owner once Lua has a
 * place for it. */
#define BASIN_T "tarn.basin"
void bind_push_basin(lua_State *L, struct tarn_basin **basin,
		     const struct tarn_basin_wish *wish);

/* A pond: its description and what follows from that; made by tarn.pond. */
#define POND_T "tarn.pond"
struct pond_box {
	struct tarn_design *given;	/* owned */
	struct tarn_resolved made;	/* its basin is that of user value 1 */
};

/* Pushes what was found as a list. */
void bind_push_findings(lua_State *L, const struct tarn_findings *list);

struct pond_box *bind_check_pond(lua_State *L, int arg);

/* Turns the numbers that carry units, in the table of a description, into
 * those that were read from it; 'path' of the table, "" at the top. */
void bind_settle_units(lua_State *L, int table, struct tarn_design *given,
		       const char *path);

/* Shape by tape measure of the basin at 'arg', NULL if it has none. */
const struct tarn_shelved *bind_basin_shape(lua_State *L, int arg);

/* Ledger at 'arg', borrowed; raises if it is none. */
const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg);

/* Pushes the weather at 'arg' as the pond takes it, a struct tarn_sky. */
#define FORCING_T "tarn.forcing"
struct tarn_sky *bind_new_forcing(lua_State *L, const struct pond_box *pond,
				  int arg,
				  const struct tarn_run_options *options);

/* Reads the options at 3 of the run of the pond at 1 under the weather at 2;
 * those in 'also' (NULL-terminated, or NULL) are the caller's.  Pushes its
 * forcing. */
struct tarn_sky *bind_read_run(lua_State *L, struct tarn_run_options *o,
			       const char *const also[]);

/*
 * A control: a function at a stack index, called before each day with the table
 * at another, which is used again; of the state L, or of a box.  An error in it
 * must not jump over the library: the call returns TARN_ESTOP, and the error is
 * on top of that state's stack, to be raised after.
 */
struct bind_control {
	lua_State *L;
	struct box *box;	/* NULL: none */
	int function, day;
	int failed;		/* status of the call, LUA_OK: none */
};

/* Takes the control on top of the stack, nil if there is none, into a run, and
 * leaves what it needs there. */
void bind_take_control(lua_State *L, struct bind_control *control,
		       struct tarn_run *run);

/* Pushes what the control on top of the stack is known by: the text of its
 * file, or a function's code (not what it has from outside itself); nil for
 * nil. */
void bind_push_control_text(lua_State *L);

/* Raises if the value on top of the stack is neither nil nor a control. */
void bind_check_control(lua_State *L);

/* Raises the error of a control: its author's mistake. */
int bind_control_error(struct bind_control *control);

#endif
