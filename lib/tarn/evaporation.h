/* SPDX-License-Identifier: MIT */
#ifndef TARN_EVAPORATION_H
#define TARN_EVAPORATION_H

/*
 * evaporation: how much water a day of weather takes from open water and
 * from plants that stand in it.
 *
 * One header a topic for the formulas, included below: the air, the sun, wind
 * functions, one formula for each method, pans, plants.  Here: one day as it
 * is known, with the estimates for what it lacks; then a whole weather.
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
#include "tarn/formulas/air.h"
#include "tarn/formulas/sun.h"
#include "tarn/formulas/wind.h"
#include "tarn/formulas/evaporation.h"
#include "tarn/formulas/pan.h"
#include "tarn/formulas/plants.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- methods and origins ------------------------------------------------ */

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

/* "penman_1956", and a line for reports; "unknown" for any other number. */
TARN_API const char *tarn_method_name(enum tarn_method m);
TARN_API const char *tarn_method_title(enum tarn_method m);
/* Method of that name, TARN_METHODS if there is none. */
TARN_API enum tarn_method tarn_method_find(const char *name);

/*
 * How a value was found, or what was done to it.  One of the first six tells
 * the humidity of a day, one of the next three its radiation, one of the next
 * two its wind.
 */
enum tarn_origin {
	TARN_ORIGIN_VAPOUR,		/* vapour pressure as given */
	TARN_ORIGIN_DEWPOINT,		/* FAO-56 eq. 14 */
	TARN_ORIGIN_RH_RANGE,		/* eq. 17 */
	TARN_ORIGIN_RH_MAX,		/* eq. 18 */
	TARN_ORIGIN_RH_MEAN,		/* eq. 19 */
	TARN_ORIGIN_HUMIDITY_TMIN,	/* eq. 48: dew point = tmin */
	TARN_ORIGIN_SOLAR,		/* radiation as given */
	TARN_ORIGIN_SUNSHINE,		/* eq. 35 */
	TARN_ORIGIN_SOLAR_RANGE,		/* eq. 50 */
	TARN_ORIGIN_WIND,			/* wind as given */
	TARN_ORIGIN_WIND_DEFAULT,		/* a typical wind */
	TARN_ORIGIN_WIND_HEIGHT,	/* gauge taken to stand at 10 m */
	TARN_ORIGIN_SEA_LEVEL,		/* elevation taken as 0 m */
	TARN_ORIGIN_ABOVE_CLEAR_SKY,	/* more sun than a clear sky gives, by more
				   than TARN_SUNSHINE_OVER_H or TARN_SOLAR_OVER */
	TARN_ORIGIN_DARK,	/* polar night: half-clear sky taken */
	TARN_ORIGIN_WIND_FLOOR,		/* 0.5 m/s in the grass formula */
	TARN_ORIGIN_NO_DEW,		/* negative evaporation set to 0 */
	TARN_ORIGIN_ICE,	/* no evaporation, water at freezing */
	TARN_ORIGIN_GRASS_FROM_WATER,	/* grass = open water / factor */
	TARN_ORIGINS
};

struct tarn_origin_info {
	const char *name;	/* "humidity_tmin" */
	const char *title;	/* one line for reports */
	int estimate;		/* 1: stands in for something not measured */
};
TARN_API extern const struct tarn_fields tarn_origin_info_fields;
/* NULL for a number that is none of them. */
TARN_API const struct tarn_origin_info *
tarn_origin_info(enum tarn_origin origin);

/* ---- one day ------------------------------------------------------------ */

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
 * Conditions of a day; what it lacks is estimated by the origins of FAO-56
 * chapter 3 (inland), which 'origins' of the result tells.  Humidity is taken
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
 *   origins                      filled as in tarn_conditions; may be NULL
 * Errors: TARN_EARG, the field that the method misses.
 */
TARN_API enum tarn_status
tarn_evaporation_of_day(const struct tarn_evaporation_day *day,
			enum tarn_method method, double *open_water_mm,
			double *grass_mm, unsigned *origins,
			struct tarn_error *err);

/* ---- a whole weather ---------------------------------------------------- */

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

/* What was done.  A count of days for each origin. */
struct tarn_evaporation_report {
	enum tarn_method method;	/* that was used, never AUTO */
	size_t days;			/* that are not left out */
	size_t origin_days[TARN_ORIGINS];
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
 * A day that the weather leaves out gets NaN in all three, and is in no count;
 * after it the water begins at start_water_c again.
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

/* ---- a weather that can be run ------------------------------------------- */

/* What is run in place of a table with gaps has so many days, or half of the
 * table's.  Our own: a year, so that no season is left out. */
#define TARN_READY_DAYS 365

/* Which days are run where some cannot be. */
enum tarn_years {
	TARN_YEARS_MOST,	/* all calendar years that lack no day, or the
				   longest stretch without a gap where that has
				   more days */
	TARN_YEARS_COMPLETE,	/* calendar years of which no day is bridged or
				   lacks humidity, sun or wind that the table
				   has on other days */
	TARN_YEARS_ALL,		/* as most, with days without rain taken as dry */
	TARN_YEARS_STRETCH	/* the longest stretch without a gap */
};
#define TARN_READY_YEARS 401	/* calendar years that a table can touch */

/* Wishes: made by tarn_ready_default(). */
struct tarn_ready {
	long first_day, last_day;	/* TARN_NO_DAY: the table's own */
	int bridge_days;	/* gaps in tmin and tmax up to so many days are
				   bridged  0 .. 31; 3.  Our own */
	int bridge_others_days;	/* in all other columns but rain  0 .. 31; 0 */
	enum tarn_rain_rule rain;	/* TARN_RAIN_ZERO: days without rain
					   are dry */
	enum tarn_years years;	/* TARN_YEARS_STRETCH */
};
TARN_API struct tarn_ready tarn_ready_default(void);
TARN_API extern const struct tarn_fields tarn_ready_fields;

/* What was done. */
struct tarn_readied {
	enum tarn_method method;	/* that the columns were judged for */
	size_t filled[TARN_COLUMNS];	/* days bridged; of rain: taken as dry */
	size_t missing[TARN_COLUMNS];	/* days that a column which is needed
					   still lacked */
	size_t left_out;		/* days of the table (as cut by the
					   wishes) that are not run */
	size_t days;		/* that are run */
	long first_day, last_day;	/* the first and last of them */
	int stretch;		/* 1: one stretch of days is run, 0: calendar
				   years, of which some may be left out */
	char years_out[240];	/* these, as "1985, 1991 to 1993"; of a table's
				   ends maybe a part of one */
	size_t bridged, estimated;	/* days of the table with a value that was
					   bridged; that lack humidity, sun or
					   wind which others have */
};
TARN_API extern const struct tarn_fields tarn_readied_fields;

/*
 * The table that is run: the days wished for are cut out before anything is
 * judged; short gaps are bridged as the wishes say; of what is left those days
 * are taken that the rule of years gives.  A day that lacks rain or a column
 * which the method cannot do without (tmin and tmax; pan; reference; open water)
 * spoils its calendar year, or ends a stretch; of two stretches that are as
 * long, the later.  Years that are left out stay in the table, as
 * tarn_weather_leave_out has it, but for those at its ends, which are cut off; a
 * part of a year at either end counts as a year.  No other column is judged, but
 * by TARN_YEARS_COMPLETE: what a day lacks of humidity, sun and wind
 * tarn_evaporation_run estimates, day by day.  Rain is never made up.
 *
 *   out    new table; free it with tarn_weather_free
 *   o      method (auto: chosen on the table after bridging), latitude
 *   done   filled, or NULL; the same is added to the table's notes
 *
 * A column that the table lacks altogether is left to those who need it.
 * Errors: TARN_EARG, field "first" or "last": no day of the table; "bridge";
 * an option; the column that most days lack, where the days that are run are
 * neither TARN_READY_DAYS nor half of the table; "years", where none of them is
 * complete; TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_ready(struct tarn_weather **out, const struct tarn_weather *w,
		   const struct tarn_evaporation_options *o,
		   const struct tarn_ready *wishes, struct tarn_readied *done,
		   struct tarn_error *err);

/* ---- methods beside each other ------------------------------------------ */

/* Methods of evaporation stand up to so much apart on the same weather, as a
 * share of each: see tarn_leak_options.  What a range is taken to be where only
 * one can be run. */
#define TARN_METHOD_SPREAD 0.25

/* A method that lacks more of the days, as a share, is not compared.  Our own:
 * what is put in its place is then no more than a tenth of its sum. */
#define TARN_BESIDE_LACKING 0.1

/*
 * Days on which a method lacks a value that it cannot do without (tmin and
 * tmax; pan; reference; open water).  0: it can be run as it is.  -1: it
 * cannot be run at all, for want of a column, of an option, or by the order of
 * two temperatures.  -2: out of memory.  m: not TARN_METHOD_AUTO.
 * Definition: no source
 */
TARN_API long tarn_evaporation_lacking(const struct tarn_weather *w,
				       const struct tarn_evaporation_options *o,
				       enum tarn_method m);

/* What another method gave for the same days [mm]; borrowed. */
struct tarn_evaporation_base {
	const double *open_water_mm, *grass_mm;
};

/*
 * Evaporation of every day by a method (o->method, not auto) beside a base
 * that has all of them, so that a day which is missing takes away no range:
 * on days that the method lacks it is the base's, times the ratio of both sums
 * over the days that it has.  The ratio of sums is that by which neighbouring
 * gauges are filled (WMO-No. 168, 2008, volume I, normal-ratio method; from
 * memory).
 *
 *   open_water_mm, grass_mm   filled, one for each day  [mm] >= 0
 *   report                    filled, or NULL: of all days
 * Errors: as tarn_evaporation_run; TARN_EARG, field "method", where it lacks
 * more than TARN_BESIDE_LACKING of the days; TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_evaporation_beside(const struct tarn_weather *w,
			const struct tarn_evaporation_options *o,
			const struct tarn_evaporation_base *base,
			double *open_water_mm, double *grass_mm,
			struct tarn_evaporation_report *report,
			struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
