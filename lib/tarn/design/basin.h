/* SPDX-License-Identifier: MIT */
#ifndef TARN_DESIGN_BASIN_H
#define TARN_DESIGN_BASIN_H

#include "tarn/design.h"

/* Whether anything is said of the basin. */
int design_basin_given(const struct tarn_basin_wish *wish);

/* New, as described.  Errors: those of tarn_basin_table and _shelved. */
enum tarn_status design_basin_make(const struct tarn_basin_wish *wish,
				   const struct tarn_alloc *alloc,
				   struct tarn_basin **out,
				   struct tarn_error *err);

#endif
