/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_WEIR_H
#define TARN_FORMULAS_WEIR_H

/*
 * weir: weirs and falls.  Part of flow.h, whose first lines give the units and
 * conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

enum tarn_weir_kind {
	TARN_WEIR_RECTANGULAR,	/* sharp crest */
	TARN_WEIR_V_NOTCH,	/* sharp */
	TARN_WEIR_BROAD,	/* level, long enough for critical depth */
	TARN_WEIR_LIP		/* stone or any lip, by a stated coefficient */
};

enum tarn_weir_formula {
	TARN_WEIR_DEFAULT,	/* francis; v_notch: constant; broad: ideal */
	TARN_WEIR_FRANCIS,	/* rectangular */
	TARN_WEIR_KINDSVATER_CARTER,	/* rectangular; crest, channel_width */
	TARN_WEIR_REHBOCK,	/* rectangular, full width; crest */
	TARN_WEIR_ACKERS,	/* rectangular, full width; crest */
	TARN_WEIR_HEAD_RATIO,	/* rectangular, full width; crest */
	TARN_WEIR_LINEAR_CD,	/* rectangular, full width; crest */
	TARN_WEIR_CONSTANT,	/* v_notch */
	TARN_WEIR_KINDSVATER_SHEN,	/* v_notch, 25 to 100 degrees */
	TARN_WEIR_IDEAL,	/* broad */
	TARN_WEIR_BOS,		/* broad; breadth */
	TARN_WEIR_BRATER_KING	/* broad; breadth */
};

/*
 * A weir, notch or lip.  H = head, L = width, P = crest, B = channel_width,
 * n = contractions, US forms turned into SI exactly.
 *
 * rectangular
 *   francis            1.838 (L - 0.1 n H) [(H+h0)^1.5 - h0^1.5]
 *                      (3.33 in feet); h0 = V^2/2g of the approach where
 *                      channel_width and crest are given, else 0
 *   kindsvater_carter  Ce (L + kb) (H + 0.0009)^1.5, Ce by L/B and H/P
 *   rehbock            (2/3) sqrt(2g) (0.602 + 0.0832 H/P) L (H+0.00125)^1.5
 *   ackers             0.564 (1 + 0.150 H/P) L sqrt(g) (H + 0.001)^1.5
 *   head_ratio         (3.27 + 0.40 H/P) L H^1.5 in feet
 *   linear_cd          (2/3) (0.598 + 0.0897 H/P) sqrt(2g) L H^1.5, as Cengel
 *                      & Cimbala, ex. 13-10, print it
 * v_notch, t = tan(angle/2)
 *   constant           (8/15) 0.584 sqrt(2g) t H^2.5
 *   kindsvater_shen    (8/15) Ce sqrt(2g) t (H + k)^2.5, Ce and k by angle
 * broad, lip
 *   ideal              (2/3)^1.5 sqrt(g) L H^1.5 = 1.705 L H^1.5
 *   bos, brater_king   the same form, coefficient by H and breadth
 * any kind, with 'coefficient' C given
 *                      C (L - 0.1 n H) H^1.5, v_notch: C t H^2.5
 *
 * downstream_head: the water behind stands above the crest too; the flow is
 * reduced after Villemonte (1947).
 *
 * Give two of width (v_notch: none), flow, and head or lip_depth; the third
 * is solved for.
 *
 * lip_depth   sharp crest: 0.85 H (profile of the free nappe, from memory).
 *             broad and lip: 0.715 critical depth (Rouse 1936, from memory),
 *             about 0.48 H.  Not for v_notch.
 */
struct tarn_weir {
	int kind;			/* enum tarn_weir_kind */
	int formula;			/* enum tarn_weir_formula */
	double flow_m3s;
	double head_m;
	double lip_depth_m;
	double width_m;			/* of the crest, across the flow */
	double contractions;		/* ends that are contracted, 0 .. 2 */
	double angle_deg;		/* of the notch */
	double crest_m;			/* crest above the approach's floor */
	double channel_width_m;		/* of the approach */
	double breadth_m;		/* of a broad crest, along the flow */
	double coefficient;		/* C  [m^0.5/s], US value * 0.5521 */
	double downstream_head_m;	/* above the crest, default 0 */
	double drop_m;			/* free fall below the crest */
};
TARN_API struct tarn_weir tarn_weir_default(void);
TARN_API extern const struct tarn_fields tarn_weir_fields;

/* How a sheet looks: common practice of the trade, taken by flow over width
 * (50, 100, 200 US gal/h per inch are its middle values; the borders of 75
 * and 150 are ours). */
enum tarn_look { TARN_LOOK_FILM, TARN_LOOK_SHEET, TARN_LOOK_HEAVY };

struct tarn_weir_flow {
	double flow_m3s, width_m;
	double head_m;			/* upstream, above the crest */
	double lip_depth_m;		/* on the crest; NaN for v_notch */
	double critical_depth_m;	/* NaN for v_notch */
	double flow_per_width_m2s;
	double coefficient;		/* flow / (width head^1.5), v_notch:
					   flow / (t head^2.5) */
	double lip_velocity_ms;
	double approach_velocity_ms;	/* NaN where not asked for */
	int look;			/* enum tarn_look, -1 for v_notch */
	double throw_m;			/* where the sheet's face lands, level
					   distance from the lip */
	double throw_back_m;		/* the sheet's back */
	double impact_ms;		/* speed at landing */
	const char *note;		/* what is outside a formula's tested
					   range; NULL: nothing */
};
TARN_API extern const struct tarn_fields tarn_weir_flow_fields;
TARN_API enum tarn_status tarn_weir_solve(const struct tarn_weir *weir,
					  struct tarn_weir_flow *out,
					  struct tarn_error *err);

/* Villemonte's share of free flow that a drowned weir passes; ratio of heads
 * >= 0 and < 1, else NaN, exponent 1.5 (rectangular) or 2.5 (v_notch). */
TARN_API double tarn_weir_submergence(double head_ratio, double exponent);

#ifdef __cplusplus
}
#endif
#endif
