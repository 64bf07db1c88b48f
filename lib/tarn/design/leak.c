/* SPDX-License-Identifier: MIT */
/* What a description says of its place to the leak fit. */
#include <math.h>

#include "tarn/design.h"

static int wind_said(const struct tarn_design *d)
{
	return !isnan(d->evaporation.shelter) ||
	       d->site.wind != TARN_WIND_NOT_DESCRIBED;
}

static int sun_said(const struct tarn_design *d)
{
	return !isnan(d->evaporation.shade) ||
	       d->site.sun != TARN_SUN_NOT_DESCRIBED;
}

enum tarn_leak_site tarn_design_leak_site(const struct tarn_design *d)
{
	int said = wind_said(d) + sun_said(d);

	if (!isnan(d->site.measured))
		return TARN_SITE_MEASURED;
	if (d->site.surroundings == TARN_SURROUNDINGS_PAVING ||
	    d->site.surroundings == TARN_SURROUNDINGS_HOT_DRY)
		return said == 2 ? TARN_SITE_PAVED : TARN_SITE_PAVED_ALONE;
	if (said == 2)
		return TARN_SITE_DESCRIBED;
	return said ? TARN_SITE_HALF_DESCRIBED : TARN_SITE_UNDESCRIBED;
}

struct tarn_leak_prior
tarn_design_leak_prior(const struct tarn_design *d, enum tarn_leak_site site,
		       const struct tarn_evaporation_report *report)
{
	struct tarn_leak_prior p = tarn_leak_prior(site);
	double shelter = wind_said(d) ? 1 : TARN_NAN;
	double shade = sun_said(d) ? 1 : TARN_NAN;
	double in_run;

	if (site == TARN_SITE_MEASURED && !isnan(d->site.measured))
		return (struct tarn_leak_prior){
			d->site.measured, d->site.measured * d->site.measured_sd
		};
	tarn_exposure_medians(&d->site, &shelter, &shade, NULL);
	in_run = tarn_exposure_run_factor(report->method, shelter, shade);
	p.mean /= in_run;
	p.sd /= in_run;
	return p;
}
