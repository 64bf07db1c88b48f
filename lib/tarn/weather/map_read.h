/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_MAP_READ_H
#define TARN_WEATHER_MAP_READ_H

/* Parts of a map as described; 'name' begins messages. */

#include "tarn/base/read.h"
#include "tarn/weather.h"

enum tarn_status tn_map_read_text(struct reading *r, char *to, size_t size,
				  const char *name, const struct tarn_value *v);

/* One character; left alone where the value is NULL. */
enum tarn_status tn_map_read_character(struct reading *r, char *to,
				       const char *name,
				       const struct tarn_value *v);

/* The texts that stand for no value: one, or a list. */
enum tarn_status tn_map_read_missing(struct reading *r,
				     struct tarn_csv_map *map,
				     const struct tarn_value *v);

/* A header, an index, or a table of both and the occurrence; left alone where
 * the value is NULL. */
enum tarn_status tn_map_read_place(struct reading *r,
				   struct tarn_csv_place *place,
				   const char *name,
				   const struct tarn_value *v);

/* Columns by name: places with their units, ways to combine and flags; units
 * alone, or one text for all. */
enum tarn_status tn_map_read_columns(struct reading *r,
				     struct tarn_csv_map *map,
				     const struct tarn_value *v);
enum tarn_status tn_map_read_units(struct reading *r, struct tarn_csv_map *map,
				   const struct tarn_value *v);

#endif
