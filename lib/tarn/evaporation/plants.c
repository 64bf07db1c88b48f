/* SPDX-License-Identifier: MIT */
#include "formulas.h"

/* FAO-56 table 7.  'w' is wind in km/d, as the printed logarithms take it. */
double tarn_pan_to_grass(enum tarn_pan pan, double wind_2m_ms, double rh_mean,
			 double fetch_m)
{
	double u = wind_2m_ms, w = log(86.4 * u);
	double rh = rh_mean, r = log(rh_mean);
	double f = log(fetch_m);

	if (outside(u, TARN_PAN_WIND_MIN, TARN_PAN_WIND_MAX) ||
	    outside(rh, TARN_PAN_RH_MIN, TARN_PAN_RH_MAX) ||
	    outside(fetch_m, TARN_PAN_FETCH_MIN, TARN_PAN_FETCH_MAX))
		return TARN_NAN;
	switch (pan) {
	case TARN_PAN_CLASS_A_GREEN:
		return 0.108 - 0.0286 * u + 0.0422 * f + 0.1434 * r -
		       0.000631 * f * f * r;
	case TARN_PAN_CLASS_A_DRY:
		return 0.61 + 0.00341 * rh - 0.000162 * u * rh -
		       0.00000959 * u * fetch_m + 0.00327 * u * f -
		       0.00289 * u * w - 0.0106 * w * f + 0.00063 * f * f * w;
	case TARN_PAN_COLORADO_GREEN:
		return 0.87 + 0.119 * f - 0.0157 * w * w - 0.0019 * f * f * w +
		       0.013 * w * r - 0.000053 * w * f * rh;
	case TARN_PAN_COLORADO_DRY:
		return 1.145 - 0.080 * u + 0.000903 * u * u * r - 0.0964 * f +
		       0.0031 * u * f + 0.0015 * f * f * r;
	default:
		return TARN_NAN;
	}
}

/* FAO-56 table 12, the section on wetlands and water. */
static const struct tarn_plant plants[] = {
	{ "cattail_frost", 0.30, 1.20, 0.30, 2,
	  "cattails and bulrushes, killed by frost" },
	{ "cattail", 0.60, 1.20, 0.60, 2,
	  "cattails and bulrushes, no frost" },
	{ "short", 1.05, 1.10, 1.10, 0.3,
	  "short vegetation, no frost" },
	{ "reed_water", 1.00, 1.20, 1.00, 2,
	  "reed swamp in standing water, 1 to 3 m high" },
	{ "reed_moist", 0.90, 1.20, 0.70, 2,
	  "reed swamp on moist soil, 1 to 3 m high" },
	{ "water_shallow", TARN_NAN, TARN_WATER_OVER_GRASS,
	  TARN_WATER_OVER_GRASS, TARN_NAN,
	  "open water under 2 m deep, or in a subhumid climate or the "
	  "tropics" },
	{ "water_deep", TARN_NAN, 0.65, 1.25, TARN_NAN,
	  "open clear water over 5 m deep in a temperate climate: warming, "
	  "then cooling; to be used with caution" },
};

const struct tarn_plant *tarn_plants(size_t *count)
{
	*count = sizeof plants / sizeof plants[0];
	return plants;
}

static int bad_height(double m)
{
	return outside(m, TARN_PLANT_HEIGHT_MIN, TARN_PLANT_HEIGHT_MAX);
}

double tarn_plant_factor(double factor, double wind_2m_ms, double rh_min,
			 double height_m)
{
	if (outside(factor, 0, TARN_PLANT_FACTOR_MAX) ||
	    outside(wind_2m_ms, TARN_PLANT_WIND_MIN, TARN_PLANT_WIND_MAX) ||
	    outside(rh_min, TARN_PLANT_RH_MIN, TARN_PLANT_RH_MAX) ||
	    bad_height(height_m))
		return TARN_NAN;
	return factor + (0.04 * (wind_2m_ms - 2) - 0.004 * (rh_min - 45)) *
				pow(height_m / 3, 0.3);
}

double tarn_plant_factor_strip(double dryness, double height_m, double width_m)
{
	if (outside(dryness, 0, 1) || bad_height(height_m) ||
	    outside(width_m, TARN_STRIP_WIDTH_MIN, TARN_STRIP_WIDTH_MAX))
		return TARN_NAN;
	return fmin(1.2 + dryness * height_m / width_m,
		    TARN_PLANT_FACTOR_MAX);
}
