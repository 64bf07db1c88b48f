/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* Which days of a table are run: a stretch without a gap, or calendar years. */

/* Of the air: where a table has one of a group, a day with none of it is
 * estimated. */
static const unsigned groups[] = {
	BIT(TARN_WIND), BIT(TARN_SOLAR) | BIT(TARN_SUNSHINE),
	BIT(TARN_RH_MIN) | BIT(TARN_RH_MAX) | BIT(TARN_RH_MEAN) |
		BIT(TARN_DEWPOINT) | BIT(TARN_VAPOUR)
};
#define GROUPS (sizeof groups / sizeof groups[0])

static int any_of(const struct tarn_weather *w, unsigned columns, size_t i)
{
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const double *x = tarn_weather_column(w, (enum tarn_column)c);

		if (columns & BIT(c) && x && !isnan(x[i]))
			return 1;
	}
	return 0;
}

static int ever(const struct tarn_weather *w, unsigned columns)
{
	for (size_t i = 0; i < tarn_weather_days(w); i++)
		if (any_of(w, columns, i))
			return 1;
	return 0;
}

void tn_years_begin(struct years *y, const struct tarn_weather *before,
		    const struct tarn_weather *w, unsigned columns, int air)
{
	*y = (struct years){ .w = w, .before = before, .columns = columns };
	y->offset = (size_t)(tarn_weather_first(w) -
			     tarn_weather_first(before));
	for (size_t g = 0; air && g < GROUPS; g++)
		if (ever(w, groups[g]))
			y->groups |= 1u << g;
}

int tn_years_bridged(const struct years *y, size_t i)
{
	for (int c = 0; c < TARN_COLUMNS; c++) {
		enum tarn_column column = (enum tarn_column)c;
		const double *x = tarn_weather_column(y->w, column);
		const double *was = tarn_weather_column(y->before, column);

		if (x && !isnan(x[i]) && (!was || isnan(was[y->offset + i])))
			return 1;
	}
	return 0;
}

int tn_years_estimated(const struct years *y, size_t i)
{
	const unsigned char *out = tarn_weather_left_out(y->w);

	if (out && out[i])
		return 0;
	for (size_t g = 0; g < GROUPS; g++)
		if (y->groups & 1u << g && !any_of(y->w, groups[g], i))
			return 1;
	return 0;
}

static int spoils(const struct years *y, size_t i)
{
	const unsigned char *out = tarn_weather_left_out(y->w);

	if (out && out[i])
		return 0;
	return tn_weather_lacks(y->w, y->columns, i) ||
	       (y->complete && (tn_years_bridged(y, i) ||
				tn_years_estimated(y, i)));
}

/* The day after the last of the calendar year around a day; how many of its days
 * can be run: none where one of them spoils it, and none that was left out
 * before. */
static size_t year_end(const struct years *y, size_t from, size_t *run)
{
	const unsigned char *out = tarn_weather_left_out(y->w);
	long first = tarn_weather_first(y->w);
	int year = tarn_date(first + (long)from).year;
	size_t end = (size_t)(tarn_day(year + 1, 1, 1) - first);

	if (end > tarn_weather_days(y->w))
		end = tarn_weather_days(y->w);
	*run = 0;
	for (size_t i = from; i < end; i++) {
		if (spoils(y, i)) {
			*run = 0;
			break;
		}
		*run += !(out && out[i]);
	}
	return end;
}

size_t tn_years_kept(const struct years *y)
{
	size_t kept = 0, run;

	for (size_t at = 0, end; at < tarn_weather_days(y->w); at = end) {
		end = year_end(y, at, &run);
		kept += run;
	}
	return kept;
}

/* "1985, 1991 to 1993", cut with "and 7 more". */
static void name_years(char *out, size_t size, const int *year, int count)
{
	size_t at = 0;

	*out = 0;
	for (int i = 0, end; i < count; i = end) {
		char text[32];

		for (end = i + 1; end < count && year[end] == year[end - 1] + 1;
		     end++)
			;
		if (end - i < 3)
			end = i + 1;
		if (end - i > 2)
			snprintf(text, sizeof text, "%s%d to %d",
				 i ? ", " : "", year[i], year[end - 1]);
		else
			snprintf(text, sizeof text, "%s%d", i ? ", " : "",
				 year[i]);
		if (at + strlen(text) + sizeof " and 400 more" > size) {
			snprintf(out + at, size - at, " and %d more",
				 count - i);
			return;
		}
		memcpy(out + at, text, strlen(text) + 1);
		at += strlen(text);
	}
}

enum tarn_status tn_years_leave_out(const struct years *y,
				    struct tarn_weather *w, char *names,
				    size_t size, struct tarn_error *err)
{
	long first = tarn_weather_first(w);
	int year[TARN_READY_YEARS], count = 0;
	size_t run;
	enum tarn_status s = TARN_OK;

	for (size_t at = 0, end; at < tarn_weather_days(w) && s == TARN_OK;
	     at = end) {
		end = year_end(y, at, &run);
		if (run == end - at)
			continue;
		year[count++] = tarn_date(first + (long)at).year;
		if (run > 0)
			continue;
		s = tarn_weather_leave_out(w, first + (long)at,
					   first + (long)end - 1, err);
	}
	name_years(names, size, year, count);
	return s;
}
