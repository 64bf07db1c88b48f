/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>

#include "tarn/bed.h"
#include "constants.h"

#define LAYER(name, member, lo, hi, required, other, unit, meaning)     \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_layer, member), \
	  lo, hi, required, unit, NULL, meaning, other }

static const struct tarn_field layer_rows[] = {
	LAYER("thickness", thickness_m, 1e-3, 10, 1, TARN_NAN, "m",
	      "thickness"),
	LAYER("diameter", diameter_m, 1e-5, 0.5, 0, TARN_NAN, "m",
	      "size of the stone; none where the layer is open water"),
	LAYER("porosity", porosity, 0.05, 1, 0, TARN_NAN, "-",
	      "voids; 1 for open water if not given"),
	LAYER("sphericity", sphericity, 0.3, 1, 1, 1, "-",
	      "1 sphere, 0.82 rounded, 0.73 crushed"),
	LAYER("bulk_density", bulk_kgm3, 0, 3000, 0, TARN_NAN, "kg/m3",
	      "dry, in place"),
};

const struct tarn_fields tarn_layer_fields = {
	"layer", layer_rows, sizeof layer_rows / sizeof layer_rows[0]
};

TARN_DEFAULT(struct tarn_layer, tarn_layer_default, tarn_layer_fields)

#define STACK(name, member, lo, hi, required, unit, meaning)             \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_layers, member), \
	  lo, hi, required, unit, NULL, meaning }

static const struct tarn_field stack_rows[] = {
	STACK("area", area_m2, 1e-3, 1e7, 1, "m2", "plan area of the bed"),
	STACK("flow", flow_m3s, 0, 10, 1, "m3/s", "upward through the bed"),
	STACK("lip", lip_m, 1e-3, 20, 0, "m",
	      "level of the water over the bottom"),
	STACK("density", density_kgm3, 900, 1100, 1, "kg/m3",
	      "density of the water"),
	STACK("viscosity", viscosity_pas, 1e-4, 1e-2, 1, "Pa s",
	      "viscosity of the water"),
	STACK("clogging", clogging, 1, 1e4, 1, "-",
	      "head loss is so many times the clean one"),
};

const struct tarn_fields tarn_layers_fields = {
	"layers", stack_rows, sizeof stack_rows / sizeof stack_rows[0]
};

struct tarn_layers tarn_layers_default(void)
{
	return (struct tarn_layers){
		.area_m2 = TARN_NAN, .lip_m = TARN_NAN, .density_kgm3 = 998.2,
		.viscosity_pas = 1.0016e-3, .clogging = 1,
	};
}

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
