/* SPDX-License-Identifier: MIT */
#include "internal.h"

struct tarn_column_summary tarn_weather_summary(const struct tarn_weather *w,
						enum tarn_column c)
{
	struct tarn_column_summary s = { 0, 0, TARN_NAN, TARN_NAN, TARN_NAN };
	const double *x = tarn_weather_column(w, c);
	double sum = 0;

	for (size_t i = 0; x && i < w->days; i++) {
		if (isnan(x[i]))
			continue;
		if (s.present++ == 0)
			s.min = s.max = x[i];
		s.min = x[i] < s.min ? x[i] : s.min;
		s.max = x[i] > s.max ? x[i] : s.max;
		sum += x[i];
	}
	s.missing = tarn_weather_counted(w) - s.present;
	if (s.present > 0)
		s.mean = sum / (double)s.present;
	return s;
}

/* No value, on a day that is not left out? */
static int gap_at(const struct tarn_weather *w, const double *x, size_t i)
{
	return (!x || isnan(x[i])) && !(w->left_out && w->left_out[i]);
}

int tarn_weather_gap(const struct tarn_weather *w, enum tarn_column c,
		     size_t from, size_t *at, size_t *days)
{
	const double *x = tarn_weather_column(w, c);
	size_t i = from;

	while (i < w->days && !gap_at(w, x, i))
		i++;
	if (i >= w->days)
		return 0;
	*at = i;
	while (i < w->days && gap_at(w, x, i))
		i++;
	*days = i - *at;
	return 1;
}

static enum tarn_status check_column(const struct tarn_weather *w,
				     enum tarn_column c,
				     struct tarn_error *err)
{
	const struct tarn_column_info *info = tarn_column_info(c);
	const double *x = w->column[c];
	char day[11];

	for (size_t i = 0; x && i < w->days; i++) {
		if (isnan(x[i]) || (x[i] >= info->lo && x[i] <= info->hi))
			continue;
		tarn_day_text(w->first + (long)i, day);
		return tarn_fail(err, TARN_EARG, info->name, "on %s is %g %s, "
				 "expected %g to %g: is the unit right?", day,
				 x[i], info->unit, info->lo, info->hi);
	}
	return TARN_OK;
}

static enum tarn_status check_pair(const struct tarn_weather *w,
				   enum tarn_column low,
				   enum tarn_column high,
				   struct tarn_error *err)
{
	const double *a = w->column[low], *b = w->column[high];
	char day[11];

	for (size_t i = 0; a && b && i < w->days; i++) {
		if (!(a[i] > b[i]))
			continue;
		tarn_day_text(w->first + (long)i, day);
		return tarn_fail(err, TARN_EARG, tarn_column_info(low)->name,
				 "on %s is %g, over %s %g: are the two columns "
				 "swapped?", day, a[i],
				 tarn_column_info(high)->name, b[i]);
	}
	return TARN_OK;
}

enum tarn_status tarn_weather_check(const struct tarn_weather *w,
				    struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	for (int c = 0; c < TARN_COLUMNS && status == TARN_OK; c++)
		status = check_column(w, (enum tarn_column)c, err);
	if (status == TARN_OK)
		status = check_pair(w, TARN_TMIN, TARN_TMAX, err);
	if (status == TARN_OK)
		status = check_pair(w, TARN_RH_MIN, TARN_RH_MAX, err);
	return status;
}
