/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <criterion/logging.h>
#include <math.h>

#include "study_world.h"

/*
 * How often a forecast holds the truth of a drawn site.  The truth has a water
 * balance and draws of its own: upright walls, days by a log-normal number,
 * slow errors that fade by 45 days in place of steps of 30.
 */

#define YEARS 9
#define DAYS (365 * YEARS + 2)	/* 2011 to 2019 */
#define AREA_M2 10.0
#define LIP_M 1.0
#define TRIGGER_M 0.949
#define TARGET_M 0.95
#define SITES 1000

struct truth {
	double year_m3[YEARS], july_m3[YEARS];	/* july: a week's share */
};

static double normal(uint64_t *state)
{
	double u = 1 - world_random(state), v = world_random(state);

	return sqrt(-2 * log(u)) * cos(6.283185307179586 * v);
}

static void balance(const struct world *w, double b, double rain,
		    double slow_sd, double day_sd, uint64_t *state,
		    struct truth *out)
{
	double level = TARGET_M, keep = exp(-1.0 / 45), slow = normal(state);
	double ln_sd = sqrt(log(1 + day_sd * day_sd));

	*out = (struct truth){ { 0 }, { 0 } };
	for (size_t i = 0; i < DAYS; i++) {
		struct tarn_date d = tarn_date(w->forcing.first_day + (long)i);
		double f = exp(b + slow_sd * slow - slow_sd * slow_sd / 2 +
			       ln_sd * normal(state) - ln_sd * ln_sd / 2);
		double added = 0;

		slow = keep * slow + sqrt(1 - keep * keep) * normal(state);
		level = fmin(LIP_M, level + w->rain[i] * rain / 1000);
		level -= w->open[i] * f / 1000;
		if (level < TRIGGER_M) {
			added = (TARGET_M - level) * AREA_M2;
			level = TARGET_M;
		}
		out->year_m3[d.year - 2011] += added;
		if (d.month == 7)
			out->july_m3[d.year - 2011] += added * 7 / 31;
	}
}

static void forecast(const struct world *w,
		     const struct tarn_exposure_budget *budget,
		     struct tarn_forecast *out)
{
	double level[2] = { 0, 1.2 }, area[2] = { AREA_M2, AREA_M2 };
	struct tarn_pond pond = tarn_pond_default();
	struct tarn_basin *basin;
	struct tarn_error err = { 0 };

	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	pond.basin = basin;
	pond.overflow_level_m = LIP_M;
	pond.trigger_m = TRIGGER_M;
	pond.target_m = TARGET_M;
	cr_assert(tarn_forecast(out, NULL, &pond, &w->forcing, NULL, budget,
				NULL, &err) == TARN_OK,
		  "%s: %s", err.field, err.text);
	tarn_basin_free(basin);
}

static int inside(double x, const struct tarn_forecast_range *r)
{
	return x >= r->p10_m3 && x <= r->p90_m3;
}

/* Shares of drawn sites whose July and year, one of the nine, are inside. */
static void cover(const struct world *w,
		  const struct tarn_exposure_budget *budget,
		  const struct tarn_forecast *f, double shift, double *july,
		  double *year)
{
	uint64_t state = 77;

	*july = *year = 0;
	for (int i = 0; i < SITES; i++) {
		double b = shift + budget->centre_sd_ln * normal(&state);
		double rain = 1 + TARN_RAIN_SD * normal(&state);
		int k = (int)(YEARS * world_random(&state));
		struct truth t;

		balance(w, b, rain, budget->slow_sd_ln, budget->day_sd, &state,
			&t);
		*july += inside(t.july_m3[k], &f->month[6].a_week) / (double)SITES;
		*year += inside(t.year_m3[k], &f->year) / (double)SITES;
	}
}

static struct tarn_exposure_budget budget_of(int wind, int sun)
{
	struct tarn_exposure site = tarn_exposure_default();
	struct tarn_exposure_budget b;

	site.wind = wind;
	site.sun = sun;
	cr_assert(tarn_exposure_budget(&site, NULL, TARN_PENMAN_1956, 0, &b,
				       NULL) == TARN_OK);
	return b;
}

/* 3.3 binomial deviations of 0.8 in 1000: 0.042. */
#define BOUND (3.3 * sqrt(0.8 * 0.2 / SITES))

Test(forecast_coverage, the_balance_of_its_own_is_the_ledger_s)
{
	struct world w;
	struct tarn_exposure_budget none = { 0 };
	struct tarn_forecast f;
	struct truth t;
	uint64_t state = 1;
	struct tarn_spread s;

	world_make(&w, tarn_day(2011, 1, 1), DAYS, 5);
	forecast(&w, &none, &f);
	balance(&w, 0, 1, 0, 0, &state, &t);
	s = tarn_spread(t.year_m3, YEARS);
	cr_expect(fabs(s.p10 - f.year.weather_p10_m3) < 1e-9);
	cr_expect(fabs(s.p90 - f.year.weather_p90_m3) < 1e-9);
	s = tarn_spread(t.july_m3, YEARS);
	cr_expect(fabs(s.p10 - f.month[6].a_week.weather_p10_m3) < 1e-9);
	cr_expect(fabs(s.p90 - f.month[6].a_week.weather_p90_m3) < 1e-9);
	world_free(&w);
}

Test(forecast_coverage, holds_sites_drawn_from_the_budget)
{
	static const int places[][2] = {
		{ TARN_WIND_NOT_DESCRIBED, TARN_SUN_NOT_DESCRIBED },
		{ TARN_WIND_WALLED_YARD, TARN_SUN_HALF_SHADE },
		{ TARN_WIND_OPEN_FIELD, TARN_SUN_OPEN_SKY },
	};
	struct world w;
	struct tarn_forecast f;
	double july, year;

	world_make(&w, tarn_day(2011, 1, 1), DAYS, 5);
	for (int i = 0; i < 3; i++) {
		struct tarn_exposure_budget b = budget_of(places[i][0],
							  places[i][1]);

		forecast(&w, &b, &f);
		cover(&w, &b, &f, 0, &july, &year);
		cr_log_info("P10 to P90, place %d: July %.3f, year %.3f", i,
			    july, year);
		cr_expect(fabs(july - 0.8) <= BOUND, "%d: July %g", i, july);
		cr_expect(fabs(year - 0.8) <= BOUND, "%d: year %g", i, year);
	}
	world_free(&w);
}

/* A place that is called open and loses 0.7 of it is not held: the range is
 * as good as its words. */
Test(forecast_coverage, a_wrong_word_is_seen)
{
	struct world w;
	struct tarn_forecast f;
	struct tarn_exposure_budget b = budget_of(TARN_WIND_OPEN_FIELD,
						  TARN_SUN_OPEN_SKY);
	double july, year;

	world_make(&w, tarn_day(2011, 1, 1), DAYS, 5);
	forecast(&w, &b, &f);
	cover(&w, &b, &f, log(0.7), &july, &year);
	cr_log_info("P10 to P90, a wrong word: July %.3f, year %.3f", july,
		    year);
	cr_expect(july < 0.7 && year < 0.7, "July %g, year %g", july, year);
	world_free(&w);
}
