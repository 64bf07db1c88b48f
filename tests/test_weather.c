/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/weather.h"

#define N TARN_NAN

static struct tarn_weather *new_table(const char *first, size_t days)
{
	struct tarn_weather *w;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day_parse(first), days,
				   NULL) == TARN_OK);
	return w;
}

static void put(struct tarn_weather *w, enum tarn_column c, const double *x)
{
	memcpy(tarn_weather_add(w, c), x,
	       tarn_weather_days(w) * sizeof *x);
}

Test(weather_table, columns)
{
	for (int i = 0; i < TARN_COLUMNS; i++) {
		const struct tarn_column_info *info =
			tarn_column_info((enum tarn_column)i);

		cr_expect(tarn_column_find(info->name) == (enum tarn_column)i,
			  "%s", info->name);
		cr_expect(info->lo < info->hi && info->unit && info->meaning);
	}
	cr_expect(tarn_column_find("Tmin") == TARN_COLUMNS);
	cr_expect(tarn_column_find("") == TARN_COLUMNS);
}

Test(weather_table, nothing_is_known_of_a_new_site)
{
	struct tarn_site site = tarn_site_default();

	cr_expect_str_eq(site.name, "");
	cr_expect(isnan(site.latitude_deg) && isnan(site.elevation_m) &&
		  isnan(site.wind_height_m));
}

Test(weather_table, new_and_site)
{
	struct tarn_weather *w = new_table("2015-12-31", 3);

	cr_expect(tarn_weather_days(w) == 3);
	cr_expect(tarn_weather_first(w) == tarn_day(2015, 12, 31));
	cr_expect(tarn_weather_column(w, TARN_RAIN) == NULL);
	cr_expect(isnan(tarn_weather_add(w, TARN_RAIN)[2]));
	tarn_weather_add(w, TARN_RAIN)[2] = 4;
	cr_expect(tarn_weather_column(w, TARN_RAIN)[2] > 3.9);
	cr_expect(isnan(tarn_weather_site_of(w)->latitude_deg));
	tarn_weather_site(w)->elevation_m = 12;
	cr_expect(tarn_weather_site_of(w)->elevation_m > 11);
	tarn_weather_free(w);
	tarn_weather_free(NULL);
}

Test(weather_table, refused)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	cr_expect(tarn_weather_new(&w, NULL, TARN_DAY_MIN - 1, 1, &err) ==
			  TARN_EARG && !w);
	cr_expect_str_eq(err.field, "first");
	err.code = TARN_OK;
	cr_expect(tarn_weather_new(&w, NULL, 0, 0, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "days");
	cr_expect(tarn_weather_new(&w, NULL, TARN_DAY_MAX, 2, NULL) ==
		  TARN_EARG);
	cr_expect(tarn_weather_new(&w, NULL, TARN_DAY_MAX, 1, NULL) ==
		  TARN_OK);
	tarn_weather_free(w);
}

Test(weather_table, summary_and_gaps)
{
	static const double x[] = { N, 2.5, N, N, -1.5, 3, N };
	struct tarn_weather *w = new_table("2015-01-01", 7);
	struct tarn_column_summary s;
	size_t at, days;

	put(w, TARN_TMIN, x);
	s = tarn_weather_summary(w, TARN_TMIN);
	cr_expect(s.present == 3 && s.missing == 4);
	cr_expect(fabs(s.min + 1.5) < 1e-15 && fabs(s.max - 3) < 1e-15 &&
		  fabs(s.mean - 4.0 / 3) < 1e-15);
	s = tarn_weather_summary(w, TARN_RAIN);
	cr_expect(s.present == 0 && s.missing == 7 && isnan(s.min) &&
		  isnan(s.mean) && isnan(s.max));
	cr_expect(tarn_weather_gap(w, TARN_TMIN, 0, &at, &days) && at == 0 &&
		  days == 1);
	cr_expect(tarn_weather_gap(w, TARN_TMIN, 1, &at, &days) && at == 2 &&
		  days == 2);
	cr_expect(tarn_weather_gap(w, TARN_TMIN, 4, &at, &days) && at == 6 &&
		  days == 1);
	cr_expect(!tarn_weather_gap(w, TARN_TMIN, 7, &at, &days));
	cr_expect(tarn_weather_gap(w, TARN_RAIN, 0, &at, &days) && at == 0 &&
		  days == 7);
	cr_expect(!tarn_weather_gap(w, TARN_RAIN, 7, &at, &days));
	tarn_weather_free(w);
}

Test(weather_table, check)
{
	static const double lo[] = { 1, 2.25, N, 4 }, hi[] = { 1, 3, 2, N };
	struct tarn_weather *w = new_table("2015-01-01", 4);
	struct tarn_error err = { 0 };

	put(w, TARN_TMIN, lo);
	put(w, TARN_TMAX, hi);
	cr_expect(tarn_weather_check(w, &err) == TARN_OK);
	tarn_weather_add(w, TARN_TMIN)[1] = 3.5;
	cr_expect(tarn_weather_check(w, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "tmin");
	cr_expect_str_eq(err.text, "on 2015-01-02 is 3.5, over tmax 3: are "
			 "the two columns swapped?");
	tarn_weather_add(w, TARN_TMIN)[1] = 3;
	tarn_weather_add(w, TARN_RAIN)[3] = -0.5;
	err.code = TARN_OK;
	cr_expect(tarn_weather_check(w, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "rain");
	cr_expect_str_eq(err.text, "on 2015-01-04 is -0.5 mm, expected 0 to "
			 "1500: is the unit right?");
	tarn_weather_add(w, TARN_RAIN)[3] = HUGE_VAL;
	cr_expect(tarn_weather_check(w, NULL) == TARN_EARG);
	tarn_weather_free(w);
}

/* Both ends of each column's bounds are accepted, just beyond is not. */
Test(weather_table, bounds)
{
	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;
		const struct tarn_column_info *info = tarn_column_info(c);
		struct tarn_weather *w = new_table("2015-01-01", 1);
		double *x = tarn_weather_add(w, c);

		*x = info->lo;
		cr_expect(tarn_weather_check(w, NULL) == TARN_OK);
		*x = info->hi;
		cr_expect(tarn_weather_check(w, NULL) == TARN_OK);
		*x = info->lo - 0.001;
		cr_expect(tarn_weather_check(w, NULL) == TARN_EARG, "%s",
			  info->name);
		*x = info->hi + 0.001;
		cr_expect(tarn_weather_check(w, NULL) == TARN_EARG, "%s",
			  info->name);
		tarn_weather_free(w);
	}
}

Test(weather_table, slice)
{
	static const double x[] = { 1, 2, 3, 4 };
	struct tarn_weather *w = new_table("2015-12-30", 4), *part;
	struct tarn_error err = { 0 };

	put(w, TARN_RAIN, x);
	tarn_weather_site(w)->latitude_deg = 44;
	tarn_weather_add_note(w, "a note of %d", 1);
	cr_assert(tarn_weather_slice(&part, w, tarn_day(2015, 12, 31),
				     tarn_day(2016, 1, 1), &err) == TARN_OK);
	cr_expect(tarn_weather_days(part) == 2);
	cr_expect(tarn_weather_first(part) == tarn_day(2015, 12, 31));
	cr_expect(memcmp(tarn_weather_column(part, TARN_RAIN), x + 1,
			 2 * sizeof *x) == 0);
	cr_expect(tarn_weather_column(part, TARN_TMIN) == NULL);
	cr_expect(tarn_weather_site_of(part)->latitude_deg > 43.9);
	cr_expect_str_eq(tarn_weather_note(part, 0), "a note of 1");
	cr_expect(tarn_weather_note(part, 1) == NULL);
	tarn_weather_free(part);
	cr_expect(tarn_weather_slice(&part, w, tarn_day(2015, 12, 29),
				     tarn_day(2016, 1, 1), &err) ==
			  TARN_EARG && !part);
	cr_expect_str_eq(err.field, "first");
	err.code = TARN_OK;
	cr_expect(tarn_weather_slice(&part, w, tarn_day(2015, 12, 31),
				     tarn_day(2015, 12, 30), &err) ==
		  TARN_EARG);
	cr_expect_str_eq(err.field, "last");
	cr_expect(tarn_weather_slice(&part, w, tarn_day(2015, 12, 31),
				     tarn_day(2016, 1, 3), NULL) == TARN_EARG);
	tarn_weather_free(w);
}

/* ---- filling --------------------------------------------------------- */

static struct tarn_weather *gappy(void)
{
	static const double lo[] = { 1, N, 3, 4, N, N, 7, 8 };
	static const double hi[] = { 5, 1.5, 5, 5, N, N, 11, 12 };
	static const double rain[] = { 0, 1, N, 0, 0, 0, N, N };
	struct tarn_weather *w = new_table("2015-01-01", 8);

	put(w, TARN_TMIN, lo);
	put(w, TARN_TMAX, hi);
	put(w, TARN_RAIN, rain);
	return w;
}

Test(weather_fill, interpolates_and_counts)
{
	static const double lo[] = { 1, 1.5, 3, 4, 5, 6, 7, 8 };
	static const double hi[] = { 5, 1.5, 5, 5, 7, 9, 11, 12 };
	static const double rain[] = { 0, 1, 0, 0, 0, 0, 0, 0 };
	struct tarn_weather *w = gappy();
	struct tarn_fill fill = tarn_fill_default();
	size_t filled[TARN_COLUMNS];

	fill.interpolate_days = 2;
	fill.rain = TARN_RAIN_ZERO;
	cr_assert(tarn_weather_fill(w, &fill, filled, NULL) == TARN_OK);
	for (int i = 0; i < 8; i++) {
		/* tmin of the second day would be 2, over its tmax */
		cr_expect(fabs(tarn_weather_column(w, TARN_TMIN)[i] - lo[i]) <
			  1e-14);
		cr_expect(fabs(tarn_weather_column(w, TARN_TMAX)[i] - hi[i]) <
			  1e-14);
		cr_expect(fabs(tarn_weather_column(w, TARN_RAIN)[i] - rain[i]) <
			  1e-14);
	}
	cr_expect(filled[TARN_TMIN] == 3 && filled[TARN_TMAX] == 2 &&
		  filled[TARN_RAIN] == 3 && filled[TARN_WIND] == 0);
	cr_expect(tarn_weather_check(w, NULL) == TARN_OK);
	cr_expect_str_eq(tarn_weather_note(w, 2),
			 "rain: 3 missing days taken as dry");
	tarn_weather_free(w);
}

Test(weather_fill, names_the_first_gap_and_changes_nothing)
{
	struct tarn_weather *w = gappy();
	struct tarn_fill fill = tarn_fill_default();
	struct tarn_error err = { 0 };

	cr_expect(tarn_weather_fill(w, &fill, NULL, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "tmin");
	cr_expect(strstr(err.text, "1 day from 2015-01-02") != NULL);
	fill.interpolate_days = 1;
	err.code = TARN_OK;
	cr_expect(tarn_weather_fill(w, &fill, NULL, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "2 days from 2015-01-05") != NULL);
	cr_expect(isnan(tarn_weather_column(w, TARN_TMIN)[1]));
	fill.interpolate_days = 2;
	err.code = TARN_OK;
	cr_expect(tarn_weather_fill(w, &fill, NULL, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "rain");
	cr_expect(strstr(err.text, "never interpolated") != NULL);
	cr_expect(isnan(tarn_weather_column(w, TARN_TMIN)[1]));
	cr_expect(tarn_weather_notes(w) == 0);
	/* rain left out of sight */
	fill.columns &= ~(1u << TARN_RAIN);
	cr_expect(tarn_weather_fill(w, &fill, NULL, NULL) == TARN_OK);
	fill.interpolate_days = 32;
	cr_expect(tarn_weather_fill(w, &fill, NULL, NULL) == TARN_EARG);
	tarn_weather_free(w);
}

Test(weather_fill, an_end_has_nothing_to_interpolate_to)
{
	static const double x[] = { N, 2, 3, N };
	struct tarn_weather *w = new_table("2015-01-01", 4), *part;
	struct tarn_fill fill = tarn_fill_default();
	struct tarn_error err = { 0 };

	put(w, TARN_WIND, x);
	fill.interpolate_days = 31;
	cr_expect(tarn_weather_fill(w, &fill, NULL, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "at the start of the table") != NULL);
	cr_assert(tarn_weather_slice(&part, w, tarn_day(2015, 1, 2),
				     tarn_day(2015, 1, 4), NULL) == TARN_OK);
	err.code = TARN_OK;
	cr_expect(tarn_weather_fill(part, &fill, NULL, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "at the end of the table") != NULL);
	tarn_weather_free(part);
	tarn_weather_free(w);
}

/* ---- memory ---------------------------------------------------------- */

struct counter {
	long left, blocks;
};

static void *counted(void *context, void *block, size_t bytes)
{
	struct counter *c = context;

	if (bytes == 0) {
		c->blocks -= block != NULL;
		free(block);
		return NULL;
	}
	if (c->left-- <= 0)
		return NULL;
	c->blocks += block == NULL;
	return realloc(block, bytes);
}

/* new, add, note, slice and fill with the nth allocation failing. */
static enum tarn_status all_of_it(const struct tarn_alloc *alloc)
{
	struct tarn_weather *w, *part = NULL;
	struct tarn_fill fill = tarn_fill_default();
	enum tarn_status status = tarn_weather_new(&w, alloc, 0, 3, NULL);
	double *x;

	if (status != TARN_OK)
		return status;
	status = TARN_ENOMEM;
	x = tarn_weather_add(w, TARN_TMIN);
	fill.interpolate_days = 1;
	if (x) {
		x[0] = x[2] = 1;
		status = tarn_weather_add_note(w, "note");
	}
	if (status == TARN_OK)
		status = tarn_weather_leave_out(w, 1, 1, NULL);
	if (status == TARN_OK)
		status = tarn_weather_slice(&part, w, 0, 2, NULL);
	if (status == TARN_OK)
		status = tarn_weather_fill(part, &fill, NULL, NULL);
	tarn_weather_free(part);
	tarn_weather_free(w);
	return status;
}

Test(weather_table, every_failed_allocation_is_reported)
{
	struct counter counter = { 0, 0 };
	struct tarn_alloc alloc = { counted, &counter };
	enum tarn_status status = TARN_ENOMEM;
	int n;

	for (n = 0; status != TARN_OK && n < 100; n++) {
		counter.left = n;
		status = all_of_it(&alloc);
		cr_expect(status == TARN_OK || status == TARN_ENOMEM);
		cr_expect(counter.blocks == 0, "allocation %d", n);
	}
	cr_expect(n > 8 && n < 100, "%d", n);
}
