/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "heading.h"

/*
 * Lines above the header.  The header is the first row that a layout or the
 * grammar of names knows, alone or with the row below it, or that has a name of
 * the map.  Where there is none, it is the first row of words that has as many
 * values as most rows have, so that a question about it shows its names.
 */

#define ROWS_MOST 200		/* that are looked at; our own */

static int has_name(const struct row *row, const char *name)
{
	for (size_t i = 0; i < row->count && name[0]; i++)
		if (tn_text_is(row->field[i], name))
			return 1;
	return 0;
}

static int has_name_of_map(const struct tarn_csv_map *map,
			   const struct row *row)
{
	if (has_name(row, map->date.name) || has_name(row, map->year.name))
		return 1;
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (has_name(row, map->column[c].place.name))
			return 1;
	return 0;
}

static struct header header_of(struct row *row)
{
	struct header h = { row->count, row->field, row->field, NULL };

	return h;
}

static int is_header(const struct tarn_csv_map *map, struct row *row)
{
	struct tarn_csv_map open = tarn_csv_map_default();
	struct header h = header_of(row);

	return has_name_of_map(map, row) ||
	       (row->count > 1 && (tn_layout_fits(&h) ||
				   tn_plain_fits(&h, &open)));
}

/* A group of names, and under it the rest of each. */
static int is_pair(struct row *above, struct row *below)
{
	struct header a = header_of(above), b = header_of(below);
	struct text left = { NULL, 0 };

	if (above->count < 2 || below->count != above->count ||
	    !tn_row_of_words(above) || !tn_row_of_words(below) ||
	    (!tn_date_columns(&a).found && !tn_date_columns(&b).found))
		return 0;
	for (size_t i = 0; i < above->count; i++) {
		char name[JOINED_MAX];

		if (above->field[i].length > 0)
			left = above->field[i];
		tn_header_word(name, above->field[i], left, below->field[i]);
		if (tn_heading(tn_text(name)).kind == HEADING_WANTED)
			return 1;
	}
	return 0;
}

/* ---- by shape --------------------------------------------------------- */

static size_t filled(const struct row *row)
{
	size_t n = 0;

	for (size_t i = 0; i < row->count; i++)
		n += row->field[i].length > 0;
	return n;
}

/* Values that most rows have. */
static size_t common_count(struct text t, char delimiter)
{
	unsigned rows[TARN_CSV_FIELDS_MAX + 1] = { 0 };
	struct row row;
	size_t best = 0;
	long lines;

	for (int i = 0; i < ROWS_MOST && t.length > 0; i++) {
		tn_row_split(tn_take_row(&t, &lines), delimiter, &row);
		rows[row.count]++;
	}
	for (size_t n = 2; n <= TARN_CSV_FIELDS_MAX; n++)
		if (rows[n] > rows[best] || (best == 0 && rows[n] > 0))
			best = n;
	return best;
}

/* ---- behind '#' ---------------------------------------------------------- */

/* "# STN,YYYYMMDD, ..." above rows that have as many values. */
static int is_commented(const struct tarn_csv_map *map, struct text line,
			size_t common, struct row *row)
{
	line.at++;
	line.length--;
	tn_row_split(line, map->delimiter, row);
	return row->count == common && common > 2 && is_header(map, row);
}

/* ---- both -------------------------------------------------------------- */

/* Lines that the map skips; the rest is looked at. */
static int is_open(const struct tarn_csv_map *map, struct text t)
{
	static const char block[] = "-BEGIN HEADER-";

	t = tn_text_trim(t);
	return map->skip_lines == 0 && !map->skip_to[0] && !map->no_header &&
	       (t.length < sizeof block - 1 ||
		memcmp(t.at, block, sizeof block - 1) != 0);
}

long tn_titles(const struct tarn_csv_map *map, struct text t, int *commented)
{
	struct row rows[2], *row = &rows[0], *before = &rows[1];
	size_t common = common_count(t, map->delimiter);
	long lines, at = 0, at_before = 0, by_shape = 0;

	before->count = 0;
	*commented = 0;
	if (!is_open(map, t))
		return 0;
	for (int i = 0; i < ROWS_MOST && t.length > 0; i++, at += lines) {
		struct text line = tn_take_row(&t, &lines);
		struct row *swap = row;

		if (tn_text_trim(line).length == 0)
			continue;
		if (line.at[0] == '#') {
			if (!is_commented(map, line, common, row))
				continue;
			*commented = 1;
			return at;
		}
		tn_row_split(line, map->delimiter, row);
		if (has_name(row, "utc_offset_seconds"))
			return 0;	/* Open-Meteo's lines of places */
		if (is_header(map, row))
			return at;
		if (is_pair(before, row))
			return at_before;
		if (row->count == common && 2 * filled(row) > common &&
		    by_shape == 0)
			by_shape = tn_row_of_words(row) ? at + 1 : 1;
		row = before;
		before = swap;
		at_before = at;
	}
	return common > 1 && by_shape > 0 ? by_shape - 1 : 0;
}
