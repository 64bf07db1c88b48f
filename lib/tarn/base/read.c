/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "tarn/base/read.h"

/* ---- a section: the rows of one name ---------------------------------------- */

#define PARTS 8

struct part {
	const struct tarn_fields *fields;
	char *object;
};

struct section {
	const char *path;
	struct part part[PARTS];
	int parts;
	const char *beside;	/* in its list, the number that carries a unit;
				   NULL: in none */
};

/* Adds rows, and those of sections without a name among them. */
static void add_part(struct section *s, const struct tarn_fields *fields,
		     void *object)
{
	if (s->parts < PARTS)
		s->part[s->parts++] = (struct part){ fields, object };
	for (size_t i = 0; i < fields->count; i++)
		if (tn_rows_is_part(&fields->rows[i]))
			add_part(s, fields->rows[i].of, (char *)object +
				 fields->rows[i].offset);
}

static void full_path(const struct section *s, const char *name,
		      char path[ROWS_PATH])
{
	snprintf(path, ROWS_PATH, "%s%s%s", s->path, s->path[0] ? "." : "",
		 name);
}

static const struct tarn_value *entry_of(const struct tarn_value *table,
					 const char *name)
{
	for (const struct tarn_value *e = table->first; e; e = e->next)
		if (e->name && strcmp(e->name, name) == 0)
			return e;
	return NULL;
}

/* The value of a row, by the name that it has or had; NULL: not given. */
static const struct tarn_value *value_of(const struct tarn_value *table,
					 const struct tarn_field *row)
{
	const struct tarn_value *v = entry_of(table, row->name);

	return v || !row->was ? v : entry_of(table, row->was);
}

/* Row that has or had the name, or NULL. */
static const struct tarn_field *row_called(const struct section *s,
					   const char *name)
{
	const struct tarn_field *row = NULL;

	for (int i = 0; i < s->parts && name[0] && !row; i++)
		row = tarn_fields_find(s->part[i].fields, name);
	for (int i = 0; i < s->parts && name[0] && !row; i++)
		row = tarn_fields_find_was(s->part[i].fields, name);
	return row;
}

static const char *nearest(const struct section *s, const char *name)
{
	const char *best = NULL;
	int least = tn_rows_too_far(name);

	for (int i = 0; i < s->parts; i++)
		for (size_t k = 0; k < s->part[i].fields->count; k++) {
			const char *have = s->part[i].fields->rows[k].name;
			int far = tarn_name_distance(name, have);

			if (have[0] && far < least) {
				least = far;
				best = have;
			}
		}
	return best;
}

/* ---- names -------------------------------------------------------------------- */

static enum tarn_status fail_unknown(struct reading *r,
				     const struct section *s,
				     const char *name)
{
	const char *now = tarn_name_now(s->path, name);
	const char *near = now ? now : nearest(s, name);
	char path[ROWS_PATH];

	full_path(s, name, path);
	tn_rows_note(r->err, now ? TARN_MISTAKE_RENAMED : TARN_MISTAKE_UNKNOWN,
		     near);
	if (now)
		return tarn_fail(r->err, TARN_EARG, path, "is called '%s' now",
				 now);
	return tarn_fail(r->err, TARN_EARG, path, "is an unknown field%s%s%s",
			 near ? ": did you mean '" : "", near ? near : "",
			 near ? "'?" : "");
}

/* A name of before is told, and refused beside the one of now. */
static enum tarn_status check_was(struct reading *r, const struct section *s,
				  const struct tarn_field *row,
				  const char *name,
				  const struct tarn_value *table)
{
	char path[ROWS_PATH];

	if (strcmp(row->name, name) == 0)
		return TARN_OK;
	full_path(s, name, path);
	if (entry_of(table, row->name))
		return tn_read_fail(r, TARN_MISTAKE_CONFLICT, path,
				    "is called '%s' now, which is given too: "
				    "keep that one", row->name);
	if (r->visit)
		r->visit(r->context, path, row->name);
	return TARN_OK;
}

static enum tarn_status check_names(struct reading *r,
				    const struct section *s,
				    const struct tarn_value *table)
{
	if (table->kind != TARN_VALUE_TABLE)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, s->path,
				    "must be a table of fields, got %s",
				    tn_read_kind(table));
	for (const struct tarn_value *e = table->first; e; e = e->next) {
		const struct tarn_field *row;
		enum tarn_status status;

		if (!e->name)
			return tn_read_fail(r, TARN_MISTAKE_TYPE, s->path,
					    "has an entry without a name "
					    "(expected name = value%s)",
					    e->kind == TARN_VALUE_NUMBER
					    ? "; 3,5 is written 3.5, and 1,200 is "
					    "1200" : "");
		row = row_called(s, e->name);
		if (!row)
			return fail_unknown(r, s, e->name);
		status = check_was(r, s, row, e->name, table);
		if (status != TARN_OK)
			return status;
	}
	return TARN_OK;
}

/* The row given that goes in place of all others, or NULL. */
static const struct tarn_field *lone_row(const struct section *s,
					 const struct tarn_value *table)
{
	for (int i = 0; i < s->parts; i++)
		for (size_t k = 0; k < s->part[i].fields->count; k++) {
			const struct tarn_field *row =
				&s->part[i].fields->rows[k];

			if (row->alone && value_of(table, row))
				return row;
		}
	return NULL;
}

static enum tarn_status check_alone(struct reading *r,
				    const struct section *s,
				    const struct tarn_field *alone,
				    const struct tarn_value *table)
{
	for (const struct tarn_value *e = table->first; e; e = e->next) {
		char path[ROWS_PATH];

		full_path(s, e->name, path);
		if (strcmp(e->name, alone->name) != 0)
			return tn_read_fail(r, TARN_MISTAKE_CONFLICT, path,
					    "is given beside %s: keep the one or "
					    "the other", alone->name);
	}
	return TARN_OK;
}

/* ---- values --------------------------------------------------------------------- */

static enum tarn_status read_section(struct reading *r,
				     const struct section *s,
				     const struct tarn_value *table);

/* All sections of the row's name make one section. */
static enum tarn_status read_subsection(struct reading *r,
					const struct section *around,
					const struct tarn_field *row,
					const char *path,
					const struct tarn_value *v)
{
	struct section s = { path, { { NULL, NULL } }, 0, NULL };

	for (int i = 0; i < around->parts; i++)
		for (size_t k = 0; k < around->part[i].fields->count; k++) {
			const struct tarn_field *also =
				&around->part[i].fields->rows[k];

			if (also->kind != TARN_FIELD_SECTION ||
			    strcmp(also->name, row->name) != 0)
				continue;
			add_part(&s, also->of, around->part[i].object +
				 also->offset);
			tn_rows_set_given(also, around->part[i].object);
		}
	return read_section(r, &s, v);
}

static enum tarn_status read_list(struct reading *r,
				  const struct tarn_field *row, void *object,
				  const char *path, const struct tarn_value *v)
{
	int count = 0, i = 0;
	enum tarn_status status = tn_read_count(r, row, path, v, &count);
	const struct tarn_value *e = v->first;
	char room[ROWS_PATH];
	const char *beside = r->bare ? tn_read_carrier(v, path, room) : NULL;

	if (status == TARN_OK)
		status = tn_rows_make_room(row, object, count, r->alloc,
					   r->err);
	if (status != TARN_OK)
		return status;
	for (; e && status == TARN_OK; e = e->next, i++) {
		char name[ROWS_PATH], *entry = tn_rows_entry(row, object, i);
		struct section s = { name, { { NULL, NULL } }, 0, beside };

		snprintf(name, sizeof name, "%s[%d]", path, i + 1);
		memset(entry, 0, tn_rows_entry_size(row));
		tarn_fields_default(row->of, entry);
		add_part(&s, row->of, entry);
		status = read_section(r, &s, e);
	}
	tn_rows_set_count(row, object, i);
	return status;
}

enum tarn_status tn_read_row(struct reading *r, const struct tarn_field *row,
			     void *object, const char *path,
			     const struct tarn_value *v)
{
	switch (row->kind) {
	case TARN_FIELD_LIST:
		return read_list(r, row, object, path, v);
	case TARN_FIELD_MONTHS:
	case TARN_FIELD_NAMES:
	case TARN_FIELD_COUNTS:
	case TARN_FIELD_NUMBERS:
	case TARN_FIELD_PAIRS:
		return tn_read_many(r, row, object, path, v);
	default:
		return tn_read_plain(r, row, object, path, v);
	}
}

/* Whether this is the first row of its name in the section. */
static int is_first(const struct section *s, int part, size_t at)
{
	const char *name = s->part[part].fields->rows[at].name;

	for (int i = 0; i < part; i++)
		if (tarn_fields_find(s->part[i].fields, name))
			return 0;
	return tarn_fields_find(s->part[part].fields, name) ==
	       &s->part[part].fields->rows[at];
}

static enum tarn_status read_given(struct reading *r, const struct section *s,
				   const struct tarn_value *table)
{
	enum tarn_status status = TARN_OK;

	for (int i = 0; i < s->parts; i++)
		for (size_t k = 0; k < s->part[i].fields->count; k++) {
			const struct tarn_field *row =
				&s->part[i].fields->rows[k];
			const struct tarn_value *v = value_of(table, row);
			char path[ROWS_PATH];

			if (!v || !is_first(s, i, k))
				continue;
			full_path(s, v->name, path);
			status = row->kind == TARN_FIELD_SECTION
				? read_subsection(r, s, row, path, v)
				: tn_read_row(r, row, s->part[i].object, path,
					      v);
			if (status != TARN_OK)
				return status;
		}
	return status;
}

static enum tarn_status check_missing(struct reading *r,
				      const struct section *s,
				      const struct tarn_value *table)
{
	for (int i = 0; i < s->parts; i++)
		for (size_t k = 0; k < s->part[i].fields->count; k++) {
			const struct tarn_field *row =
				&s->part[i].fields->rows[k];
			char path[ROWS_PATH];

			if (!row->required || value_of(table, row) ||
			    (row->kind != TARN_FIELD_SECTION &&
			     !tarn_field_empty(row, s->part[i].object)))
				continue;
			full_path(s, row->name, path);
			return tn_rows_fail_missing(row, path, r->err);
		}
	return TARN_OK;
}

static enum tarn_status read_section(struct reading *r,
				     const struct section *s,
				     const struct tarn_value *table)
{
	enum tarn_status status = check_names(r, s, table);
	const struct tarn_field *alone = NULL;
	const char *around = r->beside;
	char room[ROWS_PATH];

	if (r->bare)
		r->beside = tn_read_carrier(table, s->path, room);
	if (r->bare && !r->beside[0] && s->beside)
		r->beside = s->beside;

	if (status == TARN_OK)
		alone = lone_row(s, table);
	if (alone)
		status = check_alone(r, s, alone, table);
	if (status == TARN_OK)
		status = read_given(r, s, table);
	if (status == TARN_OK && !alone)
		status = check_missing(r, s, table);
	r->beside = around;
	return status;
}

enum tarn_status tarn_fields_read(const struct tarn_fields *fields,
				  void *object, const char *section,
				  const struct tarn_value *table,
				  const struct tarn_alloc *alloc,
				  struct tarn_error *err)
{
	return tarn_fields_read_was(fields, object, section, table, NULL, NULL,
				    alloc, err);
}

enum tarn_status tarn_fields_read_was(const struct tarn_fields *fields,
				      void *object, const char *section,
				      const struct tarn_value *table,
				      tarn_was_visit *visit, void *context,
				      const struct tarn_alloc *alloc,
				      struct tarn_error *err)
{
	struct reading r = { .alloc = alloc, .err = err, .visit = visit,
			     .context = context };
	struct section s = { section, { { NULL, NULL } }, 0, NULL };

	add_part(&s, fields, object);
	return read_section(&r, &s, table);
}

enum tarn_status
tarn_fields_read_noting(const struct tarn_fields *fields, void *object,
			const char *section, const struct tarn_value *table,
			tarn_was_visit *visit, void *context,
			const struct tarn_alloc *alloc,
			struct tarn_bare_list *bare, struct tarn_error *err)
{
	char room[ROWS_PATH];
	struct reading r = { .alloc = alloc, .err = err, .visit = visit,
			     .context = context, .beside = "" };
	struct section s = { section, { { NULL, NULL } }, 0, NULL };

	bare->count = 0;
	r.anywhere = tn_read_carrier(table, section, room);
	bare->units = r.anywhere[0] != '\0';
	if (bare->units)	/* else all is in SI */
		r.bare = bare;
	add_part(&s, fields, object);
	return read_section(&r, &s, table);
}

enum tarn_status tarn_fields_set(const struct tarn_fields *fields,
				 void *object, const char *path,
				 const struct tarn_value *value,
				 const struct tarn_alloc *alloc,
				 struct tarn_error *err)
{
	struct reading r = { .alloc = alloc, .err = err };
	struct tarn_place at;
	enum tarn_status status = tn_rows_place_new(fields, object, path, alloc,
						    &at, err);
	double x;

	if (status != TARN_OK)
		return status;
	if (at.index < 0)
		return tn_read_row(&r, at.row, at.object, path, value);
	status = tn_read_number(&r, at.row, path, "", value, &x);
	if (status == TARN_OK)
		tarn_place_put(&at, x);
	return status;
}
