/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "tarn/base/read.h"

enum tarn_status tn_read_count(struct reading *r, const struct tarn_field *row,
			       const char *path, const struct tarn_value *v,
			       int *count)
{
	const struct tarn_value *e = v->first;

	if (v->kind != TARN_VALUE_TABLE)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be a list, got %s", tn_read_kind(v));
	while (e && !e->name)
		e = e->next;
	if (e)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be a list, "
				    "each entry in braces of its own; '%s' stands "
				    "between them", e->name);
	if (v->listed < row->least || v->listed > row->most) {
		tn_rows_note_range(r->err, TARN_MISTAKE_LENGTH, row,
				   (double)v->listed);
		if (r->err && r->err->code == TARN_OK) {
			r->err->lo = (double)row->least;
			r->err->hi = (double)row->most;
		}
		return tarn_fail(r->err, TARN_EARG, path, "must be a list of "
				 "%zu to %zu entries, got %zu", row->least,
				 row->most, v->listed);
	}
	*count = (int)v->listed;
	return TARN_OK;
}

static enum tarn_status read_months(struct reading *r,
				    const struct tarn_field *row,
				    void *object, const char *path,
				    const struct tarn_value *v)
{
	double x[12];
	int i = 0;

	if (v->kind == TARN_VALUE_NUMBER) {
		enum tarn_status s = tn_read_number(r, row, path, "", v, &x[0]);

		for (i = 1; i < 12; i++)
			x[i] = x[0];
		if (s == TARN_OK)
			memcpy((char *)object + row->offset, x, sizeof x);
		return s;
	}
	if (v->kind != TARN_VALUE_TABLE || v->listed != 12)
		return tn_read_fail(r, TARN_MISTAKE_LENGTH, path, "must be one "
				    "number or a list of 12, January first");
	for (const struct tarn_value *e = v->first; e; e = e->next) {
		char name[ROWS_PATH];
		enum tarn_status s;

		if (e->name)
			continue;
		snprintf(name, sizeof name, "%s[%d]", path, i + 1);
		s = tn_read_number(r, row, name, "", e, &x[i++]);
		if (s != TARN_OK)
			return s;
	}
	memcpy((char *)object + row->offset, x, sizeof x);
	return TARN_OK;
}

/* One number, or false for none. */
static enum tarn_status one_number(struct reading *r,
				   const struct tarn_field *row,
				   const char *path,
				   const struct tarn_value *v, double *to)
{
	char unit[40];

	*to = TARN_NAN;
	if (v->kind == TARN_VALUE_SWITCH && !(v->number > 0) && !row->required)
		return TARN_OK;
	snprintf(unit, sizeof unit, "[%s]", row->unit);
	return tn_read_number(r, row, path, unit, v, to);
}

static enum tarn_status one_pair(struct reading *r,
				 const struct tarn_field *row,
				 const char *path, const struct tarn_value *v,
				 double to[2])
{
	const struct tarn_value *a = v->first, *b = a ? a->next : NULL;
	enum tarn_status s;

	if (v->kind != TARN_VALUE_TABLE || v->listed != 2 || !b || b->next ||
	    a->kind != TARN_VALUE_NUMBER || b->kind != TARN_VALUE_NUMBER)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be a pair of numbers");
	to[0] = a->number;
	to[1] = b->number;
	if (!a->unit && !b->unit && !r->bare)
		return TARN_OK;
	s = tn_read_unit(r, row, 0, path, "", a, &to[0]);
	if (s == TARN_OK)
		s = tn_read_unit(r, row, 1, path, "", b, &to[1]);
	return s;
}

/* Pairs into two arrays, which the object borrows. */
static enum tarn_status read_columns(struct reading *r,
				     const struct tarn_field *row,
				     void *object, const char *path,
				     const struct tarn_value *v)
{
	int count = 0, i = 0;
	double *first, *second;
	enum tarn_status s = tn_read_count(r, row, path, v, &count);

	if (s != TARN_OK || count == 0)
		return s;
	first = tarn_resize(r->alloc, NULL,
			    2 * (size_t)count * sizeof *first);
	if (!first)
		return tarn_fail(r->err, TARN_ENOMEM, NULL, "out of memory");
	second = first + count;
	memcpy((char *)object + row->offset, &first, sizeof first);
	memcpy((char *)object + row->second_offset, &second, sizeof second);
	for (const struct tarn_value *e = v->first; e && s == TARN_OK;
	     e = e->next, i++) {
		char name[ROWS_PATH];
		double pair[2] = { 0, 0 };

		snprintf(name, sizeof name, "%s[%d]", path, i + 1);
		s = one_pair(r, row, name, e, pair);
		first[i] = pair[0];
		second[i] = pair[1];
	}
	if (s == TARN_OK)
		tn_rows_set_count(row, object, count);
	return s;
}

static enum tarn_status read_numbers(struct reading *r,
				     const struct tarn_field *row,
				     void *object, const char *path,
				     const struct tarn_value *v)
{
	int count = 0, i = 0;
	enum tarn_status s = tn_read_count(r, row, path, v, &count);

	if (s == TARN_OK)
		s = tn_rows_make_room(row, object, count, r->alloc, r->err);
	for (const struct tarn_value *e = v->first; e && s == TARN_OK;
	     e = e->next, i++) {
		double *to = (double *)(void *)tn_rows_entry(row, object, i);
		char name[ROWS_PATH];

		snprintf(name, sizeof name, "%s[%d]", path, i + 1);
		s = row->kind == TARN_FIELD_PAIRS
			? one_pair(r, row, name, e, to)
			: one_number(r, row, name, e, to);
	}
	if (s == TARN_OK)
		tn_rows_set_count(row, object, count);
	return s;
}

/* A name ("mon"), or its number from 1. */
static enum tarn_status one_name(struct reading *r,
				 const struct tarn_field *row,
				 const char *path, const struct tarn_value *v,
				 unsigned *bits)
{
	int bit = 0;
	size_t count = 0;
	char shown[40];

	for (; tarn_field_word(row, count); count++)
		if (v->kind == TARN_VALUE_TEXT &&
		    strcmp(tarn_field_word(row, count), v->text) == 0)
			bit = (int)count + 1;
	if (v->kind == TARN_VALUE_NUMBER && !v->unit && v->number >= 1 &&
	    v->number <= (double)count && fmod(v->number, 1) == 0)
		bit = (int)v->number;
	if (bit == 0)
		return tn_read_fail(r, TARN_MISTAKE_CHOICE, path,
				    "'%s' is none "
				    "of \"%s\" .. \"%s\" or 1 .. %zu",
				    tn_read_show(v, shown), tarn_field_word(row,
									    0),
				    tarn_field_word(row, count - 1), count);
	*bits |= 1u << bit;
	return TARN_OK;
}

static enum tarn_status read_names(struct reading *r,
				   const struct tarn_field *row, void *object,
				   const char *path,
				   const struct tarn_value *v)
{
	unsigned bits = 0;
	int count;
	enum tarn_status s = tn_read_count(r, row, path, v, &count);

	for (const struct tarn_value *e = v->first; e && s == TARN_OK;
	     e = e->next)
		s = one_name(r, row, path, e, &bits);
	if (s == TARN_OK)
		memcpy((char *)object + row->offset, &bits, sizeof bits);
	return s;
}

static enum tarn_status one_count(struct reading *r,
				  const struct tarn_field *row, void *entry,
				  const char *path,
				  const struct tarn_value *v)
{
	const struct tarn_field *kind = &row->of->rows[0];
	const struct tarn_field *number = &row->of->rows[1];
	const struct tarn_value name = { .kind = TARN_VALUE_TEXT,
					 .text = v->name,
					 .bytes = strlen(v->name) };
	char full[ROWS_PATH];
	enum tarn_status s = tn_read_plain(r, kind, entry, path, &name);

	snprintf(full, sizeof full, "%s.%s", path, v->name);
	return s == TARN_OK ? tn_read_plain(r, number, entry, full, v) : s;
}

/* Moves the last entry to its place by kind: a script's table has no order, and
 * sums depend on it. */
static void sort_last(const struct tarn_field *row, void *object, int last)
{
	size_t size = tn_rows_entry_size(row);
	char entry[64];
	int at = last;

	if (size > sizeof entry)
		return;
	memcpy(entry, tn_rows_entry(row, object, last), size);
	for (; at > 0; at--) {
		const char *before = tn_rows_entry(row, object, at - 1);
		int a, b;

		memcpy(&a, before + row->of->rows[0].offset, sizeof a);
		memcpy(&b, entry + row->of->rows[0].offset, sizeof b);
		if (a <= b)
			break;
		memcpy(tn_rows_entry(row, object, at), before, size);
	}
	memcpy(tn_rows_entry(row, object, at), entry, size);
}

/* fittings = { ["90 elbow threaded"] = 4, ["ball valve"] = 1 } */
static enum tarn_status read_counts(struct reading *r,
				    const struct tarn_field *row,
				    void *object, const char *path,
				    const struct tarn_value *v)
{
	int count = 0;
	enum tarn_status s = TARN_OK;

	if (v->kind != TARN_VALUE_TABLE || v->listed > 0)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be a table "
				    "of numbers by name, such as { [\"%s\"] = 4 }",
				    tarn_field_word(&row->of->rows[0], 0));
	for (const struct tarn_value *e = v->first; e && s == TARN_OK;
	     e = e->next) {
		if ((size_t)count == row->most)
			return tn_read_fail(r, TARN_MISTAKE_LENGTH, path,
					    "takes "
					    "at most %zu kinds", row->most);
		s = one_count(r, row, tn_rows_entry(row, object, count), path,
			      e);
		sort_last(row, object, count++);
	}
	if (s == TARN_OK)
		tn_rows_set_count(row, object, count);
	return s;
}

static enum tarn_status read_list_of(struct reading *r,
				     const struct tarn_field *row,
				     void *object, const char *path,
				     const struct tarn_value *v)
{
	switch (row->kind) {
	case TARN_FIELD_MONTHS:
		return read_months(r, row, object, path, v);
	case TARN_FIELD_NAMES:
		return read_names(r, row, object, path, v);
	case TARN_FIELD_COUNTS:
		return read_counts(r, row, object, path, v);
	default:
		if (row->second_offset)
			return read_columns(r, row, object, path, v);
		return read_numbers(r, row, object, path, v);
	}
}

enum tarn_status tn_read_many(struct reading *r, const struct tarn_field *row,
			      void *object, const char *path,
			      const struct tarn_value *v)
{
	enum tarn_status s;

	r->once = 1;
	s = read_list_of(r, row, object, path, v);
	r->once = 0;
	return s;
}
