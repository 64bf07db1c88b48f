/* SPDX-License-Identifier: MIT */
/* A description that is no Lua, or no text, in the words of who wrote it. */
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "bind_box.h"
#include "tarn/measure.h"

/* ---- what is no text --------------------------------------------------------- */

static const struct {
	const char *bytes;
	size_t count;
	const char *what;
} formats[] = {
	{ "PK\3\4", 4, "a workbook, a document or an archive (.xlsx, .docx, "
		"... .zip)" },
	{ "\xd0\xcf\x11\xe0", 4, "a workbook (.xls) or a document (.doc)" },
	{ "%PDF", 4, "a PDF" },
	{ "\xff\xfe", 2, "text in UTF-16" },
	{ "\xfe\xff", 2, "text in UTF-16" },
	{ "{\\rtf", 5, "a document (.rtf)" },
	{ "<!", 2, "a web page" }, { "<html", 5, "a web page" },
};

/* Letters of two bytes each, without the mark that UTF-16 begins with. */
static int is_wide(const char *text, size_t bytes)
{
	return bytes >= 4 && (text[0] ? !text[1] && text[2] && !text[3]
				      : text[1] && !text[2] && text[3]);
}

/* Nothing but blanks and remarks. */
static int is_empty(const char *text, size_t bytes)
{
	const char *end = text + bytes;

	for (; text < end; text++) {
		if (end - text > 1 && text[0] == '-' && text[1] == '-')
			while (text < end && *text != '\n')
				text++;
		if (text < end && !isspace((unsigned char)*text))
			return 0;
	}
	return 1;
}

void bind_check_text(lua_State *L, const char *path, const char *text,
		     size_t bytes)
{
	for (size_t i = 0; i < sizeof formats / sizeof formats[0]; i++)
		if (bytes >= formats[i].count &&
		    memcmp(text, formats[i].bytes, formats[i].count) == 0)
			bind_error(L, "%s: is %s: a description is plain text "
				   "in UTF-8, .lua or .json", path,
				   formats[i].what);
	if (is_wide(text, bytes))
		bind_error(L, "%s: is text in UTF-16: a description is plain "
			   "text in UTF-8, .lua or .json", path);
	if (is_empty(text, bytes))
		bind_error(L, "%s: is empty: tarn new NAME.lua asks for a pond "
			   "and writes its description", path);
}

/* ---- names ------------------------------------------------------------------- */

static int l_no_name(lua_State *box)
{
	const char *name = lua_tostring(box, 2);

	if (!name)
		return 0;
	return luaL_error(box, "%s", bind_push_no_unit(box, name));
}

int bind_strict(lua_State *box)
{
	lua_pushglobaltable(box);
	lua_createtable(box, 0, 1);
	lua_pushcfunction(box, l_no_name);
	lua_setfield(box, -2, "__index");
	lua_setmetatable(box, -2);
	return 0;
}

/* ---- what is no Lua ------------------------------------------------------------ */

#define FEET "write a length in feet and inches as 5 * ft + 3 * inch"
#define PUT_STAR "put a star between a number and its unit, as 39 * %s"

/* The text that Lua stopped at: "near 'ft'"; "" where it says none. */
static void near_of(const char *why, char out[40])
{
	const char *at = strstr(why, " near '");
	size_t n;

	out[0] = '\0';
	if (!at)
		return;
	at += strlen(" near '");
	n = strlen(at);
	n = n > 0 && at[n - 1] == '\'' ? n - 1 : n;
	n = n > 39 ? 39 : n;
	memcpy(out, at, n);
	out[n] = '\0';
}

/* A unit right behind a number; NULL: Lua stopped at something else. */
static const char *push_star(lua_State *L, const char *why, const char *near)
{
	struct tarn_measure unit;

	if (strcmp(near, "in") == 0)
		return lua_pushliteral(L, "an inch is written inch, as 39 * "
				       "inch");
	if (strstr(why, "malformed number"))
		return lua_pushfstring(L, PUT_STAR, "inch");
	if (tarn_measure_unit(near, &unit))
		return lua_pushfstring(L, PUT_STAR, near);
	return NULL;
}

/* The line of a text that a complaint is about, as "path:3: ..."; NULL: none. */
static const char *line_of(const char *why, const char *text, size_t *length)
{
	const char *at = why;
	long line = 0;

	while ((at = strchr(at, ':')) != NULL) {
		char *end;

		line = strtol(++at, &end, 10);
		if (end > at && *end == ':')
			break;
		line = 0;
	}
	while (line > 1 && (text = strchr(text, '\n')) != NULL) {
		text++;
		line--;
	}
	if (line != 1 || !text)
		return NULL;
	*length = strcspn(text, "\n");
	return text;
}

static int ends_with(const char *text, const char *ending)
{
	size_t n = strlen(text), k = strlen(ending);

	return n >= k && strcmp(text + n - k, ending) == 0;
}

/* Of a text as a whole. */
static const char *push_by_text(lua_State *L, const char *why, const char *text)
{
	if (ends_with(why, "near <eof>"))
		return lua_pushliteral(L, "the file ends in the middle: was all "
				       "of it copied?");
	if (strstr(why, " near ") && !strstr(why, "too many") &&
	    !strstr(text, "return"))
		return lua_pushliteral(L, "a description begins with return { "
				       "and ends with }: tarn new NAME.lua "
				       "writes one");
	return NULL;
}

/* "'}' expected (to close '{' at line 4) near ..." */
static const char *push_brace(lua_State *L, const char *why, const char *near)
{
	const char *at = strstr(why, "(to close '{' at line ");

	if (!ends_with(why, "near <eof>"))
		return lua_pushfstring(L, "a comma is missing before '%s'",
				       near);
	return lua_pushfstring(L, "the { of line %d is never closed: add its }",
			       at ? (int)strtol(at + 22, NULL, 10) : 1);
}

/* What is to be done about a complaint of Lua's; NULL: Lua's own words. */
static const char *push_cure(lua_State *L, const char *why, const char *text)
{
	size_t length = 0;
	const char *line = line_of(why, text, &length), *cure;
	char near[40];

	near_of(why, near);
	if (strstr(why, "'for' ") && strstr(why, "number"))
		return lua_pushliteral(L, "a loop counts plain numbers, and the "
				       "unit is multiplied in: for i = 1, 4 do "
				       "... i * ft");
	if (line && strstr(why, " near '<\\") &&
	    bind_typeset_quote(line, length))
		return lua_pushliteral(L, "the line has a typographic quote: "
				       "write plain ones, as \"ellipse\", and a "
				       "length as 4 * ft + 3 * inch");
	if (line && strstr(why, "unfinished string"))
		return bind_feet_mark(line, length)
			? lua_pushliteral(L, FEET)
			: lua_pushliteral(L, "a quote is opened and not closed "
					  "in its line");
	cure = push_star(L, why, near);
	if (!cure && line)
		cure = bind_push_slip(L, line, length, why, near);
	if (cure)
		return cure;
	if (line && strstr(why, " near '\"") && bind_feet_mark(line, length))
		return lua_pushliteral(L, FEET);
	if (strstr(why, "'}' expected"))
		return push_brace(L, why, near);
	if (strstr(why, "<eof> expected"))
		return lua_pushliteral(L, "nothing may follow the } that ends "
				       "the description: is there one } too "
				       "many?");
	return push_by_text(L, why, text);
}

int bind_fail_text(lua_State *L, const char *path, const char *why,
		   const char *text)
{
	size_t n = strlen(path);
	const char *cure = push_cure(L, why, text), *place;

	if (strncmp(why, path, n) != 0)
		return bind_error(L, "%s: %s", path, cure ? cure : why);
	place = strchr(why + n + 1, ':');
	if (!cure || !place)
		return bind_error(L, "%s", why);
	lua_pushlstring(L, why, (size_t)(place - why));
	return bind_error(L, "%s: %s", lua_tostring(L, -1), cure);
}
