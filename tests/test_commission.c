/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

#include "tarn/commission.h"

#define TINY 1e-9

static int word(enum tarn_measured_kind kind, double design, double measured)
{
	return tarn_measured(kind, design, measured).word;
}

/* Both ends of each kind's share, on a design so large that no ruler helps. */
Test(commission, both_sides_of_each_share)
{
	static const struct {
		enum tarn_measured_kind kind;
		double share;
	} rows[] = {
		{ TARN_MEASURED_FLOW, 0.10 },  { TARN_MEASURED_RISE, 0.25 },
		{ TARN_MEASURED_DROP, 0.25 },  { TARN_MEASURED_FILL, 0.10 },
		{ TARN_MEASURED_POWER, 0.10 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		enum tarn_measured_kind k = rows[i].kind;
		double in = 40 * (rows[i].share - TINY);
		double out = 40 * (rows[i].share + TINY);

		cr_expect(word(k, 40, 40 + in) == TARN_MEASURED_AGREES);
		cr_expect(word(k, 40, 40 - in) == TARN_MEASURED_AGREES);
		cr_expect(word(k, 40, 40 + out) == TARN_MEASURED_HIGH);
		cr_expect(word(k, 40, 40 - out) == TARN_MEASURED_LOW);
		cr_expect(fabs(tarn_measured(k, 40, 44).off - 0.1) < TINY);
		cr_expect(fabs(tarn_measured(k, 40, 44).room -
			       rows[i].share) < TINY);
	}
}

Test(commission, a_ruler_tells_no_less_than_its_step)
{
	double step = TARN_MEASURED_RULER_M;
	struct tarn_measured m;

	cr_expect(word(TARN_MEASURED_RISE, step, 2 * step - TINY) ==
		  TARN_MEASURED_AGREES);
	cr_expect(word(TARN_MEASURED_RISE, step, 2 * step + TINY) ==
		  TARN_MEASURED_HIGH);
	m = tarn_measured(TARN_MEASURED_DROP, step, step);
	cr_expect(fabs(m.room - 1) < TINY && fabs(m.off) < TINY);
	/* a flow has no ruler */
	cr_expect(word(TARN_MEASURED_FLOW, step, 2 * step - TINY) ==
		  TARN_MEASURED_HIGH);
}

Test(commission, without_a_design_or_with_none_to_come_back)
{
	struct tarn_measured m = tarn_measured(TARN_MEASURED_RISE, TARN_NAN, 1);

	cr_expect(m.word == TARN_MEASURED_NO_DESIGN);
	cr_expect(isnan(m.off) && isnan(m.room));
	m = tarn_measured(TARN_MEASURED_RISE, 0, 0.01);
	cr_expect(m.word == TARN_MEASURED_HIGH && isnan(m.off));
	cr_expect(word(TARN_MEASURED_RISE, 0, TARN_MEASURED_RULER_M) ==
		  TARN_MEASURED_AGREES);
	cr_expect(word(TARN_MEASURED_POWER, 0, 1) == TARN_MEASURED_HIGH);
	cr_expect(strcmp(tarn_fields_find(&tarn_measured_fields, "word")
				 ->choices[TARN_MEASURED_HIGH], "high") == 0);
}
