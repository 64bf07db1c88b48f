/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bind_weather.h"

/* A weather as an object. */

#define WEATHER_T "tarn.weather"

struct box {
	struct tarn_weather *weather;	/* NULL: closed */
};

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

/* ---- its columns ------------------------------------------------------ */

void bind_column_names(const char *out[TARN_COLUMNS + 1])
{
	for (int c = 0; c < TARN_COLUMNS; c++)
		out[c] = tarn_column_info((enum tarn_column)c)->name;
	out[TARN_COLUMNS] = NULL;
}

enum tarn_column bind_column(lua_State *L, const char *name)
{
	enum tarn_column c;

	BIND_DO(L, tarn_column_named, name, &c);
	return c;
}

/* ---- what it has ------------------------------------------------------ */

static int l_days(lua_State *L)
{
	lua_pushinteger(L,
		(lua_Integer)tarn_weather_days(bind_check_weather(L, 1)));
	return 1;
}

/* weather:counted() -> days that are not left out */
static int l_counted(lua_State *L)
{
	lua_pushinteger(L,
		(lua_Integer)tarn_weather_counted(bind_check_weather(L, 1)));
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

/* weather:dates() -> list of "YYYY-MM-DD" */
static int l_dates(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	size_t days = tarn_weather_days(w);

	lua_createtable(L, (int)days, 0);
	for (size_t i = 0; i < days; i++) {
		push_day(L, tarn_weather_first(w) + (long)i);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	return 1;
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
	bind_push_numbers(L, x, days);
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

/* weather:left_out() -> {{first =, last =, days =}, ...}, one a stretch */
static int l_left_out(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	const unsigned char *out = tarn_weather_left_out(w);
	size_t days = out ? tarn_weather_days(w) : 0;
	int count = 0;

	lua_newtable(L);
	for (size_t i = 0, end; i < days; i = end) {
		for (end = i; end < days && out[end] == out[i]; end++)
			;
		if (!out[i])
			continue;
		lua_createtable(L, 0, 3);
		bind_set_day(L, "first", tarn_weather_first(w) + (long)i);
		bind_set_day(L, "last", tarn_weather_first(w) + (long)end - 1);
		bind_set_count(L, "days", end - i);
		lua_rawseti(L, -2, ++count);
	}
	return 1;
}

/* weather:leave_out(first, last): these days are not run */
static int l_leave_out(lua_State *L)
{
	struct tarn_weather *w = bind_check_weather(L, 1);
	long first = bind_day(L, 2, "first"), last = bind_day(L, 3, "last");

	BIND_DO(L, tarn_weather_leave_out, w, first, last);
	return 0;
}

/* weather:doubts() -> list of tables: what cannot well be so */
static int l_doubts(lua_State *L)
{
	struct tarn_weather_doubt doubt[TARN_DOUBTS_MAX];
	size_t count = tarn_weather_doubts(bind_check_weather(L, 1), doubt,
					   TARN_DOUBTS_MAX);

	bind_push_list(L, &tarn_weather_doubt_fields, doubt, count,
		       sizeof doubt[0]);
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

/* weather:fill{interpolate =, rain =, columns =} -> {tmin = days filled} */
static int l_fill(lua_State *L)
{
	static const char *const also[] = { "columns", NULL };
	struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_fill how = tarn_fill_default();
	size_t filled[TARN_COLUMNS];

	bind_known(L, 2, &tarn_fill_fields, also);
	if (lua_getfield(L, 2, "rain") == LUA_TSTRING &&
	    strcmp(lua_tostring(L, -1), "interpolate") == 0)
		bind_error(L, "rain must be \"error\" or \"zero\"; it is never "
			   "interpolated");
	bind_read(L, 2, &tarn_fill_fields, &how);
	if (lua_getfield(L, 2, "columns") != LUA_TNIL)
		how.columns = column_bits(L);
	BIND_DO(L, tarn_weather_fill, w, &how, filled);
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

	BIND_DO(L, tarn_weather_slice, bind_new_weather(L), w, first, last);
	return 1;
}

/* weather:join(other) -> weather of both, of one station */
static int l_join(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	const struct tarn_weather *other = bind_check_weather(L, 2);

	BIND_DO(L, tarn_weather_join, bind_new_weather(L), w, other);
	return 1;
}

/* ---- the type --------------------------------------------------------- */

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

BIND_FREE(weather, WEATHER_T)

void bind_weather_type(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "days", l_days },	{ "__len", l_days },
		{ "first", l_first },	{ "last", l_last },
		{ "dates", l_dates },	{ "column", l_column }, { "site", l_site },
		{ "notes", l_notes },	{ "summary", l_summary },
		{ "doubts", l_doubts },	{ "counted", l_counted },
		{ "left_out", l_left_out }, { "leave_out", l_leave_out },
		{ "gaps", l_gaps },	{ "fill", l_fill },
		{ "slice", l_slice },	{ "join", l_join },
		{ "close", l_free },
		{ "__gc", l_free },	{ "__close", l_free },
		{ "__tostring", l_tostring }, { NULL, NULL },
	};

	bind_methods(L, WEATHER_T, methods);
}
