/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_HEADER_H
#define TARN_WEATHER_HEADER_H

/* What stands before the rows, and the map that is made of it. */

#include "text.h"

struct tarn_reader;

/* ---- header.c -------------------------------------------------------- */

struct header {
	size_t count;
	struct text *name;	/* one block: names, what is read, bytes */
	struct text *read;	/* the name with the unit of a row below it:
				   "High (F)", for the grammar of heading.h */
	char *joined;		/* bytes of names that rows below it add to */
};

enum tarn_status tn_header_copy(struct header *h,
				const struct tarn_alloc *alloc,
				const struct row *row);
void tn_header_free(struct header *h, const struct tarn_alloc *alloc);

/* ---- header_rows.c: rows of words and of units below the header -------- */

#define JOINED_MAX 160		/* bytes of a name with all its rows */

/* The name of a column with the word of the row below it, under the group
 * that stands to its left: "Temperature", "", "max" is "Temperature max". */
void tn_header_word(char out[JOINED_MAX], struct text name, struct text left,
		    struct text word);

/* No number and no date among its values? */
int tn_row_of_words(const struct row *row);

/* Takes such rows off the front of the sample and adds them to the names. */
enum tarn_status tn_header_rows(struct tarn_reader *r);

/* ---- titles.c: lines above the header ---------------------------------- */

/* How many lines of the text stand above the header; 0: none, or no header was
 * found.  *commented: it stands behind '#'. */
long tn_titles(const struct tarn_csv_map *map, struct text t, int *commented);

/* Index of the nth column (from 0) of that name at or after 'from', or -1. */
int tn_header_find(const struct header *h, const char *name, size_t from);

/* Fills a list of the names, cut to fit with "...". */
const char *tn_header_list(const struct header *h, char *out, size_t size);

/* ---- map.c ----------------------------------------------------------- */

/* What can be checked before the header is known. */
enum tarn_status tn_map_check(const struct tarn_csv_map *map,
			      struct tarn_error *err);

/* ---- apply.c, plain.c, block.c --------------------------------------- */

/*
 * Fills what the map leaves open, from the layout that it names or that the
 * header is recognised as.  A first row of data (noaa_long) is recognised
 * too: map->no_header tells.
 */
enum tarn_status tn_layout_apply(struct tarn_csv_map *map,
				 const struct header *h,
				 struct tarn_error *err);
int tn_layout_known(const char *name);

/* One line of NASA POWER's header block: units, place. */
void tn_layout_block(struct tarn_csv_map *map, struct tarn_site *site,
		     struct text line);

/* A line that begins with '#', above the header: station, latitude, elevation,
 * as the plain layout has them. */
void tn_layout_comment(struct tarn_site *site, struct text line);

/* ---- title_place.c ----------------------------------------------------- */

/* A line above the header: "Latitude: 51.25 N", "Elevation (m),34".  An
 * elevation without a unit is not taken. */
void tn_title_place(struct tarn_site *site, struct text line);

/* By the grammar of heading.h: has the header a date and a quantity? */
int tn_plain_fits(const struct header *h, const struct tarn_csv_map *map);

/* Units of mapped columns that the map leaves to the header. */
void tn_plain_units(struct tarn_csv_map *map, const struct header *h);

/* Is it the header of a layout, or a first row of the long form? */
int tn_layout_fits(const struct header *h);

enum tarn_status tn_plain_apply(struct tarn_csv_map *map,
				const struct header *h,
				struct tarn_error *err);

/* Is the place left to the layout? */
int tn_place_open(const struct tarn_csv_place *place);

/* ---- places.c -------------------------------------------------------- */

/* What a place is for, as scripts call it: "columns." "tmin". */
struct role {
	const char *group, *name;
};

/* As tarn_fail, with the role as its field. */
enum tarn_status tn_role_fail(struct tarn_error *err, enum tarn_status code,
			      struct role role, const char *format, ...)
	TARN_PRINTF(4, 5);

/* Index of a place in the rows, -1 if the map has no such place. */
enum tarn_status tn_place_find(const struct header *h,
			       const struct tarn_csv_place *place,
			       struct role role, int *out,
			       struct tarn_error *err);

#endif
