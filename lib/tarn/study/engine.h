/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_ENGINE_H
#define TARN_STUDY_ENGINE_H

#include "tarn/design/stages.h"
#include "tarn/study.h"
#include "tarn/study/lanes.h"

/*
 * From a study to rows: variants (variant.c) are loaded into the lanes of a
 * block, which goes through the stretches of a timetable (timetable.c) by the
 * loops of lanes.c and gives its figures (block.c).  Threads take block after
 * block (study.c).
 */

/* ---- variants ------------------------------------------------------------ */

/* A column's place in a variant, found once. */
struct variant_target {
	const struct tarn_field *field;	/* of tarn_study_delta; NULL: of the
					   design */
	int month;		/* of it, 0 .. 11; -1 all */
	unsigned stage;		/* of the design: what it touches */
	int shapes;		/* it changes the water's area or depth */
	int alone;		/* what the timetable holds */
};

/* Errors: TARN_EARG, the column named. */
enum tarn_status tn_variant_target(struct variant_target *out,
				   const struct tarn_study *study,
				   const struct tarn_study_column *column,
				   struct tarn_error *err);

/*
 * A variant worked out.  Begins with all zeros and ends with tn_variant_free; the
 * next one reuses what the last one did not change.  It takes memory of the C
 * library, since threads make it.
 */
struct variant {
	const struct tarn_pond *from;
	struct tarn_pond pond;
	struct tarn_study_delta delta;
	struct step_pond step;
	double start_level_m;
	struct tarn_design *plain;	/* where the study has no designs: one
					   that is 'from' alone */
	const struct tarn_design *parent;
	struct tarn_design *design;	/* its copy, changed */
	struct tarn_resolved resolved;
	struct tarn_place *place;	/* of each column: in the copy, then in
					   the design itself */
	double *by;		/* number of each column that 'resolved' has */
	int solved;		/* 'resolved' follows from the copy */
	unsigned basin_number;	/* how many basins it has made so far */
	/* where a column changes the weather's evaporation */
	double *sky_mm;
	size_t sky_days;
	struct tarn_forcing forcing;
	const struct tarn_study_sky *sky;	/* what it was worked out from */
	struct tarn_evaporation_options sky_options;
	struct tarn_pond_place sky_place;
};

void tn_variant_free(struct variant *v);

/* Whether variants have withdrawals or weathers of their own, so that each
 * needs a block and a timetable of its own; whether they have basins of their
 * own. */
int tn_variant_alone(const struct tarn_study *study,
		     const struct variant_target *targets);
int tn_variant_own_basin(const struct tarn_study *study,
			 const struct variant_target *targets);

/* The weather as the variant has it: the study's, or in the variant.
 * Errors: those of tarn_evaporation_run, TARN_ENOMEM. */
enum tarn_status tn_variant_weather(struct variant *v,
				    const struct tarn_study *study,
				    const struct variant_target *targets,
				    size_t weather,
				    const struct tarn_forcing **out,
				    struct tarn_error *err);

/* ---- the part of variants that is of the design (vary.c) ------------------- */

/* A place of a column in the design; as tn_variant_target. */
enum tarn_status tn_vary_target(struct variant_target *out,
				const struct tarn_study *study,
				const struct tarn_study_column *column,
				struct tarn_error *err);

/* Puts the numbers of a variant into its copy of design 'base', and what
 * follows into its pond.  Columns of the delta are left alone. */
enum tarn_status tn_vary_make(struct variant *v, const struct tarn_study *study,
			      const struct variant_target *targets,
			      unsigned base,
			      size_t number, struct tarn_error *err);

/* ---- a number as a column changes it (change.c) --------------------------- */

double tn_variant_changed(double x, enum tarn_study_change change, double by);

/* Refuses a factor or a sum for a number that is not given. */
enum tarn_status tn_variant_check_given(double x,
					const struct tarn_study_column *column,
					struct tarn_error *err);

/* Errors: TARN_EARG, the variant's number from 1 in the text. */
enum tarn_status tn_variant_make(struct variant *out,
				 const struct tarn_study *study,
				 const struct variant_target *targets,
				 size_t number, struct tarn_error *err);

/* The ledger of a variant that was made, under one weather of the study. */
enum tarn_status tn_variant_trace(struct variant *v,
				  const struct tarn_study *study,
				  const struct variant_target *targets,
				  size_t weather, struct tarn_ledger **out,
				  struct tarn_error *err);

static inline unsigned variant_pond(const struct tarn_study *study,
				    size_t variant)
{
	return study->pond_of ? study->pond_of[variant] : 0;
}

/* Places of all columns, new.  Errors: TARN_EARG, TARN_ENOMEM. */
enum tarn_status tn_study_targets(const struct tarn_study *study,
				  struct variant_target **out,
				  struct tarn_error *err);

/* As tarn_study_check, with the columns' places at hand. */
enum tarn_status tn_study_check_numbers(const struct tarn_study *study,
					struct tarn_error *err);
enum tarn_status tn_study_check_variants(const struct tarn_study *study,
					 const struct variant_target *targets,
					 size_t *bad, size_t room,
					 size_t *count, struct tarn_error *err);

/* ---- timetable ----------------------------------------------------------- */

/* Days of one ISO week, one month, one year. */
struct timetable_stretch {
	size_t first, days;	/* index into the weather */
	int month;		/* 0 .. 11 */
	unsigned ends;		/* LANES_WEEK ... */
	int whole_year;		/* the year that ends here is complete */
	int whole_weeks;	/* likewise, that whose last week ends here */
	int left_out;		/* its days are not run */
};

/* Calendar and schedules of one weather for ponds that start from one. */
struct timetable {
	const struct tarn_forcing *weather;
	const struct tarn_pond *pond;
	size_t count, years;	/* years: complete ones */
	struct timetable_stretch *stretch;
	unsigned char *open;	/* the supply, day by day */
	double *withdrawal_m3;
	double month_count[12];	/* Januaries that the weather holds */
};

/* Most stretches that so many days can make; how many more they are where days
 * are left out. */
size_t tn_timetable_room(size_t days);
size_t tn_timetable_breaks(const struct tarn_forcing *weather);

/* Works out a timetable; the arrays are there already. */
void tn_timetable_make(struct timetable *timetable,
		       const struct tarn_forcing *weather,
		       const struct tarn_pond *pond);

/* Weather and permissions of a day. */
void tn_timetable_sky(const struct timetable *timetable, size_t day,
		      struct step_sky *out);

/* ---- block --------------------------------------------------------------- */

enum tarn_status tn_block_basin(struct lanes_basin *out,
				const struct tarn_alloc *alloc,
				const struct tarn_basin *basin,
				struct tarn_error *err);
void tn_block_basin_free(struct lanes_basin *b, const struct tarn_alloc *alloc);

/* What a block can lose in a day at most, by month; for the search's bounds. */
struct block_bounds {
	double full_m3, intake_m3;
	double open_m3_mm[12], grass_m3_mm[12], fixed_m3[12];
	int stops[12];		/* some pump does not run every day */
	int tank, apron, heads;
	int may_stop;		/* in any month, or stands still at first */
	int swings;		/* some pump stops every day, in any month */
};

enum { BLOCK_DAYS = 7 };	/* of a stretch, at most */

/* All that a thread works with. */
struct block {
	struct lanes *lanes;
	struct lanes *twin;	/* the same ponds where nothing restricts
				   them: for what they need */
	struct block_bounds bounds;
	const struct lanes_basin *basin;	/* of all; NULL: each has one */
	double *year_m3, *week_m3;	/* rows of LANES, one a complete year */
	int no_topup;		/* of the last run */
	struct variant variant;
};

/* Empties a block for ponds of one basin, or (NULL) each of its own; then
 * lanes are loaded in turn. */
void tn_block_clear(struct block *k, const struct lanes_basin *basin);
void tn_block_load(struct block *k, size_t lane,
		   const struct lanes_basin *basin, const struct variant *v,
		   int start_stopped);

/* Goes through a timetable with the lanes loaded, 1 or more; where a lane has a
 * tank, its twin before it. */
void tn_block_run(struct block *k, const struct timetable *timetable,
		  size_t lanes, int no_topup);

/* The first segment that holds a volume. */
size_t tn_block_segment(const struct lanes_basin *b, double volume_m3);

/* Factors on the evaporation of a stretch, a day and a lane, and the largest
 * of them. */
struct block_drawn {
	double day[BLOCK_DAYS][LANES_ROOM];
	double most;
};

/* Goes through a timetable in the caller's steps: the lanes of the last step
 * are filled up once all are loaded, then stretch after stretch is taken.  Sums
 * are left in the lanes, and are the caller's to clear.  'drawn': NULL, or the
 * factors of its days. */
void tn_block_fill_up(struct block *k, size_t lanes);
void tn_block_take(struct block *k, const struct timetable *timetable,
		   size_t stretch, int no_topup,
		   const struct block_drawn *drawn);

/* Figures of a lane, after the run. */
void tn_block_figures(const struct block *k, const struct timetable *timetable,
		      size_t lane, double value[TARN_QUANTITIES]);

#endif
