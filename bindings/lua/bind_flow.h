/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_FLOW_H
#define TARN_BIND_FLOW_H

/* Shared by flow*.c and works.c. */

#include "bind_call.h"

/* Block of memory that lives as long as the table at stack index 'keep'. */
void *flow_keep(lua_State *L, int keep, size_t bytes);

/* Length of the list in field 'name' of the table at 'arg'; 0 if it is nil;
 * raises if it is none. */
size_t flow_list(lua_State *L, int arg, const char *section,
		 const char *name);

/* The list of pipes in field 'name'; 'temp_c' where a pipe gives none. */
struct tarn_pipe *flow_read_pipes(lua_State *L, int arg, const char *name,
				  size_t *count, double temp_c, int keep);

/* Add their functions to the table on top. */
void flow_add_pumps(lua_State *L);
void flow_add_water_ways(lua_State *L);

#endif
