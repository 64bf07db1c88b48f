/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

/* The script leak as its users meet it: exit status and what it says. */
#define LOG "weather-samples/courtyard-pond.lua " \
	    "weather-samples/seattle_daily_2012_2015.csv "
#define MAP " --map weather-samples/seattle-map.lua "
#define DEMO LOG "weather-samples/courtyard-log.csv" MAP
#define BUCKET "--area 150 --bed 25 --stream 15 "

static const struct {
	const char *arguments;
	int status;
	const char *part;
} rows[] = {
	{ DEMO, 3, "Outside what weather explains." },
	{ DEMO, 3, "Something changed between 2014-07" },
	{ DEMO "--units metric", 3, " L/day" },
	{ DEMO "--intervals", 3, "2014-06-21 to 06-22" },
	{ DEMO "--svg /dev/stdout", 3, "</svg>" },
	{ DEMO "--svg /nowhere/x.svg", 2, "/nowhere/x.svg: cannot write" },
	{ DEMO "--zero 0.2", 4, "0.66 ft above the floor" },
	{ DEMO "--zero '8 in'", 4, "0.67 ft above the floor" },
	{ DEMO "--zero '1/2 ft'", 4, "0.50 ft above the floor" },
	{ DEMO "--zero '8 gal'", 2, "--zero must be a length" },
	{ DEMO "--zero in", 2, "--zero must be a length" },
	/* the courtyard's intake lies 8 in under the lip; readings in cm */
	{ LOG "tests/data/log-of-cm.csv" MAP, 3,
	  "Take note: 2 of 3 readings, first on 2014-07-04, stand under" },
	{ "weather-samples/seattle_daily_2012_2015.csv "
	  "weather-samples/courtyard-pond.lua x.csv", 2,
	  "are the files in the right order?" },
	{ "weather-samples/courtyard-pond.lua "
	  "weather-samples/courtyard-pond.lua weather-samples/courtyard-log.csv",
	  2, "expected a weather file here (.csv)" },
	{ BUCKET "--on-hours 48 --on-drop 1.5 --on-bucket 13", 2,
	  "on bucket fell more than 50 mm (2 in) a day" },
	{ "weather-samples/courtyard-pond.lua --on-hours 48 --on-drop 28 "
	  "--on-bucket 0.5", 2, "on drop takes the level under the pump's" },
	{ DEMO "--log-unit mm", 2, "says another unit" },
	{ DEMO "--on-hours 48 --on-drop 1 --on-bucket 0.5", 3,
	  "The bucket test" },
	{ LOG, 2, "give POND.lua WEATHER.csv LOG.csv" },
	{ "", 2, "give POND.lua WEATHER.csv LOG.csv" },
	{ "--help", 0, "--off-bucket N" },
	{ LOG "tests/bad/logs/out-of-order.csv" MAP, 2,
	  "tests/bad/logs/out-of-order.csv:4:1: date comes before" },
	{ LOG "tests/bad/logs/one-reading.csv" MAP, 2,
	  "one-reading.csv:3:12: log holds one reading only" },
	{ LOG "tests/bad/logs/outside-weather.csv" MAP, 2,
	  "outside-weather.csv:3:12: log lies outside the weather's dates, "
	  "2012-01-01 to 2015-12-31" },
	{ BUCKET "--off-hours 48 --off-drop 0.6 --off-bucket 0.5", 4,
	  "cannot tell" },
	{ BUCKET "--off-hours 48 --off-drop 1 --off-bucket 0.5", 3,
	  "where it settles marks the" },
	{ BUCKET "--off-hours 48 --off-drop 0.5 --off-bucket 0.5 --on-hours 48 "
	  "--on-drop 1.4 --on-bucket 0.5", 3, "splash =" },
	/* a rate of the weather alone is known to 30 %: no verdict */
	{ BUCKET "--off-hours 48 --off-drop 0.5 --evaporation 0.25", 4,
	  "evaporation explains 0.50 in" },
	{ BUCKET "--off-hours 48 --off-drop 0.5", 2, "--off-bucket is missing" },
	{ BUCKET "--off-hours 48 --off-drop 0.5 --off-bucket 1 --off-rain 1",
	  2, "void" },
	{ BUCKET "--off-drop 0.5", 2, "needs --off-hours or --on-hours" },
	{ "--off-hours 48 --off-drop 0.5 --off-bucket 1", 2,
	  "the pond is missing" },
	{ BUCKET "--off-hours 48 --off-drop 0.5 --off-bucket 1 --svg x", 2,
	  "--svg draws a log" },
	{ BUCKET "--off-hours 24 --off-drop '1 1/8' --off-bucket 1/4", 3,
	  "fell 1.12 in" },
	{ BUCKET "--off-hours 24 --off-drop -0.5 --off-bucket 0.25", 4,
	  "less was lost than evaporation takes" },
	{ BUCKET "--on-hours 0 --on-drop 1 --on-bucket 0.5", 2,
	  "--on-hours must be above 0" },
	/* 2,000 gal a week by the meter of a float valve are 286 a day, likely
	 * 8 % more; weather explains some 22 */
	{ LOG "tests/data/meter-leaks.csv" MAP, 3, "best 284" },
	{ LOG "tests/data/meter-leaks.csv" MAP, 3, "2 of 2 weeks stand above" },
	{ LOG "tests/data/meter-grows.csv" MAP, 3, "Outside what weather" },
};

Test(leak_script, command_line)
{
	static char out[200000];
	const char *build = getenv("TARN_BUILD");

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char line[1000];
		FILE *p;
		int status;

		snprintf(line, sizeof line, "%s/tarn leak --full %s 2>&1",
			 build ? build : "build", rows[i].arguments);
		p = popen(line, "r");
		cr_assert(p != NULL);
		out[fread(out, 1, sizeof out - 1, p)] = '\0';
		status = pclose(p);
		cr_expect(WIFEXITED(status) &&
			  WEXITSTATUS(status) == rows[i].status,
			  "leak %s: exit status %d; it said: %.300s",
			  rows[i].arguments, WEXITSTATUS(status), out);
		cr_expect(strstr(out, rows[i].part) != NULL,
			  "leak %s: '%s' is not in: %.500s", rows[i].arguments,
			  rows[i].part, out);
		/* the model alone never says so */
		cr_expect(!strstr(out, "your pond leaks") &&
			  !strstr(out, "you have a leak"));
		cr_expect(!strstr(out, " nil"), "leak %s: prints a value that "
			  "is none", rows[i].arguments);
	}
}
