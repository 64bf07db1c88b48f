/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_H
#define TARN_STUDY_H

/*
 * study: many ledgers at once.  One pond (or a few), a list of variants of
 * its numbers, one weather (or many); out comes a row of summary figures for
 * each variant and weather.  Around it: samples that make the variants, what
 * the rows say (percentiles, sensitivities), changed and generated weather,
 * and the water budget of ordinances.
 *
 * A row equals what tarn_ledger_run gives for the same pond and weather, since
 * both compile the same day (sums may differ in their last digits, by their
 * order).  A row depends on nothing but its own pond and weather: not on the
 * number of threads, the processor, or the rows beside it.
 */

#include <stdint.h>

#include "tarn/design.h"
#include "tarn/pond.h"
#include "tarn/weather.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what is asked ------------------------------------------------------- */

/*
 * A column of variants: one number for each, put into one field of the pond.
 *
 *   field    the path of any number of a description (see tarn_design_set),
 *            such as "bed.layers[1].thickness"; without designs: of those in
 *            its struct tarn_pond.  Or one of tarn_study_delta_fields:
 *            "rain", "evaporation", "start_level".  A field with twelve months
 *            takes the number for all of them, or for one: "pump.hours[7]" or
 *            "pump.hours.7" is July.
 *   change   how the number meets the pond's own
 *   value    one a variant; NaN leaves the pond's own
 */
enum tarn_study_change { TARN_SET, TARN_TIMES, TARN_PLUS };

struct tarn_study_column {
	const char *field;
	enum tarn_study_change change;
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
 * What a forcing was worked out from, so that a column can change how: fields
 * of section "evaporation", and area and depth of the pond for methods that
 * ask for them.
 */
struct tarn_study_sky {
	const struct tarn_weather *weather;	/* the days of the forcing */
	int method;		/* enum tarn_method; TARN_METHODS: as the
				   description says */
};

/*
 * Made by tarn_study_default(), then changed; all pointers are borrowed, and
 * nothing behind them is written to.
 */
struct tarn_study {
	const struct tarn_pond *ponds;	/* what variants start from */
	size_t pond_count;		/* 1 or more: basins, schedules */
	const struct tarn_design *const *designs;	/* NULL, or of each
					   pond, which is what
					   tarn_design_resolve makes of it: a
					   row is then what the description
					   with its columns' numbers would be.
					   A column of "bed.area" goes in place
					   of length and width */
	const unsigned *pond_of;	/* of each variant; NULL: the first.
					   Variants of one pond side by side
					   run fastest */
	const struct tarn_forcing *weathers;
	size_t weather_count;
	const struct tarn_study_sky *skies;	/* NULL, or of each weather */
	const struct tarn_study_column *columns;
	size_t column_count;
	size_t variants;	/* values in each column; 1 or more */
	struct tarn_run run;	/* for all; with a control, each row as a
				   ledger, some 100 times slower */
	const void *control_bytes;	/* what the run's control is known by, such as
				   the text of its file: goes into the
				   fingerprint.  NULL: none */
	size_t control_size;
	int threads;		/* 1 or more */
	int skip_bad;		/* 0: one bad variant, and no row is done;
				   1: its rows are NaN, the rest goes on */
	tarn_study_progress *progress;	/* NULL = none */
	void *progress_context;
	const struct tarn_alloc *alloc;	/* used by the calling thread only */
};
TARN_API struct tarn_study tarn_study_default(void);

/* ---- what comes out ------------------------------------------------------ */

/*
 * Figures of a row.  Years are calendar years that the weather holds whole;
 * without one they are NaN.  A week is an ISO 8601 week and belongs to the year of
 * its Thursday; one that the weather's ends cut off counts with its days.  Percentiles are those of tarn_percentile.
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
	TARN_Q_TANK_SHARE,	/* TARN_Q_TANK / TARN_Q_NEED: of the water that
				   the same pond takes where nothing restricts
				   it.  NaN without a tank, without a need, and
				   where the run forbids top-up.  A pond that
				   is refused water stands lower, so that its
				   tank may give more than the need by what one
				   filling takes; the share is then above 1 */
	TARN_Q_ROOF,		/* roof water that came to the tank */
	TARN_Q_TANK_SPILL,
	TARN_Q_TANK_EMPTY,	/* days that end with it empty; NaN without one */
	TARN_Q_NEED,		/* top-up without restriction, whole run: see
				   tarn_ledger_need; NaN as there */
	TARN_Q_JANUARY,		/* mean top-up of a January; then the others */
	TARN_QUANTITIES = TARN_Q_JANUARY + 12
};

struct tarn_quantity_info {
	const char *name, *unit, *meaning;
};
TARN_API extern const struct tarn_fields tarn_quantity_info_fields;
/* NULL for a number that is none of them. */
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

/* What of a study one call does: described by rows, for its faces. */
struct tarn_study_task {
	int threads;		/* 0: as many as the machine has */
	int part, parts;	/* as tarn_study_part */
	int limit;		/* of rows; 0: none */
};
TARN_API extern const struct tarn_fields tarn_study_task_fields;

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

/* Pond and delta of a variant (from 0), checked.  Errors: TARN_EARG, and the
 * field. */
TARN_API enum tarn_status tarn_study_variant(const struct tarn_study *study,
					     size_t variant,
					     struct tarn_pond *pond,
					     struct tarn_study_delta *delta,
					     struct tarn_error *err);

/* The whole ledger of one row; tarn_study_summary of it and of the variant's
 * pond gives that row.  Errors: as tarn_study_run. */
TARN_API enum tarn_status tarn_study_trace(const struct tarn_study *study,
					   size_t row,
					   struct tarn_ledger **out,
					   struct tarn_error *err);
TARN_API void tarn_study_summary(const struct tarn_ledger *ledger,
				 const struct tarn_pond *pond,
				 double value[TARN_QUANTITIES]);

/* ---- parts, checkpoints -------------------------------------------------- */

/*
 * A record holds the first 'done' rows of a part: what a machine hands in, or
 * what a run that was stopped goes on from.  It is the same bytes on every
 * machine, and carries the study's fingerprint.
 */

/* Of everything that decides the numbers: ponds, weathers, columns, run, the
 * bytes of its control, and the library's version.  Not a secret: it tells studies
 * apart by accident, not by intent.  Of a control without bytes it knows only that
 * there is one. */
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

/* ---- samples ------------------------------------------------------------- */

/*
 * All chance in this wing comes from tarn_random (base.h): numbers by counting,
 * the same for a seed on every machine and in any order.
 *
 * Samples fill 'x' column by column: x + d * rows is column d, ready to be a
 * tarn_study_column.  All but tarn_samples_one_at_a_time give shares from 0 to
 * 1, which tarn_samples_scale spreads over a range.
 */

/* All combinations of levels[d] evenly spaced shares (0 to 1; one level is
 * 0.5), the last column fastest.  Rows: their product. */
TARN_API void tarn_samples_grid(double *x, const size_t *levels,
				size_t columns);

/* Latin hypercube: each column has one share in each of 'rows' equal slices,
 * in random order (McKay, Beckman and Conover 1979). */
TARN_API void tarn_samples_latin(double *x, size_t rows, size_t columns,
				 uint64_t seed);

/*
 * Sobol' sequence from its point number 'first' on (0 is all zero).  Column d
 * of it is the same whatever the number of columns; rows that are a power of
 * two, from 'first' 0, are spread best.
 *
 * Direction numbers: Joe and Kuo (2008), their table new-joe-kuo-6, first 20.
 * Errors: TARN_EARG (columns beyond TARN_SOBOL_COLUMNS, rows beyond 2^31).
 */
#define TARN_SOBOL_COLUMNS 20
TARN_API enum tarn_status tarn_samples_sobol(double *x, size_t rows,
					     size_t columns, size_t first,
					     struct tarn_error *err);

/* Each number in turn at its low and its high end: rows 1 + 2 columns; row 0
 * is NaN throughout, the pond as it is, and so is all that is not in turn. */
TARN_API void tarn_samples_one_at_a_time(double *x, const double *low,
					 const double *high, size_t columns);

/* Shares of one column to numbers from low to high. */
TARN_API void tarn_samples_scale(double *column, size_t rows, double low,
				 double high);

/* ---- which input matters ------------------------------------------------- */

struct tarn_swing {
	double base, low, high;	/* result as it is, and at each end */
	double swing;		/* largest less smallest of the three */
	size_t rank;		/* 1 for the largest swing */
};
TARN_API extern const struct tarn_fields tarn_swing_fields;

/* 'y' is the result of each row of tarn_samples_one_at_a_time. */
TARN_API void tarn_one_at_a_time(const double *y, size_t columns,
				 struct tarn_swing *out);

/*
 * Design for Sobol' indices: count x (columns + 2) rows, from two samples A
 * and B that are the halves of a Sobol' sequence; columns go up to 10.
 *   rows 0 ..            A
 *   rows count ..        B
 *   rows (2 + i) count .. A with column i from B
 * Errors: TARN_EARG.
 */
TARN_API enum tarn_status tarn_sensitivity_samples(double *x, size_t count,
						   size_t columns,
						   struct tarn_error *err);

/* Share of the variance that a column explains alone, and with all that it
 * takes part in; each with a 95 % interval. */
struct tarn_sensitivity {
	double first, first_low, first_high;
	double total, total_low, total_high;
};
TARN_API extern const struct tarn_fields tarn_sensitivity_fields;

/*
 * Sobol' indices of 'y', the result of each row of tarn_sensitivity_samples.
 *
 * first: Saltelli et al. (2010), Computer Physics Communications 181, table 2
 * (b); total: (f), after Jansen (1999).  Intervals: percentiles of 1000
 * resamplings of the rows with replacement, seeded.
 *
 * Errors: TARN_EARG (a result that is NaN, all results equal, count under 8),
 * TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_sensitivity(const double *y, size_t count, size_t columns, uint64_t seed,
		 const struct tarn_alloc *alloc, struct tarn_sensitivity *out,
		 struct tarn_error *err);

/* ---- changed weather ------------------------------------------------------ */

/* A daily column of weather plus, or times, a number by month; NaN stays.
 * 'x' and 'out' may be the same. */
TARN_API void tarn_weather_plus(const double *x, long first_day, size_t days,
				const double plus[12], double *out);
TARN_API void tarn_weather_times(const double *x, long first_day, size_t days,
				 const double times[12], double *out);

/* A change of climate, as its user puts it. */
struct tarn_weather_change {	/* section "change", all by month */
	double temperature_c[12];	/* plus */
	double rain[12], wind[12], solar[12];	/* times */
};
TARN_API struct tarn_weather_change tarn_weather_change_default(void);
TARN_API extern const struct tarn_fields tarn_weather_change_fields;

/*
 * New weather: a copy with the change in it.  The air keeps its relative
 * humidity: a dew point moves by the same degrees, a vapour pressure by the
 * saturation's ratio.  Sunshine goes with radiation.  A note says what was
 * done, and another one if given evaporation or pan columns were left alone.
 *
 * A word of care: formulas of temperature alone can misstate what a warmer
 * climate does to evaporation, some by more than the change itself (Hydrology
 * Research 48(5), 2017, p. 1391): take a method that uses sun and humidity.
 * Errors: TARN_EARG, TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_changed(struct tarn_weather **out, const struct tarn_weather *w,
		     const struct tarn_weather_change *change,
		     struct tarn_error *err);

/* ---- generated weather ---------------------------------------------------- */

#define TARN_GENERATED_COLUMNS 6

/*
 * A daily weather generator after Richardson (1981), Water Resources Research
 * 17(1): wet and dry days are a two-state Markov chain, rain of a wet day is a
 * gamma number, and the other columns vary around their means of a wet or a
 * dry day with residuals that follow each other (first order, all columns
 * together).  Parameters by month; the residuals' matrices for the year.
 *
 * Made by tarn_generator_fit or tarn_generator_normals.  It knows nothing of
 * slow changes: years differ less than in nature, so extremes of long
 * droughts are understated.
 */
struct tarn_generator {
	int columns;
	double wet_mm;		/* a day with at least this is wet */
	double wet_after_dry[12], wet_after_wet[12];	/* probabilities */
	double shape[12], scale_mm[12];	/* gamma, of what exceeds wet_mm */
	double mean[TARN_GENERATED_COLUMNS][2][12];	/* dry, wet */
	double sd[TARN_GENERATED_COLUMNS][2][12];
	double lo[TARN_GENERATED_COLUMNS], hi[TARN_GENERATED_COLUMNS];
	int over[TARN_GENERATED_COLUMNS];	/* column that this one never
				   falls under (tmax over tmin); -1: none */
	double follow[TARN_GENERATED_COLUMNS][TARN_GENERATED_COLUMNS];
	double fresh[TARN_GENERATED_COLUMNS][TARN_GENERATED_COLUMNS];
};

/*
 * Parameters from daily weather.  Days with a gap are left out.
 *
 *   rain_mm   daily rain
 *   column    'columns' arrays beside it: temperatures, radiation, wind ...
 *   lo, hi    bounds of each, which generated numbers keep to; or NULL
 *   wet_mm    0.1 .. 5; a gauge's smallest reading, usually 0.1 or 0.25
 *
 * Gamma by Thom's (1958) approximation of the likeliest shape.
 * Errors: TARN_EARG (too few days, wet or dry days in a month; a column that
 * does not vary, or follows from the others).
 */
TARN_API enum tarn_status
tarn_generator_fit(struct tarn_generator *out, long first_day, size_t days,
		   const double *rain_mm, const double *const *column,
		   int columns, const double *lo, const double *hi,
		   double wet_mm, struct tarn_error *err);

/* Twelve monthly normals, for a place without daily weather. */
struct tarn_normals {
	double rain_mm[12];	/* of the month */
	double wet_days[12];	/* of the month */
	double wet_mm;		/* a day with so much is one  0.1 .. 5; 0.1 */
	double shape;		/* gamma; 0.75 if not better known */
	double tmax_c[12], tmin_c[12], solar_mj[12];	/* daily means; solar all
				   NaN: it is not generated */
	double tmax_sd[12], tmin_sd[12], solar_sd[12];	/* of single days */
};
TARN_API struct tarn_normals tarn_normals_default(void);

/*
 * Parameters from normals; columns tmax, tmin and, if given, solar.  Chances of a wet day by
 * Geng, Penning de Vries and Supit (1986), Agricultural and Forest Meteorology
 * 36: after a dry day 0.75 of the wet share, after a wet one 0.25 more.
 * Residuals' matrices: Richardson and Wright (1984), WGEN, USDA ARS-8.  Both
 * from memory, and both means over many places: measured days are better.
 * Errors: TARN_EARG.
 */
TARN_API enum tarn_status
tarn_generator_normals(struct tarn_generator *out, const struct tarn_normals *n,
		       struct tarn_error *err);

/*
 * Generates days; stream k of a seed is the k-th of as many independent
 * weathers as are wanted.
 *
 *   rain_mm   filled
 *   column    'columns' arrays, filled
 */
TARN_API void tarn_generate(const struct tarn_generator *g, uint64_t seed,
			    uint64_t stream, long first_day, size_t days,
			    double *rain_mm, double *const *column);

/*
 * New weather: 'days' days generated from a table's own statistics.  Of its
 * columns it takes rain and, up to six, those that evaporation can use; gaps
 * are left out.  A note says what was done.
 * Errors: as tarn_generator_fit; TARN_EARG without rain; TARN_ENOMEM.
 */
TARN_API enum tarn_status
tarn_weather_generated(struct tarn_weather **out,
		       const struct tarn_alloc *alloc,
		       const struct tarn_weather *w, uint64_t seed,
		       uint64_t stream, long first_day, size_t days,
		       struct tarn_error *err);

/* ---- rain tank ------------------------------------------------------------ */

/*
 * Smallest capacity that reaches a share of the need, linear between the
 * points of a curve: rows of a study over "tank.capacity".
 *
 *   capacity_m3   rising
 *   share         TARN_Q_TANK_SHARE of each
 *   returns       [m3], NaN if none reaches it.  Definition: no source
 */
TARN_API double tarn_tank_capacity(const double *capacity_m3,
				   const double *share, size_t count,
				   double wanted);

/*
 * Sizes to try beyond a list, by equal ratios: the last one is so large that
 * it never spills.
 *
 *   last_m3   the largest of the list                      [m3] > 0
 *   all_m3    all that can be in a tank over the run: TARN_Q_ROOF and what it
 *             holds on the first day                       [m3] > last_m3
 *   out_m3    filled with 'count' rising capacities [m3], the last of them
 *             all_m3; NaN throughout where nothing lies beyond
 * Definition: no source
 */
TARN_API void tarn_tank_beyond(double last_m3, double all_m3, double *out_m3,
			       size_t count);

enum tarn_tank_word {
	TARN_TANK_LISTED,	/* one within the list reaches the share */
	TARN_TANK_BEYOND,	/* the list ends too early */
	TARN_TANK_NONE		/* no size does: the roof or the rain is the
				   limit */
};
struct tarn_tank_answer {
	int word;		/* enum tarn_tank_word */
	double capacity_m3;	/* as tarn_tank_capacity; NaN: none */
	double most;		/* share of the last, which never spills */
};
TARN_API extern const struct tarn_fields tarn_tank_answer_fields;

/*
 * Which size reaches a share of the need, and whether it is the list or the
 * roof that ends.
 *
 *   capacity_m3   rising: first the list, then those of tarn_tank_beyond
 *   share         TARN_Q_TANK_SHARE of each
 *   listed        how many are of the list
 *   count         of all; 'listed' where the last of the list never spills
 *   wanted        0 .. 1
 * Definition: no source
 */
TARN_API struct tarn_tank_answer
tarn_tank_answer(const double *capacity_m3, const double *share, size_t listed,
		 size_t count, double wanted);

/* ---- water budgets of ordinances ------------------------------------------- */

/*
 * The arithmetic that landscape ordinances of the western USA share.  It is
 * theirs: no rain, no splash, no seepage.  Units and constants are those of
 * the ordinance at hand, and the user's to look up; print the result beside
 * the physical estimate, never mixed with it.
 */
struct tarn_budget {
	double reference;	/* grass reference ET of the period, say in */
	double unit;		/* constant: 0.62 for in and ft2 to gal */
	double area;		/* of the hydrozone: the pond's surface */
	double special_area;	/* of "special" areas */
	double adjustment;	/* ET adjustment factor   0 .. 1 */
	double plant_factor;	/* of the hydrozone       0 .. 2 */
	double efficiency;	/* of irrigation; 1 for a pond   0 .. 1 */
};
TARN_API extern const struct tarn_fields tarn_budget_fields;

/* reference unit (adjustment area + (1 - adjustment) special_area).  Source: the
 * ordinance at hand.
 * NaN if a number is negative or outside its range. */
TARN_API double tarn_budget_allowance(const struct tarn_budget *b);

/* reference unit (plant_factor area / efficiency + special_area); NaN as
 * above. */
TARN_API double tarn_budget_use(const struct tarn_budget *b);

#ifdef __cplusplus
}
#endif
#endif
