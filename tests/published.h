/* SPDX-License-Identifier: MIT */
#ifndef TESTS_PUBLISHED_H
#define TESTS_PUBLISHED_H

/*
 * Values that somebody printed, beside ours.  The tolerance is half the last
 * printed digit unless a comment says why not.
 *
 *   printed    the source was at hand
 *   quoted     second-hand: somebody else says that the source prints it
 *   recalled   from memory
 *
 * Each of them asserts, and appends a line to the file that TARN_CHECKS_FILE
 * names: docs/checks.md is made of these.  Our own earlier results and those
 * of other programs are no published values: EXPECT_ROWS.
 */

#include <criterion/criterion.h>
#include <fcntl.h>
#include <math.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* One line in one write: tests run side by side. */
static inline void published_note(const char *file, const char *known,
				  const char *source, const char *what,
				  double got, double want, double tol,
				  const char *reason)
{
	const char *path = getenv("TARN_CHECKS_FILE");
	char line[1000];
	int n, fd;

	if (!path)
		return;
	n = snprintf(line, sizeof line,
		     "%s\t%s\t%s\t%s\t%s\t%.17g\t%.17g\t%.17g\t%s\n",
		     strrchr(file, '/') ? strrchr(file, '/') + 1 : file,
		     criterion_current_test->name, known, source, what, want,
		     got, tol, reason);
	fd = open(path, O_WRONLY | O_CREAT | O_APPEND, 0666);
	cr_assert(fd >= 0 && write(fd, line, (size_t)n) == n, "%s", path);
	close(fd);
}

static inline void published_check(const char *file, const char *known,
				   const char *source, const char *what,
				   double got, double want, double tol)
{
	cr_expect(fabs(got - want) <= tol * (1 + 1e-9),
		  "%s, %s: got %.12g, want %.12g +- %g", source, what, got,
		  want, tol);
	if (known)
		published_note(file, known, source, what, got, want, tol, "");
}

#define printed(source, what, got, want, tol)                                  \
	published_check(__FILE__, "seen", source, what, got, want, tol)
#define quoted(source, what, got, want, tol)                                   \
	published_check(__FILE__, "second-hand", source, what, got, want, tol)
#define recalled(source, what, got, want, tol)                                 \
	published_check(__FILE__, "from memory", source, what, got, want, tol)

/* A printed value that does not come out, and why; fails if it does. */
#define not_reproduced(source, what, got, want, tol, reason)                   \
	do {                                                                   \
		cr_expect(fabs((got) - (want)) > (tol),                        \
			  "%s, %s: comes out after all", source, what);        \
		published_note(__FILE__, "not reproduced", source, what, got,  \
			       want, tol, reason);                             \
	} while (0)

/* What a row is, from its inputs; until the next call. */
static inline const char *named(const char *format, ...)
{
	static char text[200];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	return text;
}

/* ---- tables ---------------------------------------------------------------- */

struct published {
	const char *what;
	double got, want, tol;
};

#define EXPECT_PRINTED(source, rows) PUBLISHED("seen", source, rows)
#define EXPECT_QUOTED(source, rows) PUBLISHED("second-hand", source, rows)
#define EXPECT_RECALLED(source, rows) PUBLISHED("from memory", source, rows)
#define EXPECT_ROWS(source, rows) PUBLISHED(NULL, source, rows)

#define PUBLISHED(known, source, rows)                                         \
	do {                                                                   \
		for (size_t i_ = 0; i_ < sizeof rows / sizeof rows[0]; i_++)   \
			published_check(__FILE__, known, source, rows[i_].what,\
					rows[i_].got, rows[i_].want,           \
					rows[i_].tol);                         \
	} while (0)

#define EXPECT_NAN(x) cr_expect(isnan(x), "%s must be NaN, is %g", #x, x)
#define EXPECT_OK(x) cr_expect(isfinite(x), "%s must be a number", #x)

#endif
