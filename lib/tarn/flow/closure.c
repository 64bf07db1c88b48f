/* SPDX-License-Identifier: MIT */
#include "internal.h"

/*
 * Newton's method on all flows and the pumps' head at once, from a start that
 * is right but for the last digits.  A head found by bracketing leaves flows
 * that hang on its last bits where curves are flat or pipes short; with the
 * flows as unknowns both laws close to rounding everywhere.
 *
 *   pump k     P_k(Q_k) = H
 *   branch i   H - T(Q) - lift_i = h_i(q_i)
 *   manifold   sum Q_k = sum q_i = Q
 *
 * Each line holds one flow besides H and Q, so the matrix is an arrow and two
 * sums solve it.
 */

/* d loss / d flow by central difference: its error only slows the method. */
static double slope_of(double (*loss)(double, const void *),
		       const void *context, double flow)
{
	double step = 1e-5 * flow;

	return (loss(flow + step, context) - loss(flow - step, context)) /
	       (2 * step);
}

static double trunk(double flow, const void *net)
{
	return tn_flow_trunk_loss(net, flow);
}

static double sum_branches(const struct tarn_network *net,
			   const struct tarn_branch_flow *branches)
{
	double sum = 0;

	for (size_t i = 0; i < net->branch_count; i++)
		sum += branches[i].flow_m3s;
	return sum;
}

/* Fills continuity and energy; returns the worse. */
static double measure(const struct tarn_network *net, double scale,
		      const struct tarn_branch_flow *branches,
		      struct tarn_network_flow *t)
{
	double taken = sum_branches(net, branches), given = 0, worst = 0;
	double manifold = t->head_m - tn_flow_trunk_loss(net, taken);

	for (size_t k = 0; k < net->pump_count; k++) {
		double flow = t->pump_m3s[k];

		given += flow;
		if (flow > 0)
			worst = fmax(worst, fabs(t->head_m - tarn_pump_head_m(
						 &net->pumps[k], flow)));
	}
	for (size_t i = 0; i < net->branch_count; i++) {
		const struct tarn_branch *b = &net->branches[i];
		double flow = branches[i].flow_m3s;

		if (flow > 0)
			worst = fmax(worst, fabs(manifold - b->lift_m -
						 tn_flow_branch_loss(flow, b)));
	}
	t->continuity = fabs(taken - given) / taken;
	t->energy = worst / scale;
	return fmax(t->continuity, t->energy);
}

/* Moves a flow, but never to zero or across it. */
static double moved(double flow, double by)
{
	return flow + by > 0 ? flow + by : flow / 2;
}

/* One row of the matrix: what its equation lacks, and its slope. */
struct row {
	double lack, slope;
};

static struct row pump_row(const struct tarn_pump_curve *p, double flow,
			   double head)
{
	/* a level curve (at no flow, at an end) counts as nearly level */
	double slope = fmin(tn_flow_pump_slope(p, flow), -1e-9);

	return (struct row){ head - tarn_pump_head_m(p, flow), slope };
}

static struct row branch_row(const struct tarn_branch *b, double flow,
			     double manifold)
{
	return (struct row){
		manifold - b->lift_m - tn_flow_branch_loss(flow, b),
		slope_of(tn_flow_branch_loss, b, flow),
	};
}

/*
 * With A, B the sums of 1/slope and lack/slope over pumps, C, D those over
 * branches, w = 1 + C T':
 *
 *   dQ = (C dH + D) / w          all branches
 *   A dH + B + sum Q_k = Q + dQ  all pumps
 */
static void step(const struct tarn_network *net,
		 struct tarn_branch_flow *branches,
		 struct tarn_network_flow *t)
{
	double q = sum_branches(net, branches), given = 0;
	double manifold = t->head_m - tn_flow_trunk_loss(net, q);
	double trunk_slope = slope_of(trunk, net, q);
	double a = 0, b = 0, c = 0, d = 0, w, dh, dq;

	for (size_t k = 0; k < net->pump_count; k++) {
		struct row r = pump_row(&net->pumps[k], t->pump_m3s[k],
					t->head_m);

		if (!(t->pump_m3s[k] > 0))
			continue;
		given += t->pump_m3s[k];
		a += 1 / r.slope;
		b += r.lack / r.slope;
	}
	for (size_t i = 0; i < net->branch_count; i++) {
		struct row r = branch_row(&net->branches[i],
					  branches[i].flow_m3s, manifold);

		if (!(branches[i].flow_m3s > 0))
			continue;
		c += 1 / r.slope;
		d += r.lack / r.slope;
	}
	w = 1 + c * trunk_slope;
	dh = (q - given - b + d / w) / (a - c / w);
	dq = (c * dh + d) / w;
	for (size_t k = 0; k < net->pump_count; k++) {
		struct row r = pump_row(&net->pumps[k], t->pump_m3s[k],
					t->head_m);

		if (t->pump_m3s[k] > 0)
			t->pump_m3s[k] = moved(t->pump_m3s[k],
					       (dh + r.lack) / r.slope);
	}
	for (size_t i = 0; i < net->branch_count; i++) {
		struct row r = branch_row(&net->branches[i],
					  branches[i].flow_m3s, manifold);

		if (branches[i].flow_m3s > 0)
			branches[i].flow_m3s =
				moved(branches[i].flow_m3s,
				      (dh - trunk_slope * dq + r.lack) /
					      r.slope);
	}
	t->head_m += dh;
}

void tn_flow_network_close(const struct tarn_network *net, double scale,
			   struct tarn_branch_flow *branches,
			   struct tarn_network_flow *t)
{
	const double rounding = 1e-15;
	double open = measure(net, scale, branches, t);

	for (int i = 0; i < 20 && open > rounding; i++) {
		double before = open;

		step(net, branches, t);
		open = measure(net, scale, branches, t);
		if (i > 2 && open > before / 2)	/* as good as it gets */
			break;
	}
}
