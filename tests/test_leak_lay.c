/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

#include "../lib/tarn/leak/fit.h"

/* Readings laid on a pond: their levels, what each is worth, and what becomes of
 * the time between two. */

enum { N = 5 };

static struct tarn_pond pond;
static struct tarn_basin *basin;
static struct tarn_leak_options options;
static struct tarn_reading r[N];
static double moment[N], level[N], var[N];
static struct laid laid = { moment, level, var };
static struct tarn_error err;

static void set_up(void)
{
	const double levels[] = { 0, 1.2 }, area[] = { 10, 10 };

	cr_assert(tarn_basin_table(&basin, NULL, levels, area, 2, NULL) ==
		  TARN_OK);
	pond = tarn_pond_default();
	pond.basin = basin;
	pond.overflow_level_m = 1;
	options = tarn_leak_options_default();
	options.reading_sd_m = 0.002;
	options.step_m = 0.003;
	options.hour = 8;
	options.counts_down = 1;
	options.zero_m = TARN_NAN;
	for (int i = 0; i < N; i++)
		r[i] = (struct tarn_reading){ tarn_day(2024, 6, 1) + 3 * i,
			TARN_NAN, -0.01 * i, TARN_NAN, 0, 2 + i, 1 };
	err = (struct tarn_error){ 0 };
}

static void tear_down(void)
{
	tarn_basin_free(basin);
}

TestSuite(leak_lay, .init = set_up, .fini = tear_down);

static void near(double got, double want, const char *what)
{
	cr_expect(fabs(got - want) < 1e-9 * fmax(1, fabs(want)), "%s: %.12g, "
		  "want %.12g", what, got, want);
}

static enum tarn_status lay(void)
{
	err = (struct tarn_error){ 0 };
	return tn_lay_readings(&pond, r, N, &options, &laid, &err);
}

/* A step of 3 mm is even over its width: 9/12 mm2 beside 4 of the eye. */
Test(leak_lay, levels_and_variances)
{
	r[1].hour = 20;
	cr_assert(lay() == TARN_OK, "%s %s", err.field, err.text);
	for (int i = 0; i < N; i++) {
		near(var[i], 4.75, "variance");
		near(level[i], 1 - 0.01 * i, "under the lip");
		near(moment[i], (double)tarn_day(2024, 6, 1) + 3 * i +
		     (i == 1 ? 20 : 8) / 24.0, "moment");
	}
	options.counts_down = 0;
	for (int i = 0; i < N; i++)
		r[i].level_m = 0.8 - 0.01 * i;
	cr_assert(lay() == TARN_OK);
	near(level[2], 0.78, "over the floor");
	options.zero_m = 0.1;
	cr_assert(lay() == TARN_OK);
	near(level[2], 0.88, "over its own zero");
}

/* Without a ruler the level is somewhere in the float valve's band: 20 mm, even
 * over its width, and 3 mm of the float. */
Test(leak_lay, a_meter_alone)
{
	r[2].level_m = TARN_NAN;
	r[2].meter_m3 = 4;
	cr_expect(lay() == TARN_EARG);
	cr_expect_str_eq(err.field, "trigger");
	cr_expect(err.line == 4);
	pond.trigger_m = 0.95;
	pond.target_m = 0.97;
	cr_assert(lay() == TARN_OK);
	near(level[2], 0.96, "middle of the band");
	near(var[2], 400 / 12.0 + 9, "variance");
	near(var[1], 4.75, "of the others");
	pond.target_m = TARN_NAN;
	cr_assert(lay() == TARN_OK);
	near(level[2], 0.95, "no band");
	near(var[2], 9, "its variance");
}

/* 20 mm and four deviations over the lip may be; the floor bounds below. */
Test(leak_lay, levels_that_cannot_be)
{
	options.reading_sd_m = 1e-3;
	r[0].level_m = 0.05;
	cr_expect(lay() == TARN_EARG);
	cr_expect_str_eq(err.field, "level");
	cr_expect(strstr(err.text, "stands 50 mm (2.0 in) above the lip") != NULL,
		  "%s", err.text);
	cr_expect(strstr(err.text, "zero at 1 m (39.37 in) above the floor") !=
		  NULL, "%s", err.text);
	r[0].level_m = 0.0241;
	cr_expect(lay() == TARN_EARG);
	r[0].level_m = 0.0239;
	cr_expect(lay() == TARN_OK);
	r[4].level_m = -1.0001;
	cr_expect(lay() == TARN_EARG);
	cr_expect(strstr(err.text, "lies 0 mm (0.0 in) under the floor") != NULL,
		  "%s", err.text);
	cr_expect(err.line == 6);
	r[4].level_m = -1;
	cr_expect(lay() == TARN_OK);
	r[3].day = r[2].day;
	cr_expect(lay() == TARN_EARG);
	cr_expect_str_eq(err.field, "date");
	r[3].hour = 8.01;	/* the same day, later */
	cr_expect(lay() == TARN_OK);
	r[3].hour = 7.99;
	cr_expect(lay() == TARN_EARG);
}

static int fate(size_t i, double *metered_m3)
{
	int stopped;

	cr_assert(lay() == TARN_OK, "%s %s", err.field, err.text);
	return tn_interval_fate(&pond, r, moment, N, i, metered_m3, &stopped);
}

/* Water metered over several intervals tells none of them apart, but nothing at
 * all is nothing in each. */
Test(leak_lay, water_by_the_meter)
{
	double m3;

	cr_expect(fate(0, &m3) == TARN_USED && isnan(m3));
	r[0].meter_m3 = 7;
	r[1].meter_m3 = 7.5;
	cr_expect(fate(0, &m3) == TARN_USED_METERED);
	near(m3, 0.5, "between neighbours");
	r[4].meter_m3 = 7.5;
	for (size_t i = 1; i < 4; i++) {
		cr_expect(fate(i, &m3) == TARN_USED);
		near(m3, 0, "nothing ran");
	}
	r[4].meter_m3 = 7.6;
	for (size_t i = 1; i < 4; i++)
		cr_expect(fate(i, &m3) == TARN_REFILLED && isnan(m3), "%zu", i);
	r[0].meter_m3 = r[1].meter_m3 = TARN_NAN;
	r[4].meter_m3 = TARN_NAN;
	r[0].meter_m3 = r[4].meter_m3 = 1;
	for (size_t i = 0; i < 4; i++) {
		cr_expect(fate(i, &m3) == TARN_USED, "%zu", i);
		near(m3, 0, "from the first to the last");
	}
	/* a refill by a hose that no meter saw */
	r[2].marks = TARN_LOG_REFILL;
	cr_expect(fate(1, &m3) == TARN_REFILLED && isnan(m3));
	r[1].meter_m3 = 1;
	r[2].meter_m3 = 1.2;
	r[4].meter_m3 = TARN_NAN;
	cr_expect(fate(1, &m3) == TARN_USED_METERED);
	near(m3, 0.2, "a refill that it saw");
	r[2].marks |= TARN_LOG_SKIP;
	cr_expect(fate(1, &m3) == TARN_SKIPPED);
}

/* A pump that is off at one end alone has brought its water back. */
Test(leak_lay, pumps_that_are_switched)
{
	double m3;
	int stopped;

	r[2].marks = TARN_LOG_PUMP_OFF;
	cr_expect(fate(0, &m3) == TARN_USED);
	cr_expect(fate(1, &m3) == TARN_PUMP_SWITCHED);
	cr_expect(fate(2, &m3) == TARN_PUMP_SWITCHED);
	r[3].marks = TARN_LOG_PUMP_OFF;
	cr_expect(fate(2, &m3) == TARN_USED);
	tn_interval_fate(&pond, r, moment, N, 2, &m3, &stopped);
	cr_expect(stopped);
	tn_interval_fate(&pond, r, moment, N, 3, &m3, &stopped);
	cr_expect(!stopped);
}

/* One effect for each 30 days from the first reading, by the middle of the
 * interval; the last one has the rest. */
Test(leak_lay, slow_effects)
{
	double at[6] = { 100, 110, 150, 170, 200, 230 };
	static const size_t want[5] = { 0, 1, 2, 2, 2 };
	static struct tarn_leak k;

	k.laid.moment = at;
	k.result.slow_days = 30;
	k.result.slow_effects = 3;
	for (size_t i = 0; i < 5; i++)
		cr_expect(tn_slow_of(&k, i) == want[i], "%zu: %zu", i,
			  tn_slow_of(&k, i));
	k.result.slow_effects = 9;
	cr_expect(tn_slow_of(&k, 3) == 2 && tn_slow_of(&k, 4) == 3);
	k.result.slow_effects = 1;
	cr_expect(tn_slow_of(&k, 4) == 0);
	k.result.slow_effects = 0;
	cr_expect(tn_slow_of(&k, 4) == 0);
	/* 3 % of the meter beside 2 % of an area, of a meter 8 % low */
	k.result.meter_sd = 0.03;
	k.result.meter_mean = 1.08;
	k.options.area_sd = 0.02;
	near(tn_metered_sd(&k), hypot(0.03, 0.0216), "metered");
}
