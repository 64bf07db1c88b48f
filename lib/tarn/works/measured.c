/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/commission.h"

static const struct {
	double share;
	int is_level;
} kinds[TARN_MEASURED_KINDS] = {
	[TARN_MEASURED_FLOW] = { 0.10, 0 },
	[TARN_MEASURED_RISE] = { 0.25, 1 },
	[TARN_MEASURED_DROP] = { 0.25, 1 },
	[TARN_MEASURED_FILL] = { 0.10, 0 },
	[TARN_MEASURED_POWER] = { 0.10, 0 },
};

struct tarn_measured tarn_measured(enum tarn_measured_kind kind,
				   double design, double measured)
{
	struct tarn_measured m = { TARN_MEASURED_NO_DESIGN, TARN_NAN,
				   TARN_NAN, TARN_VERDICT_DOUBT };
	double share, ruler;

	if (isnan(design) || (unsigned)kind >= TARN_MEASURED_KINDS)
		return m;
	share = kinds[kind].share;
	ruler = kinds[kind].is_level ? TARN_MEASURED_RULER_M : 0;
	if (design > 0) {
		m.off = measured / design - 1;
		m.room = fmax(share, ruler / design);
	}
	if (fabs(m.off) <= share || fabs(measured - design) <= ruler)
		m.word = TARN_MEASURED_AGREES;
	else
		m.word = measured < design ? TARN_MEASURED_LOW
					   : TARN_MEASURED_HIGH;
	m.verdict = m.word == TARN_MEASURED_AGREES ? TARN_VERDICT_HOLDS
						   : TARN_VERDICT_FORBIDS;
	return m;
}

static const char *const words[] = {
	"no_design", "agrees", "low", "high", NULL
};

#define T struct tarn_measured
static const struct tarn_field rows[] = {
	TARN_OUT_CHOICE(T, word, "word", words, "beside the design"),
	TARN_OUT_NUMBER(T, off, "off", "-", "measured / design - 1"),
	TARN_OUT_NUMBER(T, room, "room", "-",
			"share off within which it agrees"),
	TARN_OUT_CHOICE(T, verdict, "verdict", tarn_verdict_names,
			"by the same"),
};
TARN_FIELDS(tarn_measured_fields, "measured", rows);
#undef T
