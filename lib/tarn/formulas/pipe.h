/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_PIPE_H
#define TARN_FORMULAS_PIPE_H

/*
 * pipe: friction and loss in pipes.  Part of flow.h, whose first lines give
 * the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Darcy friction factors, dimensionless.
 *
 *   reynolds            velocity * diameter / kinematic viscosity
 *   relative_roughness  roughness / inside diameter    0 .. 0.05
 *
 * tarn_friction_factor is the one that pipes use, any reynolds > 0:
 *   laminar     below 2300: 64 / reynolds
 *   turbulent   from 4000: Colebrook
 *   transition  between them: the straight line in log-log that joins both
 *               ends.  Real flow there is not steady; the line keeps the
 *               loss rising with the flow.  (The line is ours.)
 *
 * tarn_friction_colebrook (1939), to the last bits by Newton's method:
 *   1/sqrt(f) = -2 log10(rr/3.7 + 2.51/(reynolds sqrt(f)))  reynolds >= 2300
 * The explicit ones serve to compare and to match tables:
 *   haaland      (1983)  -1.8 log10((rr/3.7)^1.11 + 6.9/reynolds)
 *   swamee_jain  (1976)  0.25 / log10(rr/3.7 + 5.74/reynolds^0.9)^2
 *   churchill    (1977)  all regimes, Chem. Eng. 84(24):91
 */
#define TARN_REYNOLDS_LAMINAR 2300.0
#define TARN_REYNOLDS_TURBULENT 4000.0
#define TARN_ROUGHNESS_MAX 0.05		/* relative; the end of the charts */

enum tarn_pipe_regime { TARN_LAMINAR, TARN_TRANSITION, TARN_TURBULENT };

TARN_API double tarn_friction_factor(double reynolds,
				     double relative_roughness);
TARN_API double tarn_friction_colebrook(double reynolds,
					double relative_roughness);
TARN_API double tarn_friction_haaland(double reynolds,
				      double relative_roughness);
TARN_API double tarn_friction_swamee_jain(double reynolds,
					  double relative_roughness);
TARN_API double tarn_friction_churchill(double reynolds,
					double relative_roughness);

/*
 * One full round pipe of one diameter.
 *
 * Give two of flow, headloss and diameter; the third is solved for.  Give
 * one of roughness (Darcy-Weisbach with Colebrook), hazen_williams and
 * friction_factor.
 *
 *   headloss = f (L/D) V^2/2g + minor_k V^2/2g                (Weisbach)
 *   headloss = 10.67 L (Q/C)^1.852 / D^4.87 + minor_k V^2/2g  (Hazen-Williams)
 *
 * minor_k sums the fittings (tables.h).  The last pipe's outlet adds 1, in
 * the air as under water: there the speed is lost.
 * Hazen-Williams knows no temperature and no laminar flow: it is here to
 * match printed tables.
 */
struct tarn_pipe {
	double flow_m3s;
	double headloss_m;		/* in all, friction and fittings */
	double diameter_m;		/* inside */
	double length_m;
	double roughness_m;		/* sand roughness */
	double hazen_williams;		/* C */
	double friction_factor;		/* Darcy's f, fixed */
	double minor_k;			/* sum, on this diameter's velocity */
	double temp_c;			/* of the water, default 15 */
	double kinematic_m2s;		/* another liquid's; overrides temp */
};
TARN_API struct tarn_pipe tarn_pipe_default(void);
TARN_API extern const struct tarn_fields tarn_pipe_fields;

struct tarn_pipe_flow {
	double flow_m3s, headloss_m, diameter_m;
	double velocity_ms;		/* mean */
	double friction_m, minor_m;	/* the parts of headloss */
	double friction_factor;		/* Darcy's f (from Hazen-Williams: the
					   one that gives its loss) */
	double reynolds;
	int regime;			/* enum tarn_pipe_regime */
	double volume_m3;		/* water that the pipe holds */
};
TARN_API extern const struct tarn_fields tarn_pipe_flow_fields;

/* Errors: TARN_EARG (range; not two of three; no such solution, e.g. a
 * relative roughness above 0.05). */
TARN_API enum tarn_status tarn_pipe_solve(const struct tarn_pipe *pipe,
					  struct tarn_pipe_flow *out,
					  struct tarn_error *err);

/*
 * Pipes end to end (series: one flow, losses add) or side by side (parallel:
 * one loss, flows add).  Give either flow or headloss of the whole, NaN for
 * the other; the pipes' own flow and headloss must not be given.  Errors:
 * TARN_EARG, as of one pipe.
 *
 *   pipes, count  the runs, each with its diameter   count >= 1
 *   out           filled, one a pipe
 *   total         filled: flow and headloss of the whole
 */
struct tarn_pipe_total {
	double flow_m3s, headloss_m;
	double volume_m3;
};
TARN_API extern const struct tarn_fields tarn_pipe_total_fields;
TARN_API enum tarn_status
tarn_pipe_series(const struct tarn_pipe *pipes, size_t count, double flow_m3s,
		 double headloss_m, struct tarn_pipe_flow *out,
		 struct tarn_pipe_total *total, struct tarn_error *err);
TARN_API enum tarn_status
tarn_pipe_parallel(const struct tarn_pipe *pipes, size_t count,
		   double flow_m3s, double headloss_m,
		   struct tarn_pipe_flow *out, struct tarn_pipe_total *total,
		   struct tarn_error *err);

/*
 * Loss coefficient of a sudden change of diameter.
 *   expansion    (1 - (d/D)^2)^2, on the velocity in d, the pipe before it
 *                (Borda-Carnot)
 *   contraction  0.5 (1 - (d/D)^2), on the velocity in d, the pipe after it
 *   0 < small_m <= large_m, NaN otherwise.  Contraction is within some 20 %.
 */
TARN_API double tarn_expansion_k(double small_m, double large_m);
TARN_API double tarn_contraction_k(double small_m, double large_m);

#ifdef __cplusplus
}
#endif
#endif
