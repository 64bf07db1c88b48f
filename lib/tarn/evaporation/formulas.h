/* SPDX-License-Identifier: MIT */
#ifndef TARN_EVAPORATION_FORMULAS_H
#define TARN_EVAPORATION_FORMULAS_H

/*
 * The formulas that a run evaluates every day, without checks of range.
 * The public functions add the checks; nothing is written twice.
 */

#include "tarn/evaporation.h"

static inline double raw_saturation(double t_c)
{
	return 0.6108 * exp(17.27 * t_c / (t_c + 237.3));
}

/* Slope of the saturation curve where its value is known. */
static inline double raw_slope(double saturation_kpa, double t_c)
{
	double t = t_c + 237.3;

	return 4098 * saturation_kpa / (t * t);
}

static inline double raw_psychrometric(double pressure_kpa)
{
	return 0.665e-3 * pressure_kpa;
}

static inline double raw_wind_factor(double height_m)
{
	return 4.87 / log(67.8 * height_m - 5.42);
}

/* Stefan and Boltzmann, MJ m-2 d-1 K-4: FAO-56 eq. 39. */
#define SIGMA 4.903e-9

static inline double raw_emission(double t_c)
{
	double k = t_c + 273.16, k2 = k * k;

	return SIGMA * k2 * k2;
}

static inline double raw_net_longwave(double emission_mj, double vapour_kpa,
				      double clearness)
{
	double r = fmin(fmax(clearness, 0.3), 1);

	return emission_mj * (0.34 - 0.14 * sqrt(vapour_kpa)) *
	       (1.35 * r - 0.35);
}

static inline int outside(double x, double lo, double hi)
{
	return !(x >= lo && x <= hi);	/* true for NaN */
}

static inline double or_else(double given, double otherwise)
{
	return isnan(given) ? otherwise : given;
}

static inline int bad_temp(double t_c)
{
	return outside(t_c, TARN_AIR_TEMP_MIN, TARN_AIR_TEMP_MAX);
}

static inline int bad_vapour(double kpa)
{
	return outside(kpa, 0, 20);
}

#endif
