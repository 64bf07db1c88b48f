/* SPDX-License-Identifier: MIT */
/* Load, demands, and the flow taken. */
#include "plan.h"
#include "constants.h"

static enum tarn_status load(const struct tarn_bed_question *q,
			     struct tarn_bed_plan *p, struct tarn_error *err)
{
	const struct tarn_bed_wish *w = q->wish;
	struct tarn_waste in = tarn_waste_default();

	p->loaded = q->fish;
	if (!q->fish)
		return TARN_OK;
	if (isnan(w->feed_kg) && isnan(w->mass_kg))
		return tarn_fail(err, TARN_EARG, "fish", "needs feed (a day) "
				 "or mass");
	in.feed_g = w->feed_kg * 1000;
	in.fish_kg = w->mass_kg;
	in.protein = w->protein;
	in.ration = w->ration;
	in.temp_c = w->temp_c;
	p->unfed = isnan(w->feed_kg) && !(tarn_appetite(w->temp_c) > 0);
	return tarn_waste(&in, &p->waste, err);
}

/* Flow that leaves the bed's outlet its oxygen; that of one L/s does as well
 * as any for the question. */
static double for_oxygen(const struct tarn_bed_question *q,
			 const struct tarn_bed_plan *p)
{
	struct tarn_oxygen o = tarn_oxygen_default();
	struct tarn_oxygen_result r;

	o.flow_m3s = 1e-3;
	o.ammonia_g = p->waste.ammonia_g;
	o.bod_g = p->waste.bod_g;
	o.temp_c = q->wish->temp_c;
	o.inlet_mgl = q->wish->oxygen_mgl;
	o.elevation_m = q->wish->elevation_m;
	return tarn_oxygen(&o, &r, NULL) == TARN_OK ? r.least_flow_m3s
						    : TARN_NAN;
}

/* Adds a demand that there is, and keeps the greatest. */
static void add(struct tarn_bed_plan *p, enum tarn_bed_demand_of of,
		double flow_m3s)
{
	if (isnan(flow_m3s))
		return;
	p->demand[p->demands++] = (struct tarn_bed_demand){ (int)of,
							    flow_m3s };
	if (flow_m3s > p->most_m3s) {
		p->most_m3s = flow_m3s;
		p->greatest = (int)of;
	}
}

static enum tarn_status demands(const struct tarn_bed_question *q,
				struct tarn_bed_plan *p,
				struct tarn_error *err)
{
	const struct tarn_bed_wish *w = q->wish;
	double spare = w->ammonia_mgl -
		       (isnan(w->background_mgl) ? 0 : w->background_mgl);

	add(p, TARN_DEMAND_TURNOVER, w->turnover_per_h * q->volume_m3 / 3600);
	if (isnan(w->fall_width_m) != isnan(w->fall_depth_m))
		return tarn_fail(err, TARN_EARG, "demand.fall_width", "and "
				 "fall_depth go together");
	add(p, TARN_DEMAND_FALLS, q->falls_m3s);
	if (!p->loaded)
		return TARN_OK;
	add(p, TARN_DEMAND_OXYGEN, for_oxygen(q, p));
	if (spare > 0)
		add(p, TARN_DEMAND_AMMONIA, p->waste.ammonia_g / spare / DAY);
	return TARN_OK;
}

static enum tarn_status take_flow(const struct tarn_bed_question *q,
				  struct tarn_bed_plan *p,
				  struct tarn_error *err)
{
	const double pump_m3s = q->pump_m3s;

	if (!isnan(q->wish->flow_m3s)) {
		p->flow_m3s = q->wish->flow_m3s;
		p->flow_from = TARN_FLOW_FROM_BED;
	} else if (pump_m3s <= 0) {
		return tarn_fail(err, TARN_EARG, "pump.flow", "is 0: no water "
				 "goes through the bed");
	} else if (q->works_m3s > 0) {
		p->flow_m3s = q->works_m3s;
		p->flow_from = q->from_curve ? TARN_FLOW_FROM_CURVE
					     : TARN_FLOW_FROM_PUMP;
	} else if (!isnan(pump_m3s)) {
		p->flow_m3s = pump_m3s;
		p->flow_from = TARN_FLOW_FROM_PUMP;
	} else if (p->greatest >= 0) {
		p->flow_m3s = p->most_m3s;
		p->flow_from = TARN_FLOW_FROM_DEMAND;
	} else {
		return tarn_fail(err, TARN_EARG, "pump.flow", "is missing, "
				 "and neither a curve with pipes nor a demand "
				 "tells it: give pump.flow, bed.flow or "
				 "demand.turnover");
	}
	return TARN_OK;
}

enum tarn_status tn_plan_demand(const struct tarn_bed_question *q,
				struct tarn_bed_plan *p, struct tarn_error *err)
{
	enum tarn_status st = load(q, p, err);

	if (st == TARN_OK)
		st = demands(q, p, err);
	if (st == TARN_OK)
		st = take_flow(q, p, err);
	return st;
}
