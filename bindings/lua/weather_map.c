/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_option.h"
#include "bind_weather.h"

/* The options of tarn.weather.read, from a Lua table to a tarn_csv_map. */

/* ---- places and columns ---------------------------------------------- */

/* name, index and occurrence of the table at 'at'. */
static void place_fields(lua_State *L, int at, const char *what,
			 struct tarn_csv_place *place)
{
	if (option_has(L, at, "name")) {
		option_copy(L, -1, what, place->name, sizeof place->name);
		lua_pop(L, 1);
	}
	place->index = option_whole(L, at, "index", 1, TARN_CSV_FIELDS_MAX,
				    place->index);
	place->occurrence = option_whole(L, at, "occurrence", 1,
					 TARN_CSV_FIELDS_MAX,
					 place->occurrence);
}

/* A place alone: "name", its index, or {name =, index =, occurrence =}. */
static void read_place(lua_State *L, int at, const char *what,
		       struct tarn_csv_place *place)
{
	static const char *const known[] = { "name", "index", "occurrence",
					     NULL };

	at = lua_absindex(L, at);
	if (lua_type(L, at) == LUA_TSTRING) {
		option_copy(L, at, what, place->name, sizeof place->name);
	} else if (lua_type(L, at) == LUA_TNUMBER) {
		place->index = option_check_whole(L, at, what, 1, TARN_CSV_FIELDS_MAX);
	} else {
		bind_known(L, at, NULL, known);
		place_fields(L, at, what, place);
	}
}

static void option_place(lua_State *L, int table, const char *name,
			 struct tarn_csv_place *place)
{
	if (!option_has(L, table, name))
		return;
	read_place(L, -1, name, place);
	lua_pop(L, 1);
}

static void read_flag(lua_State *L, int at, struct tarn_csv_flag *flag)
{
	static const char *const known[] = { "name", "index", "occurrence",
					     "part", "reject", "quiet", NULL };

	at = lua_absindex(L, at);
	bind_known(L, at, NULL, known);
	place_fields(L, at, "flag", &flag->place);
	flag->part = option_whole(L, at, "part", 1, 16, 0);
	if (option_has(L, at, "reject")) {
		option_words(L, lua_absindex(L, -1), "reject", flag->reject,
		      sizeof flag->reject);
		lua_pop(L, 1);
	}
	if (option_has(L, at, "quiet")) {
		option_words(L, lua_absindex(L, -1), "quiet", flag->quiet,
		      sizeof flag->quiet);
		lua_pop(L, 1);
	}
}

static void read_column(lua_State *L, int at, const char *what,
			struct tarn_csv_column *column)
{
	static const char *const known[] = { "name", "index", "occurrence",
					     "unit", "scale", "rule", "flag",
					     NULL };
	static const char *const rules[] = { "default", "min", "max", "mean",
					     "sum", NULL };

	at = lua_absindex(L, at);
	if (lua_isboolean(L, at) && !lua_toboolean(L, at)) {
		column->place.index = -1;
		return;
	}
	if (lua_type(L, at) != LUA_TTABLE) {
		read_place(L, at, what, &column->place);
		return;
	}
	bind_known(L, at, NULL, known);
	place_fields(L, at, what, &column->place);
	option_text(L, at, "unit", column->unit, sizeof column->unit);
	column->scale = bind_field(L, at, what, "scale", "-", 1e-9, 1e9,
				   column->scale);
	column->rule = (enum tarn_csv_rule)option_choice(L, at, "rule", rules,
							 TARN_RULE_DEFAULT);
	if (option_has(L, at, "flag")) {
		read_flag(L, -1, &column->flag);
		lua_pop(L, 1);
	}
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

static void read_columns(lua_State *L, int at, struct tarn_csv_map *map)
{
	at = lua_absindex(L, at);
	if (lua_type(L, at) != LUA_TTABLE)
		bind_error(L, "columns must be a table, got %s",
			   luaL_typename(L, at));
	for (lua_pushnil(L); lua_next(L, at); lua_pop(L, 1)) {
		const char *name = key_name(L, "columns");

		if (strcmp(name, "total_days") == 0)
			read_place(L, -1, name, &map->total_days);
		else
			read_column(L, -1, name, column_of(L, map, name));
	}
}

static void read_units(lua_State *L, int at, struct tarn_csv_map *map)
{
	at = lua_absindex(L, at);
	if (lua_type(L, at) != LUA_TTABLE) {
		option_copy(L, at, "units", map->units, sizeof map->units);
		return;
	}
	for (lua_pushnil(L); lua_next(L, at); lua_pop(L, 1)) {
		const char *name = key_name(L, "units");
		struct tarn_csv_column *column = column_of(L, map, name);

		option_copy(L, -1, name, column->unit, sizeof column->unit);
	}
}

/* ---- the rest -------------------------------------------------------- */

/* "name", or {name = ..., format = ...}, or {year =, month =, day =}, or
 * {year =, doy =}; with an hour column if there is one. */
static void read_date(lua_State *L, int at, struct tarn_csv_map *map)
{
	static const char *const known[] = { "name", "index", "occurrence",
					     "format", "year", "month", "day",
					     "doy", "hour", NULL };

	at = lua_absindex(L, at);
	if (lua_type(L, at) != LUA_TTABLE) {
		read_place(L, at, "date", &map->date);
		return;
	}
	bind_known(L, at, NULL, known);
	place_fields(L, at, "date", &map->date);
	option_text(L, at, "format", map->date_format,
		    sizeof map->date_format);
	option_place(L, at, "year", &map->year);
	option_place(L, at, "month", &map->month);
	option_place(L, at, "day", &map->day);
	option_place(L, at, "doy", &map->day_of_year);
	option_place(L, at, "hour", &map->hour);
}

static void read_skip(lua_State *L, int at, struct tarn_csv_map *map)
{
	if (lua_type(L, at) == LUA_TSTRING)
		option_copy(L, at, "skip", map->skip_to, sizeof map->skip_to);
	else
		map->skip_lines = option_check_whole(L, at, "skip", 0, 1000000);
}

static void read_missing(lua_State *L, int at, struct tarn_csv_map *map)
{
	at = lua_absindex(L, at);
	if (lua_type(L, at) == LUA_TSTRING) {
		option_copy(L, at, "missing", map->missing[0],
			  sizeof map->missing[0]);
		return;
	}
	if (lua_type(L, at) != LUA_TTABLE)
		bind_error(L, "missing must be a string or a list of strings");
	for (int i = 0; lua_geti(L, at, i + 1) != LUA_TNIL; i++) {
		if (i == TARN_CSV_TOKENS_MAX)
			bind_error(L, "missing can hold %d strings",
				   TARN_CSV_TOKENS_MAX);
		option_copy(L, -1, "missing", map->missing[i],
			  sizeof map->missing[i]);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
}

static void read_character(lua_State *L, int table, const char *name,
			   char *to)
{
	char text[2];

	if (!option_has(L, table, name))
		return;
	option_copy(L, -1, name, text, sizeof text);
	*to = text[0];
	lua_pop(L, 1);
}

static void read_site(lua_State *L, int at, struct tarn_csv_map *map)
{
	struct tarn_site *site = &map->site;

	option_text(L, at, "name", site->name, sizeof site->name);
	site->latitude_deg = bind_field(L, at, "", "latitude", "deg", -90, 90,
					site->latitude_deg);
	site->elevation_m = bind_field(L, at, "", "elevation", "m", -430, 6000,
				       site->elevation_m);
	site->wind_height_m = bind_field(L, at, "", "wind_height", "m", 0.5,
					 100, site->wind_height_m);
}

static void read_policies(lua_State *L, int at, struct tarn_csv_map *map)
{
	static const char *const order[] = { "default", "error", "sort", NULL };
	static const char *const duplicates[] = { "error", "first", "last",
						  NULL };
	static const char *const outliers[] = { "error", "missing", NULL };
	static const char *const totals[] = { "missing", "last", "spread",
					      NULL };

	map->order = (enum tarn_csv_order)option_choice(
		L, at, "order", order, TARN_ORDER_DEFAULT);
	map->duplicates = (enum tarn_csv_duplicates)option_choice(
		L, at, "duplicates", duplicates, TARN_DUPLICATES_ERROR);
	map->outliers = (enum tarn_csv_outliers)option_choice(
		L, at, "outliers", outliers, TARN_OUTLIERS_ERROR);
	map->totals = (enum tarn_csv_totals)option_choice(
		L, at, "totals", totals, TARN_TOTALS_MISSING);
	map->hours = option_whole(L, at, "hours", 0, 1440, map->hours);
	map->hour_shift = option_whole(L, at, "hour_shift", -36, 36,
				       map->hour_shift);
	map->undated = bind_switch(L, at, "undated", map->undated);
}

/* Calls a reader with t[name], where it is given. */
static void option(lua_State *L, int at, const char *name,
		   void (*reader)(lua_State *, int, struct tarn_csv_map *),
		   struct tarn_csv_map *map)
{
	if (!option_has(L, at, name))
		return;
	reader(L, -1, map);
	lua_pop(L, 1);
}

void bind_csv_map(lua_State *L, int arg, struct tarn_csv_map *map)
{
	static const char *const known[] = {
		"columns", "units", "layout", "name", "latitude", "elevation",
		"wind_height", "date", "skip", "header", "delimiter",
		"decimal", "missing", "trace", "station", "station_column",
		"element", "value", "order", "duplicates", "outliers",
		"totals", "hours", "hour_shift", "undated", NULL
	};

	*map = tarn_csv_map_default();
	if (lua_isnoneornil(L, arg))
		return;
	bind_known(L, arg, NULL, known);
	option(L, arg, "columns", read_columns, map);
	option(L, arg, "units", read_units, map);
	option(L, arg, "date", read_date, map);
	option(L, arg, "skip", read_skip, map);
	option(L, arg, "missing", read_missing, map);
	option_text(L, arg, "layout", map->layout, sizeof map->layout);
	option_text(L, arg, "trace", map->trace, sizeof map->trace);
	option_text(L, arg, "station", map->station_id,
		    sizeof map->station_id);
	option_place(L, arg, "station_column", &map->station);
	option_place(L, arg, "element", &map->element);
	option_place(L, arg, "value", &map->value);
	map->no_header = !bind_switch(L, arg, "header", 1);
	read_character(L, arg, "delimiter", &map->delimiter);
	read_character(L, arg, "decimal", &map->decimal);
	read_site(L, arg, map);
	read_policies(L, arg, map);
}
