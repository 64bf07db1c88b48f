/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn.h"

/* The day of a row: by one date, by year, month and day, by the day of the year;
 * and its hour by a column of its own. */

static struct tarn_weather *read_rows(const char *rows, int hours,
				      struct tarn_error *err)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_weather *w;

	map.hours = hours;
	*err = (struct tarn_error){ 0 };
	tarn_weather_read_text(&w, NULL, rows, strlen(rows), &map, NULL, err);
	return w;
}

Test(weather_stamps, days)
{
	static const struct {
		const char *rows;
		int year, month, day;
		size_t days;
	} good[] = {
		{ "year;month;day;rain_mm\n2015;1;5;1\n2015;1;6;0\n", 2015, 1, 5, 2 },
		{ "year;month;day;rain_mm\n2015;Jan;31;1\n2015;February;1;0\n",
		  2015, 1, 31, 2 },
		{ "year;month;day;rain_mm\n15;1;5;1\n", 2015, 1, 5, 1 },
		{ "year;month;day;rain_mm\n69;1;5;1\n", 1969, 1, 5, 1 },
		{ "year;month;day;rain_mm\n68;1;5;1\n", 2068, 1, 5, 1 },
		{ "year;month;day;rain_mm\n1800;1;1;1\n", 1800, 1, 1, 1 },
		{ "year;month;day;rain_mm\n2200;12;31;1\n", 2200, 12, 31, 1 },
		{ "year;doy;rain_mm\n2015;1;1\n2015;365;0\n", 2015, 1, 1, 365 },
		{ "year;doy;rain_mm\n2016;366;1\n", 2016, 12, 31, 1 },
		{ "date;rain_mm\n2015-01-05;1\n2015-1-6;2\n", 2015, 1, 5, 2 },
		/* months of all lengths, one behind the other */
		{ "date;rain_mm\n2016-02-28;1\n2016-02-29;1\n2016-03-01;1\n"
		  "2016-03-31;1\n2016-04-01;2\n", 2016, 2, 28, 34 },
	};

	for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
		struct tarn_error err;
		struct tarn_weather *w = read_rows(good[i].rows, 0, &err);

		cr_assert(w != NULL, "%s: %s", good[i].rows, err.text);
		cr_expect(tarn_weather_first(w) ==
			  tarn_day(good[i].year, good[i].month, good[i].day),
			  "%s", good[i].rows);
		cr_expect(tarn_weather_days(w) == good[i].days, "%s: %zu",
			  good[i].rows, tarn_weather_days(w));
		tarn_weather_free(w);
	}
}

Test(weather_stamps, days_that_are_none)
{
	static const struct {
		const char *rows, *field, *part;
		long line;
	} bad[] = {
		{ "year;month;day;rain_mm\n2015;13;5;1\n", "day",
		  "year 2015, month 13, day 5 is no date", 2 },
		{ "year;month;day;rain_mm\n2015;1;31;1\n2015;2;29;1\n", "day",
		  "month 2, day 29 is no date", 3 },
		{ "year;month;day;rain_mm\n2015;0;5;1\n", "day", "month 0", 2 },
		{ "year;month;day;rain_mm\n2015;1;0;1\n", "day", "day 0", 2 },
		{ "year;month;day;rain_mm\n2015;x;5;1\n", "month",
		  "'x' is no part of a date", 2 },
		{ "year;month;day;rain_mm\n2015;1;;1\n", "day",
		  "'' is no part of a date", 2 },
		{ "year;month;day;rain_mm\n2015;1;5.5;1\n", "day",
		  "'5.5' is no part", 2 },
		{ "year;month;day;rain_mm\n2015;1;-5;1\n", "day",
		  "'-5' is no part", 2 },
		{ "year;month;day;rain_mm\n;1;5;1\n", "year", "is no part", 2 },
		{ "year;month;day;rain_mm\n2015000000;1;5;1\n", "year",
		  "is no part", 2 },
		{ "year;month;day;rain_mm\n1799;12;31;1\n", "day",
		  "is no date from 1800 to 2200", 2 },
		{ "year;month;day;rain_mm\n2201;1;1;1\n", "day",
		  "is no date from 1800 to 2200", 2 },
		{ "year;doy;rain_mm\n2015;366;1\n", "doy",
		  "day 366 of the year 2015 is no date", 2 },
		{ "year;doy;rain_mm\n2015;0;1\n", "doy", "day 0 of the year", 2 },
		{ "year;doy;rain_mm\n2016;367;1\n", "doy", "day 367", 2 },
		{ "year;doy;rain_mm\n1799;5;1\n", "doy", "day 5", 2 },
		{ "date;rain_mm\n;1\n2015-01-05;2\n", "date", "is blank", 2 },
		{ "date;rain_mm\n2015-01-05;1\n2015-01-32;2\n", "date",
		  "'2015-01-32' is no date", 3 },
		{ "date;rain_mm\n2015-01-05;1\n2015-01-0x;2\n", "date",
		  "does not fit the format", 3 },
		{ "date;rain_mm\n2015-02-28;1\n2015-02-29;2\n", "date",
		  "'2015-02-29' is no date", 3 },
		{ "date;rain_mm\n2015-01-05;1\n6.1.2015;2\n", "date",
		  "does not fit the format %Y-%m-%d", 3 },
		{ "date;rain_mm\n2015-01-06;1\n2015-01-05;2\n", "date",
		  "comes after 2015-01-06", 3 },
		{ "date;rain_mm\n2015-01-05 13:00;1\n2015-01-05 1x:00;2\n",
		  "date", "does not fit", 3 },
		{ "date;rain_mm\n2015-01-05 13:00;1\n2015-01-05 13:6a;2\n",
		  "date", "does not fit", 3 },
		{ "date;rain_mm\n2015-01-05 13:00;1\n2015-01-05 29:00;2\n",
		  "date", "is no date", 3 },
	};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct tarn_error err;
		struct tarn_weather *w = read_rows(bad[i].rows, 0, &err);

		cr_expect(w == NULL && err.code == TARN_EFORMAT, "%s",
			  bad[i].rows);
		cr_expect_str_eq(err.field, bad[i].field, "%s: %s", bad[i].rows,
				 err.field);
		cr_expect(err.line == bad[i].line, "%s: line %ld", bad[i].rows,
			  err.line);
		cr_expect(strstr(err.text, bad[i].part) != NULL, "%s: %s",
			  bad[i].rows, err.text);
		tarn_weather_free(w);
	}
}

/* A whole day of hours, each with its own number of mm, in four spellings. */
static void write_day(char text[2000], int spelling)
{
	size_t n = (size_t)sprintf(text, "date;hour;rain_mm\n");

	for (int h = 0; h < 24; h++) {
		n += (size_t)sprintf(text + n, "2015-01-05;");
		if (spelling == 0)
			n += (size_t)sprintf(text + n, "%d", h);
		else if (spelling == 1)
			n += (size_t)sprintf(text + n, "%d", 100 * h);
		else if (spelling == 2)
			n += (size_t)sprintf(text + n, "%02d:00", h);
		else
			n += (size_t)sprintf(text + n, "%d %s", h % 12 ? h % 12
					     : 12, h < 12 ? "AM" : "PM");
		n += (size_t)sprintf(text + n, ";0.%d\n", h % 10);
	}
}

Test(weather_stamps, hours_of_their_own)
{
	char text[2000];

	for (int spelling = 0; spelling < 4; spelling++) {
		struct tarn_error err;
		struct tarn_weather *w;

		write_day(text, spelling);
		w = read_rows(text, 24, &err);
		cr_assert(w != NULL, "%d: %s", spelling, err.text);
		/* 0.0 to 0.9 twice, and 0.0 to 0.3 */
		cr_expect(tarn_weather_days(w) == 1 &&
			  fabs(tarn_weather_column(w, TARN_RAIN)[0] - 9.6) <
			  1e-12, "%d: %g", spelling,
			  tarn_weather_column(w, TARN_RAIN)[0]);
		tarn_weather_free(w);
	}
}

Test(weather_stamps, hours_that_are_none)
{
	static const struct { const char *hour, *part; } bad[] = {
		/* 25 is 0:25, as 1325 is 13:25 */
		{ "60", "60 is no hour: expected 0 to 24, or 0 to 2400" },
		{ "99", "99 is no hour" }, { "1260", "1260 is no hour" },
		{ "2401", "2401 is no hour" }, { "2500", "2500 is no hour" },
		{ "x", "'x' is no part of a date" },
		{ "", "'' is no part of a date" },
		{ "-1", "'-1' is no part of a date" },
		{ "13:60", "'13:60' is no part of a date" },
		{ "123456789012345678901", "is no part of a date" },
	};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct tarn_error err;
		char text[200];
		struct tarn_weather *w;

		snprintf(text, sizeof text, "date;hour;rain_mm\n2015-01-05;1;0\n"
			 "2015-01-05;%s;1\n", bad[i].hour);
		w = read_rows(text, 24, &err);
		cr_expect(w == NULL, "'%s' is taken", bad[i].hour);
		cr_expect(strstr(err.text, bad[i].part) != NULL && err.line == 3,
			  "'%s': %s", bad[i].hour, err.text);
		tarn_weather_free(w);
	}
}
