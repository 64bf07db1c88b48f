/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/flow.h"
#include "tarn/season.h"
#include "tarn/study.h"

#define MOST (11 * 366)

/* A basin with leaning walls, topped up, under made weather: dry summers, the
 * years unlike each other. */
struct world {
	struct tarn_basin *basin;
	struct tarn_pond pond;
	struct tarn_forcing forcing;
	struct tarn_ledger *ledger;
	struct tarn_season season;
	double rain_mm[MOST], open_mm[MOST], grass_mm[MOST];
};

static void fill_weather(struct world *w, long first_day, size_t days,
			 double strength)
{
	for (size_t i = 0; i < days; i++) {
		struct tarn_date d = tarn_date(first_day + (long)i);
		double warm = 1 - fabs(d.month - 7.0) / 6;

		w->open_mm[i] = strength * (0.4 + 5 * warm + d.year % 4 / 2.0);
		w->grass_mm[i] = 0.9 * w->open_mm[i];
		w->rain_mm[i] = (d.day * 7 + d.month) % 5 == 0
			? 9 - 8 * warm : 0;
	}
	w->forcing = (struct tarn_forcing){ first_day, days, w->rain_mm,
					    w->open_mm, w->grass_mm, NULL };
}

static struct world *make_world(const char *first, size_t days,
				double strength)
{
	struct world *w = calloc(1, sizeof *w);
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_error err = { 0 };

	cr_assert(w && days <= MOST);
	s.length_m = 4.8;
	s.width_m = 3.4;
	s.depth_m = 1.2;
	s.side_slope = 0.3;
	cr_assert(tarn_basin_shelved(&w->basin, NULL, &s, &err) == TARN_OK);
	w->pond = tarn_pond_default();
	w->pond.basin = w->basin;
	w->pond.overflow_level_m = 1;
	w->pond.trigger_m = 0.97;
	w->pond.target_m = 0.98;
	w->pond.bed.area_m2 = 2;
	w->pond.bed.volume_m3 = 0.4;
	fill_weather(w, tarn_day_parse(first), days, strength);
	cr_assert(tarn_ledger_run(&w->ledger, NULL, &w->pond, &w->forcing,
				  NULL, &err) == TARN_OK, "%s %s", err.field,
		  err.text);
	cr_assert(tarn_season(&w->season, NULL, w->ledger, &err) == TARN_OK);
	return w;
}

static void free_world(struct world *w)
{
	tarn_ledger_free(w->ledger);
	tarn_basin_free(w->basin);
	free(w);
}

static int close_to(double a, double b)
{
	return fabs(a - b) <= 1e-12 * fmax(1, fabs(a) + fabs(b));
}

static int same_spread(struct tarn_spread a, struct tarn_spread b)
{
	return a.count == b.count && close_to(a.mean, b.mean) &&
	       close_to(a.p10, b.p10) && close_to(a.p50, b.p50) &&
	       close_to(a.p90, b.p90) && close_to(a.most, b.most) &&
	       close_to(a.least, b.least);
}

/* ---- laws ------------------------------------------------------------------ */

/* Of whole years, months and years add up to the run. */
Test(season, months_and_years_add_up)
{
	struct world *w = make_world("2001-01-01", 4 * 365 + 1, 1);
	const struct tarn_season *s = &w->season;
	double whole = 0, daily = 0, drop = 0;
	size_t next;
	struct tarn_period all = tarn_ledger_period(w->ledger, TARN_BY_RUN, 0,
						    &next);

	cr_expect(s->months == 12 && s->whole_years == 4 && s->peak_month > 0);
	for (int i = 0; i < 12; i++) {
		const struct tarn_season_month *m = &s->month[i];
		double days = i == 1 ? 28.25
			: tarn_days_in_month(2001, m->month);

		cr_expect(m->month == i + 1 && m->whole == 4);
		whole += 4 * m->flows.topup_m3;
		daily += 4 * days * m->daily.topup_m3;
		drop += 4 * m->drop_mm;
		cr_expect(close_to(m->a_week_m3, 7 * m->daily.topup_m3));
		cr_expect(m->a_week_m3 <=
			  s->month[s->peak_month - 1].a_week_m3);
	}
	cr_expect(close_to(whole, all.flows.topup_m3));
	cr_expect(close_to(daily, all.flows.topup_m3));
	cr_expect(close_to(drop, all.drop_mm));
	cr_expect(close_to(4 * s->year_topup_m3.mean, all.flows.topup_m3));
	cr_expect(close_to(s->a_year_m3, s->year_topup_m3.mean));
	cr_expect(close_to(s->a_week_m3 * (double)s->days / 7, all.flows.topup_m3));
	free_world(w);
}

/* The whole weeks of one number, or of one month by their Thursdays, gathered
 * again. */
static size_t gather(const struct world *w, int week, int month, double *topup,
		     double *drop, long *last)
{
	size_t n = 0, next;

	for (size_t at = 0; at < w->forcing.days; at = next) {
		struct tarn_period p = tarn_ledger_period(w->ledger,
							  TARN_BY_WEEK, at,
							  &next);

		if (p.last_day - p.first_day != 6 ||
		    (week && tarn_week(p.first_day).week != week) ||
		    (month && tarn_date(p.last_day - 3).month != month))
			continue;
		topup[n] = p.flows.topup_m3;
		drop[n++] = p.drop_mm;
		*last = p.first_day;
	}
	return n;
}

Test(season, weeks_are_those_of_the_ledger)
{
	struct world *w = make_world("2001-03-07", 5 * 365, 1);
	double topup[MOST / 7], drop[MOST / 7];
	size_t sum = 0, all;
	long last = 0;

	cr_expect(w->season.weeks == TARN_SEASON_WEEKS);
	for (int i = 0; i < w->season.weeks; i++) {
		const struct tarn_season_week *k = &w->season.week[i];
		size_t n = gather(w, k->week, 0, topup, drop, &last);

		cr_expect(k->week == i + 1);
		cr_expect(same_spread(k->topup_m3, tarn_spread(topup, n)));
		cr_expect(same_spread(k->drop_mm, tarn_spread(drop, n)));
	}
	for (int i = 0; i < w->season.months; i++) {
		const struct tarn_season_month *m = &w->season.month[i];
		size_t n = gather(w, 0, m->month, topup, drop, &last);

		sum += n;
		cr_expect(same_spread(m->weeks_topup_m3,
				      tarn_spread(topup, n)));
		cr_expect(same_spread(m->weeks_drop_mm, tarn_spread(drop, n)));
	}
	all = gather(w, 0, 0, topup, drop, &last);
	cr_expect(sum == all);
	free_world(w);
}

/* Two consecutive weeks of the year have dates a week apart, whatever year the
 * ledger ends in: of 2020-03 to 2021-12-26, W51 was dated 12-20 and W52 12-21. */
Test(season, dates_of_weeks_go_on)
{
	struct world *w = make_world("2019-03-07", 1026, 1);

	cr_assert(w->season.weeks == TARN_SEASON_WEEKS);
	cr_expect_str_eq(w->season.week[50].about, "12-17");
	cr_expect_str_eq(w->season.week[51].about, "12-24");
	free_world(w);
}

/* Weeks of great thirst around two ends of a year, 2009-W01 (from 2008-12-29)
 * and 2009-W53 (to 2010-01-03), are of 2009 both. */
Test(season, a_week_is_of_the_year_of_its_thursday)
{
	struct world *w = make_world("2008-01-01", 366 + 2 * 365, 1);
	struct tarn_error err = { 0 };
	double value[TARN_QUANTITIES];
	const struct tarn_spread *peak = &w->season.year_peak_m3;

	for (size_t i = 0; i < w->forcing.days; i++) {
		struct tarn_week k = tarn_week(w->forcing.first_day + (long)i);

		if (k.year == 2009 && (k.week == 1 || k.week == 53))
			w->open_mm[i] = 40;
	}
	tarn_ledger_free(w->ledger);
	cr_assert(tarn_ledger_run(&w->ledger, NULL, &w->pond, &w->forcing,
				  NULL, &err) == TARN_OK);
	cr_assert(tarn_season(&w->season, NULL, w->ledger, &err) == TARN_OK);
	cr_expect(peak->count == 3 && peak->most > 2 * peak->p50,
		  "%g %g", peak->most, peak->p50);
	tarn_study_summary(w->ledger, &w->pond, value);
	cr_expect(memcmp(&value[TARN_Q_WEEK_P90], &peak->p90, 8) == 0);
	cr_expect(memcmp(&value[TARN_Q_WEEK_P50], &peak->p50, 8) == 0);
	cr_expect(memcmp(&value[TARN_Q_WEEK_MAX], &peak->most, 8) == 0);
	free_world(w);
}

/* Largest week of each year, by hand from the ledger. */
Test(season, peaks_of_years)
{
	struct world *w = make_world("2001-06-01", 3 * 365, 1);
	double peak[2] = { 0, 0 };

	for (size_t at = 0, next; at < w->forcing.days; at = next) {
		struct tarn_period p = tarn_ledger_period(w->ledger,
							  TARN_BY_WEEK, at,
							  &next);
		int year = tarn_week(p.first_day).year - 2002;

		if (year == 0 || year == 1)
			peak[year] = fmax(peak[year], p.flows.topup_m3);
	}
	cr_expect(w->season.whole_years == 2);
	cr_expect(close_to(w->season.year_peak_m3.least,
			   fmin(peak[0], peak[1])));
	cr_expect(close_to(w->season.year_peak_m3.most,
			   fmax(peak[0], peak[1])));
	free_world(w);
}

/* ---- short ledgers --------------------------------------------------------- */

Test(season, of_one_day)
{
	struct world *w = make_world("2003-01-01", 1, 1);
	const struct tarn_season *s = &w->season;

	cr_expect(s->days == 1 && s->weeks == 0 && s->whole_years == 0);
	cr_expect(s->months == 1 && s->month[0].month == 1);
	cr_expect(s->month[0].whole == 0 && isnan(s->month[0].a_week_m3));
	cr_expect(s->month[0].weeks_drop_mm.count == 0);
	cr_expect(s->month[0].daily.evaporation_m3 > 0);
	cr_expect(s->year_topup_m3.count == 0 && isnan(s->year_topup_m3.p90));
	cr_expect(!s->has_dry_year && s->few_years && s->few_days);
	cr_expect(s->peak_month == 0);
	free_world(w);
}

/* A whole week and no whole month: the week's own mean serves. */
Test(season, of_two_weeks)
{
	struct world *w = make_world("2003-07-07", 14, 1);
	const struct tarn_season_month *m = &w->season.month[0];

	cr_expect(w->season.months == 1 && m->month == 7);
	cr_expect(m->whole == 0 && m->weeks_topup_m3.count == 2);
	cr_expect(close_to(m->a_week_m3, m->weeks_topup_m3.mean));
	cr_expect(w->season.peak_month == 0);
	free_world(w);
}

static struct tarn_season season_of(const char *first, size_t days)
{
	struct world *w = make_world(first, days, 1);
	struct tarn_season s = w->season;

	free_world(w);
	return s;
}

Test(season, both_sides_of_its_thresholds)
{
	/* 2001 to 2003 have 365 days each */
	cr_expect(!season_of("2001-01-01", 1094).has_dry_year);
	cr_expect(season_of("2001-01-01", 1094).few_days);
	cr_expect(season_of("2001-01-01", 1095).has_dry_year);
	cr_expect(!season_of("2001-01-01", 1095).few_days);
	/* 2001 to 2010, with two leap years */
	cr_expect(season_of("2001-01-01", 3651).few_years);
	cr_expect(!season_of("2001-01-01", 3652).few_years);
}

static void *refuse(void *context, void *block, size_t bytes)
{
	(void)context;
	(void)block;
	(void)bytes;
	return NULL;
}

Test(season, out_of_memory)
{
	struct tarn_alloc none = { refuse, NULL };
	struct world *w = make_world("2003-01-01", 40, 1);
	struct tarn_absence a;
	long days[30] = { 0 };

	cr_expect(tarn_season(&w->season, &none, w->ledger, NULL) ==
		  TARN_ENOMEM);
	cr_expect(tarn_absence(&a, &none, days, 30, 0, NULL) == TARN_ENOMEM);
	free_world(w);
}

/* ---- absence --------------------------------------------------------------- */

Test(season, absence_of_a_month)
{
	struct tarn_absence a;
	long days[31];

	for (int i = 0; i < 31; i++)
		days[i] = i % 2 ? 4 : 9;
	days[30] = 1;		/* counts for the worst alone */
	days[0] = -1;		/* not known: longer than the horizon */
	cr_expect(tarn_absence(&a, NULL, days, 31, tarn_day(2003, 5, 1), NULL)
		  == TARN_OK);
	cr_expect(a.horizon == 15 && a.months == 1 && a.month[0].month == 5);
	cr_expect(a.month[0].starts == 17);	/* days 1 to 17 of 31 */
	cr_expect(close_to(a.month[0].worst, 1));
	cr_expect(close_to(a.month[0].p10, 4));
	/* 8 fours, 8 nines, and 16 for what is not known */
	cr_expect(close_to(a.month[0].p50, 9));
}

Test(season, absence_needs_a_month_of_weather)
{
	struct tarn_absence a;
	long days[300];

	for (int i = 0; i < 300; i++)
		days[i] = -1;
	cr_expect(tarn_absence(&a, NULL, days, 29, 0, NULL) == TARN_OK);
	cr_expect(a.months == 0);
	cr_expect(tarn_absence(&a, NULL, days, 30, 0, NULL) == TARN_OK);
	cr_expect(a.months == 1 && a.horizon == 15);
	cr_expect(isinf(a.month[0].worst));
	cr_expect(close_to(a.month[0].p10, 16) && a.month[0].starts == 16);
	cr_expect(tarn_absence(&a, NULL, days, 239, 0, NULL) == TARN_OK);
	cr_expect(a.horizon == 119);
	cr_expect(tarn_absence(&a, NULL, days, 300, 0, NULL) == TARN_OK);
	cr_expect(a.horizon == TARN_ABSENCE_HORIZON && a.months == 10);
	/* October 1970 begins after the last start with the horizon left */
	cr_expect(a.month[9].starts == 0 && isnan(a.month[9].p50));
}

/* ---- frost ----------------------------------------------------------------- */

Test(season, frost)
{
	/* 30 December to 3 January */
	double low[] = { 1, -8, -7.99, 0, 0.01 }, high[] = { 3, -2, 1, 4, 5 };
	long first = tarn_day(2001, 12, 30);
	struct tarn_frost f = tarn_frost(first, low, high, 5, 0);

	cr_expect(close_to(f.hard_days, 365.25 / 5));
	cr_expect(strcmp(f.first, "12-31") == 0);
	cr_expect(strcmp(f.last, "01-02") == 0);
	cr_expect(close_to(f.degree_days, 5 + 3.495));
	/* south of the equator a winter begins in January */
	f = tarn_frost(first, low, high, 5, 1);
	cr_expect(strcmp(f.first, "01-01") == 0);
	cr_expect(strcmp(f.last, "12-31") == 0);
}

Test(season, frost_of_unknown_days)
{
	double low[] = { TARN_NAN, 2, 5 }, high[] = { 6, 9, 9 };
	struct tarn_frost f = tarn_frost(0, low, high, 3, 0);

	cr_expect(f.first[0] == '\0' && f.last[0] == '\0');
	cr_expect(!(f.hard_days > 0) && isnan(f.degree_days));
	f = tarn_frost(0, low + 1, high + 1, 2, 0);
	cr_expect(close_to(f.degree_days, 0));
	f = tarn_frost(0, low + 1, NULL, 2, 0);
	cr_expect(isnan(f.degree_days));
}
