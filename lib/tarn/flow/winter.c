/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* Of the means of two columns, which may be the same. */
static double degree_days(const double *a_c, const double *b_c, size_t days)
{
	double sum = 0, most = 0;

	for (size_t i = 0; i < days; i++) {
		double mean_c = (a_c[i] + b_c[i]) / 2;

		if (isnan(mean_c))
			return TARN_NAN;
		sum = fmax(sum - mean_c, 0);
		most = fmax(most, sum);
	}
	return most;
}

double tarn_freezing_degree_days(const double *tmean_c, size_t days)
{
	return degree_days(tmean_c, tmean_c, days);
}

size_t tarn_freeze_risk_days(const double *tmin_c, size_t days,
			     double threshold_c, size_t *missing)
{
	size_t risky = 0, unknown = 0;

	for (size_t i = 0; i < days; i++) {
		if (isnan(tmin_c[i]))
			unknown++;
		else if (tmin_c[i] <= threshold_c)
			risky++;
	}
	if (missing)
		*missing = unknown;
	return risky;
}

double tarn_ice_thickness_m(double degree_days, double factor)
{
	if (!(degree_days >= 0 && factor > 0))
		return TARN_NAN;
	return factor * sqrt(degree_days);
}

double tarn_ice_water_m3(double thickness_m, double area_m2)
{
	if (!(thickness_m >= 0 && area_m2 >= 0))
		return TARN_NAN;
	return thickness_m * area_m2 * 917 / 1000;
}

/* ---- the frost of some years ------------------------------------------- */

/* Place of a date in its winter: later dates are larger. */
static int in_winter(const struct tarn_date *d, int south)
{
	int month = south ? d->month : (d->month + 5) % 12 + 1;

	return month * 100 + d->day;
}

static void note_frosts(struct tarn_frost *f, long first_day,
			const double *tmin_c, size_t days, int south)
{
	int first = 0, last = 0;
	char text[11];

	for (size_t i = 0; i < days; i++) {
		long day = first_day + (long)i;
		struct tarn_date d = tarn_date(day);
		int at = in_winter(&d, south);

		if (!(tmin_c[i] <= 0))
			continue;
		tarn_day_text(day, text);
		if (first == 0 || at < first) {
			first = at;
			memcpy(f->first, text + 5, sizeof f->first);
		}
		if (at > last) {
			last = at;
			memcpy(f->last, text + 5, sizeof f->last);
		}
	}
}

/* Degree days of the coldest spell; a day of which nothing is known ends one. */
static double coldest_spell(const double *tmin_c, const double *tmax_c,
			    size_t days)
{
	double most = 0, spell;

	for (size_t i = 0, end; i < days && !isnan(most); i = end + 1) {
		for (end = i; end < days &&
		     !(isnan(tmin_c[end]) && isnan(tmax_c[end])); end++)
			;
		spell = degree_days(tmin_c + i, tmax_c + i, end - i);
		most = isnan(spell) ? spell : fmax(most, spell);
	}
	return most;
}

struct tarn_frost tarn_frost(long first_day, const double *tmin_c,
			     const double *tmax_c, size_t days, int south)
{
	struct tarn_frost f = { 0 };
	size_t missing, hard = tarn_freeze_risk_days(tmin_c, days,
						     TARN_HARD_FROST_C,
						     &missing);

	f.days = days - missing;
	f.hard_days = f.days > 0 ? (double)hard / (double)f.days * 365.25
				 : TARN_NAN;
	note_frosts(&f, first_day, tmin_c, days, south);
	f.degree_days = tmax_c && f.days > 0
		? coldest_spell(tmin_c, tmax_c, days) : TARN_NAN;
	return f;
}

#define T struct tarn_frost
static const struct tarn_field rows[] = {
	TARN_OUT_NUMBER(T, hard_days, "hard", "d",
			"days a year so cold that falls freeze"),
	TARN_OUT_TEXT(T, first, "first", "MM-DD of the earliest first frost"),
	TARN_OUT_TEXT(T, last, "last", "MM-DD of the latest last frost"),
	TARN_OUT_NUMBER(T, degree_days, "degree_days", "degC d",
			"freezing, of the coldest spell"),
	TARN_OUT_COUNT(T, days, "days", "days", "that it is of"),
};
TARN_FIELDS(tarn_frost_fields, "frost", rows);
#undef T
