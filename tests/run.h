/* SPDX-License-Identifier: MIT */
#ifndef TESTS_RUN_H
#define TESTS_RUN_H

/*
 * The program as its users meet it: exit status and what it says.  Commands
 * run in the project's folder; TARN stands for the runner that was built.
 * Define _POSIX_C_SOURCE before including.
 */

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#define OUT_MAX 400000

static inline int run(const char *command, char *out)
{
	char line[1000];
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
	while (fread(line, 1, sizeof line, p) > 0)
		;
	status = pclose(p);
	return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* One command, its exit status, and what its output must hold. */
struct row {
	const char *command;
	int status;
	const char *part;
};

static inline void expect_rows(const struct row *rows, size_t count)
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

#endif
