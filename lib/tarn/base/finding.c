/* SPDX-License-Identifier: MIT */
#include "tarn/finding.h"

const char *const tarn_verdict_names[] = {
	"holds", "doubt", "forbids", NULL
};

#define OF struct tarn_finding
static const struct tarn_field rows[] = {
	TARN_OUT_STRING(OF, code, "id", "which check"),
	TARN_OUT_TEXT(OF, path, "path", "field that it is about"),
	TARN_OUT_NUMBER(OF, value, "value", "-", "found, in 'unit'"),
	TARN_OUT_NUMBER(OF, lo, "low", "-", "least accepted"),
	TARN_OUT_NUMBER(OF, hi, "high", "-", "most accepted"),
	TARN_OUT_NUMBER(OF, margin, "margin", "-",
			"so many times to the limit; under 1: past it"),
	TARN_OUT_CHOICE(OF, verdict, "verdict", tarn_verdict_names,
			"what is so by it"),
	TARN_OUT_SWITCH(OF, guess, "guess", "the value rests on a guess"),
	TARN_OUT_STRING(OF, unit, "unit", "of value and limits"),
	TARN_OUT_STRING(OF, source, "source", "of the limit"),
	TARN_OUT_CHOICE(OF, evidence, "evidence", tarn_evidence_texts,
			"how far to trust it"),
};
TARN_FIELDS(tarn_finding_fields, "check", rows);
#undef OF

/* Times that a value may grow to hi or shrink to lo, the less of both. */
static double margin(const struct tarn_finding *f)
{
	double up = f->value > 0 && f->hi > 0 ? f->hi / f->value : HUGE_VAL;
	double down = f->lo > 0 ? f->value / f->lo : HUGE_VAL;

	return fmin(up, down);
}

void tarn_findings_add(struct tarn_findings *list,
		       const struct tarn_finding *finding)
{
	struct tarn_finding *put = &list->finding[0];

	if (list->count < TARN_FINDINGS_MAX) {
		put = &list->finding[list->count++];
	} else {
		for (int i = 1; i < list->count; i++)
			if (list->finding[i].verdict < put->verdict)
				put = &list->finding[i];
		list->left_out++;
		if (put->verdict >= finding->verdict)
			return;
	}
	*put = *finding;
	put->margin = margin(finding);
}

int tarn_findings_worst(const struct tarn_findings *list)
{
	int worst = TARN_VERDICT_HOLDS;

	for (int i = 0; i < list->count; i++)
		if (list->finding[i].verdict > worst)
			worst = list->finding[i].verdict;
	return worst;
}
