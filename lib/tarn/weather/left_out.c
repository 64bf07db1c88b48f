/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

/* Days of a table that are not run. */

const unsigned char *tarn_weather_left_out(const struct tarn_weather *w)
{
	return w->left_out;
}

size_t tarn_weather_counted(const struct tarn_weather *w)
{
	size_t counted = w->days;

	for (size_t i = 0; w->left_out && i < w->days; i++)
		counted -= w->left_out[i];
	return counted;
}

static enum tarn_status check(const struct tarn_weather *w, long first,
			      long last, struct tarn_error *err)
{
	long end = w->first + (long)w->days - 1;
	char a[11], b[11];

	if (first >= w->first && first <= last && last <= end)
		return TARN_OK;
	tarn_day_text(w->first, a);
	tarn_day_text(end, b);
	return tarn_fail(err, TARN_EARG, first < w->first || first > end
					 ? "first" : "last",
			 "must be a day of the weather, %s to %s, and the last "
			 "one not before the first", a, b);
}

enum tarn_status tarn_weather_leave_out(struct tarn_weather *w, long first,
					long last, struct tarn_error *err)
{
	enum tarn_status status = check(w, first, last, err);

	if (status != TARN_OK)
		return status;
	if (!w->left_out) {
		w->left_out = tarn_resize(w->alloc, NULL, w->days);
		if (!w->left_out)
			return tarn_fail(err, TARN_ENOMEM, NULL,
					 "out of memory");
		memset(w->left_out, 0, w->days);
	}
	for (size_t i = (size_t)(first - w->first);
	     i <= (size_t)(last - w->first); i++) {
		w->left_out[i] = 1;
		for (int c = 0; c < TARN_COLUMNS; c++)
			if (w->column[c])
				w->column[c][i] = TARN_NAN;
	}
	return TARN_OK;
}
