/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_weather.h"

/* ---- one day ------------------------------------------------------------- */

static void push_rules(lua_State *L, unsigned rules)
{
	int n = 0;

	lua_newtable(L);
	for (int k = 0; k < TARN_RULES; k++)
		if (rules & 1u << k) {
			lua_pushstring(L, tarn_rule_info((enum tarn_rule)k)
						  ->name);
			lua_rawseti(L, -2, ++n);
		}
}

static const char *const no_fields[] = { NULL };
static const char *const wind_field[] = { "wind", NULL };

/* Pushes mm/d and the names of the rules that found it. */
static int push_day(lua_State *L, enum tarn_method method, int want_grass,
		    const char *const also[])
{
	struct tarn_evaporation_day day = tarn_evaporation_day_default();
	struct tarn_error err = { 0 };
	double open, grass;
	unsigned rules;

	bind_fields(L, 1, &tarn_evaporation_day_fields, &day, also);
	bind_must(L, tarn_evaporation_of_day(&day, method, &open, &grass,
					     &rules, &err), &err);
	lua_pushnumber(L, want_grass ? grass : open);
	push_rules(L, rules);
	return 2;
}

static int l_grass(lua_State *L)
{
	return push_day(L, TARN_GRASS, 1, no_fields);
}

static int l_hargreaves(lua_State *L)
{
	return push_day(L, TARN_HARGREAVES, 1, no_fields);
}

static int l_priestley_taylor(lua_State *L)
{
	return push_day(L, TARN_PRIESTLEY_TAYLOR, 0, no_fields);
}

static int l_mass_transfer(lua_State *L)
{
	return push_day(L, TARN_MASS_TRANSFER, 0, no_fields);
}

/* wind = "1956" (default) or "1948" */
static int l_open_water(lua_State *L)
{
	enum tarn_method method = TARN_PENMAN_1956;

	bind_known(L, 1, &tarn_evaporation_day_fields, wind_field);
	if (lua_getfield(L, 1, "wind") != LUA_TNIL) {
		const char *wind = luaL_tolstring(L, -1, NULL);

		if (strcmp(wind, "1948") == 0)
			method = TARN_PENMAN_1948;
		else if (strcmp(wind, "1956") != 0)
			bind_error(L, "day.wind must be \"1956\" or \"1948\", "
				   "got %s", wind);
	}
	return push_day(L, method, 0, wind_field);
}

static int l_conditions(lua_State *L)
{
	struct tarn_evaporation_day day = tarn_evaporation_day_default();
	struct tarn_conditions c;
	struct tarn_error err = { 0 };

	bind_fields(L, 1, &tarn_evaporation_day_fields, &day, NULL);
	bind_must(L, tarn_conditions_of(&day, &c, &err), &err);
	bind_push(L, &tarn_conditions_fields, &c);
	push_rules(L, c.rules);
	lua_setfield(L, -2, "rules");
	return 1;
}

/* ---- pans and plants ----------------------------------------------------- */

struct field {
	const char *name, *unit;
	double lo, hi;
};

/* Reads fields that must all be there, in their order. */
static void need(lua_State *L, const char *section,
		 const struct field *fields, int count, double *out)
{
	for (int i = 0; i < count; i++) {
		const struct field *f = &fields[i];

		out[i] = bind_field(L, 1, section, f->name, f->unit, f->lo,
				    f->hi, TARN_NAN);
		if (isnan(out[i]))
			bind_error(L, "%s.%s is missing: give it in %s",
				   section, f->name, f->unit);
	}
}

static int l_pan_to_grass(lua_State *L)
{
	static const char *const pans[] = {
		"class_a_green", "class_a_dry", "colorado_green",
		"colorado_dry", NULL
	};
	static const char *const names[] = {
		"pan", "wind_2m", "rh_mean", "fetch", NULL
	};
	static const struct field fields[] = {
		{ "wind_2m", "m/s", TARN_PAN_WIND_MIN, TARN_PAN_WIND_MAX },
		{ "rh_mean", "%", TARN_PAN_RH_MIN, TARN_PAN_RH_MAX },
		{ "fetch", "m", TARN_PAN_FETCH_MIN, TARN_PAN_FETCH_MAX },
	};
	double x[3];
	const char *pan;
	int i = 0;

	bind_known(L, 1, NULL, names);
	lua_getfield(L, 1, "pan");
	pan = luaL_tolstring(L, -1, NULL);
	while (pans[i] && strcmp(pans[i], pan) != 0)
		i++;
	if (!pans[i])
		bind_error(L, "pan_to_grass.pan must be \"class_a_green\", "
			   "\"class_a_dry\", \"colorado_green\" or "
			   "\"colorado_dry\", got %s", pan);
	need(L, "pan_to_grass", fields, 3, x);
	lua_pushnumber(L, tarn_pan_to_grass((enum tarn_pan)i, x[0], x[1],
					    x[2]));
	return 1;
}

static int l_plant_factor(lua_State *L)
{
	static const char *const names[] = {
		"factor", "wind_2m", "rh_min", "height", NULL
	};
	static const struct field fields[] = {
		{ "factor", "-", 0, TARN_PLANT_FACTOR_MAX },
		{ "wind_2m", "m/s", TARN_PLANT_WIND_MIN, TARN_PLANT_WIND_MAX },
		{ "rh_min", "%", TARN_PLANT_RH_MIN, TARN_PLANT_RH_MAX },
		{ "height", "m", TARN_PLANT_HEIGHT_MIN,
		  TARN_PLANT_HEIGHT_MAX },
	};
	double x[4];

	bind_known(L, 1, NULL, names);
	need(L, "plant_factor", fields, 4, x);
	lua_pushnumber(L, tarn_plant_factor(x[0], x[1], x[2], x[3]));
	return 1;
}

static int l_plant_factor_strip(lua_State *L)
{
	static const char *const names[] = {
		"dryness", "height", "width", NULL
	};
	static const struct field fields[] = {
		{ "dryness", "-", 0, 1 },
		{ "height", "m", TARN_PLANT_HEIGHT_MIN,
		  TARN_PLANT_HEIGHT_MAX },
		{ "width", "m", TARN_STRIP_WIDTH_MIN, TARN_STRIP_WIDTH_MAX },
	};
	double x[3];

	bind_known(L, 1, NULL, names);
	need(L, "plant_factor_strip", fields, 3, x);
	lua_pushnumber(L, tarn_plant_factor_strip(x[0], x[1], x[2]));
	return 1;
}

/* plants: name -> {start, mid, end, height, meaning} */
static void push_plants(lua_State *L)
{
	size_t count;
	const struct tarn_plant *p = tarn_plants(&count);

	bind_push_named(L, &tarn_plant_fields, p, count, sizeof *p);
}

/* ---- a whole weather ----------------------------------------------------- */

static struct tarn_evaporation_options options(lua_State *L, int arg)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();

	if (!lua_isnoneornil(L, arg))
		bind_fields(L, arg, &tarn_evaporation_fields, &o, NULL);
	return o;
}

static void set_series(lua_State *L, const char *name, const double *x,
		       size_t days)
{
	lua_createtable(L, (int)days, 0);
	for (size_t i = 0; i < days; i++) {
		lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	lua_setfield(L, -2, name);
}

void bind_push_report(lua_State *L, const struct tarn_evaporation_report *r)
{
	int n = 0;

	bind_push(L, &tarn_evaporation_report_fields, r);
	bind_set_text(L, "title", tarn_method_title(r->method));
	lua_newtable(L);			/* count */
	lua_newtable(L);			/* rules */
	for (int k = 0; k < TARN_RULES; k++) {
		const struct tarn_rule_info *info =
			tarn_rule_info((enum tarn_rule)k);

		lua_pushinteger(L, (lua_Integer)r->rule_days[k]);
		lua_setfield(L, -3, info->name);
		if (r->rule_days[k] == 0)
			continue;
		bind_push(L, &tarn_rule_info_fields, info);
		bind_set_count(L, "days", r->rule_days[k]);
		lua_rawseti(L, -2, ++n);
	}
	lua_setfield(L, -3, "rules");
	lua_setfield(L, -2, "count");
}

/* run(weather, {method = ..., ...}) -> {open_water, grass, water, report} */
static int l_run(lua_State *L)
{
	struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_evaporation_options o = options(L, 2);
	size_t days = tarn_weather_days(w);
	double *open = lua_newuserdatauv(L, 3 * days * sizeof *open, 0);
	double *grass = open + days, *water = grass + days;
	struct tarn_evaporation_report report;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_evaporation_run(w, &o, open, grass, water, &report,
					  &err), &err);
	lua_newtable(L);
	set_series(L, "open_water", open, days);
	set_series(L, "grass", grass, days);
	if (report.method == TARN_PENMAN_HEAT)
		set_series(L, "water", water, days);
	bind_push_report(L, &report);
	lua_setfield(L, -2, "report");
	return 1;
}

/* methods(weather, options) -> names of those that are possible */
static int l_methods(lua_State *L)
{
	struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_evaporation_options o = options(L, 2);
	int n = 0;

	lua_newtable(L);
	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++)
		if (tarn_evaporation_possible(w, &o, (enum tarn_method)m)) {
			lua_pushstring(L, tarn_method_name(
						  (enum tarn_method)m));
			lua_rawseti(L, -2, ++n);
		}
	return 1;
}

/* title("penman_1956") -> a line */
static int l_title(lua_State *L)
{
	const char *name = luaL_checkstring(L, 1);
	enum tarn_method m = tarn_method_find(name);

	if (m == TARN_METHODS)
		return bind_error(L, "unknown method '%s'", name);
	lua_pushstring(L, tarn_method_title(m));
	return 1;
}

static const luaL_Reg functions[] = {
	{ "grass", l_grass },
	{ "open_water", l_open_water },
	{ "priestley_taylor", l_priestley_taylor },
	{ "hargreaves", l_hargreaves },
	{ "mass_transfer", l_mass_transfer },
	{ "conditions", l_conditions },
	{ "pan_to_grass", l_pan_to_grass },
	{ "plant_factor", l_plant_factor },
	{ "plant_factor_strip", l_plant_factor_strip },
	{ "run", l_run },
	{ "methods", l_methods },
	{ "title", l_title },
	{ NULL, NULL }
};

void bind_evaporation(lua_State *L)
{
	bind_air(L);
	luaL_newlib(L, functions);
	bind_set(L, "pan_to_pond", TARN_PAN_TO_POND);
	bind_set(L, "water_over_grass", TARN_WATER_OVER_GRASS);
	push_plants(L);
	lua_setfield(L, -2, "plants");
	lua_setfield(L, -2, "evaporation");
}
