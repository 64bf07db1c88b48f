/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/study.h"

enum { N = TARN_GENERATED_COLUMNS };

/* Fewest days of a kind that a month's parameters may stand on. */
#define DAYS_LEAST 10

static int month_of(long day)
{
	int month = tarn_date(day).month;

	return month > 0 ? month - 1 : 0;
}

static enum tarn_status too_few(struct tarn_error *err, const char *what, int m)
{
	return tarn_fail(err, TARN_EARG, "weather", "has fewer than %d %s in "
			 "month %d", DAYS_LEAST, what, m + 1);
}

/* ---- rain ------------------------------------------------------------------ */

static enum tarn_status fit_chain(struct tarn_generator *g, long first_day,
				  size_t days, const double *rain_mm,
				  struct tarn_error *err)
{
	double count[12][2] = { { 0 } }, wet[12][2] = { { 0 } };

	for (size_t i = 1; i < days; i++) {
		int m = month_of(first_day + (long)i);
		int before = rain_mm[i - 1] >= g->wet_mm;

		if (isnan(rain_mm[i]) || isnan(rain_mm[i - 1]))
			continue;
		count[m][before]++;
		wet[m][before] += rain_mm[i] >= g->wet_mm;
	}
	for (int m = 0; m < 12; m++) {
		if (count[m][0] < DAYS_LEAST)
			return too_few(err, "dry days", m);
		if (count[m][1] < DAYS_LEAST)
			return too_few(err, "wet days", m);
		g->wet_after_dry[m] = wet[m][0] / count[m][0];
		g->wet_after_wet[m] = wet[m][1] / count[m][1];
	}
	return TARN_OK;
}

/* Thom (1958), Monthly Weather Review 86: with A the log of the mean less the
 * mean of the logs, shape = (1 + sqrt(1 + 4 A / 3)) / (4 A). */
static enum tarn_status fit_amounts(struct tarn_generator *g, long first_day,
				    size_t days, const double *rain_mm,
				    struct tarn_error *err)
{
	/* a reading of just wet_mm stands for what rounds to it */
	double least_mm = g->wet_mm / 4;
	double count[12] = { 0 }, sum[12] = { 0 }, logs[12] = { 0 };

	for (size_t i = 0; i < days; i++) {
		int m = month_of(first_day + (long)i);
		double x = rain_mm[i] - g->wet_mm;

		if (!(x >= 0))
			continue;
		count[m]++;
		sum[m] += x;
		logs[m] += log(x > least_mm ? x : least_mm);
	}
	for (int m = 0; m < 12; m++) {
		double mean = sum[m] / count[m];
		double a = log(mean) - logs[m] / count[m];

		if (!(mean > 0 && a > 0))
			return tarn_fail(err, TARN_EARG, "rain", "does not vary "
					 "in month %d", m + 1);
		g->shape[m] = (1 + sqrt(1 + 4 * a / 3)) / (4 * a);
		g->scale_mm[m] = mean / g->shape[m];
	}
	return TARN_OK;
}

/* ---- the other columns ------------------------------------------------------ */

static enum tarn_status fit_means(struct tarn_generator *g, long first_day,
				  size_t days, const double *rain_mm,
				  const double *x, int c,
				  struct tarn_error *err)
{
	double count[2][12] = { { 0 } }, sum[2][12] = { { 0 } };
	double squares[2][12] = { { 0 } };

	for (size_t i = 0; i < days; i++) {
		int m = month_of(first_day + (long)i);

		if (isnan(x[i]) || isnan(rain_mm[i]))
			continue;
		count[rain_mm[i] >= g->wet_mm][m]++;
		sum[rain_mm[i] >= g->wet_mm][m] += x[i];
	}
	for (int wet = 0; wet < 2; wet++)
		for (int m = 0; m < 12; m++) {
			if (count[wet][m] < DAYS_LEAST)
				return too_few(err, "days of a column", m);
			g->mean[c][wet][m] = sum[wet][m] / count[wet][m];
		}
	for (size_t i = 0; i < days; i++) {
		int m = month_of(first_day + (long)i);
		int wet = rain_mm[i] >= g->wet_mm;
		double off = x[i] - g->mean[c][wet][m];

		if (!isnan(off) && !isnan(rain_mm[i]))
			squares[wet][m] += off * off;
	}
	for (int wet = 0; wet < 2; wet++)
		for (int m = 0; m < 12; m++)
			g->sd[c][wet][m] = sqrt(squares[wet][m] /
						(count[wet][m] - 1));
	return TARN_OK;
}

/* A day's residuals, each over its standard deviation; 0 if one is missing. */
static int residuals(const struct tarn_generator *g, long day, double rain_mm,
		     const double *const *column, size_t i, double *z)
{
	int m = month_of(day), wet = rain_mm >= g->wet_mm;

	if (isnan(rain_mm))
		return 0;
	for (int c = 0; c < g->columns; c++) {
		z[c] = (column[c][i] - g->mean[c][wet][m]) / g->sd[c][wet][m];
		if (!isfinite(z[c]))
			return 0;
	}
	return 1;
}

/* ---- small matrices --------------------------------------------------------- */

/* X with X m = b, by Gauss and Jordan on the transposed system; 0: singular. */
static int right_divide(const double b[N][N], const double m[N][N], int n,
			double x[N][N])
{
	double a[N][2 * N];

	for (int i = 0; i < n; i++)
		for (int k = 0; k < n; k++) {
			a[i][k] = m[k][i];
			a[i][n + k] = b[k][i];
		}
	for (int p = 0; p < n; p++) {
		int best = p;

		for (int i = p + 1; i < n; i++)
			if (fabs(a[i][p]) > fabs(a[best][p]))
				best = i;
		if (!(fabs(a[best][p]) > 1e-9))
			return 0;
		for (int k = 0; k < 2 * n; k++) {
			double swap = a[p][k];

			a[p][k] = a[best][k];
			a[best][k] = swap;
		}
		for (int i = 0; i < n; i++) {
			double times = a[i][p] / a[p][p];

			for (int k = 0; k < 2 * n && i != p; k++)
				a[i][k] -= times * a[p][k];
		}
	}
	for (int i = 0; i < n; i++)
		for (int k = 0; k < n; k++)
			x[k][i] = a[i][n + k] / a[i][i];
	return 1;
}

/* Lower triangle with lower lower' = m (Cholesky); 0: not positive. */
static int square_root(const double m[N][N], int n, double lower[N][N])
{
	memset(lower, 0, sizeof(double[N][N]));
	for (int i = 0; i < n; i++)
		for (int k = 0; k <= i; k++) {
			double sum = m[i][k];

			for (int j = 0; j < k; j++)
				sum -= lower[i][j] * lower[k][j];
			if (i == k && !(sum > 0))
				return 0;
			lower[i][k] = i == k ? sqrt(sum) : sum / lower[k][k];
		}
	return 1;
}

/*
 * z today = follow z yesterday + fresh x normal numbers: with m0 the residuals'
 * correlations of a day and m1 those with the day before (Matalas 1967),
 *     follow = m1 m0^-1,  fresh fresh' = m0 - follow m1'.
 */
static enum tarn_status fit_residuals(struct tarn_generator *g, long first_day,
				      size_t days, const double *rain_mm,
				      const double *const *column,
				      struct tarn_error *err)
{
	double m0[N][N] = { { 0 } }, m1[N][N] = { { 0 } }, rest[N][N];
	double z[N], before[N], count = 0;
	int n = g->columns, had = 0;

	for (size_t i = 0; i < days; i++) {
		int has = residuals(g, first_day + (long)i, rain_mm[i], column,
				    i, z);

		for (int a = 0; a < n && has && had; a++)
			for (int b = 0; b < n; b++) {
				m0[a][b] += z[a] * z[b];
				m1[a][b] += z[a] * before[b];
			}
		count += has && had;
		had = has;
		memcpy(before, z, sizeof before);
	}
	for (int a = 0; a < n; a++)
		for (int b = 0; b < n; b++) {
			m0[a][b] /= count;
			m1[a][b] /= count;
		}
	if (!right_divide(m1, m0, n, g->follow))
		return tarn_fail(err, TARN_EARG, "weather", "has a column that "
				 "follows from the others, or does not vary");
	for (int a = 0; a < n; a++)
		for (int b = 0; b < n; b++) {
			rest[a][b] = m0[a][b];
			for (int k = 0; k < n; k++)
				rest[a][b] -= g->follow[a][k] * m1[b][k];
		}
	if (!square_root(rest, n, g->fresh))
		return tarn_fail(err, TARN_EARG, "weather", "is too short, or "
				 "has a column that follows from the others");
	return TARN_OK;
}

/* ---- from daily weather ------------------------------------------------------- */

enum tarn_status tarn_generator_fit(struct tarn_generator *out, long first_day,
				    size_t days, const double *rain_mm,
				    const double *const *column, int columns,
				    const double *lo, const double *hi,
				    double wet_mm, struct tarn_error *err)
{
	enum tarn_status status;

	memset(out, 0, sizeof *out);
	if (columns < 0 || columns > N)
		return tarn_fail(err, TARN_EARG, "columns", "must be 0 to %d, "
				 "got %d", N, columns);
	if (!(wet_mm >= 0.1 && wet_mm <= 5))
		return tarn_fail(err, TARN_EARG, "wet", "must be 0.1 to 5 mm, "
				 "got %g", wet_mm);
	out->columns = columns;
	out->wet_mm = wet_mm;
	status = fit_chain(out, first_day, days, rain_mm, err);
	if (status == TARN_OK)
		status = fit_amounts(out, first_day, days, rain_mm, err);
	for (int c = 0; c < columns && status == TARN_OK; c++) {
		out->over[c] = -1;
		out->lo[c] = lo ? lo[c] : -HUGE_VAL;
		out->hi[c] = hi ? hi[c] : HUGE_VAL;
		status = fit_means(out, first_day, days, rain_mm, column[c], c,
				   err);
	}
	if (status == TARN_OK && columns > 0)
		status = fit_residuals(out, first_day, days, rain_mm, column,
				       err);
	return status;
}

/* ---- from normals -------------------------------------------------------------- */

struct tarn_normals tarn_normals_default(void)
{
	struct tarn_normals n;

	for (int m = 0; m < 12; m++) {
		n.rain_mm[m] = n.wet_days[m] = TARN_NAN;
		n.tmax_c[m] = n.tmin_c[m] = n.solar_mj[m] = TARN_NAN;
		n.tmax_sd[m] = n.tmin_sd[m] = n.solar_sd[m] = TARN_NAN;
	}
	n.shape = 0.75;		/* common practice, no source */
	n.wet_mm = 0.1;
	return n;
}

/* Richardson and Wright (1984), WGEN: tmax, tmin, solar; from memory. */
static const double wgen_follow[3][3] = {
	{ 0.567, 0.086, -0.002 },
	{ 0.253, 0.504, -0.050 },
	{ -0.006, -0.039, 0.244 },
};
static const double wgen_fresh[3][3] = {
	{ 0.781, 0, 0 },
	{ 0.328, 0.637, 0 },
	{ 0.238, -0.341, 0.873 },
};

static enum tarn_status normals_rain(struct tarn_generator *g,
				     const struct tarn_normals *n, int m,
				     struct tarn_error *err)
{
	double days = tarn_days_in_month(2001, m + 1);
	double share = n->wet_days[m] / days;
	double mean_mm = n->rain_mm[m] / n->wet_days[m];

	if (!(n->wet_days[m] >= 0.5 && n->wet_days[m] <= days - 1))
		return tarn_fail(err, TARN_EARG, "wet_days", "of month %d must "
				 "be 0.5 to %g, got %g", m + 1, days - 1,
				 n->wet_days[m]);
	if (!(mean_mm > g->wet_mm && mean_mm < 500))
		return tarn_fail(err, TARN_EARG, "rain", "of month %d gives %g "
				 "mm a wet day: must be above %g mm", m + 1,
				 mean_mm, g->wet_mm);
	g->wet_after_dry[m] = 0.75 * share;
	g->wet_after_wet[m] = 0.25 + 0.75 * share;
	g->shape[m] = n->shape;
	g->scale_mm[m] = (mean_mm - g->wet_mm) / n->shape;
	return TARN_OK;
}

static enum tarn_status normals_column(struct tarn_generator *g, int c,
				       const char *name, const double *mean,
				       const double *sd, double lo, double hi,
				       struct tarn_error *err)
{
	g->lo[c] = lo;
	g->hi[c] = hi;
	g->over[c] = c == 0 ? 1 : -1;	/* tmax over tmin */
	for (int m = 0; m < 12; m++) {
		if (!(mean[m] > lo && mean[m] < hi && sd[m] > 0 && sd[m] < 50))
			return tarn_fail(err, TARN_EARG, name, "of month %d: "
					 "mean %g and standard deviation %g do "
					 "not make sense", m + 1, mean[m],
					 sd[m]);
		for (int wet = 0; wet < 2; wet++) {
			g->mean[c][wet][m] = mean[m];
			g->sd[c][wet][m] = sd[m];
		}
	}
	return TARN_OK;
}

static int has_sun(const struct tarn_normals *n)
{
	for (int m = 0; m < 12; m++)
		if (!isnan(n->solar_mj[m]))
			return 1;
	return 0;
}

enum tarn_status tarn_generator_normals(struct tarn_generator *out,
					const struct tarn_normals *n,
					struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	memset(out, 0, sizeof *out);
	if (!(n->shape >= 0.2 && n->shape <= 5))
		return tarn_fail(err, TARN_EARG, "shape", "must be 0.2 to 5, "
				 "got %g", n->shape);
	if (!(n->wet_mm >= 0.1 && n->wet_mm <= 5))
		return tarn_fail(err, TARN_EARG, "wet", "must be 0.1 to 5 mm, "
				 "got %g", n->wet_mm);
	out->columns = has_sun(n) ? 3 : 2;
	out->wet_mm = n->wet_mm;
	for (int m = 0; m < 12 && status == TARN_OK; m++)
		status = normals_rain(out, n, m, err);
	if (status == TARN_OK)
		status = normals_column(out, 0, "tmax", n->tmax_c, n->tmax_sd,
					-60, 60, err);
	if (status == TARN_OK)
		status = normals_column(out, 1, "tmin", n->tmin_c, n->tmin_sd,
					-60, 60, err);
	if (status == TARN_OK && out->columns == 3)
		status = normals_column(out, 2, "solar", n->solar_mj,
					n->solar_sd, 0, 45, err);
	for (int i = 0; i < 3; i++)
		for (int k = 0; k < 3; k++) {
			out->follow[i][k] = wgen_follow[i][k];
			out->fresh[i][k] = wgen_fresh[i][k];
		}
	return status;
}
