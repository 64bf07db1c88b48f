/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "internal.h"

/*
 * Units of columns whose names have none, by the first values: a unit behind
 * the numbers settles it; else the values can only say which units can be, and
 * the map must answer.
 */

#define FEW 20			/* values that say nothing of a mean */

/* A day with rain has 0.75 mm to 40 mm in the mean; our own. */
static const struct plausible wet_day = { 0.75, 40 };

/* The first values of a column, and the unit behind them. */
struct look {
	double min, max, sum, wet_sum;
	size_t count, wet;
	const struct tarn_weather_unit *behind, *other;	/* of the numbers */
};

static int is_code(double x)
{
	for (size_t i = 0; i < TN_CODES; i++)
		if (x >= tn_codes[i] && x <= tn_codes[i])
			return 1;
	return 0;
}

static void count_value(struct look *l, double x)
{
	l->min = l->count > 0 ? fmin(l->min, x) : x;
	l->max = l->count > 0 ? fmax(l->max, x) : x;
	l->count++;
	l->sum += x;
	if (x > 0) {
		l->wet++;
		l->wet_sum += x;
	}
}

static struct look look_at(const struct tarn_reader *r, enum tarn_column c,
			   int field)
{
	struct look l = { .count = 0 };
	struct cells cells = tn_cells(r, field);
	struct text cell;
	long line;

	while (tn_cells_next(&cells, &cell, &line)) {
		struct text number, tail = tn_number_tail(cell, &number);
		const struct tarn_weather_unit *u = NULL;
		double x;

		if (number.length == 0 ||
		    tn_number_with(number, r->map.decimal, &x) != NUMBER_OK ||
		    is_code(x))
			continue;
		count_value(&l, x);
		if (tail.length > 0)
			u = tn_unit_behind(c, tail);
		if (u && l.behind && u != l.behind)
			l.other = u;
		else if (u)
			l.behind = u;
	}
	return l;
}

/* ---- what can be ----------------------------------------------------------- */

static double in_si(const struct tarn_weather_unit *u, double x)
{
	return (x + u->add) * u->multiply / u->divide;
}

static int within(double x, struct plausible r)
{
	return x >= r.low && x <= r.high;
}

/* Can the mean of some weeks be so, at this place? */
static int mean_can_be(const struct tarn_reader *r, enum tarn_column c,
		       const struct tarn_weather_unit *u, const struct look *l)
{
	double mean = in_si(u, l->sum / (double)l->count);
	struct tarn_site site;
	struct plausible wind;

	tn_finish_site(r, &site);
	wind = tn_plausible_wind(site.latitude_deg);
	wind.high += 4;		/* some stormy weeks */
	if (l->count < FEW)
		return 1;
	if (tn_column_like(c) == TARN_TMIN && c != TARN_DEWPOINT)
		return within(mean, tn_plausible_temperature(&site, 0,
							     TARN_NAN));
	if (c == TARN_WIND)
		return within(mean, wind);
	return c != TARN_RAIN || l->wet < FEW ||
	       within(in_si(u, l->wet_sum / (double)l->wet), wet_day);
}

static int can_be(const struct tarn_reader *r, enum tarn_column c,
		  const struct tarn_weather_unit *u, const struct look *l)
{
	const struct tarn_column_info *info = tarn_column_info(c);

	return u->like == tn_column_like(c) &&
	       in_si(u, l->min) >= info->lo && in_si(u, l->max) <= info->hi &&
	       mean_can_be(r, c, u, l);
}

/* Adds "; its first 365 values, 41 to 95, can be in F only". */
static void add_evidence(const struct tarn_reader *r, enum tarn_column c,
			 const struct look *l, char *out, size_t size)
{
	size_t units, n = strlen(out), found = 0;
	const struct tarn_weather_unit *u = tarn_weather_units(&units);

	if (l->count < 2)
		return;
	n += (size_t)snprintf(out + n, size - n, "; its first %zu values, %g "
			      "to %g, can be in ", l->count, l->min, l->max);
	for (size_t i = 0; i < units && n < size; i++)
		if (can_be(r, c, &u[i], l))
			n += (size_t)snprintf(out + n, size - n, "%s%s",
					      found++ > 0 ? ", " : "",
					      u[i].name);
	if (n < size && found < 2)
		snprintf(out + n, size - n, "%s", found == 1 ? " only"
			 : "none of them: is it that quantity?");
}

/* ---- the columns ------------------------------------------------------------ */

/* Where a column is that has no unit yet; -1: none. */
static int open_column(const struct tarn_reader *r, enum tarn_column c)
{
	static const struct header no_header = { .count = 0 };
	const struct tarn_csv_column *column = &r->map.column[c];
	struct role none = { "", "" };
	int at;

	if (column->unit[0] || !tn_place_open(&r->map.element) ||
	    tn_place_find(r->map.no_header ? &no_header : &r->header,
			  &column->place, none, &at, NULL) != TARN_OK)
		return -1;
	return at;
}

/* The names of the columns without a unit, "tmin = "...", tmax = ..."". */
static void open_names(const struct tarn_reader *r, char *out, size_t size)
{
	size_t n = 0;

	out[0] = '\0';
	for (int c = 0; c < TARN_COLUMNS && n < size; c++)
		if (open_column(r, (enum tarn_column)c) >= 0)
			n += (size_t)snprintf(out + n, size - n,
				"%s%s = \"...\"", n > 0 ? ", " : "",
				tarn_column_info((enum tarn_column)c)->name);
}

/* Units that go together in a file, as countries and services have them. */
static const char *const systems[][3] = {
	{ "C", "mm", "m/s" }, { "C", "mm", "km/h" }, { "F", "inch", "mph" },
	{ "F", "inch", "knots" },
};
#define SYSTEMS (sizeof systems / sizeof systems[0])

/* The unit of a column in a system, NULL where its values cannot be in it;
 * of a quantity that no system has, the first that can be. */
static const char *unit_in(const struct tarn_reader *r, enum tarn_column c,
			   const struct look *l, size_t system)
{
	size_t units;
	const struct tarn_weather_unit *u = tarn_weather_units(&units);
	enum tarn_column like = tn_column_like(c);
	const char *want = like == TARN_TMIN ? systems[system][0]
			   : like == TARN_RAIN ? systems[system][1]
			   : like == TARN_WIND ? systems[system][2] : NULL;

	if (l->behind)
		return l->behind->name;
	for (size_t i = 0; i < units && l->count > 0; i++)
		if (can_be(r, c, &u[i], l) &&
		    (!want || strcmp(u[i].name, want) == 0))
			return u[i].name;
	return NULL;
}

/* One answer for all columns that have no unit, "tmin=F,rain=inch"; 0: they
 * cannot be in that system. */
static int unit_answer(const struct tarn_reader *r, size_t system, char *out,
		       size_t size)
{
	size_t n = 0;

	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;
		int at = open_column(r, c);
		struct look l;
		const char *unit;

		if (at < 0)
			continue;
		l = look_at(r, c, at);
		unit = unit_in(r, c, &l, system);
		if (!unit)
			return 0;
		n += (size_t)snprintf(out + n, size - n, "%s%s=%s",
				      n > 0 ? "," : "",
				      tarn_column_info(c)->name, unit);
		if (n >= size)
			return 0;
	}
	return n > 0;
}

/* The answers that can be, each once, a tab between two. */
static void unit_answers(const struct tarn_reader *r, char *out, size_t size)
{
	char one[SYSTEMS][160];
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < SYSTEMS; i++) {
		int again = !unit_answer(r, i, one[i], sizeof one[i]);

		if (again)
			one[i][0] = '\0';
		for (size_t k = 0; k < i; k++)
			again |= strcmp(one[k], one[i]) == 0;
		if (!again && n + strlen(one[i]) + 2 <= size)
			n += (size_t)snprintf(out + n, size - n, "%s%s",
					      n > 0 ? "\t" : "", one[i]);
	}
}

static enum tarn_status ask(struct tarn_reader *r, enum tarn_column c, int at,
			    const struct look *l)
{
	const char *column = tarn_column_info(c)->name;
	char list[100], names[96], name[64], answers[160], why[120] = "";

	tarn_weather_unit_list(c, list, sizeof list);
	open_names(r, names, sizeof names);
	add_evidence(r, c, l, why, sizeof why);
	unit_answers(r, answers, sizeof answers);
	return tarn_settled(&r->err, TARN_SETTLE_UNIT, answers, tarn_fail(
		&r->err, TARN_EARG, tn_text_show(name, sizeof name,
			 r->header.name[at]), "carries no unit: say units = "
			 "{%s} with one of %s, or write it into the header, as "
			 "%s (%.*s)%s", names, list, column,
			 (int)strcspn(list, ","), list, why));
}

static enum tarn_status fail_two(struct tarn_reader *r, enum tarn_column c,
				 int at, const struct look *l)
{
	char name[64];

	return tarn_settled(&r->err, TARN_SETTLE_UNIT, NULL, tarn_fail(
		&r->err, TARN_EARG, tn_text_show(name, sizeof name,
			 r->header.name[at]), "has no unit in its name, and its "
			 "numbers have two units behind them, %s and %s: a "
			 "column must have one; correct it, or say units = "
			 "{%s = \"...\"}", l->behind->name, l->other->name,
			 tarn_column_info(c)->name));
}

/* A humidity with values above 1 is no fraction: there is one unit left. */
static int is_percent(enum tarn_column c, const struct look *l)
{
	return tn_column_like(c) == TARN_RH_MEAN && l->count >= FEW &&
	       l->max > 1.5 && l->max <= 100 && l->min >= 0;
}

enum tarn_status tn_units_settle(struct tarn_reader *r)
{
	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;
		struct tarn_csv_column *to = &r->map.column[c];
		int at = open_column(r, c);
		struct look l;

		if (at < 0)
			continue;
		l = look_at(r, c, at);
		if (l.other && at < (int)r->header.count)
			return fail_two(r, c, at, &l);
		if (l.behind) {
			snprintf(to->unit, sizeof to->unit, "%s",
				 l.behind->name);
			to->unit_from = TARN_UNIT_VALUES;
		} else if (is_percent(c, &l)) {
			strcpy(to->unit, "%");
			to->unit_from = TARN_UNIT_VALUES;
			r->percent |= 1u << i;
		} else if (strcmp(r->map.layout, "plain") == 0) {
			return ask(r, c, at, &l);
		}
	}
	return TARN_OK;
}
