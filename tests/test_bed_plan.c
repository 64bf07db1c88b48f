/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed_rows.h"
#include "tarn/bed_plan.h"

/* ---- the wish --------------------------------------------------------------- */

Test(bed_plan, a_wish_takes_the_sizing_s_own_defaults)
{
	struct tarn_bed_wish w = tarn_bed_wish_default();
	struct tarn_sizing s = tarn_sizing_default();
	struct tarn_waste waste = tarn_waste_default();

	cr_expect(w.sphericity == s.sphericity && w.clogging == s.clogging);
	cr_expect(w.temp_c == s.temp_c && w.elevation_m == s.elevation_m);
	cr_expect(isnan(w.background_mgl));	/* the rate's, or the sizing's */
	cr_expect(w.regime == s.regime && w.direction == s.direction);
	cr_expect(w.protein == waste.protein && w.ration == waste.ration);
	cr_expect(w.cover_m == 0);
	cr_expect(isnan(w.tanks) && isnan(w.flow_m3s) && isnan(w.feed_kg));
}

Test(bed_plan, every_section_checks_its_own_fields)
{
	static const char *const sections[TARN_BED_WISH_SECTIONS] = {
		"bed", "demand", "fish", "water", "treatment",
	};

	for (size_t i = 0; i < TARN_BED_WISH_SECTIONS; i++) {
		const struct tarn_fields *fields = tarn_bed_wish_sections[i];
		struct tarn_bed_wish w = tarn_bed_wish_default();
		const struct tarn_field *row = &fields->rows[0];
		double *value = (double *)(void *)((char *)&w + row->offset);
		struct tarn_error err = { 0 };
		char full[64];

		cr_expect_str_eq(fields->section, sections[i]);
		cr_expect(tarn_fields_check(fields, &w, &err) == TARN_OK);
		*value = row->lo;
		cr_expect(tarn_fields_check(fields, &w, &err) == TARN_OK);
		*value = -1;
		cr_expect(tarn_fields_check(fields, &w, &err) == TARN_EARG);
		snprintf(full, sizeof full, "%s.%s", sections[i], row->name);
		cr_expect_str_eq(err.field, full);
	}
}

/* The regimes and the ways are those of the sizing, word for word. */
Test(bed_plan, words_of_the_wish_are_the_sizing_s)
{
	static const char *const names[] = { "regime", "direction" };

	for (size_t i = 0; i < 2; i++) {
		const char *const *a =
			tarn_fields_find(&tarn_bed_wish_fields, names[i])
				->choices;
		const char *const *b =
			tarn_fields_find(&tarn_sizing_fields, names[i])
				->choices;

		while (*a && *b)
			cr_expect_str_eq(*a++, *b++);
		cr_expect(!*a && !*b);
	}
}

/* ---- a plan ------------------------------------------------------------------ */

/* Koi: 8 m3, 12 m2, 100 g of feed a day, 2000 gph, 0.9 m of 20 mm stone under
 * 5 cm of dry stone. */
struct world {
	struct tarn_bed_wish wish;
	struct tarn_bed_question q;
	struct tarn_bed_plan plan;
	struct tarn_error err;
	enum tarn_status status;
};

static void koi(struct world *w)
{
	w->wish = tarn_bed_wish_default();
	w->wish.feed_kg = 0.1;
	w->wish.cover_m = 0.05;
	w->wish.diameter_m = 0.02;
	w->q = tarn_bed_question_default();
	w->q.wish = &w->wish;
	w->q.fish = 1;
	w->q.depth_m = 0.9;
	w->q.porosity = 0.38;
	w->q.surface_m2 = 12;
	w->q.volume_m3 = 8;
	w->q.pump_m3s = 2000 * tarn_unit("gph");
}

static void run(struct world *w)
{
	w->err = (struct tarn_error){ 0 };
	w->status = tarn_bed_plan(&w->q, &w->plan, &w->err);
}

static const struct tarn_bed_finding *found(const struct world *w, int id)
{
	static const struct tarn_bed_finding none = { .id = -1, .verdict = -1 };

	for (int i = 0; i < w->plan.findings; i++)
		if (w->plan.finding[i].id == id)
			return &w->plan.finding[i];
	return &none;
}

static double wanted(const struct world *w, int of)
{
	for (int i = 0; i < w->plan.demands; i++)
		if (w->plan.demand[i].of == of)
			return w->plan.demand[i].flow_m3s;
	return TARN_NAN;
}

/* The verdict of a check of the bed as it is now. */
static int verdict(struct world *w, int id)
{
	run(w);
	cr_expect(w->status == TARN_OK, "%s %s", w->err.field, w->err.text);
	return found(w, id)->verdict;
}

static void refused(struct world *w, const char *field)
{
	run(w);
	cr_expect(w->status == TARN_EARG && w->err.code == TARN_EARG);
	cr_expect_str_eq(w->err.field, field, "%s %s", w->err.field,
			 w->err.text);
}

#define HOLDS TARN_VERDICT_HOLDS
#define DOUBT TARN_VERDICT_DOUBT
#define FORBIDS TARN_VERDICT_FORBIDS

Test(bed_plan, the_sizing_s_answer_is_the_plan_s)
{
	struct world w;
	struct tarn_sizing s = tarn_sizing_default();
	struct tarn_sizing_result r;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	s.area_m2 = 4;
	s.flow_m3s = 2000 * tarn_unit("gph");
	s.pond_area_m2 = 12;
	s.pond_volume_m3 = 8;
	s.feed_g = 100;
	s.depth_m = 0.9;
	s.diameter_m = 0.02;
	s.porosity = 0.38;
	s.freeboard_m = 0.05;
	cr_assert(tarn_sizing(&s, &r, NULL) == TARN_OK);
	cr_expect(w.status == TARN_OK);
	cr_expect(w.plan.chosen == TARN_CHOSEN_DESCRIBED);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_PUMP);
	cr_expect(w.plan.sized.needed_m2 == r.needed_m2);
	cr_expect(w.plan.sized.bed.loading_m_d == r.bed.loading_m_d);
	cr_expect(w.plan.sized.bed.oxygen_out_mgl == r.bed.oxygen_out_mgl);
	cr_expect(w.plan.sized.bed.flags == r.bed.flags);
	cr_expect(w.plan.depth_m == 0.9 && w.plan.full_depth_m == 0.9 + 0.05);
	cr_expect(isnan(w.plan.head_m) && w.plan.head_from == -1);
}

Test(bed_plan, flow_is_the_bed_s_then_the_works_then_the_pump_s)
{
	struct world w;

	koi(&w);
	w.wish.turnover_per_h = 0.5;
	w.q.works_m3s = 1e-3;
	w.wish.flow_m3s = 2e-3;
	run(&w);
	cr_expect(w.plan.flow_m3s == 2e-3);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_BED);
	cr_expect(!w.plan.flow_short);
	w.wish.flow_m3s = TARN_NAN;
	run(&w);
	cr_expect(w.plan.flow_m3s == 1e-3);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_PUMP);
	cr_expect(w.plan.flow_short);
	w.q.from_curve = 1;
	run(&w);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_CURVE);
	w.q.works_m3s = w.q.pump_m3s = TARN_NAN;
	run(&w);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_DEMAND);
	cr_expect(w.plan.greatest == TARN_DEMAND_TURNOVER);
	cr_expect(near(w.plan.flow_m3s, 0.5 * 8 / 3600, 1e-12));
}

Test(bed_plan, demands_by_hand)
{
	struct world w;
	double ammonia_g, oxygen_g, saturation;

	koi(&w);
	w.wish.ammonia_mgl = 0.5;
	w.wish.background_mgl = 0.1;
	w.wish.k_m_yr = 206;
	w.q.falls_m3s = 3e-3;
	w.wish.fall_width_m = 1;
	w.wish.fall_depth_m = 0.01;
	run(&w);
	ammonia_g = w.plan.waste.ammonia_g;
	cr_expect(near(ammonia_g, 100 * 0.35 * 0.092, 1e-12));
	cr_expect(near(wanted(&w, TARN_DEMAND_AMMONIA),
		       ammonia_g / 0.4 / DAY, 1e-12));
	saturation = tarn_oxygen_saturation(20, 0);
	oxygen_g = w.plan.waste.nitrification_oxygen_g + w.plan.waste.bod_g;
	cr_expect(near(wanted(&w, TARN_DEMAND_OXYGEN),
		       oxygen_g / (0.8 * saturation - 2) / DAY, 1e-9));
	cr_expect(wanted(&w, TARN_DEMAND_FALLS) == 3e-3);
	cr_expect(isnan(wanted(&w, TARN_DEMAND_TURNOVER)));
	cr_expect(w.plan.greatest == TARN_DEMAND_FALLS);
}

Test(bed_plan, what_becomes_of_the_load)
{
	struct world w;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	cr_expect(isnan(w.plan.half_d) && isnan(w.plan.unionised_share));
	cr_expect(near(w.plan.nitrate_mgl_d, w.plan.waste.ammonia_g / 8,
		       1e-12));
	w.wish.k_m_yr = 206;
	w.wish.ph = 8.5;
	run(&w);
	cr_expect(near(exp(-w.plan.half_d * w.plan.sized.bed.pond_per_day),
		       0.5, 1e-12));
	cr_expect(near(exp(-w.plan.settled_d *
			   w.plan.sized.bed.pond_per_day), 0.05, 0.005));
	cr_expect(near(w.plan.unionised_mgl, w.plan.sized.bed.pond_mgl *
		       tarn_unionised(8.5, 20), 1e-12));
	w.q.fish = 0;
	w.wish.loading_m_d = 50;
	run(&w);
	cr_expect(isnan(w.plan.nitrate_mgl_d));
	cr_expect(isnan(w.plan.phosphorus_mgl_d));
}

Test(bed_plan, fish_that_are_not_fed_in_the_cold)
{
	struct world w;

	koi(&w);
	w.wish.feed_kg = TARN_NAN;
	w.wish.mass_kg = 10;
	w.wish.loading_m_d = 50;
	w.wish.temp_c = 9;
	run(&w);
	cr_expect(w.status == TARN_OK && w.plan.unfed);
	cr_expect(w.plan.waste.feed_g == 0);
	w.wish.temp_c = 11;
	run(&w);
	cr_expect(!w.plan.unfed && w.plan.waste.feed_g > 0);
}

/* ---- both sides of each limit ------------------------------------------------ */

#define OVER (1 + 1e-6)
#define UNDER (1 - 1e-6)

Test(bed_plan, limits_on_the_plan_area)
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

Test(bed_plan, limit_on_the_section_of_a_horizontal_bed)
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

Test(bed_plan, oxygen_left_at_the_outlet)
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
	cr_expect(w.plan.flow_short);
	lacking = w.plan.sized.bed.oxygen_demand_g / DAY /
		  (0.8 * tarn_oxygen_saturation(20, 0));
	w.q.pump_m3s = lacking * OVER;
	cr_expect(verdict(&w, TARN_CHECK_OXYGEN) == DOUBT);
	w.q.pump_m3s = lacking * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_OXYGEN) == FORBIDS);
}

Test(bed_plan, ammonia_outlet_and_flow)
{
	struct world w;
	double pond_mgl, outlet_mgl, least;

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.k_m_yr = 206;
	w.wish.ammonia_mgl = 1000;
	w.wish.inlet_mgl = 1;
	w.wish.outlet_mgl = 0.999;
	run(&w);
	pond_mgl = w.plan.sized.bed.pond_mgl;
	outlet_mgl = w.plan.sized.bed.outlet_mgl;
	w.wish.ammonia_mgl = pond_mgl * OVER;
	w.wish.outlet_mgl = outlet_mgl * OVER;
	cr_expect(verdict(&w, TARN_CHECK_AMMONIA) == HOLDS);
	cr_expect(verdict(&w, TARN_CHECK_OUTLET) == HOLDS);
	w.wish.outlet_mgl = outlet_mgl * UNDER;
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

static enum tarn_status head_of(const void *context, double flow_m3s,
				double *head_m, struct tarn_error *err)
{
	(void)err;
	*head_m = *(const double *)context * flow_m3s;
	return TARN_OK;
}

Test(bed_plan, head_and_water_on_the_stone)
{
	struct world w;
	double needed_m, over_m;
	const double per_flow = 10;	/* m of head a m3/s */

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.drop_m = 1;
	cr_expect(verdict(&w, TARN_CHECK_HEAD) == HOLDS);
	needed_m = w.plan.sized.bed.head_needed_m;
	cr_expect(w.plan.spare_m == 1);
	w.wish.spare_head_m = needed_m * OVER;
	cr_expect(verdict(&w, TARN_CHECK_HEAD) == HOLDS);
	cr_expect(w.plan.spare_m == needed_m * OVER);
	w.wish.spare_head_m = needed_m * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_HEAD) == FORBIDS);
	w.wish.spare_head_m = TARN_NAN;
	w.q.head_at = head_of;
	w.q.context = &per_flow;
	run(&w);
	cr_expect(w.plan.head_from == TARN_HEAD_SOLVED);
	cr_expect(near(w.plan.head_m, 10 * w.plan.flow_m3s, 1e-12));
	over_m = w.plan.sized.bed.rise_m + w.plan.head_m;
	w.wish.cover_m = over_m * OVER;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == HOLDS);
	w.wish.cover_m = over_m * UNDER;
	cr_expect(verdict(&w, TARN_CHECK_LIP) == FORBIDS);
	w.q.head_m = 0.5;	/* what is described goes first */
	run(&w);
	cr_expect(w.plan.head_from == TARN_HEAD_DESCRIBED);
	cr_expect(w.plan.head_m == 0.5);
}

Test(bed_plan, a_loading_beside_the_nearest_range_or_the_regime)
{
	struct world w;

	koi(&w);
	w.q.bed_m2 = w.q.pump_m3s * DAY / (120 * UNDER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == HOLDS);
	cr_expect(w.plan.loading_lo_m_d == 80);
	cr_expect(w.plan.loading_hi_m_d == 120);
	w.q.bed_m2 = w.q.pump_m3s * DAY / (120 * OVER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == DOUBT);
	w.wish.regime = 2;	/* fish farms, 3 to 15 m/d */
	w.q.bed_m2 = w.q.pump_m3s * DAY / (3 * OVER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == HOLDS);
	w.q.bed_m2 = w.q.pump_m3s * DAY / (3 * UNDER);
	cr_expect(verdict(&w, TARN_CHECK_LOADING) == DOUBT);
	cr_expect(found(&w, TARN_CHECK_LOADING)->lo == 3);
	cr_expect(near(found(&w, TARN_CHECK_LOADING)->margin, UNDER, 1e-9));
	cr_expect_str_eq(w.plan.loading_of,
			 "bed for the effluent of a fish farm");
}

Test(bed_plan, an_area_short_of_what_is_asked_for)
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
	{ 0, 0, 0, NAN }, { 4, 0, 0, NAN }, { 4, 3, 0, NAN }, { 0, 3, 0, NAN },
};

static struct tarn_yard yard(void)
{
	struct tarn_yard y = tarn_yard_default();

	y.corner = four_by_three;
	y.count = 4;
	y.dig_m = TARN_NAN;
	return y;
}

Test(bed_plan, sides_that_lie_in_the_room)
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

Test(bed_plan, the_largest_that_fits)
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

Test(bed_plan, a_room_found_before_serves_a_hole_as_deep)
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

Test(bed_plan, what_forbids_governs_before_what_is_in_doubt)
{
	struct world w;

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.drop_m = 10;
	run(&w);
	cr_expect(w.plan.does);
	cr_expect(found(&w, w.plan.governing)->verdict == DOUBT);
	for (int i = 0; i < w.plan.findings; i++)
		cr_expect(w.plan.finding[i].verdict != DOUBT ||
			  w.plan.finding[i].margin >=
			  found(&w, w.plan.governing)->margin);
	w.wish.drop_m = w.plan.sized.bed.head_needed_m * UNDER;
	run(&w);
	cr_expect(!w.plan.does);
	cr_expect(w.plan.governing == TARN_CHECK_HEAD);
}

Test(bed_plan, published_limits_have_their_source)
{
	struct world w;
	static const int published[] = { TARN_CHECK_BOD, TARN_CHECK_SOLIDS };

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	for (size_t i = 0; i < LENGTH(published); i++) {
		const struct tarn_bed_finding *f = found(&w, published[i]);

		cr_expect_str_eq(f->source, "US EPA/625/R-99/010 (2000)");
		cr_expect(f->evidence == TARN_EVIDENCE_MEMORY);
		cr_expect_str_eq(f->unit, "g/m2/d");
	}
	for (int i = 0; i < w.plan.findings; i++)
		cr_expect(w.plan.finding[i].source != NULL);
}

Test(bed_plan, refusals_in_their_order_are_all_of_them)
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

/* ---- refusals name the description's own field ------------------------------------ */

Test(bed_plan, refusals_name_the_field_of_the_description)
{
	struct world w;

	koi(&w);
	w.wish.feed_kg = TARN_NAN;
	refused(&w, "fish");
	koi(&w);
	w.wish.fall_width_m = 1;
	refused(&w, "demand.fall_width");
	koi(&w);
	w.q.pump_m3s = 0;
	refused(&w, "pump.flow");
	koi(&w);
	w.q.pump_m3s = TARN_NAN;
	w.q.fish = 0;
	refused(&w, "pump.flow");
	koi(&w);
	w.q.depth_m = TARN_NAN;
	refused(&w, "bed.layers");
	koi(&w);
	w.wish.ammonia_mgl = 0.5;
	refused(&w, "treatment.k");
	w.wish.k_m_yr = 200;
	w.q.fish = 0;
	refused(&w, "treatment.ammonia");
	cr_expect_str_eq(w.err.text, "needs the load: describe the fish (feed "
			 "or mass)");
	koi(&w);
	w.wish.ammonia_mgl = 0.5;
	w.wish.k_m_yr = 200;
	w.wish.background_mgl = 0.6;
	refused(&w, "treatment.ammonia");
	koi(&w);
	w.q.fish = 0;
	refused(&w, "bed");
	koi(&w);
	w.wish.clogging = 0;
	refused(&w, "bed.clogging");
	koi(&w);
	w.wish.temp_c = 41;
	refused(&w, "water.temp");
	koi(&w);
	w.wish.k_m_yr = 200;
	w.wish.outlet_mgl = 1;
	refused(&w, "treatment.inlet");
}

Test(bed_plan, no_size_that_does_is_refused_with_the_reasons)
{
	struct world w;

	koi(&w);
	w.wish.loading_m_d = 50;
	w.wish.spare_head_m = 0;
	refused(&w, "bed");
	cr_expect(strstr(w.err.text, "has no feasible size among 480 up to"));
	cr_expect(strstr(w.err.text, ": the clogged bed needs more head than "
			 "there is"), "%s", w.err.text);
}

/* ---- stone ------------------------------------------------------------------------ */

static const struct tarn_layer stack[] = {
	{ "chamber", 0.3, NAN, 0.95, 1, NAN },
	{ "stone", 0.4, 0.05, 0.4, 1, NAN },
	{ "top", 0.2, 0.02, 0.38, 1, NAN },
};

Test(bed_plan, layers_as_far_as_they_are_under_water)
{
	struct world w;
	struct tarn_layer_result each[3];
	struct tarn_layers_result total;

	koi(&w);
	w.q.layer = stack;
	w.q.layers = 3;
	w.q.bed_m2 = 4;
	w.wish.cover_m = 0.25;
	run(&w);
	cr_expect(w.status == TARN_OK, "%s %s", w.err.field, w.err.text);
	cr_expect(w.plan.wets == 2 && w.plan.chamber);
	cr_expect(near(w.plan.wet[1].thickness_m, 0.35, 1e-12));
	cr_expect(near(w.plan.depth_m, 0.65, 1e-12));
	cr_expect(near(w.plan.full_depth_m, 0.9, 1e-12));
	cr_expect(near(w.plan.sized.bed.volume_m3, 0.65 * 4, 1e-12));
	cr_assert(tarn_bed_stone(&w.q, &w.plan, each, &total, NULL) ==
		  TARN_OK);
	cr_expect(near(total.depth_m, 0.9, 1e-12));
	cr_expect(near(each[1].wet_m, 0.35, 1e-12) && each[2].wet_m < 1e-12);
	w.q.layers = 0;
	cr_expect(tarn_bed_stone(&w.q, &w.plan, each, &total, &w.err) ==
		  TARN_EARG);
	cr_expect_str_eq(w.err.field, "bed.layers");
}

/* ---- grids, rates, chances ---------------------------------------------------------- */

Test(bed_plan, grids_keep_the_way_to_the_lip_and_have_their_own_head)
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
		cr_expect(near(cells[i].head_needed_m - cells[i].clogged_m,
			       10 * cells[i].flow_m3s, 1e-9));
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

Test(bed_plan, rates_beside_the_one_described)
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

Test(bed_plan, a_rate_s_background_gives_way_to_the_one_described)
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

Test(bed_plan, chances_are_those_of_the_bed_itself)
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

Test(bed_plan, loadings_and_shares_of_others_as_areas)
{
	struct world w;
	struct tarn_bed_published p[TARN_BED_PUBLISHED];
	struct tarn_bed_practice shares[TARN_BED_PRACTICE];
	size_t count;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	count = tarn_bed_published(&w.plan, p);
	cr_assert(count >= 4 && p[0].use == TARN_USE_SEWAGE);
	cr_expect(p[count - 1].use == TARN_USE_ROUGHING);
	for (size_t i = 0; i < count; i++) {
		cr_expect(near(p[i].lo_m2 * p[i].hi_m_d, w.plan.flow_m3s * DAY,
			       1e-12));
		cr_expect(p[i].lo_m2 <= p[i].hi_m2);
		cr_expect(p[i].part == 0 || p[i].lo_m_d > 5 * p[i - 1].hi_m_d);
		cr_expect(p[i].factor == tarn_loading_factor(
			w.plan.sized.bed.loading_m_d, p[i].lo_m_d,
			p[i].hi_m_d));
	}
	cr_expect(p[1].use == TARN_USE_SEWAGE && p[1].part == 1);
	count = tarn_bed_practice(&w.q, &w.plan, shares);
	cr_expect(count == 2);
	cr_expect(shares[0].basis == TARN_RULE_SURFACE);
	cr_expect(near(shares[0].lo_m2, 0.1 * 12, 1e-12));
	cr_expect(near(shares[0].hi_m2, 12, 1e-12));
	cr_expect(near(shares[1].hi_m2, 0.3 * 8 / 0.9, 1e-12));
}
