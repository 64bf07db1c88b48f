/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/*
 * Text of one byte a character: what is no UTF-8 is taken as Windows-1252,
 * which has all letters of Latin-1 at their places.  Bytes 0x80 to 0x9f: the
 * mapping table CP1252.TXT of the Unicode Consortium (from memory); 0: none.
 */
static const unsigned short upper[32] = {
	0x20ac, 0,	0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021,
	0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0,	0x017d, 0,
	0,	0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
	0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0,	0x017e, 0x0178
};

/* Bytes of the character at s by its first byte; 0: none begins so. */
static size_t length_by(unsigned char c)
{
	if (c < 0x80)
		return 1;
	return c >= 0xc2 && c < 0xe0 ? 2 : c >= 0xe0 && c < 0xf0 ? 3
	       : c >= 0xf0 && c < 0xf5 ? 4 : 0;
}

int tn_is_utf8(struct text t)
{
	for (size_t i = 0; i < t.length;) {
		size_t n = length_by((unsigned char)t.at[i]);

		if (n == 0)
			return 0;
		/* the last one may be cut */
		for (size_t k = 1; k < n && i + k < t.length; k++)
			if (((unsigned char)t.at[i + k] & 0xc0) != 0x80)
				return 0;
		i += n;
	}
	return 1;
}

size_t tn_one_byte(char *out, const char *bytes, size_t count)
{
	size_t n = 0;

	for (size_t i = 0; i < count; i++) {
		unsigned char byte = (unsigned char)bytes[i];
		unsigned c = byte;

		if (byte >= 0x80 && byte < 0xa0)
			c = upper[byte - 0x80] ? upper[byte - 0x80] : 0xfffd;
		n += tn_put_utf8(out + n, c);
	}
	return n;
}
