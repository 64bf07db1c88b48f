/* SPDX-License-Identifier: MIT */
/* The forecast of a description: its budget, and the worlds. */
#include "tarn/forecast.h"

enum tarn_status tarn_forecast_design(struct tarn_forecast *out,
				      struct tarn_exposure_budget *budget,
				      const struct tarn_alloc *alloc,
				      const struct tarn_resolved *made,
				      const struct tarn_sky *sky,
				      const struct tarn_run *run,
				      const struct tarn_forecast_options *o,
				      struct tarn_error *err)
{
	enum tarn_status status = tarn_design_exposure(made, &sky->report,
						       budget, err);

	if (status != TARN_OK)
		return status;
	return tarn_forecast(out, alloc, &made->pond, &sky->forcing, run,
			     budget, o, err);
}
