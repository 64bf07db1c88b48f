/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "heading.h"

/* "also" holds what canonical() makes of other spellings. */
static const struct tarn_weather_unit units[] = {
	{ "C", "degc", TARN_TMIN, 0, 1, 1, 0 },
	{ "F", "degf", TARN_TMIN, -32, 1, 1.8, 0 },
	{ "K", "kelvin", TARN_TMIN, -273.15, 1, 1, 0 },

	{ "%", "pct percent prozent percentage", TARN_RH_MEAN, 0, 1, 1, 0 },
	{ "fraction", "0-1", TARN_RH_MEAN, 0, 100, 1, 0 },

	{ "kPa", "", TARN_PRESSURE, 0, 1, 1, 0 },
	{ "hPa", "", TARN_PRESSURE, 0, 1, 10, 0 },
	{ "mbar", "mb mbars millibar", TARN_PRESSURE, 0, 1, 10, 0 },
	{ "Pa", "", TARN_PRESSURE, 0, 1, 1000, 0 },
	{ "mmHg", "", TARN_PRESSURE, 0, 0.1333224, 1, 0 },
	{ "inHg", "", TARN_PRESSURE, 0, 3.386389, 1, 0 },

	{ "m/s", "ms mps", TARN_WIND, 0, 1, 1, 0 },
	{ "km/h", "kmh kph kmph", TARN_WIND, 0, 1, 3.6, 0 },
	{ "mph", "mi/h miles/h", TARN_WIND, 0, 1609.344, 3600, 0 },
	{ "knots", "knot kt kts kn", TARN_WIND, 0, 1852, 3600, 0 },
	{ "ft/s", "fps", TARN_WIND, 0, 0.3048, 1, 0 },
	{ "km/d", "kmd", TARN_WIND, 0, 1, 86.4, 0 },
	{ "mi/d", "miles/d", TARN_WIND, 0, 1609.344, 86400, 0 },

	{ "h", "", TARN_SUNSHINE, 0, 1, 1, 0 },
	{ "min", "minute minutes minuten mins", TARN_SUNSHINE, 0, 1, 60, 0 },
	{ "s", "", TARN_SUNSHINE, 0, 1, 3600, 0 },

	{ "MJ/m2", "mj/m mj/sqm mjm2", TARN_SOLAR, 0, 1, 1, 0 },
	{ "kJ/m2", "kj/m", TARN_SOLAR, 0, 1, 1000, 0 },
	{ "J/m2", "j/m", TARN_SOLAR, 0, 1, 1e6, 0 },
	{ "J/cm2", "j/cm", TARN_SOLAR, 0, 1, 100, 0 },
	{ "kWh/m2", "kwh/m kwh/sqm", TARN_SOLAR, 0, 3.6, 1, 0 },
	{ "Wh/m2", "wh/m", TARN_SOLAR, 0, 3.6, 1000, 0 },
	{ "langley", "langleys ly cal/cm2", TARN_SOLAR, 0, 4.184, 100, 0 },
	{ "W/m2", "w/m w/sqm wm2", TARN_SOLAR, 0, 86.4, 1000, 1 },
	{ "kW/m2", "kw/m", TARN_SOLAR, 0, 86.4, 1, 1 },

	{ "mm", "kg/m2 kg/m l/m2 l/m", TARN_RAIN, 0, 1, 1, 0 },
	{ "cm", "", TARN_RAIN, 0, 10, 1, 0 },
	{ "m", "", TARN_RAIN, 0, 1000, 1, 0 },
	{ "inch", "in inches zoll \"", TARN_RAIN, 0, 25.4, 1, 0 },
};

#define COUNT (sizeof units / sizeof units[0])

const struct tarn_weather_unit *tarn_weather_units(size_t *count)
{
	*count = COUNT;
	return units;
}

enum tarn_column tn_column_like(enum tarn_column c)
{
	switch (c) {
	case TARN_TMIN:
	case TARN_TMAX:
	case TARN_TMEAN:
	case TARN_DEWPOINT: return TARN_TMIN;
	case TARN_RH_MIN:
	case TARN_RH_MAX:
	case TARN_RH_MEAN: return TARN_RH_MEAN;
	case TARN_VAPOUR:
	case TARN_PRESSURE: return TARN_PRESSURE;
	case TARN_RAIN:
	case TARN_PAN:
	case TARN_REFERENCE:
	case TARN_OPEN_WATER: return TARN_RAIN;
	default: return c;
	}
}

/* ---- spellings ------------------------------------------------------- */

/* A unit being written anew: "MJ m-2 day-1" is "mj/m2/d". */
struct spelling {
	char out[40];
	size_t n;
	int slash;		/* the next word stands under the line */
};

/* Words that other words replace. */
static const char *shorter(const char *word)
{
	static const struct { const char *from, *to; } words[] = {
		{ "day days tag jour dia dag 24h 24hr 24hrs", "d" },
		{ "hour hours hr hrs stunde std stunden heure heures hora horas "
		  "uur", "h" },
		{ "sec second seconds", "s" },
		{ "celsius centigrade", "c" }, { "fahrenheit", "f" },
		{ "meter metre meters metres mtr", "m" },
		{ "millimeter millimetre millimeters millimetres", "mm" },
		{ "centimeter centimetre centimeters centimetres", "cm" },
		{ "joules joule", "j" }, { "watts watt", "w" },
		{ "litre liter litres liters", "l" },
		{ "deg degree degrees grad grados graden degre degres", "" },
	};

	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (tn_text_listed(tn_text(word), words[i].from))
			return words[i].to;
	return word;
}

/* Writes a word with its exponent, 0: none. */
static void put_word(struct spelling *s, const char *word, int exponent)
{
	const char *as = shorter(word);
	int under = s->slash || exponent < 0, most = abs(exponent);
	char power[8] = "";

	if (!as[0] || s->n + strlen(as) + 12 > sizeof s->out)
		return;
	if (most > 1)
		snprintf(power, sizeof power, "%d", most % 100);
	s->n += (size_t)snprintf(s->out + s->n, sizeof s->out - s->n,
				 "%s%s%s", under && s->n > 0 ? "/" : "", as,
				 power);
	s->slash = 0;
}

/* What a character is in a unit; 0: nothing, ' ' parts words. */
static char unit_letter(unsigned c)
{
	if (c == 0x2212 || c == 0x207b || c == 0x2013)
		return '-';
	if (c == 0xb2 || c == 0xb3)
		return c == 0xb2 ? '2' : '3';
	if (c == 0xb9)
		return '1';
	if (c == 0x2033 || c == 0x201d)
		return '"';
	if (c == 0xb7 || c == '*' || c == ' ' || c == '\t' || c == '.')
		return ' ';
	if (c < 0x80)
		return c >= 'A' && c <= 'Z' ? (char)(c + 32) : (char)c;
	return 0;
}

/* The characters of a unit, without case, of one byte each. */
static void plain_letters(struct text t, char out[64])
{
	size_t n = 0;

	while (t.length > 0 && n < 61) {
		unsigned c = tn_letter_take(&t);
		char letter = unit_letter(c);

		if (c == '*' && t.length > 0 && t.at[0] == '*') {
			t.at++;		/* "m**2": a power */
			t.length--;
			continue;
		}
		if (c == 0x2103 || c == 0x2109)
			letter = c == 0x2103 ? 'c' : 'f';
		if (letter && letter != '^')
			out[n++] = letter;
	}
	out[n] = '\0';
}

/* "per" and what joins words; the next place. */
static const char *between(struct spelling *s, const char *at)
{
	while (*at && strchr(" _/-", *at)) {
		s->slash |= *at == '/' || (*at == '_' && s->n > 0);
		at++;
	}
	if (strncmp(at, "per ", 4) == 0 || strncmp(at, "per_", 4) == 0) {
		s->slash = 1;
		return at + 4;
	}
	return at;
}

static int is_letter(char c)
{
	return (c >= 'a' && c <= 'z') || c == '%' || c == '"';
}

static int is_digit(char c)
{
	return c >= '0' && c <= '9';
}

/*
 * One way to write a unit: small letters; words of one meaning as one; "/"
 * for "per", "_" and a negative power; no blanks, no degree sign.
 */
static void canonical(struct text t, char out[40])
{
	struct spelling s = { "", 0, 0 };
	char plain[64];
	const char *at = plain;

	plain_letters(t, plain);
	if (strcmp(plain, "0-1") == 0) {	/* a range, no power */
		strcpy(out, plain);
		return;
	}
	while (*(at = between(&s, at))) {
		char word[24];
		size_t n = 0;
		int sign = 1, exponent = 0;

		while (is_digit(*at) && n < 4)		/* "24h" */
			word[n++] = *at++;
		while (is_letter(*at) && n < sizeof word - 1)
			word[n++] = *at++;
		word[n] = '\0';
		if (n == 0)
			break;
		if (*at == '-' && is_digit(at[1])) {
			sign = -1;
			at++;
		}
		while (is_digit(*at) && exponent < 10)
			exponent = 10 * exponent + (*at++ - '0');
		put_word(&s, word, sign * exponent);
	}
	snprintf(out, 40, "%s%s", s.out, *at ? "?" : "");
}

/* A depth or an energy of a day needs no "per day". */
static void drop_day(char *name, enum tarn_column like)
{
	size_t n = strlen(name);

	if (like != TARN_RAIN && like != TARN_SOLAR)
		return;
	if (n > 2 && strcmp(name + n - 2, "/d") == 0)
		name[n - 2] = '\0';
}

const struct tarn_weather_unit *tn_unit_text(enum tarn_column c,
					     struct text name)
{
	enum tarn_column like = tn_column_like(c);
	char want[40], have[40];

	canonical(name, want);
	drop_day(want, like);
	if (!want[0])
		return NULL;
	for (size_t i = 0; i < COUNT; i++) {
		if (units[i].like != like)
			continue;
		canonical(tn_text(units[i].name), have);
		if (strcmp(want, have) == 0 ||
		    tn_text_listed(tn_text(want), units[i].also))
			return &units[i];
	}
	return NULL;
}

const struct tarn_weather_unit *tarn_weather_unit(enum tarn_column c,
						  const char *name)
{
	return tn_unit_text(c, tn_text(name));
}

void tarn_weather_unit_list(enum tarn_column c, char *text, size_t size)
{
	size_t n = 0;

	text[0] = '\0';
	for (size_t i = 0; i < COUNT && n < size; i++)
		if (units[i].like == tn_column_like(c))
			n += (size_t)snprintf(text + n, size - n, "%s%s",
					      n ? ", " : "", units[i].name);
}
