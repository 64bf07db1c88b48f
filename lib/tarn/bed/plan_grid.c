/* SPDX-License-Identifier: MIT */
/* Beds about the one of a plan, and its chances. */
#include "plan.h"

void tn_plan_spread(double out[], double low, double high, int count)
{
	for (int i = 0; i < count; i++)
		out[i] = low + (high - low) * i / (count - 1);
}

void tn_plan_steps(double out[], double middle, const double factors[],
		   int count)
{
	for (int i = 0; i < count; i++)
		out[i] = middle * factors[i];
}

struct tarn_bed_axes tarn_bed_axes(const struct tarn_bed_plan *plan,
				   enum tarn_bed_grid grid)
{
	static const double sizes[] = { 0.5, 1, 1.5, 2 };
	static const double flows[] = { 0.5, 1.5 };
	static const double depths[] = { 0.5, 0.75, 1, 1.25, 1.5 };
	const double area_m2 = plan->sized.bed.area_m2;
	const double needed_m2 = isnan(plan->sized.needed_m2)
				 ? 0 : plan->sized.needed_m2;
	const double most_m2 = fmax(2 * area_m2, 1.2 * needed_m2);
	struct tarn_bed_axes a = { .areas = 1, .depths = 1, .flows = 1 };

	a.area_m2[0] = area_m2;
	a.depth_m[0] = plan->depth_m;
	a.flow_m3s[0] = plan->flow_m3s;
	switch (grid) {
	case TARN_GRID_SIZES:
		tn_plan_steps(a.area_m2, area_m2, sizes, a.areas = 4);
		tn_plan_steps(a.depth_m, plan->depth_m, sizes, a.depths = 2);
		return a;
	case TARN_GRID_FLOWS:
		tn_plan_steps(a.flow_m3s, plan->flow_m3s, flows, a.flows = 2);
		return a;
	case TARN_GRID_MAP:
		tn_plan_spread(a.area_m2, most_m2 / 40, most_m2, a.areas = 40);
		tn_plan_spread(a.depth_m, 0.3 * plan->depth_m,
			       1.5 * plan->depth_m, a.depths = 25);
		return a;
	case TARN_GRID_FULL:
		tn_plan_spread(a.area_m2, 0.2 * area_m2, 4 * area_m2,
			       a.areas = 20);
		tn_plan_steps(a.depth_m, plan->depth_m, depths, a.depths = 5);
		tn_plan_spread(a.flow_m3s, 0.2 * plan->flow_m3s,
			       2 * plan->flow_m3s, a.flows = 10);
		return a;
	}
	return (struct tarn_bed_axes){ 0 };
}

/* One area at one flow, all depths: every 'flows'-th cell of 'out'. */
static enum tarn_status column(const struct tarn_sizing *s,
			       const struct tarn_bed_axes *axes,
			       double area_m2, double flow_m3s,
			       struct tarn_bed_check out[],
			       struct tarn_error *err)
{
	struct tarn_bed_check cells[TARN_BED_DEPTHS];
	struct tarn_tradeoff one = { &area_m2, axes->depth_m, &flow_m3s,
				     1, (size_t)axes->depths, 1 };
	enum tarn_status st = tarn_tradeoff(s, &one, cells, err);

	if (st != TARN_OK)
		return st;
	for (int d = 0; d < axes->depths; d++)
		out[d * axes->flows] = cells[d];
	return TARN_OK;
}

static enum tarn_status check_axes(const struct tarn_bed_axes *a,
				   struct tarn_error *err)
{
	if (a->areas < 1 || a->areas > TARN_BED_AREAS || a->depths < 1 ||
	    a->depths > TARN_BED_DEPTHS || a->flows < 1 ||
	    a->flows > TARN_BED_FLOWS)
		return tarn_fail(err, TARN_EARG, "grid", "must have 1 to %d "
				 "areas, %d depths and %d flows",
				 TARN_BED_AREAS, TARN_BED_DEPTHS,
				 TARN_BED_FLOWS);
	return TARN_OK;
}

enum tarn_status tarn_bed_cells(const struct tarn_bed_question *q,
				const struct tarn_bed_plan *plan,
				const struct tarn_bed_axes *axes,
				struct tarn_bed_check out[],
				struct tarn_error *err)
{
	struct tarn_error own = { 0 };
	enum tarn_status st = check_axes(axes, &own);

	for (int f = 0; st == TARN_OK && f < axes->flows; f++) {
		struct tarn_sizing s = tn_plan_sizing(plan, TARN_NAN);
		double head_m;

		st = tn_plan_head(q, axes->flow_m3s[f], &head_m, &own);
		if (!isnan(head_m))
			s.lip_head_m = head_m;
		for (int a = 0; st == TARN_OK && a < axes->areas; a++) {
			s.width_m = tn_plan_width(q, plan, axes->area_m2[a]);
			st = column(&s, axes, axes->area_m2[a],
				    axes->flow_m3s[f],
				    out + a * axes->depths * axes->flows + f,
				    &own);
		}
	}
	return st == TARN_OK ? st : tn_plan_fail(&own, err);
}

enum tarn_status tarn_bed_chance(const struct tarn_bed_plan *plan,
				 const struct tarn_chance *chance,
				 const struct tarn_alloc *alloc,
				 struct tarn_chance_result *out,
				 struct tarn_error *err)
{
	struct tarn_sizing s = tn_plan_sizing(plan, plan->sized.bed.area_m2);
	struct tarn_error own = { 0 };

	s.width_m = plan->width_m;
	if (tarn_chance(&s, chance, alloc, out, &own) != TARN_OK)
		return tn_plan_fail(&own, err);
	return TARN_OK;
}
