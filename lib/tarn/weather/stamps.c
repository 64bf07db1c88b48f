/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* A date in another order than those before it. */
static enum tarn_status fail_other(struct tarn_reader *r,
				   const struct row *row, const char *shown,
				   enum tarn_csv_dates other)
{
	const char *order = tn_dates_order_text(r->dates.order);

	if (r->dates.line > 0)
		return tn_fault(r, row, r->scheme.date, "'%s' can only be %s, "
				"but '%s' in line %ld can only be %s: a file "
				"must have one order of dates; correct it, or "
				"split it in two", shown,
				tn_dates_order_text(other), r->dates.proof,
				r->dates.line, order);
	return tarn_settled(&r->err, TARN_SETTLE_DATES, NULL, tn_fault(
		r, row, r->scheme.date, "'%s' can only be %s, but "
			"dates are read as %s: say dates = \"us\", "
			"\"european\" or \"iso\" if these were misread",
			shown, tn_dates_order_text(other), order));
}

static enum tarn_status fail_date(struct tarn_reader *r,
				  const struct row *row,
				  enum date_result result)
{
	char shown[40];
	const char *format = r->map.date_format;
	enum tarn_csv_dates other;

	tn_text_show(shown, sizeof shown, row->field[r->scheme.date]);
	if (!shown[0])
		return tn_fault(r, row, r->scheme.date,
				"is blank: every row needs a date");
	other = tn_dates_other(r, row->field[r->scheme.date]);
	if (other != TARN_DATES_DEFAULT)
		return fail_other(r, row, shown, other);
	if (result == DATE_NONE)
		return tn_fault(r, row, r->scheme.date,
				"'%s' is no date from 1800 to 2200 (read as "
				"%s): correct it",
				shown, format);
	if (r->report.rows > 0)
		return tarn_settled(&r->err, TARN_SETTLE_DATE_FORMAT, NULL,
			tn_fault(r, row, r->scheme.date, "'%s' does not fit "
				 "the format %s that the rows above it have: "
				 "correct it, or take the row out", shown,
				 format));
	return tarn_settled(&r->err, TARN_SETTLE_DATE_FORMAT, NULL, tn_fault(
		r, row, r->scheme.date,
			"'%s' does not fit the format %s: give the file's "
			"own, like \"%%Y/%%m/%%d\", \"%%m/%%d/%%Y\" or "
			"\"%%d/%%m/%%Y\"",
			shown, format));
}

static enum tarn_status whole(struct tarn_reader *r, const struct row *row,
			      int field, int *out)
{
	struct text t = row->field[field];
	char shown[24];
	int value = 0;

	for (size_t i = 0; i < t.length && value >= 0; i++)
		value = t.at[i] >= '0' && t.at[i] <= '9' && value < 100000
				? 10 * value + (t.at[i] - '0')
				: -1;
	*out = value;
	if (t.length > 0 && value >= 0)
		return TARN_OK;
	return tn_fault(r, row, field, "'%s' is no part of a date",
		    tn_text_show(shown, sizeof shown, t));
}

/* A month's number, or its name. */
static enum tarn_status read_month(struct tarn_reader *r,
				   const struct row *row, int *out)
{
	*out = tn_month_named(row->field[r->scheme.month]);
	return *out > 0 ? TARN_OK : whole(r, row, r->scheme.month, out);
}

/* A year; of two digits as in a format's %y. */
static enum tarn_status read_year(struct tarn_reader *r,
				  const struct row *row, int *out)
{
	enum tarn_status status = whole(r, row, r->scheme.year, out);

	if (row->field[r->scheme.year].length != 2)
		return status;
	*out += *out < 69 ? 2000 : 1900;
	r->short_years = 1;
	return status;
}

static enum tarn_status read_parts(struct tarn_reader *r,
				   const struct row *row, struct stamp *out)
{
	const struct scheme *p = &r->scheme;
	int year = 0, a = 0, b = 0;
	enum tarn_status status = read_year(r, row, &year);

	if (p->month >= 0) {
		if (status == TARN_OK)
			status = read_month(r, row, &a);
		if (status == TARN_OK)
			status = whole(r, row, p->day, &b);
		out->day = tarn_day(year, a, b);
		if (status == TARN_OK && out->day == TARN_NO_DAY)
			status = tn_fault(r, row, p->day,
					  "year %d, month %d, day %d is no "
					  "date from 1800 to 2200",
					  year, a, b);
		return status;
	}
	if (status == TARN_OK)
		status = whole(r, row, p->day_of_year, &a);
	out->day = tarn_day(year, 1, 1);
	if (status == TARN_OK && (out->day == TARN_NO_DAY || a < 1 ||
				  a > 365 + tarn_leap_year(year)))
		return tn_fault(r, row, p->day_of_year,
				"day %d of the year %d is no date from 1800 "
				"to 2200",
				a, year);
	out->day += a - 1;
	return status;
}

static int all_digits(struct text t)
{
	for (size_t i = 0; i < t.length; i++)
		if (t.at[i] < '0' || t.at[i] > '9')
			return 0;
	return t.length > 0;
}

/* "13:00", "1 PM", as it stands behind any date. */
static int read_clock(struct text t, struct stamp *out)
{
	struct date_shape shape;
	struct stamp s;
	char text[40];

	if (t.length == 0 || t.length > 20 || t.at[0] < '0' || t.at[0] > '9')
		return 0;
	snprintf(text, sizeof text, "2000-01-01 %.*s", (int)t.length, t.at);
	if (!tn_date_shape(tn_text(text), &shape) ||
	    tn_date_read(tn_text(text), shape.format[TARN_DATES_ISO], &s) !=
		    DATE_OK)
		return 0;
	out->hour = s.hour;
	out->minute = s.minute;
	out->zone_min = s.zone_min;
	return 1;
}

/* An hour of its own column: 13, 1300 or 13:00. */
static enum tarn_status read_hour(struct tarn_reader *r,
				  const struct row *row, struct stamp *out)
{
	struct text t = row->field[r->scheme.hour];
	enum tarn_status status;
	int hour;

	if (!all_digits(t) && read_clock(t, out))
		return TARN_OK;
	status = whole(r, row, r->scheme.hour, &hour);
	if (status != TARN_OK)
		return status;
	out->hour = hour > 24 ? hour / 100 : hour;
	out->minute = hour > 24 ? hour % 100 : 0;
	if (out->minute > 59 || out->hour * 60 + out->minute > 1440)
		return tn_fault(r, row, r->scheme.hour,
				"%d is no hour: expected 0 to 24, or 0 to "
				"2400",
				hour);
	return TARN_OK;
}

/*
 * Most rows are of the same month as the row before: then two digits tell
 * the day.  Returns 0 where that is not so, and all is to be read.
 */
static int same_month(const struct tarn_reader *r, struct text t, long *day)
{
	int tens, ones, n;

	if (r->month.days == 0 || t.length != 10 ||
	    memcmp(t.at, r->month.text, sizeof r->month.text) != 0)
		return 0;
	tens = t.at[8] - '0';
	ones = t.at[9] - '0';
	n = 10 * tens + ones;
	if (tens < 0 || ones < 0 || ones > 9 || n < 1 || n > r->month.days)
		return 0;
	*day = r->month.start + n - 1;
	return 1;
}

/*
 * Where the date ends in a time as "13:00", most rows are of the same day as
 * the row before.  Returns 0 where that is not so.
 */
static int same_day(const struct tarn_reader *r, struct text t,
		    struct stamp *out)
{
	const char *time = t.at + t.length - 5;
	int h, m;

	if (r->day.length == 0 || t.length != r->day.length + 5 ||
	    memcmp(t.at, r->day.text, r->day.length) != 0)
		return 0;
	if (time[0] < '0' || time[0] > '2' || time[1] < '0' || time[1] > '9' ||
	    time[2] != ':' || time[3] < '0' || time[3] > '5' ||
	    time[4] < '0' || time[4] > '9')
		return 0;
	h = 10 * (time[0] - '0') + time[1] - '0';
	m = 10 * (time[3] - '0') + time[4] - '0';
	if (h > 23)
		return 0;
	out->day = r->day.day;
	out->hour = h;
	out->minute = m;
	return 1;
}

/* The date's text up to the time, which is all that a format may have behind. */
static void keep_day(struct tarn_reader *r, struct text t, long day)
{
	size_t n = strlen(r->map.date_format);

	r->day.length = 0;
	if (n < 5 || strcmp(r->map.date_format + n - 5, "%H:%M") != 0 ||
	    t.length < 6 || t.length - 5 > sizeof r->day.text ||
	    t.at[t.length - 3] != ':')
		return;
	r->day.length = t.length - 5;
	memcpy(r->day.text, t.at, r->day.length);
	r->day.day = day;
}

static void keep_month(struct tarn_reader *r, struct text t, long day)
{
	struct tarn_date date = tarn_date(day);

	r->month.days = 0;
	if (!r->iso || t.length != 10)
		return;
	memcpy(r->month.text, t.at, sizeof r->month.text);
	r->month.start = day - date.day + 1;
	r->month.days = tarn_days_in_month(date.year, date.month);
}

static enum date_result read_text(struct tarn_reader *r, struct text t,
				  struct stamp *out)
{
	enum date_result result;

	if (same_month(r, t, &out->day) || same_day(r, t, out))
		return DATE_OK;
	result = tn_date_read(t, r->map.date_format, out);
	if (result == DATE_OK)
		keep_month(r, t, out->day);
	if (result == DATE_OK && out->hour < 24)
		keep_day(r, t, out->day);
	return result;
}

enum tarn_status tn_stamp_read(struct tarn_reader *r, const struct row *row,
			       struct stamp *out)
{
	enum tarn_status status = TARN_OK;
	enum date_result result;

	out->hour = out->minute = out->zone_min = 0;
	if (r->scheme.date >= 0) {
		result = read_text(r, row->field[r->scheme.date], out);
		if (result != DATE_OK)
			return fail_date(r, row, result);
	} else {
		status = read_parts(r, row, out);
	}
	if (status == TARN_OK && r->scheme.hour >= 0)
		status = read_hour(r, row, out);
	return status;
}

long long tn_stamp_minutes(const struct tarn_reader *r,
			   const struct stamp *t)
{
	int minute = t->hour * 60 + t->minute;

	if (r->map.hours == 0)
		return t->day * 1440LL;
	if (r->map.stamps == TARN_STAMPS_END)
		minute--;	/* it ends there */
	return t->day * 1440LL + (minute < 1440 ? minute : 1439) +
	       60LL * r->map.hour_shift;
}

long tn_stamp_day(const struct tarn_reader *r, const struct stamp *t)
{
	long long m = tn_stamp_minutes(r, t);

	return (long)(m >= 0 ? m / 1440 : -((1439 - m) / 1440));
}
