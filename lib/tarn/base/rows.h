/* SPDX-License-Identifier: MIT */
#ifndef TARN_BASE_ROWS_H
#define TARN_BASE_ROWS_H

/* What the files that go by described rows share. */

#include "tarn/base.h"

#define ROWS_PATH 160		/* of a path, with its zero */

/* A section without a name: its rows belong to the section around it. */
int tn_rows_is_part(const struct tarn_field *row);

/* Lists of any kind: the count, the array, and an entry of a LIST or
 * COUNTS. */
int tn_rows_count(const struct tarn_field *row, const void *object);
void tn_rows_set_count(const struct tarn_field *row, void *object, int count);
void *tn_rows_array(const struct tarn_field *row, const void *object);
char *tn_rows_entry(const struct tarn_field *row, const void *object, int i);

/* Notes that a section is there, where its row has a place for that. */
void tn_rows_set_given(const struct tarn_field *section, void *object);

/* Bytes of an entry of NUMBERS, PAIRS, LIST or COUNTS. */
size_t tn_rows_entry_size(const struct tarn_field *row);

/* Makes room for 'count' entries where the object owns its list. */
enum tarn_status tn_rows_make_room(const struct tarn_field *row, void *object,
				   int count, const struct tarn_alloc *alloc,
				   struct tarn_error *err);

/* As tarn_fields_place, but an entry right behind the last of its list is
 * made, empty. */
enum tarn_status tn_rows_place_new(const struct tarn_fields *fields,
				   void *object,
				   const char *path,
				   const struct tarn_alloc *alloc,
				   struct tarn_place *out,
				   struct tarn_error *err);

/* From how many edits on (tarn_name_distance) a name is no longer meant by
 * 'typed': half of a short one, four of any. */
int tn_rows_too_far(const char *typed);

/* Notes the sort of a mistake, if 'err' is still free; before tarn_fail.
 * 'near' may be NULL. */
void tn_rows_note(struct tarn_error *err, enum tarn_mistake mistake,
		  const char *near);

/* The same with the row's range and unit, and what was found. */
void tn_rows_note_range(struct tarn_error *err, enum tarn_mistake mistake,
			const struct tarn_field *row, double found);

/* Fails a row of the name given that is required and empty. */
enum tarn_status tn_rows_fail_missing(const struct tarn_field *row,
				      const char *name, struct tarn_error *err);

#endif
