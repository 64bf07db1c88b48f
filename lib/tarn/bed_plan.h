/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_PLAN_H
#define TARN_BED_PLAN_H

/*
 * bed_plan: from a description to a sized and judged bed.
 */

#include "bed.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- what a description says -------------------------------------------- */

/*
 * What a description says for the sizing of its bed, besides what the ledger
 * needs: more fields of its section 'bed', and the sections 'demand', 'fish',
 * 'water' and 'treatment'.  NaN: not given.
 */
struct tarn_bed_wish {
	/* bed */
	double length_m, width_m, cover_m, drop_m, spare_head_m;
	double flow_m3s, loading_m_d, surface_share, volume_share;
	double diameter_m, sphericity, clogging;
	int regime;		/* 0 none, else 1 + row of the regimes */
	int direction;		/* enum tarn_bed_direction */
	/* demand */
	double turnover_per_h, fall_width_m, fall_depth_m;
	/* fish */
	double mass_kg, feed_kg, protein, ration;
	/* water */
	double temp_c, ph, oxygen_mgl, elevation_m;
	/* treatment */
	double ammonia_mgl, inlet_mgl, outlet_mgl, background_mgl;
	double k_m_yr, k_low_m_d, k_high_m_d, theta, tanks;
};

/* Rows of the struct, one table a section. */
TARN_API extern const struct tarn_fields tarn_bed_wish_fields;
TARN_API extern const struct tarn_fields tarn_bed_demand_fields;
TARN_API extern const struct tarn_fields tarn_bed_fish_fields;
TARN_API extern const struct tarn_fields tarn_bed_water_fields;
TARN_API extern const struct tarn_fields tarn_bed_treatment_fields;

/* All five, in the order above. */
#define TARN_BED_WISH_SECTIONS 5
TARN_API extern const struct tarn_fields
	*const tarn_bed_wish_sections[TARN_BED_WISH_SECTIONS];

/* No wish: each field as its row says; sphericity, clogging, protein, ration,
 * temperature and elevation as tarn_sizing and tarn_waste take them. */
TARN_API struct tarn_bed_wish tarn_bed_wish_default(void);

#ifdef __cplusplus
}
#endif
#endif
