/* SPDX-License-Identifier: MIT */
/* Days that are left out: a weather with a hole gives what the runs of its
 * parts give, put together here by plain sums and counts. */
#include <criterion/criterion.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "numbers.h"
#include "tarn/evaporation.h"
#include "tarn/forecast.h"
#include "tarn/flow.h"
#include "tarn/leak.h"
#include "tarn/season.h"
#include "tarn/study.h"

#define FIRST_YEAR 2001
#define DAYS 3652		/* 2001 to 2010 */
#define HOLE_FROM 1095		/* 2004 ... */
#define HOLE_DAYS 366

struct sky {
	struct tarn_basin *basin;
	struct tarn_pond pond;
	struct tarn_forcing all, part[2];	/* before and after the hole */
	double rain_mm[DAYS], open_mm[DAYS], grass_mm[DAYS];
	unsigned char left_out[DAYS];
};

static struct tarn_forcing cut(const struct sky *s, size_t from, size_t days)
{
	struct tarn_forcing f = s->all;

	f.first_day += (long)from;
	f.days = days;
	f.rain_mm += from;
	f.open_water_mm += from;
	f.grass_mm += from;
	f.left_out = NULL;
	return f;
}

/* Leaning walls, a bed, a tank, a supply that is closed on some days; in the
 * hole stand no numbers. */
static struct sky *make(size_t hole_from, size_t hole_days)
{
	struct sky *s = calloc(1, sizeof *s);
	struct tarn_shelved shape = tarn_shelved_default();
	size_t after = hole_from + hole_days;

	cr_assert(s != NULL);
	shape.length_m = 4.8;
	shape.width_m = 3.4;
	shape.depth_m = 1.2;
	shape.side_slope = 0.3;
	cr_assert(tarn_basin_shelved(&s->basin, NULL, &shape, NULL) ==
		  TARN_OK);
	s->pond = tarn_pond_default();
	s->pond.basin = s->basin;
	s->pond.overflow_level_m = 1;
	s->pond.trigger_m = 0.97;
	s->pond.target_m = 0.98;
	s->pond.intake_m = 0.9;
	s->pond.bed.area_m2 = 2;
	s->pond.bed.volume_m3 = 0.4;
	s->pond.tank.capacity_m3 = 0.6;
	s->pond.tank.roof_m2 = 20;
	s->pond.tank.start_m3 = 0.2;
	s->pond.supply.rate_m3s = 2e-6;
	for (size_t i = 0; i < DAYS; i++) {
		struct tarn_date d = tarn_date(tarn_day(FIRST_YEAR, 1, 1) +
					       (long)i);
		double warm = 1 - fabs(d.month - 7.0) / 6;

		s->open_mm[i] = 0.4 + 5 * warm + d.year % 4 / 2.0;
		s->grass_mm[i] = 0.9 * s->open_mm[i];
		s->rain_mm[i] = (d.day * 7 + d.month) % 5 == 0
			? 9 - 8 * warm : 0;
		s->left_out[i] = i >= hole_from && i < after;
		if (s->left_out[i])
			s->rain_mm[i] = s->open_mm[i] = s->grass_mm[i] =
				TARN_NAN;
	}
	s->all = (struct tarn_forcing){ tarn_day(FIRST_YEAR, 1, 1), DAYS,
					s->rain_mm, s->open_mm, s->grass_mm,
					s->left_out };
	s->part[0] = cut(s, 0, hole_from);
	s->part[1] = cut(s, after, DAYS - after);
	return s;
}

static void drop(struct sky *s)
{
	tarn_basin_free(s->basin);
	free(s);
}

static struct tarn_ledger *ledger_of(const struct sky *s,
				     const struct tarn_forcing *f)
{
	struct tarn_ledger *l;
	struct tarn_error err = { 0 };

	cr_assert(tarn_ledger_run(&l, NULL, &s->pond, f, NULL, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	return l;
}

static struct tarn_season season_of(const struct tarn_ledger *l)
{
	struct tarn_season season;

	cr_assert(tarn_season(&season, NULL, l, NULL) == TARN_OK);
	return season;
}

static double went(const struct tarn_flows *f)
{
	return f->evaporation_m3 + f->bed_m3 + f->stream_m3 + f->splash_m3 +
	       f->seepage_m3 + f->withdrawal_m3 + f->overflow_m3;
}

static double came(const struct tarn_flows *f)
{
	return f->rain_m3 + f->runoff_m3 + f->tank_m3 + f->topup_m3;
}

/* ---- the ledger ---------------------------------------------------------- */

/* To the last bit; what a compiler leaves between members is nobody's. */
static int same_day(const struct tarn_ledger_day *a,
		    const struct tarn_ledger_day *b)
{
	return memcmp(a, b, offsetof(struct tarn_ledger_day, flags)) == 0 &&
	       a->flags == b->flags;
}

Test(left_out, the_ledger_is_that_of_the_parts)
{
	struct sky *s = make(HOLE_FROM, HOLE_DAYS);
	struct tarn_ledger *all = ledger_of(s, &s->all);
	const struct tarn_ledger_day *day;
	size_t count, at = 0, next;
	double need_m3 = 0;
	struct tarn_period run = tarn_ledger_period(all, TARN_BY_RUN, 0, &next);

	day = tarn_ledger_days(all, &count);
	cr_expect(count == DAYS - HOLE_DAYS);
	for (int k = 0; k < 2; k++) {
		struct tarn_ledger *part = ledger_of(s, &s->part[k]);
		size_t n;
		const struct tarn_ledger_day *own = tarn_ledger_days(part, &n);

		cr_assert(n == s->part[k].days);
		for (size_t i = 0; i < n; i++)
			cr_expect(same_day(&day[at + i], &own[i]),
				  "part %d, day %zu", k, i);
		need_m3 += tarn_ledger_need(part);
		at += n;
		tarn_ledger_free(part);
	}
	cr_expect(fabs(tarn_ledger_need(all) - need_m3) < 1e-9 * need_m3);
	cr_expect(tarn_ledger_residual(all) < 1e-9);
	cr_expect(run.days == DAYS - HOLE_DAYS && !run.complete);
	cr_expect(fabs(run.start_store_m3 + came(&run.flows) + run.again_m3 -
		       went(&run.flows) - run.end_store_m3) < 1e-6);
	cr_expect(fabs(run.again_m3) > 1e-3, "%g", run.again_m3);
	tarn_ledger_free(all);
	drop(s);
}

/* One day spoils its week, its month and its year, and no other one. */
Test(left_out, a_day_spoils_its_periods)
{
	size_t hole = 1300;		/* 2004-07-24, a Saturday */
	struct sky *s = make(hole, 1);
	struct tarn_ledger *all = ledger_of(s, &s->all);
	static const struct {
		enum tarn_period_kind kind;
		int whole, broken;	/* 2001-01-01 was a Monday, 2010-12-31 a
					   Friday */
	} kinds[] = {
		{ TARN_BY_WEEK, DAYS / 7 - 1, 2 }, { TARN_BY_MONTH, 119, 1 },
		{ TARN_BY_YEAR, 9, 1 }
	};
	size_t count;

	tarn_ledger_days(all, &count);
	for (int k = 0; k < 3; k++) {
		int whole = 0, broken = 0;

		for (size_t at = 0, next; at < count; at = next) {
			struct tarn_period p = tarn_ledger_period(
				all, kinds[k].kind, at, &next);

			whole += p.complete;
			broken += !p.complete;
			cr_expect(p.days == (int)(next - at));
			cr_expect(fabs(p.start_store_m3 + came(&p.flows) +
				       p.again_m3 - went(&p.flows) -
				       p.end_store_m3) < 1e-9);
		}
		cr_expect(whole == kinds[k].whole && broken == kinds[k].broken,
			  "kind %d: %d, %d", k, whole, broken);
	}
	tarn_ledger_free(all);
	drop(s);
}

/* ---- a usual year ---------------------------------------------------------- */

Test(left_out, the_season_is_of_both_parts)
{
	struct sky *s = make(HOLE_FROM, HOLE_DAYS);
	struct tarn_ledger *l[3] = { ledger_of(s, &s->all),
				     ledger_of(s, &s->part[0]),
				     ledger_of(s, &s->part[1]) };
	struct tarn_season all = season_of(l[0]), a = season_of(l[1]),
			   b = season_of(l[2]);
	double days = (double)(a.days + b.days), least, most;

	cr_expect(all.whole_years == 9 && a.whole_years == 3 &&
		  b.whole_years == 6);
	cr_expect(all.year_peak_m3.count == 9 && all.days == a.days + b.days);
	cr_expect(fabs(all.a_week_m3 * days - a.a_week_m3 * (double)a.days -
		       b.a_week_m3 * (double)b.days) < 1e-9);
	cr_expect(fabs(all.year_topup_m3.mean * 9 - a.year_topup_m3.mean * 3 -
		       b.year_topup_m3.mean * 6) < 1e-9);
	cr_expect(fabs(all.year_peak_m3.mean * 9 - a.year_peak_m3.mean * 3 -
		       b.year_peak_m3.mean * 6) < 1e-9);
	most = fmax(a.year_peak_m3.most, b.year_peak_m3.most);
	least = fmin(a.year_topup_m3.least, b.year_topup_m3.least);
	cr_expect(all.year_peak_m3.most >= most && all.year_peak_m3.most <= most);
	cr_expect(all.year_topup_m3.least >= least &&
		  all.year_topup_m3.least <= least);
	for (int m = 0; m < 12; m++) {
		size_t na = a.month[m].whole, nb = b.month[m].whole;

		cr_expect(all.month[m].whole == na + nb && na == 3 && nb == 6);
		cr_expect(fabs(all.month[m].drop_mm * 9 -
			       a.month[m].drop_mm * 3 -
			       b.month[m].drop_mm * 6) < 1e-7);
	}
	for (int w = 0; w < TARN_SEASON_WEEKS; w++)
		cr_expect(all.week[w].topup_m3.count ==
			  a.week[w].topup_m3.count + b.week[w].topup_m3.count);
	for (int k = 0; k < 3; k++)
		tarn_ledger_free(l[k]);
	drop(s);
}

/* Five years between two single ones: there are fewer weeks than years from
 * the first to the last only in weathers longer than these, but the years
 * between must not be counted as years without top-up. */
Test(left_out, years_in_the_hole_are_no_years)
{
	struct sky *s = make(365, DAYS - 730);
	struct tarn_ledger *l = ledger_of(s, &s->all);
	struct tarn_season all = season_of(l);

	cr_expect(all.whole_years == 2 && all.year_peak_m3.count == 2);
	cr_expect(all.year_peak_m3.least > 0 && !all.has_dry_year);
	cr_expect(all.few_days && all.days == 730);
	tarn_ledger_free(l);
	drop(s);
}

/* ---- endurance ------------------------------------------------------------- */

Test(left_out, endurance_ends_at_the_hole)
{
	static long days[DAYS], part[DAYS];
	struct sky *s = make(HOLE_FROM, HOLE_DAYS);
	struct tarn_absence all, of[2];
	size_t at = 0;

	cr_assert(tarn_pond_endurance(&s->pond, &s->all, NULL, 0.9, days,
				      NULL) == TARN_OK);
	for (int k = 0; k < 2; k++) {
		cr_assert(tarn_pond_endurance(&s->pond, &s->part[k], NULL, 0.9,
					      part, NULL) == TARN_OK);
		cr_expect(memcmp(days + at, part, s->part[k].days *
						  sizeof *part) == 0);
		cr_assert(tarn_absence(&of[k], NULL, part, s->part[k].days,
				       s->part[k].first_day, NULL) == TARN_OK);
		at += s->part[k].days;
		for (; k == 0 && at < HOLE_FROM + HOLE_DAYS; at++)
			cr_expect(days[at] == TARN_ENDURANCE_LEFT_OUT);
	}
	cr_assert(tarn_absence(&all, NULL, days, DAYS, s->all.first_day,
			       NULL) == TARN_OK);
	cr_expect(all.months == 12 && all.horizon == TARN_ABSENCE_HORIZON);
	for (int m = 0; m < 12; m++) {
		double worst = fmin(of[0].month[m].worst, of[1].month[m].worst);

		cr_expect(all.month[m].starts ==
			  of[0].month[m].starts + of[1].month[m].starts);
		cr_expect(all.month[m].worst >= worst &&
			  all.month[m].worst <= worst);
	}
	drop(s);
}

/* ---- the table and its evaporation ----------------------------------------- */

/* Made up: a year's wave in every column. */
static struct tarn_weather *weather(void)
{
	static const enum tarn_column columns[] = {
		TARN_TMIN, TARN_TMAX, TARN_RAIN, TARN_DEWPOINT, TARN_WIND,
		TARN_PAN
	};
	static const double mean[] = { 3, 15, 2, 1, 3, 3 };
	static const double swing[] = { 12, 11, 1, 9, 1, 2 };
	struct tarn_weather *w;

	cr_assert(tarn_weather_new(&w, NULL, tarn_day(2013, 1, 1), 1461,
				   NULL) == TARN_OK);
	tarn_weather_site(w)->latitude_deg = 44;
	tarn_weather_site(w)->elevation_m = 300;
	tarn_weather_site(w)->wind_height_m = 10;
	for (int c = 0; c < 6; c++) {
		double *x = tarn_weather_add(w, columns[c]);

		for (int i = 0; i < 1461; i++)
			x[i] = mean[c] - swing[c] * cos(i / 58.1) +
			       0.1 * (i % 7);
	}
	return w;
}

static const long out_first = 16071, out_last = 16435;	/* 2014 */

Test(left_out, the_table_keeps_its_days)
{
	struct tarn_weather *w = weather(), *part;
	struct tarn_column_summary s = tarn_weather_summary(w, TARN_RAIN);
	struct tarn_error err = { 0 };
	double sum = s.mean * 1461;
	size_t at, days;

	cr_expect(!tarn_weather_left_out(w) && tarn_weather_counted(w) == 1461);
	cr_assert(out_first == tarn_day(2014, 1, 1) &&
		  out_last == tarn_day(2014, 12, 31));
	for (int i = 365; i < 730; i++)
		sum -= tarn_weather_column(w, TARN_RAIN)[i];
	cr_assert(tarn_weather_leave_out(w, out_first, out_last, NULL) ==
		  TARN_OK);
	cr_expect(tarn_weather_days(w) == 1461 &&
		  tarn_weather_counted(w) == 1096);
	s = tarn_weather_summary(w, TARN_RAIN);
	cr_expect(s.present == 1096 && s.missing == 0);
	cr_expect(fabs(s.mean - sum / 1096) < 1e-12);
	cr_expect(!tarn_weather_gap(w, TARN_RAIN, 0, &at, &days));
	tarn_weather_add(w, TARN_RAIN)[364] = TARN_NAN;
	tarn_weather_add(w, TARN_RAIN)[730] = TARN_NAN;
	cr_expect(tarn_weather_gap(w, TARN_RAIN, 0, &at, &days) && at == 364 &&
		  days == 1);
	cr_expect(tarn_weather_gap(w, TARN_RAIN, 365, &at, &days) &&
		  at == 730 && days == 1);
	cr_assert(tarn_weather_slice(&part, w, out_last, out_last + 9, NULL) ==
		  TARN_OK);
	cr_expect(tarn_weather_left_out(part)[0] == 1 &&
		  tarn_weather_left_out(part)[1] == 0 &&
		  tarn_weather_counted(part) == 9);
	tarn_weather_free(part);
	cr_assert(tarn_weather_slice(&part, w, out_last + 1, out_last + 9,
				     NULL) == TARN_OK);
	cr_expect(!tarn_weather_left_out(part));
	tarn_weather_free(part);
	cr_expect(tarn_weather_leave_out(w, 0, out_last, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "first");
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_weather_leave_out(w, out_last, out_first, &err) ==
		  TARN_EARG);
	cr_expect_str_eq(err.field, "last");
	tarn_weather_free(w);
}

/* A gap beside days that are left out has no end to draw a line to. */
Test(left_out, nothing_is_bridged_to_the_hole)
{
	struct tarn_weather *w = weather();
	struct tarn_fill how = tarn_fill_default();
	size_t filled[TARN_COLUMNS];
	struct tarn_error err = { 0 };

	cr_assert(tarn_weather_leave_out(w, out_first, out_last, NULL) ==
		  TARN_OK);
	tarn_weather_add(w, TARN_TMIN)[364] = TARN_NAN;
	tarn_weather_add(w, TARN_TMIN)[10] = TARN_NAN;
	how.interpolate_days = 3;
	cr_expect(tarn_weather_fill(w, &how, filled, &err) == TARN_EARG &&
		  strstr(err.text, "days that are left out"), "%s", err.text);
	how.leave = 1;
	cr_assert(tarn_weather_fill(w, &how, filled, NULL) == TARN_OK);
	cr_expect(filled[TARN_TMIN] == 1);
	cr_expect(isnan(tarn_weather_column(w, TARN_TMIN)[400]));
	tarn_weather_free(w);
}

static void same_as_the_parts(enum tarn_method m)
{
	static double open[1461], grass[1461], water[1461];
	static double part_open[1461], part_grass[1461], part_water[1461];
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *w = weather(), *part;
	struct tarn_evaporation_report all, own;
	size_t of_wind = 0;
	long first = tarn_weather_first(w);
	const long ends[2][2] = { { first, out_first - 1 },
				  { out_last + 1, first + 1460 } };

	o.method = (int)m;
	o.depth_m = 0.8;
	o.area_m2 = 15;
	tarn_weather_add(w, TARN_WIND)[900] = TARN_NAN;
	cr_assert(tarn_weather_leave_out(w, out_first, out_last, NULL) ==
		  TARN_OK);
	cr_assert(tarn_evaporation_run(w, &o, open, grass, water, &all,
				       NULL) == TARN_OK);
	for (int k = 0; k < 2; k++) {
		size_t at = (size_t)(ends[k][0] - first);
		size_t bytes = (size_t)(ends[k][1] - ends[k][0] + 1) *
			       sizeof *open;

		cr_assert(tarn_weather_slice(&part, w, ends[k][0], ends[k][1],
					     NULL) == TARN_OK);
		cr_assert(tarn_evaporation_run(part, &o, part_open, part_grass,
					       part_water, &own, NULL) ==
			  TARN_OK);
		cr_expect(memcmp(open + at, part_open, bytes) == 0 &&
			  memcmp(grass + at, part_grass, bytes) == 0,
			  "method %d, part %d", m, k);
		cr_expect(m != TARN_PENMAN_HEAT ||
			  memcmp(water + at, part_water, bytes) == 0);
		of_wind += own.origin_days[TARN_ORIGIN_WIND_DEFAULT];
		tarn_weather_free(part);
	}
	for (int i = 365; i < 730; i++)
		cr_expect(isnan(open[i]) && isnan(grass[i]));
	cr_expect(all.days == 1096);
	cr_expect(all.origin_days[TARN_ORIGIN_WIND_DEFAULT] == of_wind);
	cr_expect(tarn_evaporation_lacking(w, &o, m) == 0);
	tarn_weather_free(w);
}

Test(left_out, evaporation_is_that_of_the_parts)
{
	same_as_the_parts(TARN_PENMAN_1956);
	same_as_the_parts(TARN_PENMAN_HEAT);
	same_as_the_parts(TARN_PAN_COEFFICIENT);
}

/* Beside another method: the ratio is that of the days which are run. */
Test(left_out, the_ratio_beside_another_method_is_of_days_that_are_run)
{
	static double base[2][1461], mm[2][1461];
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_weather *w = weather();
	struct tarn_evaporation_base b = { base[0], base[1] };
	double own = 0, of_base = 0;

	tarn_weather_add(w, TARN_PAN)[20] = TARN_NAN;
	cr_assert(tarn_weather_leave_out(w, out_first, out_last, NULL) ==
		  TARN_OK);
	o.method = TARN_PENMAN_1956;
	cr_assert(tarn_evaporation_run(w, &o, base[0], base[1], NULL, NULL,
				       NULL) == TARN_OK);
	o.method = TARN_PAN_COEFFICIENT;
	cr_assert(tarn_evaporation_beside(w, &o, &b, mm[0], mm[1], NULL,
					  NULL) == TARN_OK);
	for (int i = 0; i < 1461; i++)
		if (i != 20 && (i < 365 || i >= 730)) {
			own += mm[0][i];
			of_base += base[0][i];
		}
	cr_expect(fabs(mm[0][20] - base[0][20] * own / of_base) < 1e-9);
	tarn_weather_free(w);
}

/* Days a year are of the days that are there; no spell goes over the hole. */
Test(left_out, frost_is_of_the_days_that_count)
{
	struct tarn_weather *w = weather();
	const double *lo, *hi;
	double hard = 0, sum = 0, coldest = 0;
	struct tarn_frost f;

	cr_assert(tarn_weather_leave_out(w, out_first + 10, out_last - 20,
					 NULL) == TARN_OK);
	lo = tarn_weather_column(w, TARN_TMIN);
	hi = tarn_weather_column(w, TARN_TMAX);
	f = tarn_frost(tarn_weather_first(w), lo, hi, 1461, 0);
	for (int i = 0; i < 1461; i++) {
		hard += lo[i] <= TARN_HARD_FROST_C;
		sum = isnan(lo[i]) ? 0 : fmax(0, sum - (lo[i] + hi[i]) / 2);
		coldest = fmax(coldest, sum);
	}
	cr_expect(f.days == 1461 - 335, "%zu", f.days);
	cr_expect(hard > 0 && fabs(f.hard_days - hard / (1461 - 335) * 365.25) <
				      1e-9, "%g", f.hard_days);
	cr_expect(coldest > 0 && fabs(f.degree_days - coldest) < 1e-9, "%g, %g",
		  f.degree_days, coldest);
	tarn_weather_free(w);
}

/* ---- the forecast ------------------------------------------------------------ */

static struct tarn_forecast forecast(const struct sky *s,
				     const struct tarn_forcing *f)
{
	struct tarn_exposure_budget budget = { .centre_sd_ln = 0.2,
					       .slow_sd_ln = 0.1,
					       .day_sd = 0.2 };
	struct tarn_forecast_options o = tarn_forecast_options_default();
	struct tarn_forecast out;
	struct tarn_error err = { 0 };

	o.worlds = 130;			/* more than a block of lanes */
	cr_assert(tarn_forecast(&out, NULL, &s->pond, f, NULL, &budget, &o,
				&err) == TARN_OK, "%s %s", err.field, err.text);
	return out;
}

/* Worlds are drawn by the date, so that those of a part are those of all. */
Test(left_out, the_forecast_is_of_both_parts)
{
	struct sky *s = make(HOLE_FROM + 40, HOLE_DAYS);	/* spoils two */
	struct tarn_forecast all = forecast(s, &s->all),
			     a = forecast(s, &s->part[0]),
			     b = forecast(s, &s->part[1]);
	double days = (double)all.days;

	cr_expect(all.days == a.days + b.days && all.days == DAYS - HOLE_DAYS);
	cr_expect(all.year.count == 8 && a.year.count == 3 &&
		  b.year.count == 5);
	cr_expect(fabs(all.year.mean_m3 * 8 - a.year.mean_m3 * 3 -
		       b.year.mean_m3 * 5) < 1e-9 && all.year.mean_m3 > 1);
	cr_expect(fabs(all.a_week.mean_m3 * days -
		       a.a_week.mean_m3 * (double)a.days -
		       b.a_week.mean_m3 * (double)b.days) < 1e-7);
	cr_assert(all.months == 12 && all.weeks == 52);
	for (int m = 0; m < 12; m++) {
		double na = (double)a.month[m].a_week.count;
		double nb = (double)b.month[m].a_week.count;

		cr_expect(all.month[m].a_week.count == (size_t)(na + nb));
		cr_expect(fabs(all.month[m].a_week.mean_m3 * (na + nb) -
			       a.month[m].a_week.mean_m3 * na -
			       b.month[m].a_week.mean_m3 * nb) < 1e-9);
	}
	for (int w = 0; w < 52; w++)
		cr_expect(all.week[w].topup_m3.count ==
			  a.week[w].topup_m3.count + b.week[w].topup_m3.count);
	drop(s);
}

/* ---- who needs all days ----------------------------------------------------- */

Test(left_out, the_parts_that_go_by_index_refuse)
{
	struct sky *s = make(HOLE_FROM, HOLE_DAYS);
	struct tarn_study study = tarn_study_default();
	struct tarn_leak_options o = tarn_leak_options_default();
	struct tarn_reading readings[2] = { { .day = s->all.first_day } };
	struct tarn_leak *leak;
	struct tarn_error err = { 0 };
	double value;
	struct tarn_study_rows rows = { .count = 1 };
	struct tarn_ledger *ledger;

	study.ponds = &s->pond;
	study.weathers = &s->all;
	study.pond_count = study.weather_count = 1;
	study.variants = 1;
	rows.value[TARN_Q_TOPUP] = &value;
	cr_expect(tarn_study_run(&study, &rows, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "leaves days out"), "%s: %s", err.field,
		  err.text);
	cr_expect(tarn_study_trace(&study, 0, &ledger, NULL) == TARN_EARG);
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_leak_fit(&leak, NULL, &s->pond, &s->all, readings, 2,
				&o, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "leaves days out"), "%s: %s", err.field,
		  err.text);
	memset(s->left_out, 1, sizeof s->left_out);
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_forcing_check(&s->all, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "all are left out"), "%s", err.text);
	drop(s);
}
