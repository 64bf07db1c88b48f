/* SPDX-License-Identifier: MIT
 * Included before each source of Lua's.  A protected call goes out to the
 * host, which calls back inside `try`; an error is an exception of the host's
 * (host.js).  What a program in a browser cannot have fails politely. */
#ifndef WEB_LUA_TRY_H
#define WEB_LUA_TRY_H

#include <stdio.h>
#include <stdlib.h>

#define WEB_IMPORT(name) \
	__attribute__((import_module("env"), import_name(name)))

WEB_IMPORT("try_call") void web_try_call(void *f, void *L, void *ud);
WEB_IMPORT("throw_now") _Noreturn void web_throw_now(void);

#define LUAI_THROW(L, c) web_throw_now()
#define LUAI_TRY(L, c, a) web_try_call((void *)f, L, ud)
#define luai_jmpbuf int

static inline FILE *web_no_file(void)
{
	return NULL;
}

#define tmpfile() web_no_file()
#define system(command) ((command) ? -1 : 0)
#define lua_tmpnam(buffer, failed) ((void)(buffer), (failed) = 1)
#define LUA_TMPNAMBUFSIZE 32

#endif
