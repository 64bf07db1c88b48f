/* SPDX-License-Identifier: MIT */
#ifndef TARN_VALUE_H
#define TARN_VALUE_H

/*
 * value: what a file or a script says, before anybody has looked at it:
 * numbers, texts, and tables of them; read into a struct by its rows.
 */

#include "tarn/measure.h"

#ifdef __cplusplus
extern "C" {
#endif

enum tarn_value_kind {
	TARN_VALUE_NUMBER,
	TARN_VALUE_TEXT,
	TARN_VALUE_SWITCH,	/* number 0 or 1: false, true */
	TARN_VALUE_TABLE,	/* entries with names, without (a list), both */
	TARN_VALUE_OTHER	/* text says what: "function" */
};

struct tarn_value {
	enum tarn_value_kind kind;
	double number;
	const struct tarn_dimension *unit;	/* of the number, borrowed; NULL:
						   it is bare, in its row's */
	const char *text;	/* zero-terminated; 'bytes' before the zero */
	size_t bytes;
	const char *name;	/* in the table around it; NULL: of its list */
	struct tarn_value *first, *last, *next;	/* entries; the next beside */
	size_t listed;		/* entries without a name */
	long line, column;	/* of a file; 0: none */
};

/* Owner of values and of copies of texts. */
struct tarn_values;

/* New; NULL where there is no memory.  'alloc' as everywhere. */
TARN_API struct tarn_values *tarn_values_new(const struct tarn_alloc *alloc);
TARN_API void tarn_values_free(struct tarn_values *values);	/* or NULL */

/* A new value, at the end of 'table' unless that is NULL; the caller fills in
 * the rest.  The name is borrowed.  NULL where there is no memory. */
TARN_API struct tarn_value *tarn_values_add(struct tarn_values *values,
					    struct tarn_value *table,
					    const char *name);

/* Room for so many bytes, zeros, as long as the values live; or NULL. */
TARN_API char *tarn_values_room(struct tarn_values *values, size_t bytes);

/*
 * Reads JSON (RFC 8259) whose outermost value is an object.  null is refused,
 * and so is a name that an object has twice, or an object of more than 1000
 * names.
 *
 *   text     'bytes' of it
 *   *out     filled; dies with 'values'
 *
 * Errors: TARN_EFORMAT, mistake TARN_MISTAKE_SYNTAX, line and column.
 */
TARN_API enum tarn_status tarn_values_json(struct tarn_values *values,
					   const char *text, size_t bytes,
					   const struct tarn_value **out,
					   struct tarn_error *err);

/*
 * Reads a table into an object by its rows.  What the table does not name
 * stays as it was; a list is replaced.  A number that carries a unit is turned
 * into that of its row, by dimension.
 *
 *   section  the table's path, "" at the top; begins each path in errors
 *   object   made by tarn_fields_default
 *
 * Errors: TARN_EARG with the full path: a name that no row has, a value of a
 * wrong kind or out of range, a unit of another dimension than the row's
 * (TARN_MISTAKE_UNIT), a required field that is not there.  The object may then
 * be half filled.  TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_fields_read(const struct tarn_fields *fields, void *object,
		 const char *section, const struct tarn_value *table,
		 const struct tarn_alloc *alloc, struct tarn_error *err);

/* Is told of a field given by a name of before: the path as it was given, and
 * the name that it has now. */
typedef void tarn_was_visit(void *context, const char *path, const char *name);

/*
 * As tarn_fields_read, which reads names of before as well ('was' of a row) and
 * tells nobody.
 *
 *   visit    called with 'context' for each name of before; NULL: not at all
 *
 * Errors: those of tarn_fields_read; a field given by both of its names.
 */
TARN_API enum tarn_status
tarn_fields_read_was(const struct tarn_fields *fields, void *object,
		     const char *section, const struct tarn_value *table,
		     tarn_was_visit *visit, void *context,
		     const struct tarn_alloc *alloc, struct tarn_error *err);

/*
 * A number without a unit in a table where others carry one: it was read in
 * its row's unit, and may have been meant in theirs.
 */
struct tarn_bare {
	char path[64];
	double value;		/* as it was read, in 'unit' */
	char unit[16];
	char beside[64];	/* path of a neighbour that carries a unit */
	int price;		/* 1: a price; its neighbours are all numbers of
				   the whole description */
};
TARN_API extern const struct tarn_fields tarn_bare_fields;

/* What a reader found; 'count' goes on where there is no more room. */
#define TARN_BARE_MAX 24
struct tarn_bare_list {
	int units;		/* 1: some number carries a unit */
	int count;
	struct tarn_bare bare[TARN_BARE_MAX];
};

/*
 * As tarn_fields_read_was, and notes each bare number whose neighbours carry
 * units: those of its table and of the tables within it, and those of the
 * entries of its list.  No zero is noted (it is the same in every unit), no
 * number without a dimension, and none of what has no other unit in use
 * (hours of a day, volts, mg/L); of a list the first one.
 *
 *   bare     filled, also on failure
 *
 * Errors: as tarn_fields_read_was.
 */
TARN_API enum tarn_status
tarn_fields_read_noting(const struct tarn_fields *fields, void *object,
			const char *section, const struct tarn_value *table,
			tarn_was_visit *visit, void *context,
			const struct tarn_alloc *alloc,
			struct tarn_bare_list *bare, struct tarn_error *err);

/*
 * Reads a value into the field at a path.  An entry behind the last of a list
 * is made.  Errors: as tarn_fields_read, and a path that is none.
 */
TARN_API enum tarn_status
tarn_fields_set(const struct tarn_fields *fields, void *object,
		const char *path, const struct tarn_value *value,
		const struct tarn_alloc *alloc, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
