/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "members.h"
#include "web.h"

#define FLOW(type_of, name) \
	SCALAR(type_of, #name, flows.name##_m3, 'd')
#define FLOWS(type_of)                                                  \
	FLOW(type_of, rain), FLOW(type_of, runoff), FLOW(type_of, tank), \
	FLOW(type_of, topup), FLOW(type_of, evaporation),               \
	FLOW(type_of, bed), FLOW(type_of, stream), FLOW(type_of, splash), \
	FLOW(type_of, seepage), FLOW(type_of, withdrawal),              \
	FLOW(type_of, overflow), FLOW(type_of, shortfall),              \
	FLOW(type_of, unmet), FLOW(type_of, roof),                      \
	FLOW(type_of, tank_spill)

#define DAY(name, member, type) SCALAR(tarn_ledger_day, name, member, type)
static const struct member day[] = {
	DAY("day", day, 'i'),
	DAY("rain_mm", rain_mm, 'd'),
	DAY("open_water_mm", open_water_mm, 'd'),
	DAY("grass_mm", grass_mm, 'd'),
	FLOWS(tarn_ledger_day),
	DAY("level", level_m, 'd'),
	DAY("area", area_m2, 'd'),
	DAY("volume", pond_m3, 'd'),
	DAY("held", held_m3, 'd'),
	DAY("in_tank", tank_m3, 'd'),
	DAY("flags", flags, 'u'),
	{ 0 }
};

#define PERIOD(name, member, type) SCALAR(tarn_period, name, member, type)
static const struct member period[] = {
	PERIOD("first", first_day, 'i'),
	PERIOD("last", last_day, 'i'),
	PERIOD("complete", complete, 'i'),
	FLOWS(tarn_period),
	PERIOD("rain_mm", rain_mm, 'd'),
	PERIOD("open_water_mm", open_water_mm, 'd'),
	PERIOD("grass_mm", grass_mm, 'd'),
	PERIOD("drop_mm", drop_mm, 'd'),
	PERIOD("start_level", start_level_m, 'd'),
	PERIOD("end_level", end_level_m, 'd'),
	PERIOD("lowest_level", lowest_level_m, 'd'),
	PERIOD("days", days, 'i'),
	PERIOD("running", running, 'i'),
	PERIOD("starved", starved, 'i'),
	PERIOD("under_intake", under_intake, 'i'),
	PERIOD("topped_up", topped_up, 'i'),
	PERIOD("refused", refused, 'i'),
	PERIOD("spilled", spilled, 'i'),
	PERIOD("dry", dry, 'i'),
	{ 0 }
};

#define FACT(name, member) SCALAR(tarn_pond_facts, name, member, 'd')
static const struct member facts[] = {
	FACT("lip_area", lip_area_m2),
	FACT("lip_volume", lip_volume_m3),
	FACT("collecting", collecting_m2),
	FACT("wetted", wetted_m2),
	FACT("bed_water", bed_m3),
	FACT("transit", transit_m3),
	FACT("fall_ratio", fall_ratio),
	{ 0 }
};

#define POND(name, member) SCALAR(tarn_pond, name, member, 'd')
static const struct member pond[] = {
	POND("lip", lip_m), POND("trigger", trigger_m),
	POND("target", target_m), POND("intake", intake_m),
	POND("bed_area", bed.area_m2), POND("bed_head", bed.head_m),
	POND("splash", splash_m3s),
	POND("stream_factor", stream.factor),
	POND("flow", pump.flow_m3s),
	POND("open_water_factor", open_water_factor),
	POND("seepage_volume", seepage.volume_m3s),
	{ 0 }
};

#define SWING(name, member) SCALAR(tarn_pump_swing, name, member, 'd')
static const struct member swing[] = {
	SWING("stopped", stopped_m), SWING("spill", spill_m3),
	SWING("started", started_m),
	{ 0 }
};

#define SUMMARY(name, member, type) \
	SCALAR(tarn_column_summary, name, member, type)
static const struct member summary[] = {
	SUMMARY("present", present, 'u'), SUMMARY("missing", missing, 'u'),
	SUMMARY("min", min, 'd'), SUMMARY("mean", mean, 'd'),
	SUMMARY("max", max, 'd'),
	{ 0 }
};

#define CHECK(name, member) SCALAR(tarn_bed_check, name, member, 'd')
static const struct member check[] = {
	CHECK("area", area_m2), CHECK("depth", depth_m),
	CHECK("flow", flow_m3s), CHECK("length", length_m),
	CHECK("width", width_m), CHECK("loading", loading_m_d),
	CHECK("loading_factor", loading_factor),
	CHECK("sewage_factor", sewage_factor),
	CHECK("surface_share", surface_share),
	CHECK("volume_share", volume_share),
	CHECK("turnover", turnover_per_h), CHECK("volume", volume_m3),
	CHECK("water", water_m3), CHECK("mass", mass_kg),
	CHECK("surface", surface_m2), CHECK("residence", residence_s),
	CHECK("velocity", velocity_ms),
	CHECK("pore_velocity", pore_velocity_ms),
	CHECK("clean", clean_m), CHECK("clogged", clogged_m),
	CHECK("rise", rise_m), CHECK("head_needed", head_needed_m),
	CHECK("pond", pond_mgl), CHECK("pond_per_day", pond_per_day),
	CHECK("oxygen_out", oxygen_out_mgl),
	CHECK("oxygen_supply_g", oxygen_supply_g),
	CHECK("oxygen_demand_g", oxygen_demand_g),
	SCALAR(tarn_bed_check, "flags", flags, 'u'),
	{ 0 }
};

#define STACK(name, member) SCALAR(tarn_layers_result, name, member, 'd')
static const struct member stack[] = {
	STACK("depth", depth_m), STACK("volume", volume_m3),
	STACK("mass", mass_kg), { 0 }
};

#define FIT(name, member, count) \
	{ name, offsetof(struct tarn_fit, member), 'd', count }
static const struct member fit[] = {
	FIT("length", length_m, 1), FIT("width", width_m, 1),
	FIT("area", area_m2, 1), FIT("angle", angle_deg, 1),
	FIT("yard_area", yard_m2, 1), FIT("x", x_m, 4), FIT("y", y_m, 4),
	{ 0 }
};

#define SIZED(name, member, type, count) \
	{ name, offsetof(struct tarn_sizing_result, member), type, count }
static const struct member sized[] = {
	SIZED("areas", area_m2, 'd', TARN_SIZE_RULES),
	SIZED("governs", governs, 'i', 1),
	SIZED("needed", needed_m2, 'd', 1),
	SIZED("least_flow", least_flow_m3s, 'd', 1),
	SIZED("regime_low", regime_lo_m2, 'd', 4),
	SIZED("regime_high", regime_hi_m2, 'd', 4),
	SIZED("bed", bed, 'x', 1),	/* a "check" stands there */
	{ 0 }
};

#define REGIME(name, member, type) \
	SCALAR(tarn_loading_regime, name, member, type)
static const struct member regime[] = {
	REGIME("name", name, 's'), REGIME("low", lo_m_d, 'd'),
	REGIME("high", hi_m_d, 'd'), REGIME("meaning", meaning, 's'),
	REGIME("evidence", evidence, 'i'),
	{ 0 }
};

#define RATE(name, member, type) SCALAR(tarn_rate, name, member, type)
static const struct member rate[] = {
	RATE("name", name, 's'), RATE("bed", bed, 's'),
	RATE("parameter", parameter, 's'), RATE("k_m_yr", k_m_yr, 'd'),
	RATE("low", low_m_d, 'd'), RATE("high", high_m_d, 'd'),
	RATE("source", source, 's'), RATE("evidence", evidence, 'i'),
	{ 0 }
};

#define WASTE(name, member) SCALAR(tarn_waste_result, name, member, 'd')
static const struct member waste[] = {
	WASTE("feed_g", feed_g), WASTE("ammonia_g", ammonia_g),
	WASTE("bod_g", bod_g), WASTE("solids_g", solids_g),
	{ 0 }
};

static const struct {
	const char *name;
	const struct member *members;
	size_t bytes;
} structs[] = {
	{ "day", day, sizeof(struct tarn_ledger_day) },
	{ "period", period, sizeof(struct tarn_period) },
	{ "facts", facts, sizeof(struct tarn_pond_facts) },
	{ "pond", pond, sizeof(struct tarn_pond) },
	{ "swing", swing, sizeof(struct tarn_pump_swing) },
	{ "summary", summary, sizeof(struct tarn_column_summary) },
	{ "check", check, sizeof(struct tarn_bed_check) },
	{ "stack", stack, sizeof(struct tarn_layers_result) },
	{ "sized", sized, sizeof(struct tarn_sizing_result) },
	{ "regime", regime, sizeof(struct tarn_loading_regime) },
	{ "rate", rate, sizeof(struct tarn_rate) },
	{ "waste", waste, sizeof(struct tarn_waste_result) },
	{ "estimate", web_estimate_members, sizeof(struct tarn_estimate) },
	{ "half", web_half_members, sizeof(struct tarn_pair_half) },
	{ "pair", web_pair_members, sizeof(struct tarn_pair_result) },
	{ "fit", fit, sizeof(struct tarn_fit) },
	{ "log_info", web_log_info_members, sizeof(struct tarn_log_info) },
	{ "reading", web_reading_members, sizeof(struct tarn_reading) },
	{ "interval", web_interval_members, sizeof(struct tarn_interval) },
	{ "leak", web_leak_members, sizeof(struct tarn_leak_result) },
	{ "point", web_point_members, sizeof(struct tarn_level_point) },
	{ "meter_week", web_meter_week_members, sizeof(struct tarn_meter_week) },
	{ "holdout", web_holdout_members, sizeof(struct tarn_holdout) },
};

/* NULL if there is no such struct. */
WEB(web_members) const struct member *web_members(const char *name);
WEB(web_members) const struct member *web_members(const char *name)
{
	for (size_t i = 0; i < sizeof structs / sizeof structs[0]; i++)
		if (strcmp(structs[i].name, name) == 0)
			return structs[i].members;
	return NULL;
}

WEB(web_struct_bytes) size_t web_struct_bytes(const char *name);
WEB(web_struct_bytes) size_t web_struct_bytes(const char *name)
{
	for (size_t i = 0; i < sizeof structs / sizeof structs[0]; i++)
		if (strcmp(structs[i].name, name) == 0)
			return structs[i].bytes;
	return 0;
}
