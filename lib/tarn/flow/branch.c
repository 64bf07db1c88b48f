/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define NUMBER(member, name, lo, hi, unit, meaning) \
	FLOW_NUMBER(tarn_branch, member, name, lo, hi, unit, meaning)
#define NEEDED(member, name, lo, hi, unit, meaning) \
	FLOW_NEEDED(tarn_branch, member, name, lo, hi, unit, meaning)

static const struct tarn_field branch_rows[] = {
	NEEDED(lift_m, "lift", -100, 1000, "m",
	       "height of the end above the water pumped from"),
	NEEDED(valve_k, "valve_k", 0, 1e9, "-",
	       "loss coefficient of the valve"),
	NEEDED(resistance_s2m5, "resistance", 0, 1e15, "s2/m5",
	       "head over flow squared"),
	NUMBER(orifice_diameter_m, "orifice_diameter", 1e-4, 5, "m",
	       "diameter of holes or nozzles"),
	NEEDED(orifices, "orifices", 1, 1e5, "-", "number of holes"),
	NEEDED(cd, "cd", 0.1, 1, "-", "discharge coefficient of the holes"),
	NUMBER(target_m3s, "target", 0, 1000, "m3/s", "wanted flow"),
};
FLOW_FIELDS(tarn_branch_fields, "branch", branch_rows);

static const char *const regimes[] = { "laminar", "transition", "turbulent",
				       NULL };

#define RESULT(member, name, unit, meaning) \
	FLOW_RESULT(tarn_branch_flow, member, name, unit, meaning)

static const struct tarn_field branch_flow_rows[] = {
	RESULT(flow_m3s, "flow", "m3/s", "flow"),
	RESULT(headloss_m, "headloss", "m", "head lost, without the lift"),
	RESULT(friction_m, "friction", "m", "in pipes"),
	RESULT(minor_m, "minor", "m", "in fittings"),
	RESULT(valve_m, "valve", "m", "in the valve"),
	RESULT(orifice_m, "orifice", "m", "at the holes"),
	RESULT(resistance_m, "resistance", "m", "in the given resistance"),
	RESULT(velocity_ms, "velocity", "m/s", "highest in the pipes"),
	RESULT(reynolds, "reynolds", "-", "Reynolds number there"),
	FLOW_CHOICE(tarn_branch_flow, regime, "regime", regimes, 2,
		    "kind of flow there"),
	RESULT(orifice_velocity_ms, "orifice_velocity", "m/s",
	       "flow over area of the holes"),
	FLOW_SWITCH(tarn_branch_flow, dry, "dry", "the lift is too high"),
};
FLOW_FIELDS(tarn_branch_flow_fields, "branch", branch_flow_rows);

struct tarn_branch tarn_branch_default(void)
{
	return (struct tarn_branch){
		.lift_m = 0, .orifice_diameter_m = TARN_NAN, .orifices = 1,
		.cd = 0.6, .target_m3s = TARN_NAN,
	};
}

static double orifice_area(const struct tarn_branch *b)
{
	return b->orifices * FLOW_PI / 4 * b->orifice_diameter_m *
	       b->orifice_diameter_m;
}

void flow_branch_report(const struct tarn_branch *b, double flow,
			  struct tarn_branch_flow *out)
{
	*out = (struct tarn_branch_flow){ .flow_m3s = flow,
		.velocity_ms = TARN_NAN, .reynolds = TARN_NAN,
		.regime = -1, .orifice_velocity_ms = TARN_NAN };
	for (size_t i = 0; i < b->pipe_count; i++) {
		struct flow_run run = flow_run_make(&b->pipes[i],
						    b->pipes[i].diameter_m);
		double v = flow / run.area;

		out->friction_m += flow_run_friction(&run, flow);
		out->minor_m += flow_run_minor(&run, flow);
		if (i == 0)
			out->valve_m = b->valve_k * v * v / (2 * TARN_GRAVITY);
		if (!(v <= out->velocity_ms)) {
			struct tarn_pipe_flow p;

			flow_run_report(&run, flow, &p);
			out->velocity_ms = v;
			out->reynolds = p.reynolds;
			out->regime = p.regime;
		}
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

double flow_branch_loss(double flow, const void *context)
{
	struct tarn_branch_flow out;

	flow_branch_report(context, flow, &out);
	return out.headloss_m;
}

double flow_branch_flow(const struct tarn_branch *b, double manifold)
{
	double head = manifold - b->lift_m;

	if (!(head > flow_branch_loss(FLOW_Q_MIN, b)))
		return 0;
	return flow_inverse(flow_branch_loss, b, head, FLOW_Q_MIN, FLOW_Q_MAX);
}
