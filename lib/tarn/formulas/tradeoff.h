/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_TRADEOFF_H
#define TARN_FORMULAS_TRADEOFF_H

/*
 * tradeoff: many beds compared: area, depth and flow.  Part of bed.h, whose
 * first lines give the units and conventions.
 */

#include "tarn/formulas/sizing.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Checks every area x depth x flow.  'out' is filled with
 * areas * depths * flows entries, flow fastest; a cell is infeasible where
 * flags & TARN_BED_REFUSALS, and its flags say why.  Errors: TARN_EARG.
 */
struct tarn_tradeoff {
	const double *area_m2, *depth_m, *flow_m3s;	/* borrowed */
	size_t areas, depths, flows;
};
TARN_API extern const struct tarn_fields tarn_tradeoff_fields;

TARN_API enum tarn_status tarn_tradeoff(const struct tarn_sizing *base,
					const struct tarn_tradeoff *axes,
					struct tarn_bed_check out[],
					struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
