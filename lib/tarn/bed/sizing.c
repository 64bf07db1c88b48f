/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "judge.h"

static const char *const kinds[] = {
	"none", "slow_planted", "aquaculture", "roughing", "bog", NULL
};
static const char *const directions[] = { "upflow", "horizontal", NULL };
static const char *const lip_places[] = { "middle", "corner", NULL };

#define IN struct tarn_sizing
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 1e-8, 10, TARN_NAN,
		       "through the bed"),
	TARN_IN_NUMBER(IN, turnover_per_h, "turnover", "1/h", 1e-4, 100,
		       TARN_NAN,
		       "pond volumes an hour, where the flow is not given"),
	TARN_IN_NUMBER(IN, pond_area_m2, "pond_area", "m2", 0.01, 1e7, TARN_NAN,
		       "surface of the pond"),
	TARN_IN_NUMBER(IN, pond_volume_m3, "pond_volume", "m3", 1e-3, 1e7,
		       TARN_NAN, "water of the pond"),
	TARN_IN_NUMBER(IN, area_m2, "area", "m2", 1e-3, 1e7, TARN_NAN,
		       "of a bed to judge"),
	TARN_IN_NUMBER(IN, loading_m_d, "loading", "m/d", 1e-4, 1e4, TARN_NAN,
		       "surface loading to size by"),
	{ TARN_CHOICE(IN, kind, "kind", "-", kinds, 0,
		      "loading to size by, by name"), .was = "regime" },
	TARN_IN_NUMBER(IN, surface_share, "surface_share", "-", 1e-4, 10,
		       TARN_NAN, "bed area over pond surface"),
	TARN_IN_NUMBER(IN, volume_share, "volume_share", "-", 1e-4, 10,
		       TARN_NAN, "bed volume, stone and all, over pond volume"),
	TARN_IN_NUMBER(IN, feed_g, "feed_g", "g/d", 0, 1e9, TARN_NAN,
		       "dry feed a day"),
	TARN_IN_VALUE(IN, protein, "protein", "-", 0.1, 0.7, 0.35,
		      "protein in the feed"),
	TARN_IN_NUMBER(IN, ammonia_g, "ammonia_g", "g/d", 0, 1e9, TARN_NAN,
		       "ammonia nitrogen load"),
	TARN_IN_NUMBER(IN, bod_g, "bod_g", "g/d", 0, 1e9, TARN_NAN, "BOD load"),
	TARN_IN_NUMBER(IN, solids_g, "solids_g", "g/d", 0, 1e9, TARN_NAN,
		       "solids load"),
	TARN_IN_NUMBER(IN, pond_target_mgl, "pond_target", "mg/L", 0, 1e6,
		       TARN_NAN,
		       "ammonia nitrogen wanted in the pond when steady"),
	TARN_IN_NUMBER(IN, inlet_mgl, "inlet", "mg/L", 0, 1e6, TARN_NAN,
		       "concentration in, for one pass"),
	TARN_IN_NUMBER(IN, target_mgl, "target", "mg/L", 0, 1e6, TARN_NAN,
		       "concentration out, for one pass"),
	TARN_IN_VALUE(IN, background_mgl, "background", "mg/L", 0, 1e6, 0,
		      "C*, below which no bed gets it"),
	TARN_IN_NUMBER(IN, k_m_yr, "k_m_yr", "m/yr", 0, 1e6, TARN_NAN,
		       "areal removal rate at 20 deg C"),
	TARN_IN_VALUE(IN, theta, "theta", "-", 0.8, 1.4, 1,
		      "temperature factor of the rate per deg C"),
	{ TARN_NUMBER(IN, tanks_in_series, "tanks_in_series", "-", 1, HUGE_VAL,
		      HUGE_VAL,
		      "equal mixed tanks in series; infinity is plug flow"),
	  .required = 1, .was = "tanks" },
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", 0, 40, 20,
		      "temperature of the water"),
	TARN_IN_NUMBER(IN, k_low_m_d, "k_low", "m/d", 0, 1e4, TARN_NAN,
		       "least loading at which the rate was measured"),
	TARN_IN_NUMBER(IN, k_high_m_d, "k_high", "m/d", 1e-6, 1e4, TARN_NAN,
		       "highest loading at which the rate was measured"),
	TARN_IN_VALUE(IN, media_rate, "media_rate", "g/m2/d", 1e-3, 10, 0.2,
		      "nitrogen that a m2 of stone nitrifies a day"),
	TARN_IN_VALUE(IN, safety, "safety", "-", 1, 100, 2,
		      "on the media's rate"),
	TARN_IN_VALUE(IN, bod_limit, "bod_limit", "g/m2/d", 1e-3, 1e4, 6,
		      "BOD on a m2 of bed"),
	TARN_IN_VALUE(IN, solids_limit, "solids_limit", "g/m2/d", 1e-3, 1e4, 20,
		      "solids on a m2 of bed"),
	TARN_IN_VALUE(IN, section_limit, "section_limit", "g/m2/d", 1e-3, 1e5,
		      250, "BOD on a m2 of cross-section of a horizontal bed"),
	TARN_IN_NUMBER(IN, oxygen_mgl, "oxygen", "mg/L", 0, 30, TARN_NAN,
		       "at the inlet"),
	TARN_IN_VALUE(IN, elevation_m, "elevation", "m", -430, 6000, 0,
		      "over the sea"),
	TARN_IN_CHOICE(IN, direction, "direction", directions, 0,
		       "way of the water"),
	TARN_IN_NUMBER(IN, depth_m, "depth", "m", 0.05, 10, TARN_NAN,
		       "wet depth of the bed"),
	TARN_IN_NUMBER(IN, diameter_m, "diameter", "m", 1e-5, 0.5, TARN_NAN,
		       "size of the stone"),
	TARN_IN_NUMBER(IN, porosity, "porosity", "-", 0.05, 0.95, TARN_NAN,
		       "voids of the bed"),
	TARN_IN_VALUE(IN, sphericity, "sphericity", "-", 0.3, 1, 1,
		      "1 sphere, 0.82 rounded, 0.73 crushed"),
	TARN_IN_VALUE(IN, density_kgm3, "density", "kg/m3", 900, 1100, 998.2,
		      "of the water"),
	TARN_IN_VALUE(IN, viscosity_pas, "viscosity", "Pa s", 1e-4, 1e-2,
		      1.0016e-3, "of the water"),
	TARN_IN_VALUE(IN, clogging, "clogging", "-", 1, 1e4, 10,
		      "head loss is so many times the clean one"),
	TARN_IN_NUMBER(IN, width_m, "width", "m", 0.05, 1e4, TARN_NAN,
		       "of the bed, along the lip"),
	TARN_IN_NUMBER(IN, length_m, "length", "m", 0.05, 1e4, TARN_NAN,
		       "longest that fits, from lip to far side"),
	TARN_IN_NUMBER(IN, max_area_m2, "max_area", "m2", 1e-3, 1e7, TARN_NAN,
		       "largest that fits"),
	{ TARN_NUMBER(IN, available_head_m, "available_head", "m", -10, 100,
		      TARN_NAN,
		      "bed lip over pond level, or what the pump has left"),
	  .was = "head" },
	{ TARN_NUMBER(IN, lip_head_m, "lip_head", "m", 0, 10, 0,
		      "water over the lip at this flow"),
	  .required = 1, .was = "outlet_head" },
	TARN_IN_NUMBER(IN, lip_m, "lip", "m", 0.01, 1e4, TARN_NAN,
		       "width of the lip; the bed's if not given"),
	TARN_IN_CHOICE(IN, lip_place, "lip_place", lip_places, 0,
		       "where on its side the lip is"),
	TARN_IN_NUMBER(IN, trough_width_m, "trough_width", "m", 0.02, 10,
		       TARN_NAN, "of an open trough along the lip's side"),
	TARN_IN_NUMBER(IN, trough_depth_m, "trough_depth", "m", 0.005, 5,
		       TARN_NAN, "of its floor under the lip"),
	{ TARN_NUMBER(IN, cover_m, "cover", "m", -1, 10, TARN_NAN,
		      "top of the gravel over the lip"), .was = "freeboard" },
	TARN_IN_LIST(IN, layer, layer_count, "layers", tarn_layer_fields, 1,
		     TARN_LAYERS_MAX, "from the bottom"),
};

TARN_FIELDS(tarn_sizing_fields, "size", rows);
TARN_DEFAULT(IN, tarn_sizing_default, tarn_sizing_fields)

void tarn_sizing_set_rate(struct tarn_sizing *in, const struct tarn_rate *rate)
{
	struct tarn_treatment t = tarn_treatment_default();

	t.inlet_mgl = in->inlet_mgl;
	t.background_mgl = in->background_mgl;
	tarn_treatment_set_rate(&t, rate);
	in->k_m_yr = !isnan(t.k_m_yr) ? t.k_m_yr
		: tarn_areal_rate(t.k_per_day, in->depth_m, in->porosity);
	in->theta = t.theta;
	in->tanks_in_series = t.tanks_in_series;
	in->background_mgl = t.background_mgl;
	in->k_low_m_d = t.k_low_m_d;
	in->k_high_m_d = t.k_high_m_d;
}

static enum tarn_status missing(struct tarn_error *err, const char *field,
				const char *why)
{
	return tarn_fail(err, TARN_EARG, field, "is missing: %s", why);
}

/* Loads that are not given come from the feed. */
static enum tarn_status fill_loads(struct tarn_sizing *s,
				   struct tarn_error *err)
{
	struct tarn_waste w = tarn_waste_default();
	struct tarn_waste_result r;
	enum tarn_status st;

	if (isnan(s->feed_g))
		return TARN_OK;
	w.feed_g = s->feed_g;
	w.protein = s->protein;
	st = tarn_waste(&w, &r, err);
	if (st != TARN_OK)
		return st;
	if (isnan(s->ammonia_g))
		s->ammonia_g = r.ammonia_g;
	if (isnan(s->bod_g))
		s->bod_g = r.bod_g;
	if (isnan(s->solids_g))
		s->solids_g = r.solids_g;
	return TARN_OK;
}

/* What is asked must have what it takes, and be possible at all. */
static enum tarn_status check_sense(const struct tarn_sizing *s,
				    struct tarn_error *err)
{
	double wanted = s->pond_target_mgl;
	const char *field = "size.pond_target";

	if (!isnan(wanted) && isnan(s->ammonia_g))
		return missing(err, "size.ammonia_g",
			       "pond_target needs the load (or feed_g)");
	if ((!isnan(wanted) || !isnan(s->target_mgl)) && isnan(s->k_m_yr))
		return missing(err, "size.k_m_yr", "a target needs the "
			       "removal rate of the bed");
	if (!isnan(s->target_mgl) && isnan(s->inlet_mgl))
		return missing(err, "size.inlet", "target needs it");
	if (isnan(s->trough_width_m) != isnan(s->trough_depth_m))
		return missing(err, isnan(s->trough_width_m)
			       ? "size.trough_width" : "size.trough_depth",
			       "a trough has both");
	if (!(wanted <= s->background_mgl)) {
		wanted = s->target_mgl;
		field = "size.target";
	}
	if (wanted <= s->background_mgl)
		return tarn_fail(err, TARN_EARG, field, "of %g mg/L is "
				 "impossible: no bed of any size gets below "
				 "the background of %g mg/L", wanted,
				 s->background_mgl);
	return tn_bed_loadings_check("size", s->k_low_m_d, s->k_high_m_d, err);
}

enum tarn_status tn_sizing_prepare(const struct tarn_sizing *in,
				   struct tarn_sizing *out,
				   struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_sizing_fields, in, err);

	if (st != TARN_OK)
		return st;
	*out = *in;
	if (isnan(out->flow_m3s))
		out->flow_m3s = out->turnover_per_h * out->pond_volume_m3 /
				3600;
	st = fill_loads(out, err);
	return st == TARN_OK ? check_sense(out, err) : st;
}
