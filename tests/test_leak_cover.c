/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>

#include "leak_trials.h"
#include "tarn/leak_advice.h"

/*
 * The tables of docs/methods/leak.md in small: fewer ponds, fixed seeds, and
 * bounds that the binomial distribution gives.  Counts that a true share would
 * give less than once in a thousand fail.
 */

#define RARE 0.001

/* Chance of k of n or fewer. */
static double at_most(int k, int n, double share)
{
	double sum = 0;

	for (int i = 0; i <= k; i++)
		sum += exp(lgamma(n + 1) - lgamma(i + 1) - lgamma(n - i + 1) +
			   i * log(share) + (n - i) * log(1 - share));
	return sum;
}

static int too_few(int k, int n, double least)
{
	return at_most(k, n, least) < RARE;
}

static int too_many(int k, int n, double most)
{
	return k > 0 && 1 - at_most(k - 1, n, most) < RARE;
}

Test(leak_cover, bounds)
{
	/* none of ten, all of twenty */
	cr_expect(fabs(at_most(0, 10, 0.5) - 1.0 / 1024) < 1e-12);
	cr_expect(fabs(1 - at_most(19, 20, 0.86) - pow(0.86, 20)) < 1e-12);
	cr_expect(too_few(0, 10, 0.5) && !too_few(1, 10, 0.5));
	cr_expect(too_many(10, 10, 0.5) && !too_many(9, 10, 0.5));
}

/* Shares of intervals of 90 % that hold, of false alarms, of 5 mm/d found. */
static void expect_trials(const char *name, const struct trials *t,
			  double least, double most)
{
	cr_expect(!too_few(t->held, t->ponds, least) &&
		  !too_many(t->held, t->ponds, most), "%s: %d of %d hold",
		  name, t->held, t->ponds);
	cr_expect(!too_many(t->alarms, t->sound, 0.06),
		  "%s: %d of %d sound ponds outside", name, t->alarms,
		  t->sound);
	cr_expect(!too_many(t->refused, t->ponds + t->refused, 0.02),
		  "%s: %d refused", name, t->refused);
}

Test(leak_cover, described_sites)
{
	struct world_order o = { .site = SITE_DESCRIBED, .days = 28 };
	struct trials t = try_losses(&o, 300, 11000000);

	expect_trials("by hand", &t, 0.86, 0.94);
	cr_expect(!too_few(t.found, t.lossy, 0.95), "%d of %d found", t.found,
		  t.lossy);
	o.filled = FILLED_METERED;
	t = try_losses(&o, 150, 12000000);
	expect_trials("metered", &t, 0.86, 0.94);
	o.filled = FILLED_FLOAT_METERED;
	t = try_losses(&o, 150, 13000000);
	expect_trials("float", &t, 0.86, 0.97);
}

Test(leak_cover, sites_that_are_not_described)
{
	struct world_order o = { .site = SITE_UNDESCRIBED, .days = 28 };
	struct trials t = try_losses(&o, 300, 21000000);

	expect_trials("undescribed", &t, 0.84, 0.98);
	o.site = SITE_EVEN;
	t = try_losses(&o, 150, 22000000);
	expect_trials("even", &t, 0.84, 0.99);
	o.site = SITE_SUN_ALONE;
	o.days = 56;
	t = try_losses(&o, 150, 23000000);
	expect_trials("sun alone", &t, 0.84, 0.98);
}

Test(leak_cover, paved_and_measured)
{
	struct world_order o = { .site = SITE_PAVED, .days = 28 };
	struct trials t = try_losses(&o, 150, 31000000);

	expect_trials("paved", &t, 0.84, 0.97);
	o.site = SITE_MEASURED;
	t = try_losses(&o, 150, 32000000);
	expect_trials("measured", &t, 0.84, 0.97);
	/* a measured ratio halves the width */
	o.site = SITE_UNDESCRIBED;
	cr_expect(2 * t.width / t.ponds <
		  try_losses(&o, 60, 33000000).width / 60);
}

/* None is reassured; of those without a valve some are. */
Test(leak_cover, no_pond_that_a_valve_fills_is_reassured)
{
	struct world_order o = { .site = SITE_DESCRIBED, .days = 42,
				 .filled = FILLED_VALVE, .loss_mm_d = 5 };
	struct trials t = try_ponds(&o, 100, 41000000);

	cr_expect(t.inside == 0, "%d of %d inside", t.inside, t.ponds);
	o.filled = FILLED_VALVE_DESCRIBED;
	t = try_ponds(&o, 100, 42000000);
	cr_expect(t.inside == 0, "described: %d of %d inside", t.inside,
		  t.ponds);
	o.filled = FILLED_BY_HAND;
	o.loss_mm_d = 0;
	t = try_ponds(&o, 100, 43000000);
	cr_expect(t.inside >= 25, "%d of %d sound ponds inside", t.inside,
		  t.ponds);
	cr_expect(!too_many(t.level_held, t.ponds, 0.02), "%d of %d held",
		  t.level_held, t.ponds);
}

/* Where the level is held nothing that such a log cannot know is told. */
Test(leak_cover, a_held_level_tells_nothing)
{
	static struct world w;
	struct world_order o = { .site = SITE_DESCRIBED, .days = 56,
				 .filled = FILLED_VALVE };
	int found = 0;

	for (uint64_t i = 0; i < 40; i++) {
		const struct tarn_leak_result *r;
		struct tarn_leak *leak;
		struct tarn_pond p;

		cr_assert(trial_fit(&leak, &w, 51000000 + i, &o));
		r = tarn_leak_result(leak);
		found += r->held.found;
		if (r->held.found) {
			cr_expect(r->verdict == TARN_CANNOT_TELL && !r->gains &&
				  !r->head_tells && !r->change.found);
			cr_expect(tarn_leak_calibrated(r, &w.pond, &p, NULL) ==
				  TARN_EARG);
			cr_expect(r->held.share >= TARN_HELD_SHARE &&
				  r->held.filled_mm <= r->held.asked_mm);
		} else {
			cr_expect(isnan(r->held.level_m));
		}
		tarn_leak_free(leak);
		world_free(&w);
	}
	cr_expect(found >= 20, "%d of 40 found", found);
}

/* Ranks of worlds from the fit's own prior fall evenly. */
Test(leak_cover, ranks_are_even)
{
	double loss, factor;

	rank_ponds(30, 600, 61000000, &loss, &factor);
	cr_expect(loss < CHI_SQUARE_9_999, "s: %g", loss);
	cr_expect(factor < CHI_SQUARE_9_999, "f: %g", factor);
}

/* ---- priors, the slow errors, the meter -------------------------------------- */

Test(leak_cover, priors)
{
	cr_expect(tarn_leak_prior(TARN_SITE_DESCRIBED).sd <
		  tarn_leak_prior(TARN_SITE_HALF_DESCRIBED).sd);
	cr_expect(tarn_leak_prior(TARN_SITE_HALF_DESCRIBED).sd <
		  tarn_leak_prior(TARN_SITE_UNDESCRIBED).sd);
	cr_expect(isnan(tarn_leak_prior((enum tarn_leak_site)-1).mean));
	cr_expect(isnan(tarn_leak_prior((enum tarn_leak_site)6).sd));
}

/* One slow error a 30 days, up to TARN_SLOW_MOST of them; none where it is 0. */
Test(leak_cover, slow_errors_are_counted)
{
	static const struct { size_t days, effects; } rows[] = {
		{ 14, 1 }, { 44, 1 }, { 46, 2 }, { 90, 3 }, { 180, 6 }
	};
	static struct world w;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct world_order o = { .site = SITE_FIT_OWN, .clean = 1,
					 .days = rows[i].days };
		const struct tarn_leak_result *r;
		struct tarn_leak *leak;

		cr_assert(trial_fit(&leak, &w, 71000000 + i, &o));
		r = tarn_leak_result(leak);
		cr_expect(r->slow_effects == rows[i].effects, "%zu days: %zu",
			  rows[i].days, r->slow_effects);
		cr_expect(fabs(r->slow_days * (double)r->slow_effects -
			       (double)rows[i].days) < 1e-9);
		tarn_leak_free(leak);
		world_free(&w);
	}
}

/* Mean and deviation of exp(N(0.05, 0.08)), not under 0.98, by adding up. */
Test(leak_cover, a_float_passes_more_than_its_meter_counts)
{
	static struct world w;
	struct world_order o = { .site = SITE_DESCRIBED, .days = 28,
				 .filled = FILLED_FLOAT_METERED,
				 .valve_band_m = 0.01 };
	const struct tarn_leak_result *r;
	double sum = 0, mean = 0, square = 0;
	struct tarn_leak *leak;

	for (double ln = log(0.98); ln < 0.6; ln += 1e-4) {
		double chance = exp(-pow((ln - 0.05) / 0.08, 2) / 2);

		sum += chance;
		mean += chance * exp(ln);
		square += chance * exp(2 * ln);
	}
	mean /= sum;
	cr_assert(trial_fit(&leak, &w, 81000000, &o));
	r = tarn_leak_result(leak);
	cr_expect(r->meter_by_float);
	cr_expect(fabs(r->meter_mean - mean) < 1e-3, "%g, not %g",
		  r->meter_mean, mean);
	cr_expect(fabs(r->meter_sd - sqrt(square / sum - mean * mean)) < 3e-3,
		  "%g", r->meter_sd);
	tarn_leak_free(leak);
	world_free(&w);
}

/* ---- how many more days --------------------------------------------------- */

/* The log's first 'count' readings. */
static int first_readings(const struct world *w, size_t count,
			  const struct tarn_leak_options *o,
			  struct tarn_log_advice *advice, double *days,
			  double *resolvable_mm_d)
{
	struct tarn_leak *leak;
	const struct tarn_interval *intervals;
	size_t n;

	if (tarn_leak_fit(&leak, NULL, &w->pond, &w->forcing, w->readings, count,
			  o, NULL) != TARN_OK)
		return 0;
	intervals = tarn_leak_intervals(leak, &n);
	*advice = tarn_log_advise(tarn_leak_result(leak), intervals, n, o);
	*days = tarn_leak_result(leak)->days;
	*resolvable_mm_d = tarn_leak_result(leak)->resolvable_mm_d;
	tarn_leak_free(leak);
	return 1;
}

/* Days from 'now' on after which the log of a world tells what matters; HUGE_VAL:
 * not within it. */
static double days_it_took(const struct world *w, size_t count, double now,
			   const struct tarn_leak_options *o)
{
	struct tarn_log_advice advice;
	double days, resolvable_mm_d;

	while (++count <= w->count)
		if (first_readings(w, count, o, &advice, &days,
				   &resolvable_mm_d) &&
		    resolvable_mm_d <= o->matters_mm_d)
			return days - now;
	return HUGE_VAL;
}

Test(leak_cover, days_that_a_log_still_needs)
{
	static struct world w;
	int told = 0, inside = 0;

	for (int i = 0; i < 120; i++) {
		struct world_order order = { .site = SITE_DESCRIBED, .days = 90 };
		struct tarn_leak_options o = trial_options(order.site);
		struct tarn_log_advice a;
		double now, resolvable_mm_d, took;

		world_make(&w, 91000000 + (uint64_t)i, &order, &o);
		if (first_readings(&w, 3 + (size_t)i % 6, &o, &a, &now,
				   &resolvable_mm_d) && a.more_most_d > 0) {
			took = days_it_took(&w, 3 + (size_t)i % 6, now, &o);
			told++;
			inside += a.more_least_d <= took + 1 &&
				  took <= a.more_most_d + 1;
		}
		world_free(&w);
	}
	cr_expect(told >= 40 && inside >= 0.7 * told && inside <= 0.92 * told,
		  "%d of %d", inside, told);
}
