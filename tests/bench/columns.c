/* SPDX-License-Identifier: MIT */
/*
 * Bench of a study's columns: what a row of 30 years costs by what its columns
 * touch.  Prints microseconds a row and the ratio to a row whose column
 * touches nothing else, in one run; the least of several, taken in turn.
 *
 *     columns [variants]
 */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "../study_world.h"

enum { DAYS = 10957, ROUNDS = 5, COLUMNS = 2 };

static const char pond_text[] =
	"{ \"overflow_level\": 0.9, \"trigger\": 0.8, \"target\": 0.82, \"intake\": 0.4,"
	"  \"splash\": 1e-7,"
	"  \"stream\": { \"length\": 3, \"width\": 0.4, \"slope\": 0.05,"
	"                \"manning\": 0.035 },"
	"  \"falls\": [ { \"bed\": true, \"width\": 0.6, \"drop\": 0.1 },"
	"               { \"width\": 0.5, \"drop\": 0.1, \"pool\": 0.3 } ],"
	"  \"pump\": { \"curve\": [ [0, 4], [0.001, 3], [0.003, 0] ] },"
	"  \"pipes\": [ { \"to\": \"bed\", \"diameter\": 0.04, \"length\": 6,"
	"                 \"lift\": 0.6, \"siphon\": 0.05 } ],"
	"  \"bed\": { \"area\": 6, \"cover\": 0.05, \"layers\": ["
	"    { \"thickness\": 0.4, \"porosity\": 0.4, \"diameter\": 0.02 },"
	"    { \"thickness\": 0.2, \"porosity\": 0.35, \"diameter\": 0.01 } ] },"
	"  \"basin\": { \"shape\": \"ellipse\", \"length\": 6, \"width\": 4,"
	"    \"depth\": 1.1, \"side_slope\": 0.2,"
	"    \"shelves\": [ { \"depth\": 0.3, \"width\": 0.3 } ] } }";

/* A column's numbers: 'steps' of them from low to high, each for 'repeat' rows
 * on end. */
struct range {
	const char *path;
	double low, high;
	size_t steps, repeat;
};

static const struct {
	const char *name;
	struct range column[COLUMNS];
} trials[] = {
	{ "seepage.rate (plain)", { { "seepage.rate", 0, 2, 1000, 1 } } },
	{ "bed.area (in transit)", { { "bed.area", 4, 8, 1000, 1 } } },
	{ "overflow_level (network)", { { "overflow_level", 0.88, 0.92, 1000,
					  1 } } },
	{ "pipes[1].diameter (network)",
	  { { "pipes[1].diameter", 0.035, 0.05, 1000, 1 } } },
	{ "4 diameters, each with 25 rates",
	  { { "pipes[1].diameter", 0.035, 0.05, 4, 25 },
	    { "seepage.rate", 0, 2, 25, 1 } } },
	{ "basin.length (basin)", { { "basin.length", 5, 7, 1000, 1 } } },
	{ "4 lengths, each with 25 rates",
	  { { "basin.length", 5, 7, 4, 25 },
	    { "seepage.rate", 0, 2, 25, 1 } } },
};
enum { TRIALS = sizeof trials / sizeof trials[0] };

static double cpu_s(void)
{
	struct timespec t;

	clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static void fill(const struct range *r, double *x, size_t variants)
{
	for (size_t i = 0; i < variants; i++)
		x[i] = r->low + (r->high - r->low) *
		       (double)(i / r->repeat % r->steps) /
		       (double)(r->steps - 1);
}

/* Microseconds a row. */
static double run(const struct tarn_study *base, size_t trial, double *x,
		  double *topup)
{
	struct tarn_study study = *base;
	struct tarn_study_column column[COLUMNS];
	struct tarn_study_rows rows = { .count = base->variants };
	struct tarn_error err = { 0 };
	double start;

	study.columns = column;
	for (size_t i = 0; i < COLUMNS && trials[trial].column[i].path; i++) {
		double *values = x + i * base->variants;

		fill(&trials[trial].column[i], values, base->variants);
		column[i] = (struct tarn_study_column){
			trials[trial].column[i].path, TARN_SET, values
		};
		study.column_count = i + 1;
	}
	rows.value[TARN_Q_TOPUP] = topup;
	start = cpu_s();
	if (tarn_study_run(&study, &rows, &err) != TARN_OK) {
		fprintf(stderr, "%s %s\n", err.field, err.text);
		abort();
	}
	return (cpu_s() - start) * 1e6 / (double)base->variants;
}

static void print(const double *us)
{
	printf("\nRows of %d days by what their columns touch, one thread:\n",
	       DAYS);
	for (size_t i = 0; i < TRIALS; i++)
		printf("  %-34s %8.1f us a row   %5.2f times a plain one\n",
		       trials[i].name, us[i], us[i] / us[0]);
}

int main(int argc, char **argv)
{
	size_t variants = argc > 1 ? (size_t)atol(argv[1]) : 1000;
	struct tarn_design *design;
	const struct tarn_design *designs;
	struct tarn_resolved made;
	struct tarn_study study = tarn_study_default();
	struct world world;
	double *x = calloc((COLUMNS + 1) * variants, sizeof *x);
	double us[TRIALS];

	world_make(&world, tarn_day(1991, 1, 1), DAYS, 3);
	if (!x || tarn_design_read_json(&design, NULL, pond_text,
					strlen(pond_text), NULL) != TARN_OK ||
	    tarn_design_resolve(design, &made, NULL) != TARN_OK)
		abort();
	designs = design;
	study.ponds = &made.pond;
	study.designs = &designs;
	study.weathers = &world.forcing;
	study.variants = variants;
	for (int i = 0; i < ROUNDS; i++)
		for (size_t k = 0; k < TRIALS; k++) {
			double now = run(&study, k, x, x + COLUMNS * variants);

			if (i == 0 || now < us[k])
				us[k] = now;
		}
	print(us);
	tarn_resolved_free(&made);
	tarn_design_free(design);
	world_free(&world);
	free(x);
	return 0;
}
