/* SPDX-License-Identifier: MIT */
#ifndef TARN_LEAK_SPELL_H
#define TARN_LEAK_SPELL_H

#include "tarn/leak.h"

/*
 * A spell: the hours from one reading to a later one, through the ledger.
 * Ledger days begin at the hour of the first reading.
 */
struct spell {
	double from, to;	/* days from 1970, with their fraction */
	double level_m;		/* at 'from'; above the lip counts as the lip */
	int stopped;		/* 1: the pump is off all the while */
};

/* What the fit turns. */
struct spell_trial {
	double evaporation, rain;	/* factors */
	double loss_m3_d;		/* beyond the description */
	double per_head_m3_d_m;		/* beyond the description */
};

/* Water put in between two moments, evenly. */
struct spell_fill {
	double from, to, volume_m3;
};

struct spell_sums {
	double rain_mm, open_water_mm;	/* as the weather gives them */
	double rain2_mm2;	/* sum of squares of daily rain */
	double area_m2;		/* mean */
	/* net of losses: what came and did not stay */
	double rain_m3, overflow_m3, loss_m3;
};

struct speller {
	const struct tarn_alloc *alloc;
	const struct tarn_pond *pond;
	const struct tarn_forcing *forcing;
	const struct spell_fill *fills;	/* in order, or none */
	size_t fill_count;
	double *work;		/* 4 x days of the longest spell */
	size_t work_days;
};

/* Ledger days that a spell takes. */
size_t tn_spell_days(const struct spell *spell);

/* 1 if the description has no pump hours in the month of a moment; midnight goes
 * with the day before, as the pump stops and starts in the ledger's morning. */
int tn_spell_off(const struct tarn_pond *pond, double moment);

/* 1 if the weather covers the spell. */
int tn_spell_covered(const struct speller *speller, const struct spell *spell);

enum tarn_status tn_spell_begin(struct speller *speller,
				const struct tarn_alloc *alloc,
				const struct tarn_pond *pond,
				const struct tarn_forcing *forcing, size_t days,
				struct tarn_error *err);
void tn_spell_end(struct speller *speller);

/*
 * Levels at 'count' moments within a spell that is covered, in order, by one
 * run of the ledger.  'sums' is over the whole spell, and may be NULL.
 */
enum tarn_status tn_spell_levels(const struct speller *speller,
				 const struct spell *spell,
				 const struct spell_trial *trial,
				 const double *at, size_t count,
				 double *level_m,
				 struct spell_sums *sums,
				 struct tarn_error *err);

#endif
