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
	struct tarn_works works;
	struct tarn_works_flow running;	/* solved; its parts fill the pond */
	struct tarn_build build;
};

/* Reads what the description at 1 says for the sizing of its bed, and the
 * bed's area and water that follow from it; the stack is left at 2. */
void bind_design(lua_State *L, struct tarn_pond *pond);

/* Adds the rows of these sections to the list on top; *n is its length. */
void bind_push_design(lua_State *L, lua_Integer *n);

struct pond_box *bind_check_pond(lua_State *L, int arg);

/* Pushes the section's table of the description at 1; false, and nothing
 * pushed, if it has none. */
int bind_push_section(lua_State *L, const char *name);

/* Shape by tape measure of the basin at 'arg', NULL if it has none. */
const struct tarn_shelved *bind_basin_shape(lua_State *L, int arg);

/* Reads pump.curve, pipes, falls, bay, overflow, storm, catchments. */
void bind_read_works(lua_State *L, struct tarn_works *works);

/* pond:works(), pond:chart(), pond:storm(), pond:takeoff(),
 * pond:profile() */
int bind_pond_works(lua_State *L);
int bind_pond_chart(lua_State *L);
int bind_pond_storm(lua_State *L);
int bind_pond_takeoff(lua_State *L);
int bind_pond_profile(lua_State *L);

/* Adds the metatable of ledgers. */
void bind_ledger(lua_State *L);

/* Ledger at 'arg', borrowed; raises if it is none. */
const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg);

/* Pushes an empty ledger of a pond; the address of its pointer, to be filled by
 * a call of the library.  User value 1 is for the report on evaporation. */
struct tarn_ledger **bind_new_ledger(lua_State *L,
				     const struct tarn_pond *pond);

/* The weather of a ledger, worked out once: a struct tarn_forcing and its
 * columns in one userdata. */
#define FORCING_T "tarn.forcing"
int bind_pond_forcing(lua_State *L);

/*
 * A rule of the user's: a function at a stack index, called before each day
 * with the table at another, which is used again.  An error in it must not
 * jump over the library: the call returns TARN_ESTOP, and the error is on top
 * of the stack, to be raised after.
 */
struct bind_rule {
	lua_State *L;
	int function, day;
};
enum tarn_status bind_ask_rule(void *context, const struct tarn_day_view *view,
			       struct tarn_day_order *order,
			       struct tarn_error *err);

/* pond:run(weather, options), pond:methods(weather) and
 * pond:endurance(weather, options) */
int bind_pond_run(lua_State *L);
int bind_pond_methods(lua_State *L);
int bind_pond_endurance(lua_State *L);

#endif
