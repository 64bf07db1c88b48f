/* SPDX-License-Identifier: MIT */
#include "published.h"
#include "tarn/evaporation.h"
#include "tarn/study.h"

#define PI 3.14159265358979323846

/* ---- designs --------------------------------------------------------------- */

Test(study_tools, grid_holds_all_combinations)
{
	static const size_t levels[] = { 2, 1, 3 };
	static const double want[3][6] = {
		{ 0, 0, 0, 1, 1, 1 }, { .5, .5, .5, .5, .5, .5 },
		{ 0, .5, 1, 0, .5, 1 },
	};
	double x[18];

	tarn_samples_grid(x, levels, 3);
	for (int d = 0; d < 3; d++)
		for (int r = 0; r < 6; r++)
			cr_expect(fabs(x[d * 6 + r] - want[d][r]) < 1e-15,
				  "column %d row %d", d, r);
}

Test(study_tools, latin_hypercube_has_one_in_each_slice)
{
	enum { N = 101, D = 5 };
	double x[N * D];

	tarn_samples_latin(x, N, D, 11);
	for (int d = 0; d < D; d++) {
		int seen[N] = { 0 };

		for (int r = 0; r < N; r++)
			seen[(int)(x[d * N + r] * N)]++;
		for (int r = 0; r < N; r++)
			cr_expect(seen[r] == 1, "column %d slice %d", d, r);
	}
	cr_expect(fabs(x[0] - x[N]) > 1e-9, "columns are shuffled apart");
}

/* A digital net in base 2: each block of 2^k points has one in each of 2^k
 * slices of every column.  The first points of column 1 and 2: Joe and Kuo
 * (2008), notes on their program, 'sobol 10 3'; from memory. */
Test(study_tools, sobol_sequence)
{
	static const double want[3][8] = {
		{ 0, .5, .75, .25, .375, .875, .625, .125 },
		{ 0, .5, .25, .75, .375, .875, .125, .625 },
		{ 0, .5, .25, .75, .625, .125, .875, .375 },
	};
	enum { N = 1024 };
	static double x[N * TARN_SOBOL_COLUMNS];
	double from[TARN_SOBOL_COLUMNS];

	cr_assert(tarn_samples_sobol(x, N, TARN_SOBOL_COLUMNS, 0, NULL) ==
		  TARN_OK);
	for (int d = 0; d < 3; d++)
		for (int r = 0; r < 8; r++)
			recalled("Joe and Kuo (2008), sobol 10 3",
				 named("column %d, point %d", d + 1, r),
				 x[d * N + r], want[d][r], 1e-15);
	for (int d = 0; d < TARN_SOBOL_COLUMNS; d++) {
		static int seen[N];

		memset(seen, 0, sizeof seen);
		for (int r = 0; r < N; r++)
			seen[(int)(x[d * N + r] * N)]++;
		for (int r = 0; r < N; r++)
			cr_expect(seen[r] == 1, "column %d slice %d", d, r);
	}
	cr_assert(tarn_samples_sobol(from, 1, TARN_SOBOL_COLUMNS, 777, NULL) ==
		  TARN_OK);
	for (int d = 0; d < TARN_SOBOL_COLUMNS; d++)
		cr_expect(fabs(from[d] - x[d * N + 777]) < 1e-15);
	cr_expect(tarn_samples_sobol(x, 1, TARN_SOBOL_COLUMNS + 1, 0, NULL) ==
		  TARN_EARG);
}

Test(study_tools, one_at_a_time)
{
	static const double low[] = { 1, 10, 100 }, high[] = { 2, 20, 200 };
	/* base 5; the first moves it by 1, the second by 4, the third not */
	static const double y[] = { 5, 4.5, 5.5, 7, 3, 5, 5 };
	struct tarn_swing s[3];
	double x[21];

	tarn_samples_one_at_a_time(x, low, high, 3);
	for (int d = 0; d < 3; d++)
		for (int r = 0; r < 7; r++) {
			double v = x[d * 7 + r];

			if (r == 1 + 2 * d)
				cr_expect(fabs(v - low[d]) < 1e-15);
			else if (r == 2 + 2 * d)
				cr_expect(fabs(v - high[d]) < 1e-15);
			else
				cr_expect(isnan(v));
		}
	tarn_one_at_a_time(y, 3, s);
	cr_expect(s[0].rank == 2 && s[1].rank == 1 && s[2].rank == 3);
	cr_expect(fabs(s[1].swing - 4) < 1e-15 && s[1].low > s[1].high);
}

/* Ten rows, y of A, of B, and of A with one column of B, the formulas of Saltelli
 * et al. (2010), table 2 (b) and (f), by hand; no resample leaves their span. */
Test(study_tools, indices_of_ten_rows)
{
	enum { N = 10 };
	double y[4 * N], sum = 0, squares = 0, alone[2] = { 0 }, with[2] = { 0 };
	struct tarn_sensitivity s[2];

	for (int i = 0; i < N; i++) {
		double a = 0.1 * ((7 * i) % 10), b = 0.1 * ((3 * i + 4) % 10);

		y[i] = 2 * a + 0.5 * b;		/* of A: x = a, z = b */
		y[N + i] = 2 * b + 0.5 * a;
		y[2 * N + i] = 2 * b + 0.5 * b;	/* x from B */
		y[3 * N + i] = 2 * a + 0.5 * a;
		sum += y[i] + y[N + i];
	}
	for (int i = 0; i < N; i++) {
		double mean = sum / (2 * N);

		squares += pow(y[i] - mean, 2) + pow(y[N + i] - mean, 2);
		for (int d = 0; d < 2; d++) {
			double change = y[(2 + d) * N + i] - y[i];

			alone[d] += (y[N + i] - mean) * change;
			with[d] += change * change;
		}
	}
	cr_assert(tarn_sensitivity(y, N, 2, 1, NULL, s, NULL) == TARN_OK);
	for (int d = 0; d < 2; d++) {
		cr_expect(fabs(s[d].first - 2 * alone[d] / squares) < 1e-12,
			  "%d: %g", d, s[d].first);
		cr_expect(fabs(s[d].total - with[d] / squares) < 1e-12,
			  "%d: %g", d, s[d].total);
		cr_expect(s[d].first_low < s[d].first &&
			  s[d].first < s[d].first_high);
		cr_expect(s[d].total_low < s[d].total &&
			  s[d].total < s[d].total_high);
	}
}

/* The warmest of a day is bound to the coldest, and to nothing else: here a sun of
 * 20 MJ stands beside days of 0 deg C. */
Test(study_tools, a_column_is_bound_to_its_own)
{
	enum { DAYS = 1200 };
	for (int low = 0; low < 2; low++) {
		struct tarn_weather *w, *made;
		double *rain, *hot, *other, mean = 0;
		const double *got;

		cr_assert(tarn_weather_new(&w, NULL, tarn_day(2000, 1, 1), DAYS,
					   NULL) == TARN_OK);
		rain = tarn_weather_add(w, TARN_RAIN);
		hot = tarn_weather_add(w, TARN_TMAX);
		other = tarn_weather_add(w, low ? TARN_TMIN : TARN_SOLAR);
		for (int i = 0; i < DAYS; i++) {
			rain[i] = i % 3 == 0 ? 1 + i % 11 : 0;
			hot[i] = (i * 7) % 13 / 4.0 - 1.5;
			other[i] = low ? hot[i] - 1 - (i * 5) % 9 / 4.0
				       : 20 + (i * 5) % 9 / 4.0;
		}
		cr_assert(tarn_weather_generated(&made, NULL, w, 3, 0,
						 tarn_day(2001, 1, 1), 1000,
						 NULL) == TARN_OK);
		got = tarn_weather_column(made, TARN_TMAX);
		other = tarn_weather_add(made, low ? TARN_TMIN : TARN_SOLAR);
		for (int i = 0; i < 1000; i++) {
			mean += got[i] / 1000;
			cr_expect(!low || got[i] >= other[i]);
		}
		cr_expect(fabs(mean) < 0.3, "%g", mean);
		tarn_weather_free(made);
		tarn_weather_free(w);
	}
}

/* ---- Sobol' indices --------------------------------------------------------- */

static double ishigami(const double x[3])
{
	return sin(x[0]) + 7 * pow(sin(x[1]), 2) +
	       0.1 * pow(x[2], 4) * sin(x[0]);
}

/*
 * Ishigami and Homma (1990), with a = 7, b = 0.1: closed form
 *     V1 = (1 + b pi^4 / 5)^2 / 2, V2 = a^2 / 8, V13 = b^2 pi^8 8 / 225,
 * which gives 0.3139 0.4424 0 alone and 0.5576 0.4424 0.2437 in all: Saltelli
 * et al. (2008), Global Sensitivity Analysis, the same function.
 */
#define ISHIGAMI "Ishigami and Homma (1990), closed form"

Test(study_tools, published_indices_of_a_test_function)
{
	enum { N = 4096 };
	static const double first[] = { 0.3139, 0.4424, 0 };
	static const double total[] = { 0.5576, 0.4424, 0.2437 };
	static double x[N * 5 * 3], y[N * 5];
	struct tarn_sensitivity s[3];

	cr_assert(tarn_sensitivity_samples(x, N, 3, NULL) == TARN_OK);
	for (int r = 0; r < N * 5; r++) {
		double at[3];

		for (int d = 0; d < 3; d++)
			at[d] = -PI + 2 * PI * x[d * N * 5 + r];
		y[r] = ishigami(at);
	}
	cr_assert(tarn_sensitivity(y, N, 3, 1, NULL, s, NULL) == TARN_OK);
	because(ISHIGAMI, "estimates from 4096 samples, beside the closed form");
	for (int d = 0; d < 3; d++) {
		recalled(ISHIGAMI, named("input %d, first", d + 1), s[d].first,
			 first[d], 0.0005);
		recalled(ISHIGAMI, named("input %d, total", d + 1), s[d].total,
			 total[d], 0.0005);
		cr_expect(s[d].first_low < first[d] &&
			  s[d].first_high > first[d], "first %d: %g .. %g",
			  d + 1, s[d].first_low, s[d].first_high);
		cr_expect(s[d].total_low < total[d] &&
			  s[d].total_high > total[d], "total %d: %g .. %g",
			  d + 1, s[d].total_low, s[d].total_high);
	}
	y[17] = TARN_NAN;
	cr_expect(tarn_sensitivity(y, N, 3, 1, NULL, s, NULL) == TARN_EARG);
	for (int r = 0; r < N * 5; r++)
		y[r] = 2;
	cr_expect(tarn_sensitivity(y, N, 3, 1, NULL, s, NULL) == TARN_EARG);
	cr_expect(tarn_sensitivity_samples(x, 8, 11, NULL) == TARN_EARG);
}

/* ---- budgets, tank, changed weather ------------------------------------------ */

/* California Code of Regulations title 23, section 492.4 (2009), its worked
 * example for Fresno, from memory; with a special area: derived. */
Test(study_tools, published_water_budgets)
{
	struct tarn_budget b = { .reference = 51.1, .unit = 0.62,
				 .area = 50000, .adjustment = 0.7,
				 .plant_factor = 1, .efficiency = 1 };

	recalled("CCR title 23, section 492.4 (2009)", "Fresno, allowance, gal",
		 tarn_budget_allowance(&b), 1108870, 0.5);
	b.special_area = 2000;
	cr_expect(fabs(tarn_budget_allowance(&b) - 1127879) < 0.5, "%f",
		  tarn_budget_allowance(&b));
	/* the constant is 1 inch over 1 ft2 in US gal, cut to two digits */
	cr_expect(fabs(tarn_unit("inch") * tarn_unit("ft2") / tarn_unit("gal") -
		       0.6234) < 5e-5);
	b.special_area = 0;
	b.efficiency = 0.5;
	cr_expect(fabs(tarn_budget_use(&b) - 51.1 * 0.62 * 1e5) < 1e-6);
	b.efficiency = 0;
	cr_expect(isnan(tarn_budget_use(&b)));
	b.adjustment = 1.2;
	cr_expect(isnan(tarn_budget_allowance(&b)));
	b.adjustment = 0.5;
	b.area = -1;
	cr_expect(isnan(tarn_budget_allowance(&b)));
}

Test(study_tools, tank_for_a_share)
{
	static const double m3[] = { 1, 2, 4 }, share[] = { 0.3, 0.5, 0.6 };

	cr_expect(fabs(tarn_tank_capacity(m3, share, 3, 0.4) - 1.5) < 1e-12);
	cr_expect(fabs(tarn_tank_capacity(m3, share, 3, 0.2) - 1) < 1e-12);
	cr_expect(fabs(tarn_tank_capacity(m3, share, 3, 0.6) - 4) < 1e-12);
	cr_expect(isnan(tarn_tank_capacity(m3, share, 3, 0.61)));
}

/* By hand: equal ratios of two from 1 to 8. */
Test(study_tools, sizes_beyond_a_list)
{
	double m3[3];

	tarn_tank_beyond(1, 8, m3, 3);
	cr_expect(fabs(m3[0] - 2) < 1e-12 && fabs(m3[1] - 4) < 1e-12);
	cr_expect(!(m3[2] < 8 || m3[2] > 8));
	tarn_tank_beyond(8, 8, m3, 3);
	cr_expect(isnan(m3[0]) && isnan(m3[2]));
	tarn_tank_beyond(0, 8, m3, 3);
	cr_expect(isnan(m3[0]) && isnan(m3[2]));
}

Test(study_tools, the_list_ends_or_the_roof)
{
	static const double m3[] = { 1, 2, 4, 8 };
	static const double share[] = { 0.3, 0.5, 0.6, 0.7 };
	struct tarn_tank_answer a = tarn_tank_answer(m3, share, 2, 4, 0.4);

	cr_expect(a.word == TARN_TANK_LISTED);
	cr_expect(fabs(a.capacity_m3 - 1.5) < 1e-12);
	a = tarn_tank_answer(m3, share, 2, 4, 0.65);
	cr_expect(a.word == TARN_TANK_BEYOND);
	cr_expect(fabs(a.capacity_m3 - 6) < 1e-12);
	cr_expect(fabs(a.most - 0.7) < 1e-12);
	a = tarn_tank_answer(m3, share, 2, 4, 0.71);
	cr_expect(a.word == TARN_TANK_NONE && isnan(a.capacity_m3));
	cr_expect(fabs(a.most - 0.7) < 1e-12);
}

Test(study_tools, changed_weather)
{
	double by[12] = { 1, 2 };
	const double x[3] = { 10, TARN_NAN, 20 };
	double out[3];
	long first = tarn_day(2001, 1, 30);

	tarn_weather_plus(x, first, 3, by, out);
	cr_expect(fabs(out[0] - 11) < 1e-15 && isnan(out[1]));
	cr_expect(fabs(out[2] - 22) < 1e-15);	/* 1 February */
	tarn_weather_times(x, first, 3, by, out);
	cr_expect(fabs(out[2] - 40) < 1e-15);
}

/* Warmer air keeps its relative humidity; what was given stays, and is said. */
Test(study_tools, changed_table)
{
	struct tarn_weather *w, *out;
	struct tarn_weather_change change = tarn_weather_change_default();
	struct tarn_error err = { 0 };
	double *tmin, *tmax, *vapour, *rain, rh;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2001, 1, 1), 40, NULL) ==
		  TARN_OK);
	tmin = tarn_weather_add(w, TARN_TMIN);
	tmax = tarn_weather_add(w, TARN_TMAX);
	vapour = tarn_weather_add(w, TARN_VAPOUR);
	rain = tarn_weather_add(w, TARN_RAIN);
	cr_assert(tmin && tmax && vapour && rain);
	cr_assert(tarn_weather_add(w, TARN_PAN) != NULL);
	for (int i = 0; i < 40; i++) {
		tmin[i] = 5;
		tmax[i] = 15;
		vapour[i] = 0.8;
		rain[i] = 3;
	}
	change.temperature_c[0] = 3;
	change.rain[1] = 0.5;
	cr_assert(tarn_weather_changed(&out, w, &change, &err) == TARN_OK);
	cr_expect(fabs(tarn_weather_column(out, TARN_TMAX)[30] - 18) < 1e-12);
	cr_expect(fabs(tarn_weather_column(out, TARN_TMAX)[31] - 15) < 1e-12);
	cr_expect(fabs(tarn_weather_column(out, TARN_RAIN)[30] - 3) < 1e-12);
	cr_expect(fabs(tarn_weather_column(out, TARN_RAIN)[31] - 1.5) < 1e-12);
	rh = tarn_weather_column(out, TARN_VAPOUR)[0] /
	     tarn_air_saturation(13);
	cr_expect(fabs(rh - 0.8 / tarn_air_saturation(10)) < 1e-12);
	/* January's last day is January's, February's first is not */
	cr_expect(fabs(tarn_weather_column(out, TARN_VAPOUR)[30] /
		       tarn_air_saturation(13) - rh) < 1e-12);
	cr_expect(fabs(tarn_weather_column(out, TARN_VAPOUR)[31] - 0.8) < 1e-12);
	cr_expect(fabs(tmax[0] - 15) < 1e-15, "the original is as it was");
	cr_expect(tarn_weather_notes(out) == tarn_weather_notes(w) + 2);
	tarn_weather_free(out);
	change.wind[3] = -1;
	cr_expect(tarn_weather_changed(&out, w, &change, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "change.wind");
	tarn_weather_free(w);
}

/* ---- generated weather --------------------------------------------------------- */

enum { COLUMNS = 3 };

static struct tarn_generator from_normals(void)
{
	struct tarn_normals n = tarn_normals_default();
	struct tarn_generator g;

	for (int m = 0; m < 12; m++) {
		double summer = 0.5 - 0.5 * cos((m + 0.5) * PI / 6);

		n.rain_mm[m] = 40 + 50 * summer;
		n.wet_days[m] = 8 + 4 * summer;
		n.tmax_c[m] = 5 + 22 * summer;
		n.tmin_c[m] = -3 + 17 * summer;
		n.solar_mj[m] = 5 + 16 * summer;
		n.tmax_sd[m] = 4;
		n.tmin_sd[m] = 3.5;
		n.solar_sd[m] = 2;
	}
	cr_assert(tarn_generator_normals(&g, &n, NULL) == TARN_OK);
	g.over[0] = -1;		/* bounds would bend the means */
	for (int c = 0; c < COLUMNS; c++) {
		g.lo[c] = -1e9;
		g.hi[c] = 1e9;
	}
	/* wet days are duller and cooler */
	for (int m = 0; m < 12; m++) {
		g.mean[0][1][m] -= 3;
		g.mean[2][1][m] *= 0.6;
	}
	return g;
}

struct days {
	size_t count;
	double *rain, *column[COLUMNS];
};

static struct days generate(const struct tarn_generator *g, uint64_t stream,
			    size_t count)
{
	struct days d = { count, malloc(count * sizeof(double)), { NULL } };

	for (int c = 0; c < COLUMNS; c++)
		d.column[c] = malloc(count * sizeof(double));
	tarn_generate(g, 99, stream, tarn_day(1900, 1, 1), count, d.rain,
		      d.column);
	return d;
}

static void free_days(struct days *d)
{
	free(d->rain);
	for (int c = 0; c < COLUMNS; c++)
		free(d->column[c]);
}

/* Sums of one month over a record. */
struct month {
	double days, wet, rain, rain2, sum[COLUMNS], sum2[COLUMNS];
};

static void add_up(const struct days *d, struct month *out)
{
	memset(out, 0, 12 * sizeof *out);
	for (size_t i = 0; i < d->count; i++) {
		struct month *m = &out[tarn_date(tarn_day(1900, 1, 1) +
						 (long)i).month - 1];

		m->days++;
		m->wet += d->rain[i] > 0;
		m->rain += d->rain[i];
		m->rain2 += d->rain[i] * d->rain[i];
		for (int c = 0; c < COLUMNS; c++) {
			m->sum[c] += d->column[c][i];
			m->sum2[c] += d->column[c][i] * d->column[c][i];
		}
	}
}

/* Mean length of wet spells. */
static double spell(const struct days *d)
{
	double wet = 0, spells = 0;

	for (size_t i = 1; i < d->count; i++) {
		wet += d->rain[i] > 0;
		spells += d->rain[i] > 0 && !(d->rain[i - 1] > 0);
	}
	return wet / spells;
}

/*
 * A record of 30 years is fitted, and 200 years are generated from the fit:
 * means, variances and wet spells agree within what 30 years can tell (four
 * standard errors; days that follow each other count for fewer).
 */
Test(study_tools, generated_weather_is_like_its_source)
{
	static const double follows = 3;	/* variance of means, x */
	struct tarn_generator g = from_normals(), fit;
	struct days source = generate(&g, 0, 30 * 365), made;
	struct month a[12], b[12];
	double z = 4, n;

	cr_assert(tarn_generator_fit(&fit, tarn_day(1900, 1, 1), source.count,
				     source.rain,
				     (const double *const *)source.column,
				     COLUMNS, NULL, NULL, 0.1, NULL) ==
		  TARN_OK);
	made = generate(&fit, 1, 200 * 365);
	add_up(&source, a);
	add_up(&made, b);
	for (int m = 0; m < 12; m++) {
		double mean = a[m].rain / a[m].days, share;
		double var = a[m].rain2 / a[m].days - mean * mean;

		n = a[m].days / follows;
		share = a[m].wet / a[m].days;
		cr_expect(fabs(b[m].wet / b[m].days - share) <
			  z * sqrt(share * (1 - share) / n), "wet days, %d",
			  m + 1);
		cr_expect(fabs(b[m].rain / b[m].days - mean) <
			  z * sqrt(var / n), "rain, %d", m + 1);
		cr_expect(fabs(sqrt(b[m].rain2 / b[m].days - mean * mean) /
			       sqrt(var) - 1) < 0.25, "rain's spread, %d",
			  m + 1);
		for (int c = 0; c < COLUMNS; c++) {
			double x = a[m].sum[c] / a[m].days;
			double y = b[m].sum[c] / b[m].days;
			double v = a[m].sum2[c] / a[m].days - x * x;
			double w = b[m].sum2[c] / b[m].days - y * y;

			cr_expect(fabs(y - x) < z * sqrt(v / n),
				  "column %d, %d: %g for %g", c, m + 1, y, x);
			cr_expect(fabs(sqrt(w / v) - 1) < z * sqrt(0.5 / n),
				  "spread of column %d, %d", c, m + 1);
		}
	}
	cr_expect(fabs(spell(&made) / spell(&source) - 1) < 0.08, "%g for %g",
		  spell(&made), spell(&source));
	/* the residuals' matrix comes back */
	for (int i = 0; i < COLUMNS; i++)
		for (int k = 0; k < COLUMNS; k++)
			cr_expect(fabs(fit.follow[i][k] - g.follow[i][k]) <
				  0.05, "follow %d %d: %g for %g", i, k,
				  fit.follow[i][k], g.follow[i][k]);
	free_days(&source);
	free_days(&made);
}

Test(study_tools, generated_weather_starts_anywhere)
{
	struct tarn_generator g = from_normals();
	struct days a = generate(&g, 5, 4000), b = generate(&g, 5, 100);
	struct days c = generate(&g, 6, 100);

	cr_expect(memcmp(a.rain, b.rain, 100 * sizeof(double)) == 0);
	cr_expect(memcmp(a.column[2], b.column[2], 100 * sizeof(double)) == 0);
	cr_expect(memcmp(a.column[2], c.column[2], 100 * sizeof(double)) != 0);
	free_days(&a);
	free_days(&b);
	free_days(&c);
}

/* Richardson and Wright (1984) print the residuals' correlations too: of a
 * day 0.633, 0.186, -0.193; what 'follow' and 'fresh' make of themselves. */
Test(study_tools, published_matrices_fit_each_other)
{
	static const double want[3][3] = {
		{ 1, 0.633, 0.186 }, { 0.633, 1, -0.193 },
		{ 0.186, -0.193, 1 },
	};
	struct tarn_generator g = from_normals();

	for (int i = 0; i < 3; i++)
		for (int k = 0; k < 3; k++) {
			double sum = 0;

			for (int p = 0; p < 3; p++) {
				sum += g.fresh[i][p] * g.fresh[k][p];
				for (int q = 0; q < 3; q++)
					sum += g.follow[i][p] * want[p][q] *
					       g.follow[k][q];
			}
			/* 0.01: matrices of three digits, multiplied */
			recalled("Richardson and Wright (1984), correlations",
				 named("%d with %d", i + 1, k + 1), sum,
				 want[i][k], 0.01);
		}
}

/* Ten days behind a wet one are enough in each month, nine are not: the last of
 * May is wet, and the first days of June, up to so many together. */
Test(study_tools, ten_days_of_a_kind_make_a_fit)
{
	for (int wet = 9; wet <= 10; wet++) {
		double rain[365], none[365];
		const double *column[1] = { none };
		struct tarn_generator fit;
		struct tarn_error err = { 0 };
		long first = tarn_day(2001, 1, 1);

		for (int i = 0; i < 365; i++) {
			struct tarn_date date = tarn_date(first + i);
			int on = date.month == 6 ? date.day < wet : i % 2 == 0;

			rain[i] = on ? 1 + i % 7 : 0;
			none[i] = TARN_NAN;
		}
		cr_expect(tarn_generator_fit(&fit, first, 365, rain, NULL, 0,
					     NULL, NULL, 0.1, &err) ==
			  (wet == 10 ? TARN_OK : TARN_EARG), "%d: %s", wet,
			  err.text);
		if (wet == 10)
			cr_expect(tarn_generator_fit(&fit, first, 365, rain,
						     column, 1, NULL, NULL,
						     0.1, &err) == TARN_EARG &&
				  strstr(err.text, "days of a column"), "%s",
				  err.text);
		else
			cr_expect(strstr(err.text, "wet days") != NULL, "%s",
				  err.text);
	}
}

Test(study_tools, fit_refuses_what_does_not_do)
{
	struct tarn_generator g = from_normals(), fit;
	struct days d = generate(&g, 0, 4000);
	const double *twice[2] = { d.column[0], d.column[0] };
	struct tarn_error err = { 0 };
	struct tarn_normals n = tarn_normals_default();
	long first = tarn_day(1900, 1, 1);

	cr_expect(tarn_generator_fit(&fit, first, d.count, d.rain, twice, 2,
				     NULL, NULL, 0.1, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "follows from the others"), "%s", err.text);
	cr_expect(tarn_generator_fit(&fit, first, 200, d.rain, twice, 1, NULL,
				     NULL, 0.1, NULL) == TARN_EARG);
	cr_expect(tarn_generator_fit(&fit, first, d.count, d.rain, twice, 1,
				     NULL, NULL, 0, NULL) == TARN_EARG);
	/* gaps are left out */
	d.rain[100] = d.column[0][500] = TARN_NAN;
	cr_expect(tarn_generator_fit(&fit, first, d.count, d.rain, twice, 1,
				     NULL, NULL, 0.1, NULL) == TARN_OK);
	cr_expect(tarn_generator_normals(&fit, &n, NULL) == TARN_EARG);
	free_days(&d);
}
