/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <glob.h>

#include "run.h"

#define POND " weather-samples/courtyard-pond.lua "
#define SEATTLE " weather-samples/seattle_daily_2012_2015.csv " \
		"--map weather-samples/seattle-map.lua "

Test(runner, explains_itself)
{
	static const struct row rows[] = {
		{ "$TARN", 0, "topup" },
		{ "$TARN --help", 0, "Installed scripts" },
		{ "$TARN --help", 0, "topup       weekly top-up water" },
		{ "$TARN --help | grep -c ' MIT$'", 1, "0" },
		{ "$TARN --version", 0, "tarn 0." },
		{ "$TARN topup --full --help", 0, "--start-level" },
		{ "echo 'print(#arg .. \" arguments\")' | $TARN /dev/stdin a b",
		  0, "2 arguments" },
		{ "$TARN nothing", 2, "there is no script 'nothing'" },
		{ "$TARN nothing.lua", 2, "nothing.lua" },
		{ "cd / && $OLDPWD/$TARN topup --full --help", 0, "Usage" },
	};

	expect_rows(rows, COUNT(rows));
}

Test(runner, own_scripts)
{
	static const struct row rows[] = {
		{ "f=$(mktemp --suffix .lua); echo 'print(tarn.units.ft)' > $f;"
		  " $TARN $f; s=$?; rm $f; exit $s", 0, "0.3048" },
		{ "f=$(mktemp --suffix .lua); printf '\\nlocal x = nil + 1' > "
		  "$f; $TARN $f; s=$?; rm $f; exit $s", 2, ".lua:2:" },
		{ "f=$(mktemp --suffix .lua); "
		  "printf '\\ntarn.pond{overflow_levl=1}' > $f; $TARN $f; s=$?; rm $f; exit $s", 2,
		  ".lua:2: unknown field 'overflow_levl': did you mean "
		  "'overflow_level'?" },
		{ "f=$(mktemp --suffix .lua); echo 'x = (' > $f; $TARN $f; "
		  "s=$?; rm $f; exit $s", 2, ".lua:" },
		{ "f=$(mktemp --suffix .lua); echo 'print(arg[1])' > $f; "
		  "$TARN $f seven; s=$?; rm $f; exit $s", 0, "seven" },
		/* what a script returns is the exit status, if it is one */
		{ "f=$(mktemp --suffix .lua); echo 'return 7' > $f; $TARN $f; "
		  "s=$?; rm $f; exit $s", 7, "" },
		{ "f=$(mktemp --suffix .lua); echo 'return {}' > $f; $TARN $f; "
		  "s=$?; rm $f; exit $s", 0, "" },
	};

	expect_rows(rows, COUNT(rows));
}

/* A file that is to be read, given where a script is expected, is not run: the
 * message says what to type. */
Test(runner, descriptions_are_no_scripts)
{
#define S "weather-samples/"
#define FILE_WITH(text, ending, then) "f=$(mktemp --suffix " ending "); printf -- " \
	"'" text "' > $f; $TARN " then "; s=$?; rm -f $f; exit $s"
	static const struct row rows[] = {
		{ "$TARN " S "courtyard-pond.lua", 2, "tarn: " S "courtyard-pond"
		  ".lua: is the description of a pond, not a script: tarn topup "
		  S "courtyard-pond.lua WEATHER.csv\n" },
		{ "$TARN " S "courtyard-pond.lua " S "seattle.csv", 2,
		  "is the description of a pond, not a script" },
		{ "$TARN " S "courtyard-study.lua", 2, "is a study, not a script"
		  ": tarn whatif POND.lua WEATHER.csv " S "courtyard-study.lua" },
		{ "$TARN " S "seattle-map.lua", 2, "is the map of a weather file"
		  ", not a script: tarn topup POND.lua WEATHER.csv --map " S },
		{ "$TARN " S "courtyard-measured.lua", 2, "tarn commission "
		  "POND.lua " S "courtyard-measured.lua" },
		{ "$TARN " S "seattle_daily_2012_2015.csv", 2, "is a table of "
		  "values, not a script: tarn weather " S },
		/* refused before it runs with the user's rights */
		{ "d=$(mktemp -d); echo \"if os then os.execute('touch $d/ran') "
		  "end return { basin = {} }\" > $d/p.lua; $TARN $d/p.lua; "
		  "s=$?; test ! -e $d/ran || s=9; rm -r $d; exit $s", 2,
		  "is the description of a pond, not a script" },
		{ FILE_WITH("{\"overflow_level\": 1}", ".json", "$f"), 2,
		  "is the "
		  "description of a pond, not a script: tarn topup /" },
		{ FILE_WITH("{\"overflow_level\": ", ".json", "$f"), 2,
		  "is a description "
		  "(with a mistake in it), not a script: tarn topup /" },
		{ FILE_WITH("-- a\n--[[ b\n]]\n"
			    "return { overflow_level = 1 * feet }", ".lua",
			    "$f"), 2, "is a description (with a mistake in it)" },
		{ FILE_WITH("return { 1 }", ".lua", "$f"), 2,
		  "is a table of values, not a script; `tarn` alone lists" },
		{ FILE_WITH("return 7 -- lip", ".lua", "$f"), 7, "" },
		{ "$TARN --help", 0, "run with all your rights: run only what "
				     "you have read." },
		{ "$TARN whatif --help", 0, "--trust" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Completion by bash, as the shell asks for it: the words, the last of which is
 * to be completed. */
#define COMPLETE(words) "bash -c '. scripts/tarn.bash; COMP_WORDS=(\"$@\"); " \
	"COMP_CWORD=$(($# - 1)); _tarn \"$TARN\"; " \
	"printf \"[%s]\" \"${COMPREPLY[@]}\"; echo' _ tarn " words

Test(runner, completion)
{
	static const struct row rows[] = {
		{ "export TARN; " COMPLETE("top"), 0, "[topup]\n" },
		{ "export TARN; " COMPLETE("topup --me"), 0, "[--method]\n" },
		{ "export TARN; " COMPLETE("topup --units ''"), 0,
		  "[us][metric]\n" },
		{ "export TARN; " COMPLETE("sheet p.lua --method penman_1"), 0,
		  "[penman_1956][penman_1948]\n" },
		{ "export TARN; " COMPLETE("topup --climate aus"), 0,
		  "[austin]\n" },
		{ "export TARN; " COMPLETE("new p.lua --sun ha"), 0,
		  "[half\\ shade]\n" },
		{ "export TARN; d=$(mktemp -d); mkdir \"$d/a b\"; "
		  COMPLETE("topup $d/a") "| sed \"s:$d:D:\"; rm -r $d", 0,
		  "[D/a b]\n" },
		/* a script of the user's own is not run */
		{ "export TARN; d=$(mktemp -d); echo 'io.open(arg[0] .. "
		  "\".ran\", \"w\")' > $d/mine.lua; " COMPLETE("$d/mine.lua --x")
		  "; ls $d; rm -r $d", 0, "\nmine.lua\n" },
	};
	static char out[OUT_MAX];

	expect_rows(rows, COUNT(rows));
	run(rows[7].command, out);
	cr_expect(strstr(out, "ran") == NULL, "%s", out);
}

/* A file of an office program is named, whatever its ending. */
Test(runner, a_description_of_another_format)
{
	static const struct row rows[] = {
		{ "d=$(mktemp -d); printf 'PK\\003\\004' > $d/p.lua; $TARN bed --full "
		  "$d/p.lua; s=$?; rm -r $d; exit $s", 2,
		  "p.lua: is a workbook, a document or an archive (.xlsx, .docx, "
		  "... .zip): a description is plain text" },
		{ "d=$(mktemp -d); printf '\\377\\376{' > $d/p.json; $TARN bed --full "
		  "$d/p.json; s=$?; rm -r $d; exit $s", 2,
		  "p.json: is text in UTF-16" },
		{ "d=$(mktemp -d); sed 's/./&\\x00/g' weather-samples/"
		  "courtyard-pond.lua > $d/p.lua; $TARN bed $d/p.lua; s=$?; "
		  "rm -r $d; exit $s", 2, "p.lua: is text in UTF-16" },
		{ "d=$(mktemp -d); printf '<!doctype html>' > $d/p.lua; $TARN "
		  "bed $d/p.lua; s=$?; rm -r $d; exit $s", 2,
		  "p.lua: is a web page" },
		{ "d=$(mktemp -d); printf ' \n-- later' > $d/p.lua; $TARN bed "
		  "$d/p.lua; s=$?; rm -r $d; exit $s", 2,
		  "p.lua: is empty: tarn new NAME.lua" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Without --full one screen, which has the years that the ledger is of, and the
 * way to the rest. */
Test(topup, is_one_screen)
{
	static const struct row rows[] = {
		{ "n=$($TARN topup" POND SEATTLE "| wc -l); test $n -le 60 && "
		  "echo short", 0, "short" },
		{ "$TARN topup" POND SEATTLE, 0,
		  "1,956 US gal when full, 134 ft2 of surface." },
		{ "$TARN topup" POND SEATTLE, 0, "2012-01-01 to 2015-12-31" },
		{ "$TARN topup" POND SEATTLE "| tr -s '\\n ' ' '", 0,
		  "the intake is bare after " },
		{ "$TARN topup" POND SEATTLE "| tr -s '\\n ' ' '", 0,
		  "--full prints weeks, months" },
		{ "$TARN topup" POND SEATTLE "| grep -c 'Week by week'", 1, "0" },
	};

	expect_rows(rows, COUNT(rows));
}

Test(topup, command_line)
{
	static const struct row rows[] = {
		{ "$TARN topup --full" POND SEATTLE, 0, "a week on average" },
		{ "$TARN topup --full" POND SEATTLE "--units metric", 0, " L " },
		{ "$TARN topup --full" POND SEATTLE "--units=metric --all-weeks", 0,
		  "2013-W27" },
		{ "$TARN topup --full" POND SEATTLE "--first 2015-07-01 --last "
		  "2015-07-31", 0, "2015-W28" },
		{ "$TARN topup --full", 2, "POND.lua is missing" },
		{ "$TARN topup --full" POND, 2, "WEATHER.csv is missing" },
		{ "$TARN topup --full" POND SEATTLE "more", 2, "unexpected argument" },
		{ "$TARN topup --full" POND SEATTLE "--unit us", 2,
		  "the units of a report are --units" },
		{ "$TARN topup --full" POND SEATTLE "--units feet", 2,
		  "must be one of us, metric" },
		{ "$TARN topup --full" POND SEATTLE "--units", 2, "--units needs" },
		{ "$TARN topup --full" POND SEATTLE "--start-level deep", 2,
		  "--start-level must be a number" },
		{ "$TARN topup --full" POND SEATTLE "--start-level 9", 2,
		  "start_level [m] must be" },
		{ "$TARN topup --full" POND SEATTLE "--first 2015-02-31", 2,
		  "first must be a date" },
		{ "$TARN topup --full" POND SEATTLE "--first 2025-02-01", 2,
		  "2012-01-01 to 2015-12-31" },
		{ "$TARN topup --full" POND SEATTLE "--method guess", 2,
		  "method must be one of" },
		{ "$TARN topup --full" POND "nowhere.csv", 2, "nowhere.csv" },
		{ "$TARN topup --full nowhere.lua" SEATTLE, 2, "nowhere.lua" },
		{ "$TARN topup --full /tmp" SEATTLE, 2, "/tmp: Is a directory" },
		{ "$TARN topup --full" POND "/tmp", 2, "/tmp" },
		{ "$TARN topup --full" POND SEATTLE "--csv /nowhere/x.csv", 2,
		  "/nowhere/x.csv: cannot write" },
		{ "$TARN topup --full" POND SEATTLE "--csv /dev/full", 2,
		  "/dev/full: cannot write: No space left" },
		{ "$TARN topup --full" POND SEATTLE "--csv /tmp", 2,
		  "/tmp: cannot write" },
		{ "$TARN topup --full" POND SEATTLE "--first 2014-06-10 --last "
		  "2014-06-10", 0, "(1 day)" },
		{ "$TARN topup --full" POND SEATTLE "--first 2014-06-10 --last "
		  "2014-07-12", 0, "33 of 33 days" },
		{ "$TARN topup --full" POND SEATTLE "--csv weather-samples/"
		  "seattle-map.lua", 2, "is an input of this run" },
		{ "$TARN topup --full" POND "weather-samples/de_bilt_daily_1980_2019"
		  ".csv", 2, "--latitude DEG (any map" },
		{ "$TARN topup --full" POND "weather-samples/hancock_ghcn_order_2010_"
		  "2020.csv", 2, "tried: --file-units standard" },
		{ "$TARN topup --full" POND "tests/test_base.c", 2, "or --map FILE" },
		{ "$TARN weather weather-samples/nasa_power_daily_sample.csv",
		  3, "Not as it stands" },
		{ "$TARN weather" SEATTLE "--units us", 0, "deg F" },
		{ "f=$(mktemp --suffix .lua); printf '\033Lua' > $f; $TARN "
		  "topup $f" SEATTLE "; s=$?; rm $f; exit $s", 2,
		  "attempt to load a binary chunk" },
		{ "$TARN topup --full" POND SEATTLE "> /dev/full", 1,
		  "output could not be written" },
	};

	expect_rows(rows, COUNT(rows));
}

/* An output that fails leaves nothing behind and an older file alone. */
/* A day that is missing outside the days asked for, or in a column that the
 * report's method does not need, took away the range. */
Test(topup, a_missing_day_takes_away_no_range)
{
#define DE_BILT(tmax) "awk -F, 'BEGIN { OFS = \",\" } NR == 1 { print " \
	"\"date,rain_mm,tmin_c,tmax_c,reference_mm\" } NR > 1 && $1 >= " \
	"\"2018\" { print $1, $9, $2, (" tmax " ? \"\" : $3), $13 }' " \
	"weather-samples/de_bilt_daily_1980_2019.csv > /tmp/tarn-range.csv; " \
	"$TARN topup --full weather-samples/courtyard-pond.lua /tmp/tarn-range.csv " \
	"--latitude 52.1 --bridge 0"
	static const struct row rows[] = {
		{ "awk -F, 'BEGIN { OFS = \",\" } NR == 1000 { $3 = \"\" } 1' "
		  "weather-samples/seattle_daily_2012_2015.csv > "
		  "/tmp/tarn-range.csv; $TARN topup --full "
		  "weather-samples/courtyard-pond.lua /tmp/tarn-range.csv "
		  "--map weather-samples/seattle-map.lua --first 2013-01-01 "
		  "--last 2013-12-31", 0,
		  "A usual year takes " },
		{ DE_BILT("$1 == \"2018-07-05\""), 0,
		  "The ranges hold 8 times in 10 for the place as described" },
		{ DE_BILT("$1 == \"2018-07-05\""), 0,
		  "* Lacks up to 1 day of 730" },
		{ DE_BILT("$1 < \"2018-07-05\""), 0,
		  "No second method can be run on this weather" },
		{ DE_BILT("$1 < \"2018-07-05\""), 0,
		  "Penman open water, wind function of 1956 (lacks 185 days" },
		{ DE_BILT("1") " | grep -c 'Evaporation .* 25 %'", 0, "2" },
	};

	expect_rows(rows, COUNT(rows));
	remove("/tmp/tarn-range.csv");
}

Test(topup, ranges_are_predictions)
{
	static const struct row rows[] = {
		{ "$TARN topup --full" POND SEATTLE, 0,
		  "Of the range of a year, the weather's years alone make" },
		{ "$TARN topup --full" POND SEATTLE, 0,
		  "for surroundings and station of which the description" },
		{ "$TARN topup --full" POND SEATTLE, 0,
		  "a bucket or pan in the pond, ten dry days" },
		/* a method whose error nobody knows has no range, and says so */
		{ "$TARN topup --full" POND SEATTLE "--method mass_transfer", 0,
		  "There is no range: method mass_transfer has no centre" },
		{ "$TARN topup --full" POND SEATTLE "--method mass_transfer --ranges "
		  "/tmp/tarn-ranges.csv; ls /tmp/tarn-ranges.csv", 2,
		  "there is no range to write: method mass_transfer has no" },
		/* the same figures as data */
		{ "$TARN topup --full" POND SEATTLE "--units metric --ranges "
		  "/tmp/tarn-ranges.csv | sed -n 's/^A year  *\\([0-9,]*\\) "
		  ".*/\\1/p' | head -1 | tr -d , > /tmp/tarn-ranges.txt; awk -F, "
		  "'/^year/ { printf \"%.0f\\n\", $5 * 1000 }' "
		  "/tmp/tarn-ranges.csv | cmp - /tmp/tarn-ranges.txt && echo "
		  "same; rm /tmp/tarn-ranges.*", 0, "same" },
	};

	expect_rows(rows, COUNT(rows));
}

Test(topup, writes_whole_or_not_at_all)
{
	static const struct row rows[] = {
		{ "d=$(mktemp -d); $TARN topup --full" POND SEATTLE
		  "--csv $d/out.csv > /dev/null && wc -l < $d/out.csv; ls $d; "
		  "rm -r $d", 0, "1462\nout.csv\n" },
		{ "d=$(mktemp -d); $TARN topup --full" POND SEATTLE
		  "--report $d/r.html > /dev/null; grep -c '<svg' $d/r.html; "
		  "grep -cE 'https?://' $d/r.html | sed 's/^/links /'; "
		  "rm -r $d", 0, "3\nlinks 3\n" },
		{ "$TARN topup --full" POND SEATTLE "--report /nowhere/r.html", 2,
		  "/nowhere/r.html: cannot write" },
		{ "d=$(mktemp -d); echo old > $d/out.csv; (ulimit -f 8; trap '' "
		  "XFSZ; $TARN topup --full" POND SEATTLE "--csv $d/out.csv); s=$?; "
		  "ls $d; cat $d/out.csv; rm -r $d; exit $s", 2,
		  "out.csv\nold\n" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Pipes that come in pieces or close early, signals, no standard output. */
Test(topup, pipes_and_signals)
{
	static const struct row rows[] = {
		{ "f=weather-samples/seattle_daily_2012_2015.csv; m='--map "
		  "weather-samples/seattle-map.lua'; for i in 1 2; do "
		  "{ head -c 1001; sleep 0.1; cat; } < $f | $TARN topup --full" POND
		  "/dev/stdin $m | grep -v stdin | md5sum; $TARN topup --full" POND
		  "$f $m | grep -v seattle_daily | md5sum; done | sort -u | "
		  "wc -l", 0, "1\n" },
		{ "$TARN topup --full" POND SEATTLE "--all-weeks | head -1", 0,
		  "Courtyard pond\n" },
		/* who reads no more: the end, and not a word (128 + SIGPIPE) */
		{ "d=$(mktemp -d); { sleep 0.2; $TARN topup --full" POND SEATTLE
		  "--all-weeks; echo status $? > $d/s; } 2> $d/e | true; "
		  "cat $d/s; wc -c < $d/e; rm -r $d", 0, "status 141\n0\n" },
		{ "{ trap '' PIPE; sleep 0.2; $TARN topup --full" POND SEATTLE
		  "--all-weeks; } | true", 0, "output could not be written" },
		{ "$TARN topup --full" POND SEATTLE ">&-", 1,
		  "output could not be written" },
		{ "d=$(mktemp -d); echo old > $d/out.csv; for t in 0.01 0.02 "
		  "0.05 0.1 0.2; do timeout -s INT $t $TARN topup --full" POND SEATTLE
		  "--csv $d/out.csv > /dev/null; n=$(wc -l < $d/out.csv); "
		  "[ $n = 1 ] || [ $n = 1462 ] || echo torn $n; done; ls $d; "
		  "rm -r $d", 0, "out.csv\n" },
		{ "d=$(mktemp -d); mkdir $d/is-a-folder; $TARN topup --full" POND
		  SEATTLE "--csv $d/is-a-folder; s=$?; rm -r $d; exit $s", 2,
		  "cannot write: Is a directory" },
		{ "$TARN topup --full" POND SEATTLE "--csv /dev/full", 2,
		  "/dev/full: cannot write: No space left" },
		{ "$TARN topup --full /dev/zero" SEATTLE, 2, "larger than 1 MB" },
		/* a file that opens and then cannot be read */
		{ "$TARN topup --full /proc/self/mem" SEATTLE, 2, "/proc/self/mem: "
		  "Input/output error" },
		{ "$TARN topup --full" POND "/proc/self/mem", 2, "Input/output error" },
		{ "$TARN leak --full" POND SEATTLE "/proc/self/mem", 2,
		  "Input/output error" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Broken and hostile ponds: the first line says what must be told, in bounded
 * time and memory. */
Test(topup, refuses_bad_ponds)
{
	static char out[OUT_MAX];
	glob_t files;

	const char *limits = getenv("TARN_SANITIZED") ? "ulimit -t 60"
		: "ulimit -t 10 && ulimit -v 200000";

	cr_assert(glob("tests/bad/ponds/*.lua", 0, NULL, &files) == 0);
	cr_expect(files.gl_pathc >= 72, "%zu files", files.gl_pathc);
	for (size_t i = 0; i < files.gl_pathc; i++) {
		char command[500], first[300] = "";
		const char *want = first + strlen("-- expect: ");
		FILE *f = fopen(files.gl_pathv[i], "r");

		cr_assert(fgets(first, sizeof first, f) != NULL);
		fclose(f);
		cr_assert(strncmp(first, "-- expect: ", 11) == 0, "%s",
			  files.gl_pathv[i]);
		first[strcspn(first, "\n")] = '\0';
		snprintf(command, sizeof command,
			 "%s && $TARN topup --full %s" SEATTLE, limits,
			 files.gl_pathv[i]);
		cr_expect(run(command, out) == 2, "%s said: %.300s",
			  files.gl_pathv[i], out);
		cr_expect(strstr(out, want) != NULL, "%s: '%s' is not in: "
			  "%.400s", files.gl_pathv[i], want, out);
		cr_expect(strstr(out, files.gl_pathv[i]) != NULL,
			  "%s is not named in: %.300s", files.gl_pathv[i],
			  out);
	}
	globfree(&files);
}

/* Lua's side of the module; each file asserts what it needs. */
Test(lua, scripts)
{
	static char out[OUT_MAX];
	glob_t files;

	cr_assert(glob("tests/lua/*.lua", 0, NULL, &files) == 0);
	for (size_t i = 0; i < files.gl_pathc; i++) {
		char command[300];

		snprintf(command, sizeof command, "$TARN %s",
			 files.gl_pathv[i]);
		cr_expect(run(command, out) == 0, "%s: %.600s",
			  files.gl_pathv[i], out);
	}
	globfree(&files);
}

/* The module as a plain Lua interpreter loads it. */
Test(lua, module_loads_by_itself)
{
	static const struct row rows[] = {
		{ "env -u LUA_CPATH_5_4 LUA_CPATH=$PWD/$(dirname $TARN)/?.so lua5.4 -e "
		  "'print(require(\"tarn\").air.pressure(1800))'", 0, "81.75" },
	};
	const char *sanitized = getenv("TARN_SANITIZED");

	if (!sanitized)
		expect_rows(rows, COUNT(rows));
}

/* What docs/ says of the fields is what the program checks; whether the schema
 * agrees with the program: tests/lua/schema.lua. */
Test(docs, pond_fields_are_current)
{
	static const struct row rows[] = {
		{ "$TARN docs/build/write-pond-fields.lua | diff - "
		  "docs/build/pond-fields.md && echo same", 0, "same" },
		{ "$TARN docs/build/write-pond-schema.lua | diff - "
		  "docs/build/pond.schema.json && echo same", 0, "same" },
	};

	expect_rows(rows, COUNT(rows));
}

/* JSON holds the same description; what it refuses names line and column. */
Test(convert, lua_and_json_are_one_pond)
{
	static const struct row rows[] = {
		{ "d=$(mktemp -d); $TARN convert" POND "--to $d/a.json && $TARN "
		  "convert $d/a.json --to $d/b.lua && $TARN convert $d/b.lua "
		  "--to $d/c.json && cmp $d/a.json $d/c.json && for p in $d/*; "
		  "do $TARN topup --full $p" SEATTLE "| md5sum; done | sort -u | wc -l;"
		  " rm -r $d", 0, "\n1\n" },
		{ "d=$(mktemp -d); $TARN convert weather-samples/courtyard-pond.lua"
		  " --to $d/a.json && sed -i '1a\"$schema\": \"pond.schema.json\","
		  " \"seepage\": {},' $d/a.json && $TARN convert $d/a.json --to "
		  "$d/b.lua && $TARN convert $d/b.lua --to $d/c.json && $TARN "
		  "convert $d/c.json --to $d/d.lua && cmp $d/b.lua $d/d.lua && "
		  "grep schema $d/c.json; s=$?; rm -r $d; exit $s", 0,
		  "\"$schema\": \"pond.schema.json\"" },
		{ "$TARN convert" POND "--to x.txt", 2, "--to must name" },
		{ "$TARN convert" POND, 2, "--to must name" },
		{ "d=$(mktemp -d); cp" POND "$d/a.lua; $TARN convert $d/a.lua "
		  "--to $d/a.lua; s=$?; rm -r $d; exit $s", 2,
		  "is an input of this run" },
	};

	expect_rows(rows, COUNT(rows));
}

Test(convert, refuses_bad_json)
{
	static const struct {
		const char *text, *part;
	} rows[] = {
		{ "", ": is empty: tarn new NAME.lua" },
		{ "[1]", ":1:1: a description is an object" },
		{ "{", ":1:2: expected a field's name" },
		{ "{\"a\" 1}", ":1:6: expected ':'" },
		{ "{\"a\":1,}", ":1:8: expected a field's name" },
		{ "{\n\"a\":1,\"a\":2}", ":2:7: this field was given before" },
		{ "{\"a\":null}", "null is no value" },
		{ "{\"a\":01}", "expected a value" },
		{ "{\"a\":NaN}", "expected a value" },
		{ "{\"a\":1.}", "digits after its point" },
		{ "{\"a\":1e}", "digits in its exponent" },
		{ "{\"a\":[1 2]}", "expected ',' or ']'" },
		{ "{\"a\":\"x", "a text has no end" },
		{ "{\"a\":\"\\\\q\"}", "unknown escape" },
		{ "{\"a\":\"\\\\ud800\"}", "half of a surrogate pair" },
		{ "{\"a\":1} x", "something stands after" },
		{ "{\"a\":[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]}",
		  "nested too deeply" },
		{ "{\"overflow_levl\":1}",
		  "unknown field 'overflow_levl': did you mean "
		  "'overflow_level'?" },
	};
	static char out[OUT_MAX];

	for (size_t i = 0; i < COUNT(rows); i++) {
		char command[400];

		snprintf(command, sizeof command, "d=$(mktemp -d); printf '%s' "
			 "> $d/p.json; $TARN topup --full $d/p.json x.csv; s=$?; "
			 "rm -r $d; exit $s", rows[i].text);
		cr_expect(run(command, out) == 2, "%s", rows[i].text);
		cr_expect(strstr(out, rows[i].part) != NULL, "%s: '%s' is not "
			  "in %.200s", rows[i].text, rows[i].part, out);
	}
}
