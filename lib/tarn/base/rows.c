/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "tarn/base/rows.h"

int tn_rows_is_part(const struct tarn_field *row)
{
	return row->kind == TARN_FIELD_SECTION && row->name[0] == '\0';
}

int tn_rows_count(const struct tarn_field *row, const void *object)
{
	int count;

	if (row->count_offset == TARN_NO_COUNT)
		return (int)row->most;
	if (row->owned == TARN_BORROWED) {
		size_t borrowed;

		memcpy(&borrowed, (const char *)object + row->count_offset,
		       sizeof borrowed);
		return (int)borrowed;
	}
	memcpy(&count, (const char *)object + row->count_offset, sizeof count);
	return count;
}

void tn_rows_set_given(const struct tarn_field *section, void *object)
{
	const int given = 1;

	if (section->count_offset)
		memcpy((char *)object + section->count_offset, &given,
		       sizeof given);
}

void tn_rows_set_count(const struct tarn_field *row, void *object, int count)
{
	const size_t borrowed = (size_t)count;

	if (row->owned == TARN_BORROWED)
		memcpy((char *)object + row->count_offset, &borrowed,
		       sizeof borrowed);
	else
		memcpy((char *)object + row->count_offset, &count,
		       sizeof count);
}

void *tn_rows_array(const struct tarn_field *row, const void *object)
{
	char *at = (char *)object + row->offset;
	void *array;

	if (!row->owned)
		return at;
	memcpy(&array, at, sizeof array);
	return array;
}

size_t tn_rows_entry_size(const struct tarn_field *row)
{
	switch (row->kind) {
	case TARN_FIELD_NUMBERS:
		return sizeof(double);
	case TARN_FIELD_PAIRS:
		return 2 * sizeof(double);
	default:
		return row->size;
	}
}

char *tn_rows_entry(const struct tarn_field *row, const void *object, int i)
{
	return (char *)tn_rows_array(row, object) +
	       (size_t)i * tn_rows_entry_size(row);
}

static void set_array(const struct tarn_field *row, void *object, void *array)
{
	memcpy((char *)object + row->offset, &array, sizeof array);
}

enum tarn_status tn_rows_make_room(const struct tarn_field *row, void *object,
				   int count, const struct tarn_alloc *alloc,
				   struct tarn_error *err)
{
	void *array;

	if (!row->owned || count == 0)
		return TARN_OK;
	array = tarn_resize(alloc, tn_rows_array(row, object),
			    (size_t)count * tn_rows_entry_size(row));
	if (!array)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	set_array(row, object, array);
	return TARN_OK;
}

/* ---- release and copy ------------------------------------------------------ */

void tarn_fields_release(const struct tarn_fields *fields, void *object,
			 const struct tarn_alloc *alloc)
{
	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];

		if (row->kind == TARN_FIELD_SECTION)
			tarn_fields_release(row->of, (char *)object +
					    row->offset, alloc);
		if (row->kind == TARN_FIELD_LIST)
			for (int k = 0; k < tn_rows_count(row, object); k++)
				tarn_fields_release(row->of,
						    tn_rows_entry(row, object,
								  k),
						    alloc);
		if (row->owned != 1)
			continue;
		tarn_resize(alloc, tn_rows_array(row, object), 0);
		set_array(row, object, NULL);
		tn_rows_set_count(row, object, 0);
	}
}

static enum tarn_status copy_owned(const struct tarn_field *row,
				   const void *from, void *to,
				   const struct tarn_alloc *alloc,
				   struct tarn_error *err)
{
	int count = tn_rows_count(row, from);
	enum tarn_status status;

	set_array(row, to, NULL);
	tn_rows_set_count(row, to, 0);
	status = tn_rows_make_room(row, to, count, alloc, err);
	if (status != TARN_OK || count == 0)
		return status;
	memcpy(tn_rows_array(row, to), tn_rows_array(row, from),
	       (size_t)count * tn_rows_entry_size(row));
	/* entries that own memory are copied in turn, counted as they are */
	for (int k = 0; k < count; k++) {
		if (row->kind == TARN_FIELD_LIST)
			status = tarn_fields_copy(row->of,
						  tn_rows_entry(row, from, k),
						  tn_rows_entry(row, to, k),
						  alloc, err);
		if (status != TARN_OK)
			return status;
		tn_rows_set_count(row, to, k + 1);
	}
	return status;
}

/* Everything is copied as bytes; then each list of its own gets memory. */
static enum tarn_status copy_rows(const struct tarn_fields *fields,
				  const void *from, void *to,
				  const struct tarn_alloc *alloc,
				  struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];
		enum tarn_status s = TARN_OK;

		if (row->kind == TARN_FIELD_SECTION)
			s = copy_rows(row->of,
				      (const char *)from + row->offset,
				      (char *)to + row->offset, alloc, err);
		else if (row->owned == 1)
			s = copy_owned(row, from, to, alloc, err);
		if (s != TARN_OK)
			status = s;	/* go on: no pointer of 'from' stays */
	}
	return status;
}

enum tarn_status tarn_fields_copy(const struct tarn_fields *fields,
				  const void *from, void *to,
				  const struct tarn_alloc *alloc,
				  struct tarn_error *err)
{
	enum tarn_status status = copy_rows(fields, from, to, alloc, err);

	if (status != TARN_OK)
		tarn_fields_release(fields, to, alloc);
	return status;
}

/* ---- words, emptiness --------------------------------------------------------- */

const char *tarn_field_word(const struct tarn_field *row, size_t i)
{
	if (row->word)
		return row->word(i);
	for (size_t k = 0; row->choices && row->choices[k]; k++)
		if (k == i)
			return row->choices[k];
	return NULL;
}

int tarn_field_empty(const struct tarn_field *row, const void *object)
{
	const char *at = (const char *)object + row->offset;
	double x;
	long day;
	int i;

	switch (row->kind) {
	case TARN_FIELD_NUMBER:
	case TARN_FIELD_MONTHS:
		memcpy(&x, at, sizeof x);
		return isnan(x);
	case TARN_FIELD_TEXT:
		return at[0] == '\0';
	case TARN_FIELD_CHOICE:
		memcpy(&i, at, sizeof i);
		return i < 0;
	case TARN_FIELD_NAMES:
		memcpy(&i, at, sizeof i);
		return i == 0;
	case TARN_FIELD_DAY:
	case TARN_FIELD_DATE:
		memcpy(&day, at, sizeof day);
		return day == TARN_NO_DAY &&
		       (row->kind == TARN_FIELD_DAY ||
			tn_rows_count(row, object) == 0);
	case TARN_FIELD_NUMBERS:
	case TARN_FIELD_PAIRS:
	case TARN_FIELD_LIST:
	case TARN_FIELD_COUNTS:
		return tn_rows_count(row, object) == 0;
	default:
		return 0;
	}
}

/* ---- mistakes ------------------------------------------------------------------ */

int tn_rows_too_far(const char *typed)
{
	size_t half = strlen(typed) / 2 + 1;

	return half < 4 ? (int)half : 4;
}

void tn_rows_note(struct tarn_error *err, enum tarn_mistake mistake,
		  const char *near)
{
	if (!err || err->code != TARN_OK)
		return;
	err->mistake = mistake;
	err->found = err->lo = err->hi = TARN_NAN;
	err->unit[0] = '\0';
	snprintf(err->near, sizeof err->near, "%s", near ? near : "");
}

void tn_rows_note_range(struct tarn_error *err, enum tarn_mistake mistake,
			const struct tarn_field *row, double found)
{
	if (!err || err->code != TARN_OK)
		return;
	tn_rows_note(err, mistake, NULL);
	err->found = found;
	err->lo = row->lo;
	err->hi = row->hi;
	snprintf(err->unit, sizeof err->unit, "%s", row->unit);
}

enum tarn_status tn_rows_fail_missing(const struct tarn_field *row,
				      const char *name, struct tarn_error *err)
{
	int has_unit = strcmp(row->unit, "-") != 0;

	tn_rows_note_range(err, TARN_MISTAKE_MISSING, row, TARN_NAN);
	if (row->kind == TARN_FIELD_DAY)
		return tarn_fail(err, TARN_EARG, name, "is missing: give it as "
				 "YYYY-MM-DD (%s)", row->meaning);
	if (row->kind != TARN_FIELD_NUMBER && row->kind != TARN_FIELD_MONTHS)
		return tarn_fail(err, TARN_EARG, name, "is missing: %s",
				 row->meaning);
	return tarn_fail(err, TARN_EARG, name, "is missing: give it%s%s, "
			 "%g to %g (%s)", has_unit ? " in " : "",
			 has_unit ? row->unit : "", row->lo, row->hi,
			 row->meaning);
}
