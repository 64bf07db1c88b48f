/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_H
#define TARN_BED_H

/*
 * bed: how big a planted gravel bed must be, and what it does.
 *
 * One header a topic, included below in the order in which a bed is sized.
 *
 * Two warnings that the results repeat as flags.  First-order removal rates
 * come from sewage and fish-farm beds, most of them loaded at 0.02 to 15 m/d;
 * garden beds are often run at 50 to 120 m/d, where nobody measured.  And
 * rates grow with the loading, so one taken from a fast bed errs to the
 * unsafe side in a slow one.
 *
 * Units: m, m2, m3, m3/s, m/s, deg C, mg/L; surface loading and hydraulic
 * conductivity in m/d; areal rates in m/yr (365 days); loads in g/d.
 *
 * Structs are made by their _default() and then changed: they may grow.
 * Water's density and viscosity are given by the caller; the defaults are
 * those at 20 deg C, 998.2 kg/m3 and 1.0016e-3 Pa s (IAPWS).
 */

#include "tarn/formulas/flags.h"
#include "tarn/formulas/loading.h"
#include "tarn/formulas/treatment.h"
#include "tarn/formulas/loop.h"
#include "tarn/formulas/waste.h"
#include "tarn/formulas/oxygen.h"
#include "tarn/formulas/gravel.h"
#include "tarn/formulas/lip.h"
#include "tarn/formulas/layers.h"
#include "tarn/formulas/yard.h"
#include "tarn/formulas/sizing.h"
#include "tarn/formulas/tradeoff.h"
#include "tarn/formulas/chance.h"

#endif
