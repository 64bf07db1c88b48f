/* SPDX-License-Identifier: MIT */
/* The whole sizing, its trade-off and its uncertainty. */
#include <stddef.h>
#include <stdio.h>

#include "bed.h"

static const char *const size_names[] = { "rate", "layers", NULL };
static const char *const tradeoff_names[] = {
	"rate", "layers", "areas", "depths", "flows", NULL
};

/* Layers, if there are, stay on the stack as long as the struct is used. */
static struct tarn_sizing read_sizing(lua_State *L,
				      const char *const also[])
{
	struct tarn_sizing s = tarn_sizing_default();
	const struct tarn_rate *rate;

	bind_known(L, 1, &tarn_sizing_fields, also);
	bed_water(L, 1, "size", &s.density_kgm3, &s.viscosity_pas);
	bind_fields(L, 1, &tarn_sizing_fields, &s, also);
	rate = bed_rate(L, 1);
	if (rate) {
		tarn_sizing_use(&s, rate);
		bind_fields(L, 1, &tarn_sizing_fields, &s, also);
	}
	if (lua_getfield(L, 1, "layers") != LUA_TNIL)
		s.layer = bed_layers(L, &s.layer_count);
	return s;
}

static const struct bed_out check_out[] = {
	{ "area", offsetof(struct tarn_bed_check, area_m2) },
	{ "depth", offsetof(struct tarn_bed_check, depth_m) },
	{ "flow", offsetof(struct tarn_bed_check, flow_m3s) },
	{ "length", offsetof(struct tarn_bed_check, length_m) },
	{ "width", offsetof(struct tarn_bed_check, width_m) },
	{ "loading", offsetof(struct tarn_bed_check, loading_m_d) },
	{ "loading_factor", offsetof(struct tarn_bed_check, loading_factor) },
	{ "sewage_factor", offsetof(struct tarn_bed_check, sewage_factor) },
	{ "surface_share", offsetof(struct tarn_bed_check, surface_share) },
	{ "volume_share", offsetof(struct tarn_bed_check, volume_share) },
	{ "turnover", offsetof(struct tarn_bed_check, turnover_per_h) },
	{ "volume", offsetof(struct tarn_bed_check, volume_m3) },
	{ "water", offsetof(struct tarn_bed_check, water_m3) },
	{ "mass", offsetof(struct tarn_bed_check, mass_kg) },
	{ "surface", offsetof(struct tarn_bed_check, surface_m2) },
	{ "residence", offsetof(struct tarn_bed_check, residence_s) },
	{ "velocity", offsetof(struct tarn_bed_check, velocity_ms) },
	{ "pore_velocity", offsetof(struct tarn_bed_check,
				    pore_velocity_ms) },
	{ "reynolds", offsetof(struct tarn_bed_check, reynolds) },
	{ "clean", offsetof(struct tarn_bed_check, clean_m) },
	{ "clogged", offsetof(struct tarn_bed_check, clogged_m) },
	{ "rise", offsetof(struct tarn_bed_check, rise_m) },
	{ "head_needed", offsetof(struct tarn_bed_check, head_needed_m) },
	{ "k_m_d", offsetof(struct tarn_bed_check, k_m_d) },
	{ "extrapolation", offsetof(struct tarn_bed_check, extrapolation) },
	{ "pond", offsetof(struct tarn_bed_check, pond_mgl) },
	{ "pond_per_day", offsetof(struct tarn_bed_check, pond_per_day) },
	{ "outlet", offsetof(struct tarn_bed_check, outlet_mgl) },
	{ "oxygen_out", offsetof(struct tarn_bed_check, oxygen_out_mgl) },
	{ "oxygen_supply_g", offsetof(struct tarn_bed_check,
				      oxygen_supply_g) },
	{ "oxygen_demand_g", offsetof(struct tarn_bed_check,
				      oxygen_demand_g) },
	{ "bod_g_m2", offsetof(struct tarn_bed_check, bod_g_m2) },
	{ "solids_g_m2", offsetof(struct tarn_bed_check, solids_g_m2) },
	{ "section_bod_g_m2", offsetof(struct tarn_bed_check,
				       section_bod_g_m2) },
};

/* Fills the table on top. */
void bed_push_check(lua_State *L, const struct tarn_bed_check *c)
{
	bed_push(L, check_out, BED_COUNT(check_out), c);
	if (!isnan(c->reynolds))
		bind_set_text(L, "flow_regime", tarn_flow_regime_name(
			(enum tarn_flow_regime)c->flow_regime));
	bed_push_flags(L, c->flags);
}

static void push_methods(lua_State *L, const struct tarn_sizing_result *r)
{
	lua_Integer n = 0;

	lua_newtable(L);
	for (int m = 0; m < TARN_SIZE_RULES; m++) {
		const struct tarn_size_rule_info *info =
			tarn_size_rule_info((enum tarn_size_rule)m);

		if (isnan(r->area_m2[m]))
			continue;
		lua_createtable(L, 0, 5);
		bind_set_text(L, "name", info->name);
		bind_set_text(L, "meaning", info->meaning);
		bind_set(L, "area", r->area_m2[m]);
		bed_push_source(L, NULL, info->evidence);
		bind_set_flag(L, "governs", m == r->governs);
		lua_seti(L, -2, ++n);
	}
	lua_setfield(L, -2, "methods");
}

static void push_regimes(lua_State *L, const struct tarn_sizing_result *r)
{
	size_t count;
	const struct tarn_loading_regime *all = tarn_loading_regimes(&count);

	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 3);
		bind_set_text(L, "name", all[i].name);
		bind_set(L, "low", r->regime_lo_m2[i]);
		bind_set(L, "high", r->regime_hi_m2[i]);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, "regimes");
}

void bed_push_sizing(lua_State *L, const struct tarn_sizing_result *r)
{
	lua_createtable(L, 0, 44);
	bed_push_check(L, &r->bed);
	push_methods(L, r);
	push_regimes(L, r);
	bind_set(L, "needed", r->needed_m2);
	bind_set(L, "least_flow", r->least_flow_m3s);
	if (r->governs >= 0)
		bind_set_text(L, "governs", tarn_size_rule_info(
			(enum tarn_size_rule)r->governs)->name);
}

/* size{flow =, loading =, ...} -> the bed, with methods and what governs */
static int l_size(lua_State *L)
{
	struct tarn_sizing s = read_sizing(L, size_names);
	struct tarn_sizing_result r;
	struct tarn_error err = { 0 };

	if (tarn_sizing(&s, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	bed_push_sizing(L, &r);
	return 1;
}

/* Numbers of list 'name' of the table at 1, as a userdata left on top. */
static double *read_axis(lua_State *L, const char *name, size_t *count)
{
	double *to;

	if (lua_getfield(L, 1, name) != LUA_TTABLE || lua_rawlen(L, -1) == 0)
		bind_error(L, "%s must be a list of numbers", name);
	*count = (size_t)lua_rawlen(L, -1);
	if (*count > 10000)
		bind_error(L, "%s must have at most 10000 entries", name);
	to = lua_newuserdatauv(L, *count * sizeof *to, 0);
	for (size_t i = 0; i < *count; i++) {
		lua_geti(L, -2, (lua_Integer)i + 1);
		to[i] = bind_number(L, -1, name, 0, 1e7);
		lua_pop(L, 1);
	}
	lua_remove(L, -2);
	return to;
}

/* tradeoff{areas = {...}, depths = {...}, flows = {...}, ...} -> list of
 * cells, flow fastest */
static int l_tradeoff(lua_State *L)
{
	struct tarn_sizing s = read_sizing(L, tradeoff_names);
	struct tarn_tradeoff axes;
	struct tarn_bed_check *cells;
	struct tarn_error err = { 0 };
	size_t count;

	axes.area_m2 = read_axis(L, "areas", &axes.areas);
	axes.depth_m = read_axis(L, "depths", &axes.depths);
	axes.flow_m3s = read_axis(L, "flows", &axes.flows);
	count = axes.areas * axes.depths * axes.flows;
	if (count > 1000000)
		return bind_error(L, "a trade-off has at most 1000000 cells, "
				  "this one has %I", (LUAI_UACINT)count);
	cells = lua_newuserdatauv(L, count * sizeof *cells, 0);
	if (tarn_tradeoff(&s, &axes, cells, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_createtable(L, 0, 37);
		bed_push_check(L, &cells[i]);
		lua_seti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

static void push_percentiles(lua_State *L, const char *name,
			     const double values[TARN_PERCENTILES])
{
	if (isnan(values[0]))
		return;
	lua_createtable(L, 0, TARN_PERCENTILES);
	for (int p = 0; p < TARN_PERCENTILES; p++) {
		char key[16];

		snprintf(key, sizeof key, "p%.0f", tarn_percentiles[p]);
		bind_set(L, key, values[p]);
	}
	lua_setfield(L, -2, name);
}

void bed_push_chance(lua_State *L, const struct tarn_chance_result *r)
{
	lua_createtable(L, 0, 5);
	push_percentiles(L, "pond", r->pond_mgl);
	push_percentiles(L, "outlet", r->outlet_mgl);
	push_percentiles(L, "residence", r->residence_s);
	push_percentiles(L, "clogged", r->clogged_m);
	bind_set(L, "refused", r->refused);
}

/* chance{samples =, k_cv =, ..., bed = {...}} -> percentiles */
static int l_chance(lua_State *L)
{
	static const char *const also[] = { "bed", NULL };
	struct tarn_chance chance = tarn_chance_default();
	struct tarn_chance_result r;
	struct tarn_sizing s;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_chance_fields, &chance, also);
	if (lua_getfield(L, 1, "bed") != LUA_TTABLE)
		return bind_error(L, "chance.bed must be a table as for "
				  "tarn.bed.size, with area");
	lua_replace(L, 1);
	s = read_sizing(L, size_names);
	if (tarn_chance(&s, &chance, NULL, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	bed_push_chance(L, &r);
	return 1;
}

static const luaL_Reg functions[] = {
	{ "size", l_size },
	{ "tradeoff", l_tradeoff },
	{ "chance", l_chance },
	{ NULL, NULL }
};

void bed_bind_size(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
}
