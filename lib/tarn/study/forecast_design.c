/* SPDX-License-Identifier: MIT */
/* The forecast of a description: its budget, and the worlds. */
#include <math.h>

#include "tarn/forecast.h"

/* Most days have neither sun nor humidity measured. */
static int warmth_only(const struct tarn_evaporation_report *r)
{
	return 2 * r->origin_days[TARN_ORIGIN_HUMIDITY_TMIN] > r->days &&
	       2 * r->origin_days[TARN_ORIGIN_SOLAR_RANGE] > r->days;
}

enum tarn_status tarn_forecast_design(struct tarn_forecast *out,
				      struct tarn_exposure_budget *budget,
				      const struct tarn_alloc *alloc,
				      const struct tarn_resolved *made,
				      const struct tarn_sky *sky,
				      const struct tarn_run *run,
				      const struct tarn_forecast_options *o,
				      struct tarn_error *err)
{
	struct tarn_exposure site = tarn_exposure_default();
	enum tarn_status status =
		tarn_exposure_budget(&site, &made->evaporation,
				     sky->report.method,
				     warmth_only(&sky->report), budget, err);

	if (status != TARN_OK)
		return status;
	return tarn_forecast(out, alloc, &made->pond, &sky->forcing, run,
			     budget, o, err);
}
