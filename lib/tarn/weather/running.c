/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * Loggers write rain in two ways: what fell since the row before, or what has
 * fallen since midnight, a running total.  Told from all rows: a total never
 * falls within a day, stays where it is while no rain falls, and begins anew
 * after each day with rain.  Both sums of the day are kept until the file has
 * ended.
 *
 * The limits are ours: rain of parts of a day that never falls from one row to
 * the next, on five days with rain, and repeats its value twice a day, would
 * have to be made up.
 */

#define WET_DAYS 5
#define HELD_A_DAY 2

/* The time that the row has, not shifted: minutes of the day. */
static int minute_of(const struct stamp *t)
{
	return t->hour % 24 * 60 + t->minute;
}

void tn_running_take(struct tarn_reader *r, const struct stamp *t, size_t at,
		     double x)
{
	struct running *run = &r->running;
	double *total = r->days.value[SLOT_RUNNING];
	int minute = minute_of(t), first = minute <= 1440 / r->map.hours;

	if (isnan(x))
		return;
	if (x < run->last && first)
		run->resets++;
	else if (x < run->last)
		run->falls++;
	if (x > 0 && run->wet_day != t->day) {
		run->wet_day = t->day;
		run->wet++;
	}
	run->held += !first && x > 0 && !(x < run->last) && !(x > run->last);
	/* at midnight the total of the day that ends, if it is not new yet */
	if (minute == 0 && r->map.stamps != TARN_STAMPS_END &&
	    run->last > 0 && x >= run->last) {
		if (at > r->days.front && total[at - 1] < x)
			total[at - 1] = x;
	} else if (!(total[at] >= x)) {
		total[at] = x;
	}
	run->last = x;
}

void tn_running_settle(struct tarn_reader *r)
{
	const struct running *run = &r->running;
	double *x = r->days.value[TARN_RAIN];
	const double *total = r->days.value[SLOT_RUNNING];

	r->running.found = total && run->falls == 0 && run->wet >= WET_DAYS &&
			   run->resets + 1 >= run->wet &&
			   run->held >= HELD_A_DAY * run->wet;
	for (size_t i = 0; r->running.found && i < r->days.count; i++)
		x[r->days.front + i] = total[r->days.front + i];
}

int tn_running_wanted(const struct tarn_csv_map *map)
{
	return map->hours > 0 &&
	       map->column[TARN_RAIN].combine == TARN_COMBINE_DEFAULT;
}
