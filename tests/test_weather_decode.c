/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "../lib/tarn/weather/internal.h"

/* Bytes to UTF-8, in pieces of any size: The Unicode Standard, version 15.0
 * (2022), sections 3.9 and 3.10; U+1F41F is a fish, D83D DC1F. */

#define FISH "\xf0\x9f\x90\x9f"
#define LOST "\xef\xbf\xbd"	/* U+FFFD */

struct heard {
	char text[20000];
	size_t n;
};

static enum tarn_status hear(void *context, const char *bytes, size_t count)
{
	struct heard *h = context;

	cr_assert(h->n + count < sizeof h->text);
	memcpy(h->text + h->n, bytes, count);
	h->n += count;
	return TARN_OK;
}

static const struct {
	const char *bytes;
	size_t count;
	const char *want;	/* NULL: cut in the middle of a character */
} rows[] = {
#define ROW(bytes, want) { bytes, sizeof (bytes) - 1, want }
	ROW("", ""), ROW("a", "a"), ROW("ab", "ab"), ROW("rain", "rain"),
	/* marks */
	ROW("\xef\xbb\xbf" "ab", "ab"), ROW("\xef\xbb\xbf", ""),
	ROW("\xef\xbb" "ab", "\xef\xbb" "ab"), ROW("\xef" "ab", "\xef" "ab"),
	ROW("\xef\xbb", "\xef\xbb"),
	ROW("\xff\xfe" "a\0b\0", "ab"), ROW("\xfe\xff" "\0a\0b", "ab"),
	ROW("\xff\xfe", ""), ROW("\xfe\xff", ""),
	ROW("\xff\xff" "a", "\xff\xff" "a"), ROW("\xfe\xfe" "a", "\xfe\xfe" "a"),
	/* without a mark the zero tells */
	ROW("a\0b\0", "ab"), ROW("\0a\0b", "ab"),
	/* two, three and four bytes */
	ROW("\xff\xfe" "\xfc\0" "\x7f\0" "\x80\0", "\xc3\xbc\x7f\xc2\x80"),
	ROW("\xff\xfe" "\xff\x07" "\0\x08" "\xac\x20",
	    "\xdf\xbf\xe0\xa0\x80\xe2\x82\xac"),
	ROW("\xff\xfe" "\x3d\xd8\x1f\xdc", FISH),
	ROW("\xfe\xff" "\xd8\x3d\xdc\x1f" "\0a", FISH "a"),
	ROW("\xff\xfe" "\0\xd8\0\xdc" "\xff\xdb\xff\xdf",
	    "\xf0\x90\x80\x80" "\xf4\x8f\xbf\xbf"),
	/* halves of a pair */
	ROW("\xff\xfe" "\x3d\xd8" "a\0", LOST "a"),
	ROW("\xff\xfe" "\x1f\xdc" "a\0", LOST "a"),
	ROW("\xff\xfe" "\x3d\xd8\x3d\xd8\x1f\xdc", LOST FISH),
	ROW("\xff\xfe" "\x1f\xdc\x3d\xd8\x1f\xdc", LOST FISH),
	ROW("\xff\xfe" "\xff\xd7\0\xe0", "\xed\x9f\xbf\xee\x80\x80"),
	/* cut short */
	ROW("\xff\xfe" "a\0b", NULL), ROW("\xff\xfe" "a\0\x3d\xd8", NULL),
	ROW("\xff\xfe" "a\0\x3d\xd8\x1f", NULL),
};

Test(weather_decode, pieces_of_any_size)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		for (size_t piece = 1; piece <= 5; piece++) {
			struct decoder d = { 0 };
			struct heard h = { { 0 }, 0 };
			struct tarn_error err = { 0 };
			enum tarn_status s = TARN_OK;

			for (size_t at = 0; at < rows[i].count; at += piece)
				s = s == TARN_OK
					? tn_decode(&d, rows[i].bytes + at,
						    rows[i].count - at < piece
						    ? rows[i].count - at : piece,
						    hear, &h)
					: s;
			if (s == TARN_OK)
				s = tn_decode_finish(&d, hear, &h, &err);
			cr_expect((s == TARN_OK) == (rows[i].want != NULL),
				  "row %zu: %s", i, err.text);
			if (rows[i].want)
				cr_expect(h.n == strlen(rows[i].want) &&
					  memcmp(h.text, rows[i].want, h.n) == 0,
					  "row %zu in pieces of %zu: '%s'", i,
					  piece, h.text);
			else
				cr_expect(strstr(err.text, "is it cut short?"));
		}
}

/* More than the decoder holds at once. */
Test(weather_decode, a_long_text)
{
	static char bytes[2 + 4 * 3000];
	static struct heard h;
	struct decoder d = { 0 };

	memcpy(bytes, "\xff\xfe", 2);
	for (int i = 0; i < 3000; i++)
		memcpy(bytes + 2 + 4 * i, "\x3d\xd8\x1f\xdc", 4);
	cr_assert(tn_decode(&d, bytes, sizeof bytes, hear, &h) == TARN_OK);
	cr_assert(tn_decode_finish(&d, hear, &h, NULL) == TARN_OK);
	cr_assert(h.n == 4 * 3000, "%zu", h.n);
	for (size_t i = 0; i < h.n; i += 4)
		cr_assert(memcmp(h.text + i, FISH, 4) == 0, "%zu", i);
}
