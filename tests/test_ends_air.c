/* SPDX-License-Identifier: MIT */
#include "ends.h"

/* The formulas of evaporation.h. */

static const double pi = 3.14159265358979323846;

/* FAO-56 eq. 7 and 8, 11 to 13, and 3-1. */
Test(ends_air, pressure_and_saturation)
{
	const struct end rows[] = {
		{ "at the sea", tarn_air_pressure(0), 101.3 },
		{ "lowest", tarn_air_pressure(-430),
		  101.3 * pow((293 + 0.0065 * 430) / 293, 5.26) },
		{ "lower", tarn_air_pressure(-430.001), NONE },
		{ "highest", tarn_air_pressure(6000),
		  101.3 * pow(254.0 / 293, 5.26) },
		{ "higher", tarn_air_pressure(6000.001), NONE },
		{ "freezing", tarn_air_saturation(0), 0.6108 },
		{ "coldest", tarn_air_saturation(-90), ANY },
		{ "colder", tarn_air_saturation(-90 - BIT), NONE },
		{ "hottest", tarn_air_saturation(70), ANY },
		{ "hotter", tarn_air_saturation(70 + BIT), NONE },
		{ "mean of one", tarn_air_mean_saturation(0, 0), 0.6108 },
		{ "mean, cold", tarn_air_mean_saturation(-90 - BIT, 0), NONE },
		{ "mean, hot", tarn_air_mean_saturation(0, 70 + BIT), NONE },
		{ "slope at 0", tarn_air_slope(0),
		  4098 * 0.6108 / (237.3 * 237.3) },
		{ "slope, cold", tarn_air_slope(-90 - BIT), NONE },
		{ "slope, hot", tarn_air_slope(70 + BIT), NONE },
		{ "gamma, least", tarn_air_psychrometric(40), 0.0266 },
		{ "gamma, less", tarn_air_psychrometric(40 - BIT), NONE },
		{ "gamma, most", tarn_air_psychrometric(110), 0.07315 },
		{ "gamma, more", tarn_air_psychrometric(110 + BIT), NONE },
		{ "of 2", tarn_air_psychrometric_of(100, 2), 0.1013 / 1.244 },
		{ "of less", tarn_air_psychrometric_of(100, 2 - BIT), NONE },
		{ "of 3", tarn_air_psychrometric_of(100, 3), 0.1013 / 1.866 },
		{ "of more", tarn_air_psychrometric_of(100, 3 + BIT), NONE },
		{ "of 40 kPa", tarn_air_psychrometric_of(40, 2.5), ANY },
		{ "of less", tarn_air_psychrometric_of(40 - BIT, 2.5), NONE },
		{ "latent at 0", tarn_air_latent_heat(0), 2.501 },
		{ "latent, cold", tarn_air_latent_heat(-90), 2.71349 },
		{ "latent, colder", tarn_air_latent_heat(-90 - BIT), NONE },
		{ "latent, hot", tarn_air_latent_heat(70), 2.33573 },
		{ "latent, hotter", tarn_air_latent_heat(70 + BIT), NONE },
	};

	CHECK_ENDS(rows);
}

/* FAO-56 eq. 15 to 19, 47: of saturated air at 0 deg C 0.6108 kPa. */
Test(ends_air, vapour_and_wind)
{
	const struct end rows[] = {
		{ "dry", tarn_air_vapour_rh_mean(0, 0, 0), 0 },
		{ "moist", tarn_air_vapour_rh_mean(0, 0, 100), 0.6108 },
		{ "drier", tarn_air_vapour_rh_mean(0, 0, -BIT), NONE },
		{ "moister", tarn_air_vapour_rh_mean(0, 0, 100 + BIT), NONE },
		{ "max, dry", tarn_air_vapour_rh_max(0, 0), 0 },
		{ "max, moist", tarn_air_vapour_rh_max(0, 100), 0.6108 },
		{ "max, drier", tarn_air_vapour_rh_max(0, -BIT), NONE },
		{ "max, moister", tarn_air_vapour_rh_max(0, 100 + BIT), NONE },
		{ "range", tarn_air_vapour_rh_range(0, 0, 40, 60), 0.3054 },
		{ "range, dry", tarn_air_vapour_rh_range(0, 0, 0, 0), 0 },
		{ "range, moist", tarn_air_vapour_rh_range(0, 0, 100, 100),
		  0.6108 },
		{ "range, drier", tarn_air_vapour_rh_range(0, 0, -BIT, 50),
		  NONE },
		{ "range, moister",
		  tarn_air_vapour_rh_range(0, 0, 50, 100 + BIT), NONE },
		{ "wet as dry", tarn_air_vapour_psychrometer(0, 0, 100, 0.0008),
		  0.6108 },
		{ "10 apart",
		  tarn_air_vapour_psychrometer(10, 0, 50, 0.000662),
		  0.6108 - 0.000662 * 50 * 10 },
		{ "still", tarn_air_wind_at_2m(0, 10), 0 },
		{ "storm", tarn_air_wind_at_2m(100, 2), ANY },
		{ "over", tarn_air_wind_at_2m(100 + BIT, 2), NONE },
		{ "back", tarn_air_wind_at_2m(-BIT, 2), NONE },
		{ "low gauge", tarn_air_wind_at_2m(1, 0.5), 4.87 /
							    log(33.9 - 5.42) },
		{ "lower", tarn_air_wind_at_2m(1, 0.5 - BIT), NONE },
		{ "high gauge", tarn_air_wind_at_2m(1, 100),
		  4.87 / log(6780 - 5.42) },
		{ "higher", tarn_air_wind_at_2m(1, 100 + BIT), NONE },
		{ "same height", tarn_air_wind_profile(3, 2, 2, 0.001), 3 },
		{ "profile", tarn_air_wind_profile(1, 1e-3 * exp(1),
						   1e-3 * exp(2), 1e-3), 2 },
		{ "in the grass", tarn_air_wind_profile(3, 0.001, 2, 0.001),
		  NONE },
		{ "to the grass", tarn_air_wind_profile(3, 2, 0.001, 0.001),
		  NONE },
		{ "smoothest", tarn_air_wind_profile(3, 2, 2, 1e-6), 3 },
		{ "smoother", tarn_air_wind_profile(3, 2, 2, 1e-6 - 1e-12),
		  NONE },
		{ "roughest", tarn_air_wind_profile(3, 3, 3, 2), 3 },
		{ "rougher", tarn_air_wind_profile(3, 3, 3, 2 + BIT), NONE },
		{ "Penman 1956, still",
		  tarn_wind_function(TARN_WIND_1956, 0, 0), 1.313 },
		{ "Penman 1948, 1 m/s",
		  tarn_wind_function(TARN_WIND_1948, 1, 0), 2.626 + 1.381 },
		{ "1 m2", tarn_wind_function(TARN_WIND_MCJANNET, 2, 1), 5.7 },
		{ "Harbeck", tarn_wind_function(TARN_WIND_HARBECK, 2, 1),
		  5.818 },
		{ "a cup", tarn_wind_function(TARN_WIND_HARBECK, 2, 0.01), ANY },
		{ "less", tarn_wind_function(TARN_WIND_HARBECK, 2,
					     0.01 - BIT), NONE },
		{ "a sea", tarn_wind_function(TARN_WIND_MCJANNET, 2, 1e11), ANY },
		{ "more", tarn_wind_function(TARN_WIND_MCJANNET, 2,
					     1.0001e11), NONE },
		{ "wind back", tarn_wind_function(TARN_WIND_1956, -BIT, 0),
		  NONE },
		{ "hurricane", tarn_wind_function(TARN_WIND_1956, 100, 0),
		  1.313 + 138.1 },
		{ "more", tarn_wind_function(TARN_WIND_1956, 100 + BIT, 0),
		  NONE },
	};

	CHECK_ENDS(rows);
}

/* FAO-56 eq. 21 to 39; at the equator the sun sets at a quarter turn. */
Test(ends_air, sun)
{
	const double dr = 1 + 0.033 * cos(2 * pi / 365);
	const struct end rows[] = {
		{ "1 January", tarn_sun_inverse_distance(1), dr },
		{ "before", tarn_sun_inverse_distance(1 - BIT), NONE },
		{ "day 366", tarn_sun_inverse_distance(366),
		  1 + 0.033 * cos(2 * pi / 365 * 366) },
		{ "behind", tarn_sun_inverse_distance(366 + BIT), NONE },
		{ "declination", tarn_sun_declination(1),
		  0.409 * sin(2 * pi / 365 - 1.39) },
		{ "none", tarn_sun_declination(0), NONE },
		{ "equator", tarn_sun_sunset_angle(0, 80), pi / 2 },
		{ "equator's day", tarn_sun_daylight(0, 80), 12 },
		{ "pole, winter", tarn_sun_sunset_angle(90, 355), 0 },
		{ "pole, summer", tarn_sun_sunset_angle(90, 172), pi },
		{ "South pole", tarn_sun_daylight(-90, 355), 24 },
		{ "over the pole", tarn_sun_daylight(90 + BIT, 172), NONE },
		{ "under the pole", tarn_sun_daylight(-90 - BIT, 172), NONE },
		{ "night above the air", tarn_sun_top_of_atmosphere(90, 355), 0 },
		{ "clear at the sea", tarn_sun_clear_sky(10, 0), 7.5 },
		{ "clear at 1000 m", tarn_sun_clear_sky(10, 1000), 7.7 },
		{ "dark", tarn_sun_clear_sky(0, 0), 0 },
		{ "darker", tarn_sun_clear_sky(-BIT, 0), NONE },
		{ "no sunshine", tarn_sun_from_sunshine(10, 0, 0.25, 0.5), 2.5 },
		{ "all sunshine", tarn_sun_from_sunshine(10, 1, 0.25, 0.5), 7.5 },
		{ "less", tarn_sun_from_sunshine(10, -BIT, 0.25, 0.5), NONE },
		{ "more", tarn_sun_from_sunshine(10, 1 + BIT, 0.25, 0.5), NONE },
		{ "all comes down", tarn_sun_from_sunshine(10, 1, 0.5, 0.5), 10 },
		{ "more comes down", tarn_sun_from_sunshine(10, 1, 0.5, 0.51),
		  NONE },
		{ "no range", tarn_sun_from_range(10, 5, 5, 0.16), 0 },
		{ "16 deg C", tarn_sun_from_range(10, 5, 21, 0.16), 6.4 },
		{ "turned", tarn_sun_from_range(10, 5 + BIT, 5, 0.16), NONE },
		{ "least factor", tarn_sun_from_range(10, 5, 6, 0.1), 1 },
		{ "less", tarn_sun_from_range(10, 5, 6, 0.1 - BIT), NONE },
		{ "most", tarn_sun_from_range(10, 5, 6, 0.3), 3 },
		{ "more", tarn_sun_from_range(10, 5, 6, 0.3 + BIT), NONE },
		{ "black body", tarn_sun_emission(0),
		  4.903e-9 * pow(273.16, 4) },
		{ "cold", tarn_sun_emission(-90 - BIT), NONE },
		{ "hot", tarn_sun_emission(70 + BIT), NONE },
		{ "dry air, clear", tarn_sun_net_longwave(30, 0, 1), 10.2 },
		{ "clearer", tarn_sun_net_longwave(30, 0, 2), 10.2 },
		{ "overcast", tarn_sun_net_longwave(30, 0, 0.3),
		  10.2 * (1.35 * 0.3 - 0.35) },
		{ "dark", tarn_sun_net_longwave(30, 0, 0.1),
		  10.2 * (1.35 * 0.3 - 0.35) },
		{ "steam", tarn_sun_net_longwave(30, 20 + BIT, 1), NONE },
		{ "less vapour", tarn_sun_net_longwave(30, -BIT, 1), NONE },
	};

	CHECK_ENDS(rows);
}

/* Dew point of 0.6108 kPa by its own formula, within 0.02 of 0 deg C. */
Test(ends_air, dew_and_pans)
{
	const struct end rows[] = {
		{ "driest", tarn_air_dewpoint(0.001), ANY },
		{ "drier", tarn_air_dewpoint(0.001 - BIT), NONE },
		{ "dampest", tarn_air_dewpoint(20), ANY },
		{ "damper", tarn_air_dewpoint(20 + BIT), NONE },
		{ "e of 1", tarn_air_dewpoint(1), 116.9 / 16.78 },
		{ "bulb, cold", tarn_air_wet_bulb(-90 - BIT, 1), NONE },
		{ "bulb, hot", tarn_air_wet_bulb(70 + BIT, 1), NONE },
		{ "bulb, dry", tarn_air_wet_bulb(20, 0.001 - BIT), NONE },
		{ "bulb, damp", tarn_air_wet_bulb(20, 20 + BIT), NONE },
		{ "a light wind", tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 1,
						    60, 100), ANY },
		{ "lighter", tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 1 - BIT,
					       60, 100), NONE },
		{ "a strong wind", tarn_pan_to_grass(TARN_PAN_CLASS_A_DRY, 8,
						     60, 100), ANY },
		{ "stronger", tarn_pan_to_grass(TARN_PAN_CLASS_A_DRY, 8 + BIT,
						60, 100), NONE },
		{ "dry", tarn_pan_to_grass(TARN_PAN_COLORADO_GREEN, 2, 30, 100),
		  ANY },
		{ "drier", tarn_pan_to_grass(TARN_PAN_COLORADO_GREEN, 2,
					     30 - BIT, 100), NONE },
		{ "moist", tarn_pan_to_grass(TARN_PAN_COLORADO_DRY, 2, 84, 100),
		  ANY },
		{ "moister", tarn_pan_to_grass(TARN_PAN_COLORADO_DRY, 2,
					       84 + BIT, 100), NONE },
		{ "near", tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 2, 60, 1),
		  ANY },
		{ "nearer", tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 2, 60,
					      1 - BIT), NONE },
		{ "far", tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 2, 60, 1000),
		  ANY },
		{ "farther", tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 2, 60,
					       1000 + 1e-6), NONE },
		{ "no transfer", tarn_evaporation_mass_transfer(0, 0.6108, 3),
		  0 },
		{ "into dry air", tarn_evaporation_mass_transfer(0, 0, 2),
		  1.2216 },
	};

	CHECK_ENDS(rows);
}
