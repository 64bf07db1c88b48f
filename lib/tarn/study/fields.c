/* SPDX-License-Identifier: MIT */
#include "tarn/study.h"

#define T struct tarn_budget
static const struct tarn_field budget_rows[] = {
	TARN_IN_REQUIRED(T, reference, "reference", "", 0, 1e5,
			 "grass reference of the period"),
	TARN_IN_REQUIRED(T, unit, "unit", "", 0, 1e5,
			 "constant of the ordinance"),
	TARN_IN_REQUIRED(T, area, "area", "", 0, 1e9, "of the hydrozone"),
	TARN_IN_VALUE(T, special_area, "special_area", "", 0, 1e9, 0,
		      "of special areas"),
	TARN_IN_REQUIRED(T, adjustment, "adjustment", "", 0, 1,
			 "adjustment factor"),
	TARN_IN_REQUIRED(T, plant_factor, "plant_factor", "", 0, 2,
			 "of the hydrozone"),
	TARN_IN_VALUE(T, efficiency, "efficiency", "", 0.01, 1, 1,
		      "of irrigation"),
};
TARN_FIELDS(tarn_budget_fields, "budget", budget_rows);
#undef T

/* ---- results ------------------------------------------------------------- */

#define T struct tarn_quantity_info
static const struct tarn_field quantity_rows[] = {
	TARN_OUT_STRING(T, name, "name", "of the quantity"),
	TARN_OUT_STRING(T, unit, "unit", "of its values"),
	TARN_OUT_STRING(T, meaning, "meaning", "in words"),
};
TARN_FIELDS(tarn_quantity_info_fields, "quantity", quantity_rows);
#undef T

#define T struct tarn_swing
static const struct tarn_field swing_rows[] = {
	TARN_OUT_NUMBER(T, base, "base", "-", "result as it is"),
	TARN_OUT_NUMBER(T, low, "low", "-", "result at the low end"),
	TARN_OUT_NUMBER(T, high, "high", "-", "result at the high end"),
	TARN_OUT_NUMBER(T, swing, "swing", "-",
			"largest less smallest of the three"),
	TARN_OUT_COUNT(T, rank, "rank", "-", "1 for the largest swing"),
};
TARN_FIELDS(tarn_swing_fields, "swing", swing_rows);
#undef T

#define T struct tarn_sensitivity
static const struct tarn_field sensitivity_rows[] = {
	TARN_OUT_NUMBER(T, first, "first", "-",
			"share of the variance that it explains alone"),
	TARN_OUT_NUMBER(T, first_low, "first_low", "-", "95 % interval"),
	TARN_OUT_NUMBER(T, first_high, "first_high", "-", "95 % interval"),
	TARN_OUT_NUMBER(T, total, "total", "-",
			"share with all that it takes part in"),
	TARN_OUT_NUMBER(T, total_low, "total_low", "-", "95 % interval"),
	TARN_OUT_NUMBER(T, total_high, "total_high", "-", "95 % interval"),
};
TARN_FIELDS(tarn_sensitivity_fields, "sensitivity", sensitivity_rows);
#undef T
