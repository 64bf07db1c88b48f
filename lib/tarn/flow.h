/* SPDX-License-Identifier: MIT */
#ifndef TARN_FLOW_H
#define TARN_FLOW_H

/*
 * flow: everything between the bed and the pond that water runs through.
 *
 *   1 water      2 pipe      3 tables     4 pump      5 network   6 weir, fall
 *   7 orifice    8 channel   9 transit   10 overflow  11 storm routing
 *  12 intake, jet           13 top-up    14 winter
 *
 * How to read it
 *   - A formula takes and returns plain doubles; outside the range that its
 *     comment states, and for NaN, it returns NaN.
 *   - A thing with many numbers is a struct.  Make it with its _default(),
 *     fill it, call its _solve().  NaN means "not given"; what is not given
 *     is solved for.  Its fields, units and ranges stand in the rows of
 *     tarn_<thing>_fields; results are described in the same way, by
 *     tarn_<thing>_flow_fields.
 *   - _solve() returns TARN_EARG and notes the field at fault; it writes its
 *     result only on success.  No call allocates memory.
 *
 * Two words are kept apart in every name
 *   head       height of still water above a crest, measured upstream, some
 *              four heads back, where the surface has not begun to dip
 *   lip_depth  depth of the moving water on the crest itself; always less
 *
 * Heads are metres of water.  g = 9.80665 m/s2.  Equations, accuracy and
 * sources at more length: docs/methods/flow.md.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TARN_GRAVITY 9.80665	/* m/s2, standard (CGPM 1901) */

/* ---- 1. water --------------------------------------------------------- */

#define TARN_WATER_TEMP_MIN 0.0
#define TARN_WATER_TEMP_MAX 100.0

/*
 * Liquid fresh water at 101.325 kPa, 0 .. 100 deg C.
 *
 *   density_kgm3         Kell (1975), J. Chem. Eng. Data 20:97, eq. 16
 *   viscosity_pas        IAPWS SR6-08(2011), liquid water at 0.1 MPa, eq. 7
 *   kinematic_m2s        viscosity / density
 *   vapour_pressure_kpa  Wagner & Pruss (1993), J. Phys. Chem. Ref. Data
 *                        22:783, eq. 1 (saturation line)
 *
 * Accuracy: against IAPWS-95 and the IAPWS 2008 viscosity, 0.5 .. 99 deg C:
 * density within 0.015 kg/m3 (0.004 below 60 deg C), viscosity 0.003 %,
 * vapour pressure 0.01 %.  All NaN outside the range.
 */
struct tarn_water {
	double density_kgm3;		/* [kg/m3] */
	double viscosity_pas;		/* dynamic viscosity    [Pa s] */
	double kinematic_m2s;		/* kinematic viscosity  [m2/s] */
	double vapour_pressure_kpa;	/* [kPa], absolute */
};
TARN_API struct tarn_water tarn_water(double temp_c);
TARN_API extern const struct tarn_fields tarn_water_fields;

/*
 * Net positive suction head that a pump above its water has available.
 *
 *   pressure_kpa  air pressure            [kPa]
 *   temp_c        water                   [deg C]  0 .. 100
 *   lift_m        pump above the surface  [m]      negative: below it
 *   loss_m        loss in the suction     [m]      >= 0
 *   returns       NPSH available          [m]      may be negative
 */
TARN_API double tarn_npsh_available_m(double pressure_kpa, double temp_c,
				      double lift_m, double loss_m);

/* ---- 2. pipe ---------------------------------------------------------- */

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

enum tarn_regime { TARN_LAMINAR, TARN_TRANSITION, TARN_TURBULENT };

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
 * minor_k sums the fittings (section 3).  The last pipe's outlet adds 1, in
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
	int regime;			/* enum tarn_regime */
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

/* ---- 3. tables -------------------------------------------------------- */

/*
 * Published constants, each with the span over which sources differ and where
 * it comes from.  They are offered, never used unasked.
 */
enum tarn_flow_table {
	TARN_FITTINGS,		/* loss coefficient K            [-] */
	TARN_ROUGHNESS,		/* sand roughness of pipes       [m] */
	TARN_HAZEN_WILLIAMS,	/* C of pipes                    [-] */
	TARN_MANNING,		/* n of channels                 [s/m^(1/3)] */
	TARN_RUNOFF,		/* coefficient of the rational method [-] */
	TARN_LIPS,		/* weir coefficient C            [m^0.5/s] */
	TARN_NEUTRALISERS,	/* mg per mg of chlorine as Cl2  [-] */
	TARN_FLOW_TABLES	/* how many there are */
};

struct tarn_constant {
	const char *name;	/* "90 elbow threaded" */
	double value;
	double lo, hi;		/* span of the sources */
	const char *source;
};
TARN_API extern const struct tarn_fields tarn_constant_fields;

/* Borrowed from the library; *count is filled.  NULL if there is no such
 * table. */
TARN_API const struct tarn_constant *
tarn_flow_table(enum tarn_flow_table which, size_t *count);

/* Row of that name, or NULL. */
TARN_API const struct tarn_constant *
tarn_flow_constant(enum tarn_flow_table which, const char *name);

/*
 * Inside diameters of pipe by schedule and nominal size.
 *
 *   schedule "40", "80"   nominal walls of ASME B36.10 / B36.19 steel, which
 *                         PVC schedule pipe shares (from memory)
 *   schedule "40 pvc"     average inside of PVC made to ASTM D1785, whose
 *                         walls run thicker (from memory): 3-10 % more loss
 *
 * Measure what you buy: hose and foreign pipe are sold by other rules.
 */
struct tarn_pipe_size {
	const char *schedule;
	const char *nominal;	/* inches, as printed on it: "1.5" */
	double outside_m, inside_m;
};
TARN_API extern const struct tarn_fields tarn_pipe_size_fields;
TARN_API const struct tarn_pipe_size *tarn_pipe_sizes(size_t *count);

/* NaN if there is no such size. */
TARN_API double tarn_pipe_inside_m(const char *schedule, const char *nominal);

/* Inside diameter of pipe sold by outside diameter and standard dimension
 * ratio (SDR = outside / wall > 2, outside > 0, NaN otherwise), nominal wall. */
TARN_API double tarn_pipe_sdr_inside_m(double outside_m, double sdr);

/* ---- 4. pump ---------------------------------------------------------- */

/*
 * A pump, or several equal ones side by side.
 *
 * Either a curve: 'points' pairs of flow and head, flow rising, head falling
 * all along, joined by a monotone cubic (Fritsch & Carlson 1980, SIAM J.
 * Numer. Anal. 17:238, with the slopes of Fritsch & Butland 1984); it never
 * overshoots its points and is not continued beyond them.
 *
 * Or, with points = 0, the two numbers of a label: max_head at no flow and
 * label_flow at no head, joined by max_head (1 - (Q/label_flow)^2).  A guess
 * from a label, exact for a curve of the form a - b Q^2.
 *
 * Label flow is the flow at zero head, which no pond has.
 */
struct tarn_pump_curve {
	const double *flow_m3s;		/* [points], borrowed */
	const double *head_m;		/* [points], borrowed */
	size_t points;
	double max_head_m;		/* where points is 0 */
	double label_flow_m3s;		/* likewise; else optional, for
					   share_of_label only */
	double speed;			/* of the speed of the curve, default 1;
					   affinity: Q ~ n, H ~ n^2 */
	double count;			/* equal pumps in parallel, default 1 */
};
TARN_API struct tarn_pump_curve tarn_pump_curve_default(void);
TARN_API extern const struct tarn_fields tarn_pump_curve_fields;

/* Errors: TARN_EARG: neither or both forms; a curve that does not fall (a
 * humped curve has two flows at one head: leave out the points left of its
 * highest); fewer than 2 points. */
TARN_API enum tarn_status
tarn_pump_curve_check(const struct tarn_pump_curve *pump,
		      struct tarn_error *err);

/* Head at a flow and flow at a head, of all 'count' pumps together; NaN
 * beyond the curve.  The pump must have passed tarn_pump_curve_check. */
TARN_API double tarn_pump_head_m(const struct tarn_pump_curve *pump,
				 double flow_m3s);
TARN_API double tarn_pump_flow_m3s(const struct tarn_pump_curve *pump,
				   double head_m);

/*
 * Least squares of head = max_head - drop * flow^2 through points.
 * Errors: TARN_EARG (fewer than 2 different flows; does not fall).
 */
TARN_API enum tarn_status
tarn_pump_curve_fit(const double *flow_m3s, const double *head_m,
		    size_t points, double *max_head_m, double *drop_s2m5,
		    struct tarn_error *err);

/* Affinity: at 'speed' times its speed a pump gives flow * speed, head *
 * speed^2 and takes power * speed^3; same impeller, efficiency unchanged,
 * which small pumps do not keep quite.  speed > 0, all NaN otherwise. */
struct tarn_affinity {
	double flow_m3s, head_m, power_w;
};
TARN_API extern const struct tarn_fields tarn_affinity_fields;
TARN_API struct tarn_affinity tarn_affinity(double flow_m3s, double head_m,
					    double power_w, double speed);

/* Power into the water of a flow against a head: density g Q H   [W]; none
 * negative, else NaN.  Divide by efficiencies for shaft and wire. */
TARN_API double tarn_pump_water_w(double flow_m3s, double head_m,
				  double density_kgm3);

/*
 * What the plug draws and costs.  Give one of watts; amps and volts; flow
 * with head and efficiency (wire to water).
 *
 * amps * volts is what can be read off a label; with no power_factor given
 * it is taken as 1, and the result is an upper bound.
 */
struct tarn_running_cost {
	double watts;
	double amps, volts, power_factor;	/* power factor default 1 */
	double flow_m3s, head_m, efficiency;	/* efficiency 0 .. 1 */
	double temp_c;				/* default 15 */
	double hours_per_day;			/* default 24 */
	double days_per_year;			/* default 365 */
	double price_per_kwh;			/* in any money */
};
TARN_API struct tarn_running_cost tarn_running_cost_default(void);
TARN_API extern const struct tarn_fields tarn_running_cost_fields;

struct tarn_running_cost_flow {
	double power_w;			/* at the plug */
	double water_w;			/* into the water, if flow and head */
	double efficiency;		/* wire to water, if both are known */
	double kwh_day, kwh_year;
	double cost_day, cost_year;	/* NaN without a price */
};
TARN_API extern const struct tarn_fields tarn_running_cost_flow_fields;
TARN_API enum tarn_status
tarn_running_cost_solve(const struct tarn_running_cost *cost,
			struct tarn_running_cost_flow *out,
			struct tarn_error *err);

/* ---- 5. network ------------------------------------------------------- */

/*
 * Pumps -> trunk -> manifold -> branches (bed, falls, jets ...).
 *
 * A branch ends in the air or under the pond's water; its lift is the height
 * of that end (in the air: of the outlet; under water: of that water's
 * surface) above the surface that the pump draws from.  It loses head in its
 * pipes (end to end), in its valve, in its orifices or nozzles, and as
 * resistance * Q^2.  Its last pipe's minor_k holds the outlet's 1, but not
 * where orifices end it: their head includes the speed of the jets.
 *
 * A branch whose lift is above the manifold's head runs dry (flag); water
 * does not run back through it.  Parallel pumps are taken to have check
 * valves.
 */
struct tarn_branch {
	const char *name;		/* for messages, may be NULL */
	const struct tarn_pipe *pipes;	/* [pipe_count], borrowed; without flow
					   and headloss */
	size_t pipe_count;		/* 0 is allowed */
	double lift_m;
	double valve_k;			/* on the first pipe's velocity */
	double resistance_s2m5;		/* head = resistance Q^2 */
	double orifice_diameter_m;
	double orifices;		/* how many, default 1 */
	double cd;			/* of the orifices, default 0.6 */
	double target_m3s;		/* wanted flow, tarn_network_balance */
};
TARN_API struct tarn_branch tarn_branch_default(void);
TARN_API extern const struct tarn_fields tarn_branch_fields;

#define TARN_PUMPS_MAX 16

struct tarn_network {
	const struct tarn_pump_curve *pumps;	/* side by side, may differ;
						   borrowed */
	size_t pump_count;		/* 1 .. TARN_PUMPS_MAX */
	const struct tarn_pipe *trunk;	/* end to end, borrowed */
	size_t trunk_count;		/* 0 is allowed */
	const struct tarn_branch *branches;	/* borrowed */
	size_t branch_count;		/* >= 1 */
};

struct tarn_branch_flow {
	double flow_m3s;
	double headloss_m;		/* all of it, without the lift */
	double friction_m, minor_m;	/* in pipes, in their fittings */
	double valve_m, orifice_m, resistance_m;
	double velocity_ms;		/* highest in its pipes */
	double reynolds;		/* there */
	int regime;			/* there, enum tarn_regime */
	double orifice_velocity_ms;	/* flow / area of the holes */
	int dry;			/* 1: the lift is too high */
};
TARN_API extern const struct tarn_fields tarn_branch_flow_fields;

struct tarn_network_flow {
	double flow_m3s;		/* of all pumps */
	double head_m;			/* of the pumps */
	double manifold_m;		/* head left at the manifold */
	double trunk_m;			/* lost in the trunk */
	double trunk_velocity_ms;	/* highest in the trunk */
	double water_w;			/* power into water of 1000 kg/m3 */
	double label_flow_m3s;		/* flow at zero head, if known */
	double share_of_label;		/* flow / label_flow */
	double continuity;		/* |sum of branches - pumps| / flow */
	double energy;			/* worst head left over / highest head
					   of the pumps */
	double pump_m3s[TARN_PUMPS_MAX];	/* of each; 0: its check valve
						   is shut */
	int dry_branches;		/* how many run dry */
};
TARN_API extern const struct tarn_fields tarn_network_flow_fields;

/*
 * Operating point and split.  One branch and no trunk is the plain case of a
 * pump against a system curve.
 *
 *   branches  filled, one a branch
 *   total     filled; continuity and energy close to 1e-10
 *
 * Errors: TARN_EARG: a pump that cannot lift to any branch; a flow beyond the
 * end of the curve; a branch without any resistance.
 */
TARN_API enum tarn_status tarn_network_solve(const struct tarn_network *net,
					     struct tarn_branch_flow *branches,
					     struct tarn_network_flow *total,
					     struct tarn_error *err);

/*
 * The other way round: every branch gets its target_m3s.  Finds the head
 * that the pump must have, the branch that governs it, and the extra valve K
 * that holds each other branch back to its target (on its first pipe's
 * velocity; NaN for a branch without a pipe).  Errors: TARN_EARG, the field.
 */
struct tarn_balance {
	double flow_m3s, head_m;	/* needed from the pumps */
	double manifold_m;
	size_t governs;			/* index of the branch */
	double pump_head_m;		/* the pumps' at that flow; NaN without
					   pumps or beyond their curve */
	double surplus_m;		/* pump_head - head; < 0: too weak */
};
TARN_API extern const struct tarn_fields tarn_balance_fields;
TARN_API enum tarn_status
tarn_network_balance(const struct tarn_network *net, double *extra_valve_k,
		     struct tarn_branch_flow *branches,
		     struct tarn_balance *out, struct tarn_error *err);

/* Head that pipes end to end lose at a flow >= 0, the sum of section 2's; NaN
 * if a field is wrong.  Source: as tarn_pipe_solve. */
TARN_API double tarn_pipes_headloss_m(const struct tarn_pipe *pipes,
				      size_t count, double flow_m3s);

/* ---- 6. weir and fall ------------------------------------------------- */

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

/*
 * Free fall of a sheet that leaves the lip level: velocity sqrt(2 drop/g).
 * No air drag, air behind the sheet.  A thin film clings to the stone and
 * lands short of it; wind carries it further.  Both >= 0.
 */
TARN_API double tarn_fall_throw_m(double velocity_ms, double drop_m);

/* Look by flow over width [m2/s]; -1 if it is negative or NaN. */
TARN_API int tarn_look(double flow_per_width_m2s);

/* Villemonte's share of free flow that a drowned weir passes; ratio of heads
 * >= 0 and < 1, else NaN, exponent 1.5 (rectangular) or 2.5 (v_notch). */
TARN_API double tarn_weir_submergence(double head_ratio, double exponent);

/* ---- 7. orifice ------------------------------------------------------- */

/*
 * Q = n cd A sqrt(2 g head).  Give two of flow, head, and the size (diameter
 * or area); the third is solved for.  Head: to the centre of the hole, or,
 * under water on both sides, the difference of levels.
 *
 * Errors: TARN_EARG, also where the size or the head that is found lies outside
 * what may be given: 1e-10 .. 300 m2, 0 .. 1e4 m.
 */
struct tarn_orifice {
	double flow_m3s;		/* of all holes */
	double head_m;
	double diameter_m, area_m2;	/* of one hole; give one */
	double count;			/* default 1 */
	double cd;			/* sharp edge 0.6 (default) */
};
TARN_API struct tarn_orifice tarn_orifice_default(void);
TARN_API extern const struct tarn_fields tarn_orifice_fields;

struct tarn_orifice_flow {
	double flow_m3s, head_m, diameter_m, area_m2;
	double velocity_ms;		/* flow / area of the holes */
	double jet_velocity_ms;		/* sqrt(2 g head), where it is
					   narrowest, without loss */
};
TARN_API extern const struct tarn_fields tarn_orifice_flow_fields;
TARN_API enum tarn_status tarn_orifice_solve(const struct tarn_orifice *orifice,
					     struct tarn_orifice_flow *out,
					     struct tarn_error *err);

/* ---- 8. channel ------------------------------------------------------- */

struct tarn_point {
	double x_m;		/* across the channel, never falling */
	double level_m;		/* height of the ground there */
};

/*
 * Uniform flow in an open channel, Manning: Q = A R^(2/3) sqrt(S) / n.
 * Without slope and manning: critical depth of a flow, and at a given depth
 * its velocity and Froude number.
 *
 * The section is one of
 *   width, side_slope  trapezoid, side_slope level run per rise (0 default:
 *                      rectangle; width 0: triangle)
 *   diameter           round pipe, partly full
 *   points             any bed; the outermost points are the banks
 *
 * Give two of flow, depth and width (other sections: one of flow and depth).
 * Depth is the normal depth, above the lowest point.  A round pipe's flow is
 * largest at 0.938 of its diameter; more is refused.  Where an irregular bed
 * has several normal depths the lowest is taken.
 *
 * Errors: TARN_EARG: slope not positive (a stream that would drain away from
 * the pond); water over the banks; two or no sections.
 */
struct tarn_channel {
	double flow_m3s;
	double depth_m;
	double slope;			/* of the bed, fall / length */
	double manning;			/* n */
	double width_m;			/* of the floor */
	double side_slope;
	double diameter_m;
	const struct tarn_point *points;	/* borrowed, or NULL */
	size_t point_count;
};
TARN_API struct tarn_channel tarn_channel_default(void);
TARN_API extern const struct tarn_fields tarn_channel_fields;

enum tarn_state { TARN_SUBCRITICAL, TARN_CRITICAL, TARN_SUPERCRITICAL };

struct tarn_channel_flow {
	double flow_m3s, depth_m, width_m;
	double velocity_ms;
	double area_m2;			/* of the flow */
	double perimeter_m;		/* wetted */
	double top_width_m;		/* of the surface */
	double hydraulic_radius_m;
	double froude;			/* V / sqrt(g area / top width) */
	int state;			/* enum tarn_state, critical within
					   0.1 % of froude = 1; -1: no depth */
	double critical_depth_m;	/* NaN if above the banks */
	double critical_slope;		/* slope at which it would be normal */
	double energy_m;		/* depth + V^2/2g */
	double shear_pa;		/* mean on the bed, 9806.65 R S */
};
TARN_API extern const struct tarn_fields tarn_channel_flow_fields;
TARN_API enum tarn_status tarn_channel_solve(const struct tarn_channel *channel,
					     struct tarn_channel_flow *out,
					     struct tarn_error *err);

/* Area, wetted perimeter and surface width of a section at a depth. */
struct tarn_section {
	double area_m2, perimeter_m, top_width_m;
};
/* All NaN: not one section, or the depth is outside it. */
TARN_API struct tarn_section tarn_section_at(const struct tarn_channel *channel,
					     double depth_m);

/* Manning's mean velocity, all arguments > 0. */
TARN_API double tarn_manning_velocity_ms(double hydraulic_radius_m,
					 double slope, double manning);

/* ---- 9. water in transit ---------------------------------------------- */

/*
 * Water that a running pump holds above the pond: over the surfaces that
 * stand above their lips (bed, upper pools), in streams, in pipes.
 *
 *   surface  = area * head over its lip
 *   stream   = length * area of the flow (of section 8)
 *   pipe     = length * pi/4 diameter^2
 *
 * All arguments >= 0, NaN otherwise.
 */
TARN_API double tarn_transit_surface_m3(double area_m2, double head_m);
TARN_API double tarn_transit_stream_m3(double length_m, double flow_area_m2);
TARN_API double tarn_transit_pipe_m3(double length_m, double diameter_m);

/*
 * What comes back when the pump stops, and what a start takes.
 *
 * With a check valve pipes stay full.  Without one they drain, and an outlet
 * under the upper water siphons that water back down to the outlet's mouth:
 * siphon_area * siphon_depth.
 */
struct tarn_transit {
	double surfaces_m3;		/* sum over bed, pools */
	double streams_m3;
	double pipes_m3;		/* above the pond's level */
	int check_valve;		/* 1: pipes stay full, no siphon */
	double siphon_area_m2;		/* of the upper water */
	double siphon_depth_m;		/* its lip above the outlet's mouth */
	double pond_area_m2;		/* surface whose level moves */
};
TARN_API struct tarn_transit tarn_transit_default(void);
TARN_API extern const struct tarn_fields tarn_transit_fields;

struct tarn_transit_flow {
	double running_m3;		/* on the surfaces and in the streams */
	double drain_back_m3;		/* pipes and siphon */
	double total_m3;		/* returns at a stop */
	double rise_m;			/* of the pond: total / area */
};
TARN_API extern const struct tarn_fields tarn_transit_flow_fields;
TARN_API enum tarn_status tarn_transit_solve(const struct tarn_transit *transit,
					     struct tarn_transit_flow *out,
					     struct tarn_error *err);

/* ---- 10. overflow ----------------------------------------------------- */

/*
 * Rational method: peak = coefficient * intensity * area.
 *
 *   coefficient     runoff coefficient   [-]     0 .. 1
 *   intensity_mm_h  design rain          [mm/h]  >= 0, of the place and the
 *                   return period; it is the user's, from local tables
 *   area_m2         catchment            [m2]    >= 0; the pond's own surface
 *                   counts with coefficient 1
 *   returns         flow                 [m3/s]
 */
TARN_API double tarn_rational_m3s(double coefficient, double intensity_mm_h,
				  double area_m2);

/* The same for several catchments at one intensity; NaN if one is. */
struct tarn_catchment {
	double area_m2, coefficient;
	char name[101];		/* for reports */
};
TARN_API double tarn_peak_m3s(const struct tarn_catchment *catchments,
			      size_t count, double intensity_mm_h);

/*
 * Capacity of a vertical stack, Wyly & Eaton (1961, from memory):
 * 27.8 fill^(5/3) d^(8/3) US gal/min, d in inches.  fill is the share of the
 * section that is water, 7/24 in several US codes.  0 < fill <= 1.
 */
TARN_API double tarn_stack_m3s(double diameter_m, double fill);

/*
 * Openings through which a pond overflows: a lip, a standpipe and a pipe
 * through its side, any of them.  Levels count from any one datum.
 *
 *   lip        coefficient * width * head^1.5
 *   standpipe  the least of: weir round its rim (weir_coefficient pi D
 *              h^1.5), orifice (cd A sqrt(2 g h)), stack (above), and, with
 *              drain_length and drain_fall given, its full drain under the
 *              head of h + drain_fall
 *   side pipe  the lesser of: critical depth at the inlet, with the entrance
 *              loss of half a velocity head; orifice on its centre
 *
 * clogging is the share of each opening's width or area that debris takes
 * (of a stack or drain nothing: they lie behind the opening).
 *
 * Give flow or level; the other is solved for.
 */
struct tarn_overflow {
	double flow_m3s;
	double level_m;
	double lip_level_m, lip_width_m;	/* width NaN: no lip */
	double lip_coefficient;			/* default 1.705, broad */
	double standpipe_level_m, standpipe_diameter_m;	/* NaN: none */
	double weir_coefficient;		/* default 1.838 */
	double cd;				/* default 0.6 */
	double fill;				/* default 7/24 */
	double drain_length_m, drain_fall_m;	/* rim to outlet */
	double drain_roughness_m;		/* default 1.5e-6 (plastic) */
	double drain_minor_k;			/* default 1.5: both ends */
	double side_level_m, side_diameter_m;	/* invert; NaN: none */
	double clogging;			/* 0 (default) .. 0.95 */
};
TARN_API struct tarn_overflow tarn_overflow_default(void);
TARN_API extern const struct tarn_fields tarn_overflow_fields;

enum tarn_governs {
	TARN_BY_NOTHING,	/* the opening is dry or not there */
	TARN_BY_WEIR, TARN_BY_ORIFICE, TARN_BY_STACK, TARN_BY_DRAIN,
	TARN_BY_INLET		/* critical depth at a side pipe */
};

struct tarn_overflow_flow {
	double flow_m3s;		/* of all openings */
	double level_m;
	double head_m;			/* level above the lowest opening */
	double lip_m3s, standpipe_m3s, side_m3s;
	int governs;			/* the standpipe, enum tarn_governs */
	int side_governs;		/* of the side pipe */
	double weir_m3s, orifice_m3s, stack_m3s, drain_m3s;	/* standpipe's
					   limits at this level; drain NaN if
					   not described */
	double transition_m;		/* head at which its weir becomes an
					   orifice */
};
TARN_API extern const struct tarn_fields tarn_overflow_flow_fields;
TARN_API enum tarn_status
tarn_overflow_solve(const struct tarn_overflow *overflow,
		    struct tarn_overflow_flow *out, struct tarn_error *err);

/* ---- 11. storm through the pond --------------------------------------- */

/*
 * Level-pool routing: in each step, with the trapezoid rule,
 *
 *   storage2 - storage1 = dt (inflow1 + inflow2)/2 - dt (outflow1 + outflow2)/2
 *
 * (storage-indication or modified Puls, e.g. Chow, Maidment & Mays 1988,
 * Applied Hydrology, section 8.2), solved for the level to rounding; so the
 * volumes of a run close to rounding, too.
 *
 * Storage follows from a table of levels and areas, area linear between
 * rows.  Outflow is that of 'overflow' (its flow and level are not used)
 * plus a rating table, linear between rows, none below its first row; either
 * may be missing.  All levels count from one datum.
 *
 * Errors: TARN_EARG: tables that do not rise; a level above the storage
 * table's or the rating's end; a step so long that more leaves than is there
 * (raise substeps).
 */
struct tarn_routing {
	const double *level_m, *area_m2;	/* storage, rising levels */
	size_t level_count;			/* >= 2 */
	const double *inflow_m3s;		/* at 0, step, 2 step ... */
	size_t inflow_count;			/* >= 2 */
	double step_s;
	double substeps;			/* per step, default 20; inflow
						   is linear within a step */
	double start_level_m;
	const struct tarn_overflow *overflow;	/* borrowed, or NULL */
	const double *rating_level_m, *rating_m3s;	/* borrowed */
	size_t rating_count;			/* 0: none */
};
TARN_API struct tarn_routing tarn_routing_default(void);
TARN_API extern const struct tarn_fields tarn_routing_fields;

struct tarn_routing_flow {
	double peak_inflow_m3s, peak_outflow_m3s;
	double peak_level_m, peak_time_s;	/* of the level */
	double end_level_m;
	double inflow_m3, outflow_m3, stored_m3;
	double balance_m3;		/* inflow - outflow - stored */
};
TARN_API extern const struct tarn_fields tarn_routing_flow_fields;

/*   level_m, outflow_m3s  filled, one an inflow; either may be NULL */
TARN_API enum tarn_status
tarn_routing_solve(const struct tarn_routing *routing, double *level_m,
		   double *outflow_m3s, struct tarn_routing_flow *out,
		   struct tarn_error *err);

/* ---- 12. intake and jets ---------------------------------------------- */

/*
 * Depth of water that keeps air out of a pump's suction,
 * D (1 + 2.3 V / sqrt(g D)): ANSI/HI 9.8 (1998), section 9.8.7.  Both > 0,
 * else NaN, as where the depth is no finite number.
 */
TARN_API double tarn_submergence_m(double flow_m3s, double diameter_m);

/*
 * An intake opening between the lowest and the highest working level.
 * Depths are of water above the opening's sill, so depth_low <= 0 means that
 * the intake stands dry at the low level: an error.  So is a width beyond
 * 1000 m that is found, and an opening so small that the flow would pass it at
 * more than 1000 m/s.
 */
struct tarn_intake {
	double flow_m3s;
	double width_m;			/* NaN: wanted, from velocity_limit */
	double depth_low_m, depth_high_m;	/* high NaN: as low */
	double open_share;		/* between bars or stones, default 1 */
	double velocity_limit_ms;	/* of the approach; the user's choice */
	double suction_diameter_m;	/* of the pump behind, if any */
};
TARN_API struct tarn_intake tarn_intake_default(void);
TARN_API extern const struct tarn_fields tarn_intake_fields;

struct tarn_intake_flow {
	double width_m;			/* given, or needed for the limit */
	double area_low_m2, area_high_m2;	/* open */
	double velocity_low_ms, velocity_high_ms;	/* at those levels */
	int over_limit;			/* 1: velocity_low above the limit */
	double bay_m3;			/* a minute's flow: common practice (1
					   US gal per gal/min), one source */
	double submergence_m;		/* of the suction, NaN without one */
};
TARN_API extern const struct tarn_fields tarn_intake_flow_fields;
TARN_API enum tarn_status tarn_intake_solve(const struct tarn_intake *intake,
					    struct tarn_intake_flow *out,
					    struct tarn_error *err);

/*
 * Round jets under water.  Beyond the core (decay * D from the mouth)
 *
 *   centre velocity  V0 decay D / x        decay 6.2, Albertson et al. 1950
 *                                          (from memory; 5.9 .. 6.9 in others)
 *   half width       0.589 x / decay       to half the velocity; bell-shaped
 *                                          profile of constant momentum
 *   flow carried     0.32 x/D times the jet's own (Rajaratnam 1976)
 *
 * Give the mouth by diameter and one of flow (of one jet), velocity, head
 * (Q = cd A sqrt(2 g h)).  A jet along a wall or the surface reaches further,
 * one against stones or plants less; corners stay dead, which nothing here
 * simulates.
 */
struct tarn_jet {
	double diameter_m;
	double flow_m3s, velocity_ms, head_m;	/* give one */
	double cd;			/* default 0.6, a drilled hole */
	double decay;			/* default 6.2 */
	double end_velocity_ms;		/* where its throw ends, default 0.1
					   (ours) */
	double temp_c;			/* of the water, default 15 */
	double distance_m;		/* where the jet is looked at */
	double path_m;			/* way to stir, NaN: no count */
};
TARN_API struct tarn_jet tarn_jet_default(void);
TARN_API extern const struct tarn_fields tarn_jet_fields;

struct tarn_jet_flow {
	double flow_m3s, velocity_ms, head_m;
	double core_m;			/* length at full speed */
	double throw_m;			/* to end_velocity; 0 if slower */
	double centre_velocity_ms;	/* at distance */
	double half_width_m;		/* at distance, beyond the core */
	double carried_m3s;		/* at distance, beyond the core */
	double power_w;			/* of one jet */
	double jets;			/* for the path, end to end */
};
TARN_API extern const struct tarn_fields tarn_jet_flow_fields;
TARN_API enum tarn_status tarn_jet_solve(const struct tarn_jet *jet,
					 struct tarn_jet_flow *out,
					 struct tarn_error *err);

/* ---- 13. top-up water ------------------------------------------------- */

/*
 * Flow of a valve: kv [m3/h at 1 bar] sqrt(bar), cold water.  US Cv (US
 * gal/min at 1 psi) * 0.865 = kv.  All >= 0, NaN otherwise.
 */
TARN_API double tarn_valve_m3s(double kv, double pressure_kpa);
TARN_API double tarn_kv_from_cv(double cv);

/*
 * Share of a pond's water that came from the tap in its last 'events' top-ups
 * of one size, mixed each time: 1 - (1 - volume/pond)^events.
 *
 *   volume_m3  of one event        0 .. pond_m3
 *   pond_m3    volume when full    > 0
 *   events     how many            >= 0
 */
TARN_API double tarn_tap_share(double volume_m3, double pond_m3,
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
TARN_API double tarn_neutraliser_g(double ratio, double chlorine_mg_l,
				   double volume_m3);

/* Ammonia nitrogen that neutralised chloramine leaves: 14.007/70.906 mg N
 * per mg of chloramine as Cl2, times concentration and volume, both >= 0   [g]. */
TARN_API double tarn_chloramine_nitrogen_g(double chloramine_mg_l,
					   double volume_m3);

/* Least air gap above the flood rim: twice the supply's opening, never under
 * 1 inch (US plumbing codes; a near wall asks for more; local code rules).
 * NaN unless opening > 0. */
TARN_API double tarn_air_gap_m(double opening_m);

struct tarn_topup {
	double volume_m3;		/* of one event */
	double pond_m3;
	double kv, cv;			/* give one, or flow */
	double flow_m3s;
	double pressure_kpa;		/* at the valve, while it runs */
	double events_per_week;		/* default 1 */
	double chlorine_mg_l;		/* total, as Cl2 */
	double chloramine_mg_l;		/* part of it that is chloramine */
	double neutraliser;		/* ratio, see above */
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

/* ---- 14. winter ------------------------------------------------------- */

/*
 * Rough estimates; real ice depends on snow, wind and moving water.
 *
 * freezing_degree_days  sum of what each day's mean lies below 0 deg C, less
 *                       what it lies above, never under 0; its highest value
 *                       over the days                             [deg C d]
 *                       A NaN day makes the result NaN.
 * freeze_risk_days      days whose lowest temperature is at or under a
 *                       threshold; NaN days are counted in *missing (may
 *                       be NULL)
 * ice_thickness         factor sqrt(degree days)                  [m]
 *                       factor TARN_ICE_LEAST .. TARN_ICE_MOST
 * ice_water             water in it: thickness area 917/1000      [m3]
 */
#define TARN_HARD_FROST_C (-8.0)	/* falls can freeze faster than water
					   is added: common practice, no source */
/* m (deg C d)^-1/2, sheltered or snowed on, and windy and bare: US Army Corps
 * of Engineers EM 1110-2-1612, from memory. */
#define TARN_ICE_LEAST 0.014
#define TARN_ICE_MOST 0.027
TARN_API double tarn_freezing_degree_days(const double *tmean_c, size_t days);
TARN_API size_t tarn_freeze_risk_days(const double *tmin_c, size_t days,
				      double threshold_c, size_t *missing);
TARN_API double tarn_ice_thickness_m(double degree_days, double factor);
TARN_API double tarn_ice_water_m3(double thickness_m, double area_m2);

/* Frost of some years. */
struct tarn_frost {
	double hard_days;	/* a year, at or under TARN_HARD_FROST_C */
	char first[6], last[6];	/* "MM-DD", the earliest first and the latest
				   last frost of a winter; "" without frost */
	double degree_days;	/* freezing, of the coldest spell [deg C d];
				   NaN where a day's mean is not known */
};
TARN_API extern const struct tarn_fields tarn_frost_fields;

/*
 * Frost from daily lowest and highest temperatures; a winter runs from July
 * to June, south of the equator from January.
 *
 *   tmin_c, tmax_c  [deg C], NaN where not known; tmax_c may be NULL
 *   days            > 0, the first one first_day
 *   south           1: south of the equator
 */
TARN_API struct tarn_frost tarn_frost(long first_day, const double *tmin_c,
				      const double *tmax_c, size_t days,
				      int south);

#ifdef __cplusplus
}
#endif
#endif
