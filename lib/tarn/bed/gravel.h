/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_GRAVEL_H
#define TARN_BED_GRAVEL_H

/* Water through gravel: what a judgement of a bed needs besides
 * formulas/gravel.h. */

#include "tarn/bed.h"

/* Regime at a particle Reynolds number; Re_m is Re / (1 - n). */
enum tarn_flow_regime tn_flow_regime_of(double reynolds,
					double porosity);

#endif
