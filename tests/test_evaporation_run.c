/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "numbers.h"
#include "published.h"
#include "tarn/evaporation.h"

#define DAYS 365

static struct tarn_weather *new_weather(const char *first, size_t days)
{
	struct tarn_weather *w;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day_parse(first), days,
				   NULL) == TARN_OK);
	tarn_weather_site(w)->latitude_deg = 39.4575;
	tarn_weather_site(w)->elevation_m = 1208.5;
	tarn_weather_site(w)->wind_height_m = 3;
	return w;
}

static void fill(struct tarn_weather *w, enum tarn_column c, double x)
{
	double *column = tarn_weather_add(w, c);

	for (size_t i = 0; i < tarn_weather_days(w); i++)
		column[i] = x;
}

/* Fallon, Nevada, 2015; 'published' gets the given reference. */
static struct tarn_weather *fallon(double published[DAYS])
{
	static const enum tarn_column columns[] = {
		TARN_TMIN, TARN_TMAX, TARN_DEWPOINT, TARN_WIND, TARN_SOLAR
	};
	static double x[DAYS + 1][8];
	struct tarn_weather *w = new_weather("2015-01-01", DAYS);

	cr_assert(read_numbers("evaporation_fallon_2015.csv", 8, x[0],
			       DAYS + 1) == DAYS);
	for (int c = 0; c < 5; c++) {
		double *to = tarn_weather_add(w, columns[c]);

		for (int i = 0; i < DAYS; i++)
			to[i] = x[i][c + 1];
	}
	for (int i = 0; published && i < DAYS; i++)
		published[i] = x[i][6];
	return w;
}

static struct tarn_evaporation_options by(enum tarn_method m)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();

	o.method = (int)m;
	o.area_m2 = 20;
	o.depth_m = 1.2;
	return o;
}

static double sum(const double *x, size_t n)
{
	double s = 0;

	for (size_t i = 0; i < n; i++)
		s += x[i];
	return s;
}

/*
 * US Bureau of Reclamation, Fallon: daily ASCE short reference of 2015 as
 * published, in hundredths of an inch.  FAO-56 is the same formula with other
 * rounding of constants; a root mean square of 0.073 mm is the print's own.
 */
Test(evaporation_run, fallon_published_reference)
{
	static double published[DAYS], open[DAYS], grass[DAYS];
	struct tarn_weather *w = fallon(published);
	struct tarn_evaporation_options o = by(TARN_GRASS);
	struct tarn_evaporation_report r;
	double square = 0;

	because("US Bureau", "FAO-56 rounds the constants of the formula "
		"otherwise; 0.0032 in beyond half a digit on the worst day");
	cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, &r, NULL) ==
		  TARN_OK);
	for (int i = 0; i < DAYS; i++) {
		if (i == 111)	/* 22 April has no wind */
			continue;
		square += (grass[i] - published[i]) * (grass[i] - published[i]);
		printed("US Bureau of Reclamation, Fallon 2015, ASCE reference",
			named("day %03d, in", i + 1), grass[i] / 25.4,
			round(published[i] / 0.254) / 100, 0.0082);
	}
	cr_expect(sqrt(square / 364) < 0.085, "rms %g", sqrt(square / 364));
	cr_expect(fabs(sum(grass, DAYS) / sum(published, DAYS) - 1) < 0.003,
		  "year %g, published %g", sum(grass, DAYS),
		  sum(published, DAYS));
	cr_expect(r.method == TARN_GRASS && r.days == DAYS);
	cr_expect(r.origin_days[TARN_ORIGIN_DEWPOINT] == DAYS);
	cr_expect(r.origin_days[TARN_ORIGIN_SOLAR] == DAYS);
	cr_expect(r.origin_days[TARN_ORIGIN_WIND] == DAYS - 1);
	cr_expect(r.origin_days[TARN_ORIGIN_WIND_DEFAULT] == 1);
	cr_expect(r.origin_days[TARN_ORIGIN_SEA_LEVEL] == 0);
	tarn_weather_free(w);
}

/* A run does for each day what the one-day call does. */
Test(evaporation_run, agrees_with_single_days)
{
	static double open[DAYS], grass[DAYS];
	struct tarn_weather *w = fallon(NULL);

	for (int k = TARN_PENMAN_1956; k <= TARN_MASS_TRANSFER; k++) {
		enum tarn_method m = (enum tarn_method)k;
		struct tarn_evaporation_options o = by(m);

		if (m == TARN_PENMAN_HEAT)
			continue;
		cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, NULL,
					       NULL) == TARN_OK);
		for (int i = 0; i < DAYS; i += 7) {
			struct tarn_evaporation_day d =
				tarn_evaporation_day_default();
			double one, g;

			d.tmin_c = tarn_weather_column(w, TARN_TMIN)[i];
			d.tmax_c = tarn_weather_column(w, TARN_TMAX)[i];
			d.dewpoint_c = tarn_weather_column(w, TARN_DEWPOINT)[i];
			d.solar_mj = tarn_weather_column(w, TARN_SOLAR)[i];
			d.wind_2m_ms = tarn_air_wind_at_2m(
				tarn_weather_column(w, TARN_WIND)[i], 3);
			d.latitude_deg = 39.4575;
			d.elevation_m = 1208.5;
			d.day_of_year = i + 1;
			d.area_m2 = 20;
			cr_assert(tarn_evaporation_of_day(&d, m, &one, &g,
							  NULL, NULL) ==
				  TARN_OK);
			cr_expect(fabs(open[i] - fmax(0, one)) < 1e-12 &&
					  fabs(grass[i] - fmax(0, g)) < 1e-12,
				  "%s, day %d: %g %g",
				  tarn_method_name(m), i + 1, open[i], one);
		}
	}
	tarn_weather_free(w);
}

/* FAO-56 example 21: seven pan readings, coefficient 0.85. */
Test(evaporation_run, fao_example_21_pan)
{
	static const double pan[7] = { 8.2, 7.5, 7.6, 6.8, 7.6, 8.9, 8.5 };
	struct tarn_weather *w = new_weather("2001-07-01", 7);
	struct tarn_evaporation_options o = by(TARN_PAN_COEFFICIENT);
	struct tarn_evaporation_report r;
	double open[7], grass[7];

	memcpy(tarn_weather_add(w, TARN_PAN), pan, sizeof pan);
	o.pan_coefficient = 0.85;
	cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, &r, NULL) ==
		  TARN_OK);
	printed("FAO-56 (Allen et al. 1998) examples", "example 21, pan",
		sum(open, 7) / 7, 6.7, 0.05);
	/* nothing but a pan: grass is what stands under open water */
	cr_expect(fabs(grass[3] - open[3] / 1.05) < 1e-12);
	cr_expect(r.origin_days[TARN_ORIGIN_GRASS_FROM_WATER] == 7);
	cr_expect(r.origin_days[TARN_ORIGIN_HUMIDITY_TMIN] == 0);
	tarn_weather_free(w);
}

Test(evaporation_run, automatic)
{
	struct tarn_weather *w = new_weather("2001-07-01", 7);
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_evaporation_report r;
	double open[7], grass[7];

	/* one column after the other comes in */
	static const struct {
		enum tarn_column column;
		double value;
		enum tarn_method method;
	} steps[] = {
		{ TARN_PAN, 8, TARN_PAN_COEFFICIENT },
		{ TARN_TMIN, 14, TARN_PAN_COEFFICIENT },
		{ TARN_TMAX, 31, TARN_PENMAN_1956 },
		{ TARN_REFERENCE, 6, TARN_GIVEN_REFERENCE },
		{ TARN_OPEN_WATER, 6.5, TARN_GIVEN },
		{ TARN_WIND, 3, TARN_GIVEN },
		{ TARN_RH_MEAN, 45, TARN_PENMAN_1956 },
	};

	cr_expect(!tarn_evaporation_possible(w, &o, TARN_METHOD_AUTO));
	for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++) {
		fill(w, steps[i].column, steps[i].value);
		cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, &r,
					       NULL) == TARN_OK);
		cr_expect(r.method == steps[i].method, "step %zu: %s", i,
			  tarn_method_name(r.method));
		cr_expect(tarn_evaporation_possible(w, &o, r.method));
		cr_expect(tarn_evaporation_possible(w, &o, TARN_METHOD_AUTO));
	}
	/* a figure given for grass goes with a figure given for water */
	o.method = TARN_GIVEN;
	tarn_evaporation_run(w, &o, open, grass, NULL, NULL, NULL);
	cr_expect(open[2] == 6.5 && grass[2] == 6);
	o.method = TARN_GIVEN_REFERENCE;
	tarn_evaporation_run(w, &o, open, grass, NULL, NULL, NULL);
	cr_expect(fabs(open[2] - 6.3) < 1e-12 && grass[2] == 6);
	o.method = TARN_PENMAN_1956;
	tarn_evaporation_run(w, &o, open, grass, NULL, NULL, NULL);
	cr_expect(grass[2] != 6);
	/* a gap in what was given: back to the temperatures */
	tarn_weather_add(w, TARN_OPEN_WATER)[3] = TARN_NAN;
	cr_expect(!tarn_evaporation_possible(w, &o, TARN_GIVEN));
	tarn_weather_free(w);
}

/* Temperatures alone: every estimate is counted. */
Test(evaporation_run, estimates_are_counted)
{
	struct tarn_weather *w = new_weather("2001-12-29", 7);
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_evaporation_report r;
	double open[7], grass[7], coast[7], dry[7];

	fill(w, TARN_TMIN, 4);
	fill(w, TARN_TMAX, 12);
	tarn_weather_site(w)->elevation_m = TARN_NAN;
	tarn_weather_site(w)->wind_height_m = TARN_NAN;
	cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, &r, NULL) ==
		  TARN_OK);
	cr_expect(r.origin_days[TARN_ORIGIN_HUMIDITY_TMIN] == 7);
	cr_expect(r.origin_days[TARN_ORIGIN_SOLAR_RANGE] == 7);
	cr_expect(r.origin_days[TARN_ORIGIN_WIND_DEFAULT] == 7);
	cr_expect(r.origin_days[TARN_ORIGIN_SEA_LEVEL] == 7);
	cr_expect(r.origin_days[TARN_ORIGIN_WIND_HEIGHT] == 0);
	/* the sun moves over the new year as it does within one */
	cr_expect(fabs(open[3] - open[2]) < 0.01 && open[3] != open[2]);
	o.coastal = 1;
	tarn_evaporation_run(w, &o, coast, NULL, NULL, NULL, NULL);
	cr_expect(coast[0] > open[0]);
	o.dryness_c = 2.5;
	tarn_evaporation_run(w, &o, dry, NULL, NULL, NULL, NULL);
	cr_expect(dry[0] > coast[0]);
	fill(w, TARN_WIND, 0.3);
	tarn_evaporation_run(w, &o, dry, grass, NULL, &r, NULL);
	cr_expect(r.origin_days[TARN_ORIGIN_WIND_HEIGHT] == 7);
	cr_expect(r.origin_days[TARN_ORIGIN_WIND_FLOOR] == 7);
	tarn_weather_free(w);
}

/* A fence and trees: less wind, less sun, less of both waters. */
Test(evaporation_run, shelter_and_shade)
{
	static double open[DAYS], grass[DAYS], open2[DAYS], grass2[DAYS];
	struct tarn_weather *w = fallon(NULL);
	struct tarn_evaporation_options o = by(TARN_PENMAN_1956);

	tarn_evaporation_run(w, &o, open, grass, NULL, NULL, NULL);
	for (int k = 0; k < 2; k++) {
		o = by(TARN_PENMAN_1956);
		if (k == 0)
			o.shelter = 0.5;
		else
			o.shade = 0.5;
		tarn_evaporation_run(w, &o, open2, grass2, NULL, NULL, NULL);
		cr_expect(sum(open2, DAYS) < 0.95 * sum(open, DAYS));
		cr_expect(sum(grass2, DAYS) < 0.95 * sum(grass, DAYS));
	}
	tarn_weather_free(w);
}

Test(evaporation_run, dew_is_counted_not_kept)
{
	struct tarn_weather *w = new_weather("2001-12-01", 5);
	struct tarn_evaporation_options o = by(TARN_PENMAN_1956);
	struct tarn_evaporation_report r;
	double open[5], grass[5];

	fill(w, TARN_TMIN, 2);
	fill(w, TARN_TMAX, 3);
	fill(w, TARN_RH_MEAN, 100);
	fill(w, TARN_SOLAR, 0.5);	/* a low sun in a clear sky */
	tarn_weather_site(w)->latitude_deg = 63;
	cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, &r, NULL) ==
		  TARN_OK);
	cr_expect(r.origin_days[TARN_ORIGIN_NO_DEW] == 5 && r.dew_mm > 0);
	cr_expect(sum(open, 5) == 0 && sum(grass, 5) == 0);
	tarn_weather_free(w);
}

/* ---- heat ---------------------------------------------------------------- */

Test(evaporation_run, heat)
{
	static double open[DAYS], water[DAYS], deep[DAYS], shallow[DAYS];
	struct tarn_weather *w = fallon(NULL);
	struct tarn_evaporation_options o = by(TARN_PENMAN_HEAT);
	struct tarn_evaporation_report r;
	size_t frozen = 0;
	double top_deep = 0, top_shallow = 0;

	cr_assert(tarn_evaporation_run(w, &o, open, NULL, water, &r, NULL) ==
		  TARN_OK);
	for (int i = 0; i < DAYS; i++) {
		frozen += water[i] == 0;
		cr_expect(water[i] >= 0 && water[i] < 35, "day %d: %g C",
			  i + 1, water[i]);
		cr_expect(water[i] > 0 || open[i] == 0);
	}
	cr_expect(frozen == r.origin_days[TARN_ORIGIN_ICE]);
	cr_expect(frozen > 10 && frozen < 120, "%zu days of ice", frozen);
	o.depth_m = 10;
	tarn_evaporation_run(w, &o, open, NULL, deep, NULL, NULL);
	o.depth_m = 0.2;
	tarn_evaporation_run(w, &o, open, NULL, shallow, NULL, NULL);
	for (int i = 0; i < DAYS; i++) {
		top_deep = fmax(top_deep, deep[i]);
		top_shallow = fmax(top_shallow, shallow[i]);
	}
	cr_expect(top_deep < top_shallow - 2);
	/* deep water lags: colder in May, warmer in October */
	cr_expect(sum(deep + 120, 30) < sum(shallow + 120, 30) - 30);
	cr_expect(sum(deep + 273, 30) > sum(shallow + 273, 30) + 30);
	/* the start is forgotten within weeks */
	o.depth_m = 1.2;
	o.start_water_c = 20;
	tarn_evaporation_run(w, &o, open, NULL, deep, NULL, NULL);
	cr_expect(deep[0] > water[0] + 3);
	cr_expect(fabs(deep[60] - water[60]) < 0.01);
	/* other methods know no water temperature */
	o.method = TARN_PENMAN_1956;
	tarn_evaporation_run(w, &o, open, NULL, water, NULL, NULL);
	cr_expect(isnan(water[0]) && isnan(water[DAYS - 1]));
	tarn_weather_free(w);
}

/* ---- what is refused ----------------------------------------------------- */

static void expect_refused(const struct tarn_weather *w,
			   struct tarn_evaporation_options o,
			   const char *field, const char *part)
{
	static double open[DAYS];
	struct tarn_error err = { 0 };

	open[0] = -7;
	cr_expect(tarn_evaporation_run(w, &o, open, NULL, NULL, NULL, &err) ==
		  TARN_EARG);
	cr_expect_str_eq(err.field, field);
	cr_expect(strstr(err.text, part), "'%s' in '%s'", part, err.text);
	cr_expect(open[0] == -7, "filled on failure");
	if (o.method != TARN_METHOD_AUTO)
		cr_expect(!tarn_evaporation_possible(
			w, &o, (enum tarn_method)o.method));
}

Test(evaporation_run, refused)
{
	struct tarn_weather *w = new_weather("2015-04-20", 5);
	struct tarn_evaporation_options o = by(TARN_PENMAN_1956);

	expect_refused(w, tarn_evaporation_options_default(), "tmin",
		       "not in the weather");
	expect_refused(w, by(TARN_PAN_COEFFICIENT), "pan", "pan needs it");
	expect_refused(w, by(TARN_GIVEN), "open_water", "given needs it");
	expect_refused(w, by(TARN_GIVEN_REFERENCE), "reference", "needs it");
	fill(w, TARN_TMIN, 5);
	expect_refused(w, o, "tmax", "not in the weather");
	fill(w, TARN_TMAX, 20);
	tarn_weather_add(w, TARN_TMIN)[2] = TARN_NAN;
	expect_refused(w, o, "tmin", "2015-04-22");
	tarn_weather_add(w, TARN_TMIN)[2] = 21;
	expect_refused(w, o, "tmin", "21 on 2015-04-22, above tmax 20");
	tarn_weather_add(w, TARN_TMIN)[2] = 5;
	tarn_weather_site(w)->latitude_deg = TARN_NAN;
	expect_refused(w, o, "evaporation.latitude", "is missing");
	o.latitude_deg = 95;
	expect_refused(w, o, "evaporation.latitude", "-90 to 90");
	o.latitude_deg = 45;
	cr_expect(tarn_evaporation_possible(w, &o, TARN_PENMAN_1956));
	o.albedo = TARN_NAN;
	expect_refused(w, o, "evaporation.albedo", "is missing");
	o = by(TARN_MASS_TRANSFER);
	o.area_m2 = TARN_NAN;
	expect_refused(w, o, "evaporation.area", "mass_transfer needs");
	o = by(TARN_PENMAN_HEAT);
	o.latitude_deg = 45;
	o.depth_m = TARN_NAN;
	expect_refused(w, o, "evaporation.depth", "the mean depth");
	o.method = TARN_METHODS;
	expect_refused(w, o, "evaporation.method", "must be");
	/* nonsense that no reader would let through, but a table can hold */
	o = by(TARN_MASS_TRANSFER);
	fill(w, TARN_TMAX, 1e6);
	cr_expect(tarn_evaporation_run(w, &o, (double[5]){ 0 }, NULL, NULL,
				       NULL, NULL) == TARN_EARG);
	tarn_weather_free(w);
}

/* Mass transfer and pans ask for no latitude. */
Test(evaporation_run, without_latitude)
{
	struct tarn_weather *w = new_weather("2015-04-20", 5);
	struct tarn_evaporation_options o = by(TARN_MASS_TRANSFER);
	struct tarn_evaporation_report r;
	double open[5], grass[5];

	tarn_weather_site(w)->latitude_deg = TARN_NAN;
	fill(w, TARN_TMIN, 5);
	fill(w, TARN_TMAX, 20);
	fill(w, TARN_RH_MEAN, 60);
	cr_assert(tarn_evaporation_run(w, &o, open, grass, NULL, &r, NULL) ==
		  TARN_OK);
	cr_expect(r.origin_days[TARN_ORIGIN_GRASS_FROM_WATER] == 5);
	cr_expect(r.origin_days[TARN_ORIGIN_RH_MEAN] == 5);
	cr_expect(fabs(grass[0] * 1.05 - open[0]) < 1e-12 && open[0] > 0);
	tarn_weather_free(w);
}

Test(evaporation_run, names)
{
	for (int m = 0; m < TARN_METHODS; m++) {
		const char *name = tarn_method_name((enum tarn_method)m);

		cr_expect(tarn_method_find(name) == (enum tarn_method)m);
		cr_expect(strlen(tarn_method_title((enum tarn_method)m)) > 10);
	}
	cr_expect(tarn_method_find("penman") == TARN_METHODS);
	cr_expect_str_eq(tarn_method_name(TARN_METHODS), "unknown");
	cr_expect_str_eq(tarn_method_title(TARN_METHODS), "unknown method");
	for (int i = 0; i < TARN_ORIGINS; i++) {
		const struct tarn_origin_info *a =
			tarn_origin_info((enum tarn_origin)i);

		cr_assert(a && a->name && strlen(a->title) > 10);
		for (int j = 0; j < i; j++)
			cr_expect(strcmp(a->name, tarn_origin_info(
				(enum tarn_origin)j)->name) != 0);
	}
	cr_expect(tarn_origin_info(TARN_ORIGINS) == NULL);
	cr_expect(TARN_ORIGINS <= 32, "rules are bits of an unsigned");
}

/* Methods without sun and humidity, and columns worked out from temperature. */
Test(evaporation_run, rests_on_warmth)
{
	static const struct {
		enum tarn_method method;
		int rests;
	} rows[] = {
		{ TARN_PENMAN_1956, 0 },      { TARN_PENMAN_1948, 0 },
		{ TARN_PENMAN_HEAT, 0 },      { TARN_PRIESTLEY_TAYLOR, 0 },
		{ TARN_GRASS, 0 },            { TARN_HARGREAVES, 1 },
		{ TARN_MASS_TRANSFER, 1 },    { TARN_PAN_COEFFICIENT, 1 },
		{ TARN_GIVEN_REFERENCE, 1 },  { TARN_GIVEN, 1 },
	};
	struct tarn_evaporation_report r = { .method = TARN_GRASS };

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_evaporation_report one = { .method =
						       rows[i].method };

		one.origin_days[TARN_ORIGIN_WIND_DEFAULT] = 9;
		cr_expect(tarn_evaporation_rests_on_warmth(&one) ==
			  rows[i].rests, "row %zu", i);
	}
	r.origin_days[TARN_ORIGIN_HUMIDITY_TMIN] = 1;
	cr_expect(tarn_evaporation_rests_on_warmth(&r) == 1);
	r.origin_days[TARN_ORIGIN_HUMIDITY_TMIN] = 0;
	r.origin_days[TARN_ORIGIN_SOLAR_RANGE] = 1;
	cr_expect(tarn_evaporation_rests_on_warmth(&r) == 1);
}

/* ---- more sun than a clear sky gives ------------------------------------------ */

/* Days of a year that are counted, with sunshine 'over_h' beyond the time in
 * which the sun is seen, or with so much of a clear sky's radiation. */
static size_t too_sunny(double over_h, double clear_share)
{
	struct tarn_weather *w = new_weather("2015-01-01", DAYS);
	struct tarn_evaporation_options o = by(TARN_PENMAN_1956);
	struct tarn_evaporation_report r;
	static double open[DAYS];
	double lat = tarn_weather_site(w)->latitude_deg;
	double z = tarn_weather_site(w)->elevation_m;

	fill(w, TARN_TMIN, 8);
	fill(w, TARN_TMAX, 20);
	for (int i = 0; i < DAYS; i++)
		if (clear_share > 0)
			tarn_weather_add(w, TARN_SOLAR)[i] = clear_share *
				tarn_sun_clear_sky(tarn_sun_top_of_atmosphere(
					lat, i + 1), z);
		else
			tarn_weather_add(w, TARN_SUNSHINE)[i] =
				tarn_sun_seen(lat, i + 1) + over_h;
	cr_assert(tarn_evaporation_run(w, &o, open, NULL, NULL, &r, NULL) ==
		  TARN_OK);
	tarn_weather_free(w);
	return r.origin_days[TARN_ORIGIN_ABOVE_CLEAR_SKY];
}

/* A day of sun from edge to edge is longer than FAO-56's daylight by 11
 * minutes here: no such day is odd; an hour more is. */
Test(evaporation_run, a_whole_day_of_sun_is_no_fault)
{
	cr_expect(too_sunny(0, 0) == 0);
	cr_expect(too_sunny(TARN_SUNSHINE_OVER_H - 1e-6, 0) == 0);
	cr_expect(too_sunny(TARN_SUNSHINE_OVER_H + 1e-6, 0) == DAYS);
	cr_expect(too_sunny(0, 1 + TARN_SOLAR_OVER - 1e-6) == 0);
	cr_expect(too_sunny(0, 1 + TARN_SOLAR_OVER + 1e-6) == DAYS);
}

/* ---- methods beside each other ---------------------------------------------- */

#define PENMAN TARN_PENMAN_1956

/* What Hargreaves gives beside Penman, with the days from .. to of tmax away. */
static enum tarn_status beside(int from, int to, double open[DAYS],
			       double base[DAYS], struct tarn_error *err)
{
	static double grass[DAYS], base_grass[DAYS];
	struct tarn_evaporation_base b = { base, base_grass };
	struct tarn_weather *whole = fallon(NULL), *w = fallon(NULL);
	struct tarn_evaporation_options o = by(PENMAN);
	double *tmax = tarn_weather_add(w, TARN_TMAX);
	enum tarn_status s;

	cr_assert(tarn_evaporation_run(whole, &o, base, base_grass, NULL, NULL,
				       NULL) == TARN_OK);
	for (int i = from; i < to; i++)
		tmax[i] = TARN_NAN;
	o.method = TARN_HARGREAVES;
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_HARGREAVES) ==
		  to - from);
	s = tarn_evaporation_beside(w, &o, &b, open, grass, NULL, err);
	for (int i = 0; i < DAYS && s == TARN_OK; i++)
		cr_assert(open[i] >= 0 && grass[i] >= 0, "day %d", i);
	tarn_weather_free(whole);
	tarn_weather_free(w);
	return s;
}

/* The ratio of both over the days that both have, by hand. */
Test(evaporation_run, a_missing_day_takes_away_no_method)
{
	static const int spans[][2] = { { 200, 201 }, { 0, 3 }, { 360, 365 },
					{ 100, 136 } };
	static double open[DAYS], base[DAYS], all[DAYS];

	cr_assert(beside(0, 0, all, base, NULL) == TARN_OK);
	for (int k = 0; k < 4; k++) {
		int from = spans[k][0], to = spans[k][1];
		double own = 0, other = 0;

		cr_assert(beside(from, to, open, base, NULL) == TARN_OK);
		for (int i = 0; i < DAYS; i++)
			if (i < from || i >= to) {
				own += all[i];
				other += base[i];
				cr_expect(fabs(open[i] - all[i]) < 1e-12);
			}
		for (int i = from; i < to; i++)
			cr_expect(fabs(open[i] - base[i] * own / other) <
				  1e-12);
	}
}

Test(evaporation_run, too_many_missing_days_are_no_comparison)
{
	static double open[DAYS], base[DAYS];
	struct tarn_error err = { 0 };

	cr_expect(beside(100, 137, open, base, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "37 of 365 days") != NULL, "%s", err.text);
}

Test(evaporation_run, only_a_named_method_goes_beside)
{
	static double open[DAYS], grass[DAYS];
	struct tarn_evaporation_base b = { open, grass };
	struct tarn_weather *w = fallon(NULL);
	static const int methods[] = { -1, TARN_METHODS, TARN_METHOD_AUTO };

	for (int i = 0; i < 3; i++) {
		struct tarn_evaporation_options o = by(PENMAN);
		struct tarn_error err = { 0 };

		o.method = methods[i];
		cr_expect(tarn_evaporation_beside(w, &o, &b, open, grass, NULL,
						  &err) == TARN_EARG);
		cr_expect_str_eq(err.field, i < 2 ? "evaporation.method"
						  : "method");
	}
	tarn_weather_free(w);
}

Test(evaporation_run, what_a_method_lacks)
{
	struct tarn_weather *w = fallon(NULL);
	struct tarn_evaporation_options o = by(PENMAN);

	cr_expect(tarn_evaporation_lacking(w, &o, PENMAN) == 0);
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_PAN_COEFFICIENT) == -1);
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_METHOD_AUTO) == -1);
	cr_expect(tarn_evaporation_lacking(w, &o, TARN_METHODS) == -1);
	tarn_weather_add(w, TARN_TMIN)[7] = 99;	/* over tmax */
	cr_expect(tarn_evaporation_lacking(w, &o, PENMAN) == -1);
	tarn_weather_add(w, TARN_TMAX)[7] = TARN_NAN;	/* no matter there */
	cr_expect(tarn_evaporation_lacking(w, &o, PENMAN) == 1);
	tarn_weather_free(w);
}
