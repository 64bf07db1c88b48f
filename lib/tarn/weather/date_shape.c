/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/*
 * From a date as it stands in a file to the formats that it may have, one for
 * each order of year, month and day.  "1/5/2015 13:00" gives
 * "%m/%d/%Y %H:%M" and "%d/%m/%Y %H:%M".
 */

struct cursor {
	const char *s, *end;
};

static size_t digits(const struct cursor *c)
{
	size_t n = 0;

	while (c->s + n < c->end && c->s[n] >= '0' && c->s[n] <= '9')
		n++;
	return n;
}

static size_t letters(const struct cursor *c)
{
	size_t n = 0;

	while (c->s + n < c->end && tn_is_letter(c->s[n]))
		n++;
	return n;
}

/* What stands between two parts: "-", "/", ". ", ", "; at most 'room' - 1
 * bytes, 0 if there is nothing of the kind. */
static size_t between(struct cursor *c, char *out, size_t room)
{
	size_t n = 0;

	while (c->s < c->end && n + 1 < room && strchr("-/., _", *c->s) &&
	       *c->s) {
		if (*c->s != ' ' || n == 0 || out[n - 1] != ' ')
			out[n++] = *c->s;
		c->s++;
	}
	out[n] = '\0';
	return n;
}

/* The parts of a date in the order in which they stand. */
struct triple {
	size_t digits[3];	/* 0: a month's name */
	char gap[2][4];
};

static int take_part(struct cursor *c, size_t *n)
{
	size_t k = letters(c);

	*n = digits(c);
	if (*n > 0) {
		c->s += *n;
		return 1;
	}
	if (k == 0 || !tn_month_named((struct text){ c->s, k }))
		return 0;
	c->s += k;
	/* "Jan. 5": the point is the name's; "5.Jan.2015": it is not */
	if (c->s + 1 < c->end && *c->s == '.' && strchr(" ,", c->s[1]))
		c->s++;
	return 1;
}

static int take_triple(struct cursor *c, struct triple *t)
{
	memset(t, 0, sizeof *t);
	for (int i = 0; i < 3; i++) {
		int named;

		if (!take_part(c, &t->digits[i]) || t->digits[i] > 4)
			return 0;
		if (i == 2)
			return 1;
		named = t->digits[i] == 0;
		if (between(c, t->gap[i], sizeof t->gap[i]) == 0 && !named &&
		    letters(c) == 0)
			return 0;
	}
	return 1;
}

static void put_triple(char out[32], const struct triple *t, const char *a,
		       const char *b, const char *c)
{
	snprintf(out, 32, "%s%s%s%s%s", a, t->gap[0], b, t->gap[1], c);
}

static const char *year_of(size_t digits)
{
	return digits == 4 ? "%Y" : "%y";
}

/* Which orders three numbers, or two and a name, may have. */
static int orders(const struct triple *t, char format[TARN_DATES_COUNT][32])
{
	const size_t *n = t->digits;

	if (n[0] == 0 && n[1] <= 2 && (n[2] == 4 || n[2] == 2))
		put_triple(format[TARN_DATES_US], t, "%b", "%d",
			   year_of(n[2]));
	else if (n[1] == 0 && n[0] == 4 && n[2] > 0 && n[2] <= 2)
		put_triple(format[TARN_DATES_ISO], t, "%Y", "%b", "%d");
	else if (n[1] == 0 && n[0] > 0 && n[0] <= 2 &&
		 (n[2] == 4 || n[2] == 2))
		put_triple(format[TARN_DATES_EUROPEAN], t, "%d", "%b",
			   year_of(n[2]));
	else if (n[0] == 4 && n[1] > 0 && n[1] <= 2 && n[2] > 0 && n[2] <= 2)
		put_triple(format[TARN_DATES_ISO], t, "%Y", "%m", "%d");
	else if (n[0] > 0 && n[0] <= 2 && n[1] > 0 && n[1] <= 2 &&
		 (n[2] == 4 || n[2] == 2)) {
		put_triple(format[TARN_DATES_US], t, "%m", "%d",
			   year_of(n[2]));
		put_triple(format[TARN_DATES_EUROPEAN], t, "%d", "%m",
			   year_of(n[2]));
		if (n[0] == 2 && n[2] == 2)
			put_triple(format[TARN_DATES_ISO], t, "%y", "%m",
				   "%d");
	} else {
		return 0;
	}
	return 1;
}

/* All digits, or a year and its day. */
static int packed(struct cursor *c, char format[TARN_DATES_COUNT][32])
{
	static const struct { size_t digits; const char *format; } known[] = {
		{ 6, "%y%m%d" }, { 7, "%Y%j" }, { 8, "%Y%m%d" },
		{ 10, "%Y%m%d%H" }, { 12, "%Y%m%d%H%M" },
		{ 14, "%Y%m%d%H%M%S" },
	};
	size_t n = digits(c);
	struct cursor rest = { c->s + n + 1, c->end };

	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		if (known[i].digits == n) {
			strcpy(format[TARN_DATES_ISO], known[i].format);
			c->s += n;
			return 1;
		}
	if (n != 4 || rest.s >= rest.end || !strchr("-/. ", c->s[4]) ||
	    digits(&rest) != 3)
		return 0;
	snprintf(format[TARN_DATES_ISO], 32, "%%Y%c%%j", c->s[4]);
	c->s += 8;
	return 1;
}

/* ":00", ":00:00.000", " PM", "Z", "+01:00" behind an hour. */
static int minutes(struct cursor *c, char *out, size_t room)
{
	size_t n = 0;

	if (c->s < c->end && *c->s == ':') {
		c->s++;
		if (digits(c) != 2)
			return 0;
		c->s += 2;
		n += (size_t)snprintf(out, room, ":%%M");
	}
	if (n > 0 && c->s < c->end && *c->s == ':') {
		c->s++;
		if (digits(c) != 2)
			return 0;
		c->s += 2;
		n += (size_t)snprintf(out + n, room - n, ":%%S");
		if (c->s < c->end && strchr(".,", *c->s)) {
			c->s++;
			c->s += digits(c);
		}
	}
	out[n] = '\0';
	return 1;
}

static int is_half_day(const struct cursor *c)
{
	return c->end - c->s >= 2 && strchr("AaPp", c->s[0]) &&
	       strchr("Mm.", c->s[1]);
}

/* Half of a day and zone. */
static void tail(struct cursor *c, char *out, size_t room)
{
	const char *blank = "";
	size_t n = 0;

	for (int i = 0; i < 2 && c->s < c->end; i++) {
		blank = "";
		while (c->s < c->end && *c->s == ' ') {
			blank = " ";
			c->s++;
		}
		if (is_half_day(c)) {
			n += (size_t)snprintf(out + n, room - n, "%s%%p",
					      blank);
			while (c->s < c->end && strchr("AaPpMm.", *c->s))
				c->s++;
		} else if (c->s < c->end) {
			snprintf(out + n, room - n, "%s%%z", blank);
			c->s = c->end;	/* read by the format, or refused */
		}
	}
}

/* The time of the day; none is right too. */
static int take_time(struct cursor *c, char *out, size_t room)
{
	size_t n = 0, k;

	out[0] = '\0';
	if (c->s == c->end)
		return 1;
	if (c->s + 1 < c->end && strchr("Tt", *c->s)) {
		out[n++] = *c->s++;
		out[n] = '\0';
	} else {
		n = between(c, out, 4);
	}
	k = digits(c);
	if (k == 0 && n == 0) {		/* a zone behind a date alone */
		tail(c, out, room);
		return 1;
	}
	if (k == 0 || k == 3 || k == 5 || k > 6)
		return 0;
	c->s += k;
	n += (size_t)snprintf(out + n, room - n, "%s", k <= 2 ? "%H"
			      : k == 4 ? "%H%M" : "%H%M%S");
	if (k <= 2 && !minutes(c, out + n, room - n))
		return 0;
	n += strlen(out + n);
	tail(c, out + n, room - n);
	return c->s == c->end;
}

/* "Mon, " before a date. */
static size_t take_weekday(struct cursor *c, char *out, size_t room)
{
	struct cursor start = *c;
	size_t k = letters(c), n;
	char gap[4];

	out[0] = '\0';
	if (k < 2 || tn_month_named((struct text){ c->s, k }))
		return 0;
	c->s += k;
	if (c->s + 1 < c->end && *c->s == '.' && strchr(" ,", c->s[1]))
		c->s++;
	n = between(c, gap, sizeof gap);
	if (n == 0 || (digits(c) == 0 && letters(c) == 0)) {
		*c = start;
		return 0;
	}
	return (size_t)snprintf(out, room, "%%a%s", gap);
}

int tn_date_shape(struct text t, struct date_shape *out)
{
	struct cursor c = { t.at, t.at + t.length };
	struct triple triple;
	char before[8], time[24];
	int any = 0;

	memset(out, 0, sizeof *out);
	take_weekday(&c, before, sizeof before);
	if (!packed(&c, out->format) &&
	    !(take_triple(&c, &triple) && orders(&triple, out->format)))
		return 0;
	if (!take_time(&c, time, sizeof time))
		return 0;
	out->timed = strchr(time, 'H') != NULL;
	for (int i = 0; i < TARN_DATES_COUNT; i++) {
		char whole[64];

		if (!out->format[i][0])
			continue;
		any += (size_t)snprintf(whole, sizeof whole, "%s%s%s", before,
					out->format[i], time) < 32;
		snprintf(out->format[i], 32, "%.31s", whole);
		out->timed |= strchr(out->format[i], 'H') != NULL;
	}
	return any;
}
