/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/leak/gls.h"

#define LN_TAU_SD 0.5
#define LN_TAU_MIN (-1.5)	/* three deviations either way */
#define LN_TAU_STEP 0.075

/*
 * All columns in one order: the meter, the slow effects, then what is asked.
 * Being last, theta has its covariance in the last corner of the factor of the
 * whole precision.
 */
#define ALL (GLS_ASIDES + GLS_COLUMNS)

static size_t asides_of(const struct gls_prior *p)
{
	return GLS_SLOW + p->slow;
}

static size_t all_of(const struct gls_prior *p)
{
	return asides_of(p) + (size_t)p->columns;
}

/* ---- the tridiagonal covariance ------------------------------------- */

double tn_gls_row_var(const struct gls_row *r)
{
	return r->w_var / r->w_weight +
	       r->g * r->g * r->start_var / r->start_weight +
	       r->end_var / r->end_weight;
}

double tn_gls_row_cov(const struct gls_row *rows, size_t j)
{
	if (j == 0 || rows[j - 1].end != rows[j].start)
		return 0;
	return -rows[j].g * rows[j].start_var / rows[j].start_weight;
}

/* ---- sums over whitened rows ---------------------------------------- */

struct sums {
	double a[ALL][ALL], b[ALL], c;	/* a: the lower half */
};

/* A row less 'l' times what was whitened before it, into z. */
static void whiten(const struct gls_row *r, const struct gls_prior *p, double l,
		   double z[ALL])
{
	size_t asides = asides_of(p), all = all_of(p);

	for (size_t i = 0; i < all; i++)
		z[i] *= -l;
	z[GLS_METER] += r->meter_mm;
	if (p->slow > 0)
		z[GLS_SLOW + r->slow] += r->x[GLS_EVAPORATION];
	for (size_t i = asides; i < all; i++)
		z[i] += r->x[i - asides];
}

/* X' V^-1 X, X' V^-1 y, y' V^-1 y in one pass: no storage. */
static void add_up(const struct gls_row *rows, size_t count,
		   const struct gls_prior *prior, struct sums *s)
{
	double z[ALL] = { 0 }, y = 0, d = 1;
	size_t all = all_of(prior);

	memset(s, 0, sizeof *s);
	for (size_t j = 0; j < count; j++) {
		double cov = tn_gls_row_cov(rows, j), l = j > 0 ? cov / d : 0;

		d = tn_gls_row_var(&rows[j]) - l * cov;
		whiten(&rows[j], prior, l, z);
		y = rows[j].y_mm - l * y;
		for (size_t p = 0; p < all; p++) {
			for (size_t q = 0; q <= p; q++)
				s->a[p][q] += z[p] * z[q] / d;
			s->b[p] += z[p] * y / d;
		}
		s->c += y * y / d;
	}
}

/* ---- the posterior -------------------------------------------------- */

/* Prior of a column, in the order of all. */
static double prior_of(const struct gls_prior *p, size_t i, double *mean)
{
	size_t asides = asides_of(p);

	*mean = 0;
	if (i == GLS_METER) {
		*mean = p->meter_mean;
		return p->meter_precision;
	}
	if (i < asides)
		return p->slow_precision;
	*mean = p->mean[i - asides];
	return p->precision[i - asides];
}

/* m = L L', in place; the log of its determinant. */
static double cholesky(double m[ALL][ALL], size_t n)
{
	double log_det = 0;

	for (size_t i = 0; i < n; i++) {
		for (size_t j = 0; j <= i; j++) {
			double sum = m[i][j];

			for (size_t k = 0; k < j; k++)
				sum -= m[i][k] * m[j][k];
			m[i][j] = i == j ? sqrt(sum) : sum / m[j][j];
		}
		log_det += 2 * log(m[i][i]);
	}
	return log_det;
}

/* Covariance of theta, from the last corner of L. */
static void corner(double l[ALL][ALL], size_t from, size_t n,
		   double cov[GLS_COLUMNS][GLS_COLUMNS])
{
	double u[GLS_COLUMNS][GLS_COLUMNS] = { { 0 } };	/* its inverse */

	for (size_t i = 0; i < n; i++) {
		u[i][i] = 1 / l[from + i][from + i];
		for (size_t j = 0; j < i; j++) {
			double sum = 0;

			for (size_t k = j; k < i; k++)
				sum -= l[from + i][from + k] * u[k][j];
			u[i][j] = sum / l[from + i][from + i];
		}
	}
	for (size_t row = 0; row < n; row++)
		for (size_t col = 0; col < n; col++) {
			cov[row][col] = 0;
			for (size_t k = 0; k < n; k++)
				cov[row][col] += u[k][row] * u[k][col];
		}
}

/* b becomes L^-1 b, whose square is returned; then the solution. */
static double solve(double l[ALL][ALL], size_t n, double b[ALL])
{
	double square = 0;

	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < i; k++)
			b[i] -= l[i][k] * b[k];
		b[i] /= l[i][i];
		square += b[i] * b[i];
	}
	for (size_t i = n; i-- > 0;) {
		for (size_t k = i + 1; k < n; k++)
			b[i] -= l[k][i] * b[k];
		b[i] /= l[i][i];
	}
	return square;
}

/* Posterior for one tau; returns the log of its weight. */
static double at_tau(const struct sums *s, size_t count,
		     const struct gls_prior *prior, double ln_tau,
		     struct gls_posterior *out, int g)
{
	double t2 = exp(2 * ln_tau), m[ALL][ALL], b[ALL], square = s->c / t2;
	double log_det = 0, mean, precision;
	size_t n = all_of(prior), asides = asides_of(prior);

	for (size_t p = 0; p < n; p++) {
		for (size_t q = 0; q <= p; q++)
			m[p][q] = s->a[p][q] / t2;
		precision = prior_of(prior, p, &mean);
		m[p][p] += precision;
		b[p] = s->b[p] / t2 + precision * mean;
		square += precision * mean * mean;
		log_det -= precision > 0 ? log(precision) : 0;
	}
	log_det += cholesky(m, n);
	square -= solve(m, n, b);
	for (size_t p = 0; p < asides; p++)
		out->aside[g][p] = b[p];
	for (size_t p = asides; p < n; p++)
		out->mean[g][p - asides] = b[p];
	corner(m, asides, (size_t)prior->columns, out->cov[g]);
	return -(double)count * ln_tau - (square + log_det) / 2 -
	       ln_tau * ln_tau / (2 * LN_TAU_SD * LN_TAU_SD);
}

void tn_gls_fit(const struct gls_row *rows, size_t count,
		const struct gls_prior *prior, struct gls_posterior *out)
{
	double most = -HUGE_VAL, total = 0;
	struct sums s;

	add_up(rows, count, prior, &s);
	out->columns = prior->columns;
	for (int g = 0; g < GLS_GRID; g++) {
		out->weight[g] = at_tau(&s, count, prior,
					LN_TAU_MIN + g * LN_TAU_STEP, out, g);
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
