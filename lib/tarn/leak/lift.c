/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/leak/fit.h"

#define MM 1e3
#define HALF 0.5	/* between all of it, and none: our own */
#define UNKNOWN 10.0	/* times wider: such readings lie wrong together, so
			 * that they must not be taken for levels that say how
			 * fast the pond falls */

/*
 * A float valve keeps a pond from falling under its band, and not from standing
 * over it after rain.  Where the meter alone was read, the level is that of the
 * band and half of what the rains before would have left over it; a leak leaves
 * less.  Its error is so wide that the reading ties the intervals on both sides
 * together and says next to nothing else.
 */
void tn_lift_by_rain(struct tarn_leak *k, const struct tarn_pond *pond,
		     const struct tarn_forcing *f)
{
	double over_mm = 0;
	size_t i = 0;

	for (size_t d = 0; d < f->days; d++) {
		long day = f->first_day + (long)d;
		double net_mm = f->rain_mm[d] - k->options.evaporation_mean *
				f->open_water_mm[d];

		for (; i <= k->count && k->day[i] <= day; i++) {
			double part = k->laid.moment[i] - (double)day;
			double now_mm = fmax(0, over_mm + part * net_mm);
			double room_mm = (pond->overflow_level_m -
					  k->laid.level_m[i]) * MM;

			if (k->day[i] < day || !isnan(k->readings[i].level_m))
				continue;
			now_mm = fmin(now_mm, fmax(0, room_mm));
			now_mm *= HALF;
			k->laid.level_m[i] += now_mm / MM;
			k->laid.var_mm2[i] += UNKNOWN * now_mm * UNKNOWN * now_mm;
		}
		over_mm = fmax(0, over_mm + net_mm);
	}
}
