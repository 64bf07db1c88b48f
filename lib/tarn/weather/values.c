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

static int is_missing(const struct scheme *scheme, double x)
{
	for (size_t i = 0; i < scheme->tokens; i++)
		if (x >= scheme->missing[i].number &&
		    x <= scheme->missing[i].number)
			return 1;
	return 0;
}

/* May it be too little to measure? */
static int is_amount(const struct slot *slot)
{
	return slot->id == SLOT_TOTAL ||
	       (slot->id < TARN_COLUMNS &&
		(slot->id == TARN_SUNSHINE ||
		 tn_column_like((enum tarn_column)slot->id) == TARN_RAIN));
}

enum tarn_status tn_value_read(struct tarn_reader *r,
			       const struct slot *slot,
			       const struct row *row, double *out)
{
	struct text t = row->field[slot->field];
	enum number_result result;
	int is_number;
	double x, in_file;

	*out = TARN_NAN;
	if (t.length == 0)
		return TARN_OK;
	if (slot->flag_field >= 0 && rejected(r, slot, row))
		return TARN_OK;
	result = r->map.decimal == '.' ? tn_number(t, &x)
				       : tn_number_with(t, r->map.decimal, &x);
	if (result != NUMBER_OK) {
		enum tarn_status status = tn_mark_read(r, row, slot, result,
						       &x, &is_number);

		if (status != TARN_OK || !is_number) {
			*out = x;
			return status;
		}
	}
	if (is_missing(&r->scheme, x))
		return TARN_OK;
	if (x >= r->scheme.trace && x <= r->scheme.trace &&
	    is_amount(slot)) {
		count_of(r, slot)->trace++;
		*out = 0;
		return TARN_OK;
	}
	in_file = x;
	if (slot->convert)
		x = (x + slot->add) * slot->multiply / slot->divide;
	if (x >= slot->lo && x <= slot->hi)
		*out = x + 0.0;		/* no minus zero */
	else if (tn_code(r, row, slot, in_file, x))
		return TARN_OK;
	else if (r->map.outliers == TARN_OUTLIERS_MISSING)
		count_of(r, slot)->outliers++;
	else
		return tn_fault_bounds(r, row, slot, x);
	return TARN_OK;
}

