/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn.h"
#include "numbers.h"

/* Rows that are parts of a day, told by their stamps. */

struct hourly {
	int step_min, first_min, rows, skip;	/* one row left out; -1: none */
	const char *format;			/* of the time */
	enum tarn_csv_stamps stamps;
};

/* tmean rises by one a row from 0 to 23, rain is 1 a row, sun 100 W/m2. */
static struct tarn_weather *read_hours(struct hourly h,
				       struct tarn_error *err)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	size_t room = (size_t)h.rows * 80 + 200;
	char *text = malloc(room);
	struct tarn_weather *w;
	size_t n = (size_t)sprintf(text, "date%s,tmean_c,rain_mm,solar_w_m2,"
				   "wind_ms\n", h.format[0] == ',' ? ",time"
				   : "");

	memset(err, 0, sizeof *err);
	map.stamps = h.stamps;
	for (int i = 0; i < h.rows; i++) {
		int minute = h.first_min + i * h.step_min;
		char date[11], clock[20];

		if (i == h.skip)
			continue;
		tarn_day_text(tarn_day(2015, 1, 1) + minute / 1440, date);
		snprintf(clock, sizeof clock, h.format, minute % 1440 / 60,
			 minute % 60);
		n += (size_t)snprintf(text + n, room - n, "%s%s,%d,1,100,3\n",
				      date, clock, i % (1440 / h.step_min) % 24);
	}
	tarn_weather_read_text(&w, NULL, text, n, &map, NULL, err);
	free(text);
	return w;
}

static int has_note(const struct tarn_weather *w, const char *text)
{
	for (size_t i = 0; i < tarn_weather_notes(w); i++)
		if (strstr(tarn_weather_note(w, i), text))
			return 1;
	return 0;
}

Test(weather_hours, told_by_the_stamps)
{
	static const struct {
		struct hourly h;
		int a_day;
		const char *note;
	} rows[] = {
		{ { 60, 0, 72, -1, " %02d:%02d", 0 }, 24,
		  "rows are 60 minutes apart; a stamp is taken as the begin" },
		{ { 60, 60, 72, -1, "T%02d:%02d", 0 }, 24,
		  "the end of its interval, since the first" },
		{ { 180, 0, 24, -1, " %02d:%02d:00", 0 }, 8, "180 minutes" },
		{ { 10, 0, 432, -1, ",%02d:%02d", 0 }, 144, "10 minutes" },
		{ { 10, 10, 432, -1, " %02d:%02dZ", 0 }, 144, "the end" },
		{ { 60, 0, 72, -1, ",%02d%02d", 0 }, 24, "60 minutes" },
		{ { 720, 0, 6, -1, "T%02d%02d", 0 }, 2, "720 minutes" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err;
		struct tarn_weather *w = read_hours(rows[i].h, &err);
		double n = rows[i].a_day, top = fmin(n, 24) - 1;

		cr_expect(w != NULL, "%zu: %s", i, err.text);
		if (!w)
			continue;
		cr_expect(tarn_weather_days(w) == 3 && tarn_weather_first(w) ==
				  tarn_day(2015, 1, 1), "%zu", i);
		for (int d = 0; d < 3; d++) {
			cr_expect(tarn_weather_column(w, TARN_TMIN)[d] == 0);
			cr_expect(tarn_weather_column(w, TARN_TMAX)[d] ==
				  top, "%zu", i);
			cr_expect(tarn_weather_column(w, TARN_TMEAN)[d] ==
				  top / 2);
			cr_expect(tarn_weather_column(w, TARN_RAIN)[d] == n);
			cr_expect(tarn_weather_column(w, TARN_WIND)[d] == 3);
			cr_expect_float_eq(tarn_weather_column(w, TARN_SOLAR)
					   [d], 8.64, 1e-12);
		}
		cr_expect(has_note(w, rows[i].note), "%zu: no note '%s'", i,
			  rows[i].note);
		tarn_weather_free(w);
	}
}

/* One hour of 24 may be missing, two may not; of eight none. */
Test(weather_hours, days_with_too_few)
{
	struct hourly h = { 60, 0, 72, 30, " %02d:%02d", 0 };
	struct tarn_error err;
	struct tarn_weather *w = read_hours(h, &err);

	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_weather_column(w, TARN_RAIN)[1] == 23);
	cr_expect(has_note(w, "values of days are made of a few hours less"));
	tarn_weather_free(w);
	h = (struct hourly){ 60, 0, 70, -1, " %02d:%02d", 0 };
	w = read_hours(h, &err);
	cr_expect(w && tarn_weather_days(w) == 2 &&
		  has_note(w, "rain: 1 day missing for want of hours"));
	tarn_weather_free(w);
	h = (struct hourly){ 180, 0, 24, 10, " %02d:%02d", 0 };
	w = read_hours(h, &err);
	cr_expect(w && isnan(tarn_weather_column(w, TARN_RAIN)[1]));
	tarn_weather_free(w);
}

Test(weather_hours, what_a_stamp_is)
{
	struct hourly h = { 60, 60, 72, -1, " %02d:%02d", TARN_STAMPS_BEGIN };
	struct tarn_error err;
	struct tarn_weather *w = read_hours(h, &err);

	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_weather_column(w, TARN_RAIN)[0] == 23);
	cr_expect(has_note(w, "the begin of its interval, as asked"));
	tarn_weather_free(w);
}

/* A time of reading, once a day, makes no hours; nor do rows that are a
 * week apart. */
Test(weather_hours, days_with_a_time)
{
	struct hourly h = { 1440, 540, 5, -1, ",%02d:%02d", 0 };
	struct tarn_error err;
	struct tarn_weather *w = read_hours(h, &err);

	cr_expect(w && tarn_weather_days(w) == 5 && !has_note(w, "minutes"));
	tarn_weather_free(w);
	h.format = " %02d:%02d";
	w = read_hours(h, &err);
	cr_expect(w && tarn_weather_days(w) == 5 && !has_note(w, "minutes"));
	tarn_weather_free(w);
}

/* Noon has more W/m2 than a day's mean can have. */
Test(weather_hours, sun_of_an_hour)
{
	static char text[4000];
	size_t n = (size_t)sprintf(text, "date,solar_w_m2\n");
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	for (int i = 0; i < 48; i++)
		n += (size_t)sprintf(text + n, "2015-06-%02d %02d:00,%d\n",
				     1 + i / 24, i % 24,
				     i % 24 == 12 ? 1200 : 0);
	tarn_weather_read_text(&w, NULL, text, n, NULL, NULL, &err);
	cr_assert(w != NULL, "%s", err.text);
	cr_expect_float_eq(tarn_weather_column(w, TARN_SOLAR)[0], 4.32, 1e-12);
	tarn_weather_free(w);
	/* all hours so are no day's mean, and 1600 is no sun */
	for (int value = 1200; value <= 1600; value += 400) {
		n = (size_t)sprintf(text, "date,solar_w_m2\n");
		for (int i = 0; i < 48; i++)
			n += (size_t)sprintf(text + n,
					     "2015-06-%02d %02d:00,%d\n",
					     1 + i / 24, i % 24, value);
		err.code = TARN_OK;
		cr_expect(tarn_weather_read_text(&w, NULL, text, n, NULL, NULL,
						 &err) != TARN_OK);
		cr_expect_str_eq(err.field, value == 1200 ? "solar"
							  : "solar_w_m2");
	}
}

Test(weather_hours, refused)
{
	struct hourly h = { 7, 0, 300, -1, " %02d:%02d", 0 };
	struct tarn_error err;

	cr_expect(!read_hours(h, &err));
	cr_expect_str_eq(err.field, "hours");
	cr_expect(strstr(err.text, "most rows are 7 minutes apart"), "%s",
		  err.text);
}

/* ---- clocks that go back --------------------------------------------------- */

/* Three days of half hours from a day on, in a local clock that goes back at
 * three in the morning of the second: rows from two to three are there twice,
 * rain is 1 a row.  'zones': the stamps have their offset. */
static struct tarn_weather *read_autumn(long first, int step, int zones,
					struct tarn_error *err)
{
	static char text[20000];
	size_t n = (size_t)sprintf(text, "time,tmean_c,rain_mm\n");
	struct tarn_weather *w;

	memset(err, 0, sizeof *err);
	for (int m = 0; m < 3 * 1440 + 60; m += step) {
		int local = m < 1440 + 180 ? m : m - 60;
		char date[11];

		tarn_day_text(first + local / 1440, date);
		n += (size_t)sprintf(text + n, "%sT%02d:%02d%s,10,1\n", date,
				     local % 1440 / 60, local % 60,
				     !zones ? "" : m == local ? "+02:00"
							      : "+01:00");
	}
	tarn_weather_read_text(&w, NULL, text, n, NULL, NULL, err);
	return w;
}

Test(weather_hours, clocks_go_back)
{
	/* Saturdays before clocks went back: in Europe and in North America in
	 * 2020, in Australia in 2021 (from memory) */
	const long saturday[] = { tarn_day(2020, 10, 24),
				  tarn_day(2020, 10, 31), tarn_day(2021, 4, 3) };
	struct tarn_error err;
	struct tarn_weather *w;

	for (int i = 0; i < 3; i++)
		for (int step = 10; step <= 60; step = step == 10 ? 30
							: step + 30) {
			w = read_autumn(saturday[i], step, 0, &err);
			cr_assert(w != NULL, "%d: %s", step, err.text);
			cr_expect(tarn_weather_column(w, TARN_RAIN)[0] ==
				  1440.0 / step);
			cr_expect(tarn_weather_column(w, TARN_RAIN)[1] ==
				  1500.0 / step, "%g",
				  tarn_weather_column(w, TARN_RAIN)[1]);
			cr_expect(has_note(w, "clocks go back 1 time"));
			tarn_weather_free(w);
		}
	/* on another day it is an error, unless the stamps have their zone */
	cr_expect(!read_autumn(tarn_day(2020, 10, 20), 60, 0, &err));
	cr_expect(strstr(err.text, "stands there again"), "%s", err.text);
	cr_expect(!read_autumn(tarn_day(2020, 10, 20), 30, 0, &err));
	cr_expect(strstr(err.text, "in order of time"), "%s", err.text);
	w = read_autumn(tarn_day(2020, 10, 20), 30, 1, &err);
	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_weather_column(w, TARN_RAIN)[1] == 50);
	tarn_weather_free(w);
}

/* ---- totals that run through the day ---------------------------------------- */

/* Ten days of rows; on each but the last rain of 1.5 mm falls at noon and at
 * eight in the evening.  'late': the total begins anew behind midnight. */
static struct tarn_weather *read_totals(int step, int late, int running,
					struct tarn_error *err)
{
	static char text[80000];
	size_t n = (size_t)sprintf(text, "time,tmean_c,rain_mm\n");
	struct tarn_weather *w;

	memset(err, 0, sizeof *err);
	for (int m = 0; m < 10 * 1440; m += step) {
		int in_day = m % 1440, wet = m < 9 * 1440;
		double fell = wet && (in_day == 720 || in_day == 1200) ? 1.5 : 0;
		double total = !wet ? 0 : in_day >= 1200 ? 3
			       : in_day >= 720 ? 1.5 : 0;
		char date[11];

		if (late && in_day == 0 && m > 0 && m <= 9 * 1440)
			total = 3;
		tarn_day_text(tarn_day(2015, 6, 1) + m / 1440, date);
		n += (size_t)sprintf(text + n, "%s %02d:%02d,10,%g\n", date,
				     in_day / 60, in_day % 60,
				     running ? total : fell);
	}
	tarn_weather_read_text(&w, NULL, text, n, NULL, NULL, err);
	return w;
}

Test(weather_hours, totals_that_run_through_the_day)
{
	struct tarn_error err;

	for (int step = 15; step <= 60; step += 45)
		for (int kind = 0; kind < 3; kind++) {
			struct tarn_weather *w =
				read_totals(step, kind == 2, kind > 0, &err);

			cr_assert(w != NULL, "%s", err.text);
			for (int d = 0; d < 10; d++)
				cr_expect(tarn_weather_column(w, TARN_RAIN)[d] ==
					  (d < 9 ? 3 : 0), "%d, %d, day %d: %g",
					  step, kind, d,
					  tarn_weather_column(w, TARN_RAIN)[d]);
			cr_expect(has_note(w, "a total that runs") ==
				  (kind > 0), "%d, %d", step, kind);
			tarn_weather_free(w);
		}
}

/* A code as 999 is no rain of an hour, though it may be one of a day. */
Test(weather_hours, codes_inside_hours)
{
	static char text[4000];
	size_t n = (size_t)sprintf(text, "time,tmean_c,rain_mm\n");
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	for (int h = 0; h < 72; h++)
		n += (size_t)sprintf(text + n, "2015-06-%02d %02d:00,10,%s\n",
				     1 + h / 24, h % 24,
				     h == 30 || h == 50 ? "999" : "1");
	tarn_weather_read_text(&w, NULL, text, n, NULL, NULL, &err);
	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_weather_column(w, TARN_RAIN)[1] == 23);
	cr_expect(has_note(w, "codes out of all bounds"));
	tarn_weather_free(w);
}
