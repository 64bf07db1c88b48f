/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn.h"

/* A cell that is no plain number: what is taken, with its note, or refused. */

static struct tarn_weather *read_cell(const char *column, const char *cell,
				      struct tarn_error *err)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_weather *w;
	char text[600];

	snprintf(text, sizeof text, "date;%s\n2015-01-01;0.5\n2015-01-02;%s\n"
		 "2015-01-03;0\n", column, cell);
	*err = (struct tarn_error){ 0 };
	tarn_weather_read_text(&w, NULL, text, strlen(text), &map, NULL, err);
	return w;
}

static int has_note(const struct tarn_weather *w, const char *text)
{
	for (size_t i = 0; i < tarn_weather_notes(w); i++)
		if (strstr(tarn_weather_note(w, i), text))
			return 1;
	return 0;
}

#define NONE TARN_NAN
#define WORD "1 word for no value"
#define TRACE "1 trace counted as 0"
#define MARK "a letter or sign stands behind"
#define GROUP "1 number with its thousands in groups"

Test(weather_marks, cells_that_are_taken)
{
	static const struct {
		const char *column, *cell;
		double want;
		const char *note;	/* NULL: none of the four */
	} rows[] = {
		{ "rain_mm", "5", 5, NULL }, { "rain_mm", "+5", 5, NULL },
		{ "rain_mm", "5e1", 50, NULL }, { "rain_mm", "\"5\"", 5, NULL },
		{ "rain_mm", "", NONE, NULL }, { "rain_mm", "NA", NONE, WORD },
		{ "rain_mm", "-", NONE, WORD }, { "rain_mm", "---", NONE, WORD },
		{ "rain_mm", "nan", NONE, WORD }, { "rain_mm", "null", NONE, WORD },
		{ "rain_mm", "M", NONE, WORD }, { "tmin_c", "M", NONE, WORD },
		{ "rain_mm", "T", 0, TRACE }, { "rain_mm", "Trace", 0, TRACE },
		{ "rain_mm", "tr", 0, TRACE },
		{ "rain_mm", "5 mm", 5, NULL }, { "rain_mm", "5mm", 5, NULL },
		{ "rain_mm", "5*", 5, MARK }, { "rain_mm", "5 #A", 5, MARK },
		{ "rain_mm", "5AB", 5, MARK }, { "tmin_c", "5 M", 5, MARK },
		{ "tmin_c", "5 C", 5, NULL }, { "tmin_c", "5C", 5, NULL },
		{ "rain_mm", "1,234.5", 1234.5, GROUP },
		{ "rain_mm", "1 234", 1234, GROUP },
		{ "rain_mm", "1'234", 1234, GROUP },
		{ "rain_mm", "1\xc2\xa0" "234", 1234, GROUP },
		{ "rain_mm", "1\xe2\x80\xaf" "234", 1234, GROUP },
		{ "rain_mm", "1\xe2\x80\x99" "234.25", 1234.25, GROUP },
		{ "rain_mm", "+1 234", 1234, GROUP },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		static const char *const notes[] = { WORD, TRACE, MARK, GROUP };
		struct tarn_error err;
		struct tarn_weather *w = read_cell(rows[i].column, rows[i].cell,
						   &err);
		const double *x;

		cr_assert(w != NULL, "%s '%s': %s", rows[i].column, rows[i].cell,
			  err.text);
		x = tarn_weather_column(w, rows[i].column[0] == 'r' ? TARN_RAIN
								    : TARN_TMIN);
		cr_expect(isnan(rows[i].want) ? isnan(x[1])
			  : fabs(x[1] - rows[i].want) < 1e-12, "'%s': %.12g",
			  rows[i].cell, x[1]);
		for (int k = 0; k < 4; k++)
			cr_expect(has_note(w, notes[k]) ==
				  (rows[i].note &&
				   strcmp(rows[i].note, notes[k]) == 0),
				  "'%s': %s", rows[i].cell, notes[k]);
		tarn_weather_free(w);
	}
}

Test(weather_marks, cells_that_are_refused)
{
	static const struct { const char *column, *cell, *part; } rows[] = {
		{ "rain_mm", "x", "'x' is not a number: correct it" },
		{ "rain_mm", "5,5", "say decimal = \",\"" },
		/* 1.234 and 1234 mm are both possible */
		{ "rain_mm", "1,234", "say decimal = \",\"" },
		{ "rain_mm", "12,34", "is not a number" },
		{ "rain_mm", "1.234,5", "is not a number" },
		{ "rain_mm", "1,23,456", "is not a number" },
		{ "rain_mm", "1,234 567", "is not a number" },
		{ "rain_mm", "1 234 5", "is not a number" },
		{ "rain_mm", "1,234,567", "is no possible rain (0 to 1500 mm)" },
		{ "rain_mm", "5.5.5", "is not a number" },
		{ "rain_mm", "5ABC", "is not a number" },
		{ "rain_mm", "5 %", "is not a number" },
		{ "rain_mm", "Trace*", "is not a number" },
		{ "tmin_c", "T", "'T' is not a number" },
		{ "rain_mm", "0x5", "is not a number" },
		{ "rain_mm", "1e400", "is too large a number" },
		{ "rain_mm", "5 in", "is in inch, but the column is read in mm" },
		{ "rain_mm", "5 m", "is in m, but the column is read in mm" },
		{ "tmin_c", "41 F", "is in F, but the column is read in C" },
		{ "tmin_c", "5 K", "is in K, but the column is read in C" },
		{ "rain_mm", "-1", "is no possible rain" },
		{ "rain_mm", "-9999", "Say missing = \"-9999\"" },
		{ "tmin_c", "99.9", "is no possible tmin (-70 to 60 deg C)" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err;
		struct tarn_weather *w = read_cell(rows[i].column, rows[i].cell,
						   &err);

		cr_expect(w == NULL, "'%s' is taken", rows[i].cell);
		cr_expect(err.code == TARN_EFORMAT && err.line == 3, "'%s': %ld",
			  rows[i].cell, err.line);
		cr_expect(strstr(err.text, rows[i].part) != NULL, "'%s': %s",
			  rows[i].cell, err.text);
		tarn_weather_free(w);
	}
}
