/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "heading.h"

/*
 * Notes: one sentence for each thing that a careful user would want to know
 * of a file.  'status' gathers the first failure, so that callers need not
 * look after each.
 */
struct pen {
	const struct tarn_reader *r;
	struct tarn_weather *w;
	enum tarn_status status;
};

/* A note with a count, where there is something to count. */
static void count_note(struct pen *pen, size_t count, const char *before,
		       const char *one, const char *many)
{
	if (count > 0 && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "%s%zu %s", before,
						    count,
						    count == 1 ? one : many);
}

static void note(struct pen *pen, const char *text)
{
	if (pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "%s", text);
}

/* Appends to a list, "a, b". */
static void append(char *list, size_t size, const char *item)
{
	size_t n = strlen(list);

	snprintf(list + n, size - n, "%s%s", n > 0 ? ", " : "", item);
}

/* "UTF-16, values between semicolons, decimal commas"; nothing of a plain
 * file. */
static void note_shape(struct pen *pen)
{
	const struct tarn_csv_map *map = &pen->r->map;
	char list[160] = "", between[40];

	if (pen->r->decoder.encoding != ENCODING_BYTES)
		append(list, sizeof list, "UTF-16");
	if (pen->r->dly)
		append(list, sizeof list, "fixed width of GHCN-Daily (.dly)");
	if (map->delimiter == ';' || map->delimiter == '\t')
		append(list, sizeof list, map->delimiter == ';'
			       ? "semicolons between values"
			       : "tabs between values");
	else if (map->delimiter != ',') {
		snprintf(between, sizeof between, "'%c' between values",
			 map->delimiter);
		append(list, sizeof list, between);
	}
	if (map->decimal == ',')
		append(list, sizeof list, "decimal commas");
	if (pen->r->one_byte)
		append(list, sizeof list, "Windows-1252, since it is no UTF-8");
	if (list[0] && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "read as: %s",
						    list);
}

/* Rows that stand around the header. */
static void note_rows(struct pen *pen)
{
	const struct tarn_reader *r = pen->r;
	char list[160] = "";

	count_note(pen, r->titles_passed, "", "line above the header is no "
		   "part of the table", "lines above the header are no part "
		   "of the table");
	count_note(pen, r->rows_joined, "names of columns: joined with those "
		   "of ", "row under the header", "rows under the header");
	if (r->unit_rows > 0)
		note(pen, "units: read from the row under the header");
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (r->map.column[c].unit_from == TARN_UNIT_VALUES &&
		    !(r->percent && tn_column_like((enum tarn_column)c) ==
					    TARN_RH_MEAN))
			append(list, sizeof list, tarn_column_info(
				(enum tarn_column)c)->name);
	if (list[0] && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "units: %s have "
			"theirs behind the numbers", list);
}

/* Humidities without a unit that can be in one only. */
static void note_percent(struct pen *pen)
{
	char list[60] = "";

	for (int c = 0; c < TARN_COLUMNS; c++)
		if (pen->r->percent >> c & 1)
			append(list, sizeof list, tarn_column_info(
				(enum tarn_column)c)->name);
	if (list[0] && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "units: %s in %%, "
			"which the file does not say: values above 1 are no "
			"fraction", list);
}

/* How the dates were read; nothing of year-month-day. */
static void note_dates(struct pen *pen)
{
	const struct tarn_reader *r = pen->r;
	const char *format = r->map.date_format, *because = "";
	char proof[100] = "";

	if (r->short_years)
		note(pen, "dates: years of two digits are 1969 to 2068");
	if (r->dates.order == TARN_DATES_DEFAULT ||
	    strncmp(format, "%Y-%m-%d", 8) == 0 || pen->status != TARN_OK)
		return;
	if (r->map.dates != TARN_DATES_DEFAULT)
		because = ", as asked";
	else if (r->dates.by_steps)
		because = ", since only so the rows are a day apart";
	else if (r->dates.line > 0)
		snprintf(proof, sizeof proof, ", since '%s' in line %ld can "
			 "be nothing else", r->dates.proof, r->dates.line);
	pen->status = tarn_weather_add_note(pen->w, "dates: '%s' read as %s%s"
		"%s%s", r->dates.first, tn_dates_order_text(r->dates.order),
		because, proof, strstr(format, "%y")
		? "; years of two digits are 1969 to 2068" : "");
}

/* "tmax from TMAX in F, ..." */
static void note_columns(struct pen *pen)
{
	static const char *const combined[] = { "", "lowest of ", "highest of ",
					     "mean of ", "sum of " };
	const struct tarn_reader *r = pen->r;
	char list[720] = "";

	for (size_t i = 0; i < r->scheme.slots; i++) {
		const struct slot *slot = &r->scheme.slot[i];
		char item[160], from[64];

		if (slot->id >= TARN_COLUMNS)
			continue;
		if (slot->element[0])
			snprintf(from, sizeof from, "%s", slot->element);
		else if ((size_t)slot->field < r->header.count)
			tn_text_show(from, sizeof from,
				     r->header.name[slot->field]);
		else
			snprintf(from, sizeof from, "column %d",
				 slot->field + 1);
		snprintf(item, sizeof item, "%s from %s%s in %s",
			 tarn_column_info((enum tarn_column)slot->id)->name,
			 r->map.hours > 0 ? combined[slot->combine] : "", from,
			 slot->unit);
		append(list, sizeof list, item);
	}
	if (pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w,
			"layout %s: %s", r->map.layout, list);
}

static int is_used(const struct tarn_reader *r, int field)
{
	const struct scheme *p = &r->scheme;
	const int other[] = { p->date, p->year, p->month, p->day,
			      p->day_of_year, p->hour, p->station, p->element,
			      p->value, p->name, p->latitude, p->elevation };

	for (size_t i = 0; i < sizeof other / sizeof other[0]; i++)
		if (other[i] == field)
			return 1;
	for (size_t i = 0; i < p->slots; i++)
		if (p->slot[i].field == field || p->slot[i].flag_field == field)
			return 1;
	return 0;
}

/* "GUST (a gust)", "percip (did you mean 'precip'?)". */
static void describe_unused(char out[120], const struct header *header,
			    size_t i)
{
	struct heading h = tn_heading(header->read[i]);
	const struct meaning *meaning;
	char name[64], near[24];

	tn_text_show(name, sizeof name, header->name[i]);
	if (h.kind == HEADING_OTHER)
		snprintf(out, 120, "%s (%s)", name, h.why);
	else if (h.kind == HEADING_UNKNOWN && h.strange[0] &&
		 tn_word_near(tn_text(h.strange), near, &meaning))
		snprintf(out, 120, "%s (did you mean '%s'?)", name, near);
	else
		snprintf(out, 120, "%s", name);
}

static void note_unused(struct pen *pen)
{
	const struct header *h = &pen->r->header;
	char list[720] = "";

	for (size_t i = 0; i < h->count; i++) {
		char item[120];

		if (h->name[i].length == 0 || is_used(pen->r, (int)i))
			continue;
		describe_unused(item, h, i);
		append(list, sizeof list, item);
	}
	if (list[0] && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "not used: %s",
						    list);
}

/* "tmax is read from 'Gauge7 Tmax' ...": a word of the header was not known. */
static void note_strange(struct pen *pen)
{
	const struct tarn_reader *r = pen->r;

	for (size_t i = 0; i < r->scheme.slots; i++) {
		const struct slot *slot = &r->scheme.slot[i];
		struct heading h;
		char name[64];

		if (strcmp(r->map.layout, "plain") != 0 || slot->field < 0 ||
		    slot->id >= TARN_COLUMNS ||
		    (size_t)slot->field >= r->header.count)
			continue;
		h = tn_heading(r->header.read[slot->field]);
		if (h.strange[0] && (int)h.column == slot->id &&
		    pen->status == TARN_OK)
			pen->status = tarn_weather_add_note(pen->w, "%s: the "
				"word '%s' of its header '%s' is not known, "
				"and was passed over", tarn_column_info(
				h.column)->name, h.strange, tn_text_show(name,
				sizeof name, r->header.name[slot->field]));
	}
}

static void note_column(struct pen *pen, enum tarn_column c)
{
	const struct tarn_read_column *n = &pen->r->report.column[c];
	char before[32];

	snprintf(before, sizeof before, "%s: ", tarn_column_info(c)->name);
	count_note(pen, n->trace, before, "trace counted as 0",
		   "traces counted as 0");
	count_note(pen, n->rejected, before,
		   "value rejected by its flag, now missing",
		   "values rejected by their flags, now missing");
	count_note(pen, n->flagged, before, "value kept though it has a flag",
		   "values kept though they have a flag");
	count_note(pen, n->outliers, before,
		   "value that cannot be, now missing",
		   "values that cannot be, now missing");
	count_note(pen, n->words, before, "word for no value, as NA or -",
		   "words for no value, as NA or -");
	count_note(pen, n->codes, before,
		   "code out of all bounds, as -9999, taken as missing",
		   "codes out of all bounds, as -9999, taken as missing");
	count_note(pen, n->marked, before,
		   "value kept though a letter or sign stands behind",
		   "values kept though a letter or sign stands behind");
	count_note(pen, n->grouped, before,
		   "number with its thousands in groups",
		   "numbers with their thousands in groups");
	count_note(pen, n->incomplete, before,
		   "day missing for want of hours",
		   "days missing for want of hours");
}

static void note_totals(struct pen *pen)
{
	const struct tarn_read_report *n = &pen->r->report;

	if (n->totals == 0 || pen->status != TARN_OK)
		return;
	if (pen->r->map.totals == TARN_TOTALS_MISSING)
		pen->status = tarn_weather_add_note(pen->w, "rain: %zu totals "
			"of several days, %.1f mm in all, are left out and "
			"their days missing; totals = \"spread\" or \"last\" "
			"assigns them", n->totals, n->totals_mm);
	else
		pen->status = tarn_weather_add_note(pen->w, "rain: %zu totals "
			"of several days, %.1f mm in all, %s", n->totals,
			n->totals_mm,
			pen->r->map.totals == TARN_TOTALS_SPREAD
			? "spread evenly over their days"
			: "put on the day of the reading, the days before "
			  "taken as dry");
}

static void note_site(struct pen *pen)
{
	const struct tarn_weather *w = pen->w;

	if (w->column[TARN_WIND] && isnan(w->site.wind_height_m))
		note(pen, "wind: the file does not say at what height it was "
			  "measured");
	if (strncmp(pen->r->map.layout, "noaa", 4) == 0 &&
	    w->column[TARN_RAIN])
		note(pen, "rain: where the gauge is read in the morning, most "
			  "of a day's rain fell on the day before");
}

/* How rows became days. */
static void note_hours(struct pen *pen)
{
	const struct tarn_reader *r = pen->r;
	const char *meaning = r->map.stamps == TARN_STAMPS_END ? "end" : "begin";

	if (r->map.hours == 0 || pen->status != TARN_OK)
		return;
	pen->status = tarn_weather_add_note(pen->w, "days are made of %zu "
		"rows; one with fewer than %d values of a column is "
		"missing there", r->report.rows, r->hours_least);
	if (r->hours_step > 0 && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "rows are %d "
			"minutes apart; a stamp is taken as the %s of its "
			"interval%s", r->hours_step, meaning,
			r->stamps_given ? ", as asked"
			: r->map.stamps == TARN_STAMPS_END
			? ", since the first is one step after midnight"
			: ": stamps = \"end\" if it is the end");
	if (strstr(r->map.date_format, "%z"))
		note(pen, "days begin at midnight of the clock that the file "
			  "has; hour_shift moves it");
	count_note(pen, r->partial, "", "value of a day is made of a few hours "
		   "less than all", "values of days are made of a few hours "
		   "less than all");
	if (r->clock_backs > 0 && pen->status == TARN_OK)
		pen->status = tarn_weather_add_note(pen->w, "clocks go back "
			"%zu time%s, in line %ld first: the hour that is there "
			"twice counts twice", r->clock_backs,
			r->clock_backs == 1 ? "" : "s", r->clock_line);
	if (r->running.found)
		note(pen, "rain: a total that runs through each day, by its "
			  "values: the greatest is the day's rain; combine = "
			  "\"sum\" adds them up");
}

enum tarn_status tn_notes_write(const struct tarn_reader *r,
				struct tarn_weather *w, unsigned blank)
{
	struct pen pen = { r, w, TARN_OK };
	const struct tarn_read_report *n = &r->report;

	note_shape(&pen);
	note_rows(&pen);
	note_percent(&pen);
	note_dates(&pen);
	note_columns(&pen);
	if (r->map.old_names)
		note(&pen, "the map's 'rule' is called 'combine' now; the next "
			   "minor version reads the new name only");
	note_hours(&pen);
	note_strange(&pen);
	note_unused(&pen);
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (blank >> c & 1 && r->scheme.element < 0 &&
		    pen.status == TARN_OK)
			pen.status = tarn_weather_add_note(w,
				"%s: the file has its column, but no value",
				tarn_column_info((enum tarn_column)c)->name);
	count_note(&pen, n->absent, "", "day has no row and is missing",
		   "days have no row and are missing");
	count_note(&pen, n->trimmed, "",
		   "day without any value left out at the start or end",
		   "days without any value left out at the start or end");
	count_note(&pen, n->undated, "", "row without a date passed over",
		   "rows without a date passed over");
	if (r->summaries > 0 && pen.status == TARN_OK)
		pen.status = tarn_weather_add_note(w, "%zu row%s of totals or "
			"means passed over, in line %ld first", r->summaries,
			r->summaries == 1 ? "" : "s", r->summary_line);
	count_note(&pen, n->elsewhere, "", "row of another station passed over",
		   "rows of other stations passed over");
	count_note(&pen, r->dly ? 0 : n->unsorted, "", "row out of order, put in order",
		   "rows out of order, put in order");
	count_note(&pen, n->duplicates, "", "duplicate left out",
		   "duplicates left out");
	for (int c = 0; c < TARN_COLUMNS; c++)
		note_column(&pen, (enum tarn_column)c);
	note_totals(&pen);
	note_site(&pen);
	if (n->unfinished)
		note(&pen, "the last line has no newline: the file may be cut "
			   "short");
	return pen.status;
}
