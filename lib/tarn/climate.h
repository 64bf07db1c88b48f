/* SPDX-License-Identifier: MIT */
#ifndef TARN_CLIMATE_H
#define TARN_CLIMATE_H

/*
 * climate: some weather where none is at hand, drawn by chance from published
 * monthly normals.  Part of the wing study.
 *
 * It is a climate, and nobody's weather: it says what a pond in such a climate
 * takes in a usual year, and little of a drought, since its years differ less
 * than nature's.  docs/methods/climate.md has the source of each number, and
 * compares such a climate with the days of the same station.
 */

#include "tarn/study.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Normals of a station, all by month. */
struct tarn_climate {
	const char *name;	/* "austin", for a command line */
	const char *place;	/* "Austin, Texas, US" */
	const char *kind;	/* its seasons in a few words */
	const char *station;	/* the publisher's number of it, its name */
	const char *period;	/* "1981-2010" */
	const char *source;	/* publisher and table */
	const char *licence;
	double latitude_deg, elevation_m;
	double wet_mm;		/* a day with at least this is a wet one */
	double tmax_c[12], tmin_c[12];		/* daily means */
	double tmax_sd_c[12], tmin_sd_c[12];	/* of single days */
	double rain_mm[12];			/* of the month */
	double wet_days[12];			/* of the month */
};
TARN_API extern const struct tarn_fields tarn_climate_fields;

/*
 * All climates, from north to south.
 *
 *   count     filled: how many [-]; or NULL
 *   returns   the first of them [-], borrowed, never NULL
 */
TARN_API const struct tarn_climate *tarn_climates(size_t *count);

/*
 * A climate by its name.
 *
 *   returns   [-] borrowed; NULL: there is none of that name
 * Errors: TARN_EARG, field "climate", with the nearest name.
 */
TARN_API const struct tarn_climate *
tarn_climate_find(const char *name, struct tarn_error *err);

#define TARN_CLIMATE_YEARS 30
#define TARN_CLIMATE_YEARS_MOST 400
#define TARN_CLIMATE_SEED 1
/* Days of no real year. */
#define TARN_CLIMATE_FIRST_YEAR 1801

/*
 * New weather: whole years from 1 January of TARN_CLIMATE_FIRST_YEAR on, with
 * rain, tmin and tmax [mm, deg C] by tarn_generator_normals.  Sun, humidity and
 * wind are left to the method, which estimates them day by day and counts that
 * (tarn_evaporation_run).  The site has the climate's latitude and elevation;
 * the notes say that it is a climate, of which station, and the seed.
 *
 *   years     [-] 1 .. TARN_CLIMATE_YEARS_MOST
 *   seed      the same seed, the same days
 * Errors: TARN_EARG, field "years", or a number of the climate; TARN_ENOMEM.
 * Source: the generator's, study.h.
 */
TARN_API enum tarn_status
tarn_climate_weather(struct tarn_weather **out, const struct tarn_alloc *alloc,
		     const struct tarn_climate *climate, int years,
		     uint64_t seed, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
