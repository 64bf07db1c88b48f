/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "internal.h"

/* Two tables of one station: other columns, other years. */

#define SAME_DEG 0.5		/* latitudes of one place, rounded; our own */

static double value(const struct tarn_weather *w, enum tarn_column c, long day)
{
	const double *x = tarn_weather_column(w, c);

	if (!x || day < w->first || day >= w->first + (long)w->days)
		return TARN_NAN;
	return x[day - w->first];
}

static enum tarn_status fail_two(enum tarn_column c, long day, double x,
				 double y, struct tarn_error *err)
{
	char date[11];

	tarn_day_text(day, date);
	return tarn_fail(err, TARN_EARG, tarn_column_info(c)->name, "on %s is "
			 "%g %s in one file and %g in the other: files of one "
			 "station have each value once, or the same twice",
			 date, x, tarn_column_info(c)->unit, y);
}

static enum tarn_status join_column(struct tarn_weather *to,
				    const struct tarn_weather *a,
				    const struct tarn_weather *b,
				    enum tarn_column c, struct tarn_error *err)
{
	double *out;

	if (!tarn_weather_column(a, c) && !tarn_weather_column(b, c))
		return TARN_OK;
	out = tarn_weather_add(to, c);
	if (!out)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	for (size_t i = 0; i < to->days; i++) {
		long day = to->first + (long)i;
		double x = value(a, c, day), y = value(b, c, day);

		if (x < y || x > y)
			return fail_two(c, day, x, y, err);
		out[i] = isnan(x) ? y : x;
	}
	return TARN_OK;
}

static double either(double a, double b)
{
	return isnan(a) ? b : a;
}

static enum tarn_status join_site(struct tarn_weather *to,
				  const struct tarn_weather *a,
				  const struct tarn_weather *b,
				  struct tarn_error *err)
{
	if (fabs(a->site.latitude_deg - b->site.latitude_deg) > SAME_DEG)
		return tarn_fail(err, TARN_EARG, "latitude", "is %g deg in one "
				 "file and %g in the other: they are of two "
				 "places", a->site.latitude_deg,
				 b->site.latitude_deg);
	to->site = a->site;
	if (!to->site.name[0])
		memcpy(to->site.name, b->site.name, sizeof to->site.name);
	to->site.latitude_deg = either(a->site.latitude_deg,
				       b->site.latitude_deg);
	to->site.elevation_m = either(a->site.elevation_m,
				      b->site.elevation_m);
	to->site.wind_height_m = either(a->site.wind_height_m,
					b->site.wind_height_m);
	return TARN_OK;
}

static enum tarn_status join_notes(struct tarn_weather *to,
				   const struct tarn_weather *from,
				   struct tarn_error *err)
{
	for (size_t i = 0; i < from->notes; i++)
		if (tarn_weather_add_note(to, "%s", from->note[i]) != TARN_OK)
			return tarn_fail(err, TARN_ENOMEM, NULL,
					 "out of memory");
	return TARN_OK;
}

enum tarn_status tarn_weather_join(struct tarn_weather **out,
				   const struct tarn_weather *a,
				   const struct tarn_weather *b,
				   struct tarn_error *err)
{
	long end_a = a->first + (long)a->days, end_b = b->first + (long)b->days;
	long first = a->first < b->first ? a->first : b->first;
	enum tarn_status status;

	status = tarn_weather_new(out, a->alloc, first,
				  (size_t)((end_a > end_b ? end_a : end_b) -
					   first), err);
	if (status != TARN_OK)
		return status;
	status = join_site(*out, a, b, err);
	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++)
		status = join_column(*out, a, b, (enum tarn_column)c, err);
	if (status == TARN_OK)
		status = join_notes(*out, a, err);
	if (status == TARN_OK)
		status = join_notes(*out, b, err);
	if (status == TARN_OK)
		status = tarn_weather_check(*out, err);
	if (status == TARN_OK)
		return TARN_OK;
	tarn_weather_free(*out);
	*out = NULL;
	return status;
}
