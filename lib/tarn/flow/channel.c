/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_channel
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1e4, TARN_NAN, "flow"),
	TARN_IN_NUMBER(IN, depth_m, "depth", "m", 0, 100, TARN_NAN,
		       "normal depth above the lowest point"),
	TARN_IN_NUMBER(IN, slope, "slope", "-", -10, 10, TARN_NAN,
		       "fall of the bed over its length"),
	TARN_IN_NUMBER(IN, manning, "manning", "s/m^(1/3)", 0.005, 1, TARN_NAN,
		       "Manning's n"),
	TARN_IN_NUMBER(IN, width_m, "width", "m", 0, 1e4, TARN_NAN,
		       "width of the floor"),
	TARN_IN_VALUE(IN, side_slope, "side_slope", "-", 0, 100, 0,
		      "sides, level run per rise"),
	TARN_IN_NUMBER(IN, diameter_m, "diameter", "m", 1e-3, 20, TARN_NAN,
		       "round pipe, partly full"),
	TARN_IN_POINTS(IN, points, point_count, "points", "m",
		       "section as surveyed: { across, height } from one bank "
		       "to the other"),
};
TARN_FIELDS(tarn_channel_fields, "channel", rows);
TARN_DEFAULT(IN, tarn_channel_default, tarn_channel_fields)

static const char *const states[] = { "subcritical", "critical",
				      "supercritical", NULL };

#define OUT struct tarn_channel_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow"),
	TARN_OUT_NUMBER(OUT, depth_m, "depth", "m", "normal depth"),
	TARN_OUT_NUMBER(OUT, width_m, "width", "m", "width of the floor"),
	TARN_OUT_NUMBER(OUT, velocity_ms, "velocity", "m/s", "mean velocity"),
	TARN_OUT_NUMBER(OUT, area_m2, "area", "m2", "of the flow"),
	TARN_OUT_NUMBER(OUT, perimeter_m, "perimeter", "m", "wetted"),
	TARN_OUT_NUMBER(OUT, top_width_m, "top_width", "m", "of the surface"),
	TARN_OUT_NUMBER(OUT, hydraulic_radius_m, "hydraulic_radius", "m",
			"area over perimeter"),
	TARN_OUT_NUMBER(OUT, froude, "froude", "-", "Froude number"),
	TARN_OUT_CHOICE(OUT, state, "state", states, "slow or fast"),
	TARN_OUT_NUMBER(OUT, critical_depth_m, "critical_depth", "m",
			"critical depth"),
	TARN_OUT_NUMBER(OUT, critical_slope, "critical_slope", "-",
			"slope at which it is normal"),
	TARN_OUT_NUMBER(OUT, energy_m, "energy", "m",
			"depth and velocity head"),
	TARN_OUT_NUMBER(OUT, shear_pa, "shear", "Pa", "mean shear on the bed"),
};
TARN_FIELDS(tarn_channel_flow_fields, "channel", result_rows);

double tn_manning_velocity_ms(double hydraulic_radius_m, double slope,
			      double manning)
{
	if (!(hydraulic_radius_m > 0 && slope > 0 && manning > 0))
		return TARN_NAN;
	return cbrt(hydraulic_radius_m * hydraulic_radius_m) * sqrt(slope) /
	       manning;
}

/* ---- checks ----------------------------------------------------------- */

static enum tarn_status check_points(const struct tarn_channel *c,
				     struct tarn_error *err)
{
	if (c->point_count < 3)
		return tarn_fail(err, TARN_EARG, "channel.points", "needs "
				 "three or more, got %zu", c->point_count);
	for (size_t i = 0; i < c->point_count; i++) {
		const struct tarn_point *p = &c->points[i];

		if (!isfinite(p->x_m) || !isfinite(p->level_m))
			return tarn_fail(err, TARN_EARG, "channel.points",
					 "number %zu is not a number", i + 1);
		if (i > 0 && p->x_m < p[-1].x_m)
			return tarn_fail(err, TARN_EARG, "channel.points",
					 "number %zu: x must not fall, got %g "
					 "after %g", i + 1, p->x_m, p[-1].x_m);
	}
	if (!(tn_flow_section_depth(c) > 0))
		return tarn_fail(err, TARN_EARG, "channel.points", "hold no "
				 "water: the first and the last must be banks");
	return TARN_OK;
}

static enum tarn_status check_section(const struct tarn_channel *c,
				      struct tarn_error *err)
{
	const double other[] = { c->diameter_m, c->points ? 1 : TARN_NAN };

	if (tn_flow_given(other, 2) == 0 && c->width_m == 0 &&
	    c->side_slope == 0)
		return tarn_fail(err, TARN_EARG, "channel.width", "is zero "
				 "and so is side_slope");
	if (tn_flow_given(other, 2) == 2 ||
	    (tn_flow_given(other, 2) == 1 &&
	     (!isnan(c->width_m) || c->side_slope != 0)))
		return tarn_fail(err, TARN_EARG, "channel", "has more than one "
				 "section: give width (with side_slope), "
				 "diameter or points");
	return c->points ? check_points(c, err) : TARN_OK;
}

static int is_trapezoid(const struct tarn_channel *c)
{
	return !c->points && isnan(c->diameter_m);
}

/* What is given, what is asked. */
static enum tarn_status check_unknown(const struct tarn_channel *c,
				      struct tarn_error *err)
{
	const double two[] = { c->flow_m3s, c->depth_m };
	const double three[] = { c->flow_m3s, c->depth_m, c->width_m };

	if (isnan(c->slope)) {	/* not uniform: flow and section are known */
		if (isnan(c->flow_m3s) ||
		    (is_trapezoid(c) && isnan(c->width_m)))
			return tarn_fail(err, TARN_EARG, "channel", "without "
					 "slope and manning needs flow and a "
					 "section");
		return TARN_OK;
	}
	if (is_trapezoid(c))
		return tn_flow_need(three, 3, 2, "channel", "flow, depth and "
				    "width", err);
	return tn_flow_need(two, 2, 1, "channel", "flow and depth", err);
}

static enum tarn_status check(const struct tarn_channel *c,
			      struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_channel_fields, c, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(c->slope) != isnan(c->manning))
		return tarn_fail(err, TARN_EARG, "channel", "slope and manning "
				 "go together");
	if (c->slope <= 0)
		return tarn_fail(err, TARN_EARG, "channel.slope", "must fall "
				 "towards the pond (above 0), got %g: this "
				 "stream would drain away from it or stand",
				 c->slope);
	if (check_section(c, err) != TARN_OK ||
	    check_unknown(c, err) != TARN_OK)
		return TARN_EARG;
	if (c->depth_m > tn_flow_section_depth(c))
		return tarn_fail(err, TARN_EARG, "channel.depth", "%g m is "
				 "over the banks, which hold %g m", c->depth_m,
				 tn_flow_section_depth(c));
	if (c->flow_m3s == 0 || c->depth_m == 0)
		return tarn_fail(err, TARN_EARG, "channel", "flow and depth "
				 "must be above zero");
	return TARN_OK;
}

/* ---- solving ---------------------------------------------------------- */

static double normal_flow(double depth, const void *context)
{
	const struct tarn_channel *c = context;
	struct tarn_section s = tn_section_at(c, depth);

	if (!(s.area_m2 > 0))
		return 0;
	return s.area_m2 * tn_manning_velocity_ms(s.area_m2 / s.perimeter_m,
						  c->slope, c->manning);
}

/* The flow for which a depth is critical. */
static double critical_flow(double depth, const void *context)
{
	struct tarn_section s = tn_section_at(context, depth);

	if (!(s.area_m2 > 0))
		return 0;
	return s.area_m2 * sqrt(TARN_GRAVITY * s.area_m2 / s.top_width_m);
}

static double flow_by_width(double width, const void *context)
{
	struct tarn_channel c = *(const struct tarn_channel *)context;

	c.width_m = width;
	return normal_flow(c.depth_m, &c);
}

/*
 * Lowest depth up to 'top' at which f reaches a flow.  An irregular bed's f
 * may dip where water spills on to a bench, so the first of many small steps
 * that reaches the flow is searched.
 */
static double lowest_depth(flow_function *f, const struct tarn_channel *c,
			   double flow, double top)
{
	const int steps = c->points ? 500 : 1;
	double below = 1e-9 * fmin(top, 1);

	for (int i = 1; i <= steps; i++) {
		double above = top * i / steps;

		if (f(above, c) >= flow)
			return tn_flow_inverse(f, c, flow, below, above);
		below = above;
	}
	return TARN_NAN;
}

/* A round pipe carries most at this share of its diameter. */
#define FULLEST 0.938

static double find_depth(const struct tarn_channel *c, struct tarn_error *err)
{
	double top = tn_flow_section_depth(c), depth;

	if (!isnan(c->diameter_m))
		top *= FULLEST;
	depth = lowest_depth(normal_flow, c, c->flow_m3s, top);
	if (isnan(depth))
		tarn_fail(err, TARN_EARG, "channel.flow", "%g m3/s does not "
			  "fit: the section carries %.4g m3/s at this slope",
			  c->flow_m3s, normal_flow(top, c));
	return depth;
}

static double find_width(const struct tarn_channel *c, struct tarn_error *err)
{
	double width = tn_flow_inverse(flow_by_width, c, c->flow_m3s, 1e-6,
				       1e5);

	if (isnan(width))
		tarn_fail(err, TARN_EARG, "channel.width", "no width carries "
			  "%g m3/s %g m deep: it is less than the sides alone "
			  "take", c->flow_m3s, c->depth_m);
	return width;
}

static void report_critical(const struct tarn_channel *c, double flow,
			    struct tarn_channel_flow *out)
{
	double top = tn_flow_section_depth(c);
	double depth = lowest_depth(critical_flow, c, flow, top);
	struct tarn_section s = tn_section_at(c, depth);
	double unit = s.area_m2 *
		tn_manning_velocity_ms(s.area_m2 / s.perimeter_m, 1,
				       c->manning);

	out->critical_depth_m = depth;
	out->critical_slope = flow / unit * (flow / unit);
}

static void report(const struct tarn_channel *c, double flow, double depth,
		   struct tarn_channel_flow *out)
{
	struct tarn_section s = tn_section_at(c, depth);
	double v = flow / s.area_m2;

	out->flow_m3s = flow;
	out->depth_m = depth;
	out->width_m = c->width_m;
	out->velocity_ms = v;
	out->area_m2 = s.area_m2;
	out->perimeter_m = s.perimeter_m;
	out->top_width_m = s.top_width_m;
	out->hydraulic_radius_m = s.area_m2 / s.perimeter_m;
	out->froude = v / sqrt(TARN_GRAVITY * s.area_m2 / s.top_width_m);
	out->state = isnan(out->froude) ? -1
		: out->froude < 0.999 ? TARN_SUBCRITICAL
		: out->froude > 1.001 ? TARN_SUPERCRITICAL : TARN_CRITICAL;
	out->energy_m = depth + v * v / (2 * TARN_GRAVITY);
	out->shear_pa = 1000 * TARN_GRAVITY * out->hydraulic_radius_m *
			c->slope;
	report_critical(c, flow, out);
}

enum tarn_status tarn_channel_solve(const struct tarn_channel *channel,
				    struct tarn_channel_flow *out,
				    struct tarn_error *err)
{
	struct tarn_channel c = *channel;
	double flow = c.flow_m3s, depth = c.depth_m;

	if (check(&c, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(c.slope)) {
		/* all that can be told follows from what is given */
	} else if (isnan(depth)) {
		depth = find_depth(&c, err);
		if (isnan(depth))
			return TARN_EARG;
	} else if (isnan(flow)) {
		flow = normal_flow(depth, &c);
		if (!(flow > 0))
			return tarn_fail(err, TARN_EARG, "channel.depth", "%g "
					 "m: the section has no width there",
					 depth);
	} else {
		c.width_m = find_width(&c, err);
		if (isnan(c.width_m))
			return TARN_EARG;
	}
	report(&c, flow, depth, out);
	return TARN_OK;
}
