/* SPDX-License-Identifier: MIT */
#ifndef TESTS_PUBLISHED_H
#define TESTS_PUBLISHED_H

/*
 * Values that somebody printed, beside ours.  A row is compared at half its
 * last printed digit, or at its own tolerance where that is finer.  A wider
 * tolerance counts only where because() gives its reason; without one the row
 * must come out at the printed digit.
 *
 *   printed    the source was at hand
 *   quoted     second-hand: somebody else says that the source prints it
 *   recalled   from memory
 *
 * Each of them asserts, and appends a line to the file that TARN_CHECKS_FILE
 * names: docs/build/checks.md is made of these.  Our own earlier results and those
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

/*
 * Half the last printed digit.  A number forgets the zeros that were printed
 * at its end: 2.0 reads as 2.  Where the tolerance is finer by up to three
 * digits, it tells of them: half a digit is then the greatest 5, 0.5, 0.05 ...
 * that is not above it.
 */
static inline double published_half_digit(double want, double tol)
{
	char text[40], *point, *power;
	int decimals = 0, exponent = 0;
	double half;

	snprintf(text, sizeof text, "%.15g", want);
	power = strchr(text, 'e');
	if (power) {
		exponent = (int)strtol(power + 1, NULL, 10);
		*power = '\0';
	}
	point = strchr(text, '.');
	if (point)
		decimals = (int)strlen(point + 1);
	half = 0.5 * pow(10, exponent - decimals);
	if (tol >= half || tol < half / 1000)
		return half;
	return 5 * pow(10, floor(log10(tol / 5) + 1e-9));
}

/* Why rows have a wider tolerance: those whose name or source begins so. */
struct published_reason {
	const char *rows, *why;
};

static inline struct published_reason *published_reasons(void)
{
	static struct published_reason reasons[8];

	return reasons;
}

/* For the rest of the test: rows whose name or source begins with ROWS keep a
 * tolerance wider than the printed digit, because WHY. */
static inline void because(const char *rows, const char *why)
{
	struct published_reason *reason = published_reasons();
	int i = 0;

	while (i < 8 && reason[i].rows)
		i++;
	cr_assert(i < 8 && *rows && strlen(why) > 10, "because: %s", rows);
	reason[i] = (struct published_reason){ rows, why };
}

static inline const char *published_why(const char *source, const char *what)
{
	const struct published_reason *reason = published_reasons();

	for (int i = 0; i < 8 && reason[i].rows; i++) {
		size_t n = strlen(reason[i].rows);

		if (strncmp(what, reason[i].rows, n) == 0 ||
		    strncmp(source, reason[i].rows, n) == 0)
			return reason[i].why;
	}
	return NULL;
}

/* One line in one write: tests run side by side. */
static inline void published_note(const char *file, const char *known,
				  const char *source, const char *what,
				  double got, double want, double tol,
				  double half, const char *reason)
{
	const char *path = getenv("TARN_CHECKS_FILE");
	char line[1000];
	int n, fd;

	if (!path)
		return;
	n = snprintf(line, sizeof line,
		     "%s\t%s\t%s\t%s\t%s\t%.17g\t%.17g\t%.17g\t%.17g\t%s\n",
		     strrchr(file, '/') ? strrchr(file, '/') + 1 : file,
		     criterion_current_test->name, known, source, what, want,
		     got, tol, half, reason);
	fd = open(path, O_WRONLY | O_CREAT | O_APPEND, 0666);
	cr_assert(fd >= 0 && write(fd, line, (size_t)n) == n, "%s", path);
	close(fd);
}

/* The tolerance of a published row, and its reason where it is wider. */
static inline double published_tolerance(const char *source, const char *what,
					 double tol, double half,
					 const char **reason)
{
	const char *why = NULL;

	if (tol > half * (1 + 1e-9))
		why = published_why(source, what);
	*reason = why ? why : "";
	return why ? tol : fmin(tol, half);
}

static inline void published_check(const char *file, const char *known,
				   const char *source, const char *what,
				   double got, double want, double tol)
{
	double half = published_half_digit(want, tol);
	const char *reason = "";

	if (known)
		tol = published_tolerance(source, what, tol, half, &reason);
	cr_expect(fabs(got - want) <= tol * (1 + 1e-9),
		  "%s, %s: got %.12g, want %.12g +- %g", source, what, got,
		  want, tol);
	if (known)
		published_note(file, known, source, what, got, want, tol,
			       half, reason);
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
			       want, tol, published_half_digit(want, tol),     \
			       reason);                                        \
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
