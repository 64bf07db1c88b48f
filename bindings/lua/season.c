/* SPDX-License-Identifier: MIT */
/* A usual year of a ledger, absence, frost. */
#include "bind_pond.h"
#include "bind_weather.h"

/* season(ledger) -> what season.h says of it */
static int l_season(lua_State *L)
{
	const struct tarn_ledger *from = bind_check_ledger(L, 1);
	struct tarn_season *s = lua_newuserdatauv(L, sizeof *s, 0);

	BIND_DO(L, tarn_season, s, NULL, from);
	bind_push(L, &tarn_season_fields, s);
	return 1;
}

/* absence(days, first) -> how long a pond lasts, by month of leaving; 'days' as
 * pond:endurance gives them, the first one of a start on the date 'first' */
static int l_absence(lua_State *L)
{
	long first = bind_day(L, 2, "first");
	struct tarn_absence absence;
	size_t count;
	long *days;

	luaL_checktype(L, 1, LUA_TTABLE);
	count = lua_rawlen(L, 1);
	days = lua_newuserdatauv(L, (count + 1) * sizeof *days, 0);
	for (size_t i = 0; i < count; i++) {
		int type = lua_rawgeti(L, 1, (lua_Integer)i + 1);

		days[i] = type == LUA_TNUMBER ? (long)lua_tointeger(L, -1) :
			  type == LUA_TSTRING ? TARN_ENDURANCE_LEFT_OUT : -1;
		lua_pop(L, 1);
	}
	BIND_DO(L, tarn_absence, &absence, NULL, days, count, first);
	bind_push(L, &tarn_absence_fields, &absence);
	return 1;
}

/* frost(weather, south) -> frost dates and days; nil where the weather has no
 * lowest temperatures */
static int l_frost(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	const double *tmin_c = tarn_weather_column(w, TARN_TMIN);
	struct tarn_frost f;

	if (!tmin_c)
		return 0;
	f = tarn_frost(tarn_weather_first(w), tmin_c,
		       tarn_weather_column(w, TARN_TMAX), tarn_weather_days(w),
		       lua_toboolean(L, 2));
	bind_push(L, &tarn_frost_fields, &f);
	bind_set(L, "hard_frost", TARN_HARD_FROST_C);
	bind_set(L, "ice_least", TARN_ICE_LEAST);
	bind_set(L, "ice_most", TARN_ICE_MOST);
	return 1;
}

/* few_years(years) -> whether a dry year is rough by so many */
static int l_few_years(lua_State *L)
{
	lua_pushboolean(L, luaL_checknumber(L, 1) < TARN_SEASON_YEARS_ENOUGH);
	return 1;
}

/* usual_days(month) -> days of a month, 28.25 in February */
static int l_usual_days(lua_State *L)
{
	lua_Integer month = luaL_checkinteger(L, 1);

	if (month < 1 || month > 12)
		return bind_error(L, "month must be 1 to 12, got %I", month);
	lua_pushnumber(L, tarn_usual_days((int)month));
	return 1;
}

void bind_season(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "season", l_season },   { "absence", l_absence },
		{ "frost", l_frost },     { "few_years", l_few_years },
		{ "usual_days", l_usual_days },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
