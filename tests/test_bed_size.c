/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "bed_rows.h"

/* A koi pond: 8 m3, 12 m2, 100 g of feed, 2000 gph, 0.9 m of 20 mm stone. */
static struct tarn_sizing koi(void)
{
	struct tarn_sizing s = tarn_sizing_default();

	s.flow_m3s = 2000 * tarn_unit("gph");
	s.pond_volume_m3 = 8;
	s.pond_area_m2 = 12;
	s.feed_g = 100;
	s.loading_m_d = tarn_unit("gpm_per_ft2");
	s.depth_m = 0.9;
	s.diameter_m = 0.02;
	s.porosity = 0.38;
	return s;
}

static struct tarn_sizing_result size(struct tarn_sizing s)
{
	struct tarn_sizing_result r = { .needed_m2 = TARN_NAN };
	struct tarn_error err = { 0 };

	cr_expect(tarn_sizing(&s, &r, &err) == TARN_OK, "%s %s", err.field,
		  err.text);
	return r;
}

Test(bed_size, every_rule_and_which_governs)
{
	struct tarn_sizing s = koi();
	struct tarn_sizing_result r;
	double area[TARN_SIZE_RULES];

	s.surface_share = 0.15;
	s.volume_share = 0.20;
	s.k_m_yr = 206;
	s.pond_target_mgl = 0.25;
	s.inlet_mgl = 1;
	s.target_mgl = 0.5;
	r = size(s);
	area[TARN_BY_LOADING] = 2000 / 60.0 * tarn_unit("ft2");
	area[TARN_BY_SURFACE] = 0.15 * 12;
	area[TARN_BY_VOLUME] = 0.20 * 8 / 0.9;
	area[TARN_BY_POND_TARGET] = -log(1 - 3.22 / 0.25 /
					 (s.flow_m3s * DAY)) *
				    s.flow_m3s * DAY / (206 / 365.0);
	area[TARN_BY_PASS] = log(2) * s.flow_m3s * DAY / (206 / 365.0);
	area[TARN_BY_MEDIA] = 3.22 * 2 / (0.2 * 6 * 0.62 / 0.02 * 0.9);
	area[TARN_BY_BOD] = 10 / 6.0;
	area[TARN_BY_SOLIDS] = 27.5 / 20;
	for (int m = 0; m < TARN_SIZE_RULES; m++) {
		cr_expect(near(r.area_m2[m], area[m], 1e-12), "%s: %.14g, "
			  "want %.14g",
			  tarn_size_rule_info((enum tarn_size_rule)m)->name,
			  r.area_m2[m], area[m]);
		cr_expect(r.needed_m2 >= r.area_m2[m]);
	}
	cr_expect(r.governs == TARN_BY_PASS);
	cr_expect(r.bed.area_m2 == r.needed_m2);
	cr_expect(near(r.bed.outlet_mgl, 0.5, 1e-12));
	cr_expect(near(r.least_flow_m3s * DAY * 0.25, 3.22, 1e-12));
	for (size_t i = 0; i < 4; i++) {
		size_t count;
		const struct tarn_bed_kind *k = tarn_bed_kinds(&count);

		cr_assert(count == 4);
		cr_expect(near(r.kind_lo_m2[i], s.flow_m3s * DAY / k[i].hi_m_d,
			       1e-14));
		cr_expect(near(r.kind_hi_m2[i], s.flow_m3s * DAY / k[i].lo_m_d,
			       1e-14));
	}
	cr_expect(near(r.kind_lo_m2[3], s.flow_m3s * DAY / 120, 1e-14));
	cr_expect(tarn_size_rule_info(TARN_SIZE_RULES) == NULL);
}

Test(bed_size, the_pond_settles_at_its_target)
{
	struct tarn_sizing s = koi();
	struct tarn_loop loop = tarn_loop_default();
	struct tarn_loop_result steady;
	struct tarn_sizing_result r;

	s.k_m_yr = 206;
	s.theta = 1.04;
	s.temp_c = 12;
	s.tanks_in_series = 3;
	s.background_mgl = 0.02;
	s.pond_target_mgl = 0.25;
	r = size(s);
	cr_expect(r.governs == TARN_BY_POND_TARGET);
	cr_expect(near(r.bed.pond_mgl, 0.25, 1e-12));
	cr_expect(!(r.bed.flags & TARN_BED_TARGET_MISSED));
	/* the loop says the same */
	loop.volume_m3 = 8;
	loop.flow_m3s = s.flow_m3s;
	loop.area_m2 = r.needed_m2;
	loop.temp_c = 12;
	loop.substance[TARN_AMMONIA].load_g_d = 3.22;
	loop.substance[TARN_AMMONIA].k_m_yr = 206;
	loop.substance[TARN_AMMONIA].theta = 1.04;
	loop.substance[TARN_AMMONIA].tanks_in_series = 3;
	loop.substance[TARN_AMMONIA].background_mgl = 0.02;
	cr_assert(tarn_loop_steady(&loop, &steady, NULL) == TARN_OK);
	cr_expect(near(steady.mgl[TARN_AMMONIA], 0.25, 1e-12));
	cr_expect(near(steady.per_day[TARN_AMMONIA], r.bed.pond_per_day,
		       1e-12));
}

Test(bed_size, judging_a_given_bed)
{
	struct tarn_sizing s = koi();
	struct tarn_sizing_result r;
	double v;

	s.area_m2 = 2;
	r = size(s);
	cr_expect(r.bed.area_m2 == 2 && r.needed_m2 > 2);
	cr_expect(r.bed.flags & TARN_BED_TOO_SMALL);
	v = s.flow_m3s / 2;
	cr_expect(near(r.bed.velocity_ms, v, 1e-14));
	cr_expect(near(r.bed.pore_velocity_ms, v / 0.38, 1e-14));
	cr_expect(near(r.bed.loading_m_d, v * DAY, 1e-14));
	cr_expect(near(r.bed.residence_s, 0.9 * 0.38 / v, 1e-14));
	cr_expect(near(r.bed.water_m3, 0.684, 1e-12));
	cr_expect(near(r.bed.mass_kg, 0.62 * 2650 * 1.8, 1e-12));
	cr_expect(near(r.bed.surface_share, 2 / 12.0, 1e-14));
	cr_expect(near(r.bed.volume_share, 1.8 / 8, 1e-14));
	cr_expect(near(r.bed.sewage_factor, v * DAY / 0.2, 1e-14));
	cr_expect(near(r.bed.clogged_m, 10 * r.bed.clean_m, 1e-14));
	cr_expect(near(r.bed.length_m, sqrt(2), 1e-14));
	{
		struct tarn_gravel g = tarn_gravel_default();
		struct tarn_headloss h;

		g.diameter_m = 0.02;
		g.porosity = 0.38;
		tarn_gravel_headloss(&g, v, 0.9, &h, NULL);
		cr_expect(near(r.bed.clean_m, h.clean_m, 1e-13));
		cr_expect(near(r.bed.reynolds, h.reynolds, 1e-13));
		cr_expect(r.bed.flow_regime == (int)h.regime);
	}
}

/* One stone, or the same stone as a list of layers. */
Test(bed_size, layers_are_the_same_stone)
{
	struct tarn_layer l[3];
	struct tarn_sizing s = koi();
	struct tarn_sizing_result one, many;

	for (int i = 0; i < 3; i++) {
		l[i] = tarn_layer_default();
		l[i].thickness_m = 0.3;
		l[i].diameter_m = 0.02;
		l[i].porosity = 0.38;
	}
	one = size(s);
	s.layer = l;
	s.layer_count = 3;
	s.depth_m = s.diameter_m = s.porosity = TARN_NAN;
	many = size(s);
	cr_expect(near(many.bed.clean_m, one.bed.clean_m, 1e-13));
	cr_expect(near(many.bed.water_m3, one.bed.water_m3, 1e-13));
	cr_expect(near(many.bed.mass_kg, one.bed.mass_kg, 1e-13));
	cr_expect(near(many.bed.surface_m2, one.bed.surface_m2, 1e-13));
	cr_expect(near(many.area_m2[TARN_BY_MEDIA],
		       one.area_m2[TARN_BY_MEDIA], 1e-13));
	cr_expect(many.bed.flags == one.bed.flags);
	s.depth_m = 1.8;	/* laid twice as thick */
	cr_expect(near(size(s).bed.clean_m, 2 * one.bed.clean_m, 1e-13));
	cr_expect(near(size(s).area_m2[TARN_BY_MEDIA],
		       one.area_m2[TARN_BY_MEDIA] / 2, 1e-13));
	s.volume_share = 0.2;
	cr_expect(near(size(s).area_m2[TARN_BY_VOLUME], 0.2 * 8 / 1.8,
		       1e-13));
	l[0].diameter_m = TARN_NAN;
	l[0].porosity = TARN_NAN;
	cr_expect(!(size(s).bed.flags & TARN_BED_NO_CHAMBER));
}

Test(bed_size, flags_say_what_is_wrong)
{
	struct tarn_sizing s = koi();
	unsigned f;

	s.area_m2 = 2;
	s.k_m_yr = 11.4;	/* sewage k */
	s.k_low_m_d = 0.02;
	s.k_high_m_d = 0.2;
	s.pond_target_mgl = 0.25;
	f = size(s).bed.flags;
	cr_expect(f & TARN_BED_EXTRAPOLATED);
	cr_expect(f & TARN_BED_TARGET_MISSED);
	cr_expect(f & TARN_BED_OXYGEN_ASSUMED);
	cr_expect(f & TARN_BED_REFUSALS);
	cr_expect(near(size(s).bed.extrapolation, s.flow_m3s * DAY / 2 / 0.2,
		       1e-12));
	s.pond_target_mgl = 0.001;
	cr_expect(size(s).bed.flags & TARN_BED_FLOW_SHORT);

	s = koi();
	s.available_head_m = 1e-5;
	cr_expect(size(s).bed.flags & TARN_BED_HEAD_SHORT);
	s.available_head_m = 0.1;
	cr_expect(!(size(s).bed.flags & TARN_BED_HEAD_SHORT));
	s.max_area_m2 = 2;
	cr_expect(size(s).bed.flags & TARN_BED_DOES_NOT_FIT);
	s.max_area_m2 = 20;
	/* a bed of given width takes the length that its area needs */
	s.width_m = 1;
	s.length_m = 1.5;
	cr_expect(size(s).bed.flags & TARN_BED_DOES_NOT_FIT);
	s.length_m = 1e3;
	cr_expect(!(size(s).bed.flags & TARN_BED_DOES_NOT_FIT));
	s.width_m = TARN_NAN;
	/* of a given length alone it has that, if a square would be longer */
	s.length_m = 1;
	cr_expect(near(size(s).bed.length_m, 1, 1e-14));
	cr_expect(near(size(s).bed.width_m, size(s).bed.area_m2, 1e-12));
	s.length_m = TARN_NAN;
	s.bod_g = 2000;
	s.area_m2 = 4;
	f = size(s).bed.flags;
	cr_expect(f & TARN_BED_ANAEROBIC);
	cr_expect(f & TARN_BED_AREA_OVERLOAD);
	cr_expect(!(f & TARN_BED_SECTION_OVERLOAD), "upflow has no inlet "
		  "face");
	s.direction = TARN_BED_HORIZONTAL;
	s.width_m = 2;
	cr_expect(size(s).bed.flags & TARN_BED_SECTION_OVERLOAD);

	s = koi();
	s.loading_m_d = TARN_NAN;
	s.kind = 2;
	cr_expect(size(s).bed.flags & TARN_BED_LOADING_ASSUMED);
	cr_expect(near(size(s).area_m2[TARN_BY_LOADING],
		       s.flow_m3s * DAY / sqrt(45), 1e-14));
	s.kind = 0;
	s.area_m2 = 0.5;
	f = size(s).bed.flags;
	cr_expect(f & TARN_BED_LOADING_OUTSIDE, "364 m/d is beyond all");
}

/* A narrow outlet far from the other end of fine gravel: water stands on it. */
Test(bed_size, a_far_end_floods)
{
	struct tarn_sizing s = koi();

	s.flow_m3s = 0.0021;
	s.area_m2 = 5;
	s.width_m = 0.8;	/* a long way to a narrow outlet */
	s.depth_m = 0.4;
	s.diameter_m = 0.008;
	s.cover_m = 0.05;
	cr_expect(size(s).bed.flags & TARN_BED_WATER_ON_GRAVEL);
	s.width_m = 5;		/* the same stone, outlet on the long side */
	cr_expect(!(size(s).bed.flags & TARN_BED_WATER_ON_GRAVEL));
	s.lip_head_m = 0.06;	/* but the lip itself backs up */
	cr_expect(size(s).bed.flags & TARN_BED_WATER_ON_GRAVEL);
}

/* Methods, section 4: a horizontal bed cannot carry a pond's turnover. */
Test(bed_size, horizontal_beds_need_head)
{
	struct tarn_sizing s = koi();
	struct tarn_gravel g = tarn_gravel_default();
	struct tarn_sizing_result r;
	double v;

	s.direction = TARN_BED_HORIZONTAL;
	s.area_m2 = 6;
	s.width_m = 2;
	s.depth_m = 0.5;
	s.available_head_m = 0.1;
	s.clogging = 100;
	r = size(s);
	v = s.flow_m3s / (2 * 0.5);
	g.diameter_m = 0.02;
	g.porosity = 0.38;
	g.clogging = 100;
	cr_expect(near(r.bed.velocity_ms, v, 1e-14));
	cr_expect(near(r.bed.length_m, 3, 1e-14));
	cr_expect(near(r.bed.clogged_m, 3 * tarn_resistance_gradient(
		tarn_gravel_resistance(&g), v), 1e-12));
	cr_expect(r.bed.rise_m == r.bed.clogged_m);
	cr_expect(r.bed.flags & TARN_BED_HEAD_SHORT);
}

Test(bed_size, only_what_is_asked_is_answered)
{
	struct tarn_sizing s = tarn_sizing_default();
	struct tarn_sizing_result r;

	s.flow_m3s = 0.002;
	s.loading_m_d = 24;
	r = size(s);
	cr_expect(near(r.needed_m2, 7.2, 1e-14));
	cr_expect(isnan(r.bed.residence_s) && isnan(r.bed.clean_m));
	cr_expect(isnan(r.bed.pond_mgl) && isnan(r.bed.oxygen_out_mgl));
	cr_expect(isnan(r.bed.surface_share) && isnan(r.bed.volume_share));
	cr_expect(!(r.bed.flags & TARN_BED_REFUSALS));
	for (int m = 0; m < TARN_SIZE_RULES; m++)
		cr_expect(isnan(r.area_m2[m]) == (m != TARN_BY_LOADING));
	/* flow from the turnover */
	s.flow_m3s = TARN_NAN;
	s.turnover_per_h = 0.5;
	s.pond_volume_m3 = 20;
	r = size(s);
	cr_expect(near(r.bed.flow_m3s, 10 / 3600.0, 1e-14));
	cr_expect(near(r.bed.turnover_per_h, 0.5, 1e-14));
}

/* Methods, section 8: 20 m3 and 10 m3/h want 200 m2 at 0.05 m/h, 33 at 0.3,
 * 10 at 1.0, 2 at 5 m/h. */
Test(bed_size, the_choice_of_loading_decides)
{
	static const double rows[][2] = { { 0.05, 200 }, { 0.3, 33.3 },
					  { 1, 10 }, { 5, 2 } };

	for (size_t i = 0; i < LENGTH(rows); i++) {
		struct tarn_sizing s = tarn_sizing_default();

		s.pond_volume_m3 = 20;
		s.turnover_per_h = 0.5;
		s.loading_m_d = rows[i][0] * tarn_unit("m_per_hour");
		cr_expect(near(size(s).needed_m2, rows[i][1], 2e-3));
	}
}

static void no_flow(struct tarn_sizing *s) { s->flow_m3s = 0; }
static void lost_flow(struct tarn_sizing *s) { s->flow_m3s = TARN_NAN; }
static void full(struct tarn_sizing *s) { s->porosity = 1; }
static void solid(struct tarn_sizing *s) { s->porosity = 0; }
static void minus(struct tarn_sizing *s) { s->inlet_mgl = -1; }
static void ice(struct tarn_sizing *s) { s->temp_c = -1; }
static void nothing(struct tarn_sizing *s)
{
	s->loading_m_d = s->feed_g = TARN_NAN;
}
static void too_clean(struct tarn_sizing *s)
{
	s->k_m_yr = 30;
	s->background_mgl = 0.5;
	s->pond_target_mgl = 0.4;
}
static void too_clean_pass(struct tarn_sizing *s)
{
	s->k_m_yr = 30;
	s->background_mgl = s->target_mgl = 0.5;
	s->inlet_mgl = 3;
}
static void no_rate(struct tarn_sizing *s) { s->pond_target_mgl = 0.4; }
static void no_load(struct tarn_sizing *s)
{
	s->feed_g = TARN_NAN;
	s->pond_target_mgl = 0.4;
}
static void no_inlet(struct tarn_sizing *s)
{
	s->k_m_yr = 30;
	s->target_mgl = 1;
}
static void no_pond(struct tarn_sizing *s)
{
	s->surface_share = 0.2;
	s->pond_area_m2 = TARN_NAN;
}
static void no_volume(struct tarn_sizing *s)
{
	s->volume_share = 0.2;
	s->pond_volume_m3 = TARN_NAN;
}
static void no_depth(struct tarn_sizing *s)
{
	s->volume_share = 0.2;
	s->depth_m = TARN_NAN;
}
static void trickle(struct tarn_sizing *s)
{
	s->loading_m_d = s->bod_g = s->solids_g = TARN_NAN;
	s->feed_g = s->depth_m = TARN_NAN;
	s->ammonia_g = 100;
	s->k_m_yr = 30;
	s->pond_target_mgl = 0.01;
}
static void no_low(struct tarn_sizing *s) { s->k_high_m_d = 2; }
static void no_high(struct tarn_sizing *s) { s->k_low_m_d = 2; }

static void low_above(struct tarn_sizing *s)
{
	s->k_low_m_d = 3;
	s->k_high_m_d = 2;
}

static void clean_inlet(struct tarn_sizing *s)
{
	nothing(s);
	s->k_m_yr = 30;
	s->inlet_mgl = 1;
	s->target_mgl = 2;
}

Test(bed_size, bad_input_is_named)
{
	static const struct {
		void (*spoil)(struct tarn_sizing *);
		const char *field, *text;
	} rows[] = {
		{ no_flow, "size.flow", "must be" },
		{ lost_flow, "size.flow", "turnover with pond_volume" },
		{ full, "size.porosity", "must be 0.05 to 0.95" },
		{ solid, "size.porosity", "must be 0.05 to 0.95" },
		{ minus, "size.inlet", "must be 0" },
		{ ice, "size.temp", "must be 0 to 40" },
		{ nothing, "size", "nothing to size by" },
		{ too_clean, "size.pond_target", "impossible" },
		{ too_clean_pass, "size.target", "impossible" },
		{ no_rate, "size.k_m_yr", "is missing" },
		{ no_load, "size.ammonia_g", "is missing" },
		{ no_inlet, "size.inlet", "is missing" },
		{ no_pond, "size.pond_area", "is missing" },
		{ no_volume, "size.pond_volume", "is missing" },
		{ no_depth, "size.depth", "is missing" },
		{ trickle, "size.flow", "against 100 g a day even a perfect "
		  "bed needs" },
		{ clean_inlet, "size.target", "no bed is needed" },
		{ no_low, "size.k_low", "is missing: k_low and k_high go" },
		{ no_high, "size.k_high", "is missing: k_low and k_high go" },
		{ low_above, "size.k_low", "must not be above k_high of 2 m/d, "
		  "got 3" },
	};

	for (size_t i = 0; i < LENGTH(rows); i++) {
		struct tarn_sizing s = koi();
		struct tarn_sizing_result r;
		struct tarn_error err = { 0 };

		rows[i].spoil(&s);
		cr_expect(tarn_sizing(&s, &r, &err) == TARN_EARG, "row %zu",
			  i);
		cr_expect_str_eq(err.field, rows[i].field);
		cr_expect(strstr(err.text, rows[i].text) != NULL, "row %zu: "
			  "%s", i, err.text);
	}
}

Test(bed_size, layers_where_they_do_not_belong)
{
	struct tarn_sizing s = koi();
	struct tarn_layer l = tarn_layer_default();
	struct tarn_sizing_result r;
	struct tarn_error err = { 0 };

	l.thickness_m = 0.3;
	s.layer = &l;
	s.layer_count = 1;
	cr_expect(tarn_sizing(&s, &r, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "no stone") != NULL);
	s.direction = TARN_BED_HORIZONTAL;
	err.code = TARN_OK;
	cr_expect(tarn_sizing(&s, &r, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "are for upflow") != NULL);
	s.direction = TARN_BED_UPFLOW;
	l.thickness_m = -1;
	err.code = TARN_OK;
	cr_expect(tarn_sizing(&s, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "layer 1.thickness");
}

Test(bed_size, a_published_rate_by_name)
{
	struct tarn_sizing s = koi();

	tarn_sizing_set_rate(&s, tarn_rate_find("hf-ammonia-2009"));
	cr_expect(s.k_m_yr == 11.4 && s.tanks_in_series == 6 &&
		  s.k_high_m_d == 0.2);
	tarn_sizing_set_rate(&s, tarn_rate_find("reed-nitrate"));
	cr_expect(near(s.k_m_yr, 1.0 * 0.9 * 0.38 * 365, 1e-14));
	cr_expect(isinf(s.tanks_in_series) && isnan(s.k_high_m_d));
}

/* Any input that is in range gives numbers or 'not known', never infinity,
 * and an error names its field. */
Test(bed_size, no_infinity_comes_out)
{
	const struct tarn_fields *f = &tarn_sizing_fields;
	uint64_t next = 0;
	int sized = 0;

	for (int i = 0; i < 20000; i++) {
		struct tarn_sizing s = tarn_sizing_default();
		struct tarn_sizing_result r;
		struct tarn_error err = { 0 };
		double out[sizeof r.bed / sizeof(double)];

		for (size_t k = 0; k < f->count; k++) {
			const struct tarn_field *row = &f->rows[k];
			double u = (double)(tarn_random(5, 0, next++) >> 11) /
				   0x1p53;
			double lo = fmax(row->lo, 1e-6);
			double x = lo * pow(fmin(row->hi, 1e6) / lo, u);

			if (row->kind == TARN_FIELD_NUMBER &&
			    tarn_random(6, 0, next) % 2)
				memcpy((char *)&s + row->offset, &x, sizeof x);
		}
		if (!(s.k_low_m_d <= s.k_high_m_d))	/* both or neither */
			s.k_low_m_d = s.k_high_m_d;
		if (isnan(s.trough_width_m) || isnan(s.trough_depth_m))
			s.trough_width_m = s.trough_depth_m = TARN_NAN;
		if (tarn_sizing(&s, &r, &err) != TARN_OK) {
			cr_assert(strncmp(err.field, "size", 4) == 0);
			continue;
		}
		sized++;
		memcpy(out, &r.bed, sizeof out);
		for (size_t k = 0; k < LENGTH(out); k++)
			if (k != offsetof(struct tarn_bed_check, flow_regime) /
				 sizeof(double) && k < offsetof(
				 struct tarn_bed_check, flags) /
				 sizeof(double))
				cr_assert(!isinf(out[k]), "input %d: number "
					  "%zu of the check", i, k);
		cr_assert(!isinf(r.needed_m2));
	}
	cr_expect(sized > 2000, "%d", sized);
}

/* ---- trade-off ---- */

Test(bed_tradeoff, cells_are_single_beds)
{
	static const double areas[] = { 1, 3, 9 }, depths[] = { 0.3, 0.9 };
	static const double flows[] = { 0.0005, 0.002 };
	struct tarn_tradeoff axes = { areas, depths, flows, 3, 2, 2 };
	struct tarn_bed_check cells[12];
	struct tarn_sizing s = koi();
	int feasible = 0;

	s.k_m_yr = 206;
	s.pond_target_mgl = 2.5;
	s.max_area_m2 = 5;
	s.cover_m = 0.05;
	cr_assert(tarn_tradeoff(&s, &axes, cells, NULL) == TARN_OK);
	for (int i = 0; i < 12; i++) {
		struct tarn_sizing one = s;
		struct tarn_sizing_result r;

		one.area_m2 = areas[i / 4];
		one.depth_m = depths[i / 2 % 2];
		one.flow_m3s = flows[i % 2];
		r = size(one);
		r.bed.flags &= ~TARN_BED_TOO_SMALL;	/* of the sizing */
		cr_expect(cells[i].area_m2 == one.area_m2);
		cr_expect(near(cells[i].depth_m, one.depth_m, 1e-14));
		cr_expect(near(cells[i].clogged_m, r.bed.clogged_m, 1e-12));
		cr_expect(near(cells[i].pond_mgl, r.bed.pond_mgl, 1e-14));
		cr_expect(cells[i].flags == r.bed.flags, "cell %d: %x, %x", i,
			  cells[i].flags, r.bed.flags);
		feasible += !(cells[i].flags & TARN_BED_REFUSALS);
	}
	cr_expect(feasible > 0 && feasible < 9, "%d", feasible);
	cr_expect(cells[11].flags & TARN_BED_DOES_NOT_FIT);
}

Test(bed_tradeoff, bad_axes_are_named)
{
	static const double good[] = { 1 }, bad[] = { 1, 0 };
	struct tarn_bed_check cells[2];
	struct tarn_sizing s = koi();
	struct tarn_error err = { 0 };
	struct tarn_tradeoff axes = { bad, good, good, 2, 1, 1 };

	cr_expect(tarn_tradeoff(&s, &axes, cells, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "area");
	axes = (struct tarn_tradeoff){ good, bad, good, 1, 2, 1 };
	err.code = TARN_OK;
	cr_expect(tarn_tradeoff(&s, &axes, cells, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "depth");
	axes = (struct tarn_tradeoff){ good, good, bad, 1, 1, 2 };
	err.code = TARN_OK;
	cr_expect(tarn_tradeoff(&s, &axes, cells, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "flow");
	axes = (struct tarn_tradeoff){ good, good, good, 1, 1, 0 };
	cr_expect(tarn_tradeoff(&s, &axes, cells, NULL) == TARN_EARG);
}

/* ---- chance ---- */

/* First outputs of SplitMix64 seeded with 1234567, as widely printed; from
 * memory. */
Test(bed_chance, generator_from_memory)
{
	static const uint64_t want[] = {
		6457827717110365317u, 3203168211198807973u,
		9817491932198370423u, 4593380528125082431u,
		16408922859458223821u
	};

	for (uint64_t i = 0; i < LENGTH(want); i++)
		cr_expect(tarn_random(1234567, 0, i) == want[i]);
	cr_expect(tarn_random(1, 1, 0) != tarn_random(1, 2, 0));
	cr_expect(tarn_random(1, 1, 0) != tarn_random(2, 1, 0));
}

/* Mean and variance of the uniform numbers, within 5 standard errors. */
Test(bed_chance, generator_is_even)
{
	enum { N = 100000 };
	double sum = 0, square = 0, product = 0;

	for (uint64_t i = 0; i < N; i++) {
		double u = (double)(tarn_random(7, i, 0) >> 11) / 0x1p53;
		double v = (double)(tarn_random(7, i, 1) >> 11) / 0x1p53;

		sum += u;
		square += (u - 0.5) * (u - 0.5);
		product += (u - 0.5) * (v - 0.5);
	}
	cr_expect(fabs(sum / N - 0.5) < 5 * sqrt(1 / 12.0 / N));
	cr_expect(fabs(square / N - 1 / 12.0) < 5 * sqrt(1 / 180.0 / N));
	cr_expect(fabs(product / N) < 5 / 12.0 / sqrt(N));
}

static struct tarn_sizing chance_bed(void)
{
	struct tarn_sizing s = koi();

	s.area_m2 = 4;
	s.k_m_yr = 206;
	s.pond_target_mgl = 0.8;
	return s;
}

Test(bed_chance, percentiles_of_a_log_normal)
{
	struct tarn_sizing s = chance_bed();
	struct tarn_chance c = tarn_chance_default();
	struct tarn_chance_result r;
	static const double z[] = { -1.644854, -0.674490, 0, 0.674490,
				    1.644854 };
	double sigma = sqrt(log(1 + 0.3 * 0.3)), median;

	c.samples = 200000;
	c.k_cv = c.flow_cv = c.porosity_sd = 0;	/* load alone */
	cr_assert(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_OK);
	median = size(s).bed.pond_mgl;
	for (int p = 0; p < TARN_PERCENTILES; p++)
		cr_expect(near(r.pond_mgl[p], median * exp(sigma * z[p]),
			       0.006), "p%g: %g, want %g", tarn_percentiles[p],
			  r.pond_mgl[p], median * exp(sigma * z[p]));
	cr_expect(isnan(r.outlet_mgl[0]), "no inlet was given");
	/* refused is the share of ponds over the target */
	cr_expect(r.refused > 0.02 && r.refused < 0.98);
}

/* The BOD of the same feed: a limit of the section at the load itself is past in
 * half of the samples, one at its 75th percentile in a quarter. */
Test(bed_chance, bod_goes_with_the_load)
{
	struct tarn_sizing s = chance_bed();
	struct tarn_chance c = tarn_chance_default();
	struct tarn_chance_result r;
	double sigma = sqrt(log(1 + 0.3 * 0.3)), at;

	s.pond_target_mgl = TARN_NAN;
	s.direction = TARN_BED_HORIZONTAL;
	s.width_m = 2;
	s.available_head_m = 1;
	at = size(s).bed.section_bod_g_m2;
	cr_assert(at > 0);
	c.samples = 100000;
	c.k_cv = c.flow_cv = c.porosity_sd = 0;	/* load alone */
	for (int i = 0; i < 2; i++) {
		s.section_limit = at * (i ? exp(0.674490 * sigma) : 1);
		cr_assert(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_OK);
		/* 5 standard errors */
		cr_expect(fabs(r.refused - (i ? 0.25 : 0.5)) < 0.008, "%g",
			  r.refused);
	}
	/* more ammonia is more BOD: one load is past both limits */
	s.section_limit = at;
	s.pond_target_mgl = size(s).bed.pond_mgl;
	cr_assert(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_OK);
	cr_expect(fabs(r.refused - 0.5) < 0.008, "%g", r.refused);
}

Test(bed_chance, same_seed_same_answer)
{
	struct tarn_sizing s = chance_bed();
	struct tarn_chance c = tarn_chance_default();
	struct tarn_chance_result a, b;

	s.inlet_mgl = 1;
	cr_assert(tarn_chance(&s, &c, NULL, &a, NULL) == TARN_OK);
	cr_assert(tarn_chance(&s, &c, NULL, &b, NULL) == TARN_OK);
	cr_expect(memcmp(&a, &b, sizeof a) == 0);
	c.seed = 2;
	cr_assert(tarn_chance(&s, &c, NULL, &b, NULL) == TARN_OK);
	cr_expect(a.pond_mgl[0] != b.pond_mgl[0]);
	for (int p = 1; p < TARN_PERCENTILES; p++) {
		cr_expect(a.pond_mgl[p] > a.pond_mgl[p - 1]);
		cr_expect(a.outlet_mgl[p] > a.outlet_mgl[p - 1]);
		cr_expect(a.residence_s[p] > a.residence_s[p - 1]);
		cr_expect(a.clogged_m[p] > a.clogged_m[p - 1]);
	}
}

Test(bed_chance, certain_input_gives_one_answer)
{
	struct tarn_sizing s = chance_bed();
	struct tarn_chance c = tarn_chance_default();
	struct tarn_chance_result r;
	struct tarn_layer l = tarn_layer_default();
	double want;

	c.samples = 100;
	c.k_cv = c.load_cv = c.flow_cv = c.porosity_sd = 0;
	want = size(s).bed.pond_mgl;
	cr_assert(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_OK);
	cr_expect(near(r.pond_mgl[0], want, 1e-14));
	cr_expect(near(r.pond_mgl[4], want, 1e-14));
	l.thickness_m = 0.9;
	l.diameter_m = 0.02;
	l.porosity = 0.38;
	s.layer = &l;
	s.layer_count = 1;
	want = r.clogged_m[2];
	cr_assert(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_OK);
	cr_expect(near(r.clogged_m[2], want, 1e-12));
}

static void *no_memory(void *context, void *block, size_t bytes)
{
	(void)context;
	(void)block;
	(void)bytes;
	return NULL;
}

Test(bed_chance, bad_input_is_named)
{
	struct tarn_sizing s = chance_bed();
	struct tarn_chance c = tarn_chance_default();
	struct tarn_chance_result r;
	struct tarn_error err = { 0 };
	const struct tarn_alloc none = { no_memory, NULL };

	cr_expect(tarn_chance(&s, &c, &none, &r, &err) == TARN_ENOMEM);
	c.samples = 10;
	err.code = TARN_OK;
	cr_expect(tarn_chance(&s, &c, NULL, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "chance.samples");
	c.samples = 150.5;
	cr_expect(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_EARG);
	c.samples = 100;
	s.area_m2 = TARN_NAN;
	err.code = TARN_OK;
	cr_expect(tarn_chance(&s, &c, NULL, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "size.area");
	s.area_m2 = 1;
	s.flow_m3s = s.turnover_per_h = TARN_NAN;
	err.code = TARN_OK;
	cr_expect(tarn_chance(&s, &c, NULL, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "size.flow");
	s.flow_m3s = -1;
	cr_expect(tarn_chance(&s, &c, NULL, &r, NULL) == TARN_EARG);
}
