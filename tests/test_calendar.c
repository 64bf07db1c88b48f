/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "tarn/base.h"

Test(calendar, known_dates)
{
	/* ISO 8601-1:2019 gives 2000-01-01 as a Saturday; the week dates are
	 * the boundary cases of the week-numbering rule (first Thursday). */
	static const struct {
		int y, m, d, week_year, week, weekday;
	} rows[] = {
		{ 2000, 1, 1, 1999, 52, 6 },   { 2005, 1, 1, 2004, 53, 6 },
		{ 2005, 1, 2, 2004, 53, 7 },   { 2007, 1, 1, 2007, 1, 1 },
		{ 2008, 12, 29, 2009, 1, 1 },  { 2009, 12, 31, 2009, 53, 4 },
		{ 2010, 1, 3, 2009, 53, 7 },   { 2010, 1, 4, 2010, 1, 1 },
		{ 1800, 1, 1, 1800, 1, 3 },    { 2200, 12, 31, 2201, 1, 3 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_week w =
			tarn_week(tarn_day(rows[i].y, rows[i].m, rows[i].d));

		cr_expect(w.year == rows[i].week_year &&
				  w.week == rows[i].week &&
				  w.weekday == rows[i].weekday,
			  "%d-%d-%d: got %d-W%d-%d", rows[i].y, rows[i].m,
			  rows[i].d, w.year, w.week, w.weekday);
	}
	cr_expect(tarn_day(1970, 1, 1) == 0);
	cr_expect(tarn_day(1800, 1, 1) == TARN_DAY_MIN);
	cr_expect(tarn_day(2200, 12, 31) == TARN_DAY_MAX);
}

/* Mondays of 400 years, of each week: the date about which it begins is at most
 * four days from each, in its year's own dates, and seven from the next. */
Test(calendar, weeks_have_one_date)
{
	char text[6], date[11];

	for (long day = tarn_day(1801, 1, 5); day < tarn_day(2200, 1, 1);
	     day += 7) {
		struct tarn_week w = tarn_week(day + 6);
		int away = 0, year = w.year;

		cr_assert(w.first_day == day && tarn_week(day).weekday == 1);
		tarn_week_about(w.week, text);
		if (w.week == 53 && strcmp(text, "01-01") == 0)
			year++;
		snprintf(date, sizeof date, "%04d-%s", year, text);
		away = (int)(day - tarn_day_parse(date));
		cr_assert(away >= -4 && away <= 4, "%s: %d", date, away);
	}
	for (int week = 1; week < 53; week++) {
		char next[6];
		long at;

		tarn_week_about(week, text);
		tarn_week_about(week + 1, next);
		snprintf(date, sizeof date, "2001-%s", text);
		at = tarn_day_parse(date);
		snprintf(date, sizeof date, "%d-%s", 2001 + (week == 52), next);
		if (week < 52)
			cr_expect(tarn_day_parse(date) == at + 7);
	}
	tarn_week_about(0, text);
	cr_expect_str_empty(text);
	tarn_week_about(54, text);
	cr_expect_str_empty(text);
	cr_expect(tarn_week(TARN_DAY_MIN).first_day == TARN_NO_DAY);
	cr_expect(tarn_week(TARN_DAY_MAX + 1).first_day == TARN_NO_DAY);
}

/* Every day of four centuries against the C library's own calendar. */
Test(calendar, agrees_with_the_c_library)
{
	int bad = 0;

	for (long day = TARN_DAY_MIN; day <= TARN_DAY_MAX && bad < 5; day++) {
		time_t t = (time_t)day * 86400;
		struct tm tm;
		struct tarn_date date = tarn_date(day);
		struct tarn_week week = tarn_week(day);
		char text[11], want[20], iso[20], got[20];

		gmtime_r(&t, &tm);
		strftime(want, sizeof want, "%Y-%m-%d", &tm);
		strftime(iso, sizeof iso, "%G %V %u", &tm);
		tarn_day_text(day, text);
		snprintf(got, sizeof got, "%d %02d %d", week.year, week.week,
			 week.weekday);
		if (strcmp(text, want) != 0 || strcmp(iso, got) != 0 ||
		    tarn_day_of_year(day) != tm.tm_yday + 1 ||
		    tarn_day_parse(text) != day ||
		    tarn_day(date.year, date.month, date.day) != day) {
			bad++;
			cr_expect(0, "day %ld: %s, C library %s, week %s, %s",
				  day, text, want, got, iso);
		}
	}
	cr_expect(bad == 0);
}

Test(calendar, refuses_what_is_no_date)
{
	static const char *const texts[] = {
		"", "2015-02-29", "2015-02-31", "2015-13-01", "2015-00-10",
		"2015-1-01", "2015/01/01", "1799-12-31", "2201-01-01",
		"2015-01-01 ", "20150101", "2015-01-0x", "-015-01-01",
	};

	for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
		cr_expect(tarn_day_parse(texts[i]) == TARN_NO_DAY, "'%s'",
			  texts[i]);
	cr_expect(tarn_day_parse("2016-02-29") != TARN_NO_DAY);
	cr_expect(tarn_day(2015, 2, 30) == TARN_NO_DAY);
	cr_expect(tarn_date(TARN_DAY_MAX + 1).year == 0);
	cr_expect(tarn_week(TARN_DAY_MIN - 1).year == 0);
	cr_expect(tarn_day_of_year(TARN_NO_DAY) == 0);
	cr_expect(tarn_days_in_month(2015, 0) == 0);
	cr_expect(isnan(tarn_usual_days(0)) && isnan(tarn_usual_days(13)));
}

/* Four years of 365 days and one day. */
Test(calendar, usual_days)
{
	double year = 0;

	for (int month = 1; month <= 12; month++) {
		double days = 0;

		for (int y = 2013; y <= 2016; y++)
			days += tarn_days_in_month(y, month);
		cr_expect(tarn_usual_days(month) == days / 4, "%d", month);
		year += tarn_usual_days(month);
	}
	cr_expect(year == 365.25);
}

/* The Gregorian rule: Inter gravissimas (1582). */
Test(calendar, leap_years)
{
	cr_expect(tarn_leap_year(2000) == 1 && tarn_leap_year(2024) == 1);
	cr_expect(tarn_leap_year(1900) == 0 && tarn_leap_year(2023) == 0);
}
