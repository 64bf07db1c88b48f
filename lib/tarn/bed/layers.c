/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>

#include "rows.h"
#include "constants.h"

#define LAYER struct tarn_layer
static const struct tarn_field layer_rows[] = {
	TARN_IN_REQUIRED(LAYER, thickness_m, "thickness", "m", 1e-3, 10,
			 "thickness"),
	TARN_IN_NUMBER(LAYER, diameter_m, "diameter", "m", 1e-5, 0.5, TARN_NAN,
		       "size of the stone; none where the layer is open water"),
	TARN_IN_NUMBER(LAYER, porosity, "porosity", "-", 0.05, 1, TARN_NAN,
		       "voids; 1 for open water if not given"),
	TARN_IN_VALUE(LAYER, sphericity, "sphericity", "-", 0.3, 1, 1,
		      "1 sphere, 0.82 rounded, 0.73 crushed"),
	TARN_IN_NUMBER(LAYER, bulk_kgm3, "bulk_density", "kg/m3", 0, 3000,
		       TARN_NAN, "dry, in place"),
	TARN_IN_TEXT(LAYER, name, "name", "what it is called"),
};

TARN_FIELDS(tarn_layer_fields, "layer", layer_rows);
TARN_DEFAULT(LAYER, tarn_layer_default, tarn_layer_fields)

#define LAYERS struct tarn_layers
static const struct tarn_field stack_rows[] = {
	TARN_IN_REQUIRED(LAYERS, area_m2, "area", "m2", 1e-3, 1e7,
			 "plan area of the bed"),
	TARN_IN_VALUE(LAYERS, flow_m3s, "flow", "m3/s", 0, 10, 0,
		      "upward through the bed"),
	TARN_IN_NUMBER(LAYERS, lip_m, "lip", "m", 1e-3, 20, TARN_NAN,
		       "level of the water over the bottom"),
	TARN_IN_VALUE(LAYERS, density_kgm3, "density", "kg/m3", 900, 1100,
		      998.2, "density of the water"),
	TARN_IN_VALUE(LAYERS, viscosity_pas, "viscosity", "Pa s", 1e-4, 1e-2,
		      1.0016e-3, "viscosity of the water"),
	TARN_IN_VALUE(LAYERS, clogging, "clogging", "-", 1, 1e4, 1,
		      "head loss is so many times the clean one"),
	TARN_IN_LIST(LAYERS, layer, count, "layers", tarn_layer_fields, 1,
		     TARN_LAYERS_MAX, "from the bottom"),
};

TARN_FIELDS(tarn_layers_fields, "layers", stack_rows);
TARN_DEFAULT(LAYERS, tarn_layers_default, tarn_layers_fields)

#define EACH struct tarn_layer_result
static const struct tarn_field layer_result_rows[] = {
	TARN_OUT_NUMBER(EACH, bottom_m, "bottom", "m",
			"above the bottom of the bed"),
	TARN_OUT_NUMBER(EACH, wet_m, "wet", "m",
			"part of the thickness under water"),
	TARN_OUT_NUMBER(EACH, volume_m3, "volume", "m3", "stone and voids"),
	TARN_OUT_NUMBER(EACH, stone_m3, "stone", "m3", "solid stone"),
	TARN_OUT_NUMBER(EACH, mass_kg, "mass", "kg", "dry"),
	TARN_OUT_NUMBER(EACH, water_m3, "water", "m3", "in the wet part"),
	TARN_OUT_NUMBER(EACH, surface_m2, "surface", "m2",
			"of the stone in the wet part"),
	TARN_OUT_NUMBER(EACH, clean_m, "clean", "m", "head lost when clean"),
	TARN_OUT_NUMBER(EACH, clogged_m, "clogged", "m",
			"head lost when clogged"),
	TARN_OUT_NUMBER(EACH, reynolds, "reynolds", "-",
			"Reynolds number of the grains"),
};

TARN_FIELDS(tarn_layer_result_fields, "layer", layer_result_rows);

#define OUT struct tarn_layers_result
static const struct tarn_field layers_result_rows[] = {
	TARN_OUT_NUMBER(OUT, depth_m, "depth", "m", "of all layers"),
	TARN_OUT_NUMBER(OUT, volume_m3, "volume", "m3", "stone and voids"),
	TARN_OUT_NUMBER(OUT, stone_m3, "stone", "m3", "solid stone"),
	TARN_OUT_NUMBER(OUT, mass_kg, "mass", "kg", "dry"),
	TARN_OUT_NUMBER(OUT, water_m3, "water", "m3", "in the wet part"),
	TARN_OUT_NUMBER(OUT, surface_m2, "surface", "m2",
			"of the stone in the wet part"),
	TARN_OUT_NUMBER(OUT, clean_m, "clean", "m", "head lost when clean"),
	TARN_OUT_NUMBER(OUT, clogged_m, "clogged", "m",
			"head lost when clogged"),
	TARN_OUT_NUMBER(OUT, standing_m, "standing", "m",
			"water above the top of the stone"),
	TARN_OUT_NUMBER(OUT, residence_s, "residence", "s",
			"time of the water in the bed"),
	BED_FLAG_ROWS(OUT),
};

TARN_FIELDS(tarn_layers_result_fields, "layers", layers_result_rows);

static enum tarn_status check_layer(const struct tarn_layer *layer, size_t i,
				    struct tarn_error *err)
{
	struct tarn_fields named = tarn_layer_fields;
	char section[40];
	enum tarn_status st;

	snprintf(section, sizeof section, "layer %zu", i + 1);
	named.section = section;
	st = tarn_fields_check(&named, layer, err);
	if (st != TARN_OK || isnan(layer->diameter_m))
		return st;
	if (layer->porosity <= 0.95)	/* false if not given */
		return TARN_OK;
	snprintf(section, sizeof section, "layer %zu.porosity", i + 1);
	if (isnan(layer->porosity))
		return tarn_fail(err, TARN_EARG, section, "is missing: stone "
				 "needs it");
	return tarn_fail(err, TARN_EARG, section, "must be 0.05 to 0.95 in "
			 "stone, got %g", layer->porosity);
}

static double voids(const struct tarn_layer *layer)
{
	return isnan(layer->porosity) ? 1 : layer->porosity;
}

static double bulk(const struct tarn_layer *layer)
{
	if (!isnan(layer->bulk_kgm3))
		return layer->bulk_kgm3;
	return isnan(layer->diameter_m) ? 0 : (1 - voids(layer)) * STONE;
}

/* Hydraulics of the wet part of a layer of stone. */
static enum tarn_status lose_head(const struct tarn_layers *in,
				  const struct tarn_layer *layer,
				  struct tarn_layer_result *r,
				  struct tarn_layers_result *total,
				  struct tarn_error *err)
{
	struct tarn_gravel g = { layer->diameter_m, layer->porosity,
				 layer->sphericity, in->density_kgm3,
				 in->viscosity_pas, in->clogging };
	struct tarn_headloss h;
	enum tarn_status st = tarn_gravel_headloss(&g,
						   in->flow_m3s / in->area_m2,
						   r->wet_m, &h, err);

	if (st != TARN_OK)
		return st;
	r->clean_m = h.clean_m;
	r->clogged_m = h.clogged_m;
	r->reynolds = h.reynolds;
	r->surface_m2 = tarn_gravel_surface(&g) * r->wet_m * in->area_m2;
	if (r->wet_m > 0)
		total->flags |= h.flags;
	return TARN_OK;
}

static void add(struct tarn_layers_result *total,
		const struct tarn_layer_result *r)
{
	total->volume_m3 += r->volume_m3;
	total->stone_m3 += r->stone_m3;
	total->mass_kg += r->mass_kg;
	total->water_m3 += r->water_m3;
	total->surface_m2 += r->surface_m2;
	total->clean_m += r->clean_m;
	total->clogged_m += r->clogged_m;
}

static enum tarn_status measure(const struct tarn_layers *in, size_t i,
				double lip, struct tarn_layer_result *r,
				struct tarn_layers_result *total,
				struct tarn_error *err)
{
	const struct tarn_layer *layer = &in->layer[i];
	double n = voids(layer), t = layer->thickness_m;
	enum tarn_status st = TARN_OK;

	*r = (struct tarn_layer_result){ .reynolds = TARN_NAN };
	r->bottom_m = total->depth_m;
	r->wet_m = fmin(t, fmax(0, lip - r->bottom_m));
	r->volume_m3 = in->area_m2 * t;
	r->stone_m3 = isnan(layer->diameter_m) ? 0 : r->volume_m3 * (1 - n);
	r->mass_kg = r->volume_m3 * bulk(layer);
	r->water_m3 = in->area_m2 * r->wet_m * n;
	if (!isnan(layer->diameter_m))
		st = lose_head(in, layer, r, total, err);
	add(total, r);
	total->depth_m += t;
	return st;
}

static enum tarn_status check_stack(const struct tarn_layers *in,
				    struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_layers_fields, in, err);

	if (st == TARN_OK && in->count == 0)
		return tarn_fail(err, TARN_EARG, "layers", "are missing: list "
				 "them from the bottom");
	for (size_t i = 0; st == TARN_OK && i < in->count; i++)
		st = check_layer(&in->layer[i], i, err);
	return st;
}

enum tarn_status tarn_layers(const struct tarn_layers *in,
			     struct tarn_layer_result each[],
			     struct tarn_layers_result *total,
			     struct tarn_error *err)
{
	struct tarn_layers_result sum = { 0 };
	struct tarn_layer_result one;
	double lip = in->lip_m;
	enum tarn_status st = check_stack(in, err);

	if (st == TARN_OK && isnan(lip))
		lip = HUGE_VAL;		/* all of the stone is wet */
	for (size_t i = 0; st == TARN_OK && i < in->count; i++)
		st = measure(in, i, lip, each ? &each[i] : &one, &sum, err);
	if (st != TARN_OK)
		return st;
	sum.standing_m = isnan(in->lip_m) ? 0 : fmax(0, lip - sum.depth_m);
	sum.water_m3 += sum.standing_m * in->area_m2;
	sum.residence_s = in->flow_m3s > 0 ? sum.water_m3 / in->flow_m3s
					   : TARN_NAN;
	sum.flags |= TARN_BED_CLEAN_OUT;
	if (!isnan(in->layer[0].diameter_m))
		sum.flags |= TARN_BED_NO_CHAMBER;
	if (sum.standing_m > 0)
		sum.flags |= TARN_BED_WATER_ON_GRAVEL;
	*total = sum;
	return TARN_OK;
}
