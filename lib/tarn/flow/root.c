/* SPDX-License-Identifier: MIT */
#include <float.h>

#include "internal.h"

size_t tn_flow_given(const double *values, size_t count)
{
	size_t given = 0;

	for (size_t i = 0; i < count; i++)
		if (!isnan(values[i]))
			given++;
	return given;
}

enum tarn_status tn_flow_need(const double *values, size_t count, size_t want,
			      const char *section, const char *names,
			      struct tarn_error *err)
{
	static const char *const words[] = { "none", "one", "two", "three" };
	size_t given = tn_flow_given(values, count);

	if (given == want)
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, section,
			 "needs %s of %s, got %zu", words[want], names, given);
}

/*
 * Chandrupatla (1997), Adv. Eng. Software 28:145: inverse quadratic
 * interpolation where it is safe, halving where it is not.
 */
double tn_flow_root(flow_function *f, const void *context, double a, double b)
{
	double x1 = a, x2 = b, f1 = f(a, context), f2 = f(b, context), t = 0.5;

	if (f1 == 0)
		return a;
	if (f2 == 0)
		return b;
	if (isnan(f1) || isnan(f2) || (f1 > 0) == (f2 > 0))
		return TARN_NAN;
	for (int i = 0; i < 400; i++) {
		double x = x1 + t * (x2 - x1), fx = f(x, context);
		double x3, f3, best, width, xi, phi;

		if ((fx > 0) == (f1 > 0)) {
			x3 = x1;
			f3 = f1;
		} else {
			x3 = x2;
			f3 = f2;
			x2 = x1;
			f2 = f1;
		}
		x1 = x;
		f1 = fx;
		best = fabs(f2) < fabs(f1) ? x2 : x1;
		if (f1 == 0 || f2 == 0)
			return best;
		width = (2 * DBL_EPSILON * fabs(best) + DBL_MIN) /
			fabs(x2 - x1);
		if (width > 0.5)
			return best;
		xi = (x1 - x2) / (x3 - x2);
		phi = (f1 - f2) / (f3 - f2);
		t = 0.5;
		if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)
			t = f1 / (f2 - f1) * f3 / (f2 - f3) +
			    (x3 - x1) / (x2 - x1) * f1 / (f3 - f1) * f2 /
			    (f3 - f2);
		t = fmin(fmax(t, width), 1 - width);
		if (isnan(t))	/* an infinite f, at an end of the span */
			t = 0.5;
	}
	return TARN_NAN;
}

struct inverse {
	flow_function *f;
	const void *context;
	double log_value, lo, hi;
};

static double log_difference(double log_x, const void *context)
{
	const struct inverse *in = context;

	/* exp(log(hi)) may come out a last bit beyond hi */
	double x = fmin(fmax(exp(log_x), in->lo), in->hi);

	return log(in->f(x, in->context)) - in->log_value;
}

double tn_flow_inverse(flow_function *f, const void *context, double value,
		       double lo, double hi)
{
	struct inverse in = { f, context, log(value), lo, hi };
	double log_x;

	if (!(value > 0))
		return TARN_NAN;
	log_x = tn_flow_root(log_difference, &in, log(lo), log(hi));
	return isnan(log_x) ? TARN_NAN : fmin(fmax(exp(log_x), lo), hi);
}

double tn_flow_interpolate(const double *xs, const double *ys, size_t count,
			   double x)
{
	size_t i = 1;

	if (x <= xs[0])
		return ys[0];
	if (x >= xs[count - 1])
		return ys[count - 1];
	while (x > xs[i])
		i++;
	return ys[i - 1] + (ys[i] - ys[i - 1]) * (x - xs[i - 1]) /
				   (xs[i] - xs[i - 1]);
}
