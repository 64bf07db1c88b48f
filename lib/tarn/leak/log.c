/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/leak.h"
#include "tarn/leak/sheet.h"

#define READINGS_MAX 200000
#define INCH 0.0254

static const char *const units[] = {
	"by_header", "inch", "mm", "cm", "ft", "m", NULL
};
static const char *const signs[] = { "by_header", "down", "up", NULL };
static const char *const orders[] = { "ymd", "mdy", "dmy", NULL };

static const struct tarn_field rows[] = {
	{ "unit", TARN_FIELD_CHOICE, offsetof(struct tarn_log_options, unit),
	  0, 5, 0, "-", units, "unit of the ruler, where the header does not "
	  "say it" },
	{ "sign", TARN_FIELD_CHOICE, offsetof(struct tarn_log_options, sign),
	  0, 2, 0, "-", signs, "down: numbers grow as the water falls" },
	{ "dates", TARN_FIELD_CHOICE, offsetof(struct tarn_log_options, dates),
	  0, 2, 0, "-", orders, "order of year, month and day" },
};
const struct tarn_fields tarn_log_fields = { "log", rows,
					     sizeof rows / sizeof rows[0] };

struct tarn_log_options tarn_log_options_default(void)
{
	struct tarn_log_options o = { 0, 0, 0 };

	return o;
}

struct tarn_log {
	const struct tarn_alloc *alloc;
	struct tarn_reading *readings;
	size_t count, room;
	struct tarn_log_info info;
};

enum heading { DATE, TIME, RULER, METER, NOTE, HEADINGS };

struct log_reader {
	struct tarn_log *log;
	struct tarn_log_options options;
	int have_header;
	int place[HEADINGS];		/* cell, -1: none */
	char name[HEADINGS][40];	/* as the file writes it */
	double ruler_m, meter_m3;	/* units */
	int imperial, down;
	unsigned carried;		/* marks of a row without numbers */
};

/* Notes where an error that follows stands. */
static struct tarn_error *here(struct tarn_error *err,
			     const struct sheet_cell *cell)
{
	if (err && err->code == TARN_OK) {
		err->line = cell->line;
		err->column = cell->column;
	}
	return err;
}

/* ---- header --------------------------------------------------------------- */

/* "Reading (in)" and "reading in" are reading_in. */
static void plain_name(const char *text, char out[40])
{
	size_t n = 0;

	for (; *text && n < 39; text++) {
		char c = *text;

		if (c >= 'A' && c <= 'Z')
			c = (char)(c + ('a' - 'A'));
		if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
			out[n++] = c;
		else if (n > 0 && out[n - 1] != '_')
			out[n++] = '_';
	}
	while (n > 0 && out[n - 1] == '_')
		n--;
	out[n] = '\0';
}

static const struct { const char *name; int unit; double factor; } lengths[] = {
	{ "in", TARN_LOG_INCH, INCH },   { "inch", TARN_LOG_INCH, INCH },
	{ "inches", TARN_LOG_INCH, INCH },
	{ "mm", TARN_LOG_MM, 1e-3 },     { "cm", TARN_LOG_CM, 1e-2 },
	{ "ft", TARN_LOG_FT, 12 * INCH },{ "feet", TARN_LOG_FT, 12 * INCH },
	{ "m", TARN_LOG_M, 1 },
};

/* Unit that a name ends in after its stem; 0: none said, -1: unknown. */
static int length_unit(const char *suffix)
{
	if (!*suffix)
		return TARN_LOG_BY_HEADER;
	for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++)
		if (strcmp(suffix + 1, lengths[i].name) == 0)
			return lengths[i].unit;
	return -1;
}

/* What follows a stem: "" or "_unit"; NULL if the name has another stem. */
static const char *after(const char *name, const char *stem)
{
	size_t n = strlen(stem);

	if (strncmp(name, stem, n) != 0 || (name[n] && name[n] != '_'))
		return NULL;
	return name + n;
}

static enum tarn_status take_ruler(struct log_reader *r,
				   const struct sheet_cell *cell,
				   const char *suffix, int down,
				   struct tarn_error *err)
{
	int unit = length_unit(suffix), asked = r->options.unit;

	if (unit < 0)
		return tarn_fail(here(err, cell), TARN_EFORMAT, cell->text,
				 "unit '%s' is none of in, mm, cm, ft, m",
				 suffix + 1);
	if (unit == TARN_LOG_BY_HEADER && asked == TARN_LOG_BY_HEADER)
		return tarn_fail(here(err, cell), TARN_EFORMAT, cell->text,
				 "does not say its unit: call it reading_in, "
				 "reading_mm ..., or give the unit");
	if (unit != TARN_LOG_BY_HEADER && asked != TARN_LOG_BY_HEADER &&
	    unit != asked)
		return tarn_fail(
			here(err, cell), TARN_EFORMAT, cell->text,
			"says another unit than the one asked for (%s)",
			units[asked]);
	if (unit == TARN_LOG_BY_HEADER)
		unit = asked;
	for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++)
		if (lengths[i].unit == unit)
			r->ruler_m = lengths[i].factor;
	r->imperial = unit == TARN_LOG_INCH || unit == TARN_LOG_FT;
	r->down = down;
	if (r->options.sign != TARN_LOG_SIGN_BY_HEADER)
		r->down = r->options.sign == TARN_LOG_DOWN;
	return TARN_OK;
}

static enum tarn_status take_meter(struct log_reader *r,
				   const struct sheet_cell *cell,
				   const char *suffix, struct tarn_error *err)
{
	static const char *const known[] = {
		"gal", "kgal", "ft3", "ccf", "m3", "liter", NULL
	};
	const char *unit = *suffix ? suffix + 1 : "";

	if (strcmp(unit, "l") == 0 || strcmp(unit, "liters") == 0 ||
	    strcmp(unit, "litre") == 0)
		unit = "liter";
	for (int i = 0; known[i]; i++)
		if (strcmp(unit, known[i]) == 0)
			r->meter_m3 = tarn_unit(unit);
	if (!(r->meter_m3 > 0))
		return tarn_fail(here(err, cell), TARN_EFORMAT, cell->text,
				 "does not say a unit of volume: call it "
				 "meter_gal, meter_kgal, meter_ft3, meter_ccf, "
				 "meter_m3 or meter_liter");
	return TARN_OK;
}

static void ignore(struct log_reader *r, const char *name)
{
	char *list = r->log->info.ignored;
	size_t n = strlen(list);

	snprintf(list + n, sizeof r->log->info.ignored - n, "%s%s",
		 n ? ", " : "", name);
}

/* A heading close to one that we know is more likely misspelt than meant. */
static const char *near_miss(const char *name)
{
	static const char *const known[] = {
		"date", "time", "reading", "drop", "level", "meter", "note"
	};
	char stem[40];

	strcpy(stem, name);
	stem[strcspn(stem, "_")] = '\0';
	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		if (strlen(stem) > 3 && tarn_name_distance(stem, known[i]) == 1)
			return known[i];
	return NULL;
}

static enum tarn_status take_heading(struct log_reader *r, int at,
				     const struct sheet_cell *cell,
				     struct tarn_error *err)
{
	static const struct { const char *stem; int heading, down; } stems[] = {
		{ "reading", RULER, 1 }, { "drop", RULER, 1 },
		{ "level", RULER, 0 },   { "meter", METER, 0 },
	};
	char name[40];
	const char *suffix = NULL;
	int heading = HEADINGS, down = 0;

	plain_name(cell->text, name);
	if (strcmp(name, "date") == 0)
		heading = DATE;
	else if (strcmp(name, "time") == 0)
		heading = TIME;
	else if (strcmp(name, "note") == 0 || strcmp(name, "notes") == 0)
		heading = NOTE;
	for (size_t i = 0; i < sizeof stems / sizeof stems[0] && !suffix; i++) {
		suffix = after(name, stems[i].stem);
		if (suffix) {
			heading = stems[i].heading;
			down = stems[i].down;
		}
	}
	if (heading == HEADINGS) {
		const char *known = near_miss(name);

		if (known)
			return tarn_fail(
				here(err, cell), TARN_EFORMAT, cell->text,
				"is not a heading: did you mean %s?", known);
		ignore(r, cell->text);
		return TARN_OK;
	}
	if (r->place[heading] >= 0)
		return tarn_fail(here(err, cell), TARN_EFORMAT, cell->text,
				 "is the second column of its kind, after %s",
				 r->name[heading]);
	r->place[heading] = at;
	snprintf(r->name[heading], sizeof r->name[heading], "%.39s",
		 cell->text);
	if (heading == RULER)
		return take_ruler(r, cell, suffix, down, err);
	if (heading == METER)
		return take_meter(r, cell, suffix, err);
	return TARN_OK;
}

static enum tarn_status take_header(struct log_reader *r,
				    const struct sheet_cell *cells,
				    size_t count, struct tarn_error *err)
{
	for (int h = 0; h < HEADINGS; h++)
		r->place[h] = -1;
	for (size_t i = 0; i < count; i++) {
		enum tarn_status status = take_heading(r, (int)i, &cells[i],
						       err);

		if (status != TARN_OK)
			return status;
	}
	if (r->place[DATE] < 0)
		return tarn_fail(
			here(err, &cells[0]), TARN_EFORMAT, "date",
			"is missing from the header, which begins '%s'",
			cells[0].text);
	if (r->place[RULER] < 0 && r->place[METER] < 0)
		return tarn_fail(
			here(err, &cells[0]), TARN_EFORMAT, "reading",
			"is missing from the header: it needs reading_in, "
			"reading_mm, level_in ..., or meter_gal ...");
	r->have_header = 1;
	r->log->info.counts_down = r->down;
	return TARN_OK;
}

/* ---- rows ----------------------------------------------------------------- */

static const char *cell_text(const struct log_reader *r,
			     const struct sheet_cell *cells, size_t count,
			     int heading)
{
	int at = r->place[heading];

	return at >= 0 && (size_t)at < count ? cells[at].text : "";
}

static enum tarn_status take_time(struct log_reader *r,
				  const struct sheet_cell *cells, size_t count,
				  struct tarn_reading *out,
				  struct tarn_error *err)
{
	const struct sheet_cell *date = &cells[r->place[DATE]];
	const char *order = orders[r->options.dates], *rest;
	const char *time = cell_text(r, cells, count, TIME);

	out->hour = TARN_NAN;
	if (!sheet_date(date->text, order, &out->day, &rest)) {
		if (r->options.dates == TARN_LOG_ISO &&
		    (sheet_date(date->text, "mdy", &out->day, &rest) ||
		     sheet_date(date->text, "dmy", &out->day, &rest)))
			return tarn_fail(here(err, date), TARN_EFORMAT,
					 r->name[DATE],
					 "'%s': is the month first, or the "
					 "day? Write YYYY-MM-DD, or say the "
					 "order of dates: mdy or dmy",
					 date->text);
		return tarn_fail(here(err, date), TARN_EFORMAT, r->name[DATE],
				 "'%s' is not a date (YYYY-MM-DD)", date->text);
	}
	if (*rest && !sheet_hour(rest, &out->hour))
		return tarn_fail(here(err, date), TARN_EFORMAT, r->name[DATE],
				 "'%s' is not a date, or a date and a time",
				 date->text);
	if (*time && !sheet_hour(time, &out->hour))
		return tarn_fail(here(err, &cells[r->place[TIME]]),
				 TARN_EFORMAT, r->name[TIME],
				 "'%s' is not a time (7:30, 19:30, 7:30 pm)",
				 time);
	return TARN_OK;
}

static int is_blank(const char *text)
{
	return !*text || strcmp(text, "-") == 0 || strcmp(text, "NA") == 0 ||
	       strcmp(text, "n/a") == 0;
}

/* A number at a heading; NaN where the cell is blank. */
static enum tarn_status take_number(const struct log_reader *r,
				    const struct sheet_cell *cells,
				    size_t count, int heading, double *out,
				    struct tarn_error *err)
{
	const char *text = cell_text(r, cells, count, heading);

	*out = TARN_NAN;
	if (is_blank(text) || sheet_number(text, out))
		return TARN_OK;
	return tarn_fail(here(err, &cells[r->place[heading]]), TARN_EFORMAT,
			 r->name[heading],
			 strchr(text, ',')
				 ? "'%s': write a decimal point, and no commas "
				   "within a number"
				 : "'%s' is not a number (3.5 or 3 1/2)",
			 text);
}

static int has_word(const char *text, const char *word)
{
	size_t n = strlen(word);

	for (; *text; text++) {
		size_t i = 0;

		while (i < n && text[i] && (text[i] | 32) == word[i])
			i++;
		if (i == n)
			return 1;
	}
	return 0;
}

static unsigned marks_of(const char *note)
{
	static const struct { const char *word; unsigned mark; } words[] = {
		{ "refill", TARN_LOG_REFILL }, { "filled", TARN_LOG_REFILL },
		{ "top up", TARN_LOG_REFILL }, { "topped", TARN_LOG_REFILL },
		{ "top-up", TARN_LOG_REFILL }, { "added", TARN_LOG_REFILL },
		{ "pump off", TARN_LOG_PUMP_OFF },
		{ "clean", TARN_LOG_SKIP }, { "drain", TARN_LOG_SKIP },
		{ "skip", TARN_LOG_SKIP },  { "rain", TARN_LOG_RAIN },
		{ "storm", TARN_LOG_RAIN },
	};
	unsigned marks = 0;

	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (has_word(note, words[i].word) &&
		    !(words[i].mark == TARN_LOG_RAIN && has_word(note, "drain")))
			marks |= words[i].mark;
	if (!marks && *note)
		marks = TARN_LOG_OTHER;
	return marks;
}

static enum tarn_status keep(struct tarn_log *log,
			     const struct tarn_reading *reading,
			     struct tarn_error *err)
{
	if (log->count == log->room) {
		size_t room = log->room ? 2 * log->room : 64;
		struct tarn_reading *more;

		if (room > READINGS_MAX)
			return tarn_fail(err, TARN_EFORMAT, NULL, "more than %d "
					 "readings", READINGS_MAX);
		more = tarn_resize(log->alloc, log->readings,
				   room * sizeof *more);
		if (!more)
			return tarn_fail(err, TARN_ENOMEM, NULL,
					 "out of memory");
		log->readings = more;
		log->room = room;
	}
	log->readings[log->count++] = *reading;
	return TARN_OK;
}

/* Both moments: the day and, where both say it, the hour. */
static enum tarn_status check_order(const struct log_reader *r,
				    const struct sheet_cell *date,
				    const struct tarn_reading *now,
				    struct tarn_error *err)
{
	const struct tarn_reading *last;
	char text[11];

	if (r->log->count == 0)
		return TARN_OK;
	last = &r->log->readings[r->log->count - 1];
	tarn_day_text(last->day, text);
	if (now->day < last->day ||
	    (now->day == last->day && now->hour < last->hour))
		return tarn_fail(here(err, date), TARN_EFORMAT, r->name[DATE],
				 "comes before the reading above it (%s): put "
				 "the rows in order of time",
				 text);
	if (now->day == last->day && !(now->hour > last->hour))
		return tarn_fail(here(err, date), TARN_EFORMAT, r->name[DATE],
				 "is there twice (%s): add a time column, or "
				 "leave one out",
				 text);
	return TARN_OK;
}

static enum tarn_status check_meter(const struct log_reader *r,
				    const struct sheet_cell *cell,
				    const struct tarn_reading *now,
				    struct tarn_error *err)
{
	for (size_t i = r->log->count; i-- > 0;) {
		double before_m3 = r->log->readings[i].meter_m3;

		if (isnan(before_m3))
			continue;
		if (now->meter_m3 < before_m3)
			return tarn_fail(
				here(err, cell), TARN_EFORMAT, r->name[METER],
				"runs backward: '%s' is less than the reading "
				"before (a new meter needs a new log)",
				cell->text);
		break;
	}
	return TARN_OK;
}

static enum tarn_status take_reading(struct log_reader *r,
				     const struct sheet_cell *cells,
				     size_t count, struct tarn_error *err)
{
	struct tarn_reading x = { 0 };
	struct tarn_log_info *info = &r->log->info;
	const char *note = cell_text(r, cells, count, NOTE);
	int at = r->place[RULER] >= 0 ? r->place[RULER] : r->place[METER];
	enum tarn_status status;

	if ((size_t)r->place[DATE] >= count)
		return tarn_fail(here(err, &cells[0]), TARN_EFORMAT,
				 r->name[DATE],
				 "is missing in this row, which begins '%s'",
				 cells[0].text);
	status = take_time(r, cells, count, &x, err);
	if (status == TARN_OK)
		status = take_number(r, cells, count, RULER, &x.level_m, err);
	if (status == TARN_OK)
		status = take_number(r, cells, count, METER, &x.meter_m3, err);
	if (status != TARN_OK)
		return status;
	x.marks = marks_of(note) | r->carried;
	info->unread_notes += x.marks == TARN_LOG_OTHER ? 1 : 0;
	if (isnan(x.level_m) && isnan(x.meter_m3)) {
		r->carried = x.marks;
		return TARN_OK;
	}
	r->carried = 0;
	x.level_m *= r->down ? -r->ruler_m : r->ruler_m;
	x.meter_m3 *= r->meter_m3;
	x.line = cells[0].line;
	x.column = (size_t)at < count ? cells[at].column : cells[0].column;
	status = check_order(r, &cells[r->place[DATE]], &x, err);
	if (status == TARN_OK && !isnan(x.meter_m3))
		status = check_meter(r, &cells[r->place[METER]], &x, err);
	if (status != TARN_OK)
		return status;
	info->levels += isnan(x.level_m) ? 0 : 1;
	info->meters += isnan(x.meter_m3) ? 0 : 1;
	info->without_time += isnan(x.hour) ? 1 : 0;
	return keep(r->log, &x, err);
}

static enum tarn_status take_row(void *context, const struct sheet_cell *cells,
				 size_t count, struct tarn_error *err)
{
	struct log_reader *r = context;

	return r->have_header ? take_reading(r, cells, count, err)
			      : take_header(r, cells, count, err);
}

/* ---- the finest step -------------------------------------------------------- */

static int all_multiples(const struct tarn_log *log, double step_m)
{
	for (size_t i = 0; i < log->count; i++) {
		double n = log->readings[i].level_m / step_m;

		if (!isnan(n) && fabs(n - round(n)) > 0.02)
			return 0;
	}
	return 1;
}

/* A few readings on whole inches prove nothing about the ruler. */
static double find_step(const struct tarn_log *log, int imperial)
{
	static const double inch[] = {
		INCH, INCH / 2, INCH / 4, INCH / 8, INCH / 10, INCH / 16,
		INCH / 20, INCH / 32, INCH / 100, 0
	};
	static const double metric[] = {
		1e-2, 5e-3, 2e-3, 1e-3, 5e-4, 1e-4, 0
	};
	const double *steps = imperial ? inch : metric;
	int first = log->info.levels < 8 ? 3 : 0, i;

	for (i = first; steps[i] > 0; i++)
		if (all_multiples(log, steps[i]))
			break;
	return steps[i];
}

/* ---- reading ---------------------------------------------------------------- */

enum tarn_status tarn_log_read(struct tarn_log **out,
			       const struct tarn_alloc *alloc,
			       const char *path,
			       const struct tarn_log_options *options,
			       struct tarn_error *err)
{
	struct log_reader r = { .options = *options };
	enum tarn_status status;

	*out = NULL;
	status = tarn_fields_check(&tarn_log_fields, options, err);
	if (status != TARN_OK)
		return status;
	r.log = tarn_resize(alloc, NULL, sizeof *r.log);
	if (!r.log)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	*r.log = (struct tarn_log){ .alloc = alloc };
	status = sheet_read(path, take_row, &r, err);
	if (status == TARN_OK && r.log->count == 0)
		status = tarn_fail(err, TARN_EFORMAT, NULL, r.have_header ?
				   "holds a header and no reading" :
				   "is empty");
	if (status != TARN_OK) {
		tarn_log_free(r.log);
		return status;
	}
	r.log->info.step_m = find_step(r.log, r.imperial);
	*out = r.log;
	return TARN_OK;
}

void tarn_log_free(struct tarn_log *log)
{
	if (!log)
		return;
	tarn_resize(log->alloc, log->readings, 0);
	tarn_resize(log->alloc, log, 0);
}

const struct tarn_reading *tarn_log_readings(const struct tarn_log *log,
					     size_t *count)
{
	*count = log->count;
	return log->readings;
}

struct tarn_log_info tarn_log_info(const struct tarn_log *log)
{
	return log->info;
}
