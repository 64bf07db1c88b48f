/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "../lib/tarn/bed/firstorder.h"
#include "../lib/tarn/bed/judge.h"
#include "../lib/tarn/weather/internal.h"
#include "study_world.h"
#include "tarn.h"

/*
 * Ends of ranges, and the single figures of tables and sums, that a text of a
 * whole script would hide.
 */
static void near(double got, double want, const char *what)
{
	cr_expect(fabs(got - want) <= 1e-9 * fmax(1, fabs(want)),
		  "%s: %.12g, want %.12g", what, got, want);
}

/* ---- evaporation ---------------------------------------------------------------- */

Test(edges, evaporation_formulas)
{
	/* Allen et al. 1998 (FAO-56), eq. 43: 0.07 (T after - T before) */
	near(tarn_soil_heat_month(14.1, 18.8), 0.329, "soil heat");
	/* Turc 1961: the dry-air factor is 1 from 50 % on, 1 + (50 - RH)/70
	 * below */
	near(tarn_evaporation_turc(20, 20, 50.5),
	     tarn_evaporation_turc(20, 20, 80), "Turc, moist");
	near(tarn_evaporation_turc(20, 20, 36) /
	     tarn_evaporation_turc(20, 20, 80), 1.2, "Turc, dry");
	cr_expect(tarn_evaporation_hargreaves(10, 20, 60, 0.0023) > 0);
	cr_expect(isnan(tarn_evaporation_hargreaves(10, 20, 60.5, 0.0023)));
	near(tarn_evaporation_hargreaves(10, 20, 0, 0.0023), 0, "no sun");
	cr_expect(isnan(tarn_evaporation_hargreaves(10, 20, -0.5, 0.0023)));
}

/* FAO-56 eq. 18: e = e0(tmin) RHmax / 100. */
Test(edges, humidity_of_the_morning)
{
	struct tarn_evaporation_day d = tarn_evaporation_day_default();
	struct tarn_conditions c;

	d.tmin_c = 10;
	d.tmax_c = 20;
	d.rh_max = 80;
	cr_assert(tarn_conditions_of(&d, &c, NULL) == TARN_OK);
	near(c.vapour_kpa, 0.8 * 0.6108 * exp(17.27 * 10 / (10 + 237.3)),
	     "vapour");
}

/* FAO-56, below eq. 6: wind under 0.5 m/s counts as 0.5. */
Test(edges, wind_floor)
{
	static const double winds[] = { 0.499, 0.502 };

	for (int i = 0; i < 2; i++) {
		struct tarn_evaporation_day d = tarn_evaporation_day_default();
		double open, grass;
		unsigned origins = 0;

		d.tmin_c = 10;
		d.tmax_c = 20;
		d.rh_mean = 60;
		d.solar_mj = 20;
		d.latitude_deg = 45;
		d.day_of_year = 180;
		d.wind_2m_ms = winds[i];
		cr_assert(tarn_evaporation_of_day(&d, TARN_PENMAN_1956, &open,
						  &grass, &origins, NULL) ==
			  TARN_OK);
		cr_expect((origins & 1u << TARN_ORIGIN_WIND_FLOOR) ==
			  (i == 0 ? 1u << TARN_ORIGIN_WIND_FLOOR : 0), "%g",
			  winds[i]);
	}
}

/* FAO-56 table 12, the rows on wetlands: coefficients and heights. */
Test(edges, plants)
{
	static const struct tarn_plant want[] = {
		{ "cattail_frost", 0.30, 1.20, 0.30, 2, NULL },
		{ "cattail", 0.60, 1.20, 0.60, 2, NULL },
		{ "short", 1.05, 1.10, 1.10, 0.3, NULL },
		{ "reed_water", 1.00, 1.20, 1.00, 2, NULL },
		{ "reed_moist", 0.90, 1.20, 0.70, 2, NULL },
	};
	size_t count;
	const struct tarn_plant *p = tarn_plants(&count);

	cr_assert(count >= 5);
	for (size_t i = 0; i < 5; i++) {
		cr_expect_str_eq(p[i].name, want[i].name);
		near(p[i].start, want[i].start, want[i].name);
		near(p[i].mid, want[i].mid, want[i].name);
		near(p[i].end, want[i].end, want[i].name);
		near(p[i].height_m, want[i].height_m, want[i].name);
	}
}

/* ---- weather ---------------------------------------------------------------------- */

/* Our own ranges, at both sides of each latitude. */
Test(edges, plausible)
{
	static const double latitude[] = { 0, 34.9, -34.9, 35, 49.9, 50, -70 };
	static const double low[] = { 5, 5, 5, 40, 40, 80, 80 };
	static const double high[] = { 6000, 6000, 6000, 4500, 4500, 4000, 4000 };

	for (int i = 0; i < 7; i++) {
		struct plausible r = tn_plausible_rain(latitude[i]);

		cr_expect(r.low == low[i] && r.high == high[i], "%g: %g, %g",
			  latitude[i], r.low, r.high);
	}
	cr_expect(tn_plausible_wind(-39.9).high == 8);
	cr_expect(tn_plausible_wind(40).high == 9);
	cr_expect(tn_plausible_wind(0).low == 0.2);
}

/* ---- bed ---------------------------------------------------------------------------- */

Test(edges, first_order)
{
	near(tn_rate_at(0.5, 1.06, 20), 0.5, "at 20 deg C");
	near(tn_rate_at(0.5, 1.06, 0.5), 0.5 * pow(1.06, -19.5), "cold");
	near(tn_rate_at(0.5, 0.9, 40), 0.5 * pow(0.9, 20), "theta under 1");
	near(tn_rate_at(0, 1.06, 10), 0, "no rate");
	near(tn_rate_at(2, 1.06, 0), 2 * pow(1.06, -20), "0 deg C");
	cr_expect(isnan(tn_rate_at(-0.1, 1.06, 10)));
	cr_expect(isnan(tn_rate_at(1, 0, 10)));
	cr_expect(isnan(tn_rate_at(1, 1.06, -0.1)));
	cr_expect(isnan(tn_rate_at(1, 1.06, 40.1)));
	near(tarn_areal_rate(0, 0.5, 0.4), 0, "no rate by area");
	near(tarn_areal_rate(0.2, 0.5, 1), 0.2 * 0.5 * 365, "all void");
	cr_expect(isnan(tarn_areal_rate(0.2, 0, 0.4)));
	cr_expect(isnan(tarn_areal_rate(0.2, 0.5, 1.01)));
}

/* One stone from top to bottom: every sum is its own times the depth. */
Test(edges, one_stone)
{
	struct tarn_sizing in = tarn_sizing_default();
	struct tarn_gravel g = tarn_gravel_default();
	struct stone s;

	memset(&s, 0xff, sizeof s);
	in.depth_m = 0.6;
	in.diameter_m = g.diameter_m = 0.02;
	in.porosity = g.porosity = 0.38;
	in.sphericity = g.sphericity = 0.8;
	g.density_kgm3 = in.density_kgm3;
	g.viscosity_pas = in.viscosity_pas;
	cr_assert(tn_stone_of(&in, &s, NULL) == TARN_OK);
	near(s.largest_m, 0.02, "largest");
	near(s.largest_voids, 0.38, "its voids");
	near(s.voids_m, 0.38 * 0.6, "voids");
	near(s.depth_m, 0.6, "depth");
	near(s.top_m, 0.6, "top");
	near(s.surface, tarn_gravel_surface(&g) * 0.6, "surface");
	near(s.linear, tarn_gravel_resistance(&g).linear * 0.6, "linear");
	near(s.quadratic, tarn_gravel_resistance(&g).quadratic * 0.6, "quadratic");
	cr_expect(s.chamber == 0);
}

/* ---- flow ------------------------------------------------------------------------------ */

/* Brater & King's table of broad crests: heads 0.2 to 1 ft, breadths 0.5 to
 * 3 ft here (second-hand); outside, the result says so. */
Test(edges, broad_crest_notes)
{
	static const struct {
		double head_ft, breadth_ft;
		int outside;
	} rows[] = {
		{ 0.19, 1, 1 }, { 0.21, 1, 0 }, { 0.99, 1, 0 }, { 1.01, 1, 1 },
		{ 0.5, 0.49, 1 }, { 0.5, 0.51, 0 }, { 0.5, 2.99, 0 },
		{ 0.5, 3.01, 1 },
		/* and the ends themselves */
		{ 0.2, 1, 0 }, { 1, 1, 0 }, { 0.5, 0.5, 0 }, { 0.5, 3, 0 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_weir w = tarn_weir_default();
		struct tarn_weir_flow out;
		struct tarn_error err = { 0 };

		w.kind = TARN_WEIR_BROAD;
		w.formula = TARN_WEIR_BRATER_KING;
		w.width_m = 1;
		w.head_m = rows[i].head_ft * 0.3048;
		w.breadth_m = rows[i].breadth_ft * 0.3048;
		cr_assert(tarn_weir_solve(&w, &out, &err) == TARN_OK, "%s: %s",
			  err.field, err.text);
		cr_expect((out.note != NULL) == rows[i].outside, "%g, %g: %s",
			  rows[i].head_ft, rows[i].breadth_ft,
			  out.note ? out.note : "no note");
	}
}

/* An opening that there is not has no flow, which is not a flow of 0. */
Test(edges, an_overflow_without_a_lip)
{
	struct tarn_overflow o = tarn_overflow_default();
	struct tarn_overflow_flow out;

	o.standpipe_diameter_m = 0.1;
	o.standpipe_level_m = 0.5;
	o.lip_level_m = 0.9;
	o.level_m = 0.6;
	cr_assert(tarn_overflow_solve(&o, &out, NULL) == TARN_OK);
	cr_expect(isnan(out.lip_m3s) && out.standpipe_m3s > 0);
	o.lip_width_m = 0.4;
	cr_assert(tarn_overflow_solve(&o, &out, NULL) == TARN_OK);
	cr_expect(out.lip_m3s == 0);
}

/* ---- take-off -------------------------------------------------------------------------- */

/* Loose earth is the dig and its swell; both differ, so that none stands for
 * the other. */
Test(edges, loose_earth)
{
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_build b = tarn_build_default();
	struct tarn_pond p = tarn_pond_default();
	struct tarn_basin *basin;
	struct tarn_takeoff t;

	s.shape = TARN_RECTANGLE;
	s.length_m = 4;
	s.width_m = 3;
	s.depth_m = 1;
	cr_assert(tarn_basin_shelved(&basin, NULL, &s, NULL) == TARN_OK);
	p.basin = basin;
	p.overflow_level_m = 0.9;
	b.swell = 0.27;
	cr_assert(tarn_takeoff_solve(&b, &p, &s, NULL, &t, NULL) == TARN_OK);
	cr_expect(t.dig_m3 > 1);
	near(t.loose_m3, t.dig_m3 * 1.27, "loose");
	tarn_basin_free(basin);
}

/* ---- pond ------------------------------------------------------------------------------ */

Test(edges, forcing)
{
	static const char *const fields[] = { "rain", "open_water", "grass" };
	double rain[3] = { 0, 1, 2 }, open[3] = { 1, 1, 1 }, grass[3] = { 1, 1, 1 };
	double *column[3] = { rain, open, grass };
	struct tarn_forcing f = { 0, 3, rain, open, grass, NULL };

	cr_assert(tarn_forcing_check(&f, NULL) == TARN_OK);
	for (int i = 0; i < 3; i++) {
		struct tarn_error err = { 0 };
		double kept = column[i][1];

		column[i][1] = TARN_NAN;
		cr_expect(tarn_forcing_check(&f, &err) == TARN_EARG, "%s",
			  fields[i]);
		cr_expect(strncmp(err.field, fields[i], strlen(fields[i])) == 0,
			  "%s: %s", fields[i], err.field);
		column[i][1] = kept;
	}
}

Test(edges, target_at_the_lip)
{
	struct tarn_basin *basin = world_basin();
	struct tarn_pond p = world_pond(basin);

	p.target_m = p.overflow_level_m;
	cr_expect(tarn_pond_check(&p, NULL) == TARN_OK);
	p.target_m = p.overflow_level_m + 1e-6;
	cr_expect(tarn_pond_check(&p, NULL) == TARN_EARG);
	tarn_basin_free(basin);
}

/*
 * The fall that losses alone make is the sum of each, day by day.  An apron by
 * its curve number: USDA TR-55 (1986), eq. 2-3 and 2-4, S = 1000/CN - 10 in.
 */
Test(edges, sums_of_a_period)
{
	struct tarn_basin *basin = world_basin();
	struct tarn_pond p = world_pond(basin);
	double rain[4] = { 50, 0, 0, 3 }, loss[4] = { 4, 5, 6, 3 };
	struct tarn_forcing f = { tarn_day(2024, 6, 3), 4, rain, loss, loss, NULL };
	struct tarn_run go = tarn_run_default();
	struct tarn_ledger *ledger;
	const struct tarn_ledger_day *d;
	const double s_mm = 25.4 * (1000 / 80.0 - 10);
	double fall = 0, lowest = HUGE_VAL, q;
	struct tarn_period sum;
	size_t count, next;

	p.splash_m3s = 4e-6;
	p.apron.area_m2 = 10;
	p.apron.coefficient = TARN_NAN;
	p.apron.curve_number = 80;
	cr_assert(tarn_ledger_run(&ledger, NULL, &p, &f, &go, NULL) == TARN_OK);
	d = tarn_ledger_days(ledger, &count);
	sum = tarn_ledger_period(ledger, TARN_BY_RUN, 0, &next);
	cr_assert(count == 4 && next == 4 && sum.days == 4);
	q = (50 - 0.2 * s_mm) * (50 - 0.2 * s_mm) / (50 + 0.8 * s_mm);
	near(d[0].flows.runoff_m3, 10 * q / 1000, "runoff");
	near(d[3].flows.runoff_m3, 0, "a shower soaks in");
	for (size_t i = 0; i < 4; i++) {
		const struct tarn_flows *w = &d[i].flows;

		fall += 1e3 / d[i].area_m2 *
			(w->evaporation_m3 + w->stream_m3 + w->splash_m3 +
			 w->seepage_m3 +
			 (d[i].flags & TARN_DAY_RUNNING ? w->bed_m3 : 0));
		lowest = fmin(lowest, d[i].level_m);
	}
	cr_expect(d[0].flows.splash_m3 > 0 && d[0].flows.seepage_m3 > 0 &&
		  d[0].flows.splash_m3 != d[0].flows.seepage_m3);
	near(sum.drop_mm, fall, "fall");
	cr_expect(sum.lowest_level_m == fmin(lowest, sum.start_level_m));
	/* a kind that there is not has no levels at all */
	sum = tarn_ledger_period(ledger, (enum tarn_period_kind)-1, 0, &next);
	cr_expect(isnan(sum.lowest_level_m) && isnan(sum.end_level_m) &&
		  isnan(sum.start_store_m3) && isnan(sum.end_tank_m3) &&
		  sum.lowest_day == TARN_NO_DAY && sum.last_day == TARN_NO_DAY);
	tarn_ledger_free(ledger);
	tarn_basin_free(basin);
}
