/* SPDX-License-Identifier: MIT */
#include "tarn/study.h"

static int month_of(long first_day, size_t i)
{
	int month = tarn_date(first_day + (long)i).month;

	return month > 0 ? month - 1 : 0;
}

void tarn_weather_plus(const double *x, long first_day, size_t days,
		       const double plus[12], double *out)
{
	for (size_t i = 0; i < days; i++)
		out[i] = x[i] + plus[month_of(first_day, i)];
}

void tarn_weather_times(const double *x, long first_day, size_t days,
			const double times[12], double *out)
{
	for (size_t i = 0; i < days; i++)
		out[i] = x[i] * times[month_of(first_day, i)];
}
