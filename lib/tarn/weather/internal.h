/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_INTERNAL_H
#define TARN_WEATHER_INTERNAL_H

/*
 * What the files of this wing share.  From the bytes of a file to a table:
 *
 *   decode.c    UTF-16 and byte order marks to UTF-8
 *   one_byte.c  what is no UTF-8 to UTF-8; dly.c: fixed width to rows
 *   lines.c     text to lines, rows and values
 *   look.c      the first rows: text at all?  delimiter, decimal point
 *               (blanks.c: tables without a delimiter)
 *   reader.c    the public face; what the first bytes say
 *   feed.c      bytes to lines, up to the sample and on
 *   stages.c    what a line or a row is: title, header, place, data
 *   split.c      lines to rows (libcsv)
 *   titles.c    lines above the header; header_rows.c: rows of words and
 *               units below it
 *   sample.c    the first text behind the header; settle.c: what the rows
 *               are, by header and sample
 *   apply.c     the header to a map, by what layouts.c and layouts_services.c know
 *               (plain.c: by the grammar of heading.h; block.c: a header block's units)
 *   date_columns.c, date_order.c, date_shape.c: where the date stands, how it
 *               is to be read (dates.c, months.c: by a format)
 *   scheme.c      map and header to slots: where each value stands (places.c)
 *   store.c     a row to its day (stamps.c: which day; values.c: its values;
 *               number.c, marks.c, dates.c, units.c; faults.c: what is wrong)
 *   days.c      days that grow
 *   finish.c    days to a table (notes.c: what to say about it)
 *   file.c   what the file was taken for, as data
 *
 * Names are hidden from users of the shared library; the prefix is for those
 * who link the static one.
 */

#include "reader.h"

/* ---- table.c --------------------------------------------------------- */

struct tarn_weather {
	const struct tarn_alloc *alloc;
	long first;
	size_t days;
	double *column[TARN_COLUMNS];	/* NULL: no such column */
	unsigned char *left_out;	/* NULL: none; else one a day */
	struct tarn_site site;
	char **note;
	size_t notes;
};

/* ---- plausible.c: what the climate of a place may be ------------------ */

struct plausible { double low, high; };

/* Latitudes may be NaN: not known. */
struct plausible tn_plausible_rain(double latitude_deg);	/* mm a year */
struct plausible tn_plausible_wind(double latitude_deg);	/* m/s */
struct plausible tn_plausible_solar(double latitude_deg);	/* MJ m-2 d-1 */
/* summer: mean of a wave over the days that is 1 in the middle of summer and
 * -1 in that of winter; NaN: not known. */
struct plausible tn_plausible_temperature(const struct tarn_site *site,
					  int full_year, double summer);
/* That of some days. */
double tn_plausible_summer(double latitude_deg, long first, size_t days);

/* ---- units.c --------------------------------------------------------- */

/* The representative of a column's quantity: TARN_TMIN for temperatures,
 * TARN_RAIN for depths, ... */
enum tarn_column tn_column_like(enum tarn_column c);

const struct tarn_weather_unit *tn_unit_text(enum tarn_column c,
					     struct text name);

#endif
