/* SPDX-License-Identifier: MIT */
#include "bind_call.h"
#include "bind_weather.h"
#include "tarn/exposure.h"

/* ---- one day ------------------------------------------------------------- */

static void push_origins(lua_State *L, unsigned origins)
{
	int n = 0;

	lua_newtable(L);
	for (int k = 0; k < TARN_ORIGINS; k++)
		if (origins & 1u << k) {
			lua_pushstring(L, tarn_origin_info((enum tarn_origin)k)
						  ->name);
			lua_rawseti(L, -2, ++n);
		}
}

/* Pushes mm/d and the names of the origins of its values. */
static int push_day(lua_State *L, enum tarn_method method, int want_grass)
{
	struct tarn_evaporation_day day = tarn_evaporation_day_default();
	double open, grass;
	unsigned origins;

	bind_read(L, 1, &tarn_evaporation_day_fields, &day);
	BIND_DO(L, tarn_evaporation_of_day, &day, method, &open, &grass,
		&origins);
	lua_pushnumber(L, want_grass ? grass : open);
	push_origins(L, origins);
	return 2;
}

static const struct day_method {
	const char *name;
	enum tarn_method method;
	int want_grass;
} day_methods[] = {
	{ "grass", TARN_GRASS, 1 },
	{ "hargreaves", TARN_HARGREAVES, 1 },
	{ "priestley_taylor", TARN_PRIESTLEY_TAYLOR, 0 },
	{ "mass_transfer", TARN_MASS_TRANSFER, 0 },
};

/* grass{tmin =, ...} and the like -> mm/d, origins */
static int l_day_method(lua_State *L)
{
	const struct day_method *m =
		&day_methods[lua_tointeger(L, lua_upvalueindex(1))];

	bind_known(L, 1, &tarn_evaporation_day_fields, NULL);
	return push_day(L, m->method, m->want_grass);
}

struct wind {
	int year;
};
static const char *const wind_years[] = { "1956", "1948", NULL };
static const struct tarn_field wind_rows[] = {
	TARN_IN_CHOICE(struct wind, year, "wind", wind_years, 0,
		       "Penman's wind function"),
};
static TARN_FIELDS(wind_fields, "day", wind_rows);

/* open_water{wind = "1956" or "1948", tmin =, ...} -> mm/d, origins */
static int l_open_water(lua_State *L)
{
	static const char *const also[] = { "wind", NULL };
	struct wind wind = { 0 };

	bind_known(L, 1, &tarn_evaporation_day_fields, also);
	bind_read(L, 1, &wind_fields, &wind);
	return push_day(L, wind.year ? TARN_PENMAN_1948 : TARN_PENMAN_1956, 0);
}

static int l_conditions(lua_State *L)
{
	struct tarn_evaporation_day day = tarn_evaporation_day_default();
	struct tarn_conditions c;

	bind_fields(L, 1, &tarn_evaporation_day_fields, &day, NULL);
	BIND_DO(L, tarn_conditions_of, &day, &c);
	bind_push(L, &tarn_conditions_fields, &c);
	push_origins(L, c.origins);
	lua_setfield(L, -2, "origins");
	return 1;
}

/* ---- pans and plants ----------------------------------------------------- */

struct pan {
	int pan;		/* enum tarn_pan */
	double wind_2m_ms, rh_mean, fetch_m;
};

static const char *const pans[] = {
	"class_a_green", "class_a_dry", "colorado_green", "colorado_dry", NULL
};

#define T struct pan
static const struct tarn_field pan_rows[] = {
	TARN_IN_CHOICE(T, pan, "pan", pans, 0, "kind and surroundings"),
	TARN_IN_REQUIRED(T, wind_2m_ms, "wind_2m", "m/s", TARN_PAN_WIND_MIN,
			 TARN_PAN_WIND_MAX, "mean wind at 2 m"),
	TARN_IN_REQUIRED(T, rh_mean, "rh_mean", "%", TARN_PAN_RH_MIN,
			 TARN_PAN_RH_MAX, "mean relative humidity"),
	TARN_IN_REQUIRED(T, fetch_m, "fetch", "m", TARN_PAN_FETCH_MIN,
			 TARN_PAN_FETCH_MAX, "upwind, of that surface"),
};
static TARN_FIELDS(pan_fields, "pan_to_grass", pan_rows);
#undef T

/* pan_to_grass{pan =, wind_2m =, rh_mean =, fetch =} -> grass / pan */
static int l_pan_to_grass(lua_State *L)
{
	struct pan p;

	tarn_fields_default(&pan_fields, &p);
	bind_fields(L, 1, &pan_fields, &p, NULL);
	if (lua_getfield(L, 1, "pan") == LUA_TNIL)
		bind_error(L, "pan_to_grass.pan must be given, such as "
			   "\"class_a_green\"");
	lua_pushnumber(L, tarn_pan_to_grass((enum tarn_pan)p.pan, p.wind_2m_ms,
					    p.rh_mean, p.fetch_m));
	return 1;
}

#define HEIGHT BIND_NUMBER("height", "m", TARN_PLANT_HEIGHT_MIN,              \
			   TARN_PLANT_HEIGHT_MAX)
static const struct bind_plain plain[] = {
	{ BIND_PLAIN_("plant_factor", four, tarn_plant_factor, "-",
		      BIND_NUMBER("factor", "-", 0, TARN_PLANT_FACTOR_MAX),
		      BIND_NUMBER("wind_2m", "m/s", TARN_PLANT_WIND_MIN,
				  TARN_PLANT_WIND_MAX),
		      BIND_NUMBER("rh_min", "%", TARN_PLANT_RH_MIN,
				  TARN_PLANT_RH_MAX), HEIGHT), .named = 1 },
	{ BIND_PLAIN_("plant_factor_strip", three, tarn_plant_factor_strip, "-",
		      BIND_NUMBER("dryness", "-", 0, 1), HEIGHT,
		      BIND_NUMBER("width", "m", TARN_STRIP_WIDTH_MIN,
				  TARN_STRIP_WIDTH_MAX)), .named = 1 },
	{ .name = NULL }
};

/* ---- a whole weather ----------------------------------------------------- */

static struct tarn_evaporation_options options(lua_State *L, int arg)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();

	if (!lua_isnoneornil(L, arg))
		bind_fields(L, arg, &tarn_evaporation_fields, &o, NULL);
	return o;
}

void bind_push_report(lua_State *L, const struct tarn_evaporation_report *r)
{
	int n = 0;

	bind_push(L, &tarn_evaporation_report_fields, r);
	bind_set_text(L, "title", tarn_method_title(r->method));
	bind_set_flag(L, "rests_on_warmth",
		      tarn_evaporation_rests_on_warmth(r));
	lua_newtable(L);			/* count */
	lua_newtable(L);			/* origins */
	for (int k = 0; k < TARN_ORIGINS; k++) {
		const struct tarn_origin_info *info =
			tarn_origin_info((enum tarn_origin)k);

		lua_pushinteger(L, (lua_Integer)r->origin_days[k]);
		lua_setfield(L, -3, info->name);
		if (r->origin_days[k] == 0)
			continue;
		bind_push(L, &tarn_origin_info_fields, info);
		bind_set_count(L, "days", r->origin_days[k]);
		lua_rawseti(L, -2, ++n);
	}
	lua_setfield(L, -3, "origins");
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

	BIND_DO(L, tarn_evaporation_run, w, &o, open, grass, water, &report);
	lua_newtable(L);
	bind_push_numbers(L, open, days);
	lua_setfield(L, -2, "open_water");
	bind_push_numbers(L, grass, days);
	lua_setfield(L, -2, "grass");
	if (report.method == TARN_PENMAN_HEAT) {
		bind_push_numbers(L, water, days);
		lua_setfield(L, -2, "water");
	}
	bind_push_report(L, &report);
	lua_setfield(L, -2, "report");
	return 1;
}

void bind_push_methods(lua_State *L, const struct tarn_weather *w,
		       const struct tarn_evaporation_options *o)
{
	int n = 0;

	lua_newtable(L);
	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++)
		if (tarn_evaporation_possible(w, o, (enum tarn_method)m)) {
			lua_pushstring(L, tarn_method_name(
						  (enum tarn_method)m));
			lua_rawseti(L, -2, ++n);
		}
}

/* methods(weather, options) -> names of those that are possible */
static int l_methods(lua_State *L)
{
	struct tarn_evaporation_options o = options(L, 2);

	bind_push_methods(L, bind_check_weather(L, 1), &o);
	return 1;
}

static void push_counts(lua_State *L, const size_t count[], const char *name)
{
	lua_newtable(L);
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (count[c] > 0)
			bind_set_count(L, tarn_column_info(
					       (enum tarn_column)c)->name,
				       count[c]);
	lua_setfield(L, -2, name);
}

static long day_or_none(lua_State *L, const char *name)
{
	long day = TARN_NO_DAY;

	if (lua_getfield(L, 3, name) != LUA_TNIL)
		day = bind_day(L, -1, name);
	lua_pop(L, 1);
	return day;
}

/* ready(weather, {method =, ...}, {first =, last =, bridge =, rain =})
 * -> the weather that is run, what was done */
static int l_ready(lua_State *L)
{
	static const char *const also[] = { "first", "last", NULL };
	struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_evaporation_options o = options(L, 2);
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;

	if (!lua_isnoneornil(L, 3)) {
		bind_known(L, 3, &tarn_ready_fields, also);
		bind_read(L, 3, &tarn_ready_fields, &wishes);
		wishes.first_day = day_or_none(L, "first");
		wishes.last_day = day_or_none(L, "last");
	}
	BIND_DO(L, tarn_weather_ready, bind_new_weather(L), w, &o, &wishes,
		&done);
	bind_push(L, &tarn_readied_fields, &done);
	push_counts(L, done.filled, "filled");
	push_counts(L, done.missing, "missing");
	return 2;
}

static enum tarn_method check_method(lua_State *L)
{
	const char *name = luaL_checkstring(L, 1);
	enum tarn_method m = tarn_method_find(name);

	if (m == TARN_METHODS)
		bind_error(L, "unknown method '%s'", name);
	return m;
}

/* title("penman_1956") -> a line */
static int l_title(lua_State *L)
{
	lua_pushstring(L, tarn_method_title(check_method(L)));
	return 1;
}

/* centre("penman_1956", warmth_only) -> what exposure.h says of a method: true
 * evaporation of a pond over its own, and how well that is known */
static int l_centre(lua_State *L)
{
	struct tarn_method_centre c = tarn_method_centre(check_method(L),
							 lua_toboolean(L, 2));

	bind_push(L, &tarn_method_centre_fields, &c);
	return 1;
}

static const luaL_Reg functions[] = {
	{ "open_water", l_open_water },
	{ "conditions", l_conditions },
	{ "pan_to_grass", l_pan_to_grass },
	{ "run", l_run },
	{ "methods", l_methods },
	{ "ready", l_ready },
	{ "title", l_title },
	{ "centre", l_centre },
	{ NULL, NULL }
};

void bind_evaporation(lua_State *L)
{
	size_t count;
	const struct tarn_plant *plants = tarn_plants(&count);

	bind_air(L);
	luaL_newlib(L, functions);
	bind_add_plain(L, plain);
	for (int i = 0; i < 4; i++) {
		lua_pushinteger(L, i);
		lua_pushcclosure(L, l_day_method, 1);
		lua_setfield(L, -2, day_methods[i].name);
	}
	bind_set(L, "pan_to_pond", TARN_PAN_TO_POND);
	bind_set(L, "spread", TARN_METHOD_SPREAD);
	bind_set(L, "water_over_grass", TARN_WATER_OVER_GRASS);
	bind_push_named(L, &tarn_plant_fields, plants, count, sizeof *plants);
	lua_setfield(L, -2, "plants");
	lua_setfield(L, -2, "evaporation");
}
