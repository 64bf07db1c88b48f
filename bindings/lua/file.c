/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "bind.h"
#include "replace.h"

#define FILES_MAX 1000
#define RECORD_MAGIC "tarnrow1"	/* lib/tarn/study/record.c */

/* ---- which file a name means ---------------------------------------------------- */

/* A file that is there is known by its number; one that is to be made by its
 * folder's, and its name in it. */
struct identity {
	int known, there, regular;
	int shared;		/* a terminal, /dev/null */
	dev_t device;
	ino_t number;
	char name[NAME_MAX + 1];
};

static struct identity identity_of(const char *path)
{
	struct identity id = { 0 };
	char target[PATH_MAX], folder[PATH_MAX];
	const char *name;
	struct stat st;

	id.there = stat(path, &st) == 0;
	if (!id.there) {
		if (replace_resolve(path, target) != 0)
			return id;
		name = replace_split(target, folder);
		if (strlen(name) > NAME_MAX || stat(folder, &st) != 0)
			return id;
		strcpy(id.name, name);
	}
	id.known = 1;
	id.regular = id.there && S_ISREG(st.st_mode);
	id.shared = id.there && S_ISCHR(st.st_mode);
	id.device = st.st_dev;
	id.number = st.st_ino;
	return id;
}

static int same(const struct identity *a, const struct identity *b)
{
	return a->known && b->known && !a->shared && a->there == b->there &&
	       a->device == b->device && a->number == b->number &&
	       strcmp(a->name, b->name) == 0;
}

/* Whether the program's own words go to that file, not to a pipe, which loses
 * nothing. */
static int is_standard(const struct identity *id, int fd)
{
	struct stat st;

	return id->regular && fstat(fd, &st) == 0 &&
	       st.st_dev == id->device && st.st_ino == id->number;
}

static int holds_record(const char *path)
{
	char head[sizeof RECORD_MAGIC - 1];
	struct stat st;
	ssize_t n;
	int fd;

	if (stat(path, &st) != 0 || !S_ISREG(st.st_mode))
		return 0;
	fd = open(path, O_RDONLY | O_CLOEXEC);
	if (fd < 0)
		return 0;
	n = read(fd, head, sizeof head);
	close(fd);
	return n == (ssize_t)sizeof head &&
	       memcmp(head, RECORD_MAGIC, sizeof head) == 0;
}

/* ---- what may be written ---------------------------------------------------------- */

static size_t paths(lua_State *L, int arg, const char *what)
{
	return lua_isnoneornil(L, arg) ? 0
	     : bind_list(L, arg, what, 0, FILES_MAX);
}

/* Entry 'i' of the list of paths at 'arg', which stays in that list. */
static const char *path_at(lua_State *L, int arg, size_t i)
{
	const char *path;

	lua_rawgeti(L, arg, (lua_Integer)i);
	path = luaL_checkstring(L, -1);
	lua_pop(L, 1);
	return path;
}

static void refuse_inputs(lua_State *L, int arg, const char *path)
{
	struct identity id = identity_of(path);
	size_t count = paths(L, arg, "inputs");

	for (size_t i = 1; i <= count; i++) {
		struct identity input = identity_of(path_at(L, arg, i));

		if (same(&id, &input))
			bind_error(L, "%s: is an input of this run, and would "
				   "be lost: name another file", path);
	}
}

static void refuse_outputs(lua_State *L, int arg, size_t before,
			   const char *path)
{
	struct identity id = identity_of(path);

	for (size_t i = 1; i < before; i++) {
		const char *other = path_at(L, arg, i);
		struct identity output = identity_of(other);

		if (!same(&id, &output))
			continue;
		if (strcmp(path, other) == 0)
			bind_error(L, "%s: named for two outputs: one would be "
				   "lost", path);
		bind_error(L, "%s: named for two outputs, for it is the same "
			   "file as %s: one would be lost", path, other);
	}
	if (replace_own(path) < 0 && (is_standard(&id, STDOUT_FILENO) ||
				      is_standard(&id, STDERR_FILENO)))
		bind_error(L, "%s: named for two outputs: what the program says "
			   "goes there too", path);
}

/*
 * check_outputs(outputs, inputs, record): raises, before anything is worked
 * out, if one of the paths 'outputs' could not be written; is the same file as
 * another, as one of the paths 'inputs', or as what the program's own words go
 * to; or holds the record of a study and is not the path 'record', which goes
 * on from what it holds.
 */
static int l_check_outputs(lua_State *L)
{
	size_t count = paths(L, 1, "outputs");
	const char *record = luaL_optstring(L, 3, "");

	for (size_t i = 1; i <= count; i++) {
		const char *path = path_at(L, 1, i);
		int reason = replace_possible(path);

		if (reason != 0)
			bind_error(L, "%s: cannot write: %s", path,
				   strerror(reason));
		refuse_inputs(L, 2, path);
		refuse_outputs(L, 1, i, path);
		if (strcmp(path, record) != 0 && holds_record(path))
			bind_error(L, "%s: holds the record of a study, which "
				   "would be lost: name another file", path);
	}
	return 0;
}

/* ---- writing -------------------------------------------------------------------------- */

static int write_files(lua_State *L, struct replacement *files, size_t count)
{
	size_t failed = 0;
	int reason = replace_all(files, count, &failed);

	if (reason != 0)
		return bind_error(L, "%s: cannot write: %s", files[failed].path,
				  strerror(reason));
	return 0;
}

/*
 * write_file(path, text, inputs): the whole text or nothing.  An older file
 * of that name stays as it was until the new one is complete; none of the
 * files in the list 'inputs' is replaced.
 */
static int l_write_file(lua_State *L)
{
	struct replacement *file;

	luaL_checkstring(L, 1);
	luaL_checkstring(L, 2);
	refuse_inputs(L, 3, lua_tostring(L, 1));
	file = lua_newuserdatauv(L, sizeof *file, 0);
	file->path = lua_tostring(L, 1);
	file->text = lua_tolstring(L, 2, &file->bytes);
	return write_files(L, file, 1);
}

/* write_files{ { path, text }, ... }: all of them, or none */
static int l_write_files(lua_State *L)
{
	size_t count = bind_list(L, 1, "files", 0, FILES_MAX);
	struct replacement *files = lua_newuserdatauv(
		L, (count + 1) * sizeof *files, 0);

	for (size_t i = 0; i < count; i++) {
		lua_rawgeti(L, 1, (lua_Integer)i + 1);
		bind_list(L, lua_gettop(L), "file", 2, 3);
		files[i].path = path_at(L, lua_gettop(L), 1);
		lua_rawgeti(L, -1, 2);	/* the table keeps it */
		files[i].text = luaL_checklstring(L, -1, &files[i].bytes);
		lua_pop(L, 2);
	}
	return write_files(L, files, count);
}

/* watched() -> whether somebody looks on: standard error is a terminal */
static int l_watched(lua_State *L)
{
	lua_pushboolean(L, isatty(STDERR_FILENO));
	return 1;
}

void bind_file(lua_State *L)
{
	static const luaL_Reg functions[] = {
		{ "check_outputs", l_check_outputs },
		{ "watched", l_watched }, { "write_file", l_write_file },
		{ "write_files", l_write_files }, { NULL, NULL }
	};

	luaL_setfuncs(L, functions, 0);
}
