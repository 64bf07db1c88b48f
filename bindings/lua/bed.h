/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_BED_H
#define TARN_BIND_BED_H

/* What the parts of the bed's binding share. */

#include "bind_call.h"
#include "tarn/bed.h"

/* Options that stand for others: water at 'temp' for density and viscosity, the
 * published removal rate of that name. */
struct bed_beside {
	double temp_c;
	int rate;		/* in tarn_rates(); -1: none */
};
extern const struct tarn_fields bed_temp_fields, bed_rate_fields;
void bed_water(double temp_c, double *density_kgm3, double *viscosity_pas);
const struct tarn_rate *bed_rate(const struct bed_beside *beside);

/* Results as tables: a sizing, a stack of layers. */
void bed_push_sizing(lua_State *L, const struct tarn_sizing_result *r);
void bed_push_stone(lua_State *L, const struct tarn_layers *in,
		    const struct tarn_layer_result each[],
		    const struct tarn_layers_result *total);

/* Parts, set as functions of the table on top. */
void bed_bind_formulas(lua_State *L);
void bed_bind_site(lua_State *L);
void bed_bind_size(lua_State *L);

#endif
