/* SPDX-License-Identifier: MIT */
#include "bed_world.h"

/* ---- the wish --------------------------------------------------------------- */

Test(bed_plan, a_wish_takes_the_sizing_s_own_defaults)
{
	struct tarn_bed_wish w = tarn_bed_wish_default();
	struct tarn_sizing s = tarn_sizing_default();
	struct tarn_waste waste = tarn_waste_default();

	cr_expect(w.sphericity == s.sphericity && w.clogging == s.clogging);
	cr_expect(w.temp_c == s.temp_c && w.elevation_m == s.elevation_m);
	cr_expect(isnan(w.background_mgl));	/* the rate's, or the sizing's */
	cr_expect(w.kind == s.kind && w.direction == s.direction);
	cr_expect(w.protein == waste.protein && w.ration == waste.ration);
	cr_expect(w.cover_m == 0);
	cr_expect(isnan(w.tanks_in_series) && isnan(w.flow_m3s) &&
		  isnan(w.feed_kg));
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

/* The kinds and the ways are those of the sizing, word for word. */
Test(bed_plan, words_of_the_wish_are_the_sizing_s)
{
	static const char *const names[] = { "kind", "direction" };

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

/* ---- demand, flow, load -------------------------------------------------------- */

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
	s.cover_m = 0.05;
	cr_assert(tarn_sizing(&s, &r, NULL) == TARN_OK);
	cr_expect(w.status == TARN_OK);
	cr_expect(w.plan.chosen == TARN_CHOSEN_DESCRIBED);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_PUMP);
	cr_expect(w.plan.sized.needed_m2 == r.needed_m2);
	cr_expect(w.plan.sized.bed.loading_m_d == r.bed.loading_m_d);
	cr_expect(w.plan.sized.bed.oxygen_out_mgl == r.bed.oxygen_out_mgl);
	cr_expect(w.plan.sized.bed.flags == r.bed.flags);
	cr_expect(w.plan.depth_m == 0.9 && w.plan.full_depth_m == 0.9 + 0.05);
	cr_expect(isnan(w.plan.lip_head_m) && w.plan.head_from == -1);
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
	cr_expect(found(&w, TARN_CHECK_TURNOVER)->verdict == HOLDS);
	w.wish.flow_m3s = TARN_NAN;
	run(&w);
	cr_expect(w.plan.flow_m3s == 1e-3);
	cr_expect(w.plan.flow_from == TARN_FLOW_FROM_PUMP);
	cr_expect(found(&w, TARN_CHECK_TURNOVER)->verdict == FORBIDS);
	cr_expect(!w.plan.does);
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
	w.wish.target_mgl = 1;
	refused(&w, "treatment.inlet");
}

Test(bed_plan, no_size_that_does_is_refused_with_the_reasons)
{
	struct world w;

	koi(&w);
	w.wish.loading_m_d = 50;
	w.wish.available_head_m = 0;
	refused(&w, "bed");
	cr_expect(strstr(w.err.text, "has no feasible size among 480 up to"));
	/* as many reasons as there is room for */
	cr_expect(strstr(w.err.text, " m2: the clogged bed needs more head than "
			 "there is; and others") != NULL, "%s", w.err.text);
	w.wish.feed_kg = 3;
	refused(&w, "bed");
	cr_expect(strstr(w.err.text, " m2: the flow brings less oxygen than the "
			 "bed uses: it goes anaerobic; the clogged bed needs more "
			 "head than there is") != NULL, "%s", w.err.text);
	cr_expect(strstr(w.err.text, "others") == NULL, "%s", w.err.text);
}

/* Twice as wide as long if nothing is said; a length or a width that is wished is
 * kept, and the area makes the other. */
Test(bed_plan, a_bed_that_is_chosen_has_the_sides_that_are_wished)
{
	struct world w;
	double area_m2;

	koi(&w);
	w.wish.loading_m_d = 100;
	run(&w);
	cr_assert(w.status == TARN_OK && w.plan.ratio == 2);
	area_m2 = w.plan.sized.bed.area_m2;
	cr_expect(near(w.plan.width_m, sqrt(2 * area_m2), 1e-12));
	cr_expect(near(w.plan.length_m, sqrt(area_m2 / 2), 1e-12));
	w.wish.length_m = 1.1;
	run(&w);
	cr_assert(w.status == TARN_OK);
	cr_expect(near(w.plan.width_m, area_m2 / 1.1, 1e-12));
	cr_expect(near(w.plan.sized.bed.length_m, 1.1, 1e-12));
	w.wish.length_m = TARN_NAN;
	w.wish.width_m = 4.5;
	run(&w);
	cr_assert(w.status == TARN_OK);
	cr_expect(near(w.plan.sized.bed.width_m, 4.5, 1e-12));
	cr_expect(near(w.plan.length_m, area_m2 / 4.5, 1e-12));
}

/* ---- stone ------------------------------------------------------------------------ */

static const struct tarn_layer stack[] = {
	{ "chamber", 0.3, TARN_NAN, 0.95, 1, TARN_NAN },
	{ "stone", 0.4, 0.05, 0.4, 1, TARN_NAN },
	{ "top", 0.2, 0.02, 0.38, 1, TARN_NAN },
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
	/* one layer alone, and no other depth */
	w.q.layer = stack + 1;
	w.q.layers = 1;
	w.q.depth_m = TARN_NAN;
	w.wish.cover_m = 0.1;
	run(&w);
	cr_expect(w.status == TARN_OK, "%s %s", w.err.field, w.err.text);
	cr_expect(near(w.plan.full_depth_m, 0.4, 1e-12) && !w.plan.chamber);
	cr_expect(near(w.plan.depth_m, 0.3, 1e-12) && w.plan.wets == 1);
	w.q.layers = 0;
	cr_expect(tarn_bed_stone(&w.q, &w.plan, each, &total, &w.err) ==
		  TARN_EARG);
	cr_expect_str_eq(w.err.field, "bed.layers");
}
