/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/base.h"

#define YEAR_MIN 1800
#define YEAR_MAX 2200

/* Days before each month of a common year. */
static const int before_month[12] = {
	0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334
};

int tarn_leap_year(int year)
{
	return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int tarn_days_in_month(int year, int month)
{
	static const int days[12] = {
		31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31
	};

	if (month < 1 || month > 12)
		return 0;
	return days[month - 1] + (month == 2 && tarn_leap_year(year));
}

double tarn_usual_days(int month)
{
	int days = tarn_days_in_month(1, month);	/* no leap year */

	return days == 0 ? TARN_NAN : days + (month == 2 ? 0.25 : 0);
}

/* Days from 0001-01-01 to the first of January of a year >= 1. */
static long before_year(int year)
{
	long y = year - 1;

	return 365 * y + y / 4 - y / 100 + y / 400;
}

static long january_first(int year)
{
	return before_year(year) - before_year(1970);
}

long tarn_day(int year, int month, int day)
{
	if (year < YEAR_MIN || year > YEAR_MAX || day < 1 ||
	    day > tarn_days_in_month(year, month))
		return TARN_NO_DAY;
	return january_first(year) + before_month[month - 1] +
	       (month > 2 && tarn_leap_year(year)) + day - 1;
}

static int outside(long day)
{
	return day < TARN_DAY_MIN || day > TARN_DAY_MAX;
}

/*
 * A ledger asks this for each of its days, so nothing is searched.  Years are
 * counted from 1 March, which puts the leap day last; every five months from
 * there hold 153 days.
 */
struct tarn_date tarn_date(long day)
{
	struct tarn_date date = { 0, 0, 0 };
	int count, of_era, year, of_year, month;

	if (outside(day))
		return date;
	count = (int)(day - january_first(1)) + 306;	/* from March of year 0 */
	of_era = count % 146097;			/* of 400 years */
	year = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) /
	       365;
	of_year = of_era - (365 * year + year / 4 - year / 100);
	month = (5 * of_year + 2) / 153;
	date.day = of_year - (153 * month + 2) / 5 + 1;
	date.month = month < 10 ? month + 3 : month - 9;
	date.year = count / 146097 * 400 + year + (date.month <= 2);
	return date;
}

int tarn_day_of_year(long day)
{
	if (outside(day))
		return 0;
	return (int)(day - january_first(tarn_date(day).year)) + 1;
}

/* Monday 1 .. Sunday 7; 1970-01-01 was a Thursday. */
static int weekday(long day)
{
	return (int)((day - TARN_DAY_MIN + 2) % 7) + 1;
}

struct tarn_week tarn_week(long day)
{
	struct tarn_week week = { 0, 0, 0, TARN_NO_DAY };
	long thursday;
	int year;

	if (outside(day))
		return week;
	week.weekday = weekday(day);
	/* A week belongs to the year of its Thursday, which may lie just
	 * outside the range that the calendar accepts. */
	thursday = day - week.weekday + 4;
	year = tarn_date(day).year;
	if (thursday < january_first(year))
		year--;
	else if (thursday >= january_first(year + 1))
		year++;
	week.year = year;
	week.week = (int)((thursday - january_first(year)) / 7) + 1;
	if (thursday - 3 >= TARN_DAY_MIN)
		week.first_day = thursday - 3;
	return week;
}

void tarn_week_about(int week, char text[6])
{
	/* Thursday of week n is day 7n - 6 to 7n of its year; this is Monday
	 * of the middle, in a year of 365 days */
	const int monday = 7 * week - 6;
	char date[11];

	text[0] = '\0';
	if (week < 1 || week > 53)
		return;
	tarn_day_text(tarn_day(2001, 1, 1) + monday - 1, date);
	memcpy(text, date + 5, 6);
}

static int digits(const char *text, int count)
{
	int value = 0;

	for (int i = 0; i < count; i++) {
		if (text[i] < '0' || text[i] > '9')
			return -1;
		value = 10 * value + (text[i] - '0');
	}
	return value;
}

long tarn_day_parse(const char *text)
{
	int year, month, day;

	if (strlen(text) != 10 || text[4] != '-' || text[7] != '-')
		return TARN_NO_DAY;
	year = digits(text, 4);
	month = digits(text + 5, 2);
	day = digits(text + 8, 2);
	return tarn_day(year, month, day);
}

static void put(char *text, int value, int count)
{
	while (count-- > 0) {
		text[count] = (char)('0' + value % 10);
		value /= 10;
	}
}

void tarn_day_text(long day, char text[11])
{
	struct tarn_date date = tarn_date(day);

	if (date.year == 0) {
		memcpy(text, "no date", 8);
		return;
	}
	memcpy(text, "0000-00-00", 11);
	put(text, date.year, 4);
	put(text + 5, date.month, 2);
	put(text + 8, date.day, 2);
}
