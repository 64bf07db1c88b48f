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

static double check_temp(lua_State *L, int arg)
{
	return bind_number(L, arg, "temperature [deg C]", 0, 40);
}

/* appetite(temp_c) -> share of the full ration */
static int l_appetite(lua_State *L)
{
	lua_pushnumber(L, tarn_appetite(check_temp(L, 1)));
	return 1;
}

/* unionised(ph, temp_c) -> fraction, pKa */
static int l_unionised(lua_State *L)
{
	double ph = bind_number(L, 1, "pH", 4, 12);
	double temp = check_temp(L, 2);

	lua_pushnumber(L, tarn_unionised(ph, temp));
	lua_pushnumber(L, tarn_ammonia_pka(temp));
	return 2;
}

/* total_ammonia(unionised, ph, temp_c) -> same unit */
static int l_total_ammonia(lua_State *L)
{
	double free = bind_number(L, 1, "un-ionised ammonia", 0, 1e6);
	double ph = bind_number(L, 2, "pH", 4, 12);

	lua_pushnumber(L, tarn_total_ammonia(free, ph, check_temp(L, 3)));
	return 1;
}

/* oxygen_saturation(temp_c [, elevation_m]) -> mg/L */
static int l_oxygen_saturation(lua_State *L)
{
	double temp = check_temp(L, 1);
	double elevation = lua_isnoneornil(L, 2) ? 0
		: bind_number(L, 2, "elevation [m]", -430, 6000);

	lua_pushnumber(L, tarn_oxygen_saturation(temp, elevation));
	return 1;
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

static const luaL_Reg functions[] = {
	{ "waste", l_waste },
	{ "appetite", l_appetite },
	{ "unionised", l_unionised },
	{ "total_ammonia", l_total_ammonia },
	{ "oxygen_saturation", l_oxygen_saturation },
	{ "oxygen", l_oxygen },
	{ NULL, NULL }
};

void bed_bind_waste(lua_State *L)
{
	luaL_setfuncs(L, functions, 0);
}
