/* SPDX-License-Identifier: MIT */
#include "internal.h"
#include "map_read.h"

/* Maps as a script or a file describes them. */

/* The map's own rows, and what comes in several forms. */

struct map_wish {
	struct tarn_csv_map map;
	int header;
	const struct tarn_value *columns, *units, *date, *skip, *missing;
	const struct tarn_value *delimiter, *decimal;
	const struct tarn_value *year, *month, *day, *day_of_year, *hour;
	const struct tarn_value *station, *element, *value;
};

#define T struct map_wish
static const struct tarn_field date_rows[] = {
	TARN_INCLUDED(T, map.date, tarn_csv_place_fields),
	TARN_INCLUDED(T, map, tarn_csv_date_fields),
	TARN_IN_ANY(T, year, "year", "its place"),
	TARN_IN_ANY(T, month, "month", "its place"),
	TARN_IN_ANY(T, day, "day", "its place"),
	TARN_IN_ANY(T, day_of_year, "doy", "place of the day of the year"),
	TARN_IN_ANY(T, hour, "hour", "its place"),
};
static TARN_FIELDS(date_fields, "date", date_rows);

static const struct tarn_field map_rows[] = {
	TARN_INCLUDED(T, map, tarn_csv_map_fields),
	TARN_INCLUDED(T, map.site, tarn_site_fields),
	TARN_IN_SWITCH(T, header, "header", 1, "the first row is a header"),
	TARN_IN_ANY(T, columns, "columns", "places by the columns' names"),
	TARN_IN_ANY(T, units, "units", "of the file, or by column"),
	TARN_IN_ANY(T, date, "date", "its place, or those of its parts"),
	TARN_IN_ANY(T, skip, "skip", "lines, or up to this line"),
	TARN_IN_ANY(T, missing, "missing", "texts that stand for no value"),
	TARN_IN_ANY(T, delimiter, "delimiter", "between values"),
	TARN_IN_ANY(T, decimal, "decimal", "point or comma"),
	TARN_IN_ANY(T, station, "station_column", "its place"),
	TARN_IN_ANY(T, element, "element", "its place, in the long form"),
	TARN_IN_ANY(T, value, "value", "its place, in the long form"),
};
static TARN_FIELDS(map_fields, "", map_rows);
#undef T

static const struct tarn_field skip_row =
	TARN_IN_WHOLE(struct tarn_csv_map, skip_lines, "skip", "lines", 0,
		      1000000, 0, "before the header");

/* ---- the rest ------------------------------------------------------------ */

/* A header, or a table of the places of its parts. */
static enum tarn_status read_date(struct reading *r, struct map_wish *w)
{
	if (w->date->kind != TARN_VALUE_TABLE)
		return tn_map_read_place(r, &w->map.date, "date", w->date);
	return tarn_fields_read(&date_fields, w, "date", w->date, NULL, r->err);
}

static enum tarn_status read_skip(struct reading *r, struct tarn_csv_map *map,
				  const struct tarn_value *v)
{
	if (v->kind == TARN_VALUE_TEXT)
		return tn_map_read_text(r, map->skip_to, sizeof map->skip_to,
					"skip",
				 v);
	return tn_read_row(r, &skip_row, map, "skip", v);
}

static enum tarn_status read_places(struct reading *r, struct map_wish *w)
{
	struct tarn_csv_map *map = &w->map;
	const struct {
		struct tarn_csv_place *place;
		const char *name;
		const struct tarn_value *value;
	} places[] = {
		{ &map->year, "year", w->year },
		{ &map->month, "month", w->month },
		{ &map->day, "day", w->day },
		{ &map->day_of_year, "doy", w->day_of_year },
		{ &map->hour, "hour", w->hour },
		{ &map->station, "station_column", w->station },
		{ &map->element, "element", w->element },
		{ &map->value, "value", w->value },
	};
	enum tarn_status s = TARN_OK;

	for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
		if (s == TARN_OK)
			s = tn_map_read_place(r, places[i].place,
					      places[i].name,
				       places[i].value);
	return s;
}

static enum tarn_status read_rest(struct reading *r, struct map_wish *w)
{
	enum tarn_status s = TARN_OK;

	if (w->columns)
		s = tn_map_read_columns(r, &w->map, w->columns);
	if (s == TARN_OK && w->units)
		s = tn_map_read_units(r, &w->map, w->units);
	if (s == TARN_OK && w->date)
		s = read_date(r, w);
	if (s == TARN_OK && w->skip)
		s = read_skip(r, &w->map, w->skip);
	if (s == TARN_OK && w->missing)
		s = tn_map_read_missing(r, &w->map, w->missing);
	if (s == TARN_OK)
		s = read_places(r, w);
	if (s == TARN_OK)
		s = tn_map_read_character(r, &w->map.delimiter, "delimiter",
				   w->delimiter);
	if (s == TARN_OK)
		s = tn_map_read_character(r, &w->map.decimal, "decimal",
					  w->decimal);
	return s;
}

static void note_old_name(void *context, const char *path, const char *name)
{
	struct tarn_csv_map *map = context;

	(void)path;
	(void)name;
	map->old_names = 1;
}

enum tarn_status tarn_csv_map_read(struct tarn_csv_map *map,
				   const struct tarn_value *table,
				   struct tarn_error *err)
{
	struct map_wish w = { .map = *map, .header = !map->no_header };
	struct reading r = { .err = err, .visit = note_old_name,
			     .context = &w.map };
	enum tarn_status s = tarn_fields_read(&map_fields, &w, "", table, NULL,
					      err);

	if (s == TARN_OK)
		s = read_rest(&r, &w);
	*map = w.map;
	map->no_header = !w.header;
	return s;
}
