/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_FLOW_H
#define TARN_BIND_FLOW_H

/* Shared by flow.c and flow_*.c. */

#include "bind.h"

/* Block of memory that lives as long as the table at stack index 'keep'. */
void *flow_keep(lua_State *L, int keep, size_t bytes);

/* Text at 'arg', raising otherwise. */
const char *flow_text(lua_State *L, int arg, const char *what);

/* Replaces the list at 1 by { name = list }, so that it can be read as a
 * field. */
void flow_wrap_list(lua_State *L, const char *name);

/* Length of the list in field 'name' of the table at 'arg'; 0 if it is nil;
 * raises if it is none. */
size_t flow_list(lua_State *L, int arg, const char *section,
		 const char *name);

/* Numbers of a list field { n, n, ... }; NULL and *count = 0 if nil. */
double *flow_numbers(lua_State *L, int arg, const char *section,
		     const char *name, size_t *count, int keep);

/* Pairs of a list field { {a, b}, {a, b}, ... } into two arrays. */
struct flow_pairs {
	double *first, *second;
	size_t count;
};
struct flow_pairs flow_read_pairs(lua_State *L, int arg, const char *section,
				  const char *name, int keep);

/* The list of pipes in field 'name'; 'temp_c' where a pipe gives none. */
struct tarn_pipe *flow_read_pipes(lua_State *L, int arg, const char *name,
				  size_t *count, double temp_c, int keep);

/* Raises unless 'status' is TARN_OK. */
void flow_check(lua_State *L, enum tarn_status status,
		const struct tarn_error *err);

/* Add their functions to the table on top. */
void flow_add_pumps(lua_State *L);
void flow_add_water_ways(lua_State *L);

#endif
