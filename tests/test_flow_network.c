/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"

static struct tarn_pipe pipe_of(double diameter, double length, double k)
{
	struct tarn_pipe p = tarn_pipe_default();

	p.diameter_m = diameter;
	p.length_m = length;
	p.roughness_m = 1.5e-6;
	p.minor_k = k;
	return p;
}

static struct tarn_pump_curve label_pump(double head, double flow)
{
	struct tarn_pump_curve p = tarn_pump_curve_default();

	p.max_head_m = head;
	p.label_flow_m3s = flow;
	return p;
}

/* One pump against lift + resistance Q^2. */
static struct tarn_network_flow duty(const struct tarn_pump_curve *p,
				     double lift, double resistance)
{
	struct tarn_branch b = tarn_branch_default();
	struct tarn_network net = { .pumps = p, .pump_count = 1,
				    .branches = &b, .branch_count = 1 };
	struct tarn_network_flow t;
	struct tarn_branch_flow out;
	struct tarn_error err = { 0 };

	b.lift_m = lift;
	b.resistance_s2m5 = resistance;
	cr_assert(tarn_network_solve(&net, &out, &t, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	cr_expect(t.continuity <= 1e-10 && t.energy <= 1e-10);
	return t;
}

#define MAURER "Maurer, Hydraulics and Water Resources (R), ex. "

/* Maurer ex. 7.1 and 7.3: 20 in pipe, 3884 ft, 30 ft of lift, against the
 * pump fitted in ex. 7.2 (82.47 - 0.2009 Q^2 in ft and ft3/s). */
Test(network, maurer_published)
{
	struct tarn_pipe p = pipe_of(20 * INCH, 3884 * FT, 0);
	struct tarn_pump_curve pump = label_pump(
		82.467352 * FT, sqrt(82.467352 / 0.2009366) * CFS);
	struct tarn_network_flow t;
	double k;

	p.roughness_m = 0.0005 * FT;
	p.kinematic_m2s = 1.23e-5 * FT * FT;
	/* taken at 1 ft3/s, as printed */
	k = tarn_pipes_headloss_m(&p, 1, CFS);
	printed(MAURER "7.1", "K, ft s2/ft6", k / FT, 0.160, 0.001);
	t = duty(&pump, 30 * FT, k / (CFS * CFS));
	because(MAURER "7.3", "0.001 ft off, which the last digit of the "
		"printed flow allows");
	printed(MAURER "7.3", "flow, ft3/s", t.flow_m3s / CFS, 12.051, 0.006);
	printed(MAURER "7.3", "head, ft", t.head_m / FT, 53.285, 0.0011);
}

/* Cengel & Cimbala, chapter 14 problem: inputs seen, answers from memory.
 * Heads in m, flows in L/min. */
Test(network, cengel_from_memory)
{
	const double lpm = 1e-3 / 60;
	struct tarn_pump_curve pump = label_pump(7.46,
						 sqrt(7.46 / 0.0453) * lpm);
	struct tarn_network_flow t = duty(&pump, 3.52, 0.0261 / (lpm * lpm));

	recalled("Cengel & Cimbala, ch. 14", "flow, L/min", t.flow_m3s / lpm,
		 7.43, 0.01);
	recalled("Cengel & Cimbala, ch. 14", "head, m", t.head_m, 4.96, 0.01);
	/* Q = sqrt((c - a) / (b + d)) */
	close_to("closed form", t.flow_m3s / lpm,
		 sqrt((7.46 - 3.52) / (0.0453 + 0.0261)), 1e-12);
}

/* 60 - 0.8 Q = 20 + 0.5 Q^2, so Q = sqrt(80.64) - 0.8. */
Test(network, straight_pump_by_hand)
{
	static const double q[] = { 0, 75 }, h[] = { 60, 0 };
	struct tarn_pump_curve pump = tarn_pump_curve_default();
	struct tarn_network_flow t;

	pump.flow_m3s = q;
	pump.head_m = h;
	pump.points = 2;
	t = duty(&pump, 20, 0.5);
	close_to("flow", t.flow_m3s, sqrt(80.64) - 0.8, 1e-9);
	close_to("head", t.head_m, 60.64 - 0.8 * sqrt(80.64), 1e-9);
	close_to("label", t.label_flow_m3s, 75, 1e-15);
	close_to("share", t.share_of_label, t.flow_m3s / 75, 1e-15);
}

static const double curve_q[] = { 0, .0010, .0024, .0040, .0052, .0060 };
static const double curve_h[] = { 8.2, 7.9, 6.7, 4.6, 2.2, 0.0 };

/* Bed, falls and jets on one manifold. */
struct plant {
	struct tarn_pump_curve pump;
	struct tarn_pipe trunk, pipe[3];
	struct tarn_branch branch[3];
	struct tarn_network net;
};

static void build(struct plant *p)
{
	static const char *const names[] = { "bed", "falls", "jets" };

	p->pump = tarn_pump_curve_default();
	p->pump.flow_m3s = curve_q;
	p->pump.head_m = curve_h;
	p->pump.points = 6;
	p->trunk = pipe_of(.0525, 4, 2.0);
	p->pipe[0] = pipe_of(.0409, 6, 3);
	p->pipe[1] = pipe_of(.0525, 9, 2.5);
	p->pipe[2] = pipe_of(.0266, 5, 1.5);
	for (int i = 0; i < 3; i++) {
		p->branch[i] = tarn_branch_default();
		p->branch[i].name = names[i];
		p->branch[i].pipes = &p->pipe[i];
		p->branch[i].pipe_count = 1;
	}
	p->branch[0].lift_m = 0.5;
	p->branch[0].valve_k = 4;
	p->branch[1].lift_m = 1.8;
	p->branch[2].orifice_diameter_m = .008;
	p->branch[2].orifices = 4;
	p->net = (struct tarn_network){
		.pumps = &p->pump, .pump_count = 1, .trunk = &p->trunk,
		.trunk_count = 1, .branches = p->branch, .branch_count = 3,
	};
}

/* scipy 1.10.1 optimize.root on the same heads, friction by fluids 1.0.22
 * Colebrook(tol=-1), pump by PchipInterpolator. */
Test(network, scipy)
{
	static const double flows[] = { 0.002296889048057, 0.001908586218298,
					0.000675141465011 };
	struct plant p;
	struct tarn_branch_flow out[3];
	struct tarn_network_flow t;
	struct tarn_error err = { 0 };

	build(&p);
	cr_assert(tarn_network_solve(&p.net, out, &t, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	for (int i = 0; i < 3; i++)
		near("scipy", out[i].flow_m3s, flows[i], 1e-14);
	near("scipy, head", t.head_m, 2.9222259760669425, 1e-12);
	cr_expect(t.continuity <= 1e-10, "%g", t.continuity);
	cr_expect(t.energy <= 1e-10, "%g", t.energy);
	cr_expect(t.dry_branches == 0);
	near("jets", out[2].orifice_velocity_ms,
	     out[2].flow_m3s / (4 * PI / 4 * .008 * .008), 1e-14);
	cr_expect(out[0].regime == TARN_TURBULENT);
	cr_expect(out[1].velocity_ms > 0.8 && out[1].velocity_ms < 0.95);
}

/* Continuity and energy over many plants, down to trickles. */
Test(network, always_closes)
{
	for (int i = 0; i < 400; i++) {
		struct plant p;
		struct tarn_pump_curve pumps[2];
		struct tarn_branch_flow out[3];
		struct tarn_network_flow t;
		struct tarn_error err = { 0 };

		build(&p);
		p.pump.speed = 0.35 + 0.0031 * (i % 97);
		p.pump.count = 1 + i % 3;
		p.branch[0].lift_m = -0.4 + 0.011 * (i % 113);
		p.branch[1].lift_m = 0.05 + 0.031 * (i % 71);
		p.branch[0].valve_k = pow(10, -2 + 0.07 * (i % 101));
		p.pipe[1].length_m = 0.1 + (i % 37) * 3;
		p.pipe[2].diameter_m = 0.005 + 0.001 * (i % 43);
		p.branch[2].resistance_s2m5 = i % 5 * 1e4;
		pumps[0] = p.pump;
		pumps[1] = label_pump(3 + 0.05 * (i % 89), 3e-3);
		p.net.pumps = pumps;
		p.net.pump_count = 1 + (size_t)i % 2;
		if (tarn_network_solve(&p.net, out, &t, &err) != TARN_OK) {
			cr_expect(strstr(err.text, "ends too early") != NULL,
				  "%d: %s %s", i, err.field, err.text);
			continue;
		}
		cr_expect(t.continuity <= 1e-10, "%d: %g", i, t.continuity);
		cr_expect(t.energy <= 1e-10, "%d: %g", i, t.energy);
	}
}

/* A pump that hardly reaches the lift: flat start of the curve. */
Test(network, trickle)
{
	struct tarn_pump_curve pump = label_pump(3, 2e-3);

	for (double gap = 1; gap > 1e-9; gap /= 10) {
		struct tarn_network_flow t = duty(&pump, 3 - gap, 1e5);

		close_to("closed form", t.flow_m3s,
			 sqrt((3 - (3 - gap)) / (1e5 + 3 / 4e-6)),
			 1e-10 + 4e-15 / gap);	/* the gap's own bits */
	}
}

Test(network, equal_branches_share_evenly)
{
	struct plant p;
	struct tarn_branch_flow out[3];
	struct tarn_network_flow t;

	build(&p);
	p.branch[2] = p.branch[1] = p.branch[0];
	cr_assert(tarn_network_solve(&p.net, out, &t, NULL) == TARN_OK);
	cr_expect(out[0].flow_m3s == out[1].flow_m3s &&
		  out[1].flow_m3s == out[2].flow_m3s);
	/* two equal pumps of half the flow are one pump */
	{
		struct tarn_pump_curve one = label_pump(6, 4e-3);
		struct tarn_pump_curve two[] = { label_pump(6, 2e-3),
					   label_pump(6, 2e-3) };
		double q = duty(&one, 1, 2e5).flow_m3s;

		p.net.pumps = two;
		p.net.pump_count = 2;
		p.net.trunk_count = 0;
		p.branch[0] = tarn_branch_default();
		p.branch[0].lift_m = 1;
		p.branch[0].resistance_s2m5 = 2e5;
		p.net.branch_count = 1;
		cr_assert(tarn_network_solve(&p.net, out, &t, NULL) ==
			  TARN_OK);
		close_to("two pumps", t.flow_m3s, q, 1e-12);
		close_to("half each", t.pump_m3s[1], q / 2, 1e-12);
		/* a weak pump beside a strong one is shut by its check valve */
		two[1].max_head_m = 0.9;
		two[0].label_flow_m3s = 4e-3;
		cr_assert(tarn_network_solve(&p.net, out, &t, NULL) ==
			  TARN_OK);
		close_to("shut", t.flow_m3s, q, 1e-12);
		cr_expect(t.pump_m3s[1] == 0);
	}
}

Test(network, dry_branch)
{
	struct plant p;
	struct tarn_branch_flow out[3];
	struct tarn_network_flow t;

	build(&p);
	p.branch[1].lift_m = 6;	/* manifold stands lower */
	cr_assert(tarn_network_solve(&p.net, out, &t, NULL) == TARN_OK);
	cr_expect(t.dry_branches == 1 && out[1].dry && !out[0].dry);
	cr_expect(out[1].flow_m3s == 0 && out[1].headloss_m == 0);
	cr_expect(t.continuity <= 1e-10 && t.energy <= 1e-10);
}

static void refuse(const struct tarn_network *net, const char *field,
		   const char *text)
{
	struct tarn_branch_flow out[3];
	struct tarn_network_flow t = { .flow_m3s = 77 };
	struct tarn_error err = { 0 };

	cr_expect(tarn_network_solve(net, out, &t, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, field, "%s: %s", err.field, err.text);
	cr_expect(strstr(err.text, text) != NULL, "%s", err.text);
	cr_expect(t.flow_m3s == 77);
}

Test(network, refused)
{
	struct plant p;

	build(&p);
	for (int i = 0; i < 3; i++)
		p.branch[i].lift_m = 9 + i;
	refuse(&p.net, "pump", "cannot lift: it reaches 8.2 m at no flow, and "
	       "the lowest branch 'bed' needs 9 m");
	build(&p);
	p.pump.points = 4;	/* the curve ends at 4 L/s and 4.6 m */
	refuse(&p.net, "pump.curve", "ends too early: the branches take more "
	       "than its last 0.004 m3/s at 4.6 m");
	build(&p);
	p.pump.flow_m3s = curve_q + 5;
	p.pump.head_m = curve_h + 4;
	{
		static const double q[] = { .5, .6 }, h[] = { 2.2, 0.1 };

		p.pump.flow_m3s = q;
		p.pump.head_m = h;
		p.pump.points = 2;
		refuse(&p.net, "pump.curve", "starts at too large a flow");
	}
	build(&p);
	p.branch[1].pipes = NULL;
	p.branch[1].pipe_count = 0;
	refuse(&p.net, "branch", "'falls' has no resistance");
	p.branch[1].name = NULL;
	p.branch[1].valve_k = 2;
	refuse(&p.net, "branch", "number 2 has a valve_k but no pipe");
	build(&p);
	p.branch[0].cd = 0;
	refuse(&p.net, "branch.cd", "must be");
	build(&p);
	p.pipe[0].diameter_m = TARN_NAN;
	refuse(&p.net, "pipe.diameter", "is missing");
	build(&p);
	p.net.branch_count = 0;
	refuse(&p.net, "network", "needs one branch");
	build(&p);
	p.net.pump_count = 0;
	refuse(&p.net, "network", "needs a pump");
	build(&p);
	p.trunk.flow_m3s = 1;
	refuse(&p.net, "pipe", "part of a whole");
	build(&p);
	p.pump.count = 0;
	refuse(&p.net, "pump.count", "must be");
}

/* Valves found by the balance make the solver give the targets. */
Test(network, balance)
{
	static const double targets[] = { 1.5e-3, 1.2e-3, 0.5e-3 };
	struct plant p;
	struct tarn_branch_flow out[3];
	struct tarn_network_flow t;
	struct tarn_balance b;
	struct tarn_error err = { 0 };
	double valve[3], v;

	build(&p);
	cr_expect(tarn_network_balance(&p.net, valve, out, &b, &err) ==
		  TARN_EARG);
	cr_expect(strstr(err.text, "'bed' needs a target") != NULL);
	for (int i = 0; i < 3; i++)
		p.branch[i].target_m3s = targets[i];
	err.code = TARN_OK;
	cr_assert(tarn_network_balance(&p.net, valve, out, &b, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	near("flow", b.flow_m3s, 3.2e-3, 1e-17);
	cr_expect(valve[b.governs] == 0);
	cr_expect(b.surplus_m > 0);
	near("surplus", b.pump_head_m - b.head_m, b.surplus_m, 1e-15);
	/* burn the surplus in the trunk, set the valves, and solve */
	v = 3.2e-3 / (PI / 4 * .0525 * .0525);
	p.trunk.minor_k += b.surplus_m * 2 * TARN_GRAVITY / (v * v);
	for (int i = 0; i < 3; i++)
		p.branch[i].valve_k += valve[i];
	cr_assert(tarn_network_solve(&p.net, out, &t, NULL) == TARN_OK);
	for (int i = 0; i < 3; i++)
		close_to("target", out[i].flow_m3s, targets[i], 1e-11);
	/* without pumps the head is still told */
	p.net.pump_count = 0;
	cr_assert(tarn_network_balance(&p.net, valve, out, &b, NULL) ==
		  TARN_OK);
	cr_expect(isnan(b.pump_head_m) && isnan(b.surplus_m));
	cr_expect(b.head_m > 1);
}
