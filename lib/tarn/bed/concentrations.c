/* SPDX-License-Identifier: MIT */
#include "tarn/bed.h"
#include "constants.h"

#define STEP 0.01		/* of the shortest e-folding length */
#define STEPS_MAX 10000000.0

/* Q dC/dA = source - sum C, Q = flow + alpha A */
struct slope {
	double flow, alpha, sum, source;
};

static double slope_at(const struct slope *s, double area, double c)
{
	return (s->source - s->sum * c) / (s->flow + s->alpha * area);
}

static double runge_kutta(const struct slope *s, double area, double step,
			  double c)
{
	double k1 = slope_at(s, area, c);
	double k2 = slope_at(s, area + step / 2, c + step / 2 * k1);
	double k3 = slope_at(s, area + step / 2, c + step / 2 * k2);
	double k4 = slope_at(s, area + step, c + step * k3);

	return c + step / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
}

enum tarn_status tarn_treatment_profile(const struct tarn_treatment *t,
					size_t points, double mgl[],
					struct tarn_error *err)
{
	struct tarn_treatment_result r;
	enum tarn_status st = tarn_treatment_outlet(t, &r, err);
	struct slope s;
	double width, rate, steps;

	if (st != TARN_OK)
		return st;
	if (points < 2)
		return tarn_fail(err, TARN_EARG, "points", "must be 2 or "
				 "more, got %zu", points);
	if (isfinite(t->tanks_in_series))
		return tarn_fail(err, TARN_EARG, "treatment.tanks_in_series",
				 "must be "
				 "infinite: a profile is of plug flow");
	s.flow = t->flow_m3s * DAY;
	s.alpha = (t->rain_mm_d - t->et_mm_d) / 1000;
	s.sum = r.k_m_d + s.alpha;
	s.source = r.k_m_d * t->background_mgl +
		   t->rain_mm_d / 1000 * t->rain_mgl;
	width = t->area_m2 / (double)(points - 1);
	rate = (r.k_m_d + 2 * fabs(s.alpha)) /
	       fmin(s.flow, r.outflow_m3s * DAY);
	steps = fmax(1, ceil(width * rate / STEP));
	if (steps * (double)points > STEPS_MAX)
		return tarn_fail(err, TARN_EARG, "treatment.area", "is so "
				 "large for the flow that a profile means "
				 "nothing: the outlet is %g mg/L",
				 r.outlet_mgl);
	mgl[0] = t->inlet_mgl;
	for (size_t i = 1; i < points; i++) {
		double at = width * (double)(i - 1), c = mgl[i - 1];

		for (double j = 0; j < steps; j++)
			c = runge_kutta(&s, at + width * j / steps,
					width / steps, c);
		mgl[i] = c;
	}
	return TARN_OK;
}
