/* SPDX-License-Identifier: MIT */
#include "numbers.h"
#include "published.h"
#include "tarn/evaporation/heat.h"

/* ---- the published chain ------------------------------------------------- */

/*
 * de Bruin (1982) and McJannet et al. (2008) as McMahon et al. (2013), S11
 * and S19, compose them.  Their evaporation differs from ours, see
 * steps_against_the_full_balance below, so that its composition stands here:
 * water temperature at the end of the day, emission 0.97, and the deficit of
 * the air against the water's saturation.
 */
struct chain {
	struct tarn_heat h;
	double bulb, tau, goal, water, stored;
	double emitted, net, slope, saturation, evaporation;
};

static struct chain chain(double tmin, double tmax, double rh_min,
			  double rh_max, double solar, double clear,
			  double transfer_mj, double pressure, double depth,
			  double start)
{
	struct chain k;
	double t = (tmin + tmax) / 2;
	struct tarn_conditions c;

	k.h = (struct tarn_heat){
		.shortwave_mj = 0.92 * solar,
		.longwave_mj = tn_heat_sky(tn_heat_cloud(solar / clear), t),
		.air_c = t,
		.vapour_kpa = tarn_air_vapour_rh_range(tmin, tmax, rh_min,
						       rh_max),
		.psychrometric_kpa_c =
			tarn_air_psychrometric_of(pressure, TARN_LATENT_HEAT),
		.transfer_mj_kpa = transfer_mj,
	};
	k.bulb = tarn_air_wet_bulb(t, k.h.vapour_kpa);
	k.tau = tn_heat_time_constant(depth, tn_heat_conductance(&k.h,
								 k.bulb));
	k.goal = tn_heat_published_equilibrium(&k.h);
	k.water = tn_heat_after_day(k.goal, start, k.tau);
	k.stored = tn_heat_stored(depth, k.water - start);
	/* S11 counts from 273.15, 0.01 below FAO-56 */
	k.emitted = 0.97 * tarn_sun_emission(k.water - 0.01);
	k.net = k.h.shortwave_mj + k.h.longwave_mj - k.emitted;
	k.slope = tarn_air_slope(k.water);
	k.saturation = tarn_air_saturation(k.water);
	c = (struct tarn_conditions){
		.slope_kpa_c = k.slope,
		.psychrometric_kpa_c = k.h.psychrometric_kpa_c,
		.saturation_kpa = k.saturation,
		.vapour_kpa = k.h.vapour_kpa,
	};
	k.evaporation = tarn_evaporation_penman(
				&c, k.net - k.stored,
				transfer_mj / TARN_LATENT_HEAT) *
			TARN_LATENT_HEAT / tarn_air_latent_heat(t);
	return k;
}

Test(heat, mcjannet_alice_springs_second_hand)
{
	double transfer = tarn_wind_function(TARN_WIND_SWEERS, 0.5903, 5e6) *
			  TARN_LATENT_HEAT;
	struct chain k = chain(2, 21, 25, 71, 17.194, 17.9716, transfer,
			       tarn_air_pressure(546), 10, 10.8734);
	double emitted = k.h.shortwave_mj + k.h.longwave_mj;
	const struct published rows[] = {
		{ "wind function", transfer, 4.888717, 4.98e-4 },
		{ "resistance",
		  86400 * 1.20 * 0.001013 /
			  (k.h.psychrometric_kpa_c * transfer),
		  340.1621, 0.0340 },
		{ "short", k.h.shortwave_mj, 15.81848, 0.00159 },
		{ "cloud", tn_heat_cloud(17.194 / 17.9716), 0.08653416,
		  1.87e-5 },
		{ "sky", k.h.longwave_mj, 25.26406, 0.0025 },
		{ "net at the wet bulb",
		  (k.goal - k.bulb) * tn_heat_conductance(&k.h, k.bulb),
		  11.09601, 0.0011 },
		{ "emission at the wet bulb",
		  emitted - (k.goal - k.bulb) *
			  tn_heat_conductance(&k.h, k.bulb),
		  29.98653, 0.0030 },
		{ "time constant", k.tau, 39.18152, 0.0039 },
		{ "equilibrium", k.goal, 17.0289, 0.0017 },
		{ "water", k.water, 11.02851, 0.0011 },
		{ "stored", k.stored, 6.485639, 6.58e-4 },
		{ "emission", k.emitted, 31.01691, 0.0031 },
		{ "net", k.net, 10.06563, 0.0010 },
		{ "slope", k.slope, 0.08740011, 1.87e-5 },
		{ "saturation", k.saturation, 1.315204, 1.41e-4 },
		{ "evaporation", k.evaporation, 1.465042, 1.565e-4 },
	};

	because("McMahon", "each step goes on from the one before, which the "
		"source rounds to seven digits or fewer");
	EXPECT_QUOTED("McMahon et al. (2013) S11 and S19", rows);
}

/* A pond of 20 m2 and 4 ft by the same chain: our own earlier results. */
Test(heat, regression)
{
	double transfer = tarn_wind_function(TARN_WIND_MCJANNET, 1.5, 20) *
			  TARN_LATENT_HEAT;
	double clear = tarn_sun_clear_sky(tarn_sun_top_of_atmosphere(40, 196),
					  200);
	struct chain k = chain(16, 30, 40, 80, 24, clear, transfer,
			       tarn_air_pressure(200), 1.219, 22);
	const struct published rows[] = {
		{ "wet bulb", k.bulb, 17.38777, 5e-5 },
		{ "equilibrium", k.goal, 25.77798, 5e-5 },
		{ "time constant", k.tau, 2.086025, 5e-6 },
		{ "water", k.water, 23.43878, 5e-5 },
		{ "stored", k.stored, 7.333296, 5e-5 },
		{ "evaporation", k.evaporation, 4.834471, 5e-5 },
	};

	EXPECT_ROWS("earlier result", rows);
}

/* ---- against the full balance -------------------------------------------- */

/* Fallon, Nevada, 2015: dry, clear, hot summers and frosty winters. */
static size_t fallon(struct tarn_heat day[365], double area_m2)
{
	static double x[366][8];
	size_t n = read_numbers("evaporation_fallon_2015.csv", 8, x[0], 366);

	cr_assert(n == 365);
	for (size_t i = 0; i < n; i++) {
		struct tarn_evaporation_day d = tarn_evaporation_day_default();
		struct tarn_conditions c;

		d.tmin_c = x[i][1];
		d.tmax_c = x[i][2];
		d.dewpoint_c = x[i][3];
		d.solar_mj = x[i][5];
		d.latitude_deg = 39.4575;
		d.elevation_m = 1208.5;
		d.day_of_year = (double)i + 1;
		if (!isnan(x[i][4]))
			d.wind_2m_ms = tarn_air_wind_at_2m(x[i][4], 3);
		cr_assert(tarn_conditions_of(&d, &c, NULL) == TARN_OK);
		day[i] = (struct tarn_heat){
			.shortwave_mj = 0.92 * c.solar_mj,
			.longwave_mj = tn_heat_sky(
				tn_heat_cloud(c.clearness), c.tmean_c),
			.air_c = c.tmean_c,
			.vapour_kpa = c.vapour_kpa,
			.psychrometric_kpa_c = c.psychrometric_kpa_c,
			.transfer_mj_kpa = TARN_LATENT_HEAT *
				tarn_wind_function(TARN_WIND_MCJANNET,
						   c.wind_2m_ms, area_m2),
		};
	}
	return n;
}

/* A day of the balance itself, d(water)/dt = gain / heat capacity, in many
 * steps of the trapezoid rule: evaporation in mm, water moved on. */
static double full_balance(const struct tarn_heat *h, double depth,
			   double *water)
{
	const int steps = 400;
	double capacity = tn_heat_stored(depth, 1), sum = 0;

	for (int i = 0; i < steps; i++) {
		double from = *water, to = from;
		double gain = tn_heat_gain(h, from);

		for (int k = 0; k < 4; k++) {
			double mean = (gain + tn_heat_gain(h, to)) / 2;
			double off = to - from - mean / (capacity * steps);

			to -= off / (1 + tn_heat_conductance(h, to) /
					 (2 * capacity * steps));
		}
		sum += h->transfer_mj_kpa *
		       ((tarn_air_saturation(from) + tarn_air_saturation(to)) /
				2 - h->vapour_kpa) / steps;
		*water = to;
	}
	return sum / TARN_LATENT_HEAT;
}

/* Daily steps of the model beside the balance that they stand for, in the
 * ice-free part of the year, and beside the published composition. */
Test(heat, steps_against_the_full_balance)
{
	static struct tarn_heat day[365];
	static const double depth[] = { 0.1, 0.3, 1.2, 3 };

	fallon(day, 20);
	for (int k = 0; k < 4; k++) {
		double model = 12, truth = 12, n = 0;
		double sum = 0, want = 0, square = 0, warm = 0;

		for (int i = 75; i < 300; i++, n++) {
			struct tarn_heat_day out;
			double e = full_balance(&day[i], depth[k], &truth);

			tn_heat_day(&day[i], depth[k], model, &out);
			model = out.water_c;
			sum += out.evaporation_mm;
			want += e;
			square += (out.evaporation_mm - e) *
				  (out.evaporation_mm - e);
			warm = fmax(warm, fabs(model - truth));
		}
		cr_expect(fabs(sum / want - 1) < 0.001, "depth %g: %g %g",
			  depth[k], sum, want);
		cr_expect(sqrt(square / n) < 0.02, "depth %g: rms %g", depth[k],
			  sqrt(square / n));
		cr_expect(warm < 0.2, "depth %g: %g C off", depth[k], warm);
	}
}

static const struct tarn_heat summer = {
	.shortwave_mj = 22, .longwave_mj = 28, .air_c = 21, .vapour_kpa = 1.4,
	.psychrometric_kpa_c = 0.066, .transfer_mj_kpa = 12,
};

/* No depth: nothing is stored, and evaporation is what leaves a surface at
 * equilibrium; Penman with the slope of the air comes near it. */
Test(heat, no_depth)
{
	struct tarn_heat_day out;
	struct tarn_conditions c = {
		.slope_kpa_c = tarn_air_slope(summer.air_c),
		.psychrometric_kpa_c = summer.psychrometric_kpa_c,
		.saturation_kpa = tarn_air_saturation(summer.air_c),
		.vapour_kpa = summer.vapour_kpa,
	};
	double leaves, penman;

	for (double depth = 0; depth < 1e-6; depth += 1e-7) {
		tn_heat_day(&summer, depth, 10, &out);
		cr_expect(fabs(out.stored_mj) < 1e-3);
		cr_expect(fabs(out.water_c - out.equilibrium_c) < 1e-9);
		cr_expect(fabs(out.mean_c - out.equilibrium_c) < 1e-3);
	}
	leaves = summer.transfer_mj_kpa / TARN_LATENT_HEAT *
		 (tarn_air_saturation(out.equilibrium_c) - summer.vapour_kpa);
	penman = tarn_evaporation_penman(&c, out.net_mj, summer.transfer_mj_kpa
						 / TARN_LATENT_HEAT);
	cr_expect(fabs(out.evaporation_mm / leaves - 1) < 0.002, "%g %g",
		  out.evaporation_mm, leaves);
	cr_expect(fabs(out.evaporation_mm / penman - 1) < 0.02, "%g %g",
		  out.evaporation_mm, penman);
}

/* Great depth: the water stays as it is, and takes up what comes. */
Test(heat, great_depth)
{
	struct tarn_heat_day out;
	double last = HUGE_VAL;

	for (double depth = 0.1; depth <= 100; depth *= 2) {
		tn_heat_day(&summer, depth, 10, &out);
		cr_expect(out.water_c - 10 < last && out.water_c > 10);
		last = out.water_c - 10;
	}
	/* a day's gain in 50 m of water, 209 MJ for a degree */
	cr_expect(out.water_c - 10 < 0.2 && out.mean_c - 10 < 0.1, "%g %g",
		  out.water_c, out.mean_c);
	cr_expect(fabs(out.stored_mj / tn_heat_gain(&summer, 10) - 1) < 0.05,
		  "%g", out.stored_mj / tn_heat_gain(&summer, 10));
	cr_expect(tn_heat_after_day(30, 10, HUGE_VAL) == 10);
	cr_expect(fabs(tn_heat_after_day(30, 10, 1e12) - 10) < 1e-10);
	cr_expect(fabs(tn_heat_mean_of_day(30, 10, 1e9) - 10) < 1e-6);
}

/*
 * A year of equal seasons over and over: what is stored adds up to the change
 * of heat content, and what the water kept of radiation leaves as vapour and
 * as warmed air by their own formulas, nothing else.
 */
Test(heat, energy_closes)
{
	static struct tarn_heat day[365];
	const double depth = 1.2;
	double water = 15, stored = 0, net = 0, vapour = 0, air = 0, first;
	struct tarn_heat_day out;

	for (int i = 0; i < 365; i++) {
		double season = cos(2 * 3.14159265358979 * (i - 196) / 365);
		double t = 14 + 9 * season;

		day[i] = (struct tarn_heat){
			.shortwave_mj = 0.92 * (14 + 9 * season),
			.longwave_mj = tn_heat_sky(0.4, t),
			.air_c = t,
			.vapour_kpa = 0.65 * tarn_air_saturation(t),
			.psychrometric_kpa_c = 0.066,
			.transfer_mj_kpa = 11 + 3 * sin(i),
		};
	}
	for (int i = 0; i < 365; i++, water = out.water_c)
		tn_heat_day(&day[i], depth, water, &out);
	first = water;
	for (int i = 0; i < 365; i++, water = out.water_c) {
		tn_heat_day(&day[i], depth, water, &out);
		cr_assert(!out.ice);
		stored += out.stored_mj;
		net += out.net_mj;
		vapour += out.evaporation_mm * TARN_LATENT_HEAT;
		air += day[i].transfer_mj_kpa * day[i].psychrometric_kpa_c *
		       (out.mean_c - day[i].air_c);
	}
	cr_expect(fabs(stored - tn_heat_stored(depth, water - first)) < 1e-9);
	cr_expect(fabs(water - first) < 1e-3, "the year repeats");
	cr_expect(fabs(net - stored - vapour - air) < 0.002 * net,
		  "net %g = stored %g + vapour %g + air %g", net, stored,
		  vapour, air);
}

/* Halves of a day do what the day does, and the mean lies between. */
Test(heat, exponential)
{
	double half = tn_heat_after_day(25, 15, 2 * 2.3);

	cr_expect(fabs(tn_heat_after_day(25, half, 2 * 2.3) -
		       tn_heat_after_day(25, 15, 2.3)) < 1e-12);
	cr_expect(tn_heat_after_day(25, 15, 0) == 25);
	cr_expect(tn_heat_mean_of_day(25, 15, 0) == 25);
	cr_expect(tn_heat_mean_of_day(25, 15, 2.3) > 15 &&
		  tn_heat_mean_of_day(25, 15, 2.3) <
			  tn_heat_after_day(25, 15, 2.3));
	/* what the mean loses to equilibrium is what is stored */
	cr_expect(fabs((25 - tn_heat_mean_of_day(25, 15, 2.3)) / 2.3 -
		       (tn_heat_after_day(25, 15, 2.3) - 15)) < 1e-12);
	cr_expect(fabs(tn_heat_stored(2, 3) - 2 * tn_heat_stored(1, 3)) <
		  1e-12);
}

/* The root is found from the Arctic to the desert. */
Test(heat, equilibrium)
{
	double worst = 0, published = 0;

	for (double t = -25; t <= 45; t += 5)
		for (double rh = 0; rh <= 1; rh += 0.2)
			for (double u = 0; u <= 12; u += 4)
				for (double sun = 0; sun <= 30; sun += 10) {
		struct tarn_heat h = {
			sun, tn_heat_sky(0.3, t), t,
			rh * tarn_air_saturation(t), 0.066,
			TARN_LATENT_HEAT * tarn_wind_function(
				TARN_WIND_MCJANNET, u, 20)
		};
		double root = tn_heat_equilibrium(&h);

		worst = fmax(worst, fabs(tn_heat_gain(&h, root) /
					 tn_heat_conductance(&h, root)));
		if (rh > 0)
			published = fmax(published,
				tn_heat_published_equilibrium(&h) - root);
	}
	cr_expect(worst < 1e-5, "%g C", worst);
	cr_expect(published > 5, "the first step alone is %g C off", published);
}

Test(heat, ice)
{
	struct tarn_heat frost = summer;
	struct tarn_heat_day out;

	frost.shortwave_mj = 2;
	frost.air_c = -8;
	frost.vapour_kpa = 0.25;
	frost.longwave_mj = tn_heat_sky(0.2, -8);
	tn_heat_day(&frost, 5, 4, &out);
	cr_expect(!out.ice && out.water_c < 4 && out.evaporation_mm > 0);
	tn_heat_day(&frost, 1, 0.5, &out);
	cr_expect(out.ice && out.water_c == 0 && out.mean_c == 0);
	cr_expect(out.evaporation_mm == 0);
	cr_expect(fabs(out.stored_mj + tn_heat_stored(1, 0.5)) < 1e-12);
	/* it thaws as soon as the balance turns */
	tn_heat_day(&summer, 1, out.water_c, &out);
	cr_expect(!out.ice && out.water_c > 0);
}

Test(heat, laws_and_ranges)
{
	for (double t = -20; t < 45; t += 5)
		cr_expect(tn_heat_gain(&summer, t + 5) <
			  tn_heat_gain(&summer, t));
	/* a clear sky sends less, and never more than a black body */
	cr_expect(tn_heat_sky(0, 15) < tn_heat_sky(0.5, 15));
	cr_expect(tn_heat_sky(1, 15) <= tarn_sun_emission(15));
	cr_expect(tn_heat_cloud(0) == 1 && tn_heat_cloud(1) == 0);
	cr_expect(fabs(tn_heat_cloud(0.9) - 0.2) < 1e-12);
	EXPECT_NAN(tn_heat_cloud(-0.1));
	EXPECT_NAN(tn_heat_cloud(1.1));
	EXPECT_NAN(tn_heat_sky(1.1, 10));
	EXPECT_NAN(tn_heat_sky(0.5, 71));
	EXPECT_NAN(tn_heat_time_constant(-1, 3));
	EXPECT_NAN(tn_heat_time_constant(101, 3));
	EXPECT_NAN(tn_heat_time_constant(1, 0));
	EXPECT_OK(tn_heat_time_constant(100, 3));
}
