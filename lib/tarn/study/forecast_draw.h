/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_FORECAST_DRAW_H
#define TARN_STUDY_FORECAST_DRAW_H

#include "tarn/forecast.h"
#include "tarn/study/engine.h"

/* Worlds are numbered from 0, the middle one, in which nothing is drawn. */
struct draw {
	uint64_t seed;
	double slow_sd, day_sd;
	long slow_at;			/* 30 days that 'slow' is of */
	double slow[LANES_ROOM];	/* of each lane */
};

/* ln f and the factor on rain of worlds 0 .. worlds. */
void tn_draw_worlds(double *b, double *rain, size_t worlds,
		    const struct tarn_exposure_budget *budget,
		    const struct tarn_forecast_options *o);

/* Factors on a stretch's evaporation, of lanes first .. of the worlds. */
void tn_draw_stretch(struct draw *d, size_t first_world, size_t lanes,
		     long first_day, size_t days, struct block_drawn *out);

/* x of a share of the normal distribution, 0 < share < 1. */
double tn_normal_at(double share);

#endif
