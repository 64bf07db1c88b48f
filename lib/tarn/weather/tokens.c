/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "heading.h"

/* A name of a header to its words, numbers and the signs % and ". */

struct scan {
	struct token *token;
	size_t count;
	int groups, group;	/* brackets so far; the one that is open */
	int glued;
	char kind;		/* of the token that is open: 'a', '0', 0 */
	int small;		/* its last letter was a small one */
};

static int is_digit(unsigned c)
{
	return c >= '0' && c <= '9';
}

/* A new token; NULL if there are too many. */
static struct token *start(struct scan *s, const char *at)
{
	struct token *t = &s->token[s->count];

	if (s->count == TOKENS_MAX)
		return NULL;
	memset(t, 0, sizeof *t);
	t->raw.at = at;
	t->number = TARN_NAN;
	t->group = s->group;
	t->glued = s->glued && s->count > 0;
	s->count++;
	return t;
}

static int add(struct scan *s, const char *at, size_t bytes, char letter,
	       char kind)
{
	struct token *t;
	size_t n;

	if (s->kind != kind || kind == '%') {
		if (!start(s, at))
			return 0;
		s->kind = kind;
	}
	s->glued = 1;
	t = &s->token[s->count - 1];
	t->raw.length = (size_t)(at + bytes - t->raw.at);
	n = strlen(t->low);
	if (n + 1 < sizeof t->low)
		t->low[n] = letter;
	return 1;
}

static void end(struct scan *s)
{
	s->kind = 0;
	s->small = 0;
}

static void bracket(struct scan *s, unsigned c)
{
	end(s);
	s->glued = 0;
	if (c == '(' || c == '[' || c == '{')
		s->group = ++s->groups;
	else
		s->group = 0;
}

/* One character; 0 if there are too many words. */
static int put(struct scan *s, unsigned c, const char *at, size_t bytes,
	       struct text rest)
{
	char letter = tn_letter_fold(c);
	int capital = c >= 'A' && c <= 'Z';

	if (c == '%' || c == '"')
		return add(s, at, bytes, (char)c, '%');
	if (c == '.' && s->kind == '0' && rest.length > 0 &&
	    is_digit((unsigned char)rest.at[0]))
		return add(s, at, bytes, '.', '0');
	if (c < 0x80 && strchr("()[]{}", (int)c) && c) {
		bracket(s, c);
		return 1;
	}
	if (!letter) {
		/* "l'air": an article */
		if (c == '\'' && s->kind == 'a' && s->count > 0 &&
		    s->token[s->count - 1].low[1] == '\0')
			s->count--;
		end(s);
		/* a degree sign parts words as nothing does */
		s->glued = 0;
		return 1;
	}
	if (is_digit((unsigned char)letter))
		return add(s, at, bytes, letter, '0');
	if (capital && s->small)
		end(s);		/* "WindSpeed" */
	s->small = !capital;
	return add(s, at, bytes, letter, 'a');
}

size_t tn_tokens(struct text name, struct token out[TOKENS_MAX])
{
	struct scan s = { out, 0, 0, 0, 0, 0, 0 };

	while (name.length > 0) {
		const char *at = name.at;
		unsigned c = tn_letter_take(&name);

		if (!put(&s, c, at, (size_t)(name.at - at), name))
			return 0;
	}
	for (size_t i = 0; i < s.count; i++)
		if (is_digit((unsigned char)out[i].low[0]))
			tn_number(tn_text(out[i].low), &out[i].number);
	return s.count;
}

struct text tn_tokens_raw(const struct token *first, const struct token *last)
{
	struct text t = { first->raw.at, 0 };

	t.length = (size_t)(last->raw.at + last->raw.length - first->raw.at);
	return t;
}
