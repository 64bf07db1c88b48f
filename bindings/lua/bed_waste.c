/* SPDX-License-Identifier: MIT */
/* Waste of fish, ammonia and oxygen. */
#include <stddef.h>

#include "bed.h"

static const struct bed_out waste_out[] = {
	{ "feed_g", offsetof(struct tarn_waste_result, feed_g) },
	{ "nitrogen_g", offsetof(struct tarn_waste_result, nitrogen_g) },
	{ "ammonia_g", offsetof(struct tarn_waste_result, ammonia_g) },
	{ "ammonia_low_g", offsetof(struct tarn_waste_result, ammonia_low_g) },
	{ "ammonia_high_g",
	  offsetof(struct tarn_waste_result, ammonia_high_g) },
	{ "solids_g", offsetof(struct tarn_waste_result, solids_g) },
	{ "phosphorus_g", offsetof(struct tarn_waste_result, phosphorus_g) },
	{ "bod_g", offsetof(struct tarn_waste_result, bod_g) },
	{ "fish_oxygen_g", offsetof(struct tarn_waste_result, fish_oxygen_g) },
	{ "nitrification_oxygen_g",
	  offsetof(struct tarn_waste_result, nitrification_oxygen_g) },
	{ "oxygen_g", offsetof(struct tarn_waste_result, oxygen_g) },
	{ "alkalinity_g", offsetof(struct tarn_waste_result, alkalinity_g) },
};

void bed_push_waste(lua_State *L, const struct tarn_waste_result *r)
{
	lua_createtable(L, 0, (int)BED_COUNT(waste_out));
	bed_push(L, waste_out, BED_COUNT(waste_out), r);
}

/* waste{feed_g =, protein = | fish_kg =, temp =} -> table, per day */
static int l_waste(lua_State *L)
{
	struct tarn_waste w = tarn_waste_default();
	struct tarn_waste_result r;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_waste_fields, &w, NULL);
	if (tarn_waste(&w, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	bed_push_waste(L, &r);
	return 1;
}

/* unionised(ph, temp_c) -> fraction, pKa */
static int l_unionised(lua_State *L)
{
	double ph = bind_number(L, 1, "pH", 4, 12);
	double temp = bind_number(L, 2, "temperature [deg C]", 0, 40);

	lua_pushnumber(L, tarn_unionised(ph, temp));
	lua_pushnumber(L, tarn_ammonia_pka(temp));
	return 2;
}

static const struct bed_out oxygen_out[] = {
	{ "saturation", offsetof(struct tarn_oxygen_result, saturation_mgl) },
	{ "inlet", offsetof(struct tarn_oxygen_result, inlet_mgl) },
	{ "supply_g", offsetof(struct tarn_oxygen_result, supply_g) },
	{ "demand_g", offsetof(struct tarn_oxygen_result, demand_g) },
	{ "outlet", offsetof(struct tarn_oxygen_result, outlet_mgl) },
	{ "ammonia_limit_g",
	  offsetof(struct tarn_oxygen_result, ammonia_limit_g) },
	{ "least_flow", offsetof(struct tarn_oxygen_result, least_flow_m3s) },
};

/* oxygen{flow =, ammonia_g =, bod_g =, ...} -> balance of the bed */
static int l_oxygen(lua_State *L)
{
	struct tarn_oxygen o = tarn_oxygen_default();
	struct tarn_oxygen_result r;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_oxygen_fields, &o, NULL);
	if (tarn_oxygen(&o, &r, &err) != TARN_OK)
		return bind_fail(L, &err, NULL);
	lua_createtable(L, 0, (int)BED_COUNT(oxygen_out) + 2);
	bed_push(L, oxygen_out, BED_COUNT(oxygen_out), &r);
	bed_push_flags(L, r.flags);
	return 1;
}

#define TEMPERATURE { "temperature", "deg C", 0, 40 }

static const struct bind_plain plain[] = {
	{ "appetite", { .one = tarn_appetite }, "-", { TEMPERATURE } },
	{ "total_ammonia", { .three = tarn_total_ammonia }, "mg/L",
	  { { "un-ionised ammonia", "mg/L", 0, 1e6 }, { "pH", "-", 4, 12 },
	    TEMPERATURE } },
	{ "oxygen_saturation", { .two = tarn_oxygen_saturation }, "mg/L",
	  { TEMPERATURE, { "elevation", "m", -430, 6000, 1, 0 } } },
	{ .name = NULL }
};

static const luaL_Reg functions[] = {
	{ "waste", l_waste },
	{ "unionised", l_unionised },
	{ "oxygen", l_oxygen },
	{ NULL, NULL }
};

void bed_bind_waste(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
	bind_add_plain(L, plain);
}
