/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/base/rows.h"

/* ---- one step of a path ---------------------------------------------------- */

/* Cuts "name", "[3]" or ".name" off the front: the name's length. */
static size_t name_length(const char *path)
{
	return strcspn(path, ".[");
}

/* "[3]rest" -> 2; *rest behind it.  -1: no index here. */
static int take_index(const char *path, const char **rest)
{
	char *end;
	long i;

	*rest = path;
	if (path[0] != '[' || path[1] < '1' || path[1] > '9')
		return -1;
	i = strtol(path + 1, &end, 10);
	if (*end != ']' || i > 1000000)
		return -1;
	*rest = end + 1;
	return (int)i - 1;
}

/* A month may also stand behind a point: "pump.hours.7". */
static int take_month(const char *path, const char **rest)
{
	char *end;
	long i;

	if (path[0] != '.' || path[1] < '1' || path[1] > '9')
		return take_index(path, rest);
	i = strtol(path + 1, &end, 10);
	*rest = end;
	return i <= 12 ? (int)i - 1 : -1;
}

/* What a search may add to: the entry behind the last of a list. */
struct search {
	int grow;
	const struct tarn_alloc *alloc;
	struct tarn_place *out;
};

static int found(struct tarn_place *out, const struct tarn_field *row,
		 void *object, int index)
{
	*out = (struct tarn_place){ row, object, index };
	return 1;
}

/* ---- rows ------------------------------------------------------------------- */

/* Whether the list has entry i, or has got it now, empty. */
static int has_entry(const struct search *s, const struct tarn_field *row,
		     void *object, int i)
{
	int count = tn_rows_count(row, object);

	if (i >= 0 && i < count)
		return 1;
	if (!s->grow || i != count || (size_t)i >= row->most ||
	    tn_rows_make_room(row, object, i + 1, s->alloc, NULL) != TARN_OK)
		return 0;
	tn_rows_set_count(row, object, i + 1);
	memset(tn_rows_entry(row, object, i), 0, tn_rows_entry_size(row));
	if (row->of)
		tarn_fields_default(row->of, tn_rows_entry(row, object, i));
	return 1;
}

static int in_numbers(const struct search *s, const struct tarn_field *row,
		      void *object, const char *rest)
{
	int i = take_index(rest, &rest), column = 0;

	if (!has_entry(s, row, object, i))
		return 0;
	if (row->kind == TARN_FIELD_PAIRS) {
		column = take_index(rest, &rest);
		if (column < 0 || column > 1)
			return 0;
		i = 2 * i + column;
	}
	return *rest == '\0' && found(s->out, row, object, i);
}

/* Number of the word among a row's choices, -1 if it is none. */
static int word_number(const struct tarn_field *row, const char *word)
{
	const char *have;

	for (int i = 0; (have = tarn_field_word(row, (size_t)i)); i++)
		if (strcmp(have, word) == 0)
			return i;
	return -1;
}

static int in_counts(const struct search *s, const struct tarn_field *row,
		     void *object, const char *rest)
{
	const struct tarn_field *kind = &row->of->rows[0];
	int wanted = *rest == '.' ? word_number(kind, rest + 1) : -1;
	int count = tn_rows_count(row, object);

	for (int i = 0; wanted >= 0 && i <= count; i++) {
		char *entry = tn_rows_entry(row, object, i);
		int k;

		if (!has_entry(s, row, object, i))
			return 0;
		if (i == count)
			memcpy(entry + kind->offset, &wanted, sizeof wanted);
		memcpy(&k, entry + kind->offset, sizeof k);
		if (k == wanted)
			return found(s->out, &row->of->rows[1], entry, -1);
	}
	return 0;
}

static int find(const struct search *s, const struct tarn_fields *fields,
		void *object, const char *path);

static int in_list(const struct search *s, const struct tarn_field *row,
		   void *object, const char *rest)
{
	int count = tn_rows_count(row, object), i = take_index(rest, &rest);

	if (*rest != '.' || !has_entry(s, row, object, i))
		return 0;
	if (find(s, row->of, tn_rows_entry(row, object, i), rest + 1))
		return 1;
	tn_rows_set_count(row, object, count);
	return 0;
}

static int in_row(const struct search *s, const struct tarn_field *row,
		  void *object, const char *rest)
{
	int i = -1;

	switch (row->kind) {
	case TARN_FIELD_SECTION:
		if (*rest != '.' || !find(s, row->of, (char *)object +
					  row->offset, rest + 1))
			return 0;
		if (s->grow)
			tn_rows_set_given(row, object);
		return 1;
	case TARN_FIELD_LIST:
		return in_list(s, row, object, rest);
	case TARN_FIELD_COUNTS:
		return in_counts(s, row, object, rest);
	case TARN_FIELD_NUMBERS:
	case TARN_FIELD_PAIRS:
		if (*rest)
			return in_numbers(s, row, object, rest);
		break;
	case TARN_FIELD_MONTHS:
		if (*rest && ((i = take_month(rest, &rest)) < 0 || i > 11))
			return 0;
		break;
	default:
		break;
	}
	return *rest == '\0' && found(s->out, row, object, i);
}

/* Whether the first n letters of a path are the name, which may be NULL. */
static int is_name(const char *name, const char *path, size_t n)
{
	return name && strncmp(name, path, n) == 0 && name[n] == '\0';
}

static int find(const struct search *s, const struct tarn_fields *fields,
		void *object, const char *path)
{
	size_t n = name_length(path);

	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];

		if (tn_rows_is_part(row)) {
			if (find(s, row->of, (char *)object + row->offset,
				 path))
				return 1;
		} else if ((is_name(row->name, path, n) ||
			    is_name(row->was, path, n)) &&
			   in_row(s, row, object, path + n)) {
			return 1;
		}
	}
	return 0;
}

/* ---- names of before ------------------------------------------------------ */

/* The path by this row, which has or had its first name of n letters. */
static int by_row(const struct tarn_field *row, const char *path, size_t n,
		  char *out, size_t size)
{
	size_t index = strcspn(path + n, ".");
	const char *behind = path + n + index;
	char rest[ROWS_PATH] = "";
	int changed = is_name(row->was, path, n);

	if (*behind == '.' && row->of)
		changed |= tarn_fields_path_now(row->of, behind + 1, rest,
						sizeof rest);
	if (changed)
		snprintf(out, size, "%s%.*s%s%s", row->name, (int)index,
			 path + n, rest[0] ? "." : "", rest);
	return changed;
}

/* A name may be that of several sections, which are one to the user. */
int tarn_fields_path_now(const struct tarn_fields *fields, const char *path,
			 char *out, size_t size)
{
	size_t n = name_length(path);

	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];

		if (tn_rows_is_part(row)) {
			if (tarn_fields_path_now(row->of, path, out, size))
				return 1;
		} else if ((is_name(row->name, path, n) ||
			    is_name(row->was, path, n)) &&
			   by_row(row, path, n, out, size)) {
			return 1;
		}
	}
	snprintf(out, size, "%s", path);
	return 0;
}

/* ---- a row without an object ---------------------------------------------------- */

static const struct tarn_field *row_behind(const struct tarn_field *row,
					   const char *rest)
{
	int many = row->kind == TARN_FIELD_LIST ||
		   row->kind == TARN_FIELD_SECTION, i = 0;

	while (*rest == '[' && i >= 0)
		i = take_index(rest, &rest);
	if (*rest == '.' && many)
		return tarn_fields_row(row->of, rest + 1);
	if (row->kind == TARN_FIELD_COUNTS && *rest == '.')
		return word_number(&row->of->rows[0], rest + 1) < 0
			? NULL : &row->of->rows[1];
	if (row->kind == TARN_FIELD_MONTHS && *rest)
		i = take_month(rest, &rest);
	return *rest || i < 0 || many ? NULL : row;
}

const struct tarn_field *tarn_fields_row(const struct tarn_fields *fields,
					 const char *path)
{
	size_t n = name_length(path);

	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i], *at = NULL;

		if (tn_rows_is_part(row))
			at = tarn_fields_row(row->of, path);
		else if (is_name(row->name, path, n) ||
			 is_name(row->was, path, n))
			at = row_behind(row, path + n);
		if (at)
			return at;
	}
	return NULL;
}

/* ---- all paths ---------------------------------------------------------------- */

static void walk(const struct tarn_fields *fields, const char *prefix,
		 tarn_field_visit *visit, void *context)
{
	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];
		char path[ROWS_PATH];

		if (tn_rows_is_part(row)) {
			walk(row->of, prefix, visit, context);
			continue;
		}
		snprintf(path, sizeof path, "%s%s%s%s", prefix,
			 prefix[0] ? "." : "", row->name,
			 row->kind == TARN_FIELD_LIST ? "[1]" : "");
		if (row->kind == TARN_FIELD_SECTION ||
		    row->kind == TARN_FIELD_LIST)
			walk(row->of, path, visit, context);
		else
			visit(context, path, row);
	}
}

void tarn_fields_walk(const struct tarn_fields *fields,
		      tarn_field_visit *visit, void *context)
{
	walk(fields, "", visit, context);
}

struct nearest {
	const char *wanted;
	char best[64];
	int least;
};

static void compare(void *context, const char *path,
		    const struct tarn_field *row)
{
	struct nearest *n = context;
	int far = tarn_name_distance(path, n->wanted);

	(void)row;
	if (far >= n->least)
		return;
	n->least = far;
	snprintf(n->best, sizeof n->best, "%s", path);
}

static enum tarn_status no_field(const struct tarn_fields *fields,
				 const char *path, struct tarn_error *err)
{
	struct nearest n = { path, "", tn_rows_too_far(path) };

	tarn_fields_walk(fields, compare, &n);
	if (strcmp(n.best, path) == 0)
		n.best[0] = '\0';
	tn_rows_note(err, TARN_MISTAKE_UNKNOWN, n.best);
	return tarn_fail(err, TARN_EARG, path, "is no field of a pond%s%s%s",
			 n.best[0] ? "; did you mean '" : "", n.best,
			 n.best[0] ? "'?" : "");
}

enum tarn_status tarn_fields_place(const struct tarn_fields *fields,
				   void *object, const char *path,
				   struct tarn_place *out,
				   struct tarn_error *err)
{
	const struct search s = { 0, NULL, out };

	return find(&s, fields, object, path) ? TARN_OK
					      : no_field(fields, path, err);
}

enum tarn_status tn_rows_place_new(const struct tarn_fields *fields,
				   void *object,
				   const char *path,
				   const struct tarn_alloc *alloc,
				   struct tarn_place *out,
				   struct tarn_error *err)
{
	const struct search s = { 1, alloc, out };

	return find(&s, fields, object, path) ? TARN_OK
					      : no_field(fields, path, err);
}

/* ---- numbers -------------------------------------------------------------------- */

static double *numbers_of(const struct tarn_place *p, int *count)
{
	char *at = (char *)p->object + p->row->offset;

	*count = 1;
	switch (p->row->kind) {
	case TARN_FIELD_MONTHS:
		*count = p->index < 0 ? 12 : 1;
		break;
	case TARN_FIELD_NUMBERS:
	case TARN_FIELD_PAIRS:
		at = tn_rows_array(p->row, p->object);
		break;
	case TARN_FIELD_NUMBER:
		break;
	default:
		*count = 0;
	}
	return (double *)(void *)at + (p->index < 0 ? 0 : p->index);
}

double tarn_place_get(const struct tarn_place *p)
{
	int count;
	const double *x = numbers_of(p, &count);

	return count > 0 ? *x : TARN_NAN;
}

void tarn_place_put(const struct tarn_place *p, double value)
{
	int count;
	double *x = numbers_of(p, &count);

	for (int i = 0; i < count; i++)
		x[i] = value;
}
