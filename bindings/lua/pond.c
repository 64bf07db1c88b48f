/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "bind_call.h"
#include "bind_pond.h"

struct pond_box *bind_check_pond(lua_State *L, int arg)
{
	struct pond_box *box = luaL_testudata(L, arg, POND_T);

	if (!box)
		bind_error(L, "pond must come from tarn.pond, got %s",
			   luaL_typename(L, arg));
	return box;
}

/* ---- prices: no physics, but part of a description ---------------------- */

struct costs {
	double water, sewer, power;
};

#define AT(member) offsetof(struct costs, member)
static const struct tarn_field cost_rows[] = {
	{ "water", TARN_FIELD_NUMBER, AT(water), 0, 1000, 0, "money/m3", NULL,
	  "price of water, such as 6.5 / kgal" },
	{ "sewer", TARN_FIELD_NUMBER, AT(sewer), 0, 1000, 0, "money/m3", NULL,
	  "sewer charge on the same meter" },
	{ "power", TARN_FIELD_NUMBER, AT(power), 0, 100, 0, "money/kWh", NULL,
	  "price of electricity" },
};
static const struct tarn_fields cost_fields = { "costs", cost_rows, 3 };

/* ---- reading a description ---------------------------------------------- */

/* Reads a section by its rows; what is no number is left. */
static void read_section(lua_State *L, const struct tarn_fields *fields,
			 void *object)
{
	const char *also[BIND_NAMES_MAX];

	if (!bind_push_section(L, fields->section))
		return;
	bind_fields(L, -1, fields, object,
		    bind_beside_names(fields->section, NULL, also));
	lua_pop(L, 1);
}

static void read_supply(lua_State *L, struct tarn_pond *pond)
{
	read_section(L, &tarn_pond_supply_fields, pond);
	if (!bind_push_section(L, "supply"))
		return;
	bind_schedule(L, -1, "supply", &pond->supply.when);
	lua_pop(L, 1);
}

static const struct tarn_field withdrawal_rows[] = {
	{ "volume", TARN_FIELD_NUMBER, offsetof(struct tarn_withdrawal,
						volume_m3), 0, 1e6, 1, "m3",
	  NULL, "taken on each day of the schedule" },
};
static const struct tarn_fields withdrawal_fields = {
	"withdrawals", withdrawal_rows, 1
};

static void read_withdrawals(lua_State *L, struct tarn_pond *pond)
{
	const char *also[BIND_NAMES_MAX];

	bind_beside_names("withdrawals", NULL, also);
	pond->withdrawals = (int)bind_beside_list(L, 1, "", "withdrawals");
	for (int i = 0; i < pond->withdrawals; i++) {
		struct tarn_withdrawal *w = &pond->withdrawal[i];

		w->volume_m3 = TARN_NAN;
		lua_rawgeti(L, -1, i + 1);
		bind_fields(L, -1, &withdrawal_fields, w, also);
		bind_schedule(L, -1, "withdrawals", &w->when);
		lua_pop(L, 1);
	}
	lua_pop(L, 1);
}

static void check_others(lua_State *L)
{
	struct costs costs = { TARN_NAN, TARN_NAN, TARN_NAN };
	struct tarn_evaporation_options options =
		tarn_evaporation_options_default();

	bind_beside_text(L, 1, "", "name");
	bind_beside_text(L, 1, "", "plants");
	bind_beside_text(L, 1, "", "$schema");
	read_section(L, &cost_fields, &costs);
	if (bind_push_section(L, "costs")) {
		bind_beside_text(L, -1, "costs", "currency");
		lua_pop(L, 1);
	}
	read_section(L, &tarn_evaporation_fields, &options);
}

/* What the hydraulics say goes where the description says nothing. */
static void work_out(lua_State *L, struct pond_box *box)
{
	struct tarn_error err = { 0 };

	read_section(L, &tarn_build_fields, &box->build);
	bind_read_works(L, &box->works);
	bind_must(L, tarn_pond_check(&box->pond, &err), &err);
	bind_must(L, tarn_works_solve(&box->works, &box->pond, &box->running,
				      &err), &err);
	tarn_works_fill(&box->running, &box->pond);
}

/* pond{...} -> pond */
static int l_pond(lua_State *L)
{
	struct pond_box *box;
	struct tarn_error err = { 0 };
	const char *also[BIND_NAMES_MAX];

	luaL_checktype(L, 1, LUA_TTABLE);
	lua_settop(L, 1);
	bind_beside_names("", NULL, also);
	box = lua_newuserdatauv(L, sizeof *box, 2);
	box->pond = tarn_pond_default();
	box->works = tarn_works_default();
	box->build = tarn_build_default();
	luaL_setmetatable(L, POND_T);
	/* names first: a misspelt section is not a missing one */
	bind_known(L, 1, &tarn_pond_fields, also);
	lua_getfield(L, 1, "basin");
	bind_make_basin(L, -1);
	box->pond.basin = bind_check_basin(L, -1);
	lua_setiuservalue(L, 2, 1);	/* keeps the basin alive */
	lua_pop(L, 1);
	lua_pushvalue(L, 1);
	lua_setiuservalue(L, 2, 2);
	bind_fields(L, 1, &tarn_pond_fields, &box->pond, also);
	bind_design(L, &box->pond);
	read_section(L, &tarn_pond_stream_fields, &box->pond);
	read_section(L, &tarn_pond_apron_fields, &box->pond);
	read_section(L, &tarn_pond_pump_fields, &box->pond);
	read_section(L, &tarn_pond_seepage_fields, &box->pond);
	read_section(L, &tarn_pond_tank_fields, &box->pond);
	read_supply(L, &box->pond);
	read_withdrawals(L, &box->pond);
	check_others(L);
	work_out(L, box);
	bind_must(L, tarn_pond_check(&box->pond, &err), &err);
	lua_settop(L, 2);
	return 1;
}

/* ---- methods ------------------------------------------------------------ */

static int l_basin(lua_State *L)
{
	bind_check_pond(L, 1);
	lua_getiuservalue(L, 1, 1);
	return 1;
}

static int l_description(lua_State *L)
{
	bind_check_pond(L, 1);
	lua_getiuservalue(L, 1, 2);
	return 1;
}

/* pond:facts() -> table: levels, areas and volumes that follow */
static int l_facts(lua_State *L)
{
	const struct tarn_pond *p = &bind_check_pond(L, 1)->pond;
	struct tarn_pond_facts f;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_pond_facts(p, &f, &err), &err);
	lua_newtable(L);
	bind_set_rows(L, &tarn_pond_facts_fields, &f);
	bind_set(L, "lip", p->lip_m);
	bind_set(L, "trigger", p->trigger_m);
	bind_set(L, "target", p->target_m);
	bind_set(L, "intake", p->intake_m);
	bind_set(L, "splash", p->splash_m3s);
	bind_set(L, "bed_area", p->bed.area_m2);
	bind_set(L, "stream_factor", p->stream.factor);
	return 1;
}

/* pond:swing(level) -> { stopped =, spill =, started = } */
static int l_swing(lua_State *L)
{
	const struct tarn_pond *p = &bind_check_pond(L, 1)->pond;
	double level_m = bind_number(L, 2, "level [m]",
				     tarn_basin_floor(p->basin), p->lip_m);
	struct tarn_pump_swing s;
	struct tarn_error err = { 0 };

	bind_must(L, tarn_pond_swing(p, level_m, &s, &err), &err);
	bind_push(L, &tarn_pump_swing_fields, &s);
	return 1;
}

static int l_tostring(lua_State *L)
{
	const struct tarn_pond *p = &bind_check_pond(L, 1)->pond;
	char text[160];

	snprintf(text, sizeof text, "pond: lip at %.4g m, %.4g m2 and %.4g m3 "
		 "there, bed %.3g m2", p->lip_m,
		 tarn_basin_area(p->basin, p->lip_m),
		 tarn_basin_volume(p->basin, p->lip_m), p->bed.area_m2);
	lua_pushstring(L, text);
	return 1;
}

static void add_works_reference(lua_State *L)
{
	struct tarn_works works = tarn_works_default();
	struct tarn_build build = tarn_build_default();

	bind_add_reference(L, &tarn_pipe_run_fields, &works.run[0]);
	bind_add_reference(L, &tarn_fall_fields, &works.fall[0]);
	bind_add_reference(L, &tarn_bay_fields, &works);
	bind_add_reference(L, &tarn_pond_overflow_fields, &works);
	bind_add_reference(L, &tarn_storm_fields, &works);
	bind_add_reference(L, &tarn_catchment_fields, &works.catchment[0]);
	bind_add_reference(L, &tarn_build_fields, &build);
}

/* pond_fields() -> list of the sections of a description, each a list of the
 * rows of its numbers, and .beside: its other fields */
static int l_pond_fields(lua_State *L)
{
	static const struct tarn_fields span_fields = { "span", NULL, 0 };
	struct tarn_pond pond = tarn_pond_default();
	struct tarn_withdrawal withdrawal = { .volume_m3 = TARN_NAN };
	struct tarn_evaporation_options evaporation =
		tarn_evaporation_options_default();
	struct costs costs = { TARN_NAN, TARN_NAN, TARN_NAN };

	lua_newtable(L);
	bind_add_reference(L, tarn_pond_sections[0], &pond);
	bind_add_basin(L);
	for (int i = 1; tarn_pond_sections[i]; i++)
		bind_add_reference(L, tarn_pond_sections[i], &pond);
	bind_add_reference(L, &withdrawal_fields, &withdrawal);
	bind_add_reference(L, &span_fields, NULL);
	bind_add_design(L);
	add_works_reference(L);
	bind_add_reference(L, &tarn_evaporation_fields, &evaporation);
	bind_add_reference(L, &cost_fields, &costs);
	return 1;
}

void bind_pond(lua_State *L)
{
	static const struct bind_plain plain[] = {
		{ "runoff", { .two = tarn_runoff }, "mm",
		  { { "rain", "mm", 0, 5000 },
		    { "curve number", "-", 1, 100 } } },
		{ .name = NULL }
	};
	static const luaL_Reg methods[] = {
		{ "basin", l_basin },
		{ "description", l_description },
		{ "facts", l_facts },
		{ "swing", l_swing },
		{ "__tostring", l_tostring },
		{ NULL, NULL }
	};

	bind_basin(L);
	bind_methods(L, POND_T, methods);
	lua_pushcfunction(L, l_pond);
	lua_setfield(L, -2, "pond");
	bind_add_plain(L, plain);
	lua_pushcfunction(L, l_pond_fields);
	lua_setfield(L, -2, "pond_fields");
}
