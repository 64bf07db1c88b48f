/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_weather.h"

/* The options of tarn.weather.read, from a Lua table to a tarn_csv_map. */

/* Calls a reader with t[name], where it is given. */
static void option(lua_State *L, int at, const char *name,
		   void (*reader)(lua_State *, int, void *), void *to)
{
	if (lua_getfield(L, at, name) != LUA_TNIL)
		reader(L, lua_gettop(L), to);
	lua_pop(L, 1);
}

/* Reads fields of a table; messages begin with its name. */
static void named(lua_State *L, int at, const struct tarn_fields *fields,
		  const char *what, void *object)
{
	struct tarn_fields with_name = *fields;

	with_name.section = what;
	bind_read(L, at, &with_name, object);
}

/* Raises for keys that are neither fields of the two nor in the list. */
static void known(lua_State *L, int at, const struct tarn_fields *more,
		  const char *const also[])
{
	const char *names[12];
	size_t n = 0;

	for (size_t i = 0; i < tarn_csv_place_fields.count; i++)
		names[n++] = tarn_csv_place_fields.rows[i].name;
	while (also && *also)
		names[n++] = *also++;
	names[n] = NULL;
	bind_known(L, at, more, names);
}

/* ---- places and columns ---------------------------------------------- */

/* A place alone: "name", its index, or {name =, index =, occurrence =}. */
static void read_place(lua_State *L, int at, const char *what,
		       struct tarn_csv_place *place)
{
	if (lua_type(L, at) == LUA_TSTRING) {
		bind_copy(L, at, what, place->name, sizeof place->name);
		return;
	}
	if (lua_type(L, at) == LUA_TNUMBER) {
		lua_createtable(L, 0, 1);
		lua_pushvalue(L, at);
		lua_setfield(L, -2, "index");
		lua_replace(L, at);
	}
	known(L, at, NULL, NULL);
	named(L, at, &tarn_csv_place_fields, what, place);
}

static void option_place(lua_State *L, int table, const char *name,
			 struct tarn_csv_place *place)
{
	if (lua_getfield(L, table, name) != LUA_TNIL)
		read_place(L, lua_gettop(L), name, place);
	lua_pop(L, 1);
}

/* The words of a string, or of a list of strings, with blanks between. */
static void option_words(lua_State *L, int table, const char *what, char *to,
			 size_t size)
{
	size_t used = 0;
	int type = lua_getfield(L, table, what);

	if (type == LUA_TSTRING)
		bind_copy(L, -1, what, to, size);
	else if (type != LUA_TNIL && type != LUA_TTABLE)
		bind_error(L, "%s must be a string or a list of strings", what);
	for (int i = 1; type == LUA_TTABLE &&
			lua_geti(L, -1, i) != LUA_TNIL; i++) {
		if (used > 0 && used + 1 < size)
			to[used++] = ' ';
		bind_copy(L, -1, what, to + used, size - used);
		used += strlen(to + used);
		lua_pop(L, 1);
	}
	lua_pop(L, type == LUA_TTABLE ? 2 : 1);
}

static void read_flag(lua_State *L, int at, void *to)
{
	static const char *const also[] = { "reject", "quiet", NULL };
	struct tarn_csv_flag *flag = to;

	known(L, at, &tarn_csv_flag_fields, also);
	named(L, at, &tarn_csv_place_fields, "flag", &flag->place);
	named(L, at, &tarn_csv_flag_fields, "flag", flag);
	option_words(L, at, "reject", flag->reject, sizeof flag->reject);
	option_words(L, at, "quiet", flag->quiet, sizeof flag->quiet);
}

static void read_column(lua_State *L, int at, const char *what,
			struct tarn_csv_column *column)
{
	static const char *const also[] = { "flag", NULL };

	if (lua_isboolean(L, at) && !lua_toboolean(L, at)) {
		column->place.index = -1;
		return;
	}
	if (lua_type(L, at) != LUA_TTABLE) {
		read_place(L, at, what, &column->place);
		return;
	}
	known(L, at, &tarn_csv_column_fields, also);
	named(L, at, &tarn_csv_place_fields, what, &column->place);
	named(L, at, &tarn_csv_column_fields, what, column);
	option(L, at, "flag", read_flag, &column->flag);
}

/* The key below the value on top, as a string. */
static const char *key_name(lua_State *L, const char *what)
{
	if (lua_type(L, -2) != LUA_TSTRING)
		bind_error(L, "%s must have names of columns as its keys",
			   what);
	return lua_tostring(L, -2);
}

static struct tarn_csv_column *column_of(lua_State *L,
					 struct tarn_csv_map *map,
					 const char *name)
{
	if (strcmp(name, "total") == 0)
		return &map->total;
	return &map->column[bind_column(L, name)];
}

static void read_columns(lua_State *L, int at, void *to)
{
	struct tarn_csv_map *map = to;

	if (lua_type(L, at) != LUA_TTABLE)
		bind_error(L, "columns must be a table, got %s",
			   luaL_typename(L, at));
	for (lua_pushnil(L); lua_next(L, at); lua_pop(L, 1)) {
		const char *name = key_name(L, "columns");

		if (strcmp(name, "total_days") == 0)
			read_place(L, lua_gettop(L), name,
				   &map->total_days);
		else
			read_column(L, lua_gettop(L), name,
				    column_of(L, map, name));
	}
}

static void read_units(lua_State *L, int at, void *to)
{
	struct tarn_csv_map *map = to;

	if (lua_type(L, at) != LUA_TTABLE) {
		bind_copy(L, at, "units", map->units, sizeof map->units);
		return;
	}
	for (lua_pushnil(L); lua_next(L, at); lua_pop(L, 1)) {
		const char *name = key_name(L, "units");
		struct tarn_csv_column *column = column_of(L, map, name);

		bind_copy(L, -1, name, column->unit, sizeof column->unit);
	}
}

/* ---- the rest -------------------------------------------------------- */

/* "name", or {name = ..., format = ...}, or {year =, month =, day =}, or
 * {year =, doy =}; with an hour column if there is one. */
static void read_date(lua_State *L, int at, void *to)
{
	static const char *const also[] = { "year", "month", "day", "doy",
					    "hour", NULL };
	struct tarn_csv_map *map = to;

	if (lua_type(L, at) != LUA_TTABLE) {
		read_place(L, at, "date", &map->date);
		return;
	}
	known(L, at, &tarn_csv_date_fields, also);
	named(L, at, &tarn_csv_place_fields, "date", &map->date);
	named(L, at, &tarn_csv_date_fields, "date", map);
	option_place(L, at, "year", &map->year);
	option_place(L, at, "month", &map->month);
	option_place(L, at, "day", &map->day);
	option_place(L, at, "doy", &map->day_of_year);
	option_place(L, at, "hour", &map->hour);
}

static void read_skip(lua_State *L, int at, void *to)
{
	struct tarn_csv_map *map = to;

	if (lua_type(L, at) == LUA_TSTRING)
		bind_copy(L, at, "skip", map->skip_to, sizeof map->skip_to);
	else
		map->skip_lines = bind_whole(L, at, "skip", 0, 1000000);
}

static void read_missing(lua_State *L, int at, void *to)
{
	struct tarn_csv_map *map = to;

	if (lua_type(L, at) == LUA_TSTRING) {
		bind_copy(L, at, "missing", map->missing[0],
			  sizeof map->missing[0]);
		return;
	}
	if (lua_type(L, at) != LUA_TTABLE)
		bind_error(L, "missing must be a string or a list of strings");
	for (int i = 0; lua_geti(L, at, i + 1) != LUA_TNIL; i++) {
		if (i == TARN_CSV_TOKENS_MAX)
			bind_error(L, "missing can hold %d strings",
				   TARN_CSV_TOKENS_MAX);
		bind_copy(L, -1, "missing", map->missing[i],
			  sizeof map->missing[i]);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
}

static void read_character(lua_State *L, int table, const char *name,
			   char *to)
{
	char text[2] = { *to, '\0' };

	if (lua_getfield(L, table, name) != LUA_TNIL)
		bind_copy(L, -1, name, text, sizeof text);
	*to = text[0];
	lua_pop(L, 1);
}

void bind_csv_map(lua_State *L, int arg, struct tarn_csv_map *map)
{
	static const char *const also[] = {
		"columns", "units", "name", "latitude", "elevation",
		"wind_height", "date", "skip", "header", "delimiter",
		"decimal", "missing", "station_column", "element", "value",
		NULL
	};

	*map = tarn_csv_map_default();
	if (lua_isnoneornil(L, arg))
		return;
	bind_fields(L, arg, &tarn_csv_map_fields, map, also);
	bind_read(L, arg, &tarn_site_fields, &map->site);
	option(L, arg, "columns", read_columns, map);
	option(L, arg, "units", read_units, map);
	option(L, arg, "date", read_date, map);
	option(L, arg, "skip", read_skip, map);
	option(L, arg, "missing", read_missing, map);
	option_place(L, arg, "station_column", &map->station);
	option_place(L, arg, "element", &map->element);
	option_place(L, arg, "value", &map->value);
	map->no_header = !bind_switch(L, arg, "header", 1);
	read_character(L, arg, "delimiter", &map->delimiter);
	read_character(L, arg, "decimal", &map->decimal);
}
