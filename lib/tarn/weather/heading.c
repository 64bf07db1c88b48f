/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "heading.h"

/* From the words of one name to what its column is. */

#define HAS(p, q) ((p)->quantities >> (q) & 1)

/* ---- words ----------------------------------------------------------- */

static void mean(struct parse *p, const struct meaning *m)
{
	if (m->quantity)
		p->quantities |= 1u << m->quantity;
	p->statistics |= m->statistic;
	if (m->quantity == Q_RAIN && !m->vague)
		p->vague = 0;
	if (m->not_wanted && p->nots < TOKENS_MAX)
		p->not[p->nots++] = m;
}

/* Tokens 'from' to 'to' as one word, '_' where they are not glued. */
static struct text joined(const struct parse *p, size_t from, size_t to,
			  char out[96])
{
	size_t n = 0;

	for (size_t i = from; i <= to; i++)
		n += (size_t)snprintf(out + n, 96 - n, "%s%s",
				      i > from && !p->token[i].glued ? "_" : "",
				      p->token[i].low);
	return tn_text(out);
}

/* The longest phrase at a token; 0: none. */
static size_t take_phrase(struct parse *p, size_t at)
{
	char word[96];

	for (size_t n = 4; n > 0; n--) {
		const struct meaning *m;

		if (at + n > p->count ||
		    p->token[at].group != p->token[at + n - 1].group)
			continue;
		m = tn_word(joined(p, at, at + n - 1, word));
		if (!m)
			continue;
		mean(p, m);
		for (size_t i = at; i < at + n; i++)
			p->token[i].done = 1;
		return n;
	}
	return 0;
}

/* "windspeed", "tageshochsttemperatur": nothing but known words of three
 * letters or more, with an s or n between. */
static int split_word(struct parse *p, const char *s, int depth)
{
	size_t length = strlen(s);

	if (length == 0)
		return 1;
	for (size_t n = length; n >= 3 && depth < 5; n--) {
		const struct meaning *m = tn_word((struct text){ s, n });

		if (!m)
			continue;
		if (!split_word(p, s + n, depth + 1) &&
		    ((s[n] != 's' && s[n] != 'n') || !s[n + 1] ||
		     !split_word(p, s + n + 1, depth + 1)))
			continue;
		mean(p, m);
		return 1;
	}
	return 0;
}

/* ---- heights --------------------------------------------------------- */

static double metres(struct text unit)
{
	if (tn_text_listed(unit, "m meter meters metre metres mtr"))
		return 1;
	if (tn_text_listed(unit, "ft feet foot"))
		return 0.3048;
	return tn_text_is(unit, "cm") ? 0.01 : 0;
}

static void take_heights(struct parse *p)
{
	for (size_t i = 0; i + 1 < p->count; i++) {
		struct token *n = &p->token[i], *unit = &p->token[i + 1];
		double m = metres(tn_text(unit->low));

		/* "0.1 m/s" is a unit, and "W m-2 2 m" has its 2 behind m */
		if (isnan(n->number) || n->number < 0.3 || m <= 0 ||
		    (i > 0 && tn_text_is(tn_text(p->token[i - 1].low), "m") &&
		     n->raw.at - p->token[i - 1].raw.at < 3))
			continue;
		p->height_m = n->number * m;
		n->done = unit->done = 1;
		if (i > 0 && tn_text_listed(tn_text(p->token[i - 1].low),
					    "at in"))
			p->token[i - 1].done = 1;
	}
}

/* ---- meaning --------------------------------------------------------- */

static void begin(struct parse *p, struct text name)
{
	memset(p, 0, sizeof *p);
	p->name = name;
	p->height_m = TARN_NAN;
	p->vague = 1;
	p->count = tn_tokens(name, p->token);
}

static void read_words(struct parse *p)
{
	take_heights(p);
	for (size_t i = 0; i < p->count;) {
		size_t n = p->token[i].done ? 1 : take_phrase(p, i);

		i += n ? n : 1;
	}
	for (size_t i = 0; i < p->count; i++)
		if (!p->token[i].done && strlen(p->token[i].low) >= 6 &&
		    split_word(p, p->token[i].low, 0))
			p->token[i].done = 1;
}

/* Of two words the one that says more: a dew point is a temperature. */
static enum quantity only_quantity(struct parse *p)
{
	static const struct { enum quantity strong, weak; } pairs[] = {
		{ Q_DEWPOINT, Q_TEMPERATURE }, { Q_VAPOUR, Q_PRESSURE },
		{ Q_SOLAR, Q_SUNSHINE },       { Q_REFERENCE, Q_EVAPORATION },
		{ Q_PAN, Q_EVAPORATION },      { Q_OPEN_WATER, Q_EVAPORATION },
	};

	for (size_t i = 0; i < sizeof pairs / sizeof pairs[0]; i++)
		if (HAS(p, pairs[i].strong))
			p->quantities &= ~(1u << pairs[i].weak);
	for (int q = 1; q < QUANTITIES; q++)
		if (p->quantities == 1u << q)
			return (enum quantity)q;
	return Q_NONE;
}

/* "High (F)", "max degC": the unit tells the quantity. */
static enum quantity quantity_by_unit(struct parse *p)
{
	double scale;
	struct parse copy = *p;

	if (p->quantities || (p->statistics != S_MIN &&
			      p->statistics != S_MAX))
		return Q_NONE;
	return tn_parse_unit(&copy, TARN_TMIN, &scale) ? Q_TEMPERATURE : Q_NONE;
}

/* Columns of a quantity's least, most and mean; TARN_COLUMNS: not wanted. */
static enum tarn_column column_of(enum quantity q, int statistic)
{
	static const enum tarn_column plain[QUANTITIES] = {
		TARN_COLUMNS, TARN_TMEAN, TARN_DEWPOINT, TARN_RH_MEAN,
		TARN_VAPOUR, TARN_WIND, TARN_SUNSHINE, TARN_SOLAR, TARN_RAIN,
		TARN_PAN, TARN_REFERENCE, TARN_OPEN_WATER, TARN_PRESSURE,
		TARN_COLUMNS
	};

	if (statistic != S_MIN && statistic != S_MAX)
		return plain[q];
	if (q == Q_TEMPERATURE)
		return statistic == S_MIN ? TARN_TMIN : TARN_TMAX;
	if (q == Q_HUMIDITY)
		return statistic == S_MIN ? TARN_RH_MIN : TARN_RH_MAX;
	return TARN_COLUMNS;
}

static const char *why_not(const struct parse *p, enum quantity q)
{
	int s = p->statistics & (S_MIN | S_MAX | S_MEAN);

	for (size_t i = 0; i < p->nots; i++)
		if (!(p->not[i]->except >> q & 1))
			return p->not[i]->not_wanted;
	if (q == Q_EVAPORATION)
		return "it does not say of what surface";
	if (s != 0 && s != S_MIN && s != S_MAX && s != S_MEAN)
		return "two statistics";
	if (q != Q_NONE && column_of(q, s) == TARN_COLUMNS)
		return s == S_MAX ? "the highest value of the day"
				  : "the lowest value of the day";
	if (q != Q_NONE && !isnan(p->height_m) && q != Q_WIND &&
	    p->height_m < 1)
		return "close to the ground";
	if (q != Q_NONE && p->height_m > 30)
		return "high above the ground";
	return NULL;
}

/* A unit of another quantity in brackets: hours of rain are no rain. */
static int has_other_unit(const struct parse *p)
{
	for (size_t i = 0; i < p->count; i++) {
		size_t to = i;

		if (p->token[i].group == 0 || p->token[i].done)
			continue;
		while (to + 1 < p->count &&
		       p->token[to + 1].group == p->token[i].group &&
		       !p->token[to + 1].done)
			to++;
		for (int c = 0; c < TARN_COLUMNS; c++)
			if (tn_unit_text((enum tarn_column)c,
					 tn_tokens_raw(&p->token[i],
						       &p->token[to])))
				return 1;
		i = to;
	}
	return 0;
}

/* Minutes of sunshine are no least value. */
static void free_minutes(struct parse *p)
{
	p->statistics &= ~S_MIN;
	for (size_t i = 0; i < p->count; i++)
		if (tn_text_listed(tn_text(p->token[i].low),
				   "min hours hrs minutes"))
			p->token[i].done = 0;
}

static void find_strange(const struct parse *p, struct heading *h)
{
	for (size_t i = 0; i < p->count && !h->strange[0]; i++)
		if (!p->token[i].done && isnan(p->token[i].number) &&
		    strcmp(p->token[i].low, "in") != 0)
			strcpy(h->strange, p->token[i].low);
}

static int begins_with_own(struct text name, enum tarn_column c)
{
	const char *own = tarn_column_info(c)->name;
	size_t n = strlen(own);

	return name.length >= n && memcmp(name.at, own, n) == 0 &&
	       (name.length == n || name.at[n] == '_');
}

struct heading tn_heading(struct text name)
{
	struct heading h = { .column = TARN_COLUMNS, .scale = 1,
			     .height_m = TARN_NAN };
	struct parse p;
	enum quantity q;

	begin(&p, name);
	read_words(&p);
	q = only_quantity(&p);
	if (q == Q_NONE)
		q = quantity_by_unit(&p);
	if (q == Q_SUNSHINE)
		free_minutes(&p);
	h.why = why_not(&p, q);
	h.statistic = p.statistics;
	h.vague = p.vague;
	if (q != Q_NONE && !h.why)
		h.column = column_of(q, p.statistics & (S_MIN | S_MAX));
	if (h.column < TARN_COLUMNS)
		h.unit = tn_parse_unit(&p, h.column, &h.scale);
	if (h.column < TARN_COLUMNS && !h.unit && has_other_unit(&p)) {
		h.why = "in a unit of something else";
		h.column = TARN_COLUMNS;
	}
	h.kind = h.why ? HEADING_OTHER : h.column < TARN_COLUMNS
		 ? HEADING_WANTED : HEADING_UNKNOWN;
	if (q == Q_WIND)
		h.height_m = p.height_m;
	if (h.kind == HEADING_WANTED)
		h.own = begins_with_own(name, h.column);
	find_strange(&p, &h);
	return h;
}

const struct tarn_weather_unit *tn_heading_unit(struct text name,
						enum tarn_column c,
						double *scale)
{
	struct parse p;

	begin(&p, name);
	return tn_parse_unit(&p, c, scale);
}

struct text tn_heading_base(struct text name)
{
	for (size_t i = 0; i < name.length; i++)
		if (name.at[i] == '(' || name.at[i] == '[')
			name.length = i;
	return tn_text_trim(name);
}
