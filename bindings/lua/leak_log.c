/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bind_leak.h"

#define LOG_T "tarn.log"

const struct log_box *bind_check_log(lua_State *L, int arg)
{
	struct log_box *box = luaL_testudata(L, arg, LOG_T);

	if (!box)
		bind_error(L, "log must come from tarn.log.read or "
			   "tarn.log.list, got %s", luaL_typename(L, arg));
	return box;
}

static struct log_box *new_log(lua_State *L)
{
	struct log_box *box = lua_newuserdatauv(L, sizeof *box, 1);

	memset(box, 0, sizeof *box);
	luaL_setmetatable(L, LOG_T);
	return box;
}

/* read(path, {unit =, sign =, dates =}) -> log */
static int l_read(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1);
	struct tarn_log_options options = tarn_log_options_default();
	struct tarn_error err = { 0 };
	struct log_box *box;

	if (!lua_isnoneornil(L, 2))
		bind_fields(L, 2, &tarn_log_fields, &options, NULL);
	box = new_log(L);
	snprintf(box->path, sizeof box->path, "%s", path);
	if (tarn_log_read(&box->log, NULL, path, &options, &err) != TARN_OK)
		bind_fail(L, &err, path);
	box->readings = tarn_log_readings(box->log, &box->count);
	box->info = tarn_log_info(box->log);
	return 1;
}

/* ---- from a list ----------------------------------------------------------- */

static void read_reading(lua_State *L, struct tarn_reading *r)
{
	tarn_fields_default(&tarn_reading_fields, r);
	bind_fields(L, -1, &tarn_reading_fields, r, NULL);
	if (isnan(r->level_m) && isnan(r->meter_m3))
		bind_error(L, "a reading needs level or meter");
}

/* list{ {date =, hour =, level =, meter =, refill =, ...}, ... } -> log;
 * levels count up */
static int l_list(lua_State *L)
{
	struct tarn_reading *readings;
	struct log_box *box;
	size_t count;

	luaL_checktype(L, 1, LUA_TTABLE);
	count = lua_rawlen(L, 1);
	box = new_log(L);
	readings = lua_newuserdatauv(L, (count + 1) * sizeof *readings, 0);
	for (size_t i = 0; i < count; i++) {
		lua_rawgeti(L, 1, (lua_Integer)i + 1);
		read_reading(L, &readings[i]);
		lua_pop(L, 1);
		box->info.levels += isnan(readings[i].level_m) ? 0 : 1;
		box->info.meters += isnan(readings[i].meter_m3) ? 0 : 1;
	}
	lua_setiuservalue(L, -2, 1);
	box->readings = readings;
	box->count = count;
	return 1;
}

/* ---- what it holds ---------------------------------------------------------- */

static int l_readings(lua_State *L)
{
	const struct log_box *box = bind_check_log(L, 1);

	bind_push_list(L, &tarn_reading_fields, box->readings, box->count,
		       sizeof *box->readings);
	return 1;
}

static int l_info(lua_State *L)
{
	bind_push(L, &tarn_log_info_fields, &bind_check_log(L, 1)->info);
	return 1;
}

static int l_length(lua_State *L)
{
	lua_pushinteger(L, (lua_Integer)bind_check_log(L, 1)->count);
	return 1;
}

static int l_free(lua_State *L)
{
	struct log_box *box = luaL_checkudata(L, 1, LOG_T);

	tarn_log_free(box->log);
	box->log = NULL;
	box->readings = NULL;
	box->count = 0;
	return 0;
}

/* recognised(path) -> is it a log by its header? */
static int l_recognised(lua_State *L)
{
	lua_pushboolean(L, tarn_log_recognised(luaL_checkstring(L, 1)));
	return 1;
}

void bind_log(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "readings", l_readings }, { "info", l_info },
		{ "__len", l_length },      { "__gc", l_free },
		{ "__close", l_free },      { NULL, NULL }
	};
	static const luaL_Reg functions[] = {
		{ "read", l_read }, { "list", l_list },
		{ "recognised", l_recognised }, { NULL, NULL }
	};

	bind_methods(L, LOG_T, methods);
	luaL_newlib(L, functions);
	lua_setfield(L, -2, "log");
}
