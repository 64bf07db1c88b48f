/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed.h"

void bed_push(lua_State *L, const struct bed_out rows[], size_t count,
	      const void *object)
{
	for (size_t i = 0; i < count; i++) {
		double x;

		memcpy(&x, (const char *)object + rows[i].offset, sizeof x);
		bind_set(L, rows[i].name, x);
	}
}

void bed_push_flags(lua_State *L, unsigned flags)
{
	size_t count;
	const struct tarn_flag *all = tarn_bed_flags(&count);

	lua_newtable(L);
	for (size_t i = 0; i < count; i++)
		if (flags & all[i].bit)
			bind_set_text(L, all[i].name, all[i].text);
	lua_setfield(L, -2, "flags");
	bind_set_flag(L, "refused", (flags & TARN_BED_REFUSALS) != 0);
}

void bed_push_source(lua_State *L, const char *source,
		     enum tarn_evidence evidence)
{
	if (source)
		bind_set_text(L, "source", source);
	bind_set_text(L, "evidence", tarn_evidence_text(evidence));
}

void bed_water(lua_State *L, int arg, const char *section, double *density,
	       double *viscosity)
{
	double temp = bind_field(L, arg, section, "temp", "deg C", 0, 40, 20);

	struct tarn_water water = tarn_water(temp);

	*density = water.density_kgm3;
	*viscosity = water.viscosity_pas;
}

const struct tarn_rate *bed_rate(lua_State *L, int arg)
{
	size_t count;
	const struct tarn_rate *all = tarn_rates(&count), *rate = NULL;
	const char *name = NULL, *near = all[0].name;

	if (lua_getfield(L, arg, "rate") != LUA_TNIL) {
		name = luaL_tolstring(L, -1, NULL);
		rate = tarn_rate_find(name);
		for (size_t i = 0; i < count; i++)
			if (tarn_name_distance(name, all[i].name) <
			    tarn_name_distance(name, near))
				near = all[i].name;
		if (!rate)
			bind_error(L, "rate '%s' is not in tarn.bed.rates(): "
				   "did you mean '%s'?", name, near);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return rate;
}

void bind_bed(lua_State *L)
{
	lua_newtable(L);
	bed_bind_tables(L);
	bed_bind_treatment(L);
	bed_bind_waste(L);
	bed_bind_gravel(L);
	bed_bind_site(L);
	bed_bind_size(L);
	lua_setfield(L, -2, "bed");
}
