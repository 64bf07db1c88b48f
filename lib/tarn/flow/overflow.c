/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_overflow
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1000, TARN_NAN,
		       "flow to pass"),
	TARN_IN_NUMBER(IN, level_m, "level", "m", -1000, 1e4, TARN_NAN,
		       "level of the pond"),
	TARN_IN_VALUE(IN, lip_level_m, "lip_level", "m", -1000, 1e4, 0,
		      "crest of the lip"),
	TARN_IN_NUMBER(IN, lip_width_m, "lip_width", "m", 1e-3, 1e4, TARN_NAN,
		       "width of the lip"),
	TARN_IN_VALUE(IN, lip_coefficient, "lip_coefficient", "m^0.5/s", 0.3, 4,
		      1.705, "C of C L H^1.5"),
	TARN_IN_VALUE(IN, standpipe_level_m, "standpipe_level", "m", -1000, 1e4,
		      0, "rim of the standpipe"),
	TARN_IN_NUMBER(IN, standpipe_diameter_m, "standpipe_diameter", "m",
		       1e-3, 10, TARN_NAN, "inside diameter of the standpipe"),
	TARN_IN_VALUE(IN, weir_coefficient, "weir_coefficient", "m^0.5/s", 0.3,
		      4, 1.838, "C at the standpipe's rim"),
	TARN_IN_VALUE(IN, cd, "cd", "-", 0.1, 1, 0.6,
		      "discharge coefficient of orifices"),
	TARN_IN_VALUE(IN, fill, "fill", "-", 0.01, 1, 7.0 / 24,
		      "share of the stack that is water"),
	TARN_IN_NUMBER(IN, drain_length_m, "drain_length", "m", 0, 1e4,
		       TARN_NAN, "pipe from rim to outlet"),
	TARN_IN_NUMBER(IN, drain_fall_m, "drain_fall", "m", 0, 1000, TARN_NAN,
		       "rim above the outlet"),
	TARN_IN_VALUE(IN, drain_roughness_m, "drain_roughness", "m", 0, 0.01,
		      1.5e-6, "sand roughness of the drain"),
	TARN_IN_VALUE(IN, drain_minor_k, "drain_minor_k", "-", 0, 1000, 1.5,
		      "fittings of the drain"),
	TARN_IN_VALUE(IN, side_level_m, "side_level", "m", -1000, 1e4, 0,
		      "invert of the side pipe"),
	TARN_IN_NUMBER(IN, side_diameter_m, "side_diameter", "m", 1e-3, 10,
		       TARN_NAN, "inside diameter of the side pipe"),
	TARN_IN_VALUE(IN, clogging, "clogging", "-", 0, 0.95, 0,
		      "share of the openings that debris takes"),
};
TARN_FIELDS(tarn_overflow_fields, "overflow", rows);
TARN_DEFAULT(IN, tarn_overflow_default, tarn_overflow_fields)

static const char *const limits[] = { "nothing", "weir", "orifice", "stack",
				      "drain", "inlet", NULL };

#define OUT struct tarn_overflow_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "of all openings"),
	TARN_OUT_NUMBER(OUT, level_m, "level", "m", "level of the pond"),
	TARN_OUT_NUMBER(OUT, head_m, "head", "m",
			"level above the lowest opening"),
	TARN_OUT_NUMBER(OUT, lip_m3s, "lip_flow", "m3/s", "over the lip"),
	TARN_OUT_NUMBER(OUT, standpipe_m3s, "standpipe_flow", "m3/s",
			"through the standpipe"),
	TARN_OUT_NUMBER(OUT, side_m3s, "side_flow", "m3/s",
			"through the side pipe"),
	TARN_OUT_CHOICE(OUT, governs, "governs", limits,
			"what limits the standpipe"),
	TARN_OUT_CHOICE(OUT, side_governs, "side_governs", limits,
			"what limits the side pipe"),
	TARN_OUT_NUMBER(OUT, weir_m3s, "weir_capacity", "m3/s",
			"of the standpipe's rim"),
	TARN_OUT_NUMBER(OUT, orifice_m3s, "orifice_capacity", "m3/s",
			"of its opening"),
	TARN_OUT_NUMBER(OUT, stack_m3s, "stack_capacity", "m3/s",
			"of its stack"),
	TARN_OUT_NUMBER(OUT, drain_m3s, "drain_capacity", "m3/s",
			"of its full drain"),
	TARN_OUT_NUMBER(OUT, transition_m, "transition_head", "m",
			"where its weir becomes an orifice"),
};
TARN_FIELDS(tarn_overflow_flow_fields, "overflow", result_rows);

double tarn_rational_m3s(double coefficient, double intensity_mm_h,
			 double area_m2)
{
	if (!(coefficient >= 0 && coefficient <= 1 && intensity_mm_h >= 0 &&
	      area_m2 >= 0))
		return TARN_NAN;
	return coefficient * intensity_mm_h / 3.6e6 * area_m2;
}

double tarn_peak_m3s(const struct tarn_catchment *catchments, size_t count,
		     double intensity_mm_h)
{
	double sum = 0;

	for (size_t i = 0; i < count; i++)
		sum += tarn_rational_m3s(catchments[i].coefficient,
					 intensity_mm_h,
					 catchments[i].area_m2);
	return sum;
}

double tarn_stack_m3s(double diameter_m, double fill)
{
	const double gpm = 3.785411784e-3 / 60;

	if (!(diameter_m >= 0 && fill > 0 && fill <= 1))
		return TARN_NAN;
	return 27.8 * gpm * pow(fill, 5.0 / 3) *
	       pow(diameter_m / 0.0254, 8.0 / 3);
}

/* ---- standpipe -------------------------------------------------------- */

static double drain_flow(const struct tarn_overflow *o, double head)
{
	struct tarn_pipe pipe = tarn_pipe_default();
	struct flow_run run;

	if (isnan(o->drain_length_m) || isnan(o->drain_fall_m))
		return TARN_NAN;
	pipe.length_m = o->drain_length_m;
	pipe.roughness_m = o->drain_roughness_m;
	pipe.minor_k = o->drain_minor_k;
	run = tn_flow_run_make(&pipe, o->standpipe_diameter_m);
	return tn_flow_run_flow(&run, head + o->drain_fall_m);
}

static void standpipe(const struct tarn_overflow *o, double head,
		      struct tarn_overflow_flow *out)
{
	double d = o->standpipe_diameter_m, open = 1 - o->clogging;
	double rim = o->weir_coefficient * FLOW_PI * d;
	double hole = o->cd * FLOW_PI / 4 * d * d * sqrt(2 * TARN_GRAVITY);

	if (isnan(d))
		return;
	out->transition_m = hole / rim;
	out->stack_m3s = tarn_stack_m3s(d, o->fill);
	out->weir_m3s = head > 0 ? open * rim * pow(head, 1.5) : 0;
	out->orifice_m3s = head > 0 ? open * hole * sqrt(head) : 0;
	out->drain_m3s = drain_flow(o, fmax(head, 0));
	out->standpipe_m3s = 0;
	if (!(head > 0))
		return;
	out->standpipe_m3s = out->weir_m3s;
	out->governs = TARN_BY_WEIR;
	if (out->orifice_m3s < out->standpipe_m3s) {
		out->standpipe_m3s = out->orifice_m3s;
		out->governs = TARN_BY_ORIFICE;
	}
	if (out->stack_m3s < out->standpipe_m3s) {
		out->standpipe_m3s = out->stack_m3s;
		out->governs = TARN_BY_STACK;
	}
	if (out->drain_m3s < out->standpipe_m3s) {
		out->standpipe_m3s = out->drain_m3s;
		out->governs = TARN_BY_DRAIN;
	}
}

/* ---- side pipe -------------------------------------------------------- */

/* Head over the invert that critical depth at the inlet asks for: depth and
 * one and a half velocity heads, of A/2T each. */
static double inlet_head(const struct tarn_channel *pipe, double depth)
{
	struct tarn_section s = tn_section_at(pipe, depth);

	return depth + 1.5 * s.area_m2 / (2 * s.top_width_m);
}

struct inlet {
	struct tarn_channel pipe;
	double head;
};

static double inlet_excess(double depth, const void *context)
{
	const struct inlet *in = context;

	return inlet_head(&in->pipe, depth) - in->head;
}

static double inlet_flow(double diameter, double head)
{
	struct inlet in = { tarn_channel_default(), head };
	struct tarn_section s;
	double depth;

	in.pipe.diameter_m = diameter;
	/* the head grows without bound as the pipe fills */
	depth = tn_flow_root(inlet_excess, &in, 1e-9 * diameter,
			     diameter * (1 - 1e-9));
	if (isnan(depth))
		return head < diameter ? 0 : HUGE_VAL;
	s = tn_section_at(&in.pipe, depth);
	return s.area_m2 * sqrt(TARN_GRAVITY * s.area_m2 / s.top_width_m);
}

static void side_pipe(const struct tarn_overflow *o, double head,
		      struct tarn_overflow_flow *out)
{
	double d = o->side_diameter_m, centre = head - d / 2, orifice;

	if (isnan(d))
		return;
	out->side_m3s = 0;
	if (!(head > 0))
		return;
	out->side_m3s = inlet_flow(d, head);
	out->side_governs = TARN_BY_INLET;
	orifice = o->cd * FLOW_PI / 4 * d * d *
		  sqrt(2 * TARN_GRAVITY * fmax(centre, 0));
	if (head > d && orifice < out->side_m3s) {
		out->side_m3s = orifice;
		out->side_governs = TARN_BY_ORIFICE;
	}
	out->side_m3s *= 1 - o->clogging;
}

/* ---- all openings ----------------------------------------------------- */

static double lowest_opening(const struct tarn_overflow *o)
{
	double lowest = TARN_NAN;

	if (!isnan(o->lip_width_m))
		lowest = fmin(lowest, o->lip_level_m);
	if (!isnan(o->standpipe_diameter_m))
		lowest = fmin(lowest, o->standpipe_level_m);
	if (!isnan(o->side_diameter_m))
		lowest = fmin(lowest, o->side_level_m);
	return lowest;
}

void tn_flow_overflow_at(const struct tarn_overflow *o, double level,
			 struct tarn_overflow_flow *out)
{
	const double none = TARN_NAN;
	double lip = level - o->lip_level_m;

	*out = (struct tarn_overflow_flow){
		.level_m = level, .head_m = level - lowest_opening(o),
		.lip_m3s = none, .standpipe_m3s = none, .side_m3s = none,
		.weir_m3s = none, .orifice_m3s = none, .stack_m3s = none,
		.drain_m3s = none, .transition_m = none,
	};
	standpipe(o, level - o->standpipe_level_m, out);
	side_pipe(o, level - o->side_level_m, out);
	if (!isnan(o->lip_width_m))
		out->lip_m3s = lip > 0 ? (1 - o->clogging) *
					 o->lip_coefficient * o->lip_width_m *
					 pow(lip, 1.5) : 0;
	/* fmax takes an opening that is not there as none */
	out->flow_m3s = fmax(out->lip_m3s, 0) + fmax(out->standpipe_m3s, 0) +
			fmax(out->side_m3s, 0);
}

enum tarn_status tn_flow_overflow_check(const struct tarn_overflow *o,
					struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_overflow_fields, o, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(lowest_opening(o)))
		return tarn_fail(err, TARN_EARG, "overflow", "has no opening: "
				 "give lip_width, standpipe_diameter or "
				 "side_diameter");
	if (isnan(o->drain_length_m) != isnan(o->drain_fall_m))
		return tarn_fail(err, TARN_EARG, "overflow.drain_length",
				 "and drain_fall go together");
	if (!isnan(o->standpipe_diameter_m) &&
	    o->drain_roughness_m > TARN_ROUGHNESS_MAX * o->standpipe_diameter_m)
		return tarn_fail(err, TARN_EARG, "overflow.drain_roughness",
				 "is over %g of the diameter",
				 TARN_ROUGHNESS_MAX);
	return TARN_OK;
}

static double flow_at_head(double head, const void *context)
{
	const struct tarn_overflow *o = context;
	struct tarn_overflow_flow out;

	tn_flow_overflow_at(o, lowest_opening(o) + head, &out);
	return out.flow_m3s;
}

enum tarn_status tarn_overflow_solve(const struct tarn_overflow *overflow,
				     struct tarn_overflow_flow *out,
				     struct tarn_error *err)
{
	const double two[] = { overflow->flow_m3s, overflow->level_m };
	double level = overflow->level_m, head = 0;

	if (tn_flow_overflow_check(overflow, err) != TARN_OK ||
	    tn_flow_need(two, 2, 1, "overflow", "flow and level",
			 err) != TARN_OK)
		return TARN_EARG;
	if (isnan(level)) {
		if (overflow->flow_m3s > 0)
			head = tn_flow_inverse(flow_at_head, overflow,
					       overflow->flow_m3s, 1e-9, 10);
		if (isnan(head))
			return tarn_fail(err, TARN_EARG, "overflow.flow", "%g "
					 "m3/s does not pass under a head of "
					 "10 m (a stack takes what its fill "
					 "allows, whatever the head)",
					 overflow->flow_m3s);
		level = lowest_opening(overflow) + head;
	}
	tn_flow_overflow_at(overflow, level, out);
	return TARN_OK;
}
