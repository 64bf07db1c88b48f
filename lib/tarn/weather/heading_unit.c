/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "heading.h"

/* The unit in a name: what is left of it when its other words are known. */

/* "0.1 mm" is mm, ten of which are one. */
static const struct tarn_weather_unit *unit_of(enum tarn_column c,
					       struct text t, double *scale)
{
	const struct tarn_weather_unit *u = tn_unit_text(c, t);

	*scale = 1;
	if (u || t.length < 4 || (memcmp(t.at, "0.1", 3) != 0 &&
				  memcmp(t.at, "0,1", 3) != 0))
		return u;
	t.at += 3;
	t.length -= 3;
	*scale = 0.1;
	return tn_unit_text(c, tn_text_trim(t));
}

/* A part of "l/m2" is no unit. */
static int is_part(struct text name, struct text unit)
{
	return (unit.at > name.at && unit.at[-1] == '/') ||
	       (unit.at + unit.length < name.at + name.length &&
		unit.at[unit.length] == '/');
}

/* The tokens of a unit with the "/day" behind them. */
static struct text with_day(const struct parse *p, size_t from, size_t to)
{
	const struct token *last = &p->token[to];

	if (to + 1 < p->count && last->raw.at[last->raw.length] == '/' &&
	    tn_text_listed(tn_text(last[1].low), "day days tag jour dag dia"))
		last++;
	return tn_tokens_raw(&p->token[from], last);
}

/* What is no unit may stand beside one: a word of three letters or more. */
static int is_plain_word(const struct token *t)
{
	return isnan(t->number) && strlen(t->low) >= 3;
}

/* The unit in a run of words that are not known; marks its words. */
static const struct tarn_weather_unit *
unit_in_run(struct parse *p, size_t from, size_t to, enum tarn_column c,
	    double *scale)
{
	for (size_t n = to - from + 1; n > 0; n--)
		for (size_t a = from; a + n <= to + 1; a++) {
			const struct tarn_weather_unit *u;
			struct text raw;
			int alone = 1;

			for (size_t i = from; i <= to; i++)
				alone &= (i >= a && i < a + n) ||
					 is_plain_word(&p->token[i]);
			/* "rain in mm": the last word is the unit's */
			if (!alone && a + n != to + 1)
				continue;
			if (!alone && !(a == from + 1 && n == 1 &&
					tn_text_listed(tn_text(
						p->token[from].low), "in")))
				continue;
			raw = with_day(p, a, a + n - 1);
			u = is_part(p->name, raw) ? NULL
						  : unit_of(c, raw, scale);
			if (!u)
				continue;
			for (size_t i = a; i < a + n; i++)
				p->token[i].done = 1;
			if (!alone)
				p->token[from].done = 1;
			return u;
		}
	return NULL;
}

const struct tarn_weather_unit *tn_parse_unit(struct parse *p,
					      enum tarn_column c,
					      double *scale)
{
	for (int bracket = 1; bracket >= 0; bracket--)
		for (size_t i = 0; i < p->count; i++) {
			const struct tarn_weather_unit *u;
			size_t to = i;

			if (p->token[i].done ||
			    (p->token[i].group > 0) != bracket)
				continue;
			while (to + 1 < p->count && !p->token[to + 1].done &&
			       p->token[to + 1].group == p->token[i].group)
				to++;
			u = unit_in_run(p, i, to, c, scale);
			if (u)
				return u;
			i = to;
		}
	*scale = 1;
	return NULL;
}

