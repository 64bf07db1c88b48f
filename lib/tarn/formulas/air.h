/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_AIR_H
#define TARN_FORMULAS_AIR_H

/*
 * air: moist air and the wind in it.  Part of evaporation.h, whose first lines
 * give the units, the ranges and the names of sources.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Latent heat of vaporisation [MJ/kg]: FAO-56 eq. 20, its value at 20 deg C.
 * A depth of 1 mm is 2.45 MJ m-2. */
#define TARN_LATENT_HEAT 2.45

#define TARN_AIR_TEMP_MIN (-90.0)
#define TARN_AIR_TEMP_MAX 70.0
#define TARN_ELEVATION_MIN (-430.0)	/* the shore of the Dead Sea */
#define TARN_ELEVATION_MAX 6000.0
#define TARN_WIND_MAX 100.0
#define TARN_WIND_HEIGHT_MIN 0.5
#define TARN_WIND_HEIGHT_MAX 100.0

/*
 * Air pressure at an elevation, for air of 20 deg C at sea level.
 *
 *   elevation_m                                    [m]  -430 .. 6000
 *   returns                                        [kPa]
 * Source: FAO-56 eq. 7.
 */
TARN_API double tarn_air_pressure(double elevation_m);

/*
 * Saturation vapour pressure over liquid water, also below freezing.
 *
 *   t_c                                            [deg C]  -90 .. 70
 *   returns                                        [kPa]
 * Formula:  0.6108 exp(17.27 t / (t + 237.3))
 * Source:   FAO-56 eq. 11; the range is ours.
 * Accuracy: within 0.14 % of the IAPWS saturation line from 0 to 60 deg C.
 */
TARN_API double tarn_air_saturation(double t_c);

/* Mean saturation vapour pressure of a day, from its extremes, FAO-56
 * eq. 12 [kPa].  Higher than that of the mean temperature.  Both
 * -90 .. 70 deg C. */
TARN_API double tarn_air_mean_saturation(double tmin_c, double tmax_c);

/* Slope of the saturation curve, FAO-56 eq. 13 [kPa/C].
 * -90 .. 70 deg C. */
TARN_API double tarn_air_slope(double t_c);

/*
 * Psychrometric constant.
 *
 *   pressure_kpa                                   [kPa]  40 .. 110
 *   returns                                        [kPa/C]
 * Formula: 0.665e-3 P, FAO-56 eq. 8; the latent heat in it is 2.45.
 */
TARN_API double tarn_air_psychrometric(double pressure_kpa);

/* The same unrounded and for another latent heat: 1.013e-3 P / (0.622
 * latent), FAO-56 eq. 8.  latent_mj_kg [MJ/kg]  2 .. 3 */
TARN_API double tarn_air_psychrometric_of(double pressure_kpa,
					  double latent_mj_kg);

/* Latent heat of vaporisation at a temperature [MJ/kg]: 2.501 - 0.002361 t,
 * FAO-56 annex 3, eq. 3-1.  -90 .. 70 deg C. */
TARN_API double tarn_air_latent_heat(double t_c);

/*
 * Vapour pressure of the air from what was measured:
 *
 *   rh_range        lowest and highest humidity     FAO-56 eq. 17, best
 *   rh_max          highest humidity                       eq. 18
 *   rh_mean         mean humidity                          eq. 19, least good
 *   psychrometer    dry and wet bulb                       eq. 15
 *
 *   rh_..                                          [%]  0 .. 100
 *   returns                                        [kPa]
 * A dew point needs no function of its own: the vapour pressure is
 * tarn_air_saturation(dew point), eq. 14.
 *
 * coefficient [1/C]: 0.000662 ventilated, 0.0008 naturally ventilated,
 * 0.0012 indoors, eq. 16.
 */
TARN_API double tarn_air_vapour_rh_range(double tmin_c, double tmax_c,
					 double rh_min, double rh_max);
TARN_API double tarn_air_vapour_rh_max(double tmin_c, double rh_max);
TARN_API double tarn_air_vapour_rh_mean(double tmin_c, double tmax_c,
					double rh_mean);
TARN_API double tarn_air_vapour_psychrometer(double dry_c, double wet_c,
					     double pressure_kpa,
					     double coefficient);

/*
 * Dew point from vapour pressure.
 *
 *   vapour_kpa                                     [kPa]  0.001 .. 20
 *   returns                                        [deg C]
 * Formula:  (116.9 + 237.3 ln e) / (16.78 - ln e), S2.3.
 * Accuracy: inverts tarn_air_saturation within 0.02 C from -60 to 50 deg C.
 */
TARN_API double tarn_air_dewpoint(double vapour_kpa);

/*
 * Wet-bulb temperature, by one straight line from the dew point.
 *
 *   t_c                                            [deg C]  -90 .. 70
 *   vapour_kpa                                     [kPa]  0.001 .. 20
 *   returns                                        [deg C]
 * Source:   S2.2.
 * Accuracy: too high, by up to 0.5 C at 50 % humidity and 2.5 C at 20 %.
 *           It serves as a start for the water's equilibrium temperature,
 *           where that does no harm.
 */
TARN_API double tarn_air_wet_bulb(double t_c, double vapour_kpa);

/*
 * Wind at 2 m from wind at another height, over short grass.
 *
 *   wind_ms                                        [m/s]  0 .. 100
 *   height_m                                       [m]    0.5 .. 100
 *   returns                                        [m/s]
 * Source: FAO-56 eq. 47.
 */
TARN_API double tarn_air_wind_at_2m(double wind_ms, double height_m);

/*
 * Wind at a height from wind at another, by the logarithmic profile.
 *
 *   from_m, to_m                                   [m]  above roughness
 *   roughness_m      0.0002 water, 0.001 pan (S4.4) [m]  1e-6 .. 2
 */
TARN_API double tarn_air_wind_profile(double wind_ms, double from_m,
				      double to_m, double roughness_m);

#ifdef __cplusplus
}
#endif
#endif
