/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* What a file was taken for, as data. */

#define T struct tarn_weather_file_field
static const struct tarn_field field_rows[] = {
	TARN_OUT_TEXT(T, name, "name", "its header"),
	TARN_OUT_WHOLE(T, index, "index", "-", "from 1"),
	TARN_OUT_TEXT(T, use, "use", "what it is taken for"),
	TARN_OUT_TEXT(T, first, "first", "of the first row"),
	TARN_OUT_TEXT(T, second, "second", "of the second row"),
	TARN_OUT_TEXT(T, third, "third", "of the third row"),
};
TARN_FIELDS(tarn_weather_file_field_fields, "field", field_rows);
#undef T

#define T struct tarn_read_column
static const struct tarn_field count_rows[] = {
	TARN_OUT_COUNT(T, trace, "trace", "-", "traces, counted as 0"),
	TARN_OUT_COUNT(T, rejected, "rejected", "-", "missing by their flag"),
	TARN_OUT_COUNT(T, flagged, "flagged", "-", "kept in spite of one"),
	TARN_OUT_COUNT(T, outliers, "outliers", "-", "that cannot be"),
	TARN_OUT_COUNT(T, incomplete, "incomplete", "days", "want of hours"),
	TARN_OUT_COUNT(T, words, "words", "-", "missing by a word"),
	TARN_OUT_COUNT(T, codes, "codes", "-", "missing by a code"),
	TARN_OUT_COUNT(T, marked, "marked", "-", "with a flag behind"),
	TARN_OUT_COUNT(T, grouped, "grouped", "-", "thousands in groups"),
};
static TARN_FIELDS(count_fields, "counts", count_rows);
#undef T

static const char *const unit_words[] = {
	"given", "header", "unit_row", "layout", "values", NULL
};
static const char *const combine_words[] = {
	"default", "min", "max", "mean", "sum", NULL
};

#define T struct tarn_weather_file_column
static const struct tarn_field column_rows[] = {
	TARN_OUT_STRING(T, name, "name", "of the table's column"),
	TARN_OUT_STRING(T, unit, "unit", "of the table's column"),
	TARN_OUT_TEXT(T, from, "from", "column of the file"),
	TARN_OUT_WHOLE(T, index, "index", "-", "of it, from 1; 0: an element"),
	TARN_OUT_TEXT(T, file_unit, "file_unit", "of the file"),
	TARN_OUT_CHOICE(T, unit_from, "unit_from", unit_words, "who said it"),
	TARN_OUT_NUMBER(T, scale, "scale", "-", "x number in the file"),
	TARN_OUT_CHOICE(T, combine, "combine", combine_words, "of a day"),
	TARN_OUT_DAY(T, first_day, "first", "day with a value"),
	TARN_OUT_DAY(T, last_day, "last", "day with a value"),
	TARN_OUT_COUNT(T, present, "present", "days", "with a value"),
	TARN_OUT_COUNT(T, missing, "missing", "days", "without one"),
	TARN_OUT_COUNT(T, gaps, "gaps", "-", "runs of missing days"),
	TARN_OUT_COUNT(T, longest_gap, "longest_gap", "days", "of these"),
	TARN_OUT_NUMBER(T, min, "min", "-", "least value"),
	TARN_OUT_NUMBER(T, mean, "mean", "-", "mean value"),
	TARN_OUT_NUMBER(T, max, "max", "-", "largest value"),
	TARN_INCLUDED(T, counts, count_fields),
};
TARN_FIELDS(tarn_weather_file_column_fields, "column", column_rows);
#undef T

static const char *const encodings[] = { "bytes", "UTF-16", "Windows-1252", NULL };

#define T struct tarn_weather_file
static const struct tarn_field file_rows[] = {
	TARN_OUT_CHOICE(T, encoding, "encoding", encodings, "of the text"),
	TARN_OUT_TEXT(T, delimiter, "delimiter", "between values"),
	TARN_OUT_TEXT(T, decimal, "decimal", "point or comma"),
	TARN_OUT_TEXT(T, counts.layout, "layout", "that was recognised"),
	TARN_OUT_LINE(T, header_line, "header_line", "of the header"),
	TARN_OUT_TEXT(T, date, "date", "column of the dates"),
	TARN_OUT_TEXT(T, date_format, "date_format", "of the dates"),
	TARN_OUT_WHOLE(T, rows_a_day, "rows_a_day", "-", "0: rows are days"),
	TARN_OUT_LINE(T, counts.lines, "lines", "of the file"),
	TARN_OUT_COUNT(T, counts.rows, "rows", "-", "of data"),
	TARN_OUT_COUNT(T, counts.days, "days", "days", "of the table"),
	TARN_OUT_COUNT(T, counts.absent, "absent", "days", "without a row"),
	TARN_OUT_COUNT(T, counts.trimmed, "trimmed", "days",
		       "without a value at the ends"),
	TARN_OUT_COUNT(T, counts.undated, "undated", "-", "rows"),
	TARN_OUT_COUNT(T, counts.elsewhere, "elsewhere", "-",
		       "rows of other stations"),
	TARN_OUT_COUNT(T, counts.unsorted, "unsorted", "-", "rows"),
	TARN_OUT_COUNT(T, counts.duplicates, "duplicates", "-", "left out"),
	TARN_OUT_COUNT(T, counts.totals, "totals", "-",
		       "rain of several days"),
	TARN_OUT_NUMBER(T, counts.totals_mm, "totals_mm", "mm", "their sum"),
	TARN_OUT_SWITCH(T, counts.unfinished, "unfinished",
			"the last line has no end"),
	TARN_OUT_DAY(T, first_day, "first", "of the table"),
	TARN_OUT_DAY(T, last_day, "last", "of the table"),
	TARN_SECTION(T, site, "site", tarn_site_fields, "the place"),
	TARN_LIST(T, column, columns, "columns", tarn_weather_file_column_fields,
		  0, "of the table"),
	{ .name = "fields", .kind = TARN_FIELD_LIST,
	  .offset = offsetof(T, field), .count_offset = offsetof(T, fields),
	  .owned = TARN_BORROWED, .unit = "-",
	  .of = &tarn_weather_file_field_fields,
	  .size = sizeof(struct tarn_weather_file_field),
	  .meaning = "columns of the file" },
};
TARN_FIELDS(tarn_weather_file_fields, "file", file_rows);
#undef T

/* ---- columns of the file -------------------------------------------------- */

enum tarn_status tn_file_begin(struct tarn_reader *r,
				  const struct row *row)
{
	size_t bytes = row->count * sizeof *r->field;

	r->field = tarn_resize(r->alloc, r->field, bytes);
	if (!r->field)
		return TARN_ENOMEM;
	memset(r->field, 0, bytes);
	r->fields = row->count;
	r->header_line = row->line;
	for (size_t i = 0; i < row->count; i++) {
		r->field[i].index = (int)i + 1;
		tn_text_show(r->field[i].name, sizeof r->field[i].name,
			     row->field[i]);
	}
	return TARN_OK;
}

void tn_file_sample(struct tarn_reader *r, const struct row *row)
{
	for (size_t i = 0; i < row->count && i < r->fields; i++) {
		struct tarn_weather_file_field *f = &r->field[i];
		char *to[TARN_WEATHER_FILE_SAMPLES] = { f->first, f->second,
						   f->third };

		tn_text_show(to[r->report.rows], sizeof f->first,
			     row->field[i]);
	}
}

/* ---- what each is used for ------------------------------------------------ */

/* Adds a use to the column that a place names; its index from 1, or 0. */
static int use(struct tarn_weather_file *out, const struct tarn_reader *r,
	       const struct tarn_csv_place *place, const char *before,
	       const char *name)
{
	struct role none = { "", "" };
	char *uses;
	size_t n;
	int at;

	if (tn_place_find(&r->header, place, none, &at, NULL) != TARN_OK ||
	    at < 0 || (size_t)at >= out->fields)
		return 0;
	uses = out->field[at].use;
	n = strlen(uses);
	snprintf(uses + n, sizeof out->field[at].use - n, "%s%s%s",
		 n > 0 ? ", " : "", before, name);
	return at + 1;
}

/* The header of a used column, after a comma where others are there. */
static void add_name(char *list, size_t size, const struct tarn_weather_file *out,
		     int index)
{
	size_t n = strlen(list);
	char number[24];

	if (index <= 0 || (size_t)index > out->fields)
		return;
	snprintf(number, sizeof number, "column %d", index);
	snprintf(list + n, size - n, "%s%s", n > 0 ? ", " : "",
		 out->field[index - 1].name[0] ? out->field[index - 1].name
					       : number);
}

static void use_others(struct tarn_weather_file *out, const struct tarn_reader *r)
{
	const struct tarn_csv_map *m = &r->map;
	const struct {
		const struct tarn_csv_place *place;
		const char *name;
		int date;
	} all[] = {
		{ &m->date, "date", 1 }, { &m->year, "year", 1 },
		{ &m->month, "month", 1 }, { &m->day, "day", 1 },
		{ &m->day_of_year, "day of the year", 1 },
		{ &m->hour, "hour", 1 }, { &m->station, "station", 0 },
		{ &m->element, "element", 0 }, { &m->value, "value", 0 },
		{ &m->total.place, "total", 0 },
		{ &m->total_days, "days of the total", 0 },
		{ &m->name, "name", 0 }, { &m->latitude, "latitude", 0 },
		{ &m->elevation, "elevation", 0 },
	};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
		int index = use(out, r, all[i].place, "", all[i].name);

		if (all[i].date)
			add_name(out->date, sizeof out->date, out, index);
	}
}

/* ---- columns of the table ------------------------------------------------- */

static const struct slot *slot_of(const struct tarn_reader *r, int column)
{
	for (size_t i = 0; i < r->scheme.slots; i++)
		if (r->scheme.slot[i].id == column)
			return &r->scheme.slot[i];
	return NULL;
}

static void measure_column(struct tarn_weather_file_column *to,
			   const struct tarn_weather *w, enum tarn_column c)
{
	struct tarn_column_summary s = tarn_weather_summary(w, c);
	const double *x = tarn_weather_column(w, c);
	size_t at, days;

	to->present = s.present;
	to->missing = s.missing;
	to->min = s.min;
	to->mean = s.mean;
	to->max = s.max;
	for (size_t i = 0; x && i < w->days; i++) {
		if (isnan(x[i]))
			continue;
		to->last_day = w->first + (long)i;
		if (to->first_day == TARN_NO_DAY)
			to->first_day = to->last_day;
	}
	for (size_t from = 0; tarn_weather_gap(w, c, from, &at, &days);
	     from = at + days) {
		to->gaps++;
		if (days > to->longest_gap)
			to->longest_gap = days;
	}
}

static void name_source(struct tarn_weather_file_column *to,
			const struct tarn_weather_file *out,
			const struct tarn_csv_place *place)
{
	if (to->index > 0 && out->field[to->index - 1].name[0])
		memcpy(to->from, out->field[to->index - 1].name,
		       sizeof to->from);
	else if (to->index > 0)
		snprintf(to->from, sizeof to->from, "column %d", to->index);
	else
		memcpy(to->from, place->name, sizeof to->from);
}

static void add_column(struct tarn_weather_file *out, const struct tarn_reader *r,
		       const struct tarn_weather *w, enum tarn_column c)
{
	const struct tarn_csv_column *from = &r->map.column[c];
	const struct tarn_column_info *info = tarn_column_info(c);
	struct tarn_weather_file_column *to = &out->column[out->columns];
	int is_long = !tn_place_open(&r->map.element);

	*to = (struct tarn_weather_file_column){
		.name = info->name, .unit = info->unit,
		.unit_from = from->unit[0] ? from->unit_from : -1,
		.scale = isnan(from->scale) ? 1 : from->scale,
		.combine = from->combine, .first_day = TARN_NO_DAY,
		.last_day = TARN_NO_DAY, .min = TARN_NAN, .mean = TARN_NAN,
		.max = TARN_NAN, .counts = r->report.column[c],
	};
	if (!is_long)
		to->index = use(out, r, &from->place, "", info->name);
	if (to->index == 0 && !(is_long && from->place.name[0]))
		return;
	if (slot_of(r, (int)c))
		to->combine = slot_of(r, (int)c)->combine;
	memcpy(to->file_unit, from->unit, sizeof to->file_unit);
	name_source(to, out, &from->place);
	use(out, r, &from->flag.place, "flag of ", info->name);
	if (w)
		measure_column(to, w, c);
	out->columns++;
}

/* ---- the whole ------------------------------------------------------------ */

static struct tarn_weather_file *copy_fields(const struct tarn_reader *r)
{
	size_t bytes = r->fields * sizeof *r->field;
	struct tarn_weather_file *out = tarn_resize(r->alloc, NULL,
					       sizeof *out + bytes);

	if (!out)
		return NULL;
	memset(out, 0, sizeof *out);
	out->alloc = r->alloc;
	out->fields = r->fields;
	out->field = (struct tarn_weather_file_field *)(out + 1);
	if (bytes > 0)
		memcpy(out->field, r->field, bytes);
	for (size_t i = 0; i < out->fields && r->map.no_header; i++)
		out->field[i].name[0] = '\0';
	return out;
}

struct tarn_weather_file *tn_file_make(struct tarn_reader *r,
				     const struct tarn_weather *w)
{
	struct tarn_weather_file *out = copy_fields(r);

	if (!out)
		return NULL;
	out->encoding = r->decoder.encoding == ENCODING_UTF16_LE ||
			r->decoder.encoding == ENCODING_UTF16_BE;
	if (r->one_byte)
		out->encoding = 2;
	out->delimiter[0] = r->map.delimiter;
	out->decimal[0] = r->map.decimal;
	out->header_line = r->map.no_header ? 0 : r->header_line;
	out->rows_a_day = r->map.hours;
	memcpy(out->date_format, r->map.date_format, sizeof out->date_format);
	out->counts = r->report;
	memcpy(out->counts.layout, r->map.layout, sizeof r->map.layout);
	out->first_day = w ? w->first : TARN_NO_DAY;
	out->last_day = w ? w->first + (long)w->days - 1 : TARN_NO_DAY;
	tn_finish_site(r, &out->site);
	use_others(out, r);
	for (int c = 0; c < TARN_COLUMNS; c++)
		add_column(out, r, w, (enum tarn_column)c);
	return out;
}

void tarn_weather_file_free(struct tarn_weather_file *file)
{
	if (file)
		tarn_resize(file->alloc, file, 0);
}
