/* SPDX-License-Identifier: MIT */
/* How a column changes a number. */
#include <math.h>

#include "tarn/study/engine.h"

double tn_variant_changed(double x, enum tarn_study_change change, double by)
{
	switch (change) {
	case TARN_TIMES:
		return x * by;
	case TARN_PLUS:
		return x + by;
	default:
		return by;
	}
}

/* It would be lost in silence. */
enum tarn_status tn_variant_check_given(double x,
					const struct tarn_study_column *column,
					struct tarn_error *err)
{
	if (column->change == TARN_SET || !isnan(x))
		return TARN_OK;
	return tarn_fail(err, TARN_EARG, column->field, "is not given in the "
			 "pond, so it cannot be changed by a factor or a sum: "
			 "set it");
}
