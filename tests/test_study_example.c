/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>

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
