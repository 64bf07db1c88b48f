/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn.h"

/* The forecast of a description. */

static const char pond_text[] =
	"{\"basin\": {\"shape\": \"rectangle\", \"length\": 5, \"width\": 4,"
	" \"depth\": 1.1}, \"overflow_level\": 1, \"trigger\": 0.95}";

struct scene {
	struct tarn_design *given;
	struct tarn_resolved made;
	struct tarn_weather *weather;
	struct tarn_run_options run;
	struct tarn_sky sky;
};

static void set_up(struct scene *s, const char *method)
{
	char text[40 * 64], *at = text;
	struct tarn_error err = { 0 };

	at += sprintf(at, "date,rain_mm,tmin_c,tmax_c,"
		      "open_water_mm,reference_mm\n");
	for (int i = 0; i < 40; i++)
		at += sprintf(at, "2020-%02d-%02d,%d,%d,%d,%d,%d\n", 6 + i / 30,
			      i % 30 + 1, i % 9 ? 0 : 5, 10 + i % 4,
			      22 + i % 7, 3 + i % 4, 3 + i % 5);
	cr_assert(tarn_weather_read_text(&s->weather, NULL, text,
					 (size_t)(at - text), NULL, NULL,
					 &err) == TARN_OK, "%s", err.text);
	cr_assert(tarn_design_read_json(&s->given, NULL, pond_text,
					sizeof pond_text - 1, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	s->given->evaporation.latitude_deg = 45;
	cr_assert(tarn_design_resolve(s->given, &s->made, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	s->run = tarn_run_options_default();
	s->run.method = (int)tarn_method_find(method);
	cr_assert(tarn_sky_make(&s->sky, NULL, s->weather, &s->made, &s->run,
				&err) == TARN_OK, "%s %s", err.field, err.text);
}

static void tear_down(struct scene *s)
{
	tarn_sky_free(&s->sky);
	tarn_weather_free(s->weather);
	tarn_resolved_free(&s->made);
	tarn_design_free(s->given);
}

/* It is the forecast of its ledger's weather, with the budget that it names. */
Test(forecast_design, is_that_of_its_weather_and_budget)
{
	struct scene s;
	struct tarn_forecast f, own;
	struct tarn_exposure_budget budget;
	struct tarn_run run;
	struct tarn_error err = { 0 };

	set_up(&s, "given");
	run = tarn_run_of(&s.run);
	cr_assert(tarn_forecast_design(&f, &budget, NULL, &s.made, &s.sky,
				       &run, NULL, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	cr_assert(tarn_forecast(&own, NULL, &s.made.pond, &s.sky.forcing, &run,
				&budget, NULL, &err) == TARN_OK);
	cr_expect(f.days == 40 && f.a_week.p90_m3 > f.a_week.p10_m3);
	cr_expect(memcmp(&f.a_week, &own.a_week, sizeof f.a_week) == 0);
	tear_down(&s);
}

/* Nothing but temperatures: tarn_method_centre, warmth_only. */
Test(forecast_design, temperatures_alone_are_wider)
{
	struct scene s;
	struct tarn_forecast f;
	struct tarn_exposure_budget budget;

	set_up(&s, "penman_1956");
	cr_assert(tarn_forecast_design(&f, &budget, NULL, &s.made, &s.sky,
				       NULL, NULL, NULL) == TARN_OK);
	cr_expect(budget.sd_ln[TARN_TERM_METHOD] == 0.19);
	tear_down(&s);
}

/* A calibration is the centre, with the deviation of a season's log; words of the
 * place stay in the terms. */
Test(forecast_design, a_calibration_is_the_centre)
{
	struct scene s;
	struct tarn_exposure_budget b;

	set_up(&s, "penman_1956");
	s.made.place.open_water_factor = 0.8;
	s.made.place.site.surroundings = TARN_SURROUNDINGS_PAVING;
	cr_assert(tarn_design_exposure(&s.made, &s.sky.report, &b, NULL) ==
		  TARN_OK);
	cr_expect(b.calibrated && b.surroundings_described);
	cr_expect(b.centre_ln == 0 && b.centre_sd_ln == TARN_CALIBRATED_SD_LN);
	cr_expect(fabs(b.grass_ln - log(1.05)) < 1e-12);
	for (int m = 0; m < TARN_REMEDIES; m++) {
		struct tarn_exposure_budget after =
			tarn_exposure_after(&b, (enum tarn_remedy)m);

		cr_expect(after.centre_sd_ln <= b.centre_sd_ln + 1e-12, "%d",
			  m);
	}
	s.made.place.open_water_factor = TARN_NAN;
	cr_assert(tarn_design_exposure(&s.made, &s.sky.report, &b, NULL) ==
		  TARN_OK);
	cr_expect(!b.calibrated);
	cr_expect(fabs(b.centre_ln - log(0.88 * 1.05)) < 1e-12);
	tear_down(&s);
}

Test(forecast_design, a_method_without_a_centre_has_none)
{
	struct scene s;
	struct tarn_forecast f;
	struct tarn_exposure_budget budget;
	struct tarn_error err = { 0 };

	set_up(&s, "mass_transfer");
	cr_expect(tarn_forecast_design(&f, &budget, NULL, &s.made, &s.sky,
				       NULL, NULL, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "method");
	tear_down(&s);
}
