/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

#include "tarn/leak_advice.h"

#define TINY 1e-6

static struct tarn_estimate between(double low, double high)
{
	return (struct tarn_estimate){ (low + high) / 2, low, high,
				       (high - low) / 3.29 };
}

/* A fit of ten readings that finds nothing. */
static struct tarn_leak_result sound(void)
{
	struct tarn_leak_result r = { .verdict = TARN_INSIDE, .readings = 10,
				      .used = 9 };

	r.prior = (struct tarn_leak_prior){ 1, 0.25 };
	r.resolvable_mm_d = 3;
	r.evaporation_factor = between(0.9, 1.1);
	r.sound_factor = between(0.92, 1.12);
	r.unexplained_mm_d = between(-1, 1);
	r.unexplained_m3_d = between(-0.01, 0.01);
	return r;
}

static struct tarn_log_advice advise(const struct tarn_leak_result *r)
{
	static const struct tarn_interval v[] = {
		{ .days = 4, .fate = TARN_USED, .rain_mm = 2,
		  .open_water_mm = 18 },
		{ .days = 6, .fate = TARN_REFILLED, .rain_mm = 50,
		  .open_water_mm = 22 },
		{ .days = 3, .fate = TARN_USED_METERED, .rain_mm = 1,
		  .open_water_mm = 13 },
		{ .days = 9, .fate = TARN_NO_WEATHER, .rain_mm = TARN_NAN,
		  .open_water_mm = TARN_NAN },
	};
	struct tarn_leak_options o = tarn_leak_options_default();

	return tarn_log_advise(r, v, 4, &o);
}

/* ---- a log ----------------------------------------------------------------- */

Test(advice, words_of_a_log)
{
	struct tarn_leak_result r = sound();

	cr_expect(advise(&r).word == TARN_LOG_SOUND);
	cr_expect(advise(&r).next == TARN_LOG_KEEP);
	/* what would tell below what the log does */
	cr_expect(advise(&r).test_h >= TARN_TEST_LEAST_H &&
		  advise(&r).test_h <= TARN_TEST_MOST_H);
	cr_expect(advise(&r).test_finds_mm_d < r.resolvable_mm_d);
	r.held.possible = 1;
	cr_expect(advise(&r).word == TARN_LOG_MAYBE_HELD);
	cr_expect(advise(&r).next == TARN_LOG_SHUT);
	cr_expect(advise(&r).calibration == TARN_CALIBRATE_NOTHING);
	r.held.possible = 0;
	r.gains = 1;		/* before any verdict */
	cr_expect(advise(&r).word == TARN_LOG_GAINS);
	cr_expect(advise(&r).next == TARN_LOG_TEST);
	r.gains = 0;
	r.verdict = TARN_CANNOT_TELL;
	cr_expect(advise(&r).word == TARN_LOG_UNCLEAR);
	r.verdict = TARN_OUTSIDE;
	cr_expect(advise(&r).word == TARN_LOG_LOSES);
	r.change.found = 1;
	cr_expect(advise(&r).word == TARN_LOG_LOSES_SINCE);
	cr_expect(advise(&r).next == TARN_LOG_TEST);
	r.verdict = TARN_INSIDE;
	cr_expect(advise(&r).word == TARN_LOG_SOUND);
}

/* A bucket test takes whole days, as many as it needs to tell half of what the
 * log does; what it finds is 2.93 deviations of four readings and of the
 * bucket's water, of 53 mm in 13 days. */
Test(advice, days_of_a_test)
{
	const struct tarn_pair usual = tarn_pair_default();
	const double spread = usual.bucket_sd * 53 / 13;
	int lengths[5] = { 0 };

	for (double resolvable = 1.6; resolvable < 30; resolvable += 0.05) {
		struct tarn_leak_result r = sound();
		struct tarn_log_advice a;
		double hours = tarn_pair_hours(4, usual.reading_sd_m,
					       resolvable / 2, spread), reading;

		r.resolvable_mm_d = resolvable;
		a = advise(&r);
		for (int days = 1; days <= 4; days++)
			if (days * 24 >= hours || days == 4) {
				cr_expect(fabs(a.test_h - 24 * days) < TINY,
					  "%g mm/d: %g h, wanted %g",
					  resolvable, a.test_h, hours);
				lengths[days]++;
				break;
			}
		reading = usual.reading_sd_m * 1e3 * 24 / a.test_h;
		reading = 2.93 * sqrt(4 * reading * reading + spread * spread);
		cr_expect(reading < resolvable
			  ? fabs(a.test_finds_mm_d - reading) < 1e-9
			  : isnan(a.test_finds_mm_d), "%g mm/d: %g",
			  resolvable, a.test_finds_mm_d);
	}
	cr_expect(lengths[1] && lengths[2] && lengths[3] && lengths[4], "%d %d %d %d",
		  lengths[1], lengths[2], lengths[3], lengths[4]);
}

/* Where something fills the pond nothing else is told. */
Test(advice, a_held_level_comes_first)
{
	struct tarn_leak_result r = sound();
	struct tarn_log_advice a;

	r.held.found = 1;
	r.gains = 1;
	r.readings = r.used = TARN_HOLDOUT_LEAST;
	r.evaporation_factor = between(0.3, 0.4);
	a = advise(&r);
	cr_expect(a.word == TARN_LOG_HELD && a.next == TARN_LOG_SHUT);
	cr_expect(a.calibration == TARN_CALIBRATE_NOTHING && isnan(a.factor));
	cr_expect(!a.factor_far && !a.has_holdout && isnan(a.test_h));
}

/* Two deviations of the prior, 0.25, on both sides; nothing is calibrated by
 * such a factor, that of the fit without a loss or that beside one. */
Test(advice, factor_far_on_both_sides)
{
	static const struct {
		double mean;
		int far;
	} rows[] = {
		{ 0.5 + TINY, 0 }, { 0.5 - TINY, 1 }, { 1.5 - TINY, 0 },
		{ 1.5 + TINY, 1 }, { 1, 0 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_leak_result r = sound();
		struct tarn_log_advice a;

		r.sound_factor = between(rows[i].mean, rows[i].mean);
		a = advise(&r);
		cr_expect(a.factor_far == rows[i].far, "row %zu", i);
		cr_expect(a.factor_far == tarn_leak_factor_far(&r));
		cr_expect((a.calibration == TARN_CALIBRATE_NOTHING) ==
			  rows[i].far);
		r.evaporation_factor = between(1, 1);
		r.unexplained_m3_d = between(0.01, 0.02);
		cr_expect(!advise(&r).factor_far, "row %zu", i);
	}
}

Test(advice, calibration)
{
	struct tarn_leak_result r = sound();
	struct tarn_log_advice a;

	r.unexplained_m3_d = between(0, 0.02);	/* not above zero */
	a = advise(&r);
	cr_expect(a.calibration == TARN_CALIBRATE_FACTOR);
	cr_expect(fabs(a.factor - r.sound_factor.mean) < TINY);
	r.unexplained_m3_d = between(TINY, 0.02);
	a = advise(&r);
	cr_expect(a.calibration == TARN_CALIBRATE_LOSS);
	cr_expect(fabs(a.factor - r.evaporation_factor.mean) < TINY);
	r.change.found = 1;
	cr_expect(advise(&r).calibration == TARN_CALIBRATE_CHANGED);
}

Test(advice, holdout_needs_readings_and_intervals)
{
	struct tarn_leak_result r = sound();

	r.readings = r.used = TARN_HOLDOUT_LEAST;
	cr_expect(advise(&r).has_holdout);
	r.readings = TARN_HOLDOUT_LEAST - 1;
	cr_expect(!advise(&r).has_holdout);
	r.readings = TARN_HOLDOUT_LEAST;
	r.used = TARN_HOLDOUT_LEAST - 1;
	cr_expect(!advise(&r).has_holdout);
}

/* By hand: used intervals alone. */
/* The days, on both sides of what matters; and by the word. */
Test(advice, how_many_more_days)
{
	struct tarn_leak_options o = tarn_leak_options_default();
	struct tarn_leak_result r = sound();

	r.days = 6;
	r.chance_of_loss = 0.5;
	r.resolvable_mm_d = o.matters_mm_d;
	cr_expect(advise(&r).more_least_d == 0 && advise(&r).more_most_d == 0);
	r.verdict = TARN_CANNOT_TELL;
	r.resolvable_mm_d = 2 * o.matters_mm_d;	/* 24 days by the root */
	cr_expect(advise(&r).more_least_d == 24 * 0.75 - 6);
	cr_expect(advise(&r).more_most_d == 24 * 4 - 6);
	cr_expect(advise(&r).normal_so_far == 1);
	r.chance_of_loss = 0.8;
	cr_expect(advise(&r).normal_so_far == 1);
	r.chance_of_loss = 0.81;
	cr_expect(advise(&r).normal_so_far == 0);
	r.resolvable_mm_d = 1.01 * o.matters_mm_d;
	cr_expect(advise(&r).more_least_d == 1);
	r.gains = 1;
	r.chance_of_loss = 0;
	cr_expect(isnan(advise(&r).more_least_d) &&
		  isnan(advise(&r).more_most_d));
	cr_expect(advise(&r).normal_so_far == 0);
}

Test(advice, sums_of_the_weather)
{
	struct tarn_leak_result r = sound();
	struct tarn_log_advice a = advise(&r);

	cr_expect(fabs(a.rain_mm - 3) < TINY);
	cr_expect(fabs(a.open_water_mm - 31) < TINY);
	a = tarn_log_advise(&r, NULL, 0, &(struct tarn_leak_options){ 0 });
	cr_expect(!(a.rain_mm > 0) && a.word == TARN_LOG_SOUND);
}

/* 53 mm of open water in 13 days are 4.08 mm/d, their tenth the spread; four
 * readings of 1/16 in find z95 + z90 = 2.926 deviations. */
Test(advice, length_of_a_test)
{
	struct tarn_leak_result r = sound();
	double spread = 0.1 * 53 / 13, hours;

	r.verdict = TARN_OUTSIDE;
	r.unexplained_mm_d = between(2, 6);	/* 4 is more than matters */
	hours = tarn_pair_hours(4, 0.0254 / 16, 4, spread);
	cr_expect(hours > 48 && hours < 72, "%g", hours);
	cr_expect(fabs(advise(&r).test_h - 72) < TINY);
	r.unexplained_mm_d = between(30, 32);	/* within hours: a day */
	cr_expect(fabs(advise(&r).test_h - TARN_TEST_LEAST_H) < TINY);
	/* what matters is the aim where less was found; its spread allows no
	 * shorter test than four days */
	r.unexplained_mm_d = between(0.1, 0.2);
	hours = tarn_pair_hours(4, 0.0254 / 16, 3.175, spread);
	cr_expect(fabs(advise(&r).test_h - ceil(hours / 24) * 24) < TINY);
	cr_expect(advise(&r).test_h <= TARN_TEST_MOST_H);
}

Test(advice, readings_under_the_intake)
{
	struct tarn_level_point p[] = {
		{ .logged_m = 0.80 }, { .logged_m = 0.799 },
		{ .logged_m = TARN_NAN }, { .logged_m = 0.5 },
	};
	struct tarn_log_doubts d = tarn_log_doubt(p, 4, 0.8);

	cr_expect(d.readings == 3 && d.low == 2 && d.first == 1);
	d = tarn_log_doubt(p, 4, 0.4);
	cr_expect(d.low == 0 && d.first == 4);
	d = tarn_log_doubt(p, 4, TARN_NAN);
	cr_expect(d.low == 0 && d.readings == 3);
	d = tarn_log_doubt(p, 0, 0.8);
	cr_expect(d.readings == 0 && d.low == 0 && d.first == 0);
}

/* ---- a bucket test --------------------------------------------------------- */

static struct tarn_pair_half half(enum tarn_verdict verdict, double needed)
{
	struct tarn_pair_half h = { .verdict = verdict,
				    .hours_needed = needed };

	h.unexplained_mm_d = between(-1, 1);
	return h;
}

static struct tarn_half_advice judged(struct tarn_pair_half h, double hours)
{
	struct tarn_pair p = tarn_pair_default();
	struct tarn_pair_result r = { .has_off = 1, .off = h };

	p.off.hours = hours;
	return tarn_pair_advise(&p, &r).off;
}

Test(advice, words_of_a_half)
{
	struct tarn_pair_half h = half(TARN_INSIDE, 20);

	cr_expect(judged(h, 24).word == TARN_HALF_SOUND);
	h.unexplained_mm_d = between(-2, 0);
	cr_expect(judged(h, 24).word == TARN_HALF_SOUND);
	h.unexplained_mm_d = between(-2, -TINY);
	cr_expect(judged(h, 24).word == TARN_HALF_GAINS);
	cr_expect(judged(half(TARN_OUTSIDE, 20), 24).word == TARN_HALF_LOSES);
	cr_expect(judged(half(TARN_CANNOT_TELL, 20), 24).word ==
		  TARN_HALF_UNCLEAR);
	cr_expect(judged(h, 0).word == TARN_HALF_NOT_DONE);
	cr_expect(judged(h, 0.5).word == TARN_HALF_GAINS);
	cr_expect(judged(h, TARN_NAN).word == TARN_HALF_NOT_DONE);
}

Test(advice, how_much_longer)
{
	struct tarn_half_advice a = judged(half(TARN_CANNOT_TELL, 49), 48);

	cr_expect(a.longer == TARN_LONGER_GO_ON);
	cr_expect(fabs(a.go_on_h - 60) < TINY);
	a = judged(half(TARN_CANNOT_TELL, 48), 48);
	cr_expect(a.longer == TARN_LONGER_NOT && isnan(a.go_on_h));
	a = judged(half(TARN_CANNOT_TELL, TARN_PAIR_NEVER_H - TINY), 48);
	cr_expect(a.longer == TARN_LONGER_GO_ON);
	a = judged(half(TARN_CANNOT_TELL, TARN_PAIR_NEVER_H), 48);
	cr_expect(a.longer == TARN_LONGER_NEVER);
	a = judged(half(TARN_INSIDE, HUGE_VAL), 48);
	cr_expect(a.longer == TARN_LONGER_NEVER);
	/* found: nothing to go on for */
	a = judged(half(TARN_OUTSIDE, HUGE_VAL), 48);
	cr_expect(a.longer == TARN_LONGER_NOT);
}

static int next_of(int has_off, int has_on, enum tarn_verdict off,
		   enum tarn_verdict on, enum tarn_verdict upper)
{
	struct tarn_pair p = tarn_pair_default();
	struct tarn_pair_result r = {
		.has_off = has_off, .has_on = has_on, .off = half(off, 20),
		.on = half(on, 20), .upper_verdict = upper
	};

	p.off.hours = p.on.hours = 24;
	return tarn_pair_advise(&p, &r).next;
}

Test(advice, next_step_of_a_test)
{
	enum tarn_verdict in = TARN_INSIDE, out = TARN_OUTSIDE;

	cr_expect(next_of(0, 1, in, out, in) == TARN_PAIR_TEST_OFF);
	cr_expect(next_of(1, 0, out, in, in) == TARN_PAIR_WATCH_EDGE);
	cr_expect(next_of(1, 1, out, out, out) == TARN_PAIR_WATCH_EDGE);
	cr_expect(next_of(1, 0, in, out, in) == TARN_PAIR_TEST_ON);
	cr_expect(next_of(1, 1, in, out, out) == TARN_PAIR_LOOK_ABOVE);
	cr_expect(next_of(1, 1, in, out, in) == TARN_PAIR_BASELINE);
	cr_expect(next_of(1, 1, TARN_CANNOT_TELL, in, TARN_CANNOT_TELL) ==
		  TARN_PAIR_BASELINE);
}

Test(advice, a_gain_comes_first)
{
	struct tarn_pair p = tarn_pair_default();
	struct tarn_pair_result r = {
		.has_off = 1, .has_on = 1, .off = half(TARN_OUTSIDE, 20),
		.on = half(TARN_INSIDE, 20)
	};

	p.off.hours = p.on.hours = 24;
	r.on.unexplained_mm_d = between(-3, -1);
	cr_expect(tarn_pair_advise(&p, &r).next == TARN_PAIR_AGAIN);
	r.has_on = 0;		/* what was not done says nothing */
	cr_expect(tarn_pair_advise(&p, &r).next == TARN_PAIR_WATCH_EDGE);
	cr_expect(tarn_pair_advise(&p, &r).on.word == TARN_HALF_NOT_DONE);
}

/* The rows name each word. */
Test(advice, rows)
{
	const struct tarn_field *f;

	f = tarn_fields_find(&tarn_log_advice_fields, "word");
	cr_assert(f && f->choices);
	cr_expect(strcmp(f->choices[TARN_LOG_UNCLEAR], "unclear") == 0);
	f = tarn_fields_find(&tarn_log_advice_fields, "calibration");
	cr_expect(strcmp(f->choices[TARN_CALIBRATE_CHANGED], "changed") == 0);
	f = tarn_fields_find(&tarn_pair_advice_fields, "next");
	cr_expect(strcmp(f->choices[TARN_PAIR_BASELINE], "baseline") == 0);
	f = tarn_fields_find(&tarn_half_advice_fields, "longer");
	cr_expect(strcmp(f->choices[TARN_LONGER_NEVER], "never") == 0);
	cr_expect(tarn_fields_find(&tarn_log_doubts_fields, "low") != NULL);
}
