/* SPDX-License-Identifier: MIT */
#include "bind_pond.h"

/* Top-up of a pond as a prediction, and what a measurement narrows. */

/* Sets 'worth' of the range on top. */
static void set_worth(lua_State *L, const struct tarn_forecast_range *range,
		      const struct tarn_exposure_budget *budget)
{
	struct tarn_worth worth[TARN_REMEDIES];
	int count = tarn_worth(range, budget, worth);

	bind_push_list(L, &tarn_worth_fields, worth, (size_t)count,
		       sizeof *worth);
	lua_setfield(L, -2, "worth");
}

static void push_forecast(lua_State *L, const struct tarn_forecast *f,
			  const struct tarn_exposure_budget *budget)
{
	bind_push(L, &tarn_forecast_fields, f);
	bind_set(L, "ruler_mm", TARN_RULER_MM);
	bind_push(L, &tarn_exposure_budget_fields, budget);
	lua_setfield(L, -2, "budget");
	lua_getfield(L, -1, "a_week");
	set_worth(L, &f->a_week, budget);
	lua_pop(L, 1);
	lua_getfield(L, -1, "year");
	set_worth(L, &f->year, budget);
	lua_pop(L, 1);
	lua_getfield(L, -1, "months");
	for (int i = 0; i < f->months; i++) {
		lua_rawgeti(L, -1, i + 1);
		lua_getfield(L, -1, "a_week");
		set_worth(L, &f->month[i].a_week, budget);
		lua_pop(L, 2);
	}
	lua_pop(L, 1);
}

/*
 * pond:forecast(weather, options of pond:run and of tarn_forecast) -> what
 * forecast.h says of its top-up; 'budget', on which it rests; and for each
 * range 'worth', what a measurement would make of it, the largest gain first
 */
static int l_forecast(lua_State *L)
{
	const struct tarn_fields *rows = &tarn_forecast_options_fields;
	const char *also[] = { "worlds", "seed", "rain_sd", NULL };
	struct tarn_forecast_options o = tarn_forecast_options_default();
	struct tarn_exposure_budget budget;
	struct tarn_run_options asked;
	const struct tarn_sky *sky = bind_read_run(L, &asked, also);
	struct tarn_run run = tarn_run_of(&asked);
	struct tarn_forecast *f = lua_newuserdatauv(L, sizeof *f, 0);

	bind_read(L, 3, rows, &o);
	BIND_DO(L, tarn_forecast_design, f, &budget, NULL,
		&bind_check_pond(L, 1)->made, sky, &run, &o);
	push_forecast(L, f, &budget);
	return 1;
}

void bind_forecast(lua_State *L)
{
	static const luaL_Reg pond[] = {
		{ "forecast", l_forecast }, { NULL, NULL }
	};

	bind_methods(L, POND_T, pond);
}
