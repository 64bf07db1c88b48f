/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_SLAB_H
#define TARN_BED_SLAB_H

/*
 * Private to the fit: a yard turned so that the rectangle looked for lies
 * along the axes, and the tallest free stretch over a slab of it.
 */

#include "tarn/bed.h"

struct outline {
	size_t count;
	double x[TARN_YARD_CORNERS], y[TARN_YARD_CORNERS];
	double keep[TARN_YARD_CORNERS];	/* distance to side i, i + 1 */
	double x_lo, x_hi, size;
};

struct stretch {
	double y_lo, y_hi;
};

void tn_outline_turn(const struct outline *from, double angle,
		     struct outline *to);

/* Tallest free stretch over x1..x2; both ends 0 if there is none. */
struct stretch tn_outline_stretch(const struct outline *o, double x1,
				  double x2);

/* A rectangle in a yard that was turned by 'angle'. */
struct rectangle {
	double angle, x1, x2, y1, y2;
};

/* Largest rectangle, its sides within the limits; 0 if there is no room. */
int tn_outline_largest(const struct outline *o, double longest,
		       double widest, struct rectangle *out);

#endif
