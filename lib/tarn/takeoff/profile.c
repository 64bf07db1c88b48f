/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/takeoff/profile.h"

#define PI 3.14159265358979323846
#define STEPS 128	/* of a basin without a shape */

/* Perimeter of an ellipse, Ramanujan 1914 (second form, within 4e-4 of exact
 * up to 10 : 1 and far less below). */
static double ellipse_perimeter(double length_m, double width_m)
{
	double a = length_m / 2, b = width_m / 2, h;

	if (a + b <= 0)
		return 0;
	h = (a - b) * (a - b) / ((a + b) * (a + b));
	return PI * (a + b) * (1 + 3 * h / (10 + sqrt(4 - 3 * h)));
}

/* An irregular outline's shore: that of an ellipse of its sizes, scaled by the
 * root of the areas.  Bays make it longer; ours, no source. */
static double irregular_perimeter(double length_m, double width_m, double area)
{
	double oval = PI / 4 * length_m * width_m;

	return oval > 0 ? ellipse_perimeter(length_m, width_m) *
			  sqrt(area / oval) : 0;
}

static struct tarn_station station_of(const struct tarn_shelved *s, double level_m,
				 double inset_m)
{
	double l = s->length_m - 2 * inset_m, w = s->width_m - 2 * inset_m;
	struct tarn_station at = { level_m, l, w, l * w, 2 * (l + w) };

	if (s->shape == TARN_ELLIPSE) {
		at.area_m2 = PI / 4 * l * w;
		at.perimeter_m = ellipse_perimeter(l, w);
	} else if (s->shape == TARN_IRREGULAR) {
		at.area_m2 = s->area_factor * l * w;
		at.perimeter_m = irregular_perimeter(l, w, at.area_m2);
	}
	return at;
}

void tn_profile_of_shape(const struct tarn_shelved *s, struct profile *out)
{
	double inset = 0, above = 0;

	out->count = 0;
	out->at[out->count++] = station_of(s, s->depth_m, 0);
	for (int k = 0; k <= s->shelves; k++) {
		double depth = k < s->shelves ? s->shelf[k].depth_m
					      : s->depth_m;

		inset += s->side_slope * (depth - above);
		above = depth;
		out->at[out->count++] = station_of(s, s->depth_m - depth,
						   inset);
		if (k == s->shelves)
			break;
		inset += s->shelf[k].width_m;
		out->at[out->count++] = station_of(s, s->depth_m - depth,
						   inset);
	}
}

void tn_profile_of_basin(const struct tarn_basin *b, double length_m,
			 double width_m, struct profile *out)
{
	double top = tarn_basin_top(b), low = tarn_basin_floor(b);
	double edge = tarn_basin_area(b, top);

	out->count = 0;
	for (int i = 0; i <= STEPS; i++) {
		double level = i < STEPS ? top - (top - low) * i / STEPS : low;
		double area = tarn_basin_area(b, level);
		double share = sqrt(area / edge);
		struct tarn_station at = { level, length_m * share, width_m * share,
				      area, 0 };

		at.perimeter_m = irregular_perimeter(at.length_m, at.width_m,
						     area);
		out->at[out->count++] = at;
	}
}

struct surfaces tn_profile_surfaces(const struct profile *p)
{
	const struct tarn_station *last = &p->at[p->count - 1];
	struct surfaces s = { last->area_m2, 0, 0, last->length_m,
			      last->width_m };

	for (size_t i = 1; i < p->count; i++) {
		const struct tarn_station *a = &p->at[i - 1], *b = &p->at[i];
		double down = a->level_m - b->level_m;
		double in_l = (a->length_m - b->length_m) / 2;
		double in_w = (a->width_m - b->width_m) / 2;

		s.along_m += 2 * hypot(down, in_l);
		s.across_m += 2 * hypot(down, in_w);
		if (down > 0)
			s.walls_m2 += hypot(down, (in_l + in_w) / 2) *
				      (a->perimeter_m + b->perimeter_m) / 2;
		else
			s.shelves_m2 += a->area_m2 - b->area_m2;
	}
	return s;
}
