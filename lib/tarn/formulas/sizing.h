/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_SIZING_H
#define TARN_FORMULAS_SIZING_H

/*
 * sizing: the size of a bed by every rule, and what a bed does.  Part of
 * bed.h, whose first lines give the units and conventions.
 */

#include "tarn/formulas/treatment.h"
#include "tarn/formulas/layers.h"
#include "tarn/formulas/lip.h"

#ifdef __cplusplus
extern "C" {
#endif

enum tarn_bed_direction {
	TARN_BED_UPFLOW,	/* from a chamber up to the lip */
	TARN_BED_HORIZONTAL	/* in at one side, out at the other */
};

struct tarn_sizing {
	/* demand */
	double flow_m3s;	/* NaN: turnover x pond volume */
	double turnover_per_h;
	double pond_area_m2;
	double pond_volume_m3;
	/* the designer's rules; NaN: not asked */
	double area_m2;		/* judge a bed of this size */
	double loading_m_d;
	int kind;		/* 0 none, else 1 + row of the kinds: its
				   geometric middle is the loading */
	double surface_share;	/* of the pond's surface */
	double volume_share;	/* of the pond's volume, stone and all */
	/* load */
	double feed_g, protein;	/* a day; sets what is NaN below */
	double ammonia_g, bod_g, solids_g;
	double pond_target_mgl;	/* ammonia in the pond when steady */
	double inlet_mgl, target_mgl;	/* in one pass */
	double background_mgl, k_m_yr, theta, tanks_in_series, temp_c;
	double k_low_m_d, k_high_m_d;
	double media_rate;	/* g N per m2 of stone and day */
	double safety;		/* on the media's rate */
	double bod_limit, solids_limit;	/* g per m2 of bed and day */
	double section_limit;	/* g BOD per m2 of cross-section and day */
	/* oxygen */
	double oxygen_mgl;	/* NaN: 0.8 of saturation, flagged */
	double elevation_m;
	/* stone; what is not given is not judged */
	int direction;		/* enum tarn_bed_direction */
	double depth_m;		/* wet; with layers: they are scaled to it */
	double diameter_m, porosity, sphericity;
	double density_kgm3, viscosity_pas;
	double clogging;
	const struct tarn_layer *layer;	/* borrowed, or NULL: one stone */
	size_t layer_count;
	/* shape and head */
	double width_m;		/* of the bed, along the lip; NaN: square, or
				   wider where 'length' is short */
	double length_m;	/* longest that fits, from lip to far side */
	double max_area_m2;	/* that fits */
	double available_head_m;	/* bed lip over pond level, or what
				   the pump has left; NaN: no check */
	double lip_head_m;	/* over the lip at this flow */
	double lip_m;		/* width of the lip; NaN, or more than the bed's:
				   as wide as the bed */
	int lip_place;		/* enum tarn_lip_place */
	double trough_width_m;	/* an open trough along the lip's side ... */
	double trough_depth_m;	/* ... and its floor under the lip; both or
				   neither, NaN: none */
	double cover_m;	/* gravel over the lip; NaN: no check */
};

TARN_API extern const struct tarn_fields tarn_sizing_fields;

/*
 * Upflow, clogging 10, round stone; protein 0.35; background 0, theta 1, plug
 * flow, 20 deg C, at sea level; media rate 0.2 g N per m2 a day (the low end of
 * 0.2-0.6, from memory) with safety 2; limits 6 g BOD and 20 g solids per m2 of
 * bed and 250 g BOD per m2 of section a day (tarn_limits).  The rest NaN.
 */
TARN_API struct tarn_sizing tarn_sizing_default(void);

/* As tarn_treatment_set_rate; a volumetric rate needs depth and porosity. */
TARN_API void tarn_sizing_set_rate(struct tarn_sizing *in,
				   const struct tarn_rate *rate);

/* What one bed does.  NaN: not asked, or not to be known from the input. */
struct tarn_bed_check {
	double area_m2, depth_m, flow_m3s;
	double length_m, width_m;
	double loading_m_d;
	double loading_factor;	/* to the kind, or else to the nearest range
				   for fish farms, swimming and garden ponds */
	double sewage_factor;	/* loading over 0.2 m/d, the most that sewage
				   beds are given */
	double surface_share;	/* bed area / pond surface */
	double volume_share;	/* bed volume, stone and all / pond volume */
	double turnover_per_h;
	double volume_m3, water_m3, mass_kg, surface_m2;
	double residence_s;
	double velocity_ms, pore_velocity_ms, reynolds;
	int flow_regime;	/* enum tarn_flow_regime, in the largest stone;
				   -1 if reynolds is NaN */
	double clean_m, clogged_m;	/* head lost in the stone */
	double lip_m;		/* width of the lip that was taken */
	double rise_m;		/* level of the farthest place over that at the
				   lip, when clogged ... */
	double rise_clear_m;	/* ... and clean */
	double trough_m;	/* of both, what the trough takes; 0: none */
	double head_needed_m;	/* clogged + rise + outlet; what runs from side
				   to side has its loss in the rise */
	double k_m_d, extrapolation;
	double pond_mgl;	/* ammonia when steady */
	double pond_per_day;	/* rate at which it gets there */
	double outlet_mgl;	/* one pass from inlet_mgl */
	double oxygen_out_mgl, oxygen_supply_g, oxygen_demand_g;
	double bod_g_m2, solids_g_m2, section_bod_g_m2;	/* a day */
	unsigned flags;
};
TARN_API extern const struct tarn_fields tarn_bed_check_fields;

/* Ways to an area. */
enum tarn_size_rule {
	TARN_BY_LOADING,	/* flow / loading */
	TARN_BY_SURFACE,	/* share of the pond's surface */
	TARN_BY_VOLUME,		/* share of the pond's volume / depth */
	TARN_BY_POND_TARGET,	/* ammonia in the pond, in the loop */
	TARN_BY_PASS,		/* target in one pass */
	TARN_BY_MEDIA,		/* nitrification on the stone's surface */
	TARN_BY_BOD,		/* BOD per plan area */
	TARN_BY_SOLIDS,		/* solids per plan area */
	TARN_SIZE_RULES
};

struct tarn_size_rule_info {
	const char *name;	/* "loading" */
	const char *meaning;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_size_rule_info_fields;

/* NULL for a number that is none of them. */
TARN_API const struct tarn_size_rule_info *
tarn_size_rule_info(enum tarn_size_rule m);

struct tarn_sizing_result {
	double area_m2[TARN_SIZE_RULES];	/* NaN: not asked */
	int governs;		/* the method with the largest; -1: the area
				   was given and no method asked */
	double needed_m2;	/* that largest area */
	double least_flow_m3s;	/* under which no bed holds pond_target */
	double kind_lo_m2[4], kind_hi_m2[4]; /* area by each kind */
	struct tarn_bed_check bed;	/* at area_m2 if given, else needed */
};
TARN_API extern const struct tarn_fields tarn_sizing_result_fields;

/*
 * Sizes by every rule that the input allows; the largest area governs, and the
 * bed of that area (or of the area given) is checked.
 *
 * Errors: TARN_EARG: a field; no flow; nothing to size by.  A bed that cannot
 * do its job is no error: see 'bed.flags' and TARN_BED_REFUSALS.
 */
TARN_API enum tarn_status tarn_sizing(const struct tarn_sizing *in,
				      struct tarn_sizing_result *out,
				      struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
