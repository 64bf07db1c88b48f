/* SPDX-License-Identifier: MIT */
#include "internal.h"

double tarn_freezing_degree_days(const double *tmean_c, size_t days)
{
	double sum = 0, most = 0;

	for (size_t i = 0; i < days; i++) {
		if (isnan(tmean_c[i]))
			return TARN_NAN;
		sum = fmax(sum - tmean_c[i], 0);
		most = fmax(most, sum);
	}
	return most;
}

size_t tarn_freeze_risk_days(const double *tmin_c, size_t days,
			     double threshold_c, size_t *missing)
{
	size_t risky = 0, unknown = 0;

	for (size_t i = 0; i < days; i++) {
		if (isnan(tmin_c[i]))
			unknown++;
		else if (tmin_c[i] <= threshold_c)
			risky++;
	}
	if (missing)
		*missing = unknown;
	return risky;
}

double tarn_ice_thickness_m(double degree_days, double factor)
{
	if (!(degree_days >= 0 && factor > 0))
		return TARN_NAN;
	return factor * sqrt(degree_days);
}

double tarn_ice_water_m3(double thickness_m, double area_m2)
{
	if (!(thickness_m >= 0 && area_m2 >= 0))
		return TARN_NAN;
	return thickness_m * area_m2 * 917 / 1000;
}
