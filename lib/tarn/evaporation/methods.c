/* SPDX-License-Identifier: MIT */
#include "formulas.h"

double tarn_wind_function(enum tarn_wind_function f, double wind_2m_ms,
			  double area_m2)
{
	double u = wind_2m_ms;

	if (outside(u, 0, TARN_WIND_MAX))
		return TARN_NAN;
	if (f == TARN_WIND_1956)
		return 1.313 + 1.381 * u;
	if (f == TARN_WIND_1948)
		return 2.626 + 1.381 * u;
	if (outside(area_m2, 0.01, 1e11))
		return TARN_NAN;
	switch (f) {
	case TARN_WIND_MCJANNET:
		return (2.36 + 1.67 * u) * pow(area_m2, -0.05);
	case TARN_WIND_HARBECK:
		return 2.909 * u * pow(area_m2, -0.05);
	case TARN_WIND_SWEERS:
		return pow(5e6 / area_m2, 0.05) *
		       (3.80 + 1.57 * tarn_air_wind_profile(u, 2, 10, 2e-4)) /
		       TARN_LATENT_HEAT;
	default:
		return TARN_NAN;
	}
}

double tarn_net_radiation(const struct tarn_conditions *c, double albedo)
{
	if (outside(albedo, 0, 1))
		return TARN_NAN;
	return (1 - albedo) * c->solar_mj - c->longwave_mj;
}

double tarn_evaporation_penman(const struct tarn_conditions *c,
			       double energy_mj, double transfer_mm_kpa)
{
	double slope = c->slope_kpa_c, g = c->psychrometric_kpa_c;
	double deficit = c->saturation_kpa - c->vapour_kpa;

	return (slope * energy_mj / TARN_LATENT_HEAT +
		g * transfer_mm_kpa * deficit) / (slope + g);
}

double tarn_evaporation_reference(const struct tarn_conditions *c,
				  double energy_mj,
				  struct tarn_reference_crop crop)
{
	double slope = c->slope_kpa_c, g = c->psychrometric_kpa_c;
	double u = c->wind_2m_ms;
	double deficit = c->saturation_kpa - c->vapour_kpa;

	/* 0.408 = 1 / 2.45, and 273 K, as printed */
	return (0.408 * slope * energy_mj +
		g * crop.numerator / (c->tmean_c + 273) * u * deficit) /
	       (slope + g * (1 + crop.denominator * u));
}

double tarn_evaporation_grass(const struct tarn_conditions *c)
{
	static const struct tarn_reference_crop grass = { 900, 0.34 };
	struct tarn_conditions windy = *c;

	windy.wind_2m_ms = fmax(c->wind_2m_ms, 0.5);
	return tarn_evaporation_reference(
		&windy, tarn_net_radiation(c, TARN_ALBEDO_GRASS), grass);
}

double tarn_soil_heat_month(double before_c, double after_c)
{
	return 0.07 * (after_c - before_c);
}

/* Part of the energy that evaporates water from a wet surface. */
static double wet_share(const struct tarn_conditions *c)
{
	return c->slope_kpa_c / (c->slope_kpa_c + c->psychrometric_kpa_c);
}

double tarn_evaporation_priestley_taylor(const struct tarn_conditions *c,
					 double energy_mj, double factor)
{
	return factor * wet_share(c) * energy_mj / TARN_LATENT_HEAT;
}

double tarn_evaporation_makkink(const struct tarn_conditions *c,
				double factor, double offset)
{
	return factor * wet_share(c) * c->solar_mj / TARN_LATENT_HEAT + offset;
}

double tarn_evaporation_turc(double tmean_c, double solar_mj, double rh_mean)
{
	double dry = rh_mean < 50 ? 1 + (50 - rh_mean) / 70 : 1;

	if (outside(tmean_c, 0, TARN_AIR_TEMP_MAX) ||
	    outside(solar_mj, 0, 60) || outside(rh_mean, 0, 100))
		return TARN_NAN;
	return 0.013 * (23.88 * solar_mj + 50) * tmean_c / (tmean_c + 15) *
	       dry;
}

double tarn_evaporation_hargreaves(double tmin_c, double tmax_c,
				   double top_mj, double coefficient)
{
	double tmean_c = (tmin_c + tmax_c) / 2;

	if (bad_temp(tmin_c) || bad_temp(tmax_c) || tmin_c > tmax_c ||
	    outside(top_mj, 0, 60) || outside(coefficient, 0.0005, 0.01))
		return TARN_NAN;
	return coefficient * (tmean_c + 17.8) * sqrt(tmax_c - tmin_c) *
	       top_mj / TARN_LATENT_HEAT;
}

double tarn_hargreaves_coefficient(double range_c)
{
	if (outside(range_c, 1, 40))
		return TARN_NAN;
	return 0.0135 * (0.00185 * range_c * range_c - 0.0433 * range_c +
			 0.4023);
}

double tarn_evaporation_mass_transfer(double water_c, double vapour_kpa,
				      double transfer_mm_kpa)
{
	if (bad_vapour(vapour_kpa))
		return TARN_NAN;
	return transfer_mm_kpa * (tarn_air_saturation(water_c) - vapour_kpa);
}
