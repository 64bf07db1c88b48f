/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"
#include "tarn/works.h"

/* All parts of the works in one pond, each figure by hand or by its formula. */

static struct tarn_basin *basin;
static struct tarn_pond pond;
static struct tarn_works works;
static struct tarn_works_flow flow;
static struct tarn_error err;

static void set_up(void)
{
	const double level[] = { 0, 1.2 }, area[] = { 10, 10 };

	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	pond = tarn_pond_default();
	pond.basin = basin;
	pond.overflow_level_m = 1.1;
	pond.trigger_m = 0.95;
	pond.target_m = 1;
	works = tarn_works_default();
	err = (struct tarn_error){ 0 };
}

static void tear_down(void)
{
	tarn_basin_free(basin);
}

TestSuite(works_whole, .init = set_up, .fini = tear_down);

static void solved(void)
{
	err = (struct tarn_error){ 0 };
	cr_assert(tarn_works_solve(&works, &pond, &flow, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
}

static void refused(const char *field, const char *part)
{
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_solve(&works, &pond, &flow, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, field, "%s %s", err.field, err.text);
	cr_expect(strstr(err.text, part) != NULL, "%s", err.text);
}

static struct tarn_pipe_run run_to(int to, double diameter_m, double length_m)
{
	struct tarn_pipe_run r = tarn_pipe_run_default();

	r.to = to;
	r.diameter_m = diameter_m;
	r.length_m = length_m;
	return r;
}

/* Trunk of 50 mm, 2 m, with an entrance; to the bed 40 mm, 8 m, 0.9 m up. */
static void plumb(void)
{
	works.runs = 2;
	works.run[0] = run_to(TARN_TO_MANIFOLD, 0.05, 2);
	works.run[0].minor_k = 0.5;
	works.run[1] = run_to(TARN_TO_BED, 0.04, 8);
	works.run[1].lift_m = 0.9;
	works.run[1].minor_k = 2;
	works.run[1].valve_k = 3;
	pond.bed.area_m2 = 2;
	pond.pump.max_head_m = 5;
	pond.pump.label_flow_m3s = 3e-3;
}

/* Its loss alone, by the formula of a pipe. */
static struct tarn_pipe_flow alone(const struct tarn_pipe_run *r, double mouths,
				   double flow_m3s, double temp_c)
{
	struct tarn_pipe p = tarn_pipe_default();
	struct tarn_pipe_flow out;

	p.flow_m3s = flow_m3s;
	p.diameter_m = r->diameter_m;
	p.length_m = r->length_m;
	p.roughness_m = r->roughness_m;
	p.minor_k = r->minor_k + mouths;
	p.temp_c = temp_c;
	cr_assert(tarn_pipe_solve(&p, &out, NULL) == TARN_OK);
	return out;
}

Test(works_whole, each_run_is_its_pipe)
{
	static const double temps[] = { 15, 4 };
	double warm = 0;

	plumb();
	for (int i = 0; i < 2; i++) {
		struct tarn_pipe_flow trunk, run;
		double v;

		works.temp_c = temps[i];
		works.run[1].roughness_m = i ? 1e-4 : 1.5e-6;
		solved();
		trunk = alone(&works.run[0], 0, flow.solved_m3s, temps[i]);
		run = alone(&works.run[1], 1, flow.solved_m3s, temps[i]);
		v = run.velocity_ms;
		close_to("trunk", flow.run[0].headloss_m, trunk.headloss_m, 1e-9);
		close_to("its speed", flow.run[0].velocity_ms, trunk.velocity_ms,
			 1e-12);
		near("its flow", flow.run[0].flow_m3s, flow.solved_m3s, 0);
		close_to("friction", flow.run[1].friction_m, run.friction_m, 1e-9);
		close_to("minor", flow.run[1].minor_m, run.minor_m, 1e-9);
		close_to("speed", flow.run[1].velocity_ms, v, 1e-9);
		close_to("valve", flow.run[1].valve_m,
			 3 * v * v / (2 * TARN_GRAVITY), 1e-9);
		close_to("head", flow.head_m, 1 + trunk.headloss_m +
			 run.headloss_m + 3 * v * v / (2 * TARN_GRAVITY), 1e-9);
		close_to("share of the label", flow.share_of_label,
			 flow.solved_m3s / 3e-3, 1e-12);
		cr_expect(i == 0 || flow.solved_m3s < warm,
			  "cold water and a rough pipe take flow");
		warm = flow.solved_m3s;
	}
	/* 0.25 m under the running level the lift is 1.25 m */
	pond.intake_m = 0.75;
	solved();
	cr_expect(flow.low_m3s < flow.solved_m3s);
	close_to("low", 5 * (1 - pow(flow.low_m3s / 3e-3, 2)), 1.25 +
		 alone(&works.run[0], 0, flow.low_m3s, 4).headloss_m +
		 alone(&works.run[1], 1, flow.low_m3s, 4).headloss_m +
		 3 * pow(flow.low_m3s / (PI * 4e-4), 2) / (2 * TARN_GRAVITY),
		 1e-9);
	/* two pumps: half of the flow each */
	pond.pump.count = 2;
	solved();
	close_to("curve of two", 5 * (1 - pow(flow.solved_m3s / 6e-3, 2)),
		 flow.head_m, 1e-9);
}

/* A curve by points ends at its last one. */
Test(works_whole, a_curve_by_points)
{
	plumb();
	pond.pump.max_head_m = pond.pump.label_flow_m3s = TARN_NAN;
	works.curve_points = 3;
	memcpy(works.curve_flow_m3s, (double[]){ 0, 1e-3, 2e-3 },
	       3 * sizeof(double));
	memcpy(works.curve_head_m, (double[]){ 5, 4, 0.5 }, 3 * sizeof(double));
	solved();
	cr_expect(flow.from_curve && flow.solved_m3s > 1e-3 &&
		  flow.solved_m3s < 2e-3);
	cr_expect(isnan(flow.share_of_label));
	pond.pump.flow_m3s = 2e-3;
	solved();
	cr_expect(flow.flow_m3s == 2e-3 && !flow.from_curve);
	pond.pump.flow_m3s = 2.01e-3;
	refused("pump.flow", "of at most 0.002 m3/s");
	pond.pump.flow_m3s = TARN_NAN;
	pond.pump.max_head_m = 5;
	pond.pump.label_flow_m3s = 3e-3;
	refused("pump.curve", "and max_head exclude each other");
}

/* Where a flow goes that no curve gives: to the bed, if there is one. */
Test(works_whole, a_flow_that_is_only_given)
{
	solved();
	cr_expect(isnan(flow.flow_m3s) && isnan(flow.bed_m3s) &&
		  isnan(flow.falls_m3s) && isnan(flow.pond_m3s) &&
		  isnan(flow.bed_head_m) && isnan(flow.stream.area_m2) &&
		  isnan(flow.solved_m3s) && isnan(flow.head_m) &&
		  isnan(flow.low_m3s) && isnan(flow.share_of_label) &&
		  isnan(flow.continuity) && isnan(flow.energy));
	cr_expect(flow.bed_given == -1 && flow.stream_given == -1 &&
		  flow.drain_given == -1 && flow.bed_m3 == 0 &&
		  flow.stream_m3 == 0 && flow.drain_m3 == 0);
	for (int i = 0; i < TARN_RUNS_MAX; i++)
		cr_expect(isnan(flow.run[i].flow_m3s) &&
			  isnan(flow.run[i].headloss_m) && !flow.run[i].dry);
	pond.pump.flow_m3s = 2e-3;
	solved();
	cr_expect(flow.bed_m3s == 0 && flow.falls_m3s == 2e-3 &&
		  flow.pond_m3s == 0);
	pond.bed.area_m2 = 2;
	solved();
	cr_expect(flow.bed_m3s == 2e-3 && flow.falls_m3s == 0 &&
		  flow.pond_m3s == 0);
}

/* C L H^1.5 with C of 1.6, 1.705, 1.838; the pool behind a fall rises with its
 * head, the bed's own lip has the bed behind it. */
Test(works_whole, falls_by_their_kinds)
{
	static const struct { int kind; double c; } kinds[] = {
		{ TARN_FALL_STONE, 1.6 }, { TARN_FALL_BROAD, 1.705 },
		{ TARN_FALL_SHARP, 1.838 },
	};

	pond.pump.flow_m3s = 2e-3;
	pond.bed.area_m2 = 2;
	works.falls = 2;
	for (int k = 0; k < 3; k++) {
		double head = pow(2e-3 / (kinds[k].c * 0.4), 2.0 / 3);

		works.fall[0] = works.fall[1] = tarn_fall_default();
		works.fall[0].width_m = works.fall[1].width_m = 0.4;
		works.fall[0].kind = works.fall[1].kind = kinds[k].kind;
		works.fall[0].bed = 1;
		works.fall[0].pool_m2 = 9;	/* plays no part */
		works.fall[1].pool_m2 = 1.5;
		works.fall[1].drop_m = 0.3;
		solved();
		close_to("bed's head", flow.bed_head_m, head, 1e-12);
		close_to("head", flow.fall[1].head_m, head, 1e-12);
		close_to("pool", flow.pools_m3, 1.5 * head, 1e-12);
		close_to("bed", flow.bed_m3, 2 * head, 1e-12);
		cr_expect(flow.bed_given == 0);
		cr_expect(flow.fall[1].throw_m > 0 &&
			  isnan(flow.fall[0].throw_m));
	}
	works.fall[1].coefficient = 1.2;
	solved();
	close_to("its own C", flow.fall[1].head_m,
		 pow(2e-3 / (1.2 * 0.4), 2.0 / 3), 1e-12);
	/* no water on the fall of the bed where all goes to the falls */
	pond.bed.area_m2 = 0;
	solved();
	cr_expect(isnan(flow.fall[0].flow_m3s) && isnan(flow.bed_head_m));
	close_to("all of it", flow.fall[1].flow_m3s, 2e-3, 1e-12);
}

/* Manning on 0.6 m, 2 %, n 0.035; what of a stream is described wins. */
Test(works_whole, water_in_a_stream)
{
	struct tarn_channel c = tarn_channel_default();
	struct tarn_channel_flow normal;

	pond.pump.flow_m3s = c.flow_m3s = 2e-3;
	pond.stream.slope = c.slope = 0.02;
	pond.stream.manning = c.manning = 0.035;
	pond.stream.width_m = c.width_m = 0.6;
	pond.stream.length_m = 5;
	cr_assert(tarn_channel_solve(&c, &normal, NULL) == TARN_OK);
	solved();
	close_to("depth", flow.stream.depth_m, normal.depth_m, 1e-12);
	close_to("water", flow.stream_m3, 5 * normal.area_m2, 1e-12);
	cr_expect(flow.stream_given == 0);
	pond.stream.depth_m = 0.05;	/* on length x width */
	solved();
	close_to("by depth", flow.stream_m3, 5 * 0.6 * 0.05, 1e-12);
	cr_expect(flow.stream_given == 1);
	pond.stream.area_m2 = 2;
	solved();
	close_to("by area", flow.stream_m3, 2 * 0.05, 1e-12);
	pond.stream.volume_m3 = 0.07;
	solved();
	cr_expect(flow.stream_m3 == 0.07 && flow.stream_given == 1);
	pond.stream = tarn_pond_default().stream;
	pond.stream.slope = 0.02;
	pond.stream.manning = 0.035;
	pond.stream.length_m = 5;
	solved();	/* without a width nobody knows */
	cr_expect(flow.stream_given == -1 && flow.stream_m3 == 0);
	pond.stream.manning = TARN_NAN;
	refused("stream.manning", "is missing beside the slope");
	pond.stream.slope = 0;
	refused("stream.slope", "must fall towards the pond (above 0), got 0");
}

/* 8 m of 40 mm and 2 m of 50 mm; a run to the pond ends under water. */
Test(works_whole, water_that_drains_back)
{
	const double pipes = PI / 4 * (0.05 * 0.05 * 2 + 0.04 * 0.04 * 8);

	plumb();
	works.run[works.runs] = run_to(TARN_TO_POND, 0.1, 50);
	works.run[works.runs++].orifice_diameter_m = 0.005;
	works.run[1].siphon_m = 0.1;
	solved();
	close_to("pipes", flow.pipes_m3, pipes, 1e-12);
	close_to("siphon", flow.siphon_m3, 0.2, 1e-12);
	close_to("drain", flow.drain_m3, pipes + 0.2, 1e-12);
	cr_expect(flow.drain_given == 0);
	works.run[1].to = TARN_TO_FALLS;	/* a fall draws no bed down */
	solved();
	cr_expect(flow.siphon_m3 == 0);
	works.run[1].to = TARN_TO_BED;
	pond.pump.check_valve = 1;
	solved();
	cr_expect(flow.pipes_m3 == 0 && flow.siphon_m3 == 0 &&
		  flow.drain_m3 == 0 && flow.drain_given == 0);
	pond.pump.drainback_m3 = 0.01;
	solved();
	cr_expect(flow.drain_m3 == 0.01 && flow.drain_given == 1);
}

/* What is put into the pond's description: only what it does not say. */
Test(works_whole, fill)
{
	struct tarn_works_flow f = { .flow_m3s = 2e-3, .bed_head_m = 0.02,
				     .stream_m3 = 0.3, .drain_m3 = 0.05,
				     .pools_m3 = 0.01 };
	struct tarn_pond p = pond;

	tarn_works_fill(&f, &p);
	cr_expect(p.pump.flow_m3s == 2e-3 && p.bed.lip_head_m == 0.02 &&
		  p.stream.volume_m3 == 0.3);
	close_to("drain-back", p.pump.drainback_m3, 0.06, 1e-12);
	p = pond;
	p.pump.flow_m3s = 1e-3;
	p.pump.drainback_m3 = 0.05;
	f.bed_given = f.stream_given = -1;
	f.drain_given = 1;
	tarn_works_fill(&f, &p);
	cr_expect(p.pump.flow_m3s == 1e-3 && isnan(p.bed.lip_head_m) &&
		  isnan(p.stream.volume_m3));
	close_to("with the pools", p.pump.drainback_m3, 0.06, 1e-12);
	f.pools_m3 = 0;
	f.drain_m3 = 9;
	p.pump.drainback_m3 = 0.05;
	tarn_works_fill(&f, &p);
	cr_expect(p.pump.drainback_m3 == 0.05);
}

Test(works_whole, what_does_not_fit_together)
{
	works.runs = 1;
	works.run[0] = run_to(TARN_TO_BED, TARN_NAN, 3);
	refused("pipes", "number 1 needs an inside diameter");
	works.run[0].diameter_m = 0.05;
	works.run[0].to = TARN_TO_POND;
	works.run[0].lift_m = 0.1;
	refused("pipes", "number 1: lift belongs to runs to bed or falls");
	works.run[0].to = TARN_TO_MANIFOLD;
	refused("pipes", "number 1: lift belongs to runs to bed or falls");
	works.run[0].lift_m = 0;
	solved();
	/* without an intake level the lip is the bound */
	works.bay.sill_m = 1.1;
	refused("bay.sill", "under the overflow lip at 1.1 m");
	works.bay.sill_m = 1.09;
	works.bay.pump_minimum_m = 1.11;
	refused("bay.pump_minimum", "above the overflow lip at 1.1 m");
	works.bay.pump_minimum_m = 1.1;
	solved();
	pond.intake_m = 0.6;
	refused("bay.sill", "under the intake level at 0.6 m");
	works.bay.sill_m = 0.5;
	refused("bay.pump_minimum", "above the intake level at 0.6 m");
	works.bay.pump_minimum_m = 0.6;
	solved();
	works.overflow.drain_length_m = 3;
	refused("overflow.drain_length", "and drain_fall belong together");
	works.overflow.drain_fall_m = 1;
	solved();
	works.overflow.drain_length_m = TARN_NAN;
	refused("overflow.drain_length", "and drain_fall belong together");
}

/* 10 m2 upright, running at 1.00, 0.5 m3 in transit, a storm over the edge. */
Test(works_whole, figures_of_the_chart)
{
	struct tarn_chart c;

	pond.pump.drainback_m3 = 0.5;
	cr_assert(tarn_chart_make(&pond, &works, 1.5, &c, NULL) == TARN_OK);
	near("transit", c.transit_m3, 0.5, 1e-12);
	near("rise", c.rise_m, 0.05, 1e-12);
	near("room", c.room_m3, 0.5, 1e-12);
	near("spill", c.spill_m3, 0, 1e-12);
	near("drop from the trigger", c.drop_trigger_m, 0.05, 1e-12);
	cr_expect(c.level[0].name == TARN_LEVEL_STORM &&
		  c.level[0].level_m == 1.5);
	for (size_t i = 0; i < c.count; i++) {
		const struct tarn_level *l = &c.level[i];

		near("area", l->area_m2, 10, 1e-12);
		near("volume", l->volume_m3, 10 * fmin(l->level_m, 1.2), 1e-12);
	}
	cr_expect(!c.start_bares_intake, "no intake level, none to bare");
	pond.intake_m = 0.901;	/* a start leads to 0.9 */
	cr_assert(tarn_chart_make(&pond, &works, TARN_NAN, &c, NULL) ==
		  TARN_OK);
	cr_expect(c.start_bares_intake);
	pond.intake_m = 0.899;
	cr_assert(tarn_chart_make(&pond, &works, TARN_NAN, &c, NULL) ==
		  TARN_OK);
	cr_expect(!c.start_bares_intake);
}

/* Equal levels keep the order of their names. */
Test(works_whole, levels_that_are_equal)
{
	struct tarn_chart c;
	int last = -1;

	pond.target_m = 1.1;
	pond.trigger_m = 1;
	pond.intake_m = 0.9;
	works.bay.pump_minimum_m = 1.1;
	cr_assert(tarn_chart_make(&pond, &works, 1.1, &c, &err) == TARN_OK,
		  "%s %s", err.field, err.text);
	for (size_t i = 0; i < c.count; i++) {
		if (c.level[i].level_m < 1.1 || c.level[i].level_m > 1.1)
			continue;
		cr_expect(c.level[i].name > last, "%d after %d",
			  c.level[i].name, last);
		last = c.level[i].name;
	}
	cr_expect(last == TARN_LEVEL_PUMP);
}

/* One opening of either kind is enough; what spills at the stop is no rain. */
Test(works_whole, a_storm_needs_an_opening)
{
	double *openings[] = { &works.overflow.lip_width_m,
			       &works.overflow.standpipe_diameter_m,
			       &works.overflow.side_diameter_m };
	struct tarn_storm_flow s;

	cr_expect(works.storm.duration_s == 3600 && works.storm.stopped);
	works.storm.intensity_mm_h = 36;	/* 0.1 L/s on 10 m2 */
	cr_expect(!tarn_storm_described(&works));
	for (int i = 0; i < 3; i++) {
		*openings[i] = 0.1;
		cr_expect(tarn_storm_described(&works), "%d", i);
		cr_assert(tarn_storm_solve(&works, &pond, &s, NULL) == TARN_OK);
		close_to("peak", s.peak_m3s, 1e-4, 1e-9);
		close_to("rain", s.rain_m3, 0.36, 1e-9);
		cr_expect(s.clear_head_m > 0 && s.spill_at_stop_m3 == 0);
		*openings[i] = TARN_NAN;
	}
	works.storm.intensity_mm_h = TARN_NAN;
	works.overflow.lip_width_m = 0.1;
	cr_expect(!tarn_storm_described(&works));
	works.storm.intensity_mm_h = 36;
	pond.pump.drainback_m3 = 1.3;	/* 0.3 m3 more than there is room for */
	cr_assert(tarn_storm_solve(&works, &pond, &s, NULL) == TARN_OK);
	near("spills at the stop", s.spill_at_stop_m3, 0.3, 1e-9);
	near("from the lip", s.start_m, 1.1, 1e-12);
	works.storm.stopped = 0;
	cr_assert(tarn_storm_solve(&works, &pond, &s, NULL) == TARN_OK);
	near("no stop", s.spill_at_stop_m3, 0, 0);
	/* the apron's part: 0.5 of 20 m2 */
	pond.apron.area_m2 = 20;
	pond.apron.coefficient = 0.5;
	cr_assert(tarn_storm_solve(&works, &pond, &s, NULL) == TARN_OK);
	close_to("with the apron", s.peak_m3s, 2e-4, 1e-9);
	pond.apron.area_m2 = 0.5;
	cr_assert(tarn_storm_solve(&works, &pond, &s, NULL) == TARN_OK);
	close_to("with a step", s.peak_m3s, 1.025e-4, 1e-9);
}
