/* SPDX-License-Identifier: MIT */
#include "tarn/exposure.h"
#include "internal.h"

/*
 * Medians and spreads of wind, sun and surroundings are judgements of our own
 * between what was measured and what geometry gives: docs/methods/exposure.md
 * has both.  Effects of wind and sun are sums over De Bilt, Fallon and Hancock
 * by Penman 1956.
 */

static const struct tarn_exposure_class winds[TARN_WIND_CLASSES] = {
	[TARN_WIND_NOT_DESCRIBED] = { "not described",
		"nothing is known of walls, hedges and trees",
		0.50, 0.50, 0.05, TARN_EVIDENCE_OURS },
	[TARN_WIND_OPEN_FIELD] = { "open field",
		"open field or water meadow, nothing near by",
		1.00, 0.15, 0.02, TARN_EVIDENCE_OURS },
	[TARN_WIND_OPEN_LAWN] = { "open lawn",
		"open lawn with low hedges, edge of a village",
		0.75, 0.25, 0.03, TARN_EVIDENCE_OURS },
	[TARN_WIND_AMONG_HOUSES] = { "among houses", "lawn among houses",
		0.50, 0.35, 0.04, TARN_EVIDENCE_OURS },
	[TARN_WIND_WALLED_YARD] = { "walled yard",
		"yard with fences or walls about it",
		0.35, 0.40, 0.04, TARN_EVIDENCE_OURS },
	[TARN_WIND_UNDER_TREES] = { "under trees", "under or between trees",
		0.30, 0.45, 0.04, TARN_EVIDENCE_OURS },
	[TARN_WIND_COURTYARD] = { "courtyard",
		"closed courtyard, or sunk below the ground about it",
		0.20, 0.50, 0.04, TARN_EVIDENCE_OURS },
};

static const struct tarn_exposure_class suns[TARN_SUN_CLASSES] = {
	[TARN_SUN_NOT_DESCRIBED] = { "not described",
		"nothing is known of shade",
		0.80, 0.15, 0.13, TARN_EVIDENCE_OURS },
	[TARN_SUN_OPEN_SKY] = { "open sky", "no shade",
		0.97, 0.02, 0.014, TARN_EVIDENCE_OURS },
	[TARN_SUN_MOSTLY_SUNNY] = { "mostly sunny",
		"6 hours of sun and more on a summer day",
		0.85, 0.07, 0.06, TARN_EVIDENCE_OURS },
	[TARN_SUN_HALF_SHADE] = { "half shade",
		"4 to 6 hours of sun on a summer day",
		0.65, 0.10, 0.11, TARN_EVIDENCE_OURS },
	[TARN_SUN_MOSTLY_SHADE] = { "mostly shade",
		"under 4 hours of sun on a summer day",
		0.45, 0.12, 0.175, TARN_EVIDENCE_OURS },
	[TARN_SUN_UNDER_TREES] = { "under trees", "under a leafy crown",
		0.25, 0.12, 0.21, TARN_EVIDENCE_OURS },
};

static const struct tarn_exposure_class surroundings[] = {
	[TARN_SURROUNDINGS_NOT_DESCRIBED] = { "not described",
		"nothing is known of the ground about the pond",
		1.03, 0.08, 0.08, TARN_EVIDENCE_OURS },
	[TARN_SURROUNDINGS_LAWN] = { "lawn", "lawn and planting, watered",
		1.00, 0.05, 0.05, TARN_EVIDENCE_OURS },
	[TARN_SURROUNDINGS_PAVING] = { "paving",
		"paving, gravel or a dry yard",
		1.05, 0.08, 0.08, TARN_EVIDENCE_OURS },
	[TARN_SURROUNDINGS_HOT_DRY] = { "hot dry yard",
		"paving, gravel or bare ground where the season is hot and dry",
		1.13, 0.10, 0.10, TARN_EVIDENCE_OURS },
};

static const struct tarn_exposure_class stations[TARN_STATION_CLASSES] = {
	[TARN_STATION_NOT_DESCRIBED] = { "not described",
		"nobody says how far off the weather was measured",
		1, 0.07, 0.07, TARN_EVIDENCE_OURS },
	[TARN_STATION_GARDEN] = { "garden", "measured in this garden",
		1, 0, 0, TARN_EVIDENCE_OURS },
	[TARN_STATION_5_KM] = { "5 km", "up to 5 km off, in like country",
		1, 0.04, 0.04, TARN_EVIDENCE_OURS },
	[TARN_STATION_50_KM] = { "50 km", "up to 50 km off",
		1, 0.07, 0.07, TARN_EVIDENCE_INPUTS },
	[TARN_STATION_FARTHER] = { "farther",
		"farther, or across a coast or a ridge",
		1, 0.10, 0.10, TARN_EVIDENCE_OURS },
};

#define ROW(table, c) \
	((size_t)(c) < sizeof table / sizeof table[0] ? &table[c] : NULL)

const struct tarn_exposure_class *
tarn_exposure_wind(enum tarn_exposure_wind c)
{
	return ROW(winds, c);
}

const struct tarn_exposure_class *tarn_exposure_sun(enum tarn_exposure_sun c)
{
	return ROW(suns, c);
}

const struct tarn_exposure_class *
tarn_exposure_surroundings(enum tarn_exposure_surroundings c)
{
	return ROW(surroundings, c);
}

const struct tarn_exposure_class *
tarn_exposure_station(enum tarn_exposure_station c)
{
	return ROW(stations, c);
}

/* ---- methods --------------------------------------------------------------- */

/*
 * Medians lie between pans turned to a pond of 20 m2, Dutch practice and eddy
 * covariance; spreads between sites come from 23 pan stations, widened for the
 * step from a pan to a pond.  Those of a month are of the same stations.
 */
static const struct tarn_method_centre centres[TARN_METHODS] = {
	[TARN_METHOD_AUTO] = { TARN_NAN, TARN_NAN, TARN_NAN,
			       TARN_EVIDENCE_OURS },
	[TARN_PENMAN_1956] = { 0.88, 0.14, 0.08, TARN_EVIDENCE_OURS },
	[TARN_PENMAN_1948] = { 0.82, 0.14, 0.08, TARN_EVIDENCE_OURS },
	[TARN_PENMAN_HEAT] = { 0.95, 0.14, 0.08, TARN_EVIDENCE_OURS },
	[TARN_PRIESTLEY_TAYLOR] = { 1.00, 0.20, 0.195, TARN_EVIDENCE_OURS },
	[TARN_GRASS] = { 1.03, 0.14, 0.08, TARN_EVIDENCE_OURS },
	[TARN_HARGREAVES] = { 1.05, 0.19, 0.12, TARN_EVIDENCE_OURS },
	[TARN_MASS_TRANSFER] = { TARN_NAN, 0.19, 0.155, TARN_EVIDENCE_OURS },
	[TARN_PAN_COEFFICIENT] = { 1.10, 0.10, 0.09, TARN_EVIDENCE_OURS },
	[TARN_GIVEN_REFERENCE] = { 1.03, 0.15, 0.08, TARN_EVIDENCE_OURS },
	[TARN_GIVEN] = { 1.00, 0.14, 0.08, TARN_EVIDENCE_OURS },
};

/* Neither sun nor humidity measured: a judgement. */
#define WARMTH_SD 0.19
#define WARMTH_SLOW_SD 0.12

struct tarn_method_centre tarn_method_centre(enum tarn_method m,
					     int warmth_only)
{
	struct tarn_method_centre c = centres[TARN_METHOD_AUTO];

	if ((unsigned)m < TARN_METHODS)
		c = centres[m];
	if (warmth_only) {
		c.sd = fmax(c.sd, WARMTH_SD);
		c.slow_sd = fmax(c.slow_sd, WARMTH_SLOW_SD);
	}
	return c;
}

/* ---- rows ------------------------------------------------------------------ */

#define T struct tarn_exposure_class
static const struct tarn_field class_rows[] = {
	TARN_OUT_STRING(T, word, "word", "the word in a description"),
	TARN_OUT_STRING(T, meaning, "meaning", "when it is meant"),
	TARN_OUT_NUMBER(T, median, "median", "-",
			"wind or sun at the pond / in the open; factor on "
			"evaporation"),
	TARN_OUT_NUMBER(T, sd, "sd", "-", "its standard deviation: of ln, of "
			"the sun's share itself"),
	TARN_OUT_NUMBER(T, effect_sd, "effect_sd", "-",
			"of ln of the evaporation that follows"),
	TARN_OUT_EVIDENCE(T),
};
TARN_FIELDS(tarn_exposure_class_fields, "exposure_class", class_rows);
#undef T

#define T struct tarn_method_centre
static const struct tarn_field centre_rows[] = {
	TARN_OUT_NUMBER(T, median, "median", "-", "true evaporation / the "
			"method's, on an open site"),
	TARN_OUT_NUMBER(T, sd, "sd", "-", "of ln, between sites"),
	TARN_OUT_NUMBER(T, slow_sd, "slow_sd", "-", "of ln, of 30 days"),
	TARN_OUT_EVIDENCE(T),
};
TARN_FIELDS(tarn_method_centre_fields, "method_centre", centre_rows);
#undef T
