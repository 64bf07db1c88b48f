/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_GRAVEL_H
#define TARN_FORMULAS_GRAVEL_H

/*
 * gravel: water through gravel, its head loss, and what settles.  Part of
 * bed.h, whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

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
	TARN_FLOW_BEYOND	/* Re / (1 - n) above 2300: beyond Ergun's
				   data */
};

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

#ifdef __cplusplus
}
#endif
#endif
