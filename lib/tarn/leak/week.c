/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define SPELL_DAYS 6.99

struct tarn_meter_week tarn_leak_week(const struct tarn_leak *k, size_t at,
				      size_t *next)
{
	struct tarn_meter_week w = { 0 };
	struct spread spread = { 0 };
	double from = k->laid.moment[at], area_days = 0;
	size_t i;

	w.first_day = k->day[at];
	for (i = at; i < k->count &&
		     (i == at || k->laid.moment[i] - from < SPELL_DAYS); i++) {
		const struct tarn_interval *v = &k->intervals[i];

		if (v->fate > TARN_USED_METERED || isnan(v->metered_m3))
			continue;
		tn_spread_add(&spread, &k->plain[i], w.days > 0 &&
			      k->intervals[i - 1].fate <= TARN_USED_METERED &&
			      !isnan(k->intervals[i - 1].metered_m3));
		w.days += v->days;
		w.metered_m3 += v->metered_m3;
		w.implied_m3 += v->implied_m3_d * v->days;
		w.expected_m3 += v->expected_m3_d * v->days;
		area_days += v->area_m2 * v->days;
	}
	*next = i;
	w.last_day = k->day[i];
	if (w.days > 0)
		w.expected_high_m3 = w.expected_m3 + GLS_Z95 / 1e3 *
				     tn_spread_sd(&spread, k) *
				     area_days / w.days;
	w.over = w.days > 0 && w.implied_m3 > w.expected_high_m3;
	return w;
}
