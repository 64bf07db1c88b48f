/* SPDX-License-Identifier: MIT */
#include "bind_call.h"
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
 * level =, month =, ...} -> result, its advice, the loss that matters,
 * findings */
static int l_pair(lua_State *L)
{
	static const char *const also[] = { "pond", "off", "on", NULL };
	struct tarn_pair pair = tarn_pair_default();
	struct tarn_pair_result r;
	struct tarn_pair_advice advice;
	struct tarn_findings list = { 0 };
	struct tarn_error err = { 0 };
	struct pond_box *box;

	bind_fields(L, 1, &tarn_pair_fields, &pair, also);
	lua_getfield(L, 1, "pond");
	box = bind_check_pond(L, -1);
	read_side(L, "off", &tarn_pair_off_fields, &pair);
	read_side(L, "on", &tarn_pair_on_fields, &pair);
	bind_must(L, tarn_pair_test(NULL, &box->made.pond, &pair, &r, &err), &err);
	bind_push(L, &tarn_pair_result_fields, &r);
	advice = tarn_pair_advise(&pair, &r);
	bind_push(L, &tarn_pair_advice_fields, &advice);
	lua_setfield(L, -2, "advice");
	bind_set(L, "matters", pair.matters_mm_d);
	tarn_pair_judge(&advice, &r, &list);
	bind_push_findings(L, &list);
	lua_setfield(L, -2, "findings");
	return 1;
}

static double pair_hours(double readings, double error_m, double loss_mm_d,
			 double spread_mm_d)
{
	return tarn_pair_hours((int)readings, error_m, loss_mm_d, spread_mm_d);
}

static const struct bind_plain plain[] = {
	{ BIND_PLAIN_("pair_hours", four, pair_hours, "h",
		      BIND_OPTION("readings", "-", 1, 100, 4),
		      BIND_OPTION("reading_error", "m", 1e-5, 0.1, 0.0254 / 16),
		      BIND_NUMBER("loss_mm_d", "mm/d", 1e-3, 1e4),
		      BIND_OPTION("spread_mm_d", "mm/d", 0, 1e4, 0)),
	  .named = 1 },
	{ .name = NULL }
};

void bind_pair(lua_State *L)
{
	lua_pushcfunction(L, l_pair);
	lua_setfield(L, -2, "pair");
	bind_add_plain(L, plain);
}
