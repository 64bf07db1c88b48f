#ifndef TARN_DESIGN_CENTRE_H
#define TARN_DESIGN_CENTRE_H

/* Evaporation of a description: the method's run, and the centre of its place's
 * budget. */

#include "tarn/design.h"

struct tarn_pond_place tn_design_place(const struct tarn_design *given);

/* tarn_design_exposure of a place alone. */
enum tarn_status tn_place_exposure(const struct tarn_pond_place *place,
				   const struct tarn_evaporation_report *report,
				   struct tarn_exposure_budget *out,
				   struct tarn_error *err);

/* Multiplies both by the centres, and notes them in the report.  A method
 * without a centre stays as it is.  Errors: TARN_EARG: the place. */
enum tarn_status tn_place_centre(const struct tarn_pond_place *place,
				 struct tarn_evaporation_report *report,
				 size_t days, double *open_water_mm,
				 double *grass_mm, struct tarn_error *err);

/* tarn_evaporation_run with the centre in it.  Errors: those of that. */
enum tarn_status tn_place_run(const struct tarn_pond_place *place,
			      const struct tarn_weather *w,
			      const struct tarn_evaporation_options *o,
			      double *open_water_mm, double *grass_mm,
			      struct tarn_evaporation_report *report,
			      struct tarn_error *err);

#endif
