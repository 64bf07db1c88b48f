/* SPDX-License-Identifier: MIT */
#include <stdlib.h>

#include "web.h"

/* ---- evaporation and ledger -------------------------------------------- */

int web_forcing(const struct tarn_weather *w, int method, double **rates,
		struct tarn_forcing *forcing,
		struct tarn_evaporation_report *found)
{
	size_t days = tarn_weather_days(w);
	const double *rain = tarn_weather_column(w, TARN_RAIN);
	struct tarn_evaporation_options o = web.options;

	if (!rain)
		return web_mistake("weather has no rain: give it a column (0 "
				   "on dry days)");
	if (method < TARN_METHODS)
		o.method = method;
	if (!web_room(rates, 2 * days * sizeof **rates))
		return 0;
	if (tarn_evaporation_run(w, &o, *rates, *rates + days, NULL, found,
				 web_error()) != TARN_OK)
		return web_fail(NULL);
	*forcing = (struct tarn_forcing){ tarn_weather_first(w), days, rain,
					  *rates, *rates + days };
	return 1;
}

/* Runs the ledger over the whole weather, from the target.  method:
 * TARN_METHODS as described.  Fails as the runner does. */
WEB(web_run) int web_run(int method);
WEB(web_run) int web_run(int method)
{
	struct tarn_run run = tarn_run_default();
	struct tarn_ledger *ledger;

	if (!web.ready || !web.weather)
		return web_mistake("no pond or no weather yet");
	if (!web_forcing(web.weather, method, &web.rates, &web.forcing,
			 &web.found))
		return 0;
	if (tarn_ledger_run(&ledger, NULL, &web.pond, &web.forcing, &run,
			    web_error()) != TARN_OK)
		return web_fail(NULL);
	tarn_ledger_free(web.ledger);
	web.ledger = ledger;
	return 1;
}

/* Days of the ledger, borrowed until the next run. */
WEB(web_ledger) const struct tarn_ledger_day *web_ledger(void);
WEB(web_ledger) const struct tarn_ledger_day *web_ledger(void)
{
	size_t count;

	return web.ledger ? tarn_ledger_days(web.ledger, &count) : NULL;
}

WEB(web_ledger_days) size_t web_ledger_days(void);
WEB(web_ledger_days) size_t web_ledger_days(void)
{
	size_t count = 0;

	if (web.ledger)
		tarn_ledger_days(web.ledger, &count);
	return count;
}

WEB(web_residual) double web_residual(void);
WEB(web_residual) double web_residual(void)
{
	return web.ledger ? tarn_ledger_residual(web.ledger) : TARN_NAN;
}

/* ---- periods ----------------------------------------------------------- */

/* Makes the periods of a kind (enum tarn_period_kind) and returns how many;
 * 0 if it fails.  web_period() points at them, until the next call. */
WEB(web_periods) size_t web_periods(int kind);
WEB(web_periods) size_t web_periods(int kind)
{
	size_t days = web_ledger_days(), count = 0, next;

	if (!web_room(&web.period, days * sizeof *web.period))
		return 0;
	for (size_t at = 0; at < days; at = next)
		web.period[count++] = tarn_ledger_period(
			web.ledger, (enum tarn_period_kind)kind, at, &next);
	return count;
}

WEB(web_period) const struct tarn_period *web_period(void);
WEB(web_period) const struct tarn_period *web_period(void)
{
	return web.period;
}

WEB(web_iso_week) int web_iso_week(long day);
WEB(web_iso_week) int web_iso_week(long day)
{
	return tarn_week(day).week;
}

WEB(web_iso_year) int web_iso_year(long day);
WEB(web_iso_year) int web_iso_year(long day)
{
	return tarn_week(day).year;
}

/* ---- how evaporation was found ----------------------------------------- */

WEB(web_methods) int web_methods(void);
WEB(web_methods) int web_methods(void)
{
	return TARN_METHODS;
}

WEB(web_method) int web_method(void);
WEB(web_method) int web_method(void)
{
	return (int)web.found.method;
}

/* what: 0 name, 1 title. */
WEB(web_method_text) const char *web_method_text(int method, int what);
WEB(web_method_text) const char *web_method_text(int method, int what)
{
	return what == 0 ? tarn_method_name((enum tarn_method)method)
			 : tarn_method_title((enum tarn_method)method);
}

WEB(web_rules) int web_rules(void);
WEB(web_rules) int web_rules(void)
{
	return TARN_RULES;
}

WEB(web_rule_title) const char *web_rule_title(int rule);
WEB(web_rule_title) const char *web_rule_title(int rule)
{
	return tarn_rule_info((enum tarn_rule)rule)->title;
}

WEB(web_rule_days) size_t web_rule_days(int rule);
WEB(web_rule_days) size_t web_rule_days(int rule)
{
	return web.found.rule_days[rule];
}

/* ---- the band between methods ------------------------------------------ */

/* Sum of a run by another method; NULL if weather and description do not
 * allow it.  Ledger and forcing stay as they are. */
WEB(web_band) const struct tarn_period *web_band(int method);
WEB(web_band) const struct tarn_period *web_band(int method)
{
	static struct tarn_period sum;
	struct tarn_run run = tarn_run_default();
	struct tarn_evaporation_report found;
	struct tarn_forcing forcing;
	struct tarn_ledger *ledger;
	size_t next;

	if (!web.ready || !web.weather ||
	    !tarn_evaporation_possible(web.weather, &web.options,
				       (enum tarn_method)method))
		return NULL;
	if (!web_forcing(web.weather, method, &web.other_rates, &forcing,
			 &found) ||
	    tarn_ledger_run(&ledger, NULL, &web.pond, &forcing, &run,
			    web_error()) != TARN_OK)
		return NULL;
	sum = tarn_ledger_period(ledger, TARN_BY_RUN, 0, &next);
	tarn_ledger_free(ledger);
	return &sum;
}

/* ---- endurance --------------------------------------------------------- */

/*
 * Days until the intake is exposed, without top-up, for 'count' starts from
 * index 'from' of the ledger's days; -1 where the weather ends before.  In
 * pieces, so that the page stays awake.  NULL if it fails.
 */
WEB(web_endurance) const long *web_endurance(size_t from, size_t count);
WEB(web_endurance) const long *web_endurance(size_t from, size_t count)
{
	struct tarn_forcing f = web.forcing;
	struct tarn_run run = tarn_run_default();

	if (from >= f.days || isnan(web.pond.intake_m)) {
		web_mistake("level is missing, and the pond has no intake "
			    "level");
		return NULL;
	}
	f.first_day += (long)from;
	f.rain_mm += from;
	f.open_water_mm += from;
	f.grass_mm += from;
	f.days -= from;
	if (f.days > count + TARN_ENDURANCE_DAYS)
		f.days = count + TARN_ENDURANCE_DAYS;
	if (!web_room(&web.endurance, f.days * sizeof *web.endurance))
		return NULL;
	if (tarn_pond_endurance(&web.pond, &f, &run, web.pond.intake_m,
				web.endurance, web_error()) == TARN_OK)
		return web.endurance;
	web_fail(NULL);
	return NULL;
}
