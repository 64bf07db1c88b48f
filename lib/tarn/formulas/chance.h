/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_CHANCE_H
#define TARN_FORMULAS_CHANCE_H

/*
 * chance: the spread of a bed's results when its inputs are uncertain.  Part
 * of bed.h, whose first lines give the units and conventions.
 */

#include "tarn/formulas/sizing.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Spread of the result when inputs are uncertain.  k, load and flow are
 * log-normal about the given value as median, with that coefficient of
 * variation; porosity is logit-normal, and kept to 0.05 .. 0.95.
 */
struct tarn_chance {
	double samples;		/* 100 .. 1e6, whole */
	double seed;		/* 0 .. 2^53, whole */
	double porosity_sd;
	double k_cv, load_cv, flow_cv;
};

TARN_API extern const struct tarn_fields tarn_chance_fields;

/* 2000 samples, seed 1; porosity 0.03, k 0.5, load 0.3, flow 0.15: ours. */
TARN_API struct tarn_chance tarn_chance_default(void);

#define TARN_PERCENTILES 5	/* 5, 25, 50, 75, 95 % */

TARN_API extern const double tarn_percentiles[TARN_PERCENTILES];

struct tarn_chance_result {
	double pond_mgl[TARN_PERCENTILES];	/* NaN: not to be known */
	double outlet_mgl[TARN_PERCENTILES];
	double residence_s[TARN_PERCENTILES];
	double clogged_m[TARN_PERCENTILES];
	double refused;		/* share of samples with a refusal */
};
TARN_API extern const struct tarn_fields tarn_chance_result_fields;

/* The bed is base->area_m2.  Errors: TARN_EARG, TARN_ENOMEM. */
TARN_API enum tarn_status tarn_chance(const struct tarn_sizing *base,
				      const struct tarn_chance *chance,
				      const struct tarn_alloc *alloc,
				      struct tarn_chance_result *out,
				      struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
