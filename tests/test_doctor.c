/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include "run.h"

#define COUNT(rows) (sizeof rows / sizeof rows[0])
#define HANCOCK " weather-samples/hancock_ghcn_order_2010_2020.csv "

/* The line that `tarn weather` prints runs as it stands, with the place filled
 * in: of all files that are read without a map, none is refused. */
Test(doctor, the_line_that_is_printed_runs)
{
	static char out[OUT_MAX];
	const char *at;

	run("for f in tests/good/*.csv weather-samples/*.csv; do "
	    "line=$($TARN weather $f 2> /dev/null | grep -m 1 '^tarn topup' | "
	    "sed \"s|^tarn|$TARN|; "
	    "s|POND.lua|weather-samples/courtyard-pond.lua|; "
	    "s| DEG| 45|; s| LENGTH| 10|g\"); [ \"$line\" ] || continue; "
	    "eval \"$line\" > /dev/null 2>&1; case $? in 0|3|4) echo fine;; "
	    "*) echo \"bad: $line\";; esac; done", out);
	cr_expect(!strstr(out, "bad"), "%s", out);
	at = out;
	for (int i = 0; i < 10; i++, at++) {
		at = strstr(at, "fine");
		cr_assert(at, "%d lines run: %s", i, out);
	}
}

/* Every line that is offered, not the first alone; a name that a shell would
 * take apart. */
Test(doctor, every_line_that_is_offered_runs)
{
	static const struct row rows[] = {
		{ "d=\"/tmp/tarn it's\"; mkdir -p \"$d\"; cp" HANCOCK
		  "\"$d/w.csv\"; $TARN weather \"$d/w.csv\" --file-units "
		  "standard --latitude 44.1 --elevation '1076 ft' | "
		  "grep '^tarn topup' | sed \"s|^tarn|$TARN|; "
		  "s|POND.lua|weather-samples/courtyard-pond.lua|\" | "
		  "while read -r line; do eval \"$line\" > /dev/null; "
		  "echo status $?; done | sort | uniq -c; rm -r \"$d\"", 0,
		  "status 4" },
		{ "$TARN weather" HANCOCK "--file-units standard --dry-gaps "
		  "--bridge 7 --latitude 44.1 --elevation 328", 4,
		  "tarn topup POND.lua" HANCOCK "--file-units standard "
		  "--latitude 44.1 --elevation 328 --bridge 7 --dry-gaps\n" },
		{ "$TARN weather" HANCOCK, 2, "tried: --file-units standard "
		  "alone gives values that can be" },
		{ "$TARN weather weather-samples/nasa_power_daily_sample.csv",
		  3, "no option of Tarn helps" },
	};

	expect_rows(rows, COUNT(rows));
}

/* The place is asked for once, with where to find it, and may be in the
 * description. */
Test(doctor, the_place_is_asked_once)
{
#define DE_BILT " weather-samples/de_bilt_daily_1980_2019.csv "
	static const struct row rows[] = {
		{ "$TARN topup weather-samples/courtyard-pond.lua" DE_BILT, 2,
		  "--latitude DEG (any map shows it; north positive), "
		  "--elevation LENGTH above the sea and --wind-height LENGTH" },
		{ "sed 's/evaporation = {/& latitude = 52.1, elevation = 2, "
		  "wind_height = 10,/' weather-samples/courtyard-pond.lua > "
		  "/tmp/tarn-place.lua; $TARN topup "
		  "/tmp/tarn-place.lua" DE_BILT "> /dev/null; echo status $?",
		  0, "status 0" },
		{ "$TARN weather" DE_BILT, 0, "10 m is taken: --wind-height" },
	};

	expect_rows(rows, COUNT(rows));
	remove("/tmp/tarn-place.lua");
}

/* What --write leaves is read again as the same table, place and all. */
Test(doctor, what_is_written_is_read_again)
{
	static const struct row rows[] = {
		{ "d=$(mktemp -d); $TARN weather" HANCOCK "--file-units "
		  "standard --latitude 44.1 --elevation 328.25 --dry-gaps "
		  "--bridge 7 --write $d/a.csv > /dev/null; $TARN weather "
		  "$d/a.csv --write $d/b.csv | grep '^tarn topup'; "
		  "grep -v '^#' $d/a.csv > $d/a; grep -v '^#' $d/b.csv > $d/b; "
		  "wc -l < $d/a; cmp $d/a $d/b && echo same; "
		  "grep 'latitude\\|elevation' $d/b.csv; rm -r $d", 0,
		  "a.csv\n3744\nsame\n# latitude: 44.1 deg\n"
		  "# elevation: 328.25 m\n" },
		{ "$TARN weather" HANCOCK "--file-units standard --write"
		  HANCOCK, 2, "is an input of this run" },
	};

	expect_rows(rows, COUNT(rows));
}

/* --unit answers column by column, once or several times, beside a map. */
Test(doctor, units_are_said_by_column)
{
#define BARE " tests/bad/bare_name_values.csv "
	static const struct row rows[] = {
		{ "$TARN weather" BARE, 2, "(--unit NAME=UNIT,NAME=UNIT)" },
		{ "$TARN weather" BARE "--unit tmin=F --unit tmax=F", 0,
		  "tmin           tmin     F         you" },
		{ "$TARN weather" BARE "--unit tmin=F,tmax=F", 0,
		  BARE "--unit tmin=F,tmax=F --latitude DEG" },
		{ "echo 'return { units = { tmin = \"F\" } }' > "
		  "/tmp/tarn-unit.lua; $TARN weather" BARE
		  "--map /tmp/tarn-unit.lua --unit tmax=F", 0, "26.67" },
		{ "$TARN weather" BARE "--file-units standard --unit tmax=C",
		  2, "no possible tmax (-60 to 60 deg C)" },
		{ "$TARN weather" BARE "--unit tmin", 2,
		  "--unit must be NAME=UNIT" },
		{ "$TARN weather" BARE "--unit tmim=F,tmax=F", 2, "tmin" },
		{ "$TARN weather" BARE "--unit tmin=F,tmax=F,wind=mph", 2,
		  "no column of the file was taken for wind" },
		{ "$TARN weather" BARE "--unit tmin=mm,tmax=F", 2,
		  "\"mm\" does not fit: choose one of C, F, K" },
	};

	expect_rows(rows, COUNT(rows));
	remove("/tmp/tarn-unit.lua");
}
