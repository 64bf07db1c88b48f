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
		  3, "Tried, and none of them helps: --totals spread, "
		  "--bridge 31, --dry-gaps" },
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

/* What a message offers to an error of the reader was tried: the command runs
 * with it, and one that would not run is not offered. */
Test(doctor, what_a_message_offers_was_tried)
{
#define BAD " tests/bad/"
	static const struct row rows[] = {
		/* units that go together, of which two can be by the values */
		{ "$TARN topup weather-samples/courtyard-pond.lua weather-"
		  "samples/seattle_daily_2012_2015.csv", 2, "tried: --unit "
		  "tmin=C,tmax=C,wind=m/s,rain=mm, or --unit tmin=C,tmax=C,"
		  "wind=km/h,rain=mm give values that can be" },
		{ "$TARN weather" BAD "american_date.csv", 2,
		  "tried: --dates us, or --dates european give" },
		{ "$TARN weather" BAD "unsorted.csv", 2,
		  "tried: --order sort gives" },
		{ "$TARN weather" BAD "unsorted.csv --order sort "
		  "> /dev/null; echo status $?", 0, "status 0" },
		/* one question leads to the next */
		{ "$TARN weather" BAD "second_station.csv", 2,
		  "--file-units standard --station A, or --file-units "
		  "standard --station B," },
		{ "$TARN weather" BAD "second_station.csv --file-units metric "
		  "--station B | grep -c '^rain '", 0, "2\n" },
		{ "$TARN weather" BAD "two_rain_gauges.csv", 2,
		  "tried: --column 'rain=North rain (mm)', or --column "
		  "'rain=South rain (mm)' give" },
		{ "$TARN weather" BAD "two_of_a_kind.csv --column tmin=tmin_f",
		  3, "tmin_f     F  the header" },
		{ "$TARN weather" BAD "nan.csv --missing nanny | "
		  "grep '^rain '", 0, "rain " },
		/* a number is never taken for a word that stands for none */
		{ "$TARN weather" BAD "two_points.csv", 2,
		  "(--missing TEXT)" },
		{ "$TARN weather" BAD "both_points.csv", 2, "(--decimal SIGN; "
		  "tried: no answer reads the file with values that can be)" },
		/* hours without their hour are no duplicates */
		{ "$TARN weather" BAD "hour_again.csv", 2,
		  "(--duplicates first|last)" },
		{ "$TARN weather" BAD "no_header.csv", 2,
		  "(header in a --map file, see docs/methods/weather.md)" },
		{ "$TARN weather" BAD "tmin_over_tmax.csv --outliers missing "
		  "| grep -c '^tmin '", 0, "2\n" },
		{ "$TARN weather" BAD "titles_unknown.csv --column rain", 2,
		  "--column must be NAME=HEADER, as tmin=Low" },
		/* gaps: the first that helps */
		{ "(echo date,tmin_c,tmax_c,rain_mm; for i in $(seq 100 199); "
		  "do r=1; [ $((i % 9)) = 0 ] && r=; "
		  "date -u -d \"2014-12-31 $i day\" +%F,3,9,$r; done) > "
		  "/tmp/tarn-gaps.csv; $TARN topup weather-samples/"
		  "courtyard-pond.lua /tmp/tarn-gaps.csv --latitude 45", 2,
		  "tried: --dry-gaps runs 100 days" },
	};

	expect_rows(rows, COUNT(rows));
	remove("/tmp/tarn-gaps.csv");
}

/* --unit answers column by column, once or several times, beside a map. */
Test(doctor, units_are_said_by_column)
{
#define BARE " tests/bad/bare_name_values.csv "
	static const struct row rows[] = {
		{ "$TARN weather" BARE, 2, "tried: --unit tmin=F,tmax=F gives" },
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
