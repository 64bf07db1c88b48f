/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "tarn/base/rows.h"
#include "tarn/design/stages.h"

int tn_design_is_number(const struct tarn_place *p)
{
	switch (p->row->kind) {
	case TARN_FIELD_NUMBER:
	case TARN_FIELD_MONTHS:
		return 1;
	case TARN_FIELD_NUMBERS:
	case TARN_FIELD_PAIRS:
		return p->index >= 0;
	default:
		return 0;
	}
}

static enum tarn_status check_spans(const char *section, const char *name,
				    const struct tarn_span *span, int count,
				    struct tarn_error *err)
{
	for (int i = 0; i < count; i++) {
		const struct tarn_span *s = &span[i];
		int mixed = (s->first_mmdd == 0) != (s->last_mmdd == 0);
		char path[64];

		if (!mixed && (s->first_mmdd || s->first_day <= s->last_day))
			continue;
		snprintf(path, sizeof path, "%s.%s[%d]", section, name, i + 1);
		tn_rows_note(err, TARN_MISTAKE_CONFLICT, NULL);
		return tarn_fail(err, TARN_EARG, path, mixed
				 ? "mixes a date of one year with one of every "
				   "year" : "ends before it begins");
	}
	return TARN_OK;
}

static enum tarn_status check_schedule(const char *section,
				       const struct tarn_schedule *s,
				       struct tarn_error *err)
{
	enum tarn_status status = check_spans(section, "open", s->on,
					      s->on_count, err);

	return status == TARN_OK ? check_spans(section, "closed", s->off,
					       s->off_count, err) : status;
}

enum tarn_status tn_design_check_schedules(const struct tarn_design *d,
					   struct tarn_error *err)
{
	enum tarn_status status = check_schedule("supply",
						 &d->pond.supply.when, err);

	for (int i = 0; i < d->pond.withdrawals && status == TARN_OK; i++) {
		char section[40];

		snprintf(section, sizeof section, "withdrawals[%d]", i + 1);
		status = check_schedule(section, &d->pond.withdrawal[i].when,
					err);
	}
	return status;
}

enum tarn_status tarn_yard_wished(const struct tarn_yard_wish *w,
				  struct tarn_yard *yard,
				  struct tarn_yard_corner c[TARN_YARD_CORNERS],
				  struct tarn_error *err)
{
	int sides = w->corners ? w->corners : 4;

	if (w->corners == 0 && isnan(w->length_m * w->width_m))
		return tarn_fail(err, TARN_EARG, "yard", "needs length and "
				 "width, or corners");
	if (w->setbacks > sides || w->footings > sides)
		return tarn_fail(err, TARN_EARG, w->setbacks > sides
				 ? "yard.setbacks" : "yard.footings",
				 "has %d entries for %d sides",
				 w->setbacks > sides ? w->setbacks
						     : w->footings, sides);
	for (int i = 0; i < sides; i++) {
		c[i] = w->corners ? w->corner[i] : tarn_yard_corner_default();
		if (w->corners == 0) {	/* sides bottom, right, top, left */
			c[i].x_m = i == 1 || i == 2 ? w->length_m : 0;
			c[i].y_m = i >= 2 ? w->width_m : 0;
		}
		if (i < w->setbacks && !isnan(w->setback_by_side_m[i]))
			c[i].setback_m = w->setback_by_side_m[i];
		if (isnan(c[i].setback_m))
			c[i].setback_m = w->setback_m;
		if (i < w->footings && !isnan(w->footing_by_side_m[i]))
			c[i].footing_m = w->footing_by_side_m[i];
	}
	*yard = w->yard;
	yard->corner = c;
	yard->count = (size_t)sides;
	return TARN_OK;
}
