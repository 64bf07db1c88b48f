/* SPDX-License-Identifier: MIT */
#ifndef LEAK_SIM_H
#define LEAK_SIM_H

/*
 * A world for the leak fit to be tried on: invented ponds, weather and
 * owners.  The truth is drawn from the priors of tarn_leak_options, but the
 * world is rougher than the model: evaporation follows the sun, a storm has
 * its hour, rulers are read in sixteenths, days are skipped, one reading in
 * fifty is misread, and its owner is more or less careful.
 */

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "tarn/leak.h"

#define SIM_DAYS_MAX 200

struct sim {
	uint64_t state;
	/* the truth */
	double evaporation, rain, loss_mm_d, step_mm_d;
	long step_day;		/* TARN_NO_DAY: no step */
	/* the pond and its records */
	struct tarn_basin *basin;
	struct tarn_pond pond;
	size_t days;
	double rain_mm[SIM_DAYS_MAX], open_mm[SIM_DAYS_MAX];
	double grass_mm[SIM_DAYS_MAX];
	struct tarn_forcing forcing;
	struct tarn_reading readings[SIM_DAYS_MAX];
	size_t count;
};

struct sim_order {
	size_t days;		/* of the log */
	double loss_mm_d;	/* at the ruler, from the first day */
	double step_mm_d;	/* more from 'step_day' on; 0: none */
	size_t step_day;
	double misread;		/* share of readings, 0.02 */
};

static double sim_uniform(struct sim *s)	/* splitmix64 */
{
	uint64_t z = s->state += 0x9e3779b97f4a7c15u;

	z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
	z = (z ^ z >> 27) * 0x94d049bb133111ebu;
	return ((double)((z ^ z >> 31) >> 11) + 0.5) / 9007199254740992.0;
}

static double sim_normal(struct sim *s)
{
	double r = sqrt(-2 * log(sim_uniform(s)));

	return r * cos(6.283185307179586 * sim_uniform(s));
}

static double sim_between(struct sim *s, double lo, double hi)
{
	return lo + (hi - lo) * sim_uniform(s);
}

static void sim_make_pond(struct sim *s)
{
	struct tarn_shelved shape = tarn_shelved_default();
	struct tarn_pond *p = &s->pond;
	double area;

	shape.shape = TARN_ELLIPSE;
	shape.length_m = sim_between(s, 4, 9);
	shape.width_m = shape.length_m * sim_between(s, 0.5, 0.9);
	shape.depth_m = sim_between(s, 0.8, 1.4);
	shape.side_slope = sim_between(s, 0, 0.5);
	if (tarn_basin_shelved(&s->basin, NULL, &shape, NULL) != TARN_OK)
		abort();
	*p = tarn_pond_default();
	p->basin = s->basin;
	p->overflow_level_m = shape.depth_m - 0.05;
	area = tarn_basin_area(s->basin, p->overflow_level_m);
	p->bed.area_m2 = area * sim_between(s, 0, 0.3);
	p->bed.volume_m3 = p->bed.area_m2 * 0.2;
	p->stream.area_m2 = area * sim_between(s, 0, 0.15);
	p->stream.depth_m = 0.02;
}

/* Days with a season's slope, slow weather and showers. */
static void sim_make_weather(struct sim *s)
{
	double mean = sim_between(s, 1, 5), end = sim_between(s, 1, 5);
	double wet = sim_between(s, 0.05, 0.35), slow = 0;

	for (size_t i = 0; i < s->days; i++) {
		double part = (double)i / (double)s->days;

		slow = 0.7 * slow + 0.25 * sim_normal(s);
		s->open_mm[i] = fmax(0.1, (mean + part * (end - mean)) *
					  (1 + slow));
		s->grass_mm[i] = s->open_mm[i] / 1.2;
		s->rain_mm[i] = sim_uniform(s) < wet
			? -7 * log(sim_uniform(s)) : 0;
	}
	s->forcing = (struct tarn_forcing){ tarn_day(2025, 5, 1), s->days,
					    s->rain_mm, s->open_mm,
					    s->grass_mm };
}

/* What truly falls on the pond from 8:00 to 8:00. */
struct sim_truth {
	double rain_mm[SIM_DAYS_MAX], open_mm[SIM_DAYS_MAX];
	double grass_mm[SIM_DAYS_MAX];
};

static void sim_make_truth(struct sim *s, struct sim_truth *t)
{
	static const double before_8 = 0.067;	/* half sine from 6 to 18 h */
	double last = 1;

	for (size_t i = 0; i < s->days; i++)
		t->rain_mm[i] = 0;
	for (size_t i = 0; i < s->days; i++) {
		double day = fmax(0, s->evaporation * (1 + 0.2 * sim_normal(s)))
			     * s->open_mm[i];
		double storm = s->rain * fmax(0, 1 + 0.2 * sim_normal(s)) *
			       s->rain_mm[i];
		size_t to = sim_uniform(s) < 8.0 / 24 && i > 0 ? i - 1 : i;

		if (i > 0) {
			t->open_mm[i - 1] = last * (1 - before_8) +
					    day * before_8;
			/* wind and dew, even about zero */
			t->open_mm[i - 1] += fmin(0.25, t->open_mm[i - 1] / 2) *
					     sim_between(s, -1.7, 1.7);
			t->grass_mm[i - 1] = t->open_mm[i - 1] / 1.2;
		}
		last = day;
		t->rain_mm[to] += storm;
	}
	t->open_mm[s->days - 1] = last;
	t->grass_mm[s->days - 1] = last / 1.2;
}

static double sim_read(struct sim *s, double level_m, double sd_m,
		       double misread)
{
	static const double step = 0.0254 / 16;
	double e = sd_m * sim_normal(s);

	if (sim_uniform(s) < misread)
		e *= 10;
	return round((level_m + e) / step) * step;
}

/* Level at the end of one true day. */
static double sim_day(struct sim *s, const struct sim_truth *t, size_t i,
		      double level_m, double loss_m3_d)
{
	struct tarn_pond p = s->pond;
	struct tarn_forcing f = { s->forcing.first_day + (long)i, 1,
				  t->rain_mm + i, t->open_mm + i,
				  t->grass_mm + i };
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *ledger;
	size_t count;

	p.seepage.volume_m3s = loss_m3_d / 86400;
	run.start_level_m = level_m;
	run.no_topup = 1;
	if (tarn_ledger_run(&ledger, NULL, &p, &f, &run, NULL) != TARN_OK)
		abort();
	level_m = tarn_ledger_days(ledger, &count)[0].level_m;
	tarn_ledger_free(ledger);
	return level_m;
}

static void sim_keep_log(struct sim *s, const struct sim_truth *t,
			 const struct sim_order *order)
{
	double lip_m = s->pond.overflow_level_m, level_m = lip_m -
		sim_between(s, 0, 0.06);
	double sd_m = 0.0254 / 16 * exp(0.3 * sim_normal(s));
	double area = tarn_basin_area(s->basin, level_m);
	unsigned marks = 0;

	s->count = 0;
	for (size_t i = 0; i <= order->days; i++) {
		int ends = i == 0 || i == order->days;
		double loss = s->loss_mm_d;

		if (ends || sim_uniform(s) < 0.75) {
			s->readings[s->count++] = (struct tarn_reading){
				s->forcing.first_day + (long)i, 8,
				sim_read(s, level_m, sd_m, order->misread) -
				lip_m, TARN_NAN, marks, (long)i + 2, 12
			};
			marks = 0;
			if (level_m < lip_m - 0.10) {
				level_m = lip_m - 0.01;
				marks = TARN_LOG_REFILL;
			}
		}
		if (s->step_day != TARN_NO_DAY && i >= order->step_day)
			loss += s->step_mm_d;
		if (i < order->days)
			level_m = sim_day(s, t, i, level_m, loss * area / 1e3);
	}
}

static void sim_make(struct sim *s, uint64_t seed,
		     const struct sim_order *order)
{
	static struct sim_truth truth;

	s->state = seed * 0x9e3779b97f4a7c15u + 12345;
	s->days = order->days + 2;
	s->evaporation = fmax(0.4, 1 + 0.15 * sim_normal(s));
	s->rain = fmax(0.4, 1 + 0.10 * sim_normal(s));
	s->loss_mm_d = order->loss_mm_d;
	s->step_mm_d = order->step_mm_d;
	s->step_day = order->step_mm_d > 0
		? tarn_day(2025, 5, 1) + (long)order->step_day : TARN_NO_DAY;
	sim_make_pond(s);
	sim_make_weather(s);
	sim_make_truth(s, &truth);
	sim_keep_log(s, &truth, order);
}

static void sim_free(struct sim *s)
{
	tarn_basin_free(s->basin);
}

static struct tarn_leak_options sim_options(void)
{
	struct tarn_leak_options o = tarn_leak_options_default();

	o.step_m = 0.0254 / 16;
	o.unnoted = TARN_UNNOTED_SET_ASIDE;
	return o;
}

#endif
