/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "tarn/base/read.h"

enum tarn_status tn_read_fail(struct reading *r, enum tarn_mistake mistake,
			      const char *path, const char *format, ...)
{
	char text[sizeof r->err->text];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	tn_rows_note(r->err, mistake, NULL);
	return tarn_fail(r->err, TARN_EARG, path, "%s", text);
}

const char *tn_read_kind(const struct tarn_value *v)
{
	static const char *const kinds[] = {
		"number", "string", "boolean", "table"
	};

	return v->kind == TARN_VALUE_OTHER ? v->text : kinds[v->kind];
}

const char *tn_read_show(const struct tarn_value *v, char text[40])
{
	if (v->kind == TARN_VALUE_TEXT)
		return v->text;
	if (v->kind == TARN_VALUE_SWITCH)
		return v->number > 0 ? "true" : "false";
	if (v->kind != TARN_VALUE_NUMBER)
		return tn_read_kind(v);
	snprintf(text, 40, "%.14g", v->number);
	return text;
}

/* ---- numbers -------------------------------------------------------------- */

enum tarn_status tn_read_number(struct reading *r, const struct tarn_field *row,
				const char *path, const char *unit,
				const struct tarn_value *v, double *out)
{
	const char *gap = unit[0] ? " " : "";
	enum tarn_status status;
	double x;

	if (v->kind == TARN_VALUE_TEXT)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path, "%s%smust be a "
				    "number, got the text \"%s\": a unit is a "
				    "factor, as in 16 * ft", unit, gap,
				    v->text);
	if (v->kind != TARN_VALUE_NUMBER)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path, "%s%smust be a "
				    "number, got %s", unit, gap,
				    tn_read_kind(v));
	status = tn_read_unit(r, row, 0, path, unit, v, &x);
	if (status != TARN_OK)
		return status;
	if (!(x >= row->lo && x <= row->hi)) {
		tn_rows_note_range(r->err, TARN_MISTAKE_RANGE, row, x);
		return tarn_fail(r->err, TARN_EARG, path, "%s%smust be %.6g to "
				 "%.6g, got %.6g", unit, gap, row->lo, row->hi,
				 x);
	}
	*out = x;
	return TARN_OK;
}

static enum tarn_status plain_number(struct reading *r,
				     const struct tarn_field *row, char *to,
				     const char *path,
				     const struct tarn_value *v)
{
	char unit[40];
	double x = 0;
	enum tarn_status status;

	snprintf(unit, sizeof unit, row->unit[0] ? "[%s]" : "%s", row->unit);
	status = tn_read_number(r, row, path, unit, v, &x);
	if (status == TARN_OK)
		memcpy(to, &x, sizeof x);
	return status;
}

/* ---- words ------------------------------------------------------------------ */

static const char *nearest_word(const struct tarn_field *row, const char *text)
{
	const char *best = NULL, *word;
	int least = 0;

	for (size_t i = 0; (word = tarn_field_word(row, i)); i++) {
		/* one that begins so is nearer than any by its letters */
		int far = text[0] && strncmp(word, text, strlen(text)) == 0
			? 0 : tarn_name_distance(text, word);

		if (!best || far < least) {
			best = word;
			least = far;
		}
	}
	return best;
}

static void list_words(const struct tarn_field *row, char *text, size_t size)
{
	const char *word;
	size_t n = 0;

	text[0] = '\0';
	for (size_t i = 0; (word = tarn_field_word(row, i)) && n < size; i++)
		n += (size_t)snprintf(text + n, size - n, "%s\"%s\"",
				      i ? ", " : "", word);
}

static enum tarn_status no_word(struct reading *r,
				const struct tarn_field *row, const char *path,
				const struct tarn_value *v)
{
	const char *now = v->kind == TARN_VALUE_TEXT
		? tarn_name_now(path, v->text) : NULL;
	const char *near;
	char words[160], shown[40];

	if (now)
		return tn_read_fail(r, TARN_MISTAKE_CHOICE, path, "\"%s\" is "
				    "called \"%s\" now", v->text, now);
	near = nearest_word(row, tn_read_show(v, shown));
	tn_rows_note(r->err, TARN_MISTAKE_CHOICE, near);
	if (row->word)
		return tarn_fail(r->err, TARN_EARG, path, "'%s' is none of its "
				 "names: did you mean '%s'?",
				 tn_read_show(v, shown), near);
	list_words(row, words, sizeof words);
	return tarn_fail(r->err, TARN_EARG, path, "must be one of %s, got %s",
			 words, tn_read_show(v, shown));
}

static enum tarn_status plain_choice(struct reading *r,
				     const struct tarn_field *row, char *to,
				     const char *path,
				     const struct tarn_value *v)
{
	const char *word;

	for (int i = 0; (word = tarn_field_word(row, (size_t)i)); i++)
		if (v->kind == TARN_VALUE_TEXT && strcmp(word, v->text) == 0) {
			memcpy(to, &i, sizeof i);
			return TARN_OK;
		}
	return no_word(r, row, path, v);
}

static enum tarn_status plain_switch(struct reading *r, char *to,
				     const char *path,
				     const struct tarn_value *v)
{
	int on = v->number > 0;

	if (v->kind != TARN_VALUE_SWITCH)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be true or false");
	memcpy(to, &on, sizeof on);
	return TARN_OK;
}

static enum tarn_status plain_flag(struct reading *r,
				   const struct tarn_field *row, char *to,
				   const char *path,
				   const struct tarn_value *v)
{
	unsigned bits;
	int on = 0;
	enum tarn_status status = plain_switch(r, (char *)&on, path, v);

	memcpy(&bits, to, sizeof bits);
	bits &= ~(unsigned)row->size;
	if (on)
		bits |= (unsigned)row->size;
	memcpy(to, &bits, sizeof bits);
	return status;
}

static enum tarn_status plain_whole(struct reading *r,
				    const struct tarn_field *row, char *to,
				    const char *path,
				    const struct tarn_value *v)
{
	enum tarn_status status;
	double x = 0;
	int whole;

	status = v->kind == TARN_VALUE_NUMBER
		? tn_read_unit(r, row, 0, path, "", v, &x) : TARN_OK;
	if (status != TARN_OK)
		return status;
	if (v->kind != TARN_VALUE_NUMBER || !(x >= row->lo) ||
	    !(x <= row->hi) || x != floor(x)) {
		tn_rows_note_range(r->err, TARN_MISTAKE_RANGE, row,
				   v->kind == TARN_VALUE_NUMBER ? x : TARN_NAN);
		return tarn_fail(r->err, TARN_EARG, path, "must be a whole "
				 "number from %.0f to %.0f", row->lo, row->hi);
	}
	whole = (int)x;
	memcpy(to, &whole, sizeof whole);
	return TARN_OK;
}

/* ---- texts -------------------------------------------------------------------- */

/* UTF-8 without control characters. */
static int printable(const char *text, size_t bytes)
{
	size_t used;

	for (size_t i = 0; i < bytes; i += used) {
		long code = tarn_utf8(text + i, bytes - i, &used);

		if (code < 32 || (code >= 0x7F && code < 0xA0))
			return 0;
	}
	return 1;
}

static enum tarn_status plain_text(struct reading *r,
				   const struct tarn_field *row, char *to,
				   const char *path,
				   const struct tarn_value *v)
{
	if (v->kind != TARN_VALUE_TEXT || v->bytes >= row->size ||
	    !printable(v->text, v->bytes))
		return tn_read_fail(r, TARN_MISTAKE_LENGTH, path,
				    "must be a text "
				    "of at most %zu printable bytes",
				    row->size - 1);
	memcpy(to, v->text, v->bytes + 1);
	return TARN_OK;
}

/* A text that the object borrows. */
static enum tarn_status plain_string(struct reading *r, char *to,
				     const char *path,
				     const struct tarn_value *v)
{
	if (v->kind != TARN_VALUE_TEXT)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be a text, got %s", tn_read_kind(v));
	memcpy(to, &v->text, sizeof v->text);
	return TARN_OK;
}

static enum tarn_status plain_day(struct reading *r, char *to,
				  const char *path, const struct tarn_value *v)
{
	long day = v->kind == TARN_VALUE_TEXT ? tarn_day_parse(v->text)
					      : TARN_NO_DAY;
	char shown[40];

	if (day == TARN_NO_DAY)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path,
				    "must be a date "
				    "\"YYYY-MM-DD\" from 1800 to 2200, got %s",
				    tn_read_show(v, shown));
	memcpy(to, &day, sizeof day);
	return TARN_OK;
}

/* "2015-07-01" is a day; "07-01" is that day of every year. */
static enum tarn_status plain_date(struct reading *r,
				   const struct tarn_field *row, void *object,
				   const char *path,
				   const struct tarn_value *v)
{
	const char *text = v->kind == TARN_VALUE_TEXT ? v->text : "";
	long day = tarn_day_parse(text);
	char leap[11] = "2000-00-00", shown[40];
	int mmdd = 0;

	if (day == TARN_NO_DAY && strlen(text) == 5) {
		struct tarn_date date;

		memcpy(leap + 5, text, 5);
		date = tarn_date(tarn_day_parse(leap));
		mmdd = date.month * 100 + date.day;
	}
	if (day == TARN_NO_DAY && mmdd == 0)
		return tn_read_fail(r, TARN_MISTAKE_TYPE, path, "must be "
				    "\"YYYY-MM-DD\", or \"MM-DD\" for every year, "
				    "got %s", tn_read_show(v, shown));
	memcpy((char *)object + row->offset, &day, sizeof day);
	tn_rows_set_count(row, object, mmdd);
	return TARN_OK;
}

enum tarn_status tn_read_plain(struct reading *r, const struct tarn_field *row,
			       void *object, const char *path,
			       const struct tarn_value *v)
{
	char *to = (char *)object + row->offset;
	const void *itself = v;

	switch (row->kind) {
	case TARN_FIELD_ANY:
		memcpy(to, &itself, sizeof itself);
		return TARN_OK;
	case TARN_FIELD_NUMBER:
		return plain_number(r, row, to, path, v);
	case TARN_FIELD_CHOICE:
		return plain_choice(r, row, to, path, v);
	case TARN_FIELD_SWITCH:
		return plain_switch(r, to, path, v);
	case TARN_FIELD_FLAG:
		return plain_flag(r, row, to, path, v);
	case TARN_FIELD_WHOLE:
		return plain_whole(r, row, to, path, v);
	case TARN_FIELD_DAY:
		return plain_day(r, to, path, v);
	case TARN_FIELD_TEXT:
		return plain_text(r, row, to, path, v);
	case TARN_FIELD_STRING:
		return plain_string(r, to, path, v);
	case TARN_FIELD_DATE:
		return plain_date(r, row, object, path, v);
	default:
		return tn_read_fail(r, TARN_MISTAKE_OTHER, path,
				    "cannot be read");
	}
}
