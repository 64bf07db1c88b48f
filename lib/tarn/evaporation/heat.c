/* SPDX-License-Identifier: MIT */
#include "formulas.h"
#include "heat.h"

/* Heat that a cubic metre takes for a degree, MJ: density 997.9 kg/m3 and
 * 0.00419 MJ/kg/C as in S11. */
#define WATER_HEAT (997.9 * 0.00419)

/* S11 takes 0 deg C as 273.15 K. */
static double kelvin(double t_c)
{
	return t_c + 273.15;
}

static double emission(double t_c)
{
	double k = kelvin(t_c);

	return SIGMA * k * k * k * k;
}

static double emission_slope(double t_c)
{
	double k = kelvin(t_c);

	return 4 * SIGMA * k * k * k;
}

double tn_heat_cloud(double clearness)
{
	if (outside(clearness, 0, 1))
		return TARN_NAN;
	if (clearness > 0.9)
		return 2 * (1 - clearness);
	return fmin(1, 1.1 - clearness);
}

double tn_heat_sky(double cloud, double air_c)
{
	double clear;

	if (outside(cloud, 0, 1) || bad_temp(air_c))
		return TARN_NAN;
	clear = 1 - 0.261 * exp(-7.77e-4 * air_c * air_c);
	return (cloud + (1 - cloud) * clear) * emission(air_c);
}

double tn_heat_gain(const struct tarn_heat *h, double water_c)
{
	return h->shortwave_mj + h->longwave_mj - emission(water_c) -
	       h->transfer_mj_kpa *
		       (raw_saturation(water_c) - h->vapour_kpa +
			h->psychrometric_kpa_c * (water_c - h->air_c));
}

double tn_heat_conductance(const struct tarn_heat *h, double water_c)
{
	double slope = raw_slope(raw_saturation(water_c), water_c);

	return emission_slope(water_c) +
	       h->transfer_mj_kpa * (slope + h->psychrometric_kpa_c);
}

/* At the wet bulb evaporation takes what the air gives, and radiation alone
 * is left to move the temperature; its emission is taken along a line from
 * that of the air, S11.32. */
double tn_heat_published_equilibrium(const struct tarn_heat *h)
{
	double bulb = tarn_air_wet_bulb(h->air_c, h->vapour_kpa);
	double net = h->shortwave_mj + h->longwave_mj - emission(h->air_c) -
		     emission_slope(h->air_c) * (bulb - h->air_c);

	return bulb + net / tn_heat_conductance(h, bulb);
}

/*
 * Newton's steps.  The gain falls ever faster with the water's temperature,
 * so that from the first step on they come down to the root from above and
 * cannot miss it; the error of a step is squared by the next.
 */
double tn_heat_equilibrium(const struct tarn_heat *h)
{
	/* air without any vapour has no wet bulb to start from */
	double t = or_else(tn_heat_published_equilibrium(h), h->air_c);
	double step = 1;

	for (int i = 0; i < 20 && fabs(step) > 1e-3; i++) {
		step = tn_heat_gain(h, t) / tn_heat_conductance(h, t);
		t += step;
	}
	return t;
}

double tn_heat_time_constant(double depth_m, double conductance)
{
	if (outside(depth_m, 0, 100) || !(conductance > 0))
		return TARN_NAN;
	return WATER_HEAT * depth_m / conductance;
}

/* Part of a difference that is gone after a day: 1 - exp(-1/tau), without
 * losing digits when tau is long. */
static double part_gone(double time_constant_d)
{
	return -expm1(-1 / time_constant_d);
}

double tn_heat_after_day(double equilibrium_c, double water_c,
			 double time_constant_d)
{
	return water_c + (equilibrium_c - water_c) * part_gone(time_constant_d);
}

double tn_heat_mean_of_day(double equilibrium_c, double water_c,
			   double time_constant_d)
{
	return equilibrium_c + (water_c - equilibrium_c) * time_constant_d *
				       part_gone(time_constant_d);
}

double tn_heat_stored(double depth_m, double difference_c)
{
	return WATER_HEAT * depth_m * difference_c;
}

/* Penman with the slope between air and water: then the saturation deficit
 * of the air and the energy split exactly as evaporation from the water and
 * warming of the air do.  The deficit is that of the mean temperature, since
 * the water, whose temperature hardly moves in a day, meets the air's mean. */
static double evaporation(const struct tarn_heat *h, double energy_mj,
			  double water_c)
{
	double between = (h->air_c + water_c) / 2;
	struct tarn_conditions c = {
		.slope_kpa_c = raw_slope(raw_saturation(between), between),
		.psychrometric_kpa_c = h->psychrometric_kpa_c,
		.saturation_kpa = raw_saturation(h->air_c),
		.vapour_kpa = h->vapour_kpa,
	};

	return tarn_evaporation_penman(&c, energy_mj,
				       h->transfer_mj_kpa / TARN_LATENT_HEAT);
}

void tn_heat_day(const struct tarn_heat *h, double depth_m, double water_c,
		 struct tarn_heat_day *out)
{
	double goal = tn_heat_equilibrium(h);
	/* halfway: the conductance grows with temperature, and the water is
	 * on its way from one to the other */
	double conductance = tn_heat_conductance(h, (goal + water_c) / 2);
	double tau = tn_heat_time_constant(depth_m, conductance);
	double end = tn_heat_after_day(goal, water_c, tau);

	out->equilibrium_c = goal;
	out->time_constant_d = tau;
	out->ice = end < 0;
	out->water_c = out->ice ? 0 : end;
	out->mean_c = out->ice ? 0 : tn_heat_mean_of_day(goal, water_c, tau);
	out->stored_mj = tn_heat_stored(depth_m, out->water_c - water_c);
	out->net_mj = h->shortwave_mj + h->longwave_mj - emission(out->mean_c);
	out->evaporation_mm =
		out->ice ? 0 : evaporation(h, out->net_mj - out->stored_mj,
					   out->mean_c);
}
