/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/leak/sheet.h"

static const char *skip_spaces(const char *s)
{
	while (*s == ' ' || *s == '\t')
		s++;
	return s;
}

static int is_digit(char c)
{
	return c >= '0' && c <= '9';
}

/* Up to 15 digits, which a double holds exactly; NULL otherwise. */
static const char *whole(const char *s, double *out, int *digits)
{
	*out = 0;
	for (*digits = 0; is_digit(*s); s++, ++*digits)
		*out = *out * 10 + (*s - '0');
	return *digits > 15 ? NULL : s;
}

/* What follows the first number: "", ".5", "/2", " 1/2", "-1/2". */
static const char *rest_of_number(const char *s, int digits, double *x)
{
	double above, below;
	int n;

	if (*s == '.') {
		const char *start = s + 1;

		s = whole(start, &above, &n);
		if (!s || digits + n == 0 || digits + n > 15)
			return NULL;
		/* one division of two exact numbers rounds once */
		*x = (*x * pow(10, n) + above) / pow(10, n);
		return s;
	}
	if (digits == 0)
		return NULL;
	if (*s == '/') {
		s = whole(s + 1, &below, &n);
		if (!s || !(below > 0))
			return NULL;
		*x /= below;
		return s;
	}
	if ((*s == ' ' || *s == '-') && is_digit(*skip_spaces(s + 1))) {
		s = whole(skip_spaces(s + 1), &above, &n);
		if (!s || *s != '/')
			return NULL;
		s = whole(s + 1, &below, &n);
		if (!s || !(below > above))
			return NULL;
		*x += above / below;
	}
	return s;
}

int tn_sheet_number(const char *text, double *out)
{
	const char *s = skip_spaces(text);
	int negative = *s == '-', digits;
	double x;

	if (*s == '-' || *s == '+')
		s++;
	s = whole(s, &x, &digits);
	if (s)
		s = rest_of_number(s, digits, &x);
	if (!s || *skip_spaces(s))
		return 0;
	*out = negative ? -x : x;
	return 1;
}

/* "am" or "pm" and nothing else. */
static int half_day(const char *s, int *afternoon)
{
	*afternoon = (*s | 32) == 'p';
	return ((*s | 32) == 'a' || (*s | 32) == 'p') && (s[1] | 32) == 'm' &&
	       !*skip_spaces(s + 2);
}

int tn_sheet_hour(const char *text, double *out)
{
	const char *s = skip_spaces(text);
	double part[3] = { 0, 0, 0 }, hour;
	int digits, count = 0, afternoon;

	do {
		s = whole(s + (count > 0), &part[count], &digits);
		if (!s || digits < 1 || digits > 2)
			return 0;
		count++;
	} while (*s == ':' && count < 3);
	s = skip_spaces(s);
	if (*s) {
		if (!half_day(s, &afternoon) || part[0] < 1 || part[0] > 12)
			return 0;
		part[0] = (part[0] < 12 ? part[0] : 0) + 12 * afternoon;
	} else if (count == 1) {
		return 0;
	}
	hour = part[0] + part[1] / 60 + part[2] / 3600;
	if (part[1] > 59 || part[2] > 59 || hour > 24)
		return 0;
	*out = hour;
	return 1;
}

int tn_sheet_date(const char *text, const char *order, long *day,
		  const char **rest)
{
	const char *s = skip_spaces(text);
	int year = 0, month = 0, dom = 0;
	char mark = '\0';

	for (int i = 0; i < 3; i++) {
		double x;
		int digits;

		if (i > 0) {
			if (*s != '-' && *s != '/' && *s != '.')
				return 0;
			if (mark && *s != mark)
				return 0;
			mark = *s++;
		}
		s = whole(s, &x, &digits);
		if (!s || digits < 1 || digits > 4 ||
		    (order[i] == 'y') != (digits == 4))
			return 0;
		if (order[i] == 'y')
			year = (int)x;
		else if (order[i] == 'm')
			month = (int)x;
		else
			dom = (int)x;
	}
	*day = tarn_day(year, month, dom);
	*rest = skip_spaces(s);
	if (**rest == 'T' && *rest == s)
		++*rest;
	return *day != TARN_NO_DAY;
}
