/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <unistd.h>

/* The example of the documents, compiled and run as it stands there. */
#define main example_main
static int example_main(void);
#include "../docs/example-study.c"
#undef main

Test(study_example, runs)
{
	cr_assert(freopen("/dev/null", "w", stdout) != NULL);
	cr_assert(example_main() == EXIT_SUCCESS);
	for (int i = 0; i < VARIANTS; i++) {
		cr_expect(dry_year[i] > 0 && peak_week[i] > 0);
		cr_expect(peak_week[i] < dry_year[i]);
	}
}

#define fail design_fail
#define main design_main
static int design_main(void);
#include "../docs/example-design.c"
#undef main

Test(design_example, runs)
{
	char text[600] = "";
	FILE *out = tmpfile();

	cr_assert(out != NULL && dup2(fileno(out), 1) == 1);
	cr_assert(design_main() == EXIT_SUCCESS);
	fflush(stdout);
	rewind(out);
	cr_assert(fread(text, 1, sizeof text - 1, out) > 0);
	/* 6 m2 of 0.4 m with 0.35 of voids */
	cr_expect(strstr(text, "bed of 6 m2 and 0.84 m3, ") == text, "%s",
		  text);
	cr_expect(strstr(text, "\n  pump.flow = ") != NULL, "%s", text);
}
