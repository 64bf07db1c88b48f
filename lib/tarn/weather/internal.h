/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_INTERNAL_H
#define TARN_WEATHER_INTERNAL_H

/*
 * What the files of this wing share.  From the bytes of a file to a table:
 *
 *   decode.c    UTF-16 and byte order marks to UTF-8
 *   one_byte.c  what is no UTF-8 to UTF-8; dly.c: fixed width to rows
 *   lines.c     text to lines, rows and values
 *   look.c      the first rows: text at all?  delimiter, decimal point
 *   reader.c    lines; what stands before the header
 *   split.c      lines to rows (libcsv)
 *   titles.c    lines above the header; header_rows.c: rows of words and
 *               units below it
 *   sample.c    the first text behind the header; settle.c: what the rows
 *               are, by header and sample
 *   apply.c     the header to a map, by what layouts.c knows (plain.c: by the
 *               grammar of heading.h; block.c: a header block's units)
 *   date_columns.c, date_order.c, date_shape.c: where the date stands, how it
 *               is to be read (dates.c, months.c: by a format)
 *   scheme.c      map and header to slots: where each value stands (places.c)
 *   store.c     a row to its day (stamps.c: which day; values.c: its values;
 *               number.c, marks.c, dates.c, units.c; faults.c: what is wrong)
 *   days.c      days that grow
 *   finish.c    days to a table (notes.c: what to say about it)
 *   file.c   what the file was taken for, as data
 *
 * Names are hidden from users of the shared library; the prefix is for those
 * who link the static one.
 */

#include <stdint.h>

#include "tarn/weather_file.h"
#include "tarn/weather.h"

/* ---- table.c --------------------------------------------------------- */

struct tarn_reader;

struct tarn_weather {
	const struct tarn_alloc *alloc;
	long first;
	size_t days;
	double *column[TARN_COLUMNS];	/* NULL: no such column */
	unsigned char *left_out;	/* NULL: none; else one a day */
	struct tarn_site site;
	char **note;
	size_t notes;
};

/* ---- plausible.c: what the climate of a place may be ------------------ */

struct plausible { double low, high; };

/* Latitudes may be NaN: not known. */
struct plausible tn_plausible_rain(double latitude_deg);	/* mm a year */
struct plausible tn_plausible_wind(double latitude_deg);	/* m/s */
struct plausible tn_plausible_solar(double latitude_deg);	/* MJ m-2 d-1 */
struct plausible tn_plausible_temperature(const struct tarn_site *site,
					  int full_year);

/* ---- text.c: text that is not NUL-terminated ------------------------- */

struct text {
	const char *at;
	size_t length;
};

struct text tn_text(const char *s);
struct text tn_text_trim(struct text t);
int tn_text_is(struct text t, const char *s);

/* Takes the next of several words off a list; length 0 at its end. */
struct text tn_text_word(const char **list);

/* Is t one of the blank-separated words? */
int tn_text_listed(struct text t, const char *list);

/* Fills a NUL-terminated copy, cut to fit, bytes that do not print as '?'. */
const char *tn_text_show(char *out, size_t size, struct text t);

/* ---- number.c -------------------------------------------------------- */

enum number_result {
	NUMBER_OK,
	NUMBER_NONE,		/* not a decimal number */
	NUMBER_HUGE		/* beyond the largest double */
};

/* [+-] digits [. digits] [e [+-] digits], all of t; to the nearest double. */
enum number_result tn_number(struct text t, double *out);
/* The same with a decimal point of '.' or ','. */
enum number_result tn_number_with(struct text t, char decimal, double *out);

/* ---- dates.c --------------------------------------------------------- */

struct stamp {
	long day;
	int hour, minute;
	int zone_min;		/* east of Greenwich, as written; 0: not */
};

enum date_result {
	DATE_OK,
	DATE_MISFIT,		/* does not fit the format */
	DATE_NONE		/* fits, but there is no such date */
};

enum date_result tn_date_read(struct text t, const char *format,
			      struct stamp *out);

/* Is it a format that dates can be read by: year, month and day, or year and
 * day of the year, each once? */
int tn_date_format_ok(const char *format);

/* A letter, or a byte of one. */
int tn_is_letter(char c);

/* ---- months.c -------------------------------------------------------- */

/* 1 to 12 by a name in five languages, of at least three letters; 0: none. */
int tn_month_named(struct text t);

/* ---- date_shape.c ---------------------------------------------------- */

#define TARN_DATES_COUNT (TARN_DATES_EUROPEAN + 1)

/* Formats that a date may have, by the order of its parts; "": none. */
struct date_shape {
	char format[TARN_DATES_COUNT][32];
	int timed;		/* with a time of the day */
};

/* 0: it is no date. */
int tn_date_shape(struct text t, struct date_shape *out);

/* ---- units.c --------------------------------------------------------- */

/* The representative of a column's quantity: TARN_TMIN for temperatures,
 * TARN_RAIN for depths, ... */
enum tarn_column tn_column_like(enum tarn_column c);

const struct tarn_weather_unit *tn_unit_text(enum tarn_column c,
					     struct text name);

/* ---- decode.c -------------------------------------------------------- */

enum encoding {
	ENCODING_UNKNOWN,
	ENCODING_BYTES,		/* UTF-8, or what else has ASCII in it */
	ENCODING_UTF16_LE,
	ENCODING_UTF16_BE
};

struct decoder {
	enum encoding encoding;
	char start[3];		/* until the encoding is known */
	int seen;		/* of 'start' */
	unsigned half;		/* first byte of a unit */
	int halved;		/* 'half' waits for the other one */
	unsigned high;		/* first of a surrogate pair; 0: none */
};

typedef enum tarn_status text_handler(void *context, const char *bytes,
				      size_t count);

/* Hands the bytes on as UTF-8. */
enum tarn_status tn_decode(struct decoder *d, const char *bytes, size_t count,
			   text_handler *handler, void *context);
enum tarn_status tn_decode_finish(struct decoder *d, text_handler *handler,
				  void *context, struct tarn_error *err);

/* A character as UTF-8; at most four bytes.  Returns how many. */
size_t tn_put_utf8(char *out, unsigned long c);

/* ---- one_byte.c ------------------------------------------------------ */

#define ONE_BYTE_MOST 3		/* bytes that one byte becomes */

/* UTF-8, but for a last character that may be cut? */
int tn_is_utf8(struct text t);
/* Bytes of Windows-1252 to UTF-8, into ONE_BYTE_MOST times the space.  Returns
 * how many. */
size_t tn_one_byte(char *out, const char *bytes, size_t count);

/* ---- look.c ---------------------------------------------------------- */

#define LOOK_BYTES 32768

/* Refuses what is no table of text, and fills the delimiter where the map
 * leaves it open, from the first bytes of the text. */
enum tarn_status tn_look(struct tarn_csv_map *map, struct text t,
			 struct tarn_error *err);
/* The same for the decimal point, of the text from the header on. */
enum tarn_status tn_look_decimal(struct tarn_csv_map *map, struct text t,
				 struct tarn_error *err);

/* ---- split.c ---------------------------------------------------------- */

struct row {
	long line;		/* of its first byte */
	size_t count;
	struct text field[TARN_CSV_FIELDS_MAX];	/* trimmed */
};

typedef enum tarn_status row_handler(void *context, struct row *row);

struct splitter;			/* the tokenizer */

struct splitter *tn_splitter_new(const struct tarn_alloc *alloc,
				 row_handler *handler, void *context,
				 struct tarn_error *err);
/* Before the first byte. */
void tn_splitter_delimiter(struct splitter *splitter, char delimiter);
/* Bytes of one line, with its newline if they reach so far.  'err' must not
 * be NULL. */
enum tarn_status tn_splitter_feed(struct splitter *splitter, const char *bytes,
				  size_t count, long line,
				  struct tarn_error *err);
enum tarn_status tn_splitter_finish(struct splitter *splitter,
				    struct tarn_error *err);
void tn_splitter_free(struct splitter *splitter);

/* ---- lines.c --------------------------------------------------------- */

/* Takes the next line off a text; a last one that is cut short counts. */
struct text tn_take_line(struct text *t);

/* Takes what stands before the next delimiter that is not in quotes. */
struct text tn_take_value(struct text *line, char delimiter);

/* The quotes about a value taken off. */
struct text tn_unquote(struct text t);

/* Lines up to the end of a row: more than one where a quote is open, but no
 * more than four. */
struct text tn_take_row(struct text *t, long *lines);

/* The values of a row, without quotes. */
void tn_row_split(struct text t, char delimiter, struct row *row);

/* ---- header.c -------------------------------------------------------- */

struct header {
	size_t count;
	struct text *name;	/* one block: names, what is read, bytes */
	struct text *read;	/* the name with the unit of a row below it:
				   "High (F)", for the grammar of heading.h */
	char *joined;		/* bytes of names that rows below it add to */
};

enum tarn_status tn_header_copy(struct header *h,
				const struct tarn_alloc *alloc,
				const struct row *row);
void tn_header_free(struct header *h, const struct tarn_alloc *alloc);

/* ---- header_rows.c: rows of words and of units below the header -------- */

#define JOINED_MAX 160		/* bytes of a name with all its rows */

/* The name of a column with the word of the row below it, under the group
 * that stands to its left: "Temperature", "", "max" is "Temperature max". */
void tn_header_word(char out[JOINED_MAX], struct text name, struct text left,
		    struct text word);

/* No number and no date among its values? */
int tn_row_of_words(const struct row *row);

/* Takes such rows off the front of the sample and adds them to the names. */
enum tarn_status tn_header_rows(struct tarn_reader *r);

/* ---- titles.c: lines above the header ---------------------------------- */

/* How many lines of the text stand above the header; 0: none, or no header was
 * found. */
long tn_titles(const struct tarn_csv_map *map, struct text t);

/* Index of the nth column (from 0) of that name at or after 'from', or -1. */
int tn_header_find(const struct header *h, const char *name, size_t from);

/* Fills a list of the names, cut to fit with "...". */
const char *tn_header_list(const struct header *h, char *out, size_t size);

/* ---- map.c ----------------------------------------------------------- */

/* What can be checked before the header is known. */
enum tarn_status tn_map_check(const struct tarn_csv_map *map,
			      struct tarn_error *err);

/* ---- apply.c, plain.c, block.c --------------------------------------- */

/*
 * Fills what the map leaves open, from the layout that it names or that the
 * header is recognised as.  A first row of data (noaa_long) is recognised
 * too: map->no_header tells.
 */
enum tarn_status tn_layout_apply(struct tarn_csv_map *map,
				 const struct header *h,
				 struct tarn_error *err);
int tn_layout_known(const char *name);

/* One line of NASA POWER's header block: units, place. */
void tn_layout_block(struct tarn_csv_map *map, struct tarn_site *site,
		     struct text line);

/* A line that begins with '#', above the header: station, latitude, elevation,
 * as the plain layout has them. */
void tn_layout_comment(struct tarn_site *site, struct text line);

/* ---- title_place.c ----------------------------------------------------- */

/* A line above the header: "Latitude: 51.25 N", "Elevation (m),34".  An
 * elevation without a unit is not taken. */
void tn_title_place(struct tarn_site *site, struct text line);

/* By the grammar of heading.h: has the header a date and a quantity? */
int tn_plain_fits(const struct header *h, const struct tarn_csv_map *map);

/* Units of mapped columns that the map leaves to the header. */
void tn_plain_units(struct tarn_csv_map *map, const struct header *h);

/* Is it the header of a layout, or a first row of the long form? */
int tn_layout_fits(const struct header *h);

enum tarn_status tn_plain_apply(struct tarn_csv_map *map,
				const struct header *h,
				struct tarn_error *err);

/* Is the place left to the layout? */
int tn_place_open(const struct tarn_csv_place *place);

/* ---- places.c -------------------------------------------------------- */

/* What a place is for, as scripts call it: "columns." "tmin". */
struct role {
	const char *group, *name;
};

/* As tarn_fail, with the role as its field. */
enum tarn_status tn_role_fail(struct tarn_error *err, enum tarn_status code,
			      struct role role, const char *format, ...)
	TARN_PRINTF(4, 5);

/* Index of a place in the rows, -1 if the map has no such place. */
enum tarn_status tn_place_find(const struct header *h,
			       const struct tarn_csv_place *place,
			       struct role role, int *out,
			       struct tarn_error *err);

/* ---- scheme.c ---------------------------------------------------------- */

#define SLOT_TOTAL TARN_COLUMNS
#define SLOT_TOTAL_DAYS (TARN_COLUMNS + 1)
#define SLOTS (TARN_COLUMNS + 2)

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
	double *value[SLOTS];		/* NULL: not read */
	uint16_t *tally[SLOTS];		/* values in it, where rows are parts
					   of a day */
	uint32_t *seen;			/* bit by slot; DAY_ROW: has a row */
};

#define DAY_ROW (1u << 31)

enum tarn_status tn_days_init(struct days *days,
			      const struct tarn_alloc *alloc,
			      const struct scheme *scheme, int hours);
/* Index of a day, made if need be. */
enum tarn_status tn_days_reach(struct days *days, long day, size_t *at);
void tn_days_free(struct days *days);

/* ---- dly.c ----------------------------------------------------------- */

/* A line of a station file of GHCN-Daily? */
int tn_dly_fits(struct text line);
/* The value of a day, from 1, as a row of the long form; 'date' has its bytes.
 * 0: the line has no more. */
int tn_dly_row(struct text line, int day, char date[8], struct row *row);

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

/* From header and sample to the scheme: all that must be known before a row
 * is read.  *more: a longer sample is needed. */
enum tarn_status tn_settle(struct tarn_reader *r, int *more);

/* ---- reader.c -------------------------------------------------------- */

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
	size_t titles_passed;		/* of them, not blank, no comment */
	size_t rows_joined;		/* of words, below the header */
	size_t unit_rows;
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
