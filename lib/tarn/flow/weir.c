/* SPDX-License-Identifier: MIT */
#include "internal.h"
#include "weir.h"

static const char *const kinds[] = { "rectangular", "v_notch", "broad", "lip",
				     NULL };
static const char *const formulas[] = {
	"default", "francis", "kindsvater_carter", "rehbock", "ackers",
	"head_ratio", "linear_cd", "constant", "kindsvater_shen", "ideal", "bos",
	"brater_king", NULL };

#define IN struct tarn_weir
static const struct tarn_field rows[] = {
	TARN_IN_CHOICE(IN, kind, "kind", kinds, TARN_WEIR_RECTANGULAR,
		       "kind of crest"),
	TARN_IN_CHOICE(IN, formula, "formula", formulas, TARN_WEIR_DEFAULT,
		       "which published formula"),
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1000, TARN_NAN, "flow"),
	TARN_IN_NUMBER(IN, head_m, "head", "m", 0, 50, TARN_NAN,
		       "still water above the crest, upstream"),
	TARN_IN_NUMBER(IN, lip_depth_m, "lip_depth", "m", 0, 50, TARN_NAN,
		       "moving water on the crest"),
	TARN_IN_NUMBER(IN, width_m, "width", "m", 1e-3, 1e4, TARN_NAN,
		       "crest across the flow"),
	TARN_IN_VALUE(IN, contractions, "contractions", "-", 0, 2, 0,
		      "contracted ends"),
	TARN_IN_NUMBER(IN, angle_deg, "angle_deg", "deg", 10, 150, TARN_NAN,
		       "angle of the notch"),
	TARN_IN_NUMBER(IN, crest_m, "crest", "m", 0, 100, TARN_NAN,
		       "crest above the approach's floor"),
	TARN_IN_NUMBER(IN, channel_width_m, "channel_width", "m", 1e-3, 1e4,
		       TARN_NAN, "width of the approach"),
	TARN_IN_NUMBER(IN, breadth_m, "breadth", "m", 1e-3, 100, TARN_NAN,
		       "broad crest along the flow"),
	TARN_IN_NUMBER(IN, coefficient, "coefficient", "m^0.5/s", 0.3, 4,
		       TARN_NAN, "C of C L H^1.5, instead of a formula"),
	TARN_IN_VALUE(IN, downstream_head_m, "downstream_head", "m", 0, 50, 0,
		      "water behind, above the crest"),
	TARN_IN_NUMBER(IN, drop_m, "drop", "m", 0, 100, TARN_NAN,
		       "free fall below the crest"),
};
TARN_FIELDS(tarn_weir_fields, "weir", rows);
TARN_DEFAULT(IN, tarn_weir_default, tarn_weir_fields)

static const char *const looks[] = { "thin film", "sheet", "heavy", NULL };

#define OUT struct tarn_weir_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow"),
	TARN_OUT_NUMBER(OUT, width_m, "width", "m", "crest across the flow"),
	TARN_OUT_NUMBER(OUT, head_m, "head", "m",
			"still water above the crest, upstream"),
	TARN_OUT_NUMBER(OUT, lip_depth_m, "lip_depth", "m",
			"moving water on the crest"),
	TARN_OUT_NUMBER(OUT, critical_depth_m, "critical_depth", "m",
			"critical depth"),
	TARN_OUT_NUMBER(OUT, flow_per_width_m2s, "flow_per_width", "m2/s",
			"flow / width"),
	TARN_OUT_NUMBER(OUT, coefficient, "coefficient", "m^0.5/s",
			"C of C L H^1.5"),
	TARN_OUT_NUMBER(OUT, lip_velocity_ms, "lip_velocity", "m/s",
			"speed on the crest"),
	TARN_OUT_NUMBER(OUT, approach_velocity_ms, "approach_velocity", "m/s",
			"mean speed of the approach"),
	TARN_OUT_CHOICE(OUT, look, "look", looks, "look of the sheet"),
	TARN_OUT_NUMBER(OUT, throw_m, "throw", "m",
			"where the sheet's face lands"),
	TARN_OUT_NUMBER(OUT, throw_back_m, "throw_back", "m",
			"where its back lands"),
	TARN_OUT_NUMBER(OUT, impact_ms, "impact", "m/s", "speed at landing"),
	TARN_OUT_STRING(OUT, note, "note",
			"what is outside the tests of its formula"),
};
TARN_FIELDS(tarn_weir_flow_fields, "weir", result_rows);

/* ---- checks ----------------------------------------------------------- */

static enum tarn_status check_formula(const struct tarn_weir *w,
				      struct tarn_error *err)
{
	int f = tn_flow_weir_formula(w);
	int kind = f <= TARN_WEIR_LINEAR_CD ? TARN_WEIR_RECTANGULAR
		: f <= TARN_WEIR_KINDSVATER_SHEN ? TARN_WEIR_V_NOTCH
		: TARN_WEIR_BROAD;

	if (!isnan(w->coefficient)) {
		if (w->formula == TARN_WEIR_DEFAULT)
			return TARN_OK;
		return tarn_fail(err, TARN_EARG, "weir.coefficient", "is given "
				 "beside a formula: give one of them");
	}
	if (w->kind == TARN_WEIR_LIP)
		return tarn_fail(err, TARN_EARG, "weir.coefficient", "is "
				 "missing: a lip needs it, some 1.3 to 1.8 "
				 "m^0.5/s (2.4 to 3.3 in feet)");
	if (kind != w->kind)
		return tarn_fail(err, TARN_EARG, "weir.formula", "'%s' is for "
				 "the kind '%s'", formulas[f], kinds[kind]);
	if (f >= TARN_WEIR_KINDSVATER_CARTER && f <= TARN_WEIR_LINEAR_CD &&
	    !(w->crest_m > 0))
		return tarn_fail(err, TARN_EARG, "weir.crest", "is missing: "
				 "'%s' needs the crest's height above the "
				 "approach's floor", formulas[f]);
	if (f == TARN_WEIR_KINDSVATER_CARTER && isnan(w->channel_width_m))
		return tarn_fail(err, TARN_EARG, "weir.channel_width",
				 "is missing: '%s' needs it", formulas[f]);
	if (f >= TARN_WEIR_BOS && isnan(w->breadth_m))
		return tarn_fail(err, TARN_EARG, "weir.breadth", "is missing: "
				 "'%s' needs the crest's length along the "
				 "flow", formulas[f]);
	if (f != TARN_WEIR_FRANCIS && w->contractions > 0)
		return tarn_fail(err, TARN_EARG, "weir.contractions", "cannot "
				 "be used with '%s'", formulas[f]);
	return TARN_OK;
}

static enum tarn_status check_notch(const struct tarn_weir *w,
				    struct tarn_error *err)
{
	const double two[] = { w->flow_m3s, w->head_m };

	if (isnan(w->angle_deg))
		return tarn_fail(err, TARN_EARG, "weir.angle_deg",
				 "is missing: a v_notch needs it");
	if (!isnan(w->width_m) || !isnan(w->lip_depth_m))
		return tarn_fail(err, TARN_EARG, "weir", "a v_notch takes "
				 "angle_deg and head, no width or lip_depth");
	return tn_flow_need(two, 2, 1, "weir", "flow and head", err);
}

static enum tarn_status check_crest(const struct tarn_weir *w,
				    struct tarn_error *err)
{
	const double depth[] = { w->head_m, w->lip_depth_m };
	const double three[] = { w->flow_m3s, w->width_m,
				 isnan(w->head_m) ? w->lip_depth_m
						  : w->head_m };

	if (tn_flow_given(depth, 2) == 2)
		return tarn_fail(err, TARN_EARG, "weir.lip_depth", "is given "
				 "beside head: give one of them");
	if (isnan(w->width_m) && (three[0] == 0 || three[2] == 0))
		return tarn_fail(err, TARN_EARG, "weir", "flow and head must "
				 "be above zero to find a width");
	if (!isnan(w->angle_deg))
		return tarn_fail(err, TARN_EARG, "weir.angle_deg",
				 "is for a v_notch only");
	if (w->width_m > w->channel_width_m)
		return tarn_fail(err, TARN_EARG, "weir.width", "must not be "
				 "more than channel_width, got %g and %g",
				 w->width_m, w->channel_width_m);
	return tn_flow_need(three, 3, 2, "weir", "flow, width and head (or "
			    "lip_depth)", err);
}

static enum tarn_status check(const struct tarn_weir *w,
			      struct tarn_error *err)
{
	if (tarn_fields_check(&tarn_weir_fields, w, err) != TARN_OK ||
	    check_formula(w, err) != TARN_OK)
		return TARN_EARG;
	if (w->head_m < w->downstream_head_m)
		return tarn_fail(err, TARN_EARG, "weir.downstream_head", "must "
				 "not be above head, got %g and %g",
				 w->downstream_head_m, w->head_m);
	return w->kind == TARN_WEIR_V_NOTCH ? check_notch(w, err)
					    : check_crest(w, err);
}

/* ---- solving ---------------------------------------------------------- */

struct at_width {
	const struct tarn_weir *weir;
	double width, head;
};

static double flow_by_head(double head, const void *context)
{
	const struct at_width *at = context;

	return tn_flow_weir_flow(at->weir, at->width, head);
}

static double flow_by_width(double width, const void *context)
{
	const struct at_width *at = context;

	return fmax(tn_flow_weir_flow(at->weir, width, at->head), 0);
}

static double find_head(const struct tarn_weir *w, double width, double flow,
			struct tarn_error *err)
{
	const struct at_width at = { w, width, TARN_NAN };
	double lo = fmax(1e-8, w->downstream_head_m * (1 + 1e-12));
	double hi = w->contractions > 0 ? width : 100, head;

	if (flow == 0)
		return w->downstream_head_m;
	head = tn_flow_inverse(flow_by_head, &at, flow, lo, hi);
	if (isnan(head))
		tarn_fail(err, TARN_EARG, "weir.flow", "no head up to %.3g m "
			  "passes %g m3/s: the crest is too narrow", hi, flow);
	return head;
}

static double find_width(const struct tarn_weir *w, double flow, double head,
			 struct tarn_error *err)
{
	const struct at_width at = { w, TARN_NAN, head };
	double hi = isnan(w->channel_width_m) ? 1e4 : w->channel_width_m;
	double width = tn_flow_inverse(flow_by_width, &at, flow, 1e-3, hi);

	if (isnan(width))
		tarn_fail(err, TARN_EARG, "weir.width", "no width from 1 mm to "
			  "%g m passes %g m3/s at a head of %g m", hi, flow,
			  head);
	return width;
}

/* Flow per width whose depth on a flat lip is this: 0.715 critical depth. */
static double flow_of_flat_lip(double lip_depth)
{
	return sqrt(TARN_GRAVITY) * pow(lip_depth / FLOW_BRINK, 1.5);
}

static double lip_depth(const struct tarn_weir *w, double head,
			double critical_depth)
{
	if (w->kind == TARN_WEIR_V_NOTCH)
		return TARN_NAN;
	return w->kind == TARN_WEIR_RECTANGULAR ? FLOW_SHARP_LIP * head
						: FLOW_BRINK * critical_depth;
}

static void report(const struct tarn_weir *w, double width, double flow,
		   double head, struct tarn_weir_flow *out)
{
	double area = w->channel_width_m * (w->crest_m + head);
	int notch = w->kind == TARN_WEIR_V_NOTCH;

	out->flow_m3s = flow;
	out->width_m = width;
	out->head_m = head;
	out->flow_per_width_m2s = flow / width;
	out->critical_depth_m = cbrt(out->flow_per_width_m2s *
				     out->flow_per_width_m2s / TARN_GRAVITY);
	out->lip_depth_m = lip_depth(w, head, out->critical_depth_m);
	out->lip_velocity_ms = out->flow_per_width_m2s / out->lip_depth_m;
	out->coefficient = notch
		? flow / (tan(w->angle_deg * FLOW_PI / 360) * pow(head, 2.5))
		: flow / (width * pow(head, 1.5));
	out->approach_velocity_ms = flow / area;
	out->look = tn_fall_look(out->flow_per_width_m2s);
	out->throw_m = tn_fall_throw_m(out->lip_velocity_ms,
				       w->drop_m + out->lip_depth_m);
	out->throw_back_m = tn_fall_throw_m(out->lip_velocity_ms, w->drop_m);
	out->impact_ms = sqrt(out->lip_velocity_ms * out->lip_velocity_ms +
			      2 * TARN_GRAVITY * w->drop_m);
	out->note = tn_flow_weir_note(w, width, head);
}

enum tarn_status tarn_weir_solve(const struct tarn_weir *weir,
				 struct tarn_weir_flow *out,
				 struct tarn_error *err)
{
	double width = weir->width_m, flow = weir->flow_m3s;
	double head = weir->head_m, lip = weir->lip_depth_m;

	if (check(weir, err) != TARN_OK)
		return TARN_EARG;
	if (!isnan(lip) && weir->kind == TARN_WEIR_RECTANGULAR)
		head = lip / FLOW_SHARP_LIP;
	else if (!isnan(lip) && isnan(flow))
		flow = flow_of_flat_lip(lip) * width;
	else if (!isnan(lip))
		width = flow / flow_of_flat_lip(lip);
	if (isnan(flow)) {
		flow = tn_flow_weir_flow(weir, width, head);
		if (isnan(flow))
			return tarn_fail(err, TARN_EARG, "weir.head", "%g m is "
					 "too much for this crest", head);
	} else if (isnan(head)) {
		head = find_head(weir, width, flow, err);
	} else {
		width = find_width(weir, flow, head, err);
	}
	if (isnan(head) || (isnan(width) && weir->kind != TARN_WEIR_V_NOTCH))
		return TARN_EARG;
	report(weir, width, flow, head, out);
	return TARN_OK;
}
