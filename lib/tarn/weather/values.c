/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

static struct tarn_read_column *count_of(struct tarn_reader *r,
					 const struct slot *slot)
{
	/* a total of several days counts as rain */
	return &r->report.column[slot->id < TARN_COLUMNS ? slot->id
							 : TARN_RAIN];
}

/* The nth of the comma-separated parts of a flag, or all of it. */
static struct text flag_part(struct text flag, int part)
{
	struct text t = flag;

	for (int n = 1; n <= part; n++) {
		size_t length = 0;

		while (length < t.length && t.at[length] != ',')
			length++;
		if (n == part) {
			t.length = length;
			break;
		}
		if (length == t.length)
			return tn_text("");
		t.at += length + 1;
		t.length -= length + 1;
	}
	return tn_text_trim(t);
}

/* 1 if the flag makes the value missing. */
static int rejected(struct tarn_reader *r, const struct slot *slot,
		    const struct row *row)
{
	struct text flag = flag_part(row->field[slot->flag_field],
				     slot->flag_part);

	if (flag.length == 0 || tn_text_listed(flag, slot->quiet))
		return 0;
	if (strcmp(slot->reject, "*") == 0 ||
	    tn_text_listed(flag, slot->reject)) {
		count_of(r, slot)->rejected++;
		return 1;
	}
	count_of(r, slot)->flagged++;
	return 0;
}

/* A token of the map's: missing (NaN), or a trace (0). */
static int token(struct tarn_reader *r, const struct slot *slot, struct text t,
		 double *out)
{
	*out = TARN_NAN;
	for (size_t i = 0; i < r->scheme.tokens; i++)
		if (t.length == r->scheme.missing[i].text.length &&
		    memcmp(t.at, r->scheme.missing[i].text.at, t.length) == 0)
			return 1;
	if (!r->map.trace[0] || !tn_text_is(t, r->map.trace) ||
	    slot->id == SLOT_TOTAL_DAYS ||
	    tn_column_like(slot->id < TARN_COLUMNS
				     ? (enum tarn_column)slot->id
				     : TARN_RAIN) != TARN_RAIN)
		return 0;
	count_of(r, slot)->trace++;
	*out = 0;
	return 1;
}

static int is_missing(const struct scheme *scheme, double x)
{
	for (size_t i = 0; i < scheme->tokens; i++)
		if (x >= scheme->missing[i].number &&
		    x <= scheme->missing[i].number)
			return 1;
	return 0;
}

/* A number with a comma for its point. */
static enum number_result comma_number(struct text t, double *out)
{
	char copy[64];
	struct text number = { copy, t.length };

	if (t.length > sizeof copy || memchr(t.at, '.', t.length))
		return NUMBER_NONE;
	for (size_t i = 0; i < t.length; i++)
		copy[i] = t.at[i] == ',' ? '.' : t.at[i];
	return tn_number(number, out);
}

enum tarn_status tn_value_read(struct tarn_reader *r,
			       const struct slot *slot,
			       const struct row *row, double *out)
{
	struct text t = row->field[slot->field];
	enum number_result result;
	double x;

	*out = TARN_NAN;
	if (t.length == 0)
		return TARN_OK;
	if (slot->flag_field >= 0 && rejected(r, slot, row))
		return TARN_OK;
	result = r->map.decimal == ',' ? comma_number(t, &x)
				       : tn_number(t, &x);
	if (result != NUMBER_OK)
		return token(r, slot, t, out)
			       ? TARN_OK
			       : tn_fault_number(r, row, slot, result);
	if (is_missing(&r->scheme, x))
		return TARN_OK;
	if (slot->convert)
		x = (x + slot->add) * slot->multiply / slot->divide;
	if (x >= slot->lo && x <= slot->hi)
		*out = x + 0.0;		/* no minus zero */
	else if (r->map.outliers == TARN_OUTLIERS_MISSING)
		count_of(r, slot)->outliers++;
	else
		return tn_fault_bounds(r, row, slot, x);
	return TARN_OK;
}

