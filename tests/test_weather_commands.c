/* SPDX-License-Identifier: MIT */
#define _POSIX_C_SOURCE 200809L
#include <dirent.h>

#include "run.h"

/* The weather files of tests/good on the command line, by the table of its
 * README; every file of tests/good and tests/bad is named in its README. */

#define PLACE "--latitude 45 --elevation 100 --wind-height 2 "
#define ALONE 30		/* files that need the place and no more */

struct good_row {
	char name[60], options[120];
	int status, days;
};

/* Takes the next cell of a line of a table, without blanks and backquotes. */
static void take_cell(char **at, char *out, size_t size)
{
	size_t n = strcspn(*at, "|"), from = strspn(*at, " `"), end = n;

	while (end > from && strchr(" `", (*at)[end - 1]))
		end--;
	snprintf(out, size, "%.*s", (int)(end > from ? end - from : 0),
		 *at + from);
	*at += n + ((*at)[n] == '|');
}

/* 0: no row of a file. */
static int read_row(char *line, struct good_row *row)
{
	char skipped[200], status[10], days[20], *at = line + 1;

	if (strncmp(line, "| `", 3) != 0)
		return 0;
	take_cell(&at, row->name, sizeof row->name);
	take_cell(&at, skipped, sizeof skipped);
	take_cell(&at, row->options, sizeof row->options);
	take_cell(&at, status, sizeof status);
	take_cell(&at, days, sizeof days);
	row->status = atoi(status);
	row->days = atoi(days);
	return 1;
}

/* The number before " day", the first in a text; -1: there is none. */
static int days_said(char *text)
{
	char *at = strstr(text, " day"), *digits;
	int n = 0;

	if (!at)
		return -1;
	for (digits = at; digits > text && strchr("0123456789,", digits[-1]);)
		digits--;
	for (; digits < at; digits++)
		n = *digits == ',' ? n : 10 * n + *digits - '0';
	return n;
}

static void run_row(const struct good_row *row)
{
	static char out[OUT_MAX], command[600];
	int none = row->status == 3, status;
	char *from;

	snprintf(command, sizeof command, "$TARN %s tests/good/%s.csv " PLACE
		 "%s", none ? "weather"
			    : "topup weather-samples/courtyard-pond.lua",
		 row->name, row->options);
	status = run(command, out);
	cr_expect(status == row->status, "%s: status %d, want %d: %.300s",
		  command, status, row->status, out);
	from = strstr(out, none ? " days, " : "From ");
	if (none && !from)
		from = strstr(out, " day, ");
	while (none && from && from > out && from[-1] != '\n')
		from--;
	cr_expect(from && days_said(from) == row->days, "%s: %d days, want %d",
		  command, from ? days_said(from) : -1, row->days);
}

Test(weather_commands, each_good_file_has_one_that_runs)
{
	FILE *table = fopen("tests/good/README.md", "r");
	char line[500];
	struct good_row row;
	int alone = 0;

	cr_assert(table != NULL);
	while (fgets(line, sizeof line, table)) {
		if (!read_row(line, &row))
			continue;
		run_row(&row);
		alone += !row.options[0] && row.status != 3;
	}
	fclose(table);
	cr_expect(alone >= ALONE, "%d files run with the place alone", alone);
}

static void expect_named(const char *folder, int least)
{
	static char text[40000];
	char path[300], name[300];
	DIR *dir = opendir(folder);
	struct dirent *e;
	FILE *readme;
	int count = 0;

	snprintf(path, sizeof path, "%s/README.md", folder);
	readme = fopen(path, "r");
	cr_assert(dir && readme, "%s", path);
	text[fread(text, 1, sizeof text - 1, readme)] = '\0';
	fclose(readme);
	while ((e = readdir(dir)) != NULL) {
		size_t n = strlen(e->d_name);

		if (n < 5 || strcmp(e->d_name + n - 4, ".csv") != 0)
			continue;
		snprintf(name, sizeof name, "`%.*s`", (int)n - 4, e->d_name);
		cr_expect(strstr(text, name), "%s does not name %s", path,
			  name);
		count++;
	}
	closedir(dir);
	cr_expect(count >= least, "%s: %d", folder, count);
}

Test(weather_commands, the_folders_name_their_files)
{
	expect_named("tests/good", 60);
	expect_named("tests/bad", 60);
}
