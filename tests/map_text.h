/* SPDX-License-Identifier: MIT */
#ifndef TESTS_MAP_TEXT_H
#define TESTS_MAP_TEXT_H

/*
 * A map as lines of text, "unit tmin F", as it stands in the .expect files of
 * tests/good and tests/bad and at the head of the inputs of tests/fuzz.
 */

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/weather.h"

/* Splits off the first word of a line. */
static char *word(char **rest)
{
	char *start = *rest + strspn(*rest, " ");

	*rest = start + strcspn(start, " ");
	if (**rest)
		*(*rest)++ = '\0';
	return start;
}

static int is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static void set(char *to, size_t size, const char *text)
{
	snprintf(to, size, "%s", text);
}
#define SET(member, text) set(member, sizeof(member), text)

static void add_missing(struct tarn_csv_map *map, const char *token)
{
	int i = 0;

	while (i < TARN_CSV_TOKENS_MAX - 1 && map->missing[i][0])
		i++;
	SET(map->missing[i], token);
}

/* Options of one column: "unit tmin F". */
static int column_option(struct tarn_csv_map *map, const char *key, char *rest)
{
	struct tarn_csv_column *c;
	enum tarn_column at;

	if (!is(key, "unit") && !is(key, "column") && !is(key, "index") &&
	    !is(key, "occurrence") && !is(key, "scale") && !is(key, "flag") &&
	    !is(key, "reject"))
		return 0;
	at = tarn_column_find(word(&rest));
	if (at == TARN_COLUMNS)
		return 0;
	c = &map->column[at];
	if (is(key, "unit")) {
		SET(c->unit, word(&rest));
	} else if (is(key, "column")) {
		char *unit = word(&rest);

		SET(c->unit, is(unit, "-") ? "" : unit);
		SET(c->place.name, rest);
	} else if (is(key, "index")) {
		SET(c->unit, word(&rest));
		c->place.index = atoi(rest);
	} else if (is(key, "occurrence")) {
		c->place.occurrence = atoi(rest);
	} else if (is(key, "scale")) {
		c->scale = atof(rest);
	} else if (is(key, "flag")) {
		SET(c->flag.place.name, rest);
	} else {
		SET(c->flag.reject, rest);
	}
	return 1;
}

static int policy_option(struct tarn_csv_map *map, const char *key,
			 const char *rest)
{
	if (is(key, "order"))
		map->order = TARN_ORDER_SORT;
	else if (is(key, "dates"))
		map->dates = is(rest, "us") ? TARN_DATES_US
			     : is(rest, "iso") ? TARN_DATES_ISO
					       : TARN_DATES_EUROPEAN;
	else if (is(key, "stamps"))
		map->stamps = is(rest, "end") ? TARN_STAMPS_END
					      : TARN_STAMPS_BEGIN;
	else if (is(key, "duplicates"))
		map->duplicates = is(rest, "last") ? TARN_DUPLICATES_LAST
						   : TARN_DUPLICATES_FIRST;
	else if (is(key, "outliers"))
		map->outliers = TARN_OUTLIERS_MISSING;
	else if (is(key, "totals"))
		map->totals = is(rest, "last") ? TARN_TOTALS_LAST
					       : TARN_TOTALS_SPREAD;
	else if (is(key, "hours"))
		map->hours = atoi(rest);
	else if (is(key, "hour_shift"))
		map->hour_shift = atoi(rest);
	else if (is(key, "no_header"))
		map->no_header = 1;
	else
		return 0;
	return 1;
}

/* 0: no such option, or no such column. */
static int map_option(struct tarn_csv_map *map, const char *key, char *rest)
{
	if (is(key, "layout"))
		SET(map->layout, rest);
	else if (is(key, "units"))
		SET(map->units, rest);
	else if (is(key, "skip"))
		map->skip_lines = atoi(rest);
	else if (is(key, "skip_to"))
		SET(map->skip_to, rest);
	else if (is(key, "delimiter"))
		map->delimiter = rest[0];
	else if (is(key, "decimal"))
		map->decimal = rest[0];
	else if (is(key, "format"))
		SET(map->date_format, rest);
	else if (is(key, "date"))
		SET(map->date.name, rest);
	else if (is(key, "date_index"))
		map->date.index = atoi(rest);
	else if (is(key, "hour"))
		SET(map->hour.name, rest);
	else if (is(key, "station"))
		SET(map->station_id, rest);
	else if (is(key, "station_column"))
		SET(map->station.name, rest);
	else if (is(key, "missing"))
		add_missing(map, rest);
	else if (is(key, "trace"))
		SET(map->trace, rest);
	else
		return policy_option(map, key, rest) ||
		       column_option(map, key, rest);
	return 1;
}

#endif
