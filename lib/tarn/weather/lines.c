/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* Text to lines, rows and values, where no row is read yet. */

struct text tn_take_line(struct text *t)
{
	const char *end = memchr(t->at, '\n', t->length);
	struct text line = { t->at, end ? (size_t)(end - t->at) : t->length };

	t->at += line.length + (end != NULL);
	t->length -= line.length + (end != NULL);
	return line;
}

struct text tn_take_value(struct text *line, char delimiter)
{
	struct text value = { line->at, 0 };
	int quoted = 0;

	for (; value.length < line->length; value.length++) {
		char c = line->at[value.length];

		if (c == '"')
			quoted = !quoted;
		else if (c == delimiter && !quoted)
			break;
	}
	line->at += value.length;
	line->length -= value.length;
	return value;
}

struct text tn_unquote(struct text t)
{
	t = tn_text_trim(t);
	if (t.length > 1 && t.at[0] == '"' && t.at[t.length - 1] == '"') {
		t.at++;
		t.length -= 2;
	}
	return tn_text_trim(t);
}

struct text tn_take_row(struct text *t, long *lines)
{
	struct text row = { t->at, 0 }, rest = *t;
	size_t quotes = 0;

	for (*lines = 1; *lines <= 4 && rest.length > 0; ++*lines) {
		struct text line = tn_take_line(&rest);

		for (size_t i = 0; i < line.length; i++)
			quotes += line.at[i] == '"';
		row.length = (size_t)(line.at + line.length - row.at);
		if (quotes % 2 > 0)
			continue;
		*t = rest;
		return row;
	}
	*lines = 1;
	return tn_take_line(t);
}

void tn_row_split(struct text t, char delimiter, struct row *row)
{
	row->count = 0;
	for (;;) {
		row->field[row->count++] =
			tn_unquote(tn_take_value(&t, delimiter));
		if (t.length == 0 || row->count == TARN_CSV_FIELDS_MAX)
			return;
		t.at++;
		t.length--;
	}
}
