/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_READER_H
#define TARN_WEATHER_READER_H

/* From the first rows to a table: where each value stands, which day it is of,
 * what it is. */

#include "header.h"

/* ---- scheme.c ---------------------------------------------------------- */

#define SLOT_TOTAL TARN_COLUMNS
#define SLOT_TOTAL_DAYS (TARN_COLUMNS + 1)
#define SLOT_RUNNING (TARN_COLUMNS + 2)	/* no place of its own: running.c */
#define SLOTS (TARN_COLUMNS + 3)

/* One value of a row: where it stands, what it is. */
struct slot {
	int id;			/* enum tarn_column, or SLOT_TOTAL... */
	int field;		/* index in the row; -1 in long form */
	char element[64];	/* long form */
	int convert;		/* 0: the file has SI */
	double add, multiply, divide;
	double lo, hi;
	const char *unit;	/* in the file */
	enum tarn_csv_combine combine;
	int flag_field, flag_part;
	const char *reject, *quiet;
};

struct scheme {
	struct slot slot[SLOTS];
	size_t slots;
	size_t fields;		/* of the header; 0: there is none */
	size_t needed;		/* fields that a row must have */
	int date, year, month, day, day_of_year, hour;	/* -1: none */
	int station, element, value;
	int name, latitude, elevation;
	struct {
		struct text text;
		double number;	/* NaN: it is none */
	} missing[TARN_CSV_TOKENS_MAX];
	size_t tokens;
	double trace;		/* a number that stands for one; NaN: none */
	int plain;		/* a decimal point, and no number stands for
				   anything else */
};

enum tarn_status tn_scheme_make(struct scheme *scheme,
				const struct tarn_csv_map *map,
				const struct header *h,
				struct tarn_error *err);

/* ---- days.c ---------------------------------------------------------- */

/*
 * Days that grow at both ends.  Arrays hold one entry a day from 'first';
 * entry 0 stands at 'front' of what is allocated.
 */
struct days {
	const struct tarn_alloc *alloc;
	long first;
	size_t count, front, capacity;
	size_t blank;			/* from here on not made empty yet */
	double *value[SLOTS];		/* NULL: not read */
	uint16_t *tally[SLOTS];		/* values in it, where rows are parts
					   of a day */
	uint32_t *seen;			/* bit by slot; DAY_ROW: has a row */
};

#define DAY_ROW (1u << 31)

enum tarn_status tn_days_init(struct days *days,
			      const struct tarn_alloc *alloc,
			      const struct scheme *scheme, int hours,
			      int running);
/* Index of a day, made if need be. */
enum tarn_status tn_days_reach(struct days *days, long day, size_t *at);
void tn_days_free(struct days *days);

/* ---- dly.c ----------------------------------------------------------- */

/* A line of a station file of GHCN-Daily? */
int tn_dly_fits(struct text line);
/* The column of the line, from 1, in which a field of such a row stands. */
long tn_dly_column(const struct row *row, int field);
/* The value of a day, from 1, as a row of the long form; 'date' has its bytes.
 * 0: the line has no more. */
int tn_dly_row(struct text line, int day, char date[8], struct row *row);

/* ---- blanks.c -------------------------------------------------------- */

/* What is wrong with a table of blanks between its values; NULL: it is none. */
const char *tn_blanks_wrong(struct text t);

/* ---- sample.c -------------------------------------------------------- */

#define SAMPLE_BYTES 32768

struct sample {
	const struct tarn_alloc *alloc;
	char *at;
	size_t bytes, capacity;
	size_t want;		/* to be looked at; grows if need be */
	int ended;		/* it is all there is */
};

void tn_sample_init(struct sample *s, const struct tarn_alloc *alloc);
void tn_sample_free(struct sample *s);
/* Takes bytes up to 'want'. */
enum tarn_status tn_sample_add(struct sample *s, const char *bytes,
			       size_t count, size_t *taken);
int tn_sample_full(const struct sample *s);
/* Lines that wait in it. */
long tn_sample_lines(const struct sample *s);

/* The values of one column of the sample, without quotes. */
struct cells {
	struct text rest;
	char delimiter;
	int field;
	long line;
	int ended;
	int commented;		/* lines that begin with '#' are no rows */
};

struct cells tn_cells(const struct tarn_reader *r, int field);
/* The next that is not blank, and its line; 0: no more. */
int tn_cells_next(struct cells *c, struct text *cell, long *line);
/* The next row that is not blank. */
int tn_cells_row(struct cells *c, struct row *row);
/* Takes the lines off the front that were read so far. */
void tn_sample_drop(struct tarn_reader *r, const struct cells *c);

/* ---- date_columns.c, date_order.c, settle.c ---------------------------- */

/* Columns by the usual names of dates and their parts; -1: none. */
struct date_columns {
	int date, year, month, day, day_of_year, hour;
	int found;		/* enough to make a date */
};

struct date_columns tn_date_columns(const struct header *h);

/* Is a name that of a year, or of a month? */
enum date_part { DATE_YEAR, DATE_MONTH };
int tn_date_word(struct text name, enum date_part part);

/* Fills the map's places of dates that are open, by header and sample. */
void tn_dates_find(struct tarn_reader *r);

/* How the dates were found to be read. */
struct dates {
	enum tarn_csv_dates order;	/* 0: as the map or the layout says */
	char first[40];			/* the first date */
	long line;			/* that settled it; 0: none had to */
	char proof[40];			/* the date there */
	int by_steps;			/* rows are a day apart only so */
};

/* Settles map->date_format by the sample.  *more: a longer one is needed. */
enum tarn_status tn_dates_judge(struct tarn_reader *r, int *more);

/* The order that a date has in place of the file's; 0: none. */
enum tarn_csv_dates tn_dates_other(const struct tarn_reader *r,
				   struct text t);
const char *tn_dates_order_text(enum tarn_csv_dates order);

/* ---- hours.c: rows that are parts of a day ------------------------------ */

/* Before the scheme: finds a column of the hour. */
void tn_hours_begin(struct tarn_reader *r);
/* With it: sets map->hours by the stamps of the sample.  *changed: so that the
 * scheme must be made anew. */
enum tarn_status tn_hours_settle(struct tarn_reader *r, int *changed);

/* Is a row that does not come after the one before it the hour that is there
 * twice because clocks went back?  Counts it. */
int tn_hours_back(struct tarn_reader *r, const struct row *row,
		  const struct stamp *t);

/* ---- running.c ----------------------------------------------------------- */

/* Are both sums of a day's rain to be kept? */
int tn_running_wanted(const struct tarn_csv_map *map);
/* A value of rain that is part of the day at that place. */
void tn_running_take(struct tarn_reader *r, const struct stamp *t, size_t at,
		     double x);
/* Takes running totals for what they are. */
void tn_running_settle(struct tarn_reader *r);

/* From header and sample to the scheme: all that must be known before a row
 * is read.  *more: a longer sample is needed. */
enum tarn_status tn_settle(struct tarn_reader *r, int *more);

/* ---- reader.c, feed.c, stages.c ---------------------------------------- */

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

struct tarn_reader {
	const struct tarn_alloc *alloc;
	struct tarn_csv_map map;
	struct tarn_site site;		/* as the file has it */
	struct header header;
	struct sample sample;
	int applied;			/* the layout, to the map */
	struct date_shape shape;
	struct dates dates;
	int dates_field;		/* of the date, -1 */
	int short_years;		/* years of two digits were read */
	int hour_found;			/* the hour's column, by its name */
	int hours_least;		/* values that a day needs */
	int hours_step;			/* min, of the stamps; 0: as the map
					   says */
	int stamps_given;		/* the map says what a stamp means */
	size_t codes;			/* values out of bounds that are codes */
	struct tarn_error code_alone;	/* of the first of them */
	size_t partial;			/* days of fewer values than all */
	struct running {		/* totals of rain, running.c */
		double last;		/* value, as it stands in the file */
		long wet_day;
		size_t wet, held, falls, resets;
		int found;
	} running;
	size_t clock_backs;		/* hours that are there twice */
	long clock_back;		/* day of the last of them */
	long clock_line;		/* of the first of them */
	struct scheme scheme;
	struct days days;
	struct splitter *splitter;
	struct tarn_read_report report;
	struct tarn_error err;
	int stage;
	struct decoder decoder;
	char *look;			/* the first bytes, until looked at */
	size_t look_bytes;
	int looked;
	int one_byte;			/* text of Windows-1252 */
	int dly;			/* fixed width, GHCN-Daily */
	char *line;			/* before the header: one whole line */
	size_t line_bytes;		/* of the line so far, in any stage */
	long line_number;
	int lines_to_skip;
	long titles;			/* lines above the header, to come */
	int commented;			/* the header stands behind '#' */
	size_t titles_passed;		/* of them, not blank, no comment */
	size_t summaries;		/* rows that sum up others */
	long summary_line;		/* of the first of them */
	size_t rows_joined;		/* of words, below the header */
	size_t unit_rows;
	unsigned percent;		/* columns in %, since no fraction is
					   above 1: bit 1u << column */
	long header_line;		/* 0: none was found */
	struct tarn_weather_file_field *field;	/* columns of the file */
	size_t fields;
	char station[64];		/* of the first row */
	struct stamp last;		/* of the row before this one */
	struct {			/* of that row, if dates are ISO 8601 */
		char text[8];		/* "2015-01-" */
		long start;		/* its first day */
		int days;		/* 0: not known yet */
	} month;
	struct {			/* of that row, if it has a time */
		char text[24];		/* "2015-01-31T" */
		size_t length;		/* 0: not known */
		long day;
	} day;
	int iso;			/* dates are "%Y-%m-%d" */
};

enum tarn_status tn_no_memory(struct tarn_reader *r);

/* A whole line before the header; a row from the splitter. */
enum tarn_status tn_stage_line(struct tarn_reader *r, struct text whole);
enum tarn_status tn_stage_row(void *context, struct row *row);
/* What the rows are; *more: a longer sample is needed. */
enum tarn_status tn_stage_settle(struct tarn_reader *r, int *more);

/* Bytes of one line, to the splitter. */
enum tarn_status tn_feed_rows(struct tarn_reader *r, const char *bytes,
			      size_t count);
/* Bytes of any lines, as UTF-8. */
enum tarn_status tn_feed_bytes(struct tarn_reader *r, const char *bytes,
			       size_t count);
/* No more bytes come: the sample is what it is. */
enum tarn_status tn_feed_sample_end(struct tarn_reader *r);

/* ---- file.c ------------------------------------------------------- */

/* Notes the columns of the file: the row is its header, or its first. */
enum tarn_status tn_file_begin(struct tarn_reader *r,
				  const struct row *row);
/* One of the first rows. */
void tn_file_sample(struct tarn_reader *r, const struct row *row);
/* All that is known; w: NULL where there is no table.  NULL: out of memory. */
struct tarn_weather_file *tn_file_make(struct tarn_reader *r,
				     const struct tarn_weather *w);

/* ---- faults.c -------------------------------------------------------- */

/* Notes an error of the file with its line, and with its column unless
 * 'field' is -1. */
enum tarn_status tn_fault(struct tarn_reader *r, const struct row *row,
			  int field, const char *format, ...)
	TARN_PRINTF(4, 5);

/* A value that is no number, or that cannot be. */
enum tarn_status tn_fault_number(struct tarn_reader *r,
				 const struct row *row,
				 const struct slot *slot,
				 enum number_result result);
enum tarn_status tn_fault_bounds(struct tarn_reader *r,
				 const struct row *row,
				 const struct slot *slot, double value);

/* ---- values.c -------------------------------------------------------- */

/* Most values of most files: a short number within its bounds, without flags.
 * Returns 0 for all else, which tn_value_read reads. */
static inline int tn_value_plain(const struct scheme *scheme,
				 const struct slot *slot,
				 const struct row *row, double *out)
{
	double x;

	if (!scheme->plain || slot->flag_field >= 0 ||
	    !tn_number_short(row->field[slot->field], &x))
		return 0;
	if (slot->convert)
		x = (x + slot->add) * slot->multiply / slot->divide;
	*out = x + 0.0;		/* no minus zero */
	return x >= slot->lo && x <= slot->hi;
}
/* One value in SI; NaN if it is missing. */
enum tarn_status tn_value_read(struct tarn_reader *r,
			       const struct slot *slot,
			       const struct row *row, double *out);

/* ---- marks.c --------------------------------------------------------- */

/* Numbers that loggers and archives write for a missing value. */
#define TN_CODES 17
extern const double tn_codes[TN_CODES];

/* Counts a value out of bounds that is such a code; 0 if it is none. */
int tn_code(struct tarn_reader *r, const struct row *row,
	    const struct slot *slot, double in_file, double si);

/* A value that is no plain number.  Either *is_number, as the file has it, or
 * all there is: NaN for none, 0 for a trace. */
enum tarn_status tn_mark_read(struct tarn_reader *r, const struct row *row,
			      const struct slot *slot,
			      enum number_result result, double *out,
			      int *is_number);

/* A number at the start of a text, and what stands behind it. */
struct text tn_number_tail(struct text t, struct text *number);
/* The unit of a column that stands behind a number; NULL: it is none. */
const struct tarn_weather_unit *tn_unit_behind(enum tarn_column c,
					       struct text tail);

/* ---- unit_values.c --------------------------------------------------- */

/* Units that neither map nor header has, by the values of the sample. */
enum tarn_status tn_units_settle(struct tarn_reader *r);

/* ---- stamps.c -------------------------------------------------------- */

enum tarn_status tn_stamp_read(struct tarn_reader *r, const struct row *row,
			       struct stamp *out);

/* Minutes from 1970 to a row: to its day, or, where rows are parts of a day,
 * to its time, shifted as the map says.  An hour of 24 belongs to the day that
 * it ends. */
long long tn_stamp_minutes(const struct tarn_reader *r,
			   const struct stamp *t);
/* Day that a row counts for. */
long tn_stamp_day(const struct tarn_reader *r, const struct stamp *t);

/* ---- store.c, finish.c, notes.c -------------------------------------- */

enum tarn_status tn_store_row(struct tarn_reader *r, struct row *row);

/* A latitude or an elevation; NaN if it is none. */
double tn_site_number(const struct row *row, int field);

/* The place, by the map or else by the file. */
void tn_finish_site(const struct tarn_reader *r, struct tarn_site *site);

/* The table of all that was read. */
enum tarn_status tn_finish(struct tarn_reader *r, struct tarn_weather **out);

/* 'blank': columns that had no value at all, bit 1u << column. */
enum tarn_status tn_notes_write(const struct tarn_reader *r,
				struct tarn_weather *w, unsigned blank);

#endif
