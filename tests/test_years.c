/* SPDX-License-Identifier: MIT */
/* Which years of a weather file are run: the commands as people meet them, on
 * fifty years that are made of the sample of De Bilt. */
#define _POSIX_C_SOURCE 200809L
#include <unistd.h>

#include "run.h"

#define SAMPLE "weather-samples/de_bilt_daily_1980_2019.csv"
#define POND "weather-samples/courtyard-pond.lua"

static char folder[32];

/* $D: a folder with fifty.csv; $W: that file with its place. */
static void say(const struct row *rows, size_t count)
{
	static char command[900];

	for (size_t i = 0; i < count; i++) {
		struct row row = rows[i];

		snprintf(command, sizeof command, "D=%s; W=\"$D/fifty.csv "
			 "--latitude 52.1 --elevation 2\"; P=" POND "; %s",
			 folder, row.command);
		row.command = command;
		expect_rows(&row, 1);
	}
}

static void make_fifty(void)
{
	static char out[OUT_MAX], command[300];

	strcpy(folder, "/tmp/tarn-years-XXXXXX");
	cr_assert(mkdtemp(folder) != NULL);
	snprintf(command, sizeof command, "awk -F, -f tests/tools/fifty.awk "
		 SAMPLE " " SAMPLE " > %s/fifty.csv", folder);
	cr_assert(run(command, out) == 0, "%s", out);
}

static void drop_fifty(void)
{
	static char out[OUT_MAX], command[60];

	snprintf(command, sizeof command, "rm -r %s", folder);
	run(command, out);
}

TestSuite(years, .init = make_fifty, .fini = drop_fifty);

/* 1970 to 2019: 18,262 days, of which 1985 has 365; from 1991 on 10,592. */
Test(years, the_plain_command_runs_the_first_time)
{
	static const struct row rows[] = {
		{ "$TARN topup $P $W | tr -s '\\n ' ' '", 0,
		  "LEFT OUT: 1985, 365 days; 17,897 days are run." },
		{ "$TARN topup $P $W > /dev/null", 4, "" },
		{ "$TARN topup $P $W | tr -s '\\n ' ' '", 0,
		  "like that of its 49 whole years" },
		{ "$TARN topup $P $W | tr -s '\\n ' ' '", 0,
		  "wind on 7,305 days is estimated. All years are run, with "
		  "fewer columns, since that keeps more days, 17,897. To run "
		  "the 10,592 days of the years with all columns, without 1970 "
		  "to 1990 (tried):" },
		{ "$TARN topup $P $W | tr -s '\\n ' ' '", 0,
		  "From 1970-01-01 to 2019-12-31 without 1985 (17897 days)" },
		{ "$TARN sheet --full $P $W | tr -s '\\n ' ' '", 0,
		  "weather 1970-01-01 to 2019-12-31 without 1985. Local" },
		{ "$TARN sheet --full $P $W | tr -s '\\n ' ' '", 0,
		  "LEFT OUT: 1985, 365 days; 17,897 days are run." },
		{ "$TARN weather $W | tr -s '\\n ' ' '", 0,
		  "runs 17,897 of 18,262 days:" },
		{ "$TARN weather $W | tr -s '\\n ' ' '", 0,
		  "have all columns alone, 10,592, which was tried too: tarn "
		  "topup POND.lua" },
		{ "$TARN weather $W | grep '^tarn topup' | tail -1 | sed "
		  "\"s|^tarn|$TARN|; s|POND.lua|$P|\" > $D/line; grep -c "
		  "'years complete' $D/line; eval \"$(cat $D/line)\"", 4,
		  "(10592 days)" },
	};

	say(rows, COUNT(rows));
}

/* Each line that is offered runs, and as many days as it says. */
Test(years, the_commands_that_are_offered_run)
{
	static const struct row rows[] = {
		{ "$TARN topup $P $W --report $D/x.html | grep '^tarn topup' | "
		  "sed \"s|^tarn|$TARN|\" > $D/lines; grep -c -- --report "
		  "$D/lines; wc -l < $D/lines", 0, "0\n3" },
		{ "$TARN topup $P $W | grep '^tarn topup' | sed "
		  "\"s|^tarn|$TARN|\" | while read -r line; do eval \"$line\" | "
		  "grep -o '([0-9]* days)'; done | tr '\\n' ' '", 0,
		  "(18262 days) (12593 days) (10592 days)" },
		{ "$TARN topup $P $W --years all | tr -s '\\n ' ' '", 0,
		  "1 day without a rain reading is TAKEN AS DRY" },
		{ "$TARN topup $P $W --years all > /dev/null", 4, "" },
		{ "$TARN topup $P $W --years complete | tr -s '\\n ' ' '", 0,
		  "LEFT OUT: 1970 to 1990, 7,670 days" },
		{ "$TARN topup $P $W --years none", 2,
		  "--years must be one of most, complete, all, stretch" },
		{ "$TARN topup $P $W --last 1990-12-31 --years complete | "
		  "tr -s '\\n ' ' '", 0, "LEFT OUT: 1985" },
	};

	say(rows, COUNT(rows));
}

/* The daily ledger is that of the years before and of the years after. */
Test(years, the_ledger_is_that_of_both_parts)
{
	static const struct row rows[] = {
		{ "$TARN topup $P $W --csv $D/all > /dev/null; "
		  "$TARN topup $P $W --last 1984-12-31 --csv $D/a > /dev/null; "
		  "$TARN topup $P $W --first 1986-01-01 --csv $D/b > /dev/null; "
		  "sed 1d $D/b | cat $D/a - | cmp - $D/all && wc -l < $D/all",
		  0, "17898" },
		/* a cleaned file is the same weather */
		{ "$TARN weather $W --write $D/clean.csv > /dev/null; "
		  "grep -c '^1985' $D/clean.csv; $TARN topup $P $D/clean.csv "
		  "--csv $D/again > /dev/null; $TARN topup $P $W --csv $D/all "
		  "> /dev/null; cmp $D/again $D/all && echo alike", 0,
		  "0\nalike" },
	};

	say(rows, COUNT(rows));
}

/* Who goes day by day runs a stretch, and says so. */
Test(years, a_study_and_a_log_run_the_stretch)
{
	static const struct row rows[] = {
		{ "$TARN whatif --full $P $W weather-samples/courtyard-study.lua "
		  "--threads 1 | tr -s '\\n ' ' '", 0,
		  "This command goes day by day and runs the longest stretch "
		  "without a gap: 1985-07-10 to 2019-12-31, 12,593 days; 5,669 "
		  "days are left out." },
		{ "$TARN whatif --full $P $W weather-samples/courtyard-study.lua "
		  "--years most", 2, "unknown option --years" },
		{ "sed 's/^2012.03.05,[^,]*/2012\\/03\\/05,/' weather-samples/"
		  "seattle_daily_2012_2015.csv > $D/s.csv; $TARN leak --full $P "
		  "$D/s.csv weather-samples/courtyard-log.csv --map "
		  "weather-samples/seattle-map.lua | tr -s '\\n ' ' '", 0,
		  "runs the longest stretch without a gap: 2012-03-06 to "
		  "2015-12-31" },
	};

	say(rows, COUNT(rows));
}

/* The level's line is broken where days are left out. */
Test(years, the_picture_has_a_hole)
{
	static const struct row rows[] = {
		{ "$TARN topup $P $W --report $D/m.html > /dev/null; "
		  "$TARN topup $P $W --years stretch --report $D/s.html > "
		  "/dev/null; echo $(grep -o '<polyline' $D/m.html | wc -l) "
		  "$(grep -o '<polyline' $D/s.html | wc -l)", 0, "2 1" },
	};

	say(rows, COUNT(rows));
}
