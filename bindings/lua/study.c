/* SPDX-License-Identifier: MIT */
#include "bind_pond.h"
#include "bind_study.h"
#include "bind_weather.h"

enum { LIST_MAX = 100000000 };

/* ---- making a study --------------------------------------------------------- */

/* What is on top of the stack lives as long as the study does; popped. */
static void keep(lua_State *L, int box)
{
	lua_getiuservalue(L, box, 1);
	lua_rotate(L, -2, 1);
	lua_rawseti(L, -2, (lua_Integer)lua_rawlen(L, -2) + 1);
	lua_pop(L, 1);
}

/* Field 'many' as a list, or field 'one' as a list of one: pushed. */
static size_t push_list(lua_State *L, const char *one, const char *many)
{
	int is_one = lua_getfield(L, 1, one) != LUA_TNIL;
	int is_many = lua_getfield(L, 1, many) != LUA_TNIL;

	if (is_one == is_many)
		bind_error(L, "study needs either %s or %s", one, many);
	if (is_many) {
		lua_remove(L, -2);
		return bind_list(L, lua_gettop(L), many, 1, LIST_MAX);
	}
	lua_pop(L, 1);
	lua_createtable(L, 1, 0);
	lua_rotate(L, -2, 1);
	lua_rawseti(L, -2, 1);
	return 1;
}

static void read_ponds(lua_State *L, int at, struct tarn_study *study)
{
	size_t n = push_list(L, "pond", "ponds");
	struct tarn_pond *ponds = lua_newuserdatauv(L, n * sizeof *ponds, 0);
	const struct tarn_design **designs =
		lua_newuserdatauv(L, n * sizeof *designs, 0);

	for (size_t i = 0; i < n; i++) {
		struct pond_box *box;

		lua_rawgeti(L, -3, (lua_Integer)i + 1);
		box = luaL_testudata(L, -1, POND_T);
		if (!box)
			bind_error(L, "ponds: entry %d is no pond: make it by "
				   "tarn.pond", (int)i + 1);
		ponds[i] = box->made.pond;
		designs[i] = box->given;
		lua_pop(L, 1);
	}
	study->ponds = ponds;
	study->designs = designs;
	study->pond_count = n;
	keep(L, at);
	keep(L, at);
	keep(L, at);	/* the list, which holds the ponds */
}

/* Weathers as the first pond takes them, or forcings that were made before. */
static void read_weathers(lua_State *L, int at, struct tarn_study *study,
			  const struct tarn_run_options *o)
{
	size_t n;
	struct tarn_forcing *weathers;
	struct tarn_study_sky *skies;
	struct pond_box *pond;

	push_list(L, "pond", "ponds");
	lua_rawgeti(L, -1, 1);
	pond = bind_check_pond(L, -1);
	n = push_list(L, "weather", "weathers");
	weathers = lua_newuserdatauv(L, n * sizeof *weathers, 0);
	keep(L, at);
	skies = lua_newuserdatauv(L, n * sizeof *skies, 0);
	keep(L, at);
	for (size_t i = 0; i < n; i++) {
		const struct tarn_sky *sky;

		lua_rawgeti(L, -1, (lua_Integer)i + 1);
		sky = luaL_testudata(L, -1, FORCING_T);
		if (!sky) {
			sky = bind_new_forcing(L, pond, lua_gettop(L), o);
			lua_remove(L, -2);
		}
		weathers[i] = sky->forcing;
		skies[i] = (struct tarn_study_sky){ sky->weather, sky->method };
		keep(L, at);
	}
	study->weathers = weathers;
	study->weather_count = n;
	study->skies = skies;
	lua_pop(L, 3);
}

/* One column: {field =, set = | times = | plus =}; the table is on top. */
static size_t read_column(lua_State *L, int at, struct tarn_study_column *out)
{
	static const char *const known[] = { "field", "set", "times", "plus",
					     NULL };
	static const char *const how[] = { "set", "times", "plus" };
	size_t count = 0, n;
	int table = lua_gettop(L), given = 0;

	bind_known(L, table, NULL, known);
	if (lua_getfield(L, table, "field") != LUA_TSTRING)
		bind_error(L, "columns: each needs a field, such as "
			   "\"bed.area\"");
	out->field = lua_tostring(L, -1);
	keep(L, at);
	for (int i = 0; i < 3; i++) {
		double *x = bind_field_doubles(L, table, how[i], &n);

		if (!x) {
			lua_pop(L, 1);
			continue;
		}
		keep(L, at);
		out->change = (enum tarn_study_change)i;
		out->value = x;
		count = n;
		given++;
	}
	if (given != 1)
		bind_error(L, "%s: give one of set, times or plus", out->field);
	return count;
}

static void read_columns(lua_State *L, int at, struct tarn_study *study)
{
	struct tarn_study_column *columns;
	size_t n = 0;

	if (lua_getfield(L, 1, "columns") != LUA_TNIL)
		n = bind_list(L, lua_gettop(L), "columns", 0, 1000);
	columns = lua_newuserdatauv(L, (n + 1) * sizeof *columns, 0);
	for (size_t i = 0; i < n; i++) {
		size_t rows;

		if (lua_rawgeti(L, -2, (lua_Integer)i + 1) != LUA_TTABLE)
			bind_error(L, "columns: entry %d must be a table",
				   (int)i + 1);
		rows = read_column(L, at, &columns[i]);
		lua_pop(L, 1);
		if (i > 0 && rows != study->variants)
			bind_error(L, "%s has %d values, the columns before it "
				   "%d", columns[i].field, (int)rows,
				   (int)study->variants);
		study->variants = rows;
	}
	study->columns = columns;
	study->column_count = n;
	keep(L, at);
	lua_pop(L, 1);
}

static void read_pond_of(lua_State *L, int at, struct tarn_study *study)
{
	size_t count;
	double *x = bind_field_doubles(L, 1, "pond_of", &count);
	unsigned *pond_of;

	if (!x) {
		lua_pop(L, 1);
		return;
	}
	if (study->column_count == 0)
		study->variants = count;
	if (count != study->variants)
		bind_error(L, "pond_of has %d entries for %d variants",
			   (int)count, (int)study->variants);
	pond_of = lua_newuserdatauv(L, (count + 1) * sizeof *pond_of, 0);
	for (size_t i = 0; i < count; i++) {
		if (!(x[i] >= 1 && x[i] <= (double)study->pond_count))
			bind_error(L, "pond_of: entry %d is no pond's number",
				   (int)i + 1);
		pond_of[i] = (unsigned)x[i] - 1;
	}
	study->pond_of = pond_of;
	keep(L, at);
	lua_pop(L, 1);
}

/* The control becomes user value 2; the fingerprint has the text that is given,
 * or the control's own. */
static void read_control(lua_State *L, int at, struct tarn_study *study)
{
	int given = lua_getfield(L, 1, "control_text");

	if (given != LUA_TNIL && given != LUA_TSTRING)
		bind_error(L, "control_text must be a text");
	if (lua_getfield(L, 1, "each_day") == LUA_TNIL && given != LUA_TNIL)
		bind_error(L, "control_text goes with each_day");
	bind_check_control(L);
	if (given == LUA_TNIL)
		bind_push_control_text(L);
	else
		lua_pushvalue(L, -2);
	study->control_bytes = lua_tolstring(L, -1, &study->control_size);
	keep(L, at);
	lua_setiuservalue(L, at, 2);
}

/*
 * study{pond = | ponds =, weather = | weathers =, columns = {{field =, set = |
 * times = | plus = list}}, pond_of =, skip_bad =, each_day =, control_text =, and
 * fields of tarn_run_options_fields} -> study
 */
static int l_study(lua_State *L)
{
	static const char *const also[] = {
		"pond", "ponds", "weather", "weathers", "columns", "pond_of",
		"skip_bad", "each_day", "control_text", NULL
	};
	struct tarn_run_options o = tarn_run_options_default();
	struct study_box *box;
	int at;

	lua_remove(L, 1);	/* the table tarn.study that was called */
	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 1);
	bind_fields(L, 1, &tarn_run_options_fields, &o, also);
	box = lua_newuserdatauv(L, sizeof *box, 2);
	at = lua_gettop(L);
	box->study = tarn_study_default();
	lua_newtable(L);
	lua_setiuservalue(L, at, 1);
	luaL_setmetatable(L, STUDY_T);
	read_ponds(L, at, &box->study);
	read_weathers(L, at, &box->study, &o);
	read_columns(L, at, &box->study);
	read_pond_of(L, at, &box->study);
	box->study.run = tarn_run_of(&o);
	box->study.skip_bad = bind_switch(L, 1, "skip_bad", 0);
	read_control(L, at, &box->study);
	lua_settop(L, at);
	return 1;
}

/* ---- about a study ------------------------------------------------------------ */

/* study:check() -> list of the numbers of bad variants, what is wrong with the
 * first of them */
static int l_check(lua_State *L)
{
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);
	size_t room = box->study.variants, count;
	size_t *bad = lua_newuserdatauv(L, (room + 1) * sizeof *bad, 0);
	struct tarn_error err = { 0 };

	tarn_study_check(&box->study, bad, room, &count, &err);
	if (err.code != TARN_OK && count == 0)
		bind_fail(L, &err, NULL);
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		lua_pushinteger(L, (lua_Integer)bad[i] + 1);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
	if (count == 0)
		return 1;
	lua_pushfstring(L, "%s %s", err.field, err.text);
	return 2;
}

static int l_fingerprint(lua_State *L)
{
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);

	bind_push_fingerprint(L, tarn_study_fingerprint(&box->study));
	return 1;
}

static int l_length(lua_State *L)
{
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);

	lua_pushinteger(L, (lua_Integer)tarn_study_count(&box->study));
	return 1;
}

static int l_tostring(lua_State *L)
{
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);

	lua_pushfstring(L, "study: %d variants, %d weathers",
			(int)box->study.variants,
			(int)box->study.weather_count);
	return 1;
}

/* study.quantities() -> list of {name =, unit =, meaning =} */
static int l_quantities(lua_State *L)
{
	lua_createtable(L, TARN_QUANTITIES, 0);
	for (int q = 0; q < TARN_QUANTITIES; q++) {
		bind_push(L, &tarn_quantity_info_fields,
			  tarn_quantity_info((enum tarn_quantity)q));
		lua_rawseti(L, -2, q + 1);
	}
	return 1;
}

void bind_study(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "run", bind_study_run },
		{ "check", l_check },
		{ "fingerprint", l_fingerprint },
		{ "__len", l_length },
		{ "__tostring", l_tostring },
		{ NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "quantities", l_quantities },
		{ "interrupted", bind_study_interrupted },
		{ NULL, NULL }
	};

	bind_methods(L, STUDY_T, methods);
	lua_newtable(L);
	luaL_setfuncs(L, functions, 0);
	bind_study_records(L);
	bind_study_tools(L);
	bind_study_units(L);
	lua_createtable(L, 0, 1);
	lua_pushcfunction(L, l_study);
	lua_setfield(L, -2, "__call");
	lua_setmetatable(L, -2);
	lua_setfield(L, -2, "study");
}
