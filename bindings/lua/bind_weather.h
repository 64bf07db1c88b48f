/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_WEATHER_H
#define TARN_BIND_WEATHER_H

#include <lua.h>

#include "tarn.h"

/* Weather at 'arg'; raises if it is none. */
struct tarn_weather *bind_check_weather(lua_State *L, int arg);

#endif
