/* SPDX-License-Identifier: MIT */
/* Evaporation of stream and falls, by the disturbed share of their surface. */
#include <criterion/criterion.h>

#include "tarn/evaporation.h"
#include "tarn/pond.h"
#include "published.h"

/* Its abstract: a quiet pool evaporates 74 % of a formula, one in use 40 to 70 %
 * more than that, 126 % of the formula with 15 to 20 swimmers on 1000 ft2. */
Test(stream, disturbed_over_quiet)
{
	static const char source[] = "Smith, Lof and Jones (1998), ASHRAE 4146";

	quoted(source, "pool in use / quiet, most", TARN_DISTURBED, 1.70, 0.005);
	quoted(source, "formula's share with 15 to 20 swimmers",
	       0.74 * TARN_DISTURBED, 1.26, 0.005);
}

/* Another program's line, with a factor of 1.6 on a tenth of the surface: 0.1 x
 * 0.6 is a share of 0.06 / 0.7 of ours. */
Test(stream, as_another_program_has_it)
{
	struct published rows[] = {
		{ "a tenth, factor 1.6", tarn_stream_factor(0.06 / 0.7),
		  1.0176, 0.00005 },
		{ "a tenth", tarn_stream_factor(0.1), 1.0205, 0.00005 },
		{ "a fifth", tarn_stream_factor(0.2), 1.0401, 0.00005 },
		{ "all of it", tarn_stream_factor(1), 1.1726, 0.00005 },
	};

	EXPECT_ROWS("its own arithmetic", rows);
}

Test(stream, range_ends_and_law)
{
	static const double bad[] = { -1e-9, 1 + 1e-9, TARN_NAN, INFINITY,
				      -INFINITY };
	double before = 1;

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
		cr_expect(isnan(tarn_stream_factor(bad[i])), "%g", bad[i]);
	cr_expect(tarn_stream_factor(0) == 1);
	for (int i = 1; i <= 10; i++) {
		double now = tarn_stream_factor(i / 10.0);

		cr_expect(now > before && now < 1 + 0.7 * i / 10.0);
		before = now;
	}
}

/* ---- the power ------------------------------------------------------------- */

#define DAYS_MAX 15000

struct station {
	const char *file;
	double latitude_deg, elevation_m;
};

static const struct station fallon = {
	"weather-samples/fallon_daily_2015.csv", 39.5, 1200
}, de_bilt = {
	"weather-samples/de_bilt_daily_1980_2019.csv", 52.1, 4
};

/* Evaporation over a file's days, April to October; the wind function of the
 * heat balance goes by area, A^-0.05. */
static double season_mm(const struct station *at, enum tarn_method method,
			double shelter, double area_m2)
{
	static double open_mm[DAYS_MAX];
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	double sum = 0;

	cr_assert(tarn_weather_read(&w, NULL, at->file, NULL, NULL, &err) ==
		  TARN_OK, "%s", err.text);
	o.method = (int)method;
	o.latitude_deg = at->latitude_deg;
	o.elevation_m = at->elevation_m;
	o.shelter = shelter;
	o.shade = 1;
	o.area_m2 = area_m2;
	o.depth_m = 0.8;
	cr_assert(tarn_weather_days(w) <= DAYS_MAX);
	cr_assert(tarn_evaporation_run(w, &o, open_mm, NULL, NULL, NULL,
				       &err) == TARN_OK, "%s", err.text);
	for (size_t i = 0; i < tarn_weather_days(w); i++) {
		int month = tarn_date(tarn_weather_first(w) + (long)i).month;

		if (month >= 4 && month <= 10)
			sum += open_mm[i];
	}
	tarn_weather_free(w);
	return sum;
}

/* By the heat balance: a coefficient 1.1 times as great is an area 1.1^20 times
 * less. */
static double by_balance(const struct station *at, double shelter)
{
	return log(season_mm(at, TARN_PENMAN_HEAT, shelter,
			     20 * pow(1.1, -20)) /
		   season_mm(at, TARN_PENMAN_HEAT, shelter, 20)) /
	       log(1.1);
}

/* By Penman 1956, which is a straight line of its coefficient: its share that
 * the sun does not pay for.  In still air the two functions are 1.313 and twice
 * as much. */
static double by_penman(const struct station *at, double shelter)
{
	double all = season_mm(at, TARN_PENMAN_1956, shelter, 20);
	double sun = 2 * season_mm(at, TARN_PENMAN_1956, 0, 20) -
		     season_mm(at, TARN_PENMAN_1948, 0, 20);

	return (all - sun) / all;
}

/* Our own values, those of docs/methods/evaporation.md; the constant is their
 * middle, to a digit. */
Test(stream, transfer_power_regression)
{
	double sum = 0;
	struct published rows[] = {
		{ "balance, Fallon, open", by_balance(&fallon, 1), 0.419, 0.001 },
		{ "balance, Fallon, houses", by_balance(&fallon, 0.5), 0.392, 0.001 },
		{ "balance, De Bilt, open", by_balance(&de_bilt, 1), 0.391, 0.001 },
		{ "balance, De Bilt, houses", by_balance(&de_bilt, 0.5), 0.366,
		  0.001 },
		{ "Penman, Fallon, open", by_penman(&fallon, 1), 0.301, 0.001 },
		{ "Penman, Fallon, houses", by_penman(&fallon, 0.5), 0.228, 0.001 },
		{ "Penman, De Bilt, open", by_penman(&de_bilt, 1), 0.256, 0.001 },
		{ "Penman, De Bilt, houses", by_penman(&de_bilt, 0.5), 0.182, 0.001 },
	};

	EXPECT_ROWS("power of the transfer coefficient", rows);
	for (int i = 0; i < 8; i++)
		sum += rows[i].got;
	cr_expect(fabs(sum / 8 - TARN_TRANSFER_POWER) < 0.05, "%g", sum / 8);
}

/* ---- in the ledger ----------------------------------------------------------- */

Test(stream, given_factor_goes_before_the_share)
{
	static const double level[] = { 0, 1.2 }, area[] = { 10, 10 };
	struct tarn_pond p = tarn_pond_default();
	struct tarn_pond_facts facts;
	struct tarn_basin *b;

	cr_assert(tarn_basin_table(&b, NULL, level, area, 2, NULL) == TARN_OK);
	p.basin = b;
	p.overflow_level_m = 1;
	p.stream.area_m2 = 3;
	cr_assert(tarn_pond_facts(&p, &facts, NULL) == TARN_OK);
	cr_expect(facts.stream_factor == tarn_stream_factor(0.2));
	p.stream.disturbed = 0.5;
	cr_assert(tarn_pond_facts(&p, &facts, NULL) == TARN_OK);
	cr_expect(facts.stream_factor == tarn_stream_factor(0.5));
	p.stream.factor = 1.3;
	cr_assert(tarn_pond_facts(&p, &facts, NULL) == TARN_OK);
	cr_expect(facts.stream_factor == 1.3);
	tarn_basin_free(b);
}
