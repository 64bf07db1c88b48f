/* SPDX-License-Identifier: MIT */
#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <lualib.h>

#include "bind_box.h"

/*
 * tarn NAME ARGS        runs an installed script
 * tarn FILE.lua ARGS    runs one's own, with all rights of whoever typed it
 *
 * Exit status: 0 done, or what the script returns; 2 a mistake of the user's,
 * told in one line; 1 a failure of the program's.
 */
#define MISTAKE 2
#define FAILURE 1

/* A description takes some hundredths; a slow computer a hundred times that. */
#define BUDGET_SECONDS 10

/* A message: one line, or with the lines of a traceback. */
static void say(const char *text, int status)
{
	int failure = status == FAILURE;

	fprintf(stderr, "tarn: %s", failure ? "failure in the program: " : "");
	bind_print(stderr, text, strlen(text), failure);
	fputc('\n', stderr);
}

static int is_folder(const char *path)
{
	struct stat st;

	return stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

/* Pushes the folder of the program itself. */
static const char *push_own_folder(lua_State *L)
{
	char self[4096];
	ssize_t n = readlink("/proc/self/exe", self, sizeof self - 1);
	char *slash;

	self[n > 0 ? n : 0] = '\0';
	slash = strrchr(self, '/');
	if (slash)
		*slash = '\0';
	return lua_pushstring(L, self);
}

/* Pushes the folder of the installed scripts: beside the program in the
 * source tree, or where `make install` puts it. */
static void push_scripts_folder(lua_State *L)
{
	static const char *const places[] = {
		"%s/../share/tarn/scripts", "%s/../scripts",
		"%s/../../scripts"
	};
	const char *from_user = getenv("TARN_SCRIPTS"), *self;

	if (from_user) {
		lua_pushstring(L, from_user);
		return;
	}
	self = push_own_folder(L);
	for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
		const char *path = lua_pushfstring(L, places[i], self);

		if (is_folder(path)) {
			lua_remove(L, -2);
			return;
		}
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
	lua_pushliteral(L, "scripts");
}

/* First line of a script, which says what it is for: "-- name: purpose". */
static void show_purpose(lua_State *L, const char *folder, const char *name)
{
	int bytes = (int)strlen(name) - 4;
	const char *begin = lua_pushfstring(L, "-- %s", name);
	size_t length = (size_t)bytes + 3;
	char line[200] = "";
	FILE *f = fopen(lua_pushfstring(L, "%s/%s", folder, name), "r");
	int found = 0;

	for (int i = 0; f && !found && i < 3; i++)	/* below the licence */
		found = fgets(line, sizeof line, f) &&
			strncmp(line, begin, length) == 0 &&
			strncmp(line + length, ": ", 2) == 0;
	if (f)
		fclose(f);
	lua_pop(L, 2);
	line[strcspn(line, "\n")] = '\0';
	if (found)
		printf("  %-11.*s %s\n", bytes, name, line + length + 2);
}

/* Scripts in the order of a job; any others come behind, by name. */
static size_t rank(const char *script)
{
	static const char *const job[] = {
		"new.lua", "weather.lua", "topup.lua", "leak.lua", "bed.lua",
		"sheet.lua", "commission.lua", "whatif.lua", "merge.lua",
		"convert.lua"
	};
	size_t i = 0;

	while (i < sizeof job / sizeof job[0] && strcmp(job[i], script) != 0)
		i++;
	return i;
}

static int by_rank(const struct dirent **a, const struct dirent **b)
{
	size_t i = rank((*a)->d_name), k = rank((*b)->d_name);

	if (i != k)
		return i < k ? -1 : 1;
	return strcmp((*a)->d_name, (*b)->d_name);
}

static int is_script(const struct dirent *entry)
{
	size_t n = strlen(entry->d_name);

	return n > 4 && strcmp(entry->d_name + n - 4, ".lua") == 0;
}

static void explain(lua_State *L)
{
	struct dirent **entries;
	const char *folder;
	int n;

	push_scripts_folder(L);
	folder = lua_tostring(L, -1);
	printf("Tarn %s: the water ledger of a small recirculating pond, and "
	       "the sizing of its planted bed.\n\n"
	       "Usage: tarn NAME ARGUMENTS        an installed script\n"
	       "       tarn FILE.lua ARGUMENTS    a script of your own\n\n"
	       "Descriptions of ponds, studies, maps and controls (--control) "
	       "run in a box that\nreaches no file and no program. A script of "
	       "your own, and a control with --trust,\nrun with all your "
	       "rights: run only what you have read.\n\n"
	       "Installed scripts (tarn NAME --help tells more):\n",
	       tarn_version());
	n = scandir(folder, &entries, is_script, by_rank);
	for (int i = 0; i < n; i++) {
		show_purpose(L, folder, entries[i]->d_name);
		free(entries[i]);
	}
	if (n >= 0)
		free(entries);
	else
		printf("  none found in %s: %s\n", folder, strerror(errno));
}

/* Nearest line of Lua code on the call stack, "file:line: ", or "" where
 * there is none, or the message has one of that file. */
static void push_place(lua_State *L, const char *message)
{
	lua_Debug ar;

	for (int level = 1; lua_getstack(L, level, &ar); level++) {
		lua_getinfo(L, "Sl", &ar);
		if (strncmp(message, ar.short_src, strlen(ar.short_src)) == 0)
			break;
		if (ar.currentline > 0) {
			lua_pushfstring(L, "%s:%d: ", ar.short_src,
					ar.currentline);
			return;
		}
	}
	lua_pushliteral(L, "");
}

static int is_mistake(lua_State *L, int at)
{
	int same;

	at = lua_absindex(L, at);
	lua_getfield(L, LUA_REGISTRYINDEX, "tarn.mistake");
	same = !lua_isnil(L, -1) && lua_rawequal(L, -1, at);
	lua_pop(L, 1);
	return same;
}

/*
 * Message handler.  Upvalue 1: whether the script is the user's own, so that
 * its line matters to them; upvalue 2: whose mistake it was, filled.
 */
static int handle(lua_State *L)
{
	int *status = lua_touserdata(L, lua_upvalueindex(2));
	int own = lua_toboolean(L, lua_upvalueindex(1));

	luaL_tolstring(L, 1, NULL);
	*status = own || is_mistake(L, 1) ? MISTAKE : FAILURE;
	if (own && is_mistake(L, 1)) {
		push_place(L, lua_tostring(L, -1));
		lua_insert(L, -2);
		lua_concat(L, 2);
	} else if (*status == FAILURE) {
		luaL_traceback(L, L, lua_tostring(L, -1), 1);
	}
	return 1;
}

static void set_arguments(lua_State *L, int argc, char **argv)
{
	lua_createtable(L, argc, 1);
	for (int i = 1; i < argc; i++) {
		lua_pushstring(L, argv[i]);
		lua_rawseti(L, -2, i - 1);
	}
	lua_setglobal(L, "arg");
}

/* require finds what lies beside the scripts, the user's own first; last what
 * was built beside the program. */
static void set_path(lua_State *L, const char *folder, const char *file)
{
	const char *slash = strrchr(file, '/');

	lua_getglobal(L, "package");
	if (slash)
		lua_pushlstring(L, file, (size_t)(slash - file));
	else
		lua_pushliteral(L, ".");
	lua_pushfstring(L, "%s/?.lua;%s/?.lua;%s/?.lua", lua_tostring(L, -1),
			folder, push_own_folder(L));
	lua_setfield(L, -4, "path");
	lua_pop(L, 3);
}

static int run(lua_State *L, int argc, char **argv)
{
	const char *name = argv[1], *folder, *file = name;
	int own = strchr(name, '/') || strchr(name, '.');
	int status = FAILURE, base;

	push_scripts_folder(L);
	folder = lua_tostring(L, -1);
	if (!own)
		file = lua_pushfstring(L, "%s/%s.lua", folder, name);
	if (own && bind_mistaken(L, file)) {
		say(lua_tostring(L, -1), MISTAKE);
		return MISTAKE;
	}
	if (!own && access(file, R_OK) != 0) {
		say(lua_pushfstring(L, "there is no script '%s'; `tarn` alone "
				    "lists them", name), MISTAKE);
		return MISTAKE;
	}
	set_arguments(L, argc, argv);
	set_path(L, folder, file);
	lua_pushboolean(L, own);
	lua_pushlightuserdata(L, &status);
	lua_pushcclosure(L, handle, 2);
	base = lua_gettop(L);
	if (luaL_loadfilex(L, file, "t") != LUA_OK) {
		say(lua_tostring(L, -1), MISTAKE);
		return own ? MISTAKE : FAILURE;
	}
	if (lua_pcall(L, 0, 1, base) == LUA_OK)
		return lua_isinteger(L, -1) ? (int)lua_tointeger(L, -1) & 0xff : 0;
	fflush(stdout);
	say(lua_tostring(L, -1), status);
	return status;
}

static int protected_main(lua_State *L)
{
	int argc = (int)lua_tointeger(L, 1), status = 0;
	char **argv = lua_touserdata(L, 2);

	luaL_openlibs(L);
	bind_budget_allow(BUDGET_SECONDS);
	luaL_requiref(L, "tarn", luaopen_tarn, 1);
	lua_pop(L, 1);
	if (argc < 2 || strcmp(argv[1], "--help") == 0 ||
	    strcmp(argv[1], "help") == 0)
		explain(L);
	else if (strcmp(argv[1], "--version") == 0)
		printf("tarn %s\n", tarn_version());
	else
		status = run(L, argc, argv);
	lua_pushinteger(L, status);
	return 1;
}

int main(int argc, char **argv)
{
	lua_State *L = luaL_newstate();
	int status;

	if (!L) {
		fprintf(stderr, "tarn: out of memory\n");
		return FAILURE;
	}
	lua_pushcfunction(L, protected_main);
	lua_pushinteger(L, argc);
	lua_pushlightuserdata(L, argv);
	if (lua_pcall(L, 2, 1, 0) != LUA_OK) {
		say(lua_tostring(L, -1), MISTAKE);
		status = FAILURE;
	} else {
		status = (int)lua_tointeger(L, -1);
	}
	lua_close(L);
	if ((fflush(stdout) != 0 || ferror(stdout)) && status != MISTAKE &&
	    status != FAILURE) {
		fprintf(stderr, "tarn: the output could not be written\n");
		status = FAILURE;
	}
	return status;
}
