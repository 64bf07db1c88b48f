/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* ---- order and duplicates -------------------------------------------- */

static enum tarn_status check_order(struct tarn_reader *r,
				    const struct row *row,
				    const struct stamp *t)
{
	char now[11], before[11];
	int sorts = r->map.hours == 0;

	if (r->report.rows == 0)
		return TARN_OK;
	if (tn_stamp_minutes(r, t) >= tn_stamp_minutes(r, &r->last) ||
	    tn_hours_back(r, row, t))
		return TARN_OK;
	if (r->map.order == TARN_ORDER_SORT) {
		r->report.unsorted++;
		return TARN_OK;
	}
	tarn_day_text(t->day, now);
	tarn_day_text(r->last.day, before);
	return tarn_settled(&r->err,
			    sorts ? TARN_SETTLE_ORDER : TARN_SETTLE_NONE,
			    sorts ? "sort" : NULL, tn_fault(
		r, row, r->scheme.date,
			"%s comes after %s: rows must be in order of time%s",
			now, before,
			sorts ? "; say order = \"sort\" to sort them"
			      : "; sort them by their time, in a spreadsheet "
				"program or an editor"));
}

/* *skip: this row loses to an earlier one. */
static enum tarn_status check_duplicate(struct tarn_reader *r,
					const struct row *row,
					const struct stamp *t, int again,
					int *skip)
{
	char day[11];

	*skip = 0;
	if (!again)
		return TARN_OK;
	if (r->map.duplicates == TARN_DUPLICATES_ERROR) {
		tarn_day_text(t->day, day);
		return tarn_settled(&r->err, TARN_SETTLE_DUPLICATES,
				    "first\tlast", tn_fault(
			r, row, r->scheme.date,
				"%s stands there again: say duplicates = "
				"\"first\" or \"last\" to keep one%s",
				day,
				r->map.hours > 0 ? ""
						   : ", or hours = 24 if the "
						     "rows are hours"));
	}
	r->report.duplicates++;
	*skip = r->map.duplicates == TARN_DUPLICATES_FIRST;
	return TARN_OK;
}

/* ---- storing --------------------------------------------------------- */

/* Adds a part of a day. */
static void gather(struct days *days, const struct slot *slot, size_t at,
		   double x)
{
	double *to = &days->value[slot->id][at];
	uint16_t *tally = &days->tally[slot->id][at];

	if (isnan(x) || *tally == UINT16_MAX)
		return;
	if ((*tally)++ == 0)
		*to = x;
	else if (slot->combine == TARN_COMBINE_MIN)
		*to = x < *to ? x : *to;
	else if (slot->combine == TARN_COMBINE_MAX)
		*to = x > *to ? x : *to;
	else
		*to += x;
}

static int find_slot(const struct scheme *scheme, int id)
{
	for (size_t i = 0; i < scheme->slots; i++)
		if (scheme->slot[i].id == id)
			return (int)i;
	return -1;
}

static enum tarn_status check_pair(struct tarn_reader *r,
				   const struct row *row, size_t at,
				   enum tarn_column low, enum tarn_column high)
{
	double *a = r->days.value[low], *b = r->days.value[high];
	int field;

	if (!a || !b || !(a[at] > b[at]))
		return TARN_OK;
	if (r->map.outliers == TARN_OUTLIERS_MISSING) {
		a[at] = b[at] = TARN_NAN;
		r->report.column[low].outliers++;
		r->report.column[high].outliers++;
		return TARN_OK;
	}
	field = r->scheme.slot[find_slot(&r->scheme, (int)low)].field;
	return tarn_settled(&r->err, TARN_SETTLE_OUTLIERS, NULL, tn_fault(
		r, row, field, "%s %g is over %s %g: are the columns "
		    "swapped, or in two units? Say outliers = \"missing\" to leave such days "
		    "out", tarn_column_info(low)->name, a[at],
		    tarn_column_info(high)->name, b[at]));
}

/* A row that is a day. */
static enum tarn_status store_day(struct tarn_reader *r, struct row *row,
				  size_t at)
{
	const struct scheme *scheme = &r->scheme;
	enum tarn_status status = TARN_OK;

	for (size_t i = 0; i < scheme->slots && status == TARN_OK; i++) {
		const struct slot *slot = &scheme->slot[i];
		double *to = &r->days.value[slot->id][at];

		if (!tn_value_plain(scheme, slot, row, to))
			status = tn_value_read(r, slot, row, to);
	}
	r->days.seen[at] |= DAY_ROW;
	if (status == TARN_OK)
		status = check_pair(r, row, at, TARN_TMIN, TARN_TMAX);
	if (status == TARN_OK)
		status = check_pair(r, row, at, TARN_RH_MIN, TARN_RH_MAX);
	return status;
}

/* A row that is a part of one. */
static enum tarn_status store_hour(struct tarn_reader *r, struct row *row,
				   const struct stamp *t, size_t at)
{
	const struct scheme *scheme = &r->scheme;
	enum tarn_status status = TARN_OK;

	for (size_t i = 0; i < scheme->slots && status == TARN_OK; i++) {
		const struct slot *slot = &scheme->slot[i];
		double x;

		if (!tn_value_plain(scheme, slot, row, &x))
			status = tn_value_read(r, slot, row, &x);
		if (slot->id == TARN_RAIN && r->days.value[SLOT_RUNNING])
			tn_running_take(r, t, at, x);
		gather(&r->days, slot, at, x);
	}
	r->days.seen[at] |= DAY_ROW;
	return status;
}

/* Long form: the one value of a row. */
static enum tarn_status store_value(struct tarn_reader *r, struct row *row,
				    const struct stamp *t, size_t at)
{
	for (size_t i = 0; i < r->scheme.slots; i++) {
		const struct slot *slot = &r->scheme.slot[i];
		uint32_t bit = 1u << slot->id;
		enum tarn_status status;
		double x;
		int skip;

		if (!tn_text_is(row->field[r->scheme.element], slot->element))
			continue;
		status = check_duplicate(r, row, t,
					 (r->days.seen[at] & bit) != 0, &skip);
		if (status != TARN_OK || skip)
			return status;
		status = tn_value_read(r, slot, row, &x);
		r->days.value[slot->id][at] = x;
		r->days.seen[at] |= bit | DAY_ROW;
		return status;
	}
	return TARN_OK;
}

static enum tarn_status store(struct tarn_reader *r, struct row *row,
			      const struct stamp *t)
{
	int is_long = r->scheme.element >= 0, again, skip;
	enum tarn_status status;
	size_t at;
	long day = tn_stamp_day(r, t);

	if (day < TARN_DAY_MIN || day > TARN_DAY_MAX)
		return tn_fault(r, row, r->scheme.date,
				"moves to a day outside 1800 to 2200");
	if (tn_days_reach(&r->days, day, &at) != TARN_OK)
		return tarn_fail(&r->err, TARN_ENOMEM, NULL, "out of memory");
	if (is_long)
		return store_value(r, row, t, at);
	again = (r->days.seen[at] & DAY_ROW) != 0;
	if (r->map.hours > 0)
		again = again && tn_stamp_minutes(r, t) ==
					 tn_stamp_minutes(r, &r->last) &&
			!tn_hours_back(r, row, t);
	status = check_duplicate(r, row, t, again, &skip);
	if (status != TARN_OK || skip)
		return status;
	return r->map.hours > 0 ? store_hour(r, row, t, at)
				: store_day(r, row, at);
}

/* ---- a row ----------------------------------------------------------- */

static int all_blank(const struct row *row)
{
	for (size_t i = 0; i < row->count; i++)
		if (row->field[i].length > 0)
			return 0;
	return 1;
}

static enum tarn_status check_fields(struct tarn_reader *r,
				     const struct row *row)
{
	if (row->count < r->scheme.needed)
		return tn_fault(r, row, -1,
				"the row has %zu columns where %zu are "
				"expected: is the file cut short?",
				row->count, r->scheme.needed);
	for (size_t i = r->scheme.fields;
	     r->scheme.fields && i < row->count; i++)
		if (row->field[i].length > 0)
			return tn_fault(r, row, (int)i,
					"the row has %zu columns, the header "
					"%zu: is there a comma too many?",
					row->count, r->scheme.fields);
	return TARN_OK;
}

/* *other: a row of a station that was not asked for. */
static enum tarn_status check_station(struct tarn_reader *r,
				      const struct row *row, int *other)
{
	char id[64], both[130];

	*other = 0;
	if (r->scheme.station < 0)
		return TARN_OK;
	if (r->map.station_id[0]) {
		*other = !tn_text_is(row->field[r->scheme.station],
				     r->map.station_id);
		r->report.elsewhere += (size_t)*other;
		return TARN_OK;
	}
	if (r->report.rows == 0)
		tn_text_show(r->station, sizeof r->station,
			     row->field[r->scheme.station]);
	else if (!tn_text_is(row->field[r->scheme.station], r->station)) {
		tn_text_show(id, sizeof id, row->field[r->scheme.station]);
		snprintf(both, sizeof both, "%s\t%s", r->station, id);
		return tarn_settled(&r->err, TARN_SETTLE_STATION, both, tn_fault(
			r, row, r->scheme.station, "'%s' is a second "
			    "station, after '%s': say station = \"...\" to "
			    "pick one", id, r->station));
	}
	return TARN_OK;
}

double tn_site_number(const struct row *row, int field)
{
	double x;

	if (field < 0 || (size_t)field >= row->count ||
	    tn_number(row->field[field], &x) != NUMBER_OK)
		return TARN_NAN;
	return x;
}

static void read_site(struct tarn_reader *r, const struct row *row)
{
	const struct scheme *p = &r->scheme;

	if (p->name >= 0)
		tn_text_show(r->site.name, sizeof r->site.name,
			     row->field[p->name]);
	if (p->latitude >= 0)
		r->site.latitude_deg = tn_site_number(row, p->latitude);
	if (p->elevation >= 0)
		r->site.elevation_m = tn_site_number(row, p->elevation);
}

/* Where a date should be, the first word of a row that sums up others. */
static int sums_up(const struct row *row, int date)
{
	struct text t = { "", 0 };
	char word[16];
	size_t n = 0;

	if ((size_t)date < row->count)
		t = row->field[date];
	for (; n < t.length && n < sizeof word && tn_is_letter(t.at[n]); n++)
		word[n] = (char)(t.at[n] >= 'A' && t.at[n] <= 'Z'
				 ? t.at[n] + ('a' - 'A') : t.at[n]);
	return tn_text_listed((struct text){ word, n }, "total totals sum sums mean means average "
			      "averages avg min max minimum maximum std stdev "
			      "count median summe gesamt mittel mittelwert "
			      "schnitt totaux somme moyenne moyennes suma "
			      "totales media promedio totaal som gemiddelde "
			      "gemiddeld");
}

/* A row that cannot be read is passed over if it is such a one. */
static int pass_over(struct tarn_reader *r, const struct row *row, int date,
		     enum tarn_status status)
{
	if (status != TARN_EFORMAT || !sums_up(row, date))
		return 0;
	memset(&r->err, 0, sizeof r->err);
	if (r->summaries++ == 0)
		r->summary_line = row->line;
	return 1;
}

enum tarn_status tn_store_row(struct tarn_reader *r, struct row *row)
{
	int date = r->scheme.date >= 0 ? r->scheme.date : r->scheme.year;
	enum tarn_status status;
	struct stamp t;
	int other;

	if (all_blank(row) || (r->commented && row->field[0].length > 0 &&
			       row->field[0].at[0] == '#'))
		return TARN_OK;
	if (r->report.rows < TARN_WEATHER_FILE_SAMPLES)
		tn_file_sample(r, row);
	if (r->map.undated && (size_t)date < row->count &&
	    row->field[date].length == 0) {
		r->report.undated++;
		return TARN_OK;
	}
	status = check_fields(r, row);
	if (status == TARN_OK)
		status = check_station(r, row, &other);
	if (status == TARN_OK && other)
		return TARN_OK;
	if (status == TARN_OK)
		status = tn_stamp_read(r, row, &t);
	if (status != TARN_OK && pass_over(r, row, date, status))
		return TARN_OK;
	if (status == TARN_OK)
		status = check_order(r, row, &t);
	if (status == TARN_OK)
		status = store(r, row, &t);
	if (status != TARN_OK)
		return status;
	if (r->report.rows++ == 0)
		read_site(r, row);
	r->last = t;
	return TARN_OK;
}
