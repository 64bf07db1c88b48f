/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn.h"

#define NEAR(got, want, within) \
	cr_expect(fabs((got) - (want)) <= (within), "%.9g, want %.9g", got, want)

static struct tarn_exposure_budget budget(struct tarn_exposure site,
					  enum tarn_method m)
{
	struct tarn_exposure_budget b;
	struct tarn_error err = { 0 };

	cr_assert(tarn_exposure_budget(&site, NULL, m, 0, &b, &err) == TARN_OK,
		  "%s: %s", err.field, err.text);
	return b;
}

/* The worked sum of docs/methods/exposure.md, by hand: 0.14, 0.07, 0.04, 0.11
 * and 0.08 of a walled yard in half shade come to 0.2112. */
Test(exposure, sums_a_walled_yard)
{
	struct tarn_exposure site = tarn_exposure_default();
	struct tarn_exposure_budget b;

	site.wind = TARN_WIND_WALLED_YARD;
	site.sun = TARN_SUN_HALF_SHADE;
	b = budget(site, TARN_PENMAN_1956);
	NEAR(b.centre_sd_ln, 0.2112, 0.00005);
	NEAR(exp(b.centre_ln), 0.88 * 1.03, 1e-12);
	cr_expect(b.shelter == 0.35 && b.shade == 0.65);
	cr_expect(b.wind_described && b.sun_described &&
		  !b.surroundings_described && !b.measured);
}

Test(exposure, a_number_stands_for_its_word)
{
	struct tarn_exposure site = tarn_exposure_default();
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_exposure_budget b;

	o.shelter = 0.6;
	o.shade = 0.7;
	cr_assert(tarn_exposure_budget(&site, &o, TARN_GRASS, 0, &b, NULL) ==
		  TARN_OK);
	cr_expect(b.shelter == 0.6 && b.shade == 0.7);
	cr_expect(b.wind_described && b.sun_described);
	NEAR(b.sd_ln[TARN_TERM_WIND], 0.025, 1e-12);
	NEAR(b.sd_ln[TARN_TERM_SUN], 0.07, 1e-12);
}

/* Precisions add: prior 1/0.21^2 about ln c, datum 1/0.08^2 about ln 0.7. */
Test(exposure, a_measurement_narrows)
{
	struct tarn_exposure site = tarn_exposure_default();
	struct tarn_exposure_budget before = budget(site, TARN_GRASS), b;
	double p = 1 / (before.centre_sd_ln * before.centre_sd_ln);
	double d = 1 / (0.08 * 0.08);

	site.measured = 0.7;
	b = budget(site, TARN_GRASS);
	cr_expect(b.measured);
	NEAR(1 / (b.centre_sd_ln * b.centre_sd_ln), p + d,
			     1e-9 * (p + d));
	NEAR(b.centre_ln,
			     before.centre_ln +
			     d / (p + d) * (log(0.7) - before.centre_ln),
			     1e-12);
	cr_expect(b.centre_sd_ln < 0.08);
}

Test(exposure, refuses_what_has_no_centre)
{
	struct tarn_exposure site = tarn_exposure_default();
	struct tarn_exposure_budget b;
	struct tarn_error err = { 0 };

	cr_expect(tarn_exposure_budget(&site, NULL, TARN_MASS_TRANSFER, 0, &b,
				       &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "method");
	cr_expect(tarn_exposure_budget(&site, NULL, TARN_METHOD_AUTO, 0, &b,
				       NULL) == TARN_EARG);
	site.measured = 0;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_exposure_budget(&site, NULL, TARN_GRASS, 0, &b, &err) ==
		  TARN_EARG);
	cr_expect_str_eq(err.field, "site.measured");
}

/* Every class has a word of its own, a median, and less doubt than none. */
Test(exposure, classes)
{
	const struct tarn_exposure_class *c, *none = tarn_exposure_wind(0);
	int i;

	for (i = 1; (c = tarn_exposure_wind((enum tarn_exposure_wind)i)); i++)
		cr_expect(c->effect_sd < none->effect_sd && c->median > 0 &&
			  strcmp(c->word, none->word) != 0, "%s", c->word);
	cr_expect_eq(i, TARN_WIND_CLASSES);
	for (i = 0; (c = tarn_exposure_sun((enum tarn_exposure_sun)i)); i++)
		cr_expect(c->median > 0 && c->median <= 1, "%s", c->word);
	cr_expect_eq(i, TARN_SUN_CLASSES);
	for (i = 0; (c = tarn_exposure_surroundings(
			     (enum tarn_exposure_surroundings)i)); i++)
		cr_expect(c->median >= 1 && c->median < 1.4, "%s", c->word);
	cr_expect_eq(i, TARN_SURROUNDINGS_CLASSES);
	for (i = 0; (c = tarn_exposure_station(
			     (enum tarn_exposure_station)i)); i++)
		cr_expect(c->sd <= 0.1, "%s", c->word);
	cr_expect_eq(i, TARN_STATION_CLASSES);
	cr_expect_str_eq(tarn_exposure_term_name(TARN_TERM_SUN), "sun");
}

static void same_class(const struct tarn_exposure_class *c, const double want[3])
{
	cr_expect(fabs(c->median - want[0]) < 1e-12 &&
		  fabs(c->sd - want[1]) < 1e-12 &&
		  fabs(c->effect_sd - want[2]) < 1e-12, "%s: %g %g %g", c->word,
		  c->median, c->sd, c->effect_sd);
}

/* Our own judgements: a change of one is meant, or is none. */
Test(exposure, classes_regression)
{
	static const double winds[][3] = {
		{ 0.50, 0.50, 0.05 }, { 1.00, 0.15, 0.02 }, { 0.75, 0.25, 0.03 },
		{ 0.50, 0.35, 0.04 }, { 0.35, 0.40, 0.04 }, { 0.30, 0.45, 0.04 },
		{ 0.20, 0.50, 0.04 },
	};
	static const double suns[][3] = {
		{ 0.80, 0.15, 0.13 }, { 0.97, 0.02, 0.014 }, { 0.85, 0.07, 0.06 },
		{ 0.65, 0.10, 0.11 }, { 0.45, 0.12, 0.175 }, { 0.25, 0.12, 0.21 },
	};
	static const double grounds[][3] = {
		{ 1.03, 0.08, 0.08 }, { 1.00, 0.05, 0.05 }, { 1.05, 0.08, 0.08 },
		{ 1.13, 0.10, 0.10 },
	};
	static const double stations[][3] = {
		{ 1, 0.07, 0.07 }, { 1, 0, 0 }, { 1, 0.04, 0.04 },
		{ 1, 0.07, 0.07 }, { 1, 0.10, 0.10 },
	};

	for (int i = 0; i < TARN_WIND_CLASSES; i++)
		same_class(tarn_exposure_wind((enum tarn_exposure_wind)i),
			   winds[i]);
	for (int i = 0; i < TARN_SUN_CLASSES; i++)
		same_class(tarn_exposure_sun((enum tarn_exposure_sun)i), suns[i]);
	for (int i = 0; i < TARN_SURROUNDINGS_CLASSES; i++)
		same_class(tarn_exposure_surroundings(
				   (enum tarn_exposure_surroundings)i),
			   grounds[i]);
	for (int i = 0; i < TARN_STATION_CLASSES; i++)
		same_class(tarn_exposure_station((enum tarn_exposure_station)i),
			   stations[i]);
}

/* A method that knows only warmth is never surer than one that knows more. */
Test(exposure, warmth_alone_is_less)
{
	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++) {
		struct tarn_method_centre all =
			tarn_method_centre((enum tarn_method)m, 0);
		struct tarn_method_centre warmth =
			tarn_method_centre((enum tarn_method)m, 1);

		cr_expect(warmth.sd >= all.sd && warmth.sd >= 0.19);
		cr_expect(warmth.slow_sd >= all.slow_sd);
	}
}
