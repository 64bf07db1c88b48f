/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/forecast.h"

/* ---- budgets afterwards ------------------------------------------------------ */

static double square(double x)
{
	return x * x;
}

static double terms_variance(const struct tarn_exposure_budget *b)
{
	double sum = 0;

	for (int t = 0; t < TARN_TERMS; t++)
		sum += square(b->sd_ln[t]);
	return sum;
}

/* What a measurement or a calibration that is in the centre already says, as a
 * precision. */
static double datum_of(const struct tarn_exposure_budget *b)
{
	double rest = 1 / square(b->centre_sd_ln) - 1 / terms_variance(b);

	return (b->measured || b->calibrated) && rest > 0 ? rest : 0;
}

static void sum_up(struct tarn_exposure_budget *b, double datum)
{
	double prior = terms_variance(b);

	b->centre_sd_ln = prior > 0 ? sqrt(1 / (1 / prior + datum)) : 0;
}

static void lower(double *sd, double to)
{
	if (to < *sd)
		*sd = to;
}

/* Words that somebody may find, with the mean of their variances. */
static double wind_words(void)
{
	double sum = 0;

	for (int c = TARN_WIND_OPEN_FIELD; c < TARN_WIND_CLASSES; c++)
		sum += square(tarn_exposure_wind(c)->effect_sd);
	return sqrt(sum / (TARN_WIND_CLASSES - TARN_WIND_OPEN_FIELD));
}

static double sun_words(void)
{
	double sum = 0;

	for (int c = TARN_SUN_OPEN_SKY; c < TARN_SUN_UNDER_TREES; c++)
		sum += square(tarn_exposure_sun(c)->effect_sd);
	return sqrt(sum / (TARN_SUN_UNDER_TREES - TARN_SUN_OPEN_SKY));
}

static double surroundings_words(void)
{
	double sum = 0;
	int first = TARN_SURROUNDINGS_LAWN;

	for (int c = first; c < TARN_SURROUNDINGS_CLASSES; c++)
		sum += square(tarn_exposure_surroundings(c)->effect_sd);
	return sqrt(sum / (TARN_SURROUNDINGS_CLASSES - first));
}

static void describe(struct tarn_exposure_budget *b)
{
	if (!b->wind_described)
		lower(&b->sd_ln[TARN_TERM_WIND], wind_words());
	if (!b->sun_described)
		lower(&b->sd_ln[TARN_TERM_SUN], sun_words());
	if (!b->surroundings_described)
		lower(&b->sd_ln[TARN_TERM_SURROUNDINGS], surroundings_words());
	b->wind_described = b->sun_described = b->surroundings_described = 1;
}

struct tarn_exposure_budget
tarn_exposure_after(const struct tarn_exposure_budget *budget,
		     enum tarn_remedy m)
{
	struct tarn_exposure_budget b = *budget;
	double datum = datum_of(budget);

	if ((unsigned)m >= TARN_REMEDIES)
		return b;
	switch (m) {
	case TARN_REMEDY_BUCKET:
		datum += 1 / square(TARN_BUCKET_SD_LN);
		b.measured = 1;
		break;
	case TARN_REMEDY_SUN:
		lower(&b.sd_ln[TARN_TERM_SUN], TARN_SUN_MEASURED_SD_LN);
		b.sun_described = 1;
		break;
	case TARN_REMEDY_STATION:
		lower(&b.sd_ln[TARN_TERM_STATION],
		      tarn_exposure_station(TARN_STATION_GARDEN)->effect_sd);
		break;
	case TARN_REMEDY_WIND:
		lower(&b.sd_ln[TARN_TERM_WIND], TARN_WIND_MEASURED_SD_LN);
		b.wind_described = 1;
		break;
	case TARN_REMEDY_WORDS:
	default:
		describe(&b);
	}
	sum_up(&b, datum);
	return b;
}

/* ---- worth -------------------------------------------------------------------- */

#define HALF 0.5

#define P90_OF_NORMAL 1.2815515655446004

/* A width after a normal part of it has lost some of its variance. */
static double narrowed(double width, double by, double less)
{
	double part = square(2 * P90_OF_NORMAL * by) * less;

	return width > 0 ? sqrt(fmax(0, 1 - part / square(width))) : 1;
}

int tarn_worth(const struct tarn_forecast_range *range,
	       const struct tarn_exposure_budget *budget,
	       struct tarn_worth out[TARN_REMEDIES])
{
	double all = range->p90_m3 - range->p10_m3;
	double sites = range->site_p90_m3 - range->site_p10_m3;
	int count = 0;

	if (!(all > 0))
		return 0;
	for (int m = 0; m < TARN_REMEDIES; m++) {
		double sd_ln = tarn_exposure_after(budget, m).centre_sd_ln;
		double less = square(budget->centre_sd_ln) - square(sd_ln);
		struct tarn_worth w = { .remedy = m, .centre_sd_ln = sd_ln };
		int at = count;

		if (!(less > 1e-9))
			continue;
		w.ratio = narrowed(all, range->by_ln_m3, less);
		w.site_ratio = narrowed(sites, range->by_ln_m3, less);
		w.halves = w.ratio <= HALF;
		for (; at > 0 && out[at - 1].ratio > w.ratio; at--)
			out[at] = out[at - 1];
		out[at] = w;
		count++;
	}
	return count;
}
