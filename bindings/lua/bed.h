/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_BED_H
#define TARN_BIND_BED_H

/* What the parts of the bed's binding share. */

#include "bind_call.h"
#include "tarn/bed.h"

/* One number of a result struct under its name in scripts. */
struct bed_out {
	const char *name;
	size_t offset;
};

/* Sets the numbers of 'object' in the table on top. */
void bed_push(lua_State *L, const struct bed_out rows[], size_t count,
	      const void *object);

/* Sets t.flags (name -> text) and t.refused in the table on top. */
void bed_push_flags(lua_State *L, unsigned flags);

/* Sets t.source and t.evidence. */
void bed_push_source(lua_State *L, const char *source,
		     enum tarn_evidence evidence);

/* Density and viscosity at the 'temp' of the table at 'arg', 20 if nil. */
void bed_water(lua_State *L, int arg, const char *section, double *density,
	       double *viscosity);

/* The published rate named by field 'rate' of the table at 'arg', or NULL. */
const struct tarn_rate *bed_rate(lua_State *L, int arg);

/* Layers of the list on top, as a userdata left in its place. */
struct tarn_layer *bed_layers(lua_State *L, size_t *count);

/* A rectangular yard, or what holds for all sides of one with corners. */
struct bed_yard_plan {
	double length_m, width_m, setback_m;
};

extern const struct tarn_fields bed_yard_plan_fields;
struct bed_yard_plan bed_yard_plan_default(void);

/* The yard of the table at 'arg'; its corners are put into 'corner'. */
void bed_yard(lua_State *L, int arg, struct tarn_yard *yard,
	      struct tarn_yard_corner corner[TARN_YARD_CORNERS]);

/* Results as tables; a check fills the one on top. */
void bed_push_check(lua_State *L, const struct tarn_bed_check *c);
void bed_push_sizing(lua_State *L, const struct tarn_sizing_result *r);
void bed_push_waste(lua_State *L, const struct tarn_waste_result *r);
void bed_push_fit(lua_State *L, const struct tarn_fit *fit);
void bed_push_stone(lua_State *L, const struct tarn_layers *in,
		    const struct tarn_layer_result each[],
		    const struct tarn_layers_result *total);
void bed_push_chance(lua_State *L, const struct tarn_chance_result *r);

/* Parts, set as functions of the table on top. */
void bed_bind_tables(lua_State *L);
void bed_bind_treatment(lua_State *L);
void bed_bind_waste(lua_State *L);
void bed_bind_gravel(lua_State *L);
void bed_bind_site(lua_State *L);
void bed_bind_size(lua_State *L);

#define BED_COUNT(rows) (sizeof(rows) / sizeof((rows)[0]))

#endif
