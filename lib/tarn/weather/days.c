/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define CAPACITY_MIN 366
#define AHEAD 128		/* days that are made empty at once */

enum tarn_status tn_days_init(struct days *days,
			      const struct tarn_alloc *alloc,
			      const struct scheme *scheme, int hours,
			      int running)
{
	memset(days, 0, sizeof *days);
	days->alloc = alloc;
	days->seen = tarn_resize(alloc, NULL, sizeof *days->seen);
	if (!days->seen)
		return TARN_ENOMEM;
	for (size_t i = 0; i < scheme->slots; i++) {
		int id = scheme->slot[i].id;

		days->value[id] = tarn_resize(alloc, NULL, sizeof(double));
		if (!days->value[id])
			return TARN_ENOMEM;
		if (hours == 0)
			continue;
		days->tally[id] = tarn_resize(alloc, NULL, sizeof(uint16_t));
		if (!days->tally[id])
			return TARN_ENOMEM;
	}
	if (!running || !days->value[TARN_RAIN])
		return TARN_OK;
	days->value[SLOT_RUNNING] = tarn_resize(alloc, NULL, sizeof(double));
	return days->value[SLOT_RUNNING] ? TARN_OK : TARN_ENOMEM;
}

void tn_days_free(struct days *days)
{
	for (int id = 0; id < SLOTS; id++) {
		tarn_resize(days->alloc, days->value[id], 0);
		tarn_resize(days->alloc, days->tally[id], 0);
	}
	tarn_resize(days->alloc, days->seen, 0);
}

/* Gives an array a new capacity and moves its entries to a new front. */
static enum tarn_status move(const struct days *days, void **array,
			     size_t size, size_t capacity, size_t front)
{
	char *at = *array;

	if (!at)
		return TARN_OK;
	if (capacity != days->capacity) {
		at = tarn_resize(days->alloc, at, capacity * size);
		if (!at)
			return TARN_ENOMEM;
		*array = at;
	}
	if (front != days->front && days->count > 0)
		memmove(at + front * size, at + days->front * size,
			days->count * size);
	return TARN_OK;
}

/* Arrays that were enlarged before one failed keep their entries in place
 * only if the front did not move; the reader gives up then anyway. */
static enum tarn_status reserve(struct days *days, size_t capacity,
				size_t front)
{
	for (int id = 0; id < SLOTS; id++) {
		void *value = days->value[id], *tally = days->tally[id];
		enum tarn_status status;

		status = move(days, &value, sizeof(double), capacity, front);
		days->value[id] = value;
		if (status == TARN_OK)
			status = move(days, &tally, sizeof(uint16_t), capacity,
				      front);
		days->tally[id] = tally;
		if (status != TARN_OK)
			return status;
	}
	{
		void *seen = days->seen;
		enum tarn_status status = move(days, &seen, sizeof *days->seen,
					       capacity, front);

		days->seen = seen;
		if (status != TARN_OK)
			return status;
	}
	days->capacity = capacity;
	days->front = front;
	days->blank = front + days->count;
	return TARN_OK;
}

/* Marks 'count' new days at 'at' (from the allocated start) as empty. */
static void clear(struct days *days, size_t at, size_t count)
{
	for (int id = 0; id < SLOTS; id++) {
		for (size_t i = 0; days->value[id] && i < count; i++)
			days->value[id][at + i] = TARN_NAN;
		if (days->tally[id])
			memset(days->tally[id] + at, 0,
			       count * sizeof(uint16_t));
	}
	memset(days->seen + at, 0, count * sizeof *days->seen);
}

static size_t roomy(size_t need)
{
	return need < CAPACITY_MIN ? CAPACITY_MIN : 2 * need;
}

static enum tarn_status grow_back(struct days *days, size_t more)
{
	size_t need = days->front + days->count + more;

	if (need > days->capacity &&
	    reserve(days, roomy(need), days->front) != TARN_OK)
		return TARN_ENOMEM;
	if (need > days->blank) {
		size_t from = days->blank;

		days->blank = need + AHEAD < days->capacity
				      ? need + AHEAD : days->capacity;
		clear(days, from, days->blank - from);
	}
	days->count += more;
	return TARN_OK;
}

static enum tarn_status grow_front(struct days *days, size_t more)
{
	if (more > days->front) {
		size_t capacity = roomy(days->count + more);

		if (capacity < days->capacity)
			capacity = days->capacity;
		/* all the room in front: files that run backwards go on so */
		if (reserve(days, capacity, capacity - days->count) != TARN_OK)
			return TARN_ENOMEM;
	}
	days->front -= more;
	days->first -= (long)more;
	days->count += more;
	clear(days, days->front, more);
	return TARN_OK;
}

enum tarn_status tn_days_reach(struct days *days, long day, size_t *at)
{
	enum tarn_status status = TARN_OK;

	if (days->count == 0)
		days->first = day;
	if (day < days->first)
		status = grow_front(days, (size_t)(days->first - day));
	else if (day >= days->first + (long)days->count)
		status = grow_back(days, (size_t)(day - days->first) + 1 -
						 days->count);
	*at = days->front + (size_t)(day - days->first);
	return status;
}
