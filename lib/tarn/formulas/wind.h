/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_WIND_H
#define TARN_FORMULAS_WIND_H

/*
 * wind: how well the wind carries vapour away.  Part of evaporation.h, whose
 * first lines give the units, the ranges and the names of sources.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Evaporation for each kPa that the air is short of saturation: how well the
 * wind carries vapour away.
 */
enum tarn_wind_function {
	TARN_WIND_1956,		/* 1.313 + 1.381 u2: Penman (1956), S4.3 */
	TARN_WIND_1948,		/* 2.626 + 1.381 u2: Penman (1948), S4.11 */
	TARN_WIND_MCJANNET,	/* (2.36 + 1.67 u2) A^-0.05: McJannet, Webster
				   and Cook (2012), quoted at second hand */
	TARN_WIND_HARBECK,	/* 2.909 A^-0.05 u2: Harbeck (1962), USGS
				   Professional Paper 272-E; this form from
				   memory.  Fitted to 1 .. 30,000 acres */
	TARN_WIND_SWEERS,	/* (5e6/A)^0.05 (3.80 + 1.57 u10) / 2.45:
				   Sweers (1976) as S11 gives it, u10 by the
				   profile over water */
	TARN_WIND_FUNCTIONS
};

/*
 *   wind_2m_ms                                      [m/s]  0 .. 100
 *   area_m2   water surface; the Penman functions
 *             do not look at it                     [m2]  0.01 .. 1e11
 *   returns                                         [mm d-1 kPa-1]
 * Source: as said beside each.
 */
TARN_API double tarn_wind_function(enum tarn_wind_function f,
				   double wind_2m_ms, double area_m2);

#ifdef __cplusplus
}
#endif
#endif
