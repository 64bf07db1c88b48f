/* SPDX-License-Identifier: MIT */
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
