/* SPDX-License-Identifier: MIT */
#ifndef TARN_STUDY_FORECAST_DROPS_H
#define TARN_STUDY_FORECAST_DROPS_H

#include "tarn/forecast.h"

/*
 * Fall of the level in a whole week by the losses alone, mm, by the month of
 * its Thursday: over the weeks and what is not known of a week's evaporation,
 *
 *   ln factor = normal, sd^2 = centre_sd_ln^2 + slow_sd_ln^2 + day_sd^2 / 7
 *
 * on open water, bed and stream; splash and seepage are as described.
 * Errors: as tarn_ledger_run.
 */
enum tarn_status tn_forecast_drops(struct tarn_spread drop_mm[12],
				   const struct tarn_alloc *alloc,
				   const struct tarn_pond *pond,
				   const struct tarn_forcing *forcing,
				   const struct tarn_run *run,
				   const struct tarn_exposure_budget *budget,
				   struct tarn_error *err);

#endif
