/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/works.h"

/* ---- pipes -------------------------------------------------------------- */

static const char *const ends[] = { "bed", "falls", "pond", "manifold", NULL };
static const char *const sizes[] = {
	"by diameter", "0.5", "0.75", "1", "1.25", "1.5", "2", "2.5", "3", "4",
	"6", "8", "10", "12", NULL
};
static const char *const schedules[] = { "40", "80", "40 pvc", NULL };

#define T struct tarn_pipe_run
static const struct tarn_field run_rows[] = {
	TARN_IN_CHOICE(T, to, "to", ends, 0,
		       "where it ends; manifold: the trunk before the branches"),
	TARN_IN_CHOICE_UNIT(T, size, "size", "inch", sizes, 0,
			    "nominal size as printed on the pipe"),
	TARN_IN_CHOICE(T, schedule, "schedule", schedules, 0,
		       "wall of the size"),
	TARN_IN_NUMBER(T, diameter_m, "diameter", "m", 1e-3, 2, TARN_NAN,
		       "inside; instead of size"),
	TARN_IN_REQUIRED(T, length_m, "length", "m", 0, 1000, "of the run"),
	TARN_IN_NUMBER(T, lift_m, "lift", "m", -20, 100, 0,
		       "its mouth above the overflow lip; not for pond or "
		       "manifold"),
	TARN_IN_NUMBER(T, roughness_m, "roughness", "m", 0, 0.01, 1.5e-6,
		       "sand roughness; plastic if not given"),
	TARN_IN_NUMBER(T, minor_k, "minor_k", "-", 0, 1e4, 0,
		       "loss coefficient beside the fittings"),
	TARN_IN_NUMBER(T, valve_k, "valve_k", "-", 0, 1e6, 0,
		       "of a valve partly shut"),
	TARN_IN_NUMBER(T, orifice_diameter_m, "orifice", "m", 1e-4, 1, TARN_NAN,
		       "diameter of the holes or nozzles at its end"),
	TARN_IN_NUMBER(T, orifices, "orifices", "-", 1, 1000, 1, "how many"),
	TARN_IN_NUMBER(T, siphon_m, "siphon", "m", 0, 5, 0,
		       "its mouth under the water that it feeds"),
};
TARN_FIELDS(tarn_pipe_run_fields, "pipes", run_rows);
#undef T
TARN_DEFAULT(struct tarn_pipe_run, tarn_pipe_run_default, tarn_pipe_run_fields)

double tarn_pipe_run_diameter_m(const struct tarn_pipe_run *run)
{
	if (!isnan(run->diameter_m) || run->size == 0)
		return run->diameter_m;
	return tarn_pipe_inside_m(schedules[run->schedule], sizes[run->size]);
}

/* ---- falls -------------------------------------------------------------- */

static const char *const kinds[] = { "stone", "broad", "sharp", NULL };

#define T struct tarn_fall
static const struct tarn_field fall_rows[] = {
	TARN_IN_CHOICE(T, kind, "kind", kinds, 0,
		       "of the lip: rough stone, level and broad, sharp plate"),
	TARN_IN_SWITCH(T, bed, "bed", 0, "this is the bed's own lip"),
	TARN_IN_REQUIRED(T, width_m, "width", "m", 0.01, 100,
			 "of the lip, across the flow"),
	TARN_IN_NUMBER(T, drop_m, "drop", "m", 0, 50, TARN_NAN,
		       "free fall below the lip"),
	TARN_IN_NUMBER(T, coefficient, "coefficient", "m^0.5/s", 0.3, 4,
		       TARN_NAN,
		       "C of C L H^1.5; stone 1.6, broad 1.705, sharp 1.838"),
	TARN_IN_NUMBER(T, pool_m2, "pool", "m2", 0, 1e4, 0,
		       "water behind the lip that rises with its head"),
};
TARN_FIELDS(tarn_fall_fields, "falls", fall_rows);
#undef T
TARN_DEFAULT(struct tarn_fall, tarn_fall_default, tarn_fall_fields)

/* ---- bay, overflow, storm ------------------------------------------------ */

#define T struct tarn_works
static const struct tarn_field bay_rows[] = {
	TARN_IN_NUMBER(T, bay.width_m, "width", "m", 0.01, 100, TARN_NAN,
		       "of the opening"),
	TARN_IN_NUMBER(T, bay.sill_m, "sill", "m", 0, 20, TARN_NAN,
		       "level of the opening's sill above the floor"),
	TARN_IN_NUMBER(T, bay.open_share, "open_share", "-", 0.01, 1, 1,
		       "free between bars or stones"),
	TARN_IN_NUMBER(T, bay.velocity_limit_ms, "velocity_limit", "m/s", 1e-3,
		       10, TARN_NAN, "of the approach; your choice"),
	TARN_IN_NUMBER(T, bay.suction_m, "suction", "m", 1e-3, 2, TARN_NAN,
		       "diameter of the pump's suction"),
	TARN_IN_NUMBER(T, bay.pump_minimum_m, "pump_minimum", "m", 0, 20,
		       TARN_NAN, "level under which the pump runs dry"),
};
TARN_FIELDS(tarn_bay_fields, "bay", bay_rows);

static const struct tarn_field overflow_rows[] = {
	TARN_IN_NUMBER(T, overflow.lip_width_m, "width", "m", 1e-3, 1e3,
		       TARN_NAN, "of the lip"),
	TARN_IN_VALUE(T, overflow.lip_coefficient, "coefficient", "m^0.5/s",
		      0.3, 4, 1.705, "C of the lip"),
	TARN_IN_NUMBER(T, overflow.standpipe_diameter_m, "standpipe", "m", 1e-3,
		       10, TARN_NAN, "inside diameter; its rim is the lip"),
	TARN_IN_VALUE(T, overflow.fill, "fill", "-", 0.01, 1, 7.0 / 24,
		      "share of the stack that is water, by your code"),
	TARN_IN_NUMBER(T, overflow.drain_length_m, "drain_length", "m", 0, 1000,
		       TARN_NAN, "of the standpipe's drain"),
	TARN_IN_NUMBER(T, overflow.drain_fall_m, "drain_fall", "m", 0, 100,
		       TARN_NAN, "of the drain, rim to outlet"),
	TARN_IN_NUMBER(T, overflow.side_diameter_m, "side_pipe", "m", 1e-3, 10,
		       TARN_NAN, "inside diameter; its invert is the lip"),
	TARN_IN_VALUE(T, overflow.clogging, "clogging", "-", 0, 0.95, 0,
		      "share of the openings that debris takes"),
};
TARN_FIELDS(tarn_pond_overflow_fields, "overflow", overflow_rows);

static const struct tarn_field storm_rows[] = {
	TARN_IN_NUMBER(T, storm.intensity_mm_h, "intensity", "mm/h", 0.1, 1000,
		       TARN_NAN, "design rain, from a local table"),
	TARN_IN_VALUE(T, storm.duration_s, "duration", "s", 60, 172800, 3600,
		      "how long it rains so"),
	TARN_IN_NUMBER(T, storm.years, "years", "years", 1, 10000, TARN_NAN,
		       "its return period, for the sheet"),
	TARN_IN_SWITCH(T, storm.stopped, "stopped", 1,
		       "the mains fail just before it"),
};
TARN_FIELDS(tarn_storm_fields, "storm", storm_rows);
#undef T

#define T struct tarn_catchment
static const struct tarn_field catchment_rows[] = {
	TARN_IN_REQUIRED(T, area_m2, "area", "m2", 0, 1e6,
			 "roof, paving, slope that drains into the pond in a "
			 "storm"),
	TARN_IN_REQUIRED(T, coefficient, "coefficient", "-", 0, 1,
			 "runoff / rain: roof 0.75-0.95, lawn 0.05-0.35"),
};
TARN_FIELDS(tarn_catchment_fields, "catchments", catchment_rows);
#undef T

struct tarn_works tarn_works_default(void)
{
	struct tarn_works w = { 0 };

	for (int i = 0; i < TARN_RUNS_MAX; i++)
		w.run[i] = tarn_pipe_run_default();
	for (int i = 0; i < TARN_FALLS_MAX; i++)
		w.fall[i] = tarn_fall_default();
	for (int i = 0; i < TARN_CATCHMENTS_MAX; i++)
		tarn_fields_default(&tarn_catchment_fields, &w.catchment[i]);
	w.overflow = tarn_overflow_default();
	tarn_fields_default(&tarn_bay_fields, &w);
	tarn_fields_default(&tarn_pond_overflow_fields, &w);
	tarn_fields_default(&tarn_storm_fields, &w);
	w.temp_c = 15;
	return w;
}

/* ---- checks --------------------------------------------------------------- */

static enum tarn_status check_rows(const struct tarn_works *w,
				   struct tarn_error *err)
{
	enum tarn_status s = tarn_fields_check(&tarn_bay_fields, w, err);

	if (s == TARN_OK)
		s = tarn_fields_check(&tarn_pond_overflow_fields, w, err);
	if (s == TARN_OK)
		s = tarn_fields_check(&tarn_storm_fields, w, err);
	for (int i = 0; i < w->runs && s == TARN_OK; i++)
		s = tarn_fields_check(&tarn_pipe_run_fields, &w->run[i], err);
	for (int i = 0; i < w->falls && s == TARN_OK; i++)
		s = tarn_fields_check(&tarn_fall_fields, &w->fall[i], err);
	for (int i = 0; i < w->catchments && s == TARN_OK; i++)
		s = tarn_fields_check(&tarn_catchment_fields,
				      &w->catchment[i], err);
	return s;
}

static enum tarn_status check_pipes(const struct tarn_works *w,
				    struct tarn_error *err)
{
	for (int i = 0; i < w->runs; i++) {
		const struct tarn_pipe_run *r = &w->run[i];

		if (!(tarn_pipe_run_diameter_m(r) > 0))
			return tarn_fail(err, TARN_EARG, "pipes", "number %d "
					 "needs an inside diameter, or a size "
					 "that its schedule has", i + 1);
		if (r->to >= TARN_TO_POND && r->lift_m != 0)
			return tarn_fail(err, TARN_EARG, "pipes", "number %d: "
					 "lift belongs to runs to bed or falls",
					 i + 1);
	}
	return TARN_OK;
}

static enum tarn_status check_bay(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  struct tarn_error *err)
{
	double low = isnan(p->intake_m) ? p->overflow_level_m : p->intake_m;

	if (w->bay.sill_m >= low)
		return tarn_fail(err, TARN_EARG, "bay.sill", "at %g m does not "
				 "lie under the %s at %g m: the pump would run "
				 "dry", w->bay.sill_m, isnan(p->intake_m) ?
				 "overflow lip" : "intake level", low);
	if (w->bay.pump_minimum_m > low)
		return tarn_fail(err, TARN_EARG, "bay.pump_minimum", "at %g m "
				 "lies above the %s at %g m",
				 w->bay.pump_minimum_m, isnan(p->intake_m) ?
				 "overflow lip" : "intake level", low);
	return TARN_OK;
}

enum tarn_status tarn_works_check(const struct tarn_works *w,
				  const struct tarn_pond *p,
				  struct tarn_error *err)
{
	enum tarn_status status = check_rows(w, err);

	if (status == TARN_OK)
		status = check_pipes(w, err);
	if (status == TARN_OK)
		status = check_bay(w, p, err);
	if (status == TARN_OK && p->stream.slope <= 0)
		return tarn_fail(err, TARN_EARG, "stream.slope", "must fall "
				 "towards the pond (above 0), got %g: this "
				 "stream would drain away from it or stand",
				 p->stream.slope);
	if (status == TARN_OK && !isnan(w->overflow.drain_length_m) !=
	    !isnan(w->overflow.drain_fall_m))
		return tarn_fail(err, TARN_EARG, "overflow.drain_length",
				 "and drain_fall belong together");
	if (status == TARN_OK && w->curve_points > 0 &&
	    !isnan(p->pump.max_head_m))
		return tarn_fail(err, TARN_EARG, "pump.curve", "and max_head "
				 "exclude each other: give one");
	return status;
}
