/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include "run.h"

#define COUNT(rows) (sizeof rows / sizeof rows[0])
#define IN "d=$(mktemp -d); "
#define OUT "; s=$?; rm -r $d; exit $s"
#define ALL "--shape ellipse --size '24 ft x 14 ft' --depth \"4'3\\\"\" " \
	    "--full '4 in' --sun 'half shade' --wind 'among houses' "

/*
 * An ellipse of 24 ft x 14 ft has 263.9 ft2 at the edge (pi / 4 x length x
 * width); walls of 1 in 5 lose 0.8 in a side on the 4 in down to the water:
 * pi / 4 x 23.867 x 13.867 = 259.9 ft2.
 */
Test(new, asks_and_writes)
{
	static const struct row rows[] = {
		{ IN "printf '2\n14 ft x 24\n14 ft x 24 ft\n4 ft 3 in\n0 "
		  "in\n4\"\nhalf shad\nhalf shade\n4\n' | $TARN new $d/p.lua"
		  OUT, 0, "260 ft2 of surface" },
		{ IN "printf '2\n14 ft x 24\n' | $TARN new $d/p.lua" OUT, 2,
		  "'14 ft x 24' has a number without a unit" },
		{ IN "$TARN new $d/p.lua " ALL "< /dev/null && $TARN topup "
		  "$d/p.lua --climate seattle" OUT, 4,
		  "wind \"among houses\"" },
		{ IN "$TARN new $d/p.lua " ALL "> $d/out; grep -c ASSUMED "
		  "$d/p.lua" OUT, 0, "3" },
		{ IN "$TARN new $d/p.lua " ALL "> $d/out; cat $d/p.lua" OUT, 0,
		  "length = 24 * ft, width = 14 * ft" },
		{ IN "$TARN new $d/p.lua --name 'a \"b\" ]] %d' --shape "
		  "irregular --size '7 m x 4.5 m' --depth 1.3m --full '10 cm' "
		  "--sun 2 --wind 2 > $d/out; $TARN convert $d/p.lua --to -"
		  OUT, 0, "\"a \\u0022b\\u0022 ]] %d\"" },
	};

	expect_rows(rows, COUNT(rows));
}

/* Nothing is written where anything is wrong. */
Test(new, refuses)
{
	static const struct row rows[] = {
		{ IN "printf '2\n24 ft x 14 ft\n' | $TARN new $d/p.lua; s=$?; "
		  "ls $d; rm -r $d; exit $s", 2,
		  "the input ended before question 3 (depth)" },
		{ IN "echo mine > $d/p.lua; $TARN new $d/p.lua " ALL "; cat "
		  "$d/p.lua; rm -r $d", 0, "is not touched" },
		{ IN "echo mine > $d/p.lua; $TARN new $d/p.lua " ALL "; cat "
		  "$d/p.lua; rm -r $d", 0, "\nmine" },
		{ IN "$TARN new $d/p.lua " ALL "--full '5 ft'; s=$?; ls $d; rm -r "
		  "$d; exit $s", 2, "the water would stand under the floor" },
		{ IN "$TARN new $d/p.lua " ALL "--sun sunny" OUT, 2,
		  "--sun 'sunny' is none of these" },
		{ IN "$TARN new $d/p.lua " ALL "--depth '3 gal'" OUT, 2,
		  "--depth '3 gal' is a volume, and a length is wanted" },
		{ IN "$TARN new $d/p.json " ALL OUT, 2, "must end in .lua" },
		{ IN "$TARN new $d/p.lua --shape ellipse --size '2 ft x 2 ft' "
		  "--depth '9 ft' --full '4 in' --sun 1 --wind 1; s=$?; ls $d; "
		  "rm -r $d; exit $s", 2, "such a pond cannot be" },
	};

	expect_rows(rows, COUNT(rows));
}
