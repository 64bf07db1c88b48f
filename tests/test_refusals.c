/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "study_world.h"
#include "tarn.h"

/*
 * Refusals that no other suite asks for: each names the field at fault, and
 * says a word that tells one reason from another.
 */
static void refuses(enum tarn_status got, const struct tarn_error *err,
		    const char *field, const char *word)
{
	cr_expect(got == TARN_EARG && err->code == TARN_EARG,
		  "%s, %s: status %d", field, word, got);
	cr_expect(strcmp(err->field, field) == 0, "'%s' for '%s' (%s)",
		  err->field, field, err->text);
	cr_expect(strstr(err->text, word) != NULL, "%s: '%s' is not in '%s'",
		  field, word, err->text);
}

#define REFUSES(call, field, word) do { \
	struct tarn_error err = { 0 }; \
	refuses(call, &err, field, word); \
} while (0)

/* ---- no infinity comes out of what is accepted -------------------------------- */

#define TINY 5e-324
static const double ends[] = { TINY, 1e-300, 1e-10, 1e-3, 1, 100, 1000, 1e4,
			       1e300, HUGE_VAL };
#define ENDS (sizeof ends / sizeof ends[0])

static void finite(double x, const char *what, double a, double b)
{
	cr_expect(!isinf(x), "%s is infinite for %g, %g", what, a, b);
}

Test(infinities, pair_hours)
{
	for (size_t i = 0; i < ENDS; i++)
		for (size_t j = 0; j < ENDS; j++) {
			/* without a spread a loss is found some day */
			finite(tarn_pair_hours(2, ends[i], ends[j], 0), "hours",
			       ends[i], ends[j]);
		}
	cr_expect(isnan(tarn_pair_hours(4, HUGE_VAL, 1, 0)));
	cr_expect(isnan(tarn_pair_hours(4, 1e-3, HUGE_VAL, 0)));
	cr_expect(isnan(tarn_pair_hours(4, 1e-3, 1, HUGE_VAL)));
	cr_expect(isinf(tarn_pair_hours(4, 1e-3, 1, 1)));	/* never */
	cr_expect(isfinite(tarn_pair_hours(4, 1, 1e6, 0)));
}

static void orifice_of(double flow, double head, double area)
{
	struct tarn_orifice o = tarn_orifice_default();
	struct tarn_orifice_flow out;

	o.flow_m3s = flow;
	o.head_m = head;
	o.area_m2 = area;
	o.count = 1e6;
	o.cd = 1;
	if (tarn_orifice_solve(&o, &out, NULL) != TARN_OK)
		return;
	finite(out.flow_m3s, "flow", head, area);
	finite(out.head_m, "head", flow, area);
	finite(out.area_m2, "area", flow, head);
	cr_expect(out.area_m2 > 0, "no hole for %g, %g", flow, head);
	cr_expect(isfinite(out.velocity_ms), "velocity for %g, %g, %g", flow,
		  head, area);
	finite(out.jet_velocity_ms, "jet", flow, head);
}

Test(infinities, orifice)
{
	struct tarn_orifice o = tarn_orifice_default();
	struct tarn_orifice_flow out;

	for (size_t i = 0; i < ENDS; i++)
		for (size_t j = 0; j < ENDS; j++) {
			orifice_of(ends[i], ends[j], TARN_NAN);
			orifice_of(ends[i], TARN_NAN, ends[j]);
			orifice_of(TARN_NAN, ends[i], ends[j]);
		}
	o.flow_m3s = 1e-12;
	o.head_m = 1e4;
	REFUSES(tarn_orifice_solve(&o, &out, &err), "orifice",
		"need a hole of");
	o.flow_m3s = 1000;
	o.head_m = TARN_NAN;
	o.area_m2 = 1e-10;
	REFUSES(tarn_orifice_solve(&o, &out, &err), "orifice",
		"need a head of");
}

static void intake_of(double flow, double width, double depth, double limit)
{
	struct tarn_intake in = tarn_intake_default();
	struct tarn_intake_flow out;

	in.flow_m3s = flow;
	in.width_m = width;
	in.depth_low_m = depth;
	in.velocity_limit_ms = limit;
	if (tarn_intake_solve(&in, &out, NULL) != TARN_OK)
		return;
	cr_expect(isfinite(out.width_m) && isfinite(out.area_low_m2) &&
		  isfinite(out.velocity_low_ms) &&
		  isfinite(out.velocity_high_ms), "%g, %g, %g, %g", flow, width,
		  depth, limit);
}

Test(infinities, intake)
{
	struct tarn_intake in = tarn_intake_default();
	struct tarn_intake_flow out;

	for (size_t i = 0; i < ENDS; i++)
		for (size_t j = 0; j < ENDS; j++) {
			intake_of(ends[i], 1, ends[j], TARN_NAN);
			intake_of(ends[i], TARN_NAN, ends[j], 0.1);
			intake_of(ends[i], TARN_NAN, 0.5, ends[j]);
			finite(tarn_submergence_m(ends[i], ends[j]),
			       "submergence", ends[i], ends[j]);
		}
	intake_of(0, TARN_NAN, 0.5, 0.1);
	in.flow_m3s = 0;
	in.depth_low_m = 0.5;
	in.velocity_limit_ms = 0.1;
	REFUSES(tarn_intake_solve(&in, &out, &err), "intake.flow",
		"above zero");
	in.flow_m3s = 1;
	in.depth_low_m = 1e-9;
	REFUSES(tarn_intake_solve(&in, &out, &err), "intake.depth_low",
		"needs a width of");
	in.width_m = 1;
	REFUSES(tarn_intake_solve(&in, &out, &err), "intake.depth_low",
		"leaves an opening of");
}

/* ---- flow ------------------------------------------------------------------- */

Test(refusals, channel)
{
	struct tarn_point points[] = { { 0, 1 }, { 1, TARN_NAN }, { 2, 1 } };
	struct tarn_channel c = tarn_channel_default();
	struct tarn_channel_flow out;

	c.points = points;
	c.point_count = 3;
	c.depth_m = 0.1;
	c.slope = 0.01;
	c.manning = 0.03;
	REFUSES(tarn_channel_solve(&c, &out, &err), "channel.points",
		"number 2 is not a number");
	c.manning = -1;
	REFUSES(tarn_channel_solve(&c, &out, &err), "channel.manning",
		"must be");
}

Test(refusals, pumps)
{
	double flow[] = { 0, 0.001 }, head[] = { 3, -1 };
	struct tarn_pump_curve p = tarn_pump_curve_default();
	struct tarn_pump_curve two[2];
	struct tarn_branch branch = tarn_branch_default();
	struct tarn_branch_flow at;
	struct tarn_network net = { 0 };
	struct tarn_network_flow total;

	p.flow_m3s = flow;
	p.head_m = head;
	p.points = 2;
	REFUSES(tarn_pump_curve_check(&p, &err), "pump.curve",
		"point 2: flow and head must be zero or more");
	/* one pump gives 3 to 1 m, the other 9 to 5 m: no head is of both */
	head[1] = 1;
	two[0] = two[1] = p;
	two[1].head_m = (double[]){ 9, 5 };
	branch.lift_m = 1;
	branch.valve_k = 1;
	net.pumps = two;
	net.pump_count = 2;
	net.branches = &branch;
	net.branch_count = 1;
	if (tarn_network_solve(&net, &at, &total, NULL) == TARN_OK)
		cr_expect(total.head_m >= 5, "%g", total.head_m);
	cr_expect(isnan(tarn_pump_head_m(&p, -1)));
	cr_expect(isnan(tarn_pump_head_m(&p, 0.002)));
	cr_expect(tarn_pump_head_m(&p, 0.001 * (1 + 1e-15)) == 1);
}

Test(refusals, tables_of_a_routing)
{
	double level[] = { 0, 1 }, area[] = { 1, TARN_NAN };
	double rating_level[] = { 0, 1, 2 }, rating[] = { 0, 2, 1 };
	double inflow[] = { 0, 1 };
	struct tarn_routing r = tarn_routing_default();
	struct tarn_routing_flow out;

	r.level_m = level;
	r.area_m2 = area;
	r.level_count = 2;
	r.inflow_m3s = inflow;
	r.inflow_count = 2;
	r.step_s = 60;
	r.start_level_m = 0;
	r.rating_level_m = rating_level;
	r.rating_m3s = rating;
	r.rating_count = 3;
	REFUSES(tarn_routing_solve(&r, NULL, NULL, &out, &err),
		"routing.storage",
		"row 2 must be a level and a number");
	area[1] = 1;
	REFUSES(tarn_routing_solve(&r, NULL, NULL, &out, &err),
		"routing.rating",
		"row 3: outflow must not fall");
}

/* A number outside its field's range, of each thing that is solved. */
Test(refusals, ranges_of_flow)
{
	struct tarn_running_cost cost = tarn_running_cost_default();
	struct tarn_running_cost_flow cost_out;
	struct tarn_intake intake = tarn_intake_default();
	struct tarn_intake_flow intake_out;
	struct tarn_topup topup = tarn_topup_default();
	struct tarn_topup_flow topup_out;

	cost.watts = -1;
	REFUSES(tarn_running_cost_solve(&cost, &cost_out, &err),
		"running_cost.watts", "must be");
	intake.flow_m3s = -1;
	REFUSES(tarn_intake_solve(&intake, &intake_out, &err), "intake.flow",
		"must be");
	topup.volume_m3 = -1;
	REFUSES(tarn_topup_solve(&topup, &topup_out, &err), "topup.volume",
		"must be");
}

/* ---- study ------------------------------------------------------------------- */

Test(refusals, studies)
{
	struct tarn_study study = tarn_study_default();
	struct tarn_basin *basin = world_shelves();
	struct tarn_pond pond = world_pond(basin), got;
	struct tarn_study_delta delta;
	struct tarn_study_rows rows = { 0 };
	struct tarn_ledger *ledger;
	struct world w;
	unsigned pond_of[] = { 0, 7 };
	double set[] = { 1, 2 }, x[2];
	struct tarn_study_column column = { "bed.area", TARN_SET, set };

	world_make(&w, tarn_day(2020, 1, 1), 40, 3);
	study.ponds = &pond;
	study.weathers = &w.forcing;
	study.columns = &column;
	study.column_count = 1;
	study.variants = 2;
	REFUSES(tarn_study_variant(&study, 2, &got, &delta, &err), "variant",
		"number 3 of 2");
	REFUSES(tarn_study_trace(&study, 2, &ledger, &err), "row",
		"number 3 of 2");
	study.pond_of = pond_of;
	REFUSES(tarn_study_variant(&study, 1, &got, &delta, &err), "pond",
		"number 8 of 1");
	study.pond_of = NULL;
	study.variants = 0;
	REFUSES(tarn_study_run(&study, &rows, &err), "study", "needs a pond");
	REFUSES(tarn_samples_sobol(x, 1, 1, (size_t)1 << 31, &err), "rows",
		"up to 2^31");
	/* October, as a column names it */
	study.variants = 2;
	column.field = "pump.hours.10";
	cr_assert(tarn_study_variant(&study, 1, &got, &delta, NULL) == TARN_OK);
	cr_expect(got.pump.hours[9] == 2 && got.pump.hours[8] != 2);
	world_free(&w);
	tarn_basin_free(basin);
}

Test(refusals, generators)
{
	static double rain[4000], steady[4000];
	const double *column = steady;
	struct tarn_generator g;
	struct tarn_normals n = tarn_normals_default();

	/* each third day is wet, by no more than a gauge's reading */
	for (int i = 0; i < 4000; i++) {
		rain[i] = i % 3 == 0 || i % 3 == 1 ? 2 : 0;
		steady[i] = 5;
	}
	REFUSES(tarn_generator_fit(&g, 0, 4000, rain, &column, -1, NULL, NULL,
				   0.1, &err), "columns", "must be 0 to");
	REFUSES(tarn_generator_fit(&g, 0, 4000, rain, &column, 0, NULL, NULL,
				   0.1, &err), "rain", "does not vary");
	for (int i = 0; i < 4000; i++)
		rain[i] *= 1 + i % 7;
	cr_expect(tarn_generator_fit(&g, 0, 4000, rain, &column, 0, NULL, NULL,
				     0.1, NULL) == TARN_OK);
	REFUSES(tarn_generator_fit(&g, 0, 4000, rain, &column, 1, NULL, NULL,
				   0.1, &err), "weather", "does not vary");
	n.shape = 9;
	REFUSES(tarn_generator_normals(&g, &n, &err), "shape", "got 9");
	n = tarn_normals_default();
	for (int m = 0; m < 12; m++) {
		n.rain_mm[m] = 50;
		n.wet_days[m] = 10;
		n.tmax_c[m] = 20;
		n.tmin_c[m] = 10;
		n.solar_mj[m] = 12;
		n.tmax_sd[m] = n.tmin_sd[m] = n.solar_sd[m] = 3;
	}
	cr_expect(tarn_generator_normals(&g, &n, NULL) == TARN_OK);
	n.wet_days[0] = 30;	/* of 31 */
	cr_expect(tarn_generator_normals(&g, &n, NULL) == TARN_OK);
	n.wet_days[0] = 30.5;
	REFUSES(tarn_generator_normals(&g, &n, &err), "wet_days",
		"of month 1 must be 0.5 to 30");
	n.wet_days[0] = 10;
	n.tmin_sd[4] = 0;
	REFUSES(tarn_generator_normals(&g, &n, &err), "tmin", "of month 5");
	n.rain_mm[2] = 0.5;
	REFUSES(tarn_generator_normals(&g, &n, &err), "rain", "of month 3");
}

/* ---- both ends of a range ------------------------------------------------------ */

/* Where a range begins with 0, or ends with 1, the end is in it. */
Test(refusals, ends_of_ranges)
{
	struct tarn_gravel g = tarn_gravel_default();

	g.diameter_m = 0.01;
	g.porosity = 0.4;

	const struct {
		const char *name;
		double got, want;
	} rows[] = {
		{ "no coefficient", tarn_rational_m3s(0, 20, 50), 0 },
		{ "no rain", tarn_rational_m3s(1, 0, 50), 0 },
		{ "no area", tarn_rational_m3s(1, 20, 0), 0 },
		{ "all of 36 mm/h on 100 m2", tarn_rational_m3s(1, 36, 100),
		  1e-3 },
		{ "still water", tarn_gravel_reynolds(&g, 0), 0 },
		{ "above 1", tarn_rational_m3s(1.01, 20, 50), TARN_NAN },
		{ "under 0", tarn_gravel_reynolds(&g, -1e-9), TARN_NAN },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		cr_expect(isnan(rows[i].want) ? isnan(rows[i].got)
			  : fabs(rows[i].got - rows[i].want) < 1e-15,
			  "%s: %g, want %g", rows[i].name, rows[i].got,
			  rows[i].want);
}

/* ---- base, pond --------------------------------------------------------------- */

Test(refusals, no_date)
{
	char text[11];

	tarn_day_text(TARN_NO_DAY, text);
	cr_expect(strcmp(text, "no date") == 0, "%s", text);
}

Test(refusals, levels_of_a_pond)
{
	/* a basin whose floor lies half a metre up, as a survey may have it */
	double level[] = { 0.5, 1.5 }, area[] = { 4, 9 };
	struct tarn_basin *basin;
	struct tarn_pond pond;

	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	pond = world_pond(basin);
	pond.overflow_level_m = 1.4;
	REFUSES(tarn_pond_check(&pond, &err), "basin", "begin at level 0");
	tarn_basin_free(basin);
	level[0] = 0;
	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	pond = world_pond(basin);
	pond.overflow_level_m = 1.4;
	cr_expect(tarn_pond_check(&pond, NULL) == TARN_OK);
	pond.pump.count = 1.5;
	REFUSES(tarn_pond_check(&pond, &err), "pump.count", "whole");
	pond.pump.count = 2;
	pond.stream.area_m2 = TARN_NAN;
	pond.stream.length_m = 4;
	REFUSES(tarn_pond_check(&pond, &err), "stream", "length and width");
	tarn_basin_free(basin);
}
