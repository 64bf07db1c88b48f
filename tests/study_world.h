/* SPDX-License-Identifier: MIT */
#ifndef STUDY_WORLD_H
#define STUDY_WORLD_H

/* Made-up weather and ponds that the tests and the bench share. */

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "tarn.h"

struct world {
	double *rain, *open, *grass;
	struct tarn_forcing forcing;
};

/* Numbers in [0, 1) that are the same on any machine. */
static inline double world_random(uint64_t *state)
{
	*state = *state * 6364136223846793005u + 1442695040888963407u;
	return (double)(*state >> 11) / 9007199254740992.0;
}

/* Wet and dry spells, and a year's course of evaporation. */
static inline void world_make(struct world *w, long first, size_t days,
			      uint64_t seed)
{
	w->rain = malloc(3 * days * sizeof(double));
	w->open = w->rain + days;
	w->grass = w->open + days;
	for (size_t i = 0; i < days; i++) {
		double summer = 0.5 - 0.5 * cos((double)(i % 365) / 58.09);
		double u = world_random(&seed), v = world_random(&seed);

		w->rain[i] = u < 0.27 ? -7 * log(1 - v) : 0;
		w->open[i] = (0.4 + 5 * summer) *
			     (0.5 + world_random(&seed));
		w->grass[i] = w->open[i] * 0.85;
	}
	w->forcing = (struct tarn_forcing){ first, days, w->rain, w->open,
					    w->grass, NULL };
}

static inline void world_free(struct world *w)
{
	free(w->rain);
}

/* Eight levels; area grows from 4 m2 at the floor to 16 m2 at 1.4 m. */
static inline struct tarn_basin *world_basin(void)
{
	double level[8], area[8];
	struct tarn_basin *b;

	for (int i = 0; i < 8; i++) {
		level[i] = 0.2 * i;
		area[i] = 4 + 1.2 * i + 0.0735 * i * i;
	}
	if (tarn_basin_table(&b, NULL, level, area, 8, NULL) != TARN_OK)
		abort();
	return b;
}

/* A shelved basin: a few hundred rows. */
static inline struct tarn_basin *world_shelves(void)
{
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_basin *b;

	s.shape = TARN_ELLIPSE;
	s.length_m = 5;
	s.width_m = 3.8;
	s.depth_m = 1.3;
	s.side_slope = 0.3;
	s.shelves = 2;
	s.shelf[0] = (struct tarn_shelf){ 0.25, 0.3 };
	s.shelf[1] = (struct tarn_shelf){ 0.6, 0.25 };
	if (tarn_basin_shelved(&b, NULL, &s, NULL) != TARN_OK)
		abort();
	return b;
}

/* What the prototype of the speed goal has: bed, apron, seepage, top-up. */
static inline struct tarn_pond world_pond(const struct tarn_basin *b)
{
	struct tarn_pond p = tarn_pond_default();

	p.basin = b;
	p.overflow_level_m = 1.2;
	p.trigger_m = 1.1;
	p.target_m = 1.15;
	p.intake_m = 0.9;
	p.bed.area_m2 = 2;
	p.bed.volume_m3 = 0.5;
	p.stream.area_m2 = 1;
	p.stream.depth_m = 0.04;
	p.apron.area_m2 = 6;
	p.apron.coefficient = 0.7;
	p.seepage.rate_mm_d = 1;
	p.splash_m3s = 1e-7;
	return p;
}

#endif
