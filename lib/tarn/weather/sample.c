/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * The first text behind the header.  It waits here until it is known what the
 * rows are: in which order their dates stand, what their numbers look like.
 */

void tn_sample_init(struct sample *s, const struct tarn_alloc *alloc)
{
	memset(s, 0, sizeof *s);
	s->alloc = alloc;
	s->want = SAMPLE_BYTES;
}

void tn_sample_free(struct sample *s)
{
	tarn_resize(s->alloc, s->at, 0);
	s->at = NULL;
	s->bytes = 0;
}

enum tarn_status tn_sample_add(struct sample *s, const char *bytes,
			       size_t count, size_t *taken)
{
	size_t n = s->want - s->bytes;

	*taken = 0;
	if (s->capacity < s->want) {
		char *at = tarn_resize(s->alloc, s->at, s->want);

		if (!at)
			return TARN_ENOMEM;
		s->at = at;
		s->capacity = s->want;
	}
	if (n > count)
		n = count;
	memcpy(s->at + s->bytes, bytes, n);
	s->bytes += n;
	*taken = n;
	return TARN_OK;
}

int tn_sample_full(const struct sample *s)
{
	return s->bytes == s->want;
}

long tn_sample_lines(const struct sample *s)
{
	long lines = 0;

	for (size_t i = 0; i < s->bytes; i++)
		lines += s->at[i] == '\n';
	return lines;
}

struct cells tn_cells(const struct tarn_reader *r, int field)
{
	struct cells c = { { r->sample.at, r->sample.bytes },
			   r->map.delimiter, field, r->line_number,
			   r->sample.ended, r->commented };

	return c;
}

int tn_cells_next(struct cells *c, struct text *cell, long *line)
{
	while (c->rest.length > 0) {
		int whole = memchr(c->rest.at, '\n', c->rest.length) != NULL;
		struct text t = tn_take_line(&c->rest);

		*line = c->line++;
		if (!whole && !c->ended)
			return 0;
		if (c->commented && t.length > 0 && t.at[0] == '#')
			continue;
		*cell = tn_take_value(&t, c->delimiter);
		for (int i = 0; i < c->field; i++) {
			cell->length = 0;
			if (t.length == 0)
				break;
			t.at++;
			t.length--;
			*cell = tn_take_value(&t, c->delimiter);
		}
		*cell = tn_unquote(*cell);
		if (cell->length > 0)
			return 1;
	}
	return 0;
}

int tn_cells_row(struct cells *c, struct row *row)
{
	while (c->rest.length > 0) {
		int whole = memchr(c->rest.at, '\n', c->rest.length) != NULL;
		struct text t = tn_take_line(&c->rest);

		row->line = c->line++;
		row->count = 0;
		if (!whole && !c->ended)
			return 0;
		if (tn_text_trim(t).length == 0 ||
		    (c->commented && t.at[0] == '#'))
			continue;
		tn_row_split(t, c->delimiter, row);
		return 1;
	}
	return 0;
}

void tn_sample_drop(struct tarn_reader *r, const struct cells *c)
{
	r->line_number = c->line;
	r->sample.bytes = c->rest.length;
	if (c->rest.length > 0)
		memmove(r->sample.at, c->rest.at, c->rest.length);
}
