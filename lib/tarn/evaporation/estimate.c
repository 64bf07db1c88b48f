/* SPDX-License-Identifier: MIT */
#include "internal.h"
#include "formulas.h"

void tn_place_at(struct place *p, double elevation_m)
{
	double z = elevation_m;

	if (isnan(z)) {
		z = 0;
		p->origins |= BIT(TARN_ORIGIN_SEA_LEVEL);
	}
	p->clear_share = tarn_sun_clear_sky(1, z);
	p->psychrometric_kpa_c = raw_psychrometric(tarn_air_pressure(z));
}

/* FAO-56 chapter 3, "Calculation procedures": the best that is there. */
static double vapour(const struct place *p,
		     const struct tarn_evaporation_day *d, double e_min,
		     double e_max, unsigned *origins)
{
	enum tarn_origin origin;
	double e;

	if (!isnan(d->vapour_kpa)) {
		origin = TARN_ORIGIN_VAPOUR;
		e = d->vapour_kpa;
	} else if (!isnan(d->dewpoint_c)) {
		origin = TARN_ORIGIN_DEWPOINT;
		e = raw_saturation(d->dewpoint_c);
	} else if (!isnan(d->rh_max) && !isnan(d->rh_min)) {
		origin = TARN_ORIGIN_RH_RANGE;
		e = (e_min * d->rh_max + e_max * d->rh_min) / 200;
	} else if (!isnan(d->rh_max)) {
		origin = TARN_ORIGIN_RH_MAX;
		e = e_min * d->rh_max / 100;
	} else if (!isnan(d->rh_mean)) {
		origin = TARN_ORIGIN_RH_MEAN;
		e = (e_min + e_max) / 2 * d->rh_mean / 100;
	} else {
		origin = TARN_ORIGIN_HUMIDITY_TMIN;
		e = p->dryness_c > 0 ? raw_saturation(d->tmin_c - p->dryness_c)
				     : e_min;
	}
	*origins |= BIT(origin);
	return e;
}

static double solar(const struct place *p, const struct sun *sun,
		    const struct tarn_evaporation_day *d, double clear_mj,
		    unsigned *origins)
{
	if (!isnan(d->solar_mj)) {
		*origins |= BIT(TARN_ORIGIN_SOLAR);
		return d->solar_mj;
	}
	if (!isnan(d->sunshine_h)) {
		double share = sun->daylight_h > 0
			? d->sunshine_h / sun->daylight_h : 0;

		*origins |= BIT(TARN_ORIGIN_SUNSHINE);
		if (d->sunshine_h > sun->seen_h + TARN_SUNSHINE_OVER_H)
			*origins |= BIT(TARN_ORIGIN_ABOVE_CLEAR_SKY);
		return (0.25 + 0.50 * fmin(share, 1)) * sun->top_mj;
	}
	*origins |= BIT(TARN_ORIGIN_SOLAR_RANGE);
	return fmin(p->range_factor * sqrt(d->tmax_c - d->tmin_c) *
			    sun->top_mj, clear_mj);
}

static void radiation(const struct place *p, const struct sun *sun,
		      const struct tarn_evaporation_day *d,
		      struct tarn_conditions *c)
{
	double emission = (raw_emission(d->tmin_c) + raw_emission(d->tmax_c)) /
			  2;

	c->top_mj = sun->top_mj;
	c->clear_mj = p->clear_share * sun->top_mj;
	c->solar_mj = TARN_NAN;
	c->clearness = TARN_NAN;
	if (!isnan(sun->top_mj)) {
		c->solar_mj = solar(p, sun, d, c->clear_mj, &c->origins);
		c->clearness = c->solar_mj / c->clear_mj;
	}
	if (c->clearness > 1 + TARN_SOLAR_OVER)
		c->origins |= BIT(TARN_ORIGIN_ABOVE_CLEAR_SKY);
	if (c->clearness > 1)
		c->clearness = 1;
	/* No sun tells how cloudy the sky is: half-way, after FAO-56's
	 * advice for nights, 0.4 to 0.6 in humid climates. */
	if (c->clear_mj <= 0) {
		c->clearness = 0.5;
		c->origins &= ~BIT(TARN_ORIGIN_ABOVE_CLEAR_SKY);
		c->origins |= BIT(TARN_ORIGIN_DARK);
	}
	c->longwave_mj = raw_net_longwave(emission, c->vapour_kpa,
					  c->clearness);
}

void tn_place_conditions(const struct place *p, const struct sun *sun,
			 const struct tarn_evaporation_day *d,
			 struct tarn_conditions *c)
{
	double e_min = raw_saturation(d->tmin_c);
	double e_max = raw_saturation(d->tmax_c);

	c->origins = p->origins;
	c->tmin_c = d->tmin_c;
	c->tmax_c = d->tmax_c;
	c->tmean_c = isnan(d->tmean_c) ? (d->tmin_c + d->tmax_c) / 2
				       : d->tmean_c;
	c->saturation_kpa = (e_min + e_max) / 2;
	c->saturation_mean_kpa = raw_saturation(c->tmean_c);
	c->slope_kpa_c = raw_slope(c->saturation_mean_kpa, c->tmean_c);
	c->vapour_kpa = vapour(p, d, e_min, e_max, &c->origins);
	c->psychrometric_kpa_c = isnan(d->pressure_kpa)
		? p->psychrometric_kpa_c : raw_psychrometric(d->pressure_kpa);
	if (isnan(d->wind_2m_ms)) {
		c->wind_2m_ms = p->wind_2m_ms;
		c->origins |= BIT(TARN_ORIGIN_WIND_DEFAULT);
	} else {
		c->wind_2m_ms = d->wind_2m_ms;
		c->origins |= BIT(TARN_ORIGIN_WIND);
	}
	radiation(p, sun, d, c);
}
