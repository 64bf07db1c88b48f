/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_box.h"
#include "bind_call.h"

static const struct bind_plain temperatures[] = {
	BIND_PLAIN("celsius", one, tarn_celsius, "deg C",
		   BIND_NUMBER("temperature", "deg F", -1e9, 1e9)),
	BIND_PLAIN("fahrenheit", one, tarn_fahrenheit, "deg F",
		   BIND_NUMBER("temperature", "deg C", -1e9, 1e9)),
	{ .name = NULL }
};

/* mistake(text): raises an error that is the user's to mend */
static int l_mistake(lua_State *L)
{
	return bind_error(L, "%s", luaL_checkstring(L, 1));
}

/* nearest(name, list) -> the name in the list that is closest, or nil */
static int l_nearest(lua_State *L)
{
	const char *name = luaL_checkstring(L, 1);
	int best = 4, at = 0;

	luaL_checktype(L, 2, LUA_TTABLE);
	for (int i = 1; i <= (int)lua_rawlen(L, 2); i++) {
		int d;

		lua_rawgeti(L, 2, i);
		d = tarn_name_distance(name, luaL_checkstring(L, -1));
		lua_pop(L, 1);
		if (d < best) {
			best = d;
			at = i;
		}
	}
	lua_rawgeti(L, 2, at);
	return 1;
}

/* spread(list) -> how its numbers spread; false is left out */
static int l_spread(lua_State *L)
{
	struct tarn_spread s;
	size_t count;
	double *x = bind_doubles(L, 1, "numbers", &count);

	s = tarn_spread(x, count);
	bind_push(L, &tarn_spread_fields, &s);
	return 1;
}

void bind_base(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "mistake", l_mistake },
		{ "nearest", l_nearest },
		{ "signature", bind_signature },
		{ "spread", l_spread },
		{ NULL, NULL }
	};
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);

	lua_createtable(L, 0, (int)count + 2);
	for (size_t i = 0; i < count; i++)
		bind_set(L, units[i].name, units[i].factor);
	bind_add_plain(L, temperatures);
	lua_setfield(L, -2, "units");
	bind_set_text(L, "version", tarn_version());
	luaL_setfuncs(L, functions, 0);
}

/* Functions that had another name, by module ("": tarn itself). */
static const struct {
	const char *module, *was, *name;
} renamed[] = {
	{ "", "rule", "control" },
	{ "bed", "regimes", "kinds" },
	{ "bed", "waste_rules", "waste_estimates" },
	{ "study", "sensitivity_design", "sensitivity_samples" },
	{ "bed", "dispersion_tanks", "dispersion_tanks_in_series" },
};

/* (table, name): raises where the function has a new name, else nil */
static int l_renamed(lua_State *L)
{
	const char *module = lua_tostring(L, lua_upvalueindex(1));
	const char *name = lua_tostring(L, 2);

	for (size_t i = 0; name && i < sizeof renamed / sizeof renamed[0]; i++)
		if (strcmp(renamed[i].module, module) == 0 &&
		    strcmp(renamed[i].was, name) == 0)
			return bind_error(L, "tarn.%s%s%s is now tarn.%s%s%s",
					  module, *module ? "." : "", name,
					  module, *module ? "." : "",
					  renamed[i].name);
	return 0;
}

/* Puts l_renamed behind the table on top. */
static void add_renamed(lua_State *L, const char *module)
{
	if (!lua_getmetatable(L, -1))
		lua_createtable(L, 0, 1);
	lua_pushstring(L, module);
	lua_pushcclosure(L, l_renamed, 1);
	lua_setfield(L, -2, "__index");
	lua_setmetatable(L, -2);
}

int luaopen_tarn(lua_State *L)
{
	luaL_checkversion(L);
	lua_newtable(L);
	bind_base(L);
	bind_file(L);
	bind_visible(L);
	bind_budget(L);
	bind_sandbox(L);
	bind_controls(L);
	bind_weather(L);
	bind_flow(L);
	bind_bed(L);
	bind_evaporation(L);
	bind_pond(L);
	bind_works(L);
	bind_finding(L);
	bind_bed_plan(L);
	bind_ledger(L);
	bind_forecast(L);
	bind_season(L);
	bind_leak(L);
	bind_log(L);
	bind_pair(L);
	bind_takeoff(L);
	bind_study(L);
	bind_climate(L);
	lua_getfield(L, -1, "bed");
	add_renamed(L, "bed");
	lua_getfield(L, -2, "study");
	add_renamed(L, "study");
	lua_pop(L, 2);
	add_renamed(L, "");
	return 1;
}
