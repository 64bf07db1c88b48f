/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "forecast_sums.h"

/* ---- periods --------------------------------------------------------------- */

static long monday_of(long day)
{
	return day - tarn_week(day).weekday + 1;
}

static int months_to(struct tarn_date d)
{
	return d.year * 12 + d.month - 1;
}

/* How many periods of each kind the days touch: weeks, months, years. */
static void count_periods(struct sums *s, const struct tarn_forcing *f)
{
	long last = f->first_day + (long)f->days - 1;
	struct tarn_date a = tarn_date(f->first_day), z = tarn_date(last);

	s->week.count = (size_t)(last - monday_of(f->first_day)) / 7 + 1;
	s->month.count = (size_t)(months_to(z) - months_to(a)) + 1;
	s->year.count = (size_t)(z.year - a.year) + 1;
	s->run.count = 1;
}

static void name_week(struct sums_period *p, long first, long last)
{
	p->name = tarn_week(first).week;
	p->month = tarn_date(last - 3).month;
}

/* A period with its own ends, of which the weather may lack some days or leave
 * them out. */
static void put_period(struct sums_period *p, const struct tarn_forcing *f,
		       long first, long last)
{
	long from = first, to = last, end = f->first_day + (long)f->days - 1;

	if (from < f->first_day)
		from = f->first_day;
	if (to > end)
		to = end;
	p->days = 0;
	for (long day = from; day <= to; day++)
		p->days += !step_left_out(f, (size_t)(day - f->first_day));
	p->whole = p->days == (size_t)(last - first + 1);
}

static void name_periods(struct sums *s, const struct tarn_forcing *f)
{
	struct tarn_date a = tarn_date(f->first_day);
	long monday = monday_of(f->first_day);

	for (size_t i = 0; i < s->week.count; i++) {
		long first = monday + 7 * (long)i;

		put_period(&s->week.period[i], f, first, first + 6);
		name_week(&s->week.period[i], first, first + 6);
	}
	for (size_t i = 0; i < s->month.count; i++) {
		int at = months_to(a) + (int)i, year = at / 12;
		int month = at % 12 + 1;
		long first = tarn_day(year, month, 1);

		put_period(&s->month.period[i], f, first,
			   first + tarn_days_in_month(year, month) - 1);
		s->month.period[i].name = month;
	}
	for (size_t i = 0; i < s->year.count; i++)
		put_period(&s->year.period[i], f,
			   tarn_day(a.year + (int)i, 1, 1),
			   tarn_day(a.year + (int)i, 12, 31));
	put_period(s->run.period, f, f->first_day,
		   f->first_day + (long)f->days - 1);
	s->run.period->whole = 1;	/* of the days that are run */
}

/* ---- memory ---------------------------------------------------------------- */

static void lay_out(struct sums *s, size_t periods)
{
	double *at = s->numbers;

	for (size_t i = 0; i < periods; i++, at += s->columns)
		s->periods[i].topup_m3 = at;
	s->scratch = at;
	at += s->week.count * s->worlds;
	s->means = at;
	at += s->columns;
	s->years = at;
	at += s->week.count;
	s->middle = at;
	s->week.period = s->periods;
	s->month.period = s->week.period + s->week.count;
	s->year.period = s->month.period + s->month.count;
	s->run.period = s->year.period + s->year.count;
}

enum tarn_status tn_sums_make(struct sums *s, const struct tarn_alloc *alloc,
			      const struct tarn_forcing *forcing, size_t worlds,
			      const double *b, struct tarn_error *err)
{
	size_t periods, numbers;

	*s = (struct sums){ .worlds = worlds, .columns = worlds + 1, .b = b };
	count_periods(s, forcing);
	/* of no kind are there more whole periods than there are weeks */
	periods = s->week.count + s->month.count + s->year.count + 1;
	numbers = periods * s->columns + s->columns +
		  s->week.count * (worlds + 2);
	s->periods = tarn_resize(alloc, NULL, periods * sizeof *s->periods);
	s->numbers = tarn_resize(alloc, NULL, numbers * sizeof *s->numbers);
	if (!s->periods || !s->numbers) {
		tn_sums_free(s, alloc);
		return tarn_fail(err, TARN_ENOMEM, "forecast", "out of memory "
				 "for %zu worlds of %zu days", worlds,
				 forcing->days);
	}
	memset(s->periods, 0, periods * sizeof *s->periods);
	memset(s->numbers, 0, numbers * sizeof *s->numbers);
	lay_out(s, periods);
	name_periods(s, forcing);
	return TARN_OK;
}

void tn_sums_free(struct sums *s, const struct tarn_alloc *alloc)
{
	tarn_resize(alloc, s->periods, 0);
	tarn_resize(alloc, s->numbers, 0);
	s->periods = NULL;
	s->numbers = NULL;
}

/* ---- sums ------------------------------------------------------------------ */

static void add(struct sums_period *p, size_t first, size_t columns,
		const double *topup_m3)
{
	for (size_t i = 0; i < columns; i++)
		p->topup_m3[first + i] += topup_m3[i];
}

void tn_sums_add(struct sums *s, const struct tarn_forcing *forcing,
		 size_t at, size_t first, size_t columns,
		 const double *topup_m3)
{
	long day = forcing->first_day + (long)at;
	struct tarn_date a = tarn_date(forcing->first_day), d = tarn_date(day);
	long week = (day - monday_of(forcing->first_day)) / 7;

	add(&s->week.period[week], first, columns, topup_m3);
	add(&s->month.period[months_to(d) - months_to(a)], first, columns,
	    topup_m3);
	add(&s->year.period[d.year - a.year], first, columns, topup_m3);
	add(s->run.period, first, columns, topup_m3);
}

/* ---- ranges ---------------------------------------------------------------- */

static double variance(const double *x, size_t count)
{
	double mean = tarn_mean(x, count), sum = 0;

	for (size_t i = 0; i < count; i++)
		sum += (x[i] - mean) * (x[i] - mean);
	return sum / (double)count;
}

static double slope(const double *x, const double *y, size_t count)
{
	double x0 = tarn_mean(x, count), y0 = tarn_mean(y, count);
	double xx = 0, xy = 0;

	for (size_t i = 0; i < count; i++) {
		xx += (x[i] - x0) * (x[i] - x0);
		xy += (x[i] - x0) * (y[i] - y0);
	}
	return xx > 0 ? xy / xx : 0;
}

/* All numbers of a kind's named periods into the scratch; means of years, of
 * worlds, and the middle world's years beside them.  Returns the periods. */
static size_t gather(struct sums *s, const struct sums_kind *kind, int name,
		     int a_week)
{
	size_t n = 0;

	memset(s->means, 0, s->columns * sizeof *s->means);
	for (size_t i = 0; i < kind->count; i++) {
		const struct sums_period *p = &kind->period[i];
		double share = a_week ? 7 / (double)p->days : 1;
		double *to = s->scratch + n * s->worlds;

		if (!p->whole || (name && p->name != name))
			continue;
		for (size_t w = 0; w < s->worlds; w++) {
			to[w] = p->topup_m3[w + 1] * share;
			s->means[w] += to[w];
		}
		s->years[n] = tarn_mean(to, s->worlds);
		s->middle[n++] = p->topup_m3[0] * share;
	}
	for (size_t w = 0; w < s->worlds && n > 0; w++)
		s->means[w] /= (double)n;
	return n;
}

struct tarn_forecast_range tn_sums_range(struct sums *s,
					 const struct sums_kind *kind,
					 int name, int a_week)
{
	struct tarn_forecast_range r;
	size_t n = gather(s, kind, name, a_week);
	struct tarn_spread all, of;
	double total = n > 0 ? variance(s->scratch, n * s->worlds) : TARN_NAN;
	double years = n > 0 ? variance(s->years, n) : TARN_NAN;
	double sites = n > 0 ? variance(s->means, s->worlds) : TARN_NAN;

	r.count = n;
	r.by_ln_m3 = n > 0 ? slope(s->b + 1, s->means, s->worlds) : TARN_NAN;
	all = tarn_spread(s->scratch, n * s->worlds);
	r.mean_m3 = all.mean;
	r.sd_m3 = sqrt(total);
	r.p10_m3 = all.p10;
	r.p50_m3 = all.p50;
	r.p90_m3 = all.p90;
	of = tarn_spread(s->middle, n);
	r.weather_p10_m3 = of.p10;
	r.weather_p90_m3 = of.p90;
	of = tarn_spread(s->means, n > 0 ? s->worlds : 0);
	r.site_p10_m3 = of.p10;
	r.site_p90_m3 = of.p90;
	r.weather_share = total > 0 ? years / total : total;
	r.site_share = total > 0 ? sites / total : total;
	return r;
}

struct tarn_spread tn_sums_weeks(struct sums *s, int number, int month)
{
	size_t n = 0;

	for (size_t i = 0; i < s->week.count; i++) {
		const struct sums_period *p = &s->week.period[i];

		if (!p->whole || (number && p->name != number) ||
		    (month && p->month != month))
			continue;
		memcpy(s->scratch + n, p->topup_m3 + 1,
		       s->worlds * sizeof *s->scratch);
		n += s->worlds;
	}
	return tarn_spread(s->scratch, n);
}
