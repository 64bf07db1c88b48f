/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_ORIFICE_H
#define TARN_FORMULAS_ORIFICE_H

/*
 * orifice: orifices.  Part of flow.h, whose first lines give the units and
 * conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Q = n cd A sqrt(2 g head).  Give two of flow, head, and the size (diameter
 * or area); the third is solved for.  Head: to the centre of the hole, or,
 * under water on both sides, the difference of levels.
 *
 * Errors: TARN_EARG, also where the size or the head that is found lies outside
 * what may be given: 1e-10 .. 300 m2, 0 .. 1e4 m.
 */
struct tarn_orifice {
	double flow_m3s;		/* of all holes */
	double head_m;
	double diameter_m, area_m2;	/* of one hole; give one */
	double count;			/* default 1 */
	double cd;			/* sharp edge 0.6 (default) */
};
TARN_API struct tarn_orifice tarn_orifice_default(void);
TARN_API extern const struct tarn_fields tarn_orifice_fields;

struct tarn_orifice_flow {
	double flow_m3s, head_m, diameter_m, area_m2;
	double velocity_ms;		/* flow / area of the holes */
	double jet_velocity_ms;		/* sqrt(2 g head), where it is
					   narrowest, without loss */
};
TARN_API extern const struct tarn_fields tarn_orifice_flow_fields;
TARN_API enum tarn_status tarn_orifice_solve(const struct tarn_orifice *orifice,
					     struct tarn_orifice_flow *out,
					     struct tarn_error *err);

#ifdef __cplusplus
}
#endif
#endif
