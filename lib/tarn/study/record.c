/* SPDX-License-Identifier: MIT */
#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "tarn/study.h"

/*
 * A record: eight words of head, then the done rows of each quantity that is
 * wanted, in the order of enum tarn_quantity.  Words and doubles (IEEE 754)
 * have their lowest byte first.
 */
enum {
	MAGIC, FINGERPRINT, ROWS_OF_ALL, FIRST, COUNT, DONE, WANTED, CHECKSUM,
	HEAD_WORDS
};
static const char magic[9] = "tarnrow1";

static void put(unsigned char *at, uint64_t w)
{
	for (int i = 0; i < 8; i++)
		at[i] = (unsigned char)(w >> 8 * i);
}

static uint64_t get(const unsigned char *at)
{
	uint64_t w = 0;

	for (int i = 0; i < 8; i++)
		w |= (uint64_t)at[i] << 8 * i;
	return w;
}

static uint64_t bits_of(double x)
{
	uint64_t w = UINT64_C(0x7FF8000000000000);	/* one NaN for all */

	if (!isnan(x))
		memcpy(&w, &x, sizeof w);
	return w;
}

/* Fletcher's sums over words, to find a cut or a flipped bit. */
static uint64_t checksum(const unsigned char *bytes, size_t size)
{
	uint64_t a = 1, b = 0;

	for (size_t i = 0; i + 8 <= size; i += 8) {
		if (i == CHECKSUM * 8)
			continue;
		a += get(bytes + i);
		b += a;
	}
	return a ^ (b << 32 | b >> 32);
}

static size_t wanted_count(const struct tarn_study_rows *rows)
{
	size_t n = 0;

	for (int q = 0; q < TARN_QUANTITIES; q++)
		n += rows->value[q] != NULL;
	return n;
}

size_t tarn_record_size(const struct tarn_study_rows *rows)
{
	return 8 * (HEAD_WORDS + wanted_count(rows) * rows->done);
}

void tarn_record_write(const struct tarn_study_rows *rows, uint64_t fingerprint,
		       size_t rows_of_all, void *bytes)
{
	unsigned char *head = bytes, *at = head + 8 * HEAD_WORDS;
	uint64_t wanted = 0;

	memcpy(head, magic, 8);
	put(head + 8 * FINGERPRINT, fingerprint);
	put(head + 8 * ROWS_OF_ALL, rows_of_all);
	put(head + 8 * FIRST, rows->first);
	put(head + 8 * COUNT, rows->count);
	put(head + 8 * DONE, rows->done);
	for (int q = 0; q < TARN_QUANTITIES; q++) {
		if (!rows->value[q])
			continue;
		wanted |= UINT64_C(1) << q;
		for (size_t i = 0; i < rows->done; i++, at += 8)
			put(at, bits_of(rows->value[q][i]));
	}
	put(head + 8 * WANTED, wanted);
	put(head + 8 * CHECKSUM, checksum(bytes, tarn_record_size(rows)));
}

static size_t wanted_of(const struct tarn_record *r)
{
	size_t n = 0;

	for (int q = 0; q < TARN_QUANTITIES; q++)
		n += r->wanted[q] != 0;
	return n;
}

static void read_head(struct tarn_record *out, const unsigned char *head)
{
	uint64_t wanted = get(head + 8 * WANTED);

	out->fingerprint = get(head + 8 * FINGERPRINT);
	out->rows_of_all = (size_t)get(head + 8 * ROWS_OF_ALL);
	out->first = (size_t)get(head + 8 * FIRST);
	out->count = (size_t)get(head + 8 * COUNT);
	out->done = (size_t)get(head + 8 * DONE);
	for (int q = 0; q < TARN_QUANTITIES; q++)
		out->wanted[q] = wanted >> q & 1;
}

/* Whether the rows are within the study, and few enough to be counted in
 * bytes: who made the file may mean harm. */
static int rows_fit(const struct tarn_record *r)
{
	return r->rows_of_all <= SIZE_MAX / 8 / (TARN_QUANTITIES + 1) &&
	       r->first <= r->rows_of_all &&
	       r->count <= r->rows_of_all - r->first && r->done <= r->count;
}

enum tarn_status tarn_record_read(struct tarn_record *out, const void *bytes,
				  size_t size, struct tarn_error *err)
{
	const unsigned char *head = bytes;

	if (size < 8 * HEAD_WORDS || memcmp(head, magic, 8) != 0)
		return tarn_fail(err, TARN_EFORMAT, "record", "is not a record "
				 "of a study");
	read_head(out, head);
	if (!rows_fit(out) || out->done > size / 8 ||
	    size != 8 * (HEAD_WORDS + wanted_of(out) * out->done) ||
	    get(head + 8 * CHECKSUM) != checksum(bytes, size))
		return tarn_fail(err, TARN_EFORMAT, "record", "is cut short or "
				 "damaged");
	return TARN_OK;
}

enum tarn_status tarn_record_fill(struct tarn_study_rows *rows,
				  const void *bytes, size_t size,
				  struct tarn_error *err)
{
	struct tarn_record r;
	const unsigned char *at = (const unsigned char *)bytes +
				  8 * HEAD_WORDS;
	enum tarn_status status = tarn_record_read(&r, bytes, size, err);

	if (status != TARN_OK)
		return status;
	for (int q = 0; q < TARN_QUANTITIES; q++)
		for (size_t i = 0; r.wanted[q] && i < r.done; i++, at += 8) {
			size_t row = r.first + i;
			uint64_t w = get(at);

			if (rows->value[q] && row >= rows->first &&
			    row - rows->first < rows->count)
				memcpy(&rows->value[q][row - rows->first], &w,
				       sizeof w);
		}
	return TARN_OK;
}

/* ---- merging --------------------------------------------------------------- */

static enum tarn_status belongs(const struct tarn_record *r,
				const struct tarn_record *whole, size_t number,
				struct tarn_error *err)
{
	if (r->fingerprint != whole->fingerprint ||
	    r->rows_of_all != whole->rows_of_all)
		return tarn_fail(err, TARN_EFORMAT, "part", "%zu is of another "
				 "study: fingerprint %016" PRIx64 ", the first "
				 "one's is %016" PRIx64, number,
				 r->fingerprint, whole->fingerprint);
	if (memcmp(r->wanted, whole->wanted, sizeof r->wanted) != 0)
		return tarn_fail(err, TARN_EFORMAT, "part", "%zu holds other "
				 "quantities than the first", number);
	if (r->done < r->count)
		return tarn_fail(err, TARN_EFORMAT, "part", "%zu is unfinished: "
				 "%zu of %zu rows; go on with it first", number,
				 r->done, r->count);
	return TARN_OK;
}

/* Finds the record that begins at a row, and moves on to the row after it;
 * stays where there is none. */
static enum tarn_status next_part(const void *const *bytes, size_t count,
				  size_t *row, size_t *found,
				  struct tarn_error *err)
{
	size_t from = *row, holder = 0;

	for (size_t i = 0; i < count; i++) {
		struct tarn_record r;

		read_head(&r, bytes[i]);
		if (r.count == 0 || r.first != from)
			continue;
		if (holder)
			return tarn_fail(err, TARN_EFORMAT, "part", "%zu begins "
					 "with the same row as part %zu: one is "
					 "doubled", i + 1, holder);
		holder = i + 1;
		*row = from + r.count;
		++*found;
	}
	return TARN_OK;
}

enum tarn_status tarn_records_check(const void *const *bytes,
				    const size_t *size, size_t count,
				    struct tarn_record *whole,
				    struct tarn_error *err)
{
	size_t row = 0, found = 0;
	struct tarn_error why = { 0 };
	enum tarn_status status = TARN_OK;

	if (count == 0)
		return tarn_fail(err, TARN_EFORMAT, "parts", "are missing");
	for (size_t i = 0; i < count && status == TARN_OK; i++) {
		struct tarn_record r;

		status = tarn_record_read(&r, bytes[i], size[i], &why);
		if (status != TARN_OK)
			return tarn_fail(err, status, "part", "%zu %s", i + 1,
					 why.text);
		if (i == 0)
			*whole = r;
		status = belongs(&r, whole, i + 1, err);
		found += status == TARN_OK && r.count == 0;
	}
	while (status == TARN_OK && row < whole->rows_of_all) {
		size_t from = row;

		status = next_part(bytes, count, &row, &found, err);
		if (status == TARN_OK && row == from)
			return tarn_fail(err, TARN_EFORMAT, "part", "with row "
					 "%zu of %zu is missing", from + 1,
					 whole->rows_of_all);
	}
	if (status != TARN_OK)
		return status;
	if (found < count)
		return tarn_fail(err, TARN_EFORMAT, "parts", "overlap: %zu of "
				 "%zu are more than the study", count - found,
				 count);
	whole->first = 0;
	whole->count = whole->done = whole->rows_of_all;
	return TARN_OK;
}
