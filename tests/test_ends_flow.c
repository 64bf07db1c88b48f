/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "ends.h"
#include "../lib/tarn/flow/internal.h"

/* The formulas of flow.h. */

static const double g = 9.80665, pi = 3.14159265358979323846;

Test(ends_flow, runoff_and_stacks)
{
	const struct tarn_catchment roof = { 100, 1, "" };
	const struct end rows[] = {
		{ "no runoff", tarn_rational_m3s(0, 60, 10), 0 },
		{ "all runs off", tarn_rational_m3s(1, 36, 100), 1e-3 },
		{ "under none", tarn_rational_m3s(-BIT, 60, 10), NONE },
		{ "more than all", tarn_rational_m3s(1 + BIT, 60, 10), NONE },
		{ "no rain", tarn_rational_m3s(1, 0, 10), 0 },
		{ "rain under none", tarn_rational_m3s(1, -BIT, 10), NONE },
		{ "no area", tarn_rational_m3s(1, 60, 0), 0 },
		{ "area under none", tarn_rational_m3s(1, 60, -BIT), NONE },
		{ "no catchment", tarn_peak_m3s(&roof, 0, 36), 0 },
		{ "a catchment", tarn_peak_m3s(&roof, 1, 36), 1e-3 },
		{ "no stack", tarn_stack_m3s(0, 0.5), 0 },
		{ "full stack of 1 in", tarn_stack_m3s(0.0254, 1),
		  27.8 * 3.785411784e-3 / 60 },
		{ "stack under none", tarn_stack_m3s(-BIT, 0.5), NONE },
		{ "empty stack", tarn_stack_m3s(0.1, 0), NONE },
		{ "hardly filled", tarn_stack_m3s(0.1, BIT), ANY },
		{ "overfull", tarn_stack_m3s(0.1, 1 + BIT), NONE },
	};

	CHECK_ENDS(rows);
}

/* A free body falls 1 m in sqrt(2 / g) s. */
Test(ends_flow, falls_and_weirs)
{
	const struct end rows[] = {
		{ "still", tn_fall_throw_m(0, 1), 0 },
		{ "moves", tn_fall_throw_m(2, 1), 2 * sqrt(2 / g) },
		{ "backwards", tn_fall_throw_m(-BIT, 1), NONE },
		{ "no drop", tn_fall_throw_m(1, 0), 0 },
		{ "a rise", tn_fall_throw_m(1, -BIT), NONE },
		{ "dry lip", tn_fall_look(0), TARN_LOOK_FILM },
		{ "free weir", tarn_weir_submergence(0, 1.5), 1 },
		/* Villemonte 1947: (1 - ratio^1.5)^0.385 */
		{ "half drowned", tarn_weir_submergence(0.5, 1.5),
		  pow(1 - pow(0.5, 1.5), 0.385) },
		{ "under the crest", tarn_weir_submergence(-BIT, 1.5), NONE },
		{ "almost level", tarn_weir_submergence(1 - BIT, 1.5), ANY },
		{ "level", tarn_weir_submergence(1, 1.5), NONE },
	};

	CHECK_ENDS(rows);
}

Test(ends_flow, changes_of_diameter)
{
	const struct end rows[] = {
		{ "same, wider", tarn_expansion_k(0.05, 0.05), 0 },
		{ "same, narrower", tarn_contraction_k(0.05, 0.05), 0 },
		{ "to twice", tarn_expansion_k(0.05, 0.1), 0.5625 },
		{ "to half", tarn_contraction_k(0.05, 0.1), 0.375 },
		{ "widens down", tarn_expansion_k(0.05 + BIT, 0.05), NONE },
		{ "narrows up", tarn_contraction_k(0.05 + BIT, 0.05), NONE },
		{ "from none", tarn_expansion_k(0, 0.1), NONE },
		{ "to none", tarn_contraction_k(0, 0.1), NONE },
		{ "from hardly any", tarn_expansion_k(BIT, 0.1), ANY },
		{ "to hardly any", tarn_contraction_k(BIT, 0.1), ANY },
	};

	CHECK_ENDS(rows);
}

/* 64 / Re under 2000; no roughness to 0.05; Re > 0, turbulent laws from their
 * own least. */
Test(ends_flow, friction)
{
	const struct end rows[] = {
		{ "laminar", tarn_friction_factor(1000, 0), 0.064 },
		{ "laminar, rough", tarn_friction_factor(1000, 0.05), 0.064 },
		{ "smooth", tarn_friction_colebrook(1e5, 0), ANY },
		{ "smoother", tarn_friction_colebrook(1e5, -BIT), NONE },
		{ "roughest", tarn_friction_colebrook(1e5, 0.05), ANY },
		{ "too rough", tarn_friction_colebrook(1e5, 0.05 + BIT), NONE },
		{ "too rough, laminar", tarn_friction_factor(1000, 0.05 + BIT),
		  NONE },
		{ "no motion", tarn_friction_factor(0, 0), NONE },
		{ "endless", tarn_friction_factor(HUGE_VAL, 0), NONE },
		{ "endless, haaland", tarn_friction_haaland(HUGE_VAL, 0.01),
		  NONE },
	};

	CHECK_ENDS(rows);
}

Test(ends_flow, power_of_pumps)
{
	const struct end rows[] = {
		{ "shut", tarn_pump_water_w(0, 5, 1000), 0 },
		{ "no head", tarn_pump_water_w(1e-3, 0, 1000), 0 },
		{ "1 L/s, 1 m", tarn_pump_water_w(1e-3, 1, 1000), g },
		{ "backwards", tarn_pump_water_w(-BIT, 1, 1000), NONE },
		{ "negative head", tarn_pump_water_w(1e-3, -BIT, 1000), NONE },
		{ "negative mass", tarn_pump_water_w(1e-3, 1, -BIT), NONE },
		{ "half speed, flow", tarn_affinity(4, 4, 4, 0.5).flow_m3s, 2 },
		{ "half speed, head", tarn_affinity(4, 4, 4, 0.5).head_m, 1 },
		{ "half speed, power", tarn_affinity(4, 4, 4, 0.5).power_w, 0.5 },
		{ "no speed", tarn_affinity(1, 1, 1, 0).flow_m3s, NONE },
		{ "hardly any", tarn_affinity(1, 1, 1, BIT).flow_m3s, ANY },
		{ "endless", tarn_affinity(1, 1, 1, HUGE_VAL).head_m, NONE },
	};

	CHECK_ENDS(rows);
}

/* ANSI/HI 9.8 (1998), 9.8.7: D (1 + 2.3 V / sqrt(g D)). */
Test(ends_flow, suctions)
{
	const double v = 1e-3 / (pi / 4 * 0.05 * 0.05);
	const struct end rows[] = {
		{ "as printed", tarn_submergence_m(1e-3, 0.05),
		  0.05 * (1 + 2.3 * v / sqrt(g * 0.05)) },
		{ "no flow", tarn_submergence_m(0, 0.05), NONE },
		{ "hardly any", tarn_submergence_m(BIT, 0.05), ANY },
		{ "no pipe", tarn_submergence_m(1e-3, 0), NONE },
		{ "no loss", tarn_npsh_available_m(100, 20, 0, 0), ANY },
		{ "loss under none", tarn_npsh_available_m(100, 20, 0, -BIT),
		  NONE },
		{ "freezing", tarn_npsh_available_m(100, 0, 0, 0), ANY },
		{ "colder", tarn_npsh_available_m(100, -BIT, 0, 0), NONE },
		{ "boils", tarn_npsh_available_m(100, 100, 0, 0), ANY },
		{ "steam", tarn_npsh_available_m(100, 100 + BIT, 0, 0), NONE },
		{ "a lift is lost", tarn_npsh_available_m(100, 20, 0, 0) -
				    tarn_npsh_available_m(100, 20, 1.5, 0.5), 2 },
		{ "ice, colder", tarn_water(-BIT).density_kgm3, NONE },
		{ "water at 0", tarn_water(0).density_kgm3, ANY },
		{ "water at 100", tarn_water(100).viscosity_pas, ANY },
		{ "steam", tarn_water(100 + BIT).kinematic_m2s, NONE },
	};

	CHECK_ENDS(rows);
}

Test(ends_flow, ice)
{
	const double days[] = { -3, 2, -4, -1, 9 };
	const struct end rows[] = {
		{ "no days", tarn_freezing_degree_days(days, 0), 0 },
		{ "one day", tarn_freezing_degree_days(days, 1), 3 },
		{ "a mild one", tarn_freezing_degree_days(days, 2), 3 },
		{ "a spell", tarn_freezing_degree_days(days, 5), 6 },
		{ "no frost", tarn_ice_thickness_m(0, TARN_ICE_LEAST), 0 },
		{ "100, least", tarn_ice_thickness_m(100, TARN_ICE_LEAST),
		  10 * TARN_ICE_LEAST },
		{ "100, most", tarn_ice_thickness_m(100, TARN_ICE_MOST),
		  10 * TARN_ICE_MOST },
		{ "thaw", tarn_ice_thickness_m(-BIT, TARN_ICE_MOST), NONE },
		{ "no factor", tarn_ice_thickness_m(1, 0), NONE },
		{ "hardly any", tarn_ice_thickness_m(1, BIT), BIT },
		{ "no ice", tarn_ice_water_m3(0, 10), 0 },
		{ "no pond", tarn_ice_water_m3(0.1, 0), 0 },
		{ "ice", tarn_ice_water_m3(0.1, 10), 0.917 },
		{ "less than none", tarn_ice_water_m3(-BIT, 10), NONE },
		{ "no pond at all", tarn_ice_water_m3(0.1, -BIT), NONE },
		{ "at the threshold", (double)tarn_freeze_risk_days(
			days, 5, -3, NULL), 2 },
	};

	CHECK_ENDS(rows);
}

static double less_one(double x, const void *context)
{
	(void)context;
	return x - 1;
}

Test(ends_flow, roots_at_an_end)
{
	const struct end rows[] = {
		{ "at the upper", tn_flow_root(less_one, NULL, 0, 1), 1 },
		{ "at the lower", tn_flow_root(less_one, NULL, 1, 2), 1 },
		{ "between", tn_flow_root(less_one, NULL, 0, 2), 1 },
		{ "above", tn_flow_root(less_one, NULL, 0, 1 - BIT), NONE },
		{ "below", tn_flow_root(less_one, NULL, 1 + BIT, 2), NONE },
	};

	CHECK_ENDS(rows);
}

/* A lip of 1 m passes 1.705 h^1.5; a head of more than 10 m is none. */
Test(ends_flow, the_highest_head_of_an_overflow)
{
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_overflow_flow out;
	struct tarn_error err = { 0 };

	o.lip_width_m = 1;
	o.flow_m3s = 1.705 * pow(9.99, 1.5);
	cr_assert(tarn_overflow_solve(&o, &out, NULL) == TARN_OK);
	cr_expect(fabs(out.head_m - 9.99) < 1e-9, "%.12g", out.head_m);
	o.flow_m3s = 1.705 * pow(10.01, 1.5);
	cr_expect(tarn_overflow_solve(&o, &out, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "overflow.flow");
	o.flow_m3s = 0;
	cr_assert(tarn_overflow_solve(&o, &out, NULL) == TARN_OK);
	cr_expect(out.head_m == 0 && out.level_m == o.lip_level_m);
}

Test(ends_flow, an_orifice_without_water_has_no_size)
{
	for (int i = 0; i < 2; i++) {
		struct tarn_orifice o = tarn_orifice_default();
		struct tarn_orifice_flow out;
		struct tarn_error err = { 0 };

		o.flow_m3s = i ? 1e-3 : 0;
		o.head_m = i ? 0 : 1;
		cr_expect(tarn_orifice_solve(&o, &out, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, "orifice");
		cr_expect(strstr(err.text, "above zero to find a size"), "%s",
			  err.text);
	}
}

/* A curve that starts later bounds the heads of a group by its own first. */
Test(ends_flow, pumps_side_by_side)
{
	const double flow[2][2] = { { 0, 1e-3 }, { 2e-4, 1e-3 } };
	const double head[2][2] = { { 5, 1 }, { 3, 0.5 } };
	struct tarn_pump_curve p[2] = { tarn_pump_curve_default(),
					tarn_pump_curve_default() };
	struct flow_span whole, late, both, none;

	for (int i = 0; i < 2; i++) {
		p[i].flow_m3s = flow[i];
		p[i].head_m = head[i];
		p[i].points = 2;
	}
	p[0].speed = 2;	/* heads of 20 and 4 m */
	none = tn_flow_group_span(p, 0);
	whole = tn_flow_group_span(p, 1);
	late = tn_flow_group_span(p + 1, 1);
	cr_expect(none.lo == 0 && none.hi == 0);
	cr_expect(whole.lo == 4 && whole.hi == 20);
	cr_expect(late.lo == 0.5 && late.hi == 3);
	p[0].speed = 1;
	both = tn_flow_group_span(p, 2);
	cr_expect(both.lo == 1 && both.hi == 3);
	p[0].speed = 0.7;	/* first head 2.45, under the late one's */
	both = tn_flow_group_span(p, 2);
	cr_expect(fabs(both.hi - 2.45) < 1e-12);
	/* straight lines: 4 m at 0.25 L/s; above 5 m the first gives none */
	p[0].speed = 1;
	cr_expect(tn_flow_group_flow(p, 1, 5) == 0);
	cr_expect(tn_flow_group_flow(p, 1, 6) == 0);
	cr_expect(fabs(tn_flow_group_flow(p, 1, 4) - 2.5e-4) < 1e-12);
	cr_expect(isnan(tn_flow_group_flow(p + 1, 1, 3.1)));
	cr_expect(fabs(tn_flow_group_flow(p, 2, 3) - 7e-4) < 1e-12);
	cr_expect(isnan(tn_flow_group_head(p, 0, 1e-4)));
}
