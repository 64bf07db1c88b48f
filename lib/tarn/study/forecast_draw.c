/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "forecast_draw.h"
#include "random.h"

#define SQRT_2 1.4142135623730951
#define SQRT_3 1.7320508075688772
#define TWO_PI 6.283185307179586

/* Streams of a seed: one a world for its months, one for its days. */
enum { SHIFTS = 0, SLOW = 1, DAYS = 2, STREAMS = 3 };

static uint64_t stream_of(size_t world, int kind)
{
	return (uint64_t)world * STREAMS + (uint64_t)kind;
}

/* Begins with Hastings' approximation (Abramowitz and Stegun 1964, 26.2.23) and
 * takes Newton's steps on erfc. */
double tn_normal_at(double share)
{
	double tail = share < 0.5 ? share : 1 - share;
	double t = sqrt(-2 * log(tail));
	double x = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
			       (1 + t * (1.432788 +
					 t * (0.189269 + t * 0.001308)));

	for (int i = 0; i < 3; i++)
		x += (erfc(x / SQRT_2) / 2 - tail) * sqrt(TWO_PI) *
		     exp(x * x / 2);
	return share < 0.5 ? -x : x;
}

/* A number of a set of points, all of them shifted round by the seed. */
static double shifted(double point, uint64_t seed, uint64_t column)
{
	double x = point + random_share(seed, SHIFTS, column);

	x -= floor(x);
	/* neither end, so that the normal number is finite */
	return fmin(fmax(x, 1e-9), 1 - 1e-9);
}

/* Points of a Sobol' sequence: so few worlds lie evenly. */
void tn_draw_worlds(double *b, double *rain, size_t worlds,
		    const struct tarn_exposure_budget *budget,
		    const struct tarn_forecast_options *o)
{
	for (size_t i = 0; i < worlds; i++) {
		double point[2];

		tarn_samples_sobol(point, 1, 2, i, NULL);
		b[i + 1] = budget->centre_sd_ln *
			   tn_normal_at(shifted(point[0], (uint64_t)o->seed,
						0));
		rain[i + 1] = 1 + o->rain_sd *
				  tn_normal_at(shifted(point[1],
						       (uint64_t)o->seed, 1));
	}
	b[0] = 0;
	rain[0] = 1;
}

/* Box and Muller (1958). */
static double slow_of(const struct draw *d, size_t world, long at)
{
	uint64_t index = 2 * (uint64_t)at, stream = stream_of(world, SLOW);
	double length = sqrt(-2 * log(random_share(d->seed, stream, index)));
	double z = length * cos(TWO_PI * random_share(d->seed, stream,
						      index + 1));

	return exp(d->slow_sd * z - d->slow_sd * d->slow_sd / 2);
}

static void begin_slow(struct draw *d, size_t first_world, size_t lanes,
		       long at)
{
	for (size_t l = 0; l < lanes; l++)
		d->slow[l] = first_world + l == 0
			? 1 : slow_of(d, first_world + l, at);
	d->slow_at = at;
}

/* Four uniform numbers of 16 bits from one word. */
static double day_of(const struct draw *d, size_t world, long day)
{
	uint64_t word = tarn_random(d->seed, stream_of(world, DAYS),
				    (uint64_t)day);
	unsigned sum = (unsigned)(word & 0xffff) +
		       (unsigned)(word >> 16 & 0xffff) +
		       (unsigned)(word >> 32 & 0xffff) +
		       (unsigned)(word >> 48);

	return ((sum + 2.0) / 65536 - 2) * SQRT_3;
}

static long slow_at(long day)
{
	/* no day lies before 1800: counted from there, none is negative */
	return (day - tarn_day(1800, 1, 1)) / TARN_EXPOSURE_SLOW_DAYS;
}

void tn_draw_stretch(struct draw *d, size_t first_world, size_t lanes,
		     long first_day, size_t days, struct block_drawn *out)
{
	long epoch = tarn_day(1800, 1, 1);

	out->most = 0;
	for (size_t i = 0; i < days; i++) {
		long day = first_day + (long)i;
		double *factor = out->day[i];

		if (d->slow_at != slow_at(day))
			begin_slow(d, first_world, lanes, slow_at(day));
		for (size_t l = 0; l < lanes; l++) {
			double z = first_world + l == 0
				? 0 : day_of(d, first_world + l, day - epoch);

			factor[l] = d->slow[l] * (1 + d->day_sd * z);
			if (factor[l] > out->most)
				out->most = factor[l];
		}
		for (size_t l = lanes; l % LANES_STEP; l++)
			factor[l] = factor[lanes - 1];
	}
}
