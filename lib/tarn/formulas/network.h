/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_NETWORK_H
#define TARN_FORMULAS_NETWORK_H

/*
 * network: pumps, a trunk and branches.  Part of flow.h, whose first lines
 * give the units and conventions.
 */

#include "tarn/formulas/pipe.h"
#include "tarn/formulas/pump.h"

#ifdef __cplusplus
extern "C" {
#endif

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
	int regime;			/* there, enum tarn_pipe_regime */
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

/* Head that pipes end to end lose at a flow >= 0, the sum of pipe.h's; NaN
 * if a field is wrong.  Source: as tarn_pipe_solve. */
TARN_API double tarn_pipes_headloss_m(const struct tarn_pipe *pipes,
				      size_t count, double flow_m3s);

#ifdef __cplusplus
}
#endif
#endif
