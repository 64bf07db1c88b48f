/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

#include "study_world.h"
#include "tarn/forecast.h"

/* Ends of a forecast's budget, and the month that takes most a day. */

enum { FIRST_YEAR = 2020, DAYS = 2 * 365 + 31 };	/* July to July: 3, else 2 */

static double rain[DAYS], open[DAYS];
static struct tarn_forecast out;

static enum tarn_status forecast(const struct tarn_exposure_budget *b,
				 struct tarn_error *err)
{
	struct tarn_basin *basin = world_basin();
	struct tarn_pond pond = world_pond(basin);
	struct tarn_forcing f = { .first_day = tarn_day(FIRST_YEAR, 7, 1),
				  .days = DAYS, .rain_mm = rain,
				  .open_water_mm = open, .grass_mm = open };
	struct tarn_forecast_options o = tarn_forecast_options_default();
	enum tarn_status s;

	/* 4 mm/d in July, 5 in August, else 1: three Julys take more than two
	 * Augusts, but no day of them does */
	for (int i = 0; i < DAYS; i++) {
		int month = tarn_date(f.first_day + i).month;

		open[i] = month == 7 ? 4 : month == 8 ? 5 : 1;
	}
	pond.trigger_m = 1.149;
	*err = (struct tarn_error){ 0 };
	s = tarn_forecast(&out, NULL, &pond, &f, NULL, b, &o, err);
	tarn_basin_free(basin);
	return s;
}

Test(forecast_limits, the_month_that_takes_most_a_day)
{
	struct tarn_exposure_budget b = { 0 };
	struct tarn_error err;

	cr_assert(forecast(&b, &err) == TARN_OK, "%s %s", err.field, err.text);
	cr_expect(out.peak_month == 8, "%d", out.peak_month);
	cr_expect(out.months == 12);
}

Test(forecast_limits, ends_of_a_budget)
{
	static const struct { int member; double value; const char *field; } rows[] = {
		{ 0, 2, NULL }, { 0, 2 + 1e-9, "centre_sd_ln" },
		{ 0, -1e-9, "centre_sd_ln" }, { 0, TARN_NAN, "centre_sd_ln" },
		{ 1, 1, NULL }, { 1, 1 + 1e-9, "slow_sd_ln" },
		{ 1, -1e-9, "slow_sd_ln" }, { 1, TARN_NAN, "slow_sd_ln" },
		{ 2, 0.28, NULL }, { 2, 0.28 + 1e-9, "day_sd" },
		{ 2, -1e-9, "day_sd" }, { 2, TARN_NAN, "day_sd" },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_exposure_budget b = { 0 };
		double *const member[] = { &b.centre_sd_ln, &b.slow_sd_ln,
					   &b.day_sd };
		struct tarn_error err;

		*member[rows[i].member] = rows[i].value;
		cr_expect((forecast(&b, &err) == TARN_OK) == !rows[i].field,
			  "row %zu: %s", i, err.text);
		if (rows[i].field)
			cr_expect_str_eq(err.field, rows[i].field, "row %zu: %s",
					 i, err.field);
	}
}
