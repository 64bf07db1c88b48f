/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/measure.h"

/* ---- the units of rows ---------------------------------------------------- */

enum { M, S, KG, K, A, BASES = TARN_DIMENSION_BASES };

struct atom {
	const char *name;
	signed char power[BASES];	/* whole */
	double num, den;
};

/* A name stands before those that it begins with. */
static const struct atom atoms[] = {
	{ "deg C", { [K] = 1 }, 1, 1 },
	{ "degrees", { 0 }, 1, 1 },
	{ "money", { 0 }, 1, 1 },
	{ "years", { [S] = 1 }, 365 * 86400.0, 1 },
	{ "inch", { [M] = 1 }, 254, 10000 },
	{ "kWh", { [M] = 2, [S] = -2, [KG] = 1 }, 3600000, 1 },
	{ "kPa", { [M] = -1, [S] = -2, [KG] = 1 }, 1000, 1 },
	{ "mg", { [KG] = 1 }, 1, 1000000 },
	{ "mm", { [M] = 1 }, 1, 1000 },
	{ "kg", { [KG] = 1 }, 1, 1 },
	{ "yr", { [S] = 1 }, 365 * 86400.0, 1 },
	{ "m", { [M] = 1 }, 1, 1 },
	{ "s", { [S] = 1 }, 1, 1 },
	{ "h", { [S] = 1 }, 3600, 1 },
	{ "d", { [S] = 1 }, 86400, 1 },
	{ "g", { [KG] = 1 }, 1, 1000 },
	{ "L", { [M] = 3 }, 1, 1000 },
	{ "W", { [M] = 2, [S] = -3, [KG] = 1 }, 1, 1 },
	{ "V", { [M] = 2, [S] = -3, [KG] = 1, [A] = -1 }, 1, 1 },
	{ "C", { [K] = 1 }, 1, 1 },
	{ "A", { [A] = 1 }, 1, 1 },
	{ "%", { 0 }, 1, 100 },
	{ "1", { 0 }, 1, 1 },
	{ "-", { 0 }, 1, 1 },
};

static const struct atom *atom_at(const char *text)
{
	for (size_t i = 0; i < sizeof atoms / sizeof atoms[0]; i++)
		if (strncmp(text, atoms[i].name, strlen(atoms[i].name)) == 0)
			return &atoms[i];
	return NULL;
}

/* Digits with or without a point, whatever the locale. */
static double digits(const char **text)
{
	double x = 0, place = 1;

	for (; **text >= '0' && **text <= '9'; (*text)++)
		x = 10 * x + (**text - '0');
	if (**text != '.')
		return x;
	for ((*text)++; **text >= '0' && **text <= '9'; (*text)++)
		x += (place /= 10) * (**text - '0');
	return x;
}

/* "3", "^0.5", "^(1/3)" behind an atom, in sixths; 6 where none is there, 0
 * where it is beyond all use. */
static int sixths(const char **text)
{
	double x;
	int bracket;

	if (**text >= '2' && **text <= '9')
		return 6 * (*(*text)++ - '0');
	if (**text != '^')
		return 6;
	bracket = *++*text == '(';
	*text += bracket;
	x = digits(text);
	if (bracket && **text == '/') {
		++*text;
		x /= digits(text);
	}
	*text += bracket && **text == ')';
	return x > 0 && x < 10 ? (int)lrint(6 * x) : 0;
}

/* Factors of a root of a unit of another size would not be exact. */
static int multiply(struct tarn_dimension *d, const struct atom *atom,
		    int power)
{
	int times = abs(power) / 6;

	if (power == 0)
		return 0;
	if (power % 6 != 0 && (atom->num != 1 || atom->den != 1))
		return 0;
	for (int i = 0; i < BASES; i++) {
		int sum = d->power[i] + power * atom->power[i];

		if (abs(sum) > 126)
			return 0;
		d->power[i] = (signed char)sum;
	}
	for (int i = 0; i < times; i++) {
		d->num *= power > 0 ? atom->num : atom->den;
		d->den *= power > 0 ? atom->den : atom->num;
	}
	return 1;
}

int tarn_dimension(const char *unit, struct tarn_dimension *out)
{
	struct tarn_dimension d;
	int sign = 1;

	memset(&d, 0, sizeof d);	/* its padding too */
	d.num = d.den = 1;
	if (!unit[0])
		return 0;
	while (*unit) {
		const struct atom *atom = atom_at(unit);

		if (!atom)
			return 0;
		unit += strlen(atom->name);
		if (!multiply(&d, atom, sign * sixths(&unit)))
			return 0;
		if (*unit && *unit != '/')
			return 0;
		sign = -1;
		unit += *unit == '/';
	}
	*out = d;
	return 1;
}

const char *tarn_field_unit(const struct tarn_field *row, int which,
			    char room[32])
{
	const char *comma = strstr(row->unit, ", ");

	if (!comma)
		return row->unit;
	if (which % 2 == 1)
		return comma + 2;
	snprintf(room, 32, "%.*s", (int)(comma - row->unit), row->unit);
	return room;
}

int tarn_field_dimension(const struct tarn_field *row, int which,
			 struct tarn_dimension *out)
{
	char room[32];

	return tarn_dimension(tarn_field_unit(row, which, room), out);
}

int tarn_dimension_alike(const struct tarn_dimension *a,
			 const struct tarn_dimension *b)
{
	return memcmp(a->power, b->power, sizeof a->power) == 0;
}

/* ---- words ------------------------------------------------------------------ */

const char *tarn_dimension_word(const struct tarn_dimension *d, char room[48])
{
	static const struct { const char *unit, *word; } words[] = {
		{ "-", "a plain number" }, { "m", "a length" },
		{ "m2", "an area" }, { "m3", "a volume" }, { "s", "a time" },
		{ "m3/s", "a flow" }, { "kg", "a mass" }, { "kPa", "a pressure" },
		{ "m/s", "a speed or a rate of depth" }, { "W", "a power" },
		{ "kWh", "an energy" }, { "kg/m3", "a density" },
		{ "kg/s", "a mass a time" }, { "m2/s", "an area a time" },
		{ "m3/s/m", "a flow a length" }, { "1/m3", "a price a volume" },
		{ "1/kWh", "a price an energy" }, { "1/s", "a number a time" },
		{ "deg C", "a temperature" }, { "A", "a current" },
		{ "V", "a voltage" },
	};
	static const char *const bases[] = { "m", "s", "kg", "K", "A" };
	struct tarn_dimension known;
	size_t n = 0;

	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (tarn_dimension(words[i].unit, &known) &&
		    tarn_dimension_alike(d, &known))
			return words[i].word;
	for (int i = 0; i < BASES && n < 40; i++)
		if (d->power[i] != 0)
			n += (size_t)snprintf(room + n, 48 - n, "%s%s^%.3g",
					      n ? " " : "", bases[i],
					      d->power[i] / 6.0);
	return room;
}
