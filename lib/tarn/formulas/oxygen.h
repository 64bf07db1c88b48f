/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_OXYGEN_H
#define TARN_FORMULAS_OXYGEN_H

/*
 * oxygen: ammonia and oxygen in water.  Part of bed.h, whose first lines give
 * the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Acid constant pKa = 0.09018 + 2729.92 / (T + 273.15), the un-ionised (toxic)
 * part of total ammonia 1 / (1 + 10^(pKa - pH)), and the total ammonia that
 * holds so much un-ionised (same unit in and out).
 *
 *   ph       4 .. 12          temp_c   0 .. 40       NaN outside
 *
 * Source:   Emerson et al. (1975); fresh water, fitted on 0 .. 30 deg C.
 * Accuracy: within half the last digit of the table in UF/IFAS FA16 up to
 *           28 deg C; 0.0002 below it at 32 deg C.
 */
TARN_API double tarn_ammonia_pka(double temp_c);
TARN_API double tarn_unionised(double ph, double temp_c);
TARN_API double tarn_total_ammonia(double unionised, double ph,
				   double temp_c);

/*
 * Oxygen in fresh water in balance with moist air                  [mg/L].
 *
 *   temp_c       0 .. 40
 *   elevation_m  -430 .. 6000, standard atmosphere (ICAO)
 *
 * Formula:  ln C = -139.34411 + 1.575701e5/K - 6.642308e7/K^2 + 1.2438e10/K^3
 *           - 8.621949e11/K^4 at 1 atm, K = T + 273.15; times
 *           P (1 - W/P)(1 - t P) / ((1 - W)(1 - t)) with P in atm,
 *           ln W = 11.8571 - 3840.70/K - 216961/K^2,
 *           t = 0.000975 - 1.426e-5 T + 6.436e-8 T^2.
 * Source:   Benson & Krause (1984) as in APHA (1985); the pressure terms from
 *           memory.
 * Accuracy: within the rounding of the EN 25814 table at sea level.
 */
TARN_API double tarn_oxygen_saturation(double temp_c, double elevation_m);

/*
 * Does the flow bring the bed enough oxygen?  outlet = inlet + (reaeration -
 * demand) / Q; below zero the bed goes anaerobic, below 'keep' it is close.
 */
struct tarn_oxygen {
	double flow_m3s;
	double inlet_mgl;	/* NaN: 'assumed' x saturation, and flagged */
	double assumed;		/* part of saturation at the inlet (0.8, ours) */
	double temp_c, elevation_m;
	double ammonia_g;	/* nitrified in the bed a day, as N */
	double bod_g;		/* burnt in the bed a day */
	double reaeration_g;	/* from air and roots a day         (0, safe) */
	double keep_mgl;	/* wanted at the outlet (2, common practice) */
};

TARN_API extern const struct tarn_fields tarn_oxygen_fields;
TARN_API struct tarn_oxygen tarn_oxygen_default(void);

struct tarn_oxygen_result {
	double saturation_mgl, inlet_mgl;
	double supply_g, demand_g;	/* a day; supply with reaeration */
	double outlet_mgl;		/* negative: so much is lacking */
	double ammonia_limit_g;		/* nitrified a day at most, BOD first,
					   'keep' left over */
	double least_flow_m3s;		/* that leaves 'keep'; NaN: none does */
	unsigned flags;	/* LOW_OXYGEN, ANAEROBIC, OXYGEN_ASSUMED */
};
TARN_API extern const struct tarn_fields tarn_oxygen_result_fields;

/* Errors: TARN_EARG, field "oxygen.name". */
TARN_API enum tarn_status tarn_oxygen(const struct tarn_oxygen *o,
				      struct tarn_oxygen_result *out,
				      struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
