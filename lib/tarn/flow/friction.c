/* SPDX-License-Identifier: MIT */
#include <float.h>

#include "internal.h"

static int in_range(double reynolds, double relative_roughness, double least)
{
	return reynolds >= least && reynolds < HUGE_VAL &&
	       relative_roughness >= 0 &&
	       relative_roughness <= TARN_ROUGHNESS_MAX;
}

double tarn_friction_haaland(double reynolds, double relative_roughness)
{
	double s;

	if (!in_range(reynolds, relative_roughness, TARN_REYNOLDS_LAMINAR))
		return TARN_NAN;
	s = -1.8 * log10(pow(relative_roughness / 3.7, 1.11) + 6.9 / reynolds);
	return 1 / (s * s);
}

double tarn_friction_swamee_jain(double reynolds, double relative_roughness)
{
	double s;

	if (!in_range(reynolds, relative_roughness, TARN_REYNOLDS_LAMINAR))
		return TARN_NAN;
	s = log10(relative_roughness / 3.7 + 5.74 / pow(reynolds, 0.9));
	return 0.25 / (s * s);
}

double tarn_friction_churchill(double reynolds, double relative_roughness)
{
	double a, b;

	if (!in_range(reynolds, relative_roughness, DBL_MIN))
		return TARN_NAN;
	a = pow(2.457 * log(1 / (pow(7 / reynolds, 0.9) +
				 0.27 * relative_roughness)), 16);
	b = pow(37530 / reynolds, 16);
	return 8 * pow(pow(8 / reynolds, 12) + pow(a + b, -1.5), 1.0 / 12);
}

/*
 * With x = 1/sqrt(f): x + 2 log10(a + b x) = 0, which rises and bends down,
 * so that Newton's steps from Haaland's value close in without fail.
 */
double tarn_friction_colebrook(double reynolds, double relative_roughness)
{
	const double two_over_ln10 = 0.86858896380650365530;
	double a = relative_roughness / 3.7, b = 2.51 / reynolds;
	double x = 1 / sqrt(tarn_friction_haaland(reynolds,
						  relative_roughness));

	for (int i = 0; i < 20; i++) {
		double inside = a + b * x;
		double step = (x + two_over_ln10 * log(inside)) /
			      (1 + two_over_ln10 * b / inside);

		x -= step;
		if (!(fabs(step) > 2 * DBL_EPSILON * x))
			break;
	}
	return 1 / (x * x);
}

double tarn_friction_factor(double reynolds, double relative_roughness)
{
	const double r0 = TARN_REYNOLDS_LAMINAR, r1 = TARN_REYNOLDS_TURBULENT;
	double f0, f1;

	if (!in_range(reynolds, relative_roughness, DBL_MIN))
		return TARN_NAN;
	if (reynolds >= r1)
		return tarn_friction_colebrook(reynolds, relative_roughness);
	if (reynolds < r0)
		return 64 / reynolds;
	f0 = 64 / r0;
	f1 = tarn_friction_colebrook(r1, relative_roughness);
	return f0 * pow(f1 / f0, log(reynolds / r0) / log(r1 / r0));
}
