/* SPDX-License-Identifier: MIT */
#include "heading.h"

/* Bytes of the UTF-8 character at the start of t, 0: it is none. */
static size_t length_of(struct text t)
{
	unsigned char c = (unsigned char)t.at[0];
	size_t n = c < 0x80 ? 1 : c >= 0xc2 && c < 0xe0 ? 2
		   : c >= 0xe0 && c < 0xf0 ? 3 : c >= 0xf0 && c < 0xf5 ? 4 : 0;

	if (n > t.length)
		return 0;
	for (size_t i = 1; i < n; i++)
		if (((unsigned char)t.at[i] & 0xc0) != 0x80)
			return 0;
	return n;
}

static unsigned take(struct text *t)
{
	static const unsigned char mask[] = { 0, 0x7f, 0x1f, 0x0f, 0x07 };
	size_t n = length_of(*t), used = n ? n : 1;
	unsigned c = (unsigned char)t->at[0];

	if (n > 0) {
		c &= mask[n];
		for (size_t i = 1; i < n; i++)
			c = c << 6 | ((unsigned char)t->at[i] & 0x3f);
	}
	t->at += used;
	t->length -= used;
	return c;
}

unsigned tn_letter_take(struct text *t)
{
	unsigned c = take(t), next;
	struct text rest = *t;

	/* a sign of two bytes that was read as Latin-1: the first is noise */
	if (c != 0xc2 || t->length == 0)
		return c;
	next = take(&rest);
	if (next < 0xa0 || next > 0xbf)
		return c;
	*t = rest;
	return next;
}

char tn_letter_fold(unsigned c)
{
	/* U+00C0 .. U+00FF; '.': no letter */
	static const char plain[] = "aaaaaaaceeeeiiiidnooooo.ouuuuyts"
				    "aaaaaaaceeeeiiiidnooooo.ouuuuyty";

	if (c >= 'A' && c <= 'Z')
		return (char)(c - 'A' + 'a');
	if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
		return (char)c;
	if (c >= 0xc0 && c <= 0xff && plain[c - 0xc0] != '.')
		return plain[c - 0xc0];
	switch (c) {
	case 0x153: return 'o';		/* oe in one letter */
	case 0x2103: return 'c';	/* degrees in one sign */
	case 0x2109: return 'f';
	case 0xb9: return '1';		/* powers */
	case 0xb2: return '2';
	case 0xb3: return '3';
	default: return 0;
	}
}
