/* SPDX-License-Identifier: MIT */
#ifndef TARN_MEASURE_H
#define TARN_MEASURE_H

/*
 * measure: a number with its unit, carried through arithmetic: 4 ft x 3 ft is
 * an area, 4 ft + 3 gal is refused.  Descriptions are worked out with it, and
 * the reader of values holds a field against it.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

#define TARN_DIMENSION_BASES 5

/*
 * The dimension of a unit and the unit's size: "mm/d" is m^1 s^-1, and 1 /
 * 86400000 of the SI unit.  Money has no dimension: "money/m3" is m^-3.  A
 * year is 365 days, as in the rates k of treatment.h.
 */
struct tarn_dimension {
	signed char power[TARN_DIMENSION_BASES]; /* of m, s, kg, K, A, in
						    sixths: m is 6, m^0.5 is 3 */
	double num, den;	/* the unit is num / den of SI; both exact */
};

/*
 * Reads the unit of a row ("m3/s", "mm/d", "s/m^(1/3)", "money/kWh", "-").
 * Returns 1, or 0 where the text is no unit that it knows.  Source of the
 * factors: NIST SP 811 (2008) appendix B, all exact.
 */
TARN_API int tarn_dimension(const char *unit, struct tarn_dimension *out);

/*
 * The unit of a row as a text; a row of pairs may have two ("m, m2").
 *
 *   which    of a pair: even for the first number, odd for the second, as the
 *            index of a tarn_place; of any other row not looked at
 *   room     filled where there are two
 *
 * The text is never NULL; no errors; source: the row.
 */
TARN_API const char *tarn_field_unit(const struct tarn_field *row, int which,
				     char room[32]);

/* The same as a dimension.  Returns 1, or 0 where the row has no unit that
 * tarn_dimension knows; 'which' as there; source: the row. */
TARN_API int tarn_field_dimension(const struct tarn_field *row, int which,
				  struct tarn_dimension *out);

/* Whether two have the same dimension, whatever the size of their units (no
 * range, no errors; source: the definition). */
TARN_API int tarn_dimension_alike(const struct tarn_dimension *a,
				  const struct tarn_dimension *b);

/*
 * What it is, with its article: "a length", "an area", "a flow"; "a plain
 * number"; of one without a name its units in SI, "m^2 s^-1".
 *
 *   room      filled where there is no name
 *
 * The text has no unit of its own, is never NULL, and is valid as long as room;
 * no errors; source of the words: common practice.
 */
TARN_API const char *tarn_dimension_word(const struct tarn_dimension *d,
					 char room[48]);

/* A number in its unit. */
struct tarn_measure {
	double number;
	struct tarn_dimension unit;
};

/* A number without a unit (any value; source: the definition). */
TARN_API struct tarn_measure tarn_measure_plain(double number);

/* One of a unit of tarn_units(), as "ft".  Returns 1, or 0 where there is no
 * such unit; source of factors: as tarn_units. */
TARN_API int tarn_measure_unit(const char *name, struct tarn_measure *out);

/*
 * The number [in 'unit'] of a measure; NaN where the dimensions differ.  In its own
 * unit the number is given back bit by bit; elsewhere it is within two roundings
 * of the exact value.  Source: the definition.
 */
TARN_API double tarn_measure_in(const struct tarn_measure *m,
				const struct tarn_dimension *unit);

/*
 * Arithmetic, in any units.  Each returns 1 with *out filled, or 0 where it has
 * no sense: a sum, a difference, a comparison of unlike dimensions (a plain 0
 * has every dimension); a power of a unit that is no sixth, or beyond 21.
 *
 *   order    below, at or above 0, as a is below, at or above b; 0 also where
 *            one is NaN
 *
 * Source: the definitions of the International System (BIPM 2019).
 */
TARN_API int tarn_measure_add(const struct tarn_measure *a,
			      const struct tarn_measure *b,
			      struct tarn_measure *out);
TARN_API int tarn_measure_multiply(const struct tarn_measure *a,
				   const struct tarn_measure *b,
				   struct tarn_measure *out);
TARN_API int tarn_measure_divide(const struct tarn_measure *a,
				 const struct tarn_measure *b,
				 struct tarn_measure *out);
TARN_API int tarn_measure_power(const struct tarn_measure *a, double exponent,
				struct tarn_measure *out);
TARN_API int tarn_measure_compare(const struct tarn_measure *a,
				  const struct tarn_measure *b, int *order);

/* ---- as people type them ---------------------------------------------------- */

/*
 * A number [without a unit]: "3.5", "7/8", "3 1/2", "3-1/2", "3" and a one-letter
 * fraction (U+00BC to U+00BE, U+2153, U+2154, U+215B to U+215E); a sign before it.
 * UTF-8; no decimal comma, which would be a guess.  Returns 1, or 0 where the
 * text is anything else; no errors; source: the definition.
 */
TARN_API int tarn_typed_number(const char *text, double *out);

/*
 * A quantity: numbers with units of tarn_units(), or as they are often written
 * (in, feet, ', ", their typographer's primes, sq ft, L, gallons, min ...), which
 * add up: "4 ft 3 1/2 in", "4'3\"", "1.2 m".
 *
 *   unit   that *out is in, of a row ("m", "m3/s"); its dimension is wanted
 *   bare   name in tarn_units() of the unit of a number that has none; NULL: it
 *          must have one
 *
 * Errors: TARN_EFORMAT: the text of it goes behind the quoted input ("is a
 * volume, and a length is wanted"); TARN_EARG, field "unit".
 */
TARN_API enum tarn_status tarn_typed(const char *text, const char *unit,
				     const char *bare, double *out,
				     struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
