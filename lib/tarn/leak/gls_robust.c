/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/gls.h"

/* The robust weights: see leak.h. */

#define WILD 10.0		/* times wider */
#define WILD_SHARE 0.02
#define ROUNDS 12

/* V = L D L', L with ones and one diagonal below: d[j], l[j]. */
static void factor(const struct gls_row *rows, size_t count, double *d,
		   double *l)
{
	for (size_t j = 0; j < count; j++) {
		double cov = tn_gls_row_cov(rows, j);

		l[j] = j > 0 ? cov / d[j - 1] : 0;
		d[j] = tn_gls_row_var(&rows[j]) - (j > 0 ? l[j] * cov : 0);
	}
}

/* Means of all columns. */
struct all {
	double theta[GLS_COLUMNS], aside[GLS_ASIDES];
	int columns;
	size_t slow;
};

static struct all means(const struct gls_posterior *p,
			const struct gls_prior *prior)
{
	struct all a = { { 0 }, { 0 }, p->columns, prior->slow };

	for (int g = 0; g < GLS_GRID; g++) {
		for (int k = 0; k < a.columns; k++)
			a.theta[k] += p->weight[g] * p->mean[g][k];
		for (size_t k = 0; k < GLS_SLOW + a.slow; k++)
			a.aside[k] += p->weight[g] * p->aside[g][k];
	}
	return a;
}

static double residual(const struct gls_row *r, const struct all *a)
{
	double y = r->y_mm - r->meter_mm * a->aside[GLS_METER];

	for (int p = 0; p < a->columns; p++)
		y -= r->x[p] * a->theta[p];
	if (a->slow > 0)
		y -= r->x[GLS_EVAPORATION] * a->aside[GLS_SLOW + r->slow];
	return y;
}

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
static void reweigh(struct gls_row *rows, size_t count, const struct all *a,
		    double tau, double *work)
{
	double *d = work, *l = d + count, *v = l + count, *s = v + count;
	double tau2 = tau * tau;

	factor(rows, count, d, l);
	for (size_t j = 0; j < count; j++) {
		v[j] = residual(&rows[j], a);
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

void tn_gls_robust(struct gls_row *rows, size_t count,
		   const struct gls_prior *prior, struct gls_posterior *out,
		   double *work)
{
	tn_gls_fit(rows, count, prior, out);
	for (int round = 0; round < ROUNDS; round++) {
		struct all a = means(out, prior);

		/* a wild reading must not hide behind the noise that it
		 * makes */
		reweigh(rows, count, &a,
			round < 3 ? fmin(out->tau, 1.5) : out->tau, work);
		tn_gls_fit(rows, count, prior, out);
	}
}
