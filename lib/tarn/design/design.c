/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "tarn/base/rows.h"
#include "tarn/design/stages.h"

struct tarn_design *tarn_design_new(const struct tarn_alloc *alloc)
{
	struct tarn_design *d = tarn_resize(alloc, NULL, sizeof *d);

	if (!d)
		return NULL;
	memset(d, 0, sizeof *d);
	d->works = tarn_works_default();
	tarn_fields_default(&tarn_design_fields, d);
	d->alloc = alloc;
	return d;
}

void tarn_design_free(struct tarn_design *d)
{
	const struct tarn_alloc *alloc;

	if (!d)
		return;
	alloc = d->alloc;
	tarn_fields_release(&tarn_design_fields, d, alloc);
	tarn_resize(alloc, d, 0);
}

struct tarn_design *tarn_design_copy(const struct tarn_design *from)
{
	struct tarn_design *d = tarn_resize(from->alloc, NULL, sizeof *d);

	if (!d)
		return NULL;
	*d = *from;
	if (tarn_fields_copy(&tarn_design_fields, from, d, d->alloc, NULL) ==
	    TARN_OK)
		return d;
	tarn_resize(from->alloc, d, 0);
	return NULL;
}

/* ---- one field ----------------------------------------------------------------- */

enum tarn_status tarn_design_set(struct tarn_design *d, const char *path,
				 double x, struct tarn_error *err)
{
	const struct tarn_value value = { .kind = TARN_VALUE_NUMBER,
					  .number = x };

	return tarn_fields_set(&tarn_design_fields, d, path, &value, d->alloc,
			       err);
}

enum tarn_status tarn_design_set_text(struct tarn_design *d, const char *path,
				      const char *text,
				      struct tarn_error *err)
{
	struct tarn_value value = { .kind = TARN_VALUE_TEXT, .text = text,
				    .bytes = strlen(text) };
	struct tarn_place at;

	if (tarn_fields_place(&tarn_design_fields, d, path, &at, NULL) ==
		    TARN_OK &&
	    at.row->kind == TARN_FIELD_SWITCH &&
	    (strcmp(text, "true") == 0 || strcmp(text, "false") == 0)) {
		value.kind = TARN_VALUE_SWITCH;
		value.number = text[0] == 't';
	}
	return tarn_fields_set(&tarn_design_fields, d, path, &value, d->alloc,
			       err);
}

/* The place is only read from. */
static enum tarn_status place_in(const struct tarn_design *d,
				 const char *path, struct tarn_place *at,
				 struct tarn_error *err)
{
	return tarn_fields_place(&tarn_design_fields, (struct tarn_design *)d,
				 path, at, err);
}

enum tarn_status tarn_design_get(const struct tarn_design *d,
				 const char *path, double *out,
				 struct tarn_error *err)
{
	struct tarn_place at;
	enum tarn_status status = place_in(d, path, &at, err);

	if (status != TARN_OK)
		return status;
	if (!tn_design_is_number(&at)) {
		tn_rows_note(err, TARN_MISTAKE_TYPE, NULL);
		return tarn_fail(err, TARN_EARG, path, "is no number");
	}
	*out = tarn_place_get(&at);
	return TARN_OK;
}

static const char *text_at(const struct tarn_place *at, char room[32])
{
	const char *from = (const char *)at->object + at->row->offset;
	const char *word;
	long day;
	int i;

	memcpy(&i, from, sizeof i);
	switch (at->row->kind) {
	case TARN_FIELD_TEXT:
		return from;
	case TARN_FIELD_SWITCH:
		return i ? "true" : "false";
	case TARN_FIELD_CHOICE:
		word = i < 0 ? NULL : tarn_field_word(at->row, (size_t)i);
		return word ? word : "";
	case TARN_FIELD_DATE:
		memcpy(&day, from, sizeof day);
		i = tn_rows_count(at->row, at->object);
		room[0] = '\0';
		if (i)
			snprintf(room, 32, "%02d-%02d", i / 100, i % 100);
		if (day != TARN_NO_DAY)
			tarn_day_text(day, room);
		return room;
	default:
		return NULL;
	}
}

enum tarn_status tarn_design_get_text(const struct tarn_design *d,
				      const char *path, char *text,
				      size_t size, struct tarn_error *err)
{
	struct tarn_place at;
	enum tarn_status status = place_in(d, path, &at, err);
	char room[32];
	const char *found;

	if (status != TARN_OK)
		return status;
	found = text_at(&at, room);
	if (!found) {
		tn_rows_note(err, TARN_MISTAKE_TYPE, NULL);
		return tarn_fail(err, TARN_EARG, path,
				 "is no text, word or switch");
	}
	snprintf(text, size, "%s", found);
	return TARN_OK;
}

/* ---- the whole -------------------------------------------------------------------- */

#define OLD struct tarn_old_name
static const struct tarn_field old_name_rows[] = {
	TARN_OUT_TEXT(OLD, path, "path", "as it was given"),
	TARN_OUT_STRING(OLD, name, "name", "that the field has now"),
};
TARN_FIELDS(tarn_old_name_fields, "old_name", old_name_rows);

static void note_old_name(void *context, const char *path, const char *name)
{
	struct tarn_design *d = context;
	struct tarn_old_name *old = &d->old_name[d->old_names];

	if (d->old_names == TARN_OLD_NAMES_MAX)
		return;
	snprintf(old->path, sizeof old->path, "%s", path);
	old->name = name;
	d->old_names++;
}

enum tarn_status tarn_design_read(struct tarn_design **out,
				  const struct tarn_alloc *alloc,
				  const struct tarn_value *table,
				  struct tarn_error *err)
{
	struct tarn_design *d = tarn_design_new(alloc);
	enum tarn_status status;

	*out = NULL;
	if (!d)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	status = tarn_fields_read_noting(&tarn_design_fields, d, "", table,
					 note_old_name, d, alloc, &d->bare,
					 err);
	if (status == TARN_OK)
		status = tn_design_check_schedules(d, err);
	if (status == TARN_OK)
		*out = d;
	else
		tarn_design_free(d);
	return status;
}

enum tarn_status tarn_design_read_json(struct tarn_design **out,
				       const struct tarn_alloc *alloc,
				       const char *text, size_t bytes,
				       struct tarn_error *err)
{
	struct tarn_values *values = tarn_values_new(alloc);
	const struct tarn_value *table;
	enum tarn_status status;

	*out = NULL;
	if (!values)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	status = tarn_values_json(values, text, bytes, &table, err);
	if (status == TARN_OK)
		status = tarn_design_read(out, alloc, table, err);
	tarn_values_free(values);
	return status;
}
