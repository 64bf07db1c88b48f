/* SPDX-License-Identifier: MIT */
/* Stand-in until the weather wing's binding is there. */
#include "bind.h"
#include "bind_weather.h"

struct tarn_weather *bind_check_weather(lua_State *L, int arg)
{
	bind_error(L, "argument %d must be a weather", arg);
	return NULL;
}
