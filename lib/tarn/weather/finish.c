/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define RUN_MAX 31	/* days that a total without a length may cover */

static double *values(struct tarn_reader *r, int id)
{
	double *x = r->days.value[id];

	return x ? x + r->days.front : NULL;
}

/* ---- parts of a day -------------------------------------------------- */

static void close_hours(struct tarn_reader *r, const struct slot *slot)
{
	double *x = values(r, slot->id);
	const uint16_t *tally = r->days.tally[slot->id] + r->days.front;

	for (size_t i = 0; x && i < r->days.count; i++) {
		if (tally[i] == 0)
			continue;
		if (tally[i] < r->hours_least) {
			x[i] = TARN_NAN;
			r->report.column[slot->id].incomplete++;
			continue;
		}
		r->partial += tally[i] < r->map.hours;
		if (slot->combine == TARN_COMBINE_MEAN) {
			x[i] /= tally[i];
		}
	}
}

/* ---- rain totals of several days ------------------------------------- */

/*
 * Days that a total covers, ending on day 'at': as many as the file says, or
 * the run of days without rain before it; never past a day that has its own
 * value.
 */
static size_t covered(const double *rain, const double *days, size_t at)
{
	size_t most = days && days[at] > 0 ? (size_t)days[at] : RUN_MAX;
	size_t n = 1;

	while (n < most && n <= at && isnan(rain[at - n]))
		n++;
	return n;
}

static void assign_total(struct tarn_reader *r, double *rain, size_t at,
			 double total)
{
	size_t n = covered(rain, values(r, SLOT_TOTAL_DAYS), at);
	int spread = r->map.totals == TARN_TOTALS_SPREAD;

	for (size_t k = 1; k < n; k++)
		rain[at - k] = spread ? total / (double)n : 0;
	rain[at] = spread ? total / (double)n : total;
	r->report.totals_days += n;
}

/* Rain of more than one day stands among the others: take it out. */
static void assign_periods(struct tarn_reader *r)
{
	const double *days = values(r, SLOT_TOTAL_DAYS);
	double *rain = values(r, TARN_RAIN);

	for (size_t i = 0; rain && days && i < r->days.count; i++) {
		double total = rain[i];

		if (!(days[i] > 1) || isnan(total))
			continue;
		r->report.totals++;
		r->report.totals_mm += total;
		rain[i] = TARN_NAN;
		if (r->map.totals != TARN_TOTALS_MISSING)
			assign_total(r, rain, i, total);
	}
}

static void assign_totals(struct tarn_reader *r)
{
	const double *total = values(r, SLOT_TOTAL);
	double *rain = values(r, TARN_RAIN);

	if (!total)
		assign_periods(r);

	for (size_t i = 0; total && rain && i < r->days.count; i++) {
		if (isnan(total[i]))
			continue;
		r->report.totals++;
		r->report.totals_mm += total[i];
		if (r->map.totals != TARN_TOTALS_MISSING && isnan(rain[i]))
			assign_total(r, rain, i, total[i]);
	}
}

/* ---- the table ------------------------------------------------------- */

/* Days of the long form may hold tmin over tmax from two rows. */
static void drop_crossed(struct tarn_reader *r, enum tarn_column low,
			 enum tarn_column high)
{
	double *a = values(r, (int)low), *b = values(r, (int)high);

	for (size_t i = 0; a && b && i < r->days.count; i++)
		if (a[i] > b[i]) {
			a[i] = b[i] = TARN_NAN;
			r->report.column[low].outliers++;
			r->report.column[high].outliers++;
		}
}

static int day_has_value(struct tarn_reader *r, size_t i)
{
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const double *x = values(r, c);

		if (x && !isnan(x[i]))
			return 1;
	}
	return 0;
}

/* The days with any value, from first to last; 0 if there is none. */
static size_t extent(struct tarn_reader *r, size_t *first)
{
	size_t a = 0, b = r->days.count;

	while (a < b && !day_has_value(r, a))
		a++;
	while (b > a && !day_has_value(r, b - 1))
		b--;
	*first = a;
	return b - a;
}

/* The table takes the array itself, moved and cut to size. */
static enum tarn_status adopt(struct tarn_reader *r, struct tarn_weather *w,
			      int c, size_t first, unsigned *blank)
{
	double *x = r->days.value[c];
	size_t bytes = w->days * sizeof *x, i = 0;

	if (!x)
		return TARN_OK;
	if (r->days.front + first > 0)
		memmove(x, x + r->days.front + first, bytes);
	while (i < w->days && isnan(x[i]))
		i++;
	if (i == w->days) {
		*blank |= 1u << c;
		return TARN_OK;
	}
	x = tarn_resize(r->alloc, x, bytes);
	if (!x)
		return TARN_ENOMEM;
	r->days.value[c] = NULL;
	w->column[c] = x;
	return TARN_OK;
}

/* What the map says, or else the file, if it can be (-999.9 is no height). */
static double known(double given, double in_file, double lo, double hi)
{
	if (!isnan(given))
		return given;
	return in_file >= lo && in_file <= hi ? in_file : TARN_NAN;
}

void tn_finish_site(const struct tarn_reader *r, struct tarn_site *site)
{
	*site = r->map.site;
	if (!site->name[0])
		memcpy(site->name, r->site.name, sizeof site->name);
	site->latitude_deg = known(site->latitude_deg, r->site.latitude_deg,
				   -90, 90);
	site->elevation_m = known(site->elevation_m, r->site.elevation_m, -430,
				  6000);
}

static void count_days(struct tarn_reader *r, size_t first, size_t days)
{
	const uint32_t *seen = r->days.seen + r->days.front + first;

	memcpy(r->report.layout, r->map.layout, sizeof r->report.layout);
	r->report.days = days;
	r->report.trimmed = r->days.count - days;
	for (size_t i = 0; i < days; i++)
		r->report.absent += !(seen[i] & DAY_ROW);
}

static enum tarn_status build(struct tarn_reader *r, size_t first, size_t days,
			      struct tarn_weather **out)
{
	enum tarn_status status;
	unsigned blank = 0;

	status = tarn_weather_new(out, r->alloc, r->days.first + (long)first,
				  days, &r->err);
	if (status != TARN_OK)
		return status;
	count_days(r, first, days);
	tn_finish_site(r, &(*out)->site);
	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++)
		status = adopt(r, *out, c, first, &blank);
	if (status == TARN_OK)
		status = tn_notes_write(r, *out, blank);
	if (status != TARN_OK)
		return tarn_fail(&r->err, status, NULL, "out of memory");
	return tarn_weather_check(*out, &r->err);
}

enum tarn_status tn_finish(struct tarn_reader *r, struct tarn_weather **out)
{
	enum tarn_status status;
	size_t first, days;

	tn_running_settle(r);
	for (size_t i = 0; r->map.hours > 0 && i < r->scheme.slots; i++)
		close_hours(r, &r->scheme.slot[i]);
	if (r->map.outliers == TARN_OUTLIERS_MISSING) {
		drop_crossed(r, TARN_TMIN, TARN_TMAX);
		drop_crossed(r, TARN_RH_MIN, TARN_RH_MAX);
	}
	if (r->codes == 1) {
		r->err = r->code_alone;
		return r->err.code;
	}
	assign_totals(r);
	days = extent(r, &first);
	if (days == 0)
		return tarn_fail(&r->err, TARN_EFORMAT, NULL, "none of the "
				 "%zu rows has a value in the columns that "
				 "are read", r->report.rows);
	status = build(r, first, days, out);
	if (status != TARN_OK) {
		tarn_weather_free(*out);
		*out = NULL;
	}
	return status;
}
