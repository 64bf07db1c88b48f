/* SPDX-License-Identifier: MIT */
#ifndef TARN_FLOW_INTERNAL_H
#define TARN_FLOW_INTERNAL_H

/* Shared inside lib/tarn/flow only; nothing here leaves the library. */

#include "tarn/flow.h"

#define FLOW_PI 3.14159265358979323846
#define FLOW_FT 0.3048
#define FLOW_COUNT(a) (sizeof(a) / sizeof((a)[0]))

/* How many of 'count' values are given (not NaN). */
size_t tn_flow_given(const double *values, size_t count);

/* Fails unless exactly 'want' of 'count' values are given; 'names' for the
 * message, e.g. "flow, headloss and diameter". */
enum tarn_status tn_flow_need(const double *values, size_t count, size_t want,
			      const char *section, const char *names,
			      struct tarn_error *err);

/* ---- roots ------------------------------------------------------------ */

typedef double flow_function(double x, const void *context);

/* Root of f between a and b, where it has opposite signs, to the last bits;
 * NaN if it has not. */
double tn_flow_root(flow_function *f, const void *context, double a, double b);

/*
 * x in [lo, hi], lo > 0, at which a rising positive function takes a value,
 * to a few last bits of x.  NaN if it does not take it there.  Works in
 * logarithms, where the laws of hydraulics are nearly straight.
 */
double tn_flow_inverse(flow_function *f, const void *context, double value,
		       double lo, double hi);

/* y at x in a table of rising x, straight between rows, level beyond them. */
double tn_flow_interpolate(const double *xs, const double *ys, size_t count,
			   double x);

/* ---- pipes ------------------------------------------------------------ */

/* A pipe with its constants worked out. */
struct flow_run {
	double length, diameter, area;
	double roughness;		/* relative */
	double hazen_williams, factor;	/* NaN where not in use */
	double minor_k, nu;
};

#define FLOW_Q_MIN 1e-15	/* m3/s, the span that solvers search */
#define FLOW_Q_MAX 1e5

struct flow_run tn_flow_run_make(const struct tarn_pipe *pipe, double diameter);
double tn_flow_run_friction(const struct flow_run *run, double flow);
double tn_flow_run_minor(const struct flow_run *run, double flow);
double tn_flow_run_loss(const struct flow_run *run, double flow);

/* Flow at a loss; NaN if the pipe has none to lose it in. */
double tn_flow_run_flow(const struct flow_run *run, double headloss);

/* Everything about a pipe that has its diameter, at a flow. */
void tn_flow_run_report(const struct flow_run *run, double flow,
			struct tarn_pipe_flow *out);

/* Checks a pipe that is part of something: its diameter given, its flow and
 * headloss not. */
enum tarn_status tn_flow_part_check(const struct tarn_pipe *pipe,
				    struct tarn_error *err);

/* ---- branches --------------------------------------------------------- */

/* Everything about a branch at a flow; dry is left at 0. */
void tn_flow_branch_report(const struct tarn_branch *b, double flow,
			   struct tarn_branch_flow *out);

/* Its headloss, the branch as context. */
double tn_flow_branch_loss(double flow, const void *branch);

/* Flow that a head at the manifold drives through; 0 if it is too low. */
double tn_flow_branch_flow(const struct tarn_branch *b, double manifold);

/* ---- pumps side by side ----------------------------------------------- */

/* Heads over which every pump's flow is known. */
struct flow_span {
	double lo, hi;
};
struct flow_span tn_flow_group_span(const struct tarn_pump_curve *pumps,
				    size_t count);
double tn_flow_group_flow(const struct tarn_pump_curve *pumps, size_t count,
			  double head);
double tn_flow_group_head(const struct tarn_pump_curve *pumps, size_t count,
			  double flow);		/* NaN beyond their curves */
double tn_flow_group_label(const struct tarn_pump_curve *pumps, size_t count);

/* Slope of a pump's curve at its flow, d head / d flow. */
double tn_flow_pump_slope(const struct tarn_pump_curve *p, double flow_m3s);

/* ---- network ---------------------------------------------------------- */

/* Head lost in the trunk, in m. */
double tn_flow_trunk_loss(const struct tarn_network *net, double flow);

/* Closes continuity and energy to rounding from the flows and the head that
 * 'branches' and 't' hold, and fills those two; heads relative to 'scale'. */
void tn_flow_network_close(const struct tarn_network *net, double scale,
			   struct tarn_branch_flow *branches,
			   struct tarn_network_flow *t);

/* ---- sections --------------------------------------------------------- */

/* Depth at which a section is full: its lower bank, its diameter; 100 m for
 * a trapezoid. */
double tn_flow_section_depth(const struct tarn_channel *c);

/* ---- the rest --------------------------------------------------------- */

/* Checks fields, then fills flows at a level; see overflow.c. */
enum tarn_status tn_flow_overflow_check(const struct tarn_overflow *o,
					struct tarn_error *err);
void tn_flow_overflow_at(const struct tarn_overflow *o, double level,
			 struct tarn_overflow_flow *out);

/* ---- channel ---------------------------------------------------------- */

/* Area, wetted perimeter and surface width of a section at a depth. */
struct tarn_section {
	double area_m2, perimeter_m, top_width_m;
};
/* All NaN: not one section, or the depth is outside it. */
struct tarn_section tn_section_at(const struct tarn_channel *channel,
				  double depth_m);

/* Manning's mean velocity, all arguments > 0. */
double tn_manning_velocity_ms(double hydraulic_radius_m,
			      double slope, double manning);

/* ---- falls ------------------------------------------------------------ */

/*
 * Free fall of a sheet that leaves the lip level: velocity sqrt(2 drop/g).
 * No air drag, air behind the sheet.  A thin film clings to the stone and
 * lands short of it; wind carries it further.  Both >= 0.
 */
double tn_fall_throw_m(double velocity_ms, double drop_m);

/* Look (enum tarn_look) by flow over width [m2/s]; -1 if it is negative or
 * NaN. */
int tn_fall_look(double flow_per_width_m2s);

/* ---- top-up water ----------------------------------------------------- */

/*
 * Flow of a valve: kv [m3/h at 1 bar] sqrt(bar), cold water.  US Cv (US
 * gal/min at 1 psi) * 0.865 = kv.  All >= 0, NaN otherwise.
 */
double tn_valve_m3s(double kv, double pressure_kpa);
double tn_kv_from_cv(double cv);

/*
 * Share of a pond's water that came from the tap in its last 'events' top-ups
 * of one size, mixed each time: 1 - (1 - volume/pond)^events.
 *
 *   volume_m3  of one event        0 .. pond_m3
 *   pond_m3    volume when full    > 0
 *   events     how many            >= 0
 */
double tn_tap_share(double volume_m3, double pond_m3,
		    double events);

/*
 * Neutraliser for a volume of tap water: ratio * chlorine * volume   [g].
 *
 *   ratio          mg per mg of chlorine (as Cl2), table TARN_NEUTRALISERS
 *   chlorine_mg_l  total chlorine of the tap water
 *   volume_m3      of tap water; all >= 0, NaN otherwise
 *
 * Read the label of the product and obey it; see the cautions in
 * docs/methods/flow.md.  Chloramine leaves ammonia, below.
 */
double tn_neutraliser_g(double ratio, double chlorine_mg_l,
			double volume_m3);

/* Ammonia nitrogen that neutralised chloramine leaves: 14.007/70.906 mg N
 * per mg of chloramine as Cl2, times concentration and volume, both >= 0   [g]. */
double tn_chloramine_nitrogen_g(double chloramine_mg_l,
				double volume_m3);

#endif
