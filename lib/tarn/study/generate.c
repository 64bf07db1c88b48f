/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study.h"
#include "tarn/study/random.h"

/* Generating days; their parameters come from parameters.c. */

#define TWO_PI 6.283185307179586
#define SPIN_UP 60		/* days before the first, to forget the start */

/* Draws of one day, in order: the day's numbers do not hang on how many the
 * day before has used. */
struct draws {
	uint64_t seed, stream, index;
};

enum { DRAWS_A_DAY = 1 << 10 };

static double draw(struct draws *d)
{
	return random_share(d->seed, d->stream, d->index++);
}

/* Box and Muller (1958). */
static double normal(struct draws *d)
{
	double length = sqrt(-2 * log(draw(d)));

	return length * cos(TWO_PI * draw(d));
}

/* Marsaglia and Tsang (2000), ACM Transactions on Mathematical Software 26;
 * a shape under 1 by their note on page 371. */
static double gamma_number(struct draws *d, double shape)
{
	double boost = 1, k, c;

	if (shape < 1) {
		boost = pow(draw(d), 1 / shape);
		shape += 1;
	}
	k = shape - 1.0 / 3;
	c = 1 / sqrt(9 * k);
	for (;;) {
		double x = normal(d), v = 1 + c * x, u = draw(d);

		v = v * v * v;
		if (v > 0 && log(u) < 0.5 * x * x + k - k * v + k * log(v))
			return boost * k * v;
	}
}

/* The next day's residuals from this day's. */
static void follow(const struct tarn_generator *g, struct draws *d, double *z)
{
	double old[TARN_GENERATED_COLUMNS], fresh[TARN_GENERATED_COLUMNS];

	for (int i = 0; i < g->columns; i++) {
		old[i] = z[i];
		fresh[i] = normal(d);
	}
	for (int i = 0; i < g->columns; i++) {
		z[i] = 0;
		for (int k = 0; k < g->columns; k++)
			z[i] += g->follow[i][k] * old[k] +
				g->fresh[i][k] * fresh[k];
	}
}

static double between(double x, double lo, double hi)
{
	return x < lo ? lo : x > hi ? hi : x;
}

void tarn_generate(const struct tarn_generator *g, uint64_t seed,
		   uint64_t stream, long first_day, size_t days,
		   double *rain_mm, double *const *column)
{
	double z[TARN_GENERATED_COLUMNS] = { 0 };
	int wet = 0;

	for (size_t i = 0; i < SPIN_UP + days; i++) {
		struct draws d = { seed, stream, (uint64_t)i * DRAWS_A_DAY };
		/* the spin-up goes through the days that follow it */
		size_t at = i < SPIN_UP ? 0 : i - SPIN_UP;
		int month = tarn_date(first_day + (long)at).month;
		int m = month > 0 ? month - 1 : 0;
		double amount_mm = 0;

		wet = draw(&d) < (wet ? g->wet_after_wet[m]
					    : g->wet_after_dry[m]);
		if (wet)
			amount_mm = g->wet_mm + g->scale_mm[m] *
						gamma_number(&d, g->shape[m]);
		follow(g, &d, z);
		if (i < SPIN_UP)
			continue;
		rain_mm[at] = amount_mm;
		for (int c = 0; c < g->columns; c++)
			column[c][at] = between(g->mean[c][wet][m] +
						g->sd[c][wet][m] * z[c],
						g->lo[c], g->hi[c]);
		for (int c = 0; c < g->columns; c++)
			if (g->over[c] >= 0)
				column[c][at] = fmax(column[c][at],
						     column[g->over[c]][at]);
	}
}
