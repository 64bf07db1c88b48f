/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* What follows from the header and the sample, before any row is read. */

static enum tarn_status make_scheme(struct tarn_reader *r)
{
	static const struct header none;

	return tn_scheme_make(&r->scheme, &r->map,
			      r->map.no_header ? &none : &r->header, &r->err);
}

/* The sun's power at the top of the air is 1361 W/m2 (Kopp & Lean 2011,
 * Geophysical Research Letters 38, from memory); broken clouds add some at the
 * ground (our own margin). */
#define SUN_MOST_W_M2 1500

/* The most rain of an hour is 401 mm, Shangdi, 3 July 1947 (WMO archive of
 * extremes, from memory); the margin is ours.  A code as 999 lies above. */
#define HOUR_RAIN_MM 500

/* A mean power of an hour may be more than that of a day, which is looked at
 * when the table is made. */
static void bound_hours(struct scheme *scheme, int hours)
{
	for (size_t i = 0; i < scheme->slots; i++) {
		struct slot *slot = &scheme->slot[i];

		if (slot->id == TARN_SOLAR &&
		    slot->combine == TARN_COMBINE_MEAN)
			slot->hi = SUN_MOST_W_M2 * 86.4 / 1000;
		if (slot->id == TARN_RAIN && hours >= 24)
			slot->hi = HOUR_RAIN_MM;
	}
}

/* The scheme, twice where the rows turn out to be hours. */
static enum tarn_status settle_rows(struct tarn_reader *r)
{
	enum tarn_status status;
	int changed;

	r->iso = strcmp(r->map.date_format, "%Y-%m-%d") == 0;
	tn_hours_begin(r);
	status = make_scheme(r);
	if (status == TARN_OK)
		status = tn_hours_settle(r, &changed);
	if (status == TARN_OK && changed)
		status = make_scheme(r);
	if (status != TARN_OK)
		return status;
	if (r->map.hours > 0)
		bound_hours(&r->scheme, r->map.hours);
	if (tn_days_init(&r->days, r->alloc, &r->scheme, r->map.hours,
			 tn_running_wanted(&r->map)) != TARN_OK)
		return tarn_fail(&r->err, TARN_ENOMEM, NULL, "out of memory");
	return TARN_OK;
}

enum tarn_status tn_settle(struct tarn_reader *r, int *more)
{
	enum tarn_status status = TARN_OK;

	*more = 0;
	r->err.line = r->header_line;	/* where questions arise */
	if (!r->applied) {
		status = tn_header_rows(r);
		if (status != TARN_OK)
			return status;
		status = tn_layout_apply(&r->map, &r->header, &r->err);
		if (status != TARN_OK)
			return status;
		tn_dates_find(r);
		r->applied = 1;
	}
	status = tn_dates_judge(r, more);
	if (status == TARN_OK && !*more)
		status = tn_units_settle(r);
	if (status == TARN_OK && !*more)
		status = settle_rows(r);
	if (status == TARN_OK)
		r->err.line = 0;
	return status;
}
