/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/evaporation.h"
#include "tarn/study.h"

/* Changed and generated weather as tables. */

/* ---- changed ---------------------------------------------------------------- */

#define T struct tarn_weather_change
static const struct tarn_field change_rows[] = {
	TARN_IN_MONTHS(T, temperature_c, "temperature", "deg C", -20, 20, 0,
		       "added to temperatures"),
	TARN_IN_MONTHS(T, rain, "rain", "-", 0, 10, 1, "times rain"),
	TARN_IN_MONTHS(T, wind, "wind", "-", 0, 5, 1, "times wind"),
	TARN_IN_MONTHS(T, solar, "solar", "-", 0, 2, 1,
		       "times radiation and sunshine"),
};
TARN_FIELDS(tarn_weather_change_fields, "change", change_rows);
#undef T
TARN_DEFAULT(struct tarn_weather_change, tarn_weather_change_default,
	     tarn_weather_change_fields)

/* Column to change in place, or NULL if the table has none. */
static double *column(struct tarn_weather *w, enum tarn_column c)
{
	return tarn_weather_column(w, c) ? tarn_weather_add(w, c) : NULL;
}

static void plus(struct tarn_weather *w, enum tarn_column c,
		 const double by[12])
{
	double *x = column(w, c);

	if (x)
		tarn_weather_plus(x, tarn_weather_first(w),
				  tarn_weather_days(w), by, x);
}

static void times(struct tarn_weather *w, enum tarn_column c,
		  const double by[12])
{
	double *x = column(w, c);

	if (x)
		tarn_weather_times(x, tarn_weather_first(w),
				   tarn_weather_days(w), by, x);
}

/* The same relative humidity in warmer air; temperatures not changed yet. */
static void warm_vapour(struct tarn_weather *w, const double by[12])
{
	double *vapour = column(w, TARN_VAPOUR);
	const double *tmin = tarn_weather_column(w, TARN_TMIN);
	const double *tmax = tarn_weather_column(w, TARN_TMAX);
	const double *tmean = tarn_weather_column(w, TARN_TMEAN);

	for (size_t i = 0; vapour && i < tarn_weather_days(w); i++) {
		int m = tarn_date(tarn_weather_first(w) + (long)i).month - 1;
		double t = TARN_NAN;

		if (tmean)
			t = tmean[i];
		else if (tmin && tmax)
			t = (tmin[i] + tmax[i]) / 2;
		vapour[i] *= tarn_air_saturation(t + by[m]) /
			     tarn_air_saturation(t);
	}
}

static int given(const struct tarn_weather *w)
{
	return tarn_weather_column(w, TARN_REFERENCE) ||
	       tarn_weather_column(w, TARN_OPEN_WATER) ||
	       tarn_weather_column(w, TARN_PAN);
}

enum tarn_status tarn_weather_changed(struct tarn_weather **out,
				      const struct tarn_weather *w,
				      const struct tarn_weather_change *change,
				      struct tarn_error *err)
{
	static const enum tarn_column warmer[] = {
		TARN_TMIN, TARN_TMAX, TARN_TMEAN, TARN_DEWPOINT
	};
	long first = tarn_weather_first(w);
	enum tarn_status status;

	*out = NULL;
	status = tarn_fields_check(&tarn_weather_change_fields, change, err);
	if (status == TARN_OK)
		status = tarn_weather_slice(
			out, w, first, first + (long)tarn_weather_days(w) - 1,
			err);
	if (status != TARN_OK)
		return status;
	warm_vapour(*out, change->temperature_c);
	for (int i = 0; i < 4; i++)
		plus(*out, warmer[i], change->temperature_c);
	times(*out, TARN_RAIN, change->rain);
	times(*out, TARN_WIND, change->wind);
	times(*out, TARN_SOLAR, change->solar);
	times(*out, TARN_SUNSHINE, change->solar);
	status = tarn_weather_add_note(*out, "changed for a what-if: not as "
				       "measured");
	if (status == TARN_OK && given(w))
		status = tarn_weather_add_note(*out, "given evaporation and pan "
					       "columns are as measured: the "
					       "change does not reach them");
	if (status == TARN_OK)
		return status;
	tarn_weather_free(*out);
	*out = NULL;
	return tarn_fail(err, status, NULL, "out of memory");
}

/* ---- generated ---------------------------------------------------------------- */

/* What evaporation can use, the most telling first. */
static const enum tarn_column useful[] = {
	TARN_TMAX, TARN_TMIN, TARN_SOLAR, TARN_WIND, TARN_DEWPOINT,
	TARN_VAPOUR, TARN_RH_MEAN, TARN_RH_MAX, TARN_RH_MIN, TARN_SUNSHINE,
	TARN_TMEAN
};
enum { USEFUL = sizeof useful / sizeof useful[0] };

/* One of several that say the same: a second one would follow from it. */
static int said_already(const struct tarn_weather *w, enum tarn_column c)
{
	switch (c) {
	case TARN_SUNSHINE:
		return tarn_weather_column(w, TARN_SOLAR) != NULL;
	case TARN_VAPOUR:
		return tarn_weather_column(w, TARN_DEWPOINT) != NULL;
	case TARN_RH_MEAN:
	case TARN_RH_MAX:
	case TARN_RH_MIN:
		return tarn_weather_column(w, TARN_DEWPOINT) != NULL ||
		       tarn_weather_column(w, TARN_VAPOUR) != NULL;
	case TARN_TMEAN:
		return tarn_weather_column(w, TARN_TMAX) != NULL;
	default:
		return 0;
	}
}

struct choice {
	int count;
	enum tarn_column which[TARN_GENERATED_COLUMNS];
	const double *from[TARN_GENERATED_COLUMNS];
	double lo[TARN_GENERATED_COLUMNS], hi[TARN_GENERATED_COLUMNS];
};

static void choose(const struct tarn_weather *w, struct choice *out)
{
	out->count = 0;
	for (int i = 0; i < USEFUL; i++) {
		enum tarn_column c = useful[i];
		int n = out->count;

		if (n == TARN_GENERATED_COLUMNS || !tarn_weather_column(w, c) ||
		    said_already(w, c))
			continue;
		out->which[n] = c;
		out->from[n] = tarn_weather_column(w, c);
		out->lo[n] = tarn_column_info(c)->lo;
		out->hi[n] = tarn_column_info(c)->hi;
		out->count++;
	}
}

static enum tarn_status fit(const struct tarn_weather *w,
			    const struct choice *choice,
			    struct tarn_generator *g, struct tarn_error *err)
{
	enum tarn_status status;

	if (!tarn_weather_column(w, TARN_RAIN))
		return tarn_fail(err, TARN_EARG, "weather", "has no rain: it "
				 "decides what the other columns do");
	status = tarn_generator_fit(g, tarn_weather_first(w),
				    tarn_weather_days(w),
				    tarn_weather_column(w, TARN_RAIN),
				    choice->from, choice->count, choice->lo,
				    choice->hi, 0.25, err);
	if (status == TARN_OK && choice->count > 1 &&
	    choice->which[0] == TARN_TMAX && choice->which[1] == TARN_TMIN)
		g->over[0] = 1;
	return status;
}

static enum tarn_status fill(struct tarn_weather *out,
			     const struct choice *choice,
			     const struct tarn_generator *g, uint64_t seed,
			     uint64_t stream)
{
	double *rain = tarn_weather_add(out, TARN_RAIN);
	double *column_of[TARN_GENERATED_COLUMNS];

	for (int i = 0; i < choice->count; i++) {
		column_of[i] = tarn_weather_add(out, choice->which[i]);
		if (!column_of[i])
			return TARN_ENOMEM;
	}
	if (!rain)
		return TARN_ENOMEM;
	tarn_generate(g, seed, stream, tarn_weather_first(out),
		      tarn_weather_days(out), rain, column_of);
	return tarn_weather_add_note(out, "generated by chance from the "
				     "statistics of measured weather, seed %llu, "
				     "stream %llu: no real days",
				     (unsigned long long)seed,
				     (unsigned long long)stream);
}

enum tarn_status tarn_weather_generated(struct tarn_weather **out,
					const struct tarn_alloc *alloc,
					const struct tarn_weather *w,
					uint64_t seed, uint64_t stream,
					long first_day, size_t days,
					struct tarn_error *err)
{
	struct tarn_generator g;
	struct choice choice;
	enum tarn_status status;

	*out = NULL;
	choose(w, &choice);
	status = fit(w, &choice, &g, err);
	if (status == TARN_OK)
		status = tarn_weather_new(out, alloc, first_day, days, err);
	if (status != TARN_OK)
		return status;
	*tarn_weather_site(*out) = *tarn_weather_site_of(w);
	status = fill(*out, &choice, &g, seed, stream);
	if (status == TARN_OK)
		return status;
	tarn_weather_free(*out);
	*out = NULL;
	return tarn_fail(err, status, NULL, "out of memory");
}
