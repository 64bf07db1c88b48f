/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_H
#define TARN_STUDY_H

/*
 * study: many ledgers at once.  One pond (or a few), a list of variants of
 * its numbers, one weather (or many); out comes a row of summary figures for
 * each variant and weather.  Around it: designs that make the variants, what
 * the rows say (percentiles, sensitivities), changed and generated weather,
 * and the water budget of ordinances.
 *
 * A row equals what tarn_ledger_run gives for the same pond and weather, since
 * both compile the same day (sums may differ in their last digits, by their
 * order).  A row depends on nothing but its own pond and weather: not on the
 * number of threads, the processor, or the rows beside it.
 */

#include <stdint.h>

#include "tarn/pond.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what is asked ------------------------------------------------------- */

/*
 * A column of variants: one number for each, put into one field of the pond.
 *
 *   field    "lip", "bed.area", "seepage.rate": a row of tarn_pond_sections;
 *            or of tarn_study_delta_fields: "rain", "evaporation",
 *            "start_level".  A field with twelve months takes the number for
 *            all of them, or for one: "pump.hours.7" is July.
 *   change   how the number meets the pond's own
 *   value    one a variant; NaN leaves the pond's own
 */
enum tarn_change { TARN_SET, TARN_TIMES, TARN_PLUS };

struct tarn_study_column {
	const char *field;
	enum tarn_change change;
	const double *value;
};

/* What a variant may change beside the pond. */
struct tarn_study_delta {
	double rain[12];	/* x the weather's rain, by month */
	double evaporation[12];	/* x open-water and grass rates, by month */
	double start_level_m;	/* NaN: as the study's run says */
};
TARN_API struct tarn_study_delta tarn_study_delta_default(void);
TARN_API extern const struct tarn_fields tarn_study_delta_fields;

/* Called now and then by the thread that runs the study; not 0: stop. */
typedef int tarn_study_progress(void *context, size_t done, size_t rows);

/*
 * Made by tarn_study_default(), then changed; all pointers are borrowed, and
 * nothing behind them is written to.
 */
struct tarn_study {
	const struct tarn_pond *ponds;	/* what variants start from */
	size_t pond_count;		/* 1 or more: basins, schedules */
	const unsigned *pond_of;	/* of each variant; NULL: the first.
					   Variants of one pond side by side
					   run fastest */
	const struct tarn_forcing *weathers;
	size_t weather_count;
	const struct tarn_study_column *columns;
	size_t column_count;
	size_t variants;	/* values in each column; 1 or more */
	struct tarn_run run;	/* for all; with a rule, each row runs as a
				   ledger, some 100 times slower */
	int threads;		/* 1 or more */
	int skip_bad;		/* 0: one bad variant, and nothing starts;
				   1: its rows are NaN, the rest goes on */
	tarn_study_progress *progress;	/* NULL = none */
	void *progress_context;
	const struct tarn_alloc *alloc;	/* used by the calling thread only */
};
TARN_API struct tarn_study tarn_study_default(void);

/* ---- what comes out ------------------------------------------------------ */

/*
 * Figures of a row.  Years are calendar years that the weather holds whole;
 * without one they are NaN.  A week is an ISO week and belongs to the year in
 * which it ends.  Percentiles are those of tarn_percentile.
 */
enum tarn_quantity {
	TARN_Q_TOPUP,		/* from the supply, whole run */
	TARN_Q_YEAR_MEAN,	/* top-up of a year: mean */
	TARN_Q_YEAR_P10,	/*   in 1 year of 10 it is less */
	TARN_Q_YEAR_P50,
	TARN_Q_YEAR_P90,	/*   in 1 year of 10 it is more */
	TARN_Q_YEAR_MAX,
	TARN_Q_WEEK_MAX,	/* largest week of the run */
	TARN_Q_WEEK_P50,	/* largest week of a year: median */
	TARN_Q_WEEK_P90,	/*   in 1 year of 10 it is more */
	TARN_Q_MONTH_MAX,	/* largest of the twelve mean months */
	TARN_Q_MONTH_AT,	/* which, 1 .. 12; the first of equals */
	TARN_Q_OVERFLOW,	/* whole run */
	TARN_Q_LOWEST_LEVEL,	/* of all evenings and the start */
	TARN_Q_END_LEVEL,
	TARN_Q_UNDER_INTAKE,	/* days that end under the intake */
	TARN_Q_RESTRICTED,	/* days on which top-up was refused */
	TARN_Q_TANK,		/* top-up from the rain tank, whole run */
	TARN_Q_TANK_SHARE,	/* of the top-up; NaN without top-up or tank */
	TARN_Q_ROOF,		/* roof water that came to the tank */
	TARN_Q_TANK_SPILL,
	TARN_Q_TANK_EMPTY,	/* days that end with it empty; NaN without one */
	TARN_Q_JANUARY,		/* mean top-up of a January; then the others */
	TARN_QUANTITIES = TARN_Q_JANUARY + 12
};

struct tarn_quantity_info {
	const char *name, *unit, *meaning;
};
TARN_API const struct tarn_quantity_info *
tarn_quantity_info(enum tarn_quantity q);

/* TARN_QUANTITIES if there is none of that name. */
TARN_API enum tarn_quantity tarn_quantity_find(const char *name);

/*
 * Rows of a study: row = weather x variants + variant, both from 0.  Filled
 * from the front; 'done' says how many are.
 */
struct tarn_study_rows {
	size_t first, count;
	double *value[TARN_QUANTITIES];	/* 'count' each; NULL: not wanted */
	size_t done, bad;		/* out */
};

/* How many rows a study has in all. */
TARN_API size_t tarn_study_count(const struct tarn_study *study);

/* Part k of n (k = 1 .. n): which rows.  Parts differ by one row at most. */
TARN_API void tarn_study_part(size_t rows, size_t k, size_t n, size_t *first,
			      size_t *count);

/*
 * Checks all variants with their ponds.  'bad' (may be NULL) is filled with
 * the numbers, from 0, of the first 'room' bad ones; *count is how many there
 * are; 'err' tells of the first, its number from 1 in the text.
 * Errors: TARN_EARG.
 */
TARN_API enum tarn_status tarn_study_check(const struct tarn_study *study,
					   size_t *bad, size_t room,
					   size_t *count,
					   struct tarn_error *err);

/*
 * Runs the rows [rows->first, + count).  Memory does not grow with variants;
 * with days only by what one block of ponds needs for its yearly figures.
 *
 * Errors: TARN_EARG (a field, a forcing, a variant), TARN_ENOMEM, and
 * TARN_ESTOP when the progress callback asked for it: the rows up to
 * rows->done are complete then, and a later run may go on from there.
 */
TARN_API enum tarn_status tarn_study_run(const struct tarn_study *study,
					 struct tarn_study_rows *rows,
					 struct tarn_error *err);

/* Pond and delta of a variant (from 0), checked. */
TARN_API enum tarn_status tarn_study_variant(const struct tarn_study *study,
					     size_t variant,
					     struct tarn_pond *pond,
					     struct tarn_study_delta *delta,
					     struct tarn_error *err);

/* The whole ledger of one row; tarn_study_summary of it and of the variant's
 * pond gives that row. */
TARN_API enum tarn_status tarn_study_trace(const struct tarn_study *study,
					   size_t row,
					   struct tarn_ledger **out,
					   struct tarn_error *err);
TARN_API void tarn_study_summary(const struct tarn_ledger *ledger,
				 const struct tarn_pond *pond,
				 double value[TARN_QUANTITIES]);

/*
 * Percentile: the number that the given share of them lies under, linear
 * between neighbours (Hyndman and Fan 1996, definition 7).
 *
 *   x        sorted here; NaNs are left out
 *   share    0 .. 1
 *   returns  NaN without numbers, or outside the range
 */
TARN_API double tarn_percentile(double *x, size_t count, double share);

/* ---- parts, checkpoints -------------------------------------------------- */

/*
 * A record holds the first 'done' rows of a part: what a machine hands in, or
 * what a run that was stopped goes on from.  It is the same bytes on every
 * machine, and carries the study's fingerprint.
 */

/* Of everything that decides the numbers: ponds, weathers, columns, run, and
 * the library's version.  Not a secret: it tells studies apart by accident,
 * not by intent.  A rule is outside it. */
TARN_API uint64_t tarn_study_fingerprint(const struct tarn_study *study);

/* Bytes of a record of 'rows'. */
TARN_API size_t tarn_record_size(const struct tarn_study_rows *rows);

/* Fills 'bytes' with the record; rows_of_all is tarn_study_count. */
TARN_API void tarn_record_write(const struct tarn_study_rows *rows,
				uint64_t fingerprint, size_t rows_of_all,
				void *bytes);

/* What a record says of itself. */
struct tarn_record {
	uint64_t fingerprint;
	size_t rows_of_all, first, count, done;
	int wanted[TARN_QUANTITIES];
};
/* Errors: TARN_EFORMAT (no record, cut short, damaged). */
TARN_API enum tarn_status tarn_record_read(struct tarn_record *out,
					   const void *bytes, size_t size,
					   struct tarn_error *err);

/* Copies the rows that a record has done and 'rows' covers.
 * Errors: TARN_EFORMAT. */
TARN_API enum tarn_status tarn_record_fill(struct tarn_study_rows *rows,
					   const void *bytes, size_t size,
					   struct tarn_error *err);

/*
 * Checks that the records make one whole study, each row once: none missing,
 * none doubled, none unfinished, none of another study, all with the same
 * quantities.  'whole' then says what their sum is.  Fill rows that cover it
 * by tarn_record_fill from each; their record is the very bytes that an
 * undivided run writes.
 * Errors: TARN_EFORMAT, the record's number from 1 in the text.
 */
TARN_API enum tarn_status tarn_records_check(const void *const *bytes,
					     const size_t *size, size_t count,
					     struct tarn_record *whole,
					     struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
