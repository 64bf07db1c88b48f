/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/pond/basin.h"

#define AT(member) offsetof(struct tarn_pond, member)
#define FILLED(name, member, lo, hi, required, other, unit, meaning)       \
	{ name, TARN_FIELD_NUMBER, AT(member), lo, hi, required, unit, NULL, \
	  meaning, other }
#define NUMBER(name, member, lo, hi, required, unit, meaning) \
	FILLED(name, member, lo, hi, required, TARN_NAN, unit, meaning)
#define MONTHS(name, member, lo, hi, other, unit, meaning)                   \
	{ name, TARN_FIELD_MONTHS, AT(member), lo, hi, 1, unit, NULL, meaning, \
	  other }
#define SECTION(variable, section, rows) \
	const struct tarn_fields variable = { section, rows, \
					      sizeof(rows) / sizeof(*(rows)) }

static const struct tarn_field pond_rows[] = {
	NUMBER("lip", lip_m, 0.01, 20, 1, "m",
	       "level above the floor at which water leaves"),
	NUMBER("trigger", trigger_m, 0, 20, 0, "m",
	       "top-up starts below this level; without it there is none"),
	NUMBER("target", target_m, 0, 20, 0, "m",
	       "level to which top-up fills; the trigger if not given"),
	NUMBER("intake", intake_m, 0, 20, 0, "m",
	       "lowest level at which the pump's intake is well covered"),
	FILLED("edges", edges_m2, 0, 1e5, 0, 0, "m2",
	       "wet edges and planted margins whose rain drains in"),
	FILLED("splash", splash_m3s, 0, 0.01, 0, 0, "m3/s",
	       "water thrown out of the system while the pump runs"),
	FILLED("open_water_factor", open_water_factor, 0.1, 3, 0, 1, "-",
	       "multiplies open-water evaporation, from calibration"),
};
SECTION(tarn_pond_fields, "", pond_rows);

static const struct tarn_field bed_rows[] = {
	FILLED("area", bed.area_m2, 0, 1e5, 0, 0, "m2", "planted plan area"),
	/* FAO-56 Table 12, reed swamp and cattails at mid season; a bed of a
	 * few m2 in dry surroundings takes more (ch. 10) */
	MONTHS("plant_factor", bed.plant_factor, 0, 3, 1.2, "-",
	       "evapotranspiration / FAO-56 grass reference, by month"),
	NUMBER("volume", bed.volume_m3, 0, 1e5, 0, "m3",
	       "water in the bed up to its own lip"),
	NUMBER("depth", bed.depth_m, 0.02, 5, 0, "m", "depth of the gravel"),
	NUMBER("porosity", bed.porosity, 0.1, 0.9, 0, "-",
	       "share of the gravel that is water"),
	NUMBER("head", bed.head_m, 0, 1, 0, "m",
	       "water over the bed's lip while the pump runs"),
};
SECTION(tarn_pond_bed_fields, "bed", bed_rows);

static const struct tarn_field stream_rows[] = {
	NUMBER("area", stream.area_m2, 0, 1e5, 0, "m2",
	       "wetted area of stream and falls; or length and width"),
	NUMBER("length", stream.length_m, 0, 1000, 0, "m", "length"),
	NUMBER("width", stream.width_m, 0, 100, 0, "m", "wetted width"),
	NUMBER("depth", stream.depth_m, 0, 2, 0, "m",
	       "mean depth of the running water"),
	NUMBER("volume", stream.volume_m3, 0, 1e4, 0, "m3",
	       "water held while running; or area x depth"),
	/* 1.4 to 1.7 was measured on pools in use: Smith, Lof and Jones
	 * (1998), ASHRAE 4146 */
	FILLED("factor", stream.factor, 0, 5, 0, 1.5, "-",
	       "evaporation / that of still open water, while running"),
	NUMBER("slope", stream.slope, -10, 10, 0, "-",
	       "fall / length, towards the pond; gives the depth"),
	NUMBER("manning", stream.manning, 0.005, 0.5, 0, "s/m^(1/3)",
	       "roughness n: gravel 0.029, cobbles 0.035, boulders 0.05"),
};
SECTION(tarn_pond_stream_fields, "stream", stream_rows);

static const struct tarn_field apron_rows[] = {
	FILLED("area", apron.area_m2, 0, 1e6, 0, 0, "m2",
	       "paving or slope that drains into the pond"),
	NUMBER("coefficient", apron.coefficient, 0, 1, 0, "-",
	       "runoff / rain; or a curve number"),
	NUMBER("curve_number", apron.curve_number, 1, 100, 0, "-",
	       "TR-55 curve number, day by day"),
};
SECTION(tarn_pond_apron_fields, "apron", apron_rows);

static const struct tarn_field pump_rows[] = {
	MONTHS("hours", pump.hours, 0, 24, 24, "h",
	       "running time a day, by month"),
	NUMBER("drainback", pump.drainback_m3, 0, 100, 0, "m3",
	       "water in pipes that comes back when the pump stops"),
	NUMBER("flow", pump.flow_m3s, 0, 10, 0, "m3/s",
	       "delivered flow, at its head (a label states it at no head)"),
	NUMBER("max_head", pump.max_head_m, 0.01, 200, 0, "m",
	       "of the label: highest lift, at which nothing flows"),
	NUMBER("label_flow", pump.label_flow_m3s, 1e-6, 10, 0, "m3/s",
	       "of the label: flow at no lift"),
	FILLED("count", pump.count, 1, 20, 1, 1, "-",
	       "equal pumps side by side"),
	{ "check_valve", TARN_FIELD_SWITCH, AT(pump.check_valve), 0, 1, 0, "-",
	  NULL, "pipes stay full when the pump stops" },
	NUMBER("watts", pump.watts, 0, 1e5, 0, "W",
	       "drawn at the plug, all pumps together"),
	NUMBER("amps", pump.amps, 0, 1000, 0, "A",
	       "instead of watts, with volts; an upper bound"),
	NUMBER("volts", pump.volts, 1, 1000, 0, "V", "with amps"),
};
SECTION(tarn_pond_pump_fields, "pump", pump_rows);

static const struct tarn_field seepage_rows[] = {
	FILLED("rate", seepage.rate_mm_d, 0, 1000, 0, 0, "mm/d",
	       "depth a day over the water surface"),
	FILLED("volume", seepage.volume_m3s, 0, 1, 0, 0, "m3/s",
	       "fixed volume over time"),
	FILLED("per_head", seepage.per_head_m3s_m, 0, 1, 0, 0, "m3/s/m",
	       "volume over time for each metre of level"),
};
SECTION(tarn_pond_seepage_fields, "seepage", seepage_rows);

static const struct tarn_field supply_rows[] = {
	NUMBER("rate", supply.rate_m3s, 1e-9, 10, 0, "m3/s",
	       "most that the supply gives; unlimited if not given"),
};
SECTION(tarn_pond_supply_fields, "supply", supply_rows);

static const struct tarn_field tank_rows[] = {
	FILLED("capacity", tank.capacity_m3, 0, 1e4, 0, 0, "m3",
	       "of the rain tank"),
	FILLED("roof", tank.roof_m2, 0, 1e5, 0, 0, "m2",
	       "plan area of the roof that feeds it"),
	/* roofs 0.75-0.95, from memory */
	FILLED("coefficient", tank.coefficient, 0, 1, 0, 0.85, "-",
	       "roof water / rain"),
	FILLED("first_flush", tank.first_flush_mm, 0, 50, 0, 0, "mm",
	       "of each wet day, let go"),
	FILLED("start", tank.start_m3, 0, 1e4, 0, 0, "m3",
	       "in the tank on the first day"),
};
SECTION(tarn_pond_tank_fields, "tank", tank_rows);

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

	return stream_m3 + p->bed.area_m2 * or_else(p->bed.head_m, 0) +
	       or_else(p->pump.drainback_m3, 0);
}

static void work_out(const struct tarn_pond *p, struct tarn_pond_facts *f)
{
	f->lip_area_m2 = tarn_basin_area(p->basin, p->lip_m);
	f->lip_volume_m3 = tarn_basin_volume(p->basin, p->lip_m);
	f->wetted_m2 = f->lip_area_m2 + p->bed.area_m2 +
		       stream_area(&p->stream);
	f->collecting_m2 = f->wetted_m2 + p->edges_m2;
	f->bed_m3 = bed_water(&p->bed);
	f->transit_m3 = in_transit(p);
	f->fall_ratio = f->wetted_m2 / f->lip_area_m2;
}

static enum tarn_status check_levels(const struct tarn_pond *p,
				     struct tarn_error *err)
{
	double floor_m = tarn_basin_floor(p->basin);
	double top_m = tarn_basin_top(p->basin);

	if (floor_m < 0 || floor_m > 0)
		return tarn_fail(err, TARN_EARG, "basin", "must begin at level "
				 "0, its floor, above which lip, trigger and "
				 "intake are heights; it begins at %g m",
				 floor_m);
	if (p->lip_m > top_m)
		return tarn_fail(err, TARN_EARG, "lip", "must lie between the "
				 "basin's floor and its top at %g m, got %g m",
				 top_m, p->lip_m);
	if (!isnan(p->target_m) && isnan(p->trigger_m))
		return tarn_fail(err, TARN_EARG, "trigger", "is missing: a "
				 "target alone does not say when top-up starts");
	if (!isnan(p->target_m) && p->target_m < p->trigger_m)
		return tarn_fail(err, TARN_EARG, "target", "must not lie under "
				 "the trigger at %g m, got %g m", p->trigger_m,
				 p->target_m);
	if (!isnan(p->trigger_m) && p->trigger_m > p->lip_m)
		return tarn_fail(err, TARN_EARG, "trigger", "must not lie above "
				 "the lip at %g m: the supply would run over it, "
				 "got %g m", p->lip_m, p->trigger_m);
	if (!isnan(p->target_m) && p->target_m > p->lip_m)
		return tarn_fail(err, TARN_EARG, "target", "must not lie above "
				 "the lip at %g m: the supply would run over it, "
				 "got %g m", p->lip_m, p->target_m);
	if (!isnan(p->intake_m) && p->intake_m >= p->lip_m)
		return tarn_fail(err, TARN_EARG, "intake", "must lie between "
				 "the floor and the lip at %g m, got %g m",
				 p->lip_m, p->intake_m);
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
	if (f.transit_m3 >= f.lip_volume_m3)
		return tarn_fail(err, TARN_EARG, "pump", "in transit over bed, "
				 "stream and pipes are %g m3, but the pond holds "
				 "only %g m3 at its lip: check the depths (an "
				 "inch is not a foot)", f.transit_m3,
				 f.lip_volume_m3);
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
	out->spill_m3 = fmax(0, volume_m3 + f.transit_m3 - f.lip_volume_m3);
	out->stopped_m = tarn_basin_level(p->basin, volume_m3 + f.transit_m3 -
					  out->spill_m3);
	out->started_m = tarn_basin_level(p->basin, volume_m3 - f.transit_m3);
	return TARN_OK;
}
