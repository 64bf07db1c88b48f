/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/*
 * Our own layout: a header name is a column's name, '_' and its unit, as in
 * "tmin_c" or "solar_mj_m2"; wind may end in its height, "wind_ms_10m".
 */

static const struct {
	enum tarn_column column;
	const char *name;
} names[] = {
	{ TARN_TMIN, "tmin" }, { TARN_TMAX, "tmax" }, { TARN_TMEAN, "tmean" },
	{ TARN_RH_MIN, "rh_min" }, { TARN_RH_MIN, "rhmin" },
	{ TARN_RH_MAX, "rh_max" }, { TARN_RH_MAX, "rhmax" },
	{ TARN_RH_MEAN, "rh_mean" }, { TARN_RH_MEAN, "rh" },
	{ TARN_DEWPOINT, "dewpoint" }, { TARN_DEWPOINT, "tdew" },
	{ TARN_VAPOUR, "vapour" }, { TARN_VAPOUR, "vapor" },
	{ TARN_WIND, "wind" }, { TARN_SUNSHINE, "sunshine" },
	{ TARN_SOLAR, "solar" }, { TARN_RAIN, "rain" }, { TARN_PAN, "pan" },
	{ TARN_REFERENCE, "reference" }, { TARN_OPEN_WATER, "open_water" },
	{ TARN_PRESSURE, "pressure" },
};

struct plain {
	enum tarn_column column;	/* TARN_COLUMNS: none of ours */
	const struct tarn_weather_unit *unit;	/* NULL: none in the name */
	double wind_height_m;		/* NaN: none in the name */
};

/* Takes "_10m" off the end of a wind's unit. */
static double take_height(struct text *t)
{
	struct text number;
	size_t at = t->length;
	double x;

	while (at > 0 && t->at[at - 1] != '_')
		at--;
	if (at == 0 || t->at[t->length - 1] != 'm')
		return TARN_NAN;
	number.at = t->at + at;
	number.length = t->length - at - 1;
	if (tn_number(number, &x) != NUMBER_OK)
		return TARN_NAN;
	t->length = at - 1;
	return x;
}

static struct plain parse(struct text header)
{
	struct plain p = { TARN_COLUMNS, NULL, TARN_NAN };

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		size_t n = strlen(names[i].name);
		struct text unit = { header.at + n + 1, header.length - n - 1 };

		if (header.length < n ||
		    memcmp(header.at, names[i].name, n) != 0)
			continue;
		if (header.length == n) {
			p.column = names[i].column;
			return p;
		}
		if (header.at[n] != '_')
			continue;
		if (names[i].column == TARN_WIND)
			p.wind_height_m = take_height(&unit);
		p.unit = tn_unit_text(names[i].column, unit);
		if (p.unit) {
			p.column = names[i].column;
			return p;
		}
	}
	return p;
}

int tn_plain_fits(const struct header *h, const struct tarn_csv_map *map)
{
	int dated = tn_date_columns(h).found ||
		    !tn_place_open(&map->date) || !tn_place_open(&map->year);

	for (size_t i = 0; dated && i < h->count; i++) {
		struct plain p = parse(h->name[i]);

		if (p.column < TARN_COLUMNS &&
		    (p.unit || map->column[p.column].unit[0]))
			return 1;
	}
	return 0;
}

static enum tarn_status put(struct tarn_csv_map *map, const struct plain *p,
			    const char *name, size_t index,
			    struct tarn_error *err)
{
	struct tarn_csv_column *to = &map->column[p->column];
	char list[100];

	if (to->place.index < 0 || to->place.name[0])
		return TARN_OK;		/* the map has its own idea */
	if (to->place.index > 0)
		return tarn_fail(err, TARN_EFORMAT, name, "is the second "
				 "column for %s: leave one out",
				 tarn_column_info(p->column)->name);
	to->place.index = (int)index + 1;
	if (!isnan(p->wind_height_m) && isnan(map->site.wind_height_m))
		map->site.wind_height_m = p->wind_height_m;
	if (to->unit[0])
		return TARN_OK;
	if (p->unit) {
		snprintf(to->unit, sizeof to->unit, "%s", p->unit->name);
		to->unit_from = TARN_UNIT_HEADER;
		return TARN_OK;
	}
	tarn_weather_unit_list(p->column, list, sizeof list);
	return tarn_fail(err, TARN_EARG, name, "carries no unit: call it like "
			 "%s_%s, or say units = {%s = \"...\"} with one of %s",
			 name, p->column == TARN_RAIN ? "mm" : "c",
			 tarn_column_info(p->column)->name, list);
}

enum tarn_status tn_plain_apply(struct tarn_csv_map *map,
				const struct header *h,
				struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	for (size_t i = 0; i < h->count && status == TARN_OK; i++) {
		struct plain p = parse(h->name[i]);
		char name[64];

		if (p.column < TARN_COLUMNS)
			status = put(map, &p,
				     tn_text_show(name, sizeof name,
						  h->name[i]), i, err);
	}
	return status;
}
