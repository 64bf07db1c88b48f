/* SPDX-License-Identifier: MIT */
#include "formulas.h"

double tarn_air_pressure(double elevation_m)
{
	if (outside(elevation_m, TARN_ELEVATION_MIN, TARN_ELEVATION_MAX))
		return TARN_NAN;
	return 101.3 * pow((293 - 0.0065 * elevation_m) / 293, 5.26);
}

double tarn_air_saturation(double t_c)
{
	return bad_temp(t_c) ? TARN_NAN : raw_saturation(t_c);
}

double tarn_air_mean_saturation(double tmin_c, double tmax_c)
{
	return (tarn_air_saturation(tmin_c) + tarn_air_saturation(tmax_c)) / 2;
}

double tarn_air_slope(double t_c)
{
	return raw_slope(tarn_air_saturation(t_c), t_c);
}

static int bad_pressure(double kpa)
{
	return outside(kpa, 40, 110);
}

double tarn_air_psychrometric(double pressure_kpa)
{
	return bad_pressure(pressure_kpa) ? TARN_NAN
					  : raw_psychrometric(pressure_kpa);
}

double tarn_air_psychrometric_of(double pressure_kpa, double latent_mj_kg)
{
	if (bad_pressure(pressure_kpa) || outside(latent_mj_kg, 2, 3))
		return TARN_NAN;
	return 1.013e-3 * pressure_kpa / (0.622 * latent_mj_kg);
}

double tarn_air_latent_heat(double t_c)
{
	return bad_temp(t_c) ? TARN_NAN : 2.501 - 2.361e-3 * t_c;
}

static int bad_humidity(double percent)
{
	return outside(percent, 0, 100);
}

double tarn_air_vapour_rh_range(double tmin_c, double tmax_c, double rh_min,
				double rh_max)
{
	if (bad_humidity(rh_min) || bad_humidity(rh_max))
		return TARN_NAN;
	return (tarn_air_saturation(tmin_c) * rh_max +
		tarn_air_saturation(tmax_c) * rh_min) / 200;
}

double tarn_air_vapour_rh_max(double tmin_c, double rh_max)
{
	if (bad_humidity(rh_max))
		return TARN_NAN;
	return tarn_air_saturation(tmin_c) * rh_max / 100;
}

double tarn_air_vapour_rh_mean(double tmin_c, double tmax_c, double rh_mean)
{
	if (bad_humidity(rh_mean))
		return TARN_NAN;
	return tarn_air_mean_saturation(tmin_c, tmax_c) * rh_mean / 100;
}

double tarn_air_vapour_psychrometer(double dry_c, double wet_c,
				    double pressure_kpa, double coefficient)
{
	if (bad_temp(dry_c) || bad_pressure(pressure_kpa) || wet_c > dry_c ||
	    outside(coefficient, 0.0005, 0.002))
		return TARN_NAN;
	return tarn_air_saturation(wet_c) -
	       coefficient * pressure_kpa * (dry_c - wet_c);
}

double tarn_air_dewpoint(double vapour_kpa)
{
	double ln;

	if (outside(vapour_kpa, 0.001, 20))
		return TARN_NAN;
	ln = log(vapour_kpa);
	return (116.9 + 237.3 * ln) / (16.78 - ln);
}

/* Where the line through the dew point, with the saturation curve's slope
 * there, meets the psychrometer's line at 100 kPa. */
double tarn_air_wet_bulb(double t_c, double vapour_kpa)
{
	const double line = 0.00066 * 100;
	double dew = tarn_air_dewpoint(vapour_kpa);
	double slope = raw_slope(vapour_kpa, dew);

	if (bad_temp(t_c))
		return TARN_NAN;
	return (line * t_c + slope * dew) / (line + slope);
}

static int bad_wind(double ms)
{
	return outside(ms, 0, TARN_WIND_MAX);
}

double tarn_air_wind_at_2m(double wind_ms, double height_m)
{
	if (bad_wind(wind_ms) ||
	    outside(height_m, TARN_WIND_HEIGHT_MIN, TARN_WIND_HEIGHT_MAX))
		return TARN_NAN;
	return wind_ms * raw_wind_factor(height_m);
}

double tarn_air_wind_profile(double wind_ms, double from_m, double to_m,
			     double roughness_m)
{
	if (bad_wind(wind_ms) || outside(roughness_m, 1e-6, 2) ||
	    !(from_m > roughness_m && to_m > roughness_m))
		return TARN_NAN;
	return wind_ms * log(to_m / roughness_m) / log(from_m / roughness_m);
}
