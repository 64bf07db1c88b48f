/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/gls.h"

/* Estimates: percentiles of a sum of normals. */

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
