/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

struct text tn_text(const char *s)
{
	struct text t = { s, strlen(s) };

	return t;
}

static int is_blank(char c)
{
	return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

struct text tn_text_trim(struct text t)
{
	while (t.length > 0 && is_blank(t.at[0])) {
		t.at++;
		t.length--;
	}
	while (t.length > 0 && is_blank(t.at[t.length - 1]))
		t.length--;
	return t;
}

int tn_text_is(struct text t, const char *s)
{
	return strlen(s) == t.length && memcmp(t.at, s, t.length) == 0;
}

struct text tn_text_word(const char **list)
{
	struct text word;

	*list += strspn(*list, " ");
	word.at = *list;
	word.length = strcspn(*list, " ");
	*list += word.length;
	return word;
}

/* Letter by letter: lists are long, and most words differ in their first. */
int tn_text_listed(struct text t, const char *list)
{
	while (*list) {
		size_t n = 0;

		while (*list == ' ')
			list++;
		while (n < t.length && list[n] && list[n] != ' ' &&
		       list[n] == t.at[n])
			n++;
		list += n;
		if (n > 0 && n == t.length && (*list == ' ' || !*list))
			return 1;
		while (*list && *list != ' ')
			list++;
	}
	return 0;
}

const char *tn_text_show(char *out, size_t size, struct text t)
{
	size_t n = 0;

	while (n < t.length && n + 1 < size) {
		unsigned char c = (unsigned char)t.at[n];

		out[n++] = c < 0x20 || c == 0x7f ? '?' : (char)c;
	}
	/* a cut in the middle of a UTF-8 character is no text any more */
	while (n < t.length && n > 0 && ((unsigned char)t.at[n] & 0xc0) == 0x80)
		n--;
	out[n] = '\0';
	return out;
}
