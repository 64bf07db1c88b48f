/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "tarn.h"

/*
 * A hundred years of daily weather read, evaporation computed and the ledger
 * run, in one process; beside it `wc -l` on the same file.  The weather is De
 * Bilt's forty years, written over and over under running dates.  Then a
 * trade-off of ten thousand beds, and the sheet of a described pond by the
 * program that is named.
 */
#define SAMPLE "weather-samples/de_bilt_daily_1980_2019.csv"
#define ROUNDS 7

enum { COUNT, READ, EVAPORATE, LEDGER, STAGES };

static double seconds_of(clockid_t clock)
{
	struct timespec t;

	clock_gettime(clock, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Processor time, which a busy machine does not stretch; by the clock on the
 * wall the one thing that is another process. */
static double now(void)
{
	return seconds_of(CLOCK_PROCESS_CPUTIME_ID);
}

static double now_on_wall(void)
{
	return seconds_of(CLOCK_MONOTONIC);
}

static void must(int good, const char *what)
{
	if (good)
		return;
	fprintf(stderr, "bench: %s\n", what);
	exit(1);
}

static void done(enum tarn_status status, const struct tarn_error *err)
{
	if (status != TARN_OK)
		fprintf(stderr, "%s ", err->field);
	must(status == TARN_OK, err->text);
}

/* Writes the century; returns its bytes. */
static double write_century(const char *path)
{
	FILE *in = fopen(SAMPLE, "r"), *out = fopen(path, "w");
	char head[300], line[300], date[11];
	struct stat st;
	long day = tarn_day(1900, 1, 1), last = tarn_day(1999, 12, 31);

	must(in && out && fgets(head, sizeof head, in), SAMPLE);
	fputs(head, out);
	while (day <= last) {
		if (!fgets(line, sizeof line, in)) {
			rewind(in);
			must(fgets(head, sizeof head, in) != NULL, SAMPLE);
			continue;
		}
		tarn_day_text(day++, date);
		fprintf(out, "%s%s", date, line + 10);
	}
	fclose(in);
	must(fclose(out) == 0 && stat(path, &st) == 0, path);
	return (double)st.st_size;
}

/* Writes ten years of hours; returns its bytes. */
static double write_hours(const char *path)
{
	FILE *out = fopen(path, "w");
	long first = tarn_day(2000, 1, 1);
	struct stat st;
	char date[11];

	must(out != NULL, path);
	fputs("time,temperature (C),rain (mm),wind (m/s),humidity (%)\n", out);
	for (int h = 0; h < 10 * 365 * 24; h++) {
		tarn_day_text(first + h / 24, date);
		fprintf(out, "%sT%02d:00,%.1f,%.1f,%.2f,%d\n", date, h % 24,
			12 + 8 * sin(h / 3.8), h % 31 == 0 ? 1.2 : 0.0,
			2 + sin(h / 11.0), 70 + h % 25);
	}
	must(fclose(out) == 0 && stat(path, &st) == 0, path);
	return (double)st.st_size;
}

/* The reader on hours, beside its speed on days in the same run. */
static void time_hours(double days_mb_s)
{
	char path[] = "/tmp/tarn-bench-XXXXXX";
	int fd = mkstemp(path);
	double bytes = write_hours(path), best = HUGE_VAL, mb_s;
	struct tarn_error err = { 0 };

	close(fd);
	for (int k = 0; k < ROUNDS; k++) {
		struct tarn_weather *w;
		double t = now();

		done(tarn_weather_read(&w, NULL, path, NULL, NULL, &err), &err);
		best = fmin(best, now() - t);
		must(tarn_weather_days(w) == 3650, "hours");
		tarn_weather_free(w);
	}
	unlink(path);
	mb_s = bytes / 1e6 / best;
	printf("Ten years of hours, %.1f MB: read %5.0f MB/s, the best of %d; "
	       "%.2f x the days'\n", bytes / 1e6, mb_s, ROUNDS,
	       mb_s / days_mb_s);
}

static int by_value(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static struct tarn_basin *make_basin(void)
{
	struct tarn_shelved s = tarn_shelved_default();
	struct tarn_basin *b;
	struct tarn_error err = { 0 };

	s.shape = TARN_ELLIPSE;
	s.length_m = 4.9;
	s.width_m = 3.4;
	s.depth_m = 1.2;
	s.side_slope = 0.25;
	s.shelves = 1;
	s.shelf[0] = (struct tarn_shelf){ 0.3, 0.3 };
	done(tarn_basin_shelved(&b, NULL, &s, &err), &err);
	return b;
}

/* One round; fills the seconds of each stage, returns the days. */
static size_t time_round(const char *path, const struct tarn_pond *pond,
			 double seconds[STAGES])
{
	struct tarn_evaporation_options options =
		tarn_evaporation_options_default();
	struct tarn_run run = tarn_run_default();
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	struct tarn_ledger *book;
	struct tarn_forcing f = { .left_out = NULL };
	char command[100];
	double *open, t = now_on_wall();

	snprintf(command, sizeof command, "wc -l %s > /dev/null", path);
	must(system(command) == 0, command);
	seconds[COUNT] = now_on_wall() - t;
	t = now();
	done(tarn_weather_read(&w, NULL, path, NULL, NULL, &err), &err);
	seconds[READ] = now() - t;

	options.latitude_deg = 52.1;
	options.elevation_m = 2;
	options.wind_height_m = 10;
	f.days = tarn_weather_days(w);
	f.first_day = tarn_weather_first(w);
	open = malloc(2 * f.days * sizeof *open);
	must(open != NULL, "out of memory");
	t = now();
	done(tarn_evaporation_run(w, &options, open, open + f.days, NULL, NULL,
				  &err), &err);
	seconds[EVAPORATE] = now() - t;

	f.rain_mm = tarn_weather_column(w, TARN_RAIN);
	f.open_water_mm = open;
	f.grass_mm = open + f.days;
	t = now();
	done(tarn_ledger_run(&book, NULL, pond, &f, &run, &err), &err);
	seconds[LEDGER] = now() - t;
	tarn_ledger_free(book);
	tarn_weather_free(w);
	free(open);
	return f.days;
}

/* A trade-off of 40 x 25 x 10 beds of layers; returns cells a second. */
static double time_tradeoff(void)
{
	enum { AREAS = 40, DEPTHS = 25, FLOWS = 10 };
	static double area[AREAS], depth[DEPTHS], flow[FLOWS];
	static struct tarn_bed_check cells[AREAS * DEPTHS * FLOWS];
	struct tarn_layer layer[3];
	struct tarn_sizing s = tarn_sizing_default();
	struct tarn_tradeoff axes = { area, depth, flow, AREAS, DEPTHS, FLOWS };
	struct tarn_error err = { 0 };
	double best = HUGE_VAL;

	for (int i = 0; i < AREAS; i++)
		area[i] = 1 + 0.2 * i;
	for (int i = 0; i < DEPTHS; i++)
		depth[i] = 0.3 + 0.04 * i;
	for (int i = 0; i < FLOWS; i++)
		flow[i] = 5e-4 * (1 + i);
	for (int i = 0; i < 3; i++) {
		layer[i] = tarn_layer_default();
		layer[i].thickness_m = 0.2;
		layer[i].diameter_m = 0.06 / (1 + i);
		layer[i].porosity = 0.4;
	}
	s.layer = layer;
	s.layer_count = 3;
	s.pond_volume_m3 = 8;
	s.pond_area_m2 = 12;
	s.feed_g = 80;
	s.pond_target_mgl = 0.5;
	s.k_m_yr = 2500;
	s.max_area_m2 = 6;
	s.cover_m = 0.05;
	s.available_head_m = 0.3;
	for (int k = 0; k < ROUNDS; k++) {
		double t = now();

		done(tarn_tradeoff(&s, &axes, cells, &err), &err);
		best = fmin(best, now() - t);
	}
	return AREAS * DEPTHS * FLOWS / best;
}

/* 256 worlds of 30 made-up years beside one ledger of them. */
static void time_forecast(const struct tarn_pond *pond)
{
	enum { DAYS = 30 * 365 };
	static double rain[DAYS], open[DAYS];
	static struct tarn_forecast out;
	struct tarn_forcing f = { tarn_day(1990, 1, 1), DAYS, rain, open,
				  open, NULL };
	struct tarn_exposure_budget budget = { .centre_sd_ln = 0.22,
					       .slow_sd_ln = 0.08,
					       .day_sd = 0.25 };
	double one = HUGE_VAL, all = HUGE_VAL;
	struct tarn_error err = { 0 };

	for (int i = 0; i < DAYS; i++) {
		rain[i] = i % 4 == 0 ? 8 : 0;
		open[i] = 2.5 - 2 * cos(i / 58.13);
	}
	for (int k = 0; k < ROUNDS; k++) {
		struct tarn_ledger *book;
		double t = now();

		done(tarn_ledger_run(&book, NULL, pond, &f, NULL, &err), &err);
		one = fmin(one, now() - t);
		tarn_ledger_free(book);
		t = now();
		done(tarn_forecast(&out, NULL, pond, &f, NULL, &budget, NULL,
				   &err), &err);
		all = fmin(all, now() - t);
	}
	printf("A forecast of %d worlds and 30 years: %.0f ms of processor "
	       "time, %.0f x one ledger\n", TARN_FORECAST_WORLDS, all * 1e3, all / one);
}

static void time_sheet(const char *program)
{
	double best = HUGE_VAL;
	char command[300];

	snprintf(command, sizeof command, "%s sheet weather-samples/"
		 "courtyard-pond.lua weather-samples/seattle_daily_2012_2015"
		 ".csv --map weather-samples/seattle-map.lua > /dev/null; "
		 "[ $? -eq 4 ]", program);
	for (int k = 0; k < ROUNDS; k++) {
		double t = now();

		must(system(command) == 0, command);
		best = fmin(best, now() - t);
	}
	printf("A sheet of a described pond: %.0f ms\n", best * 1e3);
}

int main(int count, char **words)
{
	char path[] = "/tmp/tarn-bench-XXXXXX";
	int fd = mkstemp(path);
	double bytes = write_century(path), stage[STAGES], all[STAGES][ROUNDS];
	struct tarn_basin *basin = make_basin();
	struct tarn_pond pond = tarn_pond_default();
	double days = 0, cells_s;

	close(fd);
	pond.basin = basin;
	pond.overflow_level_m = 1.1;
	pond.trigger_m = 1.05;
	pond.bed.area_m2 = 2.3;
	pond.stream.area_m2 = 1.1;
	for (int k = 0; k < ROUNDS; k++) {
		days = (double)time_round(path, &pond, stage);
		for (int s = 0; s < STAGES; s++)
			all[s][k] = stage[s];
	}
	unlink(path);
	for (int s = 0; s < STAGES; s++) {
		qsort(all[s], ROUNDS, sizeof(double), by_value);
		stage[s] = all[s][ROUNDS / 2];
	}
	printf("Processor time.  A century of days (%.0f), %.1f MB, medians of "
	       "%d rounds\n",
	       days, bytes / 1e6, ROUNDS);
	printf("  read        %7.1f ns a day  %5.0f MB/s, %.1f x the time of "
	       "wc -l\n", stage[READ] / days * 1e9, bytes / 1e6 / stage[READ],
	       stage[READ] / stage[COUNT]);
	printf("  evaporation %7.1f ns a day\n", stage[EVAPORATE] / days * 1e9);
	printf("  ledger      %7.1f ns a day\n", stage[LEDGER] / days * 1e9);
	printf("  evaporation and ledger of a year: %.3f ms\n",
	       (stage[EVAPORATE] + stage[LEDGER]) / days * 365.25 * 1e3);
	time_hours(bytes / 1e6 / all[READ][0]);
	time_forecast(&pond);
	tarn_basin_free(basin);
	cells_s = time_tradeoff();
	printf("A trade-off of 10,000 beds: %.1f ms, %.2f million cells a "
	       "second\n", 1e7 / cells_s, cells_s / 1e6);
	if (count > 1)
		time_sheet(words[1]);
	return 0;
}
