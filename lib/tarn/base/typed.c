/* SPDX-License-Identifier: MIT */
/* Numbers and quantities as people type them. */
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/measure.h"

#define DIGITS_MOST 15		/* a double has them exactly */
#define UNIT_MOST 24

/* ---- numbers --------------------------------------------------------------- */

struct glyph {
	const char *text;		/* UTF-8 */
	double over, under;
};

static const struct glyph glyphs[] = {
	{ "\xc2\xbd", 1, 2 },     { "\xc2\xbc", 1, 4 },
	{ "\xc2\xbe", 3, 4 },     { "\xe2\x85\x9b", 1, 8 },
	{ "\xe2\x85\x9c", 3, 8 }, { "\xe2\x85\x9d", 5, 8 },
	{ "\xe2\x85\x9e", 7, 8 }, { "\xe2\x85\x93", 1, 3 },
	{ "\xe2\x85\x94", 2, 3 },
};

static const char *past_blanks(const char *text)
{
	for (;;) {
		if (*text == ' ' || *text == '\t')
			text++;
		else if (strncmp(text, "\xc2\xa0", 2) == 0)
			text += 2;	/* a blank that does not break */
		else
			return text;
	}
}

/* Digits, and a point among them where 'point' says so; returns what follows,
 * NULL where there are none. */
static const char *take_digits(const char *text, int point, double *out)
{
	size_t n = 0, digits = 0;
	char copy[DIGITS_MOST + 2];

	for (; n <= DIGITS_MOST; n++) {
		if (isdigit((unsigned char)text[n]))
			digits++;
		else if (text[n] == '.' && point)
			point = 0;
		else
			break;
	}
	if (digits == 0 || digits > DIGITS_MOST ||
	    isdigit((unsigned char)text[n]))
		return NULL;
	memcpy(copy, text, n);
	copy[n] = '\0';
	*out = strtod(copy, NULL);
	return text + n;
}

/* "7/8" or a glyph. */
static const char *take_fraction(const char *text, double *out)
{
	double over, under;
	const char *at = take_digits(text, 0, &over);

	if (at && *at == '/') {
		at = take_digits(at + 1, 0, &under);
		if (!at || !(under > 0))
			return NULL;
		*out = over / under;
		return at;
	}
	for (size_t i = 0; i < sizeof glyphs / sizeof glyphs[0]; i++) {
		size_t n = strlen(glyphs[i].text);

		if (strncmp(text, glyphs[i].text, n) == 0) {
			*out = glyphs[i].over / glyphs[i].under;
			return text + n;
		}
	}
	return NULL;
}

/* A number without its sign; NULL where none begins here. */
static const char *take_number(const char *text, double *out)
{
	double fraction = 0;
	const char *at = take_fraction(text, out), *more;

	if (at)
		return at;
	at = take_digits(text, 1, out);
	if (!at || memchr(text, '.', (size_t)(at - text)))
		return at;
	more = past_blanks(*at == '-' ? at + 1 : at);
	more = take_fraction(more, &fraction);
	if (more && !(fraction < 1))
		return NULL;
	*out += more ? fraction : 0;
	return more ? more : at;
}

static const char *take_sign(const char *text, double *sign)
{
	static const char minus[] = "\xe2\x88\x92";	/* the typographer's */

	text = past_blanks(text);
	*sign = *text == '-' || strncmp(text, minus, 3) == 0 ? -1 : 1;
	if (*text == '-' || *text == '+')
		return past_blanks(text + 1);
	return *sign < 0 ? past_blanks(text + 3) : text;
}

int tarn_typed_number(const char *text, double *out)
{
	double sign, number;
	const char *at = take_number(take_sign(text, &sign), &number);

	if (!at || *past_blanks(at))
		return 0;
	*out = sign * number;
	return 1;
}

/* ---- units ----------------------------------------------------------------- */

/* Spellings of a unit that is no name of tarn_units. */
static const struct spelling {
	const char *typed, *name;
} spellings[] = {
	{ "in", "inch" }, { "inches", "inch" }, { "\"", "inch" },
	{ "''", "inch" }, { "\xe2\x80\xb3", "inch" },
	{ "\xe2\x80\x9d", "inch" }, { "foot", "ft" }, { "feet", "ft" },
	{ "'", "ft" }, { "\xe2\x80\xb2", "ft" }, { "\xe2\x80\x99", "ft" },
	{ "yard", "yd" }, { "yards", "yd" }, { "metre", "m" },
	{ "metres", "m" }, { "meter", "m" }, { "meters", "m" },
	{ "sq ft", "ft2" }, { "sqft", "ft2" }, { "ft\xc2\xb2", "ft2" },
	{ "ft^2", "ft2" }, { "sq m", "m2" }, { "m\xc2\xb2", "m2" },
	{ "m^2", "m2" }, { "m\xc2\xb3", "m3" }, { "m^3", "m3" },
	{ "cu ft", "ft3" }, { "cuft", "ft3" }, { "l", "liter" },
	{ "L", "liter" }, { "liters", "liter" }, { "litre", "liter" },
	{ "litres", "liter" }, { "gallon", "gal" }, { "gallons", "gal" },
	{ "US gal", "gal" }, { "US gallons", "gal" }, { "s", "second" },
	{ "sec", "second" }, { "seconds", "second" }, { "min", "minute" },
	{ "minutes", "minute" }, { "h", "hour" }, { "hours", "hour" },
	{ "d", "day" }, { "days", "day" }, { "W", "watt" },
	{ "watts", "watt" }, { "%", "percent" }, { "lbs", "lb" },
	{ "pounds", "lb" },
};

/* Bytes of a prime at the start; 0: none. */
static size_t prime(const char *text)
{
	if (*text == '\'')
		return text[1] == '\'' ? 2 : 1;
	return *text == '"' ? 1 : strncmp(text, "\xe2\x80", 2) == 0 ? 3 : 0;
}

/* Bytes of a letter of a unit's name; the power goes behind a letter: "ft2". */
static size_t letter(const char *text, size_t n)
{
	if (isalpha((unsigned char)text[n]) || text[n] == '%' ||
	    text[n] == ' ' || text[n] == '^' || text[n] == '_')
		return 1;
	if ((text[n] == '2' || text[n] == '3') && n > 0 && text[n - 1] != ' ')
		return 1;
	return strncmp(text + n, "\xc2\xb2", 2) == 0 ||
	       strncmp(text + n, "\xc2\xb3", 2) == 0 ? 2 : 0;
}

/* The name of a unit, or a prime; returns what follows. */
static const char *take_word(const char *text, char word[UNIT_MOST])
{
	size_t n = prime(text), more = n == 0;

	while (more && n < UNIT_MOST - 3) {
		more = letter(text, n);
		n += more;
	}
	memcpy(word, text, n);
	text += n;
	while (n > 0 && word[n - 1] == ' ')
		n--;
	word[n] = '\0';
	return text;
}

static int find_unit(const char *word, struct tarn_measure *out)
{
	if (tarn_measure_unit(word, out))
		return 1;
	for (size_t i = 0; i < sizeof spellings / sizeof spellings[0]; i++)
		if (strcmp(word, spellings[i].typed) == 0)
			return tarn_measure_unit(spellings[i].name, out);
	return 0;
}

/* ---- quantities --------------------------------------------------------------- */

#define EDITS_MOST 3

/* Says that a unit is not known, and which one of the dimension is near. */
static void fail_unit(const char *word, const struct tarn_dimension *want,
		      struct tarn_error *err)
{
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);
	const char *near = NULL;
	int least = EDITS_MOST + 1;

	for (size_t i = 0; i < count; i++) {
		int edits = tarn_name_distance(word, units[i].name);
		struct tarn_measure m;

		if (edits < least && tarn_measure_unit(units[i].name, &m) &&
		    tarn_dimension_alike(&m.unit, want)) {
			least = edits;
			near = units[i].name;
		}
	}
	tarn_fail(err, TARN_EFORMAT, NULL, "has a unit '%s' that is not known"
		  "%s%s%s", word, near ? ": did you mean '" : "",
		  near ? near : "", near ? "'?" : "");
}

/* A number and its unit, "6 1/2 in"; the bare unit where none is typed. */
static const char *take_part(const char *text, const char *bare,
			     const struct tarn_dimension *want,
			     struct tarn_measure *out, struct tarn_error *err)
{
	double number;
	char word[UNIT_MOST];
	const char *at = take_number(text, &number);

	if (!at) {
		tarn_fail(err, TARN_EFORMAT, NULL, "is no number with a unit, "
			  "as 39 1/2 in, 4 ft 3 in, 1.2 m, 20 gal");
		return NULL;
	}
	at = take_word(past_blanks(at), word);
	if (!*word && !bare) {
		tarn_fail(err, TARN_EFORMAT, NULL, "has a number without a "
			  "unit: type it as 39 1/2 in, 4 ft 3 in, 1.2 m");
		return NULL;
	}
	if (!find_unit(*word ? word : bare, out)) {
		fail_unit(word, want, err);
		return NULL;
	}
	out->number *= number;
	return past_blanks(at);
}

enum tarn_status tarn_typed(const char *text, const char *unit,
			    const char *bare, double *out,
			    struct tarn_error *err)
{
	struct tarn_dimension want;
	struct tarn_measure sum, part;
	double sign;
	char room[2][48];
	const char *at;

	if (!tarn_dimension(unit, &want))
		return tarn_fail(err, TARN_EARG, "unit", "'%s' is no unit of a "
				 "row", unit);
	at = take_part(take_sign(text, &sign), bare, &want, &sum, err);
	while (at && *at) {
		/* what follows has a unit of its own: 4 ft 3 is not told */
		at = take_part(at, NULL, &want, &part, err);
		if (at && !tarn_measure_add(&sum, &part, &sum))
			return tarn_fail(err, TARN_EFORMAT, NULL, "adds %s and "
					 "%s", tarn_dimension_word(&sum.unit,
								   room[0]),
					 tarn_dimension_word(&part.unit,
							     room[1]));
	}
	if (!at)
		return TARN_EFORMAT;
	if (!tarn_dimension_alike(&sum.unit, &want))
		return tarn_fail(err, TARN_EFORMAT, NULL, "is %s, and %s is "
				 "wanted", tarn_dimension_word(&sum.unit, room[0]),
				 tarn_dimension_word(&want, room[1]));
	*out = sign * tarn_measure_in(&sum, &want);
	return TARN_OK;
}
