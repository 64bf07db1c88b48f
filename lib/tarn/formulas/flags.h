/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_FLAGS_H
#define TARN_FORMULAS_FLAGS_H

/*
 * flags: doubts and refusals that results of a bed carry.  Part of bed.h,
 * whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Doubts and refusals that a result carries, as bits.  A refusal (see
 * TARN_BED_REFUSALS) means that the bed cannot be built or does not do its
 * job; the others must be told to the user.
 */
#define TARN_BED_EXTRAPOLATED	  (1u << 0)
#define TARN_BED_RATE_UNPLACED	  (1u << 1)
#define TARN_BED_UNDER_BACKGROUND (1u << 2)
#define TARN_BED_NOTHING_TO_DO	  (1u << 3)
#define TARN_BED_FLOW_SHORT	  (1u << 4)
#define TARN_BED_TARGET_MISSED	  (1u << 5)
#define TARN_BED_LOW_OXYGEN	  (1u << 6)
#define TARN_BED_ANAEROBIC	  (1u << 7)
#define TARN_BED_OXYGEN_ASSUMED	  (1u << 8)
#define TARN_BED_HEAD_SHORT	  (1u << 9)
#define TARN_BED_WATER_ON_GRAVEL  (1u << 10)
#define TARN_BED_NO_DARCY	  (1u << 11)
#define TARN_BED_BEYOND_ERGUN	  (1u << 12)
#define TARN_BED_DOES_NOT_FIT	  (1u << 13)
#define TARN_BED_LOADING_OUTSIDE  (1u << 14)
#define TARN_BED_SECTION_OVERLOAD (1u << 15)
#define TARN_BED_AREA_OVERLOAD	  (1u << 16)
#define TARN_BED_LOADING_ASSUMED  (1u << 17)
#define TARN_BED_NO_CHAMBER	  (1u << 18)
#define TARN_BED_CLEAN_OUT	  (1u << 19)
#define TARN_BED_TOO_SMALL	  (1u << 20)
#define TARN_BED_NO_STEADY_STATE  (1u << 21)
#define TARN_BED_RAIN_DOMINATES	  (1u << 22)

#define TARN_BED_REFUSALS                                            \
	(TARN_BED_FLOW_SHORT | TARN_BED_TARGET_MISSED |              \
	 TARN_BED_ANAEROBIC | TARN_BED_HEAD_SHORT |                  \
	 TARN_BED_WATER_ON_GRAVEL | TARN_BED_DOES_NOT_FIT |          \
	 TARN_BED_SECTION_OVERLOAD)

/* All flags, in the order of their bits; *count is filled. */
TARN_API const struct tarn_flag *tarn_bed_flags(size_t *count);

#ifdef __cplusplus
}
#endif
#endif
