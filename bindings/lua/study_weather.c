/* SPDX-License-Identifier: MIT */
#include "bind_study.h"
#include "bind_weather.h"

/* study.changed(weather, {temperature =, rain =, wind =, solar =}) -> weather;
 * each one number, or twelve by month */
static int l_changed(lua_State *L)
{
	const struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_weather_change change = tarn_weather_change_default();

	bind_fields(L, 2, &tarn_weather_change_fields, &change, NULL);
	BIND_DO(L, tarn_weather_changed, bind_new_weather(L), w, &change);
	return 1;
}

/* study.generate(weather, {years =, seed =, stream =, first =}) -> weather,
 * whole years from 1 January of the year 'first' */
static int l_generate(lua_State *L)
{
	static const char *const known[] = { "years", "seed", "stream",
					     "first", NULL };
	const struct tarn_weather *w = bind_check_weather(L, 1);
	struct tarn_error err = { 0 };
	double years, seed, stream;
	int first;
	long start, end;

	luaL_checktype(L, 2, LUA_TTABLE);
	bind_known(L, 2, NULL, known);
	years = bind_field(L, 2, "generate", "years", "years", 1, 400, 30);
	seed = bind_field(L, 2, "generate", "seed", "-", 0, 1e15, 1);
	stream = bind_field(L, 2, "generate", "stream", "-", 0, 1e15, 0);
	first = (int)bind_field(L, 2, "generate", "first", "year", 1800, 2200,
				1801);
	start = tarn_day(first, 1, 1);
	end = tarn_day(first + (int)years - 1, 12, 31);
	if (end == TARN_NO_DAY)
		bind_error(L, "generate.years: ends after 2200");
	bind_must(L, tarn_weather_generated(bind_new_weather(L), NULL, w,
					    (uint64_t)seed, (uint64_t)stream,
					    start, (size_t)(end - start + 1),
					    &err), &err);
	return 1;
}

void bind_study_weather(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "changed", l_changed },
		{ "generate", l_generate },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
