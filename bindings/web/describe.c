/* SPDX-License-Identifier: MIT */
#include <stdlib.h>
#include <string.h>

#include "web.h"

/*
 * A description is set field by field between web_describe() and
 * web_describe_end().  Sections and fields are found in the rows that
 * describe them, so a new field needs no code here, nor does a new section
 * of struct tarn_pond.
 */

/* ---- sections ---------------------------------------------------------- */

/* Sections that are not parts of struct tarn_pond. */
static const struct {
	const char *name;
	const struct tarn_fields *fields;
	void *object;
} others[] = {
	{ "basin", &tarn_shelved_fields, &web.shape },
	{ "evaporation", &tarn_evaporation_fields, &web.evaporation },
	{ "layer", &tarn_layer_fields, &web.layer },
	{ "pipes", &tarn_pipe_run_fields, &web.pipe },
	{ "falls", &tarn_fall_fields, &web.fall },
	{ "catchments", &tarn_catchment_fields, &web.catchment },
	{ "bay", &tarn_bay_fields, &web.works },
	{ "overflow", &tarn_pond_overflow_fields, &web.works },
	{ "storm", &tarn_storm_fields, &web.works },
	{ "size", &tarn_sizing_fields, &web.sizing },
	{ "waste", &tarn_waste_fields, &web.waste },
	{ "yard", &tarn_yard_fields, &web.yard },
	{ "corner", &tarn_yard_corner_fields, &web.corner },
	{ "pair", &tarn_pair_fields, &web.pair },
	{ "off", &tarn_pair_off_fields, &web.pair },
	{ "on", &tarn_pair_on_fields, &web.pair },
	{ "log", &tarn_log_fields, &web.log_options },
	{ "leak", &tarn_leak_fields, &web.leak_options },
};

static const struct tarn_fields *find_section(const char *name, void **object)
{
	for (size_t i = 0; tarn_pond_sections[i]; i++) {
		*object = &web.pond;
		if (strcmp(tarn_pond_sections[i]->section, name) == 0)
			return tarn_pond_sections[i];
	}
	for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
		*object = others[i].object;
		if (strcmp(others[i].name, name) == 0)
			return others[i].fields;
	}
	return NULL;
}

/* 1 if the core has such a field, or with name "" such a section: what it
 * does not have, it does not use. */
WEB(web_has) int web_has(const char *section, const char *name);
WEB(web_has) int web_has(const char *section, const char *name)
{
	void *object;
	const struct tarn_fields *fields = find_section(section, &object);

	return fields && (name[0] == '\0' || tarn_fields_find(fields, name));
}

/*
 * Sets a field: a number, an index among choices, or 0 and 1.  'month' is 0
 * for one value (of all months), 1 to 12 for a month's.  Fails: no such
 * field; out of range.
 */
WEB(web_set) int web_set(const char *section, const char *name, int month,
			 double value);
WEB(web_set) int web_set(const char *section, const char *name, int month,
			 double value)
{
	void *object;
	const struct tarn_fields *fields = find_section(section, &object);
	const struct tarn_field *row =
		fields ? tarn_fields_find(fields, name) : NULL;
	const char *dot = section[0] ? "." : "";
	int whole = (int)value;
	char *to;

	if (!row && tarn_name_now(section, name))
		return web_mistake("'%s%s%s' is called '%s' now", section, dot,
				   name, tarn_name_now(section, name));
	if (!row)
		return web_mistake("unknown field '%s%s%s'", section, dot, name);
	to = (char *)object + row->offset;
	web_error();
	if (!(value >= row->lo && value <= row->hi)) {
		tarn_fail(&web.err, TARN_EARG, name, "%s", "");
		if (row->kind == TARN_FIELD_MONTHS && month > 0)
			return web_mistake("%s%s%s[%d] must be %.6g to %.6g, "
					   "got %.6g", section, dot, name,
					   month, row->lo, row->hi, value);
		if (row->kind == TARN_FIELD_MONTHS)
			return web_mistake("%s%s%s must be %.6g to %.6g, got "
					   "%.6g", section, dot, name, row->lo,
					   row->hi, value);
		return web_mistake("%s%s%s [%s] must be %.6g to %.6g, got "
				   "%.6g", section, dot, name, row->unit,
				   row->lo, row->hi, value);
	}
	switch (row->kind) {
	case TARN_FIELD_NUMBER:
		memcpy(to, &value, sizeof value);
		break;
	case TARN_FIELD_MONTHS:
		for (int m = 1; m <= 12; m++)
			if (month == 0 || month == m)
				memcpy(to + (size_t)(m - 1) * sizeof value,
				       &value, sizeof value);
		break;
	case TARN_FIELD_CHOICE:
	case TARN_FIELD_SWITCH:
		memcpy(to, &whole, sizeof whole);
		break;
	}
	return 1;
}

/* ---- basin ------------------------------------------------------------- */

/* One more shelf, from the top down. */
WEB(web_shelf) int web_shelf(double depth_m, double width_m);
WEB(web_shelf) int web_shelf(double depth_m, double width_m)
{
	int n = web.shape.shelves;

	if (n >= TARN_SHELVES_MAX)
		return web_mistake("basin.shelves must be a list of at most %d "
				   "{depth =, width =}", TARN_SHELVES_MAX);
	web.shape.shelf[n].depth_m = depth_m;
	web.shape.shelf[n].width_m = width_m;
	web.shape.shelves = n + 1;
	return 1;
}

/* Room for a table of levels and areas in place of the shelved shape: 'rows'
 * levels, then as many areas.  Borrowed; NULL if it fails. */
WEB(web_table) double *web_table(size_t rows);
WEB(web_table) double *web_table(size_t rows)
{
	if (!web_room(&web.table, 2 * rows * sizeof *web.table))
		return NULL;
	web.table_rows = rows;
	return web.table;
}

WEB(web_polygon) double web_polygon(const double *xy, size_t corners);
WEB(web_polygon) double web_polygon(const double *xy, size_t corners)
{
	return tarn_polygon_area(xy, corners);
}

/* ---- schedules --------------------------------------------------------- */

/* Of the supply (which = 0) or of a withdrawal (1 ..). */
static struct tarn_schedule *schedule(int which)
{
	if (which == 0)
		return &web.pond.supply.when;
	if (which > TARN_WITHDRAWALS_MAX)
		return NULL;
	return &web.pond.withdrawal[which - 1].when;
}

WEB(web_withdrawal) int web_withdrawal(int which, double volume_m3);
WEB(web_withdrawal) int web_withdrawal(int which, double volume_m3)
{
	if (which < 1 || which > TARN_WITHDRAWALS_MAX)
		return web_mistake("withdrawals must be a list of 1 to %d "
				   "{ volume =, ... }", TARN_WITHDRAWALS_MAX);
	web.pond.withdrawals = which;
	web.pond.withdrawal[which - 1].volume_m3 = volume_m3;
	return 1;
}

/* Bits from 1: Monday, January. */
WEB(web_days_on) int web_days_on(int which, unsigned weekdays, unsigned months);
WEB(web_days_on) int web_days_on(int which, unsigned weekdays, unsigned months)
{
	struct tarn_schedule *s = schedule(which);

	if (!s)
		return 0;
	s->weekdays = weekdays;
	s->months = months;
	return 1;
}

/* One more span; month * 100 + day with TARN_NO_DAY where yearly. */
WEB(web_span) int web_span(int which, int open, long first_day, long last_day,
			   int first_mmdd, int last_mmdd);
WEB(web_span) int web_span(int which, int open, long first_day, long last_day,
			   int first_mmdd, int last_mmdd)
{
	struct tarn_schedule *s = schedule(which);
	int *count = s ? (open ? &s->on_count : &s->off_count) : NULL;
	struct tarn_span span = { first_day, last_day, first_mmdd, last_mmdd };

	if (!s || *count >= TARN_SPANS_MAX)
		return web_mistake("%s must be a list of 1 to %d spans",
				   open ? "open" : "closed", TARN_SPANS_MAX);
	(open ? s->on : s->off)[(*count)++] = span;
	return 1;
}

/* ---- begin and end ----------------------------------------------------- */

WEB(web_describe) void web_describe(void);
WEB(web_describe) void web_describe(void)
{
	web.pond = tarn_pond_default();
	web.shape = tarn_shelved_default();
	web.evaporation = tarn_evaporation_options_default();
	web.works = tarn_works_default();
	web.yard = tarn_yard_default();
	web.yard.corner = web.corners;
	web.yard.count = 0;
	web.table_rows = 0;
	web.layer_count = 0;
	web.ready = 0;
}

static enum tarn_status make_basin(void)
{
	tarn_basin_free(web.basin);
	web.basin = NULL;
	if (web.table_rows > 0)
		return tarn_basin_table(&web.basin, NULL, web.table,
					web.table + web.table_rows,
					web.table_rows, &web.err);
	if (tarn_fields_check(&tarn_shelved_fields, &web.shape, &web.err) !=
	    TARN_OK)
		return web.err.code;
	return tarn_basin_shelved(&web.basin, NULL, &web.shape, &web.err);
}

static enum tarn_status check_sections(void)
{
	for (size_t i = 0; tarn_pond_sections[i]; i++)
		if (tarn_fields_check(tarn_pond_sections[i], &web.pond,
				      &web.err) != TARN_OK)
			return web.err.code;
	return tarn_fields_check(&tarn_evaporation_fields, &web.evaporation,
				 &web.err);
}

/* Checks all that was set.  Fails: what does not fit together. */
WEB(web_describe_end) int web_describe_end(void);
WEB(web_describe_end) int web_describe_end(void)
{
	web_error();
	if (make_basin() != TARN_OK)
		return web_fail(NULL);
	web.pond.basin = web.basin;
	if (check_sections() != TARN_OK ||
	    tarn_pond_check(&web.pond, &web.err) != TARN_OK ||
	    tarn_works_solve(&web.works, &web.pond, &web.running, &web.err) !=
		    TARN_OK)
		return web_fail(NULL);
	tarn_works_fill(&web.running, &web.pond);
	if (tarn_pond_check(&web.pond, &web.err) != TARN_OK ||
	    tarn_pond_facts(&web.pond, &web.facts, &web.err) != TARN_OK)
		return web_fail(NULL);
	web.options = web.evaporation;
	if (isnan(web.options.area_m2))
		web.options.area_m2 = web.facts.lip_area_m2;
	if (isnan(web.options.depth_m))
		web.options.depth_m =
			web.facts.lip_volume_m3 / web.facts.lip_area_m2;
	web.ready = 1;
	return 1;
}

/* ---- what follows from it ---------------------------------------------- */

WEB(web_pond) const struct tarn_pond *web_pond(void);
WEB(web_pond) const struct tarn_pond *web_pond(void)
{
	return &web.pond;
}

/* Of what the pump gives, the part that goes through the bed [m3/s]; NaN if
 * neither flow nor curve is described. */
WEB(web_bed_flow) double web_bed_flow(void);
WEB(web_bed_flow) double web_bed_flow(void)
{
	return web.running.bed_m3s;
}

WEB(web_facts) const struct tarn_pond_facts *web_facts(void);
WEB(web_facts) const struct tarn_pond_facts *web_facts(void)
{
	return &web.facts;
}

/* Floor and top of the basin, area and volume at a level; NaN outside it. */
WEB(web_basin_floor) double web_basin_floor(void);
WEB(web_basin_floor) double web_basin_floor(void)
{
	return web.basin ? tarn_basin_floor(web.basin) : TARN_NAN;
}

WEB(web_basin_top) double web_basin_top(void);
WEB(web_basin_top) double web_basin_top(void)
{
	return web.basin ? tarn_basin_top(web.basin) : TARN_NAN;
}

WEB(web_basin_area) double web_basin_area(double level_m);
WEB(web_basin_area) double web_basin_area(double level_m)
{
	return web.basin ? tarn_basin_area(web.basin, level_m) : TARN_NAN;
}

WEB(web_basin_volume) double web_basin_volume(double level_m);
WEB(web_basin_volume) double web_basin_volume(double level_m)
{
	return web.basin ? tarn_basin_volume(web.basin, level_m) : TARN_NAN;
}

/* NULL if it fails. */
WEB(web_swing) const struct tarn_pump_swing *web_swing(double level_m);
WEB(web_swing) const struct tarn_pump_swing *web_swing(double level_m)
{
	static struct tarn_pump_swing swing;

	if (tarn_pond_swing(&web.pond, level_m, &swing, web_error()) ==
	    TARN_OK)
		return &swing;
	web_fail(NULL);
	return NULL;
}
