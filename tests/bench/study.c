/* SPDX-License-Identifier: MIT */
/*
 * Bench of the study: the same physics as arrays of ponds, as a plain loop
 * over one pond in C, in NumPy over variants, in Lua; and the square roots
 * alone, which none can do without.  Prints ns per pond-day and ratios.
 *
 *     study [variants] [path of this folder]
 *
 * Times of one thread are processor time, the least of several runs taken in
 * turn; times of two threads are wall time.
 */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "../study_world.h"
#include "tarn/pond/step.h"

enum { DAYS = 10957, ROUNDS = 5, LOOP_PONDS = 200 };

static double clock_s(clockid_t id)
{
	struct timespec t;

	clock_gettime(id, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static double cpu_s(void)
{
	return clock_s(CLOCK_PROCESS_CPUTIME_ID);
}

static double wall_s(void)
{
	return clock_s(CLOCK_MONOTONIC);
}

static void keep_least(double *least, double x)
{
	if (x < *least)
		*least = x;
}

/* ---- the study -------------------------------------------------------------- */

struct bench {
	struct world world;
	struct tarn_basin *basin;
	struct tarn_pond pond;
	double *lip, *bed, *seepage;
	struct tarn_study_column column[3];
	struct tarn_study study;
	struct tarn_study_rows rows;
};

static void setup(struct bench *b, size_t variants, struct tarn_basin *basin,
		  size_t days)
{
	uint64_t seed = 9;

	memset(b, 0, sizeof *b);
	world_make(&b->world, tarn_day(1991, 1, 1), days, 3);
	b->basin = basin;
	b->pond = world_pond(basin);
	b->lip = malloc(3 * variants * sizeof(double));
	b->bed = b->lip + variants;
	b->seepage = b->bed + variants;
	for (size_t i = 0; i < variants; i++) {
		b->lip[i] = 1.16 + 0.08 * world_random(&seed);
		b->bed[i] = 4 * world_random(&seed);
		b->seepage[i] = 2 * world_random(&seed);
	}
	b->column[0] = (struct tarn_study_column){ "overflow_level", TARN_SET,
						   b->lip };
	b->column[1] = (struct tarn_study_column){ "bed.area", TARN_SET,
						   b->bed };
	b->column[2] = (struct tarn_study_column){ "seepage.rate", TARN_SET,
						   b->seepage };
	b->study = tarn_study_default();
	b->study.ponds = &b->pond;
	b->study.weathers = &b->world.forcing;
	b->study.columns = b->column;
	b->study.column_count = 3;
	b->study.variants = variants;
	b->rows.count = variants;
	for (int q = 0; q < TARN_QUANTITIES; q++)
		b->rows.value[q] = calloc(variants, sizeof(double));
}

static void teardown(struct bench *b)
{
	for (int q = 0; q < TARN_QUANTITIES; q++)
		free(b->rows.value[q]);
	free(b->lip);
	world_free(&b->world);
	tarn_basin_free(b->basin);
}

/* ns per pond-day of one run. */
static double run(struct bench *b, int threads)
{
	double (*now)(void) = threads > 1 ? wall_s : cpu_s;
	double start = now();

	b->study.threads = threads;
	if (tarn_study_run(&b->study, &b->rows, NULL) != TARN_OK)
		abort();
	return (now() - start) * 1e9 / (double)b->rows.count /
	       (double)b->world.forcing.days;
}

static double best_run(struct bench *b, int threads, int rounds)
{
	double least = HUGE_VAL;

	for (int i = 0; i < rounds; i++)
		keep_least(&least, run(b, threads));
	return least;
}

/* ---- the same, straightforward ----------------------------------------------- */

/* Numbers of a pond that runs its pump all day, in volumes. */
struct plain {
	double lip, rain, open, seep, stream, plant, splash, trigger, target,
		intake, start;
};

static struct plain plain_of(const struct bench *b, size_t i)
{
	struct tarn_pond p = b->pond;
	struct step_pond s;

	p.overflow_level_m = b->lip[i];
	p.bed.area_m2 = b->bed[i];
	p.seepage.rate_mm_d = b->seepage[i];
	if (tn_step_prepare(&s, &p, NULL) != TARN_OK)
		abort();
	return (struct plain){
		s.season[0].room_m3, s.season[0].rain_m3_mm,
		s.season[0].open_m_mm, s.fixed.seepage_m,
		s.season[0].stream_m3_mm, s.season[0].plant_m3_mm,
		s.season[0].splash_m3, s.fixed.trigger_m3, s.fixed.target_m3,
		s.fixed.intake_m3, s.fixed.target_m3
	};
}

/* Top-up of the whole run; the other sums are kept from being dropped. */
static double plain_run(const struct plain *p, const struct bench *b,
			double *other)
{
	const struct tarn_basin *t = b->basin;
	const struct tarn_forcing *w = &b->world.forcing;
	double v = p->start, topup = 0, over = 0, low = v;
	int under = 0;
	size_t seg = 0;

	for (size_t d = 0; d < w->days; d++) {
		double area, lost, s;

		v += w->rain_mm[d] * p->rain;
		if (v > p->lip) {
			over += v - p->lip;
			v = p->lip;
		}
		while (seg > 0 && v <= t->volume_m3[seg])
			seg--;
		while (seg + 2 < t->rows && v > t->volume_m3[seg + 1])
			seg++;
		s = (t->area_m2[seg + 1] - t->area_m2[seg]) /
		    (t->level_m[seg + 1] - t->level_m[seg]);
		area = sqrt(t->area_m2[seg] * t->area_m2[seg] +
			    2 * s * (v - t->volume_m3[seg]));
		lost = area * (w->open_water_mm[d] * p->open + p->seep) +
		       w->open_water_mm[d] * p->stream +
		       w->grass_mm[d] * p->plant + p->splash;
		v -= lost;
		if (v < 0)
			v = 0;
		if (v < p->trigger) {
			topup += p->target - v;
			v = p->target;
		}
		if (v < low)
			low = v;
		under += v < p->intake;
	}
	*other += over + low + under;
	return topup;
}

static double loop(const struct bench *b, double *topup, double *other)
{
	double start;

	*topup = 0;
	start = cpu_s();
	for (size_t i = 0; i < LOOP_PONDS; i++) {
		struct plain p = plain_of(b, i);

		*topup += plain_run(&p, b, other);
	}
	return (cpu_s() - start) * 1e9 / LOOP_PONDS / DAYS;
}

static double ledgers(const struct bench *b)
{
	enum { RUNS = 20 };
	double start = cpu_s();

	for (int i = 0; i < RUNS; i++) {
		struct tarn_ledger *l;

		if (tarn_ledger_run(&l, NULL, &b->pond, &b->world.forcing,
				    &b->study.run, NULL) != TARN_OK)
			abort();
		tarn_ledger_free(l);
	}
	return (cpu_s() - start) * 1e9 / RUNS / DAYS;
}

/* ---- the floor ----------------------------------------------------------------- */

double bench_roots(double *x, size_t count, int rounds);

static double floor_ns(double *other)
{
	enum { N = 1024, TIMES = 20000 };
	static double x[N];
	double start;

	for (int i = 0; i < N; i++)
		x[i] = 1 + i;
	start = cpu_s();
	*other += bench_roots(x, N, TIMES);
	return (cpu_s() - start) * 1e9 / N / TIMES;
}

/* ---- other languages ------------------------------------------------------------- */

static void put(FILE *f, const double *x, size_t n)
{
	if (fwrite(x, sizeof *x, n, f) != n)
		abort();
}

/* Numbers for the other languages: counts, segments, weather, ponds. */
static void write_inputs(const struct bench *b, const char *path)
{
	FILE *f = fopen(path, "wb");
	const struct tarn_basin *t = b->basin;
	size_t n = b->rows.count, segments = t->rows - 1;
	double head[3] = { (double)n, DAYS, (double)segments };

	if (!f)
		abort();
	put(f, head, 3);
	for (size_t i = 0; i < segments; i++) {
		double s = (t->area_m2[i + 1] - t->area_m2[i]) /
			   (t->level_m[i + 1] - t->level_m[i]);
		double row[3] = { t->volume_m3[i],
				  t->area_m2[i] * t->area_m2[i], 2 * s };

		put(f, row, 3);
	}
	put(f, b->world.rain, 3 * DAYS);
	for (size_t i = 0; i < n; i++) {
		struct plain p = plain_of(b, i);

		put(f, &p.lip, sizeof p / sizeof(double));
	}
	fclose(f);
}

/* Runs "command file"; its line is "ns topup".  0 if it cannot run. */
static int ask(const char *command, const char *file, double *ns, double *topup)
{
	char line[512];
	FILE *f;
	int ok;

	snprintf(line, sizeof line, "%s %s 2> /dev/null", command, file);
	f = popen(line, "r");
	ok = f && fscanf(f, "%lf %lf", ns, topup) == 2;
	if (f)
		pclose(f);
	return ok;
}

static void other_languages(const struct bench *b, const char *folder,
			    double study_ns, double study2_ns)
{
	static const char *const name[2] = { "NumPy over variants",
					     "Lua 5.4, one pond" };
	static const char *const how[2] = { "${PYTHON:-python3} %s/study_numpy.py",
					    "lua5.4 %s/study.lua" };
	char file[] = "/tmp/tarn-bench-XXXXXX", command[256];
	int fd = mkstemp(file);

	if (fd < 0)
		return;
	write_inputs(b, file);
	for (int i = 0; i < 2; i++) {
		double ns, topup, want = 0;
		size_t ponds = i == 0 ? b->rows.count : 20;

		snprintf(command, sizeof command, how[i], folder);
		if (!ask(command, file, &ns, &topup)) {
			printf("%-34s not there\n", name[i]);
			continue;
		}
		for (size_t k = 0; k < ponds && k < b->rows.count; k++)
			want += b->rows.value[TARN_Q_TOPUP][k];
		printf("%-34s %8.3f ns   study %5.1f times faster on 1 thread, "
		       "%.1f on 2; top-up differs by %.0e\n", name[i], ns,
		       ns / study_ns, ns / study2_ns, fabs(topup / want - 1));
	}
	remove(file);
}

/* ---- tables -------------------------------------------------------------------- */

static void terms(size_t variants)
{
	static const char *const name[] = {
		"as above", "+ rain tank", "+ restricted summers",
		"+ apron by curve number", "+ pump stops in winter",
		"+ seepage by head", "+ all of these"
	};

	printf("\nWhat a term costs, one thread, ns:     8 levels   shelved "
	       "basin\n");
	for (int i = 0; i < 7; i++) {
		printf("  %-34s", name[i]);
		for (int fine = 0; fine < 2; fine++) {
			struct bench b;
			int all = i == 6;

			setup(&b, variants, fine ? world_shelves()
						 : world_basin(), DAYS);
			if (i == 1 || all) {
				b.pond.tank.capacity_m3 = 2;
				b.pond.tank.roof_m2 = 40;
			}
			if (i == 2 || all)
				b.pond.supply.when.months = 0xe3e;
			if (i == 3 || all) {
				b.pond.apron.coefficient = TARN_NAN;
				b.pond.apron.curve_number = 85;
			}
			if (i == 4 || all)
				b.pond.pump.hours[0] = b.pond.pump.hours[11] =
					0;
			if (i == 5 || all)
				b.pond.seepage.per_head_m3s_m = 5e-7;
			printf(" %10.3f", best_run(&b, 1, 3));
			teardown(&b);
		}
		printf("\n");
	}
}

static void growth(void)
{
	static const struct {
		size_t variants, days;
	} rows[] = {
		{ 1, DAYS }, { 8, DAYS }, { 128, DAYS }, { 1000, DAYS },
		{ 10000, DAYS }, { 100000, DAYS },
		{ 2048, 365 }, { 2048, 3652 }, { 2048, 36524 },
	};

	printf("\nGrowth, one thread:\n");
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct bench b;

		setup(&b, rows[i].variants, world_basin(), rows[i].days);
		printf("  %6zu variants %6zu days %8.3f ns\n", rows[i].variants,
		       rows[i].days, best_run(&b, 1, 3));
		teardown(&b);
	}
}

int main(int argc, char **argv)
{
	size_t variants = argc > 1 ? (size_t)atol(argv[1]) : 10000;
	double one = HUGE_VAL, two = HUGE_VAL, plain = HUGE_VAL;
	double roots = HUGE_VAL, ledger = HUGE_VAL, other = 0, topup, sum = 0;
	struct bench b;

	setup(&b, variants, world_basin(), DAYS);
	for (int i = 0; i < ROUNDS; i++) {	/* in turn: neighbours disturb all */
		keep_least(&one, run(&b, 1));
		keep_least(&roots, floor_ns(&other));
		keep_least(&two, run(&b, 2));
		keep_least(&plain, loop(&b, &topup, &other));
		keep_least(&ledger, ledgers(&b));
	}
	for (size_t i = 0; i < LOOP_PONDS && i < variants; i++)
		sum += b.rows.value[TARN_Q_TOPUP][i];
	printf("%zu ponds, %d days, %d levels; ns per pond-day\n\n", variants,
	       DAYS, (int)b.basin->rows);
	printf("%-34s %8.3f ns   %.2f times the floor; %.3f s in all\n",
	       "study, 1 thread", one, one / roots,
	       one * 1e-9 * (double)variants * DAYS);
	printf("%-34s %8.3f ns   %.3f s in all\n", "study, 2 threads (wall)",
	       two, two * 1e-9 * (double)variants * DAYS);
	printf("%-34s %8.3f ns\n", "square roots alone (floor)", roots);
	printf("%-34s %8.3f ns   study %.1f times faster on 1 thread, %.1f on "
	       "2; top-up differs by %.0e\n", "plain C, one pond at a time",
	       plain, plain / one, plain / two, fabs(topup / sum - 1));
	printf("%-34s %8.3f ns   with all daily output\n", "single ledger",
	       ledger);
	other_languages(&b, argc > 2 ? argv[2] : "tests/bench", one, two);
	teardown(&b);
	terms(variants < 2048 ? variants : 2048);
	growth();
	return other > 0 ? 0 : 1;
}
