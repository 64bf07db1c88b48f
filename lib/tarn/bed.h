/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_H
#define TARN_BED_H

/*
 * bed: how big a planted gravel bed must be, and what it does.
 *
 * From the top: surface loading; treatment in one pass; the bed in a loop
 * around a pond; what fish put into the water; ammonia and oxygen; gravel
 * hydraulics; layers of stone; the yard; a whole sizing, its trade-off and
 * its uncertainty.
 *
 * Two warnings that the results repeat as flags.  First-order removal rates
 * come from sewage and fish-farm beds, most of them loaded at 0.02 to 15 m/d;
 * garden beds are often run at 50 to 120 m/d, where nobody measured.  And
 * rates grow with the loading, so one taken from a fast bed errs to the
 * unsafe side in a slow one.
 *
 * Units: m, m2, m3, m3/s, m/s, deg C, mg/L; surface loading and hydraulic
 * conductivity in m/d; areal rates in m/yr (365 days); loads in g/d.
 *
 * Structs are made by their _default() and then changed: they may grow.
 * Water's density and viscosity are given by the caller; the defaults are
 * those at 20 deg C, 998.2 kg/m3 and 1.0016e-3 Pa s (IAPWS).
 */

#include <stdint.h>

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Doubts and refusals that a result carries, as bits.  A refusal (see
 * TARN_BED_REFUSALS) means that the bed cannot be built or does not do its
 * job; the others must be told to the user.
 */
#define TARN_BED_EXTRAPOLATED	  (1u << 0)
#define TARN_BED_RATE_UNPLACED	  (1u << 1)
#define TARN_BED_UNDER_BACKGROUND (1u << 2)
#define TARN_BED_NOTHING_TO_DO	  (1u << 3)
#define TARN_BED_FLOW_SHORT	  (1u << 4)
#define TARN_BED_TARGET_MISSED	  (1u << 5)
#define TARN_BED_LOW_OXYGEN	  (1u << 6)
#define TARN_BED_ANAEROBIC	  (1u << 7)
#define TARN_BED_OXYGEN_ASSUMED	  (1u << 8)
#define TARN_BED_HEAD_SHORT	  (1u << 9)
#define TARN_BED_WATER_ON_GRAVEL  (1u << 10)
#define TARN_BED_NO_DARCY	  (1u << 11)
#define TARN_BED_BEYOND_ERGUN	  (1u << 12)
#define TARN_BED_DOES_NOT_FIT	  (1u << 13)
#define TARN_BED_LOADING_OUTSIDE  (1u << 14)
#define TARN_BED_SECTION_OVERLOAD (1u << 15)
#define TARN_BED_AREA_OVERLOAD	  (1u << 16)
#define TARN_BED_LOADING_ASSUMED  (1u << 17)
#define TARN_BED_NO_CHAMBER	  (1u << 18)
#define TARN_BED_CLEAN_OUT	  (1u << 19)
#define TARN_BED_TOO_SMALL	  (1u << 20)
#define TARN_BED_NO_STEADY_STATE  (1u << 21)
#define TARN_BED_RAIN_DOMINATES	  (1u << 22)

#define TARN_BED_REFUSALS                                            \
	(TARN_BED_FLOW_SHORT | TARN_BED_TARGET_MISSED |              \
	 TARN_BED_ANAEROBIC | TARN_BED_HEAD_SHORT |                  \
	 TARN_BED_WATER_ON_GRAVEL | TARN_BED_DOES_NOT_FIT |          \
	 TARN_BED_SECTION_OVERLOAD)

/* All flags, in the order of their bits; *count is filled. */
TARN_API const struct tarn_flag *tarn_bed_flags(size_t *count);

/* ---- surface loading -------------------------------------------------- */

/*
 * q = Q / A: flow over plan area.  The first number to settle, since published
 * values span four powers of ten.  Any of the three from the other two;
 * NaN unless both are positive and finite.
 *
 *   flow_m3s     through the bed                        [m3/s]
 *   area_m2      plan area                              [m2]
 *   loading_m_d  surface loading rate                   [m/d]
 *
 * Other units are factors of tarn_unit(): m_per_hour, gpm_per_ft2,
 * gph_per_ft2, gpd_per_ft2, lpm_per_m2.
 */
TARN_API double tarn_bed_loading(double flow_m3s, double area_m2);
TARN_API double tarn_bed_area(double flow_m3s, double loading_m_d);
TARN_API double tarn_bed_flow(double loading_m_d, double area_m2);

/* Uses of a bed, for the table below. */
enum tarn_bed_use {
	TARN_USE_SEWAGE,	/* sewage, greywater and their polishing */
	TARN_USE_AQUACULTURE,	/* water of fish and shrimp farms */
	TARN_USE_SWIMMING,	/* planted filters of swimming ponds */
	TARN_USE_ORNAMENTAL,	/* gravel beds of garden ponds */
	TARN_USE_ROUGHING,	/* gravel roughing of river water */
	TARN_USES		/* how many; also 'any use' */
};

/* "sewage", "aquaculture", ...; NULL outside. */
TARN_API const char *tarn_bed_use_name(enum tarn_bed_use use);

/* Surface loadings that were measured or are taught, slowest first. */
struct tarn_loading_range {
	const char *kind;		/* kind of bed */
	enum tarn_bed_use use;
	double lo_m_d, hi_m_d;		/* equal: one value; lo 0: 'up to' */
	const char *removal;		/* what it removed there, or "" */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_loading_range_fields;

TARN_API const struct tarn_loading_range *tarn_loading_ranges(size_t *count);

/* How far a loading is outside lo..hi: 1 inside, above 1 the factor over hi,
 * under 1 the factor under lo.  NaN if the loading or hi is not positive. */
TARN_API double tarn_loading_factor(double loading_m_d, double lo_m_d,
				    double hi_m_d);

/*
 * Where a loading falls among the ranges of one use (TARN_USES: of all).
 * 'factor' is tarn_loading_factor to the nearest row, 'lo' and 'hi' the ends
 * of all rows of that use, 'inside' how many rows hold it.  Errors: TARN_EARG.
 */
struct tarn_loading_place {
	const struct tarn_loading_range *nearest;
	size_t inside;
	double factor, lo_m_d, hi_m_d;
};
TARN_API extern const struct tarn_fields tarn_loading_place_fields;

TARN_API enum tarn_status tarn_loading_place(double loading_m_d,
					     enum tarn_bed_use use,
					     struct tarn_loading_place *out,
					     struct tarn_error *err);

/* The four regimes that a designer chooses between; no default among them. */
struct tarn_loading_regime {
	const char *name;		/* "slow_planted", "aquaculture", ... */
	double lo_m_d, hi_m_d;
	const char *meaning;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_loading_regime_fields;

TARN_API const struct tarn_loading_regime *tarn_loading_regimes(size_t *count);

/*
 * Common practice, no source; ranges in use that overlap are one row.  Some
 * rules count the bed's area against the pond's surface, some the bed's volume,
 * stone and all, against the pond's volume: the two are often mixed up, and
 * differ by the ratio of the depths.
 */
enum tarn_rule_basis {
	TARN_RULE_SURFACE,	/* bed area / pond surface */
	TARN_RULE_VOLUME,	/* bed volume / pond volume */
	TARN_RULE_TURNOVER	/* pond volumes pumped per hour */
};

struct tarn_bed_rule {
	enum tarn_rule_basis basis;
	double lo, hi;
	const char *text;
};
TARN_API extern const struct tarn_fields tarn_bed_rule_fields;

/* All are common practice without a source. */
TARN_API const struct tarn_bed_rule *tarn_bed_rules(size_t *count);

/* Part of a well-mixed pond's water that has been through the bed at least
 * once after so many turnovers: 1 - exp(-N), never all of it. */
TARN_API double tarn_turnover_exposed(double turnovers);

/* Mean time of water in the bed's voids, A d n / Q [s], before dead zones:
 * tracers in gravel beds showed 0.68 to 0.87 of it (Water Sci. Technol.
 * 34(3-4):421, abstract).  NaN unless all are positive, porosity up to 1. */
TARN_API double tarn_bed_residence(double flow_m3s, double area_m2,
				   double depth_m, double porosity);

/* ---- treatment in one pass -------------------------------------------- */

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
 *
 * remaining: that ratio from k/q; NaN unless k/q >= 0 and tanks >= 1.
 * effort:    k/q from the ratio; NaN unless 0 < ratio <= 1.
 */
TARN_API double tarn_treatment_remaining(double k_over_q, double tanks);
TARN_API double tarn_treatment_effort(double remaining, double tanks);

/* k at a temperature, k20 theta^(T - 20).  NaN unless k20 >= 0, theta > 0,
 * 0 <= T <= 40. */
TARN_API double tarn_rate_at(double k20, double theta, double temp_c);

/* Areal rate [m/yr] that a volumetric rate K_T [1/d] means in a bed of that
 * depth: K_T d n 365.  The volumetric form (Reed, Crites & Middlebrooks 1995),
 * Ce/Co = exp(-K_T t) with t = A d n / Q, is the areal one with this k, plug
 * flow, C* = 0.  The porosity must not be counted twice. */
TARN_API double tarn_areal_rate(double k_per_day, double depth_m,
				double porosity);

/* Areal rate [m/yr] that a removal (0 <= fraction < 1) at a loading means if
 * C* = 0 and the flow is plug: -q ln(1 - removal). */
TARN_API double tarn_implied_rate(double removal, double loading_m_d);

/* Tanks in series that mix like a closed vessel of dispersion number D:
 * 1 / (2D - 2D^2 (1 - exp(-1/D))) (Levenspiel).  NaN unless D > 0. */
TARN_API double tarn_dispersion_tanks(double dispersion);

/* Reed, Crites & Middlebrooks (1995) and US EPA/625/1-88/022 (1988), all from
 * memory.  Volumetric rates at 20 deg C [1/d] of a gravel bed: for BOD from
 * the porosity, 1.839 x 37.31 n^4.172; for nitrification from the part of the
 * depth that roots fill, 0.01854 + 0.3922 r^2.6077.  Ratios out/in: solids
 * 0.1058 + 0.0011 q, phosphorus exp(-2.73 / q), q in cm/d inside. */
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
	double tanks;		/* HUGE_VAL: plug flow              1 .. */
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
	double tanks;
	double theta;
	double background_mgl, background_slope;
	double low_m_d, high_m_d;	/* loadings of those beds */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_rate_fields;

TARN_API const struct tarn_rate *tarn_rates(size_t *count);

/* By name, NULL if there is none. */
TARN_API const struct tarn_rate *tarn_rate_find(const char *name);

/* Sets k, theta, tanks, loadings and, where it is known, background of a
 * treatment; its inlet must be set before where the background depends on
 * it. */
TARN_API void tarn_treatment_use(struct tarn_treatment *t,
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

/* ---- a bed in a loop around a pond ------------------------------------ */

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
	double theta, tanks;
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

/* ---- what fish put into the water ------------------------------------- */

/*
 * Feed is the load: per kg of it come ammonia, solids, phosphorus and a demand
 * for oxygen.  Where only the fish are known, feed = mass x share of body
 * weight x appetite.
 */

/*
 * Part of the full ration at a temperature: 0 below 10 deg C, 1 from 21 deg C,
 * a straight line between.  Common practice, no source (in use: none
 * below 10, full when warm); the line is ours.  NaN outside 0 .. 40.
 */
TARN_API double tarn_appetite(double temp_c);

struct tarn_waste {
	double feed_g;		/* dry feed a day; NaN: from the fish */
	double protein;		/* part of the feed                0.1 .. 0.7 */
	double fish_kg;
	double ration;		/* full ration, part of body weight a day */
	double temp_c;
	double ammonia_per_protein;	/* g N of ammonia per g protein */
	double solids_per_feed;		/* g per g */
	double phosphorus_per_feed;
	double oxygen_per_feed;		/* breathed by the fish */
	double bod_per_feed;		/* for bacteria, nitrification apart */
};

TARN_API extern const struct tarn_fields tarn_waste_fields;

/*
 * protein 0.35, ration 0.02, 20 deg C; per g: ammonia 0.092 (Timmons &
 * Ebeling, from memory: 0.16 x 0.80 x 0.80 x 0.90), solids 0.275 and
 * phosphorus 0.0075 (middles of 0.25-0.30 and 0.006-0.009, from memory),
 * oxygen 0.25 (from memory), BOD 0.10 (ours: 0.50 with bacteria, from
 * memory, less fish and nitrification at 35 % protein).
 */
TARN_API struct tarn_waste tarn_waste_default(void);

struct tarn_waste_result {
	double feed_g;
	double nitrogen_g;	/* in the feed: 16 % of protein */
	double ammonia_g;	/* as N */
	double ammonia_low_g;	/* least and most of all rules below that */
	double ammonia_high_g;	/* the input allows */
	double solids_g, phosphorus_g, bod_g;
	double fish_oxygen_g;
	double nitrification_oxygen_g;
	double oxygen_g;	/* fish + BOD + nitrification */
	double alkalinity_g;	/* as CaCO3, used by nitrification */
};
TARN_API extern const struct tarn_fields tarn_waste_result_fields;

/* Errors: TARN_EARG; neither feed nor fish given. */
TARN_API enum tarn_status tarn_waste(const struct tarn_waste *w,
				     struct tarn_waste_result *out,
				     struct tarn_error *err);

/* Rules for ammonia nitrogen that are in use; they differ by a factor of 4. */
enum tarn_waste_basis {
	TARN_WASTE_PROTEIN,	/* g per g of protein fed */
	TARN_WASTE_FEED,	/* g per g of feed */
	TARN_WASTE_FISH		/* g per g of fish and day */
};

struct tarn_waste_rule {
	enum tarn_waste_basis basis;
	double factor;
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_waste_rule_fields;

TARN_API const struct tarn_waste_rule *tarn_waste_rules(size_t *count);

/* Oxygen, alkalinity (as CaCO3) and new cells per g of nitrogen nitrified.
 * Row 0 is the stoichiometry NH4+ + 2 O2, which the loads above use. */
struct tarn_nitrification {
	double oxygen, alkalinity, cells;	/* g/g; NaN: not given there */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_nitrification_fields;

TARN_API const struct tarn_nitrification *tarn_nitrifications(size_t *count);

/* ---- ammonia and oxygen in water -------------------------------------- */

/*
 * Acid constant pKa = 0.09018 + 2729.92 / (T + 273.15), the un-ionised (toxic)
 * part of total ammonia 1 / (1 + 10^(pKa - pH)), and the total ammonia that
 * holds so much un-ionised (same unit in and out).
 *
 *   ph       4 .. 12          temp_c   0 .. 40       NaN outside
 *
 * Source:   Emerson et al. (1975); fresh water, fitted on 0 .. 30 deg C.
 * Accuracy: within half the last digit of the table in UF/IFAS FA16 up to
 *           28 deg C; 0.0002 below it at 32 deg C.
 */
TARN_API double tarn_ammonia_pka(double temp_c);
TARN_API double tarn_unionised(double ph, double temp_c);
TARN_API double tarn_total_ammonia(double unionised, double ph,
				   double temp_c);

/*
 * Oxygen in fresh water in balance with moist air                  [mg/L].
 *
 *   temp_c       0 .. 40
 *   elevation_m  -430 .. 6000, standard atmosphere (ICAO)
 *
 * Formula:  ln C = -139.34411 + 1.575701e5/K - 6.642308e7/K^2 + 1.2438e10/K^3
 *           - 8.621949e11/K^4 at 1 atm, K = T + 273.15; times
 *           P (1 - W/P)(1 - t P) / ((1 - W)(1 - t)) with P in atm,
 *           ln W = 11.8571 - 3840.70/K - 216961/K^2,
 *           t = 0.000975 - 1.426e-5 T + 6.436e-8 T^2.
 * Source:   Benson & Krause (1984) as in APHA (1985); the pressure terms from
 *           memory.
 * Accuracy: within the rounding of the EN 25814 table at sea level.
 */
TARN_API double tarn_oxygen_saturation(double temp_c, double elevation_m);

/*
 * Does the flow bring the bed enough oxygen?  outlet = inlet + (reaeration -
 * demand) / Q; below zero the bed goes anaerobic, below 'keep' it is close.
 */
struct tarn_oxygen {
	double flow_m3s;
	double inlet_mgl;	/* NaN: 'assumed' x saturation, and flagged */
	double assumed;		/* part of saturation at the inlet (0.8, ours) */
	double temp_c, elevation_m;
	double ammonia_g;	/* nitrified in the bed a day, as N */
	double bod_g;		/* burnt in the bed a day */
	double reaeration_g;	/* from air and roots a day         (0, safe) */
	double keep_mgl;	/* wanted at the outlet (2, common practice) */
};

TARN_API extern const struct tarn_fields tarn_oxygen_fields;
TARN_API struct tarn_oxygen tarn_oxygen_default(void);

struct tarn_oxygen_result {
	double saturation_mgl, inlet_mgl;
	double supply_g, demand_g;	/* a day; supply with reaeration */
	double outlet_mgl;		/* negative: so much is lacking */
	double ammonia_limit_g;		/* nitrified a day at most, BOD first,
					   'keep' left over */
	double least_flow_m3s;		/* that leaves 'keep'; NaN: none does */
	unsigned flags;	/* LOW_OXYGEN, ANAEROBIC, OXYGEN_ASSUMED */
};
TARN_API extern const struct tarn_fields tarn_oxygen_result_fields;

/* Errors: TARN_EARG, field "oxygen.name". */
TARN_API enum tarn_status tarn_oxygen(const struct tarn_oxygen *o,
				      struct tarn_oxygen_result *out,
				      struct tarn_error *err);

/* ---- water through gravel --------------------------------------------- */

struct tarn_gravel {
	double diameter_m;	/* of the stone, Sauter mean  1e-5 .. 0.5 */
	double porosity;	/*                            0.05 .. 0.95 */
	double sphericity;	/* 1 sphere, 0.82 rounded, 0.73 crushed */
	double density_kgm3;	/* of the water */
	double viscosity_pas;
	double clogging;	/* head loss is so many times the clean one;
				   US EPA (2000) designs with 10 to 100, from
				   memory                     1 .. 1e4 */
};

TARN_API extern const struct tarn_fields tarn_gravel_fields;

/* Clean spheres in water of 20 deg C; diameter and porosity NaN. */
TARN_API struct tarn_gravel tarn_gravel_default(void);

/*
 * Gradient of head i = a v + b v^2 in gravel, v the plan (empty-bed) velocity.
 *
 *   a = 150 mu (1-n)^2 / (rho g n^3 (s d)^2)                   [s/m]
 *   b = 1.75 (1-n) / (g n^3 s d)                               [s2/m2]
 *
 * times 'clogging'.  Source: Ergun (1952).  Range: 1 < Re_m < 2300, reads too
 * high above 700.  Both NaN if a field is out of range.
 */
struct tarn_resistance {
	double linear, quadratic;
};

TARN_API struct tarn_resistance
tarn_gravel_resistance(const struct tarn_gravel *g);

/* The same from Forchheimer's law as fitted by Sidiropoulou et al. (2007), from
 * memory: a = 0.003333 d^-1.500403 n^0.060350, b = 0.194325 d^-1.265175
 * n^-1.141417.  A second opinion on clean gravel. */
TARN_API struct tarn_resistance tarn_forchheimer(double diameter_m,
						 double porosity);

/* Gradient at a velocity, and velocity [m/s] at a gradient; both >= 0:
 * gradient = (linear + quadratic v) v. */
TARN_API double tarn_resistance_gradient(struct tarn_resistance r,
					 double velocity_ms);
TARN_API double tarn_resistance_velocity(struct tarn_resistance r,
					 double gradient);

/*
 * Other laws, for comparison.  dP/L = f rho v^2 (1-n) / (n^3 s d), f of
 * Re_m = rho v s d / (mu (1-n)):
 *
 *   ERGUN        150/Re + 1.75            CARMAN  180/Re + 2.871/Re^0.1
 *   TALLMADGE    150/Re + 4.2/Re^(1/6)
 *   JONES_KRIER  (150 + 3.89 Re^0.87)/Re
 *
 * Source: Ergun 1952; Carman 1937; Tallmadge 1970; Jones & Krier 1983, all
 *         second-hand.
 */
enum tarn_packing_law {
	TARN_LAW_ERGUN,
	TARN_LAW_CARMAN,
	TARN_LAW_TALLMADGE,
	TARN_LAW_JONES_KRIER
};

/* f, dimensionless, of the laws above (1937 to 1983); NaN unless Re_m > 0. */
TARN_API double tarn_packing_friction(enum tarn_packing_law law,
				      double reynolds_m);

/* dP/L [Pa/m] of clean gravel ('clogging' plays no part); sources above. */
TARN_API double tarn_packing_pressure(enum tarn_packing_law law,
				      const struct tarn_gravel *g,
				      double velocity_ms);

/* Hydraulic conductivity K = rho g (s d)^2 n^3 / (c mu (1-n)^2) over
 * 'clogging' [m/d]; c = 180 Kozeny-Carman, 150 as in Ergun.  Holds for Re < 1
 * only. */
TARN_API double tarn_gravel_conductivity(const struct tarn_gravel *g,
					 double constant);

/* Surface of the stone per volume of bed, 6 (1-n) / (s d) [m2/m3].  What
 * biofilm can use of it is less. */
TARN_API double tarn_gravel_surface(const struct tarn_gravel *g);

/* Particle Reynolds number rho v d / mu [-], and pore velocity v / n [m/s];
 * v >= 0. */
TARN_API double tarn_gravel_reynolds(const struct tarn_gravel *g,
				     double velocity_ms);
TARN_API double tarn_pore_velocity(double velocity_ms, double porosity);

/* Which law holds, by Reynolds number (Hassanizadeh & Gray 1987 and others:
 * non-linear above about 10). */
enum tarn_flow_regime {
	TARN_FLOW_LINEAR,	/* Re < 1: Darcy, Kozeny-Carman */
	TARN_FLOW_TRANSITION,	/* 1 .. 10: Darcy reads low, Ergun */
	TARN_FLOW_INERTIAL,	/* above 10: Ergun, Darcy is wrong */
	TARN_FLOW_BEYOND	/* Re_m above 2300: beyond Ergun's data */
};

/* Regime at a particle Reynolds number; Re_m is Re / (1 - n). */
TARN_API enum tarn_flow_regime tarn_flow_regime_of(double reynolds,
						   double porosity);

/* "linear", "transition", "inertial", "beyond Ergun". */
TARN_API const char *tarn_flow_regime_name(enum tarn_flow_regime r);

struct tarn_headloss {
	double clean_m, clogged_m;
	double gradient;	/* clean */
	double reynolds;
	double quadratic_share;	/* of the gradient: what Darcy leaves out */
	double pore_velocity_ms;
	enum tarn_flow_regime regime;
	unsigned flags;		/* NO_DARCY, BEYOND_ERGUN */
};
TARN_API extern const struct tarn_fields tarn_headloss_fields;

/* Head lost over a depth of gravel (up or along) at a plan velocity.
 * Errors: TARN_EARG: a field of the gravel; velocity or depth not 0 to 10. */
TARN_API enum tarn_status tarn_gravel_headloss(const struct tarn_gravel *g,
					       double velocity_ms,
					       double depth_m,
					       struct tarn_headloss *out,
					       struct tarn_error *err);

/*
 * Horizontal beds by Darcy's law.  Cross-section that carries a flow at a
 * gradient, A_c = Q / (K i) [m2]; longest bed of wet depth y that a loading
 * can cross with a drop of level dh, sqrt(K y dh / q) [m].  K is the clogged
 * one.  NaN unless all are positive.
 */
TARN_API double tarn_darcy_section(double flow_m3s, double conductivity_m_d,
				   double gradient);
TARN_API double tarn_darcy_length(double conductivity_m_d, double depth_m,
				  double drop_m, double loading_m_d);

/*
 * Rise of water [m] at the far side of an upflow bed over that at its outlet:
 * what comes up must run sideways through the gravel that is under the lip.
 * With v = q x / y at x from the far side, the gradient a v + b v^2 adds up to
 * a q L^2 / (2 y) + b q^2 L^3 / (3 y^2).  More than the gravel stands above
 * the lip, and water stands on the gravel.  Derived; on the safe side, since
 * deeper layers and the chamber help.
 *
 *   length_m  way of the water to the lip     depth_m  wet gravel it takes
 */
TARN_API double tarn_lateral_rise(struct tarn_resistance r, double loading_m_d,
				  double length_m, double depth_m);

/* Sauter mean diameter of a graded stone, sum f / sum (f/d): the one that
 * Ergun's law and the surface want.  f are shares by weight of sieve fractions
 * of mean size d.  NaN if any is not positive. */
TARN_API double tarn_sieve_diameter(const double share[],
				    const double diameter_m[], size_t count);

/* Drag on a grain, 24/R under R = 0.5 and 24/R + 3/sqrt(R) + 0.34 up to 1e4
 * (NaN beyond), and Rose's head loss [m] of a graded bed,
 * 1.067 v^2 L / (s g n^4) sum (C_D f / d), R = s d v / nu.
 * Source: Davis, Water and Wastewater Engineering, eq. 11-9, table 11-2. */
TARN_API double tarn_drag_coefficient(double reynolds);
TARN_API double tarn_rose_headloss(const struct tarn_gravel *g,
				   const double share[],
				   const double diameter_m[], size_t count,
				   double velocity_ms, double depth_m);

/*
 * Settling in the chamber under the bed.  A particle stays down if it falls
 * faster than the water rises, Q / A; the part kept of slower ones is the
 * ratio of the two.
 */
struct tarn_particle {
	double diameter_m;
	double density_kgm3;	/* quartz 2650, organic floc about 1050 */
	double water_kgm3;
	double viscosity_pas;
	double shape;		/* C2 of Ferguson & Church: 1 natural sand,
				   0.4 smooth spheres */
};

TARN_API extern const struct tarn_fields tarn_particle_fields;
TARN_API struct tarn_particle tarn_particle_default(void);

/* Fall velocity [m/s].  Stokes: g (rho_p - rho) d^2 / (18 mu), for Re under
 * about 1.  Ferguson & Church (2004): R g d^2 / (18 nu + sqrt(0.75 C2 R g
 * d^3)), any size.  NaN outside the fields' ranges or if it floats. */
TARN_API double tarn_settling_stokes(const struct tarn_particle *p);
TARN_API double tarn_settling(const struct tarn_particle *p);

/* Smallest particle [m] that falls at a velocity > 0, by Stokes:
 * d = sqrt(18 mu v / (g (rho_p - rho))); its own diameter plays no part. */
TARN_API double tarn_settling_diameter(const struct tarn_particle *p,
				       double velocity_ms);

/* Design values of stone, clean and as used. */
struct tarn_medium {
	const char *name;
	double d10_m;
	double porosity_lo, porosity_hi;
	double low_m_d, high_m_d;	/* conductivity, Reed et al. */
	double design_m_d;		/* conductivity, US EPA (1993) */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_medium_fields;

TARN_API const struct tarn_medium *tarn_media(size_t *count);

/* Published limits of load on a bed. */
enum tarn_limit_basis {
	TARN_LIMIT_SECTION_BOD,	/* g BOD per m2 of inlet cross-section a day */
	TARN_LIMIT_AREA_BOD,	/* g BOD per m2 of plan area a day */
	TARN_LIMIT_AREA_SOLIDS	/* g solids per m2 of plan area a day */
};

struct tarn_limit {
	enum tarn_limit_basis basis;
	double value;
	const char *meaning, *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_limit_fields;

TARN_API const struct tarn_limit *tarn_limits(size_t *count);

/* ---- layers ----------------------------------------------------------- */

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

/* ---- the yard --------------------------------------------------------- */

/*
 * Largest rectangle that fits a yard.  Each side of the yard keeps a setback;
 * a side that is a wall on a footing keeps, besides, the line that falls from
 * the footing's underside at 45 degrees (footing_slope 1): a hole dug deeper
 * than the footing stays (dig - footing) x slope away.  This is a planner's
 * check, not an engineer's: loads, soil, water and local codes decide.
 *
 * The search tries the directions of all sides and more between, and refines:
 * exact to 1e-6 m for rectangles along a side, near-best for other shapes.
 */
#define TARN_YARD_CORNERS 32

struct tarn_yard_corner {
	double x_m, y_m;
	double setback_m;	/* of the side from here to the next corner */
	double footing_m;	/* depth of a wall's footing; NaN: no wall */
};

struct tarn_yard {
	const struct tarn_yard_corner *corner;	/* borrowed, in a round */
	size_t count;		/* 3 .. TARN_YARD_CORNERS */
	double dig_m;		/* depth of the hole below ground; NaN: none */
	double footing_slope;	/* metres out per metre down */
	double max_length_m, max_width_m;	/* HUGE_VAL: no limit */
};

TARN_API extern const struct tarn_fields tarn_yard_fields;
TARN_API extern const struct tarn_fields tarn_yard_corner_fields;
TARN_API struct tarn_yard tarn_yard_default(void);
TARN_API struct tarn_yard_corner tarn_yard_corner_default(void);

struct tarn_fit {
	double length_m, width_m;	/* length is the longer side */
	double area_m2;
	double angle_deg;	/* of the length, from the x axis */
	double x_m[4], y_m[4];	/* corners */
	double yard_m2;
};
TARN_API extern const struct tarn_fields tarn_fit_fields;

/* Errors: TARN_EARG: a field; sides that cross; setbacks that leave nothing. */
TARN_API enum tarn_status tarn_yard_fit(const struct tarn_yard *yard,
					struct tarn_fit *out,
					struct tarn_error *err);

/* ---- a whole sizing --------------------------------------------------- */

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
	int regime;		/* 0 none, else 1 + row of the regimes: its
				   geometric middle is the loading */
	double surface_share;	/* of the pond's surface */
	double volume_share;	/* of the pond's volume, stone and all */
	/* load */
	double feed_g, protein;	/* a day; sets what is NaN below */
	double ammonia_g, bod_g, solids_g;
	double pond_target_mgl;	/* ammonia in the pond when steady */
	double inlet_mgl, target_mgl;	/* in one pass */
	double background_mgl, k_m_yr, theta, tanks, temp_c;
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
	double head_m;		/* to spare: bed lip over pond level, or what
				   the pump has left; NaN: no check */
	double outlet_head_m;	/* over the lip at this flow */
	double freeboard_m;	/* gravel over the lip; NaN: no check */
};

TARN_API extern const struct tarn_fields tarn_sizing_fields;

/*
 * Upflow, clogging 10, round stone; protein 0.35; background 0, theta 1, plug
 * flow, 20 deg C, at sea level; media rate 0.2 g N per m2 a day (the low end of
 * 0.2-0.6, from memory) with safety 2; limits 6 g BOD and 20 g solids per m2 of
 * bed and 250 g BOD per m2 of section a day (tarn_limits).  The rest NaN.
 */
TARN_API struct tarn_sizing tarn_sizing_default(void);

/* As tarn_treatment_use; a volumetric rate needs depth and porosity set. */
TARN_API void tarn_sizing_use(struct tarn_sizing *in,
			      const struct tarn_rate *rate);

/* What one bed does.  NaN: not asked, or not to be known from the input. */
struct tarn_bed_check {
	double area_m2, depth_m, flow_m3s;
	double length_m, width_m;
	double loading_m_d;
	double loading_factor;	/* to the regime, or else to the nearest range
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
	double rise_m;		/* of water over the lip, far side */
	double head_needed_m;	/* clogged + outlet */
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

TARN_API const struct tarn_size_rule_info *
tarn_size_rule_info(enum tarn_size_rule m);

struct tarn_sizing_result {
	double area_m2[TARN_SIZE_RULES];	/* NaN: not asked */
	int governs;		/* the method with the largest; -1: the area
				   was given and no method asked */
	double needed_m2;	/* that largest area */
	double least_flow_m3s;	/* under which no bed holds pond_target */
	double regime_lo_m2[4], regime_hi_m2[4]; /* area by each regime */
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

/* ---- trade-off and uncertainty ---------------------------------------- */

/*
 * Checks every area x depth x flow.  'out' is filled with
 * areas * depths * flows entries, flow fastest; a cell is infeasible where
 * flags & TARN_BED_REFUSALS, and its flags say why.  Errors: TARN_EARG.
 */
struct tarn_tradeoff {
	const double *area_m2, *depth_m, *flow_m3s;	/* borrowed */
	size_t areas, depths, flows;
};
TARN_API extern const struct tarn_fields tarn_tradeoff_fields;

TARN_API enum tarn_status tarn_tradeoff(const struct tarn_sizing *base,
					const struct tarn_tradeoff *axes,
					struct tarn_bed_check out[],
					struct tarn_error *err);

/*
 * Counter-based random numbers: word 'index' of stream 'stream' under a seed,
 * the same on every machine and in any order, so that streams can be shared
 * out.  Within a stream it is SplitMix64 (Steele, Lea & Flood 2014) started at
 * seed + mix(stream); stream 0 starts at the seed itself.
 */
TARN_API uint64_t tarn_random(uint64_t seed, uint64_t stream, uint64_t index);

/*
 * Spread of the result when inputs are uncertain.  k, load and flow are
 * log-normal about the given value as median, with that coefficient of
 * variation; porosity is logit-normal, and kept to 0.05 .. 0.95.
 */
struct tarn_chance {
	double samples;		/* 100 .. 1e6, whole */
	double seed;		/* 0 .. 2^53, whole */
	double porosity_sd;
	double k_cv, load_cv, flow_cv;
};

TARN_API extern const struct tarn_fields tarn_chance_fields;

/* 2000 samples, seed 1; porosity 0.03, k 0.5, load 0.3, flow 0.15: ours. */
TARN_API struct tarn_chance tarn_chance_default(void);

#define TARN_PERCENTILES 5	/* 5, 25, 50, 75, 95 % */

TARN_API extern const double tarn_percentiles[TARN_PERCENTILES];

struct tarn_chance_result {
	double pond_mgl[TARN_PERCENTILES];	/* NaN: not to be known */
	double outlet_mgl[TARN_PERCENTILES];
	double residence_s[TARN_PERCENTILES];
	double clogged_m[TARN_PERCENTILES];
	double refused;		/* share of samples with a refusal */
};
TARN_API extern const struct tarn_fields tarn_chance_result_fields;

/* The bed is base->area_m2.  Errors: TARN_EARG, TARN_ENOMEM. */
TARN_API enum tarn_status tarn_chance(const struct tarn_sizing *base,
				      const struct tarn_chance *chance,
				      const struct tarn_alloc *alloc,
				      struct tarn_chance_result *out,
				      struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
