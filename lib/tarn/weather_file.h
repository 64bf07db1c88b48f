/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_FILE_H
#define TARN_WEATHER_FILE_H

/*
 * weather_file: what the reader took a weather file for: its shape, each of its
 * columns, the place, what was counted.  Part of the wing weather.  It is
 * there as far as the file was recognised, also of one that is refused, so
 * that a face can show the file beside its question.
 */

#include "tarn/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TARN_WEATHER_FILE_SAMPLES 3

/* A column of the file, as it is there. */
struct tarn_weather_file_field {
	char name[64];		/* its header; "" without one */
	int index;		/* from 1 */
	char use[64];		/* "tmax", "tmin, tmax", "date", "flag of
				   rain"; "": it is not used */
	char first[40], second[40], third[40];	/* its first values, cut */
};
TARN_API extern const struct tarn_fields tarn_weather_file_field_fields;

/* A column of the table, and where it came from. */
struct tarn_weather_file_column {
	const char *name, *unit;	/* of tarn_column_info */
	char from[64];		/* header in the file, element of the long
				   form, or "column 3" */
	int index;		/* from 1; 0: long form */
	char file_unit[24];	/* in the file; "": not known */
	int unit_from;		/* enum tarn_unit_from */
	double scale;		/* number in the file x scale = number in
				   file_unit */
	int combine;		/* enum tarn_csv_combine, of rows that are
				   parts of a day */
	long first_day, last_day;	/* with a value; TARN_NO_DAY: none */
	size_t present, missing, gaps, longest_gap;	/* days; runs of
							   missing ones */
	double min, mean, max;	/* in 'unit' */
	struct tarn_read_column counts;
};
TARN_API extern const struct tarn_fields tarn_weather_file_column_fields;

struct tarn_weather_file {
	int encoding;		/* 0 bytes (UTF-8 or the like), 1 UTF-16,
				   2 Windows-1252 */
	char delimiter[4], decimal[4];	/* one character; "": not known yet */
	long header_line;	/* 0: no header was found */
	char date[64];		/* header of the dates; "year, month, day" */
	char date_format[32];
	int rows_a_day;		/* 0: rows are days */
	struct tarn_read_report counts;
	long first_day, last_day;	/* of the table; TARN_NO_DAY: none */
	struct tarn_site site;	/* what the map or the file says */
	int columns;		/* entries of this: those that the map or
				   layout has, in the order of tarn_column */
	struct tarn_weather_file_column column[TARN_COLUMNS];
	size_t fields;		/* of the file, in its order */
	struct tarn_weather_file_field *field;
	const struct tarn_alloc *alloc;
};
TARN_API extern const struct tarn_fields tarn_weather_file_fields;

/* Frees it; NULL is fine. */
TARN_API void tarn_weather_file_free(struct tarn_weather_file *file);

/*
 * As tarn_weather_read, with what the file was taken for.
 *
 *   file      new, also where the file is refused, as far as it was
 *             recognised; NULL if the map is wrong or for want of memory
 *   out       new table, NULL on failure
 *   alloc, map, err   as there
 *
 * Errors: as tarn_weather_read.
 */
TARN_API enum tarn_status
tarn_weather_examine(struct tarn_weather_file **file, struct tarn_weather **out,
		     const struct tarn_alloc *alloc, const char *path,
		     const struct tarn_csv_map *map, struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
