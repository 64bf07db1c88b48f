/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "heading.h"
#include "layouts.h"

/*
 * A header that is of no layout: each name is read by the grammar of
 * heading.c, and of two columns for one quantity the better is taken.
 */

int tn_plain_fits(const struct header *h, const struct tarn_csv_map *map)
{
	if (!tn_date_columns(h).found && tn_place_open(&map->date) &&
	    tn_place_open(&map->year))
		return 0;
	for (size_t i = 0; i < h->count; i++)
		if (tn_heading(h->read[i]).kind == HEADING_WANTED)
			return 1;
	return 0;
}

/* ---- the better of two columns ---------------------------------------- */

/* How far from 2 m; not known: farther than any. */
static double off(double height_m)
{
	return isnan(height_m) ? 1e9 : fabs(height_m - 2);
}

/* Below 0: a is the better one; 0: neither is. */
static int compare(const struct heading *a, const struct heading *b)
{
	double far = off(a->height_m) - off(b->height_m);

	if (a->own != b->own)
		return b->own - a->own;
	if (!a->strange[0] != !b->strange[0])
		return a->strange[0] ? 1 : -1;
	if (!a->unit != !b->unit)
		return a->unit ? -1 : 1;
	if (far < 0 || far > 0)
		return far < 0 ? -1 : 1;
	if (a->vague != b->vague)
		return a->vague - b->vague;
	return !a->statistic != !b->statistic ? (a->statistic ? -1 : 1) : 0;
}

static int is_at(const struct tarn_csv_place *place, struct text name,
		 size_t index)
{
	return place->name[0] ? tn_text_is(name, place->name)
			      : place->index == (int)index + 1;
}

/* Has the map a use for a column of the file already? */
static int is_taken(const struct tarn_csv_map *map, struct text name,
		    size_t index)
{
	const struct tarn_csv_place *others[] = {
		&map->date, &map->year, &map->month, &map->day,
		&map->day_of_year, &map->hour, &map->station
	};

	for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
		if (is_at(others[i], name, index))
			return 1;
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (is_at(&map->column[c].place, name, index))
			return 1;
	return 0;
}

/* The best column for each quantity, and another one that is as good. */
struct choice {
	int at[TARN_COLUMNS], tie[TARN_COLUMNS];	/* -1: none */
	struct heading best[TARN_COLUMNS];
};

/* One look at each name: the grammar is what takes time in a short file. */
static void choose(struct choice *out, const struct tarn_csv_map *map,
		   const struct header *h)
{
	for (int c = 0; c < TARN_COLUMNS; c++)
		out->at[c] = out->tie[c] = -1;
	for (size_t i = 0; i < h->count; i++) {
		struct heading one = tn_heading(h->read[i]);
		int c = (int)one.column, order;

		if (c == TARN_COLUMNS || is_taken(map, h->name[i], i))
			continue;
		order = out->at[c] < 0 ? -1 : compare(&one, &out->best[c]);
		if (order == 0)
			out->tie[c] = (int)i;
		if (order >= 0)
			continue;
		out->best[c] = one;
		out->tie[c] = -1;
		out->at[c] = (int)i;
	}
}

static enum tarn_status fail_tie(const struct header *h, enum tarn_column c,
				 int a, int b, struct tarn_error *err)
{
	char first[64], second[64], both[160];
	const char *name = tarn_column_info(c)->name;

	tn_text_show(first, sizeof first, h->name[a]);
	tn_text_show(second, sizeof second, h->name[b]);
	snprintf(both, sizeof both, "%s=%s\t%s=%s", name, first, name, second);
	return tarn_settled(err, TARN_SETTLE_COLUMNS, both, tarn_fail(
		err, TARN_EFORMAT, second, "is the second column for "
			 "%s, after '%s': say which one, columns = {%s = "
			 "\"%s\"} or {%s = \"%s\"}", name, first, name, first,
			 name, second));
}

/* ---- units ------------------------------------------------------------ */

/* By all words of the name, or by the unit alone where they say another
 * column than the map. */
static const struct tarn_weather_unit *unit_in(struct text name,
					       enum tarn_column c,
					       double *scale)
{
	struct heading one = tn_heading(name);

	*scale = one.scale;
	return one.column == c ? one.unit : tn_heading_unit(name, c, scale);
}

/* The unit in a column's name or in the row under it; 0: there is none. */
static int unit_by_header(struct tarn_csv_column *to, enum tarn_column c,
			  const struct header *h, int at)
{
	double scale, in_name;
	const struct tarn_weather_unit *u = unit_in(h->read[at], c, &scale);

	if (!u)
		return 0;
	snprintf(to->unit, sizeof to->unit, "%s", u->name);
	to->unit_from = unit_in(h->name[at], c, &in_name) ? TARN_UNIT_HEADER
							  : TARN_UNIT_ROW;
	if (isnan(to->scale))
		to->scale = scale;
	return 1;
}

void tn_plain_units(struct tarn_csv_map *map, const struct header *h)
{
	struct role none = { "", "" };

	for (int c = 0; c < TARN_COLUMNS; c++) {
		struct tarn_csv_column *to = &map->column[c];
		int at;

		if (!to->unit[0] && h->count > 0 &&
		    tn_place_find(h, &to->place, none, &at, NULL) == TARN_OK &&
		    at >= 0)
			unit_by_header(to, (enum tarn_column)c, h, at);
	}
}

/* What has no unit yet is settled by the values: unit_values.c. */
static void put_unit(struct tarn_csv_map *map, enum tarn_column c,
		     const struct header *h, int at)
{
	struct tarn_csv_column *to = &map->column[c];
	const struct unit_set *set = tn_unit_set(map->units);
	const char *of_set = set ? tn_unit_set_unit(set, c) : NULL;

	if (to->unit[0] || unit_by_header(to, c, h, at) || !of_set)
		return;
	snprintf(to->unit, sizeof to->unit, "%s", of_set);
	to->unit_from = TARN_UNIT_GIVEN;
	if (isnan(to->scale))
		to->scale = set->scale;
}

static enum tarn_status put_column(struct tarn_csv_map *map, enum tarn_column c,
				   const struct header *h,
				   const struct choice *choice,
				   struct tarn_error *err)
{
	struct tarn_csv_column *to = &map->column[c];
	const struct heading *best = &choice->best[c];
	struct role none = { "", "" };
	int at = choice->at[c];

	if (to->place.index != 0 || to->place.name[0]) {
		/* the map's own idea */
		if (tn_place_find(h, &to->place, none, &at, NULL) == TARN_OK)
			put_unit(map, c, h, at);
		return TARN_OK;
	}
	if (at < 0)
		return TARN_OK;
	if (choice->tie[c] >= 0)
		return fail_tie(h, c, at, choice->tie[c], err);
	to->place.index = at + 1;
	if (!isnan(best->height_m) && best->height_m >= 0.5 &&
	    isnan(map->site.wind_height_m))
		map->site.wind_height_m = best->height_m;
	put_unit(map, c, h, at);
	return TARN_OK;
}

/* ---- the place ------------------------------------------------------------ */

/* A column whose name is one of the names, with one of the units behind it;
 * 'bare': it may have none. */
static void put_place(struct tarn_csv_place *place, const struct header *h,
		      const char *names, const char *units, int bare)
{
	for (size_t i = 0; i < h->count && tn_place_open(place); i++) {
		struct token token[TOKENS_MAX];
		size_t n = tn_tokens(h->name[i], token);

		if (n == 0 || n > 2 ||
		    !tn_text_listed(tn_text(token[0].low), names))
			continue;
		if (n == 1 ? bare : tn_text_listed(tn_text(token[1].low),
						   units))
			place->index = (int)i + 1;
	}
}

/* The place in columns of its own; a height without a unit may be in feet. */
static void put_site(struct tarn_csv_map *map, const struct header *h)
{
	put_place(&map->latitude, h, "latitude lat latitud breite breitengrad "
		  "breedtegraad", "y deg degrees degree n north", 1);
	put_place(&map->elevation, h, "elevation elev altitude alt altitud "
		  "hohe seehohe stationshohe hoogte", "m meters metres meter "
		  "metre", 0);
}

enum tarn_status tn_plain_apply(struct tarn_csv_map *map,
				const struct header *h,
				struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;
	struct choice choice;

	put_site(map, h);
	choose(&choice, map, h);
	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++)
		status = put_column(map, (enum tarn_column)c, h, &choice, err);
	return status;
}
