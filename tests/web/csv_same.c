/* SPDX-License-Identifier: MIT */
/*
 * The page's splitter of CSV against libcsv: the same bytes, whole and in
 * pieces, must give the same values, rows and errors.
 *     cc -o csv-same tests/web/csv_same.c -lcsv && ./csv-same
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <csv.h>

/* Ours, under other names. */
#undef CSV_SUCCESS
#undef CSV_EPARSE
#undef CSV_ENOMEM
#undef CSV_STRICT
#undef CSV_STRICT_FINI
#define csv_parser our_parser
#define csv_init our_init
#define csv_set_delim our_set_delim
#define csv_set_realloc_func our_set_realloc_func
#define csv_set_free_func our_set_free_func
#define csv_free our_free
#define csv_error our_error
#define csv_parse our_parse
#define csv_fini our_fini
#include "../../bindings/web/csv.c"
#undef csv_parser
#undef csv_init
#undef csv_set_delim
#undef csv_set_realloc_func
#undef csv_set_free_func
#undef csv_free
#undef csv_error
#undef csv_parse
#undef csv_fini

#define TEXT_MAX 64
#define LOG_MAX 1024

struct log {
	char text[LOG_MAX];
	size_t used;
};

static void note(struct log *log, const char *s, size_t n)
{
	for (size_t i = 0; i < n && log->used < LOG_MAX; i++)
		log->text[log->used++] = s[i];
}

static void on_field(void *at, size_t n, void *context)
{
	note(context, "[", 1);
	note(context, at, n);
	note(context, "]", 1);
}

static void on_row(int end, void *context)
{
	(void)end;
	note(context, "\n", 1);
}

static void theirs(const char *text, size_t n, size_t piece, struct log *log)
{
	struct csv_parser p;

	csv_init(&p, CSV_STRICT | 4);
	for (size_t at = 0; at < n; at += piece) {
		size_t m = n - at < piece ? n - at : piece;

		if (csv_parse(&p, text + at, m, on_field, on_row, log) != m) {
			note(log, "!", 1);
			csv_free(&p);
			return;
		}
	}
	if (csv_fini(&p, on_field, on_row, log) != 0)
		note(log, "?", 1);
	csv_free(&p);
}

static void ours(const char *text, size_t n, size_t piece, struct log *log)
{
	struct our_parser p;

	our_init(&p, CSV_STRICT | CSV_STRICT_FINI);
	for (size_t at = 0; at < n; at += piece) {
		size_t m = n - at < piece ? n - at : piece;

		if (our_parse(&p, text + at, m, on_field, on_row, log) != m) {
			note(log, "!", 1);
			our_free(&p);
			return;
		}
	}
	if (our_fini(&p, on_field, on_row, log) != 0)
		note(log, "?", 1);
	our_free(&p);
}

int main(void)
{
	static const char letters[] = "ab,,\"\"\" \t\n\r\n";
	unsigned state = 1;
	long cases = 0;

	for (long run = 0; run < 2000000; run++) {
		char text[TEXT_MAX];
		size_t n = 0, piece;
		struct log a = { .used = 0 }, b = { .used = 0 };

		state = state * 1664525u + 1013904223u;
		for (size_t want = state >> 27; n < want; n++) {
			state = state * 1664525u + 1013904223u;
			text[n] = letters[(state >> 16) % (sizeof letters - 1)];
		}
		piece = 1 + (state >> 24) % 9;
		theirs(text, n, piece, &a);
		ours(text, n, piece, &b);
		if (a.used != b.used || memcmp(a.text, b.text, a.used) != 0) {
			printf("differs on '%.*s'\nlibcsv: %.*s\nours: %.*s\n",
			       (int)n, text, (int)a.used, a.text, (int)b.used,
			       b.text);
			return 1;
		}
		cases++;
	}
	printf("csv: %ld random texts split as libcsv splits them\n", cases);
	return 0;
}
