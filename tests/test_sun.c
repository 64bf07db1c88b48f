/* SPDX-License-Identifier: MIT */
#include "published.h"
#include "tarn/evaporation.h"

#define FAO "FAO-56 (Allen et al. 1998) "
#define PI 3.14159265358979323846

Test(sun, fao)
{
	/* Rio de Janeiro in May: 220 h of sunshine in 31 days */
	double rio = tarn_sun_top_of_atmosphere(-22.9, 135);
	double share = 220.0 / 31 / tarn_sun_daylight(-22.9, 135);
	const struct published rows[] = {
		{ "example 7, Bangkok", 13.7333 * TARN_DEGREE, 0.240, 0.0005 },
		{ "example 7, Rio", -22.9 * TARN_DEGREE, -0.400, 0.0005 },
		{ "example 8, distance", tarn_sun_inverse_distance(246), 0.985,
		  0.0005 },
		{ "example 8, declination", tarn_sun_declination(246), 0.120,
		  0.0005 },
		{ "example 8, sunset", tarn_sun_sunset_angle(-20, 246), 1.527,
		  0.0005 },
		{ "example 8, top", tarn_sun_top_of_atmosphere(-20, 246), 32.2,
		  0.05 },
		{ "example 8, in mm",
		  tarn_sun_top_of_atmosphere(-20, 246) / TARN_LATENT_HEAT,
		  13.1, 0.05 },
		{ "table 3, MJ in a mm", TARN_LATENT_HEAT, 2.45, 0.001 },
		{ "example 9", tarn_sun_daylight(-20, 246), 11.7, 0.05 },
		{ "example 10, top", rio, 25.1, 0.05 },
		{ "example 10, daylight", tarn_sun_daylight(-22.9, 135), 10.9,
		  0.05 },
		{ "example 10, solar",
		  tarn_sun_from_sunshine(rio, share, 0.25, 0.50), 14.5, 0.05 },
	};
	const struct published emission[] = {
		{ "1 C", tarn_sun_emission(1), 27.70, 0.005 },
		{ "10 C", tarn_sun_emission(10), 31.52, 0.005 },
		{ "15 C", tarn_sun_emission(15), 33.81, 0.005 },
		{ "20 C", tarn_sun_emission(20), 36.21, 0.005 },
		{ "25 C", tarn_sun_emission(25), 38.75, 0.005 },
		{ "30 C", tarn_sun_emission(30), 41.41, 0.005 },
		{ "35 C", tarn_sun_emission(35), 44.21, 0.005 },
		{ "40 C", tarn_sun_emission(40), 47.15, 0.005 },
		{ "48.5 C", tarn_sun_emission(48.5), 52.49, 0.005 },
		{ "example 11, Tmax", tarn_sun_emission(25.1), 38.8, 0.05 },
		{ "example 11, Tmin", tarn_sun_emission(19.1), 35.8, 0.05 },
	};
	double clear = tarn_sun_clear_sky(rio, 0);
	double night = tarn_sun_net_longwave((38.8 + 35.8) / 2, 2.1,
					     14.5 / clear);
	const struct published longwave[] = {
		{ "example 11", night, 3.5, 0.05 },
	};

	EXPECT_PRINTED(FAO "examples", rows);
	EXPECT_PRINTED(FAO "table 2.8", emission);
	EXPECT_PRINTED(FAO "examples", longwave);
}

/* N'Diaye, 1 October, 14:00 to 15:00 and 02:00 to 03:00.  The tolerances are
 * those of values that the example carries on rounded. */
Test(sun, fao_example_19_hourly)
{
	double w = tarn_sun_hour_angle(14.5, 274, 15, 16.25), half = PI / 24;
	double top = tarn_sun_top_between(16.2167, 274, w - half, w + half);
	double clear = tarn_sun_clear_sky(top, 8);
	double ea = 0.52 * tarn_air_saturation(38);
	double ea_night = 0.90 * tarn_air_saturation(28);
	double longwave = tarn_sun_net_longwave(tarn_sun_emission(38) / 24, ea,
						2.450 / clear);
	double loss = tarn_sun_net_longwave(tarn_sun_emission(28) / 24,
					    ea_night, 0.8);
	static const struct tarn_reference_crop hourly = { 37, 0.34 };
	struct tarn_conditions day = {
		.tmean_c = 38, .saturation_kpa = tarn_air_saturation(38),
		.vapour_kpa = ea, .slope_kpa_c = tarn_air_slope(38),
		.psychrometric_kpa_c =
			tarn_air_psychrometric(tarn_air_pressure(8)),
		.wind_2m_ms = 3.3, .solar_mj = 2.450, .longwave_mj = longwave,
	};
	double net = tarn_net_radiation(&day, TARN_ALBEDO_GRASS);
	struct tarn_conditions dark = day;
	const struct published rows[] = {
		{ "hour angle", w, 0.682, 0.001 },
		{ "top", top, 3.543, 0.003 },
		{ "clear", clear, 2.658, 0.003 },
		{ "ea", ea, 3.445, 0.001 },
		{ "longwave", longwave, 0.137, 0.001 },
		{ "net", net, 1.749, 0.002 },
		{ "reference", tarn_evaporation_reference(&day, 0.9 * net,
							  hourly),
		  0.63, 0.005 },
		{ "night, ea", ea_night, 3.402, 0.001 },
		{ "night, longwave", loss, 0.100, 0.001 },
		{ "night, into the soil", -0.5 * loss, -0.050, 0.001 },
	};

	EXPECT_PRINTED(FAO "example 19", rows);
	dark.tmean_c = 28;
	dark.saturation_kpa = tarn_air_saturation(28);
	dark.slope_kpa_c = tarn_air_slope(28);
	dark.vapour_kpa = ea_night;
	dark.wind_2m_ms = 1.9;
	cr_expect(fabs(tarn_evaporation_reference(&dark, -0.5 * loss,
						  hourly)) < 0.005,
		  "example 19, night");
}

/* McMahon et al. (2013) S19, second-hand.  It takes 0 C as 273.2 K, 0.04
 * above FAO-56, and 0.23 for the first Angstrom coefficient. */
Test(sun, mcmahon_alice_springs_second_hand)
{
	double lat = -23.7951, day = 202;
	double top = tarn_sun_top_of_atmosphere(lat, day);
	double clear = tarn_sun_clear_sky(top, 546);
	double share = 10.7 / tarn_sun_daylight(lat, day);
	double solar = tarn_sun_from_sunshine(top, share, 0.23, 0.50);
	double ea = tarn_air_vapour_rh_range(2, 21, 25, 71);
	double warm = (tarn_sun_emission(21.04) + tarn_sun_emission(2.04)) / 2;
	double longwave = tarn_sun_net_longwave(warm, ea, solar / clear);
	struct tarn_conditions c = { .solar_mj = solar,
				     .longwave_mj = longwave };
	const struct published rows[] = {
		{ "distance", tarn_sun_inverse_distance(day), 0.9688, 0.0001 },
		{ "declination", tarn_sun_declination(day), 0.3557, 0.0001 },
		{ "sunset", tarn_sun_sunset_angle(lat, day), 1.4063, 0.0001 },
		{ "daylight", tarn_sun_daylight(lat, day), 10.7431, 0.0002 },
		{ "top", top, 23.6182, 0.0002 },
		{ "clear", clear, 17.9716, 0.0002 },
		{ "solar", solar, 17.1940, 0.0005 },
		{ "longwave", longwave, 7.1784, 0.0005 },
		{ "short, water", 0.92 * solar, 15.8184, 0.0005 },
		{ "net, water", tarn_net_radiation(&c, TARN_ALBEDO_WATER),
		  8.6401, 0.0005 },
		{ "short, grass", 0.77 * solar, 13.2393, 0.0005 },
		{ "net, grass", tarn_net_radiation(&c, TARN_ALBEDO_GRASS),
		  6.0610, 0.0005 },
	};
	/* a test constant of another library, Fallon, 1 July 2015 */
	const struct published fallon[] = {
		{ "top", tarn_sun_top_of_atmosphere(39.4575, 182), 41.648246,
		  4.1e-4 },
	};

	EXPECT_QUOTED("McMahon et al. (2013) S19", rows);
	EXPECT_ROWS("Fallon, other library", fallon);
}

/* Two ephemerides, 20 S, 3 September 2023 (values read from them): FAO's
 * declination stands 1.5 % of radiation and daylight away. */
Test(sun, ephemerides_within_a_band)
{
	const struct published rows[] = {
		{ "top, integrated by the minute",
		  tarn_sun_top_of_atmosphere(-20, 246), 31.836,
		  0.015 * 31.836 },
		{ "daylight, centre of the disc", tarn_sun_daylight(-20, 246),
		  11.629, 0.015 * 11.629 },
	};

	EXPECT_ROWS("ephemerides", rows);
}

/* Declination and distance of the Astronomical Almanac's low-precision
 * formula (from memory), for the accuracy that the header states. */
static void almanac(double days_since_2000, double *declination, double *r)
{
	double g = (357.529 + 0.98560028 * days_since_2000) * TARN_DEGREE;
	double q = (280.459 + 0.98564736 * days_since_2000) * TARN_DEGREE;
	double l = q + (1.915 * sin(g) + 0.020 * sin(2 * g)) * TARN_DEGREE;

	*r = 1.00014 - 0.01671 * cos(g) - 0.00014 * cos(2 * g);
	*declination = asin(sin(23.439 * TARN_DEGREE) * sin(l));
}

Test(sun, accuracy)
{
	double worst[3] = { 0, 0, 0 };

	for (int j = 1; j <= 365; j++) {
		double decl, r;

		almanac(366 + j - 1, &decl, &r);	/* of 2001 */
		worst[0] = fmax(worst[0],
				fabs(decl - tarn_sun_declination(j)));
		for (double lat = -60; lat <= 60; lat += 5) {
			double phi = lat * TARN_DEGREE;
			double ws = acos(-tan(phi) * tan(decl));
			double top = 1440 / PI * 0.0820 / (r * r) *
				     (ws * sin(phi) * sin(decl) +
				      cos(phi) * cos(decl) * sin(ws));

			worst[1] = fmax(worst[1], fabs(
				top - tarn_sun_top_of_atmosphere(lat, j)));
			worst[2] = fmax(worst[2], fabs(
				24 / PI * ws - tarn_sun_daylight(lat, j)));
		}
	}
	cr_expect(worst[0] < 1.2 * TARN_DEGREE, "%g", worst[0]);
	cr_expect(worst[1] < 1.3, "%g", worst[1]);
	cr_expect(worst[2] < 0.3, "%g", worst[2]);
}

/* By hand: at the equinox on the equator the sun sinks straight down, 15
 * degrees an hour, so that 50 minutes of arc at both ends are 1/9 h. */
Test(sun, seen_by_its_edge)
{
	double least = 24, most = 0;

	for (int j = 1; j <= 366; j++)
		for (double lat = -60; lat <= 60; lat += 5) {
			double over_h = tarn_sun_seen(lat, j) -
					tarn_sun_daylight(lat, j);

			least = fmin(least, over_h);
			most = fmax(most, over_h);
		}
	cr_expect(fabs(least - 1.0 / 9) < 1e-4, "%g", least);
	cr_expect(most > 0.2 && most < 0.4, "%g", most);
	cr_expect(fabs(tarn_sun_seen(0, 81) - 12 - 1.0 / 9) < 1e-3);
	cr_expect(tarn_sun_seen(90, 172) > 24 - 1e-9);
	cr_expect(tarn_sun_seen(90, 355) < 1e-9);
	cr_expect(tarn_sun_seen(-90, 355) > 24 - 1e-9);
	EXPECT_NAN(tarn_sun_seen(91, 1));
	EXPECT_NAN(tarn_sun_seen(40, 0));
}

Test(sun, laws)
{
	for (int j = 1; j <= 366; j++)
		for (double lat = -90; lat <= 90; lat += 2.5) {
			double top = tarn_sun_top_of_atmosphere(lat, j);
			double n = tarn_sun_daylight(lat, j);
			double sum = 0;

			cr_expect(top >= 0 && top < 50, "%g %d", lat, j);
			cr_expect(fabs(n + tarn_sun_daylight(-lat, j) - 24) <
				  1e-9, "%g %d", lat, j);
			/* a night has neither light nor radiation */
			cr_expect((n > 0) == (top > 0) || top < 1e-6,
				  "%g %d: %g h %g", lat, j, n, top);
			for (int h = -12; h < 12; h++)
				sum += tarn_sun_top_between(lat, j, h * PI / 12,
							    (h + 1) * PI / 12);
			cr_expect(fabs(sum - top) < 1e-9, "%g %d", lat, j);
		}
	/* polar night and polar day */
	cr_expect(tarn_sun_daylight(80, 355) == 0);
	cr_expect(tarn_sun_top_of_atmosphere(80, 355) == 0);
	cr_expect(fabs(tarn_sun_daylight(80, 172) - 24) < 1e-12);
	cr_expect(fabs(tarn_sun_daylight(90, 172) - 24) < 1e-12);
	/* more cloud, less loss; and never a gain from the sky */
	cr_expect(tarn_sun_net_longwave(35, 1.5, 0.5) <
		  tarn_sun_net_longwave(35, 1.5, 0.9));
	cr_expect(tarn_sun_net_longwave(35, 1.5, 0) > 0);
	cr_expect(tarn_sun_net_longwave(35, 1.5, 0) ==
		  tarn_sun_net_longwave(35, 1.5, 0.3));
	cr_expect(tarn_sun_net_longwave(35, 1.5, 1.7) ==
		  tarn_sun_net_longwave(35, 1.5, 1));
	cr_expect(fabs(tarn_sun_from_range(30, 10, 26, 0.16) - 0.64 * 30) <
		  1e-12);
}

Test(sun, ranges)
{
	EXPECT_NAN(tarn_sun_declination(0));
	EXPECT_NAN(tarn_sun_declination(367));
	EXPECT_NAN(tarn_sun_inverse_distance(TARN_NAN));
	EXPECT_OK(tarn_sun_declination(1));
	EXPECT_OK(tarn_sun_declination(366));
	EXPECT_NAN(tarn_sun_sunset_angle(90.1, 10));
	EXPECT_NAN(tarn_sun_sunset_angle(-90.1, 10));
	EXPECT_NAN(tarn_sun_top_of_atmosphere(HUGE_VAL, 10));
	EXPECT_NAN(tarn_sun_top_of_atmosphere(10, 367));
	EXPECT_NAN(tarn_sun_daylight(TARN_NAN, 10));
	EXPECT_NAN(tarn_sun_top_between(10, 10, -4, 1));
	EXPECT_NAN(tarn_sun_top_between(10, 10, 1, 0.5));
	EXPECT_NAN(tarn_sun_hour_angle(25, 10, 0, 0));
	EXPECT_NAN(tarn_sun_hour_angle(12, 10, -15, 0));
	EXPECT_NAN(tarn_sun_clear_sky(-1, 0));
	EXPECT_NAN(tarn_sun_clear_sky(30, 7000));
	EXPECT_NAN(tarn_sun_from_sunshine(30, 1.01, 0.25, 0.5));
	EXPECT_NAN(tarn_sun_from_sunshine(30, 0.5, 0.6, 0.5));
	EXPECT_OK(tarn_sun_from_sunshine(30, 1, 0.25, 0.75));
	EXPECT_NAN(tarn_sun_from_range(30, 20, 10, 0.16));
	EXPECT_NAN(tarn_sun_from_range(30, 10, 20, 16));
	EXPECT_NAN(tarn_sun_emission(71));
	EXPECT_NAN(tarn_sun_net_longwave(35, -0.1, 0.5));
	EXPECT_NAN(tarn_sun_net_longwave(35, 1, -0.1));
	EXPECT_NAN(tarn_sun_net_longwave(35, 1, TARN_NAN));
}
