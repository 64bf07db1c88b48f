/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/leak/gls.h"

#define LN_TAU_SD 0.5
#define LN_TAU_MIN (-1.5)	/* three deviations either way */
#define LN_TAU_STEP 0.075
#define WILD 10.0		/* times wider */
#define WILD_SHARE 0.02
#define ROUNDS 12

/* ---- the tridiagonal covariance ------------------------------------- */

static double row_var(const struct gls_row *r)
{
	return r->w_var / r->w_weight +
	       r->g * r->g * r->start_var / r->start_weight +
	       r->end_var / r->end_weight;
}

/* Covariance of a row with the one before it. */
static double row_cov(const struct gls_row *rows, size_t j)
{
	if (j == 0 || rows[j - 1].end != rows[j].start)
		return 0;
	return -rows[j].g * rows[j].start_var / rows[j].start_weight;
}

/* V = L D L', L with ones and one diagonal below: d[j], l[j]. */
static void factor(const struct gls_row *rows, size_t count, double *d,
		   double *l)
{
	for (size_t j = 0; j < count; j++) {
		double cov = row_cov(rows, j);

		l[j] = j > 0 ? cov / d[j - 1] : 0;
		d[j] = row_var(&rows[j]) - (j > 0 ? l[j] * cov : 0);
	}
}

/* ---- sums over whitened rows ---------------------------------------- */

struct sums {
	double a[GLS_COLUMNS][GLS_COLUMNS], b[GLS_COLUMNS], c;
};

/* X' V^-1 X, X' V^-1 y, y' V^-1 y in one pass: no storage. */
static void add_up(const struct gls_row *rows, size_t count, int columns,
		   struct sums *s)
{
	double z[GLS_COLUMNS + 1] = { 0 }, d = 1, l = 0;

	memset(s, 0, sizeof *s);
	for (size_t j = 0; j < count; j++) {
		double cov = row_cov(rows, j);

		l = j > 0 ? cov / d : 0;
		d = row_var(&rows[j]) - l * cov;
		for (int p = 0; p < columns; p++)
			z[p] = rows[j].x[p] - l * z[p];
		z[GLS_COLUMNS] = rows[j].y_mm - l * z[GLS_COLUMNS];
		for (int p = 0; p < columns; p++) {
			for (int q = 0; q <= p; q++)
				s->a[p][q] += z[p] * z[q] / d;
			s->b[p] += z[p] * z[GLS_COLUMNS] / d;
		}
		s->c += z[GLS_COLUMNS] * z[GLS_COLUMNS] / d;
	}
	for (int p = 0; p < columns; p++)
		for (int q = 0; q < p; q++)
			s->a[q][p] = s->a[p][q];
}

/* ---- the posterior -------------------------------------------------- */

/* Inverse of a positive matrix by Cholesky; *log_det of it. */
static void invert(double m[GLS_COLUMNS][GLS_COLUMNS], int n,
		   double out[GLS_COLUMNS][GLS_COLUMNS], double *log_det)
{
	double l[GLS_COLUMNS][GLS_COLUMNS] = { { 0 } };
	double u[GLS_COLUMNS][GLS_COLUMNS] = { { 0 } };

	*log_det = 0;
	for (int i = 0; i < n; i++) {
		for (int j = 0; j <= i; j++) {
			double sum = m[i][j];

			for (int k = 0; k < j; k++)
				sum -= l[i][k] * l[j][k];
			l[i][j] = i == j ? sqrt(sum) : sum / l[j][j];
		}
		*log_det += 2 * log(l[i][i]);
	}
	for (int i = 0; i < n; i++) {	/* u = l^-1 */
		u[i][i] = 1 / l[i][i];
		for (int j = 0; j < i; j++) {
			double sum = 0;

			for (int k = j; k < i; k++)
				sum -= l[i][k] * u[k][j];
			u[i][j] = sum / l[i][i];
		}
	}
	for (int i = 0; i < n; i++)
		for (int j = 0; j < n; j++) {
			out[i][j] = 0;
			for (int k = 0; k < n; k++)
				out[i][j] += u[k][i] * u[k][j];
		}
}

/* Posterior for one tau; returns the log of its weight. */
static double at_tau(const struct sums *s, size_t count,
		     const struct gls_prior *prior, double ln_tau,
		     double mean[GLS_COLUMNS],
		     double cov[GLS_COLUMNS][GLS_COLUMNS])
{
	double t2 = exp(2 * ln_tau), m[GLS_COLUMNS][GLS_COLUMNS];
	double b[GLS_COLUMNS], log_det, square = s->c / t2;
	int n = prior->columns;

	for (int p = 0; p < n; p++) {
		for (int q = 0; q < n; q++)
			m[p][q] = s->a[p][q] / t2;
		m[p][p] += prior->precision[p];
		b[p] = s->b[p] / t2 + prior->precision[p] * prior->mean[p];
		square += prior->precision[p] * prior->mean[p] *
			  prior->mean[p];
	}
	invert(m, n, cov, &log_det);
	for (int p = 0; p < n; p++) {
		mean[p] = 0;
		for (int q = 0; q < n; q++)
			mean[p] += cov[p][q] * b[q];
		square -= mean[p] * b[p];
	}
	for (int p = 0; p < n; p++)
		if (prior->precision[p] > 0)
			log_det -= log(prior->precision[p]);
	return -(double)count * ln_tau - (square + log_det) / 2 -
	       ln_tau * ln_tau / (2 * LN_TAU_SD * LN_TAU_SD);
}

static void sum_taus(const struct sums *s, size_t count,
		     const struct gls_prior *prior, struct gls_posterior *out)
{
	double most = -HUGE_VAL, total = 0;

	out->columns = prior->columns;
	for (int g = 0; g < GLS_GRID; g++) {
		out->weight[g] = at_tau(s, count, prior,
					LN_TAU_MIN + g * LN_TAU_STEP,
					out->mean[g], out->cov[g]);
		most = fmax(most, out->weight[g]);
	}
	out->tau = 0;
	for (int g = 0; g < GLS_GRID; g++) {
		out->weight[g] = exp(out->weight[g] - most);
		total += out->weight[g];
	}
	for (int g = 0; g < GLS_GRID; g++) {
		out->weight[g] /= total;
		out->tau += out->weight[g] *
			    exp(LN_TAU_MIN + g * LN_TAU_STEP);
	}
	out->log_evidence = most + log(total * LN_TAU_STEP);
}

void tn_gls_fit(const struct gls_row *rows, size_t count,
		const struct gls_prior *prior, struct gls_posterior *out)
{
	struct sums s;

	add_up(rows, count, prior->columns, &s);
	sum_taus(&s, count, prior, out);
}

/* ---- the robust weights --------------------------------------------- */

/* Chance that an error is wild, from its expected square in units of its
 * variance. */
static double wild_chance(double square)
{
	double odds = WILD_SHARE / (1 - WILD_SHARE) / WILD *
		      exp(fmin(square * (1 - 1 / (WILD * WILD)) / 2, 300));

	return odds / (1 + odds);
}

static double weight_of(double chance)
{
	return 1 - chance + chance / (WILD * WILD);
}

/*
 * Expected square of an error, in units of its tame variance 'base'.
 *   pull    its estimate is var x pull, var = base / weight
 *   taken   the data take var^2 x taken off its variance
 */
static double expected_square(double base, double weight, double pull,
			      double taken, double tau2)
{
	double var = base / weight, estimate = var * pull;

	return (estimate * estimate / tau2 +
		fmax(0, var - var * var * taken)) / base;
}

/*
 * One E step: expected squares of every e and w given the residuals, then
 * their weights.  v = V^-1 residual, s = diagonal of V^-1, from the factors,
 * last row first; the diagonal below it is -l s.
 */
static void reweigh(struct gls_row *rows, size_t count, const double *theta,
		    int columns, double tau, double *work)
{
	double *d = work, *l = d + count, *v = l + count, *s = v + count;
	double tau2 = tau * tau;

	factor(rows, count, d, l);
	for (size_t j = 0; j < count; j++) {
		v[j] = rows[j].y_mm;
		for (int p = 0; p < columns; p++)
			v[j] -= rows[j].x[p] * theta[p];
		if (j > 0)
			v[j] -= l[j] * v[j - 1];
	}
	for (size_t j = count; j-- > 0;) {
		double up = j + 1 < count ? l[j + 1] : 0;

		v[j] = v[j] / d[j] - (j + 1 < count ? up * v[j + 1] : 0);
		s[j] = 1 / d[j] + (j + 1 < count ? up * up * s[j + 1] : 0);
	}
	for (size_t j = count; j-- > 0;) {
		struct gls_row *r = &rows[j];
		struct gls_row *next = j + 1 < count &&
			rows[j + 1].start == r->end ? &rows[j + 1] : NULL;
		double pull = -v[j], taken = s[j];

		r->row_wild = wild_chance(expected_square(
			r->w_var, r->w_weight, v[j], s[j], tau2));
		if (next) {	/* its end is the next row's start */
			pull += next->g * v[j + 1];
			taken += next->g * next->g * s[j + 1] +
				 2 * next->g * l[j + 1] * s[j + 1];
		}
		r->end_wild = wild_chance(expected_square(
			r->end_var, r->end_weight, pull, taken, tau2));
		if (next)
			next->start_wild = r->end_wild;
		if (j == 0 || rows[j - 1].end != r->start)
			r->start_wild = wild_chance(expected_square(
				r->start_var, r->start_weight, r->g * v[j],
				r->g * r->g * s[j], tau2));
	}
	for (size_t j = 0; j < count; j++) {
		rows[j].w_weight = weight_of(rows[j].row_wild);
		rows[j].start_weight = weight_of(rows[j].start_wild);
		rows[j].end_weight = weight_of(rows[j].end_wild);
	}
}

static void mean_theta(const struct gls_posterior *p, double *theta)
{
	for (int k = 0; k < p->columns; k++) {
		theta[k] = 0;
		for (int g = 0; g < GLS_GRID; g++)
			theta[k] += p->weight[g] * p->mean[g][k];
	}
}

void tn_gls_robust(struct gls_row *rows, size_t count,
		   const struct gls_prior *prior, struct gls_posterior *out,
		   double *work)
{
	double theta[GLS_COLUMNS];

	tn_gls_fit(rows, count, prior, out);
	for (int round = 0; round < ROUNDS; round++) {
		mean_theta(out, theta);
		/* a wild reading must not hide behind the noise that it
		 * makes */
		reweigh(rows, count, theta, prior->columns,
			round < 3 ? fmin(out->tau, 1.5) : out->tau, work);
		tn_gls_fit(rows, count, prior, out);
	}
}

/* ---- estimates ------------------------------------------------------ */

static double above(double x)		/* standard normal */
{
	return erfc(x / sqrt(2)) / 2;
}

static void part(const struct gls_posterior *p, int g,
		 const double c[GLS_COLUMNS], double *mean, double *var)
{
	*mean = *var = 0;
	for (int i = 0; i < p->columns; i++) {
		*mean += c[i] * p->mean[g][i];
		for (int j = 0; j < p->columns; j++)
			*var += c[i] * c[j] * p->cov[g][i][j];
	}
}

static double chance_above(const struct gls_posterior *p,
			   const double c[GLS_COLUMNS], double x)
{
	double sum = 0, mean, var;

	for (int g = 0; g < GLS_GRID; g++) {
		part(p, g, c, &mean, &var);
		sum += p->weight[g] * above((x - mean) / sqrt(var));
	}
	return sum;
}

double tn_gls_above_zero(const struct gls_posterior *p,
			 const double c[GLS_COLUMNS])
{
	return chance_above(p, c, 0);
}

/* x that the mixture exceeds with the given chance, by halving. */
static double quantile(const struct gls_posterior *p,
		       const double c[GLS_COLUMNS], double lo, double hi,
		       double chance)
{
	for (int i = 0; i < 60; i++) {
		double mid = (lo + hi) / 2;

		if (chance_above(p, c, mid) > chance)
			lo = mid;
		else
			hi = mid;
	}
	return (lo + hi) / 2;
}

struct tarn_estimate tn_gls_estimate(const struct gls_posterior *p,
				     const double c[GLS_COLUMNS])
{
	struct tarn_estimate e;
	double square = 0, mean, var, lo, hi;

	e.mean = 0;
	for (int g = 0; g < GLS_GRID; g++) {
		part(p, g, c, &mean, &var);
		e.mean += p->weight[g] * mean;
		square += p->weight[g] * (var + mean * mean);
	}
	e.sd = sqrt(fmax(0, square - e.mean * e.mean));
	lo = e.mean - 12 * e.sd;
	hi = e.mean + 12 * e.sd;
	e.low = quantile(p, c, lo, hi, 0.95);
	e.high = quantile(p, c, lo, hi, 0.05);
	return e;
}
