/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* ---- the header and what stands before it ---------------------------- */

enum tarn_status tn_no_memory(struct tarn_reader *r)
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
		return tn_no_memory(r);
	if (tn_file_begin(r, row) != TARN_OK)
		return tn_no_memory(r);
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

enum tarn_status tn_stage_settle(struct tarn_reader *r, int *more)
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
			status = tn_stage_settle(r, &more);
		day++;
		r->stage = DLY;
	}
	for (; status == TARN_OK && tn_dly_row(line, day, date, &row); day++)
		if (!tn_text_is(row.field[3], "-9999"))
			status = tn_store_row(r, &row);
	return status;
}

enum tarn_status tn_stage_row(void *context, struct row *row)
{
	struct tarn_reader *r = context;
	enum tarn_status status;
	int more;

	switch (r->stage) {
	case DATA:
		return tn_store_row(r, row);
	case SAMPLE:	/* in the header's own line: it ends in CR alone */
		r->sample.ended = 1;
		status = tn_stage_settle(r, &more);
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
			       ? TARN_OK : tn_no_memory(r);
	}
	return read_header(r, row);
}

/* ---- lines ----------------------------------------------------------- */

enum tarn_status tn_feed_rows(struct tarn_reader *r, const char *bytes,
			      size_t count)
{
	return tn_splitter_feed(r->splitter, bytes, count, r->line_number,
				&r->err);
}

/* A whole line before the header. */
enum tarn_status tn_stage_line(struct tarn_reader *r, struct text whole)
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
		if (line.at[0] == '#' && r->commented)
			return tn_feed_rows(r, line.at + 1, whole.length - 1 -
					    (size_t)(line.at - whole.at));
		if (line.at[0] == '#') {
			tn_layout_comment(&r->site, line);
			return TARN_OK;
		}
		if (r->stage == PEEK)
			r->stage = tn_text_is(line, "-BEGIN HEADER-") ? BLOCK
								: HEADER;
		return r->stage == BLOCK
			       ? TARN_OK
			       : tn_feed_rows(r, whole.at, whole.length);
	}
}
