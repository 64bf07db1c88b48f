/* SPDX-License-Identifier: MIT */
#include "web.h"

/*
 * A log of levels against the weather: web_log(), web_set("log", ...),
 * web_log_read(), web_set("leak", ...), web_log_fit(), then what follows from
 * the fit.
 */

/* Forgets the log and sets its options to what they are by default. */
WEB(web_log) void web_log(void);
WEB(web_log) void web_log(void)
{
	tarn_leak_free(web.leak);
	tarn_log_free(web.log);
	web.leak = NULL;
	web.log = NULL;
	web.log_options = tarn_log_options_default();
	web.leak_options = tarn_leak_options_default();
}

/* Reads a log; 'name' is for messages.  Fails as the runner does. */
WEB(web_log_read) int web_log_read(const char *name, const void *bytes,
				   size_t count);
WEB(web_log_read) int web_log_read(const char *name, const void *bytes,
				   size_t count)
{
	struct tarn_log_info info;

	web_lend(bytes, count);
	if (tarn_log_read(&web.log, NULL, name, &web.log_options,
			  web_error()) != TARN_OK) {
		web.log = NULL;
		return web_fail(name);
	}
	info = tarn_log_info(web.log);
	web.leak_options.counts_down = info.counts_down;
	web.leak_options.step_m = info.step_m;
	return 1;
}

WEB(web_log_info) const struct tarn_log_info *web_log_info(void);
WEB(web_log_info) const struct tarn_log_info *web_log_info(void)
{
	static struct tarn_log_info info;

	info = tarn_log_info(web.log);
	return &info;
}

/* Headings that were not used, "" if all were. */
WEB(web_log_ignored) const char *web_log_ignored(void);
WEB(web_log_ignored) const char *web_log_ignored(void)
{
	return web_log_info()->ignored;
}

static const struct tarn_reading *readings(size_t *count)
{
	return tarn_log_readings(web.log, count);
}

WEB(web_log_readings) const struct tarn_reading *web_log_readings(void);
WEB(web_log_readings) const struct tarn_reading *web_log_readings(void)
{
	size_t count;

	return readings(&count);
}

WEB(web_log_count) size_t web_log_count(void);
WEB(web_log_count) size_t web_log_count(void)
{
	size_t count;

	readings(&count);
	return count;
}

/* ---- the fit ------------------------------------------------------------- */

/* The weather's days of the log, so that a gap in another year does not
 * matter; all of it where they do not meet. */
static int cut_weather(void)
{
	size_t count;
	const struct tarn_reading *r = readings(&count);
	long first = tarn_weather_first(web.weather);
	long last = first + (long)tarn_weather_days(web.weather) - 1;
	long from = count ? r[0].day : last + 1;
	long to = count ? r[count - 1].day : first - 1;

	tarn_weather_free(web.log_weather);
	web.log_weather = NULL;
	if (from > last || to < first) {
		from = first;
		to = last;
	}
	if (tarn_weather_slice(&web.log_weather, web.weather,
			       from > first ? from : first,
			       to < last ? to : last, web_error()) != TARN_OK)
		return web_fail(NULL);
	return 1;
}

static int make_path(const struct tarn_forcing *forcing, const char *name)
{
	size_t count;
	const struct tarn_reading *r = readings(&count);

	if (!web_room(&web.points, (count + 1) * sizeof *web.points))
		return 0;
	if (tarn_leak_path(NULL, &web.pond, forcing, r, count,
			   &web.leak_options, web.points, web_error()) !=
	    TARN_OK)
		return web_fail(name);
	return 1;
}

/* NULL if it fails. */
WEB(web_log_fit) const struct tarn_leak_result *web_log_fit(const char *name);
WEB(web_log_fit) const struct tarn_leak_result *web_log_fit(const char *name)
{
	size_t count;
	const struct tarn_reading *r;

	if (!web.ready || !web.weather || !web.log) {
		web_mistake("no pond, no weather or no log yet");
		return NULL;
	}
	r = readings(&count);
	if (!cut_weather() ||
	    !web_forcing(web.log_weather, TARN_METHODS, &web.log_rates,
			 &web.log_forcing, &web.log_found))
		return NULL;
	if (tarn_leak_fit(&web.leak, NULL, &web.pond, &web.log_forcing, r,
			  count, &web.leak_options, web_error()) != TARN_OK) {
		web.leak = NULL;
		web_fail(name);
		return NULL;
	}
	return make_path(&web.log_forcing, name) ? tarn_leak_result(web.leak)
						 : NULL;
}

WEB(web_log_intervals) const struct tarn_interval *web_log_intervals(void);
WEB(web_log_intervals) const struct tarn_interval *web_log_intervals(void)
{
	size_t count;

	return tarn_leak_intervals(web.leak, &count);
}

WEB(web_log_interval_count) size_t web_log_interval_count(void);
WEB(web_log_interval_count) size_t web_log_interval_count(void)
{
	size_t count;

	tarn_leak_intervals(web.leak, &count);
	return count;
}

/* Logged and explained level, one point a reading. */
WEB(web_log_points) const struct tarn_level_point *web_log_points(void);
WEB(web_log_points) const struct tarn_level_point *web_log_points(void)
{
	return web.points;
}

/* Week of a meter from that interval on; web_log_week_next() is the one after
 * it. */
static size_t next;

WEB(web_log_week) const struct tarn_meter_week *web_log_week(size_t at);
WEB(web_log_week) const struct tarn_meter_week *web_log_week(size_t at)
{
	static struct tarn_meter_week week;

	week = tarn_leak_week(web.leak, at, &next);
	return &week;
}

WEB(web_log_week_next) size_t web_log_week_next(void);
WEB(web_log_week_next) size_t web_log_week_next(void)
{
	return next;
}

/* The pond with the fit put back; NULL if it leaves the ranges. */
WEB(web_log_calibrated) const struct tarn_pond *web_log_calibrated(void);
WEB(web_log_calibrated) const struct tarn_pond *web_log_calibrated(void)
{
	static struct tarn_pond pond;

	if (tarn_leak_calibrated(tarn_leak_result(web.leak), &web.pond, &pond,
				 web_error()) == TARN_OK)
		return &pond;
	web_fail(NULL);
	return NULL;
}

/* Fit of the first half, prediction of the second; NULL if it fails. */
WEB(web_log_holdout) const struct tarn_holdout *web_log_holdout(void);
WEB(web_log_holdout) const struct tarn_holdout *web_log_holdout(void)
{
	static struct tarn_holdout holdout;
	size_t count;
	const struct tarn_reading *r = readings(&count);

	if (tarn_leak_holdout(NULL, &web.pond, &web.log_forcing, r, count,
			      &web.leak_options, &holdout, web_error()) ==
	    TARN_OK)
		return &holdout;
	web_fail(NULL);
	return NULL;
}

/* How the evaporation of the log's days was found: as web_method() and
 * web_rule_days() for the ledger. */
WEB(web_log_method) int web_log_method(void);
WEB(web_log_method) int web_log_method(void)
{
	return (int)web.log_found.method;
}

WEB(web_log_days) size_t web_log_days(void);
WEB(web_log_days) size_t web_log_days(void)
{
	return web.log_forcing.days;
}

WEB(web_log_rule_days) size_t web_log_rule_days(int rule);
WEB(web_log_rule_days) size_t web_log_rule_days(int rule)
{
	return web.log_found.rule_days[rule];
}
