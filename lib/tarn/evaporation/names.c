/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

const char *const tn_method_names[] = {
	[TARN_METHOD_AUTO] = "auto",
	[TARN_PENMAN_1956] = "penman_1956",
	[TARN_PENMAN_1948] = "penman_1948",
	[TARN_PENMAN_HEAT] = "penman_heat",
	[TARN_PRIESTLEY_TAYLOR] = "priestley_taylor",
	[TARN_GRASS] = "grass",
	[TARN_HARGREAVES] = "hargreaves",
	[TARN_MASS_TRANSFER] = "mass_transfer",
	[TARN_PAN_COEFFICIENT] = "pan",
	[TARN_GIVEN_REFERENCE] = "given_reference",
	[TARN_GIVEN] = "given",
	[TARN_METHODS] = NULL
};

static const struct {
	unsigned needs;
	const char *title;
} methods[TARN_METHODS] = {
	[TARN_METHOD_AUTO] = { 0, "the best that the weather allows" },
	[TARN_PENMAN_1956] = { NEEDS_AIR | NEEDS_SUN,
		"Penman open water, wind function of 1956" },
	[TARN_PENMAN_1948] = { NEEDS_AIR | NEEDS_SUN,
		"Penman open water, wind function of 1948" },
	[TARN_PENMAN_HEAT] = { NEEDS_AIR | NEEDS_SUN | NEEDS_AREA |
			       NEEDS_DEPTH,
		"Penman open water with the pond's own temperature" },
	[TARN_PRIESTLEY_TAYLOR] = { NEEDS_AIR | NEEDS_SUN,
		"Priestley-Taylor open water" },
	[TARN_GRASS] = { NEEDS_AIR | NEEDS_SUN,
		"FAO-56 grass reference times the open-water factor" },
	[TARN_HARGREAVES] = { NEEDS_AIR | NEEDS_SUN,
		"Hargreaves-Samani (temperature only) times the open-water "
		"factor" },
	[TARN_MASS_TRANSFER] = { NEEDS_AIR | NEEDS_AREA,
		"mass transfer, water as warm as the air" },
	[TARN_PAN_COEFFICIENT] = { NEEDS_PAN,
		"pan evaporation times the pan coefficient" },
	[TARN_GIVEN_REFERENCE] = { NEEDS_REFERENCE,
		"given grass reference times the open-water factor" },
	[TARN_GIVEN] = { NEEDS_OPEN_WATER, "given open-water evaporation" },
};

static int known(enum tarn_method m)
{
	return (unsigned)m < TARN_METHODS;
}

unsigned tn_method_needs(enum tarn_method m)
{
	return known(m) ? methods[m].needs : 0;
}

const char *tarn_method_name(enum tarn_method m)
{
	return known(m) ? tn_method_names[m] : "unknown";
}

const char *tarn_method_title(enum tarn_method m)
{
	return known(m) ? methods[m].title : "unknown method";
}

enum tarn_method tarn_method_find(const char *name)
{
	int m = 0;

	while (m < TARN_METHODS && strcmp(tn_method_names[m], name) != 0)
		m++;
	return (enum tarn_method)m;
}

static const struct tarn_origin_info origins[TARN_ORIGINS] = {
	[TARN_ORIGIN_VAPOUR] = { "vapour",
		"humidity: vapour pressure as given", 0 },
	[TARN_ORIGIN_DEWPOINT] = { "dewpoint",
		"humidity: from the dew point (FAO-56 eq. 14)", 0 },
	[TARN_ORIGIN_RH_RANGE] = { "rh_range",
		"humidity: from its lowest and highest (FAO-56 eq. 17)", 0 },
	[TARN_ORIGIN_RH_MAX] = { "rh_max",
		"humidity: from its highest (FAO-56 eq. 18)", 0 },
	[TARN_ORIGIN_RH_MEAN] = { "rh_mean",
		"humidity: from its mean (FAO-56 eq. 19)", 0 },
	[TARN_ORIGIN_HUMIDITY_TMIN] = { "humidity_tmin",
		"humidity: none given, dew point taken from the lowest "
		"temperature (FAO-56 eq. 48)", 1 },
	[TARN_ORIGIN_SOLAR] = { "solar", "radiation: as given", 0 },
	[TARN_ORIGIN_SUNSHINE] = { "sunshine",
		"radiation: from sunshine (FAO-56 eq. 35)", 0 },
	[TARN_ORIGIN_SOLAR_RANGE] = { "solar_range",
		"radiation: none given, taken from the range of temperature "
		"(FAO-56 eq. 50)", 1 },
	[TARN_ORIGIN_WIND] = { "wind", "wind: as given", 0 },
	[TARN_ORIGIN_WIND_DEFAULT] = { "wind_default",
		"wind: none given, a typical one taken", 1 },
	[TARN_ORIGIN_WIND_HEIGHT] = { "wind_height",
		"wind: height of the gauge not known, taken as 10 m", 1 },
	[TARN_ORIGIN_SEA_LEVEL] = { "sea_level",
		"elevation not known, taken as sea level", 1 },
	[TARN_ORIGIN_ABOVE_CLEAR_SKY] = { "above_clear_sky",
		"more sun than a clear sky gives: check its unit and date", 0 },
	[TARN_ORIGIN_DARK] = { "dark",
		"polar night: a half-clear sky taken", 1 },
	[TARN_ORIGIN_WIND_FLOOR] = { "wind_floor",
		"wind held at 0.5 m/s for the grass reference", 0 },
	[TARN_ORIGIN_NO_DEW] = { "no_dew",
		"evaporation below zero (dew) set to zero", 0 },
	[TARN_ORIGIN_ICE] = { "ice", "no evaporation, water at freezing", 0 },
	[TARN_ORIGIN_GRASS_FROM_WATER] = { "grass_from_water",
		"grass reference: open water divided by the open-water "
		"factor", 1 },
};

const struct tarn_origin_info *tarn_origin_info(enum tarn_origin origin)
{
	return (unsigned)origin < TARN_ORIGINS ? &origins[origin] : NULL;
}

int tarn_evaporation_rests_on_warmth(const struct tarn_evaporation_report *r)
{
	switch (r->method) {
	case TARN_HARGREAVES:
	case TARN_MASS_TRANSFER:
	case TARN_PAN_COEFFICIENT:
	case TARN_GIVEN_REFERENCE:
	case TARN_GIVEN:
		return 1;
	default:
		return r->origin_days[TARN_ORIGIN_HUMIDITY_TMIN] > 0 ||
		       r->origin_days[TARN_ORIGIN_SOLAR_RANGE] > 0;
	}
}
