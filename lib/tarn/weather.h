/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_H
#define TARN_WEATHER_H

/*
 * weather: a table of consecutive days.  A column is an array of doubles,
 * one a day; a missing value is NaN.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

enum tarn_column {
	TARN_TMIN,		/* lowest air temperature      [deg C] */
	TARN_TMAX,		/* highest air temperature     [deg C] */
	TARN_TMEAN,		/* mean air temperature        [deg C] */
	TARN_RH_MIN,		/* lowest relative humidity    [%] */
	TARN_RH_MAX,		/* highest relative humidity   [%] */
	TARN_RH_MEAN,		/* mean relative humidity      [%] */
	TARN_DEWPOINT,		/* mean dew point              [deg C] */
	TARN_VAPOUR,		/* mean actual vapour pressure [kPa] */
	TARN_WIND,		/* mean wind speed             [m/s], at the
				   site's wind height */
	TARN_SUNSHINE,		/* bright sunshine             [h] */
	TARN_SOLAR,		/* global radiation            [MJ m-2 d-1] */
	TARN_RAIN,		/* precipitation               [mm] */
	TARN_PAN,		/* Class A pan evaporation     [mm] */
	TARN_REFERENCE,		/* given grass reference ET    [mm] */
	TARN_OPEN_WATER,	/* given open-water evaporation [mm] */
	TARN_PRESSURE,		/* mean air pressure at the station [kPa] */
	TARN_COLUMNS		/* how many there are */
};

/* Name of a column in scripts and files ("tmin", "rain", ...), its unit
 * ("deg C", "mm"), and the sanity bounds of one value. */
struct tarn_column_info {
	const char *name, *unit, *meaning;
	double lo, hi;
};
TARN_API const struct tarn_column_info *tarn_column_info(enum tarn_column c);

/* Column of that name, TARN_COLUMNS if there is none. */
TARN_API enum tarn_column tarn_column_find(const char *name);

/* Where the weather was taken.  NaN = not known. */
struct tarn_site {
	char name[64];
	double latitude_deg;	/* north positive  -90 .. 90 */
	double elevation_m;	/*                 -430 .. 6000 */
	double wind_height_m;	/* of the wind gauge  0.5 .. 100 */
};

struct tarn_weather;		/* opaque: owns its columns */

/*
 * New table of 'days' consecutive days from 'first_day' (see tarn_day), with
 * no columns.  Errors: TARN_EARG (range of days), TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_new(struct tarn_weather **out, const struct tarn_alloc *alloc,
		 long first_day, size_t days, struct tarn_error *err);
TARN_API void tarn_weather_free(struct tarn_weather *w);	/* NULL is fine */

TARN_API size_t tarn_weather_days(const struct tarn_weather *w);
TARN_API long tarn_weather_first(const struct tarn_weather *w);

/* Borrowed, filled with NaN when new; NULL if the table has no such column. */
TARN_API const double *tarn_weather_column(const struct tarn_weather *w,
					   enum tarn_column c);
/* The same to write into; adds the column if need be.  NULL: out of memory. */
TARN_API double *tarn_weather_add(struct tarn_weather *w, enum tarn_column c);

/* Borrowed; may be changed. */
TARN_API struct tarn_site *tarn_weather_site(struct tarn_weather *w);
TARN_API const struct tarn_site *
tarn_weather_site_of(const struct tarn_weather *w);

#ifdef __cplusplus
}
#endif
#endif
