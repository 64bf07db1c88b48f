/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_JUDGE_H
#define TARN_BED_JUDGE_H

/* Private to the sizing: one bed judged, fast, on input that was checked. */

#include "tarn/bed.h"

/* The stone under one m2 of bed; NaN where the input does not tell. */
struct stone {
	double depth_m;
	double linear, quadratic;	/* clean resistance x thickness */
	double voids_m, surface, mass_kg;
	double largest_m, largest_voids;	/* stone of highest Reynolds */
	struct tarn_resistance top;	/* of the uppermost layer, clean */
	double top_m;			/* its thickness */
	int chamber;			/* the lowest layer is open */
};

/* The loadings between which a k was measured: both or neither, the low one
 * first.  Errors: TARN_EARG, field "section.k_low" or "section.k_high". */
enum tarn_status tn_bed_loadings_check(const char *section, double low_m_d,
				       double high_m_d, struct tarn_error *err);

/* The input with loads filled in from the feed. */
enum tarn_status tn_sizing_prepare(const struct tarn_sizing *in,
				   struct tarn_sizing *out,
				   struct tarn_error *err);

/* Errors: TARN_EARG for a layer. */
enum tarn_status tn_stone_of(const struct tarn_sizing *in,
			     struct stone *out, struct tarn_error *err);

/* Judges the bed of in->area_m2, in->flow_m3s and that stone, laid 'scale'
 * times as thick. */
void tn_bed_judge(const struct tarn_sizing *in, const struct stone *stone,
		  double scale, struct tarn_bed_check *out);

/* loading.c: the range of loadings for pond-like water (fish farms, swimming,
 * garden ponds) that is nearest to one > 0. */
const struct tarn_loading_range *tn_bed_nearest_range(double loading_m_d);

#endif
