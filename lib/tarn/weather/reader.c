/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

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
		r->splitter = tn_splitter_new(alloc, tn_stage_row, r, err);
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

	status = tn_feed_bytes(r, bytes, nul ? (size_t)(nul - bytes) : count);
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
		return tn_no_memory(r);
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
	r->titles = tn_titles(&r->map, *first, &r->commented);
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
		status = tn_stage_line(r, whole);
	if (status == TARN_OK)
		status = tn_feed_sample_end(r);
	r->report.unfinished = r->line_bytes > 0;
	if (status == TARN_OK)
		status = tn_splitter_finish(r->splitter, &r->err);
	/* the header may have been the last line, without its newline */
	return status == TARN_OK ? tn_feed_sample_end(r) : status;
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
