/* SPDX-License-Identifier: MIT */
#ifndef TARN_POND_BASIN_H
#define TARN_POND_BASIN_H

#include "tarn/pond.h"

/*
 * Rows of level, area and the volume below.  Two rows may share a level (a
 * shelf): no volume lies between them.
 */
struct tarn_basin {
	const struct tarn_alloc *alloc;
	size_t rows;
	double scale;
	double *level_m, *area_m2, *volume_m3;
	double *growth_m;	/* 2 dA/dh from this row to the next */
};

/* New basin with room for 'rows', nothing filled in; NULL if that fails. */
struct tarn_basin *tn_basin_make(const struct tarn_alloc *alloc, size_t rows);

/* Works out volumes and growth from levels and areas. */
void tn_basin_integrate(struct tarn_basin *b);

/*
 * Index of the segment (i, i + 1] that holds a volume within the basin; the
 * lower one where two meet, whatever the hint.  'hint' is where to look first:
 * a pond stays in a segment for weeks.
 */
static inline size_t basin_seek(const struct tarn_basin *b, double volume_m3,
				size_t hint)
{
	const double *v = b->volume_m3;

	while (hint > 0 && volume_m3 <= v[hint])
		hint--;
	while (hint + 2 < b->rows && volume_m3 > v[hint + 1])
		hint++;
	return hint;
}

/*
 * Area in a segment from the volume in it: with the area linear in level,
 * A^2 = A0^2 + 2 dA/dh (V - V0).  No search, one square root.
 */
static inline double basin_area_in(const struct tarn_basin *b, size_t i,
				   double volume_m3)
{
	double a0 = b->area_m2[i];

	return sqrt(a0 * a0 + b->growth_m[i] * (volume_m3 - b->volume_m3[i]));
}

/* Level in a segment; the form that does not cancel. */
static inline double basin_level_in(const struct tarn_basin *b, size_t i,
				    double volume_m3, double area_m2)
{
	double sum = b->area_m2[i] + area_m2;

	if (!(sum > 0))
		return b->level_m[i];
	return b->level_m[i] + 2 * (volume_m3 - b->volume_m3[i]) / sum;
}

#endif
