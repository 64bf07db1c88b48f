/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* What the next line is. */
enum stage {
	SKIP,		/* before the header, to be skipped by the map */
	TITLES,		/* before the header, as the first look found */
	PEEK,		/* the first line: a header block, or a header? */
	DLY,		/* fixed width: each line is a month */
	BLOCK,		/* of a NASA POWER header block */
	PLACES,		/* Open-Meteo's lines about places, if there are any */
	HEADER,
	SAMPLE,		/* rows wait until it is known what they are */
	DATA,
	FAILED
};

/* ---- the header and what stands before it ---------------------------- */

static enum tarn_status no_memory(struct tarn_reader *r)
{
	return tarn_fail(&r->err, TARN_ENOMEM, NULL, "out of memory");
}

static int field_is(const struct row *row, size_t i, const char *name)
{
	return i < row->count && tn_text_is(row->field[i], name);
}

/* "latitude,longitude,elevation,utc_offset_seconds,..." */
static int names_places(const struct tarn_reader *r, const struct row *row)
{
	if (r->map.layout[0] && strcmp(r->map.layout, "open_meteo") != 0)
		return 0;
	for (size_t i = 0; i < row->count; i++)
		if (field_is(row, i, "utc_offset_seconds"))
			return 1;
	return 0;
}

/* One place, under the names of the row kept as header. */
static void read_place(struct tarn_reader *r, const struct row *row)
{
	int id = tn_header_find(&r->header, "location_id", 0);

	if (r->map.station_id[0] && id >= 0 &&
	    !field_is(row, (size_t)id, r->map.station_id))
		return;
	r->site.latitude_deg = tn_site_number(
		row, tn_header_find(&r->header, "latitude", 0));
	r->site.elevation_m = tn_site_number(
		row, tn_header_find(&r->header, "elevation", 0));
}

static enum tarn_status read_header(struct tarn_reader *r, struct row *row)
{
	if (tn_header_copy(&r->header, r->alloc, row) != TARN_OK)
		return no_memory(r);
	if (tn_file_begin(r, row) != TARN_OK)
		return no_memory(r);
	r->stage = SAMPLE;
	return TARN_OK;
}

/* The header was no header: its names are the first row. */
static enum tarn_status store_header(struct tarn_reader *r, struct row *row)
{
	row->line = r->header_line;
	row->count = r->header.count;
	memcpy(row->field, r->header.name,
	       row->count * sizeof *row->field);
	r->header.count = 0;
	return tn_store_row(r, row);
}

/* What the rows are; *more: a longer sample is needed. */
static enum tarn_status settle(struct tarn_reader *r, int *more)
{
	static const struct row none;
	enum tarn_status status = tn_settle(r, more);

	if (status != TARN_OK || *more)
		return status;
	r->stage = DATA;
	if (r->map.no_header) {
		struct row row = none;

		return store_header(r, &row);
	}
	return TARN_OK;
}

/* A month of one element; the first one says what the rows are. */
static enum tarn_status read_dly(struct tarn_reader *r, struct text line)
{
	static const struct row none;
	struct row row = none;
	char date[8];
	enum tarn_status status = TARN_OK;
	int more, day = 1;

	row.line = r->line_number;
	if (!tn_dly_fits(line))
		return tn_fault(r, &row, -1, "is no line of a station file of "
				"GHCN-Daily (.dly), as those above it are: is "
				"the file cut short?");
	tn_dly_row(line, day, date, &row);
	if (!r->applied) {
		status = read_header(r, &row);
		r->sample.ended = 1;
		if (status == TARN_OK)
			status = settle(r, &more);
		day++;
		r->stage = DLY;
	}
	for (; status == TARN_OK && tn_dly_row(line, day, date, &row); day++)
		if (!tn_text_is(row.field[3], "-9999"))
			status = tn_store_row(r, &row);
	return status;
}

static enum tarn_status on_row(void *context, struct row *row)
{
	struct tarn_reader *r = context;
	enum tarn_status status;
	int more;

	switch (r->stage) {
	case DATA:
		return tn_store_row(r, row);
	case SAMPLE:	/* in the header's own line: it ends in CR alone */
		r->sample.ended = 1;
		status = settle(r, &more);
		return status == TARN_OK ? tn_store_row(r, row) : status;
	case PLACES:
		if (!field_is(row, 0, "time") && !field_is(row, 1, "time")) {
			read_place(r, row);
			return TARN_OK;
		}
		break;
	default:
		if (!names_places(r, row))
			break;
		r->stage = PLACES;
		return tn_header_copy(&r->header, r->alloc, row) == TARN_OK
			       ? TARN_OK : no_memory(r);
	}
	return read_header(r, row);
}

/* ---- lines ----------------------------------------------------------- */

static enum tarn_status feed_rows(struct tarn_reader *r, const char *bytes,
				  size_t count)
{
	return tn_splitter_feed(r->splitter, bytes, count, r->line_number,
				&r->err);
}

/* A whole line before the header. */
static enum tarn_status on_line(struct tarn_reader *r, struct text whole)
{
	struct text line = tn_text_trim(whole);

	switch (r->stage) {
	case SKIP:
		if (r->lines_to_skip > 0 ? --r->lines_to_skip == 0
					 : tn_text_is(line, r->map.skip_to))
			r->stage = HEADER;
		return TARN_OK;
	case TITLES:
		r->stage = --r->titles > 0 ? TITLES : HEADER;
		if (line.length > 0 && line.at[0] == '#') {
			tn_layout_comment(&r->site, line);
		} else if (line.length > 0) {
			r->titles_passed++;
			tn_title_place(&r->site, line);
		}
		return TARN_OK;
	case DLY:
		return line.length > 0 ? read_dly(r, line) : TARN_OK;
	case BLOCK:
		if (tn_text_is(line, "-END HEADER-"))
			r->stage = HEADER;
		else
			tn_layout_block(&r->map, &r->site, line);
		return TARN_OK;
	default:
		if (line.length == 0)
			return TARN_OK;
		if (line.at[0] == '#') {
			tn_layout_comment(&r->site, line);
			return TARN_OK;
		}
		if (r->stage == PEEK)
			r->stage = tn_text_is(line, "-BEGIN HEADER-") ? BLOCK
								: HEADER;
		return r->stage == BLOCK
			       ? TARN_OK
			       : feed_rows(r, whole.at, whole.length);
	}
}

/* Part of a line, or the whole of it; 'ends': its newline is there. */
static enum tarn_status feed_line(struct tarn_reader *r, const char *bytes,
				  size_t count, int ends)
{
	size_t at = r->line_bytes;
	struct text whole = { r->line, at + count };

	if (count > TARN_CSV_LINE_MAX - at) {
		r->err.line = r->line_number;
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the line is "
				 "longer than %d bytes: is this a CSV file?",
				 TARN_CSV_LINE_MAX);
	}
	r->line_bytes = ends ? 0 : at + count;
	if (r->stage >= DATA)
		return feed_rows(r, bytes, count);
	memcpy(r->line + at, bytes, count);
	return ends ? on_line(r, whole) : TARN_OK;
}

/* Lines up to the end, or up to the sample. */
static enum tarn_status feed_lines(struct tarn_reader *r, const char **bytes,
				   size_t *count)
{
	enum tarn_status status = TARN_OK;

	while (*count > 0 && status == TARN_OK && r->stage != SAMPLE) {
		const char *end = memchr(*bytes, '\n', *count);
		size_t n = end ? (size_t)(end - *bytes) + 1 : *count;

		status = feed_line(r, *bytes, n, end != NULL);
		r->line_number += end != NULL;
		*bytes += n;
		*count -= n;
	}
	return status;
}

/* Looks at the sample; once it tells what the rows are, reads it. */
static enum tarn_status feed_sample(struct tarn_reader *r)
{
	enum tarn_status status;
	const char *bytes;
	size_t count;
	int more;

	status = settle(r, &more);	/* may take rows off its front */
	bytes = r->sample.at;
	count = r->sample.bytes;
	if (status == TARN_OK && more)
		r->sample.want *= 2;
	else if (status == TARN_OK)
		status = feed_lines(r, &bytes, &count);
	if (status != TARN_OK || !more)
		tn_sample_free(&r->sample);
	return status;
}

static enum tarn_status feed_bytes(struct tarn_reader *r, const char *bytes,
				   size_t count)
{
	enum tarn_status status = feed_lines(r, &bytes, &count);

	while (count > 0 && status == TARN_OK && r->stage == SAMPLE) {
		size_t taken;

		if (tn_sample_add(&r->sample, bytes, count, &taken) != TARN_OK)
			return no_memory(r);
		bytes += taken;
		count -= taken;
		if (tn_sample_full(&r->sample))
			status = feed_sample(r);
	}
	return count > 0 && status == TARN_OK
		       ? feed_lines(r, &bytes, &count) : status;
}

/* ---- the public face ------------------------------------------------- */

enum tarn_status tarn_reader_new(struct tarn_reader **out,
				 const struct tarn_alloc *alloc,
				 const struct tarn_csv_map *map,
				 struct tarn_error *err)
{
	struct tarn_csv_map standard = tarn_csv_map_default();
	enum tarn_status status;
	struct tarn_reader *r;

	*out = NULL;
	if (!map)
		map = &standard;
	status = tn_map_check(map, err);
	if (status != TARN_OK)
		return status;
	r = tarn_resize(alloc, NULL, sizeof *r);
	if (!r)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	memset(r, 0, sizeof *r);
	r->alloc = r->days.alloc = alloc;
	tn_sample_init(&r->sample, alloc);
	r->map = *map;
	r->site = tarn_site_default();
	r->line_number = 1;
	r->lines_to_skip = map->skip_lines;
	r->stage = map->skip_lines > 0 || map->skip_to[0] ? SKIP : PEEK;
	r->line = tarn_resize(alloc, NULL, TARN_CSV_LINE_MAX);
	r->look = r->line ? tarn_resize(alloc, NULL, LOOK_BYTES) : NULL;
	if (r->look)
		r->splitter = tn_splitter_new(alloc, on_row, r, err);
	if (!r->splitter) {
		tarn_reader_free(r);
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	}
	*out = r;
	return TARN_OK;
}

void tarn_reader_free(struct tarn_reader *r)
{
	if (!r)
		return;
	tn_header_free(&r->header, r->alloc);
	tn_days_free(&r->days);
	tn_splitter_free(r->splitter);
	tn_sample_free(&r->sample);
	tarn_resize(r->alloc, r->field, 0);
	tarn_resize(r->alloc, r->line, 0);
	tarn_resize(r->alloc, r->look, 0);
	tarn_resize(r->alloc, r, 0);
}

/* Hands our error to the caller. */
static enum tarn_status give(struct tarn_reader *r, enum tarn_status status,
			     struct tarn_error *err)
{
	if (status == TARN_OK)
		return TARN_OK;
	r->stage = FAILED;
	if (err && err->code == TARN_OK)
		*err = r->err;
	return status;
}

static enum tarn_status feed_text(struct tarn_reader *r, const char *bytes,
				  size_t count)
{
	const char *nul = count > 0 ? memchr(bytes, '\0', count) : NULL;
	enum tarn_status status;

	status = feed_bytes(r, bytes, nul ? (size_t)(nul - bytes) : count);
	if (status != TARN_OK || !nul)
		return status;
	r->err.line = r->line_number + tn_sample_lines(&r->sample);
	return tarn_fail(&r->err, TARN_EFORMAT, NULL, "a byte of zero stands "
			 "here: this is no CSV text (UTF-16 without its byte "
			 "order mark?); save it as CSV in UTF-8");
}

/* Bytes of one character each, as UTF-8. */
static enum tarn_status feed_one_byte(struct tarn_reader *r,
				      const char *bytes, size_t count)
{
	char out[ONE_BYTE_MOST * 1024];
	enum tarn_status status = TARN_OK;

	while (count > 0 && status == TARN_OK) {
		size_t n = count < 1024 ? count : 1024;

		status = feed_text(r, out, tn_one_byte(out, bytes, n));
		bytes += n;
		count -= n;
	}
	return status;
}

/* The first bytes, which are no UTF-8, as UTF-8. */
static enum tarn_status widen_look(struct tarn_reader *r)
{
	char *wide = tarn_resize(r->alloc, NULL,
				 ONE_BYTE_MOST * r->look_bytes);

	if (!wide)
		return no_memory(r);
	r->look_bytes = tn_one_byte(wide, r->look, r->look_bytes);
	tarn_resize(r->alloc, r->look, 0);
	r->look = wide;
	r->one_byte = 1;
	return TARN_OK;
}

static int is_dly(const struct tarn_reader *r, struct text first)
{
	return r->stage == PEEK && !r->map.no_header &&
	       (!r->map.layout[0] || strcmp(r->map.layout, "noaa_long") == 0) &&
	       tn_dly_fits(tn_take_line(&first));
}

/* What the first bytes say: encoding, delimiter, header, decimal point. */
static enum tarn_status recognise(struct tarn_reader *r, struct text *first)
{
	enum tarn_status status;
	struct text from;

	*first = (struct text){ r->look, r->look_bytes };
	status = tn_look(&r->map, *first, &r->err);
	if (status == TARN_OK && r->decoder.encoding == ENCODING_BYTES &&
	    !tn_is_utf8(*first))
		status = widen_look(r);
	if (status != TARN_OK)
		return status;
	*first = from = (struct text){ r->look, r->look_bytes };
	r->dly = is_dly(r, *first);
	if (r->dly) {
		r->stage = DLY;
		return TARN_OK;
	}
	r->titles = tn_titles(&r->map, *first);
	if (r->titles > 0)
		r->stage = TITLES;
	for (long i = 0; i < r->titles; i++)
		tn_take_line(&from);	/* no point of theirs counts */
	return tn_look_decimal(&r->map, from, &r->err);
}

/* Looks at the first bytes, then feeds them. */
static enum tarn_status look(struct tarn_reader *r)
{
	struct text first;
	enum tarn_status status = recognise(r, &first);

	r->looked = 1;
	if (status != TARN_OK)
		return status;
	tn_splitter_delimiter(r->splitter, r->map.delimiter);
	return feed_text(r, first.at, first.length);
}

static enum tarn_status feed_looked(struct tarn_reader *r, const char *bytes,
				    size_t count)
{
	return r->one_byte ? feed_one_byte(r, bytes, count)
			   : feed_text(r, bytes, count);
}

static enum tarn_status take_text(void *context, const char *bytes,
				  size_t count)
{
	struct tarn_reader *r = context;
	size_t n = LOOK_BYTES - r->look_bytes;
	enum tarn_status status;

	if (r->looked)
		return feed_looked(r, bytes, count);
	if (n > count)
		n = count;
	memcpy(r->look + r->look_bytes, bytes, n);
	r->look_bytes += n;
	if (r->look_bytes < LOOK_BYTES)
		return TARN_OK;
	status = look(r);
	return status == TARN_OK ? feed_looked(r, bytes + n, count - n)
				 : status;
}

enum tarn_status tarn_reader_feed(struct tarn_reader *r, const char *bytes,
				  size_t count, struct tarn_error *err)
{
	if (r->stage == FAILED)
		return give(r, r->err.code, err);
	return give(r, tn_decode(&r->decoder, bytes, count, take_text, r), err);
}

/* Where a file ended that has no data. */
static enum tarn_status fail_early(struct tarn_reader *r)
{
	if (r->stage == SKIP && r->map.skip_lines > 0)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the file ends "
				 "within the %d lines to skip",
				 r->map.skip_lines);
	if (r->stage == SKIP)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the file has "
				 "no line \"%s\" to skip to", r->map.skip_to);
	if (r->stage == BLOCK)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the header "
				 "block has no line -END HEADER-: is the file "
				 "cut short?");
	if (r->stage == PLACES)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "no header that "
				 "begins with 'time' follows the lines about "
				 "places");
	if (r->stage == DATA && r->report.elsewhere > 0)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "none of the "
				 "%zu rows is of station '%s'",
				 r->report.elsewhere, r->map.station_id);
	if (r->stage == DATA)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the file has a "
				 "header, but no rows");
	return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the file is empty: "
			 "expected a header and one row a day");
}

static enum tarn_status end_sample(struct tarn_reader *r)
{
	if (r->stage != SAMPLE)
		return TARN_OK;
	r->sample.ended = 1;
	return feed_sample(r);
}

/* What waits for more bytes has none to come. */
static enum tarn_status feed_end(struct tarn_reader *r)
{
	enum tarn_status status = tn_decode_finish(&r->decoder, take_text, r,
						   &r->err);
	struct text whole = { r->line, 0 };

	if (status == TARN_OK && !r->looked)
		status = look(r);
	whole.length = r->line_bytes;
	if (status == TARN_OK && r->stage < SAMPLE && r->line_bytes > 0)
		status = on_line(r, whole);
	if (status == TARN_OK)
		status = end_sample(r);
	r->report.unfinished = r->line_bytes > 0;
	if (status == TARN_OK)
		status = tn_splitter_finish(r->splitter, &r->err);
	/* the header may have been the last line, without its newline */
	return status == TARN_OK ? end_sample(r) : status;
}

enum tarn_status tarn_reader_finish(struct tarn_reader *r,
				    struct tarn_weather **out,
				    struct tarn_read_report *report,
				    struct tarn_error *err)
{
	enum tarn_status status;

	*out = NULL;
	if (r->stage == FAILED)
		return give(r, r->err.code, err);
	status = feed_end(r);
	if (status == TARN_OK && r->report.rows == 0)
		status = fail_early(r);
	if (status == TARN_OK) {
		r->report.lines = r->line_number - 1 + r->report.unfinished;
		status = tn_finish(r, out);
	}
	if (status == TARN_OK && report)
		*report = r->report;
	return give(r, status, err);
}
