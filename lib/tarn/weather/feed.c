/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* Part of a line, or the whole of it; 'ends': its newline is there. */
static enum tarn_status feed_line(struct tarn_reader *r, const char *bytes,
				  size_t count, int ends)
{
	size_t at = r->line_bytes;
	struct text whole = { r->line, at + count };

	if (count > TARN_CSV_LINE_MAX - at) {
		r->err.line = r->line_number;
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "the line is "
				 "longer than %d bytes: is this a CSV file?",
				 TARN_CSV_LINE_MAX);
	}
	r->line_bytes = ends ? 0 : at + count;
	if (r->stage >= DATA)
		return tn_feed_rows(r, bytes, count);
	memcpy(r->line + at, bytes, count);
	return ends ? tn_stage_line(r, whole) : TARN_OK;
}

/* Lines up to the end, or up to the sample. */
static enum tarn_status feed_lines(struct tarn_reader *r, const char **bytes,
				   size_t *count)
{
	enum tarn_status status = TARN_OK;

	while (*count > 0 && status == TARN_OK && r->stage != SAMPLE) {
		const char *end = memchr(*bytes, '\n', *count);
		size_t n = end ? (size_t)(end - *bytes) + 1 : *count;

		status = feed_line(r, *bytes, n, end != NULL);
		r->line_number += end != NULL;
		*bytes += n;
		*count -= n;
	}
	return status;
}

/* Looks at the sample; once it tells what the rows are, reads it. */
static enum tarn_status feed_sample(struct tarn_reader *r)
{
	enum tarn_status status;
	const char *bytes;
	size_t count;
	int more;

	status = tn_stage_settle(r, &more);	/* may take rows off its front */
	bytes = r->sample.at;
	count = r->sample.bytes;
	if (status == TARN_OK && more)
		r->sample.want *= 2;
	else if (status == TARN_OK)
		status = feed_lines(r, &bytes, &count);
	if (status != TARN_OK || !more)
		tn_sample_free(&r->sample);
	return status;
}

enum tarn_status tn_feed_bytes(struct tarn_reader *r, const char *bytes,
			       size_t count)
{
	enum tarn_status status = feed_lines(r, &bytes, &count);

	while (count > 0 && status == TARN_OK && r->stage == SAMPLE) {
		size_t taken;

		if (tn_sample_add(&r->sample, bytes, count, &taken) != TARN_OK)
			return tn_no_memory(r);
		bytes += taken;
		count -= taken;
		if (tn_sample_full(&r->sample))
			status = feed_sample(r);
	}
	return count > 0 && status == TARN_OK
		       ? feed_lines(r, &bytes, &count) : status;
}

enum tarn_status tn_feed_sample_end(struct tarn_reader *r)
{
	if (r->stage != SAMPLE)
		return TARN_OK;
	r->sample.ended = 1;
	return feed_sample(r);
}
