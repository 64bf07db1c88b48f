/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_WATER_H
#define TARN_FORMULAS_WATER_H

/*
 * water: fresh water, and the suction that a pump has.  Part of flow.h, whose
 * first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TARN_GRAVITY 9.80665	/* m/s2, standard (CGPM 1901) */

#define TARN_WATER_TEMP_MIN 0.0
#define TARN_WATER_TEMP_MAX 100.0

/*
 * Liquid fresh water at 101.325 kPa, 0 .. 100 deg C.
 *
 *   density_kgm3         Kell (1975), J. Chem. Eng. Data 20:97, eq. 16
 *   viscosity_pas        IAPWS SR6-08(2011), liquid water at 0.1 MPa, eq. 7
 *   kinematic_m2s        viscosity / density
 *   vapour_pressure_kpa  Wagner & Pruss (1993), J. Phys. Chem. Ref. Data
 *                        22:783, eq. 1 (saturation line)
 *
 * Accuracy: against IAPWS-95 and the IAPWS 2008 viscosity, 0.5 .. 99 deg C:
 * density within 0.015 kg/m3 (0.004 below 60 deg C), viscosity 0.003 %,
 * vapour pressure 0.01 %.  All NaN outside the range.
 */
struct tarn_water {
	double density_kgm3;		/* [kg/m3] */
	double viscosity_pas;		/* dynamic viscosity    [Pa s] */
	double kinematic_m2s;		/* kinematic viscosity  [m2/s] */
	double vapour_pressure_kpa;	/* [kPa], absolute */
};
TARN_API struct tarn_water tarn_water(double temp_c);
TARN_API extern const struct tarn_fields tarn_water_fields;

/*
 * Net positive suction head that a pump above its water has available.
 *
 *   pressure_kpa  air pressure            [kPa]
 *   temp_c        water                   [deg C]  0 .. 100
 *   lift_m        pump above the surface  [m]      negative: below it
 *   loss_m        loss in the suction     [m]      >= 0
 *   returns       NPSH available          [m]      may be negative
 */
TARN_API double tarn_npsh_available_m(double pressure_kpa, double temp_c,
				      double lift_m, double loss_m);

#ifdef __cplusplus
}
#endif
#endif
