/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/works.h"

#define ROWS(variable, section, rows) \
	const struct tarn_fields variable = { section, rows, \
					      sizeof rows / sizeof rows[0] }

/* ---- pipes -------------------------------------------------------------- */

static const char *const ends[] = { "bed", "falls", "pond", "manifold", NULL };
static const char *const sizes[] = {
	"by diameter", "0.5", "0.75", "1", "1.25", "1.5", "2", "2.5", "3", "4",
	"6", "8", "10", "12", NULL
};
static const char *const schedules[] = { "40", "80", "40 pvc", NULL };

#define AT(member) offsetof(struct tarn_pipe_run, member)
#define FILLED(name, member, lo, hi, required, other, unit, meaning)       \
	{ name, TARN_FIELD_NUMBER, AT(member), lo, hi, required, unit, NULL, \
	  meaning, other }
#define NUMBER(name, member, lo, hi, required, unit, meaning) \
	FILLED(name, member, lo, hi, required, TARN_NAN, unit, meaning)
static const struct tarn_field run_rows[] = {
	{ "to", TARN_FIELD_CHOICE, AT(to), 0, 3, 0, "-", ends,
	  "where it ends; manifold: the trunk before the branches" },
	{ "size", TARN_FIELD_CHOICE, AT(size), 0, 13, 0, "inch", sizes,
	  "nominal size as printed on the pipe" },
	{ "schedule", TARN_FIELD_CHOICE, AT(schedule), 0, 2, 0, "-", schedules,
	  "wall of the size" },
	NUMBER("diameter", diameter_m, 1e-3, 2, 0, "m",
	       "inside; instead of size"),
	NUMBER("length", length_m, 0, 1000, 1, "m", "of the run"),
	FILLED("lift", lift_m, -20, 100, 0, 0, "m",
	       "its mouth above the overflow lip; not for pond or manifold"),
	FILLED("roughness", roughness_m, 0, 0.01, 0, 1.5e-6, "m",
	       "sand roughness; plastic if not given"),
	FILLED("minor_k", minor_k, 0, 1e4, 0, 0, "-",
	       "loss coefficient beside the fittings"),
	FILLED("valve_k", valve_k, 0, 1e6, 0, 0, "-", "of a valve partly shut"),
	NUMBER("orifice", orifice_diameter_m, 1e-4, 1, 0, "m",
	       "diameter of the holes or nozzles at its end"),
	FILLED("orifices", orifices, 1, 1000, 0, 1, "-", "how many"),
	FILLED("siphon", siphon_m, 0, 5, 0, 0, "m",
	       "its mouth under the water that it feeds"),
};
ROWS(tarn_pipe_run_fields, "pipes", run_rows);
#undef AT

struct tarn_pipe_run tarn_pipe_run_default(void)
{
	struct tarn_pipe_run r = { 0 };

	tarn_fields_default(&tarn_pipe_run_fields, &r);
	return r;
}

double tarn_pipe_run_diameter_m(const struct tarn_pipe_run *run)
{
	if (!isnan(run->diameter_m) || run->size == 0)
		return run->diameter_m;
	return tarn_pipe_inside_m(schedules[run->schedule], sizes[run->size]);
}

/* ---- falls -------------------------------------------------------------- */

static const char *const kinds[] = { "stone", "broad", "sharp", NULL };

#define AT(member) offsetof(struct tarn_fall, member)
static const struct tarn_field fall_rows[] = {
	{ "kind", TARN_FIELD_CHOICE, AT(kind), 0, 2, 0, "-", kinds,
	  "of the lip: rough stone, level and broad, sharp plate" },
	{ "bed", TARN_FIELD_SWITCH, AT(bed), 0, 1, 0, "-", NULL,
	  "this is the bed's own lip" },
	NUMBER("width", width_m, 0.01, 100, 1, "m",
	       "of the lip, across the flow"),
	NUMBER("drop", drop_m, 0, 50, 0, "m", "free fall below the lip"),
	NUMBER("coefficient", coefficient, 0.3, 4, 0, "m^0.5/s",
	       "C of C L H^1.5; stone 1.6, broad 1.705, sharp 1.838"),
	FILLED("pool", pool_m2, 0, 1e4, 0, 0, "m2",
	       "water behind the lip that rises with its head"),
};
ROWS(tarn_fall_fields, "falls", fall_rows);
#undef AT

struct tarn_fall tarn_fall_default(void)
{
	struct tarn_fall f = { 0 };

	tarn_fields_default(&tarn_fall_fields, &f);
	return f;
}

/* ---- bay, overflow, storm ------------------------------------------------ */

#define AT(member) offsetof(struct tarn_works, member)
static const struct tarn_field bay_rows[] = {
	NUMBER("width", bay.width_m, 0.01, 100, 0, "m", "of the opening"),
	NUMBER("sill", bay.sill_m, 0, 20, 0, "m",
	       "level of the opening's sill above the floor"),
	FILLED("open_share", bay.open_share, 0.01, 1, 0, 1, "-",
	       "free between bars or stones"),
	NUMBER("velocity_limit", bay.velocity_limit_ms, 1e-3, 10, 0, "m/s",
	       "of the approach; your choice"),
	NUMBER("suction", bay.suction_m, 1e-3, 2, 0, "m",
	       "diameter of the pump's suction"),
	NUMBER("pump_minimum", bay.pump_minimum_m, 0, 20, 0, "m",
	       "level under which the pump runs dry"),
};
ROWS(tarn_bay_fields, "bay", bay_rows);

static const struct tarn_field overflow_rows[] = {
	NUMBER("width", overflow.lip_width_m, 1e-3, 1e3, 0, "m",
	       "of the lip"),
	FILLED("coefficient", overflow.lip_coefficient, 0.3, 4, 1, 1.705,
	       "m^0.5/s", "C of the lip"),
	NUMBER("standpipe", overflow.standpipe_diameter_m, 1e-3, 10, 0, "m",
	       "inside diameter; its rim is the lip"),
	FILLED("fill", overflow.fill, 0.01, 1, 1, 7.0 / 24, "-",
	       "share of the stack that is water, by your code"),
	NUMBER("drain_length", overflow.drain_length_m, 0, 1000, 0, "m",
	       "of the standpipe's drain"),
	NUMBER("drain_fall", overflow.drain_fall_m, 0, 100, 0, "m",
	       "of the drain, rim to outlet"),
	NUMBER("side_pipe", overflow.side_diameter_m, 1e-3, 10, 0, "m",
	       "inside diameter; its invert is the lip"),
	FILLED("clogging", overflow.clogging, 0, 0.95, 1, 0, "-",
	       "share of the openings that debris takes"),
};
ROWS(tarn_pond_overflow_fields, "overflow", overflow_rows);

static const struct tarn_field storm_rows[] = {
	NUMBER("intensity", storm.intensity_mm_h, 0.1, 1000, 0, "mm/h",
	       "design rain, from a local table"),
	FILLED("duration", storm.duration_s, 60, 172800, 1, 3600, "s",
	       "how long it rains so"),
	NUMBER("years", storm.years, 1, 10000, 0, "years",
	       "its return period, for the sheet"),
	{ "stopped", TARN_FIELD_SWITCH, AT(storm.stopped), 0, 1, 0, "-", NULL,
	  "the mains fail just before it", 1 },
};
ROWS(tarn_storm_fields, "storm", storm_rows);
#undef AT

#define AT(member) offsetof(struct tarn_catchment, member)
static const struct tarn_field catchment_rows[] = {
	NUMBER("area", area_m2, 0, 1e6, 1, "m2",
	       "roof, paving, slope that drains into the pond in a storm"),
	NUMBER("coefficient", coefficient, 0, 1, 1, "-",
	       "runoff / rain: roof 0.75-0.95, lawn 0.05-0.35"),
};
ROWS(tarn_catchment_fields, "catchments", catchment_rows);
#undef AT

struct tarn_works tarn_works_default(void)
{
	struct tarn_works w = { 0 };

	for (int i = 0; i < TARN_RUNS_MAX; i++)
		w.run[i] = tarn_pipe_run_default();
	for (int i = 0; i < TARN_FALLS_MAX; i++)
		w.fall[i] = tarn_fall_default();
	for (int i = 0; i < TARN_CATCHMENTS_MAX; i++)
		tarn_fields_default(&tarn_catchment_fields, &w.catchment[i]);
	tarn_fields_default(&tarn_bay_fields, &w);
	w.overflow = tarn_overflow_default();
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
	double low = isnan(p->intake_m) ? p->lip_m : p->intake_m;

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
