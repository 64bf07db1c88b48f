/* SPDX-License-Identifier: MIT */
#include "slab.h"

#define TOUCH 1e-12		/* of the yard's size: touching is no overlap */

void tn_outline_turn(const struct outline *from, double angle,
		     struct outline *to)
{
	double c = cos(angle), s = sin(angle), y_lo = HUGE_VAL, y_hi = -y_lo;

	*to = *from;
	to->x_lo = HUGE_VAL;
	to->x_hi = -HUGE_VAL;
	for (size_t i = 0; i < from->count; i++) {
		to->x[i] = from->x[i] * c + from->y[i] * s;
		to->y[i] = from->y[i] * c - from->x[i] * s;
		to->x_lo = fmin(to->x_lo, to->x[i]);
		to->x_hi = fmax(to->x_hi, to->x[i]);
		y_lo = fmin(y_lo, to->y[i]);
		y_hi = fmax(y_hi, to->y[i]);
	}
	to->size = fmax(to->x_hi - to->x_lo, y_hi - y_lo);
}

/* Is the point inside the outline (its sides, not their distances)? */
static int holds(const struct outline *o, double x, double y)
{
	int inside = 0;

	for (size_t i = 0, j = o->count - 1; i < o->count; j = i++)
		if ((o->y[i] > y) != (o->y[j] > y) &&
		    x < o->x[i] + (o->x[j] - o->x[i]) * (y - o->y[i]) /
					  (o->y[j] - o->y[i]))
			inside = !inside;
	return inside;
}

/* A side, left end first, with the distance to keep from it. */
struct side {
	double xa, ya, xb, yb, keep;
};

/* Upper edge, at x, of all points within 'keep' of the side. */
static double upper_edge(const struct side *s, double x)
{
	double dx = s->xb - s->xa, dy = s->yb - s->ya, top = -HUGE_VAL;
	double length = hypot(dx, dy);
	double from = s->xa - dy * s->keep / length;

	if (fabs(x - s->xa) <= s->keep)
		top = s->ya + sqrt(s->keep * s->keep -
				   (x - s->xa) * (x - s->xa));
	if (fabs(x - s->xb) <= s->keep)
		top = fmax(top, s->yb + sqrt(s->keep * s->keep -
					     (x - s->xb) * (x - s->xb)));
	if (dx > 1e-12 * length && x >= from && x <= from + dx)
		top = fmax(top, s->ya + dx * s->keep / length +
				(x - from) * dy / dx);
	return top;
}

/*
 * Highest point of that upper edge over x1..x2.  The edge is a concave curve
 * with its peak over the side's higher end, so the nearest x to that is it.
 */
static double upper_most(const struct side *s, double x1, double x2)
{
	double lo = s->yb > s->ya ? s->xb : s->xa;
	double hi = s->ya > s->yb ? s->xa : s->xb;
	double x = x2 < lo ? x2 : x1 > hi ? x1 : fmax(lo, x1);

	return upper_edge(s, x);
}

static struct side side_of(const struct outline *o, size_t i)
{
	size_t j = (i + 1) % o->count;
	struct side s = { o->x[i], o->y[i], o->x[j], o->y[j], o->keep[i] };

	if (s.xa > s.xb) {
		s.xa = o->x[j];
		s.ya = o->y[j];
		s.xb = o->x[i];
		s.yb = o->y[i];
	}
	return s;
}

/* What the sides forbid over a slab, as stretches in rising order. */
static size_t forbidden(const struct outline *o, double x1, double x2,
			struct stretch list[])
{
	size_t count = 0;

	for (size_t i = 0; i < o->count; i++) {
		struct side s = side_of(o, i), mirrored = s;
		struct stretch f;
		size_t at = count;

		if (x2 < s.xa - s.keep || x1 > s.xb + s.keep)
			continue;
		mirrored.ya = -s.ya;
		mirrored.yb = -s.yb;
		f.y_hi = upper_most(&s, x1, x2);
		f.y_lo = -upper_most(&mirrored, x1, x2);
		for (; at > 0 && list[at - 1].y_lo > f.y_lo; at--)
			list[at] = list[at - 1];
		list[at] = f;
		count++;
	}
	return count;
}

struct stretch tn_outline_stretch(const struct outline *o, double x1,
				  double x2)
{
	struct stretch list[TARN_YARD_CORNERS], best = { 0, 0 };
	double touch = TOUCH * o->size, reach = HUGE_VAL;
	size_t count;

	if (!(x2 - x1 > 2 * touch))
		return best;
	count = forbidden(o, x1 + touch, x2 - touch, list);
	for (size_t i = 0; i < count; i++) {
		double gap = list[i].y_lo - reach;

		if (gap > best.y_hi - best.y_lo &&
		    holds(o, (x1 + x2) / 2, reach + gap / 2)) {
			best.y_lo = reach;
			best.y_hi = list[i].y_lo;
		}
		reach = i == 0 ? list[i].y_hi : fmax(reach, list[i].y_hi);
	}
	return best;
}
