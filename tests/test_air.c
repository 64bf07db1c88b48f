/* SPDX-License-Identifier: MIT */
#include "published.h"
#include "tarn/evaporation.h"

#define FAO "FAO-56 (Allen et al. 1998) "

Test(air, fao_annex_2)
{
	const struct published pressure[] = {
		{ "0 m", tarn_air_pressure(0), 101.3, 0.05 },
		{ "100 m", tarn_air_pressure(100), 100.1, 0.05 },
		{ "200 m", tarn_air_pressure(200), 99.0, 0.05 },
		{ "500 m", tarn_air_pressure(500), 95.5, 0.05 },
		{ "1000 m", tarn_air_pressure(1000), 90.0, 0.05 },
		{ "1200 m", tarn_air_pressure(1200), 87.9, 0.05 },
		{ "1500 m", tarn_air_pressure(1500), 84.8, 0.05 },
		{ "1800 m", tarn_air_pressure(1800), 81.8, 0.05 },
		{ "2000 m", tarn_air_pressure(2000), 79.8, 0.05 },
		{ "3000 m", tarn_air_pressure(3000), 70.5, 0.05 },
		{ "4000 m", tarn_air_pressure(4000), 62.1, 0.05 },
	};
#define GAMMA(z) tarn_air_psychrometric(tarn_air_pressure(z))
	const struct published gamma[] = {
		{ "0 m", GAMMA(0), 0.067, 0.0005 },
		{ "200 m", GAMMA(200), 0.066, 0.0005 },
		{ "1000 m", GAMMA(1000), 0.060, 0.0005 },
		{ "2000 m", GAMMA(2000), 0.053, 0.0005 },
		{ "3000 m", GAMMA(3000), 0.047, 0.0005 },
		{ "4000 m", GAMMA(4000), 0.041, 0.0005 },
	};
	const struct published saturation[] = {
		{ "1 C", tarn_air_saturation(1), 0.657, 0.0005 },
		{ "5 C", tarn_air_saturation(5), 0.872, 0.0005 },
		{ "10 C", tarn_air_saturation(10), 1.228, 0.0005 },
		{ "15 C", tarn_air_saturation(15), 1.705, 0.0005 },
		{ "20 C", tarn_air_saturation(20), 2.338, 0.0005 },
		{ "25 C", tarn_air_saturation(25), 3.168, 0.0005 },
		{ "30 C", tarn_air_saturation(30), 4.243, 0.0005 },
		{ "35 C", tarn_air_saturation(35), 5.623, 0.0005 },
		{ "40 C", tarn_air_saturation(40), 7.376, 0.0005 },
		{ "45 C", tarn_air_saturation(45), 9.582, 0.0005 },
		{ "48.5 C", tarn_air_saturation(48.5), 11.447, 0.0005 },
	};
	const struct published slope[] = {
		{ "1 C", tarn_air_slope(1), 0.047, 0.0005 },
		{ "5 C", tarn_air_slope(5), 0.061, 0.0005 },
		{ "10 C", tarn_air_slope(10), 0.082, 0.0005 },
		{ "15 C", tarn_air_slope(15), 0.110, 0.0005 },
		{ "20 C", tarn_air_slope(20), 0.145, 0.0005 },
		{ "25 C", tarn_air_slope(25), 0.189, 0.0005 },
		{ "30 C", tarn_air_slope(30), 0.243, 0.0005 },
		{ "35 C", tarn_air_slope(35), 0.311, 0.0005 },
		{ "40 C", tarn_air_slope(40), 0.393, 0.0005 },
		{ "45 C", tarn_air_slope(45), 0.493, 0.0005 },
	};
	const struct published wind[] = {
		{ "1 m", tarn_air_wind_at_2m(1, 1), 1.178, 0.0005 },
		{ "1.2 m", tarn_air_wind_at_2m(1, 1.2), 1.125, 0.0005 },
		{ "1.6 m", tarn_air_wind_at_2m(1, 1.6), 1.051, 0.0005 },
		{ "2 m", tarn_air_wind_at_2m(1, 2), 1.000, 0.0005 },
		{ "3 m", tarn_air_wind_at_2m(1, 3), 0.921, 0.0005 },
		{ "5 m", tarn_air_wind_at_2m(1, 5), 0.838, 0.0005 },
		{ "8 m", tarn_air_wind_at_2m(1, 8), 0.775, 0.0005 },
		{ "10 m", tarn_air_wind_at_2m(1, 10), 0.748, 0.0005 },
		{ "10.5 m", tarn_air_wind_at_2m(1, 10.5), 0.742, 0.0005 },
	};

	EXPECT_PRINTED(FAO "table 2.1, pressure", pressure);
	EXPECT_PRINTED(FAO "table 2.2, psychrometric constant", gamma);
	EXPECT_PRINTED(FAO "table 2.3, saturation", saturation);
	EXPECT_PRINTED(FAO "table 2.4, slope", slope);
	EXPECT_PRINTED(FAO "table 2.9, wind factor", wind);
}

Test(air, fao_examples)
{
	double ea = tarn_air_vapour_rh_range(18, 25, 54, 82);
	const struct published rows[] = {
		{ "example 2, pressure", tarn_air_pressure(1800), 81.8, 0.05 },
		{ "example 2, psychrometric", tarn_air_psychrometric(81.8),
		  0.054, 0.0005 },
		{ "example 3, Tmax", tarn_air_saturation(24.5), 3.075,
		  0.0005 },
		{ "example 3, es", tarn_air_mean_saturation(15, 24.5), 2.39,
		  0.005 },
		{ "example 3, at the mean", tarn_air_saturation(19.75), 2.30,
		  0.005 },
		{ "example 5, eq. 17", ea, 1.70, 0.005 },
		{ "example 5, eq. 19", tarn_air_vapour_rh_mean(18, 25, 68),
		  1.78, 0.005 },
		/* printed from rounded terms: 2.61 - 1.70 */
		{ "example 6, deficit", tarn_air_mean_saturation(18, 25) - ea,
		  0.91, 0.01 },
		{ "example 14, wind", tarn_air_wind_at_2m(3.2, 10), 2.4,
		  0.05 },
		{ "example 18, wind", tarn_air_wind_at_2m(10 / 3.6, 10),
		  2.078, 0.0005 },
	};

	EXPECT_PRINTED(FAO "examples", rows);
}

/* Values that an independent open library quotes from table C-3 of
 * ASCE-EWRI (2005), Greeley, Colorado, 1 to 10 July 2000: second-hand.  The
 * table uses 2503 for 4098 x 0.6108 = 2503.06; the print of its temperatures
 * is rounded, hence the tolerance. */
Test(air, asce_greeley_second_hand)
{
	const struct published rows[] = {
		{ "1 July", tarn_air_slope(21.65), 0.1585, 0.0004 },
		{ "2 July", tarn_air_slope(22.9), 0.1692, 0.0004 },
		{ "3 July", tarn_air_slope(23.7), 0.1762, 0.0004 },
		{ "4 July", tarn_air_slope(22.8), 0.1684, 0.0004 },
		{ "5 July", tarn_air_slope(24.3), 0.1820, 0.0004 },
		{ "6 July", tarn_air_slope(26.0), 0.1990, 0.0004 },
		{ "7 July", tarn_air_slope(26.1), 0.1996, 0.0004 },
		{ "8 July", tarn_air_slope(26.4), 0.2027, 0.0004 },
		{ "9 July", tarn_air_slope(23.9), 0.1781, 0.0004 },
		{ "10 July", tarn_air_slope(24.2), 0.1809, 0.0004 },
		{ "pressure", tarn_air_pressure(1462.4), 85.17, 0.005 },
		{ "psychrometric", GAMMA(1462.4), 0.0566, 0.00005 },
	};

	because("ASCE", "the print rounds the temperatures that go in");
	EXPECT_QUOTED("ASCE-EWRI (2005) table C-3", rows);
}

/* McMahon et al. (2013), supplement S19 and S11: Alice Springs, 20 July 1980,
 * quoted by two independent open libraries. */
Test(air, mcmahon_alice_springs_second_hand)
{
	double ea = tarn_air_vapour_rh_range(2, 21, 25, 71);
	const struct published rows[] = {
		{ "e0(21)", tarn_air_saturation(21), 2.4870, 0.00005 },
		{ "e0(2)", tarn_air_saturation(2), 0.7056, 0.00005 },
		{ "es", tarn_air_mean_saturation(2, 21), 1.5963, 0.00005 },
		{ "ea", ea, 0.5614, 0.00005 },
		{ "deficit", tarn_air_mean_saturation(2, 21) - ea, 1.0349,
		  0.0001 },
		{ "slope", tarn_air_slope(11.5), 0.0898, 0.0001 },
		{ "pressure", tarn_air_pressure(546), 95.01027, 0.0001 },
		{ "psychrometric", tarn_air_psychrometric_of(95.01027, 2.45),
		  0.0632, 0.0001 },
		{ "u10", tarn_air_wind_profile(0.5903, 2, 10, 0.0002),
		  0.6934505, 7.93e-5 },
		{ "dew point", tarn_air_dewpoint(ea), -1.158446, 1.258e-4 },
		{ "wet bulb", tarn_air_wet_bulb(11.5, ea), 6.630961, 6.731e-4 },
	};

	EXPECT_QUOTED("McMahon et al. (2013) S19", rows);
}

/* Constants of another library's own test: agreement, not a publication. */
Test(air, fallon_other_library)
{
	double tmax = tarn_celsius(102.80), tmin = tarn_celsius(66.65);
	const struct published rows[] = {
		{ "u2", tarn_air_wind_at_2m(4.80 * tarn_unit("mph"), 3),
		  1.976112, 1.97e-5 },
		{ "es", tarn_air_mean_saturation(tmin, tmax), 4.674724,
		  4.67e-5 },
		{ "slope", tarn_air_slope((tmin + tmax) / 2), 0.234886, 1e-5 },
		{ "pressure", tarn_air_pressure(1208.5), 87.807105, 1e-4 },
		{ "ea", tarn_air_saturation(tarn_celsius(49.84)), 1.2206674,
		  1e-6 },
	};

	EXPECT_ROWS("Fallon, Nevada, 1 July 2015", rows);
}

/* The accuracy that the header states, against two libraries that follow the
 * IAPWS and ASHRAE formulations (values read from them). */
Test(air, oracles)
{
	const struct published rows[] = {
		{ "IAPWS 20 C", tarn_air_saturation(20), 2.339215, 
		  0.0014 * 2.339215 },
		{ "IAPWS 30 C", tarn_air_saturation(30), 4.246688,
		  0.0014 * 4.246688 },
		{ "ASHRAE 20 C", tarn_air_saturation(20), 2.33880,
		  0.0014 * 2.33880 },
		{ "ASHRAE dew point of 30 C, 50 %",
		  tarn_air_dewpoint(tarn_air_saturation(30) / 2), 18.4466,
		  0.05 },
		{ "ASHRAE wet bulb of 30 C, 50 %",
		  tarn_air_wet_bulb(30, tarn_air_saturation(30) / 2), 22.0052,
		  0.5 },
		{ "ICAO pressure, 1000 m", tarn_air_pressure(1000), 89.8745,
		  0.2 },
	};

	EXPECT_ROWS("general-purpose libraries", rows);
}

Test(air, laws)
{
	for (double t = TARN_AIR_TEMP_MIN; t <= TARN_AIR_TEMP_MAX - 0.5;
	     t += 0.5) {
		double e = tarn_air_saturation(t), h = 1e-4;
		double numeric = (tarn_air_saturation(t + 2 * h) - e) / (2 * h);

		cr_expect(tarn_air_saturation(t + 0.5) > e, "at %g", t);
		/* FAO-56 rounds 17.27 x 237.3 = 4098.17 to 4098 */
		cr_expect(fabs(numeric / tarn_air_slope(t + h) - 1) < 5e-5,
			  "slope at %g", t);
	}
	for (double t = -60; t <= 50; t += 0.5)
		cr_expect(fabs(tarn_air_dewpoint(tarn_air_saturation(t)) - t) <
			  0.02, "dew point %g", t);
	for (double rh = 1; rh <= 100; rh += 3)
		for (double t = -10; t <= 45; t += 5) {
			double e = rh / 100 * tarn_air_saturation(t);
			double wet = tarn_air_wet_bulb(t, e);

			cr_expect(wet <= t + 0.01 &&
					  wet >= tarn_air_dewpoint(e) - 1e-9,
				  "wet bulb of %g C, %g %%", t, rh);
		}
	/* saturated air: the psychrometer's bulbs agree */
	cr_expect(tarn_air_vapour_psychrometer(17, 17, 99, 0.000662) ==
		  tarn_air_saturation(17));
	/* FAO-56 text below eq. 16: a drier bulb means drier air */
	cr_expect(tarn_air_vapour_psychrometer(25.6, 19.5, 87.9, 0.000662) <
		  tarn_air_saturation(19.5));
	cr_expect(fabs(tarn_air_vapour_rh_max(18, 82) -
		       0.82 * tarn_air_saturation(18)) < 1e-15);
	cr_expect(fabs(tarn_air_latent_heat(20) - 2.45378) < 1e-9);
	cr_expect(fabs(tarn_air_psychrometric_of(100, 2.45) /
			       tarn_air_psychrometric(100) - 1) < 0.001);
	cr_expect(fabs(tarn_air_wind_profile(3, 10, 10, 0.001) - 3) < 1e-15);
}

Test(air, ranges)
{
	EXPECT_NAN(tarn_air_saturation(-90.001));
	EXPECT_NAN(tarn_air_saturation(70.001));
	EXPECT_NAN(tarn_air_saturation(TARN_NAN));
	EXPECT_NAN(tarn_air_saturation(HUGE_VAL));
	EXPECT_NAN(tarn_air_saturation(-HUGE_VAL));
	EXPECT_OK(tarn_air_saturation(-90));
	EXPECT_OK(tarn_air_saturation(70));
	EXPECT_NAN(tarn_air_slope(71));
	EXPECT_NAN(tarn_air_mean_saturation(10, 71));
	EXPECT_NAN(tarn_air_pressure(-431));
	EXPECT_NAN(tarn_air_pressure(6001));
	EXPECT_OK(tarn_air_pressure(-430));
	EXPECT_OK(tarn_air_pressure(6000));
	EXPECT_NAN(tarn_air_psychrometric(39.9));
	EXPECT_NAN(tarn_air_psychrometric(101300));	/* pascals */
	EXPECT_NAN(tarn_air_psychrometric_of(100, 2450));
	EXPECT_NAN(tarn_air_latent_heat(80));
	EXPECT_NAN(tarn_air_vapour_rh_range(10, 20, -1, 80));
	EXPECT_NAN(tarn_air_vapour_rh_range(10, 20, 40, 101));
	EXPECT_NAN(tarn_air_vapour_rh_max(10, 140));
	EXPECT_NAN(tarn_air_vapour_rh_mean(10, 20, TARN_NAN));
	EXPECT_NAN(tarn_air_vapour_psychrometer(20, 21, 100, 0.000662));
	EXPECT_NAN(tarn_air_vapour_psychrometer(20, 15, 100, 0.0662));
	EXPECT_NAN(tarn_air_dewpoint(0));
	EXPECT_NAN(tarn_air_dewpoint(21));
	EXPECT_OK(tarn_air_dewpoint(0.001));
	EXPECT_NAN(tarn_air_wet_bulb(71, 1));
	EXPECT_NAN(tarn_air_wind_at_2m(-0.1, 10));
	EXPECT_NAN(tarn_air_wind_at_2m(3, 0.49));
	EXPECT_NAN(tarn_air_wind_at_2m(3, 101));
	EXPECT_OK(tarn_air_wind_at_2m(100, 0.5));
	EXPECT_NAN(tarn_air_wind_profile(3, 0.0001, 10, 0.0002));
	EXPECT_NAN(tarn_air_wind_profile(3, 2, 10, 0));
}
