/* SPDX-License-Identifier: MIT */
/* What checks found. */
#include "bind_pond.h"

void bind_push_findings(lua_State *L, const struct tarn_findings *list)
{
	bind_push_list(L, &tarn_finding_fields, list->finding,
		       (size_t)list->count, sizeof list->finding[0]);
}

/* pond:ledger_findings(ledger) -> list: what its days had that none should */
static int l_ledger_findings(lua_State *L)
{
	const struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_findings list = { 0 };
	size_t next;
	struct tarn_period p = tarn_ledger_period(bind_check_ledger(L, 2),
						  TARN_BY_RUN, 0, &next);

	tarn_ledger_judge(&box->made.pond, &p, &list);
	bind_push_findings(L, &list);
	return 1;
}

/* pond:findings() -> list: what the description says twice; levels, storm and
 * intake against their limits */
static int l_findings(lua_State *L)
{
	const struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_findings list = { 0 };
	struct tarn_error err = { 0 };

	tarn_design_judge(box->given, &box->made, &list);
	bind_must(L, tarn_works_judge(&box->made.works, &box->made.pond,
				      &box->made.flow, &list, &err), &err);
	bind_push_findings(L, &list);
	return 1;
}

/* pond:intake() -> its opening and speeds, nil where none is described */
static int l_intake(lua_State *L)
{
	const struct pond_box *box = bind_check_pond(L, 1);
	struct tarn_intake_flow in;
	struct tarn_error err = { 0 };

	if (!tarn_works_intake(&box->made.works, &box->made.pond,
			       box->made.flow.flow_m3s, &in, &err)) {
		bind_must(L, err.code, &err);
		return 0;
	}
	bind_push(L, &tarn_intake_flow_fields, &in);
	return 1;
}

void bind_finding(lua_State *L)
{
	static const luaL_Reg methods[] = {
		{ "findings", l_findings }, { "intake", l_intake },
		{ "ledger_findings", l_ledger_findings },
		{ NULL, NULL }
	};

	bind_methods(L, POND_T, methods);
}
