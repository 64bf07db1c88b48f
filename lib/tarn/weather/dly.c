/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * Station files (.dly) of the Global Historical Climatology Network, daily: a
 * line is a month of one element, in fixed columns: station 1-11, year 12-15,
 * month 16-17, element 18-21, then 31 times a value of five characters and
 * its flags of measurement, quality, source.  -9999 is missing, also of a day
 * that there is not.  Source: NOAA NCEI, readme.txt of GHCN-Daily, section
 * III; the columns are from memory.  Each value becomes a row of the long
 * form, layout noaa_long.
 */

#define HEAD 21
#define WIDTH 8
#define MONTH_DAYS 31

static int are_digits(const char *s, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (s[i] < '0' || s[i] > '9')
			return 0;
	return 1;
}

static int is_capital(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/* A value of five characters: blanks, a sign, digits. */
static int is_value(const char *s)
{
	size_t i = 0;

	while (i < 4 && s[i] == ' ')
		i++;
	i += i < 4 && s[i] == '-';
	return are_digits(s + i, 5 - i);
}

int tn_dly_fits(struct text line)
{
	if (line.length < HEAD + WIDTH ||
	    memchr(line.at, ',', line.length) ||
	    !are_digits(line.at + 11, 6) || !is_value(line.at + HEAD))
		return 0;
	for (size_t i = 0; i < 11; i++)
		if (!is_capital(line.at[i]) && !strchr("-_", line.at[i]))
			return 0;
	for (size_t i = 17; i < HEAD; i++)
		if (!is_capital(line.at[i]))
			return 0;
	return 1;
}

/* Where in a line each field of its row stands: the value, whose place is also
 * that of its day, and its flags follow each other. */
long tn_dly_column(const struct row *row, int field)
{
	long at = row->at > 0 ? row->at : HEAD + 1;

	if (field == 0 || field == 2)
		return field == 0 ? 1 : 18;
	return field < 4 ? at : at + field + 1;
}

/* The nth of the flags behind a value, nothing if it is blank or cut off. */
static struct text flag(struct text line, size_t at, size_t n)
{
	struct text t = { line.at + at + 4 + n, 1 };

	if (at + 4 + n >= line.length)
		t.length = 0;
	return tn_text_trim(t);
}

int tn_dly_row(struct text line, int day, char date[8], struct row *row)
{
	size_t at = HEAD + (size_t)(day - 1) * WIDTH;
	struct text value = { line.at + at, 5 };

	if (day > MONTH_DAYS || at + 5 > line.length)
		return 0;
	memcpy(date, line.at + 11, 6);
	date[6] = (char)('0' + day / 10);
	date[7] = (char)('0' + day % 10);
	row->count = 7;
	row->at = (long)at + 1;
	row->field[0] = (struct text){ line.at, 11 };
	row->field[1] = (struct text){ date, 8 };
	row->field[2] = (struct text){ line.at + 17, 4 };
	row->field[3] = tn_text_trim(value);
	for (size_t k = 1; k <= 3; k++)
		row->field[3 + k] = flag(line, at, k);
	return 1;
}
