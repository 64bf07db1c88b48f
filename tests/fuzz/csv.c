/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "fuzz.h"
#include "../map_text.h"

/*
 * A weather file with its map: lines of options as in tests/good/.expect up
 * to a line "---", then the file.  Without such a line it is all file.
 */

/* Reads the options; the rest of the input, as its offset. */
static size_t read_map(struct tarn_csv_map *map, const char *text, size_t size)
{
	size_t at = 0;

	while (at < size) {
		const char *end = memchr(text + at, '\n', size - at);
		size_t n = end ? (size_t)(end - text) - at : size - at;
		char line[500];
		char *rest = line, *key;

		if (n == 3 && memcmp(text + at, "---", 3) == 0)
			return at + n + (end != NULL);
		snprintf(line, sizeof line, "%.*s", (int)(n < 499 ? n : 499),
			 text + at);
		key = word(&rest);
		map_option(map, key, rest);
		at += n + 1;
	}
	*map = tarn_csv_map_default();
	return 0;
}

static void check_result(enum tarn_status status, const struct tarn_weather *w,
			 const struct tarn_error *err)
{
	struct tarn_error none = { 0 };

	MUST((status == TARN_OK) == (w != NULL));
	MUST(status == err->code);
	if (status == TARN_OK) {
		MUST(tarn_weather_check(w, &none) == TARN_OK);
		MUST(tarn_weather_days(w) > 0);
		return;
	}
	MUST(status == TARN_EFORMAT || status == TARN_EARG);
	MUST(err->text[0] && !strchr(err->text, '\n'));
	MUST(memchr(err->field, '\0', sizeof err->field) != NULL);
}

/* The same in two pieces must fail or succeed in the same way. */
static void check_pieces(const struct tarn_csv_map *map, const char *text,
			 size_t size, const struct tarn_error *whole)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *w = NULL;
	struct tarn_reader *r;
	size_t cut = size / 3;
	enum tarn_status status = tarn_reader_new(&r, NULL, map, &err);

	if (status == TARN_OK)
		status = tarn_reader_feed(r, text, cut, &err);
	if (status == TARN_OK)
		status = tarn_reader_feed(r, text + cut, size - cut, &err);
	if (status == TARN_OK)
		status = tarn_reader_finish(r, &w, NULL, &err);
	tarn_reader_free(r);
	MUST(status == whole->code && err.line == whole->line);
	MUST(strcmp(err.text, whole->text) == 0);
	tarn_weather_free(w);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_read_report report;
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	const char *text = (const char *)data;
	enum tarn_status status;
	size_t from;

	if (size == 0)
		return 0;
	from = read_map(&map, text, size);
	if (from > size)
		from = size;
	status = tarn_weather_read_text(&w, NULL, text + from, size - from,
					&map, &report, &err);
	check_result(status, w, &err);
	tarn_weather_free(w);
	check_pieces(&map, text + from, size - from, &err);
	return 0;
}
