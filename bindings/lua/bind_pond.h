/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_POND_H
#define TARN_BIND_POND_H

#include "bind.h"

/* Adds tarn.basin to the module table on top. */
void bind_basin(lua_State *L);

/* Basin at 'arg'; raises if it is none. */
const struct tarn_basin *bind_check_basin(lua_State *L, int arg);

/* Pushes a basin made from the field of a description at 'arg'. */
void bind_make_basin(lua_State *L, int arg);

/* Reads a schedule from the table at 'arg' (weekdays, months, open, closed). */
void bind_schedule(lua_State *L, int arg, const char *section,
		   struct tarn_schedule *out);
extern const char *const bind_schedule_names[];

/* A pond that owns its basin; made by tarn.pond. */
#define POND_T "tarn.pond"
struct pond_box {
	struct tarn_pond pond;
};

/* Reads what the description at 1 says for the sizing of its bed, and the
 * bed's area and water that follow from it; the stack is left at 2. */
void bind_design(lua_State *L, struct tarn_pond *pond);

/* Adds the rows of these sections to the list on top; *n is its length. */
void bind_push_design(lua_State *L, lua_Integer *n);

/* Adds the metatable of ledgers. */
void bind_ledger(lua_State *L);

/* Ledger at 'arg', borrowed; raises if it is none. */
const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg);

/* pond:run(weather, options), pond:methods(weather) and
 * pond:endurance(weather, options) */
int bind_pond_run(lua_State *L);
int bind_pond_methods(lua_State *L);
int bind_pond_endurance(lua_State *L);

#endif
