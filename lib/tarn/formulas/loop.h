/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_LOOP_H
#define TARN_FORMULAS_LOOP_H

/*
 * loop: a bed in a loop around a pond.  Part of bed.h, whose first lines give
 * the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * The pond is mixed, the bed takes Q of it and returns it cleaned:
 *
 *   V dC/dt = L - B (C - C*) - X (C - Cx) - V kp C,   B = Q (1 - remaining)
 *   steady:  C = (L + B C* + X Cx) / (B + X + V kp)
 *   from C0: C(t) = C + (C0 - C) exp(-(B + X + V kp) t / V)
 *
 * Nitrate is also fed by what the bed takes of the ammonia; its answer has
 * two exponentials.  All exact, no time step.  Percent removed per pass FALLS
 * with the flow while mass removed per day RISES, towards k A (C - C*): under
 * recirculation only the second counts.
 *
 * Source: mass balance, derived; checked against a general ODE solver.
 * Left out: the time water spends in the bed; die-off, growth and storage.
 * Phosphorus leaves only with harvest, sludge and water, so a phosphorus k is
 * storage that fills up.
 */
enum tarn_substance {
	TARN_AMMONIA,		/* total ammonia nitrogen, as N */
	TARN_NITRATE,		/* as N */
	TARN_PHOSPHORUS,
	TARN_BOD,
	TARN_SOLIDS,
	TARN_SUBSTANCES
};

/* "ammonia", "nitrate", ...; NULL outside. */
TARN_API const char *tarn_substance_name(enum tarn_substance s);

struct tarn_loop_substance {
	double load_g_d;	/* into the pond                    >= 0 */
	double start_mgl;	/* in the pond at day 0 */
	double k_m_yr;		/* areal rate of the bed at 20 deg C */
	double theta, tanks_in_series;
	double background_mgl;
	double exchange_mgl;	/* in the water that is let in */
	double pond_per_day;	/* first-order loss in the pond itself */
};

struct tarn_loop {
	double volume_m3;	/* of the pond's water */
	double flow_m3s;	/* round the loop */
	double area_m2;		/* of the bed */
	double temp_c;
	double exchange_m3s;	/* fresh water in, pond water out */
	double nitrified;	/* part of the ammonia taken by the bed that
				   comes back as nitrate     0 .. 1 */
	struct tarn_loop_substance substance[TARN_SUBSTANCES];
};

TARN_API extern const struct tarn_fields tarn_loop_fields;
TARN_API extern const struct tarn_fields tarn_loop_substance_fields;

/* No load, no removal; all ammonia taken comes back as nitrate. */
TARN_API struct tarn_loop tarn_loop_default(void);

struct tarn_loop_result {
	double mgl[TARN_SUBSTANCES];	 /* steady; NaN: rises for ever */
	double clearance_m3s[TARN_SUBSTANCES];	/* B: water cleaned */
	double per_day[TARN_SUBSTANCES]; /* rate of approach */
	double bed_g_d[TARN_SUBSTANCES]; /* taken by the bed when steady */
	unsigned flags;			 /* NO_STEADY_STATE */
};
TARN_API extern const struct tarn_fields tarn_loop_result_fields;

/* Errors: TARN_EARG, field "loop.name". */
TARN_API enum tarn_status tarn_loop_steady(const struct tarn_loop *loop,
					   struct tarn_loop_result *out,
					   struct tarn_error *err);

/* Concentrations after 'days' from 'from' (any number of days, in one step
 * or in many the same); 'to' may be 'from'.  Errors: TARN_EARG. */
TARN_API enum tarn_status
tarn_loop_after(const struct tarn_loop *loop, double days,
		const double from[TARN_SUBSTANCES],
		double to[TARN_SUBSTANCES], struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
