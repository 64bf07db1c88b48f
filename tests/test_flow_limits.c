/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"
#include "../lib/tarn/flow/internal.h"

/* Where a formula of flow.h leaves its tests, and lists with one wrong entry. */

/* ---- notes of weirs, on both sides of each limit ------------------------------- */

enum { NO, YES };

static void note_is(struct tarn_weir w, double head_m, int want, const char *part)
{
	struct tarn_weir_flow out;
	struct tarn_error err = { 0 };

	w.head_m = head_m;
	cr_assert(tarn_weir_solve(&w, &out, &err) == TARN_OK, "%s: %s", err.field,
		  err.text);
	cr_expect((out.note != NULL) == want, "head %g: %s", head_m,
		  out.note ? out.note : "no note");
	if (out.note && want)
		cr_expect(strstr(out.note, part) != NULL, "%s", out.note);
}

static struct tarn_weir sharp(int formula, double width_m, double crest_m)
{
	struct tarn_weir w = tarn_weir_default();

	w.kind = TARN_WEIR_RECTANGULAR;
	w.formula = formula;
	w.width_m = width_m;
	w.crest_m = crest_m;
	return w;
}

Test(flow_limits, sharp_crests)
{
	struct tarn_weir w = sharp(TARN_WEIR_FRANCIS, 0.6, TARN_NAN);

	note_is(w, 0.029, YES, "under 30 mm");
	note_is(w, 0.031, NO, "");
	note_is(w, 0.21, NO, "");	/* no end is contracted */
	w.contractions = 2;
	note_is(w, 0.199, NO, "");
	note_is(w, 0.201, YES, "a third of the width");
	w = sharp(TARN_WEIR_KINDSVATER_CARTER, 0.5, 0.2);
	w.channel_width_m = 2;
	note_is(w, 0.39, NO, "");
	note_is(w, 0.41, YES, "Kindsvater and Carter");
	w.channel_width_m = 2.6;
	note_is(w, 0.2, YES, "Kindsvater and Carter");
	w = sharp(TARN_WEIR_KINDSVATER_CARTER, 0.14, 0.2);
	w.channel_width_m = 0.5;
	note_is(w, 0.1, YES, "Kindsvater and Carter");
	w.width_m = 0.16;
	note_is(w, 0.1, NO, "");
	w.crest_m = 0.09;
	note_is(w, 0.1, YES, "Kindsvater and Carter");
	w = sharp(TARN_WEIR_REHBOCK, 1, 0.9);
	note_is(w, 0.74, NO, "");
	note_is(w, 0.76, YES, "Rehbock");
	w.crest_m = 0.29;
	note_is(w, 0.1, YES, "Rehbock");
	w.crest_m = 0.31;
	note_is(w, 0.1, NO, "");
	note_is(w, 0.32, YES, "Rehbock");
	w.width_m = 0.29;
	note_is(w, 0.1, YES, "Rehbock");
	for (int f = TARN_WEIR_ACKERS; f <= TARN_WEIR_LINEAR_CD; f++) {
		w = sharp(f, 1, 0.2);
		note_is(w, 0.39, NO, "");
		note_is(w, 0.41, YES, "head / crest over 2");
	}
}

Test(flow_limits, broad_crests_and_notches)
{
	struct tarn_weir w = tarn_weir_default();

	w.kind = TARN_WEIR_BROAD;
	w.width_m = 1;
	w.breadth_m = 1;
	note_is(w, 0.079, YES, "under 8 %");
	note_is(w, 0.081, NO, "");
	note_is(w, 0.329, NO, "");
	note_is(w, 0.331, YES, "over a third");
	w.formula = TARN_WEIR_BOS;
	note_is(w, 0.079, YES, "outside the table");
	note_is(w, 0.081, NO, "");
	note_is(w, 1.015, NO, "");
	note_is(w, 1.017, YES, "outside the table");
	w = tarn_weir_default();
	w.kind = TARN_WEIR_V_NOTCH;
	w.angle_deg = 90;
	note_is(w, 0.059, YES, "under 60 mm");
	note_is(w, 0.061, NO, "");
	w.formula = TARN_WEIR_KINDSVATER_SHEN;
	w.angle_deg = 24.9;
	note_is(w, 0.1, YES, "25 to 100 degrees");
	w.angle_deg = 25.1;
	note_is(w, 0.1, NO, "");
	w.angle_deg = 100.1;
	note_is(w, 0.1, YES, "25 to 100 degrees");
	w.formula = TARN_WEIR_DEFAULT;
	w.coefficient = 1.4;	/* the user's own is not doubted */
	note_is(w, 0.01, NO, "");
}

static void no_weir(struct tarn_weir w, const char *field, const char *part)
{
	struct tarn_weir_flow out;
	struct tarn_error err = { 0 };

	cr_expect(tarn_weir_solve(&w, &out, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, field, "%s %s", err.field, err.text);
	cr_expect(strstr(err.text, part) != NULL, "%s", err.text);
}

Test(flow_limits, weirs_that_are_none)
{
	struct tarn_weir w = sharp(TARN_WEIR_FRANCIS, TARN_NAN, TARN_NAN);

	w.flow_m3s = 0;
	w.head_m = 0.1;
	no_weir(w, "weir", "above zero to find a width");
	w.flow_m3s = 0.1;
	w.head_m = 0;
	no_weir(w, "weir", "above zero to find a width");
	w.head_m = TARN_NAN;
	w.lip_depth_m = 0;
	no_weir(w, "weir", "above zero to find a width");
	w = sharp(TARN_WEIR_FRANCIS, 1, TARN_NAN);
	w.head_m = w.lip_depth_m = 0.1;
	no_weir(w, "weir.lip_depth", "beside head");
	w.lip_depth_m = TARN_NAN;
	w.angle_deg = 90;
	no_weir(w, "weir.angle_deg", "for a v_notch only");
	w = tarn_weir_default();
	w.kind = TARN_WEIR_V_NOTCH;
	w.head_m = 0.1;
	no_weir(w, "weir.angle_deg", "is missing");
	w.angle_deg = 90;
	w.width_m = 1;
	no_weir(w, "weir", "no width or lip_depth");
	w.width_m = TARN_NAN;
	w.lip_depth_m = 0.1;
	no_weir(w, "weir", "no width or lip_depth");
}

/* ---- curves of pumps ------------------------------------------------------------- */

static void curve(const double flow[2], const double head[2], const char *part)
{
	struct tarn_pump_curve p = tarn_pump_curve_default();
	struct tarn_error err = { 0 };

	p.flow_m3s = flow;
	p.head_m = head;
	p.points = 2;
	cr_expect((tarn_pump_curve_check(&p, &err) == TARN_OK) == !part, "%s",
		  err.text);
	if (part)
		cr_expect(strstr(err.text, part) != NULL, "%s", err.text);
}

Test(flow_limits, points_of_a_curve)
{
	const double up[2] = { 0, 1e-3 }, down[2] = { 3, 0 }, same[2] = { 1, 1 };
	const double minus[2] = { -1e-9, 1 }, endless[2] = { 0, HUGE_VAL };
	const double high[2] = { HUGE_VAL, 1 }, under[2] = { 1, -1e-9 };
	const double none[2] = { 0, TARN_NAN };
	struct tarn_pump_curve p = tarn_pump_curve_default();
	double most, drop;

	curve(up, down, NULL);
	curve(minus, down, "point 1: flow and head must be zero or more");
	curve(endless, down, "point 2: flow and head must be zero or more");
	curve(none, down, "point 2: flow and head must be zero or more");
	curve(up, high, "point 1: flow and head must be zero or more");
	curve(up, under, "point 2: flow and head must be zero or more");
	curve(up, none, "point 2: flow and head must be zero or more");
	curve(same, down, "flow must rise");
	curve(up, same, "head");
	/* a label is two numbers */
	p.max_head_m = 5;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_EARG);
	p.max_head_m = TARN_NAN;
	p.label_flow_m3s = 2e-3;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_EARG);
	p.max_head_m = 5;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_OK);
	cr_expect(tarn_pump_flow_m3s(&p, 5) == 0);
	near("no head", tarn_pump_flow_m3s(&p, 0), 2e-3, 1e-15);
	EXPECT_NAN(tarn_pump_flow_m3s(&p, 5.001));
	EXPECT_NAN(tarn_pump_flow_m3s(&p, -0.001));
	EXPECT_NAN(tarn_pump_head_m(&p, 2.001e-3));
	EXPECT_NAN(tarn_pump_head_m(&p, -1e-6));
	cr_expect(tarn_pump_curve_fit(up, same, 2, &most, &drop, NULL) ==
		  TARN_EARG, "a level curve does not fall");
	cr_expect(tarn_pump_curve_fit(up, down, 2, &most, &drop, NULL) ==
		  TARN_OK);
	near("shut", most, 3, 1e-9);
	near("drop", drop, 3e6, 1e-3);
}

/* ---- pipes and channels -------------------------------------------------------- */

Test(flow_limits, pipes_of_nothing)
{
	struct tarn_pipe p[2] = { tarn_pipe_default(), tarn_pipe_default() };
	struct tarn_pipe_flow each[2];
	struct tarn_pipe_total all;
	struct tarn_error err = { 0 };

	p[0].diameter_m = p[1].diameter_m = 0.05;
	p[0].length_m = 3;
	p[0].roughness_m = p[1].roughness_m = 1e-5;
	p[1].length_m = 0;
	cr_expect(tarn_pipe_parallel(p, 2, 1e-3, TARN_NAN, each, &all, &err) ==
		  TARN_EARG);
	cr_expect(strstr(err.text, "would take all the flow") != NULL, "%s",
		  err.text);
	p[1].minor_k = 1;
	cr_assert(tarn_pipe_parallel(p, 2, 1e-3, TARN_NAN, each, &all, NULL) ==
		  TARN_OK);
	close_to("sum", each[0].flow_m3s + each[1].flow_m3s, 1e-3, 1e-9);
	close_to("one loss", each[0].headloss_m, each[1].headloss_m, 1e-9);
	cr_assert(tarn_pipe_parallel(p, 2, 0, TARN_NAN, each, &all, NULL) ==
		  TARN_OK);
	cr_expect(all.flow_m3s == 0 && all.headloss_m == 0);
	for (int series = 0; series < 2; series++) {
		enum tarn_status (*solve)(const struct tarn_pipe *, size_t, double,
					  double, struct tarn_pipe_flow *,
					  struct tarn_pipe_total *,
					  struct tarn_error *) =
			series ? tarn_pipe_series : tarn_pipe_parallel;

		cr_expect(solve(p, 2, -1e-9, TARN_NAN, each, &all, NULL) ==
			  TARN_EARG);
		cr_expect(solve(p, 2, TARN_NAN, -1e-9, each, &all, NULL) ==
			  TARN_EARG);
		cr_expect(solve(p, 2, HUGE_VAL, TARN_NAN, each, &all, NULL) ==
			  TARN_EARG);
		cr_expect(solve(p, 2, TARN_NAN, HUGE_VAL, each, &all, NULL) ==
			  TARN_EARG);
		cr_expect(solve(p, 0, 1e-3, TARN_NAN, each, &all, NULL) ==
			  TARN_EARG);
		cr_expect(solve(p, 2, 1e-3, 0.1, each, &all, NULL) == TARN_EARG);
		cr_assert(solve(p, 2, TARN_NAN, 0, each, &all, NULL) == TARN_OK);
		cr_expect(all.flow_m3s == 0 && all.headloss_m == 0);
	}
}

Test(flow_limits, channels_that_are_none)
{
	const struct tarn_point bed[3] = { { 0, 1 }, { 1, 0 }, { 2, 1 } };
	struct tarn_point wrong[3];
	struct tarn_channel c = tarn_channel_default();
	struct tarn_channel_flow out;
	struct tarn_error err = { 0 };

	c.flow_m3s = 0.1;
	c.slope = 0.01;
	c.manning = 0.03;
	c.points = bed;
	c.point_count = 3;
	cr_assert(tarn_channel_solve(&c, &out, NULL) == TARN_OK);
	for (int i = 0; i < 2; i++) {
		memcpy(wrong, bed, sizeof wrong);
		*(i ? &wrong[1].x_m : &wrong[2].level_m) = HUGE_VAL;
		c.points = wrong;
		err = (struct tarn_error){ 0 };
		cr_expect(tarn_channel_solve(&c, &out, &err) == TARN_EARG);
		cr_expect(strstr(err.text, "is not a number") != NULL, "%s",
			  err.text);
	}
	c.points = bed;
	c.diameter_m = 0.5;
	cr_expect(tarn_channel_solve(&c, &out, NULL) == TARN_EARG);
	c.diameter_m = TARN_NAN;
	c.width_m = 0.5;
	cr_expect(tarn_channel_solve(&c, &out, NULL) == TARN_EARG);
	c.width_m = TARN_NAN;
	c.side_slope = 1;
	cr_expect(tarn_channel_solve(&c, &out, NULL) == TARN_EARG);
	c.side_slope = 0;
	c.points = NULL;
	c.point_count = 0;
	c.width_m = 0;	/* no section at all */
	cr_expect(tarn_channel_solve(&c, &out, NULL) == TARN_EARG);
	c.width_m = 0.5;
	c.flow_m3s = 0;	/* dry: no state, no speed */
	cr_assert(tarn_channel_solve(&c, &out, &err) == TARN_OK ||
		  err.code == TARN_EARG);
}

/* ---- routing ---------------------------------------------------------------------- */

Test(flow_limits, tables_of_a_routing)
{
	const double level[2] = { 0, 1 }, area[2] = { 10, 10 };
	const double in[3] = { 0, 1e-3, 0 };
	const double bad[][2] = { { 0, HUGE_VAL }, { 0, TARN_NAN }, { 0, -1 } };
	struct tarn_routing r = tarn_routing_default();
	struct tarn_routing_flow out;
	struct tarn_error err = { 0 };

	r.level_m = level;
	r.area_m2 = area;
	r.level_count = 2;
	r.inflow_m3s = in;
	r.inflow_count = 3;
	r.step_s = 60;
	r.start_level_m = 0;
	cr_assert(tarn_routing_solve(&r, NULL, NULL, &out, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	near("stored", out.stored_m3, 0.06, 1e-12);
	for (int i = 0; i < 3; i++) {
		if (i < 2) {
			r.level_m = bad[i];
			cr_expect(tarn_routing_solve(&r, NULL, NULL, &out, NULL)
				  == TARN_EARG, "level %d", i);
			r.level_m = level;
		}
		r.area_m2 = bad[i];
		cr_expect(tarn_routing_solve(&r, NULL, NULL, &out, NULL) ==
			  TARN_EARG, "area %d", i);
		r.area_m2 = area;
		r.inflow_m3s = bad[i];
		r.inflow_count = 2;
		cr_expect(tarn_routing_solve(&r, NULL, NULL, &out, NULL) ==
			  TARN_EARG, "inflow %d", i);
		r.inflow_m3s = in;
		r.inflow_count = 3;
	}
	r.start_level_m = -0.001;
	cr_expect(tarn_routing_solve(&r, NULL, NULL, &out, NULL) == TARN_EARG);
	r.start_level_m = 1.001;
	cr_expect(tarn_routing_solve(&r, NULL, NULL, &out, NULL) == TARN_EARG);
	r.start_level_m = 0.5;
	r.rating_level_m = (double[]){ 0.2, 0.4 };
	r.rating_m3s = (double[]){ 0, 1e-3 };
	r.rating_count = 2;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_routing_solve(&r, NULL, NULL, &out, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "above the rating table") != NULL);
	/* below its first row nothing leaves */
	r.start_level_m = 0.1;
	cr_assert(tarn_routing_solve(&r, NULL, NULL, &out, NULL) == TARN_OK);
	cr_expect(out.outflow_m3 == 0);
}

/* ---- network ------------------------------------------------------------------------ */

Test(flow_limits, networks_that_are_none)
{
	struct tarn_pump_curve pump[TARN_PUMPS_MAX + 1];
	struct tarn_pipe pipe = tarn_pipe_default();
	struct tarn_branch b[2] = { tarn_branch_default(), tarn_branch_default() };
	struct tarn_branch_flow each[2];
	struct tarn_network_flow all;
	struct tarn_network net = { pump, 1, NULL, 0, b, 2 };
	struct tarn_balance need;
	struct tarn_error err = { 0 };
	double extra[2];

	for (int i = 0; i <= TARN_PUMPS_MAX; i++) {
		pump[i] = tarn_pump_curve_default();
		pump[i].max_head_m = 2;
		pump[i].label_flow_m3s = 2e-3;
	}
	pipe.diameter_m = 0.04;
	pipe.length_m = 5;
	pipe.roughness_m = 1e-5;
	b[0].pipes = b[1].pipes = &pipe;
	b[0].pipe_count = b[1].pipe_count = 1;
	b[0].lift_m = 5;
	b[1].lift_m = 3;	/* the lowest, and still too high */
	cr_expect(tarn_network_solve(&net, each, &all, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "cannot lift") != NULL &&
		  strstr(err.text, "3 m") != NULL, "%s", err.text);
	b[1].lift_m = 0.5;	/* the other runs dry */
	cr_assert(tarn_network_solve(&net, each, &all, NULL) == TARN_OK);
	cr_expect(each[0].dry && !each[1].dry && all.dry_branches == 1);
	cr_expect(each[0].flow_m3s == 0 && all.continuity <= 1e-10);
	net.pump_count = 0;
	cr_expect(tarn_network_solve(&net, each, &all, NULL) == TARN_EARG);
	net.pump_count = TARN_PUMPS_MAX + 1;
	cr_expect(tarn_network_solve(&net, each, &all, NULL) == TARN_EARG);
	net.pump_count = TARN_PUMPS_MAX;
	cr_expect(tarn_network_solve(&net, each, &all, NULL) == TARN_OK);
	/* a branch without a pipe has no valve to be held back with */
	net.pump_count = 1;
	b[0] = tarn_branch_default();
	b[0].resistance_s2m5 = 1e5;
	b[0].target_m3s = b[1].target_m3s = 5e-4;
	cr_assert(tarn_network_balance(&net, extra, each, &need, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	cr_expect(need.governs == 1 && extra[1] == 0 && isnan(extra[0]));
	close_to("head", need.head_m, 0.5 + each[1].headloss_m, 1e-9);
	b[0].target_m3s = 0;
	cr_expect(tarn_network_balance(&net, extra, each, &need, NULL) ==
		  TARN_EARG);
}

/* ---- top-up, overflow ---------------------------------------------------------------- */

Test(flow_limits, top_ups)
{
	struct tarn_topup t = tarn_topup_default();
	struct tarn_topup_flow out;
	struct tarn_error err = { 0 };

	t.volume_m3 = 1;
	t.pond_m3 = 4;
	t.chlorine_mg_l = 2;
	t.chloramine_mg_l = 2;
	t.neutraliser = 7;
	cr_assert(tarn_topup_solve(&t, &out, &err) == TARN_OK, "%s %s", err.field,
		  err.text);
	near("tap water", out.share, 0.25, 1e-12);
	near("mixed", out.chlorine_mixed_mg_l, 0.5, 1e-12);
	near("neutraliser", out.neutraliser_g, 14, 1e-12);
	near("for the pond", out.neutraliser_pond_g, 56, 1e-12);
	/* an N for two Cl: 14.007 / 70.906 of 2 g */
	near("nitrogen", out.nitrogen_g, 2 * 14.007 / 70.906, 1e-12);
	t.volume_m3 = 4;	/* all of it is tap water */
	cr_assert(tarn_topup_solve(&t, &out, NULL) == TARN_OK);
	near("all", out.share, 1, 1e-12);
	t.volume_m3 = 4.001;
	cr_expect(tarn_topup_solve(&t, &out, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "topup.volume");
	t.volume_m3 = 1;
	t.chloramine_mg_l = 2.001;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_topup_solve(&t, &out, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "topup.chloramine");
	t.chloramine_mg_l = TARN_NAN;
	for (int i = 0; i < 2; i++) {
		*(i ? &t.kv : &t.cv) = 1;
		err = (struct tarn_error){ 0 };
		cr_expect(tarn_topup_solve(&t, &out, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, "topup.pressure");
		t.pressure_kpa = i ? 100 : 6.894757293168361;
		cr_assert(tarn_topup_solve(&t, &out, NULL) == TARN_OK);
		/* 1 m3/h at 1 bar, 1 US gal/min at 1 psi */
		near("valve", out.flow_m3s, i ? 1 / 3600.0 : GPM, 1e-15);
		near("time", out.fill_time_s, 1 / out.flow_m3s, 1e-6);
		*(i ? &t.kv : &t.cv) = t.pressure_kpa = TARN_NAN;
	}
	t.kv = t.flow_m3s = 1e-3;
	cr_expect(tarn_topup_solve(&t, &out, NULL) == TARN_EARG);
	EXPECT_NAN(tarn_air_gap_m(0));
	near("gap, least", tarn_air_gap_m(0.0127), 0.0254, 1e-15);
	near("gap", tarn_air_gap_m(0.02), 0.04, 1e-15);
	near("SDR 4", tarn_pipe_sdr_inside_m(0.1, 4), 0.05, 1e-15);
	EXPECT_NAN(tarn_pipe_sdr_inside_m(0.1, 2));
	EXPECT_NAN(tarn_pipe_sdr_inside_m(0, 4));
	EXPECT_NAN(tarn_pipe_sdr_inside_m(0.1, HUGE_VAL));
	EXPECT_NAN(tarn_pipe_inside_m("40", "5"));
}
