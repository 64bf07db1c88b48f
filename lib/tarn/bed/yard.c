/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>

#include "slab.h"

#define DEGREE (3.14159265358979323846 / 180)

#define YARD struct tarn_yard
static const struct tarn_field yard_rows[] = {
	TARN_IN_NUMBER(YARD, dig_m, "dig", "m", 0, 20, TARN_NAN,
		       "depth of the hole below ground; the bed's own if not "
		       "given"),
	TARN_IN_VALUE(YARD, footing_slope, "footing_slope", "-", 0, 10, 1,
		      "metres out per metre down from a footing; 1 is 45 "
		      "degrees"),
	TARN_IN_VALUE(YARD, max_length_m, "max_length", "m", 0.1, HUGE_VAL,
		      HUGE_VAL, "longest bed wanted"),
	TARN_IN_VALUE(YARD, max_width_m, "max_width", "m", 0.1, HUGE_VAL,
		      HUGE_VAL, "widest bed wanted"),
};

TARN_FIELDS(tarn_yard_fields, "yard", yard_rows);
TARN_DEFAULT(YARD, tarn_yard_default, tarn_yard_fields)

#define YARD_CORNER struct tarn_yard_corner
static const struct tarn_field corner_rows[] = {
	TARN_IN_REQUIRED(YARD_CORNER, x_m, "x", "m", -1e4, 1e4, "corner"),
	TARN_IN_REQUIRED(YARD_CORNER, y_m, "y", "m", -1e4, 1e4, "corner"),
	TARN_IN_NUMBER(YARD_CORNER, setback_m, "setback", "m", 0, 1e3, TARN_NAN,
		       "to keep from the side that starts here; the yard's if "
		       "not given"),
	TARN_IN_NUMBER(YARD_CORNER, footing_m, "footing", "m", 0, 20, TARN_NAN,
		       "depth of the footing of a wall on that side"),
};

TARN_FIELDS(tarn_yard_corner_fields, "corner", corner_rows);
TARN_DEFAULT(YARD_CORNER, tarn_yard_corner_default, tarn_yard_corner_fields)

#define OUT struct tarn_fit
static const struct tarn_field fit_corner_rows[] = {
	TARN_OUT_NUMBER(struct tarn_fit_corner, x_m, "x", "m", "corner"),
	TARN_OUT_NUMBER(struct tarn_fit_corner, y_m, "y", "m", "corner"),
};
static TARN_FIELDS(fit_corner_fields, "corner", fit_corner_rows);

static const struct tarn_field fit_rows[] = {
	TARN_OUT_NUMBER(OUT, length_m, "length", "m", "longer side"),
	TARN_OUT_NUMBER(OUT, width_m, "width", "m", "shorter side"),
	TARN_OUT_NUMBER(OUT, area_m2, "area", "m2", "of the rectangle"),
	TARN_OUT_NUMBER(OUT, angle_deg, "angle", "deg",
			"of the length, from the x axis"),
	TARN_OUT_NUMBER(OUT, yard_m2, "yard_area", "m2", "of the whole yard"),
	TARN_OUT_LIST(OUT, corner, "corners", fit_corner_fields, "its four"),
};

TARN_FIELDS(tarn_fit_fields, "fit", fit_rows);

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
		o.keep[i] = fmax(wall, isnan(c->setback_m) ? 0 : c->setback_m);
	}
	tn_outline_turn(&o, 0, &turned);	/* sets the extents */
	return turned;
}

static void place(const struct rectangle *r, struct tarn_fit *out)
{
	double width = r->x2 - r->x1, height = r->y2 - r->y1;
	const double x[4] = { r->x1, r->x2, r->x2, r->x1 };
	const double y[4] = { r->y1, r->y1, r->y2, r->y2 };
	double c = cos(r->angle), s = sin(r->angle);

	out->length_m = fmax(width, height);
	out->width_m = fmin(width, height);
	out->area_m2 = width * height;
	out->angle_deg = r->angle / DEGREE + (height > width ? 90 : 0);
	for (int i = 0; i < 4; i++) {
		out->corner[i].x_m = x[i] * c - y[i] * s;
		out->corner[i].y_m = x[i] * s + y[i] * c;
	}
}

enum tarn_status tarn_yard_fit(const struct tarn_yard *yard,
			       struct tarn_fit *out, struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_yard_fields, yard, err);
	struct rectangle r;
	struct outline o;

	if (st == TARN_OK)
		st = check_corners(yard, err);
	if (st != TARN_OK)
		return st;
	o = outline_of(yard);
	st = check_shape(&o, err);
	if (st != TARN_OK)
		return st;
	if (!tn_outline_largest(&o, fmax(yard->max_length_m,
					 yard->max_width_m),
				fmin(yard->max_length_m, yard->max_width_m),
				&r))
		return tarn_fail(err, TARN_EARG, "yard", "has no room left: "
				 "setbacks and footings take all of its %g m2",
				 enclosed(&o));
	place(&r, out);
	out->yard_m2 = enclosed(&o);
	return TARN_OK;
}
