/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "bind_pond.h"
#include "bind_study.h"
#include "bind_weather.h"

#define STUDY_T "tarn.study"
enum { LIST_MAX = 100000000 };

/* ---- arrays ---------------------------------------------------------------- */

double *bind_doubles(lua_State *L, int arg, const char *what, size_t *count)
{
	double *x;

	arg = lua_absindex(L, arg);
	*count = bind_list(L, arg, what, 0, LIST_MAX);
	x = lua_newuserdatauv(L, (*count + 1) * sizeof *x, 0);
	for (size_t i = 0; i < *count; i++) {
		int type = lua_rawgeti(L, arg, (lua_Integer)i + 1);

		x[i] = TARN_NAN;
		if (type == LUA_TNUMBER)
			x[i] = lua_tonumber(L, -1);
		else if (type != LUA_TBOOLEAN || lua_toboolean(L, -1))
			bind_error(L, "%s: entry %d must be a number (or false "
				   "for none), got %s", what, (int)i + 1,
				   lua_typename(L, type));
		lua_pop(L, 1);
	}
	return x;
}

double *bind_field_doubles(lua_State *L, int arg, const char *name,
			   size_t *count)
{
	double *x;

	*count = 0;
	if (lua_getfield(L, arg, name) == LUA_TNIL)
		return NULL;
	x = bind_doubles(L, -1, name, count);
	lua_remove(L, -2);
	return x;
}

void bind_push_doubles(lua_State *L, const double *x, size_t count)
{
	lua_createtable(L, (int)count, 0);
	for (size_t i = 0; i < count; i++) {
		if (isnan(x[i]))
			lua_pushboolean(L, 0);
		else
			lua_pushnumber(L, x[i]);
		lua_rawseti(L, -2, (lua_Integer)i + 1);
	}
}

/* ---- making a study --------------------------------------------------------- */

/* A study, and what it borrows: uservalue 1 holds all of it. */
struct study_box {
	struct tarn_study study;
	int has_rule;
};

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

	for (size_t i = 0; i < n; i++) {
		struct pond_box *box;

		lua_rawgeti(L, -2, (lua_Integer)i + 1);
		box = luaL_testudata(L, -1, POND_T);
		if (!box)
			bind_error(L, "ponds: entry %d is no pond: make it by "
				   "tarn.pond", (int)i + 1);
		ponds[i] = box->pond;
		lua_pop(L, 1);
	}
	study->ponds = ponds;
	study->pond_count = n;
	keep(L, at);
	keep(L, at);	/* the list, which holds the ponds' basins */
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
	int pond, list;

	push_first_pond(L);
	pond = lua_gettop(L);
	n = push_list(L, "weather", "weathers");
	list = lua_gettop(L);
	weathers = lua_newuserdatauv(L, n * sizeof *weathers, 0);
	keep(L, at);
	for (size_t i = 0; i < n; i++) {
		lua_rawgeti(L, list, (lua_Integer)i + 1);
		if (!luaL_testudata(L, -1, FORCING_T)) {
			bind_check_weather(L, -1);
			work_out_weather(L, pond);
		}
		weathers[i] = *(struct tarn_forcing *)lua_touserdata(L, -1);
		keep(L, at);
	}
	study->weathers = weathers;
	study->weather_count = n;
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

static int read_switch(lua_State *L, int arg, const char *name, int otherwise)
{
	int type = lua_getfield(L, arg, name);
	int on = type == LUA_TNIL ? otherwise : lua_toboolean(L, -1);

	if (type != LUA_TNIL && type != LUA_TBOOLEAN)
		bind_error(L, "%s must be true or false", name);
	lua_pop(L, 1);
	return on;
}

/*
 * study{pond = | ponds =, weather = | weathers =, columns = {{field =, set = |
 * times = | plus = list}}, pond_of =, first =, last =, method =,
 * start_level =, topup =, stopped =, skip_bad =, each_day =} -> study
 */
static int l_study(lua_State *L)
{
	static const char *const known[] = {
		"pond", "ponds", "weather", "weathers", "columns", "pond_of",
		"first", "last", "method", "start_level", "topup", "stopped",
		"skip_bad", "each_day", NULL
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
	box->study.run.no_topup = !read_switch(L, 1, "topup", 1);
	box->study.run.start_stopped = read_switch(L, 1, "stopped", 0);
	box->study.skip_bad = read_switch(L, 1, "skip_bad", 0);
	box->has_rule = lua_getfield(L, 1, "each_day") != LUA_TNIL;
	if (box->has_rule && !lua_isfunction(L, -1))
		bind_error(L, "each_day must be a function of the day");
	lua_setiuservalue(L, at, 2);
	lua_settop(L, at);
	return 1;
}

/* ---- running ---------------------------------------------------------------- */

/* Ctrl-C asks a run to stop after the blocks in hand. */
static volatile sig_atomic_t interrupted;

static void interrupt(int signal)
{
	(void)signal;
	interrupted = 1;
}

/* What the run tells to a Lua function.  An error in that function must not
 * jump over the library: the run stops, and it is raised after. */
struct telling {
	lua_State *L;
	int function;		/* stack index, 0 if none */
	int failed;		/* the error is on top */
};

static int tell(void *context, size_t done, size_t rows)
{
	struct telling *t = context;
	int stop = interrupted;

	if (stop || !t->function)
		return stop;
	lua_pushvalue(t->L, t->function);
	lua_pushinteger(t->L, (lua_Integer)done);
	lua_pushinteger(t->L, (lua_Integer)rows);
	if (lua_pcall(t->L, 2, 1, 0) != LUA_OK) {
		t->failed = 1;
		return 1;
	}
	stop = lua_toboolean(t->L, -1);
	lua_pop(t->L, 1);
	return stop;
}

/* Pushes space for the wanted quantities of rows. */
static void make_rows(lua_State *L, int arg, struct tarn_study_rows *rows)
{
	double *space;
	size_t n = TARN_QUANTITIES;
	int has = lua_getfield(L, arg, "values") != LUA_TNIL;

	if (has)
		n = bind_list(L, lua_gettop(L), "values", 1, TARN_QUANTITIES);
	space = lua_newuserdatauv(L, (n * rows->count + 1) * sizeof *space, 0);
	for (size_t i = 0; i < n * rows->count; i++)
		space[i] = TARN_NAN;
	for (size_t i = 0; i < n; i++) {
		enum tarn_quantity q = (enum tarn_quantity)i;

		if (has) {
			lua_rawgeti(L, -2, (lua_Integer)i + 1);
			q = tarn_quantity_find(luaL_checkstring(L, -1));
			if (q == TARN_QUANTITIES)
				bind_error(L, "values: there is no '%s'",
					   lua_tostring(L, -1));
			lua_pop(L, 1);
		}
		rows->value[q] = space + i * rows->count;
	}
	lua_remove(L, -2);
}

/* Takes over the rows that an earlier record has done. */
static void resume(lua_State *L, int arg, const struct tarn_study *study,
		   struct tarn_study_rows *rows)
{
	struct tarn_error err = { 0 };
	struct tarn_record record;
	const char *bytes;
	size_t size;

	if (lua_getfield(L, arg, "resume") != LUA_TNIL) {
		bytes = luaL_checklstring(L, -1, &size);
		if (tarn_record_read(&record, bytes, size, &err) != TARN_OK)
			bind_fail(L, &err, NULL);
		if (record.fingerprint != tarn_study_fingerprint(study) ||
		    record.first != rows->first || record.count != rows->count)
			bind_error(L, "resume: the record is of another study "
				   "or another part");
		for (int q = 0; q < TARN_QUANTITIES; q++)
			if (record.wanted[q] != (rows->value[q] != NULL))
				bind_error(L, "resume: the record holds other "
					   "values");
		if (tarn_record_fill(rows, bytes, size, &err) != TARN_OK)
			bind_fail(L, &err, NULL);
		rows->done = record.done;
	}
	lua_pop(L, 1);
}

/* Runs the rows that are not done yet, as many as 'limit'. */
static enum tarn_status run_rest(const struct tarn_study *study,
				 struct tarn_study_rows *rows, size_t limit,
				 struct tarn_error *err)
{
	struct sigaction ours = { 0 }, theirs;
	struct tarn_study_rows rest = *rows;
	enum tarn_status status;

	rest.first += rows->done;
	rest.count -= rows->done;
	if (rest.count > limit)
		rest.count = limit;
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (rest.value[q])
			rest.value[q] += rows->done;
	ours.sa_handler = interrupt;
	interrupted = 0;
	sigaction(SIGINT, &ours, &theirs);
	status = tarn_study_run(study, &rest, err);
	sigaction(SIGINT, &theirs, NULL);
	rows->done += rest.done;
	rows->bad += rest.bad;
	return status;
}

static void push_values(lua_State *L, const struct tarn_study_rows *rows)
{
	lua_newtable(L);
	for (int q = 0; q < TARN_QUANTITIES; q++) {
		if (!rows->value[q])
			continue;
		bind_push_doubles(L, rows->value[q], rows->done);
		lua_setfield(L, -2, tarn_quantity_info(q)->name);
	}
}

static void push_record(lua_State *L, const struct tarn_study *study,
			const struct tarn_study_rows *rows)
{
	luaL_Buffer b;
	size_t size = tarn_record_size(rows);
	char *bytes = luaL_buffinitsize(L, &b, size);

	tarn_record_write(rows, tarn_study_fingerprint(study),
			  tarn_study_count(study), bytes);
	luaL_pushresultsize(&b, size);
}

static void set_size(lua_State *L, const char *name, size_t value)
{
	lua_pushinteger(L, (lua_Integer)value);
	lua_setfield(L, -2, name);
}

static size_t whole_field(lua_State *L, int arg, const char *name, double lo,
			  double hi, double otherwise)
{
	double x = bind_field(L, arg, "", name, "-", lo, hi, otherwise);

	if (x > floor(x))
		bind_error(L, "%s must be a whole number, got %f", name, x);
	return (size_t)x;
}

static size_t processors(void)
{
	long n = sysconf(_SC_NPROCESSORS_ONLN);

	return n > 0 && n < 1024 ? (size_t)n : 1;
}

/*
 * study:run{threads =, part =, parts =, values = {names}, progress =
 * function(done, rows) -> true to stop, resume = record, limit = rows} ->
 * {first =, count =, done =, bad =, stopped =, values = {name = list},
 * record =}
 */
static int l_run(lua_State *L)
{
	static const char *const known[] = {
		"threads", "part", "parts", "values", "progress", "resume",
		"limit", "record", NULL
	};
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);
	struct tarn_study study = box->study;
	struct tarn_study_rows rows = { 0 };
	struct telling telling = { L, 0, 0 };
	struct bind_rule rule = { L, 0, 0 };
	struct tarn_error err = { 0 };
	enum tarn_status status;
	size_t parts, limit;

	lua_settop(L, 2);
	if (lua_isnil(L, 2)) {
		lua_newtable(L);
		lua_replace(L, 2);
	}
	bind_known(L, 2, NULL, known);
	study.threads = (int)whole_field(L, 2, "threads", 1, 1024,
					 (double)processors());
	parts = whole_field(L, 2, "parts", 1, 1e9, 1);
	limit = whole_field(L, 2, "limit", 1, 1e15, 1e15);
	tarn_study_part(tarn_study_count(&study),
			whole_field(L, 2, "part", 1, (double)parts, 1), parts,
			&rows.first, &rows.count);
	make_rows(L, 2, &rows);
	resume(L, 2, &study, &rows);
	if (lua_getfield(L, 2, "progress") != LUA_TNIL)
		telling.function = lua_gettop(L);
	study.progress = tell;
	study.progress_context = &telling;
	lua_getiuservalue(L, 1, 2);
	rule.function = lua_gettop(L);
	lua_newtable(L);
	rule.day = lua_gettop(L);
	if (box->has_rule) {
		study.run.rule = bind_ask_rule;
		study.run.rule_context = &rule;
	}
	luaL_checkstack(L, 8, NULL);
	status = run_rest(&study, &rows, limit, &err);
	if (telling.failed ||
	    (status == TARN_ESTOP && strcmp(err.field, "each_day") == 0))
		return lua_error(L);	/* the function's own, on top */
	if (status != TARN_OK && status != TARN_ESTOP)
		bind_fail(L, &err, NULL);
	lua_newtable(L);
	set_size(L, "first", rows.first + 1);
	set_size(L, "count", rows.count);
	set_size(L, "done", rows.done);
	set_size(L, "bad", rows.bad);
	lua_pushboolean(L, status == TARN_ESTOP);
	lua_setfield(L, -2, "stopped");
	push_values(L, &rows);
	lua_setfield(L, -2, "values");
	push_record(L, &study, &rows);
	lua_setfield(L, -2, "record");
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
	char text[17];

	snprintf(text, sizeof text, "%016llx", (unsigned long long)
		 tarn_study_fingerprint(&box->study));
	lua_pushstring(L, text);
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
		const struct tarn_quantity_info *info = tarn_quantity_info(q);

		lua_createtable(L, 0, 3);
		bind_set_text(L, "name", info->name);
		bind_set_text(L, "unit", info->unit);
		bind_set_text(L, "meaning", info->meaning);
		lua_rawseti(L, -2, q + 1);
	}
	return 1;
}

void bind_study(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "run", l_run },
		{ "check", l_check },
		{ "fingerprint", l_fingerprint },
		{ "__len", l_length },
		{ "__tostring", l_tostring },
		{ NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "quantities", l_quantities },
		{ NULL, NULL }
	};

	luaL_newmetatable(L, STUDY_T);
	luaL_setfuncs(L, methods, 0);
	lua_pushvalue(L, -1);
	lua_setfield(L, -2, "__index");
	lua_pop(L, 1);

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
