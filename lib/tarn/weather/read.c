/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define CHUNK 65536

enum tarn_status
tarn_weather_read_text(struct tarn_weather **out,
		       const struct tarn_alloc *alloc, const char *text,
		       size_t bytes, const struct tarn_csv_map *map,
		       struct tarn_read_report *report, struct tarn_error *err)
{
	struct tarn_reader *r;
	enum tarn_status status;

	*out = NULL;
	status = tarn_reader_new(&r, alloc, map, err);
	if (status == TARN_OK)
		status = tarn_reader_feed(r, text, bytes, err);
	if (status == TARN_OK)
		status = tarn_reader_finish(r, out, report, err);
	tarn_reader_free(r);
	return status;
}

static enum tarn_status fail_system(struct tarn_error *err, int number,
				    const char *what)
{
	char text[100];

	if (strerror_r(number, text, sizeof text) != 0)
		snprintf(text, sizeof text, "error %d", number);
	return tarn_fail(err, TARN_EIO, NULL, "%s: %s", what, text);
}

static enum tarn_status feed_file(struct tarn_reader *r, FILE *file,
				  char *chunk, struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;
	size_t n;

	do {
		errno = 0;
		n = fread(chunk, 1, CHUNK, file);
		if (ferror(file))
			return fail_system(err, errno, "cannot be read");
		status = tarn_reader_feed(r, chunk, n, err);
	} while (n > 0 && status == TARN_OK);
	return status;
}

static enum tarn_status read_file(struct tarn_reader *r,
				  const struct tarn_alloc *alloc,
				  const char *path, struct tarn_error *err)
{
	enum tarn_status status;
	char *chunk;
	FILE *file;

	chunk = tarn_resize(alloc, NULL, CHUNK);
	if (!chunk)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	file = fopen(path, "rb");
	if (file) {
		setvbuf(file, NULL, _IONBF, 0);	/* the chunk is the buffer */
		status = feed_file(r, file, chunk, err);
		fclose(file);
	} else {
		status = fail_system(err, errno, "cannot be opened");
	}
	tarn_resize(alloc, chunk, 0);
	return status;
}

/* file: NULL, or where what the file was taken for goes. */
static enum tarn_status read_with(struct tarn_weather_file **file,
				  struct tarn_weather **out,
				  const struct tarn_alloc *alloc,
				  const char *path,
				  const struct tarn_csv_map *map,
				  struct tarn_read_report *report,
				  struct tarn_error *err)
{
	struct tarn_reader *r;
	enum tarn_status status;

	*out = NULL;
	status = tarn_reader_new(&r, alloc, map, err);
	if (status == TARN_OK)
		status = read_file(r, alloc, path, err);
	if (status == TARN_OK)
		status = tarn_reader_finish(r, out, report, err);
	if (file && r && status != TARN_ENOMEM) {
		*file = tn_file_make(r, *out);
		if (!*file && status == TARN_OK) {
			tarn_weather_free(*out);
			*out = NULL;
			status = tarn_fail(err, TARN_ENOMEM, NULL,
					   "out of memory");
		}
	}
	tarn_reader_free(r);
	return status;
}

enum tarn_status tarn_weather_read(struct tarn_weather **out,
				   const struct tarn_alloc *alloc,
				   const char *path,
				   const struct tarn_csv_map *map,
				   struct tarn_read_report *report,
				   struct tarn_error *err)
{
	return read_with(NULL, out, alloc, path, map, report, err);
}

enum tarn_status tarn_weather_examine(struct tarn_weather_file **file,
				      struct tarn_weather **out,
				      const struct tarn_alloc *alloc,
				      const char *path,
				      const struct tarn_csv_map *map,
				      struct tarn_error *err)
{
	*file = NULL;
	return read_with(file, out, alloc, path, map, NULL, err);
}
