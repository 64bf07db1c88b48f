/* SPDX-License-Identifier: MIT */
#ifndef TARN_DESIGN_TOLD_H
#define TARN_DESIGN_TOLD_H

/* What a description says twice: shared by what refuses it and what doubts
 * it. */

#include "tarn/design.h"

/* Levels agree within this: a tape on wet ground, and the level of the pond
 * between top-ups.  Our own. */
#define TN_TOLD_LEVEL_M 0.05

/* Voids of stone as it is poured; our own, about published ones. */
#define TN_POROSITY_LEAST 0.2
#define TN_POROSITY_MOST 0.5

/* Stone with more voids than this is none; our own: a cubic stack of spheres,
 * looser than any that is poured, has 1 - pi/6 = 0.48. */
#define TN_POROSITY_NONE 0.9

/* Water's power over that at the plug: common practice, no source. */
#define TN_EFFICIENCY_MOST 0.8

/* Fall from the bed's lip to the pond over falls and stream (all falls where
 * none is the bed's lip); returns 1 where every one has its drop, 0 where the
 * sum lacks some or there is no fall. */
int tn_told_falls(const struct tarn_works *works, const struct tarn_pond *pond,
		  double *below_m);

/* Of the pump, from solved flow and head, and the power at the plug; NaN: not
 * known. */
double tn_told_efficiency(const struct tarn_design *given,
			  const struct tarn_resolved *made);

/* Refuses what cannot be.  Errors: TARN_EARG, the field, with
 * TARN_MISTAKE_CONFLICT. */
enum tarn_status tn_told_check(const struct tarn_design *given,
			       const struct tarn_resolved *made,
			       struct tarn_error *err);

#endif
