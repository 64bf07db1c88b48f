/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "fuzz.h"
#include "tarn/weather_file.h"

/*
 * Names of a header, and rows of words or units below it: the input, behind a
 * column of dates and in front of rows of data with as many values.
 */

#define ROWS 3

static size_t put(char *to, const char *from, size_t n)
{
	memcpy(to, from, n);
	return n;
}

/* Values of the last line of the input. */
static size_t commas(const char *text, size_t size)
{
	size_t n = 0;

	for (size_t i = size; i > 0 && text[i - 1] != '\n'; i--)
		n += text[i - 1] == ',';
	return n;
}

static size_t write_file(char *to, const char *text, size_t size)
{
	size_t n = put(to, "date,", 5), values = commas(text, size);

	n += put(to + n, text, size);
	for (int day = 1; day <= ROWS; day++) {
		n += (size_t)sprintf(to + n, "\n2015-06-0%d", day);
		for (size_t i = 0; i <= values; i++)
			n += (size_t)sprintf(to + n, ",%d", day);
	}
	return n + put(to + n, "\n", 1);
}

/* What was taken for a column has a unit and lies within its bounds. */
static void check_columns(const struct tarn_weather_file *file,
			  const struct tarn_weather *w)
{
	for (int i = 0; i < file->columns; i++) {
		const struct tarn_weather_file_column *c = &file->column[i];
		enum tarn_column at = tarn_column_find(c->name);

		MUST(at < TARN_COLUMNS);
		MUST(c->index >= 0 && (size_t)c->index <= file->fields);
		MUST(isfinite(c->scale) && c->scale > 0);
		if (!w)
			continue;
		MUST(tarn_weather_unit(at, c->file_unit) != NULL);
		MUST(c->present == 0 ||
		     (c->min >= tarn_column_info(at)->lo &&
		      c->max <= tarn_column_info(at)->hi));
	}
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	static char text[INPUT_MAX + 64 + ROWS * (12 + 2 * INPUT_MAX)];
	struct tarn_weather_file *file;
	struct tarn_weather *w;
	struct tarn_error err = { 0 };
	enum tarn_status status;
	const char *path;

	if (size == 0 || size > 4096)
		return 0;
	path = fuzz_file((const uint8_t *)text,
			 write_file(text, (const char *)data, size));
	status = tarn_weather_examine(&file, &w, NULL, path, NULL, &err);
	MUST((status == TARN_OK) == (w != NULL));
	MUST(status == err.code && file);
	MUST(status == TARN_OK ||
	     (err.text[0] && !strchr(err.text, '\n')));
	check_columns(file, w);
	tarn_weather_file_free(file);
	tarn_weather_free(w);
	return 0;
}
