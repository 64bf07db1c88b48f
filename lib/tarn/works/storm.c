/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/works.h"

#define STEPS 240		/* of the storm */
#define ROWS 65			/* of the storage table */
#define ABOVE 3.0		/* m, how far the table goes on over the edge */

/* ---- the record --------------------------------------------------------- */

/* WMO World Weather and Climate Extremes Archive; that of 12 h as quoted, the
 * others read there.  What fell in a time fell in any longer one too, so that
 * a storm is compared with the next longer time. */
static const struct {
	double time_s, rain_mm;
	const char *place;
} records[] = {
	{ 60, 31.2, "Unionville, Maryland, 1956" },
	{ 3600, 305, "Holt, Missouri, 1947" },
	{ 43200, 1144, "Foc-Foc, La Reunion, 1966" },
	{ 86400, 1825, "Foc-Foc, La Reunion, 1966" },
	{ 172800, 2493, "Cherrapunji, India, 1995" },
};
#define RECORDS (sizeof records / sizeof records[0])

int tarn_storm_doubtful(const struct tarn_storm *storm,
			struct tarn_storm_doubt *out)
{
	double depth_mm = storm->intensity_mm_h * storm->duration_s / 3600;
	size_t i = 0;

	while (i < RECORDS && records[i].time_s < storm->duration_s)
		i++;
	if (i == RECORDS || !(depth_mm > records[i].rain_mm))
		return 0;
	*out = (struct tarn_storm_doubt){ depth_mm, records[i].rain_mm,
					  records[i].time_s,
					  records[i].place };
	return 1;
}

/* ---- through the pond ------------------------------------------------------ */

/* The pond's own openings at its lip. */
static struct tarn_overflow at_lip(const struct tarn_works *w,
				   const struct tarn_pond *p)
{
	struct tarn_overflow o = w->overflow;

	o.lip_level_m = o.standpipe_level_m = o.side_level_m =
		p->overflow_level_m;
	return o;
}

static double apron_m3s(const struct tarn_pond *p, const struct tarn_storm *s)
{
	double depth_mm = s->intensity_mm_h * s->duration_s / 3600;
	double share = p->apron.coefficient;

	if (!(p->apron.area_m2 > 0))
		return 0;
	if (isnan(share))
		share = tarn_runoff(depth_mm, p->apron.curve_number) / depth_mm;
	return tarn_rational_m3s(share, s->intensity_mm_h, p->apron.area_m2);
}

static double peak_of(const struct tarn_works *w, const struct tarn_pond *p,
		      const struct tarn_pond_facts *f)
{
	double i = w->storm.intensity_mm_h;

	return tarn_rational_m3s(1, i, f->collecting_m2) +
	       apron_m3s(p, &w->storm) +
	       tarn_peak_m3s(w->catchment, (size_t)w->catchments, i);
}

/* NaN: the openings cannot pass it under any head (a full stack). */
static double steady_head_m(struct tarn_overflow o, double peak_m3s,
			    double clogging)
{
	struct tarn_overflow_flow out;

	o.clogging = clogging;
	o.flow_m3s = peak_m3s;
	if (tarn_overflow_solve(&o, &out, NULL) != TARN_OK)
		return TARN_NAN;
	return out.level_m - o.lip_level_m;
}

static enum tarn_status route(const struct tarn_works *w,
			      const struct tarn_pond *p,
			      struct tarn_storm_flow *r, struct tarn_error *err)
{
	const struct tarn_basin *b = p->basin;
	struct tarn_overflow o = at_lip(w, p);
	struct tarn_routing route = tarn_routing_default();
	struct tarn_routing_flow out;
	double level[ROWS + 1], area[ROWS + 1], inflow[STEPS + 1];
	double top = tarn_basin_top(b);
	double low = fmax(tarn_basin_floor(b), r->start_m - (top - r->start_m));
	enum tarn_status status;

	for (int i = 0; i < ROWS; i++) {
		level[i] = i + 1 < ROWS ? low + (top - low) * i / (ROWS - 1)
					: top;
		area[i] = tarn_basin_area(b, level[i]);
	}
	level[ROWS] = top + ABOVE;
	area[ROWS] = area[ROWS - 1];
	for (int i = 0; i <= STEPS; i++)
		inflow[i] = r->peak_m3s;
	route.level_m = level;
	route.area_m2 = area;
	route.level_count = ROWS + 1;
	route.inflow_m3s = inflow;
	route.inflow_count = STEPS + 1;
	route.step_s = w->storm.duration_s / STEPS;
	route.start_level_m = r->start_m;
	route.overflow = &o;
	status = tarn_routing_solve(&route, NULL, NULL, &out, err);
	if (status != TARN_OK)
		return status;
	r->rain_m3 = out.inflow_m3;
	r->peak_level_m = out.peak_level_m;
	r->head_m = fmax(0, out.peak_level_m - p->overflow_level_m);
	r->peak_out_m3s = out.peak_outflow_m3s;
	r->out_m3 = out.outflow_m3;
	r->balance_m3 = out.balance_m3;
	r->edge_left_m = top - out.peak_level_m;
	return TARN_OK;
}

int tarn_storm_described(const struct tarn_works *w)
{
	const struct tarn_overflow *o = &w->overflow;

	return !isnan(w->storm.intensity_mm_h) &&
	       !(isnan(o->lip_width_m) && isnan(o->standpipe_diameter_m) &&
		 isnan(o->side_diameter_m));
}

enum tarn_status tarn_storm_solve(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  struct tarn_storm_flow *out,
				  struct tarn_error *err)
{
	struct tarn_storm_flow r = { 0 };
	struct tarn_pond_facts facts;
	struct tarn_pump_swing stop;
	double running = tarn_running_level_m(p);
	enum tarn_status status = tarn_works_check(w, p, err);

	if (status == TARN_OK)
		status = tarn_pond_facts(p, &facts, err);
	if (status == TARN_OK)
		status = tarn_pond_swing(p, running, &stop, err);
	if (status != TARN_OK)
		return status;
	if (isnan(w->storm.intensity_mm_h))
		return tarn_fail(err, TARN_EARG, "storm.intensity", "is "
				 "missing: take it from a local table");
	if (isnan(w->overflow.lip_width_m) &&
	    isnan(w->overflow.standpipe_diameter_m) &&
	    isnan(w->overflow.side_diameter_m))
		return tarn_fail(err, TARN_EARG, "overflow", "has no opening: "
				 "give width, standpipe or side_pipe");
	r.start_m = w->storm.stopped ? stop.stopped_m : running;
	r.spill_at_stop_m3 = w->storm.stopped ? stop.spill_m3 : 0;
	r.peak_m3s = peak_of(w, p, &facts);
	status = route(w, p, &r, err);
	if (status != TARN_OK)
		return status;
	r.clear_head_m = steady_head_m(at_lip(w, p), r.peak_m3s, 0);
	r.clogged_head_m = steady_head_m(at_lip(w, p), r.peak_m3s,
					 w->overflow.clogging);
	*out = r;
	return TARN_OK;
}
