/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_FLOW_H
#define TARN_BIND_FLOW_H

/* Shared by flow*.c. */

#include "bind_call.h"

/* What options may say in short, written in full: 'temp' for all pipes that say
 * none; a single pipe's fields beside those of a branch; one pump. */
void flow_adapt_pipes(lua_State *L, struct tarn_values *values,
		      struct tarn_value *options);
void flow_adapt_pump(lua_State *L, struct tarn_values *values,
		     struct tarn_value *options);
void flow_adapt_network(lua_State *L, struct tarn_values *values,
			struct tarn_value *options);

/* Add their functions to the table on top. */
void flow_add_pumps(lua_State *L);
void flow_add_water_ways(lua_State *L);

#endif
