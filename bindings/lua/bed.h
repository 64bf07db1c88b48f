/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_BED_H
#define TARN_BIND_BED_H

/* What the parts of the bed's binding share. */

#include "bind_call.h"
#include "tarn/bed.h"

/* Density and viscosity at the 'temp' of the table at 1, 20 if nil. */
void bed_water(lua_State *L, const char *section, double *density,
	       double *viscosity);

/* The published rate named by field 'rate' of the table at 'arg', or NULL. */
const struct tarn_rate *bed_rate(lua_State *L, int arg);

/* Results as tables: a sizing, a fit, a stack of layers. */
void bed_push_sizing(lua_State *L, const struct tarn_sizing_result *r);
void bed_push_fit(lua_State *L, const struct tarn_fit *fit);
void bed_push_stone(lua_State *L, const struct tarn_layers *in,
		    const struct tarn_layer_result each[],
		    const struct tarn_layers_result *total);

/* Parts, set as functions of the table on top. */
void bed_bind_formulas(lua_State *L);
void bed_bind_site(lua_State *L);
void bed_bind_size(lua_State *L);

#endif
