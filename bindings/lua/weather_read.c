/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_weather.h"

/* tarn.weather: from a file, a text, a table. */

/* The options of read and parse at 2, which may be nil. */
static struct tarn_csv_map read_map(lua_State *L)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_values *values;

	if (lua_isnoneornil(L, 2))
		return map;
	values = bind_new_values(L);
	BIND_DO(L, tarn_csv_map_read, &map, bind_value(L, 2, values));
	bind_free_values(L);
	return map;
}

/* read(path, options) -> weather */
static int l_read(lua_State *L)
{
	const char *path = bind_string(L, 1, "path", NULL);
	struct tarn_csv_map map = read_map(L);
	struct tarn_error err = { 0 };

	if (tarn_weather_read(bind_new_weather(L), NULL, path, &map, NULL,
			      &err) != TARN_OK)
		bind_fail(L, &err, path);
	return 1;
}

#define FILE_T "tarn.weather_file"

BIND_FREE(weather_file, FILE_T)

/* examine(path, options) -> what the file was taken for, weather or nil, why
 * not: the error as a table */
static int l_examine(lua_State *L)
{
	static const luaL_Reg methods[] = { { "__gc", l_free },
					    { NULL, NULL } };
	const char *path = bind_string(L, 1, "path", NULL);
	struct tarn_csv_map map = read_map(L);
	struct tarn_weather **weather;
	struct tarn_weather_file **file;
	struct tarn_error err = { 0 };
	enum tarn_status status;

	lua_settop(L, 2);
	bind_methods(L, FILE_T, methods);
	file = lua_newuserdatauv(L, sizeof *file, 0);
	*file = NULL;
	luaL_setmetatable(L, FILE_T);
	weather = bind_new_weather(L);
	status = tarn_weather_examine(file, weather, NULL, path, &map, &err);
	if (!*file)
		bind_fail(L, &err, path);
	bind_push(L, &tarn_weather_file_fields, *file);
	lua_insert(L, -2);
	if (status == TARN_OK)
		return 2;
	lua_pop(L, 1);
	lua_pushnil(L);
	bind_push_error(L, &err, path);
	return 3;
}

/* parse(text, options) -> weather */
static int l_parse(lua_State *L)
{
	size_t n;
	const char *text = bind_string(L, 1, "text", &n);
	struct tarn_csv_map map = read_map(L);
	struct tarn_error err = { 0 };

	if (tarn_weather_read_text(bind_new_weather(L), NULL, text, n, &map,
				   NULL, &err) != TARN_OK)
		bind_fail(L, &err, "text");
	return 1;
}

/* Fills a column, where the table at 1 has it. */
static void fill_column(lua_State *L, struct tarn_weather *w,
			enum tarn_column c)
{
	size_t days;
	double *x = bind_field_doubles(L, 1, tarn_column_info(c)->name, &days);
	double *to;

	if (x) {
		to = tarn_weather_add(w, c);
		if (!to)
			bind_no_memory(L);
		memcpy(to, x, days * sizeof *to);
	}
	lua_pop(L, 1);
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
	const char *known[TARN_COLUMNS + 2];

	bind_column_names(known);
	known[TARN_COLUMNS] = "first";
	known[TARN_COLUMNS + 1] = NULL;
	bind_known(L, 1, &tarn_site_fields, known);
}

/* table{first = "2015-01-01", tmin = {...}, ...} -> weather */
static int l_table(lua_State *L)
{
	struct tarn_weather **w;
	size_t days;
	long first;

	known_table(L);
	lua_getfield(L, 1, "first");
	first = bind_day(L, -1, "first");
	days = count_days(L);
	w = bind_new_weather(L);
	BIND_DO(L, tarn_weather_new, w, NULL, first, days);
	bind_read(L, 1, &tarn_site_fields, tarn_weather_site(*w));
	for (int c = 0; c < TARN_COLUMNS; c++)
		fill_column(L, *w, (enum tarn_column)c);
	BIND_DO(L, tarn_weather_check, *w);
	return 1;
}

/* Pushes the list of the units that a column takes. */
static void push_units(lua_State *L, enum tarn_column c)
{
	size_t count;
	const struct tarn_weather_unit *unit = tarn_weather_units(&count);
	lua_Integer n = 0;

	lua_newtable(L);
	for (size_t i = 0; i < count; i++) {
		if (tarn_weather_unit(c, unit[i].name) != &unit[i])
			continue;
		lua_pushstring(L, unit[i].name);
		lua_rawseti(L, -2, ++n);
	}
}

/* columns() -> list of {name =, unit =, meaning =, lo =, hi =, units =} */
static int l_columns(lua_State *L)
{
	lua_createtable(L, TARN_COLUMNS, 0);
	for (int c = 0; c < TARN_COLUMNS; c++) {
		bind_push(L, &tarn_column_info_fields,
			  tarn_column_info((enum tarn_column)c));
		push_units(L, (enum tarn_column)c);
		lua_setfield(L, -2, "units");
		lua_rawseti(L, -2, c + 1);
	}
	return 1;
}

void bind_weather(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "read", l_read },   { "parse", l_parse },
		{ "examine", l_examine },
		{ "table", l_table }, { "columns", l_columns },
		{ NULL, NULL },
	};

	bind_weather_type(L);
	luaL_newlib(L, functions);
	lua_setfield(L, -2, "weather");
}
