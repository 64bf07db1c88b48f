/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/season.h"

static double lasts(long days)
{
	return days < 0 ? HUGE_VAL : (double)days;
}

/* One month; 'lasting' is scratch for its starts. */
static void by_month(struct tarn_absence_month *m, const long *days,
		     size_t count, long first_day, size_t horizon,
		     double *lasting)
{
	struct tarn_spread s;
	size_t n = 0;

	m->worst = HUGE_VAL;
	/* from the last day on: 'after' days follow without one left out */
	for (size_t i = count, after = 0; i-- > 0;) {
		after = days[i] == TARN_ENDURANCE_LEFT_OUT ? 0 : after + 1;
		if (after == 0 ||
		    tarn_date(first_day + (long)i).month != m->month)
			continue;
		m->worst = fmin(m->worst, lasts(days[i]));
		if (after >= horizon)
			lasting[n++] = fmin(lasts(days[i]),
					    (double)horizon + 1);
	}
	s = tarn_spread(lasting, n);
	m->starts = n;
	m->p10 = s.p10;
	m->p50 = s.p50;
}

/* Whether a month occurs in a row of days. */
static int occurs(int month, const long *days, long first_day, size_t count)
{
	for (size_t i = 0; i < count; i++)
		if (days[i] != TARN_ENDURANCE_LEFT_OUT &&
		    tarn_date(first_day + (long)i).month == month)
			return 1;
	return 0;
}

enum tarn_status tarn_absence(struct tarn_absence *out,
			      const struct tarn_alloc *alloc,
			      const long *days, size_t count, long first_day,
			      struct tarn_error *err)
{
	double *lasting;
	size_t counted = 0;

	memset(out, 0, sizeof *out);
	for (size_t i = 0; i < count; i++)
		counted += days[i] != TARN_ENDURANCE_LEFT_OUT;
	out->horizon = counted / 2 < TARN_ABSENCE_HORIZON
		? (int)(counted / 2) : TARN_ABSENCE_HORIZON;
	if (counted < TARN_ABSENCE_LEAST)
		return TARN_OK;
	lasting = tarn_resize(alloc, NULL, count * sizeof *lasting);
	if (!lasting)
		return tarn_fail(err, TARN_ENOMEM, "absence", "out of memory "
				 "for %zu days", count);
	for (int month = 1; month <= 12; month++) {
		struct tarn_absence_month *m = &out->month[out->months];

		if (!occurs(month, days, first_day, count))
			continue;
		m->month = month;
		by_month(m, days, count, first_day, (size_t)out->horizon,
			 lasting);
		out->months++;
	}
	tarn_resize(alloc, lasting, 0);
	return TARN_OK;
}
