/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stddef.h>

/* Square roots and nothing else, as wide as the processor takes them. */

#if defined(__x86_64__) && defined(__gnu_linux__) && defined(__GNUC__) && \
	!defined(__clang__) && __GNUC__ >= 12
#define CLONES __attribute__((target_clones("arch=x86-64-v4", \
					    "arch=x86-64-v3", "default")))
#else
#define CLONES
#endif

double bench_roots(double *x, size_t count, int rounds);

CLONES
double bench_roots(double *x, size_t count, int rounds)
{
	for (int r = 0; r < rounds; r++)
		for (size_t i = 0; i < count; i++)
			x[i] = sqrt(x[i]);
	return x[0] + x[count - 1];
}
