/* SPDX-License-Identifier: MIT */
#ifndef TARN_EVAPORATION_INTERNAL_H
#define TARN_EVAPORATION_INTERNAL_H

/* What the files of this wing share about days, places and methods. */

#include "tarn/evaporation.h"

#define BIT(origin) (1u << (origin))

/* ---- estimating what a day lacks (estimate.c) ---------------------------- */

/* What holds for every day of a place. */
struct place {
	double clear_share;	/* of the radiation above the air */
	double psychrometric_kpa_c;	/* where pressure is not given */
	double wind_2m_ms;	/* where wind is not given */
	double range_factor;	/* FAO-56 eq. 50 */
	double dryness_c;	/* FAO-56 eq. 48: dew point = tmin - this */
	unsigned origins;	/* assumed for every day */
};

/* Sun over the place on a day; NaN if its latitude is not known. */
struct sun {
	double top_mj, daylight_h, seen_h;
};

/* Elevation may be NaN: sea level, noted in 'origins'. */
void tn_place_at(struct place *p, double elevation_m);

/* Reads weather from 'day', but neither latitude nor elevation. */
void tn_place_conditions(const struct place *p, const struct sun *sun,
			 const struct tarn_evaporation_day *day,
			 struct tarn_conditions *out);

/* ---- methods (day.c, names.c, choose.c, beside.c) ------------------------ */

/* What a method needs. */
enum {
	NEEDS_AIR = 1,		/* tmin and tmax */
	NEEDS_SUN = 2,		/* a latitude */
	NEEDS_AREA = 4, NEEDS_DEPTH = 8,	/* of the pond */
	NEEDS_PAN = 16, NEEDS_REFERENCE = 32, NEEDS_OPEN_WATER = 64
};
unsigned tn_method_needs(enum tarn_method m);

/* NULL-terminated, for a described field. */
extern const char *const tn_method_names[TARN_METHODS + 1];

/* The columns without which a method has no day: bit 1u << column. */
unsigned tn_method_columns(enum tarn_method m);

/* Does the weather lack one of these columns on that day?  0 of a day that is
 * left out. */
int tn_weather_lacks(const struct tarn_weather *w, unsigned columns, size_t i);

/* The options with the weather's site where they leave it open: 'resolved'. */
struct tarn_evaporation_options
tn_evaporation_resolve(const struct tarn_evaporation_options *o,
		       const struct tarn_weather *w);

/* Is all there that a method needs?  Options are resolved. */
enum tarn_status tn_method_check(const struct tarn_weather *w,
				 const struct tarn_evaporation_options *o,
				 enum tarn_method m, struct tarn_error *err);

/* What 'auto' stands for.  Options are resolved. */
enum tarn_method tn_method_choose(const struct tarn_weather *w,
				  const struct tarn_evaporation_options *o);

/* Grass reference that goes with a method; NaN where the sun is not known. */
double tn_method_grass(enum tarn_method m, const struct tarn_conditions *c,
		       unsigned *origins);

/* Open water by the methods that need no more than a day; NaN by others.
 * water_c may be NaN. */
double tn_method_open_water(enum tarn_method m,
			    const struct tarn_evaporation_options *o,
			    const struct tarn_conditions *c, double grass_mm,
			    double stored_mj, double water_c);

/* ---- calendar years that are run (years.c) -------------------------------- */

struct years {
	const struct tarn_weather *w;	/* as bridged */
	const struct tarn_weather *before;	/* as it was, of more days */
	size_t offset;			/* of the first day in that */
	unsigned columns;		/* that no day may lack */
	unsigned groups;		/* of the air, that the table has */
	int complete;			/* 1: bridging and estimates spoil too */
};

/* air: the method works from the air. */
void tn_years_begin(struct years *y, const struct tarn_weather *before,
		    const struct tarn_weather *w, unsigned columns, int air);

/* Has the day a value that was bridged; does it lack humidity, sun or wind? */
int tn_years_bridged(const struct years *y, size_t i);
int tn_years_estimated(const struct years *y, size_t i);

/* Days of the calendar years without a day that spoils them. */
size_t tn_years_kept(const struct years *y);

/* Leaves the others out, of y->w itself; their names are filled. */
enum tarn_status tn_years_leave_out(const struct years *y,
				    struct tarn_weather *w, char *names,
				    size_t size, struct tarn_error *err);

#endif
