/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/basin.h"

#define STEPS 128		/* of the table between two edges */
#define PI 3.14159265358979323846

static const char *const shapes[] = {
	"rectangle", "ellipse", "irregular", NULL
};

#define T struct tarn_shelved
static const struct tarn_field rows[] = {
	TARN_IN_CHOICE(T, shape, "shape", shapes, 0,
		       "outline of the water's edge"),
	TARN_IN_REQUIRED(T, length_m, "length", "m", 0.2, 200,
			 "longest way across, at the top edge"),
	TARN_IN_REQUIRED(T, width_m, "width", "m", 0.2, 200,
			 "across that, at the top edge"),
	TARN_IN_REQUIRED(T, depth_m, "depth", "m", 0.05, 15,
			 "from the floor to the top edge"),
	TARN_IN_NUMBER(T, area_factor, "area_factor", "-", 0.4, 1, TARN_NAN,
		       "area / (length x width) of an irregular outline"),
	TARN_IN_NUMBER(T, side_slope, "side_slope", "-", 0, 5, 0,
		       "run of the walls per unit of fall; 0 is upright"),
	TARN_IN_NUMBER(T, metered_m3, "metered", "m3", 0.01, 1e5, TARN_NAN,
		       "measured volume of the basin up to the top edge, without "
		       "stone; scales the areas"),
};
TARN_FIELDS(tarn_shelved_fields, "basin", rows);
#undef T
TARN_DEFAULT(struct tarn_shelved, tarn_shelved_default, tarn_shelved_fields)

/* How far the outline has moved in at a depth: just above a shelf that lies at
 * that very depth, or just below it. */
static double inset(const struct tarn_shelved *s, double depth_m, int above)
{
	double i = s->side_slope * depth_m;

	for (int k = 0; k < s->shelves; k++)
		if (s->shelf[k].depth_m < depth_m ||
		    (!above && s->shelf[k].depth_m <= depth_m))
			i += s->shelf[k].width_m;
	return i;
}

static double plan_area(const struct tarn_shelved *s, double in)
{
	double l = s->length_m - 2 * in, w = s->width_m - 2 * in;

	if (l < 0 || w < 0)
		return -1;
	switch (s->shape) {
	case TARN_ELLIPSE: return PI / 4 * l * w;
	case TARN_IRREGULAR: return s->area_factor * l * w;
	default: return l * w;
	}
}

static enum tarn_status check_shelves(const struct tarn_shelved *s,
				      struct tarn_error *err)
{
	double last = 0;

	if (s->shelves < 0 || s->shelves > TARN_SHELVES_MAX)
		return tarn_fail(err, TARN_EARG, "basin.shelves",
				 "takes at most %d shelves", TARN_SHELVES_MAX);
	for (int k = 0; k < s->shelves; k++) {
		if (!(s->shelf[k].width_m > 0) || !isfinite(s->shelf[k].width_m))
			return tarn_fail(err, TARN_EARG, "basin.shelves",
					 "shelf %d: width must be above 0 m, "
					 "got %g", k + 1, s->shelf[k].width_m);
		if (!(s->shelf[k].depth_m > last) ||
		    !(s->shelf[k].depth_m < s->depth_m))
			return tarn_fail(err, TARN_EARG, "basin.shelves",
					 "shelf %d: depth must lie between %g "
					 "and %g m below the edge (shelves from "
					 "the top down), got %g", k + 1, last,
					 s->depth_m, s->shelf[k].depth_m);
		last = s->shelf[k].depth_m;
	}
	return TARN_OK;
}

static enum tarn_status check_shape(const struct tarn_shelved *s,
				    struct tarn_error *err)
{
	enum tarn_status status =
		tarn_fields_check(&tarn_shelved_fields, s, err);
	double floor_inset;

	if (status == TARN_OK)
		status = check_shelves(s, err);
	if (status != TARN_OK)
		return status;
	if (s->shape == TARN_IRREGULAR && isnan(s->area_factor))
		return tarn_fail(err, TARN_EARG, "basin.area_factor",
				 "is missing: an irregular outline needs its "
				 "area / (length x width); 0.75 to 0.85 is common "
				 "practice");
	if (s->shape != TARN_IRREGULAR && !isnan(s->area_factor))
		return tarn_fail(err, TARN_EARG, "basin.area_factor",
				 "belongs to shape \"irregular\" only");
	floor_inset = inset(s, s->depth_m, 0);
	if (!(plan_area(s, floor_inset) > 0))
		return tarn_fail(err, TARN_EARG, "basin", "walls and shelves "
				 "take %g m from each side and meet before the "
				 "floor: the basin is %g x %g m, %g m deep",
				 floor_inset, s->length_m, s->width_m,
				 s->depth_m);
	return TARN_OK;
}

/* Rows of the table between two edges, floor upward. */
static size_t add_wall(struct tarn_basin *b, size_t at,
		       const struct tarn_shelved *s, double from_depth_m,
		       double to_depth_m)
{
	int steps = s->side_slope > 0 ? STEPS : 1;

	for (int k = 0; k <= steps; k++) {
		double depth = from_depth_m +
			       (to_depth_m - from_depth_m) * k / steps;

		if (k == steps)
			depth = to_depth_m;
		b->level_m[at] = s->depth_m - depth;
		/* the wall stands on the lower shelf, under the upper one */
		b->area_m2[at++] = plan_area(s, inset(s, depth, k == 0));
	}
	return at;
}

static void scale_to(struct tarn_basin *b, double volume_m3)
{
	b->scale = volume_m3 / b->volume_m3[b->rows - 1];
	for (size_t i = 0; i < b->rows; i++)
		b->area_m2[i] *= b->scale;
	tn_basin_integrate(b);
}

enum tarn_status tarn_basin_shelved(struct tarn_basin **out,
				    const struct tarn_alloc *alloc,
				    const struct tarn_shelved *s,
				    struct tarn_error *err)
{
	enum tarn_status status = check_shape(s, err);
	struct tarn_basin *b;
	double from;
	size_t at = 0;

	*out = NULL;
	if (status != TARN_OK)
		return status;
	b = tn_basin_make(alloc, (size_t)(s->shelves + 1) * (STEPS + 1));
	if (!b)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	from = s->depth_m;
	for (int k = s->shelves - 1; k >= 0; k--) {
		at = add_wall(b, at, s, from, s->shelf[k].depth_m);
		from = s->shelf[k].depth_m;
	}
	b->rows = add_wall(b, at, s, from, 0);
	tn_basin_integrate(b);
	if (!isnan(s->metered_m3))
		scale_to(b, s->metered_m3);
	*out = b;
	return TARN_OK;
}

double tarn_polygon_area(const double *xy, size_t count)
{
	double twice = 0;

	if (count < 3)
		return TARN_NAN;
	for (size_t i = 0; i < count; i++) {
		size_t j = (i + 1) % count;

		twice += xy[2 * i] * xy[2 * j + 1] - xy[2 * j] * xy[2 * i + 1];
	}
	return fabs(twice) / 2;
}
