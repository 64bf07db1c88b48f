/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/basin.h"

#define T struct tarn_pond
static const struct tarn_field pond_rows[] = {
	{ TARN_NUMBER(T, overflow_level_m, "overflow_level", "m", 0.01, 20,
		      TARN_NAN, "level above the floor at which water leaves"),
	  .required = 1, .was = "lip" },
	TARN_IN_NUMBER(T, trigger_m, "trigger", "m", 0, 20, TARN_NAN,
		       "top-up starts below this level; without it there is "
		       "none"),
	TARN_IN_NUMBER(T, target_m, "target", "m", 0, 20, TARN_NAN,
		       "level to which top-up fills; the trigger if not given"),
	TARN_IN_NUMBER(T, intake_m, "intake", "m", 0, 20, TARN_NAN,
		       "lowest level at which the pump's intake is well "
		       "covered"),
	TARN_IN_NUMBER(T, edges_m2, "edges", "m2", 0, 1e5, 0,
		       "wet edges and planted margins whose rain drains in"),
	TARN_IN_NUMBER(T, splash_m3s, "splash", "m3/s", 0, 0.01, 0,
		       "water thrown out of the system while the pump runs"),
	TARN_IN_NUMBER(T, open_water_factor, "open_water_factor", "-", 0.1, 3,
		       TARN_NAN,
		       "multiplies open-water evaporation, from calibration; "
		       "goes in place of the method's centre"),
};
TARN_FIELDS(tarn_pond_fields, "", pond_rows);

/* Plant factor: FAO-56 Table 12, reed swamp and cattails at mid season; a bed
 * of a few m2 in dry surroundings takes more (ch. 10). */
static const struct tarn_field bed_rows[] = {
	TARN_IN_NUMBER(T, bed.area_m2, "area", "m2", 0, 1e5, 0,
		       "planted plan area"),
	TARN_IN_MONTHS(T, bed.plant_factor, "plant_factor", "-", 0, 3, 1.2,
		       "evapotranspiration / FAO-56 grass reference, by month"),
	TARN_IN_NUMBER(T, bed.volume_m3, "volume", "m3", 0, 1e5, TARN_NAN,
		       "water in the bed up to its own lip"),
	TARN_IN_NUMBER(T, bed.depth_m, "depth", "m", 0.02, 5, TARN_NAN,
		       "depth of the gravel"),
	TARN_IN_NUMBER(T, bed.porosity, "porosity", "-", 0.1, 0.9, TARN_NAN,
		       "share of the gravel that is water"),
	{ TARN_NUMBER(T, bed.lip_head_m, "lip_head", "m", 0, 1, TARN_NAN,
		      "water over the bed's lip while the pump runs"),
	  .was = "head" },
};
TARN_FIELDS(tarn_pond_bed_fields, "bed", bed_rows);

/* Disturbed: 0.2 is a judgement, a fall's face and its foot beside a stream that
 * runs smoothly. */
static const struct tarn_field stream_rows[] = {
	TARN_IN_NUMBER(T, stream.area_m2, "area", "m2", 0, 1e5, TARN_NAN,
		       "wetted area of stream and falls; or length and width"),
	TARN_IN_NUMBER(T, stream.length_m, "length", "m", 0, 1000, TARN_NAN,
		       "length"),
	TARN_IN_NUMBER(T, stream.width_m, "width", "m", 0, 100, TARN_NAN,
		       "wetted width"),
	TARN_IN_NUMBER(T, stream.depth_m, "depth", "m", 0, 2, TARN_NAN,
		       "mean depth of the running water"),
	TARN_IN_NUMBER(T, stream.volume_m3, "volume", "m3", 0, 1e4, TARN_NAN,
		       "water held while running; or area x depth"),
	TARN_IN_NUMBER(T, stream.disturbed, "disturbed", "-", 0, 1, 0.2,
		       "share of its surface that foams or breaks"),
	TARN_IN_NUMBER(T, stream.factor, "factor", "-", 0, 5, TARN_NAN,
		       "evaporation / that of still open water, while running; "
		       "by disturbed if not given"),
	TARN_IN_NUMBER(T, stream.slope, "slope", "-", -10, 10, TARN_NAN,
		       "fall / length, towards the pond; gives the depth"),
	TARN_IN_NUMBER(T, stream.manning, "manning", "s/m^(1/3)", 0.005, 0.5,
		       TARN_NAN,
		       "roughness n: gravel 0.029, cobbles 0.035, boulders "
		       "0.05"),
};
TARN_FIELDS(tarn_pond_stream_fields, "stream", stream_rows);

static const struct tarn_field apron_rows[] = {
	TARN_IN_NUMBER(T, apron.area_m2, "area", "m2", 0, 1e6, 0,
		       "paving or slope that drains into the pond"),
	TARN_IN_NUMBER(T, apron.coefficient, "coefficient", "-", 0, 1, TARN_NAN,
		       "runoff / rain; or a curve number"),
	TARN_IN_NUMBER(T, apron.curve_number, "curve_number", "-", 1, 100,
		       TARN_NAN, "TR-55 curve number, day by day"),
};
TARN_FIELDS(tarn_pond_apron_fields, "apron", apron_rows);

static const struct tarn_field pump_rows[] = {
	TARN_IN_MONTHS(T, pump.hours, "hours", "h", 0, 24, 24,
		       "running time a day, by month"),
	TARN_IN_NUMBER(T, pump.drainback_m3, "drainback", "m3", 0, 100,
		       TARN_NAN,
		       "water in pipes that comes back when the pump stops"),
	TARN_IN_NUMBER(T, pump.flow_m3s, "flow", "m3/s", 0, 10, TARN_NAN,
		       "delivered flow, at its head (a label states it at no "
		       "head)"),
	TARN_IN_NUMBER(T, pump.max_head_m, "max_head", "m", 0.01, 200, TARN_NAN,
		       "of the label: highest lift, at which nothing flows"),
	TARN_IN_NUMBER(T, pump.label_flow_m3s, "label_flow", "m3/s", 1e-6, 10,
		       TARN_NAN, "of the label: flow at no lift"),
	TARN_IN_VALUE(T, pump.count, "count", "-", 1, 20, 1,
		      "equal pumps side by side"),
	TARN_IN_SWITCH(T, pump.check_valve, "check_valve", 0,
		       "pipes stay full when the pump stops"),
	TARN_IN_NUMBER(T, pump.watts, "watts", "W", 0, 1e5, TARN_NAN,
		       "drawn at the plug, all pumps together"),
	TARN_IN_NUMBER(T, pump.amps, "amps", "A", 0, 1000, TARN_NAN,
		       "instead of watts, with volts; an upper bound"),
	TARN_IN_NUMBER(T, pump.volts, "volts", "V", 1, 1000, TARN_NAN,
		       "with amps"),
};
TARN_FIELDS(tarn_pond_pump_fields, "pump", pump_rows);

static const struct tarn_field seepage_rows[] = {
	TARN_IN_NUMBER(T, seepage.rate_mm_d, "rate", "mm/d", 0, 1000, 0,
		       "depth a day over the water surface"),
	TARN_IN_NUMBER(T, seepage.volume_m3s, "volume", "m3/s", 0, 1, 0,
		       "fixed volume over time"),
	TARN_IN_NUMBER(T, seepage.per_head_m3s_m, "per_head", "m3/s/m", 0, 1, 0,
		       "volume over time for each metre of level"),
};
TARN_FIELDS(tarn_pond_seepage_fields, "seepage", seepage_rows);

static const struct tarn_field supply_rows[] = {
	TARN_IN_NUMBER(T, supply.rate_m3s, "rate", "m3/s", 1e-9, 10, TARN_NAN,
		       "most that the supply gives; unlimited if not given"),
};
TARN_FIELDS(tarn_pond_supply_fields, "supply", supply_rows);

/* Coefficient: roofs 0.75-0.95, from memory. */
static const struct tarn_field tank_rows[] = {
	TARN_IN_NUMBER(T, tank.capacity_m3, "capacity", "m3", 0, 1e4, 0,
		       "of the rain tank"),
	TARN_IN_NUMBER(T, tank.roof_m2, "roof", "m2", 0, 1e5, 0,
		       "plan area of the roof that feeds it"),
	TARN_IN_NUMBER(T, tank.coefficient, "coefficient", "-", 0, 1, 0.85,
		       "roof water / rain"),
	TARN_IN_NUMBER(T, tank.first_flush_mm, "first_flush", "mm", 0, 50, 0,
		       "of each wet day, let go"),
	TARN_IN_NUMBER(T, tank.start_m3, "start", "m3", 0, 1e4, 0,
		       "in the tank on the first day"),
};
TARN_FIELDS(tarn_pond_tank_fields, "tank", tank_rows);

#undef T

const struct tarn_fields *const tarn_pond_sections[] = {
	&tarn_pond_fields, &tarn_pond_bed_fields, &tarn_pond_stream_fields,
	&tarn_pond_apron_fields, &tarn_pond_pump_fields,
	&tarn_pond_seepage_fields, &tarn_pond_supply_fields,
	&tarn_pond_tank_fields, NULL
};

struct tarn_pond tarn_pond_default(void)
{
	struct tarn_pond p = { 0 };

	for (size_t i = 0; tarn_pond_sections[i]; i++)
		tarn_fields_default(tarn_pond_sections[i], &p);
	return p;
}

static double or_else(double x, double otherwise)
{
	return isnan(x) ? otherwise : x;
}

double tarn_stream_factor(double disturbed)
{
	if (!(disturbed >= 0 && disturbed <= 1))
		return TARN_NAN;
	return pow(1 + (TARN_DISTURBED - 1) * disturbed, TARN_TRANSFER_POWER);
}

static double stream_area(const struct tarn_stream *s)
{
	return or_else(s->area_m2, or_else(s->length_m * s->width_m, 0));
}

static double bed_water(const struct tarn_bed_store *b)
{
	return or_else(b->volume_m3,
		       or_else(b->area_m2 * b->depth_m * b->porosity, 0));
}

static double in_transit(const struct tarn_pond *p)
{
	double stream_m3 = or_else(p->stream.volume_m3,
				   or_else(stream_area(&p->stream) *
					   p->stream.depth_m, 0));

	return stream_m3 + p->bed.area_m2 * or_else(p->bed.lip_head_m, 0) +
	       or_else(p->pump.drainback_m3, 0);
}

static void work_out(const struct tarn_pond *p, struct tarn_pond_facts *f)
{
	f->full_area_m2 = tarn_basin_area(p->basin, p->overflow_level_m);
	f->full_volume_m3 = tarn_basin_volume(p->basin, p->overflow_level_m);
	f->wetted_m2 = f->full_area_m2 + p->bed.area_m2 +
		       stream_area(&p->stream);
	f->stream_factor = or_else(p->stream.factor,
				   tarn_stream_factor(p->stream.disturbed));
	f->collecting_m2 = f->wetted_m2 + p->edges_m2;
	f->bed_m3 = bed_water(&p->bed);
	f->transit_m3 = in_transit(p);
	f->fall_ratio = f->wetted_m2 / f->full_area_m2;
	f->large = f->full_volume_m3 > TARN_LARGE_M3 ||
		   f->full_volume_m3 / f->full_area_m2 > TARN_DEEP_M;
	f->fill_m3 = isnan(p->trigger_m) || isnan(p->target_m) ? 0 :
		     tarn_basin_volume(p->basin, p->target_m) -
		     tarn_basin_volume(p->basin, p->trigger_m);
}

static enum tarn_status check_levels(const struct tarn_pond *p,
				     struct tarn_error *err)
{
	double floor_m = tarn_basin_floor(p->basin);
	double top_m = tarn_basin_top(p->basin);

	if (floor_m < 0 || floor_m > 0)
		return tarn_fail(err, TARN_EARG, "basin", "must begin at level "
				 "0, its floor, above which overflow_level, "
				 "trigger and intake are heights; it begins "
				 "at %g m",
				 floor_m);
	if (p->overflow_level_m > top_m)
		return tarn_fail(err, TARN_EARG, "overflow_level", "must lie "
				 "between the basin's floor and its top at "
				 "%g m, got %g m",
				 top_m, p->overflow_level_m);
	if (!isnan(p->target_m) && isnan(p->trigger_m))
		return tarn_fail(err, TARN_EARG, "trigger", "is missing: a "
				 "target alone does not say when top-up starts");
	if (!isnan(p->target_m) && p->target_m < p->trigger_m)
		return tarn_fail(err, TARN_EARG, "target", "must not lie under "
				 "the trigger at %g m, got %g m", p->trigger_m,
				 p->target_m);
	if (!isnan(p->trigger_m) && p->trigger_m > p->overflow_level_m)
		return tarn_fail(err, TARN_EARG, "trigger", "must not lie above "
				 "the overflow level at %g m: the supply would "
				 "run over it, got %g m", p->overflow_level_m,
				 p->trigger_m);
	if (!isnan(p->target_m) && p->target_m > p->overflow_level_m)
		return tarn_fail(err, TARN_EARG, "target", "must not lie above "
				 "the overflow level at %g m: the supply would "
				 "run over it, got %g m", p->overflow_level_m,
				 p->target_m);
	if (!isnan(p->intake_m) && p->intake_m >= p->overflow_level_m)
		return tarn_fail(err, TARN_EARG, "intake", "must lie between "
				 "the floor and the overflow level at %g m, "
				 "got %g m",
				 p->overflow_level_m, p->intake_m);
	if (!isnan(p->intake_m) && !isnan(p->trigger_m) &&
	    p->intake_m >= p->trigger_m)
		return tarn_fail(err, TARN_EARG, "intake", "must lie under the "
				 "trigger at %g m, or top-up starts too late, "
				 "got %g m", p->trigger_m, p->intake_m);
	return TARN_OK;
}

static enum tarn_status check_parts(const struct tarn_pond *p,
				    struct tarn_error *err)
{
	struct tarn_pond_facts f;

	if (p->apron.area_m2 > 0 &&
	    isnan(p->apron.coefficient) == isnan(p->apron.curve_number))
		return tarn_fail(err, TARN_EARG, "apron", "needs either a "
				 "coefficient or a curve_number");
	if (p->tank.start_m3 > p->tank.capacity_m3)
		return tarn_fail(err, TARN_EARG, "tank.start", "is %g m3, more "
				 "than the tank holds (%g m3)",
				 p->tank.start_m3, p->tank.capacity_m3);
	for (int i = 0; i < p->withdrawals; i++)
		if (!(p->withdrawal[i].volume_m3 >= 0 &&
		      p->withdrawal[i].volume_m3 <= 1e6))
			return tarn_fail(err, TARN_EARG, "withdrawals", "number "
					 "%d: volume must be 0 to 1e6 m3, got "
					 "%g", i + 1, p->withdrawal[i].volume_m3);
	if (isnan(p->stream.area_m2) && (!isnan(p->stream.length_m) !=
					 !isnan(p->stream.width_m)))
		return tarn_fail(err, TARN_EARG, "stream", "needs length and "
				 "width, or area: without, it is no water");
	if (p->pump.count > floor(p->pump.count))
		return tarn_fail(err, TARN_EARG, "pump.count", "must be a whole "
				 "number, got %g", p->pump.count);
	work_out(p, &f);
	if (f.transit_m3 >= f.full_volume_m3)
		return tarn_fail(err, TARN_EARG, "pump", "in transit over bed, "
				 "stream and pipes are %g m3, but the pond holds "
				 "only %g m3 at its lip: check the depths (an "
				 "inch is not a foot)", f.transit_m3,
				 f.full_volume_m3);
	return TARN_OK;
}

enum tarn_status tarn_pond_check(const struct tarn_pond *p,
				 struct tarn_error *err)
{
	enum tarn_status status = TARN_OK;

	for (size_t i = 0; tarn_pond_sections[i] && status == TARN_OK; i++)
		status = tarn_fields_check(tarn_pond_sections[i], p, err);
	if (status == TARN_OK)
		status = check_levels(p, err);
	if (status == TARN_OK)
		status = check_parts(p, err);
	return status;
}

enum tarn_status tarn_pond_facts(const struct tarn_pond *p,
				 struct tarn_pond_facts *out,
				 struct tarn_error *err)
{
	enum tarn_status status = tarn_pond_check(p, err);

	if (status == TARN_OK)
		work_out(p, out);
	return status;
}

enum tarn_status tarn_pond_swing(const struct tarn_pond *p, double level_m,
				 struct tarn_pump_swing *out,
				 struct tarn_error *err)
{
	struct tarn_pond_facts f;
	enum tarn_status status = tarn_pond_facts(p, &f, err);
	double volume_m3;

	if (status != TARN_OK)
		return status;
	volume_m3 = tarn_basin_volume(p->basin, level_m);
	out->spill_m3 = fmax(0, volume_m3 + f.transit_m3 - f.full_volume_m3);
	out->stopped_m = tarn_basin_level(p->basin, volume_m3 + f.transit_m3 -
					  out->spill_m3);
	out->started_m = tarn_basin_level(p->basin, volume_m3 - f.transit_m3);
	return TARN_OK;
}
