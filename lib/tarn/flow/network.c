/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define OUT struct tarn_network_flow
static const struct tarn_field network_flow_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow of all pumps"),
	TARN_OUT_NUMBER(OUT, head_m, "head", "m", "head of the pumps"),
	TARN_OUT_NUMBER(OUT, manifold_m, "manifold_head", "m",
			"head at the manifold"),
	TARN_OUT_NUMBER(OUT, trunk_m, "trunk_loss", "m", "lost in the trunk"),
	TARN_OUT_NUMBER(OUT, trunk_velocity_ms, "trunk_velocity", "m/s",
			"highest in the trunk"),
	TARN_OUT_NUMBER(OUT, water_w, "water_power", "W",
			"power into the water"),
	TARN_OUT_NUMBER(OUT, label_flow_m3s, "label_flow", "m3/s",
			"flow at zero head, as labels state it"),
	TARN_OUT_NUMBER(OUT, share_of_label, "share_of_label", "-",
			"flow / label_flow"),
	TARN_OUT_NUMBER(OUT, continuity, "continuity", "-",
			"relative residual of flows"),
	TARN_OUT_NUMBER(OUT, energy, "energy", "-",
			"relative residual of heads"),
};
TARN_FIELDS(tarn_network_flow_fields, "network", network_flow_rows);

#define BALANCE struct tarn_balance
static const struct tarn_field balance_rows[] = {
	TARN_OUT_NUMBER(BALANCE, flow_m3s, "flow", "m3/s",
			"flow needed from the pumps"),
	TARN_OUT_NUMBER(BALANCE, head_m, "head", "m",
			"head needed from the pumps"),
	TARN_OUT_NUMBER(BALANCE, manifold_m, "manifold_head", "m",
			"head at the manifold"),
	TARN_OUT_NUMBER(BALANCE, pump_head_m, "pump_head", "m",
			"head of the pumps at that flow"),
	TARN_OUT_NUMBER(BALANCE, surplus_m, "surplus", "m",
			"pump_head over head; negative: too weak"),
};

TARN_FIELDS(tarn_balance_fields, "balance", balance_rows);

static enum tarn_status fail_branch(const struct tarn_network *net, size_t i,
				    const char *what, struct tarn_error *err)
{
	const char *name = net->branches[i].name;

	if (name)
		return tarn_fail(err, TARN_EARG, "branch", "'%s' %s", name,
				 what);
	return tarn_fail(err, TARN_EARG, "branch", "number %zu %s", i + 1,
			 what);
}

static enum tarn_status check_parts(const struct tarn_network *net,
				    struct tarn_error *err)
{
	if (net->branch_count == 0)
		return tarn_fail(err, TARN_EARG, "network",
				 "needs one branch or more");
	for (size_t i = 0; i < net->pump_count; i++)
		if (tarn_pump_curve_check(&net->pumps[i], err) != TARN_OK)
			return TARN_EARG;
	for (size_t i = 0; i < net->trunk_count; i++)
		if (tn_flow_part_check(&net->trunk[i], err) != TARN_OK)
			return TARN_EARG;
	for (size_t i = 0; i < net->branch_count; i++) {
		const struct tarn_branch *b = &net->branches[i];

		if (tarn_fields_check(&tarn_branch_fields, b, err) != TARN_OK)
			return TARN_EARG;
		for (size_t k = 0; k < b->pipe_count; k++)
			if (tn_flow_part_check(&b->pipes[k], err) != TARN_OK)
				return TARN_EARG;
		if (b->valve_k > 0 && b->pipe_count == 0)
			return fail_branch(net, i, "has a valve_k but no pipe "
					   "whose velocity it applies to", err);
	}
	return TARN_OK;
}

static double trunk_velocity(const struct tarn_network *net, double flow)
{
	double v = TARN_NAN;

	for (size_t i = 0; i < net->trunk_count; i++) {
		double d = net->trunk[i].diameter_m;

		v = fmax(v, flow / (FLOW_PI / 4 * d * d));
	}
	return v;
}

/* ---- the balance of heads --------------------------------------------- */

static double branches_flow(const struct tarn_network *net, double manifold)
{
	double sum = 0;

	for (size_t i = 0; i < net->branch_count; i++)
		sum += tn_flow_branch_flow(&net->branches[i], manifold);
	return sum;
}

static double pumps_flow(const struct tarn_network *net, double head)
{
	return tn_flow_group_flow(net->pumps, net->pump_count, head);
}

/* What the branches take less what the pumps give, at a head of the pumps;
 * it rises with the head, so there is one answer. */
static double excess(double head, const void *context)
{
	const struct tarn_network *net = context;
	double flow = pumps_flow(net, head);

	return branches_flow(net, head - tn_flow_trunk_loss(net, flow)) - flow;
}

static void fail_lift(const struct tarn_network *net, double head,
				  struct tarn_error *err)
{
	size_t lowest = 0;
	const char *name;

	for (size_t i = 1; i < net->branch_count; i++)
		if (net->branches[i].lift_m < net->branches[lowest].lift_m)
			lowest = i;
	name = net->branches[lowest].name;
	tarn_fail(err, TARN_EARG, "pump", "cannot lift: it reaches %.3g m at "
		  "no flow, and the lowest branch%s%s%s needs %.3g m", head,
		  name ? " '" : "", name ? name : "", name ? "'" : "",
		  net->branches[lowest].lift_m);
}

/* Head of the pumps at which the flows match; NaN with the reason noted. */
static double find_head(const struct tarn_network *net, struct tarn_error *err)
{
	struct flow_span s = tn_flow_group_span(net->pumps, net->pump_count);
	double at_lo, at_hi;

	if (!(s.lo < s.hi)) {
		tarn_fail(err, TARN_EARG, "pump", "curves have no head in "
			  "common");
		return TARN_NAN;
	}
	at_hi = excess(s.hi, net);
	at_lo = excess(s.lo, net);
	if (at_hi == 0 && branches_flow(net, s.hi) == 0)
		fail_lift(net, s.hi, err);
	else if (at_hi < 0)
		tarn_fail(err, TARN_EARG, "pump.curve", "starts at too large "
			  "a flow: the branches take less than %.4g m3/s",
			  pumps_flow(net, s.hi));
	else if (at_lo > 0)
		tarn_fail(err, TARN_EARG, "pump.curve", "ends too early: the "
			  "branches take more than its last %.4g m3/s at "
			  "%.3g m; give more points, or more resistance",
			  pumps_flow(net, s.lo), s.lo);
	else
		return tn_flow_root(excess, net, s.lo, s.hi);
	return TARN_NAN;
}

static void fill_total(const struct tarn_network *net,
		       const struct tarn_branch_flow *branches,
		       struct tarn_network_flow *t)
{
	double flow = 0;

	t->dry_branches = 0;
	for (size_t i = 0; i < net->branch_count; i++) {
		flow += branches[i].flow_m3s;
		t->dry_branches += branches[i].dry;
	}
	t->flow_m3s = flow;
	t->trunk_m = tn_flow_trunk_loss(net, flow);
	t->manifold_m = t->head_m - t->trunk_m;
	t->trunk_velocity_ms = trunk_velocity(net, flow);
	t->water_w = tarn_pump_water_w(flow, t->head_m, 1000);
	t->label_flow_m3s = tn_flow_group_label(net->pumps, net->pump_count);
	t->share_of_label = flow / t->label_flow_m3s;
}

static enum tarn_status check_network(const struct tarn_network *net,
				      struct tarn_error *err)
{
	if (check_parts(net, err) != TARN_OK)
		return TARN_EARG;
	if (net->pump_count == 0 || net->pump_count > TARN_PUMPS_MAX)
		return tarn_fail(err, TARN_EARG, "network", "needs a pump, up "
				 "to %d, got %zu", TARN_PUMPS_MAX,
				 net->pump_count);
	for (size_t i = 0; i < net->branch_count; i++)
		if (!(tn_flow_branch_loss(1, &net->branches[i]) > 0))
			return fail_branch(net, i, "has no resistance: give "
					   "it a pipe, an orifice or a "
					   "resistance", err);
	return TARN_OK;
}

enum tarn_status tarn_network_solve(const struct tarn_network *net,
				    struct tarn_branch_flow *branches,
				    struct tarn_network_flow *total,
				    struct tarn_error *err)
{
	struct tarn_network_flow t = { 0 };
	double manifold;

	if (check_network(net, err) != TARN_OK)
		return TARN_EARG;
	t.head_m = find_head(net, err);
	if (isnan(t.head_m))
		return TARN_EARG;
	for (size_t k = 0; k < net->pump_count; k++)
		t.pump_m3s[k] = tn_flow_group_flow(&net->pumps[k], 1, t.head_m);
	manifold = t.head_m - tn_flow_trunk_loss(net, pumps_flow(net,
								 t.head_m));
	for (size_t i = 0; i < net->branch_count; i++)
		branches[i].flow_m3s = tn_flow_branch_flow(&net->branches[i],
							   manifold);
	tn_flow_network_close(net, tn_flow_group_span(net->pumps,
						      net->pump_count).hi,
			      branches, &t);
	for (size_t i = 0; i < net->branch_count; i++) {
		double flow = branches[i].flow_m3s;

		tn_flow_branch_report(&net->branches[i], flow, &branches[i]);
		branches[i].dry = flow == 0;
	}
	fill_total(net, branches, &t);
	*total = t;
	return TARN_OK;
}

/* ---- balance to targets ----------------------------------------------- */

enum tarn_status tarn_network_balance(const struct tarn_network *net,
				      double *extra_valve_k,
				      struct tarn_branch_flow *branches,
				      struct tarn_balance *out,
				      struct tarn_error *err)
{
	double flow = 0, manifold = -HUGE_VAL;

	if (check_parts(net, err) != TARN_OK)
		return TARN_EARG;
	for (size_t i = 0; i < net->branch_count; i++)
		if (!(net->branches[i].target_m3s > 0))
			return fail_branch(net, i, "needs a target flow above "
					   "zero", err);
	for (size_t i = 0; i < net->branch_count; i++) {
		const struct tarn_branch *b = &net->branches[i];
		double need;

		tn_flow_branch_report(b, b->target_m3s, &branches[i]);
		flow += b->target_m3s;
		need = b->lift_m + branches[i].headloss_m;
		if (need > manifold) {
			manifold = need;
			out->governs = i;
		}
	}
	for (size_t i = 0; i < net->branch_count; i++) {
		const struct tarn_branch *b = &net->branches[i];
		double spare = manifold - b->lift_m - branches[i].headloss_m;
		double v = TARN_NAN;

		if (b->pipe_count > 0)
			v = b->target_m3s /
			    (FLOW_PI / 4 * b->pipes[0].diameter_m *
			     b->pipes[0].diameter_m);
		extra_valve_k[i] = i == out->governs ? 0
			: spare * 2 * TARN_GRAVITY / (v * v);
	}
	out->flow_m3s = flow;
	out->manifold_m = manifold;
	out->head_m = manifold + tn_flow_trunk_loss(net, flow);
	out->pump_head_m = tn_flow_group_head(net->pumps, net->pump_count,
					      flow);
	out->surplus_m = out->pump_head_m - out->head_m;
	return TARN_OK;
}
