/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/study.h"

/* Changed and generated weather, and what a study starts from. */

#define DAYS 3652	/* ten years */

/* Two numbers from 0 to 1, by a plain congruential generator. */
static void unrest(double u[2])
{
	static unsigned long state = 1;

	for (int i = 0; i < 2; i++) {
		state = (state * 1664525 + 1013904223) & 0xFFFFFFFF;
		u[i] = (double)state / 4294967296.0;
	}
}

/* Rain each third day, a yearly wave of temperature with some unrest. */
static struct tarn_weather *made_up(void)
{
	struct tarn_weather *w;
	struct tarn_error err = { 0 };
	double *rain, *low, *high, *dew;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2010, 1, 1), DAYS,
				   &err) == TARN_OK);
	rain = tarn_weather_add(w, TARN_RAIN);
	low = tarn_weather_add(w, TARN_TMIN);
	high = tarn_weather_add(w, TARN_TMAX);
	dew = tarn_weather_add(w, TARN_DEWPOINT);
	cr_assert(rain && low && high && dew);
	for (int i = 0; i < DAYS; i++) {
		double u[2], v[2];

		unrest(u);
		unrest(v);
		rain[i] = u[0] < 0.3 ? 12 * u[1] : 0;
		low[i] = 8 - 8 * cos(i * 2 * 3.14159265 / 365.25) + 3 * u[0];
		high[i] = low[i] + 6 + 4 * u[1];
		dew[i] = low[i] - 3 * v[0];
	}
	return w;
}

Test(study_weather, no_change_changes_nothing)
{
	struct tarn_weather *w = made_up(), *same;
	struct tarn_weather_change none = tarn_weather_change_default();
	struct tarn_error err = { 0 };

	cr_assert(tarn_weather_changed(&same, w, &none, &err) == TARN_OK);
	for (int i = 0; i < DAYS; i++) {
		cr_assert(tarn_weather_column(w, TARN_RAIN)[i] ==
			  tarn_weather_column(same, TARN_RAIN)[i]);
		cr_assert(tarn_weather_column(w, TARN_TMAX)[i] ==
			  tarn_weather_column(same, TARN_TMAX)[i]);
	}
	tarn_weather_free(same);
	tarn_weather_free(w);
}

/* By month, the dew point by the same degrees; the first table stays. */
Test(study_weather, a_change_by_month)
{
	struct tarn_weather *w = made_up(), *out;
	struct tarn_weather_change change = tarn_weather_change_default();
	struct tarn_error err = { 0 };
	const double *rain = tarn_weather_column(w, TARN_RAIN);
	const double *low = tarn_weather_column(w, TARN_TMIN);
	const double *dew = tarn_weather_column(w, TARN_DEWPOINT);

	change.temperature_c[6] = 2;
	change.rain[6] = 0.5;
	cr_assert(tarn_weather_changed(&out, w, &change, &err) == TARN_OK);
	for (int i = 0; i < DAYS; i++) {
		int july = tarn_date(tarn_weather_first(w) + i).month == 7;
		double plus = july ? 2 : 0, times = july ? 0.5 : 1;

		cr_assert(tarn_weather_column(out, TARN_RAIN)[i] ==
			  times * rain[i]);
		cr_assert(fabs(tarn_weather_column(out, TARN_TMIN)[i] -
			       low[i] - plus) < 1e-12);
		cr_assert(fabs(tarn_weather_column(out, TARN_DEWPOINT)[i] -
			       dew[i] - plus) < 1e-12);
	}
	cr_expect(tarn_weather_notes(out) > tarn_weather_notes(w));
	tarn_weather_free(out);
	change.rain[3] = -1;
	cr_expect(tarn_weather_changed(&out, w, &change, &err) == TARN_EARG);
	cr_expect(out == NULL);
	tarn_weather_free(w);
}

static double mean(const struct tarn_weather *w, enum tarn_column c)
{
	return tarn_weather_summary(w, c).mean;
}

/* Forty years of it have the mean of the ten that it learned from (three
 * standard errors of ten years' mean: about 10 % of rain, 0.3 C), stay within
 * bounds, and are the same for the same seed and stream only. */
Test(study_weather, generated)
{
	struct tarn_weather *w = made_up(), *a, *b, *c;
	struct tarn_error err = { 0 };
	long first = tarn_day(2030, 1, 1);

	cr_assert(tarn_weather_generated(&a, NULL, w, 7, 0, first, 14610,
					 &err) == TARN_OK, "%s", err.text);
	cr_assert(tarn_weather_generated(&b, NULL, w, 7, 0, first, 14610,
					 &err) == TARN_OK);
	cr_assert(tarn_weather_generated(&c, NULL, w, 7, 1, first, 14610,
					 &err) == TARN_OK);
	cr_expect(tarn_weather_check(a, &err) == TARN_OK, "%s", err.text);
	cr_expect(tarn_weather_first(a) == first &&
		  tarn_weather_days(a) == 14610);
	cr_expect(fabs(mean(a, TARN_RAIN) / mean(w, TARN_RAIN) - 1) < 0.1);
	cr_expect(fabs(mean(a, TARN_TMAX) - mean(w, TARN_TMAX)) < 0.3);
	cr_expect(mean(a, TARN_RAIN) == mean(b, TARN_RAIN));
	cr_expect(mean(a, TARN_RAIN) != mean(c, TARN_RAIN));
	tarn_weather_free(a);
	tarn_weather_free(b);
	tarn_weather_free(c);
	tarn_weather_free(w);
}

Test(study_weather, generated_wants_rain)
{
	struct tarn_weather *w, *out;
	struct tarn_error err = { 0 };

	cr_assert(tarn_weather_new(&w, NULL, 0, DAYS, &err) == TARN_OK);
	cr_expect(tarn_weather_generated(&out, NULL, w, 1, 0, 0, 10, &err) ==
		  TARN_EARG && out == NULL);
	tarn_weather_free(w);
}

Test(study_weather, defaults_and_scale)
{
	struct tarn_study_delta d = tarn_study_delta_default();
	double x[] = { 0, 0.25, 1 };

	for (int m = 0; m < 12; m++)
		cr_expect(d.rain[m] == 1 && d.evaporation[m] == 1);
	cr_expect(isnan(d.start_level_m));
	tarn_samples_scale(x, 3, -2, 6);
	cr_expect(x[0] == -2 && x[1] == 0 && x[2] == 6);
}

/* Wet days' amounts are gamma numbers: mean k s, variance k s^2, skewness
 * 2 / sqrt(k) (Marsaglia and Tsang 2000 draw them exactly). */
Test(study_weather, amounts_are_gamma)
{
	enum { N = 400000 };
	static double rain[N];
	static const double shapes[] = { 0.75, 1, 2.5 };

	for (size_t s = 0; s < 3; s++) {
		struct tarn_generator g;
		double k = shapes[s], m = 0, v = 0, c = 0;

		memset(&g, 0, sizeof g);
		g.wet_mm = 0.1;
		for (int i = 0; i < 12; i++) {
			g.wet_after_dry[i] = g.wet_after_wet[i] = 1;
			g.shape[i] = k;
			g.scale_mm[i] = 10;
		}
		tarn_generate(&g, 7, 0, 0, N, rain, NULL);
		for (int i = 0; i < N; i++)
			m += (rain[i] - g.wet_mm) / N;
		for (int i = 0; i < N; i++) {
			double x = rain[i] - g.wet_mm - m;

			v += x * x / N;
			c += x * x * x / N;
		}
		c /= pow(v, 1.5);
		cr_expect(fabs(m / (10 * k) - 1) < 0.005, "%g: mean %g", k, m);
		cr_expect(fabs(v / (100 * k) - 1) < 0.015, "%g: variance %g",
			  k, v);
		cr_expect(fabs(c * sqrt(k) / 2 - 1) < 0.03, "%g: skewness %g",
			  k, c);
	}
}
