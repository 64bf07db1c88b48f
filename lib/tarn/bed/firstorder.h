/* SPDX-License-Identifier: MIT */
#ifndef TARN_BED_FIRSTORDER_H
#define TARN_BED_FIRSTORDER_H

/* First-order removal, the law that formulas/treatment.h states. */

#include "tarn/bed.h"

/*
 * remaining: (Co - C*) / (Ci - C*) from k/q; NaN unless k/q >= 0, tanks >= 1.
 * effort:    k/q from that ratio; NaN unless 0 < ratio <= 1.
 */
double tn_treatment_remaining(double k_over_q, double tanks);
double tn_treatment_effort(double remaining, double tanks);

/* k at a temperature, k20 theta^(T - 20).  NaN unless k20 >= 0, theta > 0,
 * 0 <= T <= 40. */
double tn_rate_at(double k20, double theta, double temp_c);

#endif
