/* SPDX-License-Identifier: MIT */
#include "internal.h"

static const struct tarn_section nothing = { (double)NAN, (double)NAN,
					     (double)NAN };

static struct tarn_section trapezoid(double width, double side, double depth)
{
	return (struct tarn_section){
		.area_m2 = (width + side * depth) * depth,
		.perimeter_m = width + 2 * depth * sqrt(1 + side * side),
		.top_width_m = width + 2 * side * depth,
	};
}

static struct tarn_section circle(double diameter, double depth)
{
	double half = acos(1 - 2 * depth / diameter);	/* half the angle */
	double sine = sin(half);

	return (struct tarn_section){
		.area_m2 = diameter * diameter / 4 * (half - sine * cos(half)),
		.perimeter_m = diameter * half,
		.top_width_m = diameter * sine,
	};
}

/* One straight piece of bed, its ends 'a' and 'b' deep under the surface
 * (negative: above it), 'run' apart. */
static void add_piece(double a, double b, double run, struct tarn_section *s)
{
	double deep = fmax(a, b), shallow = fmin(a, b), share = 1;

	if (!(deep > 0))
		return;
	if (shallow < 0) {	/* only the deeper part is wet */
		share = deep / (deep - shallow);
		shallow = 0;
	}
	run *= share;
	s->area_m2 += run * (deep + shallow) / 2;
	s->perimeter_m += sqrt(run * run +
			       (deep - shallow) * (deep - shallow));
	s->top_width_m += run;
}

static double lowest(const struct tarn_channel *c)
{
	double least = c->points[0].level_m;

	for (size_t i = 1; i < c->point_count; i++)
		least = fmin(least, c->points[i].level_m);
	return least;
}

static struct tarn_section any_bed(const struct tarn_channel *c, double depth)
{
	struct tarn_section s = { 0, 0, 0 };
	double surface = lowest(c) + depth;

	for (size_t i = 1; i < c->point_count; i++)
		add_piece(surface - c->points[i - 1].level_m,
			  surface - c->points[i].level_m,
			  c->points[i].x_m - c->points[i - 1].x_m, &s);
	return s;
}

double tn_flow_section_depth(const struct tarn_channel *c)
{
	if (c->points)
		return fmin(c->points[0].level_m,
			    c->points[c->point_count - 1].level_m) - lowest(c);
	return isnan(c->diameter_m) ? 100 : c->diameter_m;
}

struct tarn_section tn_section_at(const struct tarn_channel *channel,
				  double depth_m)
{
	const double kinds[] = { channel->width_m, channel->diameter_m,
				 channel->points ? 1 : TARN_NAN };

	if (tn_flow_given(kinds, 3) != 1 || !(depth_m >= 0) ||
	    depth_m > tn_flow_section_depth(channel))
		return nothing;
	if (channel->points)
		return any_bed(channel, depth_m);
	if (!isnan(channel->diameter_m))
		return circle(channel->diameter_m, depth_m);
	return trapezoid(channel->width_m, channel->side_slope, depth_m);
}
