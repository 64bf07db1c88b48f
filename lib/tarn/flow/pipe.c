/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define DIAMETER_MIN 1e-4
#define DIAMETER_MAX 20

#define IN struct tarn_pipe
static const struct tarn_field pipe_rows[] = {
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1000, TARN_NAN, "flow"),
	TARN_IN_NUMBER(IN, headloss_m, "headloss", "m", 0, 1e5, TARN_NAN,
		       "head lost in friction and fittings"),
	TARN_IN_NUMBER(IN, diameter_m, "diameter", "m", DIAMETER_MIN,
		       DIAMETER_MAX, TARN_NAN, "inside diameter"),
	TARN_IN_REQUIRED(IN, length_m, "length", "m", 0, 1e6, "length"),
	TARN_IN_NUMBER(IN, roughness_m, "roughness", "m", 0, 0.1, TARN_NAN,
		       "sand roughness of the wall"),
	TARN_IN_NUMBER(IN, hazen_williams, "hazen_williams", "-", 10, 200,
		       TARN_NAN, "Hazen-Williams C instead of a roughness"),
	TARN_IN_NUMBER(IN, friction_factor, "friction_factor", "-", 1e-3, 10,
		       TARN_NAN, "fixed Darcy factor instead of a roughness"),
	TARN_IN_VALUE(IN, minor_k, "minor_k", "-", 0, 1e6, 0,
		      "sum of the fittings' loss coefficients"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", TARN_WATER_TEMP_MIN,
		      TARN_WATER_TEMP_MAX, 15, "temperature of the water"),
	TARN_IN_NUMBER(IN, kinematic_m2s, "kinematic", "m2/s", 1e-8, 1,
		       TARN_NAN,
		       "kinematic viscosity, instead of water's at temp"),
};
TARN_FIELDS(tarn_pipe_fields, "pipe", pipe_rows);
TARN_DEFAULT(IN, tarn_pipe_default, tarn_pipe_fields)

static const char *const regimes[] = { "laminar", "transition", "turbulent",
				       NULL };

#define OUT struct tarn_pipe_flow
static const struct tarn_field flow_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow"),
	TARN_OUT_NUMBER(OUT, headloss_m, "headloss", "m", "head lost, in all"),
	TARN_OUT_NUMBER(OUT, diameter_m, "diameter", "m", "inside diameter"),
	TARN_OUT_NUMBER(OUT, velocity_ms, "velocity", "m/s", "mean velocity"),
	TARN_OUT_NUMBER(OUT, friction_m, "friction", "m",
			"head lost in friction"),
	TARN_OUT_NUMBER(OUT, minor_m, "minor", "m", "head lost in fittings"),
	TARN_OUT_NUMBER(OUT, friction_factor, "friction_factor", "-",
			"Darcy's f"),
	TARN_OUT_NUMBER(OUT, reynolds, "reynolds", "-", "Reynolds number"),
	TARN_OUT_CHOICE(OUT, regime, "regime", regimes, "kind of flow"),
	TARN_OUT_NUMBER(OUT, volume_m3, "volume", "m3", "water in the pipe"),
};
TARN_FIELDS(tarn_pipe_flow_fields, "pipe", flow_rows);

struct flow_run tn_flow_run_make(const struct tarn_pipe *pipe, double diameter)
{
	return (struct flow_run){
		.length = pipe->length_m,
		.diameter = diameter,
		.area = FLOW_PI / 4 * diameter * diameter,
		.roughness = pipe->roughness_m / diameter,
		.hazen_williams = pipe->hazen_williams,
		.factor = pipe->friction_factor,
		.minor_k = pipe->minor_k,
		.nu = isnan(pipe->kinematic_m2s)
			? tarn_water(pipe->temp_c).kinematic_m2s
			: pipe->kinematic_m2s,
	};
}

static double velocity_head(const struct flow_run *run, double flow)
{
	double v = flow / run->area;

	return v * v / (2 * TARN_GRAVITY);
}

double tn_flow_run_friction(const struct flow_run *run, double flow)
{
	double f = run->factor;

	if (flow == 0 || run->length == 0)
		return 0;
	if (!isnan(run->hazen_williams))
		return 10.67 * run->length *
		       pow(flow / run->hazen_williams, 1.852) /
		       pow(run->diameter, 4.87);
	/* beyond the charts a solver may pass through, not end */
	if (isnan(f))
		f = tarn_friction_factor(flow * run->diameter /
						 (run->area * run->nu),
					 fmin(run->roughness,
					      TARN_ROUGHNESS_MAX));
	return f * run->length / run->diameter * velocity_head(run, flow);
}

double tn_flow_run_minor(const struct flow_run *run, double flow)
{
	return run->minor_k * velocity_head(run, flow);
}

double tn_flow_run_loss(const struct flow_run *run, double flow)
{
	return tn_flow_run_friction(run, flow) + tn_flow_run_minor(run, flow);
}

void tn_flow_run_report(const struct flow_run *run, double flow,
			struct tarn_pipe_flow *out)
{
	double per_f = velocity_head(run, flow) * run->length / run->diameter;

	out->flow_m3s = flow;
	out->diameter_m = run->diameter;
	out->velocity_ms = flow / run->area;
	out->friction_m = tn_flow_run_friction(run, flow);
	out->minor_m = tn_flow_run_minor(run, flow);
	out->headloss_m = out->friction_m + out->minor_m;
	out->reynolds = out->velocity_ms * run->diameter / run->nu;
	if (!isnan(run->factor))
		out->friction_factor = run->factor;
	else if (isnan(run->hazen_williams))
		out->friction_factor = tarn_friction_factor(out->reynolds,
							    run->roughness);
	else
		out->friction_factor = per_f > 0 ? out->friction_m / per_f
						 : TARN_NAN;
	out->regime = out->reynolds < TARN_REYNOLDS_LAMINAR ? TARN_LAMINAR
		: out->reynolds < TARN_REYNOLDS_TURBULENT ? TARN_TRANSITION
		: TARN_TURBULENT;
	out->volume_m3 = run->area * run->length;
}

/* ---- checks ----------------------------------------------------------- */

static enum tarn_status check_common(const struct tarn_pipe *pipe,
				     struct tarn_error *err)
{
	const double friction[] = { pipe->roughness_m, pipe->hazen_williams,
				    pipe->friction_factor };
	enum tarn_status st = tarn_fields_check(&tarn_pipe_fields, pipe, err);

	if (st == TARN_OK)
		st = tn_flow_need(friction, 3, 1, "pipe", "roughness, "
				  "hazen_williams and friction_factor", err);
	return st;
}

static enum tarn_status check_roughness(const struct flow_run *run,
					struct tarn_error *err)
{
	if (!(run->roughness > TARN_ROUGHNESS_MAX))
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, "pipe.roughness", "is %.3g of the "
			 "diameter of %.4g m; friction formulas end at %g",
			 run->roughness, run->diameter, TARN_ROUGHNESS_MAX);
}

enum tarn_status tn_flow_part_check(const struct tarn_pipe *pipe,
				    struct tarn_error *err)
{
	const double own[] = { pipe->flow_m3s, pipe->headloss_m };
	struct flow_run run;

	if (check_common(pipe, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(pipe->diameter_m))
		return tarn_fail(err, TARN_EARG, "pipe.diameter",
				 "is missing: give the inside diameter in m");
	if (tn_flow_given(own, 2) > 0)
		return tarn_fail(err, TARN_EARG, "pipe", "is part of a whole: "
				 "give flow or headloss of the whole, not of "
				 "the pipe");
	run = tn_flow_run_make(pipe, pipe->diameter_m);
	return check_roughness(&run, err);
}

/* ---- one pipe --------------------------------------------------------- */

static double loss_at_flow(double flow, const void *context)
{
	return tn_flow_run_loss(context, flow);
}

/* Rises with the diameter, as tn_flow_inverse wants it. */
static double inverse_loss_at_diameter(double diameter, const void *context)
{
	const struct tarn_pipe *pipe = context;
	struct flow_run run = tn_flow_run_make(pipe, diameter);

	return 1 / tn_flow_run_loss(&run, pipe->flow_m3s);
}

static double solve_diameter(const struct tarn_pipe *pipe,
			     struct tarn_error *err)
{
	double diameter = tn_flow_inverse(inverse_loss_at_diameter, pipe,
					  1 / pipe->headloss_m, DIAMETER_MIN,
					  DIAMETER_MAX);

	if (isnan(diameter))
		tarn_fail(err, TARN_EARG, "pipe.diameter", "no inside diameter "
			  "from %g to %d m loses %g m at %g m3/s",
			  DIAMETER_MIN, DIAMETER_MAX, pipe->headloss_m,
			  pipe->flow_m3s);
	return diameter;
}

double tn_flow_run_flow(const struct flow_run *run, double headloss)
{
	if (headloss <= tn_flow_run_loss(run, FLOW_Q_MIN))
		return 0;
	return tn_flow_inverse(loss_at_flow, run, headloss, FLOW_Q_MIN,
			       FLOW_Q_MAX);
}

static double solve_flow(const struct flow_run *run, double headloss,
			 struct tarn_error *err)
{
	double flow = tn_flow_run_flow(run, headloss);

	if (isnan(flow))
		tarn_fail(err, TARN_EARG, "pipe.flow", "no flow loses %g m of "
			  "head here: length and minor_k are too small",
			  headloss);
	return flow;
}

enum tarn_status tarn_pipe_solve(const struct tarn_pipe *pipe,
				 struct tarn_pipe_flow *out,
				 struct tarn_error *err)
{
	const double three[] = { pipe->flow_m3s, pipe->headloss_m,
				 pipe->diameter_m };
	double flow = pipe->flow_m3s, diameter = pipe->diameter_m;
	struct flow_run run;

	if (check_common(pipe, err) != TARN_OK ||
	    tn_flow_need(three, 3, 2, "pipe", "flow, headloss and diameter",
			 err) != TARN_OK)
		return TARN_EARG;
	if (isnan(diameter))
		diameter = solve_diameter(pipe, err);
	if (isnan(diameter))
		return TARN_EARG;
	run = tn_flow_run_make(pipe, diameter);
	if (check_roughness(&run, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(flow))
		flow = solve_flow(&run, pipe->headloss_m, err);
	if (isnan(flow))
		return TARN_EARG;
	tn_flow_run_report(&run, flow, out);
	return TARN_OK;
}

double tn_flow_trunk_loss(const struct tarn_network *net, double flow)
{
	double sum = 0;

	for (size_t i = 0; i < net->trunk_count; i++) {
		struct flow_run run = tn_flow_run_make(&net->trunk[i],
						       net->trunk[i].diameter_m);

		sum += tn_flow_run_loss(&run, flow);
	}
	return sum;
}
