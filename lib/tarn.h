/* SPDX-License-Identifier: MIT */
#ifndef TARN_H
#define TARN_H

/*
 * Tarn: the water ledger of a small recirculating pond, and the sizing of
 * the planted gravel bed that filters it.  One include for all wings.
 */

#include "tarn/base.h"
#include "tarn/finding.h"
#include "tarn/weather.h"
#include "tarn/weather_file.h"
#include "tarn/flow.h"
#include "tarn/bed.h"
#include "tarn/bed_plan.h"
#include "tarn/evaporation.h"
#include "tarn/exposure.h"
#include "tarn/pond.h"
#include "tarn/season.h"
#include "tarn/leak.h"
#include "tarn/leak_advice.h"
#include "tarn/works.h"
#include "tarn/commission.h"
#include "tarn/takeoff.h"
#include "tarn/measure.h"
#include "tarn/value.h"
#include "tarn/design.h"
#include "tarn/study.h"
#include "tarn/forecast.h"
#include "tarn/climate.h"

#endif
