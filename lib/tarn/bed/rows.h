/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_ROWS_H
#define TARN_BED_ROWS_H

/* Rows that the wing's results share. */

#include "tarn/bed.h"

/* Names of enum tarn_flow_regime, NULL-terminated. */
extern const char *const tn_flow_regimes[];

/* All flags, in the order of their bits, up to a name NULL. */
extern const struct tarn_flag tn_bed_flag_rows[];

/* The flags of a result, and whether one of them is a refusal. */
#define BED_FLAG_ROWS(T)                                                     \
	TARN_OUT_FLAGS(T, flags, "flags", tn_bed_flag_rows,                \
		       "doubts and refusals, each with a sentence"),         \
	TARN_OUT_FLAG(T, flags, "refused", TARN_BED_REFUSALS,                 \
		     "it cannot be built or does not do its job")

#endif
