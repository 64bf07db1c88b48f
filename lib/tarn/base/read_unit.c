/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/base/read.h"

/* ---- numbers with a unit ---------------------------------------------------- */

static enum tarn_status fail_unit(struct reading *r,
				  const struct tarn_field *row, int which,
				  const char *path, const char *shown,
				  const struct tarn_value *v)
{
	struct tarn_measure m = { v->number, *v->unit };
	struct tarn_dimension si = *v->unit, wanted;
	const char *gap = shown[0] ? " " : "";
	char room[2][48];

	si.num = si.den = 1;
	tn_rows_note_range(r->err, TARN_MISTAKE_UNIT, row, TARN_NAN);
	if (!tarn_field_dimension(row, which, &wanted))
		return tarn_fail(r->err, TARN_EARG, path, "%s%stakes a number "
				 "without a unit", shown, gap);
	return tarn_fail(r->err, TARN_EARG, path, "%s%smust be %s, got %s "
			 "(%.6g in SI): is its unit another one, or is one left "
			 "out?", shown, gap,
			 tarn_dimension_word(&wanted, room[0]),
			 tarn_dimension_word(&si, room[1]),
			 tarn_measure_in(&m, &si));
}

/* What people everywhere give as a bare number: the field's name says the
 * unit, or there is one in use.  Common practice, no source. */
static int is_customary(const char *unit)
{
	static const char *const units[] = {
		"", "-", "%", "h", "1/h", "deg C", "C", "degrees", "years", "A",
		"V", "W", "mg/L", "m/yr", "m^0.5/s", "s/m^(1/3)", "inch"
	};

	for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
		if (strcmp(unit, units[i]) == 0)
			return 1;
	return 0;
}

/* Notes a bare number, if its neighbours carry units.  'which' as
 * tarn_field_dimension. */
static void note_bare(struct reading *r, const struct tarn_field *row,
		      int which, const char *path, const struct tarn_value *v)
{
	int price = strncmp(row->unit, "money/", 6) == 0;
	const char *beside = price ? r->anywhere : r->beside;
	struct tarn_bare *b;
	char room[32];

	if (!beside[0] || v->number == 0 || r->once == 2 ||
	    is_customary(row->unit))
		return;
	r->once *= 2;
	if (r->bare->count++ >= TARN_BARE_MAX)
		return;
	b = &r->bare->bare[r->bare->count - 1];
	snprintf(b->path, sizeof b->path, "%.63s", path);
	snprintf(b->beside, sizeof b->beside, "%.63s", beside);
	b->value = v->number;
	b->price = price;
	snprintf(b->unit, sizeof b->unit, "%.15s",
		 tarn_field_unit(row, which, room));
}

enum tarn_status tn_read_unit(struct reading *r, const struct tarn_field *row,
			      int which, const char *path, const char *shown,
			      const struct tarn_value *v, double *out)
{
	struct tarn_dimension of;
	struct tarn_measure m;

	*out = v->number;
	if (!v->unit) {
		if (r->bare)
			note_bare(r, row, which, path, v);
		return TARN_OK;
	}
	m = (struct tarn_measure){ v->number, *v->unit };
	if (!row->unit[0]) {	/* any */
		of = *v->unit;
		of.num = of.den = 1;
	} else if (!tarn_field_dimension(row, which, &of) ||
		   !tarn_dimension_alike(&of, v->unit)) {
		return fail_unit(r, row, which, path, shown, v);
	}
	*out = tarn_measure_in(&m, &of);
	return TARN_OK;
}

/* ---- numbers without one among them --------------------------------------------- */

#define T struct tarn_bare
static const struct tarn_field bare_rows[] = {
	TARN_OUT_TEXT(T, path, "path", "of the field"),
	TARN_OUT_NUMBER(T, value, "value", "", "as it was read, in unit"),
	TARN_OUT_TEXT(T, unit, "unit", "the field's"),
	TARN_OUT_TEXT(T, beside, "beside", "path of a neighbour with a unit"),
	TARN_OUT_SWITCH(T, price, "price", "its neighbours are all numbers"),
};
#undef T
TARN_FIELDS(tarn_bare_fields, "bare", bare_rows);

/* Entries of a list in their order, others by name: a script's table has no
 * order. */
static int comes_before(const struct tarn_value *a, const struct tarn_value *b)
{
	if (!b)
		return 1;
	return a->name && b->name && strcmp(a->name, b->name) < 0;
}

static void name_entry(const struct tarn_value *table,
		       const struct tarn_value *entry, const char *path,
		       char name[ROWS_PATH])
{
	size_t n = 1;

	for (const struct tarn_value *e = table->first; e != entry; e = e->next)
		n += !e->name;
	if (entry->name)
		snprintf(name, ROWS_PATH, "%s%s%s", path, path[0] ? "." : "",
			 entry->name);
	else
		snprintf(name, ROWS_PATH, "%s[%zu]", path, n);
}

static int carries(const struct tarn_value *v)
{
	int found = v->unit != NULL;

	for (const struct tarn_value *e = v->first; e && !found; e = e->next)
		found = carries(e);
	return found;
}

const char *tn_read_carrier(const struct tarn_value *table, const char *path,
			    char room[ROWS_PATH])
{
	const struct tarn_value *here = NULL, *within = NULL;
	char name[ROWS_PATH];

	room[0] = '\0';
	for (const struct tarn_value *e = table->first; e; e = e->next) {
		if (e->unit && comes_before(e, here))
			here = e;
		else if (e->first && !here && comes_before(e, within) &&
			 carries(e))
			within = e;
	}
	if (here) {
		name_entry(table, here, path, room);
	} else if (within) {
		name_entry(table, within, path, name);
		tn_read_carrier(within, name, room);
	}
	return room;
}
