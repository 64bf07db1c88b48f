/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "map_text.h"

/*
 * The files of tests/good and tests/bad, each beside a .expect that holds
 * options of the map and what must come of it.
 */

/* ---- a case ---------------------------------------------------------- */

#define TEXT_MAX 200000

struct test_case {
	char path[300], csv[300];
	struct tarn_csv_map map;
	char text[TEXT_MAX];		/* the CSV */
	size_t bytes;
};

static enum tarn_column column(const struct test_case *t, const char *name)
{
	enum tarn_column c = tarn_column_find(name);

	cr_assert(c < TARN_COLUMNS, "%s: no column '%s'", t->path, name);
	return c;
}

typedef void expectation(struct test_case *t, const char *key, char *rest,
			 void *context);

/* Reads the .expect file; what is no option goes to 'expect'. */
static void read_expect(struct test_case *t, expectation *expect,
			void *context)
{
	FILE *file = fopen(t->path, "r");
	char line[500];

	cr_assert(file, "%s", t->path);
	while (fgets(line, sizeof line, file)) {
		char *rest = line, *key;

		line[strcspn(line, "\n")] = '\0';
		key = word(&rest);
		if (*key && !map_option(&t->map, key, rest) && expect)
			expect(t, key, rest, context);
	}
	fclose(file);
}

static void open_case(struct test_case *t, const char *folder,
		      const char *name)
{
	FILE *file;

	memset(t, 0, sizeof *t);
	t->map = tarn_csv_map_default();
	snprintf(t->path, sizeof t->path, "%s/%s", folder, name);
	snprintf(t->csv, sizeof t->csv, "%.*s.csv",
		 (int)(strlen(t->path) - strlen(".expect")), t->path);
	file = fopen(t->csv, "rb");
	cr_assert(file, "%s", t->csv);
	t->bytes = fread(t->text, 1, sizeof t->text, file);
	cr_assert(t->bytes < sizeof t->text);
	fclose(file);
}

/* Calls 'f' for each case of a folder; returns how many there are. */
static int each_case(const char *folder, void (*f)(struct test_case *))
{
	struct test_case *t = malloc(sizeof *t);
	DIR *dir = opendir(folder);
	struct dirent *entry;
	int count = 0;

	cr_assert(t && dir, "%s", folder);
	while ((entry = readdir(dir)) != NULL) {
		size_t n = strlen(entry->d_name);

		if (n < 8 || !is(entry->d_name + n - 7, ".expect"))
			continue;
		open_case(t, folder, entry->d_name);
		f(t);
		count++;
	}
	closedir(dir);
	free(t);
	return count;
}

/* ---- good files ------------------------------------------------------ */

struct good {
	struct tarn_weather *w;
	struct tarn_read_report report;
};

static void expect_value(const struct test_case *t,
			 const struct tarn_weather *w, char *rest)
{
	const char *name = word(&rest), *date = word(&rest);
	const double *x = tarn_weather_column(w, column(t, name));
	long at = tarn_day_parse(date) - tarn_weather_first(w);
	double want = is(rest, "missing") ? TARN_NAN : atof(rest);

	cr_assert(at >= 0 && at < (long)tarn_weather_days(w), "%s: %s",
		  t->path, date);
	cr_expect(x && (isnan(want) ? isnan(x[at])
				    : fabs(x[at] - want) <=
					      1e-14 * fabs(want)),
		  "%s: %s on %s is %.17g, want %s", t->path, name, date,
		  x ? x[at] : TARN_NAN, rest);
}

static int has_note(const struct tarn_weather *w, const char *text)
{
	for (size_t i = 0; i < tarn_weather_notes(w); i++)
		if (strstr(tarn_weather_note(w, i), text))
			return 1;
	return 0;
}

static void expect_good(struct test_case *t, const char *key, char *rest,
			void *context)
{
	const struct good *g = context;
	const struct tarn_site *site = tarn_weather_site_of(g->w);
	char first[11];

	tarn_day_text(tarn_weather_first(g->w), first);
	if (is(key, "layout_found"))
		cr_expect_str_eq(g->report.layout, rest, "%s", t->path);
	else if (is(key, "days"))
		cr_expect(tarn_weather_days(g->w) == (size_t)atoi(rest),
			  "%s: %zu days", t->path, tarn_weather_days(g->w));
	else if (is(key, "first"))
		cr_expect_str_eq(first, rest, "%s", t->path);
	else if (is(key, "value"))
		expect_value(t, g->w, rest);
	else if (is(key, "note"))
		cr_expect(has_note(g->w, rest), "%s: no note '%s'", t->path,
			  rest);
	else if (is(key, "name"))
		cr_expect_str_eq(site->name, rest, "%s", t->path);
	else if (is(key, "latitude"))
		cr_expect(fabs(site->latitude_deg - atof(rest)) < 1e-12, "%s",
			  t->path);
	else if (is(key, "elevation"))
		cr_expect(fabs(site->elevation_m - atof(rest)) < 1e-12, "%s",
			  t->path);
	else if (is(key, "height"))
		cr_expect(fabs(site->wind_height_m - atof(rest)) < 1e-12, "%s",
			  t->path);
	else
		cr_assert(0, "%s: what is '%s'?", t->path, key);
}

static void skip_expectation(struct test_case *t, const char *key, char *rest,
			     void *context)
{
	(void)t;
	(void)key;
	(void)rest;
	(void)context;
}

static void read_good(struct test_case *t)
{
	struct good g;
	struct tarn_error err = { 0 };
	enum tarn_status status;

	read_expect(t, skip_expectation, NULL);
	status = tarn_weather_read(&g.w, NULL, t->csv, &t->map, &g.report,
				   &err);
	cr_expect(status == TARN_OK, "%s:%ld:%ld: %s %s", t->csv, err.line,
		  err.column, err.field, err.text);
	if (status != TARN_OK)
		return;
	read_expect(t, expect_good, &g);
	tarn_weather_free(g.w);
}

Test(weather_files, good)
{
	cr_expect(each_case("tests/good", read_good) > 25);
}

/* ---- the same in pieces ---------------------------------------------- */

static int same_table(const struct tarn_weather *a,
		      const struct tarn_weather *b)
{
	size_t days = tarn_weather_days(a);

	if (days != tarn_weather_days(b) ||
	    tarn_weather_first(a) != tarn_weather_first(b) ||
	    tarn_weather_notes(a) != tarn_weather_notes(b))
		return 0;
	for (size_t i = 0; i < tarn_weather_notes(a); i++)
		if (!is(tarn_weather_note(a, i), tarn_weather_note(b, i)))
			return 0;
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const double *x = tarn_weather_column(a, (enum tarn_column)c);
		const double *y = tarn_weather_column(b, (enum tarn_column)c);

		if (!x != !y)
			return 0;
		for (size_t i = 0; x && i < days; i++)
			if (!(isnan(x[i]) && isnan(y[i])) &&
			    memcmp(&x[i], &y[i], sizeof x[i]) != 0)
				return 0;
	}
	return 1;
}

/* Feeds a case in pieces; NULL and 'err' on failure. */
static struct tarn_weather *read_pieces(const struct test_case *t,
					size_t piece, struct tarn_error *err)
{
	struct tarn_reader *r;
	struct tarn_weather *w = NULL;
	enum tarn_status status = tarn_reader_new(&r, NULL, &t->map, err);

	for (size_t at = 0; at < t->bytes && status == TARN_OK; at += piece) {
		size_t n = t->bytes - at < piece ? t->bytes - at : piece;
		char *copy = malloc(n);	/* its own, so that reads beyond it
					   are caught */

		memcpy(copy, t->text + at, n);
		status = tarn_reader_feed(r, copy, n, err);
		free(copy);
	}
	if (status == TARN_OK)
		tarn_reader_finish(r, &w, NULL, err);
	tarn_reader_free(r);
	return w;
}

static void pieces_of_good(struct test_case *t)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *whole;

	read_expect(t, skip_expectation, NULL);
	cr_assert(tarn_weather_read_text(&whole, NULL, t->text, t->bytes,
					 &t->map, NULL, &err) == TARN_OK,
		  "%s: %s", t->path, err.text);
	for (size_t piece = 1; piece <= 70; piece++) {
		struct tarn_weather *w = read_pieces(t, piece, &err);

		cr_expect(w && same_table(whole, w), "%s in pieces of %zu: %s",
			  t->path, piece, err.text);
		tarn_weather_free(w);
	}
	tarn_weather_free(whole);
}

Test(weather_files, good_in_pieces)
{
	each_case("tests/good", pieces_of_good);
}

/* ---- every allocation fails once ------------------------------------- */

struct counter {
	long left;		/* calls until one fails */
	long blocks;		/* in use */
};

static void *counted(void *context, void *block, size_t bytes)
{
	struct counter *c = context;
	void *got;

	if (bytes == 0) {
		c->blocks -= block != NULL;
		free(block);
		return NULL;
	}
	if (c->left-- <= 0)
		return NULL;
	got = realloc(block, bytes);
	c->blocks += block == NULL;
	return got;
}

static void starve(struct test_case *t)
{
	struct counter counter = { 0, 0 };
	struct tarn_alloc alloc = { counted, &counter };
	enum tarn_status status = TARN_ENOMEM;
	long n;

	read_expect(t, skip_expectation, NULL);
	for (n = 0; status != TARN_OK && n < 500; n++) {
		struct tarn_error err = { 0 };
		struct tarn_weather *w;

		counter.left = n;
		status = tarn_weather_read(&w, &alloc, t->csv, &t->map, NULL,
					   &err);
		if (status != TARN_OK)
			cr_expect(status == TARN_ENOMEM &&
					  err.code == TARN_ENOMEM && !w,
				  "%s: allocation %ld: %s", t->path, n,
				  err.text);
		tarn_weather_free(w);
		cr_expect(counter.blocks == 0, "%s: allocation %ld leaves %ld "
			  "blocks", t->path, n, counter.blocks);
	}
	cr_expect(n > 8 && n < 500, "%s: %ld allocations", t->path, n);
}

Test(weather_files, every_failed_allocation_is_reported)
{
	each_case("tests/good", starve);
}

/* ---- bad files ------------------------------------------------------- */

static enum tarn_status code_of(const char *name)
{
	return is(name, "EARG") ? TARN_EARG
	       : is(name, "EFORMAT") ? TARN_EFORMAT : TARN_EIO;
}

static void expect_bad(struct test_case *t, const char *key, char *rest,
		       void *context)
{
	const struct tarn_error *err = context;

	if (is(key, "code"))
		cr_expect(err->code == code_of(rest), "%s: code %d", t->path,
			  (int)err->code);
	else if (is(key, "line"))
		cr_expect(err->line == atol(rest), "%s: line %ld", t->path,
			  err->line);
	else if (is(key, "at"))
		cr_expect(err->column == atol(rest), "%s: column %ld", t->path,
			  err->column);
	else if (is(key, "field"))
		cr_expect_str_eq(err->field, rest, "%s", t->path);
	else if (is(key, "text"))
		cr_expect(strstr(err->text, rest), "%s: '%s'", t->path,
			  err->text);
	else
		cr_assert(0, "%s: what is '%s'?", t->path, key);
}

static void refuse_bad(struct test_case *t)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	read_expect(t, skip_expectation, NULL);
	cr_expect(tarn_weather_read(&w, NULL, t->csv, &t->map, NULL, &err) !=
			  TARN_OK && !w, "%s is read", t->csv);
	tarn_weather_free(w);
	read_expect(t, expect_bad, &err);
	cr_expect(strchr(err.text, '\n') == NULL);
	for (size_t piece = 1; piece < 20; piece += 3) {
		struct tarn_error again = { 0 };

		cr_expect(!read_pieces(t, piece, &again));
		cr_expect(again.line == err.line &&
				  again.column == err.column &&
				  is(again.text, err.text),
			  "%s in pieces of %zu: %ld: %s", t->path, piece,
			  again.line, again.text);
	}
}

Test(weather_files, bad)
{
	cr_expect(each_case("tests/bad", refuse_bad) > 50);
}

Test(weather_files, no_file)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	cr_expect(tarn_weather_read(&w, NULL, "tests/none.csv", NULL, NULL,
				    &err) == TARN_EIO && !w);
	cr_expect_str_eq(err.text,
			 "cannot be opened: No such file or directory");
	err.code = TARN_OK;
	cr_expect(tarn_weather_read(&w, NULL, "tests", NULL, NULL, &err) ==
			  TARN_EIO && !w);
	cr_expect_str_eq(err.text, "cannot be read: Is a directory");
	cr_expect(tarn_weather_read(&w, NULL, "tests", NULL, NULL, NULL) ==
		  TARN_EIO);
}

Test(weather_files, a_line_of_ten_megabytes)
{
	size_t n = 10000000;
	char *text = malloc(n);
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	memset(text, '1', n);
	memcpy(text, "date,rain_mm\n2015-01-01,", 24);
	cr_expect(tarn_weather_read_text(&w, NULL, text, n, NULL, NULL,
					 &err) == TARN_EFORMAT);
	cr_expect(err.line == 2);
	cr_expect_str_eq(err.text, "the line is longer than 65536 bytes: is "
			 "this a CSV file?");
	memset(text, '1', n);	/* and as a header */
	err.code = TARN_OK;
	cr_expect(tarn_weather_read_text(&w, NULL, text, n, NULL, NULL,
					 &err) == TARN_EFORMAT);
	cr_expect(err.line == 1);
	free(text);
}
