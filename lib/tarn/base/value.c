/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/value.h"

#define BLOCK 8192

struct block {
	struct block *next;
	size_t used, size;
	union {			/* aligned for all that lies in it */
		double number;
		void *pointer;
		long whole;
	} at[];
};

struct tarn_values {
	const struct tarn_alloc *alloc;
	struct block *blocks;
};

struct tarn_values *tarn_values_new(const struct tarn_alloc *alloc)
{
	struct tarn_values *v = tarn_resize(alloc, NULL, sizeof *v);

	if (v)
		*v = (struct tarn_values){ alloc, NULL };
	return v;
}

void tarn_values_free(struct tarn_values *v)
{
	if (!v)
		return;
	while (v->blocks) {
		struct block *next = v->blocks->next;

		tarn_resize(v->alloc, v->blocks, 0);
		v->blocks = next;
	}
	tarn_resize(v->alloc, v, 0);
}

char *tarn_values_room(struct tarn_values *v, size_t bytes)
{
	size_t unit = sizeof v->blocks->at[0];
	size_t size = (bytes + unit - 1) / unit * unit;
	struct block *b = v->blocks;
	char *room;

	if (!b || b->size - b->used < size) {
		size_t most = size > BLOCK ? size : BLOCK;

		b = tarn_resize(v->alloc, NULL, sizeof *b + most);
		if (!b)
			return NULL;
		b->next = v->blocks;
		b->used = 0;
		b->size = most;
		v->blocks = b;
	}
	room = (char *)b->at + b->used;
	b->used += size;
	memset(room, 0, size);
	return room;
}

struct tarn_value *tarn_values_add(struct tarn_values *v,
				   struct tarn_value *table, const char *name)
{
	struct tarn_value *value =
		(struct tarn_value *)(void *)tarn_values_room(v,
							      sizeof *value);

	if (!value)
		return NULL;
	value->name = name;
	value->text = "";
	if (!table)
		return value;
	if (table->last)
		table->last->next = value;
	else
		table->first = value;
	table->last = value;
	table->listed += !name;
	return value;
}
