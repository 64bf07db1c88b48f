/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"

#define INCH_MM 25.4

/* NOAA-like rows, 5 min to 1 day; invented, of the size of a 25-year storm in
 * the middle of the United States. */
static const double minutes[] = { 300, 600, 900, 1800, 3600, 7200, 10800,
				  21600, 43200, 86400 };
static const double depths[] = { 15.0, 22.0, 26.8, 38.5, 50.6, 61.2, 66.5,
				 78.0, 90.4, 104.0 };

static struct tarn_rain_table local_table(void)
{
	struct tarn_rain_table t = tarn_rain_table_default();

	t.duration_s = minutes;
	t.depth_mm = depths;
	t.count = COUNT(minutes);
	return t;
}

/* Largest sum of 'wide' blocks in a row. */
static double worst(const double *block, size_t blocks, size_t wide)
{
	double most = 0;

	for (size_t i = 0; i + wide <= blocks; i++) {
		double sum = 0;

		for (size_t k = 0; k < wide; k++)
			sum += block[i + k];
		most = fmax(most, sum);
	}
	return most;
}

/* Sum of 'wide' blocks about the middle, the odd one at its right. */
static double middle(const double *block, size_t blocks, size_t wide)
{
	return worst(block + (blocks - 1) / 2 - (wide - 1) / 2, wide, wide);
}

/* Chow, Maidment & Mays (1988), Applied Hydrology, example 14.4.1, from
 * memory: Denver, 10 years, i = 96.6 / (T^0.97 + 13.90) in/h, 2 h in 10 min. */
Test(hyetograph, chow_from_memory)
{
	static const struct {
		int at;		/* place in the storm */
		double want, tol;
	} rows[] = { { 5, 0.693, 0.0005 }, { 6, 0.308, 0.0005 },
		     { 11, 0.021, 0.0005 } };
	struct tarn_rain_table t = tarn_rain_table_default();
	double duration[12], depth[12], block[12], sum = 0;
	struct tarn_error err = { 0 };

	for (int k = 0; k < 12; k++) {
		double min = 10 * (k + 1);

		duration[k] = 60 * min;
		depth[k] = 96.6 / (pow(min, 0.97) + 13.90) * min / 60 * INCH_MM;
	}
	t.duration_s = duration;
	t.depth_mm = depth;
	t.count = 12;
	t.step_s = 600;
	cr_assert(tarn_nested_storm(&t, 12, block, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	for (size_t i = 0; i < COUNT(rows); i++)
		recalled("Chow ex. 14.4.1", named("block %d, in", rows[i].at),
			 block[rows[i].at] / INCH_MM, rows[i].want, rows[i].tol);
	for (int i = 0; i < 12; i++)
		sum += block[i];
	recalled("Chow ex. 14.4.1", "2 h, in", sum / INCH_MM, 1.639, 0.0005);
	recalled("Chow ex. 14.4.1", "worst 10 min, in/h",
		 worst(block, 12, 1) * 6 / INCH_MM, 4.158, 0.0005);
}

/*
 * The k blocks about the middle hold the table's depth, at each row.  Rounded
 * tables bend upwards here and there (this one at 15 min and 3 h), and another
 * window of the storm then holds more, never less: 0.13 % here.
 */
Test(hyetograph, holds_every_duration)
{
	static double block[1440];
	struct tarn_rain_table t = local_table();
	double sum = 0;

	cr_assert(tarn_nested_storm(&t, 1440, block, NULL) == TARN_OK);
	for (size_t r = 0; r < COUNT(minutes); r++) {
		size_t wide = (size_t)(minutes[r] / 60);

		double most = worst(block, 1440, wide);

		close_to(named("middle %g s", minutes[r]),
			 middle(block, 1440, wide), depths[r], 1e-12);
		cr_expect(most > depths[r] * (1 - 1e-12) &&
			  most < depths[r] * 1.0015, "worst %g s: %g",
			  minutes[r], most);
	}
	for (int i = 0; i < 1440; i++) {
		cr_expect(block[i] >= 0, "block %d: %g", i, block[i]);
		sum += block[i];
	}
	close_to("the day", sum, 104, 1e-12);
	/* within the first duration the intensity is even */
	for (int i = 717; i <= 721; i++)
		close_to("burst", block[i], 3, 1e-12);
	/* between rows: log over log, by hand at 42 min */
	close_to("42 min", middle(block, 1440, 42),
		 38.5 * pow(50.6 / 38.5, log(42.0 / 30) / log(2)), 1e-12);
}

/* A nested day through a small pond: the volumes close, the peak falls, and
 * the day's own mean intensity would have missed the head by far. */
Test(hyetograph, through_a_pond)
{
	static const double level[] = { 0, 3 }, area[] = { 30, 30 };
	static double block[1440], nested[1441], even[1441];
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_routing r = tarn_routing_default();
	struct tarn_routing_flow out, flat;
	struct tarn_rain_table t = local_table();

	cr_assert(tarn_nested_storm(&t, 1440, block, NULL) == TARN_OK);
	for (int i = 0; i < 1440; i++)
		nested[i] = block[i] / 1000 * 100 / 60;
	for (int i = 0; i <= 1440; i++)
		even[i] = 0.104 * 100 / 86400;
	o.lip_level_m = 1;
	o.lip_width_m = 0.6;
	r.level_m = level;
	r.area_m2 = area;
	r.level_count = 2;
	r.inflow_m3s = nested;
	r.inflow_count = 1441;
	r.step_s = 60;
	r.start_level_m = 1;
	r.overflow = &o;
	cr_assert(tarn_routing_solve(&r, NULL, NULL, &out, NULL) == TARN_OK);
	r.inflow_m3s = even;
	cr_assert(tarn_routing_solve(&r, NULL, NULL, &flat, NULL) == TARN_OK);
	cr_expect(fabs(out.balance_m3) <= 1e-10 * out.inflow_m3);
	/* the trapezoid's two half ends are all that differs */
	near("rain, m3", out.inflow_m3, 10.4, 0.001);
	near("even rain, m3", flat.inflow_m3, 10.4, 1e-9);
	close_to("peak in", out.peak_inflow_m3s, 0.015 * 100 / 300, 1e-12);
	cr_expect(out.peak_outflow_m3s < out.peak_inflow_m3s);
	cr_expect(out.peak_level_m - 1 > 5 * (flat.peak_level_m - 1),
		  "%g over %g", out.peak_level_m - 1, flat.peak_level_m - 1);
}

static void refuse(const struct tarn_rain_table *t, size_t blocks,
		   const char *field, const char *text)
{
	double block[4] = { 7, 7, 7, 7 };
	struct tarn_error err = { 0 };

	cr_expect(tarn_nested_storm(t, blocks, block, &err) == TARN_EARG,
		  "%s", text);
	cr_expect(strcmp(err.field, field) == 0 && strstr(err.text, text),
		  "%s %s, want %s %s", err.field, err.text, field, text);
	cr_expect(block[0] == 7 && block[3] == 7, "written: %s", text);
}

static void refuse_rows(double d0, double p0, double d1, double p1,
			const char *text)
{
	double d[] = { d0, d1 }, p[] = { p0, p1 };
	struct tarn_rain_table t = local_table();

	t.duration_s = d;
	t.depth_mm = p;
	t.count = 2;
	refuse(&t, 4, "rain.table", text);
}

Test(hyetograph, refused)
{
	struct tarn_rain_table t = local_table();
	double one[1];

	refuse_rows(300, 10, 300, 12, "row 2: durations must rise");
	refuse_rows(300, 10, 600, 9, "are these intensities?");
	refuse_rows(300, 10, 600, 20.03, "intensity must not rise");
	refuse_rows(0, 10, 600, 12, "row 1 must be");
	refuse_rows(300, -1, 600, 12, "row 1 must be");
	refuse_rows(300, 10, 600, TARN_NAN, "row 2 must be");
	refuse_rows(300, 10, HUGE_VAL, 12, "row 2 must be");
	t.count = 1;
	refuse(&t, 4, "rain.table", "two rows");
	t = local_table();
	t.step_s = 301;
	refuse(&t, 4, "rain.step", "level the burst out");
	t.step_s = 0;
	refuse(&t, 4, "rain.step", "must be");
	t.step_s = 300;
	refuse(&t, 0, "rain.blocks", "must be 1 up");
	refuse(&t, 289, "rain.blocks", "must be 1 up");
	/* one block of the first row is that row */
	cr_assert(tarn_nested_storm(&t, 1, one, NULL) == TARN_OK);
	close_to("one", one[0], 15, 1e-14);
}
