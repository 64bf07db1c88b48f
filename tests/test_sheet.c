/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <ctype.h>
#include <glob.h>

#include "run.h"

/* The hand-over sheet and the commissioning check as their users meet them. */
#define POND " weather-samples/courtyard-pond.lua "
#define PLAIN " tests/good/plain-pond.lua "
#define SEATTLE " weather-samples/seattle_daily_2012_2015.csv " \
		"--map weather-samples/seattle-map.lua "
#define DE_BILT " weather-samples/de_bilt_daily_1980_2019.csv "

Test(sheet, command_line)
{
	static const struct row rows[] = {
		{ "$TARN sheet --help", 0, "--drawings PREFIX" },
		{ "$TARN sheet --full" POND SEATTLE, 4, "hand-over sheet" },
		{ "$TARN sheet --full" POND SEATTLE, 4, "Overflow (full, pump off)" },
		{ "$TARN sheet --full" POND SEATTLE, 4, "once in 25 years" },
		{ "$TARN sheet --full" POND SEATTLE "--units metric", 4, " L/h " },
		{ "$TARN sheet --full" POND SEATTLE "--materials", 4,
		  "boulders, way 2" },
		{ "$TARN sheet --full" POND SEATTLE "--markdown /dev/stdout "
		  "| grep -c '^## '", 0, "10" },
		/* a file behind standard output is not replaced, nor the
		 * link that leads to it */
		{ "d=$(mktemp -d); ln -s /proc/self/fd/1 $d/link; "
		  "$TARN sheet --full" POND SEATTLE "--markdown $d/link > $d/file; "
		  "test -L $d/link && grep -c '^## ' $d/file; "
		  "tail -1 $d/file; rm -r $d", 0, "10\nThe sheet as" },
		{ "$TARN sheet --full" PLAIN SEATTLE, 0, "No storm was worked out" },
		{ "$TARN sheet --full" POND, 2, "WEATHER.csv is missing" },
		{ "$TARN sheet --full" POND SEATTLE "--drawing x", 2,
		  "did you mean --drawings?" },
		{ "$TARN sheet --full" POND SEATTLE "--units feet", 2,
		  "must be one of us, metric" },
		{ "$TARN sheet --full" POND SEATTLE "--method guess", 2,
		  "method must be one of" },
		{ "$TARN sheet --full" POND SEATTLE "--drawings /nowhere/x", 2,
		  "there is no folder /nowhere/: make it first" },
		{ "$TARN sheet --full" POND SEATTLE "--csv /dev/full", 2,
		  "/dev/full: cannot write" },
		/* topup takes the same water in transit */
		{ "$TARN topup --full" POND SEATTLE, 0,
		  "a stop lets 11 US gal come back" },
		{ "$TARN sheet --full" POND SEATTLE, 4,
		  "In transit while it runs: 11 US gal" },
		/* a bed that is forbidden, or not counted, is told first */
		{ "$TARN sheet --full tests/good/lip-bed.lua" SEATTLE "| head -5", 0,
		  "1 check says NO.\n- NO: Water at the bed's far side, over its" },
		{ "$TARN sheet --full tests/good/unsized-bed.lua" SEATTLE "| head -5",
		  0, "the bed is NOT counted" },
		{ "$TARN sheet --full" POND SEATTLE "| head -3", 0,
		  "No check says no, and 2 are in doubt:" },
		/* the water, and what of the basin is none */
		{ "$TARN sheet --full" POND SEATTLE "| tr '\\n' ' '", 0,
		  "1,439 US gal at the overflow (basin 1,956 US gal, less "
		  "516 US gal of   stone described)" },
		{ "$TARN sheet --full" PLAIN SEATTLE "| tr '\\n' ' '", 0,
		  "(the whole basin, no stone described)" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Sheet and top-up report give one figure for one thing. */
Test(sheet, agrees_with_topup)
{
	static const struct row rows[] = {
		{ "f() { $TARN $1" POND SEATTLE "| tr -s '\\n ' ' ' | grep -o "
		  "'it falls [0-9.]* times'; }; f 'sheet --full'; test \"$(f "
		  "'sheet --full')\" = \"$(f 'topup --full')\" && echo same", 0, "times\nsame" },
		/* the year's range, and a week of April, from the CSV in m3 */
		{ "f() { $TARN $1" POND SEATTLE "| tr -s '\\n ' ' ' | sed 's/ - / /g' "
		  "| grep -o 'A usual year takes .* USD. A usual week [^.]*'; "
		  "}; f topup; test \"$(f sheet)\" = \"$(f topup)\" "
		  "&& echo same", 0, "same" },
		{ "d=$(mktemp -d); $TARN topup --full" POND SEATTLE "--ranges $d/r.csv "
		  "> $d/out; t=$(awk -F, '/^single_week_of_month,4,/{printf "
		  "\"%.0f %.0f\", $4 * 264.172, $7 * 264.172}' $d/r.csv); "
		  "s=$($TARN sheet --full" POND SEATTLE "| awk '/^Apr /{print $7, $8; "
		  "exit}'); rm -r $d; echo $t $s; test \"$t\" = \"$s\" && "
		  "echo same", 0, "same" },
		/* 24 h on 28.25 of 365.25 days, not a twelfth of them:
		 * 155 W x 24 h x 28.25 / 365.25 = 0.288 kWh, x 365 x 0.14 */
		{ "d=$(mktemp -d); sed 's/watts = 155,/watts = 155, hours = { "
		  "0, 24, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0 },/' "
		  "weather-samples/courtyard-pond.lua > $d/p.lua; $TARN sheet --full "
		  "$d/p.lua" SEATTLE "| grep Power; rm -r $d", 0,
		  "155 W, 0.3 kWh a day, 15 USD a year." },
	};

	expect_rows(rows, COUNT(rows));
}

/* All files or none. */
Test(sheet, writes_all_or_nothing)
{
	static const struct row rows[] = {
		{ "d=$(mktemp -d); $TARN sheet --full" POND SEATTLE "--drawings $d/ "
		  "--csv $d/m.csv --markdown $d/s.md > /dev/null; ls $d; "
		  "grep -c '(levels.svg)' $d/s.md; tail -c 7 $d/levels.svg; "
		  "rm -r $d", 0,
		  "levels.svg\nm.csv\ns.md\nsection.svg\n1\n</svg>\n" },
		{ "d=$(mktemp -d); $TARN sheet --full" POND SEATTLE "--drawings $d/ "
		  "--csv $d/none/m.csv; s=$?; ls $d | wc -l; rm -r $d; "
		  "exit $s", 2, "cannot write: No such file or directory\n0\n" },
		{ "d=$(mktemp -d); $TARN sheet --full tests/bad/works/cannot-lift.lua"
		  SEATTLE "--drawings $d/ --csv $d/m.csv; s=$?; ls $d | wc -l; "
		  "rm -r $d; exit $s", 2, "\n0\n" },
		/* the drawings are well-formed and the same each time */
		{ "d=$(mktemp -d); for n in a b; do $TARN sheet --full" POND SEATTLE
		  "--drawings $d/$n > /dev/null; done; cmp $d/a-section.svg "
		  "$d/b-section.svg && cmp $d/a-levels.svg $d/b-levels.svg && "
		  "echo same; rm -r $d", 0, "same" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Broken works: the first line says what must be told, topup says it too. */
Test(sheet, refuses_bad_works)
{
	static char out[OUT_MAX];
	glob_t files;

	cr_assert(glob("tests/bad/works/*.lua", 0, NULL, &files) == 0);
	cr_expect(files.gl_pathc >= 15, "%zu files", files.gl_pathc);
	for (size_t i = 0; i < files.gl_pathc; i++) {
		char command[500], first[300] = "";
		const char *at, *want = first + strlen("-- expect: ");
		FILE *f = fopen(files.gl_pathv[i], "r");

		cr_assert(fgets(first, sizeof first, f) != NULL);
		fclose(f);
		first[strcspn(first, "\n")] = '\0';
		snprintf(command, sizeof command, "$TARN sheet --full %s" SEATTLE,
			 files.gl_pathv[i]);
		cr_expect(run(command, out) == 2, "%s said: %.300s",
			  files.gl_pathv[i], out);
		cr_expect(strstr(out, want) != NULL, "%s: '%s' is not in: "
			  "%.400s", files.gl_pathv[i], want, out);
		at = strstr(out, files.gl_pathv[i]);
		cr_expect(at && isdigit((unsigned char)
					at[strlen(files.gl_pathv[i]) + 1]),
			  "%s is not named with its line in: %.300s",
			  files.gl_pathv[i], out);
	}
	globfree(&files);
}

Test(commission, checks_a_record)
{
#define MEASURED " weather-samples/courtyard-measured.lua "
	static const struct row rows[] = {
		{ "$TARN commission --full" POND MEASURED, 3, "Flow by the pail" },
		{ "$TARN commission --full" POND MEASURED, 3, "LOW" },
		{ "$TARN commission --full" POND MEASURED, 3, "A clogged basket" },
		{ "$TARN commission --full" POND MEASURED, 3, "basin.metered = " },
		{ "$TARN commission --full" POND MEASURED "--units metric", 3, "mm" },
		{ "$TARN commission" POND "--form", 0, "pail_volume,,gal" },
		{ "$TARN commission" POND "--form --units metric", 0,
		  "pail_volume,,L,\"held" },
		{ "$TARN commission" POND "--form --units metric | "
		  "grep -c 'gal\\|inch'", 1, "0" },
		/* what it proposes agrees with the same record */
		{ "f=$(mktemp --suffix .lua); m=$($TARN commission --full" POND MEASURED
		  "| grep -o 'metered = [0-9.]*'); sed \"s/  basin = {/& $m,/\""
		  POND "> $f; $TARN commission --full $f" MEASURED "| grep 'first fill"
		  "\\|metered ='; echo \"was $m\"; rm $f", 0,
		  "1,365 US gal    1,365 US gal     0 %   agrees\n- Into the "
		  "description: basin.metered = 8.603 (m3" },
		{ "f=$(mktemp --suffix .csv); printf 'n,v,u\\npump_off_rise,"
		  "3/16,in\\nfill_volume,1380,gallons\\nfill_level,38 1/4,"
		  "inches\\n' > $f; $TARN commission --full" POND "$f; rm $f", 0,
		  "2 of 2 figures agree" },
		{ "f=$(mktemp --suffix .csv); printf 'n,v,u\\nfill_volume,1500,"
		  "galons\\n' > $f; $TARN commission --full" POND "$f; s=$?; rm $f; "
		  "exit $s", 2, "unit 'galons' that is not known: did you mean "
		  "'gal'?" },
		{ "f=$(mktemp --suffix .csv); printf 'n,v,u\\nfill_volume,1/z,"
		  "gal\\n' > $f; $TARN commission --full" POND "$f; s=$?; rm $f; "
		  "exit $s", 2, "'1/z gal' has a number without a unit" },
		{ "$TARN commission" POND, 2, "--form prints an empty form" },
		{ "f=$(mktemp --suffix .csv); $TARN commission" POND "--form | "
		  "sed 's/^watts,,/watts,400,/; s/^pump_on_drop,,/&/' > $f; "
		  "$TARN commission --full" POND "$f; s=$?; rm $f; exit $s", 3,
		  "HIGH" },
		{ "f=$(mktemp --suffix .csv); echo 'name,value,unit' > $f; "
		  "echo 'wats,4,W' >> $f; $TARN commission --full" POND "$f; s=$?; "
		  "rm $f; exit $s", 2, ".csv:2: unknown name 'wats': did you "
		  "mean 'watts'?" },
		{ "f=$(mktemp --suffix .csv); printf 'n,v,u\\nwatts,4,volt\\n' "
		  "> $f; $TARN commission --full" POND "$f; s=$?; rm $f; exit $s", 2,
		  ".csv:2: watts: '4 volt' has a unit 'volt' that is not known" },
		{ "f=$(mktemp --suffix .csv); printf 'n,v,u\\nwatts,four,W\\n' "
		  "> $f; $TARN commission --full" POND "$f; s=$?; rm $f; exit $s", 2,
		  ".csv:2: watts: 'four W' is no number with a unit" },
		{ "f=$(mktemp --suffix .csv); printf 'n,v,u\\nwatts,-4,W\\n' "
		  "> $f; $TARN commission --full" POND "$f; s=$?; rm $f; exit $s", 2,
		  ".csv:2: watts must be a number above 0" },
		{ "f=$(mktemp --suffix .csv); $TARN commission" POND "--form > "
		  "$f; $TARN commission --full" POND "$f; s=$?; rm $f; exit $s", 2,
		  "nothing was measured" },
		{ "f=$(mktemp --suffix .lua); echo 'return { pail_volume = 5 * "
		  "gal }' > $f; $TARN commission --full" POND "$f; s=$?; rm $f; "
		  "exit $s", 2, "belong together" },
		{ "$TARN commission --full" POND "nowhere.csv", 2, "nowhere.csv" },
		{ "$TARN commission --full" POND "nowhere.lua", 2, "nowhere.lua" },
	};

	expect_rows(rows, COUNT(rows));
}
