/* SPDX-License-Identifier: MIT */
#include "bed_world.h"

/* Answers of bed.h where a case ends, and what is refused there. */

/* ---- treatment ------------------------------------------------------------------ */

static struct tarn_treatment bed(void)
{
	struct tarn_treatment t = tarn_treatment_default();

	t.flow_m3s = 10 / DAY;
	t.area_m2 = 5;		/* 2 m/d */
	t.inlet_mgl = 8;
	t.k_m_yr = 365;		/* 1 m/d */
	return t;
}

static void treated(const struct tarn_treatment *t, double want, const char *what)
{
	struct tarn_treatment_result r;
	struct tarn_error err = { 0 };

	cr_assert(tarn_treatment_outlet(t, &r, &err) == TARN_OK, "%s: %s", what,
		  err.text);
	cr_expect(near(r.outlet_mgl, want, 1e-12), "%s: %.15g, want %.15g", what,
		  r.outlet_mgl, want);
}

static void not_treated(const struct tarn_treatment *t, int area, const char *field)
{
	struct tarn_treatment_result r;
	struct tarn_error err = { 0 };

	cr_expect((area ? tarn_treatment_area(t, &r, &err)
			: tarn_treatment_outlet(t, &r, &err)) == TARN_EARG);
	cr_expect_str_eq(err.field, field, "%s %s", err.field, err.text);
}

/* exp(-k/q) in plug flow, 1/(1 + k/q) in one tank, 1/(1 + k/2q)^2 in two; rain
 * thins, and without a rate it is all that happens. */
Test(bed_limits, one_pass_by_hand)
{
	struct tarn_treatment t = bed();

	treated(&t, 8 * exp(-0.5), "plug flow");
	t.tanks_in_series = 1;
	treated(&t, 8 / 1.5, "one tank");
	t.tanks_in_series = 2;
	treated(&t, 8 / 1.5625, "two tanks");
	t.background_mgl = 2;
	treated(&t, 2 + 6 / 1.5625, "over a background");
	t = bed();
	t.k_m_yr = 0;
	treated(&t, 8, "no rate");
	t.rain_mm_d = 200;	/* 1 m3 more to 10 */
	treated(&t, 80 / 11.0, "rain alone");
	t.rain_mgl = 1;
	treated(&t, 81 / 11.0, "rain that is not clean");
	t.rain_mm_d = t.rain_mgl = 0;
	t.et_mm_d = 100;
	treated(&t, 80 / 9.5, "loss alone");
	t.et_mm_d = 0;
	t.inlet_mgl = 0;
	treated(&t, 0, "clean water");
}

/* k of a day in 0.5 m of 0.4 voids is 0.2 m/d a 1/d. */
Test(bed_limits, rates_of_a_volume)
{
	struct tarn_treatment t = bed();

	t.k_m_yr = TARN_NAN;
	not_treated(&t, 0, "treatment.k_m_yr");
	t.k_per_day = 5;
	not_treated(&t, 0, "treatment.k_per_day");
	t.depth_m = 0.5;
	not_treated(&t, 0, "treatment.k_per_day");
	t.depth_m = TARN_NAN;
	t.porosity = 0.4;
	not_treated(&t, 0, "treatment.k_per_day");
	t.depth_m = 0.5;
	treated(&t, 8 * exp(-0.5), "1 m/d");
	t.k_m_yr = 1;
	not_treated(&t, 0, "treatment.k_m_yr");
}

Test(bed_limits, tanks_in_rain_are_whole)
{
	struct tarn_treatment t = bed();

	t.tanks_in_series = 1.5;
	treated(&t, 8 * pow(1 + 0.5 / 1.5, -1.5), "no rain");
	t.rain_mm_d = 1;
	not_treated(&t, 0, "treatment.tanks_in_series");
	t.tanks_in_series = 2;
	/* 2.5 m2 each: 10 to 10.0025 to 10.005 m3, less 2.5 m3/d each */
	treated(&t, 8 * 10 / 12.5025 * 10.0025 / 12.505, "two tanks in rain");
	t.tanks_in_series = 1e9;
	not_treated(&t, 0, "treatment.tanks_in_series");
}

/* Area that halves: q/k ln 2; that of tanks in rain gives back its target. */
Test(bed_limits, areas_for_a_target)
{
	struct tarn_treatment t = bed();
	struct tarn_treatment_result r, back;

	t.area_m2 = TARN_NAN;
	t.target_mgl = 4;
	cr_assert(tarn_treatment_area(&t, &r, NULL) == TARN_OK);
	cr_expect(near(r.area_m2, 10 * log(2), 1e-12));
	for (int i = 0; i < 3; i++) {
		t.tanks_in_series = 3;
		t.rain_mm_d = i == 1 ? 0 : 4;
		t.et_mm_d = i == 0 ? 0 : 6;	/* more than, as, less than rain */
		cr_assert(tarn_treatment_area(&t, &r, NULL) == TARN_OK);
		t.area_m2 = r.area_m2;
		t.target_mgl = TARN_NAN;
		cr_assert(tarn_treatment_outlet(&t, &back, NULL) == TARN_OK);
		cr_expect(near(back.outlet_mgl, 4, 1e-9), "%d: %.12g", i,
			  back.outlet_mgl);
		t.area_m2 = TARN_NAN;
		t.target_mgl = 4;
	}
	/* what no bed reaches */
	t = bed();
	t.area_m2 = TARN_NAN;
	t.background_mgl = 2;
	t.target_mgl = 2;
	not_treated(&t, 1, "treatment.target");
	t.target_mgl = 2.001;
	cr_expect(tarn_treatment_area(&t, &r, NULL) == TARN_OK);
	t.tanks_in_series = 2;
	t.et_mm_d = 5;
	not_treated(&t, 1, "treatment.target");
	t.et_mm_d = 0;
	t.k_m_yr = 0;
	t.background_mgl = 0;
	t.target_mgl = 4;
	not_treated(&t, 1, "treatment.target");
}

/* base + slope x inlet: what a rate says of its background. */
Test(bed_limits, backgrounds_of_a_rate)
{
	struct tarn_rate rate = { .k_m_yr = 10, .k_per_day = TARN_NAN,
				  .tanks_in_series = 3, .theta = 1.05,
				  .background_mgl = TARN_NAN, .low_m_d = 0.1,
				  .high_m_d = 2 };
	struct tarn_treatment t = bed();

	t.background_mgl = 0.5;
	tarn_treatment_set_rate(&t, &rate);
	cr_expect(near(t.background_mgl, 0.5, 1e-12), "not known: as it was");
	cr_expect(near(t.k_m_yr, 10, 0) && near(t.theta, 1.05, 0) &&
		  near(t.tanks_in_series, 3, 0) && isnan(t.k_per_day) &&
		  near(t.k_low_m_d, 0.1, 0) && near(t.k_high_m_d, 2, 0));
	rate.background_slope = 0.1;
	tarn_treatment_set_rate(&t, &rate);
	cr_expect(near(t.background_mgl, 1.3, 1e-12), "a tenth of 8 more");
	rate.background_mgl = 2;
	tarn_treatment_set_rate(&t, &rate);
	cr_expect(near(t.background_mgl, 2.8, 1e-12));
}

/* ---- loops ---------------------------------------------------------------------- */

Test(bed_limits, days_of_a_loop)
{
	struct tarn_loop loop = tarn_loop_default();
	double from[TARN_SUBSTANCES] = { 0 }, to[TARN_SUBSTANCES];
	struct tarn_error err = { 0 };

	loop.volume_m3 = 10;
	loop.flow_m3s = 1e-3;
	loop.area_m2 = 2;
	loop.substance[TARN_AMMONIA].load_g_d = 5;
	/* nothing takes it out: 0.5 mg/L more a day */
	cr_assert(tarn_loop_after(&loop, 4, from, to, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	cr_expect(near(to[TARN_AMMONIA], 2, 1e-12), "%g", to[TARN_AMMONIA]);
	cr_assert(tarn_loop_after(&loop, 0, from, to, NULL) == TARN_OK);
	cr_expect(to[TARN_AMMONIA] == 0);
	cr_expect(tarn_loop_after(&loop, 1e6, from, to, NULL) == TARN_OK);
	cr_expect(tarn_loop_after(&loop, 1e6 + 1, from, to, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "days");
	cr_expect(tarn_loop_after(&loop, -1e-9, from, to, NULL) == TARN_EARG);
	for (int i = 0; i < 3; i++) {
		from[TARN_BOD] = i == 0 ? -1e-9 : i == 1 ? 1e6 + 1 : TARN_NAN;
		err = (struct tarn_error){ 0 };
		cr_expect(tarn_loop_after(&loop, 1, from, to, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, "start");
	}
	from[TARN_BOD] = 1e6;
	cr_expect(tarn_loop_after(&loop, 1, from, to, NULL) == TARN_OK);
}

/* ---- gravel, lips ----------------------------------------------------------------- */

Test(bed_limits, gravel_that_is_none)
{
	const double share[] = { 0.5, 0.5 }, size[] = { 1e-3, 2e-3 };
	const double no_share[] = { 0.5, 0 }, no_size[] = { 1e-3, 0 };
	struct tarn_gravel g = tarn_gravel_default();
	struct tarn_headloss h;
	struct tarn_error err = { 0 };

	g.diameter_m = 0.01;
	g.porosity = 0.4;
	cr_expect(tarn_rose_headloss(&g, share, size, 2, 1e-3, 0.6) > 0);
	cr_expect(isnan(tarn_rose_headloss(&g, no_share, size, 2, 1e-3, 0.6)));
	cr_expect(isnan(tarn_rose_headloss(&g, share, no_size, 2, 1e-3, 0.6)));
	cr_expect(isnan(tarn_rose_headloss(&g, share, size, 0, 1e-3, 0.6)));
	cr_expect(isnan(tarn_rose_headloss(&g, share, size, 2, 1e-3, -1e-9)));
	cr_expect(tarn_rose_headloss(&g, share, size, 2, 1e-3, 0) == 0);
	g.porosity = 1;
	cr_expect(isnan(tarn_rose_headloss(&g, share, size, 2, 1e-3, 0.6)));
	g.porosity = 0;
	cr_expect(isnan(tarn_rose_headloss(&g, share, size, 2, 1e-3, 0.6)));
	g.porosity = 0.4;
	cr_expect(isnan(tarn_forchheimer(0, 0.4).linear));
	cr_expect(isnan(tarn_forchheimer(0.01, 0).linear));
	cr_expect(isnan(tarn_forchheimer(0.01, 1).quadratic));
	/* the law's own numbers at 1 m and all voids but a little */
	cr_expect(near(tarn_forchheimer(1, 1 - 1e-12).linear, 0.003333, 1e-9));
	cr_expect(near(tarn_forchheimer(1, 1 - 1e-12).quadratic, 0.194325, 1e-9));
	cr_expect(tarn_gravel_headloss(&g, 0, 1, &h, NULL) == TARN_OK &&
		  h.clean_m == 0);
	cr_expect(tarn_gravel_headloss(&g, 10, 1, &h, NULL) == TARN_OK);
	cr_expect(tarn_gravel_headloss(&g, 10.001, 1, &h, &err) == TARN_EARG);
	cr_expect(tarn_gravel_headloss(&g, -1e-9, 1, &h, NULL) == TARN_EARG);
	cr_expect(tarn_gravel_headloss(&g, 1e-3, -1e-9, &h, NULL) == TARN_EARG);
	cr_expect(tarn_gravel_headloss(&g, 1e-3, 0, &h, NULL) == TARN_OK);
}

Test(bed_limits, lips_that_are_none)
{
	const struct tarn_lip good = { 3, 2, 1, TARN_LIP_MIDDLE, 0.3, 1e-3, 0,
				       { 1, 100 } };
	struct tarn_lip all = good;

	cr_expect(tarn_lip_rise_m(&good) > 0);
	all.lip_m = 3;	/* as long as its side */
	/* straight: a q L^2 / 2y + b q^2 L^3 / 3y^2, q = Q / BL */
	cr_expect(near(tarn_lip_rise_m(&all), 1e-3 / 6 * 4 / 0.6 +
		       100 * 1e-6 / 36 * 8 / 0.27, 1e-9), "%.12g",
		  tarn_lip_rise_m(&all));
	for (int i = 0; i < 8; i++) {
		struct tarn_lip l = good;
		double *const member[] = { &l.width_m, &l.length_m, &l.lip_m,
					   &l.layer_m, &l.flow_m3s,
					   &l.stone.linear, &l.stone.quadratic,
					   &l.lip_m };

		*member[i] = i < 4 ? 0 : i < 7 ? -1e-9 : 3.001;
		cr_expect(isnan(tarn_lip_rise_m(&l)), "%d", i);
		if (i >= 4 && i < 7) {
			*member[i] = 0;
			cr_expect(!isnan(tarn_lip_rise_m(&l)), "%d at 0", i);
		}
	}
}

/* ---- the plan ---------------------------------------------------------------------- */

Test(bed_limits, axes_that_are_none)
{
	static const int bad[][3] = {
		{ 0, 1, 1 }, { TARN_BED_AREAS + 1, 1, 1 }, { 1, 0, 1 },
		{ 1, TARN_BED_DEPTHS + 1, 1 }, { 1, 1, 0 },
		{ 1, 1, TARN_BED_FLOWS + 1 },
	};
	static struct tarn_bed_check cells[1];
	struct tarn_bed_axes a = { .area_m2 = { 3 }, .depth_m = { 0.9 },
				   .flow_m3s = { 1e-3 } };
	struct world w;

	koi(&w);
	w.q.bed_m2 = 4;
	run(&w);
	cr_assert(w.status == TARN_OK);
	for (size_t i = 0; i < LENGTH(bad); i++) {
		a.areas = bad[i][0];
		a.depths = bad[i][1];
		a.flows = bad[i][2];
		w.err = (struct tarn_error){ 0 };
		cr_expect(tarn_bed_cells(&w.q, &w.plan, &a, cells, &w.err) ==
			  TARN_EARG, "%zu", i);
		cr_expect(strstr(w.err.text, "must have 1 to 40 areas, 25 depths "
				 "and 10 flows") != NULL, "%s", w.err.text);
	}
	a.areas = a.depths = a.flows = 1;
	cr_assert(tarn_bed_cells(&w.q, &w.plan, &a, cells, NULL) == TARN_OK);
	cr_expect(near(cells[0].area_m2, 3, 1e-12) &&
		  near(cells[0].flow_m3s, 1e-3, 1e-12));
}

Test(bed_limits, plans_that_are_none)
{
	static struct tarn_layer many[TARN_BED_LAYERS + 1];
	struct world w;

	koi(&w);
	w.q.bed_m2 = 4;
	w.wish.trough_width_m = 0.3;
	refused(&w, "bed.trough_depth");
	w.wish.trough_width_m = TARN_NAN;
	w.wish.trough_depth_m = 0.3;
	refused(&w, "bed.trough_width");
	w.wish.trough_depth_m = TARN_NAN;
	w.wish.lip_width_m = 0.5;
	w.q.lip_m = 0.5;
	refused(&w, "bed.lip_width");
	w.q.lip_m = TARN_NAN;
	w.wish.width_m = 0.49;
	refused(&w, "bed.width");
	koi(&w);
	w.q.depth_m = TARN_NAN;
	refused(&w, "bed.layers");
	for (int i = 0; i <= TARN_BED_LAYERS; i++) {
		many[i] = tarn_layer_default();
		many[i].thickness_m = 0.01;
		many[i].diameter_m = 0.02;
		many[i].porosity = 0.4;
	}
	w.q.layer = many;
	w.q.layers = TARN_BED_LAYERS + 1;
	refused(&w, "bed.layers");
	w.q.layers = 2;
	w.wish.cover_m = 0.02;	/* as much as there is */
	refused(&w, "bed.cover");
}

/* Sides that lie in the yard either way; a bed that is longer than it. */
Test(bed_limits, a_described_bed_in_its_yard)
{
	static const double sides[][3] = {	/* length, width, fits */
		{ 2, 3, 1 }, { 3, 2, 1 }, { 2.001, 3, 0 }, { 3.001, 2, 0 },
		{ 1, 3.001, 0 }, { 2, 2, 1 },
	};
	struct tarn_yard_corner c[4];
	struct tarn_yard yard = tarn_yard_default();
	struct world w;

	for (int i = 0; i < 4; i++) {
		c[i] = tarn_yard_corner_default();
		c[i].x_m = i == 1 || i == 2 ? 3 : 0;
		c[i].y_m = i >= 2 ? 2 : 0;
	}
	yard.corner = c;
	yard.count = 4;
	koi(&w);
	w.q.yard = &yard;
	for (size_t i = 0; i < LENGTH(sides); i++) {
		w.wish.length_m = sides[i][0];
		w.wish.width_m = sides[i][1];
		w.q.bed_m2 = sides[i][0] * sides[i][1];
		run(&w);
		cr_assert(w.status == TARN_OK, "%s %s", w.err.field, w.err.text);
		cr_expect(!(w.plan.sized.bed.flags & TARN_BED_DOES_NOT_FIT) ==
			  (sides[i][2] > 0), "%g x %g", sides[i][0],
			  sides[i][1]);
	}
}
