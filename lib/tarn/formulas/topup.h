/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_TOPUP_H
#define TARN_FORMULAS_TOPUP_H

/*
 * topup: water from the tap: valve, share, chlorine.  Part of flow.h, whose
 * first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Least air gap above the flood rim: twice the supply's opening, never under
 * 1 inch.  Source: US plumbing codes, common practice; a near wall asks for
 * more, and the local code rules.  NaN unless opening > 0. */
TARN_API double tarn_air_gap_m(double opening_m);

struct tarn_topup {
	double volume_m3;		/* of one event */
	double pond_m3;
	double kv, cv;			/* of its valve, m3/h at 1 bar and US
					   gal/min at 1 psi: one, or flow */
	double flow_m3s;
	double pressure_kpa;		/* at the valve, while it runs */
	double events_per_week;		/* default 1 */
	double chlorine_mg_l;		/* total, as Cl2 */
	double chloramine_mg_l;		/* part of it that is chloramine */
	double neutraliser;		/* mg per mg of chlorine as Cl2, table
					   TARN_NEUTRALISERS; obey the label */
	double opening_m;		/* of the supply */
};
TARN_API struct tarn_topup tarn_topup_default(void);
TARN_API extern const struct tarn_fields tarn_topup_fields;

/* What was not asked for (no pressure, no chlorine ...) is NaN. */
struct tarn_topup_flow {
	double flow_m3s;
	double fill_time_s;		/* valve wide open: a float throttles
					   near its end and takes longer */
	double share;			/* tap water in the pond, one event */
	double share_week;		/* after the week's events */
	double salts_week;		/* what they add to the pond's salts, if
					   none leave, as a share of what a
					   pond full of tap water holds */
	double chlorine_mixed_mg_l;	/* in the pond, before it reacts */
	double neutraliser_g;		/* for one event's tap water */
	double neutraliser_pond_g;	/* for the whole pond's volume, as some
					   guides ask */
	double nitrogen_g;		/* ammonia N left by one event */
	double air_gap_m;
};
TARN_API extern const struct tarn_fields tarn_topup_flow_fields;
TARN_API enum tarn_status tarn_topup_solve(const struct tarn_topup *topup,
					   struct tarn_topup_flow *out,
					   struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
