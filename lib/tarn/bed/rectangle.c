/* SPDX-License-Identifier: MIT */
/* Search for the largest rectangle in a yard. */
#include "slab.h"

#define PI 3.14159265358979323846
#define RIGHT_ANGLE (PI / 2)
#define GRID 40			/* slabs of the coarse search */
#define TURNS 18		/* directions tried besides those of sides */
#define GOLDEN 0.6180339887498949
#define ROUNDS 55		/* golden section down to 3e-12 of its span */

/* A rectangle in the making: a slab x1..x2 of the yard turned by 'angle'. */
struct search {
	const struct outline *yard;
	struct outline turned;
	double longest, widest;		/* limits of its sides */
	double angle, x1, x2, area;	/* the best so far */
};

/* Height that the limits leave to a rectangle of that width. */
static double allowed(const struct search *s, double width, double height)
{
	if (width <= s->widest)
		return fmin(height, s->longest);
	return width <= s->longest ? fmin(height, s->widest) : 0;
}

static double area_over(const struct search *s, double x1, double x2)
{
	struct stretch free = tn_outline_stretch(&s->turned, x1, x2);

	return (x2 - x1) * allowed(s, x2 - x1, free.y_hi - free.y_lo);
}

static void coarse(struct search *s)
{
	double step = (s->turned.x_hi - s->turned.x_lo) / GRID;

	s->area = 0;
	for (int i = 0; i < GRID; i++)
		for (int j = i + 1; j <= GRID; j++) {
			double x1 = s->turned.x_lo + i * step;
			double x2 = s->turned.x_lo + j * step;
			double area;

			if ((x2 - x1) * s->turned.size <= s->area)
				continue;
			area = area_over(s, x1, x2);
			if (area > s->area) {
				s->area = area;
				s->x1 = x1;
				s->x2 = x2;
			}
		}
}

/*
 * Golden section for the highest f within 'span' of 'at', where f is level
 * and low away from its hill: on a tie it turns to the best so far.
 */
static double climb(double (*f)(struct search *, double), struct search *s,
		    double at, double span, double *highest)
{
	double a = at - span, b = at + span;
	double c = b - GOLDEN * (b - a), d = a + GOLDEN * (b - a);
	double best = at, f_best = f(s, at), fc = f(s, c), fd = f(s, d);

	for (int i = 0; i < ROUNDS; i++) {
		if (fmax(fc, fd) > f_best) {
			f_best = fmax(fc, fd);
			best = fc > fd ? c : d;
		}
		if (fc > fd || (fc == fd && best < (a + b) / 2)) {
			b = d;
			d = c;
			fd = fc;
			c = b - GOLDEN * (b - a);
			fc = f(s, c);
		} else {
			a = c;
			c = d;
			fc = fd;
			d = a + GOLDEN * (b - a);
			fd = f(s, d);
		}
	}
	*highest = f_best;
	return best;
}

static double over_right(struct search *s, double x2)
{
	return area_over(s, s->x1, x2);
}

/* Best right end for a left end. */
static double over_left(struct search *s, double x1)
{
	double step = (s->turned.x_hi - s->turned.x_lo) / GRID, area;

	s->x1 = x1;
	s->x2 = climb(over_right, s, s->x2, step, &area);
	return area;
}

/* Best slab of the yard turned by an angle, from the coarse one. */
static void settle(struct search *s)
{
	double step = (s->turned.x_hi - s->turned.x_lo) / GRID, area;
	double x1 = climb(over_left, s, s->x1, step, &area);

	s->area = over_left(s, x1);
}

static struct search try_angle(const struct search *s, double angle)
{
	struct search one = *s;

	one.angle = angle;
	tn_outline_turn(s->yard, angle, &one.turned);
	coarse(&one);
	return one;
}

static double over_angle(struct search *s, double angle)
{
	struct search one = try_angle(s, angle);

	if (one.area > 0)
		settle(&one);
	return one.area;
}

/* Directions of all sides, and even turns between. */
static size_t directions(const struct outline *o, double angle[])
{
	size_t count = 0;

	for (size_t i = 0; i < o->count; i++) {
		size_t j = (i + 1) % o->count;
		double a = atan2(o->y[j] - o->y[i], o->x[j] - o->x[i]);
		size_t k = 0;

		a -= RIGHT_ANGLE * floor(a / RIGHT_ANGLE);
		while (k < count && fabs(angle[k] - a) > 1e-9)
			k++;
		if (k == count)
			angle[count++] = a;
	}
	for (int i = 0; i < TURNS; i++)
		angle[count++] = RIGHT_ANGLE * i / TURNS;
	return count;
}

static struct search find(const struct search *start)
{
	double angle[TARN_YARD_CORNERS + TURNS], area, turn;
	size_t count = directions(start->yard, angle);
	struct search best = *start, one;

	for (size_t i = 0; i < count; i++) {
		one = try_angle(start, angle[i]);
		if (one.area > 0.8 * best.area)
			settle(&one);
		if (one.area > best.area * (1 + 1e-12))
			best = one;
	}
	if (best.area == 0)
		return best;
	one = best;
	turn = climb(over_angle, &one, best.angle, RIGHT_ANGLE / TURNS, &area);
	if (area > best.area * (1 + 1e-9)) {
		best = try_angle(start, turn);
		settle(&best);
	}
	return best;
}

int tn_outline_largest(const struct outline *o, double longest,
		       double widest, struct rectangle *out)
{
	struct search s = { .yard = o, .longest = longest, .widest = widest };
	struct stretch free;
	double height;

	s = find(&s);
	if (!(s.area > 0))
		return 0;
	free = tn_outline_stretch(&s.turned, s.x1, s.x2);
	height = allowed(&s, s.x2 - s.x1, free.y_hi - free.y_lo);
	out->angle = s.angle;
	out->x1 = s.x1;
	out->x2 = s.x2;
	out->y1 = (free.y_lo + free.y_hi - height) / 2;
	out->y2 = out->y1 + height;
	return 1;
}
