/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * A look at the first rows, before any is read: is it text at all, what stands
 * between its values, is its decimal point a comma?  The map's word is final;
 * only what it leaves open is recognised.
 */

/* ---- files that are no text ------------------------------------------ */

static int begins(struct text t, const char *s)
{
	return t.length >= strlen(s) && memcmp(t.at, s, strlen(s)) == 0;
}

/* 's' is of small letters. */
static int begins_any_case(struct text t, const char *s)
{
	for (size_t i = 0; s[i]; i++)
		if (i == t.length ||
		    (t.at[i] >= 'A' && t.at[i] <= 'Z' ? t.at[i] + ('a' - 'A')
						      : t.at[i]) != s[i])
			return 0;
	return 1;
}

static int holds(struct text t, const char *s)
{
	for (; t.length >= strlen(s); t.at++, t.length--)
		if (begins(t, s))
			return 1;
	return 0;
}

#define SAVE_AS "open it in a spreadsheet program, save its sheet as CSV " \
		"(UTF-8), and give that file"

/* Both are ZIP archives by their bytes. */
static const char *archive(struct text t)
{
	if (holds(t, "[Content_Types].xml") || holds(t, "xl/"))
		return "is a workbook (.xlsx), not a CSV file: " SAVE_AS;
	if (holds(t, "opendocument.spreadsheet"))
		return "is a workbook (.ods), not a CSV file: " SAVE_AS;
	return "is a ZIP archive: unpack it and give the CSV file in it";
}

/* An object or a list of such; "[mm]" is none. */
static const char *json(struct text t)
{
	t.at++;
	t.length--;
	t = tn_text_trim(t);
	if (t.length == 0 || !strchr("{\"[", t.at[0]) || !t.at[0])
		return NULL;
	return "is JSON, not a CSV file: ask the service for CSV, or save it "
	       "as CSV with a program that knows both";
}

/* What is wrong with a file that is no table of text; NULL if it may be one. */
static const char *no_text(struct text t)
{
	struct text trimmed = tn_text_trim(t);

	if (begins(t, "PK\003\004"))
		return archive(t);
	if (begins(t, "\x1f\x8b"))
		return "is compressed (.gz): unpack it (gunzip) and give the "
		       "CSV file in it";
	if (begins(t, "\xd0\xcf\x11\xe0"))
		return "is a workbook (.xls), not a CSV file: " SAVE_AS;
	if (begins(t, "%PDF"))
		return "is a PDF, a printed page and no table: download the "
		       "data as CSV where the PDF comes from";
	if (begins_any_case(trimmed, "<!doctype") ||
	    begins_any_case(trimmed, "<html") ||
	    begins_any_case(trimmed, "<?xml"))
		return "is a web page (HTML or XML), not a CSV file: it may be "
		       "a page of an error or a login in place of the data; "
		       "open it in a browser, and download the data as CSV";
	if (trimmed.length > 1 && (trimmed.at[0] == '{' || trimmed.at[0] == '['))
		return json(trimmed);
	return NULL;
}

/* ---- the delimiter --------------------------------------------------- */

struct agreement {
	size_t lines;		/* that have the same number of delimiters */
	size_t delimiters;	/* that number */
};

static struct agreement agreement(struct text t, char delimiter)
{
	unsigned lines[TARN_CSV_FIELDS_MAX] = { 0 };
	struct agreement best = { 0, 0 };

	while (t.length > 0) {
		struct text line = tn_take_line(&t);
		size_t n = 0;

		for (tn_take_value(&line, delimiter); line.length > 0; n++) {
			line.at++;
			line.length--;
			tn_take_value(&line, delimiter);
		}
		if (n < TARN_CSV_FIELDS_MAX)
			lines[n]++;
	}
	for (size_t n = 1; n < TARN_CSV_FIELDS_MAX; n++)
		if (lines[n] >= best.lines && lines[n] > 0) {
			best.lines = lines[n];
			best.delimiters = n;
		}
	return best;
}

/*
 * The one of which most lines have the same number.  Where two agree in as
 * many lines, the one that makes more values; then the one that is no decimal
 * comma.
 */
static char find_delimiter(struct text t, char decimal)
{
	static const char choices[] = { ',', ';', '\t' };
	struct agreement best = { 0, 0 };
	char found = ',';

	for (size_t i = 0; i < sizeof choices; i++) {
		struct agreement a = agreement(t, choices[i]);

		if (choices[i] == decimal)
			continue;
		if (a.lines > 0 &&
		    (a.lines > best.lines ||
		     (a.lines == best.lines &&
		      a.delimiters >= best.delimiters))) {
			best = a;
			found = choices[i];
		}
	}
	return found == decimal ? ';' : found;
}

/* ---- the decimal point ----------------------------------------------- */

struct points {
	int dots, commas;
	int clear;	/* commas that cannot group thousands */
};

static size_t digits(struct text t)
{
	size_t n = 0;

	while (n < t.length && t.at[n] >= '0' && t.at[n] <= '9')
		n++;
	return n;
}

/* Counts a value that is digits, one point or comma, digits. */
static void count_point(struct points *p, struct text value)
{
	struct text t = tn_text_trim(value);
	size_t before, after;
	char point;

	if (t.length > 1 && t.at[0] == '"' && t.at[t.length - 1] == '"') {
		t.at++;
		t.length -= 2;
	}
	if (t.length > 0 && (t.at[0] == '-' || t.at[0] == '+')) {
		t.at++;
		t.length--;
	}
	before = digits(t);
	if (before == 0 || before == t.length)
		return;
	point = t.at[before];
	value.at = t.at + before + 1;
	value.length = t.length - before - 1;
	after = digits(value);
	if (after == 0 || after < value.length)
		return;
	p->dots += point == '.';
	p->commas += point == ',';
	p->clear += point == ',' &&
		    (after != 3 || before > 3 || t.at[0] == '0');
}

static enum tarn_status find_decimal(struct tarn_csv_map *map, struct text t,
				     struct tarn_error *err)
{
	struct points p = { 0, 0, 0 };

	map->decimal = '.';
	while (t.length > 0) {
		struct text line = tn_take_line(&t);

		count_point(&p, tn_take_value(&line, map->delimiter));
		while (line.length > 0) {
			line.at++;
			line.length--;
			count_point(&p, tn_take_value(&line, map->delimiter));
		}
	}
	if (p.commas == 0 || p.dots > 0)
		return TARN_OK;		/* both: the first one is refused */
	map->decimal = ',';
	if (p.clear > 0)
		return TARN_OK;
	if (map->delimiter == ',') {	/* in quotes: groups of thousands */
		map->decimal = '.';
		return TARN_OK;
	}
	return tarn_settled(err, TARN_SETTLE_DECIMAL, NULL, tarn_fail(
		err, TARN_EARG, "decimal", "must be given: every "
			 "comma in a number has three digits behind it, and "
			 "may be a decimal point or group thousands; say "
			 "decimal = \",\" if 1,234 means 1.234, and write the "
			 "numbers without groups if it means 1234"));
}

enum tarn_status tn_look(struct tarn_csv_map *map, struct text t,
			 struct tarn_error *err)
{
	struct text first = t;
	const char *wrong = no_text(t);

	if (!wrong && map->delimiter == '\0' && !tn_dly_fits(tn_take_line(&first)))
		wrong = tn_blanks_wrong(t);
	if (wrong)
		return tarn_fail(err, TARN_EFORMAT, NULL, "the file %s", wrong);
	if (map->delimiter == '\0')
		map->delimiter = find_delimiter(t, map->decimal);
	return TARN_OK;
}

enum tarn_status tn_look_decimal(struct tarn_csv_map *map, struct text t,
				 struct tarn_error *err)
{
	return map->decimal == '\0' ? find_decimal(map, t, err) : TARN_OK;
}
