/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "bind_box.h"
#include "bind_study.h"

/*
 * Somebody else's pond file runs in a Lua state of its own that holds the
 * units, as numbers that carry them, and nothing else: no library, so no file, no program, no pattern, no
 * metatable; text only, never bytecode; and limits on what it may use.  What
 * it returns is copied out as plain tables, numbers, strings and booleans.
 */
#define FILE_BYTES_MAX (1 << 20)
#ifndef INSTRUCTIONS_MAX	/* `make fuzz` sets lower limits */
#define INSTRUCTIONS_MAX 2000000
#define MEMORY_BYTES_MAX (32 << 20)
#define ENTRIES_MAX 200000
#endif
#define HOOK_EVERY 1000
#define DEPTH_MAX 16

/*
 * One instruction may take long: it copies or compares a whole text, or
 * walks all the keys of a table that fall on one place.  So both are small;
 * and the processor's time is limited too.
 */
#define TEXT_BYTES_MAX (16 << 10)
#define BLOCK_BYTES_MAX 800000	/* a table of 32768 keys */
#define CPU_SECONDS_MAX 3

static void *limited_alloc(void *context, void *block, size_t old, size_t size)
{
	struct limits *limits = context;
	int is_text = !block && old == LUA_TSTRING;
	void *moved;

	if (!block)
		old = 0;	/* it said what the block is for */
	if (size == 0) {
		free(block);
		limits->bytes -= old;
		return NULL;
	}
	if (size > old && size - old > MEMORY_BYTES_MAX - limits->bytes)
		limits->broken = "uses more than 32 MB";
	else if (is_text && size > TEXT_BYTES_MAX)
		limits->broken = "makes a text of more than 16 kB";
	else if (size > old && size > BLOCK_BYTES_MAX)
		limits->broken = "makes too large a table, or calls itself too deeply";
	if (limits->broken && size > old)
		return NULL;
	moved = realloc(block, size);
	if (moved)
		limits->bytes += size - old;
	return moved;
}

static void count_hook(lua_State *box, lua_Debug *ar)
{
	void *context;
	struct limits *limits;

	(void)ar;
	lua_getallocf(box, &context);
	limits = context;
	limits->instructions += HOOK_EVERY;
	if (limits->instructions > INSTRUCTIONS_MAX)
		luaL_error(box, "runs too long for a %s (more than %d steps)",
			   limits->what, INSTRUCTIONS_MAX);
	if (clock() - limits->start > CPU_SECONDS_MAX * CLOCKS_PER_SEC)
		luaL_error(box, "runs too long for a %s (more than %d seconds)",
			   limits->what, CPU_SECONDS_MAX);
	if (bind_interrupted())
		luaL_error(box, "stopped by %s", bind_interruption());
}

/* What was copied out so far; a value that stands twice counts twice. */
struct copied {
	int entries;
	size_t text;
};

/* Copies the value at 'from' of the box to the top of L.  0, or a reason. */
static const char *copy_out(lua_State *box, int from, lua_State *L, int depth,
			    struct copied *sum)
{
	const char *why = NULL;

	if (++sum->entries > ENTRIES_MAX)
		return "holds too many entries";
	if (depth > DEPTH_MAX || !lua_checkstack(L, 12) ||
	    !lua_checkstack(box, 8))
		return "is nested too deeply, or contains itself";
	switch (lua_type(box, from)) {
	case LUA_TBOOLEAN:
		lua_pushboolean(L, lua_toboolean(box, from));
		return NULL;
	case LUA_TNUMBER:
		if (lua_isinteger(box, from))
			lua_pushinteger(L, lua_tointeger(box, from));
		else
			lua_pushnumber(L, lua_tonumber(box, from));
		return NULL;
	case LUA_TSTRING: {
		size_t n;
		const char *s = lua_tolstring(box, from, &n);

		sum->text += n;
		if (sum->text > FILE_BYTES_MAX)
			return "holds more than 1 MB of text";
		lua_pushlstring(L, s, n);
		return NULL;
	}
	case LUA_TUSERDATA:	/* whoever copies its table marks it */
		lua_pushnumber(L, bind_measure(box, from)->number);
		return NULL;
	case LUA_TTABLE:
		break;
	default:
		return "may hold numbers, texts, true, false and tables only";
	}
	lua_newtable(L);
	for (lua_pushnil(box); lua_next(box, from); lua_pop(box, 1)) {
		int key = lua_type(box, -2);

		const struct tarn_measure *m = bind_measure(box, -1);

		if (key != LUA_TSTRING && !lua_isinteger(box, -2))
			why = "has a key that is neither a name nor a number";
		if (!why)
			why = copy_out(box, lua_gettop(box) - 1, L, depth + 1,
				       sum);
		if (!why)
			why = copy_out(box, lua_gettop(box), L, depth + 1,
				       sum);
		if (why)
			break;
		if (m)
			bind_mark(L, -3, -2, m);
		lua_rawset(L, -3);
	}
	return why;
}

const char *bind_box_text(lua_State *L, const char *path, size_t *bytes)
{
	char *buffer = lua_newuserdatauv(L, FILE_BYTES_MAX + 1, 0);
	FILE *f = fopen(path, "rb");
	int bad, reason;

	if (!f)
		bind_error(L, "%s: %s", path, strerror(errno));
	*bytes = fread(buffer, 1, FILE_BYTES_MAX + 1, f);
	bad = ferror(f);
	reason = errno;
	fclose(f);
	if (bad)
		bind_error(L, "%s: %s", path, strerror(reason));
	if (*bytes > FILE_BYTES_MAX)
		bind_error(L, "%s: larger than 1 MB: not a description", path);
	lua_pushlstring(L, buffer, *bytes);
	lua_remove(L, -2);
	return lua_tostring(L, -1);
}

/* What the box left behind, freed whatever happens in L. */
static int free_box(lua_State *L)
{
	struct box *box = lua_touserdata(L, 1);

	if (box->state)
		lua_close(box->state);
	box->state = NULL;
	return 0;
}

static int open_plain(lua_State *box)
{
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);

	for (size_t i = 0; i < count; i++) {
		lua_pushnumber(box, units[i].factor);
		lua_setglobal(box, units[i].name);
	}
	return 0;
}

const char *bind_box_reason(lua_State *L, struct box *box)
{
	const char *text = lua_tostring(box->state, -1);

	if (box->limits.broken)
		return lua_pushfstring(L, "%s: not a %s", box->limits.broken,
				       box->limits.what);
	return text ? text : "failed";
}

void bind_begin_box(struct box *box)
{
	box->limits.instructions = 0;
	box->limits.start = clock();
}

struct box *bind_new_box(lua_State *L, const char *what)
{
	struct box *box = lua_newuserdatauv(L, sizeof *box, 1);

	*box = (struct box){ .limits.what = what };
	bind_begin_box(box);
	if (luaL_newmetatable(L, BOX_T)) {
		lua_pushcfunction(L, free_box);
		lua_setfield(L, -2, "__gc");
	}
	lua_setmetatable(L, -2);
	box->state = lua_newstate(limited_alloc, &box->limits);
	if (!box->state)
		bind_no_memory(L);
	lua_sethook(box->state, count_hook, LUA_MASKCOUNT, HOOK_EVERY);
	return box;
}

/* Whether it went well; nothing may allocate in a box but behind a pcall, for
 * nobody catches what is raised there. */
static int furnish(lua_State *box, lua_CFunction by)
{
	lua_pushcfunction(box, by);
	return lua_pcall(box, 0, 0, 0) == LUA_OK;
}

void bind_run_box(lua_State *L, struct box *box, const char *path,
		  const char *text, size_t bytes)
{
	const char *name = lua_pushfstring(L, "@%s", path);
	lua_State *state = box->state;

	bind_check_text(L, path, text, bytes);
	if (furnish(state, box->plain_units ? open_plain : bind_open_units) &&
	    (!box->strict || furnish(state, bind_strict)) &&
	    luaL_loadbufferx(state, text, bytes, name, "t") == LUA_OK &&
	    lua_pcall(state, 0, 1, 0) == LUA_OK) {
		lua_pop(L, 1);
		return;
	}
	bind_fail_text(L, path, bind_box_reason(L, box), text);
}

static int is_json(const char *path)
{
	size_t n = strlen(path);

	return n > 5 && strcmp(path + n - 5, ".json") == 0;
}

/* description(path, lenient) -> table, source text; FILE.json holds JSON, any
 * other file Lua; lenient: a name that nothing has is nil */
static int read_description(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1), *text, *why;
	int lenient = lua_toboolean(L, 2);
	struct box *box = bind_new_box(L, "description");
	lua_State *state = box->state;
	size_t bytes;
	struct copied sum = { 0, 0 };
	int top;

	text = bind_box_text(L, path, &bytes);
	bind_check_text(L, path, text, bytes);
	box->strict = !lenient;
	if (bytes >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) {
		text += 3;	/* the mark of some editors */
		bytes -= 3;
	}
	if (is_json(path)) {
		bind_read_json(L, path, text, bytes);
		lua_pushvalue(L, -2);
		return 2;
	}
	bind_run_box(L, box, path, text, bytes);
	if (!lua_istable(state, -1))
		bind_error(L, "%s: must return a table: begin with return { and "
			   "end with }", path);
	top = lua_gettop(L);
	why = copy_out(state, lua_gettop(state), L, 0, &sum);
	if (why)
		bind_error(L, "%s: %s", path, why);
	lua_settop(L, top + 1);
	lua_close(state);
	box->state = NULL;
	lua_pushvalue(L, top);
	return 2;
}

static int l_description(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1);

	lua_pushcfunction(L, read_description);
	lua_insert(L, 1);
	return bind_budgeted(L, path);
}

void bind_sandbox(lua_State *L)
{
	lua_pushcfunction(L, l_description);
	lua_setfield(L, -2, "description");
}
