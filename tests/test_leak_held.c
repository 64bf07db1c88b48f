/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include "run.h"

/* A level held by a fill valve gave "inside what weather explains", a hole and
 * a factor of 0.447. */
Test(leak_held, a_held_level_shows_no_leak)
{
#define HELD "d=$(mktemp); i=0; echo date,reading_in > $d; while [ $i -lt 31 ]; " \
	"do i=$((i + 1)); printf '2014-07-%02d,1.5%s\\n' $i $((i % 2 * " \
	"625)) >> $d; done; $TARN leak --full weather-samples/courtyard-pond.lua " \
	"weather-samples/seattle_daily_2012_2015.csv $d --map " \
	"weather-samples/seattle-map.lua"
	static const struct row rows[] = {
		{ HELD " | sed -n 4p", 0,
		  "This log cannot show a leak: something fills the pond." },
		{ HELD " > $d.out; echo status $?", 0, "status 4" },
		{ HELD " | tr '\\n' ' '", 0, "Shut the fill valve, or read its "
		  "meter, and log again" },
		{ HELD " | grep -c 'open_water_factor\\|A hole sits\\|nside "
		  "what weather explains\\|Unexplained'", 1, "0" },
	};

	expect_rows(rows, COUNT(rows));
}
