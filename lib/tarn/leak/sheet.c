/* SPDX-License-Identifier: MIT */
#include <csv.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "tarn/leak/sheet.h"

#define ROW_BYTES_MAX 8192
#define FILE_BYTES_MAX (16L << 20)

/*
 * libcsv tells neither lines nor columns, so that it is fed byte by byte:
 * a log is a few kilobytes.
 */
struct sheet {
	struct csv_parser parser;
	sheet_row *row;
	void *context;
	long line, column;	/* of the byte that is fed */
	struct sheet_cell cells[SHEET_CELLS_MAX];
	size_t count;
	char text[ROW_BYTES_MAX];
	size_t used;
	int fresh;		/* the next byte begins a cell */
	int ended;		/* a row is complete */
	int too_long;
	long start_line, start_column;
};

static void take_cell(void *bytes, size_t length, void *context)
{
	struct sheet *s = context;
	struct sheet_cell *cell = &s->cells[s->count];

	s->fresh = 1;
	if (s->count == SHEET_CELLS_MAX ||
	    length >= ROW_BYTES_MAX - s->used) {
		s->too_long = 1;
		return;
	}
	memcpy(s->text + s->used, bytes, length);
	s->text[s->used + length] = '\0';
	cell->text = s->text + s->used;
	cell->line = s->start_line;
	cell->column = s->start_column;
	s->used += length + 1;
	s->count++;
}

static void take_row(int byte, void *context)
{
	struct sheet *s = context;

	(void)byte;
	s->ended = 1;
}

static enum tarn_status fail_at(const struct sheet *s, struct tarn_error *err,
				const char *text)
{
	if (err && err->code == TARN_OK) {
		err->line = s->line;
		err->column = s->column;
	}
	return tarn_fail(err, TARN_EFORMAT, NULL, "%s", text);
}

static enum tarn_status hand_over(struct sheet *s, struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	if (s->too_long)
		return fail_at(s, err, "row is too long: more than 64 cells or "
			       "8000 bytes (is a quote not closed?)");
	if (s->ended && s->count > 0 && s->cells[0].text[0] != '#')
		status = s->row(s->context, s->cells, s->count, err);
	if (s->ended) {
		s->count = s->used = 0;
		s->ended = 0;
	}
	return status;
}

static enum tarn_status feed(struct sheet *s, char byte,
			     struct tarn_error *err)
{
	if (byte == '\0')
		return fail_at(s, err, "is not text: a zero byte (save it as "
			       "CSV, UTF-8)");
	if (s->fresh && byte != '\n' && byte != '\r') {
		s->start_line = s->line;
		s->start_column = s->column;
		s->fresh = 0;
	}
	if (csv_parse(&s->parser, &byte, 1, take_cell, take_row, s) != 1)
		return fail_at(s, err, "a quote stands inside a cell: double "
			       "it, or leave it out");
	if (byte == '\n') {
		s->line++;
		s->column = 0;
	}
	s->column++;
	return hand_over(s, err);
}

/* Separator of the first line. */
static unsigned char separator(const char *bytes, size_t count)
{
	unsigned char found = ',';

	for (size_t i = 0; i < count && bytes[i] != '\n'; i++) {
		if (bytes[i] == ',')
			return ',';
		if (bytes[i] == ';')
			found = ';';
	}
	return found;
}

static enum tarn_status feed_file(struct sheet *s, FILE *f,
				  struct tarn_error *err)
{
	char bytes[4096];
	size_t n, from;
	long total = 0;

	while ((n = fread(bytes, 1, sizeof bytes, f)) > 0) {
		from = 0;
		if (total == 0) {
			from = n >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0
				? 3 : 0;
			csv_set_delim(&s->parser, separator(bytes, n));
		}
		for (size_t i = from; i < n; i++) {
			enum tarn_status status = feed(s, bytes[i], err);

			if (status != TARN_OK)
				return status;
		}
		total += (long)n;
		if (total > FILE_BYTES_MAX)
			return fail_at(s, err, "file is larger than 16 MB: not "
				       "a log of levels");
	}
	if (ferror(f))
		return tarn_fail(err, TARN_EIO, NULL, "%s", strerror(errno));
	if (csv_fini(&s->parser, take_cell, take_row, s) != 0)
		return fail_at(s, err, "a quote is not closed before the end "
			       "of the file");
	return hand_over(s, err);
}

enum tarn_status tn_sheet_read(const char *path, sheet_row *row, void *context,
			       struct tarn_error *err)
{
	struct sheet s = { .row = row, .context = context, .line = 1,
			   .column = 1, .fresh = 1 };
	enum tarn_status status;
	FILE *f = fopen(path, "rb");

	if (!f)
		return tarn_fail(err, TARN_EIO, NULL, "%s", strerror(errno));
	if (csv_init(&s.parser, CSV_STRICT | CSV_STRICT_FINI) != 0) {
		fclose(f);
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	}
	status = feed_file(&s, f, err);
	csv_free(&s.parser);
	fclose(f);
	return status;
}
