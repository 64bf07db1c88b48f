/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>

#include "slab.h"

#define PI 3.14159265358979323846
#define RIGHT_ANGLE (PI / 2)
#define GRID 40			/* slabs of the coarse search */
#define TURNS 18		/* directions tried besides those of sides */
#define GOLDEN 0.6180339887498949
#define ROUNDS 55		/* golden section down to 3e-12 of its span */

#define YARD(name, member, lo, hi, unit, meaning)                      \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_yard, member), \
	  lo, hi, 1, unit, NULL, meaning }

static const struct tarn_field yard_rows[] = {
	YARD("dig", dig_m, 0, 20, "m", "depth of the hole below ground"),
	YARD("footing_slope", footing_slope, 0, 10, "-",
	     "metres out per metre down from a footing; 1 is 45 degrees"),
	YARD("max_length", max_length_m, 0.1, HUGE_VAL, "m",
	     "longest bed wanted"),
	YARD("max_width", max_width_m, 0.1, HUGE_VAL, "m",
	     "widest bed wanted"),
};

const struct tarn_fields tarn_yard_fields = {
	"yard", yard_rows, sizeof yard_rows / sizeof yard_rows[0]
};

#define CORNER(name, member, lo, hi, required, unit, meaning)  \
	{ name, TARN_FIELD_NUMBER,                             \
	  offsetof(struct tarn_yard_corner, member), lo, hi,   \
	  required, unit, NULL, meaning }

static const struct tarn_field corner_rows[] = {
	CORNER("x", x_m, -1e4, 1e4, 1, "m", "corner"),
	CORNER("y", y_m, -1e4, 1e4, 1, "m", "corner"),
	CORNER("setback", setback_m, 0, 1e3, 1, "m",
	       "to keep from the side that starts here"),
	CORNER("footing", footing_m, 0, 20, 0, "m",
	       "depth of the footing of a wall on that side"),
};

const struct tarn_fields tarn_yard_corner_fields = {
	"corner", corner_rows, sizeof corner_rows / sizeof corner_rows[0]
};

struct tarn_yard tarn_yard_default(void)
{
	return (struct tarn_yard){ .footing_slope = 1,
				   .max_length_m = HUGE_VAL,
				   .max_width_m = HUGE_VAL };
}

struct tarn_yard_corner tarn_yard_corner_default(void)
{
	return (struct tarn_yard_corner){ .x_m = TARN_NAN, .y_m = TARN_NAN,
					  .footing_m = TARN_NAN };
}

static enum tarn_status check_corners(const struct tarn_yard *yard,
				      struct tarn_error *err)
{
	enum tarn_status st = TARN_OK;

	if (yard->count < 3 || yard->count > TARN_YARD_CORNERS)
		return tarn_fail(err, TARN_EARG, "yard", "must have 3 to %d "
				 "corners, got %zu", TARN_YARD_CORNERS,
				 yard->count);
	for (size_t i = 0; st == TARN_OK && i < yard->count; i++) {
		struct tarn_fields named = tarn_yard_corner_fields;
		char section[40];

		snprintf(section, sizeof section, "corner %zu", i + 1);
		named.section = section;
		st = tarn_fields_check(&named, &yard->corner[i], err);
	}
	return st;
}

static double turn_of(const struct outline *o, size_t a, size_t b, size_t c)
{
	return (o->x[b] - o->x[a]) * (o->y[c] - o->y[a]) -
	       (o->y[b] - o->y[a]) * (o->x[c] - o->x[a]);
}

/* Do sides i and j, which share no corner, cross or touch? */
static int sides_cross(const struct outline *o, size_t i, size_t j)
{
	size_t i2 = (i + 1) % o->count, j2 = (j + 1) % o->count;

	return turn_of(o, i, i2, j) * turn_of(o, i, i2, j2) <= 0 &&
	       turn_of(o, j, j2, i) * turn_of(o, j, j2, i2) <= 0;
}

static double enclosed(const struct outline *o)
{
	double twice = 0;

	for (size_t i = 0, j = o->count - 1; i < o->count; j = i++)
		twice += (o->x[j] - o->x[i]) * (o->y[j] + o->y[i]);
	return fabs(twice) / 2;
}

static enum tarn_status check_shape(const struct outline *o,
				    struct tarn_error *err)
{
	for (size_t i = 0; i < o->count; i++) {
		size_t next = (i + 1) % o->count;

		if (o->x[i] == o->x[next] && o->y[i] == o->y[next])
			return tarn_fail(err, TARN_EARG, "yard", "corners %zu "
					 "and %zu are the same", i + 1,
					 next + 1);
		for (size_t j = i + 2; j < o->count; j++)
			if (next != j && (j + 1) % o->count != i &&
			    sides_cross(o, i, j))
				return tarn_fail(err, TARN_EARG, "yard",
						 "sides %zu and %zu cross: "
						 "list the corners in a "
						 "round", i + 1, j + 1);
	}
	if (!(enclosed(o) > 0))
		return tarn_fail(err, TARN_EARG, "yard", "has no area");
	return TARN_OK;
}

static struct outline outline_of(const struct tarn_yard *yard)
{
	struct outline o = { .count = yard->count }, turned;

	for (size_t i = 0; i < yard->count; i++) {
		const struct tarn_yard_corner *c = &yard->corner[i];
		double wall = (yard->dig_m - c->footing_m) *
			      yard->footing_slope;

		o.x[i] = c->x_m;
		o.y[i] = c->y_m;
		o.keep[i] = wall > c->setback_m ? wall : c->setback_m;
	}
	tarn_outline_turn(&o, 0, &turned);	/* sets the extents */
	return turned;
}

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
	struct stretch free = tarn_outline_stretch(&s->turned, x1, x2);

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
	tarn_outline_turn(s->yard, angle, &one.turned);
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

static void place(const struct search *s, struct tarn_fit *out)
{
	struct stretch free = tarn_outline_stretch(&s->turned, s->x1, s->x2);
	double width = s->x2 - s->x1;
	double height = allowed(s, width, free.y_hi - free.y_lo);
	double y1 = (free.y_lo + free.y_hi - height) / 2;
	const double x[4] = { s->x1, s->x2, s->x2, s->x1 };
	const double y[4] = { y1, y1, y1 + height, y1 + height };
	double c = cos(s->angle), sn = sin(s->angle);

	out->length_m = fmax(width, height);
	out->width_m = fmin(width, height);
	out->area_m2 = width * height;
	out->angle_deg = s->angle * 180 / PI + (height > width ? 90 : 0);
	for (int i = 0; i < 4; i++) {
		out->x_m[i] = x[i] * c - y[i] * sn;
		out->y_m[i] = x[i] * sn + y[i] * c;
	}
	out->yard_m2 = enclosed(s->yard);
}

enum tarn_status tarn_yard_fit(const struct tarn_yard *yard,
			       struct tarn_fit *out, struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_yard_fields, yard, err);
	struct outline o;
	struct search s = { 0 };

	if (st == TARN_OK)
		st = check_corners(yard, err);
	if (st != TARN_OK)
		return st;
	o = outline_of(yard);
	st = check_shape(&o, err);
	if (st != TARN_OK)
		return st;
	s.yard = &o;
	s.longest = fmax(yard->max_length_m, yard->max_width_m);
	s.widest = fmin(yard->max_length_m, yard->max_width_m);
	s = find(&s);
	if (!(s.area > 0))
		return tarn_fail(err, TARN_EARG, "yard", "has no room left: "
				 "setbacks and footings take all of its %g m2",
				 enclosed(&o));
	place(&s, out);
	return TARN_OK;
}
