/* SPDX-License-Identifier: MIT */
#include "tarn/pond.h"

/* The rows of results. */

#define T struct tarn_pond_facts
static const struct tarn_field facts_rows[] = {
	TARN_OUT_NUMBER(T, full_area_m2, "full_area", "m2",
			"water surface at the lip"),
	TARN_OUT_NUMBER(T, full_volume_m3, "full_volume", "m3",
			"of the basin up to the lip"),
	TARN_OUT_NUMBER(T, collecting_m2, "collecting", "m2",
			"rain that falls here reaches the pond"),
	TARN_OUT_NUMBER(T, wetted_m2, "wetted", "m2",
			"open water at the lip, bed, stream"),
	TARN_OUT_NUMBER(T, stream_factor, "stream_factor", "-",
			"evaporation of the stream / that of still water"),
	TARN_OUT_NUMBER(T, bed_m3, "bed_water", "m3",
			"water in the bed up to its lip"),
	TARN_OUT_NUMBER(T, transit_m3, "transit", "m3",
			"in transit while the pump runs"),
	TARN_OUT_NUMBER(T, fill_m3, "fill", "m3", "from trigger to target"),
	TARN_OUT_SWITCH(T, large, "large",
			"large or deep for a garden: are all units given?"),
	TARN_OUT_NUMBER(T, fall_ratio, "fall_ratio", "-",
			"fall of the level / depth that the water loses"),
};
TARN_FIELDS(tarn_pond_facts_fields, "facts", facts_rows);
#undef T

#define T struct tarn_pump_swing
static const struct tarn_field swing_rows[] = {
	TARN_OUT_NUMBER(T, stopped_m, "stopped", "m", "level after a stop"),
	TARN_OUT_NUMBER(T, spill_m3, "spill", "m3", "over the lip at a stop"),
	TARN_OUT_NUMBER(T, started_m, "started", "m", "level after a start"),
};
TARN_FIELDS(tarn_pump_swing_fields, "swing", swing_rows);
#undef T

/* ---- the ledger ------------------------------------------------------------ */

#define T struct tarn_flows
static const struct tarn_field flow_rows[] = {
	TARN_OUT_NUMBER(T, rain_m3, "rain", "m3", "on the collecting area"),
	TARN_OUT_NUMBER(T, runoff_m3, "runoff", "m3", "from the apron"),
	TARN_OUT_NUMBER(T, tank_m3, "tank", "m3", "top-up from the rain tank"),
	TARN_OUT_NUMBER(T, topup_m3, "topup", "m3", "top-up from the supply"),
	TARN_OUT_NUMBER(T, evaporation_m3, "evaporation", "m3",
			"of the pond's open water"),
	TARN_OUT_NUMBER(T, bed_m3, "bed", "m3", "plants and wet gravel"),
	TARN_OUT_NUMBER(T, stream_m3, "stream", "m3", "stream and falls"),
	TARN_OUT_NUMBER(T, splash_m3, "splash", "m3", "thrown out"),
	TARN_OUT_NUMBER(T, seepage_m3, "seepage", "m3", "into the ground"),
	TARN_OUT_NUMBER(T, withdrawal_m3, "withdrawal", "m3", "taken"),
	TARN_OUT_NUMBER(T, overflow_m3, "overflow", "m3", "over the lip"),
	TARN_OUT_NUMBER(T, shortfall_m3, "shortfall", "m3",
			"losses that found no water"),
	TARN_OUT_NUMBER(T, unmet_m3, "unmet", "m3",
			"top-up wanted and not given"),
	TARN_OUT_NUMBER(T, roof_m3, "roof", "m3", "roof water into the tank"),
	TARN_OUT_NUMBER(T, tank_spill_m3, "tank_spill", "m3",
			"roof water that the tank could not hold"),
};
TARN_FIELDS(tarn_flows_fields, "flows", flow_rows);
#undef T

#define T struct tarn_ledger_day
static const struct tarn_field day_rows[] = {
	TARN_OUT_DAY(T, day, "date", "of the day"),
	TARN_OUT_NUMBER(T, rain_mm, "rain_mm", "mm", "of the weather"),
	TARN_OUT_NUMBER(T, open_water_mm, "open_water_mm", "mm",
			"rate of still open water"),
	TARN_OUT_NUMBER(T, grass_mm, "grass_mm", "mm", "grass reference"),
	TARN_INCLUDED(T, flows, tarn_flows_fields),
	TARN_OUT_NUMBER(T, level_m, "level", "m", "at the end of the day"),
	TARN_OUT_NUMBER(T, area_m2, "area", "m2", "while losing"),
	TARN_OUT_NUMBER(T, pond_m3, "volume", "m3", "at the end"),
	TARN_OUT_NUMBER(T, held_m3, "held", "m3",
			"in the bed and in transit, at the end"),
	TARN_OUT_NUMBER(T, tank_m3, "in_tank", "m3", "at the end"),
	TARN_OUT_FLAG(T, flags, "running", TARN_DAY_RUNNING, "the pump ran"),
	TARN_OUT_FLAG(T, flags, "starved", TARN_DAY_STARVED,
		      "too little water to start the pump"),
	TARN_OUT_FLAG(T, flags, "under_intake", TARN_DAY_UNDER_INTAKE,
		      "it ended under the intake"),
	TARN_OUT_FLAG(T, flags, "topped_up", TARN_DAY_TOPPED_UP,
		      "water was given"),
	TARN_OUT_FLAG(T, flags, "refused", TARN_DAY_REFUSED,
		      "top-up wanted, not allowed that day"),
	TARN_OUT_FLAG(T, flags, "spilled", TARN_DAY_SPILLED,
		      "water left over the lip"),
	TARN_OUT_FLAG(T, flags, "dry", TARN_DAY_DRY, "a loss found no water"),
};
TARN_FIELDS(tarn_ledger_day_fields, "day", day_rows);
#undef T

#define T struct tarn_day_view
static const struct tarn_field view_rows[] = {
	TARN_OUT_DAY(T, day, "date", "of the day"),
	TARN_OUT_NUMBER(T, rain_mm, "rain_mm", "mm", "of the weather"),
	TARN_OUT_NUMBER(T, open_water_mm, "open_water_mm", "mm",
			"rate of still open water"),
	TARN_OUT_NUMBER(T, grass_mm, "grass_mm", "mm", "grass reference"),
	TARN_OUT_NUMBER(T, level_m, "level", "m", "at its start"),
	TARN_OUT_NUMBER(T, pond_m3, "volume", "m3", "at its start"),
	TARN_OUT_NUMBER(T, tank_m3, "in_tank", "m3", "at its start"),
	TARN_OUT_SWITCH(T, running, "running",
			"the pump ran at the end of the day before"),
	TARN_OUT_SWITCH(T, supply_open, "supply_open",
			"the schedule allows top-up today"),
};
TARN_FIELDS(tarn_day_view_fields, "day", view_rows);
#undef T

#define T struct tarn_period
static const struct tarn_field period_rows[] = {
	TARN_OUT_DAY(T, first_day, "first", "that the ledger covers"),
	TARN_OUT_DAY(T, last_day, "last", "that the ledger covers"),
	TARN_OUT_WHOLE(T, year, "year", "-", "of a day, month or year; else 0"),
	TARN_OUT_WHOLE(T, month, "month", "-", "of a day or month; else 0"),
	TARN_OUT_WHOLE(T, week, "week", "-",
		       "ISO 8601, of a day or week; else 0"),
	TARN_OUT_WHOLE(T, week_year, "week_year", "-", "year of that week"),
	TARN_OUT_SWITCH(T, complete, "complete",
			"the whole week, month or year"),
	TARN_INCLUDED(T, flows, tarn_flows_fields),
	TARN_OUT_NUMBER(T, rain_mm, "rain_mm", "mm", "of the weather"),
	TARN_OUT_NUMBER(T, open_water_mm, "open_water_mm", "mm",
			"of still open water"),
	TARN_OUT_NUMBER(T, grass_mm, "grass_mm", "mm", "grass reference"),
	TARN_OUT_NUMBER(T, drop_mm, "drop_mm", "mm",
			"fall of the level that the losses alone make"),
	TARN_OUT_NUMBER(T, start_level_m, "start_level", "m", "at its start"),
	TARN_OUT_NUMBER(T, end_level_m, "end_level", "m", "at its end"),
	TARN_OUT_NUMBER(T, lowest_level_m, "lowest_level", "m",
			"at the end of a day"),
	TARN_OUT_DAY(T, lowest_day, "lowest_date", "first that ended lowest"),
	TARN_OUT_NUMBER(T, start_store_m3, "start_store", "m3",
			"in pond, bed and transit at its start"),
	TARN_OUT_NUMBER(T, end_store_m3, "end_store", "m3", "at its end"),
	TARN_OUT_NUMBER(T, again_m3, "again", "m3",
			"more in store where the ledger begins again"),
	TARN_OUT_NUMBER(T, end_tank_m3, "in_tank", "m3", "at its end"),
	TARN_OUT_WHOLE(T, days, "days", "-", "in it"),
	TARN_OUT_WHOLE(T, running, "running", "-", "days the pump ran"),
	TARN_OUT_WHOLE(T, starved, "starved", "-",
		       "days with too little water to start it"),
	TARN_OUT_WHOLE(T, under_intake, "under_intake", "-",
		       "days that ended under the intake"),
	TARN_OUT_WHOLE(T, topped_up, "topped_up", "-", "days with top-up"),
	TARN_OUT_WHOLE(T, refused, "refused", "-",
		       "days that wanted top-up and were not allowed it"),
	TARN_OUT_WHOLE(T, spilled, "spilled", "-", "days that spilled"),
	TARN_OUT_WHOLE(T, dry, "dry", "-", "days a loss found no water"),
};
TARN_FIELDS(tarn_period_fields, "period", period_rows);
#undef T
