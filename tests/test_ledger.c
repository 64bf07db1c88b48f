/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/pond.h"

/* An upright box of 10 m2, 1.2 m deep. */
static struct tarn_basin *box(void)
{
	static const double level[] = { 0, 1.2 }, area[] = { 10, 10 };
	struct tarn_basin *b;

	cr_assert(tarn_basin_table(&b, NULL, level, area, 2, NULL) == TARN_OK);
	return b;
}

/* A basin with leaning walls and a shelf. */
static struct tarn_basin *bowl(void)
{
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_basin *b;

	s.shape = TARN_ELLIPSE;
	s.length_m = 4.8;
	s.width_m = 3.4;
	s.depth_m = 1.2;
	s.side_slope = 0.3;
	s.shelves = 1;
	s.shelf[0] = (struct tarn_shelf){ 0.3, 0.3 };
	cr_assert(tarn_basin_shelved(&b, NULL, &s, NULL) == TARN_OK);
	return b;
}

static struct tarn_pond plain(const struct tarn_basin *b)
{
	struct tarn_pond p = tarn_pond_default();

	p.basin = b;
	p.overflow_level_m = 1;
	return p;
}

/* Everything at once. */
static struct tarn_pond busy(const struct tarn_basin *b)
{
	struct tarn_pond p = plain(b);

	p.trigger_m = 0.95;
	p.target_m = 0.98;
	p.intake_m = 0.7;
	p.edges_m2 = 1;
	p.splash_m3s = 0.010 / 86400;
	p.bed.area_m2 = 2;
	p.bed.volume_m3 = 0.4;
	p.stream.area_m2 = 1;
	p.stream.depth_m = 0.05;
	p.stream.factor = 1.5;
	p.apron.area_m2 = 5;
	p.apron.coefficient = 0.8;
	p.seepage.rate_mm_d = 1;
	p.supply.rate_m3s = 0.150 / 86400;
	for (int m = 0; m < 12; m++)
		p.bed.plant_factor[m] = 1.5;
	return p;
}

static struct tarn_ledger *run_with(const struct tarn_pond *p,
				    const struct tarn_forcing *f,
				    const struct tarn_run *run)
{
	struct tarn_ledger *l;
	struct tarn_error err = { 0 };

	cr_assert(tarn_ledger_run(&l, NULL, p, f, run, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	cr_assert(tarn_ledger_residual(l) <= 1e-9);
	return l;
}

static enum tarn_status pump_off_days_7_and_8(void *context,
					      const struct tarn_day_view *view,
					      struct tarn_day_order *order,
					      struct tarn_error *err)
{
	long n = view->day - *(long *)context;

	(void)err;
	if (n == 6 || n == 7)
		order->pump_hours = 0;
	return TARN_OK;
}

/*
 * Ten days worked by hand, in litres.  Pond 10 m2 upright: 10 L a mm.
 * Collecting 10 + 2 + 1 + 1 = 14 m2; losses 10 E + 1.5 x 2 G + 1.5 x 1 E +
 * 10 splash + 10 seepage = 11.5 E + 3 G + 20.  Lip 10000, trigger 9500,
 * target 9800, supply 150 a day; bed 400, in transit 50.
 *
 *  1  E 4 G 4             46 + 12 + 20 = 78                 9800 ->  9722
 *  2  rain 10: 140 + 40;  23 + 6 + 20 = 49    9902          ->       9853
 *  3  rain 30: 420 + 120; 10393, over 393; 11.5 + 3 + 20    ->       9965.5
 *  4  E 6 G 6, 200 taken: 69 + 18 + 20 + 200 = 307          ->       9658.5
 *  5  E 8 G 8: 136                                          ->       9522.5
 *  6  136 -> 9386.5, wants 413.5, gets 150                  ->       9536.5
 *  7  off: 50 comes back, 9586.5; E 5: 50 + 10 -> 9526.5; bed 3 x 5 = 15: 385
 *  8  off, rain 4: 56 + 16, of which bed 8: 393; 9590.5; E 2: 30 -> 9560.5;
 *     bed 6: 387
 *  9  on: 13 + 50 -> 9497.5; E 3 G 3: 34.5 + 9 + 20 = 63.5 -> 9434, wants
 *     366, closed
 * 10  E 1 G 1: 34.5 -> 9399.5, gets 150                     ->       9549.5
 */
Test(ledger, ten_days_by_hand)
{
	static const double rain[] = { 0, 10, 30, 0, 0, 0, 0, 4, 0, 0 };
	static const double e[] = { 4, 2, 1, 6, 8, 8, 5, 2, 3, 1 };
	static const double pond_l[] = { 9722, 9853, 9965.5, 9658.5, 9522.5,
					 9536.5, 9526.5, 9560.5, 9434, 9549.5 };
	static const double held_l[] = { 450, 450, 450, 450, 450, 450, 385,
					 387, 450, 450 };
	long first = tarn_day(2015, 7, 6);	/* a Monday */
	struct tarn_forcing f = { first, 10, rain, e, e, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = busy(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	const struct tarn_ledger_day *d;
	struct tarn_period sum;
	size_t n;

	p.withdrawals = 1;
	p.withdrawal[0].volume_m3 = 0.2;
	p.withdrawal[0].when.on_count = 1;
	p.withdrawal[0].when.on[0] =
		(struct tarn_span){ first + 3, first + 3, 0, 0 };
	p.supply.when.off_count = 1;
	p.supply.when.off[0] = (struct tarn_span){ TARN_NO_DAY, 0, 714, 714 };
	run.control = pump_off_days_7_and_8;
	run.control_context = &first;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &n);
	cr_assert(n == 10);
	for (size_t i = 0; i < n; i++) {
		cr_expect(fabs(d[i].pond_m3 - pond_l[i] / 1000) < 1e-12,
			  "day %zu: pond %.6f L, by hand %g", i + 1,
			  d[i].pond_m3 * 1000, pond_l[i]);
		cr_expect(fabs(d[i].level_m - pond_l[i] / 1e4) < 1e-12,
			  "day %zu: level", i + 1);
		cr_expect(fabs(d[i].held_m3 - held_l[i] / 1000) < 1e-12,
			  "day %zu: held %.6f L", i + 1, d[i].held_m3 * 1000);
	}
	cr_expect(fabs(d[2].flows.overflow_m3 - 0.393) < 1e-12);
	cr_expect(fabs(d[5].flows.topup_m3 - 0.15) < 1e-12);
	cr_expect(fabs(d[5].flows.unmet_m3 - 0.2635) < 1e-12);
	cr_expect(fabs(d[8].flows.unmet_m3 - 0.366) < 1e-12);
	cr_expect(d[8].flags == (TARN_DAY_RUNNING | TARN_DAY_REFUSED));
	cr_expect(d[6].flags == 0 && d[6].flows.splash_m3 == 0);
	cr_expect(d[2].flags == (TARN_DAY_RUNNING | TARN_DAY_SPILLED));
	sum = tarn_ledger_period(l, TARN_BY_RUN, 0, &n);
	cr_expect(fabs(sum.flows.rain_m3 - 0.014 * 44) < 1e-12);
	cr_expect(fabs(sum.flows.topup_m3 - 0.3) < 1e-12);
	cr_expect(fabs(sum.flows.bed_m3 - 0.003 * 40) < 1e-12);
	cr_expect(sum.days == 10 && sum.running == 8 && sum.refused == 1 &&
		  sum.topped_up == 2 && sum.spilled == 1);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

Test(ledger, rain_into_a_full_pond_leaves_over_the_lip)
{
	static const double rain[] = { 25 }, none[] = { 0 };
	struct tarn_forcing f = { 0, 1, rain, none, none, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l = run_with(&p, &f, &run);
	size_t n;
	const struct tarn_ledger_day *d = tarn_ledger_days(l, &n);

	cr_expect(fabs(d->flows.overflow_m3 - 0.25) < 1e-15);
	cr_expect(d->level_m == 1);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

/* The fall at the ruler exceeds the evaporation depth by wetted area / open
 * water: 100, 15 and 48 of surface make 1 in of evaporation 1.63 in of fall. */
Test(ledger, running_pump_draws_all_losses_from_the_pond)
{
	static const double level[] = { 0, 1.2 }, area[] = { 100, 100 };
	static const double none[] = { 0 }, inch[] = { 25.4 };
	struct tarn_forcing f = { 0, 1, none, inch, inch, NULL };
	struct tarn_run run = tarn_run_default();
	struct tarn_basin *b;
	struct tarn_pond p;
	struct tarn_ledger *l;
	struct tarn_pond_facts facts;
	size_t n;

	tarn_basin_table(&b, NULL, level, area, 2, NULL);
	p = plain(b);
	p.bed.area_m2 = 48;
	p.stream.area_m2 = 15;
	p.stream.factor = 1;
	for (int m = 0; m < 12; m++)
		p.bed.plant_factor[m] = 1;
	l = run_with(&p, &f, &run);
	cr_expect(fabs(1 - tarn_ledger_days(l, &n)->level_m - 1.63 * 0.0254) <
		  1e-12);
	cr_expect(tarn_pond_facts(&p, &facts, NULL) == TARN_OK);
	cr_expect(fabs(facts.fall_ratio - 1.63) < 1e-12);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

Test(ledger, a_stop_returns_the_water_in_transit)
{
	struct tarn_basin *b = box();
	struct tarn_pond p = busy(b);
	struct tarn_pump_swing s;

	/* 50 L on 10 m2 are 5 mm */
	cr_expect(tarn_pond_swing(&p, 0.98, &s, NULL) == TARN_OK);
	cr_expect(fabs(s.stopped_m - 0.985) < 1e-12 && s.spill_m3 == 0);
	cr_expect(fabs(s.started_m - 0.975) < 1e-12);
	cr_expect(tarn_pond_swing(&p, 0.998, &s, NULL) == TARN_OK);
	cr_expect(fabs(s.stopped_m - 1) < 1e-12);
	cr_expect(fabs(s.spill_m3 - 0.03) < 1e-12);
	cr_expect(tarn_pond_swing(&p, 0.001, &s, NULL) == TARN_OK);
	cr_expect(isnan(s.started_m));
	cr_expect(tarn_pond_swing(&p, 5, &s, NULL) == TARN_OK);
	cr_expect(isnan(s.stopped_m));
	tarn_basin_free(b);
}

/* A pump on a timer stops each day: the lip must hold the transit too. */
Test(ledger, a_timer_spills_what_comes_back)
{
	static const double none[] = { 0, 0 };
	struct tarn_forcing f = { 0, 2, none, none, none, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	const struct tarn_ledger_day *d;
	size_t n;

	p.stream.volume_m3 = 0.3;
	for (int m = 0; m < 12; m++)
		p.pump.hours[m] = 12;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &n);
	cr_expect(fabs(d[0].flows.overflow_m3 - 0.3) < 1e-12);
	cr_expect(d[1].flows.overflow_m3 == 0);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

Test(ledger, water_that_is_not_there_is_not_lost)
{
	static const double none[] = { 0, 0, 0 }, e[] = { 400, 400, 400 };
	struct tarn_forcing f = { 0, 3, none, e, e, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l = run_with(&p, &f, &run);
	size_t n;
	const struct tarn_ledger_day *d = tarn_ledger_days(l, &n);

	cr_expect(fabs(d[2].flows.evaporation_m3 - 2) < 1e-12);
	cr_expect(fabs(d[2].flows.shortfall_m3 - 2) < 1e-12);
	cr_expect(d[2].pond_m3 == 0 && d[2].level_m == 0);
	cr_expect(d[2].flags & TARN_DAY_DRY);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

Test(ledger, a_pond_too_low_cannot_start_its_pump)
{
	static const double none[] = { 0 };
	struct tarn_forcing f = { 0, 1, none, none, none, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = busy(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	const struct tarn_ledger_day *d;
	size_t n;

	run.start_stopped = 1;
	run.start_level_m = 0.002;	/* 20 L; the start takes 50 */
	run.no_topup = 1;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &n);
	cr_expect(d->flags & TARN_DAY_STARVED);
	cr_expect(!(d->flags & TARN_DAY_RUNNING));
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

/* Tank first, then the supply; the roof fills it; what is too much spills. */
static enum tarn_status half_a_day(void *context,
				   const struct tarn_day_view *view,
				   struct tarn_day_order *order,
				   struct tarn_error *err)
{
	(void)context;
	(void)view;
	(void)err;
	order->pump_hours = 12;
	return TARN_OK;
}

/* Calibration holds for the stream as for the pond, on a day whose hours a
 * control orders too: 4 mm x 1.3 on 10 m2, and on 2 m2 at 1.5 times the pond's
 * rate, in litres. */
Test(ledger, calibration_reaches_the_stream)
{
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	static const double none[1], four[] = { 4 };
	struct tarn_forcing f = { tarn_day(2025, 7, 1), 1, none, four, none, NULL };
	const struct tarn_ledger_day *d;
	struct tarn_ledger *l;
	size_t count;

	p.open_water_factor = 1.3;
	p.stream.area_m2 = 2;
	p.stream.depth_m = 0.01;
	p.stream.factor = 1.5;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &count);
	cr_expect(fabs(d->flows.evaporation_m3 - 0.0520) < 1e-12);
	cr_expect(fabs(d->flows.stream_m3 - 0.0156) < 1e-12, "%.9g",
		  d->flows.stream_m3);
	tarn_ledger_free(l);
	run.control = half_a_day;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &count);
	cr_expect(fabs(d->flows.evaporation_m3 - 0.0520) < 1e-12);
	cr_expect(fabs(d->flows.stream_m3 - 0.0078) < 1e-12, "%.9g",
		  d->flows.stream_m3);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

/* The first level, of four described ones: what the run says, else target,
 * else trigger, else lip. */
Test(ledger, starts_at_the_level_it_is_held_at)
{
	static const struct { double start, target, trigger, want; } rows[] = {
		{ 0.85, 0.95, 0.9, 0.85 }, { TARN_NAN, 0.95, 0.9, 0.95 },
		{ TARN_NAN, TARN_NAN, 0.9, 0.9 },
		{ TARN_NAN, TARN_NAN, TARN_NAN, 1 },
	};
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	static const double none[1];
	struct tarn_forcing f = { tarn_day(2025, 7, 1), 1, none, none, none, NULL };

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_ledger *l;
		size_t count, next;

		run.start_level_m = rows[i].start;
		p.target_m = rows[i].target;
		p.trigger_m = rows[i].trigger;
		run.no_topup = 1;
		l = run_with(&p, &f, &run);
		cr_expect(fabs(tarn_ledger_period(l, TARN_BY_RUN, 0, &next)
			       .start_level_m - rows[i].want) < 1e-12);
		cr_expect(fabs(tarn_ledger_days(l, &count)->level_m -
			       rows[i].want) < 1e-12, "row %zu", i);
		tarn_ledger_free(l);
	}
	tarn_basin_free(b);
}

Test(ledger, rain_tank)
{
	static const double rain[] = { 0, 21, 0 }, e[] = { 60, 0, 60 };
	struct tarn_forcing f = { 0, 3, rain, e, e, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	const struct tarn_ledger_day *d;
	size_t n;

	p.trigger_m = p.target_m = 0.98;
	p.tank.capacity_m3 = 0.5;
	p.tank.start_m3 = 0.2;
	p.tank.roof_m2 = 50;
	p.tank.coefficient = 0.9;
	p.tank.first_flush_mm = 1;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &n);
	/* day 1: 0.6 lost, 0.2 from the tank, 0.4 from the supply */
	cr_expect(fabs(d[0].flows.tank_m3 - 0.2) < 1e-12);
	cr_expect(fabs(d[0].flows.topup_m3 - 0.4) < 1e-12);
	/* day 2: roof 20 mm x 0.9 x 50 m2 = 0.9; tank keeps 0.5; pond 9.8 +
	 * 0.21 spills 0.01 */
	cr_expect(fabs(d[1].flows.roof_m3 - 0.9) < 1e-12);
	cr_expect(fabs(d[1].flows.tank_spill_m3 - 0.4) < 1e-12);
	cr_expect(fabs(d[1].flows.overflow_m3 - 0.01) < 1e-12);
	/* day 3: 10 - 0.6 wants 0.4, all from the tank */
	cr_expect(fabs(d[2].flows.tank_m3 - 0.4) < 1e-12);
	cr_expect(d[2].flows.topup_m3 == 0);
	cr_expect(fabs(d[2].tank_m3 - 0.1) < 1e-12);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

/* ---- properties over a century -------------------------------------------- */

#define CENTURY 36524

static double noise(unsigned *seed)
{
	*seed = *seed * 1664525u + 1013904223u;
	return (*seed >> 8) / 16777216.0;
}

static struct tarn_forcing century(void)
{
	static double rain[CENTURY], e[CENTURY], g[CENTURY];
	struct tarn_forcing f = { 0, CENTURY, rain, e, g, NULL };
	unsigned seed = 7;

	f.first_day = tarn_day(1900, 1, 1);
	for (int i = 0; i < CENTURY; i++) {
		double season = 1 - cos(2 * 3.14159265 * (i + 10) / 365.25);

		rain[i] = noise(&seed) < 0.3 ? 25 * pow(noise(&seed), 3) : 0;
		e[i] = 0.2 + 2.7 * season * noise(&seed);
		g[i] = e[i] * 0.8;
	}
	return f;
}

Test(ledger, identity_closes_over_a_century)
{
	struct tarn_forcing f = century();
	struct tarn_basin *b = bowl();
	struct tarn_pond p = busy(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	const struct tarn_ledger_day *d;
	double before, worst = 0, in, out;
	size_t n;

	p.tank = (struct tarn_rain_tank){ 1, 40, 0.8, 0.5, 0.3 };
	p.seepage.per_head_m3s_m = 1e-8;
	p.seepage.volume_m3s = 1e-8;
	p.supply.when.months = 0x7f0;	/* April to October */
	for (int m = 0; m < 12; m++)
		p.pump.hours[m] = m < 2 ? 0 : m < 4 ? 10 : 24;
	l = run_with(&p, &f, &run);
	d = tarn_ledger_days(l, &n);
	cr_assert(n == CENTURY);
	before = tarn_basin_volume(b, 0.98) + 0.4 + 0.05;
	for (size_t i = 0; i < n; i++) {
		const struct tarn_flows *w = &d[i].flows;
		double after = d[i].pond_m3 + d[i].held_m3;

		in = w->rain_m3 + w->runoff_m3 + w->tank_m3 + w->topup_m3;
		out = w->evaporation_m3 + w->bed_m3 + w->stream_m3 +
		      w->splash_m3 + w->seepage_m3 + w->withdrawal_m3 +
		      w->overflow_m3;
		worst = fmax(worst, fabs(before + in - out - after) /
					    (before + in));
		cr_assert(d[i].level_m >= 0 && d[i].level_m <= 1 + 1e-12,
			  "day %zu level %g", i, d[i].level_m);
		cr_assert(fabs(tarn_basin_volume(b, fmin(d[i].level_m, 1.2)) -
			       d[i].pond_m3) < 1e-12);
		before = after;
	}
	cr_expect(worst < 1e-9, "worst day %g", worst);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

Test(ledger, periods_add_up)
{
	struct tarn_forcing f = century();
	struct tarn_basin *b = bowl();
	struct tarn_pond p = busy(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l = run_with(&p, &f, &run);
	size_t next, n;
	struct tarn_period all = tarn_ledger_period(l, TARN_BY_RUN, 0, &next);
	static const int want_count[] = { CENTURY, 5218, 1200, 100 };

	const struct tarn_ledger_day *d = tarn_ledger_days(l, &n);
	double lowest = all.start_level_m, grass = 0;
	long when = TARN_NO_DAY;

	cr_expect(next == n && all.days == CENTURY);
	for (size_t i = 0; i < n; i++) {
		cr_assert(d[i].grass_mm == f.grass_mm[i] &&
			  d[i].open_water_mm == f.open_water_mm[i] &&
			  d[i].rain_mm == f.rain_mm[i]);
		grass += d[i].grass_mm;
		if (d[i].level_m < lowest) {
			lowest = d[i].level_m;
			when = d[i].day;
		}
	}
	cr_expect(all.lowest_level_m == lowest && all.lowest_day == when);
	cr_expect(fabs(all.grass_mm / grass - 1) < 1e-12);
	for (int kind = TARN_BY_DAY; kind <= TARN_BY_YEAR; kind++) {
		double topup = 0, drop = 0, level = all.start_level_m;
		int count = 0, days = 0, whole = 0;

		for (size_t at = 0; at < n; at = next) {
			struct tarn_period q = tarn_ledger_period(
				l, (enum tarn_period_kind)kind, at, &next);

			cr_assert(q.start_level_m == level);
			level = q.end_level_m;
			topup += q.flows.topup_m3;
			drop += q.drop_mm;
			days += q.days;
			whole += q.complete;
			count++;
		}
		cr_expect(days == CENTURY);
		cr_expect(fabs(topup / all.flows.topup_m3 - 1) < 1e-12);
		cr_expect(fabs(drop / all.drop_mm - 1) < 1e-12);
		cr_expect(count == want_count[kind], "kind %d: %d", kind,
			  count);
		/* 1900-01-01 was a Monday, 1999-12-31 a Friday */
		cr_expect(whole == count - (kind == TARN_BY_WEEK), "%d %d",
			  kind, whole);
	}
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

Test(ledger, endurance_is_the_ledger_without_topup)
{
	struct tarn_forcing f = century(), tail;
	struct tarn_basin *b = bowl();
	struct tarn_pond p = busy(b);
	struct tarn_run run = tarn_run_default();
	static long days[2000];
	int checked = 0;

	f.days = 2000;
	cr_assert(tarn_pond_endurance(&p, &f, &run, 0.7, days, NULL) ==
		  TARN_OK);
	run.no_topup = 1;
	for (size_t from = 0; from < 1500; from += 97) {
		struct tarn_ledger *l;
		const struct tarn_ledger_day *d;
		size_t n, i = 0;

		tail = f;
		tail.first_day += (long)from;
		tail.days -= from;
		tail.rain_mm += from;
		tail.open_water_mm += from;
		tail.grass_mm += from;
		l = run_with(&p, &tail, &run);
		d = tarn_ledger_days(l, &n);
		while (i < n && d[i].level_m >= 0.7)
			i++;
		if (i < TARN_ENDURANCE_DAYS) {
			cr_expect(days[from] == (long)i + 1, "from %zu", from);
			checked++;
		} else {
			cr_expect(days[from] == -1, "from %zu", from);
		}
		tarn_ledger_free(l);
	}
	cr_expect(checked > 5, "%d", checked);
	cr_expect(tarn_pond_endurance(&p, &f, &run, 0.99, days, NULL) ==
		  TARN_EARG);
	tarn_basin_free(b);
}

/* ---- schedules ------------------------------------------------------------- */

Test(schedule, days)
{
	struct tarn_schedule s = { 0 };
	long monday = tarn_day(2015, 7, 6);

	cr_expect(tarn_schedule_on(&s, monday));
	s.weekdays = 1u << 1 | 1u << 4;		/* Monday, Thursday */
	cr_expect(tarn_schedule_on(&s, monday));
	cr_expect(!tarn_schedule_on(&s, monday + 1));
	cr_expect(tarn_schedule_on(&s, monday + 3));
	s.months = 1u << 8;			/* August */
	cr_expect(!tarn_schedule_on(&s, monday));
	cr_expect(tarn_schedule_on(&s, monday + 28));
	s = (struct tarn_schedule){ 0 };
	s.off_count = 1;
	s.off[0] = (struct tarn_span){ TARN_NO_DAY, 0, 1115, 315 };
	cr_expect(!tarn_schedule_on(&s, tarn_day(2015, 12, 31)));
	cr_expect(!tarn_schedule_on(&s, tarn_day(2016, 3, 15)));
	cr_expect(tarn_schedule_on(&s, tarn_day(2016, 3, 16)));
	s.on_count = 1;
	s.on[0] = (struct tarn_span){ monday, monday + 1, 0, 0 };
	cr_expect(tarn_schedule_on(&s, monday + 1));
	cr_expect(!tarn_schedule_on(&s, monday + 2));
}

/* ---- refusals --------------------------------------------------------------- */

/* Asked for more than there is: takers get equal shares of what they want, and
 * together what there was. */
Test(ledger, a_pond_that_runs_dry_gives_equal_shares)
{
	double rain[] = { 0 }, open[] = { 10 }, grass[] = { 10 };
	struct tarn_forcing f = { tarn_day(2024, 7, 1), 1, rain, open, grass, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	const struct tarn_flows *w;
	size_t n;
	double held = tarn_basin_volume(b, 0.5), wanted;
	double area = tarn_basin_area(b, 0.5);

	p.open_water_factor = 1;
	p.withdrawals = 1;
	p.withdrawal[0].volume_m3 = 2 * held;
	p.bed.area_m2 = 2;
	p.bed.plant_factor[6] = 1.5;
	run.start_level_m = 0.5;
	l = run_with(&p, &f, &run);
	w = &tarn_ledger_days(l, &n)->flows;
	wanted = 2 * held + 0.01 * area + 0.01 * 1.5 * 2;
	cr_expect(fabs(w->withdrawal_m3 - 2 * held * held / wanted) < 1e-12,
		  "%g", w->withdrawal_m3);
	cr_expect(fabs(w->evaporation_m3 - 0.01 * area * held / wanted) < 1e-12,
		  "%g", w->evaporation_m3);
	cr_expect(fabs(w->bed_m3 - 0.03 * held / wanted) < 1e-12, "%g",
		  w->bed_m3);
	cr_expect(fabs(w->shortfall_m3 - (wanted - held)) < 1e-12, "%g",
		  w->shortfall_m3);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

static void refused_pond(const struct tarn_pond *p, const char *field,
			 const char *part)
{
	struct tarn_error err = { 0 };

	cr_expect(tarn_pond_check(p, &err) == TARN_EARG, "%s", field);
	cr_expect_str_eq(err.field, field);
	cr_expect(strstr(err.text, part), "'%s' has no '%s'", err.text, part);
}

Test(pond, refuses_what_does_not_fit)
{
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);

	p.overflow_level_m = 1.3;
	refused_pond(&p, "overflow_level", "between the basin's floor");
	p.overflow_level_m = TARN_NAN;
	refused_pond(&p, "overflow_level", "is missing");
	p = busy(b);
	p.trigger_m = 1.05;
	p.target_m = TARN_NAN;
	refused_pond(&p, "trigger", "above the overflow level");
	p = busy(b);
	p.target_m = 0.9;
	refused_pond(&p, "target", "under the trigger");
	p.target_m = 1.1;
	refused_pond(&p, "target", "above the overflow level");
	p.trigger_m = TARN_NAN;
	p.target_m = 0.9;
	refused_pond(&p, "trigger", "is missing");
	p = busy(b);
	p.intake_m = 1;
	refused_pond(&p, "intake", "between the floor");
	p = busy(b);
	p.stream.depth_m = TARN_NAN;
	p.stream.volume_m3 = 12;
	refused_pond(&p, "pump", "in transit");
	p = busy(b);
	p.apron.curve_number = 98;
	refused_pond(&p, "apron", "either");
	p = busy(b);
	p.tank.start_m3 = 1;
	refused_pond(&p, "tank.start", "more than the tank holds");
	p = busy(b);
	p.withdrawals = 1;
	p.withdrawal[0].volume_m3 = -1;
	refused_pond(&p, "withdrawals", "number 1");
	p = busy(b);
	p.pump.hours[3] = 25;
	refused_pond(&p, "pump.hours", "0 to 24");
	p = busy(b);
	p.bed.area_m2 = -1;
	refused_pond(&p, "bed.area", "got -1");
	tarn_basin_free(b);
}

static enum tarn_status stop(void *context, const struct tarn_day_view *view,
			     struct tarn_day_order *order,
			     struct tarn_error *err)
{
	int what = *(int *)context;

	(void)view;
	if (what == 0)
		return tarn_fail(err, TARN_ESTOP, "each_day", "enough");
	if (what == 1)
		order->pump_hours = 30;
	if (what == 2)
		order->topup_m3 = -1;
	if (what == 3)
		order->topup_m3 = 0.123;
	return TARN_OK;
}

Test(ledger, refuses_bad_forcing_and_rules)
{
	double rain[] = { 0, 1, 0 }, e[] = { 1, 1, 1 };
	struct tarn_forcing f = { tarn_day(2015, 2, 27), 3, rain, e, e, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = plain(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *l;
	struct tarn_error err = { 0 };
	int what = 0;
	size_t n;

	rain[1] = TARN_NAN;
	cr_expect(tarn_ledger_run(&l, NULL, &p, &f, &run, &err) == TARN_EARG);
	cr_expect(l == NULL && strstr(err.text, "2015-02-28"), "%s", err.text);
	err.code = TARN_OK;
	cr_expect(tarn_forcing_check(&f, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "rain");
	rain[1] = -1;
	err.code = TARN_OK;
	cr_expect(tarn_ledger_run(&l, NULL, &p, &f, &run, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "0 or more"), "%s", err.text);
	rain[1] = 0;
	cr_expect(tarn_forcing_check(&f, NULL) == TARN_OK);
	f.days = 0;
	cr_expect(tarn_ledger_run(&l, NULL, &p, &f, &run, NULL) == TARN_EARG);
	f.days = 3;
	run.start_level_m = 1.1;
	cr_expect(tarn_ledger_run(&l, NULL, &p, &f, &run, NULL) == TARN_EARG);
	run.start_level_m = 0.5;
	run.control = stop;
	run.control_context = &what;
	cr_expect(tarn_ledger_run(&l, NULL, &p, &f, &run, NULL) == TARN_ESTOP);
	for (what = 1; what < 3; what++)
		cr_expect(tarn_ledger_run(&l, NULL, &p, &f, &run, NULL) ==
			  TARN_EARG);
	l = run_with(&p, &f, &run);
	cr_expect(fabs(tarn_ledger_days(l, &n)->flows.topup_m3 - 0.123) < 1e-15);
	tarn_ledger_free(l);
	tarn_basin_free(b);
}

/* ---- failing allocations ------------------------------------------------------ */

static void *limited(void *context, void *block, size_t bytes)
{
	int *left = context;

	if (bytes == 0) {
		free(block);
		return NULL;
	}
	return (*left)-- > 0 ? realloc(block, bytes) : NULL;
}

Test(ledger, every_failed_allocation_is_reported)
{
	static const double none[] = { 0 };
	struct tarn_forcing f = { 0, 1, none, none, none, NULL };
	struct tarn_shelved shape = tarn_shelved_default();
	struct tarn_run run = tarn_run_default();
	enum tarn_status status = TARN_ENOMEM;
	int n = 0;

	shape.length_m = shape.width_m = 3;
	shape.depth_m = 1.2;
	for (; status != TARN_OK && n < 100; n++) {
		int left = n;
		struct tarn_alloc alloc = { limited, &left };
		struct tarn_basin *b;
		struct tarn_ledger *l = NULL;
		struct tarn_pond p;

		status = tarn_basin_shelved(&b, &alloc, &shape, NULL);
		if (status == TARN_OK) {
			p = plain(b);
			status = tarn_ledger_run(&l, &alloc, &p, &f, &run,
						 NULL);
		}
		cr_expect(status == TARN_OK || status == TARN_ENOMEM);
		tarn_ledger_free(l);
		tarn_basin_free(b);
	}
	cr_expect(n == 5, "%d", n);
}

Test(ledger, no_run_is_the_default_run)
{
	const double rain[] = { 0, 9, 0 }, e[] = { 5, 4, 6 };
	struct tarn_forcing f = { tarn_day(2015, 2, 27), 3, rain, e, e, NULL };
	struct tarn_basin *b = box();
	struct tarn_pond p = busy(b);
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *one = run_with(&p, &f, &run);
	struct tarn_ledger *two = run_with(&p, &f, NULL);
	long days[3], plain_days[3];
	size_t n;

	for (size_t i = 0; i < 3; i++) {
		const struct tarn_ledger_day *x = &tarn_ledger_days(one, &n)[i];
		const struct tarn_ledger_day *y = &tarn_ledger_days(two, &n)[i];

		cr_expect(memcmp(&x->flows, &y->flows, sizeof x->flows) == 0 &&
			  memcmp(&x->level_m, &y->level_m,
				 sizeof x->level_m) == 0 &&
			  x->flags == y->flags, "day %zu", i);
	}
	cr_expect(tarn_pond_endurance(&p, &f, &run, 0.97, days, NULL) ==
		  TARN_OK);
	cr_expect(tarn_pond_endurance(&p, &f, NULL, 0.97, plain_days, NULL) ==
		  TARN_OK);
	cr_expect(memcmp(days, plain_days, sizeof days) == 0);
	tarn_ledger_free(one);
	tarn_ledger_free(two);
	tarn_basin_free(b);
}

/* ---- facts ----------------------------------------------------------------- */

static struct tarn_pond_facts facts_of(double area_m2, double depth_m,
				       double trigger_m, double target_m)
{
	const double level[] = { 0, depth_m + 1 }, area[] = { area_m2, area_m2 };
	struct tarn_basin *b;
	struct tarn_pond p;
	struct tarn_pond_facts facts;

	cr_assert(tarn_basin_table(&b, NULL, level, area, 2, NULL) == TARN_OK);
	p = plain(b);
	p.overflow_level_m = depth_m;
	p.trigger_m = trigger_m;
	p.target_m = target_m;
	cr_assert(tarn_pond_facts(&p, &facts, NULL) == TARN_OK);
	tarn_basin_free(b);
	return facts;
}

/* 50 m2 by 2 m hold 100 m3; a mean depth of 2.5 m is the other limit. */
Test(ledger, large_ponds_on_both_sides)
{
	cr_expect(!facts_of(50, 2, TARN_NAN, TARN_NAN).large);
	cr_expect(facts_of(50.001, 2, TARN_NAN, TARN_NAN).large);
	cr_expect(!facts_of(4, 2.5, TARN_NAN, TARN_NAN).large);
	cr_expect(facts_of(4, 2.501, TARN_NAN, TARN_NAN).large);
}

Test(ledger, one_filling)
{
	cr_expect(fabs(facts_of(10, 1, 0.8, 0.95).fill_m3 - 1.5) < 1e-12);
	cr_expect(!(facts_of(10, 1, 0.8, TARN_NAN).fill_m3 > 0));
	cr_expect(!(facts_of(10, 1, TARN_NAN, TARN_NAN).fill_m3 > 0));
}
