/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed_rows.h"

static double unit(const char *name)
{
	return tarn_unit(name);
}

Test(bed_loading, published)
{
	const struct bed_row rows[] = {
		{ "L07", tarn_bed_residence(3 * unit("lpm"), 1, 0.45, 1) /
		  3600, 2.5, 1e-9, "Schulz, Gelbrecht & Rennert 2003, "
		  "Aquaculture 217:207-221, abstract: 2.5 h" },
	};
	CHECK_PRINTED(rows);
}

Test(bed_loading, published_inputs_regression)
{
	double fast = tarn_bed_loading(0.0475 / 3600, 1);	/* 0.0475 m/h */
	const struct bed_row rows[] = {
		{ "L01", tarn_bed_loading(0.0039, 23.6), 14.28, 0.02,
		  "Sindilariu et al. 2008: 3.9 L/s on 23.6 m2" },
		{ "L02", tarn_bed_loading(0.0018, 23.6), 6.59, 0.02,
		  "Sindilariu et al. 2008: 1.8 L/s on 23.6 m2" },
		{ "L05", tarn_bed_loading(unit("lpm"), 1.4), 1.0286, 0.001,
		  "Schulz et al. 2003: 1 L/min on 1.40 x 1.00 m" },
		{ "L06", tarn_bed_loading(5 * unit("lpm"), 1.4), 5.143, 0.001,
		  "Schulz et al. 2003: 5 L/min" },
		{ "L10", tarn_bed_loading(13600 / DAY, 7.7e4), 0.1766, 0.0002,
		  "Tilley et al. 2002, Aquacult. Eng. 26:81-109" },
		{ "L14", 100 * tarn_bed_loading(1 / DAY, 0.00185e4), 5.41,
		  0.01, "Crites et al. 2006: 1.85e-3 ha/(m3/d), cm/d" },
		{ "L16", 100 * tarn_bed_loading(unit("gpd"), unit("ft2")),
		  4.075, 0.01, "TVA/WM-93/10: 1 ft2 per gal/d" },
		{ "L17", 1.0 * 0.38 / 8, 0.0475, 0.0001,
		  "Gaertner & Florist 05/2006: 8 h in 1 m, n 0.38 ours" },
		{ "L18", fast * 16 / 24, 0.76, 0.001,
		  "Gaertner & Florist 05/2006: 16 h a day" },
		{ "L20", tarn_bed_loading(0.5 * 100 * 1.0 / 3600, 15) / 24,
		  3.333, 0.001, "common practice: half a volume an hour, "
		  "15 % of the surface, pond 1 m deep" },
		{ "L22", 170 / unit("m_per_hour"), 7.083, 0.001,
		  "ABES II-048" },
	};
	CHECK_ROWS(rows);
}

Test(bed_loading, regression)
{
	const struct bed_row rows[] = {
		{ "U01", unit("gpm_per_ft2") / unit("m_per_hour"), 2.4446,
		  0.001, "definition" },
		{ "U02", unit("gpm_per_ft2"), 58.67, 0.01, "definition" },
		{ "U03", unit("gpd_per_ft2"), 0.040746, 1e-6, "definition" },
		{ "U04", unit("gph_per_ft2"), 0.9779, 0.0001, "definition" },
		{ "", unit("lpm_per_m2"), 1.44, 1e-12, "definition" },
		{ "", tarn_bed_loading(unit("gpm"), unit("ft2")),
		  unit("gpm_per_ft2"), 1e-12, "definition" },
		{ "R09", tarn_turnover_exposed(3), 0.9502, 0.0001,
		  "1 - exp(-3)" },
	};
	CHECK_ROWS(rows);
}

Test(bed_loading, each_of_three_from_the_other_two)
{
	double q = tarn_bed_loading(0.0021, 3.7);

	cr_expect(near(tarn_bed_area(0.0021, q), 3.7, 1e-15));
	cr_expect(near(tarn_bed_flow(q, 3.7), 0.0021, 1e-15));
}

Test(bed_loading, refused)
{
	static const double bad[] = { 0, -1, (double)NAN, HUGE_VAL };

	for (size_t i = 0; i < LENGTH(bad); i++) {
		cr_expect(isnan(tarn_bed_loading(bad[i], 2)));
		cr_expect(isnan(tarn_bed_loading(2, bad[i])));
		cr_expect(isnan(tarn_bed_area(bad[i], 2)));
		cr_expect(isnan(tarn_bed_area(2, bad[i])));
		cr_expect(isnan(tarn_bed_flow(bad[i], 2)));
		cr_expect(isnan(tarn_bed_flow(2, bad[i])));
		cr_expect(isnan(tarn_bed_residence(bad[i], 1, 1, 0.4)));
	}
	cr_expect(isnan(tarn_bed_residence(1, 1, 1, 0)));
	cr_expect(isnan(tarn_bed_residence(1, 1, 1, 1.01)));
	cr_expect(isnan(tarn_turnover_exposed(-0.1)));
	/* 10 m3 at 1 L/s: 3.6 m3 an hour */
	cr_expect(fabs(tarn_turnover_per_h(1e-3, 10) - 0.36) < 1e-15);
	cr_expect(isnan(tarn_turnover_per_h(1e-3, 0)));
	cr_expect(isnan(tarn_turnover_per_h(-1e-3, 10)));
	cr_expect(tarn_turnover_exposed(0) == 0);
	cr_expect(isnan(tarn_loading_factor(0, 1, 2)));
	cr_expect(isnan(tarn_loading_factor(1, 1, TARN_NAN)));
}

Test(bed_loading, place_among_ranges)
{
	struct tarn_loading_place p;
	struct tarn_error err = { 0 };

	cr_expect(tarn_loading_factor(1, 1, 2) == 1);
	cr_expect(tarn_loading_factor(2, 1, 2) == 1);
	cr_expect(tarn_loading_factor(5, 1, 2) == 2.5);
	cr_expect(tarn_loading_factor(0.5, 1, 2) == 0.5);
	cr_expect(tarn_loading_factor(0.5, 0, 2) == 1);

	/* a garden bed: 250 to 1000 times what sewage beds get */
	cr_assert(tarn_loading_place(100, TARN_PURPOSE_ORNAMENTAL, &p, &err) ==
		  TARN_OK);
	cr_expect(p.inside == 1 && p.factor == 1 && p.lo_m_d == 80);
	cr_expect(p.nearest->evidence == TARN_EVIDENCE_PRACTICE);
	cr_assert(tarn_loading_place(29, TARN_PURPOSE_AQUACULTURE, &p, NULL) ==
		  TARN_OK);
	cr_expect(p.inside == 0 && near(p.factor, 2, 1e-12));
	cr_expect(p.hi_m_d == 14.5 && p.lo_m_d == 0.018);
	cr_assert(tarn_loading_place(0.01, TARN_PURPOSES, &p, NULL) == TARN_OK);
	cr_expect(p.inside > 0, "under the 'up to' rows");
	cr_expect(tarn_loading_place(0, TARN_PURPOSES, &p, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "loading");
	cr_expect(tarn_loading_place(1, (enum tarn_bed_purpose)9, &p, NULL) ==
		  TARN_EARG);
}

Test(bed_loading, tables_are_cited_and_ordered)
{
	size_t count;
	const struct tarn_loading_range *r = tarn_loading_ranges(&count);
	const struct tarn_bed_kind *g;
	const struct tarn_bed_rule *rule;
	const struct tarn_flag *flag;
	unsigned all = 0;

	cr_assert(count > 15);
	for (size_t i = 0; i < count; i++) {
		cr_expect(r[i].lo_m_d <= r[i].hi_m_d && r[i].hi_m_d > 0);
		cr_expect(i == 0 || r[i].hi_m_d >= r[i - 1].hi_m_d, "%s",
			  r[i].kind);
		cr_expect(strlen(r[i].source) > 5 && strlen(r[i].kind) > 5);
		cr_expect(tarn_bed_purpose_name(r[i].purpose) != NULL);
	}
	cr_expect(tarn_bed_purpose_name(TARN_PURPOSES) == NULL);
	g = tarn_bed_kinds(&count);
	cr_assert(count == 4);
	for (size_t i = 0; i < count; i++)
		cr_expect(g[i].lo_m_d < g[i].hi_m_d);
	rule = tarn_bed_rules(&count);
	for (size_t i = 0; i < count; i++) {
		cr_expect(rule[i].lo <= rule[i].hi && strlen(rule[i].text));
		/* ranges that overlap are one row */
		for (size_t k = i + 1; k < count; k++)
			cr_expect(rule[k].basis != rule[i].basis ||
				  rule[k].lo > rule[i].hi, "%s",
				  rule[k].text);
	}
	flag = tarn_bed_flags(&count);
	for (size_t i = 0; i < count; i++) {
		cr_expect(!(all & flag[i].bit) && strlen(flag[i].text) > 10);
		all |= flag[i].bit;
	}
	cr_expect((all & TARN_BED_REFUSALS) == TARN_BED_REFUSALS);
	for (int e = 0; e <= TARN_EVIDENCE_OURS; e++)
		cr_expect(strlen(tarn_evidence_text((enum tarn_evidence)e)));
	cr_expect_str_eq(tarn_evidence_text((enum tarn_evidence)99),
			 "unknown");
}
