/* SPDX-License-Identifier: MIT */
#include "judge.h"
#include "constants.h"

static enum tarn_status one_stone(const struct tarn_sizing *in,
				  struct stone *out)
{
	struct tarn_gravel g = tarn_gravel_default();
	double depth = in->depth_m;

	g.diameter_m = in->diameter_m;
	g.porosity = in->porosity;
	g.sphericity = in->sphericity;
	g.density_kgm3 = in->density_kgm3;
	g.viscosity_pas = in->viscosity_pas;
	out->top = tarn_gravel_resistance(&g);
	out->top_m = out->depth_m = depth;
	out->linear = out->top.linear * depth;
	out->quadratic = out->top.quadratic * depth;
	out->voids_m = in->porosity * depth;
	out->surface = tarn_gravel_surface(&g) * depth;
	out->mass_kg = (1 - in->porosity) * STONE * depth;
	out->largest_m = in->diameter_m;
	out->largest_voids = in->porosity;
	out->chamber = 0;
	return TARN_OK;
}

/* Adds the resistance of one layer of stone. */
static void pile(const struct tarn_sizing *in, const struct tarn_layer *layer,
		 struct stone *out)
{
	struct tarn_gravel g = { layer->diameter_m, layer->porosity,
				 layer->sphericity, in->density_kgm3,
				 in->viscosity_pas, 1 };

	out->top = tarn_gravel_resistance(&g);
	out->top_m = layer->thickness_m;
	out->linear += out->top.linear * layer->thickness_m;
	out->quadratic += out->top.quadratic * layer->thickness_m;
	if (layer->diameter_m > out->largest_m) {
		out->largest_m = layer->diameter_m;
		out->largest_voids = layer->porosity;
	}
}

enum tarn_status tn_stone_of(const struct tarn_sizing *in,
			     struct stone *out, struct tarn_error *err)
{
	struct tarn_layers stack = tarn_layers_default();
	struct tarn_layers_result sum;
	enum tarn_status st;

	if (!in->layer)
		return one_stone(in, out);
	if (in->direction == TARN_BED_HORIZONTAL)
		return tarn_fail(err, TARN_EARG, "size.layers", "are for "
				 "upflow: a horizontal bed takes one stone "
				 "(depth, diameter, porosity)");
	stack.layer = in->layer;
	stack.count = in->layer_count;
	stack.area_m2 = 1;
	st = tarn_layers(&stack, NULL, &sum, err);
	if (st != TARN_OK)
		return st;
	*out = (struct stone){ .top = { 0, 0 }, .depth_m = sum.depth_m,
			       .voids_m = sum.water_m3,
			       .surface = sum.surface_m2,
			       .mass_kg = sum.mass_kg };
	out->chamber = !(sum.flags & TARN_BED_NO_CHAMBER);
	for (size_t i = 0; i < in->layer_count; i++)
		if (!isnan(in->layer[i].diameter_m))
			pile(in, &in->layer[i], out);
	if (out->largest_m == 0)
		return tarn_fail(err, TARN_EARG, "size.layers", "have no "
				 "stone: give a layer a diameter");
	return TARN_OK;
}
