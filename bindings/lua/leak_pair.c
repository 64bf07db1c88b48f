/* SPDX-License-Identifier: MIT */
#include "bind_leak.h"
#include "bind_pond.h"

static void read_side(lua_State *L, const char *name,
		      const struct tarn_fields *fields,
		      struct tarn_pair *pair)
{
	if (lua_getfield(L, 1, name) != LUA_TNIL)
		bind_fields(L, lua_gettop(L), fields, pair, NULL);
	lua_pop(L, 1);
}

/* pair{pond =, off = {hours =, drop =, bucket = | weather =}, on = {...},
 * level =, month =, ...} -> result */
static int l_pair(lua_State *L)
{
	static const char *const also[] = { "pond", "off", "on", NULL };
	struct tarn_pair pair = tarn_pair_default();
	struct tarn_pair_result r;
	struct tarn_error err = { 0 };
	struct pond_box *box;

	bind_fields(L, 1, &tarn_pair_fields, &pair, also);
	lua_getfield(L, 1, "pond");
	box = luaL_testudata(L, -1, POND_T);
	if (!box)
		bind_error(L, "pond must come from tarn.pond, got %s",
			   luaL_typename(L, -1));
	read_side(L, "off", &tarn_pair_off_fields, &pair);
	read_side(L, "on", &tarn_pair_on_fields, &pair);
	bind_must(L, tarn_pair_test(NULL, &box->pond, &pair, &r, &err), &err);
	bind_push(L, &tarn_pair_result_fields, &r);
	return 1;
}

/* pair_hours{readings =, reading_error =, loss_mm_d =, spread_mm_d =} -> h */
static int l_pair_hours(lua_State *L)
{
	static const char *const names[] = {
		"readings", "reading_error", "loss_mm_d", "spread_mm_d", NULL
	};
	double error_m = tarn_pair_default().reading_sd_m;

	bind_known(L, 1, NULL, names);
	lua_pushnumber(L, tarn_pair_hours(
		(int)bind_field(L, 1, "", "readings", "-", 1, 100, 4),
		bind_field(L, 1, "", "reading_error", "m", 1e-5, 0.1, error_m),
		bind_field(L, 1, "", "loss_mm_d", "mm/d", 1e-3, 1e4, TARN_NAN),
		bind_field(L, 1, "", "spread_mm_d", "mm/d", 0, 1e4, 0)));
	return 1;
}

void bind_pair(lua_State *L)
{
	lua_pushcfunction(L, l_pair);
	lua_setfield(L, -2, "pair");
	lua_pushcfunction(L, l_pair_hours);
	lua_setfield(L, -2, "pair_hours");
}
