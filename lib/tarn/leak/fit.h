/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_FIT_H
#define TARN_LEAK_FIT_H

#include "tarn/leak/gls.h"
#include "tarn/leak/spell.h"

/* A log laid on a pond: levels above the floor and what they are worth. */
struct laid {
	double *moment;		/* days from 1970, with their fraction */
	double *level_m;	/* above the basin's floor */
	double *var_mm2;	/* of the reading */
};

struct tarn_leak {
	const struct tarn_alloc *alloc;
	struct tarn_leak_options options;
	struct tarn_leak_result result;
	const struct tarn_reading *readings;	/* during the fit only */
	size_t count;				/* of intervals */
	struct tarn_interval *intervals;
	struct gls_row *plain;	/* one an interval, at f = r = 1, s = 0 */
	struct gls_row *rows;	/* the used ones, at the estimate */
	struct gls_row *spare;	/* room for trials */
	size_t *of;		/* interval of each used row */
	size_t used;
	long *day;		/* of each reading */
	struct laid laid;
	double *work;		/* 4 x count */
};

/* Fills the result's meter and slow effects; the readings are laid. */
void tn_lay_prior(struct tarn_leak *leak, const struct tarn_pond *pond);

/* The options with the prior of their site. */
struct tarn_leak_options tn_settled(const struct tarn_leak_options *options);

/* Mean and deviation of true / metered volume; 1: of a float valve. */
int tn_meter_prior(const struct tarn_leak_options *options,
		   const struct tarn_pond *pond, double *mean, double *sd);

struct gls_prior tn_prior(const struct tarn_leak *leak);

/* Factors of what weather alone explains: the means of the priors. */
struct spell_trial tn_plain_trial(const struct tarn_leak *leak);

/* Index of an interval's slow effect. */
size_t tn_slow_of(const struct tarn_leak *leak, size_t interval);

/* Of the metered millimetres: meter and area. */
double tn_metered_sd(const struct tarn_leak *leak);

/* Uncertain parts of some intervals together, mm at the ruler. */
struct spread {
	double evaporation, rain, meter, var;
	double slow[TARN_SLOW_MOST];
};
/* 'joined': the row begins with the reading that the one before it ends with. */
void tn_spread_add(struct spread *spread, const struct gls_row *row,
		   int joined);
double tn_spread_sd(const struct spread *spread, const struct tarn_leak *leak);

/* Errors: TARN_EARG where the forcing leaves days out. */
enum tarn_status tn_leak_whole(const struct tarn_forcing *forcing,
			       struct tarn_error *err);

/* Moment of a reading; 'hour' where it says none. */
double tn_reading_moment(const struct tarn_reading *r, double hour);

/* Fills laid->... for all readings, checking them against the pond. */
enum tarn_status tn_lay_readings(const struct tarn_pond *pond,
				 const struct tarn_reading *readings,
				 size_t count,
				 const struct tarn_leak_options *options,
				 struct laid *laid, struct tarn_error *err);

/* Lifts the level of readings of a float's meter after rain. */
void tn_lift_by_rain(struct tarn_leak *leak, const struct tarn_pond *pond,
		     const struct tarn_forcing *forcing);

/* What becomes of the interval between readings i and i + 1, as far as the
 * log and the description's pump hours say; *metered_m3 is filled, NaN where no meter tells. */
int tn_interval_fate(const struct tarn_pond *pond,
		     const struct tarn_reading *readings, const double *moment,
		     size_t count, size_t i, double *metered_m3, int *stopped);

/* Notes where an error that follows stands; returns 'err'. */
struct tarn_error *tn_leak_here(struct tarn_error *err,
				const struct tarn_reading *r);

/* The hours of an interval, and the water metered in them. */
struct spell tn_leak_spell(const struct tarn_leak *leak, size_t interval,
			   struct spell_fill *fill);

/* Fall of the level by the ledger, mm, from a start that is moved. */
enum tarn_status tn_leak_drop(const struct speller *speller,
			      const struct spell *spell,
			      const struct spell_trial *trial, double moved_m,
			      double *out_mm, struct spell_sums *sums,
			      struct tarn_error *err);

/* Finds how each interval may be used, and its plain row. */
enum tarn_status tn_leak_survey(struct tarn_leak *leak, struct speller *speller,
				struct tarn_error *err);

/*
 * Row of an interval linearised at a trial.
 * 'head' adds x[GLS_EXTRA] = d drop / d per_head - mean_head_m x[GLS_LOSS].
 */
enum tarn_status tn_leak_row(const struct tarn_leak *leak,
			     struct speller *speller, size_t interval,
			     const struct spell_trial *trial, int head,
			     double mean_head_m, struct gls_row *row,
			     struct spell_sums *sums, struct tarn_error *err);

/* Fills result->change; 'rows' is spoilt. */
void tn_leak_find_change(struct tarn_leak *leak, struct gls_row *rows,
			 const struct gls_prior *prior);

/* Fills result->held, by the plain rows of the used intervals. */
void tn_leak_find_held(struct tarn_leak *leak, const struct tarn_pond *pond);

/* Fills the result from a finished fit of leak->rows. */
void tn_leak_conclude(struct tarn_leak *leak, const struct gls_posterior *fit,
		      const struct gls_prior *prior);

/* Verdict from an interval. */
enum tarn_verdict tn_leak_judge(const struct tarn_estimate *loss_mm_d,
			double matters_mm_d);

#endif
