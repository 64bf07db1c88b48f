/* SPDX-License-Identifier: MIT */
/* The table that is run: cut, bridged, the longest stretch; and the estimates
 * for single days of a column with gaps. */
#include <stdlib.h>
#include <string.h>

#include "numbers.h"
#include "published.h"
#include "tarn/evaporation.h"

#define DAYS 1461	/* 2013 to 2016 */

/* Made up: a year's wave in every column; all are complete. */
static struct tarn_weather *made(void)
{
	static const enum tarn_column columns[] = {
		TARN_TMIN, TARN_TMAX, TARN_RAIN, TARN_DEWPOINT, TARN_SOLAR,
		TARN_WIND
	};
	static const double mean[] = { 5, 15, 2, 4, 14, 3 };
	static const double swing[] = { 8, 9, 1, 7, 8, 1 };
	struct tarn_weather *w;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2013, 1, 1), DAYS,
				   NULL) == TARN_OK);
	tarn_weather_site(w)->latitude_deg = 44;
	tarn_weather_site(w)->elevation_m = 300;
	tarn_weather_site(w)->wind_height_m = 10;
	for (int c = 0; c < 6; c++) {
		double *x = tarn_weather_add(w, columns[c]);

		for (int i = 0; i < DAYS; i++)
			x[i] = mean[c] - swing[c] * cos(i / 58.1) +
			       0.1 * (i % 7);
	}
	return w;
}

static void gap(struct tarn_weather *w, enum tarn_column c, int at, int days)
{
	for (int i = 0; i < days; i++)
		tarn_weather_add(w, c)[at + i] = TARN_NAN;
}

static struct tarn_weather *ready(const struct tarn_weather *w,
				  const struct tarn_ready *wishes,
				  struct tarn_readied *done)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *out;
	struct tarn_error err = { 0 };

	cr_assert(tarn_weather_ready(&out, w, &o, wishes, done, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	return out;
}

/* ---- one day without humidity, sun or wind ------------------------------ */

/* On days that have the column the bits of a full file, on the others those
 * of a file without it. */
static void day_by_day(enum tarn_column c, enum tarn_origin estimate)
{
	static double full[DAYS], none[DAYS], part[DAYS];
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_evaporation_report r;
	struct tarn_weather *w = made();
	size_t lacking = 0;

	o.method = TARN_PENMAN_1956;
	cr_assert(tarn_evaporation_run(w, &o, full, NULL, NULL, NULL, NULL) ==
		  TARN_OK);
	for (int i = 100; i < 700; i += 9, lacking++)
		gap(w, c, i, 1);
	cr_assert(tarn_evaporation_run(w, &o, part, NULL, NULL, &r, NULL) ==
		  TARN_OK);
	gap(w, c, 0, DAYS);
	cr_assert(tarn_evaporation_run(w, &o, none, NULL, NULL, NULL, NULL) ==
		  TARN_OK);
	cr_expect(r.origin_days[estimate] == lacking, "%zu",
		  r.origin_days[estimate]);
	for (int i = 0; i < DAYS; i++) {
		const double *want = i >= 100 && i < 700 && (i - 100) % 9 == 0
			? none : full;

		cr_expect(memcmp(&part[i], &want[i], sizeof part[i]) == 0,
			  "column %d, day %d: %.17g, %.17g", c, i, part[i],
			  want[i]);
	}
	cr_expect(memcmp(full, none, sizeof full) != 0);
	tarn_weather_free(w);
}

Test(weather_ready, estimates_day_by_day)
{
	day_by_day(TARN_DEWPOINT, TARN_ORIGIN_HUMIDITY_TMIN);
	day_by_day(TARN_SOLAR, TARN_ORIGIN_SOLAR_RANGE);
	day_by_day(TARN_WIND, TARN_ORIGIN_WIND_DEFAULT);
}

/* ---- the table ----------------------------------------------------------- */

Test(weather_ready, a_complete_table_stays_as_it_is)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out;

	gap(w, TARN_WIND, 0, 900);
	gap(w, TARN_SOLAR, 3, 1);
	out = ready(w, &wishes, &done);
	cr_expect(tarn_weather_days(out) == DAYS && done.left_out == 0);
	cr_expect(done.method == TARN_PENMAN_1956);
	cr_expect(tarn_weather_notes(out) == 0);
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const double *x = tarn_weather_column(w, (enum tarn_column)c);

		cr_expect(done.filled[c] == 0 && done.missing[c] == 0);
		cr_expect(!x || memcmp(x, tarn_weather_column(
			out, (enum tarn_column)c), DAYS * sizeof *x) == 0);
	}
	tarn_weather_free(out);
	tarn_weather_free(w);
}

Test(weather_ready, cuts_before_it_judges)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *w = made(), *out;
	struct tarn_error err = { 0 };

	gap(w, TARN_RAIN, 0, 365);
	gap(w, TARN_TMIN, 300, 40);
	wishes.first_day = tarn_day(2014, 1, 1);
	wishes.last_day = tarn_day(2014, 1, 20);
	out = ready(w, &wishes, &done);
	cr_expect(tarn_weather_days(out) == 20 && done.left_out == 0);
	cr_expect(done.first_day == wishes.first_day);
	cr_expect(done.last_day == wishes.last_day);
	tarn_weather_free(out);
	wishes.first_day = tarn_day(2012, 12, 31);
	cr_expect(tarn_weather_ready(&out, w, &o, &wishes, NULL, &err) ==
		  TARN_EARG && !out && strcmp(err.field, "first") == 0);
	err = (struct tarn_error){ 0 };	/* the first error stays */
	wishes = tarn_ready_default();
	wishes.bridge_days = 32;
	cr_expect(tarn_weather_ready(&out, w, &o, &wishes, NULL, &err) ==
		  TARN_EARG && !out);
	cr_expect_str_eq(err.field, "bridge");
	tarn_weather_free(w);
}

Test(weather_ready, bridges_three_days_of_temperature)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out;
	const double *x;

	gap(w, TARN_TMIN, 50, 3);
	gap(w, TARN_TMAX, 51, 1);
	gap(w, TARN_WIND, 60, 2);
	out = ready(w, &wishes, &done);
	x = tarn_weather_column(out, TARN_TMIN);
	cr_expect(done.filled[TARN_TMIN] == 3 && done.filled[TARN_TMAX] == 1);
	cr_expect(done.filled[TARN_WIND] == 0 && done.left_out == 0);
	cr_expect(fabs(x[51] - (x[49] + x[53]) / 2) < 1e-12, "%g", x[51]);
	cr_expect(isnan(tarn_weather_column(out, TARN_WIND)[60]));
	cr_expect(isnan(tarn_weather_column(w, TARN_TMIN)[50]));
	cr_expect_str_eq(tarn_weather_note(out, 1),
			 "tmax: 1 missing day interpolated");
	tarn_weather_free(out);
	wishes.bridge_others_days = 2;
	out = ready(w, &wishes, &done);
	cr_expect(done.filled[TARN_WIND] == 2);
	tarn_weather_free(out);
	wishes.bridge_days = 2;		/* the gap of three splits the table */
	out = ready(w, &wishes, &done);
	cr_expect(done.missing[TARN_TMIN] == 3 && done.left_out == 53);
	cr_expect(done.first_day == tarn_day(2013, 1, 1) + 53);
	tarn_weather_free(out);
	tarn_weather_free(w);
}

Test(weather_ready, leaves_out_what_has_no_rain)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out;

	gap(w, TARN_RAIN, 400, 1);
	out = ready(w, &wishes, &done);
	cr_expect(done.missing[TARN_RAIN] == 1 && done.left_out == 401);
	cr_expect(tarn_weather_first(out) == tarn_day(2013, 1, 1) + 401);
	cr_expect(done.last_day == tarn_day(2016, 12, 31));
	cr_expect(tarn_weather_notes(out) == 1 &&
		  strstr(tarn_weather_note(out, 0), "401 days are left out"));
	tarn_weather_free(out);
	wishes.rain = TARN_RAIN_ZERO;
	out = ready(w, &wishes, &done);
	cr_expect(done.filled[TARN_RAIN] == 1 && done.left_out == 0);
	cr_expect(tarn_weather_column(out, TARN_RAIN)[400] == 0);
	tarn_weather_free(out);
	gap(w, TARN_RAIN, 800, 1);	/* two stretches of 399 days */
	wishes.rain = TARN_RAIN_ERROR;
	wishes.first_day = tarn_day(2013, 1, 1) + 401;
	wishes.last_day = tarn_day(2013, 1, 1) + 1199;
	out = ready(w, &wishes, &done);
	cr_expect(tarn_weather_days(out) == 399 && done.left_out == 400);
	cr_expect(done.first_day == tarn_day(2013, 1, 1) + 801);
	tarn_weather_free(out);
	tarn_weather_free(w);
}

Test(weather_ready, refuses_stretches_that_are_too_short)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *w = made(), *out;
	struct tarn_error err = { 0 };

	for (int i = 100; i < DAYS; i += 300)
		gap(w, TARN_RAIN, i, 1);
	cr_expect(tarn_weather_ready(&out, w, &o, &wishes, NULL, &err) ==
		  TARN_EARG && !out);
	cr_expect_str_eq(err.field, "rain");
	cr_expect(strstr(err.text, "is missing on 5 of 1461 days") &&
		  strstr(err.text, "has 299") &&
		  strstr(err.text, "rain = \"zero\""), "%s", err.text);
	tarn_weather_free(w);
}

/* ---- the rule of years ----------------------------------------------------- */

static struct tarn_weather *ruled(const struct tarn_weather *w,
				  enum tarn_years rule,
				  struct tarn_readied *done)
{
	struct tarn_ready wishes = tarn_ready_default();

	wishes.years = rule;
	return ready(w, &wishes, done);
}

Test(weather_ready, most_leaves_spoiled_years_out)
{
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out;

	gap(w, TARN_RAIN, 400, 1);		/* 2014 */
	out = ruled(w, TARN_YEARS_MOST, &done);
	cr_expect(!done.stretch && done.left_out == 365 &&
		  done.missing[TARN_RAIN] == 1);
	cr_expect_str_eq(done.years_out, "2014");
	cr_expect(tarn_weather_days(out) == DAYS &&
		  tarn_weather_counted(out) == DAYS - 365);
	for (int i = 0; i < DAYS; i++)
		cr_expect(tarn_weather_left_out(out)[i] ==
			  (i >= 365 && i < 730));
	cr_expect(tarn_weather_notes(out) == 1 &&
		  strstr(tarn_weather_note(out, 0), "365 days in all: 2014"));
	cr_expect(!tarn_weather_left_out(w));
	tarn_weather_free(out);
	gap(w, TARN_RAIN, 0, 1);		/* a year at the end is cut off */
	gap(w, TARN_TMIN, 300, 4);
	out = ruled(w, TARN_YEARS_COMPLETE, &done);
	cr_expect_str_eq(done.years_out, "2013, 2014");
	cr_expect(done.left_out == 730 && tarn_weather_days(out) == 731 &&
		  !tarn_weather_left_out(out));
	cr_expect(done.first_day == tarn_day(2015, 1, 1) &&
		  tarn_weather_first(out) == done.first_day);
	tarn_weather_free(out);
	tarn_weather_free(w);
}

Test(weather_ready, most_takes_a_stretch_of_more_days)
{
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out;

	gap(w, TARN_RAIN, 200, 1);
	gap(w, TARN_RAIN, 1261, 1);	/* two years, or 1060 days */
	out = ruled(w, TARN_YEARS_MOST, &done);
	cr_expect(done.stretch && tarn_weather_days(out) == 1060 &&
		  !tarn_weather_left_out(out));
	cr_expect_str_eq(done.years_out, "");
	tarn_weather_free(out);
	out = ruled(w, TARN_YEARS_COMPLETE, &done);	/* it never does */
	cr_expect(!done.stretch && tarn_weather_days(out) == 730);
	cr_expect_str_eq(done.years_out, "2013, 2016");
	tarn_weather_free(out);
	tarn_weather_free(w);
}

Test(weather_ready, complete_years_have_no_bridge_and_no_estimate)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *w = made(), *out;
	struct tarn_error err = { 0 };

	gap(w, TARN_TMIN, 50, 3);		/* 2013 */
	gap(w, TARN_WIND, 800, 1);		/* 2015 */
	out = ruled(w, TARN_YEARS_MOST, &done);
	cr_expect(done.left_out == 0 && done.bridged == 3 &&
		  done.estimated == 1);
	tarn_weather_free(out);
	out = ruled(w, TARN_YEARS_COMPLETE, &done);
	cr_expect(done.left_out == 730 && done.bridged == 3 &&
		  done.estimated == 1);
	cr_expect_str_eq(done.years_out, "2013, 2015");
	cr_expect(tarn_weather_counted(out) == 731);
	tarn_weather_free(out);
	gap(w, TARN_SOLAR, 400, 1);		/* three in a row */
	out = ruled(w, TARN_YEARS_COMPLETE, &done);
	cr_expect_str_eq(done.years_out, "2013 to 2015");
	tarn_weather_free(out);
	gap(w, TARN_DEWPOINT, 1200, 1);
	wishes.years = TARN_YEARS_COMPLETE;
	cr_expect(tarn_weather_ready(&out, w, &o, &wishes, NULL, &err) ==
		  TARN_EARG && !out);
	cr_expect_str_eq(err.field, "years");
	cr_expect(strstr(err.text, "have 0 of 1461 days"), "%s", err.text);
	cr_expect(strstr(err.text, "bridged: 3, without humidity, sun or "
			 "wind: 3; take"), "%s", err.text);
	err = (struct tarn_error){ 0 };
	wishes.years = (enum tarn_years)4;
	cr_expect(tarn_weather_ready(&out, w, &o, &wishes, NULL, &err) ==
		  TARN_EARG && strcmp(err.field, "years") == 0);
	/* a given loss needs nothing of the air */
	memcpy(tarn_weather_add(w, TARN_OPEN_WATER),
	       tarn_weather_column(w, TARN_RAIN), DAYS * sizeof(double));
	o.method = TARN_GIVEN;
	wishes.years = TARN_YEARS_COMPLETE;
	cr_assert(tarn_weather_ready(&out, w, &o, &wishes, &done, NULL) ==
		  TARN_OK);
	cr_expect(done.estimated == 0);
	cr_expect_str_eq(done.years_out, "2013");
	tarn_weather_free(out);
	tarn_weather_free(w);
}

Test(weather_ready, all_takes_days_without_rain_as_dry)
{
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out;

	gap(w, TARN_RAIN, 400, 7);
	out = ruled(w, TARN_YEARS_ALL, &done);
	cr_expect(done.left_out == 0 && done.filled[TARN_RAIN] == 7);
	tarn_weather_free(out);
	gap(w, TARN_TMAX, 500, 9);	/* nothing is bridged that long */
	out = ruled(w, TARN_YEARS_ALL, &done);
	cr_expect(done.left_out == 365 && done.missing[TARN_TMAX] == 9);
	cr_expect_str_eq(done.years_out, "2014");
	tarn_weather_free(out);
	tarn_weather_free(w);
}

/* What was left out before stays so, and is in no stretch. */
Test(weather_ready, days_that_were_left_out_stay_out)
{
	struct tarn_readied done;
	struct tarn_weather *w = made(), *out, *again;

	gap(w, TARN_RAIN, 400, 1);
	out = ruled(w, TARN_YEARS_MOST, &done);
	again = ruled(out, TARN_YEARS_STRETCH, &done);
	cr_expect(tarn_weather_days(again) == 731 && done.left_out == 730 &&
		  !tarn_weather_left_out(again));
	cr_expect(done.first_day == tarn_day(2015, 1, 1));
	tarn_weather_free(again);
	again = ruled(out, TARN_YEARS_MOST, &done);
	cr_expect(tarn_weather_days(again) == DAYS && done.left_out == 365 &&
		  tarn_weather_counted(again) == DAYS - 365);
	cr_expect_str_eq(done.years_out, "2014");
	tarn_weather_free(again);
	cr_assert(tarn_weather_leave_out(out, tarn_day(2016, 5, 1),
					 tarn_day(2016, 5, 3), NULL) ==
		  TARN_OK);
	again = ruled(out, TARN_YEARS_MOST, &done);
	cr_expect(done.left_out == 368 && done.days == DAYS - 368);
	cr_expect_str_eq(done.years_out, "2014, 2016");
	tarn_weather_free(again);
	tarn_weather_free(out);
	tarn_weather_free(w);
}

/* A column that the method can do without is not judged; the method that
 * auto finds is the one that can be run. */
Test(weather_ready, judges_what_the_method_needs)
{
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_readied done;
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *w = made(), *out;
	double *given = tarn_weather_add(w, TARN_OPEN_WATER);

	for (int i = 0; i < DAYS; i++)
		given[i] = 3;
	gap(w, TARN_TMIN, 700, 100);
	out = ready(w, &wishes, &done);
	cr_expect(done.method == TARN_GIVEN && done.left_out == 0);
	tarn_weather_free(out);
	o.method = TARN_PENMAN_1956;
	cr_assert(tarn_weather_ready(&out, w, &o, &wishes, &done, NULL) ==
		  TARN_OK);
	cr_expect(done.method == TARN_PENMAN_1956);
	cr_expect(tarn_weather_days(out) == 700 && done.missing[TARN_TMIN] ==
		  100 && done.missing[TARN_RAIN] == 0);
	tarn_weather_free(out);
	tarn_weather_free(w);
}

/* Filling that leaves what it cannot fill. */
Test(weather_ready, fill_leaves_longer_gaps)
{
	struct tarn_fill how = tarn_fill_default();
	size_t filled[TARN_COLUMNS];
	struct tarn_weather *w = made();

	gap(w, TARN_WIND, 10, 2);
	gap(w, TARN_WIND, 20, 5);
	how.interpolate_days = 3;
	cr_expect(tarn_weather_fill(w, &how, filled, NULL) == TARN_EARG);
	how.leave = 1;
	cr_expect(tarn_weather_fill(w, &how, filled, NULL) == TARN_OK);
	cr_expect(filled[TARN_WIND] == 2);
	cr_expect(tarn_weather_summary(w, TARN_WIND).missing == 5);
	tarn_weather_free(w);
}

/* ---- want of memory ---------------------------------------------------------- */

struct counter { int left, blocks; };

static void *counted(void *context, void *block, size_t bytes)
{
	struct counter *c = context;
	void *made;

	if (bytes == 0) {
		c->blocks -= block != NULL;
		free(block);
		return NULL;
	}
	if (c->left-- <= 0)
		return NULL;
	made = realloc(block, bytes);
	c->blocks += made && !block;
	return made;
}

static enum tarn_status out_of(const struct tarn_alloc *alloc)
{
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_weather *w, *out = NULL;
	enum tarn_status s = tarn_weather_new(&w, alloc, tarn_day(2013, 1, 1),
					      DAYS, NULL);
	double *rain;

	if (s != TARN_OK)
		return s;
	rain = tarn_weather_add(w, TARN_RAIN);
	s = tarn_weather_add(w, TARN_OPEN_WATER) && rain ? s : TARN_ENOMEM;
	for (int i = 0; i < DAYS && s == TARN_OK; i++)
		rain[i] = tarn_weather_add(w, TARN_OPEN_WATER)[i] = 1;
	o.method = TARN_GIVEN;
	wishes.years = TARN_YEARS_COMPLETE;
	if (s == TARN_OK) {
		rain[0] = rain[400] = TARN_NAN;
		s = tarn_weather_ready(&out, w, &o, &wishes, NULL, NULL);
	}
	cr_expect((s == TARN_OK) == (out != NULL));
	cr_expect(!out || tarn_weather_counted(out) == 731);
	tarn_weather_free(out);
	tarn_weather_free(w);
	return s;
}

Test(weather_ready, every_failed_allocation_is_reported)
{
	struct counter counter = { 0, 0 };
	struct tarn_alloc alloc = { counted, &counter };
	enum tarn_status status = TARN_ENOMEM;
	int n;

	for (n = 0; status != TARN_OK && n < 100; n++) {
		counter.left = n;
		status = out_of(&alloc);
		cr_expect(status == TARN_OK || status == TARN_ENOMEM);
		cr_expect(counter.blocks == 0, "allocation %d", n);
	}
	cr_expect(n > 10 && n < 100, "%d", n);
}
