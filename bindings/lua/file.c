/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bind.h"

/* Writes all bytes; 0, or the reason as errno. */
static int write_all(int fd, const char *text, size_t bytes)
{
	while (bytes > 0) {
		ssize_t n = write(fd, text, bytes);

		if (n < 0 && errno == EINTR)
			continue;
		if (n < 0)
			return errno;
		text += n;
		bytes -= (size_t)n;
	}
	return 0;
}

static int close_file(int fd, int reason)
{
	if (close(fd) != 0 && reason == 0)
		reason = errno;
	return reason;
}

/* A pipe or a device cannot be replaced: written as it is. */
static int write_through(const char *path, const char *text, size_t bytes)
{
	int fd = open(path, O_WRONLY);

	if (fd < 0)
		return errno;
	return close_file(fd, write_all(fd, text, bytes));
}

/* The standard output or error that this file is, or -1: /dev/stdout, wherever
 * it goes.  A file that the shell redirected it to must not be replaced. */
static int standard(const struct stat *st)
{
	struct stat own;

	for (int fd = STDOUT_FILENO; fd <= STDERR_FILENO; fd++)
		if (fstat(fd, &own) == 0 && own.st_dev == st->st_dev &&
		    own.st_ino == st->st_ino)
			return fd;
	return -1;
}

/* Writes the file 'part', a mkstemp() template, and renames it. */
static int write_part(char *part, const char *path, const char *text,
		      size_t bytes)
{
	mode_t mask = umask(0);
	int fd, reason;

	umask(mask);
	fd = mkstemp(part);
	if (fd < 0)
		return errno;
	reason = write_all(fd, text, bytes);
	if (reason == 0 && (fchmod(fd, 0666 & ~mask) != 0 || fsync(fd) != 0))
		reason = errno;
	reason = close_file(fd, reason);
	if (reason == 0 && rename(part, path) != 0)
		reason = errno;
	if (reason != 0)
		unlink(part);
	return reason;
}

/* Beside the target under another name, then renamed over it.  Who interrupts
 * the program meanwhile waits until nothing is half done. */
static int write_whole(lua_State *L, const char *path, const char *text,
		       size_t bytes)
{
	sigset_t stops, before;
	char *part;
	int reason;

	lua_pushfstring(L, "%s.XXXXXX", path);
	part = lua_newuserdatauv(L, strlen(lua_tostring(L, -1)) + 1, 0);
	strcpy(part, lua_tostring(L, -2));
	sigemptyset(&stops);
	sigaddset(&stops, SIGINT);
	sigaddset(&stops, SIGTERM);
	sigaddset(&stops, SIGHUP);
	sigprocmask(SIG_BLOCK, &stops, &before);
	reason = write_part(part, path, text, bytes);
	sigprocmask(SIG_SETMASK, &before, NULL);
	return reason;
}

/* Raises if 'path' is the very file that one of the list at 3 names. */
static void refuse_inputs(lua_State *L, const struct stat *st, const char *path)
{
	size_t count = lua_isnoneornil(L, 3) ? 0
		     : bind_list(L, 3, "inputs", 0, 1000);

	for (size_t i = 1; i <= count; i++) {
		struct stat input;

		lua_rawgeti(L, 3, (lua_Integer)i);
		if (stat(luaL_checkstring(L, -1), &input) == 0 &&
		    input.st_dev == st->st_dev && input.st_ino == st->st_ino)
			bind_error(L, "%s: is an input of this run, and would "
				   "be lost: name another file", path);
		lua_pop(L, 1);
	}
}

/*
 * write_file(path, text, inputs): the whole text or nothing.  An older file
 * of that name stays as it was until the new one is complete; none of the
 * files in the list 'inputs' is replaced.
 */
static int l_write_file(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1);
	size_t bytes;
	const char *text = luaL_checklstring(L, 2, &bytes);
	struct stat st;
	int there = stat(path, &st) == 0, reason;

	if (there)
		refuse_inputs(L, &st, path);
	if (there && S_ISDIR(st.st_mode))
		reason = EISDIR;
	else if (there && !S_ISREG(st.st_mode))
		reason = write_through(path, text, bytes);
	else if (there && standard(&st) >= 0)
		reason = fflush(NULL) != 0 ? errno
			: write_all(standard(&st), text, bytes);
	else
		reason = write_whole(L, path, text, bytes);
	if (reason != 0)
		return bind_error(L, "%s: cannot write: %s", path,
				  strerror(reason));
	return 0;
}

/* watched() -> whether somebody looks on: standard error is a terminal */
static int l_watched(lua_State *L)
{
	lua_pushboolean(L, isatty(STDERR_FILENO));
	return 1;
}

void bind_file(lua_State *L)
{
	lua_pushcfunction(L, l_watched);
	lua_setfield(L, -2, "watched");
	lua_pushcfunction(L, l_write_file);
	lua_setfield(L, -2, "write_file");
}
