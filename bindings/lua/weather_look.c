/* SPDX-License-Identifier: MIT */
#include "bind_weather.h"

/* What a weather tells of itself. */

static int l_days(lua_State *L)
{
	lua_pushinteger(L,
		(lua_Integer)tarn_weather_days(bind_check_weather(L, 1)));
	return 1;
}

static int push_day(lua_State *L, long day)
{
	char text[11];

	tarn_day_text(day, text);
	lua_pushstring(L, text);
	return 1;
}

static int l_first(lua_State *L)
{
	return push_day(L, tarn_weather_first(bind_check_weather(L, 1)));
}

static int l_last(lua_State *L)
{
	return push_day(L, bind_last_day(bind_check_weather(L, 1)));
}

/* weather:column(name) -> list of numbers, NaN where a day is missing; nil if
 * there is no such column */
static int l_column(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	enum tarn_column c = bind_column(L, bind_string(L, 2, "name of a column",
							NULL));
	const double *x = tarn_weather_column(w, c);
	size_t days = tarn_weather_days(w);

	if (!x) {
		lua_pushnil(L);
		return 1;
	}
	lua_createtable(L, (int)days, 0);
	for (size_t i = 0; i < days; i++) {
		lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

/* weather:summary() -> {tmin = {present =, missing =, min =, ...}, ...} */
static int l_summary(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);

	lua_newtable(L);
	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;
		struct tarn_column_summary s = tarn_weather_summary(w, c);

		if (!tarn_weather_column(w, c))
			continue;
		bind_push(L, &tarn_column_summary_fields, &s);
		bind_set_text(L, "unit", tarn_column_info(c)->unit);
		lua_setfield(L, -2, tarn_column_info(c)->name);
	}
	return 1;
}

/* weather:gaps() -> {{column =, first =, days =}, ...} */
static int l_gaps(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	size_t at, days;
	int count = 0;

	lua_newtable(L);
	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;

		if (!tarn_weather_column(w, c))
			continue;
		for (size_t from = 0; tarn_weather_gap(w, c, from, &at, &days);
		     from = at + days) {
			lua_createtable(L, 0, 3);
			bind_set_text(L, "column", tarn_column_info(c)->name);
			bind_set_day(L, "first",
				     tarn_weather_first(w) + (long)at);
			bind_set_count(L, "days", days);
			lua_rawseti(L, -2, ++count);
		}
	}
	return 1;
}

static int l_site(lua_State *L)
{
	bind_push(L, &tarn_site_fields,
		  tarn_weather_site_of(bind_check_weather(L, 1)));
	return 1;
}

static int l_notes(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	size_t count = tarn_weather_notes(w);

	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_pushstring(L, tarn_weather_note(w, i));
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
}

const luaL_Reg bind_weather_looks[] = {
	{ "days", l_days },   { "__len", l_days },
	{ "first", l_first }, { "last", l_last },
	{ "column", l_column }, { "site", l_site },
	{ "notes", l_notes }, { "summary", l_summary },
	{ "gaps", l_gaps },   { NULL, NULL },
};
