/* SPDX-License-Identifier: MIT */
#include "internal.h"

/* The table that is run, of a table as it was read. */

static const char *const years_words[] = { "most", "complete", "all",
					   "stretch", NULL };
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
	TARN_IN_CHOICE(T, years, "years", years_words, TARN_YEARS_STRETCH,
		       "that are run where some days cannot be"),
};
TARN_FIELDS(tarn_ready_fields, "", wish_rows);
#undef T

#define T struct tarn_readied
static const struct tarn_field done_rows[] = {
	TARN_OUT_CHOICE(T, method, "method", tn_method_names,
			"that the columns were judged for"),
	TARN_OUT_COUNT(T, left_out, "left_out", "days", "that are not run"),
	TARN_OUT_COUNT(T, days, "days", "days", "that are run"),
	TARN_OUT_DAY(T, first_day, "first", "that is run"),
	TARN_OUT_DAY(T, last_day, "last", "that is run"),
	TARN_OUT_SWITCH(T, stretch, "stretch",
			"1: one stretch is run, 0: calendar years"),
	TARN_OUT_TEXT(T, years_out, "years_out", "that are left out"),
	TARN_OUT_COUNT(T, bridged, "bridged", "days",
		       "with a value that was bridged"),
	TARN_OUT_COUNT(T, estimated, "estimated", "days",
		       "that lack humidity, sun or wind"),
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
	how.rain = wishes->years == TARN_YEARS_ALL ? TARN_RAIN_ZERO
						   : wishes->rain;
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
	const unsigned char *out = tarn_weather_left_out(w);
	size_t best = 0, run = 0;

	*from = 0;
	for (size_t i = 0; i < tarn_weather_days(w); i++) {
		run = tn_weather_lacks(w, columns, i) || (out && out[i])
			? 0 : run + 1;
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
				  const struct tarn_readied *done,
				  enum tarn_column c, size_t best,
				  struct tarn_error *err)
{
	return tarn_settled(err, c == TARN_RAIN ? TARN_SETTLE_RAIN
						: TARN_SETTLE_BRIDGE, NULL,
			    tarn_fail(
		err, TARN_EARG, tarn_column_info(c)->name,
			 "is missing on %zu of %zu days, and %s without a gap "
			 "%s %zu: a run needs %d days or half of the table; %s",
			 done->missing[c], tarn_weather_days(w),
			 done->stretch ? "the longest stretch"
				       : "the calendar years",
			 done->stretch ? "has" : "have", best, TARN_READY_DAYS,
			 c == TARN_RAIN
			 ? "say rain = \"zero\" to take missing days as dry"
			 : "bridge longer gaps: interpolate up to 31 days"));
}

static enum tarn_status not_complete(const struct tarn_weather *w, size_t best,
				     const struct tarn_readied *done,
				     struct tarn_error *err)
{
	return tarn_fail(err, TARN_EARG, "years", "that are complete have %zu "
			 "of %zu days, where a run needs %d or half of them; "
			 "days bridged: %zu, without humidity, sun or wind: "
			 "%zu; take the rule 'most'", best,
			 tarn_weather_days(w), TARN_READY_DAYS, done->bridged,
			 done->estimated);
}

static enum tarn_status note_stretch(struct tarn_weather *w, enum tarn_column c,
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

static enum tarn_status note_years(struct tarn_weather *w, int complete,
				   const struct tarn_readied *done)
{
	return tarn_weather_add_note(w, "calendar years that %s are left out, "
				     "%zu days in all: %s", complete
				     ? "lack a day, or have one that is "
				       "bridged or lacks humidity, sun or wind"
				     : "lack a day", done->left_out,
				     done->years_out);
}

/* Cuts the days first .. last out in place of the table. */
static enum tarn_status cut(struct tarn_weather **w, long first, long last,
			    struct tarn_error *err)
{
	struct tarn_weather *part;
	enum tarn_status s = tarn_weather_slice(&part, *w, first, last, err);

	if (s != TARN_OK)
		return s;
	tarn_weather_free(*w);
	*w = part;
	return TARN_OK;
}

static enum tarn_status keep_stretch(struct tarn_weather **w, size_t from,
				     size_t days, struct tarn_readied *done,
				     struct tarn_error *err)
{
	done->first_day = tarn_weather_first(*w) + (long)from;
	done->last_day = done->first_day + (long)days - 1;
	if (days == tarn_weather_days(*w))
		return TARN_OK;
	return cut(w, done->first_day, done->last_day, err);
}

/* Leaves years out; those at the ends are cut off. */
static enum tarn_status keep_years(struct tarn_weather **w,
				   const struct years *y,
				   struct tarn_readied *done,
				   struct tarn_error *err)
{
	size_t from = 0, to = tarn_weather_days(*w);
	enum tarn_status s = tn_years_leave_out(y, *w, done->years_out,
						sizeof done->years_out, err);
	const unsigned char *out = tarn_weather_left_out(*w);

	if (s != TARN_OK)
		return s;
	while (out && out[from])
		from++;
	while (out && out[to - 1])
		to--;
	return keep_stretch(w, from, to - from, done, err);
}

/* Counts what was bridged and what will be estimated. */
static void count_doubtful(const struct years *y, struct tarn_readied *done)
{
	for (size_t i = 0; i < tarn_weather_days(y->w); i++) {
		done->bridged += (size_t)tn_years_bridged(y, i);
		done->estimated += (size_t)tn_years_estimated(y, i);
	}
}

/* What is run in place of the table. */
static enum tarn_status keep(struct tarn_weather **w, struct years *y,
			     enum tarn_years rule, struct tarn_readied *done,
			     struct tarn_error *err)
{
	size_t days = tarn_weather_days(*w), from;
	size_t stretch = longest(*w, y->columns, &from), kept = stretch;
	enum tarn_column worst = count_missing(*w, y->columns, done);
	enum tarn_status s;

	count_doubtful(y, done);
	y->complete = rule == TARN_YEARS_COMPLETE;
	if (rule != TARN_YEARS_STRETCH)
		kept = tn_years_kept(y);
	done->stretch = rule == TARN_YEARS_STRETCH ||
			(!y->complete && kept < stretch);
	if (done->stretch)
		kept = stretch;
	done->days = kept;
	done->left_out = days - kept;
	if (kept == 0 || (kept < TARN_READY_DAYS && 2 * kept < days))
		return y->complete ? not_complete(*w, kept, done, err)
				   : too_short(*w, done, worst, kept, err);
	if (kept == days)
		return keep_stretch(w, 0, days, done, err);
	s = done->stretch ? keep_stretch(w, from, kept, done, err)
			  : keep_years(w, y, done, err);
	if (s != TARN_OK)
		return s;
	s = done->stretch ? note_stretch(*w, worst, done)
			  : note_years(*w, y->complete, done);
	return s == TARN_OK ? s : tarn_fail(err, TARN_ENOMEM, NULL,
					    "out of memory");
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
	struct years years;
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
		tn_years_begin(&years, w, *out, judged(*out, d.method),
			       (tn_method_needs(d.method) & NEEDS_AIR) != 0);
		s = keep(out, &years, wishes->years, &d, err);
	}
	if (s != TARN_OK) {
		tarn_weather_free(*out);
		*out = NULL;
	} else if (done) {
		*done = d;
	}
	return s;
}
