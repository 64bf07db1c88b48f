/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

struct parts {			/* -1: not yet */
	int year, month, day, day_of_year, hour, minute, afternoon, zone;
};

/* Parts that are a directive each; weekdays and seconds are dropped. */
static int *part_of(struct parts *p, char directive)
{
	switch (directive) {
	case 'Y':
	case 'y': return &p->year;
	case 'm':
	case 'b': return &p->month;
	case 'd': return &p->day;
	case 'j': return &p->day_of_year;
	case 'H': return &p->hour;
	case 'M': return &p->minute;
	case 'p': return &p->afternoon;
	case 'z': return &p->zone;
	default: return NULL;
	}
}

static int is_digit(char c)
{
	return c >= '0' && c <= '9';
}

int tn_is_letter(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
	       (unsigned char)c >= 0x80;
}

static int is_number(char directive)
{
	return directive && strchr("YymdjHMS", directive) != NULL;
}

/* Up to 'most' digits, at least 'least'; NULL if they are not there. */
static const char *digits(const char *s, const char *end, int least, int most,
			  int *out)
{
	int n = 0, value = 0;

	while (n < most && s < end && is_digit(*s)) {
		value = 10 * value + (*s++ - '0');
		n++;
	}
	*out = value;
	return n < least ? NULL : s;
}

/*
 * A number.  One that touches another ("%Y%m%d") must have all its digits;
 * else a month may be "1" or "01".
 */
static const char *number(const char *s, const char *end, char kind,
			  int packed, int *out)
{
	int width = kind == 'Y' ? 4 : kind == 'j' ? 3 : 2;

	s = digits(s, end,
		   packed || kind == 'Y' || kind == 'y' ? width : 1, width,
		   out);
	if (s && kind == 'y')	/* POSIX.1-2017, strptime: 69 is 1969 */
		*out += *out < 69 ? 2000 : 1900;
	if (s && kind == 'S' && end - s > 1 && (*s == '.' || *s == ',') &&
	    is_digit(s[1]))
		for (s++; s < end && is_digit(*s);)
			s++;
	return s;
}

/* A word; of a month's name its point too, where the format has none. */
static const char *word(const char *s, const char *end, char next,
			struct text *out)
{
	out->at = s;
	while (s < end && tn_is_letter(*s))
		s++;
	out->length = (size_t)(s - out->at);
	return s < end && *s == '.' && next != '.' ? s + 1 : s;
}

static const char *half_day(const char *s, const char *end, int *out)
{
	if (s == end)
		return NULL;
	*out = *s == 'P' || *s == 'p';
	if (!*out && *s != 'A' && *s != 'a')
		return NULL;
	s++;
	s += s < end && *s == '.';
	if (s == end || (*s != 'M' && *s != 'm'))
		return NULL;
	s++;
	return s + (s < end && *s == '.');
}

/* "Z", "UTC", "+01:00", "-0330", "+1", to minutes east. */
static const char *zone(const char *s, const char *end, int *out)
{
	int sign = s < end && *s == '-' ? -1 : 1, hours, minutes = 0;
	struct text name;

	*out = 0;
	if (s < end && *s != '+' && *s != '-') {
		s = word(s, end, '.', &name);
		return tn_text_listed(name, "Z z UTC utc GMT gmt") ? s : NULL;
	}
	if (s == end)
		return NULL;
	s = digits(s + 1, end, 1, 2, &hours);
	if (s && s < end && (*s == ':' || is_digit(*s)))
		s = digits(s + (*s == ':'), end, 2, 2, &minutes);
	*out = sign * (60 * hours + minutes);
	return s && hours <= 14 && minutes < 60 ? s : NULL;
}

static const char *directive(const char *s, const char *end, const char *f,
			     int packed, struct parts *p)
{
	int *part = part_of(p, *f), value = 0;
	struct text name;

	switch (*f) {
	case 'a':
		s = word(s, end, f[1], &name);
		return name.length > 0 ? s : NULL;
	case 'b':
		s = word(s, end, f[1], &name);
		value = tn_month_named(name);
		if (value == 0 && name.length < 3)
			return NULL;
		break;
	case 'p':
		s = half_day(s, end, &value);
		break;
	case 'z':
		s = zone(s, end, &value);
		break;
	default:
		if (!part && *f != 'S')
			return NULL;
		s = number(s, end, *f, packed, &value);
	}
	if (s && part)
		*part = value;
	return s;
}

/* 12 a.m. is 0 h, 12 p.m. is 12 h; -1: there is no such hour. */
static int hour_of(const struct parts *p)
{
	if (p->afternoon < 0)
		return p->hour < 0 ? 0 : p->hour;
	if (p->hour < 1 || p->hour > 12)
		return -1;
	return p->hour % 12 + 12 * p->afternoon;
}

static enum date_result to_stamp(const struct parts *p, struct stamp *out)
{
	int leap = tarn_leap_year(p->year);

	out->hour = hour_of(p);
	out->minute = p->minute < 0 ? 0 : p->minute;
	out->zone_min = p->zone == -1 ? 0 : p->zone;
	if (p->day_of_year >= 0) {
		out->day = tarn_day(p->year, 1, 1);
		if (p->day_of_year < 1 || p->day_of_year > 365 + leap)
			return DATE_NONE;
		if (out->day != TARN_NO_DAY)
			out->day += p->day_of_year - 1;
	} else {
		out->day = tarn_day(p->year, p->month, p->day);
	}
	if (out->day == TARN_NO_DAY || out->hour < 0 || out->minute > 59 ||
	    out->hour * 60 + out->minute > 24 * 60)
		return DATE_NONE;
	return DATE_OK;
}

/* One character of the format that stands for itself; a blank for several. */
static const char *literal(const char *s, const char *end, char c)
{
	if (s == end || *s != c)
		return NULL;
	s++;
	while (c == ' ' && s < end && *s == ' ')
		s++;
	return s;
}

enum date_result tn_date_read(struct text t, const char *format,
			      struct stamp *out)
{
	struct parts p = { -1, -1, -1, -1, -1, -1, -1, -1 };
	const char *s = t.at, *end = t.at + t.length;
	int touched = 0;	/* a number ended just here */

	for (const char *f = format; *f; f++) {
		if (*f != '%') {
			s = literal(s, end, *f);
			if (!s)
				return DATE_MISFIT;
			touched = 0;
			continue;
		}
		f++;
		if (*f == '*')
			return to_stamp(&p, out);
		s = directive(s, end, f,
			      touched || (f[1] == '%' && is_number(f[2])), &p);
		if (!s)
			return DATE_MISFIT;
		touched = is_number(*f);
	}
	return s == end ? to_stamp(&p, out) : DATE_MISFIT;
}

int tn_date_format_ok(const char *format)
{
	struct parts p = { 0, 0, 0, 0, 0, 0, 0, 0 };
	int seconds = 0, weekday = 0;

	for (const char *f = format; *f; f++) {
		int *part;

		if (*f != '%')
			continue;
		f++;
		if (*f == '*')
			return f[1] == '\0' && p.year == 1 &&
			       p.month + p.day + 2 * p.day_of_year == 2;
		part = *f == 'S' ? &seconds : *f == 'a' ? &weekday
							: part_of(&p, *f);
		if (!part || ++*part > 1)
			return 0;
	}
	return p.year == 1 && ((p.month == 1 && p.day == 1 && !p.day_of_year) ||
			       (!p.month && !p.day && p.day_of_year == 1));
}
