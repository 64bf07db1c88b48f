/* SPDX-License-Identifier: MIT */
#include "plan.h"

struct tarn_bed_question tarn_bed_question_default(void)
{
	struct tarn_sizing s = tarn_sizing_default();

	return (struct tarn_bed_question){
		.depth_m = TARN_NAN, .porosity = TARN_NAN,
		.density_kgm3 = s.density_kgm3,
		.viscosity_pas = s.viscosity_pas,
		.surface_m2 = TARN_NAN, .volume_m3 = TARN_NAN,
		.pump_m3s = TARN_NAN, .works_m3s = TARN_NAN,
		.falls_m3s = TARN_NAN, .lip_head_m = TARN_NAN,
		.lip_m = TARN_NAN,
	};
}

static enum tarn_status check(const struct tarn_bed_question *q,
			      struct tarn_error *err)
{
	enum tarn_status st = TARN_OK;

	for (size_t i = 0; st == TARN_OK && i < TARN_BED_WISH_SECTIONS; i++)
		st = tarn_fields_check(tarn_bed_wish_sections[i], q->wish,
				       err);
	return st;
}

static enum tarn_status take_head(const struct tarn_bed_question *q,
				  struct tarn_bed_plan *p,
				  struct tarn_error *err)
{
	p->head_from = !isnan(q->lip_head_m) ? TARN_HEAD_DESCRIBED
		: q->head_at ? TARN_HEAD_SOLVED : -1;
	return tn_plan_head(q, p->flow_m3s, &p->lip_head_m, err);
}

enum tarn_status tarn_bed_plan(const struct tarn_bed_question *q,
			       struct tarn_bed_plan *out,
			       struct tarn_error *err)
{
	struct tarn_bed_plan p = { 0 };
	struct tarn_error own = { 0 };
	enum tarn_status st = check(q, &own);

	tarn_fields_default(&tarn_bed_plan_fields, &p);
	if (st == TARN_OK)
		st = tn_plan_demand(q, &p, &own);
	if (st == TARN_OK)
		st = take_head(q, &p, &own);
	if (st == TARN_OK)
		st = tn_plan_lip(q, &p, &own);
	if (st == TARN_OK)
		st = tn_plan_stone(q, &p, &own);
	if (st == TARN_OK)
		st = tn_plan_ask(q, &p, &own);
	if (st == TARN_OK)
		st = tn_plan_size(q, &p, &own);
	if (st != TARN_OK)
		return tn_plan_fail(&own, err);
	tn_plan_one_stone(q, &p);
	tn_plan_level(&p);
	tn_plan_checks(q, &p);
	*out = p;
	return TARN_OK;
}
