/* SPDX-License-Identifier: MIT */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define NOTE_MAX 800

struct tarn_site tarn_site_default(void)
{
	struct tarn_site site = { "", TARN_NAN, TARN_NAN, TARN_NAN };

	return site;
}

enum tarn_status tarn_weather_new(struct tarn_weather **out,
				  const struct tarn_alloc *alloc,
				  long first_day, size_t days,
				  struct tarn_error *err)
{
	struct tarn_weather *w;

	*out = NULL;
	if (first_day < TARN_DAY_MIN || first_day > TARN_DAY_MAX)
		return tarn_fail(err, TARN_EARG, "first", "must be a day from "
				 "1800-01-01 to 2200-12-31");
	if (days < 1 || days > (size_t)(TARN_DAY_MAX - first_day) + 1)
		return tarn_fail(err, TARN_EARG, "days", "must be at least 1, "
				 "with the last day not after 2200-12-31");
	w = tarn_resize(alloc, NULL, sizeof *w);
	if (!w)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	memset(w, 0, sizeof *w);
	w->alloc = alloc;
	w->first = first_day;
	w->days = days;
	w->site = tarn_site_default();
	*out = w;
	return TARN_OK;
}

void tarn_weather_free(struct tarn_weather *w)
{
	if (!w)
		return;
	for (int c = 0; c < TARN_COLUMNS; c++)
		tarn_resize(w->alloc, w->column[c], 0);
	for (size_t i = 0; i < w->notes; i++)
		tarn_resize(w->alloc, w->note[i], 0);
	tarn_resize(w->alloc, w->note, 0);
	tarn_resize(w->alloc, w->left_out, 0);
	tarn_resize(w->alloc, w, 0);
}

size_t tarn_weather_days(const struct tarn_weather *w)
{
	return w->days;
}

long tarn_weather_first(const struct tarn_weather *w)
{
	return w->first;
}

const double *tarn_weather_column(const struct tarn_weather *w,
				  enum tarn_column c)
{
	return (unsigned)c < TARN_COLUMNS ? w->column[c] : NULL;
}

double *tarn_weather_add(struct tarn_weather *w, enum tarn_column c)
{
	double *column = (double *)tarn_weather_column(w, c);

	if (column || (unsigned)c >= TARN_COLUMNS)
		return column;
	column = tarn_resize(w->alloc, NULL, w->days * sizeof *column);
	if (!column)
		return NULL;
	for (size_t i = 0; i < w->days; i++)
		column[i] = TARN_NAN;
	return w->column[c] = column;
}

struct tarn_site *tarn_weather_site(struct tarn_weather *w)
{
	return &w->site;
}

const struct tarn_site *tarn_weather_site_of(const struct tarn_weather *w)
{
	return &w->site;
}

size_t tarn_weather_notes(const struct tarn_weather *w)
{
	return w->notes;
}

const char *tarn_weather_note(const struct tarn_weather *w, size_t i)
{
	return i < w->notes ? w->note[i] : NULL;
}

enum tarn_status tarn_weather_add_note(struct tarn_weather *w,
				       const char *format, ...)
{
	char text[NOTE_MAX + 1];
	char **list, *copy;
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	list = tarn_resize(w->alloc, w->note, (w->notes + 1) * sizeof *list);
	if (!list)
		return TARN_ENOMEM;
	w->note = list;
	copy = tarn_resize(w->alloc, NULL, strlen(text) + 1);
	if (!copy)
		return TARN_ENOMEM;
	memcpy(copy, text, strlen(text) + 1);
	list[w->notes++] = copy;
	return TARN_OK;
}

/* The mask of these days, where one of them is left out. */
static enum tarn_status copy_left_out(struct tarn_weather *to,
				      const struct tarn_weather *from,
				      size_t offset)
{
	if (!from->left_out || !memchr(from->left_out + offset, 1, to->days))
		return TARN_OK;
	to->left_out = tarn_resize(to->alloc, NULL, to->days);
	if (!to->left_out)
		return TARN_ENOMEM;
	memcpy(to->left_out, from->left_out + offset, to->days);
	return TARN_OK;
}

static enum tarn_status copy_days(struct tarn_weather *to,
				  const struct tarn_weather *from,
				  size_t offset)
{
	for (int c = 0; c < TARN_COLUMNS; c++) {
		double *column;

		if (!from->column[c])
			continue;
		column = tarn_weather_add(to, (enum tarn_column)c);
		if (!column)
			return TARN_ENOMEM;
		memcpy(column, from->column[c] + offset,
		       to->days * sizeof *column);
	}
	for (size_t i = 0; i < from->notes; i++)
		if (tarn_weather_add_note(to, "%s", from->note[i]) != TARN_OK)
			return TARN_ENOMEM;
	to->site = from->site;
	return copy_left_out(to, from, offset);
}

enum tarn_status tarn_weather_slice(struct tarn_weather **out,
				    const struct tarn_weather *w, long first,
				    long last, struct tarn_error *err)
{
	long end = w->first + (long)w->days - 1;
	enum tarn_status status;
	char a[11], b[11];

	*out = NULL;
	tarn_day_text(w->first, a);
	tarn_day_text(end, b);
	if (first < w->first || first > end)
		return tarn_fail(err, TARN_EARG, "first", "must be a day of "
				 "the weather, %s to %s", a, b);
	if (last < w->first || last > end)
		return tarn_fail(err, TARN_EARG, "last", "must be a day of "
				 "the weather, %s to %s", a, b);
	tarn_day_text(first, a);
	tarn_day_text(last, b);
	if (last < first)
		return tarn_fail(err, TARN_EARG, "last", "is %s, which comes "
				 "before first, %s", b, a);
	status = tarn_weather_new(out, w->alloc, first,
				  (size_t)(last - first) + 1, err);
	if (status == TARN_OK &&
	    copy_days(*out, w, (size_t)(first - w->first)) != TARN_OK)
		status = tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	if (status != TARN_OK) {
		tarn_weather_free(*out);
		*out = NULL;
	}
	return status;
}
