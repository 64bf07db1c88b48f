/* SPDX-License-Identifier: MIT */
#ifndef TARN_BASE_H
#define TARN_BASE_H

/*
 * base: what every wing stands on.  Status and error, memory, described
 * fields, units, calendar.
 *
 * Words used in all headers:
 *   new       the caller owns it and frees it with the matching _free
 *   borrowed  it dies with its owner
 *   filled    the caller gives the space
 *   NaN       "no value": a formula outside its range, a datum not there
 *
 * Nothing in the library prints, exits, keeps global state or starts a
 * thread (but a study that is asked for several).  Two threads may use it at
 * once on different objects, and on the same object as long as both only read.
 */

#include <math.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#if defined(__GNUC__)
#define TARN_API __attribute__((visibility("default")))
#define TARN_PRINTF(f, a) __attribute__((format(printf, f, a)))
#else
#define TARN_API
#define TARN_PRINTF(f, a)
#endif

/* "No value", as a double (the C library's NAN is a float). */
#define TARN_NAN ((double)NAN)

/*
 * Structs are handed over by value and filled in place, and they grow: a
 * program must run with the library whose headers it was compiled with.  The
 * name of the shared library sees to that.  Until 1.0 it carries major and
 * minor, libtarn.so.0.1, and a struct changes only with the minor; from 1.0 on
 * it carries the major, and a struct changes only with that.
 */
#define TARN_VERSION_MAJOR 0
#define TARN_VERSION_MINOR 1
#define TARN_VERSION_PATCH 0
#define TARN_VERSION "0.1.0"

/* Version of the library that is linked, "major.minor.patch". */
TARN_API const char *tarn_version(void);

/* ---- status and error -------------------------------------------------- */

enum tarn_status {
	TARN_OK = 0,
	TARN_EARG,	/* an argument or a field is missing or out of range */
	TARN_ENOMEM,	/* an allocation failed */
	TARN_EIO,	/* the system could not open, read or write a file */
	TARN_EFORMAT,	/* a file was read, but its content is wrong */
	TARN_ESTOP	/* the caller's own callback asked to stop */
};

/* Sort of a mistake, for whoever words it. */
enum tarn_mistake {
	TARN_MISTAKE_OTHER = 0,	/* text alone says it */
	TARN_MISTAKE_MISSING,	/* required, not given: lo, hi, unit */
	TARN_MISTAKE_RANGE,	/* found, lo, hi, unit */
	TARN_MISTAKE_TYPE,	/* a number is wanted and a text was given ... */
	TARN_MISTAKE_UNKNOWN,	/* no such name; 'near' may have one */
	TARN_MISTAKE_RENAMED,	/* a name of earlier descriptions; 'near' is
				   the one now */
	TARN_MISTAKE_CHOICE,	/* none of the words allowed */
	TARN_MISTAKE_LENGTH,	/* a list or text of a wrong length */
	TARN_MISTAKE_CONFLICT,	/* fields that contradict each other */
	TARN_MISTAKE_UNIT,	/* a unit of the wrong dimension */
	TARN_MISTAKE_SYNTAX	/* a file that cannot be read as what it is */
};

/* The answer of a caller that settles an error, for a face that has an option
 * or a menu for it.  The names are those of fields that the call takes. */
enum tarn_settle {
	TARN_SETTLE_NONE = 0,	/* no answer does: the input must change */
	TARN_SETTLE_UNITS,	/* units of a whole file */
	TARN_SETTLE_UNIT,	/* units of columns, "tmin=F,rain=in" */
	TARN_SETTLE_DATES,	/* order of year, month and day */
	TARN_SETTLE_DATE_FORMAT,
	TARN_SETTLE_DECIMAL,	/* point or comma */
	TARN_SETTLE_COLUMNS,	/* which column is what */
	TARN_SETTLE_HEADER,	/* that there is none */
	TARN_SETTLE_MISSING,	/* a word that stands for no value */
	TARN_SETTLE_DUPLICATES,
	TARN_SETTLE_ORDER,	/* of rows */
	TARN_SETTLE_HOURS,	/* rows a day */
	TARN_SETTLE_OUTLIERS,	/* that days with them are left out */
	TARN_SETTLE_STATION,	/* one of several */
	TARN_SETTLE_RAIN,	/* that days without a reading are dry */
	TARN_SETTLE_BRIDGE,	/* a longer gap that may be bridged */
	TARN_SETTLE_PLACE	/* latitude, elevation, height of the gauge */
};

/*
 * Where and why a call failed.  Owned by the caller, filled only on failure;
 * every call that takes one accepts NULL.  The first error stays: set
 * 'code' to TARN_OK (or use = {0}) before reusing one.
 *
 * An error is data: 'mistake' says which of found, lo, hi, unit and near are
 * meant, so that a face can word it in its user's units.  'text' is the same
 * in SI for whoever has no words of their own; no code takes it apart.
 */
struct tarn_error {
	enum tarn_status code;
	enum tarn_mistake mistake;
	long line;		/* 1-based line of the file, 0 if none */
	long column;		/* 1-based column of the file, 0 if none */
	double found, lo, hi;	/* in 'unit' */
	char unit[16];
	char near[64];		/* the name that was meant, or "" */
	enum tarn_settle settle;
	char answers[160];	/* to it, that can be by what was read; a tab
				   between two; "" where none is known */
	char field[64];		/* full path of the field at fault, or "" */
	char text[240];		/* one line: found, expected, what to do */
};

/*
 * Notes an error and returns its code, so that callers can write
 * return tarn_fail(err, TARN_EARG, "lip", "must be ...", ...);
 *
 *   err     may be NULL; left alone if it already holds an error
 *   field   name at fault, or NULL
 *   format  as printf; the text is cut to fit, control characters in it and
 *           in the field become '?'
 */
TARN_API enum tarn_status tarn_fail(struct tarn_error *err,
				    enum tarn_status code, const char *field,
				    const char *format, ...) TARN_PRINTF(4, 5);

/*
 * Notes which answer settles the error that 'err' has just been given:
 * return tarn_settled(err, TARN_SETTLE_DATES, "us", tarn_fail(err, ...)).
 *
 *   err      may be NULL; left alone if it has an answer already, or the
 *            error of another code
 *   by       outside of its enum: as TARN_SETTLE_NONE
 *   answers  as in struct tarn_error; NULL: none is known; where they do not
 *            fit, the last ones are left out
 *   status   of the error; TARN_OK: nothing is noted
 *
 * Errors: the status, as it came.
 */
TARN_API enum tarn_status tarn_settled(struct tarn_error *err,
				       enum tarn_settle by,
				       const char *answers,
				       enum tarn_status status);

/* A few words for a status, e.g. "out of memory".  Never NULL. */
TARN_API const char *tarn_status_text(enum tarn_status status);

/* ---- memory ------------------------------------------------------------ */

/*
 * The one allocator hook.  resize(context, NULL, n) allocates, resize(context,
 * p, n) changes the size, resize(context, p, 0) frees and returns NULL.
 * Alignment as malloc.  Wherever a call takes a pointer to one, NULL means
 * the C library's; the object remembers it, so it must outlive the object.
 */
struct tarn_alloc {
	void *(*resize)(void *context, void *block, size_t bytes);
	void *context;
};

/* As described above; 'alloc' may be NULL.  NULL if it fails. */
TARN_API void *tarn_resize(const struct tarn_alloc *alloc, void *block,
			   size_t bytes);

/* ---- described fields -------------------------------------------------- */

/*
 * One row describes one member of a struct: its name in pond descriptions,
 * scripts and JSON (without unit), its unit, range, default and meaning.  The
 * same rows make defaults, check values, read and write Lua and JSON, and
 * write the reference, so that none of them can disagree.
 *
 * Rows of inputs are made by TARN_IN_..., rows of results by TARN_OUT_...
 * below; nobody fills in the struct by hand.
 */
enum tarn_field_kind {
	TARN_FIELD_NUMBER,	/* double; NaN: not given, no value */
	TARN_FIELD_MONTHS,	/* double[12], January first; one number serves
				   for all twelve */
	TARN_FIELD_CHOICE,	/* int, index into 'choices'; below 0: none */
	TARN_FIELD_SWITCH,	/* int, 0 or 1 (false, true) */
	TARN_FIELD_WHOLE,	/* int */
	TARN_FIELD_COUNT,	/* size_t */
	TARN_FIELD_DAY,		/* long, days from 1970-01-01; TARN_NO_DAY:
				   none */
	TARN_FIELD_TEXT,	/* char[size], zero-terminated; "": not given */
	TARN_FIELD_STRING,	/* const char *, borrowed; NULL: none */
	TARN_FIELD_LINE,	/* long, of a file, 1-based; 0: none */
	TARN_FIELD_FLAG,	/* the bits 'size' of an unsigned: any is set */
	TARN_FIELD_FLAGS,	/* unsigned, bits of the list 'flags' */
	TARN_FIELD_NUMBERS,	/* double[most], int count at 'count_offset';
				   TARN_NO_COUNT there: always 'most' */
	TARN_FIELD_NAMED,	/* double[], one for each name of 'choices'; none
				   if fewer than 'least' have a value */
	TARN_FIELD_PAIRS,	/* double[most][2], as NUMBERS */
	TARN_FIELD_SECTION,	/* a struct described by 'of'; several rows of
				   one name make one section, one without a name
				   belongs to the section that it stands in */
	TARN_FIELD_LIST,	/* an array of such structs, 'size' bytes each,
				   int count at 'count_offset' */
	TARN_FIELD_NAMES,	/* unsigned, bit 1 for the first choice ...;
				   0: none given */
	TARN_FIELD_DATE,	/* long day (TARN_NO_DAY: of every year, or not
				   given) and int month * 100 + day at
				   'count_offset' (0 where there is a day) */
	TARN_FIELD_COUNTS,	/* a list whose entries have two rows, a choice
				   and a number: { word = number, ... } */
	TARN_FIELD_ANY		/* const struct tarn_value *, borrowed: read by
				   whoever owns the object; NULL: not given */
};

struct tarn_fields;

/* A doubt or a refusal that a result carries as a bit. */
struct tarn_flag {
	unsigned bit;
	const char *name;	/* "head_short"; NULL ends a list */
	const char *text;	/* one sentence for the user */
};

struct tarn_field {
	const char *name;
	enum tarn_field_kind kind;
	size_t offset;			/* of the member in its struct */
	double lo, hi;			/* accepted, both ends included */
	int required;			/* 1: "not given" is refused */
	const char *unit;		/* "m", "m3/s", "-"; "": any */
	const char *const *choices;	/* NULL-terminated; CHOICE, NAMES,
					   NAMED */
	const char *meaning;		/* one line, for the reference */
	double otherwise;		/* default; NaN: not given */
	const struct tarn_fields *of;	/* SECTION, LIST */
	size_t size;			/* TEXT, LIST: bytes, of an entry; FLAG:
					   the bits */
	size_t count_offset;		/* NUMBERS, PAIRS, LIST; of a SECTION an
					   int that becomes 1 where it is
					   given, 0: none */
	size_t least, most;		/* entries of these */
	int owned;			/* 1: NUMBERS, PAIRS, LIST in memory of
					   the object's own: a pointer to it;
					   TARN_BORROWED: a pointer to memory
					   of the reader's, and a size_t count */
	size_t second_offset;		/* PAIRS, borrowed: the array of second
					   numbers; 0: both are in one */
	int alone;			/* 1: instead of all else in its
					   section */
	const char *(*word)(size_t i);	/* choices of a long table; NULL past
					   its last */
	const struct tarn_flag *flags;	/* FLAGS */
	const char *was;	/* the name that it had in descriptions of the
				   minor version before, still read; NULL */
};

#define TARN_NO_COUNT ((size_t)-1)
#define TARN_BORROWED 2

struct tarn_fields {
	const char *section;		/* "bed", "pipe"; prefix in messages */
	const struct tarn_field *rows;
	size_t count;
};

/* What a row of a number, of a choice holds, for one that has more as well:
 * { TARN_NUMBER(...), .was = "lip" }. */
#define TARN_NUMBER(T, member, name_, unit_, low, high, other, text)         \
	.name = name_, .kind = TARN_FIELD_NUMBER,                            \
	.offset = offsetof(T, member), .lo = low, .hi = high,                \
	.unit = unit_, .otherwise = other, .meaning = text
#define TARN_CHOICE(T, member, name_, unit_, words, other, text)             \
	.name = name_, .kind = TARN_FIELD_CHOICE,                            \
	.offset = offsetof(T, member), .lo = 0,                              \
	.hi = sizeof words / sizeof words[0] - 2, .unit = unit_,             \
	.choices = words, .otherwise = other, .meaning = text

/* Rows of inputs: T is the struct's type, 'other' the default (TARN_NAN: not
 * given).  A NUMBER may be without a value; a VALUE has its default and is
 * never NaN; a REQUIRED one has no default and must be given. */
#define TARN_IN_NUMBER(T, member, name_, unit_, low, high, other, text)      \
	{ TARN_NUMBER(T, member, name_, unit_, low, high, other, text) }
#define TARN_IN_VALUE(T, member, name_, unit_, low, high, other, text)       \
	{ TARN_NUMBER(T, member, name_, unit_, low, high, other, text),      \
	  .required = 1 }
#define TARN_IN_REQUIRED(T, member, name_, unit_, low, high, text)           \
	{ TARN_NUMBER(T, member, name_, unit_, low, high, TARN_NAN, text),   \
	  .required = 1 }
#define TARN_IN_MONTHS(T, member, name_, unit_, low, high, other, text)      \
	{ .name = name_, .kind = TARN_FIELD_MONTHS,                          \
	  .offset = offsetof(T, member), .lo = low, .hi = high,              \
	  .required = 1, .unit = unit_, .otherwise = other, .meaning = text }
#define TARN_IN_CHOICE(T, member, name_, words, other, text)                 \
	TARN_IN_CHOICE_UNIT(T, member, name_, "-", words, other, text)
#define TARN_IN_CHOICE_UNIT(T, member, name_, unit_, words, other, text)     \
	{ TARN_CHOICE(T, member, name_, unit_, words, other, text) }
#define TARN_IN_SWITCH(T, member, name_, other, text)                        \
	{ .name = name_, .kind = TARN_FIELD_SWITCH,                          \
	  .offset = offsetof(T, member), .lo = 0, .hi = 1, .unit = "-",      \
	  .otherwise = other, .meaning = text }
#define TARN_IN_WHOLE(T, member, name_, unit_, low, high, other, text)       \
	{ .name = name_, .kind = TARN_FIELD_WHOLE,                           \
	  .offset = offsetof(T, member), .lo = low, .hi = high,              \
	  .unit = unit_, .otherwise = other, .meaning = text }
#define TARN_IN_DAY(T, member, name_, text)                                  \
	{ .name = name_, .kind = TARN_FIELD_DAY,                             \
	  .offset = offsetof(T, member), .required = 1, .unit = "date",      \
	  .meaning = text }
#define TARN_IN_TEXT(T, member, name_, text)                                 \
	{ .name = name_, .kind = TARN_FIELD_TEXT,                            \
	  .offset = offsetof(T, member), .unit = "-",                        \
	  .size = sizeof ((T *)0)->member, .meaning = text }

/* Rows of results. */
#define TARN_OUT_PLAIN_(T, member, name_, kind_, unit_, text)                \
	{ .name = name_, .kind = kind_, .offset = offsetof(T, member),       \
	  .lo = -HUGE_VAL, .hi = HUGE_VAL, .unit = unit_,                    \
	  .otherwise = TARN_NAN, .meaning = text }
#define TARN_OUT_NUMBER(T, member, name_, unit_, text)                       \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_NUMBER, unit_, text)
#define TARN_OUT_MONTHS(T, member, name_, unit_, text)                       \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_MONTHS, unit_, text)
#define TARN_OUT_SWITCH(T, member, name_, text)                              \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_SWITCH, "-", text)
#define TARN_OUT_WHOLE(T, member, name_, unit_, text)                        \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_WHOLE, unit_, text)
#define TARN_OUT_COUNT(T, member, name_, unit_, text)                        \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_COUNT, unit_, text)
#define TARN_OUT_DAY(T, member, name_, text)                                 \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_DAY, "date", text)
#define TARN_OUT_CHOICE(T, member, name_, words, text)                       \
	{ .name = name_, .kind = TARN_FIELD_CHOICE,                          \
	  .offset = offsetof(T, member), .lo = -1, .hi = HUGE_VAL,           \
	  .unit = "-", .choices = words, .otherwise = -1, .meaning = text }
#define TARN_OUT_TEXT(T, member, name_, text)                                \
	TARN_IN_TEXT(T, member, name_, text)
#define TARN_OUT_STRING(T, member, name_, text)                              \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_STRING, "-", text)
#define TARN_OUT_LINE(T, member, name_, text)                                \
	TARN_OUT_PLAIN_(T, member, name_, TARN_FIELD_LINE, "-", text)
#define TARN_OUT_FLAG(T, member, name_, bits, text)                          \
	{ .name = name_, .kind = TARN_FIELD_FLAG,                            \
	  .offset = offsetof(T, member), .unit = "-", .size = bits,          \
	  .meaning = text }
#define TARN_OUT_FLAGS(T, member, name_, list, text)                         \
	{ .name = name_, .kind = TARN_FIELD_FLAGS,                           \
	  .offset = offsetof(T, member), .unit = "-", .flags = list,         \
	  .meaning = text }
#define TARN_OUT_EVIDENCE(T)                                                 \
	TARN_OUT_CHOICE(T, evidence, "evidence", tarn_evidence_texts,        \
			"how far to trust it")
#define TARN_OUT_NAMED(T, member, name_, names, fewest, unit_, text)         \
	{ .name = name_, .kind = TARN_FIELD_NAMED,                           \
	  .offset = offsetof(T, member), .unit = unit_, .choices = names,    \
	  .least = fewest, .otherwise = TARN_NAN, .meaning = text }
#define TARN_OUT_NUMBERS(T, member, name_, unit_, text)                      \
	{ .name = name_, .kind = TARN_FIELD_NUMBERS,                         \
	  .offset = offsetof(T, member), .lo = -HUGE_VAL, .hi = HUGE_VAL,    \
	  .unit = unit_, .otherwise = TARN_NAN,                              \
	  .count_offset = TARN_NO_COUNT,                                     \
	  .most = sizeof ((T *)0)->member / sizeof ((T *)0)->member[0],      \
	  .meaning = text }

#define TARN_OUT_LIST(T, member, name_, rows_of, text)                       \
	{ .name = name_, .kind = TARN_FIELD_LIST,                            \
	  .offset = offsetof(T, member), .unit = "-", .of = &rows_of,        \
	  .size = sizeof ((T *)0)->member[0],                                \
	  .count_offset = TARN_NO_COUNT,                                     \
	  .most = sizeof ((T *)0)->member / sizeof ((T *)0)->member[0],      \
	  .meaning = text }

#define TARN_IN_NAMES(T, member, name_, words, text)                         \
	{ .name = name_, .kind = TARN_FIELD_NAMES,                           \
	  .offset = offsetof(T, member), .unit = "-", .choices = words,      \
	  .least = 1, .most = sizeof words / sizeof words[0] - 1,            \
	  .meaning = text }
#define TARN_IN_DATE(T, day_, mmdd_, name_, text)                            \
	{ .name = name_, .kind = TARN_FIELD_DATE, .required = 1,             \
	  .offset = offsetof(T, day_), .count_offset = offsetof(T, mmdd_),   \
	  .unit = "date", .meaning = text }
#define TARN_IN_WORD(T, member, name_, word_, text)                          \
	{ .name = name_, .kind = TARN_FIELD_CHOICE,                          \
	  .offset = offsetof(T, member), .lo = -1, .hi = HUGE_VAL,           \
	  .unit = "-", .word = word_, .otherwise = -1, .meaning = text }
#define TARN_IN_COUNTS(T, member, count_, name_, rows_of, text)              \
	{ .name = name_, .kind = TARN_FIELD_COUNTS,                          \
	  .offset = offsetof(T, member), .unit = "-", .of = &rows_of,        \
	  .size = sizeof ((T *)0)->member[0],                                \
	  .count_offset = offsetof(T, count_),                               \
	  .most = sizeof ((T *)0)->member / sizeof ((T *)0)->member[0],      \
	  .meaning = text }
#define TARN_IN_ANY(T, member, name_, text)                                  \
	{ .name = name_, .kind = TARN_FIELD_ANY,                             \
	  .offset = offsetof(T, member), .unit = "-", .meaning = text }

/* Rows of inputs and results alike. */
#define TARN_SECTION(T, member, name_, rows_of, text)                        \
	{ .name = name_, .kind = TARN_FIELD_SECTION,                         \
	  .offset = offsetof(T, member), .unit = "-", .of = &rows_of,        \
	  .meaning = text }
#define TARN_INCLUDED(T, member, rows_of)                                    \
	TARN_SECTION(T, member, "", rows_of, "")
/* 'given_' becomes 1 where the section is there. */
#define TARN_GIVEN(T, member, given_, name_, rows_of, text)                  \
	{ .name = name_, .kind = TARN_FIELD_SECTION,                         \
	  .offset = offsetof(T, member), .unit = "-", .of = &rows_of,        \
	  .count_offset = offsetof(T, given_), .meaning = text }
#define TARN_LIST(T, member, count_, name_, rows_of, fewest, text)           \
	{ .name = name_, .kind = TARN_FIELD_LIST,                            \
	  .offset = offsetof(T, member), .unit = "-", .of = &rows_of,        \
	  .size = sizeof ((T *)0)->member[0],                                \
	  .count_offset = offsetof(T, count_), .least = fewest,              \
	  .most = sizeof ((T *)0)->member / sizeof ((T *)0)->member[0],      \
	  .meaning = text }
#define TARN_NUMBERS(T, member, count_, name_, unit_, low, high, fewest, text) \
	{ .name = name_, .kind = TARN_FIELD_NUMBERS,                         \
	  .offset = offsetof(T, member), .lo = low, .hi = high,              \
	  .unit = unit_, .count_offset = offsetof(T, count_),                \
	  .least = fewest,                                                   \
	  .most = sizeof ((T *)0)->member / sizeof ((T *)0)->member[0],      \
	  .meaning = text }
#define TARN_PAIRS(T, member, count_, name_, unit_, fewest, text)            \
	{ .name = name_, .kind = TARN_FIELD_PAIRS,                           \
	  .offset = offsetof(T, member), .lo = -HUGE_VAL, .hi = HUGE_VAL,    \
	  .unit = unit_, .count_offset = offsetof(T, count_),                \
	  .least = fewest,                                                   \
	  .most = sizeof ((T *)0)->member / sizeof ((T *)0)->member[0],      \
	  .meaning = text }

/* Lists and texts that the struct borrows.  Of a list 'member' points to the
 * first entry, and 'count_' is a size_t.  COLUMNS are pairs in two arrays. */
#define TARN_BORROWED_(T, member, count_, name_, kind_, unit_, low, high, text) \
	.name = name_, .kind = kind_, .offset = offsetof(T, member),         \
	.count_offset = offsetof(T, count_), .owned = TARN_BORROWED,         \
	.unit = unit_, .lo = low, .hi = high, .meaning = text
#define TARN_IN_LIST(T, member, count_, name_, rows_of, fewest, highest, text) \
	{ TARN_BORROWED_(T, member, count_, name_, TARN_FIELD_LIST, "-", 0,  \
			 0, text),                                           \
	  .of = &rows_of, .size = sizeof *((T *)0)->member,                  \
	  .least = fewest, .most = highest }
#define TARN_IN_NUMBERS(T, member, count_, name_, unit_, low, high, text)    \
	{ TARN_BORROWED_(T, member, count_, name_, TARN_FIELD_NUMBERS,       \
			 unit_, low, high, text), .most = 1000000 }
#define TARN_IN_AXIS(T, member, count_, name_, unit_, low, high, highest, text) \
	{ TARN_BORROWED_(T, member, count_, name_, TARN_FIELD_NUMBERS,       \
			 unit_, low, high, text),                            \
	  .required = 1, .least = 1, .most = highest }
#define TARN_IN_POINTS(T, member, count_, name_, unit_, text)                \
	{ TARN_BORROWED_(T, member, count_, name_, TARN_FIELD_PAIRS, unit_,  \
			 -HUGE_VAL, HUGE_VAL, text), .most = 1000000 }
#define TARN_IN_COLUMNS(T, first, second, count_, name_, unit_, text)        \
	{ TARN_BORROWED_(T, first, count_, name_, TARN_FIELD_PAIRS, unit_,   \
			 -HUGE_VAL, HUGE_VAL, text),                         \
	  .second_offset = offsetof(T, second), .most = 1000000 }

#define TARN_IN_STRING(T, member, name_, text)                               \
	TARN_OUT_STRING(T, member, name_, text)

/* Defines the tarn_fields of an array of rows. */
#define TARN_FIELDS(variable, section, rows)                                 \
	const struct tarn_fields variable = {                                \
		section, rows, sizeof rows / sizeof rows[0]                  \
	}

/* Defines the function that returns a T as its rows make it; members without
 * a row are 0. */
#define TARN_DEFAULT(T, function, fields)                                    \
	T function(void)                                                     \
	{                                                                    \
		T object = { 0 };                                            \
                                                                             \
		tarn_fields_default(&fields, &object);                       \
		return object;                                               \
	}

/* Gives every described member of an object its row's default; lists become
 * empty, texts "".  Members without a row are left alone. */
TARN_API void tarn_fields_default(const struct tarn_fields *fields,
				  void *object);

/*
 * Checks every field of an object against its rows: required ones are given,
 * given ones are in range (an infinity only where the row's end is one).
 *
 * Errors: TARN_EARG, field "section.name".
 */
TARN_API enum tarn_status tarn_fields_check(const struct tarn_fields *fields,
					    const void *object,
					    struct tarn_error *err);

/* Word number i of a row's choices, from 0; NULL past the last. */
TARN_API const char *tarn_field_word(const struct tarn_field *row, size_t i);

/* Whether the member of the object has no value: NaN, "", an empty list. */
TARN_API int tarn_field_empty(const struct tarn_field *row,
			      const void *object);

/* Frees the lists and fields in memory of the object's own, and empties
 * them. */
TARN_API void tarn_fields_release(const struct tarn_fields *fields,
				  void *object,
				  const struct tarn_alloc *alloc);

/* Gives 'to', a plain copy (assignment) of 'from', memory of its own wherever
 * 'from' has.  Errors: TARN_ENOMEM ('to' then owns nothing). */
TARN_API enum tarn_status tarn_fields_copy(const struct tarn_fields *fields,
					   const void *from, void *to,
					   const struct tarn_alloc *alloc,
					   struct tarn_error *err);

/* Calls 'visit' with the full path of each row that is no section or list, and
 * of those in sections and in the first entry of each list. */
typedef void tarn_field_visit(void *context, const char *path,
			      const struct tarn_field *row);
TARN_API void tarn_fields_walk(const struct tarn_fields *fields,
			       tarn_field_visit *visit, void *context);

/* The row of a path, whatever entries its lists have: all of "pipes[9].length"
 * share one.  NULL: no such path. */
TARN_API const struct tarn_field *tarn_fields_row(const struct tarn_fields *fields,
						  const char *path);

/*
 * The place of a path in an object: "bed.layers[2].porosity",
 * "pump.hours" (all twelve) or "pump.hours[7]" (July; "pump.hours.7" too),
 * "pump.curve[3][1]", "pipes[1].fittings.ball valve".
 */
struct tarn_place {
	const struct tarn_field *row;
	void *object;		/* the struct that the row's offset is in */
	int index;		/* from 0, of a month or a number; -1: all */
};

/* Errors: TARN_EARG, mistake TARN_MISTAKE_UNKNOWN: no such path, or an entry
 * that the list does not have. */
TARN_API enum tarn_status tarn_fields_place(const struct tarn_fields *fields,
					    void *object, const char *path,
					    struct tarn_place *out,
					    struct tarn_error *err);

/* The number there [unit of the row], any value, given by its owner (source:
 * none, it is read); NaN if it is no number or has none.  Of twelve months the
 * first. */
TARN_API double tarn_place_get(const struct tarn_place *place);

/* Puts a number there, in the row's unit: all twelve of months without an
 * index.  Unchecked. */
TARN_API void tarn_place_put(const struct tarn_place *place, double x);

/* Row of that name, or NULL. */
TARN_API const struct tarn_field *
tarn_fields_find(const struct tarn_fields *fields, const char *name);

/* Row that had that name in descriptions of the minor version before, or
 * NULL. */
TARN_API const struct tarn_field *
tarn_fields_find_was(const struct tarn_fields *fields, const char *was);

/*
 * A path by the names that fields have now.
 *
 *   out   filled, cut to 'size' bytes with its zero; the path as it is from
 *         the first name on that no row has or had
 *
 * Returns 1 where a name has changed, else 0.
 */
TARN_API int tarn_fields_path_now(const struct tarn_fields *fields,
				  const char *path, char *out, size_t size);

/*
 * What a field, or a choice of a field, is called now that had another name
 * in earlier descriptions; NULL where it had none.  For a choice 'section' is
 * the field's full name.
 */
TARN_API const char *tarn_name_now(const char *section, const char *old);

/*
 * The character that a text in UTF-8 (RFC 3629) begins with.
 *
 *   bytes   of the text     1 or more
 *   used    filled: bytes of the character, 1 where it is none
 *
 * Its code point; -1 where the text begins with no whole character in its
 * shortest form.
 */
TARN_API long tarn_utf8(const char *text, size_t bytes, size_t *used);

/*
 * Number of single-letter edits (insert, delete, replace, swap of
 * neighbours) between two names, case ignored; for "did you mean".
 * Names beyond 63 letters count as 63 edits apart.
 */
TARN_API int tarn_name_distance(const char *a, const char *b);

/* ---- units ------------------------------------------------------------- */

/*
 * A unit is the factor that turns a number into SI:
 * 4 ft = 4 * tarn_unit("ft") m.  The exception is what fields have in another
 * unit: rates of depth ("mm_per_day" is 1, "inch_per_day" 25.4), kPa and kWh.
 * A number that carries its unit needs no such care: measure.h.
 *
 * Source of factors: NIST SP 811 (2008) appendix B; all are exact but hp.
 */
struct tarn_unit {
	const char *name;	/* "ft", "gpm", "inch_per_day" */
	double factor;
	const char *si;		/* "m", "m3/s", "mm/d" */
	const char *meaning;	/* "US gallon per minute" */
};

/* All units; *count is filled.  Borrowed from the library, never NULL. */
TARN_API const struct tarn_unit *tarn_units(size_t *count);

/* Factor of a unit by name, NaN if there is no such unit. */
TARN_API double tarn_unit(const char *name);

/* deg F to deg C and back; exact in the definition, any value. */
TARN_API double tarn_celsius(double fahrenheit);
TARN_API double tarn_fahrenheit(double celsius);

/* ---- statistics -------------------------------------------------------- */

/*
 * Of numbers in any unit; a NaN is left out.  A percentile is linear between
 * neighbours: Hyndman & Fan (1996), Sample quantiles in statistical packages,
 * definition 7.
 *
 *   x        put into another order by tarn_percentile and tarn_spread: no sort
 *   share    0 .. 1
 *   returns  NaN without numbers, or where the share is outside its range
 */
TARN_API double tarn_percentile(double *x, size_t count, double share);
TARN_API double tarn_mean(const double *x, size_t count);

/* How numbers spread; all NaN but the count where there is none. */
struct tarn_spread {
	size_t count;
	double mean, least, most;
	double p10, p50, p90;	/* percentiles 10, 50, 90 */
};
TARN_API struct tarn_spread tarn_spread(double *x, size_t count);
TARN_API extern const struct tarn_fields tarn_spread_fields;

/* ---- how far to trust a number ---------------------------------------- */

enum tarn_evidence {
	TARN_EVIDENCE_SEEN,	/* read in the source that is named */
	TARN_EVIDENCE_INPUTS,	/* inputs read there, the figure is our sum */
	TARN_EVIDENCE_SECOND_HAND, /* somebody else says that it is there */
	TARN_EVIDENCE_MEMORY,	/* recalled, the source was not opened */
	TARN_EVIDENCE_PRACTICE,	/* common practice, no source, unmeasured */
	TARN_EVIDENCE_OURS	/* derived or assumed by us */
};

/* "published", "our sum from published inputs", "second-hand", "from memory",
 * "common practice, no source", "our own"; then NULL. */
TARN_API extern const char *const tarn_evidence_texts[];

/* One of these; "unknown" for any other number.  Never NULL. */
TARN_API const char *tarn_evidence_text(enum tarn_evidence e);

/* ---- calendar ---------------------------------------------------------- */

/*
 * Civil (Gregorian) dates from 1800-01-01 to 2200-12-31.  A day is counted
 * from 1970-01-01 = 0.
 */
#define TARN_DAY_MIN (-62091L)	/* 1800-01-01 */
#define TARN_DAY_MAX 84370L	/* 2200-12-31 */
#define TARN_NO_DAY (-1000000L)	/* "not a day" */

struct tarn_date {
	int year, month, day;	/* month 1..12, day 1..31 */
};

/*
 * ISO 8601 week: Monday is weekday 1; week 1 has the year's first Thursday, and
 * a week belongs to the year of its Thursday.  Number and date of a week come
 * from here, and from nowhere else.
 */
struct tarn_week {
	int year, week, weekday;
	long first_day;		/* its Monday; TARN_NO_DAY if the day is outside
				   the range, or Monday is */
};

TARN_API int tarn_leap_year(int year);			/* 1 or 0 */
TARN_API int tarn_days_in_month(int year, int month);	/* 0 if no such month */

/* Days of a month in the mean of four years [d], 28.25 in February; NaN if
 * there is no such month. */
TARN_API double tarn_usual_days(int month);

/* Day of a date; TARN_NO_DAY if there is no such date (31 February) or it is
 * outside the years above. */
TARN_API long tarn_day(int year, int month, int day);

/* Date of a day; all zero if it is outside the range. */
TARN_API struct tarn_date tarn_date(long day);

/* Day of the year, 1..366; 0 if outside the range. */
TARN_API int tarn_day_of_year(long day);

/* ISO week of a day; all zero if outside the range. */
TARN_API struct tarn_week tarn_week(long day);

/*
 * About when a week begins in any year: "MM-DD" in the middle between its
 * earliest and its latest Monday.  Monday is at most four days away from it,
 * and the dates of two weeks are as many weeks apart as their numbers.
 *
 *   week   1 .. 53; "" for any other
 */
TARN_API void tarn_week_about(int week, char text[6]);

/* Day of "YYYY-MM-DD", exactly so; TARN_NO_DAY otherwise. */
TARN_API long tarn_day_parse(const char *text);

/* Fills "YYYY-MM-DD"; "no date" if outside the range. */
TARN_API void tarn_day_text(long day, char text[11]);

/* ---- chance ------------------------------------------------------------ */

/*
 * Counter-based random numbers: word 'index' of stream 'stream' under a seed,
 * the same on every machine and in any order, so that streams can be shared
 * out.  Within a stream it is SplitMix64 (Steele, Lea & Flood 2014) started at
 * seed + mix(stream); stream 0 starts at the seed itself.
 */
TARN_API uint64_t tarn_random(uint64_t seed, uint64_t stream, uint64_t index);

#ifdef __cplusplus
}
#endif
#endif
