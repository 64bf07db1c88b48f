/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_branch
static const struct tarn_field branch_rows[] = {
	TARN_IN_VALUE(IN, lift_m, "lift", "m", -100, 1000, 0,
		      "height of the end above the water pumped from"),
	TARN_IN_VALUE(IN, valve_k, "valve_k", "-", 0, 1e9, 0,
		      "loss coefficient of the valve"),
	TARN_IN_VALUE(IN, resistance_s2m5, "resistance", "s2/m5", 0, 1e15, 0,
		      "head over flow squared"),
	TARN_IN_NUMBER(IN, orifice_diameter_m, "orifice_diameter", "m", 1e-4, 5,
		       TARN_NAN, "diameter of holes or nozzles"),
	TARN_IN_VALUE(IN, orifices, "orifices", "-", 1, 1e5, 1,
		      "number of holes"),
	TARN_IN_VALUE(IN, cd, "cd", "-", 0.1, 1, 0.6,
		      "discharge coefficient of the holes"),
	TARN_IN_NUMBER(IN, target_m3s, "target", "m3/s", 0, 1000, TARN_NAN,
		       "wanted flow"),
	TARN_IN_STRING(IN, name, "name", "for messages and results"),
	TARN_IN_LIST(IN, pipes, pipe_count, "pipes", tarn_pipe_fields, 0, 1000,
		     "end to end"),
};
TARN_FIELDS(tarn_branch_fields, "branch", branch_rows);
TARN_DEFAULT(IN, tarn_branch_default, tarn_branch_fields)

static const char *const regimes[] = { "laminar", "transition", "turbulent",
				       NULL };

#define OUT struct tarn_branch_flow
static const struct tarn_field branch_flow_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow"),
	TARN_OUT_NUMBER(OUT, headloss_m, "headloss", "m",
			"head lost, without the lift"),
	TARN_OUT_NUMBER(OUT, friction_m, "friction", "m", "in pipes"),
	TARN_OUT_NUMBER(OUT, minor_m, "minor", "m", "in fittings"),
	TARN_OUT_NUMBER(OUT, valve_m, "valve", "m", "in the valve"),
	TARN_OUT_NUMBER(OUT, orifice_m, "orifice", "m", "at the holes"),
	TARN_OUT_NUMBER(OUT, resistance_m, "resistance", "m",
			"in the given resistance"),
	TARN_OUT_NUMBER(OUT, velocity_ms, "velocity", "m/s",
			"highest in the pipes"),
	TARN_OUT_NUMBER(OUT, reynolds, "reynolds", "-",
			"Reynolds number there"),
	TARN_OUT_CHOICE(OUT, regime, "regime", regimes, "kind of flow there"),
	TARN_OUT_NUMBER(OUT, orifice_velocity_ms, "orifice_velocity", "m/s",
			"flow over area of the holes"),
	TARN_OUT_SWITCH(OUT, dry, "dry", "the lift is too high"),
};
TARN_FIELDS(tarn_branch_flow_fields, "branch", branch_flow_rows);

static double orifice_area(const struct tarn_branch *b)
{
	return b->orifices * FLOW_PI / 4 * b->orifice_diameter_m *
	       b->orifice_diameter_m;
}

/* What is lost where: all that a solver asks, a hundred times a branch. */
static void lose(const struct tarn_branch *b, double flow,
		 struct tarn_branch_flow *out)
{
	for (size_t i = 0; i < b->pipe_count; i++) {
		struct flow_run run = tn_flow_run_make(&b->pipes[i],
						       b->pipes[i].diameter_m);
		double v = flow / run.area;

		out->friction_m += tn_flow_run_friction(&run, flow);
		out->minor_m += tn_flow_run_minor(&run, flow);
		if (i == 0)
			out->valve_m = b->valve_k * v * v / (2 * TARN_GRAVITY);
	}
	if (!isnan(b->orifice_diameter_m)) {
		double v = flow / orifice_area(b);

		out->orifice_velocity_ms = v;
		out->orifice_m = v * v / (2 * TARN_GRAVITY * b->cd * b->cd);
	}
	out->resistance_m = b->resistance_s2m5 * flow * flow;
	out->headloss_m = out->friction_m + out->minor_m + out->valve_m +
			  out->orifice_m + out->resistance_m;
}

void tn_flow_branch_report(const struct tarn_branch *b, double flow,
			  struct tarn_branch_flow *out)
{
	*out = (struct tarn_branch_flow){ .flow_m3s = flow,
		.velocity_ms = TARN_NAN, .reynolds = TARN_NAN,
		.regime = -1, .orifice_velocity_ms = TARN_NAN };
	lose(b, flow, out);
	for (size_t i = 0; i < b->pipe_count; i++) {
		struct flow_run run = tn_flow_run_make(&b->pipes[i],
						       b->pipes[i].diameter_m);
		struct tarn_pipe_flow p;

		if (flow / run.area <= out->velocity_ms)
			continue;
		tn_flow_run_report(&run, flow, &p);
		out->velocity_ms = p.velocity_ms;
		out->reynolds = p.reynolds;
		out->regime = p.regime;
	}
}

double tn_flow_branch_loss(double flow, const void *context)
{
	struct tarn_branch_flow out = { 0 };

	lose(context, flow, &out);
	return out.headloss_m;
}

double tn_flow_branch_flow(const struct tarn_branch *b, double manifold)
{
	double head = manifold - b->lift_m;

	if (!(head > tn_flow_branch_loss(FLOW_Q_MIN, b)))
		return 0;
	return tn_flow_inverse(tn_flow_branch_loss, b, head, FLOW_Q_MIN,
			       FLOW_Q_MAX);
}
