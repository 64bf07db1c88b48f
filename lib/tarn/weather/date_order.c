/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/*
 * How the dates of a file are to be read, from all dates of its first rows: a
 * day above 12 settles it, or else the order in which rows are a day apart.
 * Nothing else does: then the map must say.
 */

static const char *const order_text[TARN_DATES_COUNT] = {
	"", "year-month-day", "month/day/year", "day/month/year"
};
static const char *const order_word[TARN_DATES_COUNT] = {
	"", "iso", "us", "european"
};

const char *tn_dates_order_text(enum tarn_csv_dates order)
{
	return order_text[order];
}

/* One order of a date's parts, while the rows are looked at. */
struct candidate {
	int fits;		/* the shape has it */
	long closed;		/* line that cannot be so; 0: none yet */
	char proof[40];		/* the date there */
	long last;		/* day of the row before */
	size_t steps;		/* rows a day after the one before */
};

struct judge {
	struct tarn_reader *r;
	struct candidate c[TARN_DATES_COUNT];
	long line;		/* of the first date */
	char first[40];
	size_t rows;
};

static int first_shape(struct judge *j, int field)
{
	struct cells cells = tn_cells(j->r, field);
	struct text t;

	while (tn_cells_next(&cells, &t, &j->line)) {
		if (!tn_date_shape(t, &j->r->shape))
			continue;
		tn_text_show(j->first, sizeof j->first, t);
		return 1;
	}
	return 0;
}

/* Points are European: 1.5.2015 is the first of May. */
static int has_points(const char *format)
{
	return strchr(format, '.') != NULL && !strstr(format, "%b");
}

static void open_candidates(struct judge *j)
{
	enum tarn_csv_dates asked = j->r->map.dates;
	const struct date_shape *shape = &j->r->shape;

	for (int i = 0; i < TARN_DATES_COUNT; i++) {
		j->c[i].fits = shape->format[i][0] != '\0';
		j->c[i].last = TARN_NO_DAY;
		if (asked != TARN_DATES_DEFAULT)
			j->c[i].fits &= i == (int)asked;
		else if (i != TARN_DATES_EUROPEAN &&
			 shape->format[TARN_DATES_EUROPEAN][0])
			j->c[i].fits &= !has_points(shape->format[i]);
	}
}

static enum tarn_status fail_mixed(struct judge *j, long line, const char *now)
{
	int a = 0, b = 0;

	for (int i = 1; i < TARN_DATES_COUNT; i++) {
		if (!j->c[i].fits || !j->c[i].closed)
			continue;
		if (j->c[i].closed == line)
			a = i;
		else
			b = i;
	}
	j->r->err.line = line;
	j->r->err.column = j->r->dates_field + 1;
	return tarn_fail(&j->r->err, TARN_EFORMAT, "date", "'%s' cannot be %s, "
			 "and '%s' in line %ld cannot be %s: a file must have "
			 "one order of dates; correct it, or split it in two",
			 now, order_text[a], j->c[b].proof, j->c[b].closed,
			 order_text[b]);
}

/* One date, in all orders. */
static enum tarn_status weigh(struct judge *j, struct text t, long line)
{
	struct stamp stamp[TARN_DATES_COUNT];
	int ok[TARN_DATES_COUNT], any = 0, open = 0;
	char shown[40];

	for (int i = 1; i < TARN_DATES_COUNT; i++) {
		ok[i] = j->c[i].fits &&
			tn_date_read(t, j->r->shape.format[i], &stamp[i]) ==
				DATE_OK;
		any |= ok[i];
	}
	if (!any)
		return TARN_OK;	/* no date at all: an error of its row */
	j->rows++;
	tn_text_show(shown, sizeof shown, t);
	for (int i = 1; i < TARN_DATES_COUNT; i++) {
		struct candidate *c = &j->c[i];

		if (!c->fits || c->closed)
			continue;
		if (!ok[i]) {
			c->closed = line;
			memcpy(c->proof, shown, sizeof c->proof);
			continue;
		}
		open = 1;
		c->steps += c->last != TARN_NO_DAY &&
			    stamp[i].day - c->last == 1;
		c->last = stamp[i].day;
	}
	return open ? TARN_OK : fail_mixed(j, line, shown);
}

static enum tarn_status look_at_rows(struct judge *j, int field)
{
	struct cells cells = tn_cells(j->r, field);
	enum tarn_status status = TARN_OK;
	struct text t;
	long line;

	while (status == TARN_OK && tn_cells_next(&cells, &t, &line))
		status = weigh(j, t, line);
	return status;
}

/* The only one that is left; or, by the steps, that goes day by day.  0: that
 * is not settled. */
static enum tarn_csv_dates choose(struct judge *j)
{
	struct dates *out = &j->r->dates;
	int open = 0, stepping = 0, found = 0, step = 0;

	for (int i = 1; i < TARN_DATES_COUNT; i++) {
		const struct candidate *c = &j->c[i];

		if (!c->fits)
			continue;
		if (c->closed) {
			out->line = c->closed;
			memcpy(out->proof, c->proof, sizeof out->proof);
			continue;
		}
		open++;
		found = i;
		if (c->steps > 0) {
			stepping++;
			step = i;
		}
	}
	out->by_steps = open > 1 && stepping == 1;
	return (enum tarn_csv_dates)(open == 1 ? found
				     : out->by_steps ? step : 0);
}

static enum tarn_status ask(const struct judge *j)
{
	char choices[80] = "", answers[40] = "";
	size_t n = 0, m = 0;

	for (int i = 1; i < TARN_DATES_COUNT; i++) {
		if (!j->c[i].fits || j->c[i].closed)
			continue;
		n += (size_t)snprintf(choices + n, sizeof choices - n,
				      "%s\"%s\" (%s)", n ? ", " : "",
				      order_word[i], order_text[i]);
		m += (size_t)snprintf(answers + m, sizeof answers - m,
				      "%s%s", m ? "\t" : "", order_word[i]);
	}
	j->r->err.line = j->line;
	j->r->err.column = j->r->dates_field + 1;
	return tarn_settled(&j->r->err, TARN_SETTLE_DATES, answers, tarn_fail(
		&j->r->err, TARN_EARG, "dates", "must be given: '%s' "
			 "can be read in more than one way, and no row "
			 "settles which; say dates = %s", j->first, choices));
}

static enum tarn_status fail_asked(const struct judge *j)
{
	j->r->err.line = j->line;
	j->r->err.column = j->r->dates_field + 1;
	return tarn_fail(&j->r->err, TARN_EARG, "dates", "are %s as asked, but "
			 "'%s' is not so: leave dates = \"%s\" out, or "
			 "correct it",
			 order_text[j->r->map.dates], j->first,
			 order_word[j->r->map.dates]);
}

/* Settles the format of the dates; *more: the sample does not settle it. */
static enum tarn_status judge(struct judge *j, int field, int *more)
{
	struct tarn_reader *r = j->r;
	enum tarn_csv_dates order;
	enum tarn_status status;
	int any = 0;

	if (!first_shape(j, field))
		return TARN_OK;
	open_candidates(j);
	for (int i = 1; i < TARN_DATES_COUNT; i++)
		any |= j->c[i].fits;
	if (!any)
		return fail_asked(j);
	status = look_at_rows(j, field);
	if (status != TARN_OK)
		return status;
	order = choose(j);
	if (order == TARN_DATES_DEFAULT && !r->sample.ended) {
		*more = 1;
		return TARN_OK;
	}
	if (order == TARN_DATES_DEFAULT)
		return ask(j);
	r->dates.order = order;
	memcpy(r->dates.first, j->first, sizeof r->dates.first);
	strcpy(r->map.date_format, r->shape.format[order]);
	return TARN_OK;
}

enum tarn_status tn_dates_judge(struct tarn_reader *r, int *more)
{
	struct judge j = { .r = r };
	struct role role = { "", "date" };
	struct header none = { .count = 0 };
	enum tarn_status status = TARN_OK;
	int field;

	*more = 0;
	if (!tn_place_open(&r->map.date)) {
		status = tn_place_find(r->map.no_header ? &none : &r->header,
				       &r->map.date, role, &field,
				       &r->err);
		if (status != TARN_OK || field < 0)
			return status;
		r->dates_field = field;
		if (!r->map.date_format[0])
			status = judge(&j, field, more);
	}
	if (!r->map.date_format[0] && !*more)
		strcpy(r->map.date_format, "%Y-%m-%d");
	return status;
}

/* The order that a later row has in place of the file's; 0: none. */
enum tarn_csv_dates tn_dates_other(const struct tarn_reader *r, struct text t)
{
	struct stamp s;

	for (int i = 1; i < TARN_DATES_COUNT; i++)
		if (r->shape.format[i][0] && i != (int)r->dates.order &&
		    tn_date_read(t, r->shape.format[i], &s) == DATE_OK)
			return (enum tarn_csv_dates)i;
	return TARN_DATES_DEFAULT;
}
