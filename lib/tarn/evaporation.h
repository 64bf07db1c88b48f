/* SPDX-License-Identifier: MIT */
#ifndef TARN_EVAPORATION_H
#define TARN_EVAPORATION_H

/*
 * evaporation: how much water a day of weather takes from open water and
 * from plants that stand in it.
 *
 * From small to large: the air, the sun, wind functions, one formula for
 * each method, plants and pans; then one day as it is known, with the
 * estimates for what it lacks; then a whole weather.
 *
 * Formulas take and return plain doubles and give NaN outside the range that
 * stands in the right-hand column.  A column of ranges that is empty means
 * any number.
 *
 * FAO-56 is Allen, Pereira, Raes and Smith (1998), Crop evapotranspiration,
 * FAO Irrigation and Drainage Paper 56.  S<n> is the supplement of McMahon,
 * Peel, Lowe, Srikanthan and McVicar (2013), Hydrology and Earth System
 * Sciences 17, 1331-1363.
 */

#include "tarn/base.h"
#include "tarn/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Latent heat of vaporisation [MJ/kg]: FAO-56 eq. 20, its value at 20 deg C.
 * A depth of 1 mm is 2.45 MJ m-2. */
#define TARN_LATENT_HEAT 2.45

#define TARN_DEGREE 0.017453292519943295	/* [radian] */

/* ---- air --------------------------------------------------------------- */

#define TARN_AIR_TEMP_MIN (-90.0)
#define TARN_AIR_TEMP_MAX 70.0
#define TARN_ELEVATION_MIN (-430.0)	/* the shore of the Dead Sea */
#define TARN_ELEVATION_MAX 6000.0
#define TARN_WIND_MAX 100.0
#define TARN_WIND_HEIGHT_MIN 0.5
#define TARN_WIND_HEIGHT_MAX 100.0

/*
 * Air pressure at an elevation, for air of 20 deg C at sea level.
 *
 *   elevation_m                                    [m]  -430 .. 6000
 *   returns                                        [kPa]
 * Source: FAO-56 eq. 7.
 */
TARN_API double tarn_air_pressure(double elevation_m);

/*
 * Saturation vapour pressure over liquid water, also below freezing.
 *
 *   t_c                                            [deg C]  -90 .. 70
 *   returns                                        [kPa]
 * Formula:  0.6108 exp(17.27 t / (t + 237.3))
 * Source:   FAO-56 eq. 11; the range is ours.
 * Accuracy: within 0.14 % of the IAPWS saturation line from 0 to 60 deg C.
 */
TARN_API double tarn_air_saturation(double t_c);

/* Mean saturation vapour pressure of a day, from its extremes, FAO-56
 * eq. 12 [kPa].  Higher than that of the mean temperature. */
TARN_API double tarn_air_mean_saturation(double tmin_c, double tmax_c);

/* Slope of the saturation curve, FAO-56 eq. 13 [kPa/C]; range as there. */
TARN_API double tarn_air_slope(double t_c);

/*
 * Psychrometric constant.
 *
 *   pressure_kpa                                   [kPa]  40 .. 110
 *   returns                                        [kPa/C]
 * Formula: 0.665e-3 P, FAO-56 eq. 8; the latent heat in it is 2.45.
 */
TARN_API double tarn_air_psychrometric(double pressure_kpa);

/* The same unrounded and for another latent heat: 1.013e-3 P / (0.622
 * latent), FAO-56 eq. 8.  latent_mj_kg [MJ/kg]  2 .. 3 */
TARN_API double tarn_air_psychrometric_of(double pressure_kpa,
					  double latent_mj_kg);

/* Latent heat of vaporisation at a temperature [MJ/kg]: 2.501 - 0.002361 t,
 * FAO-56 annex 3, eq. 3-1. */
TARN_API double tarn_air_latent_heat(double t_c);

/*
 * Vapour pressure of the air from what was measured:
 *
 *   rh_range        lowest and highest humidity     FAO-56 eq. 17, best
 *   rh_max          highest humidity                       eq. 18
 *   rh_mean         mean humidity                          eq. 19, least good
 *   psychrometer    dry and wet bulb                       eq. 15
 *
 *   rh_..                                          [%]  0 .. 100
 *   returns                                        [kPa]
 * A dew point needs no function of its own: the vapour pressure is
 * tarn_air_saturation(dew point), eq. 14.
 *
 * coefficient [1/C]: 0.000662 ventilated, 0.0008 naturally ventilated,
 * 0.0012 indoors, eq. 16.
 */
TARN_API double tarn_air_vapour_rh_range(double tmin_c, double tmax_c,
					 double rh_min, double rh_max);
TARN_API double tarn_air_vapour_rh_max(double tmin_c, double rh_max);
TARN_API double tarn_air_vapour_rh_mean(double tmin_c, double tmax_c,
					double rh_mean);
TARN_API double tarn_air_vapour_psychrometer(double dry_c, double wet_c,
					     double pressure_kpa,
					     double coefficient);

/*
 * Dew point from vapour pressure.
 *
 *   vapour_kpa                                     [kPa]  0.001 .. 20
 *   returns                                        [deg C]
 * Formula:  (116.9 + 237.3 ln e) / (16.78 - ln e), S2.3.
 * Accuracy: inverts tarn_air_saturation within 0.02 C from -60 to 50 deg C.
 */
TARN_API double tarn_air_dewpoint(double vapour_kpa);

/*
 * Wet-bulb temperature, by one straight line from the dew point.
 *
 * Source:   S2.2.
 * Accuracy: too high, by up to 0.5 C at 50 % humidity and 2.5 C at 20 %.
 *           It serves as a start for the water's equilibrium temperature,
 *           where that does no harm.
 */
TARN_API double tarn_air_wet_bulb(double t_c, double vapour_kpa);

/*
 * Wind at 2 m from wind at another height, over short grass.
 *
 *   wind_ms                                        [m/s]  0 .. 100
 *   height_m                                       [m]    0.5 .. 100
 *   returns                                        [m/s]
 * Source: FAO-56 eq. 47.
 */
TARN_API double tarn_air_wind_at_2m(double wind_ms, double height_m);

/*
 * Wind at a height from wind at another, by the logarithmic profile.
 *
 *   from_m, to_m                                   [m]  above roughness
 *   roughness_m      0.0002 water, 0.001 pan (S4.4) [m]  1e-6 .. 2
 */
TARN_API double tarn_air_wind_profile(double wind_ms, double from_m,
				      double to_m, double roughness_m);

/* ---- sun --------------------------------------------------------------- */

/*
 * Latitudes are degrees, north positive, -90 .. 90; days of the year 1 ..
 * 366.  Polar night and polar day are answered: no sun, or 24 h of it.
 *
 * Accuracy: against the sun's true position over whole years (low-precision
 * formula of the Astronomical Almanac), up to 60 degrees of latitude:
 * declination within 1.2 degrees, top_of_atmosphere within 1.3 MJ m-2 d-1,
 * daylight within 0.3 h, each at its worst at the end of September.
 * Refraction and the sun's disc, which add 7 minutes and more to a day, are
 * left out.
 */

/* (Mean distance of the sun / distance)^2, FAO-56 eq. 23 [-]. */
TARN_API double tarn_sun_inverse_distance(double day_of_year);

/* Declination of the sun, FAO-56 eq. 24 [radian]. */
TARN_API double tarn_sun_declination(double day_of_year);

/* Hour angle of sunset, FAO-56 eq. 25 [radian]; 0 in polar night, pi in
 * polar day. */
TARN_API double tarn_sun_sunset_angle(double latitude_deg, double day_of_year);

/* Radiation on a level plane above the air, FAO-56 eq. 21 [MJ m-2 d-1]. */
TARN_API double tarn_sun_top_of_atmosphere(double latitude_deg,
					   double day_of_year);

/* The same between two hour angles [radian], FAO-56 eq. 28 [MJ m-2].  The
 * part of the interval between sunset and sunrise counts as nothing. */
TARN_API double tarn_sun_top_between(double latitude_deg, double day_of_year,
				     double from, double to);

/*
 * Hour angle of the sun at a clock hour, FAO-56 eq. 31 to 33 [radian].
 *
 *   clock_h       standard time, middle of the period         [h]  0 .. 24
 *   meridian_deg  longitude of the time zone's meridian, west positive
 *   longitude_deg longitude of the place, west positive        0 .. 360
 */
TARN_API double tarn_sun_hour_angle(double clock_h, double day_of_year,
				    double meridian_deg,
				    double longitude_deg);

/* Hours between sunrise and sunset, FAO-56 eq. 34 [h]. */
TARN_API double tarn_sun_daylight(double latitude_deg, double day_of_year);

/* Radiation of a cloudless day, FAO-56 eq. 37: (0.75 + 2e-5 z) top
 * [MJ m-2 d-1]. */
TARN_API double tarn_sun_clear_sky(double top_mj, double elevation_m);

/*
 * Global radiation from sunshine, FAO-56 eq. 35: (a + b share) top.
 *
 *   share   hours of sunshine / hours of daylight   [-]  0 .. 1
 *   a, b    0.25 and 0.50 unless calibrated         [-]  a + b <= 1
 */
TARN_API double tarn_sun_from_sunshine(double top_mj, double share, double a,
				       double b);

/*
 * Global radiation from the range of temperature, FAO-56 eq. 50.
 *
 *   factor  0.16 inland, 0.19 at a coast            [-]  0.1 .. 0.3
 * Accuracy: good for sums of a week or longer, not for a day.  The caller
 * limits it to the clear sky.
 */
TARN_API double tarn_sun_from_range(double top_mj, double tmin_c,
				    double tmax_c, double factor);

/* Radiation of a black body, source FAO-56 table 2.8: 4.903e-9 (t + 273.16)^4
 * [MJ m-2 d-1].  t_c [deg C]  -90 .. 70 */
TARN_API double tarn_sun_emission(double t_c);

/*
 * Net longwave radiation that the ground loses to the sky.
 *
 *   emission_mj  black body at air temperature: the mean of
 *                those at tmin and tmax               [MJ m-2 d-1]
 *   vapour_kpa                                        [kPa]  0 .. 20
 *   clearness    global / clear-sky radiation, held within 0.3 and 1
 *   returns                                           [MJ m-2 d-1]
 * Source: FAO-56 eq. 39.  The lower limit is that of ASCE-EWRI (2005), The
 *         ASCE standardized reference evapotranspiration equation: without
 *         it a dark day would gain heat from a sky colder than the air.
 */
TARN_API double tarn_sun_net_longwave(double emission_mj, double vapour_kpa,
				      double clearness);

/* ---- wind functions ---------------------------------------------------- */

/*
 * Evaporation for each kPa that the air is short of saturation: how well the
 * wind carries vapour away.
 */
enum tarn_wind_function {
	TARN_WIND_1956,		/* 1.313 + 1.381 u2: Penman (1956), S4.3 */
	TARN_WIND_1948,		/* 2.626 + 1.381 u2: Penman (1948), S4.11 */
	TARN_WIND_MCJANNET,	/* (2.36 + 1.67 u2) A^-0.05: McJannet, Webster
				   and Cook (2012), quoted at second hand */
	TARN_WIND_HARBECK,	/* 2.909 A^-0.05 u2: Harbeck (1962), USGS
				   Professional Paper 272-E; this form from
				   memory.  Fitted to 1 .. 30,000 acres */
	TARN_WIND_SWEERS,	/* (5e6/A)^0.05 (3.80 + 1.57 u10) / 2.45:
				   Sweers (1976) as S11 gives it, u10 by the
				   profile over water */
	TARN_WIND_FUNCTIONS
};

/*
 *   wind_2m_ms                                      [m/s]  0 .. 100
 *   area_m2   water surface; the Penman functions
 *             do not look at it                     [m2]  0.01 .. 1e11
 *   returns                                         [mm d-1 kPa-1]
 * Source: as said beside each.
 */
TARN_API double tarn_wind_function(enum tarn_wind_function f,
				   double wind_2m_ms, double area_m2);

/* ---- one formula for each method --------------------------------------- */

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
	unsigned rules;			/* how it was found: bits 1u << enum
					   tarn_rule */
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

/* ---- pans -------------------------------------------------------------- */

/*
 * A pan is brought to a pond OR to grass by a coefficient, never by both.
 *
 * To a pond: 0.70, Class A pan, for years; single months 0.6 to 0.8 (Kohler,
 * Nordenson and Fox 1955, US Weather Bureau Research Paper 38; from memory).
 */
#define TARN_PAN_TO_POND 0.70

/* To grass: FAO-56 table 7, by pan and by what lies upwind of it. */
enum tarn_pan {
	TARN_PAN_CLASS_A_GREEN,
	TARN_PAN_CLASS_A_DRY,
	TARN_PAN_COLORADO_GREEN,
	TARN_PAN_COLORADO_DRY,
	TARN_PANS
};

#define TARN_PAN_WIND_MIN 1.0
#define TARN_PAN_WIND_MAX 8.0
#define TARN_PAN_RH_MIN 30.0
#define TARN_PAN_RH_MAX 84.0
#define TARN_PAN_FETCH_MIN 1.0
#define TARN_PAN_FETCH_MAX 1000.0

/*
 *   wind_2m_ms                                      [m/s]  1 .. 8
 *   rh_mean                                         [%]    30 .. 84
 *   fetch_m    length of that upwind ground         [m]    1 .. 1000
 *   returns    grass reference / pan                [-]
 */
TARN_API double tarn_pan_to_grass(enum tarn_pan pan, double wind_2m_ms,
				  double rh_mean, double fetch_m);

/* ---- plants ------------------------------------------------------------ */

/* Plant factors on the grass reference, FAO-56 table 12. */
struct tarn_plant {
	const char *name;	/* "cattail_frost" */
	double start, mid, end;	/* early, full and late season [-] */
	double height_m;	/* of the grown stand; NaN: water */
	const char *meaning;
};
TARN_API extern const struct tarn_fields tarn_plant_fields;
TARN_API const struct tarn_plant *tarn_plants(size_t *count);

#define TARN_PLANT_FACTOR_MAX 2.5
#define TARN_PLANT_WIND_MIN 1.0
#define TARN_PLANT_WIND_MAX 6.0
#define TARN_PLANT_RH_MIN 20.0
#define TARN_PLANT_RH_MAX 80.0
#define TARN_PLANT_HEIGHT_MIN 0.1
#define TARN_PLANT_HEIGHT_MAX 10.0

/*
 * A factor of that table (made for 45 % and 2 m/s) in another climate.
 *
 *   factor                                          [-]    0 .. 2.5
 *   wind_2m_ms   mean of the season                 [m/s]  1 .. 6
 *   rh_min       mean of the daily lowest           [%]    20 .. 80
 *   height_m     of the plants                      [m]    0.1 .. 10
 *   returns                                         [-]
 * Source: FAO-56 eq. 62.
 */
TARN_API double tarn_plant_factor(double factor, double wind_2m_ms,
				  double rh_min, double height_m);

/*
 * A narrow strip of plants in dry surroundings, which blow through it from
 * the side.
 *
 *   dryness      of the surroundings: 1 bare and dry, 0 wet  [-]  0 .. 1
 *   height_m     of the plants                      [m]  0.1 .. 10
 *   width_m      of the strip, along the wind       [m]  0.1 .. 1000
 *   returns      at most 2.5                        [-]
 * Source: FAO-56 eq. 105.
 */
#define TARN_STRIP_WIDTH_MIN 0.1
#define TARN_STRIP_WIDTH_MAX 1000.0
TARN_API double tarn_plant_factor_strip(double dryness, double height_m,
					double width_m);

/* ---- methods and rules ------------------------------------------------- */

enum tarn_method {
	TARN_METHOD_AUTO,	/* see tarn_evaporation_run */
	TARN_PENMAN_1956,	/* Penman open water, 1956 wind function */
	TARN_PENMAN_1948,
	TARN_PENMAN_HEAT,	/* with the pond's temperature and heat */
	TARN_PRIESTLEY_TAYLOR,
	TARN_GRASS,		/* FAO-56 grass x open-water factor */
	TARN_HARGREAVES,	/* Hargreaves-Samani x open-water factor */
	TARN_MASS_TRANSFER,	/* McJannet's wind function; the water is as
				   warm as the mean of the air */
	TARN_PAN_COEFFICIENT,	/* pan evaporation x pan-to-pond */
	TARN_GIVEN_REFERENCE,	/* given grass x open-water factor */
	TARN_GIVEN,		/* given open-water evaporation */
	TARN_METHODS
};

/* Open water less than 2 m deep on the grass reference: FAO-56 table 12. */
#define TARN_WATER_OVER_GRASS 1.05

/* "penman_1956", and a line for reports. */
TARN_API const char *tarn_method_name(enum tarn_method m);
TARN_API const char *tarn_method_title(enum tarn_method m);
/* Method of that name, TARN_METHODS if there is none. */
TARN_API enum tarn_method tarn_method_find(const char *name);

/*
 * How a value was found, or what was done to it.  One of the first six tells
 * the humidity of a day, one of the next three its radiation, one of the next
 * two its wind.
 */
enum tarn_rule {
	TARN_RULE_VAPOUR,		/* vapour pressure as given */
	TARN_RULE_DEWPOINT,		/* FAO-56 eq. 14 */
	TARN_RULE_RH_RANGE,		/* eq. 17 */
	TARN_RULE_RH_MAX,		/* eq. 18 */
	TARN_RULE_RH_MEAN,		/* eq. 19 */
	TARN_RULE_HUMIDITY_TMIN,	/* eq. 48: dew point = tmin */
	TARN_RULE_SOLAR,		/* radiation as given */
	TARN_RULE_SUNSHINE,		/* eq. 35 */
	TARN_RULE_SOLAR_RANGE,		/* eq. 50 */
	TARN_RULE_WIND,			/* wind as given */
	TARN_RULE_WIND_DEFAULT,		/* a typical wind */
	TARN_RULE_WIND_HEIGHT,		/* gauge taken to stand at 10 m */
	TARN_RULE_SEA_LEVEL,		/* elevation taken as 0 m */
	TARN_RULE_ABOVE_CLEAR_SKY,	/* more sun than a clear sky gives */
	TARN_RULE_DARK,			/* polar night: half-clear sky taken */
	TARN_RULE_WIND_FLOOR,		/* 0.5 m/s in the grass formula */
	TARN_RULE_NO_DEW,		/* negative evaporation set to 0 */
	TARN_RULE_ICE,			/* no evaporation, water at freezing */
	TARN_RULE_GRASS_FROM_WATER,	/* grass = open water / factor */
	TARN_RULES
};

struct tarn_rule_info {
	const char *name;	/* "humidity_tmin" */
	const char *title;	/* one line for reports */
	int estimate;		/* 1: stands in for something not measured */
};
TARN_API extern const struct tarn_fields tarn_rule_info_fields;
TARN_API const struct tarn_rule_info *tarn_rule_info(enum tarn_rule rule);

/* ---- one day ----------------------------------------------------------- */

/* A day as it is known.  NaN = not given. */
struct tarn_evaporation_day {
	double tmin_c, tmax_c;	/* both are needed */
	double tmean_c;		/* else (tmin + tmax) / 2 */
	double rh_min, rh_max, rh_mean, dewpoint_c, vapour_kpa;
	double wind_2m_ms;
	double sunshine_h, solar_mj;
	double pressure_kpa;	/* else from the elevation */
	double latitude_deg, elevation_m, day_of_year;
	double albedo;		/* of the water, else 0.08 */
	double heat_storage_mj;	/* into the water, else 0 */
	double area_m2, water_c;	/* for mass transfer */
};

TARN_API struct tarn_evaporation_day tarn_evaporation_day_default(void);
TARN_API extern const struct tarn_fields tarn_evaporation_day_fields;

/*
 * Conditions of a day; what it lacks is estimated by the rules of FAO-56
 * chapter 3 (inland), which 'rules' of the result tells.  Humidity is taken
 * from the first of: vapour, dewpoint, rh_min and rh_max, rh_max, rh_mean,
 * tmin.  Radiation: solar, sunshine, range of temperature.  Wind: given,
 * else 2 m/s.
 *
 * Without a latitude or day of the year radiation stays NaN.
 * Errors: TARN_EARG.
 */
TARN_API enum tarn_status
tarn_conditions_of(const struct tarn_evaporation_day *day,
		   struct tarn_conditions *out, struct tarn_error *err);

/*
 * A day's evaporation of open water by a method that needs no more than the
 * day (Penman 1956 and 1948, Priestley-Taylor, grass, Hargreaves-Samani, mass
 * transfer), and the grass reference that goes with it.  Negative where dew
 * falls.
 *
 *   open_water_mm, grass_mm    filled; either may be NULL
 *   rules                      filled as in tarn_conditions; may be NULL
 * Errors: TARN_EARG, the field that the method misses.
 */
TARN_API enum tarn_status
tarn_evaporation_of_day(const struct tarn_evaporation_day *day,
			enum tarn_method method, double *open_water_mm,
			double *grass_mm, unsigned *rules,
			struct tarn_error *err);

/* ---- a whole weather --------------------------------------------------- */

struct tarn_evaporation_options {
	int method;			/* enum tarn_method */
	int coastal;			/* 1: 0.19 in FAO-56 eq. 50, not 0.16 */
	double albedo;			/* of the water */
	double shelter;			/* wind at the pond / in the open */
	double shade;			/* sun at the pond / in the open */
	double pan_coefficient;		/* pan to pond */
	double water_over_grass;	/* grass to pond */
	double priestley_taylor;	/* its factor */
	double dryness_c;		/* dew point below tmin where humidity
					   is not given; 2 to 3 if arid */
	double default_wind_ms;		/* at 2 m, where wind is not given */
	double area_m2;			/* mass transfer, heat */
	double depth_m;			/* mean depth; heat */
	double start_water_c;		/* heat; NaN: equilibrium */
	double latitude_deg;		/* NaN in these three: */
	double elevation_m;		/* the weather's own */
	double wind_height_m;
};

TARN_API struct tarn_evaporation_options
tarn_evaporation_options_default(void);
TARN_API extern const struct tarn_fields tarn_evaporation_fields;

/* What was done.  A count of days for each rule. */
struct tarn_evaporation_report {
	enum tarn_method method;	/* that was used, never AUTO */
	size_t days;
	size_t rule_days[TARN_RULES];
	double dew_mm;			/* sum of what was set to 0, positive */
};
TARN_API extern const struct tarn_fields tarn_evaporation_report_fields;

/*
 * 1 if a run says little of a warmer climate, else 0: its method knows neither
 * sun nor humidity or takes given evaporation, or one of the two was worked
 * out from temperature on any day.  Such formulas can misstate the change by
 * more than its size (Hydrology Research 48(5), 2017, p. 1391; see
 * docs/methods/study.md).
 */
TARN_API int
tarn_evaporation_rests_on_warmth(const struct tarn_evaporation_report *report);

/*
 * Evaporation of every day of a weather.
 *
 *   open_water_mm   filled, one for each day        [mm]
 *   grass_mm        filled, or NULL: FAO-56 grass reference where the weather
 *                   allows it; with Hargreaves-Samani that formula's; with a
 *                   given reference (also beside pan or given open water)
 *                   that; else open water / open-water factor
 *   water_c         filled, or NULL: the day's mean water temperature; NaN
 *                   but for TARN_PENMAN_HEAT         [deg C]
 *   report          filled, or NULL
 *
 * Shelter and shade act on pond and grass alike (not on pan and given
 * figures).  Dew is set to nothing, for pond and grass, and counted.
 *
 * TARN_METHOD_AUTO takes the first that is possible: Penman 1956 with some
 * humidity or radiation measured; given open water; given reference; Penman
 * 1956 from temperatures alone; pan.
 *
 * Errors: TARN_EARG with the option at fault, or with the column and the date
 * of a day that is missing.  Nothing is filled then.
 */
TARN_API enum tarn_status
tarn_evaporation_run(const struct tarn_weather *w,
		     const struct tarn_evaporation_options *o,
		     double *open_water_mm, double *grass_mm, double *water_c,
		     struct tarn_evaporation_report *report,
		     struct tarn_error *err);

/* 1 if tarn_evaporation_run would succeed by that method, else 0. */
TARN_API int tarn_evaporation_possible(const struct tarn_weather *w,
				       const struct tarn_evaporation_options *o,
				       enum tarn_method m);

#ifdef __cplusplus
}
#endif
#endif
