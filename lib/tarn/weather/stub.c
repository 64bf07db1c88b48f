/* SPDX-License-Identifier: MIT */
/* Stand-in for the weather table until the weather wing is there. */
#include <string.h>

#include "tarn/weather.h"

struct tarn_weather {
	const struct tarn_alloc *alloc;
	long first;
	size_t days;
	double *column[TARN_COLUMNS];
	struct tarn_site site;
};

static const struct tarn_column_info info[TARN_COLUMNS] = {
	{ "tmin", "deg C", "", -60, 60 },     { "tmax", "deg C", "", -60, 60 },
	{ "tmean", "deg C", "", -60, 60 },    { "rh_min", "%", "", 0, 100 },
	{ "rh_max", "%", "", 0, 100 },        { "rh_mean", "%", "", 0, 100 },
	{ "dewpoint", "deg C", "", -60, 60 }, { "vapour", "kPa", "", 0, 10 },
	{ "wind", "m/s", "", 0, 60 },         { "sunshine", "h", "", 0, 24 },
	{ "solar", "MJ m-2 d-1", "", 0, 50 }, { "rain", "mm", "", 0, 1500 },
	{ "pan", "mm", "", 0, 50 },           { "reference", "mm", "", 0, 20 },
	{ "open_water", "mm", "", 0, 30 },    { "pressure", "kPa", "", 40, 110 },
};

const struct tarn_column_info *tarn_column_info(enum tarn_column c)
{
	return &info[c];
}

enum tarn_status tarn_weather_new(struct tarn_weather **out,
				  const struct tarn_alloc *alloc,
				  long first_day, size_t days,
				  struct tarn_error *err)
{
	struct tarn_weather *w = tarn_resize(alloc, NULL, sizeof *w);

	if (!w)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	memset(w, 0, sizeof *w);
	w->alloc = alloc;
	w->first = first_day;
	w->days = days;
	w->site.latitude_deg = TARN_NAN;
	w->site.elevation_m = TARN_NAN;
	w->site.wind_height_m = TARN_NAN;
	*out = w;
	return TARN_OK;
}

void tarn_weather_free(struct tarn_weather *w)
{
	if (!w)
		return;
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (w->column[c])
			tarn_resize(w->alloc, w->column[c], 0);
	tarn_resize(w->alloc, w, 0);
}

size_t tarn_weather_days(const struct tarn_weather *w) { return w->days; }
long tarn_weather_first(const struct tarn_weather *w) { return w->first; }

const double *tarn_weather_column(const struct tarn_weather *w,
				  enum tarn_column c)
{
	return w->column[c];
}

double *tarn_weather_add(struct tarn_weather *w, enum tarn_column c)
{
	if (!w->column[c]) {
		w->column[c] = tarn_resize(w->alloc, NULL,
					   w->days * sizeof(double));
		for (size_t i = 0; w->column[c] && i < w->days; i++)
			w->column[c][i] = TARN_NAN;
	}
	return w->column[c];
}

struct tarn_site *tarn_weather_site(struct tarn_weather *w)
{
	return &w->site;
}

const struct tarn_site *tarn_weather_site_of(const struct tarn_weather *w)
{
	return &w->site;
}
