/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_PLANTS_H
#define TARN_FORMULAS_PLANTS_H

/*
 * plants: plants that stand in water.  Part of evaporation.h, whose first
 * lines give the units, the ranges and the names of sources.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Plant factors on the grass reference, FAO-56 table 12. */
struct tarn_plant {
	const char *name;	/* "cattail_frost" */
	double start, mid, end;	/* early, full and late season [-] */
	double height_m;	/* of the grown stand; NaN: water */
	const char *meaning;
};
TARN_API extern const struct tarn_fields tarn_plant_fields;
TARN_API const struct tarn_plant *tarn_plants(size_t *count);

#define TARN_PLANT_FACTOR_MAX 2.5
#define TARN_PLANT_WIND_MIN 1.0
#define TARN_PLANT_WIND_MAX 6.0
#define TARN_PLANT_RH_MIN 20.0
#define TARN_PLANT_RH_MAX 80.0
#define TARN_PLANT_HEIGHT_MIN 0.1
#define TARN_PLANT_HEIGHT_MAX 10.0

/*
 * A factor of that table (made for 45 % and 2 m/s) in another climate.
 *
 *   factor                                          [-]    0 .. 2.5
 *   wind_2m_ms   mean of the season                 [m/s]  1 .. 6
 *   rh_min       mean of the daily lowest           [%]    20 .. 80
 *   height_m     of the plants                      [m]    0.1 .. 10
 *   returns                                         [-]
 * Source: FAO-56 eq. 62.
 */
TARN_API double tarn_plant_factor(double factor, double wind_2m_ms,
				  double rh_min, double height_m);

/*
 * A narrow strip of plants in dry surroundings, which blow through it from
 * the side.
 *
 *   dryness      of the surroundings: 1 bare and dry, 0 wet  [-]  0 .. 1
 *   height_m     of the plants                      [m]  0.1 .. 10
 *   width_m      of the strip, along the wind       [m]  0.1 .. 1000
 *   returns      at most 2.5                        [-]
 * Source: FAO-56 eq. 105.
 */
#define TARN_STRIP_WIDTH_MIN 0.1
#define TARN_STRIP_WIDTH_MAX 1000.0
TARN_API double tarn_plant_factor_strip(double dryness, double height_m,
					double width_m);

#ifdef __cplusplus
}
#endif
#endif
