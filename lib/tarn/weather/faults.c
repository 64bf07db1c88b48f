/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* What is wrong with a file, in words.  Apart from the reading itself, which
 * must be quick. */

static const char *field_name(const struct tarn_reader *r, int field,
			      char out[64])
{
	static const char *const of_dly[] = { "station", "date", "element",
					      "value", "flag" };

	if (r->dly && field >= 0)
		return of_dly[field < 4 ? field : 4];
	if (field >= 0 && (size_t)field < r->header.count)
		return tn_text_show(out, 64, r->header.name[field]);
	snprintf(out, 64, "column %d", field + 1);
	return out;
}

enum tarn_status tn_fault(struct tarn_reader *r, const struct row *row,
			  int field, const char *format, ...)
{
	char text[sizeof r->err.text], name[64];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	r->err.line = row->line;
	r->err.column = r->dly && field >= 0 ? tn_dly_column(row, field)
					     : field + 1;
	return tarn_fail(&r->err, TARN_EFORMAT,
			 field >= 0 ? field_name(r, field, name) : NULL, "%s",
			 text);
}

enum tarn_status tn_fault_number(struct tarn_reader *r,
				 const struct row *row,
				 const struct slot *slot,
				 enum number_result result)
{
	struct text t = row->field[slot->field];
	char shown[40];

	tn_text_show(shown, sizeof shown, t);
	if (result == NUMBER_HUGE)
		return tn_fault(r, row, slot->field,
				"'%s' is too large a number", shown);
	if (memchr(t.at, ',', t.length) && r->map.decimal == '.')
		return tarn_settled(&r->err, TARN_SETTLE_DECIMAL, ",", tn_fault(
			r, row, slot->field,
				"'%s' is not a number: if the comma is a "
				"decimal point, say decimal = \",\"",
				shown));
	return tarn_settled(&r->err, TARN_SETTLE_MISSING,
			    strpbrk(shown, "0123456789") ? NULL : shown, tn_fault(
		r, row, slot->field,
			"'%s' is not a number: correct it, or say missing = "
			"\"%s\" if it stands for no value",
			shown, shown));
}

enum tarn_status tn_fault_bounds(struct tarn_reader *r,
				 const struct row *row,
				 const struct slot *slot, double value)
{
	enum tarn_column c = slot->id < TARN_COLUMNS
				     ? (enum tarn_column)slot->id
				     : TARN_RAIN;
	const struct tarn_column_info *info = tarn_column_info(c);
	char shown[40], means[48] = "";

	if (slot->id == SLOT_TOTAL_DAYS)
		return tn_fault(r, row, slot->field,
				"'%s' is no number of days",
				tn_text_show(shown, sizeof shown,
					     row->field[slot->field]));
	tn_text_show(shown, sizeof shown, row->field[slot->field]);
	if (slot->convert)
		snprintf(means, sizeof means, ", %.6g %s", value, info->unit);
	return tarn_settled(&r->err, TARN_SETTLE_MISSING, NULL, tn_fault(
		r, row, slot->field,
			"'%s' %s%s is no possible %s (%g to %g %s): is the "
			"unit right? Say missing = \"%s\" if it stands for "
			"no value",
			shown, slot->unit, means, info->name, slot->lo,
			slot->hi, info->unit, shown));
}
