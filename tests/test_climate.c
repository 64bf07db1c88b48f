/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

#include "published.h"
#include "tarn.h"

/* Climates: their tables beside what the publishers print, and what is drawn. */

static const struct tarn_climate *climate(const char *name)
{
	const struct tarn_climate *c = tarn_climate_find(name, NULL);

	cr_assert(c != NULL, "%s", name);
	return c;
}

/* ---- the tables --------------------------------------------------------------- */

#define NOAA "NOAA NCEI (2011, 2021), U.S. Climate Normals, monthly: "

/*
 * Mean temperature and daily range are columns of their own in NOAA's tables
 * (MLY-TAVG-NORMAL, MLY-DUTR-NORMAL), deg F: neither was used for ours.
 */
Test(climate, means_and_ranges)
{
	static const struct {
		const char *name;
		double mean_f[12], range_f[12];
	} rows[] = {
		{ "richmond", { 37.9, 40.9, 48.6, 58.2, 66.4, 75.3, 79.3, 77.5,
				70.6, 59.7, 50.4, 41.0 },
		  { 19.1, 20.8, 22.8, 24.2, 22.9, 21.6, 20.8, 20.2, 21.1, 22.8,
		    22.1, 19.3 } },
		{ "lebanon", { 19.8, 22.4, 31.9, 44.3, 56.7, 65.1, 70.3, 68.6,
			       60.7, 48.6, 37.2, 26.8 },
		  { 21.0, 22.9, 22.2, 24.8, 26.0, 25.5, 25.0, 24.9, 24.3, 22.5,
		    19.2, 17.4 } },
		{ "seattle", { 42.1, 43.4, 46.6, 50.5, 56.0, 61.0, 65.9, 66.5,
			       61.6, 53.3, 46.2, 41.1 },
		  { 10.2, 13.1, 14.5, 16.0, 16.5, 17.4, 19.6, 19.5, 18.2, 13.7,
		    10.4, 9.6 } },
		{ "austin", { 49.2, 52.1, 59.2, 67.3, 75.2, 81.0, 83.4, 83.7,
			      77.8, 69.0, 58.4, 50.4 },
		  { 25.8, 25.3, 25.2, 25.1, 23.0, 22.3, 23.5, 24.9, 25.1, 26.4,
		    25.8, 26.4 } },
	};

	because(NOAA, "mean and range of two numbers that are rounded "
		      "themselves, to 0.1 deg F and here to 0.01 deg C");
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct tarn_climate *c = climate(rows[i].name);

		for (int m = 0; m < 12; m++) {
			double low = tarn_fahrenheit(c->tmin_c[m]);
			double high = tarn_fahrenheit(c->tmax_c[m]);

			printed(NOAA "TAVG", named("%s, month %d", c->name,
						   m + 1),
				(low + high) / 2, rows[i].mean_f[m], 0.12);
			printed(NOAA "DUTR", named("%s, month %d", c->name,
						   m + 1),
				high - low, rows[i].range_f[m], 0.12);
		}
	}
}

static double sum_of(const double x[12])
{
	double sum = 0;

	for (int m = 0; m < 12; m++)
		sum += x[m];
	return sum;
}

/* The year's columns of Toronto's table. */
Test(climate, a_year_of_toronto)
{
	const struct tarn_climate *c = climate("toronto");
	const char *source = "Environment Canada (2011), Canadian Climate "
			     "Normals 1981-2010, 6158350";

	because("Environment", "means of twelve rounded numbers, each month "
			       "taken for as long as the others");
	printed(source, "rain of a year, mm", sum_of(c->rain_mm), 831.1, 0.3);
	printed(source, "days of 0.2 mm", sum_of(c->wet_days), 145.5, 0.3);
	printed(source, "mean of tmax", sum_of(c->tmax_c) / 12, 12.9, 0.1);
	printed(source, "mean of tmin", sum_of(c->tmin_c) / 12, 5.9, 0.1);
}

/* Days of a month with more than a threshold, by the normal distribution. */
static double days_over(double mean, double sd, double limit, double days)
{
	return days * erfc((limit - mean) / sd / sqrt(2)) / 2;
}

/*
 * The spreads came from these numbers of days and their neighbours: one number
 * has to serve all thresholds of a month.
 */
Test(climate, days_over_a_threshold)
{
	static const struct {
		const char *name;
		int month;
		double over_f, days;	/* of tmax */
	} rows[] = {
		{ "richmond", 1, 39.5, 22.2 }, { "richmond", 1, 59.5, 5.2 },
		{ "richmond", 7, 79.5, 29.1 }, { "richmond", 7, 89.5, 15.9 },
		{ "lebanon", 4, 49.5, 21.2 }, { "lebanon", 4, 69.5, 4.8 },
		{ "lebanon", 7, 79.5, 22.0 }, { "lebanon", 7, 89.5, 4.6 },
		{ "seattle", 1, 49.5, 10.1 }, { "seattle", 7, 69.5, 24.8 },
		{ "seattle", 7, 79.5, 7.6 }, { "austin", 1, 49.5, 25.8 },
		{ "austin", 1, 69.5, 9.0 }, { "austin", 8, 89.5, 28.9 },
		{ "austin", 8, 99.5, 4.9 },
	};

	because(NOAA, "days are not quite normal: a tenth of the month");
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct tarn_climate *c = climate(rows[i].name);
		int m = rows[i].month - 1;
		double days = tarn_days_in_month(2001, m + 1);

		printed(NOAA "TMAX-AVGNDS-GRTH",
			named("%s, month %d, %g F", c->name, m + 1,
			      rows[i].over_f + 0.5),
			days_over(tarn_fahrenheit(c->tmax_c[m]),
				  c->tmax_sd_c[m] * 1.8, rows[i].over_f, days),
			rows[i].days, 0.1 * days);
	}
}

Test(climate, tables_are_whole)
{
	size_t count;
	const struct tarn_climate *all = tarn_climates(&count);

	cr_expect(count >= 6 && tarn_climates(NULL) == all);
	for (size_t i = 0; i < count; i++) {
		const struct tarn_climate *c = &all[i];

		cr_expect(tarn_climate_find(c->name, NULL) == c);
		cr_expect(i == 0 || c->latitude_deg < all[i - 1].latitude_deg);
		cr_expect(*c->place && *c->kind && *c->station && *c->period &&
			  *c->source && *c->licence, "%s", c->name);
		for (int m = 0; m < 12; m++)
			cr_expect(c->tmax_c[m] > c->tmin_c[m] &&
				  c->tmax_sd_c[m] > 1 && c->tmax_sd_c[m] < 9 &&
				  c->tmin_sd_c[m] > 1 && c->tmin_sd_c[m] < 9,
				  "%s %d", c->name, m + 1);
	}
	cr_expect(tarn_fields_find(&tarn_climate_fields, "wet_days") != NULL);
}

/* ---- what is drawn --------------------------------------------------------------- */

enum { YEARS = TARN_CLIMATE_YEARS };

/* What a month of each year comes to. */
struct months {
	double rain[12][YEARS], wet[12][YEARS], tmax[12][YEARS],
		tmin[12][YEARS];
};

static void sum_up(const struct tarn_weather *w, double wet_mm,
		   struct months *out)
{
	const double *rain = tarn_weather_column(w, TARN_RAIN);
	const double *tmax = tarn_weather_column(w, TARN_TMAX);
	const double *tmin = tarn_weather_column(w, TARN_TMIN);

	memset(out, 0, sizeof *out);
	for (size_t i = 0; i < tarn_weather_days(w); i++) {
		struct tarn_date d = tarn_date(tarn_weather_first(w) + (long)i);
		int m = d.month - 1, y = d.year - TARN_CLIMATE_FIRST_YEAR;
		double days = tarn_days_in_month(d.year, d.month);

		out->rain[m][y] += rain[i];
		out->wet[m][y] += rain[i] >= wet_mm;
		out->tmax[m][y] += tmax[i] / days;
		out->tmin[m][y] += tmin[i] / days;
		cr_expect(tmax[i] >= tmin[i] && rain[i] >= 0);
	}
}

/* The mean of the years less the normal, over its standard error. */
static double t_of(const double *x, double normal)
{
	double mean = tarn_mean(x, YEARS), sum = 0;

	for (int y = 0; y < YEARS; y++)
		sum += (x[y] - mean) * (x[y] - mean);
	return (mean - normal) / sqrt(sum / (YEARS - 1) / YEARS);
}

/* Student's t of one month: its square goes to the sum. */
static void within(const struct tarn_climate *c, const char *what, int m,
		   const double *x, double normal, double *squares, int *count)
{
	double t = t_of(x, normal);

	cr_expect(fabs(t) < 4.7, "%s of %s, month %d: t %.2f", what, c->name,
		  m + 1, t);
	*squares += t * t;
	++*count;
}

/*
 * Means of 30 years beside the normals, by Student's t with 29 degrees of
 * freedom: of 6 x 12 x 4 months none is beyond 4.7 (1 in 50 for all of them
 * together), and the mean of the squares is that of t, 29 / 27, to four
 * standard errors (the four numbers of a month are not independent: as if half
 * of them were).
 */
Test(climate, thirty_years_have_the_normals)
{
	static struct months x;
	double squares = 0, want = 29.0 / 27;
	int tries = 0;
	size_t count;
	const struct tarn_climate *all = tarn_climates(&count);

	for (size_t i = 0; i < count; i++) {
		const struct tarn_climate *c = &all[i];
		struct tarn_weather *w;

		cr_assert(tarn_climate_weather(&w, NULL, c, YEARS,
					       TARN_CLIMATE_SEED, NULL) ==
			  TARN_OK);
		sum_up(w, c->wet_mm, &x);
		tarn_weather_free(w);
		for (int m = 0; m < 12; m++) {
			within(c, "rain", m, x.rain[m], c->rain_mm[m],
			       &squares, &tries);
			within(c, "wet days", m, x.wet[m], c->wet_days[m],
			       &squares, &tries);
			within(c, "tmax", m, x.tmax[m], c->tmax_c[m], &squares,
			       &tries);
			within(c, "tmin", m, x.tmin[m], c->tmin_c[m], &squares,
			       &tries);
		}
	}
	cr_expect(fabs(squares / tries - want) < 4 * sqrt(2.0 / (tries / 2)),
		  "%.3f for %.3f", squares / tries, want);
}

Test(climate, the_same_seed_the_same_days)
{
	const struct tarn_climate *c = climate("richmond");
	struct tarn_weather *a, *b, *other;
	const struct tarn_site *site;
	size_t days;

	cr_assert(tarn_climate_weather(&a, NULL, c, 2, 7, NULL) == TARN_OK);
	cr_assert(tarn_climate_weather(&b, NULL, c, 4, 7, NULL) == TARN_OK);
	cr_assert(tarn_climate_weather(&other, NULL, c, 2, 8, NULL) ==
		  TARN_OK);
	days = tarn_weather_days(a);
	cr_expect(days == 730 && tarn_weather_days(b) == 1461);
	cr_expect(memcmp(tarn_weather_column(a, TARN_TMAX),
			 tarn_weather_column(b, TARN_TMAX),
			 days * sizeof(double)) == 0);
	cr_expect(memcmp(tarn_weather_column(a, TARN_TMAX),
			 tarn_weather_column(other, TARN_TMAX),
			 days * sizeof(double)) != 0);
	site = tarn_weather_site_of(a);
	cr_expect(strstr(site->name, "climate of Richmond") != NULL);
	cr_expect(fabs(site->latitude_deg - 37.505) < 1e-9);
	cr_expect(tarn_weather_column(a, TARN_SOLAR) == NULL);
	cr_expect(strstr(tarn_weather_note(a, 0), "a climate, not your weather")
		  != NULL);
	cr_expect(strstr(tarn_weather_note(a, 0), "seed 7") != NULL);
	tarn_weather_free(a);
	tarn_weather_free(b);
	tarn_weather_free(other);
}

Test(climate, refusals)
{
	struct tarn_climate c = *climate("austin");
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	cr_expect(tarn_climate_find("austen", &err) == NULL);
	cr_expect_str_eq(err.field, "climate");
	cr_expect(strstr(err.text, "'austin'") != NULL, "%s", err.text);
	cr_expect(tarn_climate_find("", NULL) == NULL);
	for (int i = 0; i < 2; i++) {
		memset(&err, 0, sizeof err);
		cr_expect(tarn_climate_weather(&w, NULL, &c, i ? 401 : 0, 1,
					       &err) == TARN_EARG);
		cr_expect(w == NULL);
		cr_expect_str_eq(err.field, "years");
	}
	cr_expect(tarn_climate_weather(&w, NULL, &c, 400, 1, NULL) == TARN_OK);
	tarn_weather_free(w);
	c.wet_days[3] = TARN_NAN;
	memset(&err, 0, sizeof err);
	cr_expect(tarn_climate_weather(&w, NULL, &c, 1, 1, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "wet_days");
	c = *climate("austin");
	c.wet_mm = 6;
	memset(&err, 0, sizeof err);
	cr_expect(tarn_climate_weather(&w, NULL, &c, 1, 1, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "wet");
}
