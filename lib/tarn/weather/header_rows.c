/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "heading.h"

/*
 * Rows below the header that are no data yet: words that go on with its names
 * ("Temperature" above "max"), and units.  Such a row has no number and no
 * date, and under a name at least one word of the grammar or a unit that fits.
 */

#define ROWS_MOST 4

int tn_row_of_words(const struct row *row)
{
	int any = 0;

	for (size_t i = 0; i < row->count; i++) {
		struct text t = row->field[i];
		struct date_shape shape;
		double x;

		if (t.length == 0)
			continue;
		any = 1;
		if (tn_number(t, &x) != NUMBER_NONE ||
		    tn_number_with(t, ',', &x) != NUMBER_NONE ||
		    tn_date_shape(t, &shape))
			return 0;
	}
	return any;
}

void tn_header_word(char out[JOINED_MAX], struct text name, struct text left,
		    struct text word)
{
	char a[76], b[76];
	int own_quantity = tn_heading(word).kind != HEADING_UNKNOWN;

	if (name.length == 0 && word.length > 0 && !own_quantity)
		name = left;
	tn_text_show(a, sizeof a, name);
	tn_text_show(b, sizeof b, word);
	snprintf(out, JOINED_MAX, "%s%s%s", a, a[0] && b[0] ? " " : "", b);
}

/* "[mm]" and "(mm)" are mm. */
static struct text without_brackets(struct text t)
{
	if (t.length > 2 && (t.at[0] == '[' || t.at[0] == '(')) {
		t.at++;
		t.length -= 2;
	}
	return tn_text_trim(t);
}

static int is_unit_of_any(struct text t)
{
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (tn_unit_text((enum tarn_column)c, t))
			return 1;
	return 0;
}

/* ---- what a value of such a row is --------------------------------------- */

enum sense {
	SENSE_NONE,		/* blank, under a date, or not known */
	SENSE_UNIT,		/* of the column that it stands under */
	SENSE_OTHER_UNIT,	/* of no column, or of another one */
	SENSE_WORD
};

/* The name with a unit, as the grammar reads it: "High (F)". */
static void with_unit(char out[JOINED_MAX], struct text name, struct text unit)
{
	char a[120], b[32];

	snprintf(out, JOINED_MAX, "%s (%s)", tn_text_show(a, sizeof a, name),
		 tn_text_show(b, sizeof b, unit));
}

static enum sense sense_of(const struct header *h, size_t i, struct text t)
{
	struct heading bare = tn_heading(h->name[i]), word = tn_heading(t), one;
	char text[JOINED_MAX];

	if (t.length == 0)
		return SENSE_NONE;
	with_unit(text, h->name[i], without_brackets(t));
	one = tn_heading(tn_text(text));
	if (bare.column < TARN_COLUMNS)		/* "date" has no column */
		one.column = bare.column;
	if (one.column < TARN_COLUMNS &&
	    tn_unit_text(one.column, without_brackets(t)))
		return SENSE_UNIT;
	if (word.kind != HEADING_UNKNOWN || word.statistic)
		return SENSE_WORD;
	return is_unit_of_any(without_brackets(t)) ? SENSE_OTHER_UNIT
						   : SENSE_NONE;
}

static int is_date_column(const struct date_columns *d, int i)
{
	return i == d->date || i == d->year || i == d->month || i == d->day ||
	       i == d->day_of_year || i == d->hour;
}

/* A row of words and units, each value with its sense; 0: it is data. */
static int is_header_row(const struct header *h, struct row *row,
			 unsigned char sense[TARN_CSV_FIELDS_MAX])
{
	struct header own = { .count = row->count };
	struct date_columns d = tn_date_columns(h), below;
	size_t known = 0;

	if (!tn_row_of_words(row) || row->count > h->count)
		return 0;
	own.name = row->field;
	below = tn_date_columns(&own);
	for (size_t i = 0; i < row->count; i++) {
		if (is_date_column(&d, (int)i))
			sense[i] = SENSE_NONE;
		else if (!d.found && is_date_column(&below, (int)i))
			sense[i] = SENSE_WORD;
		else
			sense[i] = (unsigned char)sense_of(h, i,
							   row->field[i]);
		known += sense[i] != SENSE_NONE;
	}
	return known > 0;
}

/* ---- units that do not fit ------------------------------------------------ */

static enum tarn_status fail_unit(struct tarn_reader *r, const struct row *row,
				  size_t i, enum tarn_column c)
{
	char shown[40], list[100];

	tarn_weather_unit_list(c, list, sizeof list);
	return tn_fault(r, row, (int)i, "'%s' in the row of units is no unit "
			"of %s: correct it to one of %s",
			tn_text_show(shown, sizeof shown, row->field[i]),
			tarn_column_info(c)->name, list);
}

static enum tarn_status check_unit(struct tarn_reader *r,
				   const struct row *row, size_t i,
				   enum sense sense)
{
	struct heading one = tn_heading(r->header.name[i]);
	const struct tarn_weather_unit *u;

	if (one.column == TARN_COLUMNS)
		return TARN_OK;
	if (sense == SENSE_OTHER_UNIT)
		return fail_unit(r, row, i, one.column);
	u = tn_unit_text(one.column, without_brackets(row->field[i]));
	if (one.unit && u && one.unit != u)
		return tn_fault(r, row, (int)i, "is in %s by its name, and in "
				"%s by the row under it: correct the one that "
				"is wrong", one.unit->name, u->name);
	return TARN_OK;
}

/* ---- joining -------------------------------------------------------------- */

static void join(struct tarn_reader *r, char (*to)[JOINED_MAX],
		 const struct row *row, const unsigned char *sense)
{
	struct header *h = &r->header;
	struct text left = { "", 0 };
	int words = 0, units = 0;

	for (size_t i = 0; i < h->count; i++, to += 2) {
		struct text t = { "", 0 };
		int kind = i < row->count ? sense[i] : SENSE_NONE;
		int unit = kind == SENSE_UNIT || kind == SENSE_OTHER_UNIT;

		if (i < row->count)
			t = row->field[i];
		if (h->name[i].length > 0)
			left = h->name[i];
		tn_header_word(to[0], h->name[i], left,
			       kind == SENSE_WORD ? t : tn_text(""));
		if (unit)
			with_unit(to[1], h->name[i], without_brackets(t));
		else
			tn_header_word(to[1], h->read[i], left,
				       kind == SENSE_WORD ? t : tn_text(""));
		words |= kind == SENSE_WORD;
		units |= unit;
	}
	r->rows_joined += (size_t)words;
	r->unit_rows += (size_t)units;
}

static enum tarn_status add_row(struct tarn_reader *r, const struct row *row,
				const unsigned char *sense)
{
	struct header *h = &r->header;
	char (*bytes)[JOINED_MAX];
	enum tarn_status status = TARN_OK;

	for (size_t i = 0; i < row->count && status == TARN_OK; i++)
		if (sense[i] == SENSE_UNIT || sense[i] == SENSE_OTHER_UNIT)
			status = check_unit(r, row, i, (enum sense)sense[i]);
	if (status != TARN_OK)
		return status;
	bytes = tarn_resize(r->alloc, NULL, 2 * h->count * sizeof *bytes);
	if (!bytes)
		return tarn_fail(&r->err, TARN_ENOMEM, NULL, "out of memory");
	join(r, bytes, row, sense);
	for (size_t i = 0; i < h->count; i++) {
		h->name[i] = tn_text(bytes[2 * i]);
		h->read[i] = tn_text(bytes[2 * i + 1]);
		tn_text_show(r->field[i].name, sizeof r->field[i].name,
			     h->name[i]);
	}
	tarn_resize(r->alloc, h->joined, 0);
	h->joined = bytes[0];
	return TARN_OK;
}

enum tarn_status tn_header_rows(struct tarn_reader *r)
{
	unsigned char sense[TARN_CSV_FIELDS_MAX];
	struct row row;

	for (int i = 0; i < ROWS_MOST && !r->map.no_header; i++) {
		struct cells cells = tn_cells(r, 0);
		enum tarn_status status;

		if (!tn_cells_row(&cells, &row) ||
		    !is_header_row(&r->header, &row, sense))
			return TARN_OK;
		status = add_row(r, &row, sense);
		if (status != TARN_OK)
			return status;
		tn_sample_drop(r, &cells);
	}
	return TARN_OK;
}
