/* SPDX-License-Identifier: MIT */
#include "tarn/base.h"

/* Least code that so many bytes may say: shorter forms only. */
static const long least[] = { 0, 0, 0x80, 0x800, 0x10000 };

static size_t length_of(unsigned char first)
{
	return first < 0x80 ? 1 : first < 0xC2 ? 0 : first < 0xE0 ? 2
	     : first < 0xF0 ? 3 : first < 0xF5 ? 4 : 0;
}

long tarn_utf8(const char *text, size_t bytes, size_t *used)
{
	const unsigned char *s = (const unsigned char *)text;
	size_t n = length_of(s[0]);
	long code = n == 1 ? s[0] : s[0] & (0x7F >> n);

	*used = 1;
	if (n == 0 || n > bytes)
		return -1;
	for (size_t k = 1; k < n; k++) {
		if ((s[k] & 0xC0) != 0x80)
			return -1;
		code = code << 6 | (s[k] & 0x3F);
	}
	if (code < least[n] || code > 0x10FFFF ||
	    (code >= 0xD800 && code < 0xE000))
		return -1;
	*used = n;
	return code;
}
