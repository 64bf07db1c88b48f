/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/study.h"
#include "tarn/study/random.h"

void tarn_samples_grid(double *x, const size_t *levels, size_t columns)
{
	size_t rows = 1, repeat = 1;

	for (size_t d = 0; d < columns; d++)
		rows *= levels[d];
	for (size_t d = columns; d-- > 0; repeat *= levels[d])
		for (size_t r = 0; r < rows; r++) {
			size_t at = r / repeat % levels[d];

			x[d * rows + r] = levels[d] > 1
				? (double)at / (double)(levels[d] - 1) : 0.5;
		}
}

/* One slice a row, shuffled (Fisher and Yates); a random place inside. */
void tarn_samples_latin(double *x, size_t rows, size_t columns, uint64_t seed)
{
	for (size_t d = 0; d < columns; d++) {
		double *column = x + d * rows;

		for (size_t r = 0; r < rows; r++)
			column[r] = (double)r;
		for (size_t r = rows; r-- > 0;) {
			double u = random_share(seed, d, 2 * r);
			double v = random_share(seed, d, 2 * r + 1);
			size_t other = (size_t)(u * (double)(r + 1));
			double slice = column[other];

			column[other] = column[r];
			column[r] = (slice + v) / (double)rows;
		}
	}
}

/*
 * Joe and Kuo (2008), SIAM Journal on Scientific Computing 30, file
 * new-joe-kuo-6.21201, dimensions 2 to 20: degree and coefficients of the
 * polynomial, first direction numbers.  Dimension 1 has all numbers 1.
 */
static const struct {
	unsigned degree, coefficients, m[7];
} directions[TARN_SOBOL_COLUMNS - 1] = {
	{ 1, 0, { 1 } },
	{ 2, 1, { 1, 3 } },
	{ 3, 1, { 1, 3, 1 } },
	{ 3, 2, { 1, 1, 1 } },
	{ 4, 1, { 1, 1, 3, 3 } },
	{ 4, 4, { 1, 3, 5, 13 } },
	{ 5, 2, { 1, 1, 5, 5, 17 } },
	{ 5, 4, { 1, 1, 5, 5, 5 } },
	{ 5, 7, { 1, 1, 7, 11, 19 } },
	{ 5, 11, { 1, 1, 5, 1, 1 } },
	{ 5, 13, { 1, 1, 1, 3, 11 } },
	{ 5, 14, { 1, 3, 5, 5, 31 } },
	{ 6, 1, { 1, 3, 3, 9, 7, 49 } },
	{ 6, 13, { 1, 1, 1, 15, 21, 21 } },
	{ 6, 16, { 1, 3, 1, 13, 27, 49 } },
	{ 6, 19, { 1, 1, 1, 15, 7, 5 } },
	{ 6, 22, { 1, 3, 1, 15, 13, 25 } },
	{ 6, 25, { 1, 1, 5, 5, 19, 61 } },
	{ 7, 1, { 1, 3, 7, 11, 23, 15, 103 } },
};

enum { BITS = 32 };

static void direct(size_t column, uint32_t v[BITS])
{
	unsigned s, a;

	if (column == 0) {
		for (unsigned i = 0; i < BITS; i++)
			v[i] = (uint32_t)1 << (BITS - 1 - i);
		return;
	}
	s = directions[column - 1].degree;
	a = directions[column - 1].coefficients;
	for (unsigned i = 0; i < s; i++)
		v[i] = directions[column - 1].m[i] << (BITS - 1 - i);
	for (unsigned i = s; i < BITS; i++) {
		v[i] = v[i - s] ^ v[i - s] >> s;
		for (unsigned k = 1; k < s; k++)
			if (a >> (s - 1 - k) & 1)
				v[i] ^= v[i - k];
	}
}

/* Gray code: point r differs from the one before by one direction. */
static void sobol_column(double *x, size_t rows, size_t column, size_t first)
{
	uint32_t v[BITS];

	direct(column, v);
	for (size_t r = 0; r < rows; r++) {
		size_t gray = (first + r) ^ (first + r) >> 1;
		uint32_t bits = 0;

		for (unsigned i = 0; gray >> i; i++)
			if (gray >> i & 1)
				bits ^= v[i];
		x[r] = bits / 4294967296.0;
	}
}

enum tarn_status tarn_samples_sobol(double *x, size_t rows, size_t columns,
				    size_t first, struct tarn_error *err)
{
	if (columns > TARN_SOBOL_COLUMNS)
		return tarn_fail(err, TARN_EARG, "columns", "of a Sobol' design "
				 "go up to %d, got %zu: take a Latin hypercube",
				 TARN_SOBOL_COLUMNS, columns);
	if (first + rows > (size_t)1 << 31)
		return tarn_fail(err, TARN_EARG, "rows", "of a Sobol' design go "
				 "up to 2^31, got %zu", first + rows);
	for (size_t d = 0; d < columns; d++)
		sobol_column(x + d * rows, rows, d, first);
	return TARN_OK;
}

enum tarn_status tarn_sensitivity_samples(double *x, size_t count,
					  size_t columns,
						  struct tarn_error *err)
{
	size_t rows = count * (columns + 2);

	if (columns < 1 || 2 * columns > TARN_SOBOL_COLUMNS)
		return tarn_fail(err, TARN_EARG, "columns", "must be 1 to %d, "
				 "got %zu", TARN_SOBOL_COLUMNS / 2, columns);
	for (size_t d = 0; d < columns; d++) {
		double *a = x + d * rows, *b = a + count;

		sobol_column(a, count, d, 0);
		sobol_column(b, count, columns + d, 0);
		for (size_t i = 0; i < columns; i++)
			memcpy(a + (2 + i) * count, i == d ? b : a,
			       count * sizeof(double));
	}
	return TARN_OK;
}

void tarn_samples_one_at_a_time(double *x, const double *low,
				const double *high, size_t columns)
{
	size_t rows = 1 + 2 * columns;

	for (size_t i = 0; i < rows * columns; i++)
		x[i] = TARN_NAN;
	for (size_t d = 0; d < columns; d++) {
		x[d * rows + 1 + 2 * d] = low[d];
		x[d * rows + 2 + 2 * d] = high[d];
	}
}

void tarn_samples_scale(double *column, size_t rows, double low, double high)
{
	for (size_t r = 0; r < rows; r++)
		column[r] = low + column[r] * (high - low);
}
