/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "test_flow.h"
#include "tarn/flow/internal.h"

/* Transit, intake, jets, top-up, winter. */

#define GAL 3.785411784e-3

Test(transit, volumes)
{
	double d = 2.067 * INCH;

	near("0.0408 d^2 gal/ft", tarn_transit_pipe_m3(FT, d) / GAL, 0.1743,
	     1e-4);
	near("40 ft of 2 in (regression)",
	     tarn_transit_pipe_m3(40 * FT, d) / GAL, 6.9726862, 1e-6);
	near("pool (regression)", tarn_transit_surface_m3(12 * FT * FT,
		1.2458809 * INCH) / GAL, 9.319837, 1e-5);
	cr_expect(isnan(tarn_transit_pipe_m3(-1, 1)));
	cr_expect(isnan(tarn_transit_surface_m3(1, -1)));
	cr_expect(isnan(tarn_transit_stream_m3(TARN_NAN, 1)));
}

/* 15 ft of stream, 2 ft wide, slope 0.05, n 0.035, 100 US gal/min: 16.02 gal
 * (computed, with Manning's 1.486).  25 x 2 ft x 1 in is 31 gal. */
Test(transit, stream_regression)
{
	struct tarn_channel c = tarn_channel_default();
	struct tarn_channel_flow out;

	c.flow_m3s = 100 * GPM;
	c.width_m = 2 * FT;
	c.slope = 0.05;
	c.manning = 0.035;
	cr_assert(tarn_channel_solve(&c, &out, NULL) == TARN_OK);
	near("stream", tarn_transit_stream_m3(15 * FT, out.area_m2) / GAL,
	     16.021503, 2e-3);
	near("inch, not foot", tarn_transit_stream_m3(25 * FT, 2 * FT * INCH) /
	     GAL, 31.2, 0.05);
}

Test(transit, stop)
{
	struct tarn_transit t = tarn_transit_default();
	struct tarn_transit_flow out;

	t.surfaces_m3 = 0.2;
	t.streams_m3 = 0.1;
	t.pipes_m3 = 0.03;
	t.siphon_area_m2 = 4;
	t.siphon_depth_m = 0.05;
	t.pond_area_m2 = 14;
	cr_assert(tarn_transit_solve(&t, &out, NULL) == TARN_OK);
	near("running", out.running_m3, 0.3, 1e-15);
	near("back", out.drain_back_m3, 0.23, 1e-15);
	near("rise", out.rise_m, 0.53 / 14, 1e-15);
	t.check_valve = 1;
	cr_assert(tarn_transit_solve(&t, &out, NULL) == TARN_OK);
	cr_expect(out.drain_back_m3 == 0);
	t.pond_area_m2 = TARN_NAN;
	cr_assert(tarn_transit_solve(&t, &out, NULL) == TARN_OK);
	cr_expect(isnan(out.rise_m));
	t.pipes_m3 = -1;
	cr_expect(tarn_transit_solve(&t, &out, NULL) == TARN_EARG);
}

/* ANSI/HI 9.8 (1998) sec. 9.8.7 as quoted: 3200 gpm, 16 in -> 44.7 in; 1000
 * gpm -> 25 in. */
Test(intake, submergence_published)
{
	quoted("ANSI/HI 9.8 (1998) sec. 9.8.7", "1000 gpm, in",
	       tarn_submergence_m(1000 * GPM, 16 * INCH) / INCH, 25,
	     0.1);
	quoted("ANSI/HI 9.8 (1998) sec. 9.8.7", "3200 gpm, in",
	       tarn_submergence_m(3200 * GPM, 16 * INCH) / INCH, 44.7,
	     0.3);
	cr_expect(isnan(tarn_submergence_m(0, 1)));
	cr_expect(isnan(tarn_submergence_m(1, 0)));
}

Test(intake, opening)
{
	struct tarn_intake in = tarn_intake_default();
	struct tarn_intake_flow out;
	struct tarn_error err = { 0 };

	/* 8,000 US gal/h through 1 ft at 6 in: 0.59 ft/s (derived) */
	in.flow_m3s = 8000 * GPM / 60;
	in.width_m = FT;
	in.depth_low_m = 6 * INCH;
	in.depth_high_m = 8 * INCH;
	cr_assert(tarn_intake_solve(&in, &out, &err) == TARN_OK);
	near("derived", out.velocity_low_ms / FT, 0.59, 0.005);
	close_to("high", out.velocity_high_ms, out.velocity_low_ms * 0.75,
		 1e-14);
	near("1 gal per gpm", out.bay_m3 / GAL, 8000.0 / 60, 1e-9);
	cr_expect(isnan(out.submergence_m) && !out.over_limit);
	in.velocity_limit_ms = 0.1;
	cr_assert(tarn_intake_solve(&in, &out, &err) == TARN_OK);
	cr_expect(out.over_limit);
	in.width_m = TARN_NAN;
	in.open_share = 0.5;
	in.suction_diameter_m = 0.1;
	cr_assert(tarn_intake_solve(&in, &out, &err) == TARN_OK);
	close_to("needed", out.velocity_low_ms, 0.1, 1e-14);
	cr_expect(!out.over_limit && out.submergence_m > 0.1);
	in.velocity_limit_ms = TARN_NAN;
	cr_expect(tarn_intake_solve(&in, &out, NULL) == TARN_EARG);
	in.width_m = 1;
	in.depth_high_m = 0.01;
	cr_expect(tarn_intake_solve(&in, &out, NULL) == TARN_EARG);
	in.depth_low_m = -0.02;
	cr_expect(tarn_intake_solve(&in, &out, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "0.02 m below the intake's sill") != NULL,
		  "%s", err.text);
}

/* 2 m/s from a drilled hole (cd 0.6) asks for (2 / 0.6)^2 / 2 g of head, and
 * carries rho Q v^2 / 2: by hand. */
Test(jet, head_and_power)
{
	struct tarn_jet j = tarn_jet_default();
	struct tarn_jet_flow out;

	j.diameter_m = 0.02;
	j.velocity_ms = 2;
	cr_assert(tarn_jet_solve(&j, &out, NULL) == TARN_OK);
	near("head", out.head_m, 0.566509, 5e-7);
	near("flow", out.flow_m3s, 6.28319e-4, 5e-9);
	near("power", out.power_w, 1.2555, 5e-5);	/* 999.1 kg/m3, 15 C */
}

Test(jet, decay)
{
	struct tarn_jet j = tarn_jet_default();
	struct tarn_jet_flow out, back;
	struct tarn_error err = { 0 };

	j.diameter_m = INCH;
	j.flow_m3s = 50 * GPM;
	j.distance_m = 1;
	j.path_m = 100;
	j.temp_c = 20;
	cr_assert(tarn_jet_solve(&j, &out, &err) == TARN_OK);
	/* 50 gpm, 1 in: 61.02 W (computed) */
	near("power (regression)", out.power_w, 61.019461, 1e-3);
	/* Albertson 1950 (from memory) 6.2; Rajaratnam 0.32 */
	close_to("6.2 D / x", out.centre_velocity_ms / out.velocity_ms,
		 6.2 * INCH, 1e-14);
	close_to("0.32 x / D", out.carried_m3s / out.flow_m3s,
		 0.32 / INCH, 1e-14);
	cr_expect(out.half_width_m > 0.0848 && out.half_width_m < 0.10);
	close_to("throw", out.throw_m, 6.2 * INCH * out.velocity_ms / 0.1,
		 1e-14);
	near("count", out.jets, ceil(100 / out.throw_m), 0);
	/* at the end of its throw it has the end velocity */
	j.distance_m = out.throw_m;
	cr_assert(tarn_jet_solve(&j, &back, &err) == TARN_OK);
	close_to("end", back.centre_velocity_ms, 0.1, 1e-14);
	/* head and velocity lead to the same jet */
	j.flow_m3s = TARN_NAN;
	j.head_m = out.head_m;
	cr_assert(tarn_jet_solve(&j, &back, &err) == TARN_OK);
	close_to("by head", back.flow_m3s, 50 * GPM, 1e-14);
	j.head_m = TARN_NAN;
	j.velocity_ms = 0.05;
	j.distance_m = 0.01;
	cr_assert(tarn_jet_solve(&j, &back, &err) == TARN_OK);
	cr_expect(back.throw_m == 0 && isnan(back.jets));
	cr_expect(back.centre_velocity_ms == 0.05 &&
		  isnan(back.half_width_m));
	j.head_m = 1;
	cr_expect(tarn_jet_solve(&j, &back, NULL) == TARN_EARG);
	j.diameter_m = TARN_NAN;
	cr_expect(tarn_jet_solve(&j, &back, NULL) == TARN_EARG);
}

/* mg per mg Cl2; doses of a field guide without author or year.  Each
 * dose is stoichiometry, times 1.10 for the three sulfites. */
Test(topup, neutralisers)
{
	const double cl2 = 70.906;
	static const struct {
		const char *name;
		double dose, molar, factor, tol;
	} rows[] = {
		{ "sodium bisulfite", 1.61, 104.061, 1.1, 0.02 },
		{ "sodium metabisulfite", 1.47, 190.107 / 2, 1.1, 0.02 },
		{ "sodium sulfite", 1.96, 126.043, 1.1, 0.02 },
		{ "ascorbic acid", 2.5, 176.124, 1, 0.03 },
		{ "sodium ascorbate", 2.8, 198.106, 1, 0.03 },
	};
	const struct tarn_constant *c;

	for (size_t i = 0; i < COUNT(rows); i++) {
		c = tarn_flow_constant(TARN_NEUTRALISERS, rows[i].name);
		cr_assert(c != NULL);
		near(rows[i].name, c->value, rows[i].dose, 0);
		near(rows[i].name, rows[i].molar / cl2 * rows[i].factor,
		     rows[i].dose, rows[i].tol);
	}
	c = tarn_flow_constant(TARN_NEUTRALISERS, "sodium thiosulfate");
	near("sodium thiosulfate, field", c->value, 1.9, 0);
	near("anhydrous, 2 per Cl2 (regression)", c->hi,
	     2 * 158.11 / cl2, 0.005);
	c = tarn_flow_constant(TARN_NEUTRALISERS,
			       "sodium thiosulfate crystals");
	near("crystals, 2 per Cl2", c->value, 2 * 248.18 / cl2, 0.005);
	near("complete oxidation", c->lo, 248.18 / cl2 / 4, 5e-4);
	near("1 mg/L in 1 m3", tn_neutraliser_g(7, 1, 1), 7, 0);
	cr_expect(isnan(tn_neutraliser_g(-1, 1, 1)));
}

/* One mole of NH2Cl has one of nitrogen and counts as one of Cl2. */
Test(topup, chloramine)
{
	double n_per_cl2 = tn_chloramine_nitrogen_g(1, 1);

	near("mg NH3 per mg NH2Cl",
	     n_per_cl2 * 70.906 / 51.475 * 17.031 / 14.007,
	     17.031 / 51.475, 2e-4);
	near("N per Cl2 (regression)", n_per_cl2, 0.19755994, 2e-5);
	cr_expect(isnan(tn_chloramine_nitrogen_g(-1, 1)));
}

#define CHICO "Chico (Texas), Code of Ordinances, 51.117"

/* The same rule is in the codes of Hillsborough NC and Westford MA. */
Test(topup, air_gap_published)
{
	printed(CHICO, "air gap of 3/4 in",
		tarn_air_gap_m(0.75 * INCH) / INCH, 1.5, 1e-9);
	printed(CHICO, "least air gap", tarn_air_gap_m(0.25 * INCH) / INCH, 1, 1e-9);
	cr_expect(isnan(tarn_air_gap_m(0)));
}

Test(topup, valve_and_shares)
{
	struct tarn_topup t = tarn_topup_default();
	struct tarn_topup_flow out;
	struct tarn_error err = { 0 };

	near("Cv to Kv", tn_kv_from_cv(1), 0.865, 5e-4);
	near("1 bar", tn_valve_m3s(3.6, 100), 1e-3, 1e-18);
	/* by its definition: Cv gallons a minute at 1 psi */
	close_to("1 psi", tn_valve_m3s(tn_kv_from_cv(2.5), 6.894757293),
		 2.5 * GPM, 1e-9);
	cr_expect(isnan(tn_valve_m3s(1, -1)));
	cr_expect(isnan(tn_kv_from_cv(-1)));
	near("one", tn_tap_share(1, 20, 1), 0.05, 1e-15);
	near("two", tn_tap_share(1, 20, 2), 1 - 0.95 * 0.95, 1e-15);
	cr_expect(tn_tap_share(20, 20, 1) == 1);
	cr_expect(isnan(tn_tap_share(21, 20, 1)));
	cr_expect(isnan(tn_tap_share(1, 20, -1)));
	t.volume_m3 = 0.3;
	cr_assert(tarn_topup_solve(&t, &out, &err) == TARN_OK);
	cr_expect(isnan(out.fill_time_s) && isnan(out.share) &&
		  isnan(out.neutraliser_g) && isnan(out.air_gap_m));
	t.pond_m3 = 10;
	t.kv = 0.9;
	t.pressure_kpa = 300;
	t.events_per_week = 3;
	t.chlorine_mg_l = 2;
	t.chloramine_mg_l = 1.5;
	t.neutraliser = 7;
	t.opening_m = 0.02;
	cr_assert(tarn_topup_solve(&t, &out, &err) == TARN_OK);
	close_to("flow", out.flow_m3s, 0.9 / 3600 * sqrt(3), 1e-14);
	close_to("time", out.fill_time_s * out.flow_m3s, 0.3, 1e-14);
	close_to("week", out.share_week, 1 - pow(0.97, 3), 1e-13);
	close_to("salts", out.salts_week, 0.09, 1e-14);
	close_to("mixed", out.chlorine_mixed_mg_l, 0.06, 1e-14);
	close_to("dose", out.neutraliser_g, 7 * 2 * 0.3, 1e-14);
	close_to("whole pond", out.neutraliser_pond_g, 140, 1e-14);
	close_to("ammonia", out.nitrogen_g, 0.19754 * 1.5 * 0.3, 1e-4);
	near("gap", out.air_gap_m, 0.04, 1e-15);
	t.cv = 1;
	cr_expect(tarn_topup_solve(&t, &out, NULL) == TARN_EARG);
	t.kv = t.pressure_kpa = TARN_NAN;
	cr_expect(tarn_topup_solve(&t, &out, NULL) == TARN_EARG);
	t.cv = TARN_NAN;
	t.flow_m3s = 1e-4;
	cr_assert(tarn_topup_solve(&t, &out, NULL) == TARN_OK);
	near("given flow", out.fill_time_s, 3000, 1e-9);
	t.chloramine_mg_l = 3;
	cr_expect(tarn_topup_solve(&t, &out, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "part of chlorine") != NULL);
	t.chloramine_mg_l = 0;
	t.volume_m3 = 11;
	cr_expect(tarn_topup_solve(&t, &out, NULL) == TARN_EARG);
}

Test(winter, estimates)
{
	const double mean[] = { 2, -3, -5, 1, -4, 9, -1 };
	const double low[] = { 0, -9, -8, TARN_NAN, -12, 3, -7.9 };
	const double gap[] = { -1, TARN_NAN, -1 };
	size_t missing = 99;

	near("degree days", tarn_freezing_degree_days(mean, 7), 11, 1e-14);
	near("none", tarn_freezing_degree_days(mean, 1), 0, 0);
	cr_expect(isnan(tarn_freezing_degree_days(gap, 3)));
	cr_expect(tarn_freeze_risk_days(low, 7, -8, &missing) == 3);
	cr_expect(missing == 1);
	cr_expect(tarn_freeze_risk_days(low, 7, -8, NULL) == 3);
	near("Stefan", tarn_ice_thickness_m(100, 0.027), 0.27, 1e-15);
	near("water", tarn_ice_water_m3(0.1, 10), 0.917, 1e-15);
	cr_expect(isnan(tarn_ice_thickness_m(-1, 0.02)));
	cr_expect(isnan(tarn_ice_thickness_m(1, 0)));
	cr_expect(isnan(tarn_ice_water_m3(-1, 1)));
}
