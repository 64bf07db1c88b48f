/* SPDX-License-Identifier: MIT */
#include "bind.h"

/* measured(kind, design | nil, measured) -> word, off, room */
static int l_measured(lua_State *L)
{
	static const char *const kinds[] = {
		[TARN_MEASURED_FLOW] = "flow", [TARN_MEASURED_RISE] = "rise",
		[TARN_MEASURED_DROP] = "drop", [TARN_MEASURED_FILL] = "fill",
		[TARN_MEASURED_POWER] = "power", NULL
	};
	int kind = luaL_checkoption(L, 1, NULL, kinds);
	double design = lua_isnoneornil(L, 2) ? TARN_NAN
		: bind_number(L, 2, "design", 0, 1e12);
	double measured = bind_number(L, 3, "measured", 0, 1e12);
	struct tarn_measured m = tarn_measured((enum tarn_measured_kind)kind,
					       design, measured);

	bind_push(L, &tarn_measured_fields, &m);
	return 1;
}

void bind_commission(lua_State *L)
{
	lua_pushcfunction(L, l_measured);
	lua_setfield(L, -2, "measured");
}
