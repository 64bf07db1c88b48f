/* SPDX-License-Identifier: MIT */
/* The bed: its liner, and a line of the list for each of its layers. */
#include <math.h>
#include <stdio.h>

#include "tarn/takeoff/parts.h"

#define QUARTZ "(1 - voids) x 2650 kg/m3, as no bulk density is given"
#define NO_AREA "the bed has no area (bed.length and bed.width)"

static void figure_liner(const struct job *job, struct tarn_takeoff *t)
{
	const struct tarn_takeoff_bed *bed = job->bed;
	double deep_m = job->bed_deep_m, o = job->build->overlap_m;
	double round_m = 2 * (bed->length_m + bed->width_m);

	t->bed_sheet_length_m = tarn_liner_rule_m(bed->length_m, deep_m, 2 * o);
	t->bed_sheet_width_m = tarn_liner_rule_m(bed->width_m, deep_m, 2 * o);
	t->bed_sheet_m2 = t->bed_sheet_length_m * t->bed_sheet_width_m;
	t->bed_liner_m2 = bed->length_m * bed->width_m +
			  round_m * (deep_m + o);
}

/* Layers of 1 m2 where the bed has no area: they are checked all the same. */
static enum tarn_status figure_layers(struct job *job, struct tarn_takeoff *t,
				      struct tarn_error *err)
{
	struct tarn_layers in = tarn_layers_default();
	struct tarn_layers_result sum;
	double area_m2 = job->pond->bed.area_m2;
	enum tarn_status st;

	in.layer = job->bed->layer;
	in.count = job->bed->layers;
	in.area_m2 = area_m2 > 0 ? area_m2 : 1;
	st = tarn_layers(&in, job->layer, &sum, err);
	if (st != TARN_OK)
		return st;
	job->bed_deep_m = sum.depth_m;
	t->bed_stone_kg = area_m2 > 0 ? sum.mass_kg : TARN_NAN;
	return st;
}

/* Dry, in place: by the voids where they are known, as of a layer; they need
 * no size of the stone. */
static enum tarn_status figure_one_stone(struct job *job,
					 struct tarn_takeoff *t,
					 struct tarn_error *err)
{
	const struct tarn_bed_store *store = &job->pond->bed;
	struct tarn_layer one = { "", 1, 0.01, store->porosity, 1, TARN_NAN };
	struct tarn_layers in = tarn_layers_default();
	struct tarn_layers_result sum;
	enum tarn_status st = TARN_OK;

	in.layer = &one;
	in.count = 1;
	in.area_m2 = 1;
	job->stone_kgm3 = job->build->gravel_kgm3;
	if (!isnan(store->porosity)) {
		st = tarn_layers(&in, NULL, &sum, err);
		job->stone_kgm3 = st == TARN_OK ? sum.mass_kg : TARN_NAN;
	}
	job->bed_deep_m = store->depth_m + job->bed->cover_m;
	t->bed_stone_kg = store->area_m2 * job->bed_deep_m * job->stone_kgm3;
	return st;
}

enum tarn_status tn_takeoff_bed(struct job *job, struct tarn_takeoff *t,
				struct tarn_error *err)
{
	enum tarn_status st;

	t->bed_liner_m2 = t->bed_sheet_m2 = TARN_NAN;
	t->bed_sheet_length_m = t->bed_sheet_width_m = TARN_NAN;
	if (!job->has_bed)
		return TARN_OK;
	st = job->bed->layers > 0 ? figure_layers(job, t, err)
				  : figure_one_stone(job, t, err);
	if (st == TARN_OK)
		figure_liner(job, t);
	return st;
}

/* ---- the list ------------------------------------------------------------- */

static void name_layer(const struct tarn_layer *layer, size_t number,
		       struct tarn_item *i)
{
	snprintf(i->name, sizeof i->name, "bed, layer %zu%s%s", number,
		 layer->name[0] ? ": " : "", layer->name);
}

static void list_layer(const struct job *job, size_t k, struct tarn_takeoff *t)
{
	const struct tarn_build *b = job->build;
	const struct tarn_layer *layer = &job->bed->layer[k];
	const struct tarn_layer_result *r = &job->layer[k];
	int open = isnan(layer->diameter_m), sized = job->pond->bed.area_m2 > 0;
	double amount = open ? r->volume_m3 : r->mass_kg;
	struct tarn_item *i = tn_takeoff_add(
		t, "", open ? TARN_ITEM_M3 : TARN_ITEM_KG,
		sized ? amount : TARN_NAN, open ? 0 : b->waste_gravel,
		open ? "open: area x thickness, no stone"
		     : "area x thickness x bulk density");

	name_layer(layer, k + 1, i);
	i->unknown = sized ? NULL : NO_AREA;
	i->stone_m = layer->diameter_m;
	i->thickness_m = layer->thickness_m;
	i->area_m2 = sized ? job->pond->bed.area_m2 : TARN_NAN;
	i->volume_m3 = sized ? r->volume_m3 : TARN_NAN;
	if (open)
		return;
	i->density_kgm3 = r->mass_kg / r->volume_m3;
	i->assumed = isnan(layer->bulk_kgm3) ? QUARTZ : NULL;
	tn_takeoff_deliver(b, b->gravel_kgs, i);
}

/* A bed of one stone, described by its depth. */
static void list_one_stone(const struct job *job, struct tarn_takeoff *t)
{
	const struct tarn_build *b = job->build;
	const struct tarn_bed_store *store = &job->pond->bed;
	struct tarn_item *i = tn_takeoff_add(
		t, "gravel of the bed", TARN_ITEM_KG, t->bed_stone_kg,
		b->waste_gravel, "area x depth and cover x dry density");

	if (isnan(store->depth_m))
		i->unknown = "the bed has neither bed.layers nor bed.depth";
	i->area_m2 = store->area_m2;
	i->thickness_m = job->bed_deep_m;
	i->volume_m3 = store->area_m2 * job->bed_deep_m;
	i->density_kgm3 = job->stone_kgm3;
	i->stone_m = job->bed->diameter_m;
	i->assumed = isnan(store->porosity) ? NULL : QUARTZ;
	tn_takeoff_deliver(b, b->gravel_kgs, i);
}

void tn_takeoff_list_bed(const struct job *job, struct tarn_takeoff *t)
{
	if (!job->has_bed)
		return;
	if (job->bed->layers == 0)
		list_one_stone(job, t);
	for (size_t k = 0; k < job->bed->layers; k++)
		list_layer(job, k, t);
}
