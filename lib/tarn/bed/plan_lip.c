/* SPDX-License-Identifier: MIT */
/* The way to the lip: what is described of it, the level upstream, and the
 * trough that a bed wants whose water would stand on the stone. */
#include "plan.h"

#define STEP 0.005	/* m, of a trough's depth */

static const double troughs[] = { 0.1, 0.15, 0.2, 0.3, 0.4 };

enum tarn_status tn_plan_lip(const struct tarn_bed_question *q,
			     struct tarn_bed_plan *p, struct tarn_error *err)
{
	const struct tarn_bed_wish *w = q->wish;

	if (isnan(w->trough_width_m) != isnan(w->trough_depth_m))
		return tarn_fail(err, TARN_EARG, isnan(w->trough_width_m)
				 ? "bed.trough_width" : "bed.trough_depth",
				 "is missing: a trough has both");
	if (!isnan(w->lip_width_m) && !isnan(q->lip_m))
		return tarn_fail(err, TARN_EARG, "bed.lip_width", "is given "
				 "beside the width of the bed's own fall: keep "
				 "the one or the other");
	p->lip_m = isnan(w->lip_width_m) ? q->lip_m : w->lip_width_m;
	p->lip_from = !isnan(w->lip_width_m) ? TARN_LIP_FROM_BED
		: !isnan(q->lip_m) ? TARN_LIP_FROM_FALL : -1;
	if (p->lip_m > w->width_m * ALMOST)
		return tarn_fail(err, TARN_EARG, "bed.width", "of %g m is less "
				 "than the %g m of the lip along it: correct "
				 "the one or the other", w->width_m, p->lip_m);
	if (!isnan(w->trough_width_m))
		p->lip_from = TARN_LIP_FROM_TROUGH;
	return TARN_OK;
}

/* The bed with a trough of a width: its floor so far under the lip that the
 * stone stays dry; NaN where it would be deeper than wide. */
static double depth_for(const struct tarn_bed_plan *p, double width_m)
{
	struct tarn_sizing s = tn_plan_sizing(p, p->sized.bed.area_m2);
	struct tarn_sizing_result r;

	s.width_m = p->sized.bed.width_m;
	s.trough_width_m = width_m;
	for (int n = 1; n * STEP <= width_m * ALMOST; n++) {
		s.trough_depth_m = n * STEP;
		if (tarn_sizing(&s, &r, NULL) != TARN_OK)
			break;
		if (!(r.bed.flags & TARN_BED_WATER_ON_GRAVEL))
			return s.trough_depth_m;
	}
	return TARN_NAN;
}

void tn_plan_level(struct tarn_bed_plan *p)
{
	const struct tarn_bed_check *bed = &p->sized.bed;
	size_t count = sizeof troughs / sizeof troughs[0];

	p->level_clear_m = bed->rise_clear_m + p->ask.lip_head_m;
	p->level_clogged_m = bed->rise_m + p->ask.lip_head_m;
	p->trough_wanted = isnan(p->ask.trough_width_m) &&
			   (bed->flags & TARN_BED_WATER_ON_GRAVEL) != 0;
	for (size_t k = 0; p->trough_wanted && k < count; k++) {
		p->trough_depth_m = depth_for(p, troughs[k]);
		p->trough_width_m = isnan(p->trough_depth_m) ? TARN_NAN
							     : troughs[k];
		if (!isnan(p->trough_depth_m))
			return;
	}
}
