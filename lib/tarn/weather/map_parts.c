/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"
#include "map_read.h"

/* Texts, places and columns of a map as a script or a file describes them. */

struct flag_wish {
	struct tarn_csv_flag flag;
	const struct tarn_value *reject, *quiet;
};

#define T struct flag_wish
static const struct tarn_field flag_rows[] = {
	TARN_INCLUDED(T, flag.place, tarn_csv_place_fields),
	TARN_INCLUDED(T, flag, tarn_csv_flag_fields),
	TARN_IN_ANY(T, reject, "reject", "flags that make a value missing"),
	TARN_IN_ANY(T, quiet, "quiet", "flags that are not counted"),
};
static TARN_FIELDS(flag_fields, "flag", flag_rows);
#undef T

struct column_wish {
	struct tarn_csv_column column;
	const struct tarn_value *flag;
};

#define T struct column_wish
static const struct tarn_field column_rows[] = {
	TARN_INCLUDED(T, column.place, tarn_csv_place_fields),
	TARN_INCLUDED(T, column, tarn_csv_column_fields),
	TARN_IN_ANY(T, flag, "flag", "beside the value"),
};
static TARN_FIELDS(column_fields, "", column_rows);
#undef T

/* ---- texts -------------------------------------------------------------- */

enum tarn_status tn_map_read_text(struct reading *r, char *to, size_t size,
				  const char *name, const struct tarn_value *v)
{
	if (v->kind != TARN_VALUE_TEXT)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, name, "must be a "
				    "string, got %s", tn_read_kind(v));
	if (v->bytes >= size || strlen(v->text) != v->bytes)
		return tn_read_fail(r, TARN_MISTAKE_LENGTH, name, "must be "
				    "shorter than %zu characters", size);
	memcpy(to, v->text, v->bytes + 1);
	return TARN_OK;
}

enum tarn_status tn_map_read_character(struct reading *r, char *to,
				       const char *name,
				       const struct tarn_value *v)
{
	char text[2] = { *to, '\0' };
	enum tarn_status s = v ? tn_map_read_text(r, text, sizeof text, name, v)
			       : TARN_OK;

	*to = text[0];
	return s;
}

static enum tarn_status fail_texts(struct reading *r, const char *name)
{
	return tn_read_fail(r, TARN_MISTAKE_TYPE, name,
			    "must be a string or a list of strings");
}

/* The words of a text, or of a list of texts, with blanks between. */
static enum tarn_status read_words(struct reading *r, char *to, size_t size,
				   const char *name,
				   const struct tarn_value *v)
{
	enum tarn_status s = TARN_OK;
	size_t used = 0;

	if (!v)
		return TARN_OK;
	if (v->kind == TARN_VALUE_TEXT)
		return tn_map_read_text(r, to, size, name, v);
	if (v->kind != TARN_VALUE_TABLE)
		return fail_texts(r, name);
	for (v = v->first; v && s == TARN_OK; v = v->next) {
		if (used > 0 && used + 1 < size)
			to[used++] = ' ';
		s = tn_map_read_text(r, to + used, size - used, name, v);
		used += strlen(to + used);
	}
	return s;
}

enum tarn_status tn_map_read_missing(struct reading *r,
				     struct tarn_csv_map *map,
				     const struct tarn_value *v)
{
	enum tarn_status s = TARN_OK;
	int i = 0;

	if (v->kind == TARN_VALUE_TEXT)
		return tn_map_read_text(r, map->missing[0],
					sizeof map->missing[0],
				 "missing", v);
	if (v->kind != TARN_VALUE_TABLE)
		return fail_texts(r, "missing");
	for (v = v->first; v && s == TARN_OK; v = v->next, i++) {
		if (i == TARN_CSV_TOKENS_MAX)
			return tn_read_fail(r, TARN_MISTAKE_LENGTH, "missing",
					    "can hold %d strings",
					    TARN_CSV_TOKENS_MAX);
		s = tn_map_read_text(r, map->missing[i], sizeof map->missing[i],
			      "missing", v);
	}
	return s;
}

/* ---- places and columns -------------------------------------------------- */

/* A header, an index, or a table of both and the occurrence; or none. */
enum tarn_status tn_map_read_place(struct reading *r,
				   struct tarn_csv_place *place,
				   const char *name,
				   const struct tarn_value *v)
{
	struct tarn_value index, table = { .kind = TARN_VALUE_TABLE };

	if (!v)
		return TARN_OK;
	if (v->kind == TARN_VALUE_TEXT)
		return tn_map_read_text(r, place->name, sizeof place->name,
					name, v);
	if (v->kind == TARN_VALUE_NUMBER) {
		index = *v;
		index.name = "index";
		index.next = NULL;
		table.first = table.last = &index;
		v = &table;
	}
	return tarn_fields_read(&tarn_csv_place_fields, place, name, v, NULL,
				r->err);
}

static enum tarn_status read_flag(struct reading *r,
				  struct tarn_csv_flag *flag,
				  const struct tarn_value *v)
{
	struct flag_wish w = { .flag = *flag };
	enum tarn_status s = tarn_fields_read(&flag_fields, &w, "flag", v, NULL,
					      r->err);

	if (s == TARN_OK)
		s = read_words(r, w.flag.reject, sizeof w.flag.reject, "reject",
			       w.reject);
	if (s == TARN_OK)
		s = read_words(r, w.flag.quiet, sizeof w.flag.quiet, "quiet",
			       w.quiet);
	*flag = w.flag;
	return s;
}

/* A place, a table of that and more, or false: leave the column out. */
static enum tarn_status read_column(struct reading *r,
				    struct tarn_csv_column *column,
				    const char *name,
				    const struct tarn_value *v)
{
	struct column_wish w = { .column = *column };
	enum tarn_status s;

	if (v->kind == TARN_VALUE_SWITCH && !(v->number > 0)) {
		column->place.index = -1;
		return TARN_OK;
	}
	if (v->kind != TARN_VALUE_TABLE)
		return tn_map_read_place(r, &column->place, name, v);
	s = tarn_fields_read_was(&column_fields, &w, name, v, r->visit,
				 r->context, NULL, r->err);
	if (s == TARN_OK && w.flag)
		s = read_flag(r, &w.column.flag, w.flag);
	*column = w.column;
	return s;
}

static enum tarn_status find_column(struct reading *r,
				    struct tarn_csv_map *map,
				    const char *table,
				    const struct tarn_value *v,
				    struct tarn_csv_column **out)
{
	enum tarn_column c;
	enum tarn_status s;

	*out = &map->total;
	if (!v->name)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, table,
				    "must have names "
				    "of columns as its keys");
	if (strcmp(v->name, "total") == 0)
		return TARN_OK;
	s = tarn_column_named(v->name, &c, r->err);
	if (s == TARN_OK)
		*out = &map->column[c];
	return s;
}

enum tarn_status tn_map_read_columns(struct reading *r,
				     struct tarn_csv_map *map,
				     const struct tarn_value *v)
{
	struct tarn_csv_column *column;
	enum tarn_status s = TARN_OK;

	if (v->kind != TARN_VALUE_TABLE)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, "columns",
				    "must be a "
				    "table, got %s", tn_read_kind(v));
	for (v = v->first; v && s == TARN_OK; v = v->next) {
		if (v->name && strcmp(v->name, "total_days") == 0) {
			s = tn_map_read_place(r, &map->total_days, v->name, v);
			continue;
		}
		s = find_column(r, map, "columns", v, &column);
		if (s == TARN_OK)
			s = read_column(r, column, v->name, v);
	}
	return s;
}

enum tarn_status tn_map_read_units(struct reading *r, struct tarn_csv_map *map,
				   const struct tarn_value *v)
{
	struct tarn_csv_column *column;
	enum tarn_status s = TARN_OK;

	if (v->kind != TARN_VALUE_TABLE)
		return tn_map_read_text(r, map->units, sizeof map->units,
					"units", v);
	for (v = v->first; v && s == TARN_OK; v = v->next) {
		if (v->name && strcmp(v->name, "file") == 0) {
			s = tn_map_read_text(r, map->units, sizeof map->units,
					     "units", v);
			continue;
		}
		s = find_column(r, map, "units", v, &column);
		if (s == TARN_OK)
			s = tn_map_read_text(r, column->unit,
					     sizeof column->unit,
				      v->name, v);
	}
	return s;
}
