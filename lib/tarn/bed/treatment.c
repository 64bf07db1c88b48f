/* SPDX-License-Identifier: MIT */
#include <stddef.h>
#include <stdio.h>

#include "rows.h"
#include "constants.h"
#include "judge.h"
#include "firstorder.h"

#define SERIES_MAX 100000	/* that are reckoned one by one */

#define IN struct tarn_treatment
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, flow_m3s, "flow", "m3/s", 1e-8, 10,
			 "flow into the bed"),
	TARN_IN_NUMBER(IN, area_m2, "area", "m2", 1e-3, 1e7, TARN_NAN,
		       "plan area of the bed"),
	TARN_IN_REQUIRED(IN, inlet_mgl, "inlet", "mg/L", 0, 1e6,
			 "concentration in"),
	TARN_IN_NUMBER(IN, target_mgl, "target", "mg/L", 0, 1e6, TARN_NAN,
		       "concentration wanted at the outlet"),
	TARN_IN_VALUE(IN, background_mgl, "background", "mg/L", 0, 1e6, 0,
		      "C*, below which no bed gets it"),
	TARN_IN_NUMBER(IN, k_m_yr, "k_m_yr", "m/yr", 0, 1e6, TARN_NAN,
		       "areal removal rate at 20 deg C"),
	TARN_IN_NUMBER(IN, k_per_day, "k_per_day", "1/d", 0, 1e3, TARN_NAN,
		       "volumetric rate at 20 deg C, with depth and porosity"),
	TARN_IN_NUMBER(IN, depth_m, "depth", "m", 0.01, 10, TARN_NAN,
		       "wet depth of the bed"),
	TARN_IN_NUMBER(IN, porosity, "porosity", "-", 0.05, 0.95, TARN_NAN,
		       "voids of the bed"),
	TARN_IN_VALUE(IN, theta, "theta", "-", 0.8, 1.4, 1,
		      "temperature factor of the rate per deg C"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", 0, 40, 20,
		      "temperature of the water"),
	{ TARN_NUMBER(IN, tanks_in_series, "tanks_in_series", "-", 1, HUGE_VAL,
		      HUGE_VAL,
		      "equal mixed tanks in series; infinity is plug flow"),
	  .required = 1, .was = "tanks" },
	TARN_IN_VALUE(IN, rain_mm_d, "rain", "mm/d", 0, 1000, 0,
		      "rain on the bed"),
	TARN_IN_VALUE(IN, et_mm_d, "et", "mm/d", 0, 100, 0,
		      "evapotranspiration"),
	TARN_IN_VALUE(IN, rain_mgl, "rain_concentration", "mg/L", 0, 1e6, 0,
		      "concentration in rain"),
	TARN_IN_NUMBER(IN, k_low_m_d, "k_low", "m/d", 0, 1e4, TARN_NAN,
		       "least loading at which the rate was measured"),
	TARN_IN_NUMBER(IN, k_high_m_d, "k_high", "m/d", 1e-6, 1e4, TARN_NAN,
		       "highest loading at which the rate was measured"),
};

TARN_FIELDS(tarn_treatment_fields, "treatment", rows);
TARN_DEFAULT(IN, tarn_treatment_default, tarn_treatment_fields)

#define OUT struct tarn_treatment_result
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, area_m2, "area", "m2", "plan area of the bed"),
	TARN_OUT_NUMBER(OUT, loading_m_d, "loading", "m/d",
			"surface loading at the inlet"),
	TARN_OUT_NUMBER(OUT, outlet_mgl, "outlet", "mg/L",
			"concentration at the outlet"),
	TARN_OUT_NUMBER(OUT, outflow_m3s, "outflow", "m3/s",
			"flow at the outlet"),
	TARN_OUT_NUMBER(OUT, k_m_d, "k_m_d", "m/d",
			"removal rate at the temperature of the water"),
	TARN_OUT_NUMBER(OUT, limit_mgl, "limit", "mg/L",
			"concentration that an endless bed reaches"),
	TARN_OUT_NUMBER(OUT, removal, "removal", "-",
			"part of the concentration removed"),
	TARN_OUT_NUMBER(OUT, removed_g_d, "removed_g", "g/d", "mass removed"),
	TARN_OUT_NUMBER(OUT, extrapolation, "extrapolation", "-",
			"loading over that at which the rate was measured"),
	BED_FLAG_ROWS(OUT),
};

TARN_FIELDS(tarn_treatment_result_fields, "treatment", result_rows);

/* Terms of Q dC/dA = source - (k + alpha) C, all in m/d. */
struct terms {
	double flow;		/* m3/d */
	double k, alpha;
	double source;		/* m/d mg/L */
};

static enum tarn_status areal_rate(const struct tarn_treatment *t, double *k,
				   struct tarn_error *err)
{
	if (isnan(t->k_m_yr) == isnan(t->k_per_day))
		return tarn_fail(err, TARN_EARG, "treatment.k_m_yr",
				 "or k_per_day is needed, one of the two");
	*k = t->k_m_yr;
	if (!isnan(t->k_m_yr))
		return TARN_OK;
	if (isnan(t->depth_m) || isnan(t->porosity))
		return tarn_fail(err, TARN_EARG, "treatment.k_per_day",
				 "is volumetric: give depth and porosity too");
	*k = tarn_areal_rate(t->k_per_day, t->depth_m, t->porosity);
	return TARN_OK;
}

enum tarn_status tn_bed_loadings_check(const char *section, double low_m_d,
				       double high_m_d, struct tarn_error *err)
{
	char field[32];

	if (isnan(low_m_d) != isnan(high_m_d)) {
		snprintf(field, sizeof field, "%s.%s", section,
			 isnan(low_m_d) ? "k_low" : "k_high");
		return tarn_fail(err, TARN_EARG, field, "is missing: k_low and "
				 "k_high go together, the loadings between "
				 "which k was measured");
	}
	if (low_m_d > high_m_d) {
		snprintf(field, sizeof field, "%s.k_low", section);
		return tarn_fail(err, TARN_EARG, field, "must not be above "
				 "k_high of %g m/d, got %g", high_m_d, low_m_d);
	}
	return TARN_OK;
}

static enum tarn_status make_terms(const struct tarn_treatment *t,
				   struct terms *out, struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_treatment_fields, t,
						err);
	double k = 0;

	if (st == TARN_OK)
		st = tn_bed_loadings_check("treatment", t->k_low_m_d,
					   t->k_high_m_d, err);
	if (st == TARN_OK)
		st = areal_rate(t, &k, err);
	if (st != TARN_OK)
		return st;
	out->flow = t->flow_m3s * DAY;
	out->k = tn_rate_at(k, t->theta, t->temp_c) / YEAR;
	out->alpha = (t->rain_mm_d - t->et_mm_d) / 1000;
	out->source = out->k * t->background_mgl +
		      t->rain_mm_d / 1000 * t->rain_mgl;
	if (out->alpha != 0 && isfinite(t->tanks_in_series) &&
	    (t->tanks_in_series != floor(t->tanks_in_series) ||
	     t->tanks_in_series > SERIES_MAX))
		return tarn_fail(err, TARN_EARG, "treatment.tanks_in_series",
				 "must be a whole number up to %d, or "
				 "infinite, where there is rain or et; got %g",
				 SERIES_MAX, t->tanks_in_series);
	return TARN_OK;
}

/*
 * Both forms below are written so that nothing is divided by alpha, or by
 * k + alpha, when these vanish:  Co = Ci E + source (1 - E) / (k + alpha),
 * E = exp(-(k + alpha) g),  g = log(1 + alpha / q) / alpha.
 */
static double plug_flow(const struct terms *m, double area, double inlet)
{
	double q = m->flow / area, sum = m->k + m->alpha;
	double g = m->alpha == 0 ? 1 / q : log1p(m->alpha / q) / m->alpha;
	double gain = sum == 0 ? g : -expm1(-sum * g) / sum;

	return inlet * exp(-sum * g) + m->source * gain;
}

static double through_series(const struct terms *m, double area, double inlet,
			     double tanks)
{
	double part = area / tanks, flow = m->flow, c = inlet;

	for (double i = 1; i <= tanks; i++) {
		double next = m->flow + m->alpha * part * i;

		c = (flow * c + part * m->source) / (next + part * m->k);
		flow = next;
	}
	return c;
}

static double outlet(const struct tarn_treatment *t, const struct terms *m,
		     double area)
{
	double least, remaining;

	if (m->alpha != 0 && isfinite(t->tanks_in_series))
		return through_series(m, area, t->inlet_mgl,
				      t->tanks_in_series);
	if (m->alpha != 0 || m->k == 0)
		return plug_flow(m, area, t->inlet_mgl);
	least = m->source / m->k;
	remaining = tn_treatment_remaining(m->k * area / m->flow,
					   t->tanks_in_series);
	return least + (t->inlet_mgl - least) * remaining;
}

/* What the concentration tends to along an endless bed. */
static double limit(const struct tarn_treatment *t, const struct terms *m)
{
	double sum = m->k + m->alpha;

	if (m->alpha == 0)
		return m->k > 0 ? m->source / m->k : t->inlet_mgl;
	return sum > 0 ? m->source / sum : HUGE_VAL;
}

static void report(const struct tarn_treatment *t, const struct terms *m,
		   double area, double out_mgl,
		   struct tarn_treatment_result *out)
{
	struct tarn_treatment_result r = { 0 };
	double outflow = m->flow + m->alpha * area;
	double most = fmax(t->rain_mm_d, t->et_mm_d) / 1000 * area;

	r.area_m2 = area;
	r.loading_m_d = area > 0 ? m->flow / area : TARN_NAN;
	r.outlet_mgl = out_mgl;
	r.outflow_m3s = outflow / DAY;
	r.k_m_d = m->k;
	r.limit_mgl = limit(t, m);
	r.removal = t->inlet_mgl > 0 ? 1 - out_mgl / t->inlet_mgl : TARN_NAN;
	r.removed_g_d = m->flow * t->inlet_mgl - outflow * out_mgl +
			t->rain_mm_d / 1000 * area * t->rain_mgl;
	r.extrapolation = tarn_loading_factor(r.loading_m_d, t->k_low_m_d,
					      t->k_high_m_d);
	if (isnan(r.extrapolation))
		r.flags |= TARN_BED_RATE_UNPLACED;
	else if (r.extrapolation != 1)
		r.flags |= TARN_BED_EXTRAPOLATED;
	if (t->inlet_mgl < t->background_mgl)
		r.flags |= TARN_BED_UNDER_BACKGROUND;
	if (most > 0.1 * m->flow)
		r.flags |= TARN_BED_RAIN_DOMINATES;
	*out = r;
}

enum tarn_status tarn_treatment_outlet(const struct tarn_treatment *t,
				       struct tarn_treatment_result *out,
				       struct tarn_error *err)
{
	struct terms m;
	enum tarn_status st = make_terms(t, &m, err);

	if (st != TARN_OK)
		return st;
	if (isnan(t->area_m2))
		return tarn_fail(err, TARN_EARG, "treatment.area",
				 "is missing: give it in m2");
	if (m.flow + m.alpha * t->area_m2 <= 0)
		return tarn_fail(err, TARN_EARG, "treatment.et", "of %g mm/d "
				 "takes all the water of %g m3/s on %g m2",
				 t->et_mm_d, t->flow_m3s, t->area_m2);
	report(t, &m, t->area_m2, outlet(t, &m, t->area_m2), out);
	return TARN_OK;
}

static enum tarn_status fail_target(const struct tarn_treatment *t,
				    double lowest, struct tarn_error *err)
{
	return tarn_fail(err, TARN_EARG, "treatment.target", "of %g mg/L is "
			 "impossible: no bed of any size gets below %g mg/L "
			 "here (background %g mg/L)", t->target_mgl, lowest,
			 t->background_mgl);
}

/* Root of outlet(area) = target, which falls with the area. */
static enum tarn_status search_area(const struct tarn_treatment *t,
				    const struct terms *m, double *area,
				    struct tarn_error *err)
{
	double lo = 0, hi = m->alpha < 0 ? -m->flow / m->alpha
					 : m->flow / (m->k + m->alpha);

	if (m->alpha < 0 && outlet(t, m, hi) > t->target_mgl)
		return fail_target(t, outlet(t, m, hi), err);
	for (int i = 0; m->alpha > 0 && outlet(t, m, hi) > t->target_mgl; i++) {
		if (i > 60)
			return fail_target(t, outlet(t, m, hi), err);
		hi *= 2;
	}
	for (int i = 0; i < 200 && hi - lo > 1e-15 * hi; i++) {
		double mid = (lo + hi) / 2;

		if (outlet(t, m, mid) > t->target_mgl)
			lo = mid;
		else
			hi = mid;
	}
	*area = hi;
	return TARN_OK;
}

static enum tarn_status find_area(const struct tarn_treatment *t,
				  const struct terms *m, double *area,
				  struct tarn_error *err)
{
	double least = limit(t, m), sum = m->k + m->alpha, ratio;

	if (!(t->target_mgl > least) || !(sum > 0))
		return fail_target(t, fmin(least, t->inlet_mgl), err);
	if (m->alpha != 0 && isfinite(t->tanks_in_series))
		return search_area(t, m, area, err);
	ratio = (t->target_mgl - least) / (t->inlet_mgl - least);
	if (m->alpha == 0)
		*area = tn_treatment_effort(ratio,
					    t->tanks_in_series) * m->flow /
			m->k;
	else
		*area = m->flow * expm1(-log(ratio) * m->alpha / sum) /
			m->alpha;
	return TARN_OK;
}

enum tarn_status tarn_treatment_area(const struct tarn_treatment *t,
				     struct tarn_treatment_result *out,
				     struct tarn_error *err)
{
	struct terms m;
	double area = 0;
	enum tarn_status st = make_terms(t, &m, err);

	if (st != TARN_OK)
		return st;
	if (isnan(t->target_mgl))
		return tarn_fail(err, TARN_EARG, "treatment.target",
				 "is missing: give it in mg/L");
	if (t->target_mgl >= t->inlet_mgl) {
		report(t, &m, 0, t->inlet_mgl, out);
		out->flags = TARN_BED_NOTHING_TO_DO;
		return TARN_OK;
	}
	st = find_area(t, &m, &area, err);
	if (st == TARN_OK)
		report(t, &m, area, outlet(t, &m, area), out);
	return st;
}
