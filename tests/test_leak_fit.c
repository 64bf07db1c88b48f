/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/leak/gls.h"

/* ---- the least squares against plain matrices ----------------------- */

#define N 7

/* Inverse by elimination, nothing shared with the library. */
static void invert_plainly(double a[N][N], double out[N][N])
{
	for (int i = 0; i < N; i++)
		for (int j = 0; j < N; j++)
			out[i][j] = i == j;
	for (int i = 0; i < N; i++) {
		double d = a[i][i];

		for (int j = 0; j < N; j++) {
			a[i][j] /= d;
			out[i][j] /= d;
		}
		for (int k = 0; k < N; k++) {
			double f = k == i ? 0 : a[k][i];

			for (int j = 0; j < N; j++) {
				a[k][j] -= f * a[i][j];
				out[k][j] -= f * out[i][j];
			}
		}
	}
}

/* One column, flat prior: s = x'V^-1 y / x'V^-1 x for every tau. */
Test(gls, one_column_by_matrices)
{
	struct gls_row rows[N];
	struct gls_prior prior = { .columns = 1, .meter_mean = 1,
				   .meter_precision = 2500 };
	struct gls_posterior p;
	double v[N][N] = { { 0 } }, inverse[N][N], xx = 0, xy = 0;
	static const double c[GLS_COLUMNS] = { 1, 0, 0, 0 };

	memset(rows, 0, sizeof rows);
	for (size_t j = 0; j < N; j++) {
		rows[j] = (struct gls_row){
			.y_mm = 3 * sin((double)j * 1.3) + (double)j,
			.x = { 1 + 0.3 * (double)j }, .g = j == 3 ? 0.4 : 1,
			.start_var = 2 + 0.1 * (double)j,
			.end_var = 2.1 + 0.1 * (double)j,
			.w_var = 0.5 + (double)(j % 3),
			.start = j < 5 ? j : j + 1,
			.end = j < 5 ? j + 1 : j + 2,
			.w_weight = j == 2 ? 0.1 : 1, .start_weight = 1,
			.end_weight = 1,
		};
		v[j][j] = rows[j].w_var / rows[j].w_weight +
			  rows[j].g * rows[j].g * rows[j].start_var +
			  rows[j].end_var;
		if (j > 0 && j != 5)
			v[j][j - 1] = v[j - 1][j] =
				-rows[j].g * rows[j].start_var;
	}
	invert_plainly(v, inverse);
	for (int i = 0; i < N; i++)
		for (int j = 0; j < N; j++) {
			xx += rows[i].x[0] * inverse[i][j] * rows[j].x[0];
			xy += rows[i].x[0] * inverse[i][j] * rows[j].y_mm;
		}
	tn_gls_fit(rows, N, &prior, &p);
	cr_expect(fabs(tn_gls_estimate(&p, c).mean - xy / xx) < 1e-10);
	/* tau = 1 is the middle of the grid */
	cr_expect(fabs(p.cov[GLS_GRID / 2][0][0] - 1 / xx) < 1e-12 / xx);
}

/* ---- small worlds without noise ------------------------------------- */

#define DAYS 40

struct world {
	struct tarn_basin *basin;
	struct tarn_pond pond;
	double rain[DAYS + 2], open[DAYS + 2], grass[DAYS + 2];
	struct tarn_forcing forcing;
	struct tarn_reading readings[DAYS + 1];
	struct tarn_leak_options options;
};

static void make_world(struct world *w)
{
	static const double level[] = { 0, 1.05 }, area[] = { 10, 14 };

	memset(w, 0, sizeof *w);
	cr_assert(tarn_basin_table(&w->basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	w->pond = tarn_pond_default();
	w->pond.basin = w->basin;
	w->pond.overflow_level_m = 1;
	w->pond.bed.area_m2 = 2;
	for (int i = 0; i < DAYS + 2; i++) {
		w->open[i] = 4 + 2.5 * sin(i * 0.9);
		w->grass[i] = w->open[i] / 1.2;
		w->rain[i] = i % 9 == 4 ? 3 : 0;
	}
	w->forcing = (struct tarn_forcing){ tarn_day(2025, 5, 1), DAYS + 2,
					    w->rain, w->open, w->grass, NULL };
	w->options = tarn_leak_options_default();
	w->options.evaporation_mean = 1;
	w->options.evaporation_sd = 0.15;
	w->options.evaporation_noise = 0.20;
	w->options.slow_sd = 0;
}

/* Readings at midnight of a pond without error, f x evaporation, s of loss. */
static void keep_log(struct world *w, double f, double s_mm_d, double start_m)
{
	double open[DAYS + 2], grass[DAYS + 2], area;
	struct tarn_forcing forcing = w->forcing;
	struct tarn_run run = tarn_run_default();
	struct tarn_pond pond = w->pond;
	struct tarn_ledger *ledger;
	const struct tarn_ledger_day *days;
	size_t count;

	area = tarn_basin_area(w->basin, start_m);
	for (int i = 0; i < DAYS + 2; i++) {
		open[i] = f * w->open[i];
		grass[i] = f * w->grass[i];
	}
	forcing.open_water_mm = open;
	forcing.grass_mm = grass;
	pond.seepage.volume_m3s += s_mm_d / 1e3 * area / 86400;
	run.start_level_m = start_m;
	run.no_topup = 1;
	cr_assert(tarn_ledger_run(&ledger, NULL, &pond, &forcing, &run, NULL)
		  == TARN_OK);
	days = tarn_ledger_days(ledger, &count);
	for (int i = 0; i <= DAYS; i++)
		w->readings[i] = (struct tarn_reading){
			w->forcing.first_day + i, 0,
			(i ? days[i - 1].level_m : start_m) -
			w->pond.overflow_level_m, TARN_NAN, 0, i + 2, 12
		};
	tarn_ledger_free(ledger);
}

static struct tarn_leak *fit_world(const struct world *w, size_t count)
{
	struct tarn_error err = { 0 };
	struct tarn_leak *leak;

	cr_assert(tarn_leak_fit(&leak, NULL, &w->pond, &w->forcing,
				w->readings, count, &w->options, &err) ==
		  TARN_OK, "%ld: %s %s", err.line, err.field, err.text);
	return leak;
}

/* Without noise the ledger's own log gives the ledger's own numbers. */
Test(leak, finds_what_was_put_in)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;
	struct tarn_pond better;

	make_world(&w);
	w.options.reading_sd_m = 1e-5;
	w.options.other_noise_mm = 0.01;
	w.options.evaporation_noise = w.options.rain_noise = 0.01;
	keep_log(&w, 1.2, 5, 0.95);
	leak = fit_world(&w, DAYS + 1);
	r = tarn_leak_result(leak);
	cr_expect(fabs(r->evaporation_factor.mean - 1.2) < 2e-3, "%g",
		  r->evaporation_factor.mean);
	cr_expect(fabs(r->rain_factor.mean - 1) < 1e-2, "%g",
		  r->rain_factor.mean);
	cr_expect(fabs(r->unexplained_m3_d.mean -
		       5e-3 * tarn_basin_area(w.basin, 0.95)) < 2e-4, "%g",
		  r->unexplained_m3_d.mean);
	cr_expect(r->verdict == TARN_OUTSIDE);
	cr_expect(r->used == DAYS && r->set_aside == 0 && r->wild == 0);
	cr_expect(!r->change.found);
	cr_expect(fabs(r->logged_mm -
		       (0.95 - w.readings[DAYS].level_m - 1) * 1e3) < 1e-9);

	/* put back, the ledger follows the log */
	cr_assert(tarn_leak_calibrated(r, &w.pond, &better, NULL) == TARN_OK);
	w.pond = better;
	tarn_leak_free(leak);
	leak = fit_world(&w, DAYS + 1);
	r = tarn_leak_result(leak);
	cr_expect(fabs(r->unexplained_mm_d.mean) < 0.03, "%g",
		  r->unexplained_mm_d.mean);
	cr_expect(fabs(r->evaporation_factor.mean - 1) < 3e-3);
	cr_expect(r->verdict == TARN_INSIDE);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* Two readings: what the prior and the ruler allow, by hand. */
Test(leak, two_readings)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;
	const struct tarn_interval *v;
	double evaporation, sd, reading = 25.4 / 16;
	size_t count;

	make_world(&w);
	for (int i = 0; i < DAYS + 2; i++)
		w.rain[i] = 0;
	keep_log(&w, 1, 0, 0.95);
	w.readings[1] = w.readings[7];
	w.readings[1].level_m -= 0.014;	/* 2 mm/d more over 7 days */
	leak = fit_world(&w, 2);
	r = tarn_leak_result(leak);
	v = tarn_leak_intervals(leak, &count);
	cr_assert(count == 1 && v[0].fate == TARN_USED);
	evaporation = v[0].expected_mm;
	sd = sqrt(pow(0.15 * evaporation, 2) + 2 * reading * reading +
		  pow(0.2 * evaporation, 2) / 7 + 0.09 * 7);
	cr_expect(fabs(v[0].expected_sd_mm - sd) < 2e-3 * sd, "%g %g",
		  v[0].expected_sd_mm, sd);
	cr_expect(fabs(r->unexplained_mm_d.mean - 2) < 0.02, "%g",
		  r->unexplained_mm_d.mean);
	/* tau is not known: its mean square is 1.65, and one number says
	 * little about it */
	cr_expect(r->unexplained_mm_d.sd > sd / 7 &&
		  r->unexplained_mm_d.sd < 1.3 * sd / 7);
	cr_expect(fabs(r->expected_mm.high - evaporation - 1.645 * sd) < 0.05);
	cr_expect(isnan(r->change.chance));
	cr_expect(isnan(r->per_head_m3_d_m.mean));
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* A pond said to seep does not seep twice; a loss that is not there is a
 * gain. */
Test(leak, gains)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;

	make_world(&w);
	keep_log(&w, 1, 0, 0.95);
	w.pond.seepage.rate_mm_d = 8;
	leak = fit_world(&w, DAYS + 1);
	r = tarn_leak_result(leak);
	cr_expect(r->gains && r->verdict == TARN_CANNOT_TELL);
	cr_expect(fabs(r->unexplained_mm_d.mean + 8) < 0.5, "%g",
		  r->unexplained_mm_d.mean);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* A mean below zero is no gain yet: the whole interval must lie there. */
Test(leak, a_mean_below_zero_is_no_gain)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;

	make_world(&w);
	keep_log(&w, 1, 0, 0.95);
	w.pond.seepage.rate_mm_d = 0.3;
	leak = fit_world(&w, 8);
	r = tarn_leak_result(leak);
	cr_assert(r->unexplained_mm_d.mean < -0.1 &&
		  r->unexplained_mm_d.high > 0.1, "%g to %g",
		  r->unexplained_mm_d.mean, r->unexplained_mm_d.high);
	cr_expect(!r->gains);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* Where one interval ends as the next begins, the reading's error is in both
 * falls and cancels in their sum; at a gap the errors on both sides stay.  By
 * hand for intervals of a day, upright walls, and 4 mm/d of evaporation. */
Test(leak, errors_of_joined_readings_cancel)
{
	struct world w;
	struct tarn_leak *leak;
	double reading = 25.4 / 16, e = 4, own, sd;
	static const double level[] = { 0, 1.05 }, area[] = { 10, 10 };

	make_world(&w);
	tarn_basin_free(w.basin);
	cr_assert(tarn_basin_table(&w.basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	w.pond.basin = w.basin;
	w.pond.bed.area_m2 = 0;
	for (int i = 0; i < DAYS + 2; i++) {
		w.open[i] = e;
		w.grass[i] = w.rain[i] = 0;
	}
	keep_log(&w, 1, 0, 0.95);
	own = pow(0.2 * e, 2) + 0.09;
	leak = fit_world(&w, 11);
	sd = sqrt(pow(0.15 * 10 * e, 2) + 2 * reading * reading + 10 * own);
	cr_expect(fabs(tarn_leak_result(leak)->expected_mm.sd - sd) < 1e-3,
		  "joined: %g, not %g", tarn_leak_result(leak)->expected_mm.sd,
		  sd);
	tarn_leak_free(leak);
	w.readings[5].marks = TARN_LOG_SKIP;
	leak = fit_world(&w, 11);
	sd = sqrt(pow(0.15 * 9 * e, 2) + 4 * reading * reading + 9 * own);
	cr_expect(fabs(tarn_leak_result(leak)->expected_mm.sd - sd) < 1e-3,
		  "over a gap: %g, not %g",
		  tarn_leak_result(leak)->expected_mm.sd, sd);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* Errors of single rains average out: 12 mm on one day leave 0.3 x 12 of
 * noise, on two days 1 / sqrt(2) of that, on four a half. */
Test(leak, noise_of_many_rains_averages)
{
	static const double level[] = { 0, 1.05 }, area[] = { 10, 10 };
	double var[3];

	for (int k = 0; k < 3; k++) {
		struct world w;
		struct tarn_leak *leak;
		size_t count;

		make_world(&w);
		tarn_basin_free(w.basin);
		cr_assert(tarn_basin_table(&w.basin, NULL, level, area, 2,
					   NULL) == TARN_OK);
		w.pond.basin = w.basin;
		w.pond.bed.area_m2 = 0;
		for (int i = 0; i < DAYS + 2; i++) {
			w.open[i] = w.grass[i] = 0;
			w.rain[i] = i < 1 << k ? 12.0 / (1 << k) : 0;
		}
		w.options.rain_noise = 0.3;
		keep_log(&w, 1, 0, 0.9);
		w.readings[1] = w.readings[6];
		leak = fit_world(&w, 2);
		var[k] = pow(tarn_leak_intervals(leak, &count)->expected_sd_mm,
			     2);
		tarn_leak_free(leak);
		tarn_basin_free(w.basin);
	}
	cr_expect(fabs(var[0] - var[1] - 3.6 * 3.6 / 2) < 1e-2, "%g",
		  var[0] - var[1]);
	cr_expect(fabs(var[1] - var[2] - 3.6 * 3.6 / 4) < 1e-2, "%g",
		  var[1] - var[2]);
}

Test(leak, a_misread_ruler_does_not_matter)
{
	struct world w;
	struct tarn_leak *leak;
	double before;

	make_world(&w);
	keep_log(&w, 1, 2, 0.95);
	leak = fit_world(&w, DAYS + 1);
	before = tarn_leak_result(leak)->unexplained_mm_d.mean;
	tarn_leak_free(leak);
	w.readings[3].level_m -= 0.0127;
	leak = fit_world(&w, DAYS + 1);
	cr_expect(tarn_leak_result(leak)->wild == 1, "%zu",
		  tarn_leak_result(leak)->wild);
	cr_expect(fabs(tarn_leak_result(leak)->unexplained_mm_d.mean - before)
		  < 0.05);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

Test(leak, what_cannot_be_used_is_set_aside)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;
	const struct tarn_interval *v;
	size_t count;

	make_world(&w);
	keep_log(&w, 1, 2, 0.95);
	w.readings[5].marks = TARN_LOG_REFILL;
	w.readings[10].marks = w.readings[11].marks = TARN_LOG_PUMP_OFF;
	w.readings[20].marks = TARN_LOG_SKIP;
	w.forcing.days = 31;	/* to reading 31 */
	leak = fit_world(&w, DAYS + 1);
	r = tarn_leak_result(leak);
	v = tarn_leak_intervals(leak, &count);
	cr_expect(v[4].fate == TARN_REFILLED);
	cr_expect(v[9].fate == TARN_PUMP_SWITCHED);
	cr_expect(v[10].fate == TARN_USED);
	cr_expect(v[11].fate == TARN_PUMP_SWITCHED);
	cr_expect(v[19].fate == TARN_SKIPPED);
	cr_expect(v[30].fate == TARN_USED);
	cr_expect(v[31].fate == TARN_NO_WEATHER);
	cr_expect(r->outside_weather == 9 && r->set_aside == 4, "%zu %zu",
		  r->outside_weather, r->set_aside);
	cr_expect(r->used + r->set_aside + r->outside_weather == count);
	tarn_leak_free(leak);

	/* 3 mm of rain fall on the fourth day, on a pond 2 mm under its lip */
	w.readings[4].level_m = -0.002;
	w.readings[5].level_m = -0.007;
	w.readings[4].marks = TARN_LOG_REFILL;
	w.readings[5].marks = 0;
	leak = fit_world(&w, 6);
	v = tarn_leak_intervals(leak, &count);
	cr_expect(v[3].fate == TARN_REFILLED);
	cr_expect(v[4].fate == TARN_SPILLED, "%d", v[4].fate);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

Test(leak, an_unnoted_refill_is_asked_about)
{
	struct world w;
	struct tarn_leak *leak;
	struct tarn_error err = { 0 };
	size_t count;

	make_world(&w);
	keep_log(&w, 1, 2, 0.90);
	for (int i = 12; i <= DAYS; i++)
		w.readings[i].level_m += 0.06;
	cr_expect(tarn_leak_fit(&leak, NULL, &w.pond, &w.forcing, w.readings,
				DAYS + 1, &w.options, &err) == TARN_EARG);
	cr_expect(err.line == 14 && err.column == 12);
	cr_expect(strstr(err.text, "was water added") != NULL, "%s", err.text);
	w.options.unnoted = TARN_UNNOTED_SET_ASIDE;
	leak = fit_world(&w, DAYS + 1);
	cr_expect(tarn_leak_intervals(leak, &count)[11].fate ==
		  TARN_UNEXPLAINED_RISE);
	/* with it what led to the reading before, and no more */
	cr_expect(tarn_leak_intervals(leak, &count)[10].fate ==
		  TARN_UNEXPLAINED_RISE);
	cr_expect(tarn_leak_result(leak)->set_aside == 2 &&
		  tarn_leak_result(leak)->used == count - 2);
	cr_expect(fabs(tarn_leak_result(leak)->unexplained_mm_d.mean - 2) <
		  0.5);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* A valve that lets the level fall to 0.93 m and no further.  What is asked for
 * and made good is of that order by hand: the level would have gone on by the
 * intervals' own expectations. */
Test(leak, a_level_that_is_held_regression)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_held *h;

	make_world(&w);
	keep_log(&w, 1, 0, 0.95);
	for (int i = 0; i <= DAYS; i++)
		w.readings[i].level_m = fmax(w.readings[i].level_m, -0.07);
	leak = fit_world(&w, DAYS + 1);
	h = &tarn_leak_result(leak)->held;
	cr_expect(h->found && !h->described && !h->possible);
	cr_expect(fabs(h->level_m - 0.93) < 1e-9);
	cr_expect(fabs(h->days - DAYS) < 1e-9);
	cr_expect(fabs(h->share - h->filled_mm / h->asked_mm) < 1e-12);
	cr_expect(fabs(h->against + h->odds) < 1e-12);
	cr_expect(fabs(h->asked_mm - 175.808951) < 1e-5, "%.9g", h->asked_mm);
	cr_expect(fabs(h->filled_mm - 155.630734) < 1e-5, "%.9g", h->filled_mm);
	cr_expect(fabs(h->odds - 32.9576521) < 1e-5, "%.9g", h->odds);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* ---- meter ---------------------------------------------------------- */

/* A float valve holds the level; the meter counts what the pond lost. */
Test(leak, meter_by_weeks)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;
	double lost_m3_d = 0.12, total = 0;	/* of 4 x 14 mm or so */
	size_t count, next, weeks = 0, over = 0;

	make_world(&w);
	for (int i = 0; i < DAYS + 2; i++) {
		w.open[i] = 4;
		w.grass[i] = 3.3;
		w.rain[i] = 0;
	}
	w.pond.trigger_m = 0.95;
	w.pond.target_m = 0.96;
	for (size_t i = 0; i < 6; i++) {
		w.readings[i] = (struct tarn_reading){
			w.forcing.first_day + 7 * (long)i, 8, TARN_NAN, total,
			0, (long)i + 2, 12
		};
		total += 7 * (i < 3 ? 0.062 : lost_m3_d);
	}
	leak = fit_world(&w, 6);
	r = tarn_leak_result(leak);
	tarn_leak_intervals(leak, &count);
	cr_expect(r->used == 5);
	for (size_t at = 0; at < count; at = next) {
		struct tarn_meter_week week = tarn_leak_week(leak, at, &next);

		cr_expect(next == at + 1 && week.days == 7);
		cr_expect(fabs(week.implied_m3 - r->meter_mean * week.metered_m3) <
			  1e-9);
		cr_expect(fabs(week.expected_m3 / 7 - 0.062) < 0.01, "%g",
			  week.expected_m3 / 7);
		cr_expect(week.over == (at >= 3), "week %zu: %g, high %g", at,
			  week.implied_m3, week.expected_high_m3);
		over += week.over ? 1 : 0;
		weeks++;
	}
	cr_expect(weeks == 5 && over == 2);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* ---- change, head --------------------------------------------------- */

Test(leak, when_it_began)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;

	make_world(&w);
	keep_log(&w, 1, 0, 0.95);
	for (int i = 25; i <= DAYS; i++)
		w.readings[i].level_m -= 0.005 * (i - 24);
	leak = fit_world(&w, DAYS + 1);
	r = tarn_leak_result(leak);
	cr_expect(r->change.found, "%g", r->change.chance);
	cr_expect(r->change.first_day <= w.forcing.first_day + 24 &&
		  r->change.last_day >= w.forcing.first_day + 24);
	cr_expect(labs(r->change.day - w.forcing.first_day - 24) <= 3);
	cr_expect(fabs(r->change.after_mm_d.mean - 5) < 1, "%g",
		  r->change.after_mm_d.mean);
	cr_expect(fabs(r->change.before_mm_d.mean) < 1);
	cr_expect(r->verdict == TARN_OUTSIDE);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* Twelve times what the readings are good to leaves one row for the step: it
 * begins with reading 24, and the intervals on both sides of that bound it. */
Test(leak, when_a_large_one_began)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_change *c;

	make_world(&w);
	keep_log(&w, 1, 0, 0.95);
	for (int i = 25; i <= DAYS; i++)
		w.readings[i].level_m -= 0.03 * (i - 24);
	leak = fit_world(&w, DAYS + 1);
	c = &tarn_leak_result(leak)->change;
	cr_expect(c->found && c->chance > 0.999);
	cr_expect(c->first_day == w.forcing.first_day + 23, "%ld",
		  c->first_day - w.forcing.first_day);
	cr_expect(c->day == w.forcing.first_day + 24, "%ld",
		  c->day - w.forcing.first_day);
	cr_expect(c->last_day == w.forcing.first_day + 25, "%ld",
		  c->last_day - w.forcing.first_day);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

Test(leak, loss_that_grows_with_the_level)
{
	struct world w;
	struct tarn_leak *leak;
	const struct tarn_leak_result *r;

	make_world(&w);
	w.pond.seepage.per_head_m3s_m = 0.4 / 86400;
	keep_log(&w, 1, 0, 0.95);
	w.pond.seepage.per_head_m3s_m = 0;
	w.options.reading_sd_m = 0.0002;
	w.options.evaporation_noise = 0.02;
	w.options.other_noise_mm = 0.05;
	leak = fit_world(&w, DAYS + 1);
	r = tarn_leak_result(leak);
	cr_expect(r->head_tells);
	cr_expect(fabs(r->per_head_m3_d_m.mean - 0.4) < 0.05, "%g",
		  r->per_head_m3_d_m.mean);
	tarn_leak_free(leak);
	tarn_basin_free(w.basin);
}

/* ---- prediction ----------------------------------------------------- */

Test(leak, first_half_predicts_second)
{
	struct world w;
	struct tarn_holdout h;
	struct tarn_level_point points[DAYS + 1];

	make_world(&w);
	keep_log(&w, 1.15, 4, 0.98);
	cr_assert(tarn_leak_holdout(NULL, &w.pond, &w.forcing, w.readings,
				    DAYS + 1, &w.options, &h, NULL) == TARN_OK);
	cr_expect(h.fitted == 21 && h.predicted == 20, "%zu %zu", h.fitted,
		  h.predicted);
	cr_expect(h.rms_mm < 3 && h.plain_rms_mm > 40, "%g %g", h.rms_mm,
		  h.plain_rms_mm);
	cr_expect(tarn_leak_holdout(NULL, &w.pond, &w.forcing, w.readings, 5,
				    &w.options, &h, NULL) == TARN_EARG);

	/* the path of weather alone; a refill begins a new stretch */
	w.readings[30].marks = TARN_LOG_REFILL;
	cr_assert(tarn_leak_path(NULL, &w.pond, &w.forcing, w.readings,
				 DAYS + 1, &w.options, points, NULL) ==
		  TARN_OK);
	for (int i = 0; i <= DAYS; i++) {
		cr_expect(points[i].begins == (i == 0 || i == 30));
		cr_expect(points[i].low_m < points[i].expected_m &&
			  points[i].expected_m < points[i].high_m + 1e-12);
		cr_expect(points[i].begins ? points[i].expected_m ==
						     points[i].logged_m
			  : points[i].logged_m < points[i].expected_m);
	}
	tarn_basin_free(w.basin);
}

/* ---- what is refused, what fails ------------------------------------ */

Test(leak, refuses)
{
	struct world w;
	struct tarn_error err = { 0 };
	struct tarn_leak *leak;

	make_world(&w);
	keep_log(&w, 1, 0, 0.95);
	w.options.evaporation_sd = 0;
	cr_expect(tarn_leak_fit(&leak, NULL, &w.pond, &w.forcing, w.readings,
				9, &w.options, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "leak.evaporation_error");
	w.options.evaporation_sd = 0.15;
	err.code = TARN_OK;
	w.readings[4].day = w.readings[3].day;
	cr_expect(tarn_leak_fit(&leak, NULL, &w.pond, &w.forcing, w.readings,
				9, &w.options, &err) == TARN_EARG);
	cr_expect(err.line == 6 && leak == NULL);
	cr_expect(tarn_leak_fit(&leak, NULL, &w.pond, &w.forcing, w.readings,
				0, &w.options, NULL) == TARN_EARG);
	w.readings[1].level_m = TARN_NAN;	/* a meter alone, no float */
	err.code = TARN_OK;
	cr_expect(tarn_leak_fit(&leak, NULL, &w.pond, &w.forcing, w.readings,
				3, &w.options, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "trigger");
	tarn_basin_free(w.basin);
}

static void *resize_until(void *context, void *block, size_t bytes)
{
	int *left = context;

	if (bytes > 0 && (*left)-- <= 0)
		return NULL;
	return tarn_resize(NULL, block, bytes);
}

Test(leak, survives_failed_allocations)
{
	struct world w;
	enum tarn_status status = TARN_ENOMEM;
	int failures = 0;

	make_world(&w);
	keep_log(&w, 1, 1, 0.95);
	while (status != TARN_OK) {
		int left = failures++;
		struct tarn_alloc alloc = { resize_until, &left };
		struct tarn_leak *leak;

		status = tarn_leak_fit(&leak, &alloc, &w.pond, &w.forcing,
				       w.readings, 4, &w.options, NULL);
		cr_assert(status == TARN_OK || status == TARN_ENOMEM);
		tarn_leak_free(leak);
		cr_assert(failures < 1000);
	}
	cr_expect(failures > 20);
	status = TARN_ENOMEM;
	for (failures = 0; status != TARN_OK; failures++) {
		int left = failures;
		struct tarn_alloc alloc = { resize_until, &left };
		struct tarn_holdout h;

		status = tarn_leak_holdout(&alloc, &w.pond, &w.forcing,
					   w.readings, 6, &w.options, &h,
					   NULL);
		cr_assert(status == TARN_OK || status == TARN_ENOMEM);
		cr_assert(failures < 1000);
	}
	tarn_basin_free(w.basin);
}
