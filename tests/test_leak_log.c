/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "tarn/leak.h"

static struct tarn_log *read_log(const char *path,
				 const struct tarn_log_options *options)
{
	struct tarn_error err = { 0 };
	struct tarn_log *log;

	cr_assert(tarn_log_read(&log, NULL, path, options, &err) == TARN_OK,
		  "%s:%ld:%ld: %s %s", path, err.line, err.column, err.field,
		  err.text);
	return log;
}

/* A log written to a file for a test; removed again. */
static struct tarn_log *text_log(const char *text,
				 const struct tarn_log_options *options)
{
	char path[] = "/tmp/tarn-log-XXXXXX";
	int fd = mkstemp(path);
	struct tarn_log *log;

	cr_assert(fd >= 0);
	cr_assert(write(fd, text, strlen(text)) == (ssize_t)strlen(text));
	close(fd);
	log = read_log(path, options);
	unlink(path);
	return log;
}

Test(log, a_real_one)
{
	struct tarn_log_options o = tarn_log_options_default();
	struct tarn_log *log = read_log("tests/data/pond-log.csv", &o);
	struct tarn_log_info info = tarn_log_info(log);
	static const double inches[] = { 1.5, 1.625, 1.875, 2.125, 0.75, 1,
					 1.125, 1.75 };
	size_t count;
	const struct tarn_reading *r = tarn_log_readings(log, &count);

	cr_assert(count == 8, "%zu", count);
	for (size_t i = 0; i < count; i++)
		cr_expect(fabs(r[i].level_m + inches[i] * 0.0254) < 1e-12,
			  "row %zu: %g", i, r[i].level_m / 0.0254);
	cr_expect(r[0].day == tarn_day(2025, 5, 2));
	cr_expect(r[0].hour == 7.5);
	cr_expect(r[1].hour == 7.75);
	cr_expect(isnan(r[2].hour));
	cr_expect(r[3].hour == 19.5);
	cr_expect(r[2].marks == TARN_LOG_RAIN);
	cr_expect(r[4].marks == (TARN_LOG_REFILL | TARN_LOG_OTHER));
	cr_expect(r[5].marks == TARN_LOG_PUMP_OFF);
	cr_expect(r[6].marks == TARN_LOG_PUMP_OFF);
	cr_expect(r[7].marks == TARN_LOG_SKIP);
	cr_expect(r[0].line == 3 && r[0].column == 17, "%ld:%ld", r[0].line,
		  r[0].column);
	cr_expect(isnan(r[0].meter_m3));
	cr_expect(info.counts_down);
	cr_expect(fabs(info.step_m - 0.0254 / 8) < 1e-12);
	cr_expect(info.levels == 8 && info.meters == 0);
	cr_expect(info.without_time == 1);
	cr_expect_str_eq(info.ignored, "Fish fed");
	tarn_log_free(log);
}

Test(log, units_signs_and_dates)
{
	struct tarn_log_options o = tarn_log_options_default();
	size_t count;
	const struct tarn_reading *r;
	struct tarn_log *log;

	log = text_log("\xef\xbb\xbf" "date;level_cm;meter_kgal\r\n"
		       "2025-05-02 06:00;81.5;12.5\r\n"
		       "\r\n"
		       "2025-05-02T18:00;81.3;12.75", &o);
	r = tarn_log_readings(log, &count);
	cr_assert(count == 2);
	cr_expect(fabs(r[1].level_m - 0.813) < 1e-12);
	cr_expect(fabs(r[1].meter_m3 - 12750 * tarn_unit("gal")) < 1e-9);
	cr_expect(r[0].hour == 6 && r[1].hour == 18);
	cr_expect(r[1].line == 4 && r[1].column == 18, "%ld:%ld", r[1].line,
		  r[1].column);
	cr_expect(!tarn_log_info(log).counts_down);
	tarn_log_free(log);

	o.unit = TARN_LOG_FT;
	o.sign = TARN_LOG_UP;
	o.dates = TARN_LOG_MDY;
	log = text_log("reading,DATE\n2.5,7/4/2025\n2 1/4,7/11/2025\n", &o);
	r = tarn_log_readings(log, &count);
	cr_expect(r[1].day == tarn_day(2025, 7, 11));
	cr_expect(fabs(r[1].level_m - 2.25 * 0.3048) < 1e-12);
	tarn_log_free(log);
	o.dates = TARN_LOG_DMY;
	o.sign = TARN_LOG_SIGN_BY_HEADER;
	log = text_log("reading,date\n2.5,4.7.2025\n", &o);
	r = tarn_log_readings(log, &count);
	cr_expect(r[0].day == tarn_day(2025, 7, 4));
	cr_expect(r[0].level_m < 0);
	tarn_log_free(log);
	tarn_log_free(NULL);
}

/* Marks of a row without a number go to the next reading. */
Test(log, a_note_without_a_reading)
{
	struct tarn_log_options o = tarn_log_options_default();
	struct tarn_log *log = text_log("date,drop_mm,note\n"
					"2025-05-02,10,\n"
					"2025-05-03,,\"topped up, long\"\n"
					"2025-05-04,4,\n", &o);
	size_t count;
	const struct tarn_reading *r = tarn_log_readings(log, &count);

	cr_assert(count == 2);
	cr_expect(r[1].marks & TARN_LOG_REFILL);
	tarn_log_free(log);
}

/* The pond and weather that the files of tests/bad/logs are laid on. */
static enum tarn_status fit(const struct tarn_log *log, struct tarn_error *err)
{
	static const double level[] = { 0, 1.05 }, area[] = { 10, 10 };
	static double dry[60], some[60];
	struct tarn_forcing f = { tarn_day(2025, 5, 1), 60, dry, some, some, NULL };
	struct tarn_leak_options o = tarn_leak_options_default();
	struct tarn_pond p = tarn_pond_default();
	struct tarn_basin *basin;
	struct tarn_leak *leak;
	size_t count;
	const struct tarn_reading *r = tarn_log_readings(log, &count);
	enum tarn_status status;

	for (size_t i = 0; i < 60; i++)
		some[i] = 4;
	cr_assert(tarn_basin_table(&basin, NULL, level, area, 2, NULL) ==
		  TARN_OK);
	p.basin = basin;
	p.overflow_level_m = 1;
	o.counts_down = tarn_log_info(log).counts_down;
	status = tarn_leak_fit(&leak, NULL, &p, &f, r, count, &o, err);
	if (status == TARN_OK)
		tarn_leak_free(leak);
	tarn_basin_free(basin);
	return status;
}

/* Broken logs: the first line says what must be told. */
Test(log, refuses_bad_ones)
{
	struct tarn_log_options o = tarn_log_options_default();
	glob_t files;

	cr_assert(glob("tests/bad/logs/*.csv", 0, NULL, &files) == 0);
	cr_expect(files.gl_pathc >= 30, "%zu files", files.gl_pathc);
	for (size_t i = 0; i < files.gl_pathc; i++) {
		const char *path = files.gl_pathv[i];
		struct tarn_error err = { 0 };
		struct tarn_log *log;
		char want[300] = "", got[500];
		FILE *f = fopen(path, "rb");
		enum tarn_status status;

		cr_assert(f && fgets(want, sizeof want, f));
		fclose(f);
		want[strcspn(want, "\n")] = '\0';
		cr_assert(strncmp(want, "# expect: ", 10) == 0, "%s", path);
		status = tarn_log_read(&log, NULL, path, &o, &err);
		if (status == TARN_OK) {
			status = fit(log, &err);
			tarn_log_free(log);
		}
		snprintf(got, sizeof got, "%ld:%ld: %s: %s", err.line,
			 err.column, err.field, err.text);
		if (!err.field[0])
			snprintf(got, sizeof got, "%ld:%ld: %s", err.line,
				 err.column, err.text);
		cr_expect(status == TARN_EFORMAT || status == TARN_EARG,
			  "%s: status %d", path, status);
		cr_expect(strstr(got, want + 10) != NULL,
			  "%s: '%s' is not in: %s", path, want + 10, got);
	}
	globfree(&files);
}

/* Cells that look like a number, a time or a date, and are none. */
Test(log, cells_that_are_none)
{
	static const struct {
		const char *row, *part;
	} rows[] = {
		{ "2025-05-02,08:00,1.2345678901234567", "'1.23456789012345" },
		{ "2025-05-02,08:00,.", "'.' is not a number" },
		{ "2025-05-02,08:00,1/0", "'1/0' is not a number" },
		{ "2025-05-02,08:00,3 4", "'3 4' is not a number" },
		{ "2025-05-02,08:00,3 5/2", "'3 5/2' is not a number" },
		{ "2025-05-02,08:00,1e3", "'1e3' is not a number" },
		{ "2025-05-02,7,1", "'7' is not a time" },
		{ "2025-05-02,24:01,1", "'24:01' is not a time" },
		{ "2025-05-02,7:60,1", "'7:60' is not a time" },
		{ "2025-05-02,13 pm,1", "'13 pm' is not a time" },
		{ "2025-05-02,0 am,1", "'0 am' is not a time" },
		{ "2025-05,08:00,1", "'2025-05' is not a date" },
		{ "2025-05/02,08:00,1", "'2025-05/02' is not a date" },
		{ "02-05-25,08:00,1", "'02-05-25' is not a date" },
		{ "2025-13-01,08:00,1", "'2025-13-01' is not a date" },
	};
	struct tarn_log_options o = tarn_log_options_default();

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		char path[] = "/tmp/tarn-log-XXXXXX", text[200];
		int fd = mkstemp(path);
		struct tarn_error err = { 0 };
		struct tarn_log *log;
		int n = snprintf(text, sizeof text, "date,time,reading_in\n%s\n",
				 rows[i].row);

		cr_assert(fd >= 0 && write(fd, text, (size_t)n) == n);
		close(fd);
		cr_expect(tarn_log_read(&log, NULL, path, &o, &err) ==
			  TARN_EFORMAT, "%s", rows[i].row);
		cr_expect(err.line == 2 && strstr(err.text, rows[i].part),
			  "'%s' is not in '%s'", rows[i].part, err.text);
		unlink(path);
	}
}

/* A drain is no rain; a meter may count liters; noon is 12 pm. */
Test(log, words_and_units)
{
	struct tarn_log_options o = tarn_log_options_default();
	struct tarn_log *log = text_log("date,time,reading_in,meter_liters,note\n"
					"2025-05-02,12 pm,1,1500,drained\n"
					"2025-05-03,12 am,2,1600,rain\n", &o);
	size_t count;
	const struct tarn_reading *r = tarn_log_readings(log, &count);

	cr_assert(count == 2);
	cr_expect(r[0].hour == 12 && r[1].hour == 0);
	cr_expect(r[0].marks == TARN_LOG_SKIP && r[1].marks == TARN_LOG_RAIN);
	cr_expect(fabs(r[0].meter_m3 - 1.5) < 1e-12);
	tarn_log_free(log);
}

Test(log, files_that_cannot_be_read)
{
	struct tarn_log_options o = tarn_log_options_default();
	struct tarn_error err = { 0 };
	struct tarn_log *log;

	cr_expect(tarn_log_read(&log, NULL, "nowhere.csv", &o, &err) ==
		  TARN_EIO);
	cr_expect(log == NULL);
	err.code = TARN_OK;
	cr_expect(tarn_log_read(&log, NULL, "/tmp", &o, &err) == TARN_EIO);
	o.unit = 17;
	cr_expect(tarn_log_read(&log, NULL, "/tmp", &o, NULL) == TARN_EARG);
}

/* Every allocation fails once. */
static void *resize_until(void *context, void *block, size_t bytes)
{
	int *left = context;

	if (bytes > 0 && (*left)-- <= 0)
		return NULL;
	return tarn_resize(NULL, block, bytes);
}

Test(log, survives_failed_allocations)
{
	struct tarn_log_options o = tarn_log_options_default();
	enum tarn_status status = TARN_ENOMEM;
	int failures = 0;

	while (status != TARN_OK) {
		int left = failures;
		struct tarn_alloc alloc = { resize_until, &left };
		struct tarn_log *log;

		status = tarn_log_read(&log, &alloc,
				       "tests/data/pond-log.csv", &o, NULL);
		cr_assert(status == TARN_OK || status == TARN_ENOMEM);
		tarn_log_free(log);
		cr_assert(failures++ < 10);
	}
	cr_expect(failures == 3);
}

/* A header decides; what stands below it may be wrong. */
Test(log, is_recognised_by_its_header)
{
	static const struct { const char *path; int log; } files[] = {
		{ "weather-samples/courtyard-log.csv", 1 },
		{ "tests/bad/logs/not-a-date.csv", 1 },
		{ "tests/bad/logs/unit-not-said.csv", 1 },
		{ "tests/bad/logs/no-date.csv", 0 },
		{ "tests/bad/logs/no-ruler.csv", 0 },
		{ "tests/bad/logs/empty.csv", 0 },
		{ "weather-samples/seattle_daily_2012_2015.csv", 0 },
		{ "tests/good/eccc.csv", 0 },
		{ "no-such.csv", 0 },
	};

	for (size_t i = 0; i < sizeof files / sizeof files[0]; i++)
		cr_expect(tarn_log_recognised(files[i].path) == files[i].log,
			  "%s", files[i].path);
}
