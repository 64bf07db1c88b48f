/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEATHER_HEADING_H
#define TARN_WEATHER_HEADING_H

/*
 * The grammar of header names: a quantity, a statistic, a height and a unit
 * in any order, in words of five languages.
 *
 *   letters.c  characters of any encoding, without accents
 *   tokens.c   a name to its words
 *   words.c    the words that are known
 *   heading.c  words to a meaning (heading_unit.c: its unit)
 *   plain.c    meanings of a whole header to a map
 */

#include "internal.h"

/* ---- letters.c ------------------------------------------------------- */

/* Takes the next character off: its code point.  Bytes that are no UTF-8 are
 * taken as Latin-1. */
unsigned tn_letter_take(struct text *t);

/* The small letter a to z that it is without its accent, a digit, or 0. */
char tn_letter_fold(unsigned c);

/* ---- words.c --------------------------------------------------------- */

enum quantity {
	Q_NONE, Q_TEMPERATURE, Q_DEWPOINT, Q_HUMIDITY, Q_VAPOUR, Q_WIND,
	Q_SUNSHINE, Q_SOLAR, Q_RAIN, Q_PAN, Q_REFERENCE, Q_OPEN_WATER,
	Q_PRESSURE, Q_EVAPORATION,	/* of what is not said */
	QUANTITIES
};

enum statistic { S_MIN = 1, S_MAX = 2, S_MEAN = 4, S_SUM = 8 };

/* Words of one meaning. */
struct meaning {
	const char *words;	/* blank-separated; '_' is a blank in a word */
	enum quantity quantity;
	int statistic;
	const char *not_wanted;	/* what it makes of any quantity ... */
	unsigned except;	/* ... but these, bit 1u << quantity */
	int vague;		/* another word for it says more */
};

/* NULL: not known. */
const struct meaning *tn_word(struct text word);

/* The known word for a quantity that is nearest to one that is not, within
 * one letter of four, two of more; NULL: none.  Fills its meaning. */
const char *tn_word_near(struct text word, char out[24],
			 const struct meaning **meaning);

/* ---- tokens.c -------------------------------------------------------- */

#define TOKENS_MAX 32

struct token {
	struct text raw;	/* in the name */
	char low[24];		/* letters without case and accent, or digits */
	double number;		/* NaN: a word */
	int group;		/* 0: in no bracket; else which one */
	int glued;		/* nothing stands before it */
	int done;		/* its meaning is known */
};

/* How many; 0 if the name is too long to be one. */
size_t tn_tokens(struct text name, struct token out[TOKENS_MAX]);

/* Bytes of the name from the first token to the last. */
struct text tn_tokens_raw(const struct token *first, const struct token *last);

/* ---- heading_unit.c -------------------------------------------------- */

/* A name on its way to a meaning. */
struct parse {
	struct text name;
	struct token token[TOKENS_MAX];
	size_t count;
	unsigned quantities;	/* bit 1u << quantity */
	int statistics, vague;
	const struct meaning *not[TOKENS_MAX];	/* what makes it another one */
	size_t nots;
	double height_m;
};

/* The unit of a column among the words that are not known yet; marks its
 * words.  NULL: none.  *scale: number in the file x scale = number in it. */
const struct tarn_weather_unit *tn_parse_unit(struct parse *p,
					      enum tarn_column c,
					      double *scale);

/* ---- heading.c ------------------------------------------------------- */

enum heading_kind {
	HEADING_UNKNOWN,	/* no quantity is known in it */
	HEADING_WANTED,
	HEADING_OTHER		/* known, and not wanted */
};

struct heading {
	enum heading_kind kind;
	enum tarn_column column;	/* of WANTED; else TARN_COLUMNS */
	const struct tarn_weather_unit *unit;	/* NULL: none in the name */
	double scale;			/* "0.1 mm": 0.1 */
	double height_m;		/* NaN: none in the name */
	const char *why;		/* OTHER */
	int own;			/* begins with our own name */
	int vague, statistic;
	char strange[24];	/* a word that is not known; "" */
};

struct heading tn_heading(struct text name);

/* The unit of a column in a name, NULL: none. */
const struct tarn_weather_unit *tn_heading_unit(struct text name,
						enum tarn_column c,
						double *scale);

/* What stands before the first bracket. */
struct text tn_heading_base(struct text name);

#endif
