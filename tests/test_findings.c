/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <math.h>

#include "run.h"
#include "tarn.h"

/* What checks find, as data: each on both sides of its limit; and how programs
 * tell it: the first lines and the exit status. */

#define HOLDS TARN_VERDICT_HOLDS
#define DOUBT TARN_VERDICT_DOUBT
#define FORBIDS TARN_VERDICT_FORBIDS

static struct tarn_finding of(int verdict, double value, double lo, double hi)
{
	return (struct tarn_finding){ .code = "test", .verdict = verdict,
				      .value = value, .lo = lo, .hi = hi };
}

Test(findings, a_list_keeps_the_worst)
{
	struct tarn_findings list = { 0 };
	struct tarn_finding mild = of(HOLDS, 1, TARN_NAN, 4);
	struct tarn_finding grave = of(FORBIDS, 5, TARN_NAN, 4);

	cr_expect(tarn_findings_worst(&list) == HOLDS);
	for (int i = 0; i < TARN_FINDINGS_MAX; i++)
		tarn_findings_add(&list, &mild);
	cr_expect(list.count == TARN_FINDINGS_MAX && list.left_out == 0);
	tarn_findings_add(&list, &mild);
	cr_expect(list.left_out == 1);
	tarn_findings_add(&list, &grave);
	cr_expect(list.count == TARN_FINDINGS_MAX && list.left_out == 2);
	cr_expect(tarn_findings_worst(&list) == FORBIDS);
	cr_expect_str_eq(tarn_verdict_names[FORBIDS], "forbids");
	cr_expect(tarn_fields_find(&tarn_finding_fields, "verdict") != NULL);
}

Test(findings, margins)
{
	static const struct { double value, lo, hi, margin; } rows[] = {
		{ 2, TARN_NAN, 8, 4 }, { 8, 2, TARN_NAN, 4 }, { 4, 2, 6, 1.5 },
		{ 5, TARN_NAN, 4, 0.8 }, { 5, TARN_NAN, 0, HUGE_VAL },
		{ 1, TARN_NAN, TARN_NAN, HUGE_VAL },
	};

	for (size_t i = 0; i < COUNT(rows); i++) {
		struct tarn_findings list = { 0 };
		struct tarn_finding f = of(DOUBT, rows[i].value, rows[i].lo,
					   rows[i].hi);

		tarn_findings_add(&list, &f);
		cr_expect(list.finding[0].margin == rows[i].margin, "%zu", i);
	}
}

/* ---- levels, storm, intake ---------------------------------------------------- */

/* Upright walls, 10 m2: 10 L a mm. */
struct world {
	struct tarn_basin *basin;
	struct tarn_pond pond;
	struct tarn_works works;
	struct tarn_findings found;
};

static void make(struct world *w)
{
	static const double level[] = { 0, 1.2 }, area[] = { 10, 10 };

	cr_assert(tarn_basin_table(&w->basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	w->pond = tarn_pond_default();
	w->pond.basin = w->basin;
	w->pond.overflow_level_m = 1.1;
	w->pond.target_m = 1;
	w->pond.trigger_m = 0.95;
	w->pond.intake_m = 0.7;
	w->pond.pump.flow_m3s = 2e-3;
	w->works = tarn_works_default();
}

static const struct tarn_finding *judge(struct world *w, int id)
{
	static const struct tarn_finding none = { .verdict = -1 };
	struct tarn_works_flow flow;
	struct tarn_error err = { 0 };

	w->found = (struct tarn_findings){ 0 };
	cr_assert(tarn_works_solve(&w->works, &w->pond, &flow, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	cr_assert(tarn_works_judge(&w->works, &w->pond, &flow, &w->found,
				   &err) == TARN_OK, "%s %s", err.field,
		  err.text);
	for (int i = 0; i < w->found.count; i++)
		if (w->found.finding[i].id == id)
			return &w->found.finding[i];
	return &none;
}

/* 100 mm up to the lip hold 1 m3; 250 mm from the trigger to the intake 2.5. */
Test(findings, stops_and_starts)
{
	struct world w;

	make(&w);
	w.pond.pump.drainback_m3 = 0.99;
	cr_expect(judge(&w, TARN_WORKS_STOP)->verdict == HOLDS);
	w.pond.pump.drainback_m3 = 1.01;
	cr_expect(judge(&w, TARN_WORKS_STOP)->verdict == FORBIDS);
	cr_expect(fabs(judge(&w, TARN_WORKS_STOP)->value - 0.01) < 1e-9);
	/* a finding names the field that mends it */
	cr_expect_str_eq(judge(&w, TARN_WORKS_STOP)->path, "target");
	cr_expect_str_eq(judge(&w, TARN_WORKS_START)->path, "intake");
	cr_expect(judge(&w, TARN_WORKS_START)->verdict == HOLDS);
	w.pond.pump.drainback_m3 = 2.51;
	cr_expect(judge(&w, TARN_WORKS_START)->verdict == FORBIDS);
	cr_expect(fabs(judge(&w, TARN_WORKS_START)->value - 0.699) < 1e-9);
	w.pond.intake_m = TARN_NAN;
	cr_expect(judge(&w, TARN_WORKS_START)->verdict == -1);
	tarn_basin_free(w.basin);
}

Test(findings, storm_over_the_edge)
{
	struct world w;

	make(&w);
	cr_expect(!tarn_storm_described(&w.works));
	cr_expect(judge(&w, TARN_WORKS_STORM)->verdict == -1);
	w.works.storm.intensity_mm_h = 60;
	w.works.overflow.lip_width_m = 0.3;
	cr_expect(tarn_storm_described(&w.works));
	cr_expect(judge(&w, TARN_WORKS_STORM)->verdict == HOLDS);
	w.works.overflow.lip_width_m = TARN_NAN;
	w.works.overflow.standpipe_diameter_m = 0.02;
	w.works.catchments = 1;
	w.works.catchment[0] = (struct tarn_catchment){ 100, 1, "" };
	cr_expect(judge(&w, TARN_WORKS_STORM)->verdict == FORBIDS);
	cr_expect(judge(&w, TARN_WORKS_STORM)->value < 0);
	cr_expect(judge(&w, TARN_WORKS_OPENINGS)->verdict == DOUBT);
	tarn_basin_free(w.basin);
}

/* 0.2 m of water over a sill 0.1 m wide at the intake level: 2 L/s pass at
 * 0.1 m/s. */
Test(findings, speed_in_the_intake)
{
	struct world w;
	struct tarn_intake_flow in;
	struct tarn_error err = { 0 };

	make(&w);
	cr_expect(tarn_works_intake(&w.works, &w.pond, 2e-3, &in, &err) == 0);
	cr_expect(err.code == TARN_OK);
	w.works.bay.sill_m = 0.5;
	w.works.bay.width_m = 0.1;
	cr_expect(judge(&w, TARN_WORKS_INTAKE)->verdict == -1);
	cr_expect(tarn_works_intake(&w.works, &w.pond, 2e-3, &in, &err) == 1);
	cr_expect(fabs(in.velocity_low_ms - 0.1) < 1e-12);
	/* what is not known is not looked at, and is no mistake */
	w.pond.intake_m = TARN_NAN;
	cr_expect(tarn_works_intake(&w.works, &w.pond, 2e-3, &in, &err) == 0);
	w.pond.intake_m = 0.7;
	w.works.bay.sill_m = TARN_NAN;
	cr_expect(tarn_works_intake(&w.works, &w.pond, 2e-3, &in, &err) == 0);
	w.works.bay.sill_m = 0.5;
	cr_expect(tarn_works_intake(&w.works, &w.pond, 0, &in, &err) == 0);
	w.works.bay.width_m = TARN_NAN;
	cr_expect(tarn_works_intake(&w.works, &w.pond, 2e-3, &in, &err) == 0);
	cr_expect(err.code == TARN_OK, "%s %s", err.field, err.text);
	w.works.bay.width_m = 0.1;
	w.works.bay.velocity_limit_ms = 0.101;
	cr_expect(judge(&w, TARN_WORKS_INTAKE)->verdict == HOLDS);
	w.works.bay.velocity_limit_ms = 0.099;
	cr_expect(judge(&w, TARN_WORKS_INTAKE)->verdict == FORBIDS);
	w.pond.intake_m = 0.7;
	w.works.bay.sill_m = 0.71;
	cr_expect(tarn_works_intake(&w.works, &w.pond, 2e-3, &in, &err) == 0);
	cr_expect(err.code == TARN_EARG);
	tarn_basin_free(w.basin);
}

/* What a suction wants over it (published values: test_flow_rest.c) beside the
 * water that there is at the intake minimum. */
Test(findings, a_suction_wants_water)
{
	struct world w;
	double cover_m;

	make(&w);
	w.works.bay.suction_m = 0.05;
	cover_m = tarn_submergence_m(2e-3, 0.05);
	w.pond.intake_m = cover_m * 1.001;
	cr_expect(judge(&w, TARN_WORKS_SUCTION)->verdict == HOLDS);
	w.pond.intake_m = cover_m * 0.999;
	cr_expect(judge(&w, TARN_WORKS_SUCTION)->verdict == FORBIDS);
	cr_expect(judge(&w, TARN_WORKS_SUCTION)->lo == cover_m);
	w.pond.intake_m = 0.7;
	w.works.bay.pump_minimum_m = 0.7 - cover_m * 0.999;
	cr_expect(judge(&w, TARN_WORKS_MOUTH)->verdict == DOUBT);
	w.works.bay.pump_minimum_m = 0.7 - cover_m * 1.001;
	cr_expect(judge(&w, TARN_WORKS_MOUTH)->verdict == HOLDS);
	tarn_basin_free(w.basin);
}

/* ---- ledger, log, bucket ---------------------------------------------------------- */

Test(findings, what_a_ledger_should_not_have)
{
	struct tarn_pond pond = tarn_pond_default();
	struct tarn_period p = { 0 };
	struct tarn_findings list = { 0 };

	tarn_ledger_judge(&pond, &p, &list);
	cr_expect(list.count == TARN_LEDGER_CHECKS - 1);	/* no intake */
	cr_expect(tarn_findings_worst(&list) == HOLDS);
	p.refused = 31;
	list = (struct tarn_findings){ 0 };
	tarn_ledger_judge(&pond, &p, &list);
	cr_expect(tarn_findings_worst(&list) == DOUBT);
	p.flows.unmet_m3 = 0.1;
	p.refused = 0;
	list = (struct tarn_findings){ 0 };
	tarn_ledger_judge(&pond, &p, &list);
	cr_expect(tarn_findings_worst(&list) == DOUBT);
	p.under_intake = 1;
	pond.intake_m = 0.5;
	list = (struct tarn_findings){ 0 };
	tarn_ledger_judge(&pond, &p, &list);
	cr_expect(tarn_findings_worst(&list) == FORBIDS);
	cr_expect_str_eq(list.finding[2].path, "intake");
	cr_expect(list.finding[2].value == 1);
}

Test(findings, words_of_a_log_and_of_a_bucket)
{
	static const int of_log[][2] = {
		{ TARN_LOG_GAINS, DOUBT }, { TARN_LOG_LOSES, FORBIDS },
		{ TARN_LOG_LOSES_SINCE, FORBIDS }, { TARN_LOG_SOUND, HOLDS },
		{ TARN_LOG_UNCLEAR, DOUBT },
	};
	static const int of_half[][2] = {
		{ TARN_HALF_GAINS, DOUBT }, { TARN_HALF_LOSES, FORBIDS },
		{ TARN_HALF_SOUND, HOLDS }, { TARN_HALF_UNCLEAR, DOUBT },
	};
	struct tarn_leak_result r = { 0 };
	struct tarn_log_doubts doubts = { 0 };
	struct tarn_pair_result pair = { .has_off = 1, .has_on = 0 };

	for (size_t i = 0; i < COUNT(of_log); i++) {
		struct tarn_log_advice a = { .word = of_log[i][0] };
		struct tarn_findings list = { 0 };

		tarn_log_judge(&a, &r, &doubts, &list);
		cr_expect(tarn_findings_worst(&list) == of_log[i][1], "%zu", i);
		a.factor_far = 1;
		list = (struct tarn_findings){ 0 };
		tarn_log_judge(&a, &r, &doubts, &list);
		cr_expect(tarn_findings_worst(&list) >= DOUBT);
	}
	for (size_t i = 0; i < COUNT(of_half); i++) {
		struct tarn_pair_advice a = { .off = { of_half[i][0], 0, 0 } };
		struct tarn_findings list = { 0 };

		tarn_pair_judge(&a, &pair, &list);
		cr_expect(list.count == 1);
		cr_expect(list.finding[0].verdict == of_half[i][1], "%zu", i);
	}
}

/* ---- the first lines, and the exit status ----------------------------------------- */

#define POND "weather-samples/courtyard-pond.lua"
#define SEATTLE " weather-samples/seattle_daily_2012_2015.csv " \
		"--map weather-samples/seattle-map.lua "
/* The sample with one line of its text changed, under "$f". */
#define CHANGED(change, command)                                           \
	"f=$(mktemp --suffix .lua); sed '" change "' " POND " > $f; "      \
	command "; s=$?; rm $f; exit $s"

Test(findings, first_lines_and_exit_status)
{
	static const struct row rows[] = {
		/* the falls want more than is taken: no headline hides it */
		{ CHANGED("s/fall_depth = 3/fall_depth = 9/",
			  "$TARN bed --full $f"), 3, "1 check says NO" },
		{ CHANGED("s/fall_depth = 3/fall_depth = 9/",
			  "$TARN bed --full $f | head -6"), 0,
		  "- NO: Flow for the falls: 1,686 US gal/h, at least 8,461 " },
		{ CHANGED("s/fall_depth = 3/fall_depth = 9/",
			  "$TARN bed --full $f | head -5 | tail -1"), 0,
		  "  and flow\"." },
		{ CHANGED("s/fall_depth = 3/fall_depth = 9/",
			  "$TARN bed --full $f | grep -ci 'no check forbids'"), 1,
		  "0" },
		/* a guess is no plain yes */
		{ "$TARN bed --full " POND " | grep '^Ammonia N in'", 0, "a guess" },
		/* the sheet's storm and intake */
		{ CHANGED("s/intensity = 2 /intensity = 39 /; s/overflow = { "
			  "width = 14/overflow = { width = 0.5/",
			  "$TARN sheet --full $f" SEATTLE), 3, "OVER THE EDGE" },
		{ CHANGED("s/intensity = 2 /intensity = 39 /; s/overflow = { "
			  "width = 14/overflow = { width = 0.5/",
			  "$TARN sheet --full $f" SEATTLE "| head -6"), 0,
		  "- NO: The design storm runs OVER THE EDGE" },
		{ CHANGED("s/velocity_limit = 0.3/velocity_limit = 0.03/",
			  "$TARN sheet --full $f" SEATTLE "| head -5"), 0,
		  "- NO: Speed in the intake: 0.20 ft/s, at most 0.03 ft/s." },
		{ CHANGED("s/suction = 2 \\* inch/suction = 0.7 * inch/",
			  "$TARN sheet --full $f" SEATTLE "| head -6"), 0,
		  "- NO: Water over the floor at the intake minimum" },
		/* what topup, whatif and commission find of the levels */
		{ CHANGED("s/check_valve = true/check_valve = false, drainback "
			  "= 400 * gal/", "$TARN topup --full $f" SEATTLE), 3,
		  "SPILLS at every stop" },
		{ CHANGED("s/check_valve = true/check_valve = false, drainback "
			  "= 400 * gal/", "$TARN commission --full $f "
			  "weather-samples/courtyard-measured.lua | head -5"),
		  0, "SPILLS at every stop" },
		/* what is said twice: named with its line, or refused */
		{ CHANGED("s/drop = 22 /drop = 120 /",
			  "$TARN topup --full $f" SEATTLE), 4,
		  ".lua:36: bed.drop: 120.00 in; by falls" },
		{ CHANGED("s/drop = 22 /drop = 10 /", "$TARN topup --full $f" SEATTLE),
		  2, ".lua:36: bed.drop is 0.254 m (10 in), but falls and" },
		{ CHANGED("s/porosity = 0.38/porosity = 0.95/",
			  "$TARN sheet --full $f" SEATTLE), 2, "leaves no stone" },
		{ CHANGED("s/check_valve = true/drainback = 15 * gal/",
			  "$TARN bed --full $f"), 4,
		  "pump.drainback: 15 US gal come back at" },
		/* one turnover, and the pump's hours */
		{ "s=$($TARN sheet --full " POND SEATTLE "| grep -o 'Turnover: [0-9.]*"
		  "' | cut -d' ' -f2); b=$($TARN bed --full " POND "| awk '/^Taken/"
		  "{print $3; exit}'); echo $s $b; test $s = $b && echo same",
		  0, "same" },
		{ CHANGED("s/watts = 155/hours = 16, watts = 155/",
			  "$TARN topup --full $f" SEATTLE), 0,
		  "The pump runs 16 h a day, as described." },
		{ CHANGED("s/watts = 155/hours = 16, watts = 155/",
			  "$TARN sheet --full $f" SEATTLE), 4,
		  "- The pump runs 16 h a day, as described." },
		{ CHANGED("s/watts = 155/hours = 16, watts = 155/",
			  "$TARN bed --full $f"), 4,
		  "The pump runs 16 h a day, as described. The figures here" },
		{ CHANGED("s/watts = 155/hours = {24,24,24,24,16,16,16,16,24,24,"
			  "24,20}, watts = 155/", "$TARN sheet --full $f" SEATTLE
			  "| tr '\n' ' '"), 0,
		  "Jan to Apr 24, May to Aug 16, Sep   to Nov 24, Dec 20." },
		/* one definition of turnover, said by both */
		{ "$TARN sheet --full " POND SEATTLE "| tr '\n' ' '", 0,
		  "by the bed's flow: the flow an hour over the basin's   "
		  "volume at the lip, stone and all" },
		{ "$TARN bed --full " POND, 4, "Turnovers: the flow an hour over the "
		  "basin's volume at the lip, stone and all" },
		/* a bed.flow of its own: the pump's does not count */
		{ CHANGED("s/porosity = 0.38/porosity = 0.38, flow = 600 * gph/",
			  "s=$($TARN sheet --full $f" SEATTLE "| grep -o 'Turnover: "
			  "[0-9.]*' | cut -d' ' -f2); b=$($TARN bed --full $f | awk "
			  "'/^Taken/{print $3; exit}'); echo $s $b; "
			  "test $s = $b && echo same"), 0, "same" },
		/* weeks: a date of its own each; one largest week of a year */
		{ "$TARN topup --full " POND SEATTLE "| grep -o '^W5[12], about .....' "
		  "| tr '\n' ' '", 0, "W51, about 12-17 W52, about 12-24" },
		{ "s='s/^Largest week of a year.* \\([0-9]*\\)$/\\1/p'; "
		  "t=$($TARN topup --full " POND SEATTLE "| sed -n \"$s\"); "
		  "w=$($TARN whatif --full " POND SEATTLE "weather-samples/courtyard-"
		  "study.lua | awk '/^as it is/{print $8; exit}'); echo $t $w; "
		  "test $t = $w && echo same", 0, "same" },
		/* nothing found: said as well, and 0 */
		{ "$TARN topup --full " POND SEATTLE, 0,
		  "No check says no, and none is in doubt." },
		{ "$TARN weather " SEATTLE, 0,
		  "No check says no, and none is in doubt." },
		/* a file on which no ledger runs */
		{ "f=$(mktemp --suffix .csv); printf 'date,rain_mm\\n2020-01-01,"
		  "1\\n2020-01-02,2\\n' > $f; $TARN weather $f; s=$?; rm $f; "
		  "exit $s", 3, "- NO: No ledger can be run on this file" },
		/* a link in HTML leads to the chapter */
		{ CHANGED("s/fall_depth = 3/fall_depth = 9/",
			  "$TARN bed --full $f --report $f.html > /dev/null; a=$(grep "
			  "-o 'See <a href=\"#c[0-9]*\">Demand and flow' "
			  "$f.html | grep -o 'c[0-9]*' | head -1); grep -o "
			  "\"id=\\\"$a\\\">[^<]*\" $f.html; rm $f.html"), 0,
		  ">Demand and flow" },
	};

	expect_rows(rows, COUNT(rows));
}
