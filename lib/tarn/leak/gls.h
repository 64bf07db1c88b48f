/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_GLS_H
#define TARN_LEAK_GLS_H

#include "tarn/leak.h"

/*
 * Generalised least squares on rows whose neighbours may share one reading:
 *     y_j = x_j . theta + g_j e_start - e_end + w_j
 * so that the covariance is tridiagonal.  See the model in leak.h.
 */

enum gls_column { GLS_EVAPORATION, GLS_RAIN, GLS_LOSS, GLS_EXTRA, GLS_COLUMNS };

struct gls_row {
	double y_mm;			/* residual at theta = 0 */
	double x[GLS_COLUMNS];
	double g;
	double start_var, end_var;	/* of the readings, mm2 */
	double w_var;			/* of what the model does not know */
	size_t start, end;		/* readings */
	/* weights of the robust iteration: 1, or near 1/100 where wild */
	double w_weight, start_weight, end_weight;
	double row_wild, end_wild;	/* chance that w, e_end is wild */
	double start_wild;
};

struct gls_prior {
	double mean[GLS_COLUMNS];
	double precision[GLS_COLUMNS];	/* 0: flat */
	int columns;			/* the first so many are fitted */
};

#define GLS_GRID 41

/* Normal for each tau; their sum. */
struct gls_posterior {
	int columns;
	double log_evidence;	/* up to a constant of the data and weights */
	double tau;		/* posterior mean */
	double weight[GLS_GRID];
	double mean[GLS_GRID][GLS_COLUMNS];
	double cov[GLS_GRID][GLS_COLUMNS][GLS_COLUMNS];
};

/* Fits with the rows' present weights. */
void tn_gls_fit(const struct gls_row *rows, size_t count,
		const struct gls_prior *prior, struct gls_posterior *out);

/*
 * Fits and finds the weights.
 *   work   4 x count doubles
 */
void tn_gls_robust(struct gls_row *rows, size_t count,
		   const struct gls_prior *prior, struct gls_posterior *out,
		   double *work);

/* Estimate of c . theta. */
struct tarn_estimate tn_gls_estimate(const struct gls_posterior *p,
				     const double c[GLS_COLUMNS]);
/* Chance that c . theta > 0. */
double tn_gls_above_zero(const struct gls_posterior *p,
			 const double c[GLS_COLUMNS]);

#define GLS_Z95 1.6448536269514722	/* normal quantiles */
#define GLS_Z90 1.2815515655446004

#endif
