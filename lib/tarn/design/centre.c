/* SPDX-License-Identifier: MIT */
/* Where the budget of a place goes into its evaporation. */
#include <math.h>

#include "tarn/design/centre.h"

struct tarn_pond_place tn_design_place(const struct tarn_design *d)
{
	return (struct tarn_pond_place){
		.site = d->site, .shelter = d->evaporation.shelter,
		.shade = d->evaporation.shade,
		.open_water_factor = d->pond.open_water_factor
	};
}

/* Most days have neither sun nor humidity measured. */
static int warmth_only(const struct tarn_evaporation_report *r)
{
	return 2 * r->origin_days[TARN_ORIGIN_HUMIDITY_TMIN] > r->days &&
	       2 * r->origin_days[TARN_ORIGIN_SOLAR_RANGE] > r->days;
}

enum tarn_status tn_place_exposure(const struct tarn_pond_place *place,
				   const struct tarn_evaporation_report *report,
				   struct tarn_exposure_budget *out,
				   struct tarn_error *err)
{
	struct tarn_evaporation_options o = { .shelter = place->shelter,
					      .shade = place->shade };
	enum tarn_status status = tarn_exposure_budget(
		&place->site, &o, report->method, warmth_only(report), out,
		err);

	if (status == TARN_OK && !isnan(place->open_water_factor)) {
		out->centre_ln = 0;
		out->centre_sd_ln = TARN_CALIBRATED_SD_LN;
		out->calibrated = 1;
	}
	return status;
}

enum tarn_status
tarn_design_exposure(const struct tarn_resolved *made,
		     const struct tarn_evaporation_report *report,
		     struct tarn_exposure_budget *out, struct tarn_error *err)
{
	return tn_place_exposure(&made->place, report, out, err);
}

enum tarn_status tn_place_centre(const struct tarn_pond_place *place,
				 struct tarn_evaporation_report *report,
				 size_t days, double *open_water_mm,
				 double *grass_mm, struct tarn_error *err)
{
	struct tarn_exposure_budget b;
	enum tarn_status status;

	if (isnan(tarn_method_centre(report->method, 0).median))
		return TARN_OK;
	status = tn_place_exposure(place, report, &b, err);
	if (status != TARN_OK)
		return status;
	report->centre = exp(b.centre_ln);
	report->grass_centre = exp(b.grass_ln);
	for (size_t i = 0; i < days; i++) {
		open_water_mm[i] *= report->centre;
		grass_mm[i] *= report->grass_centre;
	}
	return TARN_OK;
}

enum tarn_status tn_place_run(const struct tarn_pond_place *place,
			      const struct tarn_weather *w,
			      const struct tarn_evaporation_options *o,
			      double *open_water_mm, double *grass_mm,
			      struct tarn_evaporation_report *report,
			      struct tarn_error *err)
{
	struct tarn_evaporation_report r;
	enum tarn_status status = tarn_evaporation_run(w, o, open_water_mm,
						       grass_mm, NULL, &r,
						       err);

	if (status != TARN_OK)
		return status;
	status = tn_place_centre(place, &r, tarn_weather_days(w),
				 open_water_mm, grass_mm, err);
	if (status == TARN_OK && report)
		*report = r;
	return status;
}
