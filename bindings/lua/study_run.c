/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdint.h>
#include <string.h>
#include <unistd.h>

#include "bind_pond.h"
#include "bind_study.h"

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
	int stop = bind_interrupted();

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

/* Pushes space for the quantities asked for, all of them by default. */
static void make_rows(lua_State *L, int arg, struct tarn_study_rows *rows)
{
	int wanted[TARN_QUANTITIES] = { 0 };
	int all = lua_getfield(L, arg, "values") == LUA_TNIL;
	size_t n = all ? TARN_QUANTITIES
		       : bind_list(L, -1, "values", 1, TARN_QUANTITIES);

	for (size_t i = 0; i < n; i++) {
		enum tarn_quantity q = (enum tarn_quantity)i;

		if (!all) {
			lua_rawgeti(L, -1, (lua_Integer)i + 1);
			q = tarn_quantity_find(luaL_checkstring(L, -1));
			if (q == TARN_QUANTITIES)
				bind_error(L, "values: there is no '%s'",
					   lua_tostring(L, -1));
			lua_pop(L, 1);
		}
		wanted[q] = 1;
	}
	lua_pop(L, 1);
	bind_study_space(L, wanted, rows);
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
		bind_must(L, tarn_record_read(&record, bytes, size, &err),
			  &err);
		if (record.fingerprint != tarn_study_fingerprint(study) ||
		    record.first != rows->first || record.count != rows->count)
			bind_error(L, "resume: the record is of another study "
				   "or another part");
		for (int q = 0; q < TARN_QUANTITIES; q++)
			if (record.wanted[q] != (rows->value[q] != NULL))
				bind_error(L, "resume: the record holds other "
					   "values");
		bind_must(L, tarn_record_fill(rows, bytes, size, &err), &err);
		rows->done = record.done;
	}
	lua_pop(L, 1);
}

/* Runs the rows that are not done yet, as many as 'limit'. */
static enum tarn_status run_rest(const struct tarn_study *study,
				 struct tarn_study_rows *rows, size_t limit,
				 struct tarn_error *err)
{
	struct tarn_study_rows rest = *rows;
	enum tarn_status status;

	rest.first += rows->done;
	rest.count -= rows->done;
	if (rest.count > limit)
		rest.count = limit;
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (rest.value[q])
			rest.value[q] += rows->done;
	status = tarn_study_run(study, &rest, err);
	rows->done += rest.done;
	rows->bad += rest.bad;
	return status;
}

static size_t whole_field(lua_State *L, int arg, const char *name, double lo,
			  double hi, double otherwise)
{
	double x = bind_field(L, arg, "", name, "-", lo, hi, otherwise);

	if (x > floor(x))
		bind_error(L, "%s must be a whole number, got %f", name, x);
	return x < (double)SIZE_MAX ? (size_t)x : SIZE_MAX;
}

static size_t processors(void)
{
	long n = sysconf(_SC_NPROCESSORS_ONLN);

	return n > 0 && n < 1024 ? (size_t)n : 1;
}

static int run(lua_State *L)
{
	static const char *const known[] = {
		"threads", "part", "parts", "values", "progress", "resume",
		"limit", "record", NULL
	};
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);
	struct tarn_study study = box->study;
	struct tarn_study_rows rows = { 0 };
	struct telling telling = { L, 0, 0 };
	struct bind_control control;
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
	if (bind_take_control(L, &control)) {
		study.run.control = bind_ask_control;
		study.run.control_context = &control;
	}
	luaL_checkstack(L, 8, NULL);
	status = run_rest(&study, &rows, limit, &err);
	if (telling.failed)
		return lua_error(L);	/* the function's own, on top */
	if (control.failed && !bind_interrupted())
		return bind_control_error(&control);
	if (status != TARN_OK && status != TARN_ESTOP)
		bind_fail(L, &err, NULL);
	lua_newtable(L);
	bind_set_count(L, "first", rows.first + 1);
	bind_set_count(L, "count", rows.count);
	bind_set_count(L, "done", rows.done);
	bind_set_count(L, "bad", rows.bad);
	bind_set_flag(L, "stopped", status == TARN_ESTOP);
	bind_push_values(L, &rows);
	lua_setfield(L, -2, "values");
	bind_push_record(L, &rows, tarn_study_fingerprint(&study),
			 tarn_study_count(&study));
	lua_setfield(L, -2, "record");
	return 1;
}

/*
 * study:run{threads =, part =, parts =, values = {names}, progress =
 * function(done, rows) -> true to stop, resume = record, limit = rows} ->
 * {first =, count =, done =, bad =, stopped =, values = {name = list},
 * record =}
 */
int bind_study_run(lua_State *L)
{
	int status;

	lua_pushcfunction(L, run);
	lua_insert(L, 1);
	bind_listen();
	status = lua_pcall(L, lua_gettop(L) - 1, 1, 0);
	bind_cease();
	return status == LUA_OK ? 1 : lua_error(L);
}
