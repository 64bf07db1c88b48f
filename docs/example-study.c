/* SPDX-License-Identifier: MIT */
/*
 * A study from C: a thousand ponds over ten years, from plain arrays into
 * plain arrays.
 *
 *     cc example-study.c $(pkg-config --cflags --libs tarn) -lm
 *
 * The weather here is made up, so that the example stands alone; yours comes
 * from tarn_weather_read and tarn_evaporation_run.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "tarn.h"

enum { DAYS = 3653, VARIANTS = 1000 };

static double rain_mm[DAYS], open_water_mm[DAYS], grass_mm[DAYS];
static double bed[VARIANTS], seepage[VARIANTS];	/* what varies */
static double dry_year[VARIANTS], peak_week[VARIANTS];	/* what comes out */

static void make_weather(void)
{
	for (int i = 0; i < DAYS; i++) {
		double summer = 0.5 - 0.5 * cos(i * 6.2831853 / 365.25);

		rain_mm[i] = i % 4 == 0 ? 5 + i % 11 : 0;
		open_water_mm[i] = 0.5 + 4.5 * summer;
		grass_mm[i] = 0.8 * open_water_mm[i];
	}
}

/* An upright pond of 12 m2 with a bed of 3 m2. */
static struct tarn_pond make_pond(const struct tarn_basin *basin)
{
	struct tarn_pond pond = tarn_pond_default();

	pond.basin = basin;
	pond.overflow_level_m = 0.95;
	pond.target_m = 0.93;
	pond.trigger_m = 0.90;
	pond.bed.area_m2 = 3;
	return pond;
}

static int fail(const struct tarn_error *err)
{
	fprintf(stderr, "%s %s\n", err->field, err->text);
	return EXIT_FAILURE;
}

int main(void)
{
	static const double level[] = { 0, 1 }, area[] = { 12, 12 };
	struct tarn_error err = { 0 };
	struct tarn_basin *basin;
	struct tarn_pond pond;
	struct tarn_forcing weather = {
		.first_day = tarn_day(2001, 1, 1), .days = DAYS,
		.rain_mm = rain_mm, .open_water_mm = open_water_mm,
		.grass_mm = grass_mm,
	};
	struct tarn_study_column columns[] = {
		{ "bed.area", TARN_TIMES, bed },	/* x the pond's own */
		{ "seepage.rate", TARN_SET, seepage },	/* mm/d */
	};
	struct tarn_study study = tarn_study_default();
	struct tarn_study_rows rows = { .count = VARIANTS };

	make_weather();
	if (tarn_basin_table(&basin, NULL, level, area, 2, &err) != TARN_OK)
		return fail(&err);
	pond = make_pond(basin);
	for (int i = 0; i < VARIANTS; i++) {
		bed[i] = 0.5 + 1.5 * i / VARIANTS;
		seepage[i] = i % 10 * 0.2;
	}
	study.ponds = &pond;
	study.weathers = &weather;
	study.columns = columns;
	study.column_count = 2;
	study.variants = VARIANTS;
	study.threads = 2;
	rows.value[TARN_Q_YEAR_P90] = dry_year;	/* only what is wanted */
	rows.value[TARN_Q_WEEK_P90] = peak_week;
	if (tarn_study_run(&study, &rows, &err) != TARN_OK)
		return fail(&err);
	tarn_basin_free(basin);

	printf("Top-up of a dry year (1 in 10), %zu ponds:\n", rows.done);
	for (int i = 0; i < VARIANTS; i += 250)
		printf("  bed x %.2f, seepage %.1f mm/d: %.2f m3, of it %.3f "
		       "m3 in the largest week\n", bed[i], seepage[i],
		       dry_year[i], peak_week[i]);
	printf("  P90 of all: %.2f m3\n",
	       tarn_percentile(dry_year, VARIANTS, 0.9));
	return EXIT_SUCCESS;
}
