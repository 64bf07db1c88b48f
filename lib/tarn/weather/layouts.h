/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_LAYOUTS_H
#define TARN_WEATHER_LAYOUTS_H

/* The open public layouts as data (layouts.c), and what applies them to a
 * map (apply.c). */

#include "internal.h"

struct layout_column {
	enum tarn_column column;
	const char *name;	/* in the header; the first one there wins */
	const char *unit;	/* NULL: the header has it, or the unit set,
				   or the user is asked */
	double scale;
	double wind_height_m;	/* 0: the layout does not fix it */
};

/* Where the flag of a value stands. */
enum flag_kind {
	FLAG_NONE,
	FLAG_SUFFIX,		/* column of the same name plus 'name' */
	FLAG_PREFIX,		/* of 'name' plus the same name */
	FLAG_RAIN,		/* of rain alone: column 'name' */
	FLAG_NEXT,		/* next column, if it is called 'name' */
	FLAG_INDEX		/* column number 'index' */
};

struct layout {
	const char *name;
	int (*fits)(const struct header *h);
	const struct layout_column *columns;
	int with_units;			/* names are "base (unit)" */
	const char *units;		/* unit set; "": the user must say */
	const char *date, *format;	/* or, where they are there: */
	const char *year, *month, *day, *day_of_year;
	const char *station, *site_name, *latitude, *elevation;
	const char *missing, *trace;
	const char *total, *total_days;	/* without 'total': of the rain */
	struct {
		enum flag_kind kind;
		const char *name;
		int index, part;
		const char *reject, *quiet;
	} flag;
	int undated;
	int long_form;			/* a value a row */
};

/* Units of a file as a whole, for columns that have none of their own. */
struct unit_set {
	const char *name, *temperature, *depth, *speed;
	double scale;
};

/* The ith in the order in which they are to be tried; NULL behind the last.
 * The latter ones stand in layouts_services.c. */
const struct layout *tn_layout(size_t i);
const struct layout *tn_layout_of_service(size_t i);

/* Of that name, or NULL. */
const struct layout *tn_layout_find(const char *name);
const struct unit_set *tn_unit_set(const char *name);
/* NULL: it has none for that column. */
const char *tn_unit_set_unit(const struct unit_set *set, enum tarn_column c);

/* A row of data in the long form, not its header? */
int tn_layout_long_row(const struct header *h);

#endif
