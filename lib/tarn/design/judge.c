/* SPDX-License-Identifier: MIT */
/* What a description says twice, side by side. */
#include <stdio.h>
#include <string.h>

#include "tarn/design.h"
#include "tarn/design/told.h"

/* Quantile of a normal variate, 0.95. */
#define NINE_IN_TEN 1.6449
/* Of ln f of a place of which nothing is said: docs/methods/exposure.md. */
#define PLACES_SD_LN 0.23

/* Field, unit, and what else says it, of each comparison. */
static const struct {
	const char *code, *path, *unit, *by;
} kinds[TARN_TOLD_CHECKS] = {
	[TARN_TOLD_DROP] = { "told_drop", "bed.drop", "m",
			     "falls and stream" },
	[TARN_TOLD_LIFT] = { "told_lift", "pipes", "m",
			     "bed.drop, over the lip" },
	[TARN_TOLD_VALVE] = { "told_valve", "pump.drainback", "m3",
			      "a check valve" },
	[TARN_TOLD_STREAM_AREA] = { "told_stream_area", "stream.area", "m2",
				    "stream.length and width" },
	[TARN_TOLD_STREAM_VOLUME] = { "told_stream_volume", "stream.volume",
				      "m3", "its area and depth" },
	[TARN_TOLD_BED_VOLUME] = { "told_bed_volume", "bed.volume", "m3",
				   "area, stone and porosity" },
	[TARN_TOLD_BED_HEAD] = { "told_bed_head", "bed.lip_head", "m",
				 "the flow over the bed's lip" },
	[TARN_TOLD_BED_FLOW] = { "told_bed_flow", "bed.flow", "m3/s",
				 "what the pump gives" },
	[TARN_TOLD_BED_DUG] = { "told_bed_dug", "build.bed_dug", "m",
				"the bed's stone" },
	[TARN_TOLD_POROSITY] = { "told_porosity", "bed.porosity", "-",
				 "Freeze & Cherry (1979), table 2.4, from "
				 "memory: gravel 0.25 to 0.40; room for "
				 "angular stone" },
	[TARN_TOLD_DENSITY] = { "told_density", "bed.layers", "kg/m3",
				"porosity, with solid stone of 2000 to "
				"3300 kg/m3" },
	[TARN_TOLD_PUMP_FLOW] = { "told_pump_flow", "pump.flow", "m3/s",
				  "its curve and the pipes" },
	[TARN_TOLD_EFFICIENCY] = { "told_efficiency", "pump.watts", "-",
				   "common practice of small pumps" },
	[TARN_TOLD_METERED] = { "told_metered", "basin.metered", "m3",
				"the basin's shape" },
	[TARN_TOLD_DIAMETER] = { "told_diameter", "pipes", "m",
				 "size and schedule" },
	[TARN_TOLD_SURFACE] = { "told_surface", "evaporation.area", "m2",
				"the basin at its lip" },
	[TARN_TOLD_MEAN_DEPTH] = { "told_mean_depth", "evaporation.depth", "m",
				   "the basin at its lip" },
	[TARN_TOLD_ELEVATION] = { "told_elevation", "water.elevation", "m",
				  "evaporation.elevation" },
	[TARN_TOLD_SIDE_PIPE] = { "told_side_pipe", "overflow.side_pipe", "m",
				  "the edge over the lip" },
	[TARN_TOLD_TANK] = { "told_tank", "tank.roof", "m2",
			     "tank.capacity" },
	[TARN_TOLD_SUPPLY] = { "told_supply", "supply", "m",
			       "trigger: none, so that it never opens" },
	[TARN_TOLD_FEED] = { "told_feed", "fish.feed", "kg",
			     "fish.mass and ration" },
	[TARN_TOLD_FALL_WIDTH] = { "told_fall_width", "demand.fall_width", "m",
				   "the fall of the nearest width" },
	[TARN_TOLD_WITHDRAWAL] = { "told_withdrawal", "withdrawals", "m3",
				   "what the pond holds" },
	[TARN_TOLD_LARGE] = { "told_large", "basin", "m3",
			      "ponds of gardens" },
	[TARN_TOLD_LENGTH] = { "told_length", "build.length", "m",
			       "basin.length" },
	[TARN_TOLD_WIDTH] = { "told_width", "build.width", "m",
			      "basin.width" },
	[TARN_TOLD_SPLASH] = { "told_splash", "splash", "m3/s",
			       "a tenth of the pump's flow" },
	[TARN_TOLD_UNSIZED] = { "told_unsized", "bed", "m2",
				"its area: none, so that it is not counted" },
	[TARN_TOLD_SHELTER] = { "told_shelter", "evaporation.shelter", "-",
				"site.wind" },
	[TARN_TOLD_SHADE] = { "told_shade", "evaporation.shade", "-",
			      "site.sun" },
	[TARN_TOLD_CALIBRATED] = { "told_calibrated", "open_water_factor", "-",
				   "methods' centres and places" },
};

static void put(struct tarn_findings *list, enum tarn_told_id id, int number,
		double value, double lo, double hi)
{
	int past = value < lo || value > hi;
	struct tarn_finding f = {
		.id = (int)id, .code = kinds[id].code, .value = value,
		.lo = lo, .hi = hi, .unit = kinds[id].unit,
		.source = kinds[id].by, .evidence = TARN_EVIDENCE_OURS,
		.verdict = past ? TARN_VERDICT_DOUBT : TARN_VERDICT_HOLDS,
	};

	if (isnan(value) || (isnan(lo) && isnan(hi)))
		return;
	/* gravel without layers has its porosity at the bed itself */
	if (number > 0)
		snprintf(f.path, sizeof f.path, "%s[%d]",
			 id == TARN_TOLD_POROSITY ? "bed.layers"
						  : kinds[id].path, number);
	else
		snprintf(f.path, sizeof f.path, "%s", kinds[id].path);
	tarn_findings_add(list, &f);
}

/* A value against another that tells the same: they agree within a share of
 * it, or within 'least'. */
static void beside(struct tarn_findings *list, enum tarn_told_id id,
		   double value, double other, double share, double least)
{
	double room = fmax(share * fabs(other), least);

	put(list, id, 0, value, other - room, other + room);
}

/* ---- the bed ------------------------------------------------------------------ */

static void judge_drop(const struct tarn_design *d,
		       const struct tarn_resolved *r,
		       struct tarn_findings *list)
{
	const struct tarn_pond *p = &r->pond;
	double below_m, above_m;
	int all = tn_told_falls(&r->works, p, &below_m);

	if (all)
		put(list, TARN_TOLD_DROP, 0, d->wish.drop_m,
		    below_m - TN_TOLD_LEVEL_M,
		    below_m * 1.1 + TN_TOLD_LEVEL_M);
	/* a mouth under the bed's water lifts to that water all the same */
	above_m = d->wish.drop_m -
		  (p->overflow_level_m - tarn_running_level_m(p));
	for (int i = 0; i < r->works.runs; i++) {
		const struct tarn_pipe_run *run = &r->works.run[i];

		if (run->to == TARN_TO_BED && run->lift_m > 0)
			put(list, TARN_TOLD_LIFT, i + 1, run->lift_m,
			    above_m - TN_TOLD_LEVEL_M, TARN_NAN);
	}
}

static void judge_stone(const struct tarn_design *d,
			struct tarn_findings *list)
{
	if (!isnan(d->pond.bed.porosity))
		put(list, TARN_TOLD_POROSITY, 0, d->pond.bed.porosity,
		    TN_POROSITY_LEAST, TN_POROSITY_MOST);
	for (int i = 0; i < d->layers; i++) {
		const struct tarn_layer *l = &d->layer[i];

		if (isnan(l->diameter_m))
			continue;
		put(list, TARN_TOLD_POROSITY, i + 1, l->porosity,
		    TN_POROSITY_LEAST, TN_POROSITY_MOST);
		if (!isnan(l->bulk_kgm3))
			put(list, TARN_TOLD_DENSITY, i + 1,
			    l->bulk_kgm3 / (1 - l->porosity), 2000, 3300);
	}
}

static void judge_bed(const struct tarn_design *d,
		      const struct tarn_resolved *r,
		      struct tarn_findings *list)
{
	const struct tarn_bed_store *bed = &d->pond.bed;
	const struct tarn_bed_wish *w = &d->wish;
	double water_m3 = r->layered ? r->layers.water_m3
		: r->pond.bed.area_m2 * bed->depth_m * bed->porosity;
	/* layers are told with the dry cover, one stone without */
	double stone_m = r->layered ? r->layers.depth_m
				    : bed->depth_m + w->cover_m;
	int wished = d->layers > 0 || !isnan(bed->depth_m) || w->kind > 0 ||
		     !isnan(w->loading_m_d) || !isnan(w->surface_share) ||
		     !isnan(w->volume_share);

	if (r->pond.bed.area_m2 > 0)
		beside(list, TARN_TOLD_BED_VOLUME, bed->volume_m3, water_m3,
		       0.25, 0);
	else if (wished)
		put(list, TARN_TOLD_UNSIZED, 0, 0, 1e-9, TARN_NAN);
	beside(list, TARN_TOLD_BED_HEAD, bed->lip_head_m, r->flow.bed_head_m,
	       0.25, 0.003);
	put(list, TARN_TOLD_BED_FLOW, 0, w->flow_m3s, TARN_NAN,
	    r->flow.flow_m3s * 1.001);
	if (d->build.bed_dug_m > 0)
		put(list, TARN_TOLD_BED_DUG, 0, d->build.bed_dug_m, TARN_NAN,
		    stone_m + TN_TOLD_LEVEL_M);
	judge_drop(d, r, list);
	judge_stone(d, list);
}

/* ---- pump, pipes, stream -------------------------------------------------------- */

/* Water that drains back through a valve that lets none through. */
static void judge_valve(const struct tarn_resolved *r,
			struct tarn_findings *list)
{
	int swing = tarn_fitting_find("swing check");
	int valve = r->pond.pump.check_valve;

	for (int i = 0; i < r->works.runs; i++)
		for (int k = 0; k < r->works.run[i].fittings; k++)
			valve |= r->works.run[i].fitting[k].kind == swing &&
				 r->works.run[i].fitting[k].count > 0;
	if (valve)
		put(list, TARN_TOLD_VALVE, 0, r->flow.drain_m3, TARN_NAN, 1e-4);
}

static void judge_works(const struct tarn_design *d,
			const struct tarn_resolved *r,
			struct tarn_findings *list)
{
	const struct tarn_stream *s = &d->pond.stream;
	double area_m2 = isnan(s->area_m2) ? s->length_m * s->width_m
					   : s->area_m2;

	beside(list, TARN_TOLD_STREAM_AREA, s->area_m2,
	       s->length_m * s->width_m, 0.25, 0);
	beside(list, TARN_TOLD_STREAM_VOLUME, s->volume_m3,
	       area_m2 * s->depth_m, 0.25, 0);
	beside(list, TARN_TOLD_PUMP_FLOW, d->pond.pump.flow_m3s,
	       r->flow.solved_m3s, 0.1, 0);
	put(list, TARN_TOLD_EFFICIENCY, 0, tn_told_efficiency(d, r), TARN_NAN,
	    TN_EFFICIENCY_MOST);
	for (int i = 0; i < r->works.runs; i++) {
		struct tarn_pipe_run run = r->works.run[i];
		double given_m = run.diameter_m, inside_m;

		run.diameter_m = TARN_NAN;
		inside_m = tarn_pipe_run_diameter_m(&run);
		put(list, TARN_TOLD_DIAMETER, i + 1, given_m, inside_m * 0.95,
		    inside_m * 1.05);
	}
	if (d->pond.splash_m3s > 0)
		put(list, TARN_TOLD_SPLASH, 0, d->pond.splash_m3s, TARN_NAN,
		    r->flow.flow_m3s / 10);
	judge_valve(r, list);
}

/* ---- the rest ------------------------------------------------------------------- */

/* The fall whose width is nearest to the one wished. */
static double nearest_width_m(const struct tarn_works *w, double wished_m)
{
	double best_m = TARN_NAN;

	for (int i = 0; i < w->falls; i++)
		if (isnan(best_m) || fabs(w->fall[i].width_m - wished_m) <
					     fabs(best_m - wished_m))
			best_m = w->fall[i].width_m;
	return best_m;
}

static void judge_basin(const struct tarn_design *d,
			const struct tarn_resolved *r,
			struct tarn_findings *list)
{
	const struct tarn_pond *p = &r->pond;
	const struct tarn_basin *b = p->basin;
	double area_m2 = tarn_basin_area(b, p->overflow_level_m);
	double lip_m3 = tarn_basin_volume(b, p->overflow_level_m);

	if (!isnan(d->basin.shape.metered_m3))
		beside(list, TARN_TOLD_METERED, d->basin.shape.metered_m3,
		       d->basin.shape.metered_m3 / tarn_basin_scale(b), 0.3, 0);
	beside(list, TARN_TOLD_SURFACE, d->evaporation.area_m2, area_m2, 0.25,
	       0);
	beside(list, TARN_TOLD_MEAN_DEPTH, d->evaporation.depth_m,
	       lip_m3 / area_m2, 0.5, 0);
	beside(list, TARN_TOLD_LENGTH, d->build.length_m,
	       d->basin.shape.length_m, 0.01, 0);
	beside(list, TARN_TOLD_WIDTH, d->build.width_m,
	       d->basin.shape.width_m, 0.01, 0);
	put(list, TARN_TOLD_SIDE_PIPE, 0, r->works.overflow.side_diameter_m,
	    TARN_NAN, tarn_basin_top(b) - p->overflow_level_m);
	put(list, TARN_TOLD_LARGE, 0, lip_m3, TARN_NAN,
	    fmin(TARN_LARGE_M3, TARN_DEEP_M * area_m2));
	for (int i = 0; i < p->withdrawals; i++)
		put(list, TARN_TOLD_WITHDRAWAL, i + 1,
		    p->withdrawal[i].volume_m3, TARN_NAN, lip_m3);
}

/* A number beside a word: within nine in ten of what the word means. */
static void judge_site(const struct tarn_design *d, struct tarn_findings *list)
{
	const struct tarn_exposure_class *wind = tarn_exposure_wind(
		(enum tarn_exposure_wind)d->site.wind);
	const struct tarn_exposure_class *sun = tarn_exposure_sun(
		(enum tarn_exposure_sun)d->site.sun);

	if (wind && d->site.wind != TARN_WIND_NOT_DESCRIBED)
		put(list, TARN_TOLD_SHELTER, 0, d->evaporation.shelter,
		    wind->median * exp(-NINE_IN_TEN * wind->sd),
		    wind->median * exp(NINE_IN_TEN * wind->sd));
	if (sun && d->site.sun != TARN_SUN_NOT_DESCRIBED)
		put(list, TARN_TOLD_SHADE, 0, d->evaporation.shade,
		    fmax(0, sun->median - NINE_IN_TEN * sun->sd),
		    fmin(1, sun->median + NINE_IN_TEN * sun->sd));
}

/* Least and greatest centre of a method, and nine in ten of places about it. */
static void judge_calibration(const struct tarn_design *d,
			      struct tarn_findings *list)
{
	double lo = HUGE_VAL, hi = 0;

	for (int m = TARN_METHOD_AUTO + 1; m < TARN_METHODS; m++) {
		struct tarn_method_centre c =
			tarn_method_centre((enum tarn_method)m, 0);

		if (isnan(c.median))
			continue;
		lo = fmin(lo, c.median);
		hi = fmax(hi, c.median);
	}
	put(list, TARN_TOLD_CALIBRATED, 0, d->pond.open_water_factor,
	    lo * exp(-NINE_IN_TEN * PLACES_SD_LN),
	    hi * exp(NINE_IN_TEN * PLACES_SD_LN));
}

void tarn_design_judge(const struct tarn_design *d,
		       const struct tarn_resolved *r,
		       struct tarn_findings *list)
{
	const struct tarn_bed_wish *w = &d->wish;
	const struct tarn_pond *p = &d->pond;
	double feed_kg = w->mass_kg * w->ration;

	judge_basin(d, r, list);
	judge_bed(d, r, list);
	judge_works(d, r, list);
	judge_site(d, list);
	judge_calibration(d, list);
	if (w->elevation_m > 0 || w->elevation_m < 0)
		beside(list, TARN_TOLD_ELEVATION, w->elevation_m,
		       d->evaporation.elevation_m, 0, 50);
	put(list, TARN_TOLD_FEED, 0, w->feed_kg, feed_kg / 3, feed_kg * 3);
	beside(list, TARN_TOLD_FALL_WIDTH, w->fall_width_m,
	       nearest_width_m(&r->works, w->fall_width_m), 0.05, 0);
	if (p->tank.roof_m2 > 0 && !(p->tank.capacity_m3 > 0))
		put(list, TARN_TOLD_TANK, 0, p->tank.roof_m2, TARN_NAN, 0);
	if (!isnan(p->supply.rate_m3s) && isnan(p->trigger_m))
		put(list, TARN_TOLD_SUPPLY, 0, 0, 1e-9, TARN_NAN);
}
