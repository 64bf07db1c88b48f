/* SPDX-License-Identifier: MIT */
#ifndef LEAK_WORLD_H
#define LEAK_WORLD_H

/*
 * Ponds, owners and their logs for the leak fit to be tried on, with a truth
 * that the fit does not know.  No code of lib/tarn works out that truth: the
 * weather and the evaporation are those of leak_sky.h, the level is counted
 * here by the hour.  Only what an owner would hand over is made with Tarn: a
 * description, daily weather, readings.
 *
 * The true evaporation is Penman's with the wind and sun that the pond has,
 * times
 *     exp(method + station + surroundings + slow(t)) x (1 + day(t)),
 * each drawn; the description knows the class of wind and sun, or nothing.
 * The terms and their spreads: docs/methods/leak.md, "How often it is right".
 */

#include <stdint.h>

#include "leak_sky.h"
#include "tarn/leak.h"

#define WORLD_DAYS 200
#define WORLD_STEP_M (0.0254 / 16)

enum world_site {		/* what the description says, and is */
	SITE_DESCRIBED,		/* wind and sun by their classes */
	SITE_UNDESCRIBED,
	SITE_SUN_ALONE,		/* of the two the sun */
	SITE_PAVED,		/* wind, sun, and paving about the pond */
	SITE_MEASURED,		/* the ratio is measured */
	/* what is otherwise than described */
	SITE_OASIS,		/* described, but paved: x 1 to 1.4, unsaid */
	SITE_OASIS_UNDESCRIBED,
	SITE_LOW,		/* described; 0.7 of what the model gives */
	SITE_STATION_OFF,	/* described; a station over the hill */
	SITE_SLOW_WAVE,		/* described; a wave of a year, +- 17 % */
	SITE_EVEN,		/* undescribed; shelter 0.3 to 0.8, sun 0.65 to
				   1, evenly, and the method is right */
	SITE_FIT_OWN		/* drawn from the fit's own prior */
};

enum world_filled {
	FILLED_BY_HAND,		/* noted, how much is not known */
	FILLED_METERED,		/* by hand through a meter */
	FILLED_FLOAT_METERED,	/* a float valve, its meter, no ruler */
	FILLED_VALVE,		/* a float valve that nobody mentions */
	FILLED_VALVE_DESCRIBED	/* the description has its levels */
};

struct world_order {
	int site, filled;
	size_t days;
	double loss_mm_d, step_mm_d;	/* at the ruler; more from 'step_day' */
	size_t step_day;
	int remembers;		/* days are alike by 0.7, and not independent */
	double valve_band_m;	/* that a valve lets the level fall */
	int clean;		/* no rain, no bed, areas as described */
};

struct world {
	uint64_t state;
	/* the truth */
	double factor;		/* of evaporation over the model's, over the
				   days of the log */
	double rain_factor;
	double loss_mm_d;
	double true_open_mm[WORLD_DAYS], true_rain_mm[WORLD_DAYS];
	int storm_hour[WORLD_DAYS];	/* at which a day's rain falls */
	double area_m2, bed_m2, slope;	/* at the lip; relative, of area by m */
	double volume_gain;	/* true over metered */
	/* what the owner hands over */
	struct tarn_basin *basin;
	struct tarn_pond pond;
	size_t days;
	double rain_mm[WORLD_DAYS], open_mm[WORLD_DAYS], grass_mm[WORLD_DAYS];
	struct tarn_forcing forcing;
	struct tarn_reading readings[WORLD_DAYS];
	size_t count;
};

/* ---- chance ----------------------------------------------------------- */

static double world_uniform(struct world *w)	/* splitmix64 */
{
	uint64_t z = w->state += 0x9e3779b97f4a7c15u;

	z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
	z = (z ^ z >> 27) * 0x94d049bb133111ebu;
	return ((double)((z ^ z >> 31) >> 11) + 0.5) / 9007199254740992.0;
}

static double world_normal(struct world *w)
{
	double r = sqrt(-2 * log(world_uniform(w)));

	return r * cos(6.283185307179586 * world_uniform(w));
}

static double world_between(struct world *w, double lo, double hi)
{
	return lo + (hi - lo) * world_uniform(w);
}

/* ---- the site ----------------------------------------------------------- */

#define WORLD_LIP_M 1.0
#define WORLD_BED_FACTOR 1.2	/* of a description that says none */

struct world_place {
	double shelter, shade;	/* as described: the model is run with them */
	double true_shelter, true_shade;
	double ln_rest;		/* method, station, surroundings */
	double slow_sd, slow_days, wave, day_sd;
};

/* Classes of wind and sun: median or mean, spread. */
static void world_draw_place(struct world *w, const struct world_order *o,
			     struct world_place *p)
{
	static const double wind[5][2] = { { 0.75, 0.25 }, { 0.50, 0.35 },
					   { 0.35, 0.40 }, { 0.30, 0.45 },
					   { 0.20, 0.50 } };
	static const double sun[4][2] = { { 0.97, 0.02 }, { 0.85, 0.07 },
					  { 0.65, 0.10 }, { 0.45, 0.12 } };
	int wind_class = (int)(5 * world_uniform(w));
	int sun_class = (int)(4 * world_uniform(w));

	*p = (struct world_place){
		.shelter = wind[wind_class][0], .shade = sun[sun_class][0],
		.slow_sd = 0.08, .slow_days = 45, .day_sd = 0.25,
	};
	p->true_shelter = p->shelter * exp(wind[wind_class][1] *
					   world_normal(w));
	p->true_shade = fmin(1, fmax(0.1, p->shade + sun[sun_class][1] *
				     world_normal(w)));
	p->ln_rest = log(0.88) + 0.14 * world_normal(w) +	/* method */
		     0.07 * world_normal(w);			/* station */
	switch (o->site) {
	case SITE_PAVED:
		p->ln_rest += 0.05 + 0.08 * world_normal(w);
		break;
	case SITE_OASIS: case SITE_OASIS_UNDESCRIBED:
		p->ln_rest += log(world_between(w, 1, 1.4));
		break;
	case SITE_EVEN:
		p->true_shelter = world_between(w, 0.3, 0.8);
		p->true_shade = world_between(w, 0.65, 1);
		p->ln_rest = 0;
		p->day_sd = 0.20;
		break;
	case SITE_STATION_OFF:
		p->ln_rest += 0.07 * world_normal(w);
		p->slow_sd = 0.10;
		p->day_sd = 0.30;
		break;
	default:
		p->ln_rest += 0.05 * world_normal(w);
	}
	if (o->site == SITE_UNDESCRIBED) {
		p->true_shelter = 0.50 * exp(0.50 * world_normal(w));
		p->true_shade = fmin(1, fmax(0.1, 0.80 + 0.15 *
					     world_normal(w)));
	}
	if (o->site == SITE_UNDESCRIBED || o->site == SITE_OASIS_UNDESCRIBED ||
	    o->site == SITE_EVEN)
		p->shelter = p->shade = 1;
	if (o->site == SITE_SUN_ALONE)
		p->shelter = 1;
	if (o->site == SITE_SLOW_WAVE)
		p->wave = 0.17;
}

/* Evaporation and rain as the model has them, and as they are. */
static void world_make_days(struct world *w, const struct world_order *o,
			    const struct world_place *p)
{
	struct sky_place *sky = &sky_places[(int)(SKY_PLACES *
						  world_uniform(w))];
	double slow = world_normal(w), day = world_normal(w), sum = 0, all = 0;
	double phase = 6.283185307179586 * world_uniform(w);
	double keep = exp(-1 / p->slow_days), rho = o->remembers ? 0.7 : 0;
	size_t first;

	do {	/* a log that begins from April to August */
		first = (size_t)(world_uniform(w) *
				 (double)(sky->days - w->days));
	} while (sky->day[first].day_of_year < 91 ||
		 sky->day[first].day_of_year > 243);
	for (size_t i = 0; i < w->days; i++) {
		const struct sky_day *d = &sky->day[first + i];
		double truth = sky_evaporation(sky, d, p->true_shelter,
					       p->true_shade);

		w->open_mm[i] = sky_evaporation(sky, d, p->shelter, p->shade);
		if (o->site == SITE_LOW)
			truth = 0.7 * w->open_mm[i];
		else
			truth *= exp(p->ln_rest);
		truth *= exp(p->slow_sd * slow +
			     p->wave * sin(phase + 6.283185307179586 *
					   (double)i / 365));
		sum += truth;
		all += w->open_mm[i];
		w->true_open_mm[i] = truth * fmax(0, 1 + p->day_sd * day);
		slow = keep * slow + sqrt(1 - keep * keep) * world_normal(w);
		day = rho * day + sqrt(1 - rho * rho) * world_normal(w);
		w->rain_mm[i] = o->clean ? 0 : d->rain_mm;
		w->true_rain_mm[i] = w->rain_mm[i] * w->rain_factor *
				     fmax(0, 1 + 0.2 * world_normal(w));
		w->storm_hour[i] = (int)(24 * world_uniform(w));
		w->grass_mm[i] = w->open_mm[i] / 1.2;
	}
	w->factor = sum / all;
	w->forcing = (struct tarn_forcing){ tarn_day(2025, 5, 1), w->days,
					    w->rain_mm, w->open_mm,
					    w->grass_mm, NULL };
}

/* Drawn from the prior of the options: one factor, one a block of days, days,
 * at midnight, so that nothing else differs from the fit's model. */
static void world_draw_own(struct world *w, const struct world_order *o,
			   const struct tarn_leak_options *options)
{
	struct world_place p;
	double slow = 0, tau = exp(0.5 * world_normal(w));

	world_draw_place(w, o, &p);
	p.true_shelter = p.shelter;
	p.true_shade = p.shade;
	world_make_days(w, o, &p);
	w->factor = options->evaporation_mean +
		    options->evaporation_sd * world_normal(w);
	for (size_t i = 0; i < w->days; i++) {
		double noise;

		if (fmod((double)i, options->slow_days) < 0.5)
			slow = options->slow_sd * world_normal(w);
		noise = tau * options->evaporation_noise * world_normal(w);
		w->true_open_mm[i] = w->open_mm[i] *
				     (w->factor + slow + noise) +
				     tau * options->other_noise_mm *
				     world_normal(w);
	}
	w->volume_gain = tau;	/* of the ruler's errors: no meter here */
}

/* ---- the pond, its level ------------------------------------------------ */

static void world_make_pond(struct world *w, const struct world_order *o)
{
	static const double level[] = { 0, WORLD_LIP_M + 0.05 };
	double said = exp(0.04 * world_normal(w)), area[2], bed;

	w->area_m2 = exp(world_between(w, log(5), log(60)));
	w->slope = world_between(w, 0, 0.6);
	bed = world_uniform(w) < 0.5 ? 0 : world_between(w, 0.05, 0.25);
	if (o->clean) {
		said = 1;
		bed = w->slope = 0;
	}
	w->bed_m2 = bed * w->area_m2;
	for (int i = 0; i < 2; i++)	/* as the description has it */
		area[i] = said * w->area_m2 *
			  (1 + w->slope * (level[i] - WORLD_LIP_M));
	if (tarn_basin_table(&w->basin, NULL, level, area, 2, NULL) != TARN_OK)
		abort();
	w->pond = tarn_pond_default();
	w->pond.basin = w->basin;
	w->pond.overflow_level_m = WORLD_LIP_M;
	w->pond.bed.area_m2 = said * w->bed_m2;
	w->pond.bed.volume_m3 = 0;
}

static double world_area(const struct world *w, double level_m)
{
	return w->area_m2 * (1 + w->slope * (level_m - WORLD_LIP_M));
}

struct world_level {
	double level_m, valve_m, band_m;	/* valve_m NaN: none */
	double put_in_m3;	/* by the valve, so far */
	double bed_factor;	/* of the plants over the description's */
};

/* One hour: sun from 6 to 18 h, a storm at its own hour. */
static void world_hour(const struct world *w, struct world_level *l, size_t day,
		       int hour, double loss_m3_d)
{
	double open = hour >= 6 && hour < 18
		? w->true_open_mm[day] * (cos((hour - 6) * acos(-1) / 12) -
					  cos((hour - 5) * acos(-1) / 12)) / 2
		: 0;
	double rain = hour == w->storm_hour[day] ? w->true_rain_mm[day] : 0;
	double area = world_area(w, l->level_m);
	double m3 = (rain * (area + w->bed_m2) -
		     open * (area + w->bed_m2 * l->bed_factor)) / 1e3 -
		    loss_m3_d / 24;

	l->level_m = fmin(WORLD_LIP_M, l->level_m + m3 / area);
	if (l->level_m < l->valve_m - l->band_m) {
		double to_m = l->valve_m;

		l->put_in_m3 += (to_m - l->level_m) *
				world_area(w, (to_m + l->level_m) / 2);
		l->level_m = to_m;
	}
}

/* ---- the log -------------------------------------------------------------- */

static double world_read(struct world *w, double level_m, double sd_m)
{
	double e = sd_m * world_normal(w);

	if (world_uniform(w) < 0.02)
		e *= 10;
	return round((level_m + e) / WORLD_STEP_M) * WORLD_STEP_M;
}

static void world_put_reading(struct world *w, const struct world_order *o,
			      const struct world_level *l, size_t day,
			      double sd_m, unsigned marks, double meter_m3)
{
	double level_m = TARN_NAN;

	if (o->filled != FILLED_FLOAT_METERED)
		level_m = (o->site == SITE_FIT_OWN
			   ? l->level_m + sd_m * world_normal(w)
			   : world_read(w, l->level_m, sd_m)) - WORLD_LIP_M;
	w->readings[w->count++] = (struct tarn_reading){
		w->forcing.first_day + (long)day, o->site == SITE_FIT_OWN ? 0 :
		8, level_m, meter_m3, marks, (long)day + 2, 12
	};
}

static int world_is_metered(const struct world_order *o)
{
	return o->filled == FILLED_METERED || o->filled == FILLED_FLOAT_METERED;
}

static void world_keep_log(struct world *w, const struct world_order *o)
{
	struct world_level l = { WORLD_LIP_M - world_between(w, 0.005, 0.06),
				 TARN_NAN, o->valve_band_m, 0,
				 o->clean ? 1 : exp(0.15 * world_normal(w)) };
	double sd_m = WORLD_STEP_M * (o->site == SITE_FIT_OWN ? w->volume_gain
				      : exp(0.3 * world_normal(w)));
	double hand_m3 = 0, seen_m3 = o->filled == FILLED_METERED ||
				      o->filled == FILLED_FLOAT_METERED ? 0
								: TARN_NAN;
	double often = o->filled == FILLED_FLOAT_METERED ? 0.3 : 0.75;
	int start = o->site == SITE_FIT_OWN ? 0 : 8;

	if (o->filled >= FILLED_FLOAT_METERED)
		l.valve_m = l.level_m - world_between(w, 0, 0.015);
	if (o->filled == FILLED_FLOAT_METERED)	/* at work when the log begins */
		l.level_m = l.valve_m - world_between(w, 0, l.band_m);
	if (o->filled == FILLED_FLOAT_METERED ||
	    o->filled == FILLED_VALVE_DESCRIBED) {
		w->pond.target_m = l.valve_m;
		w->pond.trigger_m = l.valve_m - l.band_m;
	}
	w->count = 0;
	for (size_t i = 0; i <= o->days; i++) {
		int ends = i == 0 || i == o->days;
		double loss = o->loss_mm_d + (i >= o->step_day ? o->step_mm_d
							       : 0);

		if (ends || world_uniform(w) < often ||
		    o->site == SITE_FIT_OWN) {
			static unsigned marks;

			if (i == 0)
				marks = 0;
			if (world_is_metered(o))
				seen_m3 = (hand_m3 + l.put_in_m3) /
					  w->volume_gain;
			world_put_reading(w, o, &l, i, sd_m, marks, seen_m3);
			marks = 0;
			if (l.level_m < WORLD_LIP_M - 0.10 &&
			    o->filled <= FILLED_METERED) {
				hand_m3 += (WORLD_LIP_M - 0.02 - l.level_m) *
					   world_area(w, (WORLD_LIP_M - 0.02 +
							  l.level_m) / 2);
				l.level_m = WORLD_LIP_M - 0.02;
				marks = TARN_LOG_REFILL;
			}
		}
		for (int h = start; i < o->days && h < start + 24; h++)
			world_hour(w, &l, i + (size_t)(h / 24), h % 24,
				   loss / 1e3 * w->area_m2);
	}
}

/* ---- the whole ------------------------------------------------------------- */

/* ln of true over metered volume: by hand 2 %, a float N(0.05, 0.08), not under
 * ln 0.98. */
static double world_draw_gain(struct world *w, const struct world_order *o)
{
	double ln;

	if (o->filled != FILLED_FLOAT_METERED)
		return 1 + 0.02 * world_normal(w);
	do {
		ln = 0.05 + 0.08 * world_normal(w);
	} while (ln < log(0.98));
	return exp(ln);
}

static void world_make(struct world *w, uint64_t seed,
		       const struct world_order *o,
		       const struct tarn_leak_options *options)
{
	struct world_place place;

	for (int i = 0; i < SKY_PLACES; i++)
		if (sky_places[i].days == 0)
			sky_read(&sky_places[i]);
	w->state = seed * 0xd1342543de82ef95u + 12345;	/* seeds beside each other */
	for (int i = 0; i < 4; i++)	/* share no part of their sequences */
		w->state ^= (uint64_t)(world_uniform(w) * 18446744073709551615.0);
	w->days = o->days + 2;
	w->loss_mm_d = o->loss_mm_d;
	w->rain_factor = fmax(0.4, 1 + 0.10 * world_normal(w));
	w->volume_gain = world_draw_gain(w, o);
	world_make_pond(w, o);
	if (o->site == SITE_FIT_OWN) {
		world_draw_own(w, o, options);
	} else {
		world_draw_place(w, o, &place);
		world_make_days(w, o, &place);
	}
	world_keep_log(w, o);
}

static void world_free(struct world *w)
{
	tarn_basin_free(w->basin);
}

#endif
