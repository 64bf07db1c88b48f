/* SPDX-License-Identifier: MIT */
#ifndef LEAK_TRIALS_H
#define LEAK_TRIALS_H

/* The leak fit tried on many ponds of leak_world.h. */

#include "leak_world.h"
#include "tarn/design.h"

struct trials {
	int ponds, held, factor, refused;
	int sound, alarms, lossy, found;	/* of 0 and of 5 mm/d */
	int inside, level_held, steps, dates;
	double width;
};

/* The prior of a description that says so much, over its run. */
static struct tarn_leak_prior trial_prior(int said)
{
	struct tarn_evaporation_report penman = { .method = TARN_PENMAN_1956 };
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_leak_prior p;

	if (said != TARN_SITE_UNDESCRIBED)
		d->site.sun = TARN_SUN_MOSTLY_SUNNY;
	if (said != TARN_SITE_UNDESCRIBED && said != TARN_SITE_HALF_DESCRIBED)
		d->site.wind = TARN_WIND_AMONG_HOUSES;
	if (said == TARN_SITE_PAVED)
		d->site.surroundings = TARN_SURROUNDINGS_PAVING;
	p = tarn_design_leak_prior(d, (enum tarn_leak_site)said, &penman);
	tarn_design_free(d);
	return p;
}

/* What an owner's description gives the fit. */
static struct tarn_leak_options trial_options(int site)
{
	static const int said[] = {
		[SITE_DESCRIBED] = TARN_SITE_DESCRIBED,
		[SITE_UNDESCRIBED] = TARN_SITE_UNDESCRIBED,
		[SITE_SUN_ALONE] = TARN_SITE_HALF_DESCRIBED,
		[SITE_PAVED] = TARN_SITE_PAVED,
		[SITE_MEASURED] = TARN_SITE_MEASURED,
		[SITE_OASIS] = TARN_SITE_DESCRIBED,
		[SITE_OASIS_UNDESCRIBED] = TARN_SITE_UNDESCRIBED,
		[SITE_LOW] = TARN_SITE_DESCRIBED,
		[SITE_STATION_OFF] = TARN_SITE_DESCRIBED,
		[SITE_SLOW_WAVE] = TARN_SITE_DESCRIBED,
		[SITE_EVEN] = TARN_SITE_UNDESCRIBED,
		[SITE_FIT_OWN] = TARN_SITE_DESCRIBED,
	};
	struct tarn_leak_options o = tarn_leak_options_default();

	o.site = said[site];
	o.step_m = WORLD_STEP_M;
	o.unnoted = TARN_UNNOTED_SET_ASIDE;
	if (o.site != TARN_SITE_MEASURED) {
		struct tarn_leak_prior p = trial_prior(o.site);

		o.evaporation_mean = p.mean;
		o.evaporation_sd = p.sd;
	}
	if (site == SITE_FIT_OWN)
		o.step_m = 0;
	return o;
}

static int trial_holds(const struct tarn_estimate *e, double truth)
{
	return e->low <= truth && truth <= e->high;
}

static void trial_count(struct trials *t, const struct world *w,
			const struct world_order *o,
			const struct tarn_leak_result *r)
{
	long step = w->forcing.first_day + (long)o->step_day;

	t->ponds++;
	t->held += trial_holds(&r->unexplained_mm_d, o->loss_mm_d);
	t->factor += trial_holds(&r->evaporation_factor, w->factor);
	t->width += r->unexplained_mm_d.high - r->unexplained_mm_d.low;
	t->inside += r->verdict == TARN_INSIDE;
	t->level_held += r->held.found;
	if (o->loss_mm_d < 0.5) {
		t->sound++;
		t->alarms += r->verdict == TARN_OUTSIDE;
	}
	if (o->loss_mm_d > 4.5) {
		t->lossy++;
		t->found += r->verdict == TARN_OUTSIDE;
	}
	t->steps += r->change.found;
	t->dates += r->change.found && r->change.first_day <= step &&
		    step <= r->change.last_day;
}

/* One pond; 0 where the fit refuses it, and asks (a misread level above the
 * lip, a log of nothing but rain). */
static int trial_fit(struct tarn_leak **leak, struct world *w, uint64_t seed,
		     const struct world_order *order)
{
	struct tarn_leak_options o = trial_options(order->site);

	world_make(w, seed, order, &o);
	if (order->site == SITE_MEASURED)	/* by a bucket */
		o.evaporation_mean = w->factor * exp(0.08 * world_normal(w));
	return tarn_leak_fit(leak, NULL, &w->pond, &w->forcing, w->readings,
			     w->count, &o, NULL) == TARN_OK;
}

static void try_one(struct trials *t, const struct world_order *o,
		    uint64_t seed)
{
	static struct world w;
	struct tarn_leak *leak;

	if (trial_fit(&leak, &w, seed, o)) {
		trial_count(t, &w, o, tarn_leak_result(leak));
		tarn_leak_free(leak);
	} else {
		t->refused++;
	}
	world_free(&w);
}

/* Half of the ponds have days that are alike; a valve lets the level fall by 0,
 * 5 or 10 mm. */
static struct trials try_ponds(const struct world_order *order, int ponds,
			       uint64_t seed)
{
	struct trials t = { 0 };

	for (int i = 0; i < ponds; i++) {
		struct world_order o = *order;

		o.remembers = i % 2;
		o.valve_band_m = o.filled == FILLED_FLOAT_METERED ? 0.01
								  : 0.005 * (i % 3);
		try_one(&t, &o, seed + (uint64_t)i);
	}
	return t;
}

/* A third each is sound, loses 2 and 5 mm/d. */
static struct trials try_losses(const struct world_order *order, int ponds,
				uint64_t seed)
{
	static const double loss[] = { 0, 2, 5 };
	struct trials t = { 0 };

	for (int i = 0; i < ponds; i++) {
		struct world_order o = *order;

		o.loss_mm_d = loss[i % 3];
		o.remembers = i / 3 % 2;
		o.valve_band_m = 0.01;
		try_one(&t, &o, seed + (uint64_t)i);
	}
	return t;
}

/* ---- ranks ------------------------------------------------------------------ */

#define RANKS 10
#define CHI_SQUARE_9_95 16.919	/* of 9 degrees of freedom: any table */
#define CHI_SQUARE_9_999 27.877

/*
 * Simulation-based calibration: worlds from the fit's own prior, none loses
 * anything.  The posterior chance that f is under the truth, and that s is (its
 * prior is flat, so that any true loss will do), fall evenly into ten classes.
 */
static void rank_ponds(size_t days, int ponds, uint64_t seed, double *chi_loss,
		       double *chi_factor)
{
	struct world_order o = { .site = SITE_FIT_OWN, .days = days,
				 .clean = 1 };
	int loss[RANKS] = { 0 }, factor[RANKS] = { 0 }, all = 0;
	static struct world w;

	for (int i = 0; i < ponds; i++) {
		struct tarn_leak *leak;

		if (trial_fit(&leak, &w, seed + (uint64_t)i, &o)) {
			const struct tarn_leak_result *r =
				tarn_leak_result(leak);
			const struct tarn_estimate *e = &r->evaporation_factor;
			double z = (w.factor - e->mean) / e->sd;

			all++;
			loss[(int)(RANKS * fmin(0.9999, r->chance_of_loss))]++;
			factor[(int)(RANKS *
				     fmin(0.9999, erfc(-z / sqrt(2)) / 2))]++;
			tarn_leak_free(leak);
		}
		world_free(&w);
	}
	*chi_loss = *chi_factor = 0;
	for (int i = 0; i < RANKS; i++) {
		double even = (double)all / RANKS;

		*chi_loss += (loss[i] - even) * (loss[i] - even) / even;
		*chi_factor += (factor[i] - even) * (factor[i] - even) / even;
	}
}

#endif
