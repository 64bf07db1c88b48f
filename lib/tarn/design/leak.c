/* SPDX-License-Identifier: MIT */
/* What a description says of its place to the leak fit. */
#include <math.h>

#include "tarn/design/centre.h"

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

/* What the run has of wind and sun where nothing is said of them. */
static double unsaid(const struct tarn_design *d,
		     const struct tarn_exposure_budget *b)
{
	double shelter = wind_said(d) ? b->shelter : 1;
	double shade = sun_said(d) ? b->shade : 1;

	return tarn_exposure_run_factor(TARN_PENMAN_1956, b->shelter,
					b->shade) /
	       tarn_exposure_run_factor(TARN_PENMAN_1956, shelter, shade);
}

struct tarn_leak_prior
tarn_design_leak_prior(const struct tarn_design *d, enum tarn_leak_site site,
		       const struct tarn_evaporation_report *report)
{
	struct tarn_leak_prior p = tarn_leak_prior(site);
	struct tarn_pond_place place = tn_design_place(d);
	struct tarn_exposure_budget b;
	double by = 1;

	if (site == TARN_SITE_MEASURED && !isnan(d->site.measured)) {
		p.mean = d->site.measured;
		p.sd = p.mean * d->site.measured_sd;
	}
	if (!isnan(place.open_water_factor))
		by = p.mean;
	else if (report->method != TARN_GIVEN &&
		 tn_place_exposure(&place, report, &b, NULL) == TARN_OK)
		by = b.measured
			? exp(b.centre_ln)
			: exp(b.mean_ln[TARN_TERM_METHOD] +
			      b.mean_ln[TARN_TERM_SURROUNDINGS]) * unsaid(d, &b);
	p.mean /= by;
	p.sd /= by;
	return p;
}
