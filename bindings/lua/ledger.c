/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "bind_pond.h"
#include "bind_weather.h"

#define LEDGER_T "tarn.ledger"

static struct ledger_box *check_ledger(lua_State *L)
{
	return luaL_checkudata(L, 1, LEDGER_T);
}

const struct tarn_ledger *bind_check_ledger(lua_State *L, int arg)
{
	const struct ledger_box *box = luaL_checkudata(L, arg, LEDGER_T);

	return box->ledger;
}

struct ledger_box *bind_new_ledger(lua_State *L)
{
	struct ledger_box *box = lua_newuserdatauv(L, sizeof *box, 0);

	*box = (struct ledger_box){ .ledger = NULL };
	luaL_setmetatable(L, LEDGER_T);
	return box;
}

BIND_FREE(ledger, LEDGER_T)

/* ---- tables of days and periods ------------------------------------------ */

static int push_periods(lua_State *L, enum tarn_period_kind kind)
{
	const struct tarn_ledger *ledger = check_ledger(L)->ledger;
	size_t count, next;
	lua_Integer row = 0;

	tarn_ledger_days(ledger, &count);
	lua_newtable(L);
	for (size_t at = 0; at < count; at = next) {
		struct tarn_period p = tarn_ledger_period(ledger, kind, at,
							  &next);

		bind_push(L, &tarn_period_fields, &p);
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
	const struct tarn_ledger *ledger = check_ledger(L)->ledger;
	size_t next;
	struct tarn_period p = tarn_ledger_period(ledger, TARN_BY_RUN, 0,
						  &next);

	bind_push(L, &tarn_period_fields, &p);
	bind_set(L, "residual", tarn_ledger_residual(ledger));
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
	bind_push_report(L, &check_ledger(L)->report);
	return 1;
}

static int l_tostring(lua_State *L)
{
	size_t next;
	struct tarn_period p = tarn_ledger_period(check_ledger(L)->ledger,
						  TARN_BY_RUN, 0, &next);
	char text[160], first[11], last[11];

	tarn_day_text(p.first_day, first);
	tarn_day_text(p.last_day, last);
	snprintf(text, sizeof text, "ledger: %d days, %s to %s, top-up %.4g "
		 "m3", p.days, first, last, p.flows.topup_m3);
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

	bind_methods(L, LEDGER_T, methods);
}
