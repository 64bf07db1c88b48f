/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "bind.h"

/*
 * Names of files and fields come from others.  What a terminal or a page would
 * obey instead of showing (control characters, marks that turn the direction
 * of writing, bytes that are no UTF-8) is spelt out: "\x1B", "\u{202E}".
 */

/* Characters that are not seen, and change how others are (Unicode 15, general
 * categories Cc, Cf without the joiners, Zl, Zp). */
static int is_obeyed(long code)
{
	static const long ranges[][2] = {
		{ 0, 0x1F }, { 0x7F, 0x9F }, { 0xAD, 0xAD }, { 0x61C, 0x61C },
		{ 0x180E, 0x180E }, { 0x200B, 0x200B }, { 0x200E, 0x200F },
		{ 0x2028, 0x202E }, { 0x2060, 0x206F }, { 0xFEFF, 0xFEFF },
		{ 0xFFF9, 0xFFFB }, { 0xE0000, 0xE007F },
	};

	for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++)
		if (code >= ranges[i][0] && code <= ranges[i][1])
			return 1;
	return 0;
}

static int is_line_end(const char *text, size_t bytes)
{
	return *text == '\n' || *text == '\t' ||
	       (*text == '\r' && bytes > 1 && text[1] == '\n');
}

size_t bind_show(const char *text, size_t bytes, int lines, char out[16],
		 size_t *length)
{
	size_t used;
	long code = tarn_utf8(text, bytes, &used);

	if (code < 0 || (is_obeyed(code) && code < 0x80 &&
			 !(lines && is_line_end(text, bytes))))
		*length = (size_t)snprintf(out, 16, "\\x%02X",
				   (unsigned char)text[0]);
	else if (is_obeyed(code) && code >= 0x80)
		*length = (size_t)snprintf(out, 16, "\\u{%lX}", code);
	else
		for (*length = 0; *length < used; ++*length)
			out[*length] = text[*length];
	return used;
}

void bind_print(FILE *to, const char *text, size_t bytes, int lines)
{
	char shown[16];
	size_t length;

	for (size_t i = 0; i < bytes;) {
		i += bind_show(text + i, bytes - i, lines, shown, &length);
		fwrite(shown, 1, length, to);
	}
}

/* visible(text, lines) -> the text, its control characters and the like spelt
 * out; lines: ends of lines and tabs stay */
static int l_visible(lua_State *L)
{
	size_t bytes, length;
	const char *text = luaL_checklstring(L, 1, &bytes);
	int lines = lua_toboolean(L, 2);
	char shown[16];
	luaL_Buffer b;

	luaL_buffinit(L, &b);
	for (size_t i = 0; i < bytes;) {
		i += bind_show(text + i, bytes - i, lines, shown, &length);
		luaL_addlstring(&b, shown, length);
	}
	luaL_pushresult(&b);
	return 1;
}

void bind_visible(lua_State *L)
{
	lua_pushcfunction(L, l_visible);
	lua_setfield(L, -2, "visible");
}
