/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "tarn/base/rows.h"
#include "tarn/design/centre.h"
#include "tarn/design/stages.h"
#include "tarn/design/told.h"
#include "tarn/works/plumbing.h"

/* ---- what was assumed ------------------------------------------------------------ */

static void assume(struct tarn_resolved *r, const char *path, double value,
		   const char *reason)
{
	struct tarn_assumption *a = &r->assumption[r->assumptions];

	if (r->assumptions == TARN_ASSUMPTIONS_MAX || isnan(value))
		return;
	snprintf(a->path, sizeof a->path, "%s", path);
	a->value = value;
	a->reason = reason;
	r->assumptions++;
}

/* ---- basin, bed ------------------------------------------------------------------- */

static enum tarn_status find_basin(const struct tarn_design *d,
				   struct tarn_resolved *r,
				   struct tarn_error *err)
{
	struct tarn_basin *made = NULL;
	enum tarn_status status = TARN_OK;

	if (!d->pond.basin)
		status = tarn_basin_wished(&d->basin, d->alloc, &made, err);
	if (status != TARN_OK)
		return status;
	tarn_basin_free(r->basin);
	r->basin = made;
	return TARN_OK;
}

static enum tarn_status find_area(const struct tarn_design *d,
				  struct tarn_resolved *r,
				  struct tarn_error *err)
{
	double area_m2 = d->wish.length_m * d->wish.width_m;

	if (isnan(area_m2))
		return TARN_OK;
	if (d->pond.bed.area_m2 > 0) {
		tn_rows_note(err, TARN_MISTAKE_CONFLICT, NULL);
		return tarn_fail(err, TARN_EARG, "bed.area", "is given beside "
				 "length and width: keep the one or the other");
	}
	r->pond.bed.area_m2 = area_m2;
	assume(r, "bed.area", area_m2, "length and width");
	return TARN_OK;
}

/* Errors of a layer under the path of a description. */
static enum tarn_status stack(const struct tarn_layers *in,
			      struct tarn_layers_result *out,
			      struct tarn_error *err)
{
	struct tarn_error why = { 0 };
	enum tarn_status status = tarn_layers(in, NULL, out, &why);
	char path[80], rest[64] = "";
	int number;

	if (status == TARN_OK || !err || err->code != TARN_OK)
		return status;
	*err = why;
	if (sscanf(why.field, "layer %d%63s", &number, rest) >= 1) {
		snprintf(path, sizeof path, "bed.layers[%d]%s", number, rest);
		snprintf(err->field, sizeof err->field, "%.63s", path);
	}
	return status;
}

/* Layers fix depth, porosity and, with the area, the water of the bed. */
static enum tarn_status find_layers(const struct tarn_design *d,
				    struct tarn_resolved *r,
				    struct tarn_error *err)
{
	const struct tarn_bed_store *bed = &d->pond.bed;
	struct tarn_layers in = tarn_layers_default();
	enum tarn_status status;

	r->layered = d->layers > 0;
	if (!r->layered)
		return TARN_OK;
	if (!isnan(bed->depth_m) || !isnan(bed->porosity)) {
		tn_rows_note(err, TARN_MISTAKE_CONFLICT, NULL);
		return tarn_fail(err, TARN_EARG, isnan(bed->depth_m)
				 ? "bed.porosity" : "bed.depth", "is given "
				 "beside bed.layers: leave it out, the layers "
				 "tell it");
	}
	in.layer = d->layer;
	in.count = (size_t)d->layers;
	in.area_m2 = r->pond.bed.area_m2 > 0 ? r->pond.bed.area_m2 : 1;
	status = stack(&in, &r->layers, err);
	if (status != TARN_OK)
		return status;
	if (d->wish.cover_m >= r->layers.depth_m) {
		tn_rows_note(err, TARN_MISTAKE_CONFLICT, NULL);
		return tarn_fail(err, TARN_EARG, "bed.cover", "of %.14g m "
				 "leaves no water in layers of %.14g m",
				 d->wish.cover_m, r->layers.depth_m);
	}
	in.lip_m = r->layers.depth_m - d->wish.cover_m;
	status = stack(&in, &r->layers, err);
	if (status == TARN_OK && isnan(bed->volume_m3) &&
	    r->pond.bed.area_m2 > 0) {
		r->pond.bed.volume_m3 = r->layers.water_m3;
		assume(r, "bed.volume", r->layers.water_m3, "layers");
	}
	return status;
}

/* ---- works ------------------------------------------------------------------------- */

static void use_works(const struct tarn_design *d, struct tarn_resolved *r)
{
	const struct tarn_pond *given = &d->pond;
	const struct tarn_pond *p = &r->pond;

	tarn_works_fill(&r->flow, &r->pond);
	if (isnan(given->pump.flow_m3s))
		assume(r, "pump.flow", p->pump.flow_m3s, "curve and pipes");
	if (isnan(given->bed.lip_head_m))
		assume(r, "bed.lip_head", p->bed.lip_head_m,
		       "flow over the bed's lip");
	if (isnan(given->stream.volume_m3))
		assume(r, "stream.volume", p->stream.volume_m3,
		       "depth at its flow, slope and roughness");
	if (isnan(given->pump.drainback_m3))
		assume(r, "pump.drainback", p->pump.drainback_m3,
		       r->flow.drain_given < 0 ? "not known, taken as none"
					       : "pipes, siphon and pools");
}

struct tarn_evaporation_options
tn_design_evaporation(const struct tarn_design *d, const struct tarn_pond *p)
{
	struct tarn_evaporation_options o = d->evaporation;
	double area_m2 = tarn_basin_area(p->basin, p->overflow_level_m);

	if (isnan(o.area_m2))
		o.area_m2 = area_m2;
	if (isnan(o.depth_m))
		o.depth_m = tarn_basin_volume(p->basin,
					      p->overflow_level_m) / area_m2;
	tarn_exposure_medians(&d->site, &o.shelter, &o.shade, NULL);
	return o;
}

static void take_works(const struct tarn_design *d, struct tarn_works *works)
{
	*works = d->works;
	works->curve_points = (size_t)d->curve_points;
	for (int i = 0; i < d->curve_points; i++) {
		works->curve_flow_m3s[i] = d->curve[i][0];
		works->curve_head_m[i] = d->curve[i][1];
	}
}

/* The flow, or only what it has in transit. */
static enum tarn_status find_flow(const struct tarn_design *d,
				  unsigned stages,
				  struct tarn_resolved *r,
				  struct tarn_error *err)
{
	enum tarn_status status = tarn_pond_check(&r->pond, err);

	take_works(d, &r->works);
	if (status == TARN_OK && stages & DESIGN_WORKS)
		status = tarn_works_solve(&r->works, &r->pond, &r->flow, err);
	else if (status == TARN_OK)
		status = tn_works_again(&r->works, &r->pond, &r->flow, err);
	if (status != TARN_OK)
		return status;
	use_works(d, r);
	status = tarn_pond_check(&r->pond, err);
	if (status != TARN_OK)
		return status;
	r->evaporation = tn_design_evaporation(d, &r->pond);
	r->place = tn_design_place(d);
	return TARN_OK;
}

/* ---- the whole ------------------------------------------------------------------------ */

enum tarn_status tn_design_resolve_stages(const struct tarn_design *d,
					  unsigned stages,
					  struct tarn_resolved *r,
					  struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	if (stages & DESIGN_BASIN)
		status = find_basin(d, r, err);
	if (status != TARN_OK || !(stages & DESIGN_FOLLOWS))
		return status;
	r->pond = d->pond;
	if (r->basin)
		r->pond.basin = r->basin;
	r->assumptions = 0;
	status = find_area(d, r, err);
	if (status == TARN_OK)
		status = find_layers(d, r, err);
	if (status == TARN_OK)
		status = find_flow(d, stages, r, err);
	return status == TARN_OK ? tn_told_check(d, r, err) : status;
}

enum tarn_status tarn_design_resolve(const struct tarn_design *given,
				     struct tarn_resolved *out,
				     struct tarn_error *err)
{
	struct tarn_resolved r = { .alloc = given->alloc };
	struct tarn_yard yard;
	struct tarn_yard_corner corner[TARN_YARD_CORNERS];
	enum tarn_status status = tn_design_check_schedules(given, err);

	if (status == TARN_OK && given->has_yard)
		status = tarn_yard_wished(&given->yard, &yard, corner, err);
	if (status == TARN_OK)
		status = tn_design_resolve_stages(given, DESIGN_FOLLOWS, &r,
						  err);
	if (status == TARN_OK)
		*out = r;
	else
		tarn_resolved_free(&r);
	return status;
}

void tarn_resolved_free(struct tarn_resolved *r)
{
	tarn_basin_free(r->basin);
	r->basin = NULL;
}
