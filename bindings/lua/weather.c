/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_weather.h"

#define WEATHER_T "tarn.weather"

struct box {
	struct tarn_weather *weather;	/* NULL: closed */
};

/* ---- what other bindings use ----------------------------------------- */

struct tarn_weather *bind_check_weather(lua_State *L, int arg)
{
	struct box *box = luaL_testudata(L, arg, WEATHER_T);

	if (!box)
		bind_error(L, "weather must come from tarn.weather.read or "
			   "tarn.weather.table, got %s", luaL_typename(L, arg));
	if (!box->weather)
		bind_error(L, "weather is closed");
	return box->weather;
}

struct tarn_weather **bind_new_weather(lua_State *L)
{
	struct box *box = lua_newuserdatauv(L, sizeof *box, 0);

	/* The box has its __gc before the library allocates, so an error
	 * raised from here on cannot leak. */
	box->weather = NULL;
	luaL_setmetatable(L, WEATHER_T);
	return &box->weather;
}

/* The names of all columns, then NULL. */
static void column_names(const char *out[TARN_COLUMNS + 1])
{
	for (int c = 0; c < TARN_COLUMNS; c++)
		out[c] = tarn_column_info((enum tarn_column)c)->name;
	out[TARN_COLUMNS] = NULL;
}

enum tarn_column bind_column(lua_State *L, const char *name)
{
	enum tarn_column c = tarn_column_find(name);
	const char *names[TARN_COLUMNS + 1], *best;

	if (c < TARN_COLUMNS)
		return c;
	column_names(names);
	best = bind_nearest(NULL, names, name);
	if (best)
		bind_error(L, "no weather column is called '%s': did you mean "
			   "'%s'?", name, best);
	bind_error(L, "no weather column is called '%s': they are tmin, tmax, "
		   "tmean, rh_min, rh_max, rh_mean, dewpoint, vapour, wind, "
		   "sunshine, solar, rain, pan, reference, open_water, "
		   "pressure", name);
	return TARN_COLUMNS;
}

/* ---- making one ------------------------------------------------------ */

/* read(path, options) -> weather */
static int l_read(lua_State *L)
{
	const char *path = bind_string(L, 1, "path", NULL);
	struct tarn_error err = { 0 };
	struct tarn_csv_map map;

	bind_csv_map(L, 2, &map);
	if (tarn_weather_read(bind_new_weather(L), NULL, path, &map, NULL,
			      &err) != TARN_OK)
		bind_fail(L, &err, path);
	return 1;
}

/* parse(text, options) -> weather */
static int l_parse(lua_State *L)
{
	size_t n;
	const char *text = bind_string(L, 1, "text", &n);
	struct tarn_error err = { 0 };
	struct tarn_csv_map map;

	bind_csv_map(L, 2, &map);
	if (tarn_weather_read_text(bind_new_weather(L), NULL, text, n, &map,
				   NULL, &err) != TARN_OK)
		bind_fail(L, &err, "text");
	return 1;
}

/* Fills a column from the list on top of the stack. */
static void fill_column(lua_State *L, struct tarn_weather *w,
			enum tarn_column c)
{
	const char *name = tarn_column_info(c)->name;
	double *to = tarn_weather_add(w, c);

	if (!to)
		luaL_error(L, "out of memory");
	for (size_t i = 0; i < tarn_weather_days(w); i++) {
		int type = lua_geti(L, -1, (lua_Integer)i + 1);

		if (type == LUA_TNUMBER)
			to[i] = lua_tonumber(L, -1);
		else if (type != LUA_TBOOLEAN || lua_toboolean(L, -1))
			bind_error(L, "%s[%d] must be a number, or false if "
				   "it is missing; got %s", name, (int)i + 1,
				   luaL_typename(L, -1));
		lua_pop(L, 1);
	}
}

/* How many days the columns of the table at 1 have. */
static size_t count_days(lua_State *L)
{
	size_t days = 0;
	const char *first = NULL;

	for (int c = 0; c < TARN_COLUMNS; c++) {
		const char *name = tarn_column_info((enum tarn_column)c)->name;

		if (lua_getfield(L, 1, name) != LUA_TNIL) {
			size_t n = lua_rawlen(L, -1);

			if (lua_type(L, -1) != LUA_TTABLE)
				bind_error(L, "%s must be a list of numbers",
					   name);
			if (first && n != days)
				bind_error(L, "%s has %d days, %s has %d: all "
					   "columns must be of one length",
					   name, (int)n, first, (int)days);
			days = n;
			first = name;
		}
		lua_pop(L, 1);
	}
	return days;
}

static void known_table(lua_State *L)
{
	const char *known[TARN_COLUMNS + 6] = { "first", "name", "latitude",
						"elevation", "wind_height" };

	column_names(known + 5);
	bind_known(L, 1, NULL, known);
}

static void table_site(lua_State *L, struct tarn_site *site)
{
	if (lua_getfield(L, 1, "name") != LUA_TNIL) {
		size_t n;
		const char *name = bind_string(L, -1, "name", &n);

		if (n >= sizeof site->name)
			bind_error(L, "name must be shorter than %d characters",
				   (int)sizeof site->name);
		memcpy(site->name, name, n + 1);
	}
	lua_pop(L, 1);
	site->latitude_deg = bind_field(L, 1, "", "latitude", "deg", -90, 90,
					TARN_NAN);
	site->elevation_m = bind_field(L, 1, "", "elevation", "m", -430, 6000,
				       TARN_NAN);
	site->wind_height_m = bind_field(L, 1, "", "wind_height", "m", 0.5,
					 100, TARN_NAN);
}

/* table{first = "2015-01-01", tmin = {...}, ...} -> weather */
static int l_table(lua_State *L)
{
	struct tarn_error err = { 0 };
	struct tarn_weather **w;
	size_t days;
	long first;

	known_table(L);
	lua_getfield(L, 1, "first");
	first = bind_day(L, -1, "first");
	days = count_days(L);
	w = bind_new_weather(L);
	if (tarn_weather_new(w, NULL, first, days, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	table_site(L, tarn_weather_site(*w));
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const char *name = tarn_column_info((enum tarn_column)c)->name;

		if (lua_getfield(L, 1, name) != LUA_TNIL)
			fill_column(L, *w, (enum tarn_column)c);
		lua_pop(L, 1);
	}
	if (tarn_weather_check(*w, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	return 1;
}

/* ---- changing one ---------------------------------------------------- */

/* The bits of the list of column names on top. */
static unsigned column_bits(lua_State *L)
{
	unsigned bits = 0;

	if (lua_type(L, -1) != LUA_TTABLE)
		bind_error(L, "columns must be a list of names");
	for (int i = 1; lua_geti(L, -1, i) != LUA_TNIL; i++) {
		if (lua_type(L, -1) != LUA_TSTRING)
			bind_error(L, "columns must be a list of names");
		bits |= 1u << bind_column(L, lua_tostring(L, -1));
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	return bits;
}

static void read_rules(lua_State *L, struct tarn_fill *rules)
{
	static const char *const known[] = { "interpolate", "rain", "columns",
					     NULL };

	bind_known(L, 2, NULL, known);
	rules->interpolate_days = (int)bind_field(L, 2, "", "interpolate",
						  "days", 0, 31, 0);
	if (lua_getfield(L, 2, "rain") != LUA_TNIL) {
		const char *s = lua_tostring(L, -1);

		if (s && strcmp(s, "zero") == 0)
			rules->rain = TARN_RAIN_ZERO;
		else if (!s || strcmp(s, "error") != 0)
			bind_error(L, "rain must be \"error\" or \"zero\"; it "
				   "is never interpolated");
	}
	if (lua_getfield(L, 2, "columns") != LUA_TNIL)
		rules->columns = column_bits(L);
	lua_pop(L, 2);
}

/* weather:fill{interpolate =, rain =, columns =} -> {tmin = days filled} */
static int l_fill(lua_State *L)
{
	struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_fill rules = tarn_fill_default();
	struct tarn_error err = { 0 };
	size_t filled[TARN_COLUMNS];

	read_rules(L, &rules);
	if (tarn_weather_fill(w, &rules, filled, &err) != TARN_OK)
		bind_fail(L, &err, NULL);
	lua_newtable(L);
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (filled[c] > 0)
			bind_set_count(L, tarn_column_info((enum tarn_column)c)->name,
				  filled[c]);
	return 1;
}

/* weather:slice(first, last) -> weather; nil: from the first, to the last */
static int l_slice(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	long first = lua_isnoneornil(L, 2) ? tarn_weather_first(w)
					   : bind_day(L, 2, "first");
	long last = lua_isnoneornil(L, 3) ? bind_last_day(w)
					  : bind_day(L, 3, "last");
	struct tarn_error err = { 0 };

	if (tarn_weather_slice(bind_new_weather(L), w, first, last, &err) !=
	    TARN_OK)
		bind_fail(L, &err, NULL);
	return 1;
}

/* ---- the object ------------------------------------------------------ */

static int l_tostring(lua_State *L)
{
	struct box *box = luaL_checkudata(L, 1, WEATHER_T);
	const struct tarn_weather *w = box->weather;
	char first[11], last[11];
	luaL_Buffer b;

	if (!w) {
		lua_pushliteral(L, "weather (closed)");
		return 1;
	}
	tarn_day_text(tarn_weather_first(w), first);
	tarn_day_text(bind_last_day(w), last);
	luaL_buffinit(L, &b);
	lua_pushfstring(L, "weather: %I days, %s to %s:",
			(LUAI_UACINT)tarn_weather_days(w), first, last);
	luaL_addvalue(&b);
	for (int c = 0; c < TARN_COLUMNS; c++) {
		if (!tarn_weather_column(w, (enum tarn_column)c))
			continue;
		luaL_addchar(&b, ' ');
		luaL_addstring(&b,
			       tarn_column_info((enum tarn_column)c)->name);
	}
	luaL_pushresult(&b);
	return 1;
}

static int l_close(lua_State *L)
{
	struct box *box = luaL_checkudata(L, 1, WEATHER_T);

	tarn_weather_free(box->weather);
	box->weather = NULL;
	return 0;
}

/* columns() -> list of {name =, unit =, meaning =, lo =, hi =} */
static int l_columns(lua_State *L)
{
	lua_createtable(L, TARN_COLUMNS, 0);
	for (int c = 0; c < TARN_COLUMNS; c++) {
		bind_push(L, &tarn_column_info_fields,
			  tarn_column_info((enum tarn_column)c));
		lua_rawseti(L, -2, c + 1);
	}
	return 1;
}

static const luaL_Reg functions[] = {
	{ "read", l_read },	{ "parse", l_parse }, { "table", l_table },
	{ "columns", l_columns }, { NULL, NULL },
};

static const luaL_Reg methods[] = {
	{ "fill", l_fill },   { "slice", l_slice },
	{ "close", l_close }, { "__tostring", l_tostring },
	{ "__gc", l_close },  { "__close", l_close },
	{ NULL, NULL },
};

void bind_weather(lua_State *L)
{
	luaL_newmetatable(L, WEATHER_T);
	luaL_setfuncs(L, methods, 0);
	luaL_setfuncs(L, bind_weather_looks, 0);
	lua_pushvalue(L, -1);
	lua_setfield(L, -2, "__index");
	lua_pop(L, 1);
	luaL_newlib(L, functions);
	lua_setfield(L, -2, "weather");
}
