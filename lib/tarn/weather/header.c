/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

enum tarn_status tn_header_copy(struct header *h,
				const struct tarn_alloc *alloc,
				const struct row *row)
{
	size_t bytes = 2 * row->count * sizeof *h->name;
	struct text *name;
	char *at;

	for (size_t i = 0; i < row->count; i++)
		bytes += row->field[i].length;
	name = tarn_resize(alloc, h->name, bytes);
	if (!name)
		return TARN_ENOMEM;
	h->name = name;
	h->count = row->count;
	h->read = name + row->count;
	at = (char *)(h->read + row->count);
	for (size_t i = 0; i < row->count; i++) {
		h->name[i].at = at;
		h->name[i].length = row->field[i].length;
		memcpy(at, row->field[i].at, row->field[i].length);
		at += row->field[i].length;
		h->read[i] = h->name[i];
	}
	return TARN_OK;
}

void tn_header_free(struct header *h, const struct tarn_alloc *alloc)
{
	tarn_resize(alloc, h->joined, 0);
	tarn_resize(alloc, h->name, 0);
}

int tn_header_find(const struct header *h, const char *name, size_t from)
{
	for (size_t i = from; i < h->count; i++)
		if (tn_text_is(h->name[i], name))
			return (int)i;
	return -1;
}

const char *tn_header_list(const struct header *h, char *out, size_t size)
{
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < h->count; i++) {
		char name[64];
		size_t need;

		tn_text_show(name, sizeof name, h->name[i]);
		need = strlen(name) + (i > 0 ? 2 : 0);
		if (n + need + sizeof ", ..." > size) {
			strcpy(out + n, i > 0 ? ", ..." : "...");
			break;
		}
		strcpy(out + n, i > 0 ? ", " : "");
		strcat(out + n, name);
		n += need;
	}
	return out;
}
