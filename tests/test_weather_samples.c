/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/weather.h"

/*
 * The sample files.  Days, least, mean and greatest of each column were
 * computed from the same files by a separate script (Python's csv module,
 * exactly rounded sums), which shares nothing with the reader.
 */

struct expected {
	enum tarn_column c;
	size_t present, missing;
	double min, mean, max;
};

static int near(double got, double want)
{
	return fabs(got - want) <= 1e-12 * fmax(1, fabs(want));
}

static void expect(const char *file, const struct tarn_weather *w,
		   const struct expected *rows, size_t count)
{
	unsigned seen = 0;

	for (size_t i = 0; i < count; i++) {
		struct tarn_column_summary s =
			tarn_weather_summary(w, rows[i].c);

		seen |= 1u << rows[i].c;
		cr_expect(s.present == rows[i].present &&
				  s.missing == rows[i].missing &&
				  near(s.min, rows[i].min) &&
				  near(s.mean, rows[i].mean) &&
				  near(s.max, rows[i].max),
			  "%s, %s: %zu present, %zu missing, %.15g, %.15g, "
			  "%.15g", file, tarn_column_info(rows[i].c)->name,
			  s.present, s.missing, s.min, s.mean, s.max);
	}
	for (int c = 0; c < TARN_COLUMNS; c++)
		cr_expect(!(seen >> c & 1) ==
				  !tarn_weather_column(w, (enum tarn_column)c),
			  "%s: %s", file,
			  tarn_column_info((enum tarn_column)c)->name);
}

static struct tarn_weather *sample(const char *file,
				   const struct tarn_csv_map *map,
				   struct tarn_read_report *report)
{
	char path[200] = "weather-samples/";
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	strcat(path, file);
	cr_assert(tarn_weather_read(&w, NULL, path, map, report, &err) ==
			  TARN_OK, "%s:%ld:%ld: %s %s", file, err.line,
		  err.column, err.field, err.text);
	return w;
}

static void expect_file(const char *file, const struct tarn_csv_map *map,
			const char *first, size_t absent,
			const struct expected *rows, size_t count)
{
	struct tarn_read_report report;
	struct tarn_weather *w = sample(file, map, &report);

	cr_expect(tarn_weather_first(w) == tarn_day_parse(first), "%s", file);
	cr_expect(report.absent == absent, "%s", file);
	cr_expect(tarn_weather_check(w, NULL) == TARN_OK, "%s", file);
	expect(file, w, rows, count);
	tarn_weather_free(w);
}
#define EXPECT(file, map, first, absent, rows)                                \
	expect_file(file, map, first, absent, rows, sizeof rows / sizeof *rows)

Test(weather_samples, seattle)
{
	static const struct expected rows[] = {
		{ TARN_TMIN, 1461, 0, -7.1, 8.2347707049965777, 18.3 },
		{ TARN_TMAX, 1461, 0, -1.6, 16.439082819986311, 35.6 },
		{ TARN_WIND, 1461, 0, 0.4, 3.2411362080766599, 9.5 },
		{ TARN_RAIN, 1461, 0, 0, 3.02943189596167, 55.9 },
	};
	struct tarn_csv_map map = tarn_csv_map_default();

	tarn_csv_map_set(&map, TARN_TMIN, "temp_min", "C");
	tarn_csv_map_set(&map, TARN_TMAX, "temp_max", "C");
	tarn_csv_map_set(&map, TARN_WIND, "wind", "m/s");
	tarn_csv_map_set(&map, TARN_RAIN, "precipitation", "mm");
	strcpy(map.date_format, "%Y/%m/%d");
	EXPECT("seattle_daily_2012_2015.csv", &map, "2012-01-01", 0, rows);
}

Test(weather_samples, de_bilt)
{
	static const struct expected rows[] = {
		{ TARN_TMIN, 14610, 0, -18.9, 6.1153661875427785, 22.4 },
		{ TARN_TMAX, 14610, 0, -10.6, 14.301793292265572, 37.5 },
		{ TARN_TMEAN, 14610, 0, -13.2, 10.304366872005476, 29.7 },
		{ TARN_RH_MIN, 14610, 0, 17, 64.237713894592744, 100 },
		{ TARN_RH_MAX, 14610, 0, 43, 95.441752224503759, 100 },
		{ TARN_RH_MEAN, 14610, 0, 31, 81.397262149212864, 100 },
		{ TARN_WIND, 14610, 0, 0.5, 3.3956468172484602, 10.8 },
		{ TARN_SUNSHINE, 14610, 0, 0, 4.4910609171800129, 15.6 },
		{ TARN_SOLAR, 14610, 0, 0.07, 9.8148090349075972, 30.62 },
		{ TARN_RAIN, 14610, 0, 0, 2.2922861054072556, 63.9 },
	};

	EXPECT("de_bilt_daily_1980_2019.csv", NULL, "1980-01-01", 0, rows);
}

Test(weather_samples, gatton)
{
	static const struct expected rows[] = {
		{ TARN_TMIN, 122, 0, 7.9, 18.0319672131148, 23.1 },
		{ TARN_TMAX, 122, 0, 21.2, 28.8401639344262, 39.6 },
		{ TARN_VAPOUR, 122, 0, 1.18, 2.16377049180328, 3.28 },
		{ TARN_SOLAR, 122, 0, 5, 18.672131147541, 31 },
		{ TARN_RAIN, 122, 0, 0, 3.64508196721311, 76.4 },
		{ TARN_PAN, 122, 0, 0, 4.95327868852459, 12.4 },
	};

	EXPECT("gatton_daily_1990.csv", NULL, "1990-01-01", 0, rows);
}

Test(weather_samples, fallon)
{
	static const struct expected rows[] = {
		{ TARN_TMIN, 365, 0, -17.72, 3.4567123287671233, 21.39 },
		{ TARN_TMAX, 365, 0, -2.13, 21.858712328767123, 39.44 },
		{ TARN_DEWPOINT, 365, 0, -18.16, -0.86424657534246574, 14.91 },
		{ TARN_WIND, 364, 1, 0.42, 1.6770851648351648, 5.829 },
		{ TARN_SOLAR, 365, 0, 1.712, 18.63995068493151, 33.37 },
		{ TARN_REFERENCE, 365, 0, 0.25, 3.6228493150684855, 8.64 },
	};

	EXPECT("fallon_daily_2015.csv", NULL, "2015-01-01", 0, rows);
}

Test(weather_samples, fallon_gap_and_height)
{
	struct tarn_weather *w = sample("fallon_daily_2015.csv", NULL, NULL);
	size_t at, days;

	cr_expect(tarn_weather_gap(w, TARN_WIND, 0, &at, &days));
	cr_expect(tarn_weather_first(w) + (long)at == tarn_day(2015, 4, 22) &&
		  days == 1);
	cr_expect(near(tarn_weather_site_of(w)->wind_height_m, 3));
	tarn_weather_free(w);
}

Test(weather_samples, csls_hancock)
{
	static const struct expected rows[] = {
		{ TARN_TMIN, 692, 0, -34.1, 2.8861271676300579, 22.6 },
		{ TARN_TMAX, 692, 0, -24.1, 12.542630057803468, 35.4 },
		{ TARN_RH_MEAN, 692, 0, 36.6, 77.163439306358384, 100 },
		{ TARN_WIND, 692, 0, 0.2, 1.6435260115606936, 4.55 },
		{ TARN_SOLAR, 692, 0, 0.57, 12.075130057803468, 28.45 },
		{ TARN_RAIN, 692, 0, 0, 2.9115317919075143, 74.65 },
	};

	EXPECT("csls_hancock_daily.csv", NULL, "2018-02-15", 0, rows);
}

Test(weather_samples, hancock_order)
{
	static const struct expected rows[] = {
		{ TARN_TMIN, 3716, 27, -30.555555555555554, 1.5787585217079299,
		  25.555555555555554 },
		{ TARN_TMAX, 3714, 29, -23.888888888888889, 12.634476156285526,
		  38.888888888888886 },
		{ TARN_RAIN, 3439, 304, 0, 2.5739011340505957, 91.44 },
	};
	struct tarn_csv_map map = tarn_csv_map_default();

	strcpy(map.units, "standard");
	EXPECT("hancock_ghcn_order_2010_2020.csv", &map, "2010-01-01", 6, rows);
}

/* The 46 totals of several days hold 595.4 mm, a sixteenth of all its rain. */
Test(weather_samples, hancock_totals)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_read_report report;
	struct tarn_column_summary s;
	struct tarn_weather *w;

	strcpy(map.units, "standard");
	for (int i = 1; i <= 2; i++) {
		map.totals = i == 1 ? TARN_TOTALS_LAST : TARN_TOTALS_SPREAD;
		w = sample("hancock_ghcn_order_2010_2020.csv", &map, &report);
		s = tarn_weather_summary(w, TARN_RAIN);
		cr_expect(report.totals == 46 && report.totals_days == 144 &&
			  near(report.totals_mm, 595.376));
		cr_expect(s.present == 3583 &&
			  near(s.mean * 3583, 9447.021999999999));
		tarn_weather_free(w);
	}
}

Test(weather_samples, nasa_power)
{
	static const struct expected rows[] = {
		{ TARN_TMEAN, 57, 0, -0.43, 11.576842105263157, 17.67 },
		{ TARN_RH_MEAN, 57, 0, 21, 43.459649122807015, 77.75 },
		{ TARN_DEWPOINT, 57, 0, -15.31, -2.2714035087719298, 8.53 },
		{ TARN_WIND, 57, 0, 0.8, 1.8363157894736843, 4.54 },
		{ TARN_SOLAR, 57, 0, 7.99, 18.362456140350879, 25.44 },
		{ TARN_RAIN, 57, 0, 0, 0.33491228070175438, 7.33 },
		{ TARN_PRESSURE, 57, 0, 76.88, 77.842631578947362, 78.43 },
	};
	struct tarn_weather *w;

	EXPECT("nasa_power_daily_sample.csv", NULL, "2023-09-07", 0, rows);
	w = sample("nasa_power_daily_sample.csv", NULL, NULL);
	cr_expect(near(tarn_weather_site_of(w)->latitude_deg, 38));
	cr_expect(near(tarn_weather_site_of(w)->elevation_m, 2246.85));
	cr_expect(near(tarn_weather_site_of(w)->wind_height_m, 2));
	tarn_weather_free(w);
}
