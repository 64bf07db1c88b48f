/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/weather.h"

#define DAYS 730

/* Two years at 47 degrees, 130 m: 11 degrees, 3 m/s, 940 mm, 13 MJ, 5.5 h. */
static struct tarn_weather *plain(size_t days)
{
	struct tarn_weather *w;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2015, 1, 1), days, NULL)
		  == TARN_OK);
	for (int c = 0; c < TARN_COLUMNS; c++)
		cr_assert(tarn_weather_add(w, (enum tarn_column)c) != NULL);
	for (size_t i = 0; i < days; i++) {
		double season = -cos((double)i / 365 * 6.2832);

		tarn_weather_add(w, TARN_TMIN)[i] = 7 + 7 * season;
		tarn_weather_add(w, TARN_TMAX)[i] = 15 + 9 * season;
		tarn_weather_add(w, TARN_TMEAN)[i] = 11 + 8 * season;
		tarn_weather_add(w, TARN_WIND)[i] = 3 + (double)(i % 5) / 4 - 0.5;
		tarn_weather_add(w, TARN_RAIN)[i] =
			i % 5 < 2 ? 1 + (double)(i % 11) : 0;
		tarn_weather_add(w, TARN_SOLAR)[i] = 13 + 9 * season;
		tarn_weather_add(w, TARN_SUNSHINE)[i] = 5.5 + 4 * season;
		tarn_weather_add(w, TARN_RH_MAX)[i] = 99.9;
	}
	tarn_weather_site(w)->latitude_deg = 47;
	tarn_weather_site(w)->elevation_m = 130;
	return w;
}

/* A column becomes (x + add) * times. */
static void change(struct tarn_weather *w, enum tarn_column c, double add,
		   double times)
{
	double *x = tarn_weather_add(w, c);

	for (size_t i = 0; i < tarn_weather_days(w); i++)
		x[i] = (x[i] + add) * times;
}

/* One doubt, of that kind. */
static void one(const struct tarn_weather *w, const char *what, int kind,
		const char *column, int swap)
{
	struct tarn_weather_doubt d[TARN_DOUBTS_MAX];
	size_t n = tarn_weather_doubts(w, d, TARN_DOUBTS_MAX);

	cr_expect(n == 1, "%s: %zu doubts", what, n);
	if (n < 1)
		return;
	cr_expect(d[0].kind == kind && d[0].swap == swap, "%s: %d, %d", what,
		  d[0].kind, d[0].swap);
	cr_expect(strcmp(d[0].column, column) == 0, "%s: %s", what, d[0].column);
}

Test(weather_doubts, none_of_plain_weather)
{
	struct tarn_weather *w = plain(DAYS);
	struct tarn_weather_doubt d[1];

	cr_expect(tarn_weather_doubts(w, d, 1) == 0, "%s", d[0].column);
	tarn_weather_site(w)->latitude_deg = TARN_NAN;
	tarn_weather_site(w)->elevation_m = TARN_NAN;
	cr_expect(tarn_weather_doubts(w, d, 1) == 0, "%s", d[0].column);
	tarn_weather_free(w);
	w = plain(25);		/* a cold month is no cold year */
	cr_expect(tarn_weather_doubts(w, d, 1) == 0, "%s", d[0].column);
	tarn_weather_free(w);
}

Test(weather_doubts, units_that_were_swapped)
{
	static const struct {
		enum tarn_column c;
		double add, times;
		int kind, swap;
	} rows[] = {
		{ TARN_WIND, 0, 3.6, TARN_DOUBT_HIGH, TARN_SWAP_KMH_AS_MS },
		{ TARN_RAIN, 0, 1 / 25.4, TARN_DOUBT_LOW, TARN_SWAP_INCH_AS_MM },
		{ TARN_RAIN, 0, 0.05, TARN_DOUBT_LIGHT, TARN_SWAP_INCH_AS_MM },
		{ TARN_RAIN, 0, 25.4, TARN_DOUBT_HIGH, TARN_SWAP_MM_AS_INCH },
		{ TARN_RAIN, 0, 10, TARN_DOUBT_HIGH, TARN_SWAP_TENTHS_AS_MM },
		{ TARN_RAIN, 0, 0, TARN_DOUBT_LOW, -1 },
		{ TARN_SOLAR, 0, 1 / 3.6, TARN_DOUBT_LOW, TARN_SWAP_KWH_AS_MJ },
		{ TARN_SOLAR, 0, 1.8, TARN_DOUBT_HIGH, -1 },
		{ TARN_SUNSHINE, 0, 0.2, TARN_DOUBT_LOW, -1 },
		{ TARN_WIND, 0, 0.05, TARN_DOUBT_LOW, -1 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_weather *w = plain(DAYS);

		change(w, rows[i].c, rows[i].add, rows[i].times);
		one(w, "swap", rows[i].kind, tarn_column_info(rows[i].c)->name,
		    rows[i].swap);
		tarn_weather_free(w);
	}
}

/* deg F taken for deg C and the other way; also without a latitude. */
Test(weather_doubts, temperatures)
{
	struct tarn_weather *w = plain(DAYS);

	change(w, TARN_TMIN, 32 / 1.8, 1.8);
	change(w, TARN_TMAX, 32 / 1.8, 1.8);
	one(w, "F", TARN_DOUBT_HIGH, "tmax", TARN_SWAP_F_AS_C);
	tarn_weather_site(w)->latitude_deg = TARN_NAN;
	one(w, "F, no place", TARN_DOUBT_HIGH, "tmax", TARN_SWAP_F_AS_C);
	tarn_weather_free(w);
	w = plain(DAYS);
	change(w, TARN_TMIN, -32, 1 / 1.8);
	change(w, TARN_TMAX, -32, 1 / 1.8);
	one(w, "C", TARN_DOUBT_LOW, "tmax", TARN_SWAP_C_AS_F);
	tarn_weather_free(w);
}

/* Bodo, Yakutsk, Lhasa, Phoenix, Wellington, Quito: means that are true (from
 * memory) raise no doubt. */
Test(weather_doubts, true_places)
{
	static const struct { double latitude, elevation, mean, wind, rain; }
	rows[] = {
		{ 67.3, 10, 5, 6.5, 1060 }, { 62, 100, -8.8, 2, 240 },
		{ 29.7, 3650, 8, 2, 430 }, { 33.4, 340, 24, 2.8, 205 },
		{ -41.3, 10, 13, 7.5, 1250 }, { -0.2, 2850, 14, 2, 1100 },
		{ 15.6, 380, 30, 3.5, 120 }, { 51.5, 20, 11.5, 3.5, 600 },
	};
	struct tarn_weather_doubt d[1];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_weather *w = plain(DAYS);

		tarn_weather_site(w)->latitude_deg = rows[i].latitude;
		tarn_weather_site(w)->elevation_m = rows[i].elevation;
		change(w, TARN_TMIN, rows[i].mean - 11, 1);
		change(w, TARN_TMAX, rows[i].mean - 11, 1);
		change(w, TARN_WIND, 0, rows[i].wind / 3);
		change(w, TARN_RAIN, 0, rows[i].rain / 876);
		cr_expect(tarn_weather_doubts(w, d, 1) == 0, "row %zu: %s %g",
			  i, d[0].column, d[0].value);
		tarn_weather_free(w);
	}
}

Test(weather_doubts, codes_among_values)
{
	struct tarn_weather_doubt d[TARN_DOUBTS_MAX];
	struct tarn_weather *w = plain(DAYS);

	tarn_weather_add(w, TARN_RAIN)[100] = 999.9;
	one(w, "999.9", TARN_DOUBT_SENTINEL, "rain", -1);
	tarn_weather_doubts(w, d, 1);
	cr_expect(d[0].days == 1 && d[0].first_day == tarn_day(2015, 4, 11));
	cr_expect(fabs(d[0].value - 999.9) < 1e-9 && d[0].high < 12);
	tarn_weather_add(w, TARN_RAIN)[200] = 999.9;
	tarn_weather_doubts(w, d, 1);
	cr_expect(d[0].days == 2);
	tarn_weather_free(w);

	w = plain(DAYS);	/* in a file of km/h */
	tarn_weather_add(w, TARN_WIND)[7] = 99.9 / 3.6;
	one(w, "99.9 km/h", TARN_DOUBT_SENTINEL, "wind", -1);
	/* a value that other values come near to is one */
	tarn_weather_add(w, TARN_WIND)[8] = 24;
	cr_expect(tarn_weather_doubts(w, d, 1) == 0);
	tarn_weather_free(w);

	w = plain(DAYS);	/* a mean leaves codes out */
	for (size_t i = 0; i < 40; i++)
		tarn_weather_add(w, TARN_RAIN)[i] = 999;
	one(w, "many", TARN_DOUBT_SENTINEL, "rain", -1);
	cr_expect(tarn_weather_doubts(w, d, 0) == 0);
	tarn_weather_free(w);
}

/* No file that the tests take for good is doubted. */
Test(weather_doubts, none_of_the_samples)
{
	static const char *const files[] = {
		"de_bilt_daily_1980_2019.csv", "fallon_daily_2015.csv",
		"csls_hancock_daily.csv", "nasa_power_daily_sample.csv",
	};
	struct tarn_weather_doubt d[1];

	for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
		char path[100] = "weather-samples/";
		struct tarn_weather *w;

		strcat(path, files[i]);
		cr_assert(tarn_weather_read(&w, NULL, path, NULL, NULL, NULL)
			  == TARN_OK, "%s", path);
		cr_expect(tarn_weather_doubts(w, d, 1) == 0, "%s: %s", path,
			  d[0].column);
		tarn_weather_free(w);
	}
}

/* ---- months ------------------------------------------------------------------ */

/* A month of one temperature. */
static struct tarn_weather *month(double latitude_deg, double elevation_m,
				  long first, double mean_c)
{
	struct tarn_weather *w;

	cr_assert(tarn_weather_new(&w, NULL, first, 30, NULL) == TARN_OK);
	for (size_t i = 0; i < 30; i++) {
		tarn_weather_add(w, TARN_TMIN)[i] = mean_c - 4;
		tarn_weather_add(w, TARN_TMAX)[i] = mean_c + 4;
	}
	tarn_weather_site(w)->latitude_deg = latitude_deg;
	tarn_weather_site(w)->elevation_m = elevation_m;
	return w;
}

/* The coldest and warmest months of towns at the ends of what there is (normals
 * from memory) are not doubted in C. */
Test(weather_doubts, months_that_can_be)
{
	static const struct {
		const char *town;
		double latitude_deg, elevation_m, january_c, july_c;
	} rows[] = {
		{ "Yakutsk", 62, 100, -38, 19.5 },
		{ "Verkhoyansk", 67.5, 137, -45, 16 },
		{ "Torquay", 50.5, 10, 7, 17 },
		{ "Bodo", 67.3, 11, -2, 13 },
		{ "Phoenix", 33.4, 340, 13, 35 },
		{ "San Francisco", 37.6, 5, 10, 16 },
		{ "Kuwait", 29.2, 55, 13, 38 },
		{ "Kerguelen", -49.4, 30, 8, 2 },
		{ "Singapore", 1.4, 15, 26, 28 },
		{ "La Paz", -16.5, 4060, 9, 5 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (int july = 0; july < 2; july++) {
			struct tarn_weather_doubt d[1];
			struct tarn_weather *w = month(
				rows[i].latitude_deg, rows[i].elevation_m,
				tarn_day(2015, july ? 7 : 1, 1),
				july ? rows[i].july_c : rows[i].january_c);

			cr_expect(tarn_weather_doubts(w, d, 1) == 0,
				  "%s, %d: %g to %g", rows[i].town, july,
				  d[0].low, d[0].high);
			tarn_weather_free(w);
		}
}

/* By latitude and season: freezing in F is no winter's C, a warm summer in C is
 * no summer's F; half a year away they could be. */
Test(weather_doubts, units_by_the_season)
{
	struct tarn_weather_doubt d[1];
	struct tarn_weather *w;

	for (int south = 0; south < 2; south++) {
		double latitude = south ? -45 : 45;
		int summer = south ? 1 : 7, winter = south ? 7 : 1;

		w = month(latitude, 100, tarn_day(2015, winter, 1), 32);
		one(w, "freezing in F", TARN_DOUBT_HIGH, "tmax",
		    TARN_SWAP_F_AS_C);
		tarn_weather_free(w);
		w = month(latitude, 100, tarn_day(2015, summer, 1), -6);
		one(w, "21 C as F", TARN_DOUBT_LOW, "tmax", TARN_SWAP_C_AS_F);
		tarn_weather_free(w);
		w = month(latitude, 100, tarn_day(2015, winter, 1), -6);
		cr_expect(tarn_weather_doubts(w, d, 1) == 0);
		tarn_weather_free(w);
		w = month(latitude, 100, tarn_day(2015, summer, 1), 32);
		cr_expect(tarn_weather_doubts(w, d, 1) == 0);
		tarn_weather_free(w);
	}
}
