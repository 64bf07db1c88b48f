/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define INTERPOLATE_MAX 31

struct tarn_fill tarn_fill_default(void)
{
	struct tarn_fill how = { 0, TARN_RAIN_ERROR,
				   (1u << TARN_COLUMNS) - 1, 0 };

	return how;
}

/* The column to fill, or NULL if it is not to be looked at. */
static double *wanted(const struct tarn_weather *w,
		      const struct tarn_fill *how, enum tarn_column c)
{
	return how->columns >> c & 1 ? w->column[c] : NULL;
}

/* Is there a value at both ends?  A day that is left out has none. */
static int ends(const double *x, size_t at, size_t days, size_t all)
{
	return at > 0 && at + days < all && !isnan(x[at - 1]) &&
	       !isnan(x[at + days]);
}

static enum tarn_status fail_gap(const struct tarn_weather *w,
				 const struct tarn_fill *how,
				 enum tarn_column c, size_t at, size_t days,
				 struct tarn_error *err)
{
	const char *name = tarn_column_info(c)->name;
	const char *s = days == 1 ? "" : "s";
	char day[11];

	tarn_day_text(w->first + (long)at, day);
	if (c == TARN_RAIN)
		return tarn_settled(err, TARN_SETTLE_RAIN, NULL, tarn_fail(
			err, TARN_EARG, name, "is missing for %zu "
				 "day%s from %s: rain is never interpolated; "
				 "say rain = \"zero\" to take missing days as "
				 "dry", days, s, day));
	if (!ends(w->column[c], at, days, w->days))
		return tarn_fail(err, TARN_EARG, name, "is missing for %zu "
				 "day%s from %s, at %s: there "
				 "is nothing to interpolate to; use a slice of "
				 "the table", days, s, day,
				 at == 0 ? "the start of the table" :
				 at + days == w->days ? "the end of the table" :
				 "days that are left out");
	return tarn_settled(err, TARN_SETTLE_BRIDGE, NULL, tarn_fail(
		err, TARN_EARG, name, "is missing for %zu day%s from "
			 "%s, and gaps up to %d days are to be interpolated: "
			 "allow more, or use a slice of the table", days, s,
			 day, how->interpolate_days));
}

static int fillable(const struct tarn_weather *w,
		    const struct tarn_fill *how, enum tarn_column c,
		    size_t at, size_t days)
{
	if (c == TARN_RAIN)
		return how->rain == TARN_RAIN_ZERO;
	return days <= (size_t)how->interpolate_days &&
	       ends(w->column[c], at, days, w->days);
}

static enum tarn_status check_gaps(const struct tarn_weather *w,
				   const struct tarn_fill *how,
				   struct tarn_error *err)
{
	size_t at, days;

	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;

		if (!wanted(w, how, c))
			continue;
		for (size_t from = 0; tarn_weather_gap(w, c, from, &at, &days);
		     from = at + days)
			if (!fillable(w, how, c, at, days))
				return fail_gap(w, how, c, at, days, err);
	}
	return TARN_OK;
}

/* The line between the days beside the gap; the partner, if there is one,
 * bounds it from above (sign 1) or below (-1). */
static void bridge(double *x, size_t at, size_t days, const double *partner,
		   int sign)
{
	double a = x[at - 1], b = x[at + days];

	for (size_t k = 0; k < days; k++) {
		double t = (double)(k + 1) / (double)(days + 1);
		double y = a + (b - a) * t;

		if (partner && sign * (y - partner[at + k]) > 0)
			y = partner[at + k];
		x[at + k] = y;
	}
}

/* The column that bounds c, and from which side. */
static const double *partner_of(const struct tarn_weather *w,
				enum tarn_column c, int *sign)
{
	*sign = c == TARN_TMIN || c == TARN_RH_MIN ? 1 : -1;
	switch (c) {
	case TARN_TMIN: return w->column[TARN_TMAX];
	case TARN_TMAX: return w->column[TARN_TMIN];
	case TARN_RH_MIN: return w->column[TARN_RH_MAX];
	case TARN_RH_MAX: return w->column[TARN_RH_MIN];
	default: return NULL;
	}
}

static size_t fill_column(struct tarn_weather *w,
			  const struct tarn_fill *how, double *x,
			  enum tarn_column c)
{
	size_t at, days, count = 0;
	int sign;
	const double *partner = partner_of(w, c, &sign);

	for (size_t from = 0; tarn_weather_gap(w, c, from, &at, &days);
	     from = at + days) {
		if (!fillable(w, how, c, at, days))
			continue;
		count += days;
		if (c != TARN_RAIN)
			bridge(x, at, days, partner, sign);
		for (size_t k = 0; c == TARN_RAIN && k < days; k++)
			x[at + k] = 0;
	}
	return count;
}

static enum tarn_status note_filled(struct tarn_weather *w,
				    const size_t filled[TARN_COLUMNS])
{
	enum tarn_status status = TARN_OK;

	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++) {
		const char *name = tarn_column_info((enum tarn_column)c)->name;

		if (filled[c] > 0)
			status = tarn_weather_add_note(
				w, "%s: %zu missing day%s %s", name, filled[c],
				filled[c] == 1 ? "" : "s", c == TARN_RAIN
				? "taken as dry" : "interpolated");
	}
	return status;
}

enum tarn_status tarn_weather_fill(struct tarn_weather *w,
				   const struct tarn_fill *how,
				   size_t filled[], struct tarn_error *err)
{
	size_t count[TARN_COLUMNS] = { 0 };
	enum tarn_status status;

	if (how->interpolate_days < 0 ||
	    how->interpolate_days > INTERPOLATE_MAX)
		return tarn_fail(err, TARN_EARG, "interpolate", "must be 0 to "
				 "%d days, got %d", INTERPOLATE_MAX,
				 how->interpolate_days);
	status = how->leave ? TARN_OK : check_gaps(w, how, err);
	if (status != TARN_OK)
		return status;
	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;
		double *x = wanted(w, how, c);

		if (x)
			count[i] = fill_column(w, how, x, c);
	}
	if (filled)
		memcpy(filled, count, sizeof count);
	if (note_filled(w, count) != TARN_OK)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	return TARN_OK;
}
