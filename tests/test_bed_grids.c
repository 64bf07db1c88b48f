/* SPDX-License-Identifier: MIT */
/* What is told beside the plan of a bed. */
#include "bed_world.h"

Test(bed_grids, grids_keep_the_way_to_the_lip_and_have_their_own_head)
{
	struct world w;
	struct tarn_bed_axes a;
	static struct tarn_bed_check cells[TARN_BED_AREAS * TARN_BED_DEPTHS];
	const double per_flow = 10;

	koi(&w);
	w.wish.loading_m_d = 100;
	w.q.head_at = head_of;
	w.q.context = &per_flow;
	run(&w);
	cr_assert(w.status == TARN_OK);
	a = tarn_bed_axes(&w.plan, TARN_GRID_SIZES);
	cr_expect(a.areas == 4 && a.depths == 2 && a.flows == 1);
	cr_assert(tarn_bed_cells(&w.q, &w.plan, &a, cells, NULL) == TARN_OK);
	cr_expect(near(cells[3].area_m2, w.plan.sized.bed.area_m2, 1e-12));
	cr_expect(near(cells[3].clogged_m, w.plan.sized.bed.clogged_m, 1e-9));
	for (int i = 0; i < 8; i++)
		cr_expect(near(cells[i].length_m, w.plan.length_m, 1e-12));
	a = tarn_bed_axes(&w.plan, TARN_GRID_FLOWS);
	cr_assert(tarn_bed_cells(&w.q, &w.plan, &a, cells, NULL) == TARN_OK);
	for (int i = 0; i < 2; i++)
		cr_expect(near(cells[i].head_needed_m - cells[i].clogged_m -
			       cells[i].rise_m, 10 * cells[i].flow_m3s, 1e-9));
	a = tarn_bed_axes(&w.plan, TARN_GRID_MAP);
	cr_expect(a.areas == 40 && a.depths == 25 && a.flows == 1);
	cr_expect(near(a.area_m2[39], 2 * w.plan.sized.bed.area_m2, 1e-12));
	cr_expect(tarn_bed_cells(&w.q, &w.plan, &a, cells, NULL) == TARN_OK);
	a = tarn_bed_axes(&w.plan, TARN_GRID_FULL);
	cr_expect(a.areas * a.depths * a.flows == 1000);
	a.depths = TARN_BED_DEPTHS + 1;
	cr_expect(tarn_bed_cells(&w.q, &w.plan, &a, cells, NULL) ==
		  TARN_EARG);
}

static void expect_axis(const char *what, const double got[], double middle,
			const double factors[], int count)
{
	for (int i = 0; i < count; i++)
		cr_expect(near(got[i], middle * factors[i], 1e-12),
			  "%s %d: %g of %g", what, i, got[i], middle);
}

/* Where each grid looks, as shares of the bed of the plan. */
Test(bed_grids, axes_about_the_plan)
{
	static const double sizes[] = { 0.5, 1, 1.5, 2 }, flows[] = { 0.5, 1.5 };
	static const double depths[] = { 0.5, 0.75, 1, 1.25, 1.5 };
	double spread[TARN_BED_AREAS];
	struct world w;
	struct tarn_bed_axes a;
	double area_m2;

	koi(&w);
	w.wish.loading_m_d = 100;
	run(&w);
	cr_assert(w.status == TARN_OK);
	area_m2 = w.plan.sized.bed.area_m2;
	a = tarn_bed_axes(&w.plan, TARN_GRID_SIZES);
	expect_axis("area", a.area_m2, area_m2, sizes, 4);
	expect_axis("depth", a.depth_m, w.plan.depth_m, sizes, 2);
	cr_expect(a.flow_m3s[0] == w.plan.flow_m3s);
	a = tarn_bed_axes(&w.plan, TARN_GRID_FLOWS);
	cr_expect(a.areas == 1 && a.depths == 1 && a.flows == 2);
	cr_expect(a.area_m2[0] == area_m2 && a.depth_m[0] == w.plan.depth_m);
	expect_axis("flow", a.flow_m3s, w.plan.flow_m3s, flows, 2);
	a = tarn_bed_axes(&w.plan, TARN_GRID_MAP);
	for (int i = 0; i < 40; i++)
		spread[i] = 0.05 + 1.95 * i / 39;
	expect_axis("map's area", a.area_m2, area_m2, spread, 40);
	for (int i = 0; i < 25; i++)
		spread[i] = 0.3 + 1.2 * i / 24;
	expect_axis("map's depth", a.depth_m, w.plan.depth_m, spread, 25);
	a = tarn_bed_axes(&w.plan, TARN_GRID_FULL);
	for (int i = 0; i < 20; i++)
		spread[i] = 0.2 + 3.8 * i / 19;
	expect_axis("full area", a.area_m2, area_m2, spread, 20);
	expect_axis("full depth", a.depth_m, w.plan.depth_m, depths, 5);
	for (int i = 0; i < 10; i++)
		spread[i] = 0.2 + 1.8 * i / 9;
	expect_axis("full flow", a.flow_m3s, w.plan.flow_m3s, spread, 10);
	/* a bed far under what is needed: to 1.2 times that */
	w.q.bed_m2 = area_m2 / 10;
	run(&w);
	cr_assert(w.status == TARN_OK);
	a = tarn_bed_axes(&w.plan, TARN_GRID_MAP);
	cr_expect(near(a.area_m2[39], 1.2 * area_m2, 1e-12));
	a = tarn_bed_axes(&w.plan, (enum tarn_bed_grid)9);
	cr_expect(a.areas == 0 && a.depths == 0 && a.flows == 0);
}

Test(bed_grids, rates_beside_the_one_described)
{
	struct world w;
	struct tarn_bed_rated r[TARN_BED_RATED];
	size_t count;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	cr_assert(tarn_bed_rates(&w.q, &w.plan, r, &count, NULL) == TARN_OK);
	cr_expect(count > 2 && count <= TARN_BED_RATED);
	cr_expect_str_eq(r[0].name, "hf-ammonia-2009");
	cr_expect(r[0].k_m_yr == 11.4 && !r[0].trial);
	cr_expect(r[count - 1].trial);
	w.q.rate = tarn_rate_find("beijing-ammonia-2016");
	run(&w);
	cr_expect(w.plan.ask.k_m_yr == 14);
	cr_assert(tarn_bed_rates(&w.q, &w.plan, r, &count, NULL) == TARN_OK);
	cr_expect(r[0].evidence == -1);
	cr_expect(r[0].pond_mgl == w.plan.sized.bed.pond_mgl);
	cr_expect(r[0].pond_mgl == r[2].pond_mgl);
	w.wish.k_m_yr = 28;	/* what is said beside the rate wins */
	run(&w);
	cr_expect(w.plan.ask.k_m_yr == 28);
	cr_expect(w.plan.ask.theta == 0.960);
}

Test(bed_grids, a_rate_s_background_gives_way_to_the_one_described)
{
	struct world w;

	koi(&w);
	w.q.bed_m2 = 4;
	w.q.rate = tarn_rate_find("hf-bod-2009");
	run(&w);
	cr_expect(w.plan.ask.background_mgl == 10);
	w.wish.background_mgl = 0;
	run(&w);
	cr_expect(w.plan.ask.background_mgl == 0);
}

Test(bed_grids, chances_are_those_of_the_bed_itself)
{
	struct world w;
	struct tarn_chance chance = tarn_chance_default();
	struct tarn_chance_result r;

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.k_m_yr = 206;
	run(&w);
	chance.porosity_sd = chance.k_cv = chance.load_cv =
		chance.flow_cv = 0;
	cr_assert(tarn_bed_chance(&w.plan, &chance, NULL, &r, NULL) ==
		  TARN_OK);
	for (int i = 0; i < TARN_PERCENTILES; i++)
		cr_expect(near(r.pond_mgl[i], w.plan.sized.bed.pond_mgl,
			       1e-9));
	chance.samples = 1;
	cr_expect(tarn_bed_chance(&w.plan, &chance, NULL, &r, &w.err) ==
		  TARN_EARG);
	cr_expect_str_eq(w.err.field, "chance.samples");
}

Test(bed_grids, loadings_and_shares_of_others_as_areas)
{
	struct world w;
	struct tarn_bed_published p[TARN_BED_PUBLISHED];
	struct tarn_bed_practice shares[TARN_BED_PRACTICE];
	size_t count;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	count = tarn_bed_published(&w.plan, p);
	cr_assert(count >= 4 && p[0].purpose == TARN_PURPOSE_SEWAGE);
	cr_expect(p[count - 1].purpose == TARN_PURPOSE_ROUGHING);
	for (size_t i = 0; i < count; i++) {
		cr_expect(near(p[i].lo_m2 * p[i].hi_m_d, w.plan.flow_m3s * DAY,
			       1e-12));
		cr_expect(p[i].lo_m2 <= p[i].hi_m2);
		cr_expect(p[i].part == 0 || p[i].lo_m_d > 5 * p[i - 1].hi_m_d);
		cr_expect(p[i].factor == tarn_loading_factor(
			w.plan.sized.bed.loading_m_d, p[i].lo_m_d,
			p[i].hi_m_d));
	}
	cr_expect(p[1].purpose == TARN_PURPOSE_SEWAGE && p[1].part == 1);
	count = tarn_bed_practice(&w.q, &w.plan, shares);
	cr_expect(count == 2);
	cr_expect(shares[0].basis == TARN_RULE_SURFACE);
	cr_expect(near(shares[0].lo_m2, 0.1 * 12, 1e-12));
	cr_expect(near(shares[0].hi_m2, 12, 1e-12));
	cr_expect(near(shares[1].hi_m2, 0.3 * 8 / 0.9, 1e-12));
}
