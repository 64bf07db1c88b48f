/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "internal.h"

#define YEAR_DAYS 365.25
#define FULL_YEAR 300	/* days that stand for a year */
#define FEW 20		/* days that say nothing of a mean */
#define WET_DAYS 30
#define WET_MM 0.75

/* ---- rows ----------------------------------------------------------- */

static const char *const kinds[] = { "low", "high", "light", "sentinel", NULL };
static const char *const swaps[] = {
	"inch_as_mm", "mm_as_inch", "tenths_as_mm", "f_as_c", "c_as_f",
	"kmh_as_ms", "kwh_as_mj", NULL
};

#define D struct tarn_weather_doubt
static const struct tarn_field rows[] = {
	TARN_OUT_CHOICE(D, kind, "kind", kinds, "of doubt"),
	TARN_OUT_TEXT(D, column, "column", "of the weather"),
	TARN_OUT_NUMBER(D, value, "value", "-", "rain: mm a year, or a wet day; "
			"sentinel: the value; else the mean"),
	TARN_OUT_NUMBER(D, low, "low", "-", "least that is plausible"),
	TARN_OUT_NUMBER(D, high, "high", "-", "most that is plausible"),
	TARN_OUT_CHOICE(D, swap, "swap", swaps, "of units that would explain it"),
	TARN_OUT_COUNT(D, days, "days", "d", "with the value, or in the mean"),
	TARN_OUT_DAY(D, first_day, "first", "the first of them"),
};
TARN_FIELDS(tarn_weather_doubt_fields, "doubt", rows);

/* ---- values that are none ------------------------------------------- */

#define CODES TN_CODES
#define UNITS_MAX 12

/* A column's values that such codes would be, in any of its units. */
struct sentinels {
	double value[CODES * UNITS_MAX];
	size_t count;
};

static void find_sentinels(enum tarn_column c, struct sentinels *out)
{
	const struct tarn_column_info *info = tarn_column_info(c);
	size_t count;
	const struct tarn_weather_unit *u = tarn_weather_units(&count);

	out->count = 0;
	for (size_t i = 0; i < count; i++)
		for (size_t k = 0; u[i].like == tn_column_like(c) &&
				   k < CODES; k++) {
			double x = (tn_codes[k] + u[i].add) * u[i].multiply /
				   u[i].divide;

			if (x >= info->lo && x <= info->hi &&
			    out->count < CODES * UNITS_MAX)
				out->value[out->count++] = x;
		}
}

static int near(double a, double b)
{
	return fabs(a - b) <= 1e-6 * fmax(1, fabs(b));
}

static int is_sentinel(const struct sentinels *s, double x)
{
	for (size_t i = 0; i < s->count; i++)
		if (near(x, s->value[i]))
			return 1;
	return 0;
}

/* ---- one look at a column ------------------------------------------- */

struct look {
	const struct tarn_weather *w;
	struct tarn_weather_doubt *out;
	size_t room, count;
};

/* Values of a column, those apart that may be no values. */
struct column_look {
	double min, max, sum;
	size_t present, wet, tenths;	/* wet: above 0; tenths of an inch */
};

static void look_at(const double *x, size_t days, const struct sentinels *s,
		    struct column_look *l)
{
	*l = (struct column_look){ HUGE_VAL, -HUGE_VAL, 0, 0, 0, 0 };
	for (size_t i = 0; i < days; i++) {
		if (isnan(x[i]) || is_sentinel(s, x[i]))
			continue;
		l->present++;
		l->sum += x[i];
		l->min = fmin(l->min, x[i]);
		l->max = fmax(l->max, x[i]);
		if (x[i] > 0) {
			l->wet++;
			l->tenths += near(round(x[i] / 2.54) * 2.54, x[i])
				     ? 1 : 0;
		}
	}
}

static void add(struct look *l, struct tarn_weather_doubt doubt,
		enum tarn_column c)
{
	if (l->count == l->room)
		return;
	snprintf(doubt.column, sizeof doubt.column, "%s",
		 tarn_column_info(c)->name);
	l->out[l->count++] = doubt;
}

/* A code that stands far from all other values of its column: by half of their
 * range, or by a tenth and more than once. */
static void look_for_code(struct look *l, enum tarn_column c, double code,
			  const struct column_look *rest)
{
	const double *x = l->w->column[c];
	double far = fmax(code - rest->max, rest->min - code);
	double range = rest->max - rest->min;
	struct tarn_weather_doubt d = {
		TARN_DOUBT_SENTINEL, "", code, rest->min, rest->max, -1, 0,
		TARN_NO_DAY
	};

	for (size_t i = 0; i < l->w->days; i++)
		if (near(x[i], code) && d.days++ == 0)
			d.first_day = l->w->first + (long)i;
	if (d.days > 0 && far > (d.days > 1 ? 0.1 : 0.5) * range && far > 0)
		add(l, d, c);
}

static void look_for_codes(struct look *l, enum tarn_column c,
			   const struct sentinels *s,
			   const struct column_look *rest)
{
	if (rest->present < FEW)
		return;
	for (size_t i = 0; i < s->count; i++) {
		int seen = 0;	/* one value may be two codes */

		for (size_t k = 0; k < i; k++)
			seen |= near(s->value[k], s->value[i]);
		if (!seen)
			look_for_code(l, c, s->value[i], rest);
	}
}

/* Adds a doubt if a mean lies outside its range. */
static void look_at_mean(struct look *l, enum tarn_column c, double value,
			 struct plausible r, int swap, size_t days)
{
	struct tarn_weather_doubt d = {
		value < r.low ? TARN_DOUBT_LOW : TARN_DOUBT_HIGH, "", value,
		r.low, r.high, swap, days, l->w->first
	};

	if (value < r.low || value > r.high)
		add(l, d, c);
}

/* ---- the columns ---------------------------------------------------- */

static int within(double x, struct plausible r)
{
	return x >= r.low && x <= r.high;
}

static int rain_swap(double year_mm, struct plausible r,
		     const struct column_look *c)
{
	if (year_mm < r.low)
		return within(year_mm * 25.4, r) ? TARN_SWAP_INCH_AS_MM : -1;
	if ((double)c->tenths >= 0.95 * (double)c->wet &&
	    within(year_mm / 25.4, r))
		return TARN_SWAP_MM_AS_INCH;
	return within(year_mm / 10, r) ? TARN_SWAP_TENTHS_AS_MM : -1;
}

/* A day with rain has 2 to 15 mm in the mean, at the least 1 mm in the drizzle
 * of cold coasts; in inches it has 0.08 to 0.6 (our own). */
static void look_at_rain(struct look *l, const struct column_look *c)
{
	double latitude = l->w->site.latitude_deg, wet_mm;
	struct plausible r = tn_plausible_rain(latitude);
	double year_mm = c->sum / (double)c->present * YEAR_DAYS;

	if (c->present < FULL_YEAR)
		return;
	wet_mm = c->wet > 0 ? c->sum / (double)c->wet : 0;
	if (within(year_mm, r) && c->wet >= WET_DAYS && wet_mm < WET_MM)
		add(l, (struct tarn_weather_doubt){
			TARN_DOUBT_LIGHT, "", wet_mm, WET_MM, TARN_NAN,
			within(year_mm * 25.4, r) ? TARN_SWAP_INCH_AS_MM : -1,
			c->wet, l->w->first }, TARN_RAIN);
	look_at_mean(l, TARN_RAIN, year_mm, r, rain_swap(year_mm, r, c),
		     c->present);
}

static void look_at_wind(struct look *l, const struct column_look *c)
{
	struct plausible r = tn_plausible_wind(l->w->site.latitude_deg);
	double mean = c->sum / (double)c->present;

	if (c->present < FULL_YEAR)
		r.high += 4;	/* some stormy weeks */
	look_at_mean(l, TARN_WIND, mean, r, mean > r.high &&
		     within(mean / 3.6, r) ? TARN_SWAP_KMH_AS_MS : -1,
		     c->present);
}

static void look_at_temperature(struct look *l, enum tarn_column c,
				double mean, size_t days)
{
	double summer = tn_plausible_summer(l->w->site.latitude_deg,
					    l->w->first, l->w->days);
	struct plausible r = tn_plausible_temperature(
		&l->w->site, days >= FULL_YEAR, summer);
	int swap = -1;

	if (mean > r.high && within((mean - 32) / 1.8, r))
		swap = TARN_SWAP_F_AS_C;
	if (mean < r.low && within(mean * 1.8 + 32, r))
		swap = TARN_SWAP_C_AS_F;
	look_at_mean(l, c, mean, r, swap, days);
}

static void look_at_solar(struct look *l, const struct column_look *c)
{
	struct plausible r = tn_plausible_solar(l->w->site.latitude_deg);
	double mean = c->sum / (double)c->present;

	if (c->present >= FULL_YEAR)
		look_at_mean(l, TARN_SOLAR, mean, r, mean < r.low &&
			     within(mean * 3.6, r) ? TARN_SWAP_KWH_AS_MJ : -1,
			     c->present);
}

/* Hours a day of a year: dull towns have 2, the sunniest 11 (our own). */
static void look_at_sunshine(struct look *l, const struct column_look *c)
{
	static const struct plausible r = { 1.5, 11.9 };

	if (c->present >= FULL_YEAR)
		look_at_mean(l, TARN_SUNSHINE, c->sum / (double)c->present, r,
			     -1, c->present);
}

size_t tarn_weather_doubts(const struct tarn_weather *w,
			   struct tarn_weather_doubt *out, size_t room)
{
	struct look l = { w, out, room, 0 };
	struct column_look seen[TARN_COLUMNS] = { { 0, 0, 0, 0, 0, 0 } };
	const struct column_look *low = &seen[TARN_TMIN];
	const struct column_look *high = &seen[TARN_TMAX];

	for (int i = 0; i < TARN_COLUMNS; i++) {
		enum tarn_column c = (enum tarn_column)i;
		struct sentinels s;

		if (!w->column[c])
			continue;
		find_sentinels(c, &s);
		look_at(w->column[c], w->days, &s, &seen[c]);
		look_for_codes(&l, c, &s, &seen[c]);
	}
	if (seen[TARN_RAIN].present >= FEW)
		look_at_rain(&l, &seen[TARN_RAIN]);
	if (seen[TARN_WIND].present >= FEW)
		look_at_wind(&l, &seen[TARN_WIND]);
	if (low->present >= FEW && high->present >= FEW)
		look_at_temperature(&l, TARN_TMAX,
				    (low->sum / (double)low->present +
				     high->sum / (double)high->present) / 2,
				    high->present);
	else if (seen[TARN_TMEAN].present >= FEW)
		look_at_temperature(&l, TARN_TMEAN, seen[TARN_TMEAN].sum /
				    (double)seen[TARN_TMEAN].present,
				    seen[TARN_TMEAN].present);
	if (seen[TARN_SOLAR].present >= FEW)
		look_at_solar(&l, &seen[TARN_SOLAR]);
	if (seen[TARN_SUNSHINE].present >= FEW)
		look_at_sunshine(&l, &seen[TARN_SUNSHINE]);
	return l.count;
}
