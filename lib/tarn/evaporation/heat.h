/* SPDX-License-Identifier: MIT */
#ifndef TARN_EVAPORATION_HEAT_H
#define TARN_EVAPORATION_HEAT_H

/* Temperature and heat of the water: what the method with storage rests on.
 * Units, ranges and names of sources as in evaporation.h. */

#include "tarn/evaporation.h"

/*
 * A well-mixed pond warms and cools towards the temperature at which it
 * would gain nothing, the equilibrium temperature, in one to three days for
 * each metre of depth: de Bruin (1982), Journal of Hydrology 59, 261-274;
 * McJannet and others (2008) in S11.
 *
 * Left out: heat of rain and of top-up, heat through the floor, layers of
 * warm water over cold, and the heat of freezing.
 */
struct tarn_heat {
	double shortwave_mj;		/* sun that the water takes up */
	double longwave_mj;		/* that comes from the sky, and from
					   walls and crowns before it */
	double air_c, vapour_kpa;
	double psychrometric_kpa_c;
	double transfer_mj_kpa;		/* wind function x 2.45 */
};

/* Share of cloud from clearness 0 .. 1, S3.17-18, at most 1 [-]. */
double tn_heat_cloud(double clearness);

/* Longwave radiation of the sky, by cloud 0 .. 1 and air temperature
 * -90 .. 70 [deg C], S11 [MJ m-2 d-1]. */
double tn_heat_sky(double cloud, double air_c);

/* Heat that water at any temperature gains from all sides, any number
 * [MJ m-2 d-1]:
 * shortwave + longwave - emission - f (es(water) - ea) - g f (water - air). */
double tn_heat_gain(const struct tarn_heat *h, double water_c);

/* How much less it gains for each degree warmer, at any number
 * [MJ m-2 d-1 C-1]: 4 s T^3 +
 * f (slope + g), the lower half of S11.29. */
double tn_heat_conductance(const struct tarn_heat *h,
			   double water_c);

/* Equilibrium temperature as published, S11.30: one straight line from the
 * wet bulb.  Too high: by 0.2 C on average over years at De Bilt, by 10 C and
 * more on single days in hot dry air.  NaN where the wet bulb is [deg C]. */
double tn_heat_published_equilibrium(const struct tarn_heat *h);

/* The same, brought to the root of tn_heat_gain by further steps, from any
 * value: without a wet bulb it starts at the air [deg C].  Source: S11.30. */
double tn_heat_equilibrium(const struct tarn_heat *h);

/* Days in which all but 1/e of a difference is gone, S11.29:
 * 997.9 x 0.00419 depth / conductance [d]; depth 0 .. 100, conductance > 0,
 * else NaN. */
double tn_heat_time_constant(double depth_m, double conductance);

/* Temperature after a day, S11.28 (exact for steady weather), of any
 * number [deg C]. */
double tn_heat_after_day(double equilibrium_c, double water_c,
			 double time_constant_d);

/* Mean of that day: the integral of the same exponential, of any number
 * [deg C]; derived from S11.28. */
double tn_heat_mean_of_day(double equilibrium_c, double water_c,
			   double time_constant_d);

/* Heat that warms the water by a difference, S11.33, any number [MJ m-2]. */
double tn_heat_stored(double depth_m, double difference_c);

/*
 * One day of a pond.
 *
 *   depth_m     mean depth, volume / area           [m]  0 .. 100
 *   water_c     at the start of the day             [deg C]  0 .. 70
 *
 * Evaporation is Penman's with the stored heat taken from the energy, slope
 * between air and water, and the longwave of the water's own mean
 * temperature; so that energy, evaporation and warming of the air add up.
 * Water is not let below freezing: 'ice' is then set, evaporation nothing,
 * and the heat that freezing would have given is left out.
 */
struct tarn_heat_day {
	double equilibrium_c;
	double time_constant_d;
	double water_c;			/* at the end of the day */
	double mean_c;			/* of the day */
	double stored_mj;		/* into the water */
	double net_mj;			/* radiation that it kept */
	double evaporation_mm;		/* negative: dew */
	int ice;
};
void tn_heat_day(const struct tarn_heat *h, double depth_m,
		 double water_c, struct tarn_heat_day *out);

#endif
