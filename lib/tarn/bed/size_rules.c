/* SPDX-License-Identifier: MIT */
/* The ways to an area, and the whole sizing. */
#include "judge.h"
#include "constants.h"
#include "firstorder.h"

#define PRACTICE TARN_EVIDENCE_PRACTICE
#define MEMORY TARN_EVIDENCE_MEMORY
#define OURS TARN_EVIDENCE_OURS

static const struct tarn_size_rule_info infos[] = {
	{ "loading", "flow over surface loading", TARN_EVIDENCE_INPUTS },
	{ "surface", "share of the pond's surface", PRACTICE },
	{ "volume", "share of the pond's volume, stone and all", PRACTICE },
	{ "pond_target", "steady ammonia in the pond, first-order removal in "
	  "the loop", OURS },
	{ "pass", "target in one pass, first-order removal", MEMORY },
	{ "media", "nitrification on the stone's surface", MEMORY },
	{ "bod", "BOD per plan area", MEMORY },
	{ "solids", "solids per plan area", MEMORY },
};

#define INFO struct tarn_size_rule_info
static const struct tarn_field info_rows[] = {
	TARN_OUT_STRING(INFO, name, "name", "way to an area"),
	TARN_OUT_STRING(INFO, meaning, "meaning", "meaning"),
	TARN_OUT_EVIDENCE(INFO),
};

TARN_FIELDS(tarn_size_rule_info_fields, "size_rule", info_rows);

#define OUT struct tarn_sizing_result
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, needed_m2, "needed", "m2",
			"largest area that a way asks for"),
	TARN_OUT_NUMBER(OUT, least_flow_m3s, "least_flow", "m3/s",
			"flow under which no bed holds the target"),
};

TARN_FIELDS(tarn_sizing_result_fields, "size", result_rows);

const struct tarn_size_rule_info *tarn_size_rule_info(enum tarn_size_rule m)
{
	return (unsigned)m < TARN_SIZE_RULES ? &infos[m] : NULL;
}

static double by_loading(const struct tarn_sizing *s, unsigned *flags)
{
	size_t count;
	const struct tarn_bed_kind *r = tarn_bed_kinds(&count);
	double loading = s->loading_m_d;

	if (isnan(loading) && s->kind > 0) {
		r += s->kind - 1;
		loading = sqrt(r->lo_m_d * r->hi_m_d);
		*flags |= TARN_BED_LOADING_ASSUMED;
	}
	return tarn_bed_area(s->flow_m3s, loading);
}

/* Q (1 - remaining) (C - C*) = load, so the bed is known by what it leaves. */
static double by_pond_target(const struct tarn_sizing *s)
{
	double spare = s->pond_target_mgl - s->background_mgl;
	double share = s->ammonia_g / spare / (s->flow_m3s * DAY);
	double k = tn_rate_at(s->k_m_yr, s->theta, s->temp_c) / YEAR;

	if (!(share < 1) || !(k > 0))
		return TARN_NAN;
	return tn_treatment_effort(1 - share,
				   s->tanks_in_series) * s->flow_m3s * DAY /
	       k;
}

static double by_pass(const struct tarn_sizing *s)
{
	double k = tn_rate_at(s->k_m_yr, s->theta, s->temp_c) / YEAR;
	double remaining = (s->target_mgl - s->background_mgl) /
			   (s->inlet_mgl - s->background_mgl);

	if (s->target_mgl >= s->inlet_mgl)
		return 0;
	if (!(k > 0))
		return TARN_NAN;
	return tn_treatment_effort(remaining,
				   s->tanks_in_series) * s->flow_m3s * DAY /
	       k;
}

static enum tarn_status areas(const struct tarn_sizing *s,
			      const struct stone *stone, double scale,
			      double a[], unsigned *flags,
			      struct tarn_error *err)
{
	if (!isnan(s->surface_share) && isnan(s->pond_area_m2))
		return tarn_fail(err, TARN_EARG, "size.pond_area", "is "
				 "missing: surface_share needs it");
	if (!isnan(s->volume_share) && isnan(s->pond_volume_m3))
		return tarn_fail(err, TARN_EARG, "size.pond_volume", "is "
				 "missing: volume_share needs it");
	if (!isnan(s->volume_share) && isnan(stone->depth_m))
		return tarn_fail(err, TARN_EARG, "size.depth", "is missing: "
				 "volume_share needs it");
	a[TARN_BY_LOADING] = by_loading(s, flags);
	a[TARN_BY_SURFACE] = s->surface_share * s->pond_area_m2;
	a[TARN_BY_VOLUME] = s->volume_share * s->pond_volume_m3 /
			    (stone->depth_m * scale);
	a[TARN_BY_POND_TARGET] = by_pond_target(s);
	a[TARN_BY_PASS] = by_pass(s);
	a[TARN_BY_MEDIA] = s->ammonia_g * s->safety /
			   (s->media_rate * stone->surface * scale);
	a[TARN_BY_BOD] = s->bod_g / s->bod_limit;
	a[TARN_BY_SOLIDS] = s->solids_g / s->solids_limit;
	return TARN_OK;
}

static enum tarn_status nothing_to_size_by(const struct tarn_sizing *s,
					   double least_flow,
					   struct tarn_error *err)
{
	if (s->flow_m3s < least_flow)
		return tarn_fail(err, TARN_EARG, "size.flow", "of %g m3/s is "
				 "too little: to hold %g mg/L against %g g a "
				 "day even a perfect bed needs %g m3/s",
				 s->flow_m3s, s->pond_target_mgl,
				 s->ammonia_g, least_flow);
	if (s->target_mgl >= s->inlet_mgl)
		return tarn_fail(err, TARN_EARG, "size.target", "of %g mg/L "
				 "is not under the inlet of %g mg/L: no bed is "
				 "needed", s->target_mgl, s->inlet_mgl);
	return tarn_fail(err, TARN_EARG, "size", "has nothing to size by: "
			 "give loading, kind, surface_share, volume_share, "
			 "pond_target, target with inlet, feed_g, or an area "
			 "to judge");
}

/* The largest area governs; areas that round to nothing do not. */
static void govern(struct tarn_sizing_result *r)
{
	r->governs = -1;
	r->needed_m2 = TARN_NAN;
	for (int m = 0; m < TARN_SIZE_RULES; m++)
		if (r->area_m2[m] > 0 && !(r->area_m2[m] <= r->needed_m2)) {
			r->needed_m2 = r->area_m2[m];
			r->governs = m;
		}
}

static void by_kinds(const struct tarn_sizing *s,
		     struct tarn_sizing_result *r)
{
	size_t count;
	const struct tarn_bed_kind *g = tarn_bed_kinds(&count);

	for (size_t i = 0; i < count; i++) {
		r->kind_lo_m2[i] = tarn_bed_area(s->flow_m3s, g[i].hi_m_d);
		r->kind_hi_m2[i] = tarn_bed_area(s->flow_m3s, g[i].lo_m_d);
	}
}

enum tarn_status tarn_sizing(const struct tarn_sizing *in,
			     struct tarn_sizing_result *out,
			     struct tarn_error *err)
{
	struct tarn_sizing s;
	struct tarn_sizing_result r;
	struct stone stone;
	unsigned flags = 0;
	double scale = 1;
	enum tarn_status st = tn_sizing_prepare(in, &s, err);

	if (st == TARN_OK && isnan(s.flow_m3s))
		st = tarn_fail(err, TARN_EARG, "size.flow", "is missing: give "
			       "it in m3/s, or turnover with pond_volume");
	if (st == TARN_OK)
		st = tn_stone_of(&s, &stone, err);
	if (st == TARN_OK && !isnan(s.depth_m))
		scale = s.depth_m / stone.depth_m;	/* 1 for one stone */
	if (st == TARN_OK)
		st = areas(&s, &stone, scale, r.area_m2, &flags, err);
	if (st != TARN_OK)
		return st;
	govern(&r);
	by_kinds(&s, &r);
	r.least_flow_m3s = s.ammonia_g / (s.pond_target_mgl -
					  s.background_mgl) / DAY;
	if (isnan(s.area_m2))
		s.area_m2 = r.needed_m2;
	if (isnan(s.area_m2))
		return nothing_to_size_by(&s, r.least_flow_m3s, err);
	tn_bed_judge(&s, &stone, scale, &r.bed);
	if (s.area_m2 < r.needed_m2 * (1 - 1e-9))
		flags |= TARN_BED_TOO_SMALL;
	r.bed.flags |= flags;
	*out = r;
	return TARN_OK;
}
