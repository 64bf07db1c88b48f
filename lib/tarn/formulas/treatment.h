/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_TREATMENT_H
#define TARN_FORMULAS_TREATMENT_H

/*
 * treatment: what a bed takes out of water in one pass, and published rates.
 * Part of bed.h, whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * First-order areal removal towards a background C*, through P equal tanks in
 * a row (P = 1: one mixed tank; P infinite: plug flow).
 *
 *   (Co - C*) / (Ci - C*) = (1 + k / (P q))^-P      -> exp(-k / q)
 *   k = k20 theta^(T - 20)
 *
 * Source: Kadlec & Knight (1996) and Kadlec & Wallace (2009), from memory;
 *         the plug-flow form as US EPA/600/R-16/093 vol. III eq. 5-13.
 * Valid:  steady flow, k from beds at a like loading.  k and C* are 'very
 *         strong functions of hydraulic loading and inlet concentration'
 *         (Kadlec 2000).
 */

/* Areal rate [m/yr] that a volumetric rate K_T [1/d] means in a bed of that
 * depth: K_T d n 365.  The volumetric form (Reed, Crites & Middlebrooks 1995),
 * Ce/Co = exp(-K_T t) with t = A d n / Q, is the areal one with this k, plug
 * flow, C* = 0.  The porosity must not be counted twice.  NaN unless
 * K_T >= 0, depth > 0, 0 < porosity <= 1. */
TARN_API double tarn_areal_rate(double k_per_day, double depth_m,
				double porosity);

/* Areal rate [m/yr] that a removal (0 <= fraction < 1) at a loading means if
 * C* = 0 and the flow is plug: -q ln(1 - removal).  NaN unless q > 0. */
TARN_API double tarn_implied_rate(double removal, double loading_m_d);

/* Tanks in series that mix like a closed vessel of dispersion number D:
 * 1 / (2D - 2D^2 (1 - exp(-1/D))) (Levenspiel).  NaN unless D > 0. */
TARN_API double tarn_dispersion_tanks_in_series(double dispersion);

/* Reed, Crites & Middlebrooks (1995) and US EPA/625/1-88/022 (1988), all from
 * memory.  Volumetric rates at 20 deg C [1/d] of a gravel bed: for BOD from
 * the porosity, 1.839 x 37.31 n^4.172; for nitrification from the part of the
 * depth that roots fill, 0.01854 + 0.3922 r^2.6077.  Ratios out/in: solids
 * 0.1058 + 0.0011 q, phosphorus exp(-2.73 / q), q in cm/d inside.  NaN
 * unless 0 < porosity < 1, 0 <= root share <= 1, loading > 0. */
TARN_API double tarn_reed_bod_rate(double porosity);
TARN_API double tarn_reed_nitrification_rate(double root_share);
TARN_API double tarn_reed_solids_ratio(double loading_m_d);
TARN_API double tarn_reed_phosphorus_ratio(double loading_m_d);

struct tarn_treatment {
	double flow_m3s;	/* in at the inlet                  > 0 */
	double area_m2;		/* NaN where the area is asked      > 0 */
	double inlet_mgl;
	double target_mgl;	/* NaN where the outlet is asked */
	double background_mgl;	/* C*, below which no bed gets it */
	double k_m_yr;		/* areal, at 20 deg C; or k_per_day */
	double k_per_day;	/* volumetric, with depth and porosity */
	double depth_m, porosity;
	double theta;		/* 1: temperature plays no part */
	double temp_c;		/* of the water                     0 .. 40 */
	double tanks_in_series;	/* HUGE_VAL: plug flow              1 .. */
	double rain_mm_d;	/* on the bed */
	double et_mm_d;		/* out of the bed */
	double rain_mgl;	/* concentration in rain */
	double k_low_m_d;	/* loadings between which k was measured, */
	double k_high_m_d;	/* both or neither; NaN: not known */
};

TARN_API extern const struct tarn_fields tarn_treatment_fields;

/* Plug flow, C* = 0, theta 1, 20 deg C, no rain; the rest NaN. */
TARN_API struct tarn_treatment tarn_treatment_default(void);

struct tarn_treatment_result {
	double area_m2;
	double loading_m_d;	/* at the inlet */
	double outlet_mgl;
	double outflow_m3s;
	double k_m_d;		/* at the water's temperature */
	double limit_mgl;	/* what an endless bed would reach */
	double removal;		/* 1 - out/in, of concentration */
	double removed_g_d;	/* of mass, rain's share counted in */
	double extrapolation;	/* tarn_loading_factor to the loadings of k;
				   NaN: these are not known */
	unsigned flags;
};
TARN_API extern const struct tarn_fields tarn_treatment_result_fields;

/*
 * Outlet of a bed, and area for a target.  With rain p and evapotranspiration
 * e on the way (alpha = p - e) plug flow gives, exactly,
 *
 *   C' = (k C* + p Cp) / (k + alpha)
 *   (Co - C') / (Ci - C') = (1 + alpha / q)^-(1 + k / alpha)
 *
 * and tanks are reckoned one by one; their number must then be whole.
 *
 * Flags: EXTRAPOLATED, RATE_UNPLACED, UNDER_BACKGROUND (the inlet is: the bed
 * adds), NOTHING_TO_DO (target at or above the inlet: area 0),
 * RAIN_DOMINATES (more rain or ET than a tenth of the flow).
 * Errors: TARN_EARG: a field missing or out of range; a target that no bed
 * reaches; ET that takes all the water.
 */
TARN_API enum tarn_status
tarn_treatment_outlet(const struct tarn_treatment *t,
		      struct tarn_treatment_result *out,
		      struct tarn_error *err);
TARN_API enum tarn_status tarn_treatment_area(const struct tarn_treatment *t,
					      struct tarn_treatment_result *out,
					      struct tarn_error *err);

/*
 * Concentration along a plug-flow bed at 'points' equal steps of area, the
 * first at the inlet, the last at the outlet, filled into mgl[].  Integrates
 * Q dC/dA = p Cp + k C* - (k + alpha) C by Runge-Kutta steps, independent of
 * the closed form above and within 1e-9 of it.  Errors: as above; points < 2.
 */
TARN_API enum tarn_status
tarn_treatment_profile(const struct tarn_treatment *t, size_t points,
		       double mgl[], struct tarn_error *err);

/* Published rates.  'background' = base + slope x inlet.  NaN: not known. */
struct tarn_rate {
	const char *name;	/* "hf-ammonia-2009" */
	const char *bed;	/* kind of bed and water */
	const char *parameter;	/* "ammonia", "BOD", ... */
	double k_m_yr;		/* areal, at 20 deg C, or */
	double k_per_day;	/* volumetric, at 20 deg C */
	double sd_m_yr;		/* spread between beds, standard deviation */
	double tanks_in_series;
	double theta;
	double background_mgl, background_slope;
	double low_m_d, high_m_d;	/* loadings of those beds */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_rate_fields;

TARN_API const struct tarn_rate *tarn_rates(size_t *count);

/* By name, NULL if there is none.  The name of number i, from 0; NULL past the
 * last: the words of a described field. */
TARN_API const struct tarn_rate *tarn_rate_find(const char *name);
TARN_API const char *tarn_rate_name(size_t i);

/* Sets k, theta, tanks_in_series, loadings and, where it is known, background
 * of a treatment; its inlet must be set before where the background depends on
 * it. */
TARN_API void tarn_treatment_set_rate(struct tarn_treatment *t,
				      const struct tarn_rate *rate);

/* Removals measured at a loading, nearest to what garden beds do; the pairing
 * of removal with loading is ours.  Feed them to tarn_implied_rate. */
struct tarn_trial {
	const char *system, *parameter;
	double loading_m_d, removal;
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_trial_fields;

TARN_API const struct tarn_trial *tarn_trials(size_t *count);

#ifdef __cplusplus
}
#endif
#endif
