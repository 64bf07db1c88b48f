/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/flows.h"
#include "engine.h"
#include "tarn/study.h"

/* The figures of a row from the days of a single ledger. */

#define YEARS_MAX 401		/* of the calendar: 1800 to 2200 */

static size_t by_year(const struct tarn_ledger *ledger, size_t days,
		      double *year_m3)
{
	size_t years = 0;

	for (size_t at = 0, next; at < days; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_YEAR,
							  at, &next);

		if (p.complete)
			year_m3[years++] = p.flows.topup_m3;
	}
	return years;
}

static void by_month(const struct tarn_ledger *ledger, size_t days,
		     double *value)
{
	double sum_m3[12] = { 0 }, count[12] = { 0 };

	for (size_t at = 0, next; at < days; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_MONTH,
							  at, &next);
		int m = tarn_date(p.first_day).month - 1;

		sum_m3[m] += p.flows.topup_m3;
		count[m] += p.days;
	}
	value[TARN_Q_MONTH_MAX] = -1;
	for (int m = 0; m < 12; m++) {
		double mean = count[m] > 0
			? sum_m3[m] / (count[m] / tarn_usual_days(m + 1)) : TARN_NAN;

		value[TARN_Q_JANUARY + m] = mean;
		if (mean > value[TARN_Q_MONTH_MAX]) {
			value[TARN_Q_MONTH_MAX] = mean;
			value[TARN_Q_MONTH_AT] = m + 1;
		}
	}
}

static void distribution(double *year_m3, size_t years, double *week_m3,
			 size_t weeks, double *value)
{
	struct tarn_spread year = tarn_spread(year_m3, years);
	struct tarn_spread week = tarn_spread(week_m3, weeks);

	value[TARN_Q_YEAR_MEAN] = year.mean;
	value[TARN_Q_YEAR_P10] = year.p10;
	value[TARN_Q_YEAR_P50] = year.p50;
	value[TARN_Q_YEAR_P90] = year.p90;
	value[TARN_Q_YEAR_MAX] = year.most;
	value[TARN_Q_WEEK_P50] = week.p50;
	value[TARN_Q_WEEK_P90] = week.p90;
}

void tarn_study_summary(const struct tarn_ledger *ledger,
			const struct tarn_pond *pond,
			double value[TARN_QUANTITIES])
{
	double year_m3[YEARS_MAX], week_m3[YEARS_MAX];
	int tank = pond->tank.capacity_m3 > 0;
	size_t days, next, years, weeks;
	const struct tarn_ledger_day *day = tarn_ledger_days(ledger, &days);
	struct tarn_period all = tarn_ledger_period(ledger, TARN_BY_RUN, 0,
						    &next);

	years = by_year(ledger, days, year_m3);
	weeks = tn_week_peaks(ledger, week_m3, &value[TARN_Q_WEEK_MAX]);
	distribution(year_m3, years, week_m3, weeks, value);
	by_month(ledger, days, value);
	value[TARN_Q_TOPUP] = all.flows.topup_m3;
	value[TARN_Q_OVERFLOW] = all.flows.overflow_m3;
	value[TARN_Q_LOWEST_LEVEL] = all.lowest_level_m;
	value[TARN_Q_END_LEVEL] = all.end_level_m;
	value[TARN_Q_UNDER_INTAKE] = all.under_intake;
	value[TARN_Q_RESTRICTED] = all.refused;
	value[TARN_Q_TANK] = all.flows.tank_m3;
	value[TARN_Q_NEED] = tank ? tarn_ledger_need(ledger) : TARN_NAN;
	value[TARN_Q_TANK_SHARE] = value[TARN_Q_NEED] > 0
		? all.flows.tank_m3 / value[TARN_Q_NEED] : TARN_NAN;
	value[TARN_Q_ROOF] = all.flows.roof_m3;
	value[TARN_Q_TANK_SPILL] = all.flows.tank_spill_m3;
	value[TARN_Q_TANK_EMPTY] = tank ? 0 : TARN_NAN;
	for (size_t i = 0; i < days && tank; i++)
		value[TARN_Q_TANK_EMPTY] += !(day[i].tank_m3 > 0);
}
