/* SPDX-License-Identifier: MIT */
#include "tarn/pond.h"

static int in_span(const struct tarn_span *s, long day, int mmdd)
{
	if (s->first_day != TARN_NO_DAY)
		return day >= s->first_day && day <= s->last_day;
	if (s->first_mmdd <= s->last_mmdd)
		return mmdd >= s->first_mmdd && mmdd <= s->last_mmdd;
	return mmdd >= s->first_mmdd || mmdd <= s->last_mmdd;
}

static int in_any(const struct tarn_span *spans, int count, long day, int mmdd)
{
	for (int i = 0; i < count; i++)
		if (in_span(&spans[i], day, mmdd))
			return 1;
	return 0;
}

int tarn_schedule_on(const struct tarn_schedule *s, long day)
{
	struct tarn_date date;
	int mmdd;

	if (!s->weekdays && !s->months && !s->on_count && !s->off_count)
		return 1;
	date = tarn_date(day);
	mmdd = date.month * 100 + date.day;
	if (s->months && !(s->months >> date.month & 1))
		return 0;
	if (s->weekdays && !(s->weekdays >> tarn_week(day).weekday & 1))
		return 0;
	if (s->on_count && !in_any(s->on, s->on_count, day, mmdd))
		return 0;
	return !in_any(s->off, s->off_count, day, mmdd);
}
