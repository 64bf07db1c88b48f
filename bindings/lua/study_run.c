/* SPDX-License-Identifier: MIT */
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "bind_pond.h"
#include "bind_study.h"

enum { PARTS_MAX = 1000000 };

/* ---- rows and records ---------------------------------------------------- */

static void make_space(lua_State *L, const int wanted[TARN_QUANTITIES],
		       struct tarn_study_rows *rows)
{
	double *space;
	size_t n = 0;

	for (int q = 0; q < TARN_QUANTITIES; q++)
		n += wanted[q] != 0;
	n *= rows->count;
	space = lua_newuserdatauv(L, (n + 1) * sizeof *space, 0);
	for (size_t i = 0; i < n; i++)
		space[i] = TARN_NAN;
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (wanted[q]) {
			rows->value[q] = space;
			space += rows->count;
		}
}

static void push_values(lua_State *L, const struct tarn_study_rows *rows)
{
	lua_newtable(L);
	for (int q = 0; q < TARN_QUANTITIES; q++) {
		if (!rows->value[q])
			continue;
		bind_push_doubles(L, rows->value[q], rows->done);
		lua_setfield(L, -2,
			     tarn_quantity_info((enum tarn_quantity)q)->name);
	}
}

/* Pushes what all results say of rows. */
static void push_rows(lua_State *L, const struct tarn_study_rows *rows)
{
	lua_newtable(L);
	bind_set_count(L, "first", rows->first + 1);
	bind_set_count(L, "count", rows->count);
	bind_set_count(L, "done", rows->done);
	push_values(L, rows);
	lua_setfield(L, -2, "values");
}

static void push_record(lua_State *L, const struct tarn_study_rows *rows,
		      uint64_t fingerprint, size_t rows_of_all)
{
	luaL_Buffer b;
	size_t size = tarn_record_size(rows);
	char *bytes = luaL_buffinitsize(L, &b, size);

	tarn_record_write(rows, fingerprint, rows_of_all, bytes);
	luaL_pushresultsize(&b, size);
}

void bind_push_fingerprint(lua_State *L, uint64_t fingerprint)
{
	char text[17];

	snprintf(text, sizeof text, "%016llx", (unsigned long long)fingerprint);
	lua_pushstring(L, text);
}

/* ---- a run --------------------------------------------------------------- */

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
	make_space(L, wanted, rows);
}

/* Takes over the rows that an earlier record has done. */
static void resume(lua_State *L, int arg, const struct tarn_study *study,
		   struct tarn_study_rows *rows)
{
	struct tarn_record record;
	const char *bytes;
	size_t size;

	if (lua_getfield(L, arg, "resume") != LUA_TNIL) {
		bytes = luaL_checklstring(L, -1, &size);
		BIND_DO(L, tarn_record_read, &record, bytes, size);
		if (record.fingerprint != tarn_study_fingerprint(study) ||
		    record.first != rows->first || record.count != rows->count)
			bind_error(L, "resume: the record is of another study "
				   "or another part");
		for (int q = 0; q < TARN_QUANTITIES; q++)
			if (record.wanted[q] != (rows->value[q] != NULL))
				bind_error(L, "resume: the record holds other "
					   "values");
		BIND_DO(L, tarn_record_fill, rows, bytes, size);
		rows->done = record.done;
	}
	lua_pop(L, 1);
}

/* Runs the rows that are not done yet, as many as 'limit' unless that is 0. */
static enum tarn_status run_rest(const struct tarn_study *study,
				 struct tarn_study_rows *rows, size_t limit,
				 struct tarn_error *err)
{
	struct tarn_study_rows rest = *rows;
	enum tarn_status status;

	rest.first += rows->done;
	rest.count -= rows->done;
	if (limit > 0 && rest.count > limit)
		rest.count = limit;
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (rest.value[q])
			rest.value[q] += rows->done;
	status = tarn_study_run(study, &rest, err);
	rows->done += rest.done;
	rows->bad += rest.bad;
	return status;
}

static int processors(void)
{
	long n = sysconf(_SC_NPROCESSORS_ONLN);

	return n > 0 && n < 1024 ? (int)n : 1;
}

static int run(lua_State *L)
{
	static const char *const also[] = {
		"values", "progress", "resume", NULL
	};
	struct study_box *box = luaL_checkudata(L, 1, STUDY_T);
	struct tarn_study study = box->study;
	struct tarn_study_task task;
	struct tarn_study_rows rows = { 0 };
	struct telling telling = { L, 0, 0 };
	struct bind_control control;
	struct tarn_error err = { 0 };
	enum tarn_status status;

	bind_want_table(L, 2);
	tarn_fields_default(&tarn_study_task_fields, &task);
	bind_fields(L, 2, &tarn_study_task_fields, &task, also);
	if (task.part > task.parts)
		bind_error(L, "part must be 1 to %d, got %d", task.parts,
			   task.part);
	study.threads = task.threads ? task.threads : processors();
	tarn_study_part(tarn_study_count(&study), (size_t)task.part,
			(size_t)task.parts, &rows.first, &rows.count);
	make_rows(L, 2, &rows);
	resume(L, 2, &study, &rows);
	if (lua_getfield(L, 2, "progress") != LUA_TNIL)
		telling.function = lua_gettop(L);
	study.progress = tell;
	study.progress_context = &telling;
	lua_getiuservalue(L, 1, 2);
	bind_take_control(L, &control, &study.run);
	luaL_checkstack(L, 8, NULL);
	status = run_rest(&study, &rows, (size_t)task.limit, &err);
	if (telling.failed)
		return lua_error(L);	/* the function's own, on top */
	if (control.failed && !bind_interrupted())
		return bind_control_error(&control);
	if (status != TARN_OK && status != TARN_ESTOP)
		bind_fail(L, &err, NULL);
	push_rows(L, &rows);
	bind_set_count(L, "bad", rows.bad);
	bind_set_flag(L, "stopped", status == TARN_ESTOP);
	push_record(L, &rows, tarn_study_fingerprint(&study),
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

/* ---- records of runs ----------------------------------------------------- */

static void rows_of(lua_State *L, const struct tarn_record *r,
		      struct tarn_study_rows *rows)
{
	rows->first = r->first;
	rows->count = r->count;
	rows->done = r->done;
	make_space(L, r->wanted, rows);
}

/* study.record(bytes) -> {fingerprint =, rows =, first =, count =, done =,
 * values = {name = list}} */
static int l_record(lua_State *L)
{
	size_t size;
	const char *bytes = luaL_checklstring(L, 1, &size);
	struct tarn_record r;
	struct tarn_study_rows rows = { 0 };

	BIND_DO(L, tarn_record_read, &r, bytes, size);
	rows_of(L, &r, &rows);
	BIND_DO(L, tarn_record_fill, &rows, bytes, size);
	push_rows(L, &rows);
	bind_push_fingerprint(L, r.fingerprint);
	lua_setfield(L, -2, "fingerprint");
	bind_set_count(L, "rows", r.rows_of_all);
	return 1;
}

/* study.merge{record, ...} -> the record of the whole study; raises for a
 * part that is missing, doubled, unfinished or foreign */
static int l_merge(lua_State *L)
{
	size_t n = bind_list(L, 1, "parts", 1, PARTS_MAX);
	const void **bytes = lua_newuserdatauv(L, n * sizeof *bytes, 0);
	size_t *sizes = lua_newuserdatauv(L, n * sizeof *sizes, 0);
	struct tarn_record whole;
	struct tarn_study_rows rows = { 0 };

	for (size_t i = 0; i < n; i++) {
		/* the list keeps the strings alive */
		lua_rawgeti(L, 1, (lua_Integer)i + 1);
		if (lua_type(L, -1) != LUA_TSTRING)
			bind_error(L, "parts: entry %d is no record",
				   (int)i + 1);
		bytes[i] = lua_tolstring(L, -1, &sizes[i]);
		lua_pop(L, 1);
	}
	BIND_DO(L, tarn_records_check, bytes, sizes, n, &whole);
	rows_of(L, &whole, &rows);
	for (size_t i = 0; i < n; i++)
		BIND_DO(L, tarn_record_fill, &rows, bytes[i], sizes[i]);
	push_record(L, &rows, whole.fingerprint, whole.rows_of_all);
	return 1;
}

void bind_study_records(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "record", l_record },
		{ "merge", l_merge },
		{ NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
