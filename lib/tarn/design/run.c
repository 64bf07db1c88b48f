/* SPDX-License-Identifier: MIT */
/* A run of a description under a weather: its options, its forcing. */
#include "tarn/design.h"
#include "tarn/evaporation/internal.h"

#define T struct tarn_run_options
static const struct tarn_field rows[] = {
	TARN_OUT_DAY(T, first_day, "first", "of the run"),
	TARN_OUT_DAY(T, last_day, "last", "of the run"),
	TARN_IN_CHOICE(T, method, "method", tn_method_names, TARN_METHODS,
		       "how evaporation is found"),
	TARN_IN_CHOICE(T, beside, "beside", tn_method_names, TARN_METHODS,
		       "method that has the days that this one lacks"),
	TARN_IN_NUMBER(T, evaporation, "evaporation", "-", 0, 10, 1,
		       "times all evaporation"),
	TARN_IN_NUMBER(T, start_level_m, "start_level", "m", -1000, 10000,
		       TARN_NAN, "of the water on the first morning"),
	TARN_IN_SWITCH(T, topup, "topup", 1, "tank and supply give water"),
	TARN_IN_SWITCH(T, stopped, "stopped", 0,
		       "the pump is off and the bed full at first"),
};
TARN_FIELDS(tarn_run_options_fields, "", rows);
#undef T

struct tarn_run_options tarn_run_options_default(void)
{
	struct tarn_run_options o = { 0 };

	tarn_fields_default(&tarn_run_options_fields, &o);
	o.first_day = o.last_day = TARN_NO_DAY;
	return o;
}

struct tarn_run tarn_run_of(const struct tarn_run_options *o)
{
	struct tarn_run run = tarn_run_default();

	run.start_level_m = o->start_level_m;
	run.no_topup = !o->topup;
	run.start_stopped = o->stopped;
	return run;
}

/* The days asked for, of a weather with rain. */
static enum tarn_status cut(struct tarn_sky *s, const struct tarn_weather *w,
			    const struct tarn_run_options *o,
			    struct tarn_error *err)
{
	long first = tarn_weather_first(w);
	long last = first + (long)tarn_weather_days(w) - 1;

	if (!tarn_weather_column(w, TARN_RAIN))
		return tarn_fail(err, TARN_EARG, "weather", "has no rain: give "
				 "it a column (0 on dry days)");
	if (o->first_day != TARN_NO_DAY)
		first = o->first_day;
	if (o->last_day != TARN_NO_DAY)
		last = o->last_day;
	return tarn_weather_slice(&s->weather, w, first, last, err);
}

/* The method beside another one, which has all days. */
static enum tarn_status compare(struct tarn_sky *s,
				const struct tarn_evaporation_options *how,
				int beside, struct tarn_error *err)
{
	size_t days = s->forcing.days;
	struct tarn_evaporation_options first = *how;
	struct tarn_evaporation_base base;
	enum tarn_status status;
	double *mm = tarn_resize(s->alloc, NULL, 2 * days * sizeof *mm);

	if (!mm)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	first.method = beside;
	base = (struct tarn_evaporation_base){ mm, mm + days };
	status = tarn_evaporation_run(s->weather, &first, mm, mm + days, NULL,
				      NULL, err);
	if (status == TARN_OK)
		status = tarn_evaporation_beside(s->weather, how, &base,
						 s->evaporated_mm,
						 s->evaporated_mm + days,
						 &s->report, err);
	tarn_resize(s->alloc, mm, 0);
	return status;
}

static enum tarn_status evaporate(struct tarn_sky *s,
				  const struct tarn_resolved *made,
				  const struct tarn_run_options *o,
				  struct tarn_error *err)
{
	struct tarn_evaporation_options how = made->evaporation;
	size_t days = tarn_weather_days(s->weather);
	enum tarn_status status;

	if (o->method != TARN_METHODS)
		how.method = o->method;
	s->method = o->method;
	s->evaporated_mm = tarn_resize(s->alloc, NULL,
				       2 * days * sizeof *s->evaporated_mm);
	if (!s->evaporated_mm)
		return tarn_fail(err, TARN_ENOMEM, NULL, "out of memory");
	s->forcing = (struct tarn_forcing){
		tarn_weather_first(s->weather), days,
		tarn_weather_column(s->weather, TARN_RAIN), s->evaporated_mm,
		s->evaporated_mm + days, tarn_weather_left_out(s->weather)
	};
	if (o->beside != TARN_METHODS)
		status = compare(s, &how, o->beside, err);
	else
		status = tarn_evaporation_run(s->weather, &how,
					      s->evaporated_mm,
					      s->evaporated_mm + days, NULL,
					      &s->report, err);
	for (size_t i = 0; i < 2 * days && status == TARN_OK; i++)
		s->evaporated_mm[i] *= o->evaporation;
	return status;
}

enum tarn_status tarn_sky_make(struct tarn_sky *out,
			       const struct tarn_alloc *alloc,
			       const struct tarn_weather *weather,
			       const struct tarn_resolved *made,
			       const struct tarn_run_options *options,
			       struct tarn_error *err)
{
	enum tarn_status status;

	*out = (struct tarn_sky){ .alloc = alloc };
	status = cut(out, weather, options, err);
	if (status == TARN_OK)
		status = evaporate(out, made, options, err);
	if (status != TARN_OK)
		tarn_sky_free(out);
	return status;
}

void tarn_sky_free(struct tarn_sky *sky)
{
	tarn_weather_free(sky->weather);
	tarn_resize(sky->alloc, sky->evaporated_mm, 0);
	sky->weather = NULL;
	sky->evaporated_mm = NULL;
}
