/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/leak/logread.h"
#include "tarn/measure.h"

#define READINGS_MAX 200000
#define INCH 0.0254

/* ---- rows ----------------------------------------------------------- */

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
	const char *order = tn_log_orders[r->options.dates], *rest;
	const char *time = cell_text(r, cells, count, TIME);

	out->hour = TARN_NAN;
	if (!tn_sheet_date(date->text, order, &out->day, &rest)) {
		if (r->options.dates == TARN_LOG_ISO &&
		    (tn_sheet_date(date->text, "mdy", &out->day, &rest) ||
		     tn_sheet_date(date->text, "dmy", &out->day, &rest)))
			return tarn_fail(tn_log_here(err, date), TARN_EFORMAT,
					 r->name[DATE],
					 "'%s': is the month first, or the "
					 "day? Write YYYY-MM-DD, or say the "
					 "order of dates: mdy or dmy",
					 date->text);
		return tarn_fail(tn_log_here(err, date), TARN_EFORMAT,
				 r->name[DATE],
				 "'%s' is not a date (YYYY-MM-DD)", date->text);
	}
	if (*rest && !tn_sheet_hour(rest, &out->hour))
		return tarn_fail(
			tn_log_here(err, date), TARN_EFORMAT, r->name[DATE],
			"'%s' is not a date, or a date and a time", date->text);
	if (*time && !tn_sheet_hour(time, &out->hour))
		return tarn_fail(tn_log_here(err, &cells[r->place[TIME]]),
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

/* "7-Aug", "Aug-07", "8/7/2025", "2025-08-07": 7/8 after a spreadsheet had it. */
static int was_fraction(const char *text)
{
	static const char months[] = "JanFebMarAprMayJunJulAugSepOctNovDec";
	const char *rest = strchr(text, '-');
	char name[4] = "";
	long day;

	for (int i = 0; i < 3; i++)
		if (tn_sheet_date(text, i == 0 ? "ymd" : i == 1 ? "mdy" : "dmy",
				  &day, &rest) && !*rest)
			return 1;
	rest = strchr(text, '-');
	if (!rest || rest - text > 3)
		return 0;
	memcpy(name, rest - text == 3 ? text : rest + 1,
	       strnlen(rest - text == 3 ? text : rest + 1, 3));
	return strlen(name) == 3 && strstr(months, name) != NULL;
}

/* A number at a heading; NaN where the cell is blank. */
static enum tarn_status take_number(const struct log_reader *r,
				    const struct sheet_cell *cells,
				    size_t count, int heading, double *out,
				    struct tarn_error *err)
{
	const char *text = cell_text(r, cells, count, heading);

	*out = TARN_NAN;
	if (is_blank(text) || tarn_typed_number(text, out))
		return TARN_OK;
	return tarn_fail(tn_log_here(err, &cells[r->place[heading]]),
			 TARN_EFORMAT, r->name[heading],
			 strchr(text, ',')
				 ? "'%s': write a decimal point, and no commas "
				   "within a number"
				 : was_fraction(text)
				 ? "'%s' is a date: a spreadsheet makes one of "
				   "a fraction as 7/8; format the column as "
				   "text and type the fraction again"
				 : "'%s' is not a number (3.5 or 3 1/2)",
			 text);
}

/* "1,5" among commas is two cells: none of them may be lost in silence. */
static enum tarn_status check_commas(const struct log_reader *r,
				     const struct sheet_cell *cells,
				     size_t count, struct tarn_error *err)
{
	const char *note = cell_text(r, cells, count, NOTE);
	double unused;

	for (size_t i = r->columns; i < count; i++)
		if (*cells[i].text)
			return tarn_fail(tn_log_here(err, &cells[i]),
					 TARN_EFORMAT,
					 NULL, "row has %zu columns where %zu "
					 "are expected: write a decimal point, "
					 "not a comma, and put quotes around a "
					 "note that holds a comma",
					 count, r->columns);
	if (r->place[RULER] >= 0 && r->place[NOTE] == r->place[RULER] + 1 &&
	    tarn_typed_number(note, &unused))
		return tarn_fail(tn_log_here(err, &cells[r->place[NOTE]]),
				 TARN_EFORMAT, r->name[NOTE],
				 "'%s' is a number: write a decimal point, not "
				 "a comma, in the reading before it; a note "
				 "needs a word", note);
	return TARN_OK;
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
		if (has_word(note, words[i].word))
			marks |= words[i].mark;
	if (has_word(note, "drain"))
		marks &= ~(unsigned)TARN_LOG_RAIN;	/* "rain" is in it */
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
			return tarn_fail(err, TARN_EFORMAT, NULL, "more than "
					 "%d readings", READINGS_MAX);
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
		return tarn_fail(tn_log_here(err, date), TARN_EFORMAT,
				 r->name[DATE],
				 "comes before the reading above it (%s): put "
				 "the rows in order of time",
				 text);
	if (now->day == last->day && !(now->hour > last->hour))
		return tarn_fail(tn_log_here(err, date), TARN_EFORMAT,
				 r->name[DATE],
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
	size_t i = r->log->count;

	if (now->meter_m3 < 0)
		return tarn_fail(tn_log_here(err, cell), TARN_EFORMAT,
				 r->name[METER], "is '%s': a meter counts up "
				 "from 0", cell->text);
	while (i > 0 && isnan(r->log->readings[i - 1].meter_m3))
		i--;
	if (i > 0 && now->meter_m3 < r->log->readings[i - 1].meter_m3)
		return tarn_fail(tn_log_here(err, cell), TARN_EFORMAT,
				 r->name[METER], "runs backward: '%s' is less "
				 "than the reading before (a new meter needs a "
				 "new log)", cell->text);
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
		return tarn_fail(tn_log_here(err, &cells[0]), TARN_EFORMAT,
				 r->name[DATE],
				 "is missing in this row, which begins '%s'",
				 cells[0].text);
	status = check_commas(r, cells, count, err);
	if (status == TARN_OK)
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
			      : tn_log_take_header(r, cells, count, err);
}

/* ---- the finest step ------------------------------------------------ */

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

/* ---- reading -------------------------------------------------------- */

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
	status = tn_sheet_read(path, take_row, &r, err);
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
