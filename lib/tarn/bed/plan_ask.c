/* SPDX-License-Identifier: MIT */
/* The room, and the question that the sizing is asked. */
#include <string.h>

#include "plan.h"

static void put(double *to, double given)
{
	if (!isnan(given))
		*to = given;
}

void tn_plan_rate(struct tarn_sizing *s, const struct tarn_rate *rate,
		  const struct tarn_bed_wish *w)
{
	put(&s->background_mgl, w->background_mgl);
	if (rate)
		tarn_sizing_set_rate(s, rate);
	put(&s->background_mgl, w->background_mgl);
	put(&s->k_m_yr, w->k_m_yr);
	put(&s->theta, w->theta);
	put(&s->tanks_in_series, w->tanks_in_series);
	put(&s->k_low_m_d, w->k_low_m_d);
	put(&s->k_high_m_d, w->k_high_m_d);
}

enum tarn_status tn_plan_head(const struct tarn_bed_question *q,
			      double flow_m3s,
			      double *head_m, struct tarn_error *err)
{
	*head_m = q->lip_head_m;
	if (!isnan(q->lip_head_m) || !q->head_at)
		return TARN_OK;
	return q->head_at(q->context, flow_m3s, head_m, err);
}

static enum tarn_status find_room(const struct tarn_bed_question *q,
				  struct tarn_bed_plan *p,
				  struct tarn_error *err)
{
	struct tarn_yard yard;

	p->dig_m = TARN_NAN;
	p->yard = q->yard != NULL;
	if (!q->yard)
		return TARN_OK;
	yard = *q->yard;
	if (isnan(yard.dig_m))
		yard.dig_m = p->full_depth_m;
	p->dig_m = yard.dig_m;
	if (q->before && q->before->dig_m == p->dig_m) {
		p->fit = q->before->fit;
		return TARN_OK;
	}
	return tarn_yard_fit(&yard, &p->fit, err);
}

/* What is wished and loaded, in the sizing's terms. */
static void ask_load(const struct tarn_bed_question *q,
		     const struct tarn_bed_plan *p, struct tarn_sizing *s)
{
	const struct tarn_bed_wish *w = q->wish;

	s->flow_m3s = p->flow_m3s;
	s->pond_area_m2 = q->surface_m2;
	s->pond_volume_m3 = q->volume_m3;
	s->loading_m_d = w->loading_m_d;
	s->kind = w->kind;
	s->surface_share = w->surface_share;
	s->volume_share = w->volume_share;
	if (p->loaded) {
		s->ammonia_g = p->waste.ammonia_g;
		s->bod_g = p->waste.bod_g;
		s->solids_g = p->waste.solids_g;
	}
	s->pond_target_mgl = w->ammonia_mgl;
	s->inlet_mgl = w->inlet_mgl;
	s->target_mgl = w->target_mgl;
	s->temp_c = w->temp_c;
	s->oxygen_mgl = w->oxygen_mgl;
	s->elevation_m = w->elevation_m;
}

static void ask_stone(const struct tarn_bed_question *q,
		      const struct tarn_bed_plan *p, struct tarn_sizing *s)
{
	const struct tarn_bed_wish *w = q->wish;

	s->direction = w->direction;
	s->clogging = w->clogging;
	s->density_kgm3 = q->density_kgm3;
	s->viscosity_pas = q->viscosity_pas;
	put(&s->lip_head_m, p->lip_head_m);
	s->cover_m = w->cover_m;
	s->available_head_m = p->available_head_m;
	s->lip_m = p->lip_m;
	s->lip_place = w->lip_place;
	s->trough_width_m = w->trough_width_m;
	s->trough_depth_m = w->trough_depth_m;
	if (q->layers == 0) {
		s->depth_m = p->depth_m;
		s->porosity = q->porosity;
		s->diameter_m = w->diameter_m;
		s->sphericity = w->sphericity;
	}
	if (p->yard) {
		s->max_area_m2 = p->fit.area_m2;
		s->length_m = p->fit.width_m;
	}
}

/* Loadings at which the removal rate was measured. */
static void place_rate(const struct tarn_bed_question *q,
		       struct tarn_bed_plan *p)
{
	p->k_low_m_d = q->rate ? q->rate->low_m_d : TARN_NAN;
	p->k_high_m_d = q->rate ? q->rate->high_m_d : TARN_NAN;
	put(&p->k_low_m_d, q->wish->k_low_m_d);
	put(&p->k_high_m_d, q->wish->k_high_m_d);
}

enum tarn_status tn_plan_ask(const struct tarn_bed_question *q,
			     struct tarn_bed_plan *p, struct tarn_error *err)
{
	const struct tarn_bed_wish *w = q->wish;
	struct tarn_sizing s = tarn_sizing_default();
	enum tarn_status st = find_room(q, p, err);

	if (st != TARN_OK)
		return st;
	p->available_head_m = isnan(w->available_head_m) ?
		w->drop_m : w->available_head_m;
	ask_load(q, p, &s);
	ask_stone(q, p, &s);
	tn_plan_rate(&s, q->rate, w);
	p->ask = s;
	place_rate(q, p);
	return TARN_OK;
}

struct tarn_sizing tn_plan_sizing(const struct tarn_bed_plan *p, double area_m2)
{
	struct tarn_sizing s = p->ask;

	s.area_m2 = area_m2;
	if (p->wets > 0) {
		s.layer = p->wet;
		s.layer_count = p->wets;
	}
	return s;
}

double tn_plan_width(const struct tarn_bed_question *q,
		     const struct tarn_bed_plan *p, double area_m2)
{
	const struct tarn_bed_wish *w = q->wish;
	double width_m = sqrt(p->ratio * area_m2);

	if (!isnan(p->length_m))
		width_m = area_m2 / p->length_m;
	else if (!isnan(w->width_m))
		width_m = w->width_m;
	else if (!isnan(w->length_m))
		width_m = area_m2 / w->length_m;
	if (p->yard)
		width_m = fmax(area_m2 / p->fit.width_m,
			       fmin(p->fit.length_m, width_m));
	return width_m;
}
