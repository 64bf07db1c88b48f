/* SPDX-License-Identifier: MIT */
#ifndef TARN_EXPOSURE_H
#define TARN_EXPOSURE_H

/*
 * exposure: how the place of a pond changes the evaporation that a station's
 * weather gives, and how well that is known.  Part of the wing evaporation.
 *
 * The true evaporation of a pond over that of the method, run with the wind
 * and the sun of the pond's place, is a factor f:
 *
 *   ln f = method + station + wind + sun + surroundings   one draw a pond
 *          + slow(t)                                      one a 30 days
 *          + day(t)                                       one a day
 *
 * All terms are normal and independent.  Each one's mean and standard deviation
 * stand in the tables of this header's functions with their evidence; the page
 * docs/methods/exposure.md has the sources.
 */

#include "tarn/evaporation.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- classes ------------------------------------------------------------ */

enum tarn_exposure_wind {
	TARN_WIND_NOT_DESCRIBED, TARN_WIND_OPEN_FIELD, TARN_WIND_OPEN_LAWN,
	TARN_WIND_AMONG_HOUSES, TARN_WIND_WALLED_YARD, TARN_WIND_UNDER_TREES,
	TARN_WIND_COURTYARD, TARN_WIND_CLASSES
};
enum tarn_exposure_sun {
	TARN_SUN_NOT_DESCRIBED, TARN_SUN_OPEN_SKY, TARN_SUN_MOSTLY_SUNNY,
	TARN_SUN_HALF_SHADE, TARN_SUN_MOSTLY_SHADE, TARN_SUN_UNDER_TREES,
	TARN_SUN_CLASSES
};
enum tarn_exposure_surroundings {
	TARN_SURROUNDINGS_NOT_DESCRIBED, TARN_SURROUNDINGS_LAWN,
	TARN_SURROUNDINGS_PAVING, TARN_SURROUNDINGS_HOT_DRY,
	TARN_SURROUNDINGS_CLASSES
};
enum tarn_exposure_station {
	TARN_STATION_NOT_DESCRIBED, TARN_STATION_GARDEN, TARN_STATION_5_KM,
	TARN_STATION_50_KM, TARN_STATION_FARTHER, TARN_STATION_CLASSES
};

/* A class: the word for it, and its numbers. */
struct tarn_exposure_class {
	const char *word;	/* "walled yard" */
	const char *meaning;	/* one line for whoever chooses */
	double median;		/* wind: at the pond at 2 m / over open grass;
				   sun: share that reaches the pond;
				   surroundings: factor on evaporation;
				   station: 1 */
	double sd;		/* wind: of ln; sun: of the share; the others: of
				   ln of the factor */
	double effect_sd;	/* what that does to evaporation, sd of ln f */
	int evidence;		/* enum tarn_evidence, of the median */
};
TARN_API extern const struct tarn_fields tarn_exposure_class_fields;

/* One of the four kinds; NULL for a number that is none of its classes. */
TARN_API const struct tarn_exposure_class *
tarn_exposure_wind(enum tarn_exposure_wind c);
TARN_API const struct tarn_exposure_class *
tarn_exposure_sun(enum tarn_exposure_sun c);
TARN_API const struct tarn_exposure_class *
tarn_exposure_surroundings(enum tarn_exposure_surroundings c);
TARN_API const struct tarn_exposure_class *
tarn_exposure_station(enum tarn_exposure_station c);

/* What a method gives, over or under what a pond of some 20 m2 on an open site
 * loses. */
struct tarn_method_centre {
	double median;		/* true / method [-]; NaN: it has none, and no
				   place in a range (mass transfer with water as
				   warm as the air) */
	double sd;		/* between sites, of ln */
	double slow_sd;		/* of 30 days about a site's own, of ln */
	int evidence;		/* enum tarn_evidence, of the median */
};
TARN_API extern const struct tarn_fields tarn_method_centre_fields;

/*
 *   warmth_only   1: the method has neither sun nor humidity measured
 *   returns       median [-], deviations of ln [-]; all NaN for
 *                 TARN_METHOD_AUTO and a number that is no method
 */
TARN_API struct tarn_method_centre
tarn_method_centre(enum tarn_method m, int warmth_only);

/* ---- a place, and the budget of it ------------------------------------------ */

/* Numbers given in place of a word have this spread: of ln shelter, and of the
 * share of sun.  Our own. */
#define TARN_SHELTER_GIVEN_SD 0.25
#define TARN_SUN_GIVEN_SD 0.07

/* ln f moves with ln shelter and ln share of sun by these: fitted to Penman
 * 1956 with De Bilt, Fallon and Hancock.  Our own. */
#define TARN_SHELTER_ELASTICITY 0.10
#define TARN_SUN_ELASTICITY 0.70

/* Of evaporation in the open so much goes with the wind, and with the sun: at
 * the pond it is 1 - share x (1 - shelter) - share x (1 - shade).  Penman 1956, April to
 * October of De Bilt (0.18, 0.74) and Fallon (0.19, 0.70); our own. */
#define TARN_WIND_SHARE 0.18
#define TARN_SUN_SHARE 0.72

/*
 * What a method's own run makes of the wind and the sun of a place: its
 * evaporation there over that in the open, roughly.
 *
 *   shelter   wind at the pond / in the open    0 .. 2
 *   shade     sun at the pond / in the open     0 .. 1
 *   returns   [-]; 1 for methods that take evaporation as it is given (pan,
 *             reference, open water); NaN outside these ranges and for
 *             TARN_METHOD_AUTO or a number that is no method
 * Source: our own sums, docs/methods/exposure.md.
 */
TARN_API double tarn_exposure_run_factor(enum tarn_method m, double shelter,
					 double shade);

/* The mean of the sun's term is that of so much sun where there is less: the
 * methods that go by the sun alone then give nothing, times any factor.  Our
 * own. */
#define TARN_SUN_TERM_LEAST 0.1

/* Of ln f where a season's log has calibrated it. */
#define TARN_CALIBRATED_SD_LN 0.08

/* Single days about the rest: 23 pan stations, 53,054 days; our own sum. */
#define TARN_EXPOSURE_DAY_SD 0.25
#define TARN_EXPOSURE_SLOW_DAYS 30

/* A place in words; made by tarn_exposure_default(). */
struct tarn_exposure {		/* section "site" */
	int wind;		/* enum tarn_exposure_wind */
	int sun;		/* enum tarn_exposure_sun */
	int surroundings;	/* enum tarn_exposure_surroundings */
	int station;		/* enum tarn_exposure_station */
	double measured;	/* evaporation measured at the pond (bucket,
				   floating pan, a season's log) / the method's
				   for the same days at this place; NaN */
	double measured_sd;	/* of ln of it */
};
TARN_API struct tarn_exposure tarn_exposure_default(void);

/*
 * What a place's words say of wind and sun: the medians of their classes, also
 * of "not described".
 *
 *   shelter, shade   filled where they are NaN [-]
 * Errors: TARN_EARG: a field out of its range; nothing is filled.
 */
TARN_API enum tarn_status tarn_exposure_medians(const struct tarn_exposure *site,
						double *shelter, double *shade,
						struct tarn_error *err);
TARN_API extern const struct tarn_fields tarn_exposure_fields;

enum tarn_exposure_term {
	TARN_TERM_METHOD, TARN_TERM_STATION, TARN_TERM_WIND, TARN_TERM_SUN,
	TARN_TERM_SURROUNDINGS, TARN_TERMS
};

/* "method"; "unknown" for any other number. */
TARN_API const char *tarn_exposure_term_name(enum tarn_exposure_term t);

struct tarn_exposure_budget {
	double shelter, shade;	/* with which the method is run */
	double mean_ln[TARN_TERMS], sd_ln[TARN_TERMS];
	double centre_ln, centre_sd_ln;	/* of the sum of these; with 'measured'
					   what is known after it */
	double grass_ln;	/* ln of the factor of plants' water: all but
				   the method's term */
	double slow_sd_ln;	/* one a TARN_EXPOSURE_SLOW_DAYS */
	double day_sd;		/* TARN_EXPOSURE_DAY_SD */
	int wind_described, sun_described, surroundings_described;
	int measured;		/* 1: a measurement is in the centre */
	int calibrated;		/* 1: a factor of the description is the centre,
				   see tarn_design_exposure */
};
TARN_API extern const struct tarn_fields tarn_exposure_budget_fields;

/*
 * The budget of a place.
 *
 *   site      its words
 *   o         its shelter and shade count, where they are given (not NaN),
 *             instead of the words' medians; or NULL
 *   m         the method that is run, not TARN_METHOD_AUTO
 *   out       filled
 *
 * Wind and sun act on the pond by TARN_WIND_SHARE and TARN_SUN_SHARE, on the
 * method's run by tarn_exposure_run_factor; the means of their terms are what
 * lies between, so that a pan or a given reference has the whole place in its
 * factor, and Penman 1956 nothing.  Open water that is given (TARN_GIVEN) is
 * taken to be this pond's: its means are 0.
 *
 * With 'measured' the normal prior of the sum and the normal datum ln measured
 * give the normal posterior in closed form; the terms stay as they were.
 *
 * Errors: TARN_EARG: a field out of its range; field "method": it has no
 * centre.
 * Source: terms and sums, docs/methods/exposure.md.
 */
TARN_API enum tarn_status
tarn_exposure_budget(const struct tarn_exposure *site,
		     const struct tarn_evaporation_options *o,
		     enum tarn_method m, int warmth_only,
		     struct tarn_exposure_budget *out, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
