/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_WINTER_H
#define TARN_FORMULAS_WINTER_H

/*
 * winter: frost and ice.  Part of flow.h, whose first lines give the units and
 * conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Rough estimates; real ice depends on snow, wind and moving water.
 *
 * freezing_degree_days  sum of what each day's mean lies below 0 deg C, less
 *                       what it lies above, never under 0; its highest value
 *                       over the days                             [deg C d]
 *                       A NaN day makes the result NaN.
 * freeze_risk_days      days whose lowest temperature is at or under a
 *                       threshold; NaN days are counted in *missing (may
 *                       be NULL)
 * ice_thickness         factor sqrt(degree days)                  [m]
 *                       factor > 0, usually TARN_ICE_LEAST ..
 *                       TARN_ICE_MOST
 * ice_water             water in it: thickness area 917/1000      [m3]
 */
#define TARN_HARD_FROST_C (-8.0)	/* falls can freeze faster than water
					   is added: common practice, no source */
/* m (deg C d)^-1/2, sheltered or snowed on, and windy and bare: US Army Corps
 * of Engineers EM 1110-2-1612, from memory. */
#define TARN_ICE_LEAST 0.014
#define TARN_ICE_MOST 0.027
TARN_API double tarn_freezing_degree_days(const double *tmean_c, size_t days);
TARN_API size_t tarn_freeze_risk_days(const double *tmin_c, size_t days,
				      double threshold_c, size_t *missing);
TARN_API double tarn_ice_thickness_m(double degree_days, double factor);
TARN_API double tarn_ice_water_m3(double thickness_m, double area_m2);

/* Frost of some years. */
struct tarn_frost {
	double hard_days;	/* a year, at or under TARN_HARD_FROST_C */
	char first[6], last[6];	/* "MM-DD", the earliest first and the latest
				   last frost of a winter; "" without frost */
	double degree_days;	/* freezing, of the coldest spell [deg C d];
				   NaN where a day's mean is not known */
	size_t days;		/* that it is of: with a lowest temperature */
};
TARN_API extern const struct tarn_fields tarn_frost_fields;

/*
 * Frost from daily lowest and highest temperatures; a winter runs from July
 * to June, south of the equator from January.
 *
 *   tmin_c, tmax_c  [deg C], NaN where not known; tmax_c may be NULL.  A day of
 *                   which both are NaN, as one that a weather leaves out,
 *                   ends a spell
 *   days            > 0, the first one first_day
 *   south           1: south of the equator
 */
TARN_API struct tarn_frost tarn_frost(long first_day, const double *tmin_c,
				      const double *tmax_c, size_t days,
				      int south);

#ifdef __cplusplus
}
#endif
#endif
