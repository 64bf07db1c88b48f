/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_SUN_H
#define TARN_FORMULAS_SUN_H

/*
 * sun: where the sun is, and what radiation arrives.  Part of evaporation.h,
 * whose first lines give the units, the ranges and the names of sources.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TARN_DEGREE 0.017453292519943295	/* [radian] */

/*
 * Latitudes are degrees, north positive, -90 .. 90; days of the year 1 ..
 * 366.  Polar night and polar day are answered: no sun, or 24 h of it.
 *
 * Accuracy: against the sun's true position over whole years (low-precision
 * formula of the Astronomical Almanac), up to 60 degrees of latitude:
 * declination within 1.2 degrees, top_of_atmosphere within 1.3 MJ m-2 d-1,
 * daylight within 0.3 h, each at its worst at the end of September.
 * Refraction and the sun's disc, which add 7 minutes and more to a day, are
 * left out.
 */

/* (Mean distance of the sun / distance)^2, FAO-56 eq. 23 [-]. */
TARN_API double tarn_sun_inverse_distance(double day_of_year);

/* Declination of the sun, FAO-56 eq. 24 [radian]. */
TARN_API double tarn_sun_declination(double day_of_year);

/* Hour angle of sunset, FAO-56 eq. 25 [radian]; 0 in polar night, pi in
 * polar day. */
TARN_API double tarn_sun_sunset_angle(double latitude_deg, double day_of_year);

/* Radiation on a level plane above the air, FAO-56 eq. 21 [MJ m-2 d-1]. */
TARN_API double tarn_sun_top_of_atmosphere(double latitude_deg,
					   double day_of_year);

/* The same between two hour angles [radian], FAO-56 eq. 28 [MJ m-2].  The
 * part of the interval between sunset and sunrise counts as nothing. */
TARN_API double tarn_sun_top_between(double latitude_deg, double day_of_year,
				     double from, double to);

/*
 * Hour angle of the sun at a clock hour, FAO-56 eq. 31 to 33 [radian].
 *
 *   clock_h       standard time, middle of the period         [h]  0 .. 24
 *   meridian_deg  longitude of the time zone's meridian, west positive
 *   longitude_deg longitude of the place, west positive        0 .. 360
 */
TARN_API double tarn_sun_hour_angle(double clock_h, double day_of_year,
				    double meridian_deg,
				    double longitude_deg);

/* Hours between sunrise and sunset, FAO-56 eq. 34 [h]. */
TARN_API double tarn_sun_daylight(double latitude_deg, double day_of_year);

/* Hours in which any of the sun's disc is seen, by the refraction of usual air:
 * as tarn_sun_daylight, but to the sun's centre at -50 minutes of arc (34 of
 * refraction, 16 of the disc; Meeus 1998, Astronomical Algorithms, chapter 15;
 * from memory) [h], 0 .. 24. */
TARN_API double tarn_sun_seen(double latitude_deg, double day_of_year);

/*
 * Most hours of sunshine beyond tarn_sun_seen, and most radiation beyond
 * tarn_sun_clear_sky (as a share), that are no matter of unit or date.  Hours:
 * 0.3 for the formulas of the sun's place (see above) and 0.1 that a recorder
 * of sunshine may err (WMO-No. 8, 2008, part I, chapter 8; from memory).
 * Radiation: daily totals of a pyranometer of moderate quality, 10 % (WMO-No. 8,
 * part I, chapter 7, as a maker's manual quotes it).
 */
#define TARN_SUNSHINE_OVER_H 0.4
#define TARN_SOLAR_OVER 0.1

/* Radiation of a cloudless day, FAO-56 eq. 37: (0.75 + 2e-5 z) top
 * [MJ m-2 d-1]. */
TARN_API double tarn_sun_clear_sky(double top_mj, double elevation_m);

/*
 * Global radiation from sunshine, FAO-56 eq. 35: (a + b share) top.
 *
 *   share   hours of sunshine / hours of daylight   [-]  0 .. 1
 *   a, b    0.25 and 0.50 unless calibrated         [-]  a + b <= 1
 */
TARN_API double tarn_sun_from_sunshine(double top_mj, double share, double a,
				       double b);

/*
 * Global radiation from the range of temperature, FAO-56 eq. 50.
 *
 *   factor  0.16 inland, 0.19 at a coast            [-]  0.1 .. 0.3
 * Accuracy: good for sums of a week or longer, not for a day.  The caller
 * limits it to the clear sky.
 */
TARN_API double tarn_sun_from_range(double top_mj, double tmin_c,
				    double tmax_c, double factor);

/* Radiation of a black body, source FAO-56 table 2.8: 4.903e-9 (t + 273.16)^4
 * [MJ m-2 d-1].  t_c [deg C]  -90 .. 70 */
TARN_API double tarn_sun_emission(double t_c);

/*
 * Net longwave radiation that the ground loses to the sky.
 *
 *   emission_mj  black body at air temperature: the mean of
 *                those at tmin and tmax               [MJ m-2 d-1]
 *   vapour_kpa                                        [kPa]  0 .. 20
 *   clearness    global / clear-sky radiation, held within 0.3 and 1
 *   returns                                           [MJ m-2 d-1]
 * Source: FAO-56 eq. 39.  The lower limit is that of ASCE-EWRI (2005), The
 *         ASCE standardized reference evapotranspiration equation: without
 *         it a dark day would gain heat from a sky colder than the air.
 */
TARN_API double tarn_sun_net_longwave(double emission_mj, double vapour_kpa,
				      double clearness);

#ifdef __cplusplus
}
#endif
#endif
