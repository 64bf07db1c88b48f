/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/pond/flows.h"
#include "tarn/season.h"

#define DAYS_A_YEAR 365.25

/* ---- whole weeks ----------------------------------------------------------- */

struct week {
	int number, month;	/* month: of its Thursday */
	double topup_m3, drop_mm;
};

struct weeks {
	struct week *week;
	size_t count;
	double *topup_m3, *drop_mm;	/* scratch, one a week */
};

static enum tarn_status make_weeks(struct weeks *k,
				   const struct tarn_alloc *alloc, size_t days,
				   struct tarn_error *err)
{
	size_t most = days / 7 + 1;

	k->count = 0;
	k->week = tarn_resize(alloc, NULL, most * sizeof *k->week);
	k->topup_m3 = tarn_resize(alloc, NULL, 2 * most * sizeof(double));
	k->drop_mm = k->topup_m3 ? k->topup_m3 + most : NULL;
	if (k->week && k->topup_m3)
		return TARN_OK;
	tarn_resize(alloc, k->week, 0);
	tarn_resize(alloc, k->topup_m3, 0);
	return tarn_fail(err, TARN_ENOMEM, "season", "out of memory for %zu "
			 "days", days);
}

static void find_weeks(struct weeks *k, const struct tarn_ledger *ledger,
		       size_t days)
{
	for (size_t at = 0, next; at < days; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_WEEK,
							  at, &next);

		if (!p.complete)
			continue;
		k->week[k->count++] = (struct week){
			.number = p.week,
			.month = tarn_date(p.first_day + 3).month,
			.topup_m3 = p.flows.topup_m3,
			.drop_mm = p.drop_mm,
		};
	}
}

/* Notes a week of those that are asked for. */
static size_t take(struct weeks *k, const struct week *w, size_t n)
{
	k->topup_m3[n] = w->topup_m3;
	k->drop_mm[n] = w->drop_mm;
	return n + 1;
}

static void by_week(struct tarn_season *s, struct weeks *k)
{
	for (int number = 1; number <= TARN_SEASON_WEEKS; number++) {
		struct tarn_season_week *w = &s->week[s->weeks];
		size_t n = 0;

		for (size_t i = 0; i < k->count; i++)
			if (k->week[i].number == number)
				n = take(k, &k->week[i], n);
		if (n == 0)
			continue;
		w->week = number;
		tarn_week_about(number, w->about);
		w->topup_m3 = tarn_spread(k->topup_m3, n);
		w->drop_mm = tarn_spread(k->drop_mm, n);
		s->weeks++;
	}
}

/* ---- months ---------------------------------------------------------------- */

struct month {
	struct tarn_flows all, whole;	/* sums */
	double drop_mm;			/* of whole ones */
	int days, whole_days;
	size_t count, whole_count;
};

static void find_months(struct month month[12],
			const struct tarn_ledger *ledger, size_t days)
{
	memset(month, 0, 12 * sizeof *month);
	for (size_t at = 0, next; at < days; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_MONTH,
							  at, &next);
		struct month *m = &month[tarn_date(p.first_day).month - 1];

		tn_flows_add(&m->all, &p.flows);
		m->days += p.days;
		m->count++;
		if (!p.complete)
			continue;
		tn_flows_add(&m->whole, &p.flows);
		m->drop_mm += p.drop_mm;
		m->whole_days += p.days;
		m->whole_count++;
	}
}

/* A share of a sum; unmet is the largest of its days and stays. */
static struct tarn_flows share_of(const struct tarn_flows *sum, double share)
{
	return (struct tarn_flows){
		.rain_m3 = sum->rain_m3 * share,
		.runoff_m3 = sum->runoff_m3 * share,
		.tank_m3 = sum->tank_m3 * share,
		.topup_m3 = sum->topup_m3 * share,
		.evaporation_m3 = sum->evaporation_m3 * share,
		.bed_m3 = sum->bed_m3 * share,
		.stream_m3 = sum->stream_m3 * share,
		.splash_m3 = sum->splash_m3 * share,
		.seepage_m3 = sum->seepage_m3 * share,
		.withdrawal_m3 = sum->withdrawal_m3 * share,
		.overflow_m3 = sum->overflow_m3 * share,
		.shortfall_m3 = sum->shortfall_m3 * share,
		.unmet_m3 = sum->unmet_m3,
		.roof_m3 = sum->roof_m3 * share,
		.tank_spill_m3 = sum->tank_spill_m3 * share,
	};
}

static void weeks_of_month(struct tarn_season_month *out, struct weeks *k)
{
	size_t n = 0;

	for (size_t i = 0; i < k->count; i++)
		if (k->week[i].month == out->month)
			n = take(k, &k->week[i], n);
	out->weeks_topup_m3 = tarn_spread(k->topup_m3, n);
	out->weeks_drop_mm = tarn_spread(k->drop_mm, n);
}

static void fill_month(struct tarn_season_month *out, const struct month *m,
		       struct weeks *k)
{
	weeks_of_month(out, k);
	out->daily = share_of(&m->all, 1.0 / m->days);
	out->whole = m->whole_count;
	out->a_week_m3 = out->weeks_topup_m3.mean;
	if (m->whole_count == 0)
		return;
	out->flows = share_of(&m->whole, 1 / (double)m->whole_count);
	out->drop_mm = m->drop_mm / (double)m->whole_count;
	out->a_week_m3 = 7 * m->whole.topup_m3 / m->whole_days;
}

static void by_month(struct tarn_season *s, const struct tarn_ledger *ledger,
		     struct weeks *k)
{
	struct month month[12];
	double most = 0;

	find_months(month, ledger, s->days);
	for (int i = 0; i < 12; i++) {
		struct tarn_season_month *m = &s->month[s->months];

		if (month[i].count == 0)
			continue;
		m->month = i + 1;
		fill_month(m, &month[i], k);
		if (m->whole > 0 && m->a_week_m3 > most) {
			most = m->a_week_m3;
			s->peak_month = m->month;
		}
		s->months++;
	}
}

/* ---- years ----------------------------------------------------------------- */

/* Summed up as the lanes of a study do: the days of each month apart. */
static double week_topup(const struct tarn_ledger_day *day, size_t count)
{
	double sum_m3 = 0, part_m3 = 0;

	for (size_t i = 0; i < count; i++) {
		part_m3 += day[i].flows.topup_m3;
		if (tarn_date(day[i].day + 1).day == 1) {
			sum_m3 += part_m3;
			part_m3 = 0;
		}
	}
	return sum_m3 + part_m3;
}

/* Top-up of the ISO week that begins at an index, and the year that it is of. */
static double week_at(const struct tarn_ledger *ledger,
		      const struct tarn_ledger_day *day, size_t at,
		      size_t *next, int *year)
{
	struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_WEEK, at,
						  next);

	if (year)
		*year = p.week_year;
	return week_topup(day + at, *next - at);
}

/* Largest week of a year whose first day stands at an index. */
static double peak_of(const struct tarn_ledger *ledger, int year, size_t at)
{
	size_t days, next;
	const struct tarn_ledger_day *day = tarn_ledger_days(ledger, &days);
	long monday = day[at].day - tarn_week(day[at].day).weekday + 1;
	double most_m3 = 0;
	int of = year;

	while (at > 0 && day[at - 1].day >= monday)
		at--;
	for (; at < days && of <= year; at = next) {
		double topup_m3 = week_at(ledger, day, at, &next, &of);

		if (of == year)
			most_m3 = fmax(most_m3, topup_m3);
	}
	return most_m3;
}

size_t tn_week_peaks(const struct tarn_ledger *ledger, double *peak_m3,
		     double *largest_m3)
{
	size_t days, years = 0;
	const struct tarn_ledger_day *day = tarn_ledger_days(ledger, &days);

	*largest_m3 = 0;
	for (size_t at = 0, next; at < days; at = next)
		*largest_m3 = fmax(*largest_m3,
				   week_at(ledger, day, at, &next, NULL));
	for (size_t at = 0, next; at < days; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_YEAR,
							  at, &next);

		if (p.complete)
			peak_m3[years++] = peak_of(ledger, p.year, at);
	}
	return years;
}

/* There are as many weeks as years at least: their scratch serves. */
static void by_year(struct tarn_season *s, const struct tarn_ledger *ledger,
		    struct weeks *k)
{
	size_t n = 0;
	double largest_m3;

	for (size_t at = 0, next; at < s->days; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_YEAR,
							  at, &next);

		if (!p.complete)
			continue;
		k->topup_m3[n++] = p.flows.topup_m3;
	}
	s->whole_years = n;
	s->year_topup_m3 = tarn_spread(k->topup_m3, n);
	n = tn_week_peaks(ledger, k->drop_mm, &largest_m3);
	s->year_peak_m3 = tarn_spread(k->drop_mm, n);
	s->has_dry_year = n >= TARN_SEASON_YEARS_LEAST;
	s->few_years = n < TARN_SEASON_YEARS_ENOUGH;
}

enum tarn_status tarn_season(struct tarn_season *out,
			     const struct tarn_alloc *alloc,
			     const struct tarn_ledger *ledger,
			     struct tarn_error *err)
{
	size_t days, next;
	struct weeks weeks;
	struct tarn_period all;
	enum tarn_status status;

	tarn_ledger_days(ledger, &days);
	status = make_weeks(&weeks, alloc, days, err);
	if (status != TARN_OK)
		return status;
	memset(out, 0, sizeof *out);
	all = tarn_ledger_period(ledger, TARN_BY_RUN, 0, &next);
	out->days = days;
	out->years = (double)days / DAYS_A_YEAR;
	out->few_days = days < TARN_SEASON_DAYS_ENOUGH;
	out->a_week_m3 = all.flows.topup_m3 * 7 / (double)days;
	out->a_year_m3 = all.flows.topup_m3 / out->years;
	find_weeks(&weeks, ledger, days);
	by_week(out, &weeks);
	by_month(out, ledger, &weeks);
	by_year(out, ledger, &weeks);
	tarn_resize(alloc, weeks.week, 0);
	tarn_resize(alloc, weeks.topup_m3, 0);
	return TARN_OK;
}
