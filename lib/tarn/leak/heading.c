/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "tarn/leak/logread.h"

#define INCH 0.0254

static const char *const rulers[] = {
	"by_header", "inch", "mm", "cm", "ft", "m", NULL
};
static const char *const signs[] = { "by_header", "down", "up", NULL };
const char *const tn_log_orders[] = { "ymd", "mdy", "dmy", NULL };

#define T struct tarn_log_options
static const struct tarn_field rows[] = {
	TARN_IN_CHOICE(T, unit, "unit", rulers, 0,
		       "unit of the ruler, where the header does not say it"),
	TARN_IN_CHOICE(T, sign, "sign", signs, 0,
		       "down: numbers grow as the water falls"),
	TARN_IN_CHOICE(T, dates, "dates", tn_log_orders, 0,
		       "order of year, month and day"),
};
TARN_FIELDS(tarn_log_fields, "log", rows);
#undef T
TARN_DEFAULT(struct tarn_log_options, tarn_log_options_default, tarn_log_fields)

struct tarn_error *tn_log_here(struct tarn_error *err,
			       const struct sheet_cell *cell)
{
	if (err && err->code == TARN_OK) {
		err->line = cell->line;
		err->column = cell->column;
	}
	return err;
}

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
		return tarn_fail(tn_log_here(err, cell), TARN_EFORMAT,
				 cell->text,
				 "unit '%s' is none of in, mm, cm, ft, m",
				 suffix + 1);
	if (unit == TARN_LOG_BY_HEADER && asked == TARN_LOG_BY_HEADER)
		return tarn_fail(tn_log_here(err, cell), TARN_EFORMAT,
				 cell->text,
				 "does not say its unit: call it reading_in, "
				 "reading_mm ..., or give the unit");
	if (unit != TARN_LOG_BY_HEADER && asked != TARN_LOG_BY_HEADER &&
	    unit != asked)
		return tarn_fail(
			tn_log_here(err, cell), TARN_EFORMAT, cell->text,
			"says another unit than the one asked for (%s)",
			rulers[asked]);
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
		return tarn_fail(tn_log_here(err, cell), TARN_EFORMAT,
				 cell->text,
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

static const struct { const char *stem; int heading, down; } stems[] = {
	{ "reading", RULER, 1 }, { "drop", RULER, 1 },
	{ "level", RULER, 0 },   { "meter", METER, 0 },
};
enum { STEMS = sizeof stems / sizeof stems[0] };

static enum tarn_status take_heading(struct log_reader *r, int at,
				     const struct sheet_cell *cell,
				     struct tarn_error *err)
{
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
	for (size_t i = 0; i < STEMS && !suffix; i++) {
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
				tn_log_here(err, cell), TARN_EFORMAT,
				cell->text,
				"is not a heading: did you mean %s?", known);
		ignore(r, cell->text);
		return TARN_OK;
	}
	if (r->place[heading] >= 0)
		return tarn_fail(tn_log_here(err, cell), TARN_EFORMAT,
				 cell->text,
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

enum tarn_status tn_log_take_header(struct log_reader *r,
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
			tn_log_here(err, &cells[0]), TARN_EFORMAT, "date",
			"is missing from the header, which begins '%s'",
			cells[0].text);
	if (r->place[RULER] < 0 && r->place[METER] < 0)
		return tarn_fail(
			tn_log_here(err, &cells[0]), TARN_EFORMAT, "reading",
			"is missing from the header: it needs reading_in, "
			"reading_mm, level_in ..., or meter_gal ...");
	r->have_header = 1;
	r->columns = count;
	r->log->info.counts_down = r->down;
	return TARN_OK;
}


/* ---- is it a log? --------------------------------------------------------- */

struct headings { int date, level; };

static enum tarn_status look_at(void *context, const struct sheet_cell *cells,
				size_t count, struct tarn_error *err)
{
	struct headings *seen = context;

	for (size_t i = 0; i < count; i++) {
		char name[40];

		plain_name(cells[i].text, name);
		seen->date |= strcmp(name, "date") == 0;
		for (size_t k = 0; k < STEMS; k++)
			seen->level |= after(name, stems[k].stem) != NULL;
	}
	return tarn_fail(err, TARN_EFORMAT, NULL, "one row is enough");
}

int tarn_log_recognised(const char *path)
{
	struct headings seen = { 0, 0 };
	struct tarn_error err = { 0 };

	tn_sheet_read(path, look_at, &seen, &err);
	return seen.date && seen.level;
}
