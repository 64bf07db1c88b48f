/* SPDX-License-Identifier: MIT */
#include <string.h>

#include <lualib.h>

#include "bind_box.h"
#include "bind_pond.h"
#include "bind_study.h"

/* How many steps of a control pass between two looks at Ctrl-C. */
enum { HOOK_EVERY = 10000 };

/* ---- the day's table ---------------------------------------------------------- */

static const char *const day_names[] = {
	"date", "year", "month", "day", "weekday", "rain_mm", "open_water_mm",
	"grass_mm", "level", "volume", "in_tank", "running", "pump_hours",
	"supply_open", "topup", NULL
};

/* A name that no day has would be passed over in silence. */
static void check_name(lua_State *L)
{
	const char *name = luaL_tolstring(L, 2, NULL), *best = NULL;
	int least = 4;

	for (int i = 0; day_names[i]; i++) {
		int far = tarn_name_distance(name, day_names[i]);

		if (lua_type(L, 2) == LUA_TSTRING &&
		    strcmp(name, day_names[i]) == 0) {
			lua_pop(L, 1);
			return;
		}
		if (far < least) {
			least = far;
			best = day_names[i];
		}
	}
	luaL_where(L, 1);
	if (best)
		bind_error(L, "%sunknown field 'day.%s': did you mean '%s'?",
			   lua_tostring(L, -1), name, best);
	bind_error(L, "%sunknown field 'day.%s'", lua_tostring(L, -1), name);
}

static int get_absent(lua_State *L)
{
	check_name(L);
	lua_pushnil(L);
	return 1;
}

static int set_absent(lua_State *L)
{
	check_name(L);
	lua_rawset(L, 1);
	return 0;
}

/* The table of the day: names that no day has raise. */
static void push_day(lua_State *L)
{
	lua_newtable(L);
	lua_createtable(L, 0, 2);
	lua_pushcfunction(L, get_absent);
	lua_setfield(L, -2, "__index");
	lua_pushcfunction(L, set_absent);
	lua_setfield(L, -2, "__newindex");
	lua_setmetatable(L, -2);
}

static void fill_day(lua_State *L, const struct tarn_day_view *v,
		     const struct tarn_day_order *o)
{
	struct tarn_date date = tarn_date(v->day);

	bind_set_rows(L, &tarn_day_view_fields, v);
	bind_set_int(L, "year", date.year);
	bind_set_int(L, "month", date.month);
	bind_set_int(L, "day", date.day);
	bind_set_int(L, "weekday", tarn_week(v->day).weekday);
	bind_set(L, "pump_hours", o->pump_hours);
	lua_pushliteral(L, "topup");
	lua_pushnil(L);
	lua_rawset(L, -3);
}

/* ---- asking it ------------------------------------------------------------------ */

/* A control may never end: from Ctrl-C on each of its steps raises, so that no
 * pcall of its own keeps it alive. */
static void stop_hook(lua_State *L, lua_Debug *ar)
{
	(void)ar;
	if (!bind_interrupted())
		return;
	lua_sethook(L, stop_hook, LUA_MASKCOUNT, 1);
	luaL_error(L, "stopped by %s", bind_interruption());
}

static int protected_control(lua_State *L)
{
	const struct tarn_day_view *view = lua_touserdata(L, 1);
	struct tarn_day_order *order = lua_touserdata(L, 2);

	/* 3: the function, 4: the day's table */
	lua_settop(L, 4);
	fill_day(L, view, order);
	lua_pushvalue(L, 3);
	lua_pushvalue(L, 4);
	lua_call(L, 1, 0);
	order->pump_hours = bind_field(L, 4, "day", "pump_hours", "h", 0, 24,
				       order->pump_hours);
	order->topup_m3 = bind_field(L, 4, "day", "topup", "m3", 0, 1e6,
				     TARN_NAN);
	order->supply_open = bind_switch(L, 4, "supply_open", 0);
	return 0;
}

static enum tarn_status ask(void *context, const struct tarn_day_view *view,
			    struct tarn_day_order *order,
			    struct tarn_error *err)
{
	struct bind_control *control = context;
	lua_State *L = control->box ? control->box->state : control->L;
	struct tarn_day_view v = *view;

	lua_pushcfunction(L, protected_control);
	lua_pushlightuserdata(L, &v);
	lua_pushlightuserdata(L, order);
	lua_pushvalue(L, control->function);
	lua_pushvalue(L, control->day);
	if (control->box)
		bind_begin_box(control->box);
	else
		lua_sethook(L, stop_hook, LUA_MASKCOUNT, HOOK_EVERY);
	control->failed = lua_pcall(L, 4, 0, 0);
	if (!control->box)
		lua_sethook(L, NULL, 0, 0);
	if (control->failed == LUA_OK)
		return TARN_OK;
	return tarn_fail(err, TARN_ESTOP, "each_day", "failed");
}

/* What a box lacks is not there by mistake. */
static const char *hint(const char *why)
{
	return strstr(why, "nil value (global '")
		? " (--control runs in a box that holds the day, the units and "
		  "math; --trust runs it with your rights)" : "";
}

int bind_control_error(struct bind_control *control)
{
	lua_State *L = control->L;

	if (control->box) {
		const char *why = bind_box_reason(L, control->box);

		bind_error(L, "%s%s", why, hint(why));
	}
	if (control->failed == LUA_ERRMEM)
		return lua_error(L);
	if (lua_type(L, -1) != LUA_TSTRING)
		return bind_error(L, "each_day raised a %s, which says nothing",
				  luaL_typename(L, -1));
	return bind_error(L, "%s", lua_tostring(L, -1));
}

/* ---- taking one ------------------------------------------------------------------ */

void bind_check_control(lua_State *L)
{
	if (!lua_isnil(L, -1) && !lua_isfunction(L, -1) &&
	    !luaL_testudata(L, -1, BOX_T))
		bind_error(L, "each_day must be a function of the day");
}

/* The code of a function; its buffer must not be on the stack before lua_dump
 * has found the function there. */
struct code {
	int begun;
	luaL_Buffer buffer;
};

static int add_bytes(lua_State *L, const void *bytes, size_t size,
		     void *context)
{
	struct code *code = context;

	if (!code->begun)
		luaL_buffinit(L, &code->buffer);
	code->begun = 1;
	luaL_addlstring(&code->buffer, bytes, size);
	return 0;
}

void bind_push_control_text(lua_State *L)
{
	struct code code = { .begun = 0 };

	if (luaL_testudata(L, -1, BOX_T)) {
		lua_getiuservalue(L, -1, 1);
		return;
	}
	if (!lua_isfunction(L, -1)) {
		lua_pushnil(L);
		return;
	}
	if (lua_iscfunction(L, -1))
		bind_error(L, "each_day is a function without code of Lua: "
			   "give control_text, by which it is known");
	lua_pushvalue(L, -1);
	lua_dump(L, add_bytes, &code, 0);
	luaL_pushresult(&code.buffer);
	lua_remove(L, -2);
}

void bind_take_control(lua_State *L, struct bind_control *control,
		       struct tarn_run *run)
{
	*control = (struct bind_control){ .L = L, .function = 1, .day = 2 };
	bind_check_control(L);
	if (lua_isnil(L, -1))
		return;
	run->control = ask;
	run->control_context = control;
	control->box = luaL_testudata(L, -1, BOX_T);
	if (control->box)
		return;
	control->function = lua_gettop(L);
	push_day(L);
	control->day = lua_gettop(L);
}

/* What a control may work with, beside the units. */
static int furnish(lua_State *box)
{
	luaL_requiref(box, LUA_MATHLIBNAME, luaopen_math, 1);
	for (int i = 0; i < 2; i++) {	/* the same numbers every time */
		lua_pushnil(box);
		lua_setfield(box, -2, i ? "randomseed" : "random");
	}
	return 0;
}

static int add_day(lua_State *box)
{
	push_day(box);
	return 1;
}

/* control(path) -> box: the function of the day that the file returns is at 1
 * of its stack, the day's table over it */
static int l_control(lua_State *L)
{
	const char *path = luaL_checkstring(L, 1), *text;
	struct box *box = bind_new_box(L, "control of a day");
	int at = lua_gettop(L);
	size_t bytes;

	box->plain_units = 1;	/* as the numbers of its day */
	lua_pushcfunction(box->state, furnish);
	if (lua_pcall(box->state, 0, 0, 0) != LUA_OK)
		bind_no_memory(L);
	text = bind_box_text(L, path, &bytes);
	lua_pushvalue(L, -1);
	lua_setiuservalue(L, at, 1);
	bind_run_box(L, box, path, text, bytes);
	if (!lua_isfunction(box->state, -1) || lua_gettop(box->state) != 1)
		bind_error(L, "%s: must return function(day)", path);
	lua_pushcfunction(box->state, add_day);
	if (lua_pcall(box->state, 0, 1, 0) != LUA_OK ||
	    !lua_checkstack(box->state, 16))
		bind_no_memory(L);
	lua_settop(L, at);
	return 1;
}

void bind_controls(lua_State *L)
{
	lua_pushcfunction(L, l_control);
	lua_setfield(L, -2, "control");
}
