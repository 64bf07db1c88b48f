/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "test_flow.h"
#include "tarn/works.h"

/* Pump, pipes, falls and stream put together; levels; a storm. */

#define GAL 3.785411784e-3

static struct tarn_basin *box(double area_m2, double depth_m)
{
	const double level[] = { 0, depth_m }, area[] = { area_m2, area_m2 };
	struct tarn_basin *b;

	cr_assert(tarn_basin_table(&b, NULL, level, area, 2, NULL) == TARN_OK);
	return b;
}

static struct tarn_pond pond_in(const struct tarn_basin *b)
{
	struct tarn_pond p = tarn_pond_default();

	p.basin = b;
	p.overflow_level_m = 1.1;
	p.trigger_m = 0.95;
	p.target_m = 1;
	p.intake_m = 0.7;
	return p;
}

/*
 * 100 US gal/min over a 2 ft suppressed lip with a pool of 12 ft2, along 15 ft
 * of stream 2 ft wide, slope 0.05, n 0.035, from 40 ft of 2 in schedule 40:
 * 9.32 + 16.02 + 6.97 gal (computed here part by part; no published example
 * of drain-back was found).
 */
Test(works, transit_regression)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;
	struct tarn_pond_facts facts;

	p.pump.flow_m3s = 100 * GPM;
	p.stream.length_m = 15 * FT;
	p.stream.width_m = 2 * FT;
	p.stream.slope = 0.05;
	p.stream.manning = 0.035;
	w.runs = 1;
	w.run[0].to = TARN_TO_FALLS;
	w.run[0].size = 6;	/* "2" */
	w.run[0].length_m = 40 * FT;
	w.falls = 1;
	w.fall[0].kind = TARN_FALL_SHARP;
	w.fall[0].width_m = 2 * FT;
	w.fall[0].pool_m2 = 12 * FT * FT;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	near("head on the lip", f.fall[0].head_m / INCH, 1.2458809, 3e-4);
	near("pool", f.pools_m3 / GAL, 9.319837, 2e-3);
	near("stream", f.stream_m3 / GAL, 16.021503, 3e-3);
	near("pipe", f.drain_m3 / GAL, 6.9726862, 1e-5);
	cr_expect(f.drain_given == 0 && f.stream_given == 0 &&
		  f.bed_given == -1 && !f.from_curve);
	tarn_works_fill(&f, &p);
	cr_assert(tarn_pond_facts(&p, &facts, NULL) == TARN_OK);
	near("in all", facts.transit_m3,
	     f.pools_m3 + f.stream_m3 + f.drain_m3, 1e-15);
	p.pump.check_valve = 1;
	p.pump.drainback_m3 = TARN_NAN;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	cr_expect(f.drain_m3 == 0, "a check valve holds the pipes");
	tarn_basin_free(b);
}

/* What is described wins over what is worked out. */
Test(works, given_stands)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;

	p.bed.area_m2 = 2;
	p.bed.lip_head_m = 0.02;
	p.stream.area_m2 = 3;
	p.stream.depth_m = 0.03;
	p.pump.drainback_m3 = 0.015;
	p.pump.flow_m3s = 2e-3;
	w.runs = 1;
	w.run[0].diameter_m = 0.05;
	w.run[0].length_m = 10;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	near("bed", f.bed_m3, 0.04, 1e-15);
	near("stream", f.stream_m3, 0.09, 1e-15);
	near("pipes", f.drain_m3, 0.015, 1e-15);
	cr_expect(f.bed_given == 1 && f.stream_given == 1 &&
		  f.drain_given == 1);
	tarn_works_fill(&f, &p);
	cr_expect(p.bed.lip_head_m == 0.02 && p.pump.drainback_m3 == 0.015);
	tarn_basin_free(b);
}

static void plumb(struct tarn_works *w)
{
	w->runs = 3;
	w->run[0] = tarn_pipe_run_default();
	w->run[0].to = TARN_TO_MANIFOLD;
	w->run[0].diameter_m = 0.05;
	w->run[0].length_m = 2;
	w->run[1] = tarn_pipe_run_default();
	w->run[1].diameter_m = 0.04;
	w->run[1].length_m = 8;
	w->run[1].lift_m = 0.9;
	w->run[1].fittings = 1;
	w->run[1].fitting[0].kind = tarn_fitting_find("90 elbow threaded");
	w->run[1].fitting[0].count = 4;
	w->run[2] = tarn_pipe_run_default();
	w->run[2].to = TARN_TO_POND;
	w->run[2].diameter_m = 0.025;
	w->run[2].length_m = 5;
	w->run[2].orifice_diameter_m = 0.012;
}

/* The pump against its pipes: laws of the network, and the same heads by
 * hand along each way. */
Test(works, pump_meets_pipes)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f, high;
	struct tarn_pump_curve curve = tarn_pump_curve_default();

	plumb(&w);
	p.bed.area_m2 = 2;
	p.pump.max_head_m = curve.max_head_m = 5;
	p.pump.label_flow_m3s = curve.label_flow_m3s = 3e-3;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	cr_expect(f.continuity <= 1e-10 && f.energy <= 1e-10);
	cr_expect(f.from_curve);
	close_to("split", f.bed_m3s + f.falls_m3s + f.pond_m3s, f.flow_m3s,
		 1e-10);
	close_to("head by the curve", tarn_pump_head_m(&curve, f.flow_m3s),
		 f.head_m, 1e-9);
	/* to the bed: 0.9 above the lip, the pond 0.1 under it */
	close_to("head by the way to the bed", f.run[0].headloss_m + 1.0 +
		 f.run[1].headloss_m, f.head_m, 1e-9);
	close_to("head by the way of the jets", f.run[0].headloss_m +
		 f.run[2].headloss_m, f.head_m, 1e-9);
	cr_expect(f.low_m3s < f.flow_m3s, "a lower pond is a higher lift");
	near("minor losses: 4 elbows of K 1.5 and the mouth", f.run[1].minor_m,
	     7 * f.run[1].velocity_ms * f.run[1].velocity_ms /
	     (2 * TARN_GRAVITY), 1e-9);
	w.run[1].lift_m = 1.4;
	cr_assert(tarn_works_solve(&w, &p, &high, NULL) == TARN_OK);
	cr_expect(high.bed_m3s < f.bed_m3s && high.pond_m3s > f.pond_m3s);
	/* a measured flow is split as the network splits its own */
	w.run[1].lift_m = 0.9;
	p.pump.flow_m3s = f.solved_m3s / 2;
	cr_assert(tarn_works_solve(&w, &p, &high, NULL) == TARN_OK);
	close_to("measured", high.bed_m3s, f.bed_m3s / 2, 1e-10);
	cr_expect(!high.from_curve && high.solved_m3s == f.solved_m3s);
	tarn_basin_free(b);
}

/* What is not there has no flow, and a mouth is counted once, named or not. */
Test(works, mouths_and_falls)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f, named;
	struct tarn_error err = { 0 };

	plumb(&w);
	p.bed.area_m2 = 2;
	p.pump.max_head_m = 5;
	p.pump.label_flow_m3s = 3e-3;
	memset(&f, 0, sizeof f);
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	for (int i = 0; i < TARN_FALLS_MAX; i++)
		cr_expect(isnan(f.fall[i].flow_m3s), "fall %d", i);
	for (int i = w.runs; i < TARN_RUNS_MAX; i++)
		cr_expect(isnan(f.run[i].flow_m3s), "run %d", i);
	w.run[1].fittings = 2;
	w.run[1].fitting[1].kind = tarn_fitting_find("exit");
	w.run[1].fitting[1].count = 1;
	cr_assert(tarn_works_solve(&w, &p, &named, NULL) == TARN_OK);
	close_to("exit, named", named.bed_m3s, f.bed_m3s, 1e-12);
	/* 4 m down, and pipes that lift 0.9 m above the running level */
	w.run[1].to = TARN_TO_FALLS;
	w.falls = 1;
	w.fall[0] = tarn_fall_default();
	w.fall[0].width_m = 0.4;
	w.fall[0].drop_m = 4;
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "drop 4 m (13.1 ft)") != NULL, "%s",
		  err.text);
	cr_expect(strstr(err.text, "lift only 1 m (3.28 ft)") != NULL, "%s",
		  err.text);
	/* the fall of the stream is part of the drop: 0.5 m and 10 m of it */
	w.fall[0].drop_m = 0.5;
	p.stream.length_m = 10;
	p.stream.width_m = 0.5;
	p.stream.manning = 0.035;
	p.stream.slope = 0.06;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "drop 1.1 m") != NULL, "%s", err.text);
	p.stream.slope = 0.05;
	cr_expect(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	p.stream = tarn_pond_default().stream;
	w.fall[0].drop_m = 4;
	/* a stream of which a half is not known adds nothing to that */
	p.stream.slope = TARN_NAN;
	p.stream.length_m = 3;
	cr_expect(tarn_works_solve(&w, &p, &f, NULL) == TARN_EARG);
	p.stream.slope = 0.02;
	p.stream.manning = 0.035;
	p.stream.length_m = TARN_NAN;
	cr_expect(tarn_works_solve(&w, &p, &f, NULL) == TARN_EARG);
	tarn_basin_free(b);
}

/* At half the flow that pump and pipes agree on: half of each flow and speed, a
 * quarter of each loss. */
Test(works, a_flow_that_is_given_scales_the_branches)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f, half;

	plumb(&w);
	w.run[1].valve_k = 3;
	p.bed.area_m2 = 2;
	p.pump.max_head_m = 5;
	p.pump.label_flow_m3s = 3e-3;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	p.pump.flow_m3s = f.flow_m3s / 2;
	cr_assert(tarn_works_solve(&w, &p, &half, NULL) == TARN_OK);
	cr_assert(f.run[1].valve_m > 0 && f.run[1].minor_m > 0);
	for (int i = 1; i < w.runs; i++) {
		const struct tarn_branch_flow *a = &f.run[i], *h = &half.run[i];

		close_to("flow", h->flow_m3s, a->flow_m3s / 2, 1e-12);
		close_to("speed", h->velocity_ms, a->velocity_ms / 2, 1e-12);
		close_to("Re", h->reynolds, a->reynolds / 2, 1e-12);
		close_to("loss", h->headloss_m, a->headloss_m / 4, 1e-12);
		close_to("friction", h->friction_m, a->friction_m / 4, 1e-12);
		close_to("minor", h->minor_m, a->minor_m / 4, 1e-12);
		near("valve", h->valve_m, a->valve_m / 4, 1e-12);
	}
	/* run 2 ends in a hole */
	cr_assert(f.run[2].orifice_m > 0);
	close_to("hole", half.run[2].orifice_m, f.run[2].orifice_m / 4, 1e-12);
	close_to("jet", half.run[2].orifice_velocity_ms,
		 f.run[2].orifice_velocity_ms / 2, 1e-12);
	tarn_basin_free(b);
}

/* A pump's curve meets no pipes where none leads anywhere: its flow is not
 * known, which is no mistake. */
Test(works, a_curve_without_a_way_has_no_flow)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;

	p.pump.max_head_m = 5;
	p.pump.label_flow_m3s = 3e-3;
	for (int runs = 0; runs < 2; runs++) {
		plumb(&w);	/* the first run leads to the manifold */
		w.runs = runs;
		cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
		cr_expect(isnan(f.flow_m3s) && isnan(f.solved_m3s) &&
			  isnan(f.head_m) && !f.from_curve);
	}
	tarn_basin_free(b);
}

/* The bed's lip passes the bed's water alone; falls of the stream pass the
 * water of both. */
Test(works, each_lip_passes_its_own_water)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;

	plumb(&w);
	p.bed.area_m2 = 2;
	p.pump.max_head_m = 5;
	p.pump.label_flow_m3s = 3e-3;
	w.run[w.runs] = w.run[1];
	w.run[w.runs++].to = TARN_TO_FALLS;
	w.falls = 2;
	w.fall[0] = w.fall[1] = tarn_fall_default();
	w.fall[0].width_m = w.fall[1].width_m = 0.4;
	w.fall[0].bed = 1;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	cr_assert(f.bed_m3s > 1e-5 && f.falls_m3s > 1e-5);
	close_to("bed's lip", f.fall[0].flow_m3s, f.bed_m3s, 1e-12);
	close_to("falls", f.fall[1].flow_m3s, f.bed_m3s + f.falls_m3s, 1e-12);
	tarn_basin_free(b);
}

/* Back through the pump's pipe comes the water between the stones, not the
 * stones: 2 m2 x 0.4 x 0.1 m. */
Test(works, siphon_takes_the_water_of_the_gravel)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;

	plumb(&w);
	p.bed.area_m2 = 2;
	p.bed.porosity = 0.4;
	p.pump.flow_m3s = 1e-3;
	w.run[1].siphon_m = 0.1;
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	near("gravel", f.siphon_m3, 0.08, 1e-12);
	p.bed.porosity = TARN_NAN;	/* open water */
	cr_assert(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	near("open water", f.siphon_m3, 0.2, 1e-12);
	tarn_basin_free(b);
}

/* Levels of a chart go down, whatever order they were described in. */
Test(chart, from_the_top_down)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_chart c;

	w.bay.sill_m = 0.2;
	w.bay.pump_minimum_m = 0.4;
	cr_assert(tarn_chart_make(&p, &w, 1.15, &c, NULL) == TARN_OK);
	for (size_t i = 1; i < c.count; i++)
		cr_expect(c.level[i].level_m <= c.level[i - 1].level_m,
			  "%s over %s",
			  tarn_level_name((enum tarn_level_name)c.level[i].name),
			  tarn_level_name((enum tarn_level_name)c.level[i - 1].name));
	tarn_basin_free(b);
}

/* Both ends of a share's range. */
Test(works, least_opening)
{
	struct tarn_works w = tarn_works_default();
	const double widths[] = { 0.0099, 0.01, 0.01005, 100 };

	for (size_t i = 0; i < 4; i++) {
		w.bay.width_m = widths[i];
		cr_expect((tarn_fields_check(&tarn_bay_fields, &w, NULL) ==
			   TARN_OK) == (i > 0), "%g", widths[i]);
	}
}

Test(works, refuses)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;
	struct tarn_error err = { 0 };

	p.stream.slope = -0.01;
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "stream.slope");
	p.stream.slope = TARN_NAN;
	w.bay.sill_m = 0.7;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "bay.sill");
	w.bay.sill_m = 0.6;
	w.bay.pump_minimum_m = 0.71;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "bay.pump_minimum");
	w.bay.pump_minimum_m = 0.5;
	cr_expect(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	plumb(&w);
	p.pump.max_head_m = 0.05;
	p.pump.label_flow_m3s = 1e-3;
	w.runs = 2;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "cannot lift") != NULL, "%s", err.text);
	tarn_basin_free(b);
}

/* A pipe that ends at the lip has no lift, which a curve cannot do with; without
 * a curve it is only not known. */
Test(works, a_lift_of_nothing)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;
	struct tarn_error err = { 0 };

	plumb(&w);
	p.bed.area_m2 = 2;
	w.run[1].lift_m = 0;
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_OK, "%s",
		  err.text);
	w.run[1].lift_m = -0.1;
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "over 0 m, got -0.1") != NULL, "%s",
		  err.text);
	cr_expect(strstr(err.text, "number 2 ends at the bed") != NULL, "%s",
		  err.text);
	p.pump.max_head_m = 5;
	p.pump.label_flow_m3s = 3e-3;
	w.run[1].lift_m = 0;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "over 0 m, got 0") != NULL, "%s", err.text);
	tarn_basin_free(b);
}

/* 6 m above the lip, with the running level 0.1 m under it: 6.1 m, 20.0 ft.
 * 1 m3/s is 951019.4 US gal/h. */
Test(works, refusals_say_both_units)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_works_flow f;
	struct tarn_error err = { 0 };
	const char *left;
	double m, ft;

	plumb(&w);
	p.bed.area_m2 = 2;
	p.pump.max_head_m = 5;
	p.pump.label_flow_m3s = 3e-3;
	w.run[1].lift_m = 6;
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "it stands 6.1 m (20 ft) above") != NULL,
		  "%s", err.text);
	left = strstr(err.text, "only ");
	cr_assert(left && sscanf(left, "only %lf m (%lf ft)", &m, &ft) == 2,
		  "%s", err.text);
	close_to("left", ft * FT, m, 5e-3);
	w.run[1].lift_m = 0.9;
	p.pump.flow_m3s = 4e-3;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&w, &p, &f, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "0.004 m3/s (3804 US gal/h) of at most 0.003 "
			 "m3/s (2853 US gal/h)") != NULL, "%s", err.text);
	p.pump.flow_m3s = 3e-3;	/* the whole of the label's, no more */
	cr_expect(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	p.pump.flow_m3s = 4e-3;
	p.pump.count = 2;
	cr_expect(tarn_works_solve(&w, &p, &f, NULL) == TARN_OK);
	tarn_basin_free(b);
}

/* ---- levels --------------------------------------------------------------- */

static double level_of(const struct tarn_chart *c, int name)
{
	for (size_t i = 0; i < c->count; i++)
		if (c->level[i].name == name)
			return c->level[i].level_m;
	return TARN_NAN;
}

/* 10 m2 upright: every level by hand. */
Test(chart, upright_basin)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_chart c;
	double sum = 0;

	p.pump.drainback_m3 = 0.5;
	w.bay.pump_minimum_m = 0.4;
	cr_assert(tarn_chart_make(&p, &w, 1.15, &c, NULL) == TARN_OK);
	near("stop", level_of(&c, TARN_LEVEL_STOP), 1.05, 1e-12);
	near("full on", level_of(&c, TARN_LEVEL_FULL_ON), 1.05, 1e-12);
	near("start", level_of(&c, TARN_LEVEL_START), 0.90, 1e-12);
	near("room", c.room_m3, 0.5, 1e-12);
	near("drop", c.drop_m, 0.05, 1e-12);
	near("freeboard", c.freeboard_m, 0.1, 1e-12);
	cr_expect(!c.spills && !c.start_bares_intake && c.count == 11);
	for (size_t i = 0; i < c.count; i++) {
		cr_expect(i == 0 || c.level[i].level_m <=
					    c.level[i - 1].level_m);
		sum += c.level[i].between_m3;
	}
	near("the parts add up to all", sum, 12, 1e-12);
	p.target_m = 1.08;	/* 0.02 m to the lip take 0.2 m3 of 0.5 */
	cr_assert(tarn_chart_make(&p, &w, TARN_NAN, &c, NULL) == TARN_OK);
	cr_expect(c.spills);
	near("spill", c.spill_m3, 0.3, 1e-12);
	p.intake_m = 0.92;
	cr_assert(tarn_chart_make(&p, &w, TARN_NAN, &c, NULL) == TARN_OK);
	cr_expect(c.start_bares_intake);
	p.trigger_m = p.target_m = TARN_NAN;	/* no top-up */
	cr_assert(tarn_chart_make(&p, &w, TARN_NAN, &c, NULL) == TARN_OK);
	cr_expect(!c.spills && isnan(level_of(&c, TARN_LEVEL_TARGET)));
	/* it runs at 1.05; a start from there takes another 0.05 */
	near("start without a trigger", level_of(&c, TARN_LEVEL_START), 1, 1e-12);
	near("its drop", c.drop_trigger_m, 0.05, 1e-12);
	near("a stop just reaches the lip", level_of(&c, TARN_LEVEL_STOP), 1.1,
	     1e-12);
	cr_expect_str_eq(tarn_level_name(TARN_LEVEL_FULL_ON), "full_on");
	cr_expect_str_eq(tarn_level_name((enum tarn_level_name)-1), "");
	tarn_basin_free(b);
}

/* ---- storm ---------------------------------------------------------------- */

Test(storm, volumes_close)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_storm_flow s, wide;

	p.apron.area_m2 = 20;
	p.apron.coefficient = 0.5;
	w.catchments = 1;
	w.catchment[0] = (struct tarn_catchment){ 50, 0.9, "" };
	w.storm.intensity_mm_h = 60;
	w.overflow.lip_width_m = 0.2;
	w.overflow.clogging = 0.5;
	cr_assert(tarn_storm_solve(&w, &p, &s, NULL) == TARN_OK);
	/* rational: (10 + 10 + 45) m2 x 60 mm/h */
	close_to("peak", s.peak_m3s, 65 * 0.06 / 3600, 1e-12);
	close_to("rain", s.rain_m3, 3.9, 1e-9);
	near("routing conserves volume", s.balance_m3, 0, 1e-10);
	cr_expect(s.head_m > 0 && s.head_m <= s.clogged_head_m + 1e-9);
	cr_expect(s.clear_head_m < s.clogged_head_m);
	near("clogged head by hand", s.clogged_head_m,
	     pow(s.peak_m3s / (0.5 * 0.2 * 1.705), 2.0 / 3), 1e-9);
	near("edge", s.edge_left_m, 1.2 - s.peak_level_m, 1e-12);
	/* what leaves at the peak is what the clogged lip passes there */
	close_to("peak out", s.peak_out_m3s, 0.5 * 0.2 * 1.705 *
		 pow(s.head_m, 1.5), 2e-2);
	w.overflow.lip_width_m = 1;
	cr_assert(tarn_storm_solve(&w, &p, &wide, NULL) == TARN_OK);
	cr_expect(wide.head_m < s.head_m);
	/* 1 in/h on 1 ft2 is 0.0104 US gal/min (derived from the units) */
	near("rule", tarn_rational_m3s(1, 25.4, FT * FT) / GPM, 0.0104, 5e-5);
	tarn_basin_free(b);
}

/* An apron by curve number 90 under 60 mm/h for half an hour, 30 mm: S 28.22,
 * runoff (30 - 5.644)^2 / (30 + 22.578) = 11.283 mm, 0.3761 of the rain (TR-55
 * eq. 2-3, by hand). */
Test(storm, apron_by_curve_number)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_storm_flow s;

	p.apron.area_m2 = 20;
	p.apron.curve_number = 90;
	w.storm.intensity_mm_h = 60;
	w.storm.duration_s = 1800;
	w.overflow.lip_width_m = 0.2;
	cr_assert(tarn_storm_solve(&w, &p, &s, NULL) == TARN_OK);
	close_to("peak", s.peak_m3s, (10 + 20 * 0.3761) * 0.06 / 3600, 1e-4);
	tarn_basin_free(b);
}

/* Too small an overflow: the water stands over the edge, and it is told. */
Test(storm, over_the_edge)
{
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_pond p = pond_in(b);
	struct tarn_works w = tarn_works_default();
	struct tarn_storm_flow s;
	struct tarn_error err = { 0 };

	cr_expect(tarn_storm_solve(&w, &p, &s, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "storm.intensity");
	w.storm.intensity_mm_h = 60;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_storm_solve(&w, &p, &s, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "overflow");
	w.overflow.standpipe_diameter_m = 0.02;
	w.catchments = 1;
	w.catchment[0] = (struct tarn_catchment){ 100, 1, "" };
	cr_assert(tarn_storm_solve(&w, &p, &s, NULL) == TARN_OK);
	cr_expect(s.edge_left_m < 0);
	near("closes", s.balance_m3, 0, 1e-9);
	/* a stop just before it brings the water in transit back */
	p.pump.drainback_m3 = 0.3;
	w.catchment[0].area_m2 = 10;
	cr_assert(tarn_storm_solve(&w, &p, &s, NULL) == TARN_OK);
	near("start after the stop", s.start_m, 1.03, 1e-12);
	w.storm.stopped = 0;
	cr_assert(tarn_storm_solve(&w, &p, &s, NULL) == TARN_OK);
	near("start running", s.start_m, 1, 1e-12);
	tarn_basin_free(b);
}

/*
 * Shallow water under upright walls: 65 m2 give 3.9 m3 in an hour of 60 mm/h,
 * 0.39 m on 10 m2, far under the lip, wherever the water stood before.
 */
Test(storm, shallow_water_rises_by_the_rain)
{
	static const double start[] = { 0.02, 0.3, 0.55, 0.6 };
	struct tarn_basin *b = box(10, 1.2);
	struct tarn_works w = tarn_works_default();

	w.catchments = 1;
	w.catchment[0] = (struct tarn_catchment){ 55, 1, "" };
	w.storm.intensity_mm_h = 60;
	w.overflow.lip_width_m = 0.2;
	for (size_t i = 0; i < COUNT(start); i++) {
		struct tarn_pond p = pond_in(b);
		struct tarn_storm_flow s;

		p.intake_m = TARN_NAN;
		p.trigger_m = p.target_m = start[i];
		cr_assert(tarn_storm_solve(&w, &p, &s, NULL) == TARN_OK);
		near("start", s.start_m, start[i], 1e-12);
		near("peak", s.peak_level_m, start[i] + 0.39, 1e-6);
		near("nothing leaves", s.out_m3, 0, 1e-12);
		near("no head", s.head_m, 0, 0);
		near("edge", s.edge_left_m, 1.2 - 0.39 - start[i], 1e-6);
	}
	tarn_basin_free(b);
}

/* WMO World Weather and Climate Extremes Archive: 305 mm in 60 min (Holt, 1947),
 * 1825 mm in 24 h (Foc-Foc, 1966), 2493 mm in 48 h (Cherrapunji, 1995).  144 in
 * is 3657.6 mm. */
Test(storm, beyond_the_record_is_asked_about)
{
	static const struct { double mm_h, hours, record_mm; } rows[] = {
		{ 305, 1, 0 }, { 305.1, 1, 305 }, { 6 * 25.4, 24, 1825 },
		{ 6 * 25.4, 1, 0 }, { 76, 24, 0 }, { 77, 24, 1825 },
		{ 51.9, 48, 0 }, { 52, 48, 2493 }, { 1000, 0.25, 0 },
		{ TARN_NAN, 1, 0 }, { 1000, 1.0 / 60, 0 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_storm s = tarn_works_default().storm;
		struct tarn_storm_doubt d = { 0 };

		s.intensity_mm_h = rows[i].mm_h;
		s.duration_s = rows[i].hours * 3600;
		cr_expect(tarn_storm_doubtful(&s, &d) ==
			  (rows[i].record_mm > 0), "%g mm/h, %g h",
			  rows[i].mm_h, rows[i].hours);
		cr_expect(d.record_mm == rows[i].record_mm);
		if (rows[i].record_mm > 0)
			cr_expect(fabs(d.depth_mm - rows[i].mm_h *
				       rows[i].hours) < 1e-9);
	}
}
