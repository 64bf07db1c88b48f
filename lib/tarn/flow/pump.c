/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_pump_curve
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, max_head_m, "max_head", "m", 0.01, 1e4, TARN_NAN,
		       "head at no flow"),
	TARN_IN_NUMBER(IN, label_flow_m3s, "label_flow", "m3/s", 1e-6, 100,
		       TARN_NAN, "flow at zero head, as labels state it"),
	TARN_IN_VALUE(IN, speed, "speed", "-", 0.05, 3, 1,
		      "speed as a share of the curve's"),
	TARN_IN_VALUE(IN, count, "count", "-", 1, 100, 1,
		      "equal pumps in parallel"),
	TARN_IN_COLUMNS(IN, flow_m3s, head_m, points, "curve", "m3/s, m",
			"{ flow, head }, the flow rising and the head falling"),
};
TARN_FIELDS(tarn_pump_curve_fields, "pump", rows);
TARN_DEFAULT(IN, tarn_pump_curve_default, tarn_pump_curve_fields)

static enum tarn_status check_point(const struct tarn_pump_curve *p, size_t i,
				    struct tarn_error *err)
{
	double q = p->flow_m3s[i], h = p->head_m[i];

	if (!(q >= 0 && q < HUGE_VAL && h >= 0 && h < HUGE_VAL))
		return tarn_fail(err, TARN_EARG, "pump.curve", "point %zu: "
				 "flow and head must be zero or more, got %g "
				 "and %g", i + 1, q, h);
	if (i == 0)
		return TARN_OK;
	if (!(q > p->flow_m3s[i - 1]))
		return tarn_fail(err, TARN_EARG, "pump.curve", "point %zu: "
				 "flow must rise, got %g after %g", i + 1, q,
				 p->flow_m3s[i - 1]);
	if (!(h < p->head_m[i - 1]))
		return tarn_fail(err, TARN_EARG, "pump.curve", "point %zu: "
				 "head must fall as flow rises, got %g after "
				 "%g (leave out the points left of the "
				 "highest)", i + 1, h, p->head_m[i - 1]);
	return TARN_OK;
}

enum tarn_status tarn_pump_curve_check(const struct tarn_pump_curve *pump,
				       struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_pump_curve_fields, pump, err) != TARN_OK)
		return TARN_EARG;
	if (pump->count != floor(pump->count))
		return tarn_fail(err, TARN_EARG, "pump.count", "must be a "
				 "whole number, got %g", pump->count);
	if (pump->points == 0) {
		if (isnan(pump->max_head_m) || isnan(pump->label_flow_m3s))
			return tarn_fail(err, TARN_EARG, "pump", "needs a "
					 "curve of flow and head, or max_head "
					 "and label_flow");
		return TARN_OK;
	}
	if (!isnan(pump->max_head_m))
		return tarn_fail(err, TARN_EARG, "pump.max_head", "is given "
				 "beside a curve: give one of them");
	if (pump->points < 2)
		return tarn_fail(err, TARN_EARG, "pump.curve",
				 "needs two points or more");
	for (size_t i = 0; i < pump->points; i++)
		if (check_point(pump, i, err) != TARN_OK)
			return TARN_EARG;
	return TARN_OK;
}

/* ---- the curve -------------------------------------------------------- */

static double chord(const struct tarn_pump_curve *p, size_t i)
{
	return (p->head_m[i + 1] - p->head_m[i]) /
	       (p->flow_m3s[i + 1] - p->flow_m3s[i]);
}

static double width(const struct tarn_pump_curve *p, size_t i)
{
	return p->flow_m3s[i + 1] - p->flow_m3s[i];
}

/* One-sided three-point slope, kept on the falling side. */
static double end_slope(double w0, double w1, double c0, double c1)
{
	double slope = ((2 * w0 + w1) * c0 - w0 * c1) / (w0 + w1);

	return slope < 0 ? slope : 0;
}

/* Slope at a point: weighted harmonic mean of the chords beside it. */
static double slope_at(const struct tarn_pump_curve *p, size_t i)
{
	double left, right;

	if (p->points == 2)
		return chord(p, 0);
	if (i == 0)
		return end_slope(width(p, 0), width(p, 1), chord(p, 0),
				 chord(p, 1));
	if (i == p->points - 1)
		return end_slope(width(p, i - 1), width(p, i - 2),
				 chord(p, i - 1), chord(p, i - 2));
	left = 2 * width(p, i) + width(p, i - 1);
	right = width(p, i) + 2 * width(p, i - 1);
	return (left + right) / (left / chord(p, i - 1) + right / chord(p, i));
}

/* Head between points i and i + 1, by Hermite's cubic. */
static double between(const struct tarn_pump_curve *p, size_t i, double flow)
{
	double w = width(p, i), t = (flow - p->flow_m3s[i]) / w, u = 1 - t;

	return p->head_m[i] * (1 + 2 * t) * u * u +
	       p->head_m[i + 1] * t * t * (1 + 2 * u) +
	       w * t * u * (slope_at(p, i) * u - slope_at(p, i + 1) * t);
}

/* Slope of that cubic. */
static double slope_between(const struct tarn_pump_curve *p, size_t i,
			    double flow)
{
	double t = (flow - p->flow_m3s[i]) / width(p, i), u = 1 - t;

	return 6 * t * u * chord(p, i) + slope_at(p, i) * u * (u - 2 * t) +
	       slope_at(p, i + 1) * t * (t - 2 * u);
}

/* Turns to an end of the span what rounding put just outside it. */
static double snap(double x, double lo, double hi)
{
	const double hair = 1e-14;

	if (x < lo && x >= lo * (1 - hair))
		return lo;
	if (x > hi && x <= hi * (1 + hair))
		return hi;
	return x;
}

/* One pump at the curve's own speed. */
static double curve_head(const struct tarn_pump_curve *p, double flow)
{
	size_t last = p->points - 1;

	if (p->points == 0) {
		double share = snap(flow / p->label_flow_m3s, 0, 1);

		if (!(share >= 0 && share <= 1))
			return TARN_NAN;
		return p->max_head_m * (1 - share * share);
	}
	flow = snap(flow, p->flow_m3s[0], p->flow_m3s[last]);
	if (!(flow >= p->flow_m3s[0] && flow <= p->flow_m3s[last]))
		return TARN_NAN;
	for (size_t i = 0; i < last; i++)
		if (flow <= p->flow_m3s[i + 1])
			return between(p, i, flow);
	return TARN_NAN;
}

struct at_head {
	const struct tarn_pump_curve *pump;
	size_t interval;
	double head;
};

static double head_above(double flow, const void *context)
{
	const struct at_head *at = context;

	return between(at->pump, at->interval, flow) - at->head;
}

static double curve_flow(const struct tarn_pump_curve *p, double head)
{
	size_t last = p->points - 1;

	if (p->points == 0) {
		double share = snap(head / p->max_head_m, 0, 1);

		if (!(share >= 0 && share <= 1))
			return TARN_NAN;
		return p->label_flow_m3s * sqrt(1 - share);
	}
	head = snap(head, p->head_m[last], p->head_m[0]);
	if (!(head <= p->head_m[0] && head >= p->head_m[last]))
		return TARN_NAN;
	for (size_t i = 0; i < last; i++) {
		struct at_head at = { p, i, head };

		if (head >= p->head_m[i + 1])
			return tn_flow_root(head_above, &at, p->flow_m3s[i],
					    p->flow_m3s[i + 1]);
	}
	return TARN_NAN;
}

double tarn_pump_head_m(const struct tarn_pump_curve *pump, double flow_m3s)
{
	double one = flow_m3s / (pump->count * pump->speed);

	return pump->speed * pump->speed * curve_head(pump, one);
}

double tarn_pump_flow_m3s(const struct tarn_pump_curve *pump, double head_m)
{
	double head = head_m / (pump->speed * pump->speed);

	return pump->count * pump->speed * curve_flow(pump, head);
}

double tn_flow_pump_slope(const struct tarn_pump_curve *p, double flow_m3s)
{
	double one = flow_m3s / (p->count * p->speed), slope;
	size_t i = 0;

	if (p->points == 0) {
		slope = -2 * p->max_head_m * one /
			(p->label_flow_m3s * p->label_flow_m3s);
	} else {
		while (i + 2 < p->points && one > p->flow_m3s[i + 1])
			i++;
		slope = slope_between(p, i, one);
	}
	return slope * p->speed / p->count;
}

enum tarn_status
tarn_pump_curve_fit(const double *flow_m3s, const double *head_m,
		    size_t points, double *max_head_m, double *drop_s2m5,
		    struct tarn_error *err)
{
	double n = (double)points, x = 0, y = 0, xx = 0, xy = 0, drop;

	for (size_t i = 0; i < points; i++) {
		x += flow_m3s[i] * flow_m3s[i] / n;
		y += head_m[i] / n;
	}
	for (size_t i = 0; i < points; i++) {
		double dx = flow_m3s[i] * flow_m3s[i] - x;

		xx += dx * dx;
		xy += dx * (head_m[i] - y);
	}
	drop = -xy / xx;
	if (!(drop > 0 && drop < HUGE_VAL))
		return tarn_fail(err, TARN_EARG, "pump.curve", "cannot be "
				 "fitted: needs two different flows or more, "
				 "with a head that falls");
	*drop_s2m5 = drop;
	*max_head_m = y + drop * x;
	return TARN_OK;
}
