/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn.h"
#include "numbers.h"

/*
 * One table in many shapes: between its values, at its decimal points, at the
 * ends of its lines and in its bytes.  All must be read as the same table.
 */

#define DAYS 40

struct shape {
	char delimiter, decimal;
	int crlf, quotes;
	enum { PLAIN, MARKED, LITTLE, BIG, BARE_LITTLE, BARE_BIG, ENCODINGS }
		encoding;
	int dates;		/* one of put_date's */
};

#define DATES 7

static unsigned long state = 15;

static unsigned draw(unsigned below)
{
	state = state * 6364136223846793005UL + 1442695040888963407UL;
	return (unsigned)(state >> 33) % below;
}

static struct shape random_shape(void)
{
	struct shape s = { ",;\t"[draw(3)], '.', (int)draw(2), (int)draw(2),
			   draw(ENCODINGS), (int)draw(DATES) };

	if (s.delimiter != ',' && draw(2))
		s.decimal = ',';
	return s;
}

/* Tenths of a degree, then of a millimetre; -1: no value. */
static int tenths(int day, int column)
{
	return column == 0 ? (day * 37) % 200 - 50
			   : day % 3 ? -1 : (day * 53) % 310;
}

static size_t put_value(char *out, struct shape s, int value)
{
	const char *quote = s.quotes ? "\"" : "";

	if (value == -1)
		return 0;
	return (size_t)sprintf(out, "%s%s%d%c%d%s", quote,
			       value < 0 ? "-" : "", abs(value) / 10, s.decimal,
			       abs(value) % 10, quote);
}

static size_t put_date(char *out, int shape, int month, int day)
{
	static const char *const names[] = { "Jan", "Feb" };

	switch (shape) {
	case 0: return (size_t)sprintf(out, "2015-%02d-%02d", month, day);
	case 1: return (size_t)sprintf(out, "%d/%d/2015", month, day);
	case 2: return (size_t)sprintf(out, "%d/%d/15", day, month);
	case 3: return (size_t)sprintf(out, "%02d.%02d.2015", day, month);
	case 4: return (size_t)sprintf(out, "2015%02d%02d", month, day);
	case 5: return (size_t)sprintf(out, "%d-%s-2015", day,
				       names[month - 1]);
	default: return (size_t)sprintf(out, "2015-%02d-%02dT00:00:00Z",
					month, day);
	}
}

static size_t write_text(char *out, struct shape s)
{
	const char *end = s.crlf ? "\r\n" : "\n";
	size_t n = (size_t)sprintf(out, "date%ctmin_c%crain_mm%s", s.delimiter,
				   s.delimiter, end);

	for (int day = 0; day < DAYS; day++) {
		n += put_date(out + n, s.dates, day / 28 + 1, day % 28 + 1);
		for (int c = 0; c < 2; c++) {
			out[n++] = s.delimiter;
			n += put_value(out + n, s, tenths(day, c));
		}
		n += (size_t)sprintf(out + n, "%s", end);
	}
	return n;
}

/* All of the text is ASCII. */
static size_t encode(char *out, const char *text, size_t n, struct shape s)
{
	static const char *const marks[] = { "", "\xef\xbb\xbf", "\xff\xfe",
					     "\xfe\xff", "", "" };
	size_t at = strlen(marks[s.encoding]);

	memcpy(out, marks[s.encoding], at);
	for (size_t i = 0; i < n; i++) {
		if (s.encoding == BIG || s.encoding == BARE_BIG)
			out[at++] = '\0';
		out[at++] = text[i];
		if (s.encoding == LITTLE || s.encoding == BARE_LITTLE)
			out[at++] = '\0';
	}
	return at;
}

static void check_table(const struct tarn_weather *w, struct shape s)
{
	const double *tmin = tarn_weather_column(w, TARN_TMIN);
	const double *rain = tarn_weather_column(w, TARN_RAIN);

	for (int day = 0; day < DAYS; day++) {
		long at = tarn_day(2015, day / 28 + 1, day % 28 + 1) -
			  tarn_weather_first(w);
		int mm = tenths(day, 1);

		cr_assert(at >= 0 && at < (long)tarn_weather_days(w));
		cr_assert(tmin[at] == tenths(day, 0) / 10.0 &&
				  (mm == -1 ? isnan(rain[at])
					    : rain[at] == mm / 10.0),
			  "day %d, delimiter '%c', decimal '%c', encoding %d",
			  day, s.delimiter, s.decimal, (int)s.encoding);
	}
}

Test(weather_shapes, one_table)
{
	static char text[4000], bytes[8000];

	for (int i = 0; i < 600; i++) {
		struct shape s = random_shape();
		size_t n = encode(bytes, text, write_text(text, s), s);
		struct tarn_error err = { 0 };
		struct tarn_weather *w;

		cr_assert(tarn_weather_read_text(&w, NULL, bytes, n, NULL,
						 NULL, &err) == TARN_OK,
			  "delimiter '%c', decimal '%c', encoding %d, dates "
			  "%d: %s", s.delimiter, s.decimal, (int)s.encoding,
			  s.dates, err.text);
		check_table(w, s);
		tarn_weather_free(w);
	}
}
