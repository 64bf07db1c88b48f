/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "tarn/season.h"

/* Each flow of a month, of a pond in which every one of them runs. */

enum { DAYS = 800, FLOWS = sizeof(struct tarn_flows) / sizeof(double),
       UNMET = offsetof(struct tarn_flows, unmet_m3) / sizeof(double) };

static double flow_of(const struct tarn_flows *f, int i)
{
	double x[FLOWS];

	memcpy(x, f, sizeof x);
	return x[i];
}

static struct tarn_pond busy_pond(const struct tarn_basin *b)
{
	struct tarn_pond p = tarn_pond_default();

	p.basin = b;
	p.overflow_level_m = 1;
	p.trigger_m = 0.98;
	p.target_m = 0.99;
	p.splash_m3s = 2e-7;
	p.bed.area_m2 = 2;
	p.bed.volume_m3 = 0.2;
	p.stream.area_m2 = 1;
	p.stream.depth_m = 0.02;
	p.apron.area_m2 = 5;
	p.apron.coefficient = 0.6;
	p.seepage.rate_mm_d = 1;
	p.supply.rate_m3s = 4e-7;	/* too little in July */
	p.tank.capacity_m3 = 0.3;
	p.tank.roof_m2 = 30;
	p.tank.coefficient = 0.9;
	p.withdrawals = 1;
	p.withdrawal[0].volume_m3 = 0.01;
	return p;
}

/* A sum over the days of a month by hand; whole months alone where asked. */
static void sum_days(const struct tarn_ledger_day *day, size_t count, int month,
		     int whole, double sum[FLOWS], size_t *days, size_t *months)
{
	memset(sum, 0, FLOWS * sizeof *sum);
	*days = *months = 0;
	for (size_t i = 0; i < count; i++) {
		struct tarn_date d = tarn_date(day[i].day);
		long first = tarn_day(d.year, d.month, 1);
		long last = first + tarn_days_in_month(d.year, d.month) - 1;

		if (d.month != month ||
		    (whole && (first < day[0].day ||
			       last > day[count - 1].day)))
			continue;
		++*days;
		*months += day[i].day == first;
		for (int k = 0; k < FLOWS; k++)
			sum[k] = k == UNMET
				? fmax(sum[k], flow_of(&day[i].flows, k))
				: sum[k] + flow_of(&day[i].flows, k);
	}
}

Test(season_flows, each_flow_of_a_month)
{
	static double rain[DAYS], open[DAYS], grass[DAYS];
	const double level[] = { 0, 1.2 }, area[] = { 10, 10 };
	struct tarn_forcing f = { .first_day = tarn_day(2021, 4, 12),
				  .days = DAYS, .rain_mm = rain,
				  .open_water_mm = open, .grass_mm = grass };
	struct tarn_basin *basin;
	struct tarn_pond p;
	struct tarn_ledger *ledger;
	const struct tarn_ledger_day *day;
	struct tarn_season season;
	struct tarn_error err = { 0 };
	double year[FLOWS] = { 0 };
	size_t count;

	for (int i = 0; i < DAYS; i++) {
		struct tarn_date d = tarn_date(f.first_day + i);

		rain[i] = i % 7 == 0 ? 18 : i % 3 == 0 ? 2 : 0;
		open[i] = 1 + 4 * (1 - fabs(d.month - 7.0) / 6) + i % 5 * 0.1;
		grass[i] = 0.8 * open[i];
	}
	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	p = busy_pond(basin);
	cr_assert(tarn_ledger_run(&ledger, NULL, &p, &f, NULL, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	cr_assert(tarn_season(&season, NULL, ledger, &err) == TARN_OK);
	day = tarn_ledger_days(ledger, &count);
	cr_assert(count == DAYS && season.months == 12);
	for (int m = 0; m < 12; m++) {
		const struct tarn_season_month *got = &season.month[m];
		double all[FLOWS], whole[FLOWS];
		size_t days, months, whole_days, whole_months;

		sum_days(day, count, m + 1, 0, all, &days, &months);
		sum_days(day, count, m + 1, 1, whole, &whole_days,
			 &whole_months);
		cr_expect(got->month == m + 1 && got->whole == whole_months);
		for (int k = 0; k < FLOWS; k++) {
			double n = k == UNMET ? 1 : (double)days;
			double w = k == UNMET ? 1 : (double)whole_months;

			year[k] += all[k];
			cr_expect(fabs(flow_of(&got->daily, k) - all[k] / n) <
				  1e-12, "month %d, daily flow %d", m + 1, k);
			cr_expect(fabs(flow_of(&got->flows, k) - whole[k] / w) <
				  1e-12, "month %d, flow %d", m + 1, k);
		}
		cr_expect(fabs(got->a_week_m3 - 7 * whole[3] /
			       (double)whole_days) < 1e-12);
	}
	/* but for a shortfall, which a pond of this size has not */
	for (int k = 0; k < FLOWS; k++)
		cr_expect(year[k] > 0 ||
			  k == offsetof(struct tarn_flows, shortfall_m3) /
			       sizeof(double), "flow %d never runs", k);
	tarn_ledger_free(ledger);
	tarn_basin_free(basin);
}
