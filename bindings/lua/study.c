/* SPDX-License-Identifier: MIT */
#include <string.h>

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

/* Turns a weather on top of the stack into the forcing of the first pond. */
static void work_out_weather(lua_State *L, int first_pond)
{
	static const char *const names[] = { "method", "first", "last" };

	lua_pushcfunction(L, bind_pond_forcing);
	lua_rotate(L, -2, 1);
	lua_pushvalue(L, first_pond);
	lua_rotate(L, -2, 1);
	lua_newtable(L);
	for (int i = 0; i < 3; i++) {
		lua_getfield(L, 1, names[i]);
		lua_setfield(L, -2, names[i]);
	}
	lua_call(L, 3, 1);
}

/* Pushes the first pond of the study's arguments. */
static void push_first_pond(lua_State *L)
{
	push_list(L, "pond", "ponds");
	lua_rawgeti(L, -1, 1);
	lua_remove(L, -2);
}

static void read_weathers(lua_State *L, int at, struct tarn_study *study)
{
	size_t n;
	struct tarn_forcing *weathers;
	struct tarn_study_sky *skies;
	int pond, list;

	push_first_pond(L);
	pond = lua_gettop(L);
	n = push_list(L, "weather", "weathers");
	list = lua_gettop(L);
	weathers = lua_newuserdatauv(L, n * sizeof *weathers, 0);
	keep(L, at);
	skies = lua_newuserdatauv(L, n * sizeof *skies, 0);
	keep(L, at);
	for (size_t i = 0; i < n; i++) {
		const struct forcing_box *box;

		lua_rawgeti(L, list, (lua_Integer)i + 1);
		if (!luaL_testudata(L, -1, FORCING_T)) {
			bind_check_weather(L, -1);
			work_out_weather(L, pond);
		}
		box = lua_touserdata(L, -1);
		weathers[i] = box->forcing;
		skies[i] = box->sky;
		keep(L, at);
	}
	study->weathers = weathers;
	study->weather_count = n;
	study->skies = skies;
	lua_settop(L, pond - 1);
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
 * times = | plus = list}}, pond_of =, first =, last =, method =,
 * start_level =, topup =, stopped =, skip_bad =, each_day =, control_text =}
 * -> study
 */
static int l_study(lua_State *L)
{
	static const char *const known[] = {
		"pond", "ponds", "weather", "weathers", "columns", "pond_of",
		"first", "last", "method", "start_level", "topup", "stopped",
		"skip_bad", "each_day", "control_text", NULL
	};
	struct study_box *box;
	int at;

	lua_remove(L, 1);	/* the table tarn.study that was called */
	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 1);
	bind_known(L, 1, NULL, known);
	box = lua_newuserdatauv(L, sizeof *box, 2);
	at = lua_gettop(L);
	box->study = tarn_study_default();
	lua_newtable(L);
	lua_setiuservalue(L, at, 1);
	luaL_setmetatable(L, STUDY_T);
	read_ponds(L, at, &box->study);
	read_weathers(L, at, &box->study);
	read_columns(L, at, &box->study);
	read_pond_of(L, at, &box->study);
	box->study.run.start_level_m = bind_field(L, 1, "", "start_level", "m",
						  -1000, 10000, TARN_NAN);
	box->study.run.no_topup = !bind_switch(L, 1, "topup", 1);
	box->study.run.start_stopped = bind_switch(L, 1, "stopped", 0);
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

/* ---- what a column is in ------------------------------------------------------- */

struct asked {
	char path[96];
	const struct tarn_field *row;
};

static void find_row(void *context, const char *path,
		     const struct tarn_field *row)
{
	struct asked *a = context;

	if (strcmp(a->path, path) == 0)
		a->row = row;
}

/* Any entry of a list stands for its first; a month or number for all. */
static void without_numbers(const char *path, char out[96])
{
	size_t n = 0;

	for (; *path && n < 92; path++) {
		out[n++] = *path;
		if (*path != '[')
			continue;
		path += strspn(path + 1, "0123456789");
		out[n++] = '1';
	}
	out[n] = '\0';
	while (n > 3 && strcmp(out + n - 3, "[1]") == 0)
		out[n -= 3] = '\0';
	while (n > 0 && out[n - 1] >= '0' && out[n - 1] <= '9')
		n--;
	if (n > 0 && out[n - 1] == '.')
		out[n - 1] = '\0';
}

/* study.unit("bed.layers[2].thickness") -> "m", or nil */
static int l_unit(lua_State *L)
{
	struct asked a = { "", NULL };

	without_numbers(luaL_checkstring(L, 1), a.path);
	tarn_fields_walk(&tarn_design_fields, find_row, &a);
	if (a.row)
		lua_pushstring(L, a.row->unit);
	return a.row != NULL;
}

/* study.quantities() -> list of {name =, unit =, meaning =} */
static int l_quantities(lua_State *L)
{
	lua_createtable(L, TARN_QUANTITIES, 0);
	for (int q = 0; q < TARN_QUANTITIES; q++) {
		bind_push(L, &tarn_quantity_info_fields, tarn_quantity_info(q));
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
		{ "unit", l_unit },
		{ NULL, NULL }
	};

	bind_methods(L, STUDY_T, methods);
	lua_newtable(L);
	luaL_setfuncs(L, functions, 0);
	bind_study_records(L);
	bind_study_tools(L);
	bind_study_weather(L);
	lua_createtable(L, 0, 1);
	lua_pushcfunction(L, l_study);
	lua_setfield(L, -2, "__call");
	lua_setmetatable(L, -2);
	lua_setfield(L, -2, "study");
}
