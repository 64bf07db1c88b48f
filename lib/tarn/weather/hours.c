/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * Rows that are parts of a day, told by their stamps: the step that most rows
 * have, if it divides a day.  Then a temperature without a statistic is also
 * the day's lowest and highest.
 */

#define DAY_MIN 1440

/* Rows that have the file's step, of all that have less than a day; our
 * own. */
#define STEADY 0.8

/* A day counts from this share of its values on, in each column: one hour may
 * be missing, as where clocks go forward.  Our own. */
#define DAY_SHARE (23.0 / 24)

struct steps {
	size_t count[DAY_MIN];	/* by minutes between two rows */
	size_t rows, days;	/* days: steps of a day and more */
	int first_min;		/* time of the first row */
};

static void look_at(struct tarn_reader *r, struct steps *s)
{
	struct tarn_error keep = r->err;
	struct cells cells = tn_cells(r, 0);
	static const struct row none;
	struct row row = none;
	long long before = 0;

	while (tn_cells_row(&cells, &row)) {
		struct stamp t;
		long long now;

		if (row.count < r->scheme.needed ||
		    tn_stamp_read(r, &row, &t) != TARN_OK)
			break;		/* an error of its row */
		now = t.day * (long long)DAY_MIN + t.hour * 60 + t.minute;
		if (s->rows++ == 0)
			s->first_min = t.hour * 60 + t.minute;
		else if (now - before >= DAY_MIN)
			s->days++;
		else if (now > before)
			s->count[now - before]++;
		before = now;
	}
	r->err = keep;
	r->month.days = 0;
	r->short_years = 0;
}

/* The most common step under a day, 0 if rows are days; *share: of the rows
 * with steps under a day. */
static int find_step(const struct steps *s, double *share)
{
	size_t all = 0;
	int best = 0;

	for (int m = 1; m < DAY_MIN; m++) {
		all += s->count[m];
		if (s->count[m] > s->count[best])
			best = m;
	}
	*share = all > 0 ? (double)s->count[best] / (double)all : 0;
	return all > s->days ? best : 0;
}

/* The lowest and highest of a mean that has neither beside it. */
static void spread(struct tarn_csv_map *map, enum tarn_column mean,
		   enum tarn_column low, enum tarn_column high)
{
	if (tn_place_open(&map->column[mean].place) ||
	    map->column[mean].place.index < 0 ||
	    !tn_place_open(&map->column[low].place) ||
	    !tn_place_open(&map->column[high].place))
		return;
	map->column[low] = map->column[high] = map->column[mean];
	map->column[low].combine = map->column[high].combine =
		TARN_COMBINE_DEFAULT;
}

/* An hour of its own column, where the date has none. */
static void find_hour(struct tarn_reader *r)
{
	struct date_columns d = tn_date_columns(&r->header);

	if (r->map.no_header || !tn_place_open(&r->map.hour) ||
	    strstr(r->map.date_format, "%H") || d.hour < 0 ||
	    d.hour + 1 == r->map.date.index)
		return;
	r->map.hour.index = d.hour + 1;
	r->hour_found = 1;
}

static enum tarn_status fail_irregular(struct tarn_reader *r, int step)
{
	return tarn_settled(&r->err, TARN_SETTLE_HOURS, NULL, tarn_fail(
		&r->err, TARN_EARG, "hours", "must be given: most "
			 "rows are %d minutes apart, which is no regular step "
			 "that divides a day; say hours = 24 if a day has 24 "
			 "rows", step));
}

void tn_hours_begin(struct tarn_reader *r)
{
	if (!tn_place_open(&r->map.element))
		return;
	find_hour(r);
}

enum tarn_status tn_hours_settle(struct tarn_reader *r, int *changed)
{
	struct steps s = { .rows = 0 };
	double share;
	int step, timed = r->scheme.hour >= 0 ||
			  strstr(r->map.date_format, "%H") != NULL;

	*changed = 0;
	r->hours_least = r->map.hours;
	if (r->map.hours > 0 || !timed || r->scheme.element >= 0)
		return TARN_OK;
	look_at(r, &s);
	step = find_step(&s, &share);
	if (s.rows == 1 && strcmp(r->map.layout, "open_meteo") == 0) {
		step = 60;	/* its days have no time */
		share = 1;
	}
	if (step == 0) {
		if (r->hour_found) {	/* a time of reading, once a day */
			r->map.hour.index = 0;
			*changed = 1;
		}
		return TARN_OK;
	}
	if (DAY_MIN % step != 0 || share < STEADY)
		return fail_irregular(r, step);
	r->map.hours = DAY_MIN / step;
	r->hours_least = (int)ceil(r->map.hours * DAY_SHARE);
	r->hours_step = step;
	if (r->map.stamps == TARN_STAMPS_DEFAULT && s.first_min == step &&
	    strcmp(r->map.layout, "open_meteo") != 0)
		r->map.stamps = TARN_STAMPS_END;
	else if (r->map.stamps != TARN_STAMPS_DEFAULT)
		r->stamps_given = 1;
	spread(&r->map, TARN_TMEAN, TARN_TMIN, TARN_TMAX);
	spread(&r->map, TARN_RH_MEAN, TARN_RH_MIN, TARN_RH_MAX);
	*changed = 1;
	return TARN_OK;
}

/* ---- clocks that go back -------------------------------------------------- */

#define CLOCK_DAYS 180		/* between two times that they do */

/* They go back in the night to a Sunday, at four at the latest (common
 * practice, no source); or the row's own zone says so. */
static int may_go_back(const struct tarn_reader *r, const struct stamp *t)
{
	int weekday = (int)((t->day % 7 + 11) % 7);	/* 0: Sunday */

	if (t->zone_min != r->last.zone_min)
		return t->zone_min == r->last.zone_min - 60;
	return (weekday == 0 && t->hour <= 4) ||
	       (weekday == 6 && t->hour >= 23);
}

int tn_hours_back(struct tarn_reader *r, const struct row *row,
		  const struct stamp *t)
{
	int step = r->map.hours > 0 ? DAY_MIN / r->map.hours : DAY_MIN;
	long long from = tn_stamp_minutes(r, &r->last);

	if (step > 60 || tn_stamp_minutes(r, t) - from != step - 60 ||
	    !may_go_back(r, t) ||
	    (r->clock_backs > 0 && t->day - r->clock_back < CLOCK_DAYS))
		return 0;
	if (r->clock_backs++ == 0)
		r->clock_line = row->line;
	r->clock_back = t->day;
	return 1;
}
