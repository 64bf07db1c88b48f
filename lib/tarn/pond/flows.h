/* SPDX-License-Identifier: MIT */
#ifndef TARN_POND_FLOWS_H
#define TARN_POND_FLOWS_H

#include "tarn/pond.h"

/* Adds the volumes of a day or a period; unmet: the larger of the two. */
void tn_flows_add(struct tarn_flows *sum, const struct tarn_flows *f);

#endif
