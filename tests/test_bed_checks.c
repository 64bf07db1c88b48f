/* SPDX-License-Identifier: MIT */
/* Both sides of each limit that judges a bed, and what governs. */
#include "bed_world.h"

/* ---- both sides of each limit ------------------------------------------------ */

Test(bed_checks, limits_on_the_plan_area)
{
	struct world w;

	koi(&w);	/* 10 g of BOD, 27.5 g of solids */
	w.q.bed_m2 = 10 / 6.0 * OVER;
	cr_expect(verdict(&w, TARN_CHECK_BOD) == HOLDS);
	cr_expect(verdict(&w, TARN_CHECK_SOLIDS) == HOLDS);
	cr_expect(found(&w, TARN_CHECK_BOD)->hi == 6);
	cr_expect(found(&w, TARN_CHECK_SOLIDS)->hi == 20);
	w.q.bed_m2 = 10 / 6.0 * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_BOD) == DOUBT);
	cr_expect(verdict(&w, TARN_CHECK_SOLIDS) == HOLDS);
	cr_expect(near(found(&w, TARN_CHECK_BOD)->margin, UNDER, 1e-9));
	w.q.bed_m2 = 27.5 / 20 * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_SOLIDS) == DOUBT);
	cr_expect(w.plan.does == !(w.plan.sized.bed.flags &
				   TARN_BED_REFUSALS));
}

Test(bed_checks, limit_on_the_section_of_a_horizontal_bed)
{
	struct world w;

	koi(&w);
	w.wish.direction = TARN_BED_HORIZONTAL;
	w.wish.width_m = 0.1;	/* 10 g of BOD on 0.1 x 0.4 m: 250 g/m2/d */
	w.q.bed_m2 = 1;
	w.q.depth_m = 0.4 * OVER;
	cr_expect(verdict(&w, TARN_CHECK_SECTION) == HOLDS);
	w.q.depth_m = 0.4 * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_SECTION) == FORBIDS);
	cr_expect(found(&w, TARN_CHECK_SECTION)->hi == 250);
	cr_expect(!w.plan.does);
}

Test(bed_checks, oxygen_left_at_the_outlet)
{
	struct world w;
	double least, lacking;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	least = wanted(&w, TARN_DEMAND_OXYGEN);
	w.q.pump_m3s = least * OVER;
	cr_expect(verdict(&w, TARN_CHECK_OXYGEN) == HOLDS);
	cr_expect(found(&w, TARN_CHECK_OXYGEN)->lo == 2);
	w.q.pump_m3s = least * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_OXYGEN) == DOUBT);
	cr_expect(found(&w, TARN_CHECK_BREATH)->verdict == DOUBT);
	lacking = w.plan.sized.bed.oxygen_demand_g / DAY /
		  (0.8 * tarn_oxygen_saturation(20, 0));
	w.q.pump_m3s = lacking * OVER;
	cr_expect(verdict(&w, TARN_CHECK_OXYGEN) == DOUBT);
	w.q.pump_m3s = lacking * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_OXYGEN) == FORBIDS);
}

Test(bed_checks, ammonia_outlet_and_flow)
{
	struct world w;
	double pond_mgl, outlet_mgl, least;

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.k_m_yr = 206;
	w.wish.k_low_m_d = 1e-3;	/* so that no figure is a guess */
	w.wish.k_high_m_d = 1e4;
	w.wish.ammonia_mgl = 1000;
	w.wish.inlet_mgl = 1;
	w.wish.target_mgl = 0.999;
	run(&w);
	pond_mgl = w.plan.sized.bed.pond_mgl;
	outlet_mgl = w.plan.sized.bed.outlet_mgl;
	w.wish.ammonia_mgl = pond_mgl * OVER;
	w.wish.target_mgl = outlet_mgl * OVER;
	cr_expect(verdict(&w, TARN_CHECK_AMMONIA) == HOLDS);
	cr_expect(verdict(&w, TARN_CHECK_OUTLET) == HOLDS);
	w.wish.target_mgl = outlet_mgl * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_OUTLET) == FORBIDS);
	cr_expect(verdict(&w, TARN_CHECK_AMMONIA) == HOLDS);
	w.wish.ammonia_mgl = pond_mgl * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_AMMONIA) == FORBIDS);
	cr_expect(verdict(&w, TARN_CHECK_FLOW) == HOLDS);
	least = w.plan.sized.least_flow_m3s;
	w.q.pump_m3s = least * OVER;
	cr_expect(verdict(&w, TARN_CHECK_FLOW) == HOLDS);
	w.q.pump_m3s = least * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_FLOW) == FORBIDS);
}

/* A removal rate used outside the loadings at which it was measured, or at
 * none that is known, makes no plain yes; where it fails, it fails. */
Test(bed_checks, what_rests_on_a_guess_is_no_plain_yes)
{
	static const struct { double low, high; int guess; } known[] = {
		{ 0.01, 0.3, 1 }, { TARN_NAN, TARN_NAN, 1 }, { 1e-3, 1e4, 0 },
	};
	struct world w;

	for (size_t i = 0; i < LENGTH(known); i++) {
		koi(&w);
		w.q.bed_m2 = 4;
		w.wish.k_m_yr = 206;
		w.wish.k_low_m_d = known[i].low;
		w.wish.k_high_m_d = known[i].high;
		w.wish.ammonia_mgl = 1000;
		cr_expect(verdict(&w, TARN_CHECK_AMMONIA) ==
			  (known[i].guess ? DOUBT : HOLDS), "row %zu", i);
		cr_expect(found(&w, TARN_CHECK_AMMONIA)->guess ==
			  known[i].guess);
		w.wish.ammonia_mgl = w.plan.sized.bed.pond_mgl * UNDER;
		cr_expect(verdict(&w, TARN_CHECK_AMMONIA) == FORBIDS);
		cr_expect(found(&w, TARN_CHECK_AMMONIA)->guess ==
			  known[i].guess);
		cr_expect(!found(&w, TARN_CHECK_OXYGEN)->guess);
	}
}

/* The flow taken against each flow that is wanted: the falls 8,596 gph, the
 * turnover 8,292, and 5,322 are taken. */
Test(bed_checks, each_flow_wanted_is_a_check)
{
	static const int id[] = { TARN_CHECK_FALLS, TARN_CHECK_TURNOVER };
	const double gph = tarn_unit("gph");
	const double least[] = { 8596 * gph, 8292 * gph };
	struct world w;

	koi(&w);
	w.q.bed_m2 = 30;
	w.q.falls_m3s = least[0];
	w.wish.turnover_per_h = least[1] * 3600 / w.q.volume_m3;
	w.q.pump_m3s = 5322 * gph;
	for (size_t i = 0; i < LENGTH(id); i++) {
		cr_expect(verdict(&w, id[i]) == FORBIDS);
		cr_expect(near(found(&w, id[i])->lo, least[i], 1e-12));
		cr_expect(found(&w, id[i])->value == 5322 * gph);
	}
	cr_expect(!w.plan.does);
	w.q.pump_m3s = least[1] * OVER;		/* one is met, one is not */
	cr_expect(verdict(&w, TARN_CHECK_TURNOVER) == HOLDS);
	cr_expect(verdict(&w, TARN_CHECK_FALLS) == FORBIDS);
	w.q.pump_m3s = least[0] * OVER;
	cr_expect(verdict(&w, TARN_CHECK_FALLS) == HOLDS);
	w.wish.turnover_per_h = TARN_NAN;	/* what nobody wants is none */
	run(&w);
	cr_expect(found(&w, TARN_CHECK_TURNOVER)->id == -1);
}

Test(bed_checks, head_and_water_on_the_stone)
{
	struct world w;
	double needed_m, over_m;
	const double per_flow = 10;	/* m of head a m3/s */

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.drop_m = 1;
	cr_expect(verdict(&w, TARN_CHECK_HEAD) == HOLDS);
	needed_m = w.plan.sized.bed.head_needed_m;
	cr_expect(w.plan.available_head_m == 1);
	w.wish.available_head_m = needed_m * OVER;
	cr_expect(verdict(&w, TARN_CHECK_HEAD) == HOLDS);
	cr_expect(w.plan.available_head_m == needed_m * OVER);
	w.wish.available_head_m = needed_m * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_HEAD) == FORBIDS);
	w.wish.available_head_m = TARN_NAN;
	w.q.head_at = head_of;
	w.q.context = &per_flow;
	run(&w);
	cr_expect(w.plan.head_from == TARN_HEAD_SOLVED);
	cr_expect(near(w.plan.lip_head_m, 10 * w.plan.flow_m3s, 1e-12));
	over_m = w.plan.sized.bed.rise_m + w.plan.lip_head_m;
	w.wish.cover_m = over_m * OVER;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == HOLDS);
	w.wish.cover_m = over_m * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == FORBIDS);
	w.q.lip_head_m = 0.5;	/* what is described goes first */
	run(&w);
	cr_expect(w.plan.head_from == TARN_HEAD_DESCRIBED);
	cr_expect(w.plan.lip_head_m == 0.5);
}

Test(bed_checks, a_loading_beside_the_nearest_range_or_the_kind)
{
	struct world w;

	koi(&w);
	w.q.bed_m2 = w.q.pump_m3s * DAY / (120 * UNDER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == HOLDS);
	cr_expect(w.plan.loading_lo_m_d == 80);
	cr_expect(w.plan.loading_hi_m_d == 120);
	w.q.bed_m2 = w.q.pump_m3s * DAY / (120 * OVER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == DOUBT);
	w.wish.kind = 2;	/* fish farms, 3 to 15 m/d */
	w.q.bed_m2 = w.q.pump_m3s * DAY / (3 * OVER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == HOLDS);
	w.q.bed_m2 = w.q.pump_m3s * DAY / (3 * UNDER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == DOUBT);
	cr_expect(found(&w, TARN_CHECK_LOADING)->lo == 3);
	cr_expect(near(found(&w, TARN_CHECK_LOADING)->margin, UNDER, 1e-9));
	cr_expect_str_eq(w.plan.loading_of,
			 "bed for the effluent of a fish farm");
}

Test(bed_checks, an_area_short_of_what_is_asked_for)
{
	struct world w;

	koi(&w);
	w.wish.surface_share = 0.5;
	w.q.bed_m2 = 6 * OVER;
	cr_expect(verdict(&w, TARN_CHECK_AREA) == HOLDS);
	cr_expect(found(&w, TARN_CHECK_AREA)->lo == 6);
	w.q.bed_m2 = 6 * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_AREA) == DOUBT);
	cr_expect(w.plan.does);
}

/* ---- the room ----------------------------------------------------------------- */

static const struct tarn_yard_corner four_by_three[] = {
	{ 0, 0, 0, TARN_NAN }, { 4, 0, 0, TARN_NAN },
	{ 4, 3, 0, TARN_NAN }, { 0, 3, 0, TARN_NAN },
};

static struct tarn_yard yard(void)
{
	struct tarn_yard y = tarn_yard_default();

	y.corner = four_by_three;
	y.count = 4;
	y.dig_m = TARN_NAN;
	return y;
}

Test(bed_checks, sides_that_lie_in_the_room)
{
	struct world w;
	struct tarn_yard y = yard();

	koi(&w);
	w.q.yard = &y;
	w.wish.length_m = 3;
	w.wish.width_m = 4;
	w.q.bed_m2 = 12;
	cr_expect(verdict(&w, TARN_CHECK_ROOM) == HOLDS);
	w.wish.width_m = 4.001;
	w.q.bed_m2 = 3 * 4.001;
	cr_expect(verdict(&w, TARN_CHECK_ROOM) == FORBIDS);
	cr_expect(near(found(&w, TARN_CHECK_ROOM)->value, 4.001 / 4, 1e-6));
	w.wish.length_m = 1;	/* its area is small, its side too long */
	w.q.bed_m2 = 4.001;
	cr_expect(verdict(&w, TARN_CHECK_ROOM) == FORBIDS);
	cr_expect(!w.plan.does && w.plan.yard);
	cr_expect(w.plan.governing == TARN_CHECK_ROOM);
}

Test(bed_checks, the_largest_that_fits)
{
	struct world w;
	struct tarn_yard y = yard();

	koi(&w);
	w.wish.surface_share = 2;	/* 24 m2 */
	run(&w);
	cr_expect(w.plan.chosen == TARN_CHOSEN_NEEDED);
	cr_expect(near(w.plan.sized.bed.area_m2, 24, 1e-12));
	cr_expect(isnan(w.plan.fit.area_m2) && !w.plan.yard);
	w.q.yard = &y;
	run(&w);
	cr_expect(w.plan.chosen == TARN_CHOSEN_FITS);
	cr_expect(near(w.plan.sized.bed.area_m2, 12, 1e-6));
	cr_expect(found(&w, TARN_CHECK_AREA)->verdict == DOUBT);
	cr_expect(found(&w, TARN_CHECK_ROOM)->verdict == HOLDS);
}

Test(bed_checks, a_room_found_before_serves_a_hole_as_deep)
{
	struct world w;
	struct tarn_yard y = yard();
	struct tarn_bed_plan before;

	koi(&w);
	w.q.yard = &y;
	w.wish.surface_share = 2;
	run(&w);
	before = w.plan;
	before.fit.area_m2 = 6;
	w.q.before = &before;
	run(&w);
	cr_expect(w.plan.sized.bed.area_m2 == 6);
	w.wish.cover_m = 0.06;	/* dug deeper: found anew */
	run(&w);
	cr_expect(near(w.plan.sized.bed.area_m2, 12, 1e-6));
	w.q.yard = NULL;
	run(&w);
	cr_expect(isnan(w.plan.fit.area_m2) && isnan(w.plan.dig_m));
}

/* ---- what governs, and where limits are from ------------------------------------ */

Test(bed_checks, what_forbids_governs_before_what_is_in_doubt)
{
	struct world w;

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.drop_m = 10;
	run(&w);
	cr_expect(w.plan.does);
	cr_expect(found(&w, w.plan.governing)->verdict == DOUBT);
	for (int i = 0; i < w.plan.found.count; i++)
		cr_expect(w.plan.found.finding[i].verdict != DOUBT ||
			  w.plan.found.finding[i].margin >=
			  found(&w, w.plan.governing)->margin);
	w.wish.drop_m = w.plan.sized.bed.head_needed_m * UNDER;
	run(&w);
	cr_expect(!w.plan.does);
	cr_expect(w.plan.governing == TARN_CHECK_HEAD);
}

Test(bed_checks, published_limits_have_their_source)
{
	struct world w;
	static const int published[] = { TARN_CHECK_BOD, TARN_CHECK_SOLIDS };

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	for (size_t i = 0; i < LENGTH(published); i++) {
		const struct tarn_finding *f = found(&w, published[i]);

		cr_expect_str_eq(f->source, "US EPA/625/R-99/010 (2000)");
		cr_expect(f->evidence == TARN_EVIDENCE_MEMORY);
		cr_expect_str_eq(f->unit, "g/m2/d");
	}
	for (int i = 0; i < w.plan.found.count; i++)
		cr_expect(w.plan.found.finding[i].source != NULL);
}

Test(bed_checks, refusals_in_their_order_are_all_of_them)
{
	size_t count;
	const unsigned *order = tarn_bed_refusals(&count);
	unsigned all = 0;

	for (size_t i = 0; i < count; i++) {
		cr_expect(!(all & order[i]));
		all |= order[i];
	}
	cr_expect(all == TARN_BED_REFUSALS);
	cr_expect(order[0] == TARN_BED_DOES_NOT_FIT);
}
