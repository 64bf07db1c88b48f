/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "bind_study.h"
#include "bind_weather.h"

/* Designs, sensitivities, budgets, weather. */

enum { DESIGN_NUMBERS_MAX = 100000000 };

static double whole_arg(lua_State *L, int arg, const char *what, double lo,
			double hi)
{
	double x = bind_number(L, arg, what, lo, hi);

	if (x != floor(x))
		bind_error(L, "%s must be a whole number, got %f", what, x);
	return x;
}

static size_t size_arg(lua_State *L, int arg, const char *what, double hi)
{
	return (size_t)whole_arg(L, arg, what, 1, hi);
}

static uint64_t seed_arg(lua_State *L, int arg)
{
	return lua_isnoneornil(L, arg) ? 1
		: (uint64_t)whole_arg(L, arg, "seed", 0, 1e15);
}

/* Space for samples, which a study's file may ask for. */
static double *new_design(lua_State *L, size_t rows, size_t columns)
{
	if (rows * columns > DESIGN_NUMBERS_MAX)
		bind_error(L, "%d rows of %d columns are more than %d million "
			   "numbers", (int)rows, (int)columns,
			   DESIGN_NUMBERS_MAX / 1000000);
	return lua_newuserdatauv(L, (rows * columns + 1) * sizeof(double), 0);
}

/* Samples as a list of columns. */
static int push_design(lua_State *L, const double *x, size_t rows,
		       size_t columns)
{
	lua_createtable(L, (int)columns, 0);
	for (size_t d = 0; d < columns; d++) {
		bind_push_doubles(L, x + d * rows, rows);
		lua_rawseti(L, -2, (lua_Integer)d + 1);
	}
	return 1;
}

/* study.grid{levels, ...} -> columns of shares */
static int l_grid(lua_State *L)
{
	size_t columns, rows = 1;
	double *x, *given = bind_doubles(L, 1, "levels", &columns);
	size_t *levels = lua_newuserdatauv(L, (columns + 1) * sizeof *levels,
					   0);

	for (size_t d = 0; d < columns; d++) {
		if (!(given[d] >= 1 && given[d] <= 1e6))
			bind_error(L, "levels: entry %d must be 1 or more",
				   (int)d + 1);
		levels[d] = (size_t)given[d];
		rows *= levels[d];
		if (rows > 10000000)
			bind_error(L, "levels: more than 10 million rows");
	}
	x = new_design(L, rows, columns);
	tarn_samples_grid(x, levels, columns);
	return push_design(L, x, rows, columns);
}

/* study.latin(rows, columns, seed) -> columns of shares */
static int l_latin(lua_State *L)
{
	size_t rows = size_arg(L, 1, "rows", 1e7);
	size_t columns = size_arg(L, 2, "columns", 1000);
	uint64_t seed = seed_arg(L, 3);
	double *x = new_design(L, rows, columns);

	tarn_samples_latin(x, rows, columns, seed);
	return push_design(L, x, rows, columns);
}

/* study.sobol(rows, columns) -> columns of shares */
static int l_sobol(lua_State *L)
{
	size_t rows = size_arg(L, 1, "rows", 1e7);
	size_t columns = size_arg(L, 2, "columns", TARN_SOBOL_COLUMNS);
	double *x = new_design(L, rows, columns);

	BIND_DO(L, tarn_samples_sobol, x, rows, columns, 0);
	return push_design(L, x, rows, columns);
}

/* study.scale(shares, low, high) -> list of numbers */
static int l_scale(lua_State *L)
{
	size_t rows;
	double *x = bind_doubles(L, 1, "shares", &rows);

	tarn_samples_scale(x, rows, luaL_checknumber(L, 2),
			   luaL_checknumber(L, 3));
	bind_push_doubles(L, x, rows);
	return 1;
}

/* ---- which input matters ------------------------------------------------------- */

/* study.one_at_a_time(low, high) -> columns; false is the pond's own */
static int l_one_at_a_time(lua_State *L)
{
	size_t columns, n;
	double *low = bind_doubles(L, 1, "low", &columns);
	double *high = bind_doubles(L, 2, "high", &n), *x;

	if (n != columns)
		bind_error(L, "low has %d numbers, high %d", (int)columns,
			   (int)n);
	x = new_design(L, 1 + 2 * columns, columns);
	tarn_samples_one_at_a_time(x, low, high, columns);
	return push_design(L, x, 1 + 2 * columns, columns);
}

/* study.swings(results) -> list of {base =, low =, high =, swing =, rank =} */
static int l_swings(lua_State *L)
{
	size_t n, columns;
	double *y = bind_doubles(L, 1, "results", &n);
	struct tarn_swing *s;

	if (n < 3 || n % 2 == 0)
		bind_error(L, "results: 1 + 2 for each input, got %d", (int)n);
	columns = (n - 1) / 2;
	s = lua_newuserdatauv(L, columns * sizeof *s, 0);
	tarn_one_at_a_time(y, columns, s);
	bind_push_list(L, &tarn_swing_fields, s, columns, sizeof *s);
	return 1;
}

/* study.sensitivity_samples(count, columns) -> columns of shares */
static int l_sensitivity_samples(lua_State *L)
{
	size_t count = size_arg(L, 1, "count", 1e6);
	size_t columns = size_arg(L, 2, "columns", TARN_SOBOL_COLUMNS / 2);
	size_t rows = count * (columns + 2);
	double *x = new_design(L, rows, columns);

	BIND_DO(L, tarn_sensitivity_samples, x, count, columns);
	return push_design(L, x, rows, columns);
}

/* study.sensitivity(results, columns, seed) -> list of {first =, first_low =,
 * first_high =, total =, total_low =, total_high =} */
static int l_sensitivity(lua_State *L)
{
	size_t n, columns = size_arg(L, 2, "columns", TARN_SOBOL_COLUMNS / 2);
	uint64_t seed = seed_arg(L, 3);
	double *y = bind_doubles(L, 1, "results", &n);
	struct tarn_sensitivity s[TARN_SOBOL_COLUMNS / 2];

	if (n % (columns + 2) != 0)
		bind_error(L, "results: %d do not come from samples of %d "
			   "columns", (int)n, (int)columns);
	BIND_DO(L, tarn_sensitivity, y, n / (columns + 2), columns, seed, NULL,
		s);
	bind_push_list(L, &tarn_sensitivity_fields, s, columns, sizeof s[0]);
	return 1;
}

/* ---- budget, tank ---------------------------------------------------------------- */

/* study.budget{reference =, unit =, area =, special_area =, adjustment =,
 * plant_factor =, efficiency =} -> {allowance =, use =} */
static int l_budget(lua_State *L)
{
	struct tarn_budget b;

	tarn_fields_default(&tarn_budget_fields, &b);
	bind_fields(L, 1, &tarn_budget_fields, &b, NULL);
	lua_createtable(L, 0, 2);
	bind_set(L, "allowance", tarn_budget_allowance(&b));
	bind_set(L, "use", tarn_budget_use(&b));
	return 1;
}

/* study.tank_capacity(capacities, shares, wanted) -> m3, or nil */
static int l_tank_capacity(lua_State *L)
{
	size_t n, m;
	double *capacity = bind_doubles(L, 1, "capacities", &n);
	double *share = bind_doubles(L, 2, "shares", &m), out;

	if (n != m)
		bind_error(L, "capacities has %d numbers, shares %d", (int)n,
			   (int)m);
	out = tarn_tank_capacity(capacity, share, n,
				 bind_number(L, 3, "wanted", 0, 1));
	if (out >= 0)
		lua_pushnumber(L, out);
	else
		lua_pushnil(L);
	return 1;
}

/* ---- weather ------------------------------------------------------------- */

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

void bind_study_tools(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "grid", l_grid },
		{ "latin", l_latin },
		{ "sobol", l_sobol },
		{ "scale", l_scale },
		{ "one_at_a_time", l_one_at_a_time },
		{ "swings", l_swings },
		{ "sensitivity_samples", l_sensitivity_samples },
		{ "sensitivity", l_sensitivity },
		{ "budget", l_budget },
		{ "tank_capacity", l_tank_capacity },
		{ "changed", l_changed },
		{ "generate", l_generate },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
