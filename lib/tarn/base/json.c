/* SPDX-License-Identifier: MIT */
#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/value.h"

#define DEPTH_MAX 16
#define FIELDS_MAX 1000	/* each is compared with the others */

struct parse {
	struct tarn_values *values;
	struct tarn_error *err;
	const char *at, *end, *line_start;
	long line;
	int depth;
};

/* Always 0, "failed". */
static int fail(struct parse *p, const char *what)
{
	if (p->err && p->err->code == TARN_OK) {
		p->err->mistake = TARN_MISTAKE_SYNTAX;
		p->err->line = p->line;
		p->err->column = p->at - p->line_start + 1;
	}
	tarn_fail(p->err, TARN_EFORMAT, NULL, "%s", what);
	return 0;
}

static int no_memory(struct parse *p)
{
	tarn_fail(p->err, TARN_ENOMEM, NULL, "out of memory");
	return 0;
}

static int peek(const struct parse *p)
{
	return p->at < p->end ? (unsigned char)*p->at : -1;
}

static void skip(struct parse *p)
{
	for (; p->at < p->end && *p->at && strchr(" \t\r\n", *p->at); p->at++)
		if (*p->at == '\n') {
			p->line++;
			p->line_start = p->at + 1;
		}
}

static int expect(struct parse *p, char c, const char *what)
{
	skip(p);
	if (peek(p) != c)
		return fail(p, what);
	p->at++;
	return 1;
}

/* ---- texts ------------------------------------------------------------------ */

static int read_hex(struct parse *p, unsigned long *code)
{
	*code = 0;
	for (int i = 0; i < 4; i++, p->at++) {
		const char *digits = "0123456789abcdef";
		int c = peek(p);
		const char *digit = c < 1 ? NULL
			: strchr(digits, c >= 'A' && c <= 'F' ? c + 32 : c);

		if (!digit)
			return fail(p, "\\u takes four hexadecimal digits");
		*code = *code * 16 + (unsigned long)(digit - digits);
	}
	return 1;
}

static char *put_code(char *to, unsigned long code)
{
	if (code < 0x80) {
		*to++ = (char)code;
		return to;
	}
	if (code < 0x800) {
		*to++ = (char)(0xC0 | code >> 6);
	} else {
		if (code < 0x10000) {
			*to++ = (char)(0xE0 | code >> 12);
		} else {
			*to++ = (char)(0xF0 | code >> 18);
			*to++ = (char)(0x80 | (code >> 12 & 0x3F));
		}
		*to++ = (char)(0x80 | (code >> 6 & 0x3F));
	}
	*to++ = (char)(0x80 | (code & 0x3F));
	return to;
}

/* Behind "\u"; a pair of surrogates is one letter. */
static int read_code(struct parse *p, char **to)
{
	unsigned long code, low;

	if (!read_hex(p, &code))
		return 0;
	if (code >= 0xD800 && code < 0xDC00 && p->end - p->at >= 6 &&
	    p->at[0] == '\\' && p->at[1] == 'u') {
		p->at += 2;
		if (!read_hex(p, &low))
			return 0;
		if (low < 0xDC00 || low > 0xDFFF)
			return fail(p, "half of a surrogate pair");
		code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
	} else if (code >= 0xD800 && code < 0xE000) {
		return fail(p, "half of a surrogate pair");
	}
	*to = put_code(*to, code);
	return 1;
}

static int read_escape(struct parse *p, char **to)
{
	static const char names[] = "\"\\/bfnrt", values[] = "\"\\/\b\f\n\r\t";
	int c = peek(p);
	const char *at = c > 0 ? strchr(names, c) : NULL;

	if (c != 'u' && !at)
		return fail(p, "unknown escape in a text");
	p->at++;
	if (!at)
		return read_code(p, to);
	*(*to)++ = values[at - names];
	return 1;
}

/* Bytes up to the closing quote: no less than the text will have. */
static size_t most_bytes(const struct parse *p)
{
	const char *at = p->at;

	while (at < p->end && *at != '"')
		at += *at == '\\' && at + 1 < p->end ? 2 : 1;
	return (size_t)(at - p->at);
}

static int read_text(struct parse *p, const char **text, size_t *bytes)
{
	char *room, *to;
	int c;

	p->at++;
	room = to = tarn_values_room(p->values, most_bytes(p) + 1);
	if (!room)
		return no_memory(p);
	while ((c = peek(p)) != '"') {
		if (c < 32)
			return fail(p, c < 0 ? "a text has no end"
				    : "control character in a text");
		p->at++;
		if (c != '\\')
			*to++ = (char)c;
		else if (!read_escape(p, &to))
			return 0;
	}
	p->at++;
	*text = room;
	*bytes = (size_t)(to - room);
	return 1;
}

/* ---- numbers ------------------------------------------------------------------ */

static const char *digits(const char *at, const char *end)
{
	while (at < end && *at >= '0' && *at <= '9')
		at++;
	return at;
}

/* End of the number at p->at, by the grammar; NULL: it is none. */
static const char *number_end(struct parse *p)
{
	const char *at = p->at, *next;

	at += peek(p) == '-';
	next = digits(at, p->end);
	if (next == at || (*at == '0' && next > at + 1)) {
		fail(p, "expected a value");
		return NULL;
	}
	at = next;
	if (at < p->end && *at == '.') {
		next = digits(at + 1, p->end);
		if (next == at + 1) {
			fail(p, "a number needs digits after its point");
			return NULL;
		}
		at = next;
	}
	if (at == p->end || (*at != 'e' && *at != 'E'))
		return at;
	at++;
	at += at < p->end && (*at == '+' || *at == '-');
	next = digits(at, p->end);
	if (next == at) {
		fail(p, "a number needs digits in its exponent");
		return NULL;
	}
	return next;
}

/* The text stays with the value, as it was written. */
static int take_number(struct parse *p, struct tarn_value *v)
{
	const char *end = number_end(p);
	char text[64], *point, *copy;
	size_t n;

	if (!end)
		return 0;
	n = (size_t)(end - p->at);
	if (n >= sizeof text)
		return fail(p, "a number is too long");
	copy = tarn_values_room(p->values, n + 1);
	if (!copy)
		return no_memory(p);
	memcpy(copy, p->at, n);
	memcpy(text, copy, n + 1);
	point = strchr(text, '.');
	if (point)	/* strtod goes by the program's locale */
		*point = localeconv()->decimal_point[0];
	v->number = strtod(text, NULL);
	v->text = copy;
	v->bytes = n;
	p->at = end;
	return 1;
}

/* ---- tables -------------------------------------------------------------------- */

static struct tarn_value *read_value(struct parse *p, struct tarn_value *table,
				     const char *name);

static int read_array(struct parse *p, struct tarn_value *v)
{
	p->at++;
	skip(p);
	if (peek(p) == ']') {
		p->at++;
		return 1;
	}
	for (;;) {
		if (!read_value(p, v, NULL))
			return 0;
		skip(p);
		if (peek(p) != ',')
			break;
		p->at++;
	}
	return expect(p, ']', "expected ',' or ']'");
}

static int read_name(struct parse *p, const struct tarn_value *v,
		     const char **name)
{
	const char *from;
	size_t bytes;

	skip(p);
	from = p->at;
	if (peek(p) != '"')
		return fail(p, "expected a field's name in double quotes");
	if (!read_text(p, name, &bytes))
		return 0;
	for (const struct tarn_value *e = v->first; e; e = e->next)
		if (strcmp(e->name, *name) == 0) {
			p->at = from;
			return fail(p, "this field was given before");
		}
	return expect(p, ':', "expected ':'");
}

static int read_object(struct parse *p, struct tarn_value *v)
{
	const char *name;
	int fields = 0;

	p->at++;
	skip(p);
	if (peek(p) == '}') {
		p->at++;
		return 1;
	}
	for (;;) {
		if (++fields > FIELDS_MAX)
			return fail(p, "more than 1000 fields in one table: "
				    "not a description");
		if (!read_name(p, v, &name) || !read_value(p, v, name))
			return 0;
		skip(p);
		if (peek(p) != ',')
			break;
		p->at++;
	}
	return expect(p, '}', "expected ',' or '}'");
}

static int read_word(struct parse *p, const char *word)
{
	size_t n = strlen(word);

	if ((size_t)(p->end - p->at) < n || memcmp(p->at, word, n) != 0)
		return 0;
	p->at += n;
	return 1;
}

static int read_other(struct parse *p, struct tarn_value *v)
{
	v->kind = TARN_VALUE_SWITCH;
	if (read_word(p, "true")) {
		v->number = 1;
		return 1;
	}
	if (read_word(p, "false"))
		return 1;
	if (read_word(p, "null"))
		return fail(p, "null is no value: leave the field out");
	v->kind = TARN_VALUE_NUMBER;
	return take_number(p, v);
}

static int read_content(struct parse *p, struct tarn_value *v)
{
	switch (peek(p)) {
	case '{':
		v->kind = TARN_VALUE_TABLE;
		return read_object(p, v);
	case '[':
		v->kind = TARN_VALUE_TABLE;
		return read_array(p, v);
	case '"':
		v->kind = TARN_VALUE_TEXT;
		return read_text(p, &v->text, &v->bytes);
	default:
		return read_other(p, v);
	}
}

static struct tarn_value *read_value(struct parse *p, struct tarn_value *table,
				     const char *name)
{
	struct tarn_value *v = tarn_values_add(p->values, table, name);

	skip(p);
	if (!v) {
		no_memory(p);
		return NULL;
	}
	v->line = p->line;
	v->column = p->at - p->line_start + 1;
	if (++p->depth > DEPTH_MAX) {
		fail(p, "nested too deeply for a description");
		return NULL;
	}
	if (!read_content(p, v))
		return NULL;
	p->depth--;
	return v;
}

enum tarn_status tarn_values_json(struct tarn_values *values,
				  const char *text, size_t bytes,
				  const struct tarn_value **out,
				  struct tarn_error *err)
{
	struct tarn_error own = { 0 };
	struct parse p = { values, err ? err : &own, text, text + bytes, text,
			   1, 0 };
	const struct tarn_value *v = NULL;

	skip(&p);
	if (peek(&p) != '{')
		fail(&p, "a description is an object: { ... }");
	else
		v = read_value(&p, NULL, NULL);
	skip(&p);
	if (v && p.at != p.end) {
		fail(&p, "something stands after the description");
		v = NULL;
	}
	if (v)
		*out = v;
	return v ? TARN_OK : p.err->code;
}
