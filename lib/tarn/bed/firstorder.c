/* SPDX-License-Identifier: MIT */
/* The formulas of first-order removal. */
#include "tarn/bed.h"
#include "constants.h"
#include "firstorder.h"

double tn_treatment_remaining(double k_over_q, double tanks)
{
	if (!(k_over_q >= 0) || !(tanks >= 1))
		return TARN_NAN;
	if (isinf(tanks))
		return exp(-k_over_q);
	/* log1p keeps the plug-flow limit exact for many tanks */
	return exp(-tanks * log1p(k_over_q / tanks));
}

double tn_treatment_effort(double remaining, double tanks)
{
	if (!(remaining > 0 && remaining <= 1) || !(tanks >= 1))
		return TARN_NAN;
	if (isinf(tanks))
		return -log(remaining);
	return tanks * expm1(-log(remaining) / tanks);
}

double tn_rate_at(double k20, double theta, double temp_c)
{
	if (!(k20 >= 0) || !(theta > 0) || !(temp_c >= 0 && temp_c <= 40))
		return TARN_NAN;
	return k20 * pow(theta, temp_c - 20);
}

double tarn_areal_rate(double k_per_day, double depth_m, double porosity)
{
	if (!(k_per_day >= 0) || !(depth_m > 0) ||
	    !(porosity > 0 && porosity <= 1))
		return TARN_NAN;
	return k_per_day * depth_m * porosity * YEAR;
}

double tarn_implied_rate(double removal, double loading_m_d)
{
	if (!(removal >= 0 && removal < 1) || !(loading_m_d > 0))
		return TARN_NAN;
	return -loading_m_d * log1p(-removal) * YEAR;
}

double tarn_dispersion_tanks_in_series(double dispersion)
{
	if (!(dispersion > 0))
		return TARN_NAN;
	return 1 / (2 * dispersion +
		    2 * dispersion * dispersion * expm1(-1 / dispersion));
}

double tarn_reed_bod_rate(double porosity)
{
	if (!(porosity > 0 && porosity < 1))
		return TARN_NAN;
	return 1.839 * 37.31 * pow(porosity, 4.172);
}

double tarn_reed_nitrification_rate(double root_share)
{
	if (!(root_share >= 0 && root_share <= 1))
		return TARN_NAN;
	return 0.01854 + 0.3922 * pow(root_share, 2.6077);
}

double tarn_reed_solids_ratio(double loading_m_d)
{
	return loading_m_d > 0 ? 0.1058 + 0.0011 * loading_m_d * 100
			       : TARN_NAN;
}

double tarn_reed_phosphorus_ratio(double loading_m_d)
{
	return loading_m_d > 0 ? exp(-2.73 / (loading_m_d * 100)) : TARN_NAN;
}
