/* SPDX-License-Identifier: MIT */
#ifndef JOBS_H
#define JOBS_H

/* What is run; '@' stands for the folder that outputs go to, '&' for the one
 * of what an earlier job made and a later one reads. */
#define ARGS_MAX 14
#define POND "weather-samples/courtyard-pond.lua"
#define WEATHER "tests/faults/weather.csv", "--latitude=47.45", \
		"--elevation=130", "--wind-height=10"
#define STUDY "tests/faults/study.lua", "--threads=1"
static const struct job {
	const char *name;
	double every;	/* times the stride: long jobs take fewer; 0: none, it
			   is run once for what it makes */
	int status;	/* of the good run: what it finds (docs/reports.md) */
	const char *args[ARGS_MAX];
} jobs[] = {
	{ "topup", 1, 0, { "topup", POND, WEATHER, "--csv", "@out.csv",
			   "--report", "@out.html" } },
	{ "topup-full", 3, 0, { "topup", POND, WEATHER, "--full",
				"--all-weeks" } },
	{ "topup-down", 3, 0, { "topup", POND, WEATHER,
				"--down=2 1/2 in" } },
	{ "weather", 1, 0, { "weather", WEATHER } },
	{ "weather-with", 1, 0, { "weather", "tests/good/bom_rain.csv",
				 "tests/good/bom_max.csv", "--with",
				 "tests/good/bom_min.csv", "--latitude=-34" } },
	{ "weather-write", 1, 0, { "weather", WEATHER, "--write",
				   "@out.csv" } },
	{ "new", 0.1, 0, { "new", "@pond.lua", "--name=Pond",
			 "--shape=irregular", "--size=24 ft x 14 ft",
			 "--depth=1.3 m", "--full=4 in",
			 "--sun=half shade", "--wind=not described" } },
	{ "convert", 0.1, 0, { "convert", POND, "--to", "@out.json" } },
	{ "commission", 1, 3, { "commission", POND,
				"weather-samples/courtyard-measured.lua" } },
	{ "sheet", 7, 4, { "sheet", POND, WEATHER, "--markdown", "@out.md",
			   "--csv", "@out.csv" } },
	{ "leak", 7, 3, { "leak", POND, WEATHER, "tests/faults/log.csv" } },
	{ "whatif", 7, 0, { "whatif", POND, WEATHER, STUDY, "--record",
			    "@out.rec", "--csv", "@out.csv" } },
	{ "part 1", 0, 0, { "whatif", POND, WEATHER, STUDY, "--part=1/2",
			    "--record", "&one.rec" } },
	{ "part 2", 0, 0, { "whatif", POND, WEATHER, STUDY, "--part=2/2",
			    "--record", "&two.rec" } },
	{ "merge", 0.1, 0, { "merge", "@whole.rec", "&one.rec", "&two.rec" } },
	{ "topup-climate", 997, 4, { "topup", POND, "--climate", "austin",
				     "--ranges", "@out.csv" } },
	{ "bed", 997, 4, { "bed", POND, "--csv", "@out.csv", "--drawing",
			   "@out.svg" } },
};
#define JOBS (int)(sizeof jobs / sizeof jobs[0])

#endif
