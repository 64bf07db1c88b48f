/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_GRAVEL_H
#define TARN_BED_GRAVEL_H

/* Water through gravel: what a judgement of a bed needs besides
 * formulas/gravel.h. */

#include "tarn/bed.h"

/* Regime at a particle Reynolds number; Re_m is Re / (1 - n). */
enum tarn_flow_regime tn_flow_regime_of(double reynolds,
					double porosity);

/*
 * Rise of water [m] at the far side of an upflow bed over that at its outlet:
 * what comes up must run sideways through the gravel that is under the lip.
 * With v = q x / y at x from the far side, the gradient a v + b v^2 adds up to
 * a q L^2 / (2 y) + b q^2 L^3 / (3 y^2).  More than the gravel stands above
 * the lip, and water stands on the gravel.  Derived; on the safe side, since
 * deeper layers and the chamber help.
 *
 *   length_m  way of the water to the lip     depth_m  wet gravel it takes
 */
double tn_lateral_rise(struct tarn_resistance r, double loading_m_d,
		       double length_m, double depth_m);

#endif
