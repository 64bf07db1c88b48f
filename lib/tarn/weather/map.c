/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

struct tarn_csv_map tarn_csv_map_default(void)
{
	struct tarn_csv_map map;

	memset(&map, 0, sizeof map);
	map.delimiter = ',';
	map.decimal = '.';
	for (int c = 0; c < TARN_COLUMNS; c++)
		map.column[c].scale = TARN_NAN;
	map.total.scale = TARN_NAN;
	map.site = tarn_site_default();
	return map;
}

void tarn_csv_map_set(struct tarn_csv_map *map, enum tarn_column c,
		      const char *name, const char *unit)
{
	struct tarn_csv_column *column = &map->column[c];

	snprintf(column->place.name, sizeof column->place.name, "%s", name);
	snprintf(column->unit, sizeof column->unit, "%s", unit);
}
