/* SPDX-License-Identifier: MIT */
#ifndef TARN_BASE_READ_H
#define TARN_BASE_READ_H

#include "tarn/base/rows.h"
#include "tarn/value.h"

/* What the parts of the reader share. */
struct reading {
	const struct tarn_alloc *alloc;
	struct tarn_error *err;
	struct tarn_bare_list *bare;	/* NULL: nobody asks */
	const char *beside;	/* path of the neighbour with a unit, or "" */
	const char *anywhere;	/* the same in the whole */
	int once;		/* in a list: 1 before a number is noted, 2
				   after; else 0 */
	tarn_was_visit *visit;		/* for names of before; NULL: nobody */
	void *context;
};

/* Path of the first number in the table that carries a unit; "" if none does.
 * Returns 'room'. */
const char *tn_read_carrier(const struct tarn_value *table, const char *path,
			    char room[ROWS_PATH]);

/* Fails the field at 'path'; as tarn_fail. */
enum tarn_status tn_read_fail(struct reading *r, enum tarn_mistake mistake,
			      const char *path, const char *format, ...)
	TARN_PRINTF(4, 5);

/* The number of 'value' in the row's unit, unchecked otherwise: as it is where
 * it is bare.  'which' as tarn_field_dimension, 'shown' as below. */
enum tarn_status tn_read_unit(struct reading *r, const struct tarn_field *row,
			      int which, const char *path, const char *shown,
			      const struct tarn_value *value, double *out);

/* A number in [lo, hi]; 'unit' as it stands in messages, " [m]" or "". */
enum tarn_status tn_read_number(struct reading *r, const struct tarn_field *row,
				const char *path, const char *unit,
				const struct tarn_value *value, double *out);

/* How many entries the list has, and whether it may have so many. */
enum tarn_status tn_read_count(struct reading *r, const struct tarn_field *row,
			       const char *path, const struct tarn_value *value,
			       int *count);

/* What is no table: numbers, words, texts, dates, switches. */
enum tarn_status tn_read_plain(struct reading *r, const struct tarn_field *row,
			       void *object, const char *path,
			       const struct tarn_value *value);

/* MONTHS, NUMBERS, PAIRS, NAMES, COUNTS. */
enum tarn_status tn_read_many(struct reading *r, const struct tarn_field *row,
			      void *object, const char *path,
			      const struct tarn_value *value);

/* Any row. */
enum tarn_status tn_read_row(struct reading *r, const struct tarn_field *row,
			     void *object, const char *path,
			     const struct tarn_value *value);

/* "number", "text", "table" ... */
const char *tn_read_kind(const struct tarn_value *value);

/* The value for a message: its text, its number, or its kind. */
const char *tn_read_show(const struct tarn_value *value, char text[40]);

#endif
