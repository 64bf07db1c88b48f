/* SPDX-License-Identifier: MIT */
/* What others' loadings and shares make of a plan's flow and pond. */
#include "plan.h"

#define GAP 5	/* times between loadings that are not of one kind (ours) */

static const char *const purposes[] = {
	"sewage", "aquaculture", "swimming", "ornamental", "roughing", NULL
};
static const char *const bases[] = { "surface", "volume", "turnover", NULL };

#define OF struct tarn_bed_published
static const struct tarn_field published_rows[] = {
	TARN_OUT_CHOICE(OF, purpose, "purpose", purposes, "of these beds"),
	TARN_OUT_WHOLE(OF, part, "part", "-", "of the purpose's rows, from 0"),
	TARN_OUT_NUMBER(OF, lo_m_d, "low", "m/d", "least loading"),
	TARN_OUT_NUMBER(OF, hi_m_d, "high", "m/d", "highest loading"),
	TARN_OUT_NUMBER(OF, lo_m2, "area_low", "m2", "of bed at the highest"),
	TARN_OUT_NUMBER(OF, hi_m2, "area_high", "m2", "of bed at the least"),
	TARN_OUT_NUMBER(OF, factor, "factor", "-",
			"of the plan's loading to the range"),
	TARN_OUT_CHOICE(OF, evidence, "evidence", tarn_evidence_texts,
			"the weakest of them"),
};
TARN_FIELDS(tarn_bed_published_fields, "published", published_rows);
#undef OF

#define OF struct tarn_bed_practice
static const struct tarn_field practice_rows[] = {
	TARN_OUT_CHOICE(OF, basis, "basis", bases, "share of what"),
	TARN_OUT_NUMBER(OF, lo, "low", "-", "least share"),
	TARN_OUT_NUMBER(OF, hi, "high", "-", "greatest share"),
	TARN_OUT_NUMBER(OF, lo_m2, "area_low", "m2", "of bed at the least"),
	TARN_OUT_NUMBER(OF, hi_m2, "area_high", "m2", "at the greatest"),
};
TARN_FIELDS(tarn_bed_practice_fields, "practice", practice_rows);

/* Adds the ranges of one purpose to out[n...]; returns the new count. */
static size_t add_purpose(enum tarn_bed_purpose purpose,
			  struct tarn_bed_published out[], size_t n)
{
	size_t count, first = n;
	const struct tarn_loading_range *r = tarn_loading_ranges(&count);

	for (size_t i = 0; i < count; i++) {
		double lo_m_d = r[i].lo_m_d > 0 ? r[i].lo_m_d : r[i].hi_m_d;
		struct tarn_bed_published *row = n > first ? &out[n - 1]
							   : NULL;

		if (r[i].purpose != purpose)
			continue;
		if (!row || lo_m_d > GAP * row->hi_m_d) {
			if (n == TARN_BED_PUBLISHED)
				return n;
			row = &out[n++];
			*row = (struct tarn_bed_published){
				.purpose = (int)purpose,
				.part = (int)(n - 1 - first),
				.lo_m_d = lo_m_d, .hi_m_d = r[i].hi_m_d,
			};
		}
		row->lo_m_d = fmin(row->lo_m_d, lo_m_d);
		row->hi_m_d = fmax(row->hi_m_d, r[i].hi_m_d);
		if ((int)r[i].evidence > row->evidence)
			row->evidence = (int)r[i].evidence;
	}
	return n;
}

size_t tarn_bed_published(const struct tarn_bed_plan *plan,
			  struct tarn_bed_published out[TARN_BED_PUBLISHED])
{
	static const enum tarn_bed_purpose told[] = {
		TARN_PURPOSE_SEWAGE, TARN_PURPOSE_AQUACULTURE,
		TARN_PURPOSE_SWIMMING, TARN_PURPOSE_ROUGHING,
	};
	size_t n = 0;

	for (size_t i = 0; i < sizeof told / sizeof told[0]; i++)
		n = add_purpose(told[i], out, n);
	for (size_t i = 0; i < n; i++) {
		out[i].lo_m2 = tarn_bed_area(plan->flow_m3s, out[i].hi_m_d);
		out[i].hi_m2 = tarn_bed_area(plan->flow_m3s, out[i].lo_m_d);
		out[i].factor = tarn_loading_factor(
			plan->sized.bed.loading_m_d, out[i].lo_m_d,
			out[i].hi_m_d);
	}
	return n;
}

size_t tarn_bed_practice(const struct tarn_bed_question *q,
			 const struct tarn_bed_plan *plan,
			 struct tarn_bed_practice out[TARN_BED_PRACTICE])
{
	size_t count, n = 0;
	const struct tarn_bed_rule *rule = tarn_bed_rules(&count);

	for (size_t i = 0; i < count && n < TARN_BED_PRACTICE; i++) {
		double base_m2 = rule[i].basis == TARN_RULE_SURFACE
			? q->surface_m2 : q->volume_m3 / plan->depth_m;

		if (rule[i].basis == TARN_RULE_TURNOVER)
			continue;
		out[n++] = (struct tarn_bed_practice){
			(int)rule[i].basis, rule[i].lo, rule[i].hi,
			rule[i].lo * base_m2, rule[i].hi * base_m2,
		};
	}
	return n;
}
