/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_LAYERS_H
#define TARN_FORMULAS_LAYERS_H

/*
 * layers: a bed of layers of stone.  Part of bed.h, whose first lines give the
 * units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A bed is a list of layers from the bottom.  Without a diameter a layer is
 * open water: a chamber, or crates.  Dig it clean: every bed with a chamber or
 * a pipe under stone needs a clean-out that a hose and a hand can reach. */
struct tarn_layer {
	char name[32];
	double thickness_m;
	double diameter_m;	/* NaN: open */
	double porosity;	/* of stone 0.05 .. 0.95, of open water .. 1 */
	double sphericity;
	double bulk_kgm3;	/* dry, in place; NaN: (1 - n) 2650 */
};

TARN_API extern const struct tarn_fields tarn_layer_fields;
TARN_API struct tarn_layer tarn_layer_default(void);	/* sphericity 1 */

#define TARN_LAYERS_MAX 100

struct tarn_layers {
	const struct tarn_layer *layer;		/* borrowed, bottom first */
	size_t count;
	double area_m2;
	double flow_m3s;	/* upward; 0: standing */
	double lip_m;		/* level of the water over the bottom;
				   NaN: the top of the stone */
	double density_kgm3, viscosity_pas, clogging;
};

TARN_API extern const struct tarn_fields tarn_layers_fields;
TARN_API struct tarn_layers tarn_layers_default(void);

struct tarn_layer_result {
	double bottom_m;	/* over the bed's bottom */
	double wet_m;		/* of its thickness, under the lip */
	double volume_m3;	/* stone and voids */
	double stone_m3;	/* solid */
	double mass_kg;		/* dry */
	double water_m3;	/* in the wet part */
	double surface_m2;	/* of stone in the wet part */
	double clean_m, clogged_m;	/* head lost */
	double reynolds;	/* NaN where open */
};
TARN_API extern const struct tarn_fields tarn_layer_result_fields;

struct tarn_layers_result {
	double depth_m;
	double volume_m3, stone_m3, mass_kg, water_m3, surface_m2;
	double clean_m, clogged_m;
	double standing_m;	/* water above the top of the stone */
	double residence_s;	/* NaN without flow */
	unsigned flags;	/* WATER_ON_GRAVEL, NO_CHAMBER, CLEAN_OUT, NO_DARCY,
			   BEYOND_ERGUN */
};
TARN_API extern const struct tarn_fields tarn_layers_result_fields;

/* 'each' is filled with one entry a layer, or NULL.  Errors: TARN_EARG, field
 * "layer 2.porosity". */
TARN_API enum tarn_status tarn_layers(const struct tarn_layers *in,
				      struct tarn_layer_result each[],
				      struct tarn_layers_result *total,
				      struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
