/* SPDX-License-Identifier: MIT */
/* A line of a description that Lua does not read: the slip that it shows. */
#include <ctype.h>
#include <string.h>

#include "bind_box.h"
#include "tarn/measure.h"

/* ---- names ------------------------------------------------------------------- */

/* From a unit's name or from its word: "gallons" is near "US gallon". */
static int unit_distance(const char *name, const struct tarn_unit *unit)
{
	const char *word = unit->meaning;
	int by_name = tarn_name_distance(name, unit->name), by_word;

	if (strncmp(word, "US ", 3) == 0)
		word += 3;
	by_word = tarn_name_distance(name, word);
	return by_word < by_name ? by_word : by_name;
}

const char *bind_push_no_unit(lua_State *L, const char *name)
{
	size_t count, length = strlen(name);
	const struct tarn_unit *units = tarn_units(&count);
	const char *best = NULL;
	int least = 3;

	for (size_t i = 0; i < count && length > 1; i++) {
		int d = unit_distance(name, &units[i]);

		if (d < least && 2 * (size_t)d <= length) {
			least = d;
			best = units[i].name;
		}
	}
	if (!best)
		return lua_pushfstring(L, "there is no unit '%s', and no local "
				       "of that name; write a word in quotes, "
				       "as \"%s\"", name, name);
	return lua_pushfstring(L, "there is no unit '%s': did you mean '%s'?",
			       name, best);
}

/* ---- slips ------------------------------------------------------------------- */

/* Quotes of typesetters: U+2018 to U+201F, U+2032, U+2033, U+00AB, U+00BB. */
int bind_typeset_quote(const char *line, size_t length)
{
	for (size_t i = 0; i + 1 < length; i++) {
		const unsigned char *b = (const unsigned char *)line + i;

		if (b[0] == 0xe2 && b[1] == 0x80 && i + 2 < length &&
		    ((b[2] >= 0x98 && b[2] <= 0x9f) || b[2] == 0xb2 ||
		     b[2] == 0xb3))
			return 1;
		if (b[0] == 0xc2 && (b[1] == 0xab || b[1] == 0xbb))
			return 1;
	}
	return 0;
}

/* 5'3" or 39": a mark of feet or inches right behind a digit, which closes no
 * text. */
int bind_feet_mark(const char *line, size_t length)
{
	char open = '\0';

	for (size_t i = 0; i < length; i++) {
		if (line[i] != '\'' && line[i] != '"')
			continue;
		if (!open && i > 0 && isdigit((unsigned char)line[i - 1]))
			return 1;
		if (!open)
			open = line[i];
		else if (open == line[i])
			open = '\0';
	}
	return 0;
}

#define ADD_FRACTION "a fraction is added, as (3 + 1/2) * ft"

/* Signs of typesetters that stand for one of the keyboard. */
static const struct {
	const char *bytes, *cure;
} signs[] = {
	{ "\xc3\x97", "write * for times" },
	{ "\xc2\xbc", ADD_FRACTION }, { "\xc2\xbd", ADD_FRACTION },
	{ "\xc2\xbe", ADD_FRACTION },
	{ "\xe2\x88\x92", "write - for minus" },
	{ "\xe2\x80\x93", "write - for minus" },
	{ "\xc2\xa0", "the line has a blank of a word processor: type it anew" },
};

static const char *cure_of_sign(const char *line, size_t length)
{
	for (size_t s = 0; s < sizeof signs / sizeof signs[0]; s++) {
		const char *at = strstr(line, signs[s].bytes);

		if (at && at < line + length)
			return signs[s].cure;
	}
	return NULL;
}

static int begins(const char *at, size_t left, const char *what)
{
	return left >= strlen(what) && strncmp(at, what, strlen(what)) == 0;
}

static int is_letter(char c)
{
	return isalnum((unsigned char)c) || c == '_';
}

/* Where 'near' stands in the line as a word of its own; NULL: nowhere. */
static const char *word_at(const char *line, size_t length, const char *near)
{
	size_t n = strlen(near);

	for (size_t i = 0; n > 0 && i + n <= length; i++)
		if (strncmp(line + i, near, n) == 0 &&
		    (i == 0 || !is_letter(line[i - 1])) &&
		    (i + n == length || !is_letter(line[i + n])))
			return line + i;
	return NULL;
}

/* By what stands on both sides of the word that Lua stopped at. */
static const char *push_beside(lua_State *L, const char *line, size_t length,
			       const char *near)
{
	const char *at = word_at(line, length, near), *next, *end;
	const char *before = at;

	if (!at)
		return NULL;
	end = line + length;
	while (before > line && isspace((unsigned char)before[-1]))
		before--;
	if (before == line || before == at)
		return NULL;
	for (next = at + strlen(near); next < end && isspace((unsigned char)*next);)
		next++;
	if (isdigit((unsigned char)before[-1]) && isdigit((unsigned char)*near))
		return next < end && *next == '/'
			? lua_pushliteral(L, ADD_FRACTION) : NULL;
	if (isdigit((unsigned char)before[-1]) && is_letter(*near))
		return lua_pushfstring(L, "put a star between a number and its "
				       "unit, as 39 * inch; %s",
				       bind_push_no_unit(L, near));
	if (is_letter(before[-1]) && is_letter(*near) && next < end &&
	    *next == '=')
		return lua_pushfstring(L, "a comma is missing before '%s', or a "
				       "name is in two words: overflow_level is "
				       "one", near);
	return NULL;
}

/* What the line itself shows; NULL: nothing. */
const char *bind_push_slip(lua_State *L, const char *line, size_t length,
			   const char *why, const char *near)
{
	const char *cure = strstr(why, " near '<\\")
		? cure_of_sign(line, length) : NULL;
	size_t i = 0;

	if (cure)
		return lua_pushstring(L, cure);
	while (i < length && isspace((unsigned char)line[i]))
		i++;
	if (begins(line + i, length - i, "//") ||
	    begins(line + i, length - i, "#"))
		return lua_pushliteral(L, "a remark begins with --");
	while (i < length && is_letter(line[i]))
		i++;
	while (i < length && isspace((unsigned char)line[i]))
		i++;
	if (i > 0 && i < length && line[i] == ':')
		return lua_pushliteral(L, "write name = value, not name: value");
	return push_beside(L, line, length, near);
}
