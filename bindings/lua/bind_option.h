/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_OPTION_H
#define TARN_BIND_OPTION_H

#include "bind.h"

/*
 * Options that are no described numbers: texts, words, whole numbers, one of
 * a few.  Each raises, naming what it wanted.
 */

/* Pushes t[name]; 0 (and nothing pushed) if it is nil. */
int option_has(lua_State *L, int table, const char *name);

/* The value at 'at': a string that must fit, a whole number, or the words of
 * a string or of a list of strings, put together with blanks. */
void option_copy(lua_State *L, int at, const char *what, char *to,
		 size_t size);
int option_check_whole(lua_State *L, int at, const char *what, int lo, int hi);
void option_words(lua_State *L, int at, const char *what, char *to,
		  size_t size);

/* Field t[name]; 'to' stays as it is, or 'otherwise' is returned, where it is
 * nil.  A choice is an index into 'choices', which end with NULL. */
void option_text(lua_State *L, int table, const char *name, char *to,
		 size_t size);
int option_whole(lua_State *L, int table, const char *name, int lo, int hi,
		 int otherwise);
int option_choice(lua_State *L, int table, const char *name,
		  const char *const choices[], int otherwise);

#endif
