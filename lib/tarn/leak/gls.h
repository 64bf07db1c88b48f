/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_GLS_H
#define TARN_LEAK_GLS_H

#include "tarn/leak.h"

/*
 * Generalised least squares on rows whose neighbours may share one reading:
 *     y_j = x_j . theta + meter_j m + x_j,evaporation g_slow(j)
 *           + gain_j e_start - e_end + w_j
 * so that the covariance is tridiagonal.  See the model in leak.h.
 *
 * theta is what is asked; the meter's factor m and the slow effects g are
 * asides: columns with a prior each, in the same least squares, of which only
 * the means are kept.
 */

enum gls_column { GLS_EVAPORATION, GLS_RAIN, GLS_LOSS, GLS_EXTRA, GLS_COLUMNS };
enum { GLS_METER, GLS_SLOW, GLS_ASIDES = GLS_SLOW + TARN_SLOW_MOST };

struct gls_row {
	double y_mm;			/* residual at theta = 0 */
	double x[GLS_COLUMNS];
	double meter_mm;		/* fall by the meter's count: not above 0 */
	size_t slow;			/* index of its slow effect */
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
	double meter_mean, meter_precision;
	size_t slow;			/* so many effects, about 0 */
	double slow_precision;
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
	double aside[GLS_GRID][GLS_ASIDES];	/* means */
};

/* Variance of a row, and its covariance with the row before it. */
double tn_gls_row_var(const struct gls_row *row);
double tn_gls_row_cov(const struct gls_row *rows, size_t j);

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
