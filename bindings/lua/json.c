/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bind.h"

/*
 * Pond descriptions as JSON (RFC 8259), for the page and for other programs:
 * the same fields, numbers in SI.  An object becomes a table, an array a
 * list.  null is refused (leave the field out), and so is a field given
 * twice.
 */
#define DEPTH_MAX 16

struct reader {
	lua_State *L;
	const char *path, *at, *end, *line_start;
	long line;
	int depth;
};

BIND_NO_RETURN static int fail(struct reader *r, const char *what)
{
	bind_error(r->L, "%s:%I:%I: %s", r->path, (LUAI_UACINT)r->line,
		   (LUAI_UACINT)(r->at - r->line_start + 1), what);
}

static int peek(const struct reader *r)
{
	return r->at < r->end ? (unsigned char)*r->at : -1;
}

static void skip(struct reader *r)
{
	for (; r->at < r->end && strchr(" \t\r\n", *r->at) && *r->at; r->at++)
		if (*r->at == '\n') {
			r->line++;
			r->line_start = r->at + 1;
		}
}

static void expect(struct reader *r, char c, const char *what)
{
	skip(r);
	if (peek(r) != c)
		fail(r, what);
	r->at++;
}

static unsigned read_hex(struct reader *r)
{
	unsigned code = 0;

	for (int i = 0; i < 4; i++, r->at++) {
		int c = peek(r);
		const char *digits = "0123456789abcdef";
		const char *digit = c < 1 ? NULL
			: strchr(digits, c >= 'A' && c <= 'F' ? c + 32 : c);

		if (!digit)
			fail(r, "\\u takes four hexadecimal digits");
		code = code * 16 + (unsigned)(digit - digits);
	}
	return code;
}

static void add_code(luaL_Buffer *b, unsigned long code)
{
	char utf8[4];
	int n = 0;

	if (code < 0x80) {
		utf8[n++] = (char)code;
	} else if (code < 0x800) {
		utf8[n++] = (char)(0xC0 | code >> 6);
		utf8[n++] = (char)(0x80 | (code & 0x3F));
	} else if (code < 0x10000) {
		utf8[n++] = (char)(0xE0 | code >> 12);
		utf8[n++] = (char)(0x80 | (code >> 6 & 0x3F));
		utf8[n++] = (char)(0x80 | (code & 0x3F));
	} else {
		utf8[n++] = (char)(0xF0 | code >> 18);
		utf8[n++] = (char)(0x80 | (code >> 12 & 0x3F));
		utf8[n++] = (char)(0x80 | (code >> 6 & 0x3F));
		utf8[n++] = (char)(0x80 | (code & 0x3F));
	}
	luaL_addlstring(b, utf8, (size_t)n);
}

static void read_escape(struct reader *r, luaL_Buffer *b)
{
	static const char names[] = "\"\\/bfnrt", values[] = "\"\\/\b\f\n\r\t";
	int c = peek(r);
	const char *at = c > 0 ? strchr(names, c) : NULL;
	unsigned long code;

	if (c != 'u' && !at)
		fail(r, "unknown escape in a text");
	r->at++;
	if (at) {
		luaL_addchar(b, values[at - names]);
		return;
	}
	code = read_hex(r);
	if (code >= 0xD800 && code < 0xDC00 && r->end - r->at >= 6 &&
	    r->at[0] == '\\' && r->at[1] == 'u') {
		unsigned low;

		r->at += 2;
		low = read_hex(r);
		if (low < 0xDC00 || low > 0xDFFF)
			fail(r, "half of a surrogate pair");
		code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
	} else if (code >= 0xD800 && code < 0xE000) {
		fail(r, "half of a surrogate pair");
	}
	add_code(b, code);
}

static void read_string(struct reader *r)
{
	luaL_Buffer b;
	int c;

	r->at++;
	luaL_buffinit(r->L, &b);
	while ((c = peek(r)) != '"') {
		if (c < 32)
			fail(r, c < 0 ? "a text has no end"
				      : "control character in a text");
		r->at++;
		if (c == '\\')
			read_escape(r, &b);
		else
			luaL_addchar(&b, (char)c);
	}
	r->at++;
	luaL_pushresult(&b);
}

static const char *digits(const char *at, const char *end)
{
	while (at < end && *at >= '0' && *at <= '9')
		at++;
	return at;
}

static void read_number(struct reader *r)
{
	const char *from = r->at, *at = from, *next;
	char text[64];
	size_t n;

	at += *at == '-';
	next = digits(at, r->end);
	if (next == at || (*at == '0' && next > at + 1))
		fail(r, "expected a value");
	at = next;
	if (at < r->end && *at == '.') {
		next = digits(at + 1, r->end);
		if (next == at + 1)
			fail(r, "a number needs digits after its point");
		at = next;
	}
	if (at < r->end && (*at == 'e' || *at == 'E')) {
		at++;
		at += at < r->end && (*at == '+' || *at == '-');
		next = digits(at, r->end);
		if (next == at)
			fail(r, "a number needs digits in its exponent");
		at = next;
	}
	n = (size_t)(at - from);
	if (n >= sizeof text)
		fail(r, "a number is too long");
	memcpy(text, from, n);
	text[n] = '\0';
	if (lua_stringtonumber(r->L, text) == 0)
		fail(r, "not a number");
	r->at = at;
}

static void read_value(struct reader *r);

static void read_array(struct reader *r)
{
	lua_Integer n = 0;

	lua_newtable(r->L);
	r->at++;
	skip(r);
	if (peek(r) == ']') {
		r->at++;
		return;
	}
	for (;;) {
		read_value(r);
		lua_rawseti(r->L, -2, ++n);
		skip(r);
		if (peek(r) != ',')
			break;
		r->at++;
	}
	expect(r, ']', "expected ',' or ']'");
}

static void read_object(struct reader *r)
{
	lua_newtable(r->L);
	r->at++;
	skip(r);
	if (peek(r) == '}') {
		r->at++;
		return;
	}
	for (;;) {
		const char *key;

		skip(r);
		key = r->at;
		if (peek(r) != '"')
			fail(r, "expected a field's name in double quotes");
		read_string(r);
		lua_pushvalue(r->L, -1);
		if (lua_rawget(r->L, -3) != LUA_TNIL) {
			r->at = key;
			fail(r, "this field was given before");
		}
		lua_pop(r->L, 1);
		expect(r, ':', "expected ':'");
		read_value(r);
		lua_rawset(r->L, -3);
		skip(r);
		if (peek(r) != ',')
			break;
		r->at++;
	}
	expect(r, '}', "expected ',' or '}'");
}

static int read_word(struct reader *r, const char *word)
{
	size_t n = strlen(word);

	if ((size_t)(r->end - r->at) < n || memcmp(r->at, word, n) != 0)
		return 0;
	r->at += n;
	return 1;
}

static void read_value(struct reader *r)
{
	skip(r);
	if (++r->depth > DEPTH_MAX)
		fail(r, "nested too deeply for a description");
	luaL_checkstack(r->L, 8, NULL);
	switch (peek(r)) {
	case '{': read_object(r); break;
	case '[': read_array(r); break;
	case '"': read_string(r); break;
	default:
		if (read_word(r, "true"))
			lua_pushboolean(r->L, 1);
		else if (read_word(r, "false"))
			lua_pushboolean(r->L, 0);
		else if (read_word(r, "null"))
			fail(r, "null is no value: leave the field out");
		else
			read_number(r);
	}
	r->depth--;
}

void bind_read_json(lua_State *L, const char *path, const char *text,
		    size_t bytes)
{
	struct reader r = { L, path, text, text + bytes, text, 1, 0 };

	skip(&r);
	if (peek(&r) != '{')
		fail(&r, "a description is an object: { ... }");
	read_value(&r);
	skip(&r);
	if (r.at != r.end)
		fail(&r, "something stands after the description");
}
