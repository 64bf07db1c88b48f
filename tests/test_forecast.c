/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>
#include <time.h>

#include "study_world.h"
#include "tarn/study/forecast_draw.h"

#define NEAR(got, want, within) \
	cr_expect(fabs((got) - (want)) <= (within), "%.9g, want %.9g +- %g", \
		  (double)(got), (double)(want), (double)(within))

#define YEARS 9
#define DAYS (365 * YEARS + 2)	/* 2011 to 2019 */

/* A pond and nine whole years, and the budget of a place that nobody has
 * described. */
struct scene {
	struct world w;
	struct tarn_basin *basin;
	struct tarn_pond pond;
	struct tarn_exposure_budget budget;
	struct tarn_forecast_options o;
	struct tarn_forecast f;
};

static void set_up(struct scene *s)
{
	struct tarn_exposure site = tarn_exposure_default();

	world_make(&s->w, tarn_day(2011, 1, 1), DAYS, 5);
	s->basin = world_basin();
	s->pond = world_pond(s->basin);
	s->pond.trigger_m = 1.145;
	s->o = tarn_forecast_options_default();
	cr_assert(tarn_exposure_budget(&site, NULL, TARN_PENMAN_1956, 0,
				       &s->budget, NULL) == TARN_OK);
}

static void run(struct scene *s)
{
	struct tarn_error err = { 0 };

	cr_assert(tarn_forecast(&s->f, NULL, &s->pond, &s->w.forcing, NULL,
				&s->budget, &s->o, &err) == TARN_OK,
		  "%s: %s", err.field, err.text);
}

static void tear_down(struct scene *s)
{
	tarn_basin_free(s->basin);
	world_free(&s->w);
}

/* Phi(x): Abramowitz and Stegun (1964), table 26.1, from memory. */
Test(forecast, normal_numbers)
{
	NEAR(tn_normal_at(0.5), 0, 1e-9);
	NEAR(tn_normal_at(0.84134474606854), 1, 1e-10);
	NEAR(tn_normal_at(0.15865525393146), -1, 1e-10);
	NEAR(tn_normal_at(0.99865010196837), 3, 1e-9);
	for (double x = -5.5; x < 5.6; x += 0.37)
		NEAR(tn_normal_at(erfc(-x / sqrt(2)) / 2), x, 1e-6);
}

/* Without doubt every world is the ledger's own. */
Test(forecast, no_doubt_is_the_ledger)
{
	struct scene s;
	struct tarn_ledger *ledger;
	struct tarn_season season;

	set_up(&s);
	s.budget.centre_sd_ln = s.budget.slow_sd_ln = s.budget.day_sd = 0;
	s.o.rain_sd = 0;
	run(&s);
	cr_assert(tarn_ledger_run(&ledger, NULL, &s.pond, &s.w.forcing, NULL,
				  NULL) == TARN_OK);
	cr_assert(tarn_season(&season, NULL, ledger, NULL) == TARN_OK);
	NEAR(s.f.a_week.p50_m3, season.a_week_m3, 1e-9);
	NEAR(s.f.a_week.p90_m3 - s.f.a_week.p10_m3, 0, 1e-9);
	/* 256 times each of nine years: a tenth of them is the least */
	NEAR(s.f.year.p10_m3, season.year_topup_m3.least, 1e-9);
	NEAR(s.f.year.mean_m3, season.year_topup_m3.mean, 1e-9);
	NEAR(s.f.year.weather_p10_m3, season.year_topup_m3.p10, 1e-9);
	NEAR(s.f.year.weather_p90_m3, season.year_topup_m3.p90, 1e-9);
	NEAR(s.f.year.weather_share, 1, 1e-9);
	NEAR(s.f.year.site_share, 0, 1e-9);
	cr_expect(s.f.year.count == YEARS && s.f.months == 12 &&
		  s.f.peak_month == season.peak_month);
	for (int i = 0; i < 12; i++)
		NEAR(s.f.month[i].week_m3.mean,
		     season.month[i].weeks_topup_m3.mean, 1e-9);
	for (int i = 0; i < 12; i++) {
		const struct tarn_spread *d = &s.f.month[i].drop_mm;
		const struct tarn_spread *want = &season.month[i].weeks_drop_mm;

		cr_expect(d->count == 100 * want->count);
		NEAR(d->mean, want->mean, 1e-9);
		NEAR(d->least, want->least, 1e-9);
		NEAR(d->most, want->most, 1e-9);
		/* between the same two weeks, each of which counts 100 times */
		NEAR(d->p10, want->p10, 0.06 * want->p50);
		NEAR(d->p50, want->p50, 0.06 * want->p50);
		NEAR(d->p90, want->p90, 0.06 * want->p50);
	}
	for (int i = 0; i < s.f.weeks; i++)
		NEAR(s.f.week[i].topup_m3.mean, season.week[i].topup_m3.mean,
		     1e-9);
	tarn_ledger_free(ledger);
	tear_down(&s);
}

/* Every day loses the same: a week's drop is log-normal about 7 of them, with
 * the variances of the place, of 30 days, and a seventh of a day's. */
Test(forecast, a_drop_is_log_normal_where_days_are_alike)
{
	const double z10 = 1.2815515655446;	/* Phi(z) = 0.9, from memory */
	struct scene s;
	double sd, middle;

	set_up(&s);
	for (size_t i = 0; i < DAYS; i++) {
		s.w.rain[i] = 0;
		s.w.open[i] = s.w.grass[i] = 4;
	}
	s.pond.bed.area_m2 = s.pond.stream.area_m2 = s.pond.splash_m3s = 0;
	s.pond.seepage.rate_mm_d = 0;
	s.budget.centre_sd_ln = 0.3;
	s.budget.slow_sd_ln = 0.08;
	s.budget.day_sd = 0.25;
	run(&s);
	sd = sqrt(0.3 * 0.3 + 0.08 * 0.08 + 0.25 * 0.25 / 7);
	middle = 7 * 4 * exp(-0.08 * 0.08 / 2);
	for (int i = 0; i < 12; i++) {
		const struct tarn_forecast_month *m = &s.f.month[i];

		NEAR(m->drop_mm.p50, middle, 0.005 * middle);
		NEAR(m->drop_mm.p10, middle * exp(-z10 * sd), 0.02 * middle);
		NEAR(m->drop_mm.p90, middle * exp(z10 * sd), 0.02 * middle);
		NEAR(m->look_mm - m->drop_mm.p90, 25.4 / 10, 1e-9);
		NEAR(m->act_mm - m->look_mm, m->drop_mm.p90, 1e-9);
	}
	tear_down(&s);
}

/* Days of which no month is whole: the week is there, the month's share is
 * not. */
Test(forecast, of_two_weeks)
{
	struct scene s;

	set_up(&s);
	s.w.forcing.first_day = tarn_day(2011, 7, 4);
	s.w.forcing.days = 14;
	run(&s);
	cr_assert(s.f.months == 1 && s.f.month[0].month == 7);
	cr_expect(s.f.month[0].a_week.count == 0 &&
		  isnan(s.f.month[0].a_week.p50_m3));
	cr_expect(s.f.month[0].week_m3.count == 2 * 256 &&
		  s.f.month[0].drop_mm.p90 > 0 && s.f.peak_month == 0);
	tear_down(&s);
}

/* The same ledger by hand: worlds drawn here from the same normal numbers are
 * forcings of their own. */
Test(forecast, a_world_is_a_ledger_of_its_own_weather)
{
	struct scene s;
	double b[17], rain[17], sum = 0, mean;

	set_up(&s);
	s.budget.slow_sd_ln = s.budget.day_sd = 0;
	s.o.worlds = 16;
	run(&s);
	tn_draw_worlds(b, rain, 16, &s.budget, &s.o);
	for (int w = 1; w <= 16; w++) {
		struct world own;
		struct tarn_ledger *ledger;
		struct tarn_season season;

		world_make(&own, tarn_day(2011, 1, 1), DAYS, 5);
		for (size_t i = 0; i < DAYS; i++) {
			own.rain[i] *= rain[w];
			own.open[i] *= exp(b[w]);
			own.grass[i] *= exp(b[w]);
		}
		cr_assert(tarn_ledger_run(&ledger, NULL, &s.pond, &own.forcing,
					  NULL, NULL) == TARN_OK);
		cr_assert(tarn_season(&season, NULL, ledger, NULL) == TARN_OK);
		sum += season.a_week_m3;
		tarn_ledger_free(ledger);
		world_free(&own);
	}
	mean = sum / 16;
	NEAR(s.f.a_week.mean_m3, mean, 1e-9 * mean);
	tear_down(&s);
}

Test(forecast, draws_have_the_budget_s_moments)
{
	struct tarn_exposure_budget budget = { .centre_sd_ln = 0.2 };
	struct tarn_forecast_options o = tarn_forecast_options_default();
	static double b[1025], rain[1025];
	struct draw d = { .seed = 3, .slow_sd = 0.08, .day_sd = 0.25,
			  .slow_at = -1 };
	static struct block_drawn drawn;
	double sum = 0, square = 0, n = 0;

	tn_draw_worlds(b, rain, 1024, &budget, &o);
	cr_expect(b[0] == 0 && rain[0] == 1);
	for (int i = 1; i <= 1024; i++) {
		sum += b[i];
		square += b[i] * b[i];
	}
	NEAR(sum / 1024, 0, 0.002);
	NEAR(sqrt(square / 1024), 0.2, 0.003);
	sum = square = 0;
	for (long day = 0; day < 700; day += 7) {
		tn_draw_stretch(&d, 0, 64, day, 7, &drawn);
		for (int i = 0; i < 7; i++) {
			cr_expect(drawn.day[i][0] == 1, "the middle world");
			for (int l = 1; l < 64; l++, n++) {
				double x = drawn.day[i][l];

				cr_expect(x > 0 && x <= drawn.most);
				sum += x;
				square += x * x;
			}
		}
	}
	/* 44,100 days of 1,470 months: one deviation of the mean is 0.0024 */
	NEAR(sum / n, 1, 0.008);
	NEAR(sqrt(square / n - sum / n * sum / n),
	     sqrt(0.08 * 0.08 + 0.25 * 0.25), 0.006);
}

Test(forecast, the_same_seed_gives_the_same_figures)
{
	struct scene a, b;

	set_up(&a);
	run(&a);
	set_up(&b);
	run(&b);
	cr_expect(memcmp(&a.f.year, &b.f.year, sizeof a.f.year) == 0);
	b.o.seed = 2;
	run(&b);
	cr_expect(a.f.year.p90_m3 != b.f.year.p90_m3);
	NEAR(b.f.year.p90_m3 / a.f.year.p90_m3, 1, 0.03);
	tear_down(&a);
	tear_down(&b);
}

/* Days without weather's years: one year has no years to vary. */
Test(forecast, short_weather)
{
	struct scene s;

	set_up(&s);
	s.w.forcing.days = 365;
	run(&s);
	cr_expect(s.f.year.count == 1);
	NEAR(s.f.year.weather_p10_m3, s.f.year.weather_p90_m3, 0);
	NEAR(s.f.year.weather_share, 0, 1e-9);
	s.w.forcing.days = 20;
	run(&s);
	cr_expect(s.f.year.count == 0 && isnan(s.f.year.p50_m3) &&
		  isnan(s.f.year.by_ln_m3) && isnan(s.f.year.site_share));
	cr_expect(s.f.months == 1 && s.f.month[0].a_week.count == 0 &&
		  s.f.peak_month == 0);
	cr_expect(s.f.a_week.p90_m3 > s.f.a_week.p10_m3);
	tear_down(&s);
}

Test(forecast, refuses)
{
	struct scene s;
	struct tarn_error err = { 0 };

	set_up(&s);
	s.budget.day_sd = 0.29;
	cr_expect(tarn_forecast(&s.f, NULL, &s.pond, &s.w.forcing, NULL,
				&s.budget, NULL, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "day_sd");
	s.budget.day_sd = 0.28;
	s.o.worlds = 8;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_forecast(&s.f, NULL, &s.pond, &s.w.forcing, NULL,
				&s.budget, &s.o, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "worlds");
	s.o.worlds = 16;
	run(&s);
	s.budget.centre_sd_ln = TARN_NAN;
	cr_expect(tarn_forecast(&s.f, NULL, &s.pond, &s.w.forcing, NULL,
				&s.budget, &s.o, NULL) == TARN_EARG);
	s.budget.centre_sd_ln = 0.2;
	s.budget.slow_sd_ln = -0.01;
	cr_expect(tarn_forecast(&s.f, NULL, &s.pond, &s.w.forcing, NULL,
				&s.budget, &s.o, NULL) == TARN_EARG);
	tear_down(&s);
}

/* ---- what to measure --------------------------------------------------------- */

/* Bayes: 1/sd^2 of the sum and 1/0.08^2 add. */
Test(forecast, budgets_after)
{
	struct scene s;
	struct tarn_exposure_budget b;
	double sd, all;

	set_up(&s);
	sd = s.budget.centre_sd_ln;
	all = sd * sd;
	b = tarn_exposure_after(&s.budget, TARN_REMEDY_BUCKET);
	NEAR(b.centre_sd_ln, sqrt(1 / (1 / all + 1 / 0.0064)), 1e-12);
	b = tarn_exposure_after(&b, TARN_REMEDY_BUCKET);
	NEAR(b.centre_sd_ln, sqrt(1 / (1 / all + 2 / 0.0064)), 1e-12);
	b = tarn_exposure_after(&s.budget, TARN_REMEDY_STATION);
	NEAR(b.centre_sd_ln, sqrt(all - 0.07 * 0.07), 1e-12);
	b = tarn_exposure_after(&s.budget, TARN_REMEDY_SUN);
	NEAR(b.centre_sd_ln, sqrt(all - 0.13 * 0.13 + 0.03 * 0.03), 1e-12);
	b = tarn_exposure_after(&s.budget, TARN_REMEDY_WIND);
	NEAR(b.centre_sd_ln, sqrt(all - 0.05 * 0.05 + 0.01 * 0.01), 1e-12);
	b = tarn_exposure_after(&s.budget, TARN_REMEDY_WORDS);
	cr_expect(b.centre_sd_ln < sd && b.wind_described &&
		  b.sun_described && b.surroundings_described);
	NEAR(tarn_exposure_after(&b, TARN_REMEDY_WORDS).centre_sd_ln,
	     b.centre_sd_ln, 0);
	NEAR(tarn_exposure_after(&s.budget, TARN_REMEDIES).centre_sd_ln, sd, 0);
	cr_expect_str_eq(tarn_remedy_name(TARN_REMEDY_BUCKET), "bucket");
	cr_expect_str_eq(tarn_remedy_name(TARN_REMEDIES), "unknown");
	tear_down(&s);
}

/* To first order beside the worlds themselves, drawn with the same numbers. */
Test(forecast, worth_is_what_a_second_run_gives)
{
	struct scene s;
	struct tarn_worth worth[TARN_REMEDIES];
	struct tarn_forecast_range before;
	struct tarn_exposure_budget budget;
	int count;

	set_up(&s);
	run(&s);
	before = s.f.month[s.f.peak_month - 1].a_week;
	budget = s.budget;
	count = tarn_worth(&before, &budget, worth);
	cr_assert(count == TARN_REMEDIES);
	cr_expect(worth[0].remedy == TARN_REMEDY_BUCKET);
	for (int i = 0; i < count; i++) {
		struct tarn_forecast_range after;
		double ratio, site;

		s.budget = tarn_exposure_after(&budget, worth[i].remedy);
		run(&s);
		after = s.f.month[s.f.peak_month - 1].a_week;
		ratio = (after.p90_m3 - after.p10_m3) /
			(before.p90_m3 - before.p10_m3);
		site = (after.site_p90_m3 - after.site_p10_m3) /
		       (before.site_p90_m3 - before.site_p10_m3);
		NEAR(worth[i].ratio, ratio, 0.05);
		NEAR(worth[i].site_ratio, site, 0.05);
		cr_expect(worth[i].centre_sd_ln == s.budget.centre_sd_ln);
		cr_expect(worth[i].halves == (worth[i].ratio <= 0.5));
		cr_expect(i == 0 || worth[i].ratio >= worth[i - 1].ratio);
	}
	before.p90_m3 = before.p10_m3;
	cr_expect(tarn_worth(&before, &budget, worth) == 0);
	tear_down(&s);
}
