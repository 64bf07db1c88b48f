/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_WEATHER_H
#define TARN_BIND_WEATHER_H

#include "bind.h"

/* The weather at 'arg', borrowed from its userdata; raises if it is none or
 * closed.  Valid while the value stays on the stack or is referenced. */
struct tarn_weather *bind_check_weather(lua_State *L, int arg);

/* Pushes an empty weather object; the address of its pointer, to be filled by
 * a call of the library, which it then owns. */
struct tarn_weather **bind_new_weather(lua_State *L);

static inline long bind_last_day(const struct tarn_weather *w)
{
	return tarn_weather_first(w) + (long)tarn_weather_days(w) - 1;
}

/* Fills the names of all columns, then NULL. */
void bind_column_names(const char *out[TARN_COLUMNS + 1]);

/* Index of the column of that name; raises and suggests otherwise. */
enum tarn_column bind_column(lua_State *L, const char *name);

/* Pushes what is told of how evaporation was found: {method =, title =, days =,
 * dew_mm =, origins = {{name =, title =, days =, estimate =}, ...}, count =
 * {[name] = days}}. */
void bind_push_report(lua_State *L, const struct tarn_evaporation_report *r);

/* Pushes the names of the methods that a weather allows, best known first. */
void bind_push_methods(lua_State *L, const struct tarn_weather *w,
		       const struct tarn_evaporation_options *o);

/* Adds tarn.air and tarn.sun to the module table on top. */
void bind_air(lua_State *L);

/* Makes the type of weathers. */
void bind_weather_type(lua_State *L);

#endif
