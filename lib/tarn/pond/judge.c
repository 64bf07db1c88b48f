/* SPDX-License-Identifier: MIT */
/* What a ledger had that none should. */
#include <stdio.h>

#include "tarn/pond.h"

static const struct {
	const char *code, *path, *unit;
	enum tarn_finding_verdict past;
} kinds[TARN_LEDGER_CHECKS] = {
	[TARN_LEDGER_DRY] = { "dry", "", "d", TARN_VERDICT_FORBIDS },
	[TARN_LEDGER_STARVED] = { "starved", "pump", "d",
				  TARN_VERDICT_FORBIDS },
	[TARN_LEDGER_UNDER_INTAKE] = { "under_intake", "intake", "d",
				       TARN_VERDICT_FORBIDS },
	[TARN_LEDGER_REFUSED] = { "refused", "supply", "d",
				  TARN_VERDICT_DOUBT },
	[TARN_LEDGER_UNMET] = { "unmet", "supply.rate", "m3",
				TARN_VERDICT_DOUBT },
};

static void add(struct tarn_findings *list, enum tarn_ledger_check_id id,
		double value)
{
	struct tarn_finding f = {
		.id = (int)id, .code = kinds[id].code, .value = value,
		.lo = TARN_NAN, .hi = 0, .unit = kinds[id].unit,
		.verdict = value > 1e-9 ? (int)kinds[id].past
					: TARN_VERDICT_HOLDS,
		.source = "the daily ledger", .evidence = TARN_EVIDENCE_OURS,
	};

	snprintf(f.path, sizeof f.path, "%s", kinds[id].path);
	tarn_findings_add(list, &f);
}

void tarn_ledger_judge(const struct tarn_pond *pond,
		       const struct tarn_period *period,
		       struct tarn_findings *list)
{
	add(list, TARN_LEDGER_DRY, period->dry);
	add(list, TARN_LEDGER_STARVED, period->starved);
	if (!isnan(pond->intake_m))
		add(list, TARN_LEDGER_UNDER_INTAKE, period->under_intake);
	add(list, TARN_LEDGER_REFUSED, period->refused);
	add(list, TARN_LEDGER_UNMET, period->flows.unmet_m3);
}
