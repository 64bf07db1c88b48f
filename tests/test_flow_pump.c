/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"

static const double curve_q[] = { 0, .0005, .0012, .002, .0026, .003 };
static const double curve_h[] = { 6.1, 5.9, 5.0, 3.4, 1.6, 0.0 };

static struct tarn_pump_curve pump(const double *q, const double *h,
				   size_t points)
{
	struct tarn_pump_curve p = tarn_pump_curve_default();

	p.flow_m3s = q;
	p.head_m = h;
	p.points = points;
	return p;
}

/* scipy 1.10.1, interpolate.PchipInterpolator. */
Test(pump, curve_scipy)
{
	static const double rows[][2] = {
		{ .0001, 6.08670486646626 }, { .00049, 5.90592459609637 },
		{ .0008, 5.60213885298748 }, { .0015, 4.48158052884615 },
		{ .0021, 3.14647435897436 }, { .0025, 1.9400641025641 },
		{ .0029, 0.432596153846155 },
	};
	struct tarn_pump_curve p = pump(curve_q, curve_h, 6);

	for (size_t i = 0; i < COUNT(rows); i++)
		near("scipy pchip", tarn_pump_head_m(&p, rows[i][0]),
		     rows[i][1], 2e-14 * 6);
}

Test(pump, curve_falls_and_inverts)
{
	struct tarn_pump_curve p = pump(curve_q, curve_h, 6);
	double last = 7;

	p.speed = 0.83;
	p.count = 3;
	for (int i = 0; i <= 300; i++) {
		double q = 3 * 0.83 * 0.003 * i / 300;
		double h = tarn_pump_head_m(&p, q);

		cr_expect(h < last, "at %g", q);
		last = h;
		near("inverse", tarn_pump_flow_m3s(&p, h), q, 1e-12);
	}
	for (size_t i = 0; i < 6; i++) {	/* passes through its points */
		p.speed = p.count = 1;
		cr_expect(tarn_pump_head_m(&p, curve_q[i]) == curve_h[i]);
	}
	cr_expect(isnan(tarn_pump_head_m(&p, 0.0031)));
	cr_expect(isnan(tarn_pump_head_m(&p, -1e-9)));
	cr_expect(isnan(tarn_pump_flow_m3s(&p, 6.2)));
	cr_expect(isnan(tarn_pump_flow_m3s(&p, -0.1)));
	cr_expect(isnan(tarn_pump_head_m(&p, TARN_NAN)));
	/* two points: a straight line */
	p = pump(curve_q, curve_h, 2);
	near("line", tarn_pump_head_m(&p, .00025), 6.0, 1e-14);
}

Test(pump, label)
{
	struct tarn_pump_curve p = tarn_pump_curve_default();

	p.max_head_m = 5;
	p.label_flow_m3s = 2e-3;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_OK);
	near("half", tarn_pump_head_m(&p, 1e-3), 3.75, 1e-14);
	near("back", tarn_pump_flow_m3s(&p, 3.75), 1e-3, 1e-17);
	cr_expect(tarn_pump_flow_m3s(&p, 0) == 2e-3);
	cr_expect(tarn_pump_flow_m3s(&p, 5) == 0);
	cr_expect(isnan(tarn_pump_flow_m3s(&p, 5.0001)));
	p.speed = 0.5;		/* affinity */
	near("Q ~ n", tarn_pump_flow_m3s(&p, 0), 1e-3, 1e-17);
	near("H ~ n^2", tarn_pump_head_m(&p, 0), 1.25, 1e-14);
	p.count = 2;
	near("parallel", tarn_pump_flow_m3s(&p, 0), 2e-3, 1e-17);
}

Test(pump, refused)
{
	static const double q[] = { 0, 1e-3, 2e-3 }, bad_q[] = { 0, 1, 1 };
	static const double h[] = { 5, 5.5, 2 }, ok[] = { 5, 4, 2 };
	struct tarn_error err = { 0 };
	struct tarn_pump_curve p = tarn_pump_curve_default();

	cr_expect(tarn_pump_curve_check(&p, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "needs a curve") != NULL);
	err.code = TARN_OK;
	p = pump(q, h, 3);
	cr_expect(tarn_pump_curve_check(&p, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "point 2: head must fall") != NULL);
	err.code = TARN_OK;
	p = pump(bad_q, ok, 3);
	cr_expect(tarn_pump_curve_check(&p, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "point 3: flow must rise") != NULL);
	p = pump(q, ok, 1);
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_EARG);
	p = pump(q, ok, 3);
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_OK);
	p.count = 1.5;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_EARG);
	p.count = 0;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_EARG);
	p.count = 1;
	p.max_head_m = 5;
	cr_expect(tarn_pump_curve_check(&p, NULL) == TARN_EARG);
}

#define MAURER "Maurer, Hydraulics and Water Resources (R), ex. "
#define CRANE "Crane TP-410M, ex. "

/* Maurer ex. 7.2: 0, 5000, 7850 gpm at 81, 60, 20 ft. */
Test(pump, fit_published)
{
	const double q[] = { 0, 5000 * GPM, 7850 * GPM };
	const double h[] = { 81 * FT, 60 * FT, 20 * FT };
	double head, drop;
	struct tarn_error err = { 0 };

	cr_assert(tarn_pump_curve_fit(q, h, 3, &head, &drop, &err) == TARN_OK);
	printed(MAURER "7.2", "a, ft", head / FT, 82.5, 0.06);
	printed(MAURER "7.2", "c", -drop * CFS * CFS / FT, -0.201, 0.0006);
	cr_expect(tarn_pump_curve_fit(q, h, 1, &head, &drop, NULL) ==
		  TARN_EARG);
	cr_expect(tarn_pump_curve_fit(h, q, 3, &head, &drop, NULL) == TARN_OK);
	cr_expect(tarn_pump_curve_fit(q, q, 3, &head, &drop, NULL) ==
		  TARN_EARG);
}

/* Crane TP-410M ex. 7.33 and 7.34 (70.7 % pump, 95 % motor, 96 % drive; Crane
 * prints $83,970, the constant 3960 rounding), 7.15. */
Test(pump, power_published)
{
	struct tarn_affinity a = tarn_affinity(400 * GPM, 126 * FT, 17.5,
					       1700.0 / 3500);
	struct tarn_running_cost c = tarn_running_cost_default();
	struct tarn_running_cost_flow out;
	double hp = 745.699872;

	quoted(CRANE "7.33", "flow, gpm", a.flow_m3s / GPM, 194.2857, 0.01);
	quoted(CRANE "7.33", "head, ft", a.head_m / FT, 29.73, 0.01);
	quoted(CRANE "7.33", "power, hp", a.power_w, 2.0053, 0.001);
	cr_expect(isnan(tarn_affinity(1, 1, 1, 0).flow_m3s));
	c.flow_m3s = 700 * GPM;
	c.head_m = 428 * FT;
	c.efficiency = 0.707 * 0.95 * 0.96;
	c.days_per_year = 8000.0 / 24;
	c.price_per_kwh = 0.12;
	cr_assert(tarn_running_cost_solve(&c, &out, NULL) == TARN_OK);
	because(CRANE "7.34", "second-hand; the steps between are not quoted");
	quoted(CRANE "7.34", "USD a year", out.cost_year, 83970, 75);
	quoted(CRANE "7.34", "brake power, hp", out.water_w / 0.707 / hp,
	       107.06, 0.01);
	quoted(CRANE "7.15", "power, hp",
	     tarn_pump_water_w(100 * GPM, 421 * FT, 999) / 0.7 / hp, 15.2,
	     0.05);
}

Test(pump, running_cost)
{
	struct tarn_running_cost c = tarn_running_cost_default();
	struct tarn_running_cost_flow out;
	struct tarn_error err = { 0 };

	cr_expect(tarn_running_cost_solve(&c, &out, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "needs one of") != NULL);
	c.watts = 265;		/* 6.3 kWh a day: needs of owners, 1.9 */
	c.price_per_kwh = 0.2;
	cr_assert(tarn_running_cost_solve(&c, &out, NULL) == TARN_OK);
	near("265 W", out.kwh_day, 6.36, 1e-12);
	near("a year", out.cost_year, 6.36 * 365 * 0.2, 1e-9);
	cr_expect(isnan(out.efficiency));
	c.flow_m3s = 2e-3;
	c.head_m = 3;
	cr_assert(tarn_running_cost_solve(&c, &out, NULL) == TARN_OK);
	near("wire to water", out.efficiency,
	     2e-3 * 3 * TARN_GRAVITY * tarn_water(15).density_kgm3 / 265,
	     1e-12);
	c.amps = 3;
	c.volts = 115;
	cr_expect(tarn_running_cost_solve(&c, &out, NULL) == TARN_EARG);
	c.watts = TARN_NAN;
	cr_assert(tarn_running_cost_solve(&c, &out, NULL) == TARN_OK);
	near("amps x volts", out.power_w, 345, 1e-12);
	cr_expect(isnan(tarn_pump_water_w(-1, 1, 1000)));
}
