/* SPDX-License-Identifier: MIT */
#include "tarn/design.h"

/* What a description asks of its bed. */

static enum tarn_status head_at(const void *fall, double flow_m3s,
				double *head_m, struct tarn_error *err)
{
	return tarn_fall_head(fall, flow_m3s, head_m, err);
}

/* Flow that the falls wished take; NaN unless both their sizes are given. */
static enum tarn_status falls_flow(const struct tarn_bed_wish *w,
				   double *flow_m3s, struct tarn_error *err)
{
	struct tarn_weir weir = tarn_weir_default();
	struct tarn_weir_flow out;
	enum tarn_status status;

	*flow_m3s = TARN_NAN;
	if (isnan(w->fall_width_m) || isnan(w->fall_depth_m))
		return TARN_OK;
	weir.kind = TARN_WEIR_BROAD;
	weir.width_m = w->fall_width_m;
	weir.lip_depth_m = w->fall_depth_m;
	status = tarn_weir_solve(&weir, &out, err);
	if (status == TARN_OK)
		*flow_m3s = out.flow_m3s;
	return status;
}

/* What the pond and its works say. */
static enum tarn_status ask_pond(const struct tarn_resolved *made,
				 struct tarn_bed_question *q,
				 struct tarn_error *err)
{
	const struct tarn_pond *pond = &made->pond;
	struct tarn_pond_facts facts;
	enum tarn_status status = tarn_pond_facts(pond, &facts, err);

	if (status != TARN_OK)
		return status;
	q->surface_m2 = facts.full_area_m2;
	q->volume_m3 = facts.full_volume_m3;
	q->bed_m2 = pond->bed.area_m2;
	q->depth_m = pond->bed.depth_m;
	q->porosity = pond->bed.porosity;
	q->works_m3s = made->flow.bed_m3s;
	q->from_curve = made->flow.from_curve;
	if (!q->from_curve)
		q->pump_m3s = pond->pump.flow_m3s;
	if (made->flow.bed_given > 0)
		q->lip_head_m = pond->bed.lip_head_m;
	for (int i = 0; i < made->works.falls; i++)
		if (made->works.fall[i].bed) {
			q->context = &made->works.fall[i];
			q->head_at = head_at;
			q->lip_m = made->works.fall[i].width_m;
		}
	return TARN_OK;
}

enum tarn_status tarn_design_ask_bed(const struct tarn_design *given,
				     const struct tarn_resolved *made,
				     struct tarn_bed_asked *out,
				     struct tarn_error *err)
{
	struct tarn_bed_question *q = &out->question;
	struct tarn_water water = tarn_water(given->wish.temp_c);
	enum tarn_status status;
	size_t count;

	*q = tarn_bed_question_default();
	q->wish = &given->wish;
	q->fish = given->has_fish;
	q->density_kgm3 = water.density_kgm3;
	q->viscosity_pas = water.viscosity_pas;
	q->layer = given->layers ? given->layer : NULL;
	q->layers = (size_t)given->layers;
	if (given->rate >= 0)
		q->rate = &tarn_rates(&count)[given->rate];
	status = ask_pond(made, q, err);
	if (status == TARN_OK)
		status = falls_flow(&given->wish, &q->falls_m3s, err);
	if (status == TARN_OK && given->has_yard) {
		status = tarn_yard_wished(&given->yard, &out->yard,
					  out->corner, err);
		q->yard = &out->yard;
	}
	return status;
}

struct tarn_takeoff_bed tarn_design_takeoff_bed(const struct tarn_design *given)
{
	return (struct tarn_takeoff_bed){
		.length_m = given->wish.length_m,
		.width_m = given->wish.width_m,
		.cover_m = given->wish.cover_m,
		.diameter_m = given->wish.diameter_m,
		.layer = given->layer, .layers = (size_t)given->layers,
	};
}
