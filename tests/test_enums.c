/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "study_world.h"
#include "tarn.h"

/*
 * A number that an enum does not have is a value like another to C, and comes
 * from files and other languages.  Each public function that takes an enum is
 * called with one under its first and with one past its last, and says so in
 * its way: NULL, NaN, an error, nothing.  tests/tools/enums.lua finds a
 * function that is missing here.
 */
#define OUTSIDE(name, below, past) \
	for (enum name ends[] = { (enum name)(below), (enum name)(past) }, \
		       *at = ends, v; \
	     at < ends + 2 && (v = *at, 1); at++)

Test(enums, texts)
{
	OUTSIDE(tarn_status, -1, TARN_ESTOP + 1)
		cr_expect_str_eq(tarn_status_text(v), "unknown status");
	OUTSIDE(tarn_evidence, -1, TARN_EVIDENCE_OURS + 1)
		cr_expect_str_eq(tarn_evidence_text(v), "unknown");
	OUTSIDE(tarn_verdict, -2, TARN_CANNOT_TELL + 1)
		cr_expect_str_eq(tarn_verdict_text(v), "no verdict");
	OUTSIDE(tarn_leak_site, -1, TARN_SITE_MEASURED + 1) {
		struct tarn_evaporation_report r = { .method = TARN_GRASS };
		struct tarn_design *d = tarn_design_new(NULL);

		cr_expect(isnan(tarn_leak_prior(v).mean));
		cr_expect(isnan(tarn_design_leak_prior(d, v, &r).mean));
		tarn_design_free(d);
	}
	OUTSIDE(tarn_flow_regime, -1, TARN_FLOW_BEYOND + 1)
		cr_expect_str_eq(tarn_flow_regime_name(v), "unknown");
	OUTSIDE(tarn_bed_purpose, -1, TARN_PURPOSES)
		cr_expect_null(tarn_bed_purpose_name(v));
	OUTSIDE(tarn_substance, -1, TARN_SUBSTANCES)
		cr_expect_null(tarn_substance_name(v));
	OUTSIDE(tarn_level_name, -1, TARN_LEVELS)
		cr_expect_str_eq(tarn_level_name(v), "");
	OUTSIDE(tarn_exposure_term, -1, TARN_TERMS)
		cr_expect_str_eq(tarn_exposure_term_name(v), "unknown");
	OUTSIDE(tarn_method, -1, TARN_METHODS) {
		cr_expect_str_eq(tarn_method_name(v), "unknown");
		cr_expect_str_eq(tarn_method_title(v), "unknown method");
		cr_expect(isnan(tarn_exposure_run_factor(v, 1, 1)));
	}
}

/* An answer that is none of ours is none. */
Test(enums, settled)
{
	OUTSIDE(tarn_settle, -1, TARN_SETTLE_PLACE + 1) {
		struct tarn_error err = { 0 };

		cr_expect(tarn_settled(&err, v, "a", tarn_fail(&err, TARN_EARG,
			  "field", "text")) == TARN_EARG);
		cr_expect(err.settle == TARN_SETTLE_NONE && !err.answers[0]);
	}
}

/* A code that is none of ours is handed on as it came. */
Test(enums, status_of_a_failure)
{
	OUTSIDE(tarn_status, -1, TARN_ESTOP + 1) {
		struct tarn_error err = { 0 };

		cr_expect(tarn_fail(&err, v, "field", "text") == v);
		cr_expect(err.code == v && strcmp(err.text, "text") == 0);
		cr_expect_str_eq(tarn_status_text(err.code), "unknown status");
		cr_expect(tarn_settled(&err, TARN_SETTLE_DATES, NULL, v) == v);
		cr_expect(err.settle == TARN_SETTLE_DATES);
	}
}

Test(enums, rows_of_tables)
{
	size_t count;

	OUTSIDE(tarn_quantity, -1, TARN_QUANTITIES)
		cr_expect_null(tarn_quantity_info(v));
	OUTSIDE(tarn_exposure_wind, -1, TARN_WIND_CLASSES)
		cr_expect_null(tarn_exposure_wind(v));
	OUTSIDE(tarn_exposure_sun, -1, TARN_SUN_CLASSES)
		cr_expect_null(tarn_exposure_sun(v));
	OUTSIDE(tarn_exposure_surroundings, -1, TARN_SURROUNDINGS_CLASSES)
		cr_expect_null(tarn_exposure_surroundings(v));
	OUTSIDE(tarn_exposure_station, -1, TARN_STATION_CLASSES)
		cr_expect_null(tarn_exposure_station(v));
	OUTSIDE(tarn_method, -1, TARN_METHODS) {
		struct tarn_exposure site = tarn_exposure_default();
		struct tarn_exposure_budget b;

		cr_expect(isnan(tarn_method_centre(v, 0).median));
		cr_expect(tarn_exposure_budget(&site, NULL, v, 0, &b, NULL) ==
			  TARN_EARG);
	}
	OUTSIDE(tarn_origin, -1, TARN_ORIGINS)
		cr_expect_null(tarn_origin_info(v));
	OUTSIDE(tarn_size_rule, -1, TARN_SIZE_RULES)
		cr_expect_null(tarn_size_rule_info(v));
	OUTSIDE(tarn_column, -1, TARN_COLUMNS)
		cr_expect_null(tarn_column_info(v));
	OUTSIDE(tarn_flow_table, -1, TARN_FLOW_TABLES) {
		count = 7;
		cr_expect_null(tarn_flow_table(v, &count));
		cr_expect(count == 0);
		cr_expect_null(tarn_flow_constant(v, "elbow 90"));
	}
}

Test(enums, formulas)
{
	struct tarn_gravel g = tarn_gravel_default();

	g.diameter_m = 0.02;
	g.porosity = 0.4;
	cr_assert(tarn_packing_pressure(TARN_LAW_ERGUN, &g, 1e-3) > 0);
	OUTSIDE(tarn_packing_law, -1, TARN_LAW_JONES_KRIER + 1) {
		cr_expect(isnan(tarn_packing_friction(v, 100)));
		cr_expect(isnan(tarn_packing_pressure(v, &g, 1e-3)));
	}
	cr_assert(tarn_pan_to_grass(TARN_PAN_CLASS_A_GREEN, 2, 60, 100) > 0);
	OUTSIDE(tarn_pan, -1, TARN_PANS)
		cr_expect(isnan(tarn_pan_to_grass(v, 2, 60, 100)));
	OUTSIDE(tarn_wind_function, -1, TARN_WIND_FUNCTIONS)
		cr_expect(isnan(tarn_wind_function(v, 2, 100)));
	OUTSIDE(tarn_measured_kind, -1, TARN_MEASURED_KINDS) {
		struct tarn_measured m = tarn_measured(v, 2, 1);

		cr_expect(m.word == TARN_MEASURED_NO_DESIGN);
		cr_expect(isnan(m.off) && isnan(m.room));
	}
}

/* TARN_PURPOSES asks for all of them; past it there is none. */
Test(enums, purposes)
{
	struct tarn_loading_place place;

	OUTSIDE(tarn_bed_purpose, -1, TARN_PURPOSES + 1) {
		struct tarn_error err = { 0 };

		cr_expect(tarn_loading_place(1, v, &place, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, "purpose");
	}
}

/* A table of so many days, rain in it. */
static struct tarn_weather *days(size_t count)
{
	struct tarn_weather *w = NULL;
	double *rain;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2024, 6, 1), count,
				   NULL) == TARN_OK);
	rain = tarn_weather_add(w, TARN_RAIN);
	cr_assert_not_null(rain);
	for (size_t i = 0; i < count; i++)
		rain[i] = 1;
	return w;
}

/* A column that there is not is one that the table lacks. */
Test(enums, columns)
{
	struct tarn_csv_map map = tarn_csv_map_default(), before = map;
	struct tarn_weather *w = days(3);
	char list[200];

	cr_assert_not_null(tarn_weather_unit(TARN_RAIN, "mm"));
	OUTSIDE(tarn_column, -1, TARN_COLUMNS) {
		struct tarn_column_summary s = tarn_weather_summary(w, v);
		size_t gap = 7, length = 0;

		cr_expect_null(tarn_weather_column(w, v));
		cr_expect_null(tarn_weather_add(w, v));
		cr_expect(s.present == 0 && s.missing == 3 && isnan(s.mean));
		cr_expect(tarn_weather_gap(w, v, 0, &gap, &length) == 1);
		cr_expect(gap == 0 && length == 3);
		cr_expect_null(tarn_weather_unit(v, "mm"));
		strcpy(list, "none");
		tarn_weather_unit_list(v, list, sizeof list);
		cr_expect_str_eq(list, "");
		tarn_csv_map_set(&map, v, "rain", "mm");
		cr_expect(memcmp(&map, &before, sizeof map) == 0);
	}
	tarn_weather_free(w);
}

Test(enums, grids)
{
	static struct tarn_bed_plan plan;

	plan.sized.bed.area_m2 = 4;
	plan.depth_m = 0.5;
	plan.flow_m3s = 1e-3;
	OUTSIDE(tarn_bed_grid, -1, TARN_GRID_FULL + 1) {
		struct tarn_bed_axes a = tarn_bed_axes(&plan, v);

		cr_expect(a.areas == 0 && a.depths == 0 && a.flows == 0);
	}
}

/* A sort of period that there is not has no days, and ends a loop over them;
 * so does an index past the ledger's days. */
Test(enums, periods)
{
	struct world w;
	struct tarn_basin *basin = world_basin();
	struct tarn_pond pond = world_pond(basin);
	struct tarn_run go = tarn_run_default();
	struct tarn_ledger *ledger;
	struct tarn_period p;
	size_t next;

	world_make(&w, tarn_day(2024, 1, 1), 10, 3);
	cr_assert(tarn_ledger_run(&ledger, NULL, &pond, &w.forcing, &go,
				  NULL) == TARN_OK);
	p = tarn_ledger_period(ledger, TARN_BY_RUN, 0, &next);
	cr_assert(p.days == 10 && next == 10);
	OUTSIDE(tarn_period_kind, -1, TARN_BY_RUN + 1) {
		p = tarn_ledger_period(ledger, v, 0, &next);
		cr_expect(p.days == 0 && next == 10 && !p.complete);
		cr_expect(isnan(p.start_level_m) && isnan(p.end_store_m3));
		cr_expect(p.first_day == TARN_NO_DAY);
	}
	p = tarn_ledger_period(ledger, TARN_BY_WEEK, 10, &next);
	cr_expect(p.days == 0 && next == 10 && isnan(p.end_level_m));
	tarn_ledger_free(ledger);
	tarn_basin_free(basin);
	world_free(&w);
}

Test(enums, methods)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_evaporation_day day = tarn_evaporation_day_default();
	struct tarn_weather *w = days(3);
	double open, grass;
	unsigned rules;

	day.tmin_c = 10;
	day.tmax_c = 20;
	OUTSIDE(tarn_method, -1, TARN_METHODS) {
		struct tarn_error err = { 0 };

		cr_expect(tarn_evaporation_of_day(&day, v, &open, &grass,
						  &rules, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, "method");
		cr_expect(!tarn_evaporation_possible(w, &o, v));
		cr_expect(tarn_evaporation_lacking(w, &o, v) == -1);
	}
	tarn_weather_free(w);
}

Test(enums, remedies)
{
	struct tarn_exposure_budget b = { .centre_sd_ln = 0.2,
					  .sd_ln = { 0.1, 0.1, 0.1, 0.1 } };

	OUTSIDE(tarn_remedy, -1, TARN_REMEDIES) {
		cr_expect_str_eq(tarn_remedy_name(v), "unknown");
		cr_expect(tarn_exposure_after(&b, v).centre_sd_ln == 0.2);
	}
}
