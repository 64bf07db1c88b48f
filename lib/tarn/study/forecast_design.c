/* SPDX-License-Identifier: MIT */
/* The forecast of a description: its budget, and the worlds. */
#include <math.h>

#include "tarn/forecast.h"

/* Does the weather's run have the centre of the budget in it already? */
#ifdef TARN_CALIBRATED_SD_LN
static enum tarn_status centred(const struct tarn_resolved *made,
				const struct tarn_sky *sky,
				struct tarn_exposure_budget *budget,
				double factor[2], struct tarn_error *err)
{
	(void)made;
	*budget = sky->budget;
	factor[0] = factor[1] = 1;
	if (isnan(budget->centre_sd_ln))
		return tarn_fail(err, TARN_EARG, "method", "%s has no centre: "
				 "its error is not known for ponds; take "
				 "another method",
				 tarn_method_name(sky->report.method));
	return TARN_OK;
}
#else
/* Most days have neither sun nor humidity measured. */
static int warmth_only(const struct tarn_evaporation_report *r)
{
	return 2 * r->origin_days[TARN_ORIGIN_HUMIDITY_TMIN] > r->days &&
	       2 * r->origin_days[TARN_ORIGIN_SOLAR_RANGE] > r->days;
}

static enum tarn_status centred(const struct tarn_resolved *made,
				const struct tarn_sky *sky,
				struct tarn_exposure_budget *budget,
				double factor[2], struct tarn_error *err)
{
	struct tarn_evaporation_options o = made->evaporation;
	enum tarn_status status;

	o.shelter = made->shelter_given;
	o.shade = made->shade_given;
	status = tarn_exposure_budget(&made->site, &o, sky->report.method,
				      warmth_only(&sky->report), budget, err);
	if (status != TARN_OK)
		return status;
	factor[0] = exp(budget->centre_ln);
	factor[1] = exp(budget->centre_ln -
			budget->mean_ln[TARN_TERM_METHOD]);
	/* given open water is taken to be this pond's */
	if (sky->report.method == TARN_GIVEN)
		factor[0] = factor[1] = 1;
	return TARN_OK;
}
#endif

static enum tarn_status with_centre(struct tarn_forecast *out,
				    const struct tarn_alloc *alloc,
				    const struct tarn_resolved *made,
				    const struct tarn_sky *sky,
				    const double factor[2],
				    const struct tarn_run *run,
				    const struct tarn_exposure_budget *budget,
				    const struct tarn_forecast_options *o,
				    struct tarn_error *err)
{
	struct tarn_forcing f = sky->forcing;
	enum tarn_status status;
	double *mm = tarn_resize(alloc, NULL, 2 * f.days * sizeof *mm);

	if (!mm)
		return tarn_fail(err, TARN_ENOMEM, "forecast", "out of memory");
	for (size_t i = 0; i < f.days; i++) {
		mm[i] = f.open_water_mm[i] * factor[0];
		mm[f.days + i] = f.grass_mm[i] * factor[1];
	}
	f.open_water_mm = mm;
	f.grass_mm = mm + f.days;
	status = tarn_forecast(out, alloc, &made->pond, &f, run, budget, o,
			       err);
	tarn_resize(alloc, mm, 0);
	return status;
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
	double factor[2];
	enum tarn_status status = centred(made, sky, budget, factor, err);

	if (status != TARN_OK)
		return status;
	return with_centre(out, alloc, made, sky, factor, run, budget, o, err);
}
