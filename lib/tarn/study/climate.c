/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/climate.h"

#define T struct tarn_climate
static const struct tarn_field rows[] = {
	TARN_OUT_STRING(T, name, "name", "for a command line"),
	TARN_OUT_STRING(T, place, "place", "where the station stands"),
	TARN_OUT_STRING(T, kind, "kind", "its seasons"),
	TARN_OUT_STRING(T, station, "station", "the publisher's number"),
	TARN_OUT_STRING(T, period, "period", "years of the normals"),
	TARN_OUT_STRING(T, source, "source", "publisher and table"),
	TARN_OUT_STRING(T, licence, "licence", "of the numbers"),
	TARN_OUT_NUMBER(T, latitude_deg, "latitude", "degrees",
			"north positive"),
	TARN_OUT_NUMBER(T, elevation_m, "elevation", "m", "above the sea"),
	TARN_OUT_NUMBER(T, wet_mm, "wet", "mm", "least rain of a wet day"),
	TARN_OUT_MONTHS(T, tmax_c, "tmax", "deg C", "mean"),
	TARN_OUT_MONTHS(T, tmin_c, "tmin", "deg C", "mean"),
	TARN_OUT_MONTHS(T, tmax_sd_c, "tmax_sd", "deg C",
			"standard deviation of days"),
	TARN_OUT_MONTHS(T, tmin_sd_c, "tmin_sd", "deg C",
			"standard deviation of days"),
	TARN_OUT_MONTHS(T, rain_mm, "rain", "mm", "of the month"),
	TARN_OUT_MONTHS(T, wet_days, "wet_days", "days", "of the month"),
};
TARN_FIELDS(tarn_climate_fields, "climate", rows);
#undef T

const struct tarn_climate *tarn_climate_find(const char *name,
					     struct tarn_error *err)
{
	size_t count, at = 0;
	const struct tarn_climate *all = tarn_climates(&count);

	for (size_t i = 0; i < count; i++) {
		if (strcmp(all[i].name, name) == 0)
			return &all[i];
		if (tarn_name_distance(name, all[i].name) <
		    tarn_name_distance(name, all[at].name))
			at = i;
	}
	tarn_fail(err, TARN_EARG, "climate", "'%.40s' is unknown; the nearest "
		  "name is '%s'", name, all[at].name);
	return NULL;
}

/* Columns of the generator without the sun. */
enum { TMAX, TMIN };

static enum tarn_status fit(struct tarn_generator *g,
			    const struct tarn_climate *c,
			    struct tarn_error *err)
{
	struct tarn_normals n = tarn_normals_default();

	n.wet_mm = c->wet_mm;
	for (int m = 0; m < 12; m++) {
		n.rain_mm[m] = c->rain_mm[m];
		n.wet_days[m] = c->wet_days[m];
		n.tmax_c[m] = c->tmax_c[m];
		n.tmin_c[m] = c->tmin_c[m];
		n.tmax_sd[m] = c->tmax_sd_c[m];
		n.tmin_sd[m] = c->tmin_sd_c[m];
	}
	return tarn_generator_normals(g, &n, err);
}

static enum tarn_status fill(struct tarn_weather *w,
			     const struct tarn_climate *c,
			     const struct tarn_generator *g, uint64_t seed)
{
	struct tarn_site *site = tarn_weather_site(w);
	double *rain = tarn_weather_add(w, TARN_RAIN), *column[2];
	enum tarn_status status;

	column[TMAX] = tarn_weather_add(w, TARN_TMAX);
	column[TMIN] = tarn_weather_add(w, TARN_TMIN);
	if (!rain || !column[TMAX] || !column[TMIN])
		return TARN_ENOMEM;
	snprintf(site->name, sizeof site->name, "climate of %.50s", c->place);
	site->latitude_deg = c->latitude_deg;
	site->elevation_m = c->elevation_m;
	tarn_generate(g, seed, 0, tarn_weather_first(w), tarn_weather_days(w),
		      rain, column);
	status = tarn_weather_add_note(
		w, "a climate, not your weather: days drawn by chance from the "
		"monthly normals %s of %s (%s; %s; %s), seed %llu: no real "
		"days", c->period, c->place, c->station, c->source, c->licence,
		(unsigned long long)seed);
	if (status == TARN_OK)
		status = tarn_weather_add_note(
			w, "years of a drawn climate differ less than real "
			"ones: long droughts are understated");
	return status;
}

enum tarn_status tarn_climate_weather(struct tarn_weather **out,
				      const struct tarn_alloc *alloc,
				      const struct tarn_climate *climate,
				      int years, uint64_t seed,
				      struct tarn_error *err)
{
	long first = tarn_day(TARN_CLIMATE_FIRST_YEAR, 1, 1), end;
	struct tarn_generator g;
	enum tarn_status status;

	*out = NULL;
	if (years < 1 || years > TARN_CLIMATE_YEARS_MOST)
		return tarn_fail(err, TARN_EARG, "years", "must be 1 to %d, "
				 "got %d", TARN_CLIMATE_YEARS_MOST, years);
	end = tarn_day(TARN_CLIMATE_FIRST_YEAR + years - 1, 12, 31);
	status = fit(&g, climate, err);
	if (status == TARN_OK)
		status = tarn_weather_new(out, alloc, first,
					  (size_t)(end - first + 1), err);
	if (status != TARN_OK)
		return status;
	status = fill(*out, climate, &g, seed);
	if (status == TARN_OK)
		return status;
	tarn_weather_free(*out);
	*out = NULL;
	return tarn_fail(err, status, NULL, "out of memory");
}
