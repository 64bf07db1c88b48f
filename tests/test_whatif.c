/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <criterion/criterion.h>
#include <glob.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

/* The what-if script as its users meet it, in a folder of its own. */

static const char study[] =
	"return { inputs = { { field = 'bed.area', times = { 0.5, 2 } },"
	"{ field = 'rain', low = 0.8, high = 1.2 } }, samples = %d }\n";

#define WHATIF "$TARN whatif --full weather-samples/courtyard-pond.lua " \
	       "weather-samples/seattle_daily_2012_2015.csv %s " \
	       "--map weather-samples/seattle-map.lua "

static char folder[] = "/tmp/tarn-whatif-XXXXXX";

/* Runs shell commands; $DIR is the test's folder, $WHATIF the script with the
 * demo's pond and the study written there. */
static int run(const char *commands)
{
	char line[4000];
	const char *build = getenv("TARN_BUILD");
	int status;

	snprintf(line, sizeof line,
		 "TARN=%s/tarn; DIR=%s; whatif() { " WHATIF "\"$@\"; }; "
		 "{ %s; } > %s/out 2>&1",
		 build ? build : "build", folder, "$DIR/study.lua", commands,
		 folder);
	status = system(line);
	return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static const char *said(void)
{
	static char text[200000];
	char path[100];
	FILE *f;

	snprintf(path, sizeof path, "%s/out", folder);
	f = fopen(path, "r");
	cr_assert(f != NULL);
	text[fread(text, 1, sizeof text - 1, f)] = '\0';
	fclose(f);
	return text;
}

static void begin(int samples)
{
	char path[100];
	FILE *f;

	cr_assert(mkdtemp(folder) != NULL);
	snprintf(path, sizeof path, "%s/study.lua", folder);
	f = fopen(path, "w");
	cr_assert(f != NULL);
	fprintf(f, study, samples);
	fclose(f);
}

static void end(void)
{
	char line[100];

	snprintf(line, sizeof line, "rm -rf %s", folder);
	cr_assert(system(line) == 0);
}

static void expect(const char *commands, int status, const char *part)
{
	int got = run(commands);

	cr_expect(got == status, "%s: exit status %d, want %d: %.500s",
		  commands, got, status, said());
	cr_expect(strstr(said(), part) != NULL, "%s: '%s' is not in: %.500s",
		  commands, part, said());
}

Test(whatif, answers_all_questions_of_the_sample)
{
	static const char *const parts[] = {
		"2 C warmer", "no hose in July", "Which input matters",
		"Sobol' indices", "2000 of 2000 rows", "Rain tank",
		"Water budget for review", "What this rests on",
		"years of weather are few",
		/* Seattle's file has no sun and no humidity */
		"misstate the change",
	};

	begin(10);
	cr_expect(run("cp weather-samples/courtyard-study.lua $DIR/study.lua; "
		      "whatif --report $DIR/r.html --csv $DIR/r.csv && "
		      "test $(wc -l < $DIR/r.csv) = 2001 && "
		      "grep -q '<svg' $DIR/r.html") == 0, "%s", said());
	for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
		cr_expect(strstr(said(), parts[i]) != NULL,
			  "'%s' is not in what it says", parts[i]);
	end();
}

/* Names of the version before: the same figures, and a note at the end. */
Test(whatif, names_of_before_give_the_same_and_a_note)
{
	begin(10);
	expect("sed 's/overflow_level = lip/lip = lip/' "
	       "weather-samples/courtyard-pond.lua > $DIR/old.lua; "
	       "echo 'return { scenarios = { { name = \"low\", pond = { "
	       "overflow_level = 0.98 } } }, inputs = { { field = "
	       "\"overflow_level\", low = 0.98, high = 1 } } }' "
	       "> $DIR/study.lua; whatif > $DIR/now; "
	       "sed -i s/overflow_level/lip/ $DIR/study.lua; whatif > $DIR/a; "
	       "sed '/^Names of the version before/,$d' $DIR/a | "
	       "sed 's/lip 0/overflow_level 0/' | head -20 > $DIR/b; "
	       "head -20 $DIR/now | cmp - $DIR/b && cat $DIR/a", 0,
	       "lip is called overflow_level now");
	expect("W='weather-samples/seattle_daily_2012_2015.csv --map "
	       "weather-samples/seattle-map.lua'; "
	       "$TARN topup weather-samples/courtyard-pond.lua $W > $DIR/now; "
	       "$TARN topup $DIR/old.lua $W > $DIR/a; "
	       "head -n $(wc -l < $DIR/now) $DIR/a | cmp - $DIR/now && "
	       "tail -5 $DIR/a", 0,
	       "lip is called overflow_level now. The next");
	expect("$TARN convert $DIR/old.lua --to $DIR/new.json; "
	       "grep -c '\"lip\"' $DIR/new.json", 1,
	       "lip is called overflow_level now");
	end();
}

Test(whatif, parts_merge_and_strangers_are_refused)
{
	begin(500);
	expect("whatif --record $DIR/whole > /dev/null && "
	       "for k in 1 2 3; do "
	       "whatif --part $k/3 --record $DIR/p$k --threads 1; done && "
	       "$TARN merge $DIR/merged $DIR/p3 $DIR/p1 $DIR/p2 && "
	       "cmp $DIR/whole $DIR/merged && echo same bytes", 0,
	       "same bytes");
	expect("$TARN merge $DIR/m $DIR/p1 $DIR/p3", 2, "is missing");
	expect("$TARN merge $DIR/m $DIR/p1 $DIR/p2 $DIR/p2 $DIR/p3", 2,
	       "doubled");
	expect("whatif --first 2013-01-01 --part 2/3 --record $DIR/other; "
	       "$TARN merge $DIR/m $DIR/p1 $DIR/other $DIR/p3", 2,
	       "other) is of another study");
	expect("whatif --first 2013-01-01 --record $DIR/whole", 2,
	       "another study");
	expect("$TARN merge $DIR/m $DIR/nothing", 2, "cannot read");
	expect("head -c 500 $DIR/p2 > $DIR/cut; $TARN merge $DIR/m $DIR/p1 "
	       "$DIR/cut $DIR/p3", 2, "cut) is cut short or damaged");
	expect("whatif --record $DIR/cut", 2, "/cut: is cut short or damaged");
	end();
}

/* Killed while it runs, and gone on with; if it is over sooner, no harm. */
Test(whatif, a_killed_run_goes_on_to_the_same_bytes)
{
	begin(60000);
	expect("whatif --record $DIR/want > /dev/null; "
	       "for s in KILL INT; do rm -f $DIR/got; "
	       "timeout -s $s 0.4 $TARN whatif --full weather-samples/courtyard-pond.lua "
	       "weather-samples/seattle_daily_2012_2015.csv $DIR/study.lua "
	       "--map weather-samples/seattle-map.lua --threads 1 "
	       "--record $DIR/got; "
	       "whatif --record $DIR/got > /dev/null && "
	       "cmp $DIR/want $DIR/got && echo same bytes after $s; done", 0,
	       "same bytes after INT");
	cr_expect(strstr(said(), "same bytes after KILL") != NULL);
	end();
}

/* A record that cannot be written stops the run, and an interrupted study
 * leaves no report. */
Test(whatif, nothing_half_written)
{
	begin(3);
	expect("whatif --record /nowhere/r", 2, "/nowhere/r: cannot write");
	end();
	strcpy(strrchr(folder, '-') + 1, "XXXXXX");
	begin(1000000);
	expect("timeout -s INT 1 $TARN whatif --full weather-samples/courtyard-pond.lua "
	       "weather-samples/seattle_daily_2012_2015.csv $DIR/study.lua "
	       "--map weather-samples/seattle-map.lua --threads 1 --csv $DIR/c "
	       "--report $DIR/h; echo status $?; ls $DIR", 0,
	       "status 124\nout\nstudy.lua\n");
	end();
}

/* Ctrl-C at a moment that is known: a control sends it to its own program.  In
 * the samples (rows of 1461 days), and in the scenarios after them. */
/* Without --map the list of files that are read has a hole. */
Test(whatif, a_second_run_replaces_its_outputs)
{
	begin(8);
	expect("for i in 1 2; do $TARN whatif --full weather-samples/courtyard-pond.lua "
	       "weather-samples/csls_hancock_daily.csv $DIR/study.lua "
	       "--latitude 44 --csv $DIR/x.csv || exit; done", 0, "x.csv");
	end();
}

Test(whatif, ctrl_c_has_one_status_and_message_at_any_moment)
{
#define SIGNAL_ON_DAY(n) "printf 'local n = 0; return function() n = n + 1 " \
	"if n == " n " then io.popen(\"kill -INT $PPID\"):close() end end' " \
	"> $DIR/control.lua; whatif --trust --control $DIR/control.lua "

	signal(SIGHUP, SIG_DFL);	/* though the tests run under nohup */
	begin(3);
	expect(SIGNAL_ON_DAY("2000"), 2, "tarn: stopped by Ctrl-C after 2 of 3 "
	       "rows; nothing is kept without --record FILE");
	expect(SIGNAL_ON_DAY("2000") "--record $DIR/r", 2, "tarn: stopped by "
	       "Ctrl-C after 2 of 3 rows; the same command goes on from");
	/* a polite end keeps the rows as well, and so does a lost terminal */
	expect("rm $DIR/r; sed -i s/INT/TERM/ $DIR/control.lua; whatif --trust "
	       "--control $DIR/control.lua --record $DIR/r", 2,
	       "tarn: stopped by SIGTERM "
	       "after 2 of 3 rows; the same command goes on from");
	expect("rm $DIR/r; sed -i s/TERM/HUP/ $DIR/control.lua; whatif --trust "
	       "--control $DIR/control.lua --record $DIR/r", 2,
	       "tarn: stopped by SIGHUP "
	       "after 2 of 3 rows; the same command goes on from");
	expect("rm $DIR/r; touch $DIR/go; sed -i \"s#n == 2000#& and "
	       "io.open('$DIR/go')#\" $DIR/control.lua; whatif --trust --control "
	       "$DIR/control.lua --record $DIR/r", 2, "after 2 of 3 rows");
	expect("rm $DIR/go; whatif --trust --control $DIR/control.lua --record "
	       "$DIR/r | grep 'ns a day'", 0, "ns a day");
	expect(SIGNAL_ON_DAY("5000"), 2, "tarn: stopped by Ctrl-C after 3 of 3 "
	       "rows; nothing is kept");
	expect("echo 'return {}' > $DIR/study.lua;" SIGNAL_ON_DAY("9"), 2,
	       "tarn: stopped by Ctrl-C\n");
	/* what comes between two runs is noted too */
	expect("echo 'tarn.study.interrupted() "
	       "io.popen(\"kill -INT $PPID\"):close() "
	       "print(\"alive\", tarn.study.interrupted())' > $DIR/own.lua; "
	       "$TARN $DIR/own.lua", 0, "alive\ttrue");
	end();
}

Test(whatif, a_control_without_end_hears_ctrl_c)
{
	begin(3);
	expect("echo 'local first = true; return function() "
	       "if first then io.popen(\"kill -INT $PPID\"):close() end "
	       "first = false while true do pcall(function() while true do end "
	       "end) end end' > $DIR/control.lua; "
	       "timeout 200 $TARN whatif --full weather-samples/courtyard-pond.lua "
	       "weather-samples/seattle_daily_2012_2015.csv $DIR/study.lua "
	       "--map weather-samples/seattle-map.lua --trust "
	       "--control $DIR/control.lua", 2,
	       "stopped by Ctrl-C after 0 of 3 rows");
	expect("echo 'io.popen(\"kill -INT $PPID\"):close() while true do end' "
	       "> $DIR/control.lua; timeout 200 $TARN whatif --full "
	       "weather-samples/courtyard-pond.lua w $DIR/study.lua "
	       "--trust --control $DIR/control.lua", 2,
	       "tarn: stopped by Ctrl-C");
	end();
}

Test(whatif, mistakes_in_a_control_are_told_with_their_line)
{
	static const char *const controls[][2] = {
		{ "day.Topup = 5",
		  "control.lua:1: unknown field 'day.Topup': did "
		  "you mean 'topup'?" },
		{ "day.nonsense = 5",
		  "control.lua:1: unknown field 'day.nonsense'\n" },
		{ "if day.mnth == 7 then day.topup = 0 end",
		  "control.lua:1: unknown field 'day.mnth': did you mean "
		  "'month'?" },
		{ "day.supply_open = 0", "supply_open must be true or false" },
		{ "day.pump_hours = 25", "day.pump_hours [h] must be 0 to 24" },
		{ "return day.level + nil", "control.lua:1: attempt to perform "
					    "arithmetic on a nil value" },
		{ "error {}", "(global 'error') (--control runs in a box that "
			      "holds the day, the units and math; --trust" },
	};

	begin(3);
	for (size_t i = 0; i < sizeof controls / sizeof controls[0]; i++) {
		char command[400];

		snprintf(command, sizeof command, "echo 'return function(day) "
			 "%s end' > $DIR/control.lua; whatif --control "
			 "$DIR/control.lua 2>&1 | tee $DIR/told; "
			 "test $(wc -l < $DIR/told) = 1 || exit 9; whatif "
			 "--control $DIR/control.lua", controls[i][0]);
		expect(command, 2, controls[i][1]);
	}
	end();
}

Test(whatif, a_control_of_ones_own)
{
	begin(3);
	expect("echo 'return function(day) day.supply_open = day.month ~= 7 "
	       "end' > $DIR/control.lua; whatif --control $DIR/control.lua", 3,
	       "ns a day");	/* with the hose shut it ends under the intake */
	expect("echo 'return 1' > $DIR/control.lua; whatif "
	       "--control $DIR/control.lua", 2, "must return function(day)");
	expect("whatif --trust --control $DIR/control.lua", 2,
	       "must return function(day)");
	expect("whatif --trust", 2, "--trust goes with --control FILE");
	expect("whatif --rule $DIR/control.lua", 2,
	       "tarn: option --rule is now --control");
	/* the same bytes in the box and outside it */
	expect("echo 'local n = 0 return function(day) n = n + 1 day.topup = "
	       "math.max(0, math.fmod(n, 3) / 1000) day.pump_hours = 12 end' > "
	       "$DIR/control.lua; whatif --control $DIR/control.lua "
	       "--csv $DIR/a > $DIR/1; whatif --trust "
	       "--control $DIR/control.lua --csv $DIR/b > "
	       "$DIR/2; cmp $DIR/a $DIR/b && echo same", 0, "same");
	expect("echo 'return function() error {} end' > $DIR/control.lua; "
	       "whatif --trust --control $DIR/control.lua", 2,
	       "each_day raised a table");
	end();
}

/* A record made with one control is no record of a study with another. */
Test(whatif, an_edited_control_is_another_study)
{
	static const char *const trust[] = { "", "--trust " };

	begin(4);
	for (int i = 0; i < 2; i++) {
		char command[800];

		snprintf(command, sizeof command, "rm -f $DIR/r $DIR/p*; echo "
			 "'return function(day) end' > $DIR/control.lua; whatif "
			 "%s--control $DIR/control.lua --record $DIR/r > /dev/null "
			 "&& whatif %s--control $DIR/control.lua --record $DIR/r",
			 trust[i], trust[i]);
		expect(command, 0, "4 of 4 rows");
		expect("whatif --record $DIR/r", 2, "another study");
		snprintf(command, sizeof command, "whatif %s--part 1/2 --control "
			 "$DIR/control.lua --record $DIR/p1; echo 'return "
			 "function(day) day.topup = 0 end' > $DIR/control.lua; "
			 "whatif %s--part 2/2 --control $DIR/control.lua --record "
			 "$DIR/p2; whatif %s--control $DIR/control.lua --record "
			 "$DIR/r", trust[i], trust[i], trust[i]);
		expect(command, 2, "another study");
		expect("$TARN merge $DIR/m $DIR/p1 $DIR/p2", 2,
		       "is of another study");
	}
	end();
}

/* A control from somebody else reaches nothing, and ends. */
Test(whatif, hostile_controls)
{
	static const char *const bodies[][2] = {
		{ "os.execute(\"touch reached-by-control\")", "(global 'os')" },
		{ "io.open(\"reached-by-control\", \"w\")", "(global 'io')" },
		{ "require \"os\"", "(global 'require')" },
		{ "load \"x\"", "(global 'load')" },
		{ "tarn.write_file(\"reached-by-control\", \"x\")",
		  "(global 'tarn')" },
		{ "pcall(print)", "(global 'pcall')" },
		{ "math.random()", "nil value (field 'random')" },
		{ "(\"x\"):rep(1e9)", "attempt to index a string value" },
		{ "while true do end", "runs too long for a control of a day" },
		{ "local t = {} for i = 1, 1e7 do t[i] = i end",
		  "not a control of a day" },
		{ "local s = \"x\" for i = 1, 40 do s = s .. s end",
		  "not a control of a day" },
		{ "local function f() return f() + 1 end f()", "control" },
	};
	const char *limits = getenv("TARN_SANITIZED") ? "ulimit -t 60"
		: "ulimit -t 20 && ulimit -v 400000";

	begin(3);
	for (size_t i = 0; i < sizeof bodies / sizeof bodies[0]; i++) {
		char command[500];

		snprintf(command, sizeof command, "%s && echo 'return function"
			 "(day) %s end' > $DIR/control.lua; whatif --control "
			 "$DIR/control.lua", limits, bodies[i][0]);
		expect(command, 2, bodies[i][1]);
		snprintf(command, sizeof command, "%s && echo '%s' > "
			 "$DIR/control.lua; whatif --control $DIR/control.lua",
			 limits, bodies[i][0]);
		expect(command, 2, "control");
	}
	expect("ls reached-by-control", 2, "No such file");
	end();
}

/* What a study file or a map may try is stopped as in a pond's file: the first
 * line of each says what must be told. */
Test(whatif, hostile_studies_and_maps)
{
	static const char *const tricks[] = {
		"reaches-*", "*-bomb", "*-forever", "*loop*", "*-a-text",
		"key-a-*", "self", "brackets", "signs",
	};
	glob_t files;
	const char *limits = getenv("TARN_SANITIZED") ? "ulimit -t 60"
		: "ulimit -t 10 && ulimit -v 200000";

	begin(3);
	for (size_t i = 0; i < sizeof tricks / sizeof tricks[0]; i++) {
		char pattern[60];

		snprintf(pattern, sizeof pattern, "tests/bad/ponds/%s.lua",
			 tricks[i]);
		cr_assert(glob(pattern, i ? GLOB_APPEND : 0, NULL, &files) == 0,
			  "%s", pattern);
	}
	for (size_t i = 0; i < files.gl_pathc; i++) {
		const char *path = files.gl_pathv[i];
		char first[300] = "", command[700];
		FILE *f = fopen(path, "r");

		cr_assert(f && fgets(first, sizeof first, f));
		fclose(f);
		first[strcspn(first, "\n")] = '\0';
		snprintf(command, sizeof command, "%s && cp %s $DIR/study.lua; "
			 "whatif", limits, path);
		expect(command, 2, first + strlen("-- expect: "));
		snprintf(command, sizeof command, "%s; whatif --map %s",
			 limits, path);
		expect(command, 2, first + strlen("-- expect: "));
	}
	globfree(&files);
	expect("printf '\033Lua' > $DIR/study.lua; whatif", 2,
	       "attempt to load a binary chunk");
	expect("echo 'return { samples = 1e7, inputs = {' > $DIR/study.lua; "
	       "for i in $(seq 60); do echo \"{ field = 'x$i', low = 1, high "
	       "= 2 },\" >> $DIR/study.lua; done; echo '} }' >> $DIR/study.lua; "
	       "ulimit -t 10; whatif", 2, "more than 100 million numbers");
	end();
}

Test(whatif, refusals)
{
	begin(3);
	expect("whatif --part 4/3", 2, "--part must be like 2/8");
	expect("whatif --part 1/2", 2, "--part needs --record FILE");
	expect("whatif --part 4/4 --record $DIR/r", 2,
	       "--part 4/4: there are 3 samples");
	expect("echo 'return { senarios = {} }' > $DIR/study.lua; whatif", 2,
	       "did you mean 'scenarios'?");
	expect("echo 'return { inputs = { { field = \"bed.area\" } } }' > "
	       "$DIR/study.lua; whatif", 2, "needs a field, and low and high");
	expect("echo 'return { samples = 3 }' > $DIR/study.lua; whatif", 2,
	       "samples needs inputs");
	/* what is of another type than asked is told by name */
	expect("printf 'return { name = \"a\\377\" }' > $DIR/study.lua; "
	       "whatif", 2, "name must be a text");
	expect("echo 'return { scenarios = 3 }' > $DIR/study.lua; whatif", 2,
	       "scenarios must be a list");
	expect("echo 'return { scenarios = { { weather = 1 } } }' > "
	       "$DIR/study.lua; whatif", 2,
	       "scenarios, entry 1: weather must be a table");
	expect("echo 'return { inputs = { { field = \"rain\", low = \"1\", "
	       "high = 2 } } }' > $DIR/study.lua; whatif", 2,
	       "low must be a number");
	expect("echo 'return { tank = { capacities = { 1, \"2\" } } }' > "
	       "$DIR/study.lua; whatif", 2, "entry 2 must be a number");
	expect("echo 'return { inputs = { x = 1 } }' > $DIR/study.lua; whatif",
	       2, "inputs must be a list, each entry in braces of its own; 'x' "
	       "stands between them");
	expect("echo 'return { budget = { adjustment = 0.5 } }' > "
	       "$DIR/study.lua; whatif", 2, "budget.unit is missing");
	expect("echo 'return { samples = 3, inputs = { { field = \"rain\", "
	       "low = 1, high = 2 } } }' > $DIR/study.lua; whatif --record "
	       "/dev/full", 2, "/dev/full: is not a record of a study");
	expect("echo 'return { scenarios = { { name = \"high\", "
	       "pond = { overflow_level = "
	       "9 } } } }' > $DIR/study.lua; whatif", 2, "scenario 'high'");
	end();
}

/* Only a sample can be left out: an end of an input, a size of the tank or a
 * row of 'sensitivity' that is no pond is refused, before the samples run. */
Test(whatif, only_samples_are_skipped)
{
#define TRIGGER "{ field = \"trigger\", low = 0.85, high = 0.96 }"
#define TARGET "{ field = \"target\", low = 0.94, high = 1 }"
#define BOTH "inputs = { " TRIGGER ", " TARGET " }"
	static const char *const studies[][2] = {
		{ "samples = 20, inputs = { { field = \"bed.area\", low = -1, "
		  "high = 4 } }", "tarn: inputs, entry 1: its low end: "
		  "bed.area must be 0 to 100000 m2, got -1" },
		{ "samples = 20, inputs = { { field = \"rain\", low = 1, high "
		  "= 2 }, { field = \"bed.area\", low = 1, high = 1e6 } }",
		  "tarn: inputs, entry 2: its high end: bed.area must be" },
		{ "tank = { roof = 9, capacities = { 1, -1 } }",
		  "tarn: tank: capacities, entry 2: tank.capacity must be" },
		{ "samples = 20, sensitivity = 16, " BOTH,
		  "tarn: sensitivity: some inputs do not go together: target" },
	};

	begin(2);
	for (size_t i = 0; i < sizeof studies / sizeof studies[0]; i++) {
		char command[400];

		snprintf(command, sizeof command, "echo 'return { %s }' > "
			 "$DIR/study.lua; whatif --skip-bad --record $DIR/no",
			 studies[i][0]);
		expect(command, 2, studies[i][1]);
	}
	expect("test ! -e $DIR/no", 0, "");
	expect("echo 'return { samples = 40, " BOTH " }' > $DIR/study.lua; "
	       "whatif --skip-bad", 0, "of them no pond that could stand");
	expect("whatif", 2, "tarn: target (variant");
	end();
}

/* What a study file asks for and cannot have, before anything runs. */
Test(whatif, a_study_file_is_checked_by_its_own_names)
{
#define RAIN "inputs = { { field = \"rain\", low = 0.8, high = 1.2 } }, "
#define RAIN_AS(how) "inputs = { { field = \"rain\", " how " } }"
	static const char *const studies[][2] = {
		{ "budget = {}", "budget.unit is missing" },
		{ "budget = { unit = 0 }", "budget.adjustment is missing" },
		{ "budget = { unit = -1, adjustment = 0.5, plant_factor = 1 }",
		  "budget.unit must be 0 to" },
		{ RAIN "samples = 3, seed = \"a\"",
		  "seed must be a whole number from 0" },
		{ RAIN "samples = 3, seed = -3.7", "from 0, got -3.7" },
		{ RAIN "samples = 3, sampling = \"sobl\"",
		  "sampling must be latin or sobol, got 'sobl': did you mean "
		  "'sobol'?" },
		{ "scenarios = { name = \"x\" }",
		  "'name' stands between them" },
		{ "inputs = \"x\"",
		  "inputs must be a list, each entry in braces of its own" },
		{ RAIN_AS("low = 1, high = 2, times = { 1, 2 }"),
		  "entry 1 (rain): has times, and low or high too" },
		{ RAIN_AS("low = 2, high = 1"), "goes from 2 to 1" },
		{ RAIN_AS("times = { 1, 1 }"), "goes from 1 to 1" },
		{ RAIN_AS("times = { 1, 2, 3 }"), "needs a field, and low" },
		{ RAIN_AS("low = 1, high = 2 }, { field = \"rain\", low = 1, "
			  "high = 3"), "entry 2 (rain): is entry 1 too" },
		{ RAIN "samples = 2.5", "samples must be a whole number" },
		{ RAIN "samples = -1", "samples must be a whole number" },
		{ RAIN "samples = 1e9", "samples must be 1 to 1e+07" },
		{ RAIN "sensitivity = 1e9", "sensitivity must be 1 to 1e+06" },
		{ "sensitivity = 16", "sensitivity needs inputs" },
		{ "tank = { roof = 10, capacities = {} }",
		  "tank.capacities: needs one or more" },
		{ "scenarios = { { topup = false }, "
		  "{ pond = { overflow_level = 99 } } }",
		  "tarn: scenario 2: overflow_level" },
	};

	begin(3);
	for (size_t i = 0; i < sizeof studies / sizeof studies[0]; i++) {
		char command[400];

		snprintf(command, sizeof command, "echo 'return { %s }' > "
			 "$DIR/study.lua; whatif", studies[i][0]);
		expect(command, 2, studies[i][1]);
	}
	expect("echo 'return { scenarios = { { topup = false } }, inputs = { { "
	       "field = \"tank.roof\", name = \"roof\", times = { 1, 2 } } } }' "
	       "> $DIR/study.lua; whatif | tee $DIR/o; grep '^scenario 1 ' "
	       "$DIR/o", 0, "These change nothing: roof.");
	end();
}

/* The hose shut all year but January: it made a tank of 25 gal enough. */
Test(whatif, a_ban_and_the_rain_tank)
{
	begin(3);
	expect("sed 's/supply = { rate = 4 . gpm }/supply = { months = { 1 } "
	       "}/' weather-samples/courtyard-pond.lua > $DIR/ban.lua && grep "
	       "-q 'months = { 1 }' $DIR/ban.lua && echo 'return { tank = { "
	       "roof = 400 * ft2, capacities = { 25 * gal, 400 * gal }, target "
	       "= 0.9 } }' > $DIR/study.lua && $TARN whatif --full $DIR/ban.lua "
	       "weather-samples/seattle_daily_2012_2015.csv $DIR/study.lua "
	       "--map weather-samples/seattle-map.lua", 3,
	       "None of these tanks meets 90 %: the list ends too early. A "
	       "tank of about ");
	cr_expect(strstr(said(), "refused  under intake") != NULL);
	expect("sed -i 's/400 . ft2/40 * ft2/' $DIR/study.lua; $TARN whatif --full "
	       "$DIR/ban.lua weather-samples/seattle_daily_2012_2015.csv "
	       "$DIR/study.lua --map weather-samples/seattle-map.lua "
	       "| tr '\n' ' '", 0, "The roof or the rain is the limit.");
	expect("echo 'return { tank = { roof = 9, capacities = { 2, 1 } } }' > "
	       "$DIR/study.lua; whatif", 2, "capacities, entry 2: 1 m3 after "
	       "2 m3; they must rise");
	expect("echo 'return { tank = { roof = 9, capacities = { 2 }, target = "
	       "90 } }' > $DIR/study.lua; whatif", 2, "got 90: 90 % is 0.9");
	end();
}

/* A year of the study is a year of the top-up report. */
Test(whatif, a_year_is_that_of_topup)
{
	begin(3);
	expect("echo 'return { budget = { unit = 0.62, adjustment = 0.55, "
	       "plant_factor = 1 } }' > $DIR/study.lua; $TARN whatif --full weather-samples/courtyard-pond.lua "
	       "weather-samples/seattle_daily_2012_2015.csv $DIR/study.lua "
	       "--map weather-samples/seattle-map.lua | tr '\n' ' '", 0,
	       "2,002 US gal of top-up in a mean year; the greatest month is "
	       "Jul with 585 US gal.");
	expect("grep -v '^  trigger =\\|^  target =' "
	       "weather-samples/courtyard-pond.lua > $DIR/none.lua; $TARN "
	       "whatif $DIR/none.lua weather-samples/seattle_daily_2012_2015.csv "
	       "$DIR/study.lua --map weather-samples/seattle-map.lua | "
	       "tr '\n' ' '", 0, "0 US gal of top-up in a mean year.");
	end();
}

/* The range of a year is that of the top-up report; a method without one says
 * so. */
Test(whatif, has_the_range_of_topup)
{
	begin(0);
	cr_expect(run("flat() { tr -s '\\n ' ' ' < $DIR/$1; }; "
		      "sed 's/, samples = 0//' $DIR/study.lua > $DIR/s.lua; "
		      "mv $DIR/s.lua $DIR/study.lua; "
		      "whatif > $DIR/w; $TARN topup weather-samples/"
		      "courtyard-pond.lua weather-samples/"
		      "seattle_daily_2012_2015.csv --map weather-samples/"
		      "seattle-map.lua > $DIR/t; "
		      "a=$(flat w | grep -o 'a year takes [^.]* 8 times' | "
		      "sed 's/a year takes //; s/ 8 times//'); "
		      "flat t | grep -F \"8 times in 10 it is $a\" "
		      "> $DIR/both; test -n \"$a\" -a -s $DIR/both") == 0,
		  "%s", said());
	run("whatif --method mass_transfer");
	cr_expect(strstr(said(), "There is no range: ") != NULL, "%s", said());
	end();
}
