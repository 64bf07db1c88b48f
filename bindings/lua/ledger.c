/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "bind_pond.h"
#include "bind_weather.h"

#define LEDGER_T "tarn.ledger"

struct ledger_box {
	struct tarn_ledger *ledger;
	double lip_area_m2;
};

static struct ledger_box *check_ledger(lua_State *L)
{
	return luaL_checkudata(L, 1, LEDGER_T);
}

const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg)
{
	const struct ledger_box *box = luaL_checkudata(L, arg, LEDGER_T);

	return box->ledger;
}

struct tarn_ledger **bind_new_ledger(lua_State *L, const struct tarn_pond *pond)
{
	struct ledger_box *box = lua_newuserdatauv(L, sizeof *box, 1);

	box->ledger = NULL;
	box->lip_area_m2 = tarn_basin_area(pond->basin, pond->lip_m);
	luaL_setmetatable(L, LEDGER_T);
	return &box->ledger;
}

BIND_FREE(ledger, LEDGER_T)

/* ---- tables of days and periods ------------------------------------------ */

static void push_period(lua_State *L, const struct tarn_period *p)
{
	struct tarn_date first = tarn_date(p->first_day);
	struct tarn_week week = tarn_week(p->first_day);

	bind_push(L, &tarn_period_fields, p);
	bind_set_int(L, "year", first.year);
	bind_set_int(L, "month", first.month);
	bind_set_int(L, "week", week.week);
	bind_set_int(L, "week_year", week.year);
}

static int push_periods(lua_State *L, enum tarn_period_kind kind)
{
	const struct ledger_box *box = check_ledger(L);
	size_t count, next;
	lua_Integer row = 0;

	tarn_ledger_days(box->ledger, &count);
	lua_newtable(L);
	for (size_t at = 0; at < count; at = next) {
		struct tarn_period p = tarn_ledger_period(box->ledger, kind,
							  at, &next);

		push_period(L, &p);
		lua_rawseti(L, -2, ++row);
	}
	return 1;
}

static int l_weeks(lua_State *L)
{
	return push_periods(L, TARN_BY_WEEK);
}

static int l_months(lua_State *L)
{
	return push_periods(L, TARN_BY_MONTH);
}

static int l_years(lua_State *L)
{
	return push_periods(L, TARN_BY_YEAR);
}

static int l_days(lua_State *L)
{
	size_t count;
	const struct tarn_ledger_day *days =
		tarn_ledger_days(check_ledger(L)->ledger, &count);

	bind_push_list(L, &tarn_ledger_day_fields, days, count, sizeof *days);
	return 1;
}

static int l_totals(lua_State *L)
{
	const struct ledger_box *box = check_ledger(L);
	size_t next;
	struct tarn_period p = tarn_ledger_period(box->ledger, TARN_BY_RUN, 0,
						  &next);

	push_period(L, &p);
	bind_set(L, "residual", tarn_ledger_residual(box->ledger));
	bind_set(L, "need", tarn_ledger_need(box->ledger));
	return 1;
}

/* ledger:depth(volume) -> mm over the water surface at the lip */
static int l_depth(lua_State *L)
{
	lua_pushnumber(L, luaL_checknumber(L, 2) * 1e3 /
				  check_ledger(L)->lip_area_m2);
	return 1;
}

/* ledger:report() -> how the evaporation was found */
static int l_report(lua_State *L)
{
	check_ledger(L);
	lua_getiuservalue(L, 1, 1);
	return 1;
}

static int l_tostring(lua_State *L)
{
	size_t count, next;
	const struct ledger_box *box = check_ledger(L);
	struct tarn_period p = tarn_ledger_period(box->ledger, TARN_BY_RUN, 0,
						  &next);
	char text[160], first[11], last[11];

	tarn_ledger_days(box->ledger, &count);
	tarn_day_text(p.first_day, first);
	tarn_day_text(p.last_day, last);
	snprintf(text, sizeof text, "ledger: %zu days, %s to %s, top-up %.4g "
		 "m3", count, first, last, p.flows.topup_m3);
	lua_pushstring(L, text);
	return 1;
}

static int l_length(lua_State *L)
{
	size_t count;

	tarn_ledger_days(check_ledger(L)->ledger, &count);
	lua_pushinteger(L, (lua_Integer)count);
	return 1;
}

/* forcing:report() -> how the evaporation was found */
static int l_forcing_report(lua_State *L)
{
	luaL_checkudata(L, 1, FORCING_T);
	lua_getiuservalue(L, 1, 1);
	return 1;
}

static int l_forcing_length(lua_State *L)
{
	struct tarn_forcing *f = luaL_checkudata(L, 1, FORCING_T);

	lua_pushinteger(L, (lua_Integer)f->days);
	return 1;
}

void bind_ledger(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "days", l_days },     { "weeks", l_weeks },
		{ "months", l_months }, { "years", l_years },
		{ "totals", l_totals }, { "depth", l_depth },
		{ "report", l_report }, { "__tostring", l_tostring },
		{ "__len", l_length },  { "__gc", l_free },
		{ "__close", l_free },  { NULL, NULL }
	};
	static const luaL_Reg forcing[] = {
		{ "report", l_forcing_report },
		{ "__len", l_forcing_length },
		{ NULL, NULL }
	};

	bind_methods(L, LEDGER_T, methods);
	bind_methods(L, FORCING_T, forcing);
}
