/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "tarn/study.h"

/* Which rain tank does what is wished. */

double tarn_tank_capacity(const double *capacity_m3, const double *share,
			  size_t count, double wanted)
{
	for (size_t i = 0; i < count; i++) {
		if (!(share[i] >= wanted))
			continue;
		if (i == 0 || !(share[i - 1] < wanted))
			return capacity_m3[i];
		return capacity_m3[i - 1] +
		       (wanted - share[i - 1]) / (share[i] - share[i - 1]) *
		       (capacity_m3[i] - capacity_m3[i - 1]);
	}
	return TARN_NAN;
}

void tarn_tank_beyond(double last_m3, double all_m3, double *out_m3,
		      size_t count)
{
	double ratio = all_m3 / last_m3;

	for (size_t i = 0; i < count; i++)
		out_m3[i] = last_m3 > 0 && ratio > 1
			? last_m3 * pow(ratio, (double)(i + 1) / (double)count)
			: TARN_NAN;
	if (count > 0 && last_m3 > 0 && ratio > 1)
		out_m3[count - 1] = all_m3;
}

struct tarn_tank_answer tarn_tank_answer(const double *capacity_m3,
					 const double *share, size_t listed,
					 size_t count, double wanted)
{
	struct tarn_tank_answer a = { TARN_TANK_NONE, TARN_NAN, TARN_NAN };

	if (count > 0)
		a.most = share[count - 1];
	a.capacity_m3 = tarn_tank_capacity(capacity_m3, share, listed, wanted);
	if (!isnan(a.capacity_m3)) {
		a.word = TARN_TANK_LISTED;
		return a;
	}
	a.capacity_m3 = tarn_tank_capacity(capacity_m3, share, count, wanted);
	if (!isnan(a.capacity_m3))
		a.word = TARN_TANK_BEYOND;
	return a;
}

static const char *const words[] = { "listed", "beyond", "none", NULL };

#define T struct tarn_tank_answer
static const struct tarn_field rows[] = {
	TARN_OUT_CHOICE(T, word, "word", words, "where the size is"),
	TARN_OUT_NUMBER(T, capacity_m3, "capacity", "m3",
			"smallest that reaches the share"),
	TARN_OUT_NUMBER(T, most, "most", "-",
			"share of the largest that was tried"),
};
TARN_FIELDS(tarn_tank_answer_fields, "tank_answer", rows);
#undef T
