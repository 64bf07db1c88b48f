/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "internal.h"

#define DIGITS_MAX 60		/* significant ones; more are no measurement */
#define EXPONENT_MAX 9999

const double tn_ten[23] = {
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12,
	1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22
};

struct decimal {		/* digits x 10^exponent */
	char digits[DIGITS_MAX];
	int count;
	uint64_t value;		/* of the digits while count <= 19 */
	int exponent;
};

/* One digit; 0 if there is no room. */
static int push(struct decimal *d, char c)
{
	if (d->count == 0 && c == '0')
		return 1;
	if (d->count == DIGITS_MAX)
		return 0;
	d->digits[d->count++] = c;
	if (d->count <= 19)
		d->value = 10 * d->value + (uint64_t)(c - '0');
	return 1;
}

/* e [+-] digits; NULL if that is not what stands there. */
static const char *read_exponent(const char *s, const char *end, int *out)
{
	int negative = 0, e = 0;

	if (++s < end && (*s == '-' || *s == '+'))
		negative = *s++ == '-';
	if (s == end)
		return NULL;
	for (; s < end && tn_is_digit(*s); s++)
		if (e < EXPONENT_MAX)
			e = 10 * e + (*s - '0');
	*out = negative ? -e : e;
	return s;
}

/*
 * The rest by strtod, which rounds correctly in the C library that we build
 * on.  The text given to it has no decimal point, so the locale has no say.
 */
static double by_strtod(const struct decimal *d)
{
	char text[DIGITS_MAX + 16];
	int n = 0, e = d->exponent;
	char digits[8];
	int k = 0;

	for (; n < d->count; n++)
		text[n] = d->digits[n];
	text[n++] = 'e';
	if (e < 0)
		text[n++] = '-';
	e = e < 0 ? -e : e;
	do
		digits[k++] = (char)('0' + e % 10);
	while ((e /= 10) > 0);
	while (k > 0)
		text[n++] = digits[--k];
	text[n] = '\0';
	return strtod(text, NULL);
}

static enum number_result round_decimal(const struct decimal *d, double *out)
{
	if (d->count == 0) {
		*out = 0;
	} else if (d->count <= 19 && d->value <= (uint64_t)1 << 53 &&
		   d->exponent >= -22 && d->exponent <= 22) {
		/* Both are exact doubles, so the one operation rounds the
		 * exact result (Clinger 1990, PLDI, "How to read floating
		 * point numbers accurately"). */
		double m = (double)d->value;

		*out = d->exponent < 0 ? m / tn_ten[-d->exponent]
				       : m * tn_ten[d->exponent];
	} else {
		*out = by_strtod(d);
		if (isinf(*out))
			return NUMBER_HUGE;
	}
	return NUMBER_OK;
}

/* All else; apart, so that its room is not made ready for every number. */
static enum number_result read_long(struct text t, double *out)
{
	const char *s = t.at, *end = t.at + t.length;
	struct decimal d;
	int negative = 0, any = 0, e = 0;
	enum number_result result;

	d.count = 0;
	d.value = 0;
	d.exponent = 0;
	if (s < end && (*s == '-' || *s == '+'))
		negative = *s++ == '-';
	for (; s < end && tn_is_digit(*s); s++, any = 1)
		if (!push(&d, *s))
			return NUMBER_NONE;
	if (s < end && *s == '.')
		for (s++; s < end && tn_is_digit(*s); s++, any = 1) {
			if (!push(&d, *s))
				return NUMBER_NONE;
			d.exponent--;
		}
	if (any && s < end && (*s == 'e' || *s == 'E'))
		s = read_exponent(s, end, &e);
	if (!any || s != end)
		return NUMBER_NONE;
	d.exponent += e;
	result = round_decimal(&d, out);
	if (negative)
		*out = -*out;
	return result;
}

enum number_result tn_number(struct text t, double *out)
{
	return tn_number_short(t, out) ? NUMBER_OK : read_long(t, out);
}

/* A number with a comma for its point. */
static enum number_result comma_number(struct text t, double *out)
{
	char copy[64];
	struct text number = { copy, t.length };

	if (t.length > sizeof copy || memchr(t.at, '.', t.length))
		return NUMBER_NONE;
	for (size_t i = 0; i < t.length; i++)
		copy[i] = t.at[i] == ',' ? '.' : t.at[i];
	return tn_number(number, out);
}

enum number_result tn_number_with(struct text t, char decimal, double *out)
{
	return decimal == ',' ? comma_number(t, out) : tn_number(t, out);
}
