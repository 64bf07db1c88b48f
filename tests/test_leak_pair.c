/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/leak.h"

/* 150 ft2 of water behind upright walls, a bed of 25 ft2, a stream of 15. */
static struct tarn_pond pond(struct tarn_basin **basin)
{
	double ft2 = tarn_unit("ft2");
	double level[] = { 0, 1.1 }, area[] = { 150 * ft2, 150 * ft2 };
	struct tarn_pond p = tarn_pond_default();

	cr_assert(tarn_basin_table(basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	p.basin = *basin;
	p.overflow_level_m = 1;
	p.bed.area_m2 = 25 * ft2;
	p.stream.area_m2 = 15 * ft2;
	p.stream.depth_m = 0.02;
	return p;
}

#define INCH 0.0254

/* A bucket in still water: the difference of the falls is the loss. */
Test(pair, bucket_with_the_pump_off)
{
	struct tarn_basin *basin;
	struct tarn_pond p = pond(&basin);
	struct tarn_pair t = tarn_pair_default();
	struct tarn_pair_result r;
	double sd;

	t.off.hours = 48;
	t.off.pond_drop_m = 0.75 * INCH;
	t.off.bucket_drop_m = 0.25 * INCH;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(r.has_off && !r.has_on);
	cr_expect(fabs(r.off.expected_m - 0.25 * INCH) < 1e-9);
	cr_expect(fabs(r.off.unexplained_mm_d.mean - 0.25 * 25.4) < 1e-6);
	/* four readings of 1/16 in over two days: 1/16 in a day */
	sd = hypot(25.4 / 16, 0.1 * 0.125 * 25.4);
	cr_expect(fabs(r.off.unexplained_mm_d.sd - sd) < 1e-9, "%g %g",
		  r.off.unexplained_mm_d.sd, sd);
	cr_expect(fabs(r.off.resolvable_mm_d - 2.9264 * sd) < 1e-3);
	/* 1/4 in/d on 150 ft2 is 23 gal/d: 0.6234 gal an inch a square foot,
	 * San Diego Land Development Manual and others (needs of owners) */
	cr_expect(fabs(r.off.unexplained_m3_d.mean / tarn_unit("gal") -
		       0.25 * 150 * 0.6234) < 0.01);
	cr_expect(r.off.verdict == TARN_OUTSIDE);
	tarn_basin_free(basin);
}

/* The uncertainty of a ruler, as stated for owners: 1/16 in a reading makes
 * 0.09 in/d by one level over a day, 0.12 by bucket and pond; 0.03 and 0.04
 * over three days (derived; half the last digit). */
Test(pair, regression_ruler_alone)
{
	static const struct { int readings; double days, in_d, tol; } rows[] = {
		{ 2, 1, 0.09, 0.005 }, { 4, 1, 0.125, 0.0005 },
		{ 2, 3, 0.03, 0.005 }, { 4, 3, 0.04, 0.005 },
	};

	for (size_t i = 0; i < 4; i++) {
		double sd_in_d = sqrt(rows[i].readings) / 16 / rows[i].days;
		double h = tarn_pair_hours(rows[i].readings, INCH / 16,
					   2.9264 * sd_in_d * 25.4, 0);

		cr_expect(fabs(sd_in_d - rows[i].in_d) <= rows[i].tol);
		cr_expect(fabs(h - 24 * rows[i].days) < 0.01, "%g", h);
	}
}

Test(pair, hours)
{
	cr_expect(isinf(tarn_pair_hours(4, 1e-3, 1, 5)));
	cr_expect(isnan(tarn_pair_hours(0, 1e-3, 1, 0)));
	cr_expect(isnan(tarn_pair_hours(4, 0, 1, 0)));
	cr_expect(isnan(tarn_pair_hours(4, 1e-3, 0, 0)));
	cr_expect(isnan(tarn_pair_hours(4, 1e-3, 1, -1)));
	cr_expect(isnan(tarn_pair_hours(4, 1e-3, 1, TARN_NAN)));
	/* more to lose, less to wait */
	cr_expect(tarn_pair_hours(4, 1e-3, 2, 0.1) <
		  tarn_pair_hours(4, 1e-3, 1, 0.1));
}

/* With the pump on, bed and stream draw on the pond: 1.27 to 1.32 times the
 * bucket, and no leak at all. */
Test(pair, pump_on_and_off)
{
	struct tarn_basin *basin;
	struct tarn_pond p = pond(&basin);
	struct tarn_pair t = tarn_pair_default();
	struct tarn_pair_result r;
	struct tarn_estimate splash;
	double ratio = (150 + 25 * 1.2 / 1.2 + 15 * 1.5) / 150;

	p.stream.factor = 1.5;
	t.off.hours = t.on.hours = 48;
	t.off.bucket_drop_m = t.on.bucket_drop_m = 0.5 * INCH;
	t.off.pond_drop_m = 0.5 * INCH;
	t.on.pond_drop_m = ratio * 0.5 * INCH;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(fabs(r.on.expected_m - ratio * 0.5 * INCH) < 1e-6);
	cr_expect(fabs(r.on.unexplained_mm_d.mean) < 1e-3);
	cr_expect(fabs(r.upper_mm_d.mean) < 1e-3);
	cr_expect(r.upper_verdict != TARN_OUTSIDE);
	cr_expect(tarn_pair_splash(&r, &splash) != TARN_OUTSIDE);
	cr_expect(splash.mean >= 0 && splash.mean < 1e-9);

	/* an inch in two days more with the pump on: above, not below */
	t.on.pond_drop_m += INCH;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(r.off.verdict != TARN_OUTSIDE);
	cr_expect(r.upper_verdict == TARN_OUTSIDE);
	cr_expect(tarn_pair_splash(&r, &splash) == TARN_OUTSIDE);
	cr_expect(fabs(splash.mean * 86400 / tarn_unit("gal") -
		       0.5 * 150 * 0.6234) < 0.1);
	/* the bucket's error is in both and all but cancels */
	cr_expect(r.upper_mm_d.sd < hypot(r.on.unexplained_mm_d.sd,
					  r.off.unexplained_mm_d.sd));
	tarn_basin_free(basin);
}

/* A bucket in the pond's air needs no calibration; the weather's figure does:
 * 6 mm/d on water that loses 1.3 times as much. */
Test(pair, calibration_is_for_the_weather_alone)
{
	struct tarn_basin *basin;
	struct tarn_pond p = pond(&basin);
	struct tarn_pair t = tarn_pair_default();
	struct tarn_pair_result r;

	p.open_water_factor = 1.3;
	t.off.hours = 24;
	t.off.pond_drop_m = 0.006;
	t.off.bucket_drop_m = 0.006;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(fabs(r.off.expected_m - 0.006) < 1e-9, "%g",
		  r.off.expected_m);
	t.off.bucket_drop_m = TARN_NAN;
	t.off.weather_mm_d = 6;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(fabs(r.off.expected_m - 0.0078) < 1e-9, "%g",
		  r.off.expected_m);
	tarn_basin_free(basin);
}

Test(pair, without_a_bucket)
{
	struct tarn_basin *basin;
	struct tarn_pond p = pond(&basin);
	struct tarn_pair t = tarn_pair_default();
	struct tarn_pair_result r;

	t.off.hours = 24;
	t.off.pond_drop_m = 0.006;
	t.off.weather_mm_d = 5;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(fabs(r.off.unexplained_mm_d.mean - 1) < 1e-6);
	cr_expect(fabs(r.off.unexplained_mm_d.sd -
		       hypot(sqrt(2) * 25.4 / 16, 1.25)) < 1e-9);
	cr_expect(r.off.verdict == TARN_CANNOT_TELL);
	/* dew: the bucket rose with the pond */
	t.off.bucket_drop_m = t.off.pond_drop_m = -0.001;
	cr_assert(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_OK);
	cr_expect(fabs(r.off.unexplained_mm_d.mean) < 1e-9);
	tarn_basin_free(basin);
}

Test(pair, refuses)
{
	struct tarn_basin *basin;
	struct tarn_pond p = pond(&basin);
	struct tarn_pair good = tarn_pair_default(), t;
	struct tarn_pair_result r;
	struct tarn_error err = { 0 };

	cr_expect(tarn_pair_test(NULL, &p, &good, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "pair");
	good.off.hours = 24;
	good.off.pond_drop_m = good.off.bucket_drop_m = 0.01;
	cr_expect(tarn_pair_test(NULL, &p, &good, &r, NULL) == TARN_OK);
	t = good;
	t.off.rain_mm = 2;
	err.code = TARN_OK;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "void") != NULL);
	t = good;
	t.off.hours = 0.5;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_EARG);
	t = good;
	t.off.bucket_drop_m = TARN_NAN;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_EARG);
	t = good;
	t.off.pond_drop_m = TARN_NAN;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_EARG);
	t = good;
	t.off.pond_drop_m = 1.5;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_EARG);
	t = good;
	t.level_m = 1.2;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_EARG);
	t = good;
	t.month = 13;
	cr_expect(tarn_pair_test(NULL, &p, &t, &r, NULL) == TARN_EARG);
	tarn_basin_free(basin);
}

Test(pair, verdict_texts)
{
	for (int v = TARN_INSIDE; v <= TARN_CANNOT_TELL; v++)
		cr_expect(strlen(tarn_verdict_text((enum tarn_verdict)v)) > 5);
	cr_expect_str_eq(tarn_verdict_text((enum tarn_verdict)9),
			 "no verdict");
}
