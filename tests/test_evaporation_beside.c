/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn.h"

/* A method beside another, on days some of which it lacks; and a site that the
 * weather knows. */

enum { DAYS = 20 };

static struct tarn_weather *warm_days(void)
{
	struct tarn_weather *w;
	double *lo, *hi;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2023, 6, 1), DAYS, NULL) ==
		  TARN_OK);
	lo = tarn_weather_add(w, TARN_TMIN);
	hi = tarn_weather_add(w, TARN_TMAX);
	cr_assert(lo && hi);
	for (int i = 0; i < DAYS; i++) {
		lo[i] = 10 + 0.1 * i;
		hi[i] = 24 - 0.2 * i;
	}
	return w;
}

static struct tarn_evaporation_options hargreaves(void)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();

	o.method = TARN_HARGREAVES;
	o.latitude_deg = 45;
	return o;
}

/* What is lacking is the base's, by the ratio of both sums over the rest. */
Test(beside, lacking_days_by_the_ratio_of_sums)
{
	struct tarn_weather *w = warm_days();
	struct tarn_evaporation_options o = hargreaves();
	double all[DAYS], grass[DAYS], base[DAYS], base_grass[DAYS];
	double open[DAYS], on_grass[DAYS], sum[2] = { 0 }, given[2] = { 0 };
	const struct tarn_evaporation_base beside = { base, base_grass };
	struct tarn_error err = { 0 };

	cr_assert(tarn_evaporation_run(w, &o, all, grass, NULL, NULL, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	for (int i = 0; i < DAYS; i++) {
		base[i] = 2 + 0.05 * i;
		base_grass[i] = 1.5;
	}
	base[7] = 4;
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) == 0);
	tarn_weather_add(w, TARN_TMIN)[7] = TARN_NAN;
	tarn_weather_add(w, TARN_TMAX)[12] = TARN_NAN;
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) == 2);
	cr_assert(tarn_evaporation_beside(w, &o, &beside, open, on_grass, NULL,
					  &err) == TARN_OK, "%s %s", err.field,
		  err.text);
	for (int i = 0; i < DAYS; i++)
		if (i != 7 && i != 12) {
			cr_expect(fabs(open[i] - all[i]) < 1e-12, "%d", i);
			sum[0] += all[i];
			sum[1] += grass[i];
			given[0] += base[i];
			given[1] += base_grass[i];
		}
	for (int i = 7; i <= 12; i += 5) {
		cr_expect(fabs(open[i] - base[i] * sum[0] / given[0]) < 1e-12);
		cr_expect(fabs(on_grass[i] - 1.5 * sum[1] / given[1]) < 1e-12);
	}
	/* a base of nothing has no ratio */
	memset(base, 0, sizeof base);
	cr_assert(tarn_evaporation_beside(w, &o, &beside, open, on_grass, NULL,
					  NULL) == TARN_OK);
	cr_expect(open[7] == 0 && open[6] > 1);
	/* the first and the last day have one neighbour each */
	tarn_weather_add(w, TARN_TMIN)[7] = 10.7;
	tarn_weather_add(w, TARN_TMAX)[12] = 21.6;
	tarn_weather_add(w, TARN_TMIN)[0] = TARN_NAN;
	tarn_weather_add(w, TARN_TMIN)[DAYS - 1] = TARN_NAN;
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) == 2);
	cr_expect(tarn_evaporation_beside(w, &o, &beside, open, on_grass, NULL,
					  NULL) == TARN_OK);
	/* 3 of 20 are more than a tenth */
	tarn_weather_add(w, TARN_TMAX)[3] = TARN_NAN;
	cr_expect(tarn_evaporation_beside(w, &o, &beside, open, on_grass, NULL,
					  &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "method");
	cr_expect(strstr(err.text, "lacks 3 of 20 days") != NULL, "%s", err.text);
	tarn_weather_free(w);
}

/* Between two others a night that is missing may come out warmer than its day. */
Test(beside, a_bridge_that_crosses)
{
	struct tarn_weather *w = warm_days();
	struct tarn_evaporation_options o = hargreaves();

	tarn_weather_add(w, TARN_TMIN)[7] = TARN_NAN;
	tarn_weather_add(w, TARN_TMAX)[7] = 1;	/* a cold day between warm ones */
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) == 1);
	tarn_weather_add(w, TARN_TMIN)[8] = 30;	/* told wrongly: no method can */
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) == -1);
	tarn_weather_free(w);
}

Test(beside, what_cannot_be_run)
{
	struct tarn_weather *w = warm_days();
	struct tarn_evaporation_options o = hargreaves();
	double open[DAYS], grass[DAYS], base[DAYS] = { 0 };
	const struct tarn_evaporation_base beside = { base, base };
	struct tarn_error err = { 0 };

	cr_expect(tarn_evaporation_lacking(w, &o, TARN_PAN_COEFFICIENT) == -1);
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_METHOD_AUTO) == -1);
	o.latitude_deg = TARN_NAN;
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) == -1);
	o.latitude_deg = 91;
	cr_expect(tarn_evaporation_beside(w, &o, &beside, open, grass, NULL,
					  &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "evaporation.latitude", "%s", err.field);
	o = hargreaves();
	o.method = TARN_METHOD_AUTO;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_evaporation_beside(w, &o, &beside, open, grass, NULL,
					  &err) == TARN_EARG);
	cr_expect(strstr(err.text, "must be named") != NULL, "%s", err.text);
	tarn_weather_free(w);
}

/* Latitude, elevation and height of the wind gauge that the weather knows hold
 * where the options say nothing. */
Test(beside, the_site_of_the_weather)
{
	struct tarn_weather *w = warm_days();
	struct tarn_evaporation_options said = hargreaves(), left;
	struct tarn_site *site = (struct tarn_site *)tarn_weather_site_of(w);
	double a[DAYS], b[DAYS], *wind = tarn_weather_add(w, TARN_WIND);
	struct tarn_error err = { 0 };

	for (int i = 0; i < DAYS; i++)
		wind[i] = 3;
	said.method = TARN_PENMAN_1956;
	said.elevation_m = 1500;
	said.wind_height_m = 10;
	cr_assert(tarn_evaporation_run(w, &said, a, NULL, NULL, NULL, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	left = said;
	left.latitude_deg = left.elevation_m = left.wind_height_m = TARN_NAN;
	cr_expect(tarn_evaporation_run(w, &left, b, NULL, NULL, NULL, NULL) ==
		  TARN_EARG);
	site->latitude_deg = 45;
	site->elevation_m = 1500;
	site->wind_height_m = 10;
	cr_assert(tarn_evaporation_run(w, &left, b, NULL, NULL, NULL, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	cr_expect(memcmp(a, b, sizeof a) == 0);
	/* what is said wins, and each of the three is used */
	site->latitude_deg = -20;
	site->elevation_m = 3;
	site->wind_height_m = 2;
	cr_assert(tarn_evaporation_run(w, &said, b, NULL, NULL, NULL, NULL) ==
		  TARN_OK);
	cr_expect(memcmp(a, b, sizeof a) == 0);
	for (int i = 0; i < 3; i++) {
		left = said;
		*(i == 0 ? &left.latitude_deg : i == 1 ? &left.elevation_m
						       : &left.wind_height_m) =
			TARN_NAN;
		cr_assert(tarn_evaporation_run(w, &left, b, NULL, NULL, NULL,
					       NULL) == TARN_OK);
		cr_expect(fabs(a[5] - b[5]) > 1e-3, "%d", i);
	}
	tarn_weather_free(w);
}
