/* SPDX-License-Identifier: MIT */
/* What a log and a bucket test say, as findings. */
#include "tarn/leak_advice.h"

static const struct {
	const char *code, *unit;
} kinds[TARN_LEAK_CHECKS] = {
	[TARN_LEAK_LOG] = { "log", "mm/d" },
	[TARN_LEAK_FACTOR] = { "factor", "-" },
	[TARN_LEAK_LOW] = { "low_readings", "-" },
	[TARN_LEAK_HELD] = { "held", "-" },
	[TARN_LEAK_OFF] = { "off", "mm/d" },
	[TARN_LEAK_ON] = { "on", "mm/d" },
};

static void add(struct tarn_findings *list, enum tarn_leak_check_id id,
		double value, double lo, double hi,
		enum tarn_finding_verdict verdict)
{
	struct tarn_finding f = {
		.id = (int)id, .code = kinds[id].code, .value = value,
		.lo = lo, .hi = hi, .verdict = (int)verdict,
		.unit = kinds[id].unit,
		.source = "the ledger of the same days",
		.evidence = TARN_EVIDENCE_OURS,
	};

	tarn_findings_add(list, &f);
}

static void add_loss(struct tarn_findings *list, enum tarn_leak_check_id id,
		     const struct tarn_estimate *loss,
		     enum tarn_finding_verdict verdict)
{
	add(list, id, loss->mean, loss->low, loss->high, verdict);
}

void tarn_log_judge(const struct tarn_log_advice *advice,
		    const struct tarn_leak_result *result,
		    const struct tarn_log_doubts *doubts,
		    struct tarn_findings *list)
{
	static const enum tarn_finding_verdict verdicts[] = {
		[TARN_LOG_GAINS] = TARN_VERDICT_DOUBT,
		[TARN_LOG_LOSES] = TARN_VERDICT_FORBIDS,
		[TARN_LOG_LOSES_SINCE] = TARN_VERDICT_FORBIDS,
		[TARN_LOG_SOUND] = TARN_VERDICT_HOLDS,
		[TARN_LOG_UNCLEAR] = TARN_VERDICT_DOUBT,
		[TARN_LOG_MAYBE_HELD] = TARN_VERDICT_DOUBT,
		[TARN_LOG_HELD] = TARN_VERDICT_DOUBT,
	};

	if (advice->word == TARN_LOG_HELD) {	/* it shows no loss at all */
		add(list, TARN_LEAK_HELD, TARN_NAN, TARN_NAN, TARN_NAN,
		    TARN_VERDICT_DOUBT);
		return;
	}
	add_loss(list, TARN_LEAK_LOG, &result->unexplained_mm_d,
		 verdicts[advice->word]);
	add(list, TARN_LEAK_FACTOR, advice->factor,
	    result->prior.mean - TARN_FACTOR_FAR * result->prior.sd,
	    result->prior.mean + TARN_FACTOR_FAR * result->prior.sd,
	    advice->factor_far ? TARN_VERDICT_DOUBT : TARN_VERDICT_HOLDS);
	add(list, TARN_LEAK_LOW, (double)doubts->low, TARN_NAN, 0,
	    doubts->low ? TARN_VERDICT_DOUBT : TARN_VERDICT_HOLDS);
}

void tarn_pair_judge(const struct tarn_pair_advice *advice,
		     const struct tarn_pair_result *result,
		     struct tarn_findings *list)
{
	static const enum tarn_finding_verdict verdicts[] = {
		[TARN_HALF_NOT_DONE] = TARN_VERDICT_HOLDS,
		[TARN_HALF_GAINS] = TARN_VERDICT_DOUBT,
		[TARN_HALF_LOSES] = TARN_VERDICT_FORBIDS,
		[TARN_HALF_SOUND] = TARN_VERDICT_HOLDS,
		[TARN_HALF_UNCLEAR] = TARN_VERDICT_DOUBT,
	};

	if (result->has_off)
		add_loss(list, TARN_LEAK_OFF, &result->off.unexplained_mm_d,
			 verdicts[advice->off.word]);
	if (result->has_on)
		add_loss(list, TARN_LEAK_ON, &result->on.unexplained_mm_d,
			 verdicts[advice->on.word]);
}
