/* SPDX-License-Identifier: MIT */
#include "internal.h"

/* Pumps side by side, which may differ; each has its check valve. */

static double first_head(const struct tarn_pump_curve *p)
{
	double head = p->points ? p->head_m[0] : p->max_head_m;

	return head * p->speed * p->speed;
}

static double last_head(const struct tarn_pump_curve *p)
{
	double head = p->points ? p->head_m[p->points - 1] : 0;

	return head * p->speed * p->speed;
}

static int starts_at_zero(const struct tarn_pump_curve *p)
{
	return p->points == 0 || p->flow_m3s[0] == 0;
}

/* A pump whose curve starts at no flow gives none above its first head; one
 * whose curve starts later is not known there. */
struct flow_span tn_flow_group_span(const struct tarn_pump_curve *pumps,
				    size_t count)
{
	struct flow_span s = { 0, 0 };
	double limit = HUGE_VAL;

	for (size_t i = 0; i < count; i++) {
		s.lo = fmax(s.lo, last_head(&pumps[i]));
		if (starts_at_zero(&pumps[i]))
			s.hi = fmax(s.hi, first_head(&pumps[i]));
		else
			limit = fmin(limit, first_head(&pumps[i]));
	}
	if (limit < HUGE_VAL && (s.hi == 0 || limit < s.hi))
		s.hi = limit;
	return s;
}

double tn_flow_group_flow(const struct tarn_pump_curve *pumps, size_t count,
			  double head)
{
	double sum = 0;

	for (size_t i = 0; i < count; i++)
		if (head < first_head(&pumps[i]) || !starts_at_zero(&pumps[i]))
			sum += tarn_pump_flow_m3s(&pumps[i], head);
	return sum;
}

struct group {
	const struct tarn_pump_curve *pumps;
	size_t count;
	double flow;
};

static double excess(double head, const void *context)
{
	const struct group *g = context;

	return tn_flow_group_flow(g->pumps, g->count, head) - g->flow;
}

double tn_flow_group_head(const struct tarn_pump_curve *pumps, size_t count,
			  double flow)
{
	const struct group g = { pumps, count, flow };
	struct flow_span s = tn_flow_group_span(pumps, count);

	if (count == 0 || !(s.lo < s.hi))
		return TARN_NAN;
	return tn_flow_root(excess, &g, s.lo, s.hi);
}

double tn_flow_group_label(const struct tarn_pump_curve *pumps, size_t count)
{
	double sum = 0;

	for (size_t i = 0; i < count; i++) {
		const struct tarn_pump_curve *p = &pumps[i];
		double zero = tarn_pump_flow_m3s(p, 0);

		sum += isnan(zero) ? p->count * p->speed * p->label_flow_m3s
				   : zero;
	}
	return sum;
}
