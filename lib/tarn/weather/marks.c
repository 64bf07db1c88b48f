/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/*
 * Values that are no plain numbers: words for no value, traces of rain, codes
 * as -9999, numbers with a unit or a flag behind, thousands in groups.
 */

const double tn_codes[TN_CODES] = { 99.9, 99.99, 999, 999.9, 999.99, 9999,
				    9999.9, 99999, -99, -99.9, -99.99, -999,
				    -999.9, -999.99, -9999, -9999.9, -99999 };

static struct tarn_read_column *count_of(struct tarn_reader *r,
					 const struct slot *slot)
{
	return &r->report.column[slot->id < TARN_COLUMNS ? slot->id
							 : TARN_RAIN];
}

static enum tarn_column column_of(const struct slot *slot)
{
	return slot->id < TARN_COLUMNS ? (enum tarn_column)slot->id : TARN_RAIN;
}

/* ---- words ----------------------------------------------------------- */

static int is_missing_word(struct text t)
{
	return tn_text_listed(t, "NA N/A n/a na #N/A NaN nan NAN null NULL "
			      "Null none None nil missing Missing M - -- --- "
			      "---- \xe2\x80\x93 \xe2\x80\x94");
}

static int is_trace(const struct tarn_reader *r, const struct slot *slot,
		    struct text t)
{
	if (slot->id == SLOT_TOTAL_DAYS ||
	    tn_column_like(column_of(slot)) != TARN_RAIN)
		return 0;
	if (r->map.trace[0])
		return tn_text_is(t, r->map.trace);
	return tn_text_listed(t, "T t Trace trace TRACE Tr tr TR");
}

/* A token of the map's: missing, or a trace. */
static int is_token(struct tarn_reader *r, struct text t)
{
	for (size_t i = 0; i < r->scheme.tokens; i++)
		if (t.length == r->scheme.missing[i].text.length &&
		    memcmp(t.at, r->scheme.missing[i].text.at, t.length) == 0)
			return 1;
	return 0;
}

/* ---- codes ----------------------------------------------------------- */

int tn_code(struct tarn_reader *r, const struct row *row,
	    const struct slot *slot, double in_file, double si)
{
	struct tarn_error keep = r->err;
	size_t i = 0;

	while (i < TN_CODES && (in_file < tn_codes[i] || in_file > tn_codes[i]))
		i++;
	if (i == TN_CODES || slot->id >= TARN_COLUMNS)
		return 0;
	if (r->codes++ == 0) {	/* an error, if it stays the only one */
		tn_fault_bounds(r, row, slot, si);
		r->code_alone = r->err;
		r->err = keep;
	}
	count_of(r, slot)->codes++;
	return 1;
}

/* ---- behind a number ------------------------------------------------- */

static int is_mark(struct text t)
{
	if (t.length == 0 || t.length > 2)
		return 0;
	for (size_t i = 0; i < t.length; i++)
		if (!strchr("*#+!?^~", t.at[i]) &&
		    !(t.at[i] >= 'A' && t.at[i] <= 'Z') &&
		    !(t.at[i] >= 'a' && t.at[i] <= 'z'))
			return 0;
	return 1;
}

/* "M" is no metre, and "S" no second: one letter must be the unit's own. */
const struct tarn_weather_unit *tn_unit_behind(enum tarn_column c,
					       struct text t)
{
	const struct tarn_weather_unit *u = tn_unit_text(c, t);

	if (u && t.length == 1 && tn_column_like(c) != TARN_TMIN &&
	    !tn_text_is(t, u->name))
		return NULL;
	return u;
}

struct text tn_number_tail(struct text t, struct text *number)
{
	size_t n = 0;

	while (n < t.length && t.at[n] && strchr("+-0123456789.,", t.at[n]))
		n++;
	*number = (struct text){ t.at, n };
	return tn_text_trim((struct text){ t.at + n, t.length - n });
}

/* A number with something behind; NUMBER_NONE and *status for an error. */
static enum number_result with_tail(struct tarn_reader *r,
				    const struct row *row,
				    const struct slot *slot, struct text t,
				    double *out, enum tarn_status *status)
{
	struct text number, tail = tn_number_tail(t, &number);
	const struct tarn_weather_unit *u;
	char shown[40];

	if (number.length == 0 || tail.length == 0 ||
	    tn_number_with(number, r->map.decimal, out) != NUMBER_OK)
		return NUMBER_NONE;
	u = slot->id < TARN_COLUMNS ? tn_unit_behind(column_of(slot), tail)
				    : NULL;
	if (u && strcmp(u->name, slot->unit) == 0)
		return NUMBER_OK;
	if (u) {
		*status = tn_fault(r, row, slot->field, "'%s' is in %s, but "
				   "the column is read in %s: a column must "
				   "have one unit; say unit = \"%s\" if all of "
				   "it is", tn_text_show(shown, sizeof shown,
				   t), u->name, slot->unit, u->name);
		return NUMBER_NONE;
	}
	if (!is_mark(tail))
		return NUMBER_NONE;
	count_of(r, slot)->marked++;
	return NUMBER_OK;
}

/* ---- thousands ------------------------------------------------------- */

/* Bytes of a group's separator at s; 0: there is none. */
static size_t separator(const char *s, const char *end, char decimal)
{
	if (s < end && (*s == ' ' || *s == '\'' ||
			(*s == ',' && decimal == '.') ||
			(*s == '.' && decimal == ',')))
		return 1;
	if (end - s >= 2 && memcmp(s, "\xc2\xa0", 2) == 0)
		return 2;
	if (end - s >= 3 && (memcmp(s, "\xe2\x80\xaf", 3) == 0 ||
			     memcmp(s, "\xe2\x80\x99", 3) == 0))
		return 3;
	return 0;
}

static size_t digits(const char *s, const char *end)
{
	const char *from = s;

	while (s < end && *s >= '0' && *s <= '9')
		s++;
	return (size_t)(s - from);
}

/* Takes the separators of "1,234,567.8" out; their number, 0 if it is no
 * such number. */
static int ungroup(struct text t, char decimal, char out[64])
{
	const char *s = t.at, *end = t.at + t.length, *mark = NULL;
	size_t n = 0, k, sep;
	int groups = 0;

	if (t.length > 60)
		return 0;
	if (s < end && (*s == '-' || *s == '+'))
		out[n++] = *s++;
	k = digits(s, end);
	if (k == 0 || k > 3)
		return 0;
	for (;;) {
		memcpy(out + n, s, k);
		n += k;
		s += k;
		sep = separator(s, end, decimal);
		if (sep == 0)
			break;
		if (mark && memcmp(mark, s, sep) != 0)
			return 0;
		mark = s;
		s += sep;
		k = digits(s, end);
		if (k != 3)
			return 0;
		groups++;
	}
	if (s < end && *s == decimal) {
		out[n++] = '.';
		s++;
		k = digits(s, end);
		memcpy(out + n, s, k);
		n += k;
		s += k;
		groups += 100;		/* no doubt left which is which */
	}
	out[n] = '\0';
	return s == end && groups % 100 > 0 ? groups : 0;
}

static double to_si(const struct slot *slot, double x)
{
	return slot->convert ? (x + slot->add) * slot->multiply / slot->divide
			     : x;
}

static int possible(const struct slot *slot, double x)
{
	double si = to_si(slot, x);

	return si >= slot->lo && si <= slot->hi;
}

/* "1,234": a group where only that can be, by the column's bounds. */
static enum number_result grouped(const struct tarn_reader *r,
				  const struct slot *slot, struct text t,
				  double *out)
{
	char text[64], other[64];
	int groups = ungroup(t, r->map.decimal, text);
	double x;

	if (groups == 0 || tn_number(tn_text(text), out) != NUMBER_OK)
		return NUMBER_NONE;
	if (groups > 1 || (!memchr(t.at, ',', t.length) &&
			   !memchr(t.at, '.', t.length)))
		return NUMBER_OK;
	tn_text_show(other, sizeof other, t);
	for (char *c = other; *c; c++)
		if (*c == ',')
			*c = '.';
	return tn_number(tn_text(other), &x) == NUMBER_OK &&
			       possible(slot, *out) && !possible(slot, x)
		       ? NUMBER_OK : NUMBER_NONE;
}

/* ---- one value --------------------------------------------------------- */

enum tarn_status tn_mark_read(struct tarn_reader *r, const struct row *row,
			      const struct slot *slot,
			      enum number_result result, double *out,
			      int *is_number)
{
	struct text t = row->field[slot->field];
	enum tarn_status status = TARN_OK;

	*is_number = 0;
	*out = TARN_NAN;
	if (is_token(r, t))
		return TARN_OK;
	if (is_missing_word(t)) {
		count_of(r, slot)->words++;
		return TARN_OK;
	}
	if (is_trace(r, slot, t)) {
		count_of(r, slot)->trace++;
		*out = 0;
		return TARN_OK;
	}
	if (result == NUMBER_HUGE)
		return tn_fault_number(r, row, slot, result);
	*is_number = 1;
	if (grouped(r, slot, t, out) == NUMBER_OK) {
		count_of(r, slot)->grouped++;
		return TARN_OK;
	}
	if (with_tail(r, row, slot, t, out, &status) == NUMBER_OK)
		return TARN_OK;
	return status != TARN_OK ? status
				 : tn_fault_number(r, row, slot, result);
}
