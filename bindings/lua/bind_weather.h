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

/* Reads the options table of tarn.weather.read at 'arg' (nil: defaults). */
void bind_csv_map(lua_State *L, int arg, struct tarn_csv_map *map);

/* Index of the column of that name; raises and suggests otherwise. */
enum tarn_column bind_column(lua_State *L, const char *name);

#endif
