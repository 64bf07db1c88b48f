/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "heading.h"
#include "layouts.h"

static void put(struct tarn_csv_place *place, int index)
{
	if (index >= 0 && tn_place_open(place))
		place->index = index + 1;
}

static void put_name(struct tarn_csv_place *place, const struct header *h,
		     const char *name)
{
	if (name)
		put(place, tn_header_find(h, name, 0));
}

static void put_text(char *to, size_t size, const char *text)
{
	if (to[0] == '\0' && text)
		snprintf(to, size, "%s", text);
}

/* Index of a layout's column in the header. */
static int find_column(const struct layout *layout, const struct header *h,
		       const char *name)
{
	if (!layout->with_units)
		return tn_header_find(h, name, 0);
	for (size_t i = 0; i < h->count; i++)
		if (tn_text_is(tn_heading_base(h->name[i]), name))
			return (int)i;
	return -1;
}

static void put_flag(const struct layout *layout, const struct header *h,
		     enum tarn_column c, const char *name, int index,
		     struct tarn_csv_flag *flag)
{
	char full[64];
	int at = -1;

	switch (layout->flag.kind) {
	case FLAG_SUFFIX:
		snprintf(full, sizeof full, "%s%s", name, layout->flag.name);
		at = tn_header_find(h, full, 0);
		break;
	case FLAG_PREFIX:
		snprintf(full, sizeof full, "%s%s", layout->flag.name, name);
		at = tn_header_find(h, full, 0);
		break;
	case FLAG_RAIN:
		if (c == TARN_RAIN)
			at = tn_header_find(h, layout->flag.name, 0);
		break;
	case FLAG_NEXT:
		if ((size_t)index + 1 < h->count &&
		    tn_text_is(h->name[index + 1], layout->flag.name))
			at = index + 1;
		break;
	case FLAG_INDEX:
		at = layout->flag.index - 1;
		break;
	case FLAG_NONE:
		break;
	}
	if (at < 0 || !tn_place_open(&flag->place))
		return;
	put(&flag->place, at);
	flag->part = layout->flag.part;
	put_text(flag->reject, sizeof flag->reject, layout->flag.reject);
	put_text(flag->quiet, sizeof flag->quiet, layout->flag.quiet);
}

static void put_unit(struct tarn_csv_column *to, enum tarn_column c,
		     const struct layout_column *from,
		     const struct unit_set *set, struct text name)
{
	const struct tarn_weather_unit *unit;
	double scale = from->scale, in_header;

	if (to->unit[0] != '\0')
		return;		/* the user's word, scale and all */
	to->unit_from = TARN_UNIT_LAYOUT;
	if (from->unit) {
		put_text(to->unit, sizeof to->unit, from->unit);
	} else if (set) {
		put_text(to->unit, sizeof to->unit, tn_unit_set_unit(set, c));
		scale = set->scale;
	} else if ((unit = tn_heading_unit(name, c, &in_header)) != NULL) {
		to->unit_from = TARN_UNIT_HEADER;
		put_text(to->unit, sizeof to->unit, unit->name);
		scale *= in_header;
	}
	if (isnan(to->scale))
		to->scale = scale;
}

static void put_column(struct tarn_csv_map *map, const struct layout *layout,
		       const struct header *h, const struct unit_set *set,
		       const struct layout_column *from)
{
	struct tarn_csv_column *to = &map->column[from->column];
	struct text name;
	int index;

	if (!tn_place_open(&to->place))
		return;
	if (!tn_place_open(&map->element)) {
		snprintf(to->place.name, sizeof to->place.name, "%s",
			 from->name);
		name = tn_text("");
		index = 0;
	} else {
		index = find_column(layout, h, from->name);
		if (index < 0)
			return;
		name = layout->with_units ? h->name[index] : tn_text("");
		put(&to->place, index);
	}
	put_unit(to, from->column, from, set, name);
	put_flag(layout, h, from->column, from->name, index, &to->flag);
	if (from->wind_height_m > 0 && isnan(map->site.wind_height_m))
		map->site.wind_height_m = from->wind_height_m;
}

static void put_totals(struct tarn_csv_map *map, const struct layout *layout,
		       const struct header *h, const struct unit_set *set)
{
	const struct layout_column rain = { TARN_RAIN, layout->total, NULL, 1,
					    0 };

	if (!layout->total && tn_place_open(&map->total_days))
		put_name(&map->total_days, h, layout->total_days);
	if (!layout->total || !tn_place_open(&map->total.place))
		return;
	if (!tn_place_open(&map->element)) {
		put_text(map->total.place.name, sizeof map->total.place.name,
			 layout->total);
		put_text(map->total_days.name, sizeof map->total_days.name,
			 layout->total_days);
	} else {
		put_name(&map->total.place, h, layout->total);
		put_name(&map->total_days, h, layout->total_days);
		if (tn_place_open(&map->total.place))
			return;
	}
	put_unit(&map->total, TARN_RAIN, &rain, set, tn_text(""));
	put_flag(layout, h, TARN_RAIN, layout->total, 0, &map->total.flag);
}

static void put_missing(struct tarn_csv_map *map, const char *list)
{
	for (size_t i = 0; list && i < TARN_CSV_TOKENS_MAX; i++) {
		struct text word;

		if (map->missing[i][0] != '\0')
			continue;	/* the user's stay in front */
		word = tn_text_word(&list);
		tn_text_show(map->missing[i], sizeof map->missing[i], word);
	}
}

static void put_dates(struct tarn_csv_map *map, const struct layout *layout,
		      const struct header *h)
{
	put_text(map->date_format, sizeof map->date_format, layout->format);
	if (!tn_place_open(&map->date) || !tn_place_open(&map->year))
		return;
	put_name(&map->date, h, layout->date);
	put_name(&map->year, h, layout->year);
	put_name(&map->month, h, layout->month);
	put_name(&map->day, h, layout->day);
	if (tn_place_open(&map->month))
		put_name(&map->day_of_year, h, layout->day_of_year);
}

/* noaa_long: a value a row, with a header or without. */
static void put_long(struct tarn_csv_map *map, const struct header *h)
{
	put(&map->station, 0);
	put(&map->date, 1);
	put(&map->element, 2);
	put(&map->value, 3);
	map->no_header = tn_layout_long_row(h);
	if (map->order == TARN_ORDER_DEFAULT)
		map->order = TARN_ORDER_SORT;
}

static enum tarn_status ask_units(const struct tarn_csv_map *map,
				  const struct unit_set **set,
				  struct tarn_error *err)
{
	*set = tn_unit_set(map->units);
	if (*set)
		return TARN_OK;
	return tarn_settled(err, TARN_SETTLE_UNITS, "standard\tmetric\ttenths",
		tarn_fail(
		err, TARN_EARG, "units", "%s: the file does not carry "
			 "its units; say units = \"standard\" (inch, F, mph), "
			 "\"metric\" (mm, C, m/s) or \"tenths\" (of metric), "
			 "as it was ordered",
			 map->units[0] ? "are none of the choices"
				       : "must be given"));
}

static enum tarn_status apply(struct tarn_csv_map *map,
			      const struct layout *layout,
			      const struct header *h, struct tarn_error *err)
{
	const struct unit_set *set = NULL;
	enum tarn_status status = TARN_OK;

	if (layout->units && layout->units[0])
		set = tn_unit_set(layout->units);
	else if (layout->units)
		status = ask_units(map, &set, err);
	if (status != TARN_OK)
		return status;
	if (layout->long_form)
		put_long(map, h);
	put_dates(map, layout, h);
	put_name(&map->station, h, layout->station);
	put_name(&map->name, h, layout->site_name);
	put_name(&map->latitude, h, layout->latitude);
	put_name(&map->elevation, h, layout->elevation);
	put_missing(map, layout->missing);
	put_text(map->trace, sizeof map->trace, layout->trace);
	map->undated |= layout->undated;
	for (const struct layout_column *c = layout->columns; c->name; c++)
		put_column(map, layout, h, set, c);
	if (set && !layout->units[0])	/* the answer to our question */
		for (int c = 0; c < TARN_COLUMNS; c++)
			map->column[c].unit_from = TARN_UNIT_GIVEN;
	put_totals(map, layout, h, set);
	return TARN_OK;
}

int tn_layout_known(const char *name)
{
	return tn_layout_find(name) || strcmp(name, "plain") == 0 ||
	       strcmp(name, "none") == 0;
}

/* Is there a number among the names? */
static int looks_like_data(const struct header *h)
{
	double x;

	for (size_t i = 0; i < h->count; i++)
		if (tn_number(h->name[i], &x) == NUMBER_OK)
			return 1;
	return 0;
}

/* "'percip' is near 'precip'"; "" if nothing is near. */
static const char *near_miss(const struct header *h, char out[120])
{
	out[0] = '\0';
	for (size_t i = 0; i < h->count && !out[0]; i++) {
		const struct meaning *meaning;
		char near[24], name[40];
		struct heading one = tn_heading(h->read[i]);

		tn_text_show(name, sizeof name, h->name[i]);
		if (one.kind == HEADING_UNKNOWN && one.strange[0] &&
		    tn_word_near(tn_text(one.strange), near, &meaning))
			snprintf(out, 120, "'%s': did you mean '%s'?  ", name,
				 near);
	}
	return out;
}

/* Year and month, and no day; or a column a month. */
static int is_monthly(const struct header *h)
{
	int year = 0, month = 0, names = 0;

	for (size_t i = 0; i < h->count; i++) {
		year |= tn_date_word(h->name[i], DATE_YEAR);
		month |= tn_date_word(h->name[i], DATE_MONTH);
		names += tn_month_named(h->name[i]) > 0;
	}
	return (year && month) || names >= 3;
}

static enum tarn_status fail_unknown(const struct header *h,
				     struct tarn_error *err)
{
	char list[110], near[120];

	if (!tn_date_columns(h).found && is_monthly(h))
		return tarn_fail(err, TARN_EFORMAT, NULL, "the header has "
				 "months and no day: a ledger needs days; ask "
				 "the service for daily values, or take a "
				 "climate (--climate)");

	tn_header_list(h, list, sizeof list);
	if (looks_like_data(h))
		return tarn_settled(err, TARN_SETTLE_HEADER, NULL, tarn_fail(
			err, TARN_EFORMAT, NULL, "the first row looks "
				 "like data, not like a header: write a line of "
				 "names above it, as date,tmin_c,tmax_c,"
				 "rain_mm, or say header = false and give the "
				 "columns' indexes.  It "
				 "has: %s", list));
	return tarn_settled(err, TARN_SETTLE_COLUMNS, NULL, tarn_fail(
		err, TARN_EFORMAT, NULL, "the header is of no layout "
			 "that is known here, and no words for a date and a "
			 "quantity are known in it: map its columns (columns "
			 "= {tmin = \"...\"}, units = {tmin = \"C\"}).  %sIt "
			 "has: %s", near_miss(h, near), list));
}

static int maps_columns(const struct tarn_csv_map *map)
{
	for (int c = 0; c < TARN_COLUMNS; c++)
		if (map->column[c].place.name[0] ||
		    map->column[c].place.index > 0)
			return 1;
	return 0;
}

/* The layout that the header is recognised as, or NULL. */
static const struct layout *recognise(const struct header *h)
{
	const struct layout *layout;
	size_t i = 0;

	while ((layout = tn_layout(i++)) != NULL)
		if (layout->fits(h))
			break;
	return layout;
}

int tn_layout_fits(const struct header *h)
{
	return recognise(h) != NULL;
}

static enum tarn_status fail_misfit(const char *layout, const struct header *h,
				    struct tarn_error *err)
{
	char list[140];

	return tarn_fail(err, TARN_EFORMAT, NULL, "the header is not that of "
			 "layout \"%s\"; it has: %s", layout,
			 tn_header_list(h, list, sizeof list));
}

enum tarn_status tn_layout_apply(struct tarn_csv_map *map,
				 const struct header *h,
				 struct tarn_error *err)
{
	const struct layout *layout = NULL;

	if (!map->layout[0] && maps_columns(map))
		put_text(map->layout, sizeof map->layout, "none");
	if (strcmp(map->layout, "none") == 0) {
		tn_plain_units(map, h);
		return TARN_OK;
	}
	if (strcmp(map->layout, "plain") != 0)
		layout = map->layout[0] ? tn_layout_find(map->layout)
					: recognise(h);
	if (layout && !layout->fits(h))
		return fail_misfit(map->layout, h, err);
	if (layout)
		put_text(map->layout, sizeof map->layout, layout->name);
	else if (!map->layout[0] && tn_plain_fits(h, map))
		put_text(map->layout, sizeof map->layout, "plain");
	if (layout)
		return apply(map, layout, h, err);
	return map->layout[0] ? tn_plain_apply(map, h, err)
			      : fail_unknown(h, err);
}
