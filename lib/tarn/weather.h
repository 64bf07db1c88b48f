/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_H
#define TARN_WEATHER_H

/*
 * weather: a table of consecutive days, and the reader that makes one from a
 * CSV file.  A column is an array of doubles, one a day; a missing value is
 * NaN.  Nothing is guessed: a file that does not say its units is refused
 * with a question, a value that cannot be is an error with its line, and what
 * was counted or assumed on the way is kept as notes in the table.
 */

#include "tarn/value.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- columns --------------------------------------------------------- */

enum tarn_column {
	TARN_TMIN,		/* lowest air temperature      [deg C] */
	TARN_TMAX,		/* highest air temperature     [deg C] */
	TARN_TMEAN,		/* mean air temperature        [deg C] */
	TARN_RH_MIN,		/* lowest relative humidity    [%] */
	TARN_RH_MAX,		/* highest relative humidity   [%] */
	TARN_RH_MEAN,		/* mean relative humidity      [%] */
	TARN_DEWPOINT,		/* mean dew point              [deg C] */
	TARN_VAPOUR,		/* mean actual vapour pressure [kPa] */
	TARN_WIND,		/* mean wind speed             [m/s], at the
				   site's wind height */
	TARN_SUNSHINE,		/* bright sunshine             [h] */
	TARN_SOLAR,		/* global radiation            [MJ m-2 d-1] */
	TARN_RAIN,		/* precipitation               [mm] */
	TARN_PAN,		/* Class A pan evaporation     [mm] */
	TARN_REFERENCE,		/* given grass reference ET    [mm] */
	TARN_OPEN_WATER,	/* given open-water evaporation [mm] */
	TARN_PRESSURE,		/* mean air pressure at the station [kPa] */
	TARN_COLUMNS		/* how many there are */
};

/*
 * Name of a column in scripts and files ("tmin", "rain", ...), its unit
 * ("deg C", "mm"), and the sanity bounds of one value, both ends included.
 * The bounds are ours: wide enough for any place with a garden pond, narrow
 * enough to catch a wrong unit.  NULL for a column that there is not.
 */
struct tarn_column_info {
	const char *name, *unit, *meaning;
	double lo, hi;
};
TARN_API extern const struct tarn_fields tarn_column_info_fields;
TARN_API const struct tarn_column_info *tarn_column_info(enum tarn_column c);

/* Column of that name, TARN_COLUMNS if there is none. */
TARN_API enum tarn_column tarn_column_find(const char *name);

/* The same, for a name that a user gave.  Errors: TARN_EARG with the nearest
 * name, or with all. */
TARN_API enum tarn_status tarn_column_named(const char *name,
					    enum tarn_column *out,
					    struct tarn_error *err);

/* ---- the table ------------------------------------------------------- */

/* Where the weather was taken.  NaN = not known. */
struct tarn_site {
	char name[64];
	double latitude_deg;	/* north positive  -90 .. 90 */
	double elevation_m;	/*                 -430 .. 6000 */
	double wind_height_m;	/* of the wind gauge  0.5 .. 100 */
};
TARN_API extern const struct tarn_fields tarn_site_fields;

/* A site of which nothing is known. */
TARN_API struct tarn_site tarn_site_default(void);

struct tarn_weather;		/* opaque: owns its columns */

/*
 * New table of 'days' consecutive days from 'first_day' (see tarn_day), with
 * no columns.  Errors: TARN_EARG (range of days), TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_new(struct tarn_weather **out, const struct tarn_alloc *alloc,
		 long first_day, size_t days, struct tarn_error *err);
TARN_API void tarn_weather_free(struct tarn_weather *w);	/* NULL is fine */

TARN_API size_t tarn_weather_days(const struct tarn_weather *w);
TARN_API long tarn_weather_first(const struct tarn_weather *w);

/* Borrowed, filled with NaN when new; NULL if the table has no such column. */
TARN_API const double *tarn_weather_column(const struct tarn_weather *w,
					   enum tarn_column c);
/* The same to write into; adds the column if need be.  NULL: out of memory, or
 * there is no such column. */
TARN_API double *tarn_weather_add(struct tarn_weather *w, enum tarn_column c);

/* Borrowed; may be changed. */
TARN_API struct tarn_site *tarn_weather_site(struct tarn_weather *w);
TARN_API const struct tarn_site *
tarn_weather_site_of(const struct tarn_weather *w);

/*
 * New table of the days first .. last of another, with its columns, site and
 * notes; its allocator too.  Errors: TARN_EARG if a day is not in the table
 * or last is before first, TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_slice(struct tarn_weather **out, const struct tarn_weather *w,
		   long first, long last, struct tarn_error *err);

/*
 * New table of two of one station: all columns [their units] of both, on all
 * days [-] from the first to the last of either; what neither has is missing.
 * The site is that of a, and where a does not know it that of b; the notes are
 * those of both.  Days that are left out of a or b are not left out of it.
 *
 * Errors: TARN_EARG with the column, where both have a value of a day and not
 * the same one; with "latitude", where these are over half a degree apart;
 * what tarn_weather_check refuses; TARN_ENOMEM.
 * Source: none, no formula.
 */
TARN_API enum tarn_status
tarn_weather_join(struct tarn_weather **out, const struct tarn_weather *a,
		  const struct tarn_weather *b, struct tarn_error *err);

/*
 * What was assumed, counted, left out or filled, one sentence each, to be
 * shown to the user.  Borrowed; NULL beyond the last.
 */
TARN_API size_t tarn_weather_notes(const struct tarn_weather *w);
TARN_API const char *tarn_weather_note(const struct tarn_weather *w, size_t i);

/* Adds a note, as printf, cut at 800 characters.  Errors: TARN_ENOMEM. */
TARN_API enum tarn_status tarn_weather_add_note(struct tarn_weather *w,
						const char *format, ...)
	TARN_PRINTF(2, 3);

/* ---- days that are left out ------------------------------------------- */

/*
 * Leaves the days first .. last of a table out: they stay in it, without a
 * value in any column, and no part of the library runs or counts them.  They
 * are no gap.  A slice keeps them.
 *
 * Errors: TARN_EARG, field "first" or "last": no day of the table, or last is
 * before first; TARN_ENOMEM.
 */
TARN_API enum tarn_status tarn_weather_leave_out(struct tarn_weather *w,
						 long first, long last,
						 struct tarn_error *err);

/* Borrowed: 1 for each day that is left out, else 0; NULL where none is.  No
 * unit. */
TARN_API const unsigned char *
tarn_weather_left_out(const struct tarn_weather *w);

/* Days of the table that are not left out [days]. */
TARN_API size_t tarn_weather_counted(const struct tarn_weather *w);

/* ---- looking at a table ---------------------------------------------- */

/* NaN in min, mean and max where no value is present. */
struct tarn_column_summary {
	size_t present, missing;	/* days, without those left out; missing
					   is all of them where there is no such
					   column */
	double min, mean, max;
};
TARN_API extern const struct tarn_fields tarn_column_summary_fields;
TARN_API struct tarn_column_summary
tarn_weather_summary(const struct tarn_weather *w, enum tarn_column c);

/*
 * The next run of missing days of a column, at or after index 'from' (0 is
 * the first day).  Fills the index and the length and returns 1; returns 0 if
 * there is none.  A column that the table lacks is one gap of all days.
 */
TARN_API int tarn_weather_gap(const struct tarn_weather *w, enum tarn_column c,
			      size_t from, size_t *at, size_t *days);

/*
 * Checks every value against its column's bounds, tmin <= tmax, and
 * rh_min <= rh_max.  Missing values pass: see tarn_weather_fill.
 *
 * Errors: TARN_EARG; field = the column, text = the day, the value and what
 * it should be.
 */
TARN_API enum tarn_status tarn_weather_check(const struct tarn_weather *w,
					     struct tarn_error *err);

/* ---- whether it can be so --------------------------------------------- */

enum tarn_doubt {
	TARN_DOUBT_LOW,		/* the mean lies under what is plausible */
	TARN_DOUBT_HIGH,	/* above it */
	TARN_DOUBT_LIGHT,	/* days with rain have too little of it */
	TARN_DOUBT_SENTINEL	/* a code for "no value" stands as a value */
};

/* Units that would explain it: the file's, and those that it was taken in. */
enum tarn_swap {
	TARN_SWAP_INCH_AS_MM, TARN_SWAP_MM_AS_INCH, TARN_SWAP_TENTHS_AS_MM,
	TARN_SWAP_F_AS_C, TARN_SWAP_C_AS_F, TARN_SWAP_KMH_AS_MS,
	TARN_SWAP_KWH_AS_MJ
};

struct tarn_weather_doubt {
	int kind;		/* enum tarn_doubt */
	char column[16];
	double value;		/* of rain [mm a year], LIGHT: [mm] a day with
				   rain; else the mean, or the code, in the
				   column's unit */
	double low, high;	/* plausible ends; of a code: of all other
				   values */
	int swap;		/* enum tarn_swap, -1: none that we know of */
	size_t days;		/* with the code, or in the mean */
	long first_day;
};
TARN_API extern const struct tarn_fields tarn_weather_doubt_fields;

/*
 * Looks at yearly rain, mean wind, temperature, sun and sunshine, and for codes
 * as 99.99 or 999.9 (in any unit of the column) that stand far from all other
 * values, by half of their range.  Rain, sun and sunshine are judged from 300
 * days on, the others from 20 on.
 *
 *   out      filled, at most 'room'
 *   returns  how many
 *
 * Limits: plausible.c, by latitude and elevation where they are known: wide
 * enough for any place with a garden pond, so that silence is no proof.
 * Temperature and sun: round the zonal means of North, Cahalan & Coakley
 * (1981, Reviews of Geophysics 19, from memory); all else is our own.
 */
#define TARN_DOUBTS_MAX 16
TARN_API size_t tarn_weather_doubts(const struct tarn_weather *w,
				    struct tarn_weather_doubt *out,
				    size_t room);

/* ---- filling gaps ---------------------------------------------------- */

enum tarn_rain_rule {
	TARN_RAIN_ERROR,	/* a missing day of rain is an error */
	TARN_RAIN_ZERO		/* it is taken as a dry day */
};

/*
 * How gaps may be filled.  Made by tarn_fill_default(): not at all, in any
 * column of the table.  Rain is never interpolated.
 */
struct tarn_fill {
	int interpolate_days;	/* gaps up to this many days are bridged by a
				   straight line, in all columns but rain;
				   0 .. 31 */
	enum tarn_rain_rule rain;
	unsigned columns;	/* to look at: bit 1u << column.  Columns that
				   the table lacks are passed over */
	int leave;		/* 1: a gap that this does not fill stays, and
				   is no error */
};
TARN_API extern const struct tarn_fields tarn_fill_fields;
TARN_API struct tarn_fill tarn_fill_default(void);

/*
 * Fills the gaps of a table as the caller says; afterwards no
 * column looked at has a missing value, unless 'leave' is set.  A filled tmin never stands above the
 * tmax of its day (nor rh_min above rh_max): where the line would cross, it
 * takes the other's value.  A gap at either end of the table has no two ends
 * to draw a line between: slice the table instead.
 *
 *   filled   counts by column, TARN_COLUMNS of them; may be NULL.  The same
 *            counts are added to the table's notes
 *
 * Errors: TARN_EARG names the first gap that this does not fill (field =
 * column; text = date and length) and leaves the table as it was;
 * TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_fill(struct tarn_weather *w, const struct tarn_fill *how,
		  size_t filled[], struct tarn_error *err);

/* ---- units in weather files ------------------------------------------ */

/*
 * A unit as weather files write it: SI = (x + add) * multiply / divide.
 * Names are compared without regard to case, blanks, '^' and to bytes that
 * are not ASCII (the degree sign, a superscript 2, and what mangling makes of
 * them); "/day" after a depth or an energy is ignored.
 *
 * Source of factors: NIST SP 811 (2008) appendix B.  The langley is the
 * thermochemical calorie per cm2, 41 840 J/m2.
 */
struct tarn_weather_unit {
	const char *name;	/* "C", "inch", "MJ/m2" */
	const char *also;	/* other spellings, blank-separated */
	enum tarn_column like;	/* serves this column and its kin */
	double add, multiply, divide;
	int power;		/* 1: a mean rate, W/m2: hours are averaged */
};

/* All units; *count is filled.  Borrowed from the library, never NULL. */
TARN_API const struct tarn_weather_unit *tarn_weather_units(size_t *count);

/* Unit of that name for a column, or NULL. */
TARN_API const struct tarn_weather_unit *
tarn_weather_unit(enum tarn_column c, const char *name);

/* Fills a list like "C, F, K" of the units that a column takes. */
TARN_API void tarn_weather_unit_list(enum tarn_column c, char *text,
				     size_t size);

/* ---- reading CSV files: the map -------------------------------------- */

/*
 * A map says where each column stands in a file and what it means there.
 * All its members are optional: tarn_csv_map_default() recognises the layouts
 * below by their header, and a map can answer their questions or change any
 * part of them.
 *
 *   plain        any other header, by the words of its names, "date,tmax (F)";
 *                docs/methods/weather.md has the words
 *   noaa_order   daily summaries as ordered from NOAA (any units: asks)
 *   noaa_access  the same network, one file a station (tenths)
 *   noaa_long    the same, one value a row, no header (tenths)
 *   nasa_power   NASA POWER daily, with or without its header block
 *   open_meteo   Open-Meteo daily or hourly, units in the column names
 *   eccc         Environment Canada daily
 *   cimis        California ET network daily
 *   silo         Australian SILO daily
 *   none         no ready layout: the map says it all
 */

/* One column of a file; all zero = no such column. */
struct tarn_csv_place {
	char name[64];	/* the header, exactly, unit text included */
	int occurrence;	/* which of several of that name, from 1;
			   0: there must be just one */
	int index;	/* from 1; used where 'name' is "".  -1: leave this
			   column out though the layout has it */
};
TARN_API extern const struct tarn_fields tarn_csv_place_fields;

/* Quality flags beside a value. */
struct tarn_csv_flag {
	struct tarn_csv_place place;
	int part;	/* of a flag with commas inside, from 1; 0: whole */
	char reject[32];	/* flags that make the value missing, blank-
				   separated; "*": any flag does */
	char quiet[32];	/* flags that are not worth a count */
};
TARN_API extern const struct tarn_fields tarn_csv_flag_fields;

/* How the rows of a day become one value. */
enum tarn_csv_combine {
	TARN_COMBINE_DEFAULT,	/* by column: tmin, rh_min take the lowest,
				   tmax, rh_max the highest, depths, sunshine
				   and energies the sum, the rest and powers
				   (W/m2) the mean */
	TARN_COMBINE_MIN, TARN_COMBINE_MAX, TARN_COMBINE_MEAN, TARN_COMBINE_SUM
};

/* Who said the unit of a column. */
enum tarn_unit_from {
	TARN_UNIT_GIVEN,	/* the map */
	TARN_UNIT_HEADER,	/* the column's name, or a block above */
	TARN_UNIT_ROW,		/* a row of units under the header */
	TARN_UNIT_LAYOUT,	/* the layout is known to have it */
	TARN_UNIT_VALUES	/* it stands behind its numbers */
};

struct tarn_csv_column {
	struct tarn_csv_place place;
	char unit[24];	/* by name, see tarn_weather_units; must be given
			   unless the layout or the header gives it */
	int unit_from;	/* enum tarn_unit_from; the reader's, leave it 0 */
	double scale;	/* number in the file x scale = number in 'unit';
			   NaN: 1, or as the layout has it */
	enum tarn_csv_combine combine;
	struct tarn_csv_flag flag;
};
TARN_API extern const struct tarn_fields tarn_csv_column_fields;

enum tarn_csv_order {
	TARN_ORDER_DEFAULT,	/* error (noaa_long: sort) */
	TARN_ORDER_ERROR,	/* rows must be in order of date */
	TARN_ORDER_SORT		/* they are put in order */
};

enum tarn_csv_duplicates {
	TARN_DUPLICATES_ERROR,
	TARN_DUPLICATES_FIRST,	/* of two rows of a day the first counts */
	TARN_DUPLICATES_LAST
};

enum tarn_csv_outliers {
	TARN_OUTLIERS_ERROR,	/* out of bounds, tmin over tmax: an error */
	TARN_OUTLIERS_MISSING	/* missing, and counted */
};

/* In which order the parts of a date stand. */
enum tarn_csv_dates {
	TARN_DATES_DEFAULT,	/* told by the dates themselves; an error asks
				   where they do not settle it */
	TARN_DATES_ISO,		/* year, month, day */
	TARN_DATES_US,		/* month, day, year */
	TARN_DATES_EUROPEAN	/* day, month, year */
};

/* What the time of a row means that is a part of a day. */
enum tarn_csv_stamps {
	TARN_STAMPS_DEFAULT,	/* the begin; the end where the first row is one
				   step after midnight */
	TARN_STAMPS_BEGIN, TARN_STAMPS_END
};

/* What becomes of rain that was measured as a total over several days. */
enum tarn_csv_totals {
	TARN_TOTALS_MISSING,	/* the days stay missing; counted and said */
	TARN_TOTALS_LAST,	/* all on the day it was read; the days before
				   are dry */
	TARN_TOTALS_SPREAD	/* in equal parts */
};

#define TARN_CSV_LINE_MAX 65536	/* bytes in a line, and in a row */
#define TARN_CSV_FIELDS_MAX 512	/* columns */
#define TARN_CSV_TOKENS_MAX 8	/* tokens that stand for missing */

struct tarn_csv_map {
	char layout[16];	/* one of the names above; "": recognise */
	char units[16];		/* noaa_order: "standard" (inch, F, mph),
				   "metric" (mm, C, m/s) or "tenths" (of
				   metric) */

	/* shape */
	int skip_lines;		/* lines before the header */
	char skip_to[64];	/* or: up to and with this line */
	int no_header;		/* 1: the first row is data already */
	char delimiter;		/* 0: recognised from the first rows, as comma,
				   semicolon or tab */
	char decimal;		/* '.' or ','; 0: recognised, '.' where the
				   delimiter is a comma */

	/*
	 * Dates: one column and its format, or year, month and day, or year
	 * and day of the year; found by their names where none is given.  A
	 * format that is not given is found too: docs/methods/weather.md.  In
	 * a format %Y is a year of four digits, %y of two (69 to 99 are 1969
	 * to 1999, 00 to 68 are 2000 to 2068, as POSIX.1-2017 strptime has
	 * it), %m and %d month and day (one or two digits; two where digits
	 * follow at once), %b a month's name in English, German, French,
	 * Spanish or Dutch, %a a weekday, %j a day of the year, %H an hour
	 * 0..24, %M minutes, %S seconds, %p AM or PM, %z Z, UTC or +01:00,
	 * %* anything up to the end; all else stands for itself.
	 */
	struct tarn_csv_place date, year, month, day, day_of_year, hour;
	char date_format[32];	/* "%Y-%m-%d" */
	enum tarn_csv_dates dates;	/* order, where no format is given */
	int undated;		/* 1: rows without a date are passed over */

	/* rows */
	struct tarn_csv_place station;	/* a file may hold only one station */
	char station_id[64];		/* or this one is picked */
	struct tarn_csv_place element;	/* long form: the columns' names are
					   elements, one a row, and */
	struct tarn_csv_place value;	/* this is where the value stands */

	struct tarn_csv_column column[TARN_COLUMNS];
	struct tarn_csv_column total;	/* rain of several days, in one */
	struct tarn_csv_place total_days;	/* how many days; without a
					   total: of the rain itself */
	char missing[TARN_CSV_TOKENS_MAX][16];	/* "-999", "M"; numbers are
				   compared as numbers.  A blank is always
				   missing, and so are NA, null, - and the
				   like, and codes as -9999 that cannot be a
				   value and stand there more than once */
	char trace[8];		/* rain too little to measure: counts 0; a
				   number, as -1, also of sunshine; "": "T",
				   "trace" and the like */

	/* the station, from the file's first row */
	struct tarn_csv_place name, latitude, elevation;	/* deg, m */
	struct tarn_site site;	/* what is given here wins */

	/* policies */
	enum tarn_csv_order order;
	enum tarn_csv_duplicates duplicates;
	enum tarn_csv_outliers outliers;
	enum tarn_csv_totals totals;

	/*
	 * Rows that are parts of a day.  0: told by the stamps: rows that are
	 * less than a day apart, at a step that divides it, become days, and
	 * one that lacks more than 1/24 of its values in a column is missing
	 * there.  24: rows are hours; a day with fewer than 24 values of a
	 * column is missing there.  Rows must then be in order of time.
	 */
	int hours;
	enum tarn_csv_stamps stamps;	/* what the time of such a row is */
	int hour_shift;		/* added to the hour: -1 where 00:00 ends the
				   day before, -8 for UTC to local, ... */

	int old_names;		/* 1: a column has 'rule', the name of the
				   version before for 'combine'; noted */
};
TARN_API extern const struct tarn_fields tarn_csv_map_fields,
	tarn_csv_date_fields;

/* Recognise the layout; all policies 'error'; comma, point. */
TARN_API struct tarn_csv_map tarn_csv_map_default(void);

/*
 * Reads a map as a script or a JSON file describes it (tarn/value.h); the tables
 * of docs/methods/weather.md.
 *
 *   map      made by tarn_csv_map_default; what the table does not name stays
 *
 * Errors: TARN_EARG with the field: an unknown name, a value of a wrong kind or
 * out of range.  The map may then be half filled.
 */
TARN_API enum tarn_status tarn_csv_map_read(struct tarn_csv_map *map,
					    const struct tarn_value *table,
					    struct tarn_error *err);

/* Points a column of the map at a header name, in a unit ("": as the layout
 * or the header has it).  Too long a name is cut, and so will not be found.
 * Leaves the map alone for a column that there is not. */
TARN_API void tarn_csv_map_set(struct tarn_csv_map *map, enum tarn_column c,
			       const char *name, const char *unit);

/* ---- reading CSV files: the reader ----------------------------------- */

struct tarn_read_column {
	size_t trace;		/* trace amounts, counted as 0 */
	size_t rejected;	/* missing by their flag */
	size_t flagged;		/* kept, though they bear a flag */
	size_t outliers;	/* out of bounds, made missing on request */
	size_t incomplete;	/* days missing for want of hours */
	size_t words;		/* missing by a word, as NA or --- */
	size_t codes;		/* missing by a code out of bounds, as -9999 */
	size_t marked;		/* kept, with a flag behind the number */
	size_t grouped;		/* numbers with their thousands in groups */
};

struct tarn_read_report {
	char layout[16];	/* that was found or used */
	long lines;		/* of the file */
	size_t rows;		/* of data */
	size_t days;		/* of the table */
	size_t absent;		/* days in it that have no row */
	size_t trimmed;		/* days without any value, left out at either
				   end */
	size_t undated;		/* rows passed over for want of a date */
	size_t elsewhere;	/* rows of other stations */
	size_t unsorted;	/* rows that were put in order */
	size_t duplicates;	/* rows or values that lost to another */
	size_t totals;		/* rain totals of several days ... */
	double totals_mm;	/* ... and their sum */
	size_t totals_days;	/* days that they were assigned to */
	int unfinished;		/* 1: no newline after the last line */
	struct tarn_read_column column[TARN_COLUMNS];
};

/*
 * Reads a file, or text in memory.
 *
 *   out      new table, NULL on failure.  Columns without any value are
 *            left out, and said so in its notes
 *   alloc    NULL: the C library's.  All memory is taken through it, about
 *            300 kB while reading and otherwise as much as the result needs
 *   map      NULL: tarn_csv_map_default()
 *   report   filled; may be NULL
 *
 * Numbers are plain decimals, with an exponent or without, and are read to
 * the nearest double in any locale.  Thousands may be in groups; the column's
 * own unit, or a flag of one or two letters, may stand behind.  Bytes that are not UTF-8 do no harm;
 * UTF-16 with its byte order mark is transcoded.
 *
 * Errors: TARN_EIO     cannot be opened or read, is a directory
 *         TARN_EFORMAT line, column, field (header) and text say where and
 *                      what; the text says what to do
 *         TARN_EARG    the map is wrong, or must answer a question
 *         TARN_ENOMEM
 */
TARN_API enum tarn_status
tarn_weather_read(struct tarn_weather **out, const struct tarn_alloc *alloc,
		  const char *path, const struct tarn_csv_map *map,
		  struct tarn_read_report *report, struct tarn_error *err);
TARN_API enum tarn_status
tarn_weather_read_text(struct tarn_weather **out,
		       const struct tarn_alloc *alloc, const char *text,
		       size_t bytes, const struct tarn_csv_map *map,
		       struct tarn_read_report *report,
		       struct tarn_error *err);

/*
 * The same in pieces, for bytes that come from elsewhere.  The first 32768
 * bytes are looked at together before any row is read, and so is what stands
 * behind the header: 32768 bytes, or more where these do not settle in which
 * order the dates stand.  An error of theirs
 * comes with the piece that completes them, or from _finish.  After an error
 * only _free is of use.  _finish makes the table; the reader stays yours.
 */
struct tarn_reader;

TARN_API enum tarn_status
tarn_reader_new(struct tarn_reader **out, const struct tarn_alloc *alloc,
		const struct tarn_csv_map *map, struct tarn_error *err);
TARN_API enum tarn_status tarn_reader_feed(struct tarn_reader *r,
					   const char *bytes, size_t count,
					   struct tarn_error *err);
TARN_API enum tarn_status tarn_reader_finish(struct tarn_reader *r,
					     struct tarn_weather **out,
					     struct tarn_read_report *report,
					     struct tarn_error *err);
TARN_API void tarn_reader_free(struct tarn_reader *r);	/* NULL is fine */

#ifdef __cplusplus
}
#endif
#endif
