/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_TEXT_H
#define TARN_WEATHER_TEXT_H

/* Bytes to text, text to rows, and what a text says: a number, a date, a name
 * of a month.  None of it knows of a reader. */

#include <stdint.h>

#include "tarn/weather_file.h"
#include "tarn/weather.h"

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

/* Powers of ten that a double holds exactly. */
extern const double tn_ten[23];

static inline int tn_is_digit(char c)
{
	return c >= '0' && c <= '9';
}

/*
 * Most numbers of a weather file, without ceremony: [-] digits [. digits] of
 * at most 15 characters.  The digits make an integer below 10^15 and the
 * power is at most 10^14: both exact, so the division rounds correctly.
 * Returns 0 for all else.
 */
static inline int tn_number_short(struct text t, double *out)
{
	const char *s = t.at, *end = t.at + t.length, *point = NULL;
	int64_t value = 0;
	int negative = t.length > 0 && *s == '-';

	s += negative;
	if (end - s > 15 || s == end || !tn_is_digit(*s))
		return 0;
	for (; s < end && tn_is_digit(*s); s++)
		value = 10 * value + (*s - '0');
	if (s < end) {
		if (*s != '.')
			return 0;
		for (point = ++s; s < end && tn_is_digit(*s); s++)
			value = 10 * value + (*s - '0');
		if (s < end)
			return 0;
	}
	*out = (double)value;
	if (point && point < end)
		*out /= tn_ten[end - point];
	if (negative)
		*out = -*out;
	return 1;
}

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
	long at;		/* fixed width: column of its value */
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

#endif
