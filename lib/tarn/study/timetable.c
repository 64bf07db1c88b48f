/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study/engine.h"

size_t tn_timetable_room(size_t days)
{
	/* 53 weeks and 12 months a year, and the ends */
	return days / 365 * 66 + 70;
}

size_t tn_timetable_breaks(const struct tarn_forcing *weather)
{
	size_t breaks = 0;

	for (size_t i = 1; i < weather->days; i++)
		breaks += step_left_out(weather, i) !=
			  step_left_out(weather, i - 1);
	return breaks;
}

/* Schedules are asked once for each day, not once for each block. */
static void ask_schedules(struct timetable *timetable)
{
	const struct tarn_pond *p = timetable->pond;

	for (size_t i = 0; i < timetable->weather->days; i++) {
		long day = timetable->weather->first_day + (long)i;
		double out_m3 = 0;

		for (int k = 0; k < p->withdrawals; k++)
			if (tarn_schedule_on(&p->withdrawal[k].when, day))
				out_m3 += p->withdrawal[k].volume_m3;
		timetable->withdrawal_m3[i] = out_m3;
		timetable->open[i] =
			tarn_schedule_on(&p->supply.when, day) != 0;
	}
}

static size_t least(size_t a, size_t b)
{
	return a < b ? a : b;
}

/* How many of so many days from 'at' on are all run, or all left out. */
static size_t alike(const struct tarn_forcing *w, size_t at, size_t days)
{
	size_t i = 1;

	while (w->left_out && i < days &&
	       step_left_out(w, at + i) == step_left_out(w, at))
		i++;
	return w->left_out ? i : days;
}

/* Stretches, counted on from the first day: asking the calendar for each
 * would cost as much as running a few ponds. */
static void cut_stretches(struct timetable *timetable)
{
	const struct tarn_forcing *w = timetable->weather;
	struct tarn_date date = tarn_date(w->first_day);
	size_t week_left = (size_t)(8 - tarn_week(w->first_day).weekday);
	size_t month_left = (size_t)(tarn_days_in_month(date.year, date.month) -
				     date.day + 1);
	int whole = date.month == 1 && date.day == 1;
	struct timetable_stretch *last;

	for (size_t at = 0; at < w->days;) {
		struct timetable_stretch *s =
			&timetable->stretch[timetable->count++];

		s->first = at;
		s->days = alike(w, at, least(least(week_left, month_left),
					     w->days - at));
		s->left_out = step_left_out(w, at);
		s->month = date.month - 1;
		s->ends = 0;
		s->whole_year = s->whole_weeks = 0;
		timetable->month_count[s->month] += (double)s->days;
		at += s->days;
		week_left -= s->days;
		month_left -= s->days;
		if (week_left == 0) {
			s->ends |= LANES_WEEK;
			week_left = 7;
		}
		if (month_left > 0)
			continue;
		s->ends |= LANES_MONTH;
		if (date.month == 12) {
			s->ends |= LANES_YEAR;
			s->whole_year = whole;
			timetable->years += (size_t)whole;
			whole = 1;
			date.year++;
			date.month = 0;
		}
		date.month++;
		month_left = (size_t)tarn_days_in_month(date.year, date.month);
	}
	/* what the weather breaks off ends with it */
	last = &timetable->stretch[timetable->count - 1];
	last->ends |= LANES_WEEK | LANES_MONTH;
}

/* Where the last ISO week of a year ends: on a day from 28 December to
 * 3 January, or with the weather. */
static void mark_last_weeks(struct timetable *timetable)
{
	const struct tarn_forcing *w = timetable->weather;
	struct tarn_date a = tarn_date(w->first_day);
	struct tarn_date z = tarn_date(w->first_day + (long)w->days - 1);
	int from = a.month == 1 && a.day == 1 ? a.year : a.year + 1;
	int to = z.month == 12 && z.day == 31 ? z.year : z.year - 1;

	for (size_t i = 0; i < timetable->count; i++) {
		struct timetable_stretch *s = &timetable->stretch[i];
		long next = w->first_day + (long)(s->first + s->days);
		int last = i == timetable->count - 1, year;

		if (!(s->ends & LANES_WEEK) ||
		    (!last && s->month != 0 && s->month != 11))
			continue;
		year = tarn_week(next - 1).year;
		if (!last && tarn_week(next).year == year)
			continue;
		s->ends |= LANES_LAST_WEEK;
		s->whole_weeks = year >= from && year <= to;
	}
}

void tn_timetable_make(struct timetable *timetable,
		       const struct tarn_forcing *weather,
		       const struct tarn_pond *pond)
{
	timetable->weather = weather;
	timetable->pond = pond;
	timetable->count = timetable->years = 0;
	for (int m = 0; m < 12; m++)
		timetable->month_count[m] = 0;
	ask_schedules(timetable);
	cut_stretches(timetable);
	mark_last_weeks(timetable);
	for (int m = 0; m < 12; m++)
		timetable->month_count[m] /= tarn_usual_days(m + 1);
}

void tn_timetable_sky(const struct timetable *timetable, size_t day,
		      struct step_sky *out)
{
	const struct tarn_forcing *w = timetable->weather;
	double open = timetable->open[day] ? STEP_NO_LIMIT : 0;

	out->rain_mm = w->rain_mm[day];
	out->open_water_mm = w->open_water_mm[day];
	out->grass_mm = w->grass_mm[day];
	out->withdrawal_m3 = timetable->withdrawal_m3[day];
	out->supply_m3 = out->refused_m3 = open;
	out->tank_m3 = STEP_NO_LIMIT;
}
