/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"

static struct tarn_overflow_flow solve(const struct tarn_overflow *o)
{
	struct tarn_error err = { 0 };
	struct tarn_overflow_flow out;

	cr_assert(tarn_overflow_solve(o, &out, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	return out;
}

/* ---- storm ------------------------------------------------------------ */

/* C i A: an acre under 1 in/h gives 43560/43200 ft3/s. */
Test(rational, by_hand)
{
	const double acre = 43560 * FT * FT, inch_h = 25.4;
	const struct tarn_catchment two[] = { { 50, 1, "" }, { 200, 0.3, "" } };

	close_to("acre, in/h", tarn_rational_m3s(1, inch_h, acre) / CFS,
		 43560.0 / 43200, 1e-12);
	close_to("a catchment", tarn_rational_m3s(0.11, 1.25 * inch_h,
						  30 * acre) / CFS,
		 0.11 * 1.25 * 30 * 43560 / 43200, 1e-12);
	close_to("mm/h, ha", tarn_rational_m3s(1, 1, 1e4), 1.0 / 360, 1e-14);
	close_to("sum", tarn_peak_m3s(two, 2, 60),
		 (50 + 60) * 60 / 3.6e6, 1e-14);
	cr_expect(isnan(tarn_rational_m3s(1.01, 1, 1)));
	cr_expect(isnan(tarn_rational_m3s(1, -1, 1)));
	cr_expect(isnan(tarn_rational_m3s(1, 1, TARN_NAN)));
}

/* 2006 National Standard Plumbing Code table 13.6.1, stacks 7/24 full; the
 * formula is Wyly & Eaton's, from memory. */
Test(overflow, stack_published)
{
	static const double rows[][3] = {
		{ 2, 23, 0.6 },      { 3, 67, 0.6 },      { 4, 144, 0.72 },
		{ 5, 261, 1.305 },   { 6, 424, 2.12 },    { 8, 913, 4.565 },
		{ 10, 1655, 8.275 }, { 12, 2692, 13.46 }, { 15, 4880, 24.4 },
	};

	for (size_t i = 0; i < COUNT(rows); i++)
		printed("2006 NSPC table 13.6.1",
			named("%g in, gpm", rows[i][0]),
		     tarn_stack_m3s(rows[i][0] * INCH, 7.0 / 24) / GPM,
		     rows[i][1], rows[i][2]);
	cr_expect(isnan(tarn_stack_m3s(0.1, 0)));
	cr_expect(isnan(tarn_stack_m3s(0.1, 1.01)));
	cr_expect(isnan(tarn_stack_m3s(-0.1, 0.3)));
}

/* US EPA stormwater manual vol. II eq. 6-10 to 6-12; values computed. */
Test(overflow, transition_regression)
{
	static const double rows[][2] = { { 2, 0.72267752 }, { 4, 1.445355 },
					  { 6, 2.1680326 } };

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_overflow o = tarn_overflow_default();

		o.standpipe_diameter_m = rows[i][0] * INCH;
		o.weir_coefficient = 3.33 * ROOT_FT;
		o.level_m = 0.01;
		near("EPA 6-12", solve(&o).transition_m / INCH, rows[i][1],
		     1e-5);
	}
}

/* Colorado Division of Reclamation, Mining and Safety, stage and discharge of
 * sediment pond 002: C 0.6, A 0.0014 ft2. */
Test(orifice, published)
{
	static const double rows[][2] = { { 1, 0.007 }, { 2, 0.009 },
					  { 3, 0.011 }, { 5, 0.015 },
					  { 6.3, 0.016 } };

	because("Colorado", "the table cuts its digits and does not round");
	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_orifice o = tarn_orifice_default();
		struct tarn_orifice_flow out;

		o.area_m2 = 0.0014 * FT * FT;
		o.head_m = rows[i][0] * FT;
		cr_assert(tarn_orifice_solve(&o, &out, NULL) == TARN_OK);
		printed("Colorado DRMS sediment pond 002",
			named("%g ft, ft3/s", rows[i][0]), out.flow_m3s / CFS,
			rows[i][1], 0.001);
	}
}

Test(orifice, laws_and_refusals)
{
	struct tarn_orifice o = tarn_orifice_default();
	struct tarn_orifice_flow a, b;
	struct tarn_error err = { 0 };

	o.diameter_m = 0.012;
	o.count = 7;
	o.head_m = 0.43;
	cr_assert(tarn_orifice_solve(&o, &a, NULL) == TARN_OK);
	o.flow_m3s = a.flow_m3s;
	o.head_m = TARN_NAN;
	cr_assert(tarn_orifice_solve(&o, &b, NULL) == TARN_OK);
	close_to("head", b.head_m, 0.43, 1e-14);
	o.head_m = 0.43;
	o.diameter_m = TARN_NAN;
	cr_assert(tarn_orifice_solve(&o, &b, NULL) == TARN_OK);
	close_to("diameter", b.diameter_m, 0.012, 1e-14);
	close_to("jet", b.jet_velocity_ms * 0.6, b.velocity_ms, 1e-14);
	o.diameter_m = o.area_m2 = 0.1;
	cr_expect(tarn_orifice_solve(&o, &b, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "beside diameter") != NULL);
	o.diameter_m = TARN_NAN;
	cr_expect(tarn_orifice_solve(&o, &b, NULL) == TARN_EARG);
	o.area_m2 = TARN_NAN;
	o.head_m = 0;
	cr_expect(tarn_orifice_solve(&o, &b, NULL) == TARN_EARG);
	o.cd = 1.1;
	cr_expect(tarn_orifice_solve(&o, &b, NULL) == TARN_EARG);
}

/* ---- overflow --------------------------------------------------------- */

Test(overflow, standpipe_limits_in_turn)
{
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_overflow_flow out;
	double last = 0;
	int order = TARN_BY_WEIR;

	o.standpipe_diameter_m = 0.1;
	o.fill = 1;	/* leaves the stack out of it */
	o.drain_length_m = 6;
	o.drain_fall_m = 0.3;
	o.drain_minor_k = 4;
	for (double level = 0.001; level < 1; level *= 1.05) {
		o.level_m = level;
		out = solve(&o);
		cr_expect(out.flow_m3s > last);
		last = out.flow_m3s;
		close_to("least", last, fmin(fmin(out.weir_m3s,
						  out.orifice_m3s),
					     fmin(out.stack_m3s,
						  out.drain_m3s)), 1e-15);
		cr_expect(out.governs >= order);
		order = out.governs;
	}
	cr_expect(order == TARN_BY_DRAIN);
	o.fill = 7.0 / 24;
	out = solve(&o);
	cr_expect(out.governs == TARN_BY_STACK);
	close_to("stack", out.flow_m3s, tarn_stack_m3s(0.1, 7.0 / 24), 1e-15);
	o.level_m = -0.1;
	out = solve(&o);
	cr_expect(out.flow_m3s == 0 && out.governs == TARN_BY_NOTHING);
	/* the drain alone, by the pipe solver */
	{
		struct tarn_pipe p = tarn_pipe_default();
		struct tarn_pipe_flow q;

		p.headloss_m = 0.3 + 0.2;
		p.diameter_m = 0.1;
		p.length_m = 6;
		p.roughness_m = 1.5e-6;
		p.minor_k = 4;
		o.level_m = 0.2;
		cr_assert(tarn_pipe_solve(&p, &q, NULL) == TARN_OK);
		close_to("drain", solve(&o).drain_m3s, q.flow_m3s, 1e-13);
	}
}

/* scipy 1.10.1 brentq: inlet of a 0.1 m side pipe under a head of 0.08 m. */
Test(overflow, side_pipe_scipy)
{
	struct tarn_overflow o = tarn_overflow_default();
	double last = 0;

	o.side_diameter_m = 0.1;
	o.level_m = 0.08;
	close_to("brentq", solve(&o).flow_m3s, 0.002466146949174517, 1e-8);
	cr_expect(solve(&o).side_governs == TARN_BY_INLET);
	for (double level = 0.002; level < 2; level *= 1.03) {
		o.level_m = level;
		cr_expect(solve(&o).flow_m3s > last, "%g", level);
		last = solve(&o).flow_m3s;
	}
	cr_expect(solve(&o).side_governs == TARN_BY_ORIFICE);
	close_to("orifice", last, 0.6 * PI / 4 * 0.01 *
		 sqrt(2 * TARN_GRAVITY * (o.level_m - 0.05)), 1e-14);
}

Test(overflow, all_together_and_back)
{
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_overflow_flow a, b;

	o.lip_width_m = 0.6;
	o.lip_level_m = 1.05;
	o.standpipe_diameter_m = 0.075;
	o.standpipe_level_m = 1.0;
	o.side_diameter_m = 0.05;
	o.side_level_m = 1.02;
	o.clogging = 0.5;
	for (double level = 1.003; level < 1.4; level += 0.017) {
		o.level_m = level;
		o.flow_m3s = TARN_NAN;
		a = solve(&o);
		close_to("sum", a.flow_m3s, a.lip_m3s + a.standpipe_m3s +
			 a.side_m3s, 1e-14);
		close_to("head", a.head_m, level - 1, 1e-12);
		o.flow_m3s = a.flow_m3s;
		o.level_m = TARN_NAN;
		b = solve(&o);
		close_to("level", b.level_m, level, 1e-12);
	}
	o.flow_m3s = 0;
	cr_expect(solve(&o).level_m == 1.0);
	/* half the lip passes half */
	o = tarn_overflow_default();
	o.lip_width_m = 1;
	o.level_m = 0.1;
	a = solve(&o);
	o.clogging = 0.5;
	close_to("clogged", solve(&o).flow_m3s, a.flow_m3s / 2, 1e-15);
	close_to("broad lip", a.flow_m3s, 1.705 * pow(0.1, 1.5), 1e-14);
}

Test(overflow, refused)
{
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_overflow_flow out;
	struct tarn_error err = { 0 };

	o.level_m = 1;
	cr_expect(tarn_overflow_solve(&o, &out, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "has no opening") != NULL);
	o.standpipe_diameter_m = 0.05;
	o.flow_m3s = 1;
	cr_expect(tarn_overflow_solve(&o, &out, NULL) == TARN_EARG);
	o.level_m = TARN_NAN;
	err.code = TARN_OK;
	cr_expect(tarn_overflow_solve(&o, &out, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "does not pass") != NULL, "%s", err.text);
	o.drain_fall_m = 1;
	cr_expect(tarn_overflow_solve(&o, &out, NULL) == TARN_EARG);
	o.drain_fall_m = TARN_NAN;
	o.drain_roughness_m = 0.01;
	cr_expect(tarn_overflow_solve(&o, &out, NULL) == TARN_EARG);
	o.drain_roughness_m = 0;
	o.clogging = 1;
	cr_expect(tarn_overflow_solve(&o, &out, NULL) == TARN_EARG);
}

/* ---- routing ---------------------------------------------------------- */

/*
 * Chow, Maidment & Mays (1988), Applied Hydrology, example 8.2.1, from memory:
 * a 1 acre basin with vertical walls, a 5 ft pipe; inflows every 10 min.  The
 * book's own 10 min steps: outflow 2.4, 17.1, 61.1, 123.2 ... ft3/s, peak
 * 270 ft3/s and 9.77 ft at 80 min.
 */
static const double chow_h[] = {
	0, .5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5,
	9, 9.5, 10 };
static const double chow_q[] = {
	0, 3, 8, 17, 30, 43, 60, 78, 97, 117, 137, 156, 173, 190, 205, 218,
	231, 242, 253, 264, 275 };
static const double chow_in[] = {
	0, 60, 120, 180, 240, 300, 360, 320, 280, 240, 180, 120, 60, 0, 0, 0,
	0, 0, 0, 0, 0, 0 };

Test(routing, chow_from_memory)
{
	static const struct {
		int at;
		double want;
	} rows[] = { { 1, 2.4 }, { 2, 17.1 }, { 3, 61.1 }, { 4, 123.2 },
		     { 8, 270.0 } };
	const double acre = 43560 * FT * FT;
	const double level[] = { 0, 11 * FT }, area[] = { acre, acre };
	double h[21], q[21], in[22], out_h[22], out_q[22];
	struct tarn_routing r = tarn_routing_default();
	struct tarn_routing_flow out;
	struct tarn_error err = { 0 };

	for (int i = 0; i < 21; i++) {
		h[i] = chow_h[i] * FT;
		q[i] = chow_q[i] * CFS;
	}
	for (int i = 0; i < 22; i++)
		in[i] = chow_in[i] * CFS;
	r.level_m = level;
	r.area_m2 = area;
	r.level_count = 2;
	r.rating_level_m = h;
	r.rating_m3s = q;
	r.rating_count = 21;
	r.inflow_m3s = in;
	r.inflow_count = 22;
	r.step_s = 600;
	r.substeps = 1;
	r.start_level_m = 0;
	cr_assert(tarn_routing_solve(&r, out_h, out_q, &out, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	for (size_t i = 0; i < COUNT(rows); i++)
		recalled("Chow ex. 8.2.1", named("step %d, ft3/s", rows[i].at),
			 out_q[rows[i].at] / CFS, rows[i].want, 0.05);
	recalled("Chow ex. 8.2.1", "peak depth, ft", out.peak_level_m / FT,
		 9.77, 0.005);
	recalled("Chow ex. 8.2.1", "peak time, s", out.peak_time_s, 4800, 1);
	near("peak in", out.peak_inflow_m3s / CFS, 360, 1e-9);
	cr_expect(fabs(out.balance_m3) <= 1e-12 * out.inflow_m3);
	close_to("in", out.inflow_m3 / CFS, 600 * 2460, 1e-12);
	/* small steps move the peak little */
	r.substeps = 200;
	cr_assert(tarn_routing_solve(&r, NULL, NULL, &out, &err) == TARN_OK);
	near("fine steps", out.peak_outflow_m3s / CFS, 270, 3);
	cr_expect(fabs(out.balance_m3) <= 1e-11 * out.inflow_m3);
	cr_expect(out.end_level_m == out_h[21] ||
		  fabs(out.end_level_m - out_h[21]) < 0.01);
}

/* scipy 1.10.1 solve_ivp (Radau, rtol 1e-11) of dh/dt = (I - O(h)) / A(h):
 * area 20 .. 30 m2 over 0.5 m, lip 0.5 m at 0.3, standpipe 52.5 mm at 0.25. */
Test(routing, scipy)
{
	static const double level[] = { 0, .5, 1 }, area[] = { 20, 30, 38 };
	static const double in[] = { 0, .001, .004, .009, .007, .004, .002,
				     .001, .0005, 0, 0, 0, 0 };
	static const double want[] = {
		0.25, 0.255593583, 0.278788003, 0.327751937, 0.336260384,
		0.326074072, 0.314694679, 0.305736945, 0.298015763,
		0.287099872, 0.275260323, 0.265890433, 0.260555874 };
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_routing r = tarn_routing_default();
	struct tarn_routing_flow out;
	double h[13], q[13];

	o.lip_level_m = 0.3;
	o.lip_width_m = 0.5;
	o.standpipe_level_m = 0.25;
	o.standpipe_diameter_m = 0.0525;
	r.level_m = level;
	r.area_m2 = area;
	r.level_count = 3;
	r.inflow_m3s = in;
	r.inflow_count = 13;
	r.step_s = 300;
	r.substeps = 500;
	r.start_level_m = 0.25;
	r.overflow = &o;
	cr_assert(tarn_routing_solve(&r, h, q, &out, NULL) == TARN_OK);
	for (int i = 0; i < 13; i++)
		near("solve_ivp", h[i], want[i], 2e-8);
	near("peak level", out.peak_level_m, 0.33725803100173296, 2e-8);
	near("peak time", out.peak_time_s, 1096.42, 0.7);
	near("peak outflow", out.peak_outflow_m3s, 0.007690522849842813,
	     1e-7);
	cr_expect(fabs(out.balance_m3) <= 1e-10 * out.inflow_m3);
	cr_expect(out.peak_outflow_m3s < out.peak_inflow_m3s);
	/* default substeps are good to 0.01 mm */
	r.substeps = tarn_routing_default().substeps;
	cr_assert(tarn_routing_solve(&r, h, NULL, &out, NULL) == TARN_OK);
	for (int i = 0; i < 13; i++)
		near("default steps", h[i], want[i], 1e-5);
}

/* A prism with a straight rating empties as exp(-k t / A). */
Test(routing, exact_recession)
{
	static const double level[] = { 0, 2 }, area[] = { 100, 100 };
	static const double rl[] = { 0, 2 }, rq[] = { 0, 0.2 };
	static const double in[] = { 0, 0, 0, 0 };
	struct tarn_routing r = tarn_routing_default();
	struct tarn_routing_flow out;
	double h[4];

	r.level_m = level;
	r.area_m2 = area;
	r.level_count = 2;
	r.rating_level_m = rl;
	r.rating_m3s = rq;
	r.rating_count = 2;
	r.inflow_m3s = in;
	r.inflow_count = 4;
	r.step_s = 500;
	r.substeps = 1000;
	r.start_level_m = 1.5;
	cr_assert(tarn_routing_solve(&r, h, NULL, &out, NULL) == TARN_OK);
	for (int i = 0; i < 4; i++)
		close_to("exp", h[i], 1.5 * exp(-0.1 * 500 * i / 100), 1e-6);
	cr_expect(out.peak_time_s == 0 && out.peak_level_m == 1.5);
}

static void refuse_routing(const struct tarn_routing *r, const char *text)
{
	struct tarn_routing_flow out = { .inflow_m3 = 3 };
	struct tarn_error err = { 0 };

	cr_expect(tarn_routing_solve(r, NULL, NULL, &out, &err) == TARN_EARG,
		  "%s", text);
	cr_expect(strstr(err.text, text) != NULL, "%s", err.text);
	cr_expect(out.inflow_m3 == 3);
}

Test(routing, refused)
{
	static const double level[] = { 0, 0.1 }, area[] = { 10, 10 };
	static const double bad[] = { 0, 0 }, none[] = { 0, 0 };
	static const double rl[] = { 0, 0.01 }, rq[] = { 0, 0.001 };
	static const double in[] = { 0, 0.01, 0.01 }, neg[] = { 0, -1, 0 };
	struct tarn_routing good = tarn_routing_default(), r;
	struct tarn_routing_flow out;

	good.level_m = level;
	good.area_m2 = area;
	good.level_count = 2;
	good.inflow_m3s = in;
	good.inflow_count = 3;
	good.step_s = 10;
	good.start_level_m = 0;
	cr_expect(tarn_routing_solve(&good, NULL, NULL, &out, NULL) ==
		  TARN_OK);
	near("no way out: all stays", out.stored_m3, out.inflow_m3, 1e-15);
	r = good;
	r.step_s = 1000;
	refuse_routing(&r, "rises above it");
	r = good;
	r.level_m = bad;
	refuse_routing(&r, "levels must rise");
	r = good;
	r.area_m2 = none;
	refuse_routing(&r, "no area");
	r = good;
	r.level_count = 1;
	refuse_routing(&r, "two rows");
	r = good;
	r.inflow_m3s = neg;
	refuse_routing(&r, "zero or more");
	r = good;
	r.inflow_count = 1;
	refuse_routing(&r, "two values");
	r = good;
	r.start_level_m = 0.2;
	refuse_routing(&r, "within the storage table");
	r = good;
	r.substeps = 1.5;
	refuse_routing(&r, "whole number");
	r = good;
	r.rating_level_m = rl;
	r.rating_m3s = rq;
	r.rating_count = 2;
	r.step_s = 20;
	refuse_routing(&r, "ends at 0.01 m");
	r.start_level_m = 0.05;
	refuse_routing(&r, "above the rating table");
	r = good;
	r.rating_level_m = rl;
	r.rating_m3s = area;
	r.rating_count = 2;
	r.start_level_m = 0.005;
	refuse_routing(&r, "too long");
}
