/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/works.h"

double tarn_running_level_m(const struct tarn_pond *p)
{
	if (!isnan(p->target_m))
		return p->target_m;
	return isnan(p->trigger_m) ? p->overflow_level_m : p->trigger_m;
}

static void put(struct tarn_chart *c, const struct tarn_basin *b, int name,
		double level_m)
{
	struct tarn_level *l = &c->level[c->count];
	double top_m = tarn_basin_top(b);

	if (isnan(level_m))
		return;
	l->name = name;
	l->level_m = level_m;
	/* a storm may stand above the edge, where the basin has no shape */
	l->area_m2 = tarn_basin_area(b, fmin(level_m, top_m));
	l->volume_m3 = tarn_basin_volume(b, fmin(level_m, top_m));
	c->count++;
}

/* By level from the top; equal ones keep the order of their names. */
static void sort(struct tarn_chart *c)
{
	for (size_t i = 1; i < c->count; i++)
		for (size_t k = i; k > 0 && c->level[k].level_m >
					    c->level[k - 1].level_m; k--) {
			struct tarn_level swap = c->level[k];

			c->level[k] = c->level[k - 1];
			c->level[k - 1] = swap;
		}
	for (size_t i = 0; i < c->count; i++)
		c->level[i].between_m3 = i + 1 < c->count ?
			c->level[i].volume_m3 - c->level[i + 1].volume_m3 :
			c->level[i].volume_m3;
}

/* Without top-up a pond that was filled to its lip runs at what a start leaves
 * of that. */
static double chart_running_m(const struct tarn_pond *p,
			      const struct tarn_pump_swing *start)
{
	return isnan(p->trigger_m) ? start->started_m : tarn_running_level_m(p);
}

enum tarn_status tarn_chart_make(const struct tarn_pond *p,
				 const struct tarn_works *w, double storm_m,
				 struct tarn_chart *out, struct tarn_error *err)
{
	const struct tarn_basin *b = p->basin;
	double running;
	struct tarn_pond_facts facts;
	struct tarn_pump_swing stop, start, low;
	struct tarn_chart c = { 0 };
	enum tarn_status status = tarn_pond_facts(p, &facts, err);

	if (status == TARN_OK)
		status = tarn_pond_swing(p, p->overflow_level_m, &start, err);
	if (status != TARN_OK)
		return status;
	running = chart_running_m(p, &start);
	status = tarn_pond_swing(p, running, &stop, err);
	if (status == TARN_OK)
		status = tarn_pond_swing(p, isnan(p->trigger_m) ? running :
					 p->trigger_m, &low, err);
	if (status != TARN_OK)
		return status;
	put(&c, b, TARN_LEVEL_EDGE, tarn_basin_top(b));
	put(&c, b, TARN_LEVEL_STORM, storm_m);
	put(&c, b, TARN_LEVEL_OVERFLOW, p->overflow_level_m);
	put(&c, b, TARN_LEVEL_STOP, stop.stopped_m);
	put(&c, b, TARN_LEVEL_FULL_ON, start.started_m);
	put(&c, b, TARN_LEVEL_TARGET, p->target_m);
	put(&c, b, TARN_LEVEL_TRIGGER, p->trigger_m);
	put(&c, b, TARN_LEVEL_START, low.started_m);
	put(&c, b, TARN_LEVEL_INTAKE, p->intake_m);
	put(&c, b, TARN_LEVEL_SILL, w->bay.sill_m);
	put(&c, b, TARN_LEVEL_PUMP, w->bay.pump_minimum_m);
	put(&c, b, TARN_LEVEL_FLOOR, tarn_basin_floor(b));
	sort(&c);
	c.freeboard_m = tarn_basin_top(b) - p->overflow_level_m;
	c.transit_m3 = facts.transit_m3;
	c.rise_m = stop.stopped_m - running;
	c.spill_m3 = stop.spill_m3;
	c.spills = stop.spill_m3 > 1e-9 * facts.full_volume_m3;
	c.room_m3 = facts.full_volume_m3 - tarn_basin_volume(b, stop.stopped_m);
	c.drop_m = p->overflow_level_m - start.started_m;
	c.drop_trigger_m = (isnan(p->trigger_m) ? running : p->trigger_m) -
			   low.started_m;
	c.start_bares_intake = low.started_m < p->intake_m;
	*out = c;
	return TARN_OK;
}
