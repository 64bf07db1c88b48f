/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/base/rows.h"

static enum tarn_status fail_field(struct tarn_error *err,
				   const struct tarn_fields *fields,
				   const struct tarn_field *row, double value)
{
	char name[64];
	int has_unit = row->unit[0] && strcmp(row->unit, "-") != 0;

	snprintf(name, sizeof name, "%s%s%s", fields->section,
		 fields->section[0] ? "." : "", row->name);
	if (isnan(value))
		return tn_rows_fail_missing(row, name, err);
	tn_rows_note_range(err, TARN_MISTAKE_RANGE, row, value);
	return tarn_fail(err, TARN_EARG, name, "must be %g to %g%s%s, got %g",
			 row->lo, row->hi, has_unit ? " " : "",
			 has_unit ? row->unit : "", value);
}

static int in_range(const struct tarn_field *row, double value)
{
	if (isnan(value))
		return !row->required;
	return value >= row->lo && value <= row->hi;
}

/* A section's fields, under its own name. */
static enum tarn_status check_subsection(const struct tarn_fields *fields,
					 const struct tarn_field *row,
					 const void *at, struct tarn_error *err)
{
	struct tarn_fields of = *row->of;
	char section[64];

	snprintf(section, sizeof section, "%s%s%s", fields->section,
		 row->name[0] ? "." : "", row->name);
	of.section = section;
	return tarn_fields_check(&of, at, err);
}

static enum tarn_status check_row(const struct tarn_fields *fields,
				  const struct tarn_field *row, const char *at,
				  struct tarn_error *err)
{
	double value[12];
	size_t count = 1;
	long day;
	int choice;

	switch (row->kind) {
	case TARN_FIELD_SECTION:
		return check_subsection(fields, row, at, err);
	case TARN_FIELD_MONTHS:
		count = 12;
		memcpy(value, at, sizeof value);
		break;
	case TARN_FIELD_NUMBER:
		memcpy(value, at, sizeof value[0]);
		break;
	case TARN_FIELD_CHOICE:
	case TARN_FIELD_SWITCH:
	case TARN_FIELD_WHOLE:
		memcpy(&choice, at, sizeof choice);
		value[0] = choice;
		break;
	case TARN_FIELD_DAY:
		memcpy(&day, at, sizeof day);
		if (day == TARN_NO_DAY && row->required)
			return fail_field(err, fields, row, TARN_NAN);
		return TARN_OK;
	default:	/* by whoever owns the list or text */
		return TARN_OK;
	}
	for (size_t k = 0; k < count; k++)
		if (!in_range(row, value[k]))
			return fail_field(err, fields, row, value[k]);
	return TARN_OK;
}

enum tarn_status tarn_fields_check(const struct tarn_fields *fields,
				   const void *object, struct tarn_error *err)
{
	enum tarn_status st = TARN_OK;

	for (size_t i = 0; st == TARN_OK && i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];

		st = check_row(fields, row,
			       (const char *)object + row->offset, err);
	}
	return st;
}

static void default_number(const struct tarn_field *row, void *at, int count)
{
	for (int i = 0; i < count; i++)
		memcpy((double *)at + i, &row->otherwise, sizeof(double));
}

static void default_list(const struct tarn_field *row, void *object)
{
	void *none = NULL;

	tn_rows_set_count(row, object, 0);
	if (row->owned)
		memcpy((char *)object + row->offset, &none, sizeof none);
	if (row->second_offset)
		memcpy((char *)object + row->second_offset, &none,
		       sizeof none);
}

static int count_names(const char *const names[])
{
	int count = 0;

	while (names[count])
		count++;
	return count;
}

/* Only where the row has a whole number: others may be infinite. */
static void default_whole(const struct tarn_field *row, char *at)
{
	int whole = isnan(row->otherwise) ? 0 : (int)row->otherwise;

	memcpy(at, &whole, sizeof whole);
}

static void default_row(const struct tarn_field *row, void *object)
{
	char *at = (char *)object + row->offset;
	unsigned none = 0;
	size_t count = 0;
	const char *no_text = NULL;
	const void *no_value = NULL;
	long no_day = TARN_NO_DAY, no_line = 0;

	switch (row->kind) {
	case TARN_FIELD_NUMBER:
		default_number(row, at, 1);
		break;
	case TARN_FIELD_MONTHS:
		default_number(row, at, 12);
		break;
	case TARN_FIELD_CHOICE:
	case TARN_FIELD_SWITCH:
	case TARN_FIELD_WHOLE:
	case TARN_FIELD_NAMES:
		default_whole(row, at);
		break;
	case TARN_FIELD_COUNT:
		memcpy(at, &count, sizeof count);
		break;
	case TARN_FIELD_DATE:
		tn_rows_set_count(row, object, 0);
		memcpy(at, &no_day, sizeof no_day);
		break;
	case TARN_FIELD_DAY:
		memcpy(at, &no_day, sizeof no_day);
		break;
	case TARN_FIELD_TEXT:
		at[0] = '\0';
		break;
	case TARN_FIELD_STRING:
		memcpy(at, &no_text, sizeof no_text);
		break;
	case TARN_FIELD_ANY:
		memcpy(at, &no_value, sizeof no_value);
		break;
	case TARN_FIELD_LINE:
		memcpy(at, &no_line, sizeof no_line);
		break;
	case TARN_FIELD_FLAG:
	case TARN_FIELD_FLAGS:
		memcpy(at, &none, sizeof none);
		break;
	case TARN_FIELD_NAMED:
		default_number(row, at, count_names(row->choices));
		break;
	case TARN_FIELD_SECTION:
		tarn_fields_default(row->of, at);
		break;
	case TARN_FIELD_NUMBERS:
	case TARN_FIELD_PAIRS:
	case TARN_FIELD_LIST:
	case TARN_FIELD_COUNTS:
		if (row->count_offset != TARN_NO_COUNT)
			default_list(row, object);
		else if (row->kind != TARN_FIELD_LIST)
			default_number(row, at, (int)row->most);
		else
			for (size_t i = 0; i < row->most; i++)
				tarn_fields_default(row->of, at +
						    i * row->size);
		break;
	}
}

void tarn_fields_default(const struct tarn_fields *fields, void *object)
{
	for (size_t i = 0; i < fields->count; i++)
		default_row(&fields->rows[i], object);
}

const struct tarn_field *tarn_fields_find(const struct tarn_fields *fields,
					  const char *name)
{
	for (size_t i = 0; i < fields->count; i++)
		if (strcmp(fields->rows[i].name, name) == 0)
			return &fields->rows[i];
	return NULL;
}

#define NAME_MAX_LENGTH 63

static int fold(char c)
{
	return c >= 'A' && c <= 'Z' ? c + ('a' - 'A') : c;
}

static int least(int a, int b)
{
	return a < b ? a : b;
}

/* Optimal string alignment: edit distance with swaps of neighbours. */
int tarn_name_distance(const char *a, const char *b)
{
	int row[3][NAME_MAX_LENGTH + 1];
	size_t na = strlen(a), nb = strlen(b);

	if (na > NAME_MAX_LENGTH || nb > NAME_MAX_LENGTH)
		return NAME_MAX_LENGTH;
	for (size_t j = 0; j <= nb; j++)
		row[0][j] = (int)j;
	for (size_t i = 1; i <= na; i++) {
		int *now = row[i % 3];
		const int *last = row[(i + 2) % 3];
		const int *before = row[(i + 1) % 3];

		now[0] = (int)i;
		for (size_t j = 1; j <= nb; j++) {
			int same = fold(a[i - 1]) == fold(b[j - 1]);

			now[j] = least(least(last[j], now[j - 1]) + 1,
				       last[j - 1] + !same);
			if (i > 1 && j > 1 && fold(a[i - 1]) == fold(b[j - 2]) &&
			    fold(a[i - 2]) == fold(b[j - 1]))
				now[j] = least(now[j], before[j - 2] + 1);
		}
	}
	return row[na % 3][nb];
}

const struct tarn_field *tarn_fields_find_was(const struct tarn_fields *fields,
					      const char *was)
{
	for (size_t i = 0; i < fields->count; i++)
		if (fields->rows[i].was && strcmp(fields->rows[i].was,
						  was) == 0)
			return &fields->rows[i];
	return NULL;
}

const char *tarn_name_now(const char *section, const char *old)
{
	static const struct {
		const char *section, *old, *now;
	} names[] = {
		{ "evaporation", "open_water_factor", "water_over_grass" },
		{ "weir.formula", "cengel", "linear_cd" },
	};

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		if (strcmp(section, names[i].section) == 0 &&
		    strcmp(old, names[i].old) == 0)
			return names[i].now;
	return NULL;
}
