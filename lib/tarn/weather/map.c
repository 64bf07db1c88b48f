/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

struct tarn_csv_map tarn_csv_map_default(void)
{
	struct tarn_csv_map map;

	memset(&map, 0, sizeof map);
	for (int c = 0; c < TARN_COLUMNS; c++)
		map.column[c].scale = TARN_NAN;
	map.total.scale = TARN_NAN;
	map.site = tarn_site_default();
	return map;
}

void tarn_csv_map_set(struct tarn_csv_map *map, enum tarn_column c,
		      const char *name, const char *unit)
{
	struct tarn_csv_column *column;

	if ((unsigned)c >= TARN_COLUMNS)
		return;
	column = &map->column[c];
	snprintf(column->place.name, sizeof column->place.name, "%s", name);
	snprintf(column->unit, sizeof column->unit, "%s", unit);
}

enum tarn_status tn_map_check(const struct tarn_csv_map *map,
			      struct tarn_error *err)
{
	if (map->layout[0] && !tn_layout_known(map->layout))
		return tarn_fail(err, TARN_EARG, "layout", "\"%s\" is not "
				 "known here: plain, noaa_order, noaa_access, "
				 "noaa_long, nasa_power, open_meteo, eccc, "
				 "cimis, silo or none", map->layout);
	if (map->skip_lines < 0)
		return tarn_fail(err, TARN_EARG, "skip", "must be a number of "
				 "lines, got %d", map->skip_lines);
	if (map->delimiter && strchr("\"\r\n ", map->delimiter))
		return tarn_fail(err, TARN_EARG, "delimiter", "must be one "
				 "character, like \",\", \";\" or a tab");
	if (map->decimal && ((map->decimal != '.' && map->decimal != ',') ||
			     map->decimal == map->delimiter))
		return tarn_fail(err, TARN_EARG, "decimal", "must be \".\" or "
				 "\",\", and not the delimiter");
	return TARN_OK;
}
