/* SPDX-License-Identifier: MIT
 * wasi-libc has none; lua_try.h says how errors unwind here. */
#ifndef WEB_SETJMP_H
#define WEB_SETJMP_H
#endif
