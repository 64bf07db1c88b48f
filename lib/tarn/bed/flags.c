/* SPDX-License-Identifier: MIT */
#include "tarn/bed/rows.h"

const struct tarn_flag tn_bed_flag_rows[] = {
	{ TARN_BED_EXTRAPOLATED, "extrapolated",
	  "the loading is outside the range in which the removal rate was "
	  "measured: the removal is a guess" },
	{ TARN_BED_RATE_UNPLACED, "rate_unplaced",
	  "it is not said at which loadings the removal rate was measured: "
	  "whether it holds here is not known" },
	{ TARN_BED_UNDER_BACKGROUND, "under_background",
	  "the inlet is under the background: the bed adds to it" },
	{ TARN_BED_NOTHING_TO_DO, "nothing_to_do",
	  "the target is not under the inlet: no treatment is needed" },
	{ TARN_BED_FLOW_SHORT, "flow_short",
	  "at this flow even a perfect bed cannot hold the target: pump more" },
	{ TARN_BED_TARGET_MISSED, "target_missed",
	  "the bed does not reach the target" },
	{ TARN_BED_LOW_OXYGEN, "low_oxygen",
	  "little oxygen is left at the outlet" },
	{ TARN_BED_ANAEROBIC, "anaerobic",
	  "the flow brings less oxygen than the bed uses: it goes anaerobic" },
	{ TARN_BED_OXYGEN_ASSUMED, "oxygen_assumed",
	  "the inlet's oxygen was not given: a share of saturation is "
	  "assumed" },
	{ TARN_BED_HEAD_SHORT, "head_short",
	  "the clogged bed needs more head than there is" },
	{ TARN_BED_WATER_ON_GRAVEL, "water_on_gravel",
	  "water would stand on the gravel: widen the lip or its side, lay "
	  "an open trough before it, coarsen the top layer or lower the lip" },
	{ TARN_BED_NO_DARCY, "no_darcy",
	  "the flow in the stone is not linear: Darcy's law reads too low, "
	  "Ergun's is used" },
	{ TARN_BED_BEYOND_ERGUN, "beyond_ergun",
	  "the flow is faster than Ergun's data: the head loss is uncertain" },
	{ TARN_BED_DOES_NOT_FIT, "does_not_fit",
	  "the bed is larger than the room for it" },
	{ TARN_BED_LOADING_OUTSIDE, "loading_outside",
	  "the loading is outside what is published or usual for garden "
	  "beds" },
	{ TARN_BED_SECTION_OVERLOAD, "section_overload",
	  "more BOD on the inlet's cross-section than the limit: it clogs" },
	{ TARN_BED_AREA_OVERLOAD, "area_overload",
	  "more BOD or solids on the bed's area than the limit" },
	{ TARN_BED_LOADING_ASSUMED, "loading_assumed",
	  "the loading is the geometric middle of the regime's range" },
	{ TARN_BED_NO_CHAMBER, "no_chamber",
	  "no open layer under the stone: solids settle in the stone itself" },
	{ TARN_BED_CLEAN_OUT, "clean_out",
	  "stone clogs: build a clean-out that a hose and a pump can reach" },
	{ TARN_BED_TOO_SMALL, "too_small",
	  "the bed is smaller than a rule asks for" },
	{ TARN_BED_NO_STEADY_STATE, "no_steady_state",
	  "nothing takes it out: it rises for ever" },
	{ TARN_BED_RAIN_DOMINATES, "rain_dominates",
	  "rain or evapotranspiration is more than a tenth of the flow" },
	{ .name = NULL }
};

const struct tarn_flag *tarn_bed_flags(size_t *count)
{
	*count = sizeof tn_bed_flag_rows / sizeof tn_bed_flag_rows[0] - 1;
	return tn_bed_flag_rows;
}
