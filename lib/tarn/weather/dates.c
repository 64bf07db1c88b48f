/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

struct parts {			/* -1: not yet */
	int year, month, day, day_of_year, hour, minute;
};

static int fold(char c)
{
	return c >= 'A' && c <= 'Z' ? c + ('a' - 'A') : c;
}

/* "Jan" .. "Dec", in English whatever the locale; 0 if it is none. */
static int month_of(const char *s)
{
	static const char names[] = "janfebmaraprmayjunjulaugsepoctnovdec";

	for (int m = 0; m < 12; m++)
		if (fold(s[0]) == names[3 * m] &&
		    fold(s[1]) == names[3 * m + 1] &&
		    fold(s[2]) == names[3 * m + 2])
			return m + 1;
	return 0;
}

static int *part_of(struct parts *p, char directive)
{
	switch (directive) {
	case 'Y': return &p->year;
	case 'm':
	case 'b': return &p->month;
	case 'd': return &p->day;
	case 'j': return &p->day_of_year;
	case 'H': return &p->hour;
	case 'M':
	case 'S': return &p->minute;	/* seconds are dropped */
	default: return NULL;
	}
}

static int width_of(char directive)
{
	return directive == 'Y' ? 4 : directive == 'j' || directive == 'b' ? 3
									   : 2;
}

/* Up to 'most' digits, at least 'least'; NULL if they are not there. */
static const char *digits(const char *s, const char *end, int least, int most,
			  int *out)
{
	int n = 0, value = 0;

	while (n < most && s < end && *s >= '0' && *s <= '9') {
		value = 10 * value + (*s++ - '0');
		n++;
	}
	*out = value;
	return n < least ? NULL : s;
}

/*
 * Reads one directive.  A number that touches another one ("%Y%m%d") must
 * have all its digits; else a month may be "1" or "01".
 */
static const char *directive(const char *s, const char *end, char kind,
			     int packed, struct parts *p)
{
	int *part = part_of(p, kind);
	int width = width_of(kind), value;

	if (!part)
		return NULL;
	if (kind == 'b') {
		if (end - s < 3)
			return NULL;
		*part = month_of(s);
		return s + 3;
	}
	s = digits(s, end, packed || kind == 'Y' ? width : 1, width, &value);
	if (s && kind != 'S')
		*part = value;
	return s;
}

static enum date_result to_stamp(const struct parts *p, struct stamp *out)
{
	int leap = tarn_leap_year(p->year);

	out->hour = p->hour < 0 ? 0 : p->hour;
	out->minute = p->minute < 0 ? 0 : p->minute;
	if (p->day_of_year >= 0) {
		out->day = tarn_day(p->year, 1, 1);
		if (p->day_of_year < 1 || p->day_of_year > 365 + leap)
			return DATE_NONE;
		if (out->day != TARN_NO_DAY)
			out->day += p->day_of_year - 1;
	} else {
		out->day = tarn_day(p->year, p->month, p->day);
	}
	if (out->day == TARN_NO_DAY || out->minute > 59 ||
	    out->hour * 60 + out->minute > 24 * 60)
		return DATE_NONE;
	return DATE_OK;
}

enum date_result tn_date_read(struct text t, const char *format,
			      struct stamp *out)
{
	struct parts p = { -1, -1, -1, -1, -1, -1 };
	const char *s = t.at, *end = t.at + t.length;
	int after_digits = 0;	/* the directive before ended just here */

	for (const char *f = format; *f; f++) {
		if (*f != '%') {
			if (s == end || *s != *f)
				return DATE_MISFIT;
			s++;
			after_digits = 0;
			continue;
		}
		f++;
		if (*f == '*')
			return to_stamp(&p, out);
		s = directive(s, end, *f, after_digits || f[1] == '%', &p);
		if (!s)
			return DATE_MISFIT;
		after_digits = 1;
	}
	return s == end ? to_stamp(&p, out) : DATE_MISFIT;
}

int tn_date_format_ok(const char *format)
{
	struct parts p = { 0, 0, 0, 0, 0, 0 };
	int seconds = 0;

	for (const char *f = format; *f; f++) {
		int *part;

		if (*f != '%')
			continue;
		f++;
		if (*f == '*')
			return f[1] == '\0' && p.year == 1 &&
			       p.month + p.day + 2 * p.day_of_year == 2;
		part = *f == 'S' ? &seconds : part_of(&p, *f);
		if (!part || ++*part > 1)
			return 0;
	}
	return p.year == 1 && ((p.month == 1 && p.day == 1 && !p.day_of_year) ||
			       (!p.month && !p.day && p.day_of_year == 1));
}
