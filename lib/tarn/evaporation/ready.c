/* SPDX-License-Identifier: MIT */
#include "internal.h"

/* The table that is run, of a table as it was read. */

#define T struct tarn_ready
static const char *const rain_words[] = { "error", "zero", NULL };
static const struct tarn_field wish_rows[] = {
	TARN_OUT_DAY(T, first_day, "first", "of the run"),
	TARN_OUT_DAY(T, last_day, "last", "of the run"),
	TARN_IN_WHOLE(T, bridge_days, "bridge", "days", 0, 31, 3,
		      "longest gap in tmin and tmax that is bridged"),
	TARN_IN_WHOLE(T, bridge_others_days, "bridge_others", "days", 0, 31, 0,
		      "longest gap in other columns that is bridged"),
	TARN_IN_CHOICE(T, rain, "rain", rain_words, TARN_RAIN_ERROR,
		       "zero: days without it are dry"),
};
TARN_FIELDS(tarn_ready_fields, "", wish_rows);
#undef T

#define T struct tarn_readied
static const struct tarn_field done_rows[] = {
	TARN_OUT_CHOICE(T, method, "method", tn_method_names,
			"that the columns were judged for"),
	TARN_OUT_COUNT(T, left_out, "left_out", "days", "that are not run"),
	TARN_OUT_DAY(T, first_day, "first", "that is run"),
	TARN_OUT_DAY(T, last_day, "last", "that is run"),
};
TARN_FIELDS(tarn_readied_fields, "ready", done_rows);
#undef T

struct tarn_ready tarn_ready_default(void)
{
	struct tarn_ready wishes = { .first_day = 0 };

	tarn_fields_default(&tarn_ready_fields, &wishes);
	wishes.first_day = wishes.last_day = TARN_NO_DAY;
	return wishes;
}

/* Bridges what may be bridged; all other gaps stay. */
static enum tarn_status bridge(struct tarn_weather *w,
			       const struct tarn_ready *wishes,
			       struct tarn_readied *done,
			       struct tarn_error *err)
{
	const unsigned warm = BIT(TARN_TMIN) | BIT(TARN_TMAX);
	struct tarn_fill how = tarn_fill_default();
	size_t others[TARN_COLUMNS];
	enum tarn_status s;

	how.leave = 1;
	how.interpolate_days = wishes->bridge_days;
	how.columns = warm;
	s = tarn_weather_fill(w, &how, done->filled, err);
	if (s != TARN_OK)
		return s;
	how.interpolate_days = wishes->bridge_others_days;
	how.rain = wishes->rain;
	how.columns = tarn_fill_default().columns & ~warm;
	s = tarn_weather_fill(w, &how, others, err);
	for (int c = 0; c < TARN_COLUMNS && s == TARN_OK; c++)
		done->filled[c] += others[c];
	return s;
}

/* Rain and the method's own, as far as the table has them. */
static unsigned judged(const struct tarn_weather *w, enum tarn_method m)
{
	unsigned columns = tn_method_columns(m) | BIT(TARN_RAIN);

	for (int c = 0; c < TARN_COLUMNS; c++)
		if (!tarn_weather_column(w, (enum tarn_column)c))
			columns &= ~BIT(c);
	return columns;
}

/* The longest stretch that lacks nothing, the later of two. */
static size_t longest(const struct tarn_weather *w, unsigned columns,
		      size_t *from)
{
	size_t best = 0, run = 0;

	*from = 0;
	for (size_t i = 0; i < tarn_weather_days(w); i++) {
		run = tn_weather_lacks(w, columns, i) ? 0 : run + 1;
		if (run > 0 && run >= best) {
			best = run;
			*from = i + 1 - run;
		}
	}
	return best;
}

static enum tarn_column count_missing(const struct tarn_weather *w,
				      unsigned columns,
				      struct tarn_readied *done)
{
	int worst = TARN_RAIN;

	for (int c = 0; c < TARN_COLUMNS; c++) {
		if (columns & BIT(c))
			done->missing[c] = tarn_weather_summary(
				w, (enum tarn_column)c).missing;
		if (done->missing[c] > done->missing[worst])
			worst = c;
	}
	return (enum tarn_column)worst;
}

static enum tarn_status too_short(const struct tarn_weather *w,
				  enum tarn_column c, size_t missing,
				  size_t best, struct tarn_error *err)
{
	return tarn_settled(err, c == TARN_RAIN ? TARN_SETTLE_RAIN
						: TARN_SETTLE_BRIDGE, NULL,
			    tarn_fail(
		err, TARN_EARG, tarn_column_info(c)->name,
			 "is missing on %zu of %zu days, and the longest "
			 "stretch without a gap has %zu: a run needs %d days "
			 "or half of the table; %s", missing,
			 tarn_weather_days(w), best, TARN_READY_DAYS,
			 c == TARN_RAIN
			 ? "say rain = \"zero\" to take missing days as dry"
			 : "bridge longer gaps: interpolate up to 31 days"));
}

static enum tarn_status note(struct tarn_weather *w, enum tarn_column c,
			     const struct tarn_readied *done)
{
	char first[11], last[11];

	tarn_day_text(done->first_day, first);
	tarn_day_text(done->last_day, last);
	return tarn_weather_add_note(w, "%s is missing on %zu day%s: the "
				     "longest stretch without a gap is run, "
				     "%s to %s, and %zu days are left out",
				     tarn_column_info(c)->name,
				     done->missing[c],
				     done->missing[c] == 1 ? "" : "s", first,
				     last, done->left_out);
}

/* The stretch that is run, in place of the table. */
static enum tarn_status keep(struct tarn_weather **w, unsigned columns,
			     struct tarn_readied *done, struct tarn_error *err)
{
	size_t days = tarn_weather_days(*w), from;
	size_t best = longest(*w, columns, &from);
	enum tarn_column worst = count_missing(*w, columns, done);
	struct tarn_weather *part;
	enum tarn_status s;

	done->first_day = tarn_weather_first(*w) + (long)from;
	done->last_day = done->first_day + (long)best - 1;
	done->left_out = days - best;
	if (best == days)
		return TARN_OK;
	if (best < TARN_READY_DAYS && 2 * best < days)
		return too_short(*w, worst, done->missing[worst], best, err);
	s = tarn_weather_slice(&part, *w, done->first_day, done->last_day,
			       err);
	if (s != TARN_OK)
		return s;
	tarn_weather_free(*w);
	*w = part;
	if (note(part, worst, done) != TARN_OK)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	return TARN_OK;
}

static enum tarn_method method_of(const struct tarn_weather *w,
				  const struct tarn_evaporation_options *o)
{
	struct tarn_evaporation_options all = tn_evaporation_resolve(o, w);

	return o->method == TARN_METHOD_AUTO ? tn_method_choose(w, &all)
					     : (enum tarn_method)o->method;
}

enum tarn_status tarn_weather_ready(struct tarn_weather **out,
				    const struct tarn_weather *w,
				    const struct tarn_evaporation_options *o,
				    const struct tarn_ready *wishes,
				    struct tarn_readied *done,
				    struct tarn_error *err)
{
	long first = tarn_weather_first(w);
	long last = first + (long)tarn_weather_days(w) - 1;
	struct tarn_readied d = { .method = TARN_METHOD_AUTO };
	enum tarn_status s;

	*out = NULL;
	if (wishes->first_day != TARN_NO_DAY)
		first = wishes->first_day;
	if (wishes->last_day != TARN_NO_DAY)
		last = wishes->last_day;
	s = tarn_fields_check(&tarn_evaporation_fields, o, err);
	if (s == TARN_OK)
		s = tarn_fields_check(&tarn_ready_fields, wishes, err);
	if (s == TARN_OK)
		s = tarn_weather_slice(out, w, first, last, err);
	if (s == TARN_OK)
		s = bridge(*out, wishes, &d, err);
	if (s == TARN_OK) {
		d.method = method_of(*out, o);
		s = keep(out, judged(*out, d.method), &d, err);
	}
	if (s != TARN_OK) {
		tarn_weather_free(*out);
		*out = NULL;
	} else if (done) {
		*done = d;
	}
	return s;
}
