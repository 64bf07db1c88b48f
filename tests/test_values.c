/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/value.h"

/*
 * JSON by RFC 8259: what each text holds, or where and why it is refused.  No
 * file and no script between.
 */
static struct tarn_values *values;

static const struct tarn_value *read(const char *text, size_t bytes,
				     struct tarn_error *err)
{
	const struct tarn_value *v = NULL;

	tarn_values_free(values);
	values = tarn_values_new(NULL);
	*err = (struct tarn_error){ 0 };
	return tarn_values_json(values, text, bytes, &v, err) == TARN_OK ? v
									 : NULL;
}

/* The value of "a" in { "a": TEXT }. */
static const struct tarn_value *of_a(const char *text)
{
	static char whole[4000];
	struct tarn_error err;
	const struct tarn_value *v;

	snprintf(whole, sizeof whole, "{\"a\":%s}", text);
	v = read(whole, strlen(whole), &err);
	cr_assert(v != NULL, "%s: %s", whole, err.text);
	cr_assert_str_eq(v->first->name, "a");
	cr_assert_null(v->first->next);
	return v->first;
}

/* ---- refusals --------------------------------------------------------------- */

static const struct refusal {
	const char *text;
	long line, column;
	const char *part;
} refusals[] = {
	{ "", 1, 1, "" },
	{ "[1]", 1, 1, "" },
	{ "{", 1, 2, "name in double quotes" },
	{ "{a:1}", 1, 2, "name in double quotes" },
	{ "{\"a\"", 1, 5, "expected ':'" },
	{ "{\"a\" 1}", 1, 6, "expected ':'" },
	{ "{\"a\":1", 1, 7, "expected ',' or '}'" },
	{ "{\"a\":1 \"b\":2}", 1, 8, "expected ',' or '}'" },
	{ "{\"a\":1,}", 1, 8, "name in double quotes" },
	{ "{\"a\":1}x", 1, 8, "" },
	{ "{\n\t\"a\":1,\r\n  \"a\":2}", 3, 3, "was given before" },
	{ "{\"a\":1,\"b\":2,\"a\":3}", 1, 14, "was given before" },
	{ "{\"a\":[1", 1, 8, "expected ',' or ']'" },
	{ "{\"a\":[1 2]}", 1, 9, "expected ',' or ']'" },
	{ "{\"a\":[1,]}", 1, 9, "expected a value" },
	{ "{\"a\":null}", 1, 10, "null is no value" },
	{ "{\"a\":nul}", 1, 6, "expected a value" },
	{ "{\"a\":tru", 1, 6, "expected a value" },
	{ "{\"a\":-}", 1, 6, "expected a value" },
	{ "{\"a\":01}", 1, 6, "expected a value" },
	{ "{\"a\":+1}", 1, 6, "expected a value" },
	{ "{\"a\":.5}", 1, 6, "expected a value" },
	{ "{\"a\":1.}", 1, 6, "digits after its point" },
	{ "{\"a\":1.e3}", 1, 6, "digits after its point" },
	{ "{\"a\":1e}", 1, 6, "digits in its exponent" },
	{ "{\"a\":1e+}", 1, 6, "digits in its exponent" },
	{ "{\"a\":1E-x}", 1, 6, "digits in its exponent" },
	{ "{\"a\":\"x}", 1, 9, "a text has no end" },
	{ "{\"a\":\"x\\", 1, 9, "" },
	{ "{\"a\":\"\\x\"}", 1, 8, "unknown escape" },
	{ "{\"a\":\"\\u12G4\"}", 1, 11, "four hexadecimal digits" },
	{ "{\"a\":\"\\u12@4\"}", 1, 11, "four hexadecimal digits" },
	{ "{\"a\":\"\\u12g4\"}", 1, 11, "four hexadecimal digits" },
	{ "{\"a\":\"\\u12", 1, 11, "four hexadecimal digits" },
	{ "{\"a\":\"\\udc00\"}", 1, 13, "half of a surrogate pair" },
	{ "{\"a\":\"\\udfff\"}", 1, 13, "half of a surrogate pair" },
	{ "{\"a\":\"\\ud800\"}", 1, 13, "half of a surrogate pair" },
	{ "{\"a\":\"\\ud800\\n\"}", 1, 13, "half of a surrogate pair" },
	{ "{\"a\":\"\\ud800\\ud800\"}", 1, 19, "half of a surrogate pair" },
	{ "{\"a\":\"\\ud800\\udbff\"}", 1, 19, "half of a surrogate pair" },
	{ "{\"a\":\"\\ud800\\ue000\"}", 1, 19, "half of a surrogate pair" },
	{ "{\"a\":\"\x1f\"}", 1, 7, "control character in a text" },
	{ "{\"a\":\"\n\"}", 1, 7, "control character in a text" },
};

Test(json, refusals)
{
	for (size_t i = 0; i < sizeof refusals / sizeof refusals[0]; i++) {
		const struct refusal *r = &refusals[i];
		struct tarn_error err;

		cr_expect_null(read(r->text, strlen(r->text), &err), "%s",
			       r->text);
		cr_expect(err.code == TARN_EFORMAT &&
			  err.mistake == TARN_MISTAKE_SYNTAX, "%s", r->text);
		cr_expect(err.line == r->line && err.column == r->column,
			  "%s: %ld:%ld, want %ld:%ld (%s)", r->text, err.line,
			  err.column, r->line, r->column, err.text);
		cr_expect(strstr(err.text, r->part) != NULL, "%s: %s", r->text,
			  err.text);
	}
}

/* Every text that ends too soon is refused, wherever that is. */
Test(json, cut)
{
	static const char text[] = "{\"a\":[1,-2.5e3,true,{\"b\":\"x\\u00e9\\n\"}"
				   "],\"c\":false}";
	struct tarn_error err;

	cr_assert(read(text, sizeof text - 1, &err) != NULL, "%s", err.text);
	for (size_t n = 0; n < sizeof text - 1; n++) {
		char *exact = malloc(n ? n : 1);

		memcpy(exact, text, n);
		cr_expect_null(read(exact, n, &err), "%zu bytes", n);
		cr_expect(err.line == 1 && err.column <= (long)n + 1, "%zu", n);
		free(exact);
	}
}

Test(json, depth)
{
	char text[200];
	struct tarn_error err;

	for (int deep = 1; deep < 40; deep++) {
		size_t n = (size_t)snprintf(text, sizeof text, "{\"a\":");

		for (int i = 0; i < deep; i++)
			text[n++] = '[';
		for (int i = 0; i < deep; i++)
			text[n++] = ']';
		text[n++] = '}';
		/* the object is one of the 16 */
		cr_expect((read(text, n, &err) != NULL) == (deep <= 15),
			  "%d: %s", deep, err.text);
	}
	cr_expect(strstr(err.text, "nested too deeply") != NULL, "%s",
		  err.text);
}

Test(json, fields_of_an_object)
{
	static char text[30000];
	struct tarn_error err;

	for (int count = 1000; count <= 1001; count++) {
		size_t n = 0;

		for (int i = 0; i < count; i++)
			n += (size_t)snprintf(text + n, sizeof text - n,
					      "%c\"x%d\":1", i ? ',' : '{', i);
		text[n++] = '}';
		cr_expect((read(text, n, &err) != NULL) == (count == 1000),
			  "%d: %s", count, err.text);
	}
	cr_expect(strstr(err.text, "more than 1000 fields") != NULL, "%s",
		  err.text);
}

/* ---- values ------------------------------------------------------------------- */

Test(json, numbers)
{
	static const struct {
		const char *text;
		double number;
	} rows[] = {
		{ "0", 0 }, { "-0", 0 }, { "10", 10 }, { "-25e-1", -2.5 },
		{ "2.5E+2", 250 }, { "1e3", 1000 }, { "0.125", 0.125 },
		{ "-0.5", -0.5 }, { "1234567890", 1234567890 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct tarn_value *v = of_a(rows[i].text);

		cr_expect(v->kind == TARN_VALUE_NUMBER &&
			  v->number == rows[i].number, "%s: %g", rows[i].text,
			  v->number);
		cr_expect_str_eq(v->text, rows[i].text);
		cr_expect(v->bytes == strlen(rows[i].text));
	}
	cr_expect(signbit(of_a("-0")->number));
}

/* 63 digits are a number; 64 are too long. */
Test(json, long_numbers)
{
	char text[100] = "{\"a\":";
	struct tarn_error err;

	for (size_t n = 62; n <= 65; n++) {
		memset(text + 5, '1', n);
		text[5 + n] = '}';
		cr_expect((read(text, n + 6, &err) != NULL) == (n < 64),
			  "%zu digits: %s", n, err.text);
	}
	cr_expect(strstr(err.text, "a number is too long") != NULL);
}

Test(json, texts)
{
	static const struct {
		const char *text, *want;
	} rows[] = {
		{ "\"\"", "" }, { "\" x \"", " x " },
		{ "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"", "\"\\/\b\f\n\r\t" },
		{ "\"\\u0041\\u007F\\u0080\\u07ff\"", "A\x7f\xc2\x80\xdf\xbf" },
		{ "\"\\u0800\\uD7FF\\ue000\\uffFF\"",
		  "\xe0\xa0\x80\xed\x9f\xbf\xee\x80\x80\xef\xbf\xbf" },
		{ "\"\\ud800\\udc00\\udbff\\udfff\"",
		  "\xf0\x90\x80\x80\xf4\x8f\xbf\xbf" },
		{ "\"\\ud83d\\ude00!\"", "\xf0\x9f\x98\x80!" },
		{ "\"\x7f \xc3\xa9\"", "\x7f \xc3\xa9" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct tarn_value *v = of_a(rows[i].text);

		cr_expect(v->kind == TARN_VALUE_TEXT);
		cr_expect(v->bytes == strlen(rows[i].want) &&
			  memcmp(v->text, rows[i].want, v->bytes + 1) == 0,
			  "%s", rows[i].text);
	}
	/* a zero inside is a byte like another */
	cr_expect(of_a("\"x\\u0000y\"")->bytes == 3);
}

Test(json, tables)
{
	static const char text[] = " {\"a\" : [ 1 ,\n [ ] , {} ],\r\n\t\"b\":true"
				   ", \"c\":false }\n ";
	struct tarn_error err;
	const struct tarn_value *t = read(text, sizeof text - 1, &err), *v;

	cr_assert(t != NULL, "%s", err.text);
	cr_expect(t->kind == TARN_VALUE_TABLE && t->listed == 0);
	cr_expect(t->line == 1 && t->column == 2);
	v = t->first;
	cr_expect_str_eq(v->name, "a");
	cr_expect(v->kind == TARN_VALUE_TABLE && v->listed == 3);
	cr_expect(v->line == 1 && v->column == 9, "%ld:%ld", v->line, v->column);
	v = v->first;
	cr_expect(v->number == 1 && v->name == NULL && v->column == 11);
	v = v->next;
	cr_expect(v->kind == TARN_VALUE_TABLE && v->first == NULL);
	cr_expect(v->line == 2 && v->column == 2, "%ld:%ld", v->line, v->column);
	v = v->next;
	cr_expect(v->kind == TARN_VALUE_TABLE && v->next == NULL);
	cr_expect(v->line == 2 && v->column == 8, "%ld:%ld", v->line, v->column);
	v = t->first->next;
	cr_expect(v->kind == TARN_VALUE_SWITCH && v->number == 1);
	cr_expect(v->line == 3 && v->column == 6, "%ld:%ld", v->line, v->column);
	v = v->next;
	cr_expect(v->kind == TARN_VALUE_SWITCH && v->number == 0);
	cr_expect(t->last == v && v->next == NULL);
}
