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
struct splitter {
	const struct tarn_alloc *alloc;
	struct csv_parser csv;
	int between;			/* libcsv's state between two rows */
	char delimiter;
	unsigned char special[256];	/* delimiter, quote, return, newline */
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
	struct splitter *splitter = context;
	struct row *row = &splitter->row;
	struct text t = { splitter->bytes + splitter->used, length };

	if (splitter->status != TARN_OK || splitter->trouble)
		return;
	if (row->count == TARN_CSV_FIELDS_MAX)
		splitter->trouble = FIELDS;
	else if (length > sizeof splitter->bytes - splitter->used)
		splitter->trouble = BYTES;
	if (splitter->trouble)
		return;
	memcpy(splitter->bytes + splitter->used, at, length);
	splitter->used += length;
	row->field[row->count++] = tn_text_trim(t);
}

static void on_row(int end, void *context)
{
	struct splitter *splitter = context;

	(void)end;
	if (splitter->status == TARN_OK && !splitter->trouble)
		splitter->status = splitter->handler(splitter->context,
						     &splitter->row);
	splitter->row.count = 0;
	splitter->used = 0;
}

struct splitter *tn_splitter_new(const struct tarn_alloc *alloc,
				 row_handler *handler, void *context,
				 struct tarn_error *err)
{
	struct splitter *splitter = tarn_resize(alloc, NULL, sizeof *splitter);

	if (!splitter) {
		tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
		return NULL;
	}
	splitter->alloc = alloc;
	splitter->handler = handler;
	splitter->context = context;
	splitter->status = TARN_OK;
	splitter->trouble = FINE;
	splitter->used = 0;
	splitter->row.count = 0;
	csv_init(&splitter->csv, CSV_STRICT | CSV_STRICT_FINI);
	csv_set_realloc_func(&splitter->csv, refuse);
	csv_set_free_func(&splitter->csv, keep);
	splitter->between = splitter->csv.pstate;
	splitter->csv.entry_buf = (unsigned char *)splitter->field;
	splitter->csv.entry_size = sizeof splitter->field;
	tn_splitter_delimiter(splitter, ',');
	return splitter;
}

void tn_splitter_delimiter(struct splitter *splitter, char delimiter)
{
	splitter->delimiter = delimiter;
	memset(splitter->special, 0, sizeof splitter->special);
	splitter->special[(unsigned char)delimiter] = 1;
	splitter->special['"'] = splitter->special['\r'] = 1;
	splitter->special['\n'] = 1;
	csv_set_delim(&splitter->csv, (unsigned char)delimiter);
}

static enum tarn_status fail(struct splitter *splitter, int error,
			     struct tarn_error *err)
{
	if (splitter->status != TARN_OK)
		return splitter->status;
	err->line = splitter->row.line;
	if (splitter->trouble == FIELDS)
		return tarn_fail(err, TARN_EFORMAT, NULL, "the row has more "
				 "than %d columns: is this a CSV file with "
				 "the right delimiter?", TARN_CSV_FIELDS_MAX);
	if (splitter->trouble == BYTES || error == CSV_ENOMEM)
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
static int split(struct splitter *splitter, const char *s, size_t count)
{
	const char *end = s + count - 1;	/* the newline */
	const unsigned char *special = splitter->special;
	struct text t = { s, 0 };
	size_t n = 0;

	if (end > s && end[-1] == '\r')
		end--;
	for (; s <= end; s++) {
		while (!special[(unsigned char)*s])
			s++;		/* the newline ends it */
		if (s < end && *s != splitter->delimiter)
			return 0;
		if (n == TARN_CSV_FIELDS_MAX)
			return 0;
		t.length = (size_t)(s - t.at);
		if (t.length > 0 && (t.at[0] <= ' ' || s[-1] <= ' '))
			t = tn_text_trim(t);
		splitter->row.field[n++] = t;
		t.at = s + 1;
	}
	/* a line of nothing but blanks is no row */
	splitter->row.count = n > 1 || splitter->row.field[0].length > 0 ?
		n : 0;
	return 1;
}

static enum tarn_status feed_split(struct splitter *splitter)
{
	if (splitter->row.count > 0) {
		splitter->status = splitter->handler(splitter->context,
						     &splitter->row);
	}
	splitter->row.count = 0;
	return splitter->status;
}

enum tarn_status tn_splitter_feed(struct splitter *splitter, const char *bytes,
				  size_t count, long line,
				  struct tarn_error *err)
{
	int between = splitter->csv.pstate == splitter->between;

	if (between)
		splitter->row.line = line;
	if (between && count > 0 && bytes[count - 1] == '\n' &&
	    split(splitter, bytes, count))
		return feed_split(splitter);
	if (csv_parse(&splitter->csv, bytes, count, on_field, on_row,
		      splitter) ==
		    count &&
	    splitter->status == TARN_OK && !splitter->trouble)
		return TARN_OK;
	return fail(splitter, csv_error(&splitter->csv), err);
}

enum tarn_status tn_splitter_finish(struct splitter *splitter,
				    struct tarn_error *err)
{
	/* ask before csv_fini: it forgets */
	int error = csv_error(&splitter->csv);

	if (csv_fini(&splitter->csv, on_field, on_row, splitter) == 0 &&
	    splitter->status == TARN_OK && !splitter->trouble)
		return TARN_OK;
	return fail(splitter, error, err);
}

void tn_splitter_free(struct splitter *splitter)
{
	if (splitter)
		tarn_resize(splitter->alloc, splitter, 0);
}
