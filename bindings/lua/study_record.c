/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "bind_study.h"

/* Records of studies, and the space that their rows take. */

enum { PARTS_MAX = 1000000 };

void bind_study_space(lua_State *L, const int wanted[TARN_QUANTITIES],
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

void bind_push_values(lua_State *L, const struct tarn_study_rows *rows)
{
	lua_newtable(L);
	for (int q = 0; q < TARN_QUANTITIES; q++) {
		if (!rows->value[q])
			continue;
		bind_push_doubles(L, rows->value[q], rows->done);
		lua_setfield(L, -2, tarn_quantity_info(q)->name);
	}
}

void bind_push_record(lua_State *L, const struct tarn_study_rows *rows,
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

static void make_rows(lua_State *L, const struct tarn_record *r,
		      struct tarn_study_rows *rows)
{
	rows->first = r->first;
	rows->count = r->count;
	rows->done = r->done;
	bind_study_space(L, r->wanted, rows);
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
	make_rows(L, &r, &rows);
	BIND_DO(L, tarn_record_fill, &rows, bytes, size);
	lua_newtable(L);
	bind_push_fingerprint(L, r.fingerprint);
	lua_setfield(L, -2, "fingerprint");
	bind_set_count(L, "rows", r.rows_of_all);
	bind_set_count(L, "first", r.first + 1);
	bind_set_count(L, "count", r.count);
	bind_set_count(L, "done", r.done);
	bind_push_values(L, &rows);
	lua_setfield(L, -2, "values");
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
	make_rows(L, &whole, &rows);
	for (size_t i = 0; i < n; i++)
		BIND_DO(L, tarn_record_fill, &rows, bytes[i], sizes[i]);
	bind_push_record(L, &rows, whole.fingerprint, whole.rows_of_all);
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
