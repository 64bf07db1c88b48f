/* SPDX-License-Identifier: MIT */
#ifndef TARN_POND_FLOWS_H
#define TARN_POND_FLOWS_H

#include "tarn/pond.h"

/* Adds the volumes of a day or a period; unmet: the larger of the two. */
void tn_flows_add(struct tarn_flows *sum, const struct tarn_flows *f);

/*
 * Top-up of the largest week of each calendar year that the ledger has whole,
 * into peak_m3 in their order; returns how many.  A week is an ISO 8601 week
 * and belongs to the year of its Thursday (tarn_week); one that the ledger's
 * ends or days left out cut off counts with the days that it has.  largest_m3
 * becomes that of all weeks of the ledger.
 */
size_t tn_week_peaks(const struct tarn_ledger *ledger, double *peak_m3,
		     double *largest_m3);

#endif
