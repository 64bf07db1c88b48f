/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_PAN_H
#define TARN_FORMULAS_PAN_H

/*
 * pan: from a pan to a pond or to grass.  Part of evaporation.h, whose first
 * lines give the units, the ranges and the names of sources.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * A pan is brought to a pond OR to grass by a coefficient, never by both.
 *
 * To a pond: 0.70, Class A pan, for years; single months 0.6 to 0.8 (Kohler,
 * Nordenson and Fox 1955, US Weather Bureau Research Paper 38; from memory).
 */
#define TARN_PAN_TO_POND 0.70

/* To grass: FAO-56 table 7, by pan and by what lies upwind of it. */
enum tarn_pan {
	TARN_PAN_CLASS_A_GREEN,
	TARN_PAN_CLASS_A_DRY,
	TARN_PAN_COLORADO_GREEN,
	TARN_PAN_COLORADO_DRY,
	TARN_PANS
};

#define TARN_PAN_WIND_MIN 1.0
#define TARN_PAN_WIND_MAX 8.0
#define TARN_PAN_RH_MIN 30.0
#define TARN_PAN_RH_MAX 84.0
#define TARN_PAN_FETCH_MIN 1.0
#define TARN_PAN_FETCH_MAX 1000.0

/*
 *   wind_2m_ms                                      [m/s]  1 .. 8
 *   rh_mean                                         [%]    30 .. 84
 *   fetch_m    length of that upwind ground         [m]    1 .. 1000
 *   returns    grass reference / pan                [-]
 */
TARN_API double tarn_pan_to_grass(enum tarn_pan pan, double wind_2m_ms,
				  double rh_mean, double fetch_m);

#ifdef __cplusplus
}
#endif
#endif
