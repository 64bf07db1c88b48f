/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <criterion/criterion.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

/*
 * `tarn bed` as a designer meets it.  Commands run in the project's folder;
 * TARN stands for the runner that was built.
 */
#define OUT_MAX 100000
#define POND " weather-samples/courtyard-pond.lua "

static int run(const char *command, char *out)
{
	char line[1500];
	const char *build = getenv("TARN_BUILD");
	FILE *p;
	size_t n;
	int status;

	snprintf(line, sizeof line, "TARN=%s/tarn; { %s; } 2>&1",
		 build ? build : "build", command);
	p = popen(line, "r");
	cr_assert(p != NULL);
	n = fread(out, 1, OUT_MAX - 1, p);
	out[n] = '\0';
	status = pclose(p);
	return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* One command, its exit status, and what its output must hold. */
struct row {
	const char *command;
	int status;
	const char *part;
};

static void expect_rows(const struct row *rows, size_t count)
{
	static char out[OUT_MAX];

	for (size_t i = 0; i < count; i++) {
		int status = run(rows[i].command, out);

		cr_expect(status == rows[i].status,
			  "%s: exit status %d, want %d; it said: %.300s",
			  rows[i].command, status, rows[i].status, out);
		cr_expect(strstr(out, rows[i].part) != NULL,
			  "%s: '%s' is not in: %.400s", rows[i].command,
			  rows[i].part, out);
	}
}

#define COUNT(rows) (sizeof rows / sizeof rows[0])

Test(bed_script, command_line)
{
	static const struct row rows[] = {
		{ "$TARN bed --help", 0, "--drawing FILE" },
		{ "$TARN bed --full", 2, "POND.lua is missing" },
		{ "$TARN bed --full" POND "more", 2, "unexpected argument" },
		{ "$TARN bed --full" POND "--unit us", 2, "did you mean --units?" },
		{ "$TARN bed --full nowhere.lua", 2, "nowhere.lua" },
		{ "$TARN bed --full" POND "> /dev/full", 1,
		  "output could not be written" },
	};

	expect_rows(rows, COUNT(rows));
}

/* The page answers first, and says what its numbers are worth. */
Test(bed_script, page)
{
	static const struct row rows[] = {
		{ "$TARN bed --full" POND "| head -16", 0, "What governs: share of" },
		{ "$TARN bed --full" POND "| head -16", 0, "a guess, no promise" },
		{ "$TARN bed --full" POND "| head -16", 0,
		  "15 % of the pond's" },
		{ "$TARN bed --full" POND "--units metric | head -16", 0,
		  "81.5 m/d" },
		{ "$TARN bed --full" POND, 4, "272 x over" },	/* sewage beds */
		{ "$TARN bed --full" POND, 4, "Common practice," },
		{ "$TARN bed --full" POND, 4, "10 to 100 % of the surface" },
		{ "$TARN bed --full" POND, 4, "10 to 30 % of the volume" },
		{ "$TARN bed --full" POND, 4, "water stands on the gravel; ! more BOD" },
		{ "$TARN bed --full tests/good/unsized-bed.lua", 4,
		  "Why not: W water stands" },
		{ "$TARN bed --full" POND, 4, "Percentile" },
		{ "$TARN bed --full" POND, 4, "counts this bed" },
		{ "$TARN bed --full" POND "| awk 'length > 79' | wc -l", 0, "0" },
		{ "$TARN bed --full" POND "--units metric | awk 'length > 79' | "
		  "wc -l", 0, "0" },
		{ "$TARN bed --full" POND "> /tmp/tarn-bed-$$; $TARN bed --full" POND
		  "| cmp - /tmp/tarn-bed-$$ && echo same; s=$?; "
		  "rm /tmp/tarn-bed-$$; exit $s", 0, "same" },
		{ "$TARN bed --full tests/good/horizontal-bed.lua", 4,
		  "BOD on the section" },
		{ "$TARN bed --full tests/good/crowded-bed.lua", 3, "It does not do" },
		/* the lip's head, worked out from the bed's fall; a check
		   that forbids governs, not a size */
		{ "$TARN bed --full tests/good/lip-bed.lua", 3,
		  "Water over the lip, clogged, in       9.5  stone over it "
		  "2.00     NO" },
		{ "$TARN bed --full tests/good/lip-bed.lua | tr -s '\n ' ' '", 0,
		  "is 1.69 in over the lip when clean and 9.55 in when "
		  "clogged (with the 0.82 in of head at the lip, worked" },
		{ "$TARN bed --full tests/good/lip-bed.lua", 3,
		  "No open trough up to 15.7 in wide" },
		{ "$TARN bed --full tests/good/lip-bed.lua | head -16", 0,
		  "That governs, not a size: the greatest size asked for is "
		  "13 ft2 (share" },
		{ "sed 's/falls = .*//' tests/good/lip-bed.lua > "
		  "/tmp/tarn-bed-$$.lua; $TARN bed --full /tmp/tarn-bed-$$.lua; s=$?; "
		  "rm /tmp/tarn-bed-$$.lua; exit $s", 0,
		  "The head over the lip is not described" },
		{ "f=$(mktemp --suffix .html); $TARN bed --full "
		  "tests/good/lip-bed.lua --report $f > /dev/null; cat $f | "
		  "grep -o 'ring is this bed, which[a-z ]*: water[a-z ]*'; "
		  "rm $f", 0, "does not do: water stands on the gravel" },
		/* what the network sends to the bed, not all that is pumped */
		{ "echo 'local w = tarn.pond(tarn.description "
		  "\"tests/good/curve-bed.lua\"):works() print((\"with %.0f L/h "
		  "\"):format(w.bed_flow * 3.6e6 // 1))' > /tmp/tarn-bed-$$.lua; "
		  "want=$($TARN /tmp/tarn-bed-$$.lua); rm /tmp/tarn-bed-$$.lua; "
		  "$TARN bed --full tests/good/curve-bed.lua --units metric | tr -d , "
		  "| grep -o \"$want\"", 0, "L/h" },
		{ "$TARN bed --full tests/good/crowded-bed.lua > /dev/full", 1,
		  "output could not be written" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Files are written whole, or not at all. */
Test(bed_script, files)
{
	static const struct row rows[] = {
		{ "d=$(mktemp -d); $TARN bed --full" POND "--csv $d/a.csv --drawing "
		  "$d/a.svg > /dev/null; wc -l < $d/a.csv; tail -1 $d/a.svg; "
		  "ls $d; rm -r $d", 0, "1001\n</svg>\na.csv\na.svg\n" },
		{ "$TARN bed --full" POND "--drawing /nowhere/a.svg", 2,
		  "/nowhere/a.svg: cannot write" },
		{ "$TARN bed --full" POND "--csv /nowhere/a.csv", 2,
		  "/nowhere/a.csv: cannot write" },
		{ "$TARN bed --full" POND "--drawing /dev/full", 2,
		  "/dev/full: cannot write: No space left" },
		/* the drawing fails: the grid before it is not left alone */
		{ "d=$(mktemp -d); $TARN bed --full" POND "--drawing $d/no/a.svg "
		  "--csv $d/a.csv; s=$?; ls $d | wc -l; rm -r $d; exit $s", 2,
		  "\n0\n" },
		{ "d=$(mktemp -d); echo old > $d/a.svg; (ulimit -f 8; trap '' "
		  "XFSZ; $TARN bed --full" POND "--drawing $d/a.svg); s=$?; ls $d; "
		  "cat $d/a.svg; rm -r $d; exit $s", 2, "a.svg\nold\n" },
		/* columns as many as heads, and every cell says yes or no */
		{ "d=$(mktemp -d); $TARN bed --full" POND "--csv $d/a.csv > /dev/null;"
		  " awk -F, 'NF != 24 || (NR > 1 && $23 != \"yes\" && $23 != "
		  "\"no\")' $d/a.csv | wc -l; rm -r $d", 0, "0" },
	};

	expect_rows(rows, COUNT(rows));
}

/*
 * The section that is printed for a bed without a size, put in place of the
 * description's own, is the bed that was sized; the ledger counts it.  By
 * hand: 3 m2 of layers with 60 mm dry on top hold 3 (0.2 x 0.95 + 0.25 x 0.4 +
 * 0.19 x 0.37) = 1.081 m3.
 */
#define PASTE                                                                \
	"f=$(mktemp --suffix .lua); g=tests/good/unsized-bed.lua; "          \
	"sed '/^  bed = {/,/^  },/d; /^}/d' $g > $f; "                       \
	"$TARN bed --full $g --units %s | sed -n '/^  bed = {/,/^  },/p' >> $f; "   \
	"echo '}' >> $f; %s; s=$?; rm $f; exit $s"

Test(bed_script, printed_section_goes_into_the_ledger)
{
	static char out[OUT_MAX];
	char command[1000];
	static const char *const units[] = { "us", "metric" };

	for (int i = 0; i < 2; i++) {
		snprintf(command, sizeof command, PASTE, units[i],
			 "$TARN bed --full $f --units metric");
		cr_expect(run(command, out) == 4, "%.600s", out);
		cr_expect(strstr(out, "The bed described: 1.22 m from lip to "
				 "far side, 2.45 m along"), "%.300s", out);
		cr_expect(strstr(out, "plants on 3.0 m2, its\nwater of 1,081 L"),
			  "%s", out);
		snprintf(command, sizeof command, PASTE, units[i],
			 "$TARN topup --full $f weather-samples/"
			 "de_bilt_daily_1980_2019.csv --latitude 52.1 "
			 "--elevation 2 --wind-height 10 --first 2018-01-01 "
			 "--last 2018-12-31 --units metric");
		cr_expect(run(command, out) == 0, "%.600s", out);
		cr_expect(strstr(out, "- Bed 3.0 m2, stream and falls 0.0 m2"),
			  "%.600s", out);
	}
	cr_expect(run("$TARN topup --full tests/good/unsized-bed.lua weather-samples/"
		      "de_bilt_daily_1980_2019.csv --latitude 52.1 "
		      "--elevation 2 --wind-height 10 --last 1980-12-31", out) ==
		  4);
	cr_expect(strstr(out, "bed: the bed is NOT counted: it has\n"
			 "  no size yet"), "%s", out);
}

/* Broken beds: the first line says what must be told. */
Test(bed_script, refuses_bad_beds)
{
	static char out[OUT_MAX];
	glob_t files;

	cr_assert(glob("tests/bad/beds/*.lua", 0, NULL, &files) == 0);
	cr_expect(files.gl_pathc >= 25, "%zu files", files.gl_pathc);
	for (size_t i = 0; i < files.gl_pathc; i++) {
		char command[500], first[300] = "";
		const char *want = first + strlen("-- expect: ");
		FILE *f = fopen(files.gl_pathv[i], "r");

		cr_assert(fgets(first, sizeof first, f) != NULL);
		fclose(f);
		cr_assert(strncmp(first, "-- expect: ", 11) == 0, "%s",
			  files.gl_pathv[i]);
		first[strcspn(first, "\n")] = '\0';
		snprintf(command, sizeof command, "$TARN bed --full %s",
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
