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

/* Of the words; what is given stays. */
Test(exposure, medians_of_words)
{
	struct tarn_exposure site = tarn_exposure_default();
	double shelter = TARN_NAN, shade = TARN_NAN;

	cr_assert(tarn_exposure_medians(&site, &shelter, &shade, NULL) ==
		  TARN_OK);
	cr_expect(shelter == 0.5 && shade == 0.8);
	site.wind = TARN_WIND_COURTYARD;
	site.sun = TARN_SUN_UNDER_TREES;
	shelter = 0.9;
	shade = TARN_NAN;
	cr_assert(tarn_exposure_medians(&site, &shelter, &shade, NULL) ==
		  TARN_OK);
	cr_expect(shelter == 0.9 && shade == 0.25);
	site.sun = TARN_SUN_CLASSES;
	shade = TARN_NAN;
	cr_expect(tarn_exposure_medians(&site, &shelter, &shade, NULL) ==
		  TARN_EARG);
	cr_expect(isnan(shade));
}

static struct tarn_weather *fallon(void)
{
	struct tarn_weather *w;
	struct tarn_error err = { 0 };

	cr_assert(tarn_weather_read(&w, NULL,
				    "weather-samples/fallon_daily_2015.csv",
				    NULL, NULL, &err) == TARN_OK, "%s",
		  err.text);
	return w;
}

/* Evaporation by a method from April to October at Fallon, mm. */
static double season_mm(const struct tarn_weather *w, enum tarn_method m,
			double shelter, double shade)
{
	static double open_mm[366];
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_error err = { 0 };
	double sum = 0;

	o.method = (int)m;
	o.shelter = shelter;
	o.shade = shade;
	o.latitude_deg = 39.5;
	o.elevation_m = 1200;
	o.area_m2 = 20;
	o.depth_m = 0.8;
	cr_assert(tarn_weather_days(w) <= 366);
	cr_assert(tarn_evaporation_run(w, &o, open_mm, NULL, NULL, NULL,
				       &err) == TARN_OK, "%s", err.text);
	for (size_t i = 90; i < 304 && i < tarn_weather_days(w); i++)
		sum += open_mm[i];
	return sum;
}

/* Another program's Penman 1956 with net longwave radiation times shade, written
 * for the study behind docs/methods/exposure.md: Fallon, April to October, over
 * the open site.  It prints three digits. */
Test(exposure, wind_and_sun_as_another_program_has_them)
{
	static const double row[][3] = {
		{ 0.75, 1, 0.953 }, { 0.5, 1, 0.906 }, { 0.35, 1, 0.878 },
		{ 0.2, 1, 0.850 },
		{ 1, 0.85, 0.895 }, { 1, 0.65, 0.755 }, { 1, 0.5, 0.650 },
		{ 1, 0.25, 0.475 },
	};
	struct tarn_weather *w = fallon();
	double open_mm = season_mm(w, TARN_PENMAN_1956, 1, 1);

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		NEAR(season_mm(w, TARN_PENMAN_1956, row[i][0], row[i][1]) /
			     open_mm, row[i][2], 0.001);
	tarn_weather_free(w);
}

/* The straight lines are as steep as the methods' own runs, within a tenth. */
Test(exposure, run_factors_are_those_of_the_runs)
{
	static const double place[][2] = {
		{ 0.5, 1 }, { 1, 0.65 }, { 0.35, 0.65 }, { 1, 1 }
	};
	struct tarn_weather *w = fallon();

	for (int m = TARN_PENMAN_1956; m <= TARN_MASS_TRANSFER; m++)
		for (int i = 0; i < 4; i++) {
			double run = season_mm(w, (enum tarn_method)m,
					       place[i][0], place[i][1]) /
				     season_mm(w, (enum tarn_method)m, 1, 1);

			NEAR(tarn_exposure_run_factor((enum tarn_method)m,
						      place[i][0], place[i][1]),
			     run, 0.1 * run);
		}
	tarn_weather_free(w);
	for (int m = TARN_PAN_COEFFICIENT; m < TARN_METHODS; m++)
		cr_expect(tarn_exposure_run_factor((enum tarn_method)m, 0.3,
						   0.4) == 1);
	cr_expect(isnan(tarn_exposure_run_factor(TARN_GRASS, 2.1, 1)));
	cr_expect(isnan(tarn_exposure_run_factor(TARN_GRASS, -0.1, 1)));
	cr_expect(isnan(tarn_exposure_run_factor(TARN_GRASS, 1, 1.1)));
	cr_expect(isnan(tarn_exposure_run_factor(TARN_GRASS, 1, -0.1)));
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
