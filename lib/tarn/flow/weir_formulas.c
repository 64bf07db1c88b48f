/* SPDX-License-Identifier: MIT */
#include <float.h>

#include "internal.h"
#include "weir.h"

/* A coefficient of ft^0.5/s in m^0.5/s: times sqrt(0.3048). */
#define ROOT_FT 0.5520869496736904

static const double root_2g = 4.428690551393267;	/* sqrt(2 * 9.80665) */

int tn_flow_weir_formula(const struct tarn_weir *w)
{
	static const int by_kind[] = {
		[TARN_WEIR_RECTANGULAR] = TARN_WEIR_FRANCIS,
		[TARN_WEIR_V_NOTCH] = TARN_WEIR_CONSTANT,
		[TARN_WEIR_BROAD] = TARN_WEIR_IDEAL,
		[TARN_WEIR_LIP] = TARN_WEIR_IDEAL,
	};

	return w->formula == TARN_WEIR_DEFAULT ? by_kind[w->kind] : w->formula;
}

/* ---- Francis ---------------------------------------------------------- */

/* Lowell experiments (1855); as USBR Water Measurement Manual ch. 7. */
static double francis(const struct tarn_weir *w, double width, double head)
{
	double c = 3.33 * ROOT_FT * (width - 0.1 * w->contractions * head);
	double area = w->channel_width_m * (w->crest_m + head);
	double flow = c * pow(head, 1.5), last;

	if (isnan(area))
		return flow;
	for (int i = 0; i < 200; i++) {
		double v = flow / area;
		double h0 = v * v / (2 * TARN_GRAVITY);

		last = flow;
		flow = c * (pow(head + h0, 1.5) - pow(h0, 1.5));
		if (fabs(flow - last) <= 4 * DBL_EPSILON * flow)
			return flow;
	}
	return TARN_NAN;	/* the approach is no approach: too small */
}

/* ---- Kindsvater and Carter -------------------------------------------- */

/*
 * Ce = c1 h/P + c2 in ft^0.5/s by L/B: US EPA stormwater reference manual
 * vol. II (2017) table 6-2, after USBR Water Measurement Manual, 3rd ed.
 * kb by L/B after Kindsvater & Carter (1959) fig. 7-4 there, read from
 * memory; its error moves the flow by some 1 mm / L.
 */
static const double kc_ratio[] = { 0.2, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0 };
static const double kc_c1[] = { -0.0087, 0.0317, 0.0612, 0.0995, 0.1602,
				0.2376, 0.3447, 0.4000 };
static const double kc_c2[] = { 3.152, 3.164, 3.173, 3.178, 3.182, 3.189,
				3.205, 3.220 };
static const double kc_kb_mm[] = { 2.4, 2.7, 3.1, 3.6, 4.1, 4.2, 3.7, -0.9 };

static double kindsvater_carter(const struct tarn_weir *w, double width,
				double head)
{
	double ratio = width / w->channel_width_m;
	double c1 = tn_flow_interpolate(kc_ratio, kc_c1, 8, ratio);
	double c2 = tn_flow_interpolate(kc_ratio, kc_c2, 8, ratio);
	double kb = tn_flow_interpolate(kc_ratio, kc_kb_mm, 8, ratio) / 1000;
	double kh = 0.003 * FLOW_FT;

	if (ratio > 1)
		return TARN_NAN;
	return ROOT_FT * (c1 * head / w->crest_m + c2) * (width + kb) *
	       pow(head + kh, 1.5);
}

/* ---- full width ------------------------------------------------------- */

static double full_width(int formula, double ratio, double width, double head)
{
	switch (formula) {
	case TARN_WEIR_REHBOCK:		/* 1929, as Blevins (1984) */
		return 2.0 / 3 * root_2g * (0.602 + 0.0832 * ratio) * width *
		       pow(head + 0.00125, 1.5);
	case TARN_WEIR_ACKERS:		/* Ackers et al. 1978 */
		return 0.564 * (1 + 0.150 * ratio) * width *
		       sqrt(TARN_GRAVITY) * pow(head + 0.001, 1.5);
	case TARN_WEIR_HEAD_RATIO:	/* City of Everett, eq. 6 */
		return ROOT_FT * (3.27 + 0.40 * ratio) * width *
		       pow(head, 1.5);
	default:	/* linear_cd: Cengel & Cimbala, ex. 13-10 */
		return 2.0 / 3 * root_2g * (0.598 + 0.0897 * ratio) * width *
		       pow(head, 1.5);
	}
}

/* ---- notches ---------------------------------------------------------- */

/* 0.584 makes the tables of ASTM D5242 within 0.03 %: 1.443 H^2.5 at 60 deg,
 * 1.035 H^2.5 at 45 deg in feet; 2.49 H^2.48 at 90 deg within 1 %. */
static double notch_constant(double half_tangent, double head)
{
	return 8.0 / 15 * 0.584 * root_2g * half_tangent * pow(head, 2.5);
}

/* Ce and k by angle: fits to the figures of USBR Water Measurement Manual
 * sec. 7-7 (Shen 1981), from memory. */
static double kindsvater_shen(double angle, double half_tangent, double head)
{
	double ce = 0.607165052 + angle * (-0.000874466963 +
					   angle * 6.10393334e-6);
	double k_ft = 0.0144902648 + angle * (-0.00033955535 +
			angle * (3.29819003e-6 - angle * 1.06215442e-8));

	return 8.0 / 15 * ce * root_2g * half_tangent *
	       pow(head + k_ft * FLOW_FT, 2.5);
}

/* ---- broad crests ----------------------------------------------------- */

/* Bos (1989), square-edged block, share of the ideal coefficient by head over
 * breadth; digitised. */
static const double bos_ratio[] = { 0.13, 0.40, 0.62, 1.016 };
static const double bos_share[] = { 0.8485, 0.8497, 0.8809, 0.9624 };

/*
 * Brater & King, ft^0.5/s by head and breadth in ft: US EPA stormwater
 * reference manual vol. II (2017) table 6-3.  From memory: 0.6/2.0, 0.8/3.0,
 * 1.0/1.5.
 */
static const double bk_head[] = { 0.2, 0.4, 0.6, 0.8, 1.0 };
static const double bk_breadth[] = { 0.5, 1.0, 1.5, 2.0, 3.0 };
static const double bk[5][5] = {
	{ 2.80, 2.69, 2.62, 2.54, 2.44 },
	{ 2.92, 2.72, 2.64, 2.61, 2.58 },
	{ 3.08, 2.75, 2.64, 2.61, 2.68 },
	{ 3.30, 2.85, 2.68, 2.60, 2.67 },
	{ 3.32, 2.98, 2.75, 2.66, 2.65 },
};

static double brater_king(double head_ft, double breadth_ft)
{
	double by_head[5];

	for (size_t i = 0; i < 5; i++)
		by_head[i] = tn_flow_interpolate(bk_breadth, bk[i], 5,
						 breadth_ft);
	return tn_flow_interpolate(bk_head, by_head, 5, head_ft);
}

static double broad(const struct tarn_weir *w, int formula, double width,
		    double head)
{
	const double ideal = pow(2.0 / 3, 1.5) * sqrt(TARN_GRAVITY);
	double c = ideal;

	if (formula == TARN_WEIR_BOS)
		c = ideal * tn_flow_interpolate(bos_ratio, bos_share, 4,
						head / w->breadth_m);
	if (formula == TARN_WEIR_BRATER_KING)
		c = ROOT_FT * brater_king(head / FLOW_FT,
					  w->breadth_m / FLOW_FT);
	return c * width * pow(head, 1.5);
}

/* ---- the choice ------------------------------------------------------- */

double tarn_weir_submergence(double head_ratio, double exponent)
{
	if (!(head_ratio >= 0 && head_ratio < 1 && exponent > 0))
		return TARN_NAN;
	return pow(1 - pow(head_ratio, exponent), 0.385);
}

static double free_flow(const struct tarn_weir *w, double width, double head)
{
	double t = tan(w->angle_deg * FLOW_PI / 360);
	int formula = tn_flow_weir_formula(w);

	if (!isnan(w->coefficient))
		return w->kind == TARN_WEIR_V_NOTCH
			? w->coefficient * t * pow(head, 2.5)
			: w->coefficient * pow(head, 1.5) *
				  (width - 0.1 * w->contractions * head);
	switch (formula) {
	case TARN_WEIR_FRANCIS:
		return francis(w, width, head);
	case TARN_WEIR_KINDSVATER_CARTER:
		return kindsvater_carter(w, width, head);
	case TARN_WEIR_CONSTANT:
		return notch_constant(t, head);
	case TARN_WEIR_KINDSVATER_SHEN:
		return kindsvater_shen(w->angle_deg, t, head);
	case TARN_WEIR_IDEAL:
	case TARN_WEIR_BOS:
	case TARN_WEIR_BRATER_KING:
		return broad(w, formula, width, head);
	default:
		return full_width(formula, head / w->crest_m, width, head);
	}
}

double tn_flow_weir_flow(const struct tarn_weir *w, double width, double head)
{
	double exponent = w->kind == TARN_WEIR_V_NOTCH ? 2.5 : 1.5;

	if (head == 0 || head <= w->downstream_head_m)
		return 0;
	if (w->contractions > 0 && head > width)
		return TARN_NAN;
	return free_flow(w, width, head) *
	       tarn_weir_submergence(w->downstream_head_m / head, exponent);
}

/* ---- tested ranges ---------------------------------------------------- */

static const char *sharp_note(const struct tarn_weir *w, int formula,
			      double width, double head)
{
	double ratio = head / w->crest_m;

	if (head < 0.03)
		return "head under 30 mm: the sheet may cling to the crest and "
		       "surface tension counts; untested";
	if (formula == TARN_WEIR_FRANCIS && w->contractions > 0 &&
	    head > width / 3)
		return "head over a third of the width: outside Francis' "
		       "experiments";
	if (formula == TARN_WEIR_KINDSVATER_CARTER &&
	    (ratio > 2 || width < 0.15 || w->crest_m < 0.1 ||
	     width < 0.2 * w->channel_width_m))
		return "outside Kindsvater and Carter: head / crest up to 2, "
		       "width 0.15 m or more, crest 0.1 m or more, width / "
		       "channel_width 0.2 or more";
	if (formula == TARN_WEIR_REHBOCK &&
	    (head > 0.75 || width < 0.3 || w->crest_m < 0.3 || ratio > 1))
		return "outside Rehbock: head 0.03 to 0.75 m, width and crest "
		       "over 0.3 m, head / crest under 1";
	if (formula >= TARN_WEIR_ACKERS && formula <= TARN_WEIR_LINEAR_CD &&
	    ratio > 2)
		return "head / crest over 2: outside the formula";
	return NULL;
}

static const char *broad_note(const struct tarn_weir *w, int formula,
			      double head)
{
	double ratio = head / w->breadth_m, ft = head / FLOW_FT;
	double breadth_ft = w->breadth_m / FLOW_FT;

	if (formula == TARN_WEIR_IDEAL && ratio > 0.33)
		return "head over a third of the breadth: not a broad crest; "
		       "more flow passes";
	if (formula == TARN_WEIR_IDEAL && ratio < 0.08)
		return "head under 8 % of the breadth: friction on the crest "
		       "counts; less flow passes";
	if (formula == TARN_WEIR_BOS && (ratio < 0.08 || ratio > 1.016))
		return "outside the table: head / breadth 0.08 to 1.016; its "
		       "end value was taken";
	if (formula == TARN_WEIR_BRATER_KING &&
	    (ft < 0.2 || ft > 1 || breadth_ft < 0.5 || breadth_ft > 3))
		return "outside the table: head 0.061 to 0.305 m, breadth "
		       "0.152 to 0.914 m; its end value was taken";
	return NULL;
}

const char *tn_flow_weir_note(const struct tarn_weir *w, double width,
			      double head)
{
	int formula = tn_flow_weir_formula(w);

	if (!isnan(w->coefficient) || head == 0)
		return NULL;
	if (w->kind == TARN_WEIR_RECTANGULAR)
		return sharp_note(w, formula, width, head);
	if (w->kind == TARN_WEIR_BROAD)
		return broad_note(w, formula, head);
	if (head < 0.06)
		return "head under 60 mm: outside the tests of notches";
	if (formula == TARN_WEIR_KINDSVATER_SHEN &&
	    (w->angle_deg < 25 || w->angle_deg > 100))
		return "angle outside 25 to 100 degrees";
	return NULL;
}
