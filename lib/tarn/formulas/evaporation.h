/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_EVAPORATION_H
#define TARN_FORMULAS_EVAPORATION_H

/*
 * evaporation: one formula for each method.  Part of evaporation.h, whose
 * first lines give the units, the ranges and the names of sources.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * What a method needs to know about a day.  Filled by tarn_conditions_of, or
 * by hand.
 */
struct tarn_conditions {
	double tmin_c, tmax_c, tmean_c;
	double saturation_kpa;		/* mean of those at tmin and tmax */
	double saturation_mean_kpa;	/* at tmean */
	double vapour_kpa;		/* of the air */
	double slope_kpa_c;		/* of the saturation curve at tmean */
	double psychrometric_kpa_c;
	double wind_2m_ms;
	double top_mj;			/* radiation above the air */
	double clear_mj;		/* of a cloudless day */
	double solar_mj;		/* that reached the ground */
	double clearness;		/* solar / clear, at most 1 */
	double longwave_mj;		/* net loss to the sky */
	unsigned origins;		/* how it was found: bits 1u << enum
					   tarn_origin */
};
TARN_API extern const struct tarn_fields tarn_conditions_fields;

#define TARN_ALBEDO_WATER 0.08		/* S4, after Penman and others */
#define TARN_ALBEDO_GRASS 0.23		/* FAO-56 eq. 38 */

/* Net radiation (1 - albedo) solar - longwave, FAO-56 eq. 38 and 40
 * [MJ m-2 d-1].  albedo [-]  0 .. 1 */
TARN_API double tarn_net_radiation(const struct tarn_conditions *c,
				   double albedo);

/*
 * Penman: evaporation of open water.
 *
 *   energy_mj         net radiation less heat that the
 *                     water stores                   [MJ m-2 d-1]
 *   transfer_mm_kpa   wind function                  [mm d-1 kPa-1]
 *   returns           negative: dew                  [mm/d]
 * Formula: slope/(slope+g) energy/2.45 + g/(slope+g) f (es - ea)
 * Source:  S4.1.  Reads slope, psychrometric, saturation, vapour; any numbers.
 */
TARN_API double tarn_evaporation_penman(const struct tarn_conditions *c,
					double energy_mj,
					double transfer_mm_kpa);

/*
 * Reference evapotranspiration of a clipped crop (Penman-Monteith).
 *
 *   numerator, denominator   900 and 0.34  grass: FAO-56 eq. 6, and the
 *                                          short crop of ASCE-EWRI (2005)
 *                            1600 and 0.38 tall crop, ASCE-EWRI (2005)
 *                            37 and 0.34   grass by the hour, FAO-56 eq. 53
 *   energy_mj   net radiation less heat into the soil
 *   returns                                          [mm/d] or [mm/h]
 * Takes any number: tarn_conditions_of has checked what it reads.
 */
struct tarn_reference_crop {
	double numerator, denominator;
};
TARN_API double tarn_evaporation_reference(const struct tarn_conditions *c,
					   double energy_mj,
					   struct tarn_reference_crop crop);

/* FAO-56 grass reference of a day: albedo 0.23, no heat into the soil; wind
 * is at least 0.5 m/s, as FAO-56 advises [mm/d].  Source: FAO-56 eq. 6, of any
 * conditions that were checked; any value. */
TARN_API double tarn_evaporation_grass(const struct tarn_conditions *c);

/* Heat that a month puts into the soil under grass, FAO-56 eq. 43, from the
 * mean temperatures of the month before and after, any number [MJ m-2 d-1]. */
TARN_API double tarn_soil_heat_month(double before_c, double after_c);

/* Priestley and Taylor (1972): factor slope/(slope+g) energy/2.45, the
 * factor 1.26 over water, any number [mm/d]. */
TARN_API double tarn_evaporation_priestley_taylor(
	const struct tarn_conditions *c, double energy_mj, double factor);

/* Makkink (1957): factor slope/(slope+g) solar/2.45 + offset.  0.61 and
 * -0.12 in S9; 0.65 and 0 as the Dutch weather service uses it, any number [mm/d]. */
TARN_API double tarn_evaporation_makkink(const struct tarn_conditions *c,
					 double factor, double offset);

/* Turc (1961), grass reference from radiation and temperature, S9.10-11:
 * a correction for dry air below 50 % humidity [mm/d].
 *   tmean_c [deg C]  0 .. 70     rh_mean [%]  0 .. 100 */
TARN_API double tarn_evaporation_turc(double tmean_c, double solar_mj,
				      double rh_mean);

/*
 * Hargreaves and Samani: grass reference from temperature alone.
 *
 *   top_mj        above the air, 0 .. 60             [MJ m-2 d-1]
 *   coefficient   0.0023                             [-]  0.0005 .. 0.01
 * Source:   FAO-56 eq. 52.  NaN if tmin is above tmax.
 * Accuracy: for means over five days or longer.
 */
TARN_API double tarn_evaporation_hargreaves(double tmin_c, double tmax_c,
					    double top_mj,
					    double coefficient);

/* That coefficient by the mean daily range of temperature, Samani (2000) in
 * S9: 0.0135 (0.00185 r^2 - 0.0433 r + 0.4023).  range_c [C]  1 .. 40 */
TARN_API double tarn_hargreaves_coefficient(double range_c);

/*
 * Mass transfer: wind function times the difference between the vapour
 * pressure at the water's surface and in the air [mm/d]; negative is dew.
 * The water's temperature decides, and is seldom known: -90 .. 70 [deg C];
 * vapour_kpa 0 .. 20.  Source: Dalton (1802), the law itself.
 */
TARN_API double tarn_evaporation_mass_transfer(double water_c,
					       double vapour_kpa,
					       double transfer_mm_kpa);

#ifdef __cplusplus
}
#endif
#endif
