/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/exposure.h"
#include "internal.h"
#include "formulas.h"

/* ---- rows ------------------------------------------------------------------ */

#define WORDS(kind, word_of)                                                 \
	static const char *word_of(size_t i)                                 \
	{                                                                    \
		const struct tarn_exposure_class *c =                        \
			tarn_exposure_##kind((enum tarn_exposure_##kind)i);  \
                                                                             \
		return c ? c->word : NULL;                                   \
	}
WORDS(wind, wind_word)
WORDS(sun, sun_word)
WORDS(surroundings, surroundings_word)
WORDS(station, station_word)

#define T struct tarn_exposure
#define CLASS(member, count, word_of, text)                                  \
	{ .name = #member, .kind = TARN_FIELD_CHOICE,                        \
	  .offset = offsetof(T, member), .lo = 0, .hi = count - 1,           \
	  .unit = "-", .word = word_of, .otherwise = 0, .meaning = text }
static const struct tarn_field rows[] = {
	CLASS(wind, TARN_WIND_CLASSES, wind_word,
	      "what keeps the wind from the pond; for a number, "
	      "evaporation.shelter"),
	CLASS(sun, TARN_SUN_CLASSES, sun_word,
	      "how much sun the pond has; for a number, "
	      "evaporation.shade"),
	CLASS(surroundings, TARN_SURROUNDINGS_CLASSES, surroundings_word,
	      "the ground about the pond"),
	CLASS(station, TARN_STATION_CLASSES, station_word,
	      "how far off the weather was measured"),
	TARN_IN_NUMBER(T, measured, "measured", "-", 0.1, 3, TARN_NAN,
		       "evaporation measured at the pond / the method's for "
		       "the same days at this place"),
	TARN_IN_VALUE(T, measured_sd, "measured_sd", "-", 0.01, 1, 0.08,
		      "its standard deviation, of ln"),
};
TARN_FIELDS(tarn_exposure_fields, "site", rows);
#undef CLASS
#undef T
TARN_DEFAULT(struct tarn_exposure, tarn_exposure_default,
	     tarn_exposure_fields)

static const char *const terms[] = {
	[TARN_TERM_METHOD] = "method",
	[TARN_TERM_STATION] = "station",
	[TARN_TERM_WIND] = "wind",
	[TARN_TERM_SUN] = "sun",
	[TARN_TERM_SURROUNDINGS] = "surroundings",
	[TARN_TERMS] = NULL
};

#define T struct tarn_exposure_budget
static const struct tarn_field budget_rows[] = {
	TARN_OUT_NUMBER(T, shelter, "shelter", "-",
			"wind at the pond / in the open, as run"),
	TARN_OUT_NUMBER(T, shade, "shade", "-",
			"sun at the pond / in the open, as run"),
	TARN_OUT_NAMED(T, mean_ln, "mean_ln", terms, 1, "-",
		       "mean of ln of each term's factor"),
	TARN_OUT_NAMED(T, sd_ln, "sd_ln", terms, 1, "-",
		       "standard deviation of ln of each term's factor"),
	TARN_OUT_NUMBER(T, centre_ln, "centre_ln", "-",
			"ln of the factor in the middle"),
	TARN_OUT_NUMBER(T, centre_sd_ln, "centre_sd_ln", "-",
			"standard deviation of ln of the factor"),
	TARN_OUT_NUMBER(T, grass_ln, "grass_ln", "-",
			"ln of the factor of plants' water in the middle"),
	TARN_OUT_NUMBER(T, slow_sd_ln, "slow_sd_ln", "-",
			"of 30 days about the rest, of ln"),
	TARN_OUT_NUMBER(T, day_sd, "day_sd", "-",
			"of a day about the rest, relative"),
	TARN_OUT_SWITCH(T, wind_described, "wind_described",
			"a word or a number is given for the wind"),
	TARN_OUT_SWITCH(T, sun_described, "sun_described",
			"a word or a number is given for the sun"),
	TARN_OUT_SWITCH(T, surroundings_described, "surroundings_described",
			"a word is given for the surroundings"),
	TARN_OUT_SWITCH(T, measured, "measured",
			"a measurement is in the centre"),
	TARN_OUT_SWITCH(T, calibrated, "calibrated",
			"open_water_factor is the centre"),
};
TARN_FIELDS(tarn_exposure_budget_fields, "budget", budget_rows);
#undef T

const char *tarn_exposure_term_name(enum tarn_exposure_term t)
{
	return (unsigned)t < TARN_TERMS ? terms[t] : "unknown";
}

/* ---- wind and sun of a place ------------------------------------------------- */

enum tarn_status tarn_exposure_medians(const struct tarn_exposure *site,
				       double *shelter, double *shade,
				       struct tarn_error *err)
{
	enum tarn_status s = tarn_fields_check(&tarn_exposure_fields, site,
					       err);

	if (s != TARN_OK)
		return s;
	*shelter = or_else(*shelter, tarn_exposure_wind(
		(enum tarn_exposure_wind)site->wind)->median);
	*shade = or_else(*shade, tarn_exposure_sun(
		(enum tarn_exposure_sun)site->sun)->median);
	return TARN_OK;
}

/* Shares of a method's run that go with wind and sun: the middle of April to
 * October at De Bilt, 1980 to 2019, and Fallon, 2015; our own. */
static const struct {
	double wind, sun;
} run_shares[TARN_METHODS] = {
	[TARN_PENMAN_1956] = { TARN_WIND_SHARE, TARN_SUN_SHARE },
	[TARN_PENMAN_1948] = { 0.17, 0.66 },
	[TARN_PENMAN_HEAT] = { 0.24, 0.61 },
	[TARN_PRIESTLEY_TAYLOR] = { 0, 1 },
	[TARN_GRASS] = { 0.25, 0.58 },
	[TARN_HARGREAVES] = { 0, 1 },
	[TARN_MASS_TRANSFER] = { 0.57, 0 },
};

double tarn_exposure_run_factor(enum tarn_method m, double shelter,
				double shade)
{
	if ((unsigned)m >= TARN_METHODS || m == TARN_METHOD_AUTO ||
	    outside(shelter, 0, 2) || outside(shade, 0, 1))
		return TARN_NAN;
	return 1 - run_shares[m].wind * (1 - shelter) -
	       run_shares[m].sun * (1 - shade);
}

/* ---- the budget -------------------------------------------------------------- */

static void put(struct tarn_exposure_budget *b, enum tarn_exposure_term t,
		double mean_ln, double sd_ln)
{
	b->mean_ln[t] = mean_ln;
	b->sd_ln[t] = sd_ln;
}

/* A number stands for the median of its class, with a spread of its own. */
static void put_wind(struct tarn_exposure_budget *b,
		     const struct tarn_exposure *site, double given)
{
	const struct tarn_exposure_class *c =
		tarn_exposure_wind((enum tarn_exposure_wind)site->wind);
	int by_number = !isnan(given);

	b->shelter = by_number ? given : c->median;
	b->wind_described = by_number || site->wind != TARN_WIND_NOT_DESCRIBED;
	put(b, TARN_TERM_WIND, 0,
	    by_number ? TARN_SHELTER_ELASTICITY * TARN_SHELTER_GIVEN_SD
		      : c->effect_sd);
}

static void put_sun(struct tarn_exposure_budget *b,
		    const struct tarn_exposure *site, double given)
{
	const struct tarn_exposure_class *c =
		tarn_exposure_sun((enum tarn_exposure_sun)site->sun);
	int by_number = !isnan(given);

	b->shade = by_number ? given : c->median;
	b->sun_described = by_number || site->sun != TARN_SUN_NOT_DESCRIBED;
	put(b, TARN_TERM_SUN, 0,
	    by_number ? TARN_SUN_ELASTICITY * TARN_SUN_GIVEN_SD /
				fmax(given, TARN_SUN_GIVEN_SD)
		      : c->effect_sd);
}

/* A pond's evaporation there over that in the open: the same line as Penman's
 * 1956, whose shares are the pond's. */
static double pond_factor(double shelter, double shade)
{
	return tarn_exposure_run_factor(TARN_PENMAN_1956, shelter, shade);
}

/* What the method's run has not of the place: the pond's over the run's. */
static void put_place(struct tarn_exposure_budget *b, enum tarn_method m)
{
	double wind = log(pond_factor(b->shelter, 1) /
			  tarn_exposure_run_factor(m, b->shelter, 1));
	double shade = fmax(b->shade, TARN_SUN_TERM_LEAST);
	double all = log(pond_factor(b->shelter, shade) /
			 tarn_exposure_run_factor(m, b->shelter, shade));

	b->mean_ln[TARN_TERM_WIND] = wind;
	b->mean_ln[TARN_TERM_SUN] = all - wind;
}

static void sum_up(struct tarn_exposure_budget *b)
{
	double variance = 0;

	b->centre_ln = 0;
	for (int t = 0; t < TARN_TERMS; t++) {
		b->centre_ln += b->mean_ln[t];
		variance += b->sd_ln[t] * b->sd_ln[t];
	}
	b->centre_sd_ln = sqrt(variance);
}

/* Normal prior, one normal datum. */
static void measure(struct tarn_exposure_budget *b, double datum_ln, double sd)
{
	double prior = 1 / (b->centre_sd_ln * b->centre_sd_ln);
	double datum = 1 / (sd * sd);

	b->centre_ln = (prior * b->centre_ln + datum * datum_ln) /
		       (prior + datum);
	b->centre_sd_ln = sqrt(1 / (prior + datum));
	b->measured = 1;
}

enum tarn_status
tarn_exposure_budget(const struct tarn_exposure *site,
		     const struct tarn_evaporation_options *o,
		     enum tarn_method m, int warmth_only,
		     struct tarn_exposure_budget *out, struct tarn_error *err)
{
	struct tarn_method_centre method = tarn_method_centre(m, warmth_only);
	struct tarn_exposure_budget b = { .day_sd = TARN_EXPOSURE_DAY_SD,
					  .slow_sd_ln = method.slow_sd };
	const struct tarn_exposure_class *c;
	enum tarn_status s = tarn_fields_check(&tarn_exposure_fields, site,
					       err);

	if (s != TARN_OK)
		return s;
	if (isnan(method.median))
		return tarn_fail(err, TARN_EARG, "method", "%s has no centre: "
				 "its error is not known for ponds; take "
				 "another method", tarn_method_name(m));
	put(&b, TARN_TERM_METHOD, log(method.median), method.sd);
	c = tarn_exposure_station((enum tarn_exposure_station)site->station);
	put(&b, TARN_TERM_STATION, log(c->median), c->sd);
	c = tarn_exposure_surroundings(
		(enum tarn_exposure_surroundings)site->surroundings);
	put(&b, TARN_TERM_SURROUNDINGS, log(c->median), c->sd);
	b.surroundings_described = site->surroundings !=
				   TARN_SURROUNDINGS_NOT_DESCRIBED;
	put_wind(&b, site, o ? o->shelter : TARN_NAN);
	put_sun(&b, site, o ? o->shade : TARN_NAN);
	put_place(&b, m);
	if (m == TARN_GIVEN)
		memset(b.mean_ln, 0, sizeof b.mean_ln);
	sum_up(&b);
	if (!isnan(site->measured))
		measure(&b, log(site->measured), site->measured_sd);
	b.grass_ln = b.centre_ln - b.mean_ln[TARN_TERM_METHOD];
	*out = b;
	return TARN_OK;
}
