/* SPDX-License-Identifier: MIT */
#include <csv.h>
#include <string.h>

#include "internal.h"

/*
 * libcsv splits rows into fields.  It hands over each field in the one buffer
 * that it was given, so the fields of a row are gathered here.  It never
 * allocates: its buffer is ours, and the function to enlarge it refuses.
 *
 * A whole line without any quote needs no such care and is split in place,
 * which is much faster; most weather files have no other lines.  Both ways
 * must agree to the byte: the tests feed every file whole and in pieces.
 */
struct rows {
	const struct tarn_alloc *alloc;
	struct csv_parser csv;
	int between;			/* libcsv's state between two rows */
	char delimiter;
	row_handler *handler;
	void *context;
	enum tarn_status status;	/* of the handler */
	enum { FINE, FIELDS, BYTES } trouble;
	size_t used;			/* of 'bytes' */
	struct row row;
	char field[TARN_CSV_LINE_MAX];	/* libcsv's */
	char bytes[TARN_CSV_LINE_MAX];	/* of the row */
};

static void *refuse(void *block, size_t bytes)
{
	(void)block;
	(void)bytes;
	return NULL;
}

static void keep(void *block)
{
	(void)block;
}

static void on_field(void *at, size_t length, void *context)
{
	struct rows *rows = context;
	struct row *row = &rows->row;
	struct text t = { rows->bytes + rows->used, length };

	if (rows->status != TARN_OK || rows->trouble)
		return;
	if (row->count == TARN_CSV_FIELDS_MAX)
		rows->trouble = FIELDS;
	else if (length > sizeof rows->bytes - rows->used)
		rows->trouble = BYTES;
	if (rows->trouble)
		return;
	memcpy(rows->bytes + rows->used, at, length);
	rows->used += length;
	row->field[row->count++] = tn_text_trim(t);
}

static void on_row(int end, void *context)
{
	struct rows *rows = context;

	(void)end;
	if (rows->status == TARN_OK && !rows->trouble)
		rows->status = rows->handler(rows->context, &rows->row);
	rows->row.count = 0;
	rows->used = 0;
}

struct rows *tn_rows_new(const struct tarn_alloc *alloc, char delimiter,
			 row_handler *handler, void *context,
			 struct tarn_error *err)
{
	struct rows *rows = tarn_resize(alloc, NULL, sizeof *rows);

	if (!rows) {
		tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
		return NULL;
	}
	rows->alloc = alloc;
	rows->handler = handler;
	rows->context = context;
	rows->status = TARN_OK;
	rows->trouble = FINE;
	rows->delimiter = delimiter;
	rows->used = 0;
	rows->row.count = 0;
	csv_init(&rows->csv, CSV_STRICT | CSV_STRICT_FINI);
	csv_set_delim(&rows->csv, (unsigned char)delimiter);
	csv_set_realloc_func(&rows->csv, refuse);
	csv_set_free_func(&rows->csv, keep);
	rows->between = rows->csv.pstate;
	rows->csv.entry_buf = (unsigned char *)rows->field;
	rows->csv.entry_size = sizeof rows->field;
	return rows;
}

static enum tarn_status fail(struct rows *rows, int error,
			     struct tarn_error *err)
{
	if (rows->status != TARN_OK)
		return rows->status;
	err->line = rows->row.line;
	if (rows->trouble == FIELDS)
		return tarn_fail(err, TARN_EFORMAT, NULL, "the row has more "
				 "than %d columns: is this a CSV file with "
				 "the right delimiter?", TARN_CSV_FIELDS_MAX);
	if (rows->trouble == BYTES || error == CSV_ENOMEM)
		return tarn_fail(err, TARN_EFORMAT, NULL, "the row is longer "
				 "than %d bytes: is a quote left open?",
				 TARN_CSV_LINE_MAX);
	return tarn_fail(err, TARN_EFORMAT, NULL, "a quote (\") stands inside "
			 "a value or is never closed: quotes must enclose "
			 "whole values, and \"\" stands for one inside");
}

/*
 * Splits a whole line in place, as libcsv would.  Returns 0 if it has a quote,
 * a carriage return in its middle or too many fields.
 */
static int split(struct rows *rows, const char *s, size_t count)
{
	const char *end = s + count - 1;	/* the newline */
	struct text t = { s, 0 };
	size_t n = 0;

	if (end > s && end[-1] == '\r')
		end--;
	for (; s <= end; s++) {
		if (s < end && *s != rows->delimiter) {
			if (*s == '"' || *s == '\r')
				return 0;
			continue;
		}
		if (n == TARN_CSV_FIELDS_MAX)
			return 0;
		t.length = (size_t)(s - t.at);
		if (t.length > 0 && (t.at[0] <= ' ' || s[-1] <= ' '))
			t = tn_text_trim(t);
		rows->row.field[n++] = t;
		t.at = s + 1;
	}
	/* a line of nothing but blanks is no row */
	rows->row.count = n > 1 || rows->row.field[0].length > 0 ? n : 0;
	return 1;
}

static enum tarn_status feed_split(struct rows *rows)
{
	if (rows->row.count > 0) {
		rows->status = rows->handler(rows->context, &rows->row);
	}
	rows->row.count = 0;
	return rows->status;
}

enum tarn_status tn_rows_feed(struct rows *rows, const char *bytes,
			      size_t count, long line,
			      struct tarn_error *err)
{
	int between = rows->csv.pstate == rows->between;

	if (between)
		rows->row.line = line;
	if (between && count > 0 && bytes[count - 1] == '\n' &&
	    split(rows, bytes, count))
		return feed_split(rows);
	if (csv_parse(&rows->csv, bytes, count, on_field, on_row, rows) ==
		    count &&
	    rows->status == TARN_OK && !rows->trouble)
		return TARN_OK;
	return fail(rows, csv_error(&rows->csv), err);
}

enum tarn_status tn_rows_finish(struct rows *rows, struct tarn_error *err)
{
	/* ask before csv_fini: it forgets */
	int error = csv_error(&rows->csv);

	if (csv_fini(&rows->csv, on_field, on_row, rows) == 0 &&
	    rows->status == TARN_OK && !rows->trouble)
		return TARN_OK;
	return fail(rows, error, err);
}

void tn_rows_free(struct rows *rows)
{
	if (rows)
		tarn_resize(rows->alloc, rows, 0);
}
