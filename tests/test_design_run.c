/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <criterion/criterion.h>

#include "tarn.h"

/* ---- a run ---------------------------------------------------------------------- */

/* Three of five days, evaporation as the table gives it. */
Test(design, a_weather_as_a_pond_takes_it)
{
	static const char text[] = "date,rain_mm,open_water_mm\n"
		"2020-07-01,0,1\n2020-07-02,1,2\n2020-07-03,0,3\n"
		"2020-07-04,2,4\n2020-07-05,0,5\n";
	static const double rain[] = { 1, 0, 2 };
	struct tarn_run_options o = tarn_run_options_default();
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	struct tarn_resolved made = { 0 };
	struct tarn_sky sky;
	struct tarn_run run;

	tarn_weather_read_text(&w, NULL, text, sizeof text - 1, NULL, NULL,
			       &err);
	cr_assert(w != NULL, "%s", err.text);
	cr_expect(o.first_day == TARN_NO_DAY && o.last_day == TARN_NO_DAY);
	made.evaporation = tarn_evaporation_options_default();
	made.place = (struct tarn_pond_place){
		tarn_exposure_default(), TARN_NAN, TARN_NAN, TARN_NAN
	};
	o.first_day = tarn_day(2020, 7, 2);
	o.last_day = tarn_day(2020, 7, 4);
	o.method = (int)tarn_method_find("given");
	cr_assert(tarn_sky_make(&sky, NULL, w, &made, &o, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	tarn_weather_free(w);	/* it has a copy */
	cr_expect(sky.forcing.days == 3);
	cr_expect(sky.forcing.first_day == o.first_day);
	for (int i = 0; i < 3; i++) {
		cr_expect(sky.forcing.rain_mm[i] == rain[i]);
		cr_expect(sky.forcing.open_water_mm[i] == 2 + i);
	}
	cr_expect(sky.report.days == 3);
	tarn_sky_free(&sky);

	o.start_level_m = 0.5;
	o.topup = 0;
	run = tarn_run_of(&o);
	cr_expect(run.start_level_m == 0.5 && run.no_topup &&
		  !run.start_stopped && !run.control);
}

/* Sums over ten days of a description with one field set, by a method. */
static struct tarn_evaporation_report sums(const char *path, double x,
					   const char *word, const char *method,
					   double *open_mm, double *grass_mm)
{
	struct tarn_run_options o = tarn_run_options_default();
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_evaporation_report report;
	char text[2000], *at = text;
	struct tarn_error err = { 0 };
	struct tarn_resolved made;
	struct tarn_weather *w;
	struct tarn_sky sky;

	at += sprintf(at, "date,rain_mm,tmin_c,tmax_c,solar_mj_m2,tdew_c,"
		      "wind_ms_2m,reference_mm,pan_mm,open_water_mm\n");
	for (int i = 0; i < 10; i++)
		at += sprintf(at, "2020-07-%02d,0,12,%d,%d,9,2,4,6,5\n", i + 1,
			      22 + i, 15 + i);
	cr_assert(tarn_weather_read_text(&w, NULL, text, (size_t)(at - text),
					 NULL, NULL, &err) == TARN_OK, "%s",
		  err.text);
	cr_assert(tarn_design_set(d, "basin.length", 5, NULL) == TARN_OK);
	cr_assert(tarn_design_set(d, "basin.width", 4, NULL) == TARN_OK);
	cr_assert(tarn_design_set(d, "basin.depth", 1, NULL) == TARN_OK);
	cr_assert(tarn_design_set(d, "overflow_level", 0.9, NULL) == TARN_OK);
	cr_assert(tarn_design_set(d, "evaporation.latitude", 45, NULL) ==
		  TARN_OK);
	if (path)
		cr_assert((word ? tarn_design_set_text(d, path, word, &err)
				: tarn_design_set(d, path, x, &err)) == TARN_OK,
			  "%s", err.text);
	cr_assert(tarn_design_resolve(d, &made, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	o.method = (int)tarn_method_find(method);
	cr_assert(tarn_sky_make(&sky, NULL, w, &made, &o, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	*open_mm = *grass_mm = 0;
	for (size_t i = 0; i < sky.forcing.days; i++) {
		*open_mm += sky.forcing.open_water_mm[i];
		*grass_mm += sky.forcing.grass_mm[i];
	}
	report = sky.report;
	tarn_sky_free(&sky);
	tarn_weather_free(w);
	tarn_resolved_free(&made);
	tarn_design_free(d);
	return report;
}

#define NEAR(got, want, within) \
	cr_expect(fabs((got) - (want)) <= (within), "%.9g, want %.9g", got, want)

/* The budget's middle is in the run once: method and surroundings in open
 * water, surroundings alone in plants' water; of a pan the place too; of given
 * open water nothing. */
Test(design, the_middle_is_in_a_weathers_run)
{
	double open, grass, lawn, lawn_grass, factor, factor_grass;
	double place = tarn_exposure_run_factor(TARN_PENMAN_1956, 0.5, 0.8);
	struct tarn_evaporation_report r;

	r = sums(NULL, 0, NULL, "penman_1956", &open, &grass);
	NEAR(r.centre, 0.88 * 1.03, 1e-12);
	NEAR(r.grass_centre, 1.03, 1e-12);
	r = sums("site.surroundings", 0, "lawn", "penman_1956", &lawn,
		 &lawn_grass);
	NEAR(r.centre, 0.88, 1e-12);
	NEAR(open / lawn, 1.03, 1e-12);
	NEAR(grass / lawn_grass, 1.03, 1e-12);
	/* a calibration goes in its place: the ledger multiplies by it */
	r = sums("open_water_factor", 0.7, NULL, "penman_1956", &factor,
		 &factor_grass);
	NEAR(r.centre, 1, 1e-12);
	NEAR(factor * 0.88 * 1.03, open, 1e-9);
	NEAR(factor_grass, grass, 1e-9);
	r = sums(NULL, 0, NULL, "pan", &open, &grass);
	NEAR(open, 60 * 0.70 * 1.10 * 1.03 * place, 1e-9);
	r = sums(NULL, 0, NULL, "given", &open, &grass);
	NEAR(open, 50, 1e-9);
	r = sums(NULL, 0, NULL, "mass_transfer", &open, &grass);
	NEAR(r.centre, 1, 0);
	/* without sun these give nothing, and no NaN */
	sums("evaporation.shade", 0, NULL, "hargreaves", &open, &grass);
	NEAR(open, 0, 0);
}

Test(design, a_weather_that_no_pond_can_take)
{
	static const char dry[] = "date,tmin_c,tmax_c\n2020-07-01,10,20\n"
				  "2020-07-02,10,20\n";
	struct tarn_run_options o = tarn_run_options_default();
	struct tarn_resolved made = { 0 };
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	struct tarn_sky sky;

	tarn_weather_read_text(&w, NULL, dry, sizeof dry - 1, NULL, NULL, &err);
	cr_assert(w != NULL, "%s", err.text);
	cr_expect(tarn_sky_make(&sky, NULL, w, &made, &o, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "weather");
	cr_expect(strstr(err.text, "has no rain") != NULL, "%s", err.text);
	tarn_sky_free(&sky);	/* nothing to free */
	tarn_weather_free(w);
}
