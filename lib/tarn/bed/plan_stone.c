/* SPDX-License-Identifier: MIT */
/* The stone that works: as far as it is under water. */
#include <string.h>

#include "plan.h"

#define NOTHING 1e-9	/* m, thickness of a layer that is not there */

/* Takes the dry cover off the top of the layers. */
static void wet_part(const struct tarn_bed_question *q,
		     struct tarn_bed_plan *p)
{
	double dry_m = q->wish->cover_m;
	size_t n = TARN_BED_LAYERS;

	for (size_t i = q->layers; i-- > 0;) {
		struct tarn_layer layer = q->layer[i];
		double off_m = fmin(dry_m, layer.thickness_m);

		dry_m -= off_m;
		layer.thickness_m -= off_m;
		if (layer.thickness_m > NOTHING)
			p->wet[--n] = layer;
	}
	p->wets = TARN_BED_LAYERS - n;
	memmove(p->wet, p->wet + n, p->wets * sizeof p->wet[0]);
}

enum tarn_status tn_plan_stone(const struct tarn_bed_question *q,
			       struct tarn_bed_plan *p, struct tarn_error *err)
{
	const double cover_m = q->wish->cover_m;

	p->depth_m = q->depth_m;
	p->full_depth_m = q->depth_m + cover_m;
	if (q->layers > 0) {
		if (q->layers > TARN_BED_LAYERS)
			return tarn_fail(err, TARN_EARG, "bed.layers", "must "
					 "be a list of up to %d layers",
					 TARN_BED_LAYERS);
		wet_part(q, p);
		p->full_depth_m = 0;
		for (size_t i = 0; i < q->layers; i++)
			p->full_depth_m += q->layer[i].thickness_m;
		p->depth_m = p->full_depth_m - cover_m;
		p->chamber = isnan(q->layer[0].diameter_m);
	}
	if (isnan(p->depth_m))
		return tarn_fail(err, TARN_EARG, "bed.layers", "are missing: "
				 "list them from the bottom (or give "
				 "bed.depth)");
	if (!(p->depth_m > 0))
		return tarn_fail(err, TARN_EARG, "bed.cover", "of %g m leaves "
				 "no water in layers of %g m", cover_m,
				 p->full_depth_m);
	return TARN_OK;
}

void tn_plan_one_stone(const struct tarn_bed_question *q,
		       struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *wet = &p->sized.bed;
	double all = q->layers > 0 ? TARN_NAN : p->full_depth_m / p->depth_m;

	p->stone_m3 = wet->volume_m3 * all;
	p->stone_kg = wet->mass_kg * all;
}

enum tarn_status tarn_bed_stone(const struct tarn_bed_question *q,
				const struct tarn_bed_plan *plan,
				struct tarn_layer_result each[],
				struct tarn_layers_result *total,
				struct tarn_error *err)
{
	struct tarn_layers in = tarn_layers_default();
	struct tarn_error own = { 0 };

	if (q->layers == 0)
		return tarn_fail(err, TARN_EARG, "bed.layers", "are missing: "
				 "list them from the bottom");
	in.layer = q->layer;
	in.count = q->layers;
	in.area_m2 = plan->sized.bed.area_m2;
	in.flow_m3s = plan->flow_m3s;
	in.lip_m = plan->depth_m;
	in.density_kgm3 = q->density_kgm3;
	in.viscosity_pas = q->viscosity_pas;
	in.clogging = q->wish->clogging;
	if (tarn_layers(&in, each, total, &own) != TARN_OK)
		return tn_plan_fail(&own, err);
	return TARN_OK;
}
