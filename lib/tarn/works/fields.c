/* SPDX-License-Identifier: MIT */
#include "tarn/works.h"

/* The rows of results. */

#define T struct tarn_works_flow
static const struct tarn_field flow_rows[] = {
	TARN_OUT_SWITCH(T, from_curve, "from_curve", "the flow was solved"),
	TARN_OUT_NUMBER(T, flow_m3s, "flow", "m3/s",
			"of the pump, at the running level"),
	TARN_OUT_NUMBER(T, solved_m3s, "solved", "m3/s", "by curve and pipes"),
	TARN_OUT_NUMBER(T, low_m3s, "low_flow", "m3/s",
			"likewise, with the pond at its intake level"),
	TARN_OUT_NUMBER(T, head_m, "head", "m", "of the pump"),
	TARN_OUT_NUMBER(T, share_of_label, "share_of_label", "-",
			"solved / label flow"),
	TARN_OUT_NUMBER(T, continuity, "continuity", "m3/s",
			"left over by the network"),
	TARN_OUT_NUMBER(T, energy, "energy", "m", "left over by the network"),
	TARN_OUT_NUMBER(T, bed_m3s, "bed_flow", "m3/s", "into the bed"),
	TARN_OUT_NUMBER(T, falls_m3s, "falls_flow", "m3/s", "over the falls"),
	TARN_OUT_NUMBER(T, pond_m3s, "pond_flow", "m3/s",
			"back into the pond"),
	TARN_OUT_NUMBER(T, bed_m3, "bed_transit", "m3",
			"over the bed's lip while the pump runs"),
	TARN_OUT_NUMBER(T, pools_m3, "pools_transit", "m3", "behind falls"),
	TARN_OUT_NUMBER(T, stream_m3, "stream_transit", "m3",
			"in the stream"),
	TARN_OUT_NUMBER(T, drain_m3, "drain_transit", "m3",
			"coming back from the pipes"),
	TARN_OUT_NUMBER(T, pipes_m3, "pipes", "m3", "in the pipes"),
	TARN_OUT_NUMBER(T, siphon_m3, "siphon", "m3",
			"drawn back from what a pipe feeds"),
};
TARN_FIELDS(tarn_works_flow_fields, "works", flow_rows);
#undef T

static const char *const levels[] = {
	[TARN_LEVEL_EDGE] = "edge",
	[TARN_LEVEL_STORM] = "storm",
	[TARN_LEVEL_OVERFLOW] = "overflow",
	[TARN_LEVEL_STOP] = "stop",
	[TARN_LEVEL_FULL_ON] = "full_on",
	[TARN_LEVEL_TARGET] = "target",
	[TARN_LEVEL_TRIGGER] = "trigger",
	[TARN_LEVEL_START] = "start",
	[TARN_LEVEL_INTAKE] = "intake",
	[TARN_LEVEL_SILL] = "sill",
	[TARN_LEVEL_PUMP] = "pump",
	[TARN_LEVEL_FLOOR] = "floor",
	NULL
};

const char *tarn_level_name(enum tarn_level_name name)
{
	return (unsigned)name < TARN_LEVELS ? levels[name] : "";
}

#define T struct tarn_level
static const struct tarn_field level_rows[] = {
	TARN_OUT_CHOICE(T, name, "name", levels, "which level"),
	TARN_OUT_NUMBER(T, level_m, "level", "m", "above the floor"),
	TARN_OUT_NUMBER(T, area_m2, "area", "m2", "of the basin there"),
	TARN_OUT_NUMBER(T, volume_m3, "volume", "m3", "below it"),
	TARN_OUT_NUMBER(T, between_m3, "between", "m3",
			"down to the next level"),
};
TARN_FIELDS(tarn_level_fields, "level", level_rows);
#undef T

#define T struct tarn_chart
static const struct tarn_field chart_rows[] = {
	TARN_OUT_NUMBER(T, freeboard_m, "freeboard", "m",
			"edge above the lip"),
	TARN_OUT_NUMBER(T, transit_m3, "transit", "m3",
			"in transit while the pump runs"),
	TARN_OUT_NUMBER(T, rise_m, "rise", "m",
			"after a stop at the running level"),
	TARN_OUT_NUMBER(T, spill_m3, "spill", "m3", "after that stop"),
	TARN_OUT_NUMBER(T, room_m3, "room", "m3",
			"from where that leads up to the lip"),
	TARN_OUT_SWITCH(T, spills, "spills", "that stop spills"),
	TARN_OUT_NUMBER(T, drop_m, "drop", "m",
			"after a start from a full pond"),
	TARN_OUT_NUMBER(T, drop_trigger_m, "drop_trigger", "m",
			"after a start at the trigger"),
	TARN_OUT_SWITCH(T, start_bares_intake, "start_bares_intake",
			"that start leads under the intake"),
};
TARN_FIELDS(tarn_chart_fields, "chart", chart_rows);
#undef T

#define T struct tarn_storm_doubt
static const struct tarn_field doubt_rows[] = {
	TARN_OUT_NUMBER(T, depth_mm, "depth", "mm", "of the whole storm"),
	TARN_OUT_NUMBER(T, record_mm, "record", "mm",
			"most that was measured in record_time"),
	TARN_OUT_NUMBER(T, record_s, "record_time", "s",
			"the storm's, or the next longer of the list"),
	TARN_OUT_STRING(T, place, "place", "of the record, with its year"),
};
TARN_FIELDS(tarn_storm_doubt_fields, "storm", doubt_rows);
#undef T

#define T struct tarn_storm_flow
static const struct tarn_field storm_rows[] = {
	TARN_OUT_NUMBER(T, rain_m3, "rain", "m3", "of the storm, in the pond"),
	TARN_OUT_NUMBER(T, peak_m3s, "peak", "m3/s", "inflow"),
	TARN_OUT_NUMBER(T, start_m, "start", "m", "level at its beginning"),
	TARN_OUT_NUMBER(T, spill_at_stop_m3, "spill_at_stop", "m3",
			"when the pump stops"),
	TARN_OUT_NUMBER(T, peak_level_m, "peak_level", "m", "highest level"),
	TARN_OUT_NUMBER(T, head_m, "head", "m", "of that over the lip"),
	TARN_OUT_NUMBER(T, peak_out_m3s, "peak_out", "m3/s", "outflow"),
	TARN_OUT_NUMBER(T, out_m3, "out", "m3", "over the lip"),
	TARN_OUT_NUMBER(T, edge_left_m, "edge_left", "m",
			"edge above the highest level"),
	TARN_OUT_NUMBER(T, balance_m3, "balance", "m3", "of the routing"),
	TARN_OUT_NUMBER(T, clear_head_m, "clear_head", "m",
			"steady head at the peak, openings clean"),
	TARN_OUT_NUMBER(T, clogged_head_m, "clogged_head", "m",
			"likewise, clogged as described"),
};
TARN_FIELDS(tarn_storm_flow_fields, "storm", storm_rows);
#undef T
